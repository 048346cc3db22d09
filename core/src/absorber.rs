//! The constants of connecting gear: webbing, then absorber, then stiff.

use crate::case::Gear;
use crate::maths::sqrt;

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

    /// Force, N, at which the gear has taken an energy, J, and the work of the weight, N, that hangs in
    /// it, on the way there; its other end does not move.
    ///
    /// Webbing to the plateau, plateau, locked, whichever is reached: F²/2k = E + W F/k, and likewise
    /// with what is left of E behind the plateau P: (F² − P²)/2k' − W (F − P)/k' = rest.
    pub fn force_taking_n(&self, energy_j: f64, weight_n: f64) -> f64 {
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

    /// Greatest slope of the law, N/m: what the step length must resolve.
    pub fn stiffness_max_n_per_m(&self) -> f64 {
        self.stiffness_n_per_m.max(self.locked_stiffness_n_per_m)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Absorber;

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
                        let elastic = pull.elastic_j(force_n);
                        let work = weight_n * pull.elastic_stretch_m(force_n);
                        let travel_m = (energy_j + work - elastic) / (force_n - weight_n);
                        assert!((0.0..=pull.max_extension_m()).contains(&travel_m));
                        travel_m
                    };
                    let taken_j = pull.elastic_j(force_n)
                        + if travel_m > 0.0 {
                            pull.plateau_n() * travel_m
                        } else {
                            0.0
                        };
                    let given_j =
                        energy_j + weight_n * (pull.elastic_stretch_m(force_n) + travel_m);
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
}
