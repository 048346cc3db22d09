//! Guess first: a mark where the learner thinks the soles will stop, and how far off it was.
//!
//! Depths are measured downward from the level of the line supports, m. What is told is counted
//! in shown steps, so that mark, depth and difference add up as they are read.

use footroom_core::assess::Assessment;
use footroom_core::case::Case;
use footroom_core::field::Quantity;
use serde::Serialize;

use crate::first::answer::Told;
use crate::first::governing::GoverningStack;
use crate::first::scene::frame::Frame;
use crate::first::scene::surface::{Align, Face, Rect, Surface, at};
use crate::first::scene::theme::Theme;
use crate::first::whole_steps::{MARGIN, ShownStack};
use crate::order::{sort, sort_numbers};
use crate::page::explain::talk::script::answered;
use crate::say::faults::{Voice, input_fault};
use crate::say::format::{self, INCH_M, Rounding, Units};
use crate::say::input::InputFault;
use crate::say::texts::guess as words;
use crate::wire::{case_json, decimal};

/// The shapes for TypeScript.
pub const TYPESCRIPT: &str = r#"
export interface GuessMark {
  depth_m: number;
  min_m: number;
  max_m: number;
  step_m: number;
  typed: string;
  told: string;
  fault: string | null;
}
export interface GuessResult {
  sentence: string;
  tally: string;
  known: boolean;
  duration_s: number;
  lowest_time_s: number;
  speed: number;
}
"#;

/// How near a mark must be to count as near, m: a boot's height.
const NEAR_M: f64 = 0.10;
/// Where the mark stands at first: part of the way from the beam to the datum, in the open.
const FIRST_PART: f64 = 0.3;
/// Narrowest drawing in which the levels are named as well as measured, px.
const NAMED_PX: f64 = 480.0;
/// How far the middle of a label is from its level, px.
const LABEL_PX: f64 = 14.0;
/// Most marks that a tally keeps.
const TALLY_MAX: usize = 400;

/// The mark as the page shows it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mark {
    /// Depth, m.
    pub depth_m: f64,
    /// Least depth, m: the soles on the beam.
    pub min_m: f64,
    /// Greatest depth, m: the datum.
    pub max_m: f64,
    /// Step of the slider, m.
    pub step_m: f64,
    /// What stands in the field.
    pub typed: String,
    /// The depth in words.
    pub told: String,
    /// What is wrong with what was typed.
    pub fault: Option<String>,
}

/// What came of the mark.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Revealed {
    /// Mark, depth and difference.
    pub sentence: String,
    /// The tally with this mark in it, to be kept on the device.
    pub tally: String,
    /// Whether there is a depth to compare with.
    pub known: bool,
    /// Length of what is played, s.
    pub duration_s: f64,
    /// The lowest instant, s.
    pub lowest_time_s: f64,
    /// Part of the true speed at which it is played.
    pub speed: f64,
}

/// The case of a question: a copy of its own, so that the case on the page stays as it is.
#[derive(Debug)]
pub struct Asked {
    case: Case,
    assessment: Option<Assessment>,
}

impl Asked {
    /// A question about a case that is given as text, see [`case_json`]; `None`: it is none.
    pub fn of_text(text: &str) -> Option<Self> {
        let case = case_json::from_text(text).ok()?;
        case.faults().is_empty().then_some(Self {
            case,
            assessment: None,
        })
    }

    /// The case.
    pub fn case(&self) -> &Case {
        &self.case
    }

    /// Solves it, once.
    pub fn solve(&mut self) {
        if self.assessment.is_none() {
            self.assessment = answered(&self.case);
        }
    }

    /// The case with its answer; `None` as long as it is not solved, and when it has none.
    pub fn told(&self, voice: Voice) -> Option<Told<'_>> {
        let assessment = self.assessment.as_ref()?;
        Some(Told::of(voice, &self.case, assessment))
    }
}

fn range_m(case: &Case) -> (f64, f64) {
    let height_m = case.line.height_above_beam_m;
    (height_m, height_m + case.site.beam_top_m)
}

fn step_m(units: Units) -> f64 {
    match units {
        Units::Metric => 0.05,
        Units::Us => INCH_M,
    }
}

/// A mark at a depth, m, brought into the range and to a whole step; what is not a number begins
/// where nothing else of the drawing is, a third of the way down from there.
pub fn mark(voice: Voice, case: &Case, depth_m: f64) -> Mark {
    let (min_m, max_m) = range_m(case);
    let step = step_m(voice.units);
    let depth_m = if depth_m.is_finite() {
        depth_m
    } else {
        min_m + FIRST_PART * (max_m - min_m)
    };
    let depth_m = ((depth_m / step).round() * step).max(min_m).min(max_m);
    told_mark(voice, case, depth_m)
}

fn told_mark(voice: Voice, case: &Case, depth_m: f64) -> Mark {
    let (min_m, max_m) = range_m(case);
    let t = words::of(voice.lang);
    Mark {
        depth_m,
        min_m,
        max_m,
        step_m: step_m(voice.units),
        typed: format::field_text_with_unit(Quantity::Length, voice.units, depth_m),
        told: (t.say.below_line)(&format::length(voice.units, depth_m)),
        fault: None,
    }
}

/// A mark as it was typed. One that cannot be read, or lies outside, leaves the mark where it was.
pub fn typed(voice: Voice, case: &Case, text: &str, before_m: f64) -> Mark {
    let (min_m, max_m) = range_m(case);
    let before = told_mark(voice, case, before_m);
    match crate::say::typed::parse(Quantity::Length, voice.units, text) {
        Ok(depth_m) if (min_m - 1.0e-9..=max_m + 1.0e-9).contains(&depth_m) => {
            told_mark(voice, case, depth_m)
        }
        Ok(_) => {
            let (low, high) = format::range_texts(Quantity::Length, voice.units, min_m, max_m);
            Mark {
                typed: text.to_owned(),
                fault: Some((words::of(voice.lang).say.outside)(&low, &high)),
                ..before
            }
        }
        Err(fault) => Mark {
            typed: text.to_owned(),
            fault: input_fault(voice, &InputFault::Parse(Quantity::Length, fault)),
            ..before
        },
    }
}

/// The mark under a pointer at a height of the drawing, px.
pub fn pointed(voice: Voice, case: &Case, frame: &Frame, y_px: f64) -> Mark {
    let line_m = case.site.beam_top_m + case.line.height_above_beam_m;
    mark(voice, case, line_m - frame.elevation_m(y_px))
}

/// Where the soles stop as it is shown, in steps; `None`: no number can be relied on.
fn soles(told: &Told<'_>) -> Option<(ShownStack, i64)> {
    if told.is_unknown() {
        return None;
    }
    let governing = GoverningStack::of(told.assessment)?;
    let shown = ShownStack::with(told.voice.units, &governing.stack, governing.tolerance_m);
    Some((shown, shown.required - shown.parts[MARGIN]))
}

/// Where the soles stop, m, to the shown step; `None`: no number can be relied on.
pub fn soles_m(told: &Told<'_>) -> Option<f64> {
    let (_, steps) = soles(told)?;
    Some(steps as f64 * format::length_of_step_m(told.voice.units))
}

/// Lets go: compares, and adds the mark to a tally.
pub fn reveal(told: &Told<'_>, depth_m: f64, tally: &str) -> Revealed {
    let voice = told.voice;
    let t = words::of(voice.lang);
    let traces = told.outcome.traces.as_ref();
    let duration_s = traces.map_or(0.0, |traces| {
        traces.interval_s * traces.frames.saturating_sub(1) as f64
    });
    let Some((shown, stop)) = soles(told) else {
        return Revealed {
            sentence: told.answer().sentence,
            tally: tally.to_owned(),
            known: false,
            duration_s,
            lowest_time_s: told.lowest_time_s(),
            speed: told.play_speed(),
        };
    };
    let mark = format::length_steps(voice.units, depth_m, Rounding::Nearest);
    let off = stop - mark;
    let difference = match off {
        0 => t.exact.to_owned(),
        _ if off > 0 => (t.say.deeper)(&shown.text(off)),
        _ => (t.say.higher)(&shown.text(-off)),
    };
    let step_m = format::length_of_step_m(voice.units);
    let mut marks = read_tally(tally);
    marks.push(off as f64 * step_m);
    let from = marks.len().saturating_sub(TALLY_MAX);
    let mut sentence = (t.say.result)(&shown.text(mark), &shown.text(stop), &difference);
    if let Some((_, _, hit)) = told.hit() {
        sentence = [
            sentence.as_str(),
            " ",
            &crate::first::answer::sentence(&hit),
        ]
        .concat();
    }
    if let Some(elsewhere) = told.elsewhere() {
        sentence = [sentence.as_str(), " ", &elsewhere].concat();
    }
    Revealed {
        sentence,
        tally: write_tally(&marks[from..]),
        known: true,
        duration_s,
        lowest_time_s: told.lowest_time_s(),
        speed: told.play_speed(),
    }
}

/// How much deeper the soles went than each mark, m, as text.
fn write_tally(off_m: &[f64]) -> String {
    let texts: Vec<String> = off_m.iter().map(|m| format::ungrouped(*m, 4)).collect();
    texts.join(" ")
}

/// The marks of a tally, m; `None`: it is none.
pub fn tally(text: &str) -> Option<Vec<f64>> {
    text.split_whitespace()
        .map(|m| decimal::read(m).filter(|m| m.is_finite()))
        .collect()
}

/// What is no tally is an empty one.
fn read_tally(text: &str) -> Vec<f64> {
    tally(text).unwrap_or_default()
}

/// What two tabs have added to one tally, or one of them has cleared, brought together: `base` is
/// what both began with.
pub fn merged_tally(base: &str, mine: &str, theirs: &str) -> String {
    let [base, mine, theirs] = [base, mine, theirs].map(read_tally);
    // The earliest marks of a full tally go: what is left of the base is an end of it.
    let left = (0..=base.len().min(mine.len()))
        .rev()
        .find(|&n| base.ends_with(&mine[..n]))
        .unwrap_or_default();
    let cleared = left == 0 && !base.is_empty();
    let mut all = match theirs.strip_prefix(base.as_slice()) {
        Some(added) if cleared => added.to_vec(),
        _ => theirs,
    };
    all.extend_from_slice(&mine[left..]);
    let from = all.len().saturating_sub(TALLY_MAX);
    write_tally(&all[from..])
}

/// The tally in words; empty when there is none.
pub fn tally_told(voice: Voice, tally: &str) -> String {
    let off_m = read_tally(tally);
    if off_m.is_empty() {
        return String::new();
    }
    let near = off_m.iter().filter(|m| m.abs() <= NEAR_M + 1.0e-9).count();
    let deeper = off_m.iter().filter(|&&m| m > NEAR_M + 1.0e-9).count();
    let mut sizes: Vec<f64> = off_m.iter().map(|m| m.abs()).collect();
    sort_numbers(&mut sizes);
    let middle = sizes.len() / 2;
    let median_m = if sizes.len() % 2 == 1 {
        sizes[middle]
    } else {
        0.5 * (sizes[middle - 1] + sizes[middle])
    };
    let length = |m| format::length(voice.units, m);
    (words::of(voice.lang).say.tally)(
        off_m.len(),
        (deeper, off_m.len() - near - deeper, near),
        &length(NEAR_M),
        &length(median_m),
    )
}

/// Draws the mark over the scene, where the soles stopped before the change and, once it is known,
/// where they stop.
pub fn draw(
    surface: &mut dyn Surface,
    voice: Voice,
    case: &Case,
    frame: &Frame,
    theme: &Theme,
    depth_m: f64,
    [before_m, stop_m]: [Option<f64>; 2],
) {
    let t = words::of(voice.lang);
    let line_m = case.site.beam_top_m + case.line.height_above_beam_m;
    let y = |depth_m: f64| frame.y_px(line_m - depth_m);
    let face = Face {
        size_px: 15.0,
        bold: true,
    };
    let [before_m, stop_m] = [before_m, stop_m].map(|m| m.filter(|m| m.is_finite()));
    if let Some(before_m) = before_m {
        // On the other side than the mark, which begins there.
        let y = y(before_m);
        surface.path();
        surface.move_to(at(frame.left_px, y));
        surface.line_to(at(frame.right_px, y));
        surface.stroke(&theme.muted, 1.5, &[2.0, 4.0]);
        let text = format!(
            "{} {}",
            t.drawn_before,
            format::length(voice.units, before_m)
        );
        let w = surface.text_width(&text, face);
        surface.path();
        surface.rect(Rect {
            x: frame.right_px - w - 10.0,
            y: y - LABEL_PX - 10.0,
            w: w + 10.0,
            h: 20.0,
        });
        surface.fill(&theme.paper);
        let end = at(frame.right_px - 5.0, y - LABEL_PX);
        surface.text(&text, end, Align::Right, face, &theme.muted);
    }
    let mark = (depth_m, t.drawn_mark, &theme.accent, &[9.0, 6.0][..]);
    let mut levels = vec![mark];
    levels.extend(stop_m.map(|m| (m, t.drawn_soles, &theme.ink, &[][..])));
    sort(&mut levels, |a, b| a.0 < b.0);
    // Above its level stands the name of a thing in the drawing.
    let things = case.site.below.iter().map(|b| b.height_m);
    let named: Vec<f64> = things
        .chain([line_m, case.site.beam_top_m, 0.0])
        .map(|top_m| frame.y_px(top_m) - LABEL_PX)
        .collect();
    let free = |middle: f64| named.iter().all(|y| (y - middle).abs() > LABEL_PX + 6.0);
    // The sentence says all of it too, so that on a phone the crew is left free.
    let narrow = frame.right_px - frame.left_px < NAMED_PX;
    // Where the label of the upper level ends and stands.
    let mut before: Option<(f64, f64)> = None;
    for (depth_m, name, colour, dash) in levels {
        let y = y(depth_m);
        surface.path();
        surface.move_to(at(frame.left_px, y));
        surface.line_to(at(frame.right_px, y));
        surface.stroke(colour, 2.5, dash);
        let length = format::length(voice.units, depth_m);
        let text = if narrow {
            length
        } else {
            format!("{name} {length}")
        };
        let w = surface.text_width(&text, face);
        let left = frame.left_px + 9.0;
        // The upper one above its line, the lower one below, or beside the other.
        let (x, middle) = match before {
            None if stop_m.is_none() && !free(y - LABEL_PX) && free(y + LABEL_PX) => {
                (left, y + LABEL_PX)
            }
            None => (left, y - LABEL_PX),
            Some((end, row)) if !narrow && !free(y + LABEL_PX) => (end + 20.0, row),
            Some(_) => (left, y + LABEL_PX),
        };
        surface.path();
        surface.rect(Rect {
            x: x - 5.0,
            y: middle - 10.0,
            w: w + 10.0,
            h: 20.0,
        });
        surface.fill(&theme.paper);
        surface.text(&text, at(x, middle), Align::Left, face, colour);
        before = Some((x + w, middle));
    }
    let Some(stop_m) = stop_m else {
        return;
    };
    // The difference, as an arrow from the mark to the soles.
    let (from, to) = (y(depth_m), y(stop_m));
    let x = frame.left_px + 16.0;
    if (to - from).abs() < 6.0 {
        return;
    }
    let way = if to > from { 1.0 } else { -1.0 };
    surface.path();
    surface.move_to(at(x, from));
    surface.line_to(at(x, to - 2.0 * way));
    surface.move_to(at(x - 5.0, to - 9.0 * way));
    surface.line_to(at(x, to - 2.0 * way));
    surface.line_to(at(x + 5.0, to - 9.0 * way));
    surface.stroke(&theme.warning, 2.5, &[]);
    if narrow || (to - from).abs() < 24.0 {
        return;
    }
    let text = format::length(voice.units, (stop_m - depth_m).abs());
    surface.text(
        &text,
        at(x + 10.0, 0.5 * (from + to)),
        Align::Left,
        face,
        &theme.warning,
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::view::shapes;
    use crate::page::explain::talk::script::answered;
    use crate::say::format::Lang;
    use footroom_core::demo::demo;

    fn voice() -> Voice {
        Voice {
            lang: Lang::En,
            units: Units::Metric,
        }
    }

    #[test]
    fn mark_depth_and_difference_add_up_as_they_are_read() {
        let case = demo();
        let assessment = answered(&case).expect("a case without faults");
        for voice in Voice::ALL {
            let units = voice.units;
            let told = Told::of(voice, &case, &assessment);
            let stop_m = soles_m(&told).expect("a depth");
            let governing = GoverningStack::of(&assessment).expect("a worker");
            let exact_m =
                governing.stack.required_m + governing.tolerance_m - governing.stack.margin_m;
            assert!(
                (stop_m - exact_m).abs() <= format::length_of_step_m(units),
                "{stop_m}"
            );
            let step = format::length_of_step_m(units);
            for off in [-40_i64, 0, 66] {
                let mark_m = stop_m - off as f64 * step;
                let told = reveal(&told, mark_m, "");
                let text = |m| format::length(units, m);
                assert!(told.known && told.sentence.contains(&text(mark_m)));
                assert!(told.sentence.contains(&text(stop_m)), "{}", told.sentence);
                if off != 0 {
                    let apart = text(off.abs() as f64 * step);
                    assert!(told.sentence.contains(&apart), "{}: {apart}", told.sentence);
                }
            }
        }
    }

    /// The depth is told, and that the worker hits what is below on the way there.
    #[test]
    fn a_hit_is_told_beside_the_depth() {
        let mut case = demo();
        case.site.below[0].height_m = case.site.beam_top_m - 1.8;
        case.site.below[0].from_m = 0.0;
        case.site.below[0].to_m = 18.0;
        let assessment = answered(&case).expect("a case without faults");
        let clear = demo();
        let without = answered(&clear).expect("a case without faults");
        for voice in Voice::ALL {
            let told = Told::of(voice, &case, &assessment);
            let (_, _, hit) = told.hit().expect("a hit");
            let said = reveal(&told, 4.0, "").sentence;
            assert!(
                said.ends_with(&crate::first::answer::sentence(&hit)),
                "{said}"
            );
            assert!(hit.contains(" s, "), "{hit}");
            let told = Told::of(voice, &clear, &without);
            if told.hit().is_none() {
                let said = reveal(&told, 4.0, "").sentence;
                assert!(!said.contains(&hit[hit.len() - 12..]), "{said}");
            }
        }
    }

    #[test]
    fn a_typed_mark_is_read_or_refused() {
        let case = demo();
        assert_eq!(typed(voice(), &case, "4.5", 2.0).depth_m, 4.5);
        for text in ["", "deep", "12", "0.2"] {
            let refused = typed(voice(), &case, text, 2.0);
            assert!(refused.fault.is_some(), "{text}");
            assert_eq!((refused.depth_m, refused.typed.as_str()), (2.0, text));
        }
        let held = mark(voice(), &case, f64::NAN);
        assert!(held.depth_m > held.min_m + 1.0 && held.depth_m < held.max_m - 1.0);
        assert_eq!(mark(voice(), &case, 4.512).typed, "4.50 m");
    }

    #[test]
    fn a_pointer_marks_the_depth_it_is_at() {
        let case = demo();
        let frame = Frame {
            left_px: 0.0,
            top_px: 50.0,
            right_px: 900.0,
            bottom_px: 550.0,
            px_per_m: 50.0,
            left_m: -2.0,
            top_m: 10.0,
        };
        let y_px = frame.y_px(9.1 - 4.6);
        assert!((pointed(voice(), &case, &frame, y_px).depth_m - 4.6).abs() < 1.0e-9);
    }

    #[test]
    fn the_tally_counts_and_takes_no_nonsense() {
        let case = demo();
        let assessment = answered(&case).expect("a case without faults");
        let told = Told::of(voice(), &case, &assessment);
        let stop_m = soles_m(&told).expect("a depth");
        let mut tally = String::new();
        for off_m in [0.5, 0.05, -0.3, 0.9] {
            tally = reveal(&told, stop_m - off_m, &tally).tally;
        }
        assert_eq!(read_tally(&tally), [0.5, 0.05, -0.3, 0.9]);
        let said = tally_told(voice(), &tally);
        for part in ["4 marks", "0.40 m"] {
            assert!(said.contains(part), "{said}");
        }
        assert_eq!(tally_told(voice(), ""), "");
        assert_eq!(tally_told(voice(), "1 two NaN"), "");
        let mut long = write_tally(&[0.1; TALLY_MAX]);
        long = reveal(&told, stop_m, &long).tally;
        assert_eq!(read_tally(&long).len(), TALLY_MAX);
    }

    #[test]
    fn typescript_declares_what_is_sent() {
        let case = demo();
        let assessment = answered(&case).expect("a case without faults");
        let told = Told::of(voice(), &case, &assessment);
        let json = serde_json::to_value(mark(voice(), &case, 3.0)).expect("plain");
        shapes::agrees(TYPESCRIPT, "GuessMark", &json);
        let json = serde_json::to_value(reveal(&told, 3.0, "")).expect("plain");
        shapes::agrees(TYPESCRIPT, "GuessResult", &json);
    }
}
