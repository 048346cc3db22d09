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
