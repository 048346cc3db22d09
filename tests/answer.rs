//! One rule takes a number away: unknown in one place is unknown in all.

use footroom_core::answer::Unknown;
use footroom_core::assess::{Assessment, assess};
use footroom_core::case::{Case, GearKind, Line};
use footroom_core::demo::demo;
use footroom_core::fit::map::{Map, MapSpec, Rows};
use footroom_core::fit::suggest::suggest;
use footroom_core::fit::{Effort, Limits, Rules, Stop, Trial, find, row};
use footroom_core::group::{Search, What, Worst};
use footroom_core::rope::CATALOGUE;
use footroom_core::solve::{Options, solve};
use footroom_core::why::{Asked, Cause, why};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngSeed, TestRunner};
use support::generate;

fn assessed(case: &Case) -> Assessment {
    assess(case, Options::default()).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// Draws cases without faults.
fn drawn(strategy: impl Strategy<Value = Case>, count: usize, seed: u64) -> Vec<Case> {
    let mut runner = TestRunner::new(Config {
        rng_seed: RngSeed::Fixed(seed),
        ..Config::default()
    });
    let mut cases = Vec::new();
    while cases.len() < count {
        let case = strategy.new_tree(&mut runner).expect("a case").current();
        if case.faults().is_empty() {
            cases.push(case);
        }
    }
    cases
}

/// Ropes of the catalogue, some much weaker than that, the first of the crew near a support and at
/// times beside his connector: where lines grow steep or break, and swings end below the stack.
fn near_a_support() -> impl Strategy<Value = Case> {
    (
        generate::varied(),
        0.1..1.2,
        0..CATALOGUE.len(),
        prop_oneof![Just(1.0), 0.12..0.4],
        prop_oneof![2 => Just(0.0), 1 => 0.3..2.0],
    )
        .prop_map(|(mut case, beside_m, rope, part, offset_m)| {
            case.line.rope = CATALOGUE[rope].rope;
            let breaking_n = &mut case.line.rope.breaking_force_n;
            *breaking_n = breaking_n.map(|n| part * n);
            let worker = &mut case.workers[0];
            worker.position_m = beside_m;
            worker.offset_along_m = offset_m;
            worker.fall_time_s = Some(0.0);
            case
        })
}

fn cases() -> Vec<Case> {
    let mut cases = drawn(generate::varied(), 50, 21);
    cases.extend(drawn(near_a_support(), 50, 22));
    cases
}

/// The assessment, the finding of all runs, a row of the comparison, and what stops a case agree on
/// whether the footroom is known, why not, and what it is. Fewer runs may know less, never more.
#[test]
fn unknown_in_one_is_unknown_in_all() {
    let mut met = [0; Unknown::EACH.len()];
    let (mut known, mut only_by_all) = (0, 0);
    for case in cases() {
        let whole = assessed(&case);
        let answer = whole.answer();
        match answer {
            Ok(_) => known += 1,
            Err(why) => met[Unknown::EACH.iter().position(|&w| w == why).unwrap()] += 1,
        }
        let told = whole.decisive_doubt().and_then(|d| d.takes_away());
        assert_eq!(told, answer.err());
        let found = find(&case, Effort::Full).unwrap();
        assert_eq!(found.footroom(), answer.map(|g| g.value));
        assert_eq!(row(&case).unwrap().finding, found);
        for limits in [Limits::KeepMet, Limits::All] {
            let stop = Rules::new(&case, limits).unwrap().stop(&case);
            let why = match stop {
                Some(Stop::Unknown { why }) => Some(why),
                _ => None,
            };
            assert_eq!(why, answer.err(), "{limits:?}");
        }
        let mut trial = Trial::corners(&case).unwrap();
        let quick = trial.finding();
        assert!(quick.unknown.is_none() || answer.is_err());
        only_by_all += usize::from(quick.unknown.is_none() && answer.is_err());
        trial.complete();
        assert_eq!(trial.finding().unknown, answer.err());
        // One run alone knows at most what all of them know.
        let alone = solve(&case, Options::default()).unwrap();
        assert!(alone.unknown().is_none() || answer.is_err());
    }
    let unknown: usize = met.iter().sum();
    assert!(known > 25 && unknown > 25, "{known} {met:?}");
    assert!(met.iter().filter(|&&n| n > 0).count() >= 3, "{met:?}");
    println!("{known} known; unknown {met:?}, {only_by_all} of them by the nominal runs only");
}

fn searched(case: &Case) -> Worst {
    let search = Search::new(case, What::Timing).unwrap();
    search.finish().expect("all its steps are made")
}

/// The same of the searches: for one user there is little to search.
#[test]
fn a_search_knows_what_the_answer_knows() {
    let mut unknown = 0;
    for mut case in drawn(near_a_support(), 12, 23) {
        case.workers.truncate(1);
        let answer = assessed(&case).answer();
        let worst = searched(&case);
        assert_eq!(worst.given.resolved, answer.is_ok());
        assert_eq!(worst.unresolved > 0, answer.is_err());
        unknown += usize::from(answer.is_err());
    }
    assert!((2..11).contains(&unknown), "{unknown}");
}

/// A mixed case on the way between two cases counts as doubtful just when its own run is unknown.
#[test]
fn why_uses_the_same_rule_for_what_lies_between() {
    let mut heavy = demo();
    heavy.workers.truncate(1);
    heavy.workers[0].gear.absorber = None;
    heavy.workers[0].mass_kg = 140.0;
    let mut light = heavy.clone();
    light.workers[0].mass_kg = 60.0;
    let tension_n = |case: &Case| {
        solve(case, Options::default())
            .unwrap()
            .history
            .tension_max_n
    };
    let between_n = 0.5 * (tension_n(&heavy) + tension_n(&light));
    heavy.line.rope.breaking_force_n = Some(4.0 * between_n);
    light.line.rope.breaking_force_n = Some(between_n);
    let mut breaks = heavy.clone();
    breaks.line.rope = light.line.rope;
    let alone = solve(&breaks, Options::default()).unwrap();
    assert_eq!(alone.unknown(), Some(Unknown::LineBreaks));
    let split = why(&heavy, &light, Asked::default()).unwrap();
    let inputs = split.parts.iter().map(|part| part.cause);
    let inputs = inputs.filter(|&cause| cause != Cause::Differences).count();
    assert_eq!((inputs, split.doubtful), (2, 1));
}

/// What is suggested can be answered; a case that cannot be answered is never said to fit.
#[test]
fn no_suggestion_leads_to_an_unknown() {
    let mut cases = drawn(near_a_support(), 12, 6);
    for case in &mut cases {
        case.motion.duration_s = 1.6;
        case.site.below.clear();
        case.workers.truncate(1);
    }
    let (mut unknown, mut suggested) = (0, 0);
    for case in cases {
        let all = suggest(&case, Limits::KeepMet).unwrap();
        if let Err(why) = assessed(&case).answer() {
            assert_eq!(all.stop, Some(Stop::Unknown { why }));
            unknown += 1;
        }
        for suggestion in &all.found {
            suggested += 1;
            let answer = assessed(&suggestion.case).answer();
            assert!(
                answer.is_ok_and(|g| g.value >= 0.0),
                "{:?}",
                suggestion.changes
            );
        }
    }
    assert!(unknown > 2 && suggested > 2, "{unknown} {suggested}");
}

/// A line that grows too steep beside its support is not said to fit because it was too steep before.
#[test]
fn a_line_that_is_too_steep_does_not_fit_for_having_been_so() {
    let mut case = Case {
        line: Line {
            spans_m: vec![9.0; 3],
            pretension_n: 2_200.0,
            ..Line::default()
        },
        ..demo()
    };
    case.site.beam_top_m = 20.0;
    case.site.below.clear();
    case.workers.truncate(1);
    case.workers[0].position_m = 9.05;
    assert_eq!(assessed(&case).answer(), Err(Unknown::TooSteep));
    let why = Unknown::TooSteep;
    for limits in [Limits::KeepMet, Limits::All] {
        let rules = Rules::new(&case, limits).unwrap();
        assert_eq!(rules.stop(&case), Some(Stop::Unknown { why }), "{limits:?}");
    }
}

/// A self-retracting lifeline paid out to the side swings below its stack, in every view.
#[test]
fn a_search_does_not_resolve_a_swing_below_the_stack() {
    let mut case = demo();
    case.workers.truncate(1);
    case.workers[0].gear.kind = GearKind::SelfRetracting;
    case.workers[0].offset_along_m = 2.0;
    assert_eq!(assessed(&case).answer(), Err(Unknown::SwingsBelowStack));
    let worst = searched(&case);
    assert!(!worst.given.resolved && worst.found.is_none());
}

/// A cell of the map with all runs is unknown just when the answer to its case is.
#[test]
fn a_cell_of_the_map_is_unknown_just_when_its_answer_is() {
    let mut case = demo();
    case.motion.duration_s = 1.6;
    case.line.spans_m = vec![9.0, 9.0];
    case.line.pretension_n = 2_000.0;
    case.line.rope.breaking_force_n = Some(26.0e3);
    let spec = MapSpec {
        users_max: 4,
        rows: Rows::Posts { least: 0, most: 5 },
        effort: Effort::Full,
        ..MapSpec::default()
    };
    let map = Map::new(&case, spec).unwrap();
    let (mut known, mut unknown) = (0, 0);
    for row in 0..map.rows() {
        for column in 0..map.columns() {
            let cell = map.cell(column, row).unwrap();
            let answer = assessed(&map.case_of(column, row).unwrap()).answer();
            assert_eq!(cell.footroom_m(), answer.ok().map(|g| g.value));
            known += usize::from(answer.is_ok());
            unknown += usize::from(answer.is_err());
        }
    }
    assert!(known > 3 && unknown > 3, "{known} {unknown}");
}
