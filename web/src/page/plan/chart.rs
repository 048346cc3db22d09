//! Arrest force and line tension against time: one code for screen, paper, file and test,
//! generic over the plotters backend.
//!
//! All coordinates are whole device pixels; every size is given in CSS pixels and multiplied by
//! the device-pixel ratio in [`Scale::px`] alone. Series are told apart by dash and marker as
//! well as by colour, and [`table`] holds the same numbers.

use std::ops::Range;

use footroom_core::check::US_ARREST_FORCE_MAX_N;
use footroom_core::envelope::{self, Envelope};
use plotters::chart::{ChartBuilder, ChartContext};
use plotters::coord::Shift;
use plotters::coord::cartesian::Cartesian2d;
use plotters::coord::ranged1d::{KeyPointHint, NoDefaultFormatting, Ranged, ValueFormatter};
use plotters::coord::types::RangedCoordf64;
use plotters::drawing::{DrawingArea, DrawingAreaErrorKind};
use plotters::element::{Circle, Cross, PathElement, Polygon, Rectangle, Text};
use plotters::series::{DashedLineSeries, LineSeries};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, FontFamily, IntoFont, RGBColor, ShapeStyle, TextStyle};
use plotters_backend::DrawingBackend;

use crate::first::answer::{DASH, Told};
use crate::first::scene::moment::held;
use crate::first::scene::theme::Theme;
use crate::first::view::Table;
use crate::order::sort;
use crate::say::faults::Voice;
use crate::say::format::{self, POUND_FORCE_N, Units};

/// Which chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChartKind {
    /// Force in the gear of every worker who falls.
    Force,
    /// Greatest tension along the line.
    Tension,
}

impl ChartKind {
    /// `force` or `tension`.
    pub fn from_key(key: &str) -> Option<Self> {
        match key {
            "force" => Some(Self::Force),
            "tension" => Some(Self::Tension),
            _ => None,
        }
    }
}

/// One curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// Its name.
    pub label: String,
    /// Its values, one a frame, kN or lbf.
    pub values: Vec<f64>,
}

/// Between which values a curve lies over all runs of the answer.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartBand {
    /// What it is.
    pub label: String,
    /// Least values, one a frame, kN or lbf.
    pub least: Vec<f64>,
    /// Greatest values, one a frame, kN or lbf.
    pub greatest: Vec<f64>,
}

impl ChartBand {
    /// `unit_n`: the unit of the chart, N.
    fn of(label: String, band: &envelope::Band, unit_n: f64) -> Self {
        let shown = |values: &[f64]| values.iter().map(|n| n / unit_n).collect();
        Self {
            label,
            least: shown(&band.least),
            greatest: shown(&band.greatest),
        }
    }
}

/// A level that should not be passed.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// What it is, with its value.
    pub label: String,
    /// The level, kN or lbf.
    pub value: f64,
}

/// What a chart shows, in display units.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// `kN` or `lbf`.
    pub unit: &'static str,
    /// Name of the x axis.
    pub time_label: String,
    /// Interval between frames, s.
    pub interval_s: f64,
    /// Number of frames.
    pub frames: usize,
    /// The curves, the governing worker's first.
    pub series: Vec<Series>,
    /// What the first curve becomes over all runs of the answer.
    pub band: Option<ChartBand>,
    /// The limit, when it is known.
    pub limit: Option<Limit>,
}

impl Chart {
    /// Collects what a chart shows; `None` without traces.
    pub fn of(told: &Told<'_>, envelope: Option<&Envelope>, kind: ChartKind) -> Option<Self> {
        let t = told.voice.texts();
        let o = told.voice.office();
        let traces = told.outcome.traces.as_ref().filter(|t| t.frames > 1)?;
        let (unit, newtons) = unit(told.voice.units);
        let (series, band, limit) = match kind {
            ChartKind::Force => {
                let governing = told.focus();
                let mut order: Vec<usize> = (0..traces.workers).collect();
                sort(&mut order, |&a, &b| a == governing && b != governing);
                let series = order
                    .into_iter()
                    .filter(|&i| told.outcome.workers.get(i).is_some_and(|w| w.fell))
                    .map(|i| Series {
                        label: (t.say.worker_label)(i + 1),
                        values: traces
                            .force_n
                            .iter()
                            .skip(i)
                            .step_by(traces.workers)
                            .map(|force| force / newtons)
                            .collect(),
                    })
                    .collect();
                let limit = Limit {
                    label: format!("{}, {}", o.limit_arrest, told.arrest_limit_text()),
                    value: US_ARREST_FORCE_MAX_N / newtons,
                };
                let band = envelope.and_then(|e| e.force_n.get(governing));
                let band = band.map(|band| {
                    let label = (o.say.chart_range_of)(&(t.say.worker_label)(governing + 1));
                    ChartBand::of(label, band, newtons)
                });
                (series, band, Some(limit))
            }
            ChartKind::Tension => {
                let series = Series {
                    label: t.line_tension.to_owned(),
                    values: traces.tension_max_n.iter().map(|n| n / newtons).collect(),
                };
                let limit = told.tension_limit_n().map(|n| Limit {
                    label: format!(
                        "{}, {}",
                        o.limit_by_ratio,
                        format::force_rounded(told.voice.units, n, format::Rounding::Down)
                    ),
                    value: n / newtons,
                });
                let band = envelope
                    .map(|e| ChartBand::of(o.chart_range.to_owned(), &e.tension_max_n, newtons));
                (vec![series], band, limit)
            }
        };
        Some(Self {
            unit,
            time_label: format!("{}, s", o.time),
            interval_s: traces.interval_s,
            frames: traces.frames,
            series,
            band,
            limit,
        })
    }

    /// Length of the time axis, s.
    pub fn duration_s(&self) -> f64 {
        self.interval_s * self.frames.saturating_sub(1) as f64
    }

    /// Top of the value axis: a twelfth above the highest of curves, band and limit.
    pub fn top(&self) -> f64 {
        let curves = self.series.iter().flat_map(|s| s.values.iter().copied());
        let band = self.band.iter().flat_map(|b| b.greatest.iter().copied());
        let limit = self.limit.iter().map(|l| l.value);
        let highest = curves.chain(band).chain(limit).fold(0.0, f64::max);
        if highest > 0.0 && highest.is_finite() {
            highest * (1.0 + 1.0 / 12.0)
        } else {
            1.0
        }
    }

    /// Value of a curve at an instant, straight between frames.
    fn value_at(&self, values: &[f64], time_s: f64) -> f64 {
        let last = self.frames.saturating_sub(1) as f64;
        let at = (time_s / self.interval_s).max(0.0).min(last);
        let frame = at as usize;
        let part = at - frame as f64;
        let a = values.get(frame).copied().unwrap_or(0.0);
        let b = values.get(frame + 1).copied().unwrap_or(a);
        a + (b - a) * part
    }
}

/// Device pixels per CSS pixel: the one place where sizes are multiplied.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale(pub f64);

impl Scale {
    /// A size in whole device pixels.
    pub fn px(self, css_px: f64) -> i32 {
        (css_px * self.0).round() as i32
    }
}

/// Colours of a chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Palette {
    /// Text.
    pub ink: RGBColor,
    /// Background.
    pub paper: RGBColor,
    /// Axes and grid.
    pub muted: RGBColor,
    /// The limit.
    pub warning: RGBColor,
    /// The present time.
    pub accent: RGBColor,
    /// The curves, in turn.
    pub series: [RGBColor; 3],
    /// Family of the type face.
    pub font: String,
}

impl Palette {
    /// The theme's present colours. `resolve` turns a CSS colour into numbers; what it cannot
    /// turn becomes black on white.
    pub fn of(theme: &Theme, resolve: impl Fn(&str) -> Option<RGBColor>) -> Self {
        let dark = |colour: &str| resolve(colour).unwrap_or(RGBColor(0, 0, 0));
        Self {
            ink: dark(&theme.ink),
            paper: resolve(&theme.paper).unwrap_or(RGBColor(255, 255, 255)),
            muted: dark(&theme.muted),
            warning: dark(&theme.warning),
            accent: dark(&theme.accent),
            series: [dark(&theme.line), dark(&theme.absorber), dark(&theme.ink)],
            font: theme.font.clone(),
        }
    }
}

/// Reads `#rgb`, `#rrggbb`, `rgb(r, g, b)` and `rgba(r, g, b, a)` (alpha ignored).
pub fn parse_colour(css: &str) -> Option<RGBColor> {
    let css = css.trim();
    if let Some(hex) = css.strip_prefix('#') {
        let byte = |range: core::ops::Range<usize>| u8::from_str_radix(hex.get(range)?, 16).ok();
        return match hex.len() {
            3 => {
                let nibble = |i| byte(i..i + 1).map(|v| v * 17);
                Some(RGBColor(nibble(0)?, nibble(1)?, nibble(2)?))
            }
            6 | 8 => Some(RGBColor(byte(0..2)?, byte(2..4)?, byte(4..6)?)),
            _ => None,
        };
    }
    let inner = css
        .strip_prefix("rgba(")
        .or_else(|| css.strip_prefix("rgb("))?
        .strip_suffix(')')?;
    let mut parts = inner
        .split([',', ' ', '/'])
        .filter(|part| !part.is_empty())
        .map(|part| part.parse::<u8>().ok());
    Some(RGBColor(parts.next()??, parts.next()??, parts.next()??))
}

/// Size of the type, CSS px.
pub(crate) const TYPE_PX: f64 = 12.0;
/// Room for the numbers and the name of the axis under a plot, CSS px.
pub(crate) const FOOT_PX: f64 = 3.3 * TYPE_PX;
/// How far the name of that axis is under the plot, CSS px.
pub(crate) const AXIS_NAME_PX: f64 = 2.1 * TYPE_PX;
/// Dash and gap of a limit, CSS px.
pub(crate) const LIMIT_DASH_PX: (f64, f64) = (12.0, 5.0);
/// Length of a sample in the legend, CSS px.
const SAMPLE_PX: f64 = 30.0;
/// Widths of dashes and gaps of the curves in turn, CSS px; the first is solid.
const DASHES: [(f64, f64); 6] = [
    (0.0, 0.0),
    (9.0, 4.0),
    (3.0, 3.0),
    (14.0, 3.0),
    (5.0, 6.0),
    (2.0, 6.0),
];

/// The frame of the plot, device px.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Frame {
    /// Left edge.
    pub left: i32,
    /// Top edge.
    pub top: i32,
    /// Right edge.
    pub right: i32,
    /// Bottom edge.
    pub bottom: i32,
}

/// Where the legend's entries begin, the curves', the band's and then the limit's, and the frame of the plot below them.
struct Layout {
    legend: Vec<(i32, i32)>,
    frame: Frame,
}

/// A name of the legend in one line, or, where it is wider than its room, in two: broken at the last space
/// that leaves the first one room.
fn lines_of<'a>(name: &'a str, room: i32, width_of: &dyn Fn(&str) -> i32) -> (&'a str, &'a str) {
    let whole = (name, "");
    if width_of(name) <= room {
        return whole;
    }
    let breaks = name.match_indices(' ').filter_map(|(i, _)| {
        let (first, rest) = name.split_at_checked(i)?;
        Some((first, rest.trim_start()))
    });
    let fits = breaks.filter(|(first, _)| width_of(first) <= room);
    fits.last().unwrap_or(whole)
}

/// Distance of the legend's lines, device px.
fn legend_line(scale: Scale) -> i32 {
    scale.px(TYPE_PX * 1.5)
}

/// Sets the legend in lines and gives the plot the rest. `width_of` measures a text, device px.
fn layout(chart: &Chart, size: (u32, u32), scale: Scale, width_of: &dyn Fn(&str) -> i32) -> Layout {
    let (width, height) = (size.0 as i32, size.1 as i32);
    let top = chart.top();
    let label = [0.25, 0.5, 0.75, 1.0]
        .iter()
        .map(|part| width_of(&tick(top * part)))
        .fold(width_of("88.8"), i32::max);
    let left = label + scale.px(12.0);
    let right = (width - scale.px(10.0)).max(left + 1);
    let line = legend_line(scale);
    // The first line begins after the unit above the value axis.
    let (mut x, mut y) = (left + width_of(chart.unit) + scale.px(12.0), scale.px(6.0));
    let mut legend = Vec::new();
    let curves = chart.series.iter().map(|series| &series.label);
    let band = chart.band.iter().map(|band| &band.label);
    let limit = chart.limit.iter().map(|limit| &limit.label);
    for name in curves.chain(band).chain(limit) {
        let wide = scale.px(SAMPLE_PX + 6.0) + width_of(name);
        if x + wide > right && !legend.is_empty() {
            x = scale.px(4.0);
            y += line;
        }
        legend.push((x, y));
        let room = right - x - scale.px(SAMPLE_PX + 6.0);
        if !lines_of(name, room, width_of).1.is_empty() {
            y += line;
        }
        x += wide + scale.px(14.0);
    }
    let top = (y + line + scale.px(4.0)).min(height - 2);
    let bottom = (height - scale.px(FOOT_PX)).max(top + 1);
    Layout {
        legend,
        frame: Frame {
            left,
            top,
            right,
            bottom,
        },
    }
}

/// A number on an axis, with the decimals it needs.
pub(crate) fn tick(value: f64) -> String {
    let decimals = (0..3)
        .find(|&d| {
            let scaled = value * 10_f64.powi(d);
            (scaled - scaled.round()).abs() < 1.0e-6
        })
        .unwrap_or(3);
    format::number(value, decimals as usize)
}

pub(crate) fn font<'a>(palette: &'a Palette, scale: Scale) -> TextStyle<'a> {
    (
        FontFamily::Name(&palette.font),
        f64::from(scale.px(TYPE_PX)),
    )
        .into_font()
        .color(&palette.ink)
}

pub(crate) fn stroke(colour: RGBColor, width_px: i32) -> ShapeStyle {
    ShapeStyle {
        color: colour.to_rgba(),
        filled: false,
        stroke_width: width_px.max(1) as u32,
    }
}

/// An axis of numbers as the library's, but for its way of writing them and of choosing where: they bring
/// the standard formatter of numbers, powers and logarithms into the download.
pub(crate) struct Axis(RangedCoordf64);

impl Axis {
    pub(crate) fn of(low: f64, high: f64) -> Self {
        Self((low..high).into())
    }
}

impl From<Range<f64>> for Axis {
    fn from(range: Range<f64>) -> Self {
        Self(range.into())
    }
}

impl Ranged for Axis {
    type FormatOption = NoDefaultFormatting;
    type ValueType = f64;

    fn map(&self, value: &f64, limit: (i32, i32)) -> i32 {
        self.0.map(value, limit)
    }

    fn key_points<Hint: KeyPointHint>(&self, hint: Hint) -> Vec<f64> {
        let Range { start, end } = self.0.range();
        round_values(start.min(end), start.max(end), hint.max_num_points())
    }

    fn range(&self) -> Range<f64> {
        self.0.range()
    }
}

/// The multiples of 1, 2 or 5 times a power of ten from `low` to `high`: of the smallest of these steps, from
/// a millionth on, of which there are no more than `most`.
fn round_values(low: f64, high: f64, most: usize) -> Vec<f64> {
    // Below one the multiples are divided, so that each is the number as it is written.
    let mut step = (1.0, 1.0e6);
    loop {
        for digit in [1.0, 2.0, 5.0] {
            let (times, parts) = (digit * step.0, step.1);
            // A hair beyond, so that an end that is a multiple counts.
            let first = (low / times * parts - 1.0e-9).ceil();
            let last = (high / times * parts + 1.0e-9).floor();
            let count = last - first + 1.0;
            if most == 0 || !count.is_finite() {
                return Vec::new();
            }
            if count <= most as f64 {
                return (0..count.max(0.0) as usize)
                    .map(|i| (first + i as f64) * times / parts)
                    .collect();
            }
        }
        step = if step.1 > 1.0 {
            (1.0, step.1 / 10.0)
        } else {
            (step.0 * 10.0, 1.0)
        };
    }
}

impl ValueFormatter<f64> for Axis {
    fn format(value: &f64) -> String {
        tick(*value)
    }
}

/// Axes with their numbers, and the grid.
pub(crate) fn axes<DB: DrawingBackend>(
    context: &mut ChartContext<'_, DB, Cartesian2d<Axis, Axis>>,
    frame: Frame,
    palette: &Palette,
    scale: Scale,
) -> Result<(), DrawingAreaErrorKind<DB::ErrorType>> {
    context
        .configure_mesh()
        .x_labels(((frame.right - frame.left) / scale.px(70.0)).clamp(2, 12) as usize)
        .y_labels(((frame.bottom - frame.top) / scale.px(32.0)).clamp(2, 10) as usize)
        .label_style(font(palette, scale))
        .axis_style(stroke(palette.muted, scale.px(1.0)))
        .bold_line_style(
            palette
                .muted
                .mix(0.28)
                .stroke_width(scale.px(1.0).max(1) as u32),
        )
        .light_line_style(palette.muted.mix(0.0))
        .set_all_tick_mark_size(scale.px(4.0))
        .draw()
}

/// An upright line over the whole height of a plot.
pub(crate) fn upright<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    frame: Frame,
    x: i32,
    palette: &Palette,
    scale: Scale,
) -> Result<(), DrawingAreaErrorKind<DB::ErrorType>> {
    let style = stroke(palette.accent, scale.px(1.4));
    let ends = [(x, frame.top), (x, frame.bottom)];
    area.draw(&PathElement::new(ends, style))
}

type Drawn<DB> = Result<Frame, DrawingAreaErrorKind<<DB as DrawingBackend>::ErrorType>>;

/// Draws a chart on the whole area and gives the frame of the plot.
///
/// # Errors
/// What the backend reports.
pub fn draw<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    chart: &Chart,
    palette: &Palette,
    scale: Scale,
) -> Drawn<DB> {
    area.fill(&palette.paper)?;
    let text = font(palette, scale);
    let width_of = |label: &str| {
        area.estimate_text_size(label, &text)
            .map_or(0, |(w, _)| w as i32)
    };
    let size = area.dim_in_pixel();
    let layout = layout(chart, size, scale, &width_of);
    let frame = layout.frame;
    if frame.right - frame.left < scale.px(40.0) || frame.bottom - frame.top < scale.px(30.0) {
        return Ok(frame);
    }
    if let Some(band) = &chart.band {
        let points = |values: &[f64]| -> Vec<(i32, i32)> {
            let frames = values.iter().enumerate();
            let point = |(at, &value)| place(chart, frame, chart.interval_s * at as f64, value);
            frames.map(point).collect()
        };
        let (least, greatest) = (points(&band.least), points(&band.greatest));
        let mut around = least.clone();
        around.extend(greatest.iter().rev());
        area.draw(&Polygon::new(around, band_fill(palette).filled()))?;
        let edge = stroke(band_edge(palette), scale.px(1.0));
        for values in [least, greatest] {
            area.draw(&PathElement::new(values, edge))?;
        }
    }
    let mut context = ChartBuilder::on(area)
        .margin_top(frame.top)
        .margin_right(size.0 as i32 - frame.right)
        .x_label_area_size(size.1 as i32 - frame.bottom)
        .y_label_area_size(frame.left)
        .build_cartesian_2d(
            Axis::of(0.0, chart.duration_s()),
            Axis::of(0.0, chart.top()),
        )?;
    axes(&mut context, frame, palette, scale)?;
    if let Some(limit) = &chart.limit {
        context.draw_series(DashedLineSeries::new(
            [(0.0, limit.value), (chart.duration_s(), limit.value)],
            scale.px(LIMIT_DASH_PX.0),
            scale.px(LIMIT_DASH_PX.1),
            stroke(palette.warning, scale.px(1.6)),
        ))?;
    }
    for (i, series) in chart.series.iter().enumerate().rev() {
        let points: Vec<(f64, f64)> = series
            .values
            .iter()
            .enumerate()
            .map(|(frame, &value)| (chart.interval_s * frame as f64, value))
            .collect();
        let style = stroke(palette.series[i % palette.series.len()], scale.px(1.8));
        let (dash, gap) = DASHES[i % DASHES.len()];
        if dash > 0.0 {
            context.draw_series(DashedLineSeries::new(
                points,
                scale.px(dash),
                scale.px(gap),
                style,
            ))?;
        } else {
            context.draw_series(LineSeries::new(points, style))?;
        }
    }
    let at = |time_s: f64, value: f64| place(chart, frame, time_s, value);
    if chart.series.len() > 1 {
        // Nine markers a curve, those of each curve shifted against the others'.
        for (i, series) in chart.series.iter().enumerate() {
            for step in 0..9 {
                let part = (f64::from(step) + (i as f64 + 0.5) / chart.series.len() as f64) / 9.0;
                let time_s = part * chart.duration_s();
                let there = at(time_s, chart.value_at(&series.values, time_s));
                marker(area, there, i, palette, scale)?;
            }
        }
    }
    labels(area, chart, palette, scale, &layout)?;
    Ok(frame)
}

/// Fill of the band: a sixth of the first curve's colour on the paper.
fn band_fill(palette: &Palette) -> RGBColor {
    mixed(palette.series[0], palette.paper, 1.0 / 6.0)
}

/// Its edges, which tell it without colour.
fn band_edge(palette: &Palette) -> RGBColor {
    mixed(palette.series[0], palette.paper, 0.5)
}

/// A colour with `part` of the first.
fn mixed(first: RGBColor, other: RGBColor, part: f64) -> RGBColor {
    let mix = |a: u8, b: u8| (part * f64::from(a) + (1.0 - part) * f64::from(b)).round() as u8;
    RGBColor(
        mix(first.0, other.0),
        mix(first.1, other.1),
        mix(first.2, other.2),
    )
}

/// Legend with band and limit, and names of the axes.
fn labels<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    chart: &Chart,
    palette: &Palette,
    scale: Scale,
    layout: &Layout,
) -> Result<(), DrawingAreaErrorKind<DB::ErrorType>> {
    let frame = layout.frame;
    let text = font(palette, scale);
    let write = |label: &str, place: (i32, i32), h: HPos, v: VPos, style: &TextStyle<'_>| {
        area.draw(&Text::new(
            label.to_owned(),
            place,
            style.pos(Pos::new(h, v)),
        ))
    };
    write(
        chart.unit,
        (frame.left, scale.px(6.0)),
        HPos::Left,
        VPos::Top,
        &text,
    )?;
    write(
        &chart.time_label,
        (frame.right, frame.bottom + scale.px(AXIS_NAME_PX)),
        HPos::Right,
        VPos::Top,
        &text,
    )?;
    let places = &layout.legend;
    let width_of = |label: &str| {
        area.estimate_text_size(label, &text)
            .map_or(0, |(w, _)| w as i32)
    };
    let sample = |x: i32, y: i32| (x + scale.px(SAMPLE_PX), y + scale.px(0.55 * TYPE_PX));
    let name = |label: &str, (x, y): (i32, i32)| {
        let x = x + scale.px(SAMPLE_PX + 6.0);
        let (first, rest) = lines_of(label, frame.right - x, &width_of);
        write(first, (x, y), HPos::Left, VPos::Top, &text)?;
        if rest.is_empty() {
            return Ok(());
        }
        let below = (x, y + legend_line(scale));
        write(rest, below, HPos::Left, VPos::Top, &text)
    };
    if let (Some(band), Some(&(x, y))) = (&chart.band, places.get(chart.series.len())) {
        let (end, middle) = sample(x, y);
        let half = scale.px(0.4 * TYPE_PX);
        let corners = [(x, middle - half), (end, middle + half)];
        area.draw(&Rectangle::new(corners, band_fill(palette).filled()))?;
        let edge = stroke(band_edge(palette), scale.px(1.0));
        area.draw(&Rectangle::new(corners, edge))?;
        name(&band.label, (x, y))?;
    }
    let curves = chart.series.iter().enumerate().map(|(i, series)| {
        let colour = palette.series[i % palette.series.len()];
        (i, &series.label, colour, DASHES[i % DASHES.len()])
    });
    let limit = chart.limit.iter();
    let last = places.len().saturating_sub(1);
    let limit = limit.map(|limit| (last, &limit.label, palette.warning, LIMIT_DASH_PX));
    for (i, label, colour, (dash, gap)) in curves.chain(limit) {
        let Some(&(x, y)) = places.get(i) else {
            continue;
        };
        let (end, middle) = sample(x, y);
        let style = stroke(colour, scale.px(1.8));
        let (dash, gap) = if dash > 0.0 {
            (scale.px(dash).max(1), scale.px(gap).max(1))
        } else {
            (end - x, 1)
        };
        let mut from = x;
        while from < end {
            let to = (from + dash).min(end);
            area.draw(&PathElement::new([(from, middle), (to, middle)], style))?;
            from = to + gap;
        }
        if chart.series.len() > 1 && i < chart.series.len() {
            marker(area, ((x + end) / 2, middle), i, palette, scale)?;
        }
        name(label, (x, y))?;
    }
    Ok(())
}

/// Device px of an instant and a value.
fn place(chart: &Chart, frame: Frame, time_s: f64, value: f64) -> (i32, i32) {
    let part = |value: f64, whole: f64| {
        if whole > 0.0 {
            (value / whole).clamp(0.0, 1.0)
        } else {
            0.0
        }
    };
    let across = part(time_s, chart.duration_s()) * f64::from(frame.right - frame.left);
    let up = part(value, chart.top()) * f64::from(frame.bottom - frame.top);
    (
        frame.left + across.round() as i32,
        frame.bottom - up.round() as i32,
    )
}

/// The marker of curve `i`: another shape for each.
fn marker<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    (x, y): (i32, i32),
    i: usize,
    palette: &Palette,
    scale: Scale,
) -> Result<(), DrawingAreaErrorKind<DB::ErrorType>> {
    let colour = palette.series[i % palette.series.len()];
    let r = scale.px(3.5).max(2);
    match i % 6 {
        0 => area.draw(&Circle::new((x, y), r, colour.filled())),
        1 => area.draw(&Polygon::new(
            [(x, y - r), (x + r, y + r), (x - r, y + r)],
            colour.filled(),
        )),
        2 => area.draw(&Rectangle::new(
            [(x - r, y - r), (x + r, y + r)],
            colour.filled(),
        )),
        3 => area.draw(&Circle::new((x, y), r, stroke(colour, scale.px(1.5)))),
        4 => area.draw(&Cross::new((x, y), r, stroke(colour, scale.px(1.8)))),
        _ => area.draw(&Polygon::new(
            [(x, y + r), (x + r, y - r), (x - r, y - r)],
            colour.filled(),
        )),
    }
}

/// A chart as it stands on the page: where an instant lies on it.
#[derive(Debug)]
pub struct Plotted {
    chart: Chart,
    frame: Frame,
    /// Device px per CSS px.
    scale: Scale,
}

impl Plotted {
    /// A chart that [`draw`] has drawn in this frame.
    pub const fn new(chart: Chart, frame: Frame, scale: Scale) -> Self {
        Self {
            chart,
            frame,
            scale,
        }
    }

    /// An instant, s, in CSS px from the left top: how far right it lies, where its line begins and
    /// ends, then the height of each curve there. Empty where the time is no number.
    pub fn instant(&self, time_s: f64) -> Vec<f64> {
        if !time_s.is_finite() {
            return Vec::new();
        }
        let (chart, frame) = (&self.chart, self.frame);
        let (x, _) = place(chart, frame, time_s, 0.0);
        let curves = chart.series.iter();
        let heights =
            curves.map(|s| place(chart, frame, time_s, chart.value_at(&s.values, time_s)).1);
        [x, frame.top, frame.bottom]
            .into_iter()
            .chain(heights)
            .map(|px| f64::from(px) / self.scale.0)
            .collect()
    }

    /// The instant, s, that lies so many CSS px from the left edge; beside the plot its nearer end.
    pub fn time_s(&self, across_px: f64) -> f64 {
        let (left, right) = (f64::from(self.frame.left), f64::from(self.frame.right));
        let part = (across_px * self.scale.0 - left) / (right - left).max(1.0);
        held(part, 0.0, 1.0) * self.chart.duration_s()
    }

    /// The values at an instant, s, in words: each curve, and the ends of the band.
    pub fn reading(&self, voice: Voice, time_s: f64) -> String {
        let (chart, o) = (&self.chart, voice.office());
        let time_s = held(time_s, 0.0, chart.duration_s());
        let (_, unit_n) = unit(voice.units);
        let shown = |values: &[f64]| {
            let newtons = chart.value_at(values, time_s) * unit_n;
            format::force(voice.units, newtons)
        };
        let mut parts: Vec<String> = (chart.series.iter())
            .map(|s| (o.say.chart_value)(&s.label, &shown(&s.values)))
            .collect();
        parts.extend(chart.band.iter().map(|band| {
            (o.say.chart_between)(&band.label, &shown(&band.least), &shown(&band.greatest))
        }));
        let time = format::time(time_s);
        format::unbroken(&[time.as_str(), " · ", &parts.join("; "), "."].concat())
    }
}

/// The unit of a chart: its name, and how many N it is.
const fn unit(units: Units) -> (&'static str, f64) {
    match units {
        Units::Metric => ("kN", 1_000.0),
        Units::Us => ("lbf", POUND_FORCE_N),
    }
}

/// Interval between the rows of a table, s.
const TABLE_STEP_S: f64 = 0.05;

/// The numbers of a chart: every 0.05 s, and the greatest value of every curve with its instant.
pub fn table(told: &Told<'_>, envelope: Option<&Envelope>, kind: ChartKind) -> Table {
    let o = told.voice.office();
    let title = match kind {
        ChartKind::Force => o.chart_force,
        ChartKind::Tension => o.chart_tension,
    };
    let Some(chart) = Chart::of(told, envelope, kind) else {
        return Table::default();
    };
    let mut head = vec![chart.time_label.clone()];
    head.extend(chart.series.iter().map(|s| s.label.clone()));
    if let Some(band) = &chart.band {
        head.push((o.say.chart_least)(&band.label));
        head.push((o.say.chart_greatest)(&band.label));
    }
    let curves = chart.series.iter().map(|series| &series.values);
    let band = chart.band.iter().flat_map(|b| [&b.least, &b.greatest]);
    let columns: Vec<&Vec<f64>> = curves.chain(band).collect();
    let every = ((TABLE_STEP_S / chart.interval_s).round() as usize).max(1);
    let mut frames: Vec<usize> = (0..chart.frames).step_by(every).collect();
    for values in &columns {
        let highest = values.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1));
        frames.extend(highest.map(|(frame, _)| frame));
    }
    sort(&mut frames, |a, b| a < b);
    frames.dedup();
    let (_, newtons) = unit(told.voice.units);
    let rows = frames
        .into_iter()
        .map(|frame| {
            let time = format::number(chart.interval_s * frame as f64, 3);
            let values = columns.iter().map(|values| match values.get(frame) {
                Some(value) => format::force(told.voice.units, value * newtons),
                None => DASH.to_owned(),
            });
            core::iter::once(time).chain(values).collect()
        })
        .collect();
    Table {
        caption: title.to_owned(),
        head,
        rows,
        note: chart.limit.map_or(String::new(), |limit| limit.label),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::Lang;
    use footroom_core::assess::{Assessment, assess};
    use footroom_core::case::Case;
    use footroom_core::demo::demo;
    use footroom_core::solve::Options;
    use plotters::backend::SVGBackend;
    use plotters::drawing::IntoDrawingArea;

    /// The library's own choice of round values, wherever no end is one of them.
    /// A name that is wider than the chart goes on in a second line, and the plot begins under it.
    #[test]
    fn no_name_of_the_legend_is_cut_off() {
        let width_of = |text: &str| 7 * text.chars().count() as i32;
        let name = "Worker 2, range with the tolerances";
        let (first, rest) = lines_of(name, 200, &width_of);
        assert_eq!((first, rest), ("Worker 2, range with the", "tolerances"));
        assert_eq!(lines_of(name, 245, &width_of), (name, ""));
        assert_eq!(lines_of("tolerances", 20, &width_of), ("tolerances", ""));
        let chart = chart(Units::Metric, ChartKind::Force);
        let texts = |width| -> (Vec<String>, Frame) {
            let (svg, frame) = svg(&chart, (width, 400), 1.0);
            let texts = svg.split("<text").skip(1).filter_map(|part| {
                let (_, rest) = part.split_once('>')?;
                Some(rest.split_once('<')?.0.trim().to_owned())
            });
            (texts.collect(), frame)
        };
        let (wide, tall) = texts(700);
        let long = chart
            .band
            .as_ref()
            .map(|band| band.label.clone())
            .expect("a band");
        assert!(wide.contains(&long) && wide.iter().all(|text| !text.is_empty()));
        let (narrow, low) = texts(160);
        assert!(low.top > tall.top);
        assert!(!narrow.contains(&long), "{narrow:?}");
        let parts = |at: usize| narrow.get(at..at + 2).map(|two| two.join(" "));
        assert!(
            (0..narrow.len()).any(|at| parts(at).as_ref() == Some(&long)),
            "{narrow:?}"
        );
    }

    #[test]
    fn round_values_are_those_of_the_library() {
        let mut tried = 0;
        for i in 1..400_u32 {
            let wide = 1.013_f64.powi(i as i32 * 3) * 0.004;
            let low = wide * (f64::from(i * 7919 % 997) / 997.0 - 0.6) + 0.000_317;
            for most in 2..12 {
                let range = low..low + wide;
                let wanted = RangedCoordf64::from(range.clone()).key_points(most);
                let found = round_values(range.start, range.end, most);
                assert_eq!(found.len(), wanted.len(), "{range:?} in {most}");
                for (a, b) in found.iter().zip(&wanted) {
                    assert!((a - b).abs() < 1.0e-9 * wide, "{range:?}: {a} for {b}");
                }
                tried += 1;
            }
        }
        assert_eq!(tried, 3_990);
        assert_eq!(
            round_values(0.0, 0.6, 7),
            [0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6]
        );
        assert_eq!(round_values(3.0, 3.0, 5), [3.0]);
        for (low, high, most) in [(0.0, 1.0, 0), (f64::NAN, 1.0, 5), (0.0, f64::INFINITY, 5)] {
            assert_eq!(round_values(low, high, most), [0.0; 0]);
        }
    }

    fn solved(case: &Case) -> Assessment {
        let options = Options {
            traces: true,
            ..Options::default()
        };
        assess(case, options).expect("a case without faults")
    }

    fn chart(units: Units, kind: ChartKind) -> Chart {
        let case = demo();
        let outcome = solved(&case);
        let voice = Voice {
            lang: Lang::En,
            units,
        };
        let envelope = envelope::envelope(&case).expect("no faults");
        let told = Told::of(voice, &case, &outcome);
        Chart::of(&told, Some(&envelope), kind).expect("traces")
    }

    fn palette() -> Palette {
        Palette::of(&Theme::default(), parse_colour)
    }

    fn svg(chart: &Chart, size: (u32, u32), scale: f64) -> (String, Frame) {
        let mut text = String::new();
        let area = SVGBackend::with_string(&mut text, size).into_drawing_area();
        let frame = draw(&area, chart, &palette(), Scale(scale)).expect("drawn");
        area.present().expect("written");
        drop(area);
        (text, frame)
    }

    /// Points of every polyline of the SVG.
    fn polylines(svg: &str) -> Vec<Vec<(i32, i32)>> {
        svg.split("<polyline")
            .skip(1)
            .map(|rest| {
                let (_, points) = rest.split_once("points=\"").expect("points");
                let (points, _) = points.split_once('"').expect("points");
                points
                    .split_whitespace()
                    .map(|p| {
                        let (x, y) = p.split_once(',').expect("pair");
                        (x.parse().expect("x"), y.parse().expect("y"))
                    })
                    .collect()
            })
            .collect()
    }

    #[test]
    fn the_first_curve_is_drawn_where_its_values_are() {
        let chart = chart(Units::Metric, ChartKind::Tension);
        let (text, frame) = svg(&chart, (640, 260), 1.0);
        let curve = polylines(&text)
            .into_iter()
            .max_by_key(Vec::len)
            .expect("curve");
        assert_eq!(curve.len(), chart.frames);
        let highest = chart.series[0].values.iter().copied().fold(0.0, f64::max);
        let (_, y) = place(&chart, frame, 0.0, highest);
        let top = curve.iter().map(|p| p.1).min().expect("points");
        assert!((top - y).abs() <= 1, "{top} {y}");
        assert!(curve.iter().all(|&(x, y)| x >= frame.left - 1
            && x <= frame.right + 1
            && y >= frame.top
            && y <= frame.bottom + 1));
        assert!((curve[0].0 - frame.left).abs() <= 1);
        assert!((curve[chart.frames - 1].0 - frame.right).abs() <= 1);
    }

    /// What is read at the greatest tension is the greatest of the table, in every voice.
    #[test]
    fn a_reading_says_the_values_of_the_instant() {
        let case = demo();
        let (outcome, envelope) = (solved(&case), envelope::envelope(&case).expect("solved"));
        for voice in Voice::ALL {
            let told = Told::of(voice, &case, &outcome);
            for kind in [ChartKind::Force, ChartKind::Tension] {
                let chart = Chart::of(&told, Some(&envelope), kind).expect("traces");
                let values = &chart.series[0].values;
                let frame = (0..chart.frames)
                    .max_by(|&a, &b| values[a].total_cmp(&values[b]))
                    .expect("frames");
                let time_s = chart.interval_s * frame as f64;
                let row = table(&told, Some(&envelope), kind)
                    .rows
                    .into_iter()
                    .find(|row| row[0] == format::number(time_s, 3))
                    .expect("the greatest stands in the table");
                let (_, frame) = svg(&chart, (640, 260), 1.0);
                let plotted = Plotted::new(chart, frame, Scale(1.0));
                let said = plotted.reading(voice, time_s).replace('\u{a0}', " ");
                for value in &row[1..] {
                    assert!(said.contains(value), "{said}: {value}");
                }
                assert!(said.starts_with(&format::time(time_s)), "{said}");
                assert!(!plotted.reading(voice, f64::NAN).is_empty());
            }
        }
    }

    /// The band is drawn where its values are, around the curve, and named with a sample of its own.
    #[test]
    fn the_band_lies_around_the_first_curve() {
        for kind in [ChartKind::Force, ChartKind::Tension] {
            let chart = chart(Units::Metric, kind);
            let band = chart.band.clone().expect("an envelope");
            let (text, frame) = svg(&chart, (640, 260), 1.0);
            let lines = polylines(&text);
            let long: Vec<_> = lines.iter().filter(|l| l.len() == chart.frames).collect();
            // Its two edges, and the first curve, which alone has no dashes.
            assert_eq!(long.len(), 3);
            for (values, line) in [&band.least, &band.greatest, &chart.series[0].values]
                .into_iter()
                .zip(long)
            {
                for (at, value) in values.iter().enumerate().step_by(40) {
                    let (_, y) = place(&chart, frame, 0.0, *value);
                    assert!((line[at].1 - y).abs() <= 1, "{kind:?} {at}");
                }
            }
            assert!(band.greatest.iter().all(|v| *v <= chart.top()));
            assert_eq!(text.matches(&band.label).count(), 1, "{}", band.label);
            let without = Chart {
                band: None,
                ..chart
            };
            assert!(
                svg(&without, (640, 260), 1.0).0.matches("<rect").count()
                    < text.matches("<rect").count()
            );
        }
    }

    /// The points of the curve as drawn are where the instants of its frames are said to lie.
    #[test]
    fn an_instant_lies_on_the_curves() {
        let chart = chart(Units::Metric, ChartKind::Tension);
        for scale in [1.0, 1.5] {
            let (text, frame) = svg(&chart, (640, 260), scale);
            let curve = polylines(&text)
                .into_iter()
                .max_by_key(Vec::len)
                .expect("curve");
            let (frames, interval_s) = (chart.frames, chart.interval_s);
            let plotted = Plotted::new(chart.clone(), frame, Scale(scale));
            for at in [0, 20, frames / 2, frames - 1] {
                let instant = plotted.instant(interval_s * at as f64);
                let px: Vec<f64> = instant.iter().map(|css| css * scale).collect();
                let [x, top, bottom, y] = px[..] else {
                    panic!("{px:?}");
                };
                assert!((x - f64::from(curve[at].0)).abs() <= 1.5, "{x}");
                assert!((y - f64::from(curve[at].1)).abs() <= 1.5, "{y}");
                assert!((top - f64::from(frame.top)).abs() < 1e-9);
                assert!((bottom - f64::from(frame.bottom)).abs() < 1e-9);
            }
            assert!(plotted.instant(f64::NAN).is_empty());
            // Back from a place to its instant, and beside the plot to its ends.
            for time_s in [0.0, 1.25, 6.0] {
                let across = plotted.instant(time_s)[0];
                assert!((plotted.time_s(across) - time_s).abs() < 0.01, "{time_s}");
            }
            assert_eq!(plotted.time_s(-5.0), 0.0);
            assert_eq!(plotted.time_s(f64::NAN), 0.0);
            assert!((plotted.time_s(1.0e9) - chart.duration_s()).abs() < 1e-9);
            let beyond = plotted.instant(1.0e9)[0] * scale;
            assert!((beyond - f64::from(frame.right)).abs() < 1e-9);
        }
    }

    #[test]
    fn every_curve_and_limit_is_named() {
        let force = chart(Units::Metric, ChartKind::Force);
        let (text, _) = svg(&force, (640, 260), 1.0);
        for label in [
            "Worker 1",
            "Worker 2",
            "Worker 3",
            "limit for a body harness, 8 kN",
            "kN",
            "time, s",
        ] {
            assert!(text.contains(label), "{label}");
        }
        let us = chart(Units::Us, ChartKind::Force);
        let (text, _) = svg(&us, (640, 260), 1.0);
        assert!(text.contains("1,800 lbf"));
        assert!((us.limit.expect("limit").value - 1798.47).abs() < 0.01);
        let tension = chart(Units::Metric, ChartKind::Tension);
        let limit = tension.limit.expect("the demo's rope is known");
        let breaking = demo().line.rope.breaking_force_n.expect("known");
        assert!((limit.value - breaking / 2_000.0).abs() < 1.0e-9);
    }

    #[test]
    fn without_a_breaking_force_there_is_no_limit() {
        let mut case = demo();
        case.line.rope.breaking_force_n = None;
        let outcome = solved(&case);
        let voice = Voice {
            lang: Lang::Es,
            units: Units::Metric,
        };
        let told = Told::of(voice, &case, &outcome);
        let chart = Chart::of(&told, None, ChartKind::Tension).expect("traces");
        assert_eq!((chart.limit, chart.band), (None, None));
        assert_eq!(table(&told, None, ChartKind::Tension).note, "");
    }

    #[test]
    fn sizes_grow_with_the_device_pixels() {
        let chart = chart(Units::Metric, ChartKind::Force);
        let (one, a) = svg(&chart, (500, 240), 1.0);
        let (two, b) = svg(&chart, (1000, 480), 2.0);
        for (a, b) in [
            (a.left, b.left),
            (a.top, b.top),
            (a.right, b.right),
            (a.bottom, b.bottom),
        ] {
            assert!((2 * a - b).abs() <= 8, "{a} {b}");
        }
        let size = |svg: &str| {
            let (_, rest) = svg.split_once("font-size=\"").expect("text");
            rest.split_once('"')
                .expect("text")
                .0
                .parse::<f64>()
                .expect("size")
        };
        assert!((size(&two) / size(&one) - 2.0).abs() < 1.0e-9);
    }

    #[test]
    fn curves_differ_by_more_than_colour() {
        for (i, a) in DASHES.iter().enumerate() {
            assert!(DASHES[..i].iter().all(|b| a != b));
        }
        let chart = chart(Units::Metric, ChartKind::Force);
        let (text, _) = svg(&chart, (640, 260), 1.0);
        // Circles of the first, triangles of the second, squares of the third curve.
        assert!(text.matches("<circle").count() >= 9);
        assert!(text.matches("<polygon").count() >= 9);
        assert!(text.matches("<rect").count() >= 10);
    }

    #[test]
    fn small_and_odd_areas_do_no_harm() {
        let chart = chart(Units::Us, ChartKind::Tension);
        for size in [(1, 1), (30, 30), (120, 60), (3000, 20), (20, 3000)] {
            for scale in [0.5, 1.0, 3.0] {
                svg(&chart, size, scale);
            }
        }
    }

    #[test]
    fn the_table_holds_the_greatest_values() {
        let case = demo();
        let outcome = solved(&case);
        let voice = Voice {
            lang: Lang::En,
            units: Units::Metric,
        };
        let told = Told::of(voice, &case, &outcome);
        let table = table(&told, None, ChartKind::Tension);
        let traces = outcome.nominal.traces.as_ref().expect("traces");
        let highest = traces.tension_max_n.iter().copied().fold(0.0, f64::max);
        let text = format::force(Units::Metric, highest);
        assert!(table.rows.iter().any(|row| row[1] == text));
        assert!(table.rows.iter().all(|row| row.len() == table.head.len()));
        assert!(
            table.rows.len() > 20 && table.rows.len() < 250,
            "{}",
            table.rows.len()
        );
        let force = super::table(&told, None, ChartKind::Force);
        assert_eq!(force.head.len(), 4);
        // With the band its ends too, and the greatest of it.
        let envelope = envelope::envelope(&case).expect("no faults");
        let force = super::table(&told, Some(&envelope), ChartKind::Force);
        assert_eq!(force.head.len(), 6);
        let tension = super::table(&told, Some(&envelope), ChartKind::Tension);
        assert!(tension.rows.iter().all(|row| row.len() == 4));
        let greatest = &envelope.tension_max_n.greatest;
        let highest = greatest.iter().copied().fold(0.0, f64::max);
        let text = format::force(Units::Metric, highest);
        assert!(tension.rows.iter().any(|row| row[3] == text));
    }

    #[test]
    fn colours_are_read_as_canvases_write_them() {
        assert_eq!(parse_colour("#0d3f74"), Some(RGBColor(13, 63, 116)));
        assert_eq!(parse_colour("#fff"), Some(RGBColor(255, 255, 255)));
        assert_eq!(
            parse_colour(" rgb(13, 63, 116) "),
            Some(RGBColor(13, 63, 116))
        );
        assert_eq!(parse_colour("rgba(1, 2, 3, 0.5)"), Some(RGBColor(1, 2, 3)));
        assert_eq!(parse_colour("rgb(1 2 3 / 0.5)"), Some(RGBColor(1, 2, 3)));
        for bad in [
            "",
            "red",
            "#12",
            "#12345g",
            "rgb(1, 2)",
            "rgb(300, 0, 0)",
            "#\u{e9}\u{e9}",
        ] {
            assert_eq!(parse_colour(bad), None, "{bad}");
        }
    }
}
