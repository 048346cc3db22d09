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
  language: Language;
  units: UnitSystem;
  can_undo: boolean;
  can_redo: boolean;
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
export interface Form { fields: Field[]; problems: Problem[]; }
export interface Answer {
  number: string;
  word: string;
  kind: "spare" | "short" | "unknown";
  sentence: string;
  detail: string;
  doubts: string[];
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
export interface Check {
  key: "arrest_force" | "line_tension" | "rope_ratio" | "free_fall" | "deceleration_distance"
    | "not_met";
  label: string;
  value: string;
  verdict: "within" | "over" | "not_evaluated" | "none";
  verdict_text: string;
  source: string;
}
export interface Checks { brief: Check[]; rows: CheckRow[]; groups: CheckGroup[]; tally: string; }
export interface CheckGroup { kind: CheckRow["verdict_kind"]; heading: string; names: string; }
export interface CheckRow {
  key: string;
  label: string;
  demand: string;
  capacity: string;
  ratio: string;
  required: string;
  verdict: string;
  verdict_kind: "meets" | "does_not_meet" | "not_evaluated" | "information";
  source: string;
  field: string;
}
export interface Field {
  path: string;
  kind: "number" | "text" | "choice";
  group: string;
  group_label: string;
  label: string;
  unit: string;
  value: string;
  hint: string;
  range: string;
  default_value: string;
  basis: string;
  fault: string | null;
  choices: Choice[] | null;
  primary: boolean;
}
export interface Choice { value: string; label: string; }
export interface Problem { path: string; message: string; }
export interface SharedNote { same: boolean; message: string; }
export interface Mark { time_s: number; label: string; }
export interface Table { caption: string; head: string[]; rows: string[][]; note: string; }
export interface Readout { time: string; rows: Row[]; spoken: string; }
export interface Row { label: string; value: string; }
export interface SetUp {
  tables: Table[];
  note: string;
  weight_unit: string;
  length_unit: string;
  weight_usual: string;
  swings_usual: string;
  by_weight: Reading | null;
  by_swings: Reading | null;
}
export interface Reading { sentence: string; bad: boolean; }
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
    /// `en` or `es`.
    pub language: &'static str,
    /// `metric` or `us`.
    pub units: &'static str,
    /// Whether there is a change to take back.
    pub can_undo: bool,
    /// Whether there is a change to make again.
    pub can_redo: bool,
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
    /// The two methods side by side, with the reason why they differ.
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

/// The inputs with what is wrong with them.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Form {
    /// The inputs.
    pub fields: Vec<Field>,
    /// The faults of the inputs.
    pub problems: Vec<Problem>,
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
    /// The answer as a sentence.
    pub sentence: String,
    /// Group, method, and why the methods differ.
    pub detail: String,
    /// Why the number may not be relied on, a sentence each.
    pub doubts: Vec<String>,
}

impl Answer {
    /// Without lines that end between a number and its unit.
    pub fn unbroken(mut self) -> Self {
        for text in [&mut self.sentence, &mut self.detail]
            .into_iter()
            .chain(&mut self.doubts)
        {
            *text = format::unbroken(text);
        }
        self
    }
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

/// A limit or strength.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Check {
    /// Key of the row.
    pub key: &'static str,
    /// Its name.
    pub label: String,
    /// Demand and limit.
    pub value: String,
    /// How they compare.
    pub verdict: Verdict,
    /// The same in words; empty where there is no limit.
    pub verdict_text: String,
    /// Clause of the limit; empty where there is none.
    pub source: String,
}

/// All limits and strengths.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Checks {
    /// Those that matter most, in brief.
    pub brief: Vec<Check>,
    /// A row for each.
    pub rows: Vec<CheckRow>,
    /// The verdicts that there are, in the order in which their rows are shown.
    pub groups: Vec<CheckGroup>,
    /// How many of them are not met or not evaluated.
    pub tally: String,
}

/// The rows with one verdict.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CheckGroup {
    /// The verdict.
    pub kind: VerdictKind,
    /// The verdict in words, and how many rows have it.
    pub heading: String,
    /// What the rows are about, in brief, where they are folded; else empty.
    pub names: String,
}

/// A limit or a part in the table of all of them.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CheckRow {
    /// Key of the check, as in the core.
    pub key: &'static str,
    /// What is checked, and of whom.
    pub label: String,
    /// What the fall asks, with its unit; a dash where it is not known.
    pub demand: String,
    /// Limit or strength, with its unit; a dash where it is not known.
    pub capacity: String,
    /// How many times the demand fits; a dash where it is not known.
    pub ratio: String,
    /// The least ratio.
    pub required: String,
    /// The verdict in words.
    pub verdict: String,
    /// The verdict.
    pub verdict_kind: VerdictKind,
    /// Where limit or ratio stands; empty where the user has not said.
    pub source: String,
    /// Path of the input that is missing; empty: none.
    pub field: &'static str,
}

/// The verdict of a check.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum VerdictKind {
    /// The comparison holds.
    Meets,
    /// It does not.
    DoesNotMeet,
    /// It could not be made.
    NotEvaluated,
    /// It is an alternative, or beside the point here.
    Information,
}

/// How a demand compares with its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Not above it.
    Within,
    /// Above it.
    Over,
    /// The strength has not been entered.
    NotEvaluated,
    /// There is no limit here.
    None,
}

/// An input.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Field {
    /// Path for setting it.
    pub path: String,
    /// How it is entered.
    pub kind: FieldKind,
    /// Key of its group: `job`, `line`, `crew`, `worker1`, `site`, `below1`, `posts`, `strengths`,
    /// `tolerances`, `allowance`, `temperature`, `motion`, and for the checks `sets` and `own1`.
    pub group: String,
    /// Name of its group.
    pub group_label: String,
    /// Its name.
    pub label: String,
    /// Its unit; empty where there is none.
    pub unit: &'static str,
    /// What it shows: what was typed while that is faulty, else the stored value.
    pub value: String,
    /// What it does.
    pub hint: String,
    /// Allowed range with units; empty where there is none.
    pub range: String,
    /// Default with its unit; empty where none can be given.
    pub default_value: String,
    /// Where the default comes from; empty where there is none.
    pub basis: String,
    /// What is wrong with it.
    pub fault: Option<String>,
    /// The choices, when it is one.
    pub choices: Option<Vec<Choice>>,
    /// Whether it is among the dozen that matter first.
    pub primary: bool,
}

/// How an input is entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FieldKind {
    /// A number with units.
    Number,
    /// Words.
    Text,
    /// One of several.
    Choice,
}

/// One of several.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// What to set.
    pub value: &'static str,
    /// What to show.
    pub label: String,
}

/// A fault in the list of all of them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Problem {
    /// Path of a field that shows it.
    pub path: String,
    /// Field and message.
    pub message: String,
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

/// The set-up figures and what the readings say.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SetUp {
    /// Figures, tension against temperature, tiebacks.
    pub tables: Vec<Table>,
    /// What the figures are subordinate to.
    pub note: String,
    /// Unit of the weight.
    pub weight_unit: &'static str,
    /// Unit of the movement.
    pub length_unit: &'static str,
    /// The weight of the figures, without its unit.
    pub weight_usual: String,
    /// The number of swings of the figures.
    pub swings_usual: String,
    /// What the movement under the weight says; `None`: nothing was typed.
    pub by_weight: Option<Reading>,
    /// What the time of the swings says; `None`: nothing was typed.
    pub by_swings: Option<Reading>,
}

/// What a reading on the line says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reading {
    /// In words.
    pub sentence: String,
    /// It cannot be used, and the words say why.
    pub bad: bool,
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

#[cfg(test)]
mod tests {
    use super::shapes::agrees;
    use super::*;
    use crate::first::desk::Desk;
    use crate::page::office::Office;
    use crate::page::plan::set_up::Typed;
    use crate::say::format::{Lang, Units};

    #[test]
    fn typescript_declares_what_is_sent() {
        let mut desk = Desk::new(Lang::En, Units::Metric);
        let link = Office::of(&mut desk).link().expect("solved");
        desk.open_link(&link).expect("own link");
        desk.set("workers.count", "9", 0.0).expect("path");
        let view = serde_json::to_value(desk.view()).expect("plain");
        agrees(TYPESCRIPT, "View", &view);
        agrees(TYPESCRIPT, "Answer", &view["answer"]);
        agrees(TYPESCRIPT, "StackRow", &view["stack"][0]);
        let office = Office::of(&mut desk);
        let checks = serde_json::to_value(office.checks()).expect("plain");
        agrees(TYPESCRIPT, "Checks", &checks);
        agrees(TYPESCRIPT, "Check", &checks["brief"][0]);
        agrees(TYPESCRIPT, "CheckRow", &checks["rows"][0]);
        agrees(TYPESCRIPT, "CheckGroup", &checks["groups"][0]);
        agrees(TYPESCRIPT, "Table", &view["methods"]);
        let form = serde_json::to_value(desk.form()).expect("plain");
        agrees(TYPESCRIPT, "Form", &form);
        agrees(TYPESCRIPT, "Field", &form["fields"][0]);
        agrees(TYPESCRIPT, "Problem", &form["problems"][0]);
        agrees(TYPESCRIPT, "SharedNote", &view["shared"]);
        agrees(TYPESCRIPT, "Mark", &view["marks"][0]);
        let fields = form["fields"].as_array().expect("list");
        let choice = fields
            .iter()
            .find(|f| f["kind"] == "choice")
            .expect("choice");
        agrees(TYPESCRIPT, "Choice", &choice["choices"][0]);
        let readout = serde_json::to_value(desk.readout(0.7)).expect("plain");
        agrees(TYPESCRIPT, "Readout", &readout);
        agrees(TYPESCRIPT, "Row", &readout["rows"][0]);
        let typed = Typed {
            movement: "6 cm",
            ..Typed::default()
        };
        let set_up = serde_json::to_value(office.set_up(typed)).expect("plain");
        agrees(TYPESCRIPT, "SetUp", &set_up);
        agrees(TYPESCRIPT, "Reading", &set_up["by_weight"]);
    }

    #[test]
    fn typescript_names_every_key_that_is_sent() {
        let mut desk = Desk::new(Lang::En, Units::Metric);
        let view = desk.view();
        let brief = Office::of(&mut desk).checks().brief;
        let keys = view
            .stack
            .iter()
            .map(|r| r.key)
            .chain(brief.iter().map(|c| c.key));
        for key in keys.chain(view.stack.iter().map(|r| r.pattern)) {
            assert!(TYPESCRIPT.contains(&format!("\"{key}\"")), "{key}");
        }
    }
}
