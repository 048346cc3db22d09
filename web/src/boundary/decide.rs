//! The views that help to decide, for the page's scripts: what the page asks of the office, and
//! what a worker beside it asks of the planner.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::office::{JsTable, Office};
use super::{language_of, misuse, object, prepared, units_of};
use crate::first::scene::canvas::CanvasSurface;
use crate::first::scene::theme::Theme;
use crate::page::compare::shelf;
use crate::page::explain::learn;
use crate::page::fit::ask;
use crate::page::fit::map;
use crate::page::fit::search::Search;
use crate::page::fit::sweep::{Across, Sweep};
use crate::page::plan::chart_canvas;
use crate::page::planner;
use crate::say::faults::Voice;
use crate::wire::case_json;

#[wasm_bindgen(typescript_custom_section)]
const SHAPES: &str = crate::page::shapes::TYPESCRIPT;

#[wasm_bindgen]
extern "C" {
    /// [`map::MapHead`].
    #[wasm_bindgen(typescript_type = "MapHead | null")]
    pub type JsMapHead;
    /// [`map::MapCell`].
    #[wasm_bindgen(typescript_type = "MapCell | null")]
    pub type JsMapCell;
    /// [`crate::page::fit::search::Searched`].
    #[wasm_bindgen(typescript_type = "Searched | null")]
    pub type JsSearched;
    /// [`ask::AnsweredQuestion`].
    #[wasm_bindgen(typescript_type = "AnsweredQuestion | null")]
    pub type JsAnsweredQuestion;
    /// [`crate::page::fit::suggest::Suggested`].
    #[wasm_bindgen(typescript_type = "Suggested | null")]
    pub type JsSuggested;
    /// [`crate::page::explain::why::WhyView`].
    #[wasm_bindgen(typescript_type = "WhyView | null")]
    pub type JsWhy;
    /// [`learn::Lesson`].
    #[wasm_bindgen(typescript_type = "Lesson | null")]
    pub type JsLesson;
    /// [`shelf::Compared`].
    #[wasm_bindgen(typescript_type = "Compared")]
    pub type JsCompared;
}

fn across_of(key: &str) -> Result<Across, JsError> {
    Across::from_key(key).ok_or_else(|| misuse("chart: users, span, pretension, delay, drop"))
}

#[wasm_bindgen]
impl Office {
    /// What stands around the cells of the map; null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn map_head(&self) -> Result<JsMapHead, JsError> {
        let inner = &self.inner;
        Ok(object(&map::head(inner.voice(), inner.case()))?.into())
    }

    /// The text of a cell's case; empty when it cannot be built.
    pub fn map_case_text(&self, column: usize, row: usize) -> String {
        map::cell_case(self.inner.case(), column, row)
            .and_then(|case| case_json::to_text(&case))
            .unwrap_or_default()
    }

    fn sweep(&self, across: &str, points: &[f64]) -> Result<Sweep, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.case());
        Ok(Sweep::new(voice, case, across_of(across)?, points))
    }

    /// Number of points of a chart of what an input does: `users`, `span`, `pretension`, `delay`,
    /// `drop`.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn sweep_points(&self, across: &str) -> Result<usize, JsError> {
        Ok(across_of(across)?.values(self.inner.case()).len())
    }

    /// Name of a chart.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn sweep_title(&self, across: &str) -> Result<String, JsError> {
        Ok(self.sweep(across, &[])?.title().to_owned())
    }

    /// The points of a chart as a table. `points`: as the planner gave them, one after another.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn sweep_table(&self, across: &str, points: &[f64]) -> Result<JsTable, JsError> {
        Ok(object(&self.sweep(across, points)?.table())?.into())
    }

    /// A point of a chart in words.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn sweep_read(
        &self,
        across: &str,
        points: &[f64],
        place: usize,
    ) -> Result<String, JsError> {
        Ok(self.sweep(across, points)?.read(place))
    }

    /// Place of the point of the present case, else the first.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn sweep_start(&self, across: &str) -> Result<usize, JsError> {
        Ok(self.sweep(across, &[])?.start())
    }

    /// Place of the point nearest to `x_px` on a canvas `width_px` wide.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn sweep_nearest(&self, across: &str, x_px: f64, width_px: f64) -> Result<usize, JsError> {
        Ok(self.sweep(across, &[])?.nearest(x_px, width_px))
    }

    /// Draws a chart of what an input does, the point at `picked` picked out.
    ///
    /// # Errors
    /// There is no such chart, or the browser gives no context.
    #[allow(
        clippy::too_many_arguments,
        reason = "one call a drawing, plain numbers only"
    )]
    pub fn draw_sweep(
        &self,
        canvas: &HtmlCanvasElement,
        across: &str,
        points: &[f64],
        picked: usize,
        css_width: f64,
        css_height: f64,
        dpr: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let sweep = self.sweep(across, points)?;
        let context = prepared(canvas, css_width, css_height, dpr)?;
        let theme = Theme::from_js(theme);
        chart_canvas::draw_sweep(canvas, context, &sweep, &theme, dpr, Some(picked))
            .map_err(|fault| misuse(&fault))
    }

    /// Number of questions for trainees.
    pub fn lessons(&self) -> usize {
        learn::COUNT
    }

    /// A guess in words.
    pub fn learn_guess(&self, steps: i32) -> String {
        learn::guess(self.inner.voice(), steps)
    }

    /// A guess beside what it is.
    pub fn learn_result(&self, guess_steps: i32, to_steps: i32) -> String {
        learn::result(self.inner.voice(), guess_steps, to_steps)
    }

    /// Number of inverse questions.
    pub fn questions(&self) -> usize {
        ask::COUNT
    }
}

/// What takes many runs, for a worker beside the page.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Planner {
    inner: planner::Planner,
}

#[wasm_bindgen]
impl Planner {
    /// Takes the shown case of the desk as text, with the page's language and units.
    ///
    /// # Errors
    /// Another language, other units, or a text that is not the desk's.
    #[wasm_bindgen(constructor)]
    pub fn new(case_text: &str, language: &str, units: &str) -> Result<Planner, JsError> {
        let inner = planner::Planner::new(case_text, language_of(language)?, units_of(units)?);
        Ok(Self {
            inner: inner.ok_or_else(|| misuse("case: the text of a checked case"))?,
        })
    }

    /// A cell of the map, by all runs (`full`) or by two corners; null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn map_cell(
        &mut self,
        column: usize,
        row: usize,
        full: bool,
    ) -> Result<JsMapCell, JsError> {
        Ok(object(&self.inner.map_cell(column, row, full))?.into())
    }

    /// Makes a step of the search for the worst timing (`delay`) or the worst places (`places`). Null
    /// when there is no result.
    ///
    /// # Errors
    /// There is no such search.
    pub fn search(&mut self, what: &str) -> Result<JsSearched, JsError> {
        let what = Search::from_key(what).ok_or_else(|| misuse("search: delay, places"))?;
        Ok(object(&self.inner.search(what))?.into())
    }

    /// The answer to an inverse question by its place; null when it does not apply.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn answer(&self, place: usize) -> Result<JsAnsweredQuestion, JsError> {
        Ok(object(&self.inner.answer(place))?.into())
    }

    /// Single changes that make the case fit; null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn suggested(&self) -> Result<JsSuggested, JsError> {
        Ok(object(&self.inner.suggested())?.into())
    }

    /// The case as a layout of a comparison, as `Shelf.take_in` takes it.
    pub fn layout(&self) -> Vec<f64> {
        self.inner.layout()
    }

    /// A question for trainees by its place; null: there is none.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn lesson(&self, place: usize) -> Result<JsLesson, JsError> {
        Ok(object(&self.inner.lesson(place))?.into())
    }

    /// A point of a chart by its place, in two numbers: footroom, m, and why there is none.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn sweep_point(&self, across: &str, place: usize) -> Result<Vec<f64>, JsError> {
        Ok(self.inner.sweep_point(across_of(across)?, place).to_vec())
    }

    /// The steps from one user to all; null when there is only one, or no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn why_users(&self) -> Result<JsWhy, JsError> {
        Ok(object(&self.inner.why_users())?.into())
    }

    /// The steps from a kept case, given as text, to this one; null when one of them has none.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn why_kept(&self, kept: &str) -> Result<JsWhy, JsError> {
        Ok(object(&self.inner.why_kept(kept))?.into())
    }

    /// The steps from another layout, given as text, to this one, with both names; null when one of
    /// them has none.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn why_layouts(&self, from: &str, from_name: &str, name: &str) -> Result<JsWhy, JsError> {
        let why = self.inner.why_layouts(from, from_name, name);
        Ok(object(&why)?.into())
    }
}

/// Layouts side by side.
#[wasm_bindgen]
#[derive(Debug, Default)]
pub struct Shelf {
    inner: shelf::Shelf,
}

fn voice_of(language: &str, units: &str) -> Result<Voice, JsError> {
    Ok(Voice {
        lang: language_of(language)?,
        units: units_of(units)?,
    })
}

#[wasm_bindgen]
impl Shelf {
    /// An empty shelf.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        Self::default()
    }

    /// Puts up a set from its text, not yet solved. Gives nothing when it was taken, else what is wrong with it, in
    /// words; nothing is changed then.
    ///
    /// # Errors
    /// Another language, other units.
    pub fn open(
        &mut self,
        text: &str,
        language: &str,
        units: &str,
    ) -> Result<Option<String>, JsError> {
        let voice = voice_of(language, units)?;
        match shelf::Shelf::open(text) {
            Ok(shelf) => {
                self.inner = shelf;
                Ok(None)
            }
            Err(fault) => Ok(Some(shelf::set_fault(voice, &fault))),
        }
    }

    /// The set as text, for the browser's storage and for a link, without `#`; empty while layouts
    /// are waited for.
    pub fn text(&self) -> String {
        self.inner.text().unwrap_or_default()
    }

    /// Takes in what the planner found of a layout; false: it found nothing.
    pub fn take_in(&mut self, layout: usize, numbers: &[f64]) -> bool {
        self.inner.take_in(layout, numbers)
    }

    /// Why an address with this set is not to be sent, in words; nothing: it is short enough.
    ///
    /// # Errors
    /// Another language, other units.
    pub fn too_long(
        &self,
        address: &str,
        language: &str,
        units: &str,
    ) -> Result<Option<String>, JsError> {
        Ok(shelf::too_long(voice_of(language, units)?, address))
    }

    /// Adds a case, not yet solved; false when there is no room for it.
    pub fn add(&mut self, case_text: &str, name: &str) -> bool {
        self.inner.add(case_text, name).is_ok()
    }

    /// Takes a layout away.
    pub fn remove(&mut self, layout: usize) {
        self.inner.remove(layout);
    }

    /// The text of a layout's case; empty when there is none.
    pub fn case_text(&self, layout: usize) -> String {
        let case = self.inner.case(layout);
        case.and_then(case_json::to_text).unwrap_or_default()
    }

    /// What the page shows.
    ///
    /// # Errors
    /// Another language, other units.
    pub fn view(&self, language: &str, units: &str) -> Result<JsCompared, JsError> {
        Ok(object(&self.inner.view(voice_of(language, units)?))?.into())
    }

    /// The figures as CSV.
    ///
    /// # Errors
    /// Another language, other units.
    pub fn csv(&self, language: &str, units: &str) -> Result<String, JsError> {
        Ok(self.inner.csv(voice_of(language, units)?))
    }

    /// Height that every drawing takes at this width, CSS px.
    pub fn height_px(&self, width_px: f64) -> f64 {
        self.inner.height_px(width_px)
    }

    /// Draws a layout; all drawings have one scale.
    ///
    /// # Errors
    /// The browser gives no context.
    pub fn draw(
        &self,
        canvas: &HtmlCanvasElement,
        layout: usize,
        width_px: f64,
        dpr: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let context = prepared(canvas, width_px, self.height_px(width_px), dpr)?;
        let theme = Theme::from_js(theme);
        let mut surface = CanvasSurface::new(&context, &theme.font);
        let sheet = shelf::Sheet { width_px, dpr };
        self.inner.draw(&mut surface, &theme, layout, sheet);
        Ok(())
    }

    /// Draws all layouts with their figures as one picture.
    ///
    /// # Errors
    /// The browser gives no context; another language, other units.
    pub fn picture(
        &self,
        canvas: &HtmlCanvasElement,
        language: &str,
        units: &str,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        const DPR: f64 = 2.0;
        let voice = voice_of(language, units)?;
        let (width_px, height_px) = self.inner.picture_px();
        let context = prepared(canvas, width_px, height_px, DPR)?;
        let theme = Theme::from_js(theme);
        let mut surface = CanvasSurface::new(&context, &theme.font);
        self.inner.picture(&mut surface, voice, &theme, DPR);
        Ok(())
    }
}
