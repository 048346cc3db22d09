//! A surface that keeps a list of what was drawn, for the tests.

use super::surface::{Align, Face, Point, Rect, Surface, at};

/// A text with the box it covers.
#[derive(Clone, Debug)]
pub struct Written {
    /// What it says.
    pub text: String,
    /// Its box: as wide as the text, as high as its type.
    pub area: Rect,
}

/// A stroke as its straight parts.
#[derive(Clone, Debug)]
pub struct Stroked {
    /// Its parts.
    pub parts: Vec<(Point, Point)>,
    /// Colour it was drawn in.
    pub colour: String,
    /// Whether it belongs to the hatch of an area.
    pub hatch: bool,
}

/// What was drawn.
#[derive(Debug, Default)]
pub struct Recording {
    /// Texts in the order of drawing.
    pub texts: Vec<Written>,
    /// Strokes in the order of drawing.
    pub strokes: Vec<Stroked>,
    /// Size of the sheet.
    pub size: (f64, f64),
    /// Number of coordinates that were not finite.
    pub bad: usize,
    parts: Vec<(Point, Point)>,
    from: Point,
    start: Point,
    clips: usize,
    hatching: bool,
}

impl Recording {
    fn check(&mut self, values: &[f64]) {
        self.bad += values.iter().filter(|v| !v.is_finite()).count();
    }

    /// Limits that were set and not ended.
    pub fn open_clips(&self) -> usize {
        self.clips
    }
}

impl Surface for Recording {
    fn begin(&mut self, width_px: f64, height_px: f64, _dpr: f64, _paper: &str) {
        self.size = (width_px, height_px);
    }

    fn path(&mut self) {
        self.parts.clear();
    }

    fn move_to(&mut self, p: Point) {
        self.check(&[p.x, p.y]);
        self.from = p;
        self.start = p;
    }

    fn line_to(&mut self, p: Point) {
        self.check(&[p.x, p.y]);
        self.parts.push((self.from, p));
        self.from = p;
    }

    fn curve_to(&mut self, c: Point, p: Point) {
        self.check(&[c.x, c.y]);
        let a = self.from;
        let mut last = a;
        for i in 1..=8 {
            let u = f64::from(i) / 8.0;
            let mix = |a: f64, c: f64, p: f64| {
                (1.0 - u) * (1.0 - u) * a + 2.0 * u * (1.0 - u) * c + u * u * p
            };
            let next = at(mix(a.x, c.x, p.x), mix(a.y, c.y, p.y));
            self.parts.push((last, next));
            last = next;
        }
        self.check(&[p.x, p.y]);
        self.from = p;
    }

    fn circle(&mut self, centre: Point, radius_px: f64) {
        self.check(&[centre.x, centre.y, radius_px]);
        self.rect(Rect {
            x: centre.x - radius_px,
            y: centre.y - radius_px,
            w: 2.0 * radius_px,
            h: 2.0 * radius_px,
        });
    }

    fn rect(&mut self, r: Rect) {
        self.check(&[r.x, r.y, r.w, r.h]);
        let corners = [
            at(r.x, r.y),
            at(r.right(), r.y),
            at(r.right(), r.bottom()),
            at(r.x, r.bottom()),
        ];
        for i in 0..4 {
            self.parts.push((corners[i], corners[(i + 1) % 4]));
        }
    }

    fn close(&mut self) {
        self.parts.push((self.from, self.start));
        self.from = self.start;
    }

    fn fill(&mut self, _colour: &str) {}

    fn stroke(&mut self, colour: &str, width_px: f64, dash: &[f64]) {
        self.check(&[width_px]);
        self.check(dash);
        self.strokes.push(Stroked {
            parts: self.parts.clone(),
            colour: colour.to_owned(),
            hatch: self.hatching,
        });
    }

    fn hatching(&mut self, on: bool) {
        self.hatching = on;
    }

    fn clip(&mut self) {
        self.clips += 1;
    }

    fn unclip(&mut self) {
        self.clips = self.clips.saturating_sub(1);
    }

    fn text(&mut self, text: &str, p: Point, align: Align, face: Face, _colour: &str) {
        self.check(&[p.x, p.y]);
        let w = self.text_width(text, face);
        let x = match align {
            Align::Left => p.x,
            Align::Centre => p.x - 0.5 * w,
            Align::Right => p.x - w,
        };
        self.texts.push(Written {
            text: text.to_owned(),
            area: Rect {
                x,
                y: p.y - 0.5 * face.size_px,
                w,
                h: face.size_px,
            },
        });
    }

    /// A wide face: no common one is wider on average.
    fn text_width(&self, text: &str, face: Face) -> f64 {
        0.6 * face.size_px * text.chars().count() as f64
    }
}
