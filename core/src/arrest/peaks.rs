//! Greatest values of two histories: tension and the forces on the supports.

use alloc::vec;
use alloc::vec::Vec;

use wide::CmpGt;

use super::pair::{NONE, ONE, Pair, greater, of};
use super::rope::Ropes;
use super::sag::Sag;
use super::strands::Strands;
use crate::maths::sqrt;
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

/// The rope on one side of a support: horizontal tension, tension and downward force on the support, N, and
/// half of what the cosine of its angle lacks to 1.
#[derive(Clone, Copy)]
struct Side {
    horizontal_n: Pair,
    tension_n: Pair,
    down_n: Pair,
    half_lean: Pair,
}

impl Side {
    const NONE: Self = Self {
        horizontal_n: NONE,
        tension_n: NONE,
        down_n: NONE,
        half_lean: NONE,
    };

    /// Of a span on which somebody falls, by the segment on the left of a node; `down`: 1 where it
    /// descends from the support, −1 where it rises to it.
    #[inline]
    fn loaded(strands: &Strands, node: usize, horizontal_n: Pair, down: Pair) -> Self {
        let secant = strands.secant(node);
        Self {
            horizontal_n,
            tension_n: horizontal_n * secant,
            down_n: strands.vertical_n(node) * down,
            half_lean: Pair::splat(0.5) - Pair::splat(0.5) / secant,
        }
    }

    /// Of a span on which nobody falls: its slope is some hundredths, of which the square counts.
    #[inline]
    fn idle(horizontal_n: Pair, sag: &Sag) -> Self {
        Self {
            horizontal_n,
            tension_n: horizontal_n,
            down_n: horizontal_n * sag.slope + sag.rest_n,
            half_lean: Pair::splat(0.25) * sag.slope * sag.slope,
        }
    }
}

/// Pull along the line on a post over which the rope runs freely, N: one tension on both sides, so what is
/// left of it goes by the angles. The tensions of the pieces beside it differ by what moves the rope over
/// it, which the post does not feel.
#[inline]
fn along_post_n(left: &Side, right: &Side) -> Pair {
    (left.tension_n + right.tension_n) * (left.half_lean - right.half_lean)
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
        let last = self.supports.len() - 1;
        // What the span on the left does.
        let mut before = Side::NONE;
        for (at, support) in self.supports.iter_mut().enumerate() {
            let (mut here, mut next) = (Side::NONE, Side::NONE);
            if let Some(span) = self.spans.get(at) {
                let [first_n, last_n] =
                    [span.pieces.0, span.pieces.1].map(|piece| ropes.pieces[piece].horizontal_n);
                (here, next) = match span.falls {
                    Falls::None(sag) => {
                        let sag = &ropes.sags[sag];
                        (Side::idle(first_n, sag), Side::idle(last_n, sag))
                    }
                    Falls::Between(first, last) => (
                        Side::loaded(strands, first, first_n, ONE),
                        Side::loaded(strands, last, last_n, -ONE),
                    ),
                };
            }
            let vertical_n = before.down_n + here.down_n;
            support.vertical_n = greater(vertical_n, support.vertical_n);
            if at == 0 || at == last {
                let horizontal_n = here.horizontal_n - before.horizontal_n;
                support.along_n = greater(horizontal_n.abs(), support.along_n);
                let square_n2 = horizontal_n * horizontal_n + vertical_n * vertical_n;
                support.square_n2 = greater(square_n2, support.square_n2);
            } else {
                let along_n = along_post_n(&before, &here);
                support.along_n = greater(along_n.abs(), support.along_n);
            }
            before = next;
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
