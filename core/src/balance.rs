//! The energy balance method: all who fall stop at one instant, and for each of them gravity work
//! equals the work on the line and the work in his gear.
//!
//! The line is taken through static shapes under forces that grow in proportion; worker i's share
//! of the line's energy is ∫P_i dz_i along that path, so the shares add up to what line, ends and
//! in-line absorber take. With P_i at the absorber's deployment force the extension follows
//! directly; where the absorber is not reached, or is used up, P_i is searched for. Where its force
//! follows a curve, the stretch of the gear is searched for at which there is first no energy left;
//! the line's tension is that under the greatest forces on the way, which a falling curve has before.
//!
//! Known limits: no line inertia, no timing, the connectors stay at their installed x; the lowering of
//! the line at the stop does not know that an in-line absorber may have opened under a peak before.
//!
//! # Source
//! The energy balance design method for horizontal lifelines as discussed by Galy and Lan,
//! Int. J. Occup. Saf. Ergon. (2017); the shares by worker are ours.

use alloc::vec;
use alloc::vec::Vec;

use crate::absorber::{self, Pull};
use crate::case::{Case, Line};
use crate::constants::{GRAVITY_M_PER_S2, WORKERS_MAX};
use crate::line::{self, AtRest, Placed, PointLoad, Taut};
use crate::outcome::Balance;
use crate::roots;

/// Who falls, and with what.
struct Faller {
    worker: usize,
    mass_kg: f64,
    free_fall_m: f64,
    rest_m: f64,
    pull: Pull,
}

impl Faller {
    fn weight_n(&self) -> f64 {
        self.mass_kg * GRAVITY_M_PER_S2
    }

    /// Gravity work less line work less gear work, J, when he stops at force P with the line
    /// lowered by `lowered_m` and its share of work `line_j`.
    fn surplus_j(&self, force_n: f64, lowered_m: f64, line_j: f64) -> f64 {
        let extension = if force_n > self.pull.plateau_n() {
            self.pull.max_extension_m()
        } else {
            0.0
        };
        let stretch = self.pull.elastic_stretch_m(force_n, extension) + extension;
        let absorbed = if extension > 0.0 {
            self.pull.plateau_n() * extension
        } else {
            0.0
        };
        self.weight_n() * (self.free_fall_m + lowered_m + stretch)
            - line_j
            - self.pull.elastic_j(force_n, extension)
            - absorbed
    }

    /// The same when he stops with his gear stretched so far along its path.
    fn surplus_along_j(&self, stop: &Stop, lowered_m: f64, line_j: f64) -> f64 {
        self.weight_n() * (self.free_fall_m + lowered_m + stop.stretch_m) - line_j - stop.work_j
    }

    /// His gear stretched so far along its path, or beyond its end.
    #[cold]
    fn stop(&self, path: &absorber::Path, stretch_m: f64) -> Stop {
        let (end_m, end_n) = path.end();
        let taken = path.at(stretch_m);
        let beyond_m = (stretch_m - end_m).max(0.0);
        let more_n = self.pull.locked_stiffness_n_per_m() * beyond_m;
        let most_m = self.pull.max_extension_m();
        let force_n = taken.force_n + more_n;
        Stop {
            stretch_m,
            force_n,
            greatest_n: taken.greatest_n.max(force_n),
            extension_m: if stretch_m >= end_m {
                most_m
            } else {
                let elastic_m = taken.force_n / self.pull.stiffness_n_per_m();
                crate::maths::clamp(stretch_m - elastic_m, 0.0, most_m)
            },
            work_j: taken.work_j + (end_n + 0.5 * more_n) * beyond_m,
        }
    }
}

/// How one stops whose gear follows a path.
#[derive(Clone, Copy, Default)]
struct Stop {
    stretch_m: f64,
    force_n: f64,
    /// Greatest force on the way.
    greatest_n: f64,
    extension_m: f64,
    /// Work done on the gear.
    work_j: f64,
}

/// The whole of the forces, after the four parts of the quadrature.
const WHOLE: (usize, f64) = (4, 1.0);

/// Lowering and line work of every faller under the forces `force_n`.
struct Path<'a> {
    line: &'a Line,
    rest: &'a AtRest,
    placed: Vec<Placed>,
    rest_m: Vec<f64>,
    /// Horizontal tensions that the last walk found at its parts: the next one starts from them.
    near_n: [Option<f64>; 5],
    /// How often the line law was evaluated.
    evaluations: u32,
}

impl Path<'_> {
    /// Deflections below the supports and line work of each faller.
    fn walk(&mut self, force_n: &[f64], deflection_m: &mut [f64], work_j: &mut [f64]) {
        // ∫P dz = P (z(1) − ∫z dλ), the integral by four-point Gauss-Legendre quadrature
        // (Abramowitz and Stegun, table 25.4).
        const RULE: [(f64, f64); 4] = [
            (0.069_431_844_202_974, 0.173_927_422_568_727),
            (0.330_009_478_207_572, 0.326_072_577_431_273),
            (0.669_990_521_792_428, 0.326_072_577_431_273),
            (0.930_568_155_797_026, 0.173_927_422_568_727),
        ];
        let n = force_n.len();
        let mut z = [0.0; WORKERS_MAX];
        let mut mean = [0.0; WORKERS_MAX];
        for (i, (part, weight)) in RULE.into_iter().enumerate() {
            self.shape(force_n, (i, part), &mut z[..n]);
            for (m, z) in mean.iter_mut().zip(&z[..n]) {
                *m += weight * z;
            }
        }
        self.shape(force_n, WHOLE, deflection_m);
        for i in 0..n {
            work_j[i] = force_n[i] * (deflection_m[i] - mean[i]);
        }
    }

    /// Shape and deflections under a part of the forces; with the part comes its place in `near_n`.
    fn shape(
        &mut self,
        force_n: &[f64],
        (at, part): (usize, f64),
        deflection_m: &mut [f64],
    ) -> Taut<'_> {
        for p in &mut self.placed {
            p.force_n = part * force_n[p.index];
        }
        let near_n = self.near_n[at];
        let taut = Taut::solve(self.line, self.rest, &self.placed, [0.0; 2], near_n);
        self.near_n[at] = Some(taut.horizontal_n[0]);
        self.evaluations += taut.evaluations;
        taut.deflections_m(deflection_m);
        taut
    }
}

/// Those who fall, the line's path under them, and the forces at which everyone's energy balances; of
/// those whose gear follows a path, how they stop.
struct Settled<'a> {
    fallers: Vec<Faller>,
    path: Path<'a>,
    force_n: Vec<f64>,
    stops: Vec<Option<Stop>>,
}

/// Finds them.
fn settled<'a>(case: &'a Case, rest: &'a AtRest) -> Settled<'a> {
    let line = &case.line;
    let fallers: Vec<Faller> = case
        .workers
        .iter()
        .enumerate()
        .filter(|(_, w)| w.fall_time_s.is_some())
        .map(|(worker, w)| Faller {
            worker,
            mass_kg: w.mass_kg,
            free_fall_m: w.free_fall_m(line),
            rest_m: line.rest_deflection_m(w.position_m),
            pull: Pull::new(&w.gear),
        })
        .collect();
    let loads: Vec<PointLoad> = fallers
        .iter()
        .map(|f| PointLoad {
            position_m: case.workers[f.worker].position_m,
            force_n: 0.0,
        })
        .collect();
    let n = fallers.len();
    let mut path = Path {
        line,
        rest,
        placed: line::place(line, &loads),
        rest_m: fallers.iter().map(|f| f.rest_m).collect(),
        near_n: [None; 5],
        evaluations: 0,
    };
    let mut force = vec![0.0; n];
    for (p, f) in force.iter_mut().zip(&fallers) {
        let plateau = f.pull.plateau_n();
        *p = if plateau.is_finite() {
            plateau
        } else {
            4.0 * f.weight_n()
        };
    }
    let mut stops = vec![None; n];
    settle_forces(&mut path, &fallers, &mut force, &mut stops);
    Settled {
        fallers,
        path,
        force_n: force,
        stops,
    }
}

/// Stops everyone who falls, by energy alone.
pub(crate) fn balance(case: &Case, rest: &AtRest) -> Balance {
    let line = &case.line;
    let Settled {
        fallers,
        mut path,
        force_n: mut force,
        stops,
    } = settled(case, rest);
    let n = fallers.len();
    let (mut z, mut work) = (vec![0.0; n], vec![0.0; n]);
    path.walk(&force, &mut z, &mut work);
    let count = case.workers.len();
    let mut result = Balance {
        tension_horizontal_n: 0.0,
        tension_max_n: 0.0,
        inline_extension_m: 0.0,
        arrest_force_n: vec![0.0; count],
        absorber_extension_m: vec![0.0; count],
        stretch_m: vec![0.0; count],
        deflection_m: case
            .workers
            .iter()
            .map(|w| line.rest_deflection_m(w.position_m))
            .collect(),
    };
    for (i, f) in fallers.iter().enumerate() {
        result.deflection_m[f.worker] = z[i];
        if let Some(stop) = &stops[i] {
            // From here on the greatest one counts.
            force[i] = stop.greatest_n;
            result.absorber_extension_m[f.worker] = stop.extension_m;
            result.stretch_m[f.worker] = stop.stretch_m;
        } else {
            let extension_m = extension_m(f, force[i], z[i] - f.rest_m, work[i]);
            result.absorber_extension_m[f.worker] = extension_m;
            result.stretch_m[f.worker] =
                f.pull.elastic_stretch_m(force[i], extension_m) + extension_m;
        }
        result.arrest_force_n[f.worker] = force[i];
    }
    let taut = path.shape(&force, WHOLE, &mut z);
    let (_, tension_max, at) = taut.extremes();
    result.tension_max_n = tension_max;
    result.tension_horizontal_n = taut.horizontal_n[at];
    result.inline_extension_m = taut.inline_total_m();
    result
}

/// Extension of the absorber when the arrest force stands at its plateau, m.
fn extension_m(f: &Faller, force_n: f64, lowered_m: f64, line_j: f64) -> f64 {
    let plateau = f.pull.plateau_n();
    if force_n < plateau {
        return 0.0;
    }
    if force_n > plateau {
        return f.pull.max_extension_m();
    }
    let left = f.surplus_j(plateau, lowered_m, line_j);
    if plateau > f.weight_n() {
        crate::maths::clamp(
            left / (plateau - f.weight_n()),
            0.0,
            f.pull.max_extension_m(),
        )
    } else {
        f.pull.max_extension_m()
    }
}

/// Finds the forces at which each faller's energy balances, one after another until all do.
fn settle_forces(
    path: &mut Path<'_>,
    fallers: &[Faller],
    force: &mut [f64],
    stops: &mut [Option<Stop>],
) {
    const SWEEPS: u32 = 30;
    let n = fallers.len();
    let (mut z, mut work) = ([0.0; WORKERS_MAX], [0.0; WORKERS_MAX]);
    for _ in 0..SWEEPS {
        let mut changed = 0.0_f64;
        for (i, f) in fallers.iter().enumerate() {
            let before = force[i];
            if let Some(along) = f.pull.path() {
                let mut surplus = |stretch_m: f64| {
                    let stop = f.stop(along, stretch_m);
                    force[i] = stop.force_n;
                    path.walk(force, &mut z[..n], &mut work[..n]);
                    f.surplus_along_j(&stop, z[i] - path.rest_m[i], work[i])
                };
                let near_m = stops[i].map(|stop| stop.stretch_m);
                let stop = f.stop(along, stretch_at_stop_m(&mut surplus, f, along, near_m));
                force[i] = stop.force_n;
                stops[i] = Some(stop);
                changed = changed.max((stop.force_n - before).abs());
                continue;
            }
            let mut surplus = |p: f64| {
                force[i] = p;
                path.walk(force, &mut z[..n], &mut work[..n]);
                f.surplus_j(p, z[i] - path.rest_m[i], work[i])
            };
            let plateau = f.pull.plateau_n();
            let found = if plateau.is_finite() {
                // At the plateau any extension up to the greatest balances.
                let at_plateau = surplus(plateau);
                let travel_j = (plateau - f.weight_n()) * f.pull.max_extension_m();
                if at_plateau < 0.0 {
                    // At his weight alone no one stops: there is a surplus left.
                    let least = f.weight_n().min(plateau);
                    root(&mut surplus, before, least, plateau).min(plateau)
                } else if at_plateau <= travel_j {
                    plateau
                } else {
                    let high = bracket(&mut surplus, plateau);
                    root(&mut surplus, before, plateau * (1.0 + 1e-12), high)
                }
            } else {
                let high = bracket(&mut surplus, f.weight_n());
                root(&mut surplus, before, f.weight_n(), high)
            };
            force[i] = found;
            changed = changed.max((found - before).abs());
        }
        if changed < 0.1 || n == 1 {
            break;
        }
    }
}

/// Stretch at which there is first no surplus: along the corners of the path, and beyond its end. Sought
/// first between the two corners where the last sweep found it.
#[cold]
fn stretch_at_stop_m(
    surplus: &mut impl FnMut(f64) -> f64,
    f: &Faller,
    along: &absorber::Path,
    near_m: Option<f64>,
) -> f64 {
    const TOLERANCE_M: f64 = 1.0e-7;
    let (end_m, end_n) = along.end();
    // Beyond the end in steps that double: to forces at which every line has broken.
    let lock = f.pull.locked_stiffness_n_per_m();
    let beyond = (0..14).map(|i| end_m + f64::from(1_u32 << i) * end_n / lock);
    let corners = || along.corners().map(|(stretch_m, _)| stretch_m);
    if let Some(near_m) = near_m {
        let low_m = corners().filter(|m| *m < near_m).last().unwrap_or(0.0);
        let high_m = corners().chain(beyond.clone()).find(|m| *m >= near_m);
        let high_m = high_m.unwrap_or(near_m);
        let mut inside = |m: f64| {
            if m > low_m && m <= high_m {
                surplus(m)
            } else {
                f64::NAN
            }
        };
        let guesses = [near_m, low_m + 0.99 * (near_m - low_m)];
        if let Some(found_m) = roots::nearby(&mut inside, guesses, TOLERANCE_M) {
            return found_m;
        }
    }
    let mut low_m = 0.0;
    for high_m in corners().chain(beyond) {
        if high_m > low_m && surplus(high_m) <= 0.0 {
            return roots::bracketed(surplus, low_m, high_m, TOLERANCE_M).x;
        }
        low_m = high_m;
    }
    low_m
}

/// Force between `low` and `high` at which there is no surplus, sought first near the last one.
fn root(surplus: &mut impl FnMut(f64) -> f64, before: f64, low: f64, high: f64) -> f64 {
    let mut inside = |p: f64| {
        if p >= low && p <= high {
            surplus(p)
        } else {
            f64::NAN
        }
    };
    let start = crate::maths::clamp(before, low, high);
    roots::nearby(&mut inside, [start, 0.99 * start], 1e-7)
        .unwrap_or_else(|| roots::bracketed(surplus, low, high, 1e-3).x)
}

/// A force above `from` at which the surplus is gone.
fn bracket(surplus: &mut impl FnMut(f64) -> f64, from: f64) -> f64 {
    let mut high = 2.0 * from;
    while surplus(high) > 0.0 && high < 1.0e7 {
        high *= 2.0;
    }
    high
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{InlineAbsorber, InlinePlace};
    use crate::spread::Spread;

    /// Where the in-line absorber yields the line law needs no search within a search; where there are
    /// two one more at most, as the second yields when the first is used up.
    #[test]
    fn costs_no_more_with_an_inline_absorber_that_yields() {
        let mut by = Spread::new(43);
        let places = [InlinePlace::Right, InlinePlace::Left, InlinePlace::Both];
        let (mut opened, mut tried) = ([0; 3], 0);
        while opened.iter().any(|n| *n < 60) {
            tried += 1;
            let mut case = by.case();
            case.line.inline_absorber = Some(InlineAbsorber {
                yield_force_n: by.between(9.0e3, 16.0e3),
                max_extension_m: by.between(0.1, 1.5),
                place: places[tried % 3],
            });
            let Ok(ready) = case.ready() else {
                continue;
            };
            let case = ready.case();
            let rest = AtRest::of(&case.line);
            let opens = balance(case, &rest).inline_extension_m > 0.0;
            opened[tried % 3] += usize::from(opens);
            let evaluations = settled(case, &rest).path.evaluations;
            let most = [10_000, 10_000, 15_000][tried % 3];
            assert!(evaluations < most, "{evaluations}");
        }
    }
}
