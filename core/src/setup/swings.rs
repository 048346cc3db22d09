//! The tension by the time of a count of swings, and back.

use alloc::vec::Vec;

use super::{
    Band, GOOD_READING_RATIO, Plan, TensionReading, check, check_span, error_ratio, span_m,
};
use crate::case::Line;
use crate::fault::{Fault, FieldRef};
use crate::field;
use crate::maths::{ceil, sqrt};

/// Part of the tension by which a swing of [`SwingCheck::amplitude_max_m`] reads high.
pub const AMPLITUDE_ERROR_RATIO: f64 = 0.01;

/// Frequency up to which full swings can be counted by eye, Hz: common practice, no source.
pub const COUNTABLE_MAX_HZ: f64 = 2.0;

/// Most full swings that somebody is asked to count: common practice, no source.
pub const COUNTED_SWINGS_MAX: u32 = 30;

/// Tension check by timing the swings of the line plucked sideways.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct SwingCheck {
    /// The span, counted from 0.
    pub span: usize,
    /// Full swings per second, there and back each, Hz.
    pub frequency_hz: f64,
    /// Whether swings so quick can be counted by eye ([`COUNTABLE_MAX_HZ`]).
    pub countable: bool,
    /// Number of full swings timed, there and back each.
    pub swings: u32,
    /// Their time, s.
    pub time_s: f64,
    /// Their time at the greatest pretension of the tolerance, s.
    pub time_least_s: f64,
    /// Their time at the least pretension of the tolerance, s.
    pub time_most_s: f64,
    /// Error of the tension, as a part of it, that the timing error makes; `None`: more than the
    /// reading tells.
    pub error_ratio: Option<f64>,
    /// Number of full swings that brings the error to [`GOOD_READING_RATIO`]; `None`: nobody can
    /// count them, as they are too quick ([`COUNTABLE_MAX_HZ`]) or too many
    /// ([`COUNTED_SWINGS_MAX`]).
    pub good_swings: Option<u32>,
    /// Their time, s.
    pub good_time_s: Option<f64>,
    /// Swing to either side, m, up to which the stretch that it makes itself reads less than
    /// [`AMPLITUDE_ERROR_RATIO`] high.
    pub amplitude_max_m: f64,
}

/// Inward movement of both ends together per horizontal force, m/N.
pub(super) fn end_flexibility_m_per_n(line: &Line) -> f64 {
    let one = |k: Option<f64>| k.map_or(0.0, |k| 1.0 / k);
    one(line.left_end_stiffness_n_per_m) + one(line.right_end_stiffness_n_per_m)
}

/// Frequency of a span swinging sideways under horizontal tension `tension_n`, Hz.
///
/// # Source
/// (1/2L) √(H/μ), fundamental frequency of a taut string: any physics handbook.
pub(super) fn frequency_hz(line: &Line, span: usize, tension_n: f64) -> f64 {
    sqrt(tension_n / line.rope.mass_per_length_kg_per_m) / (2.0 * span_m(line, span))
}

/// Tension from a time of swings, N: μ (2 L n/t)².
fn tension_of_swings_n(line: &Line, span: usize, swings: u32, time_s: f64) -> f64 {
    let speed = 2.0 * span_m(line, span) * f64::from(swings) / time_s;
    line.rope.mass_per_length_kg_per_m * speed * speed
}

fn read_swings(line: &Line, reading: &SwingReading) -> TensionReading {
    let at = |time_s| tension_of_swings_n(line, reading.span, reading.swings, time_s);
    let shorter = reading.time_s - reading.timing_error_s;
    let tension_n = at(reading.time_s);
    let low_n = at(reading.time_s + reading.timing_error_s);
    let high_n = (shorter > 0.0).then(|| at(shorter));
    TensionReading {
        tension_n,
        low_n: Some(low_n),
        high_n,
        error_ratio: high_n.map(|high| error_ratio(tension_n, (low_n, high))),
        others: Vec::new(),
    }
}

pub(super) fn swing_check(line: &Line, span: usize, plan: &Plan, within: Band) -> SwingCheck {
    let frequency = frequency_hz(line, span, line.pretension_n);
    let count = f64::from(plan.swings);
    let time_s = count / frequency;
    let reading = SwingReading {
        span,
        swings: plan.swings,
        time_s,
        timing_error_s: plan.timing_error_s,
    };
    // (t/(t − δ))² − 1 ≤ ratio, the greater of the two errors, solved for t.
    let good_least_s = plan.timing_error_s / (1.0 - 1.0 / sqrt(1.0 + GOOD_READING_RATIO));
    let countable = frequency <= COUNTABLE_MAX_HZ;
    let good = ceil(good_least_s * frequency).max(1.0);
    let good = (countable && good <= f64::from(COUNTED_SWINGS_MAX)).then_some(good);
    // Swing a sin(πx/L): the arc grows by π²a²/(4L), the tension by that over the flexibility of
    // the whole line, and the square of the frequency by 3/4 of the tension's part (Duffing's
    // equation; any handbook of vibrations).
    let flexibility_m_per_n =
        line.length_m() / line.rope.axial_stiffness_n + end_flexibility_m_per_n(line);
    let pi = core::f64::consts::PI;
    let stretch_m = AMPLITUDE_ERROR_RATIO / 0.75 * line.pretension_n * flexibility_m_per_n;
    SwingCheck {
        span,
        frequency_hz: frequency,
        countable,
        swings: plan.swings,
        time_s,
        time_least_s: count / frequency_hz(line, span, within.high_n),
        time_most_s: count / frequency_hz(line, span, within.low_n),
        error_ratio: read_swings(line, &reading).error_ratio,
        good_swings: good.map(|n| n as u32),
        good_time_s: good.map(|n| n / frequency),
        amplitude_max_m: sqrt(4.0 * span_m(line, span) * stretch_m) / pi,
    }
}

/// A time read for a count of swings of the line plucked sideways.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct SwingReading {
    /// The span, counted from 0.
    pub span: usize,
    /// Number of swings, there and back each.
    pub swings: u32,
    /// Their time, s.
    pub time_s: f64,
    /// Error of that time, s, either way.
    pub timing_error_s: f64,
}

/// The pretension at rest from the time of a count of swings: μ (2 L n/t)².
///
/// # Errors
/// The faults of the line and of the reading (`reading…`). A time that belongs to no pretension in
/// the range of the field: the fault holds the least and the greatest time.
///
/// # Source
/// Fundamental frequency of a taut string: any physics handbook.
///
/// # Examples
/// ```
/// use footroom_core::case::Line;
/// use footroom_core::setup::{SwingReading, tension_from_swings};
/// let reading = SwingReading { span: 0, swings: 10, time_s: 2.17, timing_error_s: 0.2 };
/// let tension = tension_from_swings(&Line::default(), &reading).unwrap();
/// assert!((tension.tension_n / 4_400.0 - 1.0).abs() < 0.02);
/// assert!(tension_from_swings(&Line::default(), &SwingReading { swings: 0, ..reading }).is_err());
/// ```
pub fn tension_from_swings(
    line: &Line,
    reading: &SwingReading,
) -> Result<TensionReading, Vec<Fault>> {
    let mut faults = line.line_faults();
    check_span(&mut faults, "reading.span", reading.span, line);
    for (name, value) in [
        ("reading.swings", f64::from(reading.swings)),
        ("reading.time_s", reading.time_s),
        ("reading.timing_error_s", reading.timing_error_s),
    ] {
        check(&mut faults, name, None, value);
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let (low, high) = field::find("line.pretension_n").map_or((0.0, f64::MAX), |f| (f.min, f.max));
    let read = read_swings(line, reading);
    if (low..=high).contains(&read.tension_n) {
        return Ok(read);
    }
    let time = |tension_n| f64::from(reading.swings) / frequency_hz(line, reading.span, tension_n);
    Err(alloc::vec![Fault::OutOfRange {
        field: FieldRef::new("reading.time_s"),
        value: reading.time_s,
        min: time(high),
        max: time(low),
    }])
}
