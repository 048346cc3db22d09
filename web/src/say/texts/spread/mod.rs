//! What is said of falls drawn within the tolerances.

mod en;
mod es;

use super::text_group;

text_group! {
    /// What is said of the draws in one language.
    Texts {
        /// Sentences with numbers in them.
        say: Sentences,
    }
    page {
        /// Name of the view.
        view_spread,
        /// What is drawn, and how.
        spread_note,
        /// What it is not.
        spread_not,
        /// Label of the seed.
        spread_seed,
        /// Under the seed.
        spread_seed_hint,
        /// The seed is none.
        spread_seed_fault,
        /// Command: draw.
        spread_start,
        /// Command: stop drawing.
        spread_stop,
        /// Drawing has begun.
        spread_running,
        /// It was stopped.
        spread_stopped,
    }
    inner {
        /// Nothing has a tolerance.
        spread_nothing,
        /// The case has no result to set beside the draws.
        spread_no_answer,
        /// No draw has a result.
        spread_no_draw,
        /// Caption of the numbers.
        spread_caption,
        /// A row: what the page says.
        spread_answer,
        /// A row: the tolerances without what is done for a crew.
        spread_sides,
        /// A row.
        spread_worst,
        /// A row.
        spread_low,
        /// A row.
        spread_middle,
        /// A row.
        spread_given,
        /// A row.
        spread_high,
        /// A row.
        spread_best,
        /// Caption of the inputs.
        spread_inputs,
        /// Head of a column.
        spread_input,
        /// Head of a column.
        spread_range,
        /// Head of a column: rank correlation with the footroom.
        spread_rank_footroom,
        /// Head of a column: its share.
        spread_share_footroom,
        /// Head of a column: rank correlation with the tension.
        spread_rank_tension,
        /// Head of a column: its share.
        spread_share_tension,
        /// Under the table of the inputs.
        spread_inputs_note,
        /// An input.
        spread_pretension,
        /// An input.
        spread_rope,
        /// An input.
        spread_left,
        /// An input.
        spread_right,
        /// An input.
        spread_inline,
        /// Name of a chart.
        spread_footroom,
        /// Name of a chart.
        spread_tension,
        /// On a chart, the answer.
        spread_mark_answer,
        /// On a chart, the middle of the draws.
        spread_mark_middle,
        /// On a chart, the case as entered.
        spread_mark_given,
        /// Name of the axis of how many.
        spread_count,
    }
}

/// Sentences with numbers in them. Texts come formatted and with their units.
#[derive(Debug)]
pub struct Sentences {
    /// How far it is: draws made, of how many.
    pub spread_progress: fn(&str, &str) -> String,
    /// Draws with less footroom than the answer: how many, of how many, the answer.
    pub spread_less: fn(&str, &str, &str) -> String,
    /// Draws with more tension than the answer: how many, of how many, the answer.
    pub spread_more: fn(&str, &str, &str) -> String,
    /// Draws beyond the tolerances alone: how many, these.
    pub spread_beyond_sides: fn(&str, &str) -> String,
    /// Worst and middle draw, each with its distance to the answer in words.
    pub spread_ends: fn(&str, &str) -> String,
    /// A footroom above the answer: footroom, by how much.
    pub spread_above: fn(&str, &str) -> String,
    /// A footroom below the answer: footroom, by how much.
    pub spread_below: fn(&str, &str) -> String,
    /// A tension: tension, parts in a hundred of the answer.
    pub spread_of_answer: fn(&str, &str) -> String,
    /// What matters most, for footroom and for tension, each with its share.
    pub spread_most: fn(&str, &str) -> String,
    /// An input with its share.
    pub spread_with_share: fn(&str, &str) -> String,
    /// Inputs taken one at a time explain so much, of footroom and of tension.
    pub spread_explained: fn(&str, &str) -> String,
    /// Draws without a result: how many.
    pub spread_unknown: fn(&str) -> String,
    /// From a value to a value.
    pub spread_from_to: fn(&str, &str) -> String,
    /// Mass of a worker.
    pub spread_mass: fn(usize) -> String,
    /// Force of the absorber of a worker.
    pub spread_absorber: fn(usize) -> String,
    /// A chart in words: its name, least, middle, greatest draw, answer.
    pub spread_words: fn(&str, &str, &str, &str, &str) -> String,
}
