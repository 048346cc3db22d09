//! What the page says: texts by language, numbers as they are shown and typed, faults in words.

pub mod curve;
pub mod faults;
pub mod format;
pub mod input;
pub mod names;
pub mod texts;
pub mod typed;
