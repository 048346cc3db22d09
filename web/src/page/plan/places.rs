//! Where the crew stands when nobody has said so: on a line of one's own where the fall is mostly
//! worst, and on a line that has become shorter where the line still is.

use footroom_core::anywhere::close_together;
use footroom_core::case::{Case, Worker};

use crate::say::format::Units;
use crate::say::input;

/// Who has put the crew where it stands.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Placed {
    /// The user, or whoever made the case.
    #[default]
    ByHand,
    /// The page, in the middle of the longest span, until a place is typed.
    InTheMiddle,
    /// The page, as the line has become shorter: where they stood on it, and how long it was.
    Moved {
        /// Where they stood, m.
        stood_m: Vec<f64>,
        /// How long the line was, m.
        length_m: f64,
    },
}

/// A line of one's own: the defaults, in round numbers of the units, with one worker in the middle.
pub fn own_line(units: Units) -> Case {
    let mut case = Case {
        workers: vec![Worker::default()],
        ..Case::default()
    };
    if units == Units::Us {
        for (path, text) in [
            ("line.spans_m", "40"),
            ("line.height_above_beam_m", "5"),
            ("line.pretension_n", "1000"),
            ("site.beam_top_m", "25"),
            ("site.margin_m", "3"),
            ("workers.all.mass_kg", "220"),
            ("workers.all.gear.length_m", "6"),
        ] {
            // Each is a field, and in its range.
            let _ = input::apply(&mut case, path, text, units);
        }
    }
    in_the_middle(&mut case);
    case
}

/// Puts the crew around the middle of the longest span, in its order.
pub fn in_the_middle(case: &mut Case) {
    let crew: Vec<usize> = (0..case.workers.len()).collect();
    for (i, position_m) in close_together(&case.line, &crew) {
        case.workers[i].position_m = position_m;
    }
}

/// Moves those who would stand beyond a shorter line with it: at the same part of its length. True:
/// some did.
pub fn moved_with_the_line(case: &mut Case, stood_m: &[f64], length_m: f64) -> bool {
    let now_m = case.line.length_m();
    let mut moved = false;
    for (worker, &stood) in case.workers.iter_mut().zip(stood_m) {
        let beyond = stood > now_m && length_m > 0.0;
        worker.position_m = if beyond {
            stood / length_m * now_m
        } else {
            stood
        };
        moved |= beyond;
    }
    moved
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::Page;
    use crate::say::format::Lang;
    use footroom_core::anywhere::APART_M;

    const VOICES: [(Lang, Units); 2] = [(Lang::En, Units::Metric), (Lang::Es, Units::Us)];

    /// Of the latest case, whether its answer is there or still made.
    fn places(page: &Page) -> Vec<f64> {
        page.latest()
            .case
            .workers
            .iter()
            .map(|w| w.position_m)
            .collect()
    }

    #[test]
    fn an_own_line_has_its_crew_in_the_middle_until_a_place_is_typed() {
        for (lang, units) in VOICES {
            let mut page = Page::new(lang, units);
            page.own_line();
            let view = page.view();
            assert!(view.placed_note.is_some() && view.invented_note.is_none());
            assert!(view.title.is_empty() && page.latest().case.site.below.is_empty());
            let length_m = page.latest().case.line.length_m();
            assert_eq!(places(&page), [0.5 * length_m]);
            page.set("workers.count", "3", 0.0).expect("path");
            let spread = places(&page);
            assert!((spread[1] - 0.5 * length_m).abs() < 1e-9);
            assert!((spread[2] - spread[0] - 2.0 * APART_M).abs() < 1e-9);
            page.set("line.spans_m", "20 + 30", 0.0).expect("path");
            let spans_m = page.latest().case.line.spans_m.clone();
            assert!((places(&page)[1] - spans_m[0] - 0.5 * spans_m[1]).abs() < 1e-9);
            page.set("workers[1].position_m", "4", 0.0).expect("path");
            assert_eq!(page.view().placed_note, None);
            let typed = places(&page);
            page.set("line.spans_m", "30 + 20", 0.0).expect("path");
            assert_eq!(places(&page), typed, "nobody is moved any more");
            assert!(page.undo() && page.undo());
            assert!(page.view().placed_note.is_some());
        }
    }

    /// What is typed on the way to a length moves nobody for good.
    #[test]
    fn those_beyond_a_shorter_line_move_with_it() {
        let mut page = Page::new(Lang::En, Units::Metric);
        let stood = places(&page);
        assert_eq!(stood, [11.0, 13.0, 15.0]);
        for (typed, at) in [
            ("9", [11.0 / 2.0, 13.0 / 2.0, 15.0 / 2.0]),
            ("14", [11.0, 13.0, 15.0 / 18.0 * 14.0]),
            ("9 + 9", [11.0, 13.0, 15.0]),
            ("12", [11.0, 13.0 / 18.0 * 12.0, 15.0 / 18.0 * 12.0]),
        ] {
            page.set("line.spans_m", typed, 0.0).expect("path");
            for (now, at) in places(&page).iter().zip(at) {
                assert!((now - at).abs() < 1e-9, "{typed}: {:?}", places(&page));
            }
            assert!(page.is_valid());
            assert_eq!(
                page.view().placed_note.is_some(),
                typed != "9 + 9",
                "{typed}"
            );
        }
        page.set("line.pretension_n", "5", 0.0).expect("path");
        assert_eq!(page.view().placed_note, None, "it has been said");
        page.set("line.spans_m", "9 + 9", 0.0).expect("path");
        assert!(places(&page)[2] < 12.0, "they stay where they are now");
    }
}
