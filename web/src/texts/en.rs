//! English, as crews in North America speak it.

use super::{FieldText, Fields, Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    caution: "A planning and teaching aid. The design, installation and use of a horizontal lifeline belong to a qualified person, under local codes and the equipment makers' instructions. Have a rescue plan in place before use.",
    tagline: "The room left under a falling worker's soles",
    invented: "invented example",
    stale: "These numbers belong to the last inputs without faults, not to what the fields hold now.",
    problems_heading: "Some inputs cannot be used",

    view_drop: "Drop",
    view_why: "Why",
    view_fit: "Fit",
    view_checks: "Checks",
    view_setup: "Set-up",
    view_record: "Record",
    talk: "Talk",
    share: "Share",
    share_copied: "Link copied. It carries the whole case; nothing is sent to a server.",
    share_by_hand: "The clipboard is not available: copy the link from here.",
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
    more_inputs: "More inputs, each with its default and where that comes from",
    answer_heading: "The answer",
    stack_heading: "The stack",
    now_heading: "Now",
    checks_heading: "Limits and strengths in brief",
    methods_heading: "Two methods side by side",
    show_table: "Show as a table",
    range_label: "Range",
    default_label: "Default",
    basis_label: "Where it comes from",
    loading: "Loading the calculation…",
    no_wasm: "This browser cannot run WebAssembly, so nothing can be calculated here. Open the link in a newer browser; the case in it is kept.",
    crashed: "The calculation stopped unexpectedly. Load the page again; the link in the address bar keeps the case.",
    reload: "Load again",
    storage_blocked: "The browser's storage is full or blocked: layouts cannot be kept here. Share or save the case instead.",
    offline_ready: "Stored on this device: works without a network from now on.",
    update_ready: "A newer version is ready.",

    word_spare: "to spare",
    word_short: "short",
    word_unknown: "cannot say",
    not_computed: "nothing has been computed yet",
    rounding_note: "Required depth and forces are rounded up, footroom and ratios down; the rows shown add up as shown.",
    nobody_falls: "Nobody falls in this case.",
    why_absorber: "those who fall do not all stop at one instant, and the rope's own mass holds the line back while the absorber pays out",
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
    rope_ratio: "rope, breaking force to tension",
    free_fall: "free fall",
    deceleration_distance: "deceleration distance",
    verdict_within: "within",
    verdict_over: "over the limit",
    verdict_too_weak: "less than required",
    not_evaluated: "not evaluated: enter the rated strength",
    inline_extension: "in-line absorber, extension",
    soles_below_line: "soles below the line",
    time: "time",
    phase_standing: "standing",
    phase_free_fall: "in free fall",
    phase_arrest: "being stopped",
    phase_lowest: "at the lowest point",
    phase_rebound: "on the rebound",
    phase_hanging: "hanging",
    mark_peak_tension: "greatest line tension",

    chart_force: "Arrest force against time",
    chart_tension: "Line tension against time",
    limit_arrest: "limit for a body harness",
    limit_half_breaking: "half the breaking force",

    group_job: "The job",
    group_line: "The line",
    group_crew: "The crew",
    group_site: "The beam and the margin",
    group_motion: "The calculation",

    title_label: "Job and beam",
    title_hint: "Stands on the sheet and in the link; leave people's names out.",
    rope_label: "Rope",
    rope_hint: "Fills in diameter, stiffness, mass and breaking force of a generic rope; the maker's data sheet goes before them.",
    rope_own: "own values",
    rope_galvanised_7x19: "7x19 galvanized",
    rope_stainless_7x19: "7x19 stainless",
    rope_fibre_core_6x19: "6x19 fiber core",
    inline_label: "Energy absorber in the line",
    inline_hint: "Holds the line tension down by letting the line grow longer: less force on the posts, more deflection.",
    count_label: "Users on the line",
    count_hint: "Everybody clipped to it; each added user is set beside the last.",
    below_count_label: "Things below",
    below_count_hint: "Trucks, lower beams, stairs, stacks: whatever stands higher than the ground.",
    falls_label: "Falls",
    falls_hint: "Whether this worker falls or stays standing, clipped to the line.",
    falls_yes: "falls",
    falls_no: "stays standing",
    gear_label: "Connecting gear",
    gear_hint: "A lanyard of fixed length, or a self-retracting lifeline.",
    gear_lanyard: "lanyard",
    gear_self_retracting: "self-retracting lifeline",
    absorber_label: "Personal energy absorber",
    absorber_hint: "Limits the arrest force by paying out; without one the stretch of the webbing alone stops the fall.",
    choice_on: "yes",
    choice_off: "no",
    kind_label: "What it is",
    kind_hint: "Decides how it is drawn and named, nothing else.",
    below_vehicle: "truck or machine",
    below_structure: "lower beam or slab",
    below_access: "stair, scaffold or ladder",
    below_stack: "stacked material",
    below_other: "other",
    mixed: "differs from worker to worker; a value typed here goes to all",
    empty_rigid: "Empty: the support does not move.",
    empty_not_evaluated: "Empty: not known, strength is not evaluated.",
    empty_from_geometry: "Empty: follows from the lanyard and the heights.",
    empty_from_average: "Empty: the average divided by 0.875.",
    empty_stands: "Empty: stays standing.",

    basis_site: "known only on the site; no default can stand for it",
    basis_common_practice: "common practice of the trade, no published source",
    basis_catalogue: "rope catalogue; the maker's data sheet goes before it",
    basis_published: "published standard or paper",
    basis_maker: "the maker's instructions; the default is only an invented example",
    basis_method: "setting of the calculation",

    fault_not_finite: "not a number that can be used",
    fault_choice: "not one of the choices",
    fault_other: "not a value that can be used here",
    doubt_other: "the calculation reports a doubt that this page does not know",
    fault_empty: "a value is needed here",

    link_foreign: "This is not a link of this page.",
    link_truncated: "The link ends too early: part of it was lost on the way.",
    link_checksum: "The link was changed on the way: its checksum does not fit.",
    link_trailing: "Something follows after the end of the link.",
    json_end: "it ends too early",
    json_character: "this character cannot stand here",
    json_number: "no number that can be used",
    json_text: "a text with something in it that cannot be",
    json_depth: "nested too deep",
    json_kind: "another kind of value is expected here",
    link_kept: "The case on the page was left as it is.",
    shared_same: "Same result as when shared.",

    // scene
    scene_line: "line",
    scene_beam_top: "beam top",
    scene_datum: "ground",
    scene_tension: "line {}",
    scene_spare: "{} to spare",
    scene_short: "short by {}",
    scene_required: "required",
    scene_available: "measured",
    page_skip: "Skip to the answer",
    page_close: "Close",
    page_purpose: "How far down a falling worker goes on a temporary horizontal lifeline, and whether the feet stay clear of what is below.",
    page_drop: "The drop, drawn to scale",
    page_player: "Playback of the fall",
    page_keys: "Space: let go or pause. Arrows: step. Home: at rest. End: hanging still. L: lowest point.",
    page_hanging: "Hanging still",
    page_more: "More inputs",
    page_charts: "Force and tension against time",
    page_add_below: "Add a thing below",
    page_remove: "Remove",
    page_link: "The link",
    page_kept_text: "The link as it came, kept",
    group_posts: "End posts and tiebacks",
    group_strengths: "Rated strengths",
    group_tolerances: "Tolerances",
    group_allowance: "Model allowance",
    group_temperature: "Temperature",
    group_sets: "What the checks compare with",
    left_post_label: "Left post described",
    left_post_hint: "With it the stiffness of the left end comes from post and tieback, and their forces are checked; without it the stiffness given with the line counts.",
    right_post_label: "Right post described",
    right_post_hint: "With it the stiffness of the right end comes from post and tieback, and their forces are checked; without it the stiffness given with the line counts.",
    left_tieback_label: "Left tieback",
    left_tieback_hint: "Runs from the post head down to the beam behind the post; it takes most of the pull and presses the post down.",
    right_tieback_label: "Right tieback",
    right_tieback_hint: "Runs from the post head down to the beam behind the post; it takes most of the pull and presses the post down.",
    set_us_label: "29 CFR 1926 Subpart M (US)",
    set_us_hint: "Compares with the limits of this regulation; it is the one to start with.",
    set_european_label: "EN 355 and EN 795",
    set_european_hint: "Sets what this fall asks beside limits that a product meets in its own test.",
    own_count_label: "Limits of your own",
    own_count_hint: "A local code's, an owner's or a maker's, each with where it stands.",
    own_label_label: "Name",
    own_label_hint: "How the check is called in the table.",
    own_quantity_label: "What it limits",
    own_quantity_hint: "The greatest over workers and ends is compared; for the footroom the least.",
    own_limit_label: "Limit",
    own_limit_hint: "At most this much; for the footroom at least this much.",
    own_reference_label: "Where it stands",
    own_reference_hint: "Clause, drawing or letter, so that another person can look it up.",
    own_arrest_force: "arrest force on a worker",
    own_free_fall: "free fall",
    own_deceleration_distance: "deceleration distance",
    own_required_depth: "required below the line, with the margin",
    own_footroom: "footroom, at least",
    own_line_tension: "tension anywhere in the line",
    own_end_tension: "tension at an end of the line",
    own_tieback_tension: "tension of a tieback",
    own_post_compression: "compression of an end post",
    own_post_moment: "moment at the foot of an end post",
    own_intermediate_post_load: "downward load on an intermediate post",
    allowance: "model allowance",
    tolerance_soft: "tolerances, soft corner",
    tolerance_stiff: "tolerances, stiff corner",
    tolerance_mixed: "tolerances, mixed corner",
    tolerance_undamped: "line without damping",
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
    col_what: "what",
    col_demand: "demand",
    col_capacity: "limit or strength",
    col_ratio: "ratio",
    col_required: "required",
    col_verdict: "verdict",
    col_source: "source",
    checks_note: "Demands are the worst of both methods and of all tolerance corners, rounded up; limits, strengths and ratios are rounded down. A verdict compares two numbers; it is no permission.",
    check_no_contact: "depth of the soles, no contact",
    check_system_factor: "whole system, by its weakest part",
    check_anchorage_alternative: "anchorage by number of workers, the alternative to a factor of two",
    check_en_arrest_force: "arrest force, beside the limit of the absorber's test",
    check_en_extension: "absorber extension, beside the limit of its test",
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
    check_intermediate_along: "pull along the line, if it does not slide",
    subject_left_end: "left end",
    subject_right_end: "right end",
    verdict_meets: "meets",
    verdict_does_not_meet: "does not meet",
    verdict_information: "for information",
    reason_post: "not evaluated: describe the end post",
    reason_demand: "not evaluated: the fall gave no number",
    reason_limit: "not evaluated: no usable limit",
    reason_unknown: "not evaluated: cannot say, see the answer",
    source_memory: "from memory",
    page_add_own: "Add a limit of your own",
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
    setup_read_heading: "What was read on the line",
    setup_read_weight: "Weight hung at mid-span",
    setup_read_movement: "It moved down by",
    setup_read_time: "Seconds for ten swings",
    setup_read_within: "That is within the tolerance of the pretension.",
    setup_read_beyond: "That is outside the tolerance of the pretension.",
    setup_read_poor: "But this reading does not tell it well: take a heavier weight or more swings, and look at the sag.",
    search_heading: "Worst timing and places",
    search_note: "Each search tries dozens of cases with the inputs as given, tolerances aside; only the worst found is then assessed with them. It finds the worst of what it tried, not a proven bound.",
    search_delay: "Search the timing of the falls",
    search_places: "Search the places on the line",
    search_load: "Load this case",
    search_running: "Searching…",
    search_none: "Nothing tried asks for more than the case as given.",
    scenario_as_given: "the falls as given",
    scenario_together: "all fall together",
    checked_span_count: "number of spans",
    checked_end_stiffness: "stiffness of an end with its post",
    checked_users: "workers who fall",
    checked_delay: "time between first and last fall",
    checked_self_retracting: "workers on self-retracting lifelines",
    checked_offset: "distance from the connector",
    checked_deflection: "deflection of the line over its span",
    checked_slope: "slope of the line beside a connector",
    checked_other: "another quantity",
    search_unresolved: "cannot say",
    fields: Fields {
        spans: FieldText {
            label: "Spans",
            hint: "Post to post, from the left, such as 9 + 9; a longer span deflects more.",
        },
        height_above_beam: FieldText {
            label: "Line above beam top",
            hint: "Level of the line at its supports; a higher line shortens the free fall.",
        },
        pretension: FieldText {
            label: "Pretension",
            hint: "Tension of the line at rest; more of it means less deflection and more force on the posts.",
        },
        diameter: FieldText {
            label: "Rope diameter",
            hint: "Nominal diameter; names the rope and is drawn, the stiffness below is what counts.",
        },
        axial_stiffness: FieldText {
            label: "Rope stiffness EA",
            hint: "Tension for a stretch by its whole length; a softer rope deflects more.",
        },
        mass_per_length: FieldText {
            label: "Rope mass per length",
            hint: "Makes the line sag at rest and overshoot in a fall.",
        },
        breaking_force: FieldText {
            label: "Rope breaking force",
            hint: "Minimum breaking force from the data sheet; used for the strength ratio only.",
        },
        inline_yield: FieldText {
            label: "In-line absorber, yield force",
            hint: "Line tension at which it starts to extend.",
        },
        inline_extension: FieldText {
            label: "In-line absorber, greatest extension",
            hint: "Once this is used up the line goes stiff again.",
        },
        left_end: FieldText {
            label: "Left end, stiffness",
            hint: "Horizontal force per movement of the end post with its tieback; a softer end deflects more.",
        },
        right_end: FieldText {
            label: "Right end, stiffness",
            hint: "Horizontal force per movement of the end post with its tieback; a softer end deflects more.",
        },
        position: FieldText {
            label: "Place on the line",
            hint: "From the left end post to the connector, along the line.",
        },
        mass: FieldText {
            label: "Mass with tools",
            hint: "Body, clothing and tools together; more mass falls deeper and pulls harder.",
        },
        dring_height: FieldText {
            label: "D-ring to sole",
            hint: "Height of the D-ring of the standing worker; a longer body needs more room.",
        },
        harness_stretch: FieldText {
            label: "Harness stretch",
            hint: "Allowance for the harness giving way and the D-ring moving up; added in full.",
        },
        fall_time: FieldText {
            label: "Falls at",
            hint: "Time after the first; a second fall into a line already loaded can go deeper.",
        },
        gear_length: FieldText {
            label: "Lanyard length",
            hint: "Absorber folded, connectors included; every bit of it adds to free fall and stack.",
        },
        lock_distance: FieldText {
            label: "Locking distance",
            hint: "Line that runs out before the self-retracting lifeline locks.",
        },
        gear_stiffness: FieldText {
            label: "Webbing and harness, stiffness",
            hint: "Force per stretch up to the absorber's force.",
        },
        average_force: FieldText {
            label: "Absorber, average force",
            hint: "Average deployment force; a lower one pays out more, a higher one pulls harder.",
        },
        maximum_force: FieldText {
            label: "Absorber, maximum force",
            hint: "Maximum deployment force, from the maker's sheet.",
        },
        max_extension: FieldText {
            label: "Absorber, greatest extension",
            hint: "Once this is used up the lanyard goes stiff and the force climbs.",
        },
        locked_stiffness: FieldText {
            label: "Absorber used up, stiffness",
            hint: "Force per stretch of the lanyard with its absorber fully out.",
        },
        free_fall: FieldText {
            label: "Free fall, measured",
            hint: "Free fall before the gear is taut, when it is known otherwise.",
        },
        beam_top: FieldText {
            label: "Beam top above the ground",
            hint: "The measured drop where nothing stands below.",
        },
        beam_depth: FieldText {
            label: "Beam depth",
            hint: "Only drawn; it changes no number.",
        },
        margin: FieldText {
            label: "Margin kept",
            hint: "Room that must stay free under the soles for what nobody measured.",
        },
        reach: FieldText {
            label: "Reach to either side",
            hint: "How far along the beam a falling worker can come from where he was clipped; swing falls need more.",
        },
        below_from: FieldText {
            label: "Begins at",
            hint: "From the left end post; may lie left of it.",
        },
        below_to: FieldText {
            label: "Ends at",
            hint: "From the left end post.",
        },
        below_height: FieldText {
            label: "Top above the ground",
            hint: "Its highest point, load included.",
        },
        damping: FieldText {
            label: "Damping of the line",
            hint: "Inner friction of the rope; 0 gives the most overshoot.",
        },
        duration: FieldText {
            label: "Simulated time",
            hint: "Long enough for everybody to reach the lowest point.",
        },
        offset_along: FieldText {
            label: "Stands beside the connector by",
            hint: "Along the line, positive to the right; who falls away from the connector swings.",
        },
        edge_distance: FieldText {
            label: "Line to the beam's edge",
            hint: "Distance of the edge the worker goes over, measured across from the line; a far edge touches the gear and makes a swing.",
        },
        left_bending: FieldText {
            label: "Left post, bending stiffness EI",
            hint: "Modulus times second moment of the post along the line; a softer post gives way more.",
        },
        left_set_back: FieldText {
            label: "Left tieback, set-back",
            hint: "From the foot of the post back to the tieback's fixing; equal to the post's height it stands at 45°.",
        },
        left_tieback_stiffness: FieldText {
            label: "Left tieback, stiffness EA",
            hint: "Of strap or rope; a softer one leaves more of the pull to the post.",
        },
        right_bending: FieldText {
            label: "Right post, bending stiffness EI",
            hint: "Modulus times second moment of the post along the line; a softer post gives way more.",
        },
        right_set_back: FieldText {
            label: "Right tieback, set-back",
            hint: "From the foot of the post back to the tieback's fixing; equal to the post's height it stands at 45°.",
        },
        right_tieback_stiffness: FieldText {
            label: "Right tieback, stiffness EA",
            hint: "Of strap or rope; a softer one leaves more of the pull to the post.",
        },
        termination_efficiency: FieldText {
            label: "Rope termination, efficiency",
            hint: "Part of the breaking force that the termination keeps; 0.8 is for wire rope clips put on as their maker says.",
        },
        end_anchorage: FieldText {
            label: "Anchorage of the line, each end",
            hint: "Rated strength of what the line is fastened to at the post head.",
        },
        post_moment: FieldText {
            label: "End post, moment at the foot",
            hint: "Moment that the post and its fixing to the beam bear.",
        },
        post_compression: FieldText {
            label: "End post, compression",
            hint: "Compression that the post bears; a steep tieback presses it hard.",
        },
        tieback_strength: FieldText {
            label: "Tieback",
            hint: "Rated strength of strap or rope with its fittings.",
        },
        tieback_anchorage: FieldText {
            label: "Anchorage of the tieback",
            hint: "What it is fixed to on the beam, in the direction of the tieback.",
        },
        intermediate_post: FieldText {
            label: "Intermediate post, downward",
            hint: "Downward load that the head of an intermediate post bears.",
        },
        required_ratio: FieldText {
            label: "Strength over load, required",
            hint: "What every part must keep; 2 is 29 CFR 1926.502(d)(8).",
        },
        tolerance_mass: FieldText {
            label: "Mass, off by",
            hint: "Heavier workers fall deeper and pull harder; a part of the value: 0.10 or 10 %.",
        },
        tolerance_absorber: FieldText {
            label: "Absorber's average force, off by",
            hint: "A weaker absorber pays out more; a part of the value: 0.10 or 10 %.",
        },
        tolerance_pretension: FieldText {
            label: "Pretension, off by",
            hint: "Less of it deflects more, more of it pulls harder; a part of the value: 0.10 or 10 %.",
        },
        tolerance_rope: FieldText {
            label: "Rope stiffness, off by",
            hint: "A new rope is softer than a used one; a part of the value: 0.10 or 10 %.",
        },
        tolerance_ends: FieldText {
            label: "Stiffness of the ends, off by",
            hint: "Posts, fixings and concrete give way more than the drawing says; a part of the value: 0.10 or 10 %.",
        },
        tolerance_inline: FieldText {
            label: "In-line absorber's force, off by",
            hint: "Yielding earlier deflects more, later pulls harder; a part of the value: 0.10 or 10 %.",
        },
        allowance_clearance: FieldText {
            label: "Added to deflection and extension",
            hint: "Measured falls go deeper or less deep than calculated ones: tests on absorbers found up to 70 % more extension than the standard's method. A part of the value: 0.10 or 10 %.",
        },
        allowance_tension: FieldText {
            label: "Added to the line tension",
            hint: "Counts in the strength checks only; tests found hand methods off by up to about 17 %. A part of the value: 0.10 or 10 %.",
        },
        temperature_installed: FieldText {
            label: "When the line was set",
            hint: "Temperature of the rope when the pretension was set.",
        },
        temperature_today: FieldText {
            label: "Today",
            hint: "Cold tightens the rope, heat slackens it: the fall is calculated with the tension of the line at this temperature.",
        },
    },
    say: Sentences {
        worker: |n| format!("worker {n}"),
        worker_label: |n| format!("Worker {n}"),
        below_label: |n, kind| format!("Below {n}: {kind}"),
        for_all: |label| format!("{label}, every worker"),

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
            format!(
                "The time history governs: it asks for {more} more than the energy balance, because {why}."
            )
        },
        why_overshoot: |rope| {
            format!(
                "the rope's own mass ({rope}) carries the line past the shape in which the forces balance"
            )
        },
        why_rebound: |time| {
            format!(
                "the lowest point comes only after a rebound, at {time}, when the line and the others swing back and the absorber pays out again; the energy balance knows one stop for all"
            )
        },
        balance_governs: |more, why| {
            format!(
                "The energy balance governs: it asks for {more} more than the time history, because {why}."
            )
        },
        methods_agree: |step| format!("Energy balance and time history agree within {step}."),

        with_limit: |value, limit| format!("{value}, limit {limit}"),
        with_required: |ratio, required| format!("{ratio}, required {required}"),
        of_worker: |label, worker| format!("{label}, {worker}"),
        mark_taut: |worker| format!("{worker}: gear taut"),
        mark_lowest: |worker| format!("{worker}: lowest point"),

        out_of_range: |value, min, max| format!("{value} is outside {min} to {max}"),
        range: |min, max| format!("{min} to {max}"),
        count: |found, min, max| format!("{found} is outside {min} to {max}"),
        text_too_long: |found, max| format!("{found} characters; at most {max} fit"),
        lanyard_too_short: |value, min| {
            format!("{value} is too short to stand up with: at least {min}")
        },
        slack_at_rest: |value, min| {
            format!("{value} leaves the line slack at rest: at least {min}")
        },
        reversed: |value, min| format!("ends at {value}, before it begins at {min}"),
        above_beam: |value, max| format!("{value} is higher than the beam top: at most {max}"),
        pretension_too_high: |value, max| {
            format!("{value} is more than the line can hold at rest: at most {max}")
        },
        force_order: |value, min| format!("{value} is less than the average force of {min}"),
        at_span: |n, message| format!("span {n}: {message}"),
        problem: |label, message| format!("{label}: {message}"),
        unreadable: |at, example| {
            format!("cannot be read from character {at} on; write it like {example}")
        },
        wrong_unit: |unit, example| {
            format!("“{unit}” is no unit for this; write it like {example}")
        },
        example: |text| format!("such as {text}"),

        link_version: |version| {
            format!(
                "The link is of format {version}, which this page does not know; a newer page may."
            )
        },
        link_character: |at| format!("Character {at} cannot be in a link."),
        link_damaged: |at| format!("The link is damaged at byte {at}."),
        link_too_long: |most| {
            format!("The link holds more than {most} bytes, which no case needs.")
        },
        link_content: |at, reason| {
            format!("The link's content cannot be read at byte {at}: {reason}.")
        },
        json_twice: |name| format!("“{name}” stands twice"),
        json_unknown: |name| format!("“{name}” is not known"),
        json_missing: |name| format!("“{name}” is missing"),
        link_fault: |field, message| {
            format!("The case in the link cannot be used. {field}: {message}.")
        },
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

        own_label: |n| format!("Own limit {n}"),
        characters: |max| format!("at most {max} characters"),
        corner_governs: |more, corner, list| {
            format!(
                "The {corner} of the tolerances governs ({list}): it asks for {more} more than the inputs as given."
            )
        },
        undamped_governs: |more| {
            format!("The line without its damping governs: it asks for {more} more.")
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
        subject_post: |n| format!("intermediate post {n}"),
        parts_not_evaluated: |n| format!("not evaluated: rated strengths to enter: {n}"),
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
        setup_read_only: |tension| format!("{tension} at rest."),
        scenario_one: |worker| format!("only {worker} falls"),
        scenario_in_turn: |delay, reversed| {
            let first = if reversed { "last" } else { "first" };
            format!("they fall one after another, {delay} apart, the {first} worker first")
        },
        search_at: |places| format!("workers at {places}"),
        search_found: |what, worst, given| {
            format!("Worst found: {what}: {worst}; as given: {given}.")
        },
        search_tension: |tension, what| format!("Greatest line tension met: {tension} ({what})."),
        search_tried: |n| format!("{n} cases tried."),
        search_spacing: |distance| format!("Nobody closer to another than {distance}."),
        checks_tally: |failed, open| format!("{failed} not met, {open} not evaluated"),
        ledger_open: |off| {
            format!("the energies of the calculated motion do not add up: they are off by {off} %")
        },
        swings_below_stack: |worker, deeper| {
            format!(
                "the gear of {worker} is paid out to the side: his swing ends {deeper} deeper than the stack counts"
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
        search_tolerances: |worst, given| {
            format!("With the tolerances: {worst}; as given: {given}.")
        },
    },
};
