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

use crate::assess::assessed;
use crate::case::{Case, Line, Site, Worker};
use crate::corner::{Corner, Sides, moved};
use crate::fault::{Fault, FieldRef};
use crate::maths::floor;
use crate::ready::Ready;
use crate::solve::{Options, Outcome};

/// Most causes that are averaged over all orders.
pub const ALL_ORDERS_MAX: usize = 4;

/// Every length of a [`Why`] is a whole multiple of this, m: 2⁻³⁶, about 15 picometres.
pub const LENGTH_GRID_M: f64 = 1.0 / 68_719_476_736.0;

/// Every force of a [`Why`] is a whole multiple of this, N: 2⁻¹⁶, about 15 micronewtons.
pub const FORCE_GRID_N: f64 = 1.0 / 65_536.0;

/// Numbers beyond this many grid steps, 2⁴⁹ (8,192 m, 8.6 GN), are no lengths and forces of a line:
/// they, and what is no number, are taken as this, so that sums of them stay exact.
const STEPS_MAX: f64 = 562_949_953_421_312.0;

/// Mixed cases looked at in search of an order that can be solved.
const SEARCH_MAX: u32 = 4_096;

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

/// The followed worker's stack and the forces, in one case.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct State {
    /// The worker followed, counted from 0 in this case.
    pub worker: usize,
    /// Deflection of the line at his connector, m.
    pub line_deflection_m: f64,
    /// His gear, taut but unstretched, m.
    pub lanyard_m: f64,
    /// Stretch of webbing and absorber, m.
    pub absorber_extension_m: f64,
    /// Added for the uncertainty of the calculation, m.
    pub allowance_m: f64,
    /// Harness stretch, m.
    pub harness_stretch_m: f64,
    /// D-ring to soles, m.
    pub dring_to_sole_m: f64,
    /// Margin, m.
    pub margin_m: f64,
    /// Required depth: the sum of the above, m.
    pub required_m: f64,
    /// Available depth, m.
    pub available_m: f64,
    /// Available less required, m.
    pub footroom_m: f64,
    /// His greatest arrest force by either method, N.
    pub arrest_force_n: f64,
    /// Greatest line tension by either method, N.
    pub tension_n: f64,
    /// Greatest horizontal pull on an end, N.
    pub end_pull_n: f64,
    /// Extension of the in-line absorber (time history), m.
    pub inline_extension_m: f64,
    /// His free fall, m.
    pub free_fall_m: f64,
}

/// What one cause changed: `to` less `from`, in the same fields as [`State`].
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Part {
    /// The cause.
    pub cause: Cause,
    /// Deflection of the line at the connector, m.
    pub line_deflection_m: f64,
    /// Gear, taut but unstretched, m.
    pub lanyard_m: f64,
    /// Stretch of webbing and absorber, m.
    pub absorber_extension_m: f64,
    /// Added for the uncertainty of the calculation, m.
    pub allowance_m: f64,
    /// Harness stretch, m.
    pub harness_stretch_m: f64,
    /// D-ring to soles, m.
    pub dring_to_sole_m: f64,
    /// Margin, m.
    pub margin_m: f64,
    /// Required depth: the sum of the above, m.
    pub required_m: f64,
    /// Available depth, m.
    pub available_m: f64,
    /// Footroom: available less required, m.
    pub footroom_m: f64,
    /// Arrest force, N.
    pub arrest_force_n: f64,
    /// Line tension, N.
    pub tension_n: f64,
    /// Horizontal pull on an end, N.
    pub end_pull_n: f64,
    /// Extension of the in-line absorber, m.
    pub inline_extension_m: f64,
    /// Free fall, m.
    pub free_fall_m: f64,
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
    /// [`Outcome::unknown`]. Where there are any, the split may not be relied on. Whether the footroom
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

/// Numbers that a state is made of: seven lengths of the stack, available depth, three forces,
/// in-line extension, free fall.
const NUMBERS: usize = 13;
/// Where the allowance stands among them.
const ALLOWANCE: usize = 3;
/// Where the forces stand among them.
const FORCES: core::ops::Range<usize> = 8..11;

type Numbers = [f64; NUMBERS];

fn grid(i: usize) -> f64 {
    if FORCES.contains(&i) {
        FORCE_GRID_N
    } else {
        LENGTH_GRID_M
    }
}

/// The nearest whole multiple of a grid step, which is a power of two.
fn on_grid(value: f64, step: f64) -> f64 {
    let steps = value / step;
    if steps.is_nan() {
        return STEPS_MAX * step;
    }
    floor(steps.clamp(-STEPS_MAX, STEPS_MAX) + 0.5) * step
}

fn required(n: &Numbers) -> f64 {
    n[..7].iter().sum()
}

impl State {
    fn of(outcome: &Outcome, worker: usize) -> Self {
        let w = &outcome.workers[worker];
        let ends = [outcome.supports.first(), outcome.supports.last()];
        let mut n: Numbers = [
            w.stack.line_deflection_m,
            w.stack.lanyard_m,
            w.stack.absorber_extension_m,
            w.stack.allowance_m,
            w.stack.harness_stretch_m,
            w.stack.dring_to_sole_m,
            w.stack.margin_m,
            w.stack.available_m,
            w.arrest_force_max_n
                .max(outcome.balance.arrest_force_n[worker]),
            (outcome.history.tension_max_n).max(outcome.balance.tension_max_n),
            ends.iter()
                .flatten()
                .fold(0.0, |most, end| end.horizontal_max_n.max(most)),
            outcome.history.inline_extension_m,
            w.free_fall_m,
        ];
        for (i, value) in n.iter_mut().enumerate() {
            *value = on_grid(*value, grid(i));
        }
        let required_m = required(&n);
        Self {
            worker,
            line_deflection_m: n[0],
            lanyard_m: n[1],
            absorber_extension_m: n[2],
            allowance_m: n[3],
            harness_stretch_m: n[4],
            dring_to_sole_m: n[5],
            margin_m: n[6],
            required_m,
            available_m: n[7],
            footroom_m: n[7] - required_m,
            arrest_force_n: n[8],
            tension_n: n[9],
            end_pull_n: n[10],
            inline_extension_m: n[11],
            free_fall_m: n[12],
        }
    }

    /// The same with the footroom of the whole answer to the case: what that is below this run's
    /// stands in the allowance.
    fn answered(mut self, case: &Case) -> Self {
        let Ok(ready) = case.ready() else {
            return self;
        };
        let answer_m = assessed(ready, Options::default()).footroom.value;
        let below_m = on_grid(self.footroom_m - answer_m, LENGTH_GRID_M);
        self.allowance_m += below_m;
        self.required_m += below_m;
        self.footroom_m -= below_m;
        self
    }

    fn numbers(&self) -> Numbers {
        [
            self.line_deflection_m,
            self.lanyard_m,
            self.absorber_extension_m,
            self.allowance_m,
            self.harness_stretch_m,
            self.dring_to_sole_m,
            self.margin_m,
            self.available_m,
            self.arrest_force_n,
            self.tension_n,
            self.end_pull_n,
            self.inline_extension_m,
            self.free_fall_m,
        ]
    }

    fn less(&self, other: &Self) -> Numbers {
        let (a, b) = (self.numbers(), other.numbers());
        core::array::from_fn(|i| a[i] - b[i])
    }
}

impl Part {
    fn of(cause: Cause, n: &Numbers) -> Self {
        let required_m = required(n);
        Self {
            cause,
            line_deflection_m: n[0],
            lanyard_m: n[1],
            absorber_extension_m: n[2],
            allowance_m: n[3],
            harness_stretch_m: n[4],
            dring_to_sole_m: n[5],
            margin_m: n[6],
            required_m,
            available_m: n[7],
            footroom_m: n[7] - required_m,
            arrest_force_n: n[8],
            tension_n: n[9],
            end_pull_n: n[10],
            inline_extension_m: n[11],
            free_fall_m: n[12],
        }
    }
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

fn at_corner(case: &Ready, corner: Corner) -> Ready {
    match corner {
        Corner::Nominal => case.clone(),
        Corner::Soft => moved(case, Sides::SOFT),
        Corner::Stiff => moved(case, Sides::STIFF),
        Corner::Mixed => moved(case, Sides::MIXED),
    }
}

/// Puts shares on the grid; what is left over of `whole` goes to the greatest of them.
fn round_to_sum(shares: &mut [Numbers], whole: &Numbers) {
    for (i, &wanted) in whole.iter().enumerate() {
        let mut left = wanted;
        let mut greatest = 0;
        for j in 0..shares.len() {
            shares[j][i] = on_grid(shares[j][i], grid(i));
            left -= shares[j][i];
            if shares[j][i].abs() > shares[greatest][i].abs() {
                greatest = j;
            }
        }
        if let Some(share) = shares.get_mut(greatest) {
            share[i] += left;
        }
    }
}

/// The mixed cases between two cases. A set is a bit mask over `causes`: bit set, from `to`.
struct Way<'a> {
    from: &'a Case,
    to: &'a Case,
    asked: Asked,
    /// Pairs of workers who are the same person in both.
    pairs: Vec<(usize, usize)>,
    /// What differs.
    causes: Vec<Cause>,
    /// The worker followed in `from` and in `to`; `None`: the governing one of each case.
    followed: Option<(usize, usize)>,
    known: Vec<(u32, Option<State>)>,
    solved: u32,
    doubtful: u32,
}

impl<'a> Way<'a> {
    fn new(from: &'a Case, to: &'a Case, asked: Asked) -> Self {
        let pairs = pairs(&from.workers, &to.workers);
        let causes = Cause::EACH
            .into_iter()
            .filter(|&c| differs(from, to, &pairs, c))
            .collect();
        let mut way = Self {
            from,
            to,
            asked,
            pairs,
            causes,
            followed: None,
            known: Vec::new(),
            solved: 0,
            doubtful: 0,
        };
        let worker = match asked.follow {
            Follow::Governing => None,
            Follow::One { worker } => Some(worker),
            Follow::Same => way.state(way.all()).map(|s| s.worker),
        };
        // What is known by now is at most `to` under the worker who is to be followed.
        way.followed = worker.map(|in_to| (way.partner(in_to), in_to));
        way
    }

    /// The worker of `from` who is this one of `to`, or stands nearest to his place.
    fn partner(&self, in_to: usize) -> usize {
        if let Some(&(in_from, _)) = self.pairs.iter().find(|p| p.1 == in_to) {
            return in_from;
        }
        let place = self.to.workers.get(in_to).map_or(0.0, |w| w.position_m);
        (0..self.from.workers.len())
            .min_by(|&a, &b| {
                let away = |i: usize| (self.from.workers[i].position_m - place).abs();
                away(a).total_cmp(&away(b))
            })
            .unwrap_or(0)
    }

    fn all(&self) -> u32 {
        (1 << self.causes.len()) - 1
    }

    fn mixed(&self, set: u32) -> Case {
        let takes = |cause: Cause| {
            self.causes
                .iter()
                .position(|&c| c == cause)
                .is_some_and(|bit| set & (1 << bit) != 0)
        };
        let of = |cause: Cause| if takes(cause) { self.to } else { self.from };
        Case {
            line: Line {
                spans_m: of(Cause::Spans).line.spans_m.clone(),
                height_above_beam_m: of(Cause::LineHeight).line.height_above_beam_m,
                pretension_n: of(Cause::Pretension).line.pretension_n,
                rope: of(Cause::Rope).line.rope,
                inline_absorber: of(Cause::InlineAbsorber).line.inline_absorber,
                left_end_stiffness_n_per_m: of(Cause::Ends).line.left_end_stiffness_n_per_m,
                right_end_stiffness_n_per_m: of(Cause::Ends).line.right_end_stiffness_n_per_m,
            },
            workers: mixed_crew(self.from, self.to, &self.pairs, &takes),
            site: Site {
                beam_top_m: of(Cause::Drop).site.beam_top_m,
                beam_depth_m: self.from.site.beam_depth_m,
                below: of(Cause::Below).site.below.clone(),
                reach_m: of(Cause::Below).site.reach_m,
                margin_m: of(Cause::Margin).site.margin_m,
            },
            posts: of(Cause::Ends).posts,
            temperature: of(Cause::Pretension).temperature,
            tolerances: of(Cause::Others).tolerances,
            allowance: of(Cause::Others).allowance,
            motion: of(Cause::Others).motion,
            ..self.from.clone()
        }
    }

    /// The state of a mixed case; `None`: it cannot be solved.
    fn state(&mut self, set: u32) -> Option<State> {
        if let Some(known) = self.known.iter().find(|k| k.0 == set) {
            return known.1;
        }
        let state = self.mixed(set).ready().ok().map(|ready| {
            self.solved += 1;
            let outcome = at_corner(&ready, self.asked.corner).solve(Options::default());
            if set != 0 && set != self.all() && outcome.unknown().is_some() {
                self.doubtful += 1;
            }
            let users = self.causes.iter().position(|&c| c == Cause::Users);
            let in_to = users.is_some_and(|bit| set & (1 << bit) != 0);
            let worker = match self.followed {
                None => outcome.governing_worker,
                Some((_, worker)) if in_to => worker,
                Some((worker, _)) => worker,
            };
            State::of(&outcome, worker)
        });
        self.known.push((set, state));
        state
    }

    /// Average over all orders that can be solved; `None`: there is none.
    fn all_orders(&mut self) -> Option<Vec<Numbers>> {
        let k = self.causes.len();
        let sets = 1_usize << k;
        let states: Vec<Option<State>> = (0..sets as u32).map(|set| self.state(set)).collect();
        // Number of orders from nothing to a set, and from a set to everything.
        let mut to_here = vec![0.0; sets];
        let mut from_here = vec![0.0; sets];
        to_here[0] = 1.0;
        from_here[sets - 1] = 1.0;
        for set in 1..sets {
            if states[set].is_some() {
                to_here[set] = bits(set, k).map(|bit| to_here[set ^ bit]).sum();
            }
            let low = sets - 1 - set;
            if states[low].is_some() {
                from_here[low] = bits(set, k).map(|bit| from_here[low | bit]).sum();
            }
        }
        let orders = to_here[sets - 1];
        if orders == 0.0 {
            return None;
        }
        let mut shares = vec![[0.0; NUMBERS]; k];
        for set in 0..sets {
            for (bit, share) in shares.iter_mut().enumerate() {
                let next = set | (1 << bit);
                if next == set {
                    continue;
                }
                let weight = to_here[set] * from_here[next] / orders;
                if let (Some(before), Some(after)) = (states[set], states[next])
                    && weight > 0.0
                {
                    add(share, &after.less(&before), weight);
                }
            }
        }
        Some(shares)
    }

    /// Average over two orders that can be solved; `None`: there is none.
    fn two_orders(&mut self) -> Option<Vec<Numbers>> {
        let k = self.causes.len();
        let orders = [self.order(false)?, self.order(true)?];
        let mut shares = vec![[0.0; NUMBERS]; k];
        for order in orders {
            let mut set = 0;
            for bit in order {
                let (before, after) = (self.state(set)?, self.state(set | (1 << bit))?);
                add(&mut shares[bit], &after.less(&before), 0.5);
                set |= 1 << bit;
            }
        }
        Some(shares)
    }

    /// The first order, in the order of causes or its reverse, whose every mixed case can be
    /// solved: depth first, a dead end is never looked at twice.
    fn order(&self, reversed: bool) -> Option<Vec<usize>> {
        let k = self.causes.len();
        let mut dead = vec![false; 1 << k];
        let mut taken: Vec<usize> = Vec::new();
        // Per depth, the next candidate to look at.
        let mut next = vec![0_usize];
        let mut set = 0_usize;
        let mut looked = 0;
        while taken.len() < k {
            let depth = taken.len();
            let candidate = next[depth];
            if candidate == k {
                dead[set] = true;
                next.pop();
                let bit = taken.pop()?;
                set ^= 1 << bit;
                continue;
            }
            next[depth] += 1;
            let bit = if reversed {
                k - 1 - candidate
            } else {
                candidate
            };
            let tried = set | (1 << bit);
            if tried == set || dead[tried] {
                continue;
            }
            looked += 1;
            if looked > SEARCH_MAX {
                return None;
            }
            if self.mixed(tried as u32).ready().is_ok() {
                taken.push(bit);
                next.push(0);
                set = tried;
            } else {
                dead[tried] = true;
            }
        }
        Some(taken)
    }
}

fn bits(set: usize, count: usize) -> impl Iterator<Item = usize> {
    (0..count)
        .map(|bit| 1 << bit)
        .filter(move |bit| set & bit != 0)
}

fn add(share: &mut Numbers, change: &Numbers, weight: f64) {
    for (s, c) in share.iter_mut().zip(change) {
        *s += weight * c;
    }
}

/// Whether two workers are alike in one cause.
fn alike(a: &Worker, b: &Worker, cause: Cause) -> bool {
    let bare_gear = |w: &Worker| crate::case::Gear {
        absorber: None,
        ..w.gear
    };
    match cause {
        Cause::Timing => a.fall_time_s == b.fall_time_s,
        Cause::Places => {
            a.position_m == b.position_m
                && a.offset_along_m == b.offset_along_m
                && a.edge_distance_m == b.edge_distance_m
        }
        Cause::Lanyard => bare_gear(a) == bare_gear(b),
        Cause::Absorber => a.gear.absorber == b.gear.absorber,
        Cause::Mass => a.mass_kg == b.mass_kg,
        Cause::Body => {
            a.dring_height_m == b.dring_height_m && a.harness_stretch_m == b.harness_stretch_m
        }
        _ => true,
    }
}

fn differs(a: &Case, b: &Case, pairs: &[(usize, usize)], cause: Cause) -> bool {
    let (l, m) = (&a.line, &b.line);
    let (s, t) = (&a.site, &b.site);
    match cause {
        Cause::Users => a.workers.len() != b.workers.len(),
        Cause::Spans => l.spans_m != m.spans_m,
        Cause::Pretension => l.pretension_n != m.pretension_n || a.temperature != b.temperature,
        Cause::Rope => l.rope != m.rope,
        Cause::Ends => {
            a.posts != b.posts
                || l.left_end_stiffness_n_per_m != m.left_end_stiffness_n_per_m
                || l.right_end_stiffness_n_per_m != m.right_end_stiffness_n_per_m
        }
        Cause::InlineAbsorber => l.inline_absorber != m.inline_absorber,
        Cause::LineHeight => l.height_above_beam_m != m.height_above_beam_m,
        Cause::Margin => s.margin_m != t.margin_m,
        Cause::Drop => s.beam_top_m != t.beam_top_m,
        Cause::Below => s.below != t.below || s.reach_m != t.reach_m,
        Cause::Others => {
            a.tolerances != b.tolerances || a.allowance != b.allowance || a.motion != b.motion
        }
        _ => pairs
            .iter()
            .any(|&(i, j)| !alike(&a.workers[i], &b.workers[j], cause)),
    }
}

/// The crew of a mixed case: whose number it has, with the paired workers' inputs mixed.
fn mixed_crew(
    from: &Case,
    to: &Case,
    pairs: &[(usize, usize)],
    takes: &dyn Fn(Cause) -> bool,
) -> Vec<Worker> {
    let whole = if takes(Cause::Users) { to } else { from };
    let mut crew = whole.workers.clone();
    for &(i, j) in pairs {
        let (a, b) = (&from.workers[i], &to.workers[j]);
        let of = |cause: Cause| if takes(cause) { b } else { a };
        let mut gear = of(Cause::Lanyard).gear;
        gear.absorber = of(Cause::Absorber).gear.absorber;
        let place = of(Cause::Places);
        let body = of(Cause::Body);
        crew[if takes(Cause::Users) { j } else { i }] = Worker {
            position_m: place.position_m,
            offset_along_m: place.offset_along_m,
            edge_distance_m: place.edge_distance_m,
            mass_kg: of(Cause::Mass).mass_kg,
            dring_height_m: body.dring_height_m,
            harness_stretch_m: body.harness_stretch_m,
            fall_time_s: of(Cause::Timing).fall_time_s,
            gear,
        };
    }
    crew
}

/// Pairs the workers of two crews in their order, as many as the smaller has, so that the sum over
/// the pairs of what differs is least: 1,000 for every cause, and the distance of the places in m.
fn pairs(a: &[Worker], b: &[Worker]) -> Vec<(usize, usize)> {
    const EACH_CAUSE: f64 = 1_000.0;
    let cost = |i: usize, j: usize| {
        let (a, b) = (&a[i], &b[j]);
        let differing = [
            Cause::Timing,
            Cause::Lanyard,
            Cause::Absorber,
            Cause::Mass,
            Cause::Body,
        ]
        .into_iter()
        .filter(|&c| !alike(a, b, c))
        .count();
        EACH_CAUSE * differing as f64 + (a.position_m - b.position_m).abs()
    };
    let (short, long) = (a.len().min(b.len()), a.len().max(b.len()));
    let of = |s: usize, l: usize| if a.len() <= b.len() { (s, l) } else { (l, s) };
    // least[s][l]: the first s of the shorter paired within the first l of the longer.
    let mut least = vec![vec![f64::INFINITY; long + 1]; short + 1];
    least[0].fill(0.0);
    for s in 1..=short {
        for l in s..=long {
            let (i, j) = of(s - 1, l - 1);
            least[s][l] = (least[s - 1][l - 1] + cost(i, j)).min(least[s][l - 1]);
        }
    }
    let mut pairs = Vec::new();
    let (mut s, mut l) = (short, long);
    while s > 0 {
        // Leaving the last one out when that costs no more keeps the first of equals.
        if l > s && least[s][l - 1] <= least[s][l] {
            l -= 1;
            continue;
        }
        pairs.push(of(s - 1, l - 1));
        (s, l) = (s - 1, l - 1);
    }
    pairs.reverse();
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::assess;
    use crate::case::{Absorber, Below, EndPost, InlineAbsorber};
    use crate::demo::demo;
    use crate::solve::solve;
    use crate::spread::Spread;

    fn adds_up(why: &Why) {
        let whole = why.to.less(&why.from);
        // Both ways round: on the grid the order of the additions does not matter.
        for reversed in [false, true] {
            let mut sum = [0.0; NUMBERS];
            let (mut required_m, mut footroom_m) = (0.0, 0.0);
            let mut add_part = |p: &Part| {
                let n = [
                    p.line_deflection_m,
                    p.lanyard_m,
                    p.absorber_extension_m,
                    p.allowance_m,
                    p.harness_stretch_m,
                    p.dring_to_sole_m,
                    p.margin_m,
                    p.available_m,
                    p.arrest_force_n,
                    p.tension_n,
                    p.end_pull_n,
                    p.inline_extension_m,
                    p.free_fall_m,
                ];
                assert_eq!(p.required_m, n[..7].iter().sum::<f64>());
                assert_eq!(p.footroom_m, p.available_m - p.required_m);
                add(&mut sum, &n, 1.0);
                required_m += p.required_m;
                footroom_m += p.footroom_m;
            };
            if reversed {
                why.parts.iter().rev().for_each(&mut add_part);
            } else {
                why.parts.iter().for_each(&mut add_part);
            }
            assert_eq!(sum, whole);
            assert_eq!(required_m, why.to.required_m - why.from.required_m);
            assert_eq!(footroom_m, why.to.footroom_m - why.from.footroom_m);
        }
    }

    /// Some inputs of a case changed at random, each with even odds.
    fn changed(case: &Case, by: &mut Spread) -> Case {
        let mut to = case.clone();
        let line = &mut to.line;
        if by.odds(0.5) {
            line.pretension_n = by.between(2.0e3, 8.0e3);
        }
        if by.odds(0.5) {
            let spans = 1 + by.index(3);
            line.spans_m = vec![by.between(4.0, 12.0); spans];
        }
        if by.odds(0.3) {
            line.inline_absorber = Some(InlineAbsorber {
                yield_force_n: by.between(9.0e3, 15.0e3),
                max_extension_m: 1.0,
                ..InlineAbsorber::default()
            });
        }
        if by.odds(0.3) {
            line.height_above_beam_m = by.between(0.5, 2.5);
        }
        if by.odds(0.3) {
            to.posts.left = Some(EndPost::default());
        }
        if by.odds(0.3) {
            to.site.margin_m = by.between(0.5, 1.5);
        }
        if by.odds(0.3) {
            to.site.beam_top_m = by.between(6.0, 12.0);
        }
        if by.odds(0.3) {
            to.allowance.clearance_ratio = 0.1;
        }
        if by.odds(0.5) {
            to.workers.truncate(1 + by.index(to.workers.len()));
        }
        if by.odds(0.3) {
            to.site.below.push(Below {
                from_m: 2.0,
                to_m: 5.0,
                height_m: 2.0,
                ..Below::default()
            });
        }
        let length = to.line.length_m();
        let mass = by.odds(0.4).then(|| by.between(60.0, 130.0));
        for w in &mut to.workers {
            w.mass_kg = mass.unwrap_or(w.mass_kg);
            if w.position_m > length {
                w.position_m = by.between(0.0, length);
            }
        }
        to
    }

    #[test]
    fn the_parts_add_up_to_the_last_bit() {
        let mut by = Spread::new(7);
        let mut many = 0;
        for i in 0..30 {
            let from = by.case();
            let to = changed(&from, &mut by);
            if to.ready().is_err() {
                continue;
            }
            let follow = match i % 3 {
                0 => Follow::Governing,
                1 => Follow::Same,
                _ => Follow::One {
                    worker: to.workers.len() - 1,
                },
            };
            let corner = [Corner::Nominal, Corner::Soft][i % 2];
            let split = why(&from, &to, Asked { follow, corner }).unwrap();
            adds_up(&split);
            many += usize::from(split.parts.len() > ALL_ORDERS_MAX);
            assert!(split.solved as usize <= 16_usize.max(2 * split.parts.len() + 1));
        }
        assert!(many > 3, "{many} with many causes");
    }

    /// The footroom of the whole answer to a case, m.
    fn answer_m(case: &Case) -> f64 {
        assess(case, Options::default()).unwrap().footroom.value
    }

    /// The causes among the inputs.
    fn inputs(split: &Why) -> Vec<Cause> {
        let causes = split.parts.iter().map(|p| p.cause);
        causes.filter(|&c| c != Cause::Differences).collect()
    }

    /// The second state is that of the second case also where only the day is warmer.
    #[test]
    fn a_warmer_day_is_less_pretension() {
        let mut from = demo();
        // Of a crew the bounces move by more than the day.
        from.workers.truncate(1);
        let mut to = from.clone();
        to.temperature.today_k += 20.0;
        let split = why(&from, &to, Asked::default()).unwrap();
        assert!((split.to.footroom_m - answer_m(&to)).abs() < 1e-9);
        assert!(split.to.footroom_m < split.from.footroom_m - 0.005);
        assert_eq!(inputs(&split), [Cause::Pretension]);
    }

    #[test]
    fn the_states_are_the_solver_s() {
        let case = demo();
        let outcome = solve(&case, Options::default()).unwrap();
        let same = why(&case, &case, Asked::default()).unwrap();
        assert!(same.parts.is_empty());
        assert_eq!(same.from, same.to);
        assert_eq!(same.to.worker, outcome.governing_worker);
        assert!((same.to.footroom_m - answer_m(&case)).abs() < 1e-10);
        // A crew's small differences take something of what the run leaves.
        assert!(same.to.footroom_m < outcome.footroom_m);
        let arrest = outcome.workers[outcome.governing_worker].arrest_force_max_n;
        assert!(same.to.arrest_force_n >= arrest - FORCE_GRID_N);
    }

    #[test]
    fn one_cause_takes_all() {
        let from = demo();
        let mut to = from.clone();
        to.site.margin_m += 0.25;
        let split = why(&from, &to, Asked::default()).unwrap();
        let [part] = split.parts[..] else {
            panic!("{split:?}");
        };
        assert_eq!(part.cause, Cause::Margin);
        assert_eq!(part.margin_m, 0.25);
        assert_eq!(part.required_m, 0.25);
        assert_eq!(part.line_deflection_m, 0.0);
    }

    /// With two causes the average over both orders is known by hand.
    #[test]
    fn two_causes_share_what_they_do_together() {
        let from = demo();
        let (mut a, mut b, mut both) = (from.clone(), from.clone(), from.clone());
        for case in [&mut a, &mut both] {
            case.line.spans_m = vec![18.0];
        }
        for case in [&mut b, &mut both] {
            for w in &mut case.workers {
                w.mass_kg = 120.0;
            }
        }
        let footroom = |case: &Case| solve(case, Options::default()).unwrap().footroom_m;
        let f = [&from, &a, &b, &both].map(footroom);
        let split = why(&from, &both, Asked::default()).unwrap();
        let spans = 0.5 * ((f[1] - f[0]) + (f[3] - f[2]));
        assert_eq!(split.parts[0].cause, Cause::Spans);
        assert!((split.parts[0].footroom_m - spans).abs() < 1e-9);
        assert_eq!(split.parts[1].cause, Cause::Mass);
        assert!((split.parts[1].footroom_m - (f[3] - f[0] - spans)).abs() < 1e-9);
    }

    /// The longer line must come before the place on it, and the other way round.
    #[test]
    fn orders_that_cannot_be_solved_are_left_out() {
        let mut from = demo();
        from.line.spans_m = vec![9.0];
        for (w, x) in from.workers.iter_mut().zip([3.0, 4.5, 6.0]) {
            w.position_m = x;
        }
        let to = demo();
        let split = why(&from, &to, Asked::default()).unwrap();
        assert_eq!(inputs(&split), [Cause::Places, Cause::Spans]);
        assert_eq!(split.solved, 3);
        adds_up(&split);
        adds_up(&why(&to, &from, Asked::default()).unwrap());
        // The same among more causes than all orders are taken for.
        let mut far = to.clone();
        far.line.pretension_n = 5.0e3;
        far.site.margin_m = 0.8;
        far.site.beam_top_m = 8.0;
        let split = why(&from, &far, Asked::default()).unwrap();
        assert_eq!(inputs(&split).len(), 5);
        adds_up(&split);
    }

    /// The light rope does not bear the heavy rope's pretension, and under the light rope's the heavy
    /// one hangs slack: neither can go first.
    #[test]
    fn without_an_order_all_is_one_part() {
        let mut from = demo();
        from.line.spans_m = vec![60.0];
        from.line.pretension_n = 30.0e3;
        from.line.rope.mass_per_length_kg_per_m = 6.0;
        from.line.rope.breaking_force_n = Some(400.0e3);
        let mut to = from.clone();
        to.line.pretension_n = 3.0e3;
        to.line.rope.mass_per_length_kg_per_m = 0.2;
        to.line.rope.breaking_force_n = Some(20.0e3);
        let together = |from: &Case, to: &Case| {
            let split = why(from, to, Asked::default()).unwrap();
            assert_eq!(inputs(&split), [Cause::Together], "{split:?}");
            assert!(split.parts[0].footroom_m != 0.0);
            adds_up(&split);
        };
        together(&from, &to);
        // The same among many causes.
        for w in &mut to.workers {
            w.mass_kg = 90.0;
            w.gear.length_m = 1.9;
        }
        to.site.margin_m = 0.7;
        together(&from, &to);
    }

    #[test]
    fn workers_are_paired_by_likeness() {
        let crew = demo().workers;
        assert_eq!(pairs(&crew, &crew), [(0, 0), (1, 1), (2, 2)]);
        assert_eq!(pairs(&crew[1..], &crew), [(0, 1), (1, 2)]);
        assert_eq!(pairs(&crew, &crew[..1]), [(0, 0)]);
        let mut last = crew[2];
        last.mass_kg = 80.0;
        let mut heavy = crew.clone();
        heavy[0].mass_kg = 80.0;
        assert_eq!(pairs(&[last], &heavy), [(0, 0)]);
    }

    /// Before they are put on the grid the shares make the whole already: what is left over for the
    /// greatest of them is rounding and nothing else.
    #[test]
    fn shares_make_the_whole_before_they_are_rounded() {
        let from = demo();
        let mut to = from.clone();
        to.site.margin_m += 0.05;
        to.line.pretension_n = 6_000.0;
        to.line.spans_m = vec![18.0];
        for many in [false, true] {
            if many {
                to.site.beam_top_m += 0.3;
                for w in &mut to.workers {
                    w.mass_kg = 90.0;
                    w.gear.length_m = 1.9;
                }
            }
            let mut way = Way::new(&from, &to, Asked::default());
            assert_eq!(way.causes.len() > ALL_ORDERS_MAX, many);
            let ends = (way.state(way.all()), way.state(0));
            let whole = ends.0.expect("solved").less(&ends.1.expect("solved"));
            let shares = if many {
                way.two_orders()
            } else {
                way.all_orders()
            };
            let shares = shares.expect("an order that can be solved");
            for (i, &wanted) in whole.iter().enumerate() {
                let sum: f64 = shares.iter().map(|share| share[i]).sum();
                assert!(
                    (sum - wanted).abs() <= 1e-9 * (1.0 + wanted.abs()),
                    "{i}: {sum} {wanted}"
                );
            }
        }
    }

    #[test]
    fn one_person_can_be_followed() {
        let mut from = demo();
        from.workers.truncate(1);
        let to = demo();
        let follow = Follow::One { worker: 2 };
        let corner = Corner::Nominal;
        let split = why(&from, &to, Asked { follow, corner }).unwrap();
        assert_eq!((split.from.worker, split.to.worker), (0, 2));
        adds_up(&split);
        let follow = Follow::One { worker: 3 };
        assert!(why(&from, &to, Asked { follow, corner }).is_err());
    }

    #[test]
    fn the_series_of_users_ends_at_the_case() {
        let mut case = demo();
        case.line.inline_absorber = Some(InlineAbsorber::default());
        case.workers[2].gear.absorber = Some(Absorber {
            average_force_n: 5.0e3,
            ..Absorber::default()
        });
        let steps = users(&case, Corner::Nominal).unwrap();
        assert_eq!(steps.len(), 3);
        assert_eq!(steps[2].case, case);
        let mut footroom = steps[0].state.footroom_m;
        for step in &steps[1..] {
            footroom += step.added.unwrap().footroom_m;
            assert_eq!(footroom, step.state.footroom_m);
        }
        assert!((footroom - answer_m(&case)).abs() < 1e-10);
        case.workers[0].fall_time_s = None;
        let steps = users(&case, Corner::Soft).unwrap();
        assert_eq!(steps.iter().map(|s| s.users).collect::<Vec<_>>(), [2, 3]);
    }
}
