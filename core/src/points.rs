//! What the force of an absorber over its extension is entered by: the points of a curve, an initial
//! peak. What they come to is in [`crate::curve`].

use alloc::vec::Vec;

/// Fewest points of a curve.
pub const POINTS_MIN: usize = 2;
/// Most points of a curve.
pub const POINTS_MAX: usize = 12;

/// One more than a curve may have, so that the check of a case can name too many.
const KEPT: usize = POINTS_MAX + 1;

/// One of the two numbers of every point of a curve, in order; none: there is no curve.
#[derive(Clone, Copy, Debug, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(from = "Vec<f64>", into = "Vec<f64>"))]
pub struct Points {
    count: usize,
    values: [f64; KEPT],
}

impl Points {
    /// The numbers; of more than one too many only as many as show that they are too many.
    #[cold]
    pub fn of(numbers: &[f64]) -> Self {
        let mut points = Self::default();
        for (kept, number) in points.values.iter_mut().zip(numbers) {
            *kept = *number;
            points.count += 1;
        }
        points
    }

    /// The numbers in order.
    pub fn as_slice(&self) -> &[f64] {
        self.values.get(..self.count).unwrap_or_default()
    }

    /// There are none.
    pub fn is_empty(&self) -> bool {
        self.count == 0
    }

    #[cold]
    pub(crate) fn times(mut self, factor: f64) -> Self {
        for value in &mut self.values {
            *value *= factor;
        }
        self
    }
}

impl PartialEq for Points {
    #[cold]
    fn eq(&self, other: &Self) -> bool {
        self.as_slice() == other.as_slice()
    }
}

impl From<Vec<f64>> for Points {
    fn from(numbers: Vec<f64>) -> Self {
        Self::of(&numbers)
    }
}

impl From<Points> for Vec<f64> {
    fn from(points: Points) -> Self {
        points.as_slice().to_vec()
    }
}

/// An initial peak: the force falls from it evenly to what the absorber keeps to its end, which is so
/// much that the average over the greatest extension is the average given.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Peak {
    /// Force at which the absorber begins to extend, N.
    pub force_n: f64,
    /// Extension over which the force falls from it, m.
    pub over_m: f64,
}

impl Default for Peak {
    /// 5 kN over 0.15 m: an invented example, the maker's data go before it.
    fn default() -> Self {
        Self {
            force_n: 5_000.0,
            over_m: 0.15,
        }
    }
}
