//! What stops a case, in words.

use footroom_core::case::Case;
use footroom_core::fit::{Finding, Stop, Unknown};

use crate::say::faults::{self, Voice};
use crate::say::format::{self, Rounding};
use crate::say::names::own_quantity_name;
use crate::say::names::{check_name, subject_name};
use crate::say::texts::filled;

/// What stops a case, as part of a sentence.
pub fn stop(voice: Voice, case: &Case, stop: &Stop) -> String {
    let t = voice.texts();
    let d = voice.decide();
    match *stop {
        Stop::Unknown { why } => unknown(voice, why).to_owned(),
        Stop::Footroom { worker, footroom_m } => {
            let steps = format::length_steps(voice.units, footroom_m, Rounding::Down);
            (d.say.stop_footroom)(
                &(t.say.worker)(worker + 1),
                &format::length_of_steps(voice.units, steps.abs()),
            )
        }
        Stop::Part { key, subject } => {
            (d.say.stop_part)(&of(check_name(voice, key), &subject_name(voice, subject)))
        }
        Stop::Limit { key, subject, own } => {
            let own = own.and_then(|i| case.own_limits.get(i));
            let name = match own {
                Some(own) if !own.label.trim().is_empty() => own.label.trim(),
                Some(own) => own_quantity_name(voice, own.quantity),
                None => check_name(voice, key),
            };
            (d.say.stop_limit)(&of(name, &subject_name(voice, subject)))
        }
        Stop::AbsorberUsedUp => d.stop_absorber.to_owned(),
        Stop::InlineAbsorberUsedUp => d.stop_inline.to_owned(),
        Stop::Fault { fault } => faults::case_fault(voice, case, &fault),
    }
}

/// A name with its subject, when there is one.
pub(super) fn of(name: &str, subject: &str) -> String {
    if subject.is_empty() {
        name.to_owned()
    } else {
        format!("{name}, {subject}")
    }
}

/// The weakest part of a finding with its ratio and the required one; `None`: no strength is known.
pub fn weakest(voice: Voice, found: &Finding) -> Option<String> {
    let weak = found.standing.strength?;
    let d = voice.decide();
    let (ratio, required) = format::strength(&weak);
    Some((d.say.weakest)(
        &of(
            check_name(voice, weak.key),
            &subject_name(voice, weak.subject),
        ),
        &ratio,
        &required,
    ))
}

/// Why a footroom is not known, as part of a sentence.
pub fn unknown(voice: Voice, why: Unknown) -> &'static str {
    let d = voice.decide();
    match why {
        Unknown::NotFinished => d.stop_not_finished,
        Unknown::LedgerOpen => d.stop_ledger,
        Unknown::SwingsBelowStack => d.stop_swing,
        Unknown::TooSteep => d.stop_steep,
        Unknown::LineBreaks => d.stop_breaks,
    }
}

/// A footroom with its word; where it is not known, that and why.
pub fn known(voice: Voice, footroom: Result<f64, Unknown>) -> String {
    match footroom {
        Ok(footroom_m) => self::footroom(voice, footroom_m),
        Err(why) => unknown_because(voice, unknown(voice, why)),
    }
}

/// That a footroom is not known, and why.
pub fn unknown_because(voice: Voice, why: &str) -> String {
    format!("{}: {why}", voice.texts().word_unknown)
}

/// A footroom with its word, rounded down: `0.43 m to spare`, `short by 0.18 m`.
pub fn footroom(voice: Voice, footroom_m: f64) -> String {
    let t = voice.texts();
    let steps = format::length_steps(voice.units, footroom_m, Rounding::Down);
    let pattern = if steps < 0 {
        t.scene_short
    } else {
        t.scene_spare
    };
    let amount = format::length_of_steps(voice.units, steps.abs());
    filled(pattern, &amount)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::{Lang, Units};
    use footroom_core::check::Subject;
    use footroom_core::demo::demo;

    #[test]
    fn every_stop_has_words_in_every_voice() {
        let case = demo();
        let stops = [
            Stop::Unknown {
                why: Unknown::NotFinished,
            },
            Stop::Footroom {
                worker: 1,
                footroom_m: -0.201,
            },
            Stop::Part {
                key: "part.tieback",
                subject: Subject::RightEnd,
            },
            Stop::Limit {
                key: "us.arrest_force",
                subject: Subject::Worker { worker: 0 },
                own: None,
            },
            Stop::AbsorberUsedUp,
            Stop::InlineAbsorberUsedUp,
            Stop::Unknown {
                why: Unknown::LineBreaks,
            },
            Stop::Unknown {
                why: Unknown::TooSteep,
            },
            Stop::Unknown {
                why: Unknown::LedgerOpen,
            },
            Stop::Unknown {
                why: Unknown::SwingsBelowStack,
            },
        ];
        let mut seen: Vec<String> = Vec::new();
        for lang in [Lang::En, Lang::Es] {
            for units in [Units::Metric, Units::Us] {
                let voice = Voice { lang, units };
                for s in &stops {
                    let words = stop(voice, &case, s);
                    assert!(words.len() > 8, "{words}");
                    seen.push(words);
                }
            }
        }
        assert!(
            seen[1].contains("0.21 m") && seen[1].contains("worker 2"),
            "{}",
            seen[1]
        );
        assert_ne!(seen[0], seen[2 * stops.len()]);
    }

    #[test]
    fn a_hair_short_is_short() {
        let voice = Voice {
            lang: Lang::En,
            units: Units::Metric,
        };
        assert_eq!(footroom(voice, -1.0e-4), "short by 0.01 m");
        assert_eq!(footroom(voice, 0.019), "0.01 m to spare");
    }
}
