//! Connecting gear and the geometry of a standing worker: no gear is taut before the D-ring has come
//! down to the line, and no length of a stack is negative.

use footroom_core::assess::assess;
use footroom_core::case::{Case, Gear, GearKind, Line, Worker};
use footroom_core::check::Verdict;
use footroom_core::corner::{Sides, moved};
use footroom_core::solve::{Doubt, Options, Outcome, Stack};
use proptest::prelude::*;
use support::closeness::assert_close;
use support::generate;
use support::solved::{ready, solved};

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
