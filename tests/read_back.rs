//! The tension read back on the line is the one that the line has, over all pretensions that the
//! model takes, slack lines too, with every reading wrong by up to its error: the readings come from
//! the core's own statics.

use footroom_core::case::Line;
use footroom_core::field;
use footroom_core::line::{PointLoad, hang};
use footroom_core::rope::CATALOGUE;
use footroom_core::setup::{
    SwingReading, WeightReading, tension_from_deflection, tension_from_swings,
};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// Part of a tension to which a root is found, with room for that of the statics.
const ROOT: f64 = 1e-6;

fn line(spans_m: Vec<f64>, rope: usize, pretension_n: f64, ends: Option<f64>) -> Line {
    Line {
        spans_m,
        pretension_n,
        rope: CATALOGUE[rope].rope,
        left_end_stiffness_n_per_m: ends,
        right_end_stiffness_n_per_m: ends,
        ..Line::default()
    }
}

/// Deflection at rest of the line at another pretension, m.
fn at_rest_m(line: &Line, pretension_n: f64, position_m: f64) -> f64 {
    let other = Line {
        pretension_n,
        ..line.clone()
    };
    let nothing = [PointLoad {
        position_m,
        force_n: 0.0,
    }];
    hang(&other, &nothing).map_or(f64::NAN, |still| still.deflection_m[0])
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 1_000,
        rng_seed: RngSeed::Fixed(20_260_102),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_reading_gives_the_tension_of_the_line(
        spans_m in prop::collection::vec(3.0..30.0f64, 1..4),
        rope in 0..CATALOGUE.len(),
        part in 0.0..1.0f64,
        planned_part in 0.3..0.7f64,
        weight_n in 20.0..500.0f64,
        misread in -0.99..0.99f64,
        ends in prop::option::of(2.0e5..5.0e6f64),
    ) {
        let range = field::find("line.pretension_n").expect("a field");
        // Even over the decades of the range.
        let of = |part: f64| range.min * (range.max / range.min).powf(part);
        let there = line(spans_m.clone(), rope, of(part), ends);
        // A line that is slack at rest, or too tight for its rope, is refused by name.
        prop_assume!(there.line_faults().is_empty());
        let planned = line(spans_m.clone(), rope, of(planned_part), ends);
        prop_assume!(planned.line_faults().is_empty());
        let span = spans_m.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1)).map_or(0, |s| s.0);
        let position_m = spans_m[..span].iter().sum::<f64>() + 0.5 * spans_m[span];
        let load = |force_n| [PointLoad { position_m, force_n }];
        let at = |force_n| hang(&there, &load(force_n)).map(|still| still.deflection_m[0]);
        let (Ok(loaded_m), Ok(rest_m)) = (at(weight_n), at(0.0)) else {
            return Err(TestCaseError::fail("a taut line takes the weight"));
        };
        let reading_error_m = 0.003;
        let reading = WeightReading {
            span,
            weight_n,
            movement_m: loaded_m - rest_m + misread * reading_error_m,
            reading_error_m,
        };
        prop_assume!(reading.movement_m > 0.0);
        let read = tension_from_deflection(&planned, &reading)
            .map_err(|faults| TestCaseError::fail(format!("{faults:?}")))?;
        let true_n = there.pretension_n;
        let within = |low_n: f64, high_n: f64| {
            low_n * (1.0 - ROOT) <= true_n && true_n <= high_n * (1.0 + ROOT)
        };
        // The band that is named with the tension, open where the model ends.
        let own = within(read.low_n.unwrap_or(0.0), read.high_n.unwrap_or(f64::MAX));
        let other = read.others.iter().any(|band| within(band.low_n, band.high_n));
        prop_assert!(own || other, "{true_n} in {read:?}");
        if let Some(error) = read.error_ratio {
            // Who is told a tension with its error is told the one that the line has, or one that
            // looks different.
            let off = (true_n / read.tension_n - 1.0).abs();
            let seen = (rest_m - at_rest_m(&there, read.tension_n, position_m)).abs();
            prop_assert!(
                off <= error + ROOT || seen > reading.movement_m,
                "{true_n} in {read:?}, {seen} m at rest"
            );
        }

        // Ten swings of a taut string, f = (1/2L) sqrt(H/mu).
        let rope = CATALOGUE[rope].rope;
        let wave_m_per_s = (there.pretension_n / rope.mass_per_length_kg_per_m).sqrt();
        let reading = SwingReading {
            span,
            swings: 10,
            time_s: 10.0 * 2.0 * spans_m[span] / wave_m_per_s,
            timing_error_s: 0.2,
        };
        let read = tension_from_swings(&planned, &reading).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        prop_assert!((read.tension_n / there.pretension_n - 1.0).abs() <= ROOT);
    }
}
