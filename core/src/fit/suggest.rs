//! What to change when the answer is no: changes, each the smallest of its kind that makes the case
//! fit, each solved before it is offered, here and at the worst place that is found.
//!
//! # Kinds and steps
//! | kind | tried, in this order | then |
//! | --- | --- | --- |
//! | posts | one, two in the span of the governing worker, dividing it evenly | crew at its worst place |
//! | users | one fewer, two fewer, …: must fit whoever leaves, the others where they stand | the worst of those crews |
//! | shorter lanyards | none longer than a multiple of 0.05 m, downward to half | |
//! | more, less pretension | multiples of 100 N, up to twice, down to half | |
//! | higher line | multiples of 0.05 m, upward to [`REACH_ABOVE_DRING_M`] over the lowest D-ring | |
//! | rope | thicker ones of the catalogue, same construction first, thinnest first | |
//! | thing below | the highest under the governing worker: lowered to a multiple of 0.05 m; taken away | |
//! | absorbers | average force of all, multiples of 250 N, up to twice | |
//! | stand under the connector | where a swing takes the number away: no farther along the line than a multiple of 0.1 m | |
//! | away from posts | where the line grows too steep: nobody nearer to one than a multiple of 0.1 m, up to 1 m | |
//! | longer motion | where a motion does not end: 2, 3, 4, 6, 8, 10 s | |
//! | ratings | every rating entered that is too low, raised to what the fall asks, see below | |
//!
//! Long series are tried at every eighth of their length, then halved between the last that does not
//! fit and the first that does: the offered value fits, its neighbour of one step less does not, but
//! a smaller change that fits beyond that neighbour may exist where the answer is not monotone.
//!
//! # Ratings
//! A strength does not change the motion. So what a fall asks of each part is known, and the rating
//! that would be needed with it: demand × required ratio, the greatest of all places that were looked
//! at, rounded up to the step that is shown ([`Steps`]). Of a termination it is efficiency × breaking
//! force: the efficiency is raised where that is enough, and beside it, or where it is not, the rope's
//! breaking force. A rating that has not been entered is never made up: what would be needed of it
//! stands in [`Suggestions::ratings`].
//!
//! # Anywhere
//! What fits at the given places must also hold with the crew elsewhere and others falling
//! ([`holds_anywhere`]). To look for the worst place takes a hundred cases and more. So each kind is
//! first tried at the given places and at those that were the worst of another case; of what fits
//! there the smallest are looked at anywhere, until [`WANTED`] hold or [`LOOKS_MAX`] were looked at.
//! What does not hold gives another place, and its kind is tried on from there.
//!
//! # What is left out
//! Nothing on which an offer rests: what is offered had all runs where the crew stands, at the known
//! places, and the whole search for its worst place.
//! - A series is tried by tolerance corners first, and by all runs from there on: more runs only raise
//!   demands, so that what corners say no to, all runs do.
//! - A search for the worst place of a change ends with its group when a place there says no. It begins
//!   with the largest group, which mostly has the worst.
//! - No motion knows the ratings: runs of a case that differs in nothing else are not made again.
//!
//! # Two together
//! Where fewer than [`PAIRS_WANTED`] do it alone, and ratings alone do not, each other kind is tried
//! with the ratings that it then needs, the smallest that leaves room. Where still nothing does it,
//! pairs of kinds are, each at a third, two thirds and the whole of its series: first those whose gains
//! in room, added up, are enough, least size first, at most [`PAIRS_MAX`] of them, until
//! [`PAIRS_WANTED`] pairs of kinds fit.
//!
//! # Rank
//! By [`Suggestion::size`], the size of the change as a part of what is there (table at
//! [`Change::size`]), then by footroom. It is a convention, to put a few centimetres of lanyard
//! before a new post; whether the equipment's maker and the site allow the change, it does not know.

use alloc::vec::Vec;

use super::ask::{with_lanyards, with_line_height};
use super::layout::at_worst_place;
use super::{Effort, Finding, Limits, Rules, Stop, Trial};
use crate::answer::Unknown;
use crate::anywhere::{Anywhere, Looking, Posed};
use crate::case::{Case, GearKind};
use crate::check::{Check, CheckSet, Reason, Subject, Verdict};
use crate::constants::SPANS_MAX;
use crate::fault::Fault;
use crate::field;
use crate::maths::{ceil, floor};
use crate::order::sort;
use crate::quantity::Quantity;
use crate::rope::{CATALOGUE, Rope};
use crate::standing::Strength;
use crate::trial::Memory;

/// Step of lengths that are suggested, m.
pub const LENGTH_STEP_M: f64 = 0.05;
/// Step of pretensions that are suggested, N.
pub const PRETENSION_STEP_N: f64 = 100.0;
/// Step of absorber forces that are suggested, N.
pub const ABSORBER_STEP_N: f64 = 250.0;
/// Steps of a termination's efficiency in 1.
const EFFICIENCY_STEPS: f64 = 100.0;
/// Step of distances to connector and posts, m.
const DISTANCE_STEP_M: f64 = 0.1;
/// Greatest distance from a post that is suggested, m.
const FROM_POST_MAX_M: f64 = 1.0;
/// Lengths of the motion that are suggested, s.
const DURATIONS_S: [f64; 6] = [2.0, 3.0, 4.0, 6.0, 8.0, 10.0];
/// Most pairs that are tried.
pub const PAIRS_MAX: u32 = 60;
/// Pairs of kinds that are wanted.
pub const PAIRS_WANTED: usize = 3;
/// Changes that are wanted.
pub const WANTED: usize = 6;
/// Most cases whose worst place is looked for.
pub const LOOKS_MAX: u32 = 20;
/// Most places that are kept to be tried first.
const PLACES_MAX: usize = 6;
/// How often a kind is tried on after a value that did not hold elsewhere.
const FURTHER_MAX: usize = 3;
/// Height above the D-ring of a standing worker up to which he can still clip to a line, m. Common
/// practice, no source.
pub const REACH_ABOVE_DRING_M: f64 = 0.6;
/// Most posts added.
const POSTS_MAX: usize = 2;
/// Most values of a series tried before halving.
const COARSE: usize = 8;

/// Steps to which ratings are rounded up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// N.
    pub force_n: f64,
    /// N·m.
    pub moment_n_m: f64,
}

impl Default for Steps {
    /// 0.1 kN, 0.1 kN·m.
    fn default() -> Self {
        Self {
            force_n: 100.0,
            moment_n_m: 100.0,
        }
    }
}

impl Steps {
    /// The least multiple of the step that is not below `least`.
    fn up(&self, quantity: Quantity, least: f64) -> f64 {
        let step = match quantity {
            Quantity::Moment => self.moment_n_m,
            // A quotient of whole numbers, as it is typed.
            Quantity::Ratio => return ceil(least * EFFICIENCY_STEPS - 1e-9) / EFFICIENCY_STEPS,
            _ => self.force_n,
        };
        step * ceil(least / step - 1e-9)
    }
}

/// A kind of change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Kind {
    /// Intermediate posts added.
    AddPosts,
    /// Fewer users.
    FewerUsers,
    /// Shorter lanyards.
    ShorterLanyard,
    /// More pretension.
    MorePretension,
    /// Less pretension.
    LessPretension,
    /// A higher line.
    RaiseLine,
    /// A thicker rope.
    Rope,
    /// A thing below lowered.
    LowerBelow,
    /// A thing below taken away.
    RemoveBelow,
    /// Absorbers that deploy at a greater force.
    AbsorberForce,
    /// People who stand under their connectors.
    StandUnder,
    /// People who stand away from posts.
    AwayFromPosts,
    /// A longer motion.
    LongerMotion,
    /// Greater ratings.
    Ratings,
    /// Greater ratings, the rope's breaking force in place of its terminations' efficiency.
    RopeRating,
}

/// All kinds, in the order in which they are tried.
pub const KINDS: [Kind; 15] = [
    Kind::Ratings,
    Kind::RopeRating,
    Kind::LongerMotion,
    Kind::StandUnder,
    Kind::AwayFromPosts,
    Kind::LowerBelow,
    Kind::RemoveBelow,
    Kind::ShorterLanyard,
    Kind::RaiseLine,
    Kind::MorePretension,
    Kind::LessPretension,
    Kind::AddPosts,
    Kind::FewerUsers,
    Kind::Rope,
    Kind::AbsorberForce,
];

/// A single change.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "change"))]
pub enum Change {
    /// Posts that divide a span evenly. The crew stands together at the worst place.
    AddPosts {
        /// The span, counted from 0.
        span: usize,
        /// How many.
        posts: usize,
    },
    /// Fewer users, whoever leaves.
    FewerUsers {
        /// How many are left.
        users: usize,
    },
    /// No lanyard longer than this.
    ShorterLanyard {
        /// Length, m.
        length_m: f64,
    },
    /// Another pretension.
    Pretension {
        /// Pretension, N.
        pretension_n: f64,
    },
    /// The line at another height.
    RaiseLine {
        /// Height above the beam top, m.
        height_m: f64,
    },
    /// Another rope.
    Rope {
        /// Its row of the catalogue.
        id: &'static str,
    },
    /// A thing below lowered.
    LowerBelow {
        /// The thing, counted from 0.
        below: usize,
        /// New height of its top, m.
        height_m: f64,
    },
    /// A thing below taken away.
    RemoveBelow {
        /// The thing, counted from 0.
        below: usize,
    },
    /// Every absorber at this average force at least, its maximum raised with it.
    AbsorberForce {
        /// Average force, N.
        average_force_n: f64,
    },
    /// Nobody farther along the line from his connector than this.
    StandUnder {
        /// Distance, m.
        offset_m: f64,
    },
    /// Nobody nearer to a post than this.
    AwayFromPosts {
        /// Distance, m.
        distance_m: f64,
    },
    /// The motion followed for longer.
    LongerMotion {
        /// Duration, s.
        duration_s: f64,
    },
    /// A greater rating.
    Rating {
        /// The input, a name in [`crate::field::FIELDS`].
        field: &'static str,
        /// Strength, N or N·m; of terminations their efficiency.
        strength: f64,
    },
}

/// A change that makes the case fit, or several together.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Suggestion {
    /// The changes, made one after another.
    pub changes: Vec<Change>,
    /// The changed case.
    pub case: Case,
    /// What it gives, by all runs.
    pub finding: Finding,
    /// What it gives at the worst place that was found, the given ones among them.
    pub anywhere: Elsewhere,
    /// Size of the changes, by which suggestions are ranked.
    pub size: f64,
}

/// The worst of a case anywhere on the line.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Elsewhere {
    /// Least footroom that is known, m; `None`: nowhere.
    pub footroom_m: Option<f64>,
    /// The weakest part; `None`: no strength is known.
    pub strength: Option<Strength>,
    /// How many places and falls have no result.
    pub unresolved: u32,
    /// How many places and falls were tried.
    pub tried: u32,
}

/// A rating that has not been entered.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Rating {
    /// The input, a name in [`crate::field::FIELDS`]; `None`: the end post must be described first.
    pub field: Option<&'static str>,
    /// Key of the check that asks most of it.
    pub key: &'static str,
    /// The part of which it asks that.
    pub subject: Subject,
    /// What would be needed, N or N·m, here and at the worst place that was found; `None`: not known.
    pub needed: Option<f64>,
}

/// What would make a case fit.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Suggestions {
    /// What stops the case as given; `None`: it fits there.
    pub stop: Option<Stop>,
    /// What stops it elsewhere on the line; `None`: it holds at the worst place that was found, and
    /// where it fits as given nothing is suggested.
    pub stop_anywhere: Option<Stop>,
    /// Changes that make it fit, smallest first; empty: none that was tried does.
    pub found: Vec<Suggestion>,
    /// Ratings to be entered, with what would be needed.
    pub ratings: Vec<Rating>,
    /// Cases that were judged.
    pub tried: u32,
    /// Pairs of changes among them.
    pub pairs: u32,
}

impl Change {
    /// Size of the change as a part of what is there.
    ///
    /// | change | size |
    /// | --- | --- |
    /// | lanyard, pretension, absorber force, rating, thing below lowered | difference over the given value |
    /// | line raised | difference over 1 m |
    /// | thing taken away | 1 |
    /// | posts | 0.5 each |
    /// | rope | difference of its mass per length over the given one, at least 0.25 |
    /// | users | those who leave over those given |
    /// | standing elsewhere | the distance over 1 m |
    /// | longer motion | 0: it is no change on the site |
    pub fn size(&self, given: &Case) -> f64 {
        let part = |to: f64, from: f64| {
            if from > 0.0 {
                (to - from).abs() / from
            } else {
                1.0
            }
        };
        match *self {
            Change::AddPosts { posts, .. } => 0.5 * posts as f64,
            Change::FewerUsers { users } => {
                let all = given.workers.len();
                all.saturating_sub(users) as f64 / all.max(1) as f64
            }
            Change::ShorterLanyard { length_m } => part(length_m, longest_lanyard_m(given)),
            Change::Pretension { pretension_n } => part(pretension_n, given.line.pretension_n),
            Change::RaiseLine { height_m } => height_m - given.line.height_above_beam_m,
            Change::Rope { id } => CATALOGUE.iter().find(|r| r.id == id).map_or(1.0, |r| {
                let mass = |rope: &Rope| rope.mass_per_length_kg_per_m;
                part(mass(&r.rope), mass(&given.line.rope)).max(0.25)
            }),
            Change::LowerBelow { below, height_m } => given
                .site
                .below
                .get(below)
                .map_or(1.0, |b| part(height_m, b.height_m)),
            Change::RemoveBelow { .. } => 1.0,
            Change::AbsorberForce { average_force_n } => {
                part(average_force_n, least_absorber_n(given).unwrap_or(0.0))
            }
            Change::StandUnder { offset_m } => {
                let offset = |w: &crate::case::Worker| w.offset_along_m.abs();
                let most = given.workers.iter().map(offset).fold(0.0, f64::max);
                most - offset_m
            }
            Change::AwayFromPosts { distance_m } => distance_m,
            Change::LongerMotion { .. } => 0.0,
            Change::Rating { field, strength } => {
                part(strength, rated(given, field).unwrap_or(0.0))
            }
        }
    }

    /// The case with the change; `None`: there is nothing to change. It may have faults.
    pub fn apply(&self, given: &Case) -> Option<Case> {
        let mut case = given.clone();
        match *self {
            Change::AddPosts { span, posts } => {
                let length = *given.line.spans_m.get(span)?;
                let piece = length / (posts + 1) as f64;
                let pieces = core::iter::repeat_n(piece, posts + 1);
                case.line.spans_m.splice(span..=span, pieces);
                let end = case.line.length_m();
                for w in &mut case.workers {
                    w.position_m = w.position_m.min(end);
                }
                case = at_worst_place(&case);
            }
            // Who leaves is not said: the search tries each.
            Change::FewerUsers { users } => case.workers.truncate(users),
            Change::ShorterLanyard { length_m } => {
                case = with_lanyards(given, |old| old.min(length_m));
            }
            Change::Pretension { pretension_n } => case.line.pretension_n = pretension_n,
            Change::RaiseLine { height_m } => case = with_line_height(given, height_m),
            Change::Rope { id } => {
                case.line.rope = CATALOGUE.iter().find(|row| row.id == id)?.rope;
            }
            Change::LowerBelow { below, height_m } => {
                case.site.below.get_mut(below)?.height_m = height_m;
            }
            Change::RemoveBelow { below } => {
                case.site.below.get(below)?;
                case.site.below.remove(below);
            }
            Change::AbsorberForce { average_force_n } => {
                case = with_absorbers(given, average_force_n);
            }
            Change::StandUnder { offset_m } => {
                for w in &mut case.workers {
                    w.offset_along_m = w.offset_along_m.clamp(-offset_m, offset_m);
                }
            }
            Change::AwayFromPosts { distance_m } => {
                let mut start = 0.0;
                for &span in &given.line.spans_m {
                    let end = start + span;
                    // A short span leaves its middle.
                    let away = distance_m.min(0.5 * span);
                    for (w, is) in given.workers.iter().zip(&mut case.workers) {
                        if (start..=end).contains(&w.position_m) {
                            is.position_m = w.position_m.max(start + away).min(end - away);
                        }
                    }
                    start = end;
                }
            }
            Change::LongerMotion { duration_s } => case.motion.duration_s = duration_s,
            Change::Rating { field, strength } => {
                if !field::write(&mut case, field, 0, Some(strength)) {
                    return None;
                }
            }
        }
        Some(case)
    }
}

/// A rating as entered.
fn rated(case: &Case, field: &'static str) -> Option<f64> {
    field::read(&mut case.clone(), field, 0).and_then(|n| n.value)
}

/// All suggestions for a case, ranked.
///
/// # Errors
/// The faults of the case.
///
/// # Examples
/// ```
/// use footroom_core::demo::demo;
/// use footroom_core::fit::{Limits, Rules};
/// use footroom_core::fit::suggest::suggest;
/// let mut case = demo();
/// case.line.spans_m = vec![6.0; 3];
/// case.site.margin_m = 1.9;
/// let rules = Rules::new(&case, Limits::KeepMet).unwrap();
/// let all = suggest(&case, Limits::KeepMet).unwrap();
/// assert!(all.stop.is_some() && !all.found.is_empty());
/// for suggestion in all.found {
///     assert_eq!(rules.stop(&suggestion.case), None);
/// }
/// case.workers.clear();
/// assert!(suggest(&case, Limits::KeepMet).is_err());
/// ```
pub fn suggest(given: &Case, limits: Limits) -> Result<Suggestions, Vec<Fault>> {
    let mut search = Search::new(given, limits, Steps::default())?;
    while search.step() {}
    Ok(search.so_far())
}

/// The worst that is found of a case anywhere on the line and whoever falls.
struct Looked {
    anywhere: Anywhere,
    /// The worst of room, of strength and of what else fails, all runs made.
    worst: Vec<(Posed, Trial)>,
    /// The search was ended early.
    short: bool,
}

/// Whether all runs of a case stop it as these few do, whatever the limits: they only raise demands.
fn stops(finding: &Finding) -> bool {
    match finding.unknown {
        Some(why) => why == Unknown::LineBreaks,
        None => finding.footroom_m < 0.0 || finding.standing.parts_failing > 0,
    }
}

impl Looked {
    /// Looks for it; `None`: the case has faults. With `short` only in the first group that has a place
    /// that stops the case, where one has.
    fn at(case: &Case, memory: &mut Memory, short: bool) -> Option<Self> {
        let mut looking = Looking::over(case, memory).ok()?;
        let mut ended = false;
        while !looking.advance().done {
            if short && !ended && looking.latest().any(stops) {
                looking.cut_short();
                ended = true;
            }
        }
        *memory = looking.take_memory();
        let anywhere = looking.found()?;
        let mut worst: Vec<(Posed, Trial)> = Vec::new();
        for found in anywhere.each() {
            if worst.iter().any(|(posed, _)| *posed == found.posed) {
                continue;
            }
            if let Ok(trial) = memory.whole(&found.posed.case(case)) {
                worst.push((found.posed.clone(), trial));
            }
        }
        Some(Self {
            anywhere,
            worst,
            short: ended,
        })
    }

    /// The first of the worst that stops the case, and what does.
    fn stop(&self, rules: &Rules) -> Option<(&Posed, Stop)> {
        let stop = |(posed, trial)| Some((posed, stop_elsewhere(trial, rules)?));
        self.worst
            .iter()
            .map(|(posed, trial)| (posed, trial))
            .find_map(stop)
    }
}

/// Another case like the one for which this was found; `None`: it has other people.
fn posed(posed: &Posed, case: &Case) -> Option<Case> {
    (posed.position_m.len() == case.workers.len()).then(|| posed.case(case))
}

/// What stops a case anywhere on the line, at the worst place that is found; `None`: nothing does.
///
/// A place without a result stops nothing, unless the line would break there.
pub fn holds_anywhere(case: &Case, rules: &Rules) -> Option<Stop> {
    let looked = Looked::at(case, &mut Memory::default(), false)?;
    looked.stop(rules).map(|(_, stop)| stop)
}

fn stop_elsewhere(trial: &Trial, rules: &Rules) -> Option<Stop> {
    trial.stop(rules).filter(|stop| !says_nothing(stop))
}

/// Elsewhere a case without a result is not stopped, unless the line would break.
fn says_nothing(stop: &Stop) -> bool {
    matches!(stop, Stop::Unknown { why } if *why != Unknown::LineBreaks)
}

/// The rules for changes of `given`, for places where it does not stand: what it does not keep at
/// the worst of those that are found is not asked of a changed one either.
///
/// # Errors
/// Every fault of the case, when there is one.
pub fn rules_anywhere(given: &Case, limits: Limits) -> Result<Rules, Vec<Fault>> {
    let mut rules = Rules::new(given, limits)?;
    let looked = Looked::at(given, &mut Memory::default(), false);
    for (_, trial) in looked.map_or_else(Vec::new, |looked| looked.worst) {
        rules.excuse(&trial);
    }
    Ok(rules)
}

/// What a search does next.
#[derive(Clone, Debug, PartialEq)]
enum Stage {
    /// Where the given case is worst.
    Elsewhere,
    /// A kind of [`KINDS`], alone.
    One(usize),
    /// What fits at the places that are known, anywhere.
    Anywhere {
        /// With ratings.
        rated: bool,
    },
    /// A kind with the ratings that it needs.
    Rated(usize),
    /// Two kinds, by their place in the list of pairs.
    Two(usize),
    Done,
}

/// A search for suggestions, a piece at a time, so that whoever drives it can show progress and
/// stop.
pub struct Search {
    given: Case,
    steps: Steps,
    rules: Rules,
    /// The rules for other places than the given ones.
    elsewhere: Rules,
    trial: Trial,
    stop: Option<Stop>,
    stop_anywhere: Option<Stop>,
    /// Checks of the given case, here and at the worst places.
    checks: Vec<Check>,
    /// Places that were the worst of a case.
    places: Vec<Posed>,
    stage: Stage,
    /// What is still to be looked at anywhere.
    candidates: Vec<Candidate>,
    /// Two changes each with their size, least first.
    two: Vec<(f64, [Change; 2])>,
    tried: u32,
    pairs: u32,
    /// How many cases the worst place was looked for of.
    looks: u32,
    memory: Memory,
    found: Vec<Suggestion>,
}

/// Something that fits where the crew stands and at the places that are known.
struct Candidate {
    size: f64,
    kind: Kind,
    /// Where the series of its kind goes on, should it not hold.
    next: usize,
    /// How often it has gone on.
    turns: usize,
    changes: Vec<Change>,
    case: Case,
    finding: Finding,
    /// Another case that must hold with it.
    also: Option<Case>,
}

impl Search {
    /// Judges the given case.
    ///
    /// # Errors
    /// The faults of the case.
    pub fn new(given: &Case, limits: Limits, steps: Steps) -> Result<Self, Vec<Fault>> {
        let mut memory = Memory::default();
        let trial = memory.whole(given)?;
        let rules = Rules::of(&trial, limits);
        Ok(Self {
            given: given.clone(),
            steps,
            stop: trial.stop(&rules),
            stop_anywhere: None,
            elsewhere: rules.clone(),
            rules,
            checks: trial.checks(),
            trial,
            places: Vec::new(),
            stage: Stage::Elsewhere,
            candidates: Vec::new(),
            two: Vec::new(),
            tried: 1,
            pairs: 0,
            looks: 0,
            memory,
            found: Vec::new(),
        })
    }

    /// How far it is: steps made, and all of them as far as is known.
    pub fn progress(&self) -> (usize, usize) {
        let kinds = KINDS.len();
        // Where the given case is worst, each kind, and what is looked at anywhere.
        let alone = 1 + kinds + WANTED;
        let rated = alone + kinds + WANTED;
        let looked = self.found.len().min(WANTED);
        match self.stage {
            Stage::Elsewhere => (0, alone),
            Stage::One(i) => (1 + i, alone),
            Stage::Anywhere { rated: false } => (1 + kinds + looked, alone),
            Stage::Rated(i) => (alone + i, rated),
            Stage::Anywhere { rated: true } => (alone + kinds + looked, rated),
            Stage::Two(_) => (rated + self.pairs as usize, rated + PAIRS_MAX as usize),
            Stage::Done => (1, 1),
        }
    }

    /// Makes the next piece; false: there was none left.
    pub fn step(&mut self) -> bool {
        match self.stage {
            Stage::Elsewhere => {
                let looked = self.look(&self.given.clone(), false);
                for (place, trial) in looked.map_or_else(Vec::new, |l| l.worst) {
                    self.elsewhere.excuse(&trial);
                    let stop = stop_elsewhere(&trial, &self.elsewhere);
                    self.stop_anywhere = self.stop_anywhere.or(stop);
                    self.checks.extend(trial.checks());
                    self.keep_place(place);
                }
                let stopped = self.stop.is_some() || self.stop_anywhere.is_some();
                self.stage = if stopped { Stage::One(0) } else { Stage::Done };
            }
            Stage::One(i) => {
                let candidate = KINDS.get(i).and_then(|&kind| self.alone(kind, 0));
                self.candidates.extend(candidate);
                self.stage = if i < KINDS.len() {
                    Stage::One(i + 1)
                } else {
                    Stage::Anywhere { rated: false }
                };
            }
            Stage::Rated(i) => {
                let candidate = KINDS.get(i).and_then(|&kind| self.with_ratings(kind, 0));
                self.candidates.extend(candidate);
                self.stage = if i < KINDS.len() {
                    Stage::Rated(i + 1)
                } else {
                    Stage::Anywhere { rated: true }
                };
            }
            Stage::Anywhere { rated } => {
                let sizes = self.candidates.iter().map(|c| c.size).enumerate();
                let least = sizes.min_by(|a, b| a.1.total_cmp(&b.1));
                let more = self.found.len() < WANTED && self.looks < LOOKS_MAX;
                match least.filter(|_| more) {
                    Some((i, _)) => {
                        let candidate = self.candidates.swap_remove(i);
                        self.look_at(candidate, rated);
                    }
                    None => self.go_on(rated),
                }
            }
            Stage::Two(i) => {
                let wanted = self.found.len() < PAIRS_WANTED
                    && self.pairs < PAIRS_MAX
                    && self.looks < LOOKS_MAX;
                let Some(&(_, two)) = self.two.get(i).filter(|_| wanted) else {
                    self.stage = Stage::Done;
                    return true;
                };
                self.stage = Stage::Two(i + 1);
                self.try_two(two);
            }
            Stage::Done => return false,
        }
        true
    }

    /// Goes on when all that fits at the places that are known was looked at.
    fn go_on(&mut self, rated: bool) {
        self.candidates.clear();
        let rating = |c: &Change| matches!(c, Change::Rating { .. });
        let by_ratings = |s: &Suggestion| s.changes.iter().all(rating);
        let more = self.found.len() < PAIRS_WANTED && !self.found.iter().any(by_ratings);
        self.stage = if self.looks >= LOOKS_MAX {
            Stage::Done
        } else if !rated && more {
            Stage::Rated(0)
        } else if self.found.is_empty() {
            self.two = self.all_pairs();
            Stage::Two(0)
        } else {
            Stage::Done
        };
    }

    /// What was found so far, ranked.
    pub fn so_far(&self) -> Suggestions {
        let mut found = self.found.clone();
        sort(&mut found, |a, b| {
            let by_size = a.size.total_cmp(&b.size);
            by_size
                .then(b.finding.footroom_m.total_cmp(&a.finding.footroom_m))
                .is_lt()
        });
        Suggestions {
            stop: self.stop,
            stop_anywhere: self.stop_anywhere,
            found,
            ratings: self.ratings_to_enter(),
            tried: self.tried,
            pairs: self.pairs,
        }
    }

    /// Keeps what holds anywhere; what does not is tried on from there.
    fn look_at(&mut self, candidate: Candidate, rated: bool) {
        let beside = candidate.also.as_ref();
        let beside = beside.is_none_or(|case| self.holds(case).is_some());
        let anywhere = beside.then(|| self.holds(&candidate.case)).flatten();
        if let Some(anywhere) = anywhere {
            if self.found.iter().all(|s| s.case != candidate.case) {
                self.found.push(Suggestion {
                    size: candidate.size,
                    changes: candidate.changes,
                    case: candidate.case,
                    finding: candidate.finding,
                    anywhere,
                });
            }
        } else if candidate.turns < FURTHER_MAX {
            let next = if rated {
                self.with_ratings(candidate.kind, candidate.next)
            } else {
                self.alone(candidate.kind, candidate.next)
            };
            let turns = candidate.turns + 1;
            self.candidates
                .extend(next.map(|next| Candidate { turns, ..next }));
        }
    }

    fn candidate(
        &self,
        kind: Kind,
        next: usize,
        changes: Vec<Change>,
        (case, finding): (Case, Finding),
    ) -> Candidate {
        Candidate {
            size: changes.iter().map(|c| c.size(&self.given)).sum(),
            kind,
            next,
            turns: 0,
            changes,
            case,
            finding,
            also: None,
        }
    }

    fn keep_place(&mut self, place: Posed) {
        if !self.places.contains(&place) {
            self.places.insert(0, place);
            self.places.truncate(PLACES_MAX);
        }
    }

    /// What a case gives, when it fits where it stands and at the places that are known.
    fn fits(&mut self, case: &Case) -> Option<Finding> {
        self.fits_by(case, Effort::Full)
    }

    fn fits_by(&mut self, case: &Case, effort: Effort) -> Option<Finding> {
        let mut here = self.memory.corners(case).ok()?;
        self.tried += 1;
        if here.stop(&self.rules).is_some() {
            return None;
        }
        let mut there: Vec<(usize, Trial)> = Vec::new();
        for place in 0..self.places.len() {
            // Where it has a fault, or no result, nothing is known.
            let posed = posed(&self.places[place], case);
            let Some(trial) = posed.and_then(|case| self.memory.corners(&case).ok()) else {
                continue;
            };
            self.tried += 1;
            match trial.stop(&self.elsewhere) {
                None => there.push((place, trial)),
                Some(stop) if says_nothing(&stop) => {}
                Some(_) => {
                    self.says_no(place);
                    return None;
                }
            }
        }
        if effort == Effort::Full {
            if self.stop_of_all(&mut here, true).is_some() {
                return None;
            }
            for (place, mut trial) in there {
                let stop = self.stop_of_all(&mut trial, false);
                if stop.is_some_and(|stop| !says_nothing(&stop)) {
                    self.says_no(place);
                    return None;
                }
            }
        }
        Some(here.finding())
    }

    /// The next will hear no of the same place, mostly.
    fn says_no(&mut self, place: usize) {
        self.places[..=place].rotate_right(1);
    }

    /// What stops a case, its corners made, by all runs, up to the first that does.
    fn stop_of_all(&mut self, trial: &mut Trial, here: bool) -> Option<Stop> {
        let rules = if here { &self.rules } else { &self.elsewhere };
        self.memory.recall(trial, Effort::Full);
        let mut stop = trial.stop(rules);
        while stop.is_none() && trial.more() {
            stop = trial.stop(rules);
        }
        self.memory.keep(trial);
        stop
    }

    /// Looks for the worst of a case anywhere, as long as it has not been done too often.
    fn look(&mut self, case: &Case, short: bool) -> Option<Looked> {
        if self.looks >= LOOKS_MAX {
            return None;
        }
        self.looks += 1;
        let looked = Looked::at(case, &mut self.memory, short)?;
        self.tried += looked.anywhere.tried;
        Some(looked)
    }

    /// The worst of a case anywhere, when it holds there.
    fn holds(&mut self, case: &Case) -> Option<Elsewhere> {
        let mut looked = self.look(case, true)?;
        if looked.short && looked.stop(&self.elsewhere).is_none() {
            // All runs of the worst of that group have no result.
            looked = Looked::at(case, &mut self.memory, false)?;
        }
        if let Some((place, _)) = looked.stop(&self.elsewhere) {
            let place = place.clone();
            self.keep_place(place);
            return None;
        }
        let anywhere = looked.anywhere;
        Some(Elsewhere {
            footroom_m: anywhere.footroom_m(),
            strength: anywhere.weakest(),
            unresolved: anywhere.unresolved,
            tried: anywhere.tried,
        })
    }

    /// The series of a kind, the smallest change first.
    fn series(&self, kind: Kind) -> Vec<Change> {
        let given = &self.given;
        let lost =
            |why: Unknown| [self.stop, self.stop_anywhere].contains(&Some(Stop::Unknown { why }));
        match kind {
            Kind::AddPosts => self.posts(),
            Kind::FewerUsers => (1..given.workers.len())
                .rev()
                .map(|users| Change::FewerUsers { users })
                .collect(),
            Kind::ShorterLanyard => {
                let longest = longest_lanyard_m(given);
                let steps = downward(longest, 0.5 * longest, LENGTH_STEP_M);
                let change = |length_m| Change::ShorterLanyard { length_m };
                steps.into_iter().map(change).collect()
            }
            Kind::MorePretension | Kind::LessPretension => {
                let present = given.line.pretension_n;
                let steps = if kind == Kind::MorePretension {
                    upward(present, 2.0 * present, PRETENSION_STEP_N)
                } else {
                    downward(present, 0.5 * present, PRETENSION_STEP_N)
                };
                let change = |pretension_n| Change::Pretension { pretension_n };
                steps.into_iter().map(change).collect()
            }
            Kind::RaiseLine => {
                let present = given.line.height_above_beam_m;
                let most = given
                    .workers
                    .iter()
                    .map(|w| w.dring_height_m + REACH_ABOVE_DRING_M)
                    .fold(f64::INFINITY, f64::min);
                let steps = upward(present, most, LENGTH_STEP_M);
                let change = |height_m| Change::RaiseLine { height_m };
                steps.into_iter().map(change).collect()
            }
            Kind::Rope => self.ropes(),
            Kind::LowerBelow => {
                let Some(below) = self.governing_below() else {
                    return Vec::new();
                };
                let height = given.site.below.get(below).map_or(0.0, |b| b.height_m);
                let steps = downward(height, 0.0, LENGTH_STEP_M);
                let change = |height_m| Change::LowerBelow { below, height_m };
                steps.into_iter().map(change).collect()
            }
            Kind::RemoveBelow => (self.governing_below().into_iter())
                .map(|below| Change::RemoveBelow { below })
                .collect(),
            Kind::AbsorberForce => {
                let Some(present) = least_absorber_n(given) else {
                    return Vec::new();
                };
                let steps = upward(present, 2.0 * present, ABSORBER_STEP_N);
                let change = |average_force_n| Change::AbsorberForce { average_force_n };
                steps.into_iter().map(change).collect()
            }
            Kind::StandUnder if lost(Unknown::SwingsBelowStack) => {
                let offset = |w: &crate::case::Worker| w.offset_along_m.abs();
                let most = given.workers.iter().map(offset).fold(0.0, f64::max);
                let change = |offset_m| Change::StandUnder { offset_m };
                let steps = downward(most, 0.0, DISTANCE_STEP_M);
                steps.into_iter().map(change).collect()
            }
            Kind::AwayFromPosts if lost(Unknown::TooSteep) => {
                let change = |distance_m| Change::AwayFromPosts { distance_m };
                let steps = upward(0.0, FROM_POST_MAX_M, DISTANCE_STEP_M);
                steps.into_iter().map(change).collect()
            }
            Kind::LongerMotion if lost(Unknown::NotFinished) => DURATIONS_S
                .into_iter()
                .filter(|&s| s > given.motion.duration_s)
                .map(|duration_s| Change::LongerMotion { duration_s })
                .collect(),
            Kind::StandUnder
            | Kind::AwayFromPosts
            | Kind::LongerMotion
            | Kind::Ratings
            | Kind::RopeRating => Vec::new(),
        }
    }

    /// The smallest change of a kind, from a place in its series on, that fits at the places that are
    /// known.
    fn alone(&mut self, kind: Kind, from: usize) -> Option<Candidate> {
        match kind {
            Kind::FewerUsers => self.users(from),
            Kind::Ratings | Kind::RopeRating => {
                let given = self.given.clone();
                let (changes, found) = self.rated(&[], &given, kind == Kind::RopeRating)?;
                Some(self.candidate(kind, 0, changes, found))
            }
            kind => {
                let series = self.series(kind);
                let given = self.given.clone();
                let (at, case, finding) = self.first(&given, &series, from)?;
                let changes = alloc::vec![series[at]];
                Some(self.candidate(kind, at + 1, changes, (case, finding)))
            }
        }
    }

    /// The first of a series, from `from` on, that fits at the places that are known: by its corners,
    /// and by all runs from there on.
    fn first(
        &mut self,
        given: &Case,
        series: &[Change],
        from: usize,
    ) -> Option<(usize, Case, Finding)> {
        let stride = series.len().saturating_sub(from).div_ceil(COARSE).max(1);
        let even = |stride: usize| stride;
        let (at, ..) = self.least(given, series, (from, Effort::Corners), (stride, even))?;
        let twice = |stride: usize| 2 * stride;
        self.least(given, series, (at, Effort::Full), (1, twice))
    }

    /// The same by the runs of an effort: in strides, the next stride by the one before, then halved.
    fn least(
        &mut self,
        given: &Case,
        series: &[Change],
        (from, effort): (usize, Effort),
        (mut stride, next): (usize, fn(usize) -> usize),
    ) -> Option<(usize, Case, Finding)> {
        let mut tried = |i: usize| {
            let case = series.get(i)?.apply(given)?;
            let finding = self.fits_by(&case, effort)?;
            Some((i, case, finding))
        };
        // Index of the last that does not fit, plus one.
        let mut low = from;
        while low < series.len() {
            let at = (low + stride - 1).min(series.len() - 1);
            if let Some(mut best) = tried(at) {
                let mut high = at;
                while low < high {
                    let middle = low + (high - low) / 2;
                    match tried(middle) {
                        Some(found) => {
                            best = found;
                            high = middle;
                        }
                        None => low = middle + 1,
                    }
                }
                return Some(best);
            }
            low = at + 1;
            stride = next(stride);
        }
        None
    }

    fn posts(&self) -> Vec<Change> {
        let room = SPANS_MAX.saturating_sub(self.given.line.spans_m.len());
        let Some(worker) = self.given.workers.get(self.trial.finding().worker) else {
            return Vec::new();
        };
        let (span, _) = self.given.line.locate(worker.position_m);
        (1..=POSTS_MAX.min(room))
            .map(|posts| Change::AddPosts { span, posts })
            .collect()
    }

    /// Every crew of fewer users must fit where it stands, and the ones with the least room and the least
    /// strength of them anywhere; the one with the least room is shown.
    fn users(&mut self, from: usize) -> Option<Candidate> {
        let count = self.given.workers.len();
        'fewer: for (i, users) in (1..count).rev().enumerate().skip(from) {
            let mut crews: Vec<(Case, Finding)> = Vec::new();
            for set in 0_u32..1 << count {
                if set.count_ones() as usize != users {
                    continue;
                }
                let mut case = self.given.clone();
                let mut bit = 1;
                case.workers.retain(|_| {
                    bit <<= 1;
                    set & (bit >> 1) != 0
                });
                if case.workers.iter().all(|w| w.fall_time_s.is_none()) {
                    continue;
                }
                let Some(finding) = self.fits(&case) else {
                    continue 'fewer;
                };
                crews.push((case, finding));
            }
            let kept = |f: &Finding| f.standing.strength.map_or(f64::INFINITY, |s| s.kept());
            let least = |of: &dyn Fn(&Finding) -> f64| {
                let all = crews.iter().enumerate();
                all.min_by(|a, b| of(&a.1.1).total_cmp(&of(&b.1.1)))
                    .map(|(i, _)| i)
            };
            let Some(roomless) = least(&|f| f.footroom_m) else {
                continue;
            };
            let weakest = least(&kept).filter(|&i| i != roomless);
            let also = weakest.map(|i| crews[i].0.clone());
            let found = crews.swap_remove(roomless);
            let changes = alloc::vec![Change::FewerUsers { users }];
            return Some(Candidate {
                also,
                ..self.candidate(Kind::FewerUsers, i + 1, changes, found)
            });
        }
        None
    }

    fn ropes(&self) -> Vec<Change> {
        let present = &self.given.line.rope;
        let mut rows: Vec<_> = CATALOGUE
            .iter()
            .filter(|r| r.rope.diameter_m > present.diameter_m + 1e-4)
            .collect();
        sort(&mut rows, |a, b| {
            let other = |rope: &Rope| rope.construction != present.construction;
            let by_construction = other(&a.rope).cmp(&other(&b.rope));
            by_construction
                .then(a.rope.diameter_m.total_cmp(&b.rope.diameter_m))
                .is_lt()
        });
        rows.into_iter()
            .map(|row| Change::Rope { id: row.id })
            .collect()
    }

    /// The highest thing within reach of the governing worker.
    fn governing_below(&self) -> Option<usize> {
        let site = &self.given.site;
        let worker = self.given.workers.get(self.trial.finding().worker)?;
        let top = site.highest_below_m(worker.position_m, worker.offset_along_m);
        if top <= 0.0 {
            return None;
        }
        site.below.iter().position(|b| {
            let alone = crate::case::Site {
                below: alloc::vec![*b],
                ..site.clone()
            };
            alone.highest_below_m(worker.position_m, worker.offset_along_m) == top
        })
    }

    /// The smallest change of a kind that leaves room, from a place in its series on, with the ratings
    /// that it then needs.
    fn with_ratings(&mut self, kind: Kind, mut from: usize) -> Option<Candidate> {
        if !self.checks.iter().any(fails) || kind == Kind::FewerUsers {
            return None;
        }
        let series = self.series(kind);
        let alone = |s: &Suggestion| match s.changes[..] {
            [change] => series.contains(&change),
            _ => false,
        };
        if self.found.iter().any(alone) {
            return None;
        }
        // Without ratings no part falls short and no line breaks: the room alone is asked for.
        let bare = unrated(&self.given);
        for _ in 0..FURTHER_MAX {
            let (at, ..) = self.first(&bare, &series, from)?;
            let changed = series[at].apply(&self.given)?;
            if let Some((changes, found)) = self.rated(&[series[at]], &changed, false) {
                return Some(self.candidate(kind, at + 1, changes, found));
            }
            from = at + 1;
        }
        None
    }

    /// A changed case with its ratings raised to what is asked of them where the crew stands and at the
    /// places that are known, when it then fits there.
    fn rated(
        &mut self,
        changes: &[Change],
        changed: &Case,
        rope: bool,
    ) -> Option<(Vec<Change>, (Case, Finding))> {
        let mut checks = Vec::new();
        let there: Vec<Case> = (self.places.iter())
            .filter_map(|place| posed(place, changed))
            .collect();
        for case in core::iter::once(changed).chain(&there) {
            self.tried += 1;
            if let Ok(trial) = self.memory.whole(case) {
                checks.extend(trial.checks());
            }
        }
        let mut all = changes.to_vec();
        all.extend(raised(changed, &checks, self.steps, rope)?);
        let case = applied(&self.given, &all)?;
        let finding = self.fits(&case)?;
        Some((all, (case, finding)))
    }

    /// Two changes of different kinds, each at a third, two thirds and the end of its series, least
    /// size first.
    ///
    /// Those come first whose gains in room, each alone, make up for what is short where it is shortest.
    fn all_pairs(&mut self) -> Vec<(f64, [Change; 2])> {
        let given = unrated(&self.given);
        let base_m = self.least_room_m(&given);
        let levels: Vec<(usize, Change)> = KINDS
            .iter()
            .enumerate()
            .filter(|(_, kind)| **kind != Kind::FewerUsers)
            .flat_map(|(k, &kind)| {
                let series = self.series(kind);
                let count = series.len();
                let mut at: Vec<usize> = (1..=3).map(|third| (count * third).div_ceil(3)).collect();
                at.dedup();
                let changes = at
                    .into_iter()
                    .filter_map(|i| series.get(i.checked_sub(1)?).copied());
                changes.map(|change| (k, change)).collect::<Vec<_>>()
            })
            .collect();
        let mut gains_m = Vec::new();
        for (_, change) in &levels {
            let room_m = change.apply(&given).and_then(|c| self.least_room_m(&c));
            gains_m.push(room_m.zip(base_m).map(|(room, base)| room - base));
        }
        let mut all = Vec::new();
        for (i, &(a, first)) in levels.iter().enumerate() {
            for (j, &(b, second)) in levels.iter().enumerate().skip(i + 1) {
                let same = |kind: Kind| KINDS[a] == kind || KINDS[b] == kind;
                let both = |x: Kind, y: Kind| same(x) && same(y);
                if a == b
                    || both(Kind::MorePretension, Kind::LessPretension)
                    || both(Kind::LowerBelow, Kind::RemoveBelow)
                {
                    continue;
                }
                let size = first.size(&self.given) + second.size(&self.given);
                let sum_m = gains_m[i].zip(gains_m[j]).zip(base_m);
                let short = sum_m.is_some_and(|((x, y), base)| base + x + y < 0.0);
                all.push((short, size, [first, second]));
            }
        }
        sort(&mut all, |a, b| {
            a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).is_lt()
        });
        all.into_iter().map(|(_, size, two)| (size, two)).collect()
    }

    /// Least room of a case by its corners, where it stands and at the places that are known, m; `None`:
    /// it has none.
    fn least_room_m(&mut self, case: &Case) -> Option<f64> {
        let there = self.places.iter().filter_map(|place| posed(place, case));
        let cases: Vec<Case> = core::iter::once(case.clone()).chain(there).collect();
        self.tried += cases.len() as u32;
        let room_m = |case: &Case| {
            let trial = self.memory.corners(case).ok()?;
            trial.finding().known_footroom_m()
        };
        let known = cases.iter().filter_map(room_m);
        known.fold(None, |least, m| Some(least.map_or(m, |l: f64| l.min(m))))
    }

    fn try_two(&mut self, two: [Change; 2]) {
        let kinds = two.map(|c| core::mem::discriminant(&c));
        let known = |s: &Suggestion| {
            let of: Vec<_> = s.changes.iter().map(core::mem::discriminant).collect();
            kinds.iter().all(|k| of.contains(k))
        };
        // A smaller one of the same two kinds fits already.
        if self.found.iter().any(known) {
            return;
        }
        self.pairs += 1;
        // What is below is named by its number: it goes last.
        let mut changes = two.to_vec();
        let last = |c: &Change| matches!(c, Change::RemoveBelow { .. });
        sort(&mut changes, |a, b| !last(a) && last(b));
        let Some(case) = applied(&self.given, &changes) else {
            return;
        };
        let candidate = match self.fits(&case) {
            Some(finding) => Some(self.candidate(Kind::Ratings, 0, changes, (case, finding))),
            // With ratings, where there is room.
            None if self.fits(&unrated(&case)).is_some() => self
                .rated(&changes, &case, false)
                .map(|(changes, found)| self.candidate(Kind::Ratings, 0, changes, found)),
            None => None,
        };
        if let Some(candidate) = candidate {
            let turns = FURTHER_MAX;
            self.look_at(Candidate { turns, ..candidate }, false);
        }
    }

    /// What is not evaluated, each input once, with what would be needed of it.
    fn ratings_to_enter(&self) -> Vec<Rating> {
        let mut all: Vec<Rating> = Vec::new();
        // Where there is no result, what the fall asks is no number to buy by.
        let known = match self.stop {
            Some(Stop::Unknown { why }) => why == Unknown::LineBreaks,
            _ => true,
        };
        for check in self.checks.iter().filter(|c| c.set == CheckSet::Part) {
            let field = match check.reason {
                Some(Reason::StrengthMissing { field }) => Some(field),
                Some(Reason::PostNotDescribed) => None,
                _ => continue,
            };
            let needed = check
                .demand
                .filter(|_| known)
                .map(|d| self.steps.up(check.quantity, d * check.required_ratio));
            let rating = Rating {
                field,
                key: check.key,
                subject: check.subject,
                needed,
            };
            let same = |r: &&mut Rating| match field {
                Some(_) => r.field == field,
                None => r.field.is_none() && r.key == check.key,
            };
            match all.iter_mut().find(same) {
                Some(known) if known.needed < needed => *known = rating,
                Some(_) => {}
                None => all.push(rating),
            }
        }
        all
    }
}

fn fails(check: &Check) -> bool {
    check.set == CheckSet::Part && check.verdict == Verdict::DoesNotMeet
}

fn applied(given: &Case, changes: &[Change]) -> Option<Case> {
    changes
        .iter()
        .try_fold(given.clone(), |case, change| change.apply(&case))
}

/// A case without its ratings.
fn unrated(given: &Case) -> Case {
    let mut case = given.clone();
    for field in RATINGS {
        field::write(&mut case, field, 0, None);
    }
    case
}

/// Ratings whose want leaves a part open.
const RATINGS: [&str; 8] = [
    BREAKING,
    "strengths.end_anchorage_n",
    "strengths.post_moment_n_m",
    "strengths.post_compression_n",
    "strengths.tieback_n",
    "strengths.tieback_anchorage_n",
    "strengths.intermediate_post_n",
    "strengths.intermediate_post_along_n",
];
const BREAKING: &str = "line.rope.breaking_force_n";
const EFFICIENCY: &str = "strengths.termination_efficiency_ratio";

/// The ratings of a case raised to what all these checks ask: those that are too low. For the
/// termination the efficiency, or with `rope` the breaking force; `None`: none is too low, or with
/// `rope` it is the same.
fn raised(case: &Case, checks: &[Check], steps: Steps, rope: bool) -> Option<Vec<Change>> {
    let mut wanted: Vec<(&'static str, Quantity, f64)> = Vec::new();
    let mut want = |field, quantity, least: f64| {
        match wanted.iter_mut().find(|w| w.0 == field) {
            Some(known) => known.2 = known.2.max(least),
            None => wanted.push((field, quantity, least)),
        };
    };
    let (mut of_rope, mut of_termination) = (0.0_f64, 0.0_f64);
    for check in checks.iter().filter(|c| fails(c)) {
        let needed = check.demand? * check.required_ratio;
        match check.key {
            "part.rope" => of_rope = of_rope.max(needed),
            "part.rope_termination" => of_termination = of_termination.max(needed),
            key => want(rated_by(key)?, check.quantity, needed),
        }
    }
    if of_rope > 0.0 || of_termination > 0.0 {
        let breaking = case.line.rope.breaking_force_n?;
        let efficiency = case.strengths.termination_efficiency_ratio;
        let better = steps.up(Quantity::Ratio, of_termination / breaking);
        if !rope && of_rope == 0.0 && better <= 1.0 {
            want(EFFICIENCY, Quantity::Ratio, better);
        } else if rope && (of_rope > 0.0 || better > 1.0) {
            // The other way is this one.
            return None;
        } else {
            let least = of_rope.max(of_termination / efficiency);
            want(BREAKING, Quantity::Force, least);
        }
    } else if rope {
        return None;
    }
    if wanted.is_empty() {
        return None;
    }
    let change = |(field, quantity, least)| Change::Rating {
        field,
        strength: steps.up(quantity, least),
    };
    Some(wanted.into_iter().map(change).collect())
}

/// The input that rates a part; `None`: the rope's own, or none.
fn rated_by(key: &str) -> Option<&'static str> {
    Some(match key {
        "part.end_anchorage" => "strengths.end_anchorage_n",
        "part.post_moment" => "strengths.post_moment_n_m",
        "part.post_compression" => "strengths.post_compression_n",
        "part.tieback" => "strengths.tieback_n",
        "part.tieback_anchorage" => "strengths.tieback_anchorage_n",
        "part.intermediate_post" => "strengths.intermediate_post_n",
        "part.intermediate_post_along_line" => "strengths.intermediate_post_along_n",
        _ => return None,
    })
}

/// The longest lanyard, m; 0: nobody has one.
fn longest_lanyard_m(case: &Case) -> f64 {
    case.workers
        .iter()
        .filter(|w| w.gear.kind == GearKind::Lanyard)
        .fold(0.0, |most, w| w.gear.length_m.max(most))
}

/// Least average force of an absorber of a lanyard, N.
fn least_absorber_n(case: &Case) -> Option<f64> {
    case.workers
        .iter()
        .filter(|w| w.gear.kind == GearKind::Lanyard)
        .filter_map(|w| w.gear.absorber)
        .map(|a| a.average_n())
        .fold(None, |least, f| Some(least.map_or(f, |l: f64| l.min(f))))
}

/// Every absorber of a lanyard at this average force at least.
fn with_absorbers(given: &Case, average_force_n: f64) -> Case {
    let mut case = given.clone();
    for w in &mut case.workers {
        if w.gear.kind != GearKind::Lanyard {
            continue;
        }
        if let Some(absorber) = &mut w.gear.absorber
            && absorber.average_n() < average_force_n
        {
            let ratio = absorber.average_n() / absorber.maximum_n();
            let maximum_n = absorber.maximum_force_n.map(|_| average_force_n / ratio);
            *absorber = absorber.scaled(average_force_n / absorber.average_n());
            absorber.average_force_n = average_force_n;
            absorber.maximum_force_n = maximum_n;
        }
    }
    case
}

/// Multiples of a step above a value, up to a greatest.
fn upward(from: f64, most: f64, step: f64) -> Vec<f64> {
    let first = floor(from / step + 1e-9) + 1.0;
    let last = floor(most / step + 1e-9);
    series(first, last, 1.0, step)
}

/// Multiples of a step below a value, down to a least, the nearest first.
fn downward(from: f64, least: f64, step: f64) -> Vec<f64> {
    let first = ceil(from / step - 1e-9) - 1.0;
    let last = ceil(least / step - 1e-9);
    series(first, last, -1.0, step)
}

fn series(first: f64, last: f64, sign: f64, step: f64) -> Vec<f64> {
    let count = ((last - first) * sign + 1.0).clamp(0.0, 2_000.0) as usize;
    (0..count)
        .map(|i| (first + sign * i as f64) * step)
        .collect()
}

#[cfg(test)]
mod tests;
