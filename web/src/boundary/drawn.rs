//! What is kept of the views' drawings.

use crate::first::scene::canvas::Kept;
use crate::first::scene::frame::Frame;
use crate::page::plan::chart::Plotted;

/// See the module.
#[derive(Debug, Default)]
pub struct Drawn {
    /// Of the talk's drawings before.
    pub(super) talk: Kept,
    /// The charts as they were drawn last.
    pub(super) plotted: [Option<Plotted>; 2],
    /// Of the drawing under the guess.
    pub(super) guess: Option<Frame>,
}
