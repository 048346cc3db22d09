//! The inverse questions in words: how long, how many, how low, what still fits, and what stops it.

use footroom_core::case::Case;
use footroom_core::field::Quantity;
use footroom_core::fit::Limits;
use footroom_core::fit::ask::{Answer, End, Interval, QUESTIONS, Question, ask};
use footroom_core::fit::layout::Places;
use serde::Serialize;

use crate::page::fit::stop;
use crate::say::faults::Voice;
use crate::say::format::{self, Rounding};
use crate::wire::case_json;

/// An answered question.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AnsweredQuestion {
    /// What was asked.
    pub question: String,
    /// The value with its unit, or that there is none.
    pub answer: String,
    /// The value of the present case.
    pub present: String,
    /// What stops it, a sentence each.
    pub reasons: Vec<String>,
    /// The case at that value as text; empty: there is none.
    pub case_text: String,
    /// Name of the command that loads it.
    pub load: String,
}

/// Number of questions.
pub const COUNT: usize = QUESTIONS.len();

/// What a question asks.
pub fn name(voice: Voice, question: Question) -> &'static str {
    let d = voice.decide();
    match question {
        Question::LongestSpan => d.ask_span,
        Question::MostUsers => d.ask_users,
        Question::LongestLanyard => d.ask_lanyard,
        Question::LowestLine => d.ask_post,
        Question::LeastDrop => d.ask_drop,
        Question::Pretension => d.ask_pretension,
    }
}

/// Answers a question of [`QUESTIONS`] by its place; `None`: it does not apply to this case, or the
/// case has faults.
///
/// The crew stays where it stands, and a change may not break a limit that the given case keeps.
pub fn answer(voice: Voice, case: &Case, place: usize) -> Option<AnsweredQuestion> {
    let &question = QUESTIONS.get(place)?;
    let found = ask(case, question, Places::Kept, Limits::KeepMet).ok()??;
    let teller = QuestionWords { voice, case };
    Some(teller.told(&found))
}

struct QuestionWords<'a> {
    voice: Voice,
    case: &'a Case,
}

impl QuestionWords<'_> {
    fn value(&self, question: Question, value: f64, rounding: Rounding) -> String {
        let units = self.voice.units;
        match question {
            Question::MostUsers => (self.voice.decide().say.users)(value as usize),
            Question::Pretension => format::limit_text(
                Quantity::Force,
                units,
                rounded_force(self.voice, value, rounding),
                Rounding::Nearest,
            ),
            _ => format::length_rounded(units, value, rounding),
        }
    }

    fn told(&self, found: &Answer) -> AnsweredQuestion {
        let d = self.voice.decide();
        let question = found.question;
        let mut reasons = Vec::new();
        let answer = match (found.value, &found.interval) {
            (Some(_), Some(interval)) => {
                self.ends(question, interval, &mut reasons);
                let others: Vec<String> = found
                    .intervals
                    .iter()
                    .filter(|i| *i != interval)
                    .map(|i| self.interval(question, i))
                    .collect();
                if !others.is_empty() {
                    reasons.push((d.say.ask_others)(&others.join(", ")));
                }
                match question {
                    Question::Pretension => self.interval(question, interval),
                    Question::LowestLine | Question::LeastDrop => {
                        self.value(question, interval.low.value, Rounding::Up)
                    }
                    _ => self.value(question, interval.high.value, Rounding::Down),
                }
            }
            _ => {
                let stop = found.none.as_ref();
                reasons.extend(
                    stop.map(|s| (d.say.ask_none_because)(&stop::stop(self.voice, self.case, s))),
                );
                (d.say.ask_none)(
                    &self.value(question, found.scanned.0, Rounding::Nearest),
                    &self.value(question, found.scanned.1, Rounding::Nearest),
                )
            }
        };
        let case_text = found
            .value
            .filter(|&v| v != found.present)
            .map(|v| question.case(self.case, v, Places::Kept))
            .and_then(|case| case_json::to_text(&case))
            .unwrap_or_default();
        AnsweredQuestion {
            question: name(self.voice, question).to_owned(),
            answer,
            present: (d.say.ask_present)(&self.value(question, found.present, Rounding::Nearest)),
            reasons,
            case_text,
            load: (d.say.load)(name(self.voice, question)),
        }
    }

    fn interval(&self, question: Question, interval: &Interval) -> String {
        (self.voice.decide().say.ask_from_to)(
            &self.value(question, interval.low.value, Rounding::Up),
            &self.value(question, interval.high.value, Rounding::Down),
        )
    }

    /// What stops the answer at the end, or the two ends, that was asked for.
    fn ends(&self, question: Question, interval: &Interval, reasons: &mut Vec<String>) {
        let d = self.voice.decide();
        let mut end = |end: &End, low: bool| {
            let beyond = if low { Rounding::Down } else { Rounding::Up };
            reasons.push(match (&end.stop, end.outside) {
                (Some(stop), Some(outside)) => {
                    let stop = stop::stop(self.voice, self.case, stop);
                    (d.say.ask_stopped)(&self.value(question, outside, beyond), &stop)
                }
                _ => (d.say.ask_end)(&self.value(question, end.value, Rounding::Nearest)),
            });
        };
        match question {
            Question::Pretension => {
                end(&interval.low, true);
                end(&interval.high, false);
            }
            Question::LowestLine | Question::LeastDrop => end(&interval.low, true),
            _ => end(&interval.high, false),
        }
    }
}

/// A force on the steps that are shown, N.
fn rounded_force(voice: Voice, newtons: f64, rounding: Rounding) -> f64 {
    let step_n = match voice.units {
        format::Units::Metric => 10.0,
        format::Units::Us => format::POUND_FORCE_N,
    };
    format::steps(newtons / step_n, 1, rounding) as f64 * step_n
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::{Lang, Units};
    use footroom_core::demo::demo;
    use footroom_core::fit::Rules;

    const VOICE: Voice = Voice {
        lang: Lang::En,
        units: Units::Metric,
    };

    fn roomy() -> Case {
        let mut case = demo();
        case.motion.duration_s = 1.6;
        case.line.spans_m = vec![6.0; 3];
        case.strengths.required_ratio = 1.0;
        case
    }

    #[test]
    fn every_answer_fits_and_says_what_stops_it() {
        let case = roomy();
        let rules = Rules::new(&case, Limits::KeepMet).expect("no faults");
        for place in 0..COUNT {
            let told = answer(VOICE, &case, place).expect("applies");
            assert!(!told.reasons.is_empty(), "{told:?}");
            if !told.case_text.is_empty() {
                let at = case_json::from_text(&told.case_text).expect("own text");
                assert_eq!(rules.stop(&at), None, "{told:?}");
            }
        }
        assert_eq!(answer(VOICE, &case, COUNT), None);
    }

    #[test]
    fn nothing_that_fits_is_said_plainly_in_every_voice() {
        let mut case = roomy();
        case.strengths.end_anchorage_n = Some(2.0e3);
        case.strengths.required_ratio = 2.0;
        for lang in [Lang::En, Lang::Es] {
            for units in [Units::Metric, Units::Us] {
                let told = answer(Voice { lang, units }, &case, 3).expect("applies");
                let none = if lang == Lang::En { "none" } else { "ninguna" };
                assert!(told.answer.contains(none), "{}", told.answer);
                assert!(told.case_text.is_empty() && !told.reasons.is_empty());
            }
        }
    }

    /// The least drop rounds up, what lies outside it down: neither flatters.
    #[test]
    fn a_least_value_rounds_up() {
        let case = roomy();
        let told = answer(VOICE, &case, 4).expect("applies");
        let at = case_json::from_text(&told.case_text).expect("own text");
        let shown: f64 = told.answer.trim_end_matches(" m").parse().expect("metres");
        assert!(shown >= at.site.beam_top_m - 1e-6 && shown < at.site.beam_top_m + 0.01);
    }
}
