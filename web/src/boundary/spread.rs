//! Falls drawn within the tolerances, for the page's scripts: seed and what is made of the draws. They
//! themselves are the planner's.

use footroom_core::draws::DRAWS;
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::page::Page;
use super::{misuse, object, prepared};
use crate::first::scene::theme::Theme;
use crate::page::fit::spread::{self, Histogram, Shows};
use crate::page::plan::chart_canvas;

#[wasm_bindgen]
extern "C" {
    /// [`spread::SpreadView`].
    #[wasm_bindgen(typescript_type = "SpreadView | null")]
    pub type JsSpread;
}

fn shows_of(key: &str) -> Result<Shows, JsError> {
    Shows::from_key(key).ok_or_else(|| misuse("chart: footroom, tension"))
}

#[wasm_bindgen]
impl Page {
    /// How many falls are drawn.
    pub fn spread_draws(&self) -> u32 {
        DRAWS
    }

    /// The seed that the page's link has, else the one that it begins with.
    pub fn spread_seed(&self) -> u32 {
        let noted = self.inner.notes.get(spread::NOTE);
        noted.and_then(spread::seed_of).unwrap_or(spread::SEED)
    }

    /// Takes a seed as it was typed into the page's link; nothing when it is none.
    pub fn spread_take_seed(&mut self, text: &str) -> Option<u32> {
        let seed = spread::seed_of(text)?;
        self.inner.notes.set(spread::NOTE, &seed.to_string());
        Some(seed)
    }

    /// How far the draws are, in words.
    pub fn spread_progress(&self, made: u32) -> String {
        spread::progress(self.inner.voice(), made)
    }

    /// What all draws tell; null when there is no result. `falls`: those that the planner gave, in
    /// their order.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn spread(&self, seed: u32, falls: &[f64]) -> Result<JsSpread, JsError> {
        let inner = &self.inner;
        let answer = inner.assessment();
        let view = answer
            .and_then(|answer| spread::spread(inner.voice(), inner.case(), answer, seed, falls));
        Ok(object(&view)?.into())
    }

    fn histogram(&self, shows: &str, falls: &[f64]) -> Result<Option<Histogram>, JsError> {
        let shows = shows_of(shows)?;
        let inner = &self.inner;
        let of = |answer| Histogram::of(inner.voice(), inner.case(), answer, shows, falls);
        Ok(inner.assessment().map(of))
    }

    /// Name of a chart, `footroom` or `tension`, and what it shows, in words; empty when there is no
    /// result.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn spread_words(&self, shows: &str, falls: &[f64]) -> Result<Vec<String>, JsError> {
        let shown = self.histogram(shows, falls)?;
        Ok(shown.map_or_else(Vec::new, |shown| {
            vec![shown.title().to_owned(), shown.words()]
        }))
    }

    /// Draws a chart of the draws that are there; those that are not are NaN.
    ///
    /// # Errors
    /// There is no such chart, or the browser gives no context.
    #[allow(
        clippy::too_many_arguments,
        reason = "one call a drawing, plain numbers only"
    )]
    pub fn draw_spread(
        &self,
        canvas: &HtmlCanvasElement,
        shows: &str,
        falls: &[f64],
        css_width: f64,
        css_height: f64,
        dpr: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let Some(shown) = self.histogram(shows, falls)? else {
            return Ok(());
        };
        let context = prepared(canvas, css_width, css_height, dpr)?;
        let theme = Theme::from_js(theme);
        chart_canvas::draw_spread(canvas, context, &shown, &theme, dpr)
            .map_err(|fault| misuse(&fault))
    }
}
