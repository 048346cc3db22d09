//! The inverse questions: the longest span, the most users, the longest lanyard, the lowest line,
//! the least drop, the pretension that still fits; each with what stops it.
//!
//! One input is scanned over its range, everything else as in the given case, and every boundary
//! between a value that fits and its neighbour that does not is halved down to the resolution.
//! Footroom and strength are not monotone in every input (pretension lowers the one and raises the
//! other), so that the values that fit may be several intervals: all are given, and which of them
//! is the answer. What lies between two scanned values is not seen: an interval narrower than the
//! scan's step may be missed, or a gap in one.
//!
//! | question | scanned | step of the scan | resolution | answer |
//! | --- | --- | --- | --- | --- |
//! | longest span | all spans, range of the field | 19 % | 0.01 m | top of the lowest interval |
//! | most users | 1 to 6 | 1 | 1 | top of the lowest interval |
//! | longest lanyard | all lanyards, range of the field | 0.2 m | 0.01 m | top of the lowest interval |
//! | lowest line | line height, range of the field | 0.2 m | 0.01 m | foot of the highest interval |
//! | least drop | beam top, from the highest thing below up | where the footroom ends | 0.001 m | foot of the highest interval |
//! | pretension | range of the field | 34 % | 10 N | the interval that holds the present value, else the widest |
//!
//! So "longest span" means: every scanned span that is shorter, down to the foot of the interval,
//! fits as well.

use alloc::vec;
use alloc::vec::Vec;

use super::layout::{Places, at_worst_place, with_span, with_users};
use super::{Limits, Rules, Stop, Trial};
use crate::case::{Case, GearKind};
use crate::constants::WORKERS_MAX;
use crate::fault::Fault;
use crate::field;

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

/// Values that fit, from end to end as far as scanned.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Interval {
    /// Lower end.
    pub low: End,
    /// Upper end.
    pub high: End,
}

/// The answer to a question. Values in m, N or users, as the question says.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Answer {
    /// The question.
    pub question: Question,
    /// The value in the given case: of several spans or lanyards the longest.
    pub present: f64,
    /// The end that was asked for; `None`: no scanned value fits. For the pretension its lower end,
    /// the upper stands in `interval`.
    pub value: Option<f64>,
    /// The interval that it belongs to.
    pub interval: Option<Interval>,
    /// All intervals that were found, ascending.
    pub intervals: Vec<Interval>,
    /// Where nothing fits: what stops the present value, or the scanned one next to it.
    pub none: Option<Stop>,
    /// The scanned values, from least to greatest.
    pub scanned: (f64, f64),
    /// Greatest distance between the two sides of an end.
    pub resolution: f64,
    /// Number of values judged.
    pub judged: u32,
}

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
        let mut case = match self {
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
/// Resolution and scan as in the module's table. At most about 100 values are judged, each in one
/// to five runs.
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
/// let low = answer.interval.unwrap().low;
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
    let values = scan(given, question, present, trial.finding().footroom_m);
    let mut judged = 0;
    let mut fits = |value: f64| {
        judged += 1;
        rules.fits(&question.case(given, value, places)).is_ok()
    };
    let found: Vec<bool> = values.iter().map(|&v| fits(v)).collect();
    let mut edge = |inside: f64, outside: f64| {
        let (mut inside, mut outside) = (inside, outside);
        while (inside - outside).abs() > question.resolution() * (1.0 + 1e-9) {
            let middle = 0.5 * (inside + outside);
            if fits(middle) {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        (inside, outside)
    };
    let stop_at = |value: f64| rules.stop(&question.case(given, value, places));
    let mut intervals: Vec<Interval> = Vec::new();
    for (i, &value) in values.iter().enumerate() {
        if !found[i] {
            continue;
        }
        let mut end = |neighbour: Option<usize>| match neighbour {
            None => End {
                value,
                outside: None,
                stop: None,
            },
            Some(j) => {
                let (inside, outside) = edge(value, values[j]);
                End {
                    value: inside,
                    outside: Some(outside),
                    stop: stop_at(outside),
                }
            }
        };
        let begins = i == 0 || !found[i - 1];
        let ends = i + 1 == values.len() || !found[i + 1];
        if begins {
            let low = end(i.checked_sub(1));
            intervals.push(Interval { low, high: low });
        }
        if ends && let Some(last) = intervals.last_mut() {
            last.high = end((i + 1 < values.len()).then_some(i + 1));
        }
    }
    let interval = match question {
        Question::LongestSpan | Question::MostUsers | Question::LongestLanyard => intervals.first(),
        Question::LowestLine | Question::LeastDrop => intervals.last(),
        Question::Pretension => intervals
            .iter()
            .find(|i| (i.low.value..=i.high.value).contains(&present))
            .or_else(|| {
                let wide = |i: &Interval| i.high.value - i.low.value;
                intervals.iter().max_by(|a, b| wide(a).total_cmp(&wide(b)))
            }),
    }
    .copied();
    let value = interval.map(|i| match question {
        Question::LongestSpan | Question::MostUsers | Question::LongestLanyard => i.high.value,
        _ => i.low.value,
    });
    let none = interval.is_none().then(|| stop_at(present)).flatten();
    Ok(Some(Answer {
        question,
        present,
        value,
        interval,
        intervals,
        none,
        scanned: (
            values.first().copied().unwrap_or(present),
            values.last().copied().unwrap_or(present),
        ),
        resolution: question.resolution(),
        judged,
    }))
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
    // Uneven spans are no value of the scan.
    let even_spans = given.line.spans_m.iter().all(|&s| s == present);
    if question != Question::LongestSpan || even_spans {
        values.push(present);
    }
    values.sort_by(f64::total_cmp);
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
        assert_eq!(answer.value.is_none(), answer.intervals.is_empty());
        assert_eq!(answer.none.is_some(), answer.intervals.is_empty());
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
                assert!(answer.judged < 200, "{}", answer.judged);
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
                let held = answer
                    .intervals
                    .iter()
                    .any(|i| (i.low.value..=i.high.value).contains(&answer.present));
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
            assert_eq!(answer.value, None, "{answer:?}");
            assert!(answer.none.is_some());
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
}
