//! English, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    line_room: "Room where they stand",
    line_strength: "Strength",
    line_anywhere: "Anywhere on the line",
    still_looking: "still looking",
    word_deployed: "fully deployed",
    an_absorber: "an absorber",
    word_breaks: "the rope would break",
    show_worst: "Put the crew there",
    free_fall: "free fall",
    deceleration_distance: "deceleration distance",
    check_no_contact: "no contact, feet below line",
    check_system_factor: "complete system",
    check_anchorage_alternative: "anchorage, 5,000 lbf (22.2 kN) per worker",
    check_lanyard_strength: "lanyard, required strength",
    check_self_retracting_strength: "SRL, required strength",
    check_twice_impact_energy: "lanyard or SRL, twice the impact energy",
    check_user_mass: "weight with tools",
    check_en_arrest_force: "arrest force next to the EN 355 test limit",
    check_en_extension: "absorber extension next to the EN 355 test limit",
    check_en_retractable_force: "arrest force next to the EN 360 test limit",
    check_en_retractable_distance: "arrest distance next to the EN 360 test limit",
    check_en_users: "users next to the number EN 795 covers",
    check_footroom: "required clearance",
    check_rope: "rope",
    check_termination: "rope termination",
    check_end_anchorage: "lifeline anchorage",
    check_post_moment: "moment at the post base",
    check_post_compression: "post compression",
    check_tieback: "tieback",
    check_tieback_anchorage: "tieback anchorage",
    check_intermediate_post: "downward load",
    check_intermediate_along: "pull along the line if the rope jams",
    subject_left_end: "left end",
    subject_right_end: "right end",
    caution: "Planning and teaching aid only. A horizontal lifeline is designed, installed and used under the supervision of a qualified person, following local codes and the manufacturers' instructions. Have a rescue plan in place before anyone clips on.",
    problems_heading: "Fix these inputs",
    view_checks: "Checks",
    view_setup: "Set-up",
    share: "Share",
    undo: "Undo",
    redo: "Redo",
    demo: "Load the example",
    units_label: "Units",
    language_label: "Language",
    units_metric: "m · kN",
    units_us: "ft-in · lbf",
    play: "Start the fall",
    pause: "Pause",
    step_forward: "Step forward",
    step_back: "Step back",
    to_lowest: "Lowest point",
    to_start: "Back to start",
    speed_label: "Speed",
    speed_true: "real time",
    speed_quarter: "1/4",
    speed_tenth: "1/10",
    time_label: "Time since the first fall",
    inputs_heading: "Inputs",
    answer_heading: "The answer",
    stack_heading: "The stack",
    now_heading: "Now",
    methods_heading: "Two ways: by hand, and step by step",
    loading: "Loading the calculation…",
    crashed: "The calculation stopped unexpectedly. Reload the page; the link in the address bar has your case.",
    reload: "Reload",
    page_skip: "Skip to the answer",
    page_close: "Close",
    link_unread: "This link could not be read.",
    link_advice: "Part of it may have been cut off or changed on the way. Ask for the link again, or for the case as a file.",
    link_other: "The case on the page is not from this link.",
    link_text: "The link as received",
    page_purpose: "How far a worker falls on a temporary horizontal lifeline, and how much room is left under their feet.",
    page_drop: "The drop, drawn to scale",
    page_player: "Fall playback",
    page_keys: "Space: start or pause. Arrows: step. Home: back to start. End: hanging. L: lowest point. 1 to 5: rooms. T: talk. Ctrl+Z: undo.",
    page_hanging: "Hanging",
    page_more: "More inputs",
    page_charts: "Force and tension over time",
    page_coming: "Still loading: checks, charts and links. Changes you make now are calculated when loading ends.",
    page_later_failed: "Could not load the checks, charts and links. Check your connection and reload the page.",
    page_doors: "Rooms",
    page_door_plan: "Plan",
    page_door_decide: "Decide",
    page_door_explain: "Explain",
    page_door_site: "On site",
    page_door_file: "On file",
    page_part_drop: "The fall",
    page_part_inputs: "Line and crew",
    page_part_charts: "Charts",
    page_about: "About this answer",
    page_crew_all: "all",
    page_crew_at: "at",
    page_crew_mass: "weight",
    page_crew_gear: "lanyard",
    page_crew_falls: "falls",
    page_caution: "Show the whole caution",
    invented: "invented example, not a real job",
    stale: "These numbers are from your last valid inputs, not from what is typed now. Fix the marked inputs first.",
    word_spare: "to spare",
    word_short: "short",
    word_unknown: "no result",
    not_computed: "nothing has been calculated yet",
    link_no_result: "No result: the link could not be read.",
    rounding_note: "Rounded on the cautious side: required clearance and forces up, footroom and ratios down. The rows add up as shown.",
    nobody_falls: "Nobody falls in this case.",
    soles_touch: "By this calculation the worker hits the lower level.",
    energy_balance: "energy balance",
    time_history: "time history",
    line_deflection: "line deflection",
    lanyard: "lanyard",
    self_retracting: "SRL, locked",
    absorber_extension: "energy absorber",
    harness_stretch: "harness stretch",
    dring_to_sole: "D-ring to soles",
    margin: "clearance margin",
    required: "required clearance below line",
    available: "available clearance below line",
    footroom: "footroom",
    arrest_force: "arrest force",
    line_tension: "line tension",
    inline_extension: "in-line absorber extension",
    inline_extension_both: "in-line absorber extension, both ends added",
    soles_below_line: "feet below the line",
    phase_standing: "standing",
    phase_free_fall: "in free fall",
    phase_arrest: "being stopped",
    phase_lowest: "at the lowest point",
    phase_rebound: "on the rebound",
    phase_hanging: "hanging",
    mark_peak_tension: "peak line tension",
    below_vehicle: "truck or equipment",
    below_structure: "lower beam or slab",
    below_access: "stair, scaffold or ladder",
    below_stack: "stacked material",
    below_other: "other",
    doubt_other: "the calculation raised a warning that this page cannot name; reload the page",
    shared_same: "Same result as when it was shared.",
    scene_line: "line",
    scene_beam_top: "beam top",
    scene_datum: "ground",
    scene_tension: "line {}",
    scene_spare: "{} to spare",
    scene_short: "short by {}",
    scene_required: "required",
    scene_available: "available",
    allowance: "model allowance",
    tolerance_soft: "tolerances, soft side",
    tolerance_stiff: "tolerances, stiff side",
    tolerance_mixed: "tolerances, mixed side",
    tolerance_undamped: "line without internal friction",
    tolerance_crew: "crew differences",
    tolerance_and_crew: "tolerances and crew",
    first_answer: "First number, for the crew as entered. Small differences are still being calculated.",
    corner_nominal: "inputs as entered",
    corner_soft: "soft side",
    corner_stiff: "stiff side",
    corner_mixed: "mixed side",
    corner_undamped: "line without internal friction",
    off_absorber_weak: "weaker absorbers",
    off_absorber_strong: "absorbers at their maximum force",
    off_absorber_stronger: "stronger absorbers",
    off_rope_soft: "stretchier rope",
    off_rope_stiff: "stiffer rope",
    off_ends_soft: "more flexible ends",
    off_ends_stiff: "stiffer ends",
    off_friction: "no internal friction in the line",
    off_pretension_low: "less pretension",
    off_pretension_high: "more pretension",
    off_mass: "heavier workers",
    off_inline_early: "in-line absorber deploying earlier",
    off_inline_late: "in-line absorber deploying later",
    given_governs: "The inputs as entered govern",
    undamped_governs: "The line without internal friction governs",
    checked_span_count: "number of spans",
    checked_end_stiffness: "stiffness of an end post with its tieback",
    checked_users: "workers who fall",
    checked_delay: "time between first and last fall",
    checked_self_retracting: "workers on self-retracting lifelines",
    checked_offset: "distance from the connector",
    checked_deflection: "line deflection ÷ span",
    checked_slope: "slope of the line next to a connector",
    checked_nearness: "distance between neighboring connectors, in calculation segments",
    checked_span: "length of a span",
    checked_pretension: "pretension",
    checked_axial_stiffness: "rope stiffness EA",
    checked_mass_per_length: "rope mass per length",
    checked_inline_force: "deployment force of the in-line absorber",
    checked_inline_extension: "maximum extension of the in-line absorber",
    checked_damping: "internal friction of the line (damping)",
    checked_mass: "weight of a worker",
    checked_free_fall: "free fall",
    checked_gear_stiffness: "stiffness of webbing and harness",
    checked_absorber_force: "average force of a personal absorber",
    checked_absorber_extension: "maximum extension of a personal absorber",
    checked_locked_stiffness: "stiffness of a fully deployed personal absorber",
    checked_other: "another quantity",
    say: Sentences {
        under: |worker, margin| format!("under {worker}, on top of the {margin} margin"),
        needs: |worker, required, available| {
            format!(
                "{worker} needs {required} of clearance below the line; {available} is available"
            )
        },
        of_ratio: |required| format!("of {required} required"),
        parts_open: |n| {
            if n == 1 {
                ("1 part".to_owned(), "has no strength entered")
            } else {
                (format!("{n} parts"), "have no strength entered")
            }
        },
        limits_open: |n| {
            if n == 1 {
                ("1 limit".to_owned(), "not met")
            } else {
                (format!("{n} limits"), "not met")
            }
        },
        answer_line: |heading, number, word| format!("{heading}: {number} {word}"),
        subject_post: |n| format!("intermediate post {n}"),
        worker: |n| format!("worker {n}"),
        worker_label: |n| format!("Worker {n}"),
        spare: |amount, worker, margin| {
            format!("{amount} to spare under {worker}, on top of the {margin} margin.")
        },
        short: |amount, worker, required, available| {
            format!(
                "Short by {amount}: {worker} needs {required} of clearance below the line; {available} is available."
            )
        },
        cannot_say: |reason| format!("No result: {reason}."),
        margin_not_kept: |clear, margin| {
            format!(
                "By this calculation the feet stop {clear} above the lower level: less than the {margin} margin."
            )
        },
        soles_too_low: |depth| {
            format!(
                "By this calculation the worker hits the lower level: the feet would end {depth} below it."
            )
        },
        beyond_breaking: |tension, breaking| {
            format!("the rope would break (line tension {tension}, breaking strength {breaking})")
        },
        too_steep: |slope, most| {
            format!(
                "the line is pulled steeper ({slope}) than this calculation can describe ({most})"
            )
        },
        absorber_used_up: |worker, force| {
            format!(
                "{worker}'s energy absorber is fully deployed and goes stiff: arrest force {force}"
            )
        },
        inline_used_up: |tension| {
            format!("the in-line absorber is fully deployed and goes stiff: line tension {tension}")
        },
        strikes: |worker, time, speed| {
            format!("{worker} hits the lower level at {time}, moving at {speed}")
        },
        not_finished: |worker, longest| {
            let then = if longest {
                "no longer time can be simulated, so how deep is not known"
            } else {
                "increase the simulated time"
            };
            format!("{worker} is still going down when the simulated time ends; {then}")
        },
        fall_together: |falling, all| match (falling, all) {
            (1, 1) => "The only worker falls.".to_owned(),
            (1, _) => format!("One of {all} falls; the others stay standing."),
            (2, 2) => "Both fall together.".to_owned(),
            _ if falling == all => format!("All {all} fall together."),
            _ => format!("{falling} of {all} fall together; the others stay standing."),
        },
        fall_in_turn: |falling, all| {
            if falling == all {
                format!("All {all} fall one after another")
            } else {
                format!("{falling} of {all} fall one after another")
            }
        },
        fall_at: |times, others| {
            let stay = if others {
                "; the others stay standing"
            } else {
                ""
            };
            format!(", at {times}{stay}.")
        },
        of_worker: |label, worker| format!("{label}, {worker}"),
        mark_taut: |worker| format!("{worker}: gear comes tight"),
        mark_lowest: |worker| format!("{worker}: lowest point"),
        shared_differs: |was, is| {
            format!(
                "This result does not match the shared one, although the model is the same: footroom was {was}, now {is}. Do not rely on either until you know why."
            )
        },
        shared_changed: |was, is| {
            format!("The model has changed since this was shared: footroom was {was}, now {is}.")
        },
        model: |version, fingerprint| format!("model {version}, result code {fingerprint}"),
        describe_line: |length, spans, height, top| {
            format!(
                "A {length} lifeline with spans of {spans}, {height} above the beam top; the beam top is {top} above the ground."
            )
        },
        describe_below: |kind, from, to, height| {
            format!("Below, from {from} to {to}: {kind}, {height} high.")
        },
        describe_standing: |worker, place| format!("{worker}, at {place}, stays standing."),
        describe_fall: |worker, place, free, force, time, depth| {
            format!(
                "{worker}, at {place}, free-falls {free} and takes at most {force}; at the lowest point, at {time}, the feet are {depth} below the line."
            )
        },
        describe_hanging: |worker, above| {
            format!("{worker} then hangs with the feet {above} above the lower level.")
        },
        spoken_line: |time, tension| format!("At {time}: line tension {tension}."),
        spoken_worker: |worker, phase, force| format!("{worker} {phase}, {force}."),
        corner_governs: |corner| format!("The {corner} of the tolerances governs"),
        crew_last: |size| {
            format!(
                "When several workers fall, the last {size} cannot be promised: hundredths of a second decide."
            )
        },
        corner_list: |corner, list| format!("{corner}: {list}"),
        corner_used_up: |corner| {
            format!(
                "on the {corner} of the tolerances an absorber is fully deployed and goes stiff"
            )
        },
        corner_breaks: |tension, breaking| {
            format!(
                "with the tolerances the rope would break (line tension {tension}, breaking strength {breaking})"
            )
        },
        corner_contact: |worker| format!("with the tolerances {worker} hits the lower level"),
        swing: |worker, reach, drop| {
            format!(
                "swing fall: {worker} goes over {reach} away from the connector and swings back under it, {drop} lower. By geometry the swing ends no lower than the stack. What the worker can hit on the way is not checked here"
            )
        },
        edge_contact: |worker| {
            format!(
                "{worker}'s lanyard or SRL bears on the beam edge. It must be rated for edge contact; the edge is not part of this calculation"
            )
        },
        describe_pulled: |height| {
            format!("The line there is pulled down to {height} above the beam top.")
        },
        ledger_open: |off| {
            format!(
                "the energy check failed: the calculated motion gains or loses {off}% of its energy"
            )
        },
        swings_below_stack: |worker, deeper| {
            format!(
                "{worker}'s lanyard or SRL is paid out to the side: the swing ends {deeper} deeper than the stack counts"
            )
        },
        retracting_below: |worker, below, free_fall| {
            format!(
                "{worker}'s SRL is clipped {below} below the D-ring, so the free fall is {free_fall}. Most SRLs are tested with less; only the manufacturer's instructions say whether this one can be used there"
            )
        },
        free_fall_raised: |worker, given, taken| {
            format!(
                "the free fall of {given} entered for {worker} ends before the D-ring is down at the line, where nothing is tight yet; {taken} is used instead"
            )
        },
        beyond_reach: |worker, offset, reach| {
            format!(
                "{worker} stands {offset} from the connector, but the lanyard only reaches {reach} to the side"
            )
        },
        edge_slide: |worker, slide| {
            format!("as {worker} swings, the gear drags {slide} along the edge")
        },
        line_on_edge: |worker| {
            format!(
                "at {worker} the line is pulled down onto the beam; that contact is not part of this calculation"
            )
        },
        outside_checked: |list| {
            format!(
                "outside the range this calculation was tested in: {list}; no independent result backs the number there"
            )
        },
        checked_range: |label, value, least, most| {
            format!("{label} {value} (checked {least} to {most})")
        },
        checked_from: |label, value, least| format!("{label} {value} (checked from {least})"),
        checked_none: |label, value| format!("{label} {value} (none checked)"),
    },
};
