//! The lifeline: posts, tiebacks, the rope in its present shape, the in-line absorber.

use footroom_core::case::Line;

use super::layout::Layout;
use super::moment::{Moment, held};
use super::pattern::Pattern;
use super::pen::{Pen, ribbon, spanned};
use super::surface::{Point, Rect, at};

/// Length of a folded in-line absorber, m. Only drawn.
const INLINE_FOLDED_M: f64 = 0.45;
/// Its distance from the end post, m. Only drawn.
const INLINE_OFFSET_M: f64 = 0.3;

/// Greatest distance of the rope from a point that is left out, px.
const STRAIGHT_PX: f64 = 0.1;

/// Places of all supports, left to right, m.
pub fn supports_m(spans_m: &[f64]) -> Vec<f64> {
    let mut places = vec![0.0];
    let mut end = 0.0;
    for &span in spans_m.iter().filter(|s| s.is_finite()) {
        end += span;
        places.push(end);
    }
    places
}

/// Draws posts and tiebacks.
pub fn posts(pen: &mut Pen<'_>, layout: &Layout, spans_m: &[f64]) {
    let theme = pen.theme;
    let places = supports_m(spans_m);
    let last = places.len() - 1;
    let width = (0.1 * layout.px_per_m).clamp(3.0, 8.0);
    for (i, &place) in places.iter().enumerate() {
        let head = layout.point(place, 0.0);
        let foot = at(head.x, layout.y(layout.beam_top_m));
        if !layout.shows(place) {
            continue;
        }
        if i == 0 || i == last {
            let out = if i == 0 { -1.0 } else { 1.0 };
            let hold = at(layout.x(place + out * layout.set_back_m), foot.y);
            tieback(pen, layout, head, hold);
        }
        let post = Rect {
            x: head.x - 0.5 * width,
            y: head.y - 2.0,
            w: width,
            h: foot.y - head.y + 2.0,
        };
        pen.block(post, &theme.ink, Pattern::Plain, (&theme.ink, 0.0));
        let shoe = Rect {
            x: head.x - 1.6 * width,
            y: foot.y - 0.7 * width,
            w: 3.2 * width,
            h: 0.7 * width,
        };
        pen.block(shoe, &theme.ink, Pattern::Plain, (&theme.ink, 0.0));
        pen.labels.block(post);
        pen.labels.block(shoe);
    }
}

/// Draws a tieback from the head of its post to what it is fixed to, as far as the window goes.
fn tieback(pen: &mut Pen<'_>, layout: &Layout, head: Point, hold: Point) {
    let theme = pen.theme;
    let edge = hold.x.max(layout.drop.x).min(layout.drop.right());
    let on = |u: f64| {
        at(
            head.x + (hold.x - head.x) * u,
            head.y + (hold.y - head.y) * u,
        )
    };
    let shown = held((edge - head.x) / (hold.x - head.x), 0.0, 1.0);
    pen.line(head, on(shown), &theme.ink, 1.3, &[]);
    if shown < 0.98 {
        return;
    }
    // The tensioner, and the plate on the beam.
    let thick = (0.07 * layout.px_per_m).clamp(3.0, 6.0);
    let body = ribbon(on(0.68), on(0.84), thick);
    pen.area(&body, &theme.paper, Pattern::Plain, (&theme.ink, 1.1));
    let r = (0.09 * layout.px_per_m).clamp(3.0, 7.0);
    pen.trace(&[at(hold.x - r, hold.y), at(hold.x + r, hold.y)]);
    pen.surface.stroke(&theme.ink, 3.0, &[]);
}

/// Draws the rope and the heads of the posts over it.
pub fn rope(pen: &mut Pen<'_>, layout: &Layout, moment: &Moment, spans_m: &[f64]) {
    let theme = pen.theme;
    let points = thinned(&visible(layout, &moment.line));
    if points.len() > 1 {
        pen.thread(&points, &theme.line, 2.4, &[]);
    }
    for place in supports_m(spans_m).into_iter().filter(|&p| layout.shows(p)) {
        let head = layout.point(place, 0.0);
        let radius = (0.055 * layout.px_per_m).clamp(2.4, 5.0);
        pen.ring(head, radius, 1.5, [&theme.ink, &theme.paper]);
    }
}

/// Draws the in-line absorber at every end where one is, opened inwards by its extension.
pub fn inline_absorbers(pen: &mut Pen<'_>, layout: &Layout, moment: &Moment, line: &Line) {
    for end in [0, 1] {
        if line.inline_absorber.is_some_and(|a| a.place.is_at(end)) {
            inline_absorber(pen, layout, moment, end);
        }
    }
}

/// Draws the one at the left end (0) or at the right end (1). Once in the first module, not once an end.
#[inline(never)]
fn inline_absorber(pen: &mut Pen<'_>, layout: &Layout, moment: &Moment, end: usize) {
    let theme = pen.theme;
    let (outer, inwards, extension_m) = if end == 0 {
        (INLINE_OFFSET_M, 1.0, moment.inline_m[0])
    } else {
        (layout.length_m - INLINE_OFFSET_M, -1.0, moment.inline_m[1])
    };
    if !layout.shows(outer) {
        return;
    }
    let folded = outer + inwards * INLINE_FOLDED_M;
    let inner = folded + inwards * extension_m.min(0.5 * layout.length_m);
    let place = |x: f64| layout.point(x, moment.line_depth_m(x));
    let (a, b) = (place(inner), place(outer));
    let thick = (0.17 * layout.px_per_m).clamp(6.0, 14.0);
    let fold = place(folded);
    if extension_m > 0.01 {
        let opened = ribbon(a, fold, 0.7 * thick);
        pen.area(
            &opened,
            &theme.paper,
            Pattern::Rising,
            (&theme.absorber, 1.1),
        );
    }
    let body = ribbon(fold, b, thick);
    pen.area(&body, &theme.paper, Pattern::Rising, (&theme.absorber, 1.5));
    pen.labels.block(spanned(a, b).grown(0.5 * thick));
}

/// The points of a line from left to right without those that stand nearly straight between others.
///
/// # Source
/// Sklansky and Gonzalez, Pattern Recognition 12 (1980) 327, from memory: a point can be left out as
/// long as some straight line from the last one kept passes all after it within the tolerance.
fn thinned(points: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut last = None;
    for &p in points {
        if let (Some(&from), Some(before)) = (kept.last(), last) {
            let mut from: Point = from;
            let slope = (p.y - from.y) / (p.x - from.x);
            if !(slope >= low && slope <= high) {
                kept.push(before);
                from = before;
                (low, high) = (f64::NEG_INFINITY, f64::INFINITY);
            }
            let off = |by: f64| (p.y + by - from.y) / (p.x - from.x);
            (low, high) = (low.max(off(-STRAIGHT_PX)), high.min(off(STRAIGHT_PX)));
        } else {
            kept.push(p);
        }
        last = Some(p);
    }
    kept.extend(last.filter(|_| points.len() > 1));
    kept
}

/// The points of the line inside the window, with its cut ends.
fn visible(layout: &Layout, line: &[(f64, f64)]) -> Vec<Point> {
    let (low, high) = (layout.left_m, layout.right_m());
    let mut points = Vec::new();
    for pair in line.windows(2) {
        let ((x0, d0), (x1, d1)) = (pair[0], pair[1]);
        if x1 < low || x0 > high || x1 <= x0 {
            continue;
        }
        let cut = |x: f64| layout.point(x, d0 + (d1 - d0) * (x - x0) / (x1 - x0));
        if points.is_empty() {
            points.push(cut(x0.max(low)));
        }
        points.push(cut(x1.min(high)));
    }
    points
}
