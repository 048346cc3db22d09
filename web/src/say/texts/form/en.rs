//! English, as crews in North America speak it.

use super::{FieldText, Fields, Sentences, Texts, explained};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    start_heading: "Start with",
    own_line: "My own line",
    last_cases: "Recent cases",
    placed_in_the_middle: "The crew is placed close together around the middle of the longest span, where falls usually go deepest. Enter positions to change that.",
    placed_moved: "Workers beyond the shorter line moved with it. Check their positions.",
    share_copied: "Link copied. It carries the whole case; nothing is sent to a server.",
    share_by_hand: "The clipboard is not available: copy the link from here.",
    more_inputs: "All other inputs, each with its default and the source of that default",
    range_label: "Range",
    default_label: "Default",
    basis_label: "Source",
    offline_ready: "Saved on this device: from now on it works without a connection.",
    update_ready: "A newer version is ready.",
    page_add_below: "Add an obstruction",
    page_remove: "Remove",
    page_link: "The link",
    page_part_failed: "This part of the page could not be loaded. Check your connection and reload the page; the link in the address bar has your case.",
    page_kept_text: "The link as received",
    page_add_own: "Add your own limit",
    group_job: "The job",
    group_line: "The line",
    group_crew: "The crew",
    group_site: "Beam and margin",
    group_motion: "Calculation settings",
    title_label: "Job and beam",
    title_hint: explained("Shown on the record and in the link. Leave people's names out."),
    rope_label: "Wire rope",
    rope_hint: explained(
        "Fills in typical diameter, stiffness, mass and breaking strength. The manufacturer's data sheet comes first.",
    ),
    rope_own: "my own values",
    rope_galvanised_7x19: "7x19 galvanized",
    rope_stainless_7x19: "7x19 stainless",
    rope_fibre_core_6x19: "6x19 fiber core",
    inline_label: "In-line energy absorber",
    inline_hint: explained(
        "Limits line tension by letting the line lengthen: less load on the posts, more deflection.",
    ),
    inline_place_label: "In-line absorber, position",
    inline_place_hint: explained(
        "It deploys with the tension at its own end. At both ends: two of the same kind, each with the values below.",
    ),
    inline_place_left: "at the left end",
    inline_place_right: "at the right end",
    inline_place_both: "at both ends",
    crew_moves_label: "People move freely",
    crew_moves_hint: "Yes: the search for the worst place also tries people close together, spread out, or one per span. No: they keep their distances.",
    count_label: "Users on the line",
    count_hint: explained(
        "Everyone clipped to the line. A new user is placed next to the last one.",
    ),
    below_count_label: "Obstructions below",
    below_count_hint: explained(
        "Trucks, lower beams, stairs, stacked material: anything higher than the ground.",
    ),
    falls_label: "Falls",
    falls_hint: explained("Whether this worker falls or stays up, still clipped to the line."),
    falls_yes: "falls",
    falls_no: "stays standing",
    gear_label: "Lanyard or SRL",
    gear_hint: explained("A fixed-length lanyard or a self-retracting lifeline (SRL)."),
    gear_lanyard: "lanyard",
    gear_self_retracting: "self-retracting lifeline (SRL)",
    absorber_label: "Personal energy absorber",
    absorber_hint: explained(
        "Limits the arrest force by deploying. Without one, only the stretch of the webbing stops the fall.",
    ),
    shape_label: "Absorber force, given as",
    shape_hint: explained(
        "The average is enough when nothing else is known. A peak or a curve must come from the manufacturer's or a laboratory's sheet.",
    ),
    shape_average: "average force",
    shape_peak: "average with an initial peak",
    shape_curve: "force-extension curve",
    curve_label: "Absorber force-extension curve",
    curve_hint: explained(
        "Points from the manufacturer's or a laboratory's sheet, as extension: force, separated by semicolons. Start at 0 and do not go back. The absorber is fully deployed at the last point. For example:",
    ),
    choice_on: "yes",
    choice_off: "no",
    kind_label: "Type",
    kind_hint: explained("Only changes how it is drawn and named."),
    middle_label: "Center at",
    middle_hint: explained("Moves the whole obstruction along the beam; its width stays the same."),
    mixed: "not the same for every worker; a value typed here applies to all",
    empty_rigid: explained("Blank: this end does not move."),
    empty_not_evaluated: explained("Blank: not known, so that strength is not checked."),
    empty_from_geometry: explained("Blank: worked out from the lanyard and the heights."),
    empty_from_average: explained("Blank: the average ÷ 0.875."),
    empty_from_shape: explained("Blank: the highest force of the peak or curve."),
    empty_stands: explained("Blank: stays standing."),
    basis_site: explained("depends on the site; there is no default"),
    basis_common_practice: explained("common trade practice, no published source"),
    basis_catalogue: explained("rope catalog; the manufacturer's data sheet comes first"),
    basis_published: explained("published standard or paper"),
    basis_chosen: explained(
        "set by this page; not zero, because published tests differ from calculation",
    ),
    basis_maker: explained("manufacturer's instructions; the default is only an invented example"),
    basis_method: explained("calculation setting"),
    fault_not_finite: "not a usable number",
    fault_choice: "not one of the choices",
    fault_other: "cannot be used here",
    fault_empty: "enter a value",
    link_foreign: "This link is not from this page.",
    link_truncated: "The link is incomplete: part of it was cut off.",
    link_checksum: "The link was altered on the way: its checksum does not match.",
    link_trailing: "There is something after the end of the link.",
    json_end: "it ends too early",
    json_character: "unexpected character",
    json_number: "not a usable number",
    json_text: "text with something in it that cannot be used",
    json_depth: "nested too deep",
    json_too_much: "holds more than this page ever writes",
    json_kind: "wrong kind of value",
    link_kept: "Your case on the page was left as it is.",
    group_posts: "End posts and tiebacks",
    group_strengths: "Rated strengths",
    group_tolerances: "Tolerances",
    group_allowance: "Model allowance",
    group_temperature: "Temperature",
    group_sets: "What the checks compare against",
    left_post_label: "Left post: details entered",
    left_post_hint: explained(
        "Yes: the stiffness of the left end is worked out from post and tieback, and their forces are checked. No: the end stiffness entered with the line is used.",
    ),
    right_post_label: "Right post: details entered",
    right_post_hint: explained(
        "Yes: the stiffness of the right end is worked out from post and tieback, and their forces are checked. No: the end stiffness entered with the line is used.",
    ),
    left_tieback_label: "Left tieback",
    left_tieback_hint: explained(
        "Runs from the post head down to the beam behind the post. It takes most of the pull and puts the post in compression.",
    ),
    right_tieback_label: "Right tieback",
    right_tieback_hint: explained(
        "Runs from the post head down to the beam behind the post. It takes most of the pull and puts the post in compression.",
    ),
    set_us_label: "29 CFR 1926 Subpart M (US)",
    set_us_hint: explained("Checks against the limits of this regulation. On by default."),
    set_european_label: "EN 355, EN 360 and EN 795",
    set_european_hint: explained(
        "Puts this fall next to limits that a product must meet in its own lab test.",
    ),
    own_count_label: "Your own limits",
    own_count_hint: explained(
        "From a local code, an owner or a manufacturer, each with its source.",
    ),
    own_label_label: "Name",
    own_label_hint: explained("Name shown in the table of checks."),
    own_quantity_label: "What it limits",
    own_quantity_hint: explained(
        "The highest value over all workers and both ends is compared; for footroom, the lowest.",
    ),
    own_limit_label: "Limit",
    own_limit_hint: explained("Maximum; for footroom, minimum."),
    own_reference_label: "Source",
    own_reference_hint: explained("Clause, drawing or letter, so that someone else can find it."),
    own_arrest_force: "arrest force on a worker",
    own_free_fall: "free fall",
    own_deceleration_distance: "deceleration distance",
    own_required_depth: "required clearance below the line, margin included",
    own_footroom: "footroom, at least",
    own_line_tension: "tension anywhere in the line",
    own_end_tension: "tension at an end of the line",
    own_tieback_tension: "tension of a tieback",
    own_post_compression: "compression of an end post",
    own_post_moment: "moment at the base of an end post",
    own_intermediate_post_load: "downward load on an intermediate post",
    fields: Fields {
        spans: FieldText {
            label: "Spans",
            hint: explained(
                "Post to post, from the left, such as 9 + 9. Longer spans deflect more.",
            ),
        },
        height_above_beam: FieldText {
            label: "Line height above beam top",
            hint: explained(
                "Height of the line at the posts. A higher line shortens the free fall.",
            ),
        },
        pretension: FieldText {
            label: "Pretension",
            hint: explained(
                "Line tension with nobody on it. More pretension: less deflection, more force on the posts.",
            ),
        },
        diameter: FieldText {
            label: "Wire rope diameter",
            hint: explained(
                "As sold. Used for the name and the drawing; the stiffness below is what counts.",
            ),
        },
        axial_stiffness: FieldText {
            label: "Wire rope stiffness, EA",
            hint: explained("Tension ÷ strain. A stretchier rope deflects more."),
        },
        mass_per_length: FieldText {
            label: "Wire rope mass per length",
            hint: explained("Makes the line sag at rest and overshoot in a fall."),
        },
        breaking_force: FieldText {
            label: "Wire rope breaking strength",
            hint: explained(
                "Minimum breaking strength from the data sheet. Used in the strength checks; a line tension above it leaves no result.",
            ),
        },
        inline_yield: FieldText {
            label: "In-line absorber, deployment force",
            hint: explained("Line tension at which it starts to deploy."),
        },
        inline_extension: FieldText {
            label: "In-line absorber, maximum extension",
            hint: explained("Once it is fully deployed, the line goes stiff again."),
        },
        left_end: FieldText {
            label: "Left end stiffness",
            hint: explained(
                "Horizontal force ÷ movement of the end post with its tieback. A more flexible end deflects more.",
            ),
        },
        right_end: FieldText {
            label: "Right end stiffness",
            hint: explained(
                "Horizontal force ÷ movement of the end post with its tieback. A more flexible end deflects more.",
            ),
        },
        position: FieldText {
            label: "Position on the line",
            hint: explained("From the left end post to the connector."),
        },
        mass: FieldText {
            label: "Weight with tools",
            hint: explained(
                "Body, clothing and tools together. More weight falls deeper and pulls harder.",
            ),
        },
        dring_height: FieldText {
            label: "D-ring to soles",
            hint: explained(
                "D-ring height with the worker standing. A taller worker needs more clearance.",
            ),
        },
        harness_stretch: FieldText {
            label: "Harness stretch",
            hint: explained(
                "Allowance for the harness stretching and the D-ring sliding up; added in full.",
            ),
        },
        fall_time: FieldText {
            label: "Time of fall",
            hint: explained(
                "Counted from the first fall. A second fall onto a loaded line can go deeper.",
            ),
        },
        gear_length: FieldText {
            label: "Lanyard length",
            hint: explained(
                "With the absorber packed, connectors included. All of it counts in the free fall and in the stack.",
            ),
        },
        lock_distance: FieldText {
            label: "SRL locking distance",
            hint: explained(
                "Line paid out in the fall before the SRL locks. Clipped below the D-ring, it locks only once the D-ring is down at the line.",
            ),
        },
        gear_stiffness: FieldText {
            label: "Webbing and harness stiffness",
            hint: explained("Force ÷ stretch, up to the absorber's force."),
        },
        average_force: FieldText {
            label: "Absorber, average force",
            hint: explained(
                "Average deployment force. A lower one deploys farther, a higher one pulls harder.",
            ),
        },
        maximum_force: FieldText {
            label: "Absorber, maximum force",
            hint: explained("Maximum deployment force, from the manufacturer's data sheet."),
        },
        max_extension: FieldText {
            label: "Absorber extension, maximum",
            hint: explained(
                "Once it is fully deployed, the lanyard goes stiff and the force climbs.",
            ),
        },
        locked_stiffness: FieldText {
            label: "Absorber fully deployed, stiffness",
            hint: explained("Force ÷ stretch of the lanyard with its absorber fully deployed."),
        },
        peak_force: FieldText {
            label: "Absorber, initial peak",
            hint: explained(
                "Force at which the absorber starts to deploy. It raises line tension.",
            ),
        },
        peak_over: FieldText {
            label: "Initial peak, extension",
            hint: explained(
                "Extension over which the force drops from the peak. What follows keeps the average over the maximum extension.",
            ),
        },
        free_fall: FieldText {
            label: "Free fall distance, if known",
            hint: explained("Enter it only when you know it some other way."),
        },
        beam_top: FieldText {
            label: "Beam top above the ground",
            hint: explained("Height of the beam top above the ground under it."),
        },
        beam_depth: FieldText {
            label: "Beam depth",
            hint: explained("For the drawing only; it changes no number."),
        },
        margin: FieldText {
            label: "Clearance margin",
            hint: explained("Room that must stay clear under the feet for what nobody measured."),
        },
        reach: FieldText {
            label: "Reach to either side",
            hint: explained(
                "How far along the beam from the connector a falling worker could end up; swing falls need more.",
            ),
        },
        below_from: FieldText {
            label: "Left edge at",
            hint: explained("From the left end post; negative if left of it."),
        },
        below_to: FieldText {
            label: "Right edge at",
            hint: explained("From the left end post."),
        },
        below_height: FieldText {
            label: "Top above the ground",
            hint: explained("Highest point, load included."),
        },
        damping: FieldText {
            label: "Internal friction (damping)",
            hint: explained("Friction inside the wire rope. 0 gives the most overshoot."),
        },
        duration: FieldText {
            label: "Simulated time",
            hint: explained("Long enough for everyone to reach their lowest point."),
        },
        offset_along: FieldText {
            label: "Offset along the line",
            hint: explained(
                "How far the worker stands to the side of the connector, positive to the right. Away from the connector, the fall is a swing fall.",
            ),
        },
        edge_distance: FieldText {
            label: "Line to beam edge",
            hint: explained(
                "Across the beam, to the edge the worker goes over. The farther it is, the harder the lanyard or SRL bears on the edge and the more the worker swings.",
            ),
        },
        left_bending: FieldText {
            label: "Left post, bending stiffness EI",
            hint: explained(
                "Modulus times moment of inertia of the post, along the line. A more flexible post moves more.",
            ),
        },
        left_set_back: FieldText {
            label: "Left tieback, setback",
            hint: explained(
                "From the base of the post back to the tieback's anchor. A setback equal to the post height gives 45°.",
            ),
        },
        left_tieback_stiffness: FieldText {
            label: "Left tieback, stiffness EA",
            hint: explained(
                "Of the strap or rope. A stretchier one leaves more of the pull to the post.",
            ),
        },
        right_bending: FieldText {
            label: "Right post, bending stiffness EI",
            hint: explained(
                "Modulus times moment of inertia of the post, along the line. A more flexible post moves more.",
            ),
        },
        right_set_back: FieldText {
            label: "Right tieback, setback",
            hint: explained(
                "From the base of the post back to the tieback's anchor. A setback equal to the post height gives 45°.",
            ),
        },
        right_tieback_stiffness: FieldText {
            label: "Right tieback, stiffness EA",
            hint: explained(
                "Of the strap or rope. A stretchier one leaves more of the pull to the post.",
            ),
        },
        termination_efficiency: FieldText {
            label: "Rope termination, efficiency",
            hint: explained(
                "Share of the breaking strength that the termination keeps. 0.8 is for wire rope clips installed as their manufacturer says.",
            ),
        },
        end_anchorage: FieldText {
            label: "Lifeline anchorage, each end",
            hint: explained("Rated strength of what the line is attached to at the post head."),
        },
        post_moment: FieldText {
            label: "End post, moment at the base",
            hint: explained("Rated moment of the post and of its attachment to the beam."),
        },
        post_compression: FieldText {
            label: "End post, compression",
            hint: explained("Rated compression of the post. A steep tieback loads it heavily."),
        },
        tieback_strength: FieldText {
            label: "Tieback",
            hint: explained("Rated strength of the strap or rope with its fittings."),
        },
        tieback_anchorage: FieldText {
            label: "Tieback anchorage",
            hint: explained(
                "Rated strength of what it is anchored to on the beam, in the direction of the tieback.",
            ),
        },
        intermediate_post: FieldText {
            label: "Intermediate post, downward load",
            hint: explained("Rated downward load at the head of an intermediate post."),
        },
        intermediate_along: FieldText {
            label: "Intermediate post, along the line",
            hint: explained(
                "Rated pull along the line at the head of an intermediate post. A rope that jams in the post adds to it.",
            ),
        },
        lanyard_strength: FieldText {
            label: "Lanyard, rated strength",
            hint: explained(
                "The lowest in the crew, fully extended. 29 CFR 1926.502(d)(9) and (d)(13) ask for 5,000 lbf (22.2 kN).",
            ),
        },
        self_retracting_strength: FieldText {
            label: "SRL, rated strength",
            hint: explained(
                "The lowest in the crew, fully extended. 29 CFR 1926.502(d)(12) asks for 3,000 lbf (13.3 kN) up to 2 ft (0.61 m) of free fall, (d)(13) for 5,000 lbf (22.2 kN) beyond.",
            ),
        },
        required_ratio: FieldText {
            label: "Required strength ratio",
            hint: explained(
                "Rated strength ÷ load that every part must keep. 2 is from 29 CFR 1926.502(d)(8).",
            ),
        },
        tolerance_mass: FieldText {
            label: "Weight, may be higher by",
            hint: explained("Heavier workers fall deeper and pull harder. Enter 0.10 or 10%."),
        },
        tolerance_absorber: FieldText {
            label: "Absorber force, may be lower by",
            hint: explained(
                "A weaker absorber deploys farther. A peak or curve may also be higher by as much. Enter 0.10 or 10%.",
            ),
        },
        tolerance_pretension: FieldText {
            label: "Pretension, plus or minus",
            hint: explained(
                "Less of it deflects more, more of it pulls harder. Enter 0.10 or 10%.",
            ),
        },
        tolerance_rope: FieldText {
            label: "Rope stiffness, plus or minus",
            hint: explained("New rope is stretchier than used rope. Enter 0.10 or 10%."),
        },
        tolerance_ends: FieldText {
            label: "End stiffness, plus or minus",
            hint: explained(
                "Posts, attachments and concrete move more than the drawing says. Enter 0.10 or 10%.",
            ),
        },
        tolerance_inline: FieldText {
            label: "In-line absorber, plus or minus",
            hint: explained(
                "Deploying earlier deflects more, later pulls harder. Enter 0.10 or 10%.",
            ),
        },
        allowance_clearance: FieldText {
            label: "Added to deflection and extension",
            hint: explained(
                "Real falls differ from calculated ones: in tests, absorbers extended up to 70% more than by the standard's method. Enter 0.10 or 10%.",
            ),
        },
        allowance_tension: FieldText {
            label: "Added to the line tension",
            hint: explained(
                "Adds to the line tension that is shown and checked; the clearance does not change. Tests found hand methods off by up to about 17%. Enter 0.10 or 10%.",
            ),
        },
        temperature_installed: FieldText {
            label: "When the line was tensioned",
            hint: explained("Rope temperature when the pretension was set."),
        },
        temperature_today: FieldText {
            label: "Today",
            hint: explained(
                "Cold tightens the rope, heat slackens it. The fall is calculated with the line tension at this temperature.",
            ),
        },
    },
    say: Sentences {
        below_label: |n, kind| format!("Obstruction {n}: {kind}"),
        for_all: |label| format!("{label}, all workers"),
        out_of_range: |value, min, max| format!("{value} is outside {min} to {max}"),
        range: |min, max| format!("{min} to {max}"),
        count: |found, min, max| format!("{found} is outside {min} to {max}"),
        text_too_long: |found, max| format!("{found} characters; at most {max} fit"),
        lanyard_too_short: |value, min| {
            format!("{value} is too short for the worker to stand up: at least {min}")
        },
        slack_at_rest: |value, min| {
            format!("{value} leaves the line slack with nobody on it: at least {min}")
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
            format!("“{unit}” is not a unit for this; write it like {example}")
        },
        link_version: |version| {
            format!(
                "The link uses format {version}, which this page does not know; a newer page may."
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
        json_twice: |name| format!("“{name}” appears twice"),
        json_unknown: |name| format!("“{name}” is not known"),
        json_missing: |name| format!("“{name}” is missing"),
        link_fault: |field, message| {
            format!("The case in the link cannot be used. {field}: {message}.")
        },
        own_label: |n| format!("Your limit {n}"),
        characters: |max| format!("at most {max} characters"),
    },
};
