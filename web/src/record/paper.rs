//! The record as a sheet of blocks: everything in words, in the order in which it is read.
//!
//! A block is laid out by the page alone, so the blocks hold no style but a name for it.

use footroom_core::case::Case;
use footroom_core::field::{self, Basis};
use serde::Serialize;

use crate::answer::{DASH, Told};
use crate::fault_text::Voice;
use crate::fields;
use crate::format;
use crate::qr::Code;
use crate::record::book::{Book, Compared, Entry, FOUND, Found};
use crate::record::inspection::{self, Origin, POINTS};
use crate::record::{drawing, rescue};
use crate::scene::svg::Measure;
use crate::set_up::{self, Typed};
use crate::texts::record::Texts;
use crate::view::{Field, FieldKind, Table, VerdictKind};

/// Rows of the daily log that are left for writing by hand.
const BLANK_DAYS: usize = 5;

/// Latest days of the log on the record.
const DAYS_MAX: usize = 20;

/// A sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Paper {
    /// `record`, `tag` or `sign_in`.
    pub kind: &'static str,
    /// Its title.
    pub title: String,
    /// What stands on it.
    pub blocks: Vec<Block>,
    /// At the foot of every page.
    pub foot: String,
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
    /// The number with its word, then sentences.
    Answer,
    /// A table.
    Table,
    /// A drawing.
    Drawing,
    /// Names of lines to write upon.
    Lines,
    /// The code with its text.
    Code,
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
    /// Heads of the columns.
    pub head: Vec<String>,
    /// The rows; one of a single cell names the group of those under it.
    pub rows: Vec<Vec<String>>,
    /// The drawing.
    pub svg: String,
    /// How it is laid out: `inputs`, `checks`, `stack`, `beside`, `write`, `list`, `names`, `sign`, `questions`,
    /// `inspection`, or nothing.
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
        Block {
            lines,
            ..Block::new(BlockKind::Heading, name)
        }
    }

    /// The answer in words and one number.
    pub fn answer(&self) -> Block {
        let answer = self.told.answer();
        let mut lines = vec![
            format!("{} {}", answer.number, answer.word),
            answer.sentence,
        ];
        if !answer.detail.is_empty() {
            lines.push(answer.detail);
        }
        lines.extend(answer.doubts);
        Block {
            lines,
            ..Block::new(BlockKind::Answer, self.voice().texts().answer_heading)
        }
    }

    /// What the inspection found wrong, so that nobody overlooks it.
    pub fn alert(&self) -> Option<Block> {
        let failed = failed(self.voice(), self.case(), self.book);
        (!failed.is_empty()).then(|| Block {
            lines: failed,
            ..Block::new(BlockKind::Alert, self.texts().do_not_use)
        })
    }

    /// The link with its code, or why there is no code.
    pub fn code(&self) -> Option<Block> {
        let link = self.link?;
        let r = self.texts();
        let code = Code::of(link);
        let note = if code.is_some() {
            r.code_note
        } else {
            r.code_too_long
        };
        Some(Block {
            lines: vec![note.to_owned(), link.to_owned()],
            svg: code.map_or(String::new(), |code| code.svg(r.code_heading)),
            ..Block::new(BlockKind::Code, r.code_heading)
        })
    }

    /// The set-up figures as tables.
    pub fn set_up(&self) -> Option<crate::view::SetUp> {
        set_up::set_up(self.voice(), self.case(), Typed::default())
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

/// The whole record.
pub fn record(source: &Source<'_>) -> Paper {
    let r = source.texts();
    let told = source.told;
    let voice = source.voice();
    let t = voice.texts();
    let mut blocks = vec![source.heading(r.record_title)];
    blocks.extend(source.alert());
    blocks.push(source.answer());
    blocks.push(Block {
        svg: drawing::lowest(told, source.measure, "record", 760.0, 400.0),
        lines: vec![r.drawing_note.to_owned()],
        ..Block::new(BlockKind::Drawing, r.drawing_heading)
    });
    let stack = told
        .stack()
        .into_iter()
        .map(|row| vec![row.label, row.value]);
    let of = (t.say.of_worker)(t.stack_heading, &told.worker_label());
    blocks.push(
        Block {
            lines: vec![t.rounding_note.to_owned()],
            ..Block::table(&of, &[r.col_length, r.col_value], stack.collect())
        }
        .styled("stack"),
    );
    blocks.push(checks(source));
    if let Some(set_up) = source.set_up() {
        blocks.push(Block::text(t.view_setup, vec![set_up.note]));
        blocks.extend(set_up.tables.into_iter().map(Block::of_table));
    }
    blocks.extend(inputs(voice, source.case()));
    blocks.push(inspection(source));
    blocks.push(log(source));
    blocks.extend(rescue::blocks(told));
    blocks.push(
        Block::to_write(
            r.sign_heading,
            &[r.sign_planned, r.sign_checked, r.sign_put_up, r.sign_site],
        )
        .styled("sign"),
    );
    blocks.extend(source.code());
    Paper {
        kind: "record",
        title: r.record_title.to_owned(),
        blocks,
        foot: source.foot(),
    }
}

fn checks(source: &Source<'_>) -> Block {
    let o = source.voice().office();
    let told = source.told;
    let checks = told.checks();
    let rows = told.check_rows(&checks).into_iter().map(|row| {
        let verdict = match row.verdict_kind {
            // In black and white the verdict that matters is told by its sign too.
            VerdictKind::DoesNotMeet => format!("✗ {}", row.verdict),
            _ => row.verdict,
        };
        vec![
            row.label,
            row.demand,
            row.capacity,
            row.ratio,
            row.required,
            verdict,
            row.source,
        ]
    });
    Block {
        lines: vec![told.checks_tally(&checks), o.checks_note.to_owned()],
        ..Block::table(
            source.voice().texts().view_checks,
            &[
                o.col_what,
                o.col_demand,
                o.col_capacity,
                o.col_ratio,
                o.col_required,
                o.col_verdict,
                o.col_source,
            ],
            rows.collect(),
        )
    }
    .styled("checks")
}

/// An input with its value, its unit, and where it comes from.
struct Input {
    path: String,
    group: String,
    label: String,
    value: String,
    origin: String,
}

fn listed(voice: Voice, case: &Case) -> Vec<Input> {
    let r = voice.record();
    let all = fields::fields(voice, case, &[]);
    let kept = all
        .into_iter()
        .filter(|f| !f.path.starts_with("workers.all.") && f.path != "title");
    kept.map(|f| Input {
        value: value_text(&f),
        origin: origin_text(r, &f),
        path: f.path,
        group: f.group_label,
        label: f.label,
    })
    .collect()
}

/// The value as it is read on paper: with its unit, choices by their names.
fn value_text(field: &Field) -> String {
    if let Some(choices) = &field.choices {
        let chosen = choices.iter().find(|c| c.value == field.value);
        return chosen.map_or(DASH.to_owned(), |c| c.label.clone());
    }
    match (field.value.as_str(), field.unit) {
        ("", _) => DASH.to_owned(),
        // Feet and inches are in the value itself.
        (value, "" | "ft-in") => value.to_owned(),
        (value, unit) => format!("{value} {unit}"),
    }
}

/// Whether it is the default, and by whose word the default stands.
fn origin_text(r: &Texts, listed: &Field) -> String {
    if listed.kind != FieldKind::Number {
        return r.origin_entered.to_owned();
    }
    let name: String = strip_places(&listed.path);
    let Some(field) = field::find(&name) else {
        return r.origin_entered.to_owned();
    };
    let by = match field.basis {
        Basis::Site => return r.origin_site.to_owned(),
        Basis::CommonPractice => r.origin_practice,
        Basis::Catalogue => r.origin_catalogue,
        Basis::Published => r.origin_published,
        Basis::Maker => r.origin_maker,
        Basis::Method => r.origin_method,
    };
    let shown = value_text(listed);
    if shown == DASH {
        r.origin_not_given.to_owned()
    } else if shown.replace(',', "") == listed.default_value.replace(',', "") {
        // Only the default groups its thousands.
        (r.say.origin_default)(by)
    } else {
        r.origin_entered.to_owned()
    }
}

/// A path without the places of its lists: `workers[2].mass_kg` is `workers.mass_kg`; both end
/// posts have one description.
fn strip_places(path: &str) -> String {
    let mut name = String::new();
    let mut inside = false;
    for c in path.chars() {
        match c {
            '[' => inside = true,
            ']' => inside = false,
            _ if inside => {}
            _ => name.push(c),
        }
    }
    name
}

/// Columns of a list of things that are alike: for each input of one of them its value in all.
fn matrix(r: &Texts, inputs: &[&Input], list: &str) -> Option<Block> {
    let own: Vec<&&Input> = inputs.iter().filter(|i| i.path.starts_with(list)).collect();
    let mut names: Vec<&str> = Vec::new();
    let mut groups: Vec<&str> = Vec::new();
    for input in &own {
        let rest = input.path.split_once("].").map_or("", |(_, rest)| rest);
        if !names.contains(&rest) {
            names.push(rest);
        }
        if !groups.contains(&input.group.as_str()) {
            groups.push(&input.group);
        }
    }
    let rows = names.iter().map(|name| {
        let of = |group: &str| {
            own.iter().find(|i| {
                i.group == group
                    && i.path
                        .split_once("].")
                        .is_some_and(|(_, rest)| rest == *name)
            })
        };
        let first = groups.iter().find_map(|group| of(group));
        let mut row = vec![first.map_or(String::new(), |i| i.label.clone())];
        row.extend(
            groups
                .iter()
                .map(|group| of(group).map_or(DASH.to_owned(), |i| i.value.clone())),
        );
        // One word for all where it is the same for all.
        let mut origins: Vec<&str> = groups
            .iter()
            .filter_map(|g| of(g))
            .map(|i| i.origin.as_str())
            .collect();
        origins.dedup();
        row.push(origins.join("; "));
        row
    });
    let mut head = vec![r.col_input];
    head.extend(&groups);
    head.push(r.col_origin);
    (!groups.is_empty()).then(|| Block::table("", &head, rows.collect()))
}

/// All inputs: those of the line and site under the names of their groups, those of workers and
/// things below in columns.
fn inputs(voice: Voice, case: &Case) -> Vec<Block> {
    const LISTS: [&str; 3] = ["workers[", "site.below[", "own_limits["];
    let r = voice.record();
    let all = listed(voice, case);
    let (lists, single): (Vec<&Input>, Vec<&Input>) = all
        .iter()
        .partition(|input| LISTS.iter().any(|list| input.path.starts_with(list)));
    let mut rows = Vec::new();
    let mut group = "";
    for input in single {
        if input.group != group {
            group = &input.group;
            rows.push(vec![group.to_owned()]);
        }
        rows.push(vec![
            input.label.clone(),
            input.value.clone(),
            input.origin.clone(),
        ]);
    }
    let head = [r.col_input, r.col_value, r.col_origin];
    let mut blocks = vec![
        Block {
            lines: vec![r.inputs_note.to_owned()],
            ..Block::table(voice.texts().inputs_heading, &head, rows)
        }
        .styled("inputs"),
    ];
    for list in LISTS {
        blocks.extend(matrix(r, &lists, list));
    }
    blocks
}

/// Where a point of the inspection comes from, in words.
pub fn origin(voice: Voice, origin: Origin) -> String {
    match origin {
        Origin::CommonPractice => voice.record().practice_no_source.to_owned(),
        Origin::Clause(clause) => clause.to_owned(),
        Origin::FromMemory(clause) => format!("{clause} ({})", voice.office().source_memory),
    }
}

fn inspection(source: &Source<'_>) -> Block {
    let r = source.texts();
    let known = source.book.inspection(&source.case().title);
    let rows = inspection::of(source.case()).into_iter().map(|place| {
        let point = POINTS[place];
        let looked = known.and_then(|i| i.at(place));
        let result = match looked.and_then(|l| l.found) {
            Some(found) => found_text(r, found).to_owned(),
            None => r.to_tick.to_owned(),
        };
        vec![
            r.parts[point.part as usize].to_owned(),
            r.points[place].to_owned(),
            origin(source.voice(), point.origin),
            result,
            looked.map_or(String::new(), |l| l.note.clone()),
        ]
    });
    let or_blank = |text: &str| {
        if text.is_empty() {
            "____________".to_owned()
        } else {
            text.to_owned()
        }
    };
    let (date, name) = known.map_or(("", ""), |i| (i.date.as_str(), i.name.as_str()));
    Block {
        lines: vec![
            (r.say.inspected)(&or_blank(date), &or_blank(name)),
            r.inspection_note.to_owned(),
        ],
        ..Block::table(
            r.inspection_heading,
            &[
                r.col_part,
                r.col_point,
                r.col_source,
                r.col_result,
                r.col_note,
            ],
            rows.collect(),
        )
    }
    .styled("inspection")
}

/// What was found, in a word.
pub fn found_text(r: &Texts, found: Found) -> &'static str {
    let words = [r.result_pass, r.result_fail, r.result_none];
    let place = FOUND.iter().position(|(_, f)| *f == found);
    place.map_or("", |i| words[i])
}

/// A day of the log as a row: day, name, temperature, reading, tension, how it compares, note.
pub fn log_row(voice: Voice, entry: &Entry) -> Vec<String> {
    let r = voice.record();
    let shown = |quantity, value: Option<f64>| {
        value.map(|v| format::field_text_with_unit(quantity, voice.units, v))
    };
    let or_dash = |text: Option<String>| text.unwrap_or(DASH.to_owned());
    let mut readings = Vec::new();
    if let (Some(weight), Some(movement)) = (
        shown(field::Quantity::Force, entry.weight_n),
        shown(field::Quantity::Length, entry.movement_m),
    ) {
        readings.push((r.say.log_weight)(&weight, &movement));
    }
    if let (Some(swings), Some(time_s)) = (entry.swings, entry.time_s) {
        readings.push((r.say.log_swings)(
            swings,
            &format::time(voice.lang, time_s),
        ));
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
        compared_text(r, entry.compared).to_owned(),
        entry.note.clone(),
    ]
}

/// How a tension compares, in words.
pub fn compared_text(r: &Texts, compared: Compared) -> &'static str {
    match compared {
        Compared::Within => r.compared_within,
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

fn log(source: &Source<'_>) -> Block {
    let r = source.texts();
    let places = source.book.places(&source.case().title);
    let latest = places.len().saturating_sub(DAYS_MAX);
    let mut rows: Vec<Vec<String>> = places
        .into_iter()
        .skip(latest)
        .map(|place| log_row(source.voice(), &source.book.log[place]))
        .collect();
    let head = log_head(r);
    rows.extend((0..BLANK_DAYS).map(|_| vec![String::new(); head.len()]));
    Block {
        lines: vec![r.log_note.to_owned()],
        ..Block::table(r.log_heading, &head, rows)
    }
    .styled("write")
}
