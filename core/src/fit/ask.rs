//! The inverse questions: the longest span, the most users, the longest lanyard, the lowest line,
//! the least drop, the pretension that still fits; each from the present value outwards, with what
//! stops it.
//!
//! One input is scanned over its range, everything else as in the given case. First comes the range
//! around the present value: how far it goes each way, and what stops it there; then the gaps, with
//! what stops the values in them, and the ranges that fit beyond. Where the present value does not
//! fit, what stops it is said, and the nearest values that fit on both sides.
//!
//! Every boundary between a value that fits and its neighbour that does not is halved down to the
//! resolution. In the range around the present value the widest steps of the scan are halved
//! [`FINER`] times more, down to the finest step. Footroom and strength are not monotone in every
//! input (pretension lowers the one and raises the other), so that the values that fit may be several
//! ranges. What lies between two values that were tried is not seen: a range or a gap narrower than
//! that may be missed. How far apart they are, a range says: [`Interval::step`].
//!
//! | question | scanned | step of the scan | finest | resolution | asked for |
//! | --- | --- | --- | --- | --- | --- |
//! | longest span | all spans, range of the field | 19 % | 0.1 m | 0.01 m | the upper end |
//! | most users | 1 to 6 | 1 | | 1 | the upper end |
//! | longest lanyard | all lanyards, range of the field | 0.2 m | 0.05 m | 0.01 m | the upper end |
//! | lowest line | line height, range of the field | 0.2 m | 0.05 m | 0.01 m | the lower end |
//! | least drop | beam top, from the highest thing below up | where the footroom ends | | 0.001 m | the lower end |
//! | pretension | range of the field | 34 % | 200 N | 10 N | the range |
//!
//! Of spans or lanyards of several lengths the longest is the present value, and the question makes
//! them all alike: that is another case, see [`Answer::alike`].

use alloc::vec;
use alloc::vec::Vec;

use super::layout::{Places, at_worst_place, with_span, with_users};
use super::{Limits, Rules, Stop, Trial};
use crate::case::{Case, GearKind};
use crate::constants::WORKERS_MAX;
use crate::fault::Fault;
use crate::field;
use crate::order::sort;

/// An inverse question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Question {
    /// Greatest length of all spans, m; their number is kept, see [`with_span`].
    LongestSpan,
    /// Greatest number of users, see [`with_users`].
    MostUsers,
    /// Greatest length of everybody's lanyard, m. Self-retracting lifelines stay as they are.
    LongestLanyard,
    /// Least height of the line above the beam top, m: the height of the posts.
    LowestLine,
    /// Least height of the beam top above the datum, m.
    LeastDrop,
    /// Least and greatest pretension, N.
    Pretension,
}

/// All questions, in the order in which they are shown.
pub const QUESTIONS: [Question; 6] = [
    Question::LongestSpan,
    Question::MostUsers,
    Question::LongestLanyard,
    Question::LowestLine,
    Question::LeastDrop,
    Question::Pretension,
];

/// One end of an interval of values that fit.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct End {
    /// Last value that was solved and fits.
    pub value: f64,
    /// Value beside it, within the resolution, that was solved and does not; `None`: the scan ends
    /// here.
    pub outside: Option<f64>,
    /// What stops it there.
    pub stop: Option<Stop>,
}

/// Values that fit, from end to end as far as tried.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Interval {
    /// Lower end.
    pub low: End,
    /// Upper end.
    pub high: End,
    /// Greatest distance between two neighbours of those values in it that were tried; 0: one value.
    pub step: f64,
}

impl Interval {
    /// Whether a value lies in it.
    pub fn holds(&self, value: f64) -> bool {
        (self.low.value..=self.high.value).contains(&value)
    }
}

/// Values that do not fit, between two ranges that do or between one and the end of the scan.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Gap {
    /// Least value in it that was tried.
    pub low: f64,
    /// Greatest value in it that was tried.
    pub high: f64,
    /// What stops the values in it that were tried, each thing once; of short rooms the shortest.
    pub stops: Vec<Stop>,
}

/// The answer to a question. Values in m, N or users, as the question says.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Answer {
    /// The question.
    pub question: Question,
    /// The value in the given case: of several spans or lanyards the longest.
    pub present: f64,
    /// The given case is the one at the present value; false: its spans or lanyards are not all
    /// alike, or its crew is placed anew.
    pub alike: bool,
    /// What stops the case at the present value; `None`: it fits.
    pub stop: Option<Stop>,
    /// The range that holds the present value; `None`: that does not fit.
    pub here: Option<Interval>,
    /// The next range below the present value, or below its range.
    pub below: Option<Interval>,
    /// The next range above.
    pub above: Option<Interval>,
    /// What was asked for: an end of the range around the present value; where that does not fit,
    /// the nearest value that does on the side that the question allows for, else on the other.
    /// `None`: no tried value fits. For the pretension the lower end, the upper stands in `here`.
    pub value: Option<f64>,
    /// All ranges that were found, ascending.
    pub intervals: Vec<Interval>,
    /// All gaps, ascending.
    pub gaps: Vec<Gap>,
    /// The least and the greatest value tried.
    pub scanned: (f64, f64),
    /// Greatest distance between the two sides of an end.
    pub resolution: f64,
    /// Number of values judged.
    pub judged: u32,
}

/// How often the widest step in the range around the present value is halved.
pub const FINER: usize = 24;

impl Question {
    /// Greatest distance between the two sides of an end: m, users or N.
    pub const fn resolution(self) -> f64 {
        match self {
            Question::LongestSpan | Question::LongestLanyard | Question::LowestLine => 0.01,
            Question::MostUsers => 1.0,
            Question::LeastDrop => 0.001,
            Question::Pretension => 10.0,
        }
    }

    /// Step down to which the range around the present value is halved: m or N; `None`: the scan leaves
    /// nothing out.
    const fn finest(self) -> Option<f64> {
        match self {
            Question::LongestSpan => Some(0.1),
            Question::LongestLanyard | Question::LowestLine => Some(0.05),
            // Footroom goes with the drop one to one.
            Question::MostUsers | Question::LeastDrop => None,
            Question::Pretension => Some(200.0),
        }
    }

    /// Whether more of it is asked for, not less.
    pub const fn most(self) -> bool {
        matches!(
            self,
            Question::LongestSpan | Question::MostUsers | Question::LongestLanyard
        )
    }

    /// Of the values that fit next below and next above the present one, which does not, the one that
    /// answers: on the side that the question allows for, else on the other; for the pretension the nearer.
    fn nearest(self, present: f64, beside: (Option<f64>, Option<f64>)) -> Option<f64> {
        match (self, beside) {
            (Self::Pretension, (Some(down), Some(up))) => Some(if present - down <= up - present {
                down
            } else {
                up
            }),
            (_, (down, up)) if self.most() => down.or(up),
            (_, (down, up)) => up.or(down),
        }
    }

    /// Whether all that the question changes is at the present value already.
    fn alike(self, given: &Case, present: f64) -> bool {
        match self {
            Question::LongestSpan => given.line.spans_m.iter().all(|&s| s == present),
            Question::LongestLanyard => (given.workers.iter())
                .filter(|w| w.gear.kind == GearKind::Lanyard)
                .all(|w| w.gear.length_m == present),
            _ => true,
        }
    }

    /// The value in a case; `None`: the question does not apply (nobody has a lanyard).
    pub fn present(self, case: &Case) -> Option<f64> {
        let longest = |values: &mut dyn Iterator<Item = f64>| {
            values.fold(None, |most, v| Some(most.map_or(v, |m: f64| m.max(v))))
        };
        match self {
            Question::LongestSpan => longest(&mut case.line.spans_m.iter().copied()),
            Question::MostUsers => Some(case.workers.len() as f64),
            Question::LongestLanyard => longest(
                &mut case
                    .workers
                    .iter()
                    .filter(|w| w.gear.kind == GearKind::Lanyard)
                    .map(|w| w.gear.length_m),
            ),
            Question::LowestLine => Some(case.line.height_above_beam_m),
            Question::LeastDrop => Some(case.site.beam_top_m),
            Question::Pretension => Some(case.line.pretension_n),
        }
    }

    /// The case with the asked input at `value`.
    ///
    /// A free fall that was given and does not follow from the geometry changes with a lanyard's
    /// length, and against the height of the line. It may have faults.
    pub fn case(self, given: &Case, value: f64, places: Places) -> Case {
        let present = self.present(given) == Some(value) && self.alike(given, value);
        let mut case = match self {
            // To the last bit: what is said of the present value is said of the case.
            _ if present => given.clone(),
            Question::LongestSpan => with_span(given, value),
            // A number of users is a whole one; the cast saturates.
            Question::MostUsers => with_users(given, value as usize),
            Question::LongestLanyard => with_lanyards(given, |_| value),
            Question::LowestLine => with_line_height(given, value),
            _ => given.clone(),
        };
        match self {
            Question::LeastDrop => case.site.beam_top_m = value,
            Question::Pretension => case.line.pretension_n = value,
            _ => {}
        }
        match places {
            Places::Kept => case,
            Places::Worst => at_worst_place(&case),
        }
    }
}

/// The case with every lanyard's length changed.
pub(super) fn with_lanyards(given: &Case, length_m: impl Fn(f64) -> f64) -> Case {
    let mut case = given.clone();
    for w in &mut case.workers {
        if w.gear.kind == GearKind::Lanyard {
            let length = length_m(w.gear.length_m);
            let longer = length - w.gear.length_m;
            w.gear.free_fall_m = w.gear.free_fall_m.map(|f| (f + longer).max(0.0));
            w.gear.length_m = length;
        }
    }
    case
}

/// The case with its line at another height.
pub(super) fn with_line_height(given: &Case, height_m: f64) -> Case {
    let mut case = given.clone();
    let higher = height_m - given.line.height_above_beam_m;
    case.line.height_above_beam_m = height_m;
    for w in &mut case.workers {
        if w.gear.kind == GearKind::Lanyard {
            w.gear.free_fall_m = w.gear.free_fall_m.map(|f| (f - higher).max(0.0));
        }
    }
    case
}

/// Answers a question; `None`: it does not apply to this case.
///
/// `places`: [`Places::Kept`] asks for the crew as it stands, [`Places::Worst`] for one that may
/// stand anywhere (see [`at_worst_place`]).
///
/// # Errors
/// The faults of the given case.
///
/// # Accuracy
/// Resolution and scan as in the module's table. At most about 100 values are judged, each in the
/// runs up to the first that says no.
///
/// # Examples
/// ```
/// use footroom_core::demo::demo;
/// use footroom_core::fit::Limits;
/// use footroom_core::fit::ask::{Question, ask};
/// use footroom_core::fit::layout::Places;
/// let mut case = demo();
/// case.line.spans_m = vec![6.0; 3];
/// let answer = ask(&case, Question::LeastDrop, Places::Kept, Limits::KeepMet).unwrap().unwrap();
/// let low = answer.here.unwrap().low;
/// assert!(low.value < case.site.beam_top_m && low.outside.unwrap() < low.value);
/// case.line.pretension_n = -1.0;
/// assert!(ask(&case, Question::LeastDrop, Places::Kept, Limits::KeepMet).is_err());
/// ```
pub fn ask(
    given: &Case,
    question: Question,
    places: Places,
    limits: Limits,
) -> Result<Option<Answer>, Vec<Fault>> {
    let trial = Trial::whole(given, super::Effort::Full)?;
    let rules = Rules::of(&trial, limits);
    let Some(present) = question.present(given) else {
        return Ok(None);
    };
    let mut scale = Scale {
        judge: |value: f64| rules.fits(&question.case(given, value, places)).err(),
        tried: Vec::new(),
    };
    for value in scan(given, question, present, trial.finding().footroom_m) {
        scale.judge(value);
    }
    if let Some(finest) = question.finest() {
        scale.refine(present, finest);
    }
    scale.find_edges(question.resolution());
    let tried = &scale.tried;
    let stop_at = |value: f64| rules.stop(&question.case(given, value, places));
    let end = |value: f64, outside: Option<&(f64, Verdict)>| End {
        value,
        outside: outside.map(|o| o.0),
        stop: outside.and_then(|o| stop_at(o.0)),
    };
    let (mut intervals, mut gaps): (Vec<Interval>, Vec<Gap>) = (Vec::new(), Vec::new());
    for run in tried.chunk_by(|a, b| a.1.is_none() == b.1.is_none()) {
        let (Some(first), Some(last)) = (run.first(), run.last()) else {
            continue;
        };
        if first.1.is_some() {
            gaps.push(Gap {
                low: first.0,
                high: last.0,
                stops: distinct(run.iter().filter_map(|t| t.1.flatten())),
            });
            continue;
        }
        let before = tried.iter().rev().find(|t| t.0 < first.0);
        let after = tried.iter().find(|t| t.0 > last.0);
        intervals.push(Interval {
            low: end(first.0, before),
            high: end(last.0, after),
            step: (run.windows(2)).fold(0.0, |most, two| (two[1].0 - two[0].0).max(most)),
        });
    }
    let here = intervals.iter().find(|i| i.holds(present)).copied();
    let from = here.map_or((present, present), |i| (i.low.value, i.high.value));
    let below = (intervals.iter()).rfind(|i| i.high.value < from.0);
    let above = intervals.iter().find(|i| i.low.value > from.1);
    let beside = (below.map(|i| i.high.value), above.map(|i| i.low.value));
    let value = match here {
        Some(i) => Some(if question.most() {
            i.high.value
        } else {
            i.low.value
        }),
        None => question.nearest(present, beside),
    };
    Ok(Some(Answer {
        question,
        present,
        alike: places == Places::Kept && question.alike(given, present),
        stop: if here.is_none() {
            stop_at(present)
        } else {
            None
        },
        here,
        below: below.copied(),
        above: above.copied(),
        value,
        scanned: (
            tried.first().map_or(present, |t| t.0),
            tried.last().map_or(present, |t| t.0),
        ),
        resolution: question.resolution(),
        judged: tried.len() as u32,
        intervals,
        gaps,
    }))
}

/// `None`: it fits; else what stops it, where that has a name.
type Verdict = Option<Option<Stop>>;

/// The values of one input that were tried, ascending.
struct Scale<F> {
    judge: F,
    tried: Vec<(f64, Verdict)>,
}

impl<F: FnMut(f64) -> Verdict> Scale<F> {
    fn judge(&mut self, value: f64) {
        let at = self.tried.partition_point(|t| t.0 < value);
        if self.tried.get(at).is_none_or(|t| t.0 != value) {
            let verdict = (self.judge)(value);
            self.tried.insert(at, (value, verdict));
        }
    }

    /// Halves the widest step in the range that holds `present`, again and again.
    fn refine(&mut self, present: f64, finest: f64) {
        for _ in 0..FINER {
            let fits = |t: &&(f64, Verdict)| t.1.is_none();
            let at = self.tried.partition_point(|t| t.0 < present);
            let up = self.tried[at..].iter().take_while(fits).count();
            if up == 0 {
                return;
            }
            let down = self.tried[..at].iter().rev().take_while(fits).count();
            let run = &self.tried[at - down..at + up];
            let widest = (run.windows(2).map(|two| (two[0].0, two[1].0)))
                .max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
            match widest {
                Some((low, high)) if high - low > finest * (1.0 + 1e-9) => {
                    self.judge(0.5 * (low + high));
                }
                _ => return,
            }
        }
    }

    /// Halves every step between a value that fits and one that does not.
    fn find_edges(&mut self, resolution: f64) {
        let mut i = 1;
        while i < self.tried.len() {
            let ((low, a), (high, b)) = (self.tried[i - 1], self.tried[i]);
            let wide = high - low > resolution * (1.0 + 1e-9);
            if a.is_none() != b.is_none() && wide {
                // The middle is now at `i`: the step before it is looked at next.
                self.judge(0.5 * (low + high));
            } else {
                i += 1;
            }
        }
    }
}

/// Each thing that stops once, in the order in which they came; of short rooms the shortest.
fn distinct(stops: impl Iterator<Item = Stop>) -> Vec<Stop> {
    let mut all: Vec<Stop> = Vec::new();
    for stop in stops {
        let same = all.iter_mut().find(|s| match (&**s, &stop) {
            (Stop::Footroom { .. }, Stop::Footroom { .. }) => true,
            (Stop::Part { key: a, .. }, Stop::Part { key: b, .. }) => a == b,
            (Stop::Limit { key: a, own: x, .. }, Stop::Limit { key: b, own: y, .. }) => {
                (a, x) == (b, y)
            }
            (Stop::Fault { fault: a }, Stop::Fault { fault: b }) => {
                a.field().name == b.field().name
            }
            (a, b) => a == b,
        });
        match (same, stop) {
            (
                Some(Stop::Footroom { worker, footroom_m }),
                Stop::Footroom {
                    worker: w,
                    footroom_m: f,
                },
            ) => {
                if f < *footroom_m {
                    (*worker, *footroom_m) = (w, f);
                }
            }
            (Some(_), _) => {}
            (None, stop) => all.push(stop),
        }
    }
    all
}

/// The values to judge first, ascending, the present one among them.
fn scan(given: &Case, question: Question, present: f64, footroom_m: f64) -> Vec<f64> {
    let range = |name: &str| field::find(name).map_or((present, present), |f| (f.min, f.max));
    let even = |(low, high): (f64, f64), step: f64| {
        let mut values = Vec::new();
        let mut i = 0;
        loop {
            let value = low + step * f64::from(i);
            if value >= high || i > 1_000 {
                values.push(high);
                return values;
            }
            values.push(value);
            i += 1;
        }
    };
    let growing = |(low, high): (f64, f64), ratio: f64| {
        let mut values = Vec::new();
        let mut value = low;
        while value < high && values.len() < 1_000 {
            values.push(value);
            value *= ratio;
        }
        values.push(high);
        values
    };
    let mut values = match question {
        Question::LongestSpan => growing(range("line.spans_m"), 1.19),
        Question::MostUsers => (1..=WORKERS_MAX).map(|users| users as f64).collect(),
        Question::LongestLanyard => even(range("workers.gear.length_m"), 0.2),
        Question::LowestLine => even(range("line.height_above_beam_m"), 0.2),
        Question::LeastDrop => {
            let (low, high) = range("site.beam_top_m");
            let below = &given.site.below;
            let low = below.iter().fold(low, |top, b| top.max(b.height_m));
            // All else the same, footroom goes with the drop one to one.
            let ends = present - footroom_m;
            let around = [ends - 0.1, ends - 4e-4, ends + 4e-4, ends + 0.1];
            let mut values = vec![low, high];
            values.extend(around.iter().filter(|v| (low..=high).contains(*v)));
            values
        }
        Question::Pretension => growing(range("line.pretension_n"), 1.34),
    };
    values.push(present);
    sort(&mut values, |a, b| a.total_cmp(b).is_lt());
    values.dedup();
    values
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::demo;
    use crate::spread::Spread;

    fn verify(given: &Case, answer: &Answer, places: Places, limits: Limits) {
        let rules = Rules::new(given, limits).unwrap();
        let stop = |value: f64| rules.stop(&answer.question.case(given, value, places));
        for interval in &answer.intervals {
            for end in [interval.low, interval.high] {
                assert_eq!(stop(end.value), None, "{end:?} {answer:?}");
                let Some(outside) = end.outside else {
                    assert!(end.value == answer.scanned.0 || end.value == answer.scanned.1);
                    continue;
                };
                let found = stop(outside);
                assert!(found.is_some(), "{end:?} {answer:?}");
                assert_eq!(found, end.stop);
                let away = (outside - end.value).abs();
                assert!(
                    away <= answer.resolution * (1.0 + 1e-6),
                    "{away} {answer:?}"
                );
            }
            assert!(interval.low.value <= interval.high.value);
        }
        for gap in &answer.gaps {
            assert!(gap.low <= gap.high && !gap.stops.is_empty());
            for value in [gap.low, gap.high] {
                assert!(stop(value).is_some(), "{value} {answer:?}");
            }
        }
        // Ranges and gaps by turns, from end to end of what was scanned.
        let mut ends: Vec<(f64, f64)> = Vec::new();
        ends.extend(answer.intervals.iter().map(|i| (i.low.value, i.high.value)));
        ends.extend(answer.gaps.iter().map(|g| (g.low, g.high)));
        ends.sort_by(|a, b| a.0.total_cmp(&b.0));
        assert_eq!(ends.first().unwrap().0, answer.scanned.0);
        assert_eq!(ends.last().unwrap().1, answer.scanned.1);
        assert!(ends.windows(2).all(|two| two[0].1 < two[1].0));
        assert!(answer.intervals.len().abs_diff(answer.gaps.len()) <= 1);
        // From the present value outwards.
        assert_eq!(stop(answer.present), answer.stop);
        assert_eq!(answer.stop.is_none(), answer.here.is_some());
        let near = |i: &Option<Interval>, low: f64, high: f64| {
            let inside = |i: &Interval| i.low.value > low && i.high.value < high;
            i.as_ref().is_none_or(inside)
        };
        let present = answer.present;
        let (low, high) = answer
            .here
            .map_or((present, present), |i| (i.low.value, i.high.value));
        assert!(near(&answer.below, f64::NEG_INFINITY, low));
        assert!(near(&answer.above, high, f64::INFINITY));
        assert!(low <= present && present <= high);
        assert_eq!(answer.value.is_none(), answer.intervals.is_empty());
        if let (Some(value), Some(here)) = (answer.value, answer.here) {
            assert!(here.holds(value));
        }
    }

    #[test]
    fn just_inside_fits_and_just_outside_does_not() {
        let mut by = Spread::new(31);
        let mut answered = 0;
        for i in 0..10 {
            let case = by.case();
            let places = [Places::Kept, Places::Worst][i % 2];
            let limits = [Limits::KeepMet, Limits::All][i % 2];
            for question in [QUESTIONS[i % 6], QUESTIONS[(i + 3) % 6]] {
                let Some(answer) = ask(&case, question, places, limits).unwrap() else {
                    assert_eq!(question, Question::LongestLanyard);
                    continue;
                };
                answered += usize::from(answer.value.is_some());
                assert!(answer.judged < 160, "{}", answer.judged);
                verify(&case, &answer, places, limits);
            }
        }
        assert!(answered > 4, "{answered}");
    }

    #[test]
    fn the_present_value_is_in_an_interval_just_when_the_case_fits() {
        let mut by = Spread::new(41);
        for _ in 0..2 {
            let case = by.case();
            let rules = Rules::new(&case, Limits::KeepMet).unwrap();
            let fits = rules.stop(&case).is_none();
            for question in [
                Question::LowestLine,
                Question::LeastDrop,
                Question::MostUsers,
            ] {
                let answer = ask(&case, question, Places::Kept, Limits::KeepMet)
                    .unwrap()
                    .unwrap();
                let held = answer.here.is_some();
                assert!(answer.alike);
                assert_eq!(held, fits, "{answer:?}");
            }
        }
    }

    #[test]
    fn nothing_that_fits_is_said_plainly() {
        let mut case = demo();
        case.motion.duration_s = 1.6;
        case.strengths.end_anchorage_n = Some(2.0e3);
        for question in QUESTIONS {
            let answer = ask(&case, question, Places::Kept, Limits::KeepMet)
                .unwrap()
                .unwrap();
            assert_eq!((answer.value, answer.here), (None, None), "{answer:?}");
            assert!(answer.stop.is_some() && answer.gaps.len() == 1);
        }
    }

    #[test]
    fn the_least_drop_is_where_the_footroom_ends() {
        let mut case = demo();
        case.motion.duration_s = 1.6;
        case.line.spans_m = vec![6.0; 3];
        let found = super::super::find(&case, super::super::Effort::Full).unwrap();
        let answer = ask(&case, Question::LeastDrop, Places::Kept, Limits::KeepMet)
            .unwrap()
            .unwrap();
        let ends = case.site.beam_top_m - found.footroom_m;
        assert!((answer.value.unwrap() - ends).abs() <= 1e-3);
    }

    /// Spans of 12 m fit, and so do shorter ones beyond a gap: what was asked for is the top of the
    /// range around 12 m, not of the lowest one.
    #[test]
    fn an_answer_goes_from_the_present_value_outwards() {
        let mut case = demo();
        case.motion.duration_s = 1.6;
        case.line.spans_m = vec![6.0; 3];
        case.strengths.required_ratio = 1.84;
        let case = Question::LongestSpan.case(&case, 12.0, Places::Kept);
        let answer = ask(&case, Question::LongestSpan, Places::Kept, Limits::KeepMet)
            .unwrap()
            .unwrap();
        let here = answer.here.unwrap();
        assert!(here.holds(12.0), "{answer:?}");
        assert_eq!(answer.value, Some(here.high.value));
        assert!(answer.value.unwrap() > 12.0);
        // The range that used to be the answer.
        assert!(answer.below.unwrap().high.value < 11.5, "{answer:?}");
        let gap = &answer.gaps[0];
        assert!(matches!(gap.stops[..], [Stop::Part { .. }]), "{gap:?}");
        verify(&case, &answer, Places::Kept, Limits::KeepMet);
        // One that does not fit: what stops it, and the nearest that does.
        let mut case = demo();
        case.motion.duration_s = 1.6;
        let answer = ask(&case, Question::LongestSpan, Places::Kept, Limits::KeepMet)
            .unwrap()
            .unwrap();
        assert!(answer.here.is_none());
        assert!(matches!(answer.stop, Some(Stop::Part { .. })));
        let nearest = answer.below.unwrap().high.value;
        assert!(answer.value == Some(nearest) && nearest < 9.0);
        let fitting = Question::LongestSpan.case(&case, nearest, Places::Kept);
        let rules = Rules::new(&case, Limits::KeepMet).unwrap();
        assert_eq!(rules.stop(&fitting), None);
    }

    /// Values between those that were tried, against the finding of each: how many of them are not
    /// what the answer says of where they lie, and of how many. (A comparison of its own with
    /// [`super::super::find`], for want of an outside source for what fits.)
    fn between(seed: u64, cases: usize, points: usize) -> ((usize, usize), (usize, usize)) {
        let mut by = Spread::new(seed);
        let (mut inside, mut outside) = ((0, 0), (0, 0));
        for i in 0..cases {
            let mut case = by.case();
            // Else few of them fit.
            case.site.beam_top_m += [0.0, 4.0][i % 2];
            case.strengths.required_ratio = [2.0, 1.0][i / 2 % 2];
            let question = QUESTIONS[i / 2 % QUESTIONS.len()];
            let found = ask(&case, question, Places::Kept, Limits::KeepMet).unwrap();
            let Some(answer) = found else { continue };
            let rules = Rules::new(&case, Limits::KeepMet).unwrap();
            let mut at = |low: f64, high: f64, count: &mut (usize, usize), fits: bool| {
                for _ in 0..points {
                    let mut value = by.between(low, high);
                    if question == Question::MostUsers {
                        value = (value + 0.5) as usize as f64;
                    }
                    let changed = question.case(&case, value, Places::Kept);
                    let found = super::super::find(&changed, super::super::Effort::Full);
                    let room = found.is_ok_and(|f| {
                        f.footroom().is_ok_and(|m| m >= 0.0) && f.standing.parts_failing == 0
                    });
                    // Limits aside a value that fits has room and strength.
                    let is = room && rules.stop(&changed).is_none();
                    count.0 += usize::from(is != fits);
                    count.1 += 1;
                }
            };
            if let Some(here) = answer.here {
                at(here.low.value, here.high.value, &mut inside, true);
            }
            for gap in &answer.gaps {
                at(gap.low, gap.high, &mut outside, false);
            }
        }
        (inside, outside)
    }

    #[test]
    fn between_the_values_tried_it_is_as_said() {
        let (inside, outside) = between(77, 24, 3);
        assert!(inside.1 > 15 && outside.1 > 40, "{inside:?} {outside:?}");
        assert!(inside.0 * 20 <= inside.1, "{inside:?}");
        assert!(outside.0 * 20 <= outside.1, "{outside:?}");
    }

    #[test]
    #[ignore = "minutes of one core; fewer cases are always tested"]
    fn between_the_values_tried_of_many_cases_it_is_as_said() {
        let (inside, outside) = between(78, 300, 6);
        assert!(
            inside.0 * 200 <= inside.1 && outside.0 * 200 <= outside.1,
            "{inside:?} {outside:?}"
        );
    }

    #[test]
    fn unlike_spans_or_lanyards_are_told_from_like_ones() {
        let mut case = demo();
        case.motion.duration_s = 1.6;
        let alike = |case: &Case, question| {
            let found = ask(case, question, Places::Kept, Limits::KeepMet);
            found.unwrap().unwrap().alike
        };
        assert!(alike(&case, Question::LongestLanyard));
        case.workers[1].gear.length_m = 1.2;
        assert!(!alike(&case, Question::LongestLanyard));
        case.line.spans_m = vec![8.0, 10.0];
        assert!(!alike(&case, Question::LongestSpan) && alike(&case, Question::Pretension));
    }

    #[test]
    fn a_given_free_fall_goes_with_lanyard_and_line() {
        let mut case = demo();
        case.workers[0].gear.free_fall_m = Some(1.0);
        let lanyard = |w: &crate::case::Worker| w.gear.length_m;
        let longer = Question::LongestLanyard.case(&case, 2.0, Places::Kept);
        assert!((longer.workers[0].gear.free_fall_m.unwrap() - 1.2).abs() < 1e-12);
        assert_eq!(lanyard(&longer.workers[1]), 2.0);
        let higher = Question::LowestLine.case(&case, 1.75, Places::Kept);
        assert_eq!(higher.workers[0].gear.free_fall_m, Some(0.75));
        case.workers.iter_mut().for_each(|w| {
            w.gear.kind = GearKind::SelfRetracting;
        });
        assert_eq!(
            ask(
                &case,
                Question::LongestLanyard,
                Places::Kept,
                Limits::KeepMet
            )
            .unwrap(),
            None
        );
    }

    /// What a scale is asked: how often, and whether a value fits.
    fn scale(fits: impl Fn(f64) -> bool, values: &[f64]) -> Scale<impl FnMut(f64) -> Verdict> {
        let mut asked: Vec<f64> = Vec::new();
        let mut scale = Scale {
            judge: move |value: f64| {
                assert!(!asked.contains(&value), "{value} is judged twice");
                asked.push(value);
                (!fits(value)).then_some(None)
            },
            tried: Vec::new(),
        };
        for &value in values {
            scale.judge(value);
            scale.judge(value);
        }
        scale
    }

    /// On lines of numbers that fit in some ranges: every end is halved down to the resolution, the range
    /// around the present value to the finest step, nothing is judged twice, and what was tried says
    /// what fits.
    #[test]
    fn ends_are_halved_to_the_resolution_and_the_present_range_to_the_finest_step() {
        let mut by = Spread::new(6);
        let (mut refined, mut ends) = (0, 0);
        for round in 0..200 {
            let mut marks: Vec<f64> = (0..4).map(|_| by.between(0.0, 10.0)).collect();
            sort(&mut marks, |a, b| a < b);
            let [a, b, c, d] = marks[..] else { panic!() };
            let fits = |v: f64| (a..b).contains(&v) || (c..d).contains(&v);
            let present = by.between(0.0, 10.0);
            let mut values: Vec<f64> = (0..=10).map(f64::from).collect();
            values.push(present);
            let mut scale = scale(fits, &values);
            let finest = [0.125, 0.5][round % 2];
            let before = scale.tried.len();
            scale.refine(present, finest);
            let more = scale.tried.len() - before;
            assert!(more <= FINER);
            assert!(fits(present) || more == 0);
            // The values around the present one that fit, as far as one after another does.
            let at = scale.tried.iter().position(|t| t.0 == present).unwrap();
            let runs = |t: &&(f64, Verdict)| t.1.is_none();
            let up = scale.tried[at..].iter().take_while(runs).count();
            let down = scale.tried[..at].iter().rev().take_while(runs).count();
            let down = if up == 0 { 0 } else { down };
            let run = &scale.tried[at - down..at + up];
            for two in run.windows(2) {
                let step = two[1].0 - two[0].0;
                assert!(more == FINER || step <= finest * 1.001, "{step}");
                assert!(step > 0.4 * finest || values.contains(&two[0].0));
            }
            refined += usize::from(more > 0);
            let resolution = 0.01;
            scale.find_edges(resolution);
            for two in scale.tried.windows(2) {
                let ((low, x), (high, y)) = (two[0], two[1]);
                assert!(low < high);
                assert_eq!(x.is_none(), fits(low));
                if x.is_none() != y.is_none() {
                    ends += 1;
                    assert!(high - low <= resolution * 1.001, "{low} {high}");
                    // Not halved beyond what is asked for.
                    let given = values.contains(&low) && values.contains(&high);
                    assert!(given || high - low > 0.4 * resolution, "{low} {high}");
                }
            }
        }
        assert!(refined > 40 && ends > 300, "{refined} {ends}");
    }

    /// A step that is the resolution is not halved.
    #[test]
    fn whole_numbers_are_not_halved() {
        let values: Vec<f64> = (1..=6).map(f64::from).collect();
        let mut scale = scale(|v| v < 3.5, &values);
        scale.find_edges(1.0);
        assert_eq!(scale.tried.len(), 6);
    }

    /// Each scan goes from end to end of what may be entered, in steps as the table says, the present
    /// value among them.
    #[test]
    fn scans_go_from_end_to_end_in_steps_that_are_told() {
        let mut case = demo();
        case.site.below[0].height_m = 2.0;
        let mut lower = case.site.below[0];
        lower.height_m = 1.0;
        case.site.below.push(lower);
        let ends = |name: &str| field::find(name).map(|f| (f.min, f.max)).unwrap();
        for question in QUESTIONS {
            let present = question.present(&case).unwrap();
            let values = scan(&case, question, present, 0.7);
            assert!(values.windows(2).all(|two| two[0] < two[1]), "{values:?}");
            assert!(values.contains(&present));
            let (low, high) = match question {
                Question::LongestSpan => ends("line.spans_m"),
                Question::MostUsers => (1.0, WORKERS_MAX as f64),
                Question::LongestLanyard => ends("workers.gear.length_m"),
                Question::LowestLine => ends("line.height_above_beam_m"),
                // Not below the highest thing below.
                Question::LeastDrop => (2.0, ends("site.beam_top_m").1),
                Question::Pretension => ends("line.pretension_n"),
            };
            assert_eq!((values[0], values[values.len() - 1]), (low, high));
            let near = |two: &[f64]| match question {
                Question::LongestSpan => two[1] / two[0] < 1.19 * 1.0001,
                Question::Pretension => two[1] / two[0] < 1.34 * 1.0001,
                Question::LongestLanyard | Question::LowestLine => two[1] - two[0] < 0.2001,
                Question::MostUsers => two[1] - two[0] == 1.0,
                Question::LeastDrop => true,
            };
            assert!(values.windows(2).all(near), "{values:?}");
            // No more than that takes.
            assert!(values.len() < 36, "{}", values.len());
        }
        // Footroom goes with the drop: around where it ends the scan is narrow, within the resolution.
        let present = case.site.beam_top_m;
        let values = scan(&case, Question::LeastDrop, present, 0.7);
        let beside: Vec<f64> = values.iter().map(|v| v - (present - 0.7)).collect();
        let below = beside.iter().rfind(|v| **v < 0.0).unwrap();
        let above = beside.iter().find(|v| **v > 0.0).unwrap();
        assert!(
            above - below <= Question::LeastDrop.resolution(),
            "{beside:?}"
        );
        assert!(beside.iter().any(|v| (v.abs() - 0.1).abs() < 1e-9));
    }

    /// Only the lengths that the question changes count, and only where all are at that value.
    #[test]
    fn alike_is_what_the_question_would_leave_as_it_is() {
        let mut case = demo();
        let (span, lanyard) = (Question::LongestSpan, Question::LongestLanyard);
        assert!(span.alike(&case, 9.0) && !span.alike(&case, 8.0));
        assert!(lanyard.alike(&case, 1.8) && !lanyard.alike(&case, 1.7));
        // One of another kind does not count, whatever its length.
        case.workers[0].gear.kind = GearKind::SelfRetracting;
        case.workers[0].gear.length_m = 3.0;
        assert!(lanyard.alike(&case, 1.8) && !lanyard.alike(&case, 3.0));
        case.workers[1].gear.length_m = 1.5;
        assert!(!lanyard.alike(&case, 1.8) && !lanyard.alike(&case, 1.5));
        case.line.spans_m = vec![9.0, 8.0];
        assert!(!span.alike(&case, 9.0));
        // A free fall that is used up by a shorter lanyard ends at none.
        case.workers[1].gear.free_fall_m = Some(0.2);
        let shorter = with_lanyards(&case, |m| m - 0.5);
        assert_eq!(shorter.workers[1].gear.free_fall_m, Some(0.0));
        assert_eq!(shorter.workers[0], case.workers[0]);
    }

    #[test]
    fn of_short_rooms_the_shortest_is_told_and_of_others_the_first() {
        let short = |worker, footroom_m| Stop::Footroom { worker, footroom_m };
        let limit = |key, own| Stop::Limit {
            key,
            subject: crate::check::Subject::System,
            own,
        };
        let stops = [
            short(0, -0.2),
            limit("own", Some(0)),
            short(1, -0.5),
            limit("own", Some(1)),
            short(2, -0.5),
            limit("own", Some(0)),
            Stop::AbsorberUsedUp,
            short(0, -0.1),
        ];
        assert_eq!(
            distinct(stops.into_iter()),
            [
                short(1, -0.5),
                limit("own", Some(0)),
                limit("own", Some(1)),
                Stop::AbsorberUsedUp
            ]
        );
    }

    /// Less where more is asked for, more where less is; of two pretensions the nearer.
    #[test]
    fn the_nearest_value_that_fits_is_on_the_side_that_the_question_allows_for() {
        for question in QUESTIONS {
            let of = |down, up| question.nearest(10.0, (down, up));
            assert_eq!(of(None, None), None);
            assert_eq!(of(Some(7.0), None), Some(7.0));
            assert_eq!(of(None, Some(12.0)), Some(12.0));
            let both = [(7.0, 12.0), (9.0, 12.0), (8.0, 12.0)].map(|(d, u)| of(Some(d), Some(u)));
            let expected = match question {
                Question::LongestSpan | Question::MostUsers | Question::LongestLanyard => {
                    [7.0, 9.0, 8.0]
                }
                Question::LowestLine | Question::LeastDrop => [12.0; 3],
                // Of equally near ones the lower.
                Question::Pretension => [12.0, 9.0, 8.0],
            };
            assert_eq!(both, expected.map(Some), "{question:?}");
        }
    }
}
