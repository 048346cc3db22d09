//! The motion of a bundle of histories, step by step, and what is watched of it.

use alloc::vec;
use alloc::vec::Vec;

use super::rope::{Ropes, Sums, sine_and_cosine};
use super::strands::{Each, SIDES_MAX, Strands, greater};
use super::{Ended, FRAME_S, Fall, Run, SECANT_MAX, Wanted, step_s};
use crate::absorber::Pull;
use crate::case::{Case, Line};
use crate::constants::GRAVITY_M_PER_S2;
use crate::maths::{ceil, floor, sqrt};
use crate::mesh::{Mesh, MeshSpan};
use crate::solve::{Energy, History, SupportPeak, Traces};

/// One who falls.
pub(super) struct Body {
    worker: usize,
    /// Drop at which his soles reach what is below, m.
    strike_drop_m: f64,
    fall: Fall,
    pub mass_kg: f64,
    weight_n: f64,
    per_mass_per_kg: f64,
    fall_time_s: f64,
    free_fall_m: f64,
    rest_m: f64,
    pub node: usize,
    pub part: f64,
    pub pull: Pull,
    started: bool,
    drop_m: f64,
    speed_m_per_s: f64,
    force_n: f64,
    deflection_m: f64,
}

/// One history, all but its nodes and segments.
pub(super) struct Motion<'a> {
    case: &'a Case,
    mesh: Mesh,
    bodies: Vec<Body>,
    dt: f64,
    step: u32,
    first_step: u32,
    last_step: u32,
    /// Greatest work of gravity on the workers so far, J.
    gravity_work_max_j: f64,
    traces: Option<Traces>,
    ended: Option<Ended>,
}

/// Histories side by side, whose lines are cut alike.
struct Bundle<'a> {
    strands: Strands,
    ropes: Ropes,
    spans: Vec<MeshSpan>,
    peaks: Peaks,
    motions: Vec<Motion<'a>>,
}

/// Runs histories cut alike, [`SIDES_MAX`] at most, side by side to their ends.
pub(super) fn go(motions: Vec<Motion<'_>>) -> Vec<Ended> {
    let lines: Vec<(&Line, &Mesh)> = motions.iter().map(|m| (&m.case.line, &m.mesh)).collect();
    let (Some(ropes), Some(first)) = (Ropes::at_rest(&lines), motions.first()) else {
        return Vec::new();
    };
    let sides = motions.len().next_power_of_two().min(SIDES_MAX);
    let mut bundle = Bundle {
        strands: Strands::new(&first.mesh, sides),
        ropes,
        spans: first.mesh.spans.clone(),
        peaks: Peaks::new(&motions),
        motions,
    };
    bundle.start();
    while bundle.advance() {}
    bundle.motions.into_iter().filter_map(|m| m.ended).collect()
}

impl Bundle<'_> {
    fn start(&mut self) {
        let strands = &mut self.strands;
        // Places without a history hold the first one's line, and stand still.
        if let Some(first) = self.motions.first() {
            for side in self.motions.len()..strands.sides() {
                strands.lay(side, &first.mesh, first.dt, 0.0);
                strands.stop(side);
            }
        }
        for (side, motion) in self.motions.iter_mut().enumerate() {
            strands.lay(side, &motion.mesh, motion.dt, motion.case.motion.damping_s);
            motion.record_fall_before_start(side, &self.ropes);
            motion.strikes_before_start();
            motion.place_falling_bodies();
        }
        self.forces();
        self.end();
    }

    /// Moves everything from t to t + dt: kick, drift, force. False: all have ended.
    fn advance(&mut self) -> bool {
        if self.motions.iter().all(|m| m.ended.is_some()) {
            return false;
        }
        self.strands.advance();
        for motion in &mut self.motions {
            motion.move_bodies();
        }
        self.forces();
        let now = each(&self.motions, |m| m.time_s());
        self.peaks.watch(&now, &self.ropes, &self.strands);
        for (side, motion) in self.motions.iter_mut().enumerate() {
            if motion.ended.is_none() {
                motion.watch(side, &self.ropes, &self.strands);
            }
        }
        self.end();
        true
    }

    /// Tension from the present shape, then the force on every node and body.
    fn forces(&mut self) {
        self.ropes.assume();
        for k in 0..self.spans.len() {
            self.look(k);
        }
        self.strands.turn_over();
        self.ropes.settle();
        if self.ropes.at_right_end() && self.ropes.inline_moved_m.iter().any(|&m| m > 0.0) {
            self.release();
        }
        for (k, span) in self.spans.iter().enumerate() {
            self.strands.pull(span, &self.ropes.spans[k].horizontal_n);
        }
        for (side, motion) in self.motions.iter_mut().enumerate() {
            motion.pull(side, &mut self.strands);
        }
    }

    /// Where the in-line absorber has moved, the last segment has a law of its own from now on.
    fn release(&mut self) {
        let Some(span) = self.spans.last() else {
            return;
        };
        for side in 0..self.strands.sides() {
            if self.ropes.inline_moved_m[side] > 0.0 {
                self.strands
                    .release(span.first_segment + span.segments - 1, side);
            }
        }
    }

    /// Looks at the segments of loaded span `k` in all histories.
    fn look(&mut self, k: usize) {
        let (span, state) = (&self.spans[k], &self.ropes.spans[k]);
        let mut sums = self.strands.look(span, &state.strain, &state.fill);
        for side in 0..self.strands.sides() {
            if self.ropes.extended_span(side) == Some(k) {
                self.look_at_extended(k, side, &mut sums);
            }
        }
        self.ropes.take(k, &sums);
    }

    /// With the in-line absorber extended, the last segment has a law of its own; it was counted as
    /// level before.
    fn look_at_extended(&mut self, k: usize, side: usize, sums: &mut Sums) {
        let (span, state) = (&self.spans[k], &self.ropes.spans[k]);
        let last = span.first_segment + span.segments - 1;
        let rope_m = self.strands.rope_of_m(last, side);
        let node = span.first_node + span.segments;
        let z = |n: usize| self.strands.z_m[self.strands.at(n, side)];
        let (sine, cosine) = sine_and_cosine(
            z(node) - z(node - 1),
            rope_m * state.fill[side],
            state.strain[side],
            self.ropes.inline_extension_m[side],
        );
        let secant = 1.0 / cosine;
        for place in (side..SIDES_MAX).step_by(self.strands.sides()) {
            sums.cosine_m[place] += rope_m * (cosine - 1.0);
            sums.secant_m[place] += rope_m * (secant - 1.0);
            sums.steepest[place] = greater(secant, sums.steepest[place]);
            sums.last_secant[place] = secant;
        }
        self.strands.turn(last, side, sine * secant);
    }

    /// Ends the histories whose time is over or whose line grew too steep.
    fn end(&mut self) {
        for side in 0..self.motions.len() {
            let motion = &self.motions[side];
            // False for a number that is none, so that this ends the run as well.
            let describable = self.peaks.steepest[side] < SECANT_MAX;
            let over = motion.step >= motion.last_step;
            if motion.ended.is_none() && (over || !describable) {
                let run = self.run(side);
                self.motions[side].ended = Some(Ended {
                    run,
                    steep: !describable,
                });
                self.strands.stop(side);
            }
        }
    }

    /// What a history gives that ends now.
    fn run(&mut self, side: usize) -> Run {
        let energy = self.ledger(side);
        let motion = &mut self.motions[side];
        let mut falls = vec![Fall::default(); motion.case.workers.len()];
        for body in &motion.bodies {
            let fall = &mut falls[body.worker];
            *fall = body.fall;
            fall.extension_m = body.pull.extension_m;
            if !fall.turned {
                fall.drop_max_m = fall.drop_max_m.max(body.drop_m);
            }
            fall.used_up = body.pull.used_up(fall.arrest_force_max_n);
        }
        let line = &motion.case.line;
        let moved = |k: Option<f64>, pull_n: f64| {
            k.map_or(0.0, |k| ((pull_n - line.pretension_n) / k).max(0.0))
        };
        let peaks = &self.peaks;
        let impedance = sqrt(line.rope.axial_stiffness_n * line.rope.mass_per_length_kg_per_m);
        let rate_max_m_per_s = self.ropes.inline_moved_max_m[side] / motion.dt;
        Run {
            falls,
            supports: peaks.supports(side),
            history: History {
                tension_max_n: peaks.tension_n[side],
                time_tension_max_s: peaks.time_s[side],
                tension_horizontal_max_n: peaks.horizontal_n[side],
                axial_inertia_bound_n: impedance * rate_max_m_per_s,
                left_end_movement_max_m: moved(
                    line.left_end_stiffness_n_per_m,
                    peaks.ends_n[0][side],
                ),
                right_end_movement_max_m: moved(
                    line.right_end_stiffness_n_per_m,
                    peaks.ends_n[1][side],
                ),
                inline_extension_m: self.ropes.inline_extension_m[side],
                energy,
                steps: motion.step - motion.first_step,
                step_s: motion.dt,
                nodes: motion.mesh.nodes.len() as u32,
            },
            slope_max: sqrt((peaks.steepest[side] * peaks.steepest[side] - 1.0).max(0.0)),
            traces: motion.traces.take(),
            steps_tried: 0,
        }
    }

    /// The energy ledger now.
    fn ledger(&self, side: usize) -> Energy {
        let (motion, strands) = (&self.motions[side], &self.strands);
        let g = GRAVITY_M_PER_S2;
        let mut e = Energy::default();
        // Speeds stand half a step back; bring them to the present.
        let half = 0.5 * motion.dt;
        let z = |n: usize| strands.z_m[strands.at(n, side)];
        for span in &motion.mesh.spans {
            for n in span.first_node + 1..span.first_node + span.segments {
                let (node, at) = (&motion.mesh.nodes[n], strands.at(n, side));
                let v = strands.change_m[at] / motion.dt
                    + half * (strands.pull_n[at] / node.mass_kg + g);
                e.kinetic_j += 0.5 * node.mass_kg * v * v;
                e.gravity_work_j += node.mass_kg * g * (z(n) - node.rest_m);
            }
        }
        for body in &motion.bodies {
            if body.started {
                let v = body.speed_m_per_s + half * (g - body.force_n * body.per_mass_per_kg);
                e.kinetic_j += 0.5 * body.mass_kg * v * v;
                e.gravity_work_j += body.mass_kg * g * body.drop_m;
                e.elastic_j += body.pull.elastic_j(body.force_n);
                e.absorbers_j += body.pull.absorbed_j;
            }
        }
        let (line, mesh) = (&motion.case.line, &motion.mesh);
        let rest_j = Ropes::at_rest(&[(line, mesh)]).map_or(0.0, |ropes| {
            ropes.potential_j(0, line, mesh, |n| mesh.nodes[n].rest_m)
        });
        e.elastic_j += self.ropes.potential_j(side, line, mesh, z) - rest_j;
        e.inline_absorber_j = self.ropes.inline_work_j[side];
        e.damping_j = strands.damping_work_j(side);
        let out = e.kinetic_j + e.elastic_j + e.absorbers_j + e.inline_absorber_j + e.damping_j;
        let work = motion.gravity_work_max_j;
        e.residual_ratio = if work > 0.0 {
            (e.gravity_work_j - out).abs() / work
        } else {
            0.0
        };
        e
    }
}

/// Greatest values so far.
struct Peaks {
    /// Tension, N, and its time, s; horizontal tension, N; secant.
    tension_n: Each,
    time_s: Each,
    horizontal_n: Each,
    steepest: Each,
    /// Horizontal tension at the left and the right end, N.
    ends_n: [Each; 2],
    /// Downward and horizontal force on every support, N, and the square of their sum, N²; only at
    /// the ends is that of use.
    vertical_n: Vec<Each>,
    along_n: Vec<Each>,
    squares_n2: Vec<Each>,
    spans: Vec<Sides>,
}

/// Where the forces of a span on its supports come from.
enum Sides {
    /// Its place among the loaded spans, its first and its last segment.
    Loaded(usize, usize, usize),
    /// Half its weight, N.
    Idle(Each),
}

impl Peaks {
    fn new(motions: &[Motion<'_>]) -> Self {
        let (spans, lengths) = motions.first().map_or((&[][..], &[][..]), |m| {
            (&m.mesh.spans[..], &m.case.line.spans_m[..])
        });
        let of = |at: usize| match spans.iter().enumerate().find(|(_, s)| s.span == at) {
            Some((k, span)) => {
                let first = span.first_segment;
                Sides::Loaded(k, first, first + span.segments - 1)
            }
            None => Sides::Idle(each(motions, |m| {
                0.5 * m.case.line.weight_n_per_m() * m.case.line.spans_m[at]
            })),
        };
        let none = vec![[0.0; SIDES_MAX]; lengths.len() + 1];
        Self {
            tension_n: [0.0; SIDES_MAX],
            time_s: [0.0; SIDES_MAX],
            horizontal_n: [0.0; SIDES_MAX],
            steepest: [1.0; SIDES_MAX],
            ends_n: [[0.0; SIDES_MAX]; 2],
            vertical_n: none.clone(),
            along_n: none.clone(),
            squares_n2: none,
            spans: (0..lengths.len()).map(of).collect(),
        }
    }

    /// Takes the values of this step.
    fn watch(&mut self, now_s: &Each, ropes: &Ropes, strands: &Strands) {
        for span in &ropes.spans {
            for i in 0..SIDES_MAX {
                let tension = span.horizontal_n[i] * span.steepest[i];
                let more = tension > self.tension_n[i];
                self.tension_n[i] = if more { tension } else { self.tension_n[i] };
                self.time_s[i] = if more { now_s[i] } else { self.time_s[i] };
                self.horizontal_n[i] = greater(span.horizontal_n[i], self.horizontal_n[i]);
                self.steepest[i] = greater(span.steepest[i], self.steepest[i]);
            }
        }
        for (most, now) in self.ends_n.iter_mut().zip(ropes.end_horizontals_n()) {
            *most = greater_each(now, most);
        }
        if self.spans.iter().any(|s| matches!(s, Sides::Idle(_))) {
            self.horizontal_n = greater_each(&ropes.tension_n, &self.horizontal_n);
        }
        // Downward and along the line from the span on the left.
        let (mut below, mut before) = ([0.0; SIDES_MAX], [0.0; SIDES_MAX]);
        let mut idle_before = false;
        let rows = self.vertical_n.iter_mut().zip(&mut self.along_n);
        for (at, ((vertical_n, along_n), squares_n2)) in rows.zip(&mut self.squares_n2).enumerate()
        {
            let mut left = [0.0; SIDES_MAX];
            let mut right = [0.0; SIDES_MAX];
            let mut along = [0.0; SIDES_MAX];
            let mut idle = false;
            match self.spans.get(at) {
                Some(Sides::Loaded(k, first, last)) => {
                    left = strands.vertical_of_n(*first);
                    right = strands.vertical_of_n(*last).map(|v| -v);
                    along = ropes.spans[*k].horizontal_n;
                }
                Some(Sides::Idle(weight)) => {
                    (left, right) = (*weight, *weight);
                    along = ropes.tension_n;
                    idle = true;
                }
                None => {}
            }
            // Between two spans on which nobody falls it is always the same.
            let known = idle && idle_before && vertical_n[0] > 0.0;
            if !known {
                for i in 0..SIDES_MAX {
                    let (vertical, horizontal) = (below[i] + left[i], along[i] - before[i]);
                    vertical_n[i] = greater(vertical, vertical_n[i]);
                    along_n[i] = greater(horizontal.abs(), along_n[i]);
                    let squares = horizontal * horizontal + vertical * vertical;
                    squares_n2[i] = greater(squares, squares_n2[i]);
                }
            }
            (below, before, idle_before) = (right, along, idle);
        }
    }

    /// Of one history, left to right.
    fn supports(&self, side: usize) -> Vec<SupportPeak> {
        let last = self.vertical_n.len() - 1;
        (0..=last)
            .map(|i| SupportPeak {
                vertical_max_n: self.vertical_n[i][side],
                horizontal_max_n: self.along_n[i][side],
                tension_max_n: if i == 0 || i == last {
                    sqrt(self.squares_n2[i][side])
                } else {
                    0.0
                },
            })
            .collect()
    }
}

/// The greater of each two numbers.
#[inline]
fn greater_each(a: &Each, b: &Each) -> Each {
    let mut most = [0.0; SIDES_MAX];
    for i in 0..SIDES_MAX {
        most[i] = greater(a[i], b[i]);
    }
    most
}

/// A number of every history; places without one repeat the first ones.
#[inline]
fn each(motions: &[Motion<'_>], of: impl Fn(&Motion<'_>) -> f64) -> Each {
    let mut values = [motions.first().map_or(0.0, &of); SIDES_MAX];
    for (value, motion) in values.iter_mut().zip(motions) {
        *value = of(motion);
    }
    if motions.len() == 2 {
        values[3] = values[1];
    }
    values
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
        let mesh = Mesh::of(case, wanted.refine);
        let line = &case.line;
        let bodies: Vec<Body> = case
            .workers
            .iter()
            .enumerate()
            .filter_map(|(worker, w)| {
                let at = mesh.attachments[worker];
                let rest = |n: usize| mesh.nodes[n].rest_m;
                let rest_m = rest(at.node) + at.part * (rest(at.node + 1) - rest(at.node));
                w.fall_time_s.map(|fall_time_s| Body {
                    worker,
                    strike_drop_m: wanted.strike_drop_m[worker],
                    fall: Fall::default(),
                    mass_kg: w.mass_kg,
                    weight_n: w.mass_kg * GRAVITY_M_PER_S2,
                    per_mass_per_kg: 1.0 / w.mass_kg,
                    fall_time_s,
                    free_fall_m: w.free_fall_m(line),
                    rest_m,
                    node: at.node,
                    part: at.part,
                    pull: Pull::new(&w.gear),
                    started: false,
                    drop_m: 0.0,
                    speed_m_per_s: 0.0,
                    force_n: 0.0,
                    deflection_m: rest_m,
                })
            })
            .collect();
        let dt = step_s(
            &mesh,
            &bodies,
            line,
            case.motion.damping_s,
            tension_allowed_n,
        ) / step_divided as f64;
        let taut_s = bodies
            .iter()
            .map(|b| b.fall_time_s + sqrt(2.0 * b.free_fall_m / GRAVITY_M_PER_S2))
            .fold(f64::INFINITY, f64::min);
        let last_step = ceil(case.motion.duration_s / dt) as u32;
        let first_step = ((floor(taut_s / dt) - 1.0).max(0.0) as u32).min(last_step);
        Self {
            case,
            dt,
            step: first_step,
            first_step,
            last_step,
            gravity_work_max_j: 0.0,
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

    /// Its line is cut into the same pieces: it may run beside the other.
    pub fn is_cut_like(&self, other: &Motion<'_>) -> bool {
        let (a, b) = (&self.mesh.spans, &other.mesh.spans);
        self.case.line.spans_m.len() == other.case.line.spans_m.len()
            && a.len() == b.len()
            && a.iter()
                .zip(b)
                .all(|(a, b)| a.span == b.span && a.segments == b.segments)
    }

    fn time_s(&self) -> f64 {
        f64::from(self.step) * self.dt
    }

    /// Strikes while everybody still falls freely: on the parabola.
    fn strikes_before_start(&mut self) {
        let start_s = f64::from(self.first_step) * self.dt;
        for body in &mut self.bodies {
            let strike = body.strike_drop_m.max(0.0);
            let time_s = body.fall_time_s + sqrt(2.0 * strike / GRAVITY_M_PER_S2);
            if time_s < start_s {
                let speed = GRAVITY_M_PER_S2 * (time_s - body.fall_time_s);
                body.fall.struck = Some((time_s, speed));
            }
        }
    }

    fn move_bodies(&mut self) {
        if self.ended.is_some() {
            return;
        }
        let dt = self.dt;
        for body in &mut self.bodies {
            if body.started {
                body.speed_m_per_s += dt * (GRAVITY_M_PER_S2 - body.force_n * body.per_mass_per_kg);
                body.drop_m += dt * body.speed_m_per_s;
            }
        }
        self.step += 1;
        self.place_falling_bodies();
    }

    /// Bodies that let go during the step just taken join on their exact parabola.
    fn place_falling_bodies(&mut self) {
        let now = self.time_s();
        for body in &mut self.bodies {
            if !body.started && now > body.fall_time_s {
                let since = now - body.fall_time_s;
                body.started = true;
                body.drop_m = 0.5 * GRAVITY_M_PER_S2 * since * since;
                body.speed_m_per_s = GRAVITY_M_PER_S2 * (since - 0.5 * self.dt);
            }
        }
    }

    /// Forces of the gear on bodies and nodes.
    fn pull(&mut self, side: usize, strands: &mut Strands) {
        if self.ended.is_some() {
            return;
        }
        for body in &mut self.bodies {
            let (a, b) = (strands.at(body.node, side), strands.at(body.node + 1, side));
            let (left, right) = (strands.z_m[a], strands.z_m[b]);
            body.deflection_m = left + body.part * (right - left);
            if !body.started {
                continue;
            }
            let lowered = body.deflection_m - body.rest_m;
            body.force_n = body.pull.force_n(body.drop_m - lowered - body.free_fall_m);
            strands.pull_n[a] += (1.0 - body.part) * body.force_n;
            strands.pull_n[b] += body.part * body.force_n;
        }
    }

    /// Lowest points, frames.
    fn watch(&mut self, side: usize, ropes: &Ropes, strands: &Strands) {
        let now = self.time_s();
        let mut work_j = 0.0;
        for body in &mut self.bodies {
            work_j += body.weight_n * body.drop_m;
            if body.started {
                body.watch(now, self.dt);
            }
        }
        self.gravity_work_max_j = greater(work_j, self.gravity_work_max_j);
        self.record_frames(side, ropes, strands);
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

    fn record_frames(&mut self, side: usize, ropes: &Ropes, strands: &Strands) {
        let now = self.time_s();
        let Some(traces) = &mut self.traces else {
            return;
        };
        // The step is shorter than a frame: at most one frame falls into it.
        let t = traces.frames as f64 * FRAME_S;
        if t > now || t > self.case.motion.duration_s + 1e-9 {
            return;
        }
        let back = now - t;
        let part = back / self.dt;
        let z = |n: usize| {
            let at = strands.at(n, side);
            strands.z_m[at] - part * strands.change_m[at]
        };
        traces.push_line(self.case, &self.mesh, (ropes, side), z);
        for (worker, w) in self.case.workers.iter().enumerate() {
            let row = self.bodies.iter().find(|b| b.worker == worker).map_or_else(
                || {
                    let rest = self.case.line.rest_deflection_m(w.position_m);
                    [0.0, 0.0, 0.0, rest, 0.0, 0.0]
                },
                |b| {
                    let deflection = z(b.node) + b.part * (z(b.node + 1) - z(b.node));
                    let drop = (b.drop_m - back * b.speed_m_per_s).max(0.0);
                    let stretch = drop - (deflection - b.rest_m) - b.free_fall_m;
                    [
                        drop,
                        b.speed_m_per_s,
                        b.force_n,
                        deflection,
                        stretch.max(0.0),
                        b.pull.extension_m,
                    ]
                },
            );
            traces.push_worker(row);
        }
    }
}

impl Body {
    /// Peaks and lowest points of one who falls.
    #[inline]
    fn watch(&mut self, now_s: f64, dt: f64) {
        let fall = &mut self.fall;
        fall.arrest_force_max_n = greater(self.force_n, fall.arrest_force_max_n);
        fall.deflection_max_m = greater(self.deflection_m, fall.deflection_max_m);
        let acceleration = GRAVITY_M_PER_S2 - self.force_n * self.per_mass_per_kg;
        let ahead = self.speed_m_per_s + dt * acceleration;
        if fall.struck.is_none() && self.drop_m > self.strike_drop_m {
            fall.struck = Some((now_s, 0.5 * (self.speed_m_per_s + ahead)));
        }
        if self.speed_m_per_s > 0.0 && ahead <= 0.0 {
            // The turning point lies within half a step of now: fit the parabola.
            let speed = 0.5 * (self.speed_m_per_s + ahead);
            let drop = self.drop_m - speed * speed / (2.0 * acceleration);
            let time = now_s - speed / acceleration;
            if !fall.turned {
                fall.turned = true;
                fall.drop_first_lowest_m = drop;
                fall.time_first_lowest_s = time;
            }
            if drop > fall.drop_max_m {
                fall.drop_max_m = drop;
                fall.time_lowest_s = time;
                fall.deflection_at_lowest_m = self.deflection_m;
            }
        } else if !fall.turned && self.drop_m > fall.drop_max_m {
            fall.drop_max_m = self.drop_m;
            fall.time_lowest_s = now_s;
            fall.deflection_at_lowest_m = self.deflection_m;
        }
    }
}
