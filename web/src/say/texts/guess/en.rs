//! English.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    view_guess: "Guess and learn",
    guess_question: "Question",
    guess_own: "The line on this page",
    guess_ask: "How far down do the lowest worker's feet go? Drag the mark in the drawing or type a depth, then start the fall.",
    guess_how: "Drag the mark or type a depth, then start the fall.",
    guess_making: "Making the question…",
    guess_put: "Put this case on the page",
    guess_put_done: "The case of the question is on the page. Undo brings yours back.",
    guess_covered: "The answer stays covered until then.",
    guess_depth: "Depth below the line",
    guess_slider: "Mark in the drawing",
    guess_let_go: "Start the fall",
    guess_again: "Guess again",
    guess_tally: "Marks on this device",
    guess_kept: "Kept on this device only, for a class; nothing is sent.",
    guess_clear: "Clear the marks",
    guess_drawing: "The crew on the beam with your mark below",
    guess_no_result: "No result to guess: fix the inputs first.",
    exact: "right on your mark",
    drawn_mark: "your mark",
    drawn_before: "before",
    drawn_soles: "feet",
    say: Sentences {
        below_line: |depth| format!("{depth} below the line"),
        outside: |low, high| format!("from {low} to {high}"),
        result: |mark, soles, difference| {
            format!("Your mark: {mark} below the line. Calculated: {soles}, {difference}.")
        },
        deeper: |off| format!("{off} deeper"),
        higher: |off| format!("{off} higher"),
        tally: |n, (deeper, higher, near), reach, middle| {
            let marks = if n == 1 { "mark" } else { "marks" };
            format!(
                "{n} {marks}. Feet lower than the mark: {deeper}; higher: {higher}; within {reach}: {near}. Typical miss (median): {middle}."
            )
        },
    },
};
