//! English.

use super::Texts;

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    direct_heading: "Move things in the drawing",
    direct_help: "Arrow keys move it, with Shift ten times as far; Page Up and Page Down go to the next thing.",
    direct_hint: "Drag a worker, a post, the line, or the edges of what stands below.",
    direct_post: "Place of intermediate post {}",
};
