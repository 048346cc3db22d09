//! JSON text: a tree that remembers where each value stood, a strict reader and a writer.
//!
//! Numbers are written with the fewest digits that read back to the same bits, and read to the
//! nearest double. A general library does more than a link needs and would be a quarter of the
//! download; tests compare the two.

use crate::wire::decimal;
use crate::wire::steps;

/// A value and its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Json {
    /// Byte of the text at which the value begins, counted from 1.
    pub at: usize,
    /// What it is.
    pub kind: Kind,
}

/// What a value is.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// `null`.
    Null,
    /// `true` or `false`.
    Flag(bool),
    /// A number, finite.
    Number(f64),
    /// A text.
    Text(String),
    /// A list.
    List(Vec<Json>),
    /// Names with values, in the order of the text, no name twice.
    Object(Vec<(String, Json)>),
}

/// Where and why a text is no JSON, or not the expected one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JsonFault {
    /// Byte of the text, counted from 1.
    pub at: usize,
    /// Why.
    pub reason: Reason,
}

/// Why a text is no JSON, or not the expected one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// It ends too early.
    End,
    /// A character that cannot stand there.
    Character,
    /// No number that a double can hold.
    Number,
    /// A text with an escape or byte that cannot be.
    Text,
    /// Lists and objects lie too deep in each other.
    Depth,
    /// It holds more than anything of this page: bytes, values, or names in one object.
    TooMuch,
    /// Something follows after the end.
    Trailing,
    /// A name that stands twice.
    Twice(String),
    /// A name that is not known.
    Unknown(String),
    /// A name that is missing.
    Missing(&'static str),
    /// A value of another kind than expected, or none of the choices.
    Kind,
}

/// Deepest nesting that is read; a case has four levels.
const DEPTH_MAX: usize = 16;

/// Most bytes that are read: a full site book needs less than half of them.
pub const BYTES_MAX: usize = 4 * 1024 * 1024;

/// Most values of a text. A full site book has two thirds of them; a value takes 64 bytes of memory
/// and two of text, so that without a limit the greatest file would take a quarter of a gigabyte.
pub const VALUES_MAX: usize = 100_000;

/// Most names in one object; no object of this page has half of them. A name is compared with those
/// before it, so that this keeps the reading in proportion to the text.
pub const NAMES_MAX: usize = 64;

/// Reads one value that fills the text.
///
/// It takes steps in proportion to the text, and none when that is too long.
///
/// # Errors
/// The first byte that does not fit.
pub fn read(bytes: &[u8]) -> Result<Json, JsonFault> {
    let mut reader = Reader {
        bytes,
        at: 0,
        values: 0,
    };
    if bytes.len() > BYTES_MAX {
        return Err(reader.fault(Reason::TooMuch));
    }
    let value = reader.value(0)?;
    reader.space();
    if reader.at < bytes.len() {
        return Err(reader.fault(Reason::Trailing));
    }
    Ok(value)
}

struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
    /// Values begun so far.
    values: usize,
}

impl Reader<'_> {
    fn fault(&self, reason: Reason) -> JsonFault {
        let reason = match reason {
            Reason::Character if self.at >= self.bytes.len() => Reason::End,
            other => other,
        };
        JsonFault {
            at: self.at + 1,
            reason,
        }
    }

    fn peek(&self) -> Option<u8> {
        steps::count(1);
        self.bytes.get(self.at).copied()
    }

    fn space(&mut self) {
        while matches!(self.peek(), Some(b' ' | b'\n' | b'\r' | b'\t')) {
            self.at += 1;
        }
    }

    /// Takes a byte, after white space; false when another one stands there.
    fn takes(&mut self, byte: u8) -> bool {
        self.space();
        let found = self.peek() == Some(byte);
        self.at += usize::from(found);
        found
    }

    fn expect(&mut self, byte: u8) -> Result<(), JsonFault> {
        if self.takes(byte) {
            Ok(())
        } else {
            Err(self.fault(Reason::Character))
        }
    }

    fn word(&mut self, word: &str) -> Result<(), JsonFault> {
        for &byte in word.as_bytes() {
            if self.peek() != Some(byte) {
                return Err(self.fault(Reason::Character));
            }
            self.at += 1;
        }
        Ok(())
    }

    fn value(&mut self, depth: usize) -> Result<Json, JsonFault> {
        self.space();
        if depth > DEPTH_MAX {
            return Err(self.fault(Reason::Depth));
        }
        self.values += 1;
        if self.values > VALUES_MAX {
            return Err(self.fault(Reason::TooMuch));
        }
        let at = self.at + 1;
        let kind = match self.peek() {
            Some(b'n') => {
                self.word("null")?;
                Kind::Null
            }
            Some(b't') => {
                self.word("true")?;
                Kind::Flag(true)
            }
            Some(b'f') => {
                self.word("false")?;
                Kind::Flag(false)
            }
            Some(b'"') => Kind::Text(self.text()?),
            Some(b'[') => {
                self.at += 1;
                let mut list = Vec::new();
                if !self.takes(b']') {
                    loop {
                        list.push(self.value(depth + 1)?);
                        if !self.takes(b',') {
                            break;
                        }
                    }
                    self.expect(b']')?;
                }
                Kind::List(list)
            }
            Some(b'{') => {
                self.at += 1;
                Kind::Object(self.entries(depth)?)
            }
            Some(b'-' | b'0'..=b'9') => Kind::Number(self.number()?),
            _ => return Err(self.fault(Reason::Character)),
        };
        Ok(Json { at, kind })
    }

    fn entries(&mut self, depth: usize) -> Result<Vec<(String, Json)>, JsonFault> {
        let mut entries: Vec<(String, Json)> = Vec::new();
        if self.takes(b'}') {
            return Ok(entries);
        }
        loop {
            self.space();
            let begin = self.at;
            if self.peek() != Some(b'"') {
                return Err(self.fault(Reason::Character));
            }
            if entries.len() >= NAMES_MAX {
                return Err(self.fault(Reason::TooMuch));
            }
            let name = self.text()?;
            if entries.iter().any(|(other, _)| same_name(other, &name)) {
                self.at = begin;
                return Err(self.fault(Reason::Twice(name)));
            }
            self.expect(b':')?;
            entries.push((name, self.value(depth + 1)?));
            if !self.takes(b',') {
                break;
            }
        }
        self.expect(b'}')?;
        Ok(entries)
    }

    /// A number in the grammar of JSON (RFC 8259, section 6).
    fn number(&mut self) -> Result<f64, JsonFault> {
        let begin = self.at;
        let digits = |reader: &mut Self| {
            let from = reader.at;
            while matches!(reader.peek(), Some(b'0'..=b'9')) {
                reader.at += 1;
            }
            if reader.at == from {
                Err(reader.fault(Reason::Character))
            } else {
                Ok(())
            }
        };
        self.at += usize::from(self.peek() == Some(b'-'));
        if self.peek() == Some(b'0') {
            self.at += 1;
        } else {
            digits(self)?;
        }
        if self.peek() == Some(b'.') {
            self.at += 1;
            digits(self)?;
        }
        if matches!(self.peek(), Some(b'e' | b'E')) {
            self.at += 1;
            self.at += usize::from(matches!(self.peek(), Some(b'-' | b'+')));
            digits(self)?;
        }
        let text = core::str::from_utf8(&self.bytes[begin..self.at]).ok();
        let value = text.and_then(decimal::read);
        match value.filter(|value| value.is_finite()) {
            Some(value) => Ok(value),
            None => {
                self.at = begin;
                Err(self.fault(Reason::Number))
            }
        }
    }

    fn text(&mut self) -> Result<String, JsonFault> {
        self.at += 1;
        let mut out: Vec<u8> = Vec::new();
        loop {
            let Some(byte) = self.peek() else {
                return Err(self.fault(Reason::End));
            };
            match byte {
                b'"' => break,
                0..=0x1f => return Err(self.fault(Reason::Text)),
                b'\\' => {
                    self.at += 1;
                    let c = self.escape()?;
                    out.extend_from_slice(c.encode_utf8(&mut [0; 4]).as_bytes());
                }
                _ => {
                    out.push(byte);
                    self.at += 1;
                }
            }
        }
        self.at += 1;
        String::from_utf8(out).map_err(|_| self.fault(Reason::Text))
    }

    fn escape(&mut self) -> Result<char, JsonFault> {
        let Some(byte) = self.peek() else {
            return Err(self.fault(Reason::End));
        };
        let plain = match byte {
            b'"' | b'\\' | b'/' => Some(char::from(byte)),
            b'b' => Some('\u{8}'),
            b'f' => Some('\u{c}'),
            b'n' => Some('\n'),
            b'r' => Some('\r'),
            b't' => Some('\t'),
            _ => None,
        };
        if let Some(c) = plain {
            self.at += 1;
            return Ok(c);
        }
        let first = self.unit()?;
        if !(0xd800..0xdc00).contains(&first) {
            return char::from_u32(first).ok_or_else(|| self.fault(Reason::Text));
        }
        // The first half of a pair (RFC 8259, section 7).
        self.word("\\")?;
        let second = self.unit()?;
        if !(0xdc00..0xe000).contains(&second) {
            return Err(self.fault(Reason::Text));
        }
        let pair = 0x1_0000 + ((first - 0xd800) << 10) + (second - 0xdc00);
        char::from_u32(pair).ok_or_else(|| self.fault(Reason::Text))
    }

    /// `u` and four hexadecimal digits.
    fn unit(&mut self) -> Result<u32, JsonFault> {
        if self.peek() != Some(b'u') {
            return Err(self.fault(Reason::Text));
        }
        self.at += 1;
        let mut unit = 0;
        for _ in 0..4 {
            let digit = self.peek().and_then(|b| char::from(b).to_digit(16));
            let Some(digit) = digit else {
                return Err(self.fault(Reason::Text));
            };
            unit = 16 * unit + digit;
            self.at += 1;
        }
        Ok(unit)
    }
}

fn same_name(one: &str, other: &str) -> bool {
    let compared = if one.len() == other.len() {
        one.len()
    } else {
        0
    };
    steps::count(1 + compared);
    one == other
}

/// Writes JSON without white space.
#[derive(Clone, Debug, Default)]
pub struct Writer {
    out: String,
}

impl Writer {
    /// What has been written.
    pub fn finish(self) -> String {
        self.out
    }

    /// A comma where one is due.
    fn separate(&mut self) {
        if !matches!(self.out.as_bytes().last(), None | Some(b'{' | b'[' | b':')) {
            self.out.push(',');
        }
    }

    /// Begins an object or list with its bracket.
    pub fn open(&mut self, bracket: char) {
        self.separate();
        self.out.push(bracket);
    }

    /// Ends an object or list with its bracket.
    pub fn close(&mut self, bracket: char) {
        self.out.push(bracket);
    }

    /// The name of an entry.
    pub fn name(&mut self, name: &str) {
        self.text(name);
        self.out.push(':');
    }

    /// `null`, `true`, `false` or digits, as they are.
    pub fn word(&mut self, word: &str) {
        self.separate();
        self.out.push_str(word);
    }

    /// A number with the fewest digits that read back to the same bits. JSON has none for
    /// infinity and for what is not a number: those become `null`.
    pub fn number(&mut self, value: f64) {
        if value.is_finite() {
            self.word(ryu::Buffer::new().format_finite(value));
        } else {
            self.word("null");
        }
    }

    /// A text.
    pub fn text(&mut self, text: &str) {
        self.separate();
        self.out.push('"');
        for c in text.chars() {
            match c {
                '"' | '\\' => {
                    self.out.push('\\');
                    self.out.push(c);
                }
                '\0'..='\u{1f}' => {
                    const HEX: [char; 16] = [
                        '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e',
                        'f',
                    ];
                    let code = c as usize;
                    self.out.push_str("\\u00");
                    self.out.push(HEX[code / 16]);
                    self.out.push(HEX[code % 16]);
                }
                _ => self.out.push(c),
            }
        }
        self.out.push('"');
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn same(ours: &Json, theirs: &serde_json::Value) -> bool {
        match (&ours.kind, theirs) {
            (Kind::Null, serde_json::Value::Null) => true,
            (Kind::Flag(a), serde_json::Value::Bool(b)) => a == b,
            (Kind::Number(a), serde_json::Value::Number(b)) => b.as_f64() == Some(*a),
            (Kind::Text(a), serde_json::Value::String(b)) => a == b,
            (Kind::List(a), serde_json::Value::Array(b)) => {
                a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b))
            }
            (Kind::Object(a), serde_json::Value::Object(b)) => {
                a.len() == b.len() && a.iter().all(|(k, v)| b.get(k).is_some_and(|b| same(v, b)))
            }
            _ => false,
        }
    }

    #[test]
    fn reads_what_the_library_reads() {
        for text in [
            "null",
            " true ",
            "false",
            "0",
            "-0",
            "-0.0",
            "1.5e-3",
            "1E+2",
            "5e-324",
            "\"\"",
            r#""a\"\\\/\b\f\n\r\té\u00e9\ud83d\ude00""#,
            "[]",
            "[1, 2,[3]]",
            "{}",
            "{\"a\" : 1 , \"b\":{\"c\":[null]}}",
            "1.7976931348623157e308",
            "0.1000000000000000055511151231257827021181583404541015625",
        ] {
            let theirs: serde_json::Value = serde_json::from_str(text).expect(text);
            let ours = read(text.as_bytes()).expect(text);
            assert!(same(&ours, &theirs), "{text}: {ours:?}");
        }
    }

    #[test]
    fn refuses_what_is_no_json_and_says_where() {
        let cases: &[(&[u8], usize, Reason)] = &[
            (b"", 1, Reason::End),
            (b"  ", 3, Reason::End),
            (b"nul", 4, Reason::End),
            (b"nulx", 4, Reason::Character),
            (b"[1,]", 4, Reason::Character),
            (b"[1 2]", 4, Reason::Character),
            (b"{\"a\":1,}", 8, Reason::Character),
            (b"{\"a\" 1}", 6, Reason::Character),
            (b"{a:1}", 2, Reason::Character),
            (b"01", 2, Reason::Trailing),
            (b"1.", 3, Reason::End),
            (b".5", 1, Reason::Character),
            (b"+1", 1, Reason::Character),
            (b"1e", 3, Reason::End),
            (b"-", 2, Reason::End),
            (b"1e999", 1, Reason::Number),
            (b"NaN", 1, Reason::Character),
            (b"Infinity", 1, Reason::Character),
            (b"\"abc", 5, Reason::End),
            (b"\"a\nb\"", 3, Reason::Text),
            (b"\"\\x\"", 3, Reason::Text),
            (b"\"\\ud800\"", 8, Reason::Character),
            (b"\"\\ud800\\u0041\"", 14, Reason::Text),
            (b"\"\\udc00\"", 8, Reason::Text),
            (b"\"\xff\"", 4, Reason::Text),
            (b"1 2", 3, Reason::Trailing),
            (b"{\"a\":1,\"a\":2}", 8, Reason::Twice("a".into())),
        ];
        for (text, at, reason) in cases {
            let fault = JsonFault {
                at: *at,
                reason: reason.clone(),
            };
            assert_eq!(read(text), Err(fault), "{}", String::from_utf8_lossy(text));
        }
        let deep = "[".repeat(100_000);
        assert_eq!(
            read(deep.as_bytes()).map_err(|f| f.reason),
            Err(Reason::Depth)
        );
    }

    /// Texts made to be dear, some of them of any length.
    fn dear(bytes: usize) -> Vec<(&'static str, String)> {
        let list =
            |item: &str| format!("[{}0]", format!("{item},").repeat(bytes / (item.len() + 1)));
        let names: String = (0..bytes / 10).map(|i| format!("\"{i:05x}\":0,")).collect();
        let alike: String = (0..bytes / 110)
            .map(|i| format!("\"{}{i:05x}\":0,", "a".repeat(100)))
            .collect();
        let objects: String = (0..bytes / 500)
            .map(|_| {
                let inner: String = (0..60).map(|i| format!("\"{i:02}\":0,")).collect();
                format!("{{{inner}\"\":0}},")
            })
            .collect();
        vec![
            ("names", format!("{{{names}\"\":0}}")),
            ("names alike", format!("{{{alike}\"\":0}}")),
            ("objects", format!("[{objects}0]")),
            (
                "one name twice",
                format!("[{}0]", "{\"a\":0,\"a\":0},".repeat(bytes / 16)),
            ),
            ("numbers", list("0")),
            ("smallest numbers", list("5e-324")),
            (
                "longest numbers",
                list(&format!("0.{}1e-300", "7".repeat(780))),
            ),
            ("one number", "7".repeat(bytes)),
            ("one small number", format!("0.{}1", "0".repeat(bytes))),
            ("text", format!("\"{}\"", "x".repeat(bytes))),
            ("escapes", format!("\"{}\"", "\\u00e9".repeat(bytes / 6))),
            ("an open text", format!("\"{}", "x".repeat(bytes))),
            ("space", format!("{}0", " ".repeat(bytes))),
            ("lists", list("[]")),
            ("depth", list("[[[[[[[[[[[[[]]]]]]]]]]]]]")),
        ]
    }

    /// Steps in proportion to the text, whatever it is: counted, not timed. With the names of an
    /// object compared with all others, 1 MB took 5 thousand million.
    #[test]
    fn reading_takes_steps_in_proportion_to_the_text() {
        for bytes in [1_000, 16_000, 128_000] {
            for (what, text) in dear(bytes) {
                let (_, steps) = crate::wire::steps::counted(|| read(text.as_bytes()));
                let each = steps as f64 / text.len() as f64;
                // The dearest is the smallest number: 35 parts of 32 bits for each of its bits.
                assert!(
                    each < 1_500.0,
                    "{what}: {each} steps a byte of {}",
                    text.len()
                );
            }
        }
    }

    #[test]
    fn what_is_more_than_anything_of_this_page_is_refused() {
        let reason = |text: &str| read(text.as_bytes()).map_err(|fault| (fault.at, fault.reason));
        let longest = " ".repeat(BYTES_MAX + 1);
        let (fault, steps) = crate::wire::steps::counted(|| reason(&longest));
        assert_eq!((fault, steps), (Err((1, Reason::TooMuch)), 0));
        let names = |count: usize| {
            let names: Vec<String> = (0..count).map(|i| format!("\"{i}\":0")).collect();
            format!("{{{}}}", names.join(","))
        };
        assert!(reason(&names(NAMES_MAX)).is_ok());
        let more = names(NAMES_MAX + 1);
        let at = more.rfind('"').map(|end| end - 3);
        assert_eq!(reason(&more), Err((at.unwrap_or(0) + 1, Reason::TooMuch)));
        let values = |count: usize| format!("[{}0]", "0,".repeat(count - 2));
        assert!(reason(&values(VALUES_MAX)).is_ok());
        let fault = reason(&values(VALUES_MAX + 1));
        assert!(matches!(fault, Err((_, Reason::TooMuch))), "{fault:?}");
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn every_number_keeps_its_bits(bits: u64) {
            let value = f64::from_bits(bits);
            let mut writer = Writer::default();
            writer.number(value);
            let text = writer.finish();
            let read = read(text.as_bytes()).map(|json| json.kind);
            if value.is_finite() {
                prop_assert!(matches!(read, Ok(Kind::Number(v)) if v.to_bits() == bits), "{}", text);
                let theirs: f64 = serde_json::from_str(&text).expect("number");
                prop_assert_eq!(theirs.to_bits(), bits);
            } else {
                prop_assert_eq!(read, Ok(Kind::Null));
            }
        }

        #[test]
        fn every_text_comes_back(text in "(?s).{0,40}") {
            let mut writer = Writer::default();
            writer.text(&text);
            let json = writer.finish();
            prop_assert_eq!(read(json.as_bytes()).map(|j| j.kind), Ok(Kind::Text(text.clone())));
            let theirs: String = serde_json::from_str(&json).expect("text");
            prop_assert_eq!(theirs, text);
        }

        #[test]
        fn agrees_with_the_library_on_noise(text in "[\\[\\]{}\",:0-9eE.+\\-a ntrufls\\\\]{0,24}") {
            let theirs = serde_json::from_str::<serde_json::Value>(&text);
            let ours = read(text.as_bytes());
            match (ours, theirs) {
                (Ok(ours), Ok(theirs)) => prop_assert!(same(&ours, &theirs), "{}", text),
                // The library keeps the last of two equal names; here that is a fault.
                (Err(JsonFault { reason: Reason::Twice(_), .. }), Ok(_)) | (Err(_), Err(_)) => {}
                (ours, theirs) => prop_assert!(false, "{} {:?} {:?}", text, ours, theirs),
            }
        }
    }
}
