//! The stack: the lengths from line level down to the margin, and the footroom left.

use crate::case::{Case, Worker};
use crate::outcome::Stack;

/// Builds a worker's stack from the deflection of the line at his connector and the stretch of his
/// gear (webbing and absorber together) at his lowest instant.
///
/// Source of the formula: OSHA Technical Manual, Section V, Chapter 4 (total fall clearance), with
/// the line's deflection added.
pub(crate) fn stack(case: &Case, worker: &Worker, deflection_m: f64, stretch_m: f64) -> Stack {
    let line = &case.line;
    let rest_m = line.rest_deflection_m(worker.position_m);
    let moved_m = (deflection_m - rest_m).max(0.0) + stretch_m;
    let mut stack = Stack {
        line_deflection_m: deflection_m,
        lanyard_m: worker.taut_m(line),
        absorber_extension_m: stretch_m,
        allowance_m: case.allowance.clearance_ratio * moved_m,
        harness_stretch_m: worker.harness_stretch_m,
        dring_to_sole_m: worker.dring_height_m,
        margin_m: case.site.margin_m,
        required_m: 0.0,
        available_m: available_m(case, worker),
        footroom_m: 0.0,
    };
    stack.required_m = stack.line_deflection_m
        + stack.lanyard_m
        + stack.absorber_extension_m
        + stack.allowance_m
        + stack.harness_stretch_m
        + stack.dring_to_sole_m
        + stack.margin_m;
    stack.footroom_m = stack.available_m - stack.required_m;
    stack
}

/// Depth from line level down to the highest thing within the worker's reach, m.
pub(crate) fn available_m(case: &Case, worker: &Worker) -> f64 {
    case.line.height_above_beam_m + case.site.beam_top_m
        - case
            .site
            .highest_below_m(worker.position_m, worker.offset_along_m)
}
