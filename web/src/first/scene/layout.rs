//! The scale and the window: which part of the elevation stands where on the sheet.
//!
//! Places are m from the left end post, elevations m above the datum. The ladder beside the
//! drawing uses the same scale.

use footroom_core::case::Case;
use footroom_core::solve::Outcome;

use super::moment::held;
use super::surface::{Point, Rect, at};

/// Least scale at which a person can still be read, px per m.
const LEAST_PX_PER_M: f64 = 27.0;
/// The whole beam is shown as long as its scale is at least this part of what the height allows.
const WHOLE_BEAM_PART: f64 = 0.66;
/// A cropped window is widened to the governing span as long as it keeps this part of the scale.
const WHOLE_SPAN_PART: f64 = 0.9;
/// A window that would show nearly the whole beam shows all of it, at no less than this part of
/// the window's scale.
const NEARLY_PART: f64 = 0.88;
/// Room over the heads, m.
const HEADROOM_M: f64 = 0.2;
/// Beam beyond the tieback's foot, m.
pub const BEAM_END_M: f64 = 0.35;
/// Depth drawn to scale below the required depth when the datum is far away, m.
const BELOW_REQUIRED_M: f64 = 1.6;

/// Widths and heights of what surrounds the drawing, px.
#[derive(Clone, Copy, Debug)]
pub struct Surroundings {
    /// Whole sheet.
    pub sheet: Rect,
    /// Above the highest head: dimension chain, key plan.
    pub top_px: f64,
    /// Below the datum: ground, scale bar.
    pub bottom_px: f64,
    /// The ladder with its texts.
    pub ladder_px: f64,
    /// Empty edge.
    pub edge_px: f64,
    /// What the tolerances add to the required depth, m.
    pub tolerance_m: f64,
    /// The window that several drawings share; `None`: one of its own.
    pub window: Option<Window>,
}

/// What drawings of one sheet share that stand one after another at one scale: how deep they go, what
/// their ladder takes, which span they show.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Greatest required depth below the level of the line supports, m.
    pub required_m: f64,
    /// Greatest available depth, m.
    pub available_m: f64,
    /// Width of the widest ladder, px.
    pub ladder_px: f64,
    /// Whether all of them have room for names.
    pub named: bool,
    /// Left and right edge of the governing span with its posts, m.
    pub span_m: (f64, f64),
    /// First place of those who fall in it, that of the focus worker, and the last, m.
    pub group_m: [f64; 3],
}

impl Window {
    /// The window of both, around the span and the crew of this one.
    pub fn joined(self, other: Self) -> Self {
        Self {
            required_m: self.required_m.max(other.required_m),
            available_m: self.available_m.max(other.available_m),
            ladder_px: self.ladder_px.max(other.ladder_px),
            named: self.named && other.named,
            ..self
        }
    }
}

/// Required and available depth of the worker whose stack is drawn, m.
pub fn depths_m(
    case: &Case,
    outcome: Option<&Outcome>,
    focus: usize,
    tolerance_m: f64,
) -> (f64, f64) {
    let height_m = held(case.line.height_above_beam_m, 0.0, 20.0);
    let line_level_m = held(case.site.beam_top_m, 0.0, 1.0e4) + height_m;
    let stack = outcome.and_then(|o| o.workers.get(focus)).map(|w| w.stack);
    let required_m = stack.map_or(height_m + 1.0, |s| {
        held(s.required_m + tolerance_m, 0.5, 60.0)
    });
    let available_m = stack.map_or(line_level_m, |s| held(s.available_m, 0.0, 400.0));
    (required_m, available_m)
}

/// The governing span: its left and right edge, m, with its posts; at an end of the line with the
/// tieback too. And who falls in it, see [`Window::group_m`].
pub fn span_of(case: &Case, focus: usize) -> ((f64, f64), [f64; 3]) {
    let length_m = held(case.line.length_m(), 0.5, 1.0e5);
    let over_m = held(case.line.height_above_beam_m, 0.0, 20.0).clamp(0.4, 4.0) + BEAM_END_M;
    let place_m = case.workers.get(focus).map_or(0.0, |w| w.position_m);
    let (span, _) = case.line.locate(place_m);
    let start_m: f64 = case.line.spans_m.iter().take(span).sum();
    let span_m = case.line.spans_m.get(span).copied().unwrap_or(length_m);
    let left_m = if span == 0 { -over_m } else { start_m - 0.5 };
    let right_m = if span + 1 >= case.line.spans_m.len() {
        length_m + over_m
    } else {
        start_m + held(span_m, 0.5, 1.0e4) + 0.5
    };
    let (low, high) = group_extent_m(case, focus, start_m, span_m);
    ((left_m, right_m), [low, held(place_m, low, high), high])
}

/// The place in the middle of a drawing that shows a part of the beam, m.
fn middle_m(shown_m: f64, (left_m, right_m): (f64, f64), [low, at, high]: [f64; 3]) -> f64 {
    if shown_m >= right_m - left_m - 0.01 {
        0.5 * (left_m + right_m)
    } else if high - low + 1.6 <= shown_m {
        // The whole group where it fits, and the focus in any case.
        0.5 * (low + high)
    } else {
        at
    }
}

/// What stands where.
#[derive(Clone, Copy, Debug)]
pub struct Layout {
    /// Scale of everything, px per m.
    pub px_per_m: f64,
    /// The elevation.
    pub drop: Rect,
    /// The ladder with its texts.
    pub ladder: Rect,
    /// Place at the left edge of the elevation, m.
    pub left_m: f64,
    /// Elevation at the upper edge, m.
    pub top_m: f64,
    /// Lowest elevation drawn to scale, m; below it the drawing is broken when it is above 0.
    pub floor_m: f64,
    /// Level of the line supports, m.
    pub line_level_m: f64,
    /// Beam top, m.
    pub beam_top_m: f64,
    /// Distance between the end posts, m.
    pub length_m: f64,
    /// Set-back of the tiebacks' feet, m.
    pub set_back_m: f64,
    /// Whether only a part of the beam is shown.
    pub cropped: bool,
    /// Height of the band below a break that stands for the rest of the drop, px; 0: no break.
    pub broken_px: f64,
}

impl Layout {
    /// Lays the case out. `focus` is the worker whose stack is drawn.
    pub fn new(
        case: &Case,
        outcome: Option<&Outcome>,
        focus: usize,
        cropped: bool,
        room: &Surroundings,
    ) -> Self {
        let beam_top_m = held(case.site.beam_top_m, 0.0, 1.0e4);
        let height_m = held(case.line.height_above_beam_m, 0.0, 20.0);
        let line_level_m = beam_top_m + height_m;
        let length_m = held(case.line.length_m(), 0.5, 1.0e5);
        let set_back_m = height_m.clamp(0.4, 4.0);
        let over_m = set_back_m + BEAM_END_M;
        let tallest_m = case.workers.iter().fold(1.5, |tall: f64, w| {
            tall.max(held(w.dring_height_m, 0.3, 3.0))
        }) * 1.22;
        let top_m = beam_top_m + tallest_m.max(height_m) + HEADROOM_M;

        // How deep the drawing must go.
        let (required_m, available_m) = room.window.map_or_else(
            || depths_m(case, outcome, focus, room.tolerance_m),
            |window| (window.required_m, window.available_m),
        );
        let deepest_m = required_m.max(available_m.min(required_m + 2.5)) + BELOW_REQUIRED_M;
        let to_datum_m = top_m.max(0.1);
        let to_need_m = top_m - (line_level_m - deepest_m);
        let broken = to_datum_m > 1.7 * to_need_m;
        let floor_m = if broken {
            line_level_m - deepest_m
        } else {
            (line_level_m - required_m - 0.15).min(0.0)
        };
        let broken_px = if broken { 46.0 } else { 0.0 };

        let ladder_gap_px = 14.0;
        let w_px = (room.sheet.w - 2.0 * room.edge_px - room.ladder_px - ladder_gap_px).max(40.0);
        let h_px = (room.sheet.h - room.top_px - room.bottom_px - broken_px).max(40.0);
        let by_height = h_px / (top_m - floor_m).max(0.5);
        let whole_m = length_m + 2.0 * over_m;
        let by_width = w_px / whole_m;
        let (own_span_m, own_group_m) = span_of(case, focus);
        let (span_left_m, span_right_m) = room.window.map_or(own_span_m, |window| window.span_m);
        let by_span = (w_px / (span_right_m - span_left_m))
            .max(WHOLE_SPAN_PART * by_height)
            .min(by_height);
        let whole = by_width >= (WHOLE_BEAM_PART * by_height).max(LEAST_PX_PER_M) && !cropped
            || by_width >= NEARLY_PART * by_span;
        let px_per_m = if whole {
            by_width.min(by_height)
        } else {
            by_span
        };
        let shown_m = w_px / px_per_m;
        let left_m = if whole {
            0.5 * (length_m - shown_m)
        } else {
            let [low, _, high] = own_group_m;
            // The window of all as long as it shows who falls.
            let shared = room
                .window
                .map(|window| middle_m(shown_m, window.span_m, window.group_m))
                .filter(|middle| {
                    (low.max(middle - 0.5 * shown_m) == low)
                        && (high.min(middle + 0.5 * shown_m) == high)
                });
            let middle = shared.unwrap_or_else(|| middle_m(shown_m, own_span_m, own_group_m));
            held(
                middle - 0.5 * shown_m,
                -over_m - 0.2,
                (length_m + over_m + 0.2 - shown_m).max(-over_m - 0.2),
            )
        };
        // A short beam leaves room at the sides: the sheet is then centred, ladder included.
        let used_px = if whole {
            (whole_m * px_per_m).min(w_px)
        } else {
            w_px
        };
        let left_px = room.sheet.x + room.edge_px + 0.5 * (w_px - used_px);
        let left_m = if whole { -over_m } else { left_m };
        let used_h = (top_m - floor_m) * px_per_m;
        let top_px = room.sheet.y + room.top_px + 0.4 * (h_px - used_h).max(0.0);
        let drop = Rect {
            x: left_px,
            y: top_px,
            w: used_px,
            h: used_h + broken_px,
        };
        Self {
            px_per_m,
            drop,
            ladder: Rect {
                x: drop.right() + ladder_gap_px,
                y: top_px,
                w: room.ladder_px,
                h: drop.h,
            },
            left_m,
            top_m,
            floor_m,
            line_level_m,
            beam_top_m,
            length_m,
            set_back_m,
            cropped: !whole,
            broken_px,
        }
    }

    /// Where a place stands, px.
    pub fn x(&self, place_m: f64) -> f64 {
        self.drop.x + (held(place_m, -1.0e5, 1.0e5) - self.left_m) * self.px_per_m
    }

    /// Where an elevation stands, px. Below a break the rest of the drop is squeezed together.
    pub fn y(&self, elevation_m: f64) -> f64 {
        let e = held(elevation_m, -1.0e4, 1.0e5);
        if self.broken_px > 0.0 && e < self.floor_m {
            let part = (self.floor_m - e) / self.floor_m.max(1.0e-6);
            self.floor_y() + self.broken_px * (0.5 + 0.5 * part.min(1.0))
        } else {
            self.drop.y + (self.top_m - e) * self.px_per_m
        }
    }

    /// Height over which neither the line nor the head of anybody standing reaches, px.
    pub fn heads_y(&self) -> f64 {
        self.drop.y + HEADROOM_M * self.px_per_m
    }

    /// Height of the lowest elevation drawn to scale, px.
    pub fn floor_y(&self) -> f64 {
        self.drop.y + (self.top_m - self.floor_m) * self.px_per_m
    }

    /// Where a depth below the level of the line supports stands, px.
    pub fn depth_y(&self, depth_m: f64) -> f64 {
        self.y(self.line_level_m - depth_m)
    }

    /// A place and a depth below line level as a point.
    pub fn point(&self, place_m: f64, depth_m: f64) -> Point {
        at(self.x(place_m), self.depth_y(depth_m))
    }

    /// Place at the right edge of the elevation, m.
    pub fn right_m(&self) -> f64 {
        self.left_m + self.drop.w / self.px_per_m
    }

    /// Whether a place is inside the window.
    pub fn shows(&self, place_m: f64) -> bool {
        place_m >= self.left_m && place_m <= self.right_m()
    }
}

/// First and last place of those who fall in the governing span, m.
fn group_extent_m(case: &Case, focus: usize, start_m: f64, span_m: f64) -> (f64, f64) {
    let own = case.workers.get(focus).map_or(start_m, |w| w.position_m);
    let own = held(own, start_m, start_m + span_m);
    case.workers
        .iter()
        .filter(|w| w.fall_time_s.is_some())
        .map(|w| w.position_m)
        .filter(|&x| x >= start_m && x <= start_m + span_m)
        .fold((own, own), |(low, high), x| (low.min(x), high.max(x)))
}
