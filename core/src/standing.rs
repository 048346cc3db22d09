//! What is said of a case first: its room, its strength, and a mark that follows the worse of them.
//!
//! The third line of an answer, the worst anywhere on the line, is made of the same, see
//! [`crate::anywhere`]. Nothing here is a permission: the best mark says that the numbers that were
//! compared hold.

use crate::answer::Unknown;
use crate::check::{Check, CheckSet, Reason, Subject, Verdict};

/// How a case, or a line of its answer, stands. The greater, the worse.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Mark {
    /// What was compared holds.
    Holds,
    /// Nothing that was compared fails, but something could not be compared.
    Open,
    /// Something does not hold.
    Fails,
    /// No result.
    Unknown,
}

/// The weakest of the parts whose strength is known.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Strength {
    /// Strength over demand.
    pub ratio: f64,
    /// Ratio that it must keep.
    pub required_ratio: f64,
    /// Key of its check.
    pub key: &'static str,
    /// Which part.
    pub subject: Subject,
}

impl Strength {
    /// How much of the required ratio is kept: 1 and more is enough.
    pub fn kept(&self) -> f64 {
        self.ratio / self.required_ratio
    }
}

/// How a case stands.
///
/// # Examples
/// ```
/// use footroom_core::assess::assess;
/// use footroom_core::demo::demo;
/// use footroom_core::solve::Options;
/// use footroom_core::standing::Mark;
/// let assessment = assess(&demo(), Options::default()).unwrap();
/// let standing = assessment.standing(&demo());
/// // There is room, and the termination is too weak: that is what counts.
/// assert_eq!(standing.room_mark(), Mark::Holds);
/// assert_eq!(standing.strength.unwrap().key, "part.rope_termination");
/// assert_eq!(standing.mark(), Mark::Fails);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Standing {
    /// Least footroom, m; `None`: no result, see [`Standing::unknown`].
    pub footroom_m: Option<f64>,
    /// Why there is no result.
    pub unknown: Option<Unknown>,
    /// The weakest part; `None`: no strength is known.
    pub strength: Option<Strength>,
    /// Parts that fall short of the required ratio.
    pub parts_failing: usize,
    /// Parts that were not evaluated for want of a number.
    pub parts_open: usize,
    /// Limits of the applied sets and of the user's own that are not met. What the failing parts make
    /// fail, the factor of the whole system, is not counted again.
    pub limits_not_met: usize,
    /// The key of the first of those.
    pub first_limit: Option<&'static str>,
    /// Limits of the user's own that could not be evaluated.
    pub own_open: usize,
    /// An absorber, personal or in the line, is used up.
    pub absorber_used_up: bool,
}

impl Standing {
    /// How a case stands by its footroom and its checks.
    pub fn of(footroom: Result<f64, Unknown>, checks: &[Check], absorber_used_up: bool) -> Self {
        let parts = || checks.iter().filter(|c| c.set == CheckSet::Part);
        let fails = |c: &&Check| c.verdict == Verdict::DoesNotMeet;
        let parts_failing = parts().filter(fails).count();
        let limits = || {
            checks.iter().filter(fails).filter(|c| {
                !matches!(c.set, CheckSet::Part | CheckSet::Site)
                    && (parts_failing == 0 || c.governing.is_none())
            })
        };
        let open = |c: &&Check| {
            c.verdict == Verdict::NotEvaluated && c.reason != Some(Reason::Information)
        };
        Self {
            footroom_m: footroom.ok(),
            unknown: footroom.err(),
            strength: weakest(checks),
            parts_failing,
            parts_open: parts().filter(open).count(),
            limits_not_met: limits().count(),
            first_limit: limits().next().map(|c| c.key),
            own_open: checks
                .iter()
                .filter(|c| c.set == CheckSet::Own)
                .filter(open)
                .count(),
            absorber_used_up,
        }
    }

    /// The mark of the room.
    pub fn room_mark(&self) -> Mark {
        match self.footroom_m {
            None => Mark::Unknown,
            Some(footroom_m) if footroom_m >= 0.0 => Mark::Holds,
            Some(_) => Mark::Fails,
        }
    }

    /// The mark of the strength, and of the limits; without a result there is none of the strength
    /// either, as the forces are those of the same runs.
    pub fn strength_mark(&self) -> Mark {
        if self.unknown.is_some() {
            Mark::Unknown
        } else if self.parts_failing > 0 || self.limits_not_met > 0 || self.absorber_used_up {
            Mark::Fails
        } else if self.parts_open > 0 || self.own_open > 0 || self.strength.is_none() {
            Mark::Open
        } else {
            Mark::Holds
        }
    }

    /// The worse of both.
    pub fn mark(&self) -> Mark {
        self.room_mark().max(self.strength_mark())
    }
}

/// The weakest part of those whose strength is known.
pub fn weakest(checks: &[Check]) -> Option<Strength> {
    let known = checks.iter().filter(|c| c.set == CheckSet::Part);
    known
        .filter_map(|c| {
            Some(Strength {
                ratio: c.ratio?,
                required_ratio: c.required_ratio,
                key: c.key,
                subject: c.subject,
            })
        })
        .min_by(|a, b| a.kept().total_cmp(&b.kept()))
}
