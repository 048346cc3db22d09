//! What the time history says of supports and ends, against symmetry and against its own traces.

use footroom_core::case::Worker;
use footroom_core::demo::demo;
use support::closeness::assert_close;
use support::reference::{self, STATED_DAMPING_S};
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
    assert_close(
        "middle",
        supports[1].vertical_max_n,
        supports[0].vertical_max_n + idle_n,
        MIRROR_PEAK_RTOL,
    );
    assert_close(
        "far end",
        supports[2].vertical_max_n,
        idle_n,
        MIRROR_PEAK_RTOL,
    );
}

/// The bound for inertia along the rope is its axial impedance √(EA μ) times the greatest speed at
/// which the in-line absorber opens: against that speed from frame to frame of the traces.
#[test]
fn the_axial_bound_is_impedance_times_opening_speed() {
    let mut compared = 0;
    for reference in reference::dynamics() {
        if reference.inputs.inline_absorber.is_none() {
            continue;
        }
        let case = reference.case(STATED_DAMPING_S);
        let outcome = traced(&case);
        let traces = outcome.traces.as_ref().expect("traces");
        // Mean over a frame: never more than the greatest speed within it.
        let speed_m_per_s = traces
            .inline_extension_m
            .windows(2)
            .map(|pair| (pair[1] - pair[0]) / traces.interval_s)
            .fold(0.0, f64::max);
        let rope = &case.line.rope;
        let impedance = (rope.axial_stiffness_n * rope.mass_per_length_kg_per_m).sqrt();
        let ratio = outcome.history.axial_inertia_bound_n / (impedance * speed_m_per_s);
        println!("{} {ratio}", reference.id);
        assert!(
            (1.0..=FRAME_RATE_RATIO_MAX).contains(&ratio),
            "{}: {ratio}",
            reference.id
        );
        compared += 1;
    }
    assert!(compared > 2);
}
