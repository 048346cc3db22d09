//! The time history: the loaded spans as nodes with the line's own mass, moving vertically, the
//! workers as masses on their gear.
//!
//! Nodes are points of the rope. Along it the rope is cut into pieces, one to three a span, with one
//! horizontal tension each. From the slopes, the rope in a piece and its tension follow the horizontal
//! extents of its segments; they must add up to its length, which gives the tension. Between pieces
//! the rope moves along the line with its mass: over a post, with a node of a span, at an end that
//! gives or with the end of an in-line absorber. What comes in is shared out over the piece. Spans on
//! which nobody falls sag as a wave. All these forces come of one potential, so the ledger closes.
//!
//! Stepping: velocity Verlet (leapfrog), fixed step. Damping: the force of the line on a node
//! acts with β times its own rate added, that is, stiffness-proportional damping.
//!
//! Two histories whose lines are cut alike, such as the tolerance corners of one case, run side by
//! side, their numbers as pairs (`pair`): `strands` their nodes and segments, `rope` its pieces and
//! what lies between them, `sag` the spans on which nobody falls,
//! `crew` those who fall on their `gear`, `peaks` what is watched of the line, `motion` the steps.
//! Each has the same bits as alone.
//!
//! Known limits: vertical motion of workers and nodes; waves along the rope shorter than a piece are
//! left out.
//!
//! # Source
//! L. Verlet, Phys. Rev. 159 (1967) 98 for the stepping; a piece as a Kirchhoff string, one common
//! tension, e.g. H. M. Irvine, Cable Structures, MIT Press 1981.

use alloc::vec;
use alloc::vec::Vec;

use crate::case::{Case, Line};
use crate::constants::RESIDUAL_MAX;
use crate::maths::sqrt;
use crate::mesh::{Mesh, MeshPiece, SHARED, SHARED_ALONG};
use crate::outcome::{History, SupportPeak, Traces};

use crew::Body;
use motion::Motion;
use pair::of;
use rope::Ropes;

mod crew;
mod gear;
mod motion;
mod pair;
mod peaks;
mod rope;
mod sag;
mod strands;

/// Part of the explicit method's stability limit that a step uses at the tension allowed for.
/// Near the limit the leapfrog's dispersion cancels that of the nodes.
const STEP_PART: f64 = 0.95;
/// Tension allowed for over the one expected: one run in forty has more, and is repeated.
const TENSION_ROOM: f64 = 1.25;
/// Longest step, s; the same where an absorber is used up: the bounces on stiff gear that follow hand
/// energy from one to another for long, and their depths move by a centimetre with the longer one.
const STEP_MAX_S: f64 = 1.04e-3;
const STEP_MAX_USED_UP_S: f64 = 0.5e-3;
/// Slope on both sides of a connector that a step allows for: the steepest that the references
/// reach. Where a line grows steeper and a run goes unstable, its ledger shows it.
const SLOPE_ALLOWED: f64 = 1.0 / 3.0;
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
    /// Greatest stretch of webbing and absorber together.
    pub stretch_max_m: f64,
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
    /// A personal absorber is expected to be used up.
    pub used_up: bool,
    /// Multiplies nodes and divides the step.
    pub refine: usize,
    pub traces: bool,
    /// Drop at which each worker's soles reach what is below, m.
    pub strike_drop_m: &'a [f64],
}
/// How one run ended.
struct Ended {
    run: Run,
    /// Before its time, because the line grew too steep.
    steep: bool,
}

/// Runs the time history; repeats with a shorter step if the tension outgrows what the step was
/// chosen for, if the line grows too steep to go on, once, or if the energy ledger stays open.
///
/// Histories of lines cut alike run side by side, each to the same bits as alone.
pub(crate) fn runs<'a>(asked: impl Iterator<Item = (&'a Case, Wanted<'a>)>) -> Vec<Run> {
    let mut attempts: Vec<Attempt<'_>> = asked
        .map(|(case, wanted)| Attempt {
            case,
            wanted,
            allowed_n: TENSION_ROOM * wanted.tension_expected_n,
            divided: wanted.refine,
            runs: 0,
            steps_tried: 0,
            steep_before: false,
            open: None,
            done: None,
        })
        .collect();
    complete(&mut attempts);
    (attempts.into_iter())
        .map(|a| a.done.unwrap_or_else(|| Run::unresolved(a.case)))
        .collect()
}

/// Moved nodes, pieces of rope and workers, times steps, of one run that need not be repeated: known
/// before anything moves.
pub(crate) fn node_steps(case: &Case, wanted: Wanted<'_>) -> u64 {
    let allowed_n = TENSION_ROOM * wanted.tension_expected_n;
    Motion::new(case, wanted, allowed_n, wanted.refine).node_steps()
}

/// Runs until all are done.
fn complete(attempts: &mut [Attempt<'_>]) {
    loop {
        let mut waiting: Vec<(usize, Motion<'_>)> = Vec::new();
        for (i, attempt) in attempts.iter_mut().enumerate() {
            waiting.extend(attempt.next().map(|motion| (i, motion)));
        }
        if waiting.is_empty() {
            return;
        }
        while let Some((i, motion)) = waiting.pop() {
            let (mut places, mut bundle) = (vec![i], vec![motion]);
            if let Some(at) = waiting.iter().rposition(|w| w.1.is_cut_like(&bundle[0])) {
                let (i, motion) = waiting.swap_remove(at);
                places.push(i);
                bundle.push(motion);
            }
            for (i, ended) in places.into_iter().zip(motion::go(&mut bundle)) {
                attempts[i].take(ended);
            }
        }
    }
}

/// A history on its way to a run that counts.
struct Attempt<'a> {
    case: &'a Case,
    wanted: Wanted<'a>,
    /// Horizontal tension that the next run's step is chosen for, N, and what divides the step.
    allowed_n: f64,
    divided: usize,
    runs: u32,
    steps_tried: u32,
    /// A run grew too steep to go on.
    steep_before: bool,
    /// The last run whose ledger stayed open by little.
    open: Option<Run>,
    done: Option<Run>,
}

impl<'a> Attempt<'a> {
    /// The next run; `None`: it is done.
    fn next(&mut self) -> Option<Motion<'a>> {
        if self.done.is_some() {
            return None;
        }
        if self.runs < RUNS_MAX {
            self.runs += 1;
            let motion = Motion::new(self.case, self.wanted, self.allowed_n, self.divided);
            if motion.steps() <= STEPS_MAX {
                return Some(motion);
            }
        }
        let run = self
            .open
            .take()
            .unwrap_or_else(|| Run::unresolved(self.case));
        self.done = Some(Run {
            steps_tried: self.steps_tried,
            ..run
        });
        None
    }

    fn take(&mut self, ended: Ended) {
        let Ended { mut run, steep } = ended;
        self.steps_tried += run.history.steps;
        run.steps_tried = self.steps_tried;
        let reached = run.history.tension_horizontal_max_n;
        if reached > self.allowed_n {
            // A run that went unstable says nothing of the tension: approach it in bounded steps.
            self.allowed_n = (TENSION_ROOM * reached).min(3.0 * self.allowed_n);
        } else if steep && !self.steep_before {
            // It may have gone unstable for want of a shorter step.
            self.steep_before = true;
            self.divided *= 2;
        } else if steep {
            self.done = Some(Run {
                slope_max: run.slope_max,
                steps_tried: self.steps_tried,
                ..Run::unresolved(self.case)
            });
        } else {
            let residual = run.history.energy.residual_ratio;
            if residual <= RESIDUAL_MAX {
                self.done = Some(run);
                return;
            }
            if residual < RESIDUAL_GIVEN_UP {
                self.open = Some(run);
            }
            self.divided *= 2;
        }
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
            // Kink of a loaded node against the whole line's stretch.
            let both = 2.0 * SLOPE_ALLOWED;
            let kink = both * both * line.rope.axial_stiffness_n / line.length_m();
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
                    weight * (body.pull.stiffness_max_n_per_m() + kink)
                })
                .sum();
            // With mass shared, a wave from node to node is 1 + SHARED/3 times as stiff, a single
            // node 1 + SHARED/6; together as a chain with one stiff place.
            let half = 0.5 * (1.0 + SHARED / 3.0) * string;
            let place = (1.0 + SHARED / 6.0) * gear;
            let both = half + sqrt(half * half + place * place);
            omega_squared = omega_squared.max(both / mesh.nodes[node].mass_kg);
        }
    }
    // Along the rope: greatest eigenvalue of neighbouring pieces, twice the diagonal.
    for k in 0..=mesh.pieces.len() {
        let stiffness = |piece: Option<&MeshPiece>| {
            piece.map_or(0.0, |p| line.rope.axial_stiffness_n / p.length_m)
        };
        let left = stiffness(k.checked_sub(1).and_then(|at| mesh.pieces.get(at)));
        let along = 2.0 * (left + stiffness(mesh.pieces.get(k)));
        omega_squared = omega_squared.max((1.0 + SHARED_ALONG / 3.0) * along / mesh.joint_kg(k));
    }
    for body in bodies {
        omega_squared = omega_squared.max(body.pull.stiffness_max_n_per_m() / body.mass_kg);
    }
    // Leapfrog with the damping force one step late is stable while ω² dt² (1 + 2β/dt) ≤ 4.
    let bare = 2.0 * STEP_PART / sqrt(omega_squared);
    sqrt(damping_s * damping_s + bare * bare) - damping_s
}
impl Traces {
    fn empty(case: &Case, mesh: &Mesh) -> Self {
        let mut node_x_m = Vec::new();
        for_nodes(case, mesh, |x, _| node_x_m.push(x));
        let workers = case.workers.len();
        let frames = (case.motion.duration_s / FRAME_S) as usize + 2;
        Self {
            interval_s: FRAME_S,
            frames: 0,
            workers,
            tension_horizontal_n: Vec::with_capacity(frames),
            tension_max_n: Vec::with_capacity(frames),
            inline_extension_m: Vec::with_capacity(frames),
            node_deflection_m: Vec::with_capacity(frames * node_x_m.len()),
            drop_m: Vec::with_capacity(frames * workers),
            speed_m_per_s: Vec::with_capacity(frames * workers),
            force_n: Vec::with_capacity(frames * workers),
            connector_deflection_m: Vec::with_capacity(frames * workers),
            gear_stretch_m: Vec::with_capacity(frames * workers),
            absorber_extension_m: Vec::with_capacity(frames * workers),
            node_x_m,
        }
    }

    fn push_line(
        &mut self,
        case: &Case,
        mesh: &Mesh,
        (ropes, side): (&Ropes, usize),
        z_m: impl Fn(usize) -> f64,
    ) {
        self.frames += 1;
        let (mut horizontal, mut tension) = (0.0_f64, 0.0_f64);
        for piece in &ropes.pieces {
            horizontal = horizontal.max(of(piece.horizontal_n, side));
            tension = tension.max(of(piece.tension_n(), side));
        }
        self.tension_horizontal_n.push(horizontal);
        self.tension_max_n.push(tension);
        self.inline_extension_m
            .push(ropes.inline_extension_m(side).iter().sum());
        for_nodes(case, mesh, |_, place| {
            let deflection = match place {
                Drawn::Node(n) => z_m(n),
                Drawn::Idle(piece, eighth) => {
                    let sag = ropes.sags.iter().find(|s| s.pieces.0 == piece);
                    sag.map_or(0.0, |s| s.deflection_m(side, eighth))
                }
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

/// A drawn place of the line: a node of the mesh, or in a span on which nobody falls its first piece
/// and eighths of its length.
enum Drawn {
    Node(usize),
    Idle(usize, usize),
}

/// Visits the drawn nodes of the whole line from left to right, with their x. Supports between two
/// spans, and nodes between two pieces, appear once.
fn for_nodes(case: &Case, mesh: &Mesh, mut visit: impl FnMut(f64, Drawn)) {
    const PARTS: usize = 8;
    let mut start = 0.0;
    for (span, &length) in case.line.spans_m.iter().enumerate() {
        let skip = usize::from(span > 0);
        let first = mesh.pieces.iter().position(|p| p.span == span);
        match (mesh.spans.iter().find(|s| s.span == span), first) {
            (Some(s), _) => {
                for j in skip..=s.segments {
                    let n = s.first_node + j;
                    visit(mesh.nodes[n].x_m, Drawn::Node(n));
                }
            }
            (None, Some(piece)) => {
                for j in skip..=PARTS {
                    let x = length * j as f64 / PARTS as f64;
                    visit(start + x, Drawn::Idle(piece, j));
                }
            }
            (None, None) => {}
        }
        start += length;
    }
}

#[cfg(test)]
mod inline_tests;
#[cfg(test)]
mod side_tests;
