//! Connecting gear and the geometry of a standing worker: no gear is taut before the D-ring has come
//! down to the line, and no length of a stack is negative.

use footroom_core::assess::{Assessing, assess};
use footroom_core::case::{Absorber, Case, Gear, GearKind, Line, Worker};
use footroom_core::check::{Subject, US_DECELERATION_DISTANCE_MAX_M, Verdict};
use footroom_core::corner::{Sides, moved};
use footroom_core::demo::demo;
use footroom_core::solve::{Doubt, Options, Outcome, Stack};
use proptest::prelude::*;
use support::closeness::assert_close;
use support::generate;
use support::solved::{ready, solved};
use support::tolerance::{LOWEST_POINT_ATOL_M, ROUNDING_ATOL_M};

/// One worker on a self-retracting lifeline, the line at this height.
fn retracting(height_above_beam_m: f64) -> Case {
    Case {
        line: Line {
            height_above_beam_m,
            ..Line::default()
        },
        workers: vec![Worker {
            gear: Gear {
                kind: GearKind::SelfRetracting,
                ..Gear::default()
            },
            ..Worker::default()
        }],
        ..Case::default()
    }
}

fn told(outcome: &Outcome) -> Option<(f64, f64)> {
    outcome.doubts.iter().find_map(|d| match *d {
        Doubt::RetractingBelowDring {
            worker: 0,
            dring_above_m,
            free_fall_m,
        } => Some((dring_above_m, free_fall_m)),
        _ => None,
    })
}

/// With the line at the beam top the D-ring comes down 1.5 m and the sag before anything runs out.
#[test]
fn a_self_retracting_lifeline_below_the_dring_locks_only_below_the_line() {
    let case = retracting(0.0);
    let outcome = solved(&case);
    let worker = &outcome.workers[0];
    let above_m = 1.5 + case.line.rest_deflection_m(6.0);
    assert_close("free fall", worker.free_fall_m, above_m + 0.6, 1.0e-12);
    assert_close("taut length", worker.stack.lanyard_m, 0.6, 1.0e-12);
    assert_eq!(told(&outcome), Some((above_m, worker.free_fall_m)));
    assert_eq!(outcome.unknown(), None, "it stands beside the number");
    // Two metres of free fall: the limit of 29 CFR 1926.502(d)(16)(iii) is not met.
    let checks = assess(&case, Options::default()).unwrap().checks(&case);
    let limit = checks.iter().find(|c| c.key == "us.free_fall").unwrap();
    assert_eq!(limit.verdict, Verdict::DoesNotMeet);
    // It needs more than a metre and a half more depth than with the lanyard bar taken as negative.
    assert!(worker.stack.required_m > 4.1, "{}", worker.stack.required_m);
}

/// Level with the D-ring or above it nothing changes: the locking distance.
#[test]
fn a_self_retracting_lifeline_above_the_dring_falls_its_locking_distance() {
    let outcome = solved(&retracting(2.0));
    let worker = &outcome.workers[0];
    assert_eq!(worker.free_fall_m, 0.6);
    assert_eq!(told(&outcome), None);
    // A line that only sags below the D-ring is level with it.
    let level = solved(&retracting(1.5));
    assert_eq!(told(&level), None);
    assert!((0.6..0.7).contains(&level.workers[0].free_fall_m));
}

/// Beside the connector a lifeline has paid out the way to the side when the D-ring passes the line,
/// whether it started above or at its level; the stack counts none of that.
#[test]
fn a_self_retracting_lifeline_below_the_dring_swings_by_the_way_to_the_side() {
    for height_m in [0.0, 0.8, 1.5] {
        let mut case = retracting(height_m);
        case.workers[0].offset_along_m = 0.9;
        let worker = solved(&case).workers[0];
        let swing = worker.swing.unwrap();
        assert_close("below the stack", swing.below_stack_m, 0.9, 1.0e-12);
        let taut_m = 0.6 + 0.9 + worker.stack.absorber_extension_m;
        assert_close("taut length", swing.taut_length_m, taut_m, 1.0e-12);
    }
}

/// A free fall that is given must let the D-ring come down to the line, whatever the gear: an old
/// case with less still opens, is calculated with what the geometry allows, and says so.
#[test]
fn a_given_free_fall_smaller_than_the_geometry_is_raised_and_said() {
    for kind in [GearKind::Lanyard, GearKind::SelfRetracting] {
        let mut case = retracting(0.5);
        case.workers[0].gear.kind = kind;
        let least_m = case.workers[0].dring_above_line_m(&case.line);
        let sag_m = case.line.rest_deflection_m(6.0);
        assert_close("least", least_m, 1.0 + sag_m, 1.0e-12);
        let raised = |case: &Case| {
            let outcome = solved(case);
            let said = outcome.doubts.iter().find_map(|d| match *d {
                Doubt::FreeFallRaised {
                    worker: 0,
                    given_m,
                    free_fall_m,
                } => Some((given_m, free_fall_m)),
                _ => None,
            });
            assert_eq!(outcome.unknown(), None, "it stands beside the number");
            (outcome.workers[0], said)
        };
        case.workers[0].gear.free_fall_m = Some(0.6);
        let (worker, said) = raised(&case);
        assert_eq!(said, Some((0.6, least_m)));
        assert_eq!(worker.free_fall_m, least_m);
        assert!((0.0..1.0e-12).contains(&worker.stack.lanyard_m));
        // As much as the geometry asks for, or more, is taken as it is given.
        for given_m in [least_m, least_m + 0.4] {
            case.workers[0].gear.free_fall_m = Some(given_m);
            let (worker, said) = raised(&case);
            assert_eq!((worker.free_fall_m, said), (given_m, None));
            let bar_m = worker.stack.lanyard_m;
            assert!((bar_m - (given_m - least_m)).abs() < 1.0e-12, "{bar_m}");
        }
        // On a warmer day, and with less pretension, the line sags more: never below nothing.
        case.workers[0].gear.free_fall_m = Some(least_m);
        case.temperature.today_k += 20.0;
        let soft = moved(&ready(&case), Sides::SOFT).solve(Options::default());
        let worker = &soft.workers[0];
        assert!(worker.free_fall_m > least_m + 1.0e-3);
        assert!(worker.stack.lanyard_m >= 0.0);
    }
}

fn bars(stack: &Stack) -> [f64; 7] {
    [
        stack.line_deflection_m,
        stack.lanyard_m,
        stack.absorber_extension_m,
        stack.allowance_m,
        stack.harness_stretch_m,
        stack.dring_to_sole_m,
        stack.margin_m,
    ]
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 96,
        failure_persistence: None,
        rng_seed: prop::test_runner::RngSeed::Fixed(41),
        ..ProptestConfig::default()
    })]

    /// In range, whatever the heights, gear and free fall given, as given and in every corner.
    #[test]
    fn no_bar_of_a_stack_is_negative(mut case in generate::ranged(), damping in any::<bool>()) {
        // What a run costs is not what is asked here.
        case.motion.duration_s = case.motion.duration_s.min(1.0);
        if damping {
            case.motion.damping_s = 1.0e-4;
        }
        let ready = case.ready();
        prop_assume!(ready.is_ok());
        let ready = ready.unwrap();
        let sides = [Sides::SOFT, Sides::STIFF, Sides::MIXED];
        let runs = sides.map(|sides| moved(&ready, sides));
        for run in runs.iter().chain([&ready]) {
            let outcome = run.solve(Options::default());
            for worker in &outcome.workers {
                for stack in [&worker.stack, &worker.balance_stack, &worker.history_stack] {
                    for bar in bars(stack) {
                        prop_assert!(bar >= 0.0, "{stack:?}");
                    }
                }
                prop_assert!(worker.free_fall_m >= 0.0);
            }
        }
    }
}

/// The runs of an assessment with their traces, each with the part of an absorber's average force at
/// which it deploys there; `None`: at its maximum.
fn runs(case: &Case) -> Vec<(Outcome, Option<f64>)> {
    let ready = ready(case);
    let traced = Options {
        traces: true,
        ..Options::default()
    };
    let at = |sides| moved(&ready, sides).solve(traced);
    let weak = Some(1.0 - case.tolerances.absorber_force_ratio);
    let mut runs = vec![
        (ready.solve(traced), Some(1.0)),
        (ready.undamped().solve(traced), Some(1.0)),
        (at(Sides::STIFF), None),
        (at(Sides::SOFT), weak),
    ];
    let used_up = runs[3].0.workers.iter().any(|w| w.absorber_used_up);
    if case.line.inline_absorber.is_some() || used_up {
        runs.push((at(Sides::MIXED), weak));
    }
    runs
}

/// Stretch of gear at a force, m, its absorber extended by so much: the law of gear, written again.
fn stretch_m(gear: &Gear, part: Option<f64>, force_n: f64, extension_m: f64) -> f64 {
    let stiffness = gear.stiffness_n_per_m;
    let Some(absorber) = gear.absorber else {
        return force_n / stiffness;
    };
    let deploys_n = part.map_or_else(
        || absorber.maximum_n(),
        |part| part * absorber.average_force_n,
    );
    let elastic_n = force_n.min(deploys_n);
    elastic_n / stiffness + extension_m + (force_n - elastic_n) / absorber.locked_stiffness_n_per_m
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 48,
        failure_persistence: None,
        rng_seed: prop::test_runner::RngSeed::Fixed(43),
        ..ProptestConfig::default()
    })]

    /// The deceleration distance asked for is the greatest stretch of the gear in any run, by either
    /// method and at any instant: not less than in any frame of the traces, and what greatest force
    /// and extension make it.
    #[test]
    fn the_deceleration_distance_is_the_greatest_stretch(case in generate::varied()) {
        // The crew as given: runs beside it ask for more (tests/crew.rs).
        let demands = Assessing::start(&case, Options::default()).unwrap().assessment().demands;
        let runs = runs(&case);
        for worker in &demands.workers {
            let i = worker.worker;
            let mut most_m = 0.0_f64;
            for (run, part) in &runs {
                let of = &run.workers[i];
                let by_history_m = stretch_m(
                    &case.workers[i].gear,
                    *part,
                    of.arrest_force_max_n,
                    of.absorber_extension_m,
                );
                prop_assert!((of.stretch_max_m - by_history_m).abs() < ROUNDING_ATOL_M);
                most_m = most_m.max(by_history_m).max(of.balance_stack.absorber_extension_m);
                let Some(traces) = &run.traces else {
                    continue;
                };
                for row in traces.gear_stretch_m.chunks(traces.workers) {
                    prop_assert!(row[i] <= of.stretch_max_m + ROUNDING_ATOL_M);
                }
            }
            let asked_m = worker.deceleration_distance_m;
            prop_assert!((asked_m - most_m).abs() < LOWEST_POINT_ATOL_M, "{asked_m} {most_m}");
        }
    }
}

/// Four who fall 0.3 s after each other, 120 kg each, on weak absorbers: the second one's gear is
/// longest long before his lowest instant, when the line springs back under him. By that instant it
/// is 1.007 m, within the 3.5 ft of 29 CFR 1926.502(d)(16)(iv); in truth it is 1.2 m.
#[test]
fn gear_longest_before_the_lowest_instant_does_not_meet_the_deceleration_distance() {
    let mut case = demo();
    case.line.spans_m = vec![12.0, 12.0];
    case.site.below.clear();
    case.site.beam_top_m = 20.0;
    case.sets.european = true;
    let model = Worker {
        mass_kg: 120.0,
        gear: Gear {
            absorber: Some(Absorber {
                average_force_n: 3_500.0,
                max_extension_m: 1.75,
                ..Absorber::default()
            }),
            ..case.workers[0].gear
        },
        ..case.workers[0]
    };
    case.workers = (0..4)
        .map(|i| Worker {
            position_m: 15.75 + 1.5 * f64::from(i),
            fall_time_s: Some(0.3 * f64::from(i)),
            ..model
        })
        .collect();
    let found = assess(&case, Options::default()).unwrap();
    let asked_m = found.demands.workers[1].deceleration_distance_m;
    assert!(asked_m > 1.15, "{asked_m}");
    let at_lowest_m = found.nominal.workers[1].stack.absorber_extension_m;
    assert!(
        at_lowest_m < US_DECELERATION_DISTANCE_MAX_M,
        "{at_lowest_m}"
    );
    let checks = found.checks(&case);
    let of = |key: &str| {
        checks
            .iter()
            .find(|c| c.key == key && c.subject == Subject::Worker { worker: 1 })
            .unwrap()
    };
    let limit = of("us.deceleration_distance");
    assert_eq!(
        (limit.verdict, limit.demand),
        (Verdict::DoesNotMeet, Some(asked_m))
    );
    // The extension by EN 355 and a limit of one's own are of the same length.
    assert_eq!(of("eu.absorber_extension").demand, Some(asked_m));
}
