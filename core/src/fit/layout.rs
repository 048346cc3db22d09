//! Cases changed as a whole: other spans, other numbers of users, the crew at its worst place.
//!
//! The changed case keeps everything else. It may have faults (a span too short, a crew off the
//! line); whoever solves it learns them.

use alloc::vec;
use alloc::vec::Vec;

use crate::balance::balance;
use crate::case::{Case, Worker};
use crate::constants::WORKERS_MAX;
use crate::corner::{Sides, moved};
use crate::line::AtRest;
use crate::order::sort;
use crate::ready::Ready;
use crate::stack::stack;

/// Distance between workers where the given case does not say it, m. Common practice, no source.
pub const SPACING_M: f64 = 1.5;

/// Least distance between the workers of a crew whose places are chosen here, m, where the span
/// leaves room for six at it.
const SPACING_MIN_M: f64 = 0.5;

/// Where the crew of a changed layout stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Places {
    /// Together at the worst place, see [`at_worst_place`].
    #[default]
    Worst,
    /// Where it stands in the given case. A new post may then come to stand at a worker's place,
    /// where it helps more than anywhere else.
    Kept,
}

/// The case with `posts` intermediate posts at equal spans over the same length.
pub fn with_posts(case: &Case, posts: usize) -> Case {
    let mut changed = case.clone();
    let spans = posts.saturating_add(1).min(1_000);
    let length = case.line.length_m();
    changed.line.spans_m = vec![length / spans as f64; spans];
    // A sum of equal spans may come out below the length by rounding.
    let end = changed.line.length_m();
    for w in &mut changed.workers {
        if w.position_m > end && w.position_m <= length {
            w.position_m = end;
        }
    }
    changed
}

/// The case with all its spans `span_m` long, their number kept.
///
/// Each worker stays in his span at his distance from its middle, or at the same part of the span
/// where it grows shorter. What is below stays under the worker who was nearest to it, those who
/// fall before others: a line that only grows must not move its crew from over a truck. Without
/// workers it stays under the middle of the line.
pub fn with_span(case: &Case, span_m: f64) -> Case {
    let mut changed = case.clone();
    let line = &case.line;
    changed.line.spans_m = vec![span_m; line.spans_m.len()];
    let end = changed.line.length_m();
    for w in &mut changed.workers {
        let (span, x) = line.locate(w.position_m);
        let old = line.spans_m.get(span).copied().unwrap_or(span_m);
        let scale = if span_m < old { span_m / old } else { 1.0 };
        let place = span_m * (span as f64 + 0.5) + scale * (x - 0.5 * old);
        w.position_m = if place > end { end } else { place };
    }
    let moved = || case.workers.iter().zip(&changed.workers);
    for b in &mut changed.site.below {
        let middle = 0.5 * (b.from_m + b.to_m);
        let shift = moved()
            .min_by(|(a, _), (b, _)| {
                let key = |w: &Worker| (w.fall_time_s.is_none(), (w.position_m - middle).abs());
                let (a, b) = (key(a), key(b));
                a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
            })
            .map_or(0.5 * (end - line.length_m()), |(was, is)| {
                is.position_m - was.position_m
            });
        b.from_m += shift;
        b.to_m += shift;
    }
    changed
}

/// Mean distance between neighbours in the given crew, m.
fn spacing_m(crew: &[Worker]) -> f64 {
    if crew.len() < 2 {
        return SPACING_M;
    }
    let (low, high) = crew.iter().fold((f64::MAX, f64::MIN), |(l, h), w| {
        (l.min(w.position_m), h.max(w.position_m))
    });
    ((high - low) / (crew.len() - 1) as f64).max(SPACING_MIN_M)
}

/// Where another one stands beside a crew, see [`with_users`], m.
fn place_for_another(crew: &[Worker], spacing_m: f64, length_m: f64) -> f64 {
    let (low, high) = crew.iter().fold((f64::MAX, f64::MIN), |(l, h), w| {
        (l.min(w.position_m), h.max(w.position_m))
    });
    if high + spacing_m <= length_m {
        return high + spacing_m;
    }
    if low - spacing_m >= 0.0 {
        return low - spacing_m;
    }
    let mut places: Vec<f64> = crew.iter().map(|w| w.position_m).collect();
    places.push(length_m);
    sort(&mut places, |a, b| a < b);
    let (mut before, mut widest) = (0.0, (0.0, 0.0));
    for place in places {
        if place - before > widest.1 {
            widest = (0.5 * (before + place), place - before);
        }
        before = place;
    }
    widest.0
}

/// The case with `users` workers: the first of the given crew, and beyond it more of the same kit,
/// the given crew over again.
///
/// Those added stand to the right of the crew at its spacing, or to the left of it where the line
/// ends, or in the middle of the widest gap where neither has room. If none of the first `users`
/// falls, the first of them falls at 0.
pub fn with_users(case: &Case, users: usize) -> Case {
    let mut changed = case.clone();
    let given = &case.workers;
    let spacing = spacing_m(given);
    let length = case.line.length_m();
    let users = users.min(10 * WORKERS_MAX);
    changed.workers.truncate(users);
    if given.is_empty() {
        return changed;
    }
    for i in given.len()..users {
        changed.workers.push(Worker {
            position_m: place_for_another(&changed.workers, spacing, length),
            ..given[i % given.len()]
        });
    }
    if changed.workers.iter().all(|w| w.fall_time_s.is_none())
        && let Some(first) = changed.workers.first_mut()
    {
        first.fall_time_s = Some(0.0);
    }
    changed
}

/// The case with its crew together at the worst place of the line: one worker there, the others on
/// both sides of him by turns, at the crew's own mean spacing or a sixth of the span, whichever is
/// less, so that a crew of one more stands where the smaller one stands and beside it. Along the
/// line they keep their order.
///
/// Tried are: the middle of every span, where the line gives most; and in every span, for each
/// thing that reaches under it, the place over it nearest to that middle. The worst is the one
/// with the least footroom by the energy balance in the soft corner; of equals, the one nearest to
/// where the crew stands. It is the worst of those, not of all places; see
/// [`crate::group::Search`].
///
/// A case with faults is returned as it is.
pub fn at_worst_place(case: &Case) -> Case {
    let Ok(soft) = case.ready().map(|ready| moved(&ready, Sides::SOFT)) else {
        return case.clone();
    };
    let crew = &case.workers;
    let count = crew.len() as f64;
    let stands_m = crew.iter().map(|w| w.position_m).sum::<f64>() / count;
    let mut order: Vec<usize> = (0..crew.len()).collect();
    sort(&mut order, |&a, &b| {
        crew[a].position_m.total_cmp(&crew[b].position_m).is_lt()
    });
    let wanted = spacing_m(crew);
    let mut best: Option<(f64, Vec<f64>)> = None;
    let mut seen: Vec<(f64, Vec<f64>)> = Vec::new();
    let mut places = candidates(case, wanted);
    // Nearest first, so that of equal ones only that need be solved.
    sort(&mut places, |a, b| {
        let away = |c: &Candidate| (c.at_m - stands_m).abs();
        away(a).total_cmp(&away(b)).is_lt()
    });
    for candidate in places {
        let mut x_m = vec![0.0; crew.len()];
        for (turn, &i) in order.iter().enumerate() {
            x_m[i] = candidate.at_m + candidate.spacing_m * (turn as f64 - candidate.left as f64);
        }
        let soft = soft.with(|soft| {
            for (w, &x) in soft.workers.iter_mut().zip(&x_m) {
                w.position_m = crate::maths::clamp(x, 0.0, case.line.length_m());
            }
        });
        let crew = &soft.case().workers;
        // Same span, same place in it, same room below: the same fall.
        let mut signature = vec![
            candidate.at_m - candidate.span_start_m,
            candidate.left as f64,
        ];
        signature.extend(
            crew.iter()
                .map(|w| case.site.highest_below_m(w.position_m, w.offset_along_m)),
        );
        if seen.iter().any(|(span, s)| {
            (span - candidate.span_m).abs() < 1e-9
                && s.iter().zip(&signature).all(|(a, b)| (a - b).abs() < 1e-9)
        }) {
            continue;
        }
        seen.push((candidate.span_m, signature));
        let footroom = balance_footroom_m(&soft);
        if best.as_ref().is_none_or(|b| footroom < b.0) {
            let places = crew.iter().map(|w| w.position_m).collect();
            best = Some((footroom, places));
        }
    }
    let mut placed = case.clone();
    if let Some((_, x_m)) = best {
        for (w, x) in placed.workers.iter_mut().zip(x_m) {
            w.position_m = x;
        }
    }
    placed
}

/// A place for the crew.
struct Candidate {
    span_m: f64,
    span_start_m: f64,
    /// Place of the one in the middle, m.
    at_m: f64,
    /// How many stand to his left.
    left: usize,
    spacing_m: f64,
}

fn candidates(case: &Case, wanted_spacing_m: f64) -> Vec<Candidate> {
    let beside = case.workers.len().saturating_sub(1);
    let reach = case.site.reach_m;
    let mut all: Vec<Candidate> = Vec::new();
    let mut start = 0.0;
    for &span in &case.line.spans_m {
        let (low, high) = (start, start + span);
        let middle = 0.5 * (low + high);
        let spacing_m = wanted_spacing_m.min(span / WORKERS_MAX as f64);
        let mut places = vec![middle];
        for b in &case.site.below {
            let (from, to) = (b.from_m - reach, b.to_m + reach);
            if from <= high && to >= low {
                places.push(middle.max(from).min(to));
            }
        }
        // Of an even number one more stands to the right, or to the left.
        let mut sides = vec![beside / 2];
        if beside % 2 == 1 {
            sides.push(beside / 2 + 1);
        }
        for place in places {
            for &left in &sides {
                let room_left = spacing_m * left as f64;
                let room_right = spacing_m * (beside - left) as f64;
                all.push(Candidate {
                    span_m: span,
                    span_start_m: start,
                    at_m: place.max(low + room_left).min(high - room_right),
                    left,
                    spacing_m,
                });
            }
        }
        start = high;
    }
    all
}

/// Least footroom by the energy balance, m.
fn balance_footroom_m(ready: &Ready) -> f64 {
    let case = ready.case();
    let found = balance(case, &AtRest::of(&case.line));
    case.workers
        .iter()
        .enumerate()
        .filter(|(_, w)| w.fall_time_s.is_some())
        .map(|(i, w)| stack(case, w, found.deflection_m[i], found.stretch_m[i]).footroom_m)
        .fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Below;
    use crate::demo::demo;
    use crate::spread::Spread;

    fn places(case: &Case) -> Vec<f64> {
        case.workers.iter().map(|w| w.position_m).collect()
    }

    #[test]
    fn posts_share_the_length() {
        let case = demo();
        assert_eq!(with_posts(&case, 2).line.spans_m, [6.0; 3]);
        assert_eq!(with_posts(&case, 1).line.spans_m, case.line.spans_m);
        assert_eq!(places(&with_posts(&case, 5)), places(&case));
        let mut end = case.clone();
        end.line.spans_m = vec![17.3];
        end.workers[2].position_m = 17.3;
        for posts in 0..12 {
            assert!(with_posts(&end, posts).faults().is_empty(), "{posts}");
        }
    }

    #[test]
    fn a_longer_span_keeps_the_crew_over_what_is_below() {
        let case = demo();
        let long = with_span(&case, 10.0);
        assert_eq!(long.line.spans_m, [10.0, 10.0]);
        assert_eq!(places(&long), [12.5, 14.5, 16.5]);
        // The truck, 10 to 16 m, stays under the worker over its middle.
        assert_eq!(long.site.below[0].from_m, 11.5);
        assert_eq!(long.site.below[0].to_m, 17.5);
        let mut standing = case.clone();
        standing.workers[1].fall_time_s = None;
        standing.workers[2].position_m = 17.9;
        let below = |case: &Case| with_span(case, 10.0).site.below[0].from_m;
        assert_eq!(below(&standing), 11.5);
        standing.workers[0].position_m = 1.0;
        assert!((below(&standing) - (10.0 + 1.5)).abs() < 1e-12);
        standing.workers.clear();
        assert_eq!(below(&standing), 11.0);
        assert_eq!(with_span(&case, 9.0), case);
        let short = with_span(&case, 4.5);
        assert_eq!(places(&short), [5.5, 6.5, 7.5]);
        assert!(short.faults().is_empty());
    }

    #[test]
    fn more_users_wear_the_same_and_stand_on_the_line() {
        let mut case = demo();
        case.workers[1].mass_kg = 120.0;
        let six = with_users(&case, 6);
        assert_eq!(places(&six), [11.0, 13.0, 15.0, 17.0, 9.0, 7.0]);
        assert_eq!(six.workers[4].mass_kg, 120.0);
        assert!(six.faults().is_empty());
        // Where neither side has room, in the widest gap: nobody stands where another does.
        let mut crowded = case.clone();
        for (worker, place_m) in crowded.workers.iter_mut().zip([1.0, 9.0, 17.0]) {
            worker.position_m = place_m;
        }
        assert_eq!(
            places(&with_users(&crowded, 5)),
            [1.0, 9.0, 17.0, 5.0, 13.0]
        );
        case.workers[0].fall_time_s = None;
        let one = with_users(&case, 1);
        assert_eq!(one.workers[0].fall_time_s, Some(0.0));
        case.workers.clear();
        assert!(with_users(&case, 3).workers.is_empty());
    }

    #[test]
    fn the_worst_place_is_over_the_truck() {
        let case = demo();
        let placed = at_worst_place(&case);
        assert_eq!(places(&placed), [12.0, 13.5, 15.0]);
        let mut free = case.clone();
        free.site.below.clear();
        // Nothing below: the middle of the crew's own span.
        assert_eq!(places(&at_worst_place(&free)), [12.0, 13.5, 15.0]);
        // Low and at the end of the other span: the middle of the higher thing's reach wins.
        let mut side = free.clone();
        side.site.below = vec![Below {
            from_m: 0.0,
            to_m: 2.0,
            height_m: 4.0,
            ..Below::default()
        }];
        let at = places(&at_worst_place(&side));
        assert!(at[2] < 9.0, "{at:?}");
        let mut faulty = case.clone();
        faulty.line.spans_m.clear();
        assert_eq!(at_worst_place(&faulty), faulty);
    }

    #[test]
    fn placed_crews_stay_on_their_line() {
        let mut by = Spread::new(3);
        for i in 0..36 {
            let mut case = by.case();
            case = with_users(&case, 1 + i % 6);
            case = with_posts(&case, i % 5);
            if !case.faults().is_empty() {
                continue;
            }
            let placed = at_worst_place(&case);
            assert!(placed.faults().is_empty(), "{:?}", placed.faults());
        }
    }

    /// The demonstration with a crew at these places.
    fn standing_at(x_m: &[f64]) -> Case {
        let mut case = demo();
        let one = case.workers[0];
        let at = |&position_m: &f64| Worker { position_m, ..one };
        case.workers = x_m.iter().map(at).collect();
        case
    }

    /// Spans grow to both sides: what is below stays under him who is nearest to its middle, whoever
    /// stands still last.
    #[test]
    fn a_thing_below_goes_with_the_nearest_who_falls() {
        let mut case = standing_at(&[8.5, 17.0]);
        (case.site.below[0].from_m, case.site.below[0].to_m) = (7.0, 11.0);
        let long = with_span(&case, 10.0);
        assert_eq!(places(&long), [9.0, 18.5]);
        assert_eq!(long.site.below[0].from_m, 7.5);
        case.workers[0].fall_time_s = None;
        assert_eq!(with_span(&case, 10.0).site.below[0].from_m, 8.5);
    }

    /// More users stand at the spacing of the crew, as long as the line goes to the last centimetre; then
    /// on the other side down to its end; else in the first of the widest gaps.
    #[test]
    fn more_users_stand_at_the_crew_s_own_spacing() {
        let one_more = |x_m: &[f64]| places(&with_users(&standing_at(x_m), x_m.len() + 1));
        assert_eq!(one_more(&[11.0, 13.0]), [11.0, 13.0, 15.0]);
        assert_eq!(one_more(&[14.0, 16.0]), [14.0, 16.0, 18.0]);
        assert_eq!(one_more(&[15.0, 5.0, 10.0]), [15.0, 5.0, 10.0, 0.0]);
        assert_eq!(one_more(&[1.5, 17.0]), [1.5, 17.0, 9.25]);
        assert_eq!(one_more(&[6.0, 18.0]), [6.0, 18.0, 12.0]);
        assert_eq!(one_more(&[4.0, 9.0, 14.0]), [4.0, 9.0, 14.0, 6.5]);
        assert_eq!(one_more(&[17.0, 0.5, 9.0]), [17.0, 0.5, 9.0, 4.75]);
        assert_eq!(one_more(&[2.0, 8.0, 16.0]), [2.0, 8.0, 16.0, 12.0]);
        // On a line too short for the spacing as well, at either end.
        for (length_m, stands_m, other_m) in [(2.0, 0.9, 1.45), (2.0, 1.1, 0.55), (1.0, 0.5, 0.25)]
        {
            let mut case = standing_at(&[stands_m]);
            case.line.spans_m = vec![length_m];
            assert_eq!(places(&with_users(&case, 2)), [stands_m, other_m]);
        }
        // One alone has none: 1.5 m; two at one place stand half a metre apart.
        assert_eq!(places(&with_users(&standing_at(&[11.0]), 2)), [11.0, 12.5]);
        assert_eq!(
            places(&with_users(&standing_at(&[11.0, 11.0]), 3)),
            [11.0, 11.0, 11.5]
        );
        // As long as one of them falls, nobody else is let fall.
        let mut case = standing_at(&[11.0, 13.0]);
        case.workers[0].fall_time_s = None;
        assert_eq!(with_users(&case, 2), case);
    }

    /// In every span the middle, and over each thing that reaches under it the place nearest to the
    /// middle; the crew within the span, of an even one either half on either side.
    #[test]
    fn candidates_are_the_middles_and_the_places_over_things() {
        let mut by = Spread::new(8);
        for round in 0..150_u32 {
            // Whole metres, so that ends meet.
            let mut whole = |low: f64, high: f64| by.between(low, high) as i64 as f64;
            let crew = 1 + round as usize % 6;
            let mut case = standing_at(&vec![1.0; crew]);
            case.line.spans_m = (0..1 + round % 3).map(|_| whole(6.0, 12.0)).collect();
            case.site.reach_m = whole(0.0, 3.0);
            let mut thing = || {
                let from_m = whole(0.0, 24.0);
                Below {
                    from_m,
                    to_m: from_m + whole(0.0, 6.0),
                    height_m: 1.0,
                    ..Below::default()
                }
            };
            case.site.below = (0..round % 4).map(|_| thing()).collect();
            let spacing = 1.5_f64;
            let mut expected: Vec<(f64, usize)> = Vec::new();
            let mut low = 0.0;
            for span in &case.line.spans_m {
                let high = low + span;
                let middle = 0.5 * (low + high);
                let mut places = vec![middle];
                for b in &case.site.below {
                    // All places of the span over it, on a grid that has both ends.
                    let over: Vec<f64> = (0..=2 * *span as u32)
                        .map(|i| low + 0.5 * f64::from(i))
                        .filter(|x| {
                            (case.site.reach_m + x >= b.from_m) && x - case.site.reach_m <= b.to_m
                        })
                        .collect();
                    let away = |x: &f64| (x - middle).abs();
                    places.extend(over.into_iter().min_by(|a, b| away(a).total_cmp(&away(b))));
                }
                let apart = spacing.min(span / 6.0);
                for place in places {
                    for left in 0..crew {
                        let right = crew - 1 - left;
                        if left.abs_diff(right) <= 1 {
                            let least = low + apart * left as f64;
                            let most = high - apart * right as f64;
                            expected.push((place.max(least).min(most), left));
                        }
                    }
                }
                low = high;
            }
            let mut found: Vec<(f64, usize)> = (candidates(&case, spacing).iter())
                .map(|c| (c.at_m, c.left))
                .collect();
            for all in [&mut expected, &mut found] {
                sort(all, |a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)).is_lt());
            }
            assert_eq!(found.len(), expected.len(), "{case:?}");
            for (a, b) in found.iter().zip(&expected) {
                assert!(
                    (a.0 - b.0).abs() < 1e-9 && a.1 == b.1,
                    "{found:?} {expected:?}"
                );
            }
        }
    }

    /// What is left out as the same fall is the same: no candidate leaves less room than the worst place,
    /// each solved.
    #[test]
    fn the_worst_place_is_that_of_all_candidates() {
        let mut by = Spread::new(14);
        for i in 0..40 {
            let mut case = standing_at(&[1.0, 2.0, 3.0][..1 + i % 3]);
            // Equal and unequal spans, things of equal and of other heights.
            case.line.spans_m = vec![8.0, 8.0, if i % 2 == 0 { 8.0 } else { 6.0 }];
            let mut thing = || {
                let from_m = by.between(0.0, 20.0);
                Below {
                    from_m,
                    to_m: from_m + by.between(0.0, 3.0),
                    height_m: [1.0, 2.0, 2.5][by.index(3)],
                    ..Below::default()
                }
            };
            case.site.below = (0..4).map(|_| thing()).collect();
            case.site.reach_m = 0.5;
            let room_m = |x_m: &[f64]| {
                let mut there = case.clone();
                for (w, &x) in there.workers.iter_mut().zip(x_m) {
                    w.position_m = crate::maths::clamp(x, 0.0, case.line.length_m());
                }
                balance_footroom_m(&moved(&there.ready().unwrap(), Sides::SOFT))
            };
            let found_m = room_m(&places(&at_worst_place(&case)));
            for c in candidates(&case, spacing_m(&case.workers)) {
                let turn = |turn: usize| c.at_m + c.spacing_m * (turn as f64 - c.left as f64);
                let x_m: Vec<f64> = (0..case.workers.len()).map(turn).collect();
                assert!(found_m <= room_m(&x_m) + 1e-9, "{found_m} {x_m:?} {case:?}");
            }
        }
    }

    /// Of equal places that nearest to where the crew stands; at the very end of the line, if the worst
    /// thing lies there.
    #[test]
    fn of_equal_places_the_nearest_is_taken() {
        let mut case = standing_at(&[3.0, 4.0, 5.0]);
        case.site.below.clear();
        assert_eq!(places(&at_worst_place(&case)), [3.5, 4.5, 5.5]);
        let mut case = standing_at(&[9.0]);
        (case.site.below[0].from_m, case.site.below[0].to_m) = (0.0, 0.5);
        case.site.below[0].height_m = 5.0;
        case.site.reach_m = 0.0;
        assert_eq!(places(&at_worst_place(&case)), [0.5]);
    }
}
