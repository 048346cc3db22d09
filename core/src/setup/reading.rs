//! A pretension read back from what was seen.

use alloc::vec::Vec;

use super::ROOT_RATIO;

/// Tensions between which the pretension may lie.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Band {
    /// The least, N.
    pub low_n: f64,
    /// The greatest, N.
    pub high_n: f64,
}

impl Band {
    /// True when a tension lies between the two, or on one as far as a root is found.
    pub(super) fn holds(&self, tension_n: f64) -> bool {
        let off = 2.0 * ROOT_RATIO * tension_n;
        self.low_n - off <= tension_n && tension_n <= self.high_n + off
    }
}

/// The greater distance from a tension to the ends of its band, as a part of it.
pub(super) fn error_ratio(tension_n: f64, (low_n, high_n): (f64, f64)) -> f64 {
    (high_n / tension_n - 1.0).max(1.0 - low_n / tension_n)
}

/// A pretension read back.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct TensionReading {
    /// Horizontal tension at rest, N; where several fit, the one nearest to what was set.
    pub tension_n: f64,
    /// The least that fits the reading with its error, N; `None`: less than the model takes.
    pub low_n: Option<f64>,
    /// The greatest that fits the reading with its error, N; `None`: more than the model takes.
    pub high_n: Option<f64>,
    /// The greater distance to the two, as a part of the tension; `None`: the reading does not
    /// tell, because one of the two is not known, or because another pretension fits as well that
    /// the sag at rest does not tell apart.
    pub error_ratio: Option<f64>,
    /// Other pretensions that fit the reading with its error, the greatest first: on a slack line
    /// the weight straightens the line rather than moving it. Look at the sag at rest.
    pub others: Vec<Band>,
}
