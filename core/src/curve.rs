//! The force of a personal energy absorber over its extension, where it is told by more than its
//! average: an initial peak, or the points of a curve from the maker's or a laboratory's sheet.
//!
//! Between its points the curve is straight; two points at one extension are a step. It is the force
//! of the absorber alone: the stretch of webbing and harness comes on top of it, from the stiffness of
//! the gear. A sheet that has measured both together tells a little more extension than there is.
//!
//! What is marked `#[cold]` is no part of a step: small rather than quick.

use crate::case::Absorber;
use crate::constants::AVERAGE_OVER_MAXIMUM_FORCE;

pub use crate::points::{POINTS_MAX, POINTS_MIN, Peak, Points};

/// How the force of an absorber is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// By its average alone.
    Average,
    /// By its average and an initial peak.
    Peak,
    /// By a curve.
    Curve,
}

/// Key of each way of telling the force of an absorber.
pub const SHAPES: [(&str, Shape); 3] = [
    ("average", Shape::Average),
    ("peak", Shape::Peak),
    ("curve", Shape::Curve),
];

impl Absorber {
    /// How its force is told. A curve goes before a peak.
    pub fn shape(&self) -> Shape {
        if !self.curve_extension_m.is_empty() {
            Shape::Curve
        } else if self.peak.is_some() {
            Shape::Peak
        } else {
            Shape::Average
        }
    }

    /// Extension, m, and force, N, of every corner of its force over its extension, from 0 to the
    /// greatest extension.
    #[cold]
    pub fn corners(&self) -> (Points, Points) {
        let most_m = self.max_extension_m;
        match (self.shape(), self.peak) {
            (Shape::Curve, _) => (self.curve_extension_m, self.curve_force_n),
            (_, Some(Peak { force_n, over_m })) => {
                let kept_n = self.force_behind_peak_n(force_n, over_m);
                let forces_n = Points::of(&[force_n, kept_n, kept_n]);
                (Points::of(&[0.0, over_m, most_m]), forces_n)
            }
            _ => {
                let force_n = self.average_force_n;
                (Points::of(&[0.0, most_m]), Points::of(&[force_n; 2]))
            }
        }
    }

    /// Greatest extension, m: that of the last point of a curve.
    pub fn extension_most_m(&self) -> f64 {
        let last = self.curve_extension_m.as_slice().last();
        last.copied().unwrap_or(self.max_extension_m)
    }

    /// Average force over the greatest extension, N: of a curve the area under it over its length.
    #[cold]
    pub fn average_n(&self) -> f64 {
        if self.shape() != Shape::Curve {
            return self.average_force_n;
        }
        let (x, f) = (self.curve_extension_m, self.curve_force_n);
        let pairs = x.as_slice().windows(2).zip(f.as_slice().windows(2));
        let area_j: f64 = pairs
            .map(|(x, f)| match (x, f) {
                ([from, to], [f_from, f_to]) => 0.5 * (f_from + f_to) * (to - from),
                _ => 0.0,
            })
            .sum();
        area_j / self.extension_most_m()
    }

    /// Greatest force of its average, its peak or its curve, N.
    #[cold]
    pub fn greatest_n(&self) -> f64 {
        let (_, forces_n) = self.corners();
        forces_n.as_slice().iter().fold(0.0_f64, |a, &b| a.max(b))
    }

    /// Maximum deployment force, N: as given, but not less than that of a peak or a curve. Where it is
    /// not given, the greatest of these, or from the average alone.
    #[cold]
    pub fn maximum_n(&self) -> f64 {
        if self.shape() == Shape::Average {
            let usual = self.average_force_n / AVERAGE_OVER_MAXIMUM_FORCE;
            return self.maximum_force_n.unwrap_or(usual);
        }
        let greatest_n = self.greatest_n();
        self.maximum_force_n.unwrap_or(greatest_n).max(greatest_n)
    }

    /// The same with every force times a factor; what its maximum is follows from them.
    #[cold]
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            average_force_n: self.average_force_n * factor,
            maximum_force_n: None,
            peak: self.peak.map(|peak| Peak {
                force_n: peak.force_n * factor,
                ..peak
            }),
            curve_force_n: self.curve_force_n.times(factor),
            ..*self
        }
    }

    /// The same with this average force, N: of a peak or a curve with all of its forces as many times.
    #[cold]
    pub(crate) fn averaging(&self, average_n: f64) -> Self {
        if self.shape() == Shape::Average {
            return Self {
                average_force_n: average_n,
                ..*self
            };
        }
        self.scaled(average_n / self.average_n())
    }

    /// The strongest of its kind: at its maximum force all the way where only the average is known. A
    /// peak or a curve has shown its greatest force in one test; another one may be stronger by the
    /// tolerance, or as strong as the maximum given.
    #[cold]
    pub(crate) fn strongest(&self, stronger_ratio: f64) -> Self {
        if self.shape() == Shape::Average {
            return Self {
                average_force_n: self.maximum_n(),
                maximum_force_n: None,
                ..*self
            };
        }
        let promised = self.maximum_n() / self.greatest_n();
        self.scaled(promised.max(1.0 + stronger_ratio))
    }

    /// Force behind a peak, N, with which the average over the greatest extension is as given.
    fn force_behind_peak_n(&self, peak_n: f64, over_m: f64) -> f64 {
        let half_m = 0.5 * over_m;
        (self.average_force_n * self.max_extension_m - peak_n * half_m)
            / (self.max_extension_m - half_m)
    }

    /// Longest extension, m, over which the force may fall from a peak: half the average, at least,
    /// stands behind it.
    pub(crate) fn peak_over_most_m(&self, peak_n: f64) -> f64 {
        // (F x − P o/2)/(x − o/2) = F/2.
        let (f, x) = (self.average_force_n, self.max_extension_m);
        (f * x / (peak_n - 0.5 * f)).min(x)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn curve(extension_m: &[f64], force_n: &[f64]) -> Absorber {
        Absorber {
            curve_extension_m: Points::of(extension_m),
            curve_force_n: Points::of(force_n),
            ..Absorber::default()
        }
    }

    #[test]
    fn what_is_not_told_is_as_it_was() {
        let usual = Absorber::default();
        assert_eq!(usual.shape(), Shape::Average);
        assert_eq!(usual.average_n(), 4_000.0);
        assert_eq!(usual.extension_most_m(), 1.07);
        assert_eq!(usual.maximum_n(), 4_000.0 / AVERAGE_OVER_MAXIMUM_FORCE);
        assert_eq!(usual.strongest(0.15).average_force_n, usual.maximum_n());
        assert_eq!(usual.scaled(0.85).average_force_n, 4_000.0 * 0.85);
    }

    /// By hand: 2 kN to 5 kN over 0.2 m, 5 kN to 4 kN over 0.8 m: 0.7 + 3.6 kJ over 1 m.
    #[test]
    fn a_curve_goes_before_the_average() {
        let told = curve(&[0.0, 0.2, 1.0], &[2e3, 5e3, 4e3]);
        assert_eq!(told.shape(), Shape::Curve);
        assert!((told.average_n() - 4_300.0).abs() < 1e-9);
        assert_eq!(told.extension_most_m(), 1.0);
        assert_eq!((told.greatest_n(), told.maximum_n()), (5e3, 5e3));
        let weak = told.scaled(0.5);
        assert_eq!(weak.curve_force_n.as_slice(), [1e3, 2.5e3, 2e3]);
        assert_eq!(weak.curve_extension_m, told.curve_extension_m);
        let strong = told.strongest(0.1);
        assert!((strong.greatest_n() - 5.5e3).abs() < 1e-9);
        let promised = Absorber {
            maximum_force_n: Some(6e3),
            ..told
        };
        assert!((promised.strongest(0.1).greatest_n() - 6e3).abs() < 1e-9);
    }

    /// The average with its peak is the average given.
    #[test]
    fn a_peak_leaves_the_average() {
        let told = Absorber {
            peak: Some(Peak {
                force_n: 6e3,
                over_m: 0.3,
            }),
            ..Absorber::default()
        };
        assert_eq!(told.shape(), Shape::Peak);
        let (x, f) = told.corners();
        let as_curve = curve(x.as_slice(), f.as_slice());
        assert!((as_curve.average_n() - 4e3).abs() < 1e-9);
        assert_eq!(told.maximum_n(), 6e3);
        // Half the average behind the longest peak.
        let over_m = told.peak_over_most_m(9e3);
        assert!((told.force_behind_peak_n(9e3, over_m) - 2e3).abs() < 1e-9);
    }

    #[test]
    fn too_many_points_stay_too_many() {
        assert_eq!(Points::of(&[1.0; 50]).as_slice().len(), POINTS_MAX + 1);
        assert!(Points::of(&[]).is_empty());
        let given = Points::of(&[1.0, 2.0]);
        assert_eq!(Points::from(alloc::vec::Vec::from(given)), given);
    }
}
