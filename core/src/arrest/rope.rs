//! The line law of histories side by side: the tension and how the rope is shared out, from sums over the
//! segments of its loaded spans.
//!
//! A segment of rope l under horizontal strain ε whose ends differ by dz in level has the sine s
//! with s l (1 + ε/c) = dz, and the horizontal extent l (c + ε), c its cosine.

use alloc::vec::Vec;

use super::COSINE_MIN;
use super::strands::{Each, SIDES_MAX, greater};
use crate::case::{InlineAbsorber, Line};
use crate::line::unstretched_sagging_m;
use crate::maths::{clamp, sqrt};
use crate::mesh::{Idle, Mesh, MeshSpan};

/// Part of the tension by which the last step of its root may still have moved it.
const STEP_RATIO: f64 = 1.0e-4;

/// Tension and rope distribution of histories side by side: what the line law solves for.
///
/// All rows are worked on whole: places without a history repeat the first ones.
pub(super) struct Ropes {
    /// Mean tension along the line, N, and that of the last step.
    pub tension_n: Each,
    tension_before_n: Each,
    /// Tension taken for the angles of this step, N.
    assumed_n: Each,
    /// The loaded spans.
    pub spans: Vec<Span>,
    /// The loaded spans among them at the left and the right end of the line.
    at_ends: [Option<usize>; 2],
    /// Unstretched rope of the whole line, m.
    total_m: Each,
    /// The spans on which nobody falls; `None`: there is none.
    idle: Option<IdleRope>,
    /// 1/EA.
    per_ea_per_n: Each,
    inline: [Option<InlineAbsorber>; SIDES_MAX],
    pub inline_extension_m: Each,
    pub inline_work_j: Each,
    /// Movement of the in-line absorber in this step and the greatest so far, m.
    pub inline_moved_m: Each,
    pub inline_moved_max_m: Each,
}

/// Rope that the loaded spans need less the whole rope, m, linear in mean tension and in-line
/// extension.
struct Need {
    constant_m: Each,
    by_tension: Each,
    by_extension: Each,
}

/// Sums over the segments of one span.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sums {
    /// Rope times cosine, m.
    pub cosine_m: Each,
    /// Rope times secant, m.
    pub secant_m: Each,
    pub steepest: Each,
    pub last_secant: Each,
}

/// A loaded span.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Span {
    /// Unstretched rope at rest, m, and its reciprocal.
    rope_m: Each,
    per_rope_per_m: Each,
    /// Movement of its ends that are ends of the line, m/N, and its length without tension, m.
    give_m_per_n: Each,
    slack_length_m: Each,
    /// The line's right end, with the in-line absorber, is its right end.
    at_right_end: bool,
    /// Rope in the span over rope at rest.
    pub fill: Each,
    /// Reciprocal of the mean of ds/dx over the rope.
    per_secant: Each,
    pub horizontal_n: Each,
    /// Largest ds/dx.
    pub steepest: Each,
    /// ds/dx of the last segment over the mean.
    last_ratio: Each,
    /// Horizontal strain H/EA taken for the angles of this step.
    pub strain: Each,
    /// Rope wanted over rope at rest: a constant, and its rates with the mean tension and with the
    /// in-line extension.
    law: [Each; 3],
}

impl Ropes {
    /// The lines at rest; there is at least one, and all are cut alike.
    ///
    /// Places without a line repeat the first ones, or the first where that does not come out even.
    pub fn at_rest(lines: &[(&Line, &Mesh)]) -> Option<Self> {
        let (line, mesh) = *lines.first()?;
        let last_span = line.spans_m.len() - 1;
        let at = |span: usize| mesh.spans.iter().position(|s| s.span == span);
        let mask = lines.len().next_power_of_two() - 1;
        let of_place = |place: usize| lines.get(place & mask).copied().unwrap_or((line, mesh));
        let of = |what: &dyn Fn(&Line, &Mesh) -> f64| {
            core::array::from_fn(|place| {
                let (line, mesh) = of_place(place);
                what(line, mesh)
            })
        };
        let pretension_n = of(&|line, _| line.pretension_n);
        let spans = (0..mesh.spans.len()).map(|k| {
            let give = |line: &Line, mesh: &Mesh| end_give(line, mesh.spans[k].span);
            Span {
                rope_m: of(&|_, mesh| mesh.spans[k].rope_m),
                per_rope_per_m: of(&|_, mesh| 1.0 / mesh.spans[k].rope_m),
                give_m_per_n: of(&give),
                slack_length_m: of(&|line, mesh| {
                    mesh.spans[k].length_m + give(line, mesh) * line.pretension_n
                }),
                at_right_end: mesh.spans[k].span == last_span,
                fill: [1.0; SIDES_MAX],
                per_secant: [1.0; SIDES_MAX],
                horizontal_n: pretension_n,
                steepest: [1.0; SIDES_MAX],
                last_ratio: [1.0; SIDES_MAX],
                ..Span::default()
            }
        });
        Some(Self {
            tension_n: pretension_n,
            tension_before_n: pretension_n,
            assumed_n: pretension_n,
            spans: spans.collect(),
            at_ends: [at(0), at(last_span)],
            total_m: of(&|line, mesh| {
                let idle = |i: &Idle| unstretched_sagging_m(line, i.length_m, line.pretension_n);
                mesh.spans.iter().map(|s| s.rope_m).sum::<f64>()
                    + mesh.idle.iter().map(idle).sum::<f64>()
            }),
            idle: (!mesh.idle.is_empty()).then(|| IdleRope::of(&of, mesh, last_span)),
            per_ea_per_n: of(&|line, _| 1.0 / line.rope.axial_stiffness_n),
            inline: core::array::from_fn(|place| of_place(place).0.inline_absorber),
            inline_extension_m: [0.0; SIDES_MAX],
            inline_work_j: [0.0; SIDES_MAX],
            inline_moved_m: [0.0; SIDES_MAX],
            inline_moved_max_m: [0.0; SIDES_MAX],
        })
    }

    /// Takes the tension on from the last two steps: the strain to look at the segments with.
    pub fn assume(&mut self) {
        let mut strain = [0.0; SIDES_MAX];
        for i in 0..SIDES_MAX {
            let assumed_n = greater(2.0 * self.tension_n[i] - self.tension_before_n[i], 0.0);
            self.assumed_n[i] = assumed_n;
            strain[i] = assumed_n * self.per_ea_per_n[i];
        }
        for span in &mut self.spans {
            for i in 0..SIDES_MAX {
                span.strain[i] = strain[i] * span.per_secant[i];
            }
        }
    }

    /// A loaded span, with the in-line absorber extended in it: its index.
    pub fn extended_span(&self, side: usize) -> Option<usize> {
        self.at_ends[1].filter(|_| self.inline_extension_m[side] > 0.0)
    }

    /// Takes the sums over the segments of span `k`, at the strain and fill that it had: one step
    /// of Newton for its rope, as a law linear in mean tension and in-line extension.
    #[inline]
    pub fn take(&mut self, k: usize, sums: &Sums) {
        let e0 = &self.inline_extension_m;
        let span = &mut self.spans[k];
        let at_end = if span.at_right_end { 1.0 } else { 0.0 };
        let [constant, tension, extension] = &mut span.law;
        for i in 0..SIDES_MAX {
            let secant = sums.secant_m[i] * span.per_rope_per_m[i];
            let per_secant = 1.0 / secant;
            let stretch_m = span.strain[i] * span.rope_m[i];
            let straight_m = at_end * e0[i] / sums.last_secant[i];
            let extent_m = (sums.cosine_m[i] + stretch_m) * span.fill[i] + straight_m;
            // A slope for one step of Newton: the spread of the secants makes no difference in it.
            let steep = (secant * secant - 1.0) * (1.0 - span.strain[i] * secant);
            let by_strain_m = span.rope_m[i] * (1.0 + steep) * span.fill[i];
            // extent + by_strain (ε − ε_p) + by_fill (fill − fill_p) + by_extension (e − e0)
            //   = L − give (H − T0)
            let missing_m = span.slack_length_m[i] - extent_m + by_strain_m * span.strain[i];
            let by_tension =
                (span.give_m_per_n[i] + by_strain_m * self.per_ea_per_n[i]) * per_secant;
            let by_extension = at_end * sums.last_secant[i];
            let scale = 1.0 / (sums.secant_m[i] + stretch_m);
            constant[i] = span.fill[i] + (missing_m + by_extension * e0[i]) * scale;
            tension[i] = -by_tension * scale;
            extension[i] = -by_extension * scale;
            span.per_secant[i] = per_secant;
            span.last_ratio[i] = sums.last_secant[i] * per_secant;
        }
        span.steepest = sums.steepest;
    }

    /// Tension and rope of every span, all sums taken: an exact root for the tension.
    pub fn settle(&mut self) {
        let mut need = Need {
            constant_m: [0.0; SIDES_MAX],
            by_tension: [0.0; SIDES_MAX],
            by_extension: [0.0; SIDES_MAX],
        };
        for span in &self.spans {
            for i in 0..SIDES_MAX {
                need.constant_m[i] += span.rope_m[i] * span.law[0][i];
                need.by_tension[i] += span.rope_m[i] * span.law[1][i];
                need.by_extension[i] += span.rope_m[i] * span.law[2][i];
            }
        }
        for i in 0..SIDES_MAX {
            need.constant_m[i] -= self.total_m[i];
        }
        let mut extension_m = self.inline_extension_m;
        let mut tension_n = self.tension_at(&need, &extension_m);
        if self.inline.iter().any(Option::is_some) {
            self.give(&need, &mut tension_n, &mut extension_m);
        }
        self.tension_before_n = self.tension_n;
        self.tension_n = tension_n;
        for span in &mut self.spans {
            for i in 0..SIDES_MAX {
                span.fill[i] = span.law[0][i]
                    + span.law[1][i] * tension_n[i]
                    + span.law[2][i] * extension_m[i];
                span.horizontal_n[i] = tension_n[i] * span.per_secant[i];
            }
        }
        if self.idle.is_none() && self.spans.len() == 1 {
            self.spans[0].fill = [1.0; SIDES_MAX];
        }
    }

    /// Lets the in-line absorbers give where the tension at them asks for it.
    fn give(&mut self, need: &Need, tension_n: &mut Each, extension_m: &mut Each) {
        let mut used_up = [false; SIDES_MAX];
        for side in 0..SIDES_MAX {
            let e0 = self.inline_extension_m[side];
            self.inline_moved_m[side] = 0.0;
            let Some(inline) = self.inline[side] else {
                continue;
            };
            // The tension at the right end is the mean times this.
            let ratio = self.at_ends[1].map_or(1.0, |k| self.spans[k].last_ratio[side]);
            if tension_n[side] * ratio <= inline.yield_force_n || e0 >= inline.max_extension_m {
                continue;
            }
            let at_yield = inline.yield_force_n / ratio;
            tension_n[side] = at_yield;
            let (excess_m, _) = self.excess(need, tension_n, &self.inline_extension_m);
            let idle = self.idle.map_or(0.0, |i| i.by_extension(at_yield, side));
            let wanted = e0 - excess_m[side] / (need.by_extension[side] + idle);
            extension_m[side] = clamp(wanted, e0, inline.max_extension_m);
            used_up[side] = wanted > inline.max_extension_m;
            let moved = extension_m[side] - e0;
            self.inline_work_j[side] += inline.yield_force_n * moved;
            self.inline_moved_m[side] = moved;
            self.inline_moved_max_m[side] = greater(moved, self.inline_moved_max_m[side]);
        }
        if used_up.contains(&true) {
            let without = self.tension_at(need, extension_m);
            for side in 0..SIDES_MAX {
                if used_up[side] {
                    tension_n[side] = without[side];
                }
            }
        }
        self.inline_extension_m = *extension_m;
    }

    /// Rope needed less rope there is, m, and its rate with the tension, at a tension and in-line
    /// extension.
    #[inline]
    fn excess(&self, need: &Need, tension_n: &Each, extension_m: &Each) -> (Each, Each) {
        let (mut excess_m, mut rate) = match &self.idle {
            Some(idle) => idle.rope_m(tension_n, extension_m),
            None => ([0.0; SIDES_MAX], [0.0; SIDES_MAX]),
        };
        for i in 0..SIDES_MAX {
            excess_m[i] += need.constant_m[i]
                + need.by_tension[i] * tension_n[i]
                + need.by_extension[i] * extension_m[i];
            rate[i] += need.by_tension[i];
        }
        (excess_m, rate)
    }

    /// Tension at which the rope that is there is needed: directly where all spans are loaded, else
    /// the root of a falling, convex function by Newton from the tension assumed, kept positive, at
    /// most 60 steps. The error is about the square of the last step.
    fn tension_at(&self, need: &Need, extension_m: &Each) -> Each {
        let mut x = [0.0; SIDES_MAX];
        if self.idle.is_none() {
            for i in 0..SIDES_MAX {
                let missing_m = need.constant_m[i] + need.by_extension[i] * extension_m[i];
                x[i] = greater(-missing_m / need.by_tension[i], 0.0);
            }
            return x;
        }
        for i in 0..SIDES_MAX {
            x[i] = greater(self.assumed_n[i], 1.0);
        }
        // 1 as long as the last step was too long; each history stops by itself.
        let mut moving = [1.0; SIDES_MAX];
        for _ in 0..60 {
            let (excess_m, rate) = self.excess(need, &x, extension_m);
            for i in 0..SIDES_MAX {
                let lower = greater(0.2 * x[i], 1.0e-3);
                let next = greater(x[i] - excess_m[i] / rate[i], lower);
                let goes = if rate[i] < 0.0 { moving[i] } else { 0.0 };
                let moved = (next - x[i]).abs();
                x[i] = if goes > 0.0 { next } else { x[i] };
                moving[i] = if moved <= STEP_RATIO * x[i] {
                    0.0
                } else {
                    goes
                };
            }
            if moving.iter().all(|&m| m == 0.0) {
                break;
            }
        }
        x
    }

    /// Horizontal tension at the left and the right end, N.
    pub fn end_horizontals_n(&self) -> [&Each; 2] {
        self.at_ends
            .map(|at| at.map_or(&self.tension_n, |k| &self.spans[k].horizontal_n))
    }

    /// A loaded span ends at the line's right end.
    pub fn at_right_end(&self) -> bool {
        self.at_ends[1].is_some()
    }

    /// Potential energy of rope stretch, idle spans' weight and end supports, J, with the nodes of
    /// the mesh at these deflections.
    pub fn potential_j(
        &self,
        side: usize,
        line: &Line,
        mesh: &Mesh,
        z_m: impl Fn(usize) -> f64,
    ) -> f64 {
        let ea = line.rope.axial_stiffness_n;
        let last_span = line.spans_m.len() - 1;
        let mut energy = 0.0;
        for (span, state) in mesh.spans.iter().zip(&self.spans) {
            let strain = state.horizontal_n[side] / ea;
            for j in 0..span.segments {
                let rope_m = mesh.rope_m[span.first_segment + j] * state.fill[side];
                let dz = z_m(span.first_node + j + 1) - z_m(span.first_node + j);
                let extension = if j + 1 == span.segments && state.at_right_end {
                    self.inline_extension_m[side]
                } else {
                    0.0
                };
                let (_, cosine) = sine_and_cosine(dz, rope_m, strain, extension);
                let tension = state.horizontal_n[side] / cosine;
                energy += 0.5 * tension * tension / ea * rope_m;
            }
        }
        let w = line.weight_n_per_m();
        for idle in &mesh.idle {
            let h = self.tension_n[side].max(1e-3);
            let l = idle.length_m
                - end_give(line, idle.span) * (self.tension_n[side] - line.pretension_n);
            let mut rope = unstretched_sagging_m(line, l, h);
            if idle.span == last_span {
                rope -= self.inline_extension_m[side] / (1.0 + h / ea);
            }
            energy += 0.5 * h * h / ea * rope - w * w * l * l * l / (12.0 * h);
        }
        let [left, right] = self.end_horizontals_n().map(|h| h[side]);
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

/// Rope of the spans on which nobody falls, as a function of the tension.
#[derive(Clone, Copy, Debug)]
struct IdleRope {
    /// Sum of the lengths and of their cubes, m and m³, of the spans whose ends do not move.
    length_m: Each,
    cubes_m3: Each,
    /// Length without tension, m, and movement for it, m/N, of the first and the last span, where
    /// they are among these and their ends move; else 0.
    moving: [(Each, Each); 2],
    /// The in-line absorber's span is among all these.
    inline: bool,
    /// 1/EA.
    per_ea_per_n: Each,
    /// Square of the weight per length over 24, N²/m².
    bow_n2_per_m2: Each,
}

impl IdleRope {
    /// `of`: takes a number of every history.
    fn of(
        of: &impl Fn(&dyn Fn(&Line, &Mesh) -> f64) -> Each,
        mesh: &Mesh,
        last_span: usize,
    ) -> Self {
        let still = |power: fn(f64) -> f64| {
            of(&|line, mesh| {
                let moves = |i: &&Idle| end_give(line, i.span) == 0.0;
                mesh.idle
                    .iter()
                    .filter(moves)
                    .map(|i| power(i.length_m))
                    .sum()
            })
        };
        let moving = |at: usize, what: fn(f64, f64, f64) -> f64| {
            of(&|line, mesh| {
                let give = |i: &Idle| end_give(line, i.span);
                let found = mesh.idle.iter().find(|i| i.span == at && give(i) > 0.0);
                found.map_or(0.0, |i| what(i.length_m, give(i), line.pretension_n))
            })
        };
        let end = |at: usize| {
            let length_m = moving(at, |length, give, pretension| length + give * pretension);
            (length_m, moving(at, |_, give, _| give))
        };
        // One span that is both the first and the last counts once.
        let none = ([0.0; SIDES_MAX], [0.0; SIDES_MAX]);
        Self {
            length_m: still(|l| l),
            cubes_m3: still(|l| l * l * l),
            moving: [end(0), if last_span > 0 { end(last_span) } else { none }],
            inline: mesh.idle.iter().any(|i| i.span == last_span),
            per_ea_per_n: of(&|line, _| 1.0 / line.rope.axial_stiffness_n),
            bow_n2_per_m2: of(&|line, _| {
                let weight = line.weight_n_per_m();
                weight * weight / 24.0
            }),
        }
    }

    /// Unstretched rope, m, and its rate with the tension, m/N, with the in-line absorber extended
    /// by `extension_m`: [`unstretched_sagging_m`] summed over the spans.
    #[inline]
    fn rope_m(&self, tension_n: &Each, extension_m: &Each) -> (Each, Each) {
        let inline = if self.inline { 1.0 } else { 0.0 };
        let [(length_0, give_0), (length_1, give_1)] = &self.moving;
        let (mut rope_m, mut rate) = ([0.0; SIDES_MAX], [0.0; SIDES_MAX]);
        for i in 0..SIDES_MAX {
            let t = tension_n[i];
            let moved_0 = length_0[i] - give_0[i] * t;
            let moved_1 = length_1[i] - give_1[i] * t;
            let squares = (moved_0 * moved_0, moved_1 * moved_1);
            let length = self.length_m[i] + moved_0 + moved_1 - inline * extension_m[i];
            let length_rate = -(give_0[i] + give_1[i]);
            let cubes = self.cubes_m3[i] + squares.0 * moved_0 + squares.1 * moved_1;
            let cubes_rate = -3.0 * (give_0[i] * squares.0 + give_1[i] * squares.1);
            let per_ea = self.per_ea_per_n[i];
            let strain = t * per_ea;
            let shrink = 1.0 / (1.0 + strain);
            let per_tension = 1.0 / t;
            // Sagging rope for the sum of cubes: bow (1 − ε).
            let bow = self.bow_n2_per_m2[i] * (per_tension * shrink) * (per_tension * shrink);
            let sag = bow * (1.0 - strain);
            let sag_rate =
                -2.0 * per_tension * sag - per_ea * bow * (1.0 + 2.0 * (1.0 - strain) * shrink);
            rope_m[i] = length * shrink + sag * cubes;
            rate[i] = (length_rate - length * per_ea * shrink) * shrink
                + sag_rate * cubes
                + sag * cubes_rate;
        }
        (rope_m, rate)
    }

    /// Rate of the rope with the in-line absorber's extension.
    fn by_extension(&self, tension_n: f64, side: usize) -> f64 {
        if self.inline {
            -1.0 / (1.0 + tension_n * self.per_ea_per_n[side])
        } else {
            0.0
        }
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

/// Sine and cosine of a segment, an extension of the in-line absorber as a straight piece in line
/// with it: s (l (1 + ε/c) + e) = dz.
pub(super) fn sine_and_cosine(dz: f64, rope_m: f64, strain: f64, extension_m: f64) -> (f64, f64) {
    let mut cosine = 1.0_f64;
    let mut sine = 0.0;
    for _ in 0..4 {
        sine = (dz / (rope_m * (1.0 + strain / cosine) + extension_m)).clamp(-1.0, 1.0);
        cosine = sqrt((1.0 - sine * sine).max(COSINE_MIN * COSINE_MIN));
    }
    (sine, cosine)
}

/// The segments of a span with those that fill up its last group.
pub(super) fn padded(span: &MeshSpan) -> usize {
    span.segments.next_multiple_of(crate::mesh::LANES)
}
