//! Falls drawn within the tolerances of a case: how its footroom and its line tension spread, how far
//! the answer lies from the worst and the middle of the draws, and which input matters most.
//!
//! Each input that has a tolerance is drawn by itself, evenly over its range: each worker's mass and
//! absorber, each end of the line, the pretension, the rope, the in-line absorber ([`Input`]). All else
//! is as given: places, instants, damping. The answer moves all of them to one side at once and tries
//! a crew's small differences as well, so it lies beyond most draws.
//!
//! A draw is told by a seed, its number and the input, and by nothing else: the same seed gives the
//! same draws on every machine, in whatever pieces they are made. So [`Draws::falls`] can be asked for
//! some at a time, by several workers, and stopped in between.
//!
//! # Known limits
//! The tolerances are the user's, nobody measured them here; that every value within them is as likely
//! as another is an assumption, and that inputs do not go together another one (absorbers of one batch
//! do). So a share of draws is no probability of anything on a site.
//!
//! What is marked `#[cold]` is nothing beside the histories: small rather than quick.

use alloc::vec::Vec;
use core::ops::Range;

use crate::answer::Unknown;
use crate::assess::Assessment;
use crate::case::Case;
use crate::constants::WORKERS_MAX;
use crate::curve::Shape;
use crate::fault::Fault;
use crate::maths::sqrt;
use crate::order::sort;
use crate::ready::Ready;
use crate::solve::{Options, solve_all};

/// How many falls are drawn: the middle and the shares stand to about a percent, the ends do not.
pub const DRAWS: u32 = 1_000;

/// An input that is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "input"))]
pub enum Input {
    /// Mass of a worker, kg.
    Mass {
        /// The worker, counted from 0.
        worker: usize,
    },
    /// Average deployment force of a worker's absorber, N.
    AbsorberForce {
        /// The worker, counted from 0.
        worker: usize,
    },
    /// Pretension of today, N.
    Pretension,
    /// Axial stiffness of the rope, N.
    AxialStiffness,
    /// Horizontal stiffness of the left end, N/m.
    LeftEnd,
    /// Horizontal stiffness of the right end, N/m.
    RightEnd,
    /// Yield force of the in-line absorber, N.
    InlineForce,
}

/// Inputs of the line come first among the numbers of a draw.
const LINE_SLOTS: u64 = 5;
/// Numbers of the sequence that belong to one draw: those that nothing takes are left out, so that a
/// number stays with its input whatever else a case has.
const SLOTS: u64 = 32;
const _: () = assert!(LINE_SLOTS + 2 * WORKERS_MAX as u64 <= SLOTS);

impl Input {
    /// Its place among the numbers of a draw.
    fn slot(self) -> u64 {
        match self {
            Self::Pretension => 0,
            Self::AxialStiffness => 1,
            Self::LeftEnd => 2,
            Self::RightEnd => 3,
            Self::InlineForce => 4,
            Self::Mass { worker } => LINE_SLOTS + 2 * worker as u64,
            Self::AbsorberForce { worker } => LINE_SLOTS + 2 * worker as u64 + 1,
        }
    }

    /// Writes a value into a case that has the input.
    #[cold]
    fn write(self, case: &mut Case, value: f64) {
        let line = &mut case.line;
        match self {
            Self::Mass { worker } => {
                if let Some(worker) = case.workers.get_mut(worker) {
                    worker.mass_kg = value;
                }
            }
            Self::AbsorberForce { worker } => {
                let worker = case.workers.get_mut(worker);
                if let Some(absorber) = worker.and_then(|w| w.gear.absorber.as_mut()) {
                    *absorber = absorber.averaging(value);
                }
            }
            Self::Pretension => line.pretension_n = value,
            Self::AxialStiffness => line.rope.axial_stiffness_n = value,
            Self::LeftEnd => line.left_end_stiffness_n_per_m = Some(value),
            Self::RightEnd => line.right_end_stiffness_n_per_m = Some(value),
            Self::InlineForce => {
                if let Some(inline) = &mut line.inline_absorber {
                    inline.yield_force_n = value;
                }
            }
        }
    }
}

/// The range over which an input is drawn, in the unit of [`Input`].
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Drawn {
    /// Which input.
    pub input: Input,
    /// Least value.
    pub low: f64,
    /// Greatest value.
    pub high: f64,
}

/// What one draw came to.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Fall {
    /// Footroom, m.
    pub footroom_m: f64,
    /// Greatest line tension of both methods, N, the allowance for the model included as in
    /// [`Assessment::tension_max`].
    pub tension_max_n: f64,
    /// Why the two say nothing; `None`: they do.
    pub unknown: Option<Unknown>,
}

/// The draws of a case and a seed. Nothing is computed before it is asked for.
///
/// # Examples
/// ```
/// use footroom_core::demo::demo;
/// use footroom_core::draws::Draws;
/// let draws = Draws::new(&demo(), 7).unwrap();
/// let falls = draws.falls(0..8);
/// // In pieces they are the same.
/// assert_eq!(draws.falls(3..5), falls[3..5]);
/// let told = draws.told(&falls);
/// assert!(told.footroom_m.unwrap().least <= told.footroom_m.unwrap().middle);
/// let mut nobody = demo();
/// nobody.workers.clear();
/// assert!(Draws::new(&nobody, 7).is_err());
/// ```
#[derive(Clone, Debug)]
pub struct Draws {
    ready: Ready,
    seed: u32,
    drawn: Vec<Drawn>,
}

impl Draws {
    /// Takes a case and a seed.
    ///
    /// # Errors
    /// Every fault of the case, when there is one.
    #[cold]
    pub fn new(case: &Case, seed: u32) -> Result<Self, Vec<Fault>> {
        let ready = case.ready()?;
        Ok(Self {
            drawn: ranges(ready.case()),
            ready,
            seed,
        })
    }

    /// What is drawn: the inputs that have a tolerance and bear on the fall. Empty: none has.
    ///
    /// An absorber's average force does not go above its maximum force. Who does not fall pulls on
    /// nothing and is not drawn.
    pub fn drawn(&self) -> &[Drawn] {
        &self.drawn
    }

    /// The value of an input, by its place in [`Draws::drawn`], in a draw, counted from 0; NaN where
    /// there is no such input.
    pub fn value(&self, place: usize, draw: u32) -> f64 {
        self.drawn.get(place).map_or(f64::NAN, |it| {
            let number = SLOTS * u64::from(draw) + it.input.slot();
            let value = it.low + (it.high - it.low) * unit(u64::from(self.seed), number);
            // A product may round up.
            if value > it.high { it.high } else { value }
        })
    }

    /// The case of a draw. Pretension above what the in-line absorber bears at rest is held at its
    /// yield force, as in [`crate::corner::moved`].
    #[cold]
    pub fn case(&self, draw: u32) -> Ready {
        self.ready.with(|case| {
            for (place, it) in self.drawn.iter().enumerate() {
                it.input.write(case, self.value(place, draw));
            }
            let line = &mut case.line;
            if let Some(inline) = line.inline_absorber
                && line.pretension_n > inline.yield_force_n
            {
                line.pretension_n = inline.yield_force_n;
            }
        })
    }

    /// What draws come to, in their order, each to the same bits as alone. Lines cut alike run side by
    /// side, so it pays to ask for an even number.
    pub fn falls(&self, draws: Range<u32>) -> Vec<Fall> {
        let cases: Vec<Ready> = draws.map(|draw| self.case(draw)).collect();
        let asked: Vec<(&Ready, Options)> = cases.iter().map(|c| (c, Options::default())).collect();
        let more = 1.0 + self.ready.case().allowance.tension_ratio;
        let solved = solve_all(&asked);
        (solved.iter())
            .map(|it| Fall {
                footroom_m: it.footroom_m,
                tension_max_n: more * it.history.tension_max_n.max(it.balance.tension_max_n),
                unknown: it.unknown(),
            })
            .collect()
    }

    /// What the first draws, as many as there are `falls`, tell.
    #[cold]
    pub fn told(&self, falls: &[Fall]) -> Told {
        let known: Vec<(u32, &Fall)> = (0_u32..)
            .zip(falls)
            .filter(|(_, fall)| fall.unknown.is_none())
            .collect();
        let of = |what: fn(&Fall) -> f64| -> Vec<f64> {
            known.iter().map(|(_, fall)| what(fall)).collect()
        };
        let (footroom_m, tension_n) = (of(|f| f.footroom_m), of(|f| f.tension_max_n));
        let values: Vec<Vec<f64>> = (0..self.drawn.len())
            .map(|place| {
                known
                    .iter()
                    .map(|(draw, _)| self.value(place, *draw))
                    .collect()
            })
            .collect();
        Told {
            draws: falls.len(),
            unknown: falls.len() - known.len(),
            footroom_m: Distribution::of(&footroom_m),
            tension_n: Distribution::of(&tension_n),
            on_footroom: influences(&values, &footroom_m),
            on_tension: influences(&values, &tension_n),
        }
    }
}

/// The inputs of a case that are drawn, the workers' first.
#[cold]
fn ranges(case: &Case) -> Vec<Drawn> {
    let mut drawn = Vec::new();
    let by = case.tolerances;
    let mut add = |input, given: f64, ratio: f64, most: f64| {
        let high = given * (1.0 + ratio);
        let it = Drawn {
            input,
            low: given * (1.0 - ratio),
            high: if high > most { most } else { high },
        };
        if it.low < it.high {
            drawn.push(it);
        }
    };
    const NO_MORE: f64 = f64::INFINITY;
    for (worker, it) in case.workers.iter().enumerate() {
        if it.fall_time_s.is_none() {
            continue;
        }
        add(Input::Mass { worker }, it.mass_kg, by.mass_ratio, NO_MORE);
        if let Some(absorber) = it.gear.absorber {
            // A curve may be stronger all along; an average stays below the maximum.
            let most_n = match absorber.shape() {
                Shape::Average => absorber.maximum_n(),
                Shape::Peak | Shape::Curve => NO_MORE,
            };
            let average_n = absorber.average_n();
            let input = Input::AbsorberForce { worker };
            add(input, average_n, by.absorber_force_ratio, most_n);
        }
    }
    let line = &case.line;
    let (tension_n, stiffness_n) = (line.pretension_n, line.rope.axial_stiffness_n);
    add(Input::Pretension, tension_n, by.pretension_ratio, NO_MORE);
    let ratio = by.axial_stiffness_ratio;
    add(Input::AxialStiffness, stiffness_n, ratio, NO_MORE);
    let ends = [
        (Input::LeftEnd, line.left_end_stiffness_n_per_m),
        (Input::RightEnd, line.right_end_stiffness_n_per_m),
    ];
    for (input, n_per_m) in ends {
        if let Some(n_per_m) = n_per_m {
            add(input, n_per_m, by.end_stiffness_ratio, NO_MORE);
        }
    }
    if let Some(inline) = line.inline_absorber {
        let yield_n = inline.yield_force_n;
        add(Input::InlineForce, yield_n, by.inline_force_ratio, NO_MORE);
    }
    drawn
}

/// A number of the sequence of a seed, 0 to below 1, by its place counted from 0.
fn unit(seed: u64, place: u64) -> f64 {
    // The upper 53 bits, as many as a number of 0.5 to 1 can tell apart.
    (mixed(seed, place) >> 11) as f64 / (1_u64 << 53) as f64
}

/// A number of the SplitMix64 sequence, by its place counted from 0: none of those before is needed.
///
/// # Source
/// G. L. Steele, D. Lea, C. H. Flood, Fast splittable pseudorandom number generators, OOPSLA 2014,
/// with the constants of S. Vigna's reference code (public domain), from memory; the test has its
/// published first numbers.
fn mixed(seed: u64, place: u64) -> u64 {
    const STEP: u64 = 0x9e37_79b9_7f4a_7c15;
    let mut z = seed.wrapping_add(STEP.wrapping_mul(place.wrapping_add(1)));
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// What draws tell of a case.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Told {
    /// How many there are.
    pub draws: usize,
    /// How many of them have no footroom to rely on; they count for nothing below.
    pub unknown: usize,
    /// How the footroom spreads, m; `None`: no draw has one.
    pub footroom_m: Option<Distribution>,
    /// How the greatest line tension spreads, N.
    pub tension_n: Option<Distribution>,
    /// What the inputs do to the footroom, in the order of [`Draws::drawn`].
    pub on_footroom: Vec<Influence>,
    /// What they do to the greatest line tension.
    pub on_tension: Vec<Influence>,
}

/// A few numbers of many.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Distribution {
    /// The least.
    pub least: f64,
    /// 5 of 100 are at most this.
    pub low: f64,
    /// Half are at most this.
    pub middle: f64,
    /// 95 of 100 are at most this.
    pub high: f64,
    /// The greatest.
    pub greatest: f64,
}

impl Distribution {
    /// Of numbers in any order; `None`: there are none. Each is one of them: the first, in ascending
    /// order, that its part of them does not exceed (nearest rank).
    #[cold]
    pub fn of(values: &[f64]) -> Option<Self> {
        let mut sorted = values.to_vec();
        sort(&mut sorted, |a, b| a < b);
        let (&least, &greatest) = (sorted.first()?, sorted.last()?);
        let count = sorted.len();
        let at = |hundredths: usize| {
            let place = (hundredths * count).div_ceil(100).saturating_sub(1);
            sorted.get(place).copied().unwrap_or(greatest)
        };
        Some(Self {
            least,
            low: at(5),
            middle: at(50),
            high: at(95),
            greatest,
        })
    }
}

/// What an input does to a number.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Influence {
    /// Rank correlation, −1 to 1: above 0 the number grows with the input. Of an input that does
    /// nothing it lies within 2/√(draws − 1) of 0 in 95 of 100 seeds.
    pub rank_correlation: f64,
    /// Its square; of inputs drawn by themselves these add up to what ranks alone explain, at most
    /// about 1.
    pub explained: f64,
    /// Its square over the sum of the squares of all, 0 to 1.
    pub share: f64,
}

#[cold]
fn influences(inputs: &[Vec<f64>], result: &[f64]) -> Vec<Influence> {
    let result = ranks(result);
    let found: Vec<f64> = (inputs.iter())
        .map(|values| correlation(&ranks(values), &result))
        .collect();
    let all = found.iter().fold(0.0, |sum, r| sum + r * r);
    (found.into_iter())
        .map(|r| Influence {
            rank_correlation: r,
            explained: r * r,
            share: if all > 0.0 { r * r / all } else { 0.0 },
        })
        .collect()
}

/// Spearman's rank correlation of two lists, −1 to 1: the correlation of the places that the values
/// take in ascending order, equal ones sharing the average of theirs. What has no place in the shorter
/// list is left out; 0 where all values of a list are equal, or there are fewer than two.
///
/// # Source
/// M. Kendall, J. D. Gibbons, Rank Correlation Methods, 5th ed., 1990, ch. 1 and 3, from memory.
///
/// # Examples
/// ```
/// use footroom_core::draws::rank_correlation;
/// // Any growing function has all ranks alike.
/// assert_eq!(rank_correlation(&[1.0, 2.0, 3.0], &[1.0, 8.0, 27.0]), 1.0);
/// assert_eq!(rank_correlation(&[1.0, 2.0, 3.0], &[5.0, 5.0, 5.0]), 0.0);
/// ```
pub fn rank_correlation(a: &[f64], b: &[f64]) -> f64 {
    let count = a.len().min(b.len());
    correlation(&ranks(&a[..count]), &ranks(&b[..count]))
}

/// The places of values in ascending order, counted from 1; equal ones share the average of theirs.
#[cold]
fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<(f64, usize)> = values.iter().copied().zip(0..).collect();
    sort(&mut order, |a, b| a.0 < b.0);
    let mut ranks = alloc::vec![0.0; values.len()];
    let mut before = 0;
    for equal in order.chunk_by(|a, b| a.0 == b.0) {
        let rank = before as f64 + 0.5 * (equal.len() as f64 + 1.0);
        before += equal.len();
        for &(_, place) in equal {
            if let Some(it) = ranks.get_mut(place) {
                *it = rank;
            }
        }
    }
    ranks
}

/// The correlation of two lists of ranks of one length.
#[cold]
fn correlation(a: &[f64], b: &[f64]) -> f64 {
    // Ranks of a list average to this, equal ones or not.
    let middle = 0.5 * (a.len() as f64 + 1.0);
    let (mut aa, mut bb, mut ab) = (0.0, 0.0, 0.0);
    for (a, b) in a.iter().zip(b) {
        let (a, b) = (a - middle, b - middle);
        aa += a * a;
        bb += b * b;
        ab += a * b;
    }
    if aa > 0.0 && bb > 0.0 {
        ab / sqrt(aa * bb)
    } else {
        0.0
    }
}

/// The draws beside the answer.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Beyond {
    /// Least footroom of the soft, the stiff, where there is one the mixed side, and the case as
    /// given, m: the tolerances alone, without what is done for a crew.
    pub sides_footroom_m: f64,
    /// Greatest line tension of the same, N, the allowance for the model included.
    pub sides_tension_n: f64,
    /// Draws with less footroom than the answer.
    pub footroom: usize,
    /// Draws with more tension than the answer.
    pub tension: usize,
    /// Draws with less footroom than [`Beyond::sides_footroom_m`].
    pub sides_footroom: usize,
    /// Draws with more tension than [`Beyond::sides_tension_n`].
    pub sides_tension: usize,
}

/// How many draws lie beyond the answer to their case, and beyond its tolerances alone. Draws
/// without a footroom to rely on count for nothing.
#[cold]
pub fn beyond(case: &Case, answer: &Assessment, falls: &[Fall]) -> Beyond {
    let more = 1.0 + case.allowance.tension_ratio;
    let sides = || answer.corners.iter();
    let least_m = sides().fold(f64::INFINITY, |m, side| m.min(side.footroom_m));
    let most_n = more * sides().fold(0.0_f64, |n, side| n.max(side.tension_max_n));
    let count = |worse: &dyn Fn(&Fall) -> bool| {
        let known = falls.iter().filter(|fall| fall.unknown.is_none());
        known.filter(|fall| worse(fall)).count()
    };
    Beyond {
        sides_footroom_m: least_m,
        sides_tension_n: most_n,
        footroom: count(&|f| f.footroom_m < answer.footroom.value),
        tension: count(&|f| f.tension_max_n > answer.tension_max.value),
        sides_footroom: count(&|f| f.footroom_m < least_m),
        sides_tension: count(&|f| f.tension_max_n > most_n),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::assess;
    use crate::curve::Points;
    use crate::demo::demo;
    use crate::spread::Spread;

    /// Source: the first numbers of SplitMix64 from 1234567, as widely published with S. Vigna's
    /// reference code (from memory), and the first from 0.
    #[test]
    fn the_sequence_is_the_published_one() {
        let first = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        for (place, expected) in (0..).zip(first) {
            assert_eq!(mixed(1_234_567, place), expected, "{place}");
        }
        assert_eq!(mixed(0, 0), 0xe220_a839_7b1d_cdaf);
    }

    /// A curve is drawn as a whole: every force of it as many times, both ways, by the tolerance at most.
    #[test]
    fn a_curve_is_drawn_as_a_whole() {
        let mut case = demo();
        for worker in &mut case.workers {
            let absorber = worker.gear.absorber.as_mut().unwrap();
            absorber.curve_extension_m = Points::of(&[0.0, 0.2, 1.1]);
            absorber.curve_force_n = Points::of(&[5e3, 3e3, 4e3]);
        }
        let by = case.tolerances.absorber_force_ratio;
        let draws = Draws::new(&case, 5).unwrap();
        let (mut weaker, mut stronger) = (0, 0);
        for draw in 0..40 {
            let drawn = draws.case(draw);
            for worker in &drawn.case().workers {
                let forces_n = worker.gear.absorber.unwrap().curve_force_n;
                let [a, b, c] = forces_n.as_slice() else {
                    panic!("{forces_n:?}");
                };
                let factor = a / 5e3;
                assert!((factor - 1.0).abs() <= by + 1e-12);
                assert!((b / 3e3 - factor).abs() < 1e-12 && (c / 4e3 - factor).abs() < 1e-12);
                weaker += usize::from(factor < 0.95);
                stronger += usize::from(factor > 1.05);
            }
        }
        assert!(weaker > 10 && stronger > 10, "{weaker} {stronger}");
    }

    /// A number stays with its input whatever else is drawn, and so it does when a part is taken away.
    #[test]
    fn an_input_keeps_its_numbers_when_others_go() {
        let all = Draws::new(&demo(), 3).unwrap();
        let mut fewer = demo();
        fewer.tolerances.mass_ratio = 0.0;
        fewer.workers.truncate(2);
        let fewer = Draws::new(&fewer, 3).unwrap();
        assert!(fewer.drawn().len() < all.drawn().len());
        for (place, it) in fewer.drawn().iter().enumerate() {
            let there = all.drawn().iter().position(|d| d == it).unwrap();
            for draw in 0..20 {
                assert_eq!(fewer.value(place, draw), all.value(there, draw), "{it:?}");
            }
        }
    }

    #[test]
    fn each_value_lies_within_its_tolerance_and_stands_in_the_case() {
        let mut dice = Spread::new(31);
        for seed in 0..40 {
            let mut case = dice.case();
            if seed % 2 == 0 {
                case.line.left_end_stiffness_n_per_m = None;
            }
            let draws = Draws::new(&case, seed).unwrap();
            let ready = case.ready().unwrap();
            let given = ready.case();
            for draw in 0..25 {
                let drawn = draws.case(draw);
                let drawn = drawn.case();
                let by = case.tolerances;
                let within = |value: f64, given: f64, ratio: f64| {
                    (value / given - 1.0).abs() <= ratio + 1.0e-12
                };
                for (w, g) in drawn.workers.iter().zip(&given.workers) {
                    assert!(within(w.mass_kg, g.mass_kg, by.mass_ratio));
                    if let (Some(a), Some(g)) = (w.gear.absorber, g.gear.absorber) {
                        assert!(a.average_force_n <= g.maximum_n());
                        let (n, ratio) = (g.average_force_n, by.absorber_force_ratio);
                        assert!(within(a.average_force_n, n, ratio));
                    }
                }
                let (line, was) = (&drawn.line, &given.line);
                assert!(within(
                    line.pretension_n,
                    was.pretension_n,
                    by.pretension_ratio
                ));
                let (ea, was_ea) = (line.rope.axial_stiffness_n, was.rope.axial_stiffness_n);
                assert!(within(ea, was_ea, by.axial_stiffness_ratio));
                // Whatever the mechanics may ask of a case holds for a draw too, but for ranges.
                assert_eq!(
                    line.left_end_stiffness_n_per_m.is_some(),
                    was.left_end_stiffness_n_per_m.is_some()
                );
                if let Some(inline) = line.inline_absorber {
                    assert!(line.pretension_n <= inline.yield_force_n);
                }
            }
        }
    }

    #[test]
    fn draws_are_the_same_in_any_pieces_and_differ_by_seed() {
        let case = demo();
        let draws = Draws::new(&case, 12).unwrap();
        let whole = draws.falls(0..9);
        let pieces: Vec<Fall> = [0..2, 2..3, 3..9]
            .into_iter()
            .flat_map(|piece| draws.falls(piece))
            .collect();
        assert_eq!(whole, pieces);
        assert_eq!(whole, Draws::new(&case, 12).unwrap().falls(0..9));
        assert_ne!(whole, Draws::new(&case, 13).unwrap().falls(0..9));
        assert!(draws.falls(4..4).is_empty());
    }

    /// Two who stand alike are drawn each by himself, and so are the two ends.
    #[test]
    fn each_worker_and_each_end_is_drawn_by_itself() {
        let draws = Draws::new(&demo(), 1).unwrap();
        let drawn = draws.drawn();
        let ends = drawn
            .iter()
            .filter(|d| matches!(d.input, Input::LeftEnd | Input::RightEnd));
        assert_eq!(ends.count(), 2);
        assert_eq!(drawn.len(), 2 * demo().workers.len() + 4);
        for (i, a) in drawn.iter().enumerate() {
            for (j, b) in drawn.iter().enumerate().skip(i + 1) {
                let of = |place| (0..100).map(|d| draws.value(place, d)).collect::<Vec<_>>();
                assert_ne!(a.input, b.input);
                // 5 deviations of what chance gives, 1/√99.
                assert!(rank_correlation(&of(i), &of(j)).abs() < 0.5, "{a:?} {b:?}");
            }
        }
    }

    #[test]
    fn who_does_not_fall_and_what_has_no_tolerance_is_not_drawn() {
        let mut case = demo();
        case.workers[0].fall_time_s = None;
        case.tolerances.pretension_ratio = 0.0;
        let draws = Draws::new(&case, 1).unwrap();
        let gone = |d: &Drawn| {
            matches!(
                d.input,
                Input::Mass { worker: 0 } | Input::AbsorberForce { worker: 0 } | Input::Pretension
            )
        };
        assert!(!draws.drawn().iter().any(gone));
        case.tolerances = crate::case::Tolerances {
            mass_ratio: 0.0,
            absorber_force_ratio: 0.0,
            pretension_ratio: 0.0,
            axial_stiffness_ratio: 0.0,
            end_stiffness_ratio: 0.0,
            inline_force_ratio: 0.0,
        };
        let draws = Draws::new(&case, 1).unwrap();
        assert!(draws.drawn().is_empty());
        let falls = draws.falls(0..3);
        assert!(falls.iter().all(|f| *f == falls[0]));
        assert!(draws.value(0, 0).is_nan());
        assert!(draws.told(&falls).on_footroom.is_empty());
    }

    /// Draws without a number count for nothing, and are counted.
    #[test]
    fn draws_without_a_footroom_are_counted_and_left_out() {
        let case = demo();
        let draws = Draws::new(&case, 5).unwrap();
        let mut falls = draws.falls(0..6);
        let told = draws.told(&falls);
        assert_eq!((told.draws, told.unknown), (6, 0));
        falls[2] = Fall {
            footroom_m: -99.0,
            tension_max_n: 1.0e9,
            unknown: Some(Unknown::TooSteep),
        };
        let told = draws.told(&falls);
        assert_eq!((told.draws, told.unknown), (6, 1));
        assert!(told.footroom_m.unwrap().least > -99.0);
        assert!(told.tension_n.unwrap().greatest < 1.0e9);
        let answer = assess(&case, Options::default()).unwrap();
        let beyond = beyond(&case, &answer, &falls);
        assert_eq!((beyond.footroom, beyond.tension), (0, 0));
        for fall in &mut falls {
            fall.unknown = Some(Unknown::LineBreaks);
        }
        let told = draws.told(&falls);
        assert_eq!(
            (told.unknown, told.footroom_m, told.tension_n),
            (6, None, None)
        );
        assert_eq!(draws.told(&[]).draws, 0);
    }

    #[test]
    fn beyond_counts_what_is_worse_than_answer_and_sides() {
        let case = demo();
        let answer = assess(&case, Options::default()).unwrap();
        let none = beyond(&case, &answer, &[]);
        let at = |footroom_m, tension_max_n| Fall {
            footroom_m,
            tension_max_n,
            unknown: None,
        };
        let (m, n) = (answer.footroom.value, answer.tension_max.value);
        // A crew's answer lies beyond its tolerances alone.
        assert!(m < none.sides_footroom_m && n >= none.sides_tension_n);
        let falls = [
            at(m, n),
            at(m - 0.001, n),
            at(m, n + 1.0),
            at(none.sides_footroom_m, none.sides_tension_n),
        ];
        let found = beyond(&case, &answer, &falls);
        assert_eq!((found.footroom, found.tension), (1, 1));
        assert_eq!(found.sides_footroom, 3);
        assert!(found.sides_tension >= 1);
    }

    /// The forces of a peak go with the average, and where they did not the draws were all alike.
    #[test]
    fn a_peak_is_drawn_as_a_whole() {
        let mut case = demo();
        let absorber = case.workers[0].gear.absorber.as_mut().unwrap();
        let peak = crate::curve::Peak {
            force_n: 1.4 * absorber.average_force_n,
            ..crate::curve::Peak::default()
        };
        absorber.peak = Some(peak);
        let draws = Draws::new(&case, 1).unwrap();
        for draw in 0..5 {
            let drawn = draws.case(draw);
            let it = drawn.case().workers[0].gear.absorber.unwrap();
            let factor =
                it.average_force_n / case.workers[0].gear.absorber.unwrap().average_force_n;
            assert!((factor - 1.0).abs() > 1.0e-6);
            assert!((it.peak.unwrap().force_n / peak.force_n - factor).abs() < 1.0e-12);
        }
    }

    #[test]
    fn places_of_a_distribution_are_nearest_ranks() {
        let values: Vec<f64> = (1..=100).rev().map(f64::from).collect();
        let it = Distribution::of(&values).unwrap();
        let found = [it.least, it.low, it.middle, it.high, it.greatest];
        assert_eq!(found, [1.0, 5.0, 50.0, 95.0, 100.0]);
        let one = Distribution::of(&[7.0]).unwrap();
        assert_eq!([one.least, one.low, one.middle, one.high], [7.0; 4]);
        assert_eq!(Distribution::of(&[]), None);
    }

    #[test]
    fn equal_values_share_the_average_of_their_ranks() {
        assert_eq!(ranks(&[3.0, 1.0, 3.0, 2.0, 3.0]), [4.0, 1.0, 4.0, 2.0, 4.0]);
        assert_eq!(ranks(&[]), Vec::<f64>::new());
        assert_eq!(rank_correlation(&[2.0; 4], &[1.0, 2.0, 3.0, 4.0]), 0.0);
        assert_eq!(rank_correlation(&[1.0], &[2.0]), 0.0);
        assert_eq!(rank_correlation(&[1.0, 2.0, 9.0], &[2.0, 1.0]), -1.0);
    }

    /// A crew of six on a line with everything that may be drawn.
    fn everything() -> Case {
        let mut case = demo();
        case.workers = alloc::vec![case.workers[0]; 6];
        case.posts = Default::default();
        case.line.left_end_stiffness_n_per_m = Some(1.0e6);
        case.line.right_end_stiffness_n_per_m = Some(1.0e6);
        case.line.inline_absorber = Some(crate::case::InlineAbsorber {
            yield_force_n: 4_500.0,
            ..Default::default()
        });
        case.line.pretension_n = 4_400.0;
        case.tolerances.inline_force_ratio = 0.05;
        case.tolerances.pretension_ratio = 0.1;
        case
    }

    /// Each input is drawn by numbers of its own and stands in the case of the draw; the line is never
    /// tighter than its in-line absorber bears.
    #[test]
    fn every_input_is_drawn_by_numbers_of_its_own() {
        let case = everything();
        let draws = Draws::new(&case, 9).unwrap();
        let drawn = draws.drawn();
        assert_eq!(drawn.len(), 5 + 2 * 6);
        for (i, it) in drawn.iter().enumerate() {
            let slot = it.input.slot();
            assert!(slot < SLOTS);
            assert!(
                drawn[..i].iter().all(|other| other.input.slot() != slot),
                "{it:?}"
            );
        }
        let place = |input| drawn.iter().position(|d| d.input == input).unwrap();
        let (pretension, inline) = (place(Input::Pretension), place(Input::InlineForce));
        let mut held = 0;
        for draw in 0..60 {
            let drawn = draws.case(draw);
            let line = &drawn.case().line;
            let yield_n = line.inline_absorber.unwrap().yield_force_n;
            assert_eq!(yield_n, draws.value(inline, draw));
            assert!((4_275.0..=4_725.0).contains(&yield_n));
            let wanted_n = draws.value(pretension, draw);
            assert_eq!(line.pretension_n, wanted_n.min(yield_n));
            held += usize::from(wanted_n > yield_n);
        }
        assert!((10..50).contains(&held), "{held}");
    }

    /// Nearest rank, on numbers whose ranks are themselves.
    #[test]
    fn so_many_of_a_hundred_are_at_most_the_number_told() {
        for count in [1_u32, 7, 20, 99, 100, 101, 200, 1_000] {
            let values: Vec<f64> = (1..=count).rev().map(f64::from).collect();
            let told = Distribution::of(&values).unwrap();
            let least = |part: f64| {
                let at_most = |n: &u32| f64::from(*n) >= part * f64::from(count) - 1e-9;
                f64::from((1..=count).find(at_most).unwrap())
            };
            assert_eq!((told.least, told.greatest), (1.0, f64::from(count)));
            assert_eq!(
                [told.low, told.middle, told.high],
                [0.05, 0.5, 0.95].map(least),
                "{count}"
            );
        }
        assert_eq!(Distribution::of(&[]), None);
    }
}
