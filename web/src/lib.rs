//! The boundary between the page and the mechanics: every function that the page calls.
//!
//! Nothing is computed here: [`desk`] keeps the case, [`answer`] words the result, [`scene`] and
//! [`chart`] draw it. What the visitor typed wrongly comes back in [`view::View`]; only a mistake
//! of the page's own scripts throws.

pub mod answer;
pub mod assessed;
pub mod base64_url;
pub mod case_json;
pub mod chart;
pub mod chart_canvas;
pub mod checked;
pub mod checks;
pub mod decimal;
pub mod desk;
pub mod fault_text;
pub mod fields;
pub mod format;
pub mod input;
pub mod json;
pub mod link;
pub mod order;
pub mod readout;
pub mod scene;
pub mod search;
pub mod set_up;
pub mod shown;
pub mod texts;
pub mod view;

use serde::Serialize;
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use crate::chart::ChartKind;
use crate::format::{Lang, Units};
use crate::scene::SceneView;
use crate::scene::canvas::CanvasSurface;
use crate::scene::theme::Theme;

/// Version of the program, as in its manifest.
#[wasm_bindgen]
pub fn version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}

#[wasm_bindgen(typescript_custom_section)]
const SHAPES: &str = view::TYPESCRIPT;

#[wasm_bindgen]
extern "C" {
    /// [`view::View`].
    #[wasm_bindgen(typescript_type = "View")]
    pub type JsView;
    /// [`view::Readout`].
    #[wasm_bindgen(typescript_type = "Readout")]
    pub type JsReadout;
    /// [`view::Table`].
    #[wasm_bindgen(typescript_type = "Table")]
    pub type JsTable;
    /// [`view::SetUp`].
    #[wasm_bindgen(typescript_type = "SetUp | null")]
    pub type JsSetUp;
    /// [`view::Found`].
    #[wasm_bindgen(typescript_type = "Found | null")]
    pub type JsFound;
    /// Texts of the page by key.
    #[wasm_bindgen(typescript_type = "Record<string, string>")]
    pub type JsTexts;
}

/// What the page holds: the case with its result.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Desk {
    inner: desk::Desk,
}

/// A mistake of the page's scripts.
fn misuse(message: &str) -> JsError {
    JsError::new(message)
}

fn language_of(key: &str) -> Result<Lang, JsError> {
    Lang::from_key(key).ok_or_else(|| misuse("language: en or es"))
}

fn units_of(key: &str) -> Result<Units, JsError> {
    Units::from_key(key).ok_or_else(|| misuse("units: metric or us"))
}

fn chart_of(key: &str) -> Result<ChartKind, JsError> {
    ChartKind::from_key(key).ok_or_else(|| misuse("chart: force or tension"))
}

/// A plain object; what is not there is null.
fn object(value: &impl Serialize) -> Result<JsValue, JsError> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    value
        .serialize(&serializer)
        .map_err(|fault| misuse(&fault.to_string()))
}

#[wasm_bindgen]
impl Desk {
    /// Starts with the demonstration, solved. Languages: `en`, `es`; units: `metric`, `us`.
    ///
    /// # Errors
    /// Another language or other units.
    #[wasm_bindgen(constructor)]
    pub fn new(language: &str, units: &str) -> Result<Desk, JsError> {
        Ok(Self {
            inner: desk::Desk::new(language_of(language)?, units_of(units)?),
        })
    }

    /// Takes what was typed at a path, see [`input`]; read [`Desk::view`] after it.
    ///
    /// # Errors
    /// There is no such field.
    pub fn set(&mut self, path: &str, text: &str) -> Result<(), JsError> {
        let set = self.inner.set(path, text, js_sys::Date::now());
        set.map_err(|_| misuse(&format!("no field {path}")))
    }

    /// Everything that the page shows.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn view(&self) -> Result<JsView, JsError> {
        Ok(object(&self.inner.view())?.into())
    }

    /// Values at an instant, s.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn readout(&self, time_s: f64) -> Result<JsReadout, JsError> {
        Ok(object(&self.inner.readout(time_s))?.into())
    }

    /// The numbers of a chart, `force` or `tension`, as a table.
    ///
    /// # Errors
    /// There is no such chart.
    pub fn chart_table(&self, kind: &str) -> Result<JsTable, JsError> {
        Ok(object(&self.inner.chart_table(chart_of(kind)?))?.into())
    }

    /// The set-up figures, and what was read on the line: a weight, the movement under it, the
    /// time of the swings, each as typed, empty when not read. Null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn set_up(&self, weight: &str, movement: &str, time: &str) -> Result<JsSetUp, JsError> {
        let typed = set_up::Typed {
            weight,
            movement,
            time,
        };
        Ok(object(&self.inner.set_up(typed))?.into())
    }

    /// Searches the worst timing (`delay`) or the worst places (`places`): about half a second.
    /// Null when there is no result.
    ///
    /// # Errors
    /// There is no such search.
    pub fn search(&mut self, what: &str) -> Result<JsFound, JsError> {
        let what = search::Search::from_key(what).ok_or_else(|| misuse("search: delay, places"))?;
        Ok(object(&self.inner.search(what))?.into())
    }

    /// Loads the case that the last search found; false when there is none.
    pub fn load_found(&mut self) -> bool {
        self.inner.load_found()
    }

    /// The fixed texts of the page in its language, by key.
    ///
    /// # Errors
    /// Never in practice: the engine refuses a property.
    pub fn texts(&self) -> Result<JsTexts, JsError> {
        let object = js_sys::Object::new();
        for (key, text) in self.inner.voice().texts().entries() {
            js_sys::Reflect::set(&object, &key.into(), &text.into())
                .map_err(|_| misuse("texts"))?;
        }
        Ok(JsValue::from(object).into())
    }

    /// Changes the language, `en` or `es`.
    ///
    /// # Errors
    /// Another language.
    pub fn set_language(&mut self, language: &str) -> Result<(), JsError> {
        self.inner.set_language(language_of(language)?);
        Ok(())
    }

    /// Changes the units, `metric` or `us`; no value moves.
    ///
    /// # Errors
    /// Other units.
    pub fn set_units(&mut self, units: &str) -> Result<(), JsError> {
        self.inner.set_units(units_of(units)?);
        Ok(())
    }

    /// Loads the demonstration.
    pub fn demo(&mut self) {
        self.inner.demo();
    }

    /// Takes the last change back; false when there is none.
    pub fn undo(&mut self) -> bool {
        self.inner.undo()
    }

    /// Makes the change last taken back again; false when there is none.
    pub fn redo(&mut self) -> bool {
        self.inner.redo()
    }

    /// The fragment of a link to the shown case and result, without `#`; empty when there is no
    /// result.
    pub fn link(&self) -> String {
        self.inner.link().unwrap_or_default()
    }

    /// Opens a link's fragment. Gives nothing when it was taken, else what is wrong with it, in
    /// words; nothing is changed then.
    pub fn open_link(&mut self, fragment: &str) -> Option<String> {
        self.inner.open_link(fragment).err()
    }

    /// Draws the drop at an instant, s. `theme`: an object of the roles' CSS colours.
    ///
    /// # Errors
    /// The browser gives no context.
    pub fn draw_scene(
        &self,
        canvas: &HtmlCanvasElement,
        css_width: f64,
        css_height: f64,
        dpr: f64,
        time_s: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let context = chart_canvas::prepare(canvas, css_width, css_height, dpr)
            .ok_or_else(|| misuse("no canvas context"))?;
        let theme = Theme::from_js(theme);
        let voice = self.inner.voice();
        let mut surface = CanvasSurface::new(&context, &theme.font);
        scene::draw(
            &mut surface,
            &SceneView {
                case: self.inner.case(),
                outcome: self.inner.outcome(),
                time_s,
                width_px: css_width,
                height_px: css_height,
                dpr,
                theme: &theme,
                texts: voice.texts(),
                units: voice.units,
                lang: voice.lang,
                focus: self.inner.asked().map(|asked| asked.worker),
                tolerance: self.inner.asked().and_then(|asked| {
                    (asked.tolerance_m > 0.0).then(|| scene::Added {
                        length_m: asked.tolerance_m,
                        name: asked.from.row(voice.texts()),
                    })
                }),
                cropped: false,
            },
        );
        Ok(())
    }

    /// Draws a chart, `force` or `tension`, with the present time, s; NaN: without it.
    ///
    /// # Errors
    /// There is no such chart, or the browser gives no context.
    #[allow(
        clippy::too_many_arguments,
        reason = "one call a drawing, plain numbers only"
    )]
    pub fn draw_chart(
        &self,
        canvas: &HtmlCanvasElement,
        kind: &str,
        css_width: f64,
        css_height: f64,
        dpr: f64,
        time_s: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let kind = chart_of(kind)?;
        let context = chart_canvas::prepare(canvas, css_width, css_height, dpr)
            .ok_or_else(|| misuse("no canvas context"))?;
        let Some(chart) = self.inner.chart(kind) else {
            return Ok(());
        };
        let time_s = Some(time_s).filter(|t| t.is_finite());
        chart_canvas::draw(canvas, context, &chart, &Theme::from_js(theme), dpr, time_s)
            .map_err(|fault| misuse(&fault))
    }

    /// Draws only the present time, s, on a transparent canvas that lies over the chart's and has
    /// its size: the cheap call for every frame.
    ///
    /// # Errors
    /// There is no such chart, or the browser gives no context.
    #[allow(
        clippy::too_many_arguments,
        reason = "one call a drawing, plain numbers only"
    )]
    pub fn draw_chart_cursor(
        &self,
        canvas: &HtmlCanvasElement,
        kind: &str,
        css_width: f64,
        css_height: f64,
        dpr: f64,
        time_s: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let kind = chart_of(kind)?;
        let context = chart_canvas::prepare(canvas, css_width, css_height, dpr)
            .ok_or_else(|| misuse("no canvas context"))?;
        let Some(chart) = self.inner.chart(kind) else {
            return Ok(());
        };
        chart_canvas::draw_cursor(canvas, context, &chart, &Theme::from_js(theme), dpr, time_s)
            .map_err(|fault| misuse(&fault))
    }
}
