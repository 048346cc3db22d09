//! Five short questions for a trainee: guess the footroom after one change, let go, and see what it
//! is and why. The cases are those of the invented demonstration, so that every class sees the same
//! numbers.

use footroom_core::case::{Case, GearKind};
use footroom_core::demo::demo;
use footroom_core::fit::{Effort, find};
use serde::Serialize;

use crate::page::explain::why::{self, StepKind};
use crate::page::fit::stop;
use crate::say::faults::Voice;
use crate::say::format::{self, Rounding};
use crate::wire::case_json;

/// Number of questions.
pub const COUNT: usize = 5;

/// A question with all that is shown of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Lesson {
    /// Its subject.
    pub title: String,
    /// What is asked, with the footroom before the change.
    pub question: String,
    /// The case before the change as text.
    pub from_text: String,
    /// The case after it as text.
    pub to_text: String,
    /// Footroom before, in shown steps: where the mark of the guess begins.
    pub from_steps: i32,
    /// Footroom after, in shown steps.
    pub to_steps: i32,
    /// Least guess, in shown steps.
    pub least_steps: i32,
    /// Greatest guess, in shown steps.
    pub most_steps: i32,
    /// Why, in words.
    pub reason: String,
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

fn footroom_m(case: &Case) -> Option<f64> {
    find(case, Effort::Full).ok()?.known_footroom_m()
}

/// A question by its place; `None`: there is none.
pub fn lesson(voice: Voice, place: usize) -> Option<Lesson> {
    let (from, to) = cases(place)?;
    let d = voice.decide();
    let (title, question, reason) = match place {
        0 => (d.learn_users, d.learn_users_ask, d.learn_users_why),
        1 => (d.learn_span, d.learn_span_ask, d.learn_span_why),
        2 => (d.learn_slack, d.learn_slack_ask, d.learn_slack_why),
        3 => (d.learn_mass, d.learn_mass_ask, d.learn_mass_why),
        _ => (d.learn_gear, d.learn_gear_ask, d.learn_gear_why),
    };
    let (before_m, after_m) = (footroom_m(&from)?, footroom_m(&to)?);
    let steps = |m| format::length_steps(voice.units, m, Rounding::Down) as i32;
    let view = why::cases(voice, &from, &to)?;
    // Wide enough that its ends do not give the answer away: the same on both sides of the start.
    let reach = steps(2.0_f64.max((after_m - before_m).abs() + 0.5));
    let from_steps = steps(before_m);
    Some(Lesson {
        title: title.to_owned(),
        question: (d.say.learn_question)(question, &stop::footroom(voice, before_m)),
        from_text: case_json::to_text(&from)?,
        to_text: case_json::to_text(&to)?,
        from_steps,
        to_steps: steps(after_m),
        least_steps: from_steps - reach,
        most_steps: from_steps + reach,
        reason: reason.to_owned(),
        numbers: view
            .steps
            .into_iter()
            .filter(|s| s.kind != StepKind::End)
            .map(|s| format!("{}: {}", s.label, s.sentence))
            .collect(),
    })
}

fn shown(voice: Voice, steps: i32) -> String {
    let metres = f64::from(steps) * format::length_of_step_m(voice.units);
    stop::footroom(voice, metres)
}

/// A guess in words.
pub fn guess(voice: Voice, steps: i32) -> String {
    shown(voice, steps)
}

/// A guess beside what it is.
pub fn result(voice: Voice, guess_steps: i32, to_steps: i32) -> String {
    let d = voice.decide();
    let off = i64::from(guess_steps) - i64::from(to_steps);
    let amount = format::length_of_steps(voice.units, off.abs());
    let (guess, is) = (shown(voice, guess_steps), shown(voice, to_steps));
    match off.signum() {
        0 => (d.say.learn_exact)(&is),
        1 => (d.say.learn_more)(&guess, &is, &amount),
        _ => (d.say.learn_less)(&guess, &is, &amount),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_question_has_an_answer_that_its_reason_fits() {
        for voice in Voice::ALL {
            for place in 0..COUNT {
                let lesson = lesson(voice, place).expect("a question");
                let change = lesson.to_steps - lesson.from_steps;
                // More users, a slacker line and a heavier worker take footroom; short spans and a
                // self-retracting lifeline give some.
                assert_eq!(change > 0, matches!(place, 1 | 4), "{lesson:?}");
                assert_ne!(change, 0);
                assert!((lesson.least_steps..=lesson.most_steps).contains(&lesson.to_steps));
                assert!(!lesson.numbers.is_empty() && lesson.reason.len() > 20);
                for text in [&lesson.from_text, &lesson.to_text] {
                    let case = case_json::from_text(text).expect("own text");
                    assert!(case.faults().is_empty() && case.invented);
                }
            }
            assert_eq!(lesson(voice, COUNT), None);
        }
    }

    #[test]
    fn a_guess_is_set_beside_the_answer() {
        let voice = Voice::ALL[0];
        assert_eq!(guess(voice, -12), "short by 0.12 m");
        let near = result(voice, 30, 12);
        assert!(near.contains("0.30 m") && near.contains("0.12 m"), "{near}");
        assert!(near.contains("0.18 m"), "{near}");
        assert_ne!(result(voice, 12, 12), result(voice, 13, 12));
    }
}
