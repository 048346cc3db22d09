//! The curve of an absorber as it is shown and typed: extension and force of every point.
//!
//! `0: 3; 0.2: 4.5; 1.1: 4`, with or without units, as numbers of their own are typed; points also one a
//! line, or with a comma and a space between them.

use footroom_core::case::Absorber;
use footroom_core::curve::{POINTS_MAX, Points};
use footroom_core::field::Quantity;

use crate::say::format::{self, Units};
use crate::say::input::{InputFault, at_commas};
use crate::say::typed::{self, ParseFault};

/// How a point is shown.
fn point(units: Units, extension_m: f64, force_n: f64) -> String {
    let [extension, force] = [(Quantity::Length, extension_m), (Quantity::Force, force_n)]
        .map(|(quantity, value)| format::field_text_with_unit(quantity, units, value));
    format!("{extension}: {force}")
}

fn points(absorber: &Absorber) -> impl Iterator<Item = (f64, f64)> {
    let (x, f) = (&absorber.curve_extension_m, &absorber.curve_force_n);
    let (x, f) = (x.as_slice().iter(), f.as_slice().iter());
    x.copied().zip(f.copied())
}

/// The curve as it is shown; nothing where there is none.
pub fn shown(absorber: &Absorber, units: Units) -> String {
    let texts: Vec<String> = points(absorber).map(|(x, f)| point(units, x, f)).collect();
    texts.join("; ")
}

/// Puts a typed curve in place of the absorber's. A point whose text is what is shown for the one at its
/// place keeps its values, to the last bit.
///
/// # Errors
/// The absorber is unchanged then: a text that cannot be read, from where on.
pub(super) fn put(absorber: &mut Absorber, text: &str, units: Units) -> Result<(), InputFault> {
    let pieces: Vec<&str> = if text.contains([';', '\n']) {
        text.split([';', '\n']).collect()
    } else {
        at_commas(text)
    };
    let before_it = *absorber;
    let mut old = points(&before_it);
    let (mut extensions_m, mut forces_n) = (Vec::new(), Vec::new());
    for piece in pieces {
        if piece.trim().is_empty() {
            continue;
        }
        let kept = (old.next()).filter(|&(x, f)| point(units, x, f) == piece.trim());
        let (extension_m, force_n) = match kept {
            Some(values) => values,
            None => {
                let end = before(text, piece) + piece.chars().count() + 1;
                let (x, f) = (piece.split_once(':')).ok_or(InputFault::Curve { at: end })?;
                let read = |quantity, one: &str| {
                    typed::parse(quantity, units, one).map_err(|fault| {
                        let begin = before(text, one);
                        match fault {
                            ParseFault::Unreadable { at } => InputFault::Curve { at: begin + at },
                            ParseFault::Empty => InputFault::Curve { at: begin + 1 },
                            unit @ ParseFault::Unit { .. } => InputFault::Parse(quantity, unit),
                        }
                    })
                };
                (read(Quantity::Length, x)?, read(Quantity::Force, f)?)
            }
        };
        extensions_m.push(extension_m);
        forces_n.push(force_n);
        // One more than allowed is enough for the check to name it.
        if forces_n.len() > POINTS_MAX {
            break;
        }
    }
    if forces_n.is_empty() {
        return Err(InputFault::Parse(Quantity::Force, ParseFault::Empty));
    }
    absorber.curve_extension_m = Points::of(&extensions_m);
    absorber.curve_force_n = Points::of(&forces_n);
    Ok(())
}

/// Characters of a text before a piece of it.
fn before(text: &str, piece: &str) -> usize {
    let begin = piece.as_ptr() as usize - text.as_ptr() as usize;
    text.get(..begin).map_or(0, |t| t.chars().count())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, units: Units) -> Result<Vec<(f64, f64)>, InputFault> {
        let mut absorber = Absorber::default();
        put(&mut absorber, text, units)?;
        Ok(points(&absorber).collect())
    }

    #[test]
    fn a_curve_is_read_in_many_notations() {
        let wanted = vec![(0.0, 2e3), (0.1, 3.5e3), (1.1, 4e3)];
        for text in [
            "0: 2; 0.1: 3.5; 1.1: 4",
            "0:2.0, 0.1:3.5, 1.1:4.0",
            "0 m: 2 kN; 10 cm: 3500 N; 1.1: 4;",
            "0:2\n0,1:3,5\n1,1:4\n",
        ] {
            assert_eq!(read(text, Units::Metric), Ok(wanted.clone()), "{text}");
        }
        let us = read("0: 700 lbf; 6 in: 800; 3' 6\": 3 kN", Units::Us).expect("readable");
        let wanted = [(0.0, 3_113.755), (0.1524, 3_558.577), (1.0668, 3_000.0)];
        for ((x, f), (x_wanted, f_wanted)) in us.into_iter().zip(wanted) {
            assert!((x - x_wanted).abs() < 1e-9 && (f - f_wanted).abs() < 1e-3);
        }
    }

    #[test]
    fn what_cannot_be_read_is_told_from_where_on() {
        let at = |text| match read(text, Units::Metric) {
            Err(InputFault::Curve { at }) => at,
            other => panic!("{text}: {other:?}"),
        };
        assert_eq!(at("0: 2; 0.1 3.5"), 14);
        assert_eq!(at("0: 2; x: 3.5"), 7);
        assert_eq!(at("0: 2; 0.1: 1..2"), 12);
        assert_eq!(at("0: 2; 0.1:"), 11);
        assert_eq!(at("ñ: 2"), 1);
        let empty = Err(InputFault::Parse(Quantity::Force, ParseFault::Empty));
        assert_eq!(read("", Units::Metric), empty);
        assert_eq!(read(" ;\n; ", Units::Metric), empty);
        let unit = read("0: 2 m", Units::Metric);
        assert!(
            matches!(unit, Err(InputFault::Parse(Quantity::Force, _))),
            "{unit:?}"
        );
    }

    /// Values that no text shows exactly stay where the shown text is typed again, one by one.
    #[test]
    fn the_shown_text_moves_nothing() {
        for units in [Units::Metric, Units::Us] {
            let mut absorber = Absorber {
                curve_extension_m: Points::of(&[0.0, 0.123_456_789, 1.000_03]),
                curve_force_n: Points::of(&[3_000.001, 4_444.444_4, 4_000.0]),
                ..Absorber::default()
            };
            let before = absorber;
            let text = shown(&absorber, units);
            put(&mut absorber, &text, units).expect("readable");
            assert_eq!(absorber, before, "{text}");
            let (kept, _) = text.rsplit_once(';').expect("points");
            put(&mut absorber, &format!("{kept}; 2 m: 5 kN"), units).expect("readable");
            assert_eq!(
                absorber.curve_force_n.as_slice()[..2],
                [3_000.001, 4_444.444_4]
            );
            assert_eq!(absorber.curve_extension_m.as_slice()[2], 2.0);
        }
    }

    #[test]
    fn too_many_points_are_left_to_the_check() {
        let text = "0: 4; ".repeat(40);
        assert_eq!(
            read(&text, Units::Metric).map(|p| p.len()),
            Ok(POINTS_MAX + 1)
        );
    }
}
