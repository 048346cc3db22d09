//! English, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    talk: "Talk",
    talk_heading: "Talk to the crew",
    talk_intro: "The steps are made from the case on the page. Leave out, move or reword any of them; the link carries what you changed.",
    talk_start: "Start the talk",
    talk_close: "Back to the page",
    talk_reset: "As the page makes it",
    talk_steps: "Steps of the talk",
    talk_on: "show",
    talk_sentence: "sentence",
    talk_earlier: "move up",
    talk_later: "move down",
    talk_edited: "edited: its numbers are not computed",
    talk_empty: "No step is left to show.",
    talk_no_result: "There is no result to talk about: mend the inputs first.",
    talk_making: "Computing…",
    talk_screen: "Talk on the screen",
    talk_back: "Back",
    talk_next: "Next",
    talk_play: "Let go",
    talk_hold: "Hold",
    talk_dark: "Dark",
    talk_light: "Show the screen again",
    talk_notes: "Notes",
    talk_end: "End",
    talk_clock: "Time since the talk began",
    talk_keys: "Keys: arrows or Page Up and Page Down change the step, Space plays and holds, B darkens the screen, N shows the notes, Escape ends.",
    talk_link_fault: "The case was opened, but not the talk in the link.",
    talk_rows: "Footroom so far",
    edited: "edited, numbers not computed",
    edited_note: "Sentences marked as edited are yours: the numbers in them are not computed and do not follow the case.",
    caution: "A teaching aid. The qualified person decides, under local codes and makers' instructions. Rescue plan in place first.",
    word_sag: "sag at rest",
    word_force: "arrest force",
    same_as_one: "as deep as one alone",
    title_rest: "The line at rest",
    title_one: "One falls",
    title_two: "Two fall",
    title_used_up: "The absorber is used up",
    title_post: "One more post",
    title_today: "Here, today",
    note_rest: "Point out the posts, the tiebacks and the line. Ask: how far down does a person go before the feet stop? Let everybody say a number before you go on.",
    note_one: "Let it play once, then step back and play it again. Name the lengths beside the drawing from the top: line, lanyard, absorber, harness, body, margin.",
    note_two: "Ask first: does a second person on the same line change anything for the first? Then let go.",
    note_all: "All share one line: what one does, the others feel. Ask who is clipped to the same span today.",
    note_used_up: "The absorber tears open to keep the force down. When it is fully open it turns stiff. Check the label: mass range, length, whether it has been opened before.",
    note_post: "A shorter span gives less. Moving or adding a post is the qualified person's decision, not the crew's.",
    note_today: "Go through it: who is on the line, what stands below, who watches it, and how a hanging person is brought down at once.",
    say: Sentences {
        title_all: |n| match n {
            2 => "Both fall".to_owned(),
            3 => "All three fall".to_owned(),
            4 => "All four fall".to_owned(),
            _ => format!("All {n} fall"),
        },
        of_step: |what, step| format!("{step}: {what}"),
        place: |n, of| format!("{n} of {of}"),
        invented: |job| format!("{job} (invented)"),
        rest: |sag, pretension| format!("At rest, pulled to {pretension}, the line sags {sag}."),
        one: |depth, room| format!("One falls: the soles stop {depth} below the line, {room}."),
        several: |who, compared, room| {
            if compared.is_empty() {
                format!("{who}: {room}.")
            } else {
                format!("{who}: {compared}, {room}.")
            }
        },
        deeper_than_one: |more| format!("{more} deeper than one alone"),
        higher_than_one: |less| format!("{less} less deep than one alone"),
        used_up: |worker, force| {
            format!("The absorber of worker {worker} is used up: the force leaps to {force}.")
        },
        used_up_at: |mass, together, force| {
            let who = if together {
                "each, all falling,"
            } else {
                "with tools"
            };
            format!("At {mass} {who} an absorber is used up: the force leaps to {force}.")
        },
        post: |span, room| {
            format!("One more post in span {span}, crew at the worst place: {room}.")
        },
        today: |room, worker, margin| {
            format!("Here, today: {room} under {worker}, margin of {margin} included.")
        },
    },
};
