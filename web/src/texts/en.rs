//! English, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    caution: "A planning and teaching aid. The design, installation and use of a horizontal lifeline belong to a qualified person, under local codes and the equipment makers' instructions. Have a rescue plan in place before use.",
    problems_heading: "Some inputs cannot be used",
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
    play: "Let go",
    pause: "Pause",
    step_forward: "Step forward",
    step_back: "Step back",
    to_lowest: "Lowest point",
    to_start: "Back to rest",
    speed_label: "Speed",
    speed_true: "true speed",
    speed_quarter: "1/4",
    speed_tenth: "1/10",
    time_label: "Time since the first worker let go",
    inputs_heading: "Inputs",
    answer_heading: "The answer",
    stack_heading: "The stack",
    now_heading: "Now",
    methods_heading: "Two methods side by side",
    loading: "Loading the calculation…",
    crashed: "The calculation stopped unexpectedly. Load the page again; the link in the address bar keeps the case.",
    reload: "Load again",
    page_skip: "Skip to the answer",
    page_close: "Close",
    link_unread: "This link could not be read.",
    link_advice: "Part of it may have been cut off or changed on the way. Ask for the link again, or for the case as a file.",
    link_other: "The case on the page is not from this link.",
    link_text: "The link as received",
    page_purpose: "How far down a falling worker goes on a temporary horizontal lifeline, and whether the feet stay clear of what is below.",
    page_drop: "The drop, drawn to scale",
    page_player: "Playback of the fall",
    page_keys: "Space: let go or pause. Arrows: step. Home: at rest. End: hanging still. L: lowest point.",
    page_hanging: "Hanging still",
    page_more: "More inputs",
    page_charts: "Force and tension against time",
    page_later_failed: "The checks, charts and links could not be loaded. Check the connection and load the page again.",
    invented: "invented example",
    stale: "These numbers belong to the last inputs without faults, not to what the fields hold now.",
    word_spare: "to spare",
    word_short: "short",
    word_unknown: "cannot say",
    not_computed: "nothing has been computed yet",
    link_no_result: "No result: the link could not be read.",
    rounding_note: "Required depth and forces are rounded up, footroom and ratios down; the rows shown add up as shown.",
    nobody_falls: "Nobody falls in this case.",
    why_absorber: "those who fall do not all stop at one instant, and the rope's own mass holds the line back while the absorber pays out",
    why_rebound_more: ", when the line and the others swing back and the absorber pays out again; the energy balance knows one stop for all",
    why_balance: "the energy balance lets all who fall stop at the same instant and loses nothing in the line",
    why_balance_staggered: "the energy balance knows no timing and lets all who fall stop at the same instant; here they fall one after another",
    energy_balance: "energy balance",
    time_history: "time history",
    line_deflection: "line deflection",
    lanyard: "lanyard",
    self_retracting: "self-retracting lifeline, locked",
    absorber_extension: "energy absorber",
    harness_stretch: "harness stretch",
    dring_to_sole: "D-ring to sole",
    margin: "margin",
    required: "required below the line",
    available: "measured below the line",
    footroom: "footroom",
    arrest_force: "arrest force",
    line_tension: "line tension",
    inline_extension: "in-line absorber, extension",
    soles_below_line: "soles below the line",
    phase_standing: "standing",
    phase_free_fall: "in free fall",
    phase_arrest: "being stopped",
    phase_lowest: "at the lowest point",
    phase_rebound: "on the rebound",
    phase_hanging: "hanging",
    mark_peak_tension: "greatest line tension",
    below_vehicle: "truck or machine",
    below_structure: "lower beam or slab",
    below_access: "stair, scaffold or ladder",
    below_stack: "stacked material",
    below_other: "other",
    doubt_other: "the calculation reports a doubt that this page does not know",
    shared_same: "Same result as when shared.",
    scene_line: "line",
    scene_beam_top: "beam top",
    scene_datum: "ground",
    scene_tension: "line {}",
    scene_spare: "{} to spare",
    scene_short: "short by {}",
    scene_required: "required",
    scene_available: "measured",
    allowance: "model allowance",
    tolerance_soft: "tolerances, soft corner",
    tolerance_stiff: "tolerances, stiff corner",
    tolerance_mixed: "tolerances, mixed corner",
    tolerance_undamped: "line without damping",
    tolerance_crew: "crew differences",
    tolerance_and_crew: "tolerances and crew",
    first_answer: "First number, for the crew exactly as entered. Small differences between the workers are still being calculated.",
    corner_nominal: "as given",
    corner_soft: "soft corner",
    corner_stiff: "stiff corner",
    corner_mixed: "mixed corner",
    corner_undamped: "line without damping",
    off_absorber_weak: "weaker absorbers",
    off_absorber_strong: "absorbers at their maximum force",
    off_rope_soft: "softer rope",
    off_rope_stiff: "stiffer rope",
    off_ends_soft: "softer ends",
    off_ends_stiff: "stiffer ends",
    off_pretension_low: "less pretension",
    off_pretension_high: "more pretension",
    off_mass: "heavier workers",
    off_inline_early: "absorber in the line yielding earlier",
    off_inline_late: "absorber in the line yielding later",
    nominal_governs: "No tolerance corner asks for more than the inputs as given.",
    checked_span_count: "number of spans",
    checked_end_stiffness: "stiffness of an end with its post",
    checked_users: "workers who fall",
    checked_delay: "time between first and last fall",
    checked_self_retracting: "workers on self-retracting lifelines",
    checked_offset: "distance from the connector",
    checked_deflection: "deflection of the line over its span",
    checked_slope: "slope of the line beside a connector",
    checked_nearness: "distance from a connector to the next one, in segments of the calculated line (about 0.45 m of rope)",
    checked_span: "length of a span",
    checked_pretension: "pretension",
    checked_axial_stiffness: "rope stiffness EA",
    checked_mass_per_length: "rope mass per length",
    checked_inline_force: "yield force of the in-line absorber",
    checked_inline_extension: "extension of the in-line absorber",
    checked_damping: "damping of the line",
    checked_mass: "mass of a worker",
    checked_free_fall: "free fall",
    checked_gear_stiffness: "stiffness of webbing and harness",
    checked_absorber_force: "average force of a personal absorber",
    checked_absorber_extension: "greatest extension of a personal absorber",
    checked_locked_stiffness: "stiffness of a personal absorber once used up",
    checked_other: "another quantity",
    say: Sentences {
        worker: |n| format!("worker {n}"),
        worker_label: |n| format!("Worker {n}"),
        spare: |amount, worker, margin| {
            format!("{amount} to spare under {worker}, with the margin of {margin} kept.")
        },
        short: |amount, worker, required, available| {
            format!(
                "Short by {amount}: {worker} needs {required} below the line, and {available} is there."
            )
        },
        cannot_say: |reason| format!("Cannot say: {reason}."),
        margin_not_kept: |clear, margin| {
            format!(
                "By this calculation the soles stop {clear} above what is below, but the margin of {margin} is not kept."
            )
        },
        soles_too_low: |depth| {
            format!("The soles would come {depth} lower than the top of what is below.")
        },
        beyond_breaking: |tension, breaking| {
            format!("the line tension of {tension} exceeds the rope's breaking force of {breaking}")
        },
        too_steep: |slope, most| {
            format!(
                "the line grows steeper ({slope}) than vertical motion can describe ({most}), so the answer would not be the line's"
            )
        },
        absorber_used_up: |worker, force| {
            format!("the absorber of {worker} is used up and goes stiff: {force}")
        },
        inline_used_up: |tension| {
            format!("the absorber in the line is used up and goes stiff: {tension}")
        },
        strikes: |worker, time, speed| {
            format!("{worker} comes down on what is below after {time}, at {speed}")
        },
        not_finished: |worker| {
            format!(
                "{worker} is still going down when the simulated time ends; raise the simulated time"
            )
        },
        fall_together: |falling, all| match (falling, all) {
            (1, 1) => "The only worker falls.".to_owned(),
            (1, _) => format!("One of {all} falls; the others stay standing."),
            (2, 2) => "Both fall together.".to_owned(),
            _ if falling == all => format!("All {all} fall together."),
            _ => format!("{falling} of {all} fall together; the others stay standing."),
        },
        fall_in_turn: |falling, all, times| {
            if falling == all {
                format!("All {all} fall one after another, at {times}.")
            } else {
                format!(
                    "{falling} of {all} fall one after another, at {times}; the others stay standing."
                )
            }
        },
        history_governs: |more, why| {
            format!("The time history governs: {more} more than the energy balance, because {why}.")
        },
        why_overshoot: |rope| {
            format!(
                "the rope's own mass ({rope}) carries the line past the shape in which the forces balance"
            )
        },
        why_rebound: |time| format!("the lowest point comes only after a rebound, at {time}"),
        balance_governs: |more, why| {
            format!("The energy balance governs: {more} more than the time history, because {why}.")
        },
        methods_agree: |step| format!("Energy balance and time history agree within {step}."),
        of_worker: |label, worker| format!("{label}, {worker}"),
        mark_taut: |worker| format!("{worker}: gear taut"),
        mark_lowest: |worker| format!("{worker}: lowest point"),
        shared_differs: |was, is| {
            format!(
                "Not the result that was shared, although the model is the same: footroom was {was}, is {is}."
            )
        },
        shared_changed: |was, is| {
            format!("The model has changed since this was shared: footroom was {was}, is {is}.")
        },
        model: |version, fingerprint| format!("model {version}, fingerprint {fingerprint}"),
        describe_line: |length, spans, height, top| {
            format!(
                "A lifeline of {length} over spans of {spans}, {height} above the beam top; the beam top is {top} above the ground."
            )
        },
        describe_below: |kind, from, to, height| {
            format!("Below, from {from} to {to}: {kind}, {height} high.")
        },
        describe_standing: |worker, place| format!("{worker}, at {place}, stays standing."),
        describe_fall: |worker, place, free, force, time, depth| {
            format!(
                "{worker}, at {place}, falls {free} free, is pulled with at most {force}, and at the lowest point, after {time}, has the soles {depth} below the line."
            )
        },
        describe_hanging: |worker, above| {
            format!("{worker} then hangs with the soles {above} above what is below.")
        },
        spoken_line: |time, tension| format!("At {time}: line tension {tension}."),
        spoken_worker: |worker, phase, force| format!("{worker} {phase}, {force}."),
        corner_governs: |more, corner, list| {
            format!(
                "The {corner} of the tolerances governs ({list}): {more} more than the inputs as given."
            )
        },
        undamped_governs: |more| format!("The line without its damping governs: {more} more."),
        crew_one: |worker, late, mass| {
            format!("In that run {worker} falls {late} later and weighs {mass} more than entered.")
        },
        crew_all: |late, mass| {
            format!("In that run all weigh {mass} more than entered and fall up to {late} later.")
        },
        crew_beyond: |size| format!("Added for other small differences within the crew: {size}."),
        crew_last: |size| {
            format!(
                "When several workers fall, the last {size} cannot be promised: hundredths of a second decide them."
            )
        },
        tension_range: |most, corner, least, greatest, balance| {
            format!(
                "Line tension up to {most} ({corner}); as given {least} to {greatest}, with and without the line's damping, and {balance} by the energy balance, which leaves out the rope's own mass."
            )
        },
        corner_list: |corner, list| format!("{corner}: {list}"),
        corner_used_up: |corner| {
            format!("in the {corner} of the tolerances an absorber is used up and goes stiff")
        },
        corner_breaks: |tension, breaking| {
            format!(
                "with the tolerances the line tension of {tension} exceeds the rope's breaking force of {breaking}"
            )
        },
        corner_contact: |worker| {
            format!("with the tolerances {worker} comes down on what is below")
        },
        swing: |worker, reach, drop| {
            format!(
                "{worker} goes over {reach} beside the connector and swings back under it, {drop} down on the way; that is no length of the stack, and what stands in the way of the swing is not in this calculation"
            )
        },
        edge_contact: |worker| {
            format!(
                "the gear of {worker} bears on the edge of the beam: it must be made for that, and the edge is not in this calculation"
            )
        },
        describe_pulled: |height| {
            format!("The line there is pulled down to {height} above the beam top.")
        },
        ledger_open: |off| {
            format!("the energies of the calculated motion do not add up: they are off by {off} %")
        },
        swings_below_stack: |worker, deeper| {
            format!(
                "the gear of {worker} is paid out to the side: his swing ends {deeper} deeper than the stack counts"
            )
        },
        retracting_below: |worker, below, free_fall| {
            format!(
                "{worker}'s self-retracting lifeline is clipped {below} below the D-ring, so the free fall is {free_fall}. Most such lifelines are tested with less. Only the manufacturer's instructions say whether this one is made for it"
            )
        },
        free_fall_raised: |worker, given, taken| {
            format!(
                "the free fall of {given} entered for {worker} ends before the D-ring has come down to the line. Nothing can be taut there; {taken} is used instead"
            )
        },
        beyond_reach: |worker, offset, reach| {
            format!(
                "{worker} stands {offset} from the connector, and his lanyard reaches only {reach} to the side"
            )
        },
        edge_slide: |worker, slide| {
            format!("as {worker} swings, the gear is dragged {slide} along the edge")
        },
        line_on_edge: |worker| {
            format!(
                "the line is pulled down to the beam at {worker} and bears on it; the beam under the line is not in this calculation"
            )
        },
        outside_checked: |list| {
            format!(
                "outside what the calculation was checked against: {list}; nothing independent stands beside the number there"
            )
        },
        checked_range: |label, value, least, most| {
            format!("{label} {value} (checked {least} to {most})")
        },
        checked_from: |label, value, least| format!("{label} {value} (checked from {least})"),
        checked_none: |label, value| format!("{label} {value} (none checked)"),
    },
};
