//! The searches for the worst timing and the worst places, in words, and the case they found.

use footroom_core::case::Case;
use footroom_core::group::{Scenario, WithTolerances, Worst, worst_delay, worst_places};

use crate::fault_text::Voice;
use crate::format::{self, Rounding};
use crate::texts;
use crate::view::Found;

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

/// The worst that was found in words, and the case of it when it is worse than the given one.
/// `None` for a case with faults.
pub fn search(voice: Voice, case: &Case, what: Search) -> Option<(Found, Option<Case>)> {
    let worst = match what {
        Search::Delay => worst_delay(case),
        Search::Places => worst_places(case, SPACING_M),
    }
    .ok()?;
    let teller = Teller { voice, what };
    let better = worst.below_given_m > 0.0;
    let found = better.then(|| worst.case(case));
    Some((
        Found {
            sentence: teller.told(&worst),
            loadable: found.is_some(),
        },
        found,
    ))
}

struct Teller {
    voice: Voice,
    what: Search,
}

impl Teller {
    fn told(&self, worst: &Worst) -> String {
        let o = self.voice.office();
        let mut said = Vec::new();
        if worst.below_given_m > 0.0 {
            let what = match self.what {
                Search::Delay => self.scenario(worst.scenario),
                Search::Places => {
                    let near =
                        |&m: &f64| format::length_rounded(self.voice.units, m, Rounding::Nearest);
                    let places: Vec<String> = worst.position_m.iter().map(near).collect();
                    (o.say.search_at)(&places.join(" · "))
                }
            };
            said.push((o.say.search_found)(
                &what,
                &self.known(&worst.with_tolerances, worst.footroom_m),
                &self.known(&worst.given_with_tolerances, worst.given_footroom_m),
            ));
        } else if worst.given_with_tolerances.resolved {
            said.push(o.search_none.to_owned());
        }
        if worst.below_given_m > 0.0 || !worst.given_with_tolerances.resolved {
            let told = |of: &WithTolerances| self.known(of, of.footroom_m);
            said.push((o.say.search_tolerances)(
                &told(&worst.with_tolerances),
                &told(&worst.given_with_tolerances),
            ));
        }
        if self.what == Search::Delay {
            said.push((o.say.search_tension)(
                &format::force(self.voice.units, self.voice.lang, worst.tension_max_n),
                &self.scenario(worst.tension_scenario),
            ));
        } else {
            let spacing = format::length(self.voice.units, self.voice.lang, SPACING_M);
            said.push((o.say.search_spacing)(&spacing));
        }
        said.push((o.say.search_tried)(worst.solved));
        said.join(" ")
    }

    fn scenario(&self, scenario: Scenario) -> String {
        let t = self.voice.texts();
        let o = self.voice.office();
        match scenario {
            Scenario::AsGiven => o.scenario_as_given.to_owned(),
            Scenario::One { worker } => (o.say.scenario_one)(&(t.say.worker)(worker + 1)),
            Scenario::Together => o.scenario_together.to_owned(),
            Scenario::InTurn { delay_s, reversed } => {
                (o.say.scenario_in_turn)(&format::time(self.voice.lang, delay_s), reversed)
            }
        }
    }

    /// A footroom of a case; none is told of a case whose answer has none.
    fn known(&self, of: &WithTolerances, footroom_m: f64) -> String {
        if of.resolved {
            self.footroom(footroom_m)
        } else {
            self.voice.office().search_unresolved.to_owned()
        }
    }

    fn footroom(&self, metres: f64) -> String {
        let t = self.voice.texts();
        let steps = format::length_steps(self.voice.units, metres, Rounding::Down);
        let pattern = if steps < 0 {
            t.scene_short
        } else {
            t.scene_spare
        };
        let amount = format::length_of_steps(self.voice.units, steps.abs());
        texts::filled(pattern, &amount)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format::{Lang, Units};
    use footroom_core::demo::demo;
    use footroom_core::solve::{Options, solve};

    const VOICE: Voice = Voice {
        lang: Lang::En,
        units: Units::Metric,
    };

    fn footroom_m(case: &Case) -> f64 {
        let outcome = solve(case, Options::default()).expect("a case without faults");
        outcome.footroom_m
    }

    #[test]
    fn the_case_found_has_the_footroom_that_was_told() {
        for what in [Search::Delay, Search::Places] {
            let (found, case) = search(VOICE, &demo(), what).expect("searched");
            let case = case.expect("the demonstration is not the worst");
            assert!(found.loadable && found.sentence.starts_with("Worst found: "));
            let now = footroom_m(&case);
            assert!(now < footroom_m(&demo()));
            let teller = Teller { voice: VOICE, what };
            let told = format!(": {}; as given", teller.footroom(now));
            assert!(found.sentence.contains(&told), "{}", found.sentence);
            assert!(found.sentence.ends_with("cases tried."));
            let worst = footroom_core::assess::assess(&case, Options::default());
            let worst_m = worst.expect("a case without faults").footroom.value;
            let told = format!(
                "With the tolerances: {}; as given",
                teller.footroom(worst_m)
            );
            assert!(found.sentence.contains(&told), "{}", found.sentence);
        }
    }

    #[test]
    fn a_case_that_is_the_worst_itself_is_not_offered_again() {
        let mut one = demo();
        one.workers.truncate(1);
        let (found, case) = search(VOICE, &one, Search::Delay).expect("searched");
        assert!(!found.loadable && case.is_none());
        assert!(
            found.sentence.contains("Nothing tried asks for more"),
            "{}",
            found.sentence
        );
    }

    #[test]
    fn faults_give_nothing() {
        let mut faulty = demo();
        faulty.line.pretension_n = f64::NAN;
        assert!(search(VOICE, &faulty, Search::Places).is_none());
        assert_eq!(Search::from_key("delay"), Some(Search::Delay));
        assert_eq!(Search::from_key("other"), None);
    }
}
