//! The rope of two histories along its length: pieces with one horizontal tension each, and what
//! moves between them.
//!
//! A segment of rope l under horizontal strain ε whose ends differ by dz in level has the sine s
//! with s l (1 + ε/c) = dz, and the horizontal extent l (c + ε), c its cosine. The extents of a
//! piece's segments must add up to its length, which gives its tension H = EA ε from the rope that
//! is in it.
//!
//! Between two pieces the rope has the mass from the middle of one to the middle of the other, and
//! shares some of it with its neighbours, as nodes do (`mesh.rs`). At a support it slides,
//! m s̈ = Q₂ − Q₁ with Q = T + T²/(2EA), T the mean tension of a piece; what comes in is shared out
//! over the whole piece. In a span a node moves along the line, m ü = H₂ − H₁. At an end that moves
//! half a piece pulls against its spring, at one with an in-line absorber against its force. Where
//! there are both, the spring follows at once.

use alloc::vec::Vec;

use wide::{CmpGt, CmpLe};

use super::COSINE_MIN;
use super::pair::{NONE, ONE, Pair, SIDES, greater, of, with};
use super::sag::{Sag, rope_at_rest_m};
use super::strands::Sums;
use crate::case::{InlineAbsorber, Line};
use crate::maths::sqrt;
use crate::mesh::Mesh;

/// Pieces of rope of two histories, and what lies between them.
pub(super) struct Ropes {
    /// Left to right.
    pub pieces: Vec<Piece>,
    /// Left of every piece, and right of the last.
    joints: Vec<Joint>,
    springs: Vec<Spring>,
    absorbers: Vec<Absorber>,
    /// Spans on which nobody falls.
    pub sags: Vec<Sag>,
    /// EA, N, and its reciprocal.
    ea_n: Pair,
    per_ea_per_n: Pair,
    /// Damping time over the step.
    rate: Pair,
    /// Work that damping along the rope has taken so far, J.
    damping_work_j: Pair,
}

/// A piece of rope.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    /// Unstretched rope at rest, m, and its reciprocal.
    rope_m: Pair,
    per_rope_per_m: Pair,
    /// Movement of its end that follows the tension at once, m/N, and its length without tension, m.
    give_m_per_n: Pair,
    slack_length_m: Pair,
    /// On a span where nobody falls: its length without tension less its rope at rest, m; 1 over its rope at rest with what the movement of its end makes as
    /// much as rope does, 1/m, and EA times it.
    missing_m: Pair,
    per_give_per_m: Pair,
    ea_per_give_n_per_m: Pair,
    /// Force between its ends by a difference of what the next step adds, N/m.
    coupling_n_per_m: Pair,
    /// Rope that has come in, m, and by how much its ends have moved apart, m; rope in it over rope at
    /// rest.
    more_m: Pair,
    longer_m: Pair,
    fill: Pair,
    /// Mean of ds/dx over the rope, and its largest.
    secant: Pair,
    pub steepest: Pair,
    pub horizontal_n: Pair,
    before_n: Pair,
    /// Horizontal strain H/EA taken for the angles of this step.
    strain: Pair,
    /// Nobody falls on its span.
    pub idle: bool,
    /// Force by which its rope draws more rope in, N.
    draw_n: Pair,
}

/// What lies between two pieces, or at an end of the line.
#[derive(Clone, Copy, Debug)]
struct Joint {
    /// Rope slides over a support there, or out of an in-line absorber; else a node of a span or an end
    /// of the line moves along it, if anything does.
    slides: bool,
    /// Way of the rope to the right, m, its change in the last step and what the next one adds.
    moved_m: Pair,
    change_m: Pair,
    gain_m: Pair,
    /// What a force adds to the change, m/N; 0 where nothing moves, and at an in-line absorber.
    kick_m_per_n: Pair,
    /// Force of the rope to the right, without damping, N.
    force_n: Pair,
    /// Force of the spring of an end, N.
    held_n: Pair,
}

/// An end of the line that moves: its stiffness, N/m, and its force to the right at rest, N.
#[derive(Clone, Copy, Debug)]
struct Spring {
    joint: usize,
    stiffness_n_per_m: Pair,
    at_rest_n: Pair,
}

/// An in-line absorber at an end of the line: rigid up to its force, then yielding at it up to its
/// greatest extension. It moves with half a piece of rope.
#[derive(Clone, Copy, Debug)]
struct Absorber {
    /// Its joint.
    joint: usize,
    /// Way of the rope into the line: 1 to the right, at the left end, −1 to the left.
    inward: Pair,
    yield_n: Pair,
    max_m: Pair,
    /// Unstretched rope that its extension stands for, over the extension.
    as_rope: Pair,
    /// What a force adds to the change of its extension, m/N; the change in the last step, m, and what
    /// the rope adds to the next one.
    kick_m_per_n: Pair,
    change_m: Pair,
    gain_m: Pair,
    /// Pull of the rope, without damping, N.
    pull_n: Pair,
    extension_m: Pair,
    work_j: Pair,
}

impl Ropes {
    /// Two lines at rest, cut alike, with their steps, s, and damping times, s.
    pub fn at_rest(lines: [(&Line, &Mesh); SIDES], step_s: Pair, damping_s: Pair) -> Self {
        let mesh = lines[0].1;
        let each = |what: &dyn Fn(&Line, &Mesh) -> f64| {
            Pair::new(lines.map(|(line, mesh)| what(line, mesh)))
        };
        let squared = step_s * step_s;
        let rate = damping_s / step_s;
        let ea_n = each(&|line, _| line.rope.axial_stiffness_n);
        let pretension_n = each(&|line, _| line.pretension_n);
        let last = mesh.pieces.len() - 1;
        let end_stiffness = |line: &Line, end: usize| match end {
            0 => line.left_end_stiffness_n_per_m,
            _ => line.right_end_stiffness_n_per_m,
        };
        let has_absorber = |end: usize| {
            let lines = lines.iter();
            lines.map(|l| inline_at(l.0, end)).any(|a| a.is_some())
        };
        let pieces = (0..=last).map(|k| {
            let give = |line: &Line| {
                let end = |end: usize| match end_stiffness(line, end) {
                    Some(n_per_m) if has_absorber(end) => 1.0 / n_per_m,
                    _ => 0.0,
                };
                (if k == 0 { end(0) } else { 0.0 }) + (if k == last { end(1) } else { 0.0 })
            };
            let rope_m = each(&|line, mesh| {
                let piece = &mesh.pieces[k];
                if piece.is_idle() {
                    rope_at_rest_m(line, piece)
                } else {
                    piece.rope_m
                }
            });
            let give_m_per_n = each(&|line, _| give(line));
            let slack_length_m =
                each(&|line, mesh| mesh.pieces[k].length_m + give(line) * line.pretension_n);
            let per_give_per_m = ONE / (rope_m + give_m_per_n * ea_n);
            Piece {
                rope_m,
                per_rope_per_m: ONE / rope_m,
                give_m_per_n,
                per_give_per_m,
                ea_per_give_n_per_m: ea_n * per_give_per_m,
                slack_length_m,
                missing_m: slack_length_m - rope_m,
                coupling_n_per_m: each(&|_, mesh| mesh.pieces[k].coupling_kg) / squared,
                more_m: NONE,
                longer_m: NONE,
                fill: ONE,
                secant: ONE,
                steepest: ONE,
                horizontal_n: pretension_n,
                before_n: pretension_n,
                strain: NONE,
                idle: mesh.pieces[k].is_idle(),
                draw_n: NONE,
            }
        });
        let (mut springs, mut absorbers) = (Vec::new(), Vec::new());
        let mut joints = Vec::new();
        for k in 0..=last + 1 {
            let mass_kg = each(&|_, mesh| mesh.joint_kg(k));
            let end = usize::from(k > 0);
            let mut joint = Joint {
                slides: false,
                moved_m: NONE,
                change_m: NONE,
                gain_m: NONE,
                kick_m_per_n: squared / mass_kg,
                force_n: NONE,
                held_n: NONE,
            };
            // Damping is of the force's rate, which is none at rest.
            if k == 0 {
                joint.force_n = pretension_n;
            } else if k > last {
                joint.force_n = -pretension_n;
            }
            if k > 0 && k <= last {
                joint.slides = mesh.pieces[k].span != mesh.pieces[k - 1].span;
            } else if has_absorber(end) {
                absorbers.push(Absorber::new(k, end, joint.kick_m_per_n, &each));
                joint.slides = true;
                joint.kick_m_per_n = NONE;
            } else if lines.iter().any(|l| end_stiffness(l.0, end).is_some()) {
                let out = if end == 0 { -1.0 } else { 1.0 };
                let n_per_m = each(&|line, _| end_stiffness(line, end).unwrap_or(RIGID_N_PER_M));
                // The mean of the spring's force over three steps acts as mass: however stiff it is,
                // the step bears it.
                let added_kg = n_per_m * squared * Pair::splat(0.25);
                joint.kick_m_per_n = squared / (mass_kg + added_kg);
                springs.push(Spring {
                    joint: k,
                    stiffness_n_per_m: n_per_m,
                    at_rest_n: each(&|line, _| out * line.pretension_n),
                });
            } else {
                joint.kick_m_per_n = NONE;
            }
            joints.push(joint);
        }
        Self {
            pieces: pieces.collect(),
            joints,
            springs,
            absorbers,
            sags: Sag::all(lines, step_s, damping_s),
            ea_n,
            per_ea_per_n: ONE / ea_n,
            rate,
            damping_work_j: NONE,
        }
    }

    /// Kick and drift of everything between the pieces and of the sags; what is in every piece then.
    #[inline]
    pub fn advance(&mut self) {
        for absorber in &mut self.absorbers {
            self.joints[absorber.joint].moved_m += absorber.advance();
        }
        for sag in &mut self.sags {
            sag.advance();
        }
        // Of the joint on the left: rope that came in, and its own way.
        let (mut came_m, mut went_m) = self.joints[0].advance();
        for (piece, joint) in self.pieces.iter_mut().zip(&mut self.joints[1..]) {
            let (leaves_m, grows_m) = joint.advance();
            piece.more_m = came_m - leaves_m;
            piece.longer_m = grows_m - went_m;
            (came_m, went_m) = (leaves_m, grows_m);
        }
    }

    /// The strain to look at the segments of a piece with, taken on from its tension in the last two
    /// steps, and its rope over that at rest.
    #[inline]
    pub fn assume(&mut self, k: usize) -> (Pair, Pair) {
        let piece = &mut self.pieces[k];
        let ahead_n = piece.horizontal_n + piece.horizontal_n - piece.before_n;
        piece.before_n = piece.horizontal_n;
        piece.strain = greater(ahead_n, NONE) * self.per_ea_per_n;
        piece.fill = ONE + piece.more_m * piece.per_rope_per_m;
        (piece.strain, piece.fill)
    }

    /// Tension of a piece from the sums over its segments, at the strain and fill that it had: one
    /// step of Newton.
    #[inline]
    pub fn take(&mut self, k: usize, sums: &Sums) {
        let piece = &mut self.pieces[k];
        let secant = sums.secant_m * piece.per_rope_per_m;
        let extent_m = (sums.cosine_m + piece.strain * piece.rope_m) * piece.fill;
        // The spread of the secants makes no difference in the slope of this step.
        let steep = (secant * secant - ONE) * (ONE - piece.strain * secant);
        let by_strain_m = piece.rope_m * (ONE + steep) * piece.fill;
        let missing_m = piece.slack_length_m + piece.longer_m - extent_m;
        // extent + by_strain (ε − ε_p) = L − give (H − T0)
        let strain = (missing_m + by_strain_m * piece.strain)
            / (by_strain_m + piece.give_m_per_n * self.ea_n);
        piece.secant = secant;
        piece.steepest = sums.steepest;
        piece.pull(strain * self.ea_n, self.per_ea_per_n);
    }

    /// Tensions of the spans on which nobody falls, and what they do to their sags.
    ///
    /// The potential of such a piece is EA/2 (L + b − S)²/S, b what its bow is longer.
    #[inline]
    pub fn take_idle(&mut self) {
        let half_per_ea_per_n = Pair::splat(0.5) * self.per_ea_per_n;
        for sag in &mut self.sags {
            let bow_m = sag.bow_m();
            let mut sum_n = NONE;
            for piece in &mut self.pieces[sag.pieces.0..sag.pieces.1] {
                let missing_m = piece.missing_m + (piece.longer_m + bow_m - piece.more_m);
                // 1/(1 + δ), δ a hundredth or so.
                let more = piece.more_m * piece.per_give_per_m;
                let stiffness = piece.ea_per_give_n_per_m * (ONE - more + more * more);
                let horizontal_n = greater(missing_m * stiffness, NONE);
                piece.horizontal_n = horizontal_n;
                piece.draw_n = horizontal_n + horizontal_n * horizontal_n * half_per_ea_per_n;
                sum_n += horizontal_n;
            }
            sag.pull(sum_n * sag.share);
        }
    }

    /// All tensions found: the forces between the pieces, and what they add to the joints' changes,
    /// each taking its neighbours along by the mass between them.
    #[inline]
    pub fn settle(&mut self) {
        for spring in &self.springs {
            let joint = &mut self.joints[spring.joint];
            joint.held_n = spring.at_rest_n - spring.stiffness_n_per_m * joint.moved_m;
        }
        let rate = self.rate;
        let mut work_j = NONE;
        // Of the piece on the left, and of the joint on its other side.
        let (mut left_draw_n, mut left_n) = (NONE, NONE);
        let (mut left_gain_m, mut left_coupling_n) = (NONE, NONE);
        let mut left: Option<&mut Joint> = None;
        let none = (NONE, NONE, NONE);
        let mut pieces = self
            .pieces
            .iter()
            .map(|p| (p.draw_n, p.horizontal_n, p.coupling_n_per_m));
        let mut coupling_n_per_m = NONE;
        for joint in &mut self.joints {
            let (draw_n, horizontal_n, next_n_per_m) = pieces.next().unwrap_or(none);
            let force_n = if joint.slides {
                draw_n - left_draw_n
            } else {
                horizontal_n - left_n
            };
            let damping_n = rate * (force_n - joint.force_n);
            work_j += damping_n * joint.change_m;
            joint.force_n = force_n;
            let gain_m = joint.kick_m_per_n * (force_n + damping_n + joint.held_n);
            joint.gain_m = gain_m;
            if let Some(left) = left {
                let coupling_n = coupling_n_per_m * (gain_m - left_gain_m);
                left.gain_m += left.kick_m_per_n * (left_coupling_n - coupling_n);
                left_coupling_n = coupling_n;
            }
            (left_draw_n, left_n, left_gain_m) = (draw_n, horizontal_n, gain_m);
            coupling_n_per_m = next_n_per_m;
            left = Some(joint);
        }
        if let Some(last) = left {
            last.gain_m += last.kick_m_per_n * left_coupling_n;
        }
        for absorber in &mut self.absorbers {
            let force_n = self.joints[absorber.joint].force_n;
            work_j -= absorber.pull(force_n, rate);
        }
        self.damping_work_j -= work_j;
    }

    /// One history stands still from now on.
    pub fn stop(&mut self, side: usize) {
        for joint in &mut self.joints {
            for still in [
                &mut joint.change_m,
                &mut joint.gain_m,
                &mut joint.kick_m_per_n,
            ] {
                *still = with(*still, side, 0.0);
            }
        }
        for absorber in &mut self.absorbers {
            absorber.kick_m_per_n = with(absorber.kick_m_per_n, side, 0.0);
            absorber.change_m = with(absorber.change_m, side, 0.0);
            absorber.gain_m = with(absorber.gain_m, side, 0.0);
        }
        for sag in &mut self.sags {
            sag.stop(side);
        }
    }

    /// Horizontal tension at the left and the right end, N.
    pub fn end_horizontals_n(&self) -> [Pair; 2] {
        [self.pieces.first(), self.pieces.last()].map(|p| p.map_or(NONE, |p| p.horizontal_n))
    }

    /// Extension of the in-line absorbers at the left and the right end now, m.
    pub fn inline_extension_m(&self, side: usize) -> [f64; 2] {
        let mut each_m = [0.0; 2];
        for absorber in &self.absorbers {
            each_m[usize::from(absorber.joint > 0)] = of(absorber.extension_m, side);
        }
        each_m
    }

    /// Work that in-line absorbers have taken so far, J.
    pub fn inline_work_j(&self, side: usize) -> f64 {
        self.absorbers.iter().map(|a| of(a.work_j, side)).sum()
    }

    /// Work that damping along the rope and of the sags has taken so far, J.
    pub fn damping_work_j(&self, side: usize) -> f64 {
        let sags = self.sags.iter().map(|s| s.damping_work_j(side));
        of(self.damping_work_j, side) + sags.sum::<f64>()
    }

    /// Kinetic energy along the rope and of the sags now, J: half the sum of momenta times speeds.
    pub fn kinetic_j(&self, side: usize) -> f64 {
        // The momentum comes from the speed by sweeps, as that of the nodes does.
        const SWEEPS: usize = 9;
        let count = self.joints.len();
        let one = |what: fn(&Joint) -> Pair| -> Vec<f64> {
            self.joints.iter().map(|j| of(what(j), side)).collect()
        };
        let kick = one(|j| j.kick_m_per_n);
        let change_m = one(|j| j.change_m + j.gain_m * Pair::splat(0.5));
        let mut carried_m = change_m.clone();
        let mut twice_j = 0.0;
        for sweep in 1..=SWEEPS {
            for k in 0..count {
                if kick[k] == 0.0 {
                    carried_m[k] = 0.0;
                    continue;
                }
                let beside = |piece: Option<usize>, joint: usize| {
                    let piece = piece.and_then(|at| self.pieces.get(at));
                    let part = piece.map_or(0.0, |p| kick[k] * of(p.coupling_n_per_m, side));
                    (part, part * carried_m.get(joint).copied().unwrap_or(0.0))
                };
                let (left, from_left_m) = beside(k.checked_sub(1), k.wrapping_sub(1));
                let (right, from_right_m) = beside(Some(k), k + 1);
                let moved_m = change_m[k] + from_left_m + from_right_m;
                carried_m[k] = moved_m / (1.0 + left + right);
                if sweep == SWEEPS {
                    twice_j += carried_m[k] * change_m[k] / kick[k];
                }
            }
        }
        let absorbers = self.absorbers.iter().filter(|a| of(a.change_m, side) > 0.0);
        let absorbers = absorbers.map(|a| {
            let now_m = of(a.change_m - a.slows_m() * Pair::splat(0.5), side);
            0.5 * now_m * now_m / of(a.kick_m_per_n, side)
        });
        let sags = self.sags.iter().map(|s| s.kinetic_j(side));
        0.5 * twice_j + absorbers.sum::<f64>() + sags.sum::<f64>()
    }

    /// Potential energy of rope stretch, sags' weight and end supports, J, with the nodes of the
    /// mesh at these deflections.
    pub fn potential_j(
        &self,
        side: usize,
        line: &Line,
        mesh: &Mesh,
        z_m: impl Fn(usize) -> f64,
    ) -> f64 {
        let ea = line.rope.axial_stiffness_n;
        let mut energy = 0.0;
        for sag in &self.sags {
            energy -= sag.weight_work_j(side);
            for piece in &self.pieces[sag.pieces.0..sag.pieces.1] {
                let h = of(piece.horizontal_n, side);
                energy += 0.5 * h * h / ea * of(piece.rope_m + piece.more_m, side);
            }
        }
        for (piece, state) in mesh.pieces.iter().zip(&self.pieces) {
            let (h, fill) = (of(state.horizontal_n, side), of(state.fill, side));
            for j in 0..piece.segments {
                let rope_m = mesh.rope_m[piece.first_segment + j] * fill;
                let dz = z_m(piece.first_node + j + 1) - z_m(piece.first_node + j);
                let tension = h / cosine(dz, rope_m, h / ea);
                energy += 0.5 * tension * tension / ea * rope_m;
            }
        }
        let horizontals_n = self.end_horizontals_n();
        for (end, joint) in [self.joints.first(), self.joints.last()]
            .into_iter()
            .enumerate()
        {
            let (stiffness, inward) = match end {
                0 => (line.left_end_stiffness_n_per_m, 1.0),
                _ => (line.right_end_stiffness_n_per_m, -1.0),
            };
            if let Some(k) = stiffness {
                let moved = match joint {
                    Some(j) if !j.slides => inward * of(j.moved_m, side),
                    _ => (of(horizontals_n[end], side) - line.pretension_n) / k,
                };
                energy += line.pretension_n * moved + 0.5 * k * moved * moved;
            }
        }
        energy
    }
}

/// The in-line absorber at the left end (0) or the right one.
fn inline_at(line: &Line, end: usize) -> Option<InlineAbsorber> {
    line.inline_absorber.filter(|a| a.place.is_at(end))
}

/// Stiffness of an end that does not move beside one that does, N/m.
const RIGID_N_PER_M: f64 = 1.0e12;

impl Piece {
    /// Takes a tension, not below none.
    #[inline]
    fn pull(&mut self, horizontal_n: Pair, per_ea_per_n: Pair) {
        self.horizontal_n = greater(horizontal_n, NONE);
        let tension_n = self.horizontal_n * self.secant;
        self.draw_n = tension_n * (ONE + Pair::splat(0.5) * tension_n * per_ea_per_n);
    }

    /// Greatest tension in it, N.
    pub fn tension_n(&self) -> Pair {
        self.horizontal_n * self.steepest
    }
}

impl Joint {
    /// Kick and drift: rope that has passed it to the right, m, and its own way to the right, m.
    #[inline]
    fn advance(&mut self) -> (Pair, Pair) {
        self.change_m += self.gain_m;
        self.moved_m += self.change_m;
        if self.slides {
            (self.moved_m, NONE)
        } else {
            (NONE, self.moved_m)
        }
    }
}

impl Absorber {
    /// At the left end (0) or the right one; folded.
    fn new(
        joint: usize,
        end: usize,
        kick_m_per_n: Pair,
        each: &impl Fn(&dyn Fn(&Line, &Mesh) -> f64) -> Pair,
    ) -> Self {
        let inline = |line: &Line| inline_at(line, end);
        Self {
            joint,
            inward: if end == 0 { ONE } else { -ONE },
            // Where only the other history has one: a force that is never reached.
            yield_n: each(&|line, _| inline(line).map_or(1.0e30, |a| a.yield_force_n)),
            max_m: each(&|line, _| inline(line).map_or(0.0, |a| a.max_extension_m)),
            as_rope: each(&|line, _| {
                inline(line).map_or(1.0, |a| {
                    1.0 / (1.0 + a.yield_force_n / line.rope.axial_stiffness_n)
                })
            }),
            kick_m_per_n,
            change_m: NONE,
            gain_m: NONE,
            pull_n: each(&|line, _| line.pretension_n),
            extension_m: NONE,
            work_j: NONE,
        }
    }

    /// Takes the pull of the rope to the right, N, of which it had the last one; the work of damping.
    #[inline]
    fn pull(&mut self, force_n: Pair, rate: Pair) -> Pair {
        let pull_n = force_n * self.inward * self.as_rope;
        let damping_n = rate * (pull_n - self.pull_n);
        let work_j = -(damping_n * self.change_m);
        self.pull_n = pull_n;
        self.gain_m = self.kick_m_per_n * (pull_n + damping_n);
        work_j
    }

    /// What its force takes from the change beyond what the rope adds, m.
    #[inline]
    fn slows_m(&self) -> Pair {
        self.kick_m_per_n * self.yield_n - self.gain_m
    }

    /// Kick and drift: unstretched rope that it lets out to the right in a step, m.
    #[inline]
    fn advance(&mut self) -> Pair {
        let (half, least) = (Pair::splat(0.5), Pair::splat(f64::MIN_POSITIVE));
        let (before_m, slows_m) = (self.change_m, self.slows_m());
        let wanted_m = before_m - slows_m;
        // Where it comes to rest within the step: on the parabola.
        let stops = wanted_m.cmp_le(NONE);
        let last_m = half * before_m * before_m / greater(slows_m, least);
        let way_m = stops.blend(last_m, wanted_m);
        let left_m = self.max_m - self.extension_m;
        let locks = way_m.cmp_gt(left_m);
        let moves_m = locks.blend(left_m, way_m);
        self.extension_m += moves_m;
        self.work_j += self.yield_n * moves_m;
        if locks.any() {
            // What the rope's end strikes the stop with is gone.
            let knock = half * before_m * before_m - slows_m * moves_m;
            self.work_j += locks.blend(knock / greater(self.kick_m_per_n, least), NONE);
        }
        self.change_m = (locks | stops).blend(NONE, moves_m);
        moves_m * self.inward * self.as_rope
    }
}

/// Cosine of a segment's angle: s l (1 + ε/c) = dz.
fn cosine(dz: f64, rope_m: f64, strain: f64) -> f64 {
    let mut cosine = 1.0_f64;
    for _ in 0..4 {
        let sine = (dz / (rope_m * (1.0 + strain / cosine))).clamp(-1.0, 1.0);
        cosine = sqrt((1.0 - sine * sine).max(COSINE_MIN * COSINE_MIN));
    }
    cosine
}
