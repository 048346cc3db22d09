//! Who falls when, and the search for the worst: delays between falls and places on the line.
//!
//! Both searches scan a coarse grid and refine around its worst points. They find the worst of
//! what they tried, not a proven bound: the motion after a first rebound is sensitive, and the
//! footroom is not a smooth function of a delay. Both search with the inputs as given, tolerances
//! aside; the case found is then assessed with them, once.

use alloc::vec::Vec;

use crate::assess::assessed;
use crate::case::Case;
use crate::corner::Corner;
use crate::fault::Fault;
use crate::ready::Ready;
use crate::solve::{Options, Outcome};

/// Who falls, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "scenario"))]
pub enum Scenario {
    /// As the case says.
    AsGiven,
    /// One falls, the others stay standing, clipped to the line.
    One {
        /// The worker who falls, counted from 0.
        worker: usize,
    },
    /// All fall at one instant.
    Together,
    /// One after another at equal delays, in the order of the case or against it.
    InTurn {
        /// Delay between one fall and the next, s.
        delay_s: f64,
        /// Last worker of the case first.
        reversed: bool,
    },
}

/// The case with falls as the scenario says.
pub fn with_scenario(case: &Case, scenario: Scenario) -> Case {
    let mut case = case.clone();
    let count = case.workers.len();
    for (i, worker) in case.workers.iter_mut().enumerate() {
        worker.fall_time_s = match scenario {
            Scenario::AsGiven => worker.fall_time_s,
            Scenario::One { worker } => (worker == i).then_some(0.0),
            Scenario::Together => Some(0.0),
            Scenario::InTurn { delay_s, reversed } => {
                let turn = if reversed { count - 1 - i } else { i };
                Some(delay_s * turn as f64)
            }
        };
    }
    case
}

/// What a search found, beside the answer to the case as given.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Worst {
    /// The scenario with the least footroom.
    pub scenario: Scenario,
    /// Where the workers stood in it, m, in the order of the case.
    pub position_m: Vec<f64>,
    /// Its footroom, m.
    pub footroom_m: f64,
    /// Footroom as given, m.
    pub given_footroom_m: f64,
    /// Greatest line tension met in any case tried, N, inertia along the line included.
    pub tension_max_n: f64,
    /// The scenario in which it was met.
    pub tension_scenario: Scenario,
    /// Number of cases solved in the search.
    pub solved: u32,
    /// By how much the footroom found is below the given one, m; 0: nothing worse was found.
    pub below_given_m: f64,
    /// The case found over all tolerance corners. The search itself knows none of them: another
    /// case may be worse in a corner.
    pub with_tolerances: WithTolerances,
    /// The case as given over all tolerance corners.
    pub given_with_tolerances: WithTolerances,
}

/// A case over all its tolerance corners, in brief.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct WithTolerances {
    /// Least footroom, m.
    pub footroom_m: f64,
    /// The corner that gave it.
    pub corner: Corner,
    /// Greatest line tension, N: inertia along the line and the allowance included.
    pub tension_max_n: f64,
    /// The footroom is known, see [`crate::assess::Assessment::answer`].
    pub resolved: bool,
}

impl WithTolerances {
    fn of(ready: &Ready) -> Self {
        let assessment = assessed(ready, Options::default());
        Self {
            footroom_m: assessment.footroom.value,
            corner: assessment.footroom.corner,
            tension_max_n: assessment.tension_max.value,
            resolved: assessment.answer().is_ok(),
        }
    }
}

impl Worst {
    /// The case that was found: the given one with the scenario and the places of the worst, and the
    /// longer motion in which its falls come to their lowest points.
    pub fn case(&self, given: &Case) -> Case {
        let mut case = with_scenario(given, self.scenario);
        for (worker, &position_m) in case.workers.iter_mut().zip(&self.position_m) {
            worker.position_m = position_m;
        }
        if self.scenario != Scenario::AsGiven {
            lengthen(&mut case);
        }
        case
    }
}

/// Greatest delay searched, s.
pub const DELAY_MAX_S: f64 = 2.0;
const DELAY_STEP_S: f64 = 0.1;
const DELAY_FINE_S: f64 = 0.02;

struct Search {
    worst: Worst,
}

impl Search {
    fn start(case: &Case) -> Result<Self, Vec<Fault>> {
        let ready = case.ready()?;
        let given = ready.solve(Options::default());
        let with_tolerances = WithTolerances::of(&ready);
        let mut search = Self {
            worst: Worst {
                scenario: Scenario::AsGiven,
                position_m: case.workers.iter().map(|w| w.position_m).collect(),
                footroom_m: f64::INFINITY,
                given_footroom_m: given.footroom_m,
                tension_max_n: 0.0,
                tension_scenario: Scenario::AsGiven,
                solved: 0,
                below_given_m: 0.0,
                with_tolerances,
                given_with_tolerances: with_tolerances,
            },
        };
        search.take(case, Scenario::AsGiven, &given);
        Ok(search)
    }

    fn take(&mut self, case: &Case, scenario: Scenario, outcome: &Outcome) {
        let worst = &mut self.worst;
        worst.solved += 1;
        if outcome.footroom_m < worst.footroom_m {
            worst.footroom_m = outcome.footroom_m;
            worst.scenario = scenario;
            worst.position_m.clear();
            worst
                .position_m
                .extend(case.workers.iter().map(|w| w.position_m));
        }
        let tension = outcome.history.tension_max_n + outcome.history.axial_inertia_bound_n;
        if tension > worst.tension_max_n {
            worst.tension_max_n = tension;
            worst.tension_scenario = scenario;
        }
    }

    /// Solves the case under a scenario; its footroom, m.
    fn try_out(&mut self, case: &Case, scenario: Scenario) -> Result<f64, Vec<Fault>> {
        let case = with_scenario(case, scenario);
        let outcome = case.ready()?.solve(Options::default());
        self.take(&case, scenario, &outcome);
        Ok(outcome.footroom_m)
    }

    /// What was found, with its tolerances.
    fn finish(self, given: &Case) -> Result<Worst, Vec<Fault>> {
        let mut worst = self.worst;
        worst.below_given_m = worst.given_footroom_m - worst.footroom_m;
        if worst.below_given_m > 0.0 {
            worst.with_tolerances = WithTolerances::of(&worst.case(given).ready()?);
        }
        Ok(worst)
    }
}

/// Length of motion that lets the last of the workers come to his lowest point, s.
fn lengthen(case: &mut Case) {
    let last = DELAY_MAX_S * case.workers.len().saturating_sub(1) as f64;
    case.motion.duration_s = (case.motion.duration_s + last).min(10.0);
}

/// Searches the delay between falls, 0 to [`DELAY_MAX_S`], in both orders, for the least footroom
/// and the greatest tension.
///
/// # Errors
/// The faults of the case.
///
/// # Accuracy
/// Grid of 0.1 s, refined to 0.02 s around the worst of it.
pub fn worst_delay(case: &Case) -> Result<Worst, Vec<Fault>> {
    let mut search = Search::start(case)?;
    let mut long = case.clone();
    lengthen(&mut long);
    for worker in 0..case.workers.len() {
        search.try_out(&long, Scenario::One { worker })?;
    }
    search.try_out(&long, Scenario::Together)?;
    if case.workers.len() < 2 {
        return search.finish(case);
    }
    for reversed in [false, true] {
        let mut worst = (f64::INFINITY, 0.0);
        let steps = (DELAY_MAX_S / DELAY_STEP_S) as u32;
        for i in 1..=steps {
            let delay_s = f64::from(i) * DELAY_STEP_S;
            let footroom = search.try_out(&long, Scenario::InTurn { delay_s, reversed })?;
            if footroom < worst.0 {
                worst = (footroom, delay_s);
            }
        }
        for i in -4_i32..=4 {
            let delay_s = worst.1 + f64::from(i) * DELAY_FINE_S;
            if i != 0 && (0.0..=DELAY_MAX_S).contains(&delay_s) {
                search.try_out(&long, Scenario::InTurn { delay_s, reversed })?;
            }
        }
    }
    search.finish(case)
}

/// Searches where the crew may stand for the least footroom, falls timed as given: the crew packed
/// at `spacing_m` and slid along the line, then each worker moved on his own, never closer to
/// another than `spacing_m`.
///
/// # Errors
/// The faults of the case. A crew that does not fit on the line at that spacing is packed more
/// closely.
///
/// # Accuracy
/// Steps of a sixteenth of the longest span, refined to a sixty-fourth.
pub fn worst_places(case: &Case, spacing_m: f64) -> Result<Worst, Vec<Fault>> {
    let mut search = Search::start(case)?;
    let count = case.workers.len();
    let length = case.line.length_m();
    let spacing = if spacing_m.is_finite() {
        crate::maths::clamp(spacing_m, 0.0, length / count.max(2) as f64)
    } else {
        0.0
    };
    let longest = case.line.spans_m.iter().fold(0.0_f64, |a, &b| a.max(b));
    let step = longest / 16.0;
    let width = spacing * count.saturating_sub(1) as f64;
    let mut best = case.clone();
    let mut least = search.worst.footroom_m;
    let mut start = 0.0;
    while start + width <= length {
        let mut packed = case.clone();
        for (i, worker) in packed.workers.iter_mut().enumerate() {
            worker.position_m = (start + spacing * i as f64).min(length);
        }
        let footroom = search.try_out(&packed, Scenario::AsGiven)?;
        if footroom < least {
            (least, best) = (footroom, packed);
        }
        start += step;
    }
    for step in [step, step / 2.0, step / 4.0] {
        for i in 0..count {
            for sign in [-1.0, 1.0] {
                let mut tried = best.clone();
                let x = tried.workers[i].position_m + sign * step;
                let clear = tried
                    .workers
                    .iter()
                    .enumerate()
                    .all(|(j, w)| j == i || (w.position_m - x).abs() >= spacing - 1e-9);
                if !(0.0..=length).contains(&x) || !clear {
                    continue;
                }
                tried.workers[i].position_m = x;
                let footroom = search.try_out(&tried, Scenario::AsGiven)?;
                if footroom < least {
                    (least, best) = (footroom, tried);
                }
            }
        }
    }
    search.finish(case)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::demo;
    use crate::solve::solve;

    const SPACING_M: f64 = 1.0;

    fn both(case: &Case) -> [Worst; 2] {
        [
            worst_delay(case).expect("a case without faults"),
            worst_places(case, SPACING_M).expect("a case without faults"),
        ]
    }

    #[test]
    fn the_case_found_gives_what_was_said_of_it() {
        let case = demo();
        for worst in both(&case) {
            assert!(worst.below_given_m > 0.0, "{worst:?}");
            let below_m = worst.given_footroom_m - worst.footroom_m;
            assert_eq!(worst.below_given_m, below_m);
            let found = worst.case(&case);
            let outcome = solve(&found, Options::default()).expect("a valid case");
            assert_eq!(outcome.footroom_m, worst.footroom_m);
            let of = |case: &Case| WithTolerances::of(&case.ready().expect("a valid case"));
            assert_eq!(worst.with_tolerances, of(&found));
            assert_eq!(worst.given_with_tolerances, of(&case));
            // With tolerances neither case has more room than without.
            assert!(worst.with_tolerances.footroom_m <= worst.footroom_m);
            assert!(worst.given_with_tolerances.footroom_m <= worst.given_footroom_m);
        }
    }

    #[test]
    fn tolerances_ask_for_more() {
        let mut case = demo();
        case.tolerances.mass_ratio = 0.1;
        let [delay, places] = both(&case);
        // The worst delay makes a bounce of just this timing, which another mass may miss; the case
        // as given asks for more in the soft corner, and so do the worst places.
        for (found, footroom_m) in [
            (delay.given_with_tolerances, delay.given_footroom_m),
            (places.with_tolerances, places.footroom_m),
        ] {
            assert_eq!(found.corner, Corner::Soft);
            assert!(found.footroom_m < footroom_m - 0.02);
            assert!(found.tension_max_n > 0.0 && found.resolved);
        }
        assert!(delay.with_tolerances.tension_max_n > 0.0 && delay.with_tolerances.resolved);
    }

    #[test]
    fn places_keep_their_distance_and_their_line() {
        let case = demo();
        let worst = worst_places(&case, SPACING_M).expect("a case without faults");
        assert_eq!(worst.scenario, Scenario::AsGiven);
        for (i, a) in worst.position_m.iter().enumerate() {
            assert!((0.0..=case.line.length_m()).contains(a));
            for b in &worst.position_m[i + 1..] {
                assert!((a - b).abs() >= SPACING_M - 1e-9, "{worst:?}");
            }
        }
    }

    #[test]
    fn nothing_worse_leaves_the_given_case() {
        let mut one = demo();
        one.workers.truncate(1);
        let worst = worst_delay(&one).expect("a case without faults");
        assert_eq!(worst.below_given_m, 0.0);
        assert_eq!(worst.case(&one), one);
        assert_eq!(worst.with_tolerances, worst.given_with_tolerances);
    }

    #[test]
    fn falls_in_turn_keep_their_order_and_delay() {
        let case = demo();
        let times = |reversed| {
            let scenario = Scenario::InTurn {
                delay_s: 0.25,
                reversed,
            };
            let workers = with_scenario(&case, scenario).workers;
            workers.iter().map(|w| w.fall_time_s).collect::<Vec<_>>()
        };
        assert_eq!(times(false), [Some(0.0), Some(0.25), Some(0.5)]);
        assert_eq!(times(true), [Some(0.5), Some(0.25), Some(0.0)]);
        let one = with_scenario(&case, Scenario::One { worker: 1 }).workers;
        let falls: Vec<bool> = one.iter().map(|w| w.fall_time_s.is_some()).collect();
        assert_eq!(falls, [false, true, false]);
    }

    #[test]
    fn a_faulty_case_gives_its_faults() {
        let mut faulty = demo();
        faulty.line.pretension_n = f64::NAN;
        assert_eq!(worst_delay(&faulty), Err(faulty.faults()));
        assert_eq!(worst_places(&faulty, 1.0), Err(faulty.faults()));
    }
}
