//! The motion of two histories side by side, step by step.

use alloc::vec;
use alloc::vec::Vec;

use wide::CmpGe;

use super::crew::{Body, Crew};
use super::pair::{ONE, Pair, SIDES, of, with};
use super::peaks::Peaks;
use super::rope::Ropes;
use super::strands::Strands;
use super::{
    Ended, FRAME_S, Fall, Run, SECANT_MAX, STEP_MAX_S, STEP_MAX_USED_UP_S, Wanted, step_s,
};
use crate::case::{Case, Line};
use crate::constants::GRAVITY_M_PER_S2;
use crate::maths::{ceil, floor, sqrt};
use crate::mesh::{Mesh, MeshPiece, MeshSpan};
use crate::outcome::{Energy, History, Traces};

/// One history before and after its motion.
pub(super) struct Motion<'a> {
    case: &'a Case,
    mesh: Mesh,
    bodies: Vec<Body>,
    dt: f64,
    first_step: u32,
    last_step: u32,
    traces: Option<Traces>,
    ended: Option<Ended>,
}

/// Two histories side by side, whose lines are cut alike.
struct Bundle<'a, 'm> {
    /// One or two; where there is one, it runs beside a copy of itself.
    motions: &'m mut [Motion<'a>],
    spans: Vec<MeshSpan>,
    pieces: Vec<MeshPiece>,
    strands: Strands,
    ropes: Ropes,
    crew: Crew,
    peaks: Peaks,
    dt: Pair,
    step: Pair,
    /// Step and secant at which a history ends; infinite once it has.
    last_step: Pair,
    steepest: Pair,
}

/// Runs one history, or two cut alike, to the end.
pub(super) fn go(motions: &mut [Motion<'_>]) -> Vec<Ended> {
    if let (Some(first), Some(last)) = (motions.first(), motions.last()) {
        let mut bundle = {
            let pair = [first, last];
            let each = |what: fn(&Motion<'_>) -> f64| Pair::new(pair.map(what));
            let dt = each(|m| m.dt);
            let damping_s = each(|m| m.case.motion.damping_s);
            Bundle {
                spans: first.mesh.spans.clone(),
                pieces: first.mesh.pieces.clone(),
                strands: Strands::at_rest(pair.map(|m| &m.mesh), dt, damping_s),
                ropes: Ropes::at_rest(pair.map(|m| (&m.case.line, &m.mesh)), dt, damping_s),
                crew: Crew::new(pair.map(|m| &m.bodies[..]), dt),
                peaks: Peaks::new(first.case.line.spans_m.len(), &first.mesh),
                dt,
                step: each(|m| f64::from(m.first_step)),
                last_step: each(|m| f64::from(m.last_step)),
                steepest: Pair::splat(SECANT_MAX),
                motions,
            }
        };
        bundle.start();
        while bundle.motions.iter().any(|m| m.ended.is_none()) {
            bundle.advance();
        }
    }
    motions.iter_mut().filter_map(|m| m.ended.take()).collect()
}

impl Bundle<'_, '_> {
    fn start(&mut self) {
        let now = self.now_s();
        for side in 0..SIDES {
            self.crew.strike_before(side, of(now, side));
        }
        for (side, motion) in self.motions.iter_mut().enumerate() {
            motion.record_fall_before_start(side, &self.ropes);
        }
        self.crew.let_go(now);
        // Nothing has a speed yet: this looks at the line at rest.
        self.move_line();
        self.end();
    }

    /// Moves everything from t to t + dt: kick, drift, force.
    fn advance(&mut self) {
        self.crew.advance();
        self.step += ONE;
        let now = self.now_s();
        self.crew.let_go(now);
        self.move_line();
        self.peaks.watch(now, &self.ropes, &self.strands);
        self.crew.watch(now);
        for side in 0..self.motions.len() {
            self.record_frame(side, of(now, side));
        }
        self.end();
    }

    fn now_s(&self) -> Pair {
        self.step * self.dt
    }

    /// Moves the line, then finds the tensions of its shape and the force on every node and on those
    /// who fall.
    fn move_line(&mut self) {
        self.ropes.advance();
        self.ropes.take_idle();
        for (k, piece) in self.pieces.iter().enumerate() {
            if !piece.is_idle() {
                let (strain, fill) = self.ropes.assume(k);
                let sums = self.strands.advance(piece, strain, fill);
                self.ropes.take(k, &sums);
            }
        }
        self.crew.stretch(&self.strands);
        self.ropes.settle();
        for span in &self.spans {
            let (first, behind) = span.pieces;
            let states = &self.ropes.pieces[first..behind];
            self.strands
                .pull(&self.pieces[first..behind], |k| states[k].horizontal_n);
        }
        self.crew.pull(&mut self.strands);
    }

    /// Ends the histories whose time is over or whose line grew too steep.
    fn end(&mut self) {
        let over = self.step.cmp_ge(self.last_step);
        let steep = self.peaks.steepest.cmp_ge(self.steepest);
        if (over | steep).none() {
            return;
        }
        for side in 0..self.motions.len() {
            let steep = of(self.peaks.steepest, side) >= of(self.steepest, side);
            if of(self.step, side) >= of(self.last_step, side) || steep {
                let run = self.run(side);
                self.motions[side].ended = Some(Ended { run, steep });
                self.strands.stop(side);
                self.ropes.stop(side);
                self.crew.stop(side);
                self.last_step = with(self.last_step, side, f64::INFINITY);
                self.steepest = with(self.steepest, side, f64::INFINITY);
            }
        }
    }

    /// What a history gives that ends now.
    fn run(&mut self, side: usize) -> Run {
        let energy = self.ledger(side);
        let now_s = of(self.now_s(), side);
        let motion = &mut self.motions[side];
        let mut falls = vec![Fall::default(); motion.case.workers.len()];
        for faller in &self.crew.fallers {
            falls[faller.body(side).worker] = faller.fall(side, now_s);
        }
        let line = &motion.case.line;
        let moved = |k: Option<f64>, pull_n: f64| {
            k.map_or(0.0, |k| ((pull_n - line.pretension_n) / k).max(0.0))
        };
        let peaks = &self.peaks;
        let ends_n = peaks.ends_n(side);
        let inline_m = self.ropes.inline_extension_m(side);
        let steepest = of(peaks.steepest, side);
        Run {
            falls,
            supports: peaks.supports(side),
            history: History {
                tension_max_n: of(peaks.tension_n, side),
                time_tension_max_s: of(peaks.time_s, side),
                tension_horizontal_max_n: of(peaks.horizontal_n, side),
                left_end_movement_max_m: moved(line.left_end_stiffness_n_per_m, ends_n[0]),
                right_end_movement_max_m: moved(line.right_end_stiffness_n_per_m, ends_n[1]),
                inline_extension_m: inline_m.iter().sum(),
                inline_end_extension_m: inline_m,
                energy,
                steps: of(self.step, side) as u32 - motion.first_step,
                step_s: motion.dt,
                nodes: motion.mesh.nodes.len() as u32,
            },
            slope_max: sqrt((steepest * steepest - 1.0).max(0.0)),
            traces: motion.traces.take(),
            steps_tried: 0,
        }
    }

    /// The energy ledger now.
    fn ledger(&self, side: usize) -> Energy {
        let (motion, strands) = (&self.motions[side], &self.strands);
        let g = GRAVITY_M_PER_S2;
        let mut e = Energy::default();
        let z = |n: usize| of(strands.z_m(n), side);
        for span in &motion.mesh.spans {
            e.kinetic_j += strands.kinetic_j(span, side);
            for n in span.first_node + 1..span.first_node + span.segments {
                let node = &motion.mesh.nodes[n];
                e.gravity_work_j += node.mass_kg * g * (z(n) - node.rest_m);
            }
        }
        for faller in &self.crew.fallers {
            if faller.stands(side) {
                continue;
            }
            let mass_kg = faller.body(side).mass_kg;
            let force_n = of(faller.force_n, side);
            // Speeds stand half a step back; bring them to the present.
            let v = of(faller.speed_m_per_s, side) + 0.5 * motion.dt * (g - force_n / mass_kg);
            e.kinetic_j += 0.5 * mass_kg * v * v;
            e.gravity_work_j += mass_kg * g * of(faller.drop_m, side);
            e.elastic_j += {
                let pull = &faller.body(side).pull;
                pull.elastic_j(force_n, faller.extension_m(side))
            };
            e.absorbers_j += faller.absorbed_j(side);
        }
        let (line, mesh) = (&motion.case.line, &motion.mesh);
        let at_rest = Ropes::at_rest([(line, mesh); SIDES], ONE, ONE);
        e.kinetic_j += self.ropes.kinetic_j(side);
        let rest_j = at_rest.potential_j(side, line, mesh, |n| mesh.nodes[n].rest_m);
        e.elastic_j += self.ropes.potential_j(side, line, mesh, z) - rest_j;
        e.inline_absorber_j = self.ropes.inline_work_j(side);
        e.damping_j = strands.damping_work_j(side) + self.ropes.damping_work_j(side);
        let out = e.kinetic_j + e.elastic_j + e.absorbers_j + e.inline_absorber_j + e.damping_j;
        let work = self.crew.gravity_work_max_j(side);
        e.residual_ratio = if work > 0.0 {
            (e.gravity_work_j - out).abs() / work
        } else {
            0.0
        };
        e
    }

    /// A frame, if one falls into the step just taken; the step is shorter than a frame.
    fn record_frame(&mut self, side: usize, now_s: f64) {
        let motion = &mut self.motions[side];
        let Some(traces) = &mut motion.traces else {
            return;
        };
        let t = traces.frames as f64 * FRAME_S;
        if t > now_s || t > motion.case.motion.duration_s + 1e-9 {
            return;
        }
        let (strands, back) = (&self.strands, now_s - t);
        let part = back / motion.dt;
        let z = |n: usize| of(strands.z_m(n), side) - part * of(strands.change_m(n), side);
        traces.push_line(motion.case, &motion.mesh, (&self.ropes, side), z);
        for (worker, w) in motion.case.workers.iter().enumerate() {
            let mut fallers = self.crew.fallers.iter();
            let row = fallers.find(|f| f.body(side).worker == worker).map_or_else(
                || {
                    let rest = motion.case.line.rest_deflection_m(w.position_m);
                    [0.0, 0.0, 0.0, rest, 0.0, 0.0]
                },
                |faller| {
                    let b = faller.body(side);
                    let speed = of(faller.speed_m_per_s, side);
                    let deflection = z(b.node) + b.part * (z(b.node + 1) - z(b.node));
                    let drop = of(faller.drop_m, side) - back * speed;
                    // Who still stands does not hold the line, wherever it swings.
                    let taut_m = if t < b.fall_time_s {
                        f64::INFINITY
                    } else {
                        b.free_fall_m
                    };
                    let stretch = drop - (deflection - b.rest_m) - taut_m;
                    [
                        drop.max(0.0),
                        speed,
                        of(faller.force_n, side),
                        deflection,
                        stretch.max(0.0),
                        faller.extension_m(side),
                    ]
                },
            );
            traces.push_worker(row);
        }
    }
}

impl<'a> Motion<'a> {
    /// `tension_allowed_n`: horizontal tension that the step is chosen for; `step_divided` divides
    /// it.
    pub fn new(
        case: &'a Case,
        wanted: Wanted<'_>,
        tension_allowed_n: f64,
        step_divided: usize,
    ) -> Self {
        let mut mesh = Mesh::of(case, wanted.refine);
        let line = &case.line;
        let bodies = Body::all(case, wanted, &mesh);
        let stable_s = step_s(
            &mesh,
            &bodies,
            line,
            case.motion.damping_s,
            tension_allowed_n,
        );
        let longest_s = if wanted.used_up {
            STEP_MAX_USED_UP_S
        } else {
            STEP_MAX_S
        };
        let dt = stable_s.min(longest_s) / step_divided as f64;
        mesh.share(line, dt, tension_allowed_n);
        let taut_s = bodies
            .iter()
            .map(Body::taut_s)
            .fold(f64::INFINITY, f64::min);
        let last_step = ceil(case.motion.duration_s / dt) as u32;
        let first_step = ((floor(taut_s / dt) - 1.0).max(0.0) as u32).min(last_step);
        Self {
            case,
            dt,
            first_step,
            last_step,
            traces: wanted.traces.then(|| Traces::empty(case, &mesh)),
            ended: None,
            mesh,
            bodies,
        }
    }

    /// Steps from the first to the last.
    pub fn steps(&self) -> u32 {
        self.last_step - self.first_step
    }

    /// What is moved in a step, times the steps.
    pub fn node_steps(&self) -> u64 {
        let moved = self.mesh.nodes.len() + self.mesh.pieces.len() + self.bodies.len();
        moved as u64 * u64::from(self.steps())
    }

    /// Its line is cut into the same pieces and held alike, and as many fall from the same nodes: it
    /// may run beside the other.
    pub fn is_cut_like(&self, other: &Motion<'_>) -> bool {
        let (a, b) = (&self.mesh.pieces, &other.mesh.pieces);
        let mut fallers = self.bodies.iter().zip(&other.bodies);
        let held = |line: &Line| {
            let place = line.inline_absorber.map(|a| a.place);
            let ends = [
                line.left_end_stiffness_n_per_m,
                line.right_end_stiffness_n_per_m,
            ];
            (place, ends.map(|k| k.is_some()))
        };
        self.case.line.spans_m.len() == other.case.line.spans_m.len()
            && held(&self.case.line) == held(&other.case.line)
            && a.len() == b.len()
            && a.iter()
                .zip(b)
                .all(|(a, b)| a.span == b.span && a.segments == b.segments)
            && self.bodies.len() == other.bodies.len()
            && fallers.all(|(a, b)| a.node == b.node)
    }

    /// Frames before the first gear is taut: the line rests, bodies fall freely.
    fn record_fall_before_start(&mut self, side: usize, ropes: &Ropes) {
        let first_s = f64::from(self.first_step) * self.dt;
        let Some(traces) = &mut self.traces else {
            return;
        };
        loop {
            let t = traces.frames as f64 * FRAME_S;
            if t > first_s {
                break;
            }
            traces.push_line(self.case, &self.mesh, (ropes, side), |n| {
                self.mesh.nodes[n].rest_m
            });
            for (worker, w) in self.case.workers.iter().enumerate() {
                let since = w.fall_time_s.map_or(0.0, |s| (t - s).max(0.0));
                let speed = GRAVITY_M_PER_S2 * since;
                let rest = self.bodies.iter().find(|b| b.worker == worker).map_or_else(
                    || self.case.line.rest_deflection_m(w.position_m),
                    |b| b.rest_m,
                );
                traces.push_worker([0.5 * speed * since, speed, 0.0, rest, 0.0, 0.0]);
            }
        }
    }
}
