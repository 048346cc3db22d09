//! The boundary between the page and the program: every function that the page's scripts call.
//!
//! Nothing is computed here. What the visitor typed wrongly comes back in [`crate::first::view::View`];
//! only a mistake of the page's own scripts throws.
//!
//! The first module and the whole each export one object, [`page::Page`]. In the first it shows a case;
//! in the whole it owns all that is on the page, and the files beside [`page`] add what its views ask.
//! Beside it stands the site book, which several tabs write. The third module is the [`planner`], for
//! workers, which have a memory of their own.

#[cfg(feature = "office")]
mod compare;
#[cfg(feature = "office")]
pub mod drawn;
#[cfg(feature = "office")]
mod editing;
#[cfg(feature = "office")]
mod fit;
#[cfg(feature = "office")]
mod guess;
#[cfg(feature = "office")]
mod handles;
#[cfg(any(feature = "office", not(feature = "planner")))]
pub mod page;
#[cfg(feature = "office")]
mod plan;
#[cfg(feature = "planner")]
pub mod planner;
#[cfg(feature = "office")]
pub mod record;
#[cfg(feature = "office")]
mod spread;
#[cfg(feature = "office")]
mod talk;

use serde::Serialize;
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
#[cfg(any(feature = "office", not(feature = "planner")))]
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

#[cfg(any(feature = "office", not(feature = "planner")))]
use crate::first::scene::canvas;
#[cfg(any(feature = "office", feature = "planner"))]
use crate::page::fit::sweep::Across;
use crate::say::format::{Lang, Units};

#[wasm_bindgen(typescript_custom_section)]
const SHAPES: &str = crate::first::view::TYPESCRIPT;

#[cfg(any(feature = "office", feature = "planner"))]
#[wasm_bindgen(typescript_custom_section)]
const PAGE_SHAPES: &str = crate::page::shapes::TYPESCRIPT;

#[wasm_bindgen]
extern "C" {
    /// Texts of the page by key.
    #[wasm_bindgen(typescript_type = "Record<string, string>")]
    pub type JsTexts;
}

/// A mistake of the page's scripts.
fn misuse(message: &str) -> JsError {
    JsError::new(message)
}

#[cfg(any(feature = "office", not(feature = "planner")))]
/// A canvas with nothing drawn yet, see [`canvas::prepare`].
fn prepared(
    canvas: &HtmlCanvasElement,
    width_px: f64,
    height_px: f64,
    dpr: f64,
) -> Result<CanvasRenderingContext2d, JsError> {
    canvas::prepare(canvas, width_px, height_px, dpr).ok_or_else(|| misuse("no canvas context"))
}

fn language_of(key: &str) -> Result<Lang, JsError> {
    Lang::from_key(key).ok_or_else(|| misuse("language: en or es"))
}

fn units_of(key: &str) -> Result<Units, JsError> {
    Units::from_key(key).ok_or_else(|| misuse("units: metric or us"))
}

/// A chart of one input by its key.
#[cfg(any(feature = "office", feature = "planner"))]
fn across_of(key: &str) -> Result<Across, JsError> {
    Across::from_key(key).ok_or_else(|| misuse("chart: users, span, pretension, delay, drop"))
}

/// A plain object; what is not there is null.
fn object(value: &impl Serialize) -> Result<JsValue, JsError> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    value
        .serialize(&serializer)
        .map_err(|fault| misuse(&fault.to_string()))
}

#[cfg(any(feature = "office", not(feature = "planner")))]
/// Texts by key as an object.
fn texts_object(entries: Vec<(&'static str, &'static str)>) -> Result<JsTexts, JsError> {
    let object = js_sys::Object::new();
    for (key, text) in entries {
        js_sys::Reflect::set(&object, &key.into(), &text.into()).map_err(|_| misuse("texts"))?;
    }
    Ok(JsValue::from(object).into())
}
