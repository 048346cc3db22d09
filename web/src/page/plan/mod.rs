//! The line as it is planned: the form, what is dragged in the drawing, checks, set-up figures,
//! charts of the fall.

pub mod chart;
pub mod chart_canvas;
pub mod checks;
pub mod editing;
pub mod fields;
pub mod handles;
pub mod places;
pub mod remarks;
pub mod set_up;
pub mod view;
