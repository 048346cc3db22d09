//! The planner for the page's scripts: what takes many runs, made in a worker beside the page.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};

use super::{across_of, language_of, misuse, object, units_of};
use crate::page::fit::search::Search;
use crate::page::planner;

#[wasm_bindgen]
extern "C" {
    /// [`crate::page::fit::map::MapCell`].
    #[wasm_bindgen(typescript_type = "MapCell | null")]
    pub type JsMapCell;
    /// [`crate::page::fit::search::Searched`].
    #[wasm_bindgen(typescript_type = "Searched | null")]
    pub type JsSearched;
    /// [`crate::page::fit::anywhere::Looked`].
    #[wasm_bindgen(typescript_type = "Looked | null")]
    pub type JsLooked;
    /// [`crate::page::fit::ask::AnsweredQuestion`].
    #[wasm_bindgen(typescript_type = "AnsweredQuestion | null")]
    pub type JsAnsweredQuestion;
    /// Numbers, or [`planner::GoesOn`].
    #[wasm_bindgen(typescript_type = "Float64Array | { done: boolean }")]
    pub type JsAnswered;
    /// [`crate::page::fit::suggest::Suggested`].
    #[wasm_bindgen(typescript_type = "Suggested | null")]
    pub type JsSuggested;
    /// [`crate::page::explain::why::WhyView`].
    #[wasm_bindgen(typescript_type = "WhyView | null")]
    pub type JsWhy;
    /// [`crate::page::explain::learn::Lesson`].
    #[wasm_bindgen(typescript_type = "Lesson | null")]
    pub type JsLesson;
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

    /// Goes on looking for the worst anywhere on the line. Null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn anywhere(&mut self) -> Result<JsLooked, JsError> {
        Ok(object(&self.inner.anywhere())?.into())
    }

    /// Falls drawn within the tolerances, from one on, as `Page.spread` takes them: three numbers each.
    pub fn spread_falls(&mut self, seed: u32, from: u32, count: u32) -> Vec<f64> {
        self.inner.spread_falls(seed, from, count)
    }

    /// Goes on with the whole answer: its numbers, as `Page.take_beside` takes them, once it is done.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn answered(&mut self) -> Result<JsAnswered, JsError> {
        Ok(match self.inner.answered() {
            Some(numbers) => JsValue::from(js_sys::Float64Array::from(numbers.as_slice())),
            None => object(&planner::GoesOn { done: false })?,
        }
        .into())
    }

    /// What uses an absorber up in the case, as `Page.take_beside` takes it.
    pub fn used_up(&self, focus: usize) -> Vec<f64> {
        self.inner.used_up(focus)
    }

    /// The answer to an inverse question by its place; null when it does not apply.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn answer(&self, place: usize) -> Result<JsAnsweredQuestion, JsError> {
        Ok(object(&self.inner.answer(place))?.into())
    }

    /// Goes on looking for changes that make the case fit; null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn suggested(&mut self) -> Result<JsSuggested, JsError> {
        Ok(object(&self.inner.suggested())?.into())
    }

    /// The case as a layout of a comparison, as `Page.shelf_take_in` takes it.
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
