//! What can be taken hold of in the drop: workers, intermediate posts, the height of the line, and
//! what is below, whole, by its level, or by its edges. Each is one input of the case; moving it gives the
//! text for its field, so that a drag, a key and a typed value are one and the same change.
//!
//! A drag is counted from where it began, at the scale at which it began: the drawing may take
//! another scale under the pointer.

use footroom_core::case::{Below, Case};
use footroom_core::field;
use serde::Serialize;

use crate::first::scene::frame::Frame;
use crate::page::Page;
use crate::say::faults::Voice;
use crate::say::format::{self, INCH_M, Units};
use crate::say::names::below_name;
use crate::say::texts::{direct, filled};

/// The shapes for TypeScript.
pub const TYPESCRIPT: &str = r#"
export interface Handle {
  key: string;
  name: string;
  value: string;
  now_m: number;
  min_m: number;
  max_m: number;
  x_px: number;
  y_px: number;
  along: boolean;
}
"#;

/// Half the size of what a pointer can hit, CSS px: 24 px of WCAG 2.2 (2.5.8).
const FINE_PX: f64 = 12.0;
/// The same for a finger: 44 px (2.5.5).
const COARSE_PX: f64 = 22.0;
/// Steps of one press of a page key.
const LONG_STEPS: f64 = 10.0;

/// What a handle moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum What {
    /// A worker along the line.
    Worker(usize),
    /// The intermediate post on the right of a span.
    Post(usize),
    /// The line over the beam.
    Height,
    /// A thing below along the beam.
    Whole(usize),
    /// Its top.
    Top(usize),
    /// Its left edge.
    From(usize),
    /// Its right edge.
    To(usize),
}

impl What {
    /// All that a case has, in the order of the tab key.
    fn all(case: &Case) -> Vec<Self> {
        let mut all: Vec<Self> = (0..case.workers.len()).map(What::Worker).collect();
        all.extend((1..case.line.spans_m.len()).map(|i| What::Post(i - 1)));
        all.push(What::Height);
        for i in 0..case.site.below.len() {
            all.extend([What::Whole(i), What::Top(i), What::From(i), What::To(i)]);
        }
        all
    }

    fn key(self) -> String {
        match self {
            What::Worker(i) => format!("worker-{i}"),
            What::Post(i) => format!("post-{i}"),
            What::Height => "height".to_owned(),
            What::Whole(i) => format!("whole-{i}"),
            What::Top(i) => format!("top-{i}"),
            What::From(i) => format!("from-{i}"),
            What::To(i) => format!("to-{i}"),
        }
    }

    fn of_key(case: &Case, key: &str) -> Option<Self> {
        Self::all(case).into_iter().find(|what| what.key() == key)
    }

    fn along(self) -> bool {
        !matches!(self, What::Height | What::Top(_))
    }

    /// Path of its field, see [`crate::say::input`].
    fn path(self) -> String {
        match self {
            What::Worker(i) => format!("workers[{i}].position_m"),
            What::Post(_) => "line.spans_m".to_owned(),
            What::Height => "line.height_above_beam_m".to_owned(),
            What::Whole(i) => format!("site.below[{i}].middle_m"),
            What::Top(i) => format!("site.below[{i}].height_m"),
            What::From(i) => format!("site.below[{i}].from_m"),
            What::To(i) => format!("site.below[{i}].to_m"),
        }
    }

    /// Present value, m; `None`: there is no such thing.
    fn now_m(self, case: &Case) -> Option<f64> {
        let below = |i: usize| case.site.below.get(i);
        Some(match self {
            What::Worker(i) => case.workers.get(i)?.position_m,
            What::Post(i) => start_m(case, i + 1),
            What::Height => case.line.height_above_beam_m,
            What::Whole(i) => 0.5 * (below(i)?.from_m + below(i)?.to_m),
            What::Top(i) => below(i)?.height_m,
            What::From(i) => below(i)?.from_m,
            What::To(i) => below(i)?.to_m,
        })
    }

    /// Least and greatest value as far as it has some of its own, m.
    fn range_m(self, case: &Case) -> Option<(f64, f64)> {
        let of = |name| field::find(name).map_or((0.0, 0.0), |f| (f.min, f.max));
        let below = |i: usize| case.site.below.get(i);
        let length_m = case.line.length_m();
        Some(match self {
            What::Worker(_) => (0.0, length_m),
            What::Post(i) => {
                let (least, most) = of("line.spans_m");
                let (left, right) = (start_m(case, i), start_m(case, i + 2));
                (
                    (left + least).max(right - most),
                    (right - least).min(left + most),
                )
            }
            What::Height => of("line.height_above_beam_m"),
            What::Whole(i) => {
                let half_m = 0.5 * (below(i)?.to_m - below(i)?.from_m);
                let (least, most) = (of("site.below.from_m").0, of("site.below.to_m").1);
                (least + half_m, most - half_m)
            }
            What::Top(_) => (0.0, of("site.below.height_m").1.min(case.site.beam_top_m)),
            What::From(i) => (of("site.below.from_m").0, below(i)?.to_m - LEAST_M),
            What::To(i) => (below(i)?.from_m + LEAST_M, of("site.below.to_m").1),
        })
    }

    /// Where it stands, px.
    fn place_px(self, case: &Case, frame: &Frame) -> Option<(f64, f64)> {
        let top_m = case.site.beam_top_m;
        let line_m = top_m + case.line.height_above_beam_m;
        let on_post = |place_m, part: f64| {
            (
                frame.x_px(place_m),
                frame.y_px(top_m + part * case.line.height_above_beam_m),
            )
        };
        Some(match self {
            What::Worker(i) => (
                frame.x_px(case.workers.get(i)?.position_m),
                frame.y_px(line_m),
            ),
            What::Post(i) => on_post(start_m(case, i + 1), 0.5),
            What::Height => {
                // The first support in the window.
                let shown = (0..=case.line.spans_m.len())
                    .map(|i| start_m(case, i))
                    .find(|&x| (frame.left_px..=frame.right_px).contains(&frame.x_px(x)));
                on_post(shown?, 1.0)
            }
            What::Whole(i) | What::Top(i) | What::From(i) | What::To(i) => {
                let thing = case.site.below.get(i)?;
                let body = body_px(thing, frame);
                let middle = 0.5 * (body.top + body.bottom);
                match self {
                    What::Whole(_) => (0.5 * (body.left + body.right), middle),
                    What::Top(_) => (0.5 * (body.left + body.right), body.top),
                    What::From(_) => (frame.x_px(thing.from_m), middle),
                    _ => (frame.x_px(thing.to_m), middle),
                }
            }
        })
    }

    fn name(self, voice: Voice, case: &Case) -> String {
        let t = voice.texts();
        let of = |name: &str, owner: &str| {
            let label = voice.form().fields.find(name).map_or("", |f| f.label);
            (t.say.of_worker)(label, owner)
        };
        let owner = |i: usize| {
            let kind = case.site.below.get(i).map(|b| b.kind).unwrap_or_default();
            (voice.form().say.below_label)(i + 1, below_name(voice, kind))
        };
        let below = |i: usize, name| of(name, &owner(i));
        match self {
            What::Worker(i) => of("workers.position_m", &(t.say.worker)(i + 1)),
            What::Post(i) => {
                let pattern = direct::of(voice.lang).direct_post;
                filled(pattern, &(i + 1).to_string())
            }
            What::Height => voice
                .form()
                .fields
                .find("line.height_above_beam_m")
                .map_or("", |f| f.label)
                .to_owned(),
            What::Whole(i) => (t.say.of_worker)(voice.form().middle_label, &owner(i)),
            What::Top(i) => below(i, "site.below.height_m"),
            What::From(i) => below(i, "site.below.from_m"),
            What::To(i) => below(i, "site.below.to_m"),
        }
    }

    fn handle(self, voice: Voice, case: &Case, frame: &Frame) -> Option<Handle> {
        let (x_px, y_px) = self.place_px(case, frame)?;
        let (min_m, max_m) = self.range_m(case)?;
        let now_m = self.now_m(case)?;
        Some(Handle {
            key: self.key(),
            name: self.name(voice, case),
            value: format::length(voice.units, now_m),
            now_m,
            min_m,
            max_m,
            x_px,
            y_px,
            along: self.along(),
        })
    }
}

/// The box of a thing below as far as it is in the window, px.
struct Body {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

fn body_px(thing: &Below, frame: &Frame) -> Body {
    let clamp = |x: f64| x.max(frame.left_px).min(frame.right_px);
    Body {
        left: clamp(frame.x_px(thing.from_m)),
        right: clamp(frame.x_px(thing.to_m)),
        top: frame.y_px(thing.height_m),
        bottom: frame.y_px(0.0),
    }
}

/// Least width that a thing below keeps when an edge is moved, m.
const LEAST_M: f64 = 0.1;

/// Where a span begins, m; after the last span: where it ends.
fn start_m(case: &Case, span: usize) -> f64 {
    case.line.spans_m.iter().take(span).sum()
}

/// A handle as the page shows it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Handle {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// Its value in words.
    pub value: String,
    /// Present value, m.
    pub now_m: f64,
    /// Least value, m.
    pub min_m: f64,
    /// Greatest value, m.
    pub max_m: f64,
    /// Where it stands, CSS px.
    pub x_px: f64,
    /// Where it stands, CSS px.
    pub y_px: f64,
    /// Whether it moves along the line; otherwise up and down.
    pub along: bool,
}

/// A move as a change of a field.
#[derive(Clone, Debug, PartialEq)]
pub struct HandleMove {
    /// Path of the field.
    pub path: String,
    /// What would have to be typed there.
    pub text: String,
    /// The handle after it, in the frame in which it was moved.
    pub handle: Handle,
}

/// What is being dragged: the drag counts from where it began, in the case and at the scale of that
/// time.
#[derive(Clone, Debug)]
pub(in crate::page) struct Grab {
    handle: Handle,
    case: Case,
    frame: Frame,
    begins: bool,
}

impl Page {
    /// Takes hold of what is under a pointer, see [`handle_at`].
    pub fn take_handle(
        &mut self,
        frame: &Frame,
        (x_px, y_px): (f64, f64),
        coarse: bool,
    ) -> Option<Handle> {
        let handle = handle_at(self.voice(), self.case(), frame, x_px, y_px, coarse)?;
        self.grab = Some(Grab {
            handle: handle.clone(),
            case: self.case().clone(),
            frame: *frame,
            begins: true,
        });
        Some(handle)
    }

    /// Moves what was taken hold of by so many px from where it was taken. All moves until it is let
    /// go are one step of undo. `None`: nothing is held.
    pub fn drag_handle(&mut self, by_px: (f64, f64)) -> Option<Handle> {
        let voice = self.voice();
        let grab = self.grab.as_mut()?;
        let start_m = grab.handle.now_m;
        let key = &grab.handle.key;
        let to = dragged(voice, &grab.case, &grab.frame, key, start_m, by_px)?;
        let begins = core::mem::replace(&mut grab.begins, false);
        self.drag(&to.path, &to.text, begins).ok()?;
        Some(to.handle)
    }

    /// Lets go of what is held.
    pub fn drop_handle(&mut self) {
        self.grab = None;
    }

    /// Moves a handle by a key, see [`stepped`]; `None`: it stays.
    pub fn step_handle(
        &mut self,
        frame: &Frame,
        key: &str,
        (steps, long): (f64, bool),
        now_ms: f64,
    ) -> Option<Handle> {
        let to = stepped(self.voice(), &self.latest().case, frame, key, steps, long)?;
        self.set(&to.path, &to.text, now_ms).ok()?;
        Some(to.handle)
    }
}

/// All handles in the window of the drawing.
pub fn handles(voice: Voice, case: &Case, frame: &Frame) -> Vec<Handle> {
    What::all(case)
        .into_iter()
        .filter_map(|what| what.handle(voice, case, frame))
        .filter(|h| (frame.left_px - 1.0..=frame.right_px + 1.0).contains(&h.x_px))
        .collect()
}

/// The handle that a pointer takes hold of: the nearest within reach. A worker can also be taken
/// anywhere above the beam, where he stands and has his number, a post anywhere along it, a thing
/// below anywhere in it; that not by a finger, which may only want to move the page.
pub fn handle_at(
    voice: Voice,
    case: &Case,
    frame: &Frame,
    x_px: f64,
    y_px: f64,
    coarse: bool,
) -> Option<Handle> {
    let reach_px = if coarse { COARSE_PX } else { FINE_PX };
    let beam_px = frame.y_px(case.site.beam_top_m);
    let line_px = frame.y_px(case.site.beam_top_m + case.line.height_above_beam_m);
    let mut best: Option<(f64, Handle)> = None;
    for what in What::all(case) {
        let Some(handle) = what.handle(voice, case, frame) else {
            continue;
        };
        let across = (x_px - handle.x_px).abs();
        let up = (y_px - handle.y_px).abs();
        let near = if across <= reach_px && up <= reach_px {
            across.max(up)
        } else {
            // What is taken by its whole height comes after what is taken at its place.
            let (high, low, reach_px) = match what {
                What::Worker(_) => (frame.top_px - COARSE_PX, beam_px, reach_px),
                What::Post(_) => (line_px, beam_px, reach_px),
                What::Whole(i) if !coarse => {
                    let Some(thing) = case.site.below.get(i) else {
                        continue;
                    };
                    let body = body_px(thing, frame);
                    (body.top, body.bottom, 0.5 * (body.right - body.left))
                }
                _ => continue,
            };
            if across > reach_px || !(high..=low).contains(&y_px) {
                continue;
            }
            COARSE_PX + across
        };
        if best.as_ref().is_none_or(|(least, _)| near < *least) {
            best = Some((near, handle));
        }
    }
    best.map(|(_, handle)| handle)
}

/// Moves a handle from the value that it had when the drag began, m, by px of the frame in which
/// it began. `None`: there is no such handle.
pub fn dragged(
    voice: Voice,
    case: &Case,
    frame: &Frame,
    key: &str,
    start_m: f64,
    by_px: (f64, f64),
) -> Option<HandleMove> {
    let what = What::of_key(case, key)?;
    let by_m = if what.along() { by_px.0 } else { -by_px.1 } / frame.px_per_m;
    moved(voice, case, frame, what, start_m + by_m)
}

/// Moves a handle by steps of 0.05 m or 1 in; a long step is ten of them.
pub fn stepped(
    voice: Voice,
    case: &Case,
    frame: &Frame,
    key: &str,
    steps: f64,
    long: bool,
) -> Option<HandleMove> {
    let what = What::of_key(case, key)?;
    let step_m = match voice.units {
        Units::Metric => 1.0 / METRIC_STEPS,
        Units::Us => INCH_M,
    };
    let by_m = steps * step_m * if long { LONG_STEPS } else { 1.0 };
    moved(voice, case, frame, what, what.now_m(case)? + by_m)
}

/// Steps of a move in a metre.
const METRIC_STEPS: f64 = 20.0;

fn moved(voice: Voice, case: &Case, frame: &Frame, what: What, to_m: f64) -> Option<HandleMove> {
    let (min_m, max_m) = what.range_m(case)?;
    if !to_m.is_finite() || min_m > max_m {
        return None;
    }
    // In whole steps that lie inside the range; of a whole thing its left edge.
    let off_m = match what {
        What::Whole(i) => what.now_m(case)? - case.site.below.get(i)?.from_m,
        _ => 0.0,
    };
    let (to_m, min_m, max_m) = (to_m - off_m, min_m - off_m, max_m - off_m);
    let (to_m, text) = match voice.units {
        Units::Metric => {
            let steps = whole(to_m, min_m, max_m, 1.0 / METRIC_STEPS);
            (steps / METRIC_STEPS, length_text(voice.units, steps))
        }
        Units::Us => {
            let steps = whole(to_m, min_m, max_m, INCH_M);
            (steps * INCH_M, length_text(voice.units, steps))
        }
    };
    let mut after = case.clone();
    let text = match what {
        What::Worker(i) => {
            after.workers.get_mut(i)?.position_m = to_m;
            text
        }
        What::Height => {
            after.line.height_above_beam_m = to_m;
            text
        }
        What::Top(i) => {
            after.site.below.get_mut(i)?.height_m = to_m;
            text
        }
        What::Whole(i) => {
            let thing = after.site.below.get_mut(i)?;
            thing.to_m += to_m - thing.from_m;
            thing.from_m = to_m;
            // The shortest text that reads back to the same length.
            format!("{} m", format::exact(to_m + off_m))
        }
        What::From(i) => {
            after.site.below.get_mut(i)?.from_m = to_m;
            text
        }
        What::To(i) => {
            after.site.below.get_mut(i)?.to_m = to_m;
            text
        }
        What::Post(i) => {
            let (left_m, right_m) = (start_m(case, i), start_m(case, i + 2));
            after.line.spans_m[i] = to_m - left_m;
            after.line.spans_m[i + 1] = right_m - to_m;
            // The shortest text that reads back to the same length.
            let spans = after
                .line
                .spans_m
                .iter()
                .map(|&m| format!("{} m", format::exact(m)));
            spans.collect::<Vec<_>>().join(" + ")
        }
    };
    Some(HandleMove {
        path: what.path(),
        text,
        handle: what.handle(voice, &after, frame)?,
    })
}

/// The nearest whole number of steps whose value lies within the range.
fn whole(value_m: f64, min_m: f64, max_m: f64, step_m: f64) -> f64 {
    const NOISE: f64 = 1.0e-9;
    let least = (min_m / step_m - NOISE).ceil();
    let most = (max_m / step_m + NOISE).floor();
    (value_m / step_m).round().min(most).max(least)
}

/// Whole steps as they would be typed.
fn length_text(units: Units, steps: f64) -> String {
    match units {
        Units::Metric => format!("{} m", format::ungrouped(steps / METRIC_STEPS, 2)),
        Units::Us => format!("{} in", format::ungrouped(steps, 0)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::view::shapes;
    use crate::say::format::Lang;
    use crate::say::input;
    use footroom_core::demo::demo;

    const FRAME: Frame = Frame {
        left_px: 20.0,
        top_px: 90.0,
        right_px: 20.0 + 22.0 * 40.0,
        bottom_px: 600.0,
        px_per_m: 40.0,
        left_m: -2.0,
        top_m: 9.8,
    };

    fn voices() -> [Voice; 4] {
        [Lang::En, Lang::Es]
            .map(|lang| [Units::Metric, Units::Us].map(|units| Voice { lang, units }))
            .concat()
            .try_into()
            .expect("two by two")
    }

    fn metric() -> Voice {
        Voice {
            lang: Lang::En,
            units: Units::Metric,
        }
    }

    #[test]
    fn the_demonstration_has_a_handle_for_each_thing_that_moves() {
        let keys: Vec<String> = handles(metric(), &demo(), &FRAME)
            .into_iter()
            .map(|h| h.key)
            .collect();
        assert_eq!(
            keys,
            [
                "worker-0", "worker-1", "worker-2", "post-0", "height", "whole-0", "top-0",
                "from-0", "to-0"
            ]
        );
    }

    #[test]
    fn a_pointer_hits_what_it_is_on_and_nothing_beside_it() {
        let case = demo();
        let at = |x: f64, y: f64, coarse| {
            handle_at(metric(), &case, &FRAME, x, y, coarse).map(|h| h.key)
        };
        for handle in handles(metric(), &case, &FRAME) {
            for by in [-FINE_PX + 0.1, 0.0, FINE_PX - 0.1] {
                let key = at(handle.x_px + by, handle.y_px, false);
                assert_eq!(key.as_ref(), Some(&handle.key));
            }
        }
        // The body of a standing worker, and beside it.
        let (x, y) = (FRAME.x_px(13.0), FRAME.y_px(8.0));
        assert_eq!(at(x + 8.0, y, false).as_deref(), Some("worker-1"));
        assert_eq!(at(x + 18.0, y, false), None);
        assert_eq!(at(x + 18.0, y, true).as_deref(), Some("worker-1"));
        // Under the beam nobody is taken by his place.
        assert_eq!(at(x, FRAME.y_px(5.0), false), None);
        // A thing below is taken anywhere in it, by a finger only at its middle.
        let (x, y) = (FRAME.x_px(11.5), FRAME.y_px(0.5));
        assert_eq!(at(x, y, false).as_deref(), Some("whole-0"));
        assert_eq!(at(x, y, true), None);
        assert_eq!(at(FRAME.x_px(16.6), y, false), None);
        let middle = FRAME.y_px(0.5 * case.site.below[0].height_m);
        assert_eq!(
            at(FRAME.x_px(13.2), middle, true).as_deref(),
            Some("whole-0")
        );
    }

    #[test]
    fn every_move_reads_back_as_it_was_meant() {
        for voice in voices() {
            let case = demo();
            for handle in handles(voice, &case, &FRAME) {
                for by_px in [
                    (37.0, -13.0),
                    (-211.0, 55.0),
                    (9_000.0, -9_000.0),
                    (-9_000.0, 9_000.0),
                ] {
                    let to = dragged(voice, &case, &FRAME, &handle.key, handle.now_m, by_px)
                        .expect("a handle");
                    let mut after = case.clone();
                    input::apply(&mut after, &to.path, &to.text, voice.units)
                        .unwrap_or_else(|fault| panic!("{}: {fault:?}", to.text));
                    let what = What::of_key(&after, &handle.key).expect("still there");
                    let now_m = what.now_m(&after).expect("a value");
                    assert!(
                        (now_m - to.handle.now_m).abs() < 1.0e-9,
                        "{}: {now_m}",
                        to.text
                    );
                    assert!((handle.min_m - 1.0e-9..=handle.max_m + 1.0e-9).contains(&now_m));
                    let length_m = after.line.length_m();
                    assert!((length_m - 18.0).abs() < 1.0e-9, "{}", to.text);
                }
            }
        }
    }

    #[test]
    fn a_drag_goes_as_far_as_the_pointer_and_back() {
        let case = demo();
        let to = |px: f64| {
            dragged(metric(), &case, &FRAME, "worker-1", 13.0, (px, 0.0)).expect("a handle")
        };
        assert_eq!(to(40.0).text, "14.00 m");
        assert_eq!(to(-60.0).text, "11.50 m");
        assert_eq!(to(0.0).handle.now_m, 13.0);
        let up = dragged(metric(), &case, &FRAME, "top-0", 2.9, (0.0, -20.0)).expect("a handle");
        assert_eq!(up.text, "3.40 m");
        let whole = dragged(metric(), &case, &FRAME, "whole-0", 13.0, (-50.0, 7.0));
        let whole = whole.expect("a handle");
        assert_eq!(
            (whole.text.as_str(), whole.handle.now_m),
            ("11.75 m", 11.75)
        );
        let post = dragged(metric(), &case, &FRAME, "post-0", 9.0, (-40.0, 0.0)).expect("a post");
        assert_eq!(post.text, "8 m + 10 m");
    }

    /// However often and wherever a thing is moved, it keeps its width, and comes back to the bit.
    #[test]
    fn a_whole_thing_keeps_its_width_and_comes_back() {
        for voice in voices() {
            let mut case = demo();
            case.site.below[0].from_m = 10.07;
            case.site.below[0].to_m = 16.1;
            input::apply(&mut case, "site.below[0].middle_m", "13.2 m", voice.units)
                .expect("a length");
            let begin = case.clone();
            for steps in [1.0, 1.0, -7.0, 3.0, 12.0, -10.0] {
                let to = stepped(voice, &case, &FRAME, "whole-0", steps, false).expect("a handle");
                input::apply(&mut case, &to.path, &to.text, voice.units).expect("a length");
                let thing = case.site.below[0];
                assert!(
                    (thing.to_m - thing.from_m - 6.03).abs() < 3.0e-6,
                    "{thing:?}"
                );
            }
            let (now, then) = (case.site.below[0], begin.site.below[0]);
            // The first step goes to a whole one.
            assert!((now.from_m - then.from_m).abs() < 0.051, "{now:?}");
            let before = case.clone();
            for steps in [5.0, -5.0] {
                let to = stepped(voice, &case, &FRAME, "whole-0", steps, true).expect("a handle");
                input::apply(&mut case, &to.path, &to.text, voice.units).expect("a length");
            }
            assert_eq!(case, before);
        }
    }

    #[test]
    fn keys_step_and_stop_at_the_range() {
        let case = demo();
        let step = |voice, key, steps, long| {
            stepped(voice, &case, &FRAME, key, steps, long).expect("a handle")
        };
        assert_eq!(step(metric(), "worker-0", 1.0, false).text, "11.05 m");
        assert_eq!(step(metric(), "worker-0", -1.0, true).text, "10.50 m");
        assert_eq!(step(metric(), "worker-0", 400.0, true).text, "18.00 m");
        let us = Voice {
            units: Units::Us,
            ..metric()
        };
        assert_eq!(step(us, "height", 1.0, false).text, "60 in");
        assert!(stepped(metric(), &case, &FRAME, "moon", 1.0, false).is_none());
    }

    /// A drag counts from where it began, in the case and at the scale of that time, whatever it has
    /// changed meanwhile, and is one step of undo.
    #[test]
    fn a_drag_counts_from_where_it_began_and_is_one_step_of_undo() {
        let mut page = Page::new(Lang::En, Units::Metric);
        let (before, metre_px) = (demo(), FRAME.px_per_m);
        let worker = before.workers[0].position_m;
        let at = (FRAME.x_px(worker), FRAME.y_px(before.site.beam_top_m + 1.0));
        assert_eq!(page.drag_handle((metre_px, 0.0)), None);
        let held = page.take_handle(&FRAME, at, false).expect("a worker");
        assert_eq!(held.key, "worker-0");
        for by in [0.5, 1.0, -0.5, 1.5] {
            let handle = page.drag_handle((by * metre_px, 0.0)).expect("held");
            let to = page.case().workers[0].position_m;
            assert!((to - worker - by).abs() < 0.026 && (handle.now_m - to).abs() < 1.0e-12);
        }
        page.drop_handle();
        assert_eq!(page.drag_handle((metre_px, 0.0)), None);
        assert!(page.undo() && *page.case() == before && !page.undo());
        let moved = page.step_handle(&FRAME, "height", (1.0, false), 0.0);
        assert!(moved.is_some_and(|h| h.now_m == page.case().line.height_above_beam_m));
        assert!(page.case().line.height_above_beam_m > before.line.height_above_beam_m);
        assert!(
            page.step_handle(&FRAME, "moon", (1.0, false), 0.0)
                .is_none()
        );
    }

    #[test]
    fn a_frame_goes_from_height_to_elevation_and_back() {
        let y_px = FRAME.y_px(3.21);
        assert!((FRAME.elevation_m(y_px) - 3.21).abs() < 1.0e-12);
    }

    #[test]
    fn typescript_declares_what_is_sent() {
        let case = demo();
        let to = dragged(metric(), &case, &FRAME, "height", 1.5, (0.0, 9.0)).expect("a handle");
        let json = serde_json::to_value(&to.handle).expect("plain");
        shapes::agrees(TYPESCRIPT, "Handle", &json);
    }
}
