//! Where everything is at one instant, read from the traces between their frames.
//!
//! Depths are measured downward from the level of the line supports, m.

use footroom_core::case::{Case, InlinePlace, Worker};
use footroom_core::solve::{Doubt, Outcome, Traces};

use crate::order::sort;

/// Time that a body takes to fold once its gear is taut, s. Only drawn.
const FOLDING_S: f64 = 0.14;
/// Time in which the limbs come to rest after the first lowest point, s. Only drawn.
const SETTLING_S: f64 = 0.8;
/// Time from the first loss of balance to full fall posture, s. Only drawn.
const TIPPING_S: f64 = 0.42;

/// How far a body is in each phase of its fall, each from 0 to 1.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Phase {
    /// From standing to falling.
    pub falling: f64,
    /// From falling to caught.
    pub caught: f64,
    /// From caught to hanging.
    pub hanging: f64,
}

/// One worker at the instant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorkerMoment {
    /// Place along the line, m.
    pub position_m: f64,
    /// Connector on the line.
    pub connector_m: f64,
    /// D-ring.
    pub dring_m: f64,
    /// Soles of the stretched body.
    pub soles_m: f64,
    /// Harness stretch so far, m.
    pub harness_m: f64,
    /// Connecting gear, taut but unstretched, m.
    pub lanyard_m: f64,
    /// Irreversible extension of the absorber so far, m.
    pub absorber_m: f64,
    /// Whether there is an absorber to draw.
    pub has_absorber: bool,
    /// D-ring above the soles of the standing worker, m.
    pub dring_height_m: f64,
    /// Force in the gear, N.
    pub force_n: f64,
    /// Speed downward, m/s.
    pub speed_m_per_s: f64,
    /// Phase of the fall.
    pub phase: Phase,
    /// Whether he has come down on what is below.
    pub struck: bool,
}

/// Everything that moves, at one instant.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// The line as points (place, depth), left to right.
    pub line: Vec<(f64, f64)>,
    /// Each worker of the case.
    pub workers: Vec<WorkerMoment>,
    /// Extension of the in-line absorber at the left end and of the one at the right end, m; 0 where
    /// there is none.
    pub inline_m: [f64; 2],
    /// Greatest tension along the line, N; `None`: not known.
    pub tension_n: Option<f64>,
}

/// What the in-line absorbers have given together, at the left end and at the right end, m.
///
/// Of two the motion's frames know the sum alone. It is drawn in the ratio of what each gives in the
/// whole motion, or by halves where neither gives anything: right from the instant when both have
/// given all that they give, and before it only as near as the two deploy together.
fn at_ends(case: &Case, outcome: &Outcome, sum_m: f64) -> [f64; 2] {
    let place = case.line.inline_absorber.map(|a| a.place);
    match place.unwrap_or_default() {
        InlinePlace::Left => [sum_m, 0.0],
        InlinePlace::Right => [0.0, sum_m],
        InlinePlace::Both => {
            let [left, right] = outcome.history.inline_end_extension_m;
            let all = left + right;
            let left_m = sum_m * if all > 0.0 { left / all } else { 0.5 };
            [left_m, sum_m - left_m]
        }
    }
}

/// A finite number between two bounds; what is not a number becomes the lower one.
pub fn held(value: f64, low: f64, high: f64) -> f64 {
    if value.is_finite() {
        value.max(low).min(high)
    } else {
        low
    }
}

/// Smooth step from 0 at `u` = 0 to 1 at `u` = 1.
pub fn smooth(u: f64) -> f64 {
    let u = held(u, 0.0, 1.0);
    u * u * (3.0 - 2.0 * u)
}

/// Time after which the traces have ended and the drawing shows the line hanging at rest, s.
pub fn traces_end_s(outcome: &Outcome) -> Option<f64> {
    let traces = outcome.traces.as_ref()?;
    (traces.frames > 0).then(|| traces.interval_s * (traces.frames - 1) as f64)
}

/// A place between two frames.
#[derive(Clone, Copy)]
struct Between {
    frame: usize,
    part: f64,
}

impl Between {
    fn find(traces: &Traces, time_s: f64) -> Option<Self> {
        if traces.frames == 0 || traces.interval_s <= 0.0 || !traces.interval_s.is_finite() {
            return None;
        }
        let last = traces.frames - 1;
        let at = held(time_s / traces.interval_s, 0.0, last as f64);
        let frame = (at as usize).min(last);
        Some(Self {
            frame,
            part: at - frame as f64,
        })
    }

    /// Value of one column, linear between the frames; 0 where the trace has none.
    fn read(self, values: &[f64], columns: usize, column: usize) -> f64 {
        let get = |frame: usize| values.get(frame * columns + column).copied();
        let a = get(self.frame).unwrap_or(0.0);
        let b = get(self.frame + 1).unwrap_or(a);
        let value = a + (b - a) * self.part;
        if value.is_finite() { value } else { 0.0 }
    }
}

impl Moment {
    /// Everything at `time_s`. Without an outcome, or without traces, the crew stands; after the
    /// end of the traces all that fell hang at rest.
    pub fn at(case: &Case, outcome: Option<&Outcome>, time_s: f64) -> Self {
        let standing = Self::standing(case);
        let Some(outcome) = outcome else {
            return standing;
        };
        let Some(traces) = outcome.traces.as_ref() else {
            return standing;
        };
        if traces_end_s(outcome).is_some_and(|end| time_s > end + 1.0e-6) {
            return standing.hanging(case, outcome);
        }
        let Some(between) = Between::find(traces, time_s) else {
            return standing;
        };
        standing.moving(case, outcome, traces, between, time_s)
    }

    /// The line at rest and everybody on the beam.
    fn standing(case: &Case) -> Self {
        let line = &case.line;
        let mut points = Vec::new();
        let mut start = 0.0;
        for &span in &line.spans_m {
            let span = held(span, 0.0, 1.0e4);
            for i in 0..12 {
                let x = start + span * f64::from(i) / 12.0;
                points.push((x, held(line.rest_deflection_m(x), 0.0, 1.0e3)));
            }
            start += span;
        }
        points.push((start, 0.0));
        let height = held(line.height_above_beam_m, 0.0, 1.0e3);
        let workers = case
            .workers
            .iter()
            .map(|w| {
                let dring_height = held(w.dring_height_m, 0.3, 3.0);
                let connector = held(line.rest_deflection_m(w.position_m), 0.0, 1.0e3);
                WorkerMoment {
                    position_m: held(w.position_m, 0.0, start),
                    connector_m: connector,
                    dring_m: height - dring_height,
                    soles_m: height,
                    harness_m: 0.0,
                    lanyard_m: lanyard_of(w, height - dring_height - connector),
                    absorber_m: 0.0,
                    has_absorber: w.gear.absorber.is_some(),
                    dring_height_m: dring_height,
                    force_n: 0.0,
                    speed_m_per_s: 0.0,
                    phase: Phase::default(),
                    struck: false,
                }
            })
            .collect();
        Self {
            line: points,
            workers,
            inline_m: [0.0; 2],
            tension_n: None,
        }
    }

    /// The instant between two frames.
    fn moving(
        mut self,
        case: &Case,
        outcome: &Outcome,
        traces: &Traces,
        between: Between,
        time_s: f64,
    ) -> Self {
        let nodes = traces.node_x_m.len();
        if nodes >= 2 {
            self.line = traces
                .node_x_m
                .iter()
                .enumerate()
                .filter(|(_, x)| x.is_finite())
                .map(|(i, &x)| (x, between.read(&traces.node_deflection_m, nodes, i)))
                .collect();
        }
        let inline_m = between.read(&traces.inline_extension_m, 1, 0).max(0.0);
        self.inline_m = at_ends(case, outcome, inline_m);
        self.tension_n = Some(between.read(&traces.tension_max_n, 1, 0));
        let count = traces.workers;
        let spec = case.workers.iter();
        for (i, (worker, w)) in self.workers.iter_mut().zip(spec).enumerate().take(count) {
            let Some(result) = outcome.workers.get(i) else {
                continue;
            };
            worker.connector_m = between.read(&traces.connector_deflection_m, count, i);
            if !result.fell {
                continue;
            }
            worker.lanyard_m = held(result.stack.lanyard_m, 0.0, 1.0e3);
            let drop = between.read(&traces.drop_m, count, i);
            worker.force_n = between.read(&traces.force_n, count, i);
            worker.speed_m_per_s = between.read(&traces.speed_m_per_s, count, i);
            worker.absorber_m = between
                .read(&traces.absorber_extension_m, count, i)
                .max(0.0);
            // The harness gives way as the body comes down on it, and stays so.
            let free = result.free_fall_m;
            let to_lowest = (result.drop_first_lowest_m - free).max(1.0e-6);
            let deepest = deepest_drop_m(traces, i, between.frame).max(drop);
            worker.harness_m =
                held(w.harness_stretch_m, 0.0, 3.0) * held((deepest - free) / to_lowest, 0.0, 1.0);
            worker.dring_m += drop;
            worker.soles_m += drop + worker.harness_m;
            let start_s = w.fall_time_s.unwrap_or(0.0);
            let taut_s = first_taut_s(traces, i);
            worker.phase = Phase {
                falling: smooth((time_s - start_s) / TIPPING_S),
                caught: taut_s.map_or(0.0, |taut| smooth((time_s - taut) / FOLDING_S)),
                hanging: smooth((time_s - result.time_first_lowest_s) / SETTLING_S),
            };
            worker.struck = struck_s(outcome, i).is_some_and(|at| time_s >= at);
        }
        self
    }

    /// Everybody who fell hangs at rest.
    fn hanging(mut self, case: &Case, outcome: &Outcome) -> Self {
        let hanging = &outcome.hanging;
        let mut points: Vec<(f64, f64)> = Vec::new();
        let mut start = 0.0;
        points.push((0.0, 0.0));
        for &span in &case.line.spans_m {
            start += held(span, 0.0, 1.0e4);
            points.push((start, 0.0));
        }
        let inline_m = outcome.history.inline_extension_m.max(0.0);
        self.inline_m = at_ends(case, outcome, inline_m);
        self.tension_n = Some(hanging.tension_max_n);
        for (i, (worker, w)) in self.workers.iter_mut().zip(&case.workers).enumerate() {
            let deflection = |i: usize| hanging.deflection_m.get(i).copied();
            worker.connector_m = held(deflection(i).unwrap_or(0.0), 0.0, 1.0e3);
            points.push((worker.position_m, worker.connector_m));
            let Some(result) = outcome.workers.get(i).filter(|r| r.fell) else {
                continue;
            };
            let drop = held(hanging.drop_m.get(i).copied().unwrap_or(0.0), 0.0, 1.0e3);
            worker.lanyard_m = held(result.stack.lanyard_m, 0.0, 1.0e3);
            worker.force_n = hanging.force_n.get(i).copied().unwrap_or(0.0);
            worker.absorber_m = held(result.absorber_extension_m, 0.0, 1.0e2);
            worker.harness_m = held(w.harness_stretch_m, 0.0, 3.0);
            worker.dring_m += drop;
            worker.soles_m += drop + worker.harness_m;
            worker.phase = Phase {
                falling: 1.0,
                caught: 1.0,
                hanging: 1.0,
            };
            worker.struck = struck_s(outcome, i).is_some();
        }
        sort(&mut points, |a, b| a.0 < b.0);
        self.line = points;
        self
    }

    /// Depth of the line at a place, straight between its points, m.
    pub fn line_depth_m(&self, x_m: f64) -> f64 {
        let right = self.line.partition_point(|p| p.0 < x_m);
        match (right.checked_sub(1), self.line.get(right)) {
            (Some(left), Some(&(x1, d1))) => {
                let (x0, d0) = self.line[left];
                if x1 > x0 {
                    d0 + (d1 - d0) * (x_m - x0) / (x1 - x0)
                } else {
                    d1
                }
            }
            (_, Some(&(_, depth))) => depth,
            _ => 0.0,
        }
    }
}

/// Length of the gear when taut, as far as the case alone tells, m.
fn lanyard_of(worker: &Worker, way_m: f64) -> f64 {
    use footroom_core::case::GearKind;
    let length = match worker.gear.kind {
        GearKind::Lanyard => worker.gear.length_m,
        GearKind::SelfRetracting => way_m.max(0.0),
    };
    held(length, 0.0, 1.0e2)
}

/// Greatest drop of a worker up to a frame, m.
fn deepest_drop_m(traces: &Traces, worker: usize, frame: usize) -> f64 {
    traces
        .drop_m
        .iter()
        .skip(worker)
        .step_by(traces.workers.max(1))
        .take(frame + 1)
        .fold(0.0, |deepest: f64, &drop| deepest.max(drop))
}

/// Instant at which a worker's gear first pulls, s.
fn first_taut_s(traces: &Traces, worker: usize) -> Option<f64> {
    traces
        .force_n
        .iter()
        .skip(worker)
        .step_by(traces.workers.max(1))
        .position(|&force| force > 0.0)
        .map(|frame| frame as f64 * traces.interval_s)
}

/// Instant at which a worker comes down on what is below, s.
fn struck_s(outcome: &Outcome, worker: usize) -> Option<f64> {
    outcome.doubts.iter().find_map(|doubt| match *doubt {
        Doubt::Strikes {
            worker: who,
            time_s,
            ..
        } if who == worker => Some(time_s),
        _ => None,
    })
}
