//! Greatest values of two histories: tension and the forces on the supports.

use alloc::vec;
use alloc::vec::Vec;

use wide::CmpGt;

use super::pair::{NONE, ONE, Pair, greater, of};
use super::rope::Ropes;
use super::sag::Sag;
use super::strands::Strands;
use crate::maths::{roots, sqrt};
use crate::mesh::{Mesh, MeshPiece};
use crate::outcome::SupportPeak;

/// Greatest values so far.
pub(super) struct Peaks {
    /// Tension, N, and its time, s; horizontal tension, N; secant.
    pub tension_n: Pair,
    pub time_s: Pair,
    pub horizontal_n: Pair,
    pub steepest: Pair,
    supports: Vec<Support>,
    spans: Vec<Sides>,
}

/// Of one support.
#[derive(Clone, Copy)]
struct Support {
    /// Downward and horizontal force, N.
    vertical_n: Pair,
    along_n: Pair,
    /// Square of their sum, N²; only at the ends is that of use.
    square_n2: Pair,
}

/// Where the forces of a span on its supports come from.
struct Sides {
    /// Its first and its last piece.
    pieces: (usize, usize),
    falls: Falls,
}

/// Who falls on a span.
enum Falls {
    /// Nobody: its place among such spans.
    None(usize),
    /// Somebody: the nodes on the right of its first and of its last segment.
    Between(usize, usize),
}

/// Pull along the line on a post over which the rope runs freely, N, from the horizontal tension and the
/// vertical force, N, on its left and its right: one tension on both sides, so what is left of it goes
/// by the angles. The tensions of the pieces beside it differ by what moves the rope over it, which the
/// post does not feel.
#[inline]
fn along_post_n(left: (Pair, Pair), right: (Pair, Pair)) -> Pair {
    let least = Pair::splat(f64::MIN_POSITIVE);
    let of_side = |(horizontal_n, vertical_n): (Pair, Pair)| {
        let tension_n = roots(horizontal_n * horizontal_n + vertical_n * vertical_n);
        (tension_n, horizontal_n / greater(tension_n, least))
    };
    let ((left_n, left_cosine), (right_n, right_cosine)) = (of_side(left), of_side(right));
    Pair::splat(0.5) * (left_n + right_n) * (right_cosine - left_cosine)
}

impl Peaks {
    /// Nothing yet, on a line of so many spans, cut so.
    pub fn new(spans: usize, mesh: &Mesh) -> Self {
        let mut idle = 0;
        let of_span = |at: usize| {
            let in_span = |p: &MeshPiece| p.span == at;
            let first = mesh.pieces.iter().position(in_span).unwrap_or(0);
            let last = mesh.pieces.iter().rposition(in_span).unwrap_or(0);
            let (a, b) = (&mesh.pieces[first], &mesh.pieces[last]);
            let falls = if a.is_idle() {
                idle += 1;
                Falls::None(idle - 1)
            } else {
                Falls::Between(a.first_node + 1, b.first_node + b.segments)
            };
            Sides {
                pieces: (first, last),
                falls,
            }
        };
        let none = Support {
            vertical_n: NONE,
            along_n: NONE,
            square_n2: NONE,
        };
        Self {
            tension_n: NONE,
            time_s: NONE,
            horizontal_n: NONE,
            steepest: ONE,
            supports: vec![none; spans + 1],
            spans: (0..spans).map(of_span).collect(),
        }
    }

    /// Takes the values of this step.
    pub fn watch(&mut self, now_s: Pair, ropes: &Ropes, strands: &Strands) {
        let (mut tension_n, mut horizontal_n) = (NONE, NONE);
        for piece in &ropes.pieces {
            horizontal_n = greater(piece.horizontal_n, horizontal_n);
            if !piece.idle {
                tension_n = greater(piece.tension_n(), tension_n);
                self.steepest = greater(piece.steepest, self.steepest);
            }
        }
        // Where nobody falls the rope is as good as level once it is taut.
        tension_n = greater(horizontal_n, tension_n);
        self.time_s = tension_n.cmp_gt(self.tension_n).blend(now_s, self.time_s);
        self.tension_n = greater(tension_n, self.tension_n);
        self.horizontal_n = greater(horizontal_n, self.horizontal_n);
        // Downward and along the line from the span on the left.
        let (mut below_n, mut before_n) = (NONE, NONE);
        let last = self.supports.len() - 1;
        for (at, support) in self.supports.iter_mut().enumerate() {
            let (mut left_n, mut right_n) = (NONE, NONE);
            let (mut along_n, mut along_right_n) = (NONE, NONE);
            if let Some(span) = self.spans.get(at) {
                along_n = ropes.pieces[span.pieces.0].horizontal_n;
                along_right_n = ropes.pieces[span.pieces.1].horizontal_n;
                (left_n, right_n) = match span.falls {
                    Falls::None(sag) => {
                        let Sag { slope, rest_n, .. } = ropes.sags[sag];
                        (along_n * slope + rest_n, along_right_n * slope + rest_n)
                    }
                    Falls::Between(first, last) => {
                        (strands.vertical_n(first), -strands.vertical_n(last))
                    }
                };
            }
            let vertical_n = below_n + left_n;
            let horizontal_n = if at == 0 || at == last {
                along_n - before_n
            } else {
                along_post_n((before_n, below_n), (along_n, left_n))
            };
            support.vertical_n = greater(vertical_n, support.vertical_n);
            support.along_n = greater(horizontal_n.abs(), support.along_n);
            if at == 0 || at == last {
                let square_n2 = horizontal_n * horizontal_n + vertical_n * vertical_n;
                support.square_n2 = greater(square_n2, support.square_n2);
            }
            (below_n, before_n) = (right_n, along_right_n);
        }
    }

    /// Greatest horizontal tension at the left and the right end, N.
    pub fn ends_n(&self, side: usize) -> [f64; 2] {
        let ends = [self.supports.first(), self.supports.last()];
        ends.map(|end| end.map_or(0.0, |end| of(end.along_n, side)))
    }

    /// Of one history, left to right.
    pub fn supports(&self, side: usize) -> Vec<SupportPeak> {
        let last = self.supports.len() - 1;
        let ends = |i: usize| i == 0 || i == last;
        self.supports
            .iter()
            .enumerate()
            .map(|(i, support)| SupportPeak {
                vertical_max_n: of(support.vertical_n, side),
                horizontal_max_n: of(support.along_n, side),
                tension_max_n: if ends(i) {
                    sqrt(of(support.square_n2, side))
                } else {
                    0.0
                },
            })
            .collect()
    }
}
