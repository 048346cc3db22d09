//! What the page says, in each of its languages: one key a sentence.
//!
//! [`Texts`] is what the desk says; [`office::Texts`] and the groups beside it belong to what is
//! fetched later, so that the first view does not carry them. Every language fills the same
//! structures, so a text that is missing in one of them does not compile. Texts with numbers in
//! them are functions of the numbers as already formatted.

pub mod decide;
pub mod direct;
mod en;
mod es;
pub mod form;
pub mod guess;
pub mod office;
pub mod record;
pub mod spread;
pub mod talk;

/// A text with its one place, `{}`, filled in.
pub fn filled(pattern: &str, text: &str) -> String {
    match pattern.split_once('{') {
        Some((before, after)) => {
            format!("{before}{text}{}", after.strip_prefix('}').unwrap_or(after))
        }
        None => pattern.to_owned(),
    }
}

/// Declares a group of texts once: those that the page shows as they are, with the list of their
/// keys, and those that only the program's own sentences are made of. With it stands `of`, which gives
/// those of a language: a file each beside the declaration.
macro_rules! text_group {
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

        /// The texts of one language.
        pub fn of(lang: $crate::say::format::Lang) -> &'static $name {
            match lang {
                $crate::say::format::Lang::En => &en::TEXTS,
                $crate::say::format::Lang::Es => &es::TEXTS,
            }
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
pub(crate) use text_group;

text_group! {
    /// What the desk says in one language.
    Texts {
        /// Sentences with numbers in them.
        say: Sentences,
    }
    page {
        /// Command: put the crew where the worst was found.
        show_worst,
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
        /// Heading of the answer.
        answer_heading,
        /// Heading of the stack.
        stack_heading,
        /// Heading of the live values.
        now_heading,
        /// Heading of the two methods side by side.
        methods_heading,
        /// While the module is fetched.
        loading,
        /// After a failure inside the module.
        crashed,
        /// Command: load the page again.
        reload,
        /// Link past the head of the page.
        page_skip,
        /// Closes a notice.
        page_close,
        /// A link was refused.
        link_unread,
        /// What to do about it.
        link_advice,
        /// Beside a refused link, while another case is shown.
        link_other,
        /// Label of the text of a refused link.
        link_text,
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
        /// While what belongs to the whole page is fetched.
        page_coming,
        /// Label of a link that could not be opened.
        page_later_failed,
        /// Name of the row of doors.
        page_doors,
        /// The door to line, crew, what is below, the drop and its stack.
        page_door_plan,
        /// The door to what fits and what would change the answer.
        page_door_decide,
        /// The door to the talk and to what teaches.
        page_door_explain,
        /// The door to readings, set-up, inspection and log.
        page_door_site,
        /// The door to checks, sheets and files.
        page_door_file,
        /// A part of the plan: the drop and its player.
        page_part_drop,
        /// A part of the plan: what is entered.
        page_part_inputs,
        /// A part of the plan: the charts.
        page_part_charts,
        /// Opens what stands behind the answer.
        page_about,
        /// The row of the crew that is for all of it.
        page_crew_all,
        /// Column of the crew: the place along the line.
        page_crew_at,
        /// Column of the crew: the weight with tools.
        page_crew_mass,
        /// Column of the crew: the length of lanyard or self-retracting lifeline.
        page_crew_gear,
        /// Column of the crew: whether the worker falls.
        page_crew_falls,
        /// Opens the caution where it has one line only.
        page_caution,
    }
    inner {
        /// First line of the answer: the room under the crew where it is.
        line_room,
        /// Second line: the weakest part, and limits.
        line_strength,
        /// Third line: the worst wherever the crew may be, and whoever falls.
        line_anywhere,
        /// Beside the third line until it is known.
        still_looking,
        /// Beside the strength, where an absorber is used up.
        word_deployed,
        /// The subject of that.
        an_absorber,
        /// Beside a line that has no strength, as it would break.
        word_breaks,
        /// Free fall.
        free_fall,
        /// Deceleration distance.
        deceleration_distance,
        /// Label of a check.
        check_no_contact,
        /// Label of a check.
        check_system_factor,
        /// Label of a check.
        check_anchorage_alternative,
        /// Check: least strength of a lanyard.
        check_lanyard_strength,
        /// Check: least strength of a self-retracting lifeline.
        check_self_retracting_strength,
        /// Check: gear under twice the impact energy.
        check_twice_impact_energy,
        /// Check: the heaviest worker.
        check_user_mass,
        /// Label of a check.
        check_en_arrest_force,
        /// Label of a check.
        check_en_extension,
        /// Check: EN 360, force.
        check_en_retractable_force,
        /// Check: EN 360, distance.
        check_en_retractable_distance,
        /// Label of a check.
        check_en_users,
        /// Label of a check.
        check_footroom,
        /// Label of a check.
        check_rope,
        /// Label of a check.
        check_termination,
        /// Label of a check.
        check_end_anchorage,
        /// Label of a check.
        check_post_moment,
        /// Label of a check.
        check_post_compression,
        /// Label of a check.
        check_tieback,
        /// Label of a check.
        check_tieback_anchorage,
        /// Label of a check.
        check_intermediate_post,
        /// Label of a check.
        check_intermediate_along,
        /// Subject of a check.
        subject_left_end,
        /// Subject of a check.
        subject_right_end,
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
        /// The answer under a refused link.
        link_no_result,
        /// How shown numbers are rounded.
        rounding_note,
        /// Nobody falls.
        nobody_falls,
        /// The feet come down to what is below, not lower.
        soles_touch,
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
        /// The same of two, added.
        inline_extension_both,
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
        /// A doubt that has no text of its own.
        doubt_other,
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
        /// Row of the stack: what small differences within the crew add.
        tolerance_crew,
        /// Row of the stack: what they add with tolerances or an undamped line.
        tolerance_and_crew,
        /// Instead of the details, while the answer is only that of the crew as given.
        first_answer,
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
        /// Absorbers that are told by a curve, as strong as they may be.
        off_absorber_stronger,
        /// What a corner takes.
        off_rope_soft,
        /// What a corner takes.
        off_rope_stiff,
        /// What a corner takes.
        off_ends_soft,
        /// What a corner takes.
        off_ends_stiff,
        /// The same.
        off_friction,
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
        /// No corner is worse than the inputs as given, in a few words and without the full stop.
        given_governs,
        /// The undamped line asks for more, without the full stop.
        undamped_governs,
        /// A quantity that was checked over a range.
        checked_span_count,
        /// A quantity that was checked over a range.
        checked_end_stiffness,
        /// A quantity that was checked over a range.
        checked_users,
        /// A quantity that was checked over a range.
        checked_delay,
        /// A quantity that was checked over a range.
        checked_self_retracting,
        /// A quantity that was checked over a range.
        checked_offset,
        /// A quantity that was checked over a range.
        checked_deflection,
        /// A quantity that was checked over a range.
        checked_slope,
        /// A quantity that was checked over a range.
        checked_nearness,
        /// A quantity that was checked over a range.
        checked_span,
        /// A quantity that was checked over a range.
        checked_pretension,
        /// A quantity that was checked over a range.
        checked_axial_stiffness,
        /// A quantity that was checked over a range.
        checked_mass_per_length,
        /// A quantity that was checked over a range.
        checked_inline_force,
        /// A quantity that was checked over a range.
        checked_inline_extension,
        /// A quantity that was checked over a range.
        checked_damping,
        /// A quantity that was checked over a range.
        checked_mass,
        /// A quantity that was checked over a range.
        checked_free_fall,
        /// A quantity that was checked over a range.
        checked_gear_stiffness,
        /// A quantity that was checked over a range.
        checked_absorber_force,
        /// A quantity that was checked over a range.
        checked_absorber_extension,
        /// A quantity that was checked over a range.
        checked_locked_stiffness,
        /// A quantity that the core has learnt since.
        checked_other,
    }
}

/// Sentences with numbers in them. Texts come formatted and with their units; workers, spans and
/// things below are counted from 1.
#[derive(Debug)]
pub struct Sentences {
    /// Under whom there is so much room, and the margin that it comes on top of.
    pub under: fn(&str, &str) -> String,
    /// What a worker needs below the line, and what there is.
    pub needs: fn(&str, &str, &str) -> String,
    /// The required ratio, behind a ratio.
    pub of_ratio: fn(&str) -> String,
    /// How many parts, and behind it that they have no strength entered.
    pub parts_open: fn(usize) -> (String, &'static str),
    /// How many limits, and behind it that they are not met.
    pub limits_open: fn(usize) -> (String, &'static str),
    /// A line of the answer: heading, number, word.
    pub answer_line: fn(&str, &str, &str) -> String,
    /// Subject of a check: an intermediate post.
    pub subject_post: fn(usize) -> String,
    /// A worker by number, inside a sentence.
    pub worker: fn(usize) -> String,
    /// A worker by number, as a label or at the beginning of a sentence.
    pub worker_label: fn(usize) -> String,
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
    /// Still going down at the end: worker, whether no longer time can be simulated.
    pub not_finished: fn(&str, bool) -> String,
    /// Who falls: workers that fall at one instant, of how many.
    pub fall_together: fn(usize, usize) -> String,
    /// Who falls: workers that fall at different instants, of how many; without the full stop.
    pub fall_in_turn: fn(usize, usize) -> String,
    /// What follows it: the instants, whether somebody stays standing.
    pub fall_at: fn(&str, bool) -> String,
    /// A label and the worker it is about.
    pub of_worker: fn(&str, &str) -> String,
    /// A mark: a worker's gear goes taut.
    pub mark_taut: fn(&str) -> String,
    /// A mark: a worker's lowest point.
    pub mark_lowest: fn(&str) -> String,
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
    /// A tolerance corner asks for more, without the full stop.
    pub corner_governs: fn(&str) -> String,
    /// How much of a crew's footroom cannot be promised.
    pub crew_last: fn(&str) -> String,
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
    /// The swing goes deeper than the stack: worker, by how much.
    pub swings_below_stack: fn(&str, &str) -> String,
    /// A self-retracting lifeline clipped below the D-ring: worker, by how much, free fall.
    pub retracting_below: fn(&str, &str, &str) -> String,
    /// A given free fall that the geometry does not allow: worker, the given one, the one taken.
    pub free_fall_raised: fn(&str, &str, &str) -> String,
    /// The lanyard does not let him stand there: worker, distance from the connector, its reach.
    pub beyond_reach: fn(&str, &str, &str) -> String,
    /// The gear slides along the edge: worker, how far.
    pub edge_slide: fn(&str, &str) -> String,
    /// The line comes down to the beam: worker.
    pub line_on_edge: fn(&str) -> String,
    /// Outside the region that was checked: list of quantities.
    pub outside_checked: fn(&str) -> String,
    /// A quantity outside: label, value, least, greatest.
    pub checked_range: fn(&str, &str, &str, &str) -> String,
    /// A quantity outside: label, value, least.
    pub checked_from: fn(&str, &str, &str) -> String,
    /// A quantity outside, of which there was nothing: label, value.
    pub checked_none: fn(&str, &str) -> String,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::Lang;

    #[test]
    fn every_input_has_its_texts() {
        for lang in [Lang::En, Lang::Es] {
            // Point loads are no part of a case.
            let fields = footroom_core::field::FIELDS.iter();
            for field in fields.filter(|f| !f.name.starts_with("point_loads")) {
                let text = form::of(lang).fields.find(field.name);
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
            form::of(lang).all(),
            office::of(lang).all(),
            decide::of(lang).all(),
            talk::of(lang).all(),
            direct::of(lang).all(),
            guess::of(lang).all(),
            record::of(lang).all(),
            spread::of(lang).all(),
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

    /// The page carries English copies for the moment before the program is there.
    #[test]
    fn the_copies_in_the_page_are_the_texts() {
        let page = include_str!("../../../../www/index.html");
        let texts = all(Lang::En);
        let mut copies = 0;
        for piece in page.split("data-text=\"").skip(1) {
            let (key, rest) = piece.split_once('"').expect("its end");
            let copy = rest
                .split_once('>')
                .and_then(|(_, rest)| rest.split_once('<'));
            let copy = copy.expect("a copy").0.replace("&amp;", "&");
            let mut of_key = texts.iter().filter(|(name, _)| *name == key);
            assert!(of_key.any(|(_, text)| *text == copy), "{key}: {copy}");
            copies += 1;
        }
        assert!(copies > 50, "{copies}");
    }

    /// All that is written in the files of a folder, those of the texts themselves left out.
    fn written(folder: &std::path::Path, all: &mut String) {
        for entry in std::fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().unwrap_or_default();
            if path.is_dir() && name != "texts" && name != "pkg" {
                written(&path, all);
            } else if path
                .extension()
                .is_some_and(|e| e == "rs" || e == "js" || e == "html")
            {
                all.push_str(&std::fs::read_to_string(&path).expect("a text"));
            }
        }
    }

    /// A text that nothing asks for any more goes, in every language.
    #[test]
    fn every_key_is_asked_for() {
        let here = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
        let mut all_written = String::new();
        written(&here.join("src"), &mut all_written);
        written(&here.join("../www"), &mut all_written);
        let asked: std::collections::HashSet<&str> = all_written
            .split(|c: char| !(c.is_alphanumeric() || c == '_'))
            .collect();
        let groups = [
            include_str!("mod.rs"),
            include_str!("decide/mod.rs"),
            include_str!("form/mod.rs"),
            include_str!("guess/mod.rs"),
            include_str!("office/mod.rs"),
            include_str!("record/mod.rs"),
            include_str!("spread/mod.rs"),
            include_str!("talk/mod.rs"),
        ];
        let functions = groups
            .iter()
            .flat_map(|group| group.lines())
            .filter_map(|line| {
                let (key, kind) = line.trim().strip_prefix("pub ")?.split_once(": ")?;
                kind.starts_with("fn(").then_some(key)
            });
        let fixed = all(Lang::En).into_iter().map(|(key, _)| key);
        let keys: Vec<&str> = fixed.chain(functions).collect();
        assert!(keys.len() > 700, "{}", keys.len());
        // A script may make a key of a beginning and a word.
        let made = |key: &str| {
            key.rsplit_once('_').is_some_and(|(beginning, word)| {
                all_written.contains(&format!("`{beginning}_${{")) && asked.contains(word)
            })
        };
        let alive = |key: &str| asked.contains(key) || made(key);
        let dead: Vec<&&str> = keys.iter().filter(|key| !alive(key)).collect();
        assert!(dead.is_empty(), "{dead:?}");
    }

    /// The files of all groups, so that the sentences with numbers in them are read too.
    const SOURCES: [(Lang, &str); 18] = [
        (Lang::En, include_str!("en.rs")),
        (Lang::En, include_str!("decide/en.rs")),
        (Lang::En, include_str!("direct/en.rs")),
        (Lang::En, include_str!("form/en.rs")),
        (Lang::En, include_str!("guess/en.rs")),
        (Lang::En, include_str!("office/en.rs")),
        (Lang::En, include_str!("record/en.rs")),
        (Lang::En, include_str!("spread/en.rs")),
        (Lang::En, include_str!("talk/en.rs")),
        (Lang::Es, include_str!("es.rs")),
        (Lang::Es, include_str!("decide/es.rs")),
        (Lang::Es, include_str!("direct/es.rs")),
        (Lang::Es, include_str!("form/es.rs")),
        (Lang::Es, include_str!("guess/es.rs")),
        (Lang::Es, include_str!("office/es.rs")),
        (Lang::Es, include_str!("record/es.rs")),
        (Lang::Es, include_str!("spread/es.rs")),
        (Lang::Es, include_str!("talk/es.rs")),
    ];

    /// The texts between quotes of a source file, its comments left out.
    fn quoted(source: &str) -> Vec<String> {
        let mut all = Vec::new();
        for line in source.lines().filter(|l| !l.trim_start().starts_with("//")) {
            let mut text: Option<String> = None;
            let mut chars = line.chars();
            while let Some(c) = chars.next() {
                match (&mut text, c) {
                    (Some(t), '\\') => t.extend(chars.next()),
                    (Some(_), '"') => all.extend(text.take()),
                    (Some(t), c) => t.push(c),
                    (None, '"') => text = Some(String::new()),
                    (None, _) => {}
                }
            }
        }
        all
    }

    /// A text without the names of what is filled in.
    fn without_places(text: &str) -> String {
        let parts = text
            .split('{')
            .enumerate()
            .map(|(i, part)| match part.split_once('}') {
                Some((_, after)) if i > 0 => after,
                _ => part,
            });
        parts.collect::<Vec<_>>().join("#")
    }

    /// True when a phrase stands in a text as whole words.
    fn has_words(text: &str, phrase: &str) -> bool {
        let is_letter = |c: Option<char>| c.is_some_and(char::is_alphabetic);
        text.match_indices(phrase).any(|(at, _)| {
            let (before, after) = (&text[..at], &text[at + phrase.len()..]);
            !is_letter(before.chars().next_back()) && !is_letter(after.chars().next())
        })
    }

    /// Words that read as translated, mean something else on a site, or soften a hazard; and what
    /// is called otherwise everywhere else on the page.
    const AVOID_EN: &[&str] = &[
        "give way",
        "gives way",
        "giving way",
        "comes down on",
        "goes before",
        "put up",
        "pays out",
        "pay out",
        "used up",
        "yields",
        "yield",
        "yielding",
        "corner",
        "corners",
        "as given",
        "cannot say",
        "thing below",
        "things below",
        "stands below",
        "what is below the",
        "breaking force",
        "fixed to",
        "fixing",
        "maker",
        "makers",
        "maker's",
        "makers'",
        "catalogue",
        "mid-span",
        "set-back",
        "present case",
        "softer",
        "margin kept",
        "margin is kept",
        "measured below",
        "leaps",
        "fingerprint",
        "ledger",
        "energies",
        "permission",
        "he",
        "him",
        "his",
        "himself",
        "she",
        "her",
        "foot of the post",
        "post foot",
        "grips",
        "soles stop",
        "hanging still",
        "back to rest",
        "load again",
        "all runs",
        "that run",
        "other runs",
        "computing",
        "compute",
        "computed",
        "a bound",
        "less deep",
        "one a span",
        "does not hold",
        "nominal",
        "backs the number up",
        "the latter",
        "here and now",
        "in this room",
        "clear the tally",
        "answer's worker",
        "midspan drop",
        "inspection is of",
        "failed elsewhere",
        "standing level",
        "in combination",
    ];
    const AVOID_ES: &[&str] = &[
        "lo que hay abajo",
        "de sobra",
        "gobierna",
        "gobiernan",
        "pretensión",
        "cincho",
        "cinchos",
        "plática",
        "aparato",
        "piso",
        "revisiones",
        "fuerza media",
        "sin amortiguación",
        "terminales",
        "suplemento",
        "suplementos",
        "vuelve rígido",
        "desenrollado",
        "chispas",
        "margen incluido",
        "permiso",
        "las suelas",
        "balanceo",
        "balanceos",
        "cabo de",
        "huella",
        "tolerancia del modelo",
        "ceder",
        "cede",
        "ceden",
        "cota",
        "donde sea",
        "asegurar",
        "asegure",
        "ingresó",
        "ingresaron",
        "ingresado",
        "ingrese",
        "extendido por completo",
        "que se requieren",
        "del srl",
        "rescate pronto",
        "es apto",
        "borrar la cuenta",
        "alto y pregunte",
        "nivel de pie",
        "como se planeó",
        "en combinación",
        "colgado con los pies",
        "mande ese",
        "aquí y ahora",
        "parte débil",
        "ser apto",
    ];

    #[test]
    fn no_text_has_a_word_of_the_avoid_list() {
        for (lang, source) in SOURCES {
            let avoid = match lang {
                Lang::En => AVOID_EN,
                Lang::Es => AVOID_ES,
            };
            let texts = quoted(source);
            assert!(!texts.is_empty());
            let found: Vec<String> = texts
                .iter()
                .flat_map(|text| {
                    let low = without_places(&text.to_lowercase());
                    let words = avoid.iter().filter(move |word| has_words(&low, word));
                    words.map(move |word| format!("{word}: {text}"))
                })
                .collect();
            assert!(found.is_empty(), "{found:#?}");
        }
    }
}
