//! A layout drawn small, to stand beside others at the same scale: beam, posts, line and crew at
//! the lowest instant, what is below; no texts.

use footroom_core::case::Case;
use footroom_core::solve::Outcome;

use super::label::Labels;
use super::layout::{BEAM_END_M, Layout};
use super::moment::{Moment, held};
use super::pen::Pen;
use super::people::{self, Look};
use super::surface::{Face, Rect, Surface};
use super::theme::Theme;
use super::{crew_order, line, site, tamed};

/// Elevation over the tallest head, and depth under the datum or the lowest soles, m.
const EDGE_M: f64 = 0.3;
/// Deepest drawing: a taller drop is cut off under this depth, m.
const DEPTH_MAX_M: f64 = 14.0;

/// Width and height that a layout takes, m: to the datum, or to the greatest depth drawn.
pub fn size_m(case: &Case) -> (f64, f64) {
    let case = tamed(case);
    let frame = frame(&case);
    (
        case.line.length_m() + 2.0 * frame.over_m,
        frame.top_m - frame.floor_m,
    )
}

struct Frame {
    over_m: f64,
    top_m: f64,
    floor_m: f64,
}

fn frame(case: &Case) -> Frame {
    let height_m = case.line.height_above_beam_m;
    let tallest_m = case
        .workers
        .iter()
        .fold(1.5, |tall: f64, w| tall.max(1.22 * w.dring_height_m));
    let top_m = case.site.beam_top_m + tallest_m.max(height_m) + EDGE_M;
    Frame {
        over_m: height_m.clamp(0.4, 4.0) + BEAM_END_M,
        top_m,
        floor_m: (top_m - DEPTH_MAX_M).max(0.0),
    }
}

/// Draws a layout into `area` of a sheet that was begun, at `px_per_m`; `time_s`: the instant.
pub fn draw(
    surface: &mut dyn Surface,
    theme: &Theme,
    area: Rect,
    px_per_m: f64,
    case: &Case,
    outcome: Option<&Outcome>,
    time_s: f64,
) {
    let case = &tamed(case);
    let Frame {
        over_m,
        top_m,
        floor_m,
    } = frame(case);
    let length_m = held(case.line.length_m(), 0.5, 1.0e5);
    let px_per_m = held(px_per_m, 0.1, 1.0e4);
    let drop = Rect {
        w: (length_m + 2.0 * over_m) * px_per_m,
        h: (top_m - floor_m) * px_per_m,
        ..area
    };
    let layout = Layout {
        px_per_m,
        drop,
        ladder: drop,
        left_m: -over_m,
        top_m,
        floor_m,
        line_level_m: case.site.beam_top_m + case.line.height_above_beam_m,
        beam_top_m: case.site.beam_top_m,
        length_m,
        set_back_m: over_m - BEAM_END_M,
        cropped: false,
        broken_px: 0.0,
    };
    let mut pen = Pen {
        surface,
        theme,
        labels: Labels::default(),
        sheet: area,
        face: Face {
            size_px: 12.0,
            bold: false,
        },
    };
    let moment = Moment::at(case, outcome, held(time_s, 0.0, 1.0e6));
    let focus = outcome.map_or(0, |o| o.governing_worker);
    // What lies deeper than the drawing goes is cut off at its foot.
    pen.surface.path();
    pen.surface.rect(area);
    pen.surface.clip();
    site::ground(&mut pen, &layout, drop.right());
    for thing in &case.site.below {
        site::below(&mut pen, &layout, thing);
    }
    site::beam(&mut pen, &layout, case);
    line::posts(&mut pen, &layout, &case.line.spans_m);
    line::rope(&mut pen, &layout, &moment, &case.line.spans_m);
    line::inline_absorbers(&mut pen, &layout, &moment, &case.line);
    for index in crew_order(moment.workers.len(), focus) {
        let Some(worker) = moment.workers.get(index) else {
            continue;
        };
        let look = match (worker.struck, index == focus) {
            (true, _) => Look::Struck,
            (_, true) => Look::Focus,
            _ => Look::Other,
        };
        people::draw(&mut pen, &layout, worker, index, look);
    }
    pen.surface.unclip();
}

#[cfg(test)]
mod tests {
    use super::super::recording::Recording;
    use super::*;
    use footroom_core::demo::demo;
    use footroom_core::solve::{Options, solve};

    #[test]
    fn a_layout_keeps_to_its_scale_and_writes_nothing() {
        let mut tall = demo();
        tall.site.beam_top_m = 60.0;
        for case in [demo(), tall] {
            let options = Options {
                traces: true,
                ..Options::default()
            };
            let outcome = solve(&case, options).expect("no faults");
            let (width_m, height_m) = size_m(&case);
            assert!(width_m > case.line.length_m() && height_m <= DEPTH_MAX_M + 1e-9);
            let area = Rect {
                x: 10.0,
                y: 20.0,
                w: width_m * 15.0,
                h: height_m * 15.0,
            };
            let mut sheet = Recording::default();
            draw(
                &mut sheet,
                &Theme::default(),
                area,
                15.0,
                &case,
                Some(&outcome),
                1.0,
            );
            assert!(sheet.strokes.len() > 20 && sheet.texts.is_empty());
            assert_eq!((sheet.bad, sheet.open_clips()), (0, 0));
        }
    }
}
