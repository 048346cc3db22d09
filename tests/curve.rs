//! Absorbers told by a peak or a curve: both methods against closed forms and against other ways to
//! integrate, and what a curve must have in common with an average.
//!
//! How wide curves are: EN 355 and ANSI/ASSP Z359.13 bound maximum and average force, not the shape
//! between (from memory). The curves here are invented.

use footroom_core::assess::assess;
use footroom_core::case::{Absorber, Case, Gear, Line, Motion, Site, Worker};
use footroom_core::constants::{GRAVITY_M_PER_S2, RESIDUAL_MAX};
use footroom_core::corner::{Sides, moved};
use footroom_core::curve::{POINTS_MAX, Peak, Points};
use footroom_core::demo::demo;
use footroom_core::fault::Fault;
use footroom_core::solve::{Doubt, Options, Outcome, solve};
use support::cable::{Fineness, STANDARD, fall};
use support::energy::residual_ratio;
use support::solved::{solved, traced};
use support::tolerance::{
    CABLE_LOWEST_ATOL_M, CURVE_STEP_ATOL_M, CURVE_STEP_RTOL, MULTISPAN_TENSION_HIGH_RTOL,
    MULTISPAN_TENSION_LOW_RTOL, RIGID_DROP_ATOL_M, RIGID_RTOL, ROUNDING_RTOL,
};

/// Extension, m, and force, N.
type Curve = &'static [(f64, f64)];

/// Rising from a low start; falling from a peak; with a step up; with a step down; with a hump that
/// falls more steeply than the webbing slackens; of as many points as there may be.
const CURVES: [Curve; 6] = [
    &[(0.0, 2.0e3), (0.1, 3.5e3), (0.6, 4.0e3), (1.7, 5.5e3)],
    &[(0.0, 6.0e3), (0.2, 4.0e3), (1.75, 3.5e3)],
    &[(0.0, 3.0e3), (0.4, 3.0e3), (0.4, 4.5e3), (1.75, 4.5e3)],
    &[(0.0, 5.0e3), (0.4, 5.0e3), (0.4, 3.5e3), (1.75, 3.5e3)],
    &[
        (0.0, 3.0e3),
        (0.2, 7.0e3),
        (0.21, 3.0e3),
        (0.4, 3.2e3),
        (1.75, 4.4e3),
    ],
    &[
        (0.0, 2.2e3),
        (0.05, 4.6e3),
        (0.1, 3.4e3),
        (0.2, 3.9e3),
        (0.3, 3.7e3),
        (0.45, 4.2e3),
        (0.6, 3.6e3),
        (0.8, 4.1e3),
        (1.0, 3.8e3),
        (1.2, 4.3e3),
        (1.5, 4.0e3),
        (1.75, 4.5e3),
    ],
];

fn curved(curve: &[(f64, f64)]) -> Absorber {
    let (extension_m, force_n): (Vec<f64>, Vec<f64>) = curve.iter().copied().unzip();
    Absorber {
        curve_extension_m: Points::of(&extension_m),
        curve_force_n: Points::of(&force_n),
        ..Absorber::default()
    }
}

fn peaked(average_force_n: f64, force_n: f64, over_m: f64) -> Absorber {
    Absorber {
        average_force_n,
        max_extension_m: 1.75,
        peak: Some(Peak { force_n, over_m }),
        ..Absorber::default()
    }
}

/// One worker at a support, which does not move.
fn at_a_support(mass_kg: f64, free_fall_m: f64, absorber: Absorber) -> Case {
    Case {
        workers: vec![Worker {
            position_m: 0.0,
            mass_kg,
            gear: Gear {
                absorber: Some(absorber),
                free_fall_m: Some(free_fall_m),
                ..Gear::default()
            },
            ..Worker::default()
        }],
        site: Site {
            beam_top_m: 50.0,
            ..Site::default()
        },
        motion: Motion {
            duration_s: 2.0,
            ..Motion::default()
        },
        ..Case::default()
    }
}

fn with(case: &Case, absorber: Absorber) -> Case {
    let mut case = case.clone();
    for worker in &mut case.workers {
        worker.gear.absorber = Some(absorber);
    }
    case
}

/// What the absorber bears at an extension, read off its points.
fn bears_n(curve: &[(f64, f64)], extension_m: f64) -> f64 {
    let to = curve.iter().position(|p| p.0 > extension_m);
    let to = to.unwrap_or(curve.len() - 1).max(1);
    let ((x, f), (x_to, f_to)) = (curve[to - 1], curve[to]);
    f + (extension_m - x).min(x_to - x) / (x_to - x) * (f_to - f)
}

/// A fall at a rigid anchorage by another method: midpoint steps of 2 µs, the absorber giving by hundredths
/// of a millimetre whenever the webbing pulls more than it bears.
struct Rigid {
    drop_max_m: f64,
    force_max_n: f64,
    extension_m: f64,
    absorbed_j: f64,
}

fn rigid(mass_kg: f64, free_fall_m: f64, curve: &[(f64, f64)]) -> Rigid {
    const STEP_S: f64 = 2.0e-6;
    const GIVES_M: f64 = 1.0e-5;
    let gear = Gear::default();
    let (k, lock) = (
        gear.stiffness_n_per_m,
        Absorber::default().locked_stiffness_n_per_m,
    );
    let most_m = curve.last().expect("points").0;
    let mut found = Rigid {
        drop_max_m: 0.0,
        force_max_n: 0.0,
        extension_m: 0.0,
        absorbed_j: 0.0,
    };
    let force_at = |stretch_m: f64, found: &mut Rigid| {
        while found.extension_m < most_m {
            let pull_n = k * (stretch_m - found.extension_m);
            if pull_n <= bears_n(curve, found.extension_m) {
                break;
            }
            let gives_m = GIVES_M.min(most_m - found.extension_m);
            // What the webbing loses, whether the absorber bears it or it tears.
            found.absorbed_j += (pull_n - 0.5 * k * gives_m) * gives_m;
            found.extension_m += gives_m;
        }
        let pull_n = (k * (stretch_m - found.extension_m)).max(0.0);
        let end_n = bears_n(curve, most_m);
        if found.extension_m >= most_m && pull_n > end_n {
            end_n + lock * (stretch_m - most_m - end_n / k)
        } else {
            pull_n
        }
    };
    let (mut stretch_m, mut speed) = (0.0, (2.0 * GRAVITY_M_PER_S2 * free_fall_m).sqrt());
    let mut force_n = 0.0;
    while speed > 0.0 {
        let middle_speed = speed + 0.5 * STEP_S * (GRAVITY_M_PER_S2 - force_n / mass_kg);
        stretch_m += STEP_S * middle_speed;
        force_n = force_at(stretch_m, &mut found);
        found.force_max_n = found.force_max_n.max(force_n);
        speed = middle_speed + 0.5 * STEP_S * (GRAVITY_M_PER_S2 - force_n / mass_kg);
    }
    found.drop_max_m = free_fall_m + stretch_m;
    found
}

/// The time history at a rigid anchorage against another integration with finer steps.
#[test]
fn the_history_is_that_of_another_integration() {
    for (which, curve) in CURVES.iter().enumerate() {
        for (mass_kg, free_fall_m) in [(80.0, 1.2), (100.0, 1.8), (141.0, 1.8)] {
            let outcome = solved(&at_a_support(mass_kg, free_fall_m, curved(curve)));
            let reference = rigid(mass_kg, free_fall_m, curve);
            let found = &outcome.workers[0];
            let what = format!("curve {which}, {mass_kg} kg from {free_fall_m} m");
            let off_m = found.drop_first_lowest_m - reference.drop_max_m;
            println!("{what}: {off_m:+.5} m of {:.3}", reference.drop_max_m);
            // Two of them fall at once.
            let allowed_m = if [3, 4].contains(&which) {
                CURVE_STEP_ATOL_M
            } else {
                RIGID_DROP_ATOL_M
            };
            assert!(off_m.abs() < allowed_m, "{what}: {off_m}");
            let near = |a: f64, b: f64, rtol: f64| (a / b - 1.0).abs() < rtol;
            let (ours, theirs) = (found.absorber_extension_m, reference.extension_m);
            assert!(
                (ours - theirs).abs() < allowed_m,
                "{what}: {ours}, {theirs}"
            );
            let (ours, theirs) = (found.arrest_force_max_n, reference.force_max_n);
            assert!(
                near(ours, theirs, CURVE_STEP_RTOL),
                "{what}: {ours}, {theirs}"
            );
            // The extension's error at the force there.
            let off_j = outcome.history.energy.absorbers_j - reference.absorbed_j;
            let allowed_j = allowed_m * bears_n(curve, reference.extension_m);
            assert!(off_j.abs() < allowed_j, "{what}: {off_j} J");
        }
    }
}

/// The energy balance at a rigid anchorage by hand: a force that rises evenly from F0 by c per metre of
/// extension takes F0 e + c e²/2 and leaves P²/2k in the webbing, P = F0 + c e; all of that is
/// m g (h + e + P/k): a quadratic equation in e.
#[test]
fn the_balance_is_the_closed_form() {
    let (first_n, rise_n_per_m, most_m) = (2.5e3, 1.6e3, 1.7);
    let last_n = first_n + rise_n_per_m * most_m;
    let k = Gear::default().stiffness_n_per_m;
    for (mass_kg, free_fall_m) in [(80.0, 1.2), (100.0, 1.8), (141.0, 1.8)] {
        let absorber = curved(&[
            (0.0, first_n),
            (0.6, first_n + 0.6 * rise_n_per_m),
            (most_m, last_n),
        ]);
        let outcome = solved(&at_a_support(mass_kg, free_fall_m, absorber));
        let weight_n = mass_kg * GRAVITY_M_PER_S2;
        let (f, c, w) = (first_n, rise_n_per_m, weight_n);
        // a e² + b e + d = 0.
        let a = 0.5 * c + c * c / (2.0 * k);
        let b = f + f * c / k - w * (1.0 + c / k);
        let d = f * f / (2.0 * k) - w * (free_fall_m + f / k);
        let extension_m = (-b + (b * b - 4.0 * a * d).sqrt()) / (2.0 * a);
        let force_n = f + c * extension_m;
        let balance = &outcome.balance;
        let near = |a: f64, b: f64| (a / b - 1.0).abs() < RIGID_RTOL;
        assert!(near(balance.absorber_extension_m[0], extension_m));
        assert!(near(balance.arrest_force_n[0], force_n));
        assert!(near(balance.stretch_m[0], extension_m + force_n / k));
        // The line does not move, so nothing is left out: the time history finds the same.
        let by_time_m = outcome.workers[0].stretch_max_m;
        assert!((by_time_m - balance.stretch_m[0]).abs() < RIGID_DROP_ATOL_M);
    }
}

/// At a rigid anchorage both methods are one for any curve, used up or not.
#[test]
fn both_methods_agree_where_the_line_does_not_move() {
    for curve in CURVES {
        for (mass_kg, free_fall_m) in [(60.0, 0.3), (100.0, 1.8), (150.0, 3.5), (200.0, 4.0)] {
            let outcome = solved(&at_a_support(mass_kg, free_fall_m, curved(curve)));
            let (history, balance) = (&outcome.workers[0], &outcome.balance);
            let off_m = history.stretch_max_m - balance.stretch_m[0];
            assert!(off_m.abs() < RIGID_DROP_ATOL_M, "{curve:?}: {off_m}");
            let ratio = history.arrest_force_max_n / balance.arrest_force_n[0];
            assert!((ratio - 1.0).abs() < CURVE_STEP_RTOL, "{curve:?}: {ratio}");
        }
    }
}

/// A curve of one force is the average: the whole answer to the last bit, in every run.
#[test]
fn a_curve_of_one_force_gives_the_bits_of_the_average() {
    let mut average = demo();
    for worker in &mut average.workers {
        let absorber = worker.gear.absorber.as_mut().expect("there");
        // Where the stiff side takes the maximum of a curve for more than itself, the average has it.
        absorber.maximum_force_n = Some(absorber.average_force_n);
    }
    let mut level = average.clone();
    for worker in &mut level.workers {
        let absorber = worker.gear.absorber.as_mut().expect("there");
        let (f, x) = (absorber.average_force_n, absorber.max_extension_m);
        absorber.curve_extension_m = Points::of(&[0.0, 0.31, x]);
        absorber.curve_force_n = Points::of(&[f; 3]);
    }
    let both = [&average, &level].map(solved);
    assert_eq!(both[0], both[1]);
    let soft = [&average, &level].map(|case| {
        let ready = case.ready().expect("no faults");
        moved(&ready, Sides::SOFT).solve(Options::default())
    });
    assert_eq!(soft[0], soft[1]);
}

/// A curve that differs from the average by a hair goes another way through the program, and comes to
/// the same within that hair.
#[test]
fn a_curve_beside_the_average_gives_its_numbers() {
    let average = demo();
    let mut beside = average.clone();
    for worker in &mut beside.workers {
        let absorber = worker.gear.absorber.as_mut().expect("there");
        let (f, x) = (absorber.average_force_n, absorber.max_extension_m);
        absorber.curve_extension_m = Points::of(&[0.0, 0.31, x]);
        absorber.curve_force_n = Points::of(&[f, f * (1.0 + 1.0e-12), f]);
    }
    let [a, b] = [&average, &beside].map(solved);
    // Crews are sensitive: what has gone on for seconds is left out.
    for (a, b) in a.workers.iter().zip(&b.workers) {
        for (a, b) in [
            (a.drop_first_lowest_m, b.drop_first_lowest_m),
            (a.balance_stack.required_m, b.balance_stack.required_m),
        ] {
            assert!((a / b - 1.0).abs() < 1.0e-6, "{a} {b}");
        }
    }
    assert!((a.balance.tension_max_n / b.balance.tension_max_n - 1.0).abs() < 1.0e-6);
}

/// On a line: depth and tension of the independent cable, whose gear has a law written apart.
#[test]
fn falls_on_a_line_are_those_of_the_cable() {
    for (which, curve) in CURVES.iter().enumerate() {
        let mut case = Case {
            line: Line {
                spans_m: vec![10.0],
                ..Line::default()
            },
            workers: vec![Worker {
                position_m: 4.0,
                gear: Gear {
                    absorber: Some(curved(curve)),
                    ..Gear::default()
                },
                ..Worker::default()
            }],
            ..Case::default()
        };
        case.site.beam_top_m = 60.0;
        case.motion.duration_s = 1.2;
        let fineness = Fineness {
            duration_s: 1.2,
            ..STANDARD
        };
        let (cable, core) = (fall(&case, fineness), solved(&case));
        let off_m = core.workers[0].drop_first_lowest_m - cable.workers[0].drop_first_lowest_m;
        let over = core.history.tension_max_n / cable.tension_max_2ms_n - 1.0;
        println!("curve {which}: drop {off_m:+.4} m, tension {over:+.3}");
        assert!(off_m.abs() < CABLE_LOWEST_ATOL_M, "curve {which}: {off_m}");
        assert!((-MULTISPAN_TENSION_LOW_RTOL..MULTISPAN_TENSION_HIGH_RTOL).contains(&over));
    }
}

/// The ledger closes, steps and humps included, and the work of the absorber is never negative.
#[test]
fn the_ledger_closes() {
    for curve in CURVES {
        let case = with(&demo(), curved(curve));
        let outcome = solved(&case);
        assert!(
            outcome.history.energy.residual_ratio <= RESIDUAL_MAX,
            "{curve:?}"
        );
        assert!(
            residual_ratio(&case, &outcome) <= 2.0 * RESIDUAL_MAX,
            "{curve:?}"
        );
        assert!(outcome.history.energy.absorbers_j > 0.0);
    }
}

/// The greatest force over an extension, in the frames of a trace.
fn traced_force_n(outcome: &Outcome, from_m: f64, to_m: f64) -> f64 {
    let traces = outcome.traces.as_ref().expect("traced");
    (traces.absorber_extension_m.iter().zip(&traces.force_n))
        .filter(|(m, _)| (from_m..to_m).contains(*m))
        .fold(0.0, |most: f64, (_, n)| most.max(*n))
}

/// The trace, of which the drawing is made, has the curve's shape.
#[test]
fn the_trace_has_the_shape_of_the_curve() {
    let case = at_a_support(
        100.0,
        1.8,
        curved(&[(0.0, 6e3), (0.3, 3.5e3), (1.75, 3.5e3)]),
    );
    let outcome = traced(&case);
    let early_n = traced_force_n(&outcome, 1e-4, 0.1);
    let late_n = traced_force_n(&outcome, 0.35, 1.75);
    assert!(early_n > 5.2e3 && early_n <= 6e3, "{early_n}");
    assert!((late_n / 3.5e3 - 1.0).abs() < 1e-6, "{late_n}");
}

/// What a peak is for: the same average with a peak pulls harder at the line, and hardly goes deeper.
#[test]
fn a_peak_tells_in_the_tension() {
    let mut case = demo();
    case.workers.truncate(1);
    let [without, peak] = [
        Absorber {
            peak: None,
            ..peaked(4e3, 6e3, 0.2)
        },
        peaked(4e3, 6e3, 0.2),
    ]
    .map(|absorber| solved(&with(&case, absorber)));
    let (a, b) = (&without.workers[0], &peak.workers[0]);
    assert!(b.arrest_force_max_n > 1.2 * a.arrest_force_max_n);
    assert!(peak.balance.arrest_force_n[0] > 1.4 * without.balance.arrest_force_n[0]);
    assert!(peak.history.tension_max_n > without.history.tension_max_n);
    assert!(peak.balance.tension_max_n > without.balance.tension_max_n);
    assert!((a.drop_first_lowest_m - b.drop_first_lowest_m).abs() < 0.15);
}

/// Weaker all along the curve is deeper, stronger pulls harder, and the runs of the tolerances do so.
#[test]
fn the_tolerance_moves_the_whole_curve() {
    for curve in CURVES {
        let case = with(&demo(), curved(curve));
        let ready = case.ready().expect("no faults");
        let soft = moved(&ready, Sides::SOFT).solve(Options::default());
        let given = ready.solve(Options::default());
        let stiff = moved(&ready, Sides::STIFF).solve(Options::default());
        assert!(
            soft.workers[0].balance_stack.required_m > given.workers[0].balance_stack.required_m
        );
        assert!(stiff.balance.tension_max_n > given.balance.tension_max_n);
        let by = case.tolerances.absorber_force_ratio;
        assert!(
            stiff.balance.arrest_force_n[0] > (1.0 + 0.5 * by) * given.balance.arrest_force_n[0]
        );
        let whole = assess(&case, Options::default()).expect("no faults");
        assert!(whole.footroom.value <= soft.footroom_m);
    }
}

/// Used up behind the last point, and not by a peak above it.
#[test]
fn it_is_used_up_at_its_last_point() {
    let used_up = |outcome: &Outcome| {
        (outcome.doubts.iter()).any(|d| matches!(d, Doubt::AbsorberUsedUp { .. }))
    };
    let peak = curved(&[(0.0, 6e3), (0.2, 3.8e3), (1.75, 3.6e3)]);
    let outcome = solved(&at_a_support(100.0, 1.8, peak));
    assert!(outcome.workers[0].absorber_extension_m < 1.0 && !used_up(&outcome));
    let short = curved(&[(0.0, 6e3), (0.2, 3.8e3), (0.4, 3.6e3)]);
    let outcome = solved(&at_a_support(100.0, 1.8, short));
    assert!(used_up(&outcome));
    assert_eq!(outcome.workers[0].absorber_extension_m, 0.4);
    assert_eq!(outcome.balance.absorber_extension_m[0], 0.4);
    // Stiff then, beyond the peak before.
    assert!(outcome.workers[0].arrest_force_max_n > 6.5e3);
}

/// Everything that a peak or a curve can have wrong is a fault that names it, by worker.
#[test]
fn what_does_not_fit_is_named() {
    let fault = |absorber: Absorber| {
        let mut case = demo();
        case.workers[1].gear.absorber = Some(absorber);
        let faults = case.faults();
        assert_eq!(faults.len(), 1, "{faults:?}");
        let field = faults[0].field();
        assert_eq!(field.index, Some(1));
        assert!(solve(&case, Options::default()).is_err());
        (
            field.name.rsplit_once("absorber.").expect("of it").1,
            faults[0],
        )
    };
    let points = |x: &[f64], f: &[f64]| Absorber {
        curve_extension_m: Points::of(x),
        curve_force_n: Points::of(f),
        ..Absorber::default()
    };
    let range = |fault: Fault| match fault {
        Fault::OutOfRange {
            value, min, max, ..
        } => (value, min, max),
        other => panic!("{other:?}"),
    };
    let count = |fault: Fault| match fault {
        Fault::Count {
            count, min, max, ..
        } => (count, min, max),
        other => panic!("{other:?}"),
    };
    let (name, what) = fault(points(&[0.1, 1.0], &[4e3; 2]));
    assert_eq!((name, range(what)), ("curve_extension_m", (0.1, 0.0, 0.0)));
    let (name, what) = fault(points(&[0.0, 0.5, 0.4, 1.0], &[4e3; 4]));
    assert_eq!((name, range(what)), ("curve_extension_m", (0.4, 0.5, 3.0)));
    let (name, what) = fault(points(&[0.0, 0.01], &[4e3; 2]));
    assert_eq!(
        (name, range(what)),
        ("curve_extension_m", (0.01, 0.05, 3.0))
    );
    let (name, what) = fault(points(&[0.0, 1.0], &[4e3, 0.0]));
    assert_eq!((name, range(what)), ("curve_force_n", (0.0, 100.0, 30e3)));
    let (name, what) = fault(points(&[0.0, 1.0], &[4e3]));
    assert_eq!((name, count(what)), ("curve_force_n", (1, 2, 2)));
    let (name, what) = fault(points(&[0.0], &[4e3]));
    assert_eq!(
        (name, count(what)),
        ("curve_extension_m", (1, 2, POINTS_MAX))
    );
    let (name, what) = fault(points(&[], &[4e3; 2]));
    assert_eq!(
        (name, count(what)),
        ("curve_extension_m", (0, 2, POINTS_MAX))
    );
    let (name, what) = fault(points(&[0.0, f64::NAN], &[4e3; 2]));
    assert!(name == "curve_extension_m" && matches!(what, Fault::NotFinite { .. }));
    let (name, what) = fault(peaked(4e3, 3.5e3, 0.2));
    assert!(name == "peak.force_n" && matches!(what, Fault::ForceOrder { .. }));
    let (name, what) = fault(peaked(4e3, 12e3, 1.0));
    let (value, min, max) = range(what);
    assert_eq!((name, value, min), ("peak.over_m", 1.0, 0.0));
    // Half the average behind it: 4 kN over 1.75 m less 10 kN over half of it each.
    assert!((max - 4e3 * 1.75 / (12e3 - 2e3)).abs() < ROUNDING_RTOL);
    // Too many.
    let mut case = demo();
    case.workers[0].gear.absorber = Some(points(&[0.0; 20], &[4e3; 20]));
    let counts: Vec<_> = case.faults().into_iter().map(count).collect();
    assert_eq!(counts, [(POINTS_MAX + 1, 0, POINTS_MAX); 2]);
}
