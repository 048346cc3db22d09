//! What changes the case, for the page's scripts.

use wasm_bindgen::prelude::{JsError, wasm_bindgen};

use super::page::Page;
use super::{misuse, object};
use crate::wire::case_json;

#[wasm_bindgen]
extern "C" {
    /// [`crate::page::plan::view::Form`].
    #[wasm_bindgen(typescript_type = "Form")]
    pub type JsForm;
}

#[wasm_bindgen]
impl Page {
    /// Takes what was typed at a path, see [`crate::say::input`]; read [`Page::view`] after it.
    ///
    /// # Errors
    /// There is no such field.
    pub fn set(&mut self, path: &str, text: &str) -> Result<(), JsError> {
        let set = self.inner.set(path, text, js_sys::Date::now());
        set.map_err(|_| misuse(&format!("no field {path}")))
    }

    /// Starts a line of one's own, as one change.
    pub fn own_line(&mut self) {
        self.inner.own_line();
    }

    /// The inputs as they stand, with what is wrong with them.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn form(&self) -> Result<JsForm, JsError> {
        Ok(object(&self.inner.form())?.into())
    }

    /// Shows no case where the example is all there is: what was to be opened could not be read.
    pub fn refuse(&mut self) {
        self.inner.refuse();
    }

    /// What the fields hold though it cannot be used yet, as text; nothing when all can.
    pub fn unfinished(&self) -> Option<String> {
        self.inner.unfinished()
    }

    /// Puts back into the fields what [`Page::unfinished`] gave, as one change; false when the text
    /// is none of that, and nothing is changed then.
    pub fn resume(&mut self, text: &str) -> bool {
        self.inner.resume(text).is_some()
    }

    /// Takes the last change back; false when there is none.
    pub fn undo(&mut self) -> bool {
        self.inner.undo()
    }

    /// Makes the change last taken back again; false when there is none.
    pub fn redo(&mut self) -> bool {
        self.inner.redo()
    }

    /// The shown case as text, for workers and for what the device keeps; empty when a number of
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
}
