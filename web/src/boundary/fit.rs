//! What fits, charts of one input, and questions for trainees, for the page's scripts: what the page
//! itself makes of them. What takes many runs is the planner's.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::page::Page;
use super::plan::JsTable;
use super::{across_of, misuse, object, prepared};
use crate::first::scene::theme::Theme;
use crate::page::fit::ask;
use crate::page::fit::map;
use crate::page::fit::sweep::Sweep;
use crate::page::plan::chart_canvas;

#[wasm_bindgen]
extern "C" {
    /// [`map::MapHead`].
    #[wasm_bindgen(typescript_type = "MapHead | null")]
    pub type JsMapHead;
}

#[wasm_bindgen]
impl Page {
    /// What stands around the cells of the map; null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn map_head(&self) -> Result<JsMapHead, JsError> {
        let inner = &self.inner;
        Ok(object(&map::head(inner.voice(), inner.case()))?.into())
    }

    /// Loads the case of a cell, as one change.
    pub fn map_load(&mut self, column: usize, row: usize) {
        self.inner.load_cell(column, row);
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

    /// Number of inverse questions.
    pub fn questions(&self) -> usize {
        ask::COUNT
    }
}
