//! The drop at the lowest point with the stack beside it, for paper and for files.

use crate::answer::Told;
use crate::assessed::Asked;
use crate::scene::svg::{Measure, SvgSurface, ink_only};
use crate::scene::{self, SceneView};

/// Draws it as scalable vector graphics, black on white. `name` tells it apart in a page.
pub fn lowest(
    told: &Told<'_>,
    measure: Measure<'_>,
    name: &str,
    width_px: f64,
    height_px: f64,
) -> String {
    let theme = ink_only();
    let asked = Asked::of(told.assessment);
    let mut surface = SvgSurface::new(measure, name, width_px, height_px, &told.description());
    let view = SceneView::new(
        told.case,
        (Some(told.outcome), asked.as_ref()),
        told.voice,
        &theme,
        [width_px, height_px, 1.0],
        told.lowest_time_s(),
    );
    scene::draw(&mut surface, &view);
    surface.finish()
}
