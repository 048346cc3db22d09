//! What a run costs: `cargo bench -p footroom-core --features serde`.

use std::sync::atomic::{AtomicUsize, Ordering};

use divan::{Bencher, black_box};
use footroom_core::assess::assess;
use footroom_core::case::{Case, InlineAbsorber, Line, Motion, Worker};
use footroom_core::demo::demo;
use footroom_core::fit::map::{Map, MapSpec};
use footroom_core::fit::{Effort, find};
use footroom_core::line::{PointLoad, hang};
use footroom_core::solve::{Options, solve};

/// Prints the steps, which the times below are to be seen against, then measures.
fn main() {
    print_steps("demo", &demo());
    print_steps("in-line", &opening());
    for count in 1..=6 {
        print_steps(&format!("workers {count}"), &crowd(count));
    }
    for count in 1..=6 {
        print_steps(&format!("loaded spans {count}"), &one_a_span(count));
    }
    for count in 1..=6 {
        print_steps(&format!("idle spans {}", count - 1), &one_on(count));
    }
    divan::main();
}

fn print_steps(name: &str, case: &Case) {
    let history = solve(case, Options::default()).expect("no fault").history;
    println!(
        "{name}: {} steps of {:.3} ms, {} nodes",
        history.steps,
        1.0e3 * history.step_s,
        history.nodes
    );
}

fn on(spans_m: Vec<f64>, places_m: impl IntoIterator<Item = f64>) -> Case {
    Case {
        line: Line {
            spans_m,
            ..Line::default()
        },
        workers: places_m
            .into_iter()
            .map(|position_m| Worker {
                position_m,
                ..Worker::default()
            })
            .collect(),
        ..Case::default()
    }
}

/// Workers evenly on one span of 12 m.
fn crowd(workers: usize) -> Case {
    let apart_m = 12.0 / (workers + 1) as f64;
    on(vec![12.0], (1..=workers).map(|i| apart_m * i as f64))
}

/// Somebody in the middle of each of the spans.
fn one_a_span(spans: usize) -> Case {
    on(vec![9.0; spans], (0..spans).map(|i| 4.5 + 9.0 * i as f64))
}

/// One person on the first of the spans.
fn one_on(spans: usize) -> Case {
    on(vec![9.0; spans], [4.5])
}

/// Three workers under whom an in-line absorber opens.
fn opening() -> Case {
    let mut case = on(vec![7.5], [2.2, 3.7, 5.2]);
    case.line.inline_absorber = Some(InlineAbsorber {
        yield_force_n: 12_000.0,
        max_extension_m: 1.0,
        ..InlineAbsorber::default()
    });
    case
}

/// Three workers on two spans of 9 m, falling at one instant.
fn crew_of_three(duration_s: f64) -> Case {
    Case {
        motion: Motion {
            duration_s,
            ..Motion::default()
        },
        ..on(vec![9.0, 9.0], [12.4, 13.5, 14.6])
    }
}

/// The line at rest under three weights.
#[divan::bench]
fn statics(bencher: Bencher) {
    let line = crew_of_three(3.0).line;
    let loads = [12.4, 13.5, 14.6].map(|position_m| PointLoad {
        position_m,
        force_n: 980.665,
    });
    bencher.bench(|| hang(black_box(&line), black_box(&loads)));
}

/// A full solve with half a second of motion, during which nobody is stopped yet: what is left is
/// the energy balance, the hanging state and the making of the answer.
#[divan::bench]
fn solve_half_a_second(bencher: Bencher) {
    let case = crew_of_three(0.5);
    bencher.bench(|| solve(black_box(&case), Options::default()));
}

/// The same with 3 s: the difference is the time history.
#[divan::bench]
fn solve_three_seconds(bencher: Bencher) {
    let case = crew_of_three(3.0);
    bencher.bench(|| solve(black_box(&case), Options::default()));
}

/// The same with the traces that the animation needs.
#[divan::bench]
fn solve_with_traces(bencher: Bencher) {
    let case = crew_of_three(3.0);
    let options = Options {
        traces: true,
        ..Options::default()
    };
    bencher.bench(|| solve(black_box(&case), options));
}

/// The demonstration, with its end stiffness.
#[divan::bench]
fn solve_demo(bencher: Bencher) {
    let case = demo();
    bencher.bench(|| solve(black_box(&case), Options::default()));
}

/// The demonstration with its soft and its stiff corner, by both methods: what a decision rests on.
#[divan::bench]
fn corners_demo(bencher: Bencher) {
    let case = demo();
    bencher.bench(|| find(black_box(&case), Effort::Corners));
}

/// The demonstration with all its corners.
#[divan::bench]
fn assess_demo(bencher: Bencher) {
    let case = demo();
    bencher.bench(|| assess(black_box(&case), Options::default()));
}

/// The whole map: 1 to 6 users on 1 to 8 spans, with corners.
#[divan::bench(sample_count = 5)]
fn map_demo(bencher: Bencher) {
    let case = demo();
    bencher.bench(|| {
        let mut map = Map::new(black_box(&case), MapSpec::default()).expect("no fault");
        while map.step() {}
        map
    });
}

/// The same on two threads, each taking the next cell.
#[divan::bench(sample_count = 5)]
fn map_demo_on_two_threads(bencher: Bencher) {
    let case = demo();
    bencher.bench(|| {
        let map = Map::new(black_box(&case), MapSpec::default()).expect("no fault");
        let next = AtomicUsize::new(0);
        let work = || loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            if map.cell(at % map.columns(), at / map.columns()).is_none() {
                return;
            }
        };
        std::thread::scope(|scope| {
            scope.spawn(work);
            work();
        });
    });
}

/// An in-line absorber that opens under three workers.
#[divan::bench]
fn solve_inline(bencher: Bencher) {
    let case = opening();
    bencher.bench(|| solve(black_box(&case), Options::default()));
}

/// Workers on one span of 12 m.
#[divan::bench(args = 1..=6)]
fn solve_workers(bencher: Bencher, workers: usize) {
    let case = crowd(workers);
    bencher.bench(|| solve(black_box(&case), Options::default()));
}

/// Spans of 9 m with somebody falling on each.
#[divan::bench(args = 1..=6)]
fn solve_loaded_spans(bencher: Bencher, spans: usize) {
    let case = one_a_span(spans);
    bencher.bench(|| solve(black_box(&case), Options::default()));
}

/// Spans of 9 m with one person falling on the first.
#[divan::bench(args = 1..=6)]
fn solve_idle_spans(bencher: Bencher, spans: usize) {
    let case = one_on(spans);
    bencher.bench(|| solve(black_box(&case), Options::default()));
}
