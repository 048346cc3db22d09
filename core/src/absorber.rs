//! The constants of connecting gear: webbing, then absorber, then stiff.

use crate::case::Gear;

/// Constants of one worker's connecting gear: slope k up to the deployment force F of the absorber,
/// F up to its greatest extension, then slope k_lock.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pull {
    stiffness_n_per_m: f64,
    /// Infinite without an absorber.
    plateau_n: f64,
    max_extension_m: f64,
    locked_stiffness_n_per_m: f64,
}

impl Pull {
    /// Of gear whose absorber deploys at its average force.
    pub fn new(gear: &Gear) -> Self {
        let absorber = gear.absorber;
        Self {
            stiffness_n_per_m: gear.stiffness_n_per_m,
            plateau_n: absorber.map_or(f64::INFINITY, |a| a.average_force_n),
            max_extension_m: absorber.map_or(0.0, |a| a.max_extension_m),
            locked_stiffness_n_per_m: absorber
                .map_or(gear.stiffness_n_per_m, |a| a.locked_stiffness_n_per_m),
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
