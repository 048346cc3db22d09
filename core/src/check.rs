//! Checks: every limit and every part, each with demand, capacity, ratio, source and verdict.
//!
//! Limits and strengths are data: a [`Check`] is built for each of them from [`Demands`], plain
//! numbers that the solver fills, and the case's rated strengths. The sets:
//! - the limits of 29 CFR 1926 Subpart M ([`CheckSet::Us`]);
//! - headline limits of European standards ([`CheckSet::European`]): EN 355 beside lanyards, EN 360
//!   beside self-retracting lifelines, EN 795;
//! - the site: required against available depth, margin included ([`CheckSet::Site`]);
//! - the parts that the arrest loads ([`CheckSet::Part`]);
//! - limits of the user's own, with their reference ([`CheckSet::Own`]).
//!
//! What is not known is [`Verdict::NotEvaluated`] with its reason, never a pass. A verdict compares
//! two numbers; it is no permission.
//!
//! Known limits: demands are peaks that need not happen at one instant (strong side). Of personal gear
//! the rated strength is held against the regulation's; harness and beam are not checked here. The pull
//! along the line at an intermediate post is that of a rope that slides through; friction adds to it.

use alloc::string::String;
use alloc::vec::Vec;

use crate::case::Case;
use crate::quantity::Quantity;

pub use crate::limits::{
    OWN_LIMITS_MAX, OWN_QUANTITIES, OwnLimit, OwnQuantity, REFERENCE_MAX, Sets,
};
pub use demand::{Demands, EndDemand, WorkerDemand};
use european::european;
pub use european::{
    EN_ARREST_FORCE_MAX_N, EN_EXTENSION_MAX_M, EN_RETRACTABLE_DISTANCE_MAX_M,
    EN_RETRACTABLE_FORCE_MAX_N, EN_USERS_MAX,
};
use own::own_check;
use parts::{Ends, parts};
use us::us;
pub use us::{
    US_ANCHORAGE_PER_WORKER_N, US_ARREST_FORCE_MAX_N, US_DECELERATION_DISTANCE_MAX_M,
    US_FREE_FALL_MAX_M, US_IMPACT_ENERGIES, US_IMPACT_FREE_FALL_M, US_LANYARD_STRENGTH_N,
    US_SELF_RETRACTING_FREE_FALL_MAX_M, US_SELF_RETRACTING_STRENGTH_N, US_SYSTEM_RATIO_MIN,
    US_USER_MASS_KG,
};

mod demand;
mod european;
mod own;
mod parts;
#[cfg(test)]
mod tests;
mod us;

const fn smaller(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

const fn larger(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// The set that a check belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum CheckSet {
    /// 29 CFR 1926 Subpart M.
    Us,
    /// EN 355, EN 360 and EN 795.
    European,
    /// The room below.
    Site,
    /// Strength of a part.
    Part,
    /// A limit of the user's own.
    Own,
}

/// Whom or what a check is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "of"))]
pub enum Subject {
    /// The whole system, or the line as a whole.
    System,
    /// One worker.
    Worker {
        /// Counted from 0.
        worker: usize,
    },
    /// The left end of the line.
    LeftEnd,
    /// The right end of the line.
    RightEnd,
    /// One intermediate post.
    IntermediatePost {
        /// Counted from 0, left to right.
        post: usize,
    },
}

/// How demand and capacity are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Kind {
    /// The demand must not exceed the capacity, a limit.
    AtMost,
    /// The value under `demand` must not fall below the one under `capacity`, a limit.
    AtLeast,
    /// Capacity, a strength, over demand must reach the required ratio.
    RatioAtLeast,
}

/// Where a limit or a required ratio stands.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "from"))]
pub enum Source {
    /// A published text.
    Clause {
        /// Clause, as cited.
        clause: &'static str,
        /// The value was not re-read in the text.
        from_memory: bool,
    },
    /// An input of the case.
    Input {
        /// Its name in [`crate::field::FIELDS`].
        field: &'static str,
    },
    /// The user's reference.
    Own {
        /// As typed.
        reference: String,
    },
}

/// Outcome of a comparison.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Verdict {
    /// The comparison holds.
    Meets,
    /// It does not hold.
    DoesNotMeet,
    /// It could not be made, or is for information.
    NotEvaluated,
}

/// Why a check was not evaluated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "why"))]
pub enum Reason {
    /// The rated strength has not been entered.
    StrengthMissing {
        /// The input to fill, a name in [`crate::field::FIELDS`].
        field: &'static str,
    },
    /// The end post has not been described, so that its forces are not known.
    PostNotDescribed,
    /// The fall gave no number to compare.
    DemandNotKnown,
    /// The limit is no usable number.
    LimitNotUsable,
    /// Not every part could be evaluated, and none of the others falls short.
    PartsNotEvaluated {
        /// How many.
        count: usize,
    },
    /// The worker is so heavy that the criteria of the test must be modified first.
    CriteriaToModify,
    /// Shown for information: it is an alternative.
    Information,
}

/// One limit or one part.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Check {
    /// Stable name, such as `us.free_fall` or `part.tieback`; own limits: `own`.
    pub key: &'static str,
    /// Name given by the user; own limits only.
    pub label: Option<String>,
    /// The set it belongs to.
    pub set: CheckSet,
    /// Whom or what it is about.
    pub subject: Subject,
    /// Kind of quantity of demand and capacity, SI.
    pub quantity: Quantity,
    /// How they are compared.
    pub kind: Kind,
    /// What the fall asks; `None`: not known.
    pub demand: Option<f64>,
    /// The limit, or the strength; `None`: not known.
    pub capacity: Option<f64>,
    /// Capacity over demand ([`Kind::AtLeast`]: demand over capacity), so that more is better;
    /// `None` where one of them is not known or the divisor not positive.
    pub ratio: Option<f64>,
    /// Least ratio at which the check is met: 1 for limits.
    pub required_ratio: f64,
    /// Where limit or required ratio stands.
    pub source: Source,
    /// Outcome.
    pub verdict: Verdict,
    /// Why it was not evaluated; `None`: it was.
    pub reason: Option<Reason>,
    /// For the check of the whole system: key of the part with the least ratio.
    pub governing: Option<&'static str>,
}

/// How many checks came out how.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Tally {
    /// Met.
    pub meets: usize,
    /// Not met.
    pub does_not_meet: usize,
    /// Not evaluated for want of a number.
    pub not_evaluated: usize,
    /// For information.
    pub information: usize,
}

impl Tally {
    /// Counts the checks.
    pub fn of(checks: &[Check]) -> Self {
        let mut tally = Self::default();
        for check in checks {
            match (check.verdict, check.reason) {
                (Verdict::Meets, _) => tally.meets += 1,
                (Verdict::DoesNotMeet, _) => tally.does_not_meet += 1,
                (Verdict::NotEvaluated, Some(Reason::Information)) => tally.information += 1,
                (Verdict::NotEvaluated, _) => tally.not_evaluated += 1,
            }
        }
        tally
    }
}

/// All checks of a case under the demands of its fall, in a fixed order: built-in limits, site,
/// parts from the rope outward, own limits in their order.
///
/// `case` gives strengths, posts, height of the line and number of workers attached. An own limit
/// that [`Case::faults`] would refuse is not evaluated.
///
/// # Examples
/// ```
/// use footroom_core::case::{Case, Worker};
/// use footroom_core::check::{Demands, EndDemand, Sets, Verdict, checks};
/// let case = Case { workers: vec![Worker::default()], ..Case::default() };
/// let end = EndDemand { tension_n: 20.5e3, horizontal_n: 20.0e3, vertical_n: 4.5e3 };
/// let demands = Demands {
///     tension_max_n: 20.5e3,
///     left_end: end,
///     right_end: end,
///     ..Demands::default()
/// };
/// let all = checks(&case, &demands, Sets::default(), &[]);
/// let verdict = |key| all.iter().find(|c| c.key == key).unwrap().verdict;
/// // The rope comes from the catalogue with its breaking force, 64 kN; what the line is
/// // anchored to has not been entered.
/// assert_eq!(verdict("part.rope_termination"), Verdict::Meets);
/// assert_eq!(verdict("part.end_anchorage"), Verdict::NotEvaluated);
/// ```
pub fn checks(case: &Case, demands: &Demands, sets: Sets, own: &[OwnLimit]) -> Vec<Check> {
    let ends = Ends::of(case, demands);
    let parts = parts(case, demands, &ends);
    let mut all = Vec::new();
    if sets.us {
        us(&mut all, case, demands, &parts);
    }
    if sets.european {
        european(&mut all, case, demands);
    }
    for w in &demands.workers {
        all.push(limit(
            "site.footroom",
            CheckSet::Site,
            Subject::Worker { worker: w.worker },
            Quantity::Length,
            w.required_depth_m,
            w.available_depth_m,
            Source::Input {
                field: "site.margin_m",
            },
        ));
    }
    all.extend(parts);
    all.extend(own.iter().map(|limit| own_check(limit, demands, &ends)));
    all
}

const fn clause(clause: &'static str) -> Source {
    Source::Clause {
        clause,
        from_memory: false,
    }
}

/// The greatest of some numbers with what it belongs to; a NaN wins, since it hides the worst.
fn worst_of(numbers: impl Iterator<Item = (f64, Subject)>) -> (Option<f64>, Subject) {
    let mut worst: (Option<f64>, Subject) = (None, Subject::System);
    for (value, subject) in numbers {
        let beaten = worst.0.is_none_or(|w| value > w || value.is_nan());
        if beaten && !worst.0.is_some_and(f64::is_nan) {
            worst = (Some(value), subject);
        }
    }
    worst
}

fn worst_worker(demands: &Demands, read: fn(&WorkerDemand) -> f64) -> (Option<f64>, Subject) {
    worst_of(
        demands
            .workers
            .iter()
            .map(|w| (read(w), Subject::Worker { worker: w.worker })),
    )
}

/// A limit not to be exceeded, judged.
fn limit(
    key: &'static str,
    set: CheckSet,
    subject: Subject,
    quantity: Quantity,
    demand: f64,
    most: f64,
    source: Source,
) -> Check {
    judge(Check {
        key,
        label: None,
        set,
        subject,
        quantity,
        kind: Kind::AtMost,
        demand: Some(demand),
        capacity: Some(most),
        ratio: None,
        required_ratio: 1.0,
        source,
        verdict: Verdict::NotEvaluated,
        reason: None,
        governing: None,
    })
}

/// A part, not yet judged; `field` is the input that holds its strength.
fn strength(
    key: &'static str,
    subject: Subject,
    quantity: Quantity,
    demand: f64,
    capacity: Option<f64>,
    required_ratio: f64,
    field: &'static str,
) -> Check {
    Check {
        key,
        label: None,
        set: CheckSet::Part,
        subject,
        quantity,
        kind: Kind::RatioAtLeast,
        demand: Some(demand),
        capacity,
        ratio: None,
        required_ratio,
        source: Source::Input {
            field: "strengths.required_ratio",
        },
        verdict: Verdict::NotEvaluated,
        // Stands unless a capacity lets the check be judged.
        reason: Some(Reason::StrengthMissing { field }),
        governing: None,
    }
}

impl Check {
    fn of(self, set: CheckSet) -> Self {
        Self { set, ..self }
    }
}

/// Compares demand and capacity. Numbers that are not finite, and strengths that are not positive,
/// count as not known.
fn judge(mut check: Check) -> Check {
    let strength = check.kind == Kind::RatioAtLeast;
    check.demand = check.demand.filter(|d| d.is_finite());
    check.capacity = check
        .capacity
        .filter(|c| c.is_finite() && (!strength || *c > 0.0));
    check.ratio = None;
    check.verdict = Verdict::NotEvaluated;
    let missing = check.reason.unwrap_or(Reason::LimitNotUsable);
    let (Some(demand), Some(capacity)) = (check.demand, check.capacity) else {
        check.reason = Some(if check.capacity.is_none() {
            missing
        } else {
            Reason::DemandNotKnown
        });
        return check;
    };
    let (over, under) = match check.kind {
        Kind::AtMost | Kind::RatioAtLeast => (capacity, demand),
        Kind::AtLeast => (demand, capacity),
    };
    if !check.required_ratio.is_finite() {
        check.reason = Some(Reason::LimitNotUsable);
        return check;
    }
    check.ratio = (under > 0.0)
        .then(|| over / under)
        .filter(|r| r.is_finite());
    check.reason = None;
    check.verdict = if over >= check.required_ratio * under {
        Verdict::Meets
    } else {
        Verdict::DoesNotMeet
    };
    check
}

fn for_information(check: Check) -> Check {
    Check {
        verdict: Verdict::NotEvaluated,
        reason: Some(Reason::Information),
        ..check
    }
}
