//! The drawing surface over the browser's two-dimensional canvas context.

use core::cell::{Cell, RefCell};
use core::f64::consts::TAU;

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use footroom_core::case::Case;

use super::SceneView;
use super::surface::{Align, Face, Point, Rect, Surface};
use super::theme::Theme;
use crate::format::{Lang, Units, number};

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

/// Most widths of texts that are kept: some times those of a drawing.
const WIDTHS_MAX: usize = 200;

/// What the canvas of a back shows.
#[derive(Debug, PartialEq)]
struct Shown {
    case: Case,
    solved: bool,
    theme: Theme,
    words: (Lang, Units),
    size: [f64; 3],
}

/// What is kept from one drawing to the next: what the back shows, widths of texts, the theme.
#[derive(Debug, Default)]
pub struct Kept {
    shown: Option<Shown>,
    widths: RefCell<Vec<(String, Face, f64)>>,
    theme: Option<(JsValue, Theme)>,
}

impl Kept {
    /// The theme that an object of the page says, read once an object.
    pub fn theme(&mut self, object: &JsValue) -> Theme {
        match &self.theme {
            Some((known, theme)) if known == object => theme.clone(),
            _ => {
                let theme = Theme::from_js(object);
                self.theme = Some((object.clone(), theme.clone()));
                self.widths.get_mut().clear();
                theme
            }
        }
    }

    /// Whether the back shows what a drawing needs; from now on it does.
    fn is_shown(&mut self, view: &SceneView<'_>) -> bool {
        let solved = view.outcome.is_some();
        let words = (view.lang, view.units);
        let size = [view.width_px, view.height_px, view.dpr];
        if let Some(s) = &self.shown
            && (s.solved, s.words, s.size) == (solved, words, size)
            && s.theme == *view.theme
            && s.case == *view.case
        {
            return true;
        }
        self.shown = Some(Shown {
            case: view.case.clone(),
            solved,
            theme: view.theme.clone(),
            words,
            size,
        });
        false
    }
}

/// The canvas on which the back of a drawing stands.
struct Back<'a> {
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    kept: &'a Kept,
    shown: bool,
}

/// A canvas context with the last settings remembered, so that a repeated one costs no call.
pub struct CanvasSurface<'a> {
    /// Where it draws now: the sheet, or its back.
    context: CanvasRenderingContext2d,
    family: &'a str,
    fill: String,
    stroke: String,
    width_px: f64,
    dash: Vec<f64>,
    face: Cell<Option<Face>>,
    back: Option<Back<'a>>,
    dpr: f64,
    /// What is drawn stands on the back already.
    muted: bool,
}

impl<'a> CanvasSurface<'a> {
    /// Draws through `context` in the type face `family`.
    pub fn new(context: &CanvasRenderingContext2d, family: &'a str) -> Self {
        Self {
            context: context.clone(),
            family,
            fill: String::new(),
            stroke: String::new(),
            width_px: f64::NAN,
            dash: Vec::new(),
            face: Cell::new(None),
            back: None,
            dpr: 1.0,
            muted: false,
        }
    }

    /// Keeps the back of the drawing on a canvas of its own, and copies it from there as long as
    /// the view stays the same but for its instant.
    pub fn keeping(
        mut self,
        canvas: HtmlCanvasElement,
        kept: &'a mut Kept,
        view: &SceneView<'_>,
    ) -> Self {
        let context = prepare(&canvas, view.width_px, view.height_px, view.dpr);
        let shown = kept.is_shown(view);
        self.back = context.map(|context| Back {
            canvas,
            context,
            kept,
            shown,
        });
        self
    }

    /// Sets a context up as every drawing begins.
    fn start(&mut self) {
        self.forget();
        // The context refuses only values that are not finite; then the old transform stays.
        let _ = self
            .context
            .set_transform(self.dpr, 0.0, 0.0, self.dpr, 0.0, 0.0);
        self.context.set_line_cap("round");
        self.context.set_line_join("round");
        self.context.set_text_baseline("middle");
    }

    fn clear(&self, width_px: f64, height_px: f64, paper: &str) {
        self.context.set_fill_style_str(paper);
        self.context.fill_rect(0.0, 0.0, width_px, height_px);
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
        self.dpr = dpr;
        let Some(back) = &mut self.back else {
            self.start();
            self.clear(width_px, height_px, paper);
            return;
        };
        // The sheet is covered when the back is copied.
        if !back.shown {
            core::mem::swap(&mut self.context, &mut back.context);
            self.start();
            self.clear(width_px, height_px, paper);
            if let Some(back) = &mut self.back {
                core::mem::swap(&mut self.context, &mut back.context);
            }
        }
        self.start();
    }

    fn begin_back(&mut self) {
        let Some(back) = &mut self.back else {
            return;
        };
        self.muted = back.shown;
        if !self.muted {
            core::mem::swap(&mut self.context, &mut back.context);
            self.forget();
        }
    }

    fn end_back(&mut self) {
        let Some(back) = &mut self.back else {
            return;
        };
        if !self.muted {
            core::mem::swap(&mut self.context, &mut back.context);
        }
        self.muted = false;
        // Pixel by pixel. What cannot be copied is a canvas without size: then there is nothing.
        let _ = self.context.set_transform(1.0, 0.0, 0.0, 1.0, 0.0, 0.0);
        let _ = self
            .context
            .draw_image_with_html_canvas_element(&back.canvas, 0.0, 0.0);
        let _ = self
            .context
            .set_transform(self.dpr, 0.0, 0.0, self.dpr, 0.0, 0.0);
        self.forget();
    }

    fn path(&mut self) {
        if !self.muted {
            self.context.begin_path();
        }
    }

    fn move_to(&mut self, p: Point) {
        if self.muted {
            return;
        }
        self.context.move_to(p.x, p.y);
    }

    fn line_to(&mut self, p: Point) {
        if self.muted {
            return;
        }
        self.context.line_to(p.x, p.y);
    }

    fn curve_to(&mut self, c: Point, p: Point) {
        if self.muted {
            return;
        }
        self.context.quadratic_curve_to(c.x, c.y, p.x, p.y);
    }

    fn circle(&mut self, centre: Point, radius_px: f64) {
        if self.muted {
            return;
        }
        self.context.move_to(centre.x + radius_px, centre.y);
        // A negative radius is the only refusal, and then there is no circle to draw.
        let _ = self
            .context
            .arc(centre.x, centre.y, radius_px.max(0.0), 0.0, TAU);
    }

    fn rect(&mut self, r: Rect) {
        if self.muted {
            return;
        }
        self.context.rect(r.x, r.y, r.w, r.h);
    }

    fn close(&mut self) {
        if self.muted {
            return;
        }
        self.context.close_path();
    }

    fn fill(&mut self, colour: &str) {
        if self.muted {
            return;
        }
        if self.fill != colour {
            self.context.set_fill_style_str(colour);
            self.fill.replace_range(.., colour);
        }
        self.context.fill();
    }

    fn stroke(&mut self, colour: &str, width_px: f64, dash: &[f64]) {
        if self.muted {
            return;
        }
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
        if self.muted {
            return;
        }
        self.context.save();
        self.context.clip();
    }

    fn unclip(&mut self) {
        if self.muted {
            return;
        }
        self.context.restore();
        self.forget();
    }

    fn text(&mut self, text: &str, p: Point, align: Align, face: Face, colour: &str) {
        if self.muted {
            return;
        }
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
        let kept = self.back.as_ref().map(|back| &back.kept.widths);
        if let Some(kept) = kept
            && let Some((.., width)) = kept
                .borrow()
                .iter()
                .find(|(known, of, _)| known == text && *of == face)
        {
            return *width;
        }
        self.set_face(face);
        let width = self
            .context
            .measure_text(text)
            .map_or(0.6 * face.size_px * text.chars().count() as f64, |m| {
                m.width()
            });
        if let Some(mut kept) = kept.map(|kept| kept.borrow_mut()) {
            if kept.len() >= WIDTHS_MAX {
                kept.clear();
            }
            kept.push((text.to_owned(), face, width));
        }
        width
    }
}
