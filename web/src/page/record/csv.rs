//! What a spreadsheet makes of a cell.

/// Units behind the numbers of a table.
const UNITS: [&str; 19] = [
    "m",
    "mm",
    "ft",
    "in",
    "s",
    "%",
    "N",
    "kN",
    "lbf",
    "kg",
    "lb",
    "°C",
    "°F",
    "kN/m",
    "lbf/in",
    "kN·m",
    "lbf·ft",
    "kN·m²",
    "kip·in²",
];

/// Whether a spreadsheet might compute a cell. What begins so is marked as text by an apostrophe, but
/// for a number below zero with its unit, as the page writes it.
///
/// # Source
/// OWASP, CSV Injection (from memory): `=`, `+`, `-`, `@`, tab, line ends, and the wide forms of the
/// first four.
pub fn may_be_formula(cell: &str) -> bool {
    let shown = cell.trim_start();
    let begins = shown.starts_with([
        '=', '+', '-', '@', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}',
    ]) || cell.starts_with(['\t', '\r', '\n']);
    begins && !is_number_below_zero(cell)
}

/// `-0.30 m`, `-1,200 lbf`, `-3 ft 3 1/2 in`, `-5%`: words of digits, and units. None of them is the
/// name of a cell or function, nor a sign that joins two values.
fn is_number_below_zero(cell: &str) -> bool {
    let Some(rest) = cell.strip_prefix('-') else {
        return false;
    };
    rest.starts_with(|c: char| c.is_ascii_digit())
        && rest.split([' ', '\u{a0}']).all(|word| {
            let digits = word.strip_suffix('%').unwrap_or(word);
            let number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '/');
            UNITS.contains(&word) || (!digits.is_empty() && digits.chars().all(number))
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::{self, Units};
    use footroom_core::field::Quantity;

    /// A minus and a digit may begin a formula as well as a number.
    #[test]
    fn what_goes_on_after_a_minus_is_no_formula_either() {
        for cell in [
            "-2+3",
            "-1+cmd|' /C calc'!A0",
            "-1*HYPERLINK(\"http://example.org\")",
            "-1-A1",
            "-1;A1",
            "-1 =A1",
            "-1=A1",
            "-1&A1",
            "-1 m+A1",
            "-1 m\n=A1",
            "-1\t=A1",
            "-",
            "- 1",
            "-x",
            "-1 A1",
            "-1 post",
            "-1 m m2",
            "-1:1",
            "-1^2",
            "-1(2)",
            "=1",
            " =1",
            "\u{a0}=1",
            "\n=1",
            "\u{ff1d}1",
            "\u{ff0d}1",
        ] {
            assert!(may_be_formula(cell), "{cell:?}");
        }
        for cell in [
            "-0.30 m",
            "-1,200 lbf",
            "-3 ft 3 1/2 in",
            "-1/2 in",
            "-5%",
            "-5.2 %",
            "-12.5 °C",
            "-3 kN·m²",
            "-80 kN/m",
            "-7",
            "",
            "m",
            "0.30 m",
            "a=b",
            "\u{2212}1",
        ] {
            assert!(!may_be_formula(cell), "{cell:?}");
        }
    }

    /// Whatever the page writes as a number below zero is left as it is.
    #[test]
    fn numbers_of_the_page_are_left_as_they_are() {
        let quantities = [
            Quantity::Length,
            Quantity::Diameter,
            Quantity::Force,
            Quantity::Stiffness,
            Quantity::Moment,
            Quantity::Temperature,
            Quantity::Time,
            Quantity::Ratio,
            Quantity::Mass,
        ];
        for units in [Units::Metric, Units::Us] {
            for quantity in quantities {
                // The first is 0 to the digits shown of some of them.
                for (value, below) in [(-0.3, false), (-3.1, false), (-12_345.678, true)] {
                    let text =
                        format::limit_text(quantity, units, value, format::Rounding::Nearest);
                    assert!(!below || text.starts_with('-'), "{text}");
                    assert!(!may_be_formula(&text), "{text}");
                }
            }
        }
    }
}
