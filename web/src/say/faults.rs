//! What is wrong, in words: faults of a case, of a typed text, of a link.

use footroom_core::case::Case;
use footroom_core::fault::{Fault, FieldRef};
use footroom_core::field::Quantity;
use footroom_core::setup;

use crate::say::format::{self, Lang, Rounding, Units};
use crate::say::input::{self, InputFault};
use crate::say::texts::{self, Texts};
use crate::say::typed::ParseFault;
use crate::wire::json::Reason;
use crate::wire::link::{CONTENT_MAX, LinkFault};

/// Language and units of what is said.
#[derive(Clone, Copy, Debug)]
pub struct Voice {
    /// Language.
    pub lang: Lang,
    /// Units.
    pub units: Units,
}

impl Voice {
    /// Every language with every units.
    #[cfg(test)]
    pub(crate) const ALL: [Self; 4] = [
        Self {
            lang: Lang::En,
            units: Units::Metric,
        },
        Self {
            lang: Lang::En,
            units: Units::Us,
        },
        Self {
            lang: Lang::Es,
            units: Units::Metric,
        },
        Self {
            lang: Lang::Es,
            units: Units::Us,
        },
    ];

    /// The texts of the language.
    pub fn texts(self) -> &'static Texts {
        texts::of(self.lang)
    }

    /// The texts of the language that belong to the form.
    pub fn form(self) -> &'static texts::form::Texts {
        texts::form::of(self.lang)
    }

    /// The texts of the language that belong to the record.
    pub fn record(self) -> &'static texts::record::Texts {
        texts::record::of(self.lang)
    }

    /// The texts of the language that belong to the office.
    pub fn office(self) -> &'static texts::office::Texts {
        texts::office::of(self.lang)
    }

    /// The texts of the language for the views that help to decide.
    pub fn decide(self) -> &'static texts::decide::Texts {
        texts::decide::of(self.lang)
    }
}

/// A fault of a case, or of a reading of the set-up on its line.
pub fn case_fault(voice: Voice, case: &Case, fault: &Fault) -> String {
    let t = voice.texts();
    let form = voice.form();
    let text = |field: FieldRef, value, rounding| {
        if matches!(field.name, "reading.weight_n" | "set_up.weight_n") {
            return format::weight(voice.units, value, rounding);
        }
        let set_up = || setup::FIELDS.iter().find(|f| f.name == field.name);
        let quantity = input::quantity(case, field.name, field.index.unwrap_or(0))
            .or_else(|| set_up().map(|f| f.quantity))
            .unwrap_or(Quantity::Ratio);
        format::limit_text(quantity, voice.units, value, rounding)
    };
    let found = |field, value| text(field, value, Rounding::Nearest);
    let least = |field, value| text(field, value, Rounding::Up);
    let most = |field, value| text(field, value, Rounding::Down);
    let message = match *fault {
        Fault::NotFinite { .. } => form.fault_not_finite.to_owned(),
        Fault::OutOfRange {
            field,
            value,
            min,
            max,
        } => (form.say.out_of_range)(&found(field, value), &least(field, min), &most(field, max)),
        Fault::Count { field, .. } if field.name == "workers.fall_time_s" => {
            t.nobody_falls.trim_end_matches('.').to_owned()
        }
        Fault::Count {
            field, count, max, ..
        } if matches!(
            field.name,
            "title" | "own_limits.label" | "own_limits.reference"
        ) =>
        {
            (form.say.text_too_long)(count, max)
        }
        Fault::Count {
            count, min, max, ..
        } => (form.say.count)(count, min, max),
        Fault::LanyardTooShort { field, value, min } => {
            (form.say.lanyard_too_short)(&found(field, value), &least(field, min))
        }
        Fault::SlackAtRest { field, value, min } => {
            (form.say.slack_at_rest)(&found(field, value), &least(field, min))
        }
        Fault::Reversed { field, value, min } => {
            (form.say.reversed)(&found(field, value), &least(field, min))
        }
        Fault::AboveBeam { field, value, max } => {
            (form.say.above_beam)(&found(field, value), &most(field, max))
        }
        Fault::PretensionTooHigh { field, value, max } => {
            (form.say.pretension_too_high)(&found(field, value), &most(field, max))
        }
        Fault::ForceOrder { field, value, min } => {
            (form.say.force_order)(&found(field, value), &least(field, min))
        }
        // A fault that the core has learnt since.
        _ => form.fault_other.to_owned(),
    };
    match fault.field() {
        FieldRef {
            name: "line.spans_m",
            index: Some(i),
        } => (form.say.at_span)(i + 1, &message),
        _ => message,
    }
}

/// A typed text that was not taken; `None` for a path that does not exist.
pub fn input_fault(voice: Voice, fault: &InputFault) -> Option<String> {
    let form = voice.form();
    Some(match fault {
        InputFault::NoSuchField => return None,
        InputFault::Choice => form.fault_choice.to_owned(),
        InputFault::Count { count, min, max } => (form.say.count)(*count, *min, *max),
        InputFault::NotWhole => (form.say.unreadable)(1, "3"),
        InputFault::Curve { at } => (form.say.unreadable)(*at, curve_example(voice.units)),
        InputFault::Parse(_, ParseFault::Empty) => form.fault_empty.to_owned(),
        InputFault::Parse(quantity, ParseFault::Unreadable { at }) => {
            (form.say.unreadable)(*at, example(*quantity, voice.units))
        }
        InputFault::Parse(quantity, ParseFault::Unit { found }) => {
            (form.say.wrong_unit)(found, example(*quantity, voice.units))
        }
    })
}

/// What may be typed for a curve: an invented one.
pub const fn curve_example(units: Units) -> &'static str {
    match units {
        Units::Metric => "0 m: 3 kN; 0.2 m: 4.5 kN; 1.1 m: 4 kN",
        Units::Us => "0 ft: 700 lbf; 8 in: 1000 lbf; 3 ft 6 in: 900 lbf",
    }
}

/// What may be typed for a quantity.
pub const fn example(quantity: Quantity, units: Units) -> &'static str {
    match (quantity, units) {
        (Quantity::Length, Units::Metric) => "1.8 m",
        (Quantity::Length, Units::Us) => "5 ft 11 in",
        (Quantity::Diameter, Units::Metric) => "9.5 mm",
        (Quantity::Diameter, Units::Us) => "3/8 in",
        (Quantity::Force, Units::Metric) => "4.4 kN",
        (Quantity::Force, Units::Us) => "1000 lbf",
        (Quantity::AxialStiffness, Units::Metric) => "3850 kN",
        (Quantity::AxialStiffness, Units::Us) => "868000 lbf",
        (Quantity::Stiffness, Units::Metric) => "80 kN/m",
        (Quantity::Stiffness, Units::Us) => "460 lbf/in",
        (Quantity::Mass, Units::Metric) => "100 kg",
        (Quantity::Mass, Units::Us) => "220 lb",
        (Quantity::MassPerLength, Units::Metric) => "0.36 kg/m",
        (Quantity::MassPerLength, Units::Us) => "0.24 lb/ft",
        (Quantity::BendingStiffness, Units::Metric) => "440 kN·m²",
        (Quantity::BendingStiffness, Units::Us) => "153000 kip·in²",
        (Quantity::Moment, Units::Metric) => "12 kN·m",
        (Quantity::Moment, Units::Us) => "9000 lbf·ft",
        (Quantity::Temperature, Units::Metric) => "20 °C",
        (Quantity::Temperature, Units::Us) => "68 °F",
        (Quantity::Time, _) => "0.4 s",
        (Quantity::Ratio, _) => "0.8",
    }
}

/// Why a link was refused, with the place.
pub fn link_fault(voice: Voice, fault: &LinkFault) -> String {
    let form = voice.form();
    match fault {
        LinkFault::Foreign => form.link_foreign.to_owned(),
        LinkFault::Version { version } => (form.say.link_version)(version),
        LinkFault::Character { at } => (form.say.link_character)(*at),
        LinkFault::Truncated => form.link_truncated.to_owned(),
        LinkFault::Damaged { at } => (form.say.link_damaged)(*at),
        LinkFault::Checksum => form.link_checksum.to_owned(),
        LinkFault::Trailing => form.link_trailing.to_owned(),
        LinkFault::TooLong => (form.say.link_too_long)(CONTENT_MAX),
        LinkFault::Content(fault) => {
            (form.say.link_content)(fault.at, &json_reason(form, &fault.reason))
        }
    }
}

/// Why a text is not the expected JSON.
pub(crate) fn json_reason(form: &texts::form::Texts, reason: &Reason) -> String {
    match reason {
        Reason::End => form.json_end.to_owned(),
        Reason::Character => form.json_character.to_owned(),
        Reason::Number => form.json_number.to_owned(),
        Reason::Text => form.json_text.to_owned(),
        Reason::Depth => form.json_depth.to_owned(),
        Reason::TooMuch => form.json_too_much.to_owned(),
        Reason::Trailing => form.link_trailing.trim_end_matches('.').to_owned(),
        Reason::Kind => form.json_kind.to_owned(),
        Reason::Twice(name) => (form.say.json_twice)(name),
        Reason::Unknown(name) => (form.say.json_unknown)(name),
        Reason::Missing(name) => (form.say.json_missing)(name),
    }
}
