//! The office: what is made of the shown case once the drop is on the page, that is checks, set-up
//! figures, searches, charts and the link.
//!
//! It holds no state of its own but the case that it was handed, so that it can stand in a module
//! that is fetched later, or in a worker beside the page.

use footroom_core::assess::{Assessment, assess};
use footroom_core::case::Case;
use footroom_core::solve::Options;

use crate::answer::{Told, fingerprint_text};
use crate::assessed::{self, Asked};
use crate::case_json;
use crate::chart::{self, ChartKind};
use crate::fault_text::Voice;
use crate::format::{Lang, Units};
use crate::link::{self, Shared};
use crate::search::{self, Search};
use crate::set_up::{self, Typed};
use crate::view::{Checks, Found, SetUp, Table};

/// The shown case with all that belongs to it.
#[derive(Debug)]
pub struct Office {
    voice: Voice,
    text: String,
    case: Case,
    assessment: Option<Assessment>,
    /// The case that the last search found.
    found: Option<Case>,
}

impl Office {
    /// Takes a checked case as text, see [`case_json`]; `None` when it is not one.
    pub fn new(text: &str, lang: Lang, units: Units) -> Option<Self> {
        let case = case_json::from_text(text).ok()?;
        Some(Self {
            voice: Voice { lang, units },
            text: text.to_owned(),
            assessment: solved(&case),
            case,
            found: None,
        })
    }

    /// Takes another case, language or units. `None` when the text is not that of a case: the
    /// present one stays then.
    pub fn take(&mut self, text: &str, lang: Lang, units: Units) -> Option<()> {
        if self.text == text {
            self.voice = Voice { lang, units };
        } else {
            *self = Self::new(text, lang, units)?;
        }
        Some(())
    }

    /// Language and units.
    pub fn voice(&self) -> Voice {
        self.voice
    }

    /// The case.
    pub fn case(&self) -> &Case {
        &self.case
    }

    /// The case with its assessment; `None` when there is no result.
    pub fn told(&self) -> Option<Told<'_>> {
        let assessment = self.assessment.as_ref();
        assessment.map(|assessment| Told::of(self.voice, &self.case, assessment))
    }

    /// All limits and strengths; empty when there is no result.
    pub fn checks(&self) -> Checks {
        let Some(told) = self.told() else {
            return Checks::default();
        };
        let checks = told.checks();
        Checks {
            brief: told.checks_brief(&checks),
            rows: told.check_rows(&checks),
            tally: told.checks_tally(&checks),
        }
    }

    /// The set-up figures; `None` when there is no result.
    pub fn set_up(&self, typed: Typed<'_>) -> Option<SetUp> {
        set_up::set_up(self.voice, &self.case, typed)
    }

    /// Searches the worst timing or the worst places; the case is kept for [`Office::found`].
    /// `None` when there is no result.
    pub fn search(&mut self, what: Search) -> Option<Found> {
        let (told, found) = search::search(self.voice, &self.case, what)?;
        self.found = found;
        Some(told)
    }

    /// The case that the last search found.
    pub fn found(&self) -> Option<&Case> {
        self.found.as_ref()
    }

    /// The numbers of a chart as a table.
    pub fn chart_table(&self, kind: ChartKind) -> Table {
        self.told()
            .map(|told| chart::table(&told, kind))
            .unwrap_or_default()
    }

    /// What a chart shows; `None` when there is no result.
    pub fn chart(&self, kind: ChartKind) -> Option<chart::Chart> {
        self.told().and_then(|told| chart::Chart::of(&told, kind))
    }

    /// The link to the case and its result, without `#`; `None` when there is no result.
    pub fn link(&self) -> Option<String> {
        link::encode(&self.shared()?)
    }

    /// The case with its result, as links and files carry it; `None` when there is no result.
    pub fn shared(&self) -> Option<Shared> {
        let assessment = self.assessment.as_ref()?;
        let asked = Asked::of(assessment)?;
        Some(Shared {
            model: assessment.nominal.model_version,
            fingerprint: fingerprint_text(assessed::fingerprint(assessment)),
            footroom_m: assessment.footroom.value,
            required_m: asked.stack.required_m + asked.tolerance_m,
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

/// The office of a desk's case, as the page's scripts make it.
#[cfg(test)]
pub(crate) fn beside(desk: &crate::desk::Desk) -> Office {
    let text = case_json::to_text(desk.case()).expect("a checked case");
    let Voice { lang, units } = desk.voice();
    Office::new(&text, lang, units).expect("the desk's own text")
}
