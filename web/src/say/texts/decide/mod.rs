//! What the views that help to decide say: fit, why, layouts, charts of what an input does, learning.

mod en;
mod es;

use super::text_group;

text_group! {
    /// What these views say in one language.
    Texts {
        /// Sentences with numbers in them.
        say: Sentences,
    }
    page {
        /// Name of the view of what fits.
        view_fit,
        /// Under the map.
        fit_note,
        /// While only two corners are computed.
        fit_rough,
        /// When all runs are computed.
        fit_whole,
        /// While nothing is shown yet.
        fit_running,
        /// The worker could not compute.
        fit_failed,
        /// The case has no result.
        fit_nothing,
        /// Command: print the map.
        fit_print,
        /// Heading of the assumptions.
        fit_assumed,
        /// Short mark in a cell: a part is too weak.
        mark_weak,
        /// Short mark in a cell: an absorber is used up.
        mark_used_up,
        /// Short mark in a cell: the present case.
        mark_present,
        /// Said after a cell: a click loads it.
        map_load,
        /// Heading of the inverse questions.
        ask_heading,
        /// Under the inverse questions.
        ask_note,
        /// Heading of the suggestions.
        suggest_heading,
        /// Command: apply a suggestion.
        suggest_use,
        /// Heading of the ratings that are to be entered.
        suggest_ratings,
        /// Name of the view of why.
        view_why,
        /// Under the bars.
        why_note,
        /// Label of the choice.
        why_choice,
        /// A choice.
        why_by_users,
        /// A choice.
        why_by_kept,
        /// Command: keep the present case.
        why_keep,
        /// The case is kept.
        why_kept_now,
        /// No case is kept.
        why_no_kept,
        /// The case has one user.
        why_one_user,
        /// The cases are equal.
        why_same_case,
        /// Command: load the kept case.
        why_load_kept,
        /// Heading over the steps from one layout to another.
        compare_why,
        /// Choice: the layout to start from.
        compare_from,
        /// Choice: the layout to come to.
        compare_to,
        /// The browser keeps nothing.
        why_not_stored,
        /// Name of the view of layouts side by side.
        view_compare,
        /// Under the layouts.
        compare_note,
        /// Label of the name.
        compare_name,
        /// Command: add the present case.
        compare_add,
        /// Command: take a layout away.
        compare_remove,
        /// Command: load a layout.
        compare_load,
        /// Command: copy a link to the set.
        compare_link,
        /// Command: save the set as a file.
        compare_file,
        /// Command: open a file with a set.
        compare_take,
        /// Command: save as CSV.
        compare_csv,
        /// Command: save as a picture.
        compare_png,
        /// Nothing to compare yet.
        compare_empty,
        /// There is no room.
        compare_full,
        /// Storage is full or blocked.
        compare_not_stored,
        /// The set came with a link.
        compare_from_link,
        /// Command: back to the own set.
        compare_own,
        /// Another tab's layouts have no room beside these.
        compare_aside,
        /// The kept set cannot be read.
        compare_kept_damaged,
        /// The link is on the clipboard.
        compare_copied,
        /// There is no clipboard.
        compare_by_hand,
        /// Name of the view of charts of what an input does.
        view_sweeps,
        /// Under the charts.
        sweeps_note,
        /// Label of the read-out of a chart.
        sweeps_read,
        /// What the questions are about.
        learn_note,
        /// Mark of an answered question.
        learn_done,
    }
    inner {
        /// What one looks at who was sent layouts.
        compare_looks,
        /// Over the row heads.
        map_corner,
        /// The cell of the present case.
        map_present,
        /// A run did not end.
        stop_not_finished,
        /// An absorber is used up.
        stop_absorber,
        /// The in-line absorber is used up.
        stop_inline,
        /// Too steep.
        stop_steep,
        /// Energies that do not add up.
        stop_ledger,
        /// A swing below the stack.
        stop_swing,
        /// Beyond breaking.
        stop_breaks,
        /// A question.
        ask_span,
        /// A question.
        ask_users,
        /// A question.
        ask_lanyard,
        /// A question.
        ask_post,
        /// A question.
        ask_drop,
        /// A question.
        ask_pretension,
        /// The case, before its value.
        ask_this,
        /// The case with all its spans or lanyards alike, before their value.
        ask_alike,
        /// The case fits.
        suggest_fits,
        /// Said where a limit that the case breaks stops no change.
        suggest_excused,
        /// Head of a column.
        suggest_change,
        /// Head of a column.
        suggest_here,
        /// Head of a column.
        suggest_anywhere,
        /// Head of a column.
        suggest_strength,
        /// No strength is known.
        suggest_no_strength,
        /// Between two changes.
        suggest_and,
        /// How they are ranked.
        suggest_rank,
        /// Name of the kept case.
        why_kept,
        /// Name of the present case.
        why_present,
        /// Name of a row: the gear, unstretched.
        why_gear,
        /// No shown length changed.
        why_nothing,
        /// Caption of the table.
        why_table,
        /// A cause.
        cause_users,
        /// A cause.
        cause_timing,
        /// A cause.
        cause_places,
        /// A cause.
        cause_spans,
        /// A cause.
        cause_pretension,
        /// A cause.
        cause_rope,
        /// A cause.
        cause_ends,
        /// A cause.
        cause_inline,
        /// A cause.
        cause_lanyard,
        /// A cause.
        cause_absorber,
        /// A cause.
        cause_mass,
        /// A cause.
        cause_height,
        /// A cause.
        cause_body,
        /// A cause.
        cause_margin,
        /// A cause.
        cause_drop,
        /// A cause.
        cause_below,
        /// A cause.
        cause_others,
        /// A cause.
        cause_together,
        /// A cause.
        cause_differences,
        /// Caption of the figures.
        compare_table,
        /// A figure.
        compare_users,
        /// A figure.
        compare_posts,
        /// A figure.
        compare_tiebacks,
        /// A figure.
        compare_rope,
        /// A figure.
        compare_absorbers,
        /// A figure.
        compare_weakest,
        /// Row of the comparison: least room wherever the crew may be.
        compare_anywhere_room,
        /// Row of the comparison: the weakest part wherever the crew may be.
        compare_anywhere_strength,
        /// The same as a number.
        compare_anywhere_ratio,
        /// A figure.
        compare_open,
        /// Head of the CSV.
        compare_figure,
        /// Head of the CSV.
        compare_unit,
        /// A row of the CSV: why there is no footroom.
        compare_unknown,
        /// A figure of the CSV.
        compare_end_posts,
        /// A figure of the CSV.
        compare_personal,
        /// A figure of the CSV.
        compare_inline,
        /// A figure of the CSV.
        compare_ratio,
        /// A figure of the CSV.
        compare_required,
        /// Another result than when the set was written.
        compare_changed,
        /// The set is too great.
        compare_too_many,
        /// Head of the names in the table.
        why_length,
        /// Title of a chart.
        sweep_users,
        /// Title of a chart.
        sweep_span,
        /// Title of a chart.
        sweep_pretension,
        /// Title of a chart.
        sweep_delay,
        /// Title of a chart.
        sweep_drop,
        /// Head of a column.
        sweep_value,
        /// Name of an axis.
        sweep_axis_span,
        /// Name of an axis.
        sweep_axis_delay,
        /// Name of an axis.
        sweep_axis_drop,
        /// A question.
        learn_users,
        /// A question.
        learn_users_ask,
        /// A reason.
        learn_users_why,
        /// A question.
        learn_span,
        /// A question.
        learn_span_ask,
        /// A reason.
        learn_span_why,
        /// A question.
        learn_slack,
        /// A question.
        learn_slack_ask,
        /// A reason.
        learn_slack_why,
        /// A question.
        learn_mass,
        /// A question.
        learn_mass_ask,
        /// A reason.
        learn_mass_why,
        /// A question.
        learn_gear,
        /// A question.
        learn_gear_ask,
        /// A reason.
        learn_gear_why,
        /// Only the shown digit moves.
        why_rounding,
        /// Mixed cases on the way are beyond the calculation.
        why_doubtful,
    }
}

/// Sentences with numbers in them. Texts come formatted and with their units; workers and spans
/// are counted from 1.
#[derive(Debug)]
pub struct Sentences {
    /// A number of users.
    pub users: fn(usize) -> String,
    /// A number of intermediate posts.
    pub posts: fn(usize) -> String,
    /// Head of a row: posts, length of each span.
    pub map_row: fn(usize, &str) -> String,
    /// Caption of the map: title, length of the line.
    pub map_caption: fn(&str, &str) -> String,
    /// Which cell: users, intermediate posts.
    pub map_cell: fn(usize, usize) -> String,
    /// Why the cell of the present case is not its answer: places in the map, what the cell says, places
    /// of the case, what the answer says.
    pub map_why: fn(&str, &str, &str, &str) -> String,
    /// The weakest part: name, ratio, required ratio.
    pub weakest: fn(&str, &str, &str) -> String,
    /// The room is short: worker, by how much.
    pub stop_footroom: fn(&str, &str) -> String,
    /// A part is too weak.
    pub stop_part: fn(&str) -> String,
    /// A limit is not met.
    pub stop_limit: fn(&str) -> String,
    /// The present value fits: this case or all alike, value, from, to.
    pub ask_here: fn(&str, &str, &str, &str) -> String,
    /// The present value does not fit: this case or all alike, value, what stops it.
    pub ask_not_here: fn(&str, &str, &str) -> String,
    /// An interval.
    pub ask_from_to: fn(&str, &str) -> String,
    /// Nothing fits: least, greatest value tried.
    pub ask_none: fn(&str, &str) -> String,
    /// What stops the next value.
    pub ask_stopped: fn(&str, &str) -> String,
    /// The range of the input ends there.
    pub ask_end: fn(&str) -> String,
    /// The nearest value that fits: below, value.
    pub ask_nearest: fn(bool, &str) -> String,
    /// No value on one side fits: below.
    pub ask_no_nearer: fn(bool) -> String,
    /// A range that fits.
    pub ask_range: fn(&str, &str) -> String,
    /// A range beyond a gap: from, to, gap from, gap to, what stops it there.
    pub ask_beyond: fn(&str, &str, &str, &str, &str) -> String,
    /// In which steps it was tried.
    pub ask_step: fn(&str) -> String,
    /// Command: load the case of this answer.
    pub load: fn(&str) -> String,
    /// How many parts were not counted for want of a strength.
    pub suggest_open: fn(usize) -> String,
    /// The footroom of the case as it is.
    pub suggest_room: fn(&str) -> String,
    /// What stops the case.
    pub suggest_stopped: fn(&str) -> String,
    /// What stops the case where the crew does not stand.
    pub suggest_stopped_anywhere: fn(&str) -> String,
    /// How far the search is: steps made, all.
    pub suggest_step: fn(usize, usize) -> String,
    /// Said after several changes: how many.
    pub suggest_together: fn(usize) -> String,
    /// A ratio, the required one.
    pub suggest_ratio: fn(&str, &str) -> String,
    /// Which part is the weakest.
    pub suggest_weakest: fn(&str) -> String,
    /// How many cases were calculated.
    pub suggest_tried: fn(u32) -> String,
    /// No change helps: cases calculated, pairs among them.
    pub suggest_none: fn(u32, u32) -> String,
    /// A rating to be entered: label, what would be needed.
    pub rating_enter: fn(&str, &str) -> String,
    /// A rating to be entered.
    pub rating_enter_unknown: fn(&str) -> String,
    /// A post to be described.
    pub rating_describe: fn(&str) -> String,
    /// A change: posts, in which span.
    pub change_posts: fn(usize, usize) -> String,
    /// A change: users left.
    pub change_users: fn(usize) -> String,
    /// A change: length.
    pub change_lanyard: fn(&str) -> String,
    /// A change: more, new, old pretension.
    pub change_pretension: fn(bool, &str, &str) -> String,
    /// A change: new, old height.
    pub change_height: fn(&str, &str) -> String,
    /// A change: rope.
    pub change_rope: fn(&str) -> String,
    /// A change: thing, new, old height.
    pub change_lower: fn(&str, &str, &str) -> String,
    /// A change: thing taken away.
    pub change_remove: fn(&str) -> String,
    /// A change: average force.
    pub change_absorber: fn(&str) -> String,
    /// A change: part, strength.
    pub change_part: fn(&str, &str) -> String,
    /// A change: breaking strength, what the terminations then keep, per cent.
    pub change_breaking: fn(&str, &str, &str) -> String,
    /// A change: per cent that the terminations keep, how much that is.
    pub change_efficiency: fn(&str, &str) -> String,
    /// A change: distance along the line.
    pub change_under: fn(&str) -> String,
    /// A change: distance from a post.
    pub change_away: fn(&str) -> String,
    /// A change: duration.
    pub change_longer: fn(&str) -> String,
    /// A step: one more user.
    pub why_user: fn(usize) -> String,
    /// From and to: users, corner.
    pub why_from_users: fn(&str, &str, &str) -> String,
    /// From the kept case: corner.
    pub why_from_kept: fn(&str) -> String,
    /// From one layout to another: both names, corner.
    pub why_from_layouts: fn(&str, &str, &str) -> String,
    /// No footroom at an end of the way: which, why.
    pub why_unknown: fn(&str, &str) -> String,
    /// Many spans: number, whole length.
    pub why_spans: fn(usize, &str) -> String,
    /// A cause with its values.
    pub why_values: fn(&str, &str, &str) -> String,
    /// Under its name, a step that takes: how much, changes.
    pub why_takes: fn(&str, &str) -> String,
    /// Under its name, a step that gives: how much, changes.
    pub why_gives: fn(&str, &str) -> String,
    /// Under its name, a step that changes nothing: nothing, changes.
    pub why_same: fn(&str, &str) -> String,
    /// Why two layouts differ, in one sentence, where the second leaves more: the second, the first, how
    /// much, its first cause, how much that gives.
    pub why_more: fn(&str, &str, &str, &str, &str) -> String,
    /// The same where it leaves less.
    pub why_less: fn(&str, &str, &str, &str, &str) -> String,
    /// The same where they leave as much: the second, the first.
    pub why_alike: fn(&str, &str) -> String,
    /// Over layouts that were sent: how many, of which job; it may be empty.
    pub compare_sent: fn(usize, &str) -> String,
    /// Which of them the answer at the top is of; `None`: of none.
    pub compare_above: fn(Option<&str>) -> String,
    /// A drawing in words: name, users, posts, footroom.
    pub compare_words: fn(&str, &str, &str, &str) -> String,
    /// Posts: end posts, intermediate ones.
    pub compare_posts: fn(usize, usize) -> String,
    /// Absorbers: personal, in the line.
    pub compare_absorbers: fn(usize, usize) -> String,
    /// A case of the set cannot be used.
    pub compare_faulty: fn(usize) -> String,
    /// The link is too long: its characters, what addresses hold.
    pub compare_too_long: fn(&str, &str) -> String,
    /// A point: value, footroom.
    pub sweep_point: fn(&str, &str) -> String,
    /// Said of the point of the present case.
    pub sweep_present: fn(&str) -> String,
    /// Name of the value axis: unit.
    pub sweep_axis: fn(&str) -> String,
    /// A question with what was so before: question, depth of the feet below the line, footroom.
    pub learn_question: fn(&str, &str, &str) -> String,
    /// The footroom before the change and after it.
    pub learn_rooms: fn(&str, &str) -> String,
}
