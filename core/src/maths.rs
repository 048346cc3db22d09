//! The few functions beyond + − × ÷ that the mechanics needs; the only file that names libm.
//!
//! Every target uses the same pure-Rust code, so that a result has the same bits everywhere.

/// Square root.
#[inline]
pub(crate) fn sqrt(x: f64) -> f64 {
    libm::sqrt(x)
}

/// Largest whole number not above `x`.
#[inline]
pub(crate) fn floor(x: f64) -> f64 {
    libm::floor(x)
}

/// Smallest whole number not below `x`.
#[inline]
pub(crate) fn ceil(x: f64) -> f64 {
    libm::ceil(x)
}

/// Angle of the point (`x`, `y`) from the x axis, rad.
#[inline]
pub(crate) fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// Tangent of an angle in rad.
#[inline]
pub(crate) fn tan(x: f64) -> f64 {
    libm::tan(x)
}

/// `x`, kept between `least` and `most`. Unlike the standard one it does not panic when `most` is
/// below `least` or not a number.
#[inline]
pub(crate) fn clamp(x: f64, least: f64, most: f64) -> f64 {
    if x < least {
        least
    } else if x > most {
        most
    } else {
        x
    }
}

#[cfg(test)]
mod tests {
    use super::clamp;

    #[test]
    fn clamp_takes_any_bounds() {
        assert_eq!(clamp(2.0, 0.0, 1.0), 1.0);
        assert_eq!(clamp(-2.0, 0.0, 1.0), 0.0);
        assert_eq!(clamp(0.5, 0.0, 1.0), 0.5);
        assert!(clamp(f64::NAN, 0.0, 1.0).is_nan());
        assert_eq!(clamp(0.5, 0.0, f64::NAN), 0.5);
        assert_eq!(clamp(0.5, 1.0, 0.0), 1.0);
    }
}
