//! The talk says what the core computes, in both languages and unit systems.

use footroom_core::assess::assess;
use footroom_core::demo::demo;
use footroom_core::solve::Options;

use super::*;
use crate::first::view::shapes;
use crate::say::format::Units;

/// Runs a check on the talk about a case, in every voice.
fn about(case: &Case, check: impl Fn(&mut Talk, Subject<'_>)) {
    let assessment = script::answered(case).expect("a case without faults");
    for Voice { lang, units } in Voice::ALL {
        let subject = Subject {
            voice: Voice { lang, units },
            case,
            live: None,
            anywhere: None,
            assessment: Some(&assessment),
        };
        check(&mut Talk::default(), subject);
    }
}

/// The stack that the core gives, by the derivation again from the start.
fn stack_of(case: &Case, units: Units) -> ShownStack {
    let assessment = assess(case, Options::default()).expect("a case without faults");
    let governing = GoverningStack::of(&assessment).expect("a worker");
    ShownStack::with(units, &governing.stack, governing.tolerance_m)
}

fn only(given: &Case, who: &[usize]) -> Case {
    let mut case = given.clone();
    for (i, worker) in case.workers.iter_mut().enumerate() {
        worker.fall_time_s = who.contains(&i).then_some(0.0);
    }
    case
}

#[test]
fn every_sentence_carries_the_numbers_of_the_core() {
    about(&demo(), |talk, subject| {
        let units = subject.voice.units;
        let mut sentence = |step| talk.sentence(subject, step).expect("an answer");
        let one = stack_of(&only(&demo(), &[1]), units);
        let said = sentence(Step::One);
        let soles = one.text(one.required - one.parts[MARGIN]);
        assert!(said.contains(&soles), "{said}: {soles}");
        assert!(said.contains(&one.footroom_text()), "{said}");
        for (step, who) in [(Step::Two, &[0, 1][..]), (Step::All, &[0, 1, 2][..])] {
            let own = stack_of(&only(&demo(), who), units);
            let said = sentence(step);
            let more = own.text((own.required - one.required).abs());
            assert!(said.contains(&more), "{said}: {more}");
            assert!(said.contains(&own.footroom_text()), "{said}");
        }
        let today = stack_of(&demo(), units);
        let said = sentence(Step::Today);
        assert!(said.contains(&today.footroom_text()), "{said}");
        assert!(said.contains(&today.text(today.parts[MARGIN])), "{said}");
        let mut posted = demo();
        posted.line.spans_m = vec![9.0, 4.5, 4.5];
        let posted = footroom_core::fit::layout::at_worst_place(&posted);
        let said = sentence(Step::Post);
        let footroom = stack_of(&posted, units).footroom_text();
        assert!(said.contains(&footroom), "{said}: {footroom}");
        let rest = sentence(Step::Rest);
        let sag_m = demo().line.rest_deflection_m(4.5);
        let sag = format::length_rounded(units, sag_m, Rounding::Up);
        assert!(rest.contains(&sag), "{rest}: {sag}");
        let pretension = if units == Units::Us { "lbf" } else { "4.4 kN" };
        assert!(rest.contains(pretension), "{rest}");
    });
}

/// A crew is told that a worker hits what is below, not that the soles stop at a depth under it.
#[test]
fn a_hit_is_called_a_hit() {
    let mut case = demo();
    case.site.below[0].height_m = case.site.beam_top_m - 1.8;
    case.site.below[0].from_m = 0.0;
    case.site.below[0].to_m = 18.0;
    about(&case, |talk, subject| {
        let t = subject.words();
        for step in [Step::One, Step::All, Step::Today] {
            let said = talk.sentence(subject, step).expect("an answer");
            let solved = talk.solved(step).expect("solved");
            let told = solved.told(subject.voice);
            let (worker, tolerances, _) = told.hit().expect("a hit");
            assert!(!tolerances, "with the inputs as entered");
            let worker = (subject.voice.texts().say.worker)(worker + 1);
            assert!(said.contains(&(t.say.hits)(&worker)), "{said}");
            assert!(said.contains(&told.answer().number), "{said}");
        }
        // Nobody is at the lower level while the line is at rest.
        let rest = talk.sentence(subject, Step::Rest).expect("an answer");
        assert!(!rest.contains((t.say.hits)("").trim()), "{rest}");
    });
}

/// Each line has its own mark, and a ratio that is kept does not stand there as the reason for one.
#[test]
fn a_line_of_the_talk_has_its_own_mark_and_its_reason() {
    let case = footroom_core::demo::demo_us();
    about(&case, |talk, subject| {
        let shown = talk.step(subject, Step::One).expect("an answer");
        let solved = talk.solved(Step::One).expect("solved");
        let standing = solved.told(subject.voice).standing();
        let kept = standing.strength.expect("some strength").kept();
        assert!(
            kept >= 1.0 && standing.parts_open > 0,
            "else nothing is tried here"
        );
        let (parts, words) = (subject.voice.texts().say.parts_open)(standing.parts_open);
        let [line] = &shown.open[..] else {
            panic!("{:?}", shown.open);
        };
        assert_eq!(line.mark, "open");
        assert!(line.text.starts_with("? "), "{}", line.text);
        assert!(
            line.text.ends_with(&format!("; {parts} {words}")),
            "{}",
            line.text
        );
    });
    // Without any strength the count is the number; it is not said twice.
    let mut none = case.clone();
    none.line.rope.breaking_force_n = None;
    about(&none, |talk, subject| {
        let shown = talk.step(subject, Step::One).expect("an answer");
        let solved = talk.solved(Step::One).expect("solved");
        let standing = solved.told(subject.voice).standing();
        assert_eq!(standing.strength, None);
        let (parts, _) = (subject.voice.texts().say.parts_open)(standing.parts_open);
        assert_eq!(shown.open[0].text.matches(&parts).count(), 1);
    });
    // Where an absorber alone makes the mark, it is named.
    let mut heavy = case.clone();
    heavy.sets.us = false;
    heavy.line.rope.breaking_force_n = heavy.line.rope.breaking_force_n.map(|n| 4.0 * n);
    for worker in &mut heavy.workers {
        worker.mass_kg = 140.0;
    }
    about(&heavy, |talk, subject| {
        let shown = talk.step(subject, Step::One).expect("an answer");
        let solved = talk.solved(Step::One).expect("solved");
        let standing = solved.told(subject.voice).standing();
        assert!(standing.absorber_used_up, "else nothing is tried here");
        assert_eq!((standing.parts_failing, standing.limits_not_met), (0, 0));
        let t = subject.voice.texts();
        let why = [t.an_absorber, t.word_deployed].join(" ");
        let line = &shown.open[0];
        assert!(
            line.mark == "fails" && line.text.ends_with(&why),
            "{}",
            line.text
        );
    });
    // A part that fails is its own reason.
    let mut weak = case;
    weak.line.rope.breaking_force_n = weak.line.rope.breaking_force_n.map(|n| 0.6 * n);
    about(&weak, |talk, subject| {
        let shown = talk.step(subject, Step::One).expect("an answer");
        let solved = talk.solved(Step::One).expect("solved");
        let standing = solved.told(subject.voice).standing();
        assert!(standing.parts_failing > 0, "else nothing is tried here");
        assert_eq!(shown.open[0].mark, "fails");
        assert!(shown.open[0].text.starts_with("✗ ") && !shown.open[0].text.contains("; "));
    });
}

#[test]
fn the_used_up_absorber_says_mass_and_force() {
    about(&demo(), |talk, subject| {
        let said = talk.sentence(subject, Step::UsedUp).expect("an answer");
        let solved = talk.solved(Step::UsedUp).expect("solved");
        let Change::Mass {
            each_kg: kg,
            together,
        } = solved.derived.change
        else {
            panic!("the demonstration as given uses none up");
        };
        let units = subject.voice.units;
        let who = if together { &[0, 1, 2][..] } else { &[1][..] };
        let mut case = only(&demo(), who);
        for &i in who {
            case.workers[i].mass_kg = kg;
        }
        let assessment = assess(&case, Options::default()).expect("a case without faults");
        let mut workers = assessment.nominal.workers.iter();
        let worker = workers.find(|w| w.absorber_used_up).expect("one");
        let force_n = worker.arrest_force_max_n;
        let force = format::force(units, force_n);
        assert!(said.contains(&force), "{said}: {force}");
        assert!(said.contains(&format::mass(units, kg)), "{said}");
    });
}

#[test]
fn the_rows_are_the_falls_shown_before() {
    about(&demo(), |talk, subject| {
        talk.plan_mut().set_on(Step::Two, false);
        let all = talk.step(subject, Step::All).expect("an answer");
        assert_eq!(all.rows.len(), 1);
        let shown = talk.step(subject, Step::Today).expect("an answer");
        assert_eq!(shown.rows.len(), 3);
        let footroom = stack_of(&demo(), subject.voice.units).footroom_text();
        assert_eq!(shown.rows[1].value, footroom);
        assert_eq!(shown.rows[1].label, all.title);
        assert!(shown.plays && shown.lowest_time_s < shown.duration_s);
        assert!(shown.speed >= 0.25 && shown.lowest_time_s / shown.speed <= 9.0 + 1e-9);
        let rest = talk.step(subject, Step::Rest).expect("an answer");
        assert!(!rest.plays && rest.rows.is_empty());
        assert_eq!(rest.kind, FootroomKind::Unknown);
    });
}

#[test]
fn a_sentence_of_the_leaders_own_is_marked_and_stays_with_another_case() {
    about(&demo(), |talk, subject| {
        talk.plan_mut().say(Step::One, " Look at the truck. ");
        talk.forget();
        let shown = talk.step(subject, Step::One).expect("an answer");
        assert_eq!(shown.sentence, "Look at the truck.");
        assert!(shown.edited.is_some());
        assert!(talk.list(subject).edited_note.is_some());
        talk.plan_mut().say(Step::One, "  ");
        let shown = talk.step(subject, Step::One).expect("an answer");
        assert!(shown.edited.is_none() && talk.list(subject).edited_note.is_none());
    });
}

#[test]
fn without_a_number_no_sentence_gives_one() {
    let mut case = demo();
    case.line.spans_m = vec![18.0];
    case.line.rope.breaking_force_n = Some(5_000.0);
    about(&case, |talk, subject| {
        let shown = talk.step(subject, Step::All).expect("words, at least");
        assert_eq!(
            (shown.kind, shown.number.as_str()),
            (FootroomKind::Unknown, DASH)
        );
        assert!(shown.rows.iter().all(|row| row.value == DASH));
    });
}

#[test]
fn one_worker_makes_a_short_talk() {
    let mut case = demo();
    case.workers.truncate(1);
    about(&case, |talk, subject| {
        let keys: Vec<&str> = talk.steps(subject).into_iter().map(Step::key).collect();
        assert_eq!(keys, ["rest", "one", "post", "today"]);
        assert_eq!(talk.list(subject).entries.len(), keys.len());
    });
}

/// Whoever falls alone stands where the one stands who is deepest when all fall: the depths of one and
/// of several are of the same place. The one who was meant to fall alone may stand elsewhere.
#[test]
fn one_and_several_are_compared_at_the_same_place() {
    let mut case = demo();
    for worker in &mut case.workers[1..] {
        worker.fall_time_s = None;
    }
    about(&case, |talk, subject| {
        assert_eq!(subject.focus(), Some(0), "as given the first falls");
        for step in [Step::One, Step::Two, Step::All] {
            talk.step(subject, step).expect("an answer");
        }
        let all = talk.solved(Step::All).expect("solved");
        let deepest = all.assessment.footroom.worker;
        assert_ne!(deepest, 0, "else nothing is tried here");
        for (step, count) in [(Step::One, 1), (Step::Two, 2)] {
            let case = &talk.solved(step).expect("solved").derived.case;
            let falls: Vec<usize> = (0..case.workers.len())
                .filter(|&i| case.workers[i].fall_time_s.is_some())
                .collect();
            assert!(
                falls.len() == count && falls.contains(&deepest),
                "{falls:?}"
            );
            assert_eq!(
                case.workers[deepest].position_m,
                demo().workers[deepest].position_m
            );
        }
        let units = subject.voice.units;
        let (one, both) = (
            stack_of(&only(&demo(), &[deepest]), units),
            stack_of(&only(&demo(), &[0, 1, 2]), units),
        );
        let more = one.text((both.required - one.required).abs());
        let said = talk.sentence(subject, Step::All).expect("an answer");
        assert!(said.contains(&more), "{said}: {more}");
    });
}

/// One scale and one level of the line from step to step, and a name beside every length.
#[test]
fn all_steps_are_drawn_at_one_scale_with_names_beside_the_lengths() {
    use crate::first::scene::recording::Recording;
    use crate::first::scene::surface::Surface;
    use crate::first::scene::theme::Theme;
    let theme = Theme::default();
    for (sheet, named) in [([1700.0, 760.0, 1.0], true), ([360.0, 330.0, 3.0], false)] {
        about(&demo(), |talk, subject| {
            while talk.prepare(subject) {}
            let [width, height, _] = sheet;
            let rest = SceneView {
                cropped: true,
                type_px: Some(legible::type_px(1.13 * width, 1.42 * height)),
                ..SceneView::new(
                    subject.case,
                    (None, None),
                    subject.voice,
                    &theme,
                    sheet,
                    0.0,
                )
            };
            let mut first: Option<(f64, f64)> = None;
            for step in talk.steps(subject) {
                let mut surface = Recording::default();
                let ruler = Recording::default();
                let measure = |text: &str, face| ruler.text_width(text, face);
                let window = talk.window(subject, &measure, &rest);
                let view = SceneView { window, ..rest };
                let lowest_s = talk.step(subject, step).expect("a step").lowest_time_s;
                let view = SceneView {
                    time_s: lowest_s,
                    ..talk.scene(subject, step, &view).expect("a scene")
                };
                let layout = scene::draw(&mut surface, &view).expect("large enough");
                let drawn = (layout.px_per_m, layout.depth_y(0.0));
                let first = *first.get_or_insert(drawn);
                assert!(
                    (drawn.0 - first.0).abs() < 1e-9 && (drawn.1 - first.1).abs() < 1e-9,
                    "{step:?}: {drawn:?}, the first {first:?}"
                );
                let texts: Vec<&str> = surface.texts.iter().map(|t| t.text.as_str()).collect();
                let t = subject.words();
                for name in [t.part_line, t.part_lanyard, t.part_body, t.part_margin] {
                    assert_eq!(
                        texts.contains(&name),
                        named && step != Step::Rest,
                        "{step:?}: {name} among {texts:?}"
                    );
                }
            }
        });
    }
}

#[test]
fn a_link_brings_its_plan_and_a_bad_one_changes_nothing() {
    let mut talk = Talk::default();
    talk.plan_mut().say(Step::Today, "Mind the flatbed.");
    let part = talk.plan().encode().expect("another plan");
    let plan = talk.plan().clone();
    let mut other = Talk::default();
    assert_eq!(other.open_link(&format!("#v1.AAAA.{part}")), Ok(()));
    assert_eq!(*other.plan(), plan);
    let cut = &part[..part.len() - 4];
    assert!(other.open_link(&format!("v1.AAAA.{cut}")).is_err());
    assert_eq!(*other.plan(), plan);
    assert_eq!(other.open_link("v1.AAAA"), Ok(()));
    assert_eq!(*other.plan(), Plan::default());
}

#[test]
fn the_clock_counts_minutes() {
    for (passed_s, shown) in [
        (0.0, "0:00"),
        (65.4, "1:05"),
        (3_725.0, "62:05"),
        (f64::NAN, "0:00"),
    ] {
        assert_eq!(clock(passed_s), shown);
    }
}

#[test]
fn typescript_declares_what_is_sent() {
    about(&demo(), |talk, subject| {
        let json = |value: &dyn erased::Plain| value.json();
        let list = talk.list(subject);
        shapes::agrees(TYPESCRIPT, "TalkList", &json(&list));
        shapes::agrees(TYPESCRIPT, "TalkEntry", &json(&list.entries[0]));
        let shown = talk.step(subject, Step::All).expect("an answer");
        shapes::agrees(TYPESCRIPT, "TalkStep", &json(&shown));
        shapes::agrees(TYPESCRIPT, "TalkLine", &json(&shown.open[0]));
    });
}

/// Anything that can be sent, as JSON.
mod erased {
    pub trait Plain {
        fn json(&self) -> serde_json::Value;
    }
    impl<T: serde::Serialize> Plain for T {
        fn json(&self) -> serde_json::Value {
            serde_json::to_value(self).expect("plain")
        }
    }
}
