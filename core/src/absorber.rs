//! The constants of connecting gear: webbing, then absorber, then stiff.

use crate::case::Gear;
use crate::curve::POINTS_MAX;
use crate::maths::sqrt;

/// Constants of one worker's connecting gear: slope k up to the deployment force F of the absorber,
/// F up to its greatest extension, then slope k_lock. F stays the same, or follows a path.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pull {
    stiffness_n_per_m: f64,
    /// Deployment force; of a path that at its end. Infinite without an absorber.
    plateau_n: f64,
    max_extension_m: f64,
    locked_stiffness_n_per_m: f64,
    path: Option<Path>,
}

/// Stretch of gear, webbing and absorber together, and its force while it is stretched ever more: the
/// corners of a curve, in order of stretch, straight between them.
///
/// Where a curve falls more steeply than the webbing slackens, force P against extension e with
/// dP/de < −k, the webbing tears it on: at one stretch s the force falls along k (s − e) to where the
/// curve is met again. What the webbing loses then the absorber has taken. So stretch never falls, two
/// corners at one stretch are such a fall, and work done on the gear is the area under the path.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Path {
    stiffness_n_per_m: f64,
    count: usize,
    stretch_m: [f64; POINTS_MAX],
    force_n: [f64; POINTS_MAX],
}

impl Path {
    /// Of a curve in series with webbing of this slope; `None`: its force stays the same, or it has
    /// fewer than two points.
    #[cold]
    fn new(extension_m: &[f64], curve_n: &[f64], stiffness_n_per_m: f64) -> Option<Self> {
        let (first_n, rest) = curve_n.split_first()?;
        if rest.iter().all(|force_n| force_n == first_n) {
            return None;
        }
        let mut path = Self {
            stiffness_n_per_m,
            count: 0,
            stretch_m: [0.0; POINTS_MAX],
            force_n: [0.0; POINTS_MAX],
        };
        let (mut reached_m, mut last) = (f64::NEG_INFINITY, (0.0, 0.0));
        for (&extension_m, &force_n) in extension_m.iter().zip(curve_n) {
            let stretch_m = extension_m + force_n / stiffness_n_per_m;
            if stretch_m >= reached_m {
                let (before_m, before_n) = last;
                if before_m < reached_m {
                    // It is met again between the last point and this one.
                    let part = (reached_m - before_m) / (stretch_m - before_m);
                    path.push(reached_m, before_n + part * (force_n - before_n));
                }
                path.push(stretch_m, force_n);
                reached_m = stretch_m;
            }
            last = (stretch_m, force_n);
        }
        let (end_m, _) = last;
        if end_m < reached_m {
            // It is not met again: torn to its end.
            let extension_m = extension_m.last().copied().unwrap_or(0.0);
            path.push(reached_m, stiffness_n_per_m * (reached_m - extension_m));
        }
        Some(path)
    }

    #[cold]
    fn push(&mut self, stretch_m: f64, force_n: f64) {
        if let (Some(stretch), Some(force)) = (
            self.stretch_m.get_mut(self.count),
            self.force_n.get_mut(self.count),
        ) {
            *stretch = stretch_m;
            *force = force_n;
            self.count += 1;
        }
    }

    /// The corners: stretch, m, and force, N.
    pub fn corners(&self) -> impl Iterator<Item = (f64, f64)> {
        let (stretch, force) = (self.stretch_m.iter(), self.force_n.iter());
        stretch.copied().zip(force.copied()).take(self.count)
    }

    /// Force and stretch at which the absorber begins to extend.
    fn first(&self) -> (f64, f64) {
        (self.stretch_m[0], self.force_n[0])
    }

    /// Stretch, m, and force, N, at which it is used up.
    #[cold]
    pub fn end(&self) -> (f64, f64) {
        self.corners().last().unwrap_or_default()
    }

    /// What has happened when the gear is stretched so far for the first time, but not beyond its end.
    #[cold]
    pub fn at(&self, stretch_m: f64) -> Taken {
        let (mut from, mut area_j, mut greatest_n) = ((0.0, 0.0), 0.0, 0.0_f64);
        for corner in self.corners() {
            let (x, f) = from;
            let (x_to, f_to) = corner;
            if stretch_m <= x_to {
                let part = if x_to > x {
                    (stretch_m - x) / (x_to - x)
                } else {
                    1.0
                };
                let force_n = f + part * (f_to - f);
                return Taken {
                    force_n,
                    greatest_n: greatest_n.max(force_n),
                    work_j: area_j + 0.5 * (f + force_n) * (stretch_m - x),
                };
            }
            area_j += 0.5 * (f + f_to) * (x_to - x);
            greatest_n = greatest_n.max(f_to);
            from = corner;
        }
        Taken {
            force_n: from.1,
            greatest_n,
            work_j: area_j,
        }
    }

    /// Work that its absorber has taken of what the gear has, J.
    pub fn absorbed_j(&self, taken: Taken) -> f64 {
        taken.work_j - taken.force_n * taken.force_n / (2.0 * self.stiffness_n_per_m)
    }
}

/// Gear stretched along its path.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Taken {
    pub force_n: f64,
    /// Greatest force until then.
    pub greatest_n: f64,
    /// Work done on it.
    pub work_j: f64,
}

impl Pull {
    /// Of gear as told.
    #[inline(never)]
    pub fn new(gear: &Gear) -> Self {
        let absorber = gear.absorber;
        let stiffness_n_per_m = gear.stiffness_n_per_m;
        let path = absorber.and_then(|a| {
            let (extension_m, force_n) = a.corners();
            Path::new(
                extension_m.as_slice(),
                force_n.as_slice(),
                stiffness_n_per_m,
            )
        });
        // Also where a curve keeps one force all the way.
        let plateau_n = absorber.map_or(f64::INFINITY, |a| {
            let last = a.curve_force_n.as_slice().last();
            last.copied().unwrap_or(a.average_force_n)
        });
        Self {
            stiffness_n_per_m,
            plateau_n: path.map_or(plateau_n, |path| path.end().1),
            max_extension_m: absorber.map_or(0.0, |a| a.extension_most_m()),
            locked_stiffness_n_per_m: absorber
                .map_or(stiffness_n_per_m, |a| a.locked_stiffness_n_per_m),
            path,
        }
    }

    /// Slope up to the deployment force, N/m.
    pub fn stiffness_n_per_m(&self) -> f64 {
        self.stiffness_n_per_m
    }

    /// Slope once the absorber is used up, N/m.
    pub fn locked_stiffness_n_per_m(&self) -> f64 {
        self.locked_stiffness_n_per_m
    }

    /// True once the absorber has no travel left and has been pulled beyond its plateau, or beyond the
    /// end of its path.
    pub fn used_up(&self, force_max_n: f64, stretch_max_m: f64) -> bool {
        match self.path {
            Some(path) => stretch_max_m > path.end().0 * (1.0 + 1e-9),
            None => self.plateau_n.is_finite() && force_max_n > self.plateau_n * (1.0 + 1e-9),
        }
    }

    /// Deployment force, N, of a path that at its end; infinite without an absorber.
    pub fn plateau_n(&self) -> f64 {
        self.plateau_n
    }

    /// Force at which the absorber begins to extend, N; infinite without one.
    pub fn deploys_n(&self) -> f64 {
        self.path.map_or(self.plateau_n, |path| path.first().1)
    }

    /// The path of its force where that does not stay the same.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_ref()
    }

    /// Greatest extension, m.
    pub fn max_extension_m(&self) -> f64 {
        self.max_extension_m
    }

    /// What of a force the webbing bears along its own slope, N, the absorber extended so far: all of
    /// it while there is travel left.
    fn below_n(&self, force_n: f64, extension_m: f64) -> f64 {
        if self.path.is_some() && extension_m < self.max_extension_m {
            force_n
        } else {
            force_n.min(self.plateau_n)
        }
    }

    /// Elastic energy stored at this force, the absorber extended so far, J.
    pub fn elastic_j(&self, force_n: f64, extension_m: f64) -> f64 {
        let below = self.below_n(force_n, extension_m);
        let above = force_n - below;
        below * below / (2.0 * self.stiffness_n_per_m)
            + above * (force_n + below) / (2.0 * self.locked_stiffness_n_per_m)
    }

    /// Elastic stretch at this force, the absorber extended so far, m.
    pub fn elastic_stretch_m(&self, force_n: f64, extension_m: f64) -> f64 {
        let below = self.below_n(force_n, extension_m);
        below / self.stiffness_n_per_m + (force_n - below) / self.locked_stiffness_n_per_m
    }

    /// Force, N, at which the gear has taken an energy, J, and the work of the weight, N, that hangs in
    /// it, on the way there; its other end does not move.
    ///
    /// Webbing to the plateau, plateau, locked, whichever is reached: F²/2k = E + W F/k, and likewise
    /// with what is left of E behind the plateau P: (F² − P²)/2k' − W (F − P)/k' = rest.
    pub fn force_taking_n(&self, energy_j: f64, weight_n: f64) -> f64 {
        if let Some(path) = &self.path {
            return self.force_taking_along_n(path, energy_j, weight_n);
        }
        let (k, plateau_n) = (self.stiffness_n_per_m, self.plateau_n);
        let webbing_n = weight_n + sqrt(weight_n * weight_n + 2.0 * k * energy_j);
        // Not a number in, not a number out.
        if webbing_n <= plateau_n || webbing_n.is_nan() {
            return webbing_n;
        }
        let over_n = plateau_n - weight_n;
        let left_j = energy_j - plateau_n * (0.5 * plateau_n - weight_n) / k;
        let left_j = left_j - over_n * self.max_extension_m;
        if over_n > 0.0 && left_j <= 0.0 {
            return plateau_n;
        }
        let square = over_n * over_n + 2.0 * self.locked_stiffness_n_per_m * left_j;
        weight_n + sqrt(square.max(0.0))
    }

    /// The same along a path: between two corners, from force P on with slope c, the energy left falls by
    /// (P − W) x + c x²/2; where it is gone first he has stopped.
    #[cold]
    fn force_taking_along_n(&self, path: &Path, energy_j: f64, weight_n: f64) -> f64 {
        let (mut left_j, mut from) = (energy_j, (0.0, 0.0));
        let last = (f64::INFINITY, f64::INFINITY);
        for (to_m, to_n) in path.corners().chain([last]) {
            let (from_m, from_n) = from;
            let length_m = to_m - from_m;
            let slope = if length_m.is_finite() {
                (to_n - from_n) / length_m
            } else {
                self.locked_stiffness_n_per_m
            };
            let over_n = from_n - weight_n;
            if length_m > 0.0 {
                let root_n = sqrt(over_n * over_n + 2.0 * slope * left_j);
                // While the weight is the greater, the later of two roots: energy grows before it.
                let stop_m = if over_n >= 0.0 {
                    2.0 * left_j / (over_n + root_n)
                } else {
                    (root_n - over_n) / slope
                };
                if (0.0..=length_m).contains(&stop_m) {
                    return from_n + slope * stop_m;
                }
                left_j -= (over_n + 0.5 * slope * length_m) * length_m;
            }
            from = (to_m, to_n);
        }
        f64::NAN
    }

    /// Greatest slope of the law, N/m: what the step length must resolve.
    pub fn stiffness_max_n_per_m(&self) -> f64 {
        self.stiffness_n_per_m.max(self.locked_stiffness_n_per_m)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Absorber;
    use crate::curve::Points;

    /// The ledger of a mass on a line that does not move: energy and work of the weight on one side,
    /// what webbing, absorber and locked gear took on the other.
    #[test]
    fn the_force_closes_the_ledger() {
        let mut stages = [0; 3];
        for absorber in [
            None,
            Some(Absorber::default()),
            Some(Absorber {
                average_force_n: 1_200.0,
                max_extension_m: 0.3,
                locked_stiffness_n_per_m: 20.0e3,
                ..Absorber::default()
            }),
        ] {
            let pull = Pull::new(&Gear {
                absorber,
                ..Gear::default()
            });
            for weight_n in [300.0, 980.665, 2_400.0] {
                for energy_j in [0.0, 10.0, 400.0, 2_000.0, 3_600.0, 9_000.0] {
                    let force_n = pull.force_taking_n(energy_j, weight_n);
                    // What the absorber gave: all of its travel, or what closes the ledger.
                    let travel_m = if force_n < pull.plateau_n() {
                        stages[0] += 1;
                        0.0
                    } else if force_n > pull.plateau_n() {
                        stages[2] += 1;
                        pull.max_extension_m()
                    } else {
                        stages[1] += 1;
                        let elastic = pull.elastic_j(force_n, 0.0);
                        let work = weight_n * pull.elastic_stretch_m(force_n, 0.0);
                        let travel_m = (energy_j + work - elastic) / (force_n - weight_n);
                        assert!((0.0..=pull.max_extension_m()).contains(&travel_m));
                        travel_m
                    };
                    let taken_j = pull.elastic_j(force_n, 0.0)
                        + if travel_m > 0.0 {
                            pull.plateau_n() * travel_m
                        } else {
                            0.0
                        };
                    let given_j =
                        energy_j + weight_n * (pull.elastic_stretch_m(force_n, 0.0) + travel_m);
                    assert!(
                        (taken_j - given_j).abs() < 1e-9 * (1.0 + given_j),
                        "{weight_n} {energy_j}: {force_n}, {taken_j} {given_j}"
                    );
                }
            }
        }
        assert!(stages.iter().all(|&s| s > 0), "{stages:?}");
        let pull = Pull::new(&Gear::default());
        assert!(pull.force_taking_n(f64::NAN, 1.0).is_nan());
    }

    fn curved(points: &[(f64, f64)]) -> Gear {
        let (x, f): (alloc::vec::Vec<f64>, alloc::vec::Vec<f64>) = points.iter().copied().unzip();
        Gear {
            absorber: Some(Absorber {
                curve_extension_m: Points::of(&x),
                curve_force_n: Points::of(&f),
                locked_stiffness_n_per_m: 50.0e3,
                ..Absorber::default()
            }),
            ..Gear::default()
        }
    }

    /// Curves that rise, fall, step up, step down, fall more steeply than the webbing slackens, and end
    /// so.
    const CURVES: [&[(f64, f64)]; 6] = [
        &[(0.0, 2e3), (0.1, 3.5e3), (0.6, 4e3), (1.0, 5.5e3)],
        &[(0.0, 6e3), (0.2, 4e3), (1.0, 3.5e3)],
        &[(0.0, 3e3), (0.4, 3e3), (0.4, 5e3), (1.0, 5e3)],
        &[(0.0, 5e3), (0.4, 5e3), (0.4, 3e3), (1.0, 3e3)],
        &[
            (0.0, 3e3),
            (0.2, 7e3),
            (0.205, 2e3),
            (0.3, 2.5e3),
            (1.0, 4e3),
        ],
        &[(0.0, 3e3), (0.9, 6e3), (0.91, 1e3), (0.92, 5.2e3)],
    ];

    /// The absorber gives way to whatever pulls more than it bears: by small steps of its extension, not
    /// by corners.
    #[test]
    fn a_path_is_the_curve_in_series_with_the_webbing() {
        for points in CURVES {
            let pull = Pull::new(&curved(points));
            let path = pull.path().unwrap();
            let k = pull.stiffness_n_per_m();
            let bears_n = |extension_m: f64| {
                let at = points.iter().rposition(|p| p.0 <= extension_m).unwrap();
                let at = at.min(points.len() - 2);
                let ((x, f), (x_to, f_to)) = (points[at], points[at + 1]);
                f + (extension_m - x) / (x_to - x) * (f_to - f)
            };
            let (mut extension_m, mut work_j, mut last_n) = (0.0, 0.0, 0.0);
            let (step_m, small_m) = (1e-4, 1e-6);
            let (end_m, end_n) = path.end();
            let mut stretch_m = 0.0;
            while stretch_m + step_m < end_m {
                stretch_m += step_m;
                while k * (stretch_m - extension_m) > bears_n(extension_m) {
                    extension_m += small_m;
                }
                let force_n = k * (stretch_m - extension_m);
                let taken = path.at(stretch_m);
                // A step of the extension, and one of the stretch where the curve has a step.
                let tolerance_n = 2.0 * k * small_m;
                if (taken.force_n - force_n).abs() > tolerance_n {
                    let before_n = path.at(stretch_m - 2.0 * step_m).force_n;
                    let steps = (before_n - force_n).abs() > 100.0;
                    assert!(steps, "{stretch_m}: {} {force_n}", taken.force_n);
                }
                work_j += 0.5 * (last_n + force_n) * step_m;
                last_n = force_n;
                assert!((taken.work_j - work_j).abs() < 1.0, "{stretch_m}");
            }
            // The end: all of the travel, and what the curve bears there or more.
            let most_m = points.last().unwrap().0;
            assert!((end_m - end_n / k - most_m).abs() < 1e-12);
            assert!(end_n >= points.last().unwrap().1 - 1e-9);
        }
    }

    /// Without a fall that the webbing tears on, what the absorber takes is the area under its curve.
    #[test]
    fn an_absorber_takes_the_area_under_its_curve() {
        for points in &CURVES[..3] {
            let gear = curved(points);
            let absorber = gear.absorber.unwrap();
            let pull = Pull::new(&gear);
            let path = pull.path().unwrap();
            let taken = path.at(path.end().0);
            let area_j = absorber.average_n() * absorber.extension_most_m();
            assert!((path.absorbed_j(taken) / area_j - 1.0).abs() < 1e-12);
        }
    }

    /// As [`the_force_closes_the_ledger`], along a path: the work of the weight and the energy against
    /// the area under it, by the path's own stretch.
    #[test]
    fn the_force_closes_the_ledger_along_a_path() {
        for points in CURVES {
            let pull = Pull::new(&curved(points));
            let path = pull.path().unwrap();
            let (end_m, end_n) = path.end();
            for weight_n in [300.0, 980.665, 2_400.0] {
                for energy_j in [0.0, 10.0, 400.0, 2_000.0, 3_600.0, 9_000.0] {
                    let force_n = pull.force_taking_n(energy_j, weight_n);
                    // By small steps of the stretch.
                    let step_m = 1e-5;
                    let (mut stretch_m, mut left_j, mut last_n) = (0.0, energy_j, 0.0);
                    loop {
                        stretch_m += step_m;
                        let now_n = if stretch_m <= end_m {
                            path.at(stretch_m).force_n
                        } else {
                            end_n + pull.locked_stiffness_n_per_m() * (stretch_m - end_m)
                        };
                        left_j += (weight_n - 0.5 * (now_n + last_n)) * step_m;
                        last_n = now_n;
                        if left_j <= 0.0 {
                            break;
                        }
                    }
                    let off_n = (force_n - last_n).abs();
                    // A step of the stretch; next to a step of the curve either force.
                    let near = |m: f64| path.at(stretch_m + m).force_n;
                    let steps = (near(-1e-3) - near(1e-3)).abs();
                    assert!(
                        off_n < 4.0 * 80.0e3 * step_m + steps,
                        "{weight_n} {energy_j}: {force_n} {last_n}"
                    );
                }
            }
            assert!(pull.force_taking_n(f64::NAN, 1.0).is_nan());
        }
    }

    /// A curve with one force is an average: to the last bit, as it is taken for one. One that differs
    /// from it by a part in a thousand million gives the same to that part.
    #[test]
    fn a_curve_of_one_force_is_an_average() {
        let average = Pull::new(&Gear {
            absorber: Some(Absorber {
                locked_stiffness_n_per_m: 50.0e3,
                ..Absorber::default()
            }),
            ..Gear::default()
        });
        let level = Pull::new(&curved(&[(0.0, 4e3), (0.3, 4e3), (1.07, 4e3)]));
        let almost = Pull::new(&curved(&[
            (0.0, 4e3),
            (0.3, 4e3 * (1.0 + 1e-9)),
            (1.07, 4e3),
        ]));
        assert!(level.path().is_none() && almost.path().is_some());
        for energy_j in [10.0, 50.0, 1_000.0, 5_000.0, 20_000.0] {
            let [a, b, c] = [average, level, almost].map(|p| p.force_taking_n(energy_j, 981.0));
            assert_eq!(a.to_bits(), b.to_bits());
            assert!((c / a - 1.0).abs() < 1e-8, "{energy_j}: {c} {a}");
        }
    }
}
