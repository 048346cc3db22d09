//! English, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    anywhere_freely: "Other spacings were tried too: close together, the heaviest in the middle, spread over the longest span, one per span.",
    anywhere_here: "nothing worse found than where they stand",
    anywhere_open: "not calculated when this was made",
    anywhere_why: "In a fall the connector slides down the line toward midspan, and people walk. So the worst place counts.",
    share_what: "What to share",
    share_case: "This case",
    share_layouts: "These layouts",
    share_talk: "The talk",
    share_copy: "Copy the link",
    share_send: "Send the link…",
    share_file: "Save as a file",
    share_code: "The link as a code to scan",
    share_opens_case: "Opens this case in this part of the page, in these units and this language.",
    share_opens_layouts: "Opens the layouts side by side and says why they differ.",
    share_opens_talk: "Opens the talk about this case at its first step.",
    share_no_layouts: "No layouts yet: add them under Decide, Compare.",
    share_no_result: "No result to share: fix the inputs first.",
    share_no_code: "This link is too long for a code. Copy it, or send the file.",
    coming: "Calculating… Until it is done, these numbers are from the case before.",
    checks_heading: "Key limits and strengths",
    show_table: "Show as a table",
    chart_force: "Arrest force over time",
    chart_tension: "Line tension over time",
    col_what: "check",
    col_demand: "demand",
    col_capacity: "limit or strength",
    col_ratio: "ratio",
    col_required: "required ratio",
    col_verdict: "result",
    col_source: "source",
    checks_note: "Demands are the worst of both methods, all tolerances and small differences within the crew, rounded up; limits, strengths and ratios are rounded down. Where a regulation gives a limit in two units, the stricter one counts. A result compares two numbers; it does not authorize use.",
    setup_read_heading: "Today",
    setup_read_weight: "Weight hung at midspan",
    setup_read_movement: "Line moved down by",
    setup_read_swings: "Full swings counted (there and back)",
    setup_read_time: "Time for those swings",
    search_heading: "Worst case",
    search_note: "Each search tries dozens of cases. The worst found is calculated in full, like the case on the page, and only those two are compared. It finds the worst it tried, not a proven worst.",
    search_delay: "Find the worst timing",
    search_places: "Find the worst positions",
    search_load: "Load this case",
    search_running: "Searching…",
    search_stop: "Stop the search",
    search_stopped: "Stopped before the end: no worst case is named.",
    rope_ratio: "rope strength ÷ tension",
    verdict_within: "meets",
    verdict_over: "over the limit",
    verdict_too_weak: "less than required",
    not_evaluated: "not evaluated: enter the rated strength",
    time: "time",
    chart_range: "range with the tolerances",
    limit_arrest: "limit for a body harness",
    limit_by_ratio: "rope strength ÷ ratio",
    checks_not_met: "Not met",
    checks_not_evaluated: "Not evaluated",
    checks_met: "Met",
    checks_information: "Information only",
    verdict_meets: "meets",
    verdict_does_not_meet: "does not meet",
    verdict_information: "information only",
    reason_post: "not evaluated: describe the end post",
    reason_demand: "not evaluated: this fall gave no number",
    reason_limit: "not evaluated: enter the limit",
    reason_criteria: "not evaluated: for this weight the employer must modify the test criteria",
    reason_unknown: "not evaluated: no result to rely on, see the answer",
    source_memory: "clause not re-checked",
    setup_note: "Cross-checks only. Where they differ, the system's own tension indicator and the manufacturers' instructions come first. Friction at the posts is not counted.",
    setup_figures: "Rigging the line",
    setup_figure: "item",
    setup_value: "value",
    setup_remark: "note",
    setup_pretension: "pretension to set",
    setup_cut: "wire rope to cut, laid straight with no tension",
    setup_marks: "marks, from the left cut end",
    setup_marks_note: "left termination, intermediate posts, right termination",
    setup_stretch: "elastic stretch at the pretension",
    setup_take_up: "tensioner take-up",
    setup_sag: "sag at rest, span by span",
    setup_left_tieback: "left tieback, anchor behind the post",
    setup_right_tieback: "right tieback, anchor behind the post",
    setup_weight: "line movement at midspan under a hung weight",
    setup_weight_yields: "do not hang this weight: the in-line absorber would deploy",
    setup_no_weight: "no weight you can hang by hand shows the tension well",
    setup_better: "more reliable check",
    setup_by_weight: "hung weight",
    setup_by_swings: "time for the swings",
    setup_uncountable: "too fast to count by eye: hang the weight instead",
    setup_tells_nothing: "this reading cannot show the tension",
    setup_temperatures: "Tension by temperature",
    setup_temperature: "temperature",
    setup_tension: "tension",
    setup_sag_one: "sag",
    setup_movement: "movement",
    setup_today: "today",
    setup_beyond: "outside the tolerance",
    setup_slack: "slack",
    setup_yields: "absorber deploys",
    setup_tiebacks: "Tiebacks behind a post of this height",
    setup_angle: "angle from vertical",
    setup_set_back: "setback",
    setup_length: "length",
    setup_tension_ratio: "tieback ÷ line pull",
    setup_compression_ratio: "post ÷ line pull",
    setup_no_reading: "Neither a weight hung by hand nor counted swings show the tension well here: use the system's own tension indicator.",
    setup_read_poor: "This reading is not precise enough: check the sag too.",
    scenario_as_given: "falls as entered",
    scenario_together: "all fall together",
    stop_unknown: "There is no result to rely on.",
    stop_short: "There is not enough room under the feet.",
    stop_anywhere: "Somewhere on the line there is not enough room or strength: see below.",
    search_unresolved: "There is no result for the case as entered, nor for any other calculated in full.",
    why_absorber: "the workers who fall do not all stop at one instant, and the rope's own mass slows the line while the absorber deploys",
    why_rebound_more: ", when the line and the others bounce back and the absorber deploys again; the energy balance assumes a single stop for everyone",
    why_balance: "the energy balance assumes everyone stops at the same instant and the line loses no energy",
    why_balance_staggered: "the energy balance ignores timing and assumes everyone stops at the same instant; here they fall one after another",
    nominal_governs: "The tolerances add nothing: the inputs as entered need the most clearance.",
    say: Sentences {
        elsewhere: |line| format!("These are the falls as entered. {line}."),
        anywhere_at: |who, place, several| {
            if several {
                format!("{who}, their middle at {place}")
            } else {
                format!("{who}, at {place}")
            }
        },
        anywhere_places: |who, places| format!("{who}, at {places}"),
        anywhere_first: |n| format!("the first {n} of the crew fall together"),
        anywhere_first_in_turn: |n, delay, reversed| {
            let order = if reversed { ", last first" } else { "" };
            format!("the first {n} of the crew fall one after another, {delay} apart{order}")
        },
        anywhere_room: |room| format!("least room: {room}"),
        anywhere_room_at: |room, at| format!("least room: {room} ({at})"),
        anywhere_strength: |ratio, required| format!("least strength: {ratio} of {required}"),
        anywhere_strength_at: |ratio, required, at| {
            format!("least strength: {ratio} of {required} ({at})")
        },
        anywhere_tried: |tried, most, step| {
            format!(
                "{tried} cases tried along the line, the crew at its own spacing. One worker falls alone, or the first two, three and so on up to all. They fall together, or one after another up to {most} apart, in steps of {step}. This is the worst found, not a proven worst."
            )
        },
        anywhere_unresolved: |n, first| format!("No result for {n} of them; the first: {first}."),
        history_governs: |more, why| {
            format!(
                "The time history governs: it needs {more} more than the energy balance, because {why}."
            )
        },
        why_overshoot: |rope| {
            format!(
                "the rope's own mass ({rope}) carries the line past the point where the forces balance"
            )
        },
        why_rebound: |time| format!("the lowest point comes only after a rebound, at {time}"),
        balance_governs: |more, why| {
            format!(
                "The energy balance governs: it needs {more} more than the time history, because {why}."
            )
        },
        methods_agree: |step| format!("Energy balance and time history agree within {step}."),
        corner_takes: |more, list| format!(" ({list}): {more} more than the inputs as entered."),
        undamped_more: |more| format!(": {more} more."),
        crew_one: |worker, late, mass| {
            format!(
                "In that calculation {worker} falls {late} later and weighs {mass} more than entered."
            )
        },
        crew_all: |late, mass| {
            format!(
                "In that calculation all weigh {mass} more than entered and fall up to {late} later."
            )
        },
        crew_others: |worker, late, mass| {
            format!(
                "In that calculation all but {worker} fall {late} later and weigh {mass} more than entered."
            )
        },
        crew_beyond: |size| format!("Added for other small differences within the crew: {size}."),
        tension_range: |most, corner, least, greatest, balance| {
            format!(
                "Line tension up to {most} ({corner}). Inputs as entered: {least} to {greatest} with and without the line's internal friction; {balance} by the energy balance, which ignores the rope's own mass."
            )
        },
        with_limit: |value, limit| format!("{value}, limit {limit}"),
        chart_range_of: |worker| format!("{worker}, range with the tolerances"),
        chart_value: |curve, value| format!("{curve}: {value}"),
        chart_between: |range, least, greatest| format!("{range}: {least} to {greatest}"),
        chart_least: |range| format!("{range}, least"),
        chart_greatest: |range| format!("{range}, greatest"),
        with_required: |ratio, required| format!("{ratio}, required {required}"),
        inputs_open: |n| format!("not evaluated: inputs still open: {n}"),
        weakest: |label, part| format!("{label}, weakest: {part}"),
        source_input: |label| format!("input: {label}"),
        clause: |clause| clause.to_owned(),
        setup_within: |low, high| format!("{low} to {high} within the tolerance"),
        setup_cut_note: |between, ends| {
            format!("{between} between the end posts plus {ends} for the terminations")
        },
        setup_take_up_note: |ends| format!("the stretch plus {ends} for the ends moving in"),
        setup_tieback_note: |length, angle, tension| {
            format!(
                "{length} long, {angle} from vertical; {tension} at pretension if it takes the whole pull"
            )
        },
        setup_weight_note: |weight, span, least, most| {
            format!(
                "{weight} at the middle of span {span}; {least} to {most} is within the tolerance on pretension"
            )
        },
        setup_error: |off, error| {
            format!("a reading off by {off} throws the tension off by {error}")
        },
        setup_good: |what, error| format!("{what} brings that down to {error}"),
        setup_swings: |n| format!("time for {n} full swings (there and back)"),
        setup_swings_head: |n| format!("{n} full swings"),
        setup_swings_note: |span, least, most, swing| {
            format!(
                "pull the middle of span {span} sideways less than {swing} and let go; {least} to {most} is within the tolerance on pretension"
            )
        },
        setup_good_swings: |n, time| format!("{n} full swings ({time})"),
        setup_hang: |weight| format!("Hang {weight} for a better reading."),
        setup_count: |n| format!("Count {n} full swings (there and back) for a better reading."),
        scenario_one: |worker| format!("only {worker} falls"),
        scenario_in_turn: |delay, reversed| {
            let first = if reversed { "last" } else { "first" };
            format!("they fall one after another, {delay} apart, the {first} worker first")
        },
        search_progress: |made, of| format!("Searching: step {made} of {of}."),
        search_at: |places| format!("workers at {places}"),
        search_found: |what, worst, given| {
            format!("Worst found: {what}: {worst}; as entered: {given}.")
        },
        search_found_only: |what, worst| {
            format!(
                "There is no result for the case as entered. Worst found of the others: {what}: {worst}."
            )
        },
        search_none: |given| {
            format!("Nothing tried leaves less room than the case as entered: {given}.")
        },
        search_open: |n, what| {
            format!(
                "No result for {n} of the cases tried, for example: {what}. The worst may be among them."
            )
        },
        search_delays: |most| format!("Delays up to {most} between one fall and the next."),
        search_tension: |tension, what| format!("Highest line tension found: {tension} ({what})."),
        search_tried: |n| format!("{n} cases tried."),
        search_spacing: |distance| format!("Workers kept at least {distance} apart."),
        stop_not_met: |n| match n {
            1 => "1 check is not met.".to_owned(),
            n => format!("{n} checks are not met."),
        },
        of_required: |ratio, required, part| format!("{ratio} of {required} required: {part}"),
        over_limit: |value, limit, what| format!("{value}, limit {limit}: {what}"),
        under_limit: |value, limit, what| format!("{value}, at least {limit} required: {what}"),
        checks_tally: |failed, open, parts| {
            let of_them = match parts {
                0 => String::new(),
                1 => ", 1 of them a part with no strength entered".to_owned(),
                _ => format!(", {parts} of them parts with no strength entered"),
            };
            format!("{failed} not met, {open} not evaluated{of_them}")
        },
    },
};
