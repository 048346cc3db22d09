//! Layouts side by side, and the text in which a set of them travels.

pub mod layouts_diff;
pub mod layouts_link;
pub mod shelf;
pub mod solved;
