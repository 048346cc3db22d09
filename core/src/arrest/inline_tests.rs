//! Runs in which an in-line absorber opens.

use alloc::vec;
use alloc::vec::Vec;

use super::{Run, Wanted, runs};
use crate::balance::balance;
use crate::case::{Absorber, Case, Gear, InlineAbsorber, Line, Motion, Worker};
use crate::constants::{RESIDUAL_MAX, SLOPE_MAX};
use crate::line::AtRest;
use crate::solve::{Options, solve};
use crate::spread::Spread;

/// A case as met on a job with an in-line absorber.
fn with_inline(by: &mut Spread) -> Case {
    loop {
        let mut case = by.case();
        case.motion.duration_s = 3.0;
        case.line.inline_absorber = Some(InlineAbsorber {
            yield_force_n: by.between(9.0e3, 18.0e3),
            max_extension_m: by.between(0.05, 1.5),
            ..InlineAbsorber::default()
        });
        for worker in &mut case.workers {
            if worker.fall_time_s.is_some() && by.odds(0.5) {
                worker.fall_time_s = Some(by.between(0.0, 1.0));
            }
        }
        if let Ok(ready) = case.ready() {
            return ready.case().clone();
        }
    }
}

fn ran(case: &Case) -> Run {
    ran_at(case, 1)
}

fn ran_at(case: &Case, refine: usize) -> Run {
    let strike_drop_m: Vec<f64> = vec![f64::INFINITY; case.workers.len()];
    let wanted = Wanted {
        tension_expected_n: balance(case, &AtRest::of(&case.line)).tension_horizontal_n,
        used_up: false,
        refine,
        traces: false,
        strike_drop_m: &strike_drop_m,
    };
    runs([(case, wanted)].into_iter()).remove(0)
}

/// Each is followed to its end with its ledger closed, or refused because the line grew far too
/// steep for vertical motion; none takes more than a few runs.
#[test]
fn is_followed_or_refused_for_steepness() {
    let mut by = Spread::new(71);
    let (mut opened, mut used_up, mut refused) = (0, 0, 0);
    for i in 0..160 {
        let case = with_inline(&mut by);
        let run = ran(&case);
        assert!(run.steps_tried < 60_000, "case {i}: {}", run.steps_tried);
        let fell = case.workers.iter().zip(&run.falls);
        let turned = fell
            .filter(|(w, _)| w.fall_time_s.is_some())
            .all(|(_, fall)| fall.turned);
        if !turned {
            assert!(run.slope_max > 3.0 * SLOPE_MAX, "case {i}: unresolved");
            refused += 1;
            continue;
        }
        let residual = run.history.energy.residual_ratio;
        assert!(residual <= RESIDUAL_MAX, "case {i}: {residual:e}");
        opened += usize::from(run.history.inline_extension_m > 0.0);
        let most_m = case.line.inline_absorber.map(|a| a.max_extension_m);
        used_up += usize::from(Some(run.history.inline_extension_m) == most_m);
    }
    assert!(
        opened > 80 && used_up > 10 && refused < 10,
        "{opened} {used_up} {refused}"
    );
}

/// Opened so far that the last piece of rope, without the extension, would be shorter than the
/// height between its ends.
#[test]
fn an_extension_longer_than_the_last_piece_of_rope() {
    let worker = |position_m, mass_kg, average_force_n| Worker {
        position_m,
        mass_kg,
        gear: Gear {
            absorber: Some(Absorber {
                average_force_n,
                ..Absorber::default()
            }),
            ..Gear::default()
        },
        ..Worker::default()
    };
    let case = Case {
        line: Line {
            spans_m: vec![7.504],
            pretension_n: 6482.56,
            left_end_stiffness_n_per_m: Some(1.457e6),
            right_end_stiffness_n_per_m: Some(1.457e6),
            inline_absorber: Some(InlineAbsorber {
                yield_force_n: 12_836.7,
                max_extension_m: 0.626,
                ..InlineAbsorber::default()
            }),
            ..Line::default()
        },
        workers: vec![
            worker(2.232, 127.9, 4646.0),
            worker(3.732, 121.5, 3810.0),
            worker(5.232, 101.7, 3490.0),
        ],
        ..Case::default()
    };
    let [coarse, fine] = [1, 2].map(|refine| {
        let options = Options {
            refine,
            ..Options::default()
        };
        solve(&case, options).unwrap()
    });
    assert!(coarse.history.inline_extension_m > 0.5);
    assert!(coarse.history.energy.residual_ratio < 0.3 * RESIDUAL_MAX);
    let near = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 5.0e-3, "{a} {b}");
    near(
        coarse.history.inline_extension_m,
        fine.history.inline_extension_m,
    );
    near(coarse.history.tension_max_n, fine.history.tension_max_n);
    for (a, b) in coarse.workers.iter().zip(&fine.workers) {
        near(a.stack.required_m, b.stack.required_m);
        near(a.drop_max_m, b.drop_max_m);
    }
}

/// The work taken is the yield force times what was given, and closes the ledger, where nobody
/// falls in the absorber's span and the ends give.
#[test]
fn opens_at_the_end_of_a_span_without_a_fall() {
    let case = Case {
        line: Line {
            spans_m: vec![11.6, 10.7],
            pretension_n: 7_000.0,
            left_end_stiffness_n_per_m: Some(1.9e6),
            right_end_stiffness_n_per_m: Some(1.9e6),
            inline_absorber: Some(InlineAbsorber {
                yield_force_n: 17_500.0,
                max_extension_m: 1.2,
                ..InlineAbsorber::default()
            }),
            ..Line::default()
        },
        workers: vec![Worker {
            position_m: 5.7,
            gear: Gear {
                absorber: None,
                ..Gear::default()
            },
            ..Worker::default()
        }],
        motion: Motion {
            duration_s: 3.0,
            ..Motion::default()
        },
        ..Case::default()
    };
    let run = ran(&case);
    let (history, energy) = (&run.history, &run.history.energy);
    assert!(history.inline_extension_m > 0.02);
    let work_j = 17_500.0 * history.inline_extension_m;
    assert!((energy.inline_absorber_j / work_j - 1.0).abs() < 1e-9);
    assert!(energy.residual_ratio < RESIDUAL_MAX, "{energy:?}");
    // What is left open comes of the length of a step: with a fifth of it less than half of that is.
    let fine = ran_at(&case, 4).history;
    assert!(fine.step_s < 0.2 * history.step_s);
    let open = fine.energy.residual_ratio;
    assert!(open < 0.5 * energy.residual_ratio, "{:?}", fine.energy);
}
