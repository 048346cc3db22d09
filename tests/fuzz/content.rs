//! Damage: of JSON by its structure, of any bytes, of the letters of a link.

use serde_json::{Map, Number, Value};

use crate::stream::Stream;

/// Numbers as texts that a reader may stumble on.
const NUMBERS: [&str; 22] = [
    "0",
    "-0",
    "-0.0",
    "1e999",
    "-1e999",
    "5e-324",
    "2.2250738585072011e-308",
    "1e-400",
    "1.7976931348623157e308",
    "9007199254740993",
    "4294967296",
    "-1",
    "0.1",
    "1e5",
    "NaN",
    "Infinity",
    "-Infinity",
    "01",
    "1.",
    ".5",
    "+1",
    "0x10",
];

/// Texts that a page may stumble on.
pub const TEXTS: [&str; 16] = [
    "",
    "<img src=x onerror=alert(1)>",
    "</script><script>alert(1)</script>",
    "\"><svg onload=alert(1)>",
    "]]>&lt;&#60;",
    "=1+1",
    "\u{202e}fdp.exe",
    "\u{0}",
    "\u{feff}",
    "\u{d7ff}\u{e000}",
    "e\u{301}\u{301}\u{301}\u{301}",
    "\u{1d54f}\u{1d54f}",
    "javascript:alert(1)",
    "__proto__",
    "constructor",
    "'; DROP",
];

/// JSON with something of it changed, as a text; it need not be JSON any more.
pub fn damaged(stream: &mut Stream, from: &Value, others: &[Value]) -> String {
    let mut value = from.clone();
    for _ in 0..1 + stream.below(3) {
        change(stream, &mut value, others);
    }
    let mut text = value.to_string();
    // What no tree can say: numbers that are none, names that stand twice, a cut.
    match stream.below(24) {
        0 => {
            let number = stream.one(&NUMBERS);
            replace_number(stream, &mut text, number);
        }
        1 => twice(stream, &mut text),
        2 => {
            let end = boundary(&text, stream.below(text.len()));
            text.truncate(end);
        }
        3 => text = String::from_utf8_lossy(&bytes(stream, text.as_bytes())).into_owned(),
        4 => text = format!("{}{text}{}", space(stream), space(stream)),
        5 => text = deep(stream, &text),
        _ => {}
    }
    text
}

/// The place of a character at or before a byte.
fn boundary(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

fn space(stream: &mut Stream) -> String {
    stream
        .one(&[" ", "\n", "\u{feff}", "\t\r", "x", "{}"])
        .repeat(stream.below(4))
}

fn deep(stream: &mut Stream, text: &str) -> String {
    let depth = stream.below(40);
    format!("{}{text}{}", "[".repeat(depth), "]".repeat(depth))
}

/// Puts a text in the place of some number.
fn replace_number(stream: &mut Stream, text: &mut String, number: &str) {
    let digits: Vec<usize> = text
        .bytes()
        .enumerate()
        .filter(|(_, b)| b.is_ascii_digit())
        .map(|(i, _)| i)
        .collect();
    if digits.is_empty() {
        return;
    }
    let at = digits[stream.below(digits.len())];
    let rest = &text[at..];
    let end = at
        + rest
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(rest.len());
    text.replace_range(at..end, number);
}

/// Lets a name stand twice.
fn twice(stream: &mut Stream, text: &mut String) {
    let open: Vec<usize> = text.match_indices('{').map(|(i, _)| i).collect();
    if open.is_empty() {
        return;
    }
    let at = open[stream.below(open.len())] + 1;
    if let Some(end) = text[at..].find(':') {
        let name = text[at..at + end].to_owned();
        text.insert_str(at, &format!("{name}:0,"));
    }
}

/// Every place in a tree, counted.
fn places(value: &Value) -> usize {
    1 + match value {
        Value::Array(items) => items.iter().map(places).sum(),
        Value::Object(entries) => entries.values().map(places).sum::<usize>(),
        _ => 0,
    }
}

fn place(value: &mut Value, mut at: usize) -> Option<&mut Value> {
    if at == 0 {
        return Some(value);
    }
    at -= 1;
    let children: Box<dyn Iterator<Item = &mut Value>> = match value {
        Value::Array(items) => Box::new(items.iter_mut()),
        Value::Object(entries) => Box::new(entries.values_mut()),
        _ => return None,
    };
    for child in children {
        let count = places(child);
        if at < count {
            return place(child, at);
        }
        at -= count;
    }
    None
}

fn number(stream: &mut Stream) -> Value {
    let value = match stream.below(5) {
        0 => f64::from_bits(stream.next()),
        1 => stream.between(-10.0, 10.0),
        2 => stream.below(1000) as f64,
        3 => 10f64.powi(stream.below(640) as i32 - 320),
        _ => -stream.between(0.0, 1.0e6),
    };
    Number::from_f64(value).map_or(Value::Null, Value::Number)
}

fn text(stream: &mut Stream) -> String {
    match stream.below(4) {
        0 => "x".repeat(stream.below(400)),
        1 => char::from_u32(stream.next() as u32 % 0x11_0000).map_or(String::new(), String::from),
        _ => (*stream.one(&TEXTS.each_ref())).to_owned(),
    }
}

/// Changes one place of a tree.
fn change(stream: &mut Stream, value: &mut Value, others: &[Value]) {
    let at = stream.below(places(value));
    let other = &others[stream.below(others.len())];
    let Some(spot) = place(value, at) else {
        return;
    };
    // Half of the changes are small, so that much is taken and what lies behind the readers is met.
    match stream.below(20) {
        0 => *spot = Value::Null,
        1 => *spot = Value::Bool(stream.once_in(2)),
        2 | 3 => *spot = number(stream),
        4 => *spot = Value::String(text(stream)),
        5 => {
            // A piece of something else of the corpus.
            let mut other = other.clone();
            let from = stream.below(places(&other));
            if let Some(piece) = place(&mut other, from) {
                *spot = piece.take();
            }
        }
        6 => match spot {
            Value::Array(items) if !items.is_empty() => {
                let item = items[stream.below(items.len())].clone();
                let most = if stream.once_in(20) { 2_000 } else { 14 };
                let count = stream.below(most);
                items.extend(std::iter::repeat_n(item, count));
            }
            Value::Object(entries) => {
                let count = if stream.once_in(20) { 300 } else { 1 };
                for i in 0..count {
                    entries.insert(format!("{}{i}", text(stream)), Value::Null);
                }
            }
            Value::String(words) => {
                let more = text(stream);
                words.push_str(&more);
            }
            _ => *spot = number(stream),
        },
        7 => match spot {
            Value::Array(items) if !items.is_empty() => {
                let at = stream.below(items.len());
                items.remove(at);
            }
            Value::Object(entries) if !entries.is_empty() => {
                let name = entries.keys().nth(stream.below(entries.len())).cloned();
                if let Some(name) = name {
                    entries.remove(&name);
                }
            }
            _ => *spot = Value::Object(Map::new()),
        },
        8 => *spot = Value::Array(vec![spot.take()]),
        _ => {
            // Nearly what it was.
            if let Some(was) = spot.as_f64() {
                let part = stream.between(0.5, 2.0);
                *spot = Number::from_f64(was * part).map_or(Value::Null, Value::Number);
            }
        }
    }
}

/// Bytes with some of them changed, cut out, doubled or put in.
pub fn bytes(stream: &mut Stream, from: &[u8]) -> Vec<u8> {
    let mut bytes = from.to_vec();
    for _ in 0..1 + stream.below(4) {
        let at = stream.below(bytes.len());
        match stream.below(5) {
            0 if !bytes.is_empty() => bytes[at] ^= 1 << stream.below(8),
            1 if !bytes.is_empty() => bytes[at] = stream.next() as u8,
            2 => bytes.insert(at, stream.next() as u8),
            3 => {
                let end = (at + stream.below(20)).min(bytes.len());
                bytes.drain(at..end);
            }
            _ => {
                let end = (at + stream.below(40)).min(bytes.len());
                let piece = bytes[at..end].to_vec();
                let to = stream.below(bytes.len());
                bytes.splice(to..to, piece);
            }
        }
    }
    bytes
}

/// Letters of a link, some of them changed.
pub fn letters(stream: &mut Stream, from: &str) -> String {
    let bytes = bytes(stream, from.as_bytes());
    String::from_utf8_lossy(&bytes).into_owned()
}
