//! How a case travels: links, JSON, numbers as text.

pub mod base64_url;
pub mod case_json;
pub mod decimal;
pub mod inflate;
pub mod json;
pub mod link;
pub mod notes;
pub mod steps;
