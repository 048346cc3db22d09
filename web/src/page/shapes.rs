//! The shapes of what the views that fit, compare and explain send to the page's scripts.

/// The shapes; a test holds the property names against what is sent.
pub const TYPESCRIPT: &str = r#"
export interface MapHead {
  caption: string;
  corner: string;
  columns: string[];
  rows: string[];
  assumptions: string[];
  order: [number, number][];
}
export interface Searched {
  made: number;
  of: number;
  done: boolean;
  sentence: string;
  case_text: string;
}
export interface Looked { made: number; of: number; done: boolean; numbers: number[]; }
export interface Wanted {
  number: number;
  case_text: string;
  units: string;
  method: string;
  args: number[];
  replaces: number;
}
export interface SpreadView {
  sentences: string[];
  table: Table;
  inputs: Table;
}
export interface MapCell {
  kind: "spare" | "short" | "unknown";
  number: string;
  word: string;
  weak: boolean;
  used_up: boolean;
  present: boolean;
  more: string;
  why: string;
}
export interface AnsweredQuestion {
  question: string;
  answer: string;
  present: string;
  reasons: string[];
  case_text: string;
  load: string;
}
export interface Suggested {
  verdict: string;
  fits: boolean;
  heads: string[];
  changes: Suggestion[];
  note: string;
  ratings: string[];
  made: number;
  of: number;
  progress: string;
  done: boolean;
}
export interface Suggestion {
  change: string;
  here: string;
  anywhere: string;
  strength: string;
  also: string;
  case_text: string;
}
export interface WhyView {
  heading: string;
  steps: WhyStep[];
  zero_percent: number;
  table: Table;
  note: string;
  unknown: string;
  brief: string;
}
export interface WhyStep {
  kind: "end" | "takes" | "gives" | "same";
  label: string;
  amount: string;
  start_percent: number;
  width_percent: number;
  sentence: string;
}
export interface Compared {
  layouts: Drawn[];
  table: Table;
  full: boolean;
  waiting: boolean;
  note: string;
  sent: string;
  looks: string;
}
export interface ShareView {
  address: string;
  code: string;
  note: string;
  file: boolean;
}
export interface Drawn {
  name: string;
  footroom: string;
  strength: string;
  anywhere: string;
  mark: LineMark;
  marks: [LineMark, LineMark, LineMark];
  waiting: boolean;
  looking: boolean;
  words: string;
}
export interface Lesson {
  question: string;
  case_text: string;
  before_m: number;
  reason: string;
  rooms: string;
  numbers: string[];
}
"#;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::view::shapes::agrees;
    use crate::page::planner::Planner;
    use crate::say::faults::Voice;
    use crate::say::format::{Lang, Units};
    use crate::wire::case_json::to_text;
    use footroom_core::demo::demo;

    fn json(value: &impl serde::Serialize) -> serde_json::Value {
        serde_json::to_value(value).expect("plain")
    }

    #[test]
    fn typescript_declares_what_is_sent() {
        let (lang, units) = (Lang::En, Units::Metric);
        let mut case = demo();
        case.motion.duration_s = 1.6;
        case.site.margin_m = 1.2;
        let text = to_text(&case).expect("finite");
        let mut planner = Planner::new(&text, lang, units).expect("a case");
        let head = json(&crate::page::fit::map::head(Voice { lang, units }, &case));
        agrees(TYPESCRIPT, "MapHead", &head);
        agrees(TYPESCRIPT, "MapCell", &json(&planner.map_cell(0, 0, false)));
        agrees(
            TYPESCRIPT,
            "Searched",
            &json(&planner.search(crate::page::fit::search::Search::Places)),
        );
        let answer = footroom_core::assess::assess(&case, Default::default()).expect("no faults");
        let falls = planner.spread_falls(1, 0, 2);
        let spread =
            crate::page::fit::spread::spread(Voice { lang, units }, &case, &answer, 1, &falls);
        agrees(TYPESCRIPT, "SpreadView", &json(&spread));
        agrees(TYPESCRIPT, "AnsweredQuestion", &json(&planner.answer(1)));
        let told = loop {
            let told = planner.suggested().expect("no faults");
            if told.done {
                break told;
            }
        };
        let suggested = json(&told);
        agrees(TYPESCRIPT, "Suggested", &suggested);
        agrees(TYPESCRIPT, "Suggestion", &suggested["changes"][0]);
        let why = json(&planner.why_users());
        agrees(TYPESCRIPT, "WhyView", &why);
        agrees(TYPESCRIPT, "WhyStep", &why["steps"][0]);
        agrees(TYPESCRIPT, "Lesson", &json(&planner.lesson(0)));
        let mut shelf = crate::page::compare::shelf::Shelf::default();
        shelf.add(&case, "one").expect("room");
        let compared = json(&shelf.view(Voice { lang, units }, &case));
        agrees(TYPESCRIPT, "Compared", &compared);
        agrees(TYPESCRIPT, "Drawn", &compared["layouts"][0]);
        let page = crate::page::Page::new(lang, units);
        let given = page.share(crate::page::share::Given::Case, "", "", "");
        agrees(TYPESCRIPT, "ShareView", &json(&given));
    }
}
