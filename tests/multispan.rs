//! Falls on several spans against an independent lumped cable with inertia along and across.
//!
//! Source of the values: `reference/multispan_dynamics.json`, see the README beside it.

use std::sync::OnceLock;

use footroom_core::solve::Outcome;
use support::figures::{self, Figure};
use support::reference::{MultispanFall, multispan_dynamics};
use support::solved::solved;
use support::tolerance::{
    ENERGY_RESIDUAL_MAX, MULTISPAN_DEPTH_RATIO, MULTISPAN_DEPTH_SHORT_ATOL_M,
    MULTISPAN_DEPTH_SHORT_MOST_ATOL_M, MULTISPAN_FIRST_LOWEST_ATOL_M, MULTISPAN_FORCE_RTOL,
    MULTISPAN_POST_LEAST_N, MULTISPAN_POST_RATIO, MULTISPAN_POST_RTOL, MULTISPAN_TENSION_HIGH_RTOL,
    MULTISPAN_TENSION_LOW_MOST_RTOL, MULTISPAN_TENSION_LOW_RATIO, MULTISPAN_TENSION_LOW_RTOL,
};

/// Every case with core's answer.
fn falls() -> &'static [(MultispanFall, Outcome)] {
    static FALLS: OnceLock<Vec<(MultispanFall, Outcome)>> = OnceLock::new();
    FALLS.get_or_init(|| {
        let solve = |fall: MultispanFall| {
            let outcome = solved(&fall.case);
            (fall, outcome)
        };
        let falls: Vec<_> = multispan_dynamics().into_iter().map(solve).collect();
        print(&falls);
        falls
    })
}

fn print(falls: &[(MultispanFall, Outcome)]) {
    println!(
        "case   tension/2ms /peak  first lowest  depth  force   post   end   inline  ledger   step"
    );
    for (fall, outcome) in falls {
        let (r, history) = (&fall.reference, &outcome.history);
        let widest = |of: &mut dyn Iterator<Item = f64>| {
            of.fold(0.0, |m: f64, v| if v.abs() > m.abs() { v } else { m })
        };
        let first = widest(&mut first_lowest(fall, outcome).map(|(_, d)| d));
        let depth = depths(fall, outcome).fold(f64::INFINITY, f64::min);
        let force = widest(&mut forces(fall, outcome));
        let post = widest(&mut posts(fall, outcome));
        let ends = [outcome.supports.first(), outcome.supports.last()];
        let end = widest(
            &mut ends
                .iter()
                .flatten()
                .zip(r.end_horizontal_max_n)
                .map(|(e, r)| e.horizontal_max_n / r - 1.0),
        );
        println!(
            "{}  {:+6.2} {:+6.2} %  {:+.4} m  {:+.3} m  {:+5.2} %  {:+5.1} %  {:+5.1} %  {:+.3} m  {:.1e}  {:.2} ms x {}  {}",
            fall.id,
            100.0 * (history.tension_max_n / r.tension_max_2ms_n - 1.0),
            100.0 * (history.tension_max_n / r.tension_max_n - 1.0),
            first,
            depth,
            100.0 * force,
            100.0 * post,
            100.0 * end,
            history.inline_extension_m - r.inline_extension_m,
            history.energy.residual_ratio,
            1.0e3 * history.step_s,
            history.steps,
            fall.title,
        );
    }
}

/// First lowest points less those of the reference, m, with the worker.
fn first_lowest(fall: &MultispanFall, outcome: &Outcome) -> impl Iterator<Item = (usize, f64)> {
    let pairs = outcome
        .workers
        .iter()
        .zip(&fall.reference.drop_first_lowest_m);
    pairs
        .map(|(found, reference)| found.drop_first_lowest_m - reference)
        .enumerate()
}

/// Depths by the time history less those of the reference, m.
fn depths(fall: &MultispanFall, outcome: &Outcome) -> impl Iterator<Item = f64> {
    let pairs = outcome.workers.iter().zip(&fall.reference.required_m);
    pairs.map(|(found, reference)| found.stack.required_m - reference)
}

/// Arrest forces over those of the reference, less 1.
fn forces(fall: &MultispanFall, outcome: &Outcome) -> impl Iterator<Item = f64> {
    let pairs = outcome
        .workers
        .iter()
        .zip(&fall.reference.arrest_force_max_n);
    pairs.map(|(found, reference)| found.arrest_force_max_n / reference - 1.0)
}

/// Loads on the intermediate posts over those of the reference that count, less 1.
fn posts(fall: &MultispanFall, outcome: &Outcome) -> impl Iterator<Item = f64> {
    let pairs = outcome
        .supports
        .iter()
        .skip(1)
        .zip(&fall.reference.post_vertical_max_n);
    pairs
        .filter(|(_, reference)| **reference > MULTISPAN_POST_LEAST_N)
        .map(|(found, reference)| found.vertical_max_n / reference - 1.0)
}

/// Most of all hold `good`, and all hold `bearable`.
fn hold(
    what: &str,
    of: impl Fn(&MultispanFall, &Outcome) -> Vec<f64>,
    (ratio, good): (f64, impl Fn(f64) -> bool),
    bearable: impl Fn(f64) -> bool,
) {
    let mut all = Vec::new();
    for (fall, outcome) in falls() {
        for value in of(fall, outcome) {
            assert!(bearable(value), "{}: {what} {value}", fall.id);
            all.push(value);
        }
    }
    let held = all.iter().filter(|v| good(**v)).count() as f64 / all.len() as f64;
    assert!(held >= ratio, "{what}: {held} of {} values", all.len());
}

#[test]
fn tension_is_hardly_below_the_mean_over_2_ms() {
    let over = |fall: &MultispanFall, outcome: &Outcome| {
        vec![outcome.history.tension_max_n / fall.reference.tension_max_2ms_n - 1.0]
    };
    hold(
        "tension over the 2 ms mean",
        over,
        (MULTISPAN_TENSION_LOW_RATIO, |v| {
            v >= -MULTISPAN_TENSION_LOW_MOST_RTOL
        }),
        |v| v >= -MULTISPAN_TENSION_LOW_RTOL,
    );
}

#[test]
fn tension_is_not_far_above_the_raw_peak() {
    let over = |fall: &MultispanFall, outcome: &Outcome| {
        vec![outcome.history.tension_max_n / fall.reference.tension_max_n - 1.0]
    };
    let low = |v| v <= MULTISPAN_TENSION_HIGH_RTOL;
    hold("tension over the raw peak", over, (1.0, low), low);
}

#[test]
fn first_lowest_points_agree() {
    let near = |v: f64| v.abs() <= MULTISPAN_FIRST_LOWEST_ATOL_M;
    let of = |fall: &MultispanFall, outcome: &Outcome| {
        first_lowest(fall, outcome).map(|(_, m)| m).collect()
    };
    hold("first lowest point", of, (1.0, near), near);
}

#[test]
fn depths_are_hardly_short() {
    hold(
        "depth",
        |fall, outcome| depths(fall, outcome).collect(),
        (MULTISPAN_DEPTH_RATIO, |v| {
            v >= -MULTISPAN_DEPTH_SHORT_ATOL_M
        }),
        |v| v >= -MULTISPAN_DEPTH_SHORT_MOST_ATOL_M,
    );
}

#[test]
fn arrest_forces_agree() {
    let near = |v: f64| v.abs() <= MULTISPAN_FORCE_RTOL;
    hold(
        "arrest force",
        |fall, outcome| forces(fall, outcome).collect(),
        (1.0, near),
        near,
    );
}

#[test]
fn loads_on_posts_agree() {
    hold(
        "load on a post",
        |fall, outcome| posts(fall, outcome).collect(),
        (MULTISPAN_POST_RATIO, |v: f64| {
            v.abs() <= MULTISPAN_POST_RTOL
        }),
        |v| v.is_finite(),
    );
}

#[test]
fn the_ledger_closes() {
    for (fall, outcome) in falls() {
        let open = outcome.history.energy.residual_ratio;
        assert!(open <= ENERGY_RESIDUAL_MAX, "{}: {open}", fall.id);
    }
}

#[test]
fn the_readme_shows_the_most() {
    let (mut low, mut high, mut lowest_m) = (0.0_f64, 0.0_f64, 0.0_f64);
    for (fall, outcome) in falls() {
        let tension_n = outcome.history.tension_max_n;
        low = low.max(1.0 - tension_n / fall.reference.tension_max_2ms_n);
        high = high.max(tension_n / fall.reference.tension_max_n - 1.0);
        lowest_m = first_lowest(fall, outcome).fold(lowest_m, |m, (_, off_m)| m.max(off_m.abs()));
    }
    figures::hold(Figure::MultispanLow, &figures::at_most_percent(low));
    figures::hold(Figure::MultispanHigh, &figures::at_most_percent(high));
    figures::hold(Figure::MultispanLowest, &figures::at_most_m(lowest_m));
}
