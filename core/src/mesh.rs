//! The loaded spans cut into segments of rope, with nodes at the workers' connectors.

use alloc::vec::Vec;

use crate::case::{Case, Line, Worker};
use crate::constants::GRAVITY_M_PER_S2;
use crate::maths::{ceil, clamp, sqrt};
use crate::order::sort;

/// Segment aimed at, m: the front of a wave that an absorber sends along the rope is some metres
/// long, whatever the span.
const SEGMENT_M: f64 = 0.45;
/// The same as a time, s: on a light rope that is very tight the fronts are longer. Lines in use
/// come below [`SEGMENT_M`] by it.
const SEGMENT_S: f64 = 2.0e-3;
/// Fewest and most segments in a loaded span at the standard resolution.
const SEGMENTS: (usize, usize) = (14, 96);
/// Shortest segment aimed at, m: shorter ones cost steps and tell nothing of a line this short.
const SEGMENT_LEAST_M: f64 = 0.2;
/// Fewest segments where the shortest ones would be fewer than the fewest.
const SEGMENTS_LEAST: usize = 6;

/// Segments for a span of this length at the standard resolution.
pub(crate) fn segments_for(line: &Line, length_m: f64) -> usize {
    let wave_m_per_s = sqrt(line.pretension_n / line.rope.mass_per_length_kg_per_m);
    let aim_m = SEGMENT_M.max(SEGMENT_S * wave_m_per_s);
    let wanted = (ceil(length_m / aim_m) as usize).clamp(SEGMENTS.0, SEGMENTS.1);
    let short = ((length_m / SEGMENT_LEAST_M) as usize).max(SEGMENTS_LEAST);
    wanted.min(short)
}

/// Part of the mass that neighbours share, of that by which their error would be of fourth order without
/// that of the step: half of what finite elements of linear shape share. The step's own error has the
/// other sign, and takes up the square of the way of a wave in a step over the distance of neighbours.
/// What is left there is shared (`Mesh::share`), so that the error is of fourth order at any step.
///
/// These are the parts at the longest steps, of nodes and of what moves along the rope.
///
/// Source: G. L. Goudreau and R. L. Taylor, Comput. Methods Appl. Mech. Eng. 2 (1973) 69, from memory.
pub(crate) const SHARED: f64 = 0.6;
pub(crate) const SHARED_ALONG: f64 = 0.5;

/// Tension of the waves that matter over the one that the step is chosen for: by comparison with finer
/// meshes.
const WAVE_TENSION: f64 = 0.42;

/// What is nearer to a support is at it, m.
const ONE_PLACE_M: f64 = 1.0e-3;
/// Least distance from a support of a connector that is not at it, as a part of the segments: nearer
/// ones are taken to be there, which is some millimetres.
const LEAST_FROM_SUPPORT: f64 = 0.02;
/// Least distance between nodes of their own for two connectors, as a part of the segments.
const LEAST_APART: f64 = 0.1;
/// Stiffness over mass of a node between segments that are not equal, times the mass of a segment
/// and its length: 2 between equal ones. A node whose mass is too small for it gets more: beside
/// the person who hangs there it is nothing, and the step need not be shorter.
const STIFF_MAX: f64 = 5.0;

/// A node's constants.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Node {
    /// Place at rest, m from the left end post.
    pub x_m: f64,
    /// Deflection at rest, m.
    pub rest_m: f64,
    /// Lumped mass of rope, kg.
    pub mass_kg: f64,
}

/// One span: its nodes run from `first_node` (a support) to `first_node + segments` (a support).
#[derive(Clone, Copy, Debug)]
pub(crate) struct MeshSpan {
    /// Index in the case.
    pub span: usize,
    /// First node; node j and j + 1 bound segment `first_segment + j`.
    pub first_node: usize,
    /// First segment.
    pub first_segment: usize,
    /// Number of segments.
    pub segments: usize,
    /// Its pieces: the first, and the one behind the last.
    pub pieces: (usize, usize),
}

/// A piece of rope with one horizontal tension: a loaded span or a part of one, from node to node, or
/// a whole span on which nobody falls, which has no nodes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct MeshPiece {
    /// Index of its span in the case.
    pub span: usize,
    /// Length along the line, m.
    pub length_m: f64,
    /// Unstretched rope at rest, m (0 where nobody falls), and the rope's mass, kg.
    pub rope_m: f64,
    pub mass_kg: f64,
    /// Mass by which one of its ends takes the other along, kg.
    pub coupling_kg: f64,
    /// First node; node j and j + 1 bound segment `first_segment + j`.
    pub first_node: usize,
    /// First segment.
    pub first_segment: usize,
    /// Number of segments; 0: nobody falls on the span.
    pub segments: usize,
}

impl MeshPiece {
    /// Nobody falls on its span.
    pub fn is_idle(&self) -> bool {
        self.segments == 0
    }
}

/// Where a worker's connector sits: a part of the way along a segment.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Attachment {
    /// Node on the left.
    pub node: usize,
    /// Part of the way from it to the next node, 0 to 1; a node is where workers are, unless two
    /// are too close for a segment between them.
    pub part: f64,
}

/// Everything that does not change during a run.
#[derive(Clone, Debug)]
pub(crate) struct Mesh {
    pub spans: Vec<MeshSpan>,
    /// Unstretched length of every segment, m.
    pub rope_m: Vec<f64>,
    /// Vertical component of the tension at rest, N, positive where the line descends.
    pub rest_vertical_n: Vec<f64>,
    pub nodes: Vec<Node>,
    /// Mass of every segment by which one of its nodes takes the other along, kg.
    pub coupling_kg: Vec<f64>,
    /// One a worker, in the order of the case; meaningful for those who fall.
    pub attachments: Vec<Attachment>,
    /// Pieces of rope with one tension each, left to right.
    pub pieces: Vec<MeshPiece>,
}

impl Mesh {
    /// Cuts the spans of the case; `refine` multiplies the number of segments.
    pub fn of(case: &Case, refine: usize) -> Self {
        let mut mesh = Self {
            spans: Vec::new(),
            rope_m: Vec::new(),
            rest_vertical_n: Vec::new(),
            nodes: Vec::new(),
            coupling_kg: Vec::new(),
            attachments: alloc::vec![Attachment::default(); case.workers.len()],
            pieces: Vec::new(),
        };
        let mut start = 0.0;
        for (span, &length_m) in case.line.spans_m.iter().enumerate() {
            let mut here: Vec<(usize, f64)> = case
                .workers
                .iter()
                .enumerate()
                .filter(|(_, w)| w.fall_time_s.is_some())
                .map(|(i, w)| (i, case.line.locate(w.position_m)))
                .filter(|(_, at)| at.0 == span)
                .map(|(i, at)| (i, kept_off(&case.line, at.1, length_m)))
                .collect();
            if here.is_empty() {
                // Farther from a fall a span does as well whole, unless waves come back from an in-line
                // absorber.
                let beside = |w: &Worker| {
                    w.fall_time_s.is_some() && case.line.locate(w.position_m).0.abs_diff(span) == 1
                };
                let rings = case.line.inline_absorber.is_some();
                let pieces = if rings || case.workers.iter().any(beside) {
                    pieces_for(&case.line, length_m)
                } else {
                    1
                };
                let length_m = length_m / pieces as f64;
                for _ in 0..pieces {
                    mesh.pieces.push(MeshPiece {
                        span,
                        length_m,
                        rope_m: 0.0,
                        mass_kg: case.line.rope.mass_per_length_kg_per_m * length_m,
                        coupling_kg: 0.0,
                        first_node: 0,
                        first_segment: 0,
                        segments: 0,
                    });
                }
            } else {
                sort(&mut here, |a, b| a.1.total_cmp(&b.1).is_lt());
                mesh.add_span(
                    case,
                    span,
                    start,
                    length_m,
                    &here,
                    segments_for(&case.line, length_m) * refine,
                );
            }
            start += length_m;
        }
        mesh
    }

    fn add_span(
        &mut self,
        case: &Case,
        span: usize,
        start_m: f64,
        length_m: f64,
        here: &[(usize, f64)],
        segments: usize,
    ) {
        let first_node = self.nodes.len();
        let first_segment = self.rope_m.len();
        let cut_places = cut_places(&case.line, length_m, here);
        let xs = cuts(length_m, here, &cut_places, segments);
        for &(worker, x) in here {
            let (node, part) = attach(&xs, x);
            self.attachments[worker] = Attachment {
                node: first_node + node,
                part,
            };
        }
        let h = case.line.pretension_n;
        let strain = h / case.line.rope.axial_stiffness_n;
        let mu = case.line.rope.mass_per_length_kg_per_m;
        // Rope of every piece at rest; its own weight changes its slope by less than 1e-3.
        let rope: Vec<f64> = xs
            .windows(2)
            .map(|p| (p[1] - p[0]) / (1.0 + strain))
            .collect();
        let target_m = length_m / segments as f64;
        let mass = |node: usize| {
            let left = if node > 0 { rope[node - 1] } else { 0.0 };
            let right = rope.get(node).copied().unwrap_or(0.0);
            let own_kg = 0.5 * mu * (left + right);
            // Mass that keeps a short segment's frequency within that of the longer ones.
            let kept_kg = mu * target_m * target_m * (1.0 / left + 1.0 / right) / STIFF_MAX;
            if left > 0.0 && right > 0.0 {
                own_kg.max(kept_kg)
            } else {
                own_kg
            }
        };
        // Polygon of the lumped weights: vertical force in the first segment from moments about
        // the right support.
        let mut vertical = (1..xs.len() - 1)
            .map(|j| mass(j) * GRAVITY_M_PER_S2 * (length_m - xs[j]) / length_m)
            .sum::<f64>();
        let mut z = 0.0;
        for (j, &x) in xs.iter().enumerate() {
            self.nodes.push(Node {
                x_m: start_m + x,
                rest_m: if j + 1 == xs.len() { 0.0 } else { z },
                mass_kg: mass(j),
            });
            if j + 1 == xs.len() {
                break;
            }
            if j > 0 {
                vertical -= mass(j) * GRAVITY_M_PER_S2;
            }
            let dx = xs[j + 1] - x;
            let slope = vertical / h;
            let secant = sqrt(1.0 + slope * slope);
            let piece = dx * secant / (1.0 + strain * secant);
            self.rope_m.push(piece);
            self.coupling_kg.push(0.0);
            self.rest_vertical_n.push(vertical);
            z += slope * dx;
        }
        let first_piece = self.pieces.len();
        let mut from = 0;
        // Two connectors less than a fraction of a segment apart share a node: the nearest is it.
        let mut cut: Vec<usize> = Vec::new();
        for place_m in cut_places {
            let node = nearest(xs.iter().copied(), place_m)
                .and_then(|x| xs.iter().position(|n| *n == x))
                .filter(|n| *n > cut.last().copied().unwrap_or(0) && *n < xs.len() - 1);
            cut.extend(node);
        }
        for to in cut.into_iter().chain([xs.len() - 1]) {
            let rope_m: f64 = self.rope_m[first_segment + from..first_segment + to]
                .iter()
                .sum();
            self.pieces.push(MeshPiece {
                span,
                length_m: xs[to] - xs[from],
                rope_m,
                mass_kg: mu * rope_m,
                coupling_kg: 0.0,
                first_node: first_node + from,
                first_segment: first_segment + from,
                segments: to - from,
            });
            from = to;
        }
        self.spans.push(MeshSpan {
            span,
            first_node,
            first_segment,
            segments: xs.len() - 1,
            pieces: (first_piece, self.pieces.len()),
        });
    }

    /// Shares as much mass between neighbours as leaves no error of second order beside that of a step,
    /// s, which is chosen for a horizontal tension, N.
    pub fn share(&mut self, line: &Line, step_s: f64, tension_n: f64) {
        let mu = line.rope.mass_per_length_kg_per_m;
        let shared_kg = |length_m: f64, tension_n: f64| {
            let taken = tension_n / mu * step_s * step_s / (length_m * length_m);
            (1.0 - taken).max(0.0) / 12.0 * mu * length_m
        };
        for (coupling_kg, rope_m) in self.coupling_kg.iter_mut().zip(&self.rope_m) {
            *coupling_kg = shared_kg(*rope_m, WAVE_TENSION * tension_n);
        }
        for piece in &mut self.pieces {
            piece.coupling_kg = shared_kg(piece.length_m, line.rope.axial_stiffness_n);
        }
    }

    /// Mass of rope from the middle of one piece to the middle of the next, kg, at the left of piece
    /// `k`, or at the right end of the line.
    pub fn joint_kg(&self, k: usize) -> f64 {
        let half = |piece: Option<&MeshPiece>| piece.map_or(0.0, |p| 0.5 * p.mass_kg);
        half(k.checked_sub(1).and_then(|at| self.pieces.get(at))) + half(self.pieces.get(k))
    }
}

/// Shortest piece of a span that is cut, as the time that a wave along the rope takes through it, s:
/// what the usual step bears.
const PIECE_S: f64 = 1.1e-3;
/// The same with an in-line absorber, and the most pieces of a span then: the front that it sends along
/// the rope is steep. Of the finite element lines, with three pieces of a span the tension was up to
/// 1.8 % low and moved by 1 % with finer nodes, with five 1.5 and 0.7 %, with eight 0.4 and 0.5 %.
const PIECE_INLINE_S: f64 = 0.5e-3;

/// Pieces for a span of this length.
fn pieces_for(line: &Line, length_m: f64) -> usize {
    let rope = &line.rope;
    let wave_m_per_s = sqrt(rope.axial_stiffness_n / rope.mass_per_length_kg_per_m);
    let (piece_s, most) = match line.inline_absorber {
        Some(_) => (PIECE_INLINE_S, PIECES_INLINE_MAX),
        None => (PIECE_S, PIECES_MAX),
    };
    let pieces = (length_m / (piece_s * wave_m_per_s)) as usize;
    pieces.clamp(1, most)
}

/// Most pieces of a span.
const PIECES_MAX: usize = 3;
const PIECES_INLINE_MAX: usize = 8;

/// Where a span is cut into pieces, m from its left support: at connectors, where they are near to the
/// places for equal ones, since the slope changes there.
fn cut_places(line: &Line, length_m: f64, here: &[(usize, f64)]) -> Vec<f64> {
    let pieces = pieces_for(line, length_m);
    let piece_m = length_m / pieces as f64;
    let mut places: Vec<f64> = Vec::new();
    for k in 1..pieces {
        let equal_m = piece_m * k as f64;
        let connectors = here.iter().map(|w| w.1);
        let connector =
            nearest(connectors, equal_m).filter(|x| (x - equal_m).abs() < SNAP * piece_m);
        places.push(connector.unwrap_or(equal_m));
    }
    places
}

/// How far from the place for equal pieces a span is cut at a connector, as a part of a piece.
const SNAP: f64 = 0.4;

/// Of these, the one nearest to a place.
fn nearest(of: impl Iterator<Item = f64>, place_m: f64) -> Option<f64> {
    of.min_by(|a, b| (a - place_m).abs().total_cmp(&(b - place_m).abs()))
}

/// Place of a connector in a span: at a support, or as far from it as a node can be.
fn kept_off(line: &Line, x_m: f64, length_m: f64) -> f64 {
    let least_m = LEAST_FROM_SUPPORT * length_m / segments_for(line, length_m) as f64;
    if x_m < ONE_PLACE_M {
        0.0
    } else if length_m - x_m < ONE_PLACE_M {
        length_m
    } else {
        clamp(x_m, least_m, length_m - least_m)
    }
}

/// Node places in a span: supports, workers, cuts, and equal pieces between. Workers closer together
/// than a fraction of a piece share a node at their mean; one at a support gets none.
fn cuts(length_m: f64, here: &[(usize, f64)], also_m: &[f64], segments: usize) -> Vec<f64> {
    let target = length_m / segments as f64;
    let least = LEAST_APART * target;
    let here: Vec<f64> = here
        .iter()
        .map(|w| w.1)
        .filter(|&x| x > 0.0 && x < length_m)
        .collect();
    let mut fixed = alloc::vec![0.0];
    let mut first = 0;
    for i in 0..here.len() {
        let ends = here.get(i + 1).is_none_or(|next| next - here[i] >= least);
        if !ends {
            continue;
        }
        let (from, to) = (here[first], here[i]);
        let bins = ceil((to - from) / least).max(1.0);
        let width = (to - from) / bins;
        for bin in 0..bins as usize {
            let (low, high) = (from + width * bin as f64, from + width * (bin as f64 + 1.0));
            let last = bin + 1 == bins as usize;
            let (sum, count) = here[first..=i]
                .iter()
                .filter(|&&x| x >= low && (x < high || last))
                .fold((0.0, 0), |(sum, count), x| (sum + x, count + 1));
            if count > 0 {
                fixed.push(sum / f64::from(count));
            }
        }
        first = i + 1;
    }
    fixed.push(length_m);
    // Those at no connector lie a good part of a piece from every one.
    for &place_m in also_m {
        let at = fixed.partition_point(|x| *x < place_m);
        if fixed.iter().all(|x| (x - place_m).abs() >= target) {
            fixed.insert(at, place_m);
        }
    }
    let mut xs = alloc::vec![0.0];
    for pair in fixed.windows(2) {
        let pieces = ceil((pair[1] - pair[0]) / target - 0.35).max(1.0);
        let count = pieces as usize;
        for k in 1..=count {
            xs.push(if k == count {
                pair[1]
            } else {
                pair[0] + (pair[1] - pair[0]) * k as f64 / pieces
            });
        }
    }
    xs
}

/// Attachment of a worker at `x` between the nodes `xs`: at the node nearest, if that is within a
/// share of the pieces beside it, else part of the way along the segment.
fn attach(xs: &[f64], x: f64) -> (usize, f64) {
    let right = xs
        .iter()
        .position(|&at| at >= x)
        .unwrap_or(xs.len() - 1)
        .max(1);
    let (a, b) = (xs[right - 1], xs[right]);
    (right - 1, ((x - a) / (b - a)).clamp(0.0, 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: &[f64], expected: &[f64]) {
        let all = found.len() == expected.len()
            && found
                .iter()
                .zip(expected)
                .all(|(a, b)| (a - b).abs() < 1e-12);
        assert!(all, "{found:?}, not {expected:?}");
    }

    /// A wave needs 2 ms for a segment: 400 m/s on a light line that is very tight makes 0.8 m.
    #[test]
    fn segments_are_longer_where_waves_are_faster() {
        let mut line = Line {
            pretension_n: 8.0e3,
            ..Line::default()
        };
        line.rope.mass_per_length_kg_per_m = 0.05;
        assert_eq!(segments_for(&line, 20.0), 25);
        line.rope.mass_per_length_kg_per_m = 1.0;
        assert_eq!(segments_for(&line, 20.0), 45);
    }

    /// A connector is at a support, or as far from it as a node can be: a fiftieth of a segment.
    #[test]
    fn connectors_keep_off_supports_alike_at_both_ends() {
        let line = Line::default();
        let least_m = 0.02 * 9.0 / segments_for(&line, 9.0) as f64;
        assert!(least_m > 2.0e-3);
        for (x_m, kept_m) in [
            (0.0, 0.0),
            (0.9e-3, 0.0),
            (1.5e-3, least_m),
            (4.0, 4.0),
            (9.0 - 1.5e-3, 9.0 - least_m),
            (9.0 - 0.9e-3, 9.0),
            (9.0, 9.0),
        ] {
            close(&[kept_off(&line, x_m, 9.0)], &[kept_m]);
        }
    }

    /// Segments of 1 m, so that those within 0.1 m share a node: at the mean of each such stretch.
    #[test]
    fn connectors_close_together_share_a_node_at_their_mean() {
        let here =
            |places: &[f64]| -> Vec<(usize, f64)> { places.iter().copied().enumerate().collect() };
        let nodes = |places: &[f64], also_m: &[f64]| cuts(6.0, &here(places), also_m, 6);
        close(&nodes(&[], &[]), &[0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0]);
        // At supports: none of their own.
        close(
            &nodes(&[0.0, 6.0], &[]),
            &[0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0],
        );
        close(
            &nodes(&[3.0, 3.04], &[]),
            &[
                0.0,
                3.02 / 3.0,
                2.0 * 3.02 / 3.0,
                3.02,
                3.02 + 2.98 / 3.0,
                3.02 + 2.0 * 2.98 / 3.0,
                6.0,
            ],
        );
        // As far apart as that: one each.
        close(&nodes(&[3.0, 3.125], &[])[3..5], &[3.0, 3.125]);
        // A row of three over 0.16 m is two stretches of 0.08 m; who stands where they meet is of the right one.
        close(&nodes(&[3.0, 3.08, 3.16], &[])[3..5], &[3.0, 3.12]);
        close(&nodes(&[3.0, 3.07, 3.16], &[])[3..5], &[3.035, 3.16]);
        // A cut gets its node where no connector is near.
        close(&nodes(&[3.0], &[1.5])[..4], &[0.0, 0.75, 1.5, 3.0 - 0.75]);
        close(&nodes(&[3.0], &[2.5]), &[0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0]);
    }

    #[test]
    fn a_worker_between_nodes_is_attached_by_his_place() {
        let xs = [0.0, 1.0, 3.0];
        assert_eq!(attach(&xs, 0.0), (0, 0.0));
        assert_eq!(attach(&xs, 0.25), (0, 0.25));
        assert_eq!(attach(&xs, 1.0), (0, 1.0));
        assert_eq!(attach(&xs, 2.5), (1, 0.75));
        assert_eq!(attach(&xs, 4.0), (1, 1.0));
    }
}
