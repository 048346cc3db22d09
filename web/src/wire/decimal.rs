//! Decimal numbers, read to the nearest double (ties to even) as the library does.
//!
//! The library's reader brings tables that are a fifteenth of the download. The few numbers of a
//! case need no speed: short ones are exact in one operation, the others are divided as whole
//! numbers of any length.

use crate::wire::steps;

/// Digits that count: with more, only whether any of them is not zero can matter (the middle
/// between two doubles has 767 at most).
const DIGITS_MAX: usize = 770;

/// Reads `-`, digits with or without a point among them, and an exponent after `e` or `E`; a
/// number that is too great gives infinity, `None` is what is no number.
pub fn read(text: &str) -> Option<f64> {
    let (negative, text) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text),
    };
    let (mantissa, power) = match text.split_once(['e', 'E']) {
        Some((mantissa, power)) => (mantissa, exponent(power)?),
        None => (text, 0),
    };
    let (whole, part) = mantissa.split_once('.').unwrap_or((mantissa, ""));
    if whole.len() + part.len() == 0 {
        return None;
    }
    let mut digits: Vec<u32> = Vec::new();
    let mut power = power.saturating_sub(i64::try_from(part.len()).ok()?);
    for digit in whole.chars().chain(part.chars()) {
        let digit = digit.to_digit(10)?;
        if digits.len() >= DIGITS_MAX {
            power = power.saturating_add(1);
            if digit != 0 && digits.len() == DIGITS_MAX {
                digits.push(1);
                power = power.saturating_sub(1);
            }
        } else if digit != 0 || !digits.is_empty() {
            digits.push(digit);
        }
    }
    let size = nearest(&digits, power);
    Some(if negative { -size } else { size })
}

/// An exponent; what is far beyond all doubles is held there.
fn exponent(text: &str) -> Option<i64> {
    let (negative, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    if digits.is_empty() {
        return None;
    }
    let mut value = 0i64;
    for digit in digits.chars() {
        value = (value * 10 + i64::from(digit.to_digit(10)?)).min(1 << 40);
    }
    Some(if negative { -value } else { value })
}

/// The double nearest to a whole number, given by its digits, times a power of ten.
fn nearest(digits: &[u32], power: i64) -> f64 {
    let above = power.saturating_add(digits.len() as i64);
    if digits.is_empty() || above < -323 {
        return 0.0;
    }
    if above > 309 {
        return f64::INFINITY;
    }
    let ten = |times: u64| (0..times).fold(1.0, |power, _| power * 10.0);
    if digits.len() <= 15 && power.unsigned_abs() <= 22 {
        // Both are exact, so that the one operation rounds once.
        let whole = digits.iter().fold(0.0, |n, &d| n * 10.0 + f64::from(d));
        let scale = ten(power.unsigned_abs());
        return if power < 0 {
            whole / scale
        } else {
            whole * scale
        };
    }
    // Nine digits at a time, as many as a part of a whole number holds.
    let mut over = Whole(Vec::new());
    for nine in digits.chunks(9) {
        let (scale, value) = nine.iter().fold((1, 0), |(scale, value), digit| {
            (10 * scale, 10 * value + digit)
        });
        over.times_plus(scale, value);
    }
    let mut under = Whole(vec![1]);
    let mut left = power.unsigned_abs();
    while left > 0 {
        let places = left.min(9) as u32;
        if power < 0 { &mut under } else { &mut over }.times_plus(10u32.pow(places), 0);
        left -= u64::from(places);
    }
    // Scaled so that the quotient has 54 or 55 bits.
    let shift = 54 - (over.bits() - under.bits());
    if shift < 0 { &mut under } else { &mut over }.double(shift.unsigned_abs());
    under.double(55);
    let mut quotient = 0u64;
    for _ in 0..56 {
        quotient <<= 1;
        quotient |= u64::from(over.less(&under));
        over.double(1);
    }
    let bits = 64 - i64::from(quotient.leading_zeros());
    let exponent = bits - 1 - shift;
    if exponent > 1023 {
        return f64::INFINITY;
    }
    // Bits beyond the 53 of a double, or beyond the last place of the smallest ones.
    let beyond = bits - 53 + (-1022 - exponent).max(0);
    if beyond > 60 {
        return 0.0;
    }
    let (kept, rest) = (quotient >> beyond, quotient & ((1 << beyond) - 1));
    let half = 1 << (beyond - 1);
    let exact = over.0.iter().all(|&part| part == 0);
    let up = rest > half || (rest == half && (!exact || kept & 1 == 1));
    let kept = kept + u64::from(up);
    // A carry out of the kept bits goes into the exponent, as it must.
    let biased = (exponent + 1022).max(0) as u64;
    f64::from_bits((biased << 52) + kept)
}

/// A whole number of any length, its parts of 32 bits from the least on.
struct Whole(Vec<u32>);

impl Whole {
    fn times_plus(&mut self, factor: u32, add: u32) {
        steps::count(self.0.len());
        let mut carry = u64::from(add);
        for part in &mut self.0 {
            carry += u64::from(*part) * u64::from(factor);
            *part = carry as u32;
            carry >>= 32;
        }
        if carry != 0 {
            self.0.push(carry as u32);
        }
    }

    fn double(&mut self, times: u64) {
        for _ in 0..times / 31 {
            self.times_plus(1 << 31, 0);
        }
        self.times_plus(1 << (times % 31), 0);
    }

    /// Length in bits; the last part is never zero.
    fn bits(&self) -> i64 {
        let last = self.0.last().map_or(32, |part| part.leading_zeros());
        32 * self.0.len() as i64 - i64::from(last)
    }

    /// Takes `other` away when it is not the greater one; tells whether it did.
    fn less(&mut self, other: &Self) -> bool {
        let part = |n: &Self, i: usize| n.0.get(i).copied().unwrap_or(0);
        let length = self.0.len().max(other.0.len());
        steps::count(2 * length);
        let differing = (0..length).rev().find(|&i| part(self, i) != part(other, i));
        if differing.is_some_and(|i| part(self, i) < part(other, i)) {
            return false;
        }
        let mut borrow = false;
        for (i, mine) in self.0.iter_mut().enumerate() {
            let (less, first) = mine.overflowing_sub(part(other, i));
            let (less, second) = less.overflowing_sub(u32::from(borrow));
            *mine = less;
            borrow = first || second;
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn same(text: &str) {
        let theirs = text.parse::<f64>().expect(text);
        assert_eq!(
            read(text).map(f64::to_bits),
            Some(theirs.to_bits()),
            "{text}"
        );
    }

    #[test]
    fn hard_numbers_are_read_like_the_librarys() {
        for text in [
            "0",
            "-0",
            "0.000e9",
            "1",
            "1.",
            ".5",
            "-1.5E+3",
            "1e22",
            "1e23",
            "9007199254740993",
            "9007199254740993.00000000000000000000000001",
            "0.1",
            "1.7976931348623157e308",
            "1.7976931348623158e308",
            "1.7976931348623159e308",
            "1e309",
            "1e999999999999999999",
            "2.2250738585072011e-308",
            "2.2250738585072014e-308",
            "4.9e-324",
            "2.4703282292062327e-324",
            "2.4703282292062328e-324",
            "2.5e-324",
            "1e-323",
            "1e-400",
            "1e-999999999999999999",
            "123456789012345678901234567890",
            "0.3",
            "6.02214076e23",
            "8.5e-310",
        ] {
            same(text);
        }
        // Just at and beside the middle between one and the next double.
        let middle = format!("{:.60}", 1.0 + f64::EPSILON / 2.0).replace(' ', "");
        same(&middle);
        let half = "1.00000000000000011102230246251565404236316680908203125";
        for tail in [
            "",
            "0",
            "1",
            &"0".repeat(2000),
            &format!("{}1", "0".repeat(2000)),
        ] {
            same(&format!("{half}{tail}"));
        }
        same(&format!("{}e-4000", "7".repeat(4000)));
        same(&format!("0.{}5e4001", "0".repeat(4000)));
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for text in [
            "", "-", ".", "e5", "1e", "1e-", "1.2.3", "--1", "1 ", "1e5.0", "\u{661}", "nan",
        ] {
            assert_eq!(read(text), None, "{text:?}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn what_is_written_is_read_back(bits: u64, digits in 0usize..30) {
            let value = f64::from_bits(bits);
            prop_assume!(value.is_finite());
            for text in [format!("{value:?}"), format!("{value}"), format!("{value:.digits$e}")] {
                same(&text);
            }
        }

        #[test]
        fn any_digits_are_read_like_the_librarys(
            text in "-?[0-9]{1,40}(\\.[0-9]{0,40})?(e-?[0-9]{1,3})?"
        ) {
            same(&text);
        }
    }
}
