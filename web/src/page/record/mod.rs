//! The record: what is printed and filed of a case, and what is kept of the line on the site.
//!
//! [`further`] and [`sheets`] make the sheets of the blocks of [`paper`], [`inputs`] lists all inputs,
//! [`inspection`] and [`rescue`] hold what is asked on the site, [`book`] keeps inspection and daily
//! log, [`lines`] the lines of a site and [`round`] what each has today, [`as_found`] compares the line as it is found with the plan, [`mod@file`] writes and reads
//! files, [`csv`] and [`qr`] are how cells and codes are written, and [`site`] shows all of it to the
//! page.

pub mod as_found;
pub mod book;
pub mod calendar;
pub mod csv;
pub mod drawing;
pub mod file;
pub mod further;
pub mod inputs;
pub mod inspection;
pub mod lines;
pub mod paper;
pub mod qr;
pub mod rescue;
pub mod round;
pub mod sheets;
pub mod site;

/// The shapes for TypeScript and for JSDoc.
pub const TYPESCRIPT: &str = r#"
export interface Paper { kind: string; title: string; sheets: Sheet[]; foot: string; }
export interface Sheet { blocks: Block[]; }
export interface Block {
  kind: "heading" | "text" | "alert" | "answer" | "table" | "drawing" | "lines" | "code" | "link";
  title: string;
  lines: string[];
  head: string[];
  rows: string[][];
  svg: string;
  style: string;
}
export interface InspectionView {
  date: string;
  of_day: string;
  name: string;
  parts: InspectionPart[];
  failed: string;
  tally: string;
}
export interface InspectionPart { name: string; points: InspectionPoint[]; }
export interface InspectionPoint {
  key: string;
  text: string;
  source: string;
  result: "" | "pass" | "fail" | "not_applicable";
  note: string;
}
export interface LogView { table: Table; last: string[]; places: number[]; note: string; }
export interface LinesView { rows: LineRow[]; tally: string; shown: "kept" | "new" | "other"; }
export interface LineRow {
  title: string;
  stop: string;
  sign: string;
  footroom: string;
  strength: string;
  anywhere: string;
  mark: "holds" | "open" | "fails" | "unknown";
  waiting: boolean;
  looking: boolean;
  reading: string;
  open: string;
  shown: boolean;
}
export interface NextLine { place: number; text: string; }
export interface TakenLines { message: string; bad: boolean; }
export interface FoundView {
  table: Table;
  verdict: string;
  alert: string;
  sentence: string;
  remarks: string[];
  reading: string;
  outside: boolean;
  problems: FoundProblem[];
  temperature_unit: string;
  length_unit: string;
  length_keys: "decimal" | "text";
}
export interface FoundProblem { field: string; message: string; }
export interface OpenedFile {
  kind: "case" | "site" | "lines" | "fault";
  site: string;
  lines: string;
  message: string;
}
export interface SavedFile { name: string; type: string; text: string; }
"#;
