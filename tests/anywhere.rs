//! The worst anywhere on the line, and the mark of the answer that follows from it.
//!
//! There is no outside source for a worst place; what is found is held against a finer scan of the
//! places by the same runs, and against what must hold whatever the numbers.

use footroom_core::anywhere::{APART_M, Anywhere, Looking, Posed, When, Who};
use footroom_core::assess::assess;
use footroom_core::case::{Case, CrewMoves, Worker};
use footroom_core::check::{CheckSet, Tally, Verdict};
use footroom_core::demo::demo;
use footroom_core::fit::{Effort, Limits, Rules, find};
use footroom_core::solve::Options;
use footroom_core::standing::Mark;
use footroom_web::first::answer::Told;
use footroom_web::first::view::{Answer, AnswerLine};
use footroom_web::page::compare::shelf::Shelf;
use footroom_web::page::compare::solved::Solved;
use footroom_web::page::fit::anywhere::numbers;
use footroom_web::say::faults::Voice;
use footroom_web::say::format::{Lang, Units};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngSeed, TestRunner};
use support::generate;

const VOICE: Voice = Voice {
    lang: Lang::En,
    units: Units::Metric,
};

const VOICES: [Voice; 2] = [
    VOICE,
    Voice {
        lang: Lang::Es,
        units: Units::Us,
    },
];

/// So many random cases, always the same.
fn drawn<S: Strategy>(cases: usize, from: S) -> Vec<S::Value> {
    let mut runner = TestRunner::new(Config {
        rng_seed: RngSeed::Fixed(20_261_129),
        failure_persistence: None,
        ..Config::default()
    });
    let draw = |_| from.new_tree(&mut runner).expect("a case").current();
    (0..cases).map(draw).collect()
}

fn looked(case: &Case) -> Anywhere {
    Looking::new(case).expect("a case without faults").finish()
}

/// Whoever falls includes the crew without the one who came last. In two halves, for two processors.
fn one_more_user_never_raises_the_room(half: usize) {
    let mut compared = 0;
    for (i, mut case) in drawn(300, generate::typical(2)).into_iter().enumerate() {
        if i % 2 != half {
            continue;
        }
        case.motion.duration_s = 1.2;
        if i % 15 == 0 {
            case.crew_moves = CrewMoves::Freely;
        }
        let all = looked(&case);
        let last = case.workers.pop().expect("a crew");
        if case.workers.is_empty() {
            // One more of the same, elsewhere.
            case.workers = vec![last];
            let one = looked(&case);
            let length_m = case.line.length_m();
            case.workers.push(Worker {
                position_m: length_m - last.position_m,
                ..last
            });
            let two = looked(&case);
            assert!(two.footroom_m() <= one.footroom_m(), "{case:?}");
            compared += usize::from(one.footroom_m().is_some());
            continue;
        }
        let fewer = looked(&case);
        if let Some(room_m) = fewer.footroom_m() {
            let with_all_m = all.footroom_m();
            assert!(
                with_all_m.is_some_and(|m| m <= room_m),
                "{with_all_m:?} {room_m} {case:?}"
            );
            compared += 1;
        }
    }
    assert!(compared > 125, "{compared}");
}

#[test]
fn one_more_user_never_raises_the_room_anywhere() {
    one_more_user_never_raises_the_room(0);
}

#[test]
fn one_more_user_never_raises_the_room_on_other_lines() {
    one_more_user_never_raises_the_room(1);
}

/// What stands there is the answer to that case, and never better than the case as given.
#[test]
fn what_is_found_is_the_answer_there() {
    let mut elsewhere = 0;
    for mut case in drawn(16, generate::varied()) {
        case.motion.duration_s = 2.0;
        let found = looked(&case);
        let here = find(&case, Effort::Full).expect("a case without faults");
        for one in found.each() {
            let there = find(&one.posed.case(&case), Effort::Full).expect("no faults");
            assert_eq!(there, one.finding);
        }
        if let (Some(here_m), Some(least_m)) = (here.known_footroom_m(), found.footroom_m()) {
            assert!(least_m <= here_m);
            elsewhere += usize::from(least_m < here_m);
        }
        if let (Some(here), Some(weakest)) = (here.standing.strength, found.weakest()) {
            assert!(weakest.kept() <= here.kept());
        }
        if here.unknown.is_none() {
            assert!(found.mark() >= here.standing.mark());
        }
    }
    assert!(elsewhere > 8, "{elsewhere}");
}

/// A scan of 101 places, all falling as given, finds little that is worse: of one who falls alone the
/// search misses what lies between its steps, a sixty-fourth of the longest span; of a crew also what
/// its later bounces do, which change by centimetres from place to place and with differences that the
/// corners do not show ([`footroom_core::nearby`]).
#[test]
fn a_finer_scan_finds_little_that_is_worse() {
    const ALONE_M: f64 = 0.005;
    const CREW_M: f64 = 0.05;
    let mut missed_m = [0.0_f64; 2];
    for mut case in drawn(8, generate::typical(2)) {
        case.motion.duration_s = 2.5;
        let Some(least_m) = looked(&case).footroom_m() else {
            continue;
        };
        let places = case.workers.iter().map(|w| w.position_m);
        let (first, last) = places.fold((f64::INFINITY, 0.0_f64), |(a, b), x| (a.min(x), b.max(x)));
        let (from, to) = (-first, case.line.length_m() - last);
        for i in 0..=100 {
            let mut moved = case.clone();
            let shift = from + (to - from) * f64::from(i) / 100.0;
            for worker in &mut moved.workers {
                worker.position_m = (worker.position_m + shift).clamp(0.0, case.line.length_m());
            }
            if let Ok(there) = find(&moved, Effort::Full)
                && let Some(m) = there.known_footroom_m()
            {
                let most = &mut missed_m[usize::from(case.workers.len() > 1)];
                *most = most.max(least_m - m);
            }
        }
    }
    let [alone_m, crew_m] = missed_m;
    println!("a scan finds {alone_m:.4} m less of one, {crew_m:.4} m less of two");
    assert!(alone_m < ALONE_M && crew_m < CREW_M, "{missed_m:?}");
}

/// Who moves freely may also keep the distance, so there is never more room. Of 60 random places for
/// each worker, [`APART_M`] and more from another, the worst leaves little less than what was found:
/// the ways to stand that are tried are the bad ones. There is no outside source for the worst places.
#[test]
fn a_crew_that_moves_freely_has_no_worse_place_by_chance() {
    let mut dice = TestRunner::new(Config {
        rng_seed: RngSeed::Fixed(20_261_130),
        failure_persistence: None,
        ..Config::default()
    });
    let (mut less, mut missed_m) = (0, Vec::new());
    for mut case in drawn(9, generate::typical(3)) {
        if case.workers.len() < 2 {
            continue;
        }
        case.motion.duration_s = 2.0;
        let kept = looked(&case);
        case.crew_moves = CrewMoves::Freely;
        let free = looked(&case);
        let (Some(kept_m), Some(free_m)) = (kept.footroom_m(), free.footroom_m()) else {
            continue;
        };
        assert!(free_m <= kept_m, "{free_m} {kept_m} {case:?}");
        let weakest = |found: &Anywhere| found.weakest().map_or(f64::INFINITY, |s| s.kept());
        assert!(weakest(&free) <= weakest(&kept));
        less += usize::from(free_m < kept_m - 0.01);
        let length_m = case.line.length_m();
        let places = proptest::collection::vec(0.0..length_m, case.workers.len());
        let mut worst_m = f64::INFINITY;
        for _ in 0..60 {
            let places = places.new_tree(&mut dice).expect("places").current();
            let close = |i: usize| (places[..i].iter()).any(|m| (m - places[i]).abs() < APART_M);
            if (1..places.len()).any(close) {
                continue;
            }
            let mut stood = case.clone();
            for (worker, m) in stood.workers.iter_mut().zip(places) {
                worker.position_m = m;
            }
            if let Ok(there) = find(&stood, Effort::Full)
                && let Some(m) = there.known_footroom_m()
            {
                worst_m = worst_m.min(m);
            }
        }
        missed_m.push(free_m - worst_m);
    }
    println!("less room than with distances kept in {less}; chance finds less by {missed_m:?}");
    assert!(less > 2 && missed_m.len() > 4);
    assert!(missed_m.iter().all(|m| *m < 0.03), "{missed_m:?}");
}

/// Where distances have changed, the third line names every place; what else was tried is said too.
#[test]
fn the_line_of_a_crew_that_moves_freely_names_the_places() {
    let mut case = demo();
    case.crew_moves = CrewMoves::Freely;
    case.motion.duration_s = 2.0;
    let found = looked(&case);
    let assessment = assess(&case, Options::default()).expect("no faults");
    let given: Vec<f64> = case.workers.iter().map(|w| w.position_m).collect();
    let changed = |posed: &Posed| {
        let moved = posed.position_m.iter().zip(&given).map(|(a, b)| a - b);
        let moved: Vec<f64> = moved.collect();
        matches!(posed.who, Who::First { .. })
            && moved.windows(2).any(|pair| (pair[0] - pair[1]).abs() > 0.1)
    };
    let room = found.room.as_ref().expect("a result");
    assert!(changed(&room.posed), "{room:?}");
    for voice in VOICES {
        let told = Told::of(voice, &case, &assessment).with_anywhere(Some(&found));
        let line = told.answer().lines.pop().expect("three lines");
        for m in &room.posed.position_m {
            let at = footroom_web::say::format::length(voice.units, *m);
            assert!(line.text.contains(&at), "{at} {line:?}");
        }
        let freely = voice.office().anywhere_freely;
        assert!(told.anywhere_note().contains(freely));
        case.crew_moves = CrewMoves::KeepingDistances;
        let kept = Told::of(voice, &case, &assessment).with_anywhere(Some(&found));
        assert!(!kept.anywhere_note().contains(freely));
        case.crew_moves = CrewMoves::Freely;
    }
}

/// Where one alone goes deeper than all do, that stands.
#[test]
fn one_who_falls_alone_is_never_replaced_by_all() {
    let mut alone = 0;
    for mut case in drawn(24, generate::typical(3)) {
        case.motion.duration_s = 2.0;
        let Some(room) = looked(&case).room else {
            continue;
        };
        for worker in 0..case.workers.len() {
            let one = Posed {
                who: Who::One { worker },
                when: When::Together,
                position_m: case.workers.iter().map(|w| w.position_m).collect(),
            };
            // By the corners, in which the search compares the places.
            if let Ok(there) = find(&one.case(&case), Effort::Corners)
                && there.unknown.is_none()
            {
                assert!(
                    room.finding.footroom_m <= there.footroom_m + 0.01,
                    "{case:?}"
                );
            }
        }
        alone += usize::from(case.workers.len() > 1 && matches!(room.posed.who, Who::One { .. }));
    }
    println!("one alone has the least room in {alone} crews");
    assert!(alone > 0);
}

fn answer(case: &Case, anywhere: Option<&Anywhere>) -> (Answer, Tally) {
    let found = assess(case, Options::default()).expect("a case without faults");
    let told = Told::of(VOICE, case, &found).with_anywhere(anywhere);
    (told.answer(), Tally::of(&found.checks(case)))
}

fn rank(mark: &str) -> usize {
    let marks = ["holds", "open", "fails", "unknown"];
    marks.iter().position(|m| *m == mark).expect("a mark")
}

/// The headline's mark is the worst of room, strength and anywhere, and no case with a failed check
/// has the mark of one without.
#[test]
fn the_mark_is_the_worst_of_the_lines() {
    let mut seen = [0; 4];
    let mut failed = 0;
    for (i, mut case) in drawn(1_000, generate::varied()).into_iter().enumerate() {
        case.motion.duration_s = 1.0;
        // Where all is known, so that something can hold.
        if i % 2 == 0 {
            strong(&mut case);
        }
        let anywhere = (i % 25 == 0).then(|| looked(&case));
        let (answer, tally) = answer(&case, anywhere.as_ref());
        let [room, strength, elsewhere] = answer.lines.as_slice() else {
            panic!("three lines: {answer:?}");
        };
        let worst = [room, strength, elsewhere].map(|line| rank(line.mark));
        assert_eq!(
            rank(answer.mark),
            worst.into_iter().max().unwrap_or(0),
            "{answer:?}"
        );
        if tally.does_not_meet > 0 {
            failed += 1;
            assert!(rank(answer.mark) >= rank("fails"), "{answer:?}");
        }
        if tally.not_evaluated > 0 && strength.mark == "holds" {
            // What is not a strength, nor a limit of the user's own, may be open.
            let found = assess(&case, Options::default()).expect("no faults");
            let parts = found.checks(&case);
            let open = parts.iter().filter(|c| c.verdict == Verdict::NotEvaluated);
            let told = |set| matches!(set, CheckSet::Part | CheckSet::Own);
            assert!(
                open.filter(|c| told(c.set))
                    .all(|c| { c.reason == Some(footroom_core::check::Reason::Information) })
            );
        }
        if let Some(found) = &anywhere {
            seen[rank(answer.mark)] += 1;
            if let Some(worst) = found.worst() {
                // What is shown on a press has the number that stands there.
                let case = worst.posed.case(&case);
                let (there, _) = crate::answer(&case, None);
                let numbers = there.lines.iter().map(|line| line.number.as_str());
                let numbers: Vec<&str> = numbers.collect();
                let said = elsewhere.number.as_str();
                assert!(
                    numbers[..2].contains(&said) || worst.finding.standing.unknown.is_some(),
                    "{said} {numbers:?}"
                );
            }
            if room.mark != "unknown" {
                assert!(rank(elsewhere.mark) >= rank(room.mark).max(rank(strength.mark)));
            }
        } else {
            assert!(
                rank(answer.mark) >= rank("open"),
                "still looking: {answer:?}"
            );
        }
    }
    println!("marks of the cases looked at anywhere: {seen:?}; {failed} with a failed check");
    assert!(failed > 200 && failed < 990, "{failed}");
    assert!(seen[2] > 0);
}

/// What the page says of a case and what stands in Compare are the same, in every voice: the mark, the
/// room, the strength and the worst anywhere.
#[test]
fn compare_says_what_the_answer_says() {
    let mut compared = [0; 4];
    for (i, mut case) in drawn(30, generate::varied()).into_iter().enumerate() {
        case.motion.duration_s = 1.5;
        let Ok(assessment) = assess(&case, Options::default()) else {
            continue;
        };
        let mut shelf = Shelf::default();
        if shelf.add(&case, "one").is_err() {
            continue;
        }
        let solved = Solved::of(&case).expect("no faults").numbers();
        assert!(shelf.take_in(0, &solved));
        let found = (i % 4 == 0).then(|| looked(&case));
        if let Some(found) = &found {
            assert!(shelf.take_anywhere(0, &numbers(found)));
        }
        for voice in VOICES {
            let told = Told::of(voice, &case, &assessment).with_anywhere(found.as_ref());
            let answer = told.answer();
            let [room, strength, elsewhere] = answer.lines.as_slice() else {
                panic!("three lines: {answer:?}");
            };
            let view = shelf.view(voice, &case);
            let drawn = &view.layouts[0];
            assert_eq!(drawn.mark, answer.mark);
            let heads = |line: &AnswerLine, text: &str| {
                let say = voice.texts().say.answer_line;
                let said = say(&line.heading, &line.number, &line.word);
                assert!(text.starts_with(&said), "{text} {line:?}");
            };
            heads(strength, &drawn.strength);
            assert!(drawn.strength.contains(&strength.text), "{drawn:?}");
            heads(elsewhere, &drawn.anywhere);
            let cell = |place: usize| view.table.rows[place][1].as_str();
            if room.mark != "unknown" {
                // The same number, in the order of either language.
                for text in [drawn.footroom.as_str(), cell(0)] {
                    assert!(text.contains(&room.number), "{text} {room:?}");
                    assert!(text.contains(&room.word), "{text} {room:?}");
                }
            }
            if found.is_some() {
                // Where the strength decides, the room stands behind it.
                let AnswerLine {
                    number, word, text, ..
                } = elsewhere;
                let said = format!("{number} {word}; {text}");
                assert!(said.contains(cell(2)), "{said} {}", cell(2));
            }
            compared[usize::from(found.is_some()) + 2 * usize::from(room.mark == "unknown")] += 1;
        }
    }
    println!("{compared:?}");
    assert!(compared[0] > 15 && compared[1] > 4, "{compared:?}");
}

/// Every strength known and large.
fn strong(case: &mut Case) {
    let most = |path: &str| footroom_core::field::find(path).map_or(1.0e5, |f| f.max);
    case.line.rope.breaking_force_n = Some(most("line.rope.breaking_force_n"));
    let strengths = &mut case.strengths;
    strengths.termination_efficiency_ratio = 1.0;
    strengths.end_anchorage_n = Some(most("strengths.end_anchorage_n"));
    strengths.intermediate_post_n = Some(most("strengths.intermediate_post_n"));
}

/// What fits by all limits is what has no mark of a failure, and the other way round.
#[test]
fn what_fits_has_no_mark_of_a_failure() {
    for mut case in drawn(30, generate::varied()) {
        case.motion.duration_s = 1.5;
        let rules = Rules::new(&case, Limits::All).expect("no faults");
        let here = find(&case, Effort::Full).expect("no faults");
        let fits = rules.stop(&case).is_none();
        assert_eq!(fits, here.standing.mark() <= Mark::Open, "{here:?}");
        let whole = assess(&case, Options::default()).expect("no faults");
        assert_eq!(whole.standing(&case), here.standing);
    }
}

/// The example tells a story in which strength decides.
#[test]
fn in_the_example_strength_decides() {
    let case = demo();
    let found = looked(&case);
    let (answer, _) = answer(&case, Some(&found));
    let marks: Vec<&str> = answer.lines.iter().map(|line| line.mark).collect();
    assert_eq!(marks, ["holds", "fails", "fails"]);
    assert!(
        answer.headline.starts_with("Strength: 1."),
        "{}",
        answer.headline
    );
    assert!(found.tried > 100, "{}", found.tried);
}
