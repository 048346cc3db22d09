//! How what a worker beside the page found comes back: as plain numbers, one function a structure,
//! both ways. They take theirs apart in full, so that a figure added to the core does not compile
//! until it stands here.

pub mod answer;

use footroom_core::check::Subject;
use footroom_core::corner::Corner;
use footroom_core::fit::{Finding, Unknown};
use footroom_core::nearby::Nearby;
use footroom_core::standing::{Standing, Strength};

/// Numbers that are written, or read from a place on.
#[derive(Debug, Default)]
pub struct Numbers {
    /// All of them.
    pub values: Vec<f64>,
    /// Place of the next number to be read; `None`: they are written.
    at: Option<usize>,
    /// There were fewer than wanted, or others.
    short: bool,
}

impl Numbers {
    /// Reads from the first on.
    pub fn read(values: &[f64]) -> Self {
        Self {
            values: values.to_vec(),
            at: Some(0),
            short: false,
        }
    }

    /// Whether all were read, and all that was wanted was there.
    pub fn all_read(&self) -> bool {
        !self.short && self.at == Some(self.values.len())
    }

    /// A number.
    pub fn number(&mut self, value: &mut f64) {
        match &mut self.at {
            None => self.values.push(*value),
            Some(at) => match self.values.get(*at) {
                Some(read) => {
                    *value = *read;
                    *at += 1;
                }
                None => self.short = true,
            },
        }
    }

    /// A count.
    pub fn count(&mut self, value: &mut usize) {
        let mut number = *value as f64;
        self.number(&mut number);
        *value = number as usize;
    }

    /// Whether.
    pub fn flag(&mut self, value: &mut bool) {
        let mut number = f64::from(u8::from(*value));
        self.number(&mut number);
        *value = number != 0.0;
    }

    /// One of several.
    pub fn choice<T: Copy + PartialEq>(&mut self, choices: &[T], value: &mut T) {
        let mut place = choices.iter().position(|c| c == value).unwrap_or(0);
        self.count(&mut place);
        match choices.get(place) {
            Some(chosen) => *value = *chosen,
            None => self.short = true,
        }
    }

    /// How many follow. More than there are numbers cannot be.
    pub fn length(&mut self, mut length: usize) -> usize {
        self.count(&mut length);
        if self.at.is_some() && length > self.values.len() {
            self.short = true;
            return 0;
        }
        length
    }

    /// So many numbers, at once: the traces of a fall are a million.
    pub fn list(&mut self, list: &mut Vec<f64>) {
        let length = self.length(list.len());
        let Some(at) = &mut self.at else {
            return self.values.extend_from_slice(list);
        };
        match self.values.get(*at..*at + length) {
            Some(read) => {
                *list = read.to_vec();
                *at += length;
            }
            None => self.short = true,
        }
    }

    /// What is read is not what was written.
    pub fn refuse(&mut self) {
        self.short = true;
    }
}

const CORNERS: [Corner; 4] = [Corner::Nominal, Corner::Soft, Corner::Stiff, Corner::Mixed];

/// Keys of the checks of parts.
pub(crate) const PARTS: [&str; 9] = [
    "part.rope",
    "part.rope_termination",
    "part.end_anchorage",
    "part.post_moment",
    "part.post_compression",
    "part.tieback",
    "part.tieback_anchorage",
    "part.intermediate_post",
    "part.intermediate_post_along_line",
];

/// Keys of the limits, see [`crate::say::names::check_name`].
const LIMITS: [&str; 16] = [
    "us.arrest_force",
    "us.free_fall",
    "us.deceleration_distance",
    "us.no_contact",
    "us.system_factor",
    "us.anchorage_alternative",
    "us.lanyard_strength",
    "us.self_retracting_strength",
    "us.twice_impact_energy",
    "us.user_mass",
    "eu.arrest_force",
    "eu.absorber_extension",
    "eu.retractable_arrest_force",
    "eu.retractable_arrest_distance",
    "eu.users",
    "own",
];

/// Before it is read.
pub const NO_FINDING: Finding = Finding {
    footroom_m: 0.0,
    worker: 0,
    corner: Corner::Nominal,
    nearby: None,
    standing: Standing {
        footroom_m: None,
        unknown: None,
        strength: None,
        parts_failing: 0,
        parts_open: 0,
        limits_not_met: 0,
        first_limit: None,
        own_open: 0,
        absorber_used_up: false,
    },
    tension_max_n: 0.0,
    arrest_force_max_n: 0.0,
    absorber_used_up: false,
    inline_absorber_used_up: false,
    unknown: None,
};

/// What the runs of a case gave.
pub fn of_finding(finding: &mut Finding, n: &mut Numbers) {
    let Finding {
        footroom_m,
        worker,
        corner,
        nearby,
        standing,
        tension_max_n,
        arrest_force_max_n,
        absorber_used_up,
        inline_absorber_used_up,
        unknown,
    } = finding;
    n.number(footroom_m);
    n.count(worker);
    n.choice(&CORNERS, corner);
    of_nearby(nearby, n);
    of_standing(standing, n);
    n.number(tension_max_n);
    n.number(arrest_force_max_n);
    for flag in [absorber_used_up, inline_absorber_used_up] {
        n.flag(flag);
    }
    of_unknown(unknown, n);
}

fn of_unknown(unknown: &mut Option<Unknown>, n: &mut Numbers) {
    let reasons: Vec<Option<Unknown>> = core::iter::once(None)
        .chain(Unknown::EACH.map(Some))
        .collect();
    n.choice(&reasons, unknown);
}

fn of_standing(standing: &mut Standing, n: &mut Numbers) {
    let Standing {
        footroom_m,
        unknown,
        strength,
        parts_failing,
        parts_open,
        limits_not_met,
        first_limit,
        own_open,
        absorber_used_up,
    } = standing;
    let mut known = footroom_m.is_some();
    n.flag(&mut known);
    if known {
        n.number(footroom_m.get_or_insert(0.0));
    }
    of_unknown(unknown, n);
    let mut known = strength.is_some();
    n.flag(&mut known);
    if known {
        of_strength(strength.get_or_insert(NO_STRENGTH), n);
    }
    for count in [parts_failing, parts_open, limits_not_met, own_open] {
        n.count(count);
    }
    let mut known = first_limit.is_some();
    n.flag(&mut known);
    if known {
        n.choice(&LIMITS, first_limit.get_or_insert(LIMITS[0]));
    }
    n.flag(absorber_used_up);
}

fn of_nearby(nearby: &mut Option<Nearby>, n: &mut Numbers) {
    let (mut kind, mut place) = match *nearby {
        None => (0, 0),
        Some(Nearby::All) => (1, 0),
        Some(Nearby::One { worker }) => (2, worker),
        Some(Nearby::Others { worker }) => (3, worker),
    };
    n.count(&mut kind);
    n.count(&mut place);
    *nearby = match kind {
        1 => Some(Nearby::All),
        2 => Some(Nearby::One { worker: place }),
        3 => Some(Nearby::Others { worker: place }),
        _ => None,
    };
}

/// Before it is read.
const NO_STRENGTH: Strength = Strength {
    ratio: 0.0,
    required_ratio: 0.0,
    key: PARTS[0],
    subject: Subject::System,
};

fn of_strength(strength: &mut Strength, n: &mut Numbers) {
    n.number(&mut strength.ratio);
    n.number(&mut strength.required_ratio);
    n.choice(&PARTS, &mut strength.key);
    let (mut kind, mut place) = match strength.subject {
        Subject::System => (0, 0),
        Subject::Worker { worker } => (1, worker),
        Subject::LeftEnd => (2, 0),
        Subject::RightEnd => (3, 0),
        Subject::IntermediatePost { post } => (4, post),
    };
    n.count(&mut kind);
    n.count(&mut place);
    strength.subject = match kind {
        1 => Subject::Worker { worker: place },
        2 => Subject::LeftEnd,
        3 => Subject::RightEnd,
        4 => Subject::IntermediatePost { post: place },
        _ => Subject::System,
    };
}

#[cfg(test)]
mod tests {
    use super::*;
    use footroom_core::case::{EndPost, GearKind, Tieback};
    use footroom_core::check::{CheckSet, Sets};
    use footroom_core::demo::demo;
    use footroom_core::fit::{Effort, find};

    /// Every limit that can be the first not to be met has its place among the keys.
    #[test]
    fn every_limit_has_its_place() {
        let mut case = demo();
        case.sets = Sets {
            us: true,
            european: true,
        };
        case.posts.left = Some(EndPost {
            tieback: Some(Tieback::default()),
            ..EndPost::default()
        });
        case.workers[0].gear.kind = GearKind::SelfRetracting;
        let options = footroom_core::solve::Options::default();
        let found = footroom_core::assess::assess(&case, options).expect("a case");
        for check in found.checks(&case) {
            let limit = !matches!(check.set, CheckSet::Part | CheckSet::Site);
            assert_eq!(LIMITS.contains(&check.key), limit, "{}", check.key);
        }
    }

    #[test]
    fn a_finding_comes_back_as_it_was() {
        let mut case = demo();
        for free_fall in [false, true] {
            if free_fall {
                case.workers[0].gear.length_m = 2.6;
                case.strengths.termination_efficiency_ratio = 1.0;
            }
            let mut finding = find(&case, Effort::Full).expect("a case");
            let mut written = Numbers::default();
            of_finding(&mut finding, &mut written);
            let mut read = Numbers::read(&written.values);
            let mut back = NO_FINDING;
            of_finding(&mut back, &mut read);
            assert!(read.all_read());
            assert_eq!(back, finding);
            assert_eq!(back.standing.first_limit.is_some(), free_fall);
        }
    }
}
