//! The line at rest and under point loads: the cable theorem and the line law.
//!
//! Every span hangs in the shape H z(x) = M(x) (H horizontal tension, M the bending moment of a
//! simple beam under the same loads and the rope's weight). The rope slides freely through the
//! intermediate supports, so the tension T is the same on both sides of each; at a connector only
//! vertical load acts, so H is the same on both sides. From the H of the first span the H of every
//! other one follows, and one scalar balance remains, the line law: the unstretched length that
//! the shape needs equals the length that was installed.
//!
//! Known limits: weight is taken per horizontal length (error below 0.1 % of the tension where
//! slopes stay below 0.3), no bending stiffness, no friction at the supports.

use alloc::vec::Vec;

use crate::case::{InlinePlace, Line};
use crate::constants::SPANS_MAX;
use crate::fault::{Fault, FieldRef};
use crate::field;
use crate::maths::sqrt;
use crate::order::sort;
use crate::roots;

/// A vertical force on the line.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct PointLoad {
    /// Place on the installed line, m from the left end post; the force stays at that point of
    /// the rope.
    pub position_m: f64,
    /// Force, N, downward.
    pub force_n: f64,
}

/// The line at rest under point loads.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Static {
    /// Horizontal tension of the span with the greatest tension, N.
    pub tension_horizontal_n: f64,
    /// Tension at the left end, N.
    pub tension_left_end_n: f64,
    /// Tension at the right end, N.
    pub tension_right_end_n: f64,
    /// Greatest tension anywhere, N.
    pub tension_max_n: f64,
    /// Greatest slope anywhere, vertical over horizontal.
    pub slope_max: f64,
    /// Deflection below the level of the supports at each load, m, in the order given.
    pub deflection_m: Vec<f64>,
    /// Inward movement of the left end, m.
    pub left_end_movement_m: f64,
    /// Inward movement of the right end, m.
    pub right_end_movement_m: f64,
    /// Extension of the in-line absorber, m; of both together where there are two.
    pub inline_extension_m: f64,
}

/// Greatest number of point loads.
pub const LOADS_MAX: usize = 24;

/// The line with its loads at rest.
///
/// # Errors
/// The faults of the line; a load that is not finite, negative or beyond 1 MN, off the line, or
/// more than [`LOADS_MAX`] loads.
///
/// # Accuracy
/// Within 0.1 % of elastic catenaries for the reference cases (tests/statics.rs).
///
/// # Source
/// H. M. Irvine, Cable Structures, MIT Press 1981, chapter 2 (cable theorem).
pub fn hang(line: &Line, loads: &[PointLoad]) -> Result<Static, Vec<Fault>> {
    let mut faults = line.line_faults();
    if faults.is_empty() {
        check_loads(loads, line.length_m(), &mut faults);
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let rest = AtRest::of(line);
    Ok(settle(line, &rest, loads, [0.0; 2]))
}

/// Checks point loads: number, size, and place on a line of the given length.
fn check_loads(loads: &[PointLoad], length_m: f64, faults: &mut Vec<Fault>) {
    let [position, force] = &field::LOADS;
    let list = FieldRef::new("point_loads");
    faults.extend(Fault::of_count(list, loads.len(), 0..=LOADS_MAX));
    for (i, load) in loads.iter().enumerate() {
        faults.extend(force.fault(Some(i), load.force_n));
        let fault = position.fault(Some(i), load.position_m);
        faults.extend(
            fault.or_else(|| Fault::beyond_line(position.name, i, load.position_m, length_m)),
        );
    }
}

/// What the installed line fixes once and for all.
#[derive(Clone, Copy, Debug)]
pub(crate) struct AtRest {
    /// Unstretched rope between the end posts, m.
    pub unstretched_m: f64,
}

impl AtRest {
    /// Arc less stretch of every span at the installed pretension.
    pub fn of(line: &Line) -> Self {
        Self {
            unstretched_m: line
                .spans_m
                .iter()
                .map(|&length| unstretched_sagging_m(line, length, line.pretension_n))
                .sum(),
        }
    }
}

/// Unstretched rope in an unloaded span of the given length under horizontal tension H, m: the
/// parabola's arc L + w²L³/(24 H²), with ε = H/EA taken off, to first order in the sag:
/// L/(1 + ε) + w²L³/(24 H²) (1 − ε)/(1 + ε)².
///
/// Source: H. M. Irvine, Cable Structures, MIT Press 1981 (parabolic cable).
pub(crate) fn unstretched_sagging_m(line: &Line, length_m: f64, tension_n: f64) -> f64 {
    let w = line.weight_n_per_m();
    let strain = tension_n / line.rope.axial_stiffness_n;
    let sagging = w * w * length_m * length_m * length_m / (24.0 * tension_n * tension_n);
    (length_m + sagging * (1.0 - strain) / (1.0 + strain)) / (1.0 + strain)
}

/// A load placed in its span; `x_m` from the span's left support.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Placed {
    pub span: usize,
    pub x_m: f64,
    pub force_n: f64,
    /// Index in the caller's order.
    pub index: usize,
}

/// Loads in the order of the line, each in its span.
pub(crate) fn place(line: &Line, loads: &[PointLoad]) -> Vec<Placed> {
    let mut placed: Vec<Placed> = loads
        .iter()
        .enumerate()
        .map(|(index, load)| {
            let (span, x_m) = line.locate(load.position_m);
            Placed {
                span,
                x_m,
                force_n: load.force_n,
                index,
            }
        })
        .collect();
    sort(&mut placed, |a, b| (a.span, a.x_m) < (b.span, b.x_m));
    placed
}

/// The taut line under given loads at given places: what every shape quantity is read from.
pub(crate) struct Taut<'a> {
    line: &'a Line,
    loads: &'a [Placed],
    /// Span lengths less the movements of their ends, m.
    lengths_m: [f64; SPANS_MAX],
    /// Horizontal tension of every span, N.
    pub horizontal_n: [f64; SPANS_MAX],
    /// Tension at the right end, N.
    right_tension_n: f64,
    /// How often the needed rope was computed: what a solution costs.
    pub evaluations: u32,
    /// Extension of the in-line absorbers at the left and the right end, m.
    pub inline_extension_m: [f64; 2],
}

/// Sums over one span.
struct SpanSums {
    unstretched_m: f64,
    slope_max: f64,
    right_tension_n: f64,
}

impl<'a> Taut<'a> {
    /// Solves the line law for the loads where they are. `extension_m` is what the in-line
    /// absorbers at the left and the right end have given before; they extend further where the
    /// tension asks for it. `near_n` is the first span's horizontal tension under loads much alike,
    /// when there is one.
    ///
    /// Where there are two, the one at the end with the greater tension yields alone until it is used
    /// up. Which end that is hangs on the loads, not on the tension: T² − V² is the same on both sides
    /// of a span, T on both sides of a support.
    pub fn solve(
        line: &'a Line,
        rest: &AtRest,
        loads: &'a [Placed],
        extension_m: [f64; 2],
        near_n: Option<f64>,
    ) -> Self {
        let mut taut = Self {
            line,
            loads,
            lengths_m: [0.0; SPANS_MAX],
            horizontal_n: [0.0; SPANS_MAX],
            right_tension_n: 0.0,
            evaluations: 0,
            inline_extension_m: extension_m,
        };
        if let Some(inline) = line.inline_absorber {
            let ends: &[usize] = match inline.place {
                InlinePlace::Left => &[0],
                InlinePlace::Right => &[1],
                InlinePlace::Both if taut.pulls_more_at_the_left() => &[0, 1],
                InlinePlace::Both => &[1, 0],
            };
            for &end in ends {
                let given_before_m = taut.inline_extension_m[end];
                if given_before_m < inline.max_extension_m {
                    // While it yields the tension at its end is known, whatever it has given: the
                    // shape under that tension says how much rope is missing.
                    let needed_m = taut.pulled(end, inline.yield_force_n, near_n);
                    let missing_m = needed_m - rest.unstretched_m - taut.given_m(1 - end);
                    let given_m = missing_m * taut.stretch(end);
                    if given_m > given_before_m {
                        taut.inline_extension_m[end] = given_m.min(inline.max_extension_m);
                        if given_m <= inline.max_extension_m {
                            return taut;
                        }
                    } else {
                        break;
                    }
                }
            }
        }
        taut.balance(rest, near_n);
        taut
    }

    /// Whether the loads pull more on the left end than on the right one, on the spans as installed.
    fn pulls_more_at_the_left(&mut self) -> bool {
        let spans_m = &self.line.spans_m;
        self.lengths_m[..spans_m.len()].copy_from_slice(spans_m);
        let mut more_n2 = 0.0;
        for (span, length_m) in spans_m.iter().enumerate() {
            let rope_n = self.line.weight_n_per_m() * length_m;
            let loads = self.span_loads(span).map(|(p, _)| p.force_n);
            let left_n = self.left_reaction_n(span);
            let right_n = rope_n + loads.sum::<f64>() - left_n;
            more_n2 += left_n * left_n - right_n * right_n;
        }
        more_n2 > 0.0
    }

    /// Takes the shape that pulls on an end with `tension_n`; the rope that it needs, m.
    fn pulled(&mut self, end: usize, tension_n: f64, near_n: Option<f64>) -> f64 {
        let mut needed_m = 0.0;
        let mut surplus_n = |h: f64| {
            needed_m = self.needed_m(h);
            self.end_tension_n(end) - tension_n
        };
        let near_n = near_n.unwrap_or(tension_n);
        let guesses = [near_n, 0.999 * near_n];
        if roots::nearby(&mut surplus_n, guesses, 1.0e-9).is_none() {
            let root = roots::bracketed(&mut surplus_n, 1.0e-2, tension_n, 1.0e-9 * tension_n);
            surplus_n(root.x);
        }
        needed_m
    }

    /// Finds the horizontal tension of the first span at which the shape needs just the rope that
    /// there is, from a guess where there is one. The needed length falls as the tension rises, so
    /// the root is unique: secants find it in a few steps, and where they leave the neighbourhood
    /// it is bracketed.
    fn balance(&mut self, rest: &AtRest, near_n: Option<f64>) {
        let near_n = near_n.unwrap_or_else(|| self.first_guess_n(rest));
        let guesses = [near_n, 1.001 * near_n];
        if roots::nearby(|h| self.excess_m(rest, h), guesses, 1.0e-9).is_some() {
            return;
        }
        let mut high = 2.0 * self.line.pretension_n;
        while self.excess_m(rest, high) > 0.0 && high < 1.0e9 {
            high *= 2.0;
        }
        let mut low = 0.5 * self.line.pretension_n;
        while self.excess_m(rest, low) < 0.0 && low > 1.0e-2 {
            low *= 0.25;
        }
        let root = roots::bracketed(|h| self.excess_m(rest, h), low, high, 1e-9 * high);
        self.excess_m(rest, root.x);
    }

    /// Horizontal tension from the rope that the shape would need at the pretension, N: the need
    /// taken to fall as 1/H², against the stretch of rope and ends, linear in H.
    fn first_guess_n(&mut self, rest: &AtRest) -> f64 {
        let line = self.line;
        let installed_n = line.pretension_n;
        let need_m_n2 = self.excess_m(rest, installed_n) * installed_n * installed_n;
        let ends = [
            line.left_end_stiffness_n_per_m,
            line.right_end_stiffness_n_per_m,
        ];
        let give_m_per_n = ends.iter().flatten().map(|k| 1.0 / k).sum::<f64>()
            + line.length_m() / line.rope.axial_stiffness_n;
        if need_m_n2 <= 0.0 {
            return installed_n;
        }
        // Newton on give (H − T0) H² = need from above, where it falls to the root without fail.
        let mut h = installed_n + need_m_n2 / (give_m_per_n * installed_n * installed_n);
        for _ in 0..40 {
            let value = give_m_per_n * (h - installed_n) * h * h - need_m_n2;
            let step = value / (give_m_per_n * h * (3.0 * h - 2.0 * installed_n));
            h -= step;
            if step <= 1.0e-3 * h {
                break;
            }
        }
        h
    }

    /// Unstretched rope needed less rope installed, m, with horizontal tension `first_n` in the
    /// first span.
    fn excess_m(&mut self, rest: &AtRest, first_n: f64) -> f64 {
        let needed_m = self.needed_m(first_n);
        needed_m - self.given_m(1) - self.given_m(0) - rest.unstretched_m
    }

    /// Unstretched rope that the absorber at an end stands for, m: extended, it is a straight piece in
    /// line with the rope's end.
    fn given_m(&self, end: usize) -> f64 {
        match self.inline_extension_m[end] {
            0.0 => 0.0,
            extension_m => extension_m / self.stretch(end),
        }
    }

    /// Stretched over unstretched length of the rope at an end.
    fn stretch(&self, end: usize) -> f64 {
        1.0 + self.end_tension_n(end) / self.line.rope.axial_stiffness_n
    }

    /// Tension at the left end (0) or the right one, N.
    fn end_tension_n(&self, end: usize) -> f64 {
        if end > 0 {
            return self.right_tension_n;
        }
        let (h, v) = (self.horizontal_n[0], self.left_reaction_n(0));
        sqrt(h * h + v * v)
    }

    /// Extension of all in-line absorbers, m.
    pub fn inline_total_m(&self) -> f64 {
        self.inline_extension_m[0] + self.inline_extension_m[1]
    }

    /// Unstretched rope that the shape needs from post to post, m, with horizontal tension
    /// `first_n` in the first span; leaves the other spans' tensions in `self`.
    fn needed_m(&mut self, first_n: f64) -> f64 {
        self.evaluations += 1;
        let n = self.line.spans_m.len();
        self.lengths_m[..n].copy_from_slice(&self.line.spans_m);
        self.lengths_m[0] -= self.movement_m(self.line.left_end_stiffness_n_per_m, first_n);
        let mut needed = 0.0;
        let mut horizontal = first_n;
        let mut tension = 0.0;
        for span in 0..n {
            if span + 1 == n {
                // The movement of the right end depends on the tension that it settles: two
                // passes are exact to rounding, since the end reactions hardly change.
                let fixed = self.lengths_m[span];
                for _ in 0..3 {
                    if span > 0 {
                        horizontal = self.horizontal_from_tension(span, tension);
                    }
                    self.lengths_m[span] =
                        fixed - self.movement_m(self.line.right_end_stiffness_n_per_m, horizontal);
                }
            } else if span > 0 {
                horizontal = self.horizontal_from_tension(span, tension);
            }
            self.horizontal_n[span] = horizontal;
            let sums = self.span_sums(span, self.lengths_m[span], |_, _, _| ());
            tension = sums.right_tension_n;
            needed += sums.unstretched_m;
        }
        self.right_tension_n = tension;
        needed
    }

    /// Inward movement of an end, m: (H − T0)/k.
    fn movement_m(&self, stiffness: Option<f64>, horizontal_n: f64) -> f64 {
        stiffness.map_or(0.0, |k| (horizontal_n - self.line.pretension_n) / k)
    }

    /// H of a span of which the tension at its left support is known: √(T² − V²).
    fn horizontal_from_tension(&self, span: usize, tension_n: f64) -> f64 {
        let v = self.left_reaction_n(span);
        let squared = tension_n * tension_n - v * v;
        // A span whose support reaction exceeds the tension has no taut shape: keep it barely so.
        sqrt(squared.max(1.0e-6 * tension_n * tension_n)).max(1e-3)
    }

    /// Loads of a span with their places in it as it is now: where its ends have moved, places
    /// keep their part of its length.
    fn span_loads(&self, span: usize) -> impl Iterator<Item = (&'a Placed, f64)> {
        let scale = self.lengths_m[span] / self.line.spans_m[span];
        self.loads
            .iter()
            .filter(move |p| p.span == span)
            .map(move |p| (p, p.x_m * scale))
    }

    /// Vertical reaction at the left support of a span, N.
    fn left_reaction_n(&self, span: usize) -> f64 {
        let length = self.lengths_m[span];
        self.span_loads(span)
            .fold(0.5 * self.line.weight_n_per_m() * length, |v, (p, x_m)| {
                v + p.force_n * (length - x_m) / length
            })
    }

    /// Walks a span from left to right, segment by segment between loads. `visit` gets each load
    /// with the deflection and the unstretched rope from the span's left support to it.
    fn span_sums(
        &self,
        span: usize,
        length: f64,
        mut visit: impl FnMut(&Placed, f64, f64),
    ) -> SpanSums {
        let h = self.horizontal_n[span];
        let w = self.line.weight_n_per_m();
        let mut slope = self.left_reaction_n(span) / h;
        let (mut x, mut z, mut unstretched) = (0.0, 0.0, 0.0);
        let mut slope_max = 0.0_f64;
        let mut walk = |dx: f64, slope: &mut f64, z: &mut f64, unstretched: &mut f64| {
            let end = *slope - w * dx / h;
            *unstretched += unstretched_m(*slope, end, dx, h / self.line.rope.axial_stiffness_n);
            *z += 0.5 * (*slope + end) * dx;
            // Between a support and a load right at it there is no rope to be steep.
            if dx > 1e-9 {
                slope_max = slope_max.max(slope.abs()).max(end.abs());
            }
            *slope = end;
        };
        for (p, x_m) in self.span_loads(span) {
            walk(x_m - x, &mut slope, &mut z, &mut unstretched);
            x = x_m;
            visit(p, z, unstretched);
            slope -= p.force_n / h;
        }
        walk(length - x, &mut slope, &mut z, &mut unstretched);
        SpanSums {
            unstretched_m: unstretched,
            slope_max,
            right_tension_n: h * sqrt(1.0 + slope * slope),
        }
    }

    /// Deflection at every load, m, written at the load's own index.
    pub fn deflections_m(&self, out: &mut [f64]) {
        for span in 0..self.line.spans_m.len() {
            self.span_sums(span, self.lengths_m[span], |p, z, _| {
                if let Some(slot) = out.get_mut(p.index) {
                    *slot = z;
                }
            });
        }
    }

    /// Greatest slope and greatest tension over all spans, with the span that has it.
    pub fn extremes(&self) -> (f64, f64, usize) {
        let (mut slope_max, mut tension_max, mut at) = (0.0_f64, 0.0_f64, 0);
        for span in 0..self.line.spans_m.len() {
            let sums = self.span_sums(span, self.lengths_m[span], |_, _, _| ());
            let tension = self.horizontal_n[span] * sqrt(1.0 + sums.slope_max * sums.slope_max);
            slope_max = slope_max.max(sums.slope_max);
            if tension > tension_max {
                (tension_max, at) = (tension, span);
            }
        }
        (slope_max, tension_max, at)
    }
}

/// Unstretched rope over `dx` where the slope s runs linearly from `from` to `to` under the
/// horizontal strain ε = H/EA, m: ∫ r/(1 + ε r) dx with r = √(1 + s²), by five-point
/// Gauss-Legendre quadrature, exact to rounding for taut lines.
fn unstretched_m(from: f64, to: f64, dx: f64, strain: f64) -> f64 {
    // Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4, n = 5.
    const RULE: [(f64, f64); 5] = [
        (-0.906_179_845_938_664, 0.236_926_885_056_189),
        (-0.538_469_310_105_683, 0.478_628_670_499_366),
        (0.0, 0.568_888_888_888_889),
        (0.538_469_310_105_683, 0.478_628_670_499_366),
        (0.906_179_845_938_664, 0.236_926_885_056_189),
    ];
    let (mean, half) = (0.5 * (from + to), 0.5 * (to - from));
    let sum: f64 = RULE
        .iter()
        .map(|&(x, weight)| {
            let s = mean + half * x;
            let r = sqrt(1.0 + s * s);
            weight * r / (1.0 + strain * r)
        })
        .sum();
    0.5 * dx * sum
}

/// Static equilibrium with the loads fixed to the rope: their x follows the rope as it stretches
/// and slides.
///
/// `extension_m`: of the in-line absorbers at the left and the right end before.
pub(crate) fn settle(
    line: &Line,
    rest: &AtRest,
    loads: &[PointLoad],
    extension_m: [f64; 2],
) -> Static {
    let mut placed = place(line, loads);
    let n = line.spans_m.len();
    // Unstretched rope from the left end to every load in the installed state.
    let mut marks = [0.0; LOADS_MAX];
    {
        let unloaded: Vec<Placed> = placed
            .iter()
            .map(|p| Placed { force_n: 0.0, ..*p })
            .collect();
        let near_n = Some(line.pretension_n);
        let installed = Taut::solve(line, rest, &unloaded, [0.0; 2], near_n);
        rope_to_loads(&installed, n, &mut marks);
    }
    let mut found = [0.0; LOADS_MAX];
    let mut near_n = None;
    for _ in 0..40 {
        let taut = Taut::solve(line, rest, &placed, extension_m, near_n);
        near_n = Some(taut.horizontal_n[0]);
        rope_to_loads(&taut, n, &mut found);
        let mut moved = 0.0_f64;
        for p in &mut placed {
            let Some((mark, now)) = marks.get(p.index).zip(found.get(p.index)) else {
                continue;
            };
            // A connector does not pass through a support.
            let at = crate::maths::clamp(p.x_m + (mark - now), 0.0, line.spans_m[p.span]);
            moved = moved.max((at - p.x_m).abs());
            p.x_m = at;
        }
        if moved < 1e-9 {
            break;
        }
    }
    let taut = Taut::solve(line, rest, &placed, extension_m, near_n);
    let mut deflection_m = alloc::vec![0.0; loads.len()];
    taut.deflections_m(&mut deflection_m);
    let (slope_max, tension_max_n, at) = taut.extremes();
    let left = taut.horizontal_n[0];
    let right = taut.horizontal_n[n - 1];
    Static {
        tension_horizontal_n: taut.horizontal_n[at],
        tension_left_end_n: taut.end_tension_n(0),
        tension_right_end_n: taut.right_tension_n,
        tension_max_n,
        slope_max,
        deflection_m,
        left_end_movement_m: taut.movement_m(line.left_end_stiffness_n_per_m, left),
        right_end_movement_m: taut.movement_m(line.right_end_stiffness_n_per_m, right),
        inline_extension_m: taut.inline_total_m(),
    }
}

/// Unstretched rope from its left end to every load, m, at the load's own index.
fn rope_to_loads(taut: &Taut<'_>, spans: usize, out: &mut [f64; LOADS_MAX]) {
    let mut before = -taut.given_m(0);
    for span in 0..spans {
        let sums = taut.span_sums(span, taut.lengths_m[span], |p, _, rope| {
            if let Some(slot) = out.get_mut(p.index) {
                *slot = before + rope;
            }
        });
        before += sums.unstretched_m;
    }
}
