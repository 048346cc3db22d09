//! The drawing surface that writes scalable vector graphics, for paper and for files.
//!
//! The text it makes has no style attribute and no script, so that it stands in a page under its
//! policy, and in any program that reads SVG 1.1.

use core::fmt::Write;

use super::surface::{Align, Face, Point, Rect, Surface};
use super::theme::Theme;

/// Family of the type face on paper and in files.
pub const FONT: &str = "Helvetica, Arial, 'Liberation Sans', sans-serif";

/// Black on white: everything is told apart by its pattern.
pub fn ink_only() -> Theme {
    let [black, grey, white] = ["#000", "#444", "#fff"].map(str::to_owned);
    Theme {
        ink: black.clone(),
        paper: white.clone(),
        line: black.clone(),
        absorber: black.clone(),
        below: white.clone(),
        person: black.clone(),
        margin: white.clone(),
        accent: black.clone(),
        muted: grey,
        warning: black,
        concrete: white,
        font: FONT.to_owned(),
    }
}

/// Width of a text without a browser to measure it, px: wide rather than narrow.
pub fn estimated_width(text: &str, face: Face) -> f64 {
    let em: f64 = text
        .chars()
        .map(|c| match c {
            'i' | 'j' | 'l' | 't' | 'f' | 'I' | ' ' | '.' | ',' | ':' | ';' | '\'' | '/' | '('
            | ')' => 0.36,
            'm' | 'w' | 'M' | 'W' | '—' => 0.95,
            'A'..='Z' => 0.72,
            _ => 0.6,
        })
        .sum();
    em * face.size_px * if face.bold { 1.06 } else { 1.0 }
}

/// Measures a text in a face, px.
pub type Measure<'a> = &'a dyn Fn(&str, Face) -> f64;

/// A surface that collects elements.
pub struct SvgSurface<'a> {
    measure: Measure<'a>,
    name: &'a str,
    out: String,
    path: String,
    clips: usize,
    open: usize,
}

impl<'a> SvgSurface<'a> {
    /// `name` tells the drawing apart from others in one page; `words` say what it shows.
    pub fn new(
        measure: Measure<'a>,
        name: &'a str,
        width_px: f64,
        height_px: f64,
        words: &str,
    ) -> Self {
        let mut out =
            String::from("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 ");
        push_number(&mut out, width_px);
        out.push(' ');
        push_number(&mut out, height_px);
        out.push_str("\" font-family=\"");
        out.push_str(FONT);
        out.push_str("\" stroke-linecap=\"round\" stroke-linejoin=\"round\"><title>");
        escape(&mut out, words);
        out.push_str("</title>");
        Self {
            measure,
            name,
            out,
            path: String::new(),
            clips: 0,
            open: 0,
        }
    }

    /// The whole drawing.
    pub fn finish(mut self) -> String {
        for _ in 0..self.open {
            self.out.push_str("</g>");
        }
        self.out.push_str("</svg>");
        self.out
    }

    fn step(&mut self, command: char, points: &[Point]) {
        self.path.push(command);
        for (i, p) in points.iter().enumerate() {
            if i > 0 {
                self.path.push(' ');
            }
            push_number(&mut self.path, p.x);
            self.path.push(' ');
            push_number(&mut self.path, p.y);
        }
    }
}

/// A coordinate to a tenth of a pixel; what is not finite becomes 0.
fn push_number(out: &mut String, value: f64) {
    let tenths = if value.is_finite() {
        (value * 10.0).round().clamp(-1.0e9, 1.0e9) as i64
    } else {
        0
    };
    if tenths < 0 {
        out.push('-');
    }
    let (whole, part) = (tenths.abs() / 10, tenths.abs() % 10);
    // Writing to a string cannot fail.
    let _ = write!(out, "{whole}");
    if part > 0 {
        let _ = write!(out, ".{part}");
    }
}

/// Writes a text with what has a meaning in XML escaped, and without what cannot stand in it.
fn escape(out: &mut String, text: &str) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            _ => out.push(c),
        }
    }
}

impl Surface for SvgSurface<'_> {
    fn begin(&mut self, width_px: f64, height_px: f64, _dpr: f64, paper: &str) {
        self.path();
        self.rect(Rect {
            x: 0.0,
            y: 0.0,
            w: width_px,
            h: height_px,
        });
        self.fill(paper);
    }

    fn path(&mut self) {
        self.path.clear();
    }

    fn move_to(&mut self, p: Point) {
        self.step('M', &[p]);
    }

    fn line_to(&mut self, p: Point) {
        self.step('L', &[p]);
    }

    fn curve_to(&mut self, c: Point, p: Point) {
        self.step('Q', &[c, p]);
    }

    fn circle(&mut self, centre: Point, radius_px: f64) {
        let r = radius_px.max(0.0);
        self.step(
            'M',
            &[Point {
                x: centre.x - r,
                ..centre
            }],
        );
        for way in [2.0, -2.0] {
            self.path.push('a');
            for value in [r, r] {
                push_number(&mut self.path, value);
                self.path.push(' ');
            }
            self.path.push_str("0 1 0 ");
            push_number(&mut self.path, way * r);
            self.path.push_str(" 0");
        }
        self.path.push('z');
    }

    fn rect(&mut self, r: Rect) {
        self.step('M', &[Point { x: r.x, y: r.y }]);
        for (command, value) in [('H', r.right()), ('V', r.bottom()), ('H', r.x)] {
            self.path.push(command);
            push_number(&mut self.path, value);
        }
        self.path.push('z');
    }

    fn close(&mut self) {
        self.path.push('z');
    }

    fn fill(&mut self, colour: &str) {
        if self.path.is_empty() {
            return;
        }
        self.out.push_str("<path d=\"");
        self.out.push_str(&self.path);
        self.out.push_str("\" fill=\"");
        escape(&mut self.out, colour);
        self.out.push_str("\"/>");
    }

    fn stroke(&mut self, colour: &str, width_px: f64, dash: &[f64]) {
        if self.path.is_empty() || width_px <= 0.0 {
            return;
        }
        self.out.push_str("<path d=\"");
        self.out.push_str(&self.path);
        self.out.push_str("\" fill=\"none\" stroke=\"");
        escape(&mut self.out, colour);
        self.out.push_str("\" stroke-width=\"");
        push_number(&mut self.out, width_px);
        if !dash.is_empty() {
            self.out.push_str("\" stroke-dasharray=\"");
            for (i, &length) in dash.iter().enumerate() {
                if i > 0 {
                    self.out.push(' ');
                }
                push_number(&mut self.out, length);
            }
        }
        self.out.push_str("\"/>");
    }

    fn clip(&mut self) {
        self.clips += 1;
        self.open += 1;
        let (name, n) = (self.name, self.clips);
        let _ = write!(
            self.out,
            "<clipPath id=\"{name}-{n}\"><path d=\"{}\"/></clipPath><g clip-path=\"url(#{name}-{n})\">",
            self.path
        );
    }

    fn unclip(&mut self) {
        if self.open > 0 {
            self.open -= 1;
            self.out.push_str("</g>");
        }
    }

    fn text(&mut self, text: &str, p: Point, align: Align, face: Face, colour: &str) {
        self.out.push_str("<text x=\"");
        push_number(&mut self.out, p.x);
        self.out.push_str("\" y=\"");
        // From the middle of the type to its base line: 0.35 of the size in common faces.
        push_number(&mut self.out, p.y + 0.35 * face.size_px);
        self.out.push_str("\" font-size=\"");
        push_number(&mut self.out, face.size_px);
        self.out.push_str(match align {
            Align::Left => "",
            Align::Centre => "\" text-anchor=\"middle",
            Align::Right => "\" text-anchor=\"end",
        });
        if face.bold {
            self.out.push_str("\" font-weight=\"bold");
        }
        self.out.push_str("\" fill=\"");
        escape(&mut self.out, colour);
        self.out.push_str("\">");
        escape(&mut self.out, text);
        self.out.push_str("</text>");
    }

    fn text_width(&self, text: &str, face: Face) -> f64 {
        (self.measure)(text, face)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::scene::surface::at;

    fn drawn(task: impl FnOnce(&mut SvgSurface<'_>)) -> String {
        let mut surface = SvgSurface::new(&estimated_width, "t", 10.0, 20.5, "a \"b\" <c>");
        task(&mut surface);
        surface.finish()
    }

    /// Whether the text is one well-formed element: every tag closed in its order.
    fn well_formed(svg: &str) -> bool {
        let mut open: Vec<&str> = Vec::new();
        for tag in svg.split('<').skip(1) {
            let Some((tag, _)) = tag.split_once('>') else {
                return false;
            };
            if let Some(name) = tag.strip_prefix('/') {
                if open.pop() != Some(name) {
                    return false;
                }
            } else if !tag.ends_with('/') {
                open.push(tag.split(' ').next().unwrap_or_default());
            }
        }
        open.is_empty()
    }

    #[test]
    fn shapes_limits_and_texts_come_out_as_elements() {
        let svg = drawn(|s| {
            s.begin(10.0, 20.5, 1.0, "#fff");
            s.path();
            s.move_to(at(1.0, 2.25));
            s.curve_to(at(-3.0, 4.0), at(5.0, f64::NAN));
            s.close();
            s.clip();
            s.path();
            s.circle(at(5.0, 5.0), 2.0);
            s.stroke("#000", 1.5, &[4.0, 2.0]);
            s.text(
                "1 < 2 & 3",
                at(1.0, 1.0),
                Align::Right,
                Face {
                    size_px: 10.0,
                    bold: true,
                },
                "#000",
            );
        });
        assert!(well_formed(&svg), "{svg}");
        for part in [
            "viewBox=\"0 0 10 20.5\"",
            "<title>a &quot;b&quot; &lt;c&gt;</title>",
            "M1 2.3Q-3 4 5 0z",
            "clip-path=\"url(#t-1)\"",
            "stroke-dasharray=\"4 2\"",
            "text-anchor=\"end\"",
            "1 &lt; 2 &amp; 3</text>",
        ] {
            assert!(svg.contains(part), "{part} in {svg}");
        }
        assert!(!svg.contains("style=") && !svg.contains("NaN"));
    }

    #[test]
    fn a_limit_that_was_never_set_is_not_ended() {
        let svg = drawn(|s| s.unclip());
        assert!(well_formed(&svg), "{svg}");
    }
}
