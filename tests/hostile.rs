//! Texts that come from a link or a file, or that somebody types, stay texts: on every sheet, in every
//! drawing and in every file, in both languages. What the page does with them stands in
//! `page/requests.rs`.

#[path = "support/finished.rs"]
mod finished;

use std::collections::BTreeSet;
use std::path::Path;

use finished::finish;
use footroom_core::case::Case;
use footroom_core::check::{OwnLimit, OwnQuantity};
use footroom_core::demo::demo;
use footroom_web::first::scene::svg::estimated_width;
use footroom_web::page::Page;
use footroom_web::page::compare::layouts_link::NAME_MAX;
use footroom_web::page::compare::shelf::Shelf;
use footroom_web::page::compare::solved::Solved;
use footroom_web::page::explain::talk::script::Step;
use footroom_web::page::record::book::{Book, Compared, LogEntry};
use footroom_web::page::record::csv::may_be_formula;
use footroom_web::page::record::file::{self, Opened};
use footroom_web::page::record::further::FURTHER;
use footroom_web::page::record::paper::Paper;
use footroom_web::say::faults::Voice;
use footroom_web::say::format::{Lang, Units};

/// Texts that a page, a drawing, a spreadsheet or a reader may take for more than a text.
const HOSTILE: [&str; 9] = [
    "<img src=x onerror=alert(1)>",
    "</title></svg><script>alert(1)</script>",
    "\"><svg onload=\"alert(1)\" x=\"",
    "' onmouseover='alert(1)",
    "&lt;b&gt; &#60;i&#62; &amp;",
    "]]><!--<?xml?>",
    "=HYPERLINK(\"http://example.org\")",
    "-1+cmd|' /C calc'!A0",
    "\u{1}\u{8}\u{202e}\u{fffe}a\tb",
];

fn book(text: &str, job: &str) -> Book {
    let mut book = Book::default();
    book.sign(job, "2026-03-04", text);
    book.look(job, "rope_rust", "fail", text).expect("a point");
    assert!(book.enter(LogEntry {
        job: job.to_owned(),
        date: "2026-03-04".to_owned(),
        name: text.to_owned(),
        temperature_k: Some(293.15),
        weight_n: Some(444.8),
        movement_m: Some(0.05),
        swings: None,
        time_s: None,
        tension_n: Some(4_300.0),
        expected_n: Some(4_400.0),
        compared: Compared::Within,
        note: text.to_owned(),
    }));
    book
}

fn case(text: &str) -> Case {
    let mut case = demo();
    case.title = text.to_owned();
    case.sets.european = true;
    case.own_limits = vec![OwnLimit {
        label: text.to_owned(),
        quantity: OwnQuantity::ArrestForce,
        limit: 4_000.0,
        reference: text.to_owned(),
    }];
    assert_eq!(case.faults(), Vec::new(), "{text:?}");
    case
}

/// The names between the quotes after a marker in the script that lets drawings in.
fn allowed(script: &str, marker: &str) -> BTreeSet<String> {
    let after = script.split_once(marker).expect(marker).1;
    let end = after.find(".split").expect("a list");
    let names = after[..end].split('"').skip(1).step_by(2);
    let joined: String = names.collect();
    joined.split(' ').map(str::to_owned).collect()
}

/// That a drawing is well-formed, and has only what the page lets in: elements, attributes, and no
/// text as markup.
fn harmless(svg: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../www/page/trusted.js");
    let script = std::fs::read_to_string(path).expect("the script");
    let parts = allowed(&script, "PARTS = new Set(");
    let sayings = allowed(&script, "SAYINGS = new Set((");
    let mut open: Vec<&str> = Vec::new();
    let mut count = 0;
    for tag in svg.split('<').skip(1) {
        let (tag, after) = tag.split_once('>').expect("a tag ends");
        assert!(!after.contains('>'), "{after}");
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name));
            continue;
        }
        count += 1;
        let (tag, closed) = match tag.strip_suffix('/') {
            Some(tag) => (tag, true),
            None => (tag, false),
        };
        let (name, mut rest) = tag.split_once(' ').unwrap_or((tag, ""));
        assert!(parts.contains(name), "{name}");
        while !rest.is_empty() {
            let (attribute, value) = rest.split_once("=\"").expect("a value");
            assert!(sayings.contains(attribute.trim()), "{name}: {attribute}");
            rest = value.split_once('"').expect("a value ends").1;
        }
        if !closed {
            open.push(name);
        }
    }
    assert!(open.is_empty());
    assert!(count > 2, "{svg}");
    assert!(svg.starts_with("<svg ") && svg.ends_with("</svg>"));
    // What no XML may hold.
    let odd = |c: char| matches!(c, '\0'..='\u{8}' | '\u{b}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}');
    assert!(!svg.contains(odd), "{svg:?}");
}

fn said(paper: &Paper) -> String {
    let mut all = vec![paper.title.clone(), paper.foot.clone()];
    for block in paper.blocks() {
        all.push(block.title.clone());
        all.extend(block.lines.clone());
        all.extend(block.rows.concat());
    }
    all.join("\n")
}

/// Cells of CSV text (RFC 4180).
fn cells(csv: &str) -> Vec<String> {
    let mut cells = Vec::new();
    let mut cell = String::new();
    let mut quoted = false;
    let mut chars = csv.trim_start_matches('\u{feff}').chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                chars.next();
                cell.push('"');
            }
            '"' => quoted = !quoted,
            ',' | '\n' if !quoted => cells.push(core::mem::take(&mut cell)),
            '\r' if !quoted => {}
            _ => cell.push(c),
        }
    }
    assert!(!quoted, "a quote is left open");
    cells.push(cell);
    cells
}

/// The page with a case on it and its whole answer.
fn page(case: &Case, lang: Lang, units: Units) -> Page {
    let mut page = Page::empty(lang, units);
    page.load(case.clone()).expect("a case");
    finish(&mut page);
    page
}

fn no_formula(csv: &str) {
    for cell in cells(csv) {
        assert!(!may_be_formula(&cell), "{cell:?}");
    }
}

#[test]
fn no_text_becomes_markup_or_a_formula_on_any_sheet_or_in_any_file() {
    for text in HOSTILE {
        let case = case(text);
        let book = book(text, text);
        for lang in [Lang::En, Lang::Es] {
            let page = page(&case, lang, Units::Us);
            for kind in ["record", "tag", "sign_in"] {
                let further = FURTHER.map(|(_, kind)| kind);
                let paper = page.paper(
                    kind,
                    &further,
                    &book,
                    "https://example.org/",
                    &estimated_width,
                );
                let paper = paper.expect("a sheet");
                // It is shown, and as it was written.
                assert!(said(&paper).contains(text), "{kind}: {text:?}");
                let mut drawings = 0;
                for block in paper.blocks().filter(|block| !block.svg.is_empty()) {
                    harmless(&block.svg);
                    drawings += 1;
                }
                assert!(drawings > 0 || kind != "record");
            }
            for kind in ["case", "csv", "svg", "site"] {
                let saved = page.save(kind, &book, &estimated_width);
                let saved = saved.flatten().expect("a file");
                let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '.');
                assert!(saved.name.chars().all(plain), "{}", saved.name);
                match kind {
                    "csv" => no_formula(&saved.text),
                    "svg" => harmless(&saved.text),
                    _ => {
                        let general: serde_json::Value =
                            serde_json::from_str(&saved.text).expect("JSON");
                        assert!(general.is_object());
                        match file::read(saved.text.as_bytes()).expect("an own file") {
                            Opened::Case(shared) => assert_eq!(shared.case, case),
                            Opened::Site(read) => assert_eq!(read, book),
                            Opened::Lines(..) => panic!("nobody saved lines"),
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn no_name_of_a_layout_becomes_a_formula() {
    for text in HOSTILE {
        let mut shelf = Shelf::default();
        shelf.add(&demo(), text).expect("room");
        let numbers = Solved::of(&demo()).expect("no faults").numbers();
        assert!(shelf.take_in(0, &numbers));
        for lang in [Lang::En, Lang::Es] {
            let voice = Voice {
                lang,
                units: Units::Metric,
            };
            no_formula(&shelf.csv(voice));
            let shown = &shelf.view(voice, &demo()).layouts[0].name;
            let short: String = text.chars().take(NAME_MAX).collect();
            assert_eq!(shown.trim(), short.trim());
        }
    }
}

/// The leader's own sentences travel in the link and are shown as they were typed.
#[test]
fn no_sentence_of_a_talk_becomes_anything_else() {
    for text in HOSTILE {
        let mut page = page(&demo(), Lang::En, Units::Us);
        page.talk().0.plan_mut().say(Step::One, text);
        let link = page.link().expect("an answer");
        let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
        // The case, and what goes along with it: units and language.
        let parts: Vec<&str> = link.split(['&', '=']).collect();
        assert_eq!(parts.len(), 5, "{link}");
        assert!(parts.iter().all(|part| part.chars().all(plain)), "{link}");
        let (talk, _) = page.talk();
        talk.open_link(&link).expect("an own link");
        let (talk, subject) = page.talk();
        let step = talk.step(subject, Step::One).expect("a step");
        assert_eq!(step.sentence, text.trim());
    }
}
