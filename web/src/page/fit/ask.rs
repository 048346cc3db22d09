//! The inverse questions in words: how long, how many, how low, what still fits, from the present value
//! outwards, and what stops it.

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
    /// The value of the present case: the range around it that fits, or what stops it.
    pub present: String,
    /// What stops the range at its ends, the gaps, what fits beyond; a sentence each.
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
        let (inner_low, inner_high) = (Rounding::Up, Rounding::Down);
        let answer = match (found.value, &found.here) {
            (Some(_), Some(here)) if question == Question::Pretension => {
                self.interval(question, here)
            }
            (Some(value), _) => {
                let upper = found.intervals.iter().any(|i| i.high.value == value);
                let rounding = if upper { inner_high } else { inner_low };
                self.value(question, value, rounding)
            }
            (None, _) => (d.say.ask_none)(
                &self.value(question, found.scanned.0, Rounding::Nearest),
                &self.value(question, found.scanned.1, Rounding::Nearest),
            ),
        };
        let who = if found.alike { d.ask_this } else { d.ask_alike };
        let value = self.value(question, found.present, Rounding::Nearest);
        let mut reasons = Vec::new();
        let present = match (&found.here, &found.stop) {
            (Some(here), _) => {
                // The side that was asked for comes first.
                for below in [!question.most(), question.most()] {
                    let end = if below { &here.low } else { &here.high };
                    reasons.push(self.end(question, end, below));
                    self.beyond(found, below, &mut reasons);
                }
                if let Some(step) = self.step(question, here) {
                    reasons.push((d.say.ask_step)(&step));
                }
                (d.say.ask_here)(
                    who,
                    &value,
                    &self.value(question, here.low.value, inner_low),
                    &self.value(question, here.high.value, inner_high),
                )
            }
            (None, stop) => {
                for (below, nearest) in [(true, &found.below), (false, &found.above)] {
                    let Some(nearest) = nearest else {
                        if found.value.is_some() {
                            reasons.push((d.say.ask_no_nearer)(below));
                        }
                        continue;
                    };
                    let (end, rounding) = if below {
                        (&nearest.high, inner_high)
                    } else {
                        (&nearest.low, inner_low)
                    };
                    let value = self.value(question, end.value, rounding);
                    reasons.push((d.say.ask_nearest)(below, &value));
                    reasons.push(self.end(question, end, !below));
                    let low = self.value(question, nearest.low.value, inner_low);
                    let high = self.value(question, nearest.high.value, inner_high);
                    if low != high {
                        reasons.push((d.say.ask_range)(&low, &high));
                    }
                    self.beyond(found, below, &mut reasons);
                }
                let stop = stop.as_ref();
                let stop = stop.map_or(String::new(), |s| stop::stop(self.voice, self.case, s));
                (d.say.ask_not_here)(who, &value, &stop)
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
            present,
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

    /// What stops a range at an end.
    fn end(&self, question: Question, end: &End, low: bool) -> String {
        let d = self.voice.decide();
        let beyond = if low { Rounding::Down } else { Rounding::Up };
        match (&end.stop, end.outside) {
            (Some(stop), Some(outside)) => {
                let stop = stop::stop(self.voice, self.case, stop);
                (d.say.ask_stopped)(&self.value(question, outside, beyond), &stop)
            }
            _ => (d.say.ask_end)(&self.value(question, end.value, Rounding::Nearest)),
        }
    }

    /// The ranges on one side that fit again, from the present value outwards: beyond the one around
    /// it, or beyond the nearest one.
    fn beyond(&self, found: &Answer, below: bool, reasons: &mut Vec<String>) {
        let first = match (found.here, below) {
            (Some(here), _) => here,
            (None, true) => match found.below {
                Some(nearest) => nearest,
                None => return,
            },
            (None, false) => match found.above {
                Some(nearest) => nearest,
                None => return,
            },
        };
        let question = found.question;
        let mut ranges: Vec<&Interval> = (found.intervals.iter())
            .filter(|i| {
                if below {
                    i.high.value < first.low.value
                } else {
                    i.low.value > first.high.value
                }
            })
            .collect();
        if below {
            ranges.reverse();
        }
        for range in ranges {
            let gap = if below {
                found.gaps.iter().find(|g| g.low > range.high.value)
            } else {
                found.gaps.iter().rfind(|g| g.high < range.low.value)
            };
            let Some(gap) = gap else { continue };
            let stops: Vec<String> = (gap.stops.iter())
                .map(|s| stop::stop(self.voice, self.case, s))
                .collect();
            reasons.push((self.voice.decide().say.ask_beyond)(
                &self.value(question, range.low.value, Rounding::Up),
                &self.value(question, range.high.value, Rounding::Down),
                &self.value(question, gap.low, Rounding::Nearest),
                &self.value(question, gap.high, Rounding::Nearest),
                &stops.join("; "),
            ));
        }
    }

    /// In which steps a range was tried, where it was not tried whole.
    fn step(&self, question: Question, range: &Interval) -> Option<String> {
        let whole = matches!(question, Question::MostUsers | Question::LeastDrop);
        let shown = !whole && range.step > 0.0;
        shown.then(|| self.value(question, range.step, Rounding::Up))
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
                assert!(told.case_text.is_empty() && told.present.len() > 20);
            }
        }
    }

    /// First the present value: the range around it with what ends it, or what stops it with the
    /// nearest values that fit.
    #[test]
    fn it_is_told_from_the_present_value_outwards() {
        let fits = roomy();
        let mut not = demo();
        not.motion.duration_s = 1.6;
        let rules = |case: &Case| Rules::new(case, Limits::KeepMet).expect("no faults");
        assert_eq!(rules(&fits).stop(&fits), None);
        let stop = rules(&not).stop(&not).expect("too weak");
        for lang in [Lang::En, Lang::Es] {
            for units in [Units::Metric, Units::Us] {
                let voice = Voice { lang, units };
                let d = voice.decide();
                let found = ask(&fits, Question::LongestSpan, Places::Kept, Limits::KeepMet);
                let found = found.expect("no faults").expect("applies");
                let here = found.here.expect("it fits");
                let told = answer(voice, &fits, 0).expect("applies");
                let high = format::length_rounded(units, here.high.value, Rounding::Down);
                assert_eq!(told.answer, high);
                let low = format::length_rounded(units, here.low.value, Rounding::Up);
                let present = format::length_rounded(units, 6.0, Rounding::Nearest);
                assert_eq!(
                    told.present,
                    (d.say.ask_here)(d.ask_this, &present, &low, &high)
                );
                let outside = here.high.outside.expect("something stops it");
                let outside = format::length_rounded(units, outside, Rounding::Up);
                assert!(told.reasons[0].contains(&outside), "{told:?}");
                let stop_words = stop::stop(voice, &fits, &here.high.stop.expect("a reason"));
                assert!(told.reasons[0].contains(&stop_words), "{told:?}");

                let told = answer(voice, &not, 0).expect("applies");
                let because = stop::stop(voice, &not, &stop);
                assert!(told.present.contains(&because), "{told:?}");
                let nearest = (d.say.ask_nearest)(true, &told.answer);
                assert!(told.reasons.contains(&nearest), "{told:?}");
                assert!(told.reasons.contains(&(d.say.ask_no_nearer)(false)));
            }
        }
        let mut unlike = roomy();
        unlike.workers[1].gear.length_m = 1.5;
        let told = answer(VOICE, &unlike, 2).expect("applies");
        assert!(
            told.present.starts_with(VOICE.decide().ask_alike),
            "{told:?}"
        );
    }

    /// Spans of 12 m, shorter ones beyond a gap: both are told, with what stops those between.
    #[test]
    fn a_gap_says_what_stops_it() {
        let mut case = demo();
        case.motion.duration_s = 1.6;
        case.line.spans_m = vec![6.0; 3];
        case.strengths.required_ratio = 1.84;
        let case = Question::LongestSpan.case(&case, 12.0, Places::Kept);
        let told = answer(VOICE, &case, 0).expect("applies");
        let beyond = told.reasons.iter().find(|r| r.contains("fits again"));
        let beyond = beyond.unwrap_or_else(|| panic!("{told:?}"));
        assert!(beyond.contains("less strength than required"), "{beyond}");
        let meters: f64 = told.answer.trim_end_matches(" m").parse().expect("meters");
        assert!(meters > 12.0, "{told:?}");
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
