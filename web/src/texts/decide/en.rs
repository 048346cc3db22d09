//! English, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    view_fit: "Fit: users against posts",
    fit_note: "Each cell is this case with that many users and intermediate posts at equal spans, the crew together at its worst place. Read: footroom, rounded down. A heavy line between cells is where the footroom changes from room to none. Hatched: a part falls short of the required strength. A triangle: an absorber is used up. A comparison of numbers, not a permission.",
    fit_rough: "First picture, from the soft and stiff corner of the tolerances; the other runs follow.",
    fit_whole: "All runs of the answer are in every cell.",
    fit_running: "Computing…",
    fit_failed: "This could not be computed. Change an input or load the page again.",
    fit_nothing: "There is no result to start from: see the inputs.",
    fit_print: "Print this map on one page",
    fit_assumed: "What the map assumes",
    mark_weak: "part too weak",
    mark_used_up: "absorber used up",
    mark_present: "this case",
    map_load: "Loads this layout",
    ask_heading: "What still fits",
    ask_note: "One input is changed at a time, the rest stays, the crew where it stands. Fits means: footroom kept, no part below its required strength, no limit broken that this case keeps. It compares numbers; it is no permission.",
    suggest_heading: "What would make it fit",
    suggest_use: "Make this change",
    view_why: "Why: which length grew",
    why_note: "Each bar is what one cause does to the footroom; together they make exactly the difference that is shown. Effects that causes have only together are shared evenly among them. Two layouts are set against each other under Compare.",
    why_choice: "Between",
    why_by_users: "one user and all of this crew",
    why_by_kept: "the kept case and this one",
    why_keep: "Keep this case for comparison",
    why_kept_now: "Kept. Change something: the steps from the kept case to the new one appear here.",
    why_no_kept: "No case is kept yet.",
    why_one_user: "One user only: add a user, and the steps appear here.",
    why_same_case: "The two cases do not differ in anything that counts.",
    why_load_kept: "Load the kept case",
    compare_why: "Why they differ",
    compare_from: "From",
    compare_to: "to",
    why_not_stored: "The browser stores nothing here: the kept case lasts until the page is closed.",
    view_compare: "Compare: layouts side by side",
    compare_note: "All drawings have the same scale and show the lowest instant with the inputs as given. Figures are the worst of all runs; rope is the length between the end posts, without terminations.",
    compare_name: "Name of this layout",
    compare_add: "Add the present case",
    compare_remove: "Remove",
    compare_load: "Load",
    compare_link: "Copy a link to these layouts",
    compare_file: "Save these layouts (file)",
    compare_take: "Open a file with layouts",
    compare_csv: "Save the figures (CSV)",
    compare_png: "Save as a picture (PNG)",
    compare_empty: "No layout here yet. Add the present case, change it, and add it again: up to four stand side by side.",
    compare_full: "Four layouts stand here; remove one to add another.",
    compare_not_stored: "The browser stores nothing here (storage is full or blocked): these layouts last until the page is closed. The link keeps them.",
    compare_from_link: "These layouts came with a link or a file. Your own set is kept as it was; it is replaced only when you change this one.",
    compare_own: "Show my own layouts",
    compare_aside: "Another tab of this page kept other layouts, and there is no room for all. These stay here; the others were set aside on this device.",
    compare_kept_damaged: "The layouts kept in this browser cannot be read:",
    compare_copied: "The link is on the clipboard.",
    compare_by_hand: "Copy the link from here:",
    view_sweeps: "Charts: footroom against each input",
    sweeps_note: "One input goes across, everything else as in this case; every point is the worst of all runs. Circle: room to spare. Triangle: short. Ring: this case. Dashed line: no footroom left. Gap: no footroom is known there; read-out and table say why. With other spans everybody keeps his place in his span, and what stands below its place under the worker nearest to it. Longer delays are calculated over a longer motion: after the last fall as long as in this case.",
    sweeps_read: "Point of the chart",
    view_learn: "Learn: guess first",
    learn_note: "Five questions on the invented example. Move the mark to where you think the footroom will end up, then let go. What you answered stays on this device only.",
    learn_guess: "My guess",
    learn_go: "Let go",
    learn_see: "Show the start in the drawing",
    learn_again: "Guess again",
    learn_done: "answered",
    map_corner: "intermediate posts",
    map_present: "users and posts of the present case",
    stop_not_finished: "somebody is still going down when the simulated time ends",
    stop_absorber: "a personal absorber is used up",
    stop_inline: "the absorber in the line is used up",
    stop_steep: "the line grows steeper than the calculation describes",
    stop_ledger: "the energies of the calculated motion do not add up",
    stop_swing: "somebody's swing ends deeper than his stack counts",
    stop_breaks: "the line tension exceeds the breaking force of the rope",
    ask_span: "Longest span, number of spans kept",
    ask_users: "Most users",
    ask_lanyard: "Longest lanyard",
    ask_post: "Least post height",
    ask_drop: "Least drop, ground to beam top",
    ask_pretension: "Pretension, least to greatest",
    suggest_fits: "By this calculation it fits as it stands; nothing needs to be suggested.",
    suggest_none: "None of the single changes that were tried makes it fit: it takes more than one.",
    suggest_rank: "Each was solved with all runs before it was listed; smallest change first. Whether makers and site allow it is for the qualified person.",
    why_kept: "kept case",
    why_present: "this case",
    why_gear: "lanyard or lifeline",
    why_nothing: "no shown length changes",
    why_table: "Lengths and forces by cause",
    cause_users: "users",
    cause_timing: "who falls and when",
    cause_places: "places on the line",
    cause_spans: "spans",
    cause_pretension: "pretension",
    cause_rope: "rope",
    cause_ends: "end posts and tiebacks",
    cause_inline: "absorber in the line",
    cause_lanyard: "lanyards",
    cause_absorber: "personal absorbers",
    cause_mass: "masses",
    cause_height: "height of the line",
    cause_body: "D-rings and harnesses",
    cause_margin: "margin",
    cause_drop: "height of the beam",
    cause_below: "what stands below",
    cause_others: "allowances and tolerances",
    cause_together: "all that differs, which cannot be taken one at a time",
    cause_differences: "small differences within the crew, and the tolerances",
    compare_table: "What each layout takes and gives",
    compare_users: "users",
    compare_posts: "posts",
    compare_tiebacks: "tiebacks",
    compare_rope: "rope",
    compare_absorbers: "absorbers",
    compare_weakest: "weakest part",
    compare_open: "parts not evaluated",
    compare_figure: "figure",
    compare_unit: "unit",
    compare_unknown: "footroom not known because",
    compare_end_posts: "end posts",
    compare_personal: "personal absorbers",
    compare_inline: "absorbers in the line",
    compare_ratio: "least ratio of strength",
    compare_required: "required ratio",
    compare_changed: "Not every footroom is the one that these layouts had when they were kept or shared: the model has changed since.",
    compare_too_many: "It holds more layouts, or longer names, than this page takes.",
    why_length: "length or force",
    sweep_users: "Footroom against users",
    sweep_span: "Footroom against span",
    sweep_pretension: "Footroom against pretension",
    sweep_delay: "Footroom against delay between falls",
    sweep_drop: "Footroom against drop",
    sweep_value: "value",
    sweep_axis_span: "length of every span",
    sweep_axis_delay: "time from one fall to the next",
    sweep_axis_drop: "beam top above the ground",
    learn_users: "One user, then two",
    learn_users_ask: "One user is on the line. A second one clips on a metre beside him, and both fall together.",
    learn_users_why: "One line carries both: its tension grows, it goes deeper, and the absorbers have to pay out while the line still swings.",
    learn_span: "A long span, then short ones",
    learn_span_ask: "One span of the whole length. Now three intermediate posts go in, at equal spans.",
    learn_span_why: "The same pull bends a short span less deep than a long one: a post close by holds the line up.",
    learn_slack: "A tight line, then a slack one",
    learn_slack_ask: "The line is tight. Now most of the pretension is lost.",
    learn_slack_why: "A slack line first has to be pulled straight before it stops anybody, and that way down is lost.",
    learn_mass: "A light worker, then a heavy one",
    learn_mass_ask: "A light worker is on the line. Now a heavy one with tools takes the same place with the same gear.",
    learn_mass_why: "The absorber stops with the same force whoever falls: more mass needs a longer way, so it pays out more.",
    learn_gear: "A lanyard, then a self-retracting lifeline",
    learn_gear_ask: "The worker has a lanyard. Now a self-retracting lifeline takes its place.",
    learn_gear_why: "It locks early, so the free fall is short and there is less to stop.",
    why_rounding: "rounding of what is shown",
    why_doubtful: "Some mixtures of the two cases on the way between them are beyond what the calculation describes. The two ends are not, but how the difference is shared among the causes may be off.",
    say: Sentences {
        users: |n| {
            if n == 1 {
                "1 user".to_owned()
            } else {
                format!("{n} users")
            }
        },
        posts: |n| match n {
            0 => "no intermediate post".to_owned(),
            1 => "1 intermediate post".to_owned(),
            _ => format!("{n} intermediate posts"),
        },
        map_row: |posts, span| format!("{posts}, spans of {span}"),
        map_caption: |title, length| {
            format!(
                "Footroom by number of users and of intermediate posts: {title}, line of {length}"
            )
        },
        map_cell: |users, posts| format!("with users: {users}, intermediate posts: {posts}"),
        weakest: |part, ratio, required| {
            format!("{part}: {ratio} times the load, {required} required")
        },
        stop_footroom: |worker, amount| format!("short by {amount} under {worker}"),
        stop_part: |part| format!("{part}: less strength than required"),
        stop_limit: |limit| format!("limit not kept: {limit}"),
        ask_present: |value| format!("this case: {value}"),
        ask_from_to: |low, high| format!("{low} to {high}"),
        ask_none: |low, high| format!("none from {low} to {high}"),
        ask_none_because: |stop| format!("Stopped here: {stop}."),
        ask_stopped: |value, stop| format!("At {value}: {stop}."),
        ask_end: |value| format!("Nothing stops it up to the end of the input's range, {value}."),
        ask_others: |list| format!("Values beyond a gap fit too: {list}."),
        load: |what| format!("Load: {what}"),
        suggest_stopped: |stop| format!("It does not fit: {stop}."),
        change_posts: |n, span| {
            if n == 1 {
                format!("one more post in the middle of span {span}")
            } else {
                format!("{n} more posts in span {span}, evenly")
            }
        },
        change_users: |n| {
            if n == 1 {
                "one user only, whoever it is".to_owned()
            } else {
                format!("{n} users only, whoever leaves")
            }
        },
        change_lanyard: |to| format!("no lanyard longer than {to}"),
        change_pretension: |more, to, from| {
            format!(
                "{} pretension: {to} instead of {from}",
                if more { "more" } else { "less" }
            )
        },
        change_height: |to, from| format!("line at {to} above the beam top instead of {from}"),
        change_rope: |rope| format!("thicker rope: {rope}"),
        change_lower: |thing, to, from| format!("{thing}: lowered to {to} instead of {from}"),
        change_remove: |thing| format!("{thing}: moved away"),
        change_absorber: |force| format!("absorbers with an average force of {force} at least"),
        change_part: |part, strength| format!("{part}: rated strength of {strength} at least"),
        why_user: |n| format!("user {n} comes on the line"),
        why_from_users: |from, to, corner| {
            format!("Footroom from {from} to {to} (tolerances: {corner}, which governs this case)")
        },
        why_from_kept: |corner| {
            format!(
                "Footroom from the kept case to this one (tolerances: {corner} in both, which governs this one)"
            )
        },
        why_from_layouts: |from, to, corner| {
            format!(
                "Footroom from {from} to {to} (tolerances: {corner} in both, which governs the latter)"
            )
        },
        why_unknown: |which, why| {
            format!(
                "No footroom is known ({which}): {why}. Without it there is nothing to split by cause."
            )
        },
        why_spans: |n, length| format!("{n} over {length}"),
        why_values: |name, from, to| format!("{name}: {from} → {to}"),
        why_takes: |amount, changes| format!("takes {amount} of the footroom ({changes})."),
        why_gives: |amount, changes| format!("gives {amount} of footroom ({changes})."),
        why_same: |_, changes| format!("leaves the footroom as it is ({changes})."),
        compare_words: |name, users, posts, footroom| {
            format!("{name}: {users}, {posts}, {footroom}")
        },
        compare_posts: |ends, between| format!("{ends} end, {between} intermediate"),
        compare_absorbers: |personal, line| format!("{personal} personal, {line} in the line"),
        compare_faulty: |n| format!("The case of layout {n} cannot be used."),
        compare_too_long: |count, most| {
            format!(
                "These layouts do not fit in a link: it would have {count} characters, and beyond {most} a link may be cut off on its way. Save them as a file and send that: dropped on this page, it shows the same."
            )
        },
        sweep_point: |value, footroom| format!("{value}: {footroom}"),
        sweep_present: |text| format!("{text} (this case)"),
        sweep_axis: |unit| format!("footroom, {unit}"),
        learn_question: |question, footroom| format!("{question} Before: {footroom}. After?"),
        learn_exact: |is| format!("It is {is}: just as you guessed."),
        learn_more: |guess, is, amount| {
            format!("You guessed {guess}; it is {is}. That is {amount} less than you thought.")
        },
        learn_less: |guess, is, amount| {
            format!("You guessed {guess}; it is {is}. That is {amount} more than you thought.")
        },
    },
};
