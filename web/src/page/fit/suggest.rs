//! What would make the case fit, in words: changes, smallest first, each ready to be loaded, with what
//! it gives where the crew stands and at the worst place that was found.

use footroom_core::case::Case;
use footroom_core::constants::{FOOT_M, POUND_FORCE_N};
use footroom_core::field::Quantity;
use footroom_core::fit::suggest::{Change, Rating, Search, Steps, Suggestions};
use footroom_core::fit::{Effort, Limits, Rules, Stop, find};
use footroom_core::rope::CATALOGUE;
use footroom_core::standing::Strength;
use serde::Serialize;

use crate::page::fit::stop;
use crate::say::faults::Voice;
use crate::say::format::{self, Rounding, Units};
use crate::say::names::{below_name, check_name, rope_name, subject_name};
use crate::wire::case_json;

/// All suggestions.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Suggested {
    /// That the case fits, or what stops it.
    pub verdict: String,
    /// Whether it fits as given and elsewhere, with nothing left open: a number, every limit met,
    /// every part's strength entered.
    pub fits: bool,
    /// Heads of the columns.
    pub heads: Vec<String>,
    /// The changes, smallest first.
    pub changes: Vec<Suggestion>,
    /// Said under them: that there are none, or how they are ranked, and what was tried.
    pub note: String,
    /// Ratings to be entered, with what would be needed, a sentence each.
    pub ratings: Vec<String>,
    /// Steps made.
    pub made: usize,
    /// Steps to make, as far as is known.
    pub of: usize,
    /// How far it is, in words.
    pub progress: String,
    /// There is no other step.
    pub done: bool,
}

/// A change that makes the case fit, or several together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Suggestion {
    /// The change.
    pub change: String,
    /// The footroom where the crew stands.
    pub here: String,
    /// The least footroom that was found anywhere on the line.
    pub anywhere: String,
    /// The least ratio of strength that was found, and the required one.
    pub strength: String,
    /// Which part that is, and what else is to be known.
    pub also: String,
    /// The changed case as text.
    pub case_text: String,
}

/// A search for suggestions on its way.
pub struct Suggesting {
    search: Search,
    case: Case,
}

impl core::fmt::Debug for Suggesting {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("Suggesting").finish_non_exhaustive()
    }
}

impl Suggesting {
    /// Prepares one; `None` for a case with faults.
    pub fn new(case: &Case, units: Units) -> Option<Self> {
        // Ratings as they are shown.
        let steps = match units {
            Units::Metric => Steps::default(),
            Units::Us => Steps {
                force_n: 10.0 * POUND_FORCE_N,
                moment_n_m: 10.0 * POUND_FORCE_N * FOOT_M,
            },
        };
        Some(Self {
            search: Search::new(case, Limits::KeepMet, steps).ok()?,
            case: case.clone(),
        })
    }

    /// Makes a step, and tells what was found so far.
    pub fn advance(&mut self, voice: Voice) -> Suggested {
        let done = !self.search.step();
        let (made, of) = self.search.progress();
        let all = self.search.so_far();
        Suggested {
            made,
            of,
            progress: (voice.decide().say.suggest_step)(made, of),
            done,
            ..told(voice, &self.case, &all)
        }
    }
}

/// Looks for changes to the end; `None` for a case with faults.
pub fn suggested(voice: Voice, case: &Case) -> Option<Suggested> {
    let mut suggesting = Suggesting::new(case, voice.units)?;
    loop {
        let told = suggesting.advance(voice);
        if told.done {
            return Some(told);
        }
    }
}

fn told(voice: Voice, case: &Case, all: &Suggestions) -> Suggested {
    let d = voice.decide();
    let changes: Vec<Suggestion> = (all.found.iter())
        .filter_map(|s| {
            let words: Vec<String> = (s.changes.iter())
                .map(|c| change(voice, case, &s.case, c))
                .collect();
            let mut said = words.join(d.suggest_and);
            if words.len() > 1 {
                said = format!("{said} {}", (d.say.suggest_together)(words.len()));
            }
            let mut also: Vec<String> = Vec::new();
            also.extend(s.anywhere.strength.map(|weak| part(voice, &weak)));
            if s.finding.absorber_used_up {
                also.push(d.stop_absorber.to_owned());
            }
            if s.finding.inline_absorber_used_up {
                also.push(d.stop_inline.to_owned());
            }
            Some(Suggestion {
                change: said,
                here: stop::footroom(voice, s.finding.footroom_m),
                anywhere: (s.anywhere.footroom_m)
                    .map_or_else(String::new, |m| stop::footroom(voice, m)),
                strength: (s.anywhere.strength).map_or_else(
                    || d.suggest_no_strength.to_owned(),
                    |weak| {
                        (d.say.suggest_ratio)(
                            &format::number_rounded(weak.ratio, 2, Rounding::Down),
                            &format::number_rounded(weak.required_ratio, 2, Rounding::Up),
                        )
                    },
                ),
                also: also.join("; "),
                case_text: case_json::to_text(&s.case)?,
            })
        })
        .collect();
    let stopped = all.stop.or(all.stop_anywhere);
    // What does not count for a change still counts for the case.
    let left = match stopped {
        None => left_open(voice, case),
        Some(_) => Vec::new(),
    };
    let note = match (stopped, changes.is_empty()) {
        (None, _) => String::new(),
        (Some(_), true) => (d.say.suggest_none)(all.tried, all.pairs),
        (Some(_), false) => format!("{} {}", d.suggest_rank, (d.say.suggest_tried)(all.tried)),
    };
    Suggested {
        verdict: match (&all.stop, &all.stop_anywhere) {
            (None, None) if left.is_empty() => d.suggest_fits.to_owned(),
            (None, None) => left.join(" "),
            (Some(Stop::Unknown { why, .. }), _) => {
                (voice.texts().say.cannot_say)(stop::unknown(voice, *why))
            }
            (Some(s), _) => (d.say.suggest_stopped)(&stop::stop(voice, case, s)),
            (None, Some(s)) => (d.say.suggest_stopped_anywhere)(&stop::stop(voice, case, s)),
        },
        fits: stopped.is_none() && left.is_empty(),
        heads: [
            d.suggest_change,
            d.suggest_here,
            d.suggest_anywhere,
            d.suggest_strength,
        ]
        .map(str::to_owned)
        .to_vec(),
        changes,
        note,
        ratings: all.ratings.iter().map(|r| rating(voice, r)).collect(),
        made: 0,
        of: 0,
        progress: String::new(),
        done: false,
    }
}

/// The weakest part by its name.
fn part(voice: Voice, weak: &Strength) -> String {
    let (name, subject) = (
        check_name(voice, weak.key),
        subject_name(voice, weak.subject),
    );
    (voice.decide().say.suggest_weakest)(&stop::of(name, &subject))
}

/// A rating that is to be entered.
fn rating(voice: Voice, rating: &Rating) -> String {
    let d = voice.decide();
    let Some(field) = rating.field else {
        let subject = subject_name(voice, rating.subject);
        let name = stop::of(check_name(voice, rating.key), &subject);
        return (d.say.rating_describe)(&name);
    };
    let label = voice.form().fields.find(field).map_or("", |f| f.label);
    let quantity = footroom_core::field::find(field).map_or(Quantity::Force, |f| f.quantity);
    match rating.needed {
        Some(needed) => (d.say.rating_enter)(
            label,
            &format::limit_text(quantity, voice.units, needed, Rounding::Up),
        ),
        None => (d.say.rating_enter_unknown)(label),
    }
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

/// A change of `case` in words; `after`: the case with it.
fn change(voice: Voice, case: &Case, after: &Case, change: &Change) -> String {
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
        Change::StandUnder { offset_m } => (d.say.change_under)(&down(offset_m)),
        Change::AwayFromPosts { distance_m } => (d.say.change_away)(&up(distance_m)),
        Change::LongerMotion { duration_s } => (d.say.change_longer)(&format::limit_text(
            Quantity::Time,
            voice.units,
            duration_s,
            Rounding::Nearest,
        )),
        Change::Rating { field, strength } => {
            let up =
                |quantity, value| format::limit_text(quantity, voice.units, value, Rounding::Up);
            let efficiency = after.strengths.termination_efficiency_ratio;
            let kept = |breaking: f64| {
                let kept_n = breaking * efficiency;
                format::limit_text(
                    Quantity::Force,
                    voice.units,
                    tens(voice, kept_n),
                    Rounding::Down,
                )
            };
            let breaking = after.line.rope.breaking_force_n.unwrap_or(0.0);
            let percent = format::number_rounded(100.0 * efficiency, 0, Rounding::Nearest);
            match field {
                "line.rope.breaking_force_n" => (d.say.change_breaking)(
                    &up(Quantity::Force, strength),
                    &kept(strength),
                    &percent,
                ),
                "strengths.termination_efficiency_ratio" => {
                    (d.say.change_efficiency)(&percent, &kept(breaking))
                }
                _ => {
                    let label = voice.form().fields.find(field).map_or("", |f| f.label);
                    let quantity =
                        footroom_core::field::find(field).map_or(Quantity::Force, |f| f.quantity);
                    (d.say.change_part)(label, &up(quantity, strength))
                }
            }
        }
    }
}

/// A force on the steps that are shown, not above it, N.
fn tens(voice: Voice, newtons: f64) -> f64 {
    let step_n = match voice.units {
        Units::Metric => 100.0,
        Units::Us => 10.0 * POUND_FORCE_N,
    };
    format::steps(newtons / step_n, 1, Rounding::Down) as f64 * step_n
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
                    assert!(s.change.len() > 6 && s.here.len() > 6, "{s:?}");
                    assert!(s.anywhere.len() > 6 && s.strength.len() > 3, "{s:?}");
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
            Change::StandUnder { offset_m: 0.2 },
            Change::AwayFromPosts { distance_m: 0.4 },
            Change::LongerMotion { duration_s: 8.0 },
            Change::Rating {
                field: "strengths.end_anchorage_n",
                strength: 30.0e3,
            },
            Change::Rating {
                field: "line.rope.breaking_force_n",
                strength: 80.0e3,
            },
            Change::Rating {
                field: "strengths.termination_efficiency_ratio",
                strength: 0.95,
            },
        ];
        for lang in [Lang::En, Lang::Es] {
            let voice = Voice {
                lang,
                units: Units::Metric,
            };
            let mut words: Vec<String> = (kinds.iter())
                .map(|k| change(voice, &case, &case, k))
                .collect();
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
                assert!(s.here.starts_with(&answer.number), "{s:?}, {answer:?}");
                changes += 1;
            }
        }
        changes
    }

    #[test]
    fn each_suggestion_opened_on_the_page_fits() {
        assert!(applied(7, 8) > 2);
    }

    #[test]
    #[ignore = "minutes of two cores; fewer are always tested"]
    fn each_suggestion_to_a_hundred_cases_opened_on_the_page_fits() {
        let changes: usize = std::thread::scope(|scope| {
            let halves = [8, 9].map(|seed| scope.spawn(move || applied(seed, 50)));
            halves.map(|half| half.join().expect("fits")).iter().sum()
        });
        assert!(changes > 200, "{changes}");
    }

    /// The example: the rope that would do, of which input, and what each missing rating would have to
    /// be; in the steps that are shown.
    #[test]
    fn what_strength_asks_stands_there_with_its_input() {
        for (case, units) in [
            (demo(), Units::Metric),
            (footroom_core::demo::demo_us(), Units::Us),
        ] {
            for lang in [Lang::En, Lang::Es] {
                let voice = Voice { lang, units };
                let all = suggested(voice, &case).expect("no faults");
                let (unit, step_n) = match units {
                    Units::Metric => (" kN", 100.0),
                    Units::Us => (" lbf", 10.0 * POUND_FORCE_N),
                };
                let rope = all.changes.iter().find(|s| {
                    let after = case_json::from_text(&s.case_text).expect("own text");
                    let mut alike = after.clone();
                    alike.line.rope = case.line.rope;
                    let steps = after.line.rope.breaking_force_n.expect("rated") / step_n;
                    alike == case
                        && (steps - (steps + 0.5) as i64 as f64).abs() < 1e-6
                        && after.line.rope.diameter_m == case.line.rope.diameter_m
                });
                let rope = rope.unwrap_or_else(|| panic!("{all:?}"));
                assert_eq!(rope.change.matches(unit).count(), 2, "{}", rope.change);
                assert!(rope.change.contains("90"), "{}", rope.change);
                let anchorage = voice.form().fields.find("strengths.end_anchorage_n");
                let label = anchorage.expect("a field").label;
                let line = all.ratings.iter().find(|r| r.contains(label));
                assert!(line.is_some_and(|r| r.contains(unit)), "{:?}", all.ratings);
            }
        }
    }

    /// A step at a time, each telling how far it is, the last the same as all in one go.
    #[test]
    fn suggestions_come_in_steps() {
        let mut case = demo();
        case.motion.duration_s = 1.6;
        case.workers.truncate(1);
        case.site.margin_m = 2.2;
        let voice = Voice {
            lang: Lang::En,
            units: Units::Metric,
        };
        let mut suggesting = Suggesting::new(&case, voice.units).expect("no faults");
        let mut steps = 0;
        let last = loop {
            let told = suggesting.advance(voice);
            assert!(told.made <= told.of && !told.progress.is_empty());
            if told.done {
                break told;
            }
            steps += 1;
        };
        assert!(steps > 10, "{steps}");
        assert_eq!(suggested(voice, &case), Some(last));
    }
}
