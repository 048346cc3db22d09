//! What the drawing needs of a canvas: a dozen calls.

/// Where a text stands relative to its x.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// It begins there.
    Left,
    /// It is centred there.
    Centre,
    /// It ends there.
    Right,
}

/// Size and weight of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Height of the type, CSS px.
    pub size_px: f64,
    /// Bold or regular.
    pub bold: bool,
}

/// A place on the sheet, CSS px, y downward.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Downward.
    pub y: f64,
}

/// A point from its coordinates.
pub const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// An upright rectangle, CSS px.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
}

impl Rect {
    /// Right edge.
    pub fn right(&self) -> f64 {
        self.x + self.w
    }

    /// Bottom edge.
    pub fn bottom(&self) -> f64 {
        self.y + self.h
    }

    /// The same, larger by `by` on every side.
    pub fn grown(&self, by: f64) -> Rect {
        Rect {
            x: self.x - by,
            y: self.y - by,
            w: self.w + 2.0 * by,
            h: self.h + 2.0 * by,
        }
    }

    /// Whether two rectangles share more than an edge.
    pub fn meets(&self, other: &Rect) -> bool {
        self.x < other.right()
            && other.x < self.right()
            && self.y < other.bottom()
            && other.y < self.bottom()
    }

    /// Whether `inner` lies wholly inside.
    pub fn holds(&self, inner: &Rect) -> bool {
        inner.x >= self.x
            && inner.right() <= self.right()
            && inner.y >= self.y
            && inner.bottom() <= self.bottom()
    }

    /// Whether the straight line from `a` to `b` enters the rectangle (Liang and Barsky, ACM
    /// Trans. Graphics 3 (1984) 1).
    pub fn crossed_by(&self, a: Point, b: Point) -> bool {
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        for (p, q) in [
            (-dx, a.x - self.x),
            (dx, self.right() - a.x),
            (-dy, a.y - self.y),
            (dy, self.bottom() - a.y),
        ] {
            if p == 0.0 {
                if q <= 0.0 {
                    return false;
                }
            } else if p < 0.0 {
                enter = enter.max(q / p);
            } else {
                leave = leave.min(q / p);
            }
        }
        enter < leave
    }
}

/// A surface to draw on, in CSS px. Paths are collected, then filled or stroked, or filled and then
/// outlined; a stroke is the last use of its path.
pub trait Surface {
    /// Sets the scale of the device and clears the sheet with `paper`.
    fn begin(&mut self, width_px: f64, height_px: f64, dpr: f64, paper: &str);
    /// What follows stays as it is while the fall plays, until [`Surface::end_back`]: a surface may
    /// keep it as long as the `state` is the same.
    fn begin_back(&mut self, _state: bool) {}
    /// Ends what stays.
    fn end_back(&mut self) {}
    /// Whether what follows is the hatch of an area, on which texts may stand.
    fn hatching(&mut self, _on: bool) {}
    /// Begins a new path.
    fn path(&mut self);
    /// Moves without drawing.
    fn move_to(&mut self, p: Point);
    /// Straight on to `p`.
    fn line_to(&mut self, p: Point);
    /// A quadratic curve with control point `c`.
    fn curve_to(&mut self, c: Point, p: Point);
    /// A whole circle, as a part of its own.
    fn circle(&mut self, centre: Point, radius_px: f64);
    /// A rectangle, as a part of its own.
    fn rect(&mut self, r: Rect);
    /// Closes the present part of the path.
    fn close(&mut self);
    /// Fills the path.
    fn fill(&mut self, colour: &str);
    /// Strokes the path with round ends; an empty `dash` is solid.
    fn stroke(&mut self, colour: &str, width_px: f64, dash: &[f64]);
    /// Limits what follows to the path, until [`Surface::unclip`].
    fn clip(&mut self);
    /// Ends the latest limit.
    fn unclip(&mut self);
    /// Writes a text; `p` is its anchor on the middle of its height.
    fn text(&mut self, text: &str, p: Point, align: Align, face: Face, colour: &str);
    /// Width of a text, px.
    fn text_width(&self, text: &str, face: Face) -> f64;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_crosses_the_box_it_passes_through_and_no_other() {
        let r = Rect {
            x: 10.0,
            y: 10.0,
            w: 20.0,
            h: 5.0,
        };
        assert!(r.crossed_by(at(0.0, 12.0), at(40.0, 12.0)));
        assert!(r.crossed_by(at(0.0, 0.0), at(40.0, 25.0)));
        assert!(r.crossed_by(at(15.0, 12.0), at(16.0, 13.0)));
        assert!(!r.crossed_by(at(0.0, 9.0), at(40.0, 9.0)));
        assert!(!r.crossed_by(at(0.0, 20.0), at(40.0, 16.0)));
        assert!(!r.crossed_by(at(5.0, 0.0), at(5.0, 40.0)));
    }
}
