//! A JSON tree as its differences to what can be expected of it: short enough for a link.
//!
//! A tree is walked leaf by leaf in the order of a reference tree that never changes. Every leaf is
//! expected to be what it is in the reference; an item of a list what the like item is in the list
//! expected, or else the item before it. So the second layout of a set is told by what differs from
//! the first, and the second worker by what differs from the one beside him. Written are only leaves
//! that are not as expected: letters for how many were, and then the value.
//!
//! | leaf | value |
//! | --- | --- |
//! | number | fewest digits; with a unit where that is shorter and gives the same bits |
//! | nothing instead of a number | `!` |
//! | flag; object that may be missing | none: it is the other one |
//! | text | as in JSON |
//! | number of items of a list | digits, before the items |

use footroom_core::constants::{FOOT_M, INCH_M, POUND_FORCE_N, POUND_KG};

use crate::wire::json::{self, Json, JsonFault, Kind, Reason, Writer};
use crate::wire::link::CONTENT_MAX;
use crate::wire::steps;

/// Signs of units, and their values in SI.
const UNITS: [(char, f64); 5] = [
    (':', INCH_M),
    ('\'', FOOT_M),
    (';', POUND_FORCE_N),
    ('*', POUND_KG),
    ('/', POUND_FORCE_N / INCH_M),
];

/// Letters for 0 to 50 leaves as expected; the last one is 51 and more follow.
const LETTERS: &[u8; 52] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
const MORE: usize = 51;

/// Most items of a list: more than any checked case has.
const ITEMS_MAX: usize = 100;

/// Most that is made of a text, in bytes of texts and leaves of 16 bytes each. Some letters may stand
/// for many leaves that are as expected, long texts among them, so that the text's own length bounds
/// nothing; four greatest cases need a quarter of this.
const MADE_MAX: usize = 2 * CONTENT_MAX;
const LEAF: usize = 16;

/// Writes the differences of a tree to a reference; `None`: it is of another shape.
pub fn write(tree: &Json, reference: &Json) -> Option<String> {
    let mut out = Out::default();
    out.walk(tree, reference, reference)?;
    Some(out.text)
}

/// Reads what [`write()`] wrote.
///
/// # Errors
/// What does not fit, and its place.
pub fn read(text: &str, reference: &Json) -> Result<Json, JsonFault> {
    let mut read = Read {
        text,
        at: 0,
        same: 0,
        made: 0,
    };
    read.next_run()?;
    let tree = read.walk(reference, reference)?;
    if read.at < text.len() || read.same != usize::MAX {
        return Err(read.fault(Reason::Trailing));
    }
    Ok(tree)
}

/// What an item of a list is expected to be.
fn expected<'a>(
    list: &'a [Json],
    before: &'a [Json],
    template: Option<&'a Json>,
    i: usize,
) -> Option<&'a Json> {
    list.get(i).or(before.last()).or(template)
}

/// What an entry of an object is expected to be.
fn entry<'a>(object: &'a Json, name: &str) -> Option<&'a Json> {
    match &object.kind {
        Kind::Object(entries) => entries.iter().find(|e| e.0 == name).map(|e| &e.1),
        _ => None,
    }
}

fn items(list: &Json) -> &[Json] {
    match &list.kind {
        Kind::List(items) => items,
        _ => &[],
    }
}

fn same(a: &Json, b: &Json) -> bool {
    match (&a.kind, &b.kind) {
        (Kind::Null, Kind::Null) => true,
        (Kind::Flag(a), Kind::Flag(b)) => a == b,
        // Nothing may change on the way, and −0 is no 0.
        (Kind::Number(a), Kind::Number(b)) => a.to_bits() == b.to_bits(),
        (Kind::Text(a), Kind::Text(b)) => a == b,
        _ => false,
    }
}

#[derive(Default)]
struct Out {
    text: String,
    /// Leaves as expected since the last that was not.
    same: usize,
}

impl Out {
    fn run(&mut self) {
        while self.same >= MORE {
            self.text.push(char::from(LETTERS[MORE]));
            self.same -= MORE;
        }
        self.text.push(char::from(LETTERS[self.same]));
        self.same = 0;
    }

    fn walk(&mut self, new: &Json, old: &Json, reference: &Json) -> Option<()> {
        match &reference.kind {
            Kind::Object(entries) => {
                let there = |json: &Json| matches!(json.kind, Kind::Object(_));
                if there(new) == there(old) {
                    self.same += 1;
                } else {
                    self.run();
                }
                let Kind::Object(given) = &new.kind else {
                    return matches!(new.kind, Kind::Null).then_some(());
                };
                if given.len() != entries.len() {
                    return None;
                }
                for (name, reference) in entries {
                    let old = entry(old, name).unwrap_or(reference);
                    self.walk(entry(new, name)?, old, reference)?;
                }
            }
            Kind::List(templates) => {
                let Kind::List(given) = &new.kind else {
                    return None;
                };
                let list = items(old);
                if given.len() > ITEMS_MAX {
                    return None;
                }
                if given.len() == list.len() {
                    self.same += 1;
                } else {
                    self.run();
                    self.text.push_str(&given.len().to_string());
                }
                let template = templates.first()?;
                for (i, item) in given.iter().enumerate() {
                    let old = expected(list, &given[..i], Some(template), i)?;
                    self.walk(item, old, template)?;
                }
            }
            _ if same(new, old) => self.same += 1,
            _ => {
                self.run();
                match &new.kind {
                    Kind::Number(value) => self.text.push_str(&number(*value)),
                    Kind::Null => self.text.push('!'),
                    Kind::Flag(_) => {}
                    Kind::Text(text) => {
                        let mut writer = Writer::default();
                        writer.text(text);
                        self.text.push_str(&writer.finish());
                    }
                    Kind::List(_) | Kind::Object(_) => return None,
                }
            }
        }
        Some(())
    }
}

/// The shortest way to write a number so that it is read back to the same bits.
fn number(value: f64) -> String {
    let mut best = digits(value);
    let mut offer = |text: String, gives: f64| {
        if text.len() < best.len() && gives.to_bits() == value.to_bits() {
            best = text;
        }
    };
    for (sign, unit) in UNITS {
        let count = (value / unit * 1.0e4).round() / 1.0e4;
        offer(format!("{}{sign}", digits(count)), count * unit);
    }
    let feet = (value / FOOT_M).floor();
    let inches = ((value - feet * FOOT_M) / INCH_M * 64.0).round() / 64.0;
    let text = format!("{}'{}:", digits(feet), digits(inches));
    offer(text, feet * FOOT_M + inches * INCH_M);
    best
}

/// The fewest digits of a number; `^` instead of the `e` of a power, which is a letter here.
fn digits(value: f64) -> String {
    let mut writer = Writer::default();
    writer.number(value);
    let text = writer.finish().replace('e', "^");
    match text.strip_suffix(".0") {
        Some(whole) => whole.to_owned(),
        None => text,
    }
}

struct Read<'a> {
    text: &'a str,
    at: usize,
    /// Leaves as expected that are left before the next value; all of them after the last.
    same: usize,
    /// What has been made so far, see [`MADE_MAX`].
    made: usize,
}

impl Read<'_> {
    fn fault(&self, reason: Reason) -> JsonFault {
        JsonFault {
            at: self.at + 1,
            reason,
        }
    }

    fn byte(&self) -> Option<u8> {
        steps::count(1);
        self.text.as_bytes().get(self.at).copied()
    }

    fn next_run(&mut self) -> Result<(), JsonFault> {
        self.same = 0;
        if self.at == self.text.len() {
            self.same = usize::MAX;
            return Ok(());
        }
        loop {
            let letter = self.byte().ok_or_else(|| self.fault(Reason::End))?;
            let count = LETTERS.iter().position(|&l| l == letter);
            let count = count.ok_or_else(|| self.fault(Reason::Character))?;
            self.at += 1;
            self.same += count;
            if count < MORE {
                return Ok(());
            }
        }
    }

    /// Whether the next leaf is as expected.
    fn as_expected(&mut self) -> bool {
        match self.same {
            0 => false,
            usize::MAX => true,
            _ => {
                self.same -= 1;
                true
            }
        }
    }

    /// The end of a piece whose bytes all are of a kind.
    fn piece(&mut self, is: fn(u8) -> bool) -> &str {
        let begin = self.at;
        while self.byte().is_some_and(is) {
            self.at += 1;
        }
        self.text.get(begin..self.at).unwrap_or_default()
    }

    fn number(&mut self) -> Result<f64, JsonFault> {
        let mut value = None;
        loop {
            let is = |b: u8| b.is_ascii_digit() || matches!(b, b'.' | b'-' | b'^');
            let digits = self.piece(is).replace('^', "e");
            if digits.is_empty() {
                break;
            }
            let Ok(Json {
                kind: Kind::Number(mut term),
                ..
            }) = json::read(digits.as_bytes())
            else {
                return Err(self.fault(Reason::Number));
            };
            let unit = UNITS.iter().find(|u| Some(u.0 as u8) == self.byte());
            if let Some((_, unit)) = unit {
                self.at += 1;
                term *= unit;
            }
            value = Some(value.map_or(term, |sum: f64| sum + term));
            if unit.is_none() {
                break;
            }
        }
        let value = value.filter(|v: &f64| v.is_finite());
        value.ok_or_else(|| self.fault(Reason::Number))
    }

    fn words(&mut self) -> Result<String, JsonFault> {
        let begin = self.at;
        let mut escaped = false;
        let mut ended = false;
        for (i, byte) in self.text.bytes().enumerate().skip(begin) {
            let first = i == begin;
            ended = byte == b'"' && !escaped && !first;
            escaped = byte == b'\\' && !escaped;
            self.at = i + 1;
            if ended {
                break;
            }
        }
        let read = json::read(&self.text.as_bytes()[begin..self.at]);
        match read {
            Ok(Json {
                kind: Kind::Text(text),
                ..
            }) if ended => Ok(text),
            _ => Err(self.fault(Reason::Text)),
        }
    }

    /// Counts what is about to be made.
    fn make(&mut self, old: &Json) -> Result<(), JsonFault> {
        let text = match &old.kind {
            Kind::Text(text) => text.len(),
            _ => 0,
        };
        steps::count(1 + text);
        self.made += LEAF + text;
        if self.made > MADE_MAX {
            return Err(self.fault(Reason::TooMuch));
        }
        Ok(())
    }

    fn walk(&mut self, old: &Json, reference: &Json) -> Result<Json, JsonFault> {
        let at = self.at + 1;
        self.make(old)?;
        let kind = match &reference.kind {
            Kind::Object(entries) => {
                let mut there = matches!(old.kind, Kind::Object(_));
                if !self.as_expected() {
                    there = !there;
                    self.next_run()?;
                }
                if there {
                    let mut read = Vec::with_capacity(entries.len());
                    for (name, reference) in entries {
                        let old = entry(old, name).unwrap_or(reference);
                        read.push((name.clone(), self.walk(old, reference)?));
                    }
                    Kind::Object(read)
                } else {
                    Kind::Null
                }
            }
            Kind::List(templates) => {
                let list = items(old);
                let mut length = list.len();
                if !self.as_expected() {
                    let number = self.number()?;
                    length = number as usize;
                    if length > ITEMS_MAX || number != length as f64 {
                        return Err(self.fault(Reason::Number));
                    }
                    self.next_run()?;
                }
                let template = templates.first();
                let mut read = Vec::with_capacity(length);
                for i in 0..length {
                    let item = expected(list, &read, template, i).zip(template);
                    let (old, template) = item.ok_or_else(|| self.fault(Reason::Kind))?;
                    let item = self.walk(old, template)?;
                    read.push(item);
                }
                Kind::List(read)
            }
            _ if self.as_expected() => old.kind.clone(),
            _ => {
                let kind = match &reference.kind {
                    Kind::Flag(_) => Kind::Flag(!matches!(old.kind, Kind::Flag(true))),
                    Kind::Text(_) => Kind::Text(self.words()?),
                    _ if self.byte() == Some(b'!') => {
                        self.at += 1;
                        Kind::Null
                    }
                    _ => Kind::Number(self.number()?),
                };
                self.next_run()?;
                kind
            }
        };
        Ok(Json { at, kind })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const REFERENCE: &str =
        r#"{"a":1.5,"b":null,"c":[{"d":"x","e":true,"f":{"g":2.0}}],"h":[3.0]}"#;

    fn tree(text: &str) -> Json {
        json::read(text.as_bytes()).expect(text)
    }

    /// A tree without its places.
    fn bare(json: &Json) -> String {
        match &json.kind {
            Kind::Object(entries) => entries
                .iter()
                .map(|(name, value)| format!("{name}={};", bare(value)))
                .collect(),
            Kind::List(items) => format!("{:?}", items.iter().map(bare).collect::<Vec<_>>()),
            Kind::Number(value) => format!("{value:?}"),
            other => format!("{other:?}"),
        }
    }

    fn there_and_back(text: &str) -> String {
        let reference = tree(REFERENCE);
        let written = write(&tree(text), &reference).expect(text);
        let read = read(&written, &reference).expect(&written);
        assert_eq!(bare(&read), bare(&tree(text)), "{written}");
        written
    }

    /// Few letters stand for many leaves as expected, and each of them may be a long text.
    #[test]
    fn a_few_letters_do_not_make_a_great_tree() {
        let reference = tree(r#"{"a":[{"b":[{"c":"x"}]}]}"#);
        let long = "y".repeat(200_000);
        // A list of 100, its first item a list of 100, the first text of it a long one.
        let text = format!("B100B100B\"{long}\"");
        let (fault, steps) = crate::wire::steps::counted(|| read(&text, &reference));
        let reason = fault.map_err(|fault| fault.reason);
        assert_eq!(reason.map(|_| ()), Err(Reason::TooMuch));
        assert!(steps < 2_000_000, "{steps}");
        let short = text.replace(&long, "y");
        assert!(read(&short, &reference).is_ok());
    }

    #[test]
    fn only_what_differs_is_written() {
        assert_eq!(there_and_back(REFERENCE), "");
        let other = REFERENCE.replace("null", "0.3048").replace("true", "false");
        assert_eq!(there_and_back(&other), "C1'D");
        let item = r#"{"d":"y","e":true,"f":null}"#;
        let more = format!(r#"{{"a":-0.0,"b":null,"c":[{item},{item},{item}],"h":[]}}"#);
        assert_eq!(there_and_back(&more), r#"B-0B3B"y"BI0"#);
        let many = REFERENCE.replace("[3.0]", &format!("[{}]", ["3.0"; 70].join(",")));
        assert_eq!(there_and_back(&many), "J70");
        let last = REFERENCE.replace("[3.0]", &format!("[{},4.0]", ["3.0"; 60].join(",")));
        assert_eq!(there_and_back(&last), "J61zJ4");
    }

    #[test]
    fn numbers_are_short_in_the_unit_in_which_they_were_typed() {
        for (value, text) in [
            (2.0 * FOOT_M + 0.5 * INCH_M, "2'0.5:"),
            (FOOT_M + 4.5 * INCH_M, "1.375'"),
            (3.0 * FOOT_M, "3'"),
            (1_000.0 * POUND_FORCE_N, "1000;"),
            (0.375 * INCH_M, "0.375:"),
            (220.0 * POUND_KG, "220*"),
            (4_400.0, "4400"),
            (1.0e300, "1^300"),
            (-5.0e-324, "-5^-324"),
        ] {
            assert_eq!(number(value), text);
        }
    }

    #[test]
    fn another_shape_is_not_written() {
        let reference = tree(REFERENCE);
        for text in [
            "{}",
            "[]",
            "null",
            r#"{"a":1,"b":1,"c":{},"h":[]}"#,
            r#"{"a":[],"b":1,"c":[],"h":[]}"#,
            r#"{"a":1,"b":1,"c":[],"h":[],"i":1}"#,
        ] {
            let written = write(&tree(text), &reference);
            let back = written.map(|w| read(&w, &reference));
            assert!(back.is_none_or(|b| b.is_ok_and(|b| bare(&b) == bare(&tree(text)))));
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn every_number_comes_back(bits: u64, steps in -9_000i32..9_000) {
            let mut values = vec![f64::from_bits(bits), f64::from(steps) * 0.001];
            values.extend(UNITS.map(|(_, unit)| f64::from(steps) * 0.25 * unit));
            for value in values.into_iter().filter(|v| v.is_finite()) {
                let text = REFERENCE.replace("null", &{
                    let mut writer = Writer::default();
                    writer.number(value);
                    writer.finish()
                });
                there_and_back(&text);
            }
        }

        #[test]
        fn noise_never_panics(noise in "[A-Za-z0-9.!:'\"\\\\^-]{0,30}", wild in "\\PC{0,20}") {
            let reference = tree(REFERENCE);
            let _ = read(&noise, &reference);
            let _ = read(&wild, &reference);
        }
    }
}
