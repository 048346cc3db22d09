//! The few functions beyond + − × ÷ that the mechanics needs; the only file that names libm.
//!
//! Every target uses the same pure-Rust code, so that a result has the same bits everywhere; roots
//! are rounded as IEEE 754 asks, so there it may be an instruction as well.

use wide::f64x2;

/// Square root.
#[inline]
pub(crate) fn sqrt(x: f64) -> f64 {
    if HAS_ROOTS {
        f64x2::splat(x).sqrt().to_array()[0]
    } else {
        libm::sqrt(x)
    }
}

/// Square roots.
#[inline]
pub(crate) fn roots(x: f64x2) -> f64x2 {
    if HAS_ROOTS {
        x.sqrt()
    } else {
        f64x2::new(x.to_array().map(libm::sqrt))
    }
}

/// The registers of 128 bits that this is built for have an instruction for roots.
const HAS_ROOTS: bool = cfg!(any(target_feature = "sse2", target_feature = "simd128"));

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
