//! The talk for the page's scripts.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use super::page::Page;
use super::record::{Ruler, SiteBook};
use super::{language_of, misuse, object, prepared};
use crate::first::answer::Told;
use crate::first::scene::canvas::CanvasSurface;
use crate::first::scene::surface::Surface;
use crate::first::scene::theme::Theme;
use crate::first::scene::{self, SceneView};
use crate::page::explain::film::{self, Film};
use crate::page::explain::talk::script::Step;
use crate::page::explain::talk::{self, legible};
use crate::page::record::site;
use crate::say::faults;

#[wasm_bindgen(typescript_custom_section)]
const SHAPES: &str = talk::TYPESCRIPT;

#[wasm_bindgen]
extern "C" {
    /// [`crate::page::explain::talk::List`].
    #[wasm_bindgen(typescript_type = "TalkList")]
    pub type JsTalkList;
    /// [`crate::page::explain::talk::Shown`].
    #[wasm_bindgen(typescript_type = "TalkStep | null")]
    pub type JsTalkStep;
    /// [`crate::page::explain::talk::Code`].
    #[wasm_bindgen(typescript_type = "TalkCode | null")]
    pub type JsTalkCode;
    /// [`crate::page::record::paper::Paper`].
    #[wasm_bindgen(typescript_type = "Paper | null")]
    pub type JsHandout;
}

/// The film of the case in the type face of a canvas.
fn film_of(told: &Told<'_>, context: &CanvasRenderingContext2d, theme: &Theme) -> Film {
    let measured = CanvasSurface::new(context, &theme.font);
    Film::of(told, &|text, face| measured.text_width(text, face))
}

fn step_of(key: &str) -> Result<Step, JsError> {
    Step::from_key(key).ok_or_else(|| misuse(&format!("no step {key}")))
}

#[wasm_bindgen]
impl Page {
    /// The steps of the talk as a list to edit.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn talk_list(&mut self) -> Result<JsTalkList, JsError> {
        let (talk, subject) = self.whole().talk();
        Ok(object(&talk.list(subject))?.into())
    }

    /// The keys of the steps that are shown, in their order, and that of the code behind them.
    pub fn talk_keys(&mut self) -> Vec<String> {
        self.inner.finish_tried();
        let (talk, subject) = self.whole().talk();
        let steps = talk.steps(subject).into_iter();
        let mut keys: Vec<String> = steps.map(|step| step.key().to_owned()).collect();
        if !keys.is_empty() {
            keys.push(talk::CODE.to_owned());
        }
        keys
    }

    /// Solves one of what a step still lacks, or of what all do (an empty key): 0: nothing; 1: ask again;
    /// 2: it comes from beside the page.
    ///
    /// # Errors
    /// There is no such step.
    pub fn talk_lacks(&mut self, key: &str) -> Result<u8, JsError> {
        let step = if key.is_empty() {
            None
        } else {
            Some(step_of(key)?)
        };
        self.inner.finish();
        Ok(self.inner.talk_lacks(step) as u8)
    }

    /// Tries one user more, or one fewer as the step asks for it, on a copy of the talk's own. False:
    /// there cannot be.
    ///
    /// # Errors
    /// There is no such step.
    pub fn talk_users(&mut self, key: &str, more: bool) -> Result<bool, JsError> {
        let step = step_of(key)?;
        Ok(self.whole().try_users(step, more))
    }

    /// Moves the crew a step along the line, on a copy of the talk's own. False: the line ends there.
    pub fn talk_place(&mut self, right: bool) -> bool {
        self.whole().try_place(right)
    }

    /// The talk is about the planned crew again.
    pub fn talk_as_planned(&mut self) {
        self.inner.as_planned();
    }

    /// The last step: the link to the case as a code. `address` is that of the page, without a
    /// fragment. Null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn talk_code(&mut self, address: &str) -> Result<JsTalkCode, JsError> {
        Ok(object(&self.whole().talk_code(address))?.into())
    }

    /// The computed sentence of a step; empty when there is no answer to it.
    ///
    /// # Errors
    /// There is no such step.
    pub fn talk_computed(&mut self, key: &str) -> Result<String, JsError> {
        let step = step_of(key)?;
        let (talk, subject) = self.whole().talk();
        Ok(talk.sentence(subject, step).unwrap_or_default())
    }

    /// The leader's own sentence of a step; empty when there is none.
    ///
    /// # Errors
    /// There is no such step.
    pub fn talk_own(&mut self, key: &str) -> Result<String, JsError> {
        let step = step_of(key)?;
        let (talk, _) = self.whole().talk();
        let entry = talk.plan().entry(step);
        Ok(entry.and_then(|e| e.say.clone()).unwrap_or_default())
    }

    /// One step as it is shown: solved when it is asked for, so that it takes a while the first
    /// time. Null when there is no answer to it.
    ///
    /// # Errors
    /// There is no such step.
    pub fn talk_step(&mut self, key: &str) -> Result<JsTalkStep, JsError> {
        let step = step_of(key)?;
        self.inner.finish_tried();
        let (talk, subject) = self.whole().talk();
        Ok(object(&talk.step(subject, step).map(talk::Shown::unbroken))?.into())
    }

    /// Shows a step, or leaves it out.
    ///
    /// # Errors
    /// There is no such step.
    pub fn talk_set_on(&mut self, key: &str, on: bool) -> Result<(), JsError> {
        let step = step_of(key)?;
        self.whole().talk().0.plan_mut().set_on(step, on);
        Ok(())
    }

    /// Takes the leader's own sentence; an empty one, or the computed one, brings the computed
    /// one back.
    ///
    /// # Errors
    /// There is no such step.
    pub fn talk_say(&mut self, key: &str, text: &str) -> Result<(), JsError> {
        let step = step_of(key)?;
        let (talk, subject) = self.whole().talk();
        let computed = talk.sentence(subject, step);
        let same = computed.as_deref() == Some(text.trim());
        talk.plan_mut().say(step, if same { "" } else { text });
        Ok(())
    }

    /// Brings a step before or after the next one; false when there is none on that side.
    ///
    /// # Errors
    /// There is no such step.
    pub fn talk_move(&mut self, key: &str, earlier: bool) -> Result<bool, JsError> {
        let step = step_of(key)?;
        let (talk, subject) = self.whole().talk();
        Ok(talk.shift(subject, step, earlier))
    }

    /// The plan as the page makes it.
    pub fn talk_reset(&mut self) {
        *self.whole().talk().0.plan_mut() = talk::plan::Plan::default();
    }

    /// Takes the plan that a link carries. Gives nothing when it was taken, else why not, in
    /// words; the present plan stays then.
    pub fn talk_open_link(&mut self, fragment: &str) -> Option<String> {
        let voice = self.inner.voice();
        let opened = self.whole().talk().0.open_link(fragment);
        opened.err().map(|fault| faults::link_fault(voice, &fault))
    }

    /// The handout in a language, `en` or `es`. `address` is that of the page, without a fragment. Null
    /// when there is no result.
    ///
    /// # Errors
    /// Another language.
    pub fn handout(
        &mut self,
        language: &str,
        book: &SiteBook,
        address: &str,
    ) -> Result<JsHandout, JsError> {
        let language = language_of(language)?;
        let ruler = Ruler::new();
        let measure = |text: &str, face| ruler.width(text, face);
        let paper = self.inner.handout(language, &book.inner, address, &measure);
        Ok(object(&paper)?.into())
    }

    /// Length of the film, s; not a number when there is no result.
    pub fn film_duration_s(&mut self) -> f64 {
        self.whole()
            .told()
            .map_or(f64::NAN, |told| film::duration_s(&told))
    }

    /// Draws a frame of the film at a time of it, s. Nothing is drawn when there is no result.
    ///
    /// # Errors
    /// The browser gives no context.
    pub fn film_draw(
        &mut self,
        canvas: &HtmlCanvasElement,
        film_s: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let theme = self.drawn.talk.theme(theme);
        let Some(told) = self.inner.told() else {
            return Ok(());
        };
        // Measured first: how high it is hangs on the words.
        let side = [canvas.width(), canvas.height()].map(f64::from);
        let film = film_of(&told, &prepared(canvas, side[0], side[1], 1.0)?, &theme);
        let context = prepared(canvas, film.width_px, film.height_px, 1.0)?;
        let mut surface = CanvasSurface::new(&context, &theme.font);
        film.draw(&mut surface, &told, &theme, film_s);
        Ok(())
    }

    /// Name of the film as a file with an ending.
    pub fn film_name(&self, ending: &str) -> String {
        site::file_name(self.inner.job(), ending)
    }

    /// Size of the smallest type on a screen, CSS px.
    pub fn talk_type_px(width_px: f64, height_px: f64) -> f64 {
        legible::type_px(width_px, height_px)
    }

    /// Size of the sentence over that of the smallest type.
    pub fn talk_sentence_ratio() -> f64 {
        legible::SENTENCE_RATIO
    }

    /// Time since the talk began, s, as a clock.
    pub fn talk_clock(passed_s: f64) -> String {
        talk::clock(passed_s)
    }

    /// Draws the scene of a step that [`Page::talk_step`] has given, at an instant, s, with type
    /// of `type_px`. `back`: as for the desk's drawing.
    ///
    /// # Errors
    /// There is no such step, or the browser gives no context.
    #[allow(
        clippy::too_many_arguments,
        reason = "one call a drawing, plain numbers only"
    )]
    pub fn talk_draw(
        &mut self,
        canvas: &HtmlCanvasElement,
        key: &str,
        css_width: f64,
        css_height: f64,
        dpr: f64,
        type_px: f64,
        time_s: f64,
        theme: &JsValue,
        back: Option<HtmlCanvasElement>,
    ) -> Result<(), JsError> {
        let step = step_of(key)?;
        let context = prepared(canvas, css_width, css_height, dpr)?;
        let theme = self.drawn.talk.theme(theme);
        self.inner.finish();
        let voice = self.inner.voice();
        let (talk, subject) = self.inner.talk();
        let view = SceneView {
            cropped: true,
            type_px: Some(type_px),
            ..SceneView::new(
                subject.case,
                (None, None),
                voice,
                &theme,
                [css_width, css_height, dpr],
                time_s,
            )
        };
        let mut surface = CanvasSurface::new(&context, &theme.font);
        let window = {
            let measure = |text: &str, face| surface.text_width(text, face);
            talk.window(subject, &measure, &view)
        };
        let view = SceneView { window, ..view };
        let view = talk.scene(subject, step, &view).unwrap_or(view);
        if let Some(back) = back {
            surface = surface.keeping(back, &mut self.drawn.talk, &view);
        }
        scene::draw(&mut surface, &view);
        Ok(())
    }
}
