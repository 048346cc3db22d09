//! The decoders: links, sets of layouts, talk plans, files.

use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use footroom_core::case::{InlineAbsorber, InlinePlace};
use footroom_web::page::Page;
use footroom_web::page::compare::layouts_link;
use footroom_web::page::explain::talk::plan::Plan;
use footroom_web::page::record::book::Book;
use footroom_web::page::record::file::{self, Opened};
use footroom_web::page::record::lines::Lines;
use footroom_web::say::format::{Lang, Units};
use footroom_web::wire::base64_url;
use footroom_web::wire::json;
use footroom_web::wire::link::{self, CONTENT_MAX, Shared};
use serde_json::{Value, json};

use crate::Made;
use crate::content::{self, damaged, letters};
use crate::stream::Stream;

/// Every format of a set of layouts that a link may have.
const SETS: [&str; 6] = ["c1.", "c2.", "c3.", "c4.", "c5.", "c6."];

/// The corpus: what is frozen of the oldest version, and a set in each of its formats.
struct Corpus {
    links: Vec<String>,
    sets: Vec<String>,
    plans: Vec<String>,
    /// The JSON of links; a file has one entry more.
    contents: Vec<Value>,
    files: Vec<Value>,
    plan_contents: Vec<Value>,
    set_contents: Vec<Value>,
    books: Vec<Value>,
    lines: Vec<Value>,
}

static CORPUS: LazyLock<Corpus> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = root.join("reference/golden/5");
    let read = |name: &str| fs::read_to_string(folder.join(name)).expect("the frozen file");
    let value = |text: &str| serde_json::from_str::<Value>(text).expect("JSON");
    let first = |name: &str| {
        fs::read_to_string(root.join("../web/tests").join(name)).expect("the first of its kind")
    };
    let names = [
        "demo",
        "six",
        "one",
        "feet",
        "own",
        "retracting",
        "corpus-3",
        "corpus-42",
    ];
    let mut links: Vec<String> = names.iter().map(|n| read(&format!("{n}.link"))).collect();
    links.push(first("first_link.txt").trim().to_owned());
    let talk = read("talk.link");
    let plan = talk
        .rsplit_once(".t1.")
        .map(|(_, plan)| format!("t1.{plan}"));
    links.push(talk);
    let files: Vec<Value> = names
        .iter()
        .map(|n| value(&read(&format!("{n}.json"))))
        .collect();
    let mut contents = files.clone();
    for content in &mut contents {
        content
            .as_object_mut()
            .expect("an object")
            .remove(file::MARK);
    }
    let layouts = value(&read("layouts.values.json"));
    let entries: Vec<Value> = value(&read("talk.plan.json"))
        .as_array()
        .expect("a list")
        .iter()
        .map(|entry| {
            let mut entry = entry.clone();
            if entry["say"].is_null() {
                entry.as_object_mut().expect("an object").remove("say");
            }
            entry
        })
        .collect();
    let site = read("site.json");
    let book = Book::from_text(&site).expect("the frozen book");
    let mut kept = Lines::default();
    for link in &links[..4] {
        let case = link::decode(link).expect("the frozen link").case;
        kept.keep(&case, 1.7e9);
    }
    let mut sets = vec![read("layouts.txt")];
    for name in ["first", "second", "third", "fifth", "sixth"] {
        let set = first(&format!("{name}_set.txt")).trim().to_owned();
        sets.push(set.split('&').next().unwrap_or_default().to_owned());
    }
    let fourth = fourth(&sets[3]);
    sets.push(fourth);
    for format in SETS {
        assert!(sets.iter().any(|set| set.starts_with(format)), "{format}");
    }
    Corpus {
        links,
        sets,
        plans: plan.into_iter().collect(),
        contents,
        files,
        plan_contents: vec![Value::Array(entries)],
        set_contents: vec![json!({"model": 5, "layouts": layouts})],
        books: vec![value(&site)],
        lines: vec![value(&kept.text(Some(&book))), value(&kept.text(None))],
    }
});

/// A set of the fourth format, of which none is frozen, from one of the third: with the place of an
/// in-line absorber.
fn fourth(third: &str) -> String {
    let mut set = layouts_link::decode(third).expect("the third set");
    for layout in &mut set.layouts {
        layout.case.line.inline_absorber = Some(InlineAbsorber {
            place: InlinePlace::Left,
            ..InlineAbsorber::default()
        });
    }
    layouts_link::encode(&set).expect("finite")
}

/// Most steps for a packed text: it is read once, unpacked at most twice into what a link may hold,
/// and every byte of that is read.
fn packed_steps(text: &str, content: usize) -> u64 {
    (8 * text.len() + 8 * 4096) as u64 + plain_steps(content)
}

/// Most steps for JSON of this length; the dearest byte is that of a smallest number, see `json.rs`.
fn plain_steps(bytes: usize) -> u64 {
    1_500 * bytes as u64 + 10_000
}

/// A link or a part of one, damaged at one of its three depths, and the length of what it may hold.
fn packed(
    stream: &mut Stream,
    prefixes: &[&str],
    whole: &[String],
    contents: &[Value],
) -> (String, usize) {
    match stream.below(8) {
        // Its letters.
        0 | 1 => {
            let from = &whole[stream.below(whole.len())];
            (letters(stream, from), CONTENT_MAX)
        }
        // Its packed bytes.
        2 => {
            let from = &whole[stream.below(whole.len())];
            let prefix = stream.one(prefixes);
            let body = from.split_once('.').map_or(from.as_str(), |(_, body)| body);
            let body = body.split('.').next().unwrap_or(body);
            let bytes = base64_url::decode(body).unwrap_or_default();
            let text = base64_url::encode(&content::bytes(stream, &bytes));
            (format!("{prefix}{text}"), CONTENT_MAX)
        }
        // Its content, packed anew.
        _ => {
            let from = &contents[stream.below(contents.len())];
            let text = damaged(stream, from, contents);
            let prefix = stream.one(prefixes);
            (format!("{prefix}{}", link::pack_body(&text)), text.len())
        }
    }
}

fn made(input: &[u8], taken: bool, steps_max: u64) -> Made {
    Made {
        input: input.to_vec(),
        taken,
        steps_max,
        timed: false,
    }
}

/// What was taken can be given away again, and is then the same.
fn comes_back(shared: &Shared) {
    let numbers = [shared.footroom_m, shared.required_m];
    assert!(numbers.iter().all(|n| n.is_finite()));
    let again = link::encode(shared).expect("what was read is finite");
    if again.len() <= link::LINK_MAX {
        let read = link::decode(&again).expect("an own link");
        assert_eq!(format!("{read:?}"), format!("{shared:?}"));
    }
}

/// Opens it as the page does; what it then shows has numbers.
fn shown(stream: &mut Stream, text: &str) {
    let lang = if stream.once_in(2) {
        Lang::En
    } else {
        Lang::Es
    };
    let units = if stream.once_in(2) {
        Units::Metric
    } else {
        Units::Us
    };
    let mut desk = Page::new(lang, units);
    let opened = desk.open_link(text);
    if let Err(message) = &opened {
        assert!(!message.is_empty());
    }
    let view = serde_json::to_string(&desk.view()).expect("plain");
    for odd in ["NaN", "inf ", "-inf"] {
        assert!(!view.contains(odd), "{view}");
    }
}

pub fn link(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let corpus = &*CORPUS;
    let (mut text, content) = packed(stream, &["v1."], &corpus.links, &corpus.contents);
    match stream.below(16) {
        0 => text = format!(" #{text}\n"),
        1 => text.push_str(".t1.xyz"),
        _ => {}
    }
    goes_in(text.as_bytes());
    let read = link::decode(&text);
    let mut steps_max = packed_steps(&text, content);
    if let Ok(shared) = &read {
        assert!(!link::encode(shared).unwrap_or_default().is_empty());
        // Written, read back and shown: as much again, five times.
        comes_back(shared);
        let faults = shared.case.faults();
        assert!(faults.iter().all(|fault| !fault.to_string().is_empty()));
        steps_max *= 8;
        steps_max += plain_steps(8 * CONTENT_MAX);
    }
    if stream.once_in(200) {
        shown(stream, &text);
        steps_max += packed_steps(&text, content);
    }
    made(text.as_bytes(), read.is_ok(), steps_max)
}

/// Differences made at random: letters, numbers, signs and texts.
fn differences(stream: &mut Stream) -> String {
    let mut text = String::new();
    for _ in 0..stream.below(60) {
        match stream.below(8) {
            0..3 => text.push(char::from(b'A' + stream.below(26) as u8)),
            3 => text.push(char::from(b'a' + stream.below(26) as u8)),
            4 => text.push_str(&stream.below(120).to_string()),
            5 => text.push(*stream.one(&[&':', &'\'', &';', &'*', &'/', &'!', &'^', &'-', &'.'])),
            6 => {
                let words = *stream.one(&content::TEXTS.each_ref());
                text.push_str(&format!("\"{}\"", words.replace(['"', '\\', '\0'], "")));
            }
            _ => {
                let long = stream.once_in(10);
                let count = if long { 40_000 } else { 30 };
                text.push_str(&format!("\"{}\"", "y".repeat(stream.below(count))));
            }
        }
    }
    text
}

pub fn set_link(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let corpus = &*CORPUS;
    let (text, content) = match stream.below(4) {
        0 => {
            let text = differences(stream);
            let format = stream.one(&SETS[1..]);
            (format!("{format}{}", link::pack_body(&text)), text.len())
        }
        1 => {
            // The differences of a good set, some of their letters changed.
            let set = &corpus.sets[stream.below(corpus.sets.len())];
            let (format, body) = set.split_at(SETS[0].len());
            let good = link::unpack_body(body, 0).expect("the frozen set");
            let text = letters(stream, &String::from_utf8_lossy(&good));
            // In its own format, or read as another.
            let format = if stream.once_in(4) {
                stream.one(&SETS)
            } else {
                format
            };
            (format!("{format}{}", link::pack_body(&text)), text.len())
        }
        _ => packed(stream, &SETS, &corpus.sets, &corpus.set_contents),
    };
    goes_in(text.as_bytes());
    let read = layouts_link::decode(&text);
    let mut steps_max = packed_steps(&text, content) + plain_steps(CONTENT_MAX / 16);
    if let Ok(set) = &read {
        assert!(set.layouts.len() <= layouts_link::LAYOUTS_MAX);
        assert!(set.layouts.iter().all(|l| l.case.faults().is_empty()));
        let again = layouts_link::encode(set).expect("finite");
        assert_eq!(layouts_link::decode(&again).as_ref(), Ok(set));
        steps_max *= 4;
        steps_max += plain_steps(CONTENT_MAX);
    }
    made(text.as_bytes(), read.is_ok(), steps_max)
}

pub fn talk_plan(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let corpus = &*CORPUS;
    let (text, content) = packed(stream, &["t1."], &corpus.plans, &corpus.plan_contents);
    goes_in(text.as_bytes());
    let read = Plan::decode(&text, stream.below(1_000));
    let mut steps_max = packed_steps(&text, content);
    if let Ok(plan) = &read {
        if let Some(again) = plan.encode() {
            assert_eq!(Plan::decode(&again, 0).as_ref(), Ok(plan));
        }
        steps_max = 4 * steps_max + plain_steps(4096);
    }
    made(text.as_bytes(), read.is_ok(), steps_max)
}

/// A file as it may come: with the mark of its encoding, with padding, or cut.
fn as_file(stream: &mut Stream, text: String) -> Vec<u8> {
    let mut bytes = text.into_bytes();
    match stream.below(12) {
        0 => bytes = content::bytes(stream, &bytes),
        1 => bytes = [b"\xef\xbb\xbf", bytes.as_slice()].concat(),
        2 => {
            // Past the lengths that are taken.
            let most = if stream.once_in(40) { 5 << 20 } else { 400_000 };
            let at = bytes.len().min(1);
            let padding = vec![b' '; stream.below(most)];
            bytes.splice(at..at, padding);
        }
        _ => {}
    }
    bytes
}

fn file(bytes: &[u8]) -> Made {
    let read = file::read(bytes);
    let mut steps_max = if bytes.len() > json::BYTES_MAX {
        0
    } else {
        plain_steps(bytes.len())
    };
    match &read {
        Ok(Opened::Case(shared)) => {
            comes_back(shared);
            let text = file::case_text(shared);
            let again = file::read(text.as_bytes());
            assert_eq!(format!("{again:?}"), format!("{read:?}"));
            steps_max = 8 * steps_max + plain_steps(8 * CONTENT_MAX);
        }
        Ok(Opened::Site(book)) => {
            let again = Book::from_text(&book.text()).expect("an own book");
            assert_eq!(again, *book);
            let mut other = Book::default();
            let _ = other.take_in(again);
            steps_max = 4 * steps_max + plain_steps(4096);
        }
        Ok(Opened::Lines(lines, book)) => {
            let again = file::read(lines.text(Some(book)).as_bytes());
            assert_eq!(format!("{again:?}"), format!("{read:?}"));
            steps_max = 8 * steps_max + plain_steps(8 * CONTENT_MAX);
        }
        Err(_) => {}
    }
    made(bytes, read.is_ok(), steps_max)
}

pub fn case_file(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let files = &CORPUS.files;
    let from = &files[stream.below(files.len())];
    let text = damaged(stream, from, files);
    let bytes = as_file(stream, text);
    goes_in(&bytes);
    file(&bytes)
}

pub fn site_file(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let books = &CORPUS.books;
    let text = damaged(stream, &books[0], books);
    let bytes = as_file(stream, text);
    goes_in(&bytes);
    file(&bytes)
}

pub fn lines_file(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let lines = &CORPUS.lines;
    let from = &lines[stream.below(lines.len())];
    let text = damaged(stream, from, lines);
    let bytes = as_file(stream, text);
    goes_in(&bytes);
    file(&bytes)
}
