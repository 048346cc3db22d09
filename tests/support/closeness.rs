//! How far a value lies from another one, or outside an interval.

/// |value − expected| over |expected|; infinite when `expected` is 0 and `value` is not.
pub fn relative(value: f64, expected: f64) -> f64 {
    if value == expected {
        return 0.0;
    }
    (value - expected).abs() / expected.abs()
}

/// Whether `value` is within `rtol`·|expected| of `expected`. False for NaN.
pub fn close(value: f64, expected: f64, rtol: f64) -> bool {
    (value - expected).abs() <= rtol * expected.abs()
}

/// Panics with both values and the difference unless [`close`].
#[track_caller]
pub fn assert_close(what: &str, value: f64, expected: f64, rtol: f64) {
    assert!(
        close(value, expected, rtol),
        "{what}: {value} against {expected}, {:+.3e} relative, allowed {rtol:.1e}",
        (value - expected) / expected.abs()
    );
}

/// Panics unless |value − expected| ≤ `atol` (same unit as the values).
#[track_caller]
pub fn assert_near(what: &str, value: f64, expected: f64, atol: f64) {
    assert!(
        (value - expected).abs() <= atol,
        "{what}: {value} against {expected}, off by {:+.3e}, allowed {atol:.1e}",
        value - expected
    );
}

/// A closed interval of accepted values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Least accepted value.
    pub low: f64,
    /// Greatest accepted value.
    pub high: f64,
}

impl Interval {
    /// The smallest interval that holds both values.
    pub fn between(a: f64, b: f64) -> Self {
        Self {
            low: a.min(b),
            high: a.max(b),
        }
    }

    /// Widened at both ends by the larger of `rtol`·|end| and `atol`.
    pub fn widened(self, rtol: f64, atol: f64) -> Self {
        Self {
            low: self.low - (rtol * self.low.abs()).max(atol),
            high: self.high + (rtol * self.high.abs()).max(atol),
        }
    }

    /// Whether `value` lies inside; false for NaN.
    pub fn holds(self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// Signed distance of `value` outside the interval, 0 inside: negative below, positive above.
    pub fn outside_by(self, value: f64) -> f64 {
        (value - self.high).max(0.0) - (self.low - value).max(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nan_is_close_to_nothing() {
        assert!(!close(f64::NAN, 1.0, 1.0));
        assert!(!Interval::between(0.0, 1.0).holds(f64::NAN));
    }

    #[test]
    fn widening_and_distance() {
        let i = Interval::between(2.0, 1.0).widened(0.1, 0.15);
        assert_eq!((i.low, i.high), (0.85, 2.2));
        assert_eq!(i.outside_by(1.5), 0.0);
        assert!((i.outside_by(2.5) - 0.3).abs() < 1e-12);
        assert!((i.outside_by(0.5) + 0.35).abs() < 1e-12);
    }
}
