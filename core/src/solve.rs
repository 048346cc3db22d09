//! The answer: `solve(case)` gives the [`Outcome`], and the order in which everything happens.

use alloc::vec::Vec;

use crate::absorber::Pull;
use crate::arrest::{self, Fall, Run, Wanted};
use crate::balance::balance;
use crate::case::{Case, GearKind, Line};
use crate::constants::{GRAVITY_M_PER_S2, MODEL_VERSION, RESIDUAL_MAX, SLOPE_MAX};
use crate::fault::{Fault, FieldRef};
use crate::line::{AtRest, PointLoad, settle};
use crate::maths::sqrt;
use crate::ready::Ready;
use crate::scope::{self, Outside};
use crate::stack;
use crate::swing;

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

/// The whole answer to a case. All values SI, all finite.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Outcome {
    /// [`crate::constants::MODEL_VERSION`] that gave it.
    pub model_version: u32,
    /// Hash of every reported number, bit by bit; equal answers have equal fingerprints.
    pub fingerprint: u64,
    /// Room left under the governing worker's soles once the margin is kept, m; negative: short.
    pub footroom_m: f64,
    /// Worker with the least footroom, counted from 0.
    pub governing_worker: usize,
    /// Method that asks for more clearance under him.
    pub governing_method: Method,
    /// Reasons why the number may not be relied on; empty: none was found.
    pub doubts: Vec<Doubt>,
    /// What of the case and this answer lies outside the region in which the model was checked;
    /// empty: nothing.
    pub outside_checked: Vec<Outside>,
    /// The line at rest.
    pub rest: Rest,
    /// Each worker, in the order of the case.
    pub workers: Vec<WorkerOutcome>,
    /// The energy balance method.
    pub balance: Balance,
    /// The time history method.
    pub history: History,
    /// Greatest forces of the line on its supports, left to right, both ends included.
    pub supports: Vec<SupportPeak>,
    /// Everything that hangs on the line after the arrest, at rest.
    pub hanging: Hanging,
    /// Time traces, when asked for.
    pub traces: Option<Traces>,
}

/// The two methods.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Method {
    /// All stop at one instant; gravity work equals elastic and plastic work.
    EnergyBalance,
    /// The motion computed step by step.
    #[default]
    TimeHistory,
}

/// A reason why a number may not be relied on; which of them take it away says
/// [`Doubt::takes_away`].
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "doubt"))]
#[non_exhaustive]
pub enum Doubt {
    /// The line tension exceeds the rope's breaking force.
    BeyondBreaking {
        /// Greatest line tension, N.
        tension_n: f64,
        /// Breaking force of the rope, N.
        breaking_force_n: f64,
    },
    /// The line grows so steep that vertical motion no longer describes the fall.
    TooSteep {
        /// Greatest slope of the line, vertical over horizontal.
        slope: f64,
        /// Greatest slope that the model is taken to describe.
        slope_max: f64,
    },
    /// The personal absorber of a worker was used up and went stiff.
    AbsorberUsedUp {
        /// The worker, counted from 0.
        worker: usize,
        /// Arrest force reached, N.
        arrest_force_n: f64,
    },
    /// The in-line absorber was used up and went stiff.
    InlineAbsorberUsedUp {
        /// Greatest line tension, N.
        tension_n: f64,
    },
    /// A worker comes down on what is below before he is stopped.
    Strikes {
        /// The worker, counted from 0.
        worker: usize,
        /// When his soles reach it, s.
        time_s: f64,
        /// How fast, m/s.
        speed_m_per_s: f64,
    },
    /// The energy ledger of the time history does not close to 0.1 %.
    LedgerOpen {
        /// Its residual, as a part of the work of gravity.
        residual_ratio: f64,
    },
    /// The motion had not reached its lowest point when the simulated time ended.
    NotFinished {
        /// The worker, counted from 0.
        worker: usize,
    },
    /// A worker's self-retracting lifeline is clipped below his D-ring: he falls freely until the
    /// D-ring has come down to the line, and only then does it lock. The free fall is then more than
    /// such gear is tested for, unless its maker says otherwise.
    ///
    /// Source: ANSI/ASSP Z359.14, from memory: class 1 for an anchorage at or above the D-ring and
    /// 0.6 m (2 ft) of free fall, class 2 also for one up to 1.5 m (5 ft) below it.
    RetractingBelowDring {
        /// The worker, counted from 0.
        worker: usize,
        /// How far the D-ring is above the line, m.
        dring_above_m: f64,
        /// His free fall, m.
        free_fall_m: f64,
    },
    /// The free fall that was given for a worker ends before his D-ring has come down to the line,
    /// where no gear is taut: it was taken as ending there.
    FreeFallRaised {
        /// The worker, counted from 0.
        worker: usize,
        /// Free fall given, m.
        given_m: f64,
        /// Free fall calculated with, m: how far the D-ring is above the line.
        free_fall_m: f64,
    },
    /// A worker swings to a point deeper than his stack counts.
    SwingsBelowStack {
        /// The worker, counted from 0.
        worker: usize,
        /// By how much, m, see [`Swing::below_stack_m`].
        below_stack_m: f64,
    },
}

/// The line at rest.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Rest {
    /// Greatest sag of each span, m.
    pub sag_m: Vec<f64>,
    /// Horizontal tension, N.
    pub tension_horizontal_n: f64,
    /// Tension at the end of the longest span, N.
    pub tension_max_n: f64,
    /// Unstretched length of rope between the end posts, m.
    pub unstretched_length_m: f64,
}

/// One worker's fall.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct WorkerOutcome {
    /// Did he fall, or did he stay standing?
    pub fell: bool,
    /// Free fall before his gear was taut, m.
    pub free_fall_m: f64,
    /// Greatest arrest force, N (time history).
    pub arrest_force_max_n: f64,
    /// Extension of his absorber at the end, m (time history).
    pub absorber_extension_m: f64,
    /// Greatest stretch of his gear, webbing and absorber together, at any instant, m (time history).
    /// That need not be the instant of his lowest point: while the line comes up again under him, or
    /// another falls, the gear may be longer.
    pub stretch_max_m: f64,
    /// Whether his absorber was used up (time history).
    pub absorber_used_up: bool,
    /// Drop of his mass from standing to the first lowest point, m (time history).
    pub drop_first_lowest_m: f64,
    /// Instant of that point, s.
    pub time_first_lowest_s: f64,
    /// Greatest drop of his mass from standing, m (time history).
    pub drop_max_m: f64,
    /// Instant of the greatest drop, s.
    pub time_lowest_s: f64,
    /// Greatest deflection of the line at his connector below the supports, m (time history).
    pub line_deflection_max_m: f64,
    /// Greatest depth of his connector below the level of the supports, as the height of the line
    /// above the beam there, m (time history); for one who stays standing: how far down the line
    /// he is clipped to is pulled.
    pub line_height_min_m: f64,
    /// How far from his connector his lanyard lets him stand, level, m: √(L² − v²) with L its length
    /// and v the way from the line down to his D-ring (geometry, no source); `None`: he is on a
    /// self-retracting lifeline.
    pub standing_reach_m: Option<f64>,
    /// What standing away from his connector brings; `None`: he stands right below it.
    pub swing: Option<Swing>,
    /// The stack at his lowest instant, from the method that asks for more.
    pub stack: Stack,
    /// The method that asks for more.
    pub method: Method,
    /// The stack by the energy balance method.
    pub balance_stack: Stack,
    /// The stack by the time history.
    pub history_stack: Stack,
}

impl WorkerOutcome {
    /// Deceleration distance, m: the greatest stretch of his gear by either method, at whatever
    /// instant. Free fall and the movement of the lifeline are not in it (29 CFR 1926.500(b),
    /// definition).
    pub fn deceleration_m(&self) -> f64 {
        self.stretch_max_m
            .max(self.history_stack.absorber_extension_m)
            .max(self.balance_stack.absorber_extension_m)
    }
}

/// Swing fall of a worker who goes over away from his connector: geometry of his gear, no source,
/// see `swing.rs`. No length of it stands in the stack, and no force follows from it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Swing {
    /// Horizontal distance from the connector to where he goes over, m: √(along² + edge²).
    pub offset_m: f64,
    /// That is farther than [`WorkerOutcome::standing_reach_m`]: his lanyard does not let him stand
    /// there.
    pub beyond_reach: bool,
    /// Length of his gear from connector to D-ring when taut, with its stretch at his lowest
    /// instant, m.
    pub taut_length_m: f64,
    /// Height through which he swings down to below the connector, m: r − √(r² − offset²) with r
    /// the taut length, as if nothing stood in the way.
    pub drop_m: f64,
    /// By how much the lowest point of the swing lies deeper than the stack counts, m: what a
    /// self-retracting lifeline has paid out to the side, or a lanyard whose free fall is given.
    /// 0 for a lanyard whose free fall follows from the geometry: its stack is that of the lowest
    /// point.
    pub below_stack_m: f64,
    /// The gear bears on the edge of the beam: taut it is longer than the way to the edge.
    pub edge_contact: bool,
    /// How far the gear then slides along the edge as he swings, m; 0 where it does not bear on it.
    pub edge_slide_m: f64,
    /// The line itself comes down to the beam top, and bears on it between connector and edge.
    pub line_on_edge: bool,
}

/// The lengths from line level down to the margin, m; they add up to `required_m` in this order,
/// to the last bit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Stack {
    /// Deflection of the line at the connector, below the level of its supports.
    pub line_deflection_m: f64,
    /// Connecting gear, taut but unstretched.
    pub lanyard_m: f64,
    /// Elastic stretch of the webbing and extension of the absorber.
    pub absorber_extension_m: f64,
    /// What is added to line deflection and extension because a calculated fall is not a measured
    /// one ([`crate::case::Allowance::clearance_ratio`]).
    pub allowance_m: f64,
    /// Allowance for harness stretch and D-ring shift.
    pub harness_stretch_m: f64,
    /// From the D-ring down to the soles.
    pub dring_to_sole_m: f64,
    /// Margin to be kept free.
    pub margin_m: f64,
    /// Required depth below line level: the sum of the above.
    pub required_m: f64,
    /// Depth measured from line level down to the highest thing within reach.
    pub available_m: f64,
    /// Available less required.
    pub footroom_m: f64,
}

/// Result of the energy balance method.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Balance {
    /// Horizontal tension at the lowest point, N.
    pub tension_horizontal_n: f64,
    /// Greatest tension along the line, N.
    pub tension_max_n: f64,
    /// Extension of the in-line absorber, m; of both together where there are two.
    pub inline_extension_m: f64,
    /// Arrest force of each worker, N; 0 for one who stands.
    pub arrest_force_n: Vec<f64>,
    /// Plastic extension of each worker's absorber, m.
    pub absorber_extension_m: Vec<f64>,
    /// Deflection of the line at each connector, m.
    pub deflection_m: Vec<f64>,
}

/// Result of the time history, maxima over the simulated time; all 0 when no step within reason
/// resolved the motion (the doubts say so).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct History {
    /// Greatest horizontal tension, N.
    pub tension_horizontal_max_n: f64,
    /// Greatest tension anywhere along the line, N.
    pub tension_max_n: f64,
    /// Instant of the greatest tension, s.
    pub time_tension_max_s: f64,
    /// Greatest extension of the in-line absorber, m; of both together where there are two.
    pub inline_extension_m: f64,
    /// The same of the one at the left end and of the one at the right end, m; 0 where there is none.
    pub inline_end_extension_m: [f64; 2],
    /// Greatest inward movement of the left end, m.
    pub left_end_movement_max_m: f64,
    /// Greatest inward movement of the right end, m.
    pub right_end_movement_max_m: f64,
    /// The energy ledger at the end of the run.
    pub energy: Energy,
    /// Steps taken.
    pub steps: u32,
    /// Length of one step, s.
    pub step_s: f64,
    /// Nodes that move.
    pub nodes: u32,
}

/// Greatest forces of the line on one support over the time history, each at its own instant.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct SupportPeak {
    /// Downward, N: on an intermediate post the kick of the line sagged on both sides.
    pub vertical_max_n: f64,
    /// Along the line, N: at an end the whole, at an intermediate post the difference between
    /// the two sides.
    pub horizontal_max_n: f64,
    /// Tension at an end, N; 0 at an intermediate post.
    pub tension_max_n: f64,
}

/// Energy ledger of a run, J.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Energy {
    /// Work of gravity on workers and line.
    pub gravity_work_j: f64,
    /// Kinetic energy left.
    pub kinetic_j: f64,
    /// Elastic energy stored beyond that at rest: line, end supports, webbing.
    pub elastic_j: f64,
    /// Work taken by the personal absorbers.
    pub absorbers_j: f64,
    /// Work taken by the in-line absorber, or by both.
    pub inline_absorber_j: f64,
    /// Work taken by the line's damping.
    pub damping_j: f64,
    /// |gravity − all the others| over the greatest work of gravity on the workers in the run.
    pub residual_ratio: f64,
}

/// The line with everybody who fell hanging at rest.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Hanging {
    /// Horizontal tension, N.
    pub tension_horizontal_n: f64,
    /// Tension at the left end, N.
    pub tension_left_end_n: f64,
    /// Tension at the right end, N.
    pub tension_right_end_n: f64,
    /// Greatest tension, N.
    pub tension_max_n: f64,
    /// Inward movement of the left end, m.
    pub left_end_movement_m: f64,
    /// Inward movement of the right end, m.
    pub right_end_movement_m: f64,
    /// Deflection of the line at each worker's connector, m.
    pub deflection_m: Vec<f64>,
    /// Drop of each worker from standing, m; 0 for one who stands.
    pub drop_m: Vec<f64>,
    /// Height of each worker's soles above what is below, m.
    pub soles_above_m: Vec<f64>,
    /// Force in each worker's gear, N.
    pub force_n: Vec<f64>,
}

/// Samples of the motion at equal intervals, from t = 0. Rows are frames, columns as named;
/// `values[frame * columns + column]`.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Traces {
    /// Interval between frames, s.
    pub interval_s: f64,
    /// Number of frames.
    pub frames: usize,
    /// Number of workers.
    pub workers: usize,
    /// Place of every node of the line, supports and ends included, m, left to right, at rest.
    pub node_x_m: Vec<f64>,
    /// Horizontal tension of the most loaded span, one a frame, N.
    pub tension_horizontal_n: Vec<f64>,
    /// Greatest tension along the line, one a frame, N.
    pub tension_max_n: Vec<f64>,
    /// Extension of the in-line absorber, one a frame, m; of both together where there are two.
    pub inline_extension_m: Vec<f64>,
    /// Deflection of every node below the supports, m; row = frame, column = node.
    pub node_deflection_m: Vec<f64>,
    /// Drop of every worker from standing, m; row = frame, column = worker.
    pub drop_m: Vec<f64>,
    /// Speed of every worker, downward, m/s; row = frame, column = worker.
    pub speed_m_per_s: Vec<f64>,
    /// Force in every worker's gear, N; row = frame, column = worker.
    pub force_n: Vec<f64>,
    /// Deflection of the line at every connector, m; row = frame, column = worker.
    pub connector_deflection_m: Vec<f64>,
    /// Stretch of webbing and absorber together, m (0 while slack); row = frame, column = worker.
    pub gear_stretch_m: Vec<f64>,
    /// Irreversible extension of every absorber, m; row = frame, column = worker.
    pub absorber_extension_m: Vec<f64>,
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
            .any(|(w, m)| w.gear.absorber.is_some_and(|a| *m >= a.max_extension_m)),
            refine: self.options.refine.clamp(1, REFINE_MAX) as usize,
            traces: self.options.traces,
            strike_drop_m: &self.strike_drop_m,
        }
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
        let mut outcome = Outcome {
            model_version: MODEL_VERSION,
            fingerprint: 0,
            footroom_m: workers[governing].stack.footroom_m,
            governing_worker: governing,
            governing_method: workers[governing].method,
            doubts: doubts(case, run, &workers),
            outside_checked: scope::outside(case, &workers),
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
        let pull = Pull::new(&worker.gear);
        let stretch =
            pull.elastic_stretch_m(balance.arrest_force_n[i]) + balance.absorber_extension_m[i];
        let moved = fall.deflection_at_lowest_m - rest_m;
        (
            stack::stack(case, worker, balance.deflection_m[i], stretch),
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
                + Pull::new(&w.gear).elastic_stretch_m(force)
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

fn doubts(case: &Case, run: &Run, workers: &[WorkerOutcome]) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    let tension_n = run.history.tension_max_n;
    if let Some(breaking_force_n) = case.line.rope.breaking_force_n
        && tension_n > breaking_force_n
    {
        doubts.push(Doubt::BeyondBreaking {
            tension_n,
            breaking_force_n,
        });
    }
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

/// FNV-1a over the bits of the reported numbers, 64 bits.
///
/// Source: G. Fowler, L. C. Noll, K.-P. Vo, the FNV hash (public domain), offset and prime for 64
/// bits.
fn fingerprint(outcome: &Outcome) -> u64 {
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    let mut add = |value: f64| {
        for byte in value.to_bits().to_le_bytes() {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    };
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
    hash
}
