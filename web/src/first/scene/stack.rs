//! The stack as the dimension ladder of the drawing: the lengths from line level down to the
//! margin, at the scale of the elevation, growing as the fall goes on.

use footroom_core::case::Case;
use footroom_core::solve::{Outcome, Stack};

use super::SceneView;
use super::label::spread;
use super::layout::Layout;
use super::moment::{Moment, held};
use super::pattern::Pattern;
use super::pen::Pen;
use super::surface::{Align, Face, Rect, at};
use super::theme::Theme;
use crate::first::answer::DASH;
use crate::first::whole_steps::{self, ShownStack};
use crate::order::sort;
use crate::say::format::{self, Units};

pub use crate::first::whole_steps::PARTS;

/// Which of the lengths are given, not computed: these are shown in any case.
const GIVEN: [bool; PARTS] = [false, true, false, false, true, true, false, true];

/// Least length that gets a text, m.
const NAMED_M: f64 = 0.004;

/// The ladder at one instant; all depths below line level, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ladder {
    /// Depths of the edges between the lengths, from line level down.
    pub edges_m: [f64; PARTS + 1],
    /// Whether this is the lowest instant, where the edges are those of the outcome's stack.
    pub lowest: bool,
    /// Required depth at the lowest instant.
    pub required_m: f64,
    /// Depth down to the highest thing within reach.
    pub available_m: f64,
    /// Available less required.
    pub footroom_m: f64,
    /// The stack at the lowest instant.
    pub stack: Stack,
    /// What the tolerances add to it.
    pub tolerance_m: f64,
    /// Whether the outcome may be read off; otherwise the drawing says no depth and no footroom.
    pub known: bool,
}

impl Ladder {
    /// The ladder of worker `focus` at `time_s`; `None` when there is no outcome for him.
    /// `tolerance_m`: what the tolerances add to his required depth.
    pub fn at(
        case: &Case,
        outcome: Option<&Outcome>,
        moment: &Moment,
        focus: usize,
        time_s: f64,
        tolerance_m: f64,
    ) -> Option<Self> {
        let outcome = outcome?;
        let result = outcome.workers.get(focus)?;
        let worker = moment.workers.get(focus)?;
        let stack = result.stack;
        let half_frame = outcome.traces.as_ref().map_or(0.0, |t| 0.5 * t.interval_s) + 1.0e-9;
        let lowest = result.fell && (time_s - result.time_lowest_s).abs() <= half_frame;
        let edges_m = if lowest {
            let mut edges = [0.0; PARTS + 1];
            for (i, length) in whole_steps::lengths_m(&stack, tolerance_m)
                .into_iter()
                .enumerate()
            {
                edges[i + 1] = edges[i] + length;
            }
            edges
        } else {
            // Slack gear has no length of its own in the ladder: what counts is where the ring is.
            let soles = held(worker.soles_m, 0.0, 1.0e4);
            let connector = held(worker.connector_m, 0.0, soles);
            let ring = held(worker.dring_m, connector, soles);
            let taut = held(connector + worker.lanyard_m, connector, ring);
            let back = held(ring + worker.harness_m, ring, soles);
            let margin = held(case.site.margin_m, 0.0, 50.0);
            // What stands for the model and the tolerances comes with the finished stack.
            let end = soles + margin;
            [0.0, connector, taut, ring, ring, back, soles, soles, end]
        };
        Some(Self {
            edges_m,
            lowest,
            required_m: held(stack.required_m + tolerance_m, 0.0, 1.0e4),
            available_m: held(stack.available_m, 0.0, 1.0e4),
            footroom_m: held(stack.footroom_m - tolerance_m, -1.0e4, 1.0e4),
            stack,
            tolerance_m,
            known: outcome.unknown().is_none(),
        })
    }

    /// The lengths at this instant as a stack of their own, so that they are shown by the rules
    /// of the finished one.
    fn live(&self, units: Units) -> ShownStack {
        if self.lowest {
            return self.whole(units);
        }
        let length = |part| held(self.length_m(part), 0.0, 1.0e4);
        let stack = Stack {
            line_deflection_m: length(0),
            lanyard_m: length(1),
            absorber_extension_m: length(2),
            allowance_m: length(3),
            harness_stretch_m: length(4),
            dring_to_sole_m: length(5),
            margin_m: length(7),
            required_m: (0..PARTS).map(length).sum(),
            ..self.stack
        };
        ShownStack::of(units, &stack)
    }

    /// The finished stack as it is shown.
    fn whole(&self, units: Units) -> ShownStack {
        ShownStack::with(units, &self.stack, self.tolerance_m)
    }

    /// The length of one part, m.
    pub fn length_m(&self, part: usize) -> f64 {
        self.edges_m[part + 1] - self.edges_m[part]
    }
}

/// Fill and pattern of each length, in the order of the stack.
fn styles<'a>(pen: &Pen<'a>) -> [(&'a str, Pattern); PARTS] {
    let theme = pen.theme;
    let paper = theme.paper.as_str();
    [
        (paper, Pattern::Level),
        (paper, Pattern::Plain),
        (paper, Pattern::Rising),
        (theme.margin.as_str(), Pattern::Plain),
        (paper, Pattern::Falling),
        (paper, Pattern::Upright),
        (theme.margin.as_str(), Pattern::Grid),
        (theme.margin.as_str(), Pattern::Dots),
    ]
}

/// Names of the lengths, in the order of the stack.
fn names(view: &SceneView<'_>) -> [&'static str; PARTS] {
    let t = view.texts;
    if let Some(names) = view.names {
        return names;
    }
    [
        t.line_deflection,
        t.lanyard,
        t.absorber_extension,
        t.allowance,
        t.harness_stretch,
        t.dring_to_sole,
        view.tolerance.map_or("", |added| added.name),
        t.margin,
    ]
}

/// Width that the ladder needs with its texts, px, and whether it has room for the names.
pub fn width_px(pen: &Pen<'_>, view: &SceneView<'_>, ladder: &Ladder) -> (f64, bool) {
    let t = view.texts;
    // A name that never appears needs no room.
    let lengths = whole_steps::lengths_m(&ladder.stack, ladder.tolerance_m);
    // The widest lengths that the rows will show in either system. Where the levels stand without
    // theirs, those of the parts alone: under 3 m none is wider than 5 ft 10 1/2 in.
    let widest_m = match view.names {
        Some(_) if lengths.iter().all(|&m| m < 3.0) => [1.7907; 4],
        _ => [3.315, 11.99, ladder.required_m, ladder.available_m],
    };
    let value = widest_m
        .map(|m| pen.width(&format::length(view.units, m)))
        .into_iter()
        .fold(0.0, f64::max);
    let named = names(view).into_iter().zip(lengths);
    let name = named
        .filter(|(_, length)| *length > NAMED_M)
        .map(|(name, _)| name)
        .chain(
            [t.scene_required, t.scene_available]
                .into_iter()
                .filter(|_| view.names.is_none()),
        )
        .fold(0.0, |w: f64, n| w.max(pen.width(n)));
    let bar = bar_px(pen, true) + 8.0 + LEADER_PX;
    let wide = bar + value + name_gap_px(pen) + name;
    let part = if view.names.is_some() { 1.9 } else { 3.1 };
    if view.width_px >= part * wide {
        (wide, true)
    } else {
        (bar_px(pen, false) + 8.0 + LEADER_SHORT_PX + value, false)
    }
}

/// Width that the ladder needs without texts, px.
pub fn bare_px(pen: &Pen<'_>) -> f64 {
    8.0 + bar_px(pen, true) + 9.0
}

/// Room for the leaders between bar and texts, px: with names, and without.
const LEADER_PX: f64 = 26.0;
const LEADER_SHORT_PX: f64 = 14.0;

/// Room between a length and its name, px.
fn name_gap_px(pen: &Pen<'_>) -> f64 {
    (0.3 * pen.face.size_px).max(8.0)
}

fn bar_px(pen: &Pen<'_>, named: bool) -> f64 {
    pen.face.size_px * if named { 2.1 } else { 1.6 }
}

/// The bar's left and right edge, px.
pub fn bar(pen: &Pen<'_>, layout: &Layout, named: bool) -> (f64, f64) {
    let left = layout.ladder.x + 8.0;
    (left, left + bar_px(pen, named))
}

/// One text beside the bar.
struct Row {
    y: f64,
    value: String,
    name: String,
    face: Face,
    colour: String,
    /// Whether it belongs to a level, not to a length.
    level: bool,
}

/// Draws the ladder without its texts. The sides where extension lines end are drawn by
/// [`extension_lines`].
pub fn draw(pen: &mut Pen<'_>, layout: &Layout, ladder: &Ladder, named: bool) {
    let theme = pen.theme;
    let (left, right) = bar(pen, layout, named);
    let y = |depth_m: f64| layout.depth_y(depth_m);
    let between = |from: f64, to: f64| Rect {
        x: left,
        y: y(from),
        w: right - left,
        h: (y(to) - y(from)).max(0.0),
    };

    // What is still to come, and the room under it.
    let end_m = ladder.edges_m[PARTS];
    if ladder.known && ladder.required_m > end_m + NAMED_M {
        let rest = between(end_m, ladder.required_m);
        pen.surface.path();
        pen.surface.rect(rest);
        pen.surface.stroke(&theme.muted, 1.0, &[4.0, 4.0]);
    }
    for (part, (fill, pattern)) in styles(pen).into_iter().enumerate() {
        if ladder.length_m(part) > 1.0e-6 {
            let r = between(ladder.edges_m[part], ladder.edges_m[part + 1]);
            pen.block(r, fill, pattern, (&theme.ink, 1.1));
        }
    }
    if !ladder.known {
        // Neither room nor lack of it.
    } else if ladder.footroom_m < 0.0 {
        let r = between(ladder.available_m, ladder.required_m);
        let wide = Rect {
            x: r.x - 5.0,
            w: r.w + 10.0,
            ..r
        };
        pen.block(wide, &theme.paper, Pattern::Crossed, (&theme.warning, 2.0));
    } else {
        spare(pen, between(ladder.required_m, ladder.available_m));
    }
    let floor = y(ladder.available_m);
    pen.line(
        at(left - 9.0, floor),
        at(right + 9.0, floor),
        &theme.ink,
        3.0,
        &[],
    );
    let top = y(0.0);
    pen.line(
        at(left - 9.0, top),
        at(right + 9.0, top),
        &theme.ink,
        1.2,
        &[],
    );
    pen.labels.block(Rect {
        x: left - 9.0,
        y: top,
        w: right - left + 18.0,
        h: y(ladder.required_m.max(ladder.available_m).max(end_m)) - top,
    });
}

/// Free height between the margin and what is below: an arrow from end to end.
fn spare(pen: &mut Pen<'_>, gap: Rect) {
    let theme = pen.theme;
    let accent = (theme.accent.as_str(), 1.4);
    if gap.h < 14.0 {
        pen.block(gap, &theme.accent, Pattern::Plain, accent);
        return;
    }
    let x = gap.x + 0.5 * gap.w;
    pen.line(
        at(x, gap.y + 2.0),
        at(x, gap.bottom() - 3.0),
        accent.0,
        1.8,
        &[],
    );
    let head = 5.0_f64.min(0.3 * gap.h);
    for (tip, way) in [(gap.y + 2.0, 1.0), (gap.bottom() - 3.0, -1.0)] {
        pen.trace(&[
            at(x - 0.8 * head, tip + way * head * 1.4),
            at(x, tip),
            at(x + 0.8 * head, tip + way * head * 1.4),
        ]);
        pen.surface.stroke(accent.0, 1.8, &[]);
    }
}

/// Middle of the footroom, px; a break in between is no matter.
fn footroom_y(layout: &Layout, ladder: &Ladder) -> f64 {
    if !ladder.known {
        return layout.depth_y(ladder.available_m) - 1.0;
    }
    0.5 * (layout.depth_y(ladder.required_m) + layout.depth_y(ladder.available_m))
}

/// Room is no colour of its own here: whether all else holds is told by the lines of the answer.
fn footroom_colour<'t>(theme: &'t Theme, ladder: &Ladder) -> &'t str {
    if ladder.known && ladder.footroom_m < 0.0 {
        &theme.warning
    } else {
        &theme.ink
    }
}

/// Footroom in words: how much is to spare, or short.
fn footroom_text(view: &SceneView<'_>, ladder: &Ladder) -> String {
    if !ladder.known {
        return view.texts.word_unknown.to_owned();
    }
    let shown = ladder.whole(view.units);
    let amount = shown.footroom_text();
    let pattern = if shown.footroom < 0 {
        view.texts.scene_short
    } else {
        view.texts.scene_spare
    };
    crate::say::texts::filled(pattern, &amount)
}

fn rows(
    pen: &Pen<'_>,
    layout: &Layout,
    view: &SceneView<'_>,
    ladder: &Ladder,
    named: bool,
) -> Vec<Row> {
    let theme = pen.theme;
    let t = view.texts;
    let live = ladder.live(view.units);
    let whole = ladder.whole(view.units);
    let names = names(view);
    let mut rows: Vec<Row> = (0..PARTS)
        .filter(|&i| ladder.length_m(i) > NAMED_M)
        .map(|i| Row {
            y: layout.depth_y(0.5 * (ladder.edges_m[i] + ladder.edges_m[i + 1])),
            value: if ladder.known || GIVEN[i] {
                live.text(live.parts[i])
            } else {
                DASH.to_owned()
            },
            name: names[i].to_owned(),
            face: pen.face,
            colour: theme.ink.clone(),
            level: false,
        })
        .collect();
    if named && view.names.is_none() {
        for (depth, steps, name) in [
            (ladder.required_m, whole.required, t.scene_required),
            (ladder.available_m, whole.available, t.scene_available),
        ] {
            if !ladder.known && depth == ladder.required_m {
                continue;
            }
            rows.push(Row {
                y: layout.depth_y(depth),
                value: whole.text(steps),
                name: name.to_owned(),
                face: pen.face,
                colour: theme.muted.clone(),
                level: true,
            });
        }
        rows.push(Row {
            y: footroom_y(layout, ladder),
            value: String::new(),
            name: footroom_text(view, ladder),
            face: Face {
                size_px: 1.12 * pen.face.size_px,
                bold: true,
            },
            colour: footroom_colour(theme, ladder).to_owned(),
            level: false,
        });
    }
    sort(&mut rows, |a, b| a.y < b.y);
    rows
}

/// Writes the lengths beside the bar, each with a leader to its place.
pub fn texts(
    pen: &mut Pen<'_>,
    layout: &Layout,
    view: &SceneView<'_>,
    ladder: &Ladder,
    named: bool,
) {
    let theme = pen.theme;
    let (_, right) = bar(pen, layout, named);
    let mut rows = rows(pen, layout, view, ladder, named);
    let gap = 1.36 * pen.face.size_px;
    let high = pen.sheet.bottom() - 0.8 * gap;
    // Under the heading; beside it where that has no room for all. Large type has no room there.
    let mut low = layout.depth_y(0.0) - 0.9 * pen.face.size_px;
    if view.type_px.is_none() && gap * rows.len().saturating_sub(1) as f64 > high - low {
        low = pen.sheet.y + 0.7 * gap;
    }
    // Too little height for all: the lowest lose their texts first.
    while rows.len() > 1 && gap * (rows.len() - 1) as f64 > high - low {
        rows.pop();
    }
    let wanted: Vec<f64> = rows.iter().map(|r| r.y).collect();
    let placed = spread(&wanted, gap, low, high);
    let leader = if named { LEADER_PX } else { LEADER_SHORT_PX };
    let text_x = right + leader;
    let value_w = rows
        .iter()
        .map(|r| pen.surface.text_width(&r.value, r.face))
        .fold(0.0, f64::max);
    for (row, &y) in rows.iter().zip(&placed) {
        let from = right + if row.level { 9.0 } else { 2.0 };
        let begins = if row.value.is_empty() {
            text_x
        } else {
            text_x + value_w - pen.surface.text_width(&row.value, row.face)
        };
        let points = [
            at(from, row.y),
            at(right + 0.62 * leader, y),
            at(begins - 4.0, y),
        ];
        pen.trace(&points);
        pen.surface.stroke(&theme.muted, 0.8, &[]);
    }
    for (row, &y) in rows.iter().zip(&placed) {
        if named && row.value.is_empty() {
            pen.write(&row.name, at(text_x, y), Align::Left, row.face, &row.colour);
        } else {
            pen.write(
                &row.value,
                at(text_x + value_w, y),
                Align::Right,
                row.face,
                &row.colour,
            );
            if named {
                pen.write(
                    &row.name,
                    at(text_x + value_w + name_gap_px(pen), y),
                    Align::Left,
                    row.face,
                    &row.colour,
                );
            }
        }
    }
    if let (Some(first), Some(last)) = (placed.first(), placed.last()) {
        pen.labels.block(Rect {
            x: right,
            y: first - 0.5 * gap,
            w: pen.sheet.right() - right,
            h: last - first + gap,
        });
    }
    if !named || view.names.is_some() {
        footroom_beside(pen, layout, view, ladder, named);
    }
}

/// Without room for names, the footroom stands on the other side of the bar.
pub fn footroom_beside(
    pen: &mut Pen<'_>,
    layout: &Layout,
    view: &SceneView<'_>,
    ladder: &Ladder,
    named: bool,
) {
    let theme = pen.theme;
    let (left, right) = bar(pen, layout, named);
    let text = footroom_text(view, ladder);
    let face = pen.bold();
    let colour = footroom_colour(theme, ladder);
    let w = pen.surface.text_width(&text, face);
    let middle = footroom_y(layout, ladder);
    let h = face.size_px;
    let beside = (right + LEADER_SHORT_PX).min(pen.sheet.right() - 4.0 - w);
    let places = (0..40).flat_map(move |i| {
        let step = f64::from(i / 2) * 5.0 * if i % 2 == 0 { 1.0 } else { -1.0 };
        [left - 14.0 - w, beside, left - 40.0 - w].map(|x| at(x, middle - 0.5 * h + step))
    });
    pen.place(&text, face, colour, places);
}

/// Draws the thin lines from the worker's connector, D-ring and soles to the bar.
pub fn extension_lines(
    pen: &mut Pen<'_>,
    layout: &Layout,
    moment: &Moment,
    focus: usize,
    ladder: &Ladder,
    named: bool,
) {
    let theme = pen.theme;
    let (left, _) = bar(pen, layout, named);
    let Some(worker) = moment.workers.get(focus) else {
        return;
    };
    let from = layout.x(worker.position_m);
    let to = left - 3.0;
    pen.line(
        at(layout.x(layout.left_m.max(0.0)), layout.depth_y(0.0)),
        at(to, layout.depth_y(0.0)),
        &theme.muted,
        0.9,
        &[1.0, 4.0],
    );
    for depth in [worker.connector_m, worker.dring_m, worker.soles_m] {
        if depth > 0.02 {
            let y = layout.depth_y(depth);
            pen.line(at(from, y), at(to, y), &theme.muted, 0.9, &[1.0, 4.0]);
        }
    }
    let y = layout.depth_y(ladder.available_m);
    pen.line(
        at(from, y),
        at(to, y),
        if ladder.known && ladder.footroom_m < 0.0 {
            &theme.warning
        } else {
            &theme.ink
        },
        1.2,
        &[7.0, 4.0],
    );
}
