//! The handles of the drop for the page's scripts.

use wasm_bindgen::prelude::{JsError, wasm_bindgen};

use super::object;
use super::page::Page;
use crate::page::plan::handles;

#[wasm_bindgen(typescript_custom_section)]
const SHAPES: &str = handles::TYPESCRIPT;

#[wasm_bindgen]
extern "C" {
    /// [`crate::page::plan::handles::Handle`].
    #[wasm_bindgen(typescript_type = "Handle[]")]
    pub type JsHandles;
    /// [`crate::page::plan::handles::Handle`].
    #[wasm_bindgen(typescript_type = "Handle | null")]
    pub type JsHandle;
}

#[wasm_bindgen]
impl Page {
    /// Counts the changes of how px and metres of the drawing belong together; 0: nothing is drawn.
    pub fn frame_turn(&self) -> u32 {
        self.frame.map_or(0, |_| self.frame_turn)
    }

    /// What can be moved in the drawing on the page.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn handles(&self) -> Result<JsHandles, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.case());
        let found = self
            .frame
            .map(|frame| handles::handles(voice, case, &frame));
        Ok(object(&found.unwrap_or_default())?.into())
    }

    /// What a pointer at a place of the drawing, px, would take hold of; null: nothing. `coarse`: it
    /// is a finger.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn handle_at(&self, x_px: f64, y_px: f64, coarse: bool) -> Result<JsHandle, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.case());
        let frame = self.frame.as_ref();
        let found = frame.and_then(|f| handles::handle_at(voice, case, f, x_px, y_px, coarse));
        Ok(object(&found)?.into())
    }

    /// Takes hold of what lies there; null: nothing.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn handle_take(&mut self, x_px: f64, y_px: f64, coarse: bool) -> Result<JsHandle, JsError> {
        let taken = match &self.frame {
            Some(frame) => self.inner.take_handle(frame, (x_px, y_px), coarse),
            None => None,
        };
        Ok(object(&taken)?.into())
    }

    /// Moves what is held by so many px from where it was taken, at the scale of that time: a change of
    /// its field. All until it is let go are one step of undo. Gives the handle then; null: nothing is
    /// held.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn handle_drag(&mut self, by_x_px: f64, by_y_px: f64) -> Result<JsHandle, JsError> {
        Ok(object(&self.inner.drag_handle((by_x_px, by_y_px)))?.into())
    }

    /// Lets go of what is held.
    pub fn handle_drop(&mut self) {
        self.inner.drop_handle();
    }

    /// Moves a handle by a key: a change of its field. Gives the handle then; null: it stays.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn handle_step(&mut self, key: &str, steps: f64, long: bool) -> Result<JsHandle, JsError> {
        let now_ms = js_sys::Date::now();
        let moved = match &self.frame {
            Some(frame) => self.inner.step_handle(frame, key, (steps, long), now_ms),
            None => None,
        };
        Ok(object(&moved)?.into())
    }
}
