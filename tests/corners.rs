//! The answer, which rests on two tolerance corners, against every other combination, and what an assessment says when a
//! corner's motion is not resolved.

use footroom_core::assess::assess;
use footroom_core::case::{Case, Line, Site, Tolerances, Worker};
use footroom_core::corner::{Sides, moved};
use footroom_core::solve::{Doubt, Options, Outcome};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{RngSeed, TestRunner};
use support::figures::{self, Figure};
use support::generate;
use support::solved::{ready, solved};
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
        damping: bits & 32 > 0,
    }
}

#[test]
fn no_combination_is_far_beyond_the_answer() {
    const CASES: usize = 64;
    let mut runner = TestRunner::new(ProptestConfig {
        rng_seed: RngSeed::Fixed(12),
        ..ProptestConfig::default()
    });
    let (mut less_m, mut more) = (0.0_f64, 0.0_f64);
    for _ in 0..CASES {
        let made = generate::typical(3).new_tree(&mut runner);
        let mut case = made.expect("a strategy without filters").current();
        case.tolerances = TOLERANCES;
        case.allowance.tension_ratio = 0.0;
        let ready = ready(&case);
        let at = |sides| moved(&ready, sides).solve(Options::default());
        let answer = assess(&case, Options::default()).expect("no fault");
        let least_m = answer.footroom.value;
        let most = answer.tension_max.value;
        for bits in 0..64 {
            let other = at(sides(bits));
            less_m = less_m.max(least_m - other.footroom_m);
            more = more.max(other.history.tension_max_n / most - 1.0);
            assert!(
                less_m <= CORNER_CLEARANCE_ATOL_M,
                "{:?}: {} below {}: {case:?}",
                sides(bits),
                other.footroom_m,
                least_m
            );
            assert!(
                more <= CORNER_TENSION_RTOL,
                "{:?}: {} above {most}: {case:?}",
                sides(bits),
                other.history.tension_max_n
            );
        }
    }
    figures::hold(Figure::CornerFootroom, &figures::at_most_m(less_m));
    figures::hold(Figure::CornerTension, &figures::at_most_percent(more));
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
    let soft = |case: &Case| moved(&ready(case), Sides::SOFT).solve(Options::default());
    let stopped_s = |outcome: &Outcome| outcome.workers[0].time_first_lowest_s;
    let (given_s, soft_s) = (stopped_s(&solved(&case)), stopped_s(&soft(&case)));
    assert!(given_s + 0.02 < soft_s, "{given_s} {soft_s}");
    case.motion.duration_s = 0.5 * (given_s + soft_s);
    let lost = |o: &Outcome| {
        o.doubts
            .iter()
            .any(|d| matches!(d, Doubt::NotFinished { .. }))
    };
    assert!(!lost(&solved(&case)), "as given it must be resolved");
    assert!(lost(&soft(&case)));
    let assessment = assess(&case, Options::default()).expect("no fault");
    assert!(lost(&assessment.nominal));
}
