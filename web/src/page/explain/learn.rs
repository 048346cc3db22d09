//! Five questions for a trainee: where the feet stop after one change, and why. The cases are those
//! of the invented demonstration, so that every class sees the same numbers.

use footroom_core::case::{Case, GearKind};
use footroom_core::demo::demo;
use serde::Serialize;

use crate::first::answer::Told;
use crate::page::explain::guess;
use crate::page::explain::talk::script::answered;
use crate::page::explain::why::{self, StepKind};
use crate::page::fit::stop;
use crate::say::faults::Voice;
use crate::say::format;
use crate::wire::case_json;

/// Number of questions.
pub const COUNT: usize = 5;

/// A question with all that is shown of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Lesson {
    /// What is asked, with what was so before the change.
    pub question: String,
    /// The case after the change as text.
    pub case_text: String,
    /// Where the feet stopped before it, m below the line: the mark begins there.
    pub before_m: f64,
    /// Why, in words.
    pub reason: String,
    /// The footroom before the change and after it.
    pub rooms: String,
    /// Why, with the computed numbers, a sentence each.
    pub numbers: Vec<String>,
}

/// The two cases of a question; `None`: there is no such question.
fn cases(lesson: usize) -> Option<(Case, Case)> {
    let mut from = demo();
    from.workers.truncate(1);
    from.workers[0].position_m = 13.5;
    let mut to = from.clone();
    match lesson {
        0 => {
            to = demo();
            to.workers.truncate(2);
            to.workers[0].position_m = 13.5;
            to.workers[1].position_m = 14.5;
        }
        1 => {
            from.line.spans_m = vec![18.0];
            to.line.spans_m = vec![4.5; 4];
            // In the middle of a span in both, where the line gives most.
            from.workers[0].position_m = 11.25;
            to.workers[0].position_m = 11.25;
        }
        2 => {
            from.line.pretension_n = 8.0e3;
            to.line.pretension_n = 1.5e3;
        }
        3 => {
            from.workers[0].mass_kg = 70.0;
            to.workers[0].mass_kg = 130.0;
        }
        4 => to.workers[0].gear.kind = GearKind::SelfRetracting,
        _ => return None,
    }
    Some((from, to))
}

/// The subject of a question by its place; empty: there is none.
pub fn title(voice: Voice, place: usize) -> &'static str {
    let d = voice.decide();
    let titles = [
        d.learn_users,
        d.learn_span,
        d.learn_slack,
        d.learn_mass,
        d.learn_gear,
    ];
    titles.get(place).copied().unwrap_or_default()
}

/// Where the feet stop, m below the line, and the footroom, m; `None`: there is no answer.
fn answer(voice: Voice, case: &Case) -> Option<(f64, f64)> {
    let assessment = answered(case)?;
    let soles_m = guess::soles_m(&Told::of(voice, case, &assessment))?;
    Some((soles_m, assessment.footroom.value))
}

/// A question by its place; `None`: there is none.
pub fn lesson(voice: Voice, place: usize) -> Option<Lesson> {
    let (from, to) = cases(place)?;
    let d = voice.decide();
    let (question, reason) = match place {
        0 => (d.learn_users_ask, d.learn_users_why),
        1 => (d.learn_span_ask, d.learn_span_why),
        2 => (d.learn_slack_ask, d.learn_slack_why),
        3 => (d.learn_mass_ask, d.learn_mass_why),
        _ => (d.learn_gear_ask, d.learn_gear_why),
    };
    let ((before_m, before_room_m), (_, room_m)) = (answer(voice, &from)?, answer(voice, &to)?);
    let [before_room, room] = [before_room_m, room_m].map(|m| stop::footroom(voice, m));
    let depth = format::length(voice.units, before_m);
    let view = why::cases(voice, &from, &to)?;
    Some(Lesson {
        question: (d.say.learn_question)(question, &depth, &before_room),
        case_text: case_json::to_text(&to)?,
        before_m,
        reason: reason.to_owned(),
        rooms: (d.say.learn_rooms)(&before_room, &room),
        numbers: view
            .steps
            .into_iter()
            .filter(|s| s.kind != StepKind::End)
            .map(|s| format!("{}: {}", s.label, s.sentence))
            .collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::beside::is_beside;
    use crate::say::format::Rounding;

    #[test]
    fn every_question_has_an_answer_that_its_reason_fits() {
        for voice in Voice::ALL {
            for place in 0..COUNT {
                let lesson = lesson(voice, place).expect("a question");
                let case = case_json::from_text(&lesson.case_text).expect("own text");
                assert!(case.faults().is_empty() && case.invented);
                // It falls on the page, at once.
                assert!(!is_beside(&case), "{lesson:?}");
                let (after_m, room_m) = answer(voice, &case).expect("an answer");
                // More users, a slacker line and a heavier worker take the feet deeper; short spans
                // and a self-retracting lifeline hold them higher.
                assert_eq!(
                    after_m < lesson.before_m,
                    matches!(place, 1 | 4),
                    "{lesson:?}"
                );
                assert_ne!(after_m, lesson.before_m);
                let before = format::length(voice.units, lesson.before_m);
                assert!(lesson.question.contains(&before), "{}", lesson.question);
                let steps = format::length_steps(voice.units, room_m, Rounding::Down);
                let room = format::length_of_steps(voice.units, steps.abs());
                assert!(lesson.rooms.contains(&room), "{}: {room}", lesson.rooms);
                assert!(!lesson.numbers.is_empty() && lesson.reason.len() > 20);
                assert!(!title(voice, place).is_empty());
            }
            assert_eq!(lesson(voice, COUNT), None);
            assert!(title(voice, COUNT).is_empty());
        }
    }
}
