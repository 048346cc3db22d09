//! What an outcome says, added up again from its own parts and its traces.

use footroom_core::case::Worker;
use footroom_core::constants::{GRAVITY_M_PER_S2, SLOPE_MAX};
use footroom_core::demo::demo;
use footroom_core::solve::Doubt;
use support::closeness::assert_near;
use support::solved::traced;
use support::tolerance::{ROUNDING_ATOL_M, SLOPE_FRAME_ATOL};

/// Hanging still: what each has dropped, and how high his soles then are above what is below him, with
/// the give of the harness.
#[test]
fn the_hanging_state_adds_up() {
    let mut case = demo();
    case.workers.push(Worker {
        position_m: 2.0,
        fall_time_s: None,
        ..Worker::default()
    });
    let outcome = traced(&case);
    let hanging = &outcome.hanging;
    for (i, worker) in case.workers.iter().enumerate() {
        // The flatbed's load stands below the first three, the yard is below the fourth.
        let over_m = if i < 3 {
            case.site.below[0].height_m
        } else {
            0.0
        };
        let above_m = case.site.beam_top_m - over_m;
        if worker.fall_time_s.is_none() {
            assert_eq!(hanging.drop_m[i], 0.0);
            assert_near(
                "standing",
                hanging.soles_above_m[i],
                above_m,
                ROUNDING_ATOL_M,
            );
            continue;
        }
        let found = &outcome.workers[i];
        let weight_n = worker.mass_kg * GRAVITY_M_PER_S2;
        let drop_m = hanging.deflection_m[i] - case.line.rest_deflection_m(worker.position_m)
            + found.free_fall_m
            + found.absorber_extension_m
            + weight_n / worker.gear.stiffness_n_per_m;
        assert_near("drop", hanging.drop_m[i], drop_m, ROUNDING_ATOL_M);
        assert_near(
            "soles",
            hanging.soles_above_m[i],
            above_m - drop_m - worker.harness_stretch_m,
            ROUNDING_ATOL_M,
        );
        assert_near("force", hanging.force_n[i], weight_n, ROUNDING_ATOL_M);
    }
}

/// The allowance on clearance is a part of what moved, line and gear, and not of the sag that was
/// there before.
#[test]
fn the_allowance_is_on_what_moved() {
    let mut case = demo();
    case.line.rope.mass_per_length_kg_per_m = 1.2;
    case.allowance.clearance_ratio = 0.25;
    for (worker, found) in case.workers.iter().zip(&traced(&case).workers) {
        let sag_m = case.line.rest_deflection_m(worker.position_m);
        assert!(sag_m > 0.01, "{sag_m}");
        for stack in [&found.balance_stack, &found.history_stack] {
            let moved_m = stack.line_deflection_m - sag_m + stack.absorber_extension_m;
            assert_near(
                "allowance",
                stack.allowance_m,
                0.25 * moved_m,
                ROUNDING_ATOL_M,
            );
        }
    }
}

/// A line steeper than the model is taken to describe is said to be so, and no other: against the
/// slope √((T/H)² − 1) of the traces, from frame to frame.
#[test]
fn a_steep_line_is_said_to_be_steep() {
    let (mut steep, mut flat) = (0, 0);
    for position_m in [0.6, 0.8, 1.0, 1.5, 2.0, 4.5] {
        let mut case = demo();
        case.posts = Default::default();
        case.site.below.clear();
        case.line.spans_m = vec![9.0];
        case.line.rope.axial_stiffness_n = 2.0e5;
        case.line.rope.breaking_force_n = None;
        case.workers.truncate(1);
        case.workers[0].position_m = position_m;
        case.workers[0].gear.absorber = None;
        let outcome = traced(&case);
        let traces = outcome.traces.as_ref().expect("traces");
        let slope = traces
            .tension_max_n
            .iter()
            .zip(&traces.tension_horizontal_n)
            .map(|(tension, horizontal)| (tension / horizontal).powi(2) - 1.0)
            .fold(0.0, f64::max)
            .sqrt();
        let said = outcome.doubts.iter().find_map(|d| match d {
            Doubt::TooSteep { slope, slope_max } => Some((*slope, *slope_max)),
            _ => None,
        });
        if let Some((found, most)) = said {
            assert_eq!(most, SLOPE_MAX);
            assert_near("slope", found, slope, SLOPE_FRAME_ATOL);
            steep += 1;
        } else {
            // No frame can be steeper than the steepest step.
            assert!(slope <= SLOPE_MAX, "{position_m}: {slope}");
            flat += 1;
        }
    }
    assert!(steep > 0 && flat > 0, "{steep} steep, {flat} not");
}
