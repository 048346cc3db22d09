//! What the office says: checks, set-up figures, searches, charts.

mod en;
mod es;

use super::text_group;

text_group! {
    /// What the office says in one language.
    Texts {
        /// Sentences with numbers in them.
        say: Sentences,
    }
    page {
        /// While the answer to what was entered is still made.
        coming,
        /// Heading of the brief checks.
        checks_heading,
        /// Command: show a chart's numbers as a table.
        show_table,
        /// Title of the chart of force against time.
        chart_force,
        /// Title of the chart of tension against time.
        chart_tension,
        /// Column of the checks.
        col_what,
        /// Column of the checks.
        col_demand,
        /// Column of the checks.
        col_capacity,
        /// Column of the checks.
        col_ratio,
        /// Column of the checks.
        col_required,
        /// Column of the checks.
        col_verdict,
        /// Column of the checks.
        col_source,
        /// Under the checks.
        checks_note,
        /// Heading of the read-back.
        setup_read_heading,
        /// Label of an input.
        setup_read_weight,
        /// Label of an input.
        setup_read_movement,
        /// Label: number of swings.
        setup_read_swings,
        /// Label of an input.
        setup_read_time,
        /// Heading of the searches.
        search_heading,
        /// Under the searches.
        search_note,
        /// Command: search delays.
        search_delay,
        /// Command: search places.
        search_places,
        /// Command: load the case found.
        search_load,
        /// While a search runs.
        search_running,
        /// Command: stop a search.
        search_stop,
        /// A search was stopped.
        search_stopped,
        /// Over the choice of what is given away.
        share_what,
        /// A choice of it.
        share_case,
        /// A choice of it.
        share_layouts,
        /// A choice of it.
        share_talk,
        /// Command: copy the link.
        share_copy,
        /// Command: hand the link to another program.
        share_send,
        /// Command: save what is given away as a file.
        share_file,
    }
    inner {
        /// What else was tried of a crew that moves freely.
        anywhere_freely,
        /// Alternative of the code.
        share_code,
        /// What a link opens.
        share_opens_case,
        /// What a link opens.
        share_opens_layouts,
        /// What a link opens.
        share_opens_talk,
        /// There are no layouts to give away.
        share_no_layouts,
        /// There is no result to give away.
        share_no_result,
        /// The link is too long for a code.
        share_no_code,
        /// The worst that was found is where the crew is.
        anywhere_here,
        /// In place of the worst, where what is printed or kept was made before it was found.
        anywhere_open,
        /// Why the worst place counts.
        anywhere_why,
        /// Why the time history asks for more when the absorber pays out further.
        why_absorber,
        /// What is added to a lowest point after a rebound where there is room.
        why_rebound_more,
        /// Why the energy balance asks for more when all fall at once.
        why_balance,
        /// Why the energy balance asks for more when they fall one after another.
        why_balance_staggered,
        /// No corner is worse than the inputs as given.
        nominal_governs,
        /// Breaking force over greatest tension.
        rope_ratio,
        /// The demand lies within the limit.
        verdict_within,
        /// The demand exceeds the limit.
        verdict_over,
        /// The strength is less than required.
        verdict_too_weak,
        /// Strength not known.
        not_evaluated,
        /// Time.
        time,
        /// Band of the tension over all runs.
        chart_range,
        /// Limit line of the arrest force.
        limit_arrest,
        /// Limit line of the tension.
        limit_by_ratio,
        /// Heading of checks with one verdict.
        checks_not_met,
        /// Heading of checks with one verdict.
        checks_not_evaluated,
        /// Heading of checks with one verdict.
        checks_met,
        /// Heading of checks with one verdict.
        checks_information,
        /// Verdict of a check.
        verdict_meets,
        /// Verdict of a check.
        verdict_does_not_meet,
        /// Verdict of a check.
        verdict_information,
        /// Why a check was not evaluated.
        reason_post,
        /// Why a check was not evaluated.
        reason_demand,
        /// Why a check was not evaluated.
        reason_limit,
        /// Not evaluated: the worker is too heavy for the test's criteria as they are.
        reason_criteria,
        /// Why a check was not evaluated: there is no answer to rely on.
        reason_unknown,
        /// Said of a clause that was not re-read.
        source_memory,
        /// Under the set-up figures.
        setup_note,
        /// Caption of the set-up figures.
        setup_figures,
        /// Column of the set-up figures.
        setup_figure,
        /// Column of the set-up figures.
        setup_value,
        /// Column of the set-up figures.
        setup_remark,
        /// A set-up figure.
        setup_pretension,
        /// A set-up figure.
        setup_cut,
        /// A set-up figure.
        setup_marks,
        /// A remark.
        setup_marks_note,
        /// A set-up figure.
        setup_stretch,
        /// A set-up figure.
        setup_take_up,
        /// A set-up figure.
        setup_sag,
        /// A set-up figure.
        setup_left_tieback,
        /// A set-up figure.
        setup_right_tieback,
        /// A set-up figure.
        setup_weight,
        /// A remark.
        setup_weight_yields,
        /// A remark.
        setup_no_weight,
        /// A set-up figure.
        setup_better,
        /// A way to see the tension.
        setup_by_weight,
        /// A way to see the tension.
        setup_by_swings,
        /// A remark.
        setup_uncountable,
        /// A remark.
        setup_tells_nothing,
        /// Caption of a table.
        setup_temperatures,
        /// Column.
        setup_temperature,
        /// Column.
        setup_tension,
        /// Column.
        setup_sag_one,
        /// Column.
        setup_movement,
        /// A remark.
        setup_today,
        /// A remark.
        setup_beyond,
        /// A remark.
        setup_slack,
        /// A remark.
        setup_yields,
        /// Caption of a table.
        setup_tiebacks,
        /// Column.
        setup_angle,
        /// Column.
        setup_set_back,
        /// Column.
        setup_length,
        /// Column.
        setup_tension_ratio,
        /// Column.
        setup_compression_ratio,
        /// Said where neither way tells.
        setup_no_reading,
        /// Said of a reading that does not tell.
        setup_read_poor,
        /// Who falls when.
        scenario_as_given,
        /// Who falls when.
        scenario_together,
        /// Why the line is not to be used.
        stop_unknown,
        /// Why the line is not to be used.
        stop_short,
        /// Why the line is not to be used: elsewhere on it something fails.
        stop_anywhere,
        /// No case tried has a footroom to rely on.
        search_unresolved,
    }
}

/// Sentences with numbers in them. Texts come formatted and with their units; workers and spans
/// are counted from 1.
#[derive(Debug)]
pub struct Sentences {
    /// A view is about the falls as given, and the worst is elsewhere: the third line of the answer.
    pub elsewhere: fn(&str) -> String,
    /// Who falls where: who, and the place of one or the middle of several.
    pub anywhere_at: fn(&str, &str, bool) -> String,
    /// Who falls where, distances changed: who, and the place of each.
    pub anywhere_places: fn(&str, &str) -> String,
    /// The first of the crew fall together, so many.
    pub anywhere_first: fn(usize) -> String,
    /// The first of the crew fall one after another: so many, the delay, the last first.
    pub anywhere_first_in_turn: fn(usize, &str, bool) -> String,
    /// The least room that was found, with its word, where the strength decides.
    pub anywhere_room: fn(&str) -> String,
    /// The same elsewhere: who falls where.
    pub anywhere_room_at: fn(&str, &str) -> String,
    /// The least strength that was found, and the required one.
    pub anywhere_strength: fn(&str, &str) -> String,
    /// Where that is, when it is elsewhere.
    pub anywhere_strength_at: fn(&str, &str, &str) -> String,
    /// What was tried: how many, delays up to, the delay's step.
    pub anywhere_tried: fn(u32, &str, &str) -> String,
    /// Some of what was tried had no result: how many, and which is the first.
    pub anywhere_unresolved: fn(u32, &str) -> String,
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
    /// What follows it: by how much, what the corner takes.
    pub corner_takes: fn(&str, &str) -> String,
    /// By how much the undamped line asks for more.
    pub undamped_more: fn(&str) -> String,
    /// One of the crew differs in the run that governs: who, how much later and heavier.
    pub crew_one: fn(&str, &str, &str) -> String,
    /// All of the crew differ in the run that governs: how much later at most, how much heavier.
    pub crew_all: fn(&str, &str) -> String,
    /// All but a worker differ in the run that governs: who does not, how much later, how much heavier.
    pub crew_others: fn(&str, &str, &str) -> String,
    /// What is added for other differences within the crew.
    pub crew_beyond: fn(&str) -> String,
    /// Line tension: greatest, where; least and greatest by damping; energy balance.
    pub tension_range: fn(&str, &str, &str, &str, &str) -> String,
    /// A demand and its limit.
    pub with_limit: fn(&str, &str) -> String,
    /// Band of a force over all runs: whose.
    pub chart_range_of: fn(&str) -> String,
    /// A curve at an instant: which, value.
    pub chart_value: fn(&str, &str) -> String,
    /// A band at an instant: which, least, greatest.
    pub chart_between: fn(&str, &str, &str) -> String,
    /// Column of the lower end of a band.
    pub chart_least: fn(&str) -> String,
    /// Column of the upper end of a band.
    pub chart_greatest: fn(&str) -> String,
    /// A ratio and the required one.
    pub with_required: fn(&str, &str) -> String,
    /// Not evaluated: this many inputs of the form are empty.
    pub inputs_open: fn(usize) -> String,
    /// The weakest part: label of the check, label of the part.
    pub weakest: fn(&str, &str) -> String,
    /// Source of a limit: an input of this name.
    pub source_input: fn(&str) -> String,
    /// Source: a clause, with the words beside its number.
    pub clause: fn(&str) -> String,
    /// Within the tolerance: least, greatest.
    pub setup_within: fn(&str, &str) -> String,
    /// Of the rope to cut: unstretched, for terminations.
    pub setup_cut_note: fn(&str, &str) -> String,
    /// Of the travel: by how much the ends give way.
    pub setup_take_up_note: fn(&str) -> String,
    /// Of a tieback: length, angle, tension at the pretension.
    pub setup_tieback_note: fn(&str, &str, &str) -> String,
    /// Of the hung weight: weight, span, least, greatest movement.
    pub setup_weight_note: fn(&str, usize, &str, &str) -> String,
    /// Error of a reading: off by, error of the tension.
    pub setup_error: fn(&str, &str) -> String,
    /// What brings the error down: what, to which error.
    pub setup_good: fn(&str, &str) -> String,
    /// A set-up figure: time of this many swings.
    pub setup_swings: fn(u32) -> String,
    /// Column of the set-up figures: time of this many swings.
    pub setup_swings_head: fn(u32) -> String,
    /// Of the swings: span, least, greatest time, swing either way.
    pub setup_swings_note: fn(usize, &str, &str, &str) -> String,
    /// A number of swings with their time.
    pub setup_good_swings: fn(u32, &str) -> String,
    /// What to hang for a better reading.
    pub setup_hang: fn(&str) -> String,
    /// How many full swings to count for a better reading.
    pub setup_count: fn(u32) -> String,
    /// Who falls when: one worker.
    pub scenario_one: fn(&str) -> String,
    /// Who falls when: delay, last of the case first.
    pub scenario_in_turn: fn(&str, bool) -> String,
    /// Workers at these places.
    pub search_at: fn(&str) -> String,
    /// How far a search is: steps made, of how many.
    pub search_progress: fn(u32, u32) -> String,
    /// Worst found: what, its footroom, that of the case as given.
    pub search_found: fn(&str, &str, &str) -> String,
    /// Worst found where the case as given has none to rely on: what, its footroom.
    pub search_found_only: fn(&str, &str) -> String,
    /// Nothing worse was found than the case as given: its footroom.
    pub search_none: fn(&str) -> String,
    /// How many have no footroom to rely on, and the first of them.
    pub search_open: fn(u32, &str) -> String,
    /// Greatest delay that was tried.
    pub search_delays: fn(&str) -> String,
    /// Greatest tension met: tension, where.
    pub search_tension: fn(&str, &str) -> String,
    /// Number of cases tried.
    pub search_tried: fn(u32) -> String,
    /// Least distance between workers.
    pub search_spacing: fn(&str) -> String,
    /// Why the line is not to be used: how many checks are not met.
    pub stop_not_met: fn(usize) -> String,
    /// A strength that is not enough: ratio, required ratio, part.
    pub of_required: fn(&str, &str, &str) -> String,
    /// A value over its limit: value, limit, what.
    pub over_limit: fn(&str, &str, &str) -> String,
    /// A value under its limit: value, limit, what.
    pub under_limit: fn(&str, &str, &str) -> String,
    /// How many checks are not met, how many not evaluated, how many of these for want of a part's
    /// strength.
    pub checks_tally: fn(usize, usize, usize) -> String,
}
