//! What the form says: labels and explanations of the inputs, and what is wrong with what was typed
//! or opened.

mod en;
mod es;

use super::text_group;

text_group! {
    /// What the form says in one language.
    Texts {
        /// Labels and explanations of the inputs.
        fields: Fields,
        /// Sentences with numbers in them.
        say: Sentences,
    }
    page {
        /// Heading of what one can start with.
        start_heading,
        /// Command: start a line of one's own.
        own_line,
        /// Label of the list of cases that the device keeps.
        last_cases,
        /// The link is on the clipboard.
        share_copied,
        /// There is no clipboard.
        share_by_hand,
        /// Summary of the folded inputs.
        more_inputs,
        /// Label of the range of an input.
        range_label,
        /// Label of the default of an input.
        default_label,
        /// Label of the origin of a default.
        basis_label,
        /// Stored for use without network.
        offline_ready,
        /// A newer version waits.
        update_ready,
        /// Adds a thing below.
        page_add_below,
        /// Removes a thing below.
        page_remove,
        /// Label of a link to copy by hand.
        page_link,
        /// A part of the page could not be fetched when it was opened.
        page_part_failed,
        /// Label of a text that is kept.
        page_kept_text,
        /// Adds an own limit.
        page_add_own,
    }
    inner {
        /// The page has put the crew in the middle of the longest span.
        placed_in_the_middle,
        /// The page has moved who stood beyond a shorter line.
        placed_moved,
        /// The job.
        group_job,
        /// The lifeline.
        group_line,
        /// The crew.
        group_crew,
        /// What is below.
        group_site,
        /// Settings of the calculation.
        group_motion,
        /// Title of the case.
        title_label,
        /// What the title is for.
        title_hint,
        /// Choice of rope.
        rope_label,
        /// What choosing a rope does.
        rope_hint,
        /// Own values.
        rope_own,
        /// Construction.
        rope_galvanised_7x19,
        /// Construction.
        rope_stainless_7x19,
        /// Construction.
        rope_fibre_core_6x19,
        /// Whether there is an in-line absorber.
        inline_label,
        /// What it does.
        inline_hint,
        /// At which end it is.
        inline_place_label,
        /// What that does.
        inline_place_hint,
        /// An end.
        inline_place_left,
        /// An end.
        inline_place_right,
        /// Both ends.
        inline_place_both,
        /// Switch: distances within the crew may change.
        crew_moves_label,
        /// What that changes.
        crew_moves_hint,
        /// Number of workers.
        count_label,
        /// What it does.
        count_hint,
        /// Number of things below.
        below_count_label,
        /// What it does.
        below_count_hint,
        /// Whether a worker falls.
        falls_label,
        /// What it does.
        falls_hint,
        /// He falls.
        falls_yes,
        /// He stays standing.
        falls_no,
        /// Kind of gear.
        gear_label,
        /// What it does.
        gear_hint,
        /// Lanyard.
        gear_lanyard,
        /// Self-retracting lifeline.
        gear_self_retracting,
        /// Whether the gear has an absorber.
        absorber_label,
        /// What it does.
        absorber_hint,
        /// How its force is told.
        shape_label,
        /// What that does.
        shape_hint,
        /// By its average.
        shape_average,
        /// By its average and a peak.
        shape_peak,
        /// By a curve.
        shape_curve,
        /// The points of a curve.
        curve_label,
        /// What to type; an example follows.
        curve_hint,
        /// There is one.
        choice_on,
        /// There is none.
        choice_off,
        /// What a thing below is.
        kind_label,
        /// What it does.
        kind_hint,
        /// Label of the place of a thing below.
        middle_label,
        /// What it does.
        middle_hint,
        /// Shown by an input for all workers when theirs differ.
        mixed,
        /// Hint of an optional input left empty: end support.
        empty_rigid,
        /// Hint of an optional input left empty: strength.
        empty_not_evaluated,
        /// Hint of an optional input left empty: free fall.
        empty_from_geometry,
        /// Hint of an optional input left empty: greatest force.
        empty_from_average,
        /// The same where there is a peak or a curve.
        empty_from_shape,
        /// Hint of an optional input left empty: fall time.
        empty_stands,
        /// Measured on the site.
        basis_site,
        /// Common practice, no source.
        basis_common_practice,
        /// Rope catalogue.
        basis_catalogue,
        /// A published standard or paper.
        basis_published,
        /// A choice; what is published behind it follows.
        basis_chosen,
        /// The maker's instructions.
        basis_maker,
        /// A setting of the calculation.
        basis_method,
        /// Not a number.
        fault_not_finite,
        /// Not one of the choices.
        fault_choice,
        /// A fault that has no text of its own.
        fault_other,
        /// Nothing typed where a value is needed.
        fault_empty,
        /// Not a link of this page.
        link_foreign,
        /// Ends too early.
        link_truncated,
        /// The checksum does not fit.
        link_checksum,
        /// Something follows after the end.
        link_trailing,
        /// Content: ends too early.
        json_end,
        /// Content: a character that cannot stand there.
        json_character,
        /// Content: no number that can be used.
        json_number,
        /// Content: a text with something in it that cannot be.
        json_text,
        /// Content: nested too deep.
        json_depth,
        /// Content: more bytes, values or names than anything of this page.
        json_too_much,
        /// Content: a value of another kind.
        json_kind,
        /// The present case is kept.
        link_kept,
        /// End posts and tiebacks.
        group_posts,
        /// Rated strengths.
        group_strengths,
        /// Tolerances of the inputs.
        group_tolerances,
        /// What is added to a calculated fall.
        group_allowance,
        /// Temperatures.
        group_temperature,
        /// What the checks compare with.
        group_sets,
        /// Whether the left end post is described.
        left_post_label,
        /// What that does.
        left_post_hint,
        /// Whether the right end post is described.
        right_post_label,
        /// What that does.
        right_post_hint,
        /// Whether the left post has a tieback.
        left_tieback_label,
        /// What it does.
        left_tieback_hint,
        /// Whether the right post has a tieback.
        right_tieback_label,
        /// What it does.
        right_tieback_hint,
        /// Whether the limits of 29 CFR 1926 Subpart M are applied.
        set_us_label,
        /// What that does.
        set_us_hint,
        /// Whether the headline limits of EN 355, EN 360 and EN 795 are applied.
        set_european_label,
        /// What that does.
        set_european_hint,
        /// Number of own limits.
        own_count_label,
        /// What they are.
        own_count_hint,
        /// Name of an own limit.
        own_label_label,
        /// What it is for.
        own_label_hint,
        /// What an own limit bounds.
        own_quantity_label,
        /// What that means.
        own_quantity_hint,
        /// The number of an own limit.
        own_limit_label,
        /// What it means.
        own_limit_hint,
        /// Where an own limit stands.
        own_reference_label,
        /// What to type.
        own_reference_hint,
        /// What an own limit bounds.
        own_arrest_force,
        /// What an own limit bounds.
        own_free_fall,
        /// What an own limit bounds.
        own_deceleration_distance,
        /// What an own limit bounds.
        own_required_depth,
        /// What an own limit bounds.
        own_footroom,
        /// What an own limit bounds.
        own_line_tension,
        /// What an own limit bounds.
        own_end_tension,
        /// What an own limit bounds.
        own_tieback_tension,
        /// What an own limit bounds.
        own_post_compression,
        /// What an own limit bounds.
        own_post_moment,
        /// What an own limit bounds.
        own_intermediate_post_load,
    }
}

/// Whether inputs have their explanations: they come with the whole page, after the first view.
pub const EXPLAINED: bool = cfg!(feature = "office");

/// An explanation, where there are any.
const fn explained(text: &'static str) -> &'static str {
    if EXPLAINED { text } else { "" }
}

/// Label and explanation of one input.
#[derive(Clone, Copy, Debug)]
pub struct FieldText {
    /// Its name on the page.
    pub label: &'static str,
    /// What it does, in a sentence; empty in the first view, see [`EXPLAINED`].
    pub hint: &'static str,
}

/// Declares [`Fields`] once, each with the name that the core knows it by.
macro_rules! fields {
    ($($key:ident = $name:literal,)*) => {
        /// Labels and explanations of the numeric inputs.
        #[derive(Debug)]
        pub struct Fields {
            $(#[doc = concat!("`", $name, "`.")] pub $key: FieldText,)*
        }

        impl Fields {
            /// The texts of the input that the core calls `name`.
            pub fn find(&self, name: &str) -> Option<FieldText> {
                match name {
                    $($name => Some(self.$key),)*
                    _ => None,
                }
            }
        }
    };
}

fields! {
    spans = "line.spans_m",
    height_above_beam = "line.height_above_beam_m",
    pretension = "line.pretension_n",
    diameter = "line.rope.diameter_m",
    axial_stiffness = "line.rope.axial_stiffness_n",
    mass_per_length = "line.rope.mass_per_length_kg_per_m",
    breaking_force = "line.rope.breaking_force_n",
    inline_yield = "line.inline_absorber.yield_force_n",
    inline_extension = "line.inline_absorber.max_extension_m",
    left_end = "line.left_end_stiffness_n_per_m",
    right_end = "line.right_end_stiffness_n_per_m",
    position = "workers.position_m",
    mass = "workers.mass_kg",
    dring_height = "workers.dring_height_m",
    harness_stretch = "workers.harness_stretch_m",
    fall_time = "workers.fall_time_s",
    gear_length = "workers.gear.length_m",
    lock_distance = "workers.gear.lock_distance_m",
    gear_stiffness = "workers.gear.stiffness_n_per_m",
    average_force = "workers.gear.absorber.average_force_n",
    maximum_force = "workers.gear.absorber.maximum_force_n",
    max_extension = "workers.gear.absorber.max_extension_m",
    locked_stiffness = "workers.gear.absorber.locked_stiffness_n_per_m",
    peak_force = "workers.gear.absorber.peak.force_n",
    peak_over = "workers.gear.absorber.peak.over_m",
    free_fall = "workers.gear.free_fall_m",
    beam_top = "site.beam_top_m",
    beam_depth = "site.beam_depth_m",
    margin = "site.margin_m",
    reach = "site.reach_m",
    below_from = "site.below.from_m",
    below_to = "site.below.to_m",
    below_height = "site.below.height_m",
    damping = "motion.damping_s",
    duration = "motion.duration_s",
    offset_along = "workers.offset_along_m",
    edge_distance = "workers.edge_distance_m",
    left_bending = "posts.left.bending_stiffness_n_m2",
    left_set_back = "posts.left.tieback.set_back_m",
    left_tieback_stiffness = "posts.left.tieback.axial_stiffness_n",
    right_bending = "posts.right.bending_stiffness_n_m2",
    right_set_back = "posts.right.tieback.set_back_m",
    right_tieback_stiffness = "posts.right.tieback.axial_stiffness_n",
    termination_efficiency = "strengths.termination_efficiency_ratio",
    end_anchorage = "strengths.end_anchorage_n",
    post_moment = "strengths.post_moment_n_m",
    post_compression = "strengths.post_compression_n",
    tieback_strength = "strengths.tieback_n",
    tieback_anchorage = "strengths.tieback_anchorage_n",
    intermediate_post = "strengths.intermediate_post_n",
    intermediate_along = "strengths.intermediate_post_along_n",
    lanyard_strength = "strengths.lanyard_n",
    self_retracting_strength = "strengths.self_retracting_n",
    required_ratio = "strengths.required_ratio",
    tolerance_mass = "tolerances.mass_ratio",
    tolerance_absorber = "tolerances.absorber_force_ratio",
    tolerance_pretension = "tolerances.pretension_ratio",
    tolerance_rope = "tolerances.axial_stiffness_ratio",
    tolerance_ends = "tolerances.end_stiffness_ratio",
    tolerance_inline = "tolerances.inline_force_ratio",
    allowance_clearance = "allowance.clearance_ratio",
    allowance_tension = "allowance.tension_ratio",
    temperature_installed = "temperature.installed_k",
    temperature_today = "temperature.today_k",
}

/// Sentences with numbers in them. Texts come formatted and with their units; workers, spans and
/// things below are counted from 1.
#[derive(Debug)]
pub struct Sentences {
    /// A thing below by number and kind, as a label.
    pub below_label: fn(usize, &str) -> String,
    /// Label of an input for all workers.
    pub for_all: fn(&str) -> String,
    /// Outside the range: value, least, greatest.
    pub out_of_range: fn(&str, &str, &str) -> String,
    /// Allowed range: least, greatest.
    pub range: fn(&str, &str) -> String,
    /// Too few or many: found, least, greatest.
    pub count: fn(usize, usize, usize) -> String,
    /// Too many characters: found, greatest.
    pub text_too_long: fn(usize, usize) -> String,
    /// Lanyard too short to stand: value, least.
    pub lanyard_too_short: fn(&str, &str) -> String,
    /// Slack at rest: value, least.
    pub slack_at_rest: fn(&str, &str) -> String,
    /// Ends before it begins: end, beginning.
    pub reversed: fn(&str, &str) -> String,
    /// Higher than the beam: value, greatest.
    pub above_beam: fn(&str, &str) -> String,
    /// Pretension too high: value, greatest.
    pub pretension_too_high: fn(&str, &str) -> String,
    /// Greatest force below the average: value, average.
    pub force_order: fn(&str, &str) -> String,
    /// A fault of one span: number, message.
    pub at_span: fn(usize, &str) -> String,
    /// A fault in the list of problems: label, message.
    pub problem: fn(&str, &str) -> String,
    /// Cannot be read from a character on: place, example.
    pub unreadable: fn(usize, &str) -> String,
    /// A unit of another quantity: unit found, example.
    pub wrong_unit: fn(&str, &str) -> String,
    /// A link of another format: its number.
    pub link_version: fn(&str) -> String,
    /// A character that cannot be in a link: place.
    pub link_character: fn(usize) -> String,
    /// Damaged from a byte on: place.
    pub link_damaged: fn(usize) -> String,
    /// Too long: greatest number of bytes.
    pub link_too_long: fn(usize) -> String,
    /// The content cannot be read: place, reason.
    pub link_content: fn(usize, &str) -> String,
    /// Content: a name that stands twice.
    pub json_twice: fn(&str) -> String,
    /// Content: a name that is not known.
    pub json_unknown: fn(&str) -> String,
    /// Content: a name that is missing.
    pub json_missing: fn(&str) -> String,
    /// The case in the link has a fault: field, message.
    pub link_fault: fn(&str, &str) -> String,
    /// An own limit by number, as a label.
    pub own_label: fn(usize) -> String,
    /// How many characters fit.
    pub characters: fn(usize) -> String,
}
