//! The drawing surface over the browser's two-dimensional canvas context.

use core::cell::{Cell, RefCell};

use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use footroom_core::case::Case;

use super::layout::Window;
use super::surface::{Align, Face, Point, Rect, Surface};
use super::theme::Theme;
use super::{Added, SceneView};
use crate::say::format::{Lang, Units, number};

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
    whose: (Option<usize>, Option<Added>),
    type_px: Option<f64>,
    window: Option<Window>,
}

/// Whether two texts are as wide as each other without being measured: digits have one width.
fn is_alike(a: &str, b: &str) -> bool {
    let digits = |x: u8, y: u8| x.is_ascii_digit() && y.is_ascii_digit();
    a.len() == b.len()
        && a.bytes()
            .zip(b.bytes())
            .all(|(x, y)| x == y || digits(x, y))
}

/// What is kept from one drawing to the next: what the back shows, widths of texts, the theme.
#[derive(Debug, Default)]
pub struct Kept {
    shown: Option<Shown>,
    state: Cell<bool>,
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
                // What stood on the back may be gone, too.
                self.shown = None;
                theme
            }
        }
    }

    /// Whether the back shows what a drawing needs; from now on it does.
    fn is_shown(&mut self, view: &SceneView<'_>) -> bool {
        let solved = view.outcome.is_some();
        let words = (view.lang, view.units);
        let size = [view.width_px, view.height_px, view.dpr];
        let whose = (view.focus, view.tolerance);
        if let Some(s) = &self.shown
            && (s.solved, s.words, s.size) == (solved, words, size)
            && (s.whose, s.type_px, s.window) == (whose, view.type_px, view.window)
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
            whose,
            type_px: view.type_px,
            window: view.window,
        });
        false
    }
}

/// What can stand in the list that `replay.js` draws, with the numbers behind it.
#[derive(Clone, Copy)]
enum Instruction {
    /// A new path.
    Path,
    /// x, y.
    Move,
    /// x, y.
    Line,
    /// Control point, end.
    Curve,
    /// Centre, radius.
    Circle,
    /// x, y, width, height.
    Rect,
    Close,
    /// Colour.
    Fill,
    /// Colour, width, number of dashes, dashes.
    Stroke,
    Clip,
    Unclip,
    /// Text, x, y, alignment, size (negative: bold), colour.
    Text,
    /// Colour, width, height.
    Clear,
    /// Nothing: the back is copied.
    Copy,
}

#[wasm_bindgen(module = "/src/first/scene/replay.js")]
extern "C" {
    fn replay(
        context: &CanvasRenderingContext2d,
        ratio: f64,
        list: &[f64],
        words: &str,
        back: Option<&HtmlCanvasElement>,
    );
}

/// The canvas on which the back of a drawing stands.
struct Back<'a> {
    canvas: HtmlCanvasElement,
    size_px: [f64; 2],
    kept: &'a Kept,
    shown: bool,
}

/// Records a drawing, and draws it on a canvas when it is dropped: a call of the canvas costs
/// half as much again from here as from a script.
pub struct CanvasSurface<'a> {
    context: CanvasRenderingContext2d,
    list: Vec<f64>,
    /// What the list names, the type face first.
    words: Vec<String>,
    /// Where the present path begins in the list; `None`: it is filled, or limits.
    path: Option<usize>,
    /// Where the list ended after the latest stroke.
    stroked: Option<usize>,
    measured: Cell<Option<Face>>,
    back: Option<Back<'a>>,
    dpr: f64,
    /// What is drawn stands on the back already.
    muted: bool,
}

impl<'a> CanvasSurface<'a> {
    /// Draws through `context` in the type face `family`.
    pub fn new(context: &CanvasRenderingContext2d, family: &str) -> Self {
        Self {
            context: context.clone(),
            list: Vec::new(),
            words: vec![family.to_owned()],
            path: None,
            stroked: None,
            measured: Cell::new(None),
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
        let shown = kept.is_shown(view);
        self.back = Some(Back {
            canvas,
            size_px: [view.width_px, view.height_px],
            kept,
            shown,
        });
        self
    }

    fn put(&mut self, entry: Instruction, numbers: &[f64]) {
        if !self.muted {
            self.list.push(f64::from(entry as u8));
            self.list.extend_from_slice(numbers);
        }
    }

    /// The place of a word among those that the list names.
    fn word(&mut self, word: &str) -> f64 {
        let known = self.words.iter().position(|w| w == word);
        known.unwrap_or_else(|| {
            // A line each: a break in a name is a space.
            let line = |c| if c == '\n' { ' ' } else { c };
            self.words.push(word.chars().map(line).collect());
            self.words.len() - 1
        }) as f64
    }
}

/// When the stroke that begins at `stroke` is the same as the one before its `path`, takes that one
/// out: both are one path, stroked once.
fn join(list: &mut Vec<f64>, path: Option<usize>, stroke: usize) {
    let length = list.len() - stroke;
    if let Some(path) = path
        && path >= length
        && list[path - length..path] == list[stroke..]
    {
        list.drain(path - length..=path);
    }
}

impl Drop for CanvasSurface<'_> {
    fn drop(&mut self) {
        let back = self.back.as_ref().map(|back| &back.canvas);
        let words = self.words.join("\n");
        replay(&self.context, self.dpr, &self.list, &words, back);
    }
}

impl Surface for CanvasSurface<'_> {
    fn begin(&mut self, width_px: f64, height_px: f64, dpr: f64, paper: &str) {
        self.dpr = dpr;
        let paper = self.word(paper);
        self.put(Instruction::Clear, &[paper, width_px, height_px]);
    }

    fn begin_back(&mut self, state: bool) {
        let shown = |back: &Back<'_>| back.kept.state.replace(state) == state && back.shown;
        self.muted = self.back.as_ref().is_some_and(shown);
    }

    fn end_back(&mut self) {
        let Some(back) = &self.back else {
            return;
        };
        if !self.muted {
            let [width_px, height_px] = back.size_px;
            let words = self.words.join("\n");
            if let Some(context) = prepare(&back.canvas, width_px, height_px, self.dpr) {
                replay(&context, self.dpr, &self.list, &words, None);
            }
        }
        self.muted = false;
        // The back covers the sheet, which need not be cleared.
        self.list.clear();
        self.stroked = None;
        self.put(Instruction::Copy, &[]);
    }

    fn path(&mut self) {
        self.path = Some(self.list.len());
        self.put(Instruction::Path, &[]);
    }

    fn move_to(&mut self, p: Point) {
        self.put(Instruction::Move, &[p.x, p.y]);
    }

    fn line_to(&mut self, p: Point) {
        self.put(Instruction::Line, &[p.x, p.y]);
    }

    fn curve_to(&mut self, c: Point, p: Point) {
        self.put(Instruction::Curve, &[c.x, c.y, p.x, p.y]);
    }

    fn circle(&mut self, centre: Point, radius_px: f64) {
        self.put(
            Instruction::Circle,
            &[centre.x, centre.y, radius_px.max(0.0)],
        );
    }

    fn rect(&mut self, r: Rect) {
        self.put(Instruction::Rect, &[r.x, r.y, r.w, r.h]);
    }

    fn close(&mut self) {
        self.put(Instruction::Close, &[]);
    }

    fn fill(&mut self, colour: &str) {
        self.path = None;
        let colour = self.word(colour);
        self.put(Instruction::Fill, &[colour]);
    }

    fn stroke(&mut self, colour: &str, width_px: f64, dash: &[f64]) {
        if self.muted {
            return;
        }
        let begin = self.list.len();
        let colour = self.word(colour);
        self.put(Instruction::Stroke, &[colour, width_px, dash.len() as f64]);
        self.list.extend_from_slice(dash);
        if self.stroked == self.path {
            join(&mut self.list, self.path, begin);
        }
        self.stroked = Some(self.list.len());
    }

    fn clip(&mut self) {
        self.path = None;
        self.put(Instruction::Clip, &[]);
    }

    fn unclip(&mut self) {
        self.put(Instruction::Unclip, &[]);
    }

    fn text(&mut self, text: &str, p: Point, align: Align, face: Face, colour: &str) {
        if self.muted {
            return;
        }
        let text = self.word(text);
        let colour = self.word(colour);
        let size_px = if face.bold {
            -face.size_px
        } else {
            face.size_px
        };
        let align = f64::from(align as u8);
        self.put(Instruction::Text, &[text, p.x, p.y, align, size_px, colour]);
    }

    fn text_width(&self, text: &str, face: Face) -> f64 {
        let kept = self.back.as_ref().map(|back| &back.kept.widths);
        if let Some(kept) = kept
            && let Some((.., width)) = kept
                .borrow()
                .iter()
                .find(|(known, of, _)| *of == face && is_alike(known, text))
        {
            return *width;
        }
        if self.measured.get() != Some(face) {
            let weight = if face.bold { 650 } else { 400 };
            let size_px = number(face.size_px, 2);
            self.context
                .set_font(&format!("{weight} {size_px}px {}", self.words[0]));
            self.measured.set(Some(face));
        }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strokes_alike_become_one_and_others_stay() {
        let [path, line, stroke] =
            [Instruction::Path, Instruction::Line, Instruction::Stroke].map(|e| e as u8);
        let [path, line, stroke] = [path, line, stroke].map(f64::from);
        let first = [path, line, 1.0, 2.0, stroke, 3.0, 1.5, 1.0, 4.0];
        let drawn = |width: f64, dash: f64| {
            let mut list = first.to_vec();
            list.extend([path, line, 5.0, 6.0, stroke, 3.0, width, 1.0, dash]);
            join(&mut list, Some(first.len()), first.len() + 4);
            list
        };
        let one = [
            path, line, 1.0, 2.0, line, 5.0, 6.0, stroke, 3.0, 1.5, 1.0, 4.0,
        ];
        assert_eq!(drawn(1.5, 4.0), one);
        assert_eq!(drawn(1.6, 4.0).len(), 18);
        assert_eq!(drawn(1.5, 4.1).len(), 18);
        // A path that has been filled stays apart.
        let mut filled = first.repeat(2);
        join(&mut filled, None, first.len() + 4);
        assert_eq!(filled, first.repeat(2));
    }

    #[test]
    fn numbers_of_a_shape_are_as_wide_as_each_other() {
        assert!(is_alike("line 25.6 kN", "line 10.9 kN"));
        assert!(!is_alike("9.6 kN", "10.9 kN"));
        assert!(!is_alike("1.20 m", "1.20 s"));
        assert!(!is_alike("1.20", "1,20"));
    }
}
