//! What comes once the drop is shown, a folder a view, and the one object that owns it all: the
//! desk with the shown case, what the fields hold, the talk, the shelf of layouts, the readings.
//!
//! Nothing is copied from one part to another: each view is made of the same case and the same
//! answer, and only of a whole answer, see [`Page::finish`].

pub mod beside;
pub mod carried;
pub mod compare;
pub mod explain;
pub mod fit;
pub mod kept;
pub mod plan;
pub mod planner;
pub mod record;
pub mod shapes;
pub mod share;

use std::cell::OnceCell;

use footroom_core::anywhere::Anywhere;
use footroom_core::assess::Assessment;
use footroom_core::case::Case;
use footroom_core::envelope::{Envelope, envelope_of};
use footroom_core::ready::Ready;
use footroom_core::solve::Outcome;

use self::beside::{Answered, Beside, Came};
use self::compare::shelf::{AddFault, Compared, Shelf, set_fault};
use self::explain::guess::Asked;
use self::explain::talk::live::{Live, Tried};
use self::explain::talk::script::{Step, answered};
use self::explain::talk::{Lacks, Subject, Talk};
use self::plan::chart::{self, ChartKind};
use self::plan::editing::Editing;
use self::plan::handles::Grab;
use self::plan::set_up::{self, Typed};
use self::record::as_found::Readings;
use self::record::round::Round;
use self::share::TALK_ROOM;
use crate::first::answer::{Told, fingerprint_text};
use crate::first::desk::{Desk, ShownCase, is_long};
use crate::first::governing::{self, GoverningStack};
use crate::first::view::{Readout, Table};
use crate::page::plan::view::{Checks, SetUp};
use crate::say::faults::Voice;
use crate::say::format::{Lang, Units};
use crate::wire::link::{self, Shared};
use crate::wire::notes::{self, Notes};

/// What an answer from beside the page was for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// Nothing that is still waited for.
    Nothing,
    /// The case that is shown from now on.
    Shown,
    /// The talk.
    Talk,
}

/// Everything on the page.
#[derive(Debug)]
pub struct Page {
    desk: Desk,
    /// The case that is shown next, once its answer has come from beside the page, and its number.
    coming: Option<(ShownCase, Ready, u32)>,
    /// What is made there.
    beside: Beside,
    editing: Editing,
    /// Solved when a chart first asks for it: it takes as long as the answer.
    envelope: OnceCell<Option<Envelope>>,
    talk: Talk,
    /// What is tried with the crew while the talk runs.
    live: Option<Live>,
    /// What is guessed at in place of the shown case.
    asked: Option<Asked>,
    /// Layouts side by side.
    pub shelf: Shelf,
    /// What was read on the line.
    pub readings: Readings,
    /// The lines that the device keeps.
    pub round: Round,
    grab: Option<Grab>,
    /// What the link carries beside case and talk.
    pub notes: Notes,
}

impl Page {
    /// Starts with the demonstration, solved.
    pub fn new(lang: Lang, units: Units) -> Self {
        let mut page = Self::empty(lang, units);
        page.demo();
        page
    }

    /// Starts with no case; the demonstration stands behind, not solved.
    pub fn empty(lang: Lang, units: Units) -> Self {
        let desk = Desk::empty(lang, units);
        Self {
            editing: Editing::of(&desk),
            desk,
            coming: None,
            beside: Beside::default(),
            envelope: OnceCell::new(),
            talk: Talk::default(),
            live: None,
            asked: None,
            shelf: Shelf::default(),
            readings: Readings::default(),
            round: Round::default(),
            grab: None,
            notes: Notes::default(),
        }
    }

    /// Shows another case, solved; one whose answer takes long once that has come from beside the page.
    fn show(&mut self, shown: ShownCase, ready: Ready) {
        let instead = self.coming.take().map(|(.., number)| number);
        if !is_long(&ready) {
            self.not_coming(instead);
            self.desk.show(shown, ready);
            return self.forget();
        }
        match self.beside.came(&shown.case) {
            Some(answered) => {
                self.not_coming(instead);
                self.desk.show_answered(shown, ready, answered.assessment);
                self.forget();
                self.envelope = OnceCell::from(Some(answered.envelope));
            }
            None => {
                let number = self.beside.wait(&shown.case, instead);
                self.coming = Some((shown, ready, number));
            }
        }
    }

    fn not_coming(&mut self, number: Option<u32>) {
        if let Some(number) = number {
            self.beside.forget(number);
        }
    }

    /// The shown case stays.
    fn keep_shown(&mut self) {
        let instead = self.coming.take().map(|(.., number)| number);
        self.not_coming(instead);
    }

    /// The last case without faults: the one that is shown, or is as soon as its answer has come.
    pub fn latest(&self) -> &ShownCase {
        (self.coming.as_ref()).map_or(self.desk.shown(), |(shown, ..)| shown)
    }

    /// Whether the answer to the latest case is still made beside the page.
    pub fn is_coming(&self) -> bool {
        self.coming.is_some()
    }

    /// Whether there is an answer to be made beside the page that was not handed out.
    pub fn has_beside(&self) -> bool {
        self.beside.waits() || self.talk.wants()
    }

    /// The next answer that is to be made beside the page, each given once.
    pub fn next_beside(&mut self) -> Option<beside::Wanted> {
        for (case, asked) in self.talk.take_wants() {
            self.beside.wait_for(&case, asked, None);
        }
        self.beside.hand_out()
    }

    /// Takes an answer that was made beside the page, see [`Beside::take`].
    pub fn take_beside(&mut self, number: u32, values: &[f64]) -> Taken {
        match self.beside.take(number, values) {
            None => return Taken::Nothing,
            Some(Came::UsedUp(case, focus, change)) => self.talk.take_used_up(case, focus, change),
            Some(Came::Answer(case)) => {
                if let Some((shown, ready, _)) = self.coming.take_if(|(.., of)| *of == number) {
                    self.show(shown, ready);
                    return Taken::Shown;
                }
                if let Some(Answered { assessment, .. }) = self.beside.came(&case) {
                    self.talk.take_answer(&case, &assessment);
                    if let Some(live) = self.live.as_mut().filter(|live| live.case == case) {
                        live.assessment = Some(assessment);
                    }
                }
            }
        }
        Taken::Talk
    }

    /// Solves one of what a step of the talk still lacks, or of what all steps do (`None`), if that takes
    /// no longer than a moment; otherwise it is waited for.
    pub fn talk_lacks(&mut self, step: Option<Step>) -> Lacks {
        if let Some(live) = &self.live
            && live.assessment.is_none()
        {
            self.beside.wait(&live.case, None);
            return Lacks::Waits;
        }
        let (talk, subject) = self.talk();
        talk.lacks(subject, step)
    }

    /// Makes the answer to what is tried in the talk, if it is still waited for.
    pub fn finish_tried(&mut self) {
        if let Some(live) = &mut self.live
            && live.assessment.is_none()
        {
            live.assessment = answered(&live.case);
        }
    }

    /// Forgets what was made of the case that was shown.
    fn forget(&mut self) {
        self.envelope = OnceCell::new();
        self.talk.forget();
        self.live = None;
    }

    /// Language and units.
    pub fn voice(&self) -> Voice {
        self.desk.voice()
    }

    /// The case that the answer belongs to.
    pub fn case(&self) -> &Case {
        self.desk.case()
    }

    /// The fall that is played: the one with the inputs as given.
    pub fn outcome(&self) -> Option<&Outcome> {
        self.desk.outcome()
    }

    /// The answer as a stack.
    pub fn governing(&self) -> Option<GoverningStack> {
        self.desk.governing()
    }

    /// Whether the answer is the whole one. After a change it is that of the crew exactly as given.
    pub fn is_whole(&self) -> bool {
        self.desk.is_whole()
    }

    /// Makes the next runs of the whole answer, some milliseconds; false: it is whole.
    pub fn step(&mut self) -> bool {
        self.desk.step()
    }

    /// Makes all that is left of the whole answer: what is made of it is made of the whole one.
    pub fn finish(&mut self) {
        self.desk.finish();
    }

    /// Makes all of it, also what is made beside the page.
    #[cfg(test)]
    pub fn finish_all(&mut self) {
        while let Some(wanted) = self.next_beside() {
            self.take_beside(wanted.number, &[]);
        }
        self.finish();
    }

    /// Values at an instant, s.
    pub fn readout(&self, time_s: f64) -> Readout {
        self.desk.readout(time_s)
    }

    /// The whole answer; `None`: there is no result, or it is still to be made.
    pub fn assessment(&self) -> Option<&Assessment> {
        self.desk.assessment().filter(|found| found.whole)
    }

    /// The case with its whole answer, in the page's voice; `None` as for [`Page::assessment`].
    pub fn told(&self) -> Option<Told<'_>> {
        self.assessment()
            .map(|assessment| Told::of(self.voice(), self.case(), assessment))
            .map(|told| told.with_anywhere(self.desk.anywhere()))
    }

    /// The same in another voice.
    pub fn told_in(&self, voice: Voice) -> Option<Told<'_>> {
        let told = self.told()?;
        Some(Told { voice, ..told })
    }

    /// Takes what was found beside the page to be the worst anywhere, as numbers; false: it is not
    /// about the shown case.
    pub fn take_anywhere(&mut self, numbers: &[f64]) -> bool {
        let found = fit::anywhere::from_numbers(self.case(), numbers);
        let taken = found.is_some();
        if let Some(found) = found {
            self.desk.set_anywhere(found);
        }
        taken
    }

    /// Puts the crew where the worst was found, and lets those fall who do there, as one change.
    pub fn show_worst(&mut self) {
        let worst = self.desk.anywhere().and_then(Anywhere::worst);
        if let Some(case) = worst.map(|worst| worst.posed.case(self.case())) {
            // Only a case without faults was found.
            let _ = self.load(case);
        }
    }

    /// The talk, and the case that it is about.
    pub fn talk(&mut self) -> (&mut Talk, Subject<'_>) {
        let desk = &self.desk;
        let subject = match &self.live {
            Some(live) => Subject {
                voice: desk.voice(),
                case: &live.case,
                live: Some((live, desk.case())),
                assessment: live.assessment.as_ref(),
                // It was looked for with the planned crew.
                anywhere: None,
            },
            None => Subject {
                voice: desk.voice(),
                case: desk.case(),
                live: None,
                assessment: desk.assessment().filter(|found| found.whole),
                anywhere: desk.anywhere(),
            },
        };
        (&mut self.talk, subject)
    }

    /// Tries one user more in the talk, or one fewer as its step asks for it, on its own copy. False:
    /// there cannot be.
    pub fn try_users(&mut self, step: Step, more: bool) -> bool {
        let tried = if more {
            self.tried().more(self.desk.case())
        } else {
            let (talk, subject) = self.talk();
            talk.fewer(subject, step)
        };
        tried.is_some_and(|tried| self.try_out(tried))
    }

    /// Moves the crew along the line in the talk, on its own copy. False: the line ends there.
    pub fn try_place(&mut self, right: bool) -> bool {
        self.try_out(self.tried().moved(right))
    }

    /// The talk is about the planned crew again.
    pub fn as_planned(&mut self) {
        self.live = None;
        self.talk.as_planned();
    }

    fn tried(&self) -> Tried {
        let live = self.live.as_ref();
        live.map_or_else(Tried::default, |live| live.tried().clone())
    }

    fn try_out(&mut self, tried: Tried) -> bool {
        if tried == Tried::default() {
            self.as_planned();
            return true;
        }
        let (talk, subject) = self.talk();
        let about = talk.about(subject);
        let live = Live::of(tried, about, self.desk.case(), self.voice().units);
        let taken = live.is_some();
        if taken {
            self.live = live;
            self.talk.try_out();
        }
        taken
    }

    /// The last step of the talk, at the address of the page; `None`: there is no result to link to.
    pub fn talk_code(&mut self, address: &str) -> Option<explain::talk::Code> {
        let link = self.talk_link(self.voice().lang, address)?;
        let (talk, subject) = self.talk();
        Some(talk.code(subject, &link))
    }

    /// Asks about a case of its own, given as text; about the shown one when it is empty. False: the
    /// text is no case without faults, and nothing is changed.
    pub fn ask_about(&mut self, text: &str) -> bool {
        let asked = Asked::of_text(text);
        let taken = asked.is_some() || text.is_empty();
        if taken {
            self.asked = asked;
        }
        taken
    }

    /// The case that is guessed at.
    pub fn asked_case(&self) -> &Case {
        self.asked.as_ref().map_or(self.case(), Asked::case)
    }

    /// The case that is guessed at with its answer; of a question's own case once it was solved.
    pub fn asked_told(&self) -> Option<Told<'_>> {
        match &self.asked {
            Some(asked) => asked.told(self.voice()),
            None => self.told(),
        }
    }

    /// Whether the shown case is guessed at, not one of a question's own.
    pub fn is_about_the_page(&self) -> bool {
        self.asked.is_none()
    }

    /// Makes the answer to the case that is guessed at.
    pub fn solve_asked(&mut self) {
        match &mut self.asked {
            Some(asked) => asked.solve(),
            None => self.finish(),
        }
    }

    /// Puts the case of a question on the page, as one change.
    pub fn put_asked(&mut self) {
        if let Some(asked) = &self.asked {
            // Only a case without faults is asked about.
            let _ = self.load(asked.case().clone());
        }
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
        set_up::set_up(self.voice(), self.case(), typed)
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
        let solved = || self.desk.ready().map(envelope_of);
        self.envelope.get_or_init(solved).as_ref()
    }

    /// The link to the case and its result, without `#`; `None` when there is no result.
    pub fn link(&self) -> Option<String> {
        self.link_in(self.voice().lang)
    }

    fn link_in(&self, lang: Lang) -> Option<String> {
        let link = link::encode(&self.shared()?)?;
        let plan = self.talk.plan().encode().unwrap_or_default();
        Some(format!(
            "{link}.{plan}{}",
            self.notes_for(&self.notes, lang)
        ))
    }

    /// The whole link that begins the talk, in a language, at the address of the page; `None`: there is
    /// no result.
    fn talk_link(&self, lang: Lang, address: &str) -> Option<String> {
        Some(format!("{address}#{}{TALK_ROOM}", self.link_in(lang)?))
    }

    /// Notes as a link has them: with the page's own units and language.
    fn notes_in(&self, notes: &Notes) -> String {
        self.notes_for(notes, self.voice().lang)
    }

    /// The same in a language.
    fn notes_for(&self, notes: &Notes, lang: Lang) -> String {
        let mut notes = notes.clone();
        notes.set(notes::UNITS, self.voice().units.key());
        notes.set(notes::LANGUAGE, lang.key());
        notes.text()
    }

    /// The case with its result, as links and files carry it; `None` when there is no result.
    pub fn shared(&self) -> Option<Shared> {
        let assessment = self.assessment()?;
        let governing = GoverningStack::of(assessment)?;
        Some(Shared {
            model: assessment.nominal.model_version,
            fingerprint: fingerprint_text(governing::fingerprint(assessment)),
            footroom_m: assessment.footroom.value,
            required_m: governing.stack.required_m + governing.tolerance_m,
            case: self.case().clone(),
        })
    }

    /// Puts the shown case on the shelf of layouts, not yet solved there.
    ///
    /// # Errors
    /// There is no room for it.
    pub fn shelve(&mut self, name: &str) -> Result<(), AddFault> {
        self.shelf.add(self.desk.case(), name)
    }

    /// Loads a layout of the shelf, as one change.
    pub fn load_layout(&mut self, layout: usize) {
        if let Some(case) = self.shelf.case(layout).cloned() {
            // A set with a faulty case is refused when it is opened.
            let _ = self.load(case);
        }
    }

    /// Opens what a link with layouts brought: they stand on the shelf, and the first of them is the shown
    /// case, as one change.
    ///
    /// # Errors
    /// What is wrong with it, in words; nothing is changed then, but see [`Page::refuse`].
    pub fn open_set(&mut self, text: &str) -> Result<(), String> {
        let shelf = match Shelf::open(text) {
            Ok(shelf) => shelf,
            Err(fault) => {
                let said = set_fault(self.voice(), &fault);
                return Err(self.refused(said));
            }
        };
        match shelf.case(0).cloned() {
            Some(first) => self.load(first)?,
            None if self.desk.is_blank() => self.demo(),
            None => {}
        }
        self.shelf = shelf;
        self.notes = Notes::of(text);
        Ok(())
    }

    /// The layouts on the shelf as the page shows them, beside the shown case.
    pub fn compared(&self) -> Compared {
        self.shelf.view(self.voice(), self.case())
    }

    /// Loads the case of a cell of the map, as one change.
    pub fn load_cell(&mut self, column: usize, row: usize) {
        if let Some(case) = fit::map::cell_case(self.case(), column, row) {
            // Only a case without faults has a cell.
            let _ = self.load(case);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page() -> Page {
        let mut page = Page::new(Lang::En, Units::Metric);
        page.finish();
        page
    }

    /// The shown case, the layouts and the map stand in one memory: no text in between.
    #[test]
    fn layouts_and_cells_are_loaded_as_one_change() {
        let mut page = page();
        let given = page.case().clone();
        page.shelve("as given").expect("room");
        page.set("workers.count", "1", 0.0).expect("path");
        page.load_layout(1);
        assert_eq!(page.case().workers.len(), 1, "there is no such layout");
        page.load_layout(0);
        assert_eq!(*page.case(), given);
        assert!(page.undo() && page.case().workers.len() == 1);
        let cell = fit::map::cell_case(page.case(), 2, 1).expect("a cell");
        page.load_cell(2, 1);
        assert!(*page.case() == cell && page.undo());
        page.load_cell(99, 99);
        assert_eq!(page.case().workers.len(), 1);
    }

    /// What is tried in the talk is the talk's own: more users, another place, each with the answer of
    /// the core, beside what is planned; and it can be put back.
    #[test]
    fn the_talk_tries_another_crew_on_a_copy() {
        use footroom_core::fit::layout::with_users;
        let mut page = page();
        let step = |page: &mut Page, step| {
            let (talk, subject) = page.talk();
            talk.step(subject, step)
        };
        let (planned, link) = (page.case().clone(), page.link());
        let before = step(&mut page, Step::All).expect("an answer");
        assert!(before.live.is_empty());
        assert!(page.try_users(Step::All, true));
        let tried = step(&mut page, Step::All).expect("an answer");
        assert_eq!(tried.title, "All four fall");
        assert_eq!(tried.live, "4 users, 3 planned");
        let four = answered(&with_users(&planned, 4)).expect("an answer");
        let told = Told::of(page.voice(), &planned, &four).answer();
        assert_eq!((&tried.number, tried.kind), (&told.number, told.kind));
        assert_ne!(tried.number, before.number);
        // Before and after, of the same step.
        assert_eq!(tried.rows.len(), 1);
        assert_eq!(tried.rows[0].label, "As planned, 3");
        assert!(tried.rows[0].value.starts_with(&before.number));
        assert!(tried.open.iter().any(|line| line.text
            == "? Worst position: not searched for this crew"
            && line.mark == "open"));
        assert_eq!((page.case(), page.link()), (&planned, link.clone()));

        page.as_planned();
        assert_eq!(step(&mut page, Step::All), Some(before.clone()));

        // Along the line, as far as it goes.
        assert!(page.try_place(false));
        let moved = step(&mut page, Step::Today).expect("an answer");
        assert_eq!(moved.title, "With this crew");
        assert!(moved.live.ends_with("crew 0.50 m left"), "{}", moved.live);
        let mut steps = 1;
        while page.try_place(false) {
            steps += 1;
            assert!(steps < 100);
        }
        let least_m = planned.workers.iter().map(|w| w.position_m);
        let least_m = least_m.fold(f64::INFINITY, f64::min);
        assert_eq!(f64::from(steps), (least_m / 0.5).floor());
        assert!(page.try_place(true));

        // One to six, and back to the plan by as many steps: nothing is tried then.
        page.as_planned();
        assert!(
            page.try_users(Step::All, false)
                && page.try_users(Step::All, false)
                && !page.try_users(Step::All, false)
        );
        assert!(step(&mut page, Step::All).is_none());
        assert_eq!(
            step(&mut page, Step::One).map(|one| one.rows.len()),
            Some(1)
        );
        assert!(page.try_users(Step::All, true) && page.try_users(Step::All, true));
        assert_eq!(step(&mut page, Step::All), Some(before));

        // The code leads to the planned case, whatever is tried.
        assert!(page.try_users(Step::All, true));
        let code = page.talk_code("https://example.org/").expect("a link");
        let given = page.share(share::Given::Talk, "", "", "https://example.org/");
        let drawn = |svg: &str| svg.split("<path").skip(1).collect::<String>();
        assert_eq!(drawn(&code.svg), drawn(&given.code), "one link of the talk");
        assert!(
            code.svg.starts_with("<svg ") && code.place == "8 of 8",
            "{}",
            code.place
        );
        assert_eq!(page.link(), link);
        // Another case on the page is a talk of its own.
        page.set("workers.all.mass_kg", "110", 0.0).expect("path");
        page.finish();
        assert!(step(&mut page, Step::All).is_some_and(|all| all.live.is_empty()));
    }

    /// A trainee's question is about a copy: nothing on the page moves until its case is put there, and
    /// then it can be taken back.
    #[test]
    fn a_question_leaves_the_case_on_the_page_alone() {
        use crate::page::explain::{guess, learn};
        let mut page = page();
        page.set("workers.all.mass_kg", "110", 0.0).expect("path");
        page.finish();
        let (given, answer, link) = (page.case().clone(), page.view().answer, page.link());
        let lesson = learn::lesson(page.voice(), 1).expect("a question");
        assert!(page.ask_about(&lesson.case_text));
        assert_eq!(page.asked_case().line.spans_m, [4.5; 4]);
        assert!(page.asked_told().is_none(), "solved before it is asked for");
        page.solve_asked();
        let told = page.asked_told().expect("an answer");
        let revealed = guess::reveal(&told, lesson.before_m, "");
        assert!(revealed.known && !revealed.tally.is_empty());
        assert_eq!(*page.case(), given);
        assert_eq!((page.view().answer, page.link()), (answer.clone(), link));
        assert!(!page.ask_about("{}") && page.asked_case().line.spans_m.len() == 4);
        page.put_asked();
        assert_eq!(page.case().line.spans_m, [4.5; 4]);
        assert!(page.undo());
        page.finish();
        assert_eq!((page.case(), page.view().answer), (&given, answer));
        assert!(page.ask_about(""));
        page.put_asked();
        assert_eq!((page.case(), page.asked_case()), (&given, &given));
    }

    /// What takes long is made beside the page: the last result stays and is marked, each change takes
    /// the place of the one before, a late answer is dropped, and what comes is what would have been made
    /// here.
    #[test]
    fn a_long_answer_comes_from_beside_and_never_late() {
        use crate::page::beside::tests::in_steps as worked;
        let mut page = page();
        let (before, link) = (page.view(), page.link());
        let six = |mass_kg: &str, page: &mut Page| {
            page.set("workers.count", "6", 0.0).expect("path");
            page.set("workers.all.mass_kg", mass_kg, 0.0).expect("path");
        };
        six("95", &mut page);
        let view = page.view();
        assert!(view.coming && !view.valid && !view.whole && view.can_undo);
        assert_eq!(
            view.stale_note.as_deref(),
            Some(page.voice().office().coming)
        );
        // Nothing of the last result moved, and the fields hold what was entered.
        assert_eq!((&view.answer, &view.stack), (&before.answer, &before.stack));
        assert_eq!((page.case().workers.len(), page.link()), (3, link.clone()));
        let count = page.form().fields.into_iter();
        assert_eq!(count.filter(|f| f.path.ends_with("mass_kg")).count(), 6 + 1);
        let first = page.next_beside().expect("an answer is wanted");
        assert!(page.next_beside().is_none() && !page.has_beside());
        // A handle that is moved by a key goes on from what was entered, not from what is shown.
        assert_eq!(page.latest().case.workers[5].mass_kg, 95.0);
        // A page that is loaded anew meanwhile has it back.
        let kept = page.unfinished().expect("it is not in the link yet");
        let mut anew = Page::new(Lang::En, Units::Metric);
        assert!(anew.resume(&kept).is_some() && anew.is_coming());
        assert_eq!(anew.latest().case, page.latest().case);
        // The next letter: the first is not wanted any more, and its answer not taken.
        page.set("workers.all.mass_kg", "96", 0.0).expect("path");
        let second = page.next_beside().expect("another");
        assert_eq!((second.replaces, first.replaces), (first.number, 0));
        let numbers = |wanted: &beside::Wanted| {
            worked(&crate::wire::case_json::from_text(&wanted.case_text).expect("its text"))
        };
        let (late, own) = (numbers(&first), numbers(&second));
        assert_eq!(page.take_beside(first.number, &late), Taken::Nothing);
        assert_eq!(page.view().answer, before.answer);
        assert_eq!(page.take_beside(second.number, &own), Taken::Shown);
        assert_eq!(page.take_beside(second.number, &own), Taken::Nothing);
        assert!(!page.is_coming());
        assert_eq!(page.case().workers.len(), 6);
        assert!(page.case().workers.iter().all(|w| w.mass_kg == 96.0));
        // The same as where all is made on the page.
        let here = answered(page.case()).expect("no faults");
        assert_eq!(page.assessment(), Some(&here));
        let view = page.view();
        assert!(view.valid && view.whole && !view.coming && view.stale_note.is_none());
        assert!(view.duration_s > 1.0 && page.link() != link);
        assert!(page.chart(ChartKind::Force).is_some());
        // Undo leads through what was never shown, and ends where it began.
        while page.undo() {}
        assert!(!page.is_coming() && page.case().workers.len() == 3);
        page.finish();
        assert_eq!((page.view().answer, page.link()), (before.answer, link));
        while page.redo() {}
        let third = page.next_beside().expect("it is made again");
        assert_eq!(page.take_beside(third.number, &own), Taken::Shown);
        assert_eq!(page.assessment(), Some(&here));
    }

    /// A link whose case takes long shows nothing before its answer is there; a faulty field or another
    /// link in between is no way round.
    #[test]
    fn a_link_that_takes_long_shows_nothing_before_its_answer() {
        use crate::page::beside::tests::in_steps as worked;
        use footroom_core::fit::layout::with_users;
        let mut case = with_users(&demo_case(), 6);
        case.title = "six".to_owned();
        let shared = Shared {
            model: footroom_core::constants::MODEL_VERSION,
            fingerprint: "0".repeat(16),
            footroom_m: 0.0,
            required_m: 0.0,
            case: case.clone(),
        };
        let long = link::encode(&shared).expect("finite");
        let mut first = Desk::empty(Lang::En, Units::Metric);
        first.open_link(&long).expect("an own link");
        assert!(first.view().coming && first.view().blank && first.assessment().is_none());

        let mut page = Page::empty(Lang::En, Units::Metric);
        page.open_link(&long).expect("an own link");
        assert!(page.view().coming && page.view().blank && page.link().is_none());
        let wanted = page.next_beside().expect("an answer is wanted");
        page.set("site.margin_m", "a bit", 0.0).expect("path");
        assert!(page.is_coming() && page.view().stale_note.is_some());
        assert_eq!(
            page.take_beside(wanted.number, &worked(&case)),
            Taken::Shown
        );
        let view = page.view();
        assert!(!view.coming && !view.blank && !view.valid && view.title == "six");
        assert!(
            view.shared.is_some_and(|note| !note.same),
            "of its own numbers"
        );

        // Without a worker the page makes it.
        let mut alone = Page::empty(Lang::En, Units::Metric);
        alone.open_link(&long).expect("an own link");
        let wanted = alone.next_beside().expect("an answer is wanted");
        assert_eq!(alone.take_beside(wanted.number, &[]), Taken::Shown);
        assert_eq!(alone.assessment(), page.assessment());

        // What is opened next takes its place at once.
        let mut other = Page::empty(Lang::En, Units::Metric);
        other.open_link(&long).expect("an own link");
        let wanted = other.next_beside().expect("an answer is wanted");
        other.demo();
        assert!(!other.is_coming() && other.case().workers.len() == 3);
        assert_eq!(other.take_beside(wanted.number, &[]), Taken::Nothing);
        other.finish();
        assert_eq!(other.view().answer, self::tests::page().view().answer);
        assert!(other.undo() && other.is_coming(), "back to the link");
    }

    /// The steps of a talk whose crew takes long come from beside the page, one by one, also for a crew
    /// that is tried; what is shown is what would have been made here.
    #[test]
    fn a_talk_waits_for_what_takes_long() {
        use crate::page::beside::tests::in_steps;
        use crate::page::explain::talk::script;
        use crate::wire::case_json;
        let mut case = demo_case();
        // Not all at once, so that even the steps hang on an answer.
        case.workers[0].fall_time_s = Some(0.3);
        let mut planned = page();
        planned.load(case).expect("no faults");
        planned.finish();
        let step = |page: &mut Page, step| {
            let (talk, subject) = page.talk();
            talk.step(subject, step)
        };
        // Six are tried: the page has not answered yet, and nothing was made here.
        let (mut page, mut here) = (planned, Vec::new());
        for _ in 0..3 {
            assert!(page.try_users(Step::All, true));
        }
        let mut asked = Vec::new();
        let mut turns = 0;
        while page.talk_lacks(Some(Step::All)) != Lacks::Nothing {
            turns += 1;
            assert!(turns < 100);
            while let Some(wanted) = page.next_beside() {
                let case = case_json::from_text(&wanted.case_text).expect("its text");
                let units = Units::from_key(wanted.units).expect("units");
                let numbers = match wanted.method {
                    "answered" => in_steps(&case),
                    _ => beside::used_up_numbers(script::used_up(
                        &case,
                        wanted.args[0] as usize,
                        units,
                    )),
                };
                assert_eq!(page.take_beside(wanted.number, &numbers), Taken::Talk);
                asked.push((wanted.method, case.workers.len()));
            }
        }
        assert!(asked.contains(&("answered", 6)), "{asked:?}");
        here.push(step(&mut page, Step::All).expect("an answer"));
        assert!(!page.has_beside());
        // The same where all is made on the page, whoever asks for it.
        page.as_planned();
        for _ in 0..3 {
            assert!(page.try_users(Step::All, true));
        }
        page.finish_tried();
        here.push(step(&mut page, Step::All).expect("an answer"));
        assert_eq!(here[0], here[1]);
        // Another crew is tried before the answer is there: it is not taken for the other's.
        page.as_planned();
        page.beside = Beside::default();
        for _ in 0..3 {
            assert!(page.try_users(Step::All, true));
        }
        assert_eq!(page.talk_lacks(Some(Step::All)), Lacks::Waits);
        let late = page.next_beside().expect("six");
        assert!(page.try_users(Step::All, false));
        let numbers = in_steps(&case_json::from_text(&late.case_text).expect("its text"));
        page.take_beside(late.number, &numbers);
        let live = page.live.as_ref().expect("five are tried");
        assert!(live.case.workers.len() == 5 && live.assessment.is_none());
        // A page whose planned crew takes long asks what uses an absorber up, too.
        let mut long = page;
        long.as_planned();
        long.load(footroom_core::fit::layout::with_users(&demo_case(), 6))
            .expect("no faults");
        let wanted = long.next_beside().expect("its answer");
        assert_eq!(long.take_beside(wanted.number, &[]), Taken::Shown);
        assert_eq!(long.talk_lacks(None), Lacks::Waits);
        let wanted = long.next_beside().expect("what uses an absorber up");
        assert_eq!((wanted.method, wanted.args.len()), ("used_up", 1));
        assert_eq!(long.take_beside(wanted.number, &[]), Taken::Talk);
        let (talk, subject) = long.talk();
        let found = script::derived(Step::UsedUp, subject.case, 2, subject.voice.units);
        assert_eq!(talk.is_there(subject, Step::UsedUp), found.is_some());
    }

    fn demo_case() -> Case {
        footroom_core::demo::demo()
    }

    /// What was made of a case is not told of another, and a changed voice is heard at once.
    #[test]
    fn what_is_made_of_a_case_is_forgotten_with_it() {
        let mut page = page();
        let said = |page: &mut Page| {
            page.finish();
            let (talk, subject) = page.talk();
            talk.step(subject, Step::All).map(|step| step.number)
        };
        let (chart, number) = (page.chart_table(ChartKind::Force), said(&mut page));
        assert!(number.is_some());
        page.set("workers.all.mass_kg", "110", 0.0).expect("path");
        assert!(
            page.chart_table(ChartKind::Force).rows.is_empty(),
            "not of the first answer"
        );
        assert_ne!(said(&mut page), number);
        assert_ne!(page.chart_table(ChartKind::Force), chart);
        assert!(page.undo());
        assert_eq!(said(&mut page), number);
        assert_eq!(page.chart_table(ChartKind::Force), chart);
        page.set_units(Units::Us);
        assert!(said(&mut page).is_some_and(|us| us.contains(" in") && Some(us) != number));
    }

    /// A page starts with no case and solves none: what is opened first can be had back from, and the
    /// example stands behind.
    #[test]
    fn an_empty_page_has_the_example_behind() {
        let link = page().link().expect("solved");
        let mut other = Page::empty(Lang::En, Units::Metric);
        assert!(other.outcome().is_none() && other.view().blank);
        other.open_link(&link).expect("an own link");
        assert!(!other.view().blank && other.view().can_undo);
        // What a link carries beside its case goes on with it, and changes nothing of it.
        other.finish();
        assert_eq!(other.link().as_ref(), Some(&link));
        other
            .open_link(&format!("{link}&draws=7&other=x"))
            .expect("an own link");
        assert_eq!(other.notes.get("draws"), Some("7"));
        other.finish();
        assert_eq!(other.link(), Some(format!("{link}&draws=7&other=x")));
        let damaged = link.replace(".&", "x.&");
        assert!(other.open_link(&format!("{damaged}&draws=8")).is_err());
        assert_eq!(other.notes.get("draws"), Some("7"));
        other.open_link(&link).expect("an own link");
        assert_eq!(other.notes.get("draws"), None);
        let mut wrong = Page::empty(Lang::En, Units::Metric);
        assert!(wrong.open_link(&link[..60]).is_err() && wrong.view().blank);
        wrong.demo();
        wrong.finish();
        assert_eq!(wrong.view().answer, page().view().answer);
        assert!(!wrong.view().can_undo);
    }
}
