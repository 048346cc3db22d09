//! The nodes and segments of one, two or four histories side by side.
//!
//! Of histories whose lines are cut alike, the numbers of one node or segment lie next to each
//! other: entry `i * sides + side`. Every loop runs over whole rows of them, without a branch, so
//! the compiler keeps several numbers in one wide register where there are any. A history has the
//! same bits however many run beside it: its sums are taken in the same order, segments apart by
//! [`LANES`] first.

use alloc::vec;
use alloc::vec::Vec;

use super::rope::{Sums, padded};
use super::{COSINE_MIN, NEAR_MAX};
use crate::constants::GRAVITY_M_PER_S2;
use crate::mesh::{LANES, Mesh, MeshSpan};

/// Most histories side by side.
pub(super) const SIDES_MAX: usize = LANES;

/// One number a history.
pub(super) type Each = [f64; SIDES_MAX];

/// Nodes and segments of the histories of a bundle.
pub(super) struct Strands {
    /// Histories side by side: 1, 2 or 4.
    sides: usize,
    /// Of every node: deflection, m; its change in the last step, m; force of rope and gear, N;
    /// what a force adds to the change in a step, m/N, and what gravity adds, m (0 at supports).
    pub z_m: Vec<f64>,
    pub change_m: Vec<f64>,
    pub pull_n: Vec<f64>,
    kick_m_per_n: Vec<f64>,
    fall_m: Vec<f64>,
    /// Of every segment: rope, m (0 where a group is filled up); its reciprocal (0 there, and where
    /// the in-line absorber's extension gives the segment a law of its own).
    rope_m: Vec<f64>,
    per_rope_per_m: Vec<f64>,
    /// Secant of every segment's angle in the last step and in this one.
    near: Vec<f64>,
    secants: Vec<f64>,
    tangents: Vec<f64>,
    /// Rope times cosine and times secant, m; how far the last secant was off.
    cosine_m: Vec<f64>,
    secant_m: Vec<f64>,
    off: Vec<f64>,
    /// Vertical force of every segment without damping, with it, N, and the work that damping has
    /// taken so far, J; damping time over the step.
    vertical_n: Vec<f64>,
    damped_n: Vec<f64>,
    work_j: Vec<f64>,
    rate: Vec<f64>,
    /// Numbers of each history, repeated for every segment of a span.
    first: Vec<f64>,
    second: Vec<f64>,
}

impl Strands {
    /// Room for `sides` histories cut like `mesh`: nothing moves in it.
    pub fn new(mesh: &Mesh, sides: usize) -> Self {
        let nodes = mesh.nodes.len() * sides;
        let segments = mesh.rope_m.len() * sides;
        let longest = mesh.spans.iter().map(padded).max().unwrap_or(0) * sides;
        let none = |count: usize| vec![0.0; count];
        // Behind the last node there is room for whole groups of segments.
        let behind = LANES * sides;
        Self {
            sides,
            z_m: none(nodes + behind),
            change_m: none(nodes + behind),
            pull_n: none(nodes),
            kick_m_per_n: none(nodes),
            fall_m: none(nodes),
            rope_m: none(segments),
            per_rope_per_m: none(segments),
            near: vec![1.0; segments],
            secants: vec![1.0; segments],
            tangents: none(segments),
            cosine_m: none(segments),
            secant_m: none(segments),
            off: none(segments),
            vertical_n: none(segments),
            damped_n: none(segments),
            work_j: none(segments),
            rate: none(segments),
            first: none(longest),
            second: none(longest),
        }
    }

    /// Lays a history at rest on its side. `step_s`: its step; `damping_s`: its damping.
    pub fn lay(&mut self, side: usize, mesh: &Mesh, step_s: f64, damping_s: f64) {
        for (n, node) in mesh.nodes.iter().enumerate() {
            let at = self.at(n, side);
            self.z_m[at] = node.rest_m;
            let support = mesh
                .spans
                .iter()
                .any(|s| n == s.first_node || n == s.first_node + s.segments);
            if !support {
                self.kick_m_per_n[at] = step_s * step_s / node.mass_kg;
                self.fall_m[at] = step_s * step_s * GRAVITY_M_PER_S2;
            }
        }
        for (s, (&rope_m, &vertical_n)) in mesh.rope_m.iter().zip(&mesh.rest_vertical_n).enumerate()
        {
            let at = self.at(s, side);
            self.rope_m[at] = rope_m;
            self.per_rope_per_m[at] = if rope_m > 0.0 { 1.0 / rope_m } else { 0.0 };
            self.vertical_n[at] = vertical_n;
            self.rate[at] = damping_s / step_s;
        }
    }

    /// Histories that there is room for.
    pub fn sides(&self) -> usize {
        self.sides
    }

    /// Place of a node's or a segment's number of one history.
    #[inline]
    pub fn at(&self, index: usize, side: usize) -> usize {
        index * self.sides + side
    }

    /// What stands still from now on, whatever pulls at it.
    pub fn stop(&mut self, side: usize) {
        for n in 0..self.pull_n.len() / self.sides {
            let at = self.at(n, side);
            self.change_m[at] = 0.0;
            self.kick_m_per_n[at] = 0.0;
            self.fall_m[at] = 0.0;
        }
    }

    /// Kick and drift of all nodes.
    pub fn advance(&mut self) {
        let count = self.pull_n.len();
        let (z, change) = (&mut self.z_m[..count], &mut self.change_m[..count]);
        let (pull, kick) = (&self.pull_n[..count], &self.kick_m_per_n[..count]);
        let fall = &self.fall_m[..count];
        for i in 0..count {
            let now = change[i] + (pull[i] * kick[i] + fall[i]);
            change[i] = now;
            z[i] += now;
        }
    }

    /// Angles of the segments of a span at these strains and with this rope over that at rest.
    ///
    /// The secant starts from that of the last step, both in the share of the strain along the
    /// segment and for the root, a binomial series: it spares the loop roots and divisions, and
    /// WebAssembly would take a root in software. Where it is too far off it is taken anew.
    pub fn look(&mut self, span: &MeshSpan, strain: &Each, fill: &Each) -> Sums {
        // 1/(1 + ε/c) by its tangent at c = 1, constant and rate with 1/c, over the fill.
        let (mut constant, mut rate) = ([0.0; SIDES_MAX], [0.0; SIDES_MAX]);
        for i in 0..SIDES_MAX {
            let level = 1.0 / (1.0 + strain[i]);
            let per_fill = 1.0 / fill[i];
            let by_secant = strain[i] * level * level;
            constant[i] = (level + by_secant) * per_fill;
            rate[i] = by_secant * per_fill;
        }
        let count = padded(span) * self.sides;
        repeat(&mut self.first[..count], &constant);
        repeat(&mut self.second[..count], &rate);
        self.angles(span);
        let (mut sums, off) = self.sums(span);
        let mut anew = false;
        for side in 0..self.sides {
            // A number that is none is not off: it makes the steepest secant.
            if off[side] > NEAR_MAX {
                self.secants_anew(span, side, strain[side], fill[side]);
                anew = true;
            }
        }
        if anew {
            self.angles(span);
            (sums, _) = self.sums(span);
        }
        sums
    }

    /// Segments of a span, those that fill it up included, as places in the rows.
    fn range(&self, span: &MeshSpan) -> core::ops::Range<usize> {
        let first = span.first_segment * self.sides;
        first..first + padded(span) * self.sides
    }

    fn angles(&mut self, span: &MeshSpan) {
        let range = self.range(span);
        let node = span.first_node * self.sides;
        let count = range.len();
        angles(
            &self.z_m[node..node + count],
            &self.z_m[node + self.sides..node + self.sides + count],
            [
                &self.rope_m[range.clone()],
                &self.per_rope_per_m[range.clone()],
                &self.near[range.clone()],
                &self.first[..count],
                &self.second[..count],
            ],
            &mut self.secants[range.clone()],
            &mut self.tangents[range.clone()],
            &mut self.cosine_m[range.clone()],
            &mut self.secant_m[range.clone()],
            &mut self.off[range],
        );
    }

    /// Sums over a span, and how far the last secants were off at most.
    fn sums(&self, span: &MeshSpan) -> (Sums, Each) {
        let range = self.range(span);
        let last = self.at(span.first_segment + span.segments - 1, 0);
        let sums = Sums {
            cosine_m: self.total(&self.cosine_m[range.clone()]),
            secant_m: self.total(&self.secant_m[range.clone()]),
            steepest: self.greatest(&self.secants[range.clone()], 1.0),
            last_secant: self.row(&self.secants[last..]),
        };
        (sums, self.greatest(&self.off[range], 0.0))
    }

    /// The first numbers of a row, one a history; places without one repeat the first.
    fn row(&self, row: &[f64]) -> Each {
        let mask = self.sides - 1;
        core::array::from_fn(|i| row[i & mask])
    }

    /// Vertical force of a segment without damping, N.
    pub fn vertical_of_n(&self, segment: usize) -> Each {
        self.row(&self.vertical_n[self.at(segment, 0)..])
    }

    /// Sums over a row, one a history.
    fn total(&self, row: &[f64]) -> Each {
        match self.sides {
            1 => total::<{ LANES }>(row, 1),
            2 => total::<{ 2 * LANES }>(row, 2),
            _ => total::<{ 4 * LANES }>(row, 4),
        }
    }

    /// Greatest values of a row, one a history, and not below `least`.
    fn greatest(&self, row: &[f64], least: f64) -> Each {
        let mut most = [least; SIDES_MAX];
        for block in row.as_chunks::<SIDES_MAX>().0 {
            for i in 0..SIDES_MAX {
                most[i] = greater(block[i], most[i]);
            }
        }
        // Each place takes the greatest of those of its history, so that all of them have it.
        let mut apart = self.sides;
        while apart < SIDES_MAX {
            most = core::array::from_fn(|i| greater(most[i ^ apart], most[i]));
            apart *= 2;
        }
        most
    }

    /// The secants of one history's segments from roots, where the last ones are too far to start
    /// from.
    #[cold]
    fn secants_anew(&mut self, span: &MeshSpan, side: usize, strain: f64, fill: f64) {
        for j in 0..span.segments {
            let s = self.at(span.first_segment + j, side);
            let node = span.first_node + j;
            let dz = self.z_m[self.at(node + 1, side)] - self.z_m[self.at(node, side)];
            self.near[s] = if self.per_rope_per_m[s] > 0.0 {
                let rope_m = self.rope_m[s] * fill;
                1.0 / super::rope::sine_and_cosine(dz, rope_m, strain, 0.0).1
            } else {
                1.0
            };
        }
    }

    /// Rope of a history's segment at rest, m.
    pub fn rope_of_m(&self, segment: usize, side: usize) -> f64 {
        self.rope_m[self.at(segment, side)]
    }

    /// Gives a segment a law of its own: it counts as level until it is turned.
    pub fn release(&mut self, segment: usize, side: usize) {
        let at = self.at(segment, side);
        self.per_rope_per_m[at] = 0.0;
    }

    /// Turns a segment with a law of its own.
    pub fn turn(&mut self, segment: usize, side: usize, tangent: f64) {
        let at = self.at(segment, side);
        self.tangents[at] = tangent;
    }

    /// Forces of a span's rope on its nodes at these horizontal tensions. Supports get
    /// none.
    pub fn pull(&mut self, span: &MeshSpan, horizontal_n: &Each) {
        let range = self.range(span);
        let node = span.first_node * self.sides;
        let count = range.len();
        repeat(&mut self.first[..count], horizontal_n);
        forces(
            &self.change_m[node..node + count],
            &self.change_m[node + self.sides..node + self.sides + count],
            &self.tangents[range.clone()],
            &self.rate[range.clone()],
            &self.first[..count],
            &mut self.vertical_n[range.clone()],
            &mut self.damped_n[range.clone()],
            &mut self.work_j[range.clone()],
        );
        let damped = &self.damped_n[range];
        let inner = (span.segments - 1) * self.sides;
        let last = span.segments * self.sides;
        let pulls = &mut self.pull_n[node..node + last + self.sides];
        pulls[..self.sides].fill(0.0);
        pulls[last..].fill(0.0);
        let (left, right) = (&damped[..inner], &damped[self.sides..self.sides + inner]);
        let pulls = &mut pulls[self.sides..self.sides + inner];
        for i in 0..inner {
            pulls[i] = right[i] - left[i];
        }
    }

    /// Work that a history's damping has taken so far, J.
    pub fn damping_work_j(&self, side: usize) -> f64 {
        self.work_j.iter().skip(side).step_by(self.sides).sum()
    }

    /// This step's angles are the next one's start.
    pub fn turn_over(&mut self) {
        core::mem::swap(&mut self.near, &mut self.secants);
    }
}

/// The greater of two numbers; the second where one is none. One instruction, unlike `f64::max`.
#[inline]
pub(super) fn greater(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// Lays each history's number beside every segment of a row; places without a history repeat the
/// first ones.
fn repeat(row: &mut [f64], each: &Each) {
    for place in row.as_chunks_mut::<SIDES_MAX>().0 {
        *place = *each;
    }
}

/// Sums over a row in groups of `GROUP`, then over the parts of the groups.
#[inline]
fn total<const GROUP: usize>(row: &[f64], sides: usize) -> Each {
    let mut parts = [0.0; GROUP];
    for group in row.as_chunks::<GROUP>().0 {
        for i in 0..GROUP {
            parts[i] += group[i];
        }
    }
    // Places without a history repeat the first ones.
    core::array::from_fn(|i| {
        let side = i & (sides - 1);
        (0..LANES).fold(0.0, |sum, part| sum + parts[part * sides + side])
    })
}

/// Angles of segments between the levels `left` and `right`, given their rope at rest, its
/// reciprocal, the secants to start from, and what makes the sine of the slope over the rope: a
/// constant less a rate times the secant.
#[allow(clippy::too_many_arguments)] // Rows of numbers, and nothing but rows.
#[inline(never)]
fn angles(
    left: &[f64],
    right: &[f64],
    [rope, per_rope, near, constant, rate]: [&[f64]; 5],
    secants: &mut [f64],
    tangents: &mut [f64],
    cosine_m: &mut [f64],
    secant_m: &mut [f64],
    off: &mut [f64],
) {
    let count = rope.len();
    let (left, right, near) = (&left[..count], &right[..count], &near[..count]);
    let (per_rope, constant, rate) = (&per_rope[..count], &constant[..count], &rate[..count]);
    let (secants, tangents) = (&mut secants[..count], &mut tangents[..count]);
    let (cosine_m, secant_m) = (&mut cosine_m[..count], &mut secant_m[..count]);
    let off = &mut off[..count];
    for i in 0..count {
        let n = near[i];
        let s = (right[i] - left[i]) * per_rope[i] * (constant[i] - rate[i] * n);
        let y = greater(1.0 - s * s, COSINE_MIN * COSINE_MIN);
        // 1/√y, the series in steps that do not wait for each other.
        let e = y * (n * n) - 1.0;
        let ee = e * e;
        let secant = n * ((1.0 - 0.5 * e) + ee * ((0.375 - 0.3125 * e) + 0.273_437_5 * ee));
        off[i] = e.abs();
        secants[i] = secant;
        tangents[i] = s * secant;
        cosine_m[i] = rope[i] * (y * secant);
        secant_m[i] = rope[i] * secant;
    }
}

/// Vertical forces of segments with these tangents under horizontal tension, from the last ones in
/// `vertical`; with damping; adds its work, from the change of level of their ends.
#[allow(clippy::too_many_arguments)] // Rows of numbers, and nothing but rows.
#[inline(never)]
fn forces(
    left: &[f64],
    right: &[f64],
    tangents: &[f64],
    rate: &[f64],
    horizontal: &[f64],
    vertical: &mut [f64],
    damped: &mut [f64],
    work: &mut [f64],
) {
    let count = tangents.len();
    let (left, right, rate) = (&left[..count], &right[..count], &rate[..count]);
    let (horizontal, vertical) = (&horizontal[..count], &mut vertical[..count]);
    let (damped, work) = (&mut damped[..count], &mut work[..count]);
    for i in 0..count {
        let now = horizontal[i] * tangents[i];
        let damping = rate[i] * (now - vertical[i]);
        vertical[i] = now;
        damped[i] = now + damping;
        work[i] += damping * (right[i] - left[i]);
    }
}
