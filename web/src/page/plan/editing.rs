//! The case as it is changed on the page: what was typed, dragged or opened, and the way back.

use footroom_core::case::Case;
use footroom_core::constants::MODEL_VERSION;
use footroom_core::fault::Fault;
use footroom_core::ready::Ready;

use crate::first::desk::{Desk, Refusal, ShownCase, example, opened};
use crate::first::view::View;
use crate::page::Page;
use crate::page::compare::layouts_link;
use crate::page::plan::fields::{self, Draft};
use crate::page::plan::places::{Placed, in_the_middle, moved_with_the_line, own_line};
use crate::page::plan::view::{Field, Form};
use crate::say::faults::{self, Voice};
use crate::say::format::{Lang, Units};
use crate::say::input::{self, InputFault};
use crate::wire::case_json::{self, Entries};
use crate::wire::json::{self, Writer};
use crate::wire::link::{LinkFault, Shared};
use crate::wire::notes::Notes;

/// Most changes that can be taken back.
const UNDO_MAX: usize = 200;

/// Changes of one field that follow each other faster than this are one step of undo, ms: a drag
/// and the letters of one entry.
const ONE_STEP_MS: f64 = 700.0;

/// Everything that a change may change.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::page) struct Sheet {
    /// What the fields hold, faults and all.
    entered: Case,
    /// Texts as typed, of the fields that are faulty.
    drafts: Vec<Draft>,
    /// Who has put the crew where it stands.
    placed: Placed,
    /// The last case without faults: the one that is shown.
    shown: ShownCase,
}

/// What the fields hold, and the way back.
#[derive(Debug)]
pub(in crate::page) struct Editing {
    /// See [`Sheet`].
    entered: Case,
    drafts: Vec<Draft>,
    /// The faults of what is entered: it is checked once a change.
    faults: Vec<Fault>,
    undo: Vec<Sheet>,
    redo: Vec<Sheet>,
    last_set: Option<LastSet>,
    /// Who has put the crew where it stands.
    placed: Placed,
}

/// The last change of a field.
#[derive(Debug)]
struct LastSet {
    path: String,
    at_ms: f64,
}

impl Editing {
    /// Begins with the case on the desk.
    pub(in crate::page) fn of(desk: &Desk) -> Self {
        Self {
            entered: desk.case().clone(),
            drafts: Vec::new(),
            faults: Vec::new(),
            undo: Vec::new(),
            redo: Vec::new(),
            last_set: None,
            placed: Placed::ByHand,
        }
    }

    /// Puts the crew where a change of the line or of its number asks for. `before`: the case before it.
    fn place(&mut self, path: &str, before: &Case) {
        let spans = path.starts_with("line.spans_m");
        let placed = core::mem::take(&mut self.placed);
        self.placed = match placed {
            Placed::InTheMiddle if path.ends_with("position_m") => Placed::ByHand,
            Placed::InTheMiddle => {
                if spans || path == "workers.count" {
                    in_the_middle(&mut self.entered);
                }
                Placed::InTheMiddle
            }
            _ if !spans => Placed::ByHand,
            placed => {
                let (stood_m, length_m) = match placed {
                    Placed::Moved { stood_m, length_m } => (stood_m, length_m),
                    _ => (
                        before.workers.iter().map(|w| w.position_m).collect(),
                        before.line.length_m(),
                    ),
                };
                moved_with_the_line(&mut self.entered, &stood_m, length_m);
                Placed::Moved { stood_m, length_m }
            }
        };
    }

    /// What is said of a crew that the page has put somewhere.
    fn placed_note(&self, voice: Voice) -> Option<String> {
        let form = voice.form();
        match &self.placed {
            Placed::ByHand => None,
            Placed::InTheMiddle => Some(form.placed_in_the_middle.to_owned()),
            Placed::Moved { stood_m, .. } => {
                let now = self.entered.workers.iter().map(|w| w.position_m);
                let moved = now.zip(stood_m).any(|(now, stood)| now != *stood);
                moved.then(|| form.placed_moved.to_owned())
            }
        }
    }

    /// Checks what is entered; `None`: it has faults.
    fn check(&mut self) -> Option<Ready> {
        let checked = self.entered.ready();
        let (ready, faults) = match checked {
            Ok(ready) => (Some(ready), Vec::new()),
            Err(faults) => (None, faults),
        };
        self.faults = faults;
        ready
    }

    /// Keeps only the drafts of listed fields that are faulty.
    fn tidy_drafts(&mut self, voice: Voice) {
        // Without a fault none is, and to list all fields takes as long as the rest of a change.
        if self.is_valid() {
            self.drafts.clear();
            return;
        }
        let listed = self.fields(voice);
        self.drafts.retain(|draft| {
            let field = listed.iter().find(|f| f.path == draft.path);
            field.is_some_and(|f| f.fault.is_some())
        });
    }

    fn is_valid(&self) -> bool {
        self.drafts.iter().all(|d| d.fault.is_none()) && self.faults.is_empty()
    }

    fn fields(&self, voice: Voice) -> Vec<Field> {
        fields::fields(voice, &self.entered, &self.drafts, &self.faults)
    }

    /// After an own limit was taken away: what was typed for it goes, what was typed for those
    /// after it moves up with them.
    fn move_up_drafts(&mut self, path: &str) {
        let Some(input::Path {
            name,
            place: input::Place::At(gone),
        }) = input::Path::read(path)
        else {
            return;
        };
        if name != "own_limits.kept" {
            return;
        }
        let place = |draft: &Draft| {
            let (index, rest) = draft.path.strip_prefix("own_limits[")?.split_once(']')?;
            Some((index.parse::<usize>().ok()?, rest.to_owned()))
        };
        self.drafts
            .retain(|draft| place(draft).is_none_or(|(i, _)| i != gone));
        for draft in &mut self.drafts {
            if let Some((i, rest)) = place(draft)
                && i > gone
            {
                draft.path = format!("own_limits[{}]{rest}", i - 1);
            }
        }
    }
}

impl Page {
    /// Whether what the fields hold has no faults.
    pub fn is_valid(&self) -> bool {
        self.editing.is_valid()
    }

    /// What an undo would bring back.
    fn sheet(&self) -> Sheet {
        Sheet {
            entered: self.editing.entered.clone(),
            drafts: self.editing.drafts.clone(),
            placed: self.editing.placed.clone(),
            shown: self.latest().clone(),
        }
    }

    /// Takes what was typed at a path. A faulty text is kept as typed; the last valid case and
    /// its result stay.
    ///
    /// `now_ms`: time on any clock that goes forward; quick changes of one field are one step of
    /// undo.
    ///
    /// # Errors
    /// When there is no such field, which is a mistake of the page.
    pub fn set(&mut self, path: &str, text: &str, now_ms: f64) -> Result<(), InputFault> {
        let before = self.sheet();
        let voice = self.voice();
        let fault = match input::apply(&mut self.editing.entered, path, text, voice.units) {
            Ok(()) => None,
            Err(InputFault::NoSuchField) => return Err(InputFault::NoSuchField),
            Err(fault) => Some(fault),
        };
        let editing = &mut self.editing;
        editing.drafts.retain(|d| !covers(path, &d.path));
        if fault.is_none() {
            editing.move_up_drafts(path);
        }
        editing.drafts.push(Draft {
            path: path.to_owned(),
            text: text.to_owned(),
            fault,
        });
        if editing.entered != before.entered {
            editing.place(path, &before.entered);
        }
        let changed = editing.entered != before.entered;
        let ready = if changed { editing.check() } else { None };
        editing.tidy_drafts(voice);
        if changed {
            self.desk.set_shared(None);
        } else if self.editing.drafts == before.drafts {
            return Ok(());
        }
        let editing = &mut self.editing;
        let follows = editing.last_set.as_ref().is_some_and(|last| {
            last.path == path && (0.0..ONE_STEP_MS).contains(&(now_ms - last.at_ms))
        });
        editing.last_set = Some(LastSet {
            path: path.to_owned(),
            at_ms: now_ms,
        });
        self.settle(ready);
        if !follows {
            self.remember(before);
        }
        Ok(())
    }

    /// [`Page::set`] for a drag: it is one step of undo with the changes of the same field before
    /// it, however long it pauses, unless it begins a drag.
    ///
    /// # Errors
    /// When there is no such field, which is a mistake of the page.
    pub fn drag(&mut self, path: &str, text: &str, begins: bool) -> Result<(), InputFault> {
        let last_set = &mut self.editing.last_set;
        if begins {
            *last_set = None;
        }
        let before = last_set.as_ref().filter(|last| last.path == path);
        let at_ms = before.map_or(0.0, |last| last.at_ms);
        self.set(path, text, at_ms)
    }

    /// When the fields have no faults, what they hold is shown. `ready`: the same as the mechanics
    /// takes it, where it was just checked.
    fn settle(&mut self, ready: Option<Ready>) {
        let editing = &self.editing;
        if !editing.is_valid() {
            return;
        }
        if !self.desk.is_blank() && *self.desk.case() == editing.entered {
            return self.keep_shown();
        }
        if let Some(ready) = ready.or_else(|| editing.entered.ready().ok()) {
            let shared = self.desk.shown().shared.clone();
            let case = editing.entered.clone();
            self.show(ShownCase { case, shared }, ready);
        }
    }

    /// Puts a sheet on the undo list and forgets what could be made again.
    fn remember(&mut self, before: Sheet) {
        let editing = &mut self.editing;
        if editing.undo.len() == UNDO_MAX {
            editing.undo.remove(0);
        }
        editing.undo.push(before);
        editing.redo.clear();
    }

    fn replace(&mut self, sheet: Sheet) -> Sheet {
        let before = self.sheet();
        self.editing.last_set = None;
        self.editing.drafts = sheet.drafts;
        self.editing.placed = sheet.placed;
        let ready = if self.editing.entered == sheet.entered {
            None
        } else {
            self.editing.entered = sheet.entered;
            self.editing.check()
        };
        if !self.desk.is_blank() && sheet.shown.case == *self.desk.case() {
            self.desk.set_shared(sheet.shown.shared);
            self.keep_shown();
            return before;
        }
        let ready = ready.filter(|_| self.editing.entered == sheet.shown.case);
        if let Some(ready) = ready.or_else(|| sheet.shown.case.ready().ok()) {
            self.show(sheet.shown, ready);
        }
        before
    }

    /// Shows another case, as one change.
    fn take(&mut self, shown: ShownCase, ready: Ready) {
        let before = self.sheet();
        let editing = &mut self.editing;
        editing.last_set = None;
        editing.drafts.clear();
        editing.faults.clear();
        editing.placed = Placed::ByHand;
        editing.entered = shown.case.clone();
        if !self.desk.is_blank() && shown.case == *self.desk.case() {
            self.desk.set_shared(shown.shared);
            self.keep_shown();
        } else {
            self.show(shown, ready);
        }
        self.remember(before);
    }

    /// What the fields hold though it cannot be used yet, as text; `None` when all can, and is shown.
    pub fn unfinished(&self) -> Option<String> {
        if self.is_valid() && !self.is_coming() {
            return None;
        }
        let mut w = Writer::default();
        w.open('{');
        w.name("model");
        w.word(&MODEL_VERSION.to_string());
        w.name("entered");
        case_json::write(&self.editing.entered, &mut w);
        w.name("drafts");
        w.open('[');
        for draft in &self.editing.drafts {
            w.open('[');
            w.text(&draft.path);
            w.text(&draft.text);
            w.close(']');
        }
        w.close(']');
        w.close('}');
        Some(w.finish())
    }

    /// Puts back into the fields what [`Page::unfinished`] gave; `None` when the text is none of
    /// that, and nothing is changed then.
    pub fn resume(&mut self, text: &str) -> Option<()> {
        let json = json::read(text.as_bytes()).ok()?;
        let mut entries = Entries::of(&json).ok()?;
        let model = case_json::whole(entries.need("model").ok()?).ok()?;
        let mut entered = case_json::read(entries.need("entered").ok()?, model).ok()?;
        let json::Kind::List(items) = &entries.need("drafts").ok()?.kind else {
            return None;
        };
        let mut drafts = Vec::new();
        for item in items {
            let json::Kind::List(pair) = &item.kind else {
                return None;
            };
            let [path, text] = pair.as_slice() else {
                return None;
            };
            let (json::Kind::Text(path), json::Kind::Text(text)) = (&path.kind, &text.kind) else {
                return None;
            };
            let fault = match input::apply(&mut entered, path, text, self.voice().units) {
                Ok(()) => None,
                Err(InputFault::NoSuchField) => return None,
                Err(fault) => Some(fault),
            };
            drafts.push(Draft {
                path: path.clone(),
                text: text.clone(),
                fault,
            });
        }
        let (before, voice) = (self.sheet(), self.voice());
        self.editing.entered = entered;
        self.editing.drafts = drafts;
        let ready = self.editing.check();
        self.editing.tidy_drafts(voice);
        self.settle(ready);
        self.remember(before);
        Some(())
    }

    /// Loads the demonstration; the present case can be had back with [`Page::undo`].
    pub fn demo(&mut self) {
        if self.desk.is_blank() && !self.is_coming() {
            // It stands behind the refused link already, and nothing else does.
            self.desk.demo();
            return self.forget();
        }
        let case = example(self.voice().units);
        if let Ok(ready) = case.ready() {
            self.take(ShownCase::new(case), ready);
        }
    }

    /// Starts a line of one's own: the defaults, with one worker in the middle of the span; the present
    /// case can be had back with [`Page::undo`].
    pub fn own_line(&mut self) {
        let case = own_line(self.voice().units);
        if let Ok(ready) = case.ready() {
            self.take(ShownCase::new(case), ready);
            self.editing.placed = Placed::InTheMiddle;
        }
    }

    /// Takes the last change back; false when there is none.
    pub fn undo(&mut self) -> bool {
        let Some(sheet) = self.editing.undo.pop() else {
            return false;
        };
        let after = self.replace(sheet);
        self.editing.redo.push(after);
        true
    }

    /// Makes the change last taken back again; false when there is none.
    pub fn redo(&mut self) -> bool {
        let Some(sheet) = self.editing.redo.pop() else {
            return false;
        };
        let before = self.replace(sheet);
        self.editing.undo.push(before);
        true
    }

    /// Changes the language; no value moves.
    pub fn set_language(&mut self, lang: Lang) {
        self.desk.set_language(lang);
        self.talk.forget();
    }

    /// Changes the units; no value moves. Faulty texts that were read are shown in the new units
    /// from then on, those that could not be read stay as typed.
    pub fn set_units(&mut self, units: Units) {
        if self.voice().units != units {
            self.desk.set_units(units);
            self.editing.drafts.retain(|d| d.fault.is_some());
            self.editing.last_set = None;
            self.talk.forget();
        }
    }

    /// Shows no case, where the example is all there is: what was to be opened could not be read,
    /// and numbers under it would be taken for its own. A case of the visitor's stays.
    pub fn refuse(&mut self) {
        if self.editing.undo.is_empty() && self.editing.redo.is_empty() {
            self.desk.clear();
            self.keep_shown();
            self.forget();
        }
    }

    /// Opens a link; the present case can be had back with [`Page::undo`].
    ///
    /// # Errors
    /// What is wrong with it, in words; nothing is changed then, but see [`Page::refuse`].
    pub fn open_link(&mut self, text: &str) -> Result<(), String> {
        let refusal = match opened(text) {
            Ok((shown, ready)) => {
                self.take(shown, ready);
                self.notes = Notes::of(text);
                return Ok(());
            }
            Err(refusal) => refusal,
        };
        let said = match refusal {
            // The beginning of a set of layouts, and no more of it.
            Refusal::Link(LinkFault::Foreign) if layouts_link::is_beginning(text) => {
                faults::link_fault(self.voice(), &LinkFault::Truncated)
            }
            Refusal::Link(fault) => faults::link_fault(self.voice(), &fault),
            Refusal::Faulty(case) => first_fault(self.voice(), &case).unwrap_or_default(),
        };
        Err(self.refused(said))
    }

    /// Refuses what was to be opened, see [`Page::refuse`]; `said`: what is wrong with it. Gives that with
    /// what became of the present case.
    pub fn refused(&mut self, said: String) -> String {
        self.refuse();
        if self.desk.is_blank() {
            return said;
        }
        format!("{said} {}", self.voice().form().link_kept)
    }

    /// Loads a case from its text, see [`case_json`]; the present one can be had back with
    /// [`Page::undo`].
    ///
    /// # Errors
    /// What is wrong with it, in words; nothing is changed then.
    pub fn open_case(&mut self, text: &str) -> Result<(), String> {
        let case = case_json::from_text(text)
            .map_err(|fault| faults::link_fault(self.voice(), &LinkFault::Content(fault)))?;
        self.load(case)
    }

    /// Loads a case; the present one can be had back with [`Page::undo`].
    ///
    /// # Errors
    /// What is wrong with it, in words; nothing is changed then.
    pub fn load(&mut self, case: Case) -> Result<(), String> {
        match case.ready() {
            Ok(ready) => {
                self.take(ShownCase::new(case), ready);
                Ok(())
            }
            Err(faults) => Err(fault_words(self.voice(), &case, &faults).unwrap_or_default()),
        }
    }

    /// Loads what a file brought, as [`Page::open_link`] does.
    ///
    /// # Errors
    /// Its case, when that has faults; nothing is changed then.
    pub fn load_shared(&mut self, shared: Shared) -> Result<(), Refusal> {
        let (shown, ready) = ShownCase::of(shared)?;
        self.take(shown, ready);
        Ok(())
    }

    /// Everything that the page shows.
    pub fn view(&self) -> View {
        let (valid, coming) = (self.is_valid(), self.is_coming());
        let mut view = self.desk.view();
        view.methods.note = (self.desk.told()).map_or_else(String::new, |told| told.methods_note());
        View {
            valid: valid && !coming,
            whole: view.whole && !coming,
            coming,
            stale_note: if !valid {
                Some(self.voice().texts().stale.to_owned())
            } else {
                coming.then(|| self.voice().office().coming.to_owned())
            },
            can_undo: !self.editing.undo.is_empty(),
            can_redo: !self.editing.redo.is_empty(),
            placed_note: self.editing.placed_note(self.voice()),
            ..view
        }
    }

    /// What the page shows in the end.
    #[cfg(test)]
    pub fn whole_view(&mut self) -> View {
        self.finish_all();
        self.view()
    }

    /// The inputs as they stand, with what is wrong with them.
    pub fn form(&self) -> Form {
        let fields = self.editing.fields(self.voice());
        Form {
            problems: fields::problems(self.voice(), &fields),
            fields,
        }
    }
}

/// The first fault of a case, in words.
fn first_fault(voice: Voice, case: &Case) -> Option<String> {
    fault_words(voice, case, &case.faults())
}

fn fault_words(voice: Voice, case: &Case, faults: &[Fault]) -> Option<String> {
    let (label, message) = fields::first_fault(voice, case, faults)?;
    Some((voice.form().say.link_fault)(&label, &message))
}

/// Whether setting `path` overrides what was typed at `other`: the same field, or one field of
/// all workers and that of one of them.
fn covers(path: &str, other: &str) -> bool {
    path == other
        || match (input::Path::read(path), input::Path::read(other)) {
            (Some(a), Some(b)) => {
                a.name == b.name && (a.place == input::Place::All || b.place == input::Place::All)
            }
            _ => false,
        }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::answer;
    use crate::first::view::FootroomKind;
    use crate::page::fit::search::Search;
    use crate::page::planner::Planner;
    use crate::say::format::{self, Rounding};
    use crate::wire::link;
    use crate::wire::link::Shared;
    use footroom_core::assess::assess;
    use footroom_core::demo::{demo, demo_us};
    use footroom_core::solve::Options;

    fn desk() -> Page {
        let mut desk = Page::new(Lang::En, Units::Metric);
        desk.finish();
        desk
    }

    /// The case in a link, without the units and the language that go along.
    fn case_of(link: Option<String>) -> Option<String> {
        link?.split('&').next().map(str::to_owned)
    }

    fn link_of(desk: &mut Page) -> Option<String> {
        desk.finish();
        desk.link()
    }

    fn value(desk: &Page, path: &str) -> String {
        let form = desk.form();
        let field = form.fields.iter().find(|f| f.path == path);
        field.expect(path).value.clone()
    }

    fn fault(desk: &Page, path: &str) -> Option<String> {
        let form = desk.form();
        let field = form.fields.iter().find(|f| f.path == path);
        field.expect(path).fault.clone()
    }

    #[test]
    fn a_drag_is_one_step_of_undo_however_long_it_pauses() {
        let mut desk = desk();
        let path = "workers[1].position_m";
        let place = |desk: &Page| desk.case().workers[1].position_m;
        desk.drag(path, "12.5 m", true).expect("a field");
        desk.drag(path, "12 m", false).expect("a field");
        desk.drag(path, "11.75 m", true).expect("a field");
        desk.drag(path, "11.7 m", false).expect("a field");
        assert!(desk.undo());
        assert_eq!(place(&desk), 12.0);
        assert!(desk.undo());
        assert_eq!(place(&desk), 13.0);
        assert!(!desk.undo());
    }

    #[test]
    fn starts_with_the_demonstration_solved() {
        let view = desk().view();
        assert!(view.valid && desk().form().problems.is_empty() && !view.can_undo);
        assert_ne!(view.answer.kind, FootroomKind::Unknown);
        assert!(view.stack.len() >= 9 && desk().checks().rows.len() > 10);
        assert!(view.invented_note.is_some());
        assert!(view.duration_s > 1.0 && view.lowest_time_s > 0.5);
        assert!(
            view.model
                .starts_with(&format!("model {MODEL_VERSION}, result code ")),
            "{}",
            view.model
        );
        assert!(view.cautions[0].contains("qualified person"));
        assert!(view.description.contains("Worker 2"));
    }

    /// The browser's tests compare with the same file, so that both give the same bits. After a
    /// change of the mechanics: write the new line there, see `MODEL_VERSION` in the core.
    #[test]
    fn the_demonstration_has_its_known_fingerprint() {
        let mut desk = desk();
        let shared = link::decode(&link_of(&mut desk).expect("solved")).expect("own link");
        let line = format!("model {} {}", shared.model, shared.fingerprint);
        assert_eq!(
            line,
            include_str!("../../../tests/demo_fingerprint.txt").trim()
        );
    }

    #[test]
    fn the_shown_number_is_the_cores() {
        let mut desk = desk();
        for spans in ["9 + 9", "18", "6 + 6 + 6", "9.3 + 8.7"] {
            desk.set("line.spans_m", spans, 0.0).expect("path");
            let assessment = assess(desk.case(), Options::default()).expect("solved");
            let footroom_m = assessment.footroom.value;
            assert!(footroom_m <= assessment.nominal.footroom_m);
            let answer = desk.whole_view().answer;
            if answer.kind == FootroomKind::Unknown {
                continue;
            }
            let shown: f64 = answer
                .number
                .trim_end_matches(" m")
                .parse()
                .expect("number");
            let shown = if answer.kind == FootroomKind::Short {
                -shown
            } else {
                shown
            };
            let below = (footroom_m * 100.0 + 1.0e-6).floor() / 100.0;
            assert!(
                (shown - below).abs() < 1.0e-9,
                "{spans}: {shown} {footroom_m}"
            );
        }
    }

    #[test]
    fn a_faulty_value_keeps_its_text_and_the_last_result() {
        let mut desk = desk();
        let before = desk.view();
        desk.set("line.pretension_n", "99 kN", 0.0).expect("path");
        let view = desk.view();
        assert!(!view.valid && view.stale_note.is_some());
        assert_eq!(value(&desk, "line.pretension_n"), "99 kN");
        let message = fault(&desk, "line.pretension_n").expect("fault");
        assert!(
            message.contains("99.0 kN") && message.contains("0.05 kN to 40.0 kN"),
            "{message}"
        );
        assert_eq!(view.answer, before.answer);
        assert_eq!(desk.form().problems.len(), 1);
        // Another change does not bring the faulty case into the result.
        desk.set("site.margin_m", "0.5", 0.0).expect("path");
        assert_eq!(desk.view().answer, before.answer);
        // Mended, both changes count.
        desk.set("line.pretension_n", "5", 0.0).expect("path");
        let view = desk.whole_view();
        assert!(view.valid && desk.form().problems.is_empty());
        assert_ne!(view.answer, before.answer);
        assert_eq!(value(&desk, "line.pretension_n"), "5.0");
        assert_eq!(desk.case().site.margin_m, 0.5);
    }

    #[test]
    fn an_unreadable_text_is_kept_and_told() {
        let mut desk = desk();
        desk.set("site.margin_m", "a bit", 0.0).expect("path");
        assert_eq!(value(&desk, "site.margin_m"), "a bit");
        assert!(
            fault(&desk, "site.margin_m")
                .expect("fault")
                .contains("character 1")
        );
        desk.set_units(Units::Us);
        assert_eq!(value(&desk, "site.margin_m"), "a bit");
        desk.set("site.margin_m", "3 ft", 0.0).expect("path");
        assert!(desk.is_valid());
        assert_eq!(desk.case().site.margin_m, 0.9144);
    }

    #[test]
    fn a_field_of_all_overrides_what_was_typed_for_one() {
        let mut desk = desk();
        desk.set("workers[1].mass_kg", "lots", 0.0).expect("path");
        assert!(!desk.is_valid());
        desk.set("workers.all.mass_kg", "95", 0.0).expect("path");
        assert!(desk.is_valid());
        assert!(desk.case().workers.iter().all(|w| w.mass_kg == 95.0));
    }

    #[test]
    fn a_fault_of_a_worker_goes_with_him() {
        let mut desk = desk();
        desk.set("workers[2].mass_kg", "lots", 0.0).expect("path");
        assert!(!desk.is_valid());
        desk.set("workers.count", "2", 0.0).expect("path");
        assert!(desk.is_valid());
        assert_eq!(desk.case().workers.len(), 2);
    }

    #[test]
    fn what_was_typed_for_an_own_limit_goes_with_it() {
        let mut desk = desk();
        desk.set("own_limits.count", "3", 0.0).expect("path");
        for i in 0..3 {
            let (path, text) = (format!("own_limits[{i}].limit"), format!("wrong {i}"));
            desk.set(&path, &text, 0.0).expect(&path);
        }
        desk.set("own_limits[1].kept", "off", 0.0).expect("path");
        assert_eq!(value(&desk, "own_limits[0].limit"), "wrong 0");
        assert_eq!(value(&desk, "own_limits[1].limit"), "wrong 2");
        assert_eq!(desk.form().problems.len(), 2);
        assert!(desk.undo());
        assert_eq!(value(&desk, "own_limits[1].limit"), "wrong 1");
    }

    #[test]
    fn units_and_language_move_no_value() {
        let mut desk = desk();
        let (case, link) = (desk.case().clone(), link_of(&mut desk));
        for units in [Units::Us, Units::Metric, Units::Us] {
            desk.set_units(units);
            for lang in [Lang::Es, Lang::En] {
                desk.set_language(lang);
                for field in &desk.form().fields {
                    let mixed = field.value.is_empty() && field.path.starts_with("workers.all.");
                    if !mixed {
                        desk.set(&field.path, &field.value, 0.0).expect(&field.path);
                    }
                }
                assert_eq!(desk.case(), &case);
                assert_eq!(case_of(link_of(&mut desk)), case_of(link.clone()));
                assert!(!desk.view().can_undo);
            }
        }
    }

    #[test]
    fn undo_and_redo_walk_through_valid_and_faulty_states() {
        let mut desk = desk();
        let first = desk.whole_view();
        desk.set("workers.count", "1", 0.0).expect("path");
        let second = desk.whole_view();
        desk.set("line.pretension_n", "none", 1.0e4).expect("path");
        let third = desk.whole_view();
        assert!(!third.valid);
        assert!(desk.undo());
        assert_eq!(
            View {
                can_redo: false,
                ..desk.whole_view()
            },
            second
        );
        assert!(desk.undo());
        assert_eq!(
            View {
                can_redo: false,
                ..desk.whole_view()
            },
            first
        );
        assert!(!desk.undo());
        assert!(desk.redo() && desk.redo() && !desk.redo());
        assert_eq!(desk.whole_view(), third);
        assert!(desk.undo());
        desk.set("site.margin_m", "0.9", 2.0e4).expect("path");
        assert!(!desk.redo());
    }

    /// What leaves the page, and what is made of the answer, is of the whole one.
    #[test]
    fn the_first_answer_is_marked_and_never_leaves_the_page() {
        for lang in [Lang::En, Lang::Es] {
            let mut desk = Page::new(lang, Units::Metric);
            let first = desk.view();
            assert!(!first.whole && first.shared.is_none());
            assert_eq!(first.answer.detail, desk.voice().texts().first_answer);
            assert!(first.model.ends_with(answer::DASH), "{}", first.model);
            assert!(
                desk.link().is_none() && desk.told().is_none() && desk.checks().rows.is_empty()
            );
            desk.finish();
            assert!(desk.assessment().expect("solved").whole && desk.is_whole());
            let shared = link::decode(&desk.link().expect("solved")).expect("own link");
            let whole = desk.view();
            assert!(whole.whole && whole.answer.detail != first.answer.detail);
            assert_ne!(whole.answer.number, first.answer.number);
            let footroom_m = desk.assessment().expect("solved").footroom.value;
            assert_eq!(shared.footroom_m, footroom_m);
            // After a change, too.
            desk.set("site.margin_m", "0.9", 0.0).expect("path");
            assert!(!desk.is_whole() && !desk.view().whole);
            assert!(desk.assessment().is_none());
            desk.finish();
            assert!(desk.assessment().expect("solved").whole && desk.is_whole());
            // Who falls alone has his whole answer at once.
            desk.set("workers.count", "1", 0.0).expect("path");
            assert!(desk.is_whole() && desk.view().whole && !desk.step());
        }
    }

    /// With more than one who falls the page says what nobody can promise.
    #[test]
    fn a_crew_is_told_that_the_last_decimeter_is_not_promised() {
        for voice in crate::say::faults::Voice::ALL {
            let mut desk = Page::new(voice.lang, voice.units);
            let note = desk.whole_view().methods.note;
            let tenth = format::length_rounded(voice.units, 0.1, Rounding::Nearest);
            let said = (voice.texts().say.crew_last)(&tenth);
            assert!(note.contains(&said), "{note}");
            desk.set("workers.count", "1", 0.0).expect("path");
            let view = desk.whole_view();
            for text in [view.answer.detail, view.methods.note] {
                assert!(!text.contains(&said[..20]), "{text}");
            }
        }
    }

    #[test]
    fn a_drag_is_one_step() {
        let mut desk = desk();
        for i in 0..30 {
            let text = format!("{} m", 11.0 + 0.05 * f64::from(i));
            desk.set("workers[0].position_m", &text, 16.0 * f64::from(i))
                .expect("path");
        }
        assert!((desk.case().workers[0].position_m - 12.45).abs() < 1.0e-9);
        assert!(desk.undo());
        assert_eq!(desk.case(), &demo());
        assert!(!desk.undo());
        // Two entries apart in time are two steps.
        desk.set("site.margin_m", "0.9", 0.0).expect("path");
        desk.set("site.margin_m", "0.8", 5_000.0).expect("path");
        assert!(desk.undo());
        assert_eq!(desk.case().site.margin_m, 0.9);
    }

    #[test]
    fn a_link_gives_the_same_result_elsewhere() {
        let mut sender = desk();
        sender.set("line.spans_m", "6 + 6 + 6", 0.0).expect("path");
        let link = link_of(&mut sender).expect("solved");
        let mut reader = Page::new(Lang::Es, Units::Us);
        reader.open_link(&link).expect("own link");
        assert_eq!(reader.view().shared, None, "not before the answer is whole");
        let note = reader.whole_view().shared.expect("opened");
        assert!(note.same, "{}", note.message);
        assert_eq!(reader.case(), sender.case());
        assert_eq!(case_of(link_of(&mut reader)), case_of(Some(link)));
        // A change of the case ends the comparison; taking it back brings it again.
        reader.set("workers.count", "2", 0.0).expect("path");
        assert_eq!(reader.whole_view().shared, None);
        assert!(reader.undo());
        assert!(reader.whole_view().shared.is_some());
        assert!(reader.undo());
        assert_eq!(reader.case(), &demo_us());
    }

    #[test]
    fn another_result_is_told() {
        let mut desk = desk();
        let link = link_of(&mut desk).expect("solved");
        let good = link::decode(&link).expect("own link");
        let open = |shared: Shared| {
            let mut reader = self::desk();
            let link = link::encode(&shared).expect("finite");
            reader.open_link(&link).expect("taken");
            reader.whole_view().shared.expect("opened")
        };
        let older = open(Shared {
            model: 0,
            fingerprint: "0".repeat(16),
            footroom_m: 5.42,
            ..good.clone()
        });
        assert!(!older.same);
        assert!(
            older.message.contains("model has changed") && older.message.contains("was 5.42 m"),
            "{}",
            older.message
        );
        let altered = open(Shared {
            footroom_m: good.footroom_m + 1.0,
            ..good
        });
        assert!(
            !altered.same && altered.message.contains("although"),
            "{}",
            altered.message
        );
    }

    #[test]
    fn a_bad_link_changes_nothing() {
        let mut desk = desk();
        desk.set("line.spans_m", "6 + six", 0.0).expect("path");
        let before = desk.view();
        let mut faulty = desk.case().clone();
        faulty.workers[1].mass_kg = 5.0;
        let faulty = link::encode(&Shared {
            model: 1,
            fingerprint: String::new(),
            footroom_m: 0.0,
            required_m: 0.0,
            case: faulty,
        })
        .expect("finite");
        for text in [
            "",
            "v1.",
            "v9.abcd",
            "hello",
            "v1.%%%",
            &faulty,
            &faulty[..60],
        ] {
            let message = desk.open_link(text).expect_err(text);
            assert!(message.ends_with("was left as it is."), "{message}");
            assert_eq!(desk.view(), before, "{text}");
        }
        let message = desk.open_link(&faulty).expect_err("faulty");
        assert!(
            message.contains("Weight") && message.contains("5 kg"),
            "{message}"
        );
    }

    #[test]
    fn what_was_typed_but_cannot_be_used_is_put_back() {
        let mut desk = desk();
        assert_eq!(desk.unfinished(), None);
        desk.set("line.spans_m", "6 + six", 0.0).expect("path");
        desk.set("workers[1].mass_kg", "5", 0.0).expect("path");
        // Good, but after a faulty one: in no link.
        desk.set("line.pretension_n", "5.5 kN", 0.0).expect("path");
        let text = desk.unfinished().expect("faulty");
        let mut again = Page::new(Lang::En, Units::Metric);
        assert_eq!(again.resume(&text), Some(()));
        assert_eq!(again.form(), desk.form());
        assert_eq!(value(&again, "line.spans_m"), "6 + six");
        assert_eq!(again.whole_view().answer, desk.whole_view().answer);
        assert!(again.undo());
        assert_eq!(again.form(), Page::new(Lang::En, Units::Metric).form());
        for end in 0..text.len() {
            let before = again.form();
            assert_eq!(again.resume(&text[..end]), None, "cut at {end}");
            assert_eq!(again.form(), before);
        }
    }

    /// Under a link that cannot be read no number of the example stands, in either language; a later
    /// link, or a wish for the example, ends that.
    #[test]
    fn a_refused_first_link_shows_no_answer_of_the_example() {
        let good = link_of(&mut desk()).expect("solved");
        for (lang, none) in [
            (Lang::En, "could not be read"),
            (Lang::Es, "no se pudo leer"),
        ] {
            let mut desk = Page::new(lang, Units::Metric);
            let example = desk.whole_view();
            let message = desk.open_link(&good[..80]).expect_err("cut");
            assert!(!message.contains("left as it is"), "{message}");
            let view = desk.view();
            assert!(
                view.blank && view.answer.kind == FootroomKind::Unknown,
                "{view:?}"
            );
            assert!(view.answer.sentence.contains(none), "{view:?}");
            assert!(view.stack.is_empty() && view.methods.rows.is_empty());
            assert!(view.title.is_empty() && view.invented_note.is_none());
            assert!(desk.readout(0.7).rows.is_empty() && desk.outcome().is_none());
            let shown = serde_json::to_string(&view).expect("plain");
            assert!(!shown.contains(&example.answer.number), "{shown}");
            // Another bad one changes nothing about it.
            assert!(desk.open_link("v1.").is_err());
            assert_eq!(desk.view(), view);
            desk.demo();
            assert_eq!(desk.whole_view(), example);
            assert!(desk.open_link("v1.").is_err());
            desk.open_link(&good).expect("its own link");
            let opened = desk.whole_view();
            assert!(!opened.blank && opened.shared.is_some_and(|note| note.same));
            // Now there is a case of the visitor's, which a bad link leaves where it is.
            assert!(desk.open_link("v1.").is_err());
            assert_eq!(desk.view().answer, opened.answer);
        }
    }

    #[test]
    fn unknown_paths_are_the_pages_mistake() {
        let mut desk = desk();
        let before = desk.view();
        assert_eq!(
            desk.set("workers[7].mass_kg", "90", 0.0),
            Err(InputFault::NoSuchField)
        );
        assert_eq!(desk.view(), before);
    }

    #[test]
    fn readouts_follow_the_fall() {
        let desk = desk();
        let at = |time_s| desk.readout(time_s);
        assert!(
            at(0.3).spoken.contains("in free fall"),
            "{}",
            at(0.3).spoken
        );
        assert!(
            at(0.7).spoken.contains("being stopped"),
            "{}",
            at(0.7).spoken
        );
        let lowest = at(desk.view().lowest_time_s);
        assert!(
            lowest.spoken.contains("at the lowest point"),
            "{}",
            lowest.spoken
        );
        let soles = lowest
            .rows
            .iter()
            .find(|r| r.label.starts_with("feet"))
            .expect("feet");
        let focus = desk.governing().expect("solved").worker;
        let stack = &desk.outcome().expect("solved").workers[focus];
        // Where the fall was computed: allowance and margin are kept free below it.
        let stack = &stack.history_stack;
        let expected = stack.required_m - stack.margin_m - stack.allowance_m;
        let shown: f64 = soles.value.trim_end_matches(" m").parse().expect("metres");
        assert!((shown - expected).abs() < 0.02, "{shown} {expected}");
        for odd in [f64::NAN, f64::INFINITY, -1.0, 1.0e9] {
            assert!(!at(odd).rows.is_empty());
        }
    }

    #[test]
    fn the_worst_that_was_found_can_be_loaded() {
        let mut desk = desk();
        let text = case_json::to_text(desk.case()).expect("finite");
        let planner = Planner::new(&text, Lang::En, Units::Metric);
        let mut planner = planner.expect("a case");
        // Another search begins anew.
        planner.search(Search::Delay).expect("a step");
        let first = planner.search(Search::Places).expect("a step");
        assert_eq!((first.made, first.done), (1, false));
        let found = loop {
            let step = planner.search(Search::Places).expect("a step");
            if step.done {
                break step.case_text;
            }
        };
        desk.open_case(&found).expect("its own text");
        assert_eq!(case_json::from_text(&found).as_ref(), Ok(desk.case()));
        assert_ne!(desk.case(), &demo());
        assert!(desk.undo());
        assert_eq!(desk.case(), &demo());
        assert_eq!(
            planner.search(Search::Places).map(|step| step.made),
            Some(1)
        );
    }

    #[test]
    fn a_text_that_is_no_good_case_changes_nothing() {
        let mut desk = desk();
        let before = desk.view();
        let good = case_json::to_text(desk.case()).expect("finite");
        let faulty = good.replace("\"mass_kg\":90", "\"mass_kg\":5");
        assert_ne!(good, faulty);
        for (text, said) in [("{", "byte 2"), ("7", ""), (faulty.as_str(), "Weight")] {
            let message = desk.open_case(text).expect_err(text);
            assert!(message.contains(said), "{message}");
            assert_eq!(desk.view(), before);
        }
    }

    #[test]
    fn a_day_too_cold_for_the_line_is_a_fault() {
        let mut desk = desk();
        desk.set("line.pretension_n", "38 kN", 0.0).expect("path");
        assert!(desk.is_valid());
        desk.set("temperature.installed_k", "60", 0.0)
            .expect("path");
        desk.set("temperature.today_k", "-50", 0.0).expect("path");
        let view = desk.view();
        assert!(!view.valid, "{:?}", view.answer);
        assert!(fault(&desk, "line.pretension_n").is_some());
    }

    #[test]
    fn undo_is_bounded() {
        let mut desk = desk();
        for i in 0..(UNDO_MAX + 20) {
            let text = format!("job {i}");
            desk.set("title", &text, 1.0e4 * i as f64).expect("path");
        }
        assert_eq!(desk.editing.undo.len(), UNDO_MAX);
    }
}
