//! The record for the page's scripts: sheets, inspection, log, files, the line as it is found.

use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use super::page::Page;
use super::{misuse, object, prepared};
use crate::first::scene::canvas::CanvasSurface;
use crate::first::scene::surface::{Face, Surface as _};
use crate::first::scene::svg;
use crate::first::scene::theme::Theme;
use crate::page::kept;
use crate::page::record::as_found::Site;
use crate::page::record::book::Book;
use crate::page::record::further::{FURTHER, Further};
use crate::page::record::{self, file};
use crate::say::format::number;

#[wasm_bindgen(typescript_custom_section)]
const SHAPES: &str = record::TYPESCRIPT;

#[wasm_bindgen(typescript_custom_section)]
const KEPT_SHAPE: &str = kept::TYPESCRIPT;

#[wasm_bindgen]
extern "C" {
    /// [`crate::page::record::paper::Paper`].
    #[wasm_bindgen(typescript_type = "Paper | null")]
    pub type JsPaper;
    /// [`crate::page::record::site::InspectionView`].
    #[wasm_bindgen(typescript_type = "InspectionView")]
    pub type JsInspection;
    /// [`crate::page::record::site::LogView`].
    #[wasm_bindgen(typescript_type = "LogView")]
    pub type JsLog;
    /// [`crate::page::record::as_found::FoundView`].
    #[wasm_bindgen(typescript_type = "FoundView | null")]
    pub type JsFoundView;
    /// [`crate::page::record::site::OpenedFile`].
    #[wasm_bindgen(typescript_type = "OpenedFile")]
    pub type JsOpenedFile;
    /// [`crate::page::kept::KeptText`].
    #[wasm_bindgen(typescript_type = "KeptText")]
    pub type JsKept;
    /// [`crate::page::record::site::SavedFile`].
    #[wasm_bindgen(typescript_type = "SavedFile | null")]
    pub type JsSavedFile;
}

/// Brings a change of what is kept on the device together with what stands there now: `base`, what
/// the tab began with, `mine`, what it makes of it. `key`: see [`kept::KINDS`].
///
/// # Errors
/// There is no such key.
#[wasm_bindgen]
pub fn kept_merge(
    key: &str,
    base: Option<String>,
    mine: &str,
    stored: Option<String>,
) -> Result<JsKept, JsError> {
    let merged = kept::merge(kept_kind(key)?, base.as_deref(), mine, stored.as_deref());
    Ok(object(&merged)?.into())
}

/// Whether a text that is kept under a key can be read.
///
/// # Errors
/// There is no such key.
#[wasm_bindgen]
pub fn kept_reads(key: &str, text: &str) -> Result<bool, JsError> {
    Ok(kept::reads(kept_kind(key)?, text))
}

fn kept_kind(key: &str) -> Result<kept::KeptKind, JsError> {
    let kind = kept::KINDS.iter().find(|(k, _)| *k == key);
    kind.map(|(_, kind)| *kind)
        .ok_or_else(|| misuse("no such key"))
}

/// Inspections and the daily log, as long as the page is open; the page keeps its text.
#[wasm_bindgen]
#[derive(Debug, Default)]
pub struct SiteBook {
    pub(super) inner: Book,
}

#[wasm_bindgen]
impl SiteBook {
    /// A book from the text that was kept; `undefined` when that cannot be read.
    pub fn from_text(text: &str) -> Option<SiteBook> {
        Book::from_text(text).ok().map(|inner| Self { inner })
    }

    /// An empty book.
    #[wasm_bindgen(constructor)]
    pub fn new() -> SiteBook {
        Self::default()
    }

    /// The text to keep.
    pub fn text(&self) -> String {
        self.inner.text()
    }

    /// Adds what the text of another book holds. Gives the points that stay failed although that one
    /// says otherwise; nothing when there is no room or it is no book, and then nothing is changed.
    pub fn take_in(&mut self, text: &str) -> Option<Vec<usize>> {
        self.inner.take_in(Book::from_text(text).ok()?)
    }

    /// Takes an entry out of the log, by its place.
    pub fn remove(&mut self, place: usize) {
        self.inner.remove(place);
    }
}

/// Measures texts with a canvas that nobody sees; without one they are estimated.
pub(super) struct Ruler {
    context: Option<CanvasRenderingContext2d>,
}

impl Ruler {
    pub(super) fn new() -> Self {
        let document = web_sys::window().and_then(|w| w.document());
        let canvas = document.and_then(|d| d.create_element("canvas").ok());
        let canvas = canvas.and_then(|c| c.dyn_into::<HtmlCanvasElement>().ok());
        let context = canvas.and_then(|c| c.get_context("2d").ok().flatten());
        Self {
            context: context.and_then(|c| c.dyn_into().ok()),
        }
    }

    pub(super) fn width(&self, text: &str, face: Face) -> f64 {
        let estimated = || svg::estimated_width(text, face);
        let Some(context) = &self.context else {
            return estimated();
        };
        let weight = if face.bold { "bold" } else { "normal" };
        let size = number(face.size_px, 1);
        context.set_font(&format!("{weight} {size}px {}", svg::FONT));
        context
            .measure_text(text)
            .map_or_else(|_| estimated(), |m| m.width())
    }
}

#[wasm_bindgen]
impl Page {
    /// What is printed: `record`, `tag` or `sign_in`. `further`: keys of the sheets that are printed
    /// with the record, blanks between them. `address` is that of the page, without a fragment.
    /// Null when there is no result.
    ///
    /// # Errors
    /// There is no such sheet.
    pub fn paper(
        &mut self,
        kind: &str,
        further: &str,
        book: &SiteBook,
        address: &str,
    ) -> Result<JsPaper, JsError> {
        if !["record", "tag", "sign_in"].contains(&kind) {
            return Err(misuse("sheet: record, tag or sign_in"));
        }
        let further = Further::of_keys(further).ok_or_else(|| misuse("no such further sheet"))?;
        let ruler = Ruler::new();
        let measure = |text: &str, face| ruler.width(text, face);
        let paper = self
            .whole()
            .paper(kind, &further, &book.inner, address, &measure);
        Ok(object(&paper)?.into())
    }

    /// The inspection of the job at hand.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn inspection(&self, book: &SiteBook) -> Result<JsInspection, JsError> {
        Ok(object(&self.inner.inspection(&book.inner))?.into())
    }

    /// Takes what was found at a point of the inspection: `pass`, `fail`, `not_applicable`, or
    /// nothing.
    ///
    /// # Errors
    /// There is no such point.
    pub fn look(
        &self,
        book: &mut SiteBook,
        point: &str,
        found: &str,
        note: &str,
    ) -> Result<(), JsError> {
        let job = self.inner.job();
        let taken = book.inner.look(job, point, found, note);
        taken.ok_or_else(|| misuse(&format!("no point {point}, or no room")))
    }

    /// Says day and name of the inspection.
    pub fn sign(&self, book: &mut SiteBook, date: &str, name: &str) {
        book.inner.sign(self.inner.job(), date, name);
    }

    /// Forgets the inspection of the job at hand.
    pub fn clear_inspection(&self, book: &mut SiteBook) {
        book.inner.clear(self.inner.job());
    }

    /// The log of the job at hand.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn log(&self, book: &SiteBook) -> Result<JsLog, JsError> {
        Ok(object(&self.inner.log(&book.inner))?.into())
    }

    /// The line as it is found, by the readings. Null when there is no result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn found_line(&mut self) -> Result<JsFoundView, JsError> {
        let page = self.whole();
        Ok(object(&page.found_line(&page.readings.site()))?.into())
    }

    /// Enters a day in the log, with the readings. Gives nothing when it was entered, else what is
    /// wrong, in words.
    pub fn enter(&self, book: &mut SiteBook, date: &str, name: &str, note: &str) -> Option<String> {
        let site = Site {
            height: "",
            depth: "",
            ..self.inner.readings.site()
        };
        self.inner
            .enter(&mut book.inner, &site, (date, name, note))
            .err()
    }

    /// Opens a file. A `case` is loaded, as one change; `site` comes with a text for the book, `fault`
    /// with what is wrong.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn open_file(&mut self, bytes: &[u8]) -> Result<JsOpenedFile, JsError> {
        Ok(object(&self.inner.open_file(bytes))?.into())
    }

    /// Keys of the sheets that may be printed with the record.
    pub fn further_sheets() -> Vec<String> {
        FURTHER.map(|(key, _)| key.to_owned()).to_vec()
    }

    /// Most bytes of a file that is read.
    pub fn file_limit() -> usize {
        file::FILE_MAX
    }

    /// A file to save: `case`, `csv`, `svg` or `site`. Null when there is no result.
    ///
    /// # Errors
    /// There is no such file.
    pub fn save(&mut self, kind: &str, book: &SiteBook) -> Result<JsSavedFile, JsError> {
        let ruler = Ruler::new();
        let measure = |text: &str, face| ruler.width(text, face);
        let saved = self.whole().save(kind, &book.inner, &measure);
        let saved = saved.ok_or_else(|| misuse("file: case, csv, svg or site"))?;
        Ok(object(&saved)?.into())
    }

    /// That points of the inspection stay failed, and which; empty: none does.
    pub fn stay_failed(&self, points: &[usize]) -> String {
        self.inner.stay_failed(points)
    }

    /// Draws the picture of the drop at an instant, s, for a file: under the drawing stands what has
    /// to stand beside the answer, so that the canvas becomes higher than the drawing. Nothing is
    /// drawn when there is no result.
    ///
    /// # Errors
    /// The browser gives no context.
    pub fn draw_picture(
        &mut self,
        canvas: &HtmlCanvasElement,
        width_px: f64,
        drawing_px: f64,
        time_s: f64,
        theme: &JsValue,
    ) -> Result<bool, JsError> {
        let Some(told) = self.whole().told() else {
            return Ok(false);
        };
        let theme = Theme::from_js(theme);
        let context = prepared(canvas, width_px, drawing_px, 1.0)?;
        let height_px = {
            let measured = CanvasSurface::new(&context, &theme.font);
            let width = |text: &str, face| measured.text_width(text, face);
            record::drawing::picture_height_px(&told, &width, width_px, drawing_px)
        };
        let context = prepared(canvas, width_px, height_px, 1.0)?;
        let mut surface = CanvasSurface::new(&context, &theme.font);
        let size = [width_px, drawing_px, 1.0];
        record::drawing::picture(&mut surface, &told, &theme, size, time_s);
        Ok(true)
    }

    /// Name of the picture of the drop as a file.
    pub fn picture_name(&self) -> String {
        record::site::file_name(self.inner.job(), "png")
    }
}
