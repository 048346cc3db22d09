//! English, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    checks_heading: "Limits and strengths in brief",
    show_table: "Show as a table",
    chart_force: "Arrest force against time",
    chart_tension: "Line tension against time",
    col_what: "what",
    col_demand: "demand",
    col_capacity: "limit or strength",
    col_ratio: "ratio",
    col_required: "required",
    col_verdict: "verdict",
    col_source: "source",
    checks_note: "Demands are the worst of both methods, all tolerance corners and small differences within the crew, rounded up; limits, strengths and ratios are rounded down. A verdict compares two numbers; it is no permission.",
    setup_read_heading: "What was read on the line",
    setup_read_weight: "Weight hung at mid-span",
    setup_read_movement: "It moved down by",
    setup_read_time: "Seconds for ten swings",
    search_heading: "Worst timing and places",
    search_note: "Each search tries dozens of cases. The worst found is calculated in full, like the case on the page, and only those two are compared. It finds the worst it tried, not a proven worst.",
    search_delay: "Search the timing of the falls",
    search_places: "Search the places on the line",
    search_load: "Load this case",
    search_running: "Searching…",
    search_stop: "Stop the search",
    search_stopped: "Stopped before the end: no worst case is named.",
    rope_ratio: "rope, breaking force to tension",
    free_fall: "free fall",
    deceleration_distance: "deceleration distance",
    verdict_within: "within",
    verdict_over: "over the limit",
    verdict_too_weak: "less than required",
    not_evaluated: "not evaluated: enter the rated strength",
    time: "time",
    chart_range: "range with the tolerances",
    limit_arrest: "limit for a body harness",
    limit_half_breaking: "half the breaking force",
    check_no_contact: "depth of the soles, no contact",
    check_system_factor: "whole system, by its weakest part",
    check_anchorage_alternative: "anchorage by number of workers, the alternative to a factor of two",
    check_lanyard_strength: "lanyard strength, least by the regulation",
    check_self_retracting_strength: "self-retracting lifeline strength, least by the regulation",
    check_twice_impact_energy: "lanyard or SRL under twice the impact energy",
    check_user_mass: "weight with tools, beside the weight of the regulation's tests",
    check_en_arrest_force: "arrest force, beside the limit of the absorber's test",
    check_en_extension: "absorber extension, beside the limit of its test",
    check_en_retractable_force: "arrest force, beside the limit of the self-retracting lifeline's test",
    check_en_retractable_distance: "arrest distance, beside the limit of the self-retracting lifeline's test",
    check_en_users: "users, beside the number the standard is made for",
    check_footroom: "depth below the line, margin included",
    check_rope: "rope",
    check_termination: "rope termination",
    check_end_anchorage: "anchorage of the line",
    check_post_moment: "moment at the post foot",
    check_post_compression: "post compression",
    check_tieback: "tieback",
    check_tieback_anchorage: "anchorage of the tieback",
    check_intermediate_post: "downward load",
    check_intermediate_along: "pull along the line if the rope does not run free",
    subject_left_end: "left end",
    subject_right_end: "right end",
    checks_not_met: "Not met",
    checks_not_evaluated: "Not evaluated",
    checks_met: "Met",
    checks_information: "For information",
    verdict_meets: "meets",
    verdict_does_not_meet: "does not meet",
    verdict_information: "for information",
    reason_post: "not evaluated: describe the end post",
    reason_demand: "not evaluated: the fall gave no number",
    reason_limit: "not evaluated: no usable limit",
    reason_criteria: "not evaluated: for this weight the employer must modify the test criteria",
    reason_unknown: "not evaluated: cannot say, see the answer",
    source_memory: "from memory",
    setup_note: "Cross-checks only, subordinate to the system's own tension indicator and the makers' instructions: where they differ, those go first. No friction at the posts is counted.",
    setup_figures: "Putting the line up",
    setup_figure: "figure",
    setup_value: "value",
    setup_remark: "remark",
    setup_pretension: "pretension to set",
    setup_cut: "rope to cut, slack and straight",
    setup_marks: "marks from the cut left end",
    setup_marks_note: "left termination, intermediate posts, right termination",
    setup_stretch: "elastic stretch at the pretension",
    setup_take_up: "travel of the tensioner",
    setup_sag: "sag at rest, span by span",
    setup_left_tieback: "left tieback, fixing behind the post",
    setup_right_tieback: "right tieback, fixing behind the post",
    setup_weight: "movement under a hung weight",
    setup_weight_yields: "do not hang it: the absorber in the line would yield",
    setup_no_weight: "no weight that can be hung by hand tells the tension well",
    setup_better: "the check that tells more",
    setup_by_weight: "hung weight",
    setup_by_swings: "time of swings",
    setup_uncountable: "too quick to be counted by eye",
    setup_tells_nothing: "this reading does not tell the tension",
    setup_temperatures: "Tension against temperature",
    setup_temperature: "temperature",
    setup_tension: "tension",
    setup_sag_one: "sag",
    setup_movement: "movement",
    setup_today: "today",
    setup_beyond: "outside the tolerance",
    setup_slack: "slack",
    setup_yields: "absorber yields",
    setup_tiebacks: "Tiebacks behind a post of this height",
    setup_angle: "angle from the vertical",
    setup_set_back: "set-back",
    setup_length: "length",
    setup_tension_ratio: "tension over pull",
    setup_compression_ratio: "post compression over pull",
    setup_read_within: "That is within the tolerance of the pretension.",
    setup_read_beyond: "That is outside the tolerance of the pretension.",
    setup_read_poor: "But this reading does not tell it well: take a heavier weight or more swings, and look at the sag.",
    scenario_as_given: "falls as entered",
    scenario_together: "all fall together",
    stop_unknown: "There is no result to rely on.",
    stop_short: "There is not enough room under the feet.",
    search_unresolved: "There is no result for the case as entered, nor for any other calculated in full.",
    say: Sentences {
        with_limit: |value, limit| format!("{value}, limit {limit}"),
        chart_range_of: |worker| format!("{worker}, range with the tolerances"),
        chart_value: |curve, value| format!("{curve}: {value}"),
        chart_between: |range, least, greatest| format!("{range}: {least} to {greatest}"),
        chart_least: |range| format!("{range}, least"),
        chart_greatest: |range| format!("{range}, greatest"),
        with_required: |ratio, required| format!("{ratio}, required {required}"),
        subject_post: |n| format!("intermediate post {n}"),
        parts_not_evaluated: |n| format!("not evaluated: {n} parts still open"),
        weakest: |label, part| format!("{label}: {part}"),
        source_input: |label| format!("input: {label}"),
        setup_within: |low, high| format!("{low} to {high} within the tolerance"),
        setup_cut_note: |between, ends| {
            format!("{between} between the end posts, and {ends} for the terminations")
        },
        setup_take_up_note: |ends| format!("the stretch, and {ends} by which the ends give way"),
        setup_tieback_note: |length, angle, tension| {
            format!(
                "{length} long, {angle} from the vertical; {tension} at the pretension when it takes all of the pull"
            )
        },
        setup_weight_note: |weight, span, least, most| {
            format!(
                "{weight} at the middle of span {span}; {least} to {most} within the tolerance of the pretension"
            )
        },
        setup_error: |off, error| format!("a reading off by {off} puts the tension off by {error}"),
        setup_good: |what, error| format!("{what} brings it to {error}"),
        setup_swings: |n| format!("time of {n} swings"),
        setup_swings_note: |span, least, most, swing| {
            format!(
                "span {span} plucked sideways, less than {swing} either way; {least} to {most} within the tolerance of the pretension"
            )
        },
        setup_good_swings: |n, time| format!("{n} swings ({time})"),
        setup_read: |tension, low, high| {
            format!("{tension} at rest, between {low} and {high} by the error of the reading.")
        },
        setup_read_other: |low, high| format!("{low} to {high} fits as well."),
        setup_read_only: |tension| format!("{tension} at rest."),
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
                "No result for {n} of the cases tried, for one: {what}. The worst may be among them."
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
        checks_tally: |failed, open| format!("{failed} not met, {open} not evaluated"),
    },
};
