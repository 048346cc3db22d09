//! Who falls when, and the search for the worst: delays between falls and places on the line.
//!
//! A [`Search`] goes step by step, so that who drives it can show how far it is and stop. It first
//! tries a coarse grid and refines around its worst points, by one run each: the soft corner of the
//! tolerances, which mostly governs clearance. The worst of those, and the case as given, are then
//! assessed in full, and only these answers are compared: what is said to be the worst never leaves
//! more room than the case as given does. It is the worst of what was tried, not a proven bound: the
//! motion after a first rebound is sensitive, and the footroom is not a smooth function of a delay.

use alloc::vec::Vec;

use crate::answer::Unknown;
use crate::anywhere::last_fall_s;
use crate::assess::assess;
use crate::case::Case;
use crate::corner::{Corner, Sides, moved};
use crate::fault::Fault;
use crate::field;
use crate::order::sort;
use crate::solve::{Doubt, Options, Outcome, solve_each};

pub use crate::anywhere::Progress;

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
    /// The whole answer to the case as given.
    pub given: WithTolerances,
    /// The case with the least footroom of those that were assessed, when that is less than the
    /// given one's or the given one has none to rely on; `None`: nothing worse was found.
    pub found: Option<Found>,
    /// Greatest line tension of the cases that were assessed, the given one among them, N, the
    /// allowance included.
    pub tension_max_n: f64,
    /// The scenario in which it was met.
    pub tension_scenario: Scenario,
    /// Number of cases tried, the given one among them.
    pub tried: u32,
    /// How many of them have no footroom to rely on; the worst may be among them.
    pub unresolved: u32,
    /// The first of those, the given case aside.
    pub first_unresolved: Option<Tried>,
}

/// A case that was tried.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Tried {
    /// Who falls, and when.
    pub scenario: Scenario,
    /// Where the workers stand, m, in the order of the case.
    pub position_m: Vec<f64>,
}

/// The worst case that was found.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Found {
    /// Which it is.
    pub tried: Tried,
    /// The whole answer to it.
    pub answer: WithTolerances,
}

/// A case over all its tolerance corners, in brief.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct WithTolerances {
    /// Least footroom, m.
    pub footroom_m: f64,
    /// The corner that gave it.
    pub corner: Corner,
    /// Greatest line tension, N, the allowance included.
    pub tension_max_n: f64,
    /// The footroom is known, see [`crate::assess::Assessment::answer`].
    pub resolved: bool,
}

impl WithTolerances {
    fn of(case: &Case) -> Result<Self, Vec<Fault>> {
        let assessment = assess(case, Options::default())?;
        Ok(Self {
            footroom_m: assessment.footroom.value,
            corner: assessment.footroom.corner,
            tension_max_n: assessment.tension_max.value,
            resolved: assessment.answer().is_ok(),
        })
    }
}

impl Tried {
    fn given(case: &Case) -> Self {
        Self {
            scenario: Scenario::AsGiven,
            position_m: case.workers.iter().map(|w| w.position_m).collect(),
        }
    }

    /// The case: the given one with this scenario and these places. Where falls come later than in
    /// the given one, the motion is followed for longer by as much, so that the last to fall is
    /// followed for as long in both.
    pub fn case(&self, given: &Case) -> Case {
        let mut case = with_scenario(given, self.scenario);
        for (worker, &position_m) in case.workers.iter_mut().zip(&self.position_m) {
            worker.position_m = position_m;
        }
        let later = last_fall_s(&case) - last_fall_s(given);
        if later > 0.0 {
            let most = field::find("motion.duration_s").map_or(f64::INFINITY, |f| f.max);
            case.motion.duration_s = (case.motion.duration_s + later).min(most);
        }
        case
    }
}

impl Worst {
    /// The case that was found; the given one when nothing worse was.
    pub fn case(&self, given: &Case) -> Case {
        self.found
            .as_ref()
            .map_or_else(|| given.clone(), |found| found.tried.case(given))
    }
}

/// What is searched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum What {
    /// Who falls when: each alone, all together, and one after another at equal delays up to
    /// [`delay_max_s`], in both orders.
    Timing,
    /// Where the crew stands, falls timed as given: packed at a distance and slid along the line,
    /// then each worker moved on his own, never closer to another than that distance.
    Places {
        /// Least distance between two workers, m. A crew that does not fit on the line at it is
        /// packed more closely, see [`spacing_m`].
        spacing_m: f64,
    },
}

/// Greatest delay between one fall and the next, s.
pub const DELAY_MAX_S: f64 = 2.0;
/// Step of the refined delays, s.
const DELAY_FINE_S: f64 = 0.02;
/// Refined steps in one of the coarse grid.
const COARSE: u32 = 5;
/// Places of the coarse grid of delays around which it is refined.
const REFINED: usize = 2;
/// Cases assessed in full for their footroom, at least, as far as there are any with one.
const ASSESSED: usize = 3;
/// Most cases assessed in full.
const ASSESSED_MAX: usize = 8;
/// How often the step of the moves is halved.
const HALVED: u32 = 2;

/// Greatest delay that is searched in a crew, s: [`DELAY_MAX_S`], or less where the last of a larger
/// crew would fall later than a case may say.
pub fn delay_max_s(case: &Case) -> f64 {
    let gaps = case.workers.len().saturating_sub(1).max(1) as f64;
    let latest = field::find("workers.fall_time_s").map_or(DELAY_MAX_S, |f| f.max);
    DELAY_MAX_S.min(latest / gaps)
}

/// Distance that the search for places keeps between two workers, m: the one asked for, or less
/// where the crew would not fit on the line.
pub fn spacing_m(case: &Case, asked_m: f64) -> f64 {
    let most = case.line.length_m() / case.workers.len().max(2) as f64;
    if asked_m.is_finite() {
        crate::maths::clamp(asked_m, 0.0, most)
    } else {
        0.0
    }
}

/// What a run of the soft corner gave.
#[derive(Clone, Debug)]
struct Run {
    tried: Tried,
    footroom_m: f64,
    /// Greatest line tension, N; `None`: there is none to rely on.
    tension_n: Option<f64>,
    resolved: bool,
    /// The whole answer, once it was asked for.
    answer: Option<WithTolerances>,
}

/// What comes next.
#[derive(Clone, Debug)]
enum Stage {
    /// The whole answer to the case as given.
    Given,
    /// The coarse grid: what is left of it, last first.
    Grid(Vec<Tried>),
    /// Around the worst of the grid.
    Fine(Vec<Tried>),
    /// Every worker moved on his own: how often the step was halved, and whose turn it is.
    Moves {
        halved: u32,
        worker: usize,
    },
    /// Whole answers to the worst.
    Whole,
    Done,
}

/// Falls one after another, so many fine steps apart.
fn in_turn(fine_steps: u32, reversed: bool) -> Scenario {
    Scenario::InTurn {
        delay_s: f64::from(fine_steps) * DELAY_FINE_S,
        reversed,
    }
}

/// The greatest delay in fine steps.
fn fine_steps(case: &Case) -> u32 {
    (delay_max_s(case) / DELAY_FINE_S + 1e-9) as u32
}

/// A search for the worst, step by step.
///
/// # Accuracy
/// Timing: a grid of 0.1 s, refined to 0.02 s around the two worst of it. Places: steps of a
/// sixteenth of the longest span, refined to a sixty-fourth.
#[derive(Clone, Debug)]
pub struct Search {
    case: Case,
    what: What,
    stage: Stage,
    given: Option<WithTolerances>,
    runs: Vec<Run>,
    /// The least of the runs so far, for the moves.
    best: Tried,
    least_m: f64,
    made: u32,
}

impl Search {
    /// Prepares a search; nothing is computed yet.
    ///
    /// # Errors
    /// The faults of the case.
    pub fn new(case: &Case, what: What) -> Result<Self, Vec<Fault>> {
        case.ready()?;
        Ok(Self {
            case: case.clone(),
            what,
            stage: Stage::Given,
            given: None,
            runs: Vec::new(),
            best: Tried::given(case),
            least_m: f64::INFINITY,
            made: 0,
        })
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        Progress {
            made: self.made,
            of: self.made + self.left(),
            done: matches!(self.stage, Stage::Done),
        }
    }

    /// Makes a step: at most one whole answer, or the runs of two cases.
    pub fn advance(&mut self) -> Progress {
        match core::mem::replace(&mut self.stage, Stage::Done) {
            Stage::Given => {
                self.given = WithTolerances::of(&self.case).ok();
                if let Ok(ready) = self.case.ready() {
                    let run = moved(&ready, Sides::SOFT).solve(Options::default());
                    if run.unknown().is_none() {
                        self.least_m = run.footroom_m;
                    }
                }
                self.stage = Stage::Grid(self.grid());
            }
            Stage::Grid(mut left) => {
                self.try_next(&mut left);
                self.stage = match self.what {
                    _ if !left.is_empty() => Stage::Grid(left),
                    What::Timing => Stage::Fine(self.finer()),
                    What::Places { .. } => Stage::Moves {
                        halved: 0,
                        worker: 0,
                    },
                };
            }
            Stage::Fine(mut left) => {
                self.try_next(&mut left);
                self.stage = if left.is_empty() {
                    Stage::Whole
                } else {
                    Stage::Fine(left)
                };
            }
            Stage::Moves { halved, worker } => {
                let step_m = self.step_m() / f64::from(1_u32 << halved);
                self.try_next(&mut self.moves(worker, step_m));
                self.stage = if worker + 1 < self.case.workers.len() {
                    Stage::Moves {
                        halved,
                        worker: worker + 1,
                    }
                } else if halved < HALVED {
                    Stage::Moves {
                        halved: halved + 1,
                        worker: 0,
                    }
                } else {
                    Stage::Whole
                };
            }
            Stage::Whole => {
                if let Some(place) = self.to_assess() {
                    let answer = self.runs.get(place).map(|run| run.tried.case(&self.case));
                    match (
                        answer.map(|case| WithTolerances::of(&case)),
                        self.runs.get_mut(place),
                    ) {
                        (Some(Ok(answer)), Some(run)) => run.answer = Some(answer),
                        // It was resolved before, so this is not met.
                        _ => drop(self.runs.remove(place)),
                    }
                }
                self.stage = Stage::Whole;
            }
            Stage::Done => return self.progress(),
        }
        self.made += 1;
        if matches!(self.stage, Stage::Whole) && self.to_assess().is_none() {
            self.stage = Stage::Done;
        }
        self.progress()
    }

    /// Steps that are left, as far as is known.
    fn left(&self) -> u32 {
        let pairs = |left: &[Tried]| left.len().div_ceil(2) as u32;
        let crew = self.case.workers.len() as u32;
        let whole = ASSESSED as u32 + u32::from(self.what == What::Timing);
        let later = whole
            + match self.what {
                What::Timing if crew > 1 => 4 * REFINED as u32,
                What::Timing => 0,
                What::Places { .. } => (1 + HALVED) * crew,
            };
        match &self.stage {
            Stage::Given => 1 + pairs(&self.grid()) + later,
            Stage::Grid(left) => pairs(left) + later,
            Stage::Fine(left) => pairs(left) + whole,
            Stage::Moves { halved, worker } => {
                (HALVED - halved) * crew + crew - *worker as u32 + whole
            }
            Stage::Whole => {
                let assessed = self.runs.iter().filter(|r| r.answer.is_some()).count() as u32;
                whole.saturating_sub(assessed).max(1)
            }
            Stage::Done => 0,
        }
    }

    /// Makes all steps that are left, and tells what was found.
    pub fn finish(mut self) -> Option<Worst> {
        while !self.advance().done {}
        self.worst()
    }

    /// What was found; `None` before it is done.
    pub fn worst(&self) -> Option<Worst> {
        let given = self.given.filter(|_| matches!(self.stage, Stage::Done))?;
        let mut found: Option<Found> = None;
        let mut tension = (given.tension_max_n, Scenario::AsGiven);
        for run in &self.runs {
            let Some(answer) = run.answer else { continue };
            if answer.tension_max_n > tension.0 {
                tension = (answer.tension_max_n, run.tried.scenario);
            }
            let least_m = match &found {
                Some(found) => found.answer.footroom_m,
                None if given.resolved => given.footroom_m,
                None => f64::INFINITY,
            };
            if answer.resolved && answer.footroom_m < least_m {
                found = Some(Found {
                    tried: run.tried.clone(),
                    answer,
                });
            }
        }
        let unknown = |run: &&Run| !run.resolved || run.answer.is_some_and(|a| !a.resolved);
        let unresolved = self.runs.iter().filter(unknown).count() as u32;
        Some(Worst {
            given,
            found,
            tension_max_n: tension.0,
            tension_scenario: tension.1,
            tried: 1 + self.runs.len() as u32,
            unresolved: unresolved + u32::from(!given.resolved),
            first_unresolved: self.runs.iter().find(unknown).map(|r| r.tried.clone()),
        })
    }

    /// The coarse grid.
    fn grid(&self) -> Vec<Tried> {
        let case = &self.case;
        let count = case.workers.len();
        match self.what {
            What::Timing => {
                let mut scenarios: Vec<Scenario> =
                    (0..count).map(|worker| Scenario::One { worker }).collect();
                scenarios.push(Scenario::Together);
                if count > 1 {
                    let steps = fine_steps(case) / COARSE;
                    for reversed in [false, true] {
                        scenarios.extend((1..=steps).map(|i| in_turn(COARSE * i, reversed)));
                    }
                }
                let of = |scenario| Tried {
                    scenario,
                    ..Tried::given(case)
                };
                scenarios.into_iter().map(of).collect()
            }
            What::Places { spacing_m: asked_m } => {
                let length = case.line.length_m();
                let spacing = spacing_m(case, asked_m);
                let width = spacing * count.saturating_sub(1) as f64;
                let step = self.step_m();
                let mut grid = Vec::new();
                let mut start = 0.0;
                while start + width <= length {
                    let at = |i: usize| (start + spacing * i as f64).min(length);
                    grid.push(Tried {
                        scenario: Scenario::AsGiven,
                        position_m: (0..count).map(at).collect(),
                    });
                    start += step;
                }
                grid
            }
        }
    }

    /// Step of the grid of places, m.
    fn step_m(&self) -> f64 {
        let spans = self.case.line.spans_m.iter();
        spans.fold(0.0_f64, |a, &b| a.max(b)) / 16.0
    }

    /// Delays around the worst of the grid.
    fn finer(&self) -> Vec<Tried> {
        let mut worst: Vec<&Run> = self.runs.iter().filter(|r| r.resolved).collect();
        sort(&mut worst, |a, b| a.footroom_m < b.footroom_m);
        let around = worst
            .into_iter()
            .filter_map(|run| match run.tried.scenario {
                Scenario::InTurn { delay_s, reversed } => {
                    Some(((delay_s / DELAY_FINE_S + 0.5) as u32, reversed))
                }
                _ => None,
            });
        let most = fine_steps(&self.case);
        let mut finer = Vec::new();
        for (middle, reversed) in around.take(REFINED) {
            let steps = (middle + 1).saturating_sub(COARSE)..(middle + COARSE).min(most + 1);
            for step in steps.filter(|&step| step != middle) {
                let tried = Tried {
                    scenario: in_turn(step, reversed),
                    ..Tried::given(&self.case)
                };
                if !finer.contains(&tried) {
                    finer.push(tried);
                }
            }
        }
        finer
    }

    /// The best places with one worker moved either way, where he can.
    fn moves(&self, worker: usize, step_m: f64) -> Vec<Tried> {
        let What::Places { spacing_m: asked_m } = self.what else {
            return Vec::new();
        };
        let spacing = spacing_m(&self.case, asked_m);
        let length = self.case.line.length_m();
        let mut moves = Vec::new();
        for step_m in [-step_m, step_m] {
            let mut tried = self.best.clone();
            let Some(x) = tried.position_m.get(worker).map(|x| x + step_m) else {
                continue;
            };
            let mut others = tried.position_m.iter().enumerate();
            let clear = others.all(|(j, other)| j == worker || (other - x).abs() >= spacing - 1e-9);
            if (0.0..=length).contains(&x) && clear {
                tried.position_m[worker] = x;
                moves.push(tried);
            }
        }
        moves
    }

    /// Runs the soft corners of the next two cases side by side. What no case can be is left out, and
    /// so is what is the given case.
    fn try_next(&mut self, left: &mut Vec<Tried>) {
        let mut next = Vec::new();
        while next.len() < 2
            && let Some(tried) = (!left.is_empty()).then(|| left.remove(0))
        {
            let case = tried.case(&self.case);
            if case != self.case
                && self.runs.iter().all(|run| run.tried != tried)
                && let Ok(ready) = case.ready()
            {
                next.push((tried, moved(&ready, Sides::SOFT)));
            }
        }
        let plain = Options::default();
        let outcomes: Vec<Outcome> = match next.as_slice() {
            [(_, a), (_, b)] => solve_each([(a, plain), (b, plain)]).into(),
            [(_, a)] => alloc::vec![a.solve(plain)],
            _ => Vec::new(),
        };
        for ((tried, _), outcome) in next.into_iter().zip(outcomes) {
            let run = Run {
                tried,
                footroom_m: outcome.footroom_m,
                tension_n: tension_n(&outcome),
                resolved: outcome.unknown().is_none(),
                answer: None,
            };
            if run.resolved && run.footroom_m < self.least_m {
                self.least_m = run.footroom_m;
                self.best = run.tried.clone();
            }
            self.runs.push(run);
        }
    }

    /// The place of the next case to be assessed in full: of those with the least footroom until
    /// enough have an answer, and in a search for timing the one with the greatest tension.
    fn to_assess(&self) -> Option<usize> {
        let assessed = self.runs.iter().filter(|r| r.answer.is_some()).count();
        if assessed >= ASSESSED_MAX {
            return None;
        }
        let runs = || self.runs.iter().enumerate();
        let answered = |r: &Run| r.answer.is_some_and(|a| a.resolved);
        if runs().filter(|(_, r)| answered(r)).count() < ASSESSED {
            let open = runs().filter(|(_, r)| r.resolved && r.answer.is_none());
            let least = open.min_by(|a, b| a.1.footroom_m.total_cmp(&b.1.footroom_m));
            if let Some((place, _)) = least {
                return Some(place);
            }
        }
        if self.what != What::Timing {
            return None;
        }
        let known = runs().filter_map(|(place, r)| Some((place, r, r.tension_n?)));
        let (place, most, _) = known.max_by(|a, b| a.2.total_cmp(&b.2))?;
        most.answer.is_none().then_some(place)
    }
}

/// The greatest line tension of a run, N; `None`: what the run
/// says is not to be relied on for another reason than that the line would break.
fn tension_n(outcome: &Outcome) -> Option<f64> {
    let mut reasons = outcome.doubts.iter().filter_map(Doubt::takes_away);
    let known = reasons.all(|why| why == Unknown::LineBreaks);
    known.then_some(outcome.history.tension_max_n)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Worker;
    use crate::demo::demo;
    use crate::solve::solve;

    const SPACING_M: f64 = 1.0;
    const WHATS: [What; 2] = [
        What::Timing,
        What::Places {
            spacing_m: SPACING_M,
        },
    ];

    fn searched(case: &Case, what: What) -> Worst {
        let search = Search::new(case, what).expect("a case without faults");
        search.finish().expect("done")
    }

    /// The demonstration with a crew of so many, evenly along the line.
    fn crew(count: usize) -> Case {
        let mut case = demo();
        let (one, length_m) = (case.workers[0], case.line.length_m());
        case.workers = (0..count)
            .map(|i| Worker {
                // Not beside the post.
                position_m: length_m * (i as f64 + 0.5) / (count as f64 + 0.6),
                ..one
            })
            .collect();
        case
    }

    /// Random numbers between 0 and 1, always the same (a linear congruential generator).
    struct Dice(u64);

    impl Dice {
        fn roll(&mut self) -> f64 {
            self.0 = (self.0)
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 40) as f64 / f64::from(1_u32 << 24)
        }
    }

    #[test]
    fn every_crew_up_to_six_has_its_worst_timing() {
        for count in 1..=6 {
            let case = crew(count);
            let worst = searched(&case, What::Timing);
            assert!(worst.given.resolved, "{count}");
            assert_eq!(worst.unresolved, 0, "{count}");
            let found = worst.found.as_ref();
            // Whoever falls alone pulls less than all do; in turn they pull more.
            assert_eq!(found.is_some(), count > 1, "{count}: {worst:?}");
            assert_eq!(worst.case(&case).faults(), [], "{count}");
            // All together is the case as given; alone, and in turn, are others.
            let least = if count > 1 { 30 } else { 1 };
            assert!(worst.tried >= least, "{count}: {}", worst.tried);
        }
    }

    #[test]
    fn the_latest_fall_is_one_that_a_case_may_have() {
        for count in 2..=6 {
            let case = crew(count);
            let delay_s = delay_max_s(&case);
            let slowest = with_scenario(&case, in_turn(fine_steps(&case), true));
            assert_eq!(slowest.faults(), [], "{count}");
            assert!(
                last_fall_s(&slowest) > 0.99 * delay_s * (count - 1) as f64,
                "{count}"
            );
        }
        assert_eq!(delay_max_s(&crew(3)), DELAY_MAX_S);
    }

    #[test]
    fn progress_never_goes_back_and_ends_where_it_said() {
        for (count, what) in [(1, WHATS[0]), (3, WHATS[0]), (6, WHATS[0]), (3, WHATS[1])] {
            let case = crew(count);
            let mut search = Search::new(&case, what).expect("a case without faults");
            let mut before = search.progress();
            assert!(!before.done && before.made == 0 && before.of > 2);
            let first = before.of;
            loop {
                assert_eq!(search.worst(), None);
                let now = search.advance();
                assert_eq!(now.made, before.made + 1);
                assert!(now.made <= now.of, "{now:?}");
                before = now;
                if now.done {
                    break;
                }
            }
            assert_eq!(before.made, before.of);
            assert!(before.made <= first + 8, "{first} {before:?}");
            assert!(search.worst().is_some());
            // Nothing is left to be done.
            assert_eq!(search.advance(), before);
        }
    }

    /// Like with like: both sides are whole answers, tolerances and all.
    #[test]
    fn the_worst_found_never_reads_better_than_the_case_itself() {
        let mut dice = Dice(20_261_129);
        let (mut found, mut nothing) = (0, 0);
        for i in 0..12 {
            let mut case = crew(1 + i % 4);
            case.tolerances.mass_ratio = 0.1 * dice.roll();
            case.tolerances.absorber_force_ratio = 0.15;
            case.line.pretension_n = 2_000.0 + 6_000.0 * dice.roll();
            let length_m = case.line.length_m();
            for worker in &mut case.workers {
                worker.position_m = length_m * (0.05 + 0.9 * dice.roll());
                worker.fall_time_s = Some(if dice.roll() < 0.5 { 0.0 } else { dice.roll() });
            }
            let answer = |case: &Case| WithTolerances::of(case).expect("a case without faults");
            for what in WHATS {
                let worst = searched(&case, what);
                assert_eq!(worst.given, answer(&case));
                assert!(worst.tension_max_n >= worst.given.tension_max_n);
                match &worst.found {
                    Some(it) => {
                        found += 1;
                        assert_eq!(it.answer, answer(&worst.case(&case)));
                        assert!(it.answer.resolved);
                        assert!(
                            !worst.given.resolved || it.answer.footroom_m < worst.given.footroom_m
                        );
                    }
                    None => {
                        nothing += 1;
                        assert_eq!(worst.case(&case), case);
                    }
                }
            }
        }
        assert!(found > 6 && nothing > 0, "{found} {nothing}");
    }

    #[test]
    fn where_there_is_no_result_the_search_says_so() {
        // Beside the post the line grows too steep.
        let mut case = demo();
        case.workers[0].position_m = 9.03;
        let given = WithTolerances::of(&case).expect("a case without faults");
        assert!(!given.resolved);
        let worst = searched(&case, WHATS[1]);
        assert_eq!(worst.given, given);
        assert!(worst.unresolved >= 1);
        let found = worst.found.expect("others have a result");
        assert!(found.answer.resolved);
        let worst = searched(&demo(), WHATS[1]);
        if let Some(first) = &worst.first_unresolved {
            let answer = solve(&first.case(&demo()), Options::default()).expect("a case");
            assert!(worst.unresolved >= 1 && !answer.doubts.is_empty());
        }
    }

    #[test]
    fn the_worst_places_are_worse_than_those_of_the_demonstration() {
        let case = demo();
        let worst = searched(&case, WHATS[1]);
        let found = worst.found.expect("the demonstration is not the worst");
        assert_eq!(found.tried.scenario, Scenario::AsGiven);
        for (i, a) in found.tried.position_m.iter().enumerate() {
            assert!((0.0..=case.line.length_m()).contains(a));
            for b in &found.tried.position_m[i + 1..] {
                assert!((a - b).abs() >= SPACING_M - 1e-9, "{found:?}");
            }
        }
        // A crew that has no room for the distance stands closer, and that is what is said.
        let crowded = crew(6);
        assert_eq!(spacing_m(&crowded, 50.0), crowded.line.length_m() / 6.0);
        assert_eq!(spacing_m(&crowded, SPACING_M), SPACING_M);
    }

    #[test]
    fn nothing_worse_leaves_the_given_case() {
        let mut one = demo();
        one.workers.truncate(1);
        let worst = searched(&one, What::Timing);
        assert_eq!(worst.found, None);
        assert_eq!(worst.case(&one), one);
        assert_eq!(worst.tried, 1);
    }

    #[test]
    fn a_search_says_the_same_each_time() {
        let case = crew(4);
        for what in WHATS {
            assert_eq!(searched(&case, what), searched(&case, what));
        }
    }

    #[test]
    fn later_falls_are_followed_for_longer_and_no_others() {
        let mut case = demo();
        let duration_s = |case: &Case, scenario| {
            let tried = Tried {
                scenario,
                ..Tried::given(case)
            };
            tried.case(case).motion.duration_s
        };
        assert_eq!(duration_s(&case, Scenario::Together), 6.0);
        assert!((duration_s(&case, in_turn(25, false)) - 7.0).abs() < 1e-12);
        assert_eq!(duration_s(&case, in_turn(100, false)), 10.0);
        case.motion.duration_s = 2.5;
        assert_eq!(duration_s(&case, Scenario::One { worker: 1 }), 2.5);
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
        for what in WHATS {
            let faults = Search::new(&faulty, what).map(|_| ());
            assert_eq!(faults, Err(faulty.faults()));
        }
    }

    /// A search that is done, with these runs.
    fn done(case: &Case, what: What, given: WithTolerances, runs: Vec<Run>) -> Search {
        let mut search = Search::new(case, what).unwrap();
        search.stage = Stage::Done;
        search.given = Some(given);
        search.runs = runs;
        search
    }

    fn answer(footroom_m: f64, tension_max_n: f64, resolved: bool) -> WithTolerances {
        WithTolerances {
            footroom_m,
            corner: Corner::Soft,
            tension_max_n,
            resolved,
        }
    }

    fn run(
        case: &Case,
        delay_s: f64,
        footroom_m: f64,
        tension_n: Option<f64>,
        resolved: bool,
    ) -> Run {
        let scenario = Scenario::InTurn {
            delay_s,
            reversed: false,
        };
        Run {
            tried: Tried {
                scenario,
                ..Tried::given(case)
            },
            footroom_m,
            tension_n,
            resolved,
            answer: None,
        }
    }

    /// What is told is the least footroom of the whole answers that have one, where that is less than the
    /// given one's, and the greatest tension of all of them; what is left without one is counted.
    #[test]
    fn the_worst_is_the_least_of_the_whole_answers() {
        let case = crew(2);
        let mut dice = Dice(3);
        let (mut worse, mut better, mut unknown) = (0, 0, 0);
        for _ in 0..300 {
            let resolved = dice.roll() < 0.8;
            let given = answer(dice.roll() - 0.7, dice.roll(), resolved);
            let mut runs = Vec::new();
            for i in 0..5_u32 {
                let known = dice.roll() < 0.9;
                let mut run = run(&case, f64::from(i), dice.roll() - 0.5, None, known);
                if known && dice.roll() < 0.8 {
                    run.answer = Some(answer(dice.roll() - 0.5, dice.roll(), dice.roll() < 0.7));
                }
                runs.push(run);
            }
            let told = done(&case, What::Timing, given, runs.clone())
                .worst()
                .unwrap();
            let answers: Vec<(f64, WithTolerances)> = (0..5)
                .filter_map(|i| Some((i as f64, runs[i].answer?)))
                .collect();
            let known = answers.iter().filter(|a| a.1.resolved);
            let least = known.min_by(|a, b| a.1.footroom_m.total_cmp(&b.1.footroom_m));
            let least = least.filter(|a| !resolved || a.1.footroom_m < given.footroom_m);
            assert_eq!(told.found.as_ref().map(|f| f.answer), least.map(|a| a.1));
            let most = answers.iter().map(|a| a.1.tension_max_n);
            assert_eq!(told.tension_max_n, most.fold(given.tension_max_n, f64::max));
            if told.tension_max_n == given.tension_max_n {
                assert_eq!(told.tension_scenario, Scenario::AsGiven);
            }
            let open = runs
                .iter()
                .filter(|r| !r.resolved || r.answer.is_some_and(|a| !a.resolved));
            let open = open.count() + usize::from(!resolved);
            assert_eq!((told.unresolved, told.tried), (open as u32, 6));
            worse += usize::from(resolved && told.found.is_some());
            better += usize::from(resolved && told.found.is_none());
            unknown += usize::from(!resolved && told.found.is_some());
        }
        assert!(
            worse > 20 && better > 20 && unknown > 20,
            "{worse} {better} {unknown}"
        );
    }

    /// Whole answers are made of the least of the runs until three of them have a footroom, then, for
    /// timings, of the one with the greatest tension; of no more than eight.
    #[test]
    fn whole_answers_are_made_of_the_least_runs_and_of_the_greatest_tension() {
        let case = crew(2);
        let mut dice = Dice(5);
        let (mut eight, mut tensions) = (0, 0);
        for round in 0..200 {
            let what = WHATS[round % 2];
            // At times hardly one of the whole answers has a footroom.
            let odds = [0.9, 0.1][round / 2 % 2];
            let runs: Vec<Run> = (0..12_u32)
                .map(|i| {
                    let tension_n = (dice.roll() < 0.9).then(|| dice.roll());
                    let known = dice.roll() < 0.9;
                    run(&case, f64::from(i), dice.roll(), tension_n, known)
                })
                .collect();
            let resolves: Vec<bool> = (0..12).map(|_| dice.roll() < odds).collect();
            let mut by_room: Vec<usize> = (0..12).filter(|&i| runs[i].resolved).collect();
            sort(&mut by_room, |&a, &b| {
                runs[a].footroom_m < runs[b].footroom_m
            });
            let mut expected: Vec<usize> = Vec::new();
            for place in by_room {
                let known = expected.iter().filter(|&&i| resolves[i]).count();
                if known < 3 && expected.len() < 8 {
                    expected.push(place);
                }
            }
            let pulls = (0..12).filter_map(|i| Some((i, runs[i].tension_n?)));
            let (most, _) = pulls.max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
            if what == What::Timing && expected.len() < 8 && !expected.contains(&most) {
                expected.push(most);
                tensions += 1;
            }
            eight += usize::from(expected.len() == 8);
            let mut search = done(&case, what, answer(0.0, 0.0, true), runs);
            let mut order = Vec::new();
            while let Some(place) = search.to_assess() {
                order.push(place);
                search.runs[place].answer = Some(answer(0.0, 0.0, resolves[place]));
            }
            assert_eq!(order, expected);
        }
        assert!(eight > 10 && tensions > 10, "{eight} {tensions}");
    }

    /// The grid of places has the crew packed from one end of the line to the other, a sixteenth of the
    /// longest span apart.
    #[test]
    fn the_grid_of_places_goes_from_end_to_end() {
        for (spans_m, count, asked_m, last_m) in [
            // 14 m is a multiple of the step of 0.5 m: the last place is at the very end.
            (&[8.0, 8.0][..], 3, 1.0, 14.0),
            (&[0.8, 8.0][..], 1, 1.0, 8.5),
            (&[9.0][..], 4, 2.0, 2.8125),
        ] {
            let mut case = crew(count);
            case.line.spans_m = spans_m.to_vec();
            let what = What::Places { spacing_m: asked_m };
            let grid = Search::new(&crew(count), what).unwrap();
            let grid = Search { case, ..grid }.grid();
            let firsts: Vec<f64> = grid.iter().map(|t| t.position_m[0]).collect();
            let step_m = spans_m.iter().fold(0.0_f64, |a, &b| a.max(b)) / 16.0;
            assert_eq!((firsts[0], firsts[firsts.len() - 1]), (0.0, last_m));
            assert!(
                firsts
                    .windows(2)
                    .all(|two| (two[1] - two[0] - step_m).abs() < 1e-9)
            );
            for tried in &grid {
                assert_eq!(tried.scenario, Scenario::AsGiven);
                let apart = tried.position_m.windows(2).map(|two| two[1] - two[0]);
                let apart_m = apart.fold(f64::INFINITY, f64::min);
                assert!(count == 1 || (apart_m - asked_m).abs() < 1e-9);
            }
        }
    }

    /// A worker is moved both ways as far as the line goes, and as near to another as is asked, not nearer.
    #[test]
    fn a_move_keeps_the_distance_and_the_line() {
        let case = crew(3);
        let mut search = Search::new(&case, WHATS[1]).unwrap();
        search.best.position_m = alloc::vec![0.25, 2.0, 17.75];
        let moved = |worker: usize, step_m: f64| -> Vec<f64> {
            let moves = search.moves(worker, step_m);
            for tried in &moves {
                for other in (0..3).filter(|&i| i != worker) {
                    assert_eq!(tried.position_m[other], search.best.position_m[other]);
                }
            }
            moves.iter().map(|t| t.position_m[worker]).collect()
        };
        assert_eq!(moved(0, 0.5), [0.75]);
        assert_eq!(moved(0, 0.25), [0.0, 0.5]);
        // Exactly a metre is a metre.
        assert_eq!(moved(0, 0.75), [1.0]);
        assert_eq!(moved(0, 0.8), [0.0; 0]);
        assert_eq!(moved(1, 0.75), [1.25, 2.75]);
        assert_eq!(moved(1, 0.8), [2.8]);
        assert_eq!(moved(2, 0.5), [17.25]);
    }

    /// Each worker is moved from the places that leave least room of all that were run, the given one among
    /// them.
    #[test]
    fn moves_start_from_the_least_room_that_was_found() {
        let mut case = crew(1);
        case.line.spans_m = alloc::vec![6.0];
        case.workers[0].position_m = 2.6;
        case.motion.duration_s = 1.2;
        let mut search = Search::new(&case, WHATS[1]).unwrap();
        let mut moved = 0;
        while !matches!(search.stage, Stage::Whole | Stage::Done) {
            let moving = matches!(search.stage, Stage::Moves { .. });
            let before = search.runs.len();
            let from = search.best.position_m[0];
            search.advance();
            for run in &search.runs[before..] {
                let away_m = (run.tried.position_m[0] - from).abs();
                assert!(!moving || away_m <= 6.0 / 16.0 + 1e-9, "{away_m}");
                moved += usize::from(moving);
            }
            let known = search.runs.iter().filter(|r| r.resolved);
            let least = known.min_by(|a, b| a.footroom_m.total_cmp(&b.footroom_m));
            let soft = moved_to_soft(&case);
            match least {
                Some(run) if run.footroom_m < soft => {
                    assert_eq!(search.best.position_m, run.tried.position_m);
                    assert_eq!(search.least_m, run.footroom_m);
                }
                _ => {
                    assert_eq!(search.best.position_m, [2.6]);
                    assert_eq!(search.least_m, soft);
                }
            }
        }
        assert!(moved > 0);
    }

    /// Footroom of a case in the soft corner, m.
    fn moved_to_soft(case: &Case) -> f64 {
        let soft = moved(&case.ready().unwrap(), Sides::SOFT);
        soft.solve(Options::default()).footroom_m
    }

    /// Falls that were late already are not followed for longer than what they are later.
    #[test]
    fn what_is_later_is_counted_from_the_last_fall_given() {
        let mut case = crew(2);
        case.workers[1].fall_time_s = Some(1.0);
        let tried = |delay_s| {
            let scenario = Scenario::InTurn {
                delay_s,
                reversed: false,
            };
            let tried = Tried {
                scenario,
                ..Tried::given(&case)
            };
            tried.case(&case).motion.duration_s
        };
        assert_eq!([tried(0.5), tried(1.0)], [6.0, 6.0]);
        assert!((tried(1.6) - 6.6).abs() < 1e-12);
    }

    /// A distance that is no number asks for none, and one that is negative neither.
    #[test]
    fn a_distance_is_kept_as_far_as_the_line_allows() {
        let case = crew(3);
        for (asked_m, kept_m) in [
            (-1.0, 0.0),
            (0.0, 0.0),
            (0.4, 0.4),
            (6.0, 6.0),
            (7.0, 6.0),
            (f64::NAN, 0.0),
            (f64::INFINITY, 0.0),
        ] {
            assert_eq!(spacing_m(&case, asked_m), kept_m, "{asked_m}");
        }
    }

    /// A line that would break has a tension all the same; a motion that does not end has none.
    #[test]
    fn a_tension_is_told_unless_the_run_says_nothing() {
        let mut case = crew(1);
        case.motion.duration_s = 1.2;
        let of = |case: &Case| solve(case, Options::default()).unwrap();
        let whole = of(&case);
        assert_eq!(tension_n(&whole), Some(whole.history.tension_max_n));
        case.line.rope.breaking_force_n = Some(0.5 * whole.history.tension_max_n);
        let breaks = of(&case);
        assert_eq!(breaks.unknown(), Some(Unknown::LineBreaks));
        assert_eq!(tension_n(&breaks), Some(whole.history.tension_max_n));
        case.motion.duration_s = 0.5;
        assert_eq!(tension_n(&of(&case)), None);
    }

    /// Around the two delays that left least room the delays are a fiftieth of a second apart, up to the
    /// next of the grid on either side, and to the greatest delay.
    #[test]
    fn delays_are_refined_around_the_worst_and_not_beyond_the_greatest() {
        let case = crew(2);
        let most = fine_steps(&case);
        assert_eq!(most, 100);
        let steps = |delays_s: [(f64, f64); 4]| -> Vec<u32> {
            let runs = delays_s.map(|(s, room_m)| run(&case, s, room_m, None, room_m < 9.0));
            let given = answer(0.0, 0.0, true);
            let search = done(&case, What::Timing, given, runs.into());
            let delay = |tried: &Tried| match tried.scenario {
                Scenario::InTurn { delay_s, .. } => (delay_s * 50.0 + 0.5) as u32,
                _ => panic!("{tried:?}"),
            };
            search.finer().iter().map(delay).collect()
        };
        let around = |middle: u32| {
            let steps = middle.saturating_sub(4).max(1)..=(middle + 4).min(100);
            steps.filter(move |s| *s != middle)
        };
        let expected: Vec<u32> = around(100).chain(around(10)).collect();
        assert_eq!(
            steps([(1.0, 0.5), (2.0, 0.1), (0.2, 0.2), (0.5, 0.3)]),
            expected
        );
        // What has no footroom to rely on is not refined around; what two share is tried once.
        let mut expected: Vec<u32> = around(50).collect();
        expected.extend(
            around(52)
                .filter(|s| !expected.contains(s))
                .collect::<Vec<_>>(),
        );
        assert_eq!(
            steps([(1.0, 0.1), (2.0, 9.5), (1.04, 0.2), (0.5, 0.3)]),
            expected
        );
    }
}
