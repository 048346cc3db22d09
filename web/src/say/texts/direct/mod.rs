//! What is said where things are moved in the drawing itself.

mod en;
mod es;

use super::text_group;

text_group! {
    /// What is said of moving things in one language.
    Texts {
    }
    page {
        /// Name of the group of handles.
        direct_heading,
        /// How they are moved.
        direct_help,
        /// Where the pointer is on nothing that can be moved.
        direct_hint,
    }
    inner {
        /// An intermediate post, its number for `{}`.
        direct_post,
    }
}
