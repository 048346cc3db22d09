//! Greatest values of two histories: tension and the forces on the supports.

use alloc::vec;
use alloc::vec::Vec;

use wide::CmpGt;

use super::pair::{NONE, ONE, Pair, SIDES, greater, of};
use super::rope::Ropes;
use super::strands::Strands;
use crate::case::Line;
use crate::maths::sqrt;
use crate::mesh::MeshSpan;
use crate::solve::SupportPeak;

/// Greatest values so far.
pub(super) struct Peaks {
    /// Tension, N, and its time, s; horizontal tension, N; secant.
    pub tension_n: Pair,
    pub time_s: Pair,
    pub horizontal_n: Pair,
    pub steepest: Pair,
    /// Horizontal tension at the left and the right end, N.
    pub ends_n: [Pair; 2],
    supports: Vec<Support>,
    spans: Vec<Sides>,
    /// Nobody falls on some span.
    idle: bool,
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
enum Sides {
    /// Its place among the loaded spans, and the nodes on the right of its first and of its last
    /// segment.
    Loaded(usize, usize, usize),
    /// Half its weight, N.
    Idle(Pair),
}

impl Peaks {
    /// Nothing yet, on lines whose loaded spans these are.
    pub fn new(lines: [&Line; SIDES], loaded: &[MeshSpan]) -> Self {
        let of_span = |at: usize| match loaded.iter().enumerate().find(|(_, s)| s.span == at) {
            Some((k, span)) => {
                Sides::Loaded(k, span.first_node + 1, span.first_node + span.segments)
            }
            None => Sides::Idle(Pair::new(
                lines.map(|line| 0.5 * line.weight_n_per_m() * line.spans_m[at]),
            )),
        };
        let none = Support {
            vertical_n: NONE,
            along_n: NONE,
            square_n2: NONE,
        };
        let spans = lines[0].spans_m.len();
        Self {
            tension_n: NONE,
            time_s: NONE,
            horizontal_n: NONE,
            steepest: ONE,
            ends_n: [NONE; 2],
            supports: vec![none; spans + 1],
            spans: (0..spans).map(of_span).collect(),
            idle: loaded.len() < spans,
        }
    }

    /// Takes the values of this step.
    pub fn watch(&mut self, now_s: Pair, ropes: &Ropes, strands: &Strands) {
        for span in &ropes.spans {
            let tension_n = span.horizontal_n * span.steepest;
            let more = tension_n.cmp_gt(self.tension_n);
            self.tension_n = greater(tension_n, self.tension_n);
            self.time_s = more.blend(now_s, self.time_s);
            self.horizontal_n = greater(span.horizontal_n, self.horizontal_n);
            self.steepest = greater(span.steepest, self.steepest);
        }
        for (most, now) in self.ends_n.iter_mut().zip(ropes.end_horizontals_n()) {
            *most = greater(now, *most);
        }
        if self.idle {
            self.horizontal_n = greater(ropes.tension_n, self.horizontal_n);
        }
        // Downward and along the line from the span on the left.
        let (mut below_n, mut before_n) = (NONE, NONE);
        let mut idle_before = false;
        for (at, support) in self.supports.iter_mut().enumerate() {
            let (mut left_n, mut right_n, mut along_n) = (NONE, NONE, NONE);
            let mut idle = false;
            match self.spans.get(at) {
                Some(Sides::Loaded(k, first, last)) => {
                    left_n = strands.vertical_n(*first);
                    right_n = -strands.vertical_n(*last);
                    along_n = ropes.spans[*k].horizontal_n;
                }
                Some(Sides::Idle(weight_n)) => {
                    (left_n, right_n) = (*weight_n, *weight_n);
                    along_n = ropes.tension_n;
                    idle = true;
                }
                None => {}
            }
            // Between two spans on which nobody falls it is always the same.
            let known = idle && idle_before && of(support.vertical_n, 0) > 0.0;
            if !known {
                let (vertical_n, horizontal_n) = (below_n + left_n, along_n - before_n);
                let square_n2 = horizontal_n * horizontal_n + vertical_n * vertical_n;
                support.vertical_n = greater(vertical_n, support.vertical_n);
                support.along_n = greater(horizontal_n.abs(), support.along_n);
                support.square_n2 = greater(square_n2, support.square_n2);
            }
            (below_n, before_n, idle_before) = (right_n, along_n, idle);
        }
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
