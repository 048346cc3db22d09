//! A number of each of two histories, in one register of 128 bits where the machine has them.

use wide::{CmpGt, f64x2};

/// One number of each history of a bundle.
pub(super) type Pair = f64x2;

/// Histories in a bundle.
pub(super) const SIDES: usize = 2;

/// Both numbers zero.
pub(super) const NONE: Pair = f64x2::ZERO;

/// Both numbers one.
pub(super) const ONE: Pair = f64x2::ONE;

/// The number of one history; `side` is 0 or 1.
#[inline]
pub(super) fn of(pair: Pair, side: usize) -> f64 {
    let [first, second] = pair.to_array();
    if side == 0 { first } else { second }
}

/// `pair` with another number for one history.
#[inline]
pub(super) fn with(pair: Pair, side: usize, value: f64) -> Pair {
    let [first, second] = pair.to_array();
    Pair::new(if side == 0 {
        [value, second]
    } else {
        [first, value]
    })
}

/// The greater of each two numbers; the second where one is none (a > b ? a : b).
///
/// One instruction where there is one of just this meaning: the libraries of registers promise
/// nothing for numbers that are none, and zeros of both signs are equal to them.
#[inline]
pub(super) fn greater(a: Pair, b: Pair) -> Pair {
    if cfg!(target_feature = "sse2") {
        a.fast_max(b)
    } else if cfg!(target_feature = "simd128") {
        b.fast_max(a)
    } else {
        a.cmp_gt(b).blend(a, b)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn greater_of(a: f64, b: f64) -> f64 {
        if a > b { a } else { b }
    }

    /// The same bits as the comparison written out, numbers that are none and both zeros included.
    #[test]
    fn greater_is_the_comparison_written_out() {
        let values = [
            0.0,
            -0.0,
            1.0,
            -1.0,
            f64::INFINITY,
            f64::NEG_INFINITY,
            f64::NAN,
            f64::MIN_POSITIVE,
        ];
        for a in values {
            for b in values {
                let got = greater(Pair::new([a, b]), Pair::new([b, a]));
                let written = [greater_of(a, b), greater_of(b, a)];
                assert_eq!(
                    got.to_array().map(f64::to_bits),
                    written.map(f64::to_bits),
                    "{a} {b}"
                );
            }
        }
    }

    #[test]
    fn sides_are_told_apart() {
        let pair = Pair::new([1.0, 2.0]);
        assert_eq!((of(pair, 0), of(pair, 1)), (1.0, 2.0));
        assert_eq!(with(pair, 0, 3.0).to_array(), [3.0, 2.0]);
        assert_eq!(with(pair, 1, 3.0).to_array(), [1.0, 3.0]);
    }
}
