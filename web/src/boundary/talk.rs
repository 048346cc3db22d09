//! The talk for the page's scripts.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::page::Page;
use super::{misuse, object, prepared};
use crate::first::scene::canvas::CanvasSurface;
use crate::first::scene::{self, SceneView};
use crate::page::explain::talk::script::Step;
use crate::page::explain::talk::{self, legible};
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

    /// The keys of the steps that are shown, in their order.
    pub fn talk_keys(&mut self) -> Vec<String> {
        let (talk, subject) = self.whole().talk();
        let steps = talk.steps(subject).into_iter();
        steps.map(|step| step.key().to_owned()).collect()
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
        let view = talk.scene(subject, step, &view).unwrap_or(view);
        let mut surface = CanvasSurface::new(&context, &theme.font);
        if let Some(back) = back {
            surface = surface.keeping(back, &mut self.drawn.talk, &view);
        }
        scene::draw(&mut surface, &view);
        Ok(())
    }
}
