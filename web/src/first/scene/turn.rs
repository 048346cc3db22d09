//! Sine and cosine for drawing.
//!
//! A drawing needs them to a millionth of a unit. The standard ones carry a reduction of huge
//! angles that costs the download some kilobytes.

use core::f64::consts::{FRAC_PI_2, TAU};

/// Sine and cosine of an angle in rad, each within 1e-9; of an angle that is not finite those of
/// zero.
pub(super) fn sin_cos(angle: f64) -> (f64, f64) {
    if !angle.is_finite() {
        return (0.0, 1.0);
    }
    // The remainder operator is exact for huge angles, and a kilobyte.
    let turned = angle - (angle / TAU).floor() * TAU;
    let quarter = (turned / FRAC_PI_2 + 0.5).floor();
    let rest = turned - quarter * FRAC_PI_2;
    // Taylor's series; the rest is at most an eighth of a turn, so that the first term left out is
    // below 1e-11.
    let square = rest * rest;
    let series = |first: f64, start: f64| {
        let (mut sum, mut term, mut n) = (first, first, start);
        for _ in 0..6 {
            term *= -square / ((n + 1.0) * (n + 2.0));
            sum += term;
            n += 2.0;
        }
        sum
    };
    let (sin, cos) = (series(rest, 1.0), series(1.0, 0.0));
    match quarter as u8 {
        1 => (cos, -sin),
        2 => (-sin, -cos),
        3 => (-cos, sin),
        _ => (sin, cos),
    }
}

#[cfg(test)]
mod tests {
    use super::sin_cos;

    #[test]
    fn agrees_with_the_standard_functions() {
        for i in -4_000..4_000 {
            let angle = 0.007 * f64::from(i);
            let (sin, cos) = sin_cos(angle);
            assert!((sin - angle.sin()).abs() < 1.0e-9, "{angle}");
            assert!((cos - angle.cos()).abs() < 1.0e-9, "{angle}");
        }
        assert_eq!(sin_cos(f64::NAN), (0.0, 1.0));
        assert_eq!(sin_cos(f64::INFINITY), (0.0, 1.0));
    }
}
