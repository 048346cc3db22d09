//! The page for its scripts: what both modules have of it, and the first view needs.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::{JsTexts, language_of, object, prepared, texts_object, units_of};
use crate::first::scene;
use crate::first::scene::SceneView;
use crate::first::scene::canvas::{CanvasSurface, Kept};
use crate::first::scene::frame::Frame;

/// Version of the program, as in its manifest.
#[wasm_bindgen]
pub fn version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}

#[wasm_bindgen]
extern "C" {
    /// [`crate::first::view::View`].
    #[wasm_bindgen(typescript_type = "View")]
    pub type JsView;
    /// [`crate::first::view::Readout`].
    #[wasm_bindgen(typescript_type = "Readout")]
    pub type JsReadout;
}

#[cfg(not(feature = "office"))]
use crate::first::desk::Desk as Inner;
#[cfg(feature = "office")]
use crate::page::Page as Inner;

/// Everything on the page: in the first module the case with its result, in the whole all of it.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Page {
    pub(super) inner: Inner,
    /// Of the drawing that is on the page.
    pub(super) frame: Option<Frame>,
    /// Counts the frames that differ.
    #[cfg(feature = "office")]
    pub(super) frame_turn: u32,
    /// Of the drawings before.
    kept: Kept,
    /// What the views keep of theirs.
    #[cfg(feature = "office")]
    pub(super) drawn: super::drawn::Drawn,
}

#[wasm_bindgen]
impl Page {
    /// Starts with no case: one comes with a link, or with [`Page::demo`]. Languages: `en`, `es`;
    /// units: `metric`, `us`.
    ///
    /// # Errors
    /// Another language or other units.
    #[wasm_bindgen(constructor)]
    pub fn new(language: &str, units: &str) -> Result<Page, JsError> {
        Ok(Self {
            inner: Inner::empty(language_of(language)?, units_of(units)?),
            frame: None,
            #[cfg(feature = "office")]
            frame_turn: 0,
            kept: Kept::default(),
            #[cfg(feature = "office")]
            drawn: super::drawn::Drawn::default(),
        })
    }

    /// Everything that the page shows.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn view(&self) -> Result<JsView, JsError> {
        Ok(object(&self.inner.view())?.into())
    }

    /// Makes the next runs of the whole answer, some milliseconds; false: it is whole.
    pub fn step(&mut self) -> bool {
        self.inner.step()
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

    /// Draws the drop at an instant, s. `theme`: an object of the roles' CSS colours; another
    /// object for other colours. `back`: a canvas that nobody sees, always the same one, which
    /// keeps what stands still; without it all is drawn.
    ///
    /// # Errors
    /// The browser gives no context.
    #[allow(
        clippy::too_many_arguments,
        reason = "one call a drawing, plain numbers only"
    )]
    pub fn draw_scene(
        &mut self,
        canvas: &HtmlCanvasElement,
        css_width: f64,
        css_height: f64,
        dpr: f64,
        time_s: f64,
        theme: &JsValue,
        back: Option<HtmlCanvasElement>,
    ) -> Result<(), JsError> {
        let context = prepared(canvas, css_width, css_height, dpr)?;
        let theme = self.kept.theme(theme);
        let governing = self.inner.governing();
        let view = SceneView::new(
            self.inner.case(),
            (self.inner.outcome(), governing.as_ref()),
            self.inner.voice(),
            &theme,
            [css_width, css_height, dpr],
            time_s,
        );
        let mut surface = CanvasSurface::new(&context, &theme.font);
        if let Some(back) = back {
            surface = surface.keeping(back, &mut self.kept, &view);
        }
        let frame = scene::draw(&mut surface, &view).as_ref().map(Frame::of);
        #[cfg(feature = "office")]
        if frame != self.frame {
            self.frame_turn += 1;
        }
        self.frame = frame;
        Ok(())
    }
}

/// What only the first module has: the whole says what is wrong with a link.
#[cfg(not(feature = "office"))]
#[wasm_bindgen]
impl Page {
    /// Opens a link's fragment; false when it was refused, and no case is shown then.
    pub fn take_link(&mut self, fragment: &str) -> bool {
        self.inner.open_link(fragment).is_ok()
    }

    /// The inputs as they stand. What is typed into them waits for the whole.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn form(&self) -> Result<JsValue, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.case());
        object(&crate::page::plan::view::Form {
            fields: crate::page::plan::fields::fields(voice, case, &[], &[]),
            problems: Vec::new(),
        })
    }

    /// The texts around the inputs, by key.
    ///
    /// # Errors
    /// Never in practice: the engine refuses a property.
    pub fn form_texts(&self) -> Result<JsTexts, JsError> {
        texts_object(self.inner.voice().form().entries())
    }
}
