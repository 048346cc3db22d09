//! The planner: what takes many runs, made in a worker beside the page, one piece a call so that
//! whoever drives it can show progress and stop.

use footroom_core::anywhere::Looking;
use footroom_core::case::Case;
use footroom_core::draws::Draws;
use serde::Serialize;

use crate::page::beside::{Answering, used_up_numbers};
use crate::page::compare::solved::Solved;
use crate::page::explain::learn::{self, Lesson};
use crate::page::explain::talk::script;
use crate::page::explain::why::{self, WhyView};
use crate::page::fit::anywhere::{self, Looked};
use crate::page::fit::ask::{self, AnsweredQuestion};
use crate::page::fit::map::{Cells, MapCell};
use crate::page::fit::search::{Running, Search, Searched};
use crate::page::fit::spread;
use crate::page::fit::suggest::{Suggested, Suggesting};
use crate::page::fit::sweep::{self, Across};
use crate::say::faults::Voice;
use crate::say::format::{Lang, Units};
use crate::wire::case_json;

/// What a task in steps gives before it is done.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct GoesOn {
    /// False.
    pub done: bool,
}

/// A case and the voice in which to tell of it.
#[derive(Debug)]
pub struct Planner {
    voice: Voice,
    case: Case,
    /// The map, once a cell of it was asked for.
    cells: Option<Cells>,
    /// The search that is on its way.
    search: Option<Running>,
    /// The search for the worst anywhere that is on its way.
    looking: Option<Looking>,
    /// The draws that are made of it, with their seed.
    draws: Option<(u32, Draws)>,
    /// The whole answer that is on its way.
    answering: Option<Answering>,
    /// The search for suggestions that is on its way.
    suggesting: Option<Suggesting>,
}

impl Planner {
    /// Takes a checked case as text, see [`case_json`]; `None` when it is not one.
    pub fn new(text: &str, lang: Lang, units: Units) -> Option<Self> {
        let case = case_json::from_text(text).ok()?;
        Some(Self {
            voice: Voice { lang, units },
            case,
            cells: None,
            search: None,
            looking: None,
            draws: None,
            answering: None,
            suggesting: None,
        })
    }

    /// A cell of the map, by all runs (`full`) or by two corners; `None` outside the map or for a
    /// case with faults.
    pub fn map_cell(&mut self, column: usize, row: usize, full: bool) -> Option<MapCell> {
        if self.cells.is_none() {
            self.cells = Cells::new(&self.case);
        }
        let cells = self.cells.as_mut()?;
        cells.cell(self.voice, column, row, full)
    }

    /// Makes a step of a search, and begins it with the first; another search on its way is given up.
    /// `None` for a case with faults.
    pub fn search(&mut self, what: Search) -> Option<Searched> {
        if self.search.as_ref().is_none_or(|s| s.what != what) {
            self.search = Running::new(&self.case, what);
        }
        let searched = self.search.as_mut()?.advance(self.voice);
        if searched.done {
            self.search = None;
        }
        Some(searched)
    }

    /// Goes on looking for the worst anywhere on the line, and begins with the first call. `None` for a
    /// case with faults.
    pub fn anywhere(&mut self) -> Option<Looked> {
        if self.looking.is_none() {
            self.looking = Looking::new(&self.case).ok();
        }
        let looked = anywhere::advance(self.looking.as_mut()?);
        if looked.done {
            self.looking = None;
        }
        Some(looked)
    }

    /// The numbers of draws from one on, see [`spread::numbers`]; empty for a case with faults.
    pub fn spread_falls(&mut self, seed: u32, from: u32, count: u32) -> Vec<f64> {
        if self.draws.as_ref().is_none_or(|(of, _)| *of != seed) {
            self.draws = Draws::new(&self.case, seed).ok().map(|draws| (seed, draws));
        }
        let draws = self.draws.as_ref();
        draws.map_or_else(Vec::new, |(_, draws)| spread::numbers(draws, from, count))
    }

    /// Goes on with the whole answer, and begins with the first call: what [`crate::page::Page::take_beside`]
    /// takes, once it is done; empty for a case with faults.
    pub fn answered(&mut self) -> Option<Vec<f64>> {
        if self.answering.is_none() {
            self.answering = Answering::of(&self.case);
        }
        let Some(answering) = &mut self.answering else {
            return Some(Vec::new());
        };
        let numbers = answering.step()?;
        self.answering = None;
        Some(numbers)
    }

    /// What uses an absorber up, as [`crate::page::Page::take_beside`] takes it.
    pub fn used_up(&self, focus: usize) -> Vec<f64> {
        used_up_numbers(script::used_up(&self.case, focus, self.voice.units))
    }

    /// The answer to an inverse question, by its place.
    pub fn answer(&self, place: usize) -> Option<AnsweredQuestion> {
        ask::answer(self.voice, &self.case, place)
    }

    /// Goes on looking for changes that make the case fit, and begins with the first call. `None` for a
    /// case with faults.
    pub fn suggested(&mut self) -> Option<Suggested> {
        if self.suggesting.is_none() {
            self.suggesting = Suggesting::new(&self.case, self.voice.units);
        }
        let suggested = self.suggesting.as_mut()?.advance(self.voice);
        if suggested.done {
            self.suggesting = None;
        }
        Some(suggested)
    }

    /// Why the footroom is not that of one user.
    pub fn why_users(&self) -> Option<WhyView> {
        why::users(self.voice, &self.case)
    }

    /// Why the footroom is not that of another case, given as text.
    pub fn why_kept(&self, kept: &str) -> Option<WhyView> {
        let kept = case_json::from_text(kept).ok()?;
        why::cases(self.voice, &kept, &self.case)
    }

    /// Why the footroom of this layout is not that of another, given as text; with both names.
    pub fn why_layouts(&self, from: &str, from_name: &str, name: &str) -> Option<WhyView> {
        let from = case_json::from_text(from).ok()?;
        why::layouts(self.voice, (&from, from_name), (&self.case, name))
    }

    /// A point of a chart.
    pub fn sweep_point(&self, across: Across, place: usize) -> sweep::Point {
        sweep::point(&self.case, across, place)
    }

    /// The case as a layout of a comparison: the numbers that [`crate::page::compare::shelf::Shelf::take_in`]
    /// takes; empty for a case with faults.
    pub fn layout(&self) -> Vec<f64> {
        Solved::of(&self.case).map_or_else(Vec::new, |solved| solved.numbers())
    }

    /// A question for trainees by its place. It does not depend on the case.
    pub fn lesson(&self, place: usize) -> Option<Lesson> {
        learn::lesson(self.voice, place)
    }
}
