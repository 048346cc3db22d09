//! The script of a talk: each step is a case derived from the one at hand, what is played of it,
//! and what is said.

use footroom_core::assess::{Assessment, assess};
use footroom_core::case::Case;
use footroom_core::constants::SPANS_MAX;
use footroom_core::field;
use footroom_core::fit::layout::at_worst_place;
use footroom_core::solve::{Options, solve};

use crate::say::format::{POUND_KG, Units};

/// A step of the script.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// The line at rest.
    Rest,
    /// One falls, the others stand.
    One,
    /// He and the one nearest to him fall.
    Two,
    /// All fall at one instant.
    All,
    /// An absorber is used up.
    UsedUp,
    /// One more post stands in the middle of the governing span.
    Post,
    /// The case as it is given.
    Today,
}

impl Step {
    /// Every step, in the order of the script.
    pub const ALL: [Step; 7] = [
        Step::Rest,
        Step::One,
        Step::Two,
        Step::All,
        Step::UsedUp,
        Step::Post,
        Step::Today,
    ];

    /// Its key in links and on the page.
    pub fn key(self) -> &'static str {
        match self {
            Step::Rest => "rest",
            Step::One => "one",
            Step::Two => "two",
            Step::All => "all",
            Step::UsedUp => "used_up",
            Step::Post => "post",
            Step::Today => "today",
        }
    }

    /// The step of a key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|step| step.key() == key)
    }
}

/// The case of a step, and what was changed to make it.
#[derive(Clone, Debug, PartialEq)]
pub struct Derived {
    /// The case.
    pub case: Case,
    /// What was done.
    pub change: Change,
}

impl Derived {
    /// Who of its crew falls.
    pub fn falls(&self) -> Vec<bool> {
        let crew = self.case.workers.iter();
        crew.map(|w| w.fall_time_s.is_some()).collect()
    }
}

/// What a step's case has that the given one has not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// Who falls, at most.
    Crew,
    /// Whoever falls has a greater mass with his tools.
    Mass {
        /// Mass of each who falls, kg.
        each_kg: f64,
        /// Whether more than one falls.
        together: bool,
    },
    /// The span of this number, counted from 0, has a post in its middle.
    Post(usize),
}

/// Greatest mass with tools that is tried for the step with the absorber, kg: 310 lb, the greatest
/// that personal gear is commonly rated for (common practice, no source).
const MASS_MAX_KG: f64 = 310.0 * POUND_KG;

/// The case of a step, `focus` being the worker with the least footroom as given; `None`: its
/// premise does not hold for this case.
pub fn derived(step: Step, given: &Case, focus: usize, units: Units) -> Option<Derived> {
    let crew = |case| {
        Some(Derived {
            case,
            change: Change::Crew,
        })
    };
    let made = match step {
        Step::Rest | Step::Today => crew(given.clone()),
        Step::One => crew(falling(given, &[focus])),
        Step::Two if given.workers.len() >= 3 => return two(given, focus),
        Step::All if given.workers.len() >= 2 => {
            let all: Vec<usize> = (0..given.workers.len()).collect();
            crew(falling(given, &all))
        }
        Step::Two | Step::All => None,
        Step::UsedUp => used_up_case(given, focus, used_up(given, focus, units)?),
        Step::Post => post(given, focus),
    }?;
    made.case.faults().is_empty().then_some(made)
}

/// The case of [`Step::Two`] where two are left of a crew of more.
pub fn two(given: &Case, focus: usize) -> Option<Derived> {
    let case = falling(given, &[focus, nearest(given, focus)?]);
    case.faults().is_empty().then_some(Derived {
        case,
        change: Change::Crew,
    })
}

/// These workers fall at one instant, the others stand.
fn falling(given: &Case, who: &[usize]) -> Case {
    let mut case = given.clone();
    for (i, worker) in case.workers.iter_mut().enumerate() {
        worker.fall_time_s = who.contains(&i).then_some(0.0);
    }
    case
}

/// The worker nearest to another along the line.
fn nearest(given: &Case, focus: usize) -> Option<usize> {
    let at_m = given.workers.get(focus)?.position_m;
    let away = |i: &usize| (given.workers[*i].position_m - at_m).abs();
    (0..given.workers.len())
        .filter(|&i| i != focus)
        .min_by(|a, b| away(a).total_cmp(&away(b)))
}

/// How to come to a case in which a personal absorber is used up: the given one, or the least mass, in
/// steps of 10 kg or 20 lb up to 310 lb, of the one who falls alone or of each when all fall.
/// `None`: there is no such case. It takes some ten runs.
pub fn used_up(given: &Case, focus: usize, units: Units) -> Option<Change> {
    let happens = |change: Change| {
        let case = used_up_case(given, focus, change)?.case;
        let outcome = solve(&case, Options::default()).ok()?;
        let used_up = outcome.workers.iter().any(|w| w.absorber_used_up);
        used_up.then_some(change)
    };
    if let Some(change) = happens(Change::Crew) {
        return Some(change);
    }
    if given.workers.iter().all(|w| w.gear.absorber.is_none()) {
        return None;
    }
    let heaviest_kg = given.workers.iter().fold(0.0, |m: f64, w| m.max(w.mass_kg));
    let step_kg = match units {
        Units::Metric => 10.0,
        Units::Us => 20.0 * POUND_KG,
    };
    let least = (heaviest_kg / step_kg + 1.0e-6).floor() as u32 + 1;
    let most_kg = MASS_MAX_KG.min(field::find("workers.mass_kg").map_or(MASS_MAX_KG, |f| f.max));
    let round = (least..)
        .map(|n| step_kg * f64::from(n))
        .take_while(|&kg| kg < most_kg);
    let masses = round.chain([most_kg].into_iter().filter(|&kg| kg > heaviest_kg));
    masses
        .flat_map(|each_kg| [false, true].map(|together| Change::Mass { each_kg, together }))
        .find_map(happens)
}

/// The case of a change of [`used_up`].
pub fn used_up_case(given: &Case, focus: usize, change: Change) -> Option<Derived> {
    let Change::Mass { each_kg, together } = change else {
        return Some(Derived {
            case: given.clone(),
            change,
        });
    };
    let all: Vec<usize> = (0..given.workers.len()).collect();
    // One alone is not called together with himself.
    let who = if together { &all[..] } else { &[focus][..] };
    let mut case = falling(given, who);
    for &i in who {
        case.workers.get_mut(i)?.mass_kg = each_kg;
    }
    let change = Change::Mass {
        each_kg,
        together: who.len() > 1,
    };
    Some(Derived { case, change })
}

/// One more post in the middle of the governing span, the crew together at the worst place of the
/// new line: where it happens to stand, a post may be right beside it.
fn post(given: &Case, focus: usize) -> Option<Derived> {
    let line = &given.line;
    let (span, _) = line.locate(given.workers.get(focus)?.position_m);
    if line.spans_m.len() >= SPANS_MAX {
        return None;
    }
    let mut case = given.clone();
    let half_m = 0.5 * line.spans_m.get(span)?;
    case.line.spans_m[span] = half_m;
    case.line.spans_m.insert(span, half_m);
    case.faults().is_empty().then(|| Derived {
        case: at_worst_place(&case),
        change: Change::Post(span),
    })
}

/// The answer to a case, with what is played.
pub fn answered(case: &Case) -> Option<Assessment> {
    let options = Options {
        traces: true,
        ..Options::default()
    };
    assess(case, options).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use footroom_core::demo::demo;

    fn steps(case: &Case) -> Vec<&'static str> {
        let made = |step: &Step| derived(*step, case, 0, Units::Metric).is_some();
        Step::ALL.into_iter().filter(made).map(Step::key).collect()
    }

    #[test]
    fn what_has_no_premise_is_left_out() {
        let mut case = demo();
        assert_eq!(
            steps(&case),
            ["rest", "one", "two", "all", "used_up", "post", "today"]
        );
        case.workers.truncate(2);
        assert!(!steps(&case).contains(&"two"));
        case.workers.truncate(1);
        assert!(!steps(&case).contains(&"all"));
        case.line.spans_m = vec![1.5, 16.5];
        case.workers[0].position_m = 0.5;
        assert!(!steps(&case).contains(&"post"), "a span under a metre");
        case.workers[0].gear.absorber = None;
        assert!(!steps(&case).contains(&"used_up"), "there is none");
    }

    #[test]
    fn keys_go_there_and_back() {
        for step in Step::ALL {
            assert_eq!(Step::from_key(step.key()), Some(step));
        }
        assert_eq!(Step::from_key("fly"), None);
    }

    #[test]
    fn the_absorber_is_used_up_at_the_least_mass_of_the_ladder() {
        for units in [Units::Metric, Units::Us] {
            let made = derived(Step::UsedUp, &demo(), 1, units).expect("a mass");
            let Change::Mass { each_kg, together } = made.change else {
                panic!("{:?}", made.change);
            };
            let used = |each_kg: f64| {
                let mut case = made.case.clone();
                for worker in case.workers.iter_mut().filter(|w| w.fall_time_s.is_some()) {
                    worker.mass_kg = each_kg;
                }
                let outcome = solve(&case, Options::default()).expect("a case without faults");
                outcome.workers.iter().any(|w| w.absorber_used_up)
            };
            let falling = made.case.workers.iter().filter(|w| w.fall_time_s.is_some());
            assert_eq!(together, falling.count() > 1);
            assert!(used(each_kg));
            let step_kg = match units {
                Units::Us => 20.0 * POUND_KG,
                Units::Metric => 10.0,
            };
            let before_kg = ((each_kg - 0.01) / step_kg).floor() * step_kg;
            assert!(before_kg <= demo().workers[1].mass_kg || !used(before_kg));
        }
    }

    #[test]
    fn the_post_halves_the_governing_span() {
        let made = derived(Step::Post, &demo(), 1, Units::Metric).expect("a post");
        assert_eq!(made.case.line.spans_m, [9.0, 4.5, 4.5]);
        assert_eq!(made.change, Change::Post(1));
    }
}
