//! The searches for the worst timing and the worst places, in words, step by step, and the case
//! they found.

use footroom_core::case::Case;
use footroom_core::group::{
    self, Scenario, Tried, What, WithTolerances, Worst, delay_max_s, spacing_m,
};
use serde::Serialize;

use crate::page::fit::stop::footroom;
use crate::say::faults::Voice;
use crate::say::format::{self, Rounding};
use crate::wire::case_json;

/// Least distance between workers in the search for places, m: about what two people at work keep
/// (common practice, no source).
const SPACING_M: f64 = 1.0;

/// What is searched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Search {
    /// Who falls when.
    Delay,
    /// Who stands where.
    Places,
}

impl Search {
    /// `delay` or `places`.
    pub fn from_key(key: &str) -> Option<Self> {
        match key {
            "delay" => Some(Self::Delay),
            "places" => Some(Self::Places),
            _ => None,
        }
    }
}

/// A search after a step of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Searched {
    /// Steps made.
    pub made: u32,
    /// Steps to make, as far as is known.
    pub of: u32,
    /// There is no other step.
    pub done: bool,
    /// How far it is, in words; when it is done, what was found.
    pub sentence: String,
    /// The text of the case that was found; empty: none is worse than the one on the page, or it is
    /// not done.
    pub case_text: String,
}

/// A search on its way.
#[derive(Clone, Debug)]
pub struct Running {
    /// What is searched.
    pub what: Search,
    case: Case,
    inner: group::Search,
}

impl Running {
    /// Prepares a search; `None` for a case with faults.
    pub fn new(case: &Case, what: Search) -> Option<Self> {
        let wanted = match what {
            Search::Delay => What::Timing,
            Search::Places => What::Places {
                spacing_m: SPACING_M,
            },
        };
        let inner = group::Search::new(case, wanted).ok()?;
        Some(Self {
            what,
            case: case.clone(),
            inner,
        })
    }

    /// Makes a step and tells how far it is.
    pub fn advance(&mut self, voice: Voice) -> Searched {
        let progress = self.inner.advance();
        let mut searched = Searched {
            made: progress.made,
            of: progress.of,
            done: progress.done,
            sentence: (voice.office().say.search_progress)(progress.made, progress.of),
            case_text: String::new(),
        };
        if let Some(worst) = self.inner.worst() {
            let teller = SearchWords {
                voice,
                what: self.what,
                case: &self.case,
            };
            searched.sentence = teller.told(&worst);
            if teller.is_worse(&worst) {
                searched.case_text =
                    case_json::to_text(&worst.case(&self.case)).unwrap_or_default();
            }
        }
        searched
    }
}

struct SearchWords<'a> {
    voice: Voice,
    what: Search,
    case: &'a Case,
}

impl SearchWords<'_> {
    fn steps(&self, of: &WithTolerances) -> i64 {
        format::length_steps(self.voice.units, of.footroom_m, Rounding::Down)
    }

    /// What was found is worse as it is shown, too.
    fn is_worse(&self, worst: &Worst) -> bool {
        worst.found.as_ref().is_some_and(|found| {
            !worst.given.resolved || self.steps(&found.answer) < self.steps(&worst.given)
        })
    }

    fn told(&self, worst: &Worst) -> String {
        let o = self.voice.office();
        let mut said = Vec::new();
        let found = worst.found.as_ref().filter(|_| self.is_worse(worst));
        let given = &worst.given;
        said.push(match found {
            Some(found) => {
                let (what, least) = (self.which(&found.tried), self.footroom(&found.answer));
                if given.resolved {
                    (o.say.search_found)(&what, &least, &self.footroom(given))
                } else {
                    (o.say.search_found_only)(&what, &least)
                }
            }
            None if given.resolved => (o.say.search_none)(&self.footroom(given)),
            None => o.search_unresolved.to_owned(),
        });
        if let Some(first) = &worst.first_unresolved {
            said.push((o.say.search_open)(worst.unresolved, &self.which(first)));
        }
        match self.what {
            Search::Delay => {
                said.push((o.say.search_tension)(
                    &format::force(self.voice.units, worst.tension_max_n),
                    &self.scenario(worst.tension_scenario),
                ));
                if self.case.workers.len() > 1 {
                    let most = format::time(delay_max_s(self.case));
                    said.push((o.say.search_delays)(&most));
                }
            }
            Search::Places => {
                let spacing = spacing_m(self.case, SPACING_M);
                let spacing = format::length_rounded(self.voice.units, spacing, Rounding::Down);
                said.push((o.say.search_spacing)(&spacing));
            }
        }
        said.push((o.say.search_tried)(worst.tried));
        said.join(" ")
    }

    /// Which case it is: by its falls or by its places.
    fn which(&self, tried: &Tried) -> String {
        match self.what {
            Search::Delay => self.scenario(tried.scenario),
            Search::Places => {
                let near =
                    |&m: &f64| format::length_rounded(self.voice.units, m, Rounding::Nearest);
                let places: Vec<String> = tried.position_m.iter().map(near).collect();
                (self.voice.office().say.search_at)(&places.join(" · "))
            }
        }
    }

    fn scenario(&self, scenario: Scenario) -> String {
        let t = self.voice.texts();
        let o = self.voice.office();
        match scenario {
            Scenario::AsGiven => o.scenario_as_given.to_owned(),
            Scenario::One { worker } => (o.say.scenario_one)(&(t.say.worker)(worker + 1)),
            Scenario::Together => o.scenario_together.to_owned(),
            Scenario::InTurn { delay_s, reversed } => {
                (o.say.scenario_in_turn)(&format::time(delay_s), reversed)
            }
        }
    }

    fn footroom(&self, of: &WithTolerances) -> String {
        footroom(self.voice, of.footroom_m)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::answer::Told;
    use crate::say::format::{Lang, Units};
    use footroom_core::assess::assess;
    use footroom_core::case::GearKind;
    use footroom_core::demo::demo;
    use footroom_core::solve::Options;

    const VOICES: [Voice; 2] = [
        Voice {
            lang: Lang::En,
            units: Units::Metric,
        },
        Voice {
            lang: Lang::Es,
            units: Units::Us,
        },
    ];
    const VOICE: Voice = VOICES[0];

    fn searched(voice: Voice, case: &Case, what: Search) -> Searched {
        let mut running = Running::new(case, what).expect("a case without faults");
        loop {
            let searched = running.advance(voice);
            if searched.done {
                return searched;
            }
            assert!(searched.case_text.is_empty());
            assert!(
                searched.sentence.contains(&searched.made.to_string())
                    && searched.sentence.contains(&searched.of.to_string()),
                "{}",
                searched.sentence
            );
        }
    }

    /// The footroom that the page shows for a case.
    fn on_the_page(voice: Voice, case: &Case) -> String {
        let assessment = assess(case, Options::default()).expect("a case without faults");
        assert!(!Told::of(voice, case, &assessment).is_unknown());
        footroom(voice, assessment.footroom.value)
    }

    #[test]
    fn both_numbers_are_those_that_the_page_shows_for_the_two_cases() {
        for voice in VOICES {
            let mut worse = 0;
            for what in [Search::Delay, Search::Places] {
                let found = searched(voice, &demo(), what);
                let given = on_the_page(voice, &demo());
                assert!(found.sentence.contains(&given), "{}", found.sentence);
                // Where nothing worse was found there is no other case.
                let Ok(case) = case_json::from_text(&found.case_text) else {
                    assert!(found.case_text.is_empty());
                    continue;
                };
                let worst = on_the_page(voice, &case);
                assert_ne!(worst, given);
                assert!(found.sentence.contains(&worst), "{}", found.sentence);
                worse += 1;
            }
            assert!(worse > 0);
        }
    }

    #[test]
    fn a_crew_of_six_is_told_its_worst_timing_and_how_far_was_searched() {
        for count in 4..=6 {
            let mut case = demo();
            let one = case.workers[0];
            case.workers = (0..count)
                .map(|i| footroom_core::case::Worker {
                    position_m: 1.5 + 2.4 * f64::from(i),
                    ..one
                })
                .collect();
            let found = searched(VOICE, &case, Search::Delay);
            assert!(
                found.sentence.starts_with("Worst found: "),
                "{}",
                found.sentence
            );
            let most = format::time(5.0 / f64::from(count - 1));
            assert!(found.sentence.contains(&most), "{}", found.sentence);
            assert!(!found.case_text.is_empty());
        }
    }

    #[test]
    fn a_case_that_is_the_worst_itself_is_not_offered_again() {
        let mut one = demo();
        one.workers.truncate(1);
        for voice in VOICES {
            let found = searched(voice, &one, Search::Delay);
            assert!(found.case_text.is_empty());
            let said = (voice.office().say.search_none)(&on_the_page(voice, &one));
            assert!(found.sentence.starts_with(&said), "{}", found.sentence);
        }
    }

    #[test]
    fn no_number_stands_for_a_case_without_a_result() {
        // Gear paid out to the side swings deeper than the stack counts.
        let mut case = demo();
        for worker in &mut case.workers {
            worker.gear.kind = GearKind::SelfRetracting;
            worker.offset_along_m = 2.0;
        }
        let assessment = assess(&case, Options::default()).expect("a case without faults");
        assert!(Told::of(VOICE, &case, &assessment).is_unknown());
        for what in [Search::Delay, Search::Places] {
            let found = searched(VOICE, &case, what);
            let shown = footroom(VOICE, assessment.footroom.value);
            assert!(!found.sentence.contains(&shown), "{}", found.sentence);
            assert!(found.sentence.contains("no result"), "{}", found.sentence);
        }
    }

    #[test]
    fn faults_give_nothing() {
        let mut faulty = demo();
        faulty.line.pretension_n = f64::NAN;
        assert!(Running::new(&faulty, Search::Places).is_none());
        assert_eq!(Search::from_key("delay"), Some(Search::Delay));
        assert_eq!(Search::from_key("other"), None);
    }
}
