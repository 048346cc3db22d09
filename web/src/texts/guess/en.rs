//! English.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    view_guess: "Guess first",
    guess_ask: "Where do the soles of the lowest worker stop? Drag the mark in the drawing, or type a depth. Then let go.",
    guess_covered: "The answer of the page is covered until then.",
    guess_depth: "Depth below the line",
    guess_slider: "Mark in the drawing",
    guess_let_go: "Let go",
    guess_again: "Guess again",
    guess_tally: "Marks on this device",
    guess_kept: "Kept on this device only, for a class; nothing is sent.",
    guess_clear: "Clear the tally",
    guess_drawing: "The crew on the beam with your mark below",
    guess_no_result: "There is no result to guess at: mend the inputs first.",
    exact: "right where you put it",
    drawn_mark: "your mark",
    drawn_soles: "soles",
    say: Sentences {
        below_line: |depth| format!("{depth} below the line"),
        outside: |low, high| format!("from {low} to {high}"),
        result: |mark, soles, difference| {
            format!("Your mark: {mark} below the line. The soles stop at {soles}: {difference}.")
        },
        deeper: |off| format!("{off} deeper"),
        higher: |off| format!("{off} less deep"),
        tally: |n, (deeper, higher, near), reach, middle| {
            let marks = if n == 1 { "mark" } else { "marks" };
            format!(
                "{n} {marks}. Soles deeper than the mark: {deeper}; less deep: {higher}; within {reach}: {near}. The middle one was off by {middle}."
            )
        },
    },
};
