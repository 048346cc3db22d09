//! The two tolerance corners against every other combination, and what an assessment says when a
//! corner's motion is not resolved.

use footroom_core::assess::assess;
use footroom_core::case::{Case, Line, Site, Tolerances, Worker};
use footroom_core::corner::{Sides, moved};
use footroom_core::solve::{Doubt, Options, Outcome};
use proptest::prelude::*;
use support::generate;
use support::solved::solved;
use support::tolerance::{CORNER_CLEARANCE_ATOL_M, CORNER_TENSION_RTOL};

const TOLERANCES: Tolerances = Tolerances {
    mass_ratio: 0.05,
    absorber_force_ratio: 0.1,
    pretension_ratio: 0.15,
    axial_stiffness_ratio: 0.1,
    end_stiffness_ratio: 0.25,
    inline_force_ratio: 0.1,
};

fn sides(bits: u8) -> Sides {
    Sides {
        mass: bits & 1 > 0,
        absorber_force: bits & 2 > 0,
        pretension: bits & 4 > 0,
        axial_stiffness: bits & 8 > 0,
        end_stiffness: bits & 16 > 0,
        inline_force: false,
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 64,
        failure_persistence: None,
        rng_seed: prop::test_runner::RngSeed::Fixed(12),
        ..ProptestConfig::default()
    })]

    #[test]
    fn no_combination_is_far_beyond_the_corners(mut case in generate::typical(3)) {
        case.tolerances = TOLERANCES;
        let soft = solved(&moved(&case, Sides::SOFT));
        // A used-up absorber brings the mixed corner in, as in the assessment.
        let mut most = solved(&moved(&case, Sides::STIFF)).history.tension_max_n;
        if soft.workers.iter().any(|w| w.absorber_used_up) {
            most = most.max(solved(&moved(&case, Sides::MIXED)).history.tension_max_n);
        }
        for bits in 0..32 {
            let other = solved(&moved(&case, sides(bits)));
            prop_assert!(
                other.footroom_m >= soft.footroom_m - CORNER_CLEARANCE_ATOL_M,
                "{:?}: {} below {}", sides(bits), other.footroom_m, soft.footroom_m
            );
            let tension = other.history.tension_max_n;
            prop_assert!(
                tension <= most * (1.0 + CORNER_TENSION_RTOL),
                "{:?}: {tension} above {most}", sides(bits)
            );
        }
    }
}

/// The simulated time ends when everybody has been stopped as given, but not yet in the soft corner.
#[test]
fn a_corner_that_is_not_resolved_is_said() {
    let mut case = Case {
        line: Line {
            spans_m: vec![9.0],
            pretension_n: 5_000.0,
            ..Line::default()
        },
        workers: vec![Worker {
            position_m: 2.5,
            mass_kg: 130.0,
            ..Worker::default()
        }],
        site: Site {
            beam_top_m: 20.0,
            ..Site::default()
        },
        tolerances: Tolerances {
            mass_ratio: 0.1,
            pretension_ratio: 0.2,
            ..TOLERANCES
        },
        ..Case::default()
    };
    // A time that is over when he has been stopped as given, but still falls in the soft corner.
    let stopped_s = |case: &Case| solved(case).workers[0].time_first_lowest_s;
    let (given_s, soft_s) = (stopped_s(&case), stopped_s(&moved(&case, Sides::SOFT)));
    assert!(given_s + 0.02 < soft_s, "{given_s} {soft_s}");
    case.motion.duration_s = 0.5 * (given_s + soft_s);
    let lost = |o: &Outcome| {
        o.doubts
            .iter()
            .any(|d| matches!(d, Doubt::NotFinished { .. }))
    };
    assert!(!lost(&solved(&case)), "as given it must be resolved");
    assert!(lost(&solved(&moved(&case, Sides::SOFT))));
    let assessment = assess(&case, Options::default()).expect("no fault");
    assert!(lost(&assessment.nominal));
}
