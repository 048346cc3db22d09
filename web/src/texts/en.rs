//! English, as crews in North America speak it.

use super::Texts;

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    caution: "A planning and teaching aid. The design, installation and use of a horizontal lifeline belong to a qualified person, under local codes and the equipment makers' instructions. Have a rescue plan in place before use.",
    // scene
};
