//! In-line absorbers at the left end, the right end and both: mirror images, closed forms by hand, and
//! the independent cable of `support::cable`.

use footroom_core::case::{Absorber, Case, Gear, InlineAbsorber, InlinePlace, Line, Worker};
use footroom_core::constants::{GRAVITY_M_PER_S2, SLOPE_MAX};
use footroom_core::line::{PointLoad, hang};
use footroom_core::rope::{Construction, Rope};
use footroom_core::setup::tension_at_temperature;
use footroom_core::solve::{Doubt, Outcome};
use support::cable::{CableFall, Fineness, STANDARD, fall};
use support::closeness::{assert_close, assert_near, relative};
use support::solved::{solved, traced};
use support::tolerance::{
    CABLE_INLINE_EXTENSION_ATOL_M, CLOSED_FORM_RTOL, ENERGY_RESIDUAL_MAX, MIRROR_ATOL,
    MIRROR_INLINE_ATOL_N, MIRROR_INLINE_RTOL, MIRROR_RTOL, MULTISPAN_DEPTH_SHORT_ATOL_M,
    MULTISPAN_FIRST_LOWEST_ATOL_M, MULTISPAN_FORCE_RTOL, MULTISPAN_POST_LEAST_N,
    MULTISPAN_POST_RTOL, MULTISPAN_TENSION_HIGH_RTOL, MULTISPAN_TENSION_LOW_RTOL,
    THREE_DIGITS_RTOL,
};

const PLACES: [InlinePlace; 3] = [InlinePlace::Left, InlinePlace::Right, InlinePlace::Both];

/// A line on which everybody falls at once.
fn case(spans_m: &[f64], positions_m: &[f64], ends_n_per_m: [Option<f64>; 2]) -> Case {
    let mut case = Case {
        line: Line {
            spans_m: spans_m.to_vec(),
            left_end_stiffness_n_per_m: ends_n_per_m[0],
            right_end_stiffness_n_per_m: ends_n_per_m[1],
            ..Line::default()
        },
        workers: positions_m
            .iter()
            .map(|&position_m| Worker {
                position_m,
                ..Worker::default()
            })
            .collect(),
        ..Case::default()
    };
    case.site.beam_top_m = 60.0;
    case.motion.duration_s = FINENESS.duration_s;
    case
}

const FINENESS: Fineness = Fineness {
    duration_s: 1.2,
    ..STANDARD
};

/// The same with an absorber there that opens at so much.
fn with(mut case: Case, place: InlinePlace, yield_force_n: f64, max_extension_m: f64) -> Case {
    case.line.inline_absorber = Some(InlineAbsorber {
        yield_force_n,
        max_extension_m,
        place,
    });
    case
}

const SOFT: Option<f64> = Some(4.0e5);
const STIFF: Option<f64> = Some(1.5e6);

/// Lines with at most one worker a span, and a force at which an absorber opens wherever it is.
fn one_a_span() -> Vec<(Case, f64)> {
    vec![
        (case(&[12.0], &[6.0], [None, None]), 8_000.0),
        (case(&[12.0], &[3.7], [None, None]), 8_000.0),
        (case(&[10.0], &[4.1], [SOFT, STIFF]), 9_000.0),
        (case(&[9.0, 9.0, 9.0], &[13.5], [None, None]), 8_000.0),
        (case(&[7.0, 10.0, 8.0], &[3.1], [None, STIFF]), 8_000.0),
        (case(&[9.0, 8.0], &[4.6, 12.9], [STIFF, STIFF]), 9_000.0),
    ]
}

/// The same with two on a span.
fn two_on_a_span() -> Vec<(Case, f64)> {
    vec![
        (case(&[10.0], &[3.0, 6.1], [SOFT, STIFF]), 10_000.0),
        (case(&[8.0; 4], &[2.7, 4.9, 20.2], [None, None]), 11_000.0),
    ]
}

fn everywhere(cases: Vec<(Case, f64)>) -> impl Iterator<Item = Case> {
    let at =
        |(case, force_n): (Case, f64)| PLACES.map(|place| with(case.clone(), place, force_n, 1.5));
    cases.into_iter().flat_map(at)
}

/// In words, for a failure.
fn name(case: &Case) -> String {
    let place = case.line.inline_absorber.map(|a| a.place);
    let positions = case.workers.iter().map(|w| w.position_m);
    let positions: Vec<f64> = positions.collect();
    format!("{place:?} on {:?} at {positions:?}", case.line.spans_m)
}

fn mirrored(case: &Case) -> Case {
    let mut other = case.clone();
    let length_m = case.line.length_m();
    let line = &mut other.line;
    line.spans_m.reverse();
    core::mem::swap(
        &mut line.left_end_stiffness_n_per_m,
        &mut line.right_end_stiffness_n_per_m,
    );
    if let Some(inline) = &mut line.inline_absorber {
        inline.place = match inline.place {
            InlinePlace::Left => InlinePlace::Right,
            InlinePlace::Right => InlinePlace::Left,
            InlinePlace::Both => InlinePlace::Both,
        };
    }
    for worker in &mut other.workers {
        worker.position_m = length_m - worker.position_m;
    }
    other.workers.reverse();
    other
}

/// Both methods and the hanging state: left to right is right to left.
#[test]
fn mirror_images_have_the_same_numbers() {
    for one in everywhere(one_a_span()).chain(everywhere(two_on_a_span())) {
        let (a, b) = (solved(&one), solved(&mirrored(&one)));
        let id = name(&one);
        let same = |what: &str, a: f64, b: f64, rtol: f64, atol: f64| {
            let off = (a - b).abs();
            assert!(
                off <= rtol * a.abs() || off <= atol,
                "{id}: {what} {a} and {b}"
            );
        };
        let last = one.line.spans_m.len();
        let crew = one.workers.len();
        let moved = |what: &str, a: f64, b: f64| same(what, a, b, MIRROR_INLINE_RTOL, MIRROR_ATOL);
        let still = |what: &str, a: f64, b: f64| same(what, a, b, MIRROR_RTOL, MIRROR_ATOL);
        moved("tension", a.history.tension_max_n, b.history.tension_max_n);
        moved(
            "extension",
            a.history.inline_extension_m,
            b.history.inline_extension_m,
        );
        let (ours_m, theirs_m) = (
            a.history.inline_end_extension_m,
            b.history.inline_end_extension_m,
        );
        assert_eq!(ours_m.iter().sum::<f64>(), a.history.inline_extension_m);
        assert!(a.history.inline_extension_m > 0.1, "{id}");
        for end in 0..2 {
            moved("extension of an end", ours_m[end], theirs_m[1 - end]);
            let there = one.line.inline_absorber.is_some_and(|i| i.place.is_at(end));
            assert_eq!(ours_m[end] > 0.0, there, "{id}");
        }
        moved(
            "left end",
            a.history.left_end_movement_max_m,
            b.history.right_end_movement_max_m,
        );
        for (i, ours) in a.supports.iter().enumerate() {
            let theirs = b.supports[last - i];
            for (x, y) in [
                (ours.vertical_max_n, theirs.vertical_max_n),
                (ours.horizontal_max_n, theirs.horizontal_max_n),
            ] {
                same("load", x, y, MIRROR_INLINE_RTOL, MIRROR_INLINE_ATOL_N);
            }
        }
        for (i, ours) in a.workers.iter().enumerate() {
            let theirs = &b.workers[crew - 1 - i];
            moved("force", ours.arrest_force_max_n, theirs.arrest_force_max_n);
            moved(
                "first lowest point",
                ours.drop_first_lowest_m,
                theirs.drop_first_lowest_m,
            );
            moved("drop", ours.drop_max_m, theirs.drop_max_m);
            moved(
                "absorber",
                ours.absorber_extension_m,
                theirs.absorber_extension_m,
            );
        }
        still("balance", a.balance.tension_max_n, b.balance.tension_max_n);
        still(
            "extension by energy",
            a.balance.inline_extension_m,
            b.balance.inline_extension_m,
        );
        moved(
            "hanging",
            a.hanging.tension_left_end_n,
            b.hanging.tension_right_end_n,
        );
        for i in 0..crew {
            let j = crew - 1 - i;
            let (x, y) = (&a.balance, &b.balance);
            still("deflection", x.deflection_m[i], y.deflection_m[j]);
            moved("hanging", a.hanging.drop_m[i], b.hanging.drop_m[j]);
        }
    }
}

/// Point loads, hung so that an absorber opens: its rope carries them along.
#[test]
fn statics_mirror_where_an_absorber_gives_rope() {
    for (position_m, force_n) in [(3.1, 6_000.0), (6.0, 9_000.0), (14.2, 7_000.0)] {
        for place in PLACES {
            let one = with(
                case(&[9.0, 7.5], &[3.0], [STIFF, None]),
                place,
                8_000.0,
                0.2,
            );
            let other = mirrored(&one);
            let at = |line: &Line, position_m| {
                let load = PointLoad {
                    position_m,
                    force_n,
                };
                hang(line, &[load]).expect("a valid line")
            };
            let a = at(&one.line, position_m);
            let b = at(&other.line, one.line.length_m() - position_m);
            assert!(a.inline_extension_m > 0.05, "{}", a.inline_extension_m);
            for (x, y) in [
                (a.deflection_m[0], b.deflection_m[0]),
                (a.inline_extension_m, b.inline_extension_m),
                (a.tension_left_end_n, b.tension_right_end_n),
                (a.tension_right_end_n, b.tension_left_end_n),
            ] {
                assert!(relative(x, y) <= MIRROR_RTOL, "{place:?}: {x} and {y}");
            }
        }
    }
}

/// A worker in the middle of 12 m whose gear pulls with P = 4 kN on absorbers of F = 10 kN, on a rope
/// that hardly weighs or stretches. By hand: sin a = P/(2F), the line down by L/2 tan a, absorbers open
/// by L (1/cos a − 1) together, W (h + z + s + x) = P (s/2 + x) + F e.
fn hung_in_the_middle(place: InlinePlace, max_extension_m: f64) -> Case {
    let mut case = with(
        case(&[12.0], &[6.0], [None; 2]),
        place,
        10_000.0,
        max_extension_m,
    );
    case.line.rope = Rope {
        construction: Construction::Own,
        axial_stiffness_n: 1.0e8,
        mass_per_length_kg_per_m: 0.02,
        breaking_force_n: None,
        ..Rope::default()
    };
    case.workers[0].gear = Gear {
        free_fall_m: Some(1.8),
        absorber: Some(Absorber {
            average_force_n: 4_000.0,
            max_extension_m: 1.75,
            ..Absorber::default()
        }),
        ..Gear::default()
    };
    case
}

#[test]
fn the_balance_is_that_by_hand_wherever_the_absorbers_are() {
    let (length_m, p, f) = (12.0, 4_000.0, 10_000.0);
    let sine: f64 = p / (2.0 * f);
    let cosine = (1.0 - sine * sine).sqrt();
    let lowered_m = 0.5 * length_m * sine / cosine;
    // It hangs down 0.8 mm before, and the rope stretches from 4.4 kN on.
    let rest_m = hung_in_the_middle(InlinePlace::Right, 1.2)
        .line
        .rest_deflection_m(6.0);
    let stretched_m = (f - 4_400.0) / 1.0e8 * length_m;
    let stretch_j = 0.5 * (f * f - 4_400.0 * 4_400.0) / 1.0e8 * length_m;
    let given_m = length_m * (1.0 / cosine - 1.0) - stretched_m;
    let weight_n = 100.0 * GRAVITY_M_PER_S2;
    let webbing_m = p / Gear::default().stiffness_n_per_m;
    let surplus_j = weight_n * (1.8 + lowered_m - rest_m + webbing_m)
        - 0.5 * p * webbing_m
        - f * given_m
        - stretch_j;
    let paid_out_m = surplus_j / (p - weight_n);
    // Two that are too short alone; together they take twice the work of one.
    for (place, max_extension_m) in [
        (InlinePlace::Left, 1.2),
        (InlinePlace::Right, 1.2),
        (InlinePlace::Both, 1.2),
        (InlinePlace::Both, 0.6 * given_m),
    ] {
        let case = hung_in_the_middle(place, max_extension_m);
        let balance = solved(&case).balance;
        // But for what the rope weighs, 2.4 N.
        assert_close("tension", balance.tension_max_n, f, CLOSED_FORM_RTOL);
        assert_close(
            "line",
            balance.deflection_m[0],
            lowered_m,
            THREE_DIGITS_RTOL,
        );
        assert_close(
            "given",
            balance.inline_extension_m,
            given_m,
            THREE_DIGITS_RTOL,
        );
        assert_close(
            "paid out",
            balance.absorber_extension_m[0],
            paid_out_m,
            THREE_DIGITS_RTOL,
        );
    }
    // One alone is used up, and the tension goes on; so are two whose sum is too short.
    for (place, max_extension_m) in [
        (InlinePlace::Left, 0.6 * given_m),
        (InlinePlace::Both, 0.3 * given_m),
    ] {
        let balance = solved(&hung_in_the_middle(place, max_extension_m)).balance;
        let count = place.count() as f64;
        assert_near(
            "all",
            balance.inline_extension_m,
            count * max_extension_m,
            1e-9,
        );
        assert!(balance.tension_max_n > 1.1 * f, "{}", balance.tension_max_n);
    }
    // Off the middle the nearer end pulls more: H² = F² − V², of the left end's V = P b/L.
    for (place, beside_n) in [
        (InlinePlace::Left, 0.75 * p),
        (InlinePlace::Both, 0.75 * p),
        (InlinePlace::Right, 0.25 * p),
    ] {
        let mut case = hung_in_the_middle(place, 1.2);
        case.workers[0].position_m = 3.0;
        let balance = solved(&case).balance;
        let horizontal_n = (f * f - beside_n * beside_n).sqrt();
        assert_close(
            "horizontal",
            balance.tension_horizontal_n,
            horizontal_n,
            THREE_DIGITS_RTOL,
        );
        let deflection_m = p * 3.0 * 9.0 / length_m / horizontal_n;
        assert_close(
            "line",
            balance.deflection_m[0],
            deflection_m,
            THREE_DIGITS_RTOL,
        );
    }
}

/// Each absorber has its own greatest extension: the history says which is used up, work and traces are
/// those of both, and the line that hangs after it has what they gave.
#[test]
fn each_of_two_is_used_up_for_itself() {
    let used_up = |outcome: &Outcome| {
        let found = |d: &Doubt| matches!(d, Doubt::InlineAbsorberUsedUp { .. });
        outcome.doubts.iter().any(found)
    };
    // The near one takes all it can, 0.2 m, the far one some of the rest.
    let near = with(
        case(&[12.0], &[3.7], [None; 2]),
        InlinePlace::Both,
        8_000.0,
        0.2,
    );
    let outcome = traced(&near);
    let [left_m, right_m] = outcome.history.inline_end_extension_m;
    assert!(used_up(&outcome));
    assert_near("left", left_m, 0.2, 1.0e-12);
    assert!((0.05..0.19).contains(&right_m), "{right_m}");
    let energy = outcome.history.energy;
    assert!(energy.inline_absorber_j >= 8_000.0 * (left_m + right_m) * (1.0 - 1e-9));
    assert!(energy.residual_ratio < ENERGY_RESIDUAL_MAX);
    let traces = outcome.traces.as_ref().expect("traces");
    let last_m = traces.inline_extension_m[traces.frames - 1];
    assert_near("trace", last_m, left_m + right_m, 1.0e-3);
    let mut long = near.clone();
    long.line
        .inline_absorber
        .as_mut()
        .expect("one")
        .max_extension_m = 0.4;
    assert!(!used_up(&solved(&long)));
    // More rope in the line: it hangs lower than without an absorber, and pulls less on its ends.
    let mut bare = near.clone();
    bare.line.inline_absorber = None;
    let bare = solved(&bare);
    assert!(outcome.hanging.deflection_m[0] > bare.hanging.deflection_m[0] + 0.2);
    assert!(outcome.hanging.tension_left_end_n < 0.6 * bare.hanging.tension_left_end_n);
}

/// Cold opens the one at the end of the longer span first, at its tension, and then the other.
#[test]
fn cold_opens_both() {
    let line = |place, max_extension_m| {
        let mut one = with(
            case(&[20.0, 60.0], &[3.0], [None; 2]),
            place,
            4_600.0,
            max_extension_m,
        );
        one.line.pretension_n = 4_400.0;
        one.line
    };
    let at = |line: &Line| tension_at_temperature(line, 293.15, 243.15).expect("a valid line");
    let one = at(&line(InlinePlace::Right, 1.0));
    assert!(one.inline_extension_m > 0.04, "{one:?}");
    assert_eq!(at(&line(InlinePlace::Both, 1.0)), one);
    let left = at(&line(InlinePlace::Left, 1.0));
    assert!(left.tension_n > one.tension_n && left.tension_n <= 4_600.0);
    let most_m = 0.6 * one.inline_extension_m;
    let both = at(&line(InlinePlace::Both, most_m));
    assert_close("both", both.tension_n, left.tension_n, 1.0e-9);
    assert_close(
        "together",
        both.inline_extension_m,
        left.inline_extension_m,
        1.0e-6,
    );
    assert!(both.inline_extension_m > most_m);
    let short = at(&line(InlinePlace::Both, 0.3 * one.inline_extension_m));
    assert_close(
        "used up",
        short.inline_extension_m,
        0.6 * one.inline_extension_m,
        1.0e-9,
    );
    assert!(short.tension_n > 4_600.0);
}

/// A text from before there was a choice means the right end; the words are the core's.
#[test]
fn a_text_without_a_place_means_the_right_end() {
    let read = |text: &str| serde_json::from_str::<Case>(text);
    let inline = |text: &str| {
        read(text)
            .expect("a case")
            .line
            .inline_absorber
            .expect("one")
    };
    let old = inline(r#"{"line":{"inline_absorber":{"yield_force_n":9000.0}}}"#);
    assert_eq!(
        (old.place, old.yield_force_n),
        (InlinePlace::Right, 9_000.0)
    );
    for (word, place) in ["left", "right", "both"].into_iter().zip(PLACES) {
        let text = format!(r#"{{"line":{{"inline_absorber":{{"place":"{word}"}}}}}}"#);
        assert_eq!(inline(&text).place, place);
        let case = read(&text).expect("a case");
        let again = serde_json::to_string(&case).expect("plain");
        assert_eq!(read(&again).expect("a case"), case);
        assert_eq!(again.contains("\"place\""), word != "right");
    }
    assert!(read(r#"{"line":{"inline_absorber":{"place":"middle"}}}"#).is_err());
}

/// Against the cable, within what falls on several spans are held to.
fn follows(case: &Case) {
    let (core, cable): (Outcome, CableFall) = (solved(case), fall(case, FINENESS));
    let id = name(case);
    let history = &core.history;
    let low = history.tension_max_n / cable.tension_max_2ms_n - 1.0;
    let high = history.tension_max_n / cable.tension_max_n - 1.0;
    println!(
        "{id}: tension {low:+.3} {high:+.3}, slope {:.2}",
        cable.slope_max
    );
    println!(
        "    in line {:.3?} {:.3?}, ledger {:.0e}",
        history.inline_end_extension_m, cable.inline_extension_m, history.energy.residual_ratio
    );
    assert!(low > -MULTISPAN_TENSION_LOW_RTOL, "{id}: tension {low}");
    assert!(high < MULTISPAN_TENSION_HIGH_RTOL, "{id}: tension {high}");
    assert!(history.energy.residual_ratio < ENERGY_RESIDUAL_MAX, "{id}");
    for (found, there) in core.workers.iter().zip(&cable.workers) {
        let first_m = found.drop_first_lowest_m - there.drop_first_lowest_m;
        let drop_m = found.drop_max_m - there.drop_max_m;
        let force = found.arrest_force_max_n / there.force_max_n - 1.0;
        println!("    first {first_m:+.4} m, drop {drop_m:+.4} m, force {force:+.4}");
        assert!(
            first_m.abs() < MULTISPAN_FIRST_LOWEST_ATOL_M,
            "{id}: {first_m}"
        );
        assert!(drop_m > -MULTISPAN_DEPTH_SHORT_ATOL_M, "{id}: {drop_m}");
        assert!(force.abs() < MULTISPAN_FORCE_RTOL, "{id}: {force}");
    }
    let sum_m: f64 = cable.inline_extension_m.iter().sum();
    let pairs = (history.inline_end_extension_m.into_iter()).zip(cable.inline_extension_m);
    for (ours_m, theirs_m) in pairs.chain([(history.inline_extension_m, sum_m)]) {
        let allowed_m = CABLE_INLINE_EXTENSION_ATOL_M;
        assert_near(&format!("{id} in line"), ours_m, theirs_m, allowed_m);
    }
    let last = core.supports.len() - 1;
    for (end, support) in [core.supports[0], core.supports[last]].iter().enumerate() {
        let over = support.horizontal_max_n / cable.end_horizontal_max_n[end] - 1.0;
        assert!(over.abs() < MULTISPAN_POST_RTOL, "{id} end {end}: {over}");
    }
    // A node that comes over a post on a slack rope strikes it there, which no post would feel.
    if cable.slope_max > SLOPE_MAX {
        return;
    }
    let posts = core.supports[1..].iter().zip(&cable.post_vertical_max_n);
    for (found, &there) in posts.filter(|(_, there)| **there > MULTISPAN_POST_LEAST_N) {
        let over = found.vertical_max_n / there - 1.0;
        assert!(over.abs() < MULTISPAN_POST_RTOL, "{id}: {over}");
    }
}

#[test]
fn the_history_follows_the_cable_wherever_the_absorbers_are() {
    everywhere(one_a_span()).for_each(|case| follows(&case));
}

/// Two on a span beside the absorber: the rope that comes in stays between it and the nearer of them,
/// and does not slide past.
#[test]
fn the_history_follows_the_cable_with_two_on_the_span() {
    everywhere(two_on_a_span()).for_each(|case| follows(&case));
}
