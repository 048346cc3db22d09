//! What of a case and its answer lies outside the region in which the model was checked, in words.

use footroom_core::field;
use footroom_core::scope::{Checked, Outside};

use crate::say::faults::Voice;
use crate::say::format::{self, Rounding};

/// One sentence that names every quantity outside, with its value and the checked range; `None`:
/// everything is inside.
pub fn outside(voice: Voice, all: &[Outside]) -> Option<String> {
    if all.is_empty() {
        return None;
    }
    let list: Vec<String> = all.iter().map(|o| one(voice, o)).collect();
    Some((voice.texts().say.outside_checked)(&list.join("; ")))
}

fn one(voice: Voice, outside: &Outside) -> String {
    let say = &voice.texts().say;
    let label = label(voice, outside.quantity);
    let shown = |value, rounding| shown(voice, outside.quantity, value, rounding);
    // Away from the range, so that what is outside does not read like its bound.
    let away = if outside.value < outside.least {
        Rounding::Down
    } else {
        Rounding::Up
    };
    let value = shown(outside.value, away);
    let least = shown(outside.least, Rounding::Up);
    match outside.greatest {
        None => (say.checked_from)(label, &value, &least),
        Some(0.0) => (say.checked_none)(label, &value),
        Some(most) => (say.checked_range)(label, &value, &least, &shown(most, Rounding::Down)),
    }
}

/// The name of the quantity within a sentence.
fn label(voice: Voice, quantity: Checked) -> &'static str {
    let t = voice.texts();
    match quantity {
        Checked::SpanCount => t.checked_span_count,
        Checked::Span => t.checked_span,
        Checked::Pretension => t.checked_pretension,
        Checked::AxialStiffness => t.checked_axial_stiffness,
        Checked::MassPerLength => t.checked_mass_per_length,
        Checked::EndStiffness => t.checked_end_stiffness,
        Checked::InlineForce => t.checked_inline_force,
        Checked::InlineExtension => t.checked_inline_extension,
        Checked::Damping => t.checked_damping,
        Checked::Users => t.checked_users,
        Checked::Delay => t.checked_delay,
        Checked::Mass => t.checked_mass,
        Checked::FreeFall => t.checked_free_fall,
        Checked::GearStiffness => t.checked_gear_stiffness,
        Checked::AbsorberForce => t.checked_absorber_force,
        Checked::AbsorberExtension => t.checked_absorber_extension,
        Checked::LockedStiffness => t.checked_locked_stiffness,
        Checked::SelfRetracting => t.checked_self_retracting,
        Checked::Offset => t.checked_offset,
        Checked::DeflectionRatio => t.checked_deflection,
        Checked::Slope => t.checked_slope,
        Checked::Nearness => t.checked_nearness,
        // One that the core has learnt since.
        _ => t.checked_other,
    }
}

fn shown(voice: Voice, quantity: Checked, value: f64, rounding: Rounding) -> String {
    let kind = match quantity {
        Checked::SpanCount | Checked::Users | Checked::SelfRetracting => {
            return format::number_rounded(value, 0, rounding);
        }
        Checked::DeflectionRatio | Checked::Slope => {
            return format::number_rounded(value, 3, rounding);
        }
        Checked::Nearness => return format::number_rounded(value, 1, rounding),
        Checked::EndStiffness => field::Quantity::Stiffness,
        Checked::Delay => field::Quantity::Time,
        Checked::Offset => return format::length_rounded(voice.units, value, rounding),
        of_an_input => of_an_input
            .field()
            .and_then(field::find)
            .map_or(field::Quantity::Ratio, |f| f.quantity),
    };
    format::limit_text(kind, voice.units, value, rounding)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::{Lang, Units};
    use footroom_core::demo::demo;
    use footroom_core::solve::{Options, solve};

    #[test]
    fn inside_nothing_is_said() {
        let outcome = solve(&demo(), Options::default()).expect("a valid case");
        for Voice { lang, units } in Voice::ALL {
            assert_eq!(
                outside(Voice { lang, units }, &outcome.outside_checked),
                None
            );
        }
    }

    #[test]
    fn each_quantity_is_named_with_value_and_range() {
        let mut case = demo();
        case.line.spans_m = vec![4.0, 14.0];
        case.workers[0].mass_kg = 230.0;
        case.workers[1].offset_along_m = 0.5;
        let outcome = solve(&case, Options::default()).expect("a valid case");
        let voice = Voice {
            lang: Lang::En,
            units: Units::Metric,
        };
        let said = outside(voice, &outcome.outside_checked).expect("something is outside");
        for part in [
            "4.00 m (checked 6.00 m to 40.00 m)",
            "230 kg (checked 40 kg to 220 kg)",
            "distance from the connector 0.50 m (none checked)",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
    }

    #[test]
    fn every_quantity_has_a_name_in_every_language() {
        for voice in Voice::ALL {
            let mut names: Vec<&str> = Checked::ALL.iter().map(|&q| label(voice, q)).collect();
            assert!(!names.contains(&voice.texts().checked_other));
            names.sort_unstable();
            names.dedup();
            assert_eq!(names.len(), Checked::ALL.len(), "{names:?}");
            for &quantity in Checked::ALL {
                let (least, greatest) = quantity.range();
                let all = [Outside {
                    quantity,
                    value: greatest.unwrap_or(least) * 3.0 + 1.0,
                    index: 0,
                    least,
                    greatest,
                }];
                let said = outside(voice, &all).expect("something is outside");
                assert!(said.contains(label(voice, quantity)));
            }
        }
    }
}
