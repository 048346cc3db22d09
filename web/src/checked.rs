//! What of a case and its answer lies outside the region in which the model was checked, in words.

use footroom_core::field;
use footroom_core::scope::{Checked, Outside};

use crate::fault_text::Voice;
use crate::format::{self, Rounding};

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
        None => (say.checked_from)(&label, &value, &least),
        Some(0.0) => (say.checked_none)(&label, &value),
        Some(most) => (say.checked_range)(&label, &value, &least, &shown(most, Rounding::Down)),
    }
}

/// The name of the quantity within a sentence.
fn label(voice: Voice, quantity: Checked) -> String {
    let t = voice.texts();
    let own = match quantity {
        Checked::SpanCount => t.checked_span_count,
        // Not the label of the input, which is that of a measured one.
        Checked::FreeFall => t.free_fall,
        Checked::EndStiffness => t.checked_end_stiffness,
        Checked::Users => t.checked_users,
        Checked::Delay => t.checked_delay,
        Checked::SelfRetracting => t.checked_self_retracting,
        Checked::Offset => t.checked_offset,
        Checked::DeflectionRatio => t.checked_deflection,
        Checked::Slope => t.checked_slope,
        of_an_input => {
            let text = of_an_input.field().and_then(|name| t.fields.find(name));
            return text.map_or_else(|| t.checked_other.to_owned(), |text| lower(text.label));
        }
    };
    own.to_owned()
}

/// A label within a sentence: its first letter small, unless it begins with an abbreviation.
fn lower(label: &str) -> String {
    let mut text = label.to_owned();
    let word = label.split(' ').next().unwrap_or_default();
    if word.bytes().filter(u8::is_ascii_uppercase).count() == 1
        && let Some(first) = text.get_mut(..1)
    {
        first.make_ascii_lowercase();
    }
    text
}

fn shown(voice: Voice, quantity: Checked, value: f64, rounding: Rounding) -> String {
    let kind = match quantity {
        Checked::SpanCount | Checked::Users | Checked::SelfRetracting => {
            return format::number_rounded(value, 0, rounding);
        }
        Checked::DeflectionRatio | Checked::Slope => {
            return format::number_rounded(value, 3, rounding);
        }
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
    use crate::format::{Lang, Units};
    use footroom_core::case::GearKind;
    use footroom_core::demo::demo;
    use footroom_core::solve::{Options, solve};

    const VOICES: [(Lang, Units); 4] = [
        (Lang::En, Units::Metric),
        (Lang::En, Units::Us),
        (Lang::Es, Units::Metric),
        (Lang::Es, Units::Us),
    ];

    #[test]
    fn inside_nothing_is_said() {
        let outcome = solve(&demo(), Options::default()).expect("a valid case");
        for (lang, units) in VOICES {
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
        case.workers[0].mass_kg = 60.0;
        case.workers[1].gear.kind = GearKind::SelfRetracting;
        let outcome = solve(&case, Options::default()).expect("a valid case");
        let voice = Voice {
            lang: Lang::En,
            units: Units::Metric,
        };
        let said = outside(voice, &outcome.outside_checked).expect("something is outside");
        for part in [
            "4.00 m (checked 6.00 m to 30.00 m)",
            "60 kg (checked 80 kg to 141 kg)",
            "workers on self-retracting lifelines 1 (none checked)",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
    }

    #[test]
    fn every_quantity_has_a_name_in_every_language() {
        for (lang, units) in VOICES {
            let voice = Voice { lang, units };
            let mut names: Vec<String> = Checked::ALL.iter().map(|&q| label(voice, q)).collect();
            assert!(!names.contains(&voice.texts().checked_other.to_owned()));
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
                assert!(said.contains(&label(voice, quantity)));
            }
        }
    }
}
