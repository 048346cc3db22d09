//! What the form, the checks and the set-up figures show, as plain structures: everything formatted,
//! nothing left to compute.
//!
//! [`TYPESCRIPT`] declares the same shapes for the page's scripts; a test holds them together.

use serde::Serialize;

use crate::first::view::Table;

/// The shapes for TypeScript and for JSDoc.
pub const TYPESCRIPT: &str = r#"
export interface Form { fields: Field[]; problems: Problem[]; }
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
export interface SetUp {
  tables: Table[];
  note: string;
  weight_unit: string;
  length_unit: string;
  weight_usual: string;
  swings_usual: string;
}
"#;

/// The inputs with what is wrong with them.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Form {
    /// The inputs.
    pub fields: Vec<Field>,
    /// The faults of the inputs.
    pub problems: Vec<Problem>,
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
}

impl SetUp {
    /// Without lines of a table that end between a number and its unit.
    pub fn unbroken(mut self) -> Self {
        self.tables = self.tables.into_iter().map(Table::unbroken).collect();
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::view;
    use crate::first::view::shapes::agrees;
    use crate::page::Page;
    use crate::page::plan::set_up::Typed;
    use crate::say::format::{Lang, Units};

    #[test]
    fn typescript_declares_what_is_sent() {
        let mut desk = Page::new(Lang::En, Units::Metric);
        desk.finish_all();
        let link = desk.link().expect("solved");
        desk.open_link(&link).expect("own link");
        desk.set("workers.count", "9", 0.0).expect("path");
        let shown = serde_json::to_value(desk.view()).expect("plain");
        agrees(view::TYPESCRIPT, "View", &shown);
        agrees(view::TYPESCRIPT, "Answer", &shown["answer"]);
        agrees(view::TYPESCRIPT, "StackRow", &shown["stack"][0]);
        desk.finish_all();
        let checks = serde_json::to_value(desk.checks()).expect("plain");
        agrees(TYPESCRIPT, "Checks", &checks);
        agrees(TYPESCRIPT, "Check", &checks["brief"][0]);
        agrees(TYPESCRIPT, "CheckRow", &checks["rows"][0]);
        agrees(TYPESCRIPT, "CheckGroup", &checks["groups"][0]);
        agrees(view::TYPESCRIPT, "Table", &shown["methods"]);
        let form = serde_json::to_value(desk.form()).expect("plain");
        agrees(TYPESCRIPT, "Form", &form);
        agrees(TYPESCRIPT, "Field", &form["fields"][0]);
        agrees(TYPESCRIPT, "Problem", &form["problems"][0]);
        agrees(view::TYPESCRIPT, "SharedNote", &shown["shared"]);
        agrees(view::TYPESCRIPT, "Mark", &shown["marks"][0]);
        let fields = form["fields"].as_array().expect("list");
        let choice = fields
            .iter()
            .find(|f| f["kind"] == "choice")
            .expect("choice");
        agrees(TYPESCRIPT, "Choice", &choice["choices"][0]);
        let readout = serde_json::to_value(desk.readout(0.7)).expect("plain");
        agrees(view::TYPESCRIPT, "Readout", &readout);
        agrees(view::TYPESCRIPT, "Row", &readout["rows"][0]);
        let set_up = serde_json::to_value(desk.set_up(Typed::default())).expect("plain");
        agrees(TYPESCRIPT, "SetUp", &set_up);
    }

    #[test]
    fn typescript_names_every_key_that_is_sent() {
        let mut desk = Page::new(Lang::En, Units::Metric);
        let shown = desk.view();
        desk.finish_all();
        let brief = desk.checks().brief;
        let keys = shown
            .stack
            .iter()
            .map(|r| r.key)
            .chain(brief.iter().map(|c| c.key));
        for key in keys.chain(shown.stack.iter().map(|r| r.pattern)) {
            let key = format!("\"{key}\"");
            let declared = [view::TYPESCRIPT, TYPESCRIPT];
            assert!(declared.iter().any(|shapes| shapes.contains(&key)), "{key}");
        }
    }
}
