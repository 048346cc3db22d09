//! The worst anywhere on the line and whoever falls: part of every answer.
//!
//! # What is tried
//! Each worker alone, and the first two, three and so on of the crew up to all of them, at one
//! instant and one after another in both orders. Whoever is meant stands along the whole line,
//! distances and order kept; those who do not fall load no rope, and stand where the others leave
//! them.
//! 1. Of each of these groups, all at one instant: places an eighth of the longest span apart, and the
//!    middle of the group at the middle of each span, by two or three tolerance corners
//!    ([`Trial::corners`](crate::trial::Trial::corners)) of the first [`SCREENED_S`] of the motion.
//! 2. Around the place with the least room and the one with the least strength, steps that are halved
//!    [`HALVED`] times.
//! 3. At the place with the least room, falls one after another, [`DELAY_STEP_S`] apart and up to
//!    [`DELAY_MAX_S`].
//! 4. Of what has the least room, of what has the least strength and of the group in the middle of the
//!    longest span all runs of the assessment ([`Trial::complete`](crate::trial::Trial::complete)), so
//!    that the numbers are those of the answer to that case. The corners do not show what small
//!    differences within a crew add.
//!
//! Where the case says that people move freely ([`CrewMoves::Freely`]), each of these groups is also
//! looked for standing otherwise, the steps above for every way ([`Stand`]): close together in their
//! order, close together with the heaviest in the middle, spread evenly over the longest span, and one
//! in the middle of each span. What is tried where distances are kept is tried here too, so moving
//! freely never leaves more room.
//!
//! The case as given is among them, with all its runs, and as it would be with only the first of its
//! crew. A group is searched as if nobody else were there, and the first of a crew are a group of
//! their own: so one more user never raises the room that is found.
//!
//! A connector slides down its line towards the middle of the span as somebody falls, and people walk:
//! that is why the worst place counts, and not only the one where somebody stands on a plan.
//!
//! # Known limits
//! The worst that was found, not a bound: places between the steps, other delays, and differences
//! that no group has are not tried. A scan of 101 places finds up to 5 mm less room for one who falls
//! alone, and up to 5 cm less for two, whose later bounces change from place to place
//! (`tests/anywhere.rs`).

use alloc::collections::VecDeque;
use alloc::vec::Vec;

use crate::answer::Unknown;
use crate::case::{Case, CrewMoves, Line, Worker};
use crate::fault::Fault;
use crate::field;
use crate::order::sort;
use crate::standing::{Mark, Standing, Strength};
use crate::trial::{Finding, Memory};

/// How often the step between places is halved around the worst.
pub const HALVED: u32 = 3;
/// Places of the coarse grid in the longest span.
const PLACES: f64 = 8.0;
/// Step of the delays between one fall and the next, s.
pub const DELAY_STEP_S: f64 = 0.25;
/// Greatest delay between one fall and the next, s; less where the last of a crew would fall later
/// than a case may say.
pub const DELAY_MAX_S: f64 = 2.0;

/// How long the motion is followed after the last fall while places are compared, s: the first
/// bounces of a crew; what was found to be the worst is followed as long as the case says.
pub const SCREENED_S: f64 = 3.0;

/// Distance between two of a crew that stands close together, m: a choice, near enough that one span
/// holds them.
pub const APART_M: f64 = 1.0;

/// Who falls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "who"))]
pub enum Who {
    /// One, the others stay standing, clipped to the line.
    One {
        /// The worker, counted from 0.
        worker: usize,
    },
    /// The first of the crew, in the order of the case; all of them where there are no more.
    First {
        /// How many.
        count: usize,
    },
}

/// When they fall.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "when"))]
pub enum When {
    /// As the case says, and those whom it lets stand do.
    AsGiven,
    /// At one instant.
    Together,
    /// One after another, in the order of the case or against it.
    InTurn {
        /// Delay between one fall and the next, s.
        delay_s: f64,
        /// Last of them first.
        reversed: bool,
    },
}

/// A case with its crew elsewhere on the line, or with other falls.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Posed {
    /// Who falls.
    pub who: Who,
    /// When.
    pub when: When,
    /// Where the workers stand, m, in the order of the case.
    pub position_m: Vec<f64>,
}

/// One of those with what its runs gave.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Found {
    /// Which it is.
    pub posed: Posed,
    /// All runs of the assessment of it.
    pub finding: Finding,
}

/// The worst that was found.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Anywhere {
    /// The least room; `None`: nowhere is there a result.
    pub room: Option<Found>,
    /// The least strength; `None`: no strength is known.
    pub strength: Option<Found>,
    /// Where the line would break, or else a limit is not met though the two above have none such;
    /// `None`: nowhere.
    pub other: Option<Found>,
    /// How many were tried, the case as given among them.
    pub tried: u32,
    /// How many of them have no result for another reason than that the line would break.
    pub unresolved: u32,
    /// The first of those, the case as given aside.
    pub first_unresolved: Option<Posed>,
}

impl Anywhere {
    /// What was found, the worst of each kind.
    pub fn each(&self) -> impl Iterator<Item = &Found> {
        [&self.room, &self.strength, &self.other]
            .into_iter()
            .flatten()
    }

    /// The worst mark of what was found; where some had no result, or nothing was tried, it is left open.
    pub fn mark(&self) -> Mark {
        let open = if self.unresolved > 0 || self.tried == 0 {
            Mark::Open
        } else {
            Mark::Holds
        };
        let marks = self.each().map(|found| found.finding.standing.mark());
        if self.room.is_none() && self.tried > 0 {
            Mark::Unknown
        } else {
            marks.fold(open, Mark::max)
        }
    }

    /// Least footroom, m; `None`: nowhere is there a result.
    pub fn footroom_m(&self) -> Option<f64> {
        self.room.as_ref()?.finding.known_footroom_m()
    }

    /// The least strength; `None`: no strength is known.
    pub fn weakest(&self) -> Option<Strength> {
        self.strength.as_ref()?.finding.standing.strength
    }

    /// What is shown on a press: what has the worst mark of those that fail, the least room where there
    /// is none to spare, else the least strength. Where nothing fails, the least room.
    pub fn worst(&self) -> Option<&Found> {
        let short = |found: &Found| found.finding.standing.room_mark();
        let weak = |found: &Found| match found.finding.standing.strength {
            Some(strength) if strength.kept() < 1.0 => Mark::Fails,
            _ => Mark::Holds,
        };
        let room = self.room.as_ref().map(|found| (found, short(found)));
        let strength = self.strength.as_ref().map(|found| (found, weak(found)));
        let other = self.other.as_ref().map(|found| (found, Mark::Holds));
        let mut worst: Option<(&Found, (Mark, Mark))> = None;
        for (found, own) in [room, strength, other].into_iter().flatten() {
            let mark = found.finding.standing.mark();
            let fails = if mark >= Mark::Fails {
                mark
            } else {
                Mark::Holds
            };
            let rank = (fails, own);
            if worst.is_none_or(|(_, least)| rank > least) {
                worst = Some((found, rank));
            }
        }
        worst.map(|(found, _)| found)
    }
}

/// The mark of an answer: the worse of how the case stands and of the worst anywhere on its line, which
/// is left open while it is looked for (`None`).
pub fn answer_mark(standing: &Standing, anywhere: Option<&Anywhere>) -> Mark {
    standing
        .mark()
        .max(anywhere.map_or(Mark::Open, Anywhere::mark))
}

/// How far a search is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Steps made: cases tried, or what a search does in one go.
    pub made: u32,
    /// Steps to make, as far as is known: some turn out to be needless, or impossible.
    pub of: u32,
    /// There is no other.
    pub done: bool,
}

impl Who {
    /// Whether a worker falls, counted from 0.
    pub fn falls(self, i: usize) -> bool {
        match self {
            Self::One { worker } => worker == i,
            Self::First { count } => i < count,
        }
    }
}

impl Posed {
    /// The case as given.
    pub fn given(case: &Case) -> Self {
        Self {
            who: Who::First {
                count: case.workers.len(),
            },
            when: When::AsGiven,
            position_m: case.workers.iter().map(|w| w.position_m).collect(),
        }
    }

    /// The case: the given one with these places and falls. Where falls come later than in the given
    /// one, the motion is followed for longer by as much.
    pub fn case(&self, given: &Case) -> Case {
        let mut case = given.clone();
        let mut turn = 0.0;
        let count = case.workers.iter().enumerate();
        let count = count.filter(|(i, _)| self.who.falls(*i)).count();
        for (i, worker) in case.workers.iter_mut().enumerate() {
            if let Some(&position_m) = self.position_m.get(i) {
                worker.position_m = position_m;
            }
            if !self.who.falls(i) {
                worker.fall_time_s = None;
                continue;
            }
            worker.fall_time_s = match self.when {
                When::AsGiven => worker.fall_time_s,
                When::Together => Some(0.0),
                When::InTurn { delay_s, reversed } => {
                    let place = if reversed {
                        count as f64 - 1.0 - turn
                    } else {
                        turn
                    };
                    Some(delay_s * place)
                }
            };
            turn += 1.0;
        }
        let later = last_fall_s(&case) - last_fall_s(given);
        if later > 0.0 {
            let most = field::find("motion.duration_s").map_or(f64::INFINITY, |f| f.max);
            case.motion.duration_s = (case.motion.duration_s + later).min(most);
        }
        case
    }
}

/// When the last of the crew falls, s.
pub(crate) fn last_fall_s(case: &Case) -> f64 {
    let falls = case.workers.iter().filter_map(|w| w.fall_time_s);
    falls.fold(0.0, f64::max)
}

/// A worker but for his place and his fall.
fn alike(a: &Worker, b: &Worker) -> bool {
    let plain = |w: &Worker| Worker {
        position_m: 0.0,
        fall_time_s: None,
        ..*w
    };
    plain(a) == plain(b)
}

/// A case that was tried by its corners.
#[derive(Clone, Debug)]
struct Tried {
    posed: Posed,
    /// How far the group stands from where it is given, m.
    shift_m: f64,
    finding: Finding,
}

impl Tried {
    fn room_m(&self) -> f64 {
        self.finding.known_footroom_m().unwrap_or(f64::INFINITY)
    }

    fn kept(&self) -> f64 {
        let strength = self.finding.standing.strength;
        strength.map_or(f64::INFINITY, |s| s.kept())
    }

    fn when_together(&self) -> bool {
        self.posed.when == When::Together
    }

    /// Its numbers may be compared with others'.
    fn compares(&self) -> bool {
        matches!(self.finding.unknown, None | Some(Unknown::LineBreaks))
    }
}

/// A way in which a group that moves freely stands before it is moved along the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stand {
    /// [`APART_M`] apart, in the order of the case.
    Close,
    /// [`APART_M`] apart, the heaviest in the middle; of equals the first, so that also in a crew of
    /// equals somebody else falls first in the middle.
    CloseByMass,
    /// Evenly over the longest span, in the order of the case.
    Spread,
    /// One in the middle of each span, the longest first, in the order of the case; the next round
    /// stands [`APART_M`] beside the first.
    EachSpan,
}

/// Every way in which those who move freely are tried.
const STANDS: [Stand; 4] = [
    Stand::Close,
    Stand::CloseByMass,
    Stand::Spread,
    Stand::EachSpan,
];

/// Where those of a crew stand close together around the middle of the longest span, m, in the order
/// that they are told: [`APART_M`] apart, or less where the span does not hold them.
pub fn close_together(line: &Line, crew: &[usize]) -> Vec<(usize, f64)> {
    let (_, span_m) = line.longest_span_m();
    evenly(line, crew, APART_M.min(span_m / crew.len().max(1) as f64))
}

/// So far apart around the middle of the longest span, m.
fn evenly(line: &Line, crew: &[usize], apart_m: f64) -> Vec<(usize, f64)> {
    let (middle_m, _) = line.longest_span_m();
    let half = 0.5 * (crew.len() as f64 - 1.0);
    let place_m = |turn: usize| middle_m + apart_m * (turn as f64 - half);
    (crew.iter().enumerate())
        .map(|(turn, &i)| (i, place_m(turn)))
        .collect()
}

impl Stand {
    /// Where those of a crew stand, m.
    fn places_m(self, case: &Case, crew: &[usize]) -> Vec<(usize, f64)> {
        let line = &case.line;
        match self {
            Self::Close => close_together(line, crew),
            Self::CloseByMass => {
                let mass_kg = |i: usize| case.workers.get(i).map_or(0.0, |w| w.mass_kg);
                let mut by_mass = crew.to_vec();
                sort(&mut by_mass, |a, b| mass_kg(*a) > mass_kg(*b));
                // From the middle outwards, to the right and to the left in turn.
                let mut order = VecDeque::new();
                for (turn, i) in by_mass.into_iter().enumerate() {
                    if turn % 2 == 0 {
                        order.push_back(i);
                    } else {
                        order.push_front(i);
                    }
                }
                close_together(line, order.make_contiguous())
            }
            Self::Spread => {
                let (_, span_m) = line.longest_span_m();
                evenly(line, crew, span_m / crew.len().max(1) as f64)
            }
            Self::EachSpan => {
                let mut spans: Vec<(f64, f64)> = Vec::new();
                let mut start_m = 0.0;
                for &span_m in &line.spans_m {
                    spans.push((start_m + 0.5 * span_m, span_m));
                    start_m += span_m;
                }
                sort(&mut spans, |a, b| a.1 > b.1);
                let place_m = |turn: usize| {
                    let (middle_m, _) = spans.get(turn % spans.len().max(1)).copied()?;
                    Some(middle_m + APART_M * (turn / spans.len().max(1)) as f64)
                };
                let places = crew.iter().enumerate();
                places
                    .filter_map(|(turn, &i)| Some((i, place_m(turn)?)))
                    .collect()
            }
        }
    }
}

/// Who falls together, and where the crew stands before it is moved along the line.
#[derive(Clone, Debug)]
struct Group {
    who: Who,
    /// Of every worker, m.
    position_m: Vec<f64>,
}

impl Group {
    fn as_given(case: &Case, who: Who) -> Self {
        Self {
            who,
            position_m: case.workers.iter().map(|w| w.position_m).collect(),
        }
    }

    /// The group standing otherwise.
    fn standing(case: &Case, who: Who, stand: Stand) -> Self {
        let mut group = Self::as_given(case, who);
        let crew: Vec<usize> = (0..case.workers.len()).filter(|&i| who.falls(i)).collect();
        let length_m = case.line.length_m();
        for (i, position_m) in stand.places_m(case, &crew) {
            if let Some(place) = group.position_m.get_mut(i) {
                *place = position_m.max(0.0).min(length_m);
            }
        }
        group
    }

    /// Where those who fall stand, m.
    fn falling_m(&self) -> impl Iterator<Item = f64> {
        let places = self.position_m.iter().enumerate();
        places
            .filter(|(i, _)| self.who.falls(*i))
            .map(|(_, &position_m)| position_m)
    }

    /// The least and the greatest of those places, m.
    fn ends_m(&self) -> (f64, f64) {
        let start = (f64::INFINITY, f64::NEG_INFINITY);
        (self.falling_m()).fold(start, |(least, most), m| (least.min(m), most.max(m)))
    }

    /// One is the other moved along the line.
    fn is_moved(&self, other: &Self) -> bool {
        let (from, to) = (self.ends_m().0, other.ends_m().0);
        let mut pairs = self.falling_m().zip(other.falling_m());
        self.who == other.who && pairs.all(|(a, b)| (a - from - (b - to)).abs() < 1e-9)
    }
}

/// The groups of a case, see [the top](self).
fn groups(case: &Case) -> Vec<Group> {
    let crew = &case.workers;
    let mut groups: Vec<Group> = Vec::new();
    for worker in 0..crew.len() {
        if crew[..worker].iter().all(|w| !alike(w, &crew[worker])) {
            groups.push(Group::as_given(case, Who::One { worker }));
        }
    }
    for count in 2..=crew.len() {
        let who = Who::First { count };
        groups.push(Group::as_given(case, who));
        if case.crew_moves == CrewMoves::KeepingDistances {
            continue;
        }
        for stand in STANDS {
            let group = Group::standing(case, who, stand);
            if !groups.iter().any(|other| group.is_moved(other)) {
                groups.push(group);
            }
        }
    }
    groups
}

/// The part of a search that is about one group.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Stage {
    /// The coarse grid of places.
    Grid,
    /// Around the worst, steps halved so often.
    Finer(u32),
    /// One after another.
    InTurn,
    /// All runs of the worst.
    Whole,
}

/// A search, a case a step.
///
/// # Examples
/// ```
/// use footroom_core::anywhere::Looking;
/// use footroom_core::demo::demo;
/// use footroom_core::fit::{Effort, find};
/// let mut looking = Looking::new(&demo()).unwrap();
/// while !looking.advance().done {}
/// let anywhere = looking.found().unwrap();
/// let here = find(&demo(), Effort::Full).unwrap();
/// assert!(anywhere.footroom_m().unwrap() <= here.footroom_m);
/// let room = anywhere.room.unwrap();
/// // What stands there is the answer to that case.
/// let there = find(&room.posed.case(&demo()), Effort::Full).unwrap();
/// assert_eq!(there, room.finding);
/// ```
#[derive(Clone, Debug)]
pub struct Looking {
    case: Case,
    groups: Vec<Group>,
    /// The group whose turn it is.
    group: usize,
    stage: Stage,
    /// What is to be tried next, last first.
    next: Vec<(Posed, f64)>,
    /// What was tried of this group.
    tried: Vec<Tried>,
    /// Places among them that are to have all runs, last first.
    whole: Vec<usize>,
    found: Vec<Found>,
    made: u32,
    unresolved: u32,
    first_unresolved: Option<Posed>,
    /// Of how many of the crew, as given, all runs are still to be made, last first.
    given: Vec<usize>,
    /// Only one group, and that without falls one after another.
    short: bool,
    memory: Memory,
}

impl Looking {
    /// Prepares a search; nothing is computed yet.
    ///
    /// # Errors
    /// The faults of the case.
    pub fn new(case: &Case) -> Result<Self, Vec<Fault>> {
        case.ready()?;
        let mut looking = Self {
            case: case.clone(),
            groups: groups(case),
            group: 0,
            stage: Stage::Grid,
            next: Vec::new(),
            tried: Vec::new(),
            whole: Vec::new(),
            found: Vec::new(),
            made: 0,
            unresolved: 0,
            first_unresolved: None,
            given: (1..=case.workers.len()).collect(),
            short: false,
            memory: Memory::none(),
        };
        looking.next = looking.grid();
        Ok(looking)
    }

    /// Prepares one that uses what is known, and begins with the largest group, which mostly has the
    /// worst. It finds the same.
    ///
    /// # Errors
    /// The faults of the case.
    pub(crate) fn over(case: &Case, memory: &mut Memory) -> Result<Self, Vec<Fault>> {
        let mut looking = Self::new(case)?;
        looking.groups.reverse();
        looking.next = looking.grid();
        looking.memory = core::mem::take(memory);
        Ok(looking)
    }

    /// What is known, with all that was made since; nothing is remembered any more.
    pub(crate) fn take_memory(&mut self) -> Memory {
        core::mem::replace(&mut self.memory, Memory::none())
    }

    /// What was tried last, by its corners, and what had all its runs last.
    pub(crate) fn latest(&self) -> impl Iterator<Item = &Finding> {
        let tried = self.tried.last().map(|tried| &tried.finding);
        tried
            .into_iter()
            .chain(self.found.last().map(|found| &found.finding))
    }

    /// Leaves out the groups that are still to come, and falls one after another.
    pub(crate) fn cut_short(&mut self) {
        self.groups.truncate(self.group + 1);
        self.short = true;
        if self.stage == Stage::InTurn {
            self.next.clear();
            self.go_on();
        }
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        let done = self.group >= self.groups.len();
        let left = if done { 0 } else { self.left() };
        Progress {
            made: self.made,
            of: self.made + left,
            done,
        }
    }

    /// What was found; `None` before it is done.
    pub fn found(&self) -> Option<Anywhere> {
        (self.group >= self.groups.len()).then(|| self.so_far())
    }

    /// Makes all steps that are left, and tells what was found.
    pub fn finish(mut self) -> Anywhere {
        while !self.advance().done {}
        self.so_far()
    }

    /// Tries one case.
    pub fn advance(&mut self) -> Progress {
        if self.group >= self.groups.len() {
            return self.progress();
        }
        if let Some(count) = self.given.pop() {
            let given = Posed {
                who: Who::First { count },
                ..Posed::given(&self.case)
            };
            let all = count == self.case.workers.len();
            self.complete(given, !all);
            return self.progress();
        }
        if self.stage == Stage::Whole {
            if let Some(place) = self.whole.pop() {
                let posed = self.tried[place].posed.clone();
                self.complete(posed, true);
            }
        } else if let Some((posed, shift_m)) = self.next.pop() {
            self.try_one(posed, shift_m);
        }
        self.go_on();
        self.progress()
    }

    /// Goes on to the next stage that has something to be tried.
    fn go_on(&mut self) {
        while self.group < self.groups.len() && self.next.is_empty() && self.whole.is_empty() {
            self.stage = match self.stage {
                Stage::Grid => Stage::Finer(1),
                Stage::Finer(halved) if halved < HALVED => Stage::Finer(halved + 1),
                Stage::Finer(_) => Stage::InTurn,
                Stage::InTurn => Stage::Whole,
                Stage::Whole => {
                    self.group += 1;
                    self.tried.clear();
                    Stage::Grid
                }
            };
            let Some(group) = self.groups.get(self.group) else {
                return;
            };
            let who = group.who;
            match self.stage {
                Stage::Grid => self.next = self.grid(),
                Stage::Finer(halved) => self.next = self.finer(halved),
                Stage::InTurn => self.next = self.in_turn(who),
                Stage::Whole => self.whole = self.to_complete(),
            }
        }
    }

    /// Cases that are left to be tried, as far as is known.
    fn left(&self) -> u32 {
        let finer = |from: u32| 4 * (HALVED + 1 - from);
        let turns = |who: Who| match who {
            Who::One { .. } => 0,
            Who::First { count } => 2 * self.delays(count),
        };
        let now = (self.next.len() + self.whole.len()) as u32;
        let this = self.groups.get(self.group).map(|group| group.who);
        let later = this.map_or(0, |who| match self.stage {
            Stage::Grid => finer(1) + turns(who) + 3,
            Stage::Finer(halved) => finer(halved + 1) + turns(who) + 3,
            Stage::InTurn => 3,
            Stage::Whole => 0,
        });
        let others = self.groups.iter().skip(self.group + 1);
        let others: u32 = others
            .map(|group| self.shifts(group).len() as u32 + finer(1) + turns(group.who) + 3)
            .sum();
        self.given.len() as u32 + now + later + others
    }

    /// Delays between falls that are tried in a group.
    fn delays(&self, count: usize) -> u32 {
        let latest = field::find("workers.fall_time_s").map_or(DELAY_MAX_S, |f| f.max);
        let most = DELAY_MAX_S.min(latest / count.saturating_sub(1).max(1) as f64);
        (most / DELAY_STEP_S + 1e-9) as u32
    }

    /// Step of the coarse grid, m.
    fn step_m(&self) -> f64 {
        let spans = self.case.line.spans_m.iter();
        spans.fold(0.0_f64, |a, &b| a.max(b)) / PLACES
    }

    /// From where to where a group can be shifted, m: until the first or last of it stands at an end of
    /// the line.
    fn reach_m(&self, group: &Group) -> (f64, f64) {
        let (least, most) = group.ends_m();
        (-least, self.case.line.length_m() - most)
    }

    /// Shifts of the coarse grid, m.
    fn shifts(&self, group: &Group) -> Vec<f64> {
        let (from, to) = self.reach_m(group);
        let step = self.step_m();
        let mut shifts = Vec::new();
        let mut shift = from;
        while shift < to {
            shifts.push(shift);
            shift += step;
        }
        shifts.push(to);
        let length = self.case.line.length_m();
        let middle = 0.5 * (length - from - to);
        let mut start = 0.0;
        for span in &self.case.line.spans_m {
            shifts.push((start + 0.5 * span - middle).max(from).min(to));
            start += span;
        }
        shifts
    }

    /// The group whose turn it is, at one instant, so far from where it is given.
    fn shifted(&self, group: &Group, shift_m: f64) -> (Posed, f64) {
        let length = self.case.line.length_m();
        let position_m = group.position_m.iter();
        let position_m = position_m
            .map(|m| (m + shift_m).max(0.0).min(length))
            .collect();
        let posed = Posed {
            who: group.who,
            when: When::Together,
            position_m,
        };
        (posed, shift_m)
    }

    fn grid(&self) -> Vec<(Posed, f64)> {
        let Some(group) = self.groups.get(self.group) else {
            return Vec::new();
        };
        let shifts = self.shifts(group).into_iter();
        shifts.map(|shift| self.shifted(group, shift)).collect()
    }

    /// The tried with the least of a number.
    fn least(&self, of: impl Fn(&Tried) -> f64) -> Option<usize> {
        let all = self.tried.iter().enumerate().filter(|(_, t)| t.compares());
        let (place, least) = all.min_by(|a, b| of(a.1).total_cmp(&of(b.1)))?;
        of(least).is_finite().then_some(place)
    }

    /// The places of the least room and of the least strength of the group.
    fn worst_places(&self) -> Vec<usize> {
        let mut places: Vec<usize> = self.least(Tried::room_m).into_iter().collect();
        places.extend(self.least(Tried::kept).filter(|p| !places.contains(p)));
        places
    }

    fn finer(&self, halved: u32) -> Vec<(Posed, f64)> {
        let Some(group) = self.groups.get(self.group) else {
            return Vec::new();
        };
        let (from, to) = self.reach_m(group);
        let step = self.step_m() / f64::from(1_u32 << halved);
        let mut next: Vec<(Posed, f64)> = Vec::new();
        for place in self.worst_places() {
            let middle = self.tried[place].shift_m;
            for shift in [middle - step, middle + step] {
                let known = |other: f64| (other - shift).abs() < 1e-9;
                if (from..=to).contains(&shift)
                    && !self.tried.iter().any(|t| known(t.shift_m))
                    && !next.iter().any(|(_, s)| known(*s))
                {
                    next.push(self.shifted(group, shift));
                }
            }
        }
        next
    }

    fn in_turn(&self, who: Who) -> Vec<(Posed, f64)> {
        let (Who::First { count }, Some(place), false) =
            (who, self.least(Tried::room_m), self.short)
        else {
            return Vec::new();
        };
        let worst = &self.tried[place];
        let mut next = Vec::new();
        for reversed in [false, true] {
            for i in 1..=self.delays(count) {
                let when = When::InTurn {
                    delay_s: DELAY_STEP_S * f64::from(i),
                    reversed,
                };
                let posed = Posed {
                    when,
                    ..worst.posed.clone()
                };
                next.push((posed, worst.shift_m));
            }
        }
        next
    }

    /// Shift that puts the middle of a group in the middle of the first of the longest spans, m.
    fn middle_m(&self, group: &Group) -> f64 {
        let (from, to) = self.reach_m(group);
        let middle = 0.5 * (self.case.line.length_m() - from - to);
        (self.case.line.longest_span_m().0 - middle)
            .max(from)
            .min(to)
    }

    /// The tried that are to have all runs: the least room, the least strength and the middle of the
    /// longest span, and one without a result as the line would break.
    fn to_complete(&self) -> Vec<usize> {
        let mut places = self.worst_places();
        if let Some(group) = self.groups.get(self.group) {
            let middle = self.middle_m(group);
            let there = |t: &Tried| t.when_together() && (t.shift_m - middle).abs() < 1e-9;
            places.extend(
                self.tried
                    .iter()
                    .position(there)
                    .filter(|p| !places.contains(p)),
            );
        }
        let breaks = |t: &Tried| t.finding.unknown == Some(Unknown::LineBreaks);
        places.extend((self.tried.iter().position(breaks)).filter(|p| !places.contains(p)));
        places
    }

    fn try_one(&mut self, posed: Posed, shift_m: f64) {
        self.made += 1;
        let case = posed.case(&self.case);
        let mut brief = case.clone();
        brief.motion.duration_s = (last_fall_s(&case) + SCREENED_S).min(case.motion.duration_s);
        let Ok(trial) = self.memory.corners(&brief) else {
            return;
        };
        let mut finding = trial.finding();
        if finding.unknown == Some(Unknown::NotFinished)
            && let Ok(trial) = self.memory.corners(&case)
        {
            finding = trial.finding();
        }
        let tried = Tried {
            posed,
            shift_m,
            finding,
        };
        if !tried.compares() {
            self.count_unresolved(&tried.posed);
        }
        self.tried.push(tried);
    }

    /// Makes all runs of a case, unless that was done. `tried`: it is not the case as given.
    fn complete(&mut self, posed: Posed, tried: bool) {
        self.made += 1;
        let case = posed.case(&self.case);
        let again = |found: &Found| found.posed.case(&self.case) == case;
        if self.found.iter().any(again) || case.workers.iter().all(|w| w.fall_time_s.is_none()) {
            return;
        }
        if let Ok(trial) = self.memory.whole(&case) {
            self.keep(posed, trial.finding(), tried);
        }
    }

    fn count_unresolved(&mut self, posed: &Posed) {
        self.unresolved += 1;
        if self.first_unresolved.is_none() {
            self.first_unresolved = Some(posed.clone());
        }
    }

    fn keep(&mut self, posed: Posed, finding: Finding, tried: bool) {
        let compares = matches!(finding.unknown, None | Some(Unknown::LineBreaks));
        match (compares, tried) {
            (true, _) => self.found.push(Found { posed, finding }),
            (false, true) => self.count_unresolved(&posed),
            (false, false) => self.unresolved += 1,
        }
    }

    fn so_far(&self) -> Anywhere {
        // Of equals the first: the case as given stands before what is like it.
        let least = |of: &dyn Fn(&Found) -> f64| {
            let all = self.found.iter().filter(|f| of(f).is_finite());
            all.min_by(|a, b| of(a).total_cmp(&of(b))).cloned()
        };
        let room = least(&|f| f.finding.known_footroom_m().unwrap_or(f64::INFINITY));
        let strength = least(&|f| {
            let strength = f.finding.standing.strength;
            strength.map_or(f64::INFINITY, |s| s.kept())
        });
        let said = [&room, &strength].into_iter().flatten();
        let said = said.fold(Mark::Holds, |m, f| f.finding.standing.mark().max(m));
        let other = (self.found.iter())
            .filter(|f| f.finding.standing.mark() > said)
            .max_by_key(|f| f.finding.standing.mark())
            .cloned();
        Anywhere {
            room,
            strength,
            other,
            tried: self.made,
            unresolved: self.unresolved,
            first_unresolved: self.first_unresolved.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::Subject;
    use crate::corner::Corner;
    use crate::demo::demo;
    use crate::spread::Spread;

    /// Something found, with the marks that follow from these numbers.
    fn found(footroom_m: Option<f64>, kept: Option<f64>, limits_not_met: usize) -> Found {
        let strength = kept.map(|kept| Strength {
            ratio: 2.0 * kept,
            required_ratio: 2.0,
            key: "part.rope",
            subject: Subject::System,
        });
        let unknown = footroom_m.map_or(Some(Unknown::LineBreaks), |_| None);
        let standing = Standing {
            footroom_m,
            unknown,
            strength,
            parts_failing: usize::from(kept.is_some_and(|k| k < 1.0)),
            parts_open: 0,
            limits_not_met,
            first_limit: None,
            own_open: 0,
            absorber_used_up: false,
        };
        Found {
            posed: Posed::given(&demo()),
            finding: Finding {
                footroom_m: footroom_m.unwrap_or(0.0),
                worker: 0,
                corner: Corner::Soft,
                nearby: None,
                standing,
                tension_max_n: 0.0,
                arrest_force_max_n: 0.0,
                absorber_used_up: false,
                inline_absorber_used_up: false,
                unknown,
            },
        }
    }

    fn anywhere(room: Option<Found>, strength: Option<Found>, other: Option<Found>) -> Anywhere {
        Anywhere {
            room,
            strength,
            other,
            tried: 1,
            unresolved: 0,
            first_unresolved: None,
        }
    }

    /// The mark is the worst of what was found; one place without a result leaves it open.
    #[test]
    fn one_place_without_a_result_leaves_the_mark_open() {
        let good = || Some(found(Some(0.5), Some(1.2), 0));
        let mut all = anywhere(good(), good(), None);
        assert_eq!(all.mark(), Mark::Holds);
        all.unresolved = 1;
        assert_eq!(all.mark(), Mark::Open);
        all.strength = Some(found(Some(0.5), Some(0.9), 0));
        assert_eq!(all.mark(), Mark::Fails);
        all.room = None;
        assert_eq!(all.mark(), Mark::Unknown);
    }

    /// What a press shows: of what fails the worst mark, there the room that is short before the strength
    /// that is; where nothing fails the least room.
    #[test]
    fn the_worst_that_is_shown_is_what_fails() {
        let room = |m: f64| Some(found(Some(m), Some(1.2), 0));
        let strength = |kept: f64| Some(found(Some(0.5), Some(kept), 0));
        let limit = || Some(found(Some(0.5), Some(1.2), 1));
        let breaks = || Some(found(None, Some(0.3), 0));
        let cases = [
            (room(0.2), strength(1.1), None, 0),
            // Exactly what must be kept is kept.
            (room(0.2), strength(1.0), None, 0),
            (room(0.2), strength(0.9), None, 1),
            (room(-0.2), strength(1.1), None, 0),
            (room(-0.2), strength(0.9), None, 0),
            (room(0.2), strength(1.1), limit(), 2),
            (room(-0.2), strength(1.1), limit(), 0),
            (room(0.2), strength(0.9), limit(), 1),
            (room(-0.2), strength(0.9), breaks(), 2),
            (None, strength(1.1), breaks(), 2),
            (None, None, None, 3),
        ];
        for (i, (room, strength, other, which)) in cases.into_iter().enumerate() {
            let all = anywhere(room, strength, other);
            let each = [
                all.room.as_ref(),
                all.strength.as_ref(),
                all.other.as_ref(),
                None,
            ];
            let shown = all.worst().map(core::ptr::from_ref);
            assert_eq!(shown, each[which].map(core::ptr::from_ref), "{i}");
        }
    }

    /// The demonstration on other spans, with a crew of these masses.
    fn crew(spans_m: &[f64], masses_kg: &[f64]) -> Case {
        let mut case = demo();
        case.line.spans_m = spans_m.to_vec();
        let one = case.workers[0];
        let worker = |&mass_kg: &f64| Worker {
            position_m: 0.5,
            mass_kg,
            ..one
        };
        case.workers = masses_kg.iter().map(worker).collect();
        case
    }

    /// Where a crew that moves freely stands before it is moved along the line: worked by hand.
    #[test]
    fn a_crew_that_moves_freely_stands_as_each_way_says() {
        let case = crew(&[4.0, 9.0, 6.0, 9.0], &[100.0, 80.0, 90.0, 90.0, 80.0]);
        let all = [0, 1, 2, 3, 4];
        let places = |stand: Stand, crew: &[usize]| stand.places_m(&case, crew);
        // 4 to 13 m is the first of the longest: its middle is at 8.5 m.
        assert_eq!(places(Stand::Close, &[3]), [(3, 8.5)]);
        assert_eq!(places(Stand::Close, &[0, 2]), [(0, 8.0), (2, 9.0)]);
        assert_eq!(
            places(Stand::Close, &all),
            [(0, 6.5), (1, 7.5), (2, 8.5), (3, 9.5), (4, 10.5)]
        );
        // The heaviest in the middle, of equals the first, to the right and to the left in turn.
        let order = |stand| -> Vec<usize> { places(stand, &all).iter().map(|p| p.0).collect() };
        assert_eq!(order(Stand::CloseByMass), [1, 2, 0, 3, 4]);
        assert_eq!(
            places(Stand::Spread, &[0, 1, 2]),
            [(0, 5.5), (1, 8.5), (2, 11.5)]
        );
        // The longest span first, of equals the left one; the fifth a metre beside the first.
        assert_eq!(
            places(Stand::EachSpan, &all),
            [(0, 8.5), (1, 23.5), (2, 16.0), (3, 2.0), (4, 9.5)]
        );
        // A span that does not hold them a metre apart holds them all the same.
        let short = crew(&[3.0], &[90.0; 6]);
        let close = close_together(&short.line, &[0, 1, 2, 3, 4, 5]);
        let places: Vec<f64> = close.iter().map(|p| p.1).collect();
        assert_eq!(places, [0.25, 0.75, 1.25, 1.75, 2.25, 2.75]);
        // Nobody is put beyond the line.
        let case = crew(&[2.0, 1.0], &[90.0; 6]);
        let group = Group::standing(&case, Who::First { count: 6 }, Stand::EachSpan);
        assert!(group.position_m.iter().all(|m| (0.0..=3.0).contains(m)));
    }

    /// The motion of a case with later falls is followed for longer by what they are later, and no more.
    #[test]
    fn later_falls_are_followed_for_as_long_as_those_given() {
        let mut case = demo();
        case.workers[1].fall_time_s = Some(0.5);
        let duration_s = |when| {
            let posed = Posed {
                when,
                ..Posed::given(&case)
            };
            posed.case(&case).motion.duration_s - case.motion.duration_s
        };
        let in_turn = |delay_s| When::InTurn {
            delay_s,
            reversed: true,
        };
        assert_eq!(duration_s(When::AsGiven), 0.0);
        assert_eq!(duration_s(When::Together), 0.0);
        assert_eq!(duration_s(in_turn(0.25)), 0.0);
        assert!((duration_s(in_turn(1.0)) - 1.5).abs() < 1e-12);
    }

    /// Delays go in quarters of a second to 2 s, or to what lets the last of a crew fall when a case may
    /// say at the latest.
    #[test]
    fn delays_go_as_far_as_a_case_may_say() {
        let latest = field::find("workers.fall_time_s").unwrap().max;
        for count in 2..=6 {
            let looking = Looking::new(&crew(&[9.0], &[90.0; 6])).unwrap();
            let last = f64::from(looking.delays(count)) * DELAY_STEP_S;
            let most = DELAY_MAX_S.min(latest / (count - 1) as f64);
            assert!((most - DELAY_STEP_S..=most).contains(&last), "{count}");
            assert!(last > most - DELAY_STEP_S, "{count}");
        }
    }

    /// A search never says that more is to be done than it said before, does all that it says, comes within
    /// a 64th of the longest span of its worst place, and tries and completes nothing twice.
    #[test]
    fn a_search_says_how_far_it_is_and_comes_near_the_worst_place() {
        let mut case = crew(&[6.0, 8.0], &[90.0, 100.0]);
        case.motion.duration_s = 1.0;
        case.site.below[0].height_m = 1.0;
        case.workers[1].position_m = 2.5;
        let mut looking = Looking::new(&case).unwrap();
        let mut before = looking.progress();
        assert_eq!((before.made, before.done), (0, false));
        let mut groups = 0;
        while !before.done {
            let stage = looking.stage;
            if let (Stage::Finer(_), true, Some((_, shift_m))) =
                (stage, looking.given.is_empty(), looking.next.last())
            {
                let known = |t: &Tried| (t.shift_m - shift_m).abs() < 1e-9;
                assert!(!looking.tried.iter().any(known), "{shift_m}");
            }
            let now = looking.advance();
            assert!(
                now.made <= now.of && now.of <= before.of,
                "{before:?} {now:?}"
            );
            assert_eq!(now.made, before.made + 1);
            before = now;
            if matches!(stage, Stage::Finer(_)) && !matches!(looking.stage, Stage::Finer(_)) {
                groups += 1;
                for place in looking.worst_places() {
                    let at_m = looking.tried[place].shift_m;
                    let near = |t: &Tried| {
                        let away_m = (t.shift_m - at_m).abs();
                        away_m > 1e-9 && away_m <= 8.0 / 64.0 + 1e-9
                    };
                    assert!(looking.tried.iter().any(near), "{at_m}");
                }
            }
        }
        assert_eq!(groups, 3);
        assert_eq!(before.made, before.of);
        assert_eq!(looking.advance(), before);
        assert_eq!(looking.found().unwrap().tried, before.made);
        let cases: Vec<Case> = (looking.found.iter())
            .map(|f| f.posed.case(&case))
            .collect();
        for (i, a) in cases.iter().enumerate() {
            assert!(!cases[..i].contains(a));
        }
    }

    /// All runs are made of what has the least room, of what has the least strength, of the group in the
    /// middle of the longest span, and of the first where the line would break; of each once.
    #[test]
    fn all_runs_are_made_of_the_worst_of_each_kind() {
        let mut by = Spread::new(21);
        let case = crew(&[6.0, 9.0], &[90.0]);
        let mut looking = Looking::new(&case).unwrap();
        let (mut broken, mut one) = (0, 0);
        for _ in 0..200 {
            looking.tried.clear();
            for (posed, shift_m) in looking.grid() {
                let kept = by.odds(0.9).then(|| by.between(0.5, 1.5));
                let room_m = by.odds(0.97).then(|| by.between(-1.0, 1.0));
                let finding = found(room_m, kept, 0).finding;
                looking.tried.push(Tried {
                    posed,
                    shift_m,
                    finding,
                });
            }
            let of = |number: fn(&Tried) -> f64| {
                let least = looking
                    .tried
                    .iter()
                    .map(number)
                    .fold(f64::INFINITY, f64::min);
                looking
                    .tried
                    .iter()
                    .position(|t| number(t) == least)
                    .unwrap()
            };
            // The worker stands at 0.5 m, the middle of the longest span is at 10.5 m.
            let middle = looking
                .tried
                .iter()
                .position(|t| (t.shift_m - 10.0).abs() < 1e-9)
                .unwrap();
            let mut expected = alloc::vec![of(Tried::room_m), of(Tried::kept), middle];
            let breaks = looking
                .tried
                .iter()
                .position(|t| t.finding.unknown.is_some());
            broken += usize::from(breaks.is_some());
            expected.extend(breaks);
            sort(&mut expected, |a, b| a < b);
            expected.dedup();
            let mut whole = looking.to_complete();
            sort(&mut whole, |a, b| a < b);
            assert_eq!(whole, expected);
            one += usize::from(whole.len() < 3);
        }
        assert!(broken > 20 && one > 0, "{broken} {one}");
    }

    /// What is found where it is given has its runs once; who falls alone is asked no delays.
    #[test]
    fn what_is_worst_where_it_is_given_has_its_runs_once() {
        let mut case = crew(&[8.0], &[90.0]);
        case.motion.duration_s = 1.6;
        case.site.below.clear();
        case.workers[0].position_m = 4.0;
        let mut looking = Looking::new(&case).unwrap();
        while !looking.advance().done {
            assert!(looking.tried.iter().all(Tried::when_together));
        }
        for (i, found) in looking.found.iter().enumerate() {
            let there = found.posed.case(&case);
            assert!(
                looking.found[..i]
                    .iter()
                    .all(|f| f.posed.case(&case) != there)
            );
        }
        assert!(looking.found.iter().any(|f| f.posed.case(&case) == case));
        // Nobody falls in a part of a crew that stands: nothing is solved for it.
        let mut case = crew(&[8.0], &[90.0, 90.0]);
        case.motion.duration_s = 1.6;
        case.workers[0].fall_time_s = None;
        let mut looking = Looking::new(&case).unwrap();
        while !looking.given.is_empty() {
            looking.advance();
        }
        assert_eq!((looking.found.len(), looking.unresolved), (1, 0));
    }

    /// What has no result is counted once; the case as given is not the first of the others.
    #[test]
    fn what_has_no_result_is_counted_once() {
        // Half a second is too short for every one of them.
        let mut case = crew(&[9.0], &[90.0, 100.0]);
        case.motion.duration_s = 0.5;
        let mut looking = Looking::new(&case).unwrap();
        looking.advance();
        assert_eq!((looking.unresolved, &looking.first_unresolved), (1, &None));
        looking.advance();
        assert_eq!(looking.unresolved, 2);
        let first = looking.first_unresolved.clone().unwrap();
        assert_eq!(first.who, Who::First { count: 1 });
        looking.advance();
        assert_eq!(
            (looking.unresolved, looking.first_unresolved),
            (3, Some(first))
        );
    }

    #[test]
    fn as_many_fall_as_are_told() {
        let falls = |who: Who| [0, 1, 2, 3].map(|i| who.falls(i));
        assert_eq!(falls(Who::First { count: 2 }), [true, true, false, false]);
        assert_eq!(falls(Who::One { worker: 2 }), [false, false, true, false]);
    }

    /// A search that is cut short ends with its group, whatever it was at.
    #[test]
    fn a_search_that_is_cut_short_ends_with_its_group() {
        let mut case = crew(&[6.0], &[90.0, 100.0, 90.0]);
        case.motion.duration_s = 1.0;
        case.workers[1].position_m = 2.5;
        let whole = Looking::over(&case, &mut Memory::none()).unwrap();
        assert_eq!(whole.groups[0].who, Who::First { count: 3 });
        // In the middle of the grid, and of falls one after another.
        for stage in [Stage::Grid, Stage::InTurn] {
            let mut looking = Looking::over(&case, &mut Memory::none()).unwrap();
            while looking.stage != stage || !looking.given.is_empty() {
                looking.advance();
            }
            looking.advance();
            looking.cut_short();
            assert!(looking.progress().of < whole.progress().of / 2);
            let made = looking.progress().made;
            let left = looking.finish();
            assert!(left.tried - made < if stage == Stage::Grid { 30 } else { 5 });
        }
    }
}
