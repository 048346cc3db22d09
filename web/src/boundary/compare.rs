//! Layouts side by side, for the page's scripts.

use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::HtmlCanvasElement;

use super::page::Page;
use super::{misuse, object, prepared};
use crate::first::scene::canvas::CanvasSurface;
use crate::first::scene::theme::Theme;
use crate::page::compare::shelf;
use crate::page::share::GIVEN;
use crate::wire::case_json;

#[wasm_bindgen]
extern "C" {
    /// [`shelf::Compared`].
    #[wasm_bindgen(typescript_type = "Compared")]
    pub type JsCompared;
    /// [`crate::page::share::ShareView`].
    #[wasm_bindgen(typescript_type = "ShareView")]
    pub type JsShareView;
}

#[wasm_bindgen]
impl Page {
    /// Takes all layouts from the shelf.
    pub fn shelf_clear(&mut self) {
        self.inner.shelf = shelf::Shelf::default();
    }

    /// Puts up a set from its text, not yet solved. Gives nothing when it was taken, else what is wrong
    /// with it, in words; nothing is changed then.
    pub fn shelf_open(&mut self, text: &str) -> Option<String> {
        match shelf::Shelf::open(text) {
            Ok(set) => {
                self.inner.shelf = set;
                None
            }
            Err(fault) => Some(shelf::set_fault(self.inner.voice(), &fault)),
        }
    }

    /// Opens what a link with layouts brought: the first of them is the shown case. Gives nothing when it was
    /// taken, else what is wrong with it, in words; nothing is changed then.
    pub fn open_set(&mut self, fragment: &str) -> Option<String> {
        self.inner.open_set(fragment).err()
    }

    /// A set of layouts as a link, without `#`, with the page's units and language.
    pub fn set_link(&self, set: &str) -> String {
        self.inner.set_link(set)
    }

    /// What is shown of what is given away: `case`, `layouts` or `talk`. `room`: that of the page, as its
    /// address has it; `kept`: the set of layouts that the device keeps; `address`: that of the page, without
    /// a fragment.
    ///
    /// # Errors
    /// There is nothing of that name.
    pub fn share(
        &mut self,
        given: &str,
        room: &str,
        kept: &str,
        address: &str,
    ) -> Result<JsShareView, JsError> {
        let found = GIVEN.iter().find(|(key, _)| *key == given);
        let given = found
            .ok_or_else(|| misuse("given: case, layouts or talk"))?
            .1;
        Ok(object(&self.whole().share(given, room, kept, address))?.into())
    }

    /// The set as text, for the browser's storage and for a file; empty while layouts are waited
    /// for.
    pub fn shelf_text(&self) -> String {
        self.inner.shelf.text().unwrap_or_default()
    }

    /// Takes in what the planner found of a layout; false: it found nothing.
    pub fn shelf_take_in(&mut self, layout: usize, numbers: &[f64]) -> bool {
        self.inner.shelf.take_in(layout, numbers)
    }

    /// Takes in what the planner found to be the worst anywhere on the line of a layout; false: it is not
    /// about that.
    pub fn shelf_take_anywhere(&mut self, layout: usize, numbers: &[f64]) -> bool {
        self.inner.shelf.take_anywhere(layout, numbers)
    }

    /// Adds the shown case, not yet solved; false when there is no room for it.
    pub fn shelf_add(&mut self, name: &str) -> bool {
        self.inner.shelve(name).is_ok()
    }

    /// Takes a layout away.
    pub fn shelf_remove(&mut self, layout: usize) {
        self.inner.shelf.remove(layout);
    }

    /// Loads a layout, as one change.
    pub fn shelf_load(&mut self, layout: usize) {
        self.inner.load_layout(layout);
    }

    /// The text of a layout's case, for the planner; empty when there is none.
    pub fn shelf_case_text(&self, layout: usize) -> String {
        let case = self.inner.shelf.case(layout);
        case.and_then(case_json::to_text).unwrap_or_default()
    }

    /// What the page shows.
    ///
    /// # Errors
    /// Never in practice: the engine refuses an object.
    pub fn shelf_view(&self) -> Result<JsCompared, JsError> {
        Ok(object(&self.inner.compared())?.into())
    }

    /// The figures as CSV.
    pub fn shelf_csv(&self) -> String {
        self.inner.shelf.csv(self.inner.voice())
    }

    /// Height that every drawing takes at this width, CSS px.
    pub fn shelf_height_px(&self, width_px: f64) -> f64 {
        self.inner.shelf.height_px(width_px)
    }

    /// Draws a layout; all drawings have one scale.
    ///
    /// # Errors
    /// The browser gives no context.
    pub fn shelf_draw(
        &self,
        canvas: &HtmlCanvasElement,
        layout: usize,
        width_px: f64,
        dpr: f64,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        let context = prepared(canvas, width_px, self.shelf_height_px(width_px), dpr)?;
        let theme = Theme::from_js(theme);
        let mut surface = CanvasSurface::new(&context, &theme.font);
        let sheet = shelf::Sheet { width_px, dpr };
        self.inner.shelf.draw(&mut surface, &theme, layout, sheet);
        Ok(())
    }

    /// Draws all layouts with their figures as one picture.
    ///
    /// # Errors
    /// The browser gives no context.
    pub fn shelf_picture(
        &self,
        canvas: &HtmlCanvasElement,
        theme: &JsValue,
    ) -> Result<(), JsError> {
        const DPR: f64 = 2.0;
        let voice = self.inner.voice();
        let (width_px, height_px) = self.inner.shelf.picture_px();
        let context = prepared(canvas, width_px, height_px, DPR)?;
        let theme = Theme::from_js(theme);
        let mut surface = CanvasSurface::new(&context, &theme.font);
        self.inner.shelf.picture(&mut surface, voice, &theme, DPR);
        Ok(())
    }
}
