//! Connecting gear as a force-stretch law with memory: webbing, then absorber, then stiff.

use crate::case::Gear;

/// Force law of one worker's connecting gear.
///
/// Force 0 while slack; slope k up to the deployment force F; constant F with irreversible
/// extension up to the greatest; then slope k_lock. Unloads along k while the absorber still has
/// travel, along the loading line once it is used up. Never pushes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pull {
    stiffness_n_per_m: f64,
    /// Infinite without an absorber.
    plateau_n: f64,
    max_extension_m: f64,
    locked_stiffness_n_per_m: f64,
    /// Irreversible extension so far, m.
    pub extension_m: f64,
    /// Work taken by the absorber so far, J.
    pub absorbed_j: f64,
}

impl Pull {
    /// The fresh gear, its absorber folded, deploying at its average force.
    pub fn new(gear: &Gear) -> Self {
        let absorber = gear.absorber;
        Self {
            stiffness_n_per_m: gear.stiffness_n_per_m,
            plateau_n: absorber.map_or(f64::INFINITY, |a| a.average_force_n),
            max_extension_m: absorber.map_or(0.0, |a| a.max_extension_m),
            locked_stiffness_n_per_m: absorber
                .map_or(gear.stiffness_n_per_m, |a| a.locked_stiffness_n_per_m),
            extension_m: 0.0,
            absorbed_j: 0.0,
        }
    }

    /// Stretch at which the extension is used up, m.
    fn lock_stretch_m(&self) -> f64 {
        self.plateau_n / self.stiffness_n_per_m + self.max_extension_m
    }

    /// Force at this stretch beyond the unstretched length, N; extends the absorber when it must.
    #[inline]
    pub fn force_n(&mut self, stretch_m: f64) -> f64 {
        let elastic = stretch_m - self.extension_m;
        if elastic <= 0.0 {
            return 0.0;
        }
        let force = self.stiffness_n_per_m * elastic;
        if force <= self.plateau_n {
            return force;
        }
        let wanted = stretch_m - self.plateau_n / self.stiffness_n_per_m;
        let extension = wanted.min(self.max_extension_m);
        self.absorbed_j += self.plateau_n * (extension - self.extension_m);
        self.extension_m = extension;
        if wanted <= self.max_extension_m {
            self.plateau_n
        } else {
            self.plateau_n + self.locked_stiffness_n_per_m * (stretch_m - self.lock_stretch_m())
        }
    }

    /// True once the absorber has no travel left and has been pulled beyond its plateau.
    pub fn used_up(&self, force_max_n: f64) -> bool {
        self.plateau_n.is_finite() && force_max_n > self.plateau_n * (1.0 + 1e-9)
    }

    /// Deployment force, N; infinite without an absorber.
    pub fn plateau_n(&self) -> f64 {
        self.plateau_n
    }

    /// Greatest extension, m.
    pub fn max_extension_m(&self) -> f64 {
        self.max_extension_m
    }

    /// Elastic energy stored at this force, J.
    pub fn elastic_j(&self, force_n: f64) -> f64 {
        let below = force_n.min(self.plateau_n);
        let above = force_n - below;
        below * below / (2.0 * self.stiffness_n_per_m)
            + above * (force_n + below) / (2.0 * self.locked_stiffness_n_per_m)
    }

    /// Elastic stretch at this force, m.
    pub fn elastic_stretch_m(&self, force_n: f64) -> f64 {
        let below = force_n.min(self.plateau_n);
        below / self.stiffness_n_per_m + (force_n - below) / self.locked_stiffness_n_per_m
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

    fn pull() -> Pull {
        Pull::new(&Gear {
            stiffness_n_per_m: 100_000.0,
            absorber: Some(Absorber {
                average_force_n: 4_000.0,
                max_extension_m: 1.0,
                locked_stiffness_n_per_m: 50_000.0,
                ..Absorber::default()
            }),
            ..Gear::default()
        })
    }

    #[test]
    fn loads_yields_unloads_and_locks() {
        let mut p = pull();
        assert_eq!(p.force_n(-0.1), 0.0);
        assert_eq!(p.force_n(0.02), 2_000.0);
        assert_eq!(p.force_n(0.54), 4_000.0);
        assert_eq!(p.extension_m, 0.5);
        assert!((p.force_n(0.52) - 2_000.0).abs() < 1e-9);
        assert_eq!(p.force_n(0.4), 0.0);
        assert!((p.force_n(1.06) - 5_000.0).abs() < 1e-9);
        assert_eq!(p.extension_m, 1.0);
        assert!((p.absorbed_j - 4_000.0).abs() < 1e-9);
        assert!(p.used_up(5_000.0) && !p.used_up(4_000.0));
    }

    #[test]
    fn energy_is_the_area_under_the_curve() {
        let mut p = pull();
        let (mut area, mut last, n) = (0.0, 0.0, 200_000);
        for i in 1..=n {
            let force = p.force_n(1.1 * f64::from(i) / f64::from(n));
            area += 0.5 * (force + last) * 1.1 / f64::from(n);
            last = force;
        }
        let ledger = p.absorbed_j + p.elastic_j(last);
        assert!((ledger / area - 1.0).abs() < 1e-6, "{ledger} {area}");
        assert!((p.elastic_stretch_m(last) + p.extension_m - 1.1).abs() < 1e-12);
    }
}
