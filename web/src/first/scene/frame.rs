//! The frame of a drawing: how its px and the metres of the elevation belong together.

use super::layout::Layout;

/// Where the elevation stands on the sheet, and at what scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Left edge of the elevation, CSS px.
    pub left_px: f64,
    /// Upper edge, CSS px.
    pub top_px: f64,
    /// Right edge, CSS px.
    pub right_px: f64,
    /// Lower edge, CSS px.
    pub bottom_px: f64,
    /// Scale, CSS px per m.
    pub px_per_m: f64,
    /// Place at the left edge, m.
    pub left_m: f64,
    /// Elevation at the upper edge, m.
    pub top_m: f64,
}

impl Frame {
    /// The frame of a layout.
    pub fn of(layout: &Layout) -> Self {
        Self {
            left_px: layout.drop.x,
            top_px: layout.drop.y,
            right_px: layout.drop.right(),
            bottom_px: layout.drop.bottom(),
            px_per_m: layout.px_per_m,
            left_m: layout.left_m,
            top_m: layout.top_m,
        }
    }

    /// Where a place along the line stands, px.
    pub fn x_px(&self, place_m: f64) -> f64 {
        self.left_px + (place_m - self.left_m) * self.px_per_m
    }

    /// Where an elevation stands, px.
    pub fn y_px(&self, elevation_m: f64) -> f64 {
        self.top_px + (self.top_m - elevation_m) * self.px_per_m
    }

    /// The elevation of a height on the sheet, m.
    pub fn elevation_m(&self, y_px: f64) -> f64 {
        self.top_m - (y_px - self.top_px) / self.px_per_m
    }
}
