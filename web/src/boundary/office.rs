//! The office for the page's scripts.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::desk::Desk;
use super::{JsTexts, language_of, misuse, object, prepared, texts_object, units_of};
use crate::first::scene::canvas::Kept;
use crate::first::scene::theme::Theme;
use crate::page::office;
use crate::page::plan::chart::{ChartKind, Plotted};
use crate::page::plan::chart_canvas;
use crate::page::plan::set_up;

#[wasm_bindgen]
extern "C" {
    /// [`crate::first::view::Checks`].
    #[wasm_bindgen(typescript_type = "Checks")]
    pub type JsChecks;
    /// [`crate::first::view::Table`].
    #[wasm_bindgen(typescript_type = "Table")]
    pub type JsTable;
    /// [`crate::first::view::SetUp`].
    #[wasm_bindgen(typescript_type = "SetUp | null")]
    pub type JsSetUp;
}

/// Everything that is made of the case after the drop is shown.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Office {
    pub(super) inner: office::Office,
    /// Of the talk's drawings before.
    pub(super) kept: Kept,
    /// The charts as they were drawn last.
    plotted: [Option<Plotted>; 2],
}

fn chart_of(key: &str) -> Result<ChartKind, JsError> {
    ChartKind::from_key(key).ok_or_else(|| misuse("chart: force or tension"))
}

#[wasm_bindgen]
impl Office {
    /// Takes a checked case as text, with language and units: for a worker, which has no desk.
    ///
    /// # Errors
    /// Another language, other units, or a text that is not a desk's.
    #[wasm_bindgen(constructor)]
    pub fn new(case_text: &str, language: &str, units: &str) -> Result<Office, JsError> {
        let inner = office::Office::new(case_text, language_of(language)?, units_of(units)?);
        Ok(Self {
            inner: inner.ok_or_else(|| misuse("case: the text of a checked case"))?,
            kept: Kept::default(),
            plotted: [None, None],
        })
    }

    /// The office of a desk.
    pub fn of(desk: &mut Desk) -> Office {
        Self {
            inner: office::Office::of(&mut desk.inner),
            kept: Kept::default(),
            plotted: [None, None],
        }
    }

    /// Takes over the desk's case, language and units.
    pub fn follow(&mut self, desk: &mut Desk) {
        self.inner.follow(&mut desk.inner);
    }

    /// The fixed texts of the views in their language, by key.
    ///
    /// # Errors
    /// Never in practice: the engine refuses a property.
    pub fn texts(&self) -> Result<JsTexts, JsError> {
        let voice = self.inner.voice();
        let entries = [
            voice.form().entries(),
            voice.office().entries(),
            voice.decide().entries(),
            voice.record().entries(),
            crate::say::texts::talk::of(voice.lang).entries(),
            crate::say::texts::direct::of(voice.lang).entries(),
            crate::say::texts::guess::of(voice.lang).entries(),
        ];
        texts_object(entries.concat())
    }

    /// All limits and strengths.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn checks(&self) -> Result<JsChecks, JsError> {
        Ok(object(&self.inner.checks())?.into())
    }

    /// The numbers of a chart, `force` or `tension`, as a table.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn chart_table(&self, kind: &str) -> Result<JsTable, JsError> {
        Ok(object(&self.inner.chart_table(chart_of(kind)?))?.into())
    }

    /// The set-up figures, and what was read on the line: a weight, the movement under it, the
    /// number of swings and their time, each as typed, empty when not read. Null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn set_up(
        &self,
        weight: &str,
        movement: &str,
        swings: &str,
        time: &str,
    ) -> Result<JsSetUp, JsError> {
        let typed = set_up::Typed {
            weight,
            movement,
            swings,
            time,
        };
        Ok(object(&self.inner.set_up(typed))?.into())
    }

    /// The fragment of a link to the shown case and result, without `#`; empty when there is no
    /// result.
    pub fn link(&self) -> String {
        self.inner.link().unwrap_or_default()
    }

    /// Draws a chart, `force` or `tension`.
    ///
    /// # Errors
    /// There is no such chart, or the browser gives no context.
    pub fn draw_chart(
        &mut self,
        canvas: &HtmlCanvasElement,
        kind: &str,
        css_width: f64,
        css_height: f64,
        dpr: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let kind = chart_of(kind)?;
        let context = prepared(canvas, css_width, css_height, dpr)?;
        let plotted = match self.inner.chart(kind) {
            Some(chart) => {
                let theme = Theme::from_js(theme);
                let drawn = chart_canvas::draw(canvas, context, chart, &theme, dpr);
                Some(drawn.map_err(|fault| misuse(&fault))?)
            }
            None => None,
        };
        self.plotted[kind as usize] = plotted;
        Ok(())
    }

    /// Where an instant, s, lies on a chart as it was drawn last, CSS px from its left top: how far
    /// right, from where to where its line goes, then the height of each curve; empty without one.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn chart_instant(&self, kind: &str, time_s: f64) -> Result<Vec<f64>, JsError> {
        let plotted = self.plotted[chart_of(kind)? as usize].as_ref();
        Ok(plotted.map_or_else(Vec::new, |plotted| plotted.instant(time_s)))
    }

    /// The instant, s, that lies so many CSS px from the left edge of a chart as it was drawn last;
    /// NaN without one.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn chart_time(&self, kind: &str, across_px: f64) -> Result<f64, JsError> {
        let plotted = self.plotted[chart_of(kind)? as usize].as_ref();
        Ok(plotted.map_or(f64::NAN, |plotted| plotted.time_s(across_px)))
    }

    /// What a chart says of an instant, s; empty without one.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn chart_reading(&self, kind: &str, time_s: f64) -> Result<String, JsError> {
        let plotted = self.plotted[chart_of(kind)? as usize].as_ref();
        let voice = self.inner.voice();
        Ok(plotted.map_or_else(String::new, |plotted| plotted.reading(voice, time_s)))
    }
}
