//! Connecting gear of two histories as a force-stretch law with memory.

use wide::{CmpGt, CmpLe};

use super::pair::{NONE, Pair, SIDES, greater, of, with};
use crate::absorber::{Path, Pull};

/// Force law of one worker's connecting gear.
///
/// Force 0 while slack; slope k up to the deployment force F; constant F, or F along its path, with
/// irreversible extension up to the greatest; then slope k_lock. Unloads along k while the absorber
/// still has travel, along the loading line once it is used up. Never pushes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Gears {
    stiffness_n_per_m: Pair,
    /// Infinite without an absorber; on a path that of its present extension.
    plateau_n: Pair,
    /// Stretch at which the absorber starts, and at which its extension is used up, m.
    plateau_stretch_m: Pair,
    lock_stretch_m: Pair,
    max_extension_m: Pair,
    locked_stiffness_n_per_m: Pair,
    paths: [Option<Path>; SIDES],
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
        Self {
            stiffness_n_per_m: of_each(Pull::stiffness_n_per_m),
            plateau_n: of_each(Pull::deploys_n),
            plateau_stretch_m,
            lock_stretch_m: plateau_stretch_m + max_extension_m,
            max_extension_m,
            locked_stiffness_n_per_m: of_each(Pull::locked_stiffness_n_per_m),
            paths: pulls.map(|p| p.path().copied()),
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
        if force.cmp_gt(self.plateau_n).any() {
            return self.beyond_plateau_n(stretch_m, force);
        }
        force
    }

    /// Force where one absorber at least has to give.
    fn beyond_plateau_n(&mut self, stretch_m: Pair, force_n: Pair) -> Pair {
        let mut gives = force_n.cmp_gt(self.plateau_n);
        let mut force_n = force_n;
        for side in 0..SIDES {
            if let Some(path) = self.paths[side] {
                if of(force_n, side) > of(self.plateau_n, side) {
                    let along_n = self.along_n(side, &path, of(stretch_m, side));
                    force_n = with(force_n, side, along_n);
                }
                // Done, or nothing to do: nothing below is its.
                gives = with(gives, side, 0.0);
            }
        }
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
}
