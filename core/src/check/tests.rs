//! Verdicts, their bounds and what keeps them from being given.

use super::*;
use crate::case::{EndPost, Gear, GearKind};
use crate::case::{Posts, Strengths, TEXT_MAX, Worker};
use crate::constants::{FOOT_M, GRAVITY_M_PER_S2, POUND_FORCE_N};
use crate::fault::{Fault, FieldRef};
use crate::support::PostKick;
use alloc::string::ToString;
use alloc::vec;

/// The faults of a case that has none but those of its own limits.
fn own_limit_faults(own: &[OwnLimit]) -> Vec<Fault> {
    Case {
        own_limits: own.to_vec(),
        ..crate::demo::demo()
    }
    .faults()
}

const HORIZONTAL_N: f64 = 20.0e3;

fn worker_demand() -> WorkerDemand {
    WorkerDemand {
        worker: 0,
        arrest_force_n: 4_600.0,
        free_fall_m: 1.5,
        deceleration_distance_m: 0.9,
        required_depth_m: 7.0,
        margin_m: 1.0,
        available_depth_m: 7.5,
        contact: false,
    }
}

fn demands() -> Demands {
    let end = EndDemand {
        tension_n: 20.5e3,
        horizontal_n: HORIZONTAL_N,
        vertical_n: 4.5e3,
    };
    Demands {
        workers: vec![worker_demand()],
        tension_max_n: 20.6e3,
        left_end: end,
        right_end: end,
        intermediate_posts: vec![PostKick {
            vertical_n: 5.0e3,
            horizontal_n: -700.0,
        }],
    }
}

fn case() -> Case {
    Case {
        workers: vec![Worker::default(); 2],
        posts: Posts {
            left: Some(EndPost::default()),
            right: Some(EndPost::default()),
        },
        ..Case::default()
    }
}

fn rated() -> Case {
    Case {
        strengths: Strengths {
            end_anchorage_n: Some(60.0e3),
            post_moment_n_m: Some(40.0e3),
            post_compression_n: Some(80.0e3),
            tieback_n: Some(70.0e3),
            tieback_anchorage_n: Some(65.0e3),
            intermediate_post_n: Some(20.0e3),
            intermediate_post_along_n: Some(6.0e3),
            lanyard_n: Some(23.0e3),
            self_retracting_n: Some(14.0e3),
            ..Strengths::default()
        },
        ..case()
    }
}

const BOTH: Sets = Sets {
    us: true,
    european: true,
};

fn find<'a>(all: &'a [Check], key: &str) -> &'a Check {
    all.iter().find(|c| c.key == key).unwrap()
}

/// Published values 2 and 4: each constant is the stricter reading of the text.
#[test]
fn limits_are_the_stricter_of_both_units() {
    assert_eq!(US_ARREST_FORCE_MAX_N, 8_000.0);
    assert_eq!(US_FREE_FALL_MAX_M, 1.8);
    assert_eq!(US_DECELERATION_DISTANCE_MAX_M, 3.5 * FOOT_M);
    let anchorage_n = US_ANCHORAGE_PER_WORKER_N;
    assert!((22_200.0..22_250.0).contains(&anchorage_n), "{anchorage_n}");
}

#[test]
fn every_limit_turns_exactly_at_its_value() {
    type Set = fn(&mut WorkerDemand, f64);
    let table: [(&str, f64, Set); 5] = [
        ("us.arrest_force", US_ARREST_FORCE_MAX_N, |w, x| {
            w.arrest_force_n = x;
        }),
        ("us.free_fall", US_FREE_FALL_MAX_M, |w, x| w.free_fall_m = x),
        (
            "us.deceleration_distance",
            US_DECELERATION_DISTANCE_MAX_M,
            |w, x| w.deceleration_distance_m = x,
        ),
        ("eu.arrest_force", EN_ARREST_FORCE_MAX_N, |w, x| {
            w.arrest_force_n = x;
        }),
        ("eu.absorber_extension", EN_EXTENSION_MAX_M, |w, x| {
            w.deceleration_distance_m = x;
        }),
    ];
    for (key, most, set) in table {
        for (value, verdict) in [
            (0.0, Verdict::Meets),
            (most, Verdict::Meets),
            (most * (1.0 + 1e-9), Verdict::DoesNotMeet),
        ] {
            let mut demands = demands();
            set(&mut demands.workers[0], value);
            let all = checks(&case(), &demands, BOTH, &[]);
            let check = find(&all, key);
            assert_eq!(check.verdict, verdict, "{key} at {value}");
            assert_eq!(check.capacity, Some(most));
            assert!(check.ratio.is_none_or(|r| (r * value - most).abs() < 1e-9));
        }
    }
}

#[test]
fn contact_counts_without_the_margin_and_touching_is_contact() {
    let with = |required_depth_m, contact| {
        let mut demands = demands();
        demands.workers[0].required_depth_m = required_depth_m;
        demands.workers[0].contact = contact;
        checks(&case(), &demands, BOTH, &[])
    };
    // Available 7.5 m, margin 1 m.
    for (required_m, contact, touch, room) in [
        (7.5, false, Verdict::Meets, Verdict::Meets),
        (7.6, false, Verdict::Meets, Verdict::DoesNotMeet),
        (8.5, false, Verdict::DoesNotMeet, Verdict::DoesNotMeet),
        (7.0, true, Verdict::DoesNotMeet, Verdict::Meets),
    ] {
        let all = with(required_m, contact);
        assert_eq!(find(&all, "us.no_contact").verdict, touch, "{required_m}");
        assert_eq!(find(&all, "site.footroom").verdict, room, "{required_m}");
    }
}

#[test]
fn what_is_not_known_is_never_met() {
    let mut bare = case();
    bare.line.rope.breaking_force_n = None;
    let all = checks(&bare, &demands(), BOTH, &[]);
    let parts: Vec<&Check> = all.iter().filter(|c| c.set == CheckSet::Part).collect();
    // Rope twice, five a post, two for the intermediate post.
    assert_eq!(parts.len(), 2 + 2 * 5 + 2);
    for check in parts {
        assert_eq!(check.verdict, Verdict::NotEvaluated, "{}", check.key);
        assert!(check.demand.is_some(), "{}", check.key);
        match check.reason {
            Some(Reason::StrengthMissing { field }) => {
                assert!(crate::field::find(field).is_some(), "{field}");
            }
            reason => panic!("{}: {reason:?}", check.key),
        }
    }
    let system = find(&all, "us.system_factor");
    assert_eq!(system.verdict, Verdict::NotEvaluated);
    assert_eq!(
        system.reason,
        Some(Reason::PartsNotEvaluated { count: 2 + 10 + 2 })
    );
    // The count is that of the rows that wait, and no more: a strength entered, one less each.
    let mut some = bare.clone();
    some.strengths.intermediate_post_along_n = Some(6.0e3);
    some.strengths.tieback_n = Some(90.0e3);
    let all = checks(&some, &demands(), BOTH, &[]);
    let open = |c: &&Check| c.set == CheckSet::Part && c.verdict == Verdict::NotEvaluated;
    let count = all.iter().filter(open).count();
    assert_eq!(count, 14 - 1 - 2);
    assert_eq!(
        find(&all, "us.system_factor").reason,
        Some(Reason::PartsNotEvaluated { count })
    );
}

#[test]
fn every_rated_part_is_judged_by_its_own_strength() {
    let all = checks(&rated(), &demands(), BOTH, &[]);
    for check in all.iter().filter(|c| c.set == CheckSet::Part) {
        let (demand, capacity) = (check.demand.unwrap(), check.capacity.unwrap());
        assert_eq!(check.ratio, Some(capacity / demand), "{}", check.key);
        let meets = capacity >= 2.0 * demand;
        assert_eq!(check.verdict == Verdict::Meets, meets, "{}", check.key);
    }
    let demand = |key| find(&all, key).demand.unwrap();
    // Tieback at 45° taking all of H; the post's compression takes V as well.
    let factor = demand("part.tieback") / HORIZONTAL_N;
    assert!((factor - core::f64::consts::SQRT_2).abs() < 1e-12);
    assert_eq!(demand("part.tieback"), demand("part.tieback_anchorage"));
    assert_eq!(demand("part.post_compression"), HORIZONTAL_N + 4.5e3);
    assert!(demand("part.post_moment") < HORIZONTAL_N * 1.5);
    assert_eq!(demand("part.rope"), 20.6e3);
    let termination = find(&all, "part.rope_termination");
    let rope = find(&all, "part.rope");
    assert!(
        (termination.capacity.unwrap() / rope.capacity.unwrap() - 0.8).abs() < 1e-12,
        "{termination:?}"
    );
}

#[test]
fn the_system_is_as_strong_as_its_weakest_part() {
    let mut weak = rated();
    let all = checks(&weak, &demands(), BOTH, &[]);
    let system = find(&all, "us.system_factor");
    assert_eq!(system.verdict, Verdict::Meets, "{system:?}");
    assert!(
        all.iter()
            .filter(|c| c.set == CheckSet::Part)
            .filter_map(|c| c.ratio)
            .all(|r| r >= system.ratio.unwrap())
    );
    weak.strengths.intermediate_post_n = Some(7.0e3);
    // A required ratio of the user's own below two does not soften the regulation's.
    weak.strengths.required_ratio = 1.3;
    let all = checks(&weak, &demands(), BOTH, &[]);
    assert_eq!(find(&all, "part.intermediate_post").verdict, Verdict::Meets);
    let system = find(&all, "us.system_factor");
    assert_eq!(system.verdict, Verdict::DoesNotMeet);
    assert_eq!(system.governing, Some("part.intermediate_post"));
    assert_eq!(system.subject, Subject::IntermediatePost { post: 0 });
    assert_eq!(system.ratio, Some(7.0 / 5.0));
    // One part short is enough, however many are not known.
    weak.strengths.tieback_n = None;
    let all = checks(&weak, &demands(), BOTH, &[]);
    assert_eq!(find(&all, "us.system_factor").verdict, Verdict::DoesNotMeet);
}

#[test]
fn the_pull_along_the_line_at_a_post_has_a_strength() {
    let key = "part.intermediate_post_along_line";
    let with = |strength| {
        let mut case = rated();
        case.strengths.intermediate_post_along_n = strength;
        checks(&case, &demands(), BOTH, &[])
    };
    let all = with(None);
    assert_eq!(find(&all, key).verdict, Verdict::NotEvaluated);
    assert_eq!(
        find(&all, key).reason,
        Some(Reason::StrengthMissing {
            field: "strengths.intermediate_post_along_n"
        })
    );
    assert_eq!(
        find(&all, "us.system_factor").reason,
        Some(Reason::PartsNotEvaluated { count: 1 })
    );
    // 700 N to the right, twice.
    assert_eq!(find(&with(Some(1_400.0)), key).verdict, Verdict::Meets);
    let weak = with(Some(1_399.0));
    assert_eq!(find(&weak, key).verdict, Verdict::DoesNotMeet);
    let system = find(&weak, "us.system_factor");
    assert_eq!(system.verdict, Verdict::DoesNotMeet);
    assert_eq!(system.governing, Some(key));
}

fn retracting(lock_distance_m: f64) -> Worker {
    Worker {
        gear: Gear {
            kind: GearKind::SelfRetracting,
            lock_distance_m,
            ..Gear::default()
        },
        ..Worker::default()
    }
}

fn clause_of(check: &Check) -> &'static str {
    match check.source {
        Source::Clause { clause, .. } => clause,
        _ => "",
    }
}

/// 29 CFR 1926.502(d)(9), (d)(12), (d)(13): what the gear of each worker attached must bear.
#[test]
fn rated_strengths_of_gear_turn_at_the_regulations_values() {
    let judged = |workers: &[Worker], lanyard_n, self_retracting_n| {
        let mut case = rated();
        case.workers = workers.to_vec();
        case.strengths.lanyard_n = lanyard_n;
        case.strengths.self_retracting_n = self_retracting_n;
        checks(&case, &demands(), BOTH, &[])
    };
    let lanyards = [Worker::default(); 2];
    for (rated_n, verdict) in [
        (None, Verdict::NotEvaluated),
        (Some(22_200.0), Verdict::DoesNotMeet),
        (Some(5_000.0 * POUND_FORCE_N), Verdict::Meets),
    ] {
        let all = judged(&lanyards, rated_n, Some(99.0e3));
        let check = find(&all, "us.lanyard_strength");
        assert_eq!(check.verdict, verdict, "{rated_n:?}");
        assert!(clause_of(check).contains("(d)(9)"));
        // Nobody has a self-retracting lifeline.
        assert!(all.iter().all(|c| c.key != "us.self_retracting_strength"));
    }
    let missing = judged(&lanyards, None, None);
    for key in ["us.lanyard_strength", "us.twice_impact_energy"] {
        assert_eq!(
            find(&missing, key).reason,
            Some(Reason::StrengthMissing {
                field: "strengths.lanyard_n"
            })
        );
    }
    let (least_n, most_n) = (3_000.0 * POUND_FORCE_N, 5_000.0 * POUND_FORCE_N);
    let limiting = [retracting(0.6), retracting(2.0 * FOOT_M)];
    let not = [retracting(0.6), retracting(0.61)];
    let mut standing = limiting;
    standing[1].gear.free_fall_m = Some(1.2);
    standing[1].fall_time_s = None;
    for (workers, needed_n, paragraph) in [
        (limiting, least_n, "(d)(12)"),
        (not, most_n, "(d)(13)"),
        (standing, most_n, "(d)(13)"),
    ] {
        for (rated_n, verdict) in [
            (needed_n, Verdict::Meets),
            (needed_n - 1.0, Verdict::DoesNotMeet),
        ] {
            let mut demands = demands();
            demands.workers[0].free_fall_m = 0.6;
            let mut case = rated();
            // The line above every D-ring: the free fall is the locking distance alone.
            case.line.height_above_beam_m = 2.0;
            case.workers = workers.to_vec();
            case.strengths.self_retracting_n = Some(rated_n);
            let all = checks(&case, &demands, BOTH, &[]);
            let check = find(&all, "us.self_retracting_strength");
            assert_eq!(check.verdict, verdict, "{paragraph} {rated_n}");
            assert!(clause_of(check).contains(paragraph), "{check:?}");
            assert!(all.iter().all(|c| c.key != "us.lanyard_strength"));
        }
    }
}

/// 29 CFR 1926.502(d)(16)(v): twice the energy of 6 ft, or of the fall if that is less.
#[test]
fn gear_withstands_twice_the_impact_energy_by_its_rated_strength() {
    let force = |worker: Worker, weaker| {
        let mut case = rated();
        case.workers = vec![worker];
        case.tolerances.mass_ratio = 0.0;
        case.tolerances.absorber_force_ratio = weaker;
        let mut demands = demands();
        demands.workers[0].free_fall_m = 0.0;
        let all = checks(&case, &demands, BOTH, &[]);
        find(&all, "us.twice_impact_energy").clone()
    };
    let mut worker = Worker::default();
    worker.gear.free_fall_m = Some(1.0);
    // 2 m g h against the absorber's work: 2 × 981 J in 4 kN less the weight over 1.07 m.
    let deployed = force(worker, 0.0);
    assert_eq!(deployed.demand, Some(4_000.0 / 0.875));
    assert_eq!(deployed.verdict, Verdict::Meets);
    assert_eq!(deployed.subject, Subject::Worker { worker: 0 });
    // Beyond its travel: W + √((P − W)² + 2 k left), P = 4 kN, left = what its travel leaves.
    worker.gear.free_fall_m = Some(1.8);
    let weight_n = 100.0 * GRAVITY_M_PER_S2;
    let left_j = 2.0 * weight_n * 1.8
        - 4_000.0 * (2_000.0 - weight_n) / 80.0e3
        - 1.07 * (4_000.0 - weight_n);
    let expected = weight_n + ((4_000.0 - weight_n).powi(2) + 160.0e3 * left_j).sqrt();
    let beyond = force(worker, 0.0).demand.unwrap();
    assert!(
        (beyond / expected - 1.0).abs() < 1e-12,
        "{beyond} {expected}"
    );
    assert!(force(worker, 0.15).demand.unwrap() > beyond);
    // 6 ft and no more, however far the fall.
    worker.gear.free_fall_m = Some(6.0 * FOOT_M);
    let six_feet = force(worker, 0.0).demand;
    worker.gear.free_fall_m = Some(5.0);
    assert_eq!(force(worker, 0.0).demand, six_feet);
    // Without an absorber the webbing alone: W (1 + √(1 + 4 h k/W)), twice the handbook's h.
    worker.gear.absorber = None;
    worker.gear.free_fall_m = Some(1.8);
    let bare = force(worker, 0.0);
    let by_hand = weight_n * (1.0 + (1.0 + 4.0 * 1.8 * 80.0e3 / weight_n).sqrt());
    assert!((bare.demand.unwrap() / by_hand - 1.0).abs() < 1e-12);
    assert_eq!(bare.verdict, Verdict::DoesNotMeet);
}

/// 29 CFR 1926.502(d)(16), note: from 310 lb, or 140 kg, the criteria must be modified.
#[test]
fn a_worker_too_heavy_for_the_tests_is_not_said_to_meet() {
    let check = |mass_kg, ratio| {
        let mut case = rated();
        case.workers[1].mass_kg = mass_kg;
        case.tolerances.mass_ratio = ratio;
        find(&checks(&case, &demands(), BOTH, &[]), "us.user_mass").clone()
    };
    assert_eq!(check(139.9, 0.0).verdict, Verdict::Meets);
    assert_eq!(check(139.9, 0.0).subject, Subject::Worker { worker: 1 });
    for (mass_kg, ratio) in [(140.0, 0.0), (160.0, 0.0), (134.0, 0.05)] {
        let heavy = check(mass_kg, ratio);
        assert_eq!(heavy.verdict, Verdict::NotEvaluated, "{mass_kg}");
        assert_eq!(heavy.reason, Some(Reason::CriteriaToModify));
    }
    assert_eq!(
        check(f64::NAN, 0.0).verdict,
        Verdict::NotEvaluated,
        "not known"
    );
}

#[test]
fn self_retracting_gear_stands_beside_its_own_standard() {
    let mut case = rated();
    case.workers = vec![retracting(0.6), Worker::default()];
    let of = |force_n, deceleration_distance_m| {
        let mut demands = demands();
        demands.workers[0].free_fall_m = 0.6;
        demands.workers[0].arrest_force_n = force_n;
        demands.workers[0].deceleration_distance_m = deceleration_distance_m;
        let other = WorkerDemand {
            worker: 1,
            ..worker_demand()
        };
        demands.workers.push(other);
        checks(&case, &demands, BOTH, &[])
    };
    let all = of(6_000.0, 1.4);
    for key in [
        "eu.retractable_arrest_force",
        "eu.retractable_arrest_distance",
    ] {
        let check = find(&all, key);
        assert_eq!(check.verdict, Verdict::Meets, "{check:?}");
        assert_eq!(check.subject, Subject::Worker { worker: 0 });
        assert_eq!(
            check.source,
            Source::Clause {
                clause: "EN 360:2002",
                from_memory: true
            }
        );
    }
    assert_eq!(
        find(&all, "eu.retractable_arrest_distance").demand,
        Some(2.0)
    );
    let all = of(6_001.0, 1.41);
    for check in all.iter().filter(|c| c.key.starts_with("eu.retractable")) {
        assert_eq!(check.verdict, Verdict::DoesNotMeet, "{check:?}");
    }
    // The absorber's standard is for the lanyard.
    let absorbers: Vec<Subject> = (all.iter())
        .filter(|c| matches!(c.key, "eu.arrest_force" | "eu.absorber_extension"))
        .map(|c| c.subject)
        .collect();
    assert_eq!(absorbers, [Subject::Worker { worker: 1 }; 2]);
}

#[test]
fn information_gives_no_verdict() {
    let all = checks(&rated(), &demands(), BOTH, &[]);
    let anchorage = find(&all, "us.anchorage_alternative");
    assert_eq!(anchorage.demand, Some(2.0 * US_ANCHORAGE_PER_WORKER_N));
    assert_eq!(anchorage.capacity, Some(60.0e3));
    for key in ["us.anchorage_alternative", "eu.users"] {
        let check = find(&all, key);
        assert_eq!(check.verdict, Verdict::NotEvaluated, "{key}");
        assert_eq!(check.reason, Some(Reason::Information), "{key}");
    }
    let tally = Tally::of(&all);
    assert_eq!(tally.information, 2);
    assert_eq!(
        tally.meets + tally.does_not_meet + tally.not_evaluated + tally.information,
        all.len()
    );
}

#[test]
fn an_end_without_description_or_tieback_says_so() {
    let mut case = rated();
    case.posts.left = None;
    case.posts.right = Some(EndPost {
        tieback: None,
        ..EndPost::default()
    });
    let all = checks(&case, &demands(), BOTH, &[]);
    let at = |subject, key: &str| {
        all.iter()
            .find(|c| c.subject == subject && c.key == key)
            .cloned()
    };
    let unknown = at(Subject::LeftEnd, "part.tieback").unwrap();
    assert_eq!(unknown.verdict, Verdict::NotEvaluated);
    assert_eq!(unknown.reason, Some(Reason::PostNotDescribed));
    assert_eq!(at(Subject::RightEnd, "part.tieback"), None);
    let moment = at(Subject::RightEnd, "part.post_moment").unwrap();
    assert_eq!(moment.demand, Some(HORIZONTAL_N * 1.5));
}

#[test]
fn own_limits_are_held_against_the_worst() {
    let mut demands = demands();
    demands.workers.push(WorkerDemand {
        worker: 2,
        arrest_force_n: 5_200.0,
        required_depth_m: 7.4,
        ..worker_demand()
    });
    demands.right_end.tension_n = 21.0e3;
    demands.right_end.horizontal_n = 20.2e3;
    let own = |quantity, limit| OwnLimit {
        label: "owner".to_string(),
        quantity,
        limit,
        reference: "site rules 4.2".to_string(),
    };
    let check = |quantity, limit| {
        checks(&rated(), &demands, BOTH, &[own(quantity, limit)])
            .pop()
            .unwrap()
    };
    let second = Subject::Worker { worker: 2 };
    use OwnQuantity as Q;
    for (quantity, demand, subject) in [
        (Q::ArrestForce, 5_200.0, second),
        (Q::FreeFall, 1.5, Subject::Worker { worker: 0 }),
        (Q::DecelerationDistance, 0.9, Subject::Worker { worker: 0 }),
        (Q::RequiredDepth, 7.4, second),
        (Q::Footroom, 0.1, second),
        (Q::LineTension, 20.6e3, Subject::System),
        (Q::EndTension, 21.0e3, Subject::RightEnd),
        (
            Q::TiebackTension,
            20.2e3 * core::f64::consts::SQRT_2,
            Subject::RightEnd,
        ),
        (Q::PostCompression, 24.7e3, Subject::RightEnd),
        (
            Q::IntermediatePostLoad,
            5.0e3,
            Subject::IntermediatePost { post: 0 },
        ),
    ] {
        let more_is_better = quantity == Q::Footroom;
        let above = check(quantity, demand * 1.001);
        assert!((above.demand.unwrap() / demand - 1.0).abs() < 1e-9);
        assert_eq!(above.subject, subject, "{quantity:?}");
        assert_eq!(above.label.as_deref(), Some("owner"));
        assert_eq!(
            above.verdict == Verdict::Meets,
            !more_is_better,
            "{quantity:?}"
        );
        let below = check(quantity, demand * 0.999);
        assert_eq!(
            below.verdict == Verdict::Meets,
            more_is_better,
            "{quantity:?}"
        );
    }
    let moment = check(Q::PostMoment, 1.0);
    assert_eq!(moment.subject, Subject::RightEnd);
    assert_eq!(moment.verdict, Verdict::DoesNotMeet);
}

#[test]
fn own_limits_out_of_range_are_named_and_not_evaluated() {
    let own = |limit| OwnLimit {
        label: "x".repeat(TEXT_MAX + 1),
        quantity: OwnQuantity::FreeFall,
        limit,
        reference: String::new(),
    };
    let faults = own_limit_faults(&[own(f64::NAN), own(-1.0), own(1.0)]);
    let names: Vec<String> = faults.iter().map(|f| f.field().to_string()).collect();
    assert_eq!(
        names,
        [
            "own_limits[0].label",
            "own_limits[0].limit",
            "own_limits[1].label",
            "own_limits[1].limit",
            "own_limits[2].label"
        ]
    );
    assert_eq!(
        own_limit_faults(&vec![own(1.0); OWN_LIMITS_MAX + 1])[0].field(),
        FieldRef::new("own_limits")
    );
    let all = checks(&case(), &demands(), BOTH, &[own(f64::NAN)]);
    let check = find(&all, "own");
    assert_eq!(check.verdict, Verdict::NotEvaluated);
    assert_eq!(check.reason, Some(Reason::LimitNotUsable));
}

#[test]
fn numbers_that_are_not_finite_are_never_met() {
    for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let demands = Demands {
            workers: vec![WorkerDemand {
                worker: 0,
                arrest_force_n: x,
                free_fall_m: x,
                deceleration_distance_m: x,
                required_depth_m: x,
                margin_m: x,
                available_depth_m: x,
                contact: false,
            }],
            tension_max_n: x,
            left_end: EndDemand {
                tension_n: x,
                horizontal_n: x,
                vertical_n: x,
            },
            right_end: EndDemand::default(),
            intermediate_posts: vec![PostKick {
                vertical_n: x,
                horizontal_n: x,
            }],
        };
        let all = checks(&rated(), &demands, BOTH, &[]);
        for check in &all {
            let right = check.subject == Subject::RightEnd;
            // What is of the case, not of the fall; a fall that is not known counts as 6 ft there.
            let of_case = matches!(
                check.key,
                "us.user_mass" | "us.lanyard_strength" | "us.twice_impact_energy"
            );
            assert!(
                check.verdict != Verdict::Meets || right || of_case,
                "{check:?}"
            );
            for number in [check.demand, check.capacity, check.ratio] {
                assert!(number.is_none_or(f64::is_finite), "{check:?}");
            }
        }
        let mut case = rated();
        case.strengths.tieback_n = Some(x);
        case.strengths.required_ratio = x;
        let all = checks(&case, &self::demands(), BOTH, &[]);
        assert_eq!(find(&all, "part.tieback").verdict, Verdict::NotEvaluated);
        assert_eq!(find(&all, "part.rope").verdict, Verdict::NotEvaluated);
    }
    let empty = checks(&rated(), &Demands::default(), BOTH, &[]);
    assert!(
        empty.iter().all(|c| c.ratio.is_none()
            || matches!(
                c.key,
                "us.anchorage_alternative"
                    | "us.lanyard_strength"
                    | "us.twice_impact_energy"
                    | "us.user_mass"
                    | "eu.users"
            )),
        "{empty:?}"
    );
}

#[cfg(feature = "serde")]
#[test]
fn inputs_are_read_with_defaults_and_nothing_unknown() {
    let sets: Sets = serde_json::from_str("{}").unwrap();
    assert_eq!(sets, Sets::default());
    let own = r#"{"label":"a","quantity":"free_fall","limit":1.2,"reference":"b"}"#;
    let own: OwnLimit = serde_json::from_str(own).unwrap();
    let all = checks(&case(), &demands(), BOTH, &[own]);
    let text = serde_json::to_string(find(&all, "own")).unwrap();
    assert!(text.contains(r#""from":"own","reference":"b""#), "{text}");
    assert!(serde_json::from_str::<Sets>(r#"{"moon":true}"#).is_err());
}

#[test]
fn sets_can_be_left_out() {
    let none = Sets {
        us: false,
        european: false,
    };
    let all = checks(&case(), &demands(), none, &[]);
    assert!(
        all.iter()
            .all(|c| matches!(c.set, CheckSet::Part | CheckSet::Site))
    );
    let both = checks(&case(), &demands(), BOTH, &[]);
    assert!(both.iter().any(|c| c.set == CheckSet::Us));
    assert!(both.iter().any(|c| c.set == CheckSet::European));
}
