//! What a construction drawing carries beside the things themselves: level marks, the dimension
//! chain of the spans, the key plan, the scale bar, numbers of the workers, live forces.

use footroom_core::case::{BelowKind, Case};

use super::SceneView;
use super::label::spread;
use super::layout::Layout;
use super::line::supports_m;
use super::moment::{Moment, WorkerMoment};
use super::pattern::Pattern;
use super::pen::Pen;
use super::site::GROUND_PX;
use super::surface::{Align, Rect, at};
use crate::order::sort;
use crate::say::format::{self, Units};

/// A level mark: a triangle on the level, its text beside it.
struct Level<'a> {
    name: &'a str,
    elevation_m: f64,
    /// Where it may stand, left edges, in order of preference.
    from: Vec<f64>,
    /// Whether a short rule must be drawn under it, because nothing is drawn at the level there.
    rule: bool,
    /// Whether it may stand under its level too, when there is no room above.
    under: bool,
}

/// Draws the level marks of line, beam top, things below and datum.
pub fn levels(pen: &mut Pen<'_>, layout: &Layout, view: &SceneView<'_>, things: &[(usize, Rect)]) {
    let t = view.texts;
    let sweep = |first: f64, last: f64| -> Vec<f64> {
        let steps = ((last - first).max(0.0) / 9.0).min(200.0) as u32;
        (0..=steps).map(|i| first + 9.0 * f64::from(i)).collect()
    };
    let (left, right) = (layout.drop.x, layout.drop.right());
    let mut marks = vec![
        Level {
            name: t.scene_line,
            elevation_m: layout.line_level_m,
            from: sweep(left, right),
            rule: true,
            under: false,
        },
        Level {
            name: t.scene_beam_top,
            elevation_m: layout.beam_top_m,
            from: sweep(layout.x(layout.left_m.max(0.0)) + 8.0, right),
            rule: false,
            under: false,
        },
        Level {
            name: t.scene_datum,
            elevation_m: 0.0,
            from: sweep(left, right),
            rule: false,
            under: true,
        },
    ];
    for &(index, body) in things {
        let Some(thing) = view.case.site.below.get(index) else {
            continue;
        };
        let name = kind_name(view, thing.kind);
        let w = mark_width(pen, view, name, thing.height_m);
        let mut from = vec![body.x - w - 5.0, body.right() + 5.0];
        from.extend(sweep(body.x + 3.0, body.right() - w));
        from.push(body.right() - w);
        marks.push(Level {
            name,
            elevation_m: thing.height_m,
            from,
            rule: true,
            under: false,
        });
    }
    for mark in &marks {
        level(pen, layout, view, mark);
    }
}

fn kind_name<'a>(view: &SceneView<'a>, kind: BelowKind) -> &'a str {
    let t = view.texts;
    match kind {
        BelowKind::Vehicle => t.below_vehicle,
        BelowKind::Structure => t.below_structure,
        BelowKind::Access => t.below_access,
        BelowKind::Stack => t.below_stack,
        BelowKind::Other => t.below_other,
    }
}

fn mark_text(view: &SceneView<'_>, name: &str, elevation_m: f64) -> String {
    let sign = if elevation_m > 0.0 { "+" } else { "" };
    let value = format::length(view.units, elevation_m);
    let gap = if name.is_empty() { "" } else { " " };
    format!("{name}{gap}{sign}{value}")
}

/// Width of triangle, gap and text, px.
fn mark_width(pen: &Pen<'_>, view: &SceneView<'_>, name: &str, elevation_m: f64) -> f64 {
    pen.width(&mark_text(view, name, elevation_m)) + triangle_px(pen) + 6.0
}

/// Height of the dimension chain above the room for the heads, in heights of the type: under it
/// a number fits over a head.
pub const CHAIN_PX: f64 = 1.5;

/// Width of the triangle of a level mark, px: it keeps up with large type.
fn triangle_px(pen: &Pen<'_>) -> f64 {
    (0.55 * pen.face.size_px).max(10.0)
}

fn level(pen: &mut Pen<'_>, layout: &Layout, view: &SceneView<'_>, mark: &Level<'_>) {
    // The name goes before the mark does: a bare level still says how high.
    if !level_named(pen, layout, view, mark, mark.name) {
        level_named(pen, layout, view, mark, "");
    }
}

/// Draws a level mark with a name, if there is room for it.
fn level_named(
    pen: &mut Pen<'_>,
    layout: &Layout,
    view: &SceneView<'_>,
    mark: &Level<'_>,
    name: &str,
) -> bool {
    let theme = pen.theme;
    let text = mark_text(view, name, mark.elevation_m);
    let w = mark_width(pen, view, name, mark.elevation_m);
    let y = layout.y(mark.elevation_m);
    let h = pen.face.size_px;
    let under = y + GROUND_PX + 6.0;
    let places = mark
        .from
        .iter()
        .map(|&x| (x, y - h - 5.0))
        .chain(
            mark.from
                .iter()
                .rev()
                .filter(|_| mark.under)
                .map(|&x| (x, under)),
        )
        .map(|(x, y)| Rect { x, y, w, h });
    let sheet = Rect {
        w: layout.drop.right() - pen.sheet.x,
        ..pen.sheet
    };
    let Some(found) = pen.labels.place(&sheet, places) else {
        return false;
    };
    if mark.rule {
        pen.trace(&[at(found.x, y), at(found.right(), y)]);
        pen.surface.stroke(&theme.ink, 0.9, &[]);
    }
    let wide = triangle_px(pen);
    let half = 0.5 * wide;
    let (tip, base) = if found.y > y {
        (under - 4.0, under - 4.0 + 1.5 * half)
    } else {
        (y - 1.5, y - 1.5 - 1.5 * half)
    };
    pen.trace(&[
        at(found.x + half, tip),
        at(found.x, base),
        at(found.x + wide, base),
    ]);
    pen.surface.close();
    pen.surface.fill(&theme.paper);
    pen.surface.stroke(&theme.ink, 1.0, &[]);
    pen.write(
        &text,
        at(found.x + wide + 6.0, found.y + 0.5 * h),
        Align::Left,
        pen.face,
        &theme.ink,
    );
    true
}

/// Draws the spans as a dimension chain above the heads.
pub fn spans(pen: &mut Pen<'_>, layout: &Layout, view: &SceneView<'_>) {
    let theme = pen.theme;
    let y = layout.drop.y - CHAIN_PX * pen.face.size_px;
    let places = supports_m(&view.case.line.spans_m);
    let (low, high) = (layout.left_m, layout.right_m());
    let h = pen.face.size_px;
    for pair in places.windows(2) {
        let (from, to) = (pair[0].max(low), pair[1].min(high));
        if to <= from {
            continue;
        }
        let (a, b) = (layout.x(from), layout.x(to));
        pen.line(at(a, y), at(b, y), &theme.muted, 0.9, &[]);
        // A span that goes on beyond the window ends in an open arrow.
        for (tip, way, cut) in [(a, 1.0, pair[0] < low), (b, -1.0, pair[1] > high)] {
            if cut {
                pen.trace(&[
                    at(tip + way * 6.0, y - 3.5),
                    at(tip, y),
                    at(tip + way * 6.0, y + 3.5),
                ]);
                pen.surface.stroke(&theme.muted, 0.9, &[]);
            }
        }
        let text = format::length(view.units, pair[1] - pair[0]);
        let w = pen.width(&text);
        let middle = 0.5 * (a + b) - 0.5 * w;
        if b - a > w + 8.0 {
            pen.place(
                &text,
                pen.face,
                &theme.ink,
                core::iter::once(at(middle, y - h - 5.0)),
            );
        }
    }
    for &place in places.iter().filter(|&&p| layout.shows(p)) {
        let x = layout.x(place);
        let post = layout.depth_y(0.0);
        pen.line(at(x, y - 5.0), at(x, post - 8.0), &theme.muted, 0.7, &[]);
        pen.line(
            at(x - 4.0, y + 4.0),
            at(x + 4.0, y - 4.0),
            &theme.ink,
            1.5,
            &[],
        );
    }
}

/// Draws the whole line small, with the window framed, when the drawing shows only a part.
pub fn key_plan(pen: &mut Pen<'_>, layout: &Layout, case: &Case) {
    let theme = pen.theme;
    let w = (0.62 * layout.drop.w).min(300.0);
    let chain = layout.drop.y - CHAIN_PX * pen.face.size_px;
    let y = (chain - pen.line_height() - 18.0).max(pen.sheet.y + 10.0);
    let left = layout.drop.x;
    let scale = w / layout.length_m;
    let x = |place: f64| left + place.max(0.0).min(layout.length_m) * scale;
    let frame = Rect {
        x: x(layout.left_m) - 2.0,
        y: y - 8.0,
        w: x(layout.right_m()) - x(layout.left_m) + 4.0,
        h: 16.0,
    };
    pen.block(frame, &theme.concrete, Pattern::Plain, (&theme.ink, 1.1));
    pen.line(
        at(x(0.0), y),
        at(x(layout.length_m), y),
        &theme.line,
        1.4,
        &[],
    );
    for place in supports_m(&case.line.spans_m) {
        pen.trace(&[at(x(place), y - 4.0), at(x(place), y + 4.0)]);
        pen.surface.stroke(&theme.ink, 1.4, &[]);
    }
    for worker in &case.workers {
        pen.surface.path();
        pen.surface.circle(
            at(x(super::moment::held(worker.position_m, 0.0, 1.0e5)), y),
            2.2,
        );
        pen.surface.fill(&theme.ink);
    }
    pen.labels.block(Rect {
        x: left - 4.0,
        y: y - 9.0,
        w: w + 8.0,
        h: 18.0,
    });
}

/// Draws the scale bar under the ground.
pub fn scale_bar(pen: &mut Pen<'_>, layout: &Layout, view: &SceneView<'_>) {
    let theme = pen.theme;
    let (unit_m, unit) = match view.units {
        Units::Metric => (1.0, "m"),
        Units::Us => (0.3048, "ft"),
    };
    let least_px = 2.6 * pen.face.size_px;
    let Some(step) = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0]
        .into_iter()
        .find(|s| s * unit_m * layout.px_per_m >= least_px)
    else {
        return;
    };
    let step_px = step * unit_m * layout.px_per_m;
    let h = pen.face.size_px;
    let text_y = layout.y(0.0).max(layout.floor_y()) + GROUND_PX + 7.0 + 0.5 * h;
    let bar_y = text_y + 0.5 * h + 4.0;
    let left = layout.drop.x + 2.0;
    for i in 0..4_u32 {
        let r = Rect {
            x: left + step_px * f64::from(i),
            y: bar_y,
            w: step_px,
            h: 4.0,
        };
        let fill = if i % 2 == 0 { &theme.ink } else { &theme.paper };
        pen.block(r, fill, Pattern::Plain, (&theme.ink, 1.0));
    }
    let decimals = usize::from(step < 1.0);
    for i in [0_u32, 2, 4] {
        let number = format::number(step * f64::from(i), decimals);
        let text = if i == 4 {
            format!("{number} {unit}")
        } else {
            number
        };
        let x = left + step_px * f64::from(i);
        let align = if i == 0 { Align::Left } else { Align::Centre };
        pen.write(&text, at(x, text_y), align, pen.face, &theme.muted);
    }
    pen.labels.block(Rect {
        x: left,
        y: text_y - 0.5 * h,
        w: 4.6 * step_px,
        h: h + 9.0,
    });
}

/// Draws each worker's number in a ring above the line, joined to his connector: a place that
/// stays where it is while he falls.
pub fn numbers(
    pen: &mut Pen<'_>,
    layout: &Layout,
    figures: &[(WorkerMoment, Rect, usize)],
    focus: usize,
) {
    let theme = pen.theme;
    let r = 0.78 * pen.face.size_px;
    let y = layout.heads_y() - r - 2.0;
    let mut row: Vec<&(WorkerMoment, Rect, usize)> = figures.iter().collect();
    sort(&mut row, |a, b| a.0.position_m < b.0.position_m);
    let wanted: Vec<f64> = row.iter().map(|f| layout.x(f.0.position_m)).collect();
    let gap = 2.0 * r + 3.0;
    let (low, high) = (layout.drop.x + r, layout.drop.right() - r);
    let places = spread(&wanted, gap, low, high);
    for ((worker, figure, _), &x) in row.iter().zip(&places) {
        let foot = layout.point(worker.position_m, worker.connector_m);
        let end = at(foot.x, (foot.y - 4.0).min(figure.y.max(y + r)));
        if end.y > y + r + 3.0 {
            pen.line(at(x, y + r), end, &theme.ink, 0.9, &[]);
        }
    }
    for ((_, _, index), x) in row.into_iter().zip(places) {
        let (fill, ink) = if *index == focus {
            (&theme.ink, &theme.paper)
        } else {
            (&theme.paper, &theme.ink)
        };
        let centre = at(x, y);
        pen.ring(centre, r, 1.2, [&theme.ink, fill]);
        let text = (index + 1).to_string();
        pen.write(&text, centre, Align::Centre, pen.bold(), ink);
        pen.labels.block(Rect {
            x: x - r,
            y: y - r,
            w: 2.0 * r,
            h: 2.0 * r,
        });
    }
}

/// Writes the force in the focus worker's gear and the line's tension where they act.
pub fn forces(
    pen: &mut Pen<'_>,
    layout: &Layout,
    view: &SceneView<'_>,
    moment: &Moment,
    focus: usize,
) {
    let theme = pen.theme;
    let h = pen.face.size_px;
    if let Some(worker) = moment.workers.get(focus).filter(|w| w.force_n > 1.0) {
        let text = format::force(view.units, worker.force_n);
        let w = pen.surface.text_width(&text, pen.bold());
        let x = layout.x(worker.position_m);
        let from = layout.depth_y(worker.connector_m) + 6.0;
        let to = layout.depth_y(worker.dring_m);
        let places = (0..24).flat_map(|i| {
            let y = from + (to - from) * f64::from(i) / 24.0;
            [at(x + 11.0, y), at(x - 11.0 - w, y)]
        });
        pen.place(&text, pen.bold(), &theme.absorber, places);
    }
    let Some(tension_n) = moment.tension_n.filter(|&t| t > 1.0) else {
        return;
    };
    let value = format::force(view.units, tension_n);
    let text = crate::say::texts::filled(view.texts.scene_tension, &value);
    let w = pen.surface.text_width(&text, pen.bold());
    let steps = ((layout.drop.w - w).max(0.0) / 12.0).min(200.0) as u32;
    let y = layout.depth_y(0.0);
    let right = layout.x(layout.length_m.min(layout.right_m())) - w - 10.0;
    let places = (0..=steps).flat_map(|i| {
        let x = right - 12.0 * f64::from(i);
        [at(x, y - h - 6.0), at(x, y + 7.0)]
    });
    pen.place(&text, pen.bold(), &theme.line, places);
}
