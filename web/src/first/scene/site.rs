//! The site: beam, ground, things below, and the break of a drop too deep to show.

use footroom_core::case::{Below, BelowKind, Case};

use super::layout::Layout;
use super::moment::held;
use super::pattern::Pattern;
use super::pen::Pen;
use super::surface::{Rect, at};

/// Depth of the hatched strip that stands for the ground, px.
pub const GROUND_PX: f64 = 11.0;

/// Draws the beam; cut ends have a break line.
pub fn beam(pen: &mut Pen<'_>, layout: &Layout, case: &Case) {
    let theme = pen.theme;
    let depth_m = held(case.site.beam_depth_m, 0.05, 6.0).min(layout.beam_top_m.max(0.05));
    let over_m = layout.set_back_m + super::layout::BEAM_END_M;
    let left_m = (-over_m).max(layout.left_m);
    let right_m = (layout.length_m + over_m).min(layout.right_m());
    let y = layout.y(layout.beam_top_m);
    let beam = Rect {
        x: layout.x(left_m),
        y,
        w: (right_m - left_m).max(0.0) * layout.px_per_m,
        h: layout.y(layout.beam_top_m - depth_m) - y,
    };
    pen.block(beam, &theme.concrete, Pattern::Concrete, (&theme.ink, 0.0));
    for y in [beam.y, beam.bottom()] {
        pen.line(
            at(beam.x, y),
            at(beam.right(), y),
            &theme.ink,
            if y == beam.y { 1.8 } else { 1.2 },
            &[],
        );
    }
    for (x, cut) in [
        (beam.x, left_m > -over_m + 0.01),
        (beam.right(), right_m < layout.length_m + over_m - 0.01),
    ] {
        if cut {
            break_line(pen, at(x, beam.y - 7.0), at(x, beam.bottom() + 7.0));
        } else {
            pen.line(at(x, beam.y), at(x, beam.bottom()), &theme.ink, 1.2, &[]);
        }
    }
    pen.labels.block(beam);
}

/// A thin line with a zigzag in its middle: the drawing goes on beyond it.
fn break_line(pen: &mut Pen<'_>, a: super::surface::Point, b: super::surface::Point) {
    let theme = pen.theme;
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let length = (dx * dx + dy * dy).sqrt().max(1.0);
    let part = (9.0 / length).min(0.3);
    let (nx, ny) = (-dy / length * 6.0, dx / length * 6.0);
    let on = |u: f64, off: f64| at(a.x + dx * u + nx * off, a.y + dy * u + ny * off);
    let points = [
        a,
        on(0.5 - part, 0.0),
        on(0.5 - 0.4 * part, 1.0),
        on(0.5 + 0.4 * part, -1.0),
        on(0.5 + part, 0.0),
        b,
    ];
    pen.thread(&points, &theme.ink, 1.0, &[]);
}

/// Draws the datum and its hatch, and the break above it.
pub fn ground(pen: &mut Pen<'_>, layout: &Layout, right_px: f64) {
    let theme = pen.theme;
    let y = layout.y(0.0);
    let left = layout.drop.x;
    let strip = Rect {
        x: left,
        y,
        w: right_px - left,
        h: GROUND_PX,
    };
    pen.block(strip, &theme.paper, Pattern::Ground, (&theme.ink, 0.0));
    pen.line(at(left, y), at(right_px, y), &theme.ink, 1.8, &[]);
    pen.labels.block(strip);
    if layout.broken_px > 0.0 {
        let y = layout.floor_y() + 0.25 * layout.broken_px;
        break_line(pen, at(left, y), at(right_px, y));
    }
}

/// Draws one thing below. Gives its box.
pub fn below(pen: &mut Pen<'_>, layout: &Layout, thing: &Below) -> Option<Rect> {
    let theme = pen.theme;
    let from_m = held(thing.from_m, layout.left_m, 1.0e5);
    let to_m = held(thing.to_m, -1.0e5, layout.right_m());
    let height_m = held(thing.height_m, 0.0, layout.beam_top_m);
    if to_m <= from_m || height_m <= 0.0 {
        return None;
    }
    let ground = layout.y(0.0);
    let top = layout.y(height_m);
    let body = Rect {
        x: layout.x(from_m),
        y: top,
        w: (to_m - from_m) * layout.px_per_m,
        h: ground - top,
    };
    let ink = (theme.ink.as_str(), 1.2);
    match thing.kind {
        BelowKind::Vehicle => vehicle(pen, body, layout.px_per_m),
        BelowKind::Structure => pen.block(body, &theme.concrete, Pattern::Concrete, ink),
        BelowKind::Access => pen.block(body, &theme.paper, Pattern::Braces, ink),
        BelowKind::Stack => pen.block(body, &theme.below, Pattern::Boards, ink),
        BelowKind::Other => pen.block(body, &theme.below, Pattern::Ground, ink),
    }
    // Its top is what counts.
    pen.line(at(body.x, top), at(body.right(), top), &theme.ink, 2.6, &[]);
    pen.labels.block(body);
    Some(body)
}

/// A load on a bed on wheels.
fn vehicle(pen: &mut Pen<'_>, body: Rect, px_per_m: f64) {
    let theme = pen.theme;
    let ink = (theme.ink.as_str(), 1.2);
    let wheel = (0.46 * px_per_m).min(0.2 * body.h).min(0.12 * body.w);
    let bed_h = (0.22 * px_per_m).min(0.12 * body.h);
    let bed_y = body.bottom() - 1.75 * wheel - bed_h;
    let load = Rect {
        h: (bed_y - body.y).max(0.0),
        x: body.x + 0.01 * body.w,
        w: 0.98 * body.w,
        ..body
    };
    pen.block(load, &theme.below, Pattern::Plain, ink);
    // The load: boxes in two rows.
    let columns = (load.w / (1.5 * px_per_m)).ceil().clamp(1.0, 40.0);
    pen.surface.path();
    for i in 1..columns as u32 {
        let x = load.x + load.w * f64::from(i) / columns;
        pen.surface.move_to(at(x, load.y));
        pen.surface.line_to(at(x, load.bottom()));
    }
    for i in 1..3 {
        let y = load.y + load.h * f64::from(i) / 3.0;
        pen.surface.move_to(at(load.x, y));
        pen.surface.line_to(at(load.right(), y));
    }
    pen.surface.stroke(&theme.muted, 0.9, &[]);
    let bed = Rect {
        x: body.x,
        y: bed_y,
        w: body.w,
        h: bed_h,
    };
    pen.block(bed, &theme.muted, Pattern::Plain, ink);
    for part in [0.1, 0.1 + 2.3 * wheel / body.w.max(1.0), 0.86] {
        let hub = at(body.x + part * body.w, body.bottom() - wheel);
        if hub.x + wheel > body.right() {
            continue;
        }
        for (radius, colour) in [(1.0, &theme.ink), (0.56, &theme.paper), (0.2, &theme.ink)] {
            pen.surface.path();
            pen.surface.circle(hub, wheel * radius);
            pen.surface.fill(colour);
        }
    }
}
