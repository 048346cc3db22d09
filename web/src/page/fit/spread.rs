//! Falls drawn within the tolerances: their spread beside the answer in sentences, tables and a chart
//! each for footroom and line tension.
//!
//! The draws come in pieces, as plain numbers on their way through workers; what is told of them is
//! made when all are there, a chart of those that are.

use footroom_core::assess::Assessment;
use footroom_core::case::Case;
use footroom_core::draws::{
    Beyond, DRAWS, Distribution, Drawn, Draws, Fall, Influence, Input, Told, beyond,
};
use footroom_core::field::Quantity;
use footroom_core::fit::Unknown;
use plotters::chart::ChartBuilder;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, DrawingAreaErrorKind};
use plotters::element::{PathElement, Rectangle, Text};
use plotters::style::Color;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters_backend::DrawingBackend;
use serde::Serialize;

use crate::first::answer::DASH;
use crate::first::view::Table;
use crate::order::{sort, sort_numbers};
use crate::page::fit::stop;
use crate::page::plan::chart::{
    self, AXIS_NAME_PX, Axis, FOOT_PX, Frame, LIMIT_DASH_PX, Palette, Scale, TYPE_PX, font, stroke,
};
use crate::say::faults::Voice;
use crate::say::format::{self, POUND_FORCE_N, Rounding, Units};
use crate::say::texts::spread::{self as words, Texts};

/// The seed of a page that was given none.
pub const SEED: u32 = 1;
/// The greatest seed: six figures are soon typed, and more than anybody tries.
pub const SEED_MAX: u32 = 999_999;
/// The name of the seed among the notes of a link.
pub const NOTE: &str = "draws";

/// A seed as it was typed, or as a link has it; `None`: it is none.
pub fn seed_of(text: &str) -> Option<u32> {
    let text = text.trim();
    let digits = (1..=6).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit());
    digits.then(|| text.parse().ok()).flatten()
}

/// Numbers of one draw on its way through a worker: footroom, m, line tension, N, and why the two say
/// nothing, as its place in [`Unknown::EACH`] counted from 1.
pub const NUMBERS: usize = 3;

/// The numbers of draws from one on.
pub fn numbers(draws: &Draws, from: u32, count: u32) -> Vec<f64> {
    let end = from.saturating_add(count).min(DRAWS);
    let falls = draws.falls(from.min(end)..end);
    let of = |fall: &Fall| {
        let place = |why| Unknown::EACH.iter().position(|&w| w == why);
        let why = fall.unknown.and_then(place);
        let why = why.map_or(0.0, |place| (place + 1) as f64);
        [fall.footroom_m, fall.tension_max_n, why]
    };
    falls.iter().flat_map(of).collect()
}

/// The draws of these numbers; those that are not there yet, which are NaN, are left out.
fn falls(numbers: &[f64]) -> Vec<Fall> {
    let (falls, _) = numbers.as_chunks::<NUMBERS>();
    (falls.iter())
        .filter(|[_, _, why]| !why.is_nan())
        .map(|&[footroom_m, tension_max_n, why]| Fall {
            footroom_m,
            tension_max_n,
            unknown: Unknown::EACH.get((why as usize).wrapping_sub(1)).copied(),
        })
        .collect()
}

/// How far the draws are, in words.
pub fn progress(voice: Voice, made: u32) -> String {
    (texts(voice).say.spread_progress)(&count(made as usize), &count(DRAWS as usize))
}

/// What is told of all draws.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpreadView {
    /// Sentences, the most important first.
    pub sentences: Vec<String>,
    /// The answer and the places of the draws.
    pub table: Table,
    /// What each input does.
    pub inputs: Table,
}

/// Tells of draws: of a case, its answer, their seed and their numbers. `None` for a case with faults.
pub fn spread(
    voice: Voice,
    case: &Case,
    answer: &Assessment,
    seed: u32,
    numbers: &[f64],
) -> Option<SpreadView> {
    let draws = Draws::new(case, seed).ok()?;
    let falls = falls(numbers);
    let telling = Telling {
        voice,
        case,
        answer,
        told: draws.told(&falls),
        beyond: beyond(case, answer, &falls),
    };
    Some(SpreadView {
        sentences: telling.sentences(draws.drawn()),
        table: telling.table(),
        inputs: telling.inputs(draws.drawn()),
    })
}

struct Telling<'a> {
    voice: Voice,
    case: &'a Case,
    answer: &'a Assessment,
    told: Told,
    beyond: Beyond,
}

fn texts(voice: Voice) -> &'static Texts {
    words::of(voice.lang)
}

fn count(n: usize) -> String {
    format::grouped(&n.to_string())
}

fn percent(part: f64) -> String {
    format::number(100.0 * part, 0)
}

impl Telling<'_> {
    fn footroom(&self, m: f64) -> String {
        stop::footroom(self.voice, m)
    }

    fn tension(&self, n: f64) -> String {
        format::force(self.voice.units, n)
    }

    /// There is an answer to set beside the draws.
    fn is_answered(&self) -> bool {
        self.answer.answer().is_ok()
    }

    /// The tolerances alone leave more than the answer, as shown.
    fn has_sides(&self) -> bool {
        self.steps(self.beyond.sides_footroom_m) != self.steps(self.answer.footroom.value)
    }

    fn steps(&self, m: f64) -> i64 {
        format::length_steps(self.voice.units, m, Rounding::Down)
    }

    /// A footroom with its distance to the answer, by what is shown of both.
    fn beside(&self, m: f64) -> String {
        let say = &texts(self.voice).say;
        let above = self.steps(m) - self.steps(self.answer.footroom.value);
        let by = format::length_of_steps(self.voice.units, above.abs());
        let told = if above < 0 {
            say.spread_below
        } else {
            say.spread_above
        };
        told(&self.footroom(m), &by)
    }

    fn sentences(&self, drawn: &[Drawn]) -> Vec<String> {
        let t = texts(self.voice);
        let say = &t.say;
        let mut said = Vec::new();
        if drawn.is_empty() {
            said.push(t.spread_nothing.to_owned());
        }
        let (Some(footroom), Some(tension)) = (self.told.footroom_m, self.told.tension_n) else {
            said.push(t.spread_no_draw.to_owned());
            return said;
        };
        let (of, beyond) = (count(self.told.draws), &self.beyond);
        if self.is_answered() {
            let answer_n = self.answer.tension_max.value;
            let answer = self.footroom(self.answer.footroom.value);
            let mut less = (say.spread_less)(&count(beyond.footroom), &of, &answer);
            if self.has_sides() {
                let sides = self.footroom(beyond.sides_footroom_m);
                less.push(' ');
                less += &(say.spread_beyond_sides)(&count(beyond.sides_footroom), &sides);
            }
            less.push(' ');
            less += &(say.spread_ends)(&self.beside(footroom.least), &self.beside(footroom.middle));
            said.push(less);
            let beside = |n: f64| (say.spread_of_answer)(&self.tension(n), &percent(n / answer_n));
            let more = (say.spread_more)(&count(beyond.tension), &of, &self.tension(answer_n));
            let ends = (say.spread_ends)(&beside(tension.greatest), &beside(tension.middle));
            said.push(format!("{more} {ends}"));
        } else {
            said.push(t.spread_no_answer.to_owned());
        }
        if self.told.unknown > 0 {
            said.push((say.spread_unknown)(&count(self.told.unknown)));
        }
        if let (Some(footroom), Some(tension)) = (
            self.most(drawn, |i| self.told.on_footroom[i].share),
            self.most(drawn, |i| self.told.on_tension[i].share),
        ) {
            let explained = |all: &[Influence]| {
                let sum: f64 = all.iter().map(|it| it.explained).sum();
                percent(sum.min(1.0))
            };
            let most = (say.spread_most)(&footroom, &tension);
            let explained = (say.spread_explained)(
                &explained(&self.told.on_footroom),
                &explained(&self.told.on_tension),
            );
            said.push(format!("{most} {explained}"));
        }
        said
    }

    /// The input with the greatest share.
    fn most(&self, drawn: &[Drawn], share: impl Fn(usize) -> f64) -> Option<String> {
        let first = by_share(drawn.len(), &share).first().copied()?;
        let name = input_name(self.voice, drawn[first].input);
        let say = &texts(self.voice).say;
        Some((say.spread_with_share)(&name, &percent(share(first))))
    }

    fn table(&self) -> Table {
        let t = texts(self.voice);
        let more = 1.0 + self.case.allowance.tension_ratio;
        let nominal = &self.answer.nominal;
        let given_n = nominal
            .history
            .tension_max_n
            .max(nominal.balance.tension_max_n);
        let mut rows: Vec<Vec<String>> = Vec::new();
        let mut row = |name: &str, footroom_m: Option<f64>, tension_n: Option<f64>| {
            let dash = || DASH.to_owned();
            rows.push(vec![
                name.to_owned(),
                footroom_m.map_or_else(dash, |m| self.footroom(m)),
                tension_n.map_or_else(dash, |n| self.tension(n)),
            ]);
        };
        let answered = |value: f64| self.is_answered().then_some(value);
        let (m, n) = (self.answer.footroom.value, self.answer.tension_max.value);
        row(t.spread_answer, answered(m), answered(n));
        if self.has_sides() {
            let beyond = &self.beyond;
            let (m, n) = (beyond.sides_footroom_m, beyond.sides_tension_n);
            row(t.spread_sides, answered(m), answered(n));
        }
        let (footroom, tension) = (self.told.footroom_m, self.told.tension_n);
        // Worse is less footroom, and more tension.
        let places: [(&str, Place, Place); 5] = [
            (t.spread_worst, |d| d.least, |d| d.greatest),
            (t.spread_low, |d| d.low, |d| d.high),
            (t.spread_middle, |d| d.middle, |d| d.middle),
            (t.spread_high, |d| d.high, |d| d.low),
            (t.spread_best, |d| d.greatest, |d| d.least),
        ];
        for (name, of_footroom, of_tension) in places {
            let (m, n) = (footroom.as_ref(), tension.as_ref());
            row(name, m.map(of_footroom), n.map(of_tension));
        }
        let known = nominal.unknown().is_none();
        let (m, n) = (nominal.footroom_m, more * given_n);
        row(t.spread_given, known.then_some(m), known.then_some(n));
        Table {
            caption: t.spread_caption.to_owned(),
            head: vec![
                String::new(),
                self.voice.texts().footroom.to_owned(),
                self.voice.texts().line_tension.to_owned(),
            ],
            rows,
            note: String::new(),
        }
    }

    fn inputs(&self, drawn: &[Drawn]) -> Table {
        let t = texts(self.voice);
        let (footroom, tension) = (&self.told.on_footroom, &self.told.on_tension);
        let order = by_share(drawn.len(), &|i| footroom[i].share);
        Table {
            caption: t.spread_inputs.to_owned(),
            head: [
                t.spread_input,
                t.spread_range,
                t.spread_rank_footroom,
                t.spread_share_footroom,
                t.spread_rank_tension,
                t.spread_share_tension,
            ]
            .map(str::to_owned)
            .to_vec(),
            rows: (order.into_iter())
                .map(|i| {
                    let mut row = vec![
                        input_name(self.voice, drawn[i].input),
                        range(self.voice, &drawn[i]),
                    ];
                    for it in [&footroom[i], &tension[i]] {
                        row.push(format::number(it.rank_correlation, 2));
                        row.push(format!("{}%", percent(it.share)));
                    }
                    row
                })
                .collect(),
            note: t.spread_inputs_note.to_owned(),
        }
    }
}

/// A place of a distribution.
type Place = fn(&Distribution) -> f64;

/// Places of inputs, the greatest share first.
fn by_share(count: usize, share: &dyn Fn(usize) -> f64) -> Vec<usize> {
    let mut order: Vec<usize> = (0..count).collect();
    sort(&mut order, |&a, &b| share(a) > share(b));
    order
}

fn input_name(voice: Voice, input: Input) -> String {
    let t = texts(voice);
    match input {
        Input::Mass { worker } => (t.say.spread_mass)(worker + 1),
        Input::AbsorberForce { worker } => (t.say.spread_absorber)(worker + 1),
        Input::Pretension => t.spread_pretension.to_owned(),
        Input::AxialStiffness => t.spread_rope.to_owned(),
        Input::LeftEnd => t.spread_left.to_owned(),
        Input::RightEnd => t.spread_right.to_owned(),
        Input::InlineForce => t.spread_inline.to_owned(),
    }
}

/// Between which values an input was drawn.
fn range(voice: Voice, drawn: &Drawn) -> String {
    let quantity = match drawn.input {
        Input::Mass { .. } => Quantity::Mass,
        Input::AbsorberForce { .. } | Input::Pretension | Input::InlineForce => Quantity::Force,
        Input::AxialStiffness => Quantity::AxialStiffness,
        Input::LeftEnd | Input::RightEnd => Quantity::Stiffness,
    };
    let (low, high) = format::range_texts(quantity, voice.units, drawn.low, drawn.high);
    (texts(voice).say.spread_from_to)(&low, &high)
}

/// Which chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shows {
    /// Footroom.
    Footroom,
    /// Greatest line tension.
    Tension,
}

impl Shows {
    /// `footroom` or `tension`.
    pub fn from_key(key: &str) -> Option<Self> {
        match key {
            "footroom" => Some(Self::Footroom),
            "tension" => Some(Self::Tension),
            _ => None,
        }
    }
}

/// A histogram of the draws.
#[derive(Clone, Debug)]
pub struct Histogram {
    voice: Voice,
    shows: Shows,
    /// The draws in the unit of the axis, ascending.
    values: Vec<f64>,
    /// The answer, the same; `None`: there is none.
    answer: Option<f64>,
    /// The case as entered.
    given: Option<f64>,
}

impl Histogram {
    /// Of the draws that are there, see [`numbers`].
    pub fn of(
        voice: Voice,
        case: &Case,
        answer: &Assessment,
        shows: Shows,
        numbers: &[f64],
    ) -> Self {
        let nominal = &answer.nominal;
        let more = 1.0 + case.allowance.tension_ratio;
        let given_n = (nominal.history.tension_max_n).max(nominal.balance.tension_max_n);
        let (known, given) = (answer.answer().is_ok(), nominal.unknown().is_none());
        let (unit, answer, nominal) = match (shows, voice.units) {
            (Shows::Footroom, units) => (
                match units {
                    Units::Metric => 1.0,
                    Units::Us => format::FOOT_M,
                },
                answer.footroom.value,
                nominal.footroom_m,
            ),
            (Shows::Tension, units) => (
                match units {
                    Units::Metric => 1.0e3,
                    Units::Us => POUND_FORCE_N,
                },
                answer.tension_max.value,
                more * given_n,
            ),
        };
        let mut values: Vec<f64> = falls(numbers)
            .iter()
            .filter(|fall| fall.unknown.is_none())
            .map(|fall| match shows {
                Shows::Footroom => fall.footroom_m / unit,
                Shows::Tension => fall.tension_max_n / unit,
            })
            .collect();
        sort_numbers(&mut values);
        Self {
            voice,
            shows,
            values,
            answer: known.then_some(answer / unit),
            given: given.then_some(nominal / unit),
        }
    }

    /// Its name.
    pub fn title(&self) -> &'static str {
        let t = texts(self.voice);
        match self.shows {
            Shows::Footroom => t.spread_footroom,
            Shows::Tension => t.spread_tension,
        }
    }

    /// It in words; empty while there is nothing in it.
    pub fn words(&self) -> String {
        let t = texts(self.voice);
        let text = |value: f64| match (self.shows, self.voice.units) {
            (Shows::Footroom, Units::Metric) => stop::footroom(self.voice, value),
            (Shows::Footroom, Units::Us) => stop::footroom(self.voice, value * format::FOOT_M),
            (Shows::Tension, Units::Metric) => format::force(self.voice.units, value * 1.0e3),
            (Shows::Tension, Units::Us) => format::force(self.voice.units, value * POUND_FORCE_N),
        };
        let Some(spread) = Distribution::of(&self.values) else {
            return String::new();
        };
        let answer = self.answer.map_or_else(|| DASH.to_owned(), text);
        (t.say.spread_words)(
            self.title(),
            &text(spread.least),
            &text(spread.middle),
            &text(spread.greatest),
            &answer,
        )
    }

    fn axis(&self) -> String {
        let unit = match (self.shows, self.voice.units) {
            (Shows::Footroom, Units::Metric) => "m",
            (Shows::Footroom, Units::Us) => "ft",
            (Shows::Tension, Units::Metric) => "kN",
            (Shows::Tension, Units::Us) => "lbf",
        };
        let name = match self.shows {
            Shows::Footroom => self.voice.texts().footroom,
            Shows::Tension => self.voice.texts().line_tension,
        };
        format!("{name}, {unit}")
    }

    /// The draw in the middle, see [`Distribution`].
    fn middle(&self) -> Option<f64> {
        let middle = self.values.len().div_ceil(2).checked_sub(1)?;
        self.values.get(middle).copied()
    }

    /// What stands on the axis beside the draws: the answer, the case as entered, the middle.
    fn marks(&self) -> Vec<Mark> {
        let t = texts(self.voice);
        let all = [
            (self.answer, t.spread_mark_answer, MarkKind::Answer),
            (self.given, t.spread_mark_given, MarkKind::Given),
            (self.middle(), t.spread_mark_middle, MarkKind::Middle),
        ];
        (all.into_iter())
            .filter_map(|(at, name, kind)| at.map(|at| Mark { at, name, kind }))
            .collect()
    }

    /// The bars. The answer is where one begins, so that none is on both sides of it, and a draw that
    /// is just the answer counts with those that are not worse.
    fn bars(&self) -> Option<Bars> {
        let (&least, &greatest) = (self.values.first()?, self.values.last()?);
        let width = (greatest - least) / BARS;
        let size = least.abs().max(greatest.abs()).max(1.0);
        let width = if width > 1.0e-9 * size {
            width
        } else {
            0.01 * size
        };
        let from = self.answer.unwrap_or(least);
        let place = |value: f64| {
            let away = (value - from) / width;
            match self.shows {
                Shows::Footroom => away.floor() as i64,
                Shows::Tension => away.ceil() as i64 - 1,
            }
        };
        let first = place(least);
        let mut counts = vec![0_usize; (place(greatest) - first) as usize + 1];
        for &value in &self.values {
            counts[(place(value) - first) as usize] += 1;
        }
        let answer = -first;
        Some(Bars {
            first: from + first as f64 * width,
            width,
            worse: match (self.answer, self.shows) {
                (None, _) => 0..0,
                (_, Shows::Footroom) => 0..answer,
                (_, Shows::Tension) => answer..i64::MAX,
            },
            counts,
        })
    }
}

/// About how many bars the draws take.
const BARS: f64 = 28.0;

struct Bars {
    /// Where the first begins.
    first: f64,
    width: f64,
    /// Places of those that are beyond the answer.
    worse: std::ops::Range<i64>,
    /// How many draws each has.
    counts: Vec<usize>,
}

impl Bars {
    fn begins(&self, place: usize) -> f64 {
        self.first + place as f64 * self.width
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum MarkKind {
    Answer,
    Given,
    Middle,
}

struct Mark {
    at: f64,
    name: &'static str,
    kind: MarkKind,
}

/// Room for the numbers of the axis of how many, CSS px.
const LEFT_PX: f64 = 46.0;
/// Empty right edge, CSS px.
const RIGHT_PX: f64 = 14.0;
/// Height of a line of type over the plot, CSS px: one for the axis' name, one for each mark.
const LINE_PX: f64 = 1.4 * TYPE_PX;

/// Draws a histogram on the whole area.
///
/// # Errors
/// What the backend reports.
pub fn draw<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    shown: &Histogram,
    palette: &Palette,
    scale: Scale,
) -> Result<(), DrawingAreaErrorKind<DB::ErrorType>> {
    area.fill(&palette.paper)?;
    let (width, height) = area.dim_in_pixel();
    let (width, height) = (width as i32, height as i32);
    let mut marks = shown.marks();
    let lines = 1.0 + marks.len() as f64;
    let (left, right) = (scale.px(LEFT_PX), width - scale.px(RIGHT_PX));
    let (top, bottom) = (scale.px(lines * LINE_PX + 6.0), height - scale.px(FOOT_PX));
    let Some(bars) = shown.bars() else {
        return Ok(());
    };
    if right - left < scale.px(40.0) || bottom - top < scale.px(30.0) {
        return Ok(());
    }
    let text = font(palette, scale);
    // All bars, all marks, and some room at either end.
    let ends = marks.iter().map(|mark| mark.at);
    let (low, high) = ends.fold(
        (bars.begins(0), bars.begins(bars.counts.len())),
        |(low, high), at| (low.min(at), high.max(at)),
    );
    let edge = 0.04 * (high - low);
    let (x_low, x_high) = (low - edge, high + edge);
    let most = bars.counts.iter().copied().max().unwrap_or(1);
    let y_high = 1.08 * most as f64;
    let mut context = ChartBuilder::on(area)
        .margin_top(top)
        .margin_right(width - right)
        .x_label_area_size(height - bottom)
        .y_label_area_size(left)
        .build_cartesian_2d(Axis::of(x_low, x_high), Axis::of(0.0, y_high))?;
    let frame = Frame {
        left,
        top,
        right,
        bottom,
    };
    chart::axes(&mut context, frame, palette, scale)?;
    let across = |x: f64| {
        let part = (x - x_low) / (x_high - x_low);
        left + (part * f64::from(right - left)).round() as i32
    };
    let up = |count: usize| {
        let part = count as f64 / y_high;
        bottom - (part * f64::from(bottom - top)).round() as i32
    };
    for (place, &count) in bars.counts.iter().enumerate().filter(|bar| *bar.1 > 0) {
        let (from, to) = (bars.begins(place), bars.begins(place + 1));
        let corners = [(across(from), up(count)), (across(to), bottom)];
        // Beyond the answer the bars are hollow, and of another colour.
        if bars.worse.contains(&(place as i64)) {
            let edge = stroke(palette.warning, scale.px(2.0));
            area.draw(&Rectangle::new(corners, edge))?;
        } else {
            let fill = palette.series[0].mix(0.45).filled();
            area.draw(&Rectangle::new(corners, fill))?;
            let edge = stroke(palette.series[0], scale.px(1.0));
            area.draw(&Rectangle::new(corners, edge))?;
        }
    }
    // Names stand beside their lines, each in a line of its own and on the side where no longer line
    // passes: the line at the end with the answer is the longest.
    let answer_last = marks.first().is_some_and(|answer| {
        let others = marks.iter().filter(|mark| mark.at > answer.at).count();
        answer.kind == MarkKind::Answer && 2 * others < marks.len()
    });
    sort(&mut marks, |a, b| {
        if answer_last {
            a.at > b.at
        } else {
            a.at < b.at
        }
    });
    for (turn, mark) in marks.iter().enumerate() {
        let x = across(mark.at);
        let y = scale.px((1.0 + turn as f64) * LINE_PX + 2.0);
        let (colour, dash) = match mark.kind {
            MarkKind::Answer => (palette.warning, None),
            MarkKind::Given => (palette.ink, Some(LIMIT_DASH_PX)),
            MarkKind::Middle => (palette.ink, Some((3.0, 3.0))),
        };
        let style = stroke(colour, scale.px(2.0));
        let (dash, gap) = dash.map_or((height, 1), |(dash, gap)| {
            (scale.px(dash).max(1), scale.px(gap).max(1))
        });
        let mut from = y;
        while from < bottom {
            let to = (from + dash).min(bottom);
            area.draw(&PathElement::new([(x, from), (x, to)], style))?;
            from = to + gap;
        }
        let (wide, _) = area.estimate_text_size(mark.name, &text)?;
        let fits_right = x + scale.px(5.0) + wide as i32 <= width - scale.px(2.0);
        let fits_left = x - scale.px(5.0) - wide as i32 >= scale.px(2.0);
        let to_left = if answer_last { fits_left } else { !fits_right };
        let (at, side) = if to_left {
            (x - scale.px(5.0), HPos::Right)
        } else {
            (x + scale.px(5.0), HPos::Left)
        };
        let style = text.pos(Pos::new(side, VPos::Top));
        area.draw(&Text::new(mark.name, (at, y), style))?;
    }
    let at_left = text.pos(Pos::new(HPos::Left, VPos::Top));
    let name = texts(shown.voice).spread_count;
    area.draw(&Text::new(name, (scale.px(4.0), scale.px(2.0)), at_left))?;
    let at_right = text.pos(Pos::new(HPos::Right, VPos::Top));
    let foot = (right, bottom + scale.px(AXIS_NAME_PX));
    area.draw(&Text::new(shown.axis(), foot, at_right))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::scene::theme::Theme;
    use crate::say::format::Lang;
    use footroom_core::assess::assess;
    use footroom_core::case::Tolerances;
    use footroom_core::demo::demo;
    use footroom_core::solve::Options;
    use plotters::backend::SVGBackend;
    use plotters::drawing::IntoDrawingArea;

    const VOICE: Voice = Voice {
        lang: Lang::En,
        units: Units::Metric,
    };

    fn answer(case: &Case) -> Assessment {
        assess(case, Options::default()).expect("a case without faults")
    }

    fn drawn(case: &Case, seed: u32, count: u32) -> Vec<f64> {
        numbers(
            &Draws::new(case, seed).expect("a case without faults"),
            0,
            count,
        )
    }

    fn svg(shown: &Histogram, size: (u32, u32)) -> String {
        let mut svg = String::new();
        {
            let area = SVGBackend::with_string(&mut svg, size).into_drawing_area();
            let palette = Palette::of(&Theme::default(), |_| None);
            draw(&area, shown, &palette, Scale(1.0)).expect("drawn");
            area.present().expect("drawn");
        }
        svg
    }

    #[test]
    fn a_seed_is_a_whole_number_of_six_figures() {
        for (text, seed) in [("0", 0), (" 12 ", 12), ("000007", 7), ("999999", SEED_MAX)] {
            assert_eq!(seed_of(text), Some(seed), "{text}");
        }
        for none in [
            "", " ", "1000000", "-1", "1.5", "+3", "1e3", "seven", "\u{661}",
        ] {
            assert_eq!(seed_of(none), None, "{none}");
        }
        assert_eq!(seed_of(&SEED.to_string()), Some(SEED));
    }

    /// As they come from a worker and without those that are not there yet.
    #[test]
    fn draws_go_through_a_worker_and_come_back() {
        let case = demo();
        let draws = Draws::new(&case, 4).expect("a case without faults");
        let mut through = numbers(&draws, 0, 6);
        assert_eq!(through.len(), 6 * NUMBERS);
        assert_eq!(falls(&through), draws.falls(0..6));
        through.extend([f64::NAN; 2 * NUMBERS]);
        through.extend([0.1, 9.0e3, 2.0]);
        let back = falls(&through);
        assert_eq!(back.len(), 7);
        assert_eq!(back[6].unknown, Some(Unknown::EACH[1]));
        assert_eq!(numbers(&draws, DRAWS - 2, 20).len(), 2 * NUMBERS);
        assert!(numbers(&draws, DRAWS, 20).is_empty());
        assert!(numbers(&draws, u32::MAX, u32::MAX).is_empty());
    }

    #[test]
    fn answer_and_draws_stand_beside_each_other_in_every_voice() {
        let case = demo();
        let answer = answer(&case);
        let through = drawn(&case, SEED, 40);
        for voice in Voice::ALL {
            let view = spread(voice, &case, &answer, SEED, &through).expect("no faults");
            let t = texts(voice);
            let given = stop::footroom(voice, answer.footroom.value);
            assert!(view.sentences[0].contains(&given), "{view:?}");
            let tension = format::force(voice.units, answer.tension_max.value);
            assert!(view.sentences[1].contains(&tension), "{view:?}");
            assert_eq!(view.table.rows[0], [t.spread_answer, &given, &tension]);
            let worst = view.table.rows.iter().find(|r| r[0] == t.spread_worst);
            let least = falls(&through)
                .iter()
                .map(|f| f.footroom_m)
                .fold(9.0, f64::min);
            assert_eq!(worst.expect("a row")[1], stop::footroom(voice, least));
            let rows = &view.inputs.rows;
            assert_eq!(rows.len(), 2 * case.workers.len() + 4);
            for table in [&view.table, &view.inputs] {
                assert!(table.rows.iter().all(|row| row.len() == table.head.len()));
            }
            let share = |row: &Vec<String>| -> f64 {
                row[3].trim_end_matches('%').parse().expect("a share")
            };
            assert!(rows.windows(2).all(|r| share(&r[0]) >= share(&r[1])));
            assert!((rows.iter().map(share).sum::<f64>() - 100.0).abs() < 6.0);
            assert!(view.sentences.last().expect("one").contains(&rows[0][0]));
        }
    }

    /// The distance between two numbers is that of the numbers that are shown.
    #[test]
    fn distances_are_those_of_what_is_shown() {
        let case = demo();
        let answer = answer(&case);
        let telling = Telling {
            voice: VOICE,
            case: &case,
            answer: &answer,
            told: Draws::new(&case, 1).expect("no faults").told(&[]),
            beyond: beyond(&case, &answer, &[]),
        };
        let shown = telling.steps(answer.footroom.value);
        for (more, word) in [
            (7, "0.07 m above the answer"),
            (-3, "0.03 m below the answer"),
        ] {
            let m = (shown + more) as f64 / 100.0 + 0.001;
            let said = telling.beside(m);
            assert!(said.ends_with(word), "{said}");
        }
    }

    #[test]
    fn what_has_no_tolerance_and_what_has_no_result_is_said() {
        let mut case = demo();
        case.tolerances = Tolerances {
            mass_ratio: 0.0,
            absorber_force_ratio: 0.0,
            pretension_ratio: 0.0,
            axial_stiffness_ratio: 0.0,
            end_stiffness_ratio: 0.0,
            inline_force_ratio: 0.0,
        };
        let found = answer(&case);
        let through = drawn(&case, 1, 4);
        for voice in Voice::ALL {
            let view = spread(voice, &case, &found, 1, &through).expect("no faults");
            assert_eq!(view.sentences[0], texts(voice).spread_nothing);
            assert!(view.inputs.rows.is_empty());
            assert!(
                !svg(
                    &Histogram::of(voice, &case, &found, Shows::Footroom, &through),
                    (360, 240)
                )
                .contains("NaN")
            );
        }
        // Every draw breaks the line.
        let mut weak = demo();
        weak.line.rope.breaking_force_n = Some(9.0e3);
        let found = answer(&weak);
        let through = drawn(&weak, 1, 4);
        for voice in Voice::ALL {
            let view = spread(voice, &weak, &found, 1, &through).expect("no faults");
            assert_eq!(view.sentences, [texts(voice).spread_no_draw]);
            let told = &view.table.rows;
            assert!(
                told.iter().all(|row| row[1] == DASH && row[2] == DASH),
                "{told:?}"
            );
            let shown = Histogram::of(voice, &weak, &found, Shows::Tension, &through);
            assert_eq!(shown.words(), "");
        }
        let mut faulty = demo();
        faulty.line.pretension_n = f64::NAN;
        assert_eq!(spread(VOICE, &faulty, &found, 1, &through), None);
    }

    #[test]
    fn each_draw_is_in_one_bar_and_none_is_on_both_sides_of_the_answer() {
        let case = demo();
        let answer = answer(&case);
        let mut through = drawn(&case, 2, 60);
        // Some beyond the answer, and one at it.
        for (place, by) in [(0, 0.03), (1, 0.0), (2, 0.001)] {
            through[place * NUMBERS] = answer.footroom.value - by;
            through[place * NUMBERS + 1] = answer.tension_max.value * (1.0 + by);
        }
        for shows in [Shows::Footroom, Shows::Tension] {
            for voice in Voice::ALL {
                let shown = Histogram::of(voice, &case, &answer, shows, &through);
                let bars = shown.bars().expect("draws");
                assert_eq!(bars.counts.iter().sum::<usize>(), 60);
                let beyond = bars
                    .counts
                    .iter()
                    .zip(0..)
                    .filter(|bar| bars.worse.contains(&bar.1));
                let beyond: usize = beyond.map(|bar| bar.0).sum();
                assert_eq!(beyond, 2);
            }
        }
    }

    #[test]
    fn histograms_are_drawn_in_every_voice_and_at_any_size() {
        let case = demo();
        let answer = answer(&case);
        let through = drawn(&case, 3, 60);
        for voice in Voice::ALL {
            for shows in [Shows::Footroom, Shows::Tension] {
                let shown = Histogram::of(voice, &case, &answer, shows, &through);
                let t = texts(voice);
                let wide = svg(&shown, (640, 280));
                let axis = shown.axis();
                let names = [
                    t.spread_mark_answer,
                    t.spread_mark_given,
                    t.spread_mark_middle,
                    t.spread_count,
                    &axis,
                ];
                for name in names {
                    assert!(wide.contains(name), "{name}: {wide}");
                }
                assert!(wide.matches("<rect").count() > 20);
                for size in [(1, 1), (60, 60), (320, 240), (3000, 40)] {
                    assert!(!svg(&shown, size).contains("NaN"));
                }
                let none = Histogram::of(voice, &case, &answer, shows, &[]);
                assert_eq!(none.words(), "");
                svg(&none, (320, 240));
                assert!(
                    shown.words().starts_with(shown.title()),
                    "{}",
                    shown.words()
                );
            }
        }
        assert_eq!(Shows::from_key("footroom"), Some(Shows::Footroom));
        assert_eq!(Shows::from_key("tension"), Some(Shows::Tension));
        assert_eq!(Shows::from_key("other"), None);
    }
}
