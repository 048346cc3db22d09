//! `solve(case)` gives the [`Outcome`]: the order in which everything happens.

use alloc::vec::Vec;

use crate::absorber::Pull;
use crate::arrest::{self, Fall, Run, Wanted};
use crate::balance::balance;
use crate::case::{Case, GearKind, Line};
use crate::constants::{GRAVITY_M_PER_S2, MODEL_VERSION, RESIDUAL_MAX, SLOPE_MAX};
use crate::fault::{Fault, FieldRef};
use crate::hash::Hash;
use crate::line::{AtRest, PointLoad, settle};
use crate::maths::sqrt;
use crate::ready::Ready;
use crate::scope;
use crate::stack;
use crate::swing;

pub use crate::outcome::{
    Balance, Doubt, Energy, Hanging, History, Method, Outcome, Rest, Stack, SupportPeak, Swing,
    Traces, WorkerOutcome,
};

/// A D-ring this much above the line still counts as level with it, m: about what a line sags at
/// rest. Common practice, no source.
const LEVEL_WITHIN_M: f64 = 0.1;

/// A given free fall that is raised by no more than this is not spoken of, m: half of what is shown.
const FREE_FALL_STEP_M: f64 = 0.005;

/// What the caller wants beside the numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Options {
    /// Record the time traces that the animation and the charts need.
    pub traces: bool,
    /// Multiplies the nodes and divides the step of the time history, 1 to [`REFINE_MAX`]; 1 is the
    /// standard.
    pub refine: i64,
}

/// Greatest refinement of a time history.
pub const REFINE_MAX: i64 = 8;

impl Options {
    /// What was found, when these options can be had as well.
    ///
    /// # Errors
    /// The faults found, and that of a refinement out of range, whose field is `options.refine`.
    pub fn with<T>(self, found: Result<T, Vec<Fault>>) -> Result<T, Vec<Fault>> {
        if (1..=REFINE_MAX).contains(&self.refine) {
            return found;
        }
        let mut faults = found.err().unwrap_or_default();
        faults.push(Fault::OutOfRange {
            field: FieldRef::new("options.refine"),
            value: self.refine as f64,
            min: 1.0,
            max: REFINE_MAX as f64,
        });
        Err(faults)
    }
}

impl Default for Options {
    fn default() -> Self {
        Self {
            traces: false,
            refine: 1,
        }
    }
}

impl Ready {
    /// Solves it, see [`solve`].
    pub fn solve(&self, options: Options) -> Outcome {
        let [outcome] = solve_each([(self, options)]);
        outcome
    }
}

/// Solves a case: the line at rest, the energy balance, the time history (its step chosen from the
/// balance's tension), the stacks, the hanging state, the doubts.
///
/// # Errors
/// Every fault of case and options, when there is one.
pub fn solve(case: &Case, options: Options) -> Result<Outcome, Vec<Fault>> {
    Ok(options.with(case.ready())?.solve(options))
}

/// Solves several cases, each to the same bits as alone: time histories of lines cut alike run
/// side by side.
pub(crate) fn solve_each<const N: usize>(cases: [(&Ready, Options); N]) -> [Outcome; N] {
    let mut solved = solve_all(&cases).into_iter();
    core::array::from_fn(|_| solved.next().unwrap_or_default())
}

/// [`solve_each`] of any number, compiled once: the page is downloaded.
pub(crate) fn solve_all(cases: &[(&Ready, Options)]) -> Vec<Outcome> {
    let mut asked: Vec<Asked<'_>> = Vec::new();
    for (ready, options) in cases {
        let before = asked.last().map(|a| (a.case, a.balance.clone()));
        asked.push(Asked::of(ready.case(), *options, before.as_ref()));
    }
    let runs = arrest::runs(asked.iter().map(|a| (a.case, a.wanted())));
    (asked.iter().zip(runs))
        .map(|(a, mut run)| a.outcome(&mut run))
        .collect()
}

/// How much one run of a case moves, and whether a personal absorber is expected to be used up in it.
pub(crate) fn size(ready: &Ready) -> (u64, bool) {
    let asked = Asked::of(ready.case(), Options::default(), None);
    (asked.node_steps(), asked.wanted().used_up)
}

/// A case with all that is known before its time history.
struct Asked<'a> {
    case: &'a Case,
    options: Options,
    at_rest: AtRest,
    balance: Balance,
    /// Drop at which each worker's soles reach what is below, m.
    strike_drop_m: Vec<f64>,
}

impl<'a> Asked<'a> {
    /// `before`: another case and its balance, which is this one's when line and workers are the
    /// same.
    fn of(case: &'a Case, options: Options, before: Option<&(&Case, Balance)>) -> Self {
        let at_rest = AtRest::of(&case.line);
        let same = |b: &&(&Case, Balance)| b.0.line == case.line && b.0.workers == case.workers;
        Self {
            case,
            options,
            at_rest,
            balance: before
                .filter(same)
                .map_or_else(|| balance(case, &at_rest), |b| b.1.clone()),
            strike_drop_m: case
                .workers
                .iter()
                .map(|w| {
                    stack::available_m(case, w)
                        - case.line.height_above_beam_m
                        - w.harness_stretch_m
                })
                .collect(),
        }
    }

    fn wanted(&self) -> Wanted<'_> {
        Wanted {
            tension_expected_n: self.balance.tension_horizontal_n,
            used_up: (self
                .case
                .workers
                .iter()
                .zip(&self.balance.absorber_extension_m))
            .any(|(w, m)| w.gear.absorber.is_some_and(|a| *m >= a.extension_most_m())),
            refine: self.options.refine.clamp(1, REFINE_MAX) as usize,
            traces: self.options.traces,
            strike_drop_m: &self.strike_drop_m,
        }
    }

    /// How much its run moves, see [`arrest::node_steps`].
    fn node_steps(&self) -> u64 {
        arrest::node_steps(self.case, self.wanted())
    }

    /// The answer; support peaks and traces are taken out of the run.
    fn outcome(&self, run: &mut Run) -> Outcome {
        let case = self.case;
        let workers: Vec<WorkerOutcome> = (0..case.workers.len())
            .map(|i| worker_outcome(case, i, &self.balance, &run.falls[i]))
            .collect();
        let governing = (0..workers.len())
            .filter(|&i| workers[i].fell)
            .min_by(|&a, &b| {
                let footroom = |i: usize| workers[i].stack.footroom_m;
                footroom(a).total_cmp(&footroom(b))
            })
            .unwrap_or(0);
        let hanging = hanging(case, &self.at_rest, run);
        let deflections_m: Vec<f64> = workers.iter().map(|w| w.line_deflection_max_m).collect();
        let mut outcome = Outcome {
            model_version: MODEL_VERSION,
            fingerprint: 0,
            footroom_m: workers[governing].stack.footroom_m,
            governing_worker: governing,
            governing_method: workers[governing].method,
            doubts: doubts(case, run, &workers),
            outside_checked: scope::outside(case, &deflections_m),
            rest: rest(&case.line, &self.at_rest),
            workers,
            balance: self.balance.clone(),
            history: run.history,
            supports: core::mem::take(&mut run.supports),
            hanging,
            traces: run.traces.take(),
        };
        outcome.fingerprint = fingerprint(&outcome);
        outcome
    }
}

fn rest(line: &Line, at_rest: &AtRest) -> Rest {
    let h = line.pretension_n;
    let w = line.weight_n_per_m();
    let longest = line.spans_m.iter().fold(0.0_f64, |a, &b| a.max(b));
    let v = 0.5 * w * longest;
    Rest {
        sag_m: line.spans_m.iter().map(|l| w * l * l / (8.0 * h)).collect(),
        tension_horizontal_n: h,
        tension_max_n: sqrt(h * h + v * v),
        unstretched_length_m: at_rest.unstretched_m,
    }
}

fn worker_outcome(case: &Case, i: usize, balance: &Balance, fall: &Fall) -> WorkerOutcome {
    let worker = &case.workers[i];
    let fell = worker.fall_time_s.is_some();
    let rest_m = case.line.rest_deflection_m(worker.position_m);
    let free_fall_m = worker.free_fall_m(&case.line);
    let (balance_stack, history_stack) = if fell {
        let moved = fall.deflection_at_lowest_m - rest_m;
        (
            stack::stack(case, worker, balance.deflection_m[i], balance.stretch_m[i]),
            stack::stack(
                case,
                worker,
                fall.deflection_at_lowest_m,
                // Not below zero where the motion was not followed to its lowest point.
                (fall.drop_max_m - moved - free_fall_m).max(0.0),
            ),
        )
    } else {
        let standing = stack::stack(case, worker, rest_m, 0.0);
        (standing, standing)
    };
    let by_history = history_stack.required_m >= balance_stack.required_m;
    let stack = if by_history {
        history_stack
    } else {
        balance_stack
    };
    let deflection_max_m = if fell { fall.deflection_max_m } else { rest_m };
    WorkerOutcome {
        fell,
        free_fall_m,
        arrest_force_max_n: fall.arrest_force_max_n,
        absorber_extension_m: fall.extension_m,
        stretch_max_m: fall.stretch_max_m,
        absorber_used_up: fall.used_up,
        drop_first_lowest_m: fall.drop_first_lowest_m,
        time_first_lowest_s: fall.time_first_lowest_s,
        drop_max_m: fall.drop_max_m,
        time_lowest_s: fall.time_lowest_s,
        line_deflection_max_m: deflection_max_m,
        line_height_min_m: case.line.height_above_beam_m - deflection_max_m,
        standing_reach_m: swing::standing_reach_m(worker, &case.line),
        swing: swing::swing(worker, &case.line, &stack),
        stack,
        method: if by_history {
            Method::TimeHistory
        } else {
            Method::EnergyBalance
        },
        balance_stack,
        history_stack,
    }
}

/// Everybody who fell hangs still on his gear, absorbers left extended.
fn hanging(case: &Case, at_rest: &AtRest, run: &Run) -> Hanging {
    let line = &case.line;
    let loads: Vec<PointLoad> = case
        .workers
        .iter()
        .map(|w| PointLoad {
            position_m: w.position_m,
            force_n: w.fall_time_s.map_or(0.0, |_| w.mass_kg * GRAVITY_M_PER_S2),
        })
        .collect();
    let still = settle(line, at_rest, &loads, run.history.inline_end_extension_m);
    let drop_m: Vec<f64> = case
        .workers
        .iter()
        .enumerate()
        .map(|(i, w)| {
            if w.fall_time_s.is_none() {
                return 0.0;
            }
            let force = loads[i].force_n;
            still.deflection_m[i] - line.rest_deflection_m(w.position_m)
                + w.free_fall_m(line)
                + Pull::new(&w.gear).elastic_stretch_m(force, run.falls[i].extension_m)
                + run.falls[i].extension_m
        })
        .collect();
    let soles_above_m = case
        .workers
        .iter()
        .zip(&drop_m)
        .map(|(w, drop)| {
            let allowance = if w.fall_time_s.is_some() {
                w.harness_stretch_m
            } else {
                0.0
            };
            stack::available_m(case, w) - line.height_above_beam_m - drop - allowance
        })
        .collect();
    Hanging {
        tension_horizontal_n: still.tension_horizontal_n,
        tension_left_end_n: still.tension_left_end_n,
        tension_right_end_n: still.tension_right_end_n,
        tension_max_n: still.tension_max_n,
        left_end_movement_m: still.left_end_movement_m,
        right_end_movement_m: still.right_end_movement_m,
        deflection_m: still.deflection_m,
        drop_m,
        soles_above_m,
        force_n: loads.iter().map(|l| l.force_n).collect(),
    }
}

fn beyond_breaking(tension_n: f64, breaking_force_n: Option<f64>) -> Option<Doubt> {
    let breaking_force_n = breaking_force_n.filter(|n| tension_n > *n)?;
    Some(Doubt::BeyondBreaking {
        tension_n,
        breaking_force_n,
    })
}

impl Outcome {
    /// The same with another breaking force of the rope, N, which the motion does not know.
    pub(crate) fn rate_rope(&mut self, breaking_force_n: Option<f64>) {
        let doubts = &mut self.doubts;
        doubts.retain(|d| !matches!(d, Doubt::BeyondBreaking { .. }));
        let beyond = beyond_breaking(self.history.tension_max_n, breaking_force_n);
        // It is the first, see `doubts`.
        doubts.splice(0..0, beyond);
    }
}

fn doubts(case: &Case, run: &Run, workers: &[WorkerOutcome]) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    let tension_n = run.history.tension_max_n;
    doubts.extend(beyond_breaking(tension_n, case.line.rope.breaking_force_n));
    if run.slope_max > SLOPE_MAX {
        doubts.push(Doubt::TooSteep {
            slope: run.slope_max,
            slope_max: SLOPE_MAX,
        });
    }
    let residual_ratio = run.history.energy.residual_ratio;
    // Energies that are no numbers do not add up either.
    if residual_ratio.is_nan() || residual_ratio > RESIDUAL_MAX {
        doubts.push(Doubt::LedgerOpen { residual_ratio });
    }
    let mut extensions_m = run.history.inline_end_extension_m.into_iter();
    if let Some(inline) = case.line.inline_absorber
        && extensions_m.any(|m| m >= inline.max_extension_m)
    {
        doubts.push(Doubt::InlineAbsorberUsedUp { tension_n });
    }
    for (worker, (w, fall)) in case.workers.iter().zip(&run.falls).enumerate() {
        if w.fall_time_s.is_none() {
            continue;
        }
        if !fall.turned {
            doubts.push(Doubt::NotFinished { worker });
        }
        if fall.used_up {
            doubts.push(Doubt::AbsorberUsedUp {
                worker,
                arrest_force_n: fall.arrest_force_max_n,
            });
        }
        if let Some((time_s, speed_m_per_s)) = fall.struck {
            doubts.push(Doubt::Strikes {
                worker,
                time_s,
                speed_m_per_s,
            });
        }
        let dring_above_m = w.dring_above_line_m(&case.line);
        if w.gear.kind == GearKind::SelfRetracting && dring_above_m > LEVEL_WITHIN_M {
            doubts.push(Doubt::RetractingBelowDring {
                worker,
                dring_above_m,
                free_fall_m: workers[worker].free_fall_m,
            });
        }
        if let Some(given_m) = w.gear.free_fall_m
            && dring_above_m - given_m > FREE_FALL_STEP_M
        {
            doubts.push(Doubt::FreeFallRaised {
                worker,
                given_m,
                free_fall_m: dring_above_m,
            });
        }
        if let Some(swing) = workers[worker].swing
            && swing.below_stack_m > 0.0
        {
            doubts.push(Doubt::SwingsBelowStack {
                worker,
                below_stack_m: swing.below_stack_m,
            });
        }
    }
    doubts
}

/// Over the bits of the reported numbers.
fn fingerprint(outcome: &Outcome) -> u64 {
    let mut hash = Hash::default();
    let mut add = |value: f64| hash.number(value);
    add(f64::from(outcome.model_version));
    add(outcome.footroom_m);
    for w in &outcome.workers {
        add(w.arrest_force_max_n);
        add(w.absorber_extension_m);
        add(w.stretch_max_m);
        add(w.drop_max_m);
        add(w.time_lowest_s);
        add(w.balance_stack.required_m);
        add(w.history_stack.required_m);
    }
    add(outcome.balance.tension_max_n);
    add(outcome.history.tension_max_n);
    add(outcome.history.inline_extension_m);
    add(outcome.history.energy.residual_ratio);
    add(outcome.hanging.tension_max_n);
    for &soles in &outcome.hanging.soles_above_m {
        add(soles);
    }
    hash.value()
}

#[cfg(test)]
mod tests {
    use alloc::vec;

    use super::*;
    use crate::case::{InlineAbsorber, Worker};

    /// What is doubted of a run with these numbers, of whom alone he is said to have turned.
    fn doubted(case: &Case, slope_max: f64, residual_ratio: f64, ends_m: [f64; 2]) -> Vec<Doubt> {
        let workers = solve(case, Options::default())
            .expect("a case without faults")
            .workers;
        let mut history = History {
            inline_end_extension_m: ends_m,
            ..History::default()
        };
        history.energy.residual_ratio = residual_ratio;
        let turned = Fall {
            turned: true,
            ..Fall::default()
        };
        let run = Run {
            falls: vec![turned; workers.len()],
            supports: Vec::new(),
            history,
            slope_max,
            traces: None,
            steps_tried: 0,
        };
        doubts(case, &run, &workers)
    }

    fn case() -> Case {
        Case {
            workers: vec![Worker {
                position_m: 4.5,
                ..Worker::default()
            }],
            ..Case::default()
        }
    }

    /// A ledger is open beyond its limit, not at it, and where it is no number.
    #[test]
    fn an_open_ledger_and_a_steep_line_are_doubted_beyond_their_limits() {
        let case = case();
        let open = |residual: f64| {
            let doubts = doubted(&case, 0.0, residual, [0.0; 2]);
            doubts.iter().any(|d| matches!(d, Doubt::LedgerOpen { .. }))
        };
        assert!(!open(0.0) && !open(RESIDUAL_MAX));
        assert!(open(1.01 * RESIDUAL_MAX) && open(f64::NAN));
        assert!(doubted(&case, SLOPE_MAX, 0.0, [0.0; 2]).is_empty());
        let steep = doubted(&case, 1.01 * SLOPE_MAX, 0.0, [0.0; 2]);
        assert!(matches!(steep[..], [Doubt::TooSteep { .. }]), "{steep:?}");
    }

    /// One at its end is enough, whichever.
    #[test]
    fn an_inline_absorber_at_its_end_is_doubted_at_either_end() {
        let mut case = case();
        case.line.inline_absorber = Some(InlineAbsorber {
            max_extension_m: 0.5,
            ..InlineAbsorber::default()
        });
        for (ends_m, used_up) in [
            ([0.0, 0.0], false),
            ([0.49, 0.49], false),
            ([0.5, 0.0], true),
            ([0.0, 0.5], true),
        ] {
            let doubts = doubted(&case, 0.0, 0.0, ends_m);
            let found = doubts
                .iter()
                .any(|d| matches!(d, Doubt::InlineAbsorberUsedUp { .. }));
            assert_eq!(found, used_up, "{ends_m:?}");
        }
    }

    /// A rope rated anew has its doubt first, once, or not at all.
    #[test]
    fn a_rope_rated_anew_is_doubted_by_its_new_strength() {
        let mut outcome = solve(&case(), Options::default()).expect("a case without faults");
        outcome.doubts = vec![Doubt::LedgerOpen {
            residual_ratio: 1.0,
        }];
        let tension_n = outcome.history.tension_max_n;
        let beyond = |outcome: &Outcome| {
            let is = |d: &Doubt| matches!(d, Doubt::BeyondBreaking { .. });
            outcome.doubts.iter().map(is).collect::<Vec<_>>()
        };
        outcome.rate_rope(Some(tension_n));
        assert_eq!(beyond(&outcome), [false]);
        for _ in 0..2 {
            outcome.rate_rope(Some(0.9 * tension_n));
            assert_eq!(beyond(&outcome), [true, false]);
        }
        outcome.rate_rope(None);
        assert_eq!(beyond(&outcome), [false]);
    }
}
