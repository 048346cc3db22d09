//! The desk for the page's scripts.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::{JsTexts, language_of, misuse, object, texts_object, units_of};
use crate::scene::SceneView;
use crate::scene::canvas::{self, CanvasSurface};
use crate::scene::frame::Frame;
use crate::scene::theme::Theme;
use crate::{case_json, desk, scene};

/// Version of the program, as in its manifest.
#[wasm_bindgen]
pub fn version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}

#[wasm_bindgen]
extern "C" {
    /// [`crate::view::View`].
    #[wasm_bindgen(typescript_type = "View")]
    pub type JsView;
    /// [`crate::view::Readout`].
    #[wasm_bindgen(typescript_type = "Readout")]
    pub type JsReadout;
}

/// What the page holds: the case with its result.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Desk {
    inner: desk::Desk,
    /// Of the drawing that is on the page.
    frame: Option<Frame>,
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
            frame: None,
        })
    }

    /// Takes what was typed at a path, see [`crate::input`]; read [`Desk::view`] after it.
    ///
    /// # Errors
    /// There is no such field.
    pub fn set(&mut self, path: &str, text: &str) -> Result<(), JsError> {
        let set = self.inner.set(path, text, js_sys::Date::now());
        set.map_err(|_| misuse(&format!("no field {path}")))
    }

    /// [`Desk::set`] for a drag: however long it pauses, it is one step of undo with those of the
    /// same field before it, unless it `begins`.
    ///
    /// # Errors
    /// There is no such field.
    pub fn drag(&mut self, path: &str, text: &str, begins: bool) -> Result<(), JsError> {
        let set = self.inner.drag(path, text, begins);
        set.map_err(|_| misuse(path))
    }

    /// How px and metres of the drawing belong together, for
    /// [`crate::scene::frame::Frame::from_numbers`]; empty when nothing is drawn.
    pub fn frame(&self) -> Vec<f64> {
        self.frame.map_or_else(Vec::new, |f| f.numbers().to_vec())
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

    /// The fixed texts of the page in its language, by key.
    ///
    /// # Errors
    /// Never in practice: the engine refuses a property.
    pub fn texts(&self) -> Result<JsTexts, JsError> {
        texts_object(self.inner.voice().texts().entries())
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

    /// The shown case as text, for [`crate::office::Office`] and for files; empty when a number of
    /// it is not finite, which no checked case has.
    pub fn case_text(&self) -> String {
        case_json::to_text(self.inner.case()).unwrap_or_default()
    }

    /// Loads a case from its text, as one change. Gives nothing when it was taken, else what is
    /// wrong with it, in words; nothing is changed then.
    pub fn open_case(&mut self, text: &str) -> Option<String> {
        self.inner.open_case(text).err()
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
        &mut self,
        canvas: &HtmlCanvasElement,
        css_width: f64,
        css_height: f64,
        dpr: f64,
        time_s: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let context = canvas::prepare(canvas, css_width, css_height, dpr)
            .ok_or_else(|| misuse("no canvas context"))?;
        let theme = Theme::from_js(theme);
        let voice = self.inner.voice();
        let mut surface = CanvasSurface::new(&context, &theme.font);
        let layout = scene::draw(
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
                type_px: None,
            },
        );
        self.frame = layout.as_ref().map(Frame::of);
        Ok(())
    }
}
