//! The nodes and segments of two histories side by side.
//!
//! The lines of both are cut alike, so every number of a node or a segment is a [`Pair`], and one
//! pass over a span from left to right moves its nodes, turns its segments and sums over them. A
//! history has the same bits whatever runs beside it: nothing goes from one side to the other.

use alloc::vec;
use alloc::vec::Vec;

use super::COSINE_MIN;
use super::pair::{NONE, ONE, Pair, greater, of, with};
use crate::constants::GRAVITY_M_PER_S2;
use crate::maths::roots;
use crate::mesh::{Mesh, MeshPiece, MeshSpan};

/// A node and the segment on its left. A support on the left of a span has no segment.
#[derive(Clone, Copy, Debug)]
struct Knot {
    /// Deflection, m, and its change in the last step, m.
    z_m: Pair,
    change_m: Pair,
    /// What the next step adds to the change, m; what a force on the node alone adds, m/N (0 at
    /// supports).
    gain_m: Pair,
    kick_m_per_n: Pair,
    /// Force along the segment between its nodes, by a difference of what the next step adds, N/m.
    coupling_n_per_m: Pair,
    /// Rope at rest, m, and its reciprocal.
    rope_m: Pair,
    per_rope_per_m: Pair,
    /// Secant and tangent of the segment's angle.
    secant: Pair,
    tangent: Pair,
    /// Vertical force of the segment without damping, N.
    vertical_n: Pair,
}

/// Nodes and segments of a bundle.
pub(super) struct Strands {
    knots: Vec<Knot>,
    /// What gravity adds to a node's change in a step, m.
    fall_m: Pair,
    /// Damping time over the step.
    rate: Pair,
    /// Work that damping has taken so far, J.
    damping_work_j: Pair,
}

impl Strands {
    /// Two lines at rest, cut alike, with their steps, s, and damping times, s.
    pub fn at_rest(meshes: [&Mesh; 2], step_s: Pair, damping_s: Pair) -> Self {
        let nodes = |what: &dyn Fn(&Mesh) -> f64| Pair::new(meshes.map(what));
        let none = Knot {
            z_m: NONE,
            change_m: NONE,
            gain_m: NONE,
            kick_m_per_n: NONE,
            coupling_n_per_m: NONE,
            rope_m: NONE,
            per_rope_per_m: NONE,
            secant: ONE,
            tangent: NONE,
            vertical_n: NONE,
        };
        let squared = step_s * step_s;
        let mut knots = vec![none; meshes[0].nodes.len()];
        for span in &meshes[0].spans {
            for j in 1..=span.segments {
                let (n, s) = (span.first_node + j, span.first_segment + j - 1);
                let knot = &mut knots[n];
                knot.z_m = nodes(&|m| m.nodes[n].rest_m);
                knot.rope_m = nodes(&|m| m.rope_m[s]);
                knot.per_rope_per_m = ONE / knot.rope_m;
                knot.vertical_n = nodes(&|m| m.rest_vertical_n[s]);
                knot.coupling_n_per_m = nodes(&|m| m.coupling_kg[s]) / squared;
                if j < span.segments {
                    knot.kick_m_per_n = squared / nodes(&|m| m.nodes[n].mass_kg);
                }
            }
        }
        Self {
            knots,
            fall_m: squared * Pair::splat(GRAVITY_M_PER_S2),
            rate: damping_s / step_s,
            damping_work_j: NONE,
        }
    }

    /// One history stands still from now on, whatever pulls at it.
    pub fn stop(&mut self, side: usize) {
        self.fall_m = with(self.fall_m, side, 0.0);
        for knot in &mut self.knots {
            for still in [&mut knot.change_m, &mut knot.gain_m, &mut knot.kick_m_per_n] {
                *still = with(*still, side, 0.0);
            }
        }
    }

    /// Kick and drift of the nodes of a piece, but for its first, then the angles of its segments at
    /// this strain and with this rope over that at rest.
    ///
    /// The share of the strain along a segment goes by its secant in the last step.
    pub fn advance(&mut self, piece: &MeshPiece, strain: Pair, fill: Pair) -> Sums {
        // 1/(1 + ε/c) by its tangent at c = 1, constant and rate with 1/c, over the fill.
        let level = ONE / (ONE + strain);
        let per_fill = ONE / fill;
        let by_secant = strain * level * level;
        let constant = (level + by_secant) * per_fill;
        let rate = by_secant * per_fill;
        let least = Pair::splat(COSINE_MIN * COSINE_MIN);
        let mut sums = Sums {
            cosine_m: NONE,
            secant_m: NONE,
            steepest: ONE,
        };
        let mut left_z_m = self.knots[piece.first_node].z_m;
        for knot in &mut self.knots[piece.first_node + 1..=piece.first_node + piece.segments] {
            let change_m = knot.change_m + knot.gain_m;
            let z_m = knot.z_m + change_m;
            let share = constant - rate * knot.secant;
            let sine = (z_m - left_z_m) * knot.per_rope_per_m * share;
            // The steepest one where the sine is no number.
            let cosine = roots(greater(ONE - sine * sine, least));
            let secant = ONE / cosine;
            sums.cosine_m += knot.rope_m * cosine;
            sums.secant_m += knot.rope_m * secant;
            sums.steepest = greater(secant, sums.steepest);
            knot.change_m = change_m;
            knot.z_m = z_m;
            knot.secant = secant;
            knot.tangent = sine * secant;
            left_z_m = z_m;
        }
        sums
    }

    /// Forces of a span's rope on its nodes at the tensions of its pieces, and what they add to the
    /// nodes' changes: a node takes its neighbours along by the mass between them.
    pub fn pull(&mut self, pieces: &[MeshPiece], horizontal_n: impl Fn(usize) -> Pair) {
        let (rate, fall_m) = (self.rate, self.fall_m);
        let mut work_j = NONE;
        // From the right, so that a node has the forces of both its segments. What comes first is the
        // support, which they do not move.
        let (mut right_n, mut right_damping_n) = (NONE, NONE);
        let (mut right_gain_m, mut right_coupling_n) = (NONE, NONE);
        let mut right: Option<usize> = None;
        for (k, piece) in pieces.iter().enumerate().rev() {
            let horizontal_n = horizontal_n(k);
            let nodes = piece.first_node + 1..=piece.first_node + piece.segments;
            for n in nodes.rev() {
                let knot = &mut self.knots[n];
                let vertical_n = horizontal_n * knot.tangent;
                let damping_n = rate * (vertical_n - knot.vertical_n);
                let damped_n = vertical_n + damping_n;
                knot.vertical_n = vertical_n;
                let gain_m = match right {
                    None => NONE,
                    Some(_) => knot.kick_m_per_n * (right_n - damped_n) + fall_m,
                };
                work_j += (damping_n - right_damping_n) * knot.change_m;
                if let Some(at) = right {
                    let right = &mut self.knots[at];
                    let coupling_n = right.coupling_n_per_m * (right_gain_m - gain_m);
                    right.gain_m =
                        right_gain_m + right.kick_m_per_n * (coupling_n - right_coupling_n);
                    right_coupling_n = coupling_n;
                }
                right_n = damped_n;
                right_damping_n = damping_n;
                right_gain_m = gain_m;
                right = Some(n);
            }
        }
        if let Some(at) = right {
            let right = &mut self.knots[at];
            let coupling_n = right.coupling_n_per_m * right_gain_m;
            right.gain_m = right_gain_m + right.kick_m_per_n * (coupling_n - right_coupling_n);
        }
        self.damping_work_j += work_j;
    }

    /// A force on a node, N; one on a support moves nothing.
    #[inline]
    pub fn add(&mut self, node: usize, force_n: Pair) {
        let three = node.saturating_sub(1)..node + 2;
        let Some([left, knot, right]) = self.knots.get_mut(three) else {
            return;
        };
        let gain_m = knot.kick_m_per_n * force_n;
        let left_n = knot.coupling_n_per_m * gain_m;
        let right_n = right.coupling_n_per_m * gain_m;
        left.gain_m -= left.kick_m_per_n * left_n;
        knot.gain_m += gain_m + knot.kick_m_per_n * (left_n + right_n);
        right.gain_m -= right.kick_m_per_n * right_n;
    }

    /// Deflection of a node, m.
    #[inline]
    pub fn z_m(&self, node: usize) -> Pair {
        self.knots[node].z_m
    }

    /// Change of a node's deflection in the last step, m.
    pub fn change_m(&self, node: usize) -> Pair {
        self.knots[node].change_m
    }

    /// Kinetic energy of a span's nodes now, J: half the sum of their momenta times their speeds.
    pub fn kinetic_j(&self, span: &MeshSpan, side: usize) -> f64 {
        // The momentum comes from the speed by sweeps, each of which leaves a sixtieth of the error.
        const SWEEPS: usize = 9;
        let knots = &self.knots[span.first_node..=span.first_node + span.segments];
        let change_m = |knot: &Knot| {
            let now_m = knot.change_m + knot.gain_m * Pair::splat(0.5);
            of(now_m, side)
        };
        // Momentum over the node's own mass, m a step.
        let mut carried_m: Vec<f64> = knots.iter().map(change_m).collect();
        let mut twice_j = 0.0;
        for sweep in 1..=SWEEPS {
            for j in 1..span.segments {
                let kick = of(knots[j].kick_m_per_n, side);
                let left = kick * of(knots[j].coupling_n_per_m, side);
                let right = kick * of(knots[j + 1].coupling_n_per_m, side);
                let beside_m = left * carried_m[j - 1] + right * carried_m[j + 1];
                let change_m = change_m(&knots[j]);
                carried_m[j] = (change_m + beside_m) / (1.0 + left + right);
                if sweep == SWEEPS {
                    twice_j += carried_m[j] * change_m / kick;
                }
            }
        }
        0.5 * twice_j
    }

    /// Vertical force without damping, N, of the segment on the left of a node.
    #[inline]
    pub fn vertical_n(&self, node: usize) -> Pair {
        self.knots[node].vertical_n
    }

    /// Secant of the angle of the segment on the left of a node.
    #[inline]
    pub fn secant(&self, node: usize) -> Pair {
        self.knots[node].secant
    }

    /// Work that a history's damping has taken so far, J.
    pub fn damping_work_j(&self, side: usize) -> f64 {
        of(self.damping_work_j, side)
    }
}

/// Sums over the segments of a span.
#[derive(Clone, Copy)]
pub(super) struct Sums {
    /// Rope times cosine, m.
    pub cosine_m: Pair,
    /// Rope times secant, m.
    pub secant_m: Pair,
    pub steepest: Pair,
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use super::*;
    use crate::case::{Case, Line, Worker};

    /// A whole wave of the mesh has the energy that sharing mass leaves it: its waves have the
    /// eigenvalues 2 − 2 cos(k π/n) of second differences, and 1 and as many parts of the mass that is
    /// shared times the speed for the same momentum.
    #[test]
    fn a_waves_energy_counts_the_mass_that_nodes_share() {
        let case = Case {
            line: Line {
                spans_m: vec![9.0],
                ..Line::default()
            },
            workers: vec![Worker {
                position_m: 4.5,
                ..Worker::default()
            }],
            ..Case::default()
        };
        let mut mesh = Mesh::of(&case, 1);
        let span = mesh.spans[0];
        let step_s = 1.0e-3;
        mesh.share(&case.line, step_s, 20.0e3);
        let part = mesh.coupling_kg[0] / mesh.nodes[1].mass_kg;
        assert!(part > 0.01, "{part}");
        let n = span.segments as f64;
        for wave in [1.0, 7.0, n - 1.0] {
            let mut strands = Strands::at_rest([&mesh; 2], Pair::splat(step_s), NONE);
            let mut lumped_j = 0.0;
            for j in 1..span.segments {
                let speed = (wave * PI * j as f64 / n).sin();
                strands.knots[j].change_m = Pair::splat(speed * step_s);
                lumped_j += 0.5 * mesh.nodes[j].mass_kg * speed * speed;
            }
            let differences = 2.0 - 2.0 * (wave * PI / n).cos();
            let expected_j = lumped_j / (1.0 + part * differences);
            let found_j = strands.kinetic_j(&span, 0);
            // A segment has a little more rope by its slope at rest.
            assert!((found_j / expected_j - 1.0).abs() < 1e-4, "{wave}");
        }
    }
}
