//! Guess first, for the page's scripts.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::page::Page;
use super::{misuse, object, prepared};
use crate::first::governing::GoverningStack;
use crate::first::scene::canvas::CanvasSurface;
use crate::first::scene::frame::Frame;
use crate::first::scene::theme::Theme;
use crate::first::scene::{self, SceneView};
use crate::page::explain::{guess, learn};

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
        let mark = guess::mark(self.inner.voice(), self.inner.asked_case(), depth_m);
        Ok(object(&mark)?.into())
    }

    /// A mark as typed; what cannot be used leaves it at `before_m`.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn guess_typed(&self, text: &str, before_m: f64) -> Result<JsGuessMark, JsError> {
        let mark = guess::typed(self.inner.voice(), self.inner.asked_case(), text, before_m);
        Ok(object(&mark)?.into())
    }

    /// The mark under a pointer at a height of the drawing, px, that
    /// [`Page::guess_draw`] has drawn; null: it has drawn nothing.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn guess_pointed(&self, y_px: f64) -> Result<JsGuessPointed, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.asked_case());
        let frame = self.drawn.guess.as_ref();
        let mark = frame.map(|frame| guess::pointed(voice, case, frame, y_px));
        Ok(object(&mark)?.into())
    }

    /// Asks about a case of its own, given as text; about the one on the page when it is empty.
    ///
    /// # Errors
    /// The text is no case without faults.
    pub fn guess_about(&mut self, text: &str) -> Result<(), JsError> {
        let taken = self.inner.ask_about(text);
        taken
            .then_some(())
            .ok_or_else(|| misuse("case: the text of a checked case"))
    }

    /// Puts the case of a question on the page, as one change.
    pub fn guess_put(&mut self) {
        self.inner.put_asked();
    }

    /// The subjects of the questions for trainees, in their order.
    pub fn lessons(&self) -> Vec<String> {
        let voice = self.inner.voice();
        (0..learn::COUNT)
            .map(|place| learn::title(voice, place).to_owned())
            .collect()
    }

    /// Lets go; null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn guess_reveal(&mut self, depth_m: f64, tally: &str) -> Result<JsGuessResult, JsError> {
        self.inner.solve_asked();
        let told = self.inner.asked_told();
        let result = told.map(|told| guess::reveal(&told, depth_m, tally));
        Ok(object(&result)?.into())
    }

    /// A tally in words.
    pub fn guess_tally(&self, tally: &str) -> String {
        guess::tally_told(self.inner.voice(), tally)
    }

    /// Draws the crew with the mark: on the beam while `time_s` is negative, else at that instant
    /// of the fall; `stopped`: where the soles stopped too. `before_m`: where they stopped before the
    /// change that a question is about, m; not a number: there was none.
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
        before_m: f64,
        stopped: bool,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let context = prepared(canvas, css_width, css_height, dpr)?;
        let theme = Theme::from_js(theme);
        if self.inner.is_about_the_page() {
            self.inner.finish();
        }
        let (voice, case) = (self.inner.voice(), self.inner.asked_case());
        let told = self.inner.asked_told();
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
        let levels = [Some(before_m), stop_m];
        guess::draw(&mut surface, voice, case, &frame, &theme, depth_m, levels);
        Ok(())
    }
}
