//! The views that help to decide, for the page's scripts: what the page asks of the office, and
//! what a worker beside it asks of the planner.

use wasm_bindgen::prelude::{JsError, wasm_bindgen};

use super::office::Office;
use super::{language_of, misuse, object, units_of};
use crate::case_json;
use crate::decide::{ask, map, planner};

#[wasm_bindgen(typescript_custom_section)]
const SHAPES: &str = crate::decide::TYPESCRIPT;

#[wasm_bindgen]
extern "C" {
    /// [`map::MapHead`].
    #[wasm_bindgen(typescript_type = "MapHead | null")]
    pub type JsMapHead;
    /// [`map::MapCell`]s.
    #[wasm_bindgen(typescript_type = "MapCell[]")]
    pub type JsMapRow;
    /// [`ask::Asked`].
    #[wasm_bindgen(typescript_type = "Asked | null")]
    pub type JsAsked;
    /// [`crate::decide::suggest::Suggested`].
    #[wasm_bindgen(typescript_type = "Suggested | null")]
    pub type JsSuggested;
    /// [`crate::decide::why::WhyView`].
    #[wasm_bindgen(typescript_type = "WhyView | null")]
    pub type JsWhy;
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

    /// A row of the map, by all runs (`full`) or by two corners; empty when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn map_row(&self, row: usize, full: bool) -> Result<JsMapRow, JsError> {
        Ok(object(&self.inner.map_row(row, full))?.into())
    }

    /// The answer to an inverse question by its place; null when it does not apply.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn answer(&self, place: usize) -> Result<JsAsked, JsError> {
        Ok(object(&self.inner.answer(place))?.into())
    }

    /// Single changes that make the case fit; null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn suggested(&self) -> Result<JsSuggested, JsError> {
        Ok(object(&self.inner.suggested())?.into())
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
}
