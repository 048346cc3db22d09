//! Connecting gear of two histories as a force-stretch law with memory.

use alloc::boxed::Box;

use wide::{CmpGt, CmpLe};

use super::pair::{NONE, Pair, SIDES, greater, of, with};
use crate::absorber::{Path, Pull};

/// Force law of one worker's connecting gear.
///
/// Force 0 while slack; slope k up to the deployment force F; constant F, or F along its path, with
/// irreversible extension up to the greatest; then slope k_lock. Unloads along k while the absorber
/// still has travel, along the loading line once it is used up. Never pushes.
#[derive(Clone, Debug)]
pub(super) struct Gears {
    stiffness_n_per_m: Pair,
    /// Infinite without an absorber; on a path that of its present extension.
    plateau_n: Pair,
    /// Stretch at which the absorber starts, and at which its extension is used up, m.
    plateau_stretch_m: Pair,
    lock_stretch_m: Pair,
    max_extension_m: Pair,
    locked_stiffness_n_per_m: Pair,
    /// `None`: neither follows one.
    paths: Option<Box<[Option<Path>; SIDES]>>,
    /// Irreversible extension so far, m.
    extension_m: Pair,
    /// Work taken by the absorbers so far, J.
    absorbed_j: Pair,
}

impl Gears {
    /// Fresh gear, absorbers folded.
    pub fn new(pulls: [&Pull; 2]) -> Self {
        let of_each = |what: fn(&Pull) -> f64| Pair::new(pulls.map(what));
        let plateau_stretch_m = of_each(|p| p.deploys_n() / p.stiffness_n_per_m());
        let max_extension_m = of_each(Pull::max_extension_m);
        let paths = pulls.map(|p| p.path().copied());
        Self {
            stiffness_n_per_m: of_each(Pull::stiffness_n_per_m),
            plateau_n: of_each(Pull::deploys_n),
            plateau_stretch_m,
            lock_stretch_m: plateau_stretch_m + max_extension_m,
            max_extension_m,
            locked_stiffness_n_per_m: of_each(Pull::locked_stiffness_n_per_m),
            paths: paths.iter().any(Option::is_some).then(|| Box::new(paths)),
            extension_m: NONE,
            absorbed_j: NONE,
        }
    }

    /// Force at this stretch beyond the unstretched length, N; extends absorbers that must.
    #[inline]
    pub fn force_n(&mut self, stretch_m: Pair) -> Pair {
        let force = greater(
            self.stiffness_n_per_m * (stretch_m - self.extension_m),
            NONE,
        );
        let gives = force.cmp_gt(self.plateau_n);
        if gives.any() {
            if self.paths.is_some() {
                return self.beyond_paths_n(stretch_m, force, gives);
            }
            return self.beyond_plateau_n(stretch_m, force, gives);
        }
        force
    }

    /// The same where one of them may follow a path.
    #[cold]
    fn beyond_paths_n(&mut self, stretch_m: Pair, force_n: Pair, gives: Pair) -> Pair {
        let (mut force_n, mut level) = (force_n, gives);
        for side in 0..SIDES {
            let path = self.paths.as_ref().and_then(|paths| paths[side]);
            if let Some(path) = path {
                if of(force_n, side) > of(self.plateau_n, side) {
                    let along_n = self.along_n(side, &path, of(stretch_m, side));
                    force_n = with(force_n, side, along_n);
                }
                // Done, or nothing to do.
                level = with(level, side, 0.0);
            }
        }
        self.beyond_plateau_n(stretch_m, force_n, level)
    }

    /// Force where one absorber at least has to give; `gives`: those that do.
    fn beyond_plateau_n(&mut self, stretch_m: Pair, force_n: Pair, gives: Pair) -> Pair {
        let wanted = stretch_m - self.plateau_stretch_m;
        let travels = wanted.cmp_le(self.max_extension_m);
        let extension = travels.blend(wanted, self.max_extension_m);
        let work = self.plateau_n * (extension - self.extension_m);
        self.absorbed_j += gives.blend(work, NONE);
        self.extension_m = gives.blend(extension, self.extension_m);
        let locked =
            self.plateau_n + self.locked_stiffness_n_per_m * (stretch_m - self.lock_stretch_m);
        gives.blend(travels.blend(self.plateau_n, locked), force_n)
    }

    /// Force of one history on its path at a stretch that was not reached before, N.
    #[cold]
    fn along_n(&mut self, side: usize, path: &Path, stretch_m: f64) -> f64 {
        let taken = path.at(stretch_m);
        let (end_m, end_n) = path.end();
        let used_up = stretch_m >= end_m;
        let extension_m = if used_up {
            of(self.max_extension_m, side)
        } else {
            // Never back, by a rounding.
            let now_m = stretch_m - taken.force_n / of(self.stiffness_n_per_m, side);
            now_m.max(self.extension_m(side))
        };
        self.extension_m = with(self.extension_m, side, extension_m);
        self.absorbed_j = with(self.absorbed_j, side, path.absorbed_j(taken));
        self.plateau_n = with(self.plateau_n, side, taken.force_n);
        if used_up {
            end_n + of(self.locked_stiffness_n_per_m, side) * (stretch_m - end_m)
        } else {
            taken.force_n
        }
    }

    /// Irreversible extension of one history's absorber so far, m.
    pub fn extension_m(&self, side: usize) -> f64 {
        of(self.extension_m, side)
    }

    /// Work taken by one history's absorber so far, J.
    pub fn absorbed_j(&self, side: usize) -> f64 {
        of(self.absorbed_j, side)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{Absorber, Gear};
    use crate::curve::Points;

    fn gear(absorber: Option<Absorber>) -> Pull {
        Pull::new(&Gear {
            stiffness_n_per_m: 100_000.0,
            absorber,
            ..Gear::default()
        })
    }

    fn folded() -> Pull {
        gear(Some(Absorber {
            average_force_n: 4_000.0,
            max_extension_m: 1.0,
            locked_stiffness_n_per_m: 50_000.0,
            ..Absorber::default()
        }))
    }

    /// To and fro between −1 and 1, a period of 4.
    fn to_and_fro(x: f64) -> f64 {
        2.0 * ((0.5 * x) % 2.0 - 1.0).abs() - 1.0
    }

    #[test]
    fn loads_yields_unloads_and_locks_beside_gear_without_absorber() {
        let mut gears = Gears::new([&folded(), &gear(None)]);
        let mut at = |stretch: f64| gears.force_n(Pair::splat(stretch)).to_array();
        assert_eq!(at(-0.1), [0.0, 0.0]);
        assert_eq!(at(f64::NEG_INFINITY), [0.0, 0.0]);
        assert_eq!(at(0.02), [2_000.0, 2_000.0]);
        assert_eq!(at(0.54), [4_000.0, 54_000.0]);
        let [back, stiff] = at(0.52);
        assert!((back - 2_000.0).abs() < 1e-9 && (stiff - 52_000.0).abs() < 1e-9);
        assert_eq!(at(0.4)[0], 0.0);
        assert!((at(1.06)[0] - 5_000.0).abs() < 1e-9);
        assert_eq!((gears.extension_m(0), gears.extension_m(1)), (1.0, 0.0));
        assert!((gears.absorbed_j(0) - 4_000.0).abs() < 1e-9);
        assert_eq!(gears.absorbed_j(1), 0.0);
    }

    #[test]
    fn energy_is_the_area_under_the_curve() {
        let pull = folded();
        let mut gears = Gears::new([&pull, &pull]);
        let (mut area, mut last, n) = (0.0, 0.0, 200_000);
        for i in 1..=n {
            let force = gears.force_n(Pair::splat(1.1 * f64::from(i) / f64::from(n)));
            area += 0.5 * (of(force, 1) + last) * 1.1 / f64::from(n);
            last = of(force, 1);
        }
        let ledger = gears.absorbed_j(1) + pull.elastic_j(last, 1.0);
        assert!((ledger / area - 1.0).abs() < 1e-6, "{ledger} {area}");
        let stretch = pull.elastic_stretch_m(last, 1.0) + gears.extension_m(1);
        assert!((stretch - 1.1).abs() < 1e-12);
    }

    /// Beside gear that follows a path, or none, each has the bits that it has beside itself.
    #[test]
    fn a_path_beside_an_average_changes_neither() {
        let curve = gear(Some(Absorber {
            curve_extension_m: Points::of(&[0.0, 0.2, 0.205, 0.9]),
            curve_force_n: Points::of(&[2e3, 6e3, 3e3, 4e3]),
            ..Absorber::default()
        }));
        let all = [folded(), curve, gear(None)];
        let told = |pulls: [&Pull; 2]| {
            let mut gears = Gears::new(pulls);
            let mut seen = [(); 2].map(|()| alloc::vec::Vec::new());
            // To and fro, ever farther, and beyond the end of both.
            for i in 0..3_000 {
                let there = f64::from(i) * 4e-4;
                let stretch_m = there + 0.05 * to_and_fro(f64::from(i) * 0.04);
                let force_n = gears.force_n(Pair::splat(stretch_m));
                for (side, seen) in seen.iter_mut().enumerate() {
                    let now = (gears.extension_m(side), gears.absorbed_j(side));
                    let bits = [of(force_n, side), now.0, now.1].map(f64::to_bits);
                    assert!(of(force_n, side).is_finite());
                    seen.push(bits);
                }
            }
            seen
        };
        for a in &all {
            for b in &all {
                let [beside_a, beside_b] = told([a, b]);
                assert_eq!(beside_a, told([a, a])[0]);
                assert_eq!(beside_b, told([b, b])[1]);
            }
        }
    }

    /// Along a curve the ledger is the work done: loaded, unloaded and loaded again, torn on where it
    /// falls steeply, and stiff behind its end.
    #[test]
    fn work_on_a_path_is_stored_or_taken() {
        let pull = gear(Some(Absorber {
            curve_extension_m: Points::of(&[0.0, 0.2, 0.205, 0.9]),
            curve_force_n: Points::of(&[2e3, 6e3, 3e3, 4e3]),
            locked_stiffness_n_per_m: 50_000.0,
            ..Absorber::default()
        }));
        let mut gears = Gears::new([&pull, &pull]);
        let (mut work_j, mut last, mut before_m, n) = (0.0, 0.0, 0.0, 400_000);
        for i in 1..=n {
            let part = f64::from(i) / f64::from(n);
            let stretch_m = 1.05 * part + 0.1 * to_and_fro(2.0 + part * 30.0).max(0.0);
            let force = of(gears.force_n(Pair::splat(stretch_m)), 0);
            work_j += 0.5 * (force + last) * (stretch_m - before_m);
            (last, before_m) = (force, stretch_m);
            let stored_j = pull.elastic_j(force, gears.extension_m(0));
            let ledger_j = gears.absorbed_j(0) + stored_j;
            assert!(
                (ledger_j - work_j).abs() < 0.1,
                "{stretch_m}: {ledger_j} {work_j}"
            );
        }
        assert_eq!(gears.extension_m(0), 0.9);
        assert!(pull.used_up(last, before_m) && last > 8e3, "{last}");
    }
}
