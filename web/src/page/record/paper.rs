//! What is printed as sheets of blocks: everything in words, in the order in which it is read.
//!
//! A block is laid out by the page alone, so the blocks hold no style but a name for it.

use footroom_core::case::Case;
use footroom_core::field;
use serde::Serialize;

use crate::first::answer::{DASH, Told};
use crate::first::scene::svg::Measure;
use crate::first::view::Table;
use crate::page::Page;
use crate::page::plan::set_up::{self, Typed};
use crate::page::record::book::{Book, Compared, FOUND, Found, LogEntry};
use crate::page::record::inspection::Origin;
use crate::page::record::qr::Code;
use crate::say::faults::Voice;
use crate::say::format;
use crate::say::texts::record::Texts;

/// What a drawing gives up where a sheet says that its answer is of other inputs, px: a line more in the
/// head of the sheet, one more beside the answer.
const STALE_PX: f64 = 70.0;

/// Most lines of an answer that are as large as a number is by itself; more are all smaller.
const LARGE_MAX: usize = 3;

/// What is printed at once.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Paper {
    /// `record`, `tag` or `sign_in`.
    pub kind: &'static str,
    /// Its title.
    pub title: String,
    /// Its sheets; each begins a page.
    pub sheets: Vec<Sheet>,
    /// At the foot of every page.
    pub foot: String,
}

impl Paper {
    /// What stands on all its sheets.
    pub fn blocks(&self) -> impl Iterator<Item = &Block> {
        self.sheets.iter().flat_map(|sheet| &sheet.blocks)
    }
}

/// A sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sheet {
    /// What stands on it.
    pub blocks: Vec<Block>,
}

/// What a block is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BlockKind {
    /// The head of the sheet: title and lines under it.
    Heading,
    /// Paragraphs.
    Text,
    /// What must not be overlooked.
    Alert,
    /// What is large: the number with its word, then what is not met. Then sentences.
    Answer,
    /// A table.
    Table,
    /// A drawing.
    Drawing,
    /// Names of lines to write upon.
    Lines,
    /// The code for a camera.
    Code,
    /// A link to be typed or copied.
    Link,
}

/// A part of a sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Block {
    /// What it is.
    pub kind: BlockKind,
    /// Its heading or caption; may be empty.
    pub title: String,
    /// Its paragraphs.
    pub lines: Vec<String>,
    /// Heads of the columns; of an answer what is large.
    pub head: Vec<String>,
    /// The rows; one of a single cell names the group of those under it.
    pub rows: Vec<Vec<String>>,
    /// The drawing.
    pub svg: String,
    /// How it is laid out: `running`, `left`, `right`, `columns`, `checks`, `stack`, `holds`, `figures`, `write`,
    /// `list`, `names`, `sign`, `questions`, `inspection`, `many`, or nothing.
    pub style: &'static str,
}

impl Block {
    /// A block without content.
    pub fn new(kind: BlockKind, title: &str) -> Self {
        Self {
            kind,
            title: title.to_owned(),
            lines: Vec::new(),
            head: Vec::new(),
            rows: Vec::new(),
            svg: String::new(),
            style: "",
        }
    }

    /// Paragraphs under a heading.
    pub fn text(title: &str, lines: Vec<String>) -> Self {
        Self {
            lines,
            ..Self::new(BlockKind::Text, title)
        }
    }

    /// A table.
    pub fn table(title: &str, head: &[&str], rows: Vec<Vec<String>>) -> Self {
        Self {
            head: head.iter().map(|&text| text.to_owned()).collect(),
            rows,
            ..Self::new(BlockKind::Table, title)
        }
    }

    /// A table that a view shows too.
    pub fn of_table(table: Table) -> Self {
        let lines = if table.note.is_empty() {
            Vec::new()
        } else {
            vec![table.note]
        };
        Self {
            title: table.caption,
            head: table.head,
            rows: table.rows,
            lines,
            ..Self::new(BlockKind::Table, "")
        }
    }

    /// Lines to write upon.
    pub fn to_write(title: &str, lines: &[&str]) -> Self {
        Self {
            lines: lines.iter().map(|&text| text.to_owned()).collect(),
            ..Self::new(BlockKind::Lines, title)
        }
    }

    /// The same with a style.
    pub fn styled(self, style: &'static str) -> Self {
        Self { style, ..self }
    }
}

/// What a sheet is made of.
#[derive(Clone, Copy)]
pub struct Source<'a> {
    /// The assessed case.
    pub told: &'a Told<'a>,
    /// Inspection and log.
    pub book: &'a Book,
    /// The whole link to the case; `None`: there is none.
    pub link: Option<&'a str>,
    /// Measures texts of the drawing.
    pub measure: Measure<'a>,
    /// That the answer is not of what was typed last; `None`: it is. See [`Page::stale_on_paper`].
    pub stale: Option<&'static str>,
}

impl Source<'_> {
    /// The case.
    pub fn case(&self) -> &Case {
        self.told.case
    }

    /// Language and units.
    pub fn voice(&self) -> Voice {
        self.told.voice
    }

    /// The words of the record.
    pub fn texts(&self) -> &'static Texts {
        self.voice().record()
    }

    /// Model version, fingerprint and cautions: at the foot of every page.
    pub fn foot(&self) -> String {
        format!(
            "{} Footroom, {}.",
            self.voice().texts().caution,
            self.told.model()
        )
    }

    /// Name of the sheet, the job, whether it is invented, the model.
    pub fn heading(&self, name: &str) -> Block {
        let case = self.case();
        let mut lines = vec![case.title.clone()];
        if case.invented {
            lines.push(self.voice().texts().invented.to_owned());
        }
        lines.extend(self.stale.map(str::to_owned));
        Block {
            lines,
            ..Block::new(BlockKind::Heading, name)
        }
    }

    /// The same in a line, at the head of a sheet after the first, which may be handed out alone.
    /// `stopped`: the line is not to be used, see [`Source::alert`].
    pub fn running_head(&self, name: &str, stopped: bool) -> Block {
        let mut heading = self.heading(name);
        if stopped {
            heading.lines.push(format!("{}.", self.texts().do_not_use));
        }
        heading.styled("running")
    }

    /// The answer in words and one number, with all that has to stand beside it: what is not met as
    /// large as the number, every warning as large as the sentence. `detail`: with how it comes about.
    pub fn answer(&self, detail: bool) -> Block {
        let answer = self.told.answer();
        let remarks = self.told.remarks();
        let mut large = vec![format!("{} {}", answer.number, answer.word)];
        large.extend(self.stale.map(str::to_owned));
        large.extend(remarks.not_met);
        let first = [&[answer.sentence], remarks.lines.as_slice()]
            .concat()
            .join(" ");
        let lines = if detail {
            let about = format!("{} {}", self.told.reasons(), remarks.tally);
            [&[first], remarks.warnings.as_slice(), &[about]].concat()
        } else {
            // A sheet of one page has no room for a paragraph more.
            let about = self.told.who_falls(false);
            let first = format!("{first} {about} {}", remarks.tally);
            [&[first], remarks.warnings.as_slice()].concat()
        };
        let many = large.len() > LARGE_MAX;
        Block {
            head: large,
            lines,
            ..Block::new(BlockKind::Answer, self.voice().texts().answer_heading)
        }
        .styled(if many { "many" } else { "" })
    }

    /// That the line is not to be used, and why: by the answer, by the checks, by the inspection.
    pub fn alert(&self) -> Option<Block> {
        let mut lines = self.told.remarks().do_not_use;
        lines.extend(failed(self.voice(), self.case(), self.book));
        (!lines.is_empty()).then(|| Block {
            lines,
            ..Block::new(BlockKind::Alert, self.texts().do_not_use)
        })
    }

    /// Heights of a drawing, px: as it is, and where room is needed for that the line is not to be used.
    pub fn drawing_height_px(&self, stopped: bool, [usual, less]: [f64; 2]) -> f64 {
        let height_px = if stopped { less } else { usual };
        self.stale.map_or(height_px, |_| height_px - STALE_PX)
    }

    /// The link as a code, or why there is none; `note`: what it opens.
    pub fn code(&self, note: &str) -> Option<Block> {
        let link = self.link?;
        let r = self.texts();
        let code = Code::of(link);
        let note = if code.is_some() {
            note
        } else {
            r.code_too_long
        };
        Some(Block {
            lines: vec![note.to_owned()],
            svg: code.map_or(String::new(), |code| code.svg(r.code_heading)),
            ..Block::new(BlockKind::Code, r.code_heading)
        })
    }

    /// The link as a text.
    pub fn link_text(&self) -> Option<Block> {
        self.link.map(|link| Block {
            lines: vec![link.to_owned()],
            ..Block::new(BlockKind::Link, "")
        })
    }

    /// The set-up figures as tables.
    pub fn set_up(&self) -> Option<crate::page::plan::view::SetUp> {
        set_up::set_up(self.voice(), self.case(), Typed::default())
    }
}

impl Page {
    /// On what is printed: that its answer is not of what was typed last; `None`: it is.
    pub fn stale_on_paper(&self, voice: Voice) -> Option<&'static str> {
        if self.is_valid() {
            self.is_coming().then(|| voice.office().coming)
        } else {
            Some(voice.record().paper_stale)
        }
    }
}

/// The sentences on what an inspection found wrong; empty: nothing.
pub fn failed(voice: Voice, case: &Case, book: &Book) -> Vec<String> {
    let r = voice.record();
    let Some(inspection) = book.inspection(&case.title) else {
        return Vec::new();
    };
    let mut lines: Vec<String> = inspection
        .failed()
        .map(|looked| {
            let text = r.points.get(looked.point).copied().unwrap_or_default();
            match looked.note.as_str() {
                "" => text.to_owned(),
                note => format!("{text} ({note})"),
            }
        })
        .collect();
    if !lines.is_empty() {
        lines.insert(0, r.do_not_use_why.to_owned());
    }
    lines
}

/// Where a point of the inspection comes from, in words.
pub fn origin(voice: Voice, origin: Origin) -> String {
    match origin {
        Origin::CommonPractice => voice.record().practice_no_source.to_owned(),
        Origin::Clause(clause) => clause.to_owned(),
        Origin::FromMemory(clause) => format!("{clause} ({})", voice.office().source_memory),
    }
}

/// What was found, in a word.
pub fn found_text(r: &Texts, found: Found) -> &'static str {
    let words = [r.result_pass, r.result_fail, r.result_none];
    let place = FOUND.iter().position(|(_, f)| *f == found);
    place.map_or("", |i| words[i])
}

/// A day of the log as a row: day, name, temperature, reading, tension, how it compares, note.
pub fn log_row(voice: Voice, entry: &LogEntry) -> Vec<String> {
    let r = voice.record();
    let shown = |quantity, value: Option<f64>| {
        value.map(|v| format::field_text_with_unit(quantity, voice.units, v))
    };
    let or_dash = |text: Option<String>| text.unwrap_or(DASH.to_owned());
    let mut readings = Vec::new();
    if let (Some(weight), Some(movement)) = (
        entry
            .weight_n
            .map(|n| format::weight(voice.units, n, format::Rounding::Nearest)),
        shown(field::Quantity::Length, entry.movement_m),
    ) {
        readings.push((r.say.log_weight)(&weight, &movement));
    }
    if let (Some(swings), Some(time_s)) = (entry.swings, entry.time_s) {
        readings.push((r.say.log_swings)(swings, &format::time(time_s)));
    }
    let force = |value: Option<f64>| {
        value.map(|n| format::force_rounded(voice.units, n, format::Rounding::Nearest))
    };
    let tension = match (force(entry.tension_n), force(entry.expected_n)) {
        (Some(read), Some(expected)) => (r.say.log_tension)(&read, &expected),
        (Some(read), None) => read,
        _ => DASH.to_owned(),
    };
    vec![
        entry.date.clone(),
        entry.name.clone(),
        or_dash(shown(field::Quantity::Temperature, entry.temperature_k)),
        if readings.is_empty() {
            DASH.to_owned()
        } else {
            readings.join("; ")
        },
        tension,
        compared_text(r, entry).to_owned(),
        entry.note.clone(),
    ]
}

/// How the tension of an entry compares, in words; a remark alone is no reading.
pub fn compared_text(r: &Texts, entry: &LogEntry) -> &'static str {
    match entry.compared {
        Compared::NotTold if !entry.is_read() => r.compared_none,
        Compared::Within => r.compared_within,
        Compared::Vague => r.compared_vague,
        Compared::Below => r.compared_below,
        Compared::Above => r.compared_above,
        Compared::NotTold => r.compared_not_told,
    }
}

/// Heads of the log's columns.
pub fn log_head(r: &Texts) -> [&'static str; 7] {
    [
        r.col_date,
        r.col_name,
        r.col_temperature,
        r.col_reading,
        r.col_tension,
        r.col_compared,
        r.col_note,
    ]
}
