//! What the page is made of, in Rust: texts, numbers as shown, drawing, links.
//!
//! `boundary` is what the page's scripts call. It is built into two modules, so that the first
//! view is small: one with what it needs of the [`desk::Desk`], which keeps the case, words the
//! answer and draws the drop; and, with the feature `office`, the whole that takes its place once
//! the drop is shown: the desk with its form, and the [`office::Office`] with all other views.

pub mod answer;
pub mod assessed;
pub mod base64_url;
mod boundary;
pub mod case_json;
pub mod chart;
pub mod chart_canvas;
pub mod checked;
pub mod checks;
pub mod csv;
pub mod decide;
pub mod decimal;
pub mod desk;
pub mod fault_text;
pub mod fields;
pub mod format;
pub mod guess;
pub mod handles;
pub mod input;
pub mod json;
pub mod kept;
pub mod link;
pub mod office;
pub mod order;
pub mod qr;
pub mod readout;
pub mod record;
pub mod remarks;
pub mod scene;
pub mod search;
pub mod set_up;
pub mod shown;
pub mod steps;
pub mod talk;
pub mod texts;
pub mod view;

#[cfg(feature = "office")]
pub use boundary::decide::Planner;
pub use boundary::desk::{Desk, version};
#[cfg(feature = "office")]
pub use boundary::office::Office;
