//! The same physics written a second time and integrated by a general-purpose adaptive solver
//! (Dormand-Prince 5(4) of the `ode_solvers` crate), against core's time history.
//!
//! # The second model
//! Nodes of every span move vertically; their rope is lumped. Each span has one horizontal tension
//! H, equal on both sides of a support in the tension itself. H is the root of
//! Σ l/(1 + H l/(dx·EA)) = unstretched rope, l = √(dx² + dz²), with the end spans shortened by
//! (H − T0)/k. A worker is a mass on a gear with memory: the greatest stretch so far is a state of
//! its own, from which the plateau's irreversible extension follows. Damping: the stated time
//! multiplied by the rate of the line's vertical force, the rate of H by implicit differentiation.
//! The connector keeps its x and lets rope slide through, where core's holds its point of the rope.
//! Nothing of core is used but the case that is described; nodes, line law, absorber and stepping
//! are separate.

use std::cell::Cell;

use std::sync::OnceLock;

use footroom_core::case::{Absorber, Case, Gear, Line, Motion, Site, Worker};
use footroom_core::constants::GRAVITY_M_PER_S2;
use footroom_core::rope::{Construction, Rope};
use footroom_core::solve::{Options, solve};
use ode_solvers::dopri5::Dopri5;
use ode_solvers::{DVector, System};
use support::cable::{Fineness, STANDARD, fall};
use support::closeness::relative;
use support::figures::{self, Figure};
use support::tolerance::{
    CABLE_EXTENSION_RTOL, INDEPENDENT_DEFLECTION_RTOL, INDEPENDENT_FORCE_RTOL,
    INDEPENDENT_LENGTH_RTOL, MULTISPAN_TENSION_HIGH_RTOL, MULTISPAN_TENSION_LOW_RTOL,
};

type State = DVector<f64>;

/// Segments of each span. Fine enough that what is left of the mesh error (see the refinement
/// check in `properties.rs`) does not hide a difference in the equations; core is asked for the
/// same fineness.
const SEGMENTS: usize = 48;

/// Core's refinement that gives about as many segments.
const REFINE: i64 = 2;

/// Interval of the dense output, in which maxima are looked for, s.
const OUTPUT_S: f64 = 2.0e-4;

/// Relative and absolute tolerance of the integrator; SI units of the states are all near 1.
const RTOL: f64 = 1.0e-6;
const ATOL: f64 = 1.0e-8;

/// A piece of rope between two neighbouring nodes.
#[derive(Clone, Copy)]
struct Piece {
    span: usize,
    /// Chord at rest, m.
    dx_m: f64,
}

/// The line and the crew as this model sees them.
struct Model<'a> {
    case: &'a Case,
    pieces: Vec<Piece>,
    /// Places of all nodes, both ends and supports included, m.
    node_x_m: Vec<f64>,
    rest_m: Vec<f64>,
    mass_kg: Vec<f64>,
    fixed: Vec<bool>,
    /// Node of each worker.
    worker_node: Vec<usize>,
    unstretched_m: f64,
    /// Last root, where the next search begins, N.
    last_h_n: Cell<f64>,
}

impl<'a> Model<'a> {
    fn new(case: &'a Case) -> Self {
        let line = &case.line;
        let mut node_x_m = vec![0.0];
        let mut pieces = Vec::new();
        let mut start_m = 0.0;
        for (span, &length_m) in line.spans_m.iter().enumerate() {
            let end_m = start_m + length_m;
            let mut stops: Vec<f64> = case
                .workers
                .iter()
                .map(|w| w.position_m)
                .filter(|x| *x > start_m && *x < end_m)
                .collect();
            stops.push(end_m);
            stops.sort_by(f64::total_cmp);
            stops.dedup();
            let mut from_m = start_m;
            for stop_m in stops {
                let part = (stop_m - from_m) / length_m;
                let count = ((part * SEGMENTS as f64).round() as usize).max(1);
                for i in 1..=count {
                    node_x_m.push(from_m + (stop_m - from_m) * i as f64 / count as f64);
                    pieces.push(Piece {
                        span,
                        dx_m: (stop_m - from_m) / count as f64,
                    });
                }
                from_m = stop_m;
            }
            start_m = end_m;
        }
        let supports: Vec<f64> = line
            .spans_m
            .iter()
            .scan(0.0, |x, l| {
                *x += l;
                Some(*x)
            })
            .chain([0.0])
            .collect();
        let near = |a: f64, b: f64| (a - b).abs() < 1.0e-9;
        let fixed: Vec<bool> = node_x_m
            .iter()
            .map(|x| supports.iter().any(|s| near(*s, *x)))
            .collect();
        let w_n_per_m = line.rope.mass_per_length_kg_per_m * GRAVITY_M_PER_S2;
        let mut rest_m = vec![0.0; node_x_m.len()];
        let mut mass_kg = vec![0.0; node_x_m.len()];
        let mut span_start_m = 0.0;
        for (i, piece) in pieces.iter().enumerate() {
            if i > 0 && pieces[i - 1].span != piece.span {
                span_start_m += line.spans_m[piece.span - 1];
            }
            let x = node_x_m[i + 1] - span_start_m;
            let l = line.spans_m[piece.span];
            rest_m[i + 1] = w_n_per_m * x * (l - x) / (2.0 * line.pretension_n);
            let half_kg = 0.5 * line.rope.mass_per_length_kg_per_m * piece.dx_m;
            mass_kg[i] += half_kg;
            mass_kg[i + 1] += half_kg;
        }
        let worker_node = case
            .workers
            .iter()
            .map(|w| {
                node_x_m
                    .iter()
                    .position(|x| near(*x, w.position_m))
                    .expect("a node at every worker")
            })
            .collect();
        let mut model = Self {
            case,
            pieces,
            node_x_m,
            rest_m,
            mass_kg,
            fixed,
            worker_node,
            unstretched_m: 0.0,
            last_h_n: Cell::new(line.pretension_n),
        };
        let rest = model.rest_m.clone();
        model.unstretched_m = model.needed_m(&rest, line.pretension_n);
        model
    }

    /// Chord of a piece when the ends have moved in under H.
    fn dx_m(&self, piece: &Piece, h_n: f64) -> f64 {
        let line = &self.case.line;
        let moved = |k: Option<f64>| k.map_or(0.0, |k| (h_n - line.pretension_n) / k);
        let mut inward_m = 0.0;
        if piece.span == 0 {
            inward_m += moved(line.left_end_stiffness_n_per_m);
        }
        if piece.span + 1 == line.spans_m.len() {
            inward_m += moved(line.right_end_stiffness_n_per_m);
        }
        piece.dx_m * (1.0 - inward_m / line.spans_m[piece.span])
    }

    /// Horizontal tension of each piece over that of the first span: the tension is the same on
    /// both sides of a support.
    fn ratios(&self, z: &[f64], h_n: f64) -> Vec<f64> {
        let mut ratio = 1.0;
        let mut out = Vec::with_capacity(self.pieces.len());
        for (i, piece) in self.pieces.iter().enumerate() {
            if i > 0 && self.pieces[i - 1].span != piece.span {
                let before = (z[i] - z[i - 1]) / self.dx_m(&self.pieces[i - 1], h_n);
                let after = (z[i + 1] - z[i]) / self.dx_m(piece, h_n);
                ratio *= ((1.0 + before * before) / (1.0 + after * after)).sqrt();
            }
            out.push(ratio);
        }
        out
    }

    /// Unstretched rope that the shape needs under H in the first span, m.
    fn needed_m(&self, z: &[f64], h_n: f64) -> f64 {
        let ea_n = self.case.line.rope.axial_stiffness_n;
        let ratios = self.ratios(z, h_n);
        self.pieces
            .iter()
            .enumerate()
            .map(|(i, piece)| {
                let dx = self.dx_m(piece, h_n);
                let l = dx.hypot(z[i + 1] - z[i]);
                l / (1.0 + h_n * ratios[i] * l / (dx * ea_n))
            })
            .sum()
    }

    /// Horizontal tension of the first span, N; 0 when there is rope to spare.
    fn h_n(&self, z: &[f64]) -> f64 {
        let surplus = |h: f64| self.needed_m(z, h) - self.unstretched_m;
        if surplus(0.0) <= 0.0 {
            return 0.0;
        }
        let (mut low, mut high) = (0.0, self.last_h_n.get().max(1.0));
        while surplus(high) > 0.0 {
            low = high;
            high *= 2.0;
        }
        // Secant steps kept within the bracket, bisection where they leave it.
        let (mut f_low, mut f_high) = (surplus(low), surplus(high));
        for _ in 0..200 {
            let mut h = high - f_high * (high - low) / (f_high - f_low);
            if !(low..=high).contains(&h) {
                h = 0.5 * (low + high);
            }
            let f = surplus(h);
            if f.abs() < 1.0e-14 * self.unstretched_m || high - low < 1.0e-9 {
                self.last_h_n.set(h);
                return h;
            }
            if f > 0.0 {
                low = h;
                f_low = f;
                f_high *= 0.5;
            } else {
                high = h;
                f_high = f;
                f_low *= 0.5;
            }
        }
        0.5 * (low + high)
    }

    /// Rate of H from the rate of the shape: dH = −(∂needed/∂z · v)/(∂needed/∂H).
    fn h_rate(&self, z: &[f64], v: &[f64], h_n: f64) -> f64 {
        if h_n <= 0.0 {
            return 0.0;
        }
        let step = 1.0e-7;
        let moved =
            |sign: f64| -> Vec<f64> { z.iter().zip(v).map(|(z, v)| z + sign * step * v).collect() };
        let by_time =
            (self.needed_m(&moved(1.0), h_n) - self.needed_m(&moved(-1.0), h_n)) / (2.0 * step);
        let dh = 1.0e-4 * h_n;
        let by_h = (self.needed_m(z, h_n + dh) - self.needed_m(z, h_n - dh)) / (2.0 * dh);
        -by_time / by_h
    }

    fn count(&self) -> usize {
        self.node_x_m.len()
    }

    /// Stretch of a worker's gear, m; negative while slack.
    fn stretch_m(&self, worker: usize, y: &State) -> f64 {
        let n = self.count();
        let node = self.worker_node[worker];
        let drop_m = y[2 * n + 3 * worker];
        let free_m = self.case.workers[worker].gear.free_fall_m.expect("given");
        drop_m - (y[node] - self.rest_m[node]) - free_m
    }

    /// Irreversible extension after the greatest stretch `most_m`.
    fn extension_m(&self, worker: usize, most_m: f64) -> f64 {
        let gear = &self.case.workers[worker].gear;
        gear.absorber.map_or(0.0, |a| {
            (most_m - a.average_force_n / gear.stiffness_n_per_m).clamp(0.0, a.max_extension_m)
        })
    }

    /// Force of a worker's gear at stretch d after the greatest stretch so far.
    fn gear_force_n(&self, worker: usize, d: f64, most_m: f64) -> f64 {
        let gear = &self.case.workers[worker].gear;
        if d <= 0.0 {
            return 0.0;
        }
        let k = gear.stiffness_n_per_m;
        let Some(a) = gear.absorber else {
            return k * d;
        };
        let elastic_n = (k * (d - self.extension_m(worker, most_m.max(d)))).max(0.0);
        let lock_m = a.average_force_n / k + a.max_extension_m;
        if d > lock_m {
            a.average_force_n + a.locked_stiffness_n_per_m * (d - lock_m)
        } else {
            elastic_n.min(a.average_force_n)
        }
    }

    fn falls_at_s(&self, worker: usize) -> f64 {
        self.case.workers[worker].fall_time_s.expect("all fall")
    }
}

impl System<f64, State> for &Model<'_> {
    /// States: deflection of every node, its rate, then drop, speed and greatest stretch of every
    /// worker.
    fn system(&self, t_s: f64, y: &State, dy: &mut State) {
        let n = self.count();
        let (z, v) = (&y.as_slice()[..n], &y.as_slice()[n..2 * n]);
        let h_n = self.h_n(z);
        let h_rate = self.h_rate(z, v, h_n);
        let ratios = self.ratios(z, h_n);
        let damping_s = self.case.motion.damping_s;
        let mut force_n: Vec<f64> = self.mass_kg.iter().map(|m| m * GRAVITY_M_PER_S2).collect();
        for (i, piece) in self.pieces.iter().enumerate() {
            let dx = self.dx_m(piece, h_n);
            let slope = (z[i + 1] - z[i]) / dx;
            let slope_rate = (v[i + 1] - v[i]) / dx;
            let vertical_n =
                ratios[i] * (h_n * slope + damping_s * (h_rate * slope + h_n * slope_rate));
            force_n[i] += vertical_n;
            force_n[i + 1] -= vertical_n;
        }
        for worker in 0..self.worker_node.len() {
            let base = 2 * n + 3 * worker;
            if t_s < self.falls_at_s(worker) {
                dy[base] = 0.0;
                dy[base + 1] = 0.0;
                dy[base + 2] = 0.0;
                continue;
            }
            let d = self.stretch_m(worker, y);
            let pull_n = self.gear_force_n(worker, d, y[base + 2]);
            force_n[self.worker_node[worker]] += pull_n;
            let mass_kg = self.case.workers[worker].mass_kg;
            dy[base] = y[base + 1];
            dy[base + 1] = GRAVITY_M_PER_S2 - pull_n / mass_kg;
            let stretch_rate = y[base + 1] - v[self.worker_node[worker]];
            dy[base + 2] = if d >= y[base + 2] {
                stretch_rate.max(0.0)
            } else {
                0.0
            };
        }
        for i in 0..n {
            dy[i] = if self.fixed[i] { 0.0 } else { v[i] };
            dy[n + i] = if self.fixed[i] {
                0.0
            } else {
                force_n[i] / self.mass_kg[i]
            };
        }
    }
}

/// Maxima over the simulated time.
struct Maxima {
    horizontal_n: f64,
    tension_n: f64,
    force_n: Vec<f64>,
    drop_m: Vec<f64>,
    deflection_m: Vec<f64>,
    extension_m: Vec<f64>,
}

fn integrate(case: &Case) -> Maxima {
    let model = Model::new(case);
    let (n, crew) = (model.count(), case.workers.len());
    let mut y = State::zeros(2 * n + 3 * crew);
    for (i, rest) in model.rest_m.iter().enumerate() {
        y[i] = *rest;
    }
    let mut maxima = Maxima {
        horizontal_n: 0.0,
        tension_n: 0.0,
        force_n: vec![0.0; crew],
        drop_m: vec![0.0; crew],
        deflection_m: vec![0.0; crew],
        extension_m: vec![0.0; crew],
    };
    // Whoever falls later is held until then: the run is cut there.
    let mut cuts: Vec<f64> = (0..crew).map(|i| model.falls_at_s(i)).collect();
    cuts.extend([0.0, case.motion.duration_s]);
    cuts.sort_by(f64::total_cmp);
    cuts.dedup();
    for pair in cuts.windows(2) {
        let mut solver = Dopri5::new(&model, pair[0], pair[1], OUTPUT_S, y.clone(), RTOL, ATOL);
        solver.integrate().expect("the integration reaches its end");
        for state in solver.y_out() {
            observe(&model, state, &mut maxima);
        }
        y = solver.y_out().last().expect("an output").clone();
    }
    maxima
}

fn observe(model: &Model, y: &State, maxima: &mut Maxima) {
    let n = model.count();
    let z = &y.as_slice()[..n];
    let h_n = model.h_n(z);
    let loaded: Vec<usize> = model
        .worker_node
        .iter()
        .map(|node| model.pieces[*node].span)
        .collect();
    for (i, (piece, ratio)) in model.pieces.iter().zip(model.ratios(z, h_n)).enumerate() {
        let slope = (z[i + 1] - z[i]) / model.dx_m(piece, h_n);
        let here_n = ratio * h_n;
        // Core reports the horizontal tension of the spans that somebody hangs on.
        if loaded.contains(&piece.span) {
            maxima.horizontal_n = maxima.horizontal_n.max(here_n);
        }
        maxima.tension_n = maxima.tension_n.max(here_n * (1.0 + slope * slope).sqrt());
    }
    for worker in 0..model.worker_node.len() {
        let base = 2 * n + 3 * worker;
        let d = model.stretch_m(worker, y);
        let most_m = y[base + 2].max(d);
        let force_n = model.gear_force_n(worker, d, y[base + 2]);
        maxima.force_n[worker] = maxima.force_n[worker].max(force_n);
        maxima.drop_m[worker] = maxima.drop_m[worker].max(y[base]);
        maxima.deflection_m[worker] = maxima.deflection_m[worker].max(z[model.worker_node[worker]]);
        maxima.extension_m[worker] = model.extension_m(worker, most_m);
    }
}

fn worker(position_m: f64, mass_kg: f64, fall_time_s: f64, plateau_n: Option<f64>) -> Worker {
    Worker {
        position_m,
        mass_kg,
        fall_time_s: Some(fall_time_s),
        gear: Gear {
            stiffness_n_per_m: 7.0e4,
            absorber: plateau_n.map(|force_n| Absorber {
                average_force_n: force_n,
                maximum_force_n: Some(force_n),
                max_extension_m: 1.5,
                locked_stiffness_n_per_m: 7.0e4,
                ..Absorber::default()
            }),
            free_fall_m: Some(1.3),
            ..Gear::default()
        },
        ..Worker::default()
    }
}

fn case(spans_m: &[f64], end_n_per_m: Option<f64>, workers: Vec<Worker>) -> Case {
    Case {
        line: Line {
            spans_m: spans_m.to_vec(),
            pretension_n: 3_500.0,
            rope: Rope {
                construction: Construction::Own,
                axial_stiffness_n: 3.7e6,
                mass_per_length_kg_per_m: 0.4,
                breaking_force_n: None,
                ..Rope::default()
            },
            left_end_stiffness_n_per_m: end_n_per_m,
            right_end_stiffness_n_per_m: end_n_per_m,
            ..Line::default()
        },
        workers,
        site: Site {
            beam_top_m: 60.0,
            ..Site::default()
        },
        motion: Motion {
            damping_s: 1.0e-4,
            duration_s: 1.5,
        },
        ..Case::default()
    }
}

/// A quantity: name, core's value, the independent one, allowed relative difference.
type Row = (String, f64, f64, f64);

/// Solves the case both ways; every disagreement beyond the tolerances is listed.
#[track_caller]
fn agree(name: &str, case: &Case) -> Vec<Row> {
    let other = integrate(case);
    let options = Options {
        refine: REFINE,
        ..Options::default()
    };
    let outcome = solve(case, options).unwrap_or_else(|f| panic!("{name}: {f:?}"));
    let line = &case.line;
    let along = line.spans_m.len() > 1 || line.left_end_stiffness_n_per_m.is_some();
    let mut rows = Vec::new();
    let mut extension_m = other.extension_m.clone();
    if along {
        // This model has one tension along the whole line: where rope passes over posts, or its ends
        // move, its peak is held against the cable that has inertia along it.
        let fineness = Fineness {
            duration_s: case.motion.duration_s,
            ..STANDARD
        };
        let cable = fall(case, fineness);
        let over = outcome.history.tension_max_n / cable.tension_max_2ms_n - 1.0;
        println!("{name}: tension {:+.2} % of the cable's", 100.0 * over);
        assert!(over > -MULTISPAN_TENSION_LOW_RTOL, "{name}: {over}");
        assert!(over < MULTISPAN_TENSION_HIGH_RTOL, "{name}: {over}");
        // What an absorber is left with hangs on the rope's tension at every instant.
        extension_m = cable.workers.iter().map(|w| w.extension_m).collect();
    } else {
        rows.push((
            "tension_horizontal_max_n".to_string(),
            outcome.history.tension_horizontal_max_n,
            other.horizontal_n,
            INDEPENDENT_FORCE_RTOL,
        ));
        rows.push((
            "tension_max_n".to_string(),
            outcome.history.tension_max_n,
            other.tension_n,
            INDEPENDENT_FORCE_RTOL,
        ));
    }
    for (i, found) in outcome.workers.iter().enumerate() {
        for (what, value, expected, rtol) in [
            (
                "arrest_force_max_n",
                found.arrest_force_max_n,
                other.force_n[i],
                INDEPENDENT_FORCE_RTOL,
            ),
            (
                "drop_max_m",
                found.drop_max_m,
                other.drop_m[i],
                INDEPENDENT_LENGTH_RTOL,
            ),
            (
                "line_deflection_max_m",
                found.line_deflection_max_m,
                other.deflection_m[i],
                INDEPENDENT_DEFLECTION_RTOL,
            ),
            (
                "absorber_extension_m",
                found.absorber_extension_m,
                extension_m[i],
                if along {
                    CABLE_EXTENSION_RTOL
                } else {
                    INDEPENDENT_FORCE_RTOL
                },
            ),
        ] {
            rows.push((format!("worker[{i}].{what}"), value, expected, rtol));
        }
    }
    let mut outside = Vec::new();
    for &(ref what, value, expected, rtol) in &rows {
        let text = format!(
            "{name}: {what}: core {value:.5}, independent {expected:.5}, off by {:.3} % (allowed {:.1} %)",
            100.0 * relative(value, expected),
            100.0 * rtol
        );
        println!("{text}");
        // `relative` is infinite where only the expected value is 0, and NaN fails the comparison.
        if !matches!(relative(value, expected).partial_cmp(&rtol), Some(o) if o.is_le()) {
            outside.push(text);
        }
    }
    assert!(outside.is_empty(), "{}", outside.join("\n"));
    rows
}

/// The cases, by name.
fn cases() -> [(&'static str, Case); 6] {
    [
        (
            "midspan",
            case(&[12.0], None, vec![worker(6.0, 100.0, 0.0, Some(4_000.0))]),
        ),
        (
            "off-centre, soft ends",
            case(
                &[15.0],
                Some(2.0e5),
                vec![worker(4.3, 90.0, 0.0, Some(3_500.0))],
            ),
        ),
        (
            "elastic",
            case(&[10.0], Some(5.0e5), vec![worker(5.0, 80.0, 0.0, None)]),
        ),
        (
            "two workers",
            case(
                &[18.0],
                None,
                vec![
                    worker(6.0, 100.0, 0.0, Some(4_000.0)),
                    worker(11.5, 85.0, 0.3, Some(3_000.0)),
                ],
            ),
        ),
        (
            "two spans",
            case(
                &[8.0, 11.0],
                Some(1.0e6),
                vec![
                    worker(4.5, 100.0, 0.0, Some(4_000.0)),
                    worker(13.0, 110.0, 0.0, Some(4_500.0)),
                ],
            ),
        ),
        (
            "two spans, one worker",
            case(
                &[8.0, 8.0],
                None,
                vec![worker(4.0, 100.0, 0.0, Some(4_000.0))],
            ),
        ),
    ]
}

/// The rows of a case, made once for all checks that ask for them.
#[track_caller]
fn rows_of(number: usize) -> &'static [Row] {
    static ROWS: [OnceLock<Vec<Row>>; 6] = [const { OnceLock::new() }; 6];
    ROWS[number].get_or_init(|| {
        let (name, case) = &cases()[number];
        agree(name, case)
    })
}

#[test]
fn one_worker_at_midspan() {
    rows_of(0);
}

#[test]
fn one_worker_off_centre_on_soft_ends() {
    rows_of(1);
}

#[test]
fn elastic_gear_only() {
    rows_of(2);
}

#[test]
fn two_workers_one_after_another() {
    rows_of(3);
}

#[test]
fn two_spans_a_worker_on_each() {
    rows_of(4);
}

#[test]
fn one_worker_on_two_spans() {
    rows_of(5);
}

#[test]
fn the_readme_shows_the_worst() {
    let worst = |what: &str| {
        let all = (0..cases().len()).flat_map(rows_of);
        all.filter(|(name, ..)| name.ends_with(what))
            .map(|&(_, value, expected, _)| relative(value, expected))
            .fold(0.0, f64::max)
    };
    for (figure, what) in [
        (Figure::IndependentDrop, ".drop_max_m"),
        (Figure::IndependentTension, "tension_max_n"),
        (Figure::IndependentExtension, ".absorber_extension_m"),
    ] {
        figures::hold(figure, &figures::at_most_percent(worst(what)));
    }
}
