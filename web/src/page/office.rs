//! The office: what is made of the shown case once the drop is on the page, that is checks, set-up
//! figures, charts and the link.
//!
//! It follows the desk, or stands in a worker beside the page with a case that it was handed.

use std::cell::OnceCell;
use std::rc::Rc;

use footroom_core::assess::{Assessment, assess};
use footroom_core::case::Case;
use footroom_core::envelope::{Envelope, envelope};
use footroom_core::solve::Options;

use crate::first::answer::{Told, fingerprint_text};
use crate::first::desk::Desk;
use crate::first::governing::{self, GoverningStack};
use crate::first::view::{Checks, SetUp, Table};
use crate::page::explain::talk::Talk;
use crate::page::plan::chart::{self, ChartKind};
use crate::page::plan::set_up::{self, Typed};
use crate::say::faults::Voice;
use crate::say::format::{Lang, Units};
use crate::wire::case_json;
use crate::wire::link::{self, Shared};

/// The shown case with all that belongs to it.
#[derive(Debug)]
pub struct Office {
    voice: Voice,
    case: Case,
    assessment: Option<Rc<Assessment>>,
    /// Solved when a chart first asks for it: it takes as long as the answer.
    envelope: OnceCell<Option<Envelope>>,
    /// The talk about the case.
    talk: Talk,
}

impl Office {
    /// The office of a desk: with its case and its whole result.
    pub fn of(desk: &mut Desk) -> Self {
        desk.finish();
        Self {
            voice: desk.voice(),
            case: desk.case().clone(),
            assessment: desk.assessment(),
            envelope: OnceCell::new(),
            talk: Talk::default(),
        }
    }

    /// Solves a checked case given as text, see [`case_json`]; `None` when it is not one. For a
    /// worker beside the page, which has no desk.
    pub fn new(text: &str, lang: Lang, units: Units) -> Option<Self> {
        let case = case_json::from_text(text).ok()?;
        Some(Self {
            voice: Voice { lang, units },
            assessment: solved(&case).map(Rc::new),
            envelope: OnceCell::new(),
            case,
            talk: Talk::default(),
        })
    }

    /// Takes over what the desk holds now, its answer whole.
    pub fn follow(&mut self, desk: &mut Desk) {
        // Under a refused link the desk has the example's case, and no result.
        let solved = self.assessment.is_some() == desk.assessment().is_some();
        if solved && self.case == *desk.case() {
            self.voice = desk.voice();
        } else {
            let talk = core::mem::take(&mut self.talk);
            *self = Self::of(desk);
            self.talk = talk;
        }
        self.talk.forget();
    }

    /// The case.
    pub fn case(&self) -> &Case {
        &self.case
    }

    /// Language and units.
    pub fn voice(&self) -> Voice {
        self.voice
    }

    /// Its assessment; `None`: there is no result.
    pub fn assessment(&self) -> Option<&Assessment> {
        self.assessment.as_deref()
    }

    /// The talk, and the case that it is about.
    pub fn talk(&mut self) -> (&mut Talk, crate::page::explain::talk::Subject<'_>) {
        (
            &mut self.talk,
            crate::page::explain::talk::Subject {
                voice: self.voice,
                case: &self.case,
                assessment: self.assessment.as_deref(),
            },
        )
    }

    /// The case with its answer, in the page's voice; `None`: there is no result.
    pub fn told(&self) -> Option<Told<'_>> {
        let assessment = self.assessment.as_deref();
        assessment.map(|assessment| Told::of(self.voice, &self.case, assessment))
    }

    /// All limits and strengths; empty when there is no result.
    pub fn checks(&self) -> Checks {
        let Some(told) = self.told() else {
            return Checks::default();
        };
        let checks = told.checks();
        let rows = told.check_rows(&checks);
        Checks {
            brief: told.checks_brief(&checks),
            groups: told.check_groups(&rows),
            rows,
            tally: told.checks_tally(&checks),
        }
    }

    /// The set-up figures; `None` when there is no result.
    pub fn set_up(&self, typed: Typed<'_>) -> Option<SetUp> {
        set_up::set_up(self.voice, &self.case, typed)
    }

    /// The numbers of a chart as a table.
    pub fn chart_table(&self, kind: ChartKind) -> Table {
        self.told()
            .map(|told| chart::table(&told, self.envelope(), kind))
            .unwrap_or_default()
    }

    /// What a chart shows; `None` when there is no result.
    pub fn chart(&self, kind: ChartKind) -> Option<chart::Chart> {
        let told = self.told()?;
        chart::Chart::of(&told, self.envelope(), kind)
    }

    /// Between which values the forces lie over all runs of the answer.
    fn envelope(&self) -> Option<&Envelope> {
        let solved = || envelope(&self.case).ok();
        self.envelope.get_or_init(solved).as_ref()
    }

    /// The link to the case and its result, without `#`; `None` when there is no result.
    pub fn link(&self) -> Option<String> {
        let link = link::encode(&self.shared()?)?;
        Some(match self.talk.plan().encode() {
            Some(talk) => format!("{link}.{talk}"),
            None => link,
        })
    }

    /// The case with its result, as links and files carry it; `None` when there is no result.
    pub fn shared(&self) -> Option<Shared> {
        let assessment = self.assessment.as_deref()?;
        let governing = GoverningStack::of(assessment)?;
        Some(Shared {
            model: assessment.nominal.model_version,
            fingerprint: fingerprint_text(governing::fingerprint(assessment)),
            footroom_m: assessment.footroom.value,
            required_m: governing.stack.required_m + governing.tolerance_m,
            case: self.case.clone(),
        })
    }
}

fn solved(case: &Case) -> Option<Assessment> {
    let options = Options {
        traces: true,
        ..Options::default()
    };
    assess(case, options).ok()
}
