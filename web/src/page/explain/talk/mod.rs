//! The talk: what a crew lead shows a crew on a projector, step by step, made of the case at hand.
//!
//! [`script`] derives the cases, this file solves them as they are asked for and words them,
//! [`plan`] is what the leader has made of the script, [`live`] what is tried while it runs,
//! [`legible`] how large the type must be. After the steps comes the code of the link, [`CODE`].

pub mod legible;
pub mod live;
pub mod plan;
pub mod script;

use footroom_core::anywhere::Anywhere;
use footroom_core::assess::Assessment;
use footroom_core::case::Case;
use footroom_core::field::Quantity;
use footroom_core::solve::Doubt;
use footroom_core::standing::Mark;
use serde::Serialize;

use self::live::{About, Live, Tried};
use self::plan::Plan;
use self::script::{Change, Derived, Step};
use crate::first::answer::{DASH, Told};
use crate::first::governing::GoverningStack;
use crate::first::lines::{mark_key, sign};
use crate::first::scene::layout::Window;
use crate::first::scene::svg::Measure;
use crate::first::scene::{self, Added, SceneView};
use crate::first::view::{AnswerLine, FootroomKind};
use crate::first::whole_steps::{MARGIN, PARTS, ShownStack};
use crate::page::beside::{Asked, is_beside};
use crate::page::record::qr;
use crate::say::faults::Voice;
use crate::say::format::{self, Rounding};
use crate::say::texts::talk::{self as words, Texts};
use crate::wire::link::{self, LinkFault};

/// The shapes for TypeScript.
pub const TYPESCRIPT: &str = r#"
export interface TalkList {
  entries: TalkEntry[];
  edited_note: string | null;
}
export interface TalkEntry {
  key: string;
  title: string;
  on: boolean;
  edited: boolean;
  on_label: string;
  sentence_label: string;
  earlier_label: string;
  later_label: string;
}
export interface TalkStep {
  key: string;
  title: string;
  place: string;
  sentence: string;
  edited: string | null;
  number: string;
  word: string;
  live: string;
  kind: "spare" | "short" | "unknown";
  mark: LineMark;
  open: TalkLine[];
  rows: Row[];
  note: string;
  plays: boolean;
  duration_s: number;
  lowest_time_s: number;
  speed: number;
  marks_s: number[];
  description: string;
  job: string;
  caution: string;
}
export interface TalkLine {
  text: string;
  mark: LineMark;
}
export interface TalkCode {
  title: string;
  place: string;
  sentence: string;
  svg: string;
  note: string;
  job: string;
  caution: string;
}
"#;

/// Key of the last step: the link as a code, large, for the phones in the room. It is always there.
pub const CODE: &str = "code";

/// The steps of a talk as a list to edit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct List {
    /// The steps whose premise holds, in the order of the talk.
    pub entries: Vec<ListEntry>,
    /// Said when a sentence is the leader's own.
    pub edited_note: Option<&'static str>,
}

/// One step in the list.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ListEntry {
    /// Its key.
    pub key: &'static str,
    /// Its title.
    pub title: String,
    /// Whether it is shown.
    pub on: bool,
    /// Whether its sentence is the leader's own.
    pub edited: bool,
    /// Name of its check box.
    pub on_label: String,
    /// Name of its sentence.
    pub sentence_label: String,
    /// Name of the command that brings it forward.
    pub earlier_label: String,
    /// Name of the command that brings it back.
    pub later_label: String,
}

/// What does not hold, or is not known, beside the room.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    /// With the sign of its mark.
    pub text: String,
    /// Its own mark, as of [`AnswerLine::mark`].
    pub mark: &'static str,
}

/// One step as it is shown.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Shown {
    /// Its key.
    pub key: &'static str,
    /// What happens in it.
    pub title: String,
    /// Its place in the talk.
    pub place: String,
    /// The one sentence.
    pub sentence: String,
    /// Said beside a sentence of the leader's own.
    pub edited: Option<&'static str>,
    /// The one number with its unit.
    pub number: String,
    /// What it is.
    pub word: String,
    /// What is tried with the crew instead of what is planned; empty: nothing.
    pub live: String,
    /// What it says of the footroom.
    pub kind: FootroomKind,
    /// The worst mark of the lines of the answer to this fall; `open` where it has none.
    pub mark: &'static str,
    /// What does not hold beside the room: strength and limits of this fall, and, where all fall as
    /// given, the worst place on the line.
    pub open: Vec<Line>,
    /// The footroom of the falls right before this one; of a crew that is tried, that of this step
    /// as planned.
    pub rows: Vec<crate::first::view::Row>,
    /// For the leader.
    pub note: &'static str,
    /// Whether a fall is played.
    pub plays: bool,
    /// Length of what is played, s.
    pub duration_s: f64,
    /// The lowest instant, where it is held, s.
    pub lowest_time_s: f64,
    /// Part of the true speed at which it is played.
    pub speed: f64,
    /// Instants of note, s.
    pub marks_s: Vec<f64>,
    /// The scene in words.
    pub description: String,
    /// The job, said to be invented when it is.
    pub job: String,
    /// The cautions in a line.
    pub caution: &'static str,
}

impl Shown {
    /// The same with its quantities held together: type that large breaks lines often.
    pub fn unbroken(mut self) -> Self {
        for row in &mut self.rows {
            row.value = format::unbroken(&row.value);
        }
        Self {
            sentence: format::unbroken(&self.sentence),
            number: format::unbroken(&self.number),
            ..self
        }
    }
}

/// The last step as it is shown.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Code {
    /// What it is.
    pub title: String,
    /// Its place in the talk.
    pub place: String,
    /// What the code leads to, or why there is none.
    pub sentence: String,
    /// The code as a drawing; empty: the link is too long for one.
    pub svg: String,
    /// For the leader.
    pub note: &'static str,
    /// The job, said to be invented when it is.
    pub job: String,
    /// The cautions in a line.
    pub caution: &'static str,
}

/// What a talk is about.
#[derive(Clone, Copy)]
pub struct Subject<'a> {
    /// Language and units.
    pub voice: Voice,
    /// The case at hand.
    pub case: &'a Case,
    /// What the leader tries: the case at hand is a copy of the planned one, changed by it.
    pub live: Option<(&'a Live, &'a Case)>,
    /// Its assessment.
    pub assessment: Option<&'a Assessment>,
    /// The worst anywhere on its line; `None`: it is still looked for.
    pub anywhere: Option<&'a Anywhere>,
}

/// A derived case with its answer.
#[derive(Debug)]
struct Solved {
    derived: Derived,
    assessment: Assessment,
}

/// What has been found out of a step: nothing yet, that its premise does not hold, or its case.
#[derive(Debug, Default)]
enum Made {
    #[default]
    Unknown,
    Absent,
    Derived(Box<Derived>),
    Solved(Box<Solved>),
}

/// What is still to be done before something can be shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lacks {
    /// Nothing.
    Nothing,
    /// Something that is soon done: ask again.
    More,
    /// Something that is made beside the page.
    Waits,
}

/// The plan, and what has been computed for it so far.
#[derive(Debug, Default)]
pub struct Talk {
    plan: Plan,
    made: [Made; Step::ALL.len()],
    /// What was made of the planned case, while something else is tried.
    planned: Option<Box<[Made; Step::ALL.len()]>>,
    /// What is wanted from beside the page and was not taken from here.
    wanted: Vec<(Case, Asked)>,
    /// What uses an absorber up, as it came from there: of which case and worker.
    used_up: Option<(Case, usize, Option<Change>)>,
    /// Counts what changes in [`Talk::made`].
    turn: u32,
    window: Option<(Sheet, u32, Window)>,
}

/// A sheet: width, height, CSS px, device px in each, size of the type.
type Sheet = [f64; 4];

impl Subject<'_> {
    fn words(&self) -> &'static Texts {
        words::of(self.voice.lang)
    }

    fn all_at_once(&self) -> bool {
        let mut workers = self.case.workers.iter();
        workers.all(|w| w.fall_time_s == Some(0.0))
    }

    /// The worker with the least footroom as given; while something is tried, the one who has it as
    /// planned, if he is there.
    fn focus(&self) -> Option<usize> {
        let found = self.assessment?.footroom.worker;
        Some(self.kept(|about| about.focus).unwrap_or(found))
    }

    /// One of those whom the talk is about, among the crew that is tried.
    fn kept(&self, which: impl Fn(About) -> Option<usize>) -> Option<usize> {
        let (live, _) = self.live?;
        live.place_of(which(live.about())?)
    }
}

impl Talk {
    /// The leader's plan.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// The leader's plan, to change it.
    pub fn plan_mut(&mut self) -> &mut Plan {
        &mut self.plan
    }

    /// Takes the plan that a link carries; one without a plan brings that of the page.
    ///
    /// # Errors
    /// Why its plan cannot be read; the present one stays then.
    pub fn open_link(&mut self, link: &str) -> Result<(), LinkFault> {
        self.plan = match link::part(link) {
            Some((begins, part)) => Plan::decode(part, begins)?,
            None => Plan::default(),
        };
        Ok(())
    }

    /// Forgets what was computed: the case has changed, or its words.
    pub fn forget(&mut self) {
        self.made = Default::default();
        self.planned = None;
        self.window = None;
        self.wanted.clear();
        self.used_up = None;
    }

    /// Something is tried, or something else than before: what was made of the planned case stays for
    /// [`Talk::as_planned`], and the window of the drawings too, so that their scale does.
    pub fn try_out(&mut self) {
        let made = core::mem::take(&mut self.made);
        if self.planned.is_none() {
            self.planned = Some(Box::new(made));
        }
        self.turn += 1;
    }

    /// Nothing is tried any more.
    pub fn as_planned(&mut self) {
        if let Some(planned) = self.planned.take() {
            self.made = *planned;
            self.turn += 1;
        }
    }

    /// Solves the next step that is shown, however long it takes; false: all of them are solved, so that
    /// the window of their drawings is that of all.
    pub fn prepare(&mut self, subject: Subject<'_>) -> bool {
        let steps = self.steps(subject);
        let open = |step: &&Step| matches!(self.made[**step as usize], Made::Derived(_));
        let Some(&next) = steps.iter().find(open) else {
            return false;
        };
        self.solve(subject, next);
        true
    }

    /// Solves one of what a step still lacks to be shown, or of what all steps that are shown do
    /// (`None`), so that none takes longer than a moment; what does is wanted from beside the page.
    pub fn lacks(&mut self, subject: Subject<'_>, step: Option<Step>) -> Lacks {
        // Which steps there are hangs on answers, too.
        if is_beside(subject.case) {
            let mut waits = false;
            if !subject.all_at_once() && self.derive(subject, Step::All) {
                waits |= self.is_wanted(subject, Step::All);
            }
            if let (Some(focus), Made::Unknown) =
                (subject.focus(), &self.made[Step::UsedUp as usize])
                && self.used_up_of(subject, focus).is_none()
                && self.planned.is_none()
            {
                self.want(subject.case, Asked::UsedUp(focus, subject.voice.units));
                waits = true;
            }
            if waits {
                return Lacks::Waits;
            }
        }
        let mut needed = Vec::new();
        let steps = self.steps(subject);
        match step.map(|step| (step, steps.iter().position(|&s| s == step))) {
            Some((step, at)) => {
                needed.push(step);
                needed.extend(before(step));
                let at = at.filter(|_| subject.live.is_none()).unwrap_or(0);
                needed.extend(steps.into_iter().take(at).filter(|&s| counts(s)));
            }
            None => needed = steps,
        }
        let mut lacks = Lacks::Nothing;
        for step in needed {
            if !self.derive(subject, step) || self.solved(step).is_some() {
                continue;
            }
            if self.is_wanted(subject, step) {
                lacks = Lacks::Waits;
            } else {
                self.solve(subject, step);
                return Lacks::More;
            }
        }
        lacks
    }

    /// Wants the answer to a step from beside the page, if it is not there and takes long; false: it need
    /// not be waited for.
    fn is_wanted(&mut self, subject: Subject<'_>, step: Step) -> bool {
        let Made::Derived(derived) = &self.made[step as usize] else {
            return false;
        };
        let case = &derived.case;
        if (case == subject.case && subject.assessment.is_some()) || !is_beside(case) {
            return false;
        }
        let case = case.clone();
        self.want(&case, Asked::Answer);
        true
    }

    fn want(&mut self, case: &Case, asked: Asked) {
        let same = |(of, what): &(Case, Asked)| of == case && *what == asked;
        if !self.wanted.iter().any(same) {
            self.wanted.push((case.clone(), asked));
        }
    }

    /// Whether something is wanted from beside the page.
    pub fn wants(&self) -> bool {
        !self.wanted.is_empty()
    }

    /// What is wanted from there.
    pub fn take_wants(&mut self) -> Vec<(Case, Asked)> {
        core::mem::take(&mut self.wanted)
    }

    /// Takes the answer to a case that was made beside the page, for every step that is about it.
    pub fn take_answer(&mut self, case: &Case, assessment: &Assessment) {
        let planned = self.planned.as_deref_mut();
        for made in self.made.iter_mut().chain(planned.into_iter().flatten()) {
            if let Made::Derived(derived) = made
                && derived.case == *case
            {
                *made = Made::Solved(Box::new(Solved {
                    derived: (**derived).clone(),
                    assessment: assessment.clone(),
                }));
                self.turn += 1;
            }
        }
    }

    /// Takes what uses an absorber up, found beside the page.
    pub fn take_used_up(&mut self, case: Case, focus: usize, change: Option<Change>) {
        self.used_up = Some((case, focus, change));
    }

    fn used_up_of(&self, subject: Subject<'_>, focus: usize) -> Option<Option<Change>> {
        let found = self.used_up.as_ref();
        let found = found.filter(|(case, of, _)| case == subject.case && *of == focus);
        found.map(|(.., change)| *change)
    }

    /// Brings a step before or after the next one in the list.
    pub fn shift(&mut self, subject: Subject<'_>, step: Step, earlier: bool) -> bool {
        let there = Step::ALL.map(|step| self.is_there(subject, step));
        self.plan.shift(step, earlier, |step| there[step as usize])
    }

    /// Whether the premise of a step holds.
    pub fn is_there(&mut self, subject: Subject<'_>, step: Step) -> bool {
        // Whether an absorber is used up takes many runs: while something is tried that is asked only
        // where it is looked at.
        if let (Step::UsedUp, Made::Unknown, Some(planned)) =
            (step, &self.made[step as usize], &self.planned)
        {
            return !matches!(planned[step as usize], Made::Absent);
        }
        self.derive(subject, step)
    }

    /// Derives the case of a step; false: its premise does not hold.
    fn derive(&mut self, subject: Subject<'_>, step: Step) -> bool {
        if matches!(self.made[step as usize], Made::Unknown) {
            let focus = match step {
                Step::One | Step::Two => self.together(subject),
                _ => subject.focus(),
            };
            let (case, units) = (subject.case, subject.voice.units);
            let derived = focus.and_then(|focus| match self.used_up_of(subject, focus) {
                Some(change) if step == Step::UsedUp => {
                    let derived = script::used_up_case(case, focus, change?)?;
                    derived.case.faults().is_empty().then_some(derived)
                }
                // Two of more stay two, although then all fall.
                _ if step == Step::Two
                    && case.workers.len() == 2
                    && subject.live.is_some_and(|(_, plan)| plan.workers.len() > 2) =>
                {
                    script::two(case, focus)
                }
                _ => script::derived(step, case, focus, units),
            });
            self.made[step as usize] =
                derived.map_or(Made::Absent, |derived| Made::Derived(Box::new(derived)));
        }
        !matches!(self.made[step as usize], Made::Absent)
    }

    /// The worker with the least footroom when all fall at one instant: whoever is to be compared with
    /// them falls alone at the same place.
    fn together(&mut self, subject: Subject<'_>) -> Option<usize> {
        if let Some(kept) = subject.kept(|about| about.alone) {
            return Some(kept);
        }
        if subject.all_at_once() {
            return subject.focus();
        }
        self.solve(subject, Step::All);
        let all = self.solved(Step::All);
        all.map(|all| all.assessment.footroom.worker)
            .or(subject.focus())
    }

    /// Whom the talk is about, of the planned crew.
    pub fn about(&mut self, subject: Subject<'_>) -> About {
        match subject.live {
            Some((live, _)) => live.about(),
            None => About {
                alone: self.together(subject),
                focus: subject.focus(),
            },
        }
    }

    /// One user fewer than are at hand, as a step asks for it; `None`: one is left.
    pub fn fewer(&mut self, subject: Subject<'_>, step: Step) -> Option<Tried> {
        let About { alone, focus } = self.about(subject);
        self.derive(subject, step);
        let falls: Vec<bool> = match &self.made[step as usize] {
            Made::Derived(derived) => derived.falls(),
            Made::Solved(solved) => solved.derived.falls(),
            Made::Unknown | Made::Absent => Vec::new(),
        };
        let about = match step {
            Step::One | Step::Two | Step::All => alone,
            Step::Rest | Step::UsedUp | Step::Post | Step::Today => focus,
        };
        let (tried, planned) = match subject.live {
            Some((live, planned)) => (live.tried().clone(), planned),
            None => (Tried::default(), subject.case),
        };
        tried.fewer(planned, about, &falls)
    }

    fn solve(&mut self, subject: Subject<'_>, step: Step) {
        if !self.derive(subject, step) {
            return;
        }
        let made = &mut self.made[step as usize];
        if let Made::Derived(derived) = made {
            // What is played of the case at hand is solved already.
            let same = subject
                .assessment
                .filter(|found| derived.case == *subject.case && found.nominal.traces.is_some());
            let found = same.cloned().or_else(|| script::answered(&derived.case));
            *made = match found {
                Some(assessment) => Made::Solved(Box::new(Solved {
                    derived: (**derived).clone(),
                    assessment,
                })),
                None => Made::Absent,
            };
            self.turn += 1;
        }
    }

    fn solved(&self, step: Step) -> Option<&Solved> {
        match &self.made[step as usize] {
            Made::Solved(solved) => Some(solved),
            _ => None,
        }
    }

    /// The steps as a list to edit.
    pub fn list(&mut self, subject: Subject<'_>) -> List {
        let t = subject.words();
        let entries = self.plan.entries().to_vec();
        let entries: Vec<ListEntry> = entries
            .into_iter()
            .filter(|entry| self.is_there(subject, entry.step))
            .map(|entry| {
                let title = title(t, subject, entry.step);
                let of = |what: &str| (t.say.of_step)(what, &title);
                ListEntry {
                    key: entry.step.key(),
                    on: entry.on,
                    edited: entry.say.is_some(),
                    on_label: of(t.talk_on),
                    sentence_label: of(t.talk_sentence),
                    earlier_label: of(t.talk_earlier),
                    later_label: of(t.talk_later),
                    title,
                }
            })
            .collect();
        List {
            edited_note: entries
                .iter()
                .any(|entry| entry.edited)
                .then_some(t.edited_note),
            entries,
        }
    }

    /// The steps that are shown, in their order.
    pub fn steps(&mut self, subject: Subject<'_>) -> Vec<Step> {
        let on = |entry: &&plan::StepPlan| entry.on;
        let steps: Vec<Step> = self
            .plan
            .entries()
            .iter()
            .filter(on)
            .map(|e| e.step)
            .collect();
        steps
            .into_iter()
            .filter(|&step| self.is_there(subject, step))
            .collect()
    }

    /// One step as it is shown; `None`: there is no answer to it.
    pub fn step(&mut self, subject: Subject<'_>, step: Step) -> Option<Shown> {
        self.solve(subject, step);
        let steps = self.steps(subject);
        let at = steps.iter().position(|&s| s == step);
        // What the sentence compares with, and the falls so far.
        for other in before(step) {
            self.solve(subject, other);
        }
        // What is tried stands beside what is planned, not beside the other steps.
        let before = at.filter(|_| subject.live.is_none());
        let falls = before.map_or(&[][..], |at| &steps[..at]);
        for &fall in falls.iter().filter(|&&s| counts(s)) {
            self.solve(subject, fall);
        }
        let solved = self.solved(step)?;
        let told = solved.told(subject.voice);
        let t = subject.words();
        let answer = told.answer();
        let (sentence, number, word) = self.say(subject, step)?;
        // The numbers in a sentence of the leader's own are those of the plan.
        let own = self.plan.entry(step).and_then(|e| e.say.clone());
        let own = own.filter(|_| subject.live.is_none());
        let falls: Vec<Step> = falls.iter().copied().filter(|&s| counts(s)).collect();
        let row = |label: String, solved: &Solved| {
            let answer = solved.told(subject.voice).answer();
            crate::first::view::Row {
                label,
                // Room to spare is what a footroom is; a lack of it is said.
                value: match answer.kind {
                    FootroomKind::Short => footroom_words(&answer.number, &answer.word),
                    FootroomKind::Spare | FootroomKind::Unknown => answer.number,
                },
            }
        };
        let mut rows: Vec<crate::first::view::Row> = falls
            .iter()
            .skip(falls.len().saturating_sub(ROWS_MAX))
            .filter_map(|&fall| Some(row(title(t, subject, fall), self.solved(fall)?)))
            .collect();
        if let Some(planned) = &self.planned
            && let Made::Solved(planned) = &planned[step as usize]
            && counts(step)
        {
            let users = planned.derived.case.workers.len();
            rows.push(row((t.say.row_planned)(users), planned));
        }
        let plays = step != Step::Rest;
        let traces = solved.assessment.nominal.traces.as_ref();
        Some(Shown {
            key: step.key(),
            title: title(t, subject, step),
            // The code comes behind the steps.
            place: at.map_or_else(String::new, |at| (t.say.place)(at + 1, steps.len() + 1)),
            edited: own.is_some().then_some(t.edited),
            sentence: own.unwrap_or(sentence),
            number,
            word,
            live: subject.live.map_or_else(String::new, |(live, planned)| {
                live.said(subject.voice, planned)
            }),
            kind: if counts(step) {
                answer.kind
            } else {
                FootroomKind::Unknown
            },
            mark: if counts(step) {
                answer.mark
            } else {
                mark_key(Mark::Open)
            },
            open: if counts(step) {
                self.open(subject, step, &told)
            } else {
                Vec::new()
            },
            rows,
            note: note(t, step),
            plays,
            duration_s: traces.map_or(0.0, |traces| {
                traces.interval_s * traces.frames.saturating_sub(1) as f64
            }),
            lowest_time_s: told.lowest_time_s(),
            speed: told.play_speed(),
            marks_s: told.marks().iter().map(|mark| mark.time_s).collect(),
            description: told.description(),
            job: job(t, subject.case),
            caution: t.caution,
        })
    }

    /// The last step: the code of the whole link to the case, `link`.
    pub fn code(&mut self, subject: Subject<'_>, link: &str) -> Code {
        let t = subject.words();
        let count = self.steps(subject).len() + 1;
        let code = qr::Code::of(link);
        Code {
            title: t.title_code.to_owned(),
            place: (t.say.place)(count, count),
            sentence: if code.is_some() {
                t.code.to_owned()
            } else {
                subject.voice.record().code_too_long.to_owned()
            },
            svg: code.map_or_else(String::new, |code| code.svg(t.title_code)),
            note: t.note_code,
            job: job(t, subject.case),
            caution: t.caution,
        }
    }

    /// See [`Shown::open`].
    fn open(&self, subject: Subject<'_>, step: Step, told: &Told<'_>) -> Vec<Line> {
        let texts = subject.voice.texts();
        let line = |line: &AnswerLine, why: Option<String>| {
            let said = (texts.say.answer_line)(&line.heading, &line.number, &line.word);
            let said = [said].into_iter().chain(why).collect::<Vec<_>>().join("; ");
            Line {
                text: format!("{} {said}", line.sign).trim_start().to_owned(),
                mark: line.mark,
            }
        };
        let holds = mark_key(Mark::Holds);
        let strength = told.answer().lines.into_iter().nth(1);
        let strength = strength.filter(|line| line.mark != holds);
        // A ratio that is kept is no reason for its mark.
        let why = strength.as_ref().and_then(|line| {
            let standing = told.standing();
            let (parts, words) = (texts.say.parts_open)(standing.parts_open);
            match standing.strength_mark() {
                Mark::Open if standing.parts_open > 0 && line.number != parts => {
                    Some([&parts, " ", words].concat())
                }
                Mark::Fails if standing.parts_failing == 0 && standing.limits_not_met == 0 => {
                    Some([texts.an_absorber, " ", texts.word_deployed].concat())
                }
                _ => None,
            }
        });
        let mut open: Vec<Line> = strength.iter().map(|l| line(l, why.clone())).collect();
        // The step shows the falls as given; the worst may be elsewhere.
        if let (Step::All, Some(assessment)) = (step, subject.assessment) {
            let told = Told::of(subject.voice, subject.case, assessment);
            let told = told.with_anywhere(subject.anywhere);
            let elsewhere = told.answer().lines.into_iter().nth(2);
            let elsewhere = elsewhere.filter(|l| l.show.is_some());
            open.extend(elsewhere.iter().map(|l| line(l, None)));
            if subject.live.is_some() {
                let said = subject.words().not_searched;
                open.push(Line {
                    text: format!("{} {said}", sign(Mark::Open)),
                    mark: mark_key(Mark::Open),
                });
            }
        }
        open
    }

    /// The computed sentence of a step; `None`: there is no answer to it.
    pub fn sentence(&mut self, subject: Subject<'_>, step: Step) -> Option<String> {
        self.solve(subject, step);
        for other in before(step) {
            self.solve(subject, other);
        }
        Some(self.say(subject, step)?.0)
    }

    /// Sentence, number and what the number is, of a solved step.
    fn say(&self, subject: Subject<'_>, step: Step) -> Option<(String, String, String)> {
        let solved = self.solved(step)?;
        let voice = subject.voice;
        let told = solved.told(voice);
        let t = subject.words();
        let say = &t.say;
        let answer = told.answer();
        let unknown = answer.kind == FootroomKind::Unknown;
        let room = footroom_words(&answer.number, &answer.word);
        let footroom = || (answer.number.clone(), answer.word.clone());
        let (sentence, (number, word)) = match step {
            Step::Rest => {
                let line = &subject.case.line;
                let middles = middles_m(line.spans_m.as_slice());
                let sag_m = middles
                    .into_iter()
                    .fold(0.0, |most: f64, x| most.max(line.rest_deflection_m(x)));
                let sag = format::length_rounded(voice.units, sag_m, Rounding::Up);
                let pretension_n = line.pretension_n;
                let pretension =
                    format::field_text_with_unit(Quantity::Force, voice.units, pretension_n);
                ((say.rest)(&sag, &pretension), (sag, t.word_sag.to_owned()))
            }
            _ if unknown && step != Step::UsedUp => (answer.sentence.clone(), footroom()),
            // Whoever hits what is below does not just go down so far.
            Step::One | Step::Two | Step::All | Step::Post | Step::Today
                if told.hit().is_some() =>
            {
                let (worker, tolerances, said) = told.hit()?;
                let said = if tolerances {
                    said
                } else {
                    (say.hits)(&(voice.texts().say.worker)(worker + 1))
                };
                let what = title(t, subject, step);
                ((say.hit)(&what, &said, &room), footroom())
            }
            Step::One => {
                let depth = solved.shown(voice)?;
                let soles = depth.text(depth.required - depth.parts[MARGIN]);
                ((say.one)(&soles, &room), footroom())
            }
            Step::Two | Step::All => {
                let own = solved.shown(voice)?;
                let one = self.solved(Step::One).filter(|one| one.is_known());
                // The same worker, at the same place on the line.
                let more = one.and_then(|one| {
                    let worker = one.assessment.footroom.worker;
                    Some(solved.soles(voice, worker)? - one.soles(voice, worker)?)
                });
                let compared = match more {
                    Some(0) => t.same_as_one.to_owned(),
                    Some(steps) if steps > 0 => (say.deeper_than_one)(&own.text(steps)),
                    Some(steps) => (say.higher_than_one)(&own.text(-steps)),
                    None => String::new(),
                };
                let who = title(t, subject, step);
                ((say.several)(&who, &compared, &room), footroom())
            }
            Step::UsedUp => {
                let outcome = &solved.assessment.nominal;
                let worker = outcome.doubts.iter().find_map(|doubt| match *doubt {
                    Doubt::AbsorberUsedUp { worker, .. } => Some(worker),
                    _ => None,
                });
                let worker = worker.unwrap_or(told.focus());
                let result = outcome.workers.get(worker)?;
                let force = format::force(voice.units, result.arrest_force_max_n);
                let sentence = match solved.derived.change {
                    Change::Mass { each_kg, together } => {
                        let mass = format::mass(voice.units, each_kg);
                        (say.used_up_at)(&mass, together, &force)
                    }
                    _ => (say.used_up)(worker + 1, &force),
                };
                (sentence, (force, t.word_force.to_owned()))
            }
            Step::Post => {
                let Change::Post(span) = solved.derived.change else {
                    return None;
                };
                ((say.post)(span + 1, &room), footroom())
            }
            Step::Today => {
                let margin = solved.shown(voice)?;
                let worker = (voice.texts().say.worker)(told.focus() + 1);
                let margin = margin.text(margin.parts[MARGIN]);
                let say = if subject.live.is_some() {
                    say.tried
                } else {
                    say.today
                };
                (say(&room, &worker, &margin), footroom())
            }
        };
        Some((sentence, number, word))
    }

    /// What the scene of a step draws at an instant, s, given the rest of the view; `None`: there
    /// is no answer to it.
    pub fn scene<'a>(
        &'a self,
        subject: Subject<'_>,
        step: Step,
        rest: &SceneView<'a>,
    ) -> Option<SceneView<'a>> {
        let solved = self.solved(step)?;
        let governing = GoverningStack::of(&solved.assessment)?;
        Some(SceneView {
            case: &solved.derived.case,
            // At rest nothing tells yet how deep it goes: the crew is governing first.
            outcome: (step != Step::Rest).then_some(&solved.assessment.nominal),
            focus: Some(governing.worker),
            tolerance: Added::of(&governing, subject.voice.texts()),
            names: Some(part_names(subject.words())),
            ..*rest
        })
    }

    /// The window that the drawings of all steps share on a sheet: one scale from step to step. It holds
    /// what is solved so far, and grows with what is tried.
    pub fn window(
        &mut self,
        subject: Subject<'_>,
        measure: Measure<'_>,
        rest: &SceneView<'_>,
    ) -> Option<Window> {
        let type_px = rest.type_px.unwrap_or(0.0);
        let sheet = [rest.width_px, rest.height_px, rest.dpr, type_px];
        let before = self.window.filter(|(of, ..)| *of == sheet);
        if let Some((_, turn, window)) = before
            && turn == self.turn
        {
            return Some(window);
        }
        let shown = self.steps(subject);
        // Around the crew at hand; the steps with another line or another place follow it.
        let first = [Step::All, Step::Today, Step::One];
        let order = first.into_iter().filter(|step| shown.contains(step));
        let order = order.chain(shown.iter().copied());
        let views: Vec<SceneView<'_>> = order
            .filter_map(|step| self.scene(subject, step, rest))
            .collect();
        let found = scene::window_of(measure, &views)?;
        let window = before.map_or(found, |(.., known)| known.joined(found));
        self.window = Some((sheet, self.turn, window));
        Some(window)
    }
}

/// Short names of the lengths in the drawing, in the order of the stack.
fn part_names(t: &Texts) -> [&'static str; PARTS] {
    [
        t.part_line,
        t.part_lanyard,
        t.part_absorber,
        t.part_allowance,
        t.part_harness,
        t.part_body,
        t.part_tolerance,
        t.part_margin,
    ]
}

/// The job, said to be invented when it is.
fn job(t: &Texts, case: &Case) -> String {
    if case.invented {
        (t.say.invented)(&case.title)
    } else {
        case.title.clone()
    }
}

impl Solved {
    fn told(&self, voice: Voice) -> Told<'_> {
        Told::of(voice, &self.derived.case, &self.assessment)
    }

    fn is_known(&self) -> bool {
        self.assessment.answer().is_ok()
    }

    /// Where the soles of a worker stop, in shown steps below the line; `None`: there is no such worker.
    fn soles(&self, voice: Voice, worker: usize) -> Option<i64> {
        if worker == self.assessment.footroom.worker {
            let shown = self.shown(voice)?;
            return Some(shown.required - shown.parts[MARGIN]);
        }
        let demand = self.assessment.demands.workers.get(worker)?;
        let steps = |m, rounding| format::length_steps(voice.units, m, rounding);
        let margin = steps(demand.margin_m, Rounding::Nearest);
        Some(steps(demand.required_depth_m, Rounding::Up) - margin)
    }

    /// The answered stack as it is shown.
    fn shown(&self, voice: Voice) -> Option<ShownStack> {
        let governing = GoverningStack::of(&self.assessment)?;
        Some(ShownStack::with(
            voice.units,
            &governing.stack,
            governing.tolerance_m,
        ))
    }
}

/// Most rows beside the drawing, so that large type has room for all of them.
const ROWS_MAX: usize = 3;

/// The steps that the sentence of another compares with.
fn before(step: Step) -> impl Iterator<Item = Step> {
    matches!(step, Step::Two | Step::All)
        .then_some(Step::One)
        .into_iter()
}

/// Whether a step's number is a footroom, to be compared with those of the others.
fn counts(step: Step) -> bool {
    !matches!(step, Step::Rest | Step::UsedUp)
}

/// Amount and word; a dash alone when there is no number.
fn footroom_words(number: &str, word: &str) -> String {
    if number == DASH {
        DASH.to_owned()
    } else {
        format!("{number} {word}")
    }
}

/// The middles of the spans, m from the left end.
fn middles_m(spans_m: &[f64]) -> Vec<f64> {
    let mut start_m = 0.0;
    spans_m
        .iter()
        .map(|span_m| {
            let middle_m = start_m + 0.5 * span_m;
            start_m += span_m;
            middle_m
        })
        .collect()
}

fn title(t: &Texts, subject: Subject<'_>, step: Step) -> String {
    match step {
        Step::Rest => t.title_rest.to_owned(),
        Step::One => t.title_one.to_owned(),
        Step::Two => t.title_two.to_owned(),
        Step::All => (t.say.title_all)(subject.case.workers.len()),
        Step::UsedUp => t.title_used_up.to_owned(),
        Step::Post => t.title_post.to_owned(),
        Step::Today if subject.live.is_some() => t.title_tried.to_owned(),
        Step::Today => t.title_today.to_owned(),
    }
}

fn note(t: &Texts, step: Step) -> &'static str {
    match step {
        Step::Rest => t.note_rest,
        Step::One => t.note_one,
        Step::Two => t.note_two,
        Step::All => t.note_all,
        Step::UsedUp => t.note_used_up,
        Step::Post => t.note_post,
        Step::Today => t.note_today,
    }
}

/// Minutes and seconds since the talk began, as a clock.
pub fn clock(passed_s: f64) -> String {
    let whole = if passed_s.is_finite() {
        passed_s.clamp(0.0, 359_999.0) as u32
    } else {
        0
    };
    format!("{}:{:02}", whole / 60, whole % 60)
}

#[cfg(test)]
mod tests;
