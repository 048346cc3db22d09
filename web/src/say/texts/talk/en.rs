//! English, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    talk: "Talk",
    talk_heading: "Talk to the crew",
    talk_intro: "The steps come from the case on the page. Leave out, move or reword any of them; the link carries your changes.",
    talk_start: "Start the talk",
    talk_reset: "Reset the steps",
    talk_steps: "Steps of the talk",
    talk_on: "show",
    talk_sentence: "sentence",
    talk_earlier: "move up",
    talk_later: "move down",
    talk_edited: "edited: its numbers are not calculated",
    talk_empty: "No steps left to show.",
    talk_no_result: "No result to talk about: fix the inputs first.",
    talk_making: "Calculating…",
    talk_screen: "Talk on the screen",
    talk_back: "Back",
    talk_next: "Next",
    talk_play: "Start the fall",
    talk_hold: "Pause",
    talk_dark: "Blank screen",
    talk_light: "Show the screen again",
    talk_notes: "Notes",
    talk_end: "End",
    talk_clock: "Time since the talk began",
    talk_more: "One more user",
    talk_fewer: "One user fewer",
    talk_left: "Move the crew left",
    talk_right: "Move the crew right",
    talk_planned: "As planned",
    talk_try: "Try another crew",
    talk_no_further: "No further in that direction.",
    talk_keys: "Keys: arrows or Page Up and Page Down change the step, Space starts and pauses, + and − try one user more or fewer, Shift with an arrow moves the crew, 0 goes back to the plan, B blanks the screen, N shows the notes, Esc ends.",
    talk_link_fault: "The case was opened, but not the talk in the link.",
    talk_rows: "Footroom so far",
    handout: "Handout",
    handout_note: "The talk on one page: a picture and a sentence for each step, and the link as a code to scan. You can print it from any part of Explain.",
    handout_languages: "Languages",
    handout_one: "This language",
    handout_both: "English and Spanish, a page each",
    handout_print: "Print the handout",
    handout_waits: "Still calculating. Print this page again in a moment.",
    film: "Film",
    film_note: "The fall as a video file, with the answer and the cautions in the picture. This browser records it while it plays; nothing is sent.",
    film_make: "Record the film",
    film_stop: "Stop recording",
    film_making: "Recording: keep this page in view.",
    film_done: "The film is recorded: look in your downloads.",
    film_none: "This browser cannot record a film. Use another browser, or save the drop as a picture in On file.",
    film_failed: "The recording failed. Try again, or save the drop as a picture in On file.",
    film_frame: "A frame of the film: the drop with the answer and the cautions under it",
    edited: "edited, numbers not calculated",
    edited_note: "Sentences marked as edited are yours: the numbers in them are not calculated and do not change with the case.",
    caution: "A teaching aid. The qualified person decides, under local codes and manufacturers' instructions. Rescue plan in place first.",
    word_sag: "sag at rest",
    word_force: "arrest force",
    not_searched: "Worst position: not searched for this crew",
    part_line: "line",
    part_lanyard: "lanyard",
    part_absorber: "absorber",
    part_allowance: "allowance",
    part_harness: "harness",
    part_body: "body",
    part_tolerance: "tolerances",
    part_margin: "margin",
    code: "Take it with you: the same line on your phone. Nothing is sent.",
    same_as_one: "as deep as one alone",
    title_rest: "The line at rest",
    title_one: "One falls",
    title_two: "Two fall",
    title_used_up: "The absorber is fully deployed",
    title_post: "One more post",
    title_today: "Here, today",
    title_tried: "With this crew",
    title_code: "On your phone",
    note_code: "Point the camera of a phone at the code. The page opens with this line; it calculates on the phone.",
    note_rest: "Point out the posts, the tiebacks and the line. Ask: how far does a person go down before the feet stop? Let everyone say a number before you go on.",
    note_one: "Play it once, then step back and play it again. Name the lengths beside the drawing from the top: line, lanyard, absorber, harness, body, margin.",
    note_two: "Ask first: does a second person on the same line change anything for the first? Then start the fall.",
    note_all: "All share one line: what one does, the others feel. Ask who is clipped to the same span today.",
    note_used_up: "The absorber tears open to keep the force down. Once it is fully deployed it goes stiff. Check the label: weight range, length, whether it has been deployed before.",
    note_post: "A shorter span deflects less. Moving or adding a post is the qualified person's decision, not the crew's.",
    note_today: "Go through it: who is on the line, what is below, who keeps that area clear, and how a hanging person is brought down right away.",
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
        rest: |sag, pretension| format!("At rest, tensioned to {pretension}, the line sags {sag}."),
        one: |depth, room| {
            format!("One falls: the fall takes {depth} below the line; {room} after the margin.")
        },
        several: |who, compared, room| {
            if compared.is_empty() {
                format!("{who}: {room}.")
            } else {
                format!("{who}: {compared}, {room}.")
            }
        },
        hits: |worker| format!("{worker} hits the lower level"),
        hit: |what, said, room| format!("{what}: {said}, {room}."),
        deeper_than_one: |more| format!("{more} deeper than one alone"),
        higher_than_one: |less| format!("{less} higher than one alone"),
        used_up: |worker, force| {
            format!("Worker {worker}'s absorber is fully deployed: the force jumps to {force}.")
        },
        used_up_at: |mass, together, force| {
            let who = if together {
                "each, all falling,"
            } else {
                "with tools"
            };
            format!("At {mass} {who} an absorber is fully deployed: the force jumps to {force}.")
        },
        post: |span, room| {
            format!("One more post in span {span}, crew at its worst position: {room}.")
        },
        today: |room, worker, margin| {
            format!("Here, today: {room} under {worker}, after a {margin} margin.")
        },
        tried: |room, worker, margin| {
            format!("With this crew: {room} under {worker}, after a {margin} margin.")
        },
        live_users: |users, planned| {
            let users = if users == 1 {
                "1 user".to_owned()
            } else {
                format!("{users} users")
            };
            format!("{users}, {planned} planned")
        },
        live_without: |places, n| {
            let who = if n == 1 { "worker" } else { "workers" };
            format!("without the {who} at {places}")
        },
        live_moved: |by, right| {
            let way = if right { "right" } else { "left" };
            format!("crew {by} {way}")
        },
        row_planned: |users| format!("As planned, {users}"),
    },
};
