//! What one input does to the footroom: a chart each for users, span, pretension, delay between
//! the falls, and drop; its table, and the read-out of one point.
//!
//! Every point is judged by all runs of the answer, everything else as in the given case.

use footroom_core::case::{Case, Worker};
use footroom_core::constants::WORKERS_MAX;
use footroom_core::field;
use footroom_core::fit::layout::{with_span, with_users};
use footroom_core::fit::{Effort, Unknown, find};
use footroom_core::group::{DELAY_MAX_S, Scenario, with_scenario};
use plotters::chart::ChartBuilder;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, DrawingAreaErrorKind};
use plotters::element::{Circle, Polygon, Text};
use plotters::series::{DashedLineSeries, LineSeries};
use plotters::style::Color;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters_backend::DrawingBackend;

use crate::first::answer::DASH;
use crate::first::view::Table;
use crate::order::sort_numbers;
use crate::page::fit::stop;
use crate::page::plan::chart::{
    self, AXIS_NAME_PX, Axis, FOOT_PX, Frame, LIMIT_DASH_PX, Palette, Scale, font, stroke,
};
use crate::say::faults::{self, Voice};
use crate::say::format::{self, POUND_FORCE_N, Rounding, Units};

/// Which input goes across.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Across {
    /// Number of users.
    Users,
    /// Length of all spans.
    Span,
    /// Pretension.
    Pretension,
    /// Time between one fall and the next.
    Delay,
    /// Height of the beam top above the ground.
    Drop,
}

/// All charts, in the order in which they are shown.
pub const ALL: [(&str, Across); 5] = [
    ("users", Across::Users),
    ("span", Across::Span),
    ("pretension", Across::Pretension),
    ("delay", Across::Delay),
    ("drop", Across::Drop),
];

impl Across {
    /// One of the keys of [`ALL`].
    pub fn from_key(key: &str) -> Option<Self> {
        ALL.iter().find(|(k, _)| *k == key).map(|(_, a)| *a)
    }

    /// The values that are tried, ascending, the present one among them; empty: the input means
    /// nothing in this case.
    pub fn values(self, case: &Case) -> Vec<f64> {
        let longest = case.line.spans_m.iter().fold(0.0_f64, |m, &s| m.max(s));
        let around = |present: f64, per_double: i32, name: &str| {
            let (min, max) = field::find(name).map_or((present, present), |f| (f.min, f.max));
            (-5..=5)
                .map(|k| present * doubled(k, per_double))
                .filter(|v| (min..=max).contains(v))
                .collect()
        };
        match self {
            Self::Users => (1..=WORKERS_MAX).map(|n| n as f64).collect(),
            Self::Span => around(longest, 4, "line.spans_m"),
            Self::Pretension => around(case.line.pretension_n, 3, "line.pretension_n"),
            Self::Delay if case.workers.len() < 2 => Vec::new(),
            Self::Delay => {
                let mut values: Vec<f64> = (0..=12)
                    .map(|k| DELAY_MAX_S * f64::from(k) / 12.0)
                    .collect();
                if let Some(delay_s) = self.present(case) {
                    // What is shown as the same delay is one point.
                    values.retain(|s| (s - delay_s).abs() > 0.01);
                    values.push(delay_s);
                    sort_numbers(&mut values);
                }
                values
            }
            Self::Drop => {
                let present = case.site.beam_top_m;
                let highest = case
                    .site
                    .below
                    .iter()
                    .fold(0.0_f64, |m, b| m.max(b.height_m));
                let (min, max) =
                    field::find("site.beam_top_m").map_or((present, present), |f| (f.min, f.max));
                let mut values: Vec<f64> = (-5..=5)
                    .map(|k| present + 0.5 * f64::from(k))
                    .filter(|&v| v == present || v > highest && (min..=max).contains(&v))
                    .collect();
                sort_numbers(&mut values);
                values
            }
        }
    }

    /// The value in the case; `None`: no point of the chart is the case as given.
    fn present(self, case: &Case) -> Option<f64> {
        match self {
            Self::Users => Some(case.workers.len() as f64),
            Self::Span => {
                let longest = case.line.spans_m.iter().fold(0.0_f64, |m, &s| m.max(s));
                let even = case
                    .line
                    .spans_m
                    .iter()
                    .all(|&s| (s - longest).abs() < 1e-9);
                even.then_some(longest)
            }
            Self::Pretension => Some(case.line.pretension_n),
            Self::Delay => in_turn_s(case),
            Self::Drop => Some(case.site.beam_top_m),
        }
    }

    /// The case with the input at a value. At the present one it is the case itself, to the last
    /// bit, so that the chart says there what the page says.
    fn at(self, case: &Case, value: f64) -> Case {
        if self.present(case) == Some(value) {
            return case.clone();
        }
        match self {
            Self::Users => with_users(case, value as usize),
            Self::Span => with_span(case, value),
            Self::Delay => {
                let scenario = Scenario::InTurn {
                    delay_s: value,
                    reversed: false,
                };
                let mut changed = with_scenario(case, scenario);
                // After the last fall as long as in the case, so that the points differ by the
                // delay alone; never shorter than the case.
                let longer_s = (last_fall_s(&changed) - last_fall_s(case)).max(0.0);
                let most_s = field::find("motion.duration_s").map_or(0.0, |f| f.max);
                changed.motion.duration_s = (case.motion.duration_s + longer_s).min(most_s);
                changed
            }
            Self::Pretension => {
                let mut changed = case.clone();
                changed.line.pretension_n = value;
                changed
            }
            Self::Drop => {
                let mut changed = case.clone();
                changed.site.beam_top_m = value;
                changed
            }
        }
    }
}

/// 2 to the power of `k / n`, `n` being 3 or 4. The library's function of powers is 1 kB, and has not the
/// same bits on every target.
fn doubled(k: i32, n: i32) -> f64 {
    let root = if n == 3 { CUBE_ROOT_2 } else { FOURTH_ROOT_2 };
    let whole = (0..k.div_euclid(n).abs()).fold(1.0, |power, _| 2.0 * power);
    let part = (0..k.rem_euclid(n)).fold(1.0, |power, _| root * power);
    if k < 0 { part / whole } else { part * whole }
}

const CUBE_ROOT_2: f64 = 1.259_921_049_894_873_2;
const FOURTH_ROOT_2: f64 = 1.189_207_115_002_721;

/// The instant of the last fall, s.
fn last_fall_s(case: &Case) -> f64 {
    let times = case.workers.iter().filter_map(|w| w.fall_time_s);
    times.fold(0.0, f64::max)
}

/// The delay of a crew of two or more that falls in turn, in the order of the case; `None`: it falls
/// in another way, or at longer delays than are searched.
fn in_turn_s(case: &Case) -> Option<f64> {
    let delay_s = case.workers.get(1)?.fall_time_s?;
    let in_turn = |(turn, w): (usize, &Worker)| {
        let wanted_s = delay_s * turn as f64;
        (w.fall_time_s).is_some_and(|s| (s - wanted_s).abs() < 1.0e-9)
    };
    let all = case.workers.iter().enumerate().all(in_turn);
    (all && (0.0..=DELAY_MAX_S).contains(&delay_s)).then_some(delay_s)
}

/// A point of a chart, in two plain numbers on its way through a worker: the footroom, m, and why
/// it is not known, as its place in [`Unknown::EACH`] counted from 1. NaN and 0: the case cannot be
/// built. NaN and -1: it could not be computed. NaN twice: still to be computed.
pub type Point = [f64; 2];

const NONE: Point = [f64::NAN, 0.0];

/// What a point is until it is computed.
const TO_COME: Point = [f64::NAN, f64::NAN];

/// The point at a value by its place.
pub fn point(case: &Case, across: Across, place: usize) -> Point {
    let values = across.values(case);
    let Some(&value) = values.get(place) else {
        return NONE;
    };
    match find(&across.at(case, value), Effort::Full).map(|found| found.footroom()) {
        Ok(Ok(footroom_m)) => [footroom_m, 0.0],
        Ok(Err(why)) => {
            let code = Unknown::EACH.iter().position(|&w| w == why);
            [f64::NAN, code.map_or(0.0, |i| (i + 1) as f64)]
        }
        Err(_) => NONE,
    }
}

/// What a chart shows.
#[derive(Clone, Debug)]
pub struct Sweep {
    voice: Voice,
    case: Case,
    across: Across,
    present: Option<f64>,
    /// Values of the input, SI.
    values: Vec<f64>,
    points: Vec<Point>,
}

impl Sweep {
    /// `points`: those of [`point`], in order, one after another; what is missing is still to come.
    pub fn new(voice: Voice, case: &Case, across: Across, points: &[f64]) -> Self {
        let values = across.values(case);
        let (points, _) = points.as_chunks();
        let mut points = points.to_vec();
        points.resize(values.len(), TO_COME);
        Self {
            voice,
            case: case.clone(),
            across,
            present: across.present(case),
            values,
            points,
        }
    }

    /// Name of the chart.
    pub fn title(&self) -> &'static str {
        let d = self.voice.decide();
        match self.across {
            Across::Users => d.sweep_users,
            Across::Span => d.sweep_span,
            Across::Pretension => d.sweep_pretension,
            Across::Delay => d.sweep_delay,
            Across::Drop => d.sweep_drop,
        }
    }

    fn value_text(&self, value: f64) -> String {
        let units = self.voice.units;
        match self.across {
            Across::Users => (self.voice.decide().say.users)(value as usize),
            Across::Pretension => format::force_rounded(units, value, Rounding::Nearest),
            Across::Delay => format::time(value),
            Across::Span | Across::Drop => format::length(units, value),
        }
    }

    fn footroom_text(&self, place: usize) -> String {
        let [footroom_m, why] = self.points.get(place).copied().unwrap_or(NONE);
        if footroom_m.is_finite() {
            return stop::footroom(self.voice, footroom_m);
        }
        let d = self.voice.decide();
        if why.is_nan() {
            return d.fit_running.to_owned();
        }
        if why < 0.0 {
            return d.fit_failed.to_owned();
        }
        if let Some(&why) = Unknown::EACH.get((why as usize).wrapping_sub(1)) {
            return stop::known(self.voice, Err(why));
        }
        let value = self.values.get(place).copied().unwrap_or(f64::NAN);
        let case = self.across.at(&self.case, value);
        match case.faults().first() {
            Some(fault) => {
                let why = faults::case_fault(self.voice, &case, fault);
                stop::unknown_because(self.voice, &why)
            }
            None => DASH.to_owned(),
        }
    }

    fn is_present(&self, place: usize) -> bool {
        let value = self.values.get(place).copied().unwrap_or(f64::NAN);
        self.present.is_some_and(|p| (p - value).abs() < 1.0e-9)
    }

    /// A point in words; empty outside the chart.
    pub fn read(&self, place: usize) -> String {
        let Some(&value) = self.values.get(place) else {
            return String::new();
        };
        let d = self.voice.decide();
        let text = (d.say.sweep_point)(&self.value_text(value), &self.footroom_text(place));
        if self.is_present(place) {
            (d.say.sweep_present)(&text)
        } else {
            text
        }
    }

    /// Place of the value of the present case, else the first.
    pub fn start(&self) -> usize {
        let there = (0..self.values.len()).find(|&i| self.is_present(i));
        there.unwrap_or(0)
    }

    /// All points.
    pub fn table(&self) -> Table {
        let d = self.voice.decide();
        Table {
            caption: self.title().to_owned(),
            head: vec![
                d.sweep_value.to_owned(),
                self.voice.texts().footroom.to_owned(),
            ],
            rows: (0..self.values.len())
                .map(|i| {
                    let value = self.value_text(self.values[i]);
                    let value = if self.is_present(i) {
                        (d.say.sweep_present)(&value)
                    } else {
                        value
                    };
                    vec![value, self.footroom_text(i)]
                })
                .collect(),
            note: String::new(),
        }
    }

    /// Place of the point nearest to `x_px` on a canvas `width_px` wide, CSS px.
    pub fn nearest(&self, x_px: f64, width_px: f64) -> usize {
        let (low, high) = self.x_range();
        let part = (x_px - LEFT_PX) / (width_px - LEFT_PX - RIGHT_PX).max(1.0);
        let wanted = low + part.clamp(0.0, 1.0) * (high - low);
        let away = |i: &usize| (self.shown_x(self.values[*i]) - wanted).abs();
        (0..self.values.len())
            .min_by(|a, b| away(a).total_cmp(&away(b)))
            .unwrap_or(0)
    }

    /// A value in the unit of the axis.
    fn shown_x(&self, value: f64) -> f64 {
        match (self.across, self.voice.units) {
            (Across::Users | Across::Delay, _) => value,
            (Across::Pretension, Units::Metric) => value / 1.0e3,
            (Across::Pretension, Units::Us) => value / POUND_FORCE_N,
            (_, Units::Metric) => value,
            (_, Units::Us) => value / format::FOOT_M,
        }
    }

    fn x_label(&self) -> String {
        let unit = match (self.across, self.voice.units) {
            (Across::Users, _) => "",
            (Across::Delay, _) => "s",
            (Across::Pretension, Units::Metric) => "kN",
            (Across::Pretension, Units::Us) => "lbf",
            (_, Units::Metric) => "m",
            (_, Units::Us) => "ft",
        };
        let d = self.voice.decide();
        let name = match self.across {
            Across::Users => d.compare_users,
            Across::Span => d.sweep_axis_span,
            Across::Pretension => d.cause_pretension,
            Across::Delay => d.sweep_axis_delay,
            Across::Drop => d.sweep_axis_drop,
        };
        if unit.is_empty() {
            name.to_owned()
        } else {
            format!("{name}, {unit}")
        }
    }

    /// With room for the ring of a point at either end: it must not touch the axis' numbers.
    fn x_range(&self) -> (f64, f64) {
        let ends = [self.values.first(), self.values.last()];
        let [low, high] = ends.map(|v| v.map_or(0.0, |&v| self.shown_x(v)));
        if high > low {
            let edge = 0.04 * (high - low);
            (low - edge, high + edge)
        } else {
            (low, low + 1.0)
        }
    }

    /// A footroom in the unit of the axis.
    fn shown_y(&self, metres: f64) -> f64 {
        match self.voice.units {
            Units::Metric => metres,
            Units::Us => metres / format::FOOT_M,
        }
    }

    fn y_range(&self) -> (f64, f64) {
        let shown = self.points.iter().map(|p| p[0]).filter(|m| m.is_finite());
        let (low, high) = shown.fold((0.0_f64, 0.0_f64), |(l, h), m| {
            (l.min(self.shown_y(m)), h.max(self.shown_y(m)))
        });
        let edge = 0.12 * (high - low).max(0.2);
        (low - edge, high + edge)
    }
}

/// Room for the numbers of the value axis, CSS px.
const LEFT_PX: f64 = 46.0;
/// Empty right edge, CSS px.
const RIGHT_PX: f64 = 14.0;
/// Empty upper edge, CSS px.
const TOP_PX: f64 = 20.0;

/// Draws a chart on the whole area, with a point picked out.
///
/// # Errors
/// What the backend reports.
pub fn draw<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    sweep: &Sweep,
    palette: &Palette,
    scale: Scale,
    picked: Option<usize>,
) -> Result<(), DrawingAreaErrorKind<DB::ErrorType>> {
    area.fill(&palette.paper)?;
    let (width, height) = area.dim_in_pixel();
    let (width, height) = (width as i32, height as i32);
    let (left, right) = (scale.px(LEFT_PX), width - scale.px(RIGHT_PX));
    let (top, bottom) = (scale.px(TOP_PX), height - scale.px(FOOT_PX));
    if right - left < scale.px(40.0) || bottom - top < scale.px(30.0) {
        return Ok(());
    }
    let text = font(palette, scale);
    let ((x_low, x_high), (y_low, y_high)) = (sweep.x_range(), sweep.y_range());
    let mut context = ChartBuilder::on(area)
        .margin_top(top)
        .margin_right(width - right)
        .x_label_area_size(height - bottom)
        .y_label_area_size(left)
        .build_cartesian_2d(Axis::of(x_low, x_high), Axis::of(y_low, y_high))?;
    let frame = Frame {
        left,
        top,
        right,
        bottom,
    };
    chart::axes(&mut context, frame, palette, scale)?;
    // No footroom left.
    context.draw_series(DashedLineSeries::new(
        [(x_low, 0.0), (x_high, 0.0)],
        scale.px(LIMIT_DASH_PX.0),
        scale.px(LIMIT_DASH_PX.1),
        stroke(palette.warning, scale.px(1.8)),
    ))?;
    let points: Vec<(f64, f64)> = sweep
        .values
        .iter()
        .zip(&sweep.points)
        .map(|(&x, p)| (sweep.shown_x(x), sweep.shown_y(p[0])))
        .collect();
    // A point without a number breaks the curve.
    for piece in points.split(|p| !p.1.is_finite()).filter(|p| p.len() > 1) {
        let line = piece.iter().copied();
        context.draw_series(LineSeries::new(
            line,
            stroke(palette.series[0], scale.px(1.8)),
        ))?;
    }
    let place = |(x, y): (f64, f64)| {
        let across = (x - x_low) / (x_high - x_low) * f64::from(right - left);
        let up = (y - y_low) / (y_high - y_low) * f64::from(bottom - top);
        (left + across.round() as i32, bottom - up.round() as i32)
    };
    let r = scale.px(4.0).max(2);
    for (i, &point) in points.iter().enumerate() {
        let (x, y) = place((point.0, if point.1.is_finite() { point.1 } else { 0.0 }));
        if picked == Some(i) {
            chart::upright(area, frame, x, palette, scale)?;
        }
        if !point.1.is_finite() {
            continue;
        }
        let colour = palette.series[0];
        if point.1 < 0.0 {
            let corners = [(x, y + r), (x + r, y - r), (x - r, y - r)];
            area.draw(&Polygon::new(corners, palette.warning.filled()))?;
        } else {
            area.draw(&Circle::new((x, y), r, colour.filled()))?;
        }
        if sweep.is_present(i) {
            let style = stroke(palette.ink, scale.px(1.6));
            area.draw(&Circle::new((x, y), 2 * r, style))?;
        }
    }
    let d = sweep.voice.decide();
    let y_label = (d.say.sweep_axis)(match sweep.voice.units {
        Units::Metric => "m",
        Units::Us => "ft",
    });
    let at_left = text.pos(Pos::new(HPos::Left, VPos::Top));
    area.draw(&Text::new(y_label, (scale.px(4.0), scale.px(2.0)), at_left))?;
    let at_right = text.pos(Pos::new(HPos::Right, VPos::Top));
    let foot = (right, bottom + scale.px(AXIS_NAME_PX));
    area.draw(&Text::new(sweep.x_label(), foot, at_right))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::scene::theme::Theme;
    use crate::say::format::Lang;
    use footroom_core::assess::assess;
    use footroom_core::demo::demo;
    use footroom_core::solve::Options;
    use plotters::backend::SVGBackend;
    use plotters::drawing::IntoDrawingArea;

    const VOICE: Voice = Voice {
        lang: Lang::En,
        units: Units::Metric,
    };

    /// A point that no worker could make says so, in the read-out and in the table.
    #[test]
    fn a_point_that_failed_is_said() {
        let points = [1.0, 0.0, f64::NAN, -1.0];
        let sweep = Sweep::new(VOICE, &demo(), Across::Users, &points);
        let [failed, running] = [VOICE.decide().fit_failed, VOICE.decide().fit_running];
        assert!(sweep.read(1).contains(failed), "{}", sweep.read(1));
        assert!(sweep.read(2).contains(running), "{}", sweep.read(2));
        assert_eq!(sweep.table().rows[1][1], failed);
    }

    #[test]
    fn steps_double_in_three_or_four() {
        for n in [3, 4] {
            for k in -12..=12 {
                let wanted = 2.0_f64.powf(f64::from(k) / f64::from(n));
                let ratio = doubled(k, n) / wanted;
                assert!((ratio - 1.0).abs() < 1.0e-15, "{k} of {n}: {ratio}");
            }
            assert_eq!(
                [doubled(-n, n), doubled(0, n), doubled(n, n)],
                [0.5, 1.0, 2.0]
            );
        }
    }

    #[test]
    fn values_are_ascending_and_hold_the_present_one() {
        let case = demo();
        for (key, across) in ALL {
            assert_eq!(Across::from_key(key), Some(across));
            let values = across.values(&case);
            assert!(values.len() > 5, "{key}");
            assert!(values.is_sorted_by(|a, b| a < b), "{key}: {values:?}");
            let sweep = Sweep::new(VOICE, &case, across, &[]);
            assert!(sweep.is_present(sweep.start()), "{key}");
        }
        let mut one = case.clone();
        one.workers.truncate(1);
        assert!(Across::Delay.values(&one).is_empty());
        assert!(point(&one, Across::Delay, 0)[0].is_nan());
        assert_eq!(Across::from_key("other"), None);
    }

    /// The point of the present case is the answer of the page.
    #[test]
    fn the_present_point_is_the_answer() {
        let case = demo();
        let answer = crate::page::Page::new(Lang::En, Units::Metric)
            .whole_view()
            .answer
            .number;
        for (_, across) in ALL {
            let start = Sweep::new(VOICE, &case, across, &[]).start();
            let mut found = NONE.repeat(start);
            found.extend(point(&case, across, start));
            let sweep = Sweep::new(VOICE, &case, across, &found);
            let read = sweep.read(start);
            assert!(
                read.contains(&answer) && read.contains("this case"),
                "{read}"
            );
            assert_eq!(sweep.table().rows[start][1], format!("{answer} to spare"));
            assert!(sweep.read(start + 1).contains(VOICE.decide().fit_running));
            assert_eq!(sweep.read(99), "");
        }
    }

    /// The point at the case's own value is the page's answer to the last bit, whatever the case; where
    /// no point is the case, none is marked.
    #[test]
    fn the_present_point_is_the_answer_bit_for_bit() {
        let mut aside = demo();
        aside.line.spans_m = vec![7.3, 7.3];
        for (i, worker) in aside.workers.iter_mut().enumerate() {
            worker.position_m = 9.1 + 1.3 * i as f64;
            worker.mass_kg += 7.7 * i as f64;
        }
        let in_turn = |delay_s: f64| {
            let mut case = demo();
            for (i, worker) in case.workers.iter_mut().enumerate() {
                worker.fall_time_s = Some(delay_s * i as f64);
            }
            case
        };
        // Typed by hand, three times 0.1 s is not 0.3 s to the last bit.
        let mut typed = in_turn(0.1);
        typed.workers[2].fall_time_s = Some(0.2);
        typed.workers.push(Worker {
            position_m: 3.0,
            fall_time_s: Some(0.3),
            ..typed.workers[0]
        });
        let cases = [aside, in_turn(0.37), in_turn(DELAY_MAX_S), typed];
        for case in &cases {
            let answer = assess(case, Options::default()).expect("no faults");
            let page_m = answer.footroom.value;
            for (key, across) in ALL {
                let sweep = Sweep::new(VOICE, case, across, &[]);
                let place = sweep.start();
                assert!(sweep.is_present(place), "{key}");
                let [footroom_m, why] = point(case, across, place);
                assert_eq!(
                    (footroom_m.to_bits(), why),
                    (page_m.to_bits(), 0.0),
                    "{key}"
                );
            }
            let delays = Across::Delay.values(case);
            assert!(delays.is_sorted_by(|a, b| a < b), "{delays:?}");
        }
        let mut odd = in_turn(0.5);
        odd.workers[2].fall_time_s = Some(0.6);
        odd.line.spans_m = vec![8.0, 10.0];
        for across in [Across::Delay, Across::Span] {
            let sweep = Sweep::new(VOICE, &odd, across, &[]);
            assert!((0..sweep.values.len()).all(|i| !sweep.is_present(i)));
        }
    }

    /// Where the line would break no footroom is claimed, and read-out and table say why; so they do
    /// where the case cannot be built.
    #[test]
    fn a_point_without_a_number_says_why() {
        let mut case = demo();
        case.site.beam_top_m = 20.0;
        case.line.rope.breaking_force_n = Some(9.0e3);
        for voice in Voice::ALL {
            for (_, across) in ALL {
                let place = Sweep::new(voice, &case, across, &[]).start();
                let mut found = NONE.repeat(place);
                found.extend(point(&case, across, place));
                let sweep = Sweep::new(voice, &case, across, &found);
                let why = voice.decide().stop_breaks;
                for said in [&sweep.read(place), &sweep.table().rows[place][1]] {
                    assert!(said.contains(why), "{said}");
                    assert!(!said.contains(voice.texts().scene_spare), "{said}");
                }
            }
            let mut narrow = demo();
            narrow.workers[0].position_m = 0.0;
            narrow.line.rope.breaking_force_n = Some(narrow.line.pretension_n);
            let more = Across::Pretension.values(&narrow).len() - 1;
            let mut found = NONE.repeat(more);
            found.extend(point(&narrow, Across::Pretension, more));
            assert!(found[2 * more].is_nan());
            let sweep = Sweep::new(voice, &narrow, Across::Pretension, &found);
            let said = sweep.read(more);
            assert!(said.contains(voice.texts().word_unknown), "{said}");
        }
    }

    #[test]
    fn the_nearest_point_is_found_over_the_whole_width() {
        let case = demo();
        let sweep = Sweep::new(VOICE, &case, Across::Users, &[]);
        assert_eq!(sweep.nearest(0.0, 400.0), 0);
        assert_eq!(sweep.nearest(400.0, 400.0), 5);
        assert_eq!(
            sweep.nearest(LEFT_PX + 0.4 * (400.0 - LEFT_PX - RIGHT_PX), 400.0),
            2
        );
    }

    #[test]
    fn charts_are_drawn_in_every_voice_with_gaps_and_without_points() {
        let case = demo();
        let black = |_: &str| None;
        for lang in [Lang::En, Lang::Es] {
            for units in [Units::Metric, Units::Us] {
                for (_, across) in ALL {
                    let mut found = [0.4, -0.2, f64::NAN, 0.1, 0.0].map(|m| [m, 0.0]).concat();
                    for _ in 0..2 {
                        let sweep = Sweep::new(Voice { lang, units }, &case, across, &found);
                        let mut svg = String::new();
                        {
                            let area =
                                SVGBackend::with_string(&mut svg, (360, 200)).into_drawing_area();
                            let palette = Palette::of(&Theme::default(), black);
                            draw(&area, &sweep, &palette, Scale(1.0), Some(1)).expect("drawn");
                            area.present().expect("drawn");
                        }
                        assert!(svg.contains(&sweep.x_label()), "{svg}");
                        assert!(!svg.contains("NaN"));
                        let markers = svg.matches("<circle").count();
                        assert_eq!(markers >= 3, !found.is_empty(), "{markers}");
                        found.clear();
                    }
                }
            }
        }
    }
}
