//! Checks, set-up figures and charts for the page's scripts.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::page::Page;
use super::{JsTexts, misuse, object, prepared, texts_object};
use crate::first::scene::theme::Theme;
use crate::page;
use crate::page::plan::chart::ChartKind;
use crate::page::plan::chart_canvas;
use crate::page::plan::view::SetUp;

#[wasm_bindgen(typescript_custom_section)]
const SHAPES: &str = crate::page::plan::view::TYPESCRIPT;

#[wasm_bindgen]
extern "C" {
    /// [`crate::page::plan::view::Checks`].
    #[wasm_bindgen(typescript_type = "Checks")]
    pub type JsChecks;
    /// [`crate::first::view::Table`].
    #[wasm_bindgen(typescript_type = "Table")]
    pub type JsTable;
    /// [`crate::page::beside::Wanted`].
    #[wasm_bindgen(typescript_type = "Wanted | null")]
    pub type JsWanted;
    /// [`crate::page::plan::view::SetUp`].
    #[wasm_bindgen(typescript_type = "SetUp | null")]
    pub type JsSetUp;
}

fn chart_of(key: &str) -> Result<ChartKind, JsError> {
    ChartKind::from_key(key).ok_or_else(|| misuse("chart: force or tension"))
}

impl Page {
    /// The whole answer, for what is made of it.
    pub(super) fn whole(&mut self) -> &mut page::Page {
        self.inner.finish();
        &mut self.inner
    }
}

#[wasm_bindgen]
impl Page {
    /// The fixed texts of the views in their language, by key.
    ///
    /// # Errors
    /// Never in practice: the engine refuses a property.
    pub fn view_texts(&self) -> Result<JsTexts, JsError> {
        let voice = self.inner.voice();
        let entries = [
            voice.form().entries(),
            voice.office().entries(),
            voice.decide().entries(),
            voice.record().entries(),
            crate::say::texts::talk::of(voice.lang).entries(),
            crate::say::texts::direct::of(voice.lang).entries(),
            crate::say::texts::guess::of(voice.lang).entries(),
            crate::say::texts::spread::of(voice.lang).entries(),
        ];
        texts_object(entries.concat())
    }

    /// All limits and strengths.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn checks(&mut self) -> Result<JsChecks, JsError> {
        Ok(object(&self.whole().checks())?.into())
    }

    /// Whether there is an answer to be made beside the page.
    pub fn has_beside(&self) -> bool {
        self.inner.has_beside()
    }

    /// The next answer that is to be made beside the page, each given once; null: there is none.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn next_beside(&mut self) -> Result<JsWanted, JsError> {
        Ok(object(&self.inner.next_beside())?.into())
    }

    /// Takes an answer that the planner made, by its number; without numbers it is made here. 0: it
    /// is not waited for any more; 1: its case is shown from now on; 2: it is the talk's.
    pub fn take_beside(&mut self, number: u32, numbers: &[f64]) -> u8 {
        self.inner.take_beside(number, numbers) as u8
    }

    /// Takes what was found beside the page to be the worst anywhere on the line; false: it is not
    /// about the shown case.
    pub fn take_anywhere(&mut self, numbers: &[f64]) -> bool {
        self.inner.take_anywhere(numbers)
    }

    /// Puts the crew where the worst was found, as one change.
    pub fn show_worst(&mut self) {
        self.inner.show_worst();
    }

    /// What a view about the falls as given says where the worst is elsewhere; empty where it is not.
    pub fn elsewhere(&self) -> String {
        let told = self.inner.told();
        told.and_then(|told| told.elsewhere()).unwrap_or_default()
    }

    /// What was tried to find the worst, and why it counts; empty while it is looked for.
    pub fn anywhere_note(&self) -> String {
        self.inner
            .told()
            .map_or_else(String::new, |told| told.anywhere_note())
    }

    /// The numbers of a chart, `force` or `tension`, as a table.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn chart_table(&mut self, kind: &str) -> Result<JsTable, JsError> {
        Ok(object(&self.whole().chart_table(chart_of(kind)?))?.into())
    }

    /// Takes what was read on the line, as typed; empty when it was not read: `weight`, `movement` under
    /// it, number of `swings` and their `time`, `temperature`, `height`, `depth`.
    ///
    /// # Errors
    /// There is no such reading.
    pub fn read(&mut self, name: &str, text: &str) -> Result<(), JsError> {
        let taken = self.inner.readings.take(name, text);
        taken.ok_or_else(|| misuse(&format!("no reading {name}")))
    }

    /// The set-up figures, and what was read on the line. Null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn set_up(&self) -> Result<JsSetUp, JsError> {
        let typed = self.inner.readings.typed();
        Ok(object(&self.inner.set_up(typed).map(SetUp::unbroken))?.into())
    }

    /// The fragment of a link to the shown case and result, without `#`; empty when there is no
    /// result.
    pub fn link(&mut self) -> String {
        self.whole().link().unwrap_or_default()
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
        let plotted = match self.whole().chart(kind) {
            Some(chart) => {
                let theme = Theme::from_js(theme);
                let drawn = chart_canvas::draw(canvas, context, chart, &theme, dpr);
                Some(drawn.map_err(|fault| misuse(&fault))?)
            }
            None => None,
        };
        self.drawn.plotted[kind as usize] = plotted;
        Ok(())
    }

    /// Where an instant, s, lies on a chart as it was drawn last, CSS px from its left top: how far
    /// right, from where to where its line goes, then the height of each curve; empty without one.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn chart_instant(&self, kind: &str, time_s: f64) -> Result<Vec<f64>, JsError> {
        let plotted = self.drawn.plotted[chart_of(kind)? as usize].as_ref();
        Ok(plotted.map_or_else(Vec::new, |plotted| plotted.instant(time_s)))
    }

    /// The instant, s, that lies so many CSS px from the left edge of a chart as it was drawn last;
    /// NaN without one.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn chart_time(&self, kind: &str, across_px: f64) -> Result<f64, JsError> {
        let plotted = self.drawn.plotted[chart_of(kind)? as usize].as_ref();
        Ok(plotted.map_or(f64::NAN, |plotted| plotted.time_s(across_px)))
    }

    /// What a chart says of an instant, s; empty without one.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn chart_reading(&self, kind: &str, time_s: f64) -> Result<String, JsError> {
        let plotted = self.drawn.plotted[chart_of(kind)? as usize].as_ref();
        let voice = self.inner.voice();
        Ok(plotted.map_or_else(String::new, |plotted| plotted.reading(voice, time_s)))
    }
}
