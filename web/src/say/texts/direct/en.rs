//! English.

use super::Texts;

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    direct_heading: "Move things in the drawing",
    direct_help: "Arrow keys move it, with Shift ten times as far; Page Up and Page Down go to the next one.",
    direct_hint: "Drag a worker, a post, the line, an obstruction or its edges.",
    direct_post: "Position of intermediate post {}",
};
