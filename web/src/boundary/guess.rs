//! Guess first, for the page's scripts.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::page::Page;
use super::{object, prepared};
use crate::first::governing::GoverningStack;
use crate::first::scene::canvas::CanvasSurface;
use crate::first::scene::frame::Frame;
use crate::first::scene::theme::Theme;
use crate::first::scene::{self, SceneView};
use crate::page::explain::guess;

#[wasm_bindgen(typescript_custom_section)]
const SHAPES: &str = guess::TYPESCRIPT;

#[wasm_bindgen]
extern "C" {
    /// [`crate::page::explain::guess::Mark`].
    #[wasm_bindgen(typescript_type = "GuessMark")]
    pub type JsGuessMark;
    /// [`crate::page::explain::guess::Mark`].
    #[wasm_bindgen(typescript_type = "GuessMark | null")]
    pub type JsGuessPointed;
    /// [`crate::page::explain::guess::Revealed`].
    #[wasm_bindgen(typescript_type = "GuessResult | null")]
    pub type JsGuessResult;
}

#[wasm_bindgen]
impl Page {
    /// A mark at a depth, m, brought to a whole step inside the range.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn guess_mark(&self, depth_m: f64) -> Result<JsGuessMark, JsError> {
        let mark = guess::mark(self.inner.voice(), self.inner.case(), depth_m);
        Ok(object(&mark)?.into())
    }

    /// A mark as typed; what cannot be used leaves it at `before_m`.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn guess_typed(&self, text: &str, before_m: f64) -> Result<JsGuessMark, JsError> {
        let mark = guess::typed(self.inner.voice(), self.inner.case(), text, before_m);
        Ok(object(&mark)?.into())
    }

    /// The mark under a pointer at a height of the drawing, px, that
    /// [`Page::guess_draw`] has drawn; null: it has drawn nothing.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn guess_pointed(&self, y_px: f64) -> Result<JsGuessPointed, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.case());
        let frame = self.drawn.guess.as_ref();
        let mark = frame.map(|frame| guess::pointed(voice, case, frame, y_px));
        Ok(object(&mark)?.into())
    }

    /// Lets go; null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn guess_reveal(&mut self, depth_m: f64, tally: &str) -> Result<JsGuessResult, JsError> {
        let told = self.whole().told();
        let result = told.map(|told| guess::reveal(&told, depth_m, tally));
        Ok(object(&result)?.into())
    }

    /// A tally in words.
    pub fn guess_tally(&self, tally: &str) -> String {
        guess::tally_told(self.inner.voice(), tally)
    }

    /// Draws the crew with the mark: on the beam while `time_s` is negative, else at that instant
    /// of the fall; `stopped`: where the soles stopped too.
    ///
    /// # Errors
    /// The browser gives no context.
    #[allow(
        clippy::too_many_arguments,
        reason = "one call a drawing, plain numbers only"
    )]
    pub fn guess_draw(
        &mut self,
        canvas: &HtmlCanvasElement,
        css_width: f64,
        css_height: f64,
        dpr: f64,
        time_s: f64,
        depth_m: f64,
        stopped: bool,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let context = prepared(canvas, css_width, css_height, dpr)?;
        let theme = Theme::from_js(theme);
        self.inner.finish();
        let (voice, case) = (self.inner.voice(), self.inner.case());
        let told = self.inner.told();
        let shown = told.as_ref().filter(|_| time_s >= 0.0);
        let governing = told
            .as_ref()
            .and_then(|told| GoverningStack::of(told.assessment));
        let mut surface = CanvasSurface::new(&context, &theme.font);
        let view = SceneView::new(
            case,
            (shown.map(|told| told.outcome), governing.as_ref()),
            voice,
            &theme,
            [css_width, css_height, dpr],
            time_s.max(0.0),
        );
        let layout = scene::draw(&mut surface, &view);
        self.drawn.guess = layout.as_ref().map(Frame::of);
        let Some(frame) = self.drawn.guess else {
            return Ok(());
        };
        let stop_m = told.as_ref().filter(|_| stopped).and_then(guess::soles_m);
        guess::draw(&mut surface, voice, case, &frame, &theme, depth_m, stop_m);
        Ok(())
    }
}
