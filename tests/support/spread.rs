//! Random draws and cases for core's unit tests, which include this file: the types of a crate that is
//! tested from inside are not those that `generate.rs` makes.
//!
//! Not drawn by proptest, whose strategies are for the checks from outside: here a draw is a premise in
//! the middle of a loop, nothing is shrunk, and its stream may not change with the version of a library.
//! (It would be 5 s more of processor time for the unit tests' first build, on 58.)

use alloc::vec;

use footroom_core::case::{
    Absorber, Below, Case, EndPost, Gear, GearKind, InlineAbsorber, Line, Motion, Posts, Site,
    Strengths, Worker,
};
use footroom_core::rope::CATALOGUE;

/// A sequence of pseudo-random numbers.
///
/// Source: G. Marsaglia, Xorshift RNGs, J. Stat. Softw. 8 (2003) 14, triple (13, 7, 17).
pub(crate) struct Spread(u64);

impl Spread {
    /// The sequence of this seed.
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    fn unit(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A number from `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// True that often, of 1.
    pub fn odds(&mut self, of: f64) -> bool {
        self.unit() < of
    }

    /// A place in a list of `count`.
    pub fn index(&mut self, count: usize) -> usize {
        ((self.unit() * count as f64) as usize).min(count - 1)
    }

    /// A case as met on a job, without faults: 1 to 4 spans, 1 to 4 workers, at times with things
    /// below, end posts, in-line absorber, rated strengths, self-retracting lifelines.
    pub fn case(&mut self) -> Case {
        loop {
            let case = self.any_case();
            if case.ready().is_ok() {
                return case;
            }
        }
    }

    fn any_case(&mut self) -> Case {
        let spans = 1 + self.index(4);
        let mut line = Line {
            spans_m: (0..spans).map(|_| self.between(4.0, 14.0)).collect(),
            height_above_beam_m: self.between(0.6, 2.2),
            pretension_n: self.between(1.5e3, 8.0e3),
            rope: CATALOGUE[self.index(CATALOGUE.len())].rope,
            inline_absorber: None,
            left_end_stiffness_n_per_m: None,
            right_end_stiffness_n_per_m: None,
        };
        if self.odds(0.3) {
            line.inline_absorber = Some(InlineAbsorber {
                yield_force_n: self.between(9.0e3, 16.0e3),
                max_extension_m: self.between(0.3, 1.5),
                ..InlineAbsorber::default()
            });
        }
        let length = line.length_m();
        let kit = Gear {
            kind: if self.odds(0.15) {
                GearKind::SelfRetracting
            } else {
                GearKind::Lanyard
            },
            length_m: self.between(1.2, 2.0),
            free_fall_m: self.odds(0.1).then(|| self.between(0.3, 2.0)),
            absorber: self.odds(0.95).then(|| Absorber {
                average_force_n: self.between(3.0e3, 5.5e3),
                max_extension_m: self.between(0.8, 1.5),
                ..Absorber::default()
            }),
            ..Gear::default()
        };
        let workers = (0..1 + self.index(4))
            .map(|i| Worker {
                position_m: self.between(0.0, length),
                mass_kg: self.between(65.0, 130.0),
                fall_time_s: (i == 0 || self.odds(0.8)).then_some(0.0),
                gear: kit,
                ..Worker::default()
            })
            .collect();
        let mut site = Site {
            beam_top_m: self.between(5.0, 9.0),
            ..Site::default()
        };
        if self.odds(0.5) {
            let from_m = self.between(0.0, length);
            site.below = vec![Below {
                from_m,
                to_m: from_m + self.between(1.0, 6.0),
                height_m: self.between(0.5, 3.0),
                ..Below::default()
            }];
        }
        let post = self.odds(0.5).then(EndPost::default);
        let mut strengths = Strengths::default();
        if self.odds(0.4) {
            strengths.end_anchorage_n = Some(self.between(2.0e4, 6.0e4));
        }
        if self.odds(0.2) {
            strengths.tieback_n = Some(self.between(3.0e4, 9.0e4));
        }
        if self.odds(0.2) {
            strengths.intermediate_post_n = Some(self.between(0.8e4, 3.0e4));
        }
        Case {
            line,
            workers,
            site,
            posts: Posts {
                left: post,
                right: post,
            },
            strengths,
            motion: Motion {
                duration_s: 1.4,
                ..Motion::default()
            },
            ..Case::default()
        }
    }
}
