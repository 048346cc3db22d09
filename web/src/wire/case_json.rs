//! A case as JSON, both ways: visitors of the core's list of inputs.
//!
//! The text is the one that the core's own serde writes, field by field (a test compares them):
//! names as in [`footroom_core::field`], SI units. A field that is missing has the default of the
//! model that wrote the text, so that old ones mean what they meant; a name that is not known is a
//! fault, so that nothing is passed over in silence.

use std::ops::RangeInclusive;

use footroom_core::case::Case;
use footroom_core::constants::MODEL_VERSION;
use footroom_core::field::{self, Field, Visitor};

use crate::wire::json::{self, Json, JsonFault, Kind, Reason, Writer};
use crate::wire::steps;

/// Writes a case.
pub fn write(case: &Case, writer: &mut Writer) {
    let mut case = case.clone();
    write_object(writer, &mut |writer| field::visit(&mut case, writer));
}

/// Reads a case; `model`: version of the model of whoever wrote it, whose defaults hold for what it
/// leaves out.
///
/// # Errors
/// The first value that does not fit, and its place.
pub fn read(json: &Json, model: u32) -> Result<Case, JsonFault> {
    let mut case = Case::of_model(model);
    read_object(json, &mut |entries| field::visit(&mut case, entries))?;
    Ok(case)
}

/// The text of a case; `None` when a number of it is not finite, which no checked case has and JSON
/// cannot say.
pub fn to_text(case: &Case) -> Option<String> {
    let mut writer = Writer::default();
    write(case, &mut writer);
    let text = writer.finish();
    from_text(&text).ok()?;
    Some(text)
}

/// The case of a text of this page.
///
/// # Errors
/// What is no JSON, or not that of a case, and its place.
pub fn from_text(text: &str) -> Result<Case, JsonFault> {
    read(&json::read(text.as_bytes())?, MODEL_VERSION)
}

/// The name in the text: the last of a path.
fn key(path: &'static str) -> &'static str {
    let point = path.bytes().rposition(|b| b == b'.');
    (point.and_then(|at| path.get(at + 1..))).unwrap_or(path)
}

fn write_object(writer: &mut Writer, body: &mut dyn FnMut(&mut dyn Visitor)) {
    writer.open('{');
    body(writer);
    writer.close('}');
}

impl Visitor for Writer {
    fn number(&mut self, field: &Field, value: &mut f64) {
        self.name(key(field.name));
        Writer::number(self, *value);
    }

    fn optional(&mut self, field: &Field, value: &mut Option<f64>) {
        self.name(key(field.name));
        match value {
            Some(value) => Writer::number(self, *value),
            None => self.word("null"),
        }
    }

    fn numbers(&mut self, field: &Field, counts: RangeInclusive<usize>, values: &mut Vec<f64>) {
        if values.is_empty() && counts.contains(&0) {
            return;
        }
        self.name(key(field.name));
        self.open('[');
        for &mut value in values {
            Writer::number(self, value);
        }
        self.close(']');
    }

    fn flag(&mut self, name: &'static str, value: &mut bool) {
        self.name(key(name));
        self.word(if *value { "true" } else { "false" });
    }

    fn text(&mut self, name: &'static str, _longest: usize, value: &mut String) {
        self.name(key(name));
        Writer::text(self, value);
    }

    fn choice(
        &mut self,
        name: &'static str,
        keys: &[&'static str],
        unsaid: Option<usize>,
        place: &mut usize,
    ) {
        if unsaid == Some(*place) {
            return;
        }
        self.name(key(name));
        Writer::text(self, keys.get(*place).copied().unwrap_or_default());
    }

    fn object(&mut self, name: &'static str, body: &mut dyn FnMut(&mut dyn Visitor)) {
        self.name(key(name));
        write_object(self, body);
    }

    fn perhaps(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Visitor),
    ) {
        self.name(key(name));
        if *there {
            write_object(self, body);
        } else {
            self.word("null");
        }
    }

    fn seldom(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Visitor),
    ) {
        if *there {
            self.perhaps(name, there, body);
        }
    }

    fn list(
        &mut self,
        name: &'static str,
        _counts: RangeInclusive<usize>,
        count: usize,
        body: &mut dyn FnMut(usize, &mut dyn Visitor),
    ) {
        self.name(key(name));
        self.open('[');
        for i in 0..count {
            write_object(self, &mut |visitor| body(i, visitor));
        }
        self.close(']');
    }
}

/// Reads the entries of an object as they are asked for.
pub struct Entries<'a> {
    at: usize,
    entries: &'a [(String, Json)],
    used: Vec<bool>,
    fault: Option<JsonFault>,
}

impl<'a> Entries<'a> {
    /// The entries of an object.
    ///
    /// # Errors
    /// It is none.
    pub fn of(json: &'a Json) -> Result<Self, JsonFault> {
        match &json.kind {
            Kind::Object(entries) => Ok(Self {
                at: json.at,
                entries,
                used: vec![false; entries.len()],
                fault: None,
            }),
            _ => Err(expected(json)),
        }
    }

    /// The value called `name`.
    pub fn take(&mut self, name: &str) -> Option<&'a Json> {
        steps::count(self.entries.len());
        let i = self.entries.iter().position(|(other, _)| other == name)?;
        self.used[i] = true;
        Some(&self.entries[i].1)
    }

    /// The value called `name`.
    ///
    /// # Errors
    /// There is none.
    pub fn need(&mut self, name: &'static str) -> Result<&'a Json, JsonFault> {
        self.take(name).ok_or(JsonFault {
            at: self.at,
            reason: Reason::Missing(name),
        })
    }

    /// Ends the reading.
    ///
    /// # Errors
    /// The first fault, or a name that nobody asked for.
    pub fn finish(self) -> Result<(), JsonFault> {
        if let Some(fault) = self.fault {
            return Err(fault);
        }
        let unused = self.used.iter().position(|used| !used);
        match unused.and_then(|i| self.entries.get(i)) {
            Some((name, json)) => Err(JsonFault {
                at: json.at,
                reason: Reason::Unknown(name.clone()),
            }),
            None => Ok(()),
        }
    }

    /// Hands the value of a path on, when it is there and nothing was wrong before; remembers what
    /// is wrong.
    fn with(&mut self, path: &'static str, read: impl FnOnce(&'a Json) -> Result<(), JsonFault>) {
        if let Some(json) = self.take(key(path))
            && self.fault.is_none()
        {
            self.fault = read(json).err();
        }
    }
}

/// A value of another kind than expected.
pub fn expected(json: &Json) -> JsonFault {
    JsonFault {
        at: json.at,
        reason: Reason::Kind,
    }
}

/// A whole number from nought, such as the version of a model.
///
/// # Errors
/// When it is none, its place.
pub fn whole(json: &Json) -> Result<u32, JsonFault> {
    let value = number(json)?;
    if value.fract() != 0.0 || !(0.0..=f64::from(u32::MAX)).contains(&value) {
        return Err(expected(json));
    }
    Ok(value as u32)
}

/// A number.
///
/// # Errors
/// It is none.
pub fn number(json: &Json) -> Result<f64, JsonFault> {
    match json.kind {
        Kind::Number(value) => Ok(value),
        _ => Err(expected(json)),
    }
}

/// The entries of a list.
///
/// # Errors
/// It is none.
pub fn items(json: &Json) -> Result<&[Json], JsonFault> {
    match &json.kind {
        Kind::List(items) => Ok(items),
        _ => Err(expected(json)),
    }
}

fn read_object(json: &Json, body: &mut dyn FnMut(&mut dyn Visitor)) -> Result<(), JsonFault> {
    let mut entries = Entries::of(json)?;
    body(&mut entries);
    entries.finish()
}

impl Visitor for Entries<'_> {
    fn required(&mut self, names: &[&'static str]) {
        for name in names.iter().map(|name| key(name)) {
            steps::count(self.entries.len());
            let there = self.entries.iter().any(|(other, _)| other == name);
            if !there && self.fault.is_none() {
                self.fault = Some(JsonFault {
                    at: self.at,
                    reason: Reason::Missing(name),
                });
            }
        }
    }

    fn number(&mut self, field: &Field, value: &mut f64) {
        self.with(field.name, |json| number(json).map(|read| *value = read));
    }

    fn optional(&mut self, field: &Field, value: &mut Option<f64>) {
        self.with(field.name, |json| {
            *value = match json.kind {
                Kind::Null => None,
                _ => Some(number(json)?),
            };
            Ok(())
        });
    }

    fn numbers(&mut self, field: &Field, _counts: RangeInclusive<usize>, values: &mut Vec<f64>) {
        self.with(field.name, |json| {
            values.clear();
            for item in items(json)? {
                values.push(number(item)?);
            }
            Ok(())
        });
    }

    fn flag(&mut self, name: &'static str, value: &mut bool) {
        self.with(name, |json| match json.kind {
            Kind::Flag(read) => {
                *value = read;
                Ok(())
            }
            _ => Err(expected(json)),
        });
    }

    fn text(&mut self, name: &'static str, _longest: usize, value: &mut String) {
        self.with(name, |json| match &json.kind {
            Kind::Text(read) => {
                value.clone_from(read);
                Ok(())
            }
            _ => Err(expected(json)),
        });
    }

    fn choice(
        &mut self,
        name: &'static str,
        keys: &[&'static str],
        _unsaid: Option<usize>,
        place: &mut usize,
    ) {
        self.with(name, |json| {
            let found = match &json.kind {
                Kind::Text(read) => keys.iter().position(|key| key == read),
                _ => None,
            };
            *place = found.ok_or_else(|| expected(json))?;
            Ok(())
        });
    }

    fn object(&mut self, name: &'static str, body: &mut dyn FnMut(&mut dyn Visitor)) {
        self.with(name, |json| read_object(json, body));
    }

    fn perhaps(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Visitor),
    ) {
        self.with(name, |json| {
            *there = json.kind != Kind::Null;
            if *there {
                read_object(json, body)?;
            }
            Ok(())
        });
    }

    fn list(
        &mut self,
        name: &'static str,
        _counts: RangeInclusive<usize>,
        _count: usize,
        body: &mut dyn FnMut(usize, &mut dyn Visitor),
    ) {
        self.with(name, |json| {
            for (i, item) in items(json)?.iter().enumerate() {
                read_object(item, &mut |visitor| body(i, visitor))?;
            }
            Ok(())
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wire::json;
    use footroom_core::case::{
        BELOW_KINDS, Below, EndPost, GearKind, INLINE_PLACES, InlineAbsorber, InlinePlace, Line,
        Worker,
    };
    use footroom_core::check::{OWN_QUANTITIES, OwnLimit};
    use footroom_core::curve::{Peak, Points};
    use footroom_core::demo::demo;
    use footroom_core::rope::{CONSTRUCTIONS, Construction};

    fn text(case: &Case) -> String {
        let mut writer = Writer::default();
        write(case, &mut writer);
        writer.finish()
    }

    fn from(text: &str) -> Result<Case, JsonFault> {
        read(&json::read(text.as_bytes())?, MODEL_VERSION)
    }

    fn full() -> Case {
        let mut case = demo();
        case.line.inline_absorber = Some(InlineAbsorber {
            place: InlinePlace::Both,
            ..InlineAbsorber::default()
        });
        case.line.rope.construction = Construction::FibreCore6x19;
        case.workers[0].gear.kind = GearKind::SelfRetracting;
        if let Some(absorber) = &mut case.workers[0].gear.absorber {
            absorber.peak = Some(Peak::default());
        }
        case.workers[1].gear.absorber = None;
        case.workers[2].fall_time_s = None;
        if let Some(absorber) = &mut case.workers[2].gear.absorber {
            absorber.curve_extension_m = Points::of(&[0.0, 0.2, 1.1]);
            absorber.curve_force_n = Points::of(&[3e3, 5e3, 4e3]);
        }
        case.posts.left = Some(EndPost::default());
        case.posts.right = Some(EndPost {
            tieback: None,
            ..EndPost::default()
        });
        case.strengths.end_anchorage_n = Some(22_000.0);
        case.strengths.intermediate_post_n = Some(9_000.0);
        case.strengths.intermediate_post_along_n = Some(8_000.0);
        case.strengths.lanyard_n = Some(22_500.0);
        case.strengths.self_retracting_n = Some(13_500.0);
        case.tolerances.mass_ratio = 0.05;
        case.temperature.today_k = 263.15;
        case.sets.european = true;
        case.own_limits = OWN_QUANTITIES
            .iter()
            .map(|&(key, quantity)| OwnLimit {
                label: key.to_owned(),
                quantity,
                limit: 3.5,
                reference: "data sheet".to_owned(),
            })
            .collect();
        case.site.below = BELOW_KINDS
            .iter()
            .map(|&(_, kind)| Below {
                kind,
                ..Below::default()
            })
            .collect();
        case
    }

    #[test]
    fn the_text_is_the_cores_own() {
        for case in [Case::default(), demo(), full()] {
            let theirs: serde_json::Value = serde_json::to_value(&case).expect("plain");
            let ours: serde_json::Value = serde_json::from_str(&text(&case)).expect("json");
            assert_eq!(ours, theirs);
            let core: Case = serde_json::from_str(&text(&case)).expect("the core reads it");
            assert_eq!(core, case);
            let core = serde_json::to_string(&case).expect("plain");
            assert_eq!(from(&core), Ok(case));
        }
        for (key, construction) in CONSTRUCTIONS {
            let theirs = serde_json::to_string(&construction).expect("plain");
            assert_eq!(theirs, format!("\"{key}\""));
        }
    }

    /// Texts of before there was a choice are what they were.
    #[test]
    fn an_absorber_at_the_right_end_names_no_place() {
        let mut case = full();
        assert!(text(&case).contains(r#""place":"both""#));
        case.line.inline_absorber = Some(InlineAbsorber::default());
        assert!(!text(&case).contains("place\""));
    }

    #[test]
    fn every_place_of_an_absorber_comes_back() {
        for (key, place) in INLINE_PLACES {
            let mut case = full();
            case.line.inline_absorber = Some(InlineAbsorber {
                place,
                ..InlineAbsorber::default()
            });
            assert_eq!(from(&text(&case)), Ok(case.clone()));
            let told =
                format!(r#"{{"workers":[{{}}],"line":{{"inline_absorber":{{"place":"{key}"}}}}}}"#);
            let read = from(&told).expect(key).line.inline_absorber;
            assert_eq!(read, case.line.inline_absorber, "{key}");
        }
        let middle = from(r#"{"line":{"inline_absorber":{"place":"middle"}}}"#);
        assert_eq!(middle.map_err(|f| f.reason), Err(Reason::Kind));
    }

    #[test]
    fn what_is_missing_has_its_default() {
        assert_eq!(from("{}"), Ok(Case::default()));
        assert_eq!(
            read(&json::read(b"{}").expect("JSON"), 5),
            Ok(Case::of_model(5))
        );
        let case = from(r#"{"workers":[{}],"line":{"inline_absorber":{}}}"#).expect("readable");
        assert_eq!(case.workers, [Worker::default()]);
        assert_eq!(case.line.inline_absorber, Some(InlineAbsorber::default()));
        assert_eq!(case.line.spans_m, Line::default().spans_m);
    }

    #[test]
    fn what_does_not_fit_is_refused_with_its_place() {
        let refused = |text: &str| from(text).map_err(|f| (f.at, f.reason));
        let kind = |at| Err((at, Reason::Kind));
        assert_eq!(refused("[]"), kind(1));
        assert_eq!(refused(r#"{"title":5}"#), kind(10));
        assert_eq!(refused(r#"{"invented":1}"#), kind(13));
        assert_eq!(refused(r#"{"line":{"pretension_n":"much"}}"#), kind(25));
        assert_eq!(refused(r#"{"line":{"pretension_n":null}}"#), kind(25));
        assert_eq!(refused(r#"{"line":{"spans_m":[1,"2"]}}"#), kind(23));
        assert_eq!(refused(r#"{"workers":{}}"#), kind(12));
        assert_eq!(
            refused(r#"{"workers":[{"gear":{"kind":"rope"}}]}"#),
            kind(29)
        );
        let own = r#"{"own_limits":[{"label":"a","quantity":"free_fall","reference":"b"}]}"#;
        assert_eq!(refused(own), Err((16, Reason::Missing("limit"))));
        let unknown = Reason::Unknown("brand".into());
        assert_eq!(refused(r#"{"workers":[{"brand":1}]}"#), Err((22, unknown)));
    }
}
