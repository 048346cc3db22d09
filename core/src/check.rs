//! Checks: every limit and every part, each with demand, capacity, ratio, source and verdict.
//!
//! Limits and strengths are data: a [`Check`] is built for each of them from [`Demands`], plain
//! numbers that the solver fills, and the case's rated strengths. The sets:
//! - the limits of 29 CFR 1926 Subpart M ([`CheckSet::Us`]);
//! - headline limits of European standards ([`CheckSet::European`]);
//! - the site: required against available depth, margin included ([`CheckSet::Site`]);
//! - the parts that the arrest loads ([`CheckSet::Part`]);
//! - limits of the user's own, with their reference ([`CheckSet::Own`]).
//!
//! What is not known is [`Verdict::NotEvaluated`] with its reason, never a pass. A verdict compares
//! two numbers; it is no permission.
//!
//! Known limits: demands are peaks that need not happen at one instant (strong side); personal
//! gear, harness and beam are not checked here.

use alloc::string::String;
use alloc::vec::Vec;

use crate::case::{Case, EndPost, TEXT_MAX};
use crate::constants::{FOOT_M, POUND_FORCE_N, WORKERS_MAX};
use crate::fault::{Fault, FieldRef};
use crate::field::Quantity;
use crate::support::{
    EndPull, PostKick, SupportForces, TiebackForces, support_forces, termination_strength_n,
};

const fn smaller(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

const fn larger(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// Most arrest force on a worker in a body harness, N: 1,800 lbf, or the 8 kN that the text gives
/// beside it, whichever is less.
///
/// # Source
/// 29 CFR 1926.502(d)(16)(ii).
pub const US_ARREST_FORCE_MAX_N: f64 = smaller(1_800.0 * POUND_FORCE_N, 8_000.0);

/// Most free fall, m: 6 ft, or the 1.8 m that the text gives beside it, whichever is less.
///
/// # Source
/// 29 CFR 1926.502(d)(16)(iii).
pub const US_FREE_FALL_MAX_M: f64 = smaller(6.0 * FOOT_M, 1.8);

/// Most deceleration distance, m: 3.5 ft, or the 1.07 m that the text gives beside it, whichever
/// is less. It excludes free fall and lifeline elongation (29 CFR 1926.500(b), definition).
///
/// # Source
/// 29 CFR 1926.502(d)(16)(iv).
pub const US_DECELERATION_DISTANCE_MAX_M: f64 = smaller(3.5 * FOOT_M, 1.07);

/// Least ratio of strength to load of the complete system.
///
/// # Source
/// 29 CFR 1926.502(d)(8).
pub const US_SYSTEM_RATIO_MIN: f64 = 2.0;

/// Strength of an anchorage for each worker attached, N, where it is not part of a complete
/// system with a factor of at least two: 5,000 lbf, or the 22.2 kN that the text gives beside it,
/// whichever is more.
///
/// # Source
/// 29 CFR 1926.502(d)(15).
pub const US_ANCHORAGE_PER_WORKER_N: f64 = larger(5_000.0 * POUND_FORCE_N, 22_200.0);

/// Most arrest force in the test of an energy absorber, N: 100 kg dropped through twice the
/// lanyard's length.
///
/// # Source
/// EN 355:2002 (limits).
pub const EN_ARREST_FORCE_MAX_N: f64 = 6_000.0;

/// Most extension in the test of an energy absorber, m.
///
/// # Source
/// EN 355:2002 (limits).
pub const EN_EXTENSION_MAX_M: f64 = 1.75;

/// Users for whom the anchor devices of EN 795:2012 are made. More than one is the subject of
/// CEN/TS 16415:2013.
///
/// # Source
/// EN 795:2012, scope, from memory.
pub const EN_USERS_MAX: u8 = 1;

/// Most limits of the user's own.
pub const OWN_LIMITS_MAX: usize = 24;

/// Most characters of the reference text of an own limit.
pub const REFERENCE_MAX: usize = 200;

/// What the fall asks of one worker, the worse of methods and tolerance corners in each number.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct WorkerDemand {
    /// The worker, counted from 0 in the case.
    pub worker: usize,
    /// Greatest arrest force, N.
    pub arrest_force_n: f64,
    /// Free fall before the gear is taut, m.
    pub free_fall_m: f64,
    /// Deceleration distance, m: extension of absorber and webbing, without free fall and without
    /// the movement of the lifeline.
    pub deceleration_distance_m: f64,
    /// Depth needed below line level, m, margin included: the whole stack.
    pub required_depth_m: f64,
    /// Margin within it, m.
    pub margin_m: f64,
    /// Depth measured from line level down to the highest thing within reach, m.
    pub available_depth_m: f64,
    /// The worker came down on what is below in a computed motion.
    pub contact: bool,
}

/// What the fall asks of one end of the line: peaks, each at its own instant, with the allowance
/// on tension and what an in-line absorber adds.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct EndDemand {
    /// Tension, N.
    pub tension_n: f64,
    /// Its horizontal component, N.
    pub horizontal_n: f64,
    /// Its vertical component, N, downward on the post head.
    pub vertical_n: f64,
}

/// What the fall asks of everything: plain numbers, filled by the solver from the stiff corner
/// (forces) and the soft corner (lengths). A number that is not finite reads as not known.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Demands {
    /// Everyone who falls.
    pub workers: Vec<WorkerDemand>,
    /// Greatest tension anywhere along the line, N.
    pub tension_max_n: f64,
    /// Left end.
    pub left_end: EndDemand,
    /// Right end.
    pub right_end: EndDemand,
    /// Greatest kick on every intermediate post, left to right.
    pub intermediate_posts: Vec<PostKick>,
}

/// Which built-in sets of limits are applied. Site and parts always are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Sets {
    /// 29 CFR 1926 Subpart M.
    pub us: bool,
    /// EN 355 and EN 795.
    pub european: bool,
}

impl Default for Sets {
    /// The limits of 29 CFR 1926 Subpart M only.
    fn default() -> Self {
        Self {
            us: true,
            european: false,
        }
    }
}

/// What a limit of the user's own bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum OwnQuantity {
    /// Arrest force on a worker, at most, N.
    ArrestForce,
    /// Free fall, at most, m.
    FreeFall,
    /// Deceleration distance, at most, m.
    DecelerationDistance,
    /// Depth needed below line level, margin included, at most, m.
    RequiredDepth,
    /// Room left under the soles once the margin is kept, at least, m.
    Footroom,
    /// Tension anywhere in the line, at most, N.
    LineTension,
    /// Tension at an end of the line, at most, N.
    EndTension,
    /// Tension of a tieback that takes the whole pull, at most, N.
    TiebackTension,
    /// Compression of an end post, at most, N.
    PostCompression,
    /// Moment at the foot of an end post, at most, N·m.
    PostMoment,
    /// Downward load on the head of an intermediate post, at most, N.
    IntermediatePostLoad,
}

impl OwnQuantity {
    /// Kind of quantity, which fixes unit and display.
    pub const fn quantity(self) -> Quantity {
        match self {
            OwnQuantity::FreeFall
            | OwnQuantity::DecelerationDistance
            | OwnQuantity::RequiredDepth
            | OwnQuantity::Footroom => Quantity::Length,
            OwnQuantity::PostMoment => Quantity::Moment,
            OwnQuantity::ArrestForce
            | OwnQuantity::LineTension
            | OwnQuantity::EndTension
            | OwnQuantity::TiebackTension
            | OwnQuantity::PostCompression
            | OwnQuantity::IntermediatePostLoad => Quantity::Force,
        }
    }

    /// Greatest limit that is taken, SI.
    pub const fn limit_max(self) -> f64 {
        match self.quantity() {
            Quantity::Length => 300.0,
            _ => 2.0e6,
        }
    }
}

/// A limit of the user's own: a local code's, an owner's, a maker's.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct OwnLimit {
    /// Name, at most [`TEXT_MAX`] characters.
    pub label: String,
    /// What it bounds.
    pub quantity: OwnQuantity,
    /// The limit, SI in the unit of the quantity, 0 to [`OwnQuantity::limit_max`].
    pub limit: f64,
    /// Where it stands, at most [`REFERENCE_MAX`] characters.
    pub reference: String,
}

/// Every fault of a list of own limits; the fields are named `own_limits…`.
pub fn own_limit_faults(own: &[OwnLimit]) -> Vec<Fault> {
    let mut faults = Vec::new();
    if own.len() > OWN_LIMITS_MAX {
        faults.push(Fault::Count {
            field: FieldRef::new("own_limits"),
            count: own.len(),
            min: 0,
            max: OWN_LIMITS_MAX,
        });
    }
    for (i, limit) in own.iter().enumerate() {
        for (name, text, max) in [
            ("own_limits.label", &limit.label, TEXT_MAX),
            ("own_limits.reference", &limit.reference, REFERENCE_MAX),
        ] {
            let count = text.chars().count();
            if count > max {
                faults.push(Fault::Count {
                    field: FieldRef::at(name, i),
                    count,
                    min: 0,
                    max,
                });
            }
        }
        let field = FieldRef::at("own_limits.limit", i);
        let max = limit.quantity.limit_max();
        if !limit.limit.is_finite() {
            faults.push(Fault::NotFinite { field });
        } else if !(0.0..=max).contains(&limit.limit) {
            faults.push(Fault::OutOfRange {
                field,
                value: limit.limit,
                min: 0.0,
                max,
            });
        }
    }
    faults
}

/// The set that a check belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum CheckSet {
    /// 29 CFR 1926 Subpart M.
    Us,
    /// EN 355 and EN 795.
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
    /// Shown for information: it is an alternative, or there is no rated strength to enter.
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
/// that [`own_limit_faults`] would refuse is not evaluated.
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

/// Forces on both end posts, where they are described.
struct Ends {
    left: Option<SupportForces>,
    right: Option<SupportForces>,
}

impl Ends {
    fn of(case: &Case, demands: &Demands) -> Self {
        let forces = |post: Option<EndPost>, end: &EndDemand| {
            support_forces(
                &post?,
                case.line.height_above_beam_m,
                EndPull {
                    horizontal_n: end.horizontal_n,
                    vertical_n: end.vertical_n,
                },
                case.tolerances.end_stiffness_ratio,
            )
        };
        Self {
            left: forces(case.posts.left, &demands.left_end),
            right: forces(case.posts.right, &demands.right_end),
        }
    }

    /// The greater of a force over both ends, with its end; `None`: known at neither.
    fn worst(&self, read: impl Fn(&SupportForces) -> Option<f64>) -> (Option<f64>, Subject) {
        let at = |forces: &Option<SupportForces>| forces.as_ref().and_then(&read);
        match (at(&self.left), at(&self.right)) {
            (Some(left), Some(right)) if right > left => (Some(right), Subject::RightEnd),
            (Some(left), _) => (Some(left), Subject::LeftEnd),
            (None, right) => (right, Subject::RightEnd),
        }
    }
}

const CLAUSE_ARREST: &str = "29 CFR 1926.502(d)(16)(ii)";
const CLAUSE_FALL: &str = "29 CFR 1926.502(d)(16)(iii)";
const CLAUSE_DECELERATION: &str =
    "29 CFR 1926.502(d)(16)(iv); 29 CFR 1926.500(b), deceleration distance";
const CLAUSE_SYSTEM: &str = "29 CFR 1926.502(d)(8)";
const CLAUSE_ANCHORAGE: &str = "29 CFR 1926.502(d)(15)";
const CLAUSE_EN_ABSORBER: &str = "EN 355:2002";
const CLAUSE_EN_USERS: &str = "EN 795:2012, scope; CEN/TS 16415:2013";

const fn clause(clause: &'static str) -> Source {
    Source::Clause {
        clause,
        from_memory: false,
    }
}

fn us(all: &mut Vec<Check>, case: &Case, demands: &Demands, parts: &[Check]) {
    for w in &demands.workers {
        let subject = Subject::Worker { worker: w.worker };
        let mut push = |key, quantity, demand, most, source| {
            all.push(limit(
                key,
                CheckSet::Us,
                subject,
                quantity,
                demand,
                most,
                clause(source),
            ));
        };
        push(
            "us.arrest_force",
            Quantity::Force,
            w.arrest_force_n,
            US_ARREST_FORCE_MAX_N,
            CLAUSE_ARREST,
        );
        push(
            "us.free_fall",
            Quantity::Length,
            w.free_fall_m,
            US_FREE_FALL_MAX_M,
            CLAUSE_FALL,
        );
        push(
            "us.deceleration_distance",
            Quantity::Length,
            w.deceleration_distance_m,
            US_DECELERATION_DISTANCE_MAX_M,
            CLAUSE_DECELERATION,
        );
        // No contact: depth of the soles, without the margin. To touch is to make contact.
        let soles_m = w.required_depth_m - w.margin_m;
        push(
            "us.no_contact",
            Quantity::Length,
            soles_m,
            w.available_depth_m,
            CLAUSE_FALL,
        );
        if let Some(check) = all.last_mut()
            && (w.contact || soles_m >= w.available_depth_m)
        {
            check.verdict = Verdict::DoesNotMeet;
            check.reason = None;
        }
    }
    all.push(system_factor(parts));
    let attached = case.workers.len().min(WORKERS_MAX) as f64;
    all.push(for_information(judge(Check {
        required_ratio: 1.0,
        source: clause(CLAUSE_ANCHORAGE),
        ..strength(
            "us.anchorage_alternative",
            Subject::System,
            Quantity::Force,
            US_ANCHORAGE_PER_WORKER_N * attached,
            case.strengths.end_anchorage_n,
            1.0,
            "strengths.end_anchorage_n",
        )
        .of(CheckSet::Us)
    })));
}

/// The factor of the whole system: that of its weakest part.
fn system_factor(parts: &[Check]) -> Check {
    let counted = parts
        .iter()
        .filter(|c| c.reason != Some(Reason::Information));
    let missing = counted
        .clone()
        .filter(|c| c.verdict == Verdict::NotEvaluated)
        .count();
    let weakest = counted
        .filter_map(|c| c.ratio.map(|ratio| (ratio, c)))
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, c)| c);
    let mut check = judge(Check {
        key: "us.system_factor",
        label: None,
        set: CheckSet::Us,
        subject: weakest.map_or(Subject::System, |c| c.subject),
        quantity: weakest.map_or(Quantity::Force, |c| c.quantity),
        kind: Kind::RatioAtLeast,
        demand: weakest.and_then(|c| c.demand),
        capacity: weakest.and_then(|c| c.capacity),
        ratio: None,
        required_ratio: US_SYSTEM_RATIO_MIN,
        source: clause(CLAUSE_SYSTEM),
        verdict: Verdict::NotEvaluated,
        reason: Some(Reason::DemandNotKnown),
        governing: weakest.map(|c| c.key),
    });
    if check.verdict != Verdict::DoesNotMeet && missing > 0 {
        check.verdict = Verdict::NotEvaluated;
        check.reason = Some(Reason::PartsNotEvaluated { count: missing });
    }
    check
}

/// Limits that a product meets in its own test, set beside what this fall asks.
fn european(all: &mut Vec<Check>, case: &Case, demands: &Demands) {
    for w in &demands.workers {
        for (key, quantity, demand, most) in [
            (
                "eu.arrest_force",
                Quantity::Force,
                w.arrest_force_n,
                EN_ARREST_FORCE_MAX_N,
            ),
            (
                "eu.absorber_extension",
                Quantity::Length,
                w.deceleration_distance_m,
                EN_EXTENSION_MAX_M,
            ),
        ] {
            all.push(limit(
                key,
                CheckSet::European,
                Subject::Worker { worker: w.worker },
                quantity,
                demand,
                most,
                clause(CLAUSE_EN_ABSORBER),
            ));
        }
    }
    all.push(for_information(limit(
        "eu.users",
        CheckSet::European,
        Subject::System,
        Quantity::Ratio,
        case.workers.len() as f64,
        f64::from(EN_USERS_MAX),
        Source::Clause {
            clause: CLAUSE_EN_USERS,
            from_memory: true,
        },
    )));
}

/// Every part from the rope outward.
fn parts(case: &Case, demands: &Demands, ends: &Ends) -> Vec<Check> {
    let strengths = &case.strengths;
    let required = strengths.required_ratio;
    let breaking = case.line.rope.breaking_force_n;
    let end_tension_n = larger(demands.left_end.tension_n, demands.right_end.tension_n);
    // NaN at one end must not hide behind a number at the other.
    let end_tension_n = if demands.left_end.tension_n.is_nan() {
        f64::NAN
    } else {
        end_tension_n
    };
    let at_right = demands.right_end.tension_n > demands.left_end.tension_n;
    let mut all = Vec::new();
    all.push(judge(strength(
        "part.rope",
        Subject::System,
        Quantity::Force,
        demands.tension_max_n,
        breaking,
        required,
        "line.rope.breaking_force_n",
    )));
    all.push(judge(strength(
        "part.rope_termination",
        if at_right {
            Subject::RightEnd
        } else {
            Subject::LeftEnd
        },
        Quantity::Force,
        end_tension_n,
        breaking.and_then(|force| {
            termination_strength_n(force, strengths.termination_efficiency_ratio)
        }),
        required,
        "line.rope.breaking_force_n",
    )));
    for (subject, end, post, forces) in [
        (
            Subject::LeftEnd,
            &demands.left_end,
            case.posts.left,
            ends.left,
        ),
        (
            Subject::RightEnd,
            &demands.right_end,
            case.posts.right,
            ends.right,
        ),
    ] {
        all.push(judge(strength(
            "part.end_anchorage",
            subject,
            Quantity::Force,
            end.tension_n,
            strengths.end_anchorage_n,
            required,
            "strengths.end_anchorage_n",
        )));
        let mut push = |key, quantity, demand: Option<f64>, capacity, field| {
            let mut check = judge(strength(
                key,
                subject,
                quantity,
                demand.unwrap_or(f64::NAN),
                capacity,
                required,
                field,
            ));
            if post.is_none() {
                check.reason = Some(Reason::PostNotDescribed);
            }
            all.push(check);
        };
        push(
            "part.post_moment",
            Quantity::Moment,
            forces.map(|f| f.base_moment_n_m),
            strengths.post_moment_n_m,
            "strengths.post_moment_n_m",
        );
        push(
            "part.post_compression",
            Quantity::Force,
            forces.map(|f| f.post_compression_n),
            strengths.post_compression_n,
            "strengths.post_compression_n",
        );
        // A post without a tieback has none to check; an end that is not described may have one.
        if post.is_some_and(|p| p.tieback.is_none()) {
            continue;
        }
        let tieback: Option<TiebackForces> = forces.and_then(|f| f.tieback);
        push(
            "part.tieback",
            Quantity::Force,
            tieback.map(|t| t.tension_n),
            strengths.tieback_n,
            "strengths.tieback_n",
        );
        push(
            "part.tieback_anchorage",
            Quantity::Force,
            tieback.map(|t| t.tension_n),
            strengths.tieback_anchorage_n,
            "strengths.tieback_anchorage_n",
        );
    }
    for (post, kick) in demands.intermediate_posts.iter().enumerate() {
        let subject = Subject::IntermediatePost { post };
        all.push(judge(strength(
            "part.intermediate_post",
            subject,
            Quantity::Force,
            kick.vertical_n,
            strengths.intermediate_post_n,
            required,
            "strengths.intermediate_post_n",
        )));
        all.push(for_information(judge(strength(
            "part.intermediate_post_along_line",
            subject,
            Quantity::Force,
            kick.horizontal_n.abs(),
            None,
            required,
            "",
        ))));
    }
    all
}

fn own_check(own: &OwnLimit, demands: &Demands, ends: &Ends) -> Check {
    let worker = |read: fn(&WorkerDemand) -> f64| worst_worker(demands, read);
    let (demand, subject) = match own.quantity {
        OwnQuantity::ArrestForce => worker(|w| w.arrest_force_n),
        OwnQuantity::FreeFall => worker(|w| w.free_fall_m),
        OwnQuantity::DecelerationDistance => worker(|w| w.deceleration_distance_m),
        OwnQuantity::RequiredDepth => worker(|w| w.required_depth_m),
        OwnQuantity::Footroom => {
            // The least room is the greatest lack of it.
            let (lack, subject) = worker(|w| w.required_depth_m - w.available_depth_m);
            (lack.map(|m| -m), subject)
        }
        OwnQuantity::LineTension => (Some(demands.tension_max_n), Subject::System),
        OwnQuantity::EndTension => {
            let (left, right) = (demands.left_end.tension_n, demands.right_end.tension_n);
            if right > left || right.is_nan() {
                (Some(right), Subject::RightEnd)
            } else {
                (Some(left), Subject::LeftEnd)
            }
        }
        OwnQuantity::TiebackTension => ends.worst(|f| f.tieback.map(|t| t.tension_n)),
        OwnQuantity::PostCompression => ends.worst(|f| Some(f.post_compression_n)),
        OwnQuantity::PostMoment => ends.worst(|f| Some(f.base_moment_n_m)),
        OwnQuantity::IntermediatePostLoad => worst_of(
            demands
                .intermediate_posts
                .iter()
                .enumerate()
                .map(|(post, kick)| (kick.vertical_n, Subject::IntermediatePost { post })),
        ),
    };
    let mut check = limit(
        "own",
        CheckSet::Own,
        subject,
        own.quantity.quantity(),
        demand.unwrap_or(f64::NAN),
        own.limit,
        Source::Own {
            reference: own.reference.clone(),
        },
    );
    check.label = Some(own.label.clone());
    if own.quantity == OwnQuantity::Footroom {
        check.kind = Kind::AtLeast;
    }
    judge(check)
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{Posts, Strengths, Worker};
    use alloc::string::ToString;
    use alloc::vec;

    const HORIZONTAL_N: f64 = 20.0e3;

    fn worker_demand() -> WorkerDemand {
        WorkerDemand {
            worker: 0,
            arrest_force_n: 4_600.0,
            free_fall_m: 1.5,
            deceleration_distance_m: 0.9,
            required_depth_m: 7.0,
            margin_m: 1.0,
            available_depth_m: 7.5,
            contact: false,
        }
    }

    fn demands() -> Demands {
        let end = EndDemand {
            tension_n: 20.5e3,
            horizontal_n: HORIZONTAL_N,
            vertical_n: 4.5e3,
        };
        Demands {
            workers: vec![worker_demand()],
            tension_max_n: 20.6e3,
            left_end: end,
            right_end: end,
            intermediate_posts: vec![PostKick {
                vertical_n: 5.0e3,
                horizontal_n: -700.0,
            }],
        }
    }

    fn case() -> Case {
        Case {
            workers: vec![Worker::default(); 2],
            posts: Posts {
                left: Some(EndPost::default()),
                right: Some(EndPost::default()),
            },
            ..Case::default()
        }
    }

    fn rated() -> Case {
        Case {
            strengths: Strengths {
                end_anchorage_n: Some(60.0e3),
                post_moment_n_m: Some(40.0e3),
                post_compression_n: Some(80.0e3),
                tieback_n: Some(70.0e3),
                tieback_anchorage_n: Some(65.0e3),
                intermediate_post_n: Some(20.0e3),
                ..Strengths::default()
            },
            ..case()
        }
    }

    const BOTH: Sets = Sets {
        us: true,
        european: true,
    };

    fn find<'a>(all: &'a [Check], key: &str) -> &'a Check {
        all.iter().find(|c| c.key == key).unwrap()
    }

    /// Published values 2 and 4: each constant is the stricter reading of the text.
    #[test]
    fn limits_are_the_stricter_of_both_units() {
        assert_eq!(US_ARREST_FORCE_MAX_N, 8_000.0);
        assert_eq!(US_FREE_FALL_MAX_M, 1.8);
        assert_eq!(US_DECELERATION_DISTANCE_MAX_M, 3.5 * FOOT_M);
        let anchorage_n = US_ANCHORAGE_PER_WORKER_N;
        assert!((22_200.0..22_250.0).contains(&anchorage_n), "{anchorage_n}");
    }

    #[test]
    fn every_limit_turns_exactly_at_its_value() {
        type Set = fn(&mut WorkerDemand, f64);
        let table: [(&str, f64, Set); 5] = [
            ("us.arrest_force", US_ARREST_FORCE_MAX_N, |w, x| {
                w.arrest_force_n = x;
            }),
            ("us.free_fall", US_FREE_FALL_MAX_M, |w, x| w.free_fall_m = x),
            (
                "us.deceleration_distance",
                US_DECELERATION_DISTANCE_MAX_M,
                |w, x| w.deceleration_distance_m = x,
            ),
            ("eu.arrest_force", EN_ARREST_FORCE_MAX_N, |w, x| {
                w.arrest_force_n = x;
            }),
            ("eu.absorber_extension", EN_EXTENSION_MAX_M, |w, x| {
                w.deceleration_distance_m = x;
            }),
        ];
        for (key, most, set) in table {
            for (value, verdict) in [
                (0.0, Verdict::Meets),
                (most, Verdict::Meets),
                (most * (1.0 + 1e-9), Verdict::DoesNotMeet),
            ] {
                let mut demands = demands();
                set(&mut demands.workers[0], value);
                let all = checks(&case(), &demands, BOTH, &[]);
                let check = find(&all, key);
                assert_eq!(check.verdict, verdict, "{key} at {value}");
                assert_eq!(check.capacity, Some(most));
                assert!(check.ratio.is_none_or(|r| (r * value - most).abs() < 1e-9));
            }
        }
    }

    #[test]
    fn contact_counts_without_the_margin_and_touching_is_contact() {
        let with = |required_depth_m, contact| {
            let mut demands = demands();
            demands.workers[0].required_depth_m = required_depth_m;
            demands.workers[0].contact = contact;
            checks(&case(), &demands, BOTH, &[])
        };
        // Available 7.5 m, margin 1 m.
        for (required_m, contact, touch, room) in [
            (7.5, false, Verdict::Meets, Verdict::Meets),
            (7.6, false, Verdict::Meets, Verdict::DoesNotMeet),
            (8.5, false, Verdict::DoesNotMeet, Verdict::DoesNotMeet),
            (7.0, true, Verdict::DoesNotMeet, Verdict::Meets),
        ] {
            let all = with(required_m, contact);
            assert_eq!(find(&all, "us.no_contact").verdict, touch, "{required_m}");
            assert_eq!(find(&all, "site.footroom").verdict, room, "{required_m}");
        }
    }

    #[test]
    fn what_is_not_known_is_never_met() {
        let mut bare = case();
        bare.line.rope.breaking_force_n = None;
        let all = checks(&bare, &demands(), BOTH, &[]);
        let parts: Vec<&Check> = all.iter().filter(|c| c.set == CheckSet::Part).collect();
        // Rope twice, five a post, two for the intermediate post.
        assert_eq!(parts.len(), 2 + 2 * 5 + 2);
        for check in parts {
            assert_eq!(check.verdict, Verdict::NotEvaluated, "{}", check.key);
            assert!(check.demand.is_some(), "{}", check.key);
            match check.reason {
                Some(Reason::StrengthMissing { field }) => {
                    assert!(crate::field::find(field).is_some(), "{field}");
                }
                reason => assert_eq!(reason, Some(Reason::Information), "{}", check.key),
            }
        }
        let system = find(&all, "us.system_factor");
        assert_eq!(system.verdict, Verdict::NotEvaluated);
        assert_eq!(
            system.reason,
            Some(Reason::PartsNotEvaluated { count: 2 + 10 + 1 })
        );
    }

    #[test]
    fn every_rated_part_is_judged_by_its_own_strength() {
        let all = checks(&rated(), &demands(), BOTH, &[]);
        for check in all.iter().filter(|c| c.set == CheckSet::Part) {
            if check.reason == Some(Reason::Information) {
                continue;
            }
            let (demand, capacity) = (check.demand.unwrap(), check.capacity.unwrap());
            assert_eq!(check.ratio, Some(capacity / demand), "{}", check.key);
            let meets = capacity >= 2.0 * demand;
            assert_eq!(check.verdict == Verdict::Meets, meets, "{}", check.key);
        }
        let demand = |key| find(&all, key).demand.unwrap();
        // Tieback at 45° taking all of H; the post's compression takes V as well.
        let factor = demand("part.tieback") / HORIZONTAL_N;
        assert!((factor - core::f64::consts::SQRT_2).abs() < 1e-12);
        assert_eq!(demand("part.tieback"), demand("part.tieback_anchorage"));
        assert_eq!(demand("part.post_compression"), HORIZONTAL_N + 4.5e3);
        assert!(demand("part.post_moment") < HORIZONTAL_N * 1.5);
        assert_eq!(demand("part.rope"), 20.6e3);
        let termination = find(&all, "part.rope_termination");
        let rope = find(&all, "part.rope");
        assert!(
            (termination.capacity.unwrap() / rope.capacity.unwrap() - 0.8).abs() < 1e-12,
            "{termination:?}"
        );
    }

    #[test]
    fn the_system_is_as_strong_as_its_weakest_part() {
        let mut weak = rated();
        let all = checks(&weak, &demands(), BOTH, &[]);
        let system = find(&all, "us.system_factor");
        assert_eq!(system.verdict, Verdict::Meets, "{system:?}");
        assert!(
            all.iter()
                .filter(|c| c.set == CheckSet::Part)
                .filter_map(|c| c.ratio)
                .all(|r| r >= system.ratio.unwrap())
        );
        weak.strengths.intermediate_post_n = Some(7.0e3);
        // A required ratio of the user's own below two does not soften the regulation's.
        weak.strengths.required_ratio = 1.3;
        let all = checks(&weak, &demands(), BOTH, &[]);
        assert_eq!(find(&all, "part.intermediate_post").verdict, Verdict::Meets);
        let system = find(&all, "us.system_factor");
        assert_eq!(system.verdict, Verdict::DoesNotMeet);
        assert_eq!(system.governing, Some("part.intermediate_post"));
        assert_eq!(system.subject, Subject::IntermediatePost { post: 0 });
        assert_eq!(system.ratio, Some(7.0 / 5.0));
        // One part short is enough, however many are not known.
        weak.strengths.tieback_n = None;
        let all = checks(&weak, &demands(), BOTH, &[]);
        assert_eq!(find(&all, "us.system_factor").verdict, Verdict::DoesNotMeet);
    }

    #[test]
    fn information_gives_no_verdict() {
        let all = checks(&rated(), &demands(), BOTH, &[]);
        let anchorage = find(&all, "us.anchorage_alternative");
        assert_eq!(anchorage.demand, Some(2.0 * US_ANCHORAGE_PER_WORKER_N));
        assert_eq!(anchorage.capacity, Some(60.0e3));
        for key in [
            "us.anchorage_alternative",
            "eu.users",
            "part.intermediate_post_along_line",
        ] {
            let check = find(&all, key);
            assert_eq!(check.verdict, Verdict::NotEvaluated, "{key}");
            assert_eq!(check.reason, Some(Reason::Information), "{key}");
        }
        let tally = Tally::of(&all);
        assert_eq!(tally.information, 3);
        assert_eq!(
            tally.meets + tally.does_not_meet + tally.not_evaluated + tally.information,
            all.len()
        );
    }

    #[test]
    fn an_end_without_description_or_tieback_says_so() {
        let mut case = rated();
        case.posts.left = None;
        case.posts.right = Some(EndPost {
            tieback: None,
            ..EndPost::default()
        });
        let all = checks(&case, &demands(), BOTH, &[]);
        let at = |subject, key: &str| {
            all.iter()
                .find(|c| c.subject == subject && c.key == key)
                .cloned()
        };
        let unknown = at(Subject::LeftEnd, "part.tieback").unwrap();
        assert_eq!(unknown.verdict, Verdict::NotEvaluated);
        assert_eq!(unknown.reason, Some(Reason::PostNotDescribed));
        assert_eq!(at(Subject::RightEnd, "part.tieback"), None);
        let moment = at(Subject::RightEnd, "part.post_moment").unwrap();
        assert_eq!(moment.demand, Some(HORIZONTAL_N * 1.5));
    }

    #[test]
    fn own_limits_are_held_against_the_worst() {
        let mut demands = demands();
        demands.workers.push(WorkerDemand {
            worker: 2,
            arrest_force_n: 5_200.0,
            required_depth_m: 7.4,
            ..worker_demand()
        });
        demands.right_end.tension_n = 21.0e3;
        demands.right_end.horizontal_n = 20.2e3;
        let own = |quantity, limit| OwnLimit {
            label: "owner".to_string(),
            quantity,
            limit,
            reference: "site rules 4.2".to_string(),
        };
        let check = |quantity, limit| {
            checks(&rated(), &demands, BOTH, &[own(quantity, limit)])
                .pop()
                .unwrap()
        };
        let second = Subject::Worker { worker: 2 };
        use OwnQuantity as Q;
        for (quantity, demand, subject) in [
            (Q::ArrestForce, 5_200.0, second),
            (Q::FreeFall, 1.5, Subject::Worker { worker: 0 }),
            (Q::DecelerationDistance, 0.9, Subject::Worker { worker: 0 }),
            (Q::RequiredDepth, 7.4, second),
            (Q::Footroom, 0.1, second),
            (Q::LineTension, 20.6e3, Subject::System),
            (Q::EndTension, 21.0e3, Subject::RightEnd),
            (
                Q::TiebackTension,
                20.2e3 * core::f64::consts::SQRT_2,
                Subject::RightEnd,
            ),
            (Q::PostCompression, 24.7e3, Subject::RightEnd),
            (
                Q::IntermediatePostLoad,
                5.0e3,
                Subject::IntermediatePost { post: 0 },
            ),
        ] {
            let more_is_better = quantity == Q::Footroom;
            let above = check(quantity, demand * 1.001);
            assert!((above.demand.unwrap() / demand - 1.0).abs() < 1e-9);
            assert_eq!(above.subject, subject, "{quantity:?}");
            assert_eq!(above.label.as_deref(), Some("owner"));
            assert_eq!(
                above.verdict == Verdict::Meets,
                !more_is_better,
                "{quantity:?}"
            );
            let below = check(quantity, demand * 0.999);
            assert_eq!(
                below.verdict == Verdict::Meets,
                more_is_better,
                "{quantity:?}"
            );
        }
        let moment = check(Q::PostMoment, 1.0);
        assert_eq!(moment.subject, Subject::RightEnd);
        assert_eq!(moment.verdict, Verdict::DoesNotMeet);
    }

    #[test]
    fn own_limits_out_of_range_are_named_and_not_evaluated() {
        let own = |limit| OwnLimit {
            label: "x".repeat(TEXT_MAX + 1),
            quantity: OwnQuantity::FreeFall,
            limit,
            reference: String::new(),
        };
        let faults = own_limit_faults(&[own(f64::NAN), own(-1.0), own(1.0)]);
        let names: Vec<String> = faults.iter().map(|f| f.field().to_string()).collect();
        assert_eq!(
            names,
            [
                "own_limits[0].label",
                "own_limits[0].limit",
                "own_limits[1].label",
                "own_limits[1].limit",
                "own_limits[2].label"
            ]
        );
        assert_eq!(
            own_limit_faults(&vec![own(1.0); OWN_LIMITS_MAX + 1])[0].field(),
            FieldRef::new("own_limits")
        );
        let all = checks(&case(), &demands(), BOTH, &[own(f64::NAN)]);
        let check = find(&all, "own");
        assert_eq!(check.verdict, Verdict::NotEvaluated);
        assert_eq!(check.reason, Some(Reason::LimitNotUsable));
    }

    #[test]
    fn numbers_that_are_not_finite_are_never_met() {
        for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let demands = Demands {
                workers: vec![WorkerDemand {
                    worker: 0,
                    arrest_force_n: x,
                    free_fall_m: x,
                    deceleration_distance_m: x,
                    required_depth_m: x,
                    margin_m: x,
                    available_depth_m: x,
                    contact: false,
                }],
                tension_max_n: x,
                left_end: EndDemand {
                    tension_n: x,
                    horizontal_n: x,
                    vertical_n: x,
                },
                right_end: EndDemand::default(),
                intermediate_posts: vec![PostKick {
                    vertical_n: x,
                    horizontal_n: x,
                }],
            };
            let all = checks(&rated(), &demands, BOTH, &[]);
            for check in &all {
                let right = check.subject == Subject::RightEnd;
                assert!(check.verdict != Verdict::Meets || right, "{check:?}");
                for number in [check.demand, check.capacity, check.ratio] {
                    assert!(number.is_none_or(f64::is_finite), "{check:?}");
                }
            }
            let mut case = rated();
            case.strengths.tieback_n = Some(x);
            case.strengths.required_ratio = x;
            let all = checks(&case, &self::demands(), BOTH, &[]);
            assert_eq!(find(&all, "part.tieback").verdict, Verdict::NotEvaluated);
            assert_eq!(find(&all, "part.rope").verdict, Verdict::NotEvaluated);
        }
        let empty = checks(&rated(), &Demands::default(), BOTH, &[]);
        assert!(
            empty.iter().all(|c| c.ratio.is_none()
                || c.key == "us.anchorage_alternative"
                || c.key == "eu.users"),
            "{empty:?}"
        );
    }

    #[cfg(feature = "serde")]
    #[test]
    fn inputs_are_read_with_defaults_and_nothing_unknown() {
        let sets: Sets = serde_json::from_str("{}").unwrap();
        assert_eq!(sets, Sets::default());
        let own = r#"{"label":"a","quantity":"free_fall","limit":1.2,"reference":"b"}"#;
        let own: OwnLimit = serde_json::from_str(own).unwrap();
        let all = checks(&case(), &demands(), BOTH, &[own]);
        let text = serde_json::to_string(find(&all, "own")).unwrap();
        assert!(text.contains(r#""from":"own","reference":"b""#), "{text}");
        assert!(serde_json::from_str::<Sets>(r#"{"moon":true}"#).is_err());
    }

    #[test]
    fn sets_can_be_left_out() {
        let none = Sets {
            us: false,
            european: false,
        };
        let all = checks(&case(), &demands(), none, &[]);
        assert!(
            all.iter()
                .all(|c| matches!(c.set, CheckSet::Part | CheckSet::Site))
        );
        let both = checks(&case(), &demands(), BOTH, &[]);
        assert!(both.iter().any(|c| c.set == CheckSet::Us));
        assert!(both.iter().any(|c| c.set == CheckSet::European));
    }
}
