//! Reads what a person types for a quantity. How it is shown again is in [`crate::say::format`], and its
//! tests hold both together.

use footroom_core::constants::GRAVITY_M_PER_S2;
use footroom_core::field::Quantity;

use crate::say::format::{
    CELSIUS_ZERO_K, FAHRENHEIT_ZERO_K, FOOT_M, INCH_M, POUND_FORCE_N, POUND_KG, Units, zero_k,
};
use crate::wire::decimal;

/// Why a typed text is no value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ParseFault {
    /// Nothing was typed.
    Empty,
    /// The text cannot be read from this character on (counted from 1).
    Unreadable {
        /// Place of the first character that does not fit, counted from 1.
        at: usize,
    },
    /// The unit is not one of this quantity.
    Unit {
        /// The unit as typed.
        found: String,
    },
}

/// Reads what a person types for a quantity and gives SI.
///
/// A unit may be typed with any field (`4400 N` where kN is shown); without one, the shown unit
/// holds, feet where feet and inches are shown. Lengths may be sums of parts: `5 ft 11 in`,
/// `5' 11 3/4"`, `5-11`, `1 m 80 cm`. A decimal comma is read as such; a comma (or point) before
/// exactly three digits groups thousands only for units in which thousands occur (N, lbf, kN/m,
/// lbf/in and EA), so `1,800` is 1800 lbf but 1.8 m.
///
/// # Errors
/// Empty text; a character that does not fit; a unit of another quantity.
///
/// # Accuracy
/// Metric values and whole fractions of an inch down to 1/64 give the nearest double.
pub fn parse(quantity: Quantity, units: Units, text: &str) -> Result<f64, ParseFault> {
    let tokens = tokens(text)?;
    let mut rest = tokens.as_slice();
    let mut sign = 1.0;
    if let [
        Token {
            kind: TokenKind::Dash,
            ..
        },
        tail @ ..,
    ] = rest
    {
        sign = -1.0;
        rest = tail;
    }
    if rest.is_empty() {
        return Err(match tokens.first() {
            Some(token) => ParseFault::Unreadable { at: token.at },
            None => ParseFault::Empty,
        });
    }
    let value = match quantity {
        Quantity::Length | Quantity::Diameter => parse_length(quantity, units, rest)?,
        _ => parse_plain(quantity, units, rest)?,
    };
    let zero = match (quantity, rest) {
        (
            Quantity::Temperature,
            [
                ..,
                Token {
                    kind: TokenKind::Unit(unit),
                    ..
                },
            ],
        ) => match unit.trim_start_matches('°') {
            "k" => 0.0,
            "f" => FAHRENHEIT_ZERO_K,
            _ => CELSIUS_ZERO_K,
        },
        _ => zero_k(quantity, units),
    };
    if quantity == Quantity::Temperature {
        // The zero is no binary fraction; what was typed has fewer digits than this.
        return Ok(((sign * value + zero) * 1.0e9).round() / 1.0e9);
    }
    Ok(sign * value + zero)
}

/// Reads what a person types for a weight that is hung, and gives newtons: `10` or `10 kg` is the
/// weight of that mass under standard gravity (9.80665 m/s², 3rd General Conference on Weights and
/// Measures, 1901; on a site it is off by less than 0.4 %). A force with its unit is taken as well.
///
/// # Errors
/// As [`parse`].
pub fn parse_weight(units: Units, text: &str) -> Result<f64, ParseFault> {
    match parse(Quantity::Mass, units, text) {
        Ok(mass_kg) => Ok(mass_kg * GRAVITY_M_PER_S2),
        Err(ParseFault::Unit { .. }) => parse(Quantity::Force, units, text),
        Err(fault) => Err(fault),
    }
}

/// A piece of typed text and where it began, counted from 1.
struct Token {
    at: usize,
    kind: TokenKind,
}

enum TokenKind {
    /// Digits with decimal and grouping marks, perhaps an exponent.
    Number(String),
    /// `3/4`.
    Fraction(f64, f64),
    /// Letters, quotes, per cent, with slashes inside: `kn/m`.
    Unit(String),
    /// A minus or hyphen.
    Dash,
}

fn tokens(text: &str) -> Result<Vec<Token>, ParseFault> {
    let chars: Vec<char> = text.chars().map(plain).collect();
    let mut out: Vec<Token> = Vec::new();
    let mut i = 0;
    while let Some(&c) = chars.get(i) {
        let at = i + 1;
        let starts_number = c.is_ascii_digit()
            || (matches!(c, '.' | ',') && chars.get(i + 1).is_some_and(char::is_ascii_digit));
        if c.is_whitespace() {
            i += 1;
        } else if let Some((n, d)) = vulgar(c) {
            out.push(Token {
                at,
                kind: TokenKind::Fraction(n, d),
            });
            i += 1;
        } else if starts_number {
            let begin = i;
            while chars
                .get(i)
                .is_some_and(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
            {
                i += 1;
            }
            let digits: String = chars[begin..i].iter().collect();
            let mut kind = TokenKind::Number(digits.clone());
            if chars.get(i) == Some(&'/') {
                let under: String = chars[i + 1..]
                    .iter()
                    .take_while(|c| c.is_ascii_digit())
                    .collect();
                if let (Ok(n), Ok(d)) = (digits.parse::<u32>(), under.parse::<u32>())
                    && d > 0
                {
                    kind = TokenKind::Fraction(f64::from(n), f64::from(d));
                    i += 1 + under.len();
                }
            } else if chars.get(i) == Some(&'e') {
                let signed = usize::from(matches!(chars.get(i + 1), Some('-' | '+')));
                let power: String = chars[i + 1 + signed..]
                    .iter()
                    .take_while(|c| c.is_ascii_digit())
                    .collect();
                if !power.is_empty() {
                    let end = i + 1 + signed + power.len();
                    kind = TokenKind::Number(chars[begin..end].iter().collect());
                    i = end;
                }
            }
            out.push(Token { at, kind });
        } else if c == '-' {
            out.push(Token {
                at,
                kind: TokenKind::Dash,
            });
            i += 1;
        } else if matches!(c, '\'' | '"' | '%') {
            // Two single quotes are a double one.
            let double = c == '\'' && chars.get(i + 1) == Some(&'\'');
            let unit = if double { '"' } else { c };
            out.push(Token {
                at,
                kind: TokenKind::Unit(unit.to_string()),
            });
            i += 1 + usize::from(double);
        } else if is_letter(c) || c == '°' {
            let begin = i;
            while chars.get(i).is_some_and(|&c| {
                is_letter(c)
                    || matches!(c, '²' | '°')
                    || (matches!(c, '/' | '·') && chars.get(i + 1).is_some_and(|&c| is_letter(c)))
            }) {
                i += 1;
            }
            // A full stop after a unit, as in `ft.` or `in.`
            let unit: String = chars[begin..i].iter().collect();
            if chars.get(i) == Some(&'.') && !chars.get(i + 1).is_some_and(char::is_ascii_digit) {
                i += 1;
            }
            out.push(Token {
                at,
                kind: TokenKind::Unit(unit),
            });
        } else {
            return Err(ParseFault::Unreadable { at });
        }
    }
    Ok(out)
}

/// A letter; beyond ASCII anything counts as one, and is then no unit.
fn is_letter(c: char) -> bool {
    c.is_ascii_alphabetic() || !(c.is_ascii() || c.is_whitespace())
}

/// Lower case, and one character each for the many quotes, dashes and spaces.
fn plain(c: char) -> char {
    match c {
        '\u{2032}' | '\u{2018}' | '\u{2019}' | '\u{b4}' | '`' => '\'',
        '\u{2033}' | '\u{201c}' | '\u{201d}' => '"',
        '\u{2212}' | '\u{2010}' | '\u{2011}' | '\u{2012}' | '\u{2013}' => '-',
        '\u{2044}' => '/',
        c if c.is_ascii() => c.to_ascii_lowercase(),
        c => c,
    }
}

const fn vulgar(c: char) -> Option<(f64, f64)> {
    Some(match c {
        '½' => (1.0, 2.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        _ => return None,
    })
}

/// Reads digits and marks as value × 10^`exponent`, to the nearest double.
fn read_number(digits: &str, thousands_occur: bool, exponent: i32) -> Option<f64> {
    let (mantissa, power) = match digits.split_once('e') {
        Some((mantissa, power)) => (mantissa, power.parse::<i32>().ok()?),
        None => (digits, 0),
    };
    // As bytes: the library's search for a character, and from behind, is large.
    let count = |mark: u8| mantissa.bytes().filter(|&b| b == mark).count();
    let last = |mark: u8| mantissa.bytes().rposition(|b| b == mark);
    let groups_well = |mark: char, end: usize| {
        let mut groups = mantissa.get(..end).unwrap_or_default().split(mark);
        let first = groups.next().unwrap_or("");
        (1..=3).contains(&first.len())
            && !first.starts_with('0')
            && groups.all(|g| g.len() == 3 && g.bytes().all(|b| b.is_ascii_digit()))
    };
    let end = mantissa.len();
    let plain = match (count(b','), count(b'.')) {
        (0, 0 | 1) => mantissa.to_owned(),
        (1, 0) if thousands_occur && groups_well(',', end) => mantissa.replace(',', ""),
        (1, 0) => mantissa.replace(',', "."),
        (_, 0) if groups_well(',', end) => mantissa.replace(',', ""),
        (0, _) if groups_well('.', end) => mantissa.replace('.', ""),
        (_, 1) if last(b'.') > last(b',') && groups_well(',', last(b'.')?) => {
            mantissa.replace(',', "")
        }
        (1, _) if last(b',') > last(b'.') && groups_well('.', last(b',')?) => {
            mantissa.replace('.', "").replace(',', ".")
        }
        _ => return None,
    };
    let number = format!("{plain}e{}", exponent.checked_add(power)?);
    decimal::read(&number).filter(|v| v.is_finite())
}

/// How a typed unit turns into SI: × 10^`exponent` × `factor`.
#[derive(Clone, Copy)]
struct Scale {
    exponent: i32,
    factor: f64,
    thousands: bool,
}

const fn scale(exponent: i32, factor: f64, thousands: bool) -> Scale {
    Scale {
        exponent,
        factor,
        thousands,
    }
}

/// Scale of a typed unit (lower case); an empty one is the shown unit.
fn scale_of(quantity: Quantity, units: Units, unit: &str) -> Option<Scale> {
    let metric = units == Units::Metric;
    Some(match (quantity, unit) {
        (Quantity::Force, "") if metric => scale(3, 1.0, false),
        (Quantity::AxialStiffness, "") if metric => scale(3, 1.0, true),
        (Quantity::Force | Quantity::AxialStiffness, unit) => match unit {
            "n" => scale(0, 1.0, true),
            "kn" => scale(3, 1.0, quantity == Quantity::AxialStiffness),
            "mn" => scale(6, 1.0, false),
            "dan" => scale(1, 1.0, true),
            "kgf" => scale(0, GRAVITY_M_PER_S2, true),
            "" | "lbf" | "lb" | "lbs" => scale(0, POUND_FORCE_N, true),
            "kip" | "kips" => scale(3, POUND_FORCE_N, false),
            _ => return None,
        },
        (Quantity::Stiffness, "") if metric => scale(3, 1.0, true),
        (Quantity::Stiffness, unit) => match unit {
            "n/m" => scale(0, 1.0, true),
            "kn/m" | "n/mm" => scale(3, 1.0, true),
            "mn/m" | "kn/mm" => scale(6, 1.0, false),
            "" | "lbf/in" | "lb/in" | "lbs/in" => scale(0, POUND_FORCE_N / INCH_M, true),
            "lbf/ft" | "lb/ft" | "lbs/ft" => scale(0, POUND_FORCE_N / FOOT_M, true),
            _ => return None,
        },
        (Quantity::Mass, "") if metric => scale(0, 1.0, false),
        (Quantity::Mass, unit) => match unit {
            "kg" | "kgs" => scale(0, 1.0, false),
            "g" => scale(-3, 1.0, true),
            "" | "lb" | "lbs" => scale(0, POUND_KG, false),
            _ => return None,
        },
        (Quantity::MassPerLength, "") if metric => scale(0, 1.0, false),
        (Quantity::MassPerLength, unit) => match unit {
            "kg/m" => scale(0, 1.0, false),
            "g/m" => scale(-3, 1.0, true),
            "" | "lb/ft" | "lbs/ft" => scale(0, POUND_KG / FOOT_M, false),
            _ => return None,
        },
        (Quantity::BendingStiffness, "") if metric => scale(3, 1.0, true),
        (Quantity::BendingStiffness, unit) => match unit {
            "n·m²" | "nm²" => scale(0, 1.0, true),
            "kn·m²" | "knm²" => scale(3, 1.0, true),
            "" | "kip·in²" | "kipin²" => scale(3, POUND_FORCE_N * INCH_M * INCH_M, true),
            "lbf·in²" | "lb·in²" => scale(0, POUND_FORCE_N * INCH_M * INCH_M, true),
            _ => return None,
        },
        (Quantity::Moment, "") if metric => scale(3, 1.0, false),
        (Quantity::Moment, unit) => match unit {
            "n·m" | "nm" => scale(0, 1.0, true),
            "kn·m" | "knm" => scale(3, 1.0, false),
            "" | "lbf·ft" | "lb·ft" | "ft·lb" | "ft·lbf" => {
                scale(0, POUND_FORCE_N * FOOT_M, true)
            }
            "kip·ft" => scale(3, POUND_FORCE_N * FOOT_M, false),
            _ => return None,
        },
        (Quantity::Temperature, unit) => match (unit.trim_start_matches('°'), metric) {
            ("c" | "k", _) | ("", true) => scale(0, 1.0, false),
            ("f", _) | ("", false) => scale(0, 5.0 / 9.0, false),
            _ => return None,
        },
        (Quantity::Time, unit) => match unit {
            "" | "s" | "sec" | "seg" => scale(0, 1.0, false),
            "ms" => scale(-3, 1.0, true),
            _ => return None,
        },
        (Quantity::Ratio, unit) => match unit {
            "" => scale(0, 1.0, false),
            "%" => scale(-2, 1.0, false),
            _ => return None,
        },
        (Quantity::Length | Quantity::Diameter, _) => return None,
    })
}

/// One number, perhaps in groups set apart by spaces, and at most one unit.
fn parse_plain(quantity: Quantity, units: Units, tokens: &[Token]) -> Result<f64, ParseFault> {
    let (unit, numbers) = match tokens {
        [
            numbers @ ..,
            Token {
                kind: TokenKind::Unit(unit),
                at,
            },
        ] => {
            let known = scale_of(quantity, units, unit);
            let scale = known.ok_or_else(|| ParseFault::Unit {
                found: unit.clone(),
            })?;
            if numbers.is_empty() {
                return Err(ParseFault::Unreadable { at: *at });
            }
            (scale, numbers)
        }
        numbers => (
            scale_of(quantity, units, "").ok_or(ParseFault::Empty)?,
            numbers,
        ),
    };
    let mut digits = String::new();
    let mut first = 1;
    for (i, token) in numbers.iter().enumerate() {
        let unreadable = ParseFault::Unreadable { at: token.at };
        match &token.kind {
            TokenKind::Number(part) if i == 0 => {
                first = token.at;
                digits.push_str(part);
            }
            // `4 400`: a group of three after one to three digits.
            TokenKind::Number(part)
                if part.len() >= 3
                    && part.bytes().take(3).all(|b| b.is_ascii_digit())
                    && !part
                        .as_bytes()
                        .get(3)
                        .copied()
                        .is_some_and(|b| b.is_ascii_digit())
                    && digits.bytes().all(|b| b.is_ascii_digit())
                    && (i > 1 || digits.len() <= 3) =>
            {
                digits.push_str(part);
            }
            TokenKind::Fraction(n, d) if i == 0 && numbers.len() == 1 => {
                return Ok(n / d * unit.factor * 10_f64.powi(unit.exponent));
            }
            _ => return Err(unreadable),
        }
    }
    read_number(&digits, unit.thousands, unit.exponent)
        .map(|value| value * unit.factor)
        .ok_or(ParseFault::Unreadable { at: first })
}

/// Units of length.
#[derive(Clone, Copy, PartialEq)]
enum Ruler {
    Metric(i32),
    Foot,
    Inch,
}

fn ruler(unit: &str) -> Option<Ruler> {
    Some(match unit {
        "m" | "mts" | "mt" => Ruler::Metric(0),
        "cm" => Ruler::Metric(-2),
        "mm" => Ruler::Metric(-3),
        "'" | "ft" | "foot" | "feet" | "pie" | "pies" => Ruler::Foot,
        "\"" | "in" | "inch" | "inches" | "pulg" | "pulgada" | "pulgadas" => Ruler::Inch,
        _ => return None,
    })
}

/// Sum of parts, each a number or mixed fraction with a unit.
fn parse_length(quantity: Quantity, units: Units, tokens: &[Token]) -> Result<f64, ParseFault> {
    let shown = match (quantity, units) {
        (Quantity::Diameter, Units::Metric) => Ruler::Metric(-3),
        (_, Units::Metric) => Ruler::Metric(0),
        (Quantity::Diameter, Units::Us) => Ruler::Inch,
        (_, Units::Us) => Ruler::Foot,
    };
    let mut rest = tokens;
    let mut metres = 0.0;
    // In sixty-fourths of an inch, so that the usual fractions add up exactly.
    let mut parts_of_inch = 0.0;
    let mut before: Option<Ruler> = None;
    while let Some(token) = rest.first() {
        let unreadable = ParseFault::Unreadable { at: token.at };
        if matches!(token.kind, TokenKind::Dash) {
            // A hyphen only between feet and inches: `5-11`, `5' - 11"`.
            if before != Some(Ruler::Foot) || rest.len() < 2 {
                return Err(unreadable);
            }
            rest = &rest[1..];
            continue;
        }
        let (digits, whole_taken) = match &token.kind {
            TokenKind::Number(digits) => (Some(digits), 1),
            TokenKind::Fraction(..) => (None, 0),
            _ => return Err(unreadable),
        };
        let mut taken = whole_taken;
        let mut over = None;
        if let Some(Token {
            kind: TokenKind::Fraction(n, d),
            ..
        }) = rest.get(taken)
        {
            over = Some((*n, *d));
            taken += 1;
        }
        let here = match rest.get(taken) {
            Some(Token {
                kind: TokenKind::Unit(unit),
                ..
            }) => {
                taken += 1;
                ruler(unit).ok_or_else(|| ParseFault::Unit {
                    found: unit.clone(),
                })?
            }
            // A bare number after feet is inches; a first one is in the shown unit.
            _ => match before {
                None => shown,
                Some(Ruler::Foot) => Ruler::Inch,
                Some(_) => return Err(unreadable),
            },
        };
        let falls = match (before, here) {
            (None, _) | (Some(Ruler::Foot), Ruler::Inch) => true,
            (Some(Ruler::Metric(a)), Ruler::Metric(b)) => b < a,
            _ => false,
        };
        if !falls {
            return Err(unreadable);
        }
        match here {
            Ruler::Metric(exponent) => {
                if let Some(digits) = digits {
                    metres += read_number(digits, false, exponent).ok_or(unreadable)?;
                }
                if let Some((n, d)) = over {
                    metres += n / d * 10_f64.powi(exponent);
                }
            }
            Ruler::Foot | Ruler::Inch => {
                let scale = if here == Ruler::Foot { 768.0 } else { 64.0 };
                if let Some(digits) = digits {
                    parts_of_inch += read_number(digits, false, 0).ok_or(unreadable)? * scale;
                }
                if let Some((n, d)) = over {
                    parts_of_inch += n * scale / d;
                }
            }
        }
        before = Some(here);
        rest = &rest[taken..];
    }
    // Whole sixty-fourths times 254 are whole numbers: one correctly rounded division.
    Ok(metres + parts_of_inch * 254.0 / 640_000.0)
}
