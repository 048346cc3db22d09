//! The handles of the drop for the page's scripts.

use wasm_bindgen::prelude::{JsError, wasm_bindgen};

use super::office::Office;
use super::{misuse, object};
use crate::first::scene::frame::Frame;
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
    /// [`crate::page::plan::handles::HandleMove`].
    #[wasm_bindgen(typescript_type = "HandleMove | null")]
    pub type JsHandleMove;
}

fn frame_of(numbers: &[f64]) -> Result<Frame, JsError> {
    Frame::from_numbers(numbers).ok_or_else(|| misuse("frame: as the desk gives it"))
}

#[wasm_bindgen]
impl Office {
    /// What can be moved in a drawing whose frame the desk gave.
    ///
    /// # Errors
    /// No frame.
    pub fn handles(&self, frame: &[f64]) -> Result<JsHandles, JsError> {
        let frame = frame_of(frame)?;
        let found = handles::handles(self.inner.voice(), self.inner.case(), &frame);
        Ok(object(&found)?.into())
    }

    /// What a pointer at a place of the drawing, px, takes hold of; null: nothing. `coarse`: it is
    /// a finger.
    ///
    /// # Errors
    /// No frame.
    pub fn handle_at(
        &self,
        frame: &[f64],
        x_px: f64,
        y_px: f64,
        coarse: bool,
    ) -> Result<JsHandle, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.case());
        let found = handles::handle_at(voice, case, &frame_of(frame)?, x_px, y_px, coarse);
        Ok(object(&found)?.into())
    }

    /// The change of a field by a drag, from the value that it began at, m, by so many px of the
    /// frame that it began in; null: there is no such handle.
    ///
    /// # Errors
    /// No frame.
    pub fn handle_dragged(
        &self,
        frame: &[f64],
        key: &str,
        start_m: f64,
        by_x_px: f64,
        by_y_px: f64,
    ) -> Result<JsHandleMove, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.case());
        let by_px = (by_x_px, by_y_px);
        let to = handles::dragged(voice, case, &frame_of(frame)?, key, start_m, by_px);
        Ok(object(&to)?.into())
    }

    /// The change of a field by a key; null: there is no such handle.
    ///
    /// # Errors
    /// No frame.
    pub fn handle_stepped(
        &self,
        frame: &[f64],
        key: &str,
        steps: f64,
        long: bool,
    ) -> Result<JsHandleMove, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.case());
        let to = handles::stepped(voice, case, &frame_of(frame)?, key, steps, long);
        Ok(object(&to)?.into())
    }
}
