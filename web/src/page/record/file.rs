//! Files: a case with its answer, and the results as a table for a spreadsheet.
//!
//! A case's file is the JSON of a link with a version in front, see [`crate::wire::link`]. Reading is
//! strict: a file is taken whole or refused with the reason and the place.

use crate::page::record::book::{self, Book};
use crate::page::record::csv;
use crate::page::record::lines::{self, Lines, Place};
use crate::page::record::paper::{BlockKind, Paper};
use crate::say::faults::{self, Voice};
use crate::wire::case_json::{Entries, number};
use crate::wire::json::{self, JsonFault, Kind, Reason, Writer};
use crate::wire::link::{self, CONTENT_MAX, Shared};

/// Name of the first entry of a case's file; its value is the version.
pub const MARK: &str = "footroom";

/// Version of the present format.
pub const VERSION: u32 = 1;

/// Most bytes of a file that is read: a full site book needs less than half of it.
pub const FILE_MAX: usize = json::BYTES_MAX;

/// What a file holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Opened {
    /// A case with its answer.
    Case(Box<Shared>),
    /// Inspections and a log.
    Site(Book),
    /// The lines of a site, with their inspections and log.
    Lines(Lines, Book),
}

/// Why a file was refused. Places count bytes from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileFault {
    /// It is no file of this page.
    Foreign,
    /// It is of a later format.
    Version {
        /// Its version, as it stands there.
        version: u64,
    },
    /// It is longer than any file of this page.
    TooLong,
    /// It is damaged.
    Content(JsonFault),
    /// One of its lines is.
    Line(Place, JsonFault),
}

/// Writes a case with its answer as a file.
pub fn case_text(shared: &Shared) -> String {
    let mut writer = Writer::default();
    writer.open('{');
    writer.name(MARK);
    writer.word(&VERSION.to_string());
    link::write_entries(shared, &mut writer);
    writer.close('}');
    let mut text = writer.finish();
    text.push('\n');
    text
}

/// Reads a file of either kind.
///
/// # Errors
/// The first reason for which it cannot be taken. The faults of the case itself are for
/// [`footroom_core::case::Case::faults`].
pub fn read(bytes: &[u8]) -> Result<Opened, FileFault> {
    if bytes.len() > FILE_MAX {
        return Err(FileFault::TooLong);
    }
    // Some editors put a mark of the encoding in front.
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    // Anything else than an object cannot be ours; what begins like one is told where it fails.
    if bytes.iter().find(|b| !b.is_ascii_whitespace()) != Some(&b'{') {
        return Err(FileFault::Foreign);
    }
    // Only books and lines may be longer than a case, and their mark stands first in them.
    let long = [book::MARK, lines::MARK];
    if bytes.len() > CONTENT_MAX && !long.iter().any(|mark| begins_with(bytes, mark)) {
        return Err(FileFault::TooLong);
    }
    let json = json::read(bytes).map_err(FileFault::Content)?;
    let Kind::Object(entries) = &json.kind else {
        return Err(FileFault::Foreign);
    };
    let version = |mark: &str| {
        entries
            .iter()
            .find(|(name, _)| name == mark)
            .map(|(_, v)| v)
    };
    let marks = [version(MARK), version(book::MARK), version(lines::MARK)];
    let (found, known) = match marks {
        [Some(found), None, None] => (found, VERSION),
        [None, Some(found), None] => (found, book::VERSION),
        [None, None, Some(found)] => (found, lines::VERSION),
        _ => return Err(FileFault::Foreign),
    };
    let value = number(found).map_err(FileFault::Content)?;
    if value.fract() != 0.0 || !(1.0..=9.0e15).contains(&value) {
        let fault = JsonFault {
            at: found.at,
            reason: Reason::Kind,
        };
        return Err(FileFault::Content(fault));
    }
    if value > f64::from(known) {
        return Err(FileFault::Version {
            version: value as u64,
        });
    }
    let opened = if version(MARK).is_some() {
        let mut entries = Entries::of(&json).map_err(FileFault::Content)?;
        entries.take(MARK);
        link::read_entries(entries).map(|shared| Opened::Case(Box::new(shared)))
    } else if version(book::MARK).is_some() {
        Book::of_json(&json).map(Opened::Site)
    } else {
        return match Lines::of_json(&json) {
            Ok((lines, book)) => Ok(Opened::Lines(lines, book.unwrap_or_default())),
            Err((Some(place), fault)) => Err(FileFault::Line(place, fault)),
            Err((None, fault)) => Err(FileFault::Content(fault)),
        };
    };
    opened.map_err(FileFault::Content)
}

/// Whether the first name of the object is this mark.
fn begins_with(bytes: &[u8], first: &str) -> bool {
    let text = bytes.trim_ascii_start();
    let name = text.strip_prefix(b"{").unwrap_or(text).trim_ascii_start();
    let mark = name
        .strip_prefix(b"\"")
        .and_then(|rest| rest.strip_prefix(first.as_bytes()));
    mark.is_some_and(|rest| rest.starts_with(b"\""))
}

/// Why a file was refused, in words.
pub fn fault_text(voice: Voice, fault: &FileFault) -> String {
    let r = voice.record();
    let message = match fault {
        FileFault::Foreign => r.file_foreign.to_owned(),
        FileFault::Version { version } => (r.say.file_version)(&version.to_string()),
        FileFault::TooLong => (r.say.file_too_long)(FILE_MAX),
        FileFault::Content(fault) => {
            let reason = faults::json_reason(voice.form(), &fault.reason);
            (r.say.file_content)(fault.at, &reason)
        }
        FileFault::Line(place, fault) => {
            let reason = faults::json_reason(voice.form(), &fault.reason);
            let said = (r.say.file_content)(fault.at, &reason);
            format!("{}: {said}", line_text(voice, place))
        }
    };
    format!("{message} {}", r.file_kept)
}

/// Which line of a file, in words.
pub fn line_text(voice: Voice, place: &Place) -> String {
    let r = voice.record();
    let name = match place.name.trim() {
        "" => r.lines_unnamed,
        name => name,
    };
    (r.say.lines_line)(place.line, name)
}

/// The tables of a record as comma-separated values (RFC 4180), each under its caption.
pub fn csv(paper: &Paper) -> String {
    let mut out = String::new();
    let mut line = |cells: &[String]| {
        for (i, cell) in cells.iter().enumerate() {
            if i > 0 {
                out.push(',');
            }
            out.push('"');
            if csv::may_be_formula(cell) {
                out.push('\'');
            }
            out.push_str(&cell.replace('"', "\"\""));
            out.push('"');
        }
        out.push_str("\r\n");
    };
    line(core::slice::from_ref(&paper.title));
    for block in paper.blocks() {
        match block.kind {
            BlockKind::Table if block.style != "write" => {
                line(&[]);
                if !block.title.is_empty() {
                    line(core::slice::from_ref(&block.title));
                }
                line(&block.head);
                for row in &block.rows {
                    line(row);
                }
            }
            BlockKind::Heading if block.style == "running" => {}
            BlockKind::Text if !block.title.is_empty() => {
                line(&[]);
                line(core::slice::from_ref(&block.title));
            }
            BlockKind::Heading | BlockKind::Answer | BlockKind::Alert => {
                for text in block.head.iter().chain(&block.lines) {
                    line(&[block.title.clone(), text.clone()]);
                }
            }
            _ => {}
        }
    }
    line(&[]);
    line(core::slice::from_ref(&paper.foot));
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::record::book::tests::entry;
    use crate::page::record::paper::{Block, Sheet};
    use crate::say::format::{Lang, Units};
    use footroom_core::demo::demo;

    fn shared() -> Shared {
        Shared {
            model: 1,
            fingerprint: "0123456789abcdef".into(),
            footroom_m: 0.4173,
            required_m: 5.7827,
            case: demo(),
        }
    }

    #[test]
    fn a_case_comes_back_as_it_was() {
        let text = case_text(&shared());
        assert!(text.starts_with("{\"footroom\":1,\"model\":1,"));
        assert_eq!(read(text.as_bytes()), Ok(Opened::Case(Box::new(shared()))));
        let marked = format!("\u{feff}\n{text}");
        assert!(read(marked.as_bytes()).is_ok());
    }

    /// A file of an older model means by what it leaves out what it meant then.
    #[test]
    fn what_is_left_out_has_the_default_of_its_model() {
        for (model, ratio) in [(5, 0.0), (6, 0.15)] {
            let text = format!(
                r#"{{"footroom":1,"model":{model},"fingerprint":"0","footroom_m":0,"required_m":0,"case":{{"workers":[{{}}]}}}}"#
            );
            let Ok(Opened::Case(shared)) = read(text.as_bytes()) else {
                panic!("{text}");
            };
            assert_eq!(shared.case.tolerances.absorber_force_ratio, ratio);
        }
    }

    #[test]
    fn a_site_book_is_told_apart() {
        let mut book = Book::default();
        book.enter(entry("B4", "2026-03-04"));
        assert_eq!(read(book.text().as_bytes()), Ok(Opened::Site(book)));
    }

    #[test]
    fn every_cut_and_every_changed_byte_is_noticed_or_harmless() {
        let text = case_text(&shared());
        let text = text.trim_end();
        for end in 0..text.len() {
            assert!(read(&text.as_bytes()[..end]).is_err(), "cut at {end}");
        }
        for at in 0..text.len() {
            let mut bytes = text.as_bytes().to_vec();
            bytes[at] = 0xff;
            assert!(read(&bytes).is_err(), "{at}");
        }
    }

    #[test]
    fn refusals_name_their_reason_and_place() {
        let good = case_text(&shared());
        let fault = |text: &str| read(text.as_bytes()).expect_err(text);
        assert_eq!(fault(""), FileFault::Foreign);
        assert_eq!(fault("PK\u{3}\u{4}"), FileFault::Foreign);
        assert_eq!(fault("{}"), FileFault::Foreign);
        assert_eq!(
            fault("{\"footroom\":1,\"footroom_site\":1}"),
            FileFault::Foreign
        );
        let future = good.replacen("\"footroom\":1", "\"footroom\":3", 1);
        assert_eq!(fault(&future), FileFault::Version { version: 3 });
        assert_eq!(
            fault("{\"footroom_site\":9}"),
            FileFault::Version { version: 9 }
        );
        for odd in [
            "\"footroom\":0",
            "\"footroom\":1.5",
            "\"footroom\":\"1\"",
            "\"footroom\":-1",
        ] {
            let text = good.replacen("\"footroom\":1", odd, 1);
            let FileFault::Content(fault) = fault(&text) else {
                panic!("{odd}");
            };
            assert_eq!((fault.at, fault.reason), (13, Reason::Kind), "{odd}");
        }
        let FileFault::Content(unknown) = fault(&good.replacen("\"title\"", "\"titel\"", 1)) else {
            panic!("a title");
        };
        assert_eq!(unknown.reason, Reason::Unknown("titel".into()));
        let deep = format!("{{\"footroom\":{}", "[".repeat(100_000));
        assert!(matches!(
            fault(&deep),
            FileFault::Content(JsonFault {
                reason: Reason::Depth,
                ..
            })
        ));
        assert_eq!(read(&vec![b' '; FILE_MAX + 1]), Err(FileFault::TooLong));
        let padded = good.replacen("{", &format!("{{{}", " ".repeat(CONTENT_MAX)), 1);
        assert_eq!(fault(&padded), FileFault::TooLong);
        for lang in [Lang::En, Lang::Es] {
            let voice = Voice {
                lang,
                units: Units::Metric,
            };
            let text = fault_text(voice, &FileFault::Content(unknown.clone()));
            assert!(
                text.contains("titel") && text.contains(&unknown.at.to_string()),
                "{text}"
            );
        }
    }

    /// The length is looked at first: what is too long costs no more than its first name, however
    /// it goes on.
    #[test]
    fn a_file_too_long_is_refused_before_it_is_read() {
        let names: String = (0..60_000).map(|i| format!("\"{i:x}\":0,")).collect();
        let long = format!("{{{names}\"footroom\":1}}");
        assert!(long.len() > CONTENT_MAX && long.len() < FILE_MAX);
        let (read_long, steps) = crate::wire::steps::counted(|| read(long.as_bytes()));
        assert_eq!(read_long, Err(FileFault::TooLong));
        assert_eq!(steps, 0);
        // A book may be longer, and is then bounded by what it holds.
        let book = format!("{{\"footroom_site\":1,{names}\"log\":[]}}");
        let (fault, steps) = crate::wire::steps::counted(|| read(book.as_bytes()));
        assert!(matches!(
            fault,
            Err(FileFault::Content(JsonFault {
                reason: Reason::TooMuch,
                ..
            }))
        ));
        assert!(steps < 10_000, "{steps}");
    }

    #[test]
    fn a_spreadsheet_gets_text_and_no_formula() {
        let mut paper = Paper {
            kind: "record",
            title: "=1+1".into(),
            sheets: Vec::new(),
            foot: "foot".into(),
        };
        let table = Block::table(
            "a \"b\"",
            &["x", "y"],
            vec![
                vec!["@cmd".into(), "-0.30 m".into()],
                vec!["1,200 lbf".into(), "-x".into()],
            ],
        );
        let running = Block {
            lines: vec!["job".into()],
            ..Block::new(BlockKind::Heading, "head")
        };
        paper.sheets.push(Sheet {
            blocks: vec![running.styled("running"), table],
        });
        assert_eq!(
            csv(&paper),
            "\"'=1+1\"\r\n\r\n\"a \"\"b\"\"\"\r\n\"x\",\"y\"\r\n\"'@cmd\",\"-0.30 m\"\r\n\"1,200 lbf\",\"'-x\"\r\n\r\n\"foot\"\r\n"
        );
    }
}
