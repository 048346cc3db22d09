//! Histories side by side against each alone.

use alloc::vec;
use alloc::vec::Vec;

use crate::case::{Case, InlineAbsorber, InlinePlace, Worker};
use crate::corner::{Sides, moved};
use crate::ready::Ready;
use crate::solve::{Options, solve_each};
use crate::spread::Spread;

/// The same bits in every number, two, three or four at once, of lines cut alike and of others, with
/// steps of different lengths, in-line absorbers that open, and traces.
#[test]
fn have_the_bits_that_they_have_alone() {
    let mut by = Spread::new(29);
    let (mut opened, mut steps_differ) = (0, 0);
    for i in 0..40 {
        let [a, b] = [by.case(), by.case()].map(|mut case| {
            case.motion.duration_s = 1.5;
            if i % 2 == 0 {
                case.line.inline_absorber = Some(InlineAbsorber {
                    yield_force_n: 10_000.0,
                    max_extension_m: by.between(0.05, 1.0),
                    ..InlineAbsorber::default()
                });
            }
            case
        });
        let (Ok(a), Ok(b)) = (a.ready(), b.ready()) else {
            continue;
        };
        let (soft, stiff) = (moved(&a, Sides::SOFT), moved(&a, Sides::STIFF));
        let traced = Options {
            traces: true,
            ..Options::default()
        };
        let plain = Options::default();
        let alone = |ready: &Ready| ready.solve(plain);
        let [a_alone, b_alone, soft_alone, stiff_alone] = [&a, &b, &soft, &stiff].map(alone);
        assert_eq!(
            solve_each([(&soft, plain), (&stiff, plain)]),
            [soft_alone.clone(), stiff_alone.clone()],
            "case {i}"
        );
        assert_eq!(
            solve_each([(&soft, plain), (&a, traced), (&stiff, plain)]),
            [soft_alone.clone(), a.solve(traced), stiff_alone.clone()],
            "case {i}"
        );
        opened += usize::from(a_alone.history.inline_extension_m > 0.0);
        steps_differ += usize::from(a_alone.history.steps != soft_alone.history.steps);
        assert_eq!(
            solve_each([(&a, plain), (&b, plain), (&soft, plain), (&stiff, plain)]),
            [a_alone, b_alone, soft_alone, stiff_alone],
            "case {i}"
        );
    }
    assert!(opened > 5 && steps_differ > 20, "{opened} {steps_differ}");
}

/// The same where one line's ends give, or have an absorber, and the other's do not: cut alike, but not
/// held alike.
#[test]
fn lines_held_otherwise_have_the_bits_that_they_have_alone() {
    let give = Some(8.0e5);
    let mut cases = Vec::new();
    for ends in [[None, None], [give, None], [None, give], [give, give]] {
        for place in [
            None,
            Some(InlinePlace::Left),
            Some(InlinePlace::Right),
            Some(InlinePlace::Both),
        ] {
            let mut case = Case {
                workers: vec![Worker::default()],
                ..Case::default()
            };
            case.motion.duration_s = 1.2;
            case.line.left_end_stiffness_n_per_m = ends[0];
            case.line.right_end_stiffness_n_per_m = ends[1];
            case.line.inline_absorber = place.map(|place| InlineAbsorber {
                place,
                ..InlineAbsorber::default()
            });
            cases.push(case.ready().expect("a sound case"));
        }
    }
    let plain = Options::default();
    let alone: Vec<_> = cases.iter().map(|case| case.solve(plain)).collect();
    for (i, a) in cases.iter().enumerate() {
        for (j, b) in cases.iter().enumerate().skip(i + 1) {
            let beside = solve_each([(a, plain), (b, plain)]);
            assert_eq!(beside, [alone[i].clone(), alone[j].clone()], "{i} {j}");
        }
    }
}
