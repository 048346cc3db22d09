//! What would make the case fit, in words: single changes, smallest first, each ready to be loaded.

use footroom_core::case::Case;
use footroom_core::field::Quantity;
use footroom_core::fit::suggest::{Change, suggest};
use footroom_core::fit::{Effort, Limits, Rules, Stop, find};
use footroom_core::rope::CATALOGUE;
use serde::Serialize;

use crate::page::fit::stop;
use crate::say::faults::Voice;
use crate::say::format::{self, Rounding};
use crate::say::names::{below_name, rope_name};
use crate::wire::case_json;

/// All suggestions.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Suggested {
    /// That the case fits, or what stops it.
    pub verdict: String,
    /// Whether it fits as given, with nothing left open: a number, every limit met, every part's
    /// strength entered.
    pub fits: bool,
    /// The changes, smallest first.
    pub changes: Vec<Suggestion>,
    /// Said under them: that there are none, or how they are ranked.
    pub note: String,
}

/// A change that makes the case fit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Suggestion {
    /// The change.
    pub change: String,
    /// What it gives.
    pub gives: String,
    /// The changed case as text.
    pub case_text: String,
}

/// Looks for single changes; `None` for a case with faults.
pub fn suggested(voice: Voice, case: &Case) -> Option<Suggested> {
    let all = suggest(case, Limits::KeepMet).ok()?;
    let d = voice.decide();
    let changes: Vec<Suggestion> = all
        .found
        .iter()
        .filter_map(|s| {
            let mut gives = vec![stop::footroom(voice, s.finding.footroom_m)];
            gives.extend(stop::weakest(voice, &s.finding));
            if s.finding.absorber_used_up {
                gives.push(d.stop_absorber.to_owned());
            }
            Some(Suggestion {
                change: change(voice, case, &s.change),
                gives: gives.join("; "),
                case_text: case_json::to_text(&s.case)?,
            })
        })
        .collect();
    // What does not count for a change still counts for the case.
    let left = match all.stop {
        None => left_open(voice, case),
        Some(_) => Vec::new(),
    };
    let note = match (&all.stop, changes.is_empty()) {
        (None, _) => "",
        (Some(_), true) => d.suggest_none,
        (Some(_), false) => d.suggest_rank,
    };
    Some(Suggested {
        verdict: match &all.stop {
            None if left.is_empty() => d.suggest_fits.to_owned(),
            None => left.join(" "),
            Some(Stop::Unknown { why, .. }) => {
                (voice.texts().say.cannot_say)(stop::unknown(voice, *why))
            }
            Some(s) => (d.say.suggest_stopped)(&stop::stop(voice, case, s)),
        },
        fits: all.stop.is_none() && left.is_empty(),
        changes,
        note: note.to_owned(),
    })
}

/// What the rules excuse in the given case, in words: the first limit that is not met, parts without
/// a strength.
fn left_open(voice: Voice, case: &Case) -> Vec<String> {
    let d = voice.decide();
    let Ok(found) = find(case, Effort::Full) else {
        return vec![d.fit_nothing.to_owned()];
    };
    let mut left = Vec::new();
    let strict = Rules::new(case, Limits::All).ok();
    if let Some(stop) = strict.and_then(|rules| rules.stop(case)) {
        left.push((d.say.suggest_stopped)(&stop::stop(voice, case, &stop)));
        if matches!(stop, Stop::Limit { .. }) {
            left.push(d.suggest_excused.to_owned());
        }
    }
    if found.standing.parts_open > 0 {
        left.push((d.say.suggest_open)(found.standing.parts_open));
    }
    if !left.is_empty() {
        let room = stop::footroom(voice, found.footroom_m);
        left.insert(0, (d.say.suggest_room)(&room));
    }
    left
}

fn change(voice: Voice, case: &Case, change: &Change) -> String {
    let t = voice.texts();
    let d = voice.decide();
    let near = |m| format::length_rounded(voice.units, m, Rounding::Nearest);
    let down = |m| format::length_rounded(voice.units, m, Rounding::Down);
    let up = |m| format::length_rounded(voice.units, m, Rounding::Up);
    let force = |n| format::limit_text(Quantity::Force, voice.units, n, Rounding::Nearest);
    match *change {
        Change::AddPosts { span, posts } => (d.say.change_posts)(posts, span + 1),
        Change::FewerUsers { users } => (d.say.change_users)(users),
        Change::ShorterLanyard { length_m } => (d.say.change_lanyard)(&down(length_m)),
        Change::Pretension { pretension_n } => (d.say.change_pretension)(
            pretension_n > case.line.pretension_n,
            &force(pretension_n),
            &force(case.line.pretension_n),
        ),
        Change::RaiseLine { height_m } => {
            (d.say.change_height)(&up(height_m), &near(case.line.height_above_beam_m))
        }
        Change::Rope { id } => {
            let rope = CATALOGUE.iter().find(|row| row.id == id);
            (d.say.change_rope)(&rope.map_or(String::new(), |row| rope_name(voice, &row.rope)))
        }
        Change::LowerBelow { below, height_m } => {
            let thing = case.site.below.get(below);
            let kind = thing.map_or(t.below_other, |b| below_name(voice, b.kind));
            (d.say.change_lower)(
                &(voice.form().say.below_label)(below + 1, kind),
                &down(height_m),
                &near(thing.map_or(0.0, |b| b.height_m)),
            )
        }
        Change::RemoveBelow { below } => {
            let thing = case.site.below.get(below);
            let kind = thing.map_or(t.below_other, |b| below_name(voice, b.kind));
            (d.say.change_remove)(&(voice.form().say.below_label)(below + 1, kind))
        }
        Change::AbsorberForce { average_force_n } => {
            (d.say.change_absorber)(&force(average_force_n))
        }
        Change::StrongerPart { field, strength } => {
            let label = voice.form().fields.find(field).map_or("", |f| f.label);
            let quantity =
                footroom_core::field::find(field).map_or(Quantity::Force, |f| f.quantity);
            let strength = format::limit_text(quantity, voice.units, strength, Rounding::Up);
            (d.say.change_part)(label, &strength)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::{Lang, Units};
    use footroom_core::demo::demo;

    use crate::first::view::FootroomKind;
    use crate::page::Page;

    #[test]
    fn each_suggestion_fits_and_has_words_in_every_voice() {
        let mut case = demo();
        case.motion.duration_s = 1.6;
        case.line.spans_m = vec![6.0; 3];
        case.site.margin_m = 2.0;
        let rules = Rules::new(&case, Limits::KeepMet).expect("no faults");
        let mut counts = Vec::new();
        for lang in [Lang::En, Lang::Es] {
            for units in [Units::Metric, Units::Us] {
                let all = suggested(Voice { lang, units }, &case).expect("no faults");
                assert!(!all.fits && !all.note.is_empty());
                for s in &all.changes {
                    let changed = case_json::from_text(&s.case_text).expect("own text");
                    assert_eq!(rules.stop(&changed), None, "{}", s.change);
                    assert!(s.change.len() > 6 && s.gives.len() > 6, "{s:?}");
                }
                counts.push(all.changes.len());
            }
        }
        assert!(
            counts[0] > 2 && counts.iter().all(|c| *c == counts[0]),
            "{counts:?}"
        );
    }

    /// What stops no change still stands against the case: a limit that it breaks, a strength that
    /// nobody entered, a number that there is not.
    #[test]
    fn nothing_is_said_to_fit_with_something_left_open() {
        let mut open = demo();
        open.motion.duration_s = 1.6;
        open.line.spans_m = vec![6.0; 3];
        open.site.margin_m = 0.1;
        open.site.below.clear();
        // No known part falls short.
        open.line.rope.breaking_force_n = Some(400_000.0);
        let mut broken = open.clone();
        broken.sets.us = true;
        broken.workers[0].gear.free_fall_m = Some(2.3);
        let mut steep = open.clone();
        steep.workers.truncate(1);
        steep.workers[0].position_m = 0.03;
        for lang in [Lang::En, Lang::Es] {
            let voice = Voice {
                lang,
                units: Units::Metric,
            };
            let d = voice.decide();
            let said = |case: &Case| {
                let all = suggested(voice, case).expect("no faults");
                assert!(!all.fits, "{}", all.verdict);
                assert!(!all.verdict.contains(d.suggest_fits), "{}", all.verdict);
                all.verdict
            };
            let found = find(&open, Effort::Full).expect("no faults");
            let parts = (d.say.suggest_open)(found.standing.parts_open);
            assert!(found.standing.parts_open > 0 && said(&open).contains(&parts));
            let words = said(&broken);
            assert!(words.contains(d.suggest_excused), "{words}");
            let limit = crate::say::names::check_name(voice, "us.free_fall");
            assert!(words.contains(limit), "{words}");
            let found = find(&steep, Effort::Full).expect("no faults");
            assert!(found.unknown.is_some());
            let no_result = (voice.texts().say.cannot_say)("").replace('.', "");
            assert!(said(&steep).starts_with(no_result.trim_end()));
        }
    }

    #[test]
    fn every_kind_of_change_is_worded() {
        let case = demo();
        let kinds = [
            Change::AddPosts { span: 0, posts: 2 },
            Change::FewerUsers { users: 1 },
            Change::ShorterLanyard { length_m: 1.35 },
            Change::Pretension {
                pretension_n: 5.0e3,
            },
            Change::Pretension {
                pretension_n: 3.0e3,
            },
            Change::RaiseLine { height_m: 1.75 },
            Change::Rope {
                id: CATALOGUE[3].id,
            },
            Change::LowerBelow {
                below: 0,
                height_m: 2.5,
            },
            Change::RemoveBelow { below: 0 },
            Change::AbsorberForce {
                average_force_n: 3.5e3,
            },
            Change::StrongerPart {
                field: "strengths.end_anchorage_n",
                strength: 30.0e3,
            },
        ];
        for lang in [Lang::En, Lang::Es] {
            let voice = Voice {
                lang,
                units: Units::Metric,
            };
            let mut words: Vec<String> = kinds.iter().map(|k| change(voice, &case, k)).collect();
            assert!(words.iter().all(|w| !w.contains("  ") && !w.ends_with(' ')));
            words.sort();
            words.dedup();
            assert_eq!(words.len(), kinds.len());
        }
    }

    /// Applies every suggestion to invented cases as the page does, by opening its text on the desk;
    /// how many there were.
    fn applied(seed: u64, count: usize) -> usize {
        let mut state = seed;
        let mut any = |low: f64, high: f64| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            low + (high - low) * (state >> 11) as f64 / (1_u64 << 53) as f64
        };
        let voice = Voice {
            lang: Lang::En,
            units: Units::Metric,
        };
        let mut desk = Page::new(voice.lang, voice.units);
        let mut changes = 0;
        for _ in 0..count {
            let mut case = demo();
            case.motion.duration_s = 1.6;
            let spans = any(1.0, 4.0) as usize;
            case.line.spans_m = vec![18.0 / spans as f64; spans];
            case.line.pretension_n = any(2.0e3, 8.0e3);
            case.site.margin_m = any(0.5, 2.0);
            case.site.below[0].height_m = any(1.0, 3.5);
            case.workers.truncate(any(1.0, 4.0) as usize);
            for worker in &mut case.workers {
                worker.mass_kg = any(70.0, 120.0);
            }
            let rules = Rules::new(&case, Limits::KeepMet).expect("no faults");
            for s in suggested(voice, &case).expect("no faults").changes {
                desk.open_case(&s.case_text).expect("own text");
                assert_eq!(rules.stop(desk.case()), None, "{}", s.change);
                let answer = desk.whole_view().answer;
                assert_eq!(answer.kind, FootroomKind::Spare, "{}", s.change);
                assert!(s.gives.starts_with(&answer.number), "{s:?}, {answer:?}");
                changes += 1;
            }
        }
        changes
    }

    #[test]
    fn each_suggestion_opened_on_the_page_fits() {
        assert!(applied(7, 30) > 5);
    }

    #[test]
    fn each_suggestion_to_a_thousand_cases_opened_on_the_page_fits() {
        // On two threads: it is the longest test here.
        let changes: usize = std::thread::scope(|scope| {
            let halves = [8, 9].map(|seed| scope.spawn(move || applied(seed, 500)));
            halves.map(|half| half.join().expect("fits")).iter().sum()
        });
        assert!(changes > 1_000, "{changes}");
    }
}
