//! The boundary between the page and the mechanics.
pub mod fault_text;
pub mod fields;
pub mod format;
pub mod input;
pub mod link;
pub mod scene;
pub mod shown;
pub mod texts;
pub mod view;

use wasm_bindgen::prelude::wasm_bindgen;

/// Version of the program, as in its manifest.
#[wasm_bindgen]
pub fn version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}
