//! English, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    view_fit: "What fits",
    fit_note: "Each cell is this case with that many users and that many intermediate posts at equal spans, the crew together at its worst position. It shows the footroom, rounded down. Heavy line: footroom on one side, none on the other. Hatched: a part is below its required strength. Triangle: an absorber is fully deployed. Parts with no rated strength entered are not counted. The map compares numbers; it does not authorize use.",
    fit_rough: "First pass: only the soft and stiff sides of the tolerances; the rest follows.",
    fit_whole: "Every cell is now calculated in full.",
    fit_running: "Calculating…",
    fit_failed: "Could not calculate this. Change an input or reload the page.",
    fit_nothing: "No result to start from: check the inputs.",
    fit_print: "Print this map on one page",
    fit_assumed: "What the map assumes",
    mark_weak: "part too weak",
    mark_used_up: "absorber fully deployed",
    mark_present: "this case",
    map_load: "Loads this case",
    ask_heading: "What still fits where the crew stands",
    ask_note: "One input changes at a time; the rest, and the crew's positions, stay. Other places on the line are not tried here: load a case and read “Anywhere on the line”. “Fits” means there is footroom and no part with a rated strength entered is below its required strength. Every limit that this case meets is still met. Parts without a strength, and limits this case already breaks, do not count: see Checks. It compares numbers; it does not authorize use.",
    suggest_heading: "What would make it fit",
    suggest_use: "Apply",
    suggest_ratings: "Ratings to enter",
    view_why: "Why",
    why_note: "Each bar is the footroom one cause takes or gives; together they add up to the difference shown. What they do only together is split evenly among them. To compare two layouts, use Compare.",
    why_choice: "Between",
    why_by_users: "one user and this whole crew",
    why_by_kept: "the kept case and this one",
    why_keep: "Keep this case for comparison",
    why_kept_now: "Kept. Change something: the steps from the kept case to the new one show up here.",
    why_no_kept: "No case is kept yet.",
    why_one_user: "Only one user: add another and the steps show up here.",
    why_same_case: "The two cases do not differ in anything that matters.",
    why_load_kept: "Load the kept case",
    compare_why: "Why they differ",
    compare_from: "From",
    compare_to: "to",
    why_not_stored: "This browser stores nothing here: the kept case is lost when you close the page.",
    view_compare: "Compare",
    compare_note: "All drawings have the same scale and show the lowest point with the inputs as entered. Numbers are the worst of all calculations; rope is the length between end posts, without terminations.",
    compare_name: "Name of this layout",
    compare_add: "Add the current case",
    compare_remove: "Remove",
    compare_load: "Load",
    compare_link: "Copy a link to these layouts",
    compare_file: "Save these layouts (file)",
    compare_take: "Open a layouts file",
    compare_csv: "Save the numbers (CSV)",
    compare_png: "Save as a picture (PNG)",
    compare_empty: "No layouts yet. Add the current case, change it, and add it again: up to four, side by side.",
    compare_full: "There are four layouts already; remove one to add another.",
    compare_not_stored: "This browser stores nothing here (storage full or blocked): these layouts are lost when you close the page. The link keeps them.",
    compare_from_link: "These layouts came with a link or a file. Your own set is still stored; it is replaced only if you change this one.",
    compare_own: "Show my own layouts",
    compare_aside: "Another tab of this page kept other layouts, and there is no room for all. These stay here; the others were set aside on this device.",
    compare_kept_damaged: "The layouts stored in this browser cannot be read:",
    compare_copied: "Link copied.",
    compare_by_hand: "Copy the link from here:",
    view_sweeps: "By input",
    sweeps_note: "One input runs along the bottom; the rest stays as in this case. Every point is the worst of all calculations. Circle: room to spare. Triangle: short. Ring: this case. Dashed line: no footroom left. Gap: no result; the readout and the table say why. When spans change, each worker keeps their place within their span, and an obstruction stays under the nearest worker. Longer delays are calculated over a longer motion.",
    sweeps_read: "Point on the chart",
    learn_note: "Questions 1 to 5 are about an invented example. Your own case stays as it is.",
    learn_done: "answered",
    map_corner: "intermediate posts",
    map_present: "users and posts of the current case",
    stop_not_finished: "a worker is still going down when the simulated time ends",
    stop_absorber: "a personal absorber is fully deployed",
    stop_inline: "the in-line absorber is fully deployed",
    stop_steep: "the line is pulled steeper than the calculation can describe",
    stop_ledger: "the energy check of the calculated motion failed",
    stop_swing: "a worker's swing ends deeper than the stack counts",
    stop_breaks: "the rope would break (line tension above its breaking strength)",
    ask_span: "Longest span, same number of spans",
    ask_users: "Most users",
    ask_lanyard: "Longest lanyard",
    ask_post: "Lowest line height",
    ask_drop: "Smallest drop, ground to beam top",
    ask_pretension: "Pretension, lowest to highest",
    ask_this: "This case",
    ask_alike: "With all of them alike",
    suggest_fits: "None of the rules above stops it. They compare numbers; they do not authorize use: read the answer and Checks.",
    suggest_excused: "No change was looked for: this case already breaks that limit, and limits already broken do not count here. See Checks.",
    suggest_change: "Change",
    suggest_here: "Room here",
    suggest_anywhere: "Room anywhere",
    suggest_strength: "Least strength",
    suggest_no_strength: "none entered",
    suggest_and: " and ",
    suggest_rank: "Smallest change first. “Anywhere” is the worst found with the crew elsewhere on the line and others falling, not a proven worst. The qualified person decides whether the manufacturers and the site allow a change.",
    why_kept: "kept case",
    why_present: "this case",
    why_gear: "lanyard or SRL",
    why_nothing: "no length shown changes",
    why_table: "Lengths and forces by cause",
    cause_users: "users",
    cause_timing: "who falls and when",
    cause_places: "positions on the line",
    cause_spans: "spans",
    cause_pretension: "pretension",
    cause_rope: "rope",
    cause_ends: "end posts and tiebacks",
    cause_inline: "in-line absorber",
    cause_lanyard: "lanyards",
    cause_absorber: "personal absorbers",
    cause_mass: "worker weights",
    cause_height: "line height",
    cause_body: "D-rings and harnesses",
    cause_margin: "clearance margin",
    cause_drop: "beam height",
    cause_below: "obstructions below",
    cause_others: "allowances and tolerances",
    cause_together: "everything that differs (cannot be split)",
    cause_differences: "small differences within the crew, and the tolerances",
    compare_looks: "All drawings have one scale and show the crew at the lowest point of the fall.",
    compare_table: "What each layout needs and gives",
    compare_users: "users",
    compare_posts: "posts",
    compare_tiebacks: "tiebacks",
    compare_rope: "rope",
    compare_absorbers: "absorbers",
    compare_weakest: "weakest part",
    compare_anywhere_room: "footroom anywhere on the line",
    compare_anywhere_strength: "weakest part anywhere",
    compare_anywhere_ratio: "lowest strength ratio anywhere",
    compare_open: "parts with no strength entered",
    compare_figure: "figure",
    compare_unit: "unit",
    compare_unknown: "no result because",
    compare_end_posts: "end posts",
    compare_personal: "personal absorbers",
    compare_inline: "in-line absorbers",
    compare_ratio: "lowest strength ratio",
    compare_required: "required ratio",
    compare_changed: "Some of these footrooms are not what they were when the layouts were kept or shared: the model has changed since.",
    compare_too_many: "It holds more layouts, or longer names, than this page can take.",
    why_length: "length or force",
    sweep_users: "Footroom by number of users",
    sweep_span: "Footroom by span",
    sweep_pretension: "Footroom by pretension",
    sweep_delay: "Footroom by delay between falls",
    sweep_drop: "Footroom by beam height",
    sweep_value: "value",
    sweep_axis_span: "length of every span",
    sweep_axis_delay: "time from one fall to the next",
    sweep_axis_drop: "beam top above the ground",
    learn_users: "One user, then two",
    learn_users_ask: "One user is on the line. A second one clips on about 1 m (3 ft) away, and both fall together.",
    learn_users_why: "One line carries both: its tension rises, it goes deeper, and the absorbers have to deploy while the line is still moving.",
    learn_span: "A long span, then short ones",
    learn_span_ask: "One span the whole length. Now three intermediate posts go in, at equal spans.",
    learn_span_why: "The same pull moves a short span down less than a long one: a nearby post holds the line up.",
    learn_slack: "A tight line, then a slack one",
    learn_slack_ask: "The line is tight. Now most of the pretension is lost.",
    learn_slack_why: "A slack line has to come tight before it stops anybody, and the worker falls that much farther.",
    learn_mass: "A light worker, then a heavy one",
    learn_mass_ask: "A light worker is on the line. Now a heavy one with tools takes the same place with the same gear.",
    learn_mass_why: "The absorber pulls with the same force no matter who falls. More weight needs a longer stop, so the absorber deploys farther.",
    learn_gear: "A lanyard, then a self-retracting lifeline",
    learn_gear_ask: "The worker has a lanyard. Now a self-retracting lifeline takes its place.",
    learn_gear_why: "It locks early, so the free fall is short and there is less to stop.",
    why_rounding: "rounding of what is shown",
    why_doubtful: "Some in-between mixes of the two cases are beyond what the calculation can describe. The two cases are not, but the split among the causes may be off.",
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
            format!("Footroom by users and intermediate posts: {title}, {length} line")
        },
        map_cell: |users, posts| format!("users: {users}, intermediate posts: {posts}"),
        map_why: |placed, cell, given, answer| {
            format!(
                "This case: the map puts the crew together at its worst position ({placed}): {cell}. Where this case has it ({given}): {answer}."
            )
        },
        weakest: |part, ratio, required| {
            format!("{part}: {ratio} times the load, {required} required")
        },
        stop_footroom: |worker, amount| format!("short by {amount} under {worker}"),
        stop_part: |part| format!("{part}: less strength than required"),
        stop_limit: |limit| format!("limit not met: {limit}"),
        ask_here: |who, value, low, high| {
            format!("{who}, {value}, fits; so does everything tried from {low} to {high}.")
        },
        ask_not_here: |who, value, stop| format!("{who}, {value}, does not fit: {stop}."),
        ask_from_to: |low, high| format!("{low} to {high}"),
        ask_none: |low, high| format!("none between {low} and {high}"),
        ask_stopped: |value, stop| format!("At {value}: {stop}."),
        ask_end: |value| format!("It fits all the way to the end of this input's range, {value}."),
        ask_nearest: |below, value| {
            format!(
                "Nearest {} value that fits: {value}.",
                if below { "lower" } else { "higher" }
            )
        },
        ask_no_nearer: |below| {
            format!(
                "No {} value tried fits.",
                if below { "lower" } else { "higher" }
            )
        },
        ask_range: |low, high| format!("Everything tried from {low} to {high} fits."),
        ask_beyond: |low, high, from, to, stop| {
            if from == to {
                format!("After a gap at {from} ({stop}), {low} to {high} fits again.")
            } else {
                format!("After a gap from {from} to {to} ({stop}), {low} to {high} fits again.")
            }
        },
        ask_step: |step| format!("Tried in steps of up to {step}; a narrower gap is not seen."),
        load: |what| format!("Load: {what}"),
        suggest_open: |n| {
            format!("Not counted, because no rated strength is entered: {n} parts. See Checks.")
        },
        suggest_room: |room| format!("By this calculation: {room}."),
        suggest_stopped: |stop| format!("It does not fit: {stop}."),
        suggest_stopped_anywhere: |stop| {
            format!("It fits where the crew stands, but not everywhere on the line: {stop}.")
        },
        suggest_step: |made, of| format!("Looking for changes: step {made} of {of}."),
        suggest_together: |n| {
            if n == 2 {
                "(two changes)".to_owned()
            } else {
                format!("({n} changes)")
            }
        },
        suggest_ratio: |ratio, required| format!("{ratio} of {required}"),
        suggest_weakest: |part| format!("weakest: {part}"),
        suggest_tried: |tried| format!("Cases calculated: {tried}."),
        suggest_none: |tried, pairs| {
            format!(
                "No change tried makes it fit, nor do two together. Cases calculated: {tried}; pairs of changes: {pairs}."
            )
        },
        rating_enter: |label, needed| {
            format!(
                "{label}: enter the rated strength; {needed} or more is needed at the worst position found."
            )
        },
        rating_enter_unknown: |label| format!("{label}: enter the rated strength."),
        rating_describe: |part| format!("{part}: describe the end post first."),
        change_posts: |n, span| {
            if n == 1 {
                format!("one more post in the middle of span {span}, crew at its worst position")
            } else {
                format!("{n} more posts in span {span}, evenly, crew at its worst position")
            }
        },
        change_users: |n| {
            if n == 1 {
                "one user only, whichever one stays".to_owned()
            } else {
                format!("{n} users only, whichever ones leave")
            }
        },
        change_lanyard: |to| format!("lanyards no longer than {to}"),
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
        change_absorber: |force| format!("absorbers with an average force of at least {force}"),
        change_part: |part, strength| format!("{part}: rated {strength} or more"),
        change_breaking: |strength, kept, percent| {
            format!(
                "rope breaking strength {strength} or more (the terminations keep {percent}% of it: {kept})"
            )
        },
        change_efficiency: |percent, kept| {
            format!(
                "terminations that keep {percent}% of the rope's breaking strength ({kept}) or more"
            )
        },
        change_under: |offset| {
            format!("everyone within {offset} of their connector, along the line")
        },
        change_away: |distance| format!("nobody closer than {distance} to a post"),
        change_longer: |duration| format!("motion calculated for {duration}"),
        why_user: |n| format!("user {n} clips on"),
        why_from_users: |from, to, corner| {
            format!("Footroom from {from} to {to} (tolerances: {corner})")
        },
        why_from_kept: |corner| {
            format!(
                "Footroom from the kept case to this one (tolerances: {corner} in both, which governs this one)"
            )
        },
        why_from_layouts: |from, to, corner| {
            format!(
                "Footroom from {from} to {to} (tolerances: {corner} in both, which governs the second)"
            )
        },
        why_unknown: |which, why| {
            format!(
                "No result ({which}): {why}. Without a footroom there is nothing to split by cause."
            )
        },
        why_spans: |n, length| format!("{n} over {length}"),
        why_values: |name, from, to| format!("{name}: {from} → {to}"),
        why_takes: |amount, changes| format!("takes {amount} of the footroom ({changes})."),
        why_gives: |amount, changes| format!("gives {amount} of footroom ({changes})."),
        why_same: |_, changes| format!("leaves the footroom as it is ({changes})."),
        why_more: |to, from, amount, cause, step| {
            format!(
                "“{to}” leaves {amount} more room than “{from}”, mainly through {cause} ({step})."
            )
        },
        why_less: |to, from, amount, cause, step| {
            format!(
                "“{to}” leaves {amount} less room than “{from}”, mainly through {cause} ({step})."
            )
        },
        why_alike: |to, from| format!("“{to}” leaves as much room as “{from}”."),
        compare_sent: |n, title| {
            let layouts = if n == 1 { "layout" } else { "layouts" };
            match title {
                "" => format!("You were sent: {n} {layouts}"),
                title => format!("You were sent: {n} {layouts} of {title}"),
            }
        },
        compare_above: |name| match name {
            Some(name) => format!("The answer at the top is for “{name}”."),
            None => "The answer at the top is for another case.".to_owned(),
        },
        compare_words: |name, users, posts, footroom| {
            format!("{name}: {users}, {posts}, {footroom}")
        },
        compare_posts: |ends, between| format!("{ends} end, {between} intermediate"),
        compare_absorbers: |personal, line| format!("{personal} personal, {line} in-line"),
        compare_faulty: |n| format!("Layout {n} cannot be used."),
        compare_too_long: |count, most| {
            format!(
                "These layouts are too long for a link: {count} characters, and beyond {most} a link may get cut off. Save them as a file and send that. Whoever drops it on this page sees the same layouts."
            )
        },
        sweep_point: |value, footroom| format!("{value}: {footroom}"),
        sweep_present: |text| format!("{text} (this case)"),
        sweep_axis: |unit| format!("footroom, {unit}"),
        learn_question: |question, depth, footroom| {
            format!(
                "{question} Before, the feet stop {depth} below the line: {footroom}. Where do they stop now?"
            )
        },
        learn_rooms: |before, now| format!("Footroom before: {before}. Now: {now}."),
    },
};
