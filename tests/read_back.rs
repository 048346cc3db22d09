//! The tension read back on the line is the one that the line has, over all pretensions at which it
//! hangs taut: the readings come from the core's own statics.

use footroom_core::case::Line;
use footroom_core::field;
use footroom_core::line::{PointLoad, hang};
use footroom_core::rope::CATALOGUE;
use footroom_core::setup::{
    SwingReading, WeightReading, tension_from_deflection, tension_from_swings,
};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// Most that a tension read back may be off: a part of the tension.
const OFF_MAX: f64 = 0.01;

/// Greatest sag at rest, as a part of the span, of a line on which that holds. A slacker one is
/// straightened by the weight rather than moved by it: its movement hardly depends on the tension.
const SAG_MAX: f64 = 0.01;

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

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 400,
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
        weight_n in 50.0..400.0f64,
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
        // Near the greatest movement a slack line shows about the same at many tensions, and no
        // reading tells them apart; elsewhere it must.
        let moved_m = |part: f64| {
            let other = Line { pretension_n: part * there.pretension_n, ..there.clone() };
            let at = |force_n| hang(&other, &load(force_n)).map(|still| still.deflection_m[0]);
            at(weight_n).ok().zip(at(0.0).ok()).map(|(loaded, rest)| loaded - rest)
        };
        let (Some(looser_m), Some(tighter_m)) = (moved_m(0.97), moved_m(1.03)) else {
            return Ok(());
        };
        prop_assume!((looser_m - tighter_m).abs() > 0.001);
        prop_assume!(rest_m <= SAG_MAX * spans_m[span]);
        let near = |found: f64| (found / there.pretension_n - 1.0).abs() <= OFF_MAX;
        let reading = WeightReading {
            span,
            weight_n,
            movement_m: loaded_m - rest_m,
            reading_error_m: 0.003,
        };
        let read = tension_from_deflection(&planned, &reading).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        // Where several tensions fit, the true one is among those that are named.
        let named = read.others_n.iter().copied().chain([read.tension_n]).any(near);
        prop_assert!(named, "{} in {read:?}", there.pretension_n);
        if read.others_n.is_empty() {
            prop_assert!(near(read.tension_n));
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
        prop_assert!(near(read.tension_n));
    }
}
