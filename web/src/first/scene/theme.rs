//! The colours and the type face of the drawing, by role.
//!
//! The page resolves its custom properties, light, dark or forced colours, and hands the results
//! over; nothing here decides a colour.

use wasm_bindgen::JsValue;

/// Colours as CSS strings, one a role. Every role is told apart by shape or pattern as well.
#[derive(Clone, Debug, PartialEq)]
pub struct Theme {
    /// Outlines, text, posts.
    pub ink: String,
    /// Background of the sheet.
    pub paper: String,
    /// The lifeline and what hangs in it.
    pub line: String,
    /// Energy absorbers.
    pub absorber: String,
    /// Things below, the ground.
    pub below: String,
    /// People.
    pub person: String,
    /// The margin.
    pub margin: String,
    /// The one thing to look at: the governing number, the present time.
    pub accent: String,
    /// Extension lines, hatching, secondary text.
    pub muted: String,
    /// Too short, too much.
    pub warning: String,
    /// The concrete of the beam.
    pub concrete: String,
    /// Family of the type face, as in the CSS font shorthand.
    pub font: String,
}

impl Default for Theme {
    /// Paper and ink: the light set of the page.
    fn default() -> Self {
        let own = str::to_owned;
        Self {
            ink: own("rgb(23, 25, 28)"),
            paper: own("rgb(251, 250, 246)"),
            line: own("rgb(13, 63, 116)"),
            absorber: own("rgb(160, 66, 20)"),
            below: own("rgb(226, 220, 207)"),
            person: own("rgb(23, 25, 28)"),
            margin: own("rgb(226, 220, 207)"),
            accent: own("rgb(13, 63, 116)"),
            muted: own("rgb(98, 96, 90)"),
            warning: own("rgb(163, 29, 29)"),
            concrete: own("rgb(231, 227, 218)"),
            font: own("system-ui, sans-serif"),
        }
    }
}

impl Theme {
    /// Reads an object of strings; a role that is missing or no string keeps its default.
    pub fn from_js(object: &JsValue) -> Self {
        let mut theme = Self::default();
        for (role, place) in theme.roles_mut() {
            let value = js_sys::Reflect::get(object, &JsValue::from_str(role));
            if let Some(text) = value.ok().and_then(|v| v.as_string())
                && !text.is_empty()
            {
                *place = text;
            }
        }
        theme
    }

    /// Every role with its place.
    fn roles_mut(&mut self) -> [(&'static str, &mut String); 12] {
        [
            ("ink", &mut self.ink),
            ("paper", &mut self.paper),
            ("line", &mut self.line),
            ("absorber", &mut self.absorber),
            ("below", &mut self.below),
            ("person", &mut self.person),
            ("margin", &mut self.margin),
            ("accent", &mut self.accent),
            ("muted", &mut self.muted),
            ("warning", &mut self.warning),
            ("concrete", &mut self.concrete),
            ("font", &mut self.font),
        ]
    }
}
