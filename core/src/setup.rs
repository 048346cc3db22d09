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
use crate::field::{self, Basis, Field, Quantity, field as input};
use crate::line::{AtRest, PointLoad, Static, hang, unstretched_sagging_m};
use crate::maths::{ceil, sqrt, tan};
use crate::roots;
use crate::support::{TiebackGeometry, line_on_posts, tieback_geometry};

/// Thermal expansion of steel, 1/K.
///
/// # Source
/// About 12e-6 /K: any materials handbook.
pub const THERMAL_EXPANSION_PER_K: f64 = 12.0e-6;

/// Error of the tension, as a part of it, up to which a reading counts as good enough.
pub const GOOD_READING_RATIO: f64 = 0.05;

/// Heaviest weight that is proposed, N: what can be carried to the beam and hung by hand.
pub const WEIGHT_MAX_N: f64 = 500.0;

/// Step in which weights are proposed, N.
const WEIGHT_STEP_N: f64 = 10.0;

/// Part of the tension by which a swing of [`SwingCheck::amplitude_max_m`] reads high.
pub const AMPLITUDE_ERROR_RATIO: f64 = 0.01;

/// Frequency up to which full swings can be counted by eye, Hz: common practice, no source.
pub const COUNTABLE_MAX_HZ: f64 = 2.0;

/// Most full swings that somebody is asked to count: common practice, no source.
pub const COUNTED_SWINGS_MAX: u32 = 30;

/// Part of a tension to which the one that gives a movement is found.
const ROOT_RATIO: f64 = 1e-7;

/// Angles from the vertical in the table of tiebacks, degrees.
const TABLE_ANGLES_DEG: [f64; 7] = [30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0];

/// Most temperatures of a table.
pub const TEMPERATURES_MAX: usize = 24;

/// Every numeric input of a [`Plan`] and of the readings, as [`crate::field::FIELDS`] for the case.
///
/// Spans are counted from 0; their greatest value is that of the line at hand.
pub const FIELDS: &[Field] = &[
    input(
        "set_up.termination_allowance_m",
        Quantity::Length,
        0.0,
        10.0,
        Basis::CommonPractice,
    ),
    input(
        "set_up.fittings_m",
        Quantity::Length,
        0.0,
        5.0,
        Basis::Maker,
    ),
    input(
        "set_up.weight_n",
        Quantity::Force,
        1.0,
        2_000.0,
        Basis::CommonPractice,
    ),
    input(
        "set_up.reading_error_m",
        Quantity::Length,
        0.0,
        0.1,
        Basis::CommonPractice,
    ),
    input(
        "set_up.swings",
        Quantity::Ratio,
        1.0,
        500.0,
        Basis::CommonPractice,
    ),
    input(
        "set_up.timing_error_s",
        Quantity::Time,
        0.0,
        5.0,
        Basis::CommonPractice,
    ),
    input(
        "set_up.temperatures_k",
        Quantity::Temperature,
        223.15,
        333.15,
        Basis::Site,
    ),
    input(
        "reading.weight_n",
        Quantity::Force,
        1.0,
        2_000.0,
        Basis::Site,
    ),
    input(
        "reading.movement_m",
        Quantity::Length,
        0.0,
        10.0,
        Basis::Site,
    ),
    input(
        "reading.reading_error_m",
        Quantity::Length,
        0.0,
        0.1,
        Basis::CommonPractice,
    ),
    input("reading.swings", Quantity::Ratio, 1.0, 500.0, Basis::Site),
    input("reading.time_s", Quantity::Time, 0.01, 600.0, Basis::Site),
    input(
        "reading.timing_error_s",
        Quantity::Time,
        0.0,
        5.0,
        Basis::CommonPractice,
    ),
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
    let field = FieldRef { name, index };
    if !value.is_finite() {
        faults.push(Fault::NotFinite { field });
        return false;
    }
    let Some(range) = FIELDS.iter().find(|f| f.name == name) else {
        return true;
    };
    let inside = (range.min..=range.max).contains(&value);
    if !inside {
        faults.push(Fault::OutOfRange {
            field,
            value,
            min: range.min,
            max: range.max,
        });
    }
    inside
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

/// Tension check with a weight hung from the middle of a span.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct WeightCheck {
    /// The span, counted from 0.
    pub span: usize,
    /// Its middle, m from the left end post.
    pub position_m: f64,
    /// The weight, N.
    pub weight_n: f64,
    /// How far the weight pulls the line down from where it rests, m.
    pub movement_m: f64,
    /// The same at the greatest pretension of the tolerance, m.
    pub movement_least_m: f64,
    /// The same at the least pretension of the tolerance, m.
    pub movement_most_m: f64,
    /// Depth of the loaded point below the level of the supports, m.
    pub deflection_m: f64,
    /// Horizontal tension while the weight hangs, N.
    pub tension_loaded_n: f64,
    /// The weight makes an in-line absorber yield: it must not be hung.
    pub absorber_yields: bool,
    /// Error of the tension, as a part of it, that the reading error makes; `None`: more than the
    /// reading tells.
    pub error_ratio: Option<f64>,
    /// Least weight of whole tens of newtons that brings the error to [`GOOD_READING_RATIO`], N;
    /// `None`: none up to [`WEIGHT_MAX_N`] does.
    pub good_weight_n: Option<f64>,
}

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

/// The line at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct TemperatureRow {
    /// Temperature of the rope, K.
    pub temperature_k: f64,
    /// Horizontal tension at rest, N.
    pub tension_n: f64,
    /// Outside the tolerance of the pretension.
    pub beyond_tolerance: bool,
    /// So slack that it no longer counts as a taut line ([`SAG_RATIO_MAX`]).
    pub slack: bool,
    /// The in-line absorber has yielded.
    pub absorber_yields: bool,
    /// Sag at rest of the span of the tension checks, m.
    pub sag_m: f64,
    /// Movement to be read under the weight, m; `None` where the line is slack, pulled beyond what
    /// is taken as a pretension, or its in-line absorber would yield.
    pub movement_m: Option<f64>,
    /// Time to be read for the swings, s.
    pub time_s: f64,
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

/// Tensions between which the pretension may lie.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Band {
    /// The least, N.
    pub low_n: f64,
    /// The greatest, N.
    pub high_n: f64,
}

impl Band {
    /// True when a tension lies between the two, or on one as far as a root is found.
    fn holds(&self, tension_n: f64) -> bool {
        let off = 2.0 * ROOT_RATIO * tension_n;
        self.low_n - off <= tension_n && tension_n <= self.high_n + off
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

/// Inward movement of both ends together per horizontal force, m/N.
fn end_flexibility_m_per_n(line: &Line) -> f64 {
    let one = |k: Option<f64>| k.map_or(0.0, |k| 1.0 / k);
    one(line.left_end_stiffness_n_per_m) + one(line.right_end_stiffness_n_per_m)
}

/// The line with the weight hung from the middle of a span.
struct Hung {
    movement_m: f64,
    deflection_m: f64,
    tension_n: f64,
    yields: bool,
}

fn hung(line: &Line, span: usize, weight_n: f64) -> Result<Hung, Vec<Fault>> {
    let position_m = middle_m(line, span);
    let with = |force_n| {
        hang(
            line,
            &[PointLoad {
                position_m,
                force_n,
            }],
        )
    };
    let at = |still: &Static| still.deflection_m.first().copied().unwrap_or(0.0);
    let still = with(weight_n)?;
    // Not the parabola of the line at rest, which on a slack line is off by a part of a millimetre.
    let rest_m = at(&with(0.0)?);
    Ok(Hung {
        movement_m: at(&still) - rest_m,
        deflection_m: at(&still),
        tension_n: still.tension_horizontal_n,
        yields: still.inline_extension_m > 0.0,
    })
}

fn weight_check(
    line: &Line,
    span: usize,
    plan: &Plan,
    within: Band,
) -> Result<WeightCheck, Vec<Fault>> {
    let at = |pretension_n| hung(&with_pretension(line, pretension_n), span, plan.weight_n);
    let set = hung(line, span, plan.weight_n)?;
    Ok(WeightCheck {
        span,
        position_m: middle_m(line, span),
        weight_n: plan.weight_n,
        movement_m: set.movement_m,
        movement_least_m: at(within.high_n)?.movement_m,
        movement_most_m: at(within.low_n)?.movement_m,
        deflection_m: set.deflection_m,
        tension_loaded_n: set.tension_n,
        absorber_yields: set.yields,
        error_ratio: weight_error(line, span, plan.weight_n, plan.reading_error_m),
        good_weight_n: good_weight_n(line, span, plan.reading_error_m),
    })
}

/// Error of the tension, as a part of it, that a reading error makes under this weight.
fn weight_error(line: &Line, span: usize, weight_n: f64, reading_error_m: f64) -> Option<f64> {
    let set = hung(line, span, weight_n).ok()?;
    if set.yields {
        return None;
    }
    Curve::of(line, span, weight_n)
        .read(set.movement_m, reading_error_m)?
        .error_ratio
}

/// Least weight of whole steps that brings the error down to what counts as good.
///
/// A heavier weight is not always better, since it tightens a soft line: the steps are tried in
/// turn, each by the slope of the movement first, and proved by reading back.
fn good_weight_n(line: &Line, span: usize, reading_error_m: f64) -> Option<f64> {
    let (low, high) = pretension_range_n(line);
    let below = (line.pretension_n * 0.99).max(low);
    let above = (line.pretension_n * 1.01).min(high);
    let (looser, tighter) = (with_pretension(line, below), with_pretension(line, above));
    let mut weight_n = WEIGHT_STEP_N;
    while weight_n <= WEIGHT_MAX_N {
        let far = hung(&looser, span, weight_n).ok()?;
        let near = hung(&tighter, span, weight_n).ok()?;
        if far.yields || near.yields {
            return None;
        }
        let per_part = (far.movement_m - near.movement_m) * line.pretension_n / (above - below);
        if reading_error_m <= GOOD_READING_RATIO * per_part {
            // A weight that does not tell leaves a heavier one to tell even less.
            if weight_error(line, span, weight_n, reading_error_m)? <= GOOD_READING_RATIO {
                return Some(weight_n);
            }
        }
        weight_n += WEIGHT_STEP_N;
    }
    None
}

/// Movement under a weight against the pretension at rest.
///
/// It falls as the pretension rises, but only while the line is taut: a slack one is straightened
/// by the weight rather than moved by it. So one reading may fit several pretensions.
struct Curve<'a> {
    line: &'a Line,
    span: usize,
    weight_n: f64,
    /// Pretension, N, and movement, m, from the greatest pretension down, as far as the in-line
    /// absorber does not yield; the turns of the curve are among them.
    points: Vec<(f64, f64)>,
}

impl<'a> Curve<'a> {
    fn of(line: &'a Line, span: usize, weight_n: f64) -> Self {
        const STEP: f64 = 0.9;
        let (low, high) = pretension_range_n(line);
        let mut curve = Self {
            line,
            span,
            weight_n,
            points: Vec::new(),
        };
        let mut pretension_n = high;
        loop {
            if let Some(movement_m) = curve.at(pretension_n) {
                curve.points.push((pretension_n, movement_m));
            }
            // Written so that a value that is not a number ends the walk too.
            if pretension_n > low {
                pretension_n = (pretension_n * STEP).max(low);
            } else {
                break;
            }
        }
        let turns: Vec<(f64, f64)> = curve
            .points
            .windows(3)
            .filter_map(|three| curve.turn(three))
            .collect();
        curve.points.extend(turns);
        curve.points.sort_by(|a, b| b.0.total_cmp(&a.0));
        curve
    }

    fn at(&self, pretension_n: f64) -> Option<f64> {
        hung(
            &with_pretension(self.line, pretension_n),
            self.span,
            self.weight_n,
        )
        .ok()
        .filter(|h| !h.yields)
        .map(|h| h.movement_m)
    }

    /// Where the curve turns between the outer two of three points; `None` where it does not.
    ///
    /// Between the points it would rise or fall by more than the error of a reading.
    fn turn(&self, three: &[(f64, f64)]) -> Option<(f64, f64)> {
        // Thirds: 2/3 of the interval stay each time, a thousandth of it in the end.
        const ROUNDS: usize = 18;
        let &[(mut high, first), (_, middle), (mut low, last)] = three else {
            return None;
        };
        let sign = if middle > first && middle >= last {
            1.0
        } else if middle < first && middle <= last {
            -1.0
        } else {
            return None;
        };
        for _ in 0..ROUNDS {
            let third = (high - low) / 3.0;
            let (below, above) = (low + third, high - third);
            if sign * self.at(below)? > sign * self.at(above)? {
                high = above;
            } else {
                low = below;
            }
        }
        let pretension_n = 0.5 * (low + high);
        Some((pretension_n, self.at(pretension_n)?))
    }

    /// Pretensions that give this movement, the greatest first.
    fn roots(&self, movement_m: f64) -> impl Iterator<Item = f64> {
        self.points.windows(2).filter_map(move |pair| {
            let [(high, tight), (low, loose)] = *pair else {
                return None;
            };
            // Half-open, so that a point of the walk counts once.
            let crosses = (tight <= movement_m) != (loose <= movement_m);
            crosses.then(|| {
                roots::bracketed(
                    |p| self.at(p).map_or(f64::NAN, |m| m - movement_m),
                    low,
                    high,
                    ROOT_RATIO * high,
                )
                .x
            })
        })
    }

    /// All pretensions whose movement is this one within its error, the greatest first.
    fn fits(&self, movement_m: f64, error_m: f64) -> Vec<Band> {
        let (Some(&(greatest, _)), Some(&(least, _))) = (self.points.first(), self.points.last())
        else {
            return Vec::new();
        };
        let mut edges: Vec<f64> = self
            .roots(movement_m + error_m)
            .chain(self.roots(movement_m - error_m))
            .chain([greatest, least])
            .collect();
        edges.sort_by(|a, b| b.total_cmp(a));
        let mut bands: Vec<Band> = Vec::new();
        for pair in edges.windows(2) {
            let [high_n, low_n] = *pair else { continue };
            let middle = self.at(0.5 * (low_n + high_n));
            if !middle.is_some_and(|m| (m - movement_m).abs() <= error_m) {
                continue;
            }
            match bands.last_mut() {
                Some(last) if last.low_n <= high_n => last.low_n = low_n,
                _ => bands.push(Band { low_n, high_n }),
            }
        }
        // A band may be narrower than a root is found.
        for root in self.roots(movement_m) {
            if !bands.iter().any(|band| band.holds(root)) {
                bands.push(Band {
                    low_n: root,
                    high_n: root,
                });
            }
        }
        bands.sort_by(|a, b| b.high_n.total_cmp(&a.high_n));
        bands
    }

    /// The pretension that fits a movement, nearest to the one that was set, with the band around
    /// it in which the movement stays within its error, and all other such bands.
    fn read(&self, movement_m: f64, error_m: f64) -> Option<TensionReading> {
        let set = self.line.pretension_n;
        let away = |t: f64| (t / set).max(set / t);
        let tension_n = self
            .roots(movement_m)
            .min_by(|&a, &b| away(a).total_cmp(&away(b)))
            .or_else(|| {
                // At a turn the movement may miss the reading by less than its error.
                let off = |m: f64| (m - movement_m).abs();
                let points = self.points.iter().filter(|&&(_, m)| off(m) <= error_m);
                points
                    .min_by(|a, b| off(a.1).total_cmp(&off(b.1)))
                    .map(|&(tension_n, _)| tension_n)
            })?;
        let mut others = self.fits(movement_m, error_m);
        let own = others.iter().position(|band| band.holds(tension_n))?;
        let own = others.remove(own);
        let (greatest, least) = (self.points.first()?.0, self.points.last()?.0);
        let low_n = (own.low_n > least).then_some(own.low_n);
        let high_n = (own.high_n < greatest).then_some(own.high_n);
        // Another pretension is told apart by eye where the line at rest hangs differently by more
        // than the movement that was read.
        let sag = |tension_n| sag_m(&with_pretension(self.line, tension_n), self.length_m());
        let tells = others.iter().all(|other| {
            let (looser, tighter) = if other.high_n <= own.low_n {
                (other.high_n, own.low_n)
            } else {
                (own.high_n, other.low_n)
            };
            sag(looser) - sag(tighter) > movement_m
        });
        let ends = low_n.zip(high_n).filter(|_| tells);
        Some(TensionReading {
            tension_n,
            low_n,
            high_n,
            error_ratio: ends.map(|ends| error_ratio(tension_n, ends)),
            others,
        })
    }

    fn length_m(&self) -> f64 {
        span_m(self.line, self.span)
    }
}

/// Frequency of a span swinging sideways under horizontal tension `tension_n`, Hz.
///
/// # Source
/// (1/2L) √(H/μ), fundamental frequency of a taut string: any physics handbook.
fn frequency_hz(line: &Line, span: usize, tension_n: f64) -> f64 {
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

/// The greater distance from a tension to the ends of its band, as a part of it.
fn error_ratio(tension_n: f64, (low_n, high_n): (f64, f64)) -> f64 {
    (high_n / tension_n - 1.0).max(1.0 - low_n / tension_n)
}

fn swing_check(line: &Line, span: usize, plan: &Plan, within: Band) -> SwingCheck {
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

/// Horizontal tension at rest after a change of temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct TensionAtTemperature {
    /// Horizontal tension, N.
    pub tension_n: f64,
    /// The in-line absorber has yielded, by this much, m, both together where there are two; 0: it
    /// has not.
    pub inline_extension_m: f64,
}

/// Horizontal tension at rest of a line installed at one temperature and now at another: the line
/// law with the unstretched rope longer by the thermal expansion, ends moving by (H − T0)/k.
///
/// # Errors
/// The faults of the line; a temperature outside its range, named `temperature.…`.
///
/// # Accuracy
/// As the parabola of the line at rest; a line that ends slack ([`SAG_RATIO_MAX`]) only roughly.
///
/// # Source
/// Expansion: [`THERMAL_EXPANSION_PER_K`].
///
/// # Examples
/// ```
/// use footroom_core::{case::Line, setup::tension_at_temperature};
/// let line = Line::default();
/// let cold = tension_at_temperature(&line, 293.15, 273.15).unwrap();
/// assert!(cold.tension_n > line.pretension_n);
/// assert!(tension_at_temperature(&line, 293.15, f64::NAN).is_err());
/// ```
pub fn tension_at_temperature(
    line: &Line,
    installed_k: f64,
    now_k: f64,
) -> Result<TensionAtTemperature, Vec<Fault>> {
    let mut faults = line.line_faults();
    for (name, value) in [
        ("temperature.installed_k", installed_k),
        ("temperature.today_k", now_k),
    ] {
        let field = FieldRef::new(name);
        let (min, max) = field::find(name).map_or((0.0, f64::MAX), |f| (f.min, f.max));
        if !value.is_finite() {
            faults.push(Fault::NotFinite { field });
        } else if !(min..=max).contains(&value) {
            faults.push(Fault::OutOfRange {
                field,
                value,
                min,
                max,
            });
        }
    }
    if faults.is_empty() {
        Ok(after_warming(line, now_k - installed_k))
    } else {
        Err(faults)
    }
}

/// The line law at rest after warming by `warming_k`.
fn after_warming(line: &Line, warming_k: f64) -> TensionAtTemperature {
    let rope_m = AtRest::of(line).unstretched_m * (1.0 + THERMAL_EXPANSION_PER_K * warming_k);
    let last = line.spans_m.len().saturating_sub(1);
    // Rope needed at tension H less the rope there is; falls as H rises.
    let excess_m = |h: f64| {
        let movement = |k: Option<f64>| k.map_or(0.0, |k| (h - line.pretension_n) / k);
        let mut needed = -rope_m;
        for (i, &span) in line.spans_m.iter().enumerate() {
            let mut length = span;
            if i == 0 {
                length -= movement(line.left_end_stiffness_n_per_m);
            }
            if i == last {
                length -= movement(line.right_end_stiffness_n_per_m);
            }
            needed += unstretched_sagging_m(line, length, h);
        }
        needed
    };
    let tension_given_n = |extension_m: f64| {
        // The extended absorber is a straight piece in line with the rope.
        let f = |h: f64| excess_m(h) - extension_m / (1.0 + h / line.rope.axial_stiffness_n);
        let (mut low, mut high) = (line.pretension_n, line.pretension_n);
        while f(high) > 0.0 && high < 1.0e9 {
            high *= 1.5;
        }
        while f(low) < 0.0 && low > 1.0e-2 {
            low /= 1.5;
        }
        roots::bracketed(f, low, high, 1e-9 * high).x
    };
    let mut at = TensionAtTemperature {
        tension_n: tension_given_n(0.0),
        inline_extension_m: 0.0,
    };
    let Some(inline) = line.inline_absorber else {
        return at;
    };
    // Of two the one yields first whose end has the greater tension, beside the longer span.
    let left_first = span_m(line, 0) > span_m(line, last);
    let ends = if left_first { [0, 1] } else { [1, 0] };
    for end in ends.into_iter().filter(|end| inline.place.is_at(*end)) {
        // Horizontal tension at which the tension at that end is the yield force.
        let beside_m = span_m(line, if end == 0 { 0 } else { last });
        let v = 0.5 * line.weight_n_per_m() * beside_m;
        let yield_h = sqrt((inline.yield_force_n * inline.yield_force_n - v * v).max(0.0));
        if at.tension_n <= yield_h {
            break;
        }
        let given_m = at.inline_extension_m;
        let stretch = 1.0 + yield_h / line.rope.axial_stiffness_n;
        let extension = excess_m(yield_h) * stretch - given_m;
        if extension <= inline.max_extension_m {
            return TensionAtTemperature {
                tension_n: yield_h,
                inline_extension_m: given_m + extension,
            };
        }
        let given_m = given_m + inline.max_extension_m;
        at = TensionAtTemperature {
            tension_n: tension_given_n(given_m),
            inline_extension_m: given_m,
        };
    }
    at
}

fn temperature_row(
    line: &Line,
    case: &Case,
    plan: &Plan,
    span: usize,
    now_k: f64,
) -> TemperatureRow {
    let at = after_warming(line, now_k - case.temperature.installed_k);
    let now = with_pretension(line, at.tension_n);
    let tension = at.tension_n;
    let taut = now.weight_n_per_m() * longest_m(line) / (8.0 * SAG_RATIO_MAX);
    let off = (tension / line.pretension_n - 1.0).abs();
    TemperatureRow {
        temperature_k: now_k,
        tension_n: tension,
        beyond_tolerance: off > case.tolerances.pretension_ratio,
        slack: tension < taut,
        absorber_yields: at.inline_extension_m > 0.0,
        sag_m: sag_m(&now, span_m(line, span)),
        movement_m: hung(&now, span, plan.weight_n)
            .ok()
            .filter(|h| !h.yields)
            .map(|h| h.movement_m),
        time_s: f64::from(plan.swings) / frequency_hz(line, span, tension),
    }
}

/// A movement read under a hung weight.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct WeightReading {
    /// Span with the weight at its middle, counted from 0.
    pub span: usize,
    /// The weight, N.
    pub weight_n: f64,
    /// How far it pulled the line down from where it rested, m.
    pub movement_m: f64,
    /// Error of that reading, m, either way.
    pub reading_error_m: f64,
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

/// A pretension read back.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct TensionReading {
    /// Horizontal tension at rest, N; where several fit, the one nearest to what was set.
    pub tension_n: f64,
    /// The least that fits the reading with its error, N; `None`: less than the model takes.
    pub low_n: Option<f64>,
    /// The greatest that fits the reading with its error, N; `None`: more than the model takes.
    pub high_n: Option<f64>,
    /// The greater distance to the two, as a part of the tension; `None`: the reading does not
    /// tell, because one of the two is not known, or because another pretension fits as well that
    /// the sag at rest does not tell apart.
    pub error_ratio: Option<f64>,
    /// Other pretensions that fit the reading with its error, the greatest first: on a slack line
    /// the weight straightens the line rather than moving it. Look at the sag at rest.
    pub others: Vec<Band>,
}

/// The pretension at rest from how far a hung weight pulled the line down.
///
/// Geometry, rope and ends are those of `line`; its pretension is what is sought. The one that
/// `line` has, as set, only decides which is named first where several fit.
///
/// # Errors
/// The faults of the line and of the reading (`reading…`). A movement that no pretension of this
/// line gives within the error: the fault holds the least and the greatest that one does.
///
/// # Accuracy
/// The root is found to 1e-7 of the tension; the model as [`hang`].
///
/// # Examples
/// ```
/// use footroom_core::case::Line;
/// use footroom_core::setup::{WeightReading, tension_from_deflection};
/// let reading = WeightReading {
///     span: 0,
///     weight_n: 100.0,
///     movement_m: 0.063,
///     reading_error_m: 0.003,
/// };
/// let tension = tension_from_deflection(&Line::default(), &reading).unwrap();
/// assert!((tension.tension_n / 4_400.0 - 1.0).abs() < 0.02);
/// let wrong = WeightReading { movement_m: 5.0, ..reading };
/// assert!(tension_from_deflection(&Line::default(), &wrong).is_err());
/// ```
pub fn tension_from_deflection(
    line: &Line,
    reading: &WeightReading,
) -> Result<TensionReading, Vec<Fault>> {
    let mut faults = line.line_faults();
    check_span(&mut faults, "reading.span", reading.span, line);
    for (name, value) in [
        ("reading.weight_n", reading.weight_n),
        ("reading.movement_m", reading.movement_m),
        ("reading.reading_error_m", reading.reading_error_m),
    ] {
        check(&mut faults, name, None, value);
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let curve = Curve::of(line, reading.span, reading.weight_n);
    curve
        .read(reading.movement_m, reading.reading_error_m)
        .ok_or_else(|| {
            let movements = || curve.points.iter().map(|&(_, movement)| movement);
            alloc::vec![Fault::OutOfRange {
                field: FieldRef::new("reading.movement_m"),
                value: reading.movement_m,
                min: movements().fold(f64::MAX, f64::min),
                max: movements().fold(0.0, f64::max),
            }]
        })
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{InlineAbsorber, Posts, Temperature, Worker};
    use crate::line::settle;
    use crate::rope::CATALOGUE;
    use alloc::vec;

    /// One 12 m span of the default rope at 4.4 kN on rigid ends.
    fn case() -> Case {
        Case {
            workers: vec![Worker::default()],
            ..Case::default()
        }
    }

    fn near(found: f64, wanted: f64, ratio: f64) -> bool {
        (found / wanted - 1.0).abs() <= ratio
    }

    /// Published value 17, and the figures that the design notes draw from it.
    #[test]
    fn twelve_metres_at_4_4_kn_swing_at_about_4_6_hz() {
        let swings = set_up(&case(), &Plan::default()).unwrap().swings;
        assert!(near(swings.frequency_hz, 4.6, 0.005), "{swings:?}");
        assert!(!swings.countable);
        // 0.2 s on ten swings: "about 20 % of the tension".
        let error = swings.error_ratio.unwrap();
        assert!((0.18..0.22).contains(&error), "{error}");
        assert!(swings.time_least_s < swings.time_s && swings.time_s < swings.time_most_s);
        // Tension goes with the square of the frequency.
        assert!(near(swings.time_s / swings.time_least_s, sqrt(1.1), 1e-12));
    }

    /// A line slow enough to be counted: a heavy rope at little tension.
    fn slow() -> Case {
        let mut case = case();
        case.line.pretension_n = 1_500.0;
        case.line.rope.mass_per_length_kg_per_m = 0.9;
        case
    }

    #[test]
    fn the_proposed_swings_are_just_enough() {
        for timing_error_s in [0.05, 0.1, 0.2] {
            let plan = |swings| Plan {
                timing_error_s,
                swings,
                ..Plan::default()
            };
            let swings = set_up(&slow(), &plan(10)).unwrap().swings;
            assert!(swings.countable, "{swings:?}");
            let good = swings.good_swings.unwrap();
            let error = |swings| {
                let figures = set_up(&slow(), &plan(swings)).unwrap();
                figures.swings.error_ratio.unwrap()
            };
            assert!(error(good) <= GOOD_READING_RATIO, "{good}");
            assert!(error(good - 1) > GOOD_READING_RATIO, "{good}");
            let good_s = swings.good_time_s.unwrap();
            assert!(near(good_s, f64::from(good) / swings.frequency_hz, 1e-12));
        }
    }

    /// Fifty swings in eight seconds cannot be counted: none are proposed, and the weight is the
    /// better way, whatever the errors.
    #[test]
    fn no_swings_are_proposed_that_nobody_can_count() {
        let exact = Plan {
            timing_error_s: 0.001,
            ..Plan::default()
        };
        for plan in [Plan::default(), exact] {
            let figures = set_up(&case(), &plan).unwrap();
            assert!(!figures.swings.countable);
            let proposed = (figures.swings.good_swings, figures.swings.good_time_s);
            assert_eq!(proposed, (None, None));
            assert_eq!(figures.better, Some(Way::Weight));
        }
        // Slow enough, but a rough time would take too many.
        let rough = Plan {
            timing_error_s: 1.0,
            ..Plan::default()
        };
        let swings = set_up(&slow(), &rough).unwrap().swings;
        assert!(swings.countable);
        assert_eq!(swings.good_swings, None);
    }

    /// The design notes say 67 mm for 100 N. The linear P L/(4 H) is 68 mm; the line tightens
    /// under the weight, by 7 % on rigid ends, so that it moves less.
    #[test]
    fn a_hundred_newtons_pull_twelve_metres_down_by_about_67_mm() {
        let weight = set_up(&case(), &Plan::default()).unwrap().weight;
        assert!(near(weight.movement_m, 0.067, 0.10), "{weight:?}");
        let linear_m = 100.0 * 12.0 / (4.0 * 4_400.0);
        assert!(weight.movement_m < linear_m);
        // The cable theorem with the tension that the statics found is exact.
        let rope_m = case().line.weight_n_per_m() * 12.0 * 12.0 / 8.0;
        let theorem_m = (0.25 * 100.0 * 12.0 + rope_m) / weight.tension_loaded_n;
        assert!(near(weight.deflection_m, theorem_m, 1e-6));
        assert!(weight.movement_least_m < weight.movement_m);
        assert!(weight.movement_m < weight.movement_most_m);
        // 3 mm on that reading: about 5 % by the linear formula, somewhat more by the statics.
        let error = weight.error_ratio.unwrap();
        assert!((0.04..0.07).contains(&error), "{error}");
    }

    #[test]
    fn a_small_weight_on_a_tight_line_moves_it_as_the_linear_formula_says() {
        let mut case = case();
        case.line.pretension_n = 30.0e3;
        let plan = Plan {
            weight_n: 20.0,
            ..Plan::default()
        };
        let weight = set_up(&case, &plan).unwrap().weight;
        let linear_m = 20.0 * 12.0 / (4.0 * 30.0e3);
        assert!(near(weight.movement_m, linear_m, 1e-3), "{weight:?}");
    }

    #[test]
    fn the_proposed_weight_is_enough_and_a_step_less_is_not() {
        for reading_error_m in [0.001, 0.002, 0.003] {
            let line = case().line;
            let good = good_weight_n(&line, 0, reading_error_m).unwrap();
            let error = |weight_n| weight_error(&line, 0, weight_n, reading_error_m).unwrap();
            assert!(error(good) <= GOOD_READING_RATIO, "{good}");
            // The search asks the slope first, which is a little kinder than reading back.
            assert!(
                error(good - WEIGHT_STEP_N) > 0.97 * GOOD_READING_RATIO,
                "{good}"
            );
        }
        assert_eq!(good_weight_n(&case().line, 0, 0.1), None);
    }

    fn lines() -> Vec<Line> {
        let with = |spans_m: Vec<f64>, row: usize, k: Option<f64>| Line {
            spans_m,
            rope: CATALOGUE[row].rope,
            left_end_stiffness_n_per_m: k,
            right_end_stiffness_n_per_m: k.map(|k| 0.7 * k),
            ..Line::default()
        };
        vec![
            with(vec![12.0], 2, None),
            with(vec![12.0], 2, Some(1.0e6)),
            with(vec![9.0, 9.0], 2, Some(5.0e5)),
            with(vec![6.0, 12.0, 8.0], 4, Some(1.0e6)),
            with(vec![15.0], 0, None),
            Line {
                inline_absorber: Some(InlineAbsorber::default()),
                ..with(vec![10.0], 2, None)
            },
        ]
    }

    #[test]
    fn a_tension_is_read_back_from_the_movement() {
        for line in lines() {
            let span = longest_span(&line);
            for true_n in [2_800.0, 4_400.0, 6_500.0] {
                for weight_n in [60.0, 100.0, 200.0] {
                    // The line is thought to be at 4.4 kN; it is at another tension.
                    let there = hung(&with_pretension(&line, true_n), span, weight_n).unwrap();
                    let reading = WeightReading {
                        span,
                        weight_n,
                        movement_m: there.movement_m,
                        reading_error_m: 0.002,
                    };
                    let read = tension_from_deflection(&line, &reading).unwrap();
                    assert!(near(read.tension_n, true_n, 1e-4), "{read:?} {line:?}");
                    let (low, high) = (read.low_n.unwrap(), read.high_n.unwrap());
                    assert!(low < true_n && true_n < high, "{read:?}");
                    // The ends of the band are where the movement is off by the error.
                    for (end, off) in [(low, 0.002), (high, -0.002)] {
                        let m = hung(&with_pretension(&line, end), span, weight_n).unwrap();
                        assert!((m.movement_m - there.movement_m - off).abs() < 1e-6);
                    }
                }
            }
        }
    }

    #[test]
    fn a_tension_is_read_back_from_the_swings() {
        for line in lines() {
            let span = longest_span(&line);
            for true_n in [1_000.0, 4_400.0, 20_000.0] {
                let reading = SwingReading {
                    span,
                    swings: 40,
                    time_s: 40.0 / frequency_hz(&line, span, true_n),
                    timing_error_s: 0.2,
                };
                let read = tension_from_swings(&line, &reading).unwrap();
                assert!(near(read.tension_n, true_n, 1e-12));
                assert!(read.low_n.unwrap() < true_n && true_n < read.high_n.unwrap());
            }
        }
    }

    /// A 16 mm rope over 30 m at 4 kN: as much movement at two more pretensions, one of them
    /// close by.
    #[test]
    fn a_reading_that_fits_several_tensions_says_so() {
        let line = Line {
            spans_m: vec![30.0],
            pretension_n: 4_000.0,
            rope: CATALOGUE[6].rope,
            ..Line::default()
        };
        let movement_m = hung(&line, 0, 100.0).unwrap().movement_m;
        let reading = WeightReading {
            span: 0,
            weight_n: 100.0,
            movement_m,
            reading_error_m: 0.0001,
        };
        let read = tension_from_deflection(&line, &reading).unwrap();
        assert!(near(read.tension_n, 4_000.0, 1e-4), "{read:?}");
        assert!(!read.others.is_empty());
        assert_eq!(read.error_ratio, None);
        for other in &read.others {
            for end in [other.low_n, other.high_n] {
                let there = hung(&with_pretension(&line, end), 0, 100.0).unwrap();
                let off_m = (there.movement_m - movement_m).abs();
                assert!((off_m - 0.0001).abs() < 1e-6, "{end}");
                assert!(!near(end, 4_000.0, 0.05), "{end}");
            }
        }
        let mut case = case();
        case.line = line;
        let figures = set_up(&case, &Plan::default()).unwrap();
        let error = figures.weight.error_ratio;
        assert!(error.is_none_or(|e| e > GOOD_READING_RATIO), "{error:?}");
        assert_eq!(figures.better, Some(Way::Swings));
    }

    /// 200 N on the default line: the same movement as of a line that hangs down a third of a metre.
    #[test]
    fn a_second_tension_that_the_sag_tells_apart_does_not_spoil_the_reading() {
        let line = case().line;
        let reading = WeightReading {
            span: 0,
            weight_n: 200.0,
            movement_m: hung(&line, 0, 200.0).unwrap().movement_m,
            reading_error_m: 0.003,
        };
        let read = tension_from_deflection(&line, &reading).unwrap();
        assert!(!read.others.is_empty());
        assert!(read.error_ratio.is_some_and(|e| e < GOOD_READING_RATIO));
        for other in &read.others {
            let sag = |t: f64| sag_m(&with_pretension(&line, t), 12.0);
            assert!(sag(other.high_n) > sag(read.tension_n) + reading.movement_m);
        }
    }

    #[cfg(feature = "serde")]
    #[test]
    fn inputs_are_read_with_defaults_and_nothing_unknown() {
        let plan: Plan = serde_json::from_str("{}").unwrap();
        assert_eq!(plan, Plan::default());
        assert!(serde_json::from_str::<Plan>(r#"{"weight_kg": 10}"#).is_err());
        let reading = r#"{"span":0,"swings":10,"time_s":2.2,"timing_error_s":0.2}"#;
        assert!(serde_json::from_str::<SwingReading>(reading).is_ok());
        let figures = set_up(&case(), &Plan::default()).unwrap();
        let text = serde_json::to_string(&figures).unwrap();
        // No number of an ordinary case is lost as null beside what is absent by design.
        // Two tiebacks that are not described, and the count of swings that nobody can make.
        assert_eq!(text.matches("null").count(), 4, "{text}");
    }

    #[test]
    fn a_weight_that_would_open_the_absorber_is_not_to_be_hung() {
        let mut case = case();
        case.line.inline_absorber = Some(InlineAbsorber {
            yield_force_n: 4_500.0,
            max_extension_m: 1.0,
            ..InlineAbsorber::default()
        });
        let figures = set_up(&case, &Plan::default()).unwrap();
        assert!(figures.weight.absorber_yields);
        assert_eq!(figures.weight.error_ratio, None);
        assert_eq!(figures.pretension_high_n, 4_500.0);
        // Its swings are too quick to be counted: neither way tells.
        assert_eq!(figures.better, None);
    }

    #[test]
    fn the_amplitude_makes_the_error_that_it_is_given_for() {
        // Arc of a sin(πx/L) by the trapezium rule, and Duffing's 3/4 of the added tension.
        let line = case().line;
        let a = set_up(&case(), &Plan::default())
            .unwrap()
            .swings
            .amplitude_max_m;
        let (pi, n) = (core::f64::consts::PI, 2_000);
        let mut arc_m = 0.0;
        for i in 0..n {
            let x = |i: i32| 12.0 * f64::from(i) / f64::from(n);
            let y = |i: i32| a * libm::sin(pi * x(i) / 12.0);
            let (dx, dy) = (x(i + 1) - x(i), y(i + 1) - y(i));
            arc_m += sqrt(dx * dx + dy * dy);
        }
        let added_n = line.rope.axial_stiffness_n * (arc_m - 12.0) / 12.0;
        let error = 0.75 * added_n / line.pretension_n;
        assert!(near(error, AMPLITUDE_ERROR_RATIO, 1e-3), "{error}");
    }

    /// ΔH = −α ΔT S/(S/EA + 1/k_left + 1/k_right) where the sag does not matter.
    #[test]
    fn temperature_follows_the_closed_form_of_a_straight_line() {
        for k in [None, Some(8.0e5)] {
            let line = Line {
                spans_m: vec![3.0, 3.0],
                pretension_n: 12.0e3,
                left_end_stiffness_n_per_m: k,
                right_end_stiffness_n_per_m: k,
                ..Line::default()
            };
            for warming_k in [-40.0, -10.0, 10.0, 40.0] {
                let flexibility =
                    6.0 / line.rope.axial_stiffness_n + end_flexibility_m_per_n(&line);
                let change = -THERMAL_EXPANSION_PER_K * warming_k * 6.0 / flexibility;
                let at = tension_at_temperature(&line, 293.15, 293.15 + warming_k).unwrap();
                assert!(near(at.tension_n - 12.0e3, change, 0.01), "{at:?} {change}");
            }
        }
    }

    /// The same rope, lengthened by hand and settled with the arc by quadrature.
    #[test]
    fn temperature_agrees_with_the_statics_of_the_lengthened_rope() {
        for line in lines() {
            for warming_k in [-40.0, 20.0, 40.0] {
                let at = after_warming(&line, warming_k);
                let rest = AtRest {
                    unstretched_m: AtRest::of(&line).unstretched_m
                        * (1.0 + THERMAL_EXPANSION_PER_K * warming_k),
                };
                let still = settle(&line, &rest, &[], [0.0; 2]);
                assert!(
                    near(at.tension_n, still.tension_horizontal_n, 1e-3),
                    "{warming_k}: {at:?} {still:?}"
                );
            }
        }
    }

    #[test]
    fn warmer_is_slacker_and_yielding_ends_or_sag_soften_it() {
        let tension = |line: &Line, k: f64| tension_at_temperature(line, 293.15, k).unwrap();
        for line in lines() {
            let mut before = f64::MAX;
            for step in 0..11 {
                let at = tension(&line, 228.15 + 10.0 * f64::from(step)).tension_n;
                assert!(at < before && at > 0.0, "{at}");
                before = at;
            }
            let same = tension(&line, 293.15).tension_n;
            assert!(near(same, line.pretension_n, 1e-9));
        }
        let rigid = case().line;
        let soft = Line {
            left_end_stiffness_n_per_m: Some(2.0e5),
            ..rigid.clone()
        };
        assert!(tension(&soft, 313.15).tension_n > tension(&rigid, 313.15).tension_n);
        // Far below what a straight line would keep, the sag still holds some tension.
        let thin = Line {
            pretension_n: 600.0,
            ..rigid
        };
        let hot = tension(&thin, 323.15).tension_n;
        assert!(hot > 0.0 && hot < 600.0, "{hot}");
    }

    #[test]
    fn cold_opens_an_in_line_absorber_once() {
        let line = |max_extension_m| Line {
            inline_absorber: Some(InlineAbsorber {
                yield_force_n: 4_600.0,
                max_extension_m,
                ..InlineAbsorber::default()
            }),
            ..Line::default()
        };
        let at = |line: &Line| tension_at_temperature(line, 293.15, 253.15).unwrap();
        let open = at(&line(1.0));
        assert!(near(open.tension_n, 4_600.0, 1e-4), "{open:?}");
        // What the cold takes, less the stretch from 4.4 to 4.6 kN.
        let taken = THERMAL_EXPANSION_PER_K * 40.0 * 12.0;
        let stretch = 200.0 * 12.0 / line(1.0).rope.axial_stiffness_n;
        assert!(near(open.inline_extension_m, taken - stretch, 0.02));
        // Barely long enough to be used up: the tension rises again.
        let short = Line {
            inline_absorber: Some(InlineAbsorber {
                yield_force_n: 4_600.0,
                max_extension_m: 0.002,
                ..InlineAbsorber::default()
            }),
            ..Line::default()
        };
        let used = after_warming(&short, -40.0);
        assert_eq!(used.inline_extension_m, 0.002);
        let bare = after_warming(&Line::default(), -40.0).tension_n;
        assert!(used.tension_n > 4_600.0 && used.tension_n < bare);
        let mut case = case();
        case.line = line(1.0);
        case.temperature = Temperature {
            today_k: 253.15,
            ..Temperature::default()
        };
        let today = set_up(&case, &Plan::default()).unwrap().today;
        assert!(today.absorber_yields);
        assert_eq!(today.movement_m, None);
    }

    #[test]
    fn a_row_flags_what_leaves_the_tolerance_or_goes_slack() {
        let mut case = case();
        case.line.pretension_n = 300.0;
        case.line.spans_m = vec![20.0];
        case.workers[0].gear.length_m = 3.0;
        let figures = set_up(&case, &Plan::default()).unwrap();
        let hot = figures.temperatures.last().unwrap();
        let taut = case.line.weight_n_per_m() * 20.0 / (8.0 * SAG_RATIO_MAX);
        assert_eq!(hot.slack, hot.tension_n < taut);
        for row in &figures.temperatures {
            let off = (row.tension_n / 300.0 - 1.0).abs();
            assert_eq!(row.beyond_tolerance, off > 0.10, "{row:?}");
            assert!(near(
                row.sag_m * row.tension_n,
                figures.sag_at_rest_m[0] * 300.0,
                1e-12
            ));
        }
        let installed = figures.today;
        assert!(!installed.beyond_tolerance && !installed.slack);
        assert_eq!(installed.movement_m, Some(figures.weight.movement_m));
        assert!(near(installed.time_s, figures.swings.time_s, 1e-9));
    }

    #[test]
    fn the_rope_adds_up_to_the_last_mark() {
        let mut case = case();
        case.line.spans_m = vec![9.0, 12.0, 6.0];
        case.posts = Posts {
            left: Some(EndPost::default()),
            right: None,
        };
        let plan = Plan {
            termination_allowance_m: 1.2,
            fittings_m: 0.7,
            ..Plan::default()
        };
        let cut = set_up(&case, &plan).unwrap().cut;
        assert_eq!(cut.marks_m.len(), 4);
        assert_eq!(cut.marks_m[0], 0.6);
        assert!(near(cut.marks_m[3] + 0.6, cut.cut_m, 1e-12));
        assert!(near(cut.cut_m, cut.unstretched_m - 0.7 + 1.2, 1e-12));
        // Chord, arc and stretch.
        let (t, ea) = (4_400.0, case.line.rope.axial_stiffness_n);
        let w = case.line.weight_n_per_m();
        let arc_m: f64 = case
            .line
            .spans_m
            .iter()
            .map(|l| l + w * w * l * l * l / (24.0 * t * t))
            .sum();
        assert!(near(cut.elastic_stretch_m, arc_m - cut.unstretched_m, 1e-3));
        assert!(near(
            cut.elastic_stretch_m,
            t * cut.unstretched_m / ea,
            1e-12
        ));
        let k = crate::support::end_stiffness_n_per_m(&EndPost::default(), 1.5);
        assert!(near(cut.end_movement_m, t / k, 1e-12));
        assert_eq!(cut.take_up_m, cut.elastic_stretch_m + cut.end_movement_m);
    }

    #[test]
    fn the_table_of_tiebacks_holds_the_45_degree_factors() {
        let table = tieback_table(1.5);
        assert_eq!(table.len(), TABLE_ANGLES_DEG.len());
        let at = &table[3];
        assert!(near(at.set_back_m, 1.5, 1e-12));
        assert!(near(at.tension_ratio, core::f64::consts::SQRT_2, 1e-12));
        assert!(near(at.compression_ratio, 1.0, 1e-12));
        for pair in table.windows(2) {
            assert!(pair[1].set_back_m > pair[0].set_back_m);
            assert!(pair[1].tension_ratio < pair[0].tension_ratio);
            assert!(pair[1].compression_ratio < pair[0].compression_ratio);
        }
        // 30° from the vertical: 1/sin 30° = 2.
        assert!(near(table[0].tension_ratio, 2.0, 1e-12));
        for height in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(tieback_table(height).is_empty());
        }
    }

    #[test]
    fn the_sag_at_rest_is_the_taut_string_s() {
        let mut case = case();
        case.line.spans_m = vec![9.0, 12.0];
        let figures = set_up(&case, &Plan::default()).unwrap();
        let w = case.line.weight_n_per_m();
        for (sag, l) in figures.sag_at_rest_m.iter().zip([9.0, 12.0]) {
            assert!(near(*sag, w * l * l / (8.0 * 4_400.0), 1e-12));
        }
        // Both checks go to the longest span unless told otherwise.
        assert_eq!((figures.weight.span, figures.swings.span), (1, 1));
        assert_eq!(figures.weight.position_m, 15.0);
    }

    #[test]
    fn bad_plans_are_named() {
        let line = case().line;
        let names = |plan: Plan| -> Vec<&'static str> {
            let faults = plan.faults(&line);
            assert!(set_up(&case(), &plan).is_err() || faults.is_empty());
            faults.iter().map(|f| f.field().name).collect()
        };
        assert!(names(Plan::default()).is_empty());
        for bad in [f64::NAN, f64::INFINITY, -1.0, 1.0e300] {
            let plan = Plan {
                termination_allowance_m: bad,
                fittings_m: bad,
                weight_n: bad,
                reading_error_m: bad,
                timing_error_s: bad,
                temperatures_k: vec![300.0, bad],
                ..Plan::default()
            };
            let found = names(plan);
            for name in [
                "set_up.termination_allowance_m",
                "set_up.fittings_m",
                "set_up.weight_n",
                "set_up.reading_error_m",
                "set_up.timing_error_s",
                "set_up.temperatures_k",
            ] {
                assert!(found.contains(&name), "{bad}: {name}");
            }
        }
        let plan = |span, swings, fittings_m, count| Plan {
            span,
            swings,
            fittings_m,
            temperatures_k: vec![300.0; count],
            ..Plan::default()
        };
        assert_eq!(names(plan(Some(1), 10, 0.0, 1)), ["set_up.span"]);
        assert_eq!(names(plan(None, 0, 0.0, 1)), ["set_up.swings"]);
        let full = TEMPERATURES_MAX + 1;
        assert_eq!(names(plan(None, 10, 0.0, full)), ["set_up.temperatures_k"]);
        let short = Line {
            spans_m: vec![12.0, 2.0],
            ..Line::default()
        };
        let faults = plan(None, 10, 2.0, 1).faults(&short);
        assert_eq!(faults[0].field().name, "set_up.fittings_m");
    }

    #[test]
    fn bad_readings_are_named_and_never_a_panic() {
        let line = case().line;
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 1.0e300] {
            let weight = WeightReading {
                span: 0,
                weight_n: bad,
                movement_m: bad,
                reading_error_m: bad,
            };
            assert_eq!(
                tension_from_deflection(&line, &weight).unwrap_err().len(),
                3
            );
            let swing = SwingReading {
                span: 7,
                swings: 10,
                time_s: bad,
                timing_error_s: bad,
            };
            assert_eq!(tension_from_swings(&line, &swing).unwrap_err().len(), 3);
            assert!(tension_at_temperature(&line, bad, bad).is_err());
            let broken = Line {
                pretension_n: bad,
                ..line.clone()
            };
            assert!(tension_at_temperature(&broken, 293.15, 293.15).is_err());
        }
        // A movement that no pretension gives: the fault says which ones can be.
        let reading = |movement_m| WeightReading {
            span: 0,
            weight_n: 100.0,
            movement_m,
            reading_error_m: 0.003,
        };
        for movement_m in [0.0, 3.0] {
            let faults = tension_from_deflection(&line, &reading(movement_m)).unwrap_err();
            let [Fault::OutOfRange { min, max, .. }] = faults[..] else {
                panic!("{faults:?}");
            };
            assert!(0.0 < min && min < max && max < 3.0);
            let middle = tension_from_deflection(&line, &reading(0.5 * (min + max)));
            assert!(middle.is_ok());
        }
        let swing = |time_s| SwingReading {
            span: 0,
            swings: 10,
            time_s,
            timing_error_s: 0.2,
        };
        for time_s in [0.1, 100.0] {
            let faults = tension_from_swings(&line, &swing(time_s)).unwrap_err();
            assert_eq!(faults[0].field().name, "reading.time_s");
        }
        // An error as long as the time itself: no upper bound.
        let coarse = SwingReading {
            timing_error_s: 2.2,
            ..swing(2.176)
        };
        let read = tension_from_swings(&line, &coarse).unwrap();
        assert_eq!((read.high_n, read.error_ratio), (None, None));
    }

    /// Corners of the declared ranges: every figure finite, or a named fault.
    #[test]
    fn extreme_lines_give_finite_figures_or_a_named_fault() {
        let mut solved = 0;
        for spans_m in [vec![1.0], vec![60.0], vec![1.0, 60.0], vec![60.0; 12]] {
            for pretension_n in [50.0, 4_400.0, 40_000.0] {
                for axial_stiffness_n in [1.0e5, 1.0e8] {
                    for mass in [0.02, 6.0] {
                        for k in [None, Some(1.0e4), Some(1.0e9)] {
                            let mut case = case();
                            case.line.spans_m = spans_m.clone();
                            case.line.pretension_n = pretension_n;
                            case.line.rope.axial_stiffness_n = axial_stiffness_n;
                            case.line.rope.mass_per_length_kg_per_m = mass;
                            case.line.left_end_stiffness_n_per_m = k;
                            case.line.right_end_stiffness_n_per_m = k;
                            case.workers[0].position_m = 0.5;
                            let plan = Plan {
                                temperatures_k: vec![223.15, 333.15],
                                ..Plan::default()
                            };
                            let Ok(figures) = set_up(&case, &plan) else {
                                continue;
                            };
                            solved += 1;
                            let w = figures.weight;
                            let s = figures.swings;
                            let numbers = [
                                w.movement_m,
                                w.movement_least_m,
                                w.movement_most_m,
                                w.deflection_m,
                                w.tension_loaded_n,
                                s.time_s,
                                s.time_least_s,
                                s.time_most_s,
                                s.good_time_s.unwrap_or(0.0),
                                s.amplitude_max_m,
                                figures.cut.cut_m,
                                figures.cut.take_up_m,
                            ];
                            assert!(numbers.iter().all(|x| x.is_finite()), "{figures:?}");
                            for row in figures.temperatures {
                                assert!(row.tension_n > 0.0, "{row:?}");
                                assert!(row.tension_n.is_finite() && row.time_s.is_finite());
                                assert!(row.movement_m.is_none_or(f64::is_finite));
                            }
                        }
                    }
                }
            }
        }
        assert!(solved > 50, "{solved}");
    }
}
