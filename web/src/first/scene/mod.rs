//! The drop: the elevation to scale with the fall playing in it, and the stack as its dimension
//! ladder.
//!
//! [`draw`] is the whole interface. It draws one instant on any [`surface::Surface`]; it keeps
//! no state, so any instant can be drawn at any time. Numbers and words come formatted from
//! [`crate::say::format`] and [`crate::say::texts`].
//!
//! Limits: the people, the absorber packs and the set-back of the tiebacks (equal to the height
//! of the line, common practice) are drawn by our own proportions, not from the case.

pub mod canvas;
pub mod frame;
mod label;
pub mod layout;
mod line;
mod marks;
pub mod moment;
mod pattern;
mod pen;
mod people;
#[cfg(test)]
pub(crate) mod recording;
mod site;
pub mod small;
pub mod stack;
pub mod surface;
pub mod svg;
#[cfg(test)]
mod tests;
pub mod theme;
mod turn;

use footroom_core::case::Case;
use footroom_core::solve::Outcome;

use self::layout::{Layout, Surroundings, Window, depths_m, span_of};
use self::moment::{Moment, Phase, WorkerMoment, held};
use self::pattern::Pattern;
use self::pen::Pen;
use self::people::Look;
use self::stack::{Ladder, PARTS};
use self::surface::{Align, Face, Rect, Surface, at};
use self::svg::{Measure, SvgSurface};
use self::theme::Theme;
use crate::first::governing::GoverningStack;
use crate::say::faults::Voice;
use crate::say::format::{Lang, Units};
use crate::say::texts::Texts;

/// What the tolerances add to the stack of the focus worker.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Added {
    /// How much, m.
    pub length_m: f64,
    /// Its name in the ladder.
    pub name: &'static str,
}

/// What to draw.
#[derive(Clone, Copy)]
pub struct SceneView<'a> {
    /// The case.
    pub case: &'a Case,
    /// Its outcome; without one the crew stands on the beam.
    pub outcome: Option<&'a Outcome>,
    /// Instant to show, s. After the end of the traces: everybody who fell hangs at rest.
    pub time_s: f64,
    /// Width of the sheet, CSS px.
    pub width_px: f64,
    /// Height of the sheet, CSS px.
    pub height_px: f64,
    /// Device pixels per CSS px.
    pub dpr: f64,
    /// Colours and type face.
    pub theme: &'a Theme,
    /// Words.
    pub texts: &'static Texts,
    /// Display units.
    pub units: Units,
    /// Language of numbers.
    pub lang: Lang,
    /// Worker whose stack is drawn, counted from 0; `None`: the governing one.
    pub focus: Option<usize>,
    /// What the tolerances add to his stack; `None`: nothing.
    pub tolerance: Option<Added>,
    /// Show the governing span large instead of the whole beam. The drawing also decides so by
    /// itself when the whole beam would be too small to read.
    pub cropped: bool,
    /// Height of the type, CSS px; `None`: by the size of the sheet.
    pub type_px: Option<f64>,
    /// Short names of the lengths, where large type has no room for the others. The levels of the
    /// ladder then stand without theirs.
    pub names: Option<[&'static str; PARTS]>,
    /// The window that it shares with others; `None`: one of its own.
    pub window: Option<Window>,
}

impl Added {
    /// What an answer adds; `None`: nothing.
    pub fn of(governing: &GoverningStack, texts: &Texts) -> Option<Self> {
        (governing.tolerance_m > 0.0).then(|| Self {
            length_m: governing.tolerance_m,
            name: governing.row(texts),
        })
    }
}

impl<'a> SceneView<'a> {
    /// The whole drawing of a case at an instant, s, on a sheet of width and height, CSS px, at so
    /// many device pixels each; with the stack of the worker that the answer names.
    pub fn new(
        case: &'a Case,
        (outcome, governing): (Option<&'a Outcome>, Option<&GoverningStack>),
        voice: Voice,
        theme: &'a Theme,
        [width_px, height_px, dpr]: [f64; 3],
        time_s: f64,
    ) -> Self {
        let texts = voice.texts();
        Self {
            case,
            outcome,
            time_s,
            width_px,
            height_px,
            dpr,
            theme,
            texts,
            units: voice.units,
            lang: voice.lang,
            focus: governing.map(|governing| governing.worker),
            tolerance: governing.and_then(|governing| Added::of(governing, texts)),
            cropped: false,
            type_px: None,
            names: None,
            window: None,
        }
    }
}

/// The window in which views of one sheet stand at one scale, around the span and the crew of the first.
/// `None`: there is none, or the sheet is too small to draw on.
pub fn window_of(measure: Measure<'_>, views: &[SceneView<'_>]) -> Option<Window> {
    // Nothing is drawn on it.
    let surface = &mut SvgSurface::new(measure, "", 1.0, 1.0, "");
    let windows = views.iter().filter_map(|view| {
        let view = &held_view(view);
        let case = &tamed(view.case);
        let view = &SceneView { case, ..*view };
        if !fits(view) {
            return None;
        }
        let pen = pen_of(surface, view);
        let focus = focus_of(view);
        let moment = Moment::at(case, view.outcome, view.time_s);
        let tolerance_m = tolerance_m(view);
        let ladder = Ladder::at(case, view.outcome, &moment, focus, view.time_s, tolerance_m);
        let (ladder_px, named) = ladder
            .as_ref()
            .map_or((0.0, true), |ladder| stack::width_px(&pen, view, ladder));
        let (required_m, available_m) = depths_m(case, view.outcome, focus, tolerance_m);
        let (span_m, group_m) = span_of(case, focus);
        Some(Window {
            required_m,
            available_m,
            ladder_px,
            named,
            span_m,
            group_m,
        })
    });
    windows.reduce(Window::joined)
}

/// Whether a sheet is large enough to draw on.
fn fits(view: &SceneView<'_>) -> bool {
    view.width_px >= 60.0 && view.height_px >= 60.0
}

/// The view with every number of its own in a range that can be drawn.
fn held_view<'a>(view: &SceneView<'a>) -> SceneView<'a> {
    SceneView {
        width_px: held(view.width_px, 1.0, 2.0e4),
        height_px: held(view.height_px, 1.0, 2.0e4),
        dpr: held(view.dpr, 0.25, 16.0),
        time_s: held(view.time_s, 0.0, 1.0e6),
        ..*view
    }
}

/// The worker whose stack is drawn.
fn focus_of(view: &SceneView<'_>) -> usize {
    view.focus
        .or(view.outcome.map(|o| o.governing_worker))
        .unwrap_or(0)
        .min(view.case.workers.len().saturating_sub(1))
}

/// What the tolerances add to his stack, m.
fn tolerance_m(view: &SceneView<'_>) -> f64 {
    held(view.tolerance.map_or(0.0, |t| t.length_m), 0.0, 100.0)
}

/// What draws a view.
fn pen_of<'a>(surface: &'a mut dyn Surface, view: &SceneView<'a>) -> Pen<'a> {
    let size_px = (0.0125 * view.width_px + 0.0065 * view.height_px).clamp(11.5, 26.0);
    Pen {
        surface,
        theme: view.theme,
        labels: label::Labels::default(),
        sheet: Rect {
            x: 0.0,
            y: 0.0,
            w: view.width_px,
            h: view.height_px,
        },
        face: Face {
            size_px: view
                .type_px
                .unwrap_or(size_px.min(if view.width_px < 1300.0 { 14.0 } else { 26.0 })),
            bold: false,
        },
    }
}

/// Draws the scene. Gives what stands where; `None`: the sheet is too small to draw on.
pub fn draw(surface: &mut dyn Surface, view: &SceneView<'_>) -> Option<Layout> {
    let view = &held_view(view);
    let case = &tamed(view.case);
    let view = &SceneView { case, ..*view };
    surface.begin(view.width_px, view.height_px, view.dpr, &view.theme.paper);
    if !fits(view) {
        return None;
    }
    let mut pen = pen_of(surface, view);
    Some(compose(&mut pen, view))
}

/// The case with every number that the drawing reads finite and of a size that can be drawn. A
/// case that can be solved comes out as it went in.
fn tamed(case: &Case) -> Case {
    let mut case = case.clone();
    let line = &mut case.line;
    for span in &mut line.spans_m {
        *span = held(*span, 0.1, 1.0e4);
    }
    line.height_above_beam_m = held(line.height_above_beam_m, 0.0, 20.0);
    line.pretension_n = held(line.pretension_n, 1.0, 1.0e9);
    line.rope.mass_per_length_kg_per_m = held(line.rope.mass_per_length_kg_per_m, 0.0, 1.0e3);
    let length_m = line.length_m();
    for worker in &mut case.workers {
        worker.position_m = held(worker.position_m, 0.0, length_m);
        worker.dring_height_m = held(worker.dring_height_m, 0.3, 3.0);
        worker.harness_stretch_m = held(worker.harness_stretch_m, 0.0, 3.0);
        worker.gear.length_m = held(worker.gear.length_m, 0.0, 100.0);
    }
    let site = &mut case.site;
    site.beam_top_m = held(site.beam_top_m, 0.05, 1.0e4);
    site.beam_depth_m = held(site.beam_depth_m, 0.05, 6.0);
    site.margin_m = held(site.margin_m, 0.0, 50.0);
    site.reach_m = held(site.reach_m, 0.0, 100.0);
    for thing in &mut site.below {
        thing.from_m = held(thing.from_m, -1.0e5, 1.0e5);
        thing.to_m = held(thing.to_m, -1.0e5, 1.0e5);
        thing.height_m = held(thing.height_m, 0.0, 1.0e4);
    }
    case
}

fn compose(pen: &mut Pen<'_>, view: &SceneView<'_>) -> Layout {
    let case = view.case;
    let focus = focus_of(view);
    let moment = Moment::at(case, view.outcome, view.time_s);
    let tolerance_m = tolerance_m(view);
    let ladder = Ladder::at(case, view.outcome, &moment, focus, view.time_s, tolerance_m);
    let (ladder_px, named) = match (view.window, &ladder) {
        (Some(window), _) => (window.ladder_px, window.named),
        (None, Some(ladder)) => stack::width_px(pen, view, ladder),
        (None, None) => (0.0, false),
    };
    let row = pen.line_height();
    // A low sheet has no room for lengths and levels: things stand there, and the footroom.
    let bare = view.type_px.is_none() && pen.sheet.h < BARE_ROWS * row;
    // Large type leaves no room for what a crowd does not need.
    let plain = bare || view.type_px.is_some();
    let chain_px = if bare {
        0.5 * pen.face.size_px
    } else {
        marks::CHAIN_PX * pen.face.size_px + 10.0
    };
    let ladder_px = if bare { stack::bare_px(pen) } else { ladder_px };
    let room = |plan: f64| Surroundings {
        sheet: pen.sheet,
        top_px: chain_px + row + plan,
        bottom_px: site::GROUND_PX + if plain { 6.0 } else { 1.2 * row + 14.0 },
        ladder_px,
        edge_px: 10.0,
        tolerance_m,
        window: view.window,
    };
    let mut layout = Layout::new(case, view.outcome, focus, view.cropped, &room(0.0));
    if layout.cropped && !plain {
        // The key plan takes a strip of its own, so the whole is laid out again.
        layout = Layout::new(case, view.outcome, focus, true, &room(24.0));
    }

    let ground_right = layout.drop.right() + 4.0;
    let known = ladder.as_ref().filter(|l| l.known);
    let ghost = known
        .zip(moment.workers.get(focus))
        .and_then(|(ladder, worker)| ghost_of(view, worker, focus, ladder))
        .filter(|ghost| layout.shows(ghost.position_m));
    pen.surface.begin_back(ghost.is_some());
    site::ground(pen, &layout, ground_right);
    let mut things = Vec::new();
    for (i, thing) in case.site.below.iter().enumerate() {
        if let Some(body) = site::below(pen, &layout, thing) {
            things.push((i, body));
        }
    }
    if let Some(ladder) = known {
        margin_band(pen, &layout, view, &moment, focus, ladder);
    }
    site::beam(pen, &layout, case);
    line::posts(pen, &layout, &case.line.spans_m);
    if !bare {
        marks::spans(pen, &layout, view);
    }
    if let Some(ghost) = ghost {
        let area = people::draw(pen, &layout, &ghost, focus, Look::Ghost);
        pen.labels.block(area);
    }
    if ladder.is_some() && !bare {
        heading(pen, &layout, view, focus, named);
    }
    if layout.cropped && !plain {
        marks::key_plan(pen, &layout, case);
    }
    if !plain {
        marks::scale_bar(pen, &layout, view);
    }
    pen.surface.end_back();
    if let Some(ladder) = &ladder {
        stack::extension_lines(pen, &layout, &moment, focus, ladder, named);
    }
    line::rope(pen, &layout, &moment, &case.line.spans_m);
    line::inline_absorbers(pen, &layout, &moment, &case.line);
    let figures = crew(pen, &layout, &moment, focus);

    if let Some(ladder) = &ladder {
        stack::draw(pen, &layout, ladder, named);
        if bare {
            stack::footroom_beside(pen, &layout, view, ladder, named);
        } else {
            stack::texts(pen, &layout, view, ladder, named);
        }
    }
    marks::numbers(pen, &layout, &figures, focus);
    if !bare {
        marks::forces(pen, &layout, view, &moment, focus);
        marks::levels(pen, &layout, view, &things);
    }
    layout
}

/// Rows of type below which a sheet is low: the ladder alone has ten.
const BARE_ROWS: f64 = 14.0;

/// The order in which a crew is drawn: the focus comes last, over the others.
fn crew_order(workers: usize, focus: usize) -> impl Iterator<Item = usize> {
    (0..workers).filter(move |&i| i != focus).chain([focus])
}

/// Draws everybody; the focus comes last. Gives the boxes of the figures.
fn crew(
    pen: &mut Pen<'_>,
    layout: &Layout,
    moment: &Moment,
    focus: usize,
) -> Vec<(WorkerMoment, Rect, usize)> {
    let mut figures = Vec::new();
    for index in crew_order(moment.workers.len(), focus) {
        let Some(worker) = moment.workers.get(index) else {
            continue;
        };
        if !layout.shows(worker.position_m) {
            continue;
        }
        let look = match (worker.struck, index == focus) {
            (true, _) => Look::Struck,
            (_, true) => Look::Focus,
            _ => Look::Other,
        };
        let area = people::draw(pen, layout, worker, index, look);
        pen.labels.block(area);
        figures.push((*worker, area, index));
    }
    figures
}

/// The focus worker at his lowest, when that is another place than the present one.
fn ghost_of(
    view: &SceneView<'_>,
    worker: &WorkerMoment,
    focus: usize,
    ladder: &Ladder,
) -> Option<WorkerMoment> {
    let result = view.outcome?.workers.get(focus).filter(|r| r.fell)?;
    let soles_m = ladder.required_m - result.stack.margin_m;
    if (soles_m - worker.soles_m).abs() * 1.0e2 < 4.0 {
        return None;
    }
    let harness_m = result.stack.harness_stretch_m;
    Some(WorkerMoment {
        soles_m,
        dring_m: soles_m - worker.dring_height_m - harness_m,
        harness_m,
        speed_m_per_s: 0.0,
        phase: Phase {
            falling: 1.0,
            caught: 1.0,
            hanging: 0.25,
        },
        ..*worker
    })
}

/// Draws, under the lowest soles, the margin over the reach of the worker; what of it lies in
/// something is crossed out.
fn margin_band(
    pen: &mut Pen<'_>,
    layout: &Layout,
    view: &SceneView<'_>,
    moment: &Moment,
    focus: usize,
    ladder: &Ladder,
) {
    let theme = pen.theme;
    let Some(result) = view.outcome.and_then(|o| o.workers.get(focus)) else {
        return;
    };
    let Some(worker) = moment.workers.get(focus).filter(|_| result.fell) else {
        return;
    };
    let reach_m = held(view.case.site.reach_m, 0.15, 20.0);
    let left = layout.x((worker.position_m - reach_m).max(layout.left_m));
    let right = layout.x((worker.position_m + reach_m).min(layout.right_m()));
    let soles = layout.depth_y(ladder.required_m - result.stack.margin_m);
    let end = layout.depth_y(ladder.required_m);
    let floor = layout.depth_y(ladder.available_m);
    let band = |from: f64, to: f64| Rect {
        x: left,
        y: from,
        w: right - left,
        h: to - from,
    };
    let clear = end.min(floor);
    if clear > soles {
        pen.block(
            band(soles, clear),
            &theme.paper,
            Pattern::Dots,
            (&theme.muted, 0.0),
        );
    }
    if end > floor {
        pen.block(
            band(floor.max(soles), end),
            &theme.paper,
            Pattern::Crossed,
            (&theme.warning, 1.6),
        );
    }
    pen.labels.block(band(soles, end));
    pen.line(
        at(left, soles),
        at(right, soles),
        &theme.ink,
        1.2,
        &[6.0, 3.0],
    );
}

/// Says above the ladder whose stack it is.
fn heading(pen: &mut Pen<'_>, layout: &Layout, view: &SceneView<'_>, focus: usize, named: bool) {
    let theme = pen.theme;
    let text = (view.texts.say.worker_label)(focus + 1);
    let face = pen.bold();
    let (left, _) = stack::bar(pen, layout, named);
    let w = pen.surface.text_width(&text, face);
    let x = left.min(pen.sheet.right() - 4.0 - w);
    let y = layout.depth_y(0.0) - 1.5 * pen.line_height();
    pen.write(&text, at(x, y), Align::Left, face, &theme.ink);
    pen.labels.block(Rect {
        x,
        y: y - 0.5 * face.size_px,
        w,
        h: face.size_px,
    });
}
