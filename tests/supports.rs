//! What the time history says of supports and ends, against symmetry and against its own traces.

use footroom_core::case::Worker;
use footroom_core::demo::demo;
use support::closeness::assert_close;
use support::reference;
use support::solved::traced;
use support::tolerance::{FRAME_RATE_RATIO_MAX, MIRROR_PEAK_RTOL};

/// Two equal spans on rigid ends, a worker in the middle of each, both falling at once: everything is
/// symmetric about the middle post and about the middle of each span, so that the post carries twice
/// what an end does, and is pulled to neither side.
#[test]
fn the_middle_post_carries_both_spans() {
    let mut case = demo();
    case.posts = Default::default();
    case.site.below.clear();
    case.line.spans_m = vec![10.0, 10.0];
    case.workers = [5.0, 15.0]
        .map(|position_m| Worker {
            position_m,
            ..Worker::default()
        })
        .to_vec();
    let supports = traced(&case).supports;
    let [left, middle, right] = supports.as_slice() else {
        panic!("{supports:?}");
    };
    assert!(left.vertical_max_n > 1_000.0);
    assert_close(
        "ends",
        left.vertical_max_n,
        right.vertical_max_n,
        MIRROR_PEAK_RTOL,
    );
    assert_close(
        "middle",
        middle.vertical_max_n,
        2.0 * left.vertical_max_n,
        MIRROR_PEAK_RTOL,
    );
    assert!(middle.horizontal_max_n <= MIRROR_PEAK_RTOL * left.horizontal_max_n);
    assert_eq!(middle.tension_max_n, 0.0);
}

/// A worker on the left span only: the middle post feels that span as the end does, by symmetry of the
/// span, and half the weight of the idle one.
#[test]
fn an_idle_span_rests_on_its_posts() {
    let mut case = demo();
    case.posts = Default::default();
    case.site.below.clear();
    case.line.spans_m = vec![10.0, 10.0];
    case.workers.truncate(1);
    case.workers[0].position_m = 5.0;
    let supports = traced(&case).supports;
    let idle_n = 0.5 * case.line.weight_n_per_m() * 10.0;
    // The rope between them has mass: the tensions beside the two differ a little at each instant.
    assert_close(
        "middle",
        supports[1].vertical_max_n,
        supports[0].vertical_max_n + idle_n,
        2.0 * MIRROR_PEAK_RTOL,
    );
    // It is tightened faster than its sag comes up: for that time it bears harder on its posts.
    assert!(supports[2].vertical_max_n >= idle_n * (1.0 - MIRROR_PEAK_RTOL));
    assert!(supports[2].vertical_max_n < 0.2 * supports[0].vertical_max_n);
}

/// While an in-line absorber yields, it holds the rope at its end to its force; what its opening sends
/// along the rope comes on top of that at the other end, as the impedance of rope √(EA μ) times the
/// speed of its end (waves of a rod, any textbook of mechanics): more than nothing, and not more than
/// twice that, which a wave makes that comes back from a fixed end.
#[test]
fn an_opening_absorber_sends_a_wave_to_the_other_end() {
    let mut compared = 0;
    for fall in reference::multispan_dynamics() {
        let Some(inline) = fall.case.line.inline_absorber else {
            continue;
        };
        let outcome = traced(&fall.case);
        let used_up = outcome.history.inline_extension_m >= inline.max_extension_m;
        if used_up || outcome.history.inline_extension_m < 0.05 {
            continue;
        }
        let traces = outcome.traces.as_ref().expect("traces");
        let speed_m_per_s = traces
            .inline_extension_m
            .windows(2)
            .map(|pair| (pair[1] - pair[0]) / traces.interval_s)
            .fold(0.0, f64::max);
        let rope = &fall.case.line.rope;
        let impedance = (rope.axial_stiffness_n * rope.mass_per_length_kg_per_m).sqrt();
        let ends = [outcome.supports.first(), outcome.supports.last()];
        let [left_n, right_n] = ends.map(|end| end.expect("ends").tension_max_n);
        println!(
            "{}: {left_n} {right_n}, wave {}",
            fall.id,
            impedance * speed_m_per_s
        );
        assert!(right_n < left_n, "{}", fall.id);
        let over_n = left_n - inline.yield_force_n;
        let wave_n = FRAME_RATE_RATIO_MAX * 2.0 * impedance * speed_m_per_s;
        assert!(over_n > 0.0 && over_n < wave_n, "{}: {over_n}", fall.id);
        compared += 1;
    }
    assert!(compared > 5);
}
