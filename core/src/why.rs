//! Why two cases differ: the change of every length of the stack and of every force, split by
//! cause, so that the parts add up exactly.
//!
//! # The split
//! The inputs that differ are grouped into [`Cause`]s. A mixed case takes the inputs of some causes
//! from `to` and the rest from `from`; going from `from` to `to` one cause at a time, each step's
//! change is that cause's. Since the steps depend on the order, up to [`ALL_ORDERS_MAX`] causes are
//! averaged over all orders (the Shapley value: at most 2^4 = 16 cases solved); more causes over
//! two orders, that of [`Cause`] and its reverse (at most 2 k cases solved). Only orders whose
//! every mixed case can be solved count; where an order of the two is none, the nearest to it is
//! taken. Where no order is left, all the change is one part, [`Cause::Together`].
//!
//! # Exactness
//! Every number of a [`Why`] is a whole multiple of [`LENGTH_GRID_M`] or [`FORCE_GRID_N`], so that
//! additions are free of rounding: the parts add up to the difference of the two states to the last
//! bit, in any order, and within a part and a state the lengths add up to the required depth and,
//! with the available depth, to the footroom. What an average leaves over on the grid goes to the
//! part that is greatest. A state differs from the solver's numbers by half a grid step in each
//! length, so by less than 1e-10 m in the footroom.
//!
//! # Source
//! L. S. Shapley, A value for n-person games, Contributions to the Theory of Games II, Princeton
//! 1953.

use alloc::vec;
use alloc::vec::Vec;

use crate::case::Case;
use crate::corner::Corner;
use crate::fault::{Fault, FieldRef};
use crate::solve::Options;

use figures::{ALLOWANCE, NUMBERS, Numbers};
pub use figures::{FORCE_GRID_N, LENGTH_GRID_M, Part, State};
use mixed::{Way, at_corner, round_to_sum};

mod figures;
mod mixed;
#[cfg(test)]
mod tests;

/// Most causes that are averaged over all orders.
pub const ALL_ORDERS_MAX: usize = 4;

/// A group of inputs. The order is the one in which causes are taken where not all orders are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Cause {
    /// Number of workers: those who are in one case only, with all that is theirs.
    Users,
    /// Who falls and when.
    Timing,
    /// Where the connectors are on the line, and where the workers stand beside them.
    Places,
    /// Number and lengths of the spans, so the posts too.
    Spans,
    /// Pretension, and the temperatures between which it changes.
    Pretension,
    /// The wire rope.
    Rope,
    /// End posts, tiebacks, stiffness of the ends.
    Ends,
    /// Energy absorber in the line.
    InlineAbsorber,
    /// Connecting gear without its absorber: kind, length, locking distance, stiffness, free fall.
    Lanyard,
    /// Personal energy absorbers.
    Absorber,
    /// Masses of the workers.
    Mass,
    /// Height of the line above the beam top.
    LineHeight,
    /// Height of the D-ring and allowance for harness stretch.
    Body,
    /// Margin.
    Margin,
    /// Height of the beam top above the datum.
    Drop,
    /// Things below, and how far a worker reaches along the line.
    Below,
    /// Allowances, tolerances, settings of the motion.
    Others,
    /// Everything that differs, where it cannot be taken one at a time.
    Together,
    /// What the answer to either case is below the run that is split: small differences within the
    /// crew ([`crate::nearby`]), and another corner where another governs. It stands in
    /// [`State::allowance_m`].
    Differences,
}

impl Cause {
    /// Every cause that a case can differ by, in order; [`Cause::Together`] stands for
    /// several, and [`Cause::Differences`] for none of the inputs.
    pub const EACH: [Self; 17] = [
        Self::Users,
        Self::Timing,
        Self::Places,
        Self::Spans,
        Self::Pretension,
        Self::Rope,
        Self::Ends,
        Self::InlineAbsorber,
        Self::Lanyard,
        Self::Absorber,
        Self::Mass,
        Self::LineHeight,
        Self::Body,
        Self::Margin,
        Self::Drop,
        Self::Below,
        Self::Others,
    ];
}

/// Whose stack is compared.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "follow"))]
pub enum Follow {
    /// In every case the worker with the least footroom: the parts add up to the difference of the
    /// two answers.
    #[default]
    Governing,
    /// One person: the governing worker of `to`, and in `from` the same one (see [`Follow::One`]).
    Same,
    /// One person: a worker of `to`, and in `from` the same one; where `from` does not have him,
    /// the one who stands nearest to his place.
    One {
        /// The worker in `to`, counted from 0.
        worker: usize,
    },
}

/// What to compare.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    /// Whose stack.
    pub follow: Follow,
    /// With which values of the toleranced inputs.
    pub corner: Corner,
}

impl Default for Asked {
    /// The two answers, inputs as given.
    fn default() -> Self {
        Self {
            follow: Follow::Governing,
            corner: Corner::Nominal,
        }
    }
}

/// The way from one case to another.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Why {
    /// The first case.
    pub from: State,
    /// The second case.
    pub to: State,
    /// What each cause changed, in the order of [`Cause`]; empty: no input that counts differs.
    pub parts: Vec<Part>,
    /// Number of cases solved.
    pub solved: u32,
    /// Mixed cases among them, the two ends aside, whose footroom is not known, see
    /// [`crate::outcome::Outcome::unknown`]. Where there are any, the split may not be relied on. Whether the footroom
    /// at an end is known says its assessment.
    pub doubtful: u32,
}

/// One step of the way from one user to all.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct CrewStep {
    /// Number of users.
    pub users: usize,
    /// The case with the first `users` of the crew, places and gear theirs.
    pub case: Case,
    /// Its governing worker's stack, and the forces.
    pub state: State,
    /// What came with this user, to the state before; `None`: the first step.
    pub added: Option<Part>,
}

/// Splits the difference between two cases by cause.
///
/// Workers are paired in their order; where the numbers differ, those pairs are taken that are most
/// alike (gear, mass, body and timing first, then place), and the others are [`Cause::Users`].
///
/// # Errors
/// The faults of `from`, or else of `to`; [`Follow::One`] with a worker that `to` does not have.
///
/// # Accuracy
/// Sums: to the last bit, see the module's introduction. The split itself is a convention: effects
/// that causes have only together are shared evenly among them.
///
/// # Examples
/// ```
/// use footroom_core::demo::demo;
/// use footroom_core::why::{Asked, Cause, why};
/// let from = demo();
/// let mut to = from.clone();
/// to.line.spans_m = vec![18.0];
/// to.line.pretension_n = 6.0e3;
/// let split = why(&from, &to, Asked::default()).unwrap();
/// let sum: f64 = split.parts.iter().map(|p| p.footroom_m).sum();
/// assert_eq!(sum, split.to.footroom_m - split.from.footroom_m);
/// assert_eq!(split.parts[0].cause, Cause::Spans);
/// assert!(split.parts[0].line_deflection_m > 0.0);
/// to.workers.clear();
/// assert!(why(&from, &to, Asked::default()).is_err());
/// ```
pub fn why(from: &Case, to: &Case, asked: Asked) -> Result<Why, Vec<Fault>> {
    from.ready()?;
    to.ready()?;
    if let Follow::One { worker } = asked.follow
        && worker >= to.workers.len()
    {
        return Err(vec![Fault::Count {
            field: FieldRef::new("workers"),
            count: worker + 1,
            min: 1,
            max: to.workers.len(),
        }]);
    }
    let mut way = Way::new(from, to, asked);
    let ends = (way.state(0), way.state(way.all()));
    let (Some(from_state), Some(to_state)) = ends else {
        // Both were resolved above; the first and last mixed case are those two.
        return Err(Vec::new());
    };
    let whole = to_state.less(&from_state);
    let ends = [(from, from_state), (to, to_state)].map(|(case, state)| match asked.follow {
        Follow::Governing => state.answered(case),
        Follow::Same | Follow::One { .. } => state,
    });
    let split = match way.causes.len() {
        0 => Some(Vec::new()),
        k if k <= ALL_ORDERS_MAX => way.all_orders(),
        _ => way.two_orders(),
    };
    let mut parts: Vec<Part> = Vec::new();
    match split {
        Some(mut shares) => {
            round_to_sum(&mut shares, &whole);
            parts.extend(
                way.causes
                    .iter()
                    .zip(&shares)
                    .map(|(&cause, share)| Part::of(cause, share)),
            );
        }
        None => parts.push(Part::of(Cause::Together, &whole)),
    }
    let mut differences: Numbers = [0.0; NUMBERS];
    differences[ALLOWANCE] = (ends[1].allowance_m - to_state.allowance_m)
        - (ends[0].allowance_m - from_state.allowance_m);
    if differences[ALLOWANCE] != 0.0 {
        parts.push(Part::of(Cause::Differences, &differences));
    }
    let [from, to] = ends;
    Ok(Why {
        from,
        to,
        parts,
        solved: way.solved,
        doubtful: way.doubtful,
    })
}

/// The series one user, two, … all of the crew, each with its governing stack and forces.
///
/// `users` of a step are the first of the crew in the order of the case, each with his own place,
/// gear and timing. The series begins with the first number for which somebody falls.
///
/// # Errors
/// The faults of the case. A part of the crew has none that the whole has not.
pub fn users(case: &Case, corner: Corner) -> Result<Vec<CrewStep>, Vec<Fault>> {
    case.ready()?;
    let mut steps: Vec<CrewStep> = Vec::new();
    let first = case
        .workers
        .iter()
        .position(|w| w.fall_time_s.is_some())
        .unwrap_or(0);
    for users in first + 1..=case.workers.len() {
        let mut part = case.clone();
        part.workers.truncate(users);
        let outcome = at_corner(&part.ready()?, corner).solve(Options::default());
        let state = State::of(&outcome, outcome.governing_worker).answered(&part);
        let added = steps
            .last()
            .map(|before| Part::of(Cause::Users, &state.less(&before.state)));
        steps.push(CrewStep {
            users,
            case: part,
            state,
            added,
        });
    }
    Ok(steps)
}
