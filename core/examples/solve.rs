//! The batch door: JSON Lines on standard input, one request a line; one answer a line on standard
//! output, in the same order. It goes on after a line that it cannot answer.
//!
//! ```text
//! cargo run --release -p footroom-core --features serde --example solve < requests.jsonl
//! ```
//!
//! # Request
//!
//! ```json
//! {"id": "B4", "case": {"workers": [{"position_m": 6.0}]}, "options": {"traces": false}}
//! {"id": 7, "case": {"line": {"spans_m": [8.0, 8.0]}}, "point_loads": [{"position_m": 4.0, "force_n": 980.665}]}
//! {"case": {"workers": [{}, {"position_m": 8.0}]}, "assess": true, "anywhere": true}
//! ```
//!
//! | field | meaning |
//! |---|---|
//! | `id` | optional, any JSON value; given back as it was written, to the letter |
//! | `case` | a `footroom_core::case::Case`, all values SI; fields left out take their defaults, tolerances too, unknown ones are refused |
//! | `point_loads` | optional list of `footroom_core::line::PointLoad`; when there, even empty, the line of the case is solved at rest under these loads, and its workers do not count |
//! | `assess` | optional; true: all runs of the case (tolerances, damping), its checks and the answer, instead of the one run as given; not with `point_loads` |
//! | `anywhere` | optional, with `assess`; true: also the worst found wherever the crew may stand and whoever falls, which takes ten times as long |
//! | `options` | optional `footroom_core::solve::Options`; `refine` is a whole number from 1 to 8 |
//!
//! A name that stands twice in one object, anywhere in the request, is refused: which of the two is
//! meant cannot be known. A byte-order mark at the beginning of the input is passed over.
//!
//! # Answer
//!
//! `id` is left out where the request had none or could not be read.
//!
//! | answer | when |
//! |---|---|
//! | `{"id", "outcome"}` | a case; `footroom_core::solve::Outcome` |
//! | `{"id", "assessment", "checks", "answer"}` | a case with `assess`; `footroom_core::assess::Assessment`, a list of `footroom_core::check::Check`, and the answer as below |
//! | `{"id", "statics"}` | a request with `point_loads`; `footroom_core::line::Static` |
//! | `{"id", "faults": [{"field", "fault", "value", "min", "max", "message"}]}` | the case or the options are not valid; `field` is a path such as `workers[1].mass_kg`, `fault` and its values are those of `footroom_core::fault::Fault` (`count` in the place of `value` for lists and texts) |
//! | `{"id", "line", "column", "field", "error"}` | the line is not JSON, or not a request; line and column count from 1, `column` only where the place is known, `field` only where one is concerned, as in faults |
//!
//! The answer of an assessment is `{"footroom_m", "governed_by"}` where the footroom is known: the
//! least of all runs, and the run, worker and method that gave it. Where it is not, it is
//! `{"unknown", "doubt"}`: the reason, a `footroom_core::answer::Unknown`, with the
//! `footroom_core::solve::Doubt` that has its figures; no number of the assessment may then be relied
//! on. Both have three lines more: `standing`, a `footroom_core::standing::Standing` with the weakest
//! part; `anywhere`, a `footroom_core::anywhere::Anywhere`, null where it was not asked for; and
//! `mark`, the worst of room, strength and anywhere, which is at best `open` without the last. A check that reads `not_evaluated` has not been met.
//!
//! The `fingerprint` of an outcome is a whole number of 64 bits: read it as such, not as a double.
//! Blank lines are skipped; a line of more than 256 kB is refused.
//!
//! # Exit status
//!
//! 0 when every line got an outcome, an assessment or statics; 1 when any did not; 2 when reading or
//! writing failed.

use std::collections::BTreeSet;
use std::fmt;
use std::io::{self, BufRead, Read, Write};
use std::process::ExitCode;

use footroom_core::anywhere::{Looking, answer_mark};
use footroom_core::assess::{Assessment, assess};
use footroom_core::case::Case;
use footroom_core::fault::Fault;
use footroom_core::line::{PointLoad, hang};
use footroom_core::solve::{Options, solve};
use serde::de::{self, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde::ser::SerializeMap;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::Value;
use serde_json::value::RawValue;

/// One request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Request {
    /// Read before the rest, so that it comes back with an error, too.
    #[serde(default, rename = "id")]
    _id: IgnoredAny,
    case: Case,
    #[serde(default)]
    point_loads: Option<Vec<PointLoad>>,
    #[serde(default)]
    assess: bool,
    #[serde(default)]
    anywhere: bool,
    #[serde(default)]
    options: Options,
}

/// The id of a request as it was written.
#[derive(Deserialize)]
struct Named<'a> {
    #[serde(borrow, default, deserialize_with = "written")]
    id: Option<&'a RawValue>,
}

/// `null` is an id as well.
fn written<'a, D: Deserializer<'a>>(reader: D) -> Result<Option<&'a RawValue>, D::Error> {
    <&RawValue>::deserialize(reader).map(Some)
}

/// An object in which no name stands twice, nor in any object within it. Its id is left out: that
/// is any JSON, with numbers of any size.
struct Whole;

impl<'de> Deserialize<'de> for Whole {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        reader.deserialize_map(Self)
    }
}

impl<'de> Visitor<'de> for Whole {
    type Value = Self;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a request, which is an object")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self, A::Error> {
        let mut names = BTreeSet::new();
        while let Some(name) = map.next_key::<String>()? {
            if name == "id" {
                map.next_value::<IgnoredAny>()?;
            } else {
                map.next_value::<Unambiguous>()?;
            }
            once(&mut names, name)?;
        }
        Ok(self)
    }
}

/// Takes a name that has not been there.
fn once<E: de::Error>(names: &mut BTreeSet<String>, name: String) -> Result<(), E> {
    if names.contains(&name) {
        return Err(E::custom(format_args!("`{name}` appears twice")));
    }
    names.insert(name);
    Ok(())
}

/// Any JSON in which no name stands twice in one object.
struct Unambiguous;

impl<'de> Deserialize<'de> for Unambiguous {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        reader.deserialize_any(Self)
    }
}

impl<'de> Visitor<'de> for Unambiguous {
    type Value = Self;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self, A::Error> {
        let mut names = BTreeSet::new();
        while let Some(name) = map.next_key::<String>()? {
            map.next_value::<Self>()?;
            once(&mut names, name)?;
        }
        Ok(self)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Self, A::Error> {
        while list.next_element::<Self>()?.is_some() {}
        Ok(self)
    }

    fn visit_bool<E>(self, _: bool) -> Result<Self, E> {
        Ok(self)
    }

    fn visit_i64<E>(self, _: i64) -> Result<Self, E> {
        Ok(self)
    }

    fn visit_u64<E>(self, _: u64) -> Result<Self, E> {
        Ok(self)
    }

    fn visit_f64<E>(self, _: f64) -> Result<Self, E> {
        Ok(self)
    }

    fn visit_str<E>(self, _: &str) -> Result<Self, E> {
        Ok(self)
    }

    fn visit_unit<E>(self) -> Result<Self, E> {
        Ok(self)
    }
}

/// One answer: the id as it was written, and what was found.
struct Answer<'a> {
    id: Option<&'a RawValue>,
    entries: Vec<(&'static str, Value)>,
}

impl Serialize for Answer<'_> {
    fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
        let mut map = writer.serialize_map(None)?;
        if let Some(id) = self.id {
            map.serialize_entry("id", id)?;
        }
        for (name, value) in &self.entries {
            map.serialize_entry(name, value)?;
        }
        map.end()
    }
}

/// How many lines were answered, and how many could not be.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Lines with an outcome, an assessment or statics.
    pub answered: usize,
    /// Lines with faults or an error.
    pub failed: usize,
}

/// Most bytes of a line, as many as a link may hold: the greatest request takes a fifth of them. A
/// longer line is passed over without being kept.
pub const LINE_MAX: u64 = 256 * 1024;

/// Answers every line of `input` on `output`.
///
/// # Errors
/// Only when `input` cannot be read or `output` cannot be written; a line that cannot be answered
/// is counted in the [`Tally`].
pub fn answer_lines(mut input: impl BufRead, mut output: impl Write) -> io::Result<Tally> {
    let mut tally = Tally::default();
    let mut bytes = Vec::new();
    for line in 1_u64.. {
        bytes.clear();
        let mut begin = input.by_ref().take(LINE_MAX + 1);
        if begin.read_until(b'\n', &mut bytes)? == 0 {
            break;
        }
        if bytes.len() as u64 > LINE_MAX {
            if !bytes.ends_with(b"\n") {
                input.skip_until(b'\n')?;
            }
            tally.failed += 1;
            let error = format!("longer than {LINE_MAX} bytes");
            serde_json::to_writer(
                &mut output,
                &serde_json::json!({"line": line, "error": error}),
            )?;
            output.write_all(b"\n")?;
            continue;
        }
        let mut text = bytes.as_slice();
        if line == 1 {
            text = text.strip_prefix(BYTE_ORDER_MARK).unwrap_or(text);
        }
        let text = text.trim_ascii_end();
        if text.trim_ascii_start().is_empty() {
            continue;
        }
        // A list would be taken for the fields in their order.
        let named = text.trim_ascii_start().starts_with(b"{");
        let id = serde_json::from_slice(if named { text } else { b"{}" })
            .map_or(None, |named: Named<'_>| named.id);
        let (entries, good) = match answer(text, id, line) {
            Ok(found) => (found, true),
            Err(refused) => (refused, false),
        };
        if good {
            tally.answered += 1;
        } else {
            tally.failed += 1;
        }
        serde_json::to_writer(&mut output, &Answer { id, entries })?;
        output.write_all(b"\n")?;
    }
    output.flush()?;
    Ok(tally)
}

/// The byte-order mark, in UTF-8.
const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

/// Entries of an answer.
type Entries = Vec<(&'static str, Value)>;

/// The answer to one line.
///
/// # Errors
/// The line has none: its faults, or what is wrong with it.
fn answer(text: &[u8], id: Option<&RawValue>, line: u64) -> Result<Entries, Entries> {
    read::<Whole>(text, line)?;
    if let Some(id) = id.filter(|id| id.get().starts_with(['{', '[']))
        && let Err(error) = serde_json::from_str::<Unambiguous>(id.get())
    {
        return Err(error_in(line, "id", &message(&error)));
    }
    let request: Request = read(text, line)?;
    let case = &request.case;
    if request.anywhere && !request.assess {
        return Err(error_in(line, "anywhere", "only with `assess`"));
    }
    if request.assess && request.point_loads.is_some() {
        let why = "a line under point loads has no assessment";
        return Err(error_in(line, "assess", why));
    }
    let options = request.options;
    let found = match &request.point_loads {
        Some(loads) => options
            .with(hang(&case.line, loads))
            .map(|found| vec![("statics", to_value(&found))]),
        None if request.assess => assess(case, options).map(|found| {
            vec![
                ("assessment", to_value(&found)),
                ("checks", to_value(&found.checks(case))),
                ("answer", answer_of(case, &found, request.anywhere)),
            ]
        }),
        None => solve(case, options).map(|found| vec![("outcome", to_value(&found))]),
    };
    found.map_err(|faults| {
        let list = faults.iter().map(fault_value).collect();
        vec![("faults", Value::Array(list))]
    })
}

/// The footroom with what governs it, or why it is not known; how the case stands, here and anywhere.
fn answer_of(case: &Case, found: &Assessment, anywhere: bool) -> Value {
    let standing = found.standing(case);
    let anywhere = (anywhere.then(|| Looking::new(case).ok()).flatten()).map(Looking::finish);
    let mark = answer_mark(&standing, anywhere.as_ref());
    let mut answer = room_of(found);
    if let Value::Object(answer) = &mut answer {
        answer.insert("standing".to_owned(), to_value(&standing));
        answer.insert("anywhere".to_owned(), to_value(&anywhere));
        answer.insert("mark".to_owned(), to_value(&mark));
    }
    answer
}

/// The footroom with what governs it, or why it is not known.
fn room_of(found: &Assessment) -> Value {
    match (found.answer(), found.decisive_doubt()) {
        (Ok(footroom), _) => serde_json::json!({
            "footroom_m": footroom.value,
            "governed_by": to_value(&footroom),
        }),
        (Err(why), doubt) => serde_json::json!({
            "unknown": to_value(&why),
            "doubt": to_value(&doubt),
        }),
    }
}

/// Reads the whole of a line.
///
/// # Errors
/// What is wrong, where, and in which field.
fn read<'a, T: Deserialize<'a>>(text: &'a [u8], line: u64) -> Result<T, Entries> {
    let mut reader = serde_json::Deserializer::from_slice(text);
    let (field, error) = match serde_path_to_error::deserialize(&mut reader) {
        Ok(value) => match reader.end() {
            Ok(()) => return Ok(value),
            Err(error) => (String::new(), error),
        },
        Err(error) => {
            let path = error.path().to_string();
            (path, error.into_inner())
        }
    };
    let mut entries: Entries = vec![("line", line.into())];
    if error.column() > 0 {
        entries.push(("column", error.column().into()));
    }
    // As in faults: the case's fields without it.
    let field = field.strip_prefix("case.").unwrap_or(&field);
    if !matches!(field, "" | "." | "?") {
        entries.push(("field", field.into()));
    }
    entries.push(("error", message(&error).into()));
    Err(entries)
}

/// What is wrong, without the place: the reader names it within the one line that it was given, while
/// `line` is the input's.
fn message(error: &serde_json::Error) -> String {
    let mut message = error.to_string();
    if let Some(at) = message.rfind(" at line ") {
        message.truncate(at);
    }
    message
}

/// What is wrong with a field of the request.
fn error_in(line: u64, field: &str, error: &str) -> Entries {
    vec![
        ("line", line.into()),
        ("field", field.into()),
        ("error", error.into()),
    ]
}

/// A fault with its field as a path, and its message.
fn fault_value(fault: &Fault) -> Value {
    let mut value = to_value(fault);
    if let Value::Object(map) = &mut value {
        map.insert("field".into(), Value::from(fault.field().to_string()));
        map.insert("message".into(), Value::from(fault.to_string()));
    }
    value
}

/// Core's structures have text keys only, so that they always convert.
fn to_value(of: &impl Serialize) -> Value {
    serde_json::to_value(of).unwrap_or_else(|error| Value::from(error.to_string()))
}

fn main() -> ExitCode {
    match answer_lines(io::stdin().lock(), io::BufWriter::new(io::stdout().lock())) {
        Ok(tally) if tally.failed == 0 => ExitCode::SUCCESS,
        Ok(tally) => {
            eprintln!(
                "{} answered, {} could not be answered",
                tally.answered, tally.failed
            );
            ExitCode::from(1)
        }
        Err(error) => {
            eprintln!("reading or writing failed: {error}");
            ExitCode::from(2)
        }
    }
}
