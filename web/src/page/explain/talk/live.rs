//! What the leader tries with the crew while the talk runs: one user more or fewer, the crew farther
//! left or right. It is done to a copy; the case on the page stays as it is planned.

use footroom_core::assess::Assessment;
use footroom_core::case::Case;
use footroom_core::constants::WORKERS_MAX;
use footroom_core::fit::layout::with_users;

use super::script::answered;
use crate::page::beside::is_beside;
use crate::say::faults::Voice;
use crate::say::format::{self, FOOT_M, Units};
use crate::say::texts::talk as words;

/// What is changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tried {
    /// Number of users.
    pub users: usize,
    /// Steps to the right; to the left when negative.
    pub steps: i32,
}

/// The changed copy with its answer.
#[derive(Debug)]
pub struct Live {
    tried: Tried,
    /// The case.
    pub case: Case,
    /// Its answer; `None`: it takes long, and is waited for.
    pub assessment: Option<Assessment>,
}

/// How far the crew moves in a step, m.
pub fn step_m(units: Units) -> f64 {
    match units {
        Units::Metric => 0.5,
        Units::Us => 2.0 * FOOT_M,
    }
}

impl Tried {
    /// The crew as it is planned.
    pub fn planned(planned: &Case) -> Self {
        Self {
            users: planned.workers.len(),
            steps: 0,
        }
    }

    /// One user more or fewer; `None`: there is none.
    pub fn users(self, more: bool) -> Option<Self> {
        let users = if more {
            self.users + 1
        } else {
            self.users.checked_sub(1)?
        };
        (1..=WORKERS_MAX)
            .contains(&users)
            .then_some(Self { users, ..self })
    }

    /// The crew a step to the right or to the left.
    pub fn moved(self, right: bool) -> Self {
        Self {
            steps: self.steps + if right { 1 } else { -1 },
            ..self
        }
    }

    /// The case; `None`: somebody would stand beyond the line, or it has faults.
    pub fn case(self, planned: &Case, units: Units) -> Option<Case> {
        let mut case = with_users(planned, self.users);
        let shift_m = f64::from(self.steps) * step_m(units);
        let length_m = case.line.length_m();
        for worker in &mut case.workers {
            worker.position_m += shift_m;
            if !(0.0..=length_m).contains(&worker.position_m) {
                return None;
            }
        }
        case.faults().is_empty().then_some(case)
    }
}

impl Live {
    /// What is tried next; `None`: that cannot be done.
    pub fn of(tried: Tried, planned: &Case, units: Units) -> Option<Self> {
        let case = tried.case(planned, units)?;
        Some(Self {
            tried,
            assessment: if is_beside(&case) {
                None
            } else {
                answered(&case)
            },
            case,
        })
    }

    /// What is tried.
    pub fn tried(&self) -> Tried {
        self.tried
    }

    /// The change in words.
    pub fn said(&self, voice: Voice, planned: &Case) -> String {
        let t = words::of(voice.lang);
        let Tried { users, steps } = self.tried;
        let mut said = (t.say.live_users)(users, planned.workers.len());
        if steps != 0 {
            let by_m = f64::from(steps.abs()) * step_m(voice.units);
            let moved = (t.say.live_moved)(&format::length(voice.units, by_m), steps > 0);
            said = [said.as_str(), "; ", &moved].concat();
        }
        said
    }
}
