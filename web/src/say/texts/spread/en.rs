//! English.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    view_spread: "Spread",
    spread_note: "Calculates this case 1,000 times. Each time, every input with a tolerance takes its own value, drawn evenly within plus or minus its tolerance. These inputs are each worker's weight and absorber force, each end of the line, pretension, rope and in-line absorber. An absorber never goes above its maximum force. Positions, timing and internal friction stay as entered.",
    spread_not: "What this is not: a measurement. The tolerances are the ones you entered. Drawing evenly, each input by itself, is an assumption. A share of draws is not the probability of an accident, and it does not authorize use.",
    spread_seed: "Seed",
    spread_seed_hint: "Whole number from 0 to 999999. The same seed draws the same falls. It travels in the link.",
    spread_seed_fault: "Enter a whole number from 0 to 999999.",
    spread_start: "Draw 1,000 falls",
    spread_stop: "Stop drawing",
    spread_running: "Drawing…",
    spread_stopped: "Stopped before the end: part of the draws gives no result.",
    spread_nothing: "No input has a tolerance, so all draws are alike. Enter tolerances first.",
    spread_no_answer: "There is no result for the case as entered, so there is no answer to compare the draws with.",
    spread_no_draw: "No draw has a result.",
    spread_caption: "The answer and the draws",
    spread_answer: "the answer, where the crew stands",
    spread_sides: "tolerances alone, worst side",
    spread_worst: "worst draw",
    spread_low: "5 in 100 draws are worse than",
    spread_middle: "middle of the draws",
    spread_given: "inputs as entered",
    spread_high: "5 in 100 draws are better than",
    spread_best: "best draw",
    spread_inputs: "What each input does",
    spread_input: "input",
    spread_range: "drawn between",
    spread_rank_footroom: "rank correlation with footroom",
    spread_share_footroom: "share, footroom",
    spread_rank_tension: "rank correlation with tension",
    spread_share_tension: "share, tension",
    spread_inputs_note: "Rank correlation (Spearman): 1 when the order of the draws is the order of the input, -1 when it is the reverse. Between -0.06 and 0.06 it cannot be told from chance. Share: its square over the sum of all the squares.",
    spread_pretension: "pretension",
    spread_rope: "rope stiffness, EA",
    spread_left: "left end stiffness",
    spread_right: "right end stiffness",
    spread_inline: "in-line absorber force",
    spread_footroom: "Footroom of the draws",
    spread_tension: "Highest line tension of the draws",
    spread_mark_answer: "the answer",
    spread_mark_middle: "middle",
    spread_mark_given: "as entered",
    spread_count: "draws",
    say: Sentences {
        spread_progress: |made, of| format!("{made} of {of} falls calculated."),
        spread_less: |n, of, answer| {
            format!("{n} of {of} draws leave less footroom than the answer ({answer}).")
        },
        spread_more: |n, of, answer| {
            format!("{n} of {of} draws pull harder on the line than the answer ({answer}).")
        },
        spread_beyond_sides: |n, sides| {
            format!("Worse than the tolerances alone, all at their worst side ({sides}): {n}.")
        },
        spread_ends: |worst, middle| format!("Worst draw: {worst}. Middle of the draws: {middle}."),
        spread_above: |footroom, by| format!("{footroom}, {by} above the answer"),
        spread_below: |footroom, by| format!("{footroom}, {by} below the answer"),
        spread_of_answer: |tension, percent| format!("{tension}, {percent}% of the answer"),
        spread_most: |footroom, tension| {
            format!(
                "What matters most: for the footroom, {footroom}; for the line tension, {tension}."
            )
        },
        spread_with_share: |input, percent| format!("{input} (share {percent}%)"),
        spread_explained: |footroom, tension| {
            format!(
                "Taken one at a time, the inputs explain {footroom}% of the order of the draws by footroom and {tension}% by tension. The rest is what they do together."
            )
        },
        spread_unknown: |n| {
            format!("Draws with no result, left out: {n}. The worst may be among them.")
        },
        spread_from_to: |low, high| format!("{low} to {high}"),
        spread_mass: |n| format!("weight, worker {n}"),
        spread_absorber: |n| format!("absorber force, worker {n}"),
        spread_words: |name, least, middle, greatest, answer| {
            format!("{name}: from {least} to {greatest}, middle {middle}; the answer is {answer}.")
        },
    },
};
