//! The map of users against intermediate posts, as the cells of a table.
//!
//! Cell by cell: first the soft and stiff corners of the tolerances only, for a picture; then every
//! run of the answer, and the cell says the very number that the page says once it is loaded. The
//! corners' runs are kept in between.

use footroom_core::case::Case;
use footroom_core::constants::SPANS_MAX;
use footroom_core::fault::Fault;
use footroom_core::fit::map::{Map, MapSpec, Rows};
use footroom_core::fit::{Effort, Finding, Trial, find};
use serde::Serialize;

use crate::first::answer::DASH;
use crate::order::sort;
use crate::page::fit::stop;
use crate::page::plan::fields;
use crate::say::faults::{self, Voice};
use crate::say::format::{self, Rounding};

/// Intermediate posts in the last row of a map, as long as the case has not more.
const POSTS_MOST: usize = 7;

/// What stands around the cells.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MapHead {
    /// What it shows.
    pub caption: String,
    /// Head of the column of row heads.
    pub corner: String,
    /// Heads of the columns.
    pub columns: Vec<String>,
    /// Heads of the rows, with the length of each span.
    pub rows: Vec<String>,
    /// What was assumed, a line each.
    pub assumptions: Vec<String>,
    /// Column and row of every cell in the order in which they are wanted.
    pub order: Vec<[usize; 2]>,
}

/// What a cell is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CellKind {
    /// There is room.
    Spare,
    /// There is not.
    Short,
    /// No number can be given.
    Unknown,
}

/// A cell of the map.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MapCell {
    /// What it is.
    pub kind: CellKind,
    /// The footroom without sign; a dash where none can be given.
    pub number: String,
    /// The word beside it.
    pub word: String,
    /// A part falls short of the required ratio.
    pub weak: bool,
    /// An absorber is used up.
    pub used_up: bool,
    /// It has the users and posts of the present case.
    pub present: bool,
    /// Said after number and word: users and posts, what is too weak or used up.
    pub more: String,
    /// Of the cell of the present case, all runs made: why it does not say what the answer to that case
    /// says; empty: it says the same.
    pub why: String,
}

fn spec(case: &Case) -> MapSpec {
    let posts = case.line.spans_m.len().saturating_sub(1);
    MapSpec {
        rows: Rows::Posts {
            least: 0,
            most: posts.clamp(POSTS_MOST, SPANS_MAX - 1),
        },
        ..MapSpec::default()
    }
}

/// The empty map; `None` for a case with faults.
pub fn head(voice: Voice, case: &Case) -> Option<MapHead> {
    let map = Map::new(case, spec(case)).ok()?;
    let d = voice.decide();
    let length_m = case.line.length_m();
    let row = |posts: usize| {
        let span_m = length_m / (posts + 1) as f64;
        // A length does not break in its narrow column.
        let span = format::length(voice.units, span_m).replace(' ', "\u{a0}");
        (d.say.map_row)(posts, &span)
    };
    Some(MapHead {
        caption: (d.say.map_caption)(&case.title, &format::length(voice.units, length_m)),
        corner: d.map_corner.to_owned(),
        columns: (1..=map.columns()).map(|n| (d.say.users)(n)).collect(),
        rows: (0..map.rows()).map(row).collect(),
        assumptions: assumptions(voice, case),
        order: order(&map),
    })
}

/// The present case first, then its row, then the rows next to it and so on.
fn order(map: &Map) -> Vec<[usize; 2]> {
    let (column, row) = map.present().unwrap_or_default();
    let mut cells: Vec<[usize; 2]> = (0..map.rows())
        .flat_map(|r| (0..map.columns()).map(move |c| [c, r]))
        .collect();
    let turn = |&[c, r]: &[usize; 2]| (r.abs_diff(row), r, c.abs_diff(column), c);
    sort(&mut cells, |a, b| turn(a) < turn(b));
    cells
}

/// The inputs that matter first, as label and value, but for those that the map changes.
fn assumptions(voice: Voice, case: &Case) -> Vec<String> {
    let changed = ["line.spans_m", "workers.count"];
    fields::fields(voice, case, &[], &[])
        .iter()
        .filter(|f| f.primary || f.path.starts_with("site.below["))
        .filter(|f| !changed.contains(&f.path.as_str()) && !f.path.ends_with("position_m"))
        .map(|f| {
            let value = match &f.choices {
                Some(choices) => choices
                    .iter()
                    .find(|c| c.value == f.value)
                    .map_or(f.value.clone(), |c| c.label.clone()),
                None if f.unit.is_empty() || f.unit == "ft-in" => f.value.clone(),
                None => format!("{} {}", format::grouped(&f.value), f.unit),
            };
            let label = if f.path.contains('[') {
                format!("{}, {}", f.group_label, f.label)
            } else {
                f.label.clone()
            };
            (voice.form().say.problem)(&label, &value)
        })
        .collect()
}

/// The cells of a map with the runs made so far.
#[derive(Debug)]
pub struct Cells {
    given: Case,
    map: Map,
    made: Vec<Option<Made>>,
}

/// A cell's case, and its runs or what is wrong with it.
#[derive(Debug)]
struct Made {
    case: Case,
    trial: Result<Trial, Vec<Fault>>,
}

impl Cells {
    /// None computed yet; `None` for a case with faults.
    pub fn new(case: &Case) -> Option<Self> {
        let map = Map::new(case, spec(case)).ok()?;
        let made = (0..map.rows() * map.columns()).map(|_| None).collect();
        Some(Self {
            given: case.clone(),
            map,
            made,
        })
    }

    /// A cell, by all runs (`full`) or by the corners at least; `None` outside the map.
    pub fn cell(&mut self, voice: Voice, column: usize, row: usize, full: bool) -> Option<MapCell> {
        if column >= self.map.columns() {
            return None;
        }
        let made = self.made.get_mut(row * self.map.columns() + column)?;
        if made.is_none() {
            let case = self.map.case_of(column, row)?;
            *made = Some(Made {
                trial: Trial::corners(&case),
                case,
            });
        }
        let made = made.as_mut()?;
        if full && let Ok(trial) = &mut made.trial {
            trial.complete();
        }
        let found = made.trial.as_ref().map(Trial::finding);
        let present = self.map.present() == Some((column, row));
        let mut cell = told(voice, &made.case, found, present);
        if present && full && made.case != self.given {
            cell.why = why(voice, &self.given, &made.case, &cell);
        }
        Some(cell)
    }
}

/// Why the cell of the given case, with its crew at the worst place, does not say what the answer to
/// the given case says; empty: it does.
fn why(voice: Voice, given: &Case, placed: &Case, cell: &MapCell) -> String {
    let found = find(given, Effort::Full);
    let answer = told(voice, given, found.as_ref().map(|f| *f), true);
    let said = |c: &MapCell| (c.number.clone(), c.word.clone(), c.weak, c.used_up);
    if said(&answer) == said(cell) {
        return String::new();
    }
    let places = |case: &Case| {
        let at = case.workers.iter().map(|w| w.position_m);
        let at = at.map(|m| format::length_rounded(voice.units, m, Rounding::Nearest));
        at.collect::<Vec<_>>().join(", ")
    };
    (voice.decide().say.map_why)(
        &places(placed),
        &in_words(voice, cell),
        &places(given),
        &in_words(voice, &answer),
    )
}

/// Number, word and marks of a cell.
fn in_words(voice: Voice, cell: &MapCell) -> String {
    let d = voice.decide();
    let mut words = match cell.kind {
        CellKind::Unknown => cell.word.clone(),
        _ => format!("{} {}", cell.number, cell.word),
    };
    for (is, mark) in [(cell.weak, d.mark_weak), (cell.used_up, d.mark_used_up)] {
        if is {
            words = format!("{words}, {mark}");
        }
    }
    words
}

/// The case of a cell; `None` outside the map or for a case with faults.
pub fn cell_case(case: &Case, column: usize, row: usize) -> Option<Case> {
    let map = Map::new(case, spec(case)).ok()?;
    map.case_of(column, row).filter(|c| c.faults().is_empty())
}

fn told(voice: Voice, case: &Case, found: Result<Finding, &Vec<Fault>>, present: bool) -> MapCell {
    let t = voice.texts();
    let d = voice.decide();
    let mut more = vec![(d.say.map_cell)(
        case.workers.len(),
        case.line.spans_m.len().saturating_sub(1),
    )];
    let mut made = MapCell {
        kind: CellKind::Unknown,
        number: DASH.to_owned(),
        word: t.word_unknown.to_owned(),
        weak: false,
        used_up: false,
        present,
        more: String::new(),
        why: String::new(),
    };
    if let Ok(found) = &found {
        made.weak = found.standing.parts_failing > 0;
        made.used_up = found.absorber_used_up || found.inline_absorber_used_up;
        match found.footroom() {
            Err(why) => more.push(stop::unknown(voice, why).to_owned()),
            Ok(footroom_m) => {
                let steps = format::length_steps(voice.units, footroom_m, Rounding::Down);
                let short = steps < 0;
                made.number = format::unbroken(&format::length_of_steps(voice.units, steps.abs()));
                made.word = if short { t.word_short } else { t.word_spare }.to_owned();
                made.kind = if short {
                    CellKind::Short
                } else {
                    CellKind::Spare
                };
            }
        }
        if found.standing.parts_failing > 0 {
            more.extend(stop::weakest(voice, found));
        }
        if found.absorber_used_up {
            more.push(d.stop_absorber.to_owned());
        }
        if found.inline_absorber_used_up {
            more.push(d.stop_inline.to_owned());
        }
    }
    let fault = found.err().and_then(|faults| faults.first());
    more.extend(fault.map(|fault| faults::case_fault(voice, case, fault)));
    if present {
        more.push(d.map_present.to_owned());
    }
    made.more = more.join("; ");
    made
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::view::FootroomKind;
    use crate::page::Page;
    use crate::say::format::{Lang, Units};
    use footroom_core::demo::demo;

    const VOICE: Voice = Voice {
        lang: Lang::En,
        units: Units::Metric,
    };

    fn row(voice: Voice, case: &Case, row: usize, full: bool) -> Vec<MapCell> {
        let mut cells = Cells::new(case).expect("a map");
        (0..6)
            .map(|column| cells.cell(voice, column, row, full).expect("a cell"))
            .collect()
    }

    #[test]
    fn the_head_has_a_name_for_every_column_and_row() {
        for lang in [Lang::En, Lang::Es] {
            for units in [Units::Metric, Units::Us] {
                let head = head(Voice { lang, units }, &demo()).expect("a map");
                assert_eq!((head.columns.len(), head.rows.len()), (6, 8));
                assert!(head.assumptions.len() > 6, "{:?}", head.assumptions);
                let mut names = [head.columns.as_slice(), head.rows.as_slice()].concat();
                names.sort();
                names.dedup();
                assert_eq!(names.len(), 14);
            }
        }
        let mut faulty = demo();
        faulty.workers.clear();
        assert_eq!(head(VOICE, &faulty), None);
        assert!(Cells::new(&faulty).is_none());
        let mut many = demo();
        many.line.spans_m = vec![1.5; 12];
        assert_eq!(head(VOICE, &many).expect("a map").rows.len(), 12);
    }

    #[test]
    fn cells_come_once_each_and_the_present_one_first() {
        let order = head(VOICE, &demo()).expect("a map").order;
        assert_eq!(order[..3], [[2, 1], [1, 1], [3, 1]]);
        assert!(order[..6].iter().all(|&[_, row]| row == 1));
        let mut sorted = order.clone();
        sorted.sort();
        sorted.dedup();
        assert_eq!((sorted.len(), order.len()), (48, 48));
        assert!(sorted.iter().all(|&[column, row]| column < 6 && row < 8));
        let mut uneven = demo();
        uneven.line.spans_m = vec![8.0, 10.0];
        assert_eq!(head(VOICE, &uneven).expect("a map").order[0], [0, 0]);
        let mut cells = Cells::new(&demo()).expect("a map");
        assert_eq!(cells.cell(VOICE, 6, 0, false), None);
        assert_eq!(cells.cell(VOICE, 0, 8, false), None);
    }

    /// Whether its corners were asked for before or not.
    #[test]
    fn a_full_cell_is_the_same_after_its_corners() {
        let mut cells = Cells::new(&demo()).expect("a map");
        for column in [0, 3, 5] {
            cells.cell(VOICE, column, 2, false);
            let after = cells.cell(VOICE, column, 2, true);
            let mut fresh = Cells::new(&demo()).expect("a map");
            assert_eq!(after, fresh.cell(VOICE, column, 2, true));
        }
    }

    /// A cell says what the page says once it is loaded.
    #[test]
    fn a_full_cell_is_the_answer_of_its_case() {
        for (lang, units) in [(Lang::En, Units::Metric), (Lang::Es, Units::Us)] {
            let voice = Voice { lang, units };
            for r in [0, 1, 3] {
                for (column, cell) in row(voice, &demo(), r, true).iter().enumerate() {
                    let case = cell_case(&demo(), column, r).expect("a case");
                    let mut desk = Page::new(lang, units);
                    let text = crate::wire::case_json::to_text(&case).expect("finite");
                    desk.open_case(&text).expect("a case without faults");
                    let answer = desk.whole_view().answer;
                    match cell.kind {
                        CellKind::Unknown => assert_eq!(cell.number, DASH),
                        kind => {
                            assert_eq!(format::unbroken(&answer.number), cell.number);
                            assert_eq!(answer.kind == FootroomKind::Short, kind == CellKind::Short);
                        }
                    }
                }
            }
        }
    }

    /// The cell of the present case and the answer of the page: the same, or with a word on why not.
    #[test]
    fn the_present_cell_and_the_answer_never_differ_without_a_word() {
        let mut state = 5_u64;
        let mut any = |low: f64, high: f64| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            low + (high - low) * (state >> 11) as f64 / (1_u64 << 53) as f64
        };
        let (mut alike, mut unlike) = (0, 0);
        for i in 0..40 {
            let voice = Voice::ALL[i % Voice::ALL.len()];
            let mut case = demo();
            case.motion.duration_s = 1.6;
            let spans = any(1.0, 4.0) as usize;
            case.line.spans_m = vec![18.0 / spans as f64; spans];
            case.line.pretension_n = any(2.0e3, 8.0e3);
            case.site.margin_m = any(0.5, 2.0);
            case.workers.truncate(any(1.0, 4.0) as usize);
            for worker in &mut case.workers {
                worker.position_m = any(0.5, 17.5);
                worker.mass_kg = any(70.0, 120.0);
            }
            if i % 4 == 0 {
                case = footroom_core::fit::layout::at_worst_place(&case);
            }
            let mut cells = Cells::new(&case).expect("a map");
            let (column, row) = cells.map.present().expect("its spans are alike");
            let cell = cells.cell(voice, column, row, true).expect("a cell");
            let mut desk = Page::new(voice.lang, voice.units);
            let text = crate::wire::case_json::to_text(&case).expect("finite");
            desk.open_case(&text).expect("a case without faults");
            let answer = desk.whole_view().answer;
            let number = format::unbroken(&answer.number);
            let short = answer.kind == FootroomKind::Short;
            let weak = find(&case, Effort::Full)
                .expect("no faults")
                .standing
                .parts_failing
                > 0;
            let same = number == cell.number
                && short == (cell.kind == CellKind::Short)
                && weak == cell.weak;
            if cell.why.is_empty() {
                assert!(same, "{cell:?} {answer:?}");
                alike += 1;
            } else {
                assert!(cell.why.contains(&number) || number == DASH, "{}", cell.why);
                assert!(cell.why.contains(&cell.number) || cell.number == DASH);
                unlike += 1;
            }
            // Where the map puts it, its word goes.
            let mut placed = Cells::new(&cell_case(&case, column, row).expect("a case"));
            let placed = placed.as_mut().expect("a map");
            let again = placed.cell(voice, column, row, true).expect("a cell");
            assert_eq!((again.why.as_str(), &again.number), ("", &cell.number));
        }
        assert!(alike > 4 && unlike > 10, "{alike} {unlike}");
    }

    #[test]
    fn marks_are_said_in_words_too() {
        let cells: Vec<MapCell> = (0..3).flat_map(|r| row(VOICE, &demo(), r, false)).collect();
        assert_eq!(cells.len(), 18);
        assert_eq!(cells.iter().filter(|c| c.present).count(), 1);
        assert!(cells[8].present && cells[8].more.contains("current case"));
        assert!(cells.iter().any(|c| c.weak) && cells.iter().any(|c| c.used_up));
        for cell in &cells {
            assert_eq!(cell.weak, cell.more.contains("times"), "{}", cell.more);
            let said = cell.more.contains("fully deployed");
            assert_eq!(cell.used_up, said, "{}", cell.more);
        }
    }

    #[test]
    fn a_line_that_would_break_gets_no_number() {
        let mut case = demo();
        case.line.rope.breaking_force_n = Some(9.0e3);
        let cells = row(VOICE, &case, 1, false);
        assert_eq!(cells[5].kind, CellKind::Unknown);
        assert!(cells[5].more.contains("breaking"), "{}", cells[5].more);
    }
}
