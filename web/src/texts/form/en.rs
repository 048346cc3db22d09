//! English, as crews in North America speak it.

use super::{FieldText, Fields, Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    share_copied: "Link copied. It carries the whole case; nothing is sent to a server.",
    share_by_hand: "The clipboard is not available: copy the link from here.",
    more_inputs: "More inputs, each with its default and where that comes from",
    range_label: "Range",
    default_label: "Default",
    basis_label: "Where it comes from",
    offline_ready: "Stored on this device: works without a network from now on.",
    update_ready: "A newer version is ready.",
    page_add_below: "Add a thing below",
    page_remove: "Remove",
    page_link: "The link",
    page_part_failed: "This part of the page could not be loaded. Check your connection and reload the page; the link in the address bar has your case.",
    page_kept_text: "The link as it came, kept",
    page_add_own: "Add a limit of your own",
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
    middle_label: "Middle at",
    middle_hint: "Moves the whole thing along the beam; its width stays.",
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
    basis_chosen: "a choice for this page, not zero since published tests differ from calculation",
    basis_maker: "the maker's instructions; the default is only an invented example",
    basis_method: "setting of the calculation",
    fault_not_finite: "not a number that can be used",
    fault_choice: "not one of the choices",
    fault_other: "not a value that can be used here",
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
    json_too_much: "holds more than this page ever writes",
    json_kind: "another kind of value is expected here",
    link_kept: "The case on the page was left as it is.",
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
    set_european_label: "EN 355, EN 360 and EN 795",
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
            hint: "Line that runs out before the self-retracting lifeline locks. Clipped below the D-ring, it locks only after the D-ring has come down to the line.",
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
        intermediate_along: FieldText {
            label: "Intermediate post, along the line",
            hint: "Pull along the line that the head of an intermediate post can take. A rope that binds in the post adds to it.",
        },
        lanyard_strength: FieldText {
            label: "Lanyard, rated strength",
            hint: "The least in the crew, fully extended. 29 CFR 1926.502(d)(9) and (d)(13) ask for 5,000 lbf (22.2 kN).",
        },
        self_retracting_strength: FieldText {
            label: "Self-retracting lifeline, rated strength",
            hint: "The least in the crew, fully extended. 29 CFR 1926.502(d)(12) asks for 3,000 lbf up to 2 ft of free fall, (d)(13) for 5,000 lbf beyond.",
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
        below_label: |n, kind| format!("Below {n}: {kind}"),
        for_all: |label| format!("{label}, every worker"),
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
        own_label: |n| format!("Own limit {n}"),
        characters: |max| format!("at most {max} characters"),
    },
};
