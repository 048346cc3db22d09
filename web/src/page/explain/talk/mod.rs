//! The talk: what a crew lead shows a crew on a projector, step by step, made of the case at hand.
//!
//! [`script`] derives the cases, this file solves them as they are asked for and words them,
//! [`plan`] is what the leader has made of the script, [`legible`] how large the type must be.

pub mod legible;
pub mod plan;
pub mod script;

use footroom_core::anywhere::Anywhere;
use footroom_core::assess::Assessment;
use footroom_core::case::Case;
use footroom_core::field::Quantity;
use footroom_core::solve::Doubt;
use footroom_core::standing::Mark;
use serde::Serialize;

use self::plan::Plan;
use self::script::{Change, Derived, Step};
use crate::first::answer::{DASH, Told};
use crate::first::governing::GoverningStack;
use crate::first::lines::mark_key;
use crate::first::scene::{Added, SceneView};
use crate::first::view::{Answer, AnswerLine, FootroomKind};
use crate::first::whole_steps::{MARGIN, ShownStack};
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
  kind: "spare" | "short" | "unknown";
  mark: LineMark;
  open: string[];
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
"#;

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
    /// What it says of the footroom.
    pub kind: FootroomKind,
    /// The worst mark of the lines of the answer to this fall; `open` where it has none.
    pub mark: &'static str,
    /// What does not hold beside the room: strength and limits of this fall, and, where all fall as
    /// given, the worst place on the line.
    pub open: Vec<String>,
    /// The footroom of the falls right before this one.
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

/// What a talk is about.
#[derive(Clone, Copy)]
pub struct Subject<'a> {
    /// Language and units.
    pub voice: Voice,
    /// The case at hand.
    pub case: &'a Case,
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

/// The plan, and what has been computed for it so far.
#[derive(Debug, Default)]
pub struct Talk {
    plan: Plan,
    made: [Made; Step::ALL.len()],
}

impl Subject<'_> {
    fn words(&self) -> &'static Texts {
        words::of(self.voice.lang)
    }

    /// The worker with the least footroom as given.
    fn focus(&self) -> Option<usize> {
        Some(self.assessment?.footroom.worker)
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
    }

    /// Brings a step before or after the next one in the list.
    pub fn shift(&mut self, subject: Subject<'_>, step: Step, earlier: bool) -> bool {
        let there = Step::ALL.map(|step| self.is_there(subject, step));
        self.plan.shift(step, earlier, |step| there[step as usize])
    }

    /// Whether the premise of a step holds.
    pub fn is_there(&mut self, subject: Subject<'_>, step: Step) -> bool {
        let made = &mut self.made[step as usize];
        if matches!(made, Made::Unknown) {
            let derived = subject
                .focus()
                .and_then(|focus| script::derived(step, subject.case, focus, subject.voice.units));
            *made = derived.map_or(Made::Absent, |derived| Made::Derived(Box::new(derived)));
        }
        !matches!(made, Made::Absent)
    }

    fn solve(&mut self, subject: Subject<'_>, step: Step) {
        if !self.is_there(subject, step) {
            return;
        }
        let made = &mut self.made[step as usize];
        if let Made::Derived(derived) = made {
            *made = match script::answered(&derived.case) {
                Some(assessment) => Made::Solved(Box::new(Solved {
                    derived: (**derived).clone(),
                    assessment,
                })),
                None => Made::Absent,
            };
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
                let title = title(t, subject.case, entry.step);
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
        let falls = at.map_or(&[][..], |at| &steps[..at]);
        for &fall in falls.iter().filter(|&&s| counts(s)) {
            self.solve(subject, fall);
        }
        let solved = self.solved(step)?;
        let told = solved.told(subject.voice);
        let t = subject.words();
        let answer = told.answer();
        let (sentence, number, word) = self.say(subject, step)?;
        let own = self.plan.entry(step).and_then(|e| e.say.clone());
        let falls: Vec<Step> = falls.iter().copied().filter(|&s| counts(s)).collect();
        let rows = falls
            .iter()
            .skip(falls.len().saturating_sub(ROWS_MAX))
            .filter_map(|&fall| {
                let answer = self.solved(fall)?.told(subject.voice).answer();
                Some(crate::first::view::Row {
                    label: title(t, subject.case, fall),
                    // Room to spare is what a footroom is; a lack of it is said.
                    value: match answer.kind {
                        FootroomKind::Short => footroom_words(&answer.number, &answer.word),
                        FootroomKind::Spare | FootroomKind::Unknown => answer.number,
                    },
                })
            })
            .collect();
        let plays = step != Step::Rest;
        let traces = solved.assessment.nominal.traces.as_ref();
        Some(Shown {
            key: step.key(),
            title: title(t, subject.case, step),
            place: at.map_or_else(String::new, |at| (t.say.place)(at + 1, steps.len())),
            edited: own.is_some().then_some(t.edited),
            sentence: own.unwrap_or(sentence),
            number,
            word,
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
                self.open(subject, step, &answer)
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
            job: if subject.case.invented {
                (t.say.invented)(&subject.case.title)
            } else {
                subject.case.title.clone()
            },
            caution: t.caution,
        })
    }

    /// See [`Shown::open`].
    fn open(&self, subject: Subject<'_>, step: Step, answer: &Answer) -> Vec<String> {
        let say = subject.voice.texts().say.answer_line;
        let line = |line: &AnswerLine| {
            let said = say(&line.heading, &line.number, &line.word);
            format!("{} {said}", line.sign).trim_start().to_owned()
        };
        let holds = mark_key(Mark::Holds);
        let strength = answer.lines.get(1).filter(|l| l.mark != holds);
        let mut open: Vec<String> = strength.map(line).into_iter().collect();
        // The step shows the falls as given; the worst may be elsewhere.
        if let (Step::All, Some(assessment)) = (step, subject.assessment) {
            let told = Told::of(subject.voice, subject.case, assessment);
            let told = told.with_anywhere(subject.anywhere);
            let elsewhere = told.answer().lines.into_iter().nth(2);
            open.extend(elsewhere.filter(|l| l.show.is_some()).as_ref().map(line));
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
                let what = title(t, subject.case, step);
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
                let more = one.and_then(|one| one.shown(voice)).map(|one| {
                    let soles = |s: &ShownStack| s.required - s.parts[MARGIN];
                    soles(&own) - soles(&one)
                });
                let compared = match more {
                    Some(0) => t.same_as_one.to_owned(),
                    Some(steps) if steps > 0 => (say.deeper_than_one)(&own.text(steps)),
                    Some(steps) => (say.higher_than_one)(&own.text(-steps)),
                    None => String::new(),
                };
                let who = title(t, subject.case, step);
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
                ((say.today)(&room, &worker, &margin), footroom())
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
            ..*rest
        })
    }
}

impl Solved {
    fn told(&self, voice: Voice) -> Told<'_> {
        Told::of(voice, &self.derived.case, &self.assessment)
    }

    fn is_known(&self) -> bool {
        self.assessment.answer().is_ok()
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

fn title(t: &Texts, given: &Case, step: Step) -> String {
    match step {
        Step::Rest => t.title_rest.to_owned(),
        Step::One => t.title_one.to_owned(),
        Step::Two => t.title_two.to_owned(),
        Step::All => (t.say.title_all)(given.workers.len()),
        Step::UsedUp => t.title_used_up.to_owned(),
        Step::Post => t.title_post.to_owned(),
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
