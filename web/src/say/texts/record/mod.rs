//! What the record says: sheets, inspection, log, rescue plan, files, the line as it is found.

mod en;
mod es;

use super::text_group;

/// Number of parts that are inspected.
pub const PARTS: usize = 11;

/// Number of points that are looked at.
pub const POINTS: usize = 33;

/// Number of questions that a rescue plan answers.
pub const QUESTIONS: usize = 6;

/// Number of topics of the toolbox talk beside the answer.
pub const TOPICS: usize = 5;

text_group! {
    /// What the record says in one language.
    Texts {
        /// Sentences with numbers in them.
        say: Sentences,
        /// Names of the parts, in the order of the list of inspection points.
        parts: [&'static str; PARTS],
        /// The points, in the order of that list.
        points: [&'static str; POINTS],
        /// What a rescue plan answers.
        rescue_questions: [&'static str; QUESTIONS],
        /// What is said at the toolbox talk.
        talk_topics: [&'static str; TOPICS],
    }
    page {
        /// Name of the view of the record.
        view_record,
        /// Above the record.
        record_note,
        /// Label of the choice of sheet.
        record_sheet,
        /// A sheet.
        sheet_record,
        /// A sheet.
        sheet_tag,
        /// A sheet.
        sheet_sign_in,
        /// Heading of the choice of further sheets.
        further_heading,
        /// Beside that choice.
        further_note,
        /// Command: all of them.
        further_all,
        /// Command: none of them.
        further_none,
        /// A further sheet.
        further_inputs,
        /// A further sheet.
        further_set_up,
        /// A further sheet.
        further_inspection,
        /// A further sheet.
        further_log,
        /// A further sheet.
        further_rescue,
        /// Command.
        print_record,
        /// Command.
        print_tag,
        /// Command.
        print_sign_in,
        /// Name of the preview.
        record_preview,
        /// There is nothing to record.
        record_none,
        /// Heading of the inspection.
        inspection_open,
        /// Above the inspection.
        inspection_help,
        /// What was found.
        result_pass,
        /// What was found.
        result_fail,
        /// What was found.
        result_none,
        /// Label of a note.
        note_label,
        /// Command.
        inspection_clear,
        /// Label of a day.
        date_label,
        /// Label of a name.
        name_label,
        /// Heading of the log.
        log_open,
        /// Above the log.
        log_help,
        /// Command: take an entry out.
        log_remove,
        /// There is no entry.
        log_empty,
        /// Heading of the files.
        files_open,
        /// Above the files.
        files_help,
        /// Command.
        file_save,
        /// Command.
        file_open,
        /// Command.
        file_csv,
        /// Command.
        file_svg,
        /// Command.
        file_png,
        /// Command.
        file_site,
        /// Said of a case that was opened.
        file_taken,
        /// Said of a log that was opened.
        file_site_taken,
        /// Said of a log for which there is no room.
        file_site_full,
        /// Label of a text that is kept.
        file_text,
        /// No picture could be made.
        file_png_failed,
        /// Nothing can be kept on the device.
        storage_failed,
        /// A choice, a tally or what was begun cannot be kept on the device.
        storage_choice,
        /// What was kept cannot be read.
        storage_damaged,
        /// Above the line as it is found.
        found_help,
        /// Label.
        found_temperature,
        /// Label.
        found_height,
        /// Label.
        found_depth,
        /// Command.
        log_enter,
        /// Said of an entry that was made.
        log_entered,
        /// Said of an entry that was not made.
        log_full,
        /// Name of the choice of how the tension is read.
        site_by,
        /// A way to read the tension.
        site_by_weight,
        /// A way to read the tension.
        site_by_swings,
        /// Command beside a temperature: change its sign.
        found_below_zero,
        /// Heading of what else may be measured.
        found_also,
        /// Heading of the last entries.
        log_last,
        /// Heading of an entry to be made.
        log_new,
        /// Command: go to the next point that was not looked at.
        inspection_next,
        /// Heading of the list of lines.
        lines_open,
        /// Above the list of lines.
        lines_help,
        /// Command: keep the line on the page.
        lines_keep,
        /// Command: keep it in place of another case of its name.
        lines_instead,
        /// Command: keep it beside another case of its name.
        lines_beside,
        /// Before these commands.
        lines_other,
        /// Command: open a line.
        lines_load,
        /// Command: take a line from the list.
        lines_remove,
        /// Said of a line that was taken from the list.
        lines_removed,
        /// Command: save all lines.
        lines_save,
        /// Said of the line that is on the page.
        lines_shown,
        /// There is no room for a line.
        lines_full,
        /// The list that was kept cannot be read.
        lines_damaged,
        /// Said when all lines were read today.
        lines_all_read,
        /// Heading of the rescue view.
        rescue_open,
    }
    inner {
        /// Stands for the name of a line that has none.
        lines_unnamed,
        /// Of a line without a reading.
        lines_not_read,
        /// What is open.
        lines_reading,
        /// Of a line on which nothing is open.
        lines_done,
        /// In place of a verdict.
        found_nothing,
        /// The verdict where a field cannot be used.
        found_faulty,
        /// After a verdict.
        found_until,
        /// Heading of what failed.
        do_not_use,
        /// On paper: the answer is of the last valid inputs.
        paper_stale,
        /// Before what failed.
        do_not_use_why,
        /// Title of the record.
        record_title,
        /// Title of the one page.
        tag_title,
        /// Title of the sign-in sheet.
        sign_in_title,
        /// Caption.
        drawing_heading,
        /// Under the drawing.
        drawing_note,
        /// Column.
        col_length,
        /// Column.
        col_value,
        /// Column.
        col_input,
        /// Column.
        col_origin,
        /// Column.
        col_part,
        /// Column.
        col_point,
        /// Column.
        col_source,
        /// Column.
        col_result,
        /// Column.
        col_note,
        /// Column.
        col_date,
        /// Column.
        col_name,
        /// Column.
        col_temperature,
        /// Column.
        col_reading,
        /// Column.
        col_tension,
        /// Column.
        col_compared,
        /// Under the inputs.
        inputs_note,
        /// Where a value comes from.
        origin_entered,
        /// Where a value comes from.
        origin_site,
        /// Where a value comes from.
        origin_not_given,
        /// By whose word a default stands.
        origin_practice,
        /// By whose word a default stands.
        origin_catalogue,
        /// By whose word a default stands.
        origin_published,
        /// A choice of this page's.
        origin_chosen,
        /// By whose word a default stands.
        origin_maker,
        /// By whose word a default stands.
        origin_method,
        /// Origin of a point.
        practice_no_source,
        /// Heading.
        inspection_heading,
        /// Under the heading.
        inspection_note,
        /// To be ticked by hand.
        to_tick,
        /// Heading.
        log_heading,
        /// Under the heading.
        log_note,
        /// An entry without a day.
        log_no_date,
        /// How a tension compares.
        compared_within,
        /// How a tension compares.
        compared_below,
        /// How a tension compares.
        compared_above,
        /// How a tension compares.
        compared_not_told,
        /// An entry without a reading.
        compared_none,
        /// Within the tolerance, by a reading that is not precise enough alone.
        compared_vague,
        /// On a line's card: some check is not met.
        lines_not_met,
        /// Heading.
        rescue_heading,
        /// Under the heading.
        rescue_note,
        /// Caution. OSHA Safety and Health Information Bulletin SHIB 03-24-2004, "Suspension
        /// Trauma/Orthostatic Intolerance": title, number and that it is advisory, no regulation,
        /// re-read in an archived copy (University of North Texas, 2008); that unconsciousness and then
        /// death can come in less than 30 minutes only as others quote it, so its wording from memory.
        rescue_suspension,
        /// Column.
        rescue_worker,
        /// Column.
        rescue_place,
        /// Column.
        rescue_mass,
        /// Column.
        rescue_below_standing,
        /// Column.
        rescue_soles,
        /// Instead of a hanging height that is not above zero.
        rescue_at_lower_level,
        /// Said in the talk instead of such a height.
        talk_at_lower_level,
        /// Heading.
        sign_heading,
        /// A line to sign.
        sign_planned,
        /// A line to sign.
        sign_checked,
        /// A line to sign.
        sign_put_up,
        /// A line to sign.
        sign_site,
        /// Heading.
        code_heading,
        /// Beside the code.
        code_note,
        /// Beside the code on the tag.
        code_note_tag,
        /// In place of the code.
        code_too_long,
        /// Heading.
        holds_heading,
        /// What it holds for.
        holds_users,
        /// What it holds for.
        holds_places,
        /// Heading.
        tag_stop_heading,
        /// A sentence.
        tag_stop,
        /// A line to write upon.
        tag_put_up,
        /// A line to write upon.
        tag_next,
        /// A line to write upon.
        tag_call,
        /// Heading.
        talk_heading,
        /// A line to write upon.
        talk_date,
        /// A line to write upon.
        talk_place,
        /// A line to write upon.
        talk_by,
        /// Heading.
        talk_names,
        /// Under the heading.
        talk_signing,
        /// Column.
        talk_trade,
        /// Column.
        talk_signature,
        /// Caption.
        found_heading,
        /// Column.
        found_planned,
        /// Column.
        found_found,
        /// A row.
        found_tension,
        /// Said of a reading.
        found_not_told,
        /// Why the line is not to be used.
        found_outside,
        /// Said of a reading that several tensions fit.
        found_which,
        /// Why a file was refused.
        file_foreign,
        /// After that.
        file_kept,
    }
}

/// Sentences with numbers in them. Texts come formatted and with their units.
#[derive(Debug)]
pub struct Sentences {
    /// Which sheets were printed with the record.
    pub printed_with: fn(&str) -> String,
    /// Which were not.
    pub printed_without: fn(&str) -> String,
    /// A default, by whose word it stands.
    pub origin_default: fn(&str) -> String,
    /// When and by whom: day, name.
    pub inspected: fn(&str, &str) -> String,
    /// How many points failed, how many are open, of how many.
    pub inspection_tally: fn(usize, usize, usize) -> String,
    /// Points that stay failed, though a tab or a file says otherwise: their texts.
    pub stay_failed: fn(&str) -> String,
    /// A reading: weight, movement.
    pub log_weight: fn(&str, &str) -> String,
    /// A reading: swings, time.
    pub log_swings: fn(u32, &str) -> String,
    /// A tension that was read, and the expected one.
    pub log_tension: fn(&str, &str) -> String,
    /// A temperature out of range: least, greatest.
    pub log_temperature: fn(&str, &str) -> String,
    /// A self-retracting lifeline: its name, its locking distance.
    pub holds_retracting: fn(&str, &str) -> String,
    /// A thing below: height, from, to.
    pub holds_below: fn(&str, &str, &str) -> String,
    /// How high the soles hang: the lowest.
    pub talk_hanging: fn(&str) -> String,
    /// The verdict on a tension: read, expected, at which temperature.
    pub found_is_within: fn(&str, &str, &str) -> String,
    /// The same of a reading that is not precise enough alone.
    pub found_is_vague: fn(&str, &str, &str) -> String,
    /// The same of too little.
    pub found_is_below: fn(&str, &str, &str) -> String,
    /// The same of too much.
    pub found_is_above: fn(&str, &str, &str) -> String,
    /// That an inspection is of another day: day.
    pub inspection_of: fn(&str) -> String,
    /// How many lines there are, on how many something is open.
    pub lines_tally: fn(usize, usize) -> String,
    /// The last reading: day, how it compares.
    pub lines_last: fn(&str, &str) -> String,
    /// Points that are open, of how many.
    pub lines_points: fn(usize, usize) -> String,
    /// What is open: all of it.
    pub lines_open_today: fn(&str) -> String,
    /// How many points failed.
    pub lines_failed: fn(usize) -> String,
    /// Command: go on to a line.
    pub lines_next: fn(&str) -> String,
    /// A line of a file: its number, its name.
    pub lines_line: fn(usize, &str) -> String,
    /// What has become of the lines of a file: how many are new, newer, here already.
    pub lines_taken: fn(usize, usize, usize) -> String,
    /// Which stand beside others of their names.
    pub lines_both: fn(&str) -> String,
    /// A band of tensions: least, greatest.
    pub found_band: fn(&str, &str) -> String,
    /// What fits the reading with its error: one band or several.
    pub found_fits: fn(&str) -> String,
    /// Why a file was refused: its version.
    pub file_version: fn(&str) -> String,
    /// Why a file was refused: most bytes.
    pub file_too_long: fn(usize) -> String,
    /// Why a file was refused: place, reason.
    pub file_content: fn(usize, &str) -> String,
    /// Why the case in a file was refused: input, what is wrong.
    pub file_case: fn(&str, &str) -> String,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::Lang;

    /// The lists beside the fixed texts.
    fn lists(lang: Lang) -> Vec<&'static str> {
        let t = of(lang);
        let mut all: Vec<&str> = t.parts.to_vec();
        all.extend(t.points);
        all.extend(t.rescue_questions);
        all.extend(t.talk_topics);
        all
    }

    #[test]
    fn the_lists_are_translated_and_give_no_permission() {
        for (en, es) in lists(Lang::En).into_iter().zip(lists(Lang::Es)) {
            assert!(!en.trim().is_empty() && !es.trim().is_empty());
            assert_ne!(en, es);
            for text in [en, es] {
                for word in [
                    "safe",
                    "segur",
                    "approved",
                    "aprobad",
                    "permitted",
                    "permitid",
                ] {
                    let mut words = text.split(|c: char| !c.is_alphabetic());
                    assert!(!words.any(|w| w.to_lowercase().starts_with(word)), "{text}");
                }
            }
        }
    }
}
