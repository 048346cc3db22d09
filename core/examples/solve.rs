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
//! ```
//!
//! | field | meaning |
//! |---|---|
//! | `id` | optional, any JSON value; given back unchanged |
//! | `case` | a `footroom_core::case::Case`, all values SI; fields left out take their defaults, unknown ones are refused |
//! | `point_loads` | optional list of `footroom_core::line::PointLoad`; when there, even empty, the line of the case is solved at rest under these loads, and its workers do not count |
//! | `options` | optional `footroom_core::solve::Options` |
//!
//! # Answer
//!
//! `id` is left out where the request had none or could not be read.
//!
//! | answer | when |
//! |---|---|
//! | `{"id", "outcome"}` | a case; `footroom_core::solve::Outcome` |
//! | `{"id", "statics"}` | a request with `point_loads`; `footroom_core::line::Static` |
//! | `{"id", "faults": [{"field", "fault", "value", "min", "max", "message"}]}` | the case is not valid; `field` is a path such as `workers[1].mass_kg`, `fault` and its values are those of `footroom_core::fault::Fault` (`count` in the place of `value` for lists and texts) |
//! | `{"id", "line", "column", "error"}` | the line is not JSON, or not a request; both count from 1, `column` only where the place is known |
//!
//! The `fingerprint` of an outcome is a whole number of 64 bits: read it as such, not as a double.
//! Blank lines are skipped.
//!
//! # Exit status
//!
//! 0 when every line got an outcome or statics; 1 when any did not; 2 when reading or writing
//! failed.

use std::io::{self, BufRead, Write};
use std::process::ExitCode;

use footroom_core::case::Case;
use footroom_core::fault::Fault;
use footroom_core::line::{PointLoad, hang};
use footroom_core::solve::{Options, solve};
use serde::de::IgnoredAny;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

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
    options: Options,
}

/// How many lines were answered, and how many could not be.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Lines with an outcome or statics.
    pub answered: usize,
    /// Lines with faults or an error.
    pub failed: usize,
}

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
        if input.read_until(b'\n', &mut bytes)? == 0 {
            break;
        }
        if bytes.trim_ascii().is_empty() {
            continue;
        }
        let (good, answer) = answer(&bytes, line);
        if good {
            tally.answered += 1;
        } else {
            tally.failed += 1;
        }
        serde_json::to_writer(&mut output, &answer)?;
        output.write_all(b"\n")?;
    }
    output.flush()?;
    Ok(tally)
}

/// The answer to one line, and whether it is an outcome or statics.
fn answer(bytes: &[u8], line: u64) -> (bool, Value) {
    let value: Value = match serde_json::from_slice(bytes.trim_ascii_end()) {
        Ok(value) => value,
        Err(error) => return (false, refusal(None, line, &error)),
    };
    let id = value.get("id").cloned();
    let request: Request = match serde_json::from_value(value) {
        Ok(request) => request,
        Err(error) => return (false, refusal(id, line, &error)),
    };
    let solved = match &request.point_loads {
        Some(loads) => hang(&request.case.line, loads).map(|found| ("statics", to_value(&found))),
        None => solve(&request.case, request.options).map(|found| ("outcome", to_value(&found))),
    };
    match solved {
        Ok((name, found)) => (true, object(id, [(name, found)])),
        Err(faults) => {
            let list = faults.iter().map(fault_value).collect();
            (false, object(id, [("faults", Value::Array(list))]))
        }
    }
}

fn refusal(id: Option<Value>, line: u64, error: &serde_json::Error) -> Value {
    let mut text = error.to_string();
    // The reader names the place within the one line that it was given; `line` is the input's.
    if let Some(at) = text.rfind(" at line ") {
        text.truncate(at);
    }
    let mut value = object(id, [("line", line.into()), ("error", text.into())]);
    if error.column() > 0
        && let Value::Object(map) = &mut value
    {
        map.insert("column".into(), error.column().into());
    }
    value
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

fn object<const N: usize>(id: Option<Value>, entries: [(&str, Value); N]) -> Value {
    let mut map = Map::new();
    if let Some(id) = id {
        map.insert("id".into(), id);
    }
    for (name, value) in entries {
        map.insert(name.into(), value);
    }
    Value::Object(map)
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
