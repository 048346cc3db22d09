//! The pen: draws through a [`Surface`], and remembers what texts must keep off.

use super::label::Labels;
use super::pattern::{self, Pattern};
use super::surface::{Align, Face, Point, Rect, Surface, at};
use super::theme::Theme;

/// A pen over a surface.
pub struct Pen<'a> {
    /// Where it draws.
    pub surface: &'a mut dyn Surface,
    /// Colours and type face.
    pub theme: &'a Theme,
    /// What texts must keep off.
    pub labels: Labels,
    /// The whole sheet.
    pub sheet: Rect,
    /// Ordinary text.
    pub face: Face,
}

impl Pen<'_> {
    /// The bold sister of [`Pen::face`].
    pub fn bold(&self) -> Face {
        Face {
            bold: true,
            ..self.face
        }
    }

    /// Height of a line of text, px.
    pub fn line_height(&self) -> f64 {
        self.face.size_px * 1.3
    }

    /// A straight line that texts keep off.
    pub fn line(&mut self, a: Point, b: Point, colour: &str, width_px: f64, dash: &[f64]) {
        self.thread(&[a, b], colour, width_px, dash);
    }

    /// A line through points that texts keep off.
    pub fn thread(&mut self, points: &[Point], colour: &str, width_px: f64, dash: &[f64]) {
        self.trace(points);
        self.surface.stroke(colour, width_px, dash);
        let half = 0.5 * width_px;
        for pair in points.windows(2) {
            self.labels.block_line(pair[0], pair[1]);
            if width_px > 3.0 {
                self.labels.block(spanned(pair[0], pair[1]).grown(half));
            }
        }
    }

    /// Lays points out as the present path.
    pub fn trace(&mut self, points: &[Point]) {
        self.surface.path();
        for (i, &p) in points.iter().enumerate() {
            if i == 0 {
                self.surface.move_to(p);
            } else {
                self.surface.line_to(p);
            }
        }
    }

    /// A filled, patterned and outlined area between corners. Texts do not keep off it.
    pub fn area(&mut self, corners: &[Point], fill: &str, pattern: Pattern, outline: (&str, f64)) {
        let bounds = corners
            .iter()
            .fold(spanned(corners[0], corners[1]), |all, &c| {
                let x = all.x.min(c.x);
                let y = all.y.min(c.y);
                Rect {
                    x,
                    y,
                    w: all.right().max(c.x) - x,
                    h: all.bottom().max(c.y) - y,
                }
            });
        self.hatched(corners, (bounds, true), fill, pattern, outline);
    }

    /// [`Pen::area`] with its bounds, and whether they are larger than it.
    fn hatched(
        &mut self,
        corners: &[Point],
        (bounds, larger): (Rect, bool),
        fill: &str,
        pattern: Pattern,
        outline: (&str, f64),
    ) {
        self.trace(corners);
        self.surface.close();
        self.surface.fill(fill);
        if pattern != Pattern::Plain {
            // A limit costs more than everything else that is drawn of an area.
            let limit = larger || pattern.overshoots();
            if limit {
                self.surface.clip();
            }
            self.surface.hatching(true);
            pattern::draw(self, bounds, pattern);
            self.surface.hatching(false);
            if limit {
                self.surface.unclip();
            }
            if outline.1 > 0.0 {
                self.trace(corners);
                self.surface.close();
            }
        }
        if outline.1 > 0.0 {
            self.surface.stroke(outline.0, outline.1, &[]);
        }
    }

    /// [`Pen::area`] for an upright rectangle.
    pub fn block(&mut self, r: Rect, fill: &str, pattern: Pattern, outline: (&str, f64)) {
        self.hatched(&corners(r), (r, false), fill, pattern, outline);
    }

    /// A ring over what is behind it.
    pub fn ring(&mut self, centre: Point, radius_px: f64, width_px: f64, colours: [&str; 2]) {
        // Two discs are drawn in half the time of one with an outline.
        for (colour, way) in colours.into_iter().zip([0.5, -0.5]) {
            self.surface.path();
            self.surface.circle(centre, radius_px + way * width_px);
            self.surface.fill(colour);
        }
    }

    /// A text that something else has already found a place for.
    pub fn write(&mut self, text: &str, p: Point, align: Align, face: Face, colour: &str) {
        self.surface.text(text, p, align, face, colour);
    }

    /// Width of a text in the ordinary face, px.
    pub fn width(&self, text: &str) -> f64 {
        self.surface.text_width(text, self.face)
    }

    /// Writes a text at the first of the places (its top left corner) where it stands free.
    /// Gives its box, or `None` when there was no room and nothing was written.
    pub fn place(
        &mut self,
        text: &str,
        face: Face,
        colour: &str,
        places: impl Iterator<Item = Point>,
    ) -> Option<Rect> {
        let w = self.surface.text_width(text, face);
        let h = face.size_px;
        let boxes = places.map(|p| Rect {
            x: p.x,
            y: p.y,
            w,
            h,
        });
        let found = self.labels.place(&self.sheet, boxes)?;
        self.write(
            text,
            at(found.x, found.y + 0.5 * h),
            Align::Left,
            face,
            colour,
        );
        Some(found)
    }
}

/// The rectangle between two opposite corners.
pub fn spanned(a: Point, b: Point) -> Rect {
    Rect {
        x: a.x.min(b.x),
        y: a.y.min(b.y),
        w: (b.x - a.x).abs(),
        h: (b.y - a.y).abs(),
    }
}

/// The corners of a rectangle, clockwise from the top left.
pub fn corners(r: Rect) -> [Point; 4] {
    [
        at(r.x, r.y),
        at(r.right(), r.y),
        at(r.right(), r.bottom()),
        at(r.x, r.bottom()),
    ]
}

/// Corners of a band of a given width along the straight line from `a` to `b`.
pub fn ribbon(a: Point, b: Point, width_px: f64) -> [Point; 4] {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let length = (dx * dx + dy * dy).sqrt().max(1.0e-6);
    let (nx, ny) = (-dy / length * 0.5 * width_px, dx / length * 0.5 * width_px);
    [
        at(a.x + nx, a.y + ny),
        at(b.x + nx, b.y + ny),
        at(b.x - nx, b.y - ny),
        at(a.x - nx, a.y - ny),
    ]
}
