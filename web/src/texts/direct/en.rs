//! English.

use super::Texts;

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    direct_heading: "Move things in the drawing",
    direct_help: "Arrow keys move it, with Shift ten times as far; Page Up and Page Down go to the next thing.",
    direct_hint: "Drag a worker, a post, the line, what stands below, or its edges.",
    direct_post: "Place of intermediate post {}",
};
