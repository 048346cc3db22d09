//! A fixed corpus of cases that must have bit-identical answers on every target: native, debug and
//! release, and every browser. Included by `tests/determinism.rs` and by `web/tests/api.rs`.

use footroom_core::case::{
    Absorber, Below, Case, EndPost, Gear, GearKind, InlineAbsorber, Line, Posts, Worker,
};
use footroom_core::rope::CATALOGUE;
use footroom_core::solve::{Options, solve};

/// Number of cases.
pub const CASES: u64 = 512;

/// A stream of numbers, the same everywhere: SplitMix64 (Steele, Lea, Flood, Fast splittable
/// pseudorandom number generators, OOPSLA 2014).
struct Stream(u64);

impl Stream {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Uniform in `from..to`; 2⁻²⁰ steps, so that every value is exact.
    fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * (self.next() >> 44) as f64 / 1_048_576.0
    }

    fn below(&mut self, n: u64) -> usize {
        (self.next() % n) as usize
    }
}

/// The case with this number, 0 to [`CASES`]: every kind of line, gear and timing in use.
pub fn case(number: u64) -> Case {
    let mut s = Stream(number.wrapping_mul(0x5851_f42d_4c95_7f2d));
    let spans = 1 + s.below(3);
    let mut line = Line {
        spans_m: (0..spans).map(|_| s.between(4.0, 20.0)).collect(),
        pretension_n: s.between(1_500.0, 8_000.0),
        rope: CATALOGUE[s.below(CATALOGUE.len() as u64)].rope,
        ..Line::default()
    };
    if s.below(4) == 0 {
        line.inline_absorber = Some(InlineAbsorber {
            yield_force_n: s.between(8_500.0, 20_000.0),
            max_extension_m: s.between(0.3, 1.5),
            ..InlineAbsorber::default()
        });
    }
    if s.below(3) == 0 {
        line.left_end_stiffness_n_per_m = Some(s.between(1.0e5, 3.0e6));
    }
    let post = (s.below(3) == 0).then(EndPost::default);
    let length = line.length_m();
    let workers = (0..1 + s.below(4))
        .map(|_| Worker {
            position_m: s.between(0.0, length),
            mass_kg: s.between(60.0, 140.0),
            fall_time_s: Some(if s.below(2) == 0 {
                0.0
            } else {
                s.between(0.0, 0.6)
            }),
            gear: Gear {
                kind: if s.below(4) == 0 {
                    GearKind::SelfRetracting
                } else {
                    GearKind::Lanyard
                },
                length_m: s.between(0.9, 2.0),
                absorber: (s.below(8) != 0).then(|| Absorber {
                    average_force_n: s.between(2_500.0, 5_500.0),
                    max_extension_m: s.between(0.6, 1.75),
                    ..Absorber::default()
                }),
                ..Gear::default()
            },
            ..Worker::default()
        })
        .collect();
    let mut case = Case {
        line,
        workers,
        posts: Posts {
            left: None,
            right: post,
        },
        ..Case::default()
    };
    case.site.below.push(Below {
        from_m: 0.0,
        to_m: s.between(0.0, length),
        height_m: s.between(0.0, 3.0),
        ..Below::default()
    });
    case.motion.duration_s = s.between(1.0, 1.8);
    case
}

/// Fingerprint of the answer to the case with this number.
///
/// # Panics
/// When the corpus holds a faulty case.
pub fn fingerprint(number: u64) -> u64 {
    match solve(&case(number), Options::default()) {
        Ok(outcome) => outcome.fingerprint,
        Err(faults) => panic!("case {number} of the corpus is faulty: {faults:?}"),
    }
}

/// The fingerprints on record, one hexadecimal number a line.
pub fn recorded(text: &str) -> Vec<u64> {
    text.lines()
        .map(|line| u64::from_str_radix(line.trim(), 16).expect("a hexadecimal number"))
        .collect()
}
