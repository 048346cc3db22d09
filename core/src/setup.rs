//! Set-up and daily figures: how to put the line up so that it is the line that was calculated,
//! and how to see later that it still is.
//!
//! Two ways show the tension without a load cell: how far a known weight, hung from the middle of
//! a span, pulls the line down, and how long the plucked line takes for a count of swings. Both
//! are cross-checks, subordinate to the system's own indicator and instructions. Each is given
//! with the error of the tension that its reading makes, and read back with
//! [`tension_from_deflection`] and [`tension_from_swings`]. The unknown there is always the
//! pretension at rest: the geometry stays, the pretension that gives the reading is sought.
//!
//! Pluck the line sideways. Sideways it swings as a taut string, f = (1/2L) √(H/μ), whatever its
//! sag. Up and down the sag stiffens it, so that it would read high: hardly on a short tight span,
//! by a tenth of the tension and more on a long or slack one (H. M. Irvine, Cable Structures, MIT
//! Press 1981, chapter 3).
//!
//! Known limits: no friction at the intermediate posts (with it a weight moves a line less, and
//! the tension reads high); posts do not give sideways; the beam keeps its length when the
//! temperature changes, since a rope follows air and sun in minutes and mass concrete hardly.

use alloc::vec::Vec;

use crate::case::{Case, EndPost, Line};
use crate::constants::SAG_RATIO_MAX;
use crate::fault::{Fault, FieldRef};
use crate::field::{self, Basis, Field, Quantity};
use crate::line::{AtRest, unstretched_sagging_m};
use crate::maths::tan;
use crate::quantity::row;
use crate::support::{TiebackGeometry, line_on_posts, tieback_geometry};

use reading::error_ratio;
pub use reading::{Band, TensionReading};
pub use swings::{
    AMPLITUDE_ERROR_RATIO, COUNTABLE_MAX_HZ, COUNTED_SWINGS_MAX, SwingCheck, SwingReading,
    tension_from_swings,
};
use swings::{end_flexibility_m_per_n, frequency_hz, swing_check};
use temperature::temperature_row;
pub use temperature::{
    THERMAL_EXPANSION_PER_K, TemperatureRow, TensionAtTemperature, tension_at_temperature,
};
use weight::{ROOT_RATIO, hung, weight_check};
pub use weight::{WEIGHT_MAX_N, WeightCheck, WeightReading, tension_from_deflection};

mod reading;
mod swings;
mod temperature;
#[cfg(test)]
mod tests;
mod weight;

/// Error of the tension, as a part of it, up to which a reading counts as good enough.
pub const GOOD_READING_RATIO: f64 = 0.05;

/// Angles from the vertical in the table of tiebacks, degrees.
const TABLE_ANGLES_DEG: [f64; 7] = [30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0];

/// Most temperatures of a table.
pub const TEMPERATURES_MAX: usize = 24;

/// Every numeric input of a [`Plan`] and of the readings, as [`crate::field::FIELDS`] for the case.
///
/// Spans are counted from 0; their greatest value is that of the line at hand.
#[rustfmt::skip]
pub const FIELDS: &[Field] = &[
    row("set_up.termination_allowance_m", Quantity::Length, 0.0, 10.0, Basis::CommonPractice),
    row("set_up.fittings_m", Quantity::Length, 0.0, 5.0, Basis::Maker),
    row("set_up.weight_n", Quantity::Force, 1.0, 2_000.0, Basis::CommonPractice),
    row("set_up.reading_error_m", Quantity::Length, 0.0, 0.1, Basis::CommonPractice),
    row("set_up.swings", Quantity::Ratio, 1.0, 500.0, Basis::CommonPractice),
    row("set_up.timing_error_s", Quantity::Time, 0.0, 5.0, Basis::CommonPractice),
    row("set_up.temperatures_k", Quantity::Temperature, 223.15, 333.15, Basis::Site),
    row("reading.weight_n", Quantity::Force, 1.0, 2_000.0, Basis::Site),
    row("reading.movement_m", Quantity::Length, 0.0, 10.0, Basis::Site),
    row("reading.reading_error_m", Quantity::Length, 0.0, 0.1, Basis::CommonPractice),
    row("reading.swings", Quantity::Ratio, 1.0, 500.0, Basis::Site),
    row("reading.time_s", Quantity::Time, 0.01, 600.0, Basis::Site),
    row("reading.timing_error_s", Quantity::Time, 0.0, 5.0, Basis::CommonPractice),
];

/// What the set-up figures are asked for.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Plan {
    /// Rope for both terminations together, m: it is added to the length to cut, half at each end.
    ///
    /// Default 1.0 m: common practice, no source.
    pub termination_allowance_m: f64,
    /// Length of tensioner, shackles and in-line absorber, m, which stand in place of rope at the
    /// right end. Less than the last span.
    pub fittings_m: f64,
    /// Span for weight and swings, counted from 0; `None`: the longest, where both tell most.
    pub span: Option<usize>,
    /// Weight to be hung from the middle of that span, N.
    pub weight_n: f64,
    /// Error of the reading of its movement, m, either way. Default 3 mm: common practice, no
    /// source.
    pub reading_error_m: f64,
    /// Number of swings to be timed, there and back each.
    pub swings: u32,
    /// Error of their time, s, either way. Default 0.2 s: common practice, no source.
    pub timing_error_s: f64,
    /// Temperatures of the table, K, at most [`TEMPERATURES_MAX`].
    pub temperatures_k: Vec<f64>,
}

impl Default for Plan {
    /// 100 N with 3 mm, ten swings with 0.2 s, a table from −20 to 50 °C.
    fn default() -> Self {
        Self {
            termination_allowance_m: 1.0,
            fittings_m: 0.0,
            span: None,
            weight_n: 100.0,
            reading_error_m: 0.003,
            swings: 10,
            timing_error_s: 0.2,
            temperatures_k: (0..8).map(|i| 253.15 + 10.0 * f64::from(i)).collect(),
        }
    }
}

impl Plan {
    /// Every fault of the plan for this line; the fields are named `set_up…`.
    pub fn faults(&self, line: &Line) -> Vec<Fault> {
        let mut faults = Vec::new();
        let mut check = |name, value| check(&mut faults, name, None, value);
        check(
            "set_up.termination_allowance_m",
            self.termination_allowance_m,
        );
        let fittings = check("set_up.fittings_m", self.fittings_m);
        check("set_up.weight_n", self.weight_n);
        check("set_up.reading_error_m", self.reading_error_m);
        check("set_up.swings", f64::from(self.swings));
        check("set_up.timing_error_s", self.timing_error_s);
        let last = line.spans_m.last().copied().unwrap_or(0.0);
        if fittings && self.fittings_m >= last {
            faults.push(Fault::OutOfRange {
                field: FieldRef::new("set_up.fittings_m"),
                value: self.fittings_m,
                min: 0.0,
                max: last,
            });
        }
        if let Some(span) = self.span {
            check_span(&mut faults, "set_up.span", span, line);
        }
        let count = self.temperatures_k.len();
        if count > TEMPERATURES_MAX {
            faults.push(Fault::Count {
                field: FieldRef::new("set_up.temperatures_k"),
                count,
                min: 0,
                max: TEMPERATURES_MAX,
            });
        }
        for (i, &t) in self
            .temperatures_k
            .iter()
            .take(TEMPERATURES_MAX)
            .enumerate()
        {
            self::check(&mut faults, "set_up.temperatures_k", Some(i), t);
        }
        faults
    }
}

/// Checks one value against [`FIELDS`]; true when it is inside.
fn check(faults: &mut Vec<Fault>, name: &'static str, index: Option<usize>, value: f64) -> bool {
    let field = FIELDS.iter().find(|f| f.name == name);
    let fault = field.and_then(|field| field.fault(index, value));
    faults.extend(fault);
    fault.is_none()
}

fn check_span(faults: &mut Vec<Fault>, name: &'static str, span: usize, line: &Line) {
    if span >= line.spans_m.len() {
        faults.push(Fault::OutOfRange {
            field: FieldRef::new(name),
            value: span as f64,
            min: 0.0,
            max: line.spans_m.len().saturating_sub(1) as f64,
        });
    }
}

/// All set-up figures of a case.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct SetUp {
    /// Pretension to be set, N.
    pub pretension_n: f64,
    /// Least pretension within its tolerance, N; not less than a taut line needs.
    pub pretension_low_n: f64,
    /// Greatest pretension within its tolerance, N; not more than rope and in-line absorber bear.
    pub pretension_high_n: f64,
    /// Tieback of the left post; `None`: not described.
    pub left_tieback: Option<TiebackSetUp>,
    /// Tieback of the right post; `None`: not described.
    pub right_tieback: Option<TiebackSetUp>,
    /// Tiebacks at other angles behind a post of this height; empty for a line at beam level.
    pub tieback_table: Vec<TiebackGeometry>,
    /// The rope to be cut.
    pub cut: RopeCut,
    /// Greatest sag of each span at rest, m.
    pub sag_at_rest_m: Vec<f64>,
    /// Tension check with a hung weight.
    pub weight: WeightCheck,
    /// Tension check by swings.
    pub swings: SwingCheck,
    /// The check whose reading makes the smaller error of the tension; swings that nobody can
    /// count are none. `None`: neither tells the tension.
    pub better: Option<Way>,
    /// The line at the temperatures of the plan, in their order.
    pub temperatures: Vec<TemperatureRow>,
    /// The line at today's temperature.
    pub today: TemperatureRow,
}

/// The two ways to see the tension without a load cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Way {
    /// Movement under a hung weight.
    Weight,
    /// Time of a count of swings.
    Swings,
}

/// Where a tieback goes, and what it carries at rest.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct TiebackSetUp {
    /// Set-back, length, angles and force ratios.
    pub geometry: TiebackGeometry,
    /// Set-back that gives 45°, m: the post's height (common practice, no source).
    pub set_back_45_m: f64,
    /// Tension at the pretension of the line when the tieback takes all of it, N.
    pub tension_at_pretension_n: f64,
}

/// The rope to be cut and marked, measured slack and straight.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct RopeCut {
    /// Unstretched length between the end posts, m, fittings included.
    pub unstretched_m: f64,
    /// Length to cut, m: that, less the fittings, with the allowance for both terminations.
    pub cut_m: f64,
    /// Marks from the cut left end, m: at the left termination, at every intermediate post, at the
    /// right termination. At the pretension they come to lie there.
    pub marks_m: Vec<f64>,
    /// Elastic stretch of the rope at the pretension, m: T0 S/EA with S its unstretched length.
    pub elastic_stretch_m: f64,
    /// Inward movement of both ends together from no tension to the pretension, m.
    pub end_movement_m: f64,
    /// Travel that the tensioner needs from taut to the pretension, m: stretch and movement.
    pub take_up_m: f64,
}

/// All set-up figures.
///
/// The stiffness of the ends is that of the posts, where they are described.
///
/// # Errors
/// The faults of the case, of its posts and of the plan.
///
/// # Examples
/// ```
/// use footroom_core::{demo::demo, setup};
/// let figures = setup::set_up(&demo(), &setup::Plan::default()).unwrap();
/// assert_eq!(figures.better, Some(setup::Way::Weight));
/// let wrong = setup::Plan { weight_n: f64::NAN, ..setup::Plan::default() };
/// assert!(setup::set_up(&demo(), &wrong).is_err());
/// ```
pub fn set_up(case: &Case, plan: &Plan) -> Result<SetUp, Vec<Fault>> {
    let mut faults = case.faults();
    faults.extend(plan.faults(&case.line));
    if !faults.is_empty() {
        return Err(faults);
    }
    let line = line_on_posts(&case.line, &case.posts)?;
    let height_m = line.height_above_beam_m;
    let (least, most) = pretension_range_n(&line);
    let tolerance = case.tolerances.pretension_ratio;
    let within = Band {
        low_n: (line.pretension_n * (1.0 - tolerance)).max(least),
        high_n: (line.pretension_n * (1.0 + tolerance)).min(most),
    };
    let span = plan.span.unwrap_or_else(|| longest_span(&line));
    let weight = weight_check(&line, span, plan, within)?;
    let swings = swing_check(&line, span, plan, within);
    let counted = swings.error_ratio.filter(|_| swings.countable);
    let better = match (weight.error_ratio, counted) {
        (None, None) => None,
        (None, Some(_)) => Some(Way::Swings),
        (Some(by_weight), Some(by_swings)) if by_swings < by_weight => Some(Way::Swings),
        (Some(_), _) => Some(Way::Weight),
    };
    let row = |now_k| temperature_row(&line, case, plan, span, now_k);
    let tieback = |post: Option<EndPost>| {
        let geometry = tieback_geometry(post?.tieback?.set_back_m, height_m)?;
        Some(TiebackSetUp {
            geometry,
            set_back_45_m: height_m,
            tension_at_pretension_n: line.pretension_n * geometry.tension_ratio,
        })
    };
    Ok(SetUp {
        pretension_n: line.pretension_n,
        pretension_low_n: within.low_n,
        pretension_high_n: within.high_n,
        left_tieback: tieback(case.posts.left),
        right_tieback: tieback(case.posts.right),
        tieback_table: tieback_table(height_m),
        cut: rope_cut(&line, plan),
        sag_at_rest_m: line.spans_m.iter().map(|&l| sag_m(&line, l)).collect(),
        weight,
        swings,
        better,
        temperatures: plan.temperatures_k.iter().map(|&t| row(t)).collect(),
        today: row(case.temperature.today_k),
    })
}

/// Tiebacks at 30° to 60° from the vertical behind a post of `height_m`; empty unless the height
/// is positive and finite.
pub fn tieback_table(height_m: f64) -> Vec<TiebackGeometry> {
    if !(height_m > 0.0 && height_m.is_finite()) {
        return Vec::new();
    }
    TABLE_ANGLES_DEG
        .iter()
        .filter_map(|degrees| tieback_geometry(height_m * tan(degrees.to_radians()), height_m))
        .collect()
}

/// Least and greatest pretension that a line of this geometry takes, N: the range of the field,
/// taut in every span, within what in-line absorber and rope bear at rest.
fn pretension_range_n(line: &Line) -> (f64, f64) {
    let (low, high) = field::find("line.pretension_n").map_or((0.0, f64::MAX), |f| (f.min, f.max));
    let taut = line.weight_n_per_m() * longest_m(line) / (8.0 * SAG_RATIO_MAX);
    let bearable = line
        .inline_absorber
        .map_or(high, |a| high.min(a.yield_force_n))
        .min(line.rope.breaking_force_n.unwrap_or(high));
    (low.max(taut), bearable)
}

/// The longest span; the first of equals.
fn longest_span(line: &Line) -> usize {
    let mut at = 0;
    for (i, &span) in line.spans_m.iter().enumerate() {
        if span > line.spans_m[at] {
            at = i;
        }
    }
    at
}

fn longest_m(line: &Line) -> f64 {
    line.spans_m.iter().fold(0.0, |a, &b| a.max(b))
}

fn span_m(line: &Line, span: usize) -> f64 {
    line.spans_m.get(span).copied().unwrap_or(0.0)
}

/// Middle of a span, m from the left end post.
fn middle_m(line: &Line, span: usize) -> f64 {
    line.spans_m.iter().take(span).sum::<f64>() + 0.5 * span_m(line, span)
}

/// Sag at rest of a span of this length, m: w L²/(8 H).
fn sag_m(line: &Line, length_m: f64) -> f64 {
    line.weight_n_per_m() * length_m * length_m / (8.0 * line.pretension_n)
}

fn with_pretension(line: &Line, pretension_n: f64) -> Line {
    Line {
        pretension_n,
        ..line.clone()
    }
}

fn rope_cut(line: &Line, plan: &Plan) -> RopeCut {
    let unstretched_m = AtRest::of(line).unstretched_m;
    let before = 0.5 * plan.termination_allowance_m;
    let mut marks_m = alloc::vec![before];
    let mut at = before;
    for &span in &line.spans_m {
        at += unstretched_sagging_m(line, span, line.pretension_n);
        marks_m.push(at);
    }
    if let Some(last) = marks_m.last_mut() {
        *last -= plan.fittings_m;
    }
    let t = line.pretension_n;
    let elastic_stretch_m = t * unstretched_m / line.rope.axial_stiffness_n;
    let end_movement_m = end_flexibility_m_per_n(line) * t;
    RopeCut {
        unstretched_m,
        cut_m: unstretched_m - plan.fittings_m + plan.termination_allowance_m,
        marks_m,
        elastic_stretch_m,
        end_movement_m,
        take_up_m: elastic_stretch_m + end_movement_m,
    }
}
