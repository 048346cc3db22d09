//! The record that is signed and filed: two sheets, and further ones that the user chooses.
//!
//! The first sheet holds what is signed: answer, drawing, what the answer holds for, names, link.
//! The second holds the checks. Every further sheet can be handed out alone: to those who put the
//! line up, to those who inspect it, to those who rescue.

use crate::page::plan::view::VerdictKind;
use crate::page::record::inspection::{self, POINTS};
use crate::page::record::paper::{
    Block, BlockKind, Paper, Sheet, Source, found_text, log_head, log_row, origin,
};
use crate::page::record::sheets::holds;
use crate::page::record::{drawing, inputs, rescue};
use crate::say::texts::record::Texts;

/// Rows of the daily log on a sheet of it: a month of working days.
const LOG_ROWS: usize = 26;

/// Rows of the daily log that are left for writing by hand, at least.
const BLANK_DAYS: usize = 5;

/// Latest days of the log on the record.
const DAYS_MAX: usize = 20;

/// A sheet that is printed with the record when somebody asks for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Further {
    /// All inputs with their sources.
    Inputs,
    /// The set-up figures.
    SetUp,
    /// The inspection points.
    Inspection,
    /// The daily log.
    Log,
    /// What the rescue plan has to answer.
    Rescue,
}

/// Keys of [`Further`], in the order in which they are printed.
pub const FURTHER: [(&str, Further); 5] = [
    ("inputs", Further::Inputs),
    ("set_up", Further::SetUp),
    ("inspection", Further::Inspection),
    ("log", Further::Log),
    ("rescue", Further::Rescue),
];

impl Further {
    /// The sheets of a list of keys with blanks between them; `None`: there is no such sheet.
    pub fn of_keys(keys: &str) -> Option<Vec<Self>> {
        keys.split_whitespace()
            .map(|key| FURTHER.iter().find(|(k, _)| *k == key).map(|(_, f)| *f))
            .collect()
    }

    fn name(self, r: &Texts) -> &'static str {
        match self {
            Self::Inputs => r.further_inputs,
            Self::SetUp => r.further_set_up,
            Self::Inspection => r.further_inspection,
            Self::Log => r.further_log,
            Self::Rescue => r.further_rescue,
        }
    }

    /// What stands on it; nothing where the case has none of it.
    fn blocks(self, source: &Source<'_>) -> Vec<Block> {
        match self {
            Self::Inputs => inputs::blocks(source.voice(), source.case()),
            Self::SetUp => {
                let Some(set_up) = source.set_up() else {
                    return Vec::new();
                };
                let heading = source.voice().texts().view_setup;
                let mut blocks = vec![Block::text(heading, vec![set_up.note])];
                blocks.extend(set_up.tables.into_iter().map(Block::of_table));
                blocks
            }
            Self::Inspection => vec![inspection(source)],
            Self::Log => vec![log(source)],
            Self::Rescue => rescue::blocks(source.told),
        }
    }
}

/// The record with the further sheets in the order of [`FURTHER`], whatever the order asked for.
pub fn record(source: &Source<'_>, further: &[Further]) -> Paper {
    let title = source.texts().record_title;
    let stopped = source.alert().is_some();
    let mut sheets = vec![
        Sheet {
            blocks: front(source, further),
        },
        Sheet {
            blocks: vec![source.running_head(title, stopped), checks(source)],
        },
    ];
    for (_, kind) in FURTHER.iter().filter(|(_, kind)| further.contains(kind)) {
        let blocks = kind.blocks(source);
        if !blocks.is_empty() {
            let mut sheet = vec![source.running_head(title, stopped)];
            sheet.extend(blocks);
            sheets.push(Sheet { blocks: sheet });
        }
    }
    Paper {
        kind: "record",
        title: title.to_owned(),
        sheets,
        foot: source.foot(),
    }
}

/// The sheet that is signed.
fn front(source: &Source<'_>, further: &[Further]) -> Vec<Block> {
    let r = source.texts();
    let told = source.told;
    let t = source.voice().texts();
    let mut blocks = vec![source.heading(r.record_title)];
    let alert = source.alert();
    let height_px = source.drawing_height_px(alert.is_some(), [315.0, 240.0]);
    blocks.extend(alert);
    blocks.push(source.answer(true));
    blocks.push(Block {
        svg: drawing::lowest(told, source.measure, "record", 640.0, height_px),
        lines: vec![format!("{} {}", r.drawing_note, t.rounding_note)],
        ..Block::new(BlockKind::Drawing, r.drawing_heading)
    });
    let stack = told
        .stack()
        .into_iter()
        .map(|row| vec![row.label, row.value]);
    let of = (t.say.of_worker)(t.stack_heading, &told.worker_label());
    blocks.push(Block::table(&of, &[r.col_length, r.col_value], stack.collect()).styled("stack"));
    // The code fills the place under the stack.
    blocks.extend(source.code(r.code_note));
    blocks.push(
        Block::table(r.holds_heading, &[r.col_input, r.col_value], holds(source)).styled("holds"),
    );
    blocks.extend(source.link_text());
    blocks.push(
        Block::to_write(
            r.sign_heading,
            &[r.sign_planned, r.sign_checked, r.sign_put_up, r.sign_site],
        )
        .styled("sign"),
    );
    blocks.push(Block::text("", vec![printed_with(source, further)]));
    blocks
}

/// A name within a sentence. The library's way for all letters brings their tables; the first letter
/// of a name is one without an accent in both languages.
fn lower(name: &str) -> String {
    name.to_ascii_lowercase()
}

/// Which sheets belong to what is signed, and which were not printed.
fn printed_with(source: &Source<'_>, further: &[Further]) -> String {
    let r = source.texts();
    let mut with = vec![lower(source.voice().texts().view_checks)];
    let mut without = Vec::new();
    for (_, kind) in FURTHER {
        let name = kind.name(r).to_owned();
        if further.contains(&kind) {
            with.push(name);
        } else {
            without.push(name);
        }
    }
    let mut line = (r.say.printed_with)(&with.join(", "));
    if !without.is_empty() {
        line = format!("{line} {}", (r.say.printed_without)(&without.join(", ")));
    }
    line
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
            inspection::part_name(source.voice(), source.case(), point.part),
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
    let blank = LOG_ROWS.saturating_sub(rows.len()).max(BLANK_DAYS);
    rows.extend((0..blank).map(|_| vec![String::new(); head.len()]));
    Block {
        lines: vec![r.log_note.to_owned()],
        ..Block::table(r.log_heading, &head, rows)
    }
    .styled("write")
}
