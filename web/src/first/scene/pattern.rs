//! Hatches: every kind of length and thing is told apart by its pattern before its colour.

use super::pen::Pen;
use super::surface::{Rect, at};
use super::turn::sin_cos;

/// Most strokes of one hatch: an absurd size then has a coarse hatch, not a long wait.
const STROKES_MAX: f64 = 400.0;

/// A hatch. The style sheet of the page has the same ones for the rows of the stack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pattern {
    /// None.
    Plain,
    /// Level lines, in the colour of the line: line deflection.
    Level,
    /// Rising diagonals, in the colour of absorbers: absorber extension.
    Rising,
    /// Wide falling diagonals: harness stretch.
    Falling,
    /// Upright lines: D-ring to sole.
    Upright,
    /// A grid: what the tolerances add.
    Grid,
    /// Dots: margin.
    Dots,
    /// Crossed diagonals in the colour of warning: too short.
    Crossed,
    /// Stipple and chips: concrete.
    Concrete,
    /// Wide rising diagonals: ground, other things.
    Ground,
    /// Boards: stacked material.
    Boards,
    /// Braces: scaffold, stair, ladder.
    Braces,
}

impl Pattern {
    /// Whether it reaches over the edges of its area.
    pub fn overshoots(self) -> bool {
        matches!(self, Self::Concrete | Self::Braces)
    }
}

/// Draws a hatch over `area`. The surface is limited to the shape where that is not the area
/// itself, or the pattern overshoots.
pub fn draw(pen: &mut Pen<'_>, area: Rect, pattern: Pattern) {
    let theme = pen.theme;
    let (line, ink, muted) = (&theme.line, &theme.ink, &theme.muted);
    match pattern {
        Pattern::Plain => {}
        Pattern::Level => levels(pen, area, 4.0, line, 1.0),
        Pattern::Rising => diagonals(pen, area, 5.0, true, &theme.absorber, 1.3),
        Pattern::Falling => diagonals(pen, area, 6.0, false, muted, 0.9),
        Pattern::Upright => uprights(pen, area, 6.0, muted, 0.9),
        Pattern::Grid => {
            levels(pen, area, 6.0, ink, 0.9);
            uprights(pen, area, 6.0, ink, 0.5);
        }
        Pattern::Dots => dots(pen, area, 6.0, ink, 0.8),
        Pattern::Crossed => {
            diagonals(pen, area, 6.0, true, &theme.warning, 1.3);
            diagonals(pen, area, 6.0, false, &theme.warning, 1.3);
        }
        Pattern::Concrete => concrete(pen, area),
        Pattern::Ground => diagonals(pen, area, 9.0, true, muted, 1.0),
        Pattern::Boards => levels(pen, area, 8.0, muted, 1.0),
        Pattern::Braces => braces(pen, area, 26.0, muted),
    }
}

/// Spacing that keeps the number of strokes over `length` bounded; 0: nothing to draw.
fn spacing(length: f64, wanted: f64) -> f64 {
    if length.is_finite() && length > 0.0 {
        wanted.max(length / STROKES_MAX)
    } else {
        0.0
    }
}

fn levels(pen: &mut Pen<'_>, area: Rect, gap: f64, colour: &str, width: f64) {
    let gap = spacing(area.h, gap);
    pen.surface.path();
    let mut y = area.y + gap;
    while gap > 0.0 && y < area.bottom() {
        pen.surface.move_to(at(area.x, y));
        pen.surface.line_to(at(area.right(), y));
        y += gap;
    }
    pen.surface.stroke(colour, width, &[]);
}

fn uprights(pen: &mut Pen<'_>, area: Rect, gap: f64, colour: &str, width: f64) {
    let gap = spacing(area.w, gap);
    pen.surface.path();
    let mut x = area.x + gap;
    while gap > 0.0 && x < area.right() {
        pen.surface.move_to(at(x, area.y));
        pen.surface.line_to(at(x, area.bottom()));
        x += gap;
    }
    pen.surface.stroke(colour, width, &[]);
}

fn diagonals(pen: &mut Pen<'_>, area: Rect, gap: f64, rising: bool, colour: &str, width: f64) {
    // Counted along x: √2 times the distance between the strokes.
    let gap = spacing(area.w + area.h, gap * core::f64::consts::SQRT_2);
    pen.surface.path();
    let mut x = area.x - area.h;
    while gap > 0.0 && x < area.right() {
        // From one side of the area, or its foot or head, to another.
        for (i, way) in [(area.x - x).max(0.0), area.h.min(area.right() - x)]
            .into_iter()
            .enumerate()
        {
            let y = if rising {
                area.bottom() - way
            } else {
                area.y + way
            };
            let p = at(x + way, y);
            if i == 0 {
                pen.surface.move_to(p);
            } else {
                pen.surface.line_to(p);
            }
        }
        x += gap;
    }
    pen.surface.stroke(colour, width, &[]);
}

fn dots(pen: &mut Pen<'_>, area: Rect, gap: f64, colour: &str, radius: f64) {
    let gap = spacing((area.w * area.h).max(0.0).sqrt() * 8.0, gap);
    pen.surface.path();
    let mut y = area.y + 0.5 * gap;
    let mut row = 0_u32;
    while gap > 0.0 && y < area.bottom() {
        let mut x = area.x
            + if row.is_multiple_of(2) {
                0.5 * gap
            } else {
                gap
            };
        while x < area.right() {
            pen.surface.circle(at(x, y), radius);
            x += gap;
        }
        y += gap;
        row += 1;
    }
    pen.surface.fill(colour);
}

/// Stipple with a chip here and there; the same place always has the same grain.
fn concrete(pen: &mut Pen<'_>, area: Rect) {
    let cell = spacing((area.w * area.h).max(0.0).sqrt() * 8.0, 15.0);
    if cell <= 0.0 {
        return;
    }
    let muted = pen.theme.muted.clone();
    let mut chips = Vec::new();
    pen.surface.path();
    let mut seed = 0x9e37_79b9_u32;
    let mut y = area.y;
    while y < area.bottom() {
        let mut x = area.x;
        while x < area.right() {
            // A 32-bit xorshift (Marsaglia, J. Stat. Softw. 8 (2003) 14).
            seed ^= seed << 13;
            seed ^= seed >> 17;
            seed ^= seed << 5;
            let part = |shift: u32| f64::from((seed >> shift) & 0xff) / 255.0;
            let p = at(x + cell * part(0), y + cell * part(8));
            if part(16) > 0.86 {
                chips.push((p, part(24)));
            } else {
                pen.surface.circle(p, 0.55 + 0.45 * part(24));
            }
            x += cell;
        }
        y += cell;
    }
    pen.surface.fill(&muted);
    pen.surface.path();
    for (p, turn) in chips {
        let r = 3.2;
        for corner in 0..3 {
            let (sin, cos) = sin_cos(core::f64::consts::TAU * (turn + f64::from(corner) / 3.0));
            let q = at(p.x + r * cos, p.y + r * sin);
            if corner == 0 {
                pen.surface.move_to(q);
            } else {
                pen.surface.line_to(q);
            }
        }
        pen.surface.close();
    }
    pen.surface.stroke(&muted, 0.8, &[]);
}

fn braces(pen: &mut Pen<'_>, area: Rect, cell: f64, colour: &str) {
    let cell = spacing((area.w * area.h).max(0.0).sqrt() * 8.0, cell);
    pen.surface.path();
    let mut y = area.bottom();
    while cell > 0.0 && y > area.y {
        let mut x = area.x;
        while x < area.right() {
            let top = y - cell;
            pen.surface.rect(Rect {
                x,
                y: top,
                w: cell,
                h: cell,
            });
            pen.surface.move_to(at(x, y));
            pen.surface.line_to(at(x + cell, top));
            x += cell;
        }
        y -= cell;
    }
    pen.surface.stroke(colour, 1.0, &[]);
}
