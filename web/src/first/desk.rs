//! The desk: the case that is shown, and its answer.

use footroom_core::anywhere::Anywhere;
use footroom_core::assess::{Assessing, Assessment};
use footroom_core::case::Case;
use footroom_core::constants::MODEL_VERSION;
use footroom_core::demo::{demo, demo_us};
use footroom_core::ready::Ready;
use footroom_core::size::node_steps;
use footroom_core::solve::{Options, Outcome};

use crate::first::answer::{self, Told, fingerprint_text};
use crate::first::governing::{self, GoverningStack};
use crate::first::readout;
use crate::first::view::{Readout, SharedNote, View};
use crate::say::faults::Voice;
use crate::say::format::{self, Lang, Rounding, Units};
use crate::wire::link::{self, LinkFault, Shared};

/// A case without faults, and what the opened link said of its result, until the case is changed.
#[derive(Clone, Debug, PartialEq)]
pub struct ShownCase {
    /// The case.
    pub case: Case,
    /// The result that its link carried.
    pub shared: Option<SharedResult>,
}

/// The result that a link carried.
#[derive(Clone, Debug, PartialEq)]
pub struct SharedResult {
    model: u32,
    fingerprint: String,
    footroom_m: f64,
}

/// Why a link was refused.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// The link itself.
    Link(LinkFault),
    /// Its case has faults.
    Faulty(Box<Case>),
}

/// Most of [`node_steps`] that are made where the page answers: some 50 ms in a browser on a machine of
/// two cores of 2.4 GHz, at 6 ns each.
const AT_ONCE_MAX: u64 = 8_000_000;

/// Whether the answer to a case would keep the page from answering for longer than a moment: it is made
/// beside it. Told by a count, so that it is the same everywhere.
pub fn is_long(ready: &Ready) -> bool {
    node_steps(ready) > AT_ONCE_MAX
}

/// The shown case with its answer.
#[derive(Debug)]
pub struct Desk {
    voice: Voice,
    shown: ShownCase,
    /// The same as the mechanics takes it; `None`: no case is shown.
    ready: Option<Ready>,
    assessment: Option<Assessment>,
    /// No case is shown: the first link could not be read, and the visitor has none of his own.
    blank: bool,
    /// No case is shown yet: the answer to the opened one takes long, and comes with the whole page.
    coming: bool,
    /// What is still to be made of the answer.
    assessing: Option<Assessing>,
    /// The worst anywhere on the line; `None`: it is still looked for.
    anywhere: Option<Anywhere>,
}

/// The demonstration in round numbers of the units.
pub fn example(units: Units) -> Case {
    match units {
        Units::Metric => demo(),
        Units::Us => demo_us(),
    }
}

/// Reads a link: its case, checked, once as it is shown and once as the mechanics takes it.
///
/// # Errors
/// Why it is refused.
pub fn opened(link: &str) -> Result<(ShownCase, Ready), Refusal> {
    ShownCase::of(link::decode(link).map_err(Refusal::Link)?)
}

impl ShownCase {
    /// A case that came in no link.
    pub fn new(case: Case) -> Self {
        Self { case, shared: None }
    }

    /// What a link or a file brought.
    ///
    /// # Errors
    /// The case has faults.
    pub fn of(shared: Shared) -> Result<(Self, Ready), Refusal> {
        let Ok(ready) = shared.case.ready() else {
            return Err(Refusal::Faulty(Box::new(shared.case)));
        };
        let case = Self {
            shared: Some(SharedResult {
                model: shared.model,
                fingerprint: shared.fingerprint,
                footroom_m: shared.footroom_m,
            }),
            case: shared.case,
        };
        Ok((case, ready))
    }
}

impl Desk {
    /// Starts with the demonstration, solved.
    pub fn new(lang: Lang, units: Units) -> Self {
        let mut desk = Self::empty(lang, units);
        desk.demo();
        desk
    }

    /// Starts with no case: behind it stands the demonstration, not solved.
    pub fn empty(lang: Lang, units: Units) -> Self {
        Self {
            voice: Voice { lang, units },
            shown: ShownCase::new(example(units)),
            ready: None,
            assessment: None,
            blank: true,
            coming: false,
            assessing: None,
            anywhere: None,
        }
    }

    /// Language and units.
    pub fn voice(&self) -> Voice {
        self.voice
    }

    /// The case that the answer belongs to.
    pub fn case(&self) -> &Case {
        &self.shown.case
    }

    /// The same with what its link said of it.
    pub fn shown(&self) -> &ShownCase {
        &self.shown
    }

    /// The same as the mechanics takes it; `None`: no case is shown.
    pub fn ready(&self) -> Option<&Ready> {
        self.ready.as_ref()
    }

    /// Whether no case is shown.
    pub fn is_blank(&self) -> bool {
        self.blank
    }

    /// The answer to the shown case: the whole one, or the first, see [`Desk::step`].
    pub fn assessment(&self) -> Option<&Assessment> {
        self.assessment.as_ref()
    }

    /// The fall that is played: the one with the inputs as given.
    pub fn outcome(&self) -> Option<&Outcome> {
        self.assessment.as_ref().map(|a| &a.nominal)
    }

    /// The answer as a stack.
    pub fn governing(&self) -> Option<GoverningStack> {
        self.assessment.as_ref().and_then(GoverningStack::of)
    }

    /// Shows another case, solved. `ready`: the same as the mechanics takes it.
    pub fn show(&mut self, shown: ShownCase, ready: Ready) {
        self.shown = shown;
        self.blank = false;
        self.coming = false;
        self.anywhere = None;
        let options = Options {
            traces: true,
            ..Options::default()
        };
        self.assessing = Some(Assessing::of(ready.clone(), options));
        self.ready = Some(ready);
        self.take_answer();
    }

    /// Shows another case with its whole answer, which was made elsewhere.
    pub fn show_answered(&mut self, shown: ShownCase, ready: Ready, answer: Assessment) {
        self.shown = shown;
        self.blank = false;
        self.coming = false;
        self.anywhere = None;
        self.assessing = None;
        self.ready = Some(ready);
        self.assessment = Some(answer);
    }

    /// Shows the demonstration: where no case is shown, the one that stands behind.
    pub fn demo(&mut self) {
        let shown = match self.blank {
            true => self.shown.clone(),
            false => ShownCase::new(example(self.voice.units)),
        };
        if let Ok(ready) = shown.case.ready() {
            self.show(shown, ready);
        }
    }

    /// Shows what a link carries, solved; nothing yet where that takes long. When it is refused no case
    /// is shown: the example's numbers under it would be taken for its own.
    ///
    /// # Errors
    /// Why it was refused.
    pub fn open_link(&mut self, link: &str) -> Result<(), Refusal> {
        match opened(link) {
            Ok((shown, ready)) => {
                if is_long(&ready) {
                    self.clear();
                    self.coming = true;
                } else {
                    self.show(shown, ready);
                }
                Ok(())
            }
            Err(refusal) => {
                self.clear();
                Err(refusal)
            }
        }
    }

    /// Shows no case.
    pub fn clear(&mut self) {
        self.ready = None;
        self.assessment = None;
        self.assessing = None;
        self.anywhere = None;
        self.blank = true;
        self.coming = false;
    }

    /// What another link says of the result of the same case.
    pub fn set_shared(&mut self, shared: Option<SharedResult>) {
        self.shown.shared = shared;
    }

    /// Takes the answer by the runs made so far.
    fn take_answer(&mut self) {
        let found = self.assessing.as_ref().map(Assessing::assessment);
        if found.as_ref().is_none_or(|found| found.whole) {
            self.assessing = None;
        }
        self.assessment = found;
    }

    /// Whether the answer is the whole one. After a change it is that of the crew exactly as given.
    pub fn is_whole(&self) -> bool {
        self.assessing.is_none()
    }

    /// Makes the next two runs of the whole answer, some milliseconds; false: it is whole.
    pub fn step(&mut self) -> bool {
        let Some(assessing) = &mut self.assessing else {
            return false;
        };
        if assessing.step() {
            return true;
        }
        self.take_answer();
        false
    }

    /// Makes all that is left of the whole answer.
    pub fn finish(&mut self) {
        while self.step() {}
    }

    /// Changes the language; no value moves.
    pub fn set_language(&mut self, lang: Lang) {
        self.voice.lang = lang;
    }

    /// Changes the units; no value moves.
    pub fn set_units(&mut self, units: Units) {
        self.voice.units = units;
    }

    /// The case with its answer, in the page's voice; `None`: there is no answer.
    pub fn told(&self) -> Option<Told<'_>> {
        self.assessment
            .as_ref()
            .map(|assessment| Told::of(self.voice, &self.shown.case, assessment))
            .map(|told| told.with_anywhere(self.anywhere.as_ref()))
    }

    /// The worst anywhere on the line; `None`: it is still looked for.
    pub fn anywhere(&self) -> Option<&Anywhere> {
        self.anywhere.as_ref()
    }

    /// Takes what was found for the shown case.
    pub fn set_anywhere(&mut self, found: Anywhere) {
        self.anywhere = Some(found);
    }

    /// Everything that the page shows.
    pub fn view(&self) -> View {
        let t = self.voice.texts();
        let told = self.told();
        let told = told.as_ref();
        // What is folded at first, and the drawing in words, are much to carry: they come with the whole.
        let further = told.filter(|_| cfg!(feature = "office"));
        let case = Some(&self.shown.case).filter(|_| !self.blank);
        let invented = case.is_some_and(|c| c.invented);
        let traces = self.outcome().and_then(|o| o.traces.as_ref());
        View {
            valid: true,
            whole: self.is_whole(),
            coming: self.coming,
            stale_note: None,
            language: self.voice.lang.key(),
            units: self.voice.units.key(),
            can_undo: false,
            can_redo: false,
            placed_note: None,
            title: case.map(|c| c.title.clone()).unwrap_or_default(),
            blank: self.blank,
            invented_note: invented.then(|| t.invented.to_owned()),
            answer: match told {
                Some(told) => told.answer(),
                None if self.blank => answer::link_unread(self.voice),
                None => answer::not_computed(self.voice),
            }
            .unbroken(),
            stack: told.map(Told::stack).unwrap_or_default(),
            stack_note: t.rounding_note.to_owned(),
            worker_label: told.map(Told::worker_label).unwrap_or_default(),
            methods: further.map(Told::methods).unwrap_or_default(),
            cautions: vec![t.caution.to_owned()],
            model: told
                .filter(|_| self.is_whole())
                .map_or_else(|| (t.say.model)(MODEL_VERSION, answer::DASH), Told::model),
            shared: self.shared_note(),
            duration_s: traces.map_or(0.0, |traces| {
                traces.interval_s * traces.frames.saturating_sub(1) as f64
            }),
            marks: told.map(Told::marks).unwrap_or_default(),
            lowest_time_s: told.map_or(0.0, Told::lowest_time_s),
            description: further.map(Told::description).unwrap_or_default(),
        }
    }

    fn shared_note(&self) -> Option<SharedNote> {
        let was = self.shown.shared.as_ref()?;
        let assessment = self.assessment.as_ref().filter(|found| found.whole)?;
        let t = self.voice.texts();
        let footroom_m = assessment.footroom.value;
        let same = was.fingerprint == fingerprint_text(governing::fingerprint(assessment))
            && was.footroom_m.to_bits() == footroom_m.to_bits();
        let length = |m| format::length_rounded(self.voice.units, m, Rounding::Down);
        let (then, now) = (length(was.footroom_m), length(footroom_m));
        Some(SharedNote {
            same,
            message: if same {
                t.shared_same.to_owned()
            } else if was.model == assessment.nominal.model_version {
                (t.say.shared_differs)(&then, &now)
            } else {
                (t.say.shared_changed)(&then, &now)
            },
        })
    }

    /// Values at an instant, s.
    pub fn readout(&self, time_s: f64) -> Readout {
        match self.told() {
            Some(told) => readout::readout(&told, time_s),
            None => Readout {
                time: format::time(0.0),
                rows: Vec::new(),
                spoken: String::new(),
            },
        }
    }
}
