//! Differences that no site controls: when each of a crew goes over, and what each weighs.
//!
//! The later bounces of a crew hang on the order in which one hands energy to another, and that on
//! hundredths of a second and single kilograms. Two people exactly alike on one span of 12 m, at 4.5
//! and 7.5 m, are the plainest case: 45.71 m of footroom; 45.63 m where one is 1 kg heavier; 45.58 m
//! where one goes over 20 ms later. So the numbers of a crew are the worst over such differences.
//!
//! Who falls alone has nobody to hand energy to: nothing is made again for one.
//!
//! # Which differences
//! The three runs that can govern, undamped, soft and stiff, are made again:
//! - with each worker in turn [`LATE_S`] later and [`HEAVIER_KG`] heavier ([`Nearby::One`]);
//! - with all of them at once ([`Nearby::All`]), each [`HEAVIER_KG`] heavier and later by what his
//!   own delay did to that run: the one whose delay left least room by [`LATEST_S`], the one whose
//!   delay left most not at all, the others in between;
//! - where these runs lie farther apart than [`SCATTERED_M`], and so far that a farther one might
//!   govern, which tells of a crew whose bounces are chaotic, with all but one in turn later and heavier ([`Nearby::Others`]).
//!
//! What a draw of such differences may still take away is [`BEYOND_M`].
//!
//! # Known limits
//! Not a bound: a crew of six has a dozen differences, and some bounces are chaotic.
//! `tests/crew.rs` measures what is left. What webbing, harnesses and bodies take out of a rebound is
//! not in the model.

use alloc::vec::Vec;

use crate::case::Case;
use crate::corner::{Corner, Sides, moved};
use crate::ready::Ready;
use crate::solve::{Options, Outcome, solve_all};

/// By how much later than in the case one worker goes over, s: a choice, see `tests/crew.rs`.
pub const LATE_S: f64 = 0.020;

/// By how much later the latest goes over where all differ, s: a choice, see `tests/crew.rs`.
pub const LATEST_S: f64 = 0.030;

/// By how much heavier than in the case a worker is, kg: about 1 % of a person with tools.
pub const HEAVIER_KG: f64 = 1.0;

/// Footroom that is left out of a crew's answer for what these runs do not show, m.
pub const BEYOND_M: f64 = 0.020;

/// Footrooms of a run and of those with differences that lie so far apart ask for more of them, m: a
/// choice, see `tests/crew.rs`.
pub const SCATTERED_M: f64 = 0.100;

/// How a run differs from the case in what no site controls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "differs"))]
pub enum Nearby {
    /// One worker goes over [`LATE_S`] later and is [`HEAVIER_KG`] heavier.
    One {
        /// The worker, counted from 0.
        worker: usize,
    },
    /// All differ at once.
    All,
    /// All but one worker go over [`LATE_S`] later and are [`HEAVIER_KG`] heavier.
    Others {
        /// The worker who does not, counted from 0.
        worker: usize,
    },
}

/// A run that is made again with differences.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Around {
    Undamped,
    Soft,
    Stiff,
}

impl Around {
    const EACH: [Self; 3] = [Self::Undamped, Self::Soft, Self::Stiff];

    pub(crate) fn corner(self) -> Corner {
        match self {
            Self::Undamped => Corner::Nominal,
            Self::Soft => Corner::Soft,
            Self::Stiff => Corner::Stiff,
        }
    }

    /// Its place among [`crate::assess::Runs::together`].
    pub(crate) fn place(self) -> usize {
        match self {
            Self::Undamped => 1,
            Self::Soft => 2,
            Self::Stiff => 3,
        }
    }

    fn of(self, ready: &Ready) -> Ready {
        match self {
            Self::Undamped => ready.undamped(),
            Self::Soft => moved(ready, Sides::SOFT),
            Self::Stiff => moved(ready, Sides::STIFF),
        }
    }
}

/// One of the runs.
#[derive(Clone, Debug)]
pub(crate) struct Near {
    pub(crate) around: Around,
    pub(crate) nearby: Nearby,
    pub(crate) outcome: Outcome,
}

/// The nearby runs of a case, those made so far.
#[derive(Clone, Debug)]
pub(crate) struct Neighbors {
    /// Those who fall; empty unless there are at least two.
    crew: Vec<usize>,
    made: Vec<Near>,
    /// The runs lie far apart; known once each of the crew and all have differed.
    scattered: bool,
}

impl Neighbors {
    /// None made yet.
    pub(crate) fn of(case: &Case) -> Self {
        let falls = |i: &usize| case.workers[*i].fall_time_s.is_some();
        let mut crew: Vec<usize> = (0..case.workers.len()).filter(falls).collect();
        if crew.len() < 2 {
            crew.clear();
        }
        Self {
            crew,
            made: Vec::new(),
            scattered: false,
        }
    }

    pub(crate) fn made(&self) -> &[Near] {
        &self.made
    }

    pub(crate) fn outcomes_mut(&mut self) -> impl Iterator<Item = &mut Outcome> {
        self.made.iter_mut().map(|near| &mut near.outcome)
    }

    /// Whether there is none left to be made.
    pub(crate) fn are_made(&self) -> bool {
        self.next(self.made.len()).is_none()
    }

    /// See [`BEYOND_M`]; 0 where the case has no nearby runs, or before all are made.
    pub(crate) fn beyond_m(&self) -> f64 {
        if self.crew.is_empty() || !self.are_made() {
            0.0
        } else {
            BEYOND_M
        }
    }

    /// Makes the next two, side by side; false: there was none left. `base_m`: footroom of the run
    /// without differences, m.
    pub(crate) fn step(
        &mut self,
        ready: &Ready,
        base_m: impl Fn(Around) -> f64,
        options: Options,
    ) -> bool {
        let Some(first) = self.next(self.made.len()) else {
            return false;
        };
        // How all differ is known only when each has been late.
        let second = (self.next(self.made.len() + 1)).filter(|s| kind(s.1) == kind(first.1));
        let case = |(around, nearby): (Around, Nearby)| {
            self.differing(&around.of(ready), around, nearby, base_m(around))
        };
        let pair: Vec<(Around, Nearby)> = [first].into_iter().chain(second).collect();
        let cases: Vec<Ready> = pair.iter().map(|&run| case(run)).collect();
        let cases: Vec<(&Ready, Options)> = cases.iter().map(|c| (c, options)).collect();
        for ((around, nearby), outcome) in pair.into_iter().zip(solve_all(&cases)) {
            self.made.push(Near {
                around,
                nearby,
                outcome,
            });
        }
        // Of two, all but one is one.
        if self.crew.len() > 2 && self.made.len() == (self.crew.len() + 1) * Around::EACH.len() {
            let ends = Around::EACH.map(|around| self.ends_m(around, base_m(around)));
            let worst_m = ends.iter().fold(f64::INFINITY, |m, ends| m.min(ends.0));
            self.scattered = ends.iter().any(|&(least_m, most_m)| {
                let apart_m = most_m - least_m;
                apart_m > SCATTERED_M && least_m - apart_m < worst_m
            });
        }
        true
    }

    /// Least and greatest footroom of a run and of those with differences, m.
    fn ends_m(&self, around: Around, base_m: f64) -> (f64, f64) {
        let made = self.made.iter().filter(|n| n.around == around);
        made.fold((base_m, base_m), |(least, most), n| {
            let m = n.outcome.footroom_m;
            (least.min(m), most.max(m))
        })
    }

    /// The run of a place in the order in which they are made.
    fn next(&self, place: usize) -> Option<(Around, Nearby)> {
        let turns = Around::EACH.len();
        let around = Around::EACH[place % turns];
        let crew = self.crew.len();
        match place / turns {
            turn if turn < crew => Some(Nearby::One {
                worker: self.crew[turn],
            }),
            turn if turn == crew && crew > 0 => Some(Nearby::All),
            turn if self.scattered && turn <= 2 * crew => Some(Nearby::Others {
                worker: self.crew[turn - crew - 1],
            }),
            _ => None,
        }
        .map(|nearby| (around, nearby))
    }

    fn differing(&self, ready: &Ready, around: Around, nearby: Nearby, base_m: f64) -> Ready {
        match nearby {
            Nearby::One { worker } => ready.with(|case| differ(case, worker, LATE_S)),
            Nearby::Others { worker } => ready.with(|case| {
                for &other in self.crew.iter().filter(|w| **w != worker) {
                    differ(case, other, LATE_S);
                }
            }),
            Nearby::All => {
                let taken_m: Vec<f64> = self
                    .made
                    .iter()
                    .filter(|n| n.around == around)
                    .map(|n| base_m - n.outcome.footroom_m)
                    .collect();
                let least = taken_m.iter().copied().fold(f64::INFINITY, f64::min);
                let most = taken_m.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                ready.with(|case| {
                    for (&worker, taken) in self.crew.iter().zip(&taken_m) {
                        let part = if most > least {
                            (taken - least) / (most - least)
                        } else {
                            0.0
                        };
                        differ(case, worker, LATEST_S * part);
                    }
                })
            }
        }
    }
}

fn kind(nearby: Nearby) -> core::mem::Discriminant<Nearby> {
    core::mem::discriminant(&nearby)
}

fn differ(case: &mut Case, worker: usize, late_s: f64) {
    let worker = &mut case.workers[worker];
    worker.fall_time_s = worker.fall_time_s.map(|s| s + late_s);
    worker.mass_kg += HEAVIER_KG;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::demo;
    use crate::spread::Spread;

    /// A crew whose nearby runs, up to the last but one of those that are always made, have these
    /// footrooms; the last is solved.
    fn last_step(case: &Case, footroom_m: &mut dyn FnMut() -> f64, base_m: [f64; 3]) -> Neighbors {
        let ready = case.ready().unwrap();
        let outcome = ready.solve(Options::default());
        let mut near = Neighbors::of(case);
        while let Some((around, nearby)) = near.next(near.made.len()) {
            if near.next(near.made.len() + 1).is_none() {
                break;
            }
            let mut outcome = outcome.clone();
            outcome.footroom_m = footroom_m();
            near.made.push(Near {
                around,
                nearby,
                outcome,
            });
        }
        let base = |around: Around| base_m[around.place() - 1];
        assert!(near.step(&ready, base, Options::default()));
        near
    }

    /// Crews of three and more whose runs lie farther apart than 0.1 m, where one still farther might
    /// govern, are looked at more closely; of two, all but one is one.
    #[test]
    fn a_crew_is_looked_at_more_closely_where_its_runs_lie_far_apart() {
        let mut by = Spread::new(31);
        let mut closely = [0, 0];
        for round in 0..40 {
            let mut case = demo();
            case.motion.duration_s = 0.5;
            if round % 4 == 3 {
                case.workers.truncate(2);
            }
            // Hardly anything moves: the run that is solved is where the others are.
            (case.workers.iter_mut()).for_each(|w| w.fall_time_s = Some(0.45));
            let solved = last_step(&case, &mut || 0.0, [0.0; 3]);
            let at_m = solved.made[solved.made.len() - 1].outcome.footroom_m;
            let crew = case.workers.len();
            // Three levels at random, and how far the runs of each lie apart.
            let base_m: [f64; 3] = core::array::from_fn(|_| at_m + by.between(-0.1, 0.1));
            let apart_m: [f64; 3] = core::array::from_fn(|_| by.between(0.0, 0.15));
            let mut turn = 0;
            let mut footroom_m = || {
                turn += 1;
                let at = (turn - 1) % 3;
                base_m[at] + by.between(-0.5, 0.5) * apart_m[at]
            };
            let near = last_step(&case, &mut footroom_m, base_m);
            assert_eq!(near.made.len(), 3 * (crew + 1));
            let ends = Around::EACH.map(|around| {
                let of = near.made.iter().filter(|n| n.around == around);
                let all = of
                    .map(|n| n.outcome.footroom_m)
                    .chain([base_m[around.place() - 1]]);
                let all: Vec<f64> = all.collect();
                let least = all.iter().copied().fold(f64::INFINITY, f64::min);
                (least, all.iter().copied().fold(f64::NEG_INFINITY, f64::max))
            });
            let worst_m = ends.iter().map(|e| e.0).fold(f64::INFINITY, f64::min);
            let governs = |&(least, most): &(f64, f64)| {
                most - least > 0.1 && least - (most - least) < worst_m
            };
            let more = crew > 2 && ends.iter().any(governs);
            assert_eq!(near.scattered, more, "{ends:?}");
            assert_eq!(near.are_made(), !more);
            assert_eq!(near.beyond_m() > 0.0, !more);
            closely[usize::from(more)] += 1;
        }
        assert!(closely[0] > 10 && closely[1] > 10, "{closely:?}");
    }
}
