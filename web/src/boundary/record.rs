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
use crate::page::record::lines::{self, Lines};
use crate::page::record::{self, calendar, file};
use crate::say::format::number;
use crate::wire::case_json;

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
    /// [`crate::page::record::paper::Block`], a list of them.
    #[wasm_bindgen(typescript_type = "Block[]")]
    pub type JsBlocks;
    /// [`crate::page::record::round::LinesView`].
    #[wasm_bindgen(typescript_type = "LinesView")]
    pub type JsLines;
    /// [`crate::page::record::round::NextLine`].
    #[wasm_bindgen(typescript_type = "NextLine | null")]
    pub type JsNextLine;
    /// [`TakenLines`].
    #[wasm_bindgen(typescript_type = "TakenLines | null")]
    pub type JsTakenLines;
    /// [`crate::page::record::site::SavedFile`].
    #[wasm_bindgen(typescript_type = "SavedFile | null")]
    pub type JsSavedFile;
}

/// What was done with the lines of a file.
#[derive(Debug, serde::Serialize)]
struct TakenLines {
    /// In words.
    message: String,
    /// Whether points stay failed although the file says otherwise.
    bad: bool,
}

/// The day of an instant on the site, as 2026-03-04: `now_ms` since 1970 began in UTC, `behind_min`,
/// by how many minutes the browser's clock is behind that.
#[wasm_bindgen]
pub fn day(now_ms: f64, behind_min: f64) -> String {
    calendar::day_of(now_ms, behind_min)
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

    /// The inspection of the job at hand; `today`: see `day` above.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn inspection(&self, book: &SiteBook, today: &str) -> Result<JsInspection, JsError> {
        Ok(object(&self.inner.inspection(&book.inner, today))?.into())
    }

    /// Takes what was found at a point of the inspection: `pass`, `fail`, `not_applicable`, or
    /// nothing. An inspection without a day is of `date`.
    ///
    /// # Errors
    /// There is no such point.
    pub fn look(
        &self,
        book: &mut SiteBook,
        point: &str,
        found: &str,
        note: &str,
        date: &str,
    ) -> Result<(), JsError> {
        let said = (found, note);
        let taken = self.inner.look(&mut book.inner, point, said, date);
        taken.ok_or_else(|| misuse(&format!("no point {point}, or no room")))
    }

    /// Says day and name of the inspection.
    pub fn sign(&self, book: &mut SiteBook, date: &str, name: &str) {
        book.inner.sign(self.inner.job(), date, name);
    }

    /// Forgets the inspection of the job at hand, but for what failed.
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
    pub fn found_line(&mut self, book: &SiteBook) -> Result<JsFoundView, JsError> {
        let page = self.whole();
        let found = page.found_line(&page.readings.site(), &book.inner);
        Ok(object(&found)?.into())
    }

    /// What a rescue plan has to answer for the case at hand, as it is printed; empty when there is no
    /// result.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn rescue(&mut self) -> Result<JsBlocks, JsError> {
        Ok(object(&self.whole().rescue())?.into())
    }

    /// Takes the lines that the device keeps from their text; false: that cannot be read, and nothing is
    /// changed.
    pub fn lines_open(&mut self, text: &str) -> bool {
        let lines = Lines::from_text(text);
        let read = lines.is_ok();
        self.inner.round.lines =
            lines.unwrap_or_else(|_| core::mem::take(&mut self.inner.round.lines));
        read
    }

    /// The text of the lines, to keep.
    pub fn lines_text(&self) -> String {
        self.inner.round.lines.text(None)
    }

    /// How many lines are kept.
    pub fn lines_count(&self) -> usize {
        self.inner.round.lines.lines.len()
    }

    /// The list of the lines; `today`: see `day` above.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn lines(&self, book: &SiteBook, today: &str) -> Result<JsLines, JsError> {
        Ok(object(&self.inner.lines(&book.inner, today))?.into())
    }

    /// Keeps the shown case among the lines; `instead`: in place of another case of its name. False:
    /// there is no room.
    pub fn lines_keep(&mut self, now_ms: f64, instead: bool) -> bool {
        let (case, kept_s) = (self.inner.case().clone(), lines::kept_s(now_ms));
        let lines = &mut self.inner.round.lines;
        if instead {
            lines.keep_instead(&case, kept_s)
        } else {
            lines.keep(&case, kept_s)
        }
    }

    /// Takes a line out of the list.
    pub fn lines_remove(&mut self, place: usize) {
        self.inner.round.lines.remove(place);
    }

    /// Opens a line, as one change; false: there is none.
    pub fn lines_load(&mut self, place: usize) -> bool {
        self.inner.open_line(place)
    }

    /// The text of a line's case, for the planner; empty when there is none.
    pub fn lines_case_text(&self, place: usize) -> String {
        let line = self.inner.round.lines.lines.get(place);
        line.and_then(|line| case_json::to_text(&line.case))
            .unwrap_or_default()
    }

    /// Takes in what the planner found of a line, see [`Page::shelf_take_in`].
    pub fn lines_take_in(&mut self, place: usize, numbers: &[f64]) {
        self.inner.round.take_in(place, numbers);
    }

    /// Takes in what the planner found to be the worst anywhere on a line; false: it is not about that.
    pub fn lines_take_anywhere(&mut self, place: usize, numbers: &[f64]) -> bool {
        self.inner.round.take_anywhere(place, numbers)
    }

    /// The next line of the round that has no reading of today; null: there is none.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn lines_next(&self, book: &SiteBook, today: &str) -> Result<JsNextLine, JsError> {
        let (voice, case) = (self.inner.voice(), self.inner.case());
        let next = self.inner.round.next(voice, case, &book.inner, today);
        Ok(object(&next)?.into())
    }

    /// Takes in lines and book of an opened file, all or nothing, and says what was done. Nothing: there
    /// is not room for all.
    pub fn lines_take_file(
        &mut self,
        book: &mut SiteBook,
        lines: &str,
        site: &str,
    ) -> Result<JsTakenLines, JsError> {
        let read = Lines::from_text(lines).ok().zip(Book::from_text(site).ok());
        let (lines, site) = read.ok_or_else(|| misuse("lines: the texts of an opened file"))?;
        let taken = self.inner.take_lines(&mut book.inner, lines, site);
        Ok(object(&taken.map(|(message, stay)| TakenLines {
            message,
            bad: !stay.is_empty(),
        }))?
        .into())
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

    /// Opens a file. A `case` is loaded, as one change; `site` comes with a text for the book, `lines`
    /// with one for the lines as well, `fault` with what is wrong.
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

    /// A file to save: `case`, `csv`, `svg`, `site` or `lines`. Null when there is no result.
    ///
    /// # Errors
    /// There is no such file.
    pub fn save(&mut self, kind: &str, book: &SiteBook) -> Result<JsSavedFile, JsError> {
        let ruler = Ruler::new();
        let measure = |text: &str, face| ruler.width(text, face);
        let saved = self.whole().save(kind, &book.inner, &measure);
        let saved = saved.ok_or_else(|| misuse("file: case, csv, svg, site or lines"))?;
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
