//! The sag of a span on which nobody falls, as the first waves of a string that are symmetric.
//!
//! z(x) = Σ a_n sin(nπx/L), n = 1, 3. The bow is longer than the span by Σ n²π² a_n²/(4L), and
//! each wave has half the mass of the rope. The tension of the span, the mean of that of its pieces,
//! moves every wave by itself.
//!
//! # Source
//! Waves of a string: any textbook of mechanics.

use alloc::vec::Vec;
use core::array::from_fn;
use core::f64::consts::{FRAC_1_SQRT_2, PI};

use super::pair::{NONE, ONE, Pair, SIDES, of, with};
use crate::case::Line;
use crate::mesh::{Mesh, MeshPiece};

/// Orders of the waves.
const ORDERS: [f64; 1] = [1.0];

/// The sag of one span of two histories.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sag {
    /// Its pieces: the first, and the one behind the last; 1 over their number.
    pub pieces: (usize, usize),
    pub share: Pair,
    waves: [Wave; ORDERS.len()],
    /// What a force on a wave adds to its change, m/N.
    kick_m_per_n: Pair,
    /// Force on a support that the waves left out make, N.
    pub rest_n: Pair,
    /// Slope at the supports, and that of a first wave 1 m high, 1/m.
    pub slope: Pair,
    slope_per_m: Pair,
    /// Rate of the tension's force on a first wave with its height, 1/m; half of it is what a bow 1 m
    /// high is longer, over the square of its height.
    stiffness_per_m: Pair,
    /// Damping time over the step, and the work that damping has taken so far, J.
    rate: Pair,
    damping_work_j: Pair,
}

/// One wave.
#[derive(Clone, Copy, Debug)]
struct Wave {
    /// Height, m, its change in the last step, and what the next step adds to the change, m.
    height_m: Pair,
    change_m: Pair,
    gain_m: Pair,
    /// Force of the tension against it, without damping, N.
    lift_n: Pair,
    /// Force of the weight on it, N.
    weight_n: Pair,
}

impl Sag {
    /// Every span on which nobody falls, at rest.
    pub fn all(lines: [(&Line, &Mesh); SIDES], step_s: Pair, damping_s: Pair) -> Vec<Self> {
        let each = |what: &dyn Fn(&Line, &Mesh) -> f64| {
            Pair::new(lines.map(|(line, mesh)| what(line, mesh)))
        };
        let pieces = &lines[0].1.pieces;
        let mut sags: Vec<Self> = Vec::new();
        for (k, piece) in pieces.iter().enumerate() {
            let span = piece.span;
            let begins = k == 0 || pieces[k - 1].span != span;
            if !piece.is_idle() || !begins {
                continue;
            }
            let count = pieces[k..].iter().take_while(|p| p.span == span).count();
            let length_m = each(&|line, _| line.spans_m[span]);
            let mass_kg =
                each(&|line, _| 0.5 * line.rope.mass_per_length_kg_per_m * line.spans_m[span]);
            let stiffness_per_m = Pair::splat(0.5 * PI * PI) / length_m;
            sags.push(Self {
                pieces: (k, k + count),
                share: ONE / Pair::splat(count as f64),
                waves: from_fn(|i| Wave {
                    height_m: each(&|line, _| height_m(line, span, ORDERS[i])),
                    change_m: NONE,
                    gain_m: NONE,
                    lift_n: NONE,
                    weight_n: each(&|line, _| weight_n(line, span, ORDERS[i])),
                }),
                kick_m_per_n: step_s * step_s / mass_kg,
                rest_n: each(&|line, _| {
                    let taken: f64 = ORDERS.iter().map(|order| 1.0 / (order * order)).sum();
                    let half_n = 0.5 * line.weight_n_per_m() * line.spans_m[span];
                    half_n * (1.0 - 8.0 / (PI * PI) * taken)
                }),
                slope: NONE,
                slope_per_m: Pair::splat(PI) / length_m,
                stiffness_per_m,
                rate: damping_s / step_s,
                damping_work_j: NONE,
            });
        }
        sags
    }

    /// Kick and drift.
    #[inline]
    pub fn advance(&mut self) {
        let mut heights_m = NONE;
        for (wave, order) in self.waves.iter_mut().zip(ORDERS) {
            wave.change_m += wave.gain_m;
            wave.height_m += wave.change_m;
            heights_m += Pair::splat(order) * wave.height_m;
        }
        self.slope = heights_m * self.slope_per_m;
    }

    /// What the bow in each of its pieces is longer than the piece, m.
    #[inline]
    pub fn bow_m(&self) -> Pair {
        let mut squares_m2 = NONE;
        for (wave, order) in self.waves.iter().zip(ORDERS) {
            squares_m2 += Pair::splat(0.5 * order * order) * wave.height_m * wave.height_m;
        }
        squares_m2 * self.stiffness_per_m * self.share
    }

    #[inline]
    /// Takes the tension, N: what it and the weight add to the waves' changes.
    pub fn pull(&mut self, tension_n: Pair) {
        let by_height = tension_n * self.stiffness_per_m;
        let mut work_j = NONE;
        for (wave, order) in self.waves.iter_mut().zip(ORDERS) {
            let lift_n = Pair::splat(order * order) * by_height * wave.height_m;
            let damping_n = self.rate * (lift_n - wave.lift_n);
            work_j += damping_n * wave.change_m;
            wave.lift_n = lift_n;
            wave.gain_m = self.kick_m_per_n * (wave.weight_n - lift_n - damping_n);
        }
        self.damping_work_j += work_j;
    }

    /// One history stands still from now on.
    pub fn stop(&mut self, side: usize) {
        self.kick_m_per_n = with(self.kick_m_per_n, side, 0.0);
        for wave in &mut self.waves {
            wave.change_m = with(wave.change_m, side, 0.0);
            wave.gain_m = with(wave.gain_m, side, 0.0);
        }
    }

    /// Deflection of one history at an eighth of the span's length, m.
    pub fn deflection_m(&self, side: usize, eighth: usize) -> f64 {
        let waves = self.waves.iter().zip(ORDERS);
        waves
            .map(|(w, order)| of(w.height_m, side) * sine(order as usize * eighth))
            .sum()
    }

    /// Work of gravity on the sag, from a straight rope, J.
    pub fn weight_work_j(&self, side: usize) -> f64 {
        let work = |w: &Wave| of(w.weight_n * w.height_m, side);
        self.waves.iter().map(work).sum()
    }

    /// Kinetic energy now, J.
    pub fn kinetic_j(&self, side: usize) -> f64 {
        let half = Pair::splat(0.5);
        let of_one = |w: &Wave| {
            let now_m = w.change_m + half * w.gain_m;
            of(half * now_m * now_m / self.kick_m_per_n, side)
        };
        self.waves.iter().map(of_one).sum()
    }

    /// Work that damping has taken so far, J.
    pub fn damping_work_j(&self, side: usize) -> f64 {
        of(self.damping_work_j, side)
    }
}

/// Sine of an eighth of half a turn.
fn sine(eighth: usize) -> f64 {
    const SINES: [f64; 5] = [
        0.0,
        0.382_683_432_365_089_8,
        FRAC_1_SQRT_2,
        0.923_879_532_511_286_7,
        1.0,
    ];
    let within = eighth % 8;
    let sine = SINES[within.min(8 - within)];
    if eighth % 16 < 8 { sine } else { -sine }
}

/// Force of a span's weight on a wave, N.
fn weight_n(line: &Line, span: usize, order: f64) -> f64 {
    2.0 * line.weight_n_per_m() * line.spans_m[span] / (order * PI)
}

/// Height of a wave at rest, m.
fn height_m(line: &Line, span: usize, order: f64) -> f64 {
    let stiffness_n_per_m = 0.5 * order * order * PI * PI * line.pretension_n / line.spans_m[span];
    weight_n(line, span, order) / stiffness_n_per_m
}

/// Unstretched rope at rest in a piece of a span on which nobody falls, m.
pub(super) fn rope_at_rest_m(line: &Line, piece: &MeshPiece) -> f64 {
    let strain = line.pretension_n / line.rope.axial_stiffness_n;
    let bow_m: f64 = ORDERS
        .map(|order| {
            let height_m = height_m(line, piece.span, order);
            order * order * PI * PI * height_m * height_m / (4.0 * line.spans_m[piece.span])
        })
        .iter()
        .sum();
    let bow_m = bow_m * piece.length_m / line.spans_m[piece.span];
    (piece.length_m + bow_m) / (1.0 + strain)
}
