//! What the page says, in each of its languages: one key a sentence.
//!
//! [`Texts`] is what the desk says; [`office::Texts`] and the groups beside it belong to what is
//! fetched later, so that the first view does not carry them. Every language fills the same structures, so a text that is missing in one of them does not
//! compile. Texts with numbers in them are functions of the numbers as already formatted.

mod en;
mod es;
pub mod office;
pub mod record;

use crate::format::Lang;

/// The texts of one language.
pub fn of(lang: Lang) -> &'static Texts {
    match lang {
        Lang::En => &en::TEXTS,
        Lang::Es => &es::TEXTS,
    }
}

/// Declares a group of texts once: those that the page shows as they are, with the list of their
/// keys, and those that only the program's own sentences are made of.
macro_rules! group {
    (
        $(#[$group_doc:meta])*
        $name:ident { $($(#[$extra_doc:meta])* $extra:ident: $extra_type:ty,)* }
        page { $($(#[$page_doc:meta])* $page_key:ident,)* }
        inner { $($(#[$doc:meta])* $key:ident,)* }
    ) => {
        $(#[$group_doc])*
        #[derive(Debug)]
        pub struct $name {
            $($(#[$page_doc])* pub $page_key: &'static str,)*
            $($(#[$doc])* pub $key: &'static str,)*
            $($(#[$extra_doc])* pub $extra: $extra_type,)*
        }

        impl $name {
            /// Every key that the page asks for with its text, in the order of declaration.
            pub fn entries(&self) -> Vec<(&'static str, &'static str)> {
                vec![$((stringify!($page_key), self.$page_key),)*]
            }

            /// Every fixed text by its key.
            #[cfg(test)]
            pub(crate) fn all(&self) -> Vec<(&'static str, &'static str)> {
                let mut all = self.entries();
                all.extend([$((stringify!($key), self.$key),)*]);
                all
            }
        }
    };
}
pub(crate) use group;

group! {
    /// What the desk says in one language.
    Texts {
        /// Labels and explanations of the inputs.
        fields: Fields,
        /// Sentences with numbers in them.
        say: Sentences,
    }
    page {
        /// The caution that stands on every screen and every sheet.
        caution,
        /// Above the list of faults.
        problems_heading,
        /// Name of the view of limits and strengths.
        view_checks,
        /// Name of the view of figures for putting the line up.
        view_setup,
        /// Command: make a link.
        share,
        /// The link is on the clipboard.
        share_copied,
        /// There is no clipboard.
        share_by_hand,
        /// Command: take the last change back.
        undo,
        /// Command: make it again.
        redo,
        /// Command: load the demonstration.
        demo,
        /// Label of the choice of units.
        units_label,
        /// Label of the choice of language.
        language_label,
        /// Short name of the metric units.
        units_metric,
        /// Short name of the units of the United States.
        units_us,
        /// Command: start the fall.
        play,
        /// Command: stop the fall where it is.
        pause,
        /// Command: one frame on.
        step_forward,
        /// Command: one frame back.
        step_back,
        /// Command: hold at the lowest point.
        to_lowest,
        /// Command: back to the line at rest.
        to_start,
        /// Label of the choice of speed.
        speed_label,
        /// True speed.
        speed_true,
        /// A quarter of true speed.
        speed_quarter,
        /// A tenth of true speed.
        speed_tenth,
        /// Label of the time slider.
        time_label,
        /// Heading of the inputs.
        inputs_heading,
        /// Summary of the folded inputs.
        more_inputs,
        /// Heading of the answer.
        answer_heading,
        /// Heading of the stack.
        stack_heading,
        /// Heading of the live values.
        now_heading,
        /// Heading of the two methods side by side.
        methods_heading,
        /// Label of the range of an input.
        range_label,
        /// Label of the default of an input.
        default_label,
        /// Label of the origin of a default.
        basis_label,
        /// While the module is fetched.
        loading,
        /// After a failure inside the module.
        crashed,
        /// Command: load the page again.
        reload,
        /// Stored for use without network.
        offline_ready,
        /// A newer version waits.
        update_ready,
        /// Link past the head of the page.
        page_skip,
        /// Closes a notice.
        page_close,
        /// What the page is for, before anything is computed.
        page_purpose,
        /// Heading of the drawing.
        page_drop,
        /// Name of the group of playback controls.
        page_player,
        /// The keys of the player.
        page_keys,
        /// Shows everybody hanging at rest.
        page_hanging,
        /// Opens the inputs that matter less.
        page_more,
        /// Opens the charts.
        page_charts,
        /// Adds a thing below.
        page_add_below,
        /// Removes a thing below.
        page_remove,
        /// Label of a link to copy by hand.
        page_link,
        /// Label of a link that could not be opened.
        page_later_failed,
        /// Label of a text that is kept.
        page_kept_text,
        /// Adds an own limit.
        page_add_own,
    }
    inner {
        /// Beside the title of invented data.
        invented,
        /// Beside numbers that belong to the last case without faults.
        stale,
        /// Word beside the number when there is room.
        word_spare,
        /// Word beside the number when there is not enough.
        word_short,
        /// Word in place of the number when none can be given.
        word_unknown,
        /// A case with nothing computed yet.
        not_computed,
        /// How shown numbers are rounded.
        rounding_note,
        /// Nobody falls.
        nobody_falls,
        /// Why the time history asks for more when the absorber pays out further.
        why_absorber,
        /// Why the energy balance asks for more when all fall at once.
        why_balance,
        /// Why the energy balance asks for more when they fall one after another.
        why_balance_staggered,
        /// Name of the method.
        energy_balance,
        /// Name of the method.
        time_history,
        /// Deflection of the line.
        line_deflection,
        /// Connecting gear.
        lanyard,
        /// Locking distance and taut length of a self-retracting lifeline.
        self_retracting,
        /// Extension of absorber and webbing.
        absorber_extension,
        /// Harness stretch.
        harness_stretch,
        /// D-ring to sole.
        dring_to_sole,
        /// The margin.
        margin,
        /// Required depth.
        required,
        /// Measured depth.
        available,
        /// The footroom.
        footroom,
        /// Greatest force on a worker.
        arrest_force,
        /// Greatest line tension.
        line_tension,
        /// Extension of the in-line absorber.
        inline_extension,
        /// Depth of the governing worker's soles below the line.
        soles_below_line,
        /// Phase: still standing.
        phase_standing,
        /// Phase: gear slack.
        phase_free_fall,
        /// Phase: gear taut, going down.
        phase_arrest,
        /// Phase: lowest point.
        phase_lowest,
        /// Phase: going up.
        phase_rebound,
        /// Phase: at rest in the line.
        phase_hanging,
        /// Mark: greatest tension.
        mark_peak_tension,
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
        /// There is one.
        choice_on,
        /// There is none.
        choice_off,
        /// What a thing below is.
        kind_label,
        /// What it does.
        kind_hint,
        /// A truck, trailer or machine.
        below_vehicle,
        /// A lower beam, slab or deck.
        below_structure,
        /// A stair, scaffold or ladder.
        below_access,
        /// Stacked material.
        below_stack,
        /// Anything else.
        below_other,
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
        /// A doubt that has no text of its own.
        doubt_other,
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
        /// Content: a value of another kind.
        json_kind,
        /// The present case is kept.
        link_kept,
        /// The reader's page computes the same.
        shared_same,
        /// Level of the line, beside a level mark.
        scene_line,
        /// Beam top, beside a level mark.
        scene_beam_top,
        /// Ground, beside a level mark.
        scene_datum,
        /// Live line tension; {} is the force.
        scene_tension,
        /// Footroom in the ladder; {} is the length.
        scene_spare,
        /// Lacking footroom in the ladder; {} is the length.
        scene_short,
        /// Required depth, short.
        scene_required,
        /// Available depth, short.
        scene_available,
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
        /// Whether the headline limits of EN 355 and EN 795 are applied.
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
        /// Row of the stack: what is added to a calculated fall.
        allowance,
        /// Row of the stack: what the soft corner adds.
        tolerance_soft,
        /// Row of the stack: what the stiff corner adds.
        tolerance_stiff,
        /// Row of the stack: what the mixed corner adds.
        tolerance_mixed,
        /// Row of the stack: what an undamped line adds.
        tolerance_undamped,
        /// The inputs as given.
        corner_nominal,
        /// Name of the corner.
        corner_soft,
        /// Name of the corner.
        corner_stiff,
        /// Name of the corner.
        corner_mixed,
        /// Name of the run.
        corner_undamped,
        /// What a corner takes.
        off_absorber_weak,
        /// What a corner takes.
        off_absorber_strong,
        /// What a corner takes.
        off_rope_soft,
        /// What a corner takes.
        off_rope_stiff,
        /// What a corner takes.
        off_ends_soft,
        /// What a corner takes.
        off_ends_stiff,
        /// What a corner takes.
        off_pretension_low,
        /// What a corner takes.
        off_pretension_high,
        /// What a corner takes.
        off_mass,
        /// What a corner takes.
        off_inline_early,
        /// What a corner takes.
        off_inline_late,
        /// No corner is worse than the inputs as given.
        nominal_governs,
    }
}

/// Label and explanation of one input.
#[derive(Clone, Copy, Debug)]
pub struct FieldText {
    /// Its name on the page.
    pub label: &'static str,
    /// What it does, in a sentence.
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
    /// A worker by number, inside a sentence.
    pub worker: fn(usize) -> String,
    /// A worker by number, as a label or at the beginning of a sentence.
    pub worker_label: fn(usize) -> String,
    /// A thing below by number and kind, as a label.
    pub below_label: fn(usize, &str) -> String,
    /// Label of an input for all workers.
    pub for_all: fn(&str) -> String,
    /// Room to spare: amount, worker, margin.
    pub spare: fn(&str, &str, &str) -> String,
    /// Short: amount, worker, required depth, available depth.
    pub short: fn(&str, &str, &str, &str) -> String,
    /// No number: the reason.
    pub cannot_say: fn(&str) -> String,
    /// Short, but the soles stay clear: clear room, margin.
    pub margin_not_kept: fn(&str, &str) -> String,
    /// Short, and the soles would come lower than the top of what is below: by how much.
    pub soles_too_low: fn(&str) -> String,
    /// Tension beyond breaking: tension, breaking force.
    pub beyond_breaking: fn(&str, &str) -> String,
    /// Line too steep: slope, greatest slope checked.
    pub too_steep: fn(&str, &str) -> String,
    /// Absorber used up: worker, force.
    pub absorber_used_up: fn(&str, &str) -> String,
    /// In-line absorber used up: tension.
    pub inline_used_up: fn(&str) -> String,
    /// A worker strikes: worker, time, speed.
    pub strikes: fn(&str, &str, &str) -> String,
    /// Still going down at the end: worker.
    pub not_finished: fn(&str) -> String,
    /// Who falls: workers that fall at one instant, of how many.
    pub fall_together: fn(usize, usize) -> String,
    /// Who falls: workers that fall at different instants, of how many, the instants.
    pub fall_in_turn: fn(usize, usize, &str) -> String,
    /// The time history governs: by how much, why.
    pub history_governs: fn(&str, &str) -> String,
    /// Why the time history asks for more when the line deflects further: mass of the rope.
    pub why_overshoot: fn(&str) -> String,
    /// Why the time history asks for more when the lowest point comes after a rebound: instant.
    pub why_rebound: fn(&str) -> String,
    /// The energy balance governs: by how much, why.
    pub balance_governs: fn(&str, &str) -> String,
    /// Both methods agree to the shown step.
    pub methods_agree: fn(&str) -> String,
    /// A label and the worker it is about.
    pub of_worker: fn(&str, &str) -> String,
    /// A mark: a worker's gear goes taut.
    pub mark_taut: fn(&str) -> String,
    /// A mark: a worker's lowest point.
    pub mark_lowest: fn(&str) -> String,
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
    /// An example of what may be typed.
    pub example: fn(&str) -> String,
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
    /// Same model, other result: was, is.
    pub shared_differs: fn(&str, &str) -> String,
    /// The model has changed: was, is.
    pub shared_changed: fn(&str, &str) -> String,
    /// Model version and fingerprint.
    pub model: fn(u32, &str) -> String,
    /// Description: length of the line, spans, height above the beam, beam top above the ground.
    pub describe_line: fn(&str, &str, &str, &str) -> String,
    /// Description: kind, from, to, height.
    pub describe_below: fn(&str, &str, &str, &str) -> String,
    /// Description: worker, place; he stays standing.
    pub describe_standing: fn(&str, &str) -> String,
    /// Description: worker, place, free fall, greatest force, time and depth below the line of
    /// the soles at the lowest point.
    pub describe_fall: fn(&str, &str, &str, &str, &str, &str) -> String,
    /// Description: worker, soles above what is below once everything hangs still.
    pub describe_hanging: fn(&str, &str) -> String,
    /// Spoken read-out: time, line tension.
    pub spoken_line: fn(&str, &str) -> String,
    /// Spoken read-out: worker, phase, force.
    pub spoken_worker: fn(&str, &str, &str) -> String,
    /// An own limit by number, as a label.
    pub own_label: fn(usize) -> String,
    /// How many characters fit.
    pub characters: fn(usize) -> String,
    /// A tolerance corner asks for more: by how much, corner, what it takes.
    pub corner_governs: fn(&str, &str, &str) -> String,
    /// The undamped line asks for more: by how much.
    pub undamped_governs: fn(&str) -> String,
    /// Line tension: greatest, where; least and greatest by damping; energy balance.
    pub tension_range: fn(&str, &str, &str, &str, &str) -> String,
    /// A corner with what it takes.
    pub corner_list: fn(&str, &str) -> String,
    /// An absorber is used up in a corner only: the corner.
    pub corner_used_up: fn(&str) -> String,
    /// The rope breaks in a corner only: tension, breaking force.
    pub corner_breaks: fn(&str, &str) -> String,
    /// A worker comes down on what is below in a corner only: worker.
    pub corner_contact: fn(&str) -> String,
    /// Swing fall: worker, distance beside the connector, height swung through.
    pub swing: fn(&str, &str, &str) -> String,
    /// The gear bears on the edge: worker.
    pub edge_contact: fn(&str) -> String,
    /// Description: one who stays standing: the line there comes down to this height above the beam.
    pub describe_pulled: fn(&str) -> String,
    /// The energy ledger does not close: by how many per cent.
    pub ledger_open: fn(&str) -> String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_input_has_its_texts() {
        for lang in [Lang::En, Lang::Es] {
            // Point loads are no part of a case.
            let fields = footroom_core::field::FIELDS.iter();
            for field in fields.filter(|f| !f.name.starts_with("point_loads")) {
                let text = of(lang).fields.find(field.name);
                assert!(
                    text.is_some_and(|t| !t.label.is_empty() && !t.hint.is_empty()),
                    "{} in {lang:?}",
                    field.name
                );
            }
        }
    }

    /// The fixed texts of all groups.
    fn all(lang: Lang) -> Vec<(&'static str, &'static str)> {
        [
            of(lang).all(),
            office::of(lang).all(),
            record::of(lang).all(),
        ]
        .concat()
    }

    #[test]
    fn no_text_is_empty_or_left_untranslated() {
        let same_in_both = ["units_metric", "units_us", "speed_quarter", "speed_tenth"];
        for ((key, en), (_, es)) in all(Lang::En).iter().zip(all(Lang::Es)) {
            assert!(!en.trim().is_empty() && !es.trim().is_empty(), "{key}");
            if !same_in_both.contains(key) && en.len() > 8 {
                assert_ne!(*en, es, "{key}");
            }
        }
    }

    #[test]
    fn no_text_gives_permission() {
        // Word beginnings that would word a result as permission, in either language.
        let forbidden = [
            "safe",
            "segur",
            "approved",
            "aprobad",
            "permitted",
            "permitid",
        ];
        for lang in [Lang::En, Lang::Es] {
            for (key, text) in all(lang) {
                let low = text.to_lowercase();
                for word in forbidden {
                    assert!(
                        !low.split(|c: char| !c.is_alphabetic())
                            .any(|w| w.starts_with(word)),
                        "{key}: {text}"
                    );
                }
            }
        }
    }
}
