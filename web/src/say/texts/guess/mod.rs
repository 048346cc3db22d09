//! What is said where the learner guesses first.

mod en;
mod es;

use super::text_group;

text_group! {
    /// What is said of guesses in one language.
    Texts {
        /// Sentences with numbers in them.
        say: Sentences,
    }
    page {
        /// Heading of the view.
        view_guess,
        /// Label of the list of questions.
        guess_question,
        /// The question about the case on the page.
        guess_own,
        /// What is asked.
        guess_ask,
        /// What to do, under a question of the list.
        guess_how,
        /// While a question is made.
        guess_making,
        /// Command: the case of the question in place of that on the page.
        guess_put,
        /// Said when it is there.
        guess_put_done,
        /// The answer is covered meanwhile.
        guess_covered,
        /// Label of the field.
        guess_depth,
        /// Name of the slider.
        guess_slider,
        /// Command.
        guess_let_go,
        /// Command.
        guess_again,
        /// Heading of the tally.
        guess_tally,
        /// Where the tally is kept.
        guess_kept,
        /// Command.
        guess_clear,
        /// Name of the drawing.
        guess_drawing,
        /// There is no result to guess at.
        guess_no_result,
    }
    inner {
        /// The mark is right.
        exact,
        /// Beside the mark in the drawing.
        drawn_mark,
        /// Beside the depth before the change.
        drawn_before,
        /// Beside the depth in the drawing.
        drawn_soles,
    }
}

/// Sentences with numbers in them. Texts come formatted and with their units.
#[derive(Debug)]
pub struct Sentences {
    /// A depth below the line.
    pub below_line: fn(&str) -> String,
    /// Outside the range: least, greatest.
    pub outside: fn(&str, &str) -> String,
    /// Mark, depth of the soles, difference in words.
    pub result: fn(&str, &str, &str) -> String,
    /// The soles went deeper than the mark: by how much.
    pub deeper: fn(&str) -> String,
    /// The soles did not go as deep as the mark: by how much.
    pub higher: fn(&str) -> String,
    /// Number of marks; of them: soles deeper, less deep, near; what is near; how far off the
    /// middle one is.
    pub tally: fn(usize, (usize, usize, usize), &str, &str) -> String,
}
