//! Which answers are made beside the page, since they would keep it from answering for longer than a
//! moment, and how they come back: by number, so that one that is not waited for any more is never
//! taken for another.

use footroom_core::assess::{Assessing, Assessment};
use footroom_core::case::Case;
use footroom_core::envelope::{Envelope, envelope_of};
use footroom_core::ready::Ready;
use footroom_core::solve::Options;
use serde::Serialize;

use crate::first::desk::is_long;
use crate::page::carried::{self, Numbers};
use crate::page::explain::talk::script::{self, Change};
use crate::say::format::Units;
use crate::wire::case_json;

/// What comes of a case: its answer, with what is played, and the range of the forces on its charts.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// The answer, whole.
    pub assessment: Assessment,
    /// The range.
    pub envelope: Envelope,
}

/// What is played is wanted of every answer on the page.
const PLAYED: Options = Options {
    traces: true,
    refine: 1,
};

impl Answered {
    /// As plain numbers.
    pub fn numbers(self) -> Vec<f64> {
        let mut out = Numbers::default();
        let Self {
            mut assessment,
            mut envelope,
        } = self;
        carried::answer::of_assessment(&mut assessment, &mut out);
        carried::answer::of_envelope(&mut envelope, &mut out);
        out.values
    }

    /// From the numbers of [`Answered::numbers`] for a case; `None`: they are not all of them, or not
    /// of such a crew and line.
    pub fn from_numbers(values: &[f64], case: &Case) -> Option<Self> {
        let mut numbers = Numbers::read(values);
        let mut assessment = carried::answer::nothing();
        let mut envelope = Envelope::default();
        carried::answer::of_assessment(&mut assessment, &mut numbers);
        carried::answer::of_envelope(&mut envelope, &mut numbers);
        let nominal = &assessment.nominal;
        let fits = assessment.whole
            && nominal.workers.len() == case.workers.len()
            && nominal.supports.len() == case.line.spans_m.len() + 1
            && envelope.force_n.len() == case.workers.len();
        (numbers.all_read() && fits).then_some(Self {
            assessment,
            envelope,
        })
    }
}

/// An answer that is made in a worker, in steps.
#[derive(Debug)]
pub struct Answering {
    ready: Ready,
    /// `None` before the first step.
    assessing: Option<Assessing>,
}

impl Answering {
    /// Begins; `None`: the case has faults.
    pub fn of(case: &Case) -> Option<Self> {
        Some(Self {
            ready: case.ready().ok()?,
            assessing: None,
        })
    }

    /// Makes the next runs; the numbers of [`Answered::numbers`] once all are made.
    pub fn step(&mut self) -> Option<Vec<f64>> {
        let Some(assessing) = &mut self.assessing else {
            self.assessing = Some(Assessing::of(self.ready.clone(), PLAYED));
            return None;
        };
        if assessing.step() {
            return None;
        }
        let answered = Answered {
            assessment: assessing.assessment(),
            envelope: envelope_of(&self.ready),
        };
        Some(answered.numbers())
    }
}

/// What is asked of a case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Asked {
    /// Its answer.
    Answer,
    /// What uses an absorber up, see [`script::used_up`]: of the worker who falls alone, in steps of mass
    /// that are round in the units.
    UsedUp(usize, Units),
}

/// An answer to be made in a worker.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Wanted {
    /// Its number.
    pub number: u32,
    /// The case as text.
    pub case_text: String,
    /// The units.
    pub units: &'static str,
    /// What of the planner makes it.
    pub method: &'static str,
    /// With what.
    pub args: Vec<f64>,
    /// The number of the one that it takes the place of: that is not wanted any more. 0: there is none.
    pub replaces: u32,
}

/// One that is waited for.
#[derive(Debug)]
struct Awaited {
    number: u32,
    case: Case,
    asked: Asked,
    replaces: u32,
    handed_out: bool,
}

/// The answers that are made beside the page: those waited for, and the last that came.
#[derive(Debug, Default)]
pub struct Beside {
    last_number: u32,
    awaited: Vec<Awaited>,
    /// The last that came, until it is taken.
    came: Option<(Case, Answered)>,
}

impl Beside {
    /// The answer to a case that has just come.
    pub fn came(&mut self, case: &Case) -> Option<Answered> {
        let came = self.came.take_if(|(of, _)| of == case);
        came.map(|(_, answered)| answered)
    }

    /// Waits for the answer to a case; gives its number. `instead`: the number of one that is not
    /// waited for any more.
    pub fn wait(&mut self, case: &Case, instead: Option<u32>) -> u32 {
        self.wait_for(case, Asked::Answer, instead)
    }

    /// The same for anything that is asked.
    pub fn wait_for(&mut self, case: &Case, asked: Asked, instead: Option<u32>) -> u32 {
        let handed_out = |a: &&Awaited| Some(a.number) == instead && a.handed_out;
        let replaces = self.awaited.iter().find(handed_out).map_or(0, |a| a.number);
        if let Some(number) = instead {
            self.forget(number);
        }
        let same = |a: &&Awaited| a.case == *case && a.asked == asked;
        if let Some(same) = self.awaited.iter().find(same) {
            return same.number;
        }
        self.last_number += 1;
        self.awaited.push(Awaited {
            number: self.last_number,
            case: case.clone(),
            asked,
            replaces,
            handed_out: false,
        });
        self.last_number
    }

    /// An answer is not waited for any more.
    pub fn forget(&mut self, number: u32) {
        self.awaited.retain(|a| a.number != number);
    }

    /// Whether one is still to be handed out.
    pub fn waits(&self) -> bool {
        self.awaited.iter().any(|a| !a.handed_out)
    }

    /// The next answer that is to be asked for; each is given once.
    pub fn hand_out(&mut self) -> Option<Wanted> {
        let next = self.awaited.iter_mut().find(|a| !a.handed_out)?;
        next.handed_out = true;
        let (method, args, units) = match next.asked {
            Asked::Answer => ("answered", Vec::new(), Units::Metric),
            Asked::UsedUp(focus, units) => ("used_up", vec![focus as f64], units),
        };
        Some(Wanted {
            method,
            args,
            units: units.key(),
            number: next.number,
            case_text: case_json::to_text(&next.case).unwrap_or_default(),
            replaces: next.replaces,
        })
    }

    /// Takes the numbers of an answer; where they are not its numbers, as none could be made beside the
    /// page, it is made here. Gives what was asked of which case; `None`: it is not waited for, or not any
    /// more.
    pub fn take(&mut self, number: u32, values: &[f64]) -> Option<Came> {
        let at = self.awaited.iter().position(|a| a.number == number)?;
        let Awaited { case, asked, .. } = self.awaited.remove(at);
        let (focus, units) = match asked {
            Asked::Answer => {
                let answered = Answered::from_numbers(values, &case)
                    .or_else(|| Answered::from_numbers(&worked(&case), &case))?;
                self.came = Some((case.clone(), answered));
                return Some(Came::Answer(case));
            }
            Asked::UsedUp(focus, units) => (focus, units),
        };
        let change = match *values {
            [0.0] => None,
            [1.0] => Some(Change::Crew),
            [2.0, each_kg, together] => Some(Change::Mass {
                each_kg,
                together: together != 0.0,
            }),
            _ => script::used_up(&case, focus, units),
        };
        Some(Came::UsedUp(case, focus, change))
    }
}

/// What has come.
#[derive(Clone, Debug, PartialEq)]
pub enum Came {
    /// The answer to a case: see [`Beside::came`].
    Answer(Case),
    /// What uses an absorber up in it; `None`: nothing does.
    UsedUp(Case, usize, Option<Change>),
}

/// The numbers of [`Came::UsedUp`].
pub fn used_up_numbers(change: Option<Change>) -> Vec<f64> {
    match change {
        Some(Change::Crew) => vec![1.0],
        Some(Change::Mass { each_kg, together }) => {
            vec![2.0, each_kg, f64::from(u8::from(together))]
        }
        _ => vec![0.0],
    }
}

/// All steps of an answer at once; nothing for a case with faults.
fn worked(case: &Case) -> Vec<f64> {
    let Some(mut answering) = Answering::of(case) else {
        return Vec::new();
    };
    loop {
        if let Some(numbers) = answering.step() {
            return numbers;
        }
    }
}

/// Whether the answer to a case is made beside the page.
pub fn is_beside(case: &Case) -> bool {
    case.ready().is_ok_and(|ready| is_long(&ready))
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use footroom_core::case::{Line, Site, Worker};
    use footroom_core::demo::demo;

    /// The largest case that can be entered: 12 spans of 60 m, six workers.
    pub(crate) fn largest() -> Case {
        Case {
            line: Line {
                spans_m: vec![60.0; 12],
                ..Line::default()
            },
            workers: (0..6)
                .map(|i| Worker {
                    position_m: 30.0 + 120.0 * f64::from(i),
                    ..Worker::default()
                })
                .collect(),
            site: Site {
                beam_top_m: 40.0,
                ..Site::default()
            },
            ..Case::default()
        }
    }

    /// Makes an answer as a worker does.
    pub(crate) fn in_steps(case: &Case) -> Vec<f64> {
        let mut answering = Answering::of(case).expect("no faults");
        for _ in 0..1_000 {
            if let Some(numbers) = answering.step() {
                return numbers;
            }
        }
        panic!("it comes to no end");
    }

    /// The example is answered on the page, at once; the largest case beside it.
    #[test]
    fn what_is_long_is_made_beside_the_page() {
        assert!(!is_beside(&demo()) && is_beside(&largest()));
        let mut faulty = largest();
        faulty.workers.clear();
        assert!(!is_beside(&faulty));
    }

    #[test]
    fn an_answer_from_beside_is_that_of_the_page() {
        let mut case = demo();
        case.workers[1].mass_kg = 110.0;
        let numbers = in_steps(&case);
        let answered = Answered::from_numbers(&numbers, &case).expect("its own");
        let here = footroom_core::assess::assess(&case, PLAYED).expect("no faults");
        assert_eq!(format!("{:?}", answered.assessment), format!("{here:?}"));
        let ready = case.ready().expect("no faults");
        assert_eq!(answered.envelope, envelope_of(&ready));
        let mut fewer = case.clone();
        fewer.workers.pop();
        assert_eq!(Answered::from_numbers(&numbers, &fewer), None);
        assert_eq!(Answered::from_numbers(&numbers[1..], &case), None);
    }

    /// An answer that comes late, to a case that is not waited for any more, is dropped.
    #[test]
    fn a_late_answer_is_never_taken_for_another() {
        let (first, mut second) = (demo(), demo());
        second.workers[0].mass_kg = 120.0;
        let numbers = in_steps(&first);
        let mut beside = Beside::default();
        let one = beside.wait(&first, None);
        assert_eq!(
            beside.hand_out().map(|w| (w.number, w.replaces)),
            Some((one, 0))
        );
        let two = beside.wait(&second, Some(one));
        assert_ne!(one, two);
        // Who makes the first is told that it is not wanted.
        assert_eq!(
            beside.hand_out().map(|w| (w.number, w.replaces)),
            Some((two, one))
        );
        assert_eq!(beside.hand_out(), None);
        assert_eq!(beside.take(one, &numbers), None);
        assert!(beside.came(&first).is_none() && beside.came(&second).is_none());
        // Numbers that are none are made here, of the case that was asked for.
        assert_eq!(beside.take(two, &[]), Some(Came::Answer(second.clone())));
        let own = beside.came(&second).expect("it came").assessment;
        let here = footroom_core::assess::assess(&second, PLAYED).expect("no faults");
        assert_eq!(format!("{own:?}"), format!("{here:?}"));
        assert_eq!(beside.take(two, &[]), None, "twice");
        // The same again is asked for once.
        let three = beside.wait(&first, None);
        assert_eq!(beside.wait(&first, None), three);
    }
}
