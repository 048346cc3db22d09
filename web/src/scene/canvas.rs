//! The drawing surface over the browser's two-dimensional canvas context.

use core::f64::consts::TAU;

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use super::surface::{Align, Face, Point, Rect, Surface};
use crate::format::{Lang, number};

/// Most device pixels of a side of a canvas; browsers refuse much larger ones.
const SIDE_MAX_PX: f64 = 8_192.0;

/// Sets a canvas to `css_width` × `css_height` CSS px at `dpr` device px each, and gives its
/// context with nothing drawn yet; `None` when the browser gives no context.
pub fn prepare(
    canvas: &HtmlCanvasElement,
    css_width: f64,
    css_height: f64,
    dpr: f64,
) -> Option<CanvasRenderingContext2d> {
    let side = |css: f64| {
        let px = (css * dpr).round();
        if px.is_finite() {
            px.clamp(1.0, SIDE_MAX_PX) as u32
        } else {
            1
        }
    };
    let (width, height) = (side(css_width), side(css_height));
    // Setting a size clears the canvas even when it stays the same.
    if canvas.width() != width {
        canvas.set_width(width);
    }
    if canvas.height() != height {
        canvas.set_height(height);
    }
    let context = canvas.get_context("2d").ok()??;
    context.dyn_into::<CanvasRenderingContext2d>().ok()
}

/// A canvas context with the last settings remembered, so that a repeated one costs no call.
pub struct CanvasSurface<'a> {
    context: &'a CanvasRenderingContext2d,
    family: &'a str,
    fill: String,
    stroke: String,
    width_px: f64,
    dash: Vec<f64>,
    face: core::cell::Cell<Option<Face>>,
}

impl<'a> CanvasSurface<'a> {
    /// Draws through `context` in the type face `family`.
    pub fn new(context: &'a CanvasRenderingContext2d, family: &'a str) -> Self {
        Self {
            context,
            family,
            fill: String::new(),
            stroke: String::new(),
            width_px: f64::NAN,
            dash: Vec::new(),
            face: core::cell::Cell::new(None),
        }
    }

    fn set_face(&self, face: Face) {
        if self.face.get() != Some(face) {
            let weight = if face.bold { 650 } else { 400 };
            self.context.set_font(&format!(
                "{weight} {}px {}",
                number(Lang::En, face.size_px, 2),
                self.family
            ));
            self.face.set(Some(face));
        }
    }

    /// A restored context has its old settings again, so nothing remembered holds.
    fn forget(&mut self) {
        self.fill.clear();
        self.stroke.clear();
        self.width_px = f64::NAN;
        self.dash.clear();
        self.dash.push(f64::NAN);
        self.face.set(None);
    }
}

impl Surface for CanvasSurface<'_> {
    fn begin(&mut self, width_px: f64, height_px: f64, dpr: f64, paper: &str) {
        self.forget();
        // The context refuses only values that are not finite; then the old transform stays.
        let _ = self.context.set_transform(dpr, 0.0, 0.0, dpr, 0.0, 0.0);
        self.context.set_line_cap("round");
        self.context.set_line_join("round");
        self.context.set_text_baseline("middle");
        self.context.set_fill_style_str(paper);
        self.context.fill_rect(0.0, 0.0, width_px, height_px);
    }

    fn path(&mut self) {
        self.context.begin_path();
    }

    fn move_to(&mut self, p: Point) {
        self.context.move_to(p.x, p.y);
    }

    fn line_to(&mut self, p: Point) {
        self.context.line_to(p.x, p.y);
    }

    fn curve_to(&mut self, c: Point, p: Point) {
        self.context.quadratic_curve_to(c.x, c.y, p.x, p.y);
    }

    fn circle(&mut self, centre: Point, radius_px: f64) {
        self.context.move_to(centre.x + radius_px, centre.y);
        // A negative radius is the only refusal, and then there is no circle to draw.
        let _ = self
            .context
            .arc(centre.x, centre.y, radius_px.max(0.0), 0.0, TAU);
    }

    fn rect(&mut self, r: Rect) {
        self.context.rect(r.x, r.y, r.w, r.h);
    }

    fn close(&mut self) {
        self.context.close_path();
    }

    fn fill(&mut self, colour: &str) {
        if self.fill != colour {
            self.context.set_fill_style_str(colour);
            self.fill.replace_range(.., colour);
        }
        self.context.fill();
    }

    fn stroke(&mut self, colour: &str, width_px: f64, dash: &[f64]) {
        if self.stroke != colour {
            self.context.set_stroke_style_str(colour);
            self.stroke.replace_range(.., colour);
        }
        if self.width_px != width_px {
            self.context.set_line_width(width_px);
            self.width_px = width_px;
        }
        if self.dash != dash {
            let lengths: js_sys::Array = dash.iter().map(|&d| JsValue::from_f64(d)).collect();
            // Refused only for values that no pattern here has.
            let _ = self.context.set_line_dash(&lengths);
            self.dash.clear();
            self.dash.extend_from_slice(dash);
        }
        self.context.stroke();
    }

    fn clip(&mut self) {
        self.context.save();
        self.context.clip();
    }

    fn unclip(&mut self) {
        self.context.restore();
        self.forget();
    }

    fn text(&mut self, text: &str, p: Point, align: Align, face: Face, colour: &str) {
        self.set_face(face);
        self.context.set_text_align(match align {
            Align::Left => "left",
            Align::Centre => "center",
            Align::Right => "right",
        });
        if self.fill != colour {
            self.context.set_fill_style_str(colour);
            self.fill.replace_range(.., colour);
        }
        // Fails only when the canvas has no memory left; the page then has other troubles.
        let _ = self.context.fill_text(text, p.x, p.y);
    }

    fn text_width(&self, text: &str, face: Face) -> f64 {
        self.set_face(face);
        self.context
            .measure_text(text)
            .map_or(0.6 * face.size_px * text.chars().count() as f64, |m| {
                m.width()
            })
    }
}
