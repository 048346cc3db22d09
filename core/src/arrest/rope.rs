//! The line law of two histories: the tension and how the rope is shared out, from sums over the
//! segments of its loaded spans.
//!
//! A segment of rope l under horizontal strain ε whose ends differ by dz in level has the sine s
//! with s l (1 + ε/c) = dz, and the horizontal extent l (c + ε), c its cosine.

use alloc::vec::Vec;

use wide::{CmpGt, CmpLe, CmpLt};

use super::COSINE_MIN;
use super::pair::{NONE, ONE, Pair, SIDES, greater, greater_of, of, with};
use super::strands::Sums;
use crate::case::{InlineAbsorber, Line};
use crate::line::unstretched_sagging_m;
use crate::maths::{clamp, sqrt};
use crate::mesh::{Idle, Mesh};

/// Part of the tension by which the last step of its root, of second order, may have moved it: the
/// error is then below 1e-6 of it.
const STEP_RATIO: f64 = 3.0e-3;

/// Tension and rope distribution of two histories: what the line law solves for.
pub(super) struct Ropes {
    /// Mean tension along the line, N, and that of the last step.
    pub tension_n: Pair,
    tension_before_n: Pair,
    /// Tension taken for the angles of this step, N.
    assumed_n: Pair,
    /// The loaded spans.
    pub spans: Vec<Span>,
    /// The loaded spans among them at the left and the right end of the line.
    at_ends: [Option<usize>; 2],
    /// Unstretched rope of the whole line, m.
    total_m: Pair,
    /// The spans on which nobody falls, and their rope at the tension assumed; `None`: there is
    /// none.
    idle: Option<(IdleRope, IdleNeed)>,
    /// 1/EA.
    per_ea_per_n: Pair,
    inline: [Option<InlineAbsorber>; SIDES],
    pub inline_extension_m: Pair,
    pub inline_work_j: Pair,
    /// Movement of the in-line absorber in this step and the greatest so far, m.
    pub inline_moved_m: Pair,
    pub inline_moved_max_m: Pair,
}

/// Rope that the loaded spans need less the whole rope, m, linear in mean tension and in-line
/// extension.
struct Need {
    constant_m: Pair,
    by_tension: Pair,
    by_extension: Pair,
}

/// A loaded span.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    /// Unstretched rope at rest, m, and its reciprocal.
    rope_m: Pair,
    per_rope_per_m: Pair,
    /// Movement of its ends that are ends of the line, m/N, and its length without tension, m.
    give_m_per_n: Pair,
    slack_length_m: Pair,
    /// The line's right end, with an in-line absorber, is its right end.
    has_inline: bool,
    /// Rope in the span over rope at rest.
    pub fill: Pair,
    /// Reciprocal of the mean of ds/dx over the rope.
    per_secant: Pair,
    pub horizontal_n: Pair,
    /// Largest ds/dx.
    pub steepest: Pair,
    /// ds/dx of the last segment over the mean; only kept where there is an in-line absorber.
    last_ratio: Pair,
    /// Horizontal strain H/EA taken for the angles of this step.
    pub strain: Pair,
    /// Rope wanted over rope at rest: a constant, and its rates with the mean tension and with the
    /// in-line extension.
    law: [Pair; 3],
}

impl Ropes {
    /// Two lines at rest, cut alike.
    pub fn at_rest(lines: [(&Line, &Mesh); SIDES]) -> Self {
        let (line, mesh) = lines[0];
        let last_span = line.spans_m.len() - 1;
        let at = |span: usize| mesh.spans.iter().position(|s| s.span == span);
        let each = |what: &dyn Fn(&Line, &Mesh) -> f64| {
            Pair::new(lines.map(|(line, mesh)| what(line, mesh)))
        };
        let pretension_n = each(&|line, _| line.pretension_n);
        let inline = lines.map(|(line, _)| line.inline_absorber);
        let spans = (0..mesh.spans.len()).map(|k| {
            let give = |line: &Line, mesh: &Mesh| end_give(line, mesh.spans[k].span);
            let rope_m = each(&|_, mesh| mesh.spans[k].rope_m);
            Span {
                rope_m,
                per_rope_per_m: ONE / rope_m,
                give_m_per_n: each(&give),
                slack_length_m: each(&|line, mesh| {
                    mesh.spans[k].length_m + give(line, mesh) * line.pretension_n
                }),
                has_inline: mesh.spans[k].span == last_span && inline.iter().any(Option::is_some),
                fill: ONE,
                per_secant: ONE,
                horizontal_n: pretension_n,
                steepest: ONE,
                last_ratio: ONE,
                strain: NONE,
                law: [NONE; 3],
            }
        });
        Self {
            tension_n: pretension_n,
            tension_before_n: pretension_n,
            assumed_n: pretension_n,
            spans: spans.collect(),
            at_ends: [at(0), at(last_span)],
            total_m: each(&|line, mesh| {
                let idle = |i: &Idle| unstretched_sagging_m(line, i.length_m, line.pretension_n);
                mesh.spans.iter().map(|s| s.rope_m).sum::<f64>()
                    + mesh.idle.iter().map(idle).sum::<f64>()
            }),
            idle: (!mesh.idle.is_empty()).then(|| {
                let rope = IdleRope::new(&each, mesh, last_span);
                (rope, rope.need(pretension_n, NONE))
            }),
            per_ea_per_n: each(&|line, _| 1.0 / line.rope.axial_stiffness_n),
            inline,
            inline_extension_m: NONE,
            inline_work_j: NONE,
            inline_moved_m: NONE,
            inline_moved_max_m: NONE,
        }
    }

    /// Takes the tension on from the last two steps: the strain to look at the segments with.
    ///
    /// What the idle spans need at it is found here, as it waits for nothing, and the root for
    /// the tension waits for it.
    pub fn assume(&mut self) {
        self.assumed_n = greater(
            self.tension_n + self.tension_n - self.tension_before_n,
            NONE,
        );
        if let Some((rope, need)) = &mut self.idle {
            *need = rope.need(greater(self.assumed_n, ONE), self.inline_extension_m);
        }
        let strain = self.assumed_n * self.per_ea_per_n;
        for span in &mut self.spans {
            span.strain = strain * span.per_secant;
        }
    }

    /// A loaded span, with the in-line absorber extended in it: its index.
    pub fn extended_span(&self, side: usize) -> Option<usize> {
        self.at_ends[1].filter(|_| of(self.inline_extension_m, side) > 0.0)
    }

    /// Takes the sums over the segments of span `k`, at the strain and fill that it had: one step
    /// of Newton for its rope, as a law linear in mean tension and in-line extension.
    #[inline]
    pub fn take(&mut self, k: usize, sums: &Sums) {
        let span = &mut self.spans[k];
        let secant = sums.secant_m * span.per_rope_per_m;
        let per_secant = ONE / secant;
        let stretch_m = span.strain * span.rope_m;
        let mut extent_m = (sums.cosine_m + stretch_m) * span.fill;
        let scale = ONE / (sums.secant_m + stretch_m);
        // The in-line absorber's extension is a straight piece in line with the last segment.
        let mut by_extension_m = NONE;
        if span.has_inline {
            extent_m += self.inline_extension_m / sums.last_secant;
            by_extension_m = sums.last_secant * self.inline_extension_m;
            span.law[2] = -sums.last_secant * scale;
            span.last_ratio = sums.last_secant * per_secant;
        }
        // A slope for one step of Newton: the spread of the secants makes no difference in it.
        let steep = (secant * secant - ONE) * (ONE - span.strain * secant);
        let by_strain_m = span.rope_m * (ONE + steep) * span.fill;
        // extent + by_strain (ε − ε_p) + by_fill (fill − fill_p) + by_extension (e − e0)
        //   = L − give (H − T0)
        let missing_m = span.slack_length_m - extent_m + by_strain_m * span.strain;
        let by_tension = (span.give_m_per_n + by_strain_m * self.per_ea_per_n) * per_secant;
        span.law[0] = span.fill + (missing_m + by_extension_m) * scale;
        span.law[1] = -by_tension * scale;
        span.per_secant = per_secant;
        span.steepest = sums.steepest;
    }

    /// Tension and rope of every span, all sums taken: an exact root for the tension.
    pub fn settle(&mut self) {
        let mut need = Need {
            constant_m: NONE,
            by_tension: NONE,
            by_extension: NONE,
        };
        for span in &self.spans {
            need.constant_m += span.rope_m * span.law[0];
            need.by_tension += span.rope_m * span.law[1];
            need.by_extension += span.rope_m * span.law[2];
        }
        need.constant_m -= self.total_m;
        let mut tension_n = self.tension_at(&need, self.inline_extension_m);
        if self.inline.iter().any(Option::is_some) {
            tension_n = self.give(&need, tension_n);
        }
        self.tension_before_n = self.tension_n;
        self.tension_n = tension_n;
        // One span alone has all the rope there is.
        let shares = self.idle.is_some() || self.spans.len() > 1;
        for span in &mut self.spans {
            span.horizontal_n = tension_n * span.per_secant;
            if shares {
                let [constant, by_tension, by_extension] = span.law;
                span.fill =
                    constant + by_tension * tension_n + by_extension * self.inline_extension_m;
            }
        }
    }

    /// Lets the in-line absorbers give where the tension at them asks for it; the tension then.
    fn give(&mut self, need: &Need, mut tension_n: Pair) -> Pair {
        let mut used_up = NONE;
        let before_m = self.inline_extension_m;
        self.inline_moved_m = NONE;
        for side in 0..SIDES {
            let e0 = of(before_m, side);
            let Some(inline) = self.inline[side] else {
                continue;
            };
            // The tension at the right end is the mean times this.
            let ratio = self.at_ends[1].map_or(1.0, |k| of(self.spans[k].last_ratio, side));
            if of(tension_n, side) * ratio <= inline.yield_force_n || e0 >= inline.max_extension_m {
                continue;
            }
            let at_yield = inline.yield_force_n / ratio;
            tension_n = with(tension_n, side, at_yield);
            let mut excess_m =
                need.constant_m + need.by_tension * tension_n + need.by_extension * before_m;
            let mut rate = of(need.by_extension, side);
            if let Some((idle, _)) = &self.idle {
                excess_m += idle.need(tension_n, before_m).rope_m;
                rate += idle.by_extension(at_yield, side);
            }
            let wanted = e0 - of(excess_m, side) / rate;
            let extension_m = clamp(wanted, e0, inline.max_extension_m);
            if wanted > inline.max_extension_m {
                used_up = with(used_up, side, 1.0);
            }
            let moved = extension_m - e0;
            let work_j = of(self.inline_work_j, side) + inline.yield_force_n * moved;
            let most = greater_of(moved, of(self.inline_moved_max_m, side));
            self.inline_extension_m = with(self.inline_extension_m, side, extension_m);
            self.inline_work_j = with(self.inline_work_j, side, work_j);
            self.inline_moved_m = with(self.inline_moved_m, side, moved);
            self.inline_moved_max_m = with(self.inline_moved_max_m, side, most);
        }
        let used_up = used_up.cmp_gt(NONE);
        if used_up.any() {
            let without_n = self.tension_at(need, self.inline_extension_m);
            tension_n = used_up.blend(without_n, tension_n);
        }
        tension_n
    }

    /// Tension at which the rope that is there is needed: directly where all spans are loaded, else
    /// the root of a falling, convex function from the tension assumed, by steps of Newton, the last
    /// one with the curvature, kept positive, at most 60.
    fn tension_at(&self, need: &Need, extension_m: Pair) -> Pair {
        let loaded_m = need.constant_m + need.by_extension * extension_m;
        let Some((idle, idle_need)) = &self.idle else {
            return greater(-loaded_m / need.by_tension, NONE);
        };
        let mut at = *idle_need;
        let mut x = greater(self.assumed_n, ONE);
        if extension_m != self.inline_extension_m {
            at = idle.need(x, extension_m);
        }
        // As long as the last step was too long; each history stops by itself.
        let mut moves = NONE.cmp_le(NONE);
        for _ in 0..60 {
            let rate = at.rate + need.by_tension;
            let per_rate = ONE / rate;
            let step = (at.rope_m + loaded_m + need.by_tension * x) * per_rate;
            let short = step.abs().cmp_le(Pair::splat(STEP_RATIO) * x);
            let curved = step + step * step * (Pair::splat(0.5) * at.curve * per_rate);
            let lower = greater(Pair::splat(0.2) * x, Pair::splat(1.0e-3));
            let next = greater(x - short.blend(curved, step), lower);
            moves &= rate.cmp_lt(NONE);
            x = moves.blend(next, x);
            moves = short.blend(NONE, moves);
            if moves.none() {
                break;
            }
            at = idle.need(x, extension_m);
        }
        x
    }

    /// Horizontal tension at the left and the right end, N.
    pub fn end_horizontals_n(&self) -> [Pair; 2] {
        self.at_ends
            .map(|at| at.map_or(self.tension_n, |k| self.spans[k].horizontal_n))
    }

    /// The loaded span at the line's right end: its index.
    pub fn at_right_end(&self) -> Option<usize> {
        self.at_ends[1]
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
            let strain = of(state.horizontal_n, side) / ea;
            for j in 0..span.segments {
                let rope_m = mesh.rope_m[span.first_segment + j] * of(state.fill, side);
                let dz = z_m(span.first_node + j + 1) - z_m(span.first_node + j);
                let extension = if j + 1 == span.segments && span.span == last_span {
                    of(self.inline_extension_m, side)
                } else {
                    0.0
                };
                let (_, cosine) = sine_and_cosine(dz, rope_m, strain, extension);
                let tension = of(state.horizontal_n, side) / cosine;
                energy += 0.5 * tension * tension / ea * rope_m;
            }
        }
        let w = line.weight_n_per_m();
        for idle in &mesh.idle {
            let h = of(self.tension_n, side).max(1e-3);
            let l = idle.length_m
                - end_give(line, idle.span) * (of(self.tension_n, side) - line.pretension_n);
            let mut rope = unstretched_sagging_m(line, l, h);
            if idle.span == last_span {
                rope -= of(self.inline_extension_m, side) / (1.0 + h / ea);
            }
            energy += 0.5 * h * h / ea * rope - w * w * l * l * l / (12.0 * h);
        }
        let [left, right] = self.end_horizontals_n().map(|h| of(h, side));
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

/// Rope that the spans on which nobody falls need, m, and its first and second rate with the tension.
#[derive(Clone, Copy, Debug)]
struct IdleNeed {
    rope_m: Pair,
    rate: Pair,
    /// Of the sag by the square of the tension alone: the rest is below a part in fifty of it.
    curve: Pair,
}

/// Rope of the spans on which nobody falls, as a function of the tension.
#[derive(Clone, Copy, Debug)]
struct IdleRope {
    /// Sum of the lengths and of their cubes, m and m³, of the spans whose ends do not move.
    length_m: Pair,
    cubes_m3: Pair,
    /// Length without tension, m, and movement for it, m/N, of the first and the last span, where
    /// they are among these and their ends move; else 0.
    moving: [(Pair, Pair); 2],
    /// The in-line absorber's span is among all these.
    inline: bool,
    /// 1/EA.
    per_ea_per_n: Pair,
    /// Square of the weight per length over 24, N²/m².
    bow_n2_per_m2: Pair,
}

impl IdleRope {
    /// `each`: takes a number of both histories.
    fn new(
        each: &impl Fn(&dyn Fn(&Line, &Mesh) -> f64) -> Pair,
        mesh: &Mesh,
        last_span: usize,
    ) -> Self {
        let still = |power: fn(f64) -> f64| {
            each(&|line, mesh| {
                let moves = |i: &&Idle| end_give(line, i.span) == 0.0;
                mesh.idle
                    .iter()
                    .filter(moves)
                    .map(|i| power(i.length_m))
                    .sum()
            })
        };
        let moving = |at: usize, what: fn(f64, f64, f64) -> f64| {
            each(&|line, mesh| {
                let give = |i: &Idle| end_give(line, i.span);
                let found = mesh.idle.iter().find(|i| i.span == at && give(i) > 0.0);
                found.map_or(0.0, |i| what(i.length_m, give(i), line.pretension_n))
            })
        };
        let end = |at: usize| {
            let length_m = moving(at, |length, give, pretension| length + give * pretension);
            (length_m, moving(at, |_, give, _| give))
        };
        Self {
            length_m: still(|l| l),
            cubes_m3: still(|l| l * l * l),
            // One span that is both the first and the last counts once.
            moving: [
                end(0),
                if last_span > 0 {
                    end(last_span)
                } else {
                    (NONE, NONE)
                },
            ],
            inline: mesh.idle.iter().any(|i| i.span == last_span),
            per_ea_per_n: each(&|line, _| 1.0 / line.rope.axial_stiffness_n),
            bow_n2_per_m2: each(&|line, _| {
                let weight = line.weight_n_per_m();
                weight * weight / 24.0
            }),
        }
    }

    /// Unstretched rope with the in-line absorber extended by `extension_m`:
    /// [`unstretched_sagging_m`] summed over the spans.
    #[inline]
    fn need(&self, tension_n: Pair, extension_m: Pair) -> IdleNeed {
        let number = Pair::splat;
        let [(length_0, give_0), (length_1, give_1)] = self.moving;
        let t = tension_n;
        let (moved_0, moved_1) = (length_0 - give_0 * t, length_1 - give_1 * t);
        let squares = (moved_0 * moved_0, moved_1 * moved_1);
        let mut length = self.length_m + moved_0 + moved_1;
        if self.inline {
            length -= extension_m;
        }
        let length_rate = -(give_0 + give_1);
        let cubes = self.cubes_m3 + squares.0 * moved_0 + squares.1 * moved_1;
        let cubes_rate = number(-3.0) * (give_0 * squares.0 + give_1 * squares.1);
        let per_ea = self.per_ea_per_n;
        let strain = t * per_ea;
        let shrink = ONE / (ONE + strain);
        let per_tension = ONE / t;
        // Sagging rope for the sum of cubes: bow (1 − ε).
        let per_both = per_tension * shrink;
        let bow = self.bow_n2_per_m2 * per_both * per_both;
        let sag = bow * (ONE - strain);
        let sag_rate = number(-2.0) * per_tension * sag
            - per_ea * bow * (ONE + number(2.0) * (ONE - strain) * shrink);
        let sag_m = sag * cubes;
        let rate =
            (length_rate - length * per_ea * shrink) * shrink + sag_rate * cubes + sag * cubes_rate;
        IdleNeed {
            rope_m: length * shrink + sag_m,
            rate,
            curve: number(6.0) * (per_tension * per_tension) * sag_m,
        }
    }

    /// Rate of the rope with the in-line absorber's extension.
    fn by_extension(&self, tension_n: f64, side: usize) -> f64 {
        if self.inline {
            -1.0 / (1.0 + tension_n * of(self.per_ea_per_n, side))
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
