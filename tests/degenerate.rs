//! Cases at the edge: empty lists, coincident places, supports, nothing to absorb, the most of
//! everything. Each answers with numbers that make sense, or with the fault that names the field.

use footroom_core::case::{
    Absorber, Below, Case, Gear, InlineAbsorber, Line, Motion, Site, TEXT_MAX, Worker,
};
use footroom_core::constants::{BELOW_MAX, GRAVITY_M_PER_S2, SPANS_MAX, WORKERS_MAX};
use footroom_core::fault::Fault;
use footroom_core::line::{LOADS_MAX, PointLoad, hang};
use footroom_core::scope::Checked;
use footroom_core::solve::{Doubt, Options, Outcome, solve};
use support::closeness::{assert_close, assert_near};
use support::tolerance::{
    MIRROR_MOTION_RTOL, MIRROR_RTOL, MONOTONE_ATOL_M, REFINEMENT_LOW_RTOL, REFINEMENT_RTOL,
    RIGID_RTOL, ROUNDING_ATOL_M, SUDDEN_LOAD_RATIO_MAX,
};

fn solved(case: &Case) -> Outcome {
    let outcome = solve(case, Options::default()).unwrap_or_else(|f| panic!("{f:?}"));
    let text = serde_json::to_string(&outcome).expect("an outcome converts");
    // The writer makes a null of what is not finite; traces were not asked for, nobody swings who
    // stands at his connector, and some checked ranges have no end.
    let endless = outcome.outside_checked.iter();
    let absent = 1
        + outcome.workers.iter().filter(|w| w.swing.is_none()).count()
        + endless.filter(|o| o.greatest.is_none()).count();
    assert_eq!(text.matches("null").count(), absent, "not finite: {text}");
    outcome
}

fn faults(case: &Case) -> Vec<Fault> {
    solve(case, Options::default()).expect_err("a fault")
}

fn crew(places_m: &[f64]) -> Case {
    Case {
        workers: places_m
            .iter()
            .map(|&position_m| Worker {
                position_m,
                ..Worker::default()
            })
            .collect(),
        site: Site {
            beam_top_m: 30.0,
            ..Site::default()
        },
        ..Case::default()
    }
}

fn names(faults: &[Fault]) -> Vec<String> {
    faults.iter().map(|f| f.field().to_string()).collect()
}

#[test]
fn empty_lists_are_named() {
    let mut case = crew(&[]);
    assert_eq!(names(&faults(&case)), ["workers"]);
    case = crew(&[6.0]);
    case.line.spans_m.clear();
    assert!(names(&faults(&case)).contains(&"line.spans_m".to_string()));
    assert!(hang(&case.line, &[]).is_err());
}

#[test]
fn too_many_are_counted() {
    let mut case = crew(&[6.0; WORKERS_MAX + 1]);
    case.site.below = vec![Below::default(); BELOW_MAX + 1];
    case.title = "x".repeat(TEXT_MAX + 1);
    let found = names(&faults(&case));
    for name in ["workers", "site.below", "title"] {
        assert!(found.iter().any(|f| f == name), "{name} in {found:?}");
    }
    case = crew(&[6.0]);
    case.line.spans_m = vec![4.0; SPANS_MAX + 1];
    assert!(names(&faults(&case)).contains(&"line.spans_m".to_string()));
    let loads = vec![
        PointLoad {
            position_m: 1.0,
            force_n: 1.0
        };
        LOADS_MAX + 1
    ];
    assert!(hang(&Line::default(), &loads).is_err());
}

#[test]
fn nobody_falls() {
    let mut case = crew(&[6.0]);
    case.workers[0].fall_time_s = None;
    assert_eq!(names(&faults(&case)), ["workers.fall_time_s"]);
}

#[test]
fn negative_span_is_a_fault_and_no_panic() {
    for span_m in [-1.0, -1.0e-300, f64::NEG_INFINITY, f64::NAN, 0.0] {
        let mut case = crew(&[6.0]);
        case.line.spans_m = vec![span_m];
        assert!(
            names(&faults(&case)).contains(&"line.spans_m[0]".to_string()),
            "{span_m}"
        );
    }
}

/// Two at one place are one of twice the mass on twice the gear.
#[test]
fn coincident_workers_are_one_twice_as_heavy() {
    let two = solved(&crew(&[5.0, 5.0]));
    let mut case = crew(&[5.0]);
    let worker = &mut case.workers[0];
    worker.mass_kg *= 2.0;
    worker.gear.stiffness_n_per_m *= 2.0;
    let absorber = worker.gear.absorber.as_mut().expect("an absorber");
    absorber.average_force_n *= 2.0;
    absorber.locked_stiffness_n_per_m *= 2.0;
    let one = solved(&case);
    for i in 0..2 {
        assert_close(
            "force",
            2.0 * two.workers[i].arrest_force_max_n,
            one.workers[0].arrest_force_max_n,
            // The step follows from the stiffness of the single gears: it need not be the same.
            RIGID_RTOL,
        );
        assert_near(
            "required",
            two.workers[i].stack.required_m,
            one.workers[0].stack.required_m,
            MONOTONE_ATOL_M,
        );
    }
    assert_close(
        "tension",
        two.history.tension_max_n,
        one.history.tension_max_n,
        RIGID_RTOL,
    );
}

/// Millimetres from a support, where the piece of rope between is tiny.
#[test]
fn a_hair_from_a_support() {
    let mut case = crew(&[0.0, 0.0]);
    case.line.spans_m = vec![5.164_605, 8.785_448];
    case.line.inline_absorber = Some(InlineAbsorber {
        yield_force_n: 14_000.0,
        max_extension_m: 0.5,
        ..InlineAbsorber::default()
    });
    for apart_m in [1.0e-9, 1.0e-6, 1.0e-4, 2.76e-3, 1.0e-2, 5.0e-2] {
        for place_m in [5.164_605 - apart_m, 5.164_605 + apart_m] {
            case.workers[0].position_m = place_m;
            case.workers[1].position_m = 4.64;
            let outcome = solved(&case);
            assert!(
                outcome.history.tension_max_n < 1.0e6,
                "{place_m}: {outcome:?}"
            );
        }
    }
}

/// So close that no piece of rope fits between them: as good as coincident.
#[test]
fn nearly_coincident_workers() {
    let together = solved(&crew(&[5.0, 5.0]));
    for apart_m in [1.0e-12, 1.0e-9, 1.0e-6, 1.0e-3] {
        let near = solved(&crew(&[5.0, 5.0 + apart_m]));
        assert_near(
            "footroom",
            near.footroom_m,
            together.footroom_m,
            apart_m + 5.0 * MONOTONE_ATOL_M,
        );
    }
}

#[test]
fn at_a_support_the_line_does_not_deflect() {
    let mut case = crew(&[0.0]);
    case.line.spans_m = vec![6.0, 6.0];
    for place_m in [0.0, 6.0, 12.0] {
        case.workers[0].position_m = place_m;
        let outcome = solved(&case);
        let found = &outcome.workers[0];
        assert_eq!(found.line_deflection_max_m, 0.0, "at {place_m}");
        assert_eq!(found.history_stack.line_deflection_m, 0.0);
        assert_eq!(found.balance_stack.line_deflection_m, 0.0);
        assert_close(
            "tension",
            outcome.history.tension_horizontal_max_n,
            case.line.pretension_n,
            RIGID_RTOL,
        );
    }
}

/// Position at the line's very end is on the line, one unit of the last place beyond is not.
#[test]
fn position_exactly_at_the_end() {
    let mut case = crew(&[12.0]);
    solved(&case);
    case.workers[0].position_m = 12.0_f64.next_up();
    assert_eq!(names(&faults(&case)), ["workers[0].position_m"]);
    // A sum of spans that is not exact in binary is its own end.
    case.line.spans_m = vec![0.1 + 3.9, 4.3, 7.7];
    case.workers[0].position_m = case.line.length_m();
    solved(&case);
    // A hair's breadth from a support.
    case.workers[0].position_m = case.line.length_m() - 1.0e-9;
    solved(&case);
}

/// Zero free fall: he steps off with the gear taut; without absorber that doubles the weight.
#[test]
fn zero_free_fall() {
    let mut case = crew(&[0.0]);
    case.workers[0].gear = Gear {
        absorber: None,
        free_fall_m: Some(0.0),
        ..Gear::default()
    };
    let outcome = solved(&case);
    let weight_n = case.workers[0].mass_kg * GRAVITY_M_PER_S2;
    assert_close(
        "history",
        outcome.workers[0].arrest_force_max_n,
        2.0 * weight_n,
        RIGID_RTOL,
    );
    assert_close(
        "balance",
        outcome.balance.arrest_force_n[0],
        2.0 * weight_n,
        RIGID_RTOL,
    );
    case.workers[0].position_m = 6.0;
    assert!(solved(&case).workers[0].arrest_force_max_n >= weight_n);
}

#[test]
fn weight_beyond_the_absorbers_force_uses_it_up() {
    let mut case = crew(&[6.0]);
    let worker = &mut case.workers[0];
    worker.mass_kg = 200.0;
    worker.gear.absorber = Some(Absorber {
        average_force_n: 1_500.0,
        max_extension_m: 0.05,
        ..Absorber::default()
    });
    let outcome = solved(&case);
    let found = &outcome.workers[0];
    assert!(found.absorber_used_up);
    assert_close("extension", found.absorber_extension_m, 0.05, MIRROR_RTOL);
    assert!(found.arrest_force_max_n > 1_500.0);
    assert!(
        outcome
            .doubts
            .iter()
            .any(|d| matches!(d, Doubt::AbsorberUsedUp { worker: 0, .. })),
        "{:?}",
        outcome.doubts
    );
}

/// Below the spans that were checked, and beyond, what is computed still follows the statics under the
/// absorber's force, is symmetric, and is told to lie outside.
#[test]
fn shortest_spans() {
    let mut case = crew(&[0.0]);
    case.line.spans_m = vec![1.0];
    let rigid = solved(&case).workers[0];
    assert_eq!(rigid.line_deflection_max_m, 0.0);
    let middle = |case: &Case| {
        let outcome = solved(case);
        let at = &case.workers[0];
        let absorber = at.gear.absorber.expect("an absorber");
        let load = PointLoad {
            position_m: at.position_m,
            force_n: absorber.average_force_n,
        };
        let still = hang(&case.line, &[load]).expect("a valid line");
        // A pull that grows with the cube of the deflection is a tension that grows with its square.
        for (what, moving, still, power) in [
            (
                "deflection",
                outcome.workers[0].line_deflection_max_m,
                still.deflection_m[0],
                1,
            ),
            (
                "tension",
                outcome.history.tension_max_n,
                still.tension_max_n,
                2,
            ),
        ] {
            let ratio = moving / still;
            let most = SUDDEN_LOAD_RATIO_MAX.powi(power);
            assert!((1.0..=most).contains(&ratio), "{what}: {ratio} of {most}");
        }
        outcome
    };
    case.workers[0].position_m = 0.5;
    let short = middle(&case);
    let deeper_m = short.workers[0].drop_max_m - rigid.drop_max_m;
    let line_m = short.workers[0].line_deflection_max_m;
    assert!(deeper_m > 0.0 && deeper_m <= line_m, "{deeper_m} {line_m}");

    case.line.spans_m = vec![1.0, 60.0, 1.0];
    let at = |place_m: f64| {
        let mut case = case.clone();
        case.workers[0].position_m = place_m;
        case
    };
    let [left, right] = [0.5, 61.5].map(|place_m| solved(&at(place_m)).workers[0]);
    for (what, a, b) in [
        ("drop", left.drop_max_m, right.drop_max_m),
        ("required", left.stack.required_m, right.stack.required_m),
    ] {
        assert_close(what, a, b, MIRROR_MOTION_RTOL);
    }
    // The long span gives rope to a short one, which goes down more than when its ends hold it.
    assert!(left.line_deflection_max_m > 2.0 * line_m);
    let on_post = solved(&at(1.0)).workers[0];
    assert_eq!(on_post.line_deflection_max_m, 0.0);
    assert_near(
        "on a post",
        on_post.drop_max_m,
        rigid.drop_max_m,
        ROUNDING_ATOL_M,
    );
    let long = middle(&at(31.0));
    // A line with a span of 1 m, or of 60 m, or both: the one that is farthest outside is named.
    for (outcome, spans_m) in [(&short, &[1.0][..]), (&long, &[1.0, 60.0])] {
        let said = &outcome.outside_checked;
        assert!(
            said.iter()
                .any(|o| o.quantity == Checked::Span && spans_m.contains(&o.value)),
            "{said:?}"
        );
    }
}

#[test]
fn twelve_spans_and_six_workers() {
    let mut case = crew(&[3.0, 3.0, 11.0, 20.0, 41.0, 59.0]);
    case.line.spans_m = vec![5.0; SPANS_MAX];
    case.line.left_end_stiffness_n_per_m = Some(1.0e6);
    for (i, worker) in case.workers.iter_mut().enumerate() {
        worker.fall_time_s = (i != 3).then_some(0.15 * i as f64);
    }
    let outcome = solved(&case);
    assert_eq!(outcome.rest.sag_m.len(), SPANS_MAX);
    for (i, found) in outcome.workers.iter().enumerate() {
        assert_eq!(found.fell, i != 3);
    }
    assert!(!outcome.workers[3].fell && outcome.workers[3].arrest_force_max_n == 0.0);
}

#[test]
fn inline_absorber_that_yields_at_once_and_ends_at_once() {
    let mut case = crew(&[6.0]);
    case.line.inline_absorber = Some(InlineAbsorber {
        yield_force_n: case.line.pretension_n,
        max_extension_m: 0.01,
        ..InlineAbsorber::default()
    });
    let outcome = solved(&case);
    assert_close(
        "extension",
        outcome.history.inline_extension_m,
        0.01,
        MIRROR_RTOL,
    );
    assert!(
        outcome
            .doubts
            .iter()
            .any(|d| matches!(d, Doubt::InlineAbsorberUsedUp { .. }))
    );
}

/// The run ends before he falls: the time history says that it did not get there.
#[test]
fn fall_after_the_end_of_the_run() {
    let mut case = crew(&[6.0]);
    case.workers[0].fall_time_s = Some(5.0);
    case.motion.duration_s = 0.5;
    let outcome = solved(&case);
    assert!(
        outcome
            .doubts
            .iter()
            .any(|d| matches!(d, Doubt::NotFinished { worker: 0 })),
        "{:?}",
        outcome.doubts
    );
}

#[test]
fn striking_what_is_below() {
    let mut case = crew(&[6.0]);
    case.site.beam_top_m = 2.0;
    let outcome = solved(&case);
    assert!(outcome.footroom_m < 0.0);
    let strike = outcome
        .doubts
        .iter()
        .find_map(|d| match *d {
            Doubt::Strikes {
                time_s,
                speed_m_per_s,
                ..
            } => Some((time_s, speed_m_per_s)),
            _ => None,
        })
        .expect("he strikes the ground");
    // The harness allowance lowers the soles: 1.7 m of fall, or longer where the line holds him.
    let height_m = 2.0 - case.workers[0].harness_stretch_m;
    let free_s = (2.0 * height_m / GRAVITY_M_PER_S2).sqrt();
    assert!(strike.0 >= free_s - 2.0e-3, "{strike:?}");
    assert!(
        strike.1 > 0.0 && strike.1 <= (2.0 * GRAVITY_M_PER_S2 * height_m).sqrt() + 1.0e-2,
        "{strike:?}"
    );
}

/// Reach: what stands just beyond it does not count, what stands just within it does.
#[test]
fn things_below_count_within_reach_only() {
    let mut case = crew(&[6.0]);
    let footroom_m = |from_m: f64| {
        let mut case = case.clone();
        case.site.below = vec![Below {
            from_m,
            to_m: from_m + 1.0,
            height_m: 3.0,
            ..Below::default()
        }];
        solved(&case).footroom_m
    };
    let (inside, beyond) = (footroom_m(7.0), footroom_m(7.0_f64.next_up()));
    assert_near("height of the thing", beyond - inside, 3.0, 1.0e-12);
    case.site.reach_m = 0.0;
    solved(&case);
}

/// The shortest run ends in free fall, which is what it says; the longest one adds to the usual one
/// what comes later, and changes next to nothing of what came before.
#[test]
fn longest_and_shortest_run() {
    // No step of the motion is longer.
    const STEP_MAX_S: f64 = 1.0e-3;
    let run = |duration_s: f64, damping_s: f64| {
        let mut case = crew(&[6.0]);
        case.motion = Motion {
            damping_s,
            duration_s,
        };
        solved(&case)
    };
    let mut left_j = Vec::new();
    for damping_s in [0.0, 1.0e-3] {
        let short = run(0.5, damping_s);
        assert!(
            short.doubts.contains(&Doubt::NotFinished { worker: 0 }),
            "{:?}",
            short.doubts
        );
        let fell_m = short.workers[0].drop_max_m - 0.5 * GRAVITY_M_PER_S2 * 0.5 * 0.5;
        let step_m = GRAVITY_M_PER_S2 * 0.5 * STEP_MAX_S;
        assert!((-ROUNDING_ATOL_M..=step_m).contains(&fell_m), "{fell_m}");
        assert_eq!(short.workers[0].arrest_force_max_n, 0.0);

        let [usual, long] = [6.0, 10.0].map(|duration_s| run(duration_s, damping_s));
        assert_eq!((&usual.doubts, &long.doubts), (&Vec::new(), &Vec::new()));
        let [a, b] = [usual.workers[0], long.workers[0]];
        // Either may have been repeated with a finer step.
        for (what, a, b) in [
            ("instant", a.time_first_lowest_s, b.time_first_lowest_s),
            ("drop", a.drop_first_lowest_m, b.drop_first_lowest_m),
        ] {
            assert_close(what, b, a, REFINEMENT_RTOL);
        }
        let least = 1.0 - REFINEMENT_RTOL;
        assert!(b.drop_max_m >= least * a.drop_max_m);
        assert!(b.absorber_extension_m >= least * a.absorber_extension_m);
        // Peaks of tension hang on the step more than lengths do.
        let least_n = (1.0 - REFINEMENT_LOW_RTOL) * usual.history.tension_max_n;
        assert!(long.history.tension_max_n >= least_n);
        assert!(b.time_lowest_s <= 10.0);
        let energy = long.history.energy;
        assert_eq!(energy.damping_j > 0.0, damping_s > 0.0, "{energy:?}");
        assert!(energy.damping_j >= least * usual.history.energy.damping_j);
        left_j.push(energy.kinetic_j);
    }
    // What the damping has taken does not move any more.
    assert!(left_j[1] < left_j[0], "{left_j:?}");
}

/// Slope and force beyond what the model was checked at are said, not hidden.
#[test]
fn doubts_are_said() {
    let mut case = crew(&[6.0]);
    case.line.rope.breaking_force_n = Some(5_000.0);
    let outcome = solved(&case);
    assert!(
        outcome
            .doubts
            .iter()
            .any(|d| matches!(d, Doubt::BeyondBreaking { .. })),
        "{:?}",
        outcome.doubts
    );
}
