//! What fits: the judgement of a case by its tolerance corners, on which rest the map of users
//! against posts ([`map`]), the inverse questions ([`ask`]), the suggestions ([`suggest`]) and the
//! rows of a comparison of layouts ([`row`]).
//!
//! # When a case fits
//! - its footroom is known, see [`crate::answer`], and is not negative in any run;
//! - no part whose strength is known falls short of the required ratio. A part whose strength is
//!   not known stops nothing; [`parts_open`](crate::standing::Standing::parts_open) counts them;
//! - limits of the chosen sets and of the user's own, and absorbers used up: as [`Limits`] says.
//!
//! "Fits" compares numbers of the model; it is no permission.
//!
//! # Runs
//! [`Trial`] makes them. A footroom unknown by the corners is unknown by all runs; one that is known by
//! them may still be taken away by another run. Questions and suggestions always use the full runs, but
//! stop at the first that says no.

use alloc::vec::Vec;

use crate::case::Case;
use crate::check::{Check, CheckSet, Subject, Verdict};
use crate::fault::Fault;
use crate::line::AtRest;
use crate::trial::{CORNERS, NOMINAL};

pub use crate::answer::Unknown;
pub use crate::trial::{Effort, Finding, Trial};

pub mod ask;
pub mod layout;
pub mod map;
pub mod suggest;

/// What limits and used-up absorbers count for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Limits {
    /// A change may not break what the given case keeps. What the given case does not keep is not
    /// asked of the changed one either.
    #[default]
    KeepMet,
    /// All must be met.
    All,
}

/// Why a case does not fit.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "stop"))]
pub enum Stop {
    /// The footroom is not known: nothing can be said.
    Unknown {
        /// Why.
        why: Unknown,
    },
    /// The room under a worker is short.
    Footroom {
        /// The worker, counted from 0.
        worker: usize,
        /// His footroom, m, negative.
        footroom_m: f64,
    },
    /// A part falls short of the required ratio.
    Part {
        /// Key of its check.
        key: &'static str,
        /// Which part.
        subject: Subject,
    },
    /// A limit is not met.
    Limit {
        /// Key of its check.
        key: &'static str,
        /// Whom or what it is about.
        subject: Subject,
        /// Place among the own limits; `None`: a built-in one.
        own: Option<usize>,
    },
    /// A personal absorber is used up.
    AbsorberUsedUp,
    /// The in-line absorber is used up.
    InlineAbsorberUsedUp,
    /// The case has a fault: it cannot be built or not be solved.
    Fault {
        /// Its first fault.
        fault: Fault,
    },
}

/// A row of a comparison of layouts: what must be put up, and what it gives.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Row {
    /// Users.
    pub users: usize,
    /// Spans.
    pub spans: usize,
    /// End posts that are described; an end without one is fixed to something else.
    pub end_posts: usize,
    /// Intermediate posts.
    pub intermediate_posts: usize,
    /// Tiebacks.
    pub tiebacks: usize,
    /// Unstretched rope between the end posts, m; terminations are not in it.
    pub rope_m: f64,
    /// Personal energy absorbers.
    pub personal_absorbers: usize,
    /// Energy absorbers in the line.
    pub inline_absorbers: usize,
    /// Footroom, weakest part and forces, by all runs of the assessment.
    pub finding: Finding,
}

/// Judges a case.
///
/// # Errors
/// Every fault of the case, when there is one.
///
/// # Examples
/// ```
/// use footroom_core::demo::demo;
/// use footroom_core::fit::{Effort, find};
/// let found = find(&demo(), Effort::Full).unwrap();
/// assert_eq!(found.standing.strength.unwrap().key, "part.rope_termination");
/// let mut nobody = demo();
/// nobody.workers.clear();
/// assert!(find(&nobody, Effort::Full).is_err());
/// ```
pub fn find(case: &Case, effort: Effort) -> Result<Finding, Vec<Fault>> {
    Ok(Trial::whole(case, effort)?.finding())
}

/// The row of a case in a comparison of layouts.
///
/// # Errors
/// Every fault of the case, when there is one.
pub fn row(case: &Case) -> Result<Row, Vec<Fault>> {
    let trial = Trial::whole(case, Effort::Full)?;
    let posts = [case.posts.left, case.posts.right];
    let spans = case.line.spans_m.len();
    Ok(Row {
        users: case.workers.len(),
        spans,
        end_posts: posts.iter().flatten().count(),
        intermediate_posts: spans - 1,
        tiebacks: posts
            .iter()
            .flatten()
            .filter(|p| p.tieback.is_some())
            .count(),
        rope_m: AtRest::of(trial.ready.line()).unstretched_m,
        personal_absorbers: case
            .workers
            .iter()
            .filter(|w| w.gear.absorber.is_some())
            .count(),
        inline_absorbers: (case.line.inline_absorber).map_or(0, |a| a.place.count()),
        finding: trial.finding(),
    })
}

/// What must hold for a case to fit, given the case from which it was changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Rules {
    limits: Limits,
    /// What the given case does not keep.
    excused: Vec<Excuse>,
}

/// What a stop is about, whatever the numbers of workers and posts.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Excuse {
    Limit(&'static str, Option<usize>),
    AbsorberUsedUp,
    InlineAbsorberUsedUp,
}

impl Rules {
    /// The rules for changes of `given`.
    ///
    /// # Errors
    /// Every fault of the case, when there is one.
    pub fn new(given: &Case, limits: Limits) -> Result<Self, Vec<Fault>> {
        Ok(Self::of(&Trial::whole(given, Effort::Full)?, limits))
    }

    fn of(given: &Trial, limits: Limits) -> Self {
        let mut rules = Self {
            limits,
            excused: Vec::new(),
        };
        rules.excuse(given);
        rules
    }

    /// What these runs do not keep is not asked any more, as far as the limits may be excused.
    fn excuse(&mut self, given: &Trial) {
        if self.limits == Limits::All {
            return;
        }
        let found = given.finding();
        for (check, own) in limits_not_met(&given.checks()) {
            // To touch what is below is never excused.
            if check.key != NO_CONTACT {
                self.excused.push(Excuse::Limit(check.key, own));
            }
        }
        for (is, excuse) in [
            (found.absorber_used_up, Excuse::AbsorberUsedUp),
            (found.inline_absorber_used_up, Excuse::InlineAbsorberUsedUp),
        ] {
            if is {
                self.excused.push(excuse);
            }
        }
    }

    fn counts(&self, excuse: Excuse) -> bool {
        match (self.limits, excuse) {
            (_, Excuse::Limit(NO_CONTACT, _)) | (Limits::All, _) => true,
            (Limits::KeepMet, _) => !self.excused.contains(&excuse),
        }
    }

    /// The first thing that stops a case, all runs made; `None`: it fits.
    pub fn stop(&self, case: &Case) -> Option<Stop> {
        match Trial::whole(case, Effort::Full) {
            Ok(trial) => trial.stop(self),
            Err(faults) => fault_stop(&faults),
        }
    }

    /// As [`Rules::stop`], ending at the first run that says no: quicker, but what it names need
    /// not be the first thing of all runs.
    fn fits(&self, case: &Case) -> Result<Finding, Option<Stop>> {
        let mut trial = Trial::new(case).map_err(|faults| fault_stop(&faults))?;
        let stopped = |trial: &Trial| trial.stop(self).map_or(Ok(()), |stop| Err(Some(stop)));
        trial.run(CORNERS);
        stopped(&trial)?;
        if trial.run_mixed() {
            stopped(&trial)?;
        }
        trial.run(NOMINAL);
        stopped(&trial)?;
        while trial.step() {
            stopped(&trial)?;
        }
        Ok(trial.finding())
    }
}

const NO_CONTACT: &str = "us.no_contact";

fn fault_stop(faults: &[Fault]) -> Option<Stop> {
    faults.first().map(|&fault| Stop::Fault { fault })
}

/// The limits that are not met, own ones with their place.
fn limits_not_met(checks: &[Check]) -> impl Iterator<Item = (&Check, Option<usize>)> {
    let mut owns = 0;
    checks
        .iter()
        .map(move |check| {
            let own = (check.set == CheckSet::Own).then_some(owns);
            owns += usize::from(own.is_some());
            (check, own)
        })
        .filter(|(check, _)| {
            !matches!(check.set, CheckSet::Part | CheckSet::Site)
                && check.verdict == Verdict::DoesNotMeet
        })
}

impl Trial {
    /// The first thing in the runs made so far that stops the case. More runs only raise demands,
    /// so that what stops now stops in the end.
    fn stop(&self, rules: &Rules) -> Option<Stop> {
        let found = self.finding();
        if let Some(why) = found.unknown {
            return Some(Stop::Unknown { why });
        }
        if found.footroom_m < 0.0 {
            return Some(Stop::Footroom {
                worker: found.worker,
                footroom_m: found.footroom_m,
            });
        }
        let checks = self.checks();
        if found.standing.parts_failing > 0 {
            let weakest = checks
                .iter()
                .filter(|c| c.set == CheckSet::Part && c.verdict == Verdict::DoesNotMeet)
                .min_by(|a, b| a.ratio.unwrap_or(0.0).total_cmp(&b.ratio.unwrap_or(0.0)));
            return weakest.map(|c| Stop::Part {
                key: c.key,
                subject: c.subject,
            });
        }
        let limit = limits_not_met(&checks)
            .find(|(check, own)| rules.counts(Excuse::Limit(check.key, *own)));
        if let Some((check, own)) = limit {
            return Some(Stop::Limit {
                key: check.key,
                subject: check.subject,
                own,
            });
        }
        for (is, excuse, stop) in [
            (
                found.absorber_used_up,
                Excuse::AbsorberUsedUp,
                Stop::AbsorberUsedUp,
            ),
            (
                found.inline_absorber_used_up,
                Excuse::InlineAbsorberUsedUp,
                Stop::InlineAbsorberUsedUp,
            ),
        ] {
            if is && rules.counts(excuse) {
                return Some(stop);
            }
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::assess;
    use crate::demo::demo;
    use crate::solve::{Doubt, Options};
    use crate::spread::Spread;

    /// The runs are made in another order and place than in the assessment: same numbers.
    #[test]
    fn a_full_finding_is_the_assessment_s() {
        let mut by = Spread::new(11);
        for _ in 0..15 {
            let case = by.case();
            let found = find(&case, Effort::Full).unwrap();
            let whole = assess(&case, Options::default()).unwrap();
            assert_eq!(found.footroom_m.to_bits(), whole.footroom.value.to_bits());
            assert_eq!(found.worker, whole.footroom.worker);
            assert_eq!(found.corner, whole.footroom.corner);
            assert_eq!(found.tension_max_n, whole.demands.tension_max_n);
            assert_eq!(found.arrest_force_max_n, whole.arrest_force_max.value);
            assert_eq!(found.footroom(), whole.answer().map(|g| g.value));
            let trial = Trial::whole(&case, Effort::Full).unwrap();
            assert_eq!(trial.demands(), whole.demands);
            let checks = whole.checks(&case);
            assert_eq!(trial.checks(), checks);
            let fails = checks
                .iter()
                .any(|c| c.set == CheckSet::Part && c.verdict == Verdict::DoesNotMeet);
            assert_eq!(found.standing.parts_failing > 0, fails);
            let less = find(&case, Effort::Corners).unwrap();
            let mut by_and_by = Trial::corners(&case).unwrap();
            assert_eq!(by_and_by.finding(), less);
            for _ in 0..2 {
                by_and_by.complete();
                assert_eq!(by_and_by.finding(), found);
            }
            assert!(less.footroom_m >= found.footroom_m);
            assert!(less.tension_max_n <= found.tension_max_n);
        }
    }

    #[test]
    fn stopping_early_decides_as_all_runs_do() {
        let mut by = Spread::new(5);
        let mut fitting = 0;
        for i in 0..18 {
            let case = by.case();
            let limits = [Limits::KeepMet, Limits::All][i % 2];
            let rules = Rules::new(&case, limits).unwrap();
            let whole = rules.stop(&case);
            assert_eq!(rules.fits(&case).is_ok(), whole.is_none(), "{whole:?}");
            fitting += usize::from(whole.is_none());
        }
        assert!((2..=16).contains(&fitting), "{fitting} fit");
    }

    #[test]
    fn what_the_given_case_breaks_is_excused_and_nothing_else() {
        let mut case = demo();
        case.line.spans_m = alloc::vec![6.0; 3];
        case.site.beam_top_m = 20.0;
        case.workers[0].gear.length_m = 2.4;
        let rules = Rules::new(&case, Limits::KeepMet).unwrap();
        assert_eq!(rules.stop(&case), None);
        let all = Rules::new(&case, Limits::All).unwrap();
        assert!(matches!(
            all.stop(&case),
            Some(Stop::Limit {
                key: "us.free_fall",
                ..
            })
        ));
        // A force limit was kept and may not be broken.
        let mut hard = case.clone();
        for w in &mut hard.workers {
            let absorber = w.gear.absorber.as_mut().unwrap();
            absorber.average_force_n = 8.2e3;
        }
        let stop = rules.stop(&hard);
        assert!(
            matches!(stop, Some(Stop::Part { .. } | Stop::Limit { .. })),
            "{stop:?}"
        );
        let mut faulty = case.clone();
        faulty.line.pretension_n = f64::NAN;
        assert!(matches!(rules.stop(&faulty), Some(Stop::Fault { .. })));
    }

    /// Neither is excused, whatever the given case does: their numbers do not tell whether it fits.
    #[test]
    fn an_open_ledger_or_a_swing_below_the_stack_does_not_fit() {
        let mut case = demo();
        case.line.spans_m = alloc::vec![6.0; 3];
        case.site.beam_top_m = 20.0;
        for limits in [Limits::KeepMet, Limits::All] {
            let rules = Rules::new(&case, limits).unwrap();
            assert!(matches!(rules.stop(&case), None | Some(Stop::Limit { .. })));
            let mut open = Trial::whole(&case, Effort::Corners).unwrap();
            assert_eq!(open.finding().unknown, None);
            let residual_ratio = 2.0e-3;
            open.runs[1]
                .1
                .doubts
                .push(Doubt::LedgerOpen { residual_ratio });
            let why = Unknown::LedgerOpen;
            assert_eq!(open.stop(&rules), Some(Stop::Unknown { why }));
            // Paid out to the side, a self-retracting lifeline lets him swing below its stack.
            let mut aside = case.clone();
            aside.workers[1].gear.kind = crate::case::GearKind::SelfRetracting;
            aside.workers[1].offset_along_m = 0.9;
            let rules = Rules::new(&aside, limits).unwrap();
            let found = find(&aside, Effort::Corners).unwrap();
            assert!(found.footroom_m > 0.0);
            let why = Unknown::SwingsBelowStack;
            assert_eq!(found.unknown, Some(why));
            assert_eq!(rules.stop(&aside), Some(Stop::Unknown { why }));
        }
    }

    /// Where the line would break no room is claimed, however much the numbers show.
    #[test]
    fn a_line_that_would_break_has_no_known_footroom() {
        let mut case = demo();
        case.site.beam_top_m = 20.0;
        let whole = find(&case, Effort::Full).unwrap();
        assert_eq!(whole.footroom(), Ok(whole.footroom_m));
        let just = |more: f64| {
            let mut weak = case.clone();
            weak.line.rope.breaking_force_n = Some(whole.tension_max_n + more);
            find(&weak, Effort::Full).unwrap()
        };
        assert_eq!(just(0.0).unknown, None);
        let broken = just(-0.1);
        assert_eq!(broken.footroom(), Err(Unknown::LineBreaks));
        assert_eq!(broken.known_footroom_m(), None);
        assert!(broken.footroom_m > 0.0);
        let mut unknown = case.clone();
        unknown.line.rope.breaking_force_n = None;
        assert_eq!(find(&unknown, Effort::Full).unwrap().unknown, None);
    }

    #[test]
    fn a_row_counts_what_is_put_up() {
        let mut case = demo();
        case.posts.right = Some(crate::case::EndPost {
            tieback: None,
            ..Default::default()
        });
        case.workers[1].gear.absorber = None;
        let row = row(&case).unwrap();
        assert_eq!(
            (row.users, row.spans, row.end_posts, row.intermediate_posts),
            (3, 2, 2, 1)
        );
        assert_eq!(
            (row.tiebacks, row.personal_absorbers, row.inline_absorbers),
            (1, 2, 0)
        );
        assert!((row.rope_m - 18.0).abs() < 0.05, "{}", row.rope_m);
        assert_eq!(row.finding, find(&case, Effort::Full).unwrap());
    }

    /// A limit of the user's own that the given case breaks is excused alone: another of them is not,
    /// whatever its place.
    #[test]
    fn an_own_limit_that_is_broken_excuses_no_other() {
        use crate::limits::{OwnLimit, OwnQuantity};
        let mut given = demo();
        given.workers.truncate(1);
        given.motion.duration_s = 1.6;
        given.site.beam_top_m = 20.0;
        let whole = find(&given, Effort::Full).unwrap();
        let own = |quantity, limit| OwnLimit {
            quantity,
            limit,
            ..OwnLimit::default()
        };
        let broken = own(OwnQuantity::FreeFall, 0.1);
        let kept = own(OwnQuantity::LineTension, 1.01 * whole.tension_max_n);
        for (limits, place) in [
            (alloc::vec![broken.clone(), kept.clone()], 1),
            (alloc::vec![kept, broken], 0),
        ] {
            let mut given = given.clone();
            given.own_limits = limits;
            let rules = Rules::new(&given, Limits::KeepMet).unwrap();
            assert_eq!(rules.stop(&given), None);
            let mut changed = given.clone();
            changed.workers[0].mass_kg += 30.0;
            let Some(Stop::Limit { key, own, .. }) = rules.stop(&changed) else {
                panic!("{:?}", rules.stop(&changed));
            };
            assert_eq!((key, own), ("own", Some(place)));
            let all = Rules::new(&given, Limits::All).unwrap();
            assert!(matches!(all.stop(&given), Some(Stop::Limit { .. })));
        }
    }

    /// What fits by stopping early has made all runs: it finds what the whole assessment finds.
    #[test]
    fn what_fits_was_judged_by_all_runs() {
        let mut case = demo();
        case.workers.truncate(2);
        case.motion.duration_s = 1.6;
        case.site.beam_top_m = 20.0;
        case.line.rope.breaking_force_n = None;
        let rules = Rules::new(&case, Limits::KeepMet).unwrap();
        assert_eq!(rules.fits(&case), Ok(find(&case, Effort::Full).unwrap()));
        // Without tolerances the nominal run, made last, is the first of equals.
        let mut exact = case.clone();
        exact.workers.truncate(1);
        exact.tolerances = crate::case::Tolerances {
            mass_ratio: 0.0,
            absorber_force_ratio: 0.0,
            pretension_ratio: 0.0,
            axial_stiffness_ratio: 0.0,
            end_stiffness_ratio: 0.0,
            inline_force_ratio: 0.0,
        };
        let corners = find(&exact, Effort::Corners).unwrap();
        let whole = find(&exact, Effort::Full).unwrap();
        assert_ne!(whole.corner, corners.corner);
        let rules = Rules::new(&exact, Limits::KeepMet).unwrap();
        assert_eq!(rules.fits(&exact), Ok(whole));
        // No room to spare is room.
        let mut trial = Trial::whole(&case, Effort::Corners).unwrap();
        let least_m = trial.finding().footroom_m;
        trial
            .runs
            .iter_mut()
            .for_each(|run| run.1.footroom_m -= least_m);
        assert_eq!(trial.finding().footroom_m, 0.0);
        assert!(!matches!(trial.stop(&rules), Some(Stop::Footroom { .. })));
    }
}
