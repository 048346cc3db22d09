//! The time history: the loaded spans as nodes with the line's own mass, moving vertically, the
//! workers as masses on their gear.
//!
//! Nodes are points of the rope. Along its length the rope is taken in equilibrium at every
//! instant: one horizontal tension H a span. From the slopes, the rope in the span and H follow
//! the horizontal extents of the segments; they must add up to the span, which gives H. Spans on
//! which nobody falls give rope by their sag and stretch; between spans the rope slides freely
//! (equal mean tension), the pieces of a span sharing what comes in or goes out. All these
//! balances are minima of one potential, so the forces on the nodes have an energy and the ledger
//! closes.
//!
//! Stepping: velocity Verlet (leapfrog), fixed step. Damping: the force of the line on a node
//! acts with β times its own rate added, that is, stiffness-proportional damping.
//!
//! Known limits: vertical motion of workers and nodes only; no inertia along the rope (see
//! [`crate::solve::History::axial_inertia_bound_n`]); spans without a falling worker follow
//! without inertia.
//!
//! # Source
//! L. Verlet, Phys. Rev. 159 (1967) 98 for the stepping; the line as a Kirchhoff string, one
//! common tension, e.g. H. M. Irvine, Cable Structures, MIT Press 1981.

use alloc::vec;
use alloc::vec::Vec;

use crate::absorber::Pull;
use crate::case::{Case, Line};
use crate::constants::{GRAVITY_M_PER_S2, RESIDUAL_MAX};
use crate::line::unstretched_sagging_m;
use crate::maths::{ceil, clamp, floor, sqrt};
use crate::mesh::{Mesh, MeshSpan};
use crate::solve::{Energy, History, SupportPeak, Traces};

/// Part of the explicit method's stability limit that a step uses at the tension allowed for.
/// Near the limit the leapfrog's dispersion cancels that of the nodes.
const STEP_PART: f64 = 0.95;
/// Tension allowed for over the one expected.
const TENSION_ROOM: f64 = 1.35;
/// Longest step, s.
const STEP_MAX_S: f64 = 1.0e-3;
/// Most steps of one run: more than any line in use needs, by a factor of about fifty.
const STEPS_MAX: u32 = 300_000;
/// Secant of the steepest segment at which a run is given up: far beyond
/// [`SLOPE_MAX`](crate::constants::SLOPE_MAX), where vertical motion describes nothing any more.
const SECANT_MAX: f64 = 3.0;
/// Most runs with ever shorter steps.
const RUNS_MAX: u32 = 6;
/// Residual of the energy ledger, as a part of the gravity work, from which a run does not count,
/// however short the step.
const RESIDUAL_GIVEN_UP: f64 = 1.0e-2;
/// Time between two frames of the traces, s.
const FRAME_S: f64 = 0.005;
/// Least cosine of a segment's angle: beyond it the slope counts as vertical.
const COSINE_MIN: f64 = 0.05;

/// What happened to one worker.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Fall {
    pub arrest_force_max_n: f64,
    pub extension_m: f64,
    pub used_up: bool,
    pub drop_first_lowest_m: f64,
    pub time_first_lowest_s: f64,
    pub drop_max_m: f64,
    pub time_lowest_s: f64,
    pub deflection_max_m: f64,
    /// At the instant of the greatest drop.
    pub deflection_at_lowest_m: f64,
    /// Whether the greatest drop was passed within the simulated time.
    pub turned: bool,
    /// First time the drop exceeded the limit given, and the speed then.
    pub struck: Option<(f64, f64)>,
}

/// Result of one run.
pub(crate) struct Run {
    pub falls: Vec<Fall>,
    /// Peaks at every support, left to right, ends included.
    pub supports: Vec<SupportPeak>,
    pub history: History,
    pub slope_max: f64,
    pub traces: Option<Traces>,
    /// Steps of this run and of those given up before it.
    pub steps_tried: u32,
}

/// What a run is asked for beside the case.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wanted<'a> {
    /// Greatest horizontal tension expected, N; sets the step.
    pub tension_expected_n: f64,
    /// Multiplies nodes and divides the step.
    pub refine: usize,
    pub traces: bool,
    /// Drop at which each worker's soles reach what is below, m.
    pub strike_drop_m: &'a [f64],
}

/// Runs the time history; repeats with a shorter step if the tension outgrows what the step was
/// chosen for, or if the energy ledger stays open.
pub(crate) fn run(case: &Case, wanted: Wanted<'_>) -> Run {
    let mut allowed = TENSION_ROOM * wanted.tension_expected_n;
    let mut divided = wanted.refine;
    let mut steps_tried = 0;
    let mut open: Option<Run> = None;
    for _ in 0..RUNS_MAX {
        let mut motion = Motion::new(case, wanted, allowed, divided);
        if motion.last_step - motion.first_step > STEPS_MAX {
            break;
        }
        let steep = !motion.go(wanted);
        let reached = motion.history.tension_horizontal_max_n;
        let mut run = motion.finish();
        steps_tried += run.history.steps;
        run.steps_tried = steps_tried;
        if reached <= allowed {
            if steep {
                return Run {
                    slope_max: run.slope_max,
                    steps_tried,
                    ..Run::unresolved(case)
                };
            }
            let residual = run.history.energy.residual_ratio;
            if residual <= RESIDUAL_MAX {
                return run;
            }
            if residual < RESIDUAL_GIVEN_UP {
                open = Some(run);
            }
            divided *= 2;
        } else {
            // A run that went unstable says nothing of the tension: approach it in bounded steps.
            allowed = (TENSION_ROOM * reached).min(3.0 * allowed);
        }
    }
    Run {
        steps_tried,
        ..open.unwrap_or_else(|| Run::unresolved(case))
    }
}

impl Run {
    /// What is returned when no step within reason resolves the motion: nobody was seen to turn.
    fn unresolved(case: &Case) -> Self {
        Self {
            falls: vec![Fall::default(); case.workers.len()],
            supports: vec![SupportPeak::default(); case.line.spans_m.len() + 1],
            history: History::default(),
            slope_max: 0.0,
            traces: None,
            steps_tried: 0,
        }
    }
}

struct Body {
    worker: usize,
    mass_kg: f64,
    per_mass_per_kg: f64,
    fall_time_s: f64,
    free_fall_m: f64,
    rest_m: f64,
    node: usize,
    part: f64,
    pull: Pull,
    started: bool,
    drop_m: f64,
    speed_m_per_s: f64,
    force_n: f64,
}

struct Motion<'a> {
    case: &'a Case,
    mesh: Mesh,
    bodies: Vec<Body>,
    dt: f64,
    step: u32,
    first_step: u32,
    last_step: u32,
    /// Deflection and half-step speed of every node.
    z: Vec<f64>,
    v: Vec<f64>,
    /// Tangent of every segment's angle, its vertical force, and that of the last step.
    angles: Angles,
    vertical: Vec<f64>,
    vertical_before: Vec<f64>,
    /// 1/mass and acceleration of gravity of every node; both 0 at a support.
    inverse_mass: Vec<f64>,
    gravity: Vec<f64>,
    /// Vertical force with damping in every segment, N.
    damped: Vec<f64>,
    /// Force on every node, N.
    pulls: Vec<f64>,
    rope: RopeState,
    damping_j: f64,
    falls: Vec<Fall>,
    supports: Vec<SupportPeak>,
    /// Vertical and horizontal force of every span on its left and right support at this step, N.
    reactions: Vec<[f64; 3]>,
    history: History,
    slope_max: f64,
    /// Greatest horizontal pull on the left and right end so far, N.
    end_pull_max_n: [f64; 2],
    /// Greatest work of gravity on the workers so far, J.
    gravity_work_max_j: f64,
    traces: Option<Traces>,
}

/// Numbers worked on side by side in the inner loop: the compiler keeps them in wide registers
/// where there are any, and the order of every sum is the same where there are none.
const LANES: usize = crate::mesh::LANES;

/// Greatest relative distance of y from 1/near² at which [`reciprocal_roots`] is exact to rounding.
const NEAR_MAX: f64 = 2.0e-3;

/// 1/√y from values close by, such as those of the last step, by the binomial series; `off` takes
/// up the greatest distance from them. Spares the loop roots and divisions; WebAssembly would take
/// a root in software.
#[inline]
fn reciprocal_roots(y: [f64; LANES], near: [f64; LANES], off: &mut [f64; LANES]) -> [f64; LANES] {
    core::array::from_fn(|i| {
        let e = y[i] * near[i] * near[i] - 1.0;
        off[i] = greater(e.abs(), off[i]);
        let series = 0.273_437_5 - e * 0.246_093_75;
        near[i] * (1.0 - e * (0.5 - e * (0.375 - e * (0.3125 - e * series))))
    })
}

/// The greater of two numbers; the second where one is none. One instruction, unlike `f64::max`.
#[inline]
fn greater(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// Square of a segment's cosine, not below that of [`COSINE_MIN`].
#[inline]
fn cosine_squared(sine: f64) -> f64 {
    greater(1.0 - sine * sine, COSINE_MIN * COSINE_MIN)
}

/// Tension and rope distribution: what the line law solves for.
struct RopeState {
    /// Mean tension along the line, N, and that of the last step.
    tension_n: f64,
    tension_before_n: f64,
    /// Per loaded span.
    spans: Vec<SpanState>,
    /// Unstretched rope of the whole line, m.
    total_m: f64,
    /// The spans on which nobody falls.
    idle: IdleRope,
    /// Reciprocal of every segment's rope, 1/m; 0 where a group is filled up, and where the
    /// in-line absorber's extension gives the segment a law of its own.
    per_rope_per_m: Vec<f64>,
    inline_extension_m: f64,
    inline_work_j: f64,
    /// Rate of the in-line extension, m/s, at this step.
    inline_rate_m_per_s: f64,
}

/// Rope of the spans on which nobody falls, as a function of the tension.
#[derive(Clone, Copy, Debug, Default)]
struct IdleRope {
    /// Sum of the lengths and of their cubes, m and m³, of the spans whose ends do not move.
    length_m: f64,
    cubes_m3: f64,
    /// Length, m, and movement for the tension, m/N, of those whose ends do.
    moving: [Option<(f64, f64)>; 2],
    /// The in-line absorber's span is among all these.
    inline: bool,
    pretension_n: f64,
    /// 1/EA.
    per_ea_per_n: f64,
    /// Square of the weight per length over 24, N²/m².
    bow_n2_per_m2: f64,
}

impl IdleRope {
    fn of(line: &Line, mesh: &Mesh) -> Self {
        let weight = line.weight_n_per_m();
        let mut idle = Self {
            pretension_n: line.pretension_n,
            per_ea_per_n: 1.0 / line.rope.axial_stiffness_n,
            bow_n2_per_m2: weight * weight / 24.0,
            ..Self::default()
        };
        let last = line.spans_m.len() - 1;
        for span in &mesh.idle {
            let (length_m, give) = (span.length_m, end_give(line, span.span));
            if give > 0.0 {
                idle.moving[usize::from(span.span == last)] = Some((length_m, give));
            } else {
                idle.length_m += length_m;
                idle.cubes_m3 += length_m * length_m * length_m;
            }
            idle.inline |= span.span == last;
        }
        idle
    }

    /// Unstretched rope, m, and its rate with the tension, m/N, with the in-line absorber extended
    /// by `extension_m`: [`unstretched_sagging_m`] summed over the spans.
    #[inline]
    fn rope_m(&self, tension_n: f64, extension_m: f64) -> (f64, f64) {
        let (mut length, mut length_rate) = (self.length_m, 0.0);
        let (mut cubes, mut cubes_rate) = (self.cubes_m3, 0.0);
        for (at_rest, give) in self.moving.into_iter().flatten() {
            let moved = at_rest - give * (tension_n - self.pretension_n);
            length += moved;
            length_rate -= give;
            cubes += moved * moved * moved;
            cubes_rate -= 3.0 * give * moved * moved;
        }
        if self.inline {
            length -= extension_m;
        }
        let strain = tension_n * self.per_ea_per_n;
        let shrink = 1.0 / (1.0 + strain);
        let per_tension = 1.0 / tension_n;
        // Sagging rope for the sum of cubes: bow (1 − ε).
        let bow = self.bow_n2_per_m2 * (per_tension * shrink) * (per_tension * shrink);
        let sag = bow * (1.0 - strain);
        let sag_rate = -2.0 * per_tension * sag
            - self.per_ea_per_n * bow * (1.0 + 2.0 * (1.0 - strain) * shrink);
        let rope = length * shrink + sag * cubes;
        let rate = (length_rate - length * self.per_ea_per_n * shrink) * shrink
            + sag_rate * cubes
            + sag * cubes_rate;
        (rope, rate)
    }

    /// Rate of the rope with the in-line absorber's extension.
    fn by_extension(&self, tension_n: f64) -> f64 {
        if self.inline {
            -1.0 / (1.0 + tension_n * self.per_ea_per_n)
        } else {
            0.0
        }
    }
}

#[derive(Clone, Copy, Debug)]
struct SpanState {
    /// Rope in the span over rope at rest.
    fill: f64,
    /// Mean of ds/dx over the rope.
    secant: f64,
    horizontal_n: f64,
    /// Largest ds/dx.
    steepest: f64,
    /// ds/dx of the last segment.
    last_secant: f64,
}

/// What the segments of a span are looked at with.
#[derive(Clone, Copy)]
struct Assumed {
    /// Horizontal strain H/EA.
    strain: f64,
    /// Rope in the span over rope at rest.
    fill: f64,
    /// Extension of the in-line absorber, where it sits in this span, m.
    extension_m: f64,
}

/// Angles of all segments from the horizontal.
struct Angles {
    tangents: Vec<f64>,
    /// Secants (first estimate, as if the strain acted along x): the next step starts from them.
    secants: Vec<f64>,
}

impl Angles {
    fn level(segments: usize) -> Self {
        Self {
            tangents: vec![0.0; segments],
            secants: vec![1.0; segments],
        }
    }
}

/// Sums over the segments of one span, lane by lane.
struct Lanes {
    cosine: [f64; LANES],
    tangent_squared: [f64; LANES],
    secant: [f64; LANES],
    steepest: [f64; LANES],
    /// See [`reciprocal_roots`].
    off: [f64; LANES],
}

/// Sums over the segments of one span at assumed strain and fill.
struct Sums {
    extent_m: f64,
    by_strain_m: f64,
    by_fill_m: f64,
    by_extension: f64,
    secant: f64,
    steepest: f64,
    last_secant: f64,
}

impl<'a> Motion<'a> {
    fn new(
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
                w.fall_time_s.map(|fall_time_s| Body {
                    worker,
                    mass_kg: w.mass_kg,
                    per_mass_per_kg: 1.0 / w.mass_kg,
                    fall_time_s,
                    free_fall_m: w.free_fall_m(line),
                    rest_m: rest(at.node) + at.part * (rest(at.node + 1) - rest(at.node)),
                    node: at.node,
                    part: at.part,
                    pull: Pull::new(&w.gear),
                    started: false,
                    drop_m: 0.0,
                    speed_m_per_s: 0.0,
                    force_n: 0.0,
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
        let inverse_mass: Vec<f64> = mesh
            .nodes
            .iter()
            .enumerate()
            .map(|(n, node)| {
                let support = mesh
                    .spans
                    .iter()
                    .any(|s| n == s.first_node || n == s.first_node + s.segments);
                if support { 0.0 } else { 1.0 / node.mass_kg }
            })
            .collect();
        let gravity = inverse_mass
            .iter()
            .map(|&inverse| if inverse > 0.0 { GRAVITY_M_PER_S2 } else { 0.0 })
            .collect();
        let rope = RopeState::at_rest(line, &mesh);
        let vertical: Vec<f64> = mesh.rest_vertical_n.clone();
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
            z: rest_z(&mesh),
            v: vec![0.0; mesh.nodes.len() + LANES],
            angles: Angles::level(mesh.rope_m.len()),
            vertical_before: vertical.clone(),
            vertical,
            inverse_mass,
            gravity,
            damped: vec![0.0; mesh.rope_m.len()],
            pulls: vec![0.0; mesh.nodes.len()],
            rope,
            damping_j: 0.0,
            falls: vec![Fall::default(); case.workers.len()],
            supports: vec![SupportPeak::default(); line.spans_m.len() + 1],
            reactions: vec![[0.0; 3]; line.spans_m.len()],
            history: History {
                step_s: dt,
                nodes: mesh.nodes.len() as u32,
                ..History::default()
            },
            slope_max: 0.0,
            end_pull_max_n: [0.0; 2],
            gravity_work_max_j: 0.0,
            traces: wanted.traces.then(|| Traces::empty(case, &mesh)),
            mesh,
            bodies,
        }
    }

    fn time_s(&self) -> f64 {
        f64::from(self.step) * self.dt
    }

    /// Runs to the end; false when the line grew too steep before.
    fn go(&mut self, wanted: Wanted<'_>) -> bool {
        self.record_fall_before_start();
        self.strikes_before_start(wanted);
        self.place_falling_bodies();
        self.forces();
        while self.step < self.last_step {
            self.advance();
            self.watch(wanted);
            // False for a number that is none, so that this ends the run as well.
            let describable = self.steepest() < SECANT_MAX;
            if !describable {
                return false;
            }
        }
        true
    }

    fn steepest(&self) -> f64 {
        self.rope.spans.iter().fold(
            1.0,
            |most, s| if s.steepest <= most { most } else { s.steepest },
        )
    }

    /// Strikes while everybody still falls freely: on the parabola.
    fn strikes_before_start(&mut self, wanted: Wanted<'_>) {
        let start_s = f64::from(self.first_step) * self.dt;
        for body in &self.bodies {
            let strike = wanted.strike_drop_m[body.worker].max(0.0);
            let time_s = body.fall_time_s + sqrt(2.0 * strike / GRAVITY_M_PER_S2);
            if time_s < start_s {
                self.falls[body.worker].struck =
                    Some((time_s, GRAVITY_M_PER_S2 * (time_s - body.fall_time_s)));
            }
        }
    }

    /// Moves everything from t to t + dt: kick, drift, force.
    fn advance(&mut self) {
        let dt = self.dt;
        let g = GRAVITY_M_PER_S2;
        for ((((v, z), pull), inverse), weight) in self
            .v
            .iter_mut()
            .zip(&mut self.z)
            .zip(&self.pulls)
            .zip(&self.inverse_mass)
            .zip(&self.gravity)
        {
            *v += dt * (pull * inverse + weight);
            *z += dt * *v;
        }
        for body in &mut self.bodies {
            if body.started {
                body.speed_m_per_s += dt * (g - body.force_n * body.per_mass_per_kg);
                body.drop_m += dt * body.speed_m_per_s;
            }
        }
        self.step += 1;
        self.place_falling_bodies();
        self.forces();
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

    /// Tension from the present shape, then the force on every node and body.
    fn forces(&mut self) {
        self.rope.solve(
            &self.case.line,
            &self.mesh,
            &self.z,
            &mut self.angles,
            self.dt,
        );
        let rate = self.case.motion.damping_s / self.dt;
        let mut dissipated = 0.0;
        for (span, state) in self.mesh.spans.iter().zip(&self.rope.spans) {
            let padded = span.segments.next_multiple_of(LANES);
            let segments = span.first_segment..span.first_segment + padded;
            let speeds = &self.v[span.first_node..=span.first_node + padded];
            let mut lanes = [0.0; LANES];
            let blocks = self.angles.tangents[segments.clone()]
                .as_chunks::<LANES>()
                .0
                .iter()
                .zip(
                    self.vertical_before[segments.clone()]
                        .as_chunks::<LANES>()
                        .0,
                )
                .zip(self.vertical[segments.clone()].as_chunks_mut::<LANES>().0)
                .zip(self.damped[segments.clone()].as_chunks_mut::<LANES>().0)
                .zip(speeds.as_chunks::<LANES>().0)
                .zip(speeds[1..].as_chunks::<LANES>().0);
            // Where a group is filled up the tangent is none, and so are the forces.
            for (((((tangent, before), vertical), damped), left), right) in blocks {
                for i in 0..LANES {
                    vertical[i] = state.horizontal_n * tangent[i];
                    let damping = rate * (vertical[i] - before[i]);
                    lanes[i] += damping * (right[i] - left[i]);
                    damped[i] = damping + vertical[i];
                }
            }
            dissipated += lanes.iter().sum::<f64>();
            let damped = &self.damped[segments];
            let pulls = &mut self.pulls[span.first_node..span.first_node + span.segments];
            pulls[0] = damped[0];
            for ((pull, left), right) in pulls[1..].iter_mut().zip(damped).zip(&damped[1..]) {
                *pull = right - left;
            }
            // The right support, as the left one, does not move: its pull is never looked at.
        }
        self.damping_j += dissipated * self.dt;
        core::mem::swap(&mut self.vertical, &mut self.vertical_before);
        for body in &mut self.bodies {
            let (a, b) = (self.z[body.node], self.z[body.node + 1]);
            let lowered = a + body.part * (b - a) - body.rest_m;
            body.force_n = if body.started {
                body.pull.force_n(body.drop_m - lowered - body.free_fall_m)
            } else {
                0.0
            };
            self.pulls[body.node] += (1.0 - body.part) * body.force_n;
            self.pulls[body.node + 1] += body.part * body.force_n;
        }
    }

    /// Peaks, lowest points, frames.
    fn watch(&mut self, wanted: Wanted<'_>) {
        let now = self.time_s();
        let line = &self.case.line;
        if !self.mesh.idle.is_empty() {
            self.history.tension_horizontal_max_n = self
                .history
                .tension_horizontal_max_n
                .max(self.rope.tension_n);
        }
        let work: f64 = self
            .bodies
            .iter()
            .map(|b| b.mass_kg * GRAVITY_M_PER_S2 * b.drop_m)
            .sum();
        self.gravity_work_max_j = self.gravity_work_max_j.max(work);
        for state in &self.rope.spans {
            let history = &mut self.history;
            history.tension_horizontal_max_n =
                history.tension_horizontal_max_n.max(state.horizontal_n);
            let tension = state.horizontal_n * state.steepest;
            if tension > history.tension_max_n {
                history.tension_max_n = tension;
                history.time_tension_max_s = now;
            }
            self.slope_max = self.slope_max.max(state.steepest * state.steepest - 1.0);
        }
        self.watch_supports();
        let (left, right) = self.rope.end_horizontals_n(&self.mesh, line);
        self.end_pull_max_n = [
            self.end_pull_max_n[0].max(left),
            self.end_pull_max_n[1].max(right),
        ];
        let history = &mut self.history;
        if self.rope.inline_rate_m_per_s > 0.0 {
            let impedance = sqrt(line.rope.axial_stiffness_n * line.rope.mass_per_length_kg_per_m);
            history.axial_inertia_bound_n = history
                .axial_inertia_bound_n
                .max(impedance * self.rope.inline_rate_m_per_s);
        }
        for body in &self.bodies {
            if !body.started {
                continue;
            }
            let fall = &mut self.falls[body.worker];
            let (a, b) = (self.z[body.node], self.z[body.node + 1]);
            let deflection = a + body.part * (b - a);
            fall.arrest_force_max_n = fall.arrest_force_max_n.max(body.force_n);
            fall.deflection_max_m = fall.deflection_max_m.max(deflection);
            let acceleration = GRAVITY_M_PER_S2 - body.force_n * body.per_mass_per_kg;
            let ahead = body.speed_m_per_s + self.dt * acceleration;
            let strike = wanted.strike_drop_m[body.worker];
            if fall.struck.is_none() && body.drop_m > strike {
                fall.struck = Some((now, 0.5 * (body.speed_m_per_s + ahead)));
            }
            if body.speed_m_per_s > 0.0 && ahead <= 0.0 {
                // The turning point lies within half a step of now: fit the parabola.
                let speed = 0.5 * (body.speed_m_per_s + ahead);
                let drop = body.drop_m - speed * speed / (2.0 * acceleration);
                let time = now - speed / acceleration;
                if !fall.turned {
                    fall.turned = true;
                    fall.drop_first_lowest_m = drop;
                    fall.time_first_lowest_s = time;
                }
                if drop > fall.drop_max_m {
                    fall.drop_max_m = drop;
                    fall.time_lowest_s = time;
                    fall.deflection_at_lowest_m = deflection;
                }
            } else if !fall.turned && body.drop_m > fall.drop_max_m {
                fall.drop_max_m = body.drop_m;
                fall.time_lowest_s = now;
                fall.deflection_at_lowest_m = deflection;
            }
        }
        self.record_frames();
    }

    /// Downward and horizontal forces on the supports, from the slopes of the spans on both sides.
    fn watch_supports(&mut self) {
        for idle in &self.mesh.idle {
            let v = 0.5 * self.case.line.weight_n_per_m() * idle.length_m;
            self.reactions[idle.span] = [v, v, self.rope.tension_n];
        }
        // `vertical_before` holds this step's forces: the buffers have been swapped.
        for (span, state) in self.mesh.spans.iter().zip(&self.rope.spans) {
            let left = self.vertical_before[span.first_segment];
            let right = -self.vertical_before[span.first_segment + span.segments - 1];
            self.reactions[span.span] = [left, right, state.horizontal_n];
        }
        let last = self.supports.len() - 1;
        for (i, peak) in self.supports.iter_mut().enumerate() {
            let (mut vertical, mut horizontal) = (0.0, 0.0);
            if i > 0 {
                vertical += self.reactions[i - 1][1];
                horizontal -= self.reactions[i - 1][2];
            }
            if i < last {
                vertical += self.reactions[i][0];
                horizontal += self.reactions[i][2];
            }
            peak.vertical_max_n = peak.vertical_max_n.max(vertical);
            peak.horizontal_max_n = peak.horizontal_max_n.max(horizontal.abs());
            if i == 0 || i == last {
                // Its square: the root is taken at the end.
                let squared = horizontal * horizontal + vertical * vertical;
                peak.tension_max_n = peak.tension_max_n.max(squared);
            }
        }
    }

    /// Frames before the first gear is taut: the line rests, bodies fall freely.
    fn record_fall_before_start(&mut self) {
        let first_s = f64::from(self.first_step) * self.dt;
        let Some(traces) = &mut self.traces else {
            return;
        };
        loop {
            let t = traces.frames as f64 * FRAME_S;
            if t > first_s {
                break;
            }
            traces.push_line(self.case, &self.mesh, &self.rope, &self.z, None);
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

    fn record_frames(&mut self) {
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
        traces.push_line(
            self.case,
            &self.mesh,
            &self.rope,
            &self.z,
            Some((&self.v, back)),
        );
        for (worker, w) in self.case.workers.iter().enumerate() {
            let row = self.bodies.iter().find(|b| b.worker == worker).map_or_else(
                || {
                    let rest = self.case.line.rest_deflection_m(w.position_m);
                    [0.0, 0.0, 0.0, rest, 0.0, 0.0]
                },
                |b| {
                    let z = |n: usize| self.z[n] - back * self.v[n];
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

    fn finish(mut self) -> Run {
        for body in &self.bodies {
            let fall = &mut self.falls[body.worker];
            fall.extension_m = body.pull.extension_m;
            if !fall.turned {
                fall.drop_max_m = fall.drop_max_m.max(body.drop_m);
            }
            fall.used_up = body.pull.used_up(fall.arrest_force_max_n);
        }
        for peak in &mut self.supports {
            peak.tension_max_n = sqrt(peak.tension_max_n);
        }
        let line = &self.case.line;
        let moved = |k: Option<f64>, pull_n: f64| {
            k.map_or(0.0, |k| ((pull_n - line.pretension_n) / k).max(0.0))
        };
        let [left, right] = self.end_pull_max_n;
        self.history.left_end_movement_max_m = moved(line.left_end_stiffness_n_per_m, left);
        self.history.right_end_movement_max_m = moved(line.right_end_stiffness_n_per_m, right);
        self.history.inline_extension_m = self.rope.inline_extension_m;
        self.history.steps = self.step - self.first_step;
        self.history.energy = self.ledger();
        Run {
            falls: self.falls,
            supports: self.supports,
            history: self.history,
            slope_max: sqrt(self.slope_max.max(0.0)),
            traces: self.traces,
            steps_tried: 0,
        }
    }

    /// The energy ledger now.
    fn ledger(&self) -> Energy {
        let g = GRAVITY_M_PER_S2;
        let mut e = Energy::default();
        // Speeds stand half a step back; bring them to the present.
        let half = 0.5 * self.dt;
        for (n, node) in self.mesh.nodes.iter().enumerate() {
            if self.inverse_mass[n] > 0.0 {
                let v = self.v[n] + half * (self.pulls[n] * self.inverse_mass[n] + g);
                e.kinetic_j += 0.5 * node.mass_kg * v * v;
                e.gravity_work_j += node.mass_kg * g * (self.z[n] - node.rest_m);
            }
        }
        for body in &self.bodies {
            if body.started {
                let v = body.speed_m_per_s + half * (g - body.force_n * body.per_mass_per_kg);
                e.kinetic_j += 0.5 * body.mass_kg * v * v;
                e.gravity_work_j += body.mass_kg * g * body.drop_m;
                e.elastic_j += body.pull.elastic_j(body.force_n);
                e.absorbers_j += body.pull.absorbed_j;
            }
        }
        let rest = RopeState::at_rest(&self.case.line, &self.mesh);
        let rest_z = rest_z(&self.mesh);
        e.elastic_j += self.rope.potential_j(&self.case.line, &self.mesh, &self.z)
            - rest.potential_j(&self.case.line, &self.mesh, &rest_z);
        e.inline_absorber_j = self.rope.inline_work_j;
        e.damping_j = self.damping_j;
        let out = e.kinetic_j + e.elastic_j + e.absorbers_j + e.inline_absorber_j + e.damping_j;
        let work = self.gravity_work_max_j;
        e.residual_ratio = if work > 0.0 {
            (e.gravity_work_j - out).abs() / work
        } else {
            0.0
        };
        e
    }
}

/// Deflection of every node at rest, with room behind for whole lanes.
fn rest_z(mesh: &Mesh) -> Vec<f64> {
    let mut z: Vec<f64> = mesh.nodes.iter().map(|n| n.rest_m).collect();
    z.resize(z.len() + LANES, 0.0);
    z
}

/// Step that the explicit method bears: a part of 2/ω of the stiffest node.
fn step_s(mesh: &Mesh, bodies: &[Body], line: &Line, damping_s: f64, tension_n: f64) -> f64 {
    let mut omega_squared = 0.0_f64;
    for span in &mesh.spans {
        for j in 1..span.segments {
            let node = span.first_node + j;
            let s = span.first_segment + j;
            let (a, b) = (mesh.rope_m[s - 1], mesh.rope_m[s]);
            // Greatest eigenvalue of neighbouring springs: twice the diagonal.
            let string = 2.0 * tension_n * (1.0 / a + 1.0 / b);
            // Kink of a loaded node against the whole line's stretch, at slope 1/2 on both sides.
            let kink = line.rope.axial_stiffness_n / line.length_m();
            let gear: f64 = bodies
                .iter()
                .map(|body| {
                    let weight = if body.node == node {
                        1.0 - body.part
                    } else if body.node + 1 == node {
                        body.part
                    } else {
                        0.0
                    };
                    // Twice the gear, for accuracy: it goes taut within a few steps.
                    weight * (2.0 * body.pull.stiffness_max_n_per_m() + kink)
                })
                .sum();
            omega_squared = omega_squared.max((string + gear) / mesh.nodes[node].mass_kg);
        }
    }
    for body in bodies {
        omega_squared = omega_squared.max(body.pull.stiffness_max_n_per_m() / body.mass_kg);
    }
    // Leapfrog with the damping force one step late is stable while ω² dt² (1 + 2β/dt) ≤ 4.
    let bare = 2.0 * STEP_PART / sqrt(omega_squared);
    let stable = sqrt(damping_s * damping_s + bare * bare) - damping_s;
    stable.min(STEP_MAX_S)
}

impl RopeState {
    fn at_rest(line: &Line, mesh: &Mesh) -> Self {
        let h = line.pretension_n;
        let idle: f64 = mesh
            .idle
            .iter()
            .map(|i| unstretched_sagging_m(line, i.length_m, h))
            .sum();
        let spans = mesh
            .spans
            .iter()
            .map(|_| SpanState {
                fill: 1.0,
                secant: 1.0,
                horizontal_n: h,
                steepest: 1.0,
                last_secant: 1.0,
            })
            .collect();
        Self {
            tension_n: h,
            tension_before_n: h,
            spans,
            total_m: mesh.spans.iter().map(|s| s.rope_m).sum::<f64>() + idle,
            idle: IdleRope::of(line, mesh),
            per_rope_per_m: mesh
                .rope_m
                .iter()
                .map(|&rope| if rope > 0.0 { 1.0 / rope } else { 0.0 })
                .collect(),
            inline_extension_m: 0.0,
            inline_work_j: 0.0,
            inline_rate_m_per_s: 0.0,
        }
    }

    /// Sums over the segments of a span lane by lane, counting none extended; leaves the tangents
    /// of their angles in `angles`.
    ///
    /// A segment of rope l under horizontal strain ε whose ends differ by dz in level has the sine
    /// s with s l (1 + ε/c) = dz, and the horizontal extent l (c + ε), c its cosine.
    #[inline]
    fn lanes(
        &self,
        mesh: &Mesh,
        span: &MeshSpan,
        assumed: Assumed,
        z: &[f64],
        angles: &mut Angles,
    ) -> Lanes {
        let strain = assumed.strain;
        let stretch = 1.0 + strain;
        let sine_per_slope = 1.0 / (assumed.fill * stretch);
        let padded = span.segments.next_multiple_of(LANES);
        let nodes = &z[span.first_node..=span.first_node + padded];
        let range = span.first_segment..span.first_segment + padded;
        let mut lanes = Lanes {
            cosine: [0.0; LANES],
            tangent_squared: [0.0; LANES],
            secant: [0.0; LANES],
            steepest: [1.0; LANES],
            off: [0.0; LANES],
        };
        let blocks = mesh.rope_m[range.clone()]
            .as_chunks::<LANES>()
            .0
            .iter()
            .zip(self.per_rope_per_m[range.clone()].as_chunks::<LANES>().0)
            .zip(angles.tangents[range.clone()].as_chunks_mut::<LANES>().0)
            .zip(angles.secants[range].as_chunks_mut::<LANES>().0)
            .zip(nodes.as_chunks::<LANES>().0)
            .zip(nodes[1..].as_chunks::<LANES>().0);
        for (((((rope, per_rope), tangent), near), left), right) in blocks {
            // First estimate, as if the strain acted along x ...
            let s0: [f64; LANES] =
                core::array::from_fn(|i| (right[i] - left[i]) * per_rope[i] * sine_per_slope);
            let y = s0.map(cosine_squared);
            let r0 = reciprocal_roots(y, *near, &mut lanes.off);
            *near = r0;
            for i in 0..LANES {
                // ... and its correction, s = s0 (1 + ε)/(1 + ε/c0), as series whose next terms
                // are below 1e-8 of the value: this loop is nearly all of the cost of an answer.
                let q = strain * r0[i];
                let moved = s0[i] * (strain - q) * (1.0 - q);
                let m = moved * (s0[i] + 0.5 * moved) * r0[i] * r0[i];
                // Cosine over that of the estimate, less 1: √(1 − 2m) − 1.
                let less = m * (1.0 + 0.5 * m);
                let cosine = y[i] * r0[i] * (1.0 - less);
                let secant = r0[i] * (1.0 + less * (1.0 + less));
                let t = (s0[i] + moved) * secant;
                tangent[i] = t;
                lanes.cosine[i] += rope[i] * cosine;
                lanes.tangent_squared[i] += rope[i] * t * t;
                lanes.secant[i] += rope[i] * secant;
                lanes.steepest[i] = greater(secant, lanes.steepest[i]);
            }
        }
        lanes
    }

    /// The secants of a span's segments from roots, where the last ones are too far to start from.
    #[cold]
    fn secants_anew(&self, span: &MeshSpan, assumed: Assumed, z: &[f64], angles: &mut Angles) {
        let sine_per_slope = 1.0 / (assumed.fill * (1.0 + assumed.strain));
        let range = span.first_segment..span.first_segment + span.segments;
        for (j, s) in range.enumerate() {
            let node = span.first_node + j;
            let sine = (z[node + 1] - z[node]) * self.per_rope_per_m[s] * sine_per_slope;
            angles.secants[s] = 1.0 / sqrt(cosine_squared(sine));
        }
    }

    /// Sums over the segments of span `k`; leaves the tangents of their angles in `angles`.
    fn sums(
        &self,
        mesh: &Mesh,
        k: usize,
        assumed: Assumed,
        z: &[f64],
        angles: &mut Angles,
    ) -> Sums {
        let Assumed {
            strain,
            fill,
            extension_m,
        } = assumed;
        let span = &mesh.spans[k];
        let nodes = &z[span.first_node..=span.first_node + span.segments];
        let mut lanes = self.lanes(mesh, span, assumed, z, angles);
        if lanes.off.into_iter().fold(0.0, f64::max) > NEAR_MAX {
            self.secants_anew(span, assumed, z, angles);
            lanes = self.lanes(mesh, span, assumed, z, angles);
        }
        let tangents = &mut angles.tangents;
        let total = |lanes: [f64; LANES]| lanes.iter().sum::<f64>();
        let last = span.first_segment + span.segments - 1;
        let last_tangent = tangents[last];
        let mut cosine_sum_m = total(lanes.cosine);
        let mut sums = Sums {
            extent_m: 0.0,
            by_strain_m: total(lanes.tangent_squared),
            by_fill_m: 0.0,
            by_extension: 0.0,
            secant: total(lanes.secant),
            steepest: lanes.steepest.into_iter().fold(1.0, f64::max),
            last_secant: sqrt(1.0 + last_tangent * last_tangent),
        };
        if extension_m > 0.0 {
            // With the in-line absorber extended, the last segment has a law of its own; it was
            // counted as level above.
            let rope = mesh.rope_m[last];
            let (z1, z0) = (nodes[span.segments], nodes[span.segments - 1]);
            let (sine, cosine) = sine_with_extension(z1 - z0, rope * fill, strain, extension_m);
            let (secant, t) = (1.0 / cosine, sine / cosine);
            cosine_sum_m += rope * (cosine - 1.0);
            sums.by_strain_m += rope * t * t;
            sums.secant += rope * (secant - 1.0);
            tangents[last] = t;
            sums.steepest = sums.steepest.max(secant);
            sums.last_secant = secant;
        }
        sums.extent_m = cosine_sum_m + strain * span.rope_m;
        sums.by_fill_m = sums.secant + strain * span.rope_m;
        sums.secant /= span.rope_m;
        // A slope for one step of Newton: the segments' own secants make no difference in it.
        sums.by_strain_m = span.rope_m + sums.by_strain_m * (1.0 - strain * sums.secant);
        sums.extent_m *= fill;
        sums.by_strain_m *= fill;
        if extension_m > 0.0 {
            sums.extent_m += extension_m / sums.last_secant;
        }
        sums.by_extension = sums.last_secant;
        sums
    }

    /// Solves the line law for the present shape: one Newton step from the extrapolated tension
    /// for the segments, and an exact scalar root for the tension.
    fn solve(&mut self, line: &Line, mesh: &Mesh, z: &[f64], angles: &mut Angles, dt: f64) {
        let ea = line.rope.axial_stiffness_n;
        let last_span = line.spans_m.len() - 1;
        let guess = (2.0 * self.tension_n - self.tension_before_n).max(0.0);
        let e0 = self.inline_extension_m;
        // Rope content of the loaded spans, linear in mean tension τ and in-line extension e:
        // content + by_tension τ + by_extension e.
        let (mut content, mut by_tension, mut by_extension) = (0.0, 0.0, 0.0);
        let mut linear = [(0.0, 0.0, 0.0); crate::constants::SPANS_MAX];
        let mut right_secant = 1.0;
        for (k, law) in linear.iter_mut().enumerate().take(self.spans.len()) {
            let span = mesh.spans[k];
            let state = self.spans[k];
            let strain = guess / (state.secant * ea);
            let here_e = if span.span == last_span { e0 } else { 0.0 };
            let assumed = Assumed {
                strain,
                fill: state.fill,
                extension_m: here_e,
            };
            let sums = self.sums(mesh, k, assumed, z, angles);
            let h_by_tension = 1.0 / sums.secant;
            let give = end_give(line, span.span);
            // extent + by_strain (ε − ε_p) + by_fill (fill − fill_p) + by_extension (e − e0)
            //   = L − give (H − T0)
            let constant = span.length_m + give * line.pretension_n - sums.extent_m
                + sums.by_strain_m * strain;
            let slope = -(give + sums.by_strain_m / ea) * h_by_tension;
            let at_end = span.span == last_span;
            let e_slope = if at_end { -sums.by_extension } else { 0.0 };
            let scale = 1.0 / sums.by_fill_m;
            *law = (
                state.fill + (constant - e_slope * e0) * scale,
                slope * scale,
                e_slope * scale,
            );
            content += span.rope_m * law.0;
            by_tension += span.rope_m * law.1;
            by_extension += span.rope_m * law.2;
            if at_end {
                right_secant = sums.last_secant / sums.secant;
            }
            let s = &mut self.spans[k];
            s.secant = sums.secant;
            s.steepest = sums.steepest;
            s.last_secant = sums.last_secant;
        }
        // Rope needed less rope there is, m, and its rate with the tension.
        let excess = |tension: f64, e: f64| {
            let (idle, rate) = self.idle.rope_m(tension, e);
            let loaded = content + by_tension * tension + by_extension * e;
            (loaded + idle - self.total_m, by_tension + rate)
        };
        let tension_at = |e: f64| {
            if mesh.idle.is_empty() {
                ((self.total_m - content - by_extension * e) / by_tension).max(0.0)
            } else {
                root_of_falling(|t| excess(t, e), guess.max(1.0))
            }
        };
        let mut tension = tension_at(e0);
        let mut extension = e0;
        if let Some(inline) = line.inline_absorber {
            let at_yield = inline.yield_force_n / right_secant;
            if tension > at_yield && e0 < inline.max_extension_m {
                let per_extension = by_extension + self.idle.by_extension(at_yield);
                let wanted = e0 - excess(at_yield, e0).0 / per_extension;
                extension = clamp(wanted, e0, inline.max_extension_m);
                tension = if wanted <= inline.max_extension_m {
                    at_yield
                } else {
                    tension_at(extension)
                };
                self.inline_work_j += inline.yield_force_n * (extension - e0);
                if let Some(span) = mesh.spans.last().filter(|s| s.span == last_span) {
                    self.per_rope_per_m[span.first_segment + span.segments - 1] = 0.0;
                }
            }
        }
        self.inline_rate_m_per_s = (extension - e0) / dt;
        self.inline_extension_m = extension;
        self.tension_before_n = self.tension_n;
        self.tension_n = tension;
        for (k, state) in self.spans.iter_mut().enumerate() {
            let (c, t, e) = linear[k];
            state.fill = c + t * tension + e * extension;
            state.horizontal_n = tension / state.secant;
        }
        if mesh.idle.is_empty() && self.spans.len() == 1 {
            self.spans[0].fill = 1.0;
        }
    }

    /// Horizontal tension at the left and the right end, N.
    fn end_horizontals_n(&self, mesh: &Mesh, line: &Line) -> (f64, f64) {
        let last = line.spans_m.len() - 1;
        let of = |span: usize| {
            mesh.spans
                .iter()
                .zip(&self.spans)
                .find(|(s, _)| s.span == span)
                .map_or(self.tension_n, |(_, state)| state.horizontal_n)
        };
        (of(0), of(last))
    }

    /// Potential energy of rope stretch, idle spans' weight and end supports, J.
    fn potential_j(&self, line: &Line, mesh: &Mesh, z: &[f64]) -> f64 {
        let ea = line.rope.axial_stiffness_n;
        let last_span = line.spans_m.len() - 1;
        let mut energy = 0.0;
        let mut angles = Angles::level(mesh.rope_m.len());
        for (k, span) in mesh.spans.iter().enumerate() {
            let state = self.spans[k];
            let e = if span.span == last_span {
                self.inline_extension_m
            } else {
                0.0
            };
            let assumed = Assumed {
                strain: state.horizontal_n / ea,
                fill: state.fill,
                extension_m: e,
            };
            self.sums(mesh, k, assumed, z, &mut angles);
            let segments = span.first_segment..span.first_segment + span.segments;
            for (t, rope) in angles.tangents[segments.clone()]
                .iter()
                .zip(&mesh.rope_m[segments])
            {
                let tension_squared = state.horizontal_n * state.horizontal_n * (1.0 + t * t);
                energy += 0.5 * tension_squared / ea * rope * state.fill;
            }
        }
        let w = line.weight_n_per_m();
        for idle in &mesh.idle {
            let h = self.tension_n.max(1e-3);
            let l =
                idle.length_m - end_give(line, idle.span) * (self.tension_n - line.pretension_n);
            let mut rope = unstretched_sagging_m(line, l, h);
            if idle.span == last_span {
                rope -= self.inline_extension_m / (1.0 + h / ea);
            }
            energy += 0.5 * h * h / ea * rope - w * w * l * l * l / (12.0 * h);
        }
        let (left, right) = self.end_horizontals_n(mesh, line);
        for (k, h) in [
            (line.left_end_stiffness_n_per_m, left),
            (line.right_end_stiffness_n_per_m, right),
        ] {
            if let Some(k) = k {
                let moved = (h - line.pretension_n) / k;
                energy += line.pretension_n * moved + 0.5 * k * moved * moved;
            }
        }
        energy
    }
}

/// Movement of the ends of the line that are ends of this span, m, per newton of tension.
fn end_give(line: &Line, span: usize) -> f64 {
    let last = line.spans_m.len() - 1;
    let give = |at: usize, k: Option<f64>| match k {
        Some(k) if span == at => 1.0 / k,
        _ => 0.0,
    };
    give(0, line.left_end_stiffness_n_per_m) + give(last, line.right_end_stiffness_n_per_m)
}

/// Sine and cosine of the last segment with the in-line absorber's extension as a straight piece
/// in line with it: s (l (1 + ε/c) + e) = dz.
fn sine_with_extension(dz: f64, rope: f64, strain: f64, extension: f64) -> (f64, f64) {
    let mut cosine = 1.0_f64;
    let mut sine = 0.0;
    for _ in 0..4 {
        sine = (dz / (rope * (1.0 + strain / cosine) + extension)).clamp(-1.0, 1.0);
        cosine = sqrt((1.0 - sine * sine).max(COSINE_MIN * COSINE_MIN));
    }
    (sine, cosine)
}

/// Root of a falling, convex function of the tension, given with its slope, from a guess: Newton,
/// kept positive, at most 60 steps. The error is about the square of the last step.
fn root_of_falling(f: impl Fn(f64) -> (f64, f64), guess: f64) -> f64 {
    let mut x = guess;
    for _ in 0..60 {
        let (fx, slope) = f(x);
        if slope >= 0.0 || !slope.is_finite() {
            break;
        }
        let next = (x - fx / slope).max(0.2 * x).max(1e-3);
        let moved = (next - x).abs();
        x = next;
        if moved <= 1e-5 * x {
            break;
        }
    }
    x
}

impl Traces {
    fn empty(case: &Case, mesh: &Mesh) -> Self {
        let mut node_x_m = Vec::new();
        for_nodes(case, mesh, |x, _, _| node_x_m.push(x));
        Self {
            interval_s: FRAME_S,
            workers: case.workers.len(),
            node_x_m,
            ..Self::default()
        }
    }

    fn push_line(
        &mut self,
        case: &Case,
        mesh: &Mesh,
        rope: &RopeState,
        z: &[f64],
        back: Option<(&[f64], f64)>,
    ) {
        self.frames += 1;
        let (mut horizontal, mut tension) = (0.0_f64, 0.0_f64);
        for state in &rope.spans {
            horizontal = horizontal.max(state.horizontal_n);
            tension = tension.max(state.horizontal_n * state.steepest);
        }
        self.tension_horizontal_n.push(horizontal);
        self.tension_max_n.push(tension);
        self.inline_extension_m.push(rope.inline_extension_m);
        let w = case.line.weight_n_per_m();
        let idle_tension = rope.tension_n.max(1.0);
        for_nodes(case, mesh, |_, node, idle| {
            let deflection = match (node, idle) {
                (Some(n), _) => z[n] - back.map_or(0.0, |(v, dt)| dt * v[n]),
                (None, (x, l)) => w * x * (l - x) / (2.0 * idle_tension),
            };
            self.node_deflection_m.push(deflection);
        });
    }

    /// Drop, speed, force, connector deflection, gear stretch, absorber extension.
    fn push_worker(&mut self, row: [f64; 6]) {
        self.drop_m.push(row[0]);
        self.speed_m_per_s.push(row[1]);
        self.force_n.push(row[2]);
        self.connector_deflection_m.push(row[3]);
        self.gear_stretch_m.push(row[4]);
        self.absorber_extension_m.push(row[5]);
    }
}

/// Visits the drawn nodes of the whole line from left to right: place, node of the mesh or `None`
/// in an idle span, and for that the place in the span and its length. Supports between two spans
/// appear once.
fn for_nodes(case: &Case, mesh: &Mesh, mut visit: impl FnMut(f64, Option<usize>, (f64, f64))) {
    const IDLE_PIECES: usize = 8;
    let mut start = 0.0;
    for (span, &length) in case.line.spans_m.iter().enumerate() {
        let skip = usize::from(span > 0);
        match mesh.spans.iter().find(|s| s.span == span) {
            Some(s) => {
                for j in skip..=s.segments {
                    let n = s.first_node + j;
                    visit(mesh.nodes[n].x_m, Some(n), (0.0, length));
                }
            }
            None => {
                for j in skip..=IDLE_PIECES {
                    let x = length * j as f64 / IDLE_PIECES as f64;
                    visit(start + x, None, (x, length));
                }
            }
        }
        start += length;
    }
}

#[cfg(test)]
mod inline_tests;
