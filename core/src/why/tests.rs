//! Parts add up, and each is that of its cause.

use super::mixed::{add, pairs};
use super::*;
use crate::assess::assess;
use crate::case::{Absorber, Below, EndPost, InlineAbsorber};
use crate::demo::demo;
use crate::solve::solve;
use crate::spread::Spread;

fn adds_up(why: &Why) {
    let whole = why.to.less(&why.from);
    // Both ways round: on the grid the order of the additions does not matter.
    for reversed in [false, true] {
        let mut sum = [0.0; NUMBERS];
        let (mut required_m, mut footroom_m) = (0.0, 0.0);
        let mut add_part = |p: &Part| {
            let n = p.numbers();
            assert_eq!(p.required_m, n[..7].iter().sum::<f64>());
            assert_eq!(p.footroom_m, p.available_m - p.required_m);
            add(&mut sum, &n, 1.0);
            required_m += p.required_m;
            footroom_m += p.footroom_m;
        };
        if reversed {
            why.parts.iter().rev().for_each(&mut add_part);
        } else {
            why.parts.iter().for_each(&mut add_part);
        }
        assert_eq!(sum, whole);
        assert_eq!(required_m, why.to.required_m - why.from.required_m);
        assert_eq!(footroom_m, why.to.footroom_m - why.from.footroom_m);
    }
}

/// Some inputs of a case changed at random, each with even odds.
fn changed(case: &Case, by: &mut Spread) -> Case {
    let mut to = case.clone();
    let line = &mut to.line;
    if by.odds(0.5) {
        line.pretension_n = by.between(2.0e3, 8.0e3);
    }
    if by.odds(0.5) {
        let spans = 1 + by.index(3);
        line.spans_m = vec![by.between(4.0, 12.0); spans];
    }
    if by.odds(0.3) {
        line.inline_absorber = Some(InlineAbsorber {
            yield_force_n: by.between(9.0e3, 15.0e3),
            max_extension_m: 1.0,
            ..InlineAbsorber::default()
        });
    }
    if by.odds(0.3) {
        line.height_above_beam_m = by.between(0.5, 2.5);
    }
    if by.odds(0.3) {
        to.posts.left = Some(EndPost::default());
    }
    if by.odds(0.3) {
        to.site.margin_m = by.between(0.5, 1.5);
    }
    if by.odds(0.3) {
        to.site.beam_top_m = by.between(6.0, 12.0);
    }
    if by.odds(0.3) {
        to.allowance.clearance_ratio = 0.1;
    }
    if by.odds(0.5) {
        to.workers.truncate(1 + by.index(to.workers.len()));
    }
    if by.odds(0.3) {
        to.site.below.push(Below {
            from_m: 2.0,
            to_m: 5.0,
            height_m: 2.0,
            ..Below::default()
        });
    }
    let length = to.line.length_m();
    let mass = by.odds(0.4).then(|| by.between(60.0, 130.0));
    for w in &mut to.workers {
        w.mass_kg = mass.unwrap_or(w.mass_kg);
        if w.position_m > length {
            w.position_m = by.between(0.0, length);
        }
    }
    to
}

#[test]
fn the_parts_add_up_to_the_last_bit() {
    let mut by = Spread::new(7);
    let mut many = 0;
    for i in 0..30 {
        let from = by.case();
        let to = changed(&from, &mut by);
        if to.ready().is_err() {
            continue;
        }
        let follow = match i % 3 {
            0 => Follow::Governing,
            1 => Follow::Same,
            _ => Follow::One {
                worker: to.workers.len() - 1,
            },
        };
        let corner = [Corner::Nominal, Corner::Soft][i % 2];
        let split = why(&from, &to, Asked { follow, corner }).unwrap();
        adds_up(&split);
        many += usize::from(split.parts.len() > ALL_ORDERS_MAX);
        assert!(split.solved as usize <= 16_usize.max(2 * split.parts.len() + 1));
    }
    assert!(many > 3, "{many} with many causes");
}

/// The footroom of the whole answer to a case, m.
fn answer_m(case: &Case) -> f64 {
    assess(case, Options::default()).unwrap().footroom.value
}

/// The causes among the inputs.
fn inputs(split: &Why) -> Vec<Cause> {
    let causes = split.parts.iter().map(|p| p.cause);
    causes.filter(|&c| c != Cause::Differences).collect()
}

/// The second state is that of the second case also where only the day is warmer.
#[test]
fn a_warmer_day_is_less_pretension() {
    let mut from = demo();
    // Of a crew the bounces move by more than the day.
    from.workers.truncate(1);
    let mut to = from.clone();
    to.temperature.today_k += 20.0;
    let split = why(&from, &to, Asked::default()).unwrap();
    assert!((split.to.footroom_m - answer_m(&to)).abs() < 1e-9);
    assert!(split.to.footroom_m < split.from.footroom_m - 0.005);
    assert_eq!(inputs(&split), [Cause::Pretension]);
}

#[test]
fn the_states_are_the_solver_s() {
    let case = demo();
    let outcome = solve(&case, Options::default()).unwrap();
    let same = why(&case, &case, Asked::default()).unwrap();
    assert!(same.parts.is_empty());
    assert_eq!(same.from, same.to);
    assert_eq!(same.to.worker, outcome.governing_worker);
    assert!((same.to.footroom_m - answer_m(&case)).abs() < 1e-10);
    // A crew's small differences take something of what the run leaves.
    assert!(same.to.footroom_m < outcome.footroom_m);
    let arrest = outcome.workers[outcome.governing_worker].arrest_force_max_n;
    assert!(same.to.arrest_force_n >= arrest - FORCE_GRID_N);
}

#[test]
fn one_cause_takes_all() {
    let from = demo();
    let mut to = from.clone();
    to.site.margin_m += 0.25;
    let split = why(&from, &to, Asked::default()).unwrap();
    let [part] = split.parts[..] else {
        panic!("{split:?}");
    };
    assert_eq!(part.cause, Cause::Margin);
    assert_eq!(part.margin_m, 0.25);
    assert_eq!(part.required_m, 0.25);
    assert_eq!(part.line_deflection_m, 0.0);
}

/// With two causes the average over both orders is known by hand.
#[test]
fn two_causes_share_what_they_do_together() {
    let from = demo();
    let (mut a, mut b, mut both) = (from.clone(), from.clone(), from.clone());
    for case in [&mut a, &mut both] {
        case.line.spans_m = vec![18.0];
    }
    for case in [&mut b, &mut both] {
        for w in &mut case.workers {
            w.mass_kg = 120.0;
        }
    }
    let footroom = |case: &Case| solve(case, Options::default()).unwrap().footroom_m;
    let f = [&from, &a, &b, &both].map(footroom);
    let split = why(&from, &both, Asked::default()).unwrap();
    let spans = 0.5 * ((f[1] - f[0]) + (f[3] - f[2]));
    assert_eq!(split.parts[0].cause, Cause::Spans);
    assert!((split.parts[0].footroom_m - spans).abs() < 1e-9);
    assert_eq!(split.parts[1].cause, Cause::Mass);
    assert!((split.parts[1].footroom_m - (f[3] - f[0] - spans)).abs() < 1e-9);
}

/// The longer line must come before the place on it, and the other way round.
#[test]
fn orders_that_cannot_be_solved_are_left_out() {
    let mut from = demo();
    from.line.spans_m = vec![9.0];
    for (w, x) in from.workers.iter_mut().zip([3.0, 4.5, 6.0]) {
        w.position_m = x;
    }
    let to = demo();
    let split = why(&from, &to, Asked::default()).unwrap();
    assert_eq!(inputs(&split), [Cause::Places, Cause::Spans]);
    assert_eq!(split.solved, 3);
    adds_up(&split);
    adds_up(&why(&to, &from, Asked::default()).unwrap());
    // The same among more causes than all orders are taken for.
    let mut far = to.clone();
    far.line.pretension_n = 5.0e3;
    far.site.margin_m = 0.8;
    far.site.beam_top_m = 8.0;
    let split = why(&from, &far, Asked::default()).unwrap();
    assert_eq!(inputs(&split).len(), 5);
    adds_up(&split);
}

/// The light rope does not bear the heavy rope's pretension, and under the light rope's the heavy
/// one hangs slack: neither can go first.
#[test]
fn without_an_order_all_is_one_part() {
    let mut from = demo();
    from.line.spans_m = vec![60.0];
    from.line.pretension_n = 30.0e3;
    from.line.rope.mass_per_length_kg_per_m = 6.0;
    from.line.rope.breaking_force_n = Some(400.0e3);
    let mut to = from.clone();
    to.line.pretension_n = 3.0e3;
    to.line.rope.mass_per_length_kg_per_m = 0.2;
    to.line.rope.breaking_force_n = Some(20.0e3);
    let together = |from: &Case, to: &Case| {
        let split = why(from, to, Asked::default()).unwrap();
        assert_eq!(inputs(&split), [Cause::Together], "{split:?}");
        assert!(split.parts[0].footroom_m != 0.0);
        adds_up(&split);
    };
    together(&from, &to);
    // The same among many causes.
    for w in &mut to.workers {
        w.mass_kg = 90.0;
        w.gear.length_m = 1.9;
    }
    to.site.margin_m = 0.7;
    together(&from, &to);
}

#[test]
fn workers_are_paired_by_likeness() {
    let crew = demo().workers;
    assert_eq!(pairs(&crew, &crew), [(0, 0), (1, 1), (2, 2)]);
    assert_eq!(pairs(&crew[1..], &crew), [(0, 1), (1, 2)]);
    assert_eq!(pairs(&crew, &crew[..1]), [(0, 0)]);
    let mut last = crew[2];
    last.mass_kg = 80.0;
    let mut heavy = crew.clone();
    heavy[0].mass_kg = 80.0;
    assert_eq!(pairs(&[last], &heavy), [(0, 0)]);
}

/// Before they are put on the grid the shares make the whole already: what is left over for the
/// greatest of them is rounding and nothing else.
#[test]
fn shares_make_the_whole_before_they_are_rounded() {
    let from = demo();
    let mut to = from.clone();
    to.site.margin_m += 0.05;
    to.line.pretension_n = 6_000.0;
    to.line.spans_m = vec![18.0];
    for many in [false, true] {
        if many {
            to.site.beam_top_m += 0.3;
            for w in &mut to.workers {
                w.mass_kg = 90.0;
                w.gear.length_m = 1.9;
            }
        }
        let mut way = Way::new(&from, &to, Asked::default());
        assert_eq!(way.causes.len() > ALL_ORDERS_MAX, many);
        let ends = (way.state(way.all()), way.state(0));
        let whole = ends.0.expect("solved").less(&ends.1.expect("solved"));
        let shares = if many {
            way.two_orders()
        } else {
            way.all_orders()
        };
        let shares = shares.expect("an order that can be solved");
        for (i, &wanted) in whole.iter().enumerate() {
            let sum: f64 = shares.iter().map(|share| share[i]).sum();
            assert!(
                (sum - wanted).abs() <= 1e-9 * (1.0 + wanted.abs()),
                "{i}: {sum} {wanted}"
            );
        }
    }
}

#[test]
fn one_person_can_be_followed() {
    let mut from = demo();
    from.workers.truncate(1);
    let to = demo();
    let follow = Follow::One { worker: 2 };
    let corner = Corner::Nominal;
    let split = why(&from, &to, Asked { follow, corner }).unwrap();
    assert_eq!((split.from.worker, split.to.worker), (0, 2));
    adds_up(&split);
    let follow = Follow::One { worker: 3 };
    assert!(why(&from, &to, Asked { follow, corner }).is_err());
}

#[test]
fn the_series_of_users_ends_at_the_case() {
    let mut case = demo();
    case.line.inline_absorber = Some(InlineAbsorber::default());
    case.workers[2].gear.absorber = Some(Absorber {
        average_force_n: 5.0e3,
        ..Absorber::default()
    });
    let steps = users(&case, Corner::Nominal).unwrap();
    assert_eq!(steps.len(), 3);
    assert_eq!(steps[2].case, case);
    let mut footroom = steps[0].state.footroom_m;
    for step in &steps[1..] {
        footroom += step.added.unwrap().footroom_m;
        assert_eq!(footroom, step.state.footroom_m);
    }
    assert!((footroom - answer_m(&case)).abs() < 1e-10);
    case.workers[0].fall_time_s = None;
    let steps = users(&case, Corner::Soft).unwrap();
    assert_eq!(steps.iter().map(|s| s.users).collect::<Vec<_>>(), [2, 3]);
}

/// Who is followed must be there.
#[test]
fn following_somebody_who_is_not_there_is_named() {
    let case = demo();
    let mut to = case.clone();
    to.workers.truncate(2);
    let asked = |worker| Asked {
        follow: Follow::One { worker },
        corner: Corner::Nominal,
    };
    let count = |count| {
        Err(vec![Fault::Count {
            field: FieldRef::new("workers"),
            count,
            min: 1,
            max: 2,
        }])
    };
    assert_eq!(why(&case, &to, asked(2)), count(3));
    assert_eq!(why(&case, &to, asked(7)), count(8));
}
