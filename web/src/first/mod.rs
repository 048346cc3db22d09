//! What the first view needs: the desk with the case, the answer in words, the drop as drawn.

pub mod answer;
pub mod desk;
mod drop;
pub mod governing;
pub mod lines;
pub mod outside_checked;
pub mod readout;
pub mod scene;
pub mod view;
pub mod whole_steps;
