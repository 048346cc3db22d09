//! What the page shows, as plain structures: everything formatted, nothing left to compute.
//!
//! [`TYPESCRIPT`] declares the same shapes for the page's scripts; a test holds them together.

use serde::Serialize;

use crate::say::format;

/// The shapes for TypeScript and for JSDoc.
pub const TYPESCRIPT: &str = r#"
export type Language = "en" | "es";
export type UnitSystem = "metric" | "us";

export interface View {
  valid: boolean;
  stale_note: string | null;
  whole: boolean;
  coming: boolean;
  language: Language;
  units: UnitSystem;
  can_undo: boolean;
  can_redo: boolean;
  placed_note: string | null;
  title: string;
  blank: boolean;
  invented_note: string | null;
  answer: Answer;
  stack: StackRow[];
  stack_note: string;
  worker_label: string;
  methods: Table;
  cautions: string[];
  model: string;
  shared: SharedNote | null;
  duration_s: number;
  marks: Mark[];
  lowest_time_s: number;
  description: string;
}
export interface Answer {
  number: string;
  word: string;
  kind: "spare" | "short" | "unknown";
  mark: LineMark;
  headline: string;
  lines: AnswerLine[];
  sentence: string;
  detail: string;
  doubts: string[];
}
export type LineMark = "holds" | "open" | "fails" | "unknown";
export interface AnswerLine {
  key: "room" | "strength" | "anywhere";
  heading: string;
  sign: string;
  number: string;
  word: string;
  text: string;
  mark: LineMark;
  show: string | null;
}
export interface StackRow {
  key: "line_deflection" | "lanyard" | "absorber_extension" | "allowance" | "harness_stretch"
    | "dring_to_sole" | "tolerance" | "margin" | "required" | "available" | "footroom";
  label: string;
  value: string;
  length_m: number;
  pattern: "level" | "plain" | "rising" | "falling" | "upright" | "dots" | "filled" | "grid" | "";
  total: boolean;
}
export interface SharedNote { same: boolean; message: string; }
export interface Mark { time_s: number; label: string; }
export interface Table { caption: string; head: string[]; rows: string[][]; note: string; }
export interface Readout { time: string; rows: Row[]; spoken: string; }
export interface Row { label: string; value: string; }
"#;

/// All that the page shows of a case.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct View {
    /// Whether the answer belongs to what the fields hold now.
    pub valid: bool,
    /// What to say beside an answer that does not.
    pub stale_note: Option<String>,
    /// Whether the answer is the whole one; otherwise it is the first, of the crew exactly as given,
    /// and says so.
    pub whole: bool,
    /// Whether the answer to what the fields hold is still made beside the page.
    pub coming: bool,
    /// `en` or `es`.
    pub language: &'static str,
    /// `metric` or `us`.
    pub units: &'static str,
    /// Whether there is a change to take back.
    pub can_undo: bool,
    /// Whether there is a change to make again.
    pub can_redo: bool,
    /// What is said of a crew that the page has put where it stands.
    pub placed_note: Option<String>,
    /// Name of the job and beam.
    pub title: String,
    /// Whether no case is shown, as the link that was opened could not be read.
    pub blank: bool,
    /// Said of invented data.
    pub invented_note: Option<String>,
    /// The answer.
    pub answer: Answer,
    /// The stack under the governing worker.
    pub stack: Vec<StackRow>,
    /// How the shown lengths are rounded.
    pub stack_note: String,
    /// The governing worker.
    pub worker_label: String,
    /// The two methods side by side, with the reason why they differ and how the number comes
    /// about, a paragraph a line.
    pub methods: Table,
    /// The cautions.
    pub cautions: Vec<String>,
    /// Model version and fingerprint.
    pub model: String,
    /// Whether the answer is the one that was shared; `None` when nothing was opened.
    pub shared: Option<SharedNote>,
    /// Length of the motion, s.
    pub duration_s: f64,
    /// Instants of note.
    pub marks: Vec<Mark>,
    /// The governing worker's lowest instant, s.
    pub lowest_time_s: f64,
    /// The scene in words.
    pub description: String,
}

/// The answer in words and one number.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Answer {
    /// The number with its unit, without sign; a dash where none can be given.
    pub number: String,
    /// The word beside it.
    pub word: String,
    /// What it is.
    pub kind: FootroomKind,
    /// The worst mark of the lines.
    pub mark: &'static str,
    /// The worst of the lines, the first of equals, in a line.
    pub headline: String,
    /// Room, strength, anywhere; empty where there is no answer.
    pub lines: Vec<AnswerLine>,
    /// The answer as a sentence.
    pub sentence: String,
    /// Which fall and which side of the tolerances govern, in a line; the whole is in the note of
    /// [`View::methods`].
    pub detail: String,
    /// Why the number may not be relied on, a sentence each.
    pub doubts: Vec<String>,
}

impl Answer {
    /// Without lines that end between a number and its unit.
    pub fn unbroken(mut self) -> Self {
        let lines = self.lines.iter_mut().map(|line| &mut line.text);
        for text in [&mut self.sentence, &mut self.detail]
            .into_iter()
            .chain(&mut self.doubts)
            .chain(lines)
        {
            *text = format::unbroken(text);
        }
        self
    }
}

/// A line of the answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AnswerLine {
    /// `room`, `strength` or `anywhere`.
    pub key: &'static str,
    /// What it is about.
    pub heading: String,
    /// Tells the mark without colour; empty where all holds.
    pub sign: &'static str,
    /// The number with its unit; a dash where none can be given.
    pub number: String,
    /// The word behind it.
    pub word: String,
    /// Under whom, which part, where.
    pub text: String,
    /// `holds`, `open`, `fails` or `unknown`, as [`footroom_core::standing::Mark`].
    pub mark: &'static str,
    /// Name of the command that shows what the line is about; `None`: it is shown.
    pub show: Option<String>,
}

/// What the answer is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FootroomKind {
    /// There is room.
    Spare,
    /// There is not.
    Short,
    /// No number can be given.
    Unknown,
}

/// A row of the stack.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StackRow {
    /// Key of the row.
    pub key: &'static str,
    /// Its name.
    pub label: String,
    /// The length with its unit; a dash where none can be given.
    pub value: String,
    /// The length, m.
    pub length_m: f64,
    /// Pattern of the drawing; empty for rows that are not drawn.
    pub pattern: &'static str,
    /// Whether it is a sum or difference of the rows above.
    pub total: bool,
}

/// Whether the answer is the one that was shared.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SharedNote {
    /// To the last bit.
    pub same: bool,
    /// In words.
    pub message: String,
}

/// An instant of note.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mark {
    /// When, s.
    pub time_s: f64,
    /// What.
    pub label: String,
}

/// A table of texts.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Table {
    /// What it shows.
    pub caption: String,
    /// Heads of the columns.
    pub head: Vec<String>,
    /// Rows, as long as the head.
    pub rows: Vec<Vec<String>>,
    /// A sentence under it; may be empty.
    pub note: String,
}

impl Table {
    /// Without lines that end between a number and its unit.
    pub fn unbroken(mut self) -> Self {
        for text in self.rows.iter_mut().flatten() {
            *text = format::unbroken(text);
        }
        self
    }
}

/// Values at one instant.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Readout {
    /// The instant.
    pub time: String,
    /// The values.
    pub rows: Vec<Row>,
    /// The same as sentences.
    pub spoken: String,
}

/// A label and its value.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Row {
    /// The label.
    pub label: String,
    /// The value with its unit.
    pub value: String,
}

/// Holds a TypeScript interface against what is sent.
#[cfg(test)]
pub(crate) mod shapes {
    use serde_json::Value;

    /// Names of the properties that a TypeScript interface declares.
    fn declared(typescript: &str, interface: &str) -> Vec<String> {
        let start = format!("export interface {interface} {{");
        let (_, rest) = typescript.split_once(&start).expect(interface);
        let (body, _) = rest.split_once('}').expect(interface);
        body.split(';')
            .filter_map(|line| line.split_once(':'))
            .map(|(name, _)| name.trim().to_owned())
            .collect()
    }

    /// Fails unless `typescript` declares for `interface` the very properties of `value`.
    pub(crate) fn agrees(typescript: &str, interface: &str, value: &Value) {
        let Value::Object(object) = value else {
            panic!("{interface}: {value}");
        };
        let mut written: Vec<String> = object.keys().cloned().collect();
        let mut declared = declared(typescript, interface);
        written.sort();
        declared.sort();
        assert_eq!(written, declared, "{interface}");
    }
}
