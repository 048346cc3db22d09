//! What a run costs: `cargo bench -p footroom-core --features serde`.

use divan::{Bencher, black_box};
use footroom_core::case::{Case, Line, Motion, Worker};
use footroom_core::demo::demo;
use footroom_core::line::{PointLoad, hang};
use footroom_core::solve::{Options, solve};

fn main() {
    divan::main();
}

/// Three workers on two spans of 9 m, falling at one instant.
fn crew_of_three(duration_s: f64) -> Case {
    Case {
        line: Line {
            spans_m: vec![9.0, 9.0],
            ..Line::default()
        },
        workers: [12.4, 13.5, 14.6]
            .map(|position_m| Worker {
                position_m,
                ..Worker::default()
            })
            .to_vec(),
        motion: Motion {
            duration_s,
            ..Motion::default()
        },
        ..Case::default()
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
