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
    scene::draw(
        &mut surface,
        &SceneView {
            case: told.case,
            outcome: Some(told.outcome),
            time_s: told.lowest_time_s(),
            width_px,
            height_px,
            dpr: 1.0,
            theme: &theme,
            texts: told.voice.texts(),
            units: told.voice.units,
            lang: told.voice.lang,
            focus: asked.map(|asked| asked.worker),
            tolerance: asked.and_then(|asked| {
                (asked.tolerance_m > 0.0).then(|| scene::Added {
                    length_m: asked.tolerance_m,
                    name: asked.from.row(told.voice.texts()),
                })
            }),
            cropped: false,
            type_px: None,
        },
    );
    surface.finish()
}
