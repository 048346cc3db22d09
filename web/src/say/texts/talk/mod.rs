//! What the talk says: its commands, its steps, and the notes of who gives it.

mod en;
mod es;

use super::text_group;

text_group! {
    /// What the talk says in one language.
    Texts {
        /// Sentences with numbers in them.
        say: Sentences,
    }
    page {
        /// Command in the head of the page.
        talk,
        /// Heading of the list of steps.
        talk_heading,
        /// Under the heading.
        talk_intro,
        /// Command: begin.
        talk_start,
        /// Command: the script as the page makes it.
        talk_reset,
        /// Name of the list.
        talk_steps,
        /// A check box: the step is shown.
        talk_on,
        /// A field: the sentence.
        talk_sentence,
        /// Command: bring a step forward.
        talk_earlier,
        /// Command: bring a step back.
        talk_later,
        /// Beside a sentence of the leader's own, in the list.
        talk_edited,
        /// Nothing is left to show.
        talk_empty,
        /// There is no result to talk about.
        talk_no_result,
        /// While the list is made.
        talk_making,
        /// Name of the screen.
        talk_screen,
        /// Command.
        talk_back,
        /// Command.
        talk_next,
        /// Command: play the fall.
        talk_play,
        /// Command: hold it.
        talk_hold,
        /// Command: darken the screen.
        talk_dark,
        /// Command on the dark screen.
        talk_light,
        /// Command: the notes.
        talk_notes,
        /// Command: end.
        talk_end,
        /// Name of the clock.
        talk_clock,
        /// Command: one user more.
        talk_more,
        /// Command: one user fewer.
        talk_fewer,
        /// Command: the crew a step to the left.
        talk_left,
        /// Command: the crew a step to the right.
        talk_right,
        /// Command: the planned crew.
        talk_planned,
        /// Name of those commands.
        talk_try,
        /// Where one of them goes no further.
        talk_no_further,
        /// The keys.
        talk_keys,
        /// The plan of a link could not be read; before the reason.
        talk_link_fault,
        /// Heading of the rows of footroom.
        talk_rows,
        /// Name of the handout.
        handout,
        /// What it is.
        handout_note,
        /// Name of the choice of languages.
        handout_languages,
        /// In the page's language.
        handout_one,
        /// In both.
        handout_both,
        /// Command.
        handout_print,
        /// Printed where its answers are still being made.
        handout_waits,
        /// Name of the film.
        film,
        /// What it is.
        film_note,
        /// Command: record it.
        film_make,
        /// Command: stop that.
        film_stop,
        /// While it is recorded.
        film_making,
        /// It is recorded.
        film_done,
        /// The browser records none.
        film_none,
        /// The recording failed.
        film_failed,
        /// Name of the drawing.
        film_frame,
    }
    inner {
        /// Beside a sentence of the leader's own, on the screen.
        edited,
        /// Under the list, when a sentence is the leader's own.
        edited_note,
        /// The cautions in a line.
        caution,
        /// What the number of the line at rest is.
        word_sag,
        /// What the number of the absorber's step is.
        word_force,
        /// Last of what is not met: the worst place is not known.
        not_searched,
        /// Short name of a length in the drawing.
        part_line,
        /// Short name of a length in the drawing.
        part_lanyard,
        /// Short name of a length in the drawing.
        part_absorber,
        /// Short name of a length in the drawing.
        part_allowance,
        /// Short name of a length in the drawing.
        part_harness,
        /// Short name of a length in the drawing.
        part_body,
        /// Short name of a length in the drawing.
        part_tolerance,
        /// Short name of a length in the drawing.
        part_margin,
        /// What the code leads to.
        code,
        /// As deep as one alone.
        same_as_one,
        /// Title of a step.
        title_rest,
        /// Title of a step.
        title_one,
        /// Title of a step.
        title_two,
        /// Title of a step.
        title_used_up,
        /// Title of a step.
        title_post,
        /// Title of a step.
        title_today,
        /// Title of a step with another crew than planned.
        title_tried,
        /// Title of the last step.
        title_code,
        /// For the leader.
        note_code,
        /// For the leader.
        note_rest,
        /// For the leader.
        note_one,
        /// For the leader.
        note_two,
        /// For the leader.
        note_all,
        /// For the leader.
        note_used_up,
        /// For the leader.
        note_post,
        /// For the leader.
        note_today,
    }
}

/// Sentences with numbers in them. Texts come formatted and with their units; workers and spans
/// are counted from 1.
#[derive(Debug)]
pub struct Sentences {
    /// Title of the step in which all of this number fall.
    pub title_all: fn(usize) -> String,
    /// A command or field and the step it is about.
    pub of_step: fn(&str, &str) -> String,
    /// Place in the talk: which, of how many.
    pub place: fn(usize, usize) -> String,
    /// The job, said to be invented.
    pub invented: fn(&str) -> String,
    /// The line at rest: sag, pretension.
    pub rest: fn(&str, &str) -> String,
    /// One falls: depth of the soles below the line, footroom in words.
    pub one: fn(&str, &str) -> String,
    /// Several fall: title, compared with one, footroom in words.
    pub several: fn(&str, &str, &str) -> String,
    /// A worker hits what is below.
    pub hits: fn(&str) -> String,
    /// A step in which somebody hits what is below: its title, who hits, the footroom.
    pub hit: fn(&str, &str, &str) -> String,
    /// Deeper than one alone: by how much.
    pub deeper_than_one: fn(&str) -> String,
    /// Less deep than one alone: by how much.
    pub higher_than_one: fn(&str) -> String,
    /// The absorber is used up as given: worker, force.
    pub used_up: fn(usize, &str) -> String,
    /// The absorber is used up under a greater mass: mass, whether more than one falls, force.
    pub used_up_at: fn(&str, bool, &str) -> String,
    /// One more post: span, footroom in words.
    pub post: fn(usize, &str) -> String,
    /// The case as given: footroom in words, worker, margin.
    pub today: fn(&str, &str, &str) -> String,
    /// The case with another crew: footroom in words, worker, margin.
    pub tried: fn(&str, &str, &str) -> String,
    /// What is tried: users, users planned.
    pub live_users: fn(usize, usize) -> String,
    /// Where those stood who have left; how many.
    pub live_without: fn(&str, usize) -> String,
    /// How far the crew was moved; whether to the right.
    pub live_moved: fn(&str, bool) -> String,
    /// The row of the planned crew: users.
    pub row_planned: fn(usize) -> String,
}
