//! A case with the runs of its answer made bit by bit, and what they gave: cheap first, the rest when it
//! matters.
//!
//! [`Effort::Full`] makes the runs of [`crate::assess::assess`] and gives the same numbers to the last
//! bit. [`Effort::Corners`] leaves out the two nominal ones and those of a crew's small differences
//! ([`crate::nearby`]): soft and stiff corner, and the mixed one on the same condition.

use alloc::vec::Vec;

use crate::answer::{self, Unknown};
use crate::assess::{self, demands};
use crate::case::{Case, Strengths};
use crate::check::{Check, Demands, checks};
use crate::corner::{Corner, Sides, moved};
use crate::fault::Fault;
use crate::nearby::{Around, Nearby, Neighbors};
use crate::ready::Ready;
use crate::solve::{Doubt, Options, Outcome, solve_each};
use crate::standing::Standing;

/// Which runs a judgement makes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Effort {
    /// Soft and stiff corner, and the mixed one where the assessment makes it: two or three runs.
    #[default]
    Corners,
    /// All runs of the assessment: four or five, and those near a crew.
    Full,
}

/// What the runs of a case gave.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Finding {
    /// Least footroom, m.
    pub footroom_m: f64,
    /// Worker who has it, counted from 0.
    pub worker: usize,
    /// Corner that gave it.
    pub corner: Corner,
    /// Difference within the crew that gave it; `None`: the crew as given.
    pub nearby: Option<Nearby>,
    /// How it stands by its room and all its checks, the weakest part among them.
    pub standing: Standing,
    /// Greatest line tension, N, the allowance included.
    pub tension_max_n: f64,
    /// Greatest arrest force, N.
    pub arrest_force_max_n: f64,
    /// A personal absorber is used up.
    pub absorber_used_up: bool,
    /// The in-line absorber is used up.
    pub inline_absorber_used_up: bool,
    /// Why the footroom says nothing; `None`: it is known.
    pub unknown: Option<Unknown>,
}

impl Finding {
    /// Footroom, m, or why it is not known.
    ///
    /// # Errors
    /// The reason.
    pub fn footroom(&self) -> Result<f64, Unknown> {
        self.unknown.map_or(Ok(self.footroom_m), Err)
    }

    /// Footroom, m; `None` where it says nothing, see [`Unknown`].
    pub fn known_footroom_m(&self) -> Option<f64> {
        self.footroom().ok()
    }
}

/// One run of an assessment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stage {
    Soft,
    Stiff,
    Mixed,
    Nominal,
    Undamped,
}

/// Runs made side by side; what says no most often comes first.
pub(crate) const CORNERS: [Stage; 2] = [Stage::Soft, Stage::Stiff];
pub(crate) const NOMINAL: [Stage; 2] = [Stage::Nominal, Stage::Undamped];

impl Stage {
    fn corner(self) -> Corner {
        match self {
            Stage::Soft => Corner::Soft,
            Stage::Stiff => Corner::Stiff,
            Stage::Mixed => Corner::Mixed,
            Stage::Nominal | Stage::Undamped => Corner::Nominal,
        }
    }

    /// Place in the assessment, which takes the first of equals as the governing one.
    fn rank(self) -> usize {
        match self {
            Stage::Nominal => 0,
            Stage::Undamped => 1,
            Stage::Soft => 2,
            Stage::Stiff => 3,
            Stage::Mixed => 4,
        }
    }
}

/// Most runs that are remembered: some tens of megabytes at most.
const REMEMBERED_MAX: usize = 4_000;

/// Runs that were made, for cases that have the same motion: those that differ in ratings alone.
#[derive(Clone, Debug, Default)]
pub(crate) struct Memory {
    /// What the mechanics was given, without ratings, and the runs; what was asked for last comes last.
    known: Vec<(Case, Trial)>,
    runs: usize,
    /// Nothing is remembered.
    off: bool,
}

impl Memory {
    /// One that remembers nothing.
    pub(crate) fn none() -> Self {
        Self {
            off: true,
            ..Self::default()
        }
    }

    /// A case with the runs of [`Effort::Corners`] made.
    ///
    /// # Errors
    /// Every fault of the case, when there is one.
    pub(crate) fn corners(&mut self, case: &Case) -> Result<Trial, Vec<Fault>> {
        if self.off {
            return Trial::corners(case);
        }
        let mut trial = Trial::new(case)?;
        if !self.recall(&mut trial, Effort::Corners) {
            trial.run(CORNERS);
            trial.run_mixed();
            self.keep(&trial);
        }
        Ok(trial)
    }

    /// A case with all runs made.
    ///
    /// # Errors
    /// Every fault of the case, when there is one.
    pub(crate) fn whole(&mut self, case: &Case) -> Result<Trial, Vec<Fault>> {
        let mut trial = self.corners(case)?;
        self.recall(&mut trial, Effort::Full);
        trial.complete();
        self.keep(&trial);
        Ok(trial)
    }

    /// Takes over what is known of a case; false: nothing is.
    pub(crate) fn recall(&mut self, trial: &mut Trial, effort: Effort) -> bool {
        let Some(at) = self.place(trial) else {
            return false;
        };
        // What was asked for last is forgotten last.
        let known = self.known.remove(at);
        trial.take_over(&known.1, effort);
        self.known.push(known);
        true
    }

    fn place(&self, trial: &Trial) -> Option<usize> {
        let bare = unrated(trial.ready.case());
        self.known.iter().rposition(|(known, _)| *known == bare)
    }

    /// Remembers the runs of a case, where they are more than what is known of it.
    pub(crate) fn keep(&mut self, trial: &Trial) {
        if self.off {
            return;
        }
        if let Some(at) = self.place(trial) {
            if self.known[at].1.made() >= trial.made() {
                return;
            }
            self.forget(at);
        }
        self.runs += trial.made();
        let bare = unrated(trial.ready.case());
        self.known.push((bare, trial.clone()));
        while self.runs > REMEMBERED_MAX && self.known.len() > 1 {
            self.forget(0);
        }
    }

    /// How many runs are remembered.
    #[cfg(test)]
    pub(crate) fn runs(&self) -> usize {
        self.runs
    }

    fn forget(&mut self, at: usize) {
        let (_, trial) = self.known.remove(at);
        self.runs -= trial.made();
    }
}

/// What the mechanics is given, without what it does not read.
fn unrated(ready: &Case) -> Case {
    let mut case = ready.clone();
    case.line.rope.breaking_force_n = None;
    case.strengths = Strengths::default();
    case
}

/// A case with the runs made so far: for a first finding from the corners, and the whole one later
/// without making them again.
///
/// # Examples
/// ```
/// use footroom_core::demo::demo;
/// use footroom_core::fit::{Effort, Trial, find};
/// let mut trial = Trial::corners(&demo()).unwrap();
/// assert_eq!(trial.finding(), find(&demo(), Effort::Corners).unwrap());
/// trial.complete();
/// assert_eq!(trial.finding(), find(&demo(), Effort::Full).unwrap());
/// ```
#[derive(Clone, Debug)]
pub struct Trial {
    /// As given: what the checks read.
    case: Case,
    pub(crate) ready: Ready,
    pub(crate) runs: Vec<(Stage, Outcome)>,
    neighbors: Neighbors,
}

impl Trial {
    /// Makes the runs of [`Effort::Corners`].
    ///
    /// # Errors
    /// Every fault of the case, when there is one.
    pub fn corners(case: &Case) -> Result<Self, Vec<Fault>> {
        Self::whole(case, Effort::Corners)
    }

    /// Makes those runs of [`Effort::Full`] that are still to be made.
    pub fn complete(&mut self) {
        while self.more() {}
    }

    /// Makes the next of those runs, the ones of [`Effort::Corners`] made; false: there was none left.
    pub(crate) fn more(&mut self) -> bool {
        if !self.runs.iter().any(|(stage, _)| NOMINAL.contains(stage)) {
            self.run(NOMINAL);
            return true;
        }
        self.step()
    }

    pub(crate) fn new(case: &Case) -> Result<Self, Vec<Fault>> {
        Ok(Self {
            ready: case.ready()?,
            neighbors: Neighbors::of(case),
            case: case.clone(),
            runs: Vec::new(),
        })
    }

    pub(crate) fn whole(case: &Case, effort: Effort) -> Result<Self, Vec<Fault>> {
        let mut trial = Self::new(case)?;
        match effort {
            Effort::Corners => trial.run(CORNERS),
            Effort::Full => {
                let ([soft, stiff], [nominal, undamped]) = (CORNERS, NOMINAL);
                trial.run([soft, stiff, nominal, undamped]);
            }
        }
        trial.run_mixed();
        if effort == Effort::Full {
            while trial.step() {}
        }
        Ok(trial)
    }

    /// Makes the next two nearby runs, the others made; false: there was none left.
    pub(crate) fn step(&mut self) -> bool {
        let runs = &self.runs;
        let base_m = |around: Around| {
            let stage = match around {
                Around::Undamped => Stage::Undamped,
                Around::Soft => Stage::Soft,
                Around::Stiff => Stage::Stiff,
            };
            let run = runs.iter().find(|(of, _)| *of == stage);
            run.map_or(0.0, |(_, outcome)| outcome.footroom_m)
        };
        (self.neighbors).step(&self.ready, base_m, Options::default())
    }

    /// Makes runs side by side.
    pub(crate) fn run<const N: usize>(&mut self, stages: [Stage; N]) {
        let cases = stages.map(|stage| self.moved(stage));
        let outcomes = solve_each(cases.each_ref().map(|c| (c, Options::default())));
        self.runs.extend(stages.into_iter().zip(outcomes));
    }

    /// Makes the mixed run, the soft one made; false where the assessment does not make it.
    pub(crate) fn run_mixed(&mut self) -> bool {
        let used_up = self.runs.iter().any(|(stage, outcome)| {
            *stage == Stage::Soft && outcome.workers.iter().any(|w| w.absorber_used_up)
        });
        let makes = used_up || self.case.line.inline_absorber.is_some();
        if makes {
            self.run([Stage::Mixed]);
        }
        makes
    }

    /// The case of a run.
    fn moved(&self, stage: Stage) -> Ready {
        match stage {
            Stage::Soft => moved(&self.ready, Sides::SOFT),
            Stage::Stiff => moved(&self.ready, Sides::STIFF),
            Stage::Mixed => moved(&self.ready, Sides::MIXED),
            Stage::Nominal => self.ready.clone(),
            Stage::Undamped => self.ready.undamped(),
        }
    }

    /// How many runs were made.
    fn made(&self) -> usize {
        self.runs.len() + self.neighbors.made().len()
    }

    /// Takes over the runs of a case that differs in nothing but ratings, which no motion knows: those
    /// that are still to be made, as far as that effort makes them.
    fn take_over(&mut self, known: &Trial, effort: Effort) {
        let breaking_force_n = self.ready.case().line.rope.breaking_force_n;
        let rated = |outcome: &Outcome| {
            let mut outcome = outcome.clone();
            outcome.rate_rope(breaking_force_n);
            outcome
        };
        for (stage, outcome) in &known.runs {
            let made = self.runs.iter().any(|(of, _)| of == stage);
            if !made && (effort == Effort::Full || !NOMINAL.contains(stage)) {
                self.runs.push((*stage, rated(outcome)));
            }
        }
        if effort == Effort::Full && self.neighbors.made().is_empty() {
            self.neighbors = known.neighbors.clone();
            for outcome in self.neighbors.outcomes_mut() {
                outcome.rate_rope(breaking_force_n);
            }
        }
    }

    /// What was solved so far.
    fn outcomes(&self) -> Vec<&Outcome> {
        let given = self.runs.iter().map(|(_, outcome)| outcome);
        let nearby = self.neighbors.made().iter().map(|n| &n.outcome);
        given.chain(nearby).collect()
    }

    pub(crate) fn demands(&self) -> Demands {
        demands(&self.case, &self.outcomes(), self.neighbors.beyond_m())
    }

    pub(crate) fn checks(&self) -> Vec<Check> {
        let case = &self.case;
        checks(case, &self.demands(), case.sets, &case.own_limits)
    }

    /// What the runs made so far gave.
    pub fn finding(&self) -> Finding {
        let outcomes = self.outcomes();
        let demands = demands(&self.case, &outcomes, self.neighbors.beyond_m());
        let checks = checks(&self.case, &demands, self.case.sets, &self.case.own_limits);
        let given = (self.runs.iter())
            .map(|(stage, outcome)| (outcome, stage.corner(), None, stage.rank()));
        let nearby = (self.neighbors.made().iter())
            .map(|n| (&n.outcome, n.around.corner(), Some(n.nearby), usize::MAX));
        let least = given.chain(nearby).min_by(|a, b| {
            let by_footroom = a.0.footroom_m.total_cmp(&b.0.footroom_m);
            by_footroom.then(a.3.cmp(&b.3))
        });
        let (footroom_m, worker, corner, nearby) = least.map_or(
            (0.0, 0, Corner::Nominal, None),
            |(run, corner, nearby, _)| {
                let footroom_m = run.footroom_m - self.neighbors.beyond_m();
                (footroom_m, run.governing_worker, corner, nearby)
            },
        );
        let doubt = |is: fn(&Doubt) -> bool| outcomes.iter().any(|o| o.doubts.iter().any(is));
        let absorber_used_up = doubt(|d| matches!(d, Doubt::AbsorberUsedUp { .. }));
        let inline_absorber_used_up = doubt(|d| matches!(d, Doubt::InlineAbsorberUsedUp { .. }));
        let unknown = answer::unknown(
            &assess::doubts(&self.case, &outcomes, demands.tension_max_n),
            footroom_m,
        );
        let standing = Standing::of(
            unknown.map_or(Ok(footroom_m), Err),
            &checks,
            absorber_used_up || inline_absorber_used_up,
        );
        Finding {
            footroom_m,
            worker,
            corner,
            nearby,
            standing,
            tension_max_n: demands.tension_max_n,
            arrest_force_max_n: demands
                .workers
                .iter()
                .fold(0.0, |most, w| w.arrest_force_n.max(most)),
            absorber_used_up,
            inline_absorber_used_up,
            unknown,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::find;
    use crate::spread::Spread;

    /// Whatever the ratings, what is remembered is what would be solved anew, and nothing is solved twice.
    #[test]
    fn remembered_runs_are_those_of_the_case() {
        let mut by = Spread::new(17);
        for _ in 0..8 {
            let case = by.case();
            let mut memory = Memory::default();
            let tension_n = memory.whole(&case).unwrap().finding().tension_max_n;
            let known = memory.runs;
            // Beside both bounds of the tension: the line breaks in all runs, in some, in none.
            for breaking_n in [0.5, 0.93, 0.999, 1.001, 3.0] {
                let mut rated = case.clone();
                rated.line.rope.breaking_force_n = Some(breaking_n * tension_n);
                rated.strengths.end_anchorage_n = Some(20.0e3);
                let Ok(anew) = Trial::whole(&rated, Effort::Full) else {
                    assert!(memory.whole(&rated).is_err());
                    continue;
                };
                // What is known beyond the corners does not show in them.
                let corners = memory.corners(&rated).unwrap();
                assert_eq!(corners.finding(), find(&rated, Effort::Corners).unwrap());
                let again = memory.whole(&rated).unwrap();
                assert_eq!(again.finding(), anew.finding());
                assert_eq!(again.checks(), anew.checks());
                // Corners and nominal runs are made in another order.
                for (stage, outcome) in &again.runs {
                    let other = anew.runs.iter().find(|(of, _)| of == stage).unwrap();
                    assert_eq!(*outcome, other.1);
                }
                let near = anew.neighbors.made().iter();
                assert!(
                    (again.neighbors.made().iter())
                        .map(|n| &n.outcome)
                        .eq(near.map(|n| &n.outcome))
                );
            }
            assert_eq!((memory.runs, memory.known.len()), (known, 1));
            let mut other = case.clone();
            other.workers[0].mass_kg += 1.0;
            memory.corners(&other).unwrap();
            assert!(memory.runs > known && memory.known.len() == 2);
        }
    }

    /// Cases of one worker, solved in a millisecond, each heavier than the one before.
    fn heavier(count: usize) -> Vec<Case> {
        let mut one = crate::demo::demo();
        one.workers.truncate(1);
        one.motion.duration_s = 0.5;
        (0..count)
            .map(|i| {
                let mut case = one.clone();
                case.workers[0].mass_kg += i as f64;
                case
            })
            .collect()
    }

    /// What was asked for longest ago is forgotten first, no more than is too much, and never the last.
    #[test]
    fn what_was_asked_for_longest_ago_is_forgotten_first() {
        let cases = heavier(5);
        let mut memory = Memory::default();
        let known = |memory: &Memory| -> Vec<usize> {
            let place = |case: &Case| {
                let mass = case.workers[0].mass_kg;
                cases
                    .iter()
                    .position(|c| c.workers[0].mass_kg == mass)
                    .unwrap()
            };
            memory.known.iter().map(|k| place(&k.0)).collect()
        };
        for case in &cases[..4] {
            memory.corners(case).unwrap();
        }
        let each = memory.runs() / 4;
        assert_eq!(
            (memory.runs(), known(&memory)),
            (4 * each, [0, 1, 2, 3].to_vec())
        );
        memory.corners(&cases[0]).unwrap();
        assert_eq!(
            (memory.runs(), known(&memory)),
            (4 * each, [1, 2, 3, 0].to_vec())
        );
        // As if as many were remembered as there may be.
        memory.runs = REMEMBERED_MAX;
        memory.corners(&cases[4]).unwrap();
        assert_eq!(known(&memory), [2, 3, 0, 4]);
        assert_eq!(memory.runs(), REMEMBERED_MAX);
        let mut memory = Memory {
            runs: REMEMBERED_MAX,
            ..Memory::default()
        };
        memory.corners(&cases[0]).unwrap();
        assert_eq!(known(&memory), [0]);
        let mut none = Memory::none();
        assert_eq!(
            none.corners(&cases[0]).unwrap().finding(),
            find(&cases[0], Effort::Corners).unwrap()
        );
        assert_eq!((none.runs(), none.known.len()), (0, 0));
    }

    /// More runs of a case take the place of fewer, and fewer do not take that of more.
    #[test]
    fn the_most_runs_of_a_case_are_remembered() {
        let case = &heavier(1)[0];
        let mut memory = Memory::default();
        let few = memory.corners(case).unwrap();
        let whole = memory.whole(case).unwrap();
        assert!(whole.made() > few.made());
        assert_eq!((memory.runs(), memory.known.len()), (whole.made(), 1));
        memory.keep(&few);
        assert_eq!((memory.runs(), memory.known.len()), (whole.made(), 1));
        let mut again = Trial::new(case).unwrap();
        assert!(memory.recall(&mut again, Effort::Full));
        assert_eq!(again.made(), whole.made());
        // What is short of runs makes the others.
        let mut begun = Trial::corners(case).unwrap();
        assert!(begun.more() && begun.made() == whole.made());
        assert!(!begun.more());
    }

    /// Of runs with the same footroom the first of the assessment governs, in whatever order they were made;
    /// the mixed run is made where an absorber is used up on the soft side, or one is in the line.
    #[test]
    fn of_equal_runs_the_first_of_the_assessment_governs() {
        let mut case = heavier(1).remove(0);
        case.line.inline_absorber = Some(crate::case::InlineAbsorber::default());
        let mut trial = Trial::whole(&case, Effort::Full).unwrap();
        assert_eq!(trial.runs.len(), 5);
        trial
            .runs
            .iter_mut()
            .for_each(|run| run.1.footroom_m = 0.25);
        for turn in 0..5 {
            trial.runs.rotate_left(1);
            assert_eq!(trial.finding().corner, Corner::Nominal, "{turn}");
        }
        let order = [
            Stage::Nominal,
            Stage::Undamped,
            Stage::Soft,
            Stage::Stiff,
            Stage::Mixed,
        ];
        for (i, stage) in order.into_iter().enumerate() {
            let corner = trial.finding().corner;
            assert_eq!(corner, stage.corner(), "{i}");
            trial.runs.retain(|run| run.0 != stage);
        }
        for used_up in [[true, false], [false, true], [false, false]] {
            let mut trial = Trial::new(&heavier(1)[0]).unwrap();
            trial.run(CORNERS);
            for (run, used_up) in trial.runs.iter_mut().zip(used_up) {
                run.1.workers[0].absorber_used_up = used_up;
            }
            assert_eq!(trial.run_mixed(), used_up[0]);
            assert_eq!(trial.runs.len(), if used_up[0] { 3 } else { 2 });
        }
    }

    /// An absorber that one run uses up is used up, and one of a crew is enough for the mixed run.
    #[test]
    fn what_one_run_uses_up_is_used_up() {
        let mut case = heavier(1).remove(0);
        let other = case.workers[0];
        case.workers.push(other);
        case.workers[1].position_m += 1.0;
        let mut made = Trial::corners(&case).unwrap();
        let used = |trial: &Trial| {
            let finding = trial.finding();
            let (own, inline) = (finding.absorber_used_up, finding.inline_absorber_used_up);
            (own, inline, finding.standing.absorber_used_up)
        };
        assert_eq!(used(&made), (false, false, false));
        for (doubt, expected) in [
            (
                Doubt::AbsorberUsedUp {
                    worker: 1,
                    arrest_force_n: 9.0e3,
                },
                (true, false, true),
            ),
            (
                Doubt::InlineAbsorberUsedUp { tension_n: 9.0e3 },
                (false, true, true),
            ),
        ] {
            for run in 0..2 {
                let mut trial = made.clone();
                trial.runs[run].1.doubts.push(doubt);
                assert_eq!(used(&trial), expected, "{run}");
            }
        }
        made.runs[0].1.workers[1].absorber_used_up = true;
        assert!(made.run_mixed());
    }
}
