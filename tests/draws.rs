//! Falls drawn within the tolerances: the draws against what even draws must be, rank correlations
//! against a published example and closed forms, and the answer against the draws.

use std::collections::HashSet;

use footroom_core::assess::{Assessment, assess};
use footroom_core::case::{Case, Tolerances};
use footroom_core::demo::demo;
use footroom_core::draws::{DRAWS, Draws, Fall, beyond, rank_correlation};
use footroom_core::solve::Options;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{RngSeed, TestRunner};
use support::figures::{self, Figure};
use support::generate;
use support::tolerance::{
    DRAWS_ALONE_BEYOND_RATIO, DRAWS_CREW_BEYOND_RATIO, DRAWS_CREW_BEYOND_SIDES_RATIO,
    DRAWS_MOMENT_DEVIATIONS, DRAWS_SHARE_ATOL,
};

fn draws(case: &Case, seed: u32) -> Draws {
    Draws::new(case, seed).expect("a case without faults")
}

/// Values of an input over all draws, as parts of its range, 0 to 1.
fn parts(draws: &Draws, place: usize) -> Vec<f64> {
    let it = draws.drawn()[place];
    (0..DRAWS)
        .map(|draw| (draws.value(place, draw) - it.low) / (it.high - it.low))
        .collect()
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// Mean 1/2, variance 1/12, fourth central moment 1/80 of an even distribution over 0 to 1; their
/// standard deviations over n draws follow from the moments: √(1/12n), √((1/80 − 1/144)/n).
///
/// Source: any handbook of probability, for example M. G. Kendall, A. Stuart, The Advanced Theory of
/// Statistics, vol. 1, 10.5 (sampling moments of moments), from memory; integrated by hand here.
#[test]
fn draws_have_the_moments_of_an_even_distribution() {
    let n = f64::from(DRAWS);
    let (mut all, mut pairs) = (0, 0);
    for seed in 0..20 {
        let draws = draws(&demo(), seed);
        let inputs: Vec<Vec<f64>> = (0..draws.drawn().len()).map(|i| parts(&draws, i)).collect();
        for (i, values) in inputs.iter().enumerate() {
            all += 1;
            assert!(values.iter().all(|v| (0.0..=1.0).contains(v)));
            let middle = mean(values);
            let variance = mean(&values.iter().map(|v| (v - 0.5).powi(2)).collect::<Vec<_>>());
            let off = (middle - 0.5) / (1.0 / 12.0 / n).sqrt();
            assert!(
                off.abs() < DRAWS_MOMENT_DEVIATIONS,
                "{seed} {i}: mean {middle}"
            );
            let off = (variance - 1.0 / 12.0) / ((1.0 / 80.0 - 1.0 / 144.0) / n).sqrt();
            assert!(
                off.abs() < DRAWS_MOMENT_DEVIATIONS,
                "{seed} {i}: variance {variance}"
            );
            // Independent ranks: standard deviation 1/√(n − 1).
            for other in &inputs[..i] {
                pairs += 1;
                let off = rank_correlation(values, other) * (n - 1.0).sqrt();
                assert!(off.abs() < DRAWS_MOMENT_DEVIATIONS, "{seed} {i}: {off}");
            }
        }
    }
    assert!(all >= 200 && pairs >= 900, "{all} {pairs}");
}

/// Nine tins of tuna: Hunter L values and a panel's scores. S = Σd² = 48, so ρ = 1 − 6·48/(9·80) = 0.6.
///
/// Source: M. Hollander, D. A. Wolfe, Nonparametric Statistical Methods, 1973, p. 187 f.; the values and
/// S as printed with the example of R's `cor.test`, from memory; ranks and S worked out by hand.
#[test]
fn the_rank_correlation_is_that_of_a_published_example() {
    let lightness = [44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1];
    let score = [2.6, 3.1, 2.5, 5.0, 3.6, 4.0, 5.2, 2.8, 3.8];
    assert!((rank_correlation(&lightness, &score) - 0.6).abs() < 1.0e-12);
}

/// Without equal values Spearman's is 1 − 6 Σd²/(n (n² − 1)), whatever the order; with equal ones it is
/// the correlation of their shared ranks: of (1, 2, 2, 3) and (1, 3, 2, 4) it is 3/√10 by hand.
#[test]
fn the_rank_correlation_has_its_closed_form() {
    let shared = rank_correlation(&[1.0, 2.0, 2.0, 3.0], &[1.0, 3.0, 2.0, 4.0]);
    assert!((shared - 3.0 / 10.0_f64.sqrt()).abs() < 1.0e-12, "{shared}");
    let draws = draws(&demo(), 9);
    for (a, b) in [(0, 1), (2, 3), (4, 5)] {
        let (a, b) = (parts(&draws, a), parts(&draws, b));
        // A rank by counting, by another way than sorting.
        let rank = |of: &[f64], v: f64| of.iter().filter(|o| **o <= v).count() as f64;
        let n = a.len() as f64;
        let squares: f64 = (a.iter().zip(&b))
            .map(|(x, y)| (rank(&a, *x) - rank(&b, *y)).powi(2))
            .sum();
        let closed = 1.0 - 6.0 * squares / (n * (n * n - 1.0));
        assert!((rank_correlation(&a, &b) - closed).abs() < 1.0e-12);
    }
}

/// A footroom that is a sum of the inputs' parts, each with a weight: the square of each correlation
/// is its weight's square over the sum of all. That holds of values; of ranks it is 0.664, 0.271, 0.065
/// instead of 9/14, 4/14, 1/14 by 400,000 draws of another generator (Mersenne twister, ranks by
/// another program's sort), a difference that the tolerance holds beside that of chance.
#[test]
fn shares_of_a_linear_footroom_are_those_of_the_closed_form() {
    let case = demo();
    for seed in [1, 2, 3] {
        let draws = draws(&case, seed);
        let count = draws.drawn().len();
        let inputs: Vec<Vec<f64>> = (0..count).map(|i| parts(&draws, i)).collect();
        let weight = |i: usize| match i {
            0 => 3.0,
            1 => -2.0,
            2 => 1.0,
            _ => 0.0,
        };
        let falls: Vec<Fall> = (0..DRAWS as usize)
            .map(|draw| Fall {
                footroom_m: (0..count).map(|i| weight(i) * inputs[i][draw]).sum(),
                tension_max_n: inputs[3][draw].exp(),
                unknown: None,
            })
            .collect();
        let told = draws.told(&falls);
        let all: f64 = (0..count).map(|i| weight(i).powi(2)).sum();
        for (i, it) in told.on_footroom.iter().enumerate() {
            let closed = weight(i).powi(2) / all;
            assert!(
                (it.share - closed).abs() < 0.05,
                "{i}: {} {closed}",
                it.share
            );
            assert!(
                (it.explained - closed).abs() < DRAWS_SHARE_ATOL,
                "{i}: {it:?}"
            );
            let signs = it.rank_correlation * weight(i) > 0.0;
            assert!(signs || weight(i) == 0.0, "{i}: {it:?}");
        }
        // Any growing function of one input is explained by it alone.
        assert!((told.on_tension[3].rank_correlation - 1.0).abs() < 1.0e-12);
        assert!(told.on_tension[3].share > 0.97, "{:?}", told.on_tension[3]);
    }
}

/// Footroom falls with mass and the tension grows with it; a weaker absorber takes footroom. Of one who
/// falls alone, so that nothing but his own inputs counts.
#[test]
fn influences_have_the_signs_of_physics() {
    let mut case = demo();
    case.workers.truncate(1);
    let draws = draws(&case, 1);
    let told = draws.told(&draws.falls(0..200));
    let place = |of: &str| {
        let mut names = draws.drawn().iter().map(|d| format!("{:?}", d.input));
        names.position(|n| n.starts_with(of)).expect(of)
    };
    let (mass, force) = (place("Mass"), place("AbsorberForce"));
    assert!(told.on_footroom[mass].rank_correlation < -0.2, "{told:?}");
    assert!(told.on_footroom[force].rank_correlation > 0.5, "{told:?}");
    assert!(told.on_tension[force].rank_correlation > 0.5, "{told:?}");
    let explained: f64 = told.on_footroom.iter().map(|it| it.explained).sum();
    assert!((0.9..1.1).contains(&explained), "{explained}");
}

/// How often a draw is worse than what it is held against.
#[derive(Default, Debug)]
struct Beyond {
    draws: usize,
    footroom: usize,
    tension: usize,
    sides_footroom: usize,
    sides_tension: usize,
}

impl Beyond {
    fn add(&mut self, case: &Case, answer: &Assessment, falls: &[Fall]) {
        let found = beyond(case, answer, falls);
        self.draws += falls.iter().filter(|f| f.unknown.is_none()).count();
        self.footroom += found.footroom;
        self.tension += found.tension;
        self.sides_footroom += found.sides_footroom;
        self.sides_tension += found.sides_tension;
    }

    fn worst_ratio(&self) -> f64 {
        self.footroom.max(self.tension) as f64 / self.draws as f64
    }
}

/// The answer encloses nearly all draws of random cases: all of those of one who falls alone, and of
/// crews, whose bounces hang on single kilograms, all but a few.
#[test]
fn the_answer_encloses_nearly_all_draws_of_random_cases() {
    const CASES: usize = 60;
    const EACH: u32 = 40;
    let mut runner = TestRunner::new(ProptestConfig {
        rng_seed: RngSeed::Fixed(20),
        ..ProptestConfig::default()
    });
    let (mut alone, mut crews) = (Beyond::default(), Beyond::default());
    let mut made = 0;
    while made < CASES {
        let tree = generate::typical(3).new_tree(&mut runner);
        let mut case = tree.expect("a strategy without filters").current();
        case.tolerances = Tolerances::default();
        let answer = assess(&case, Options::default()).expect("no fault");
        if answer.answer().is_err() {
            continue;
        }
        made += 1;
        let falls = draws(&case, made as u32).falls(0..EACH);
        let falling = case.workers.iter().filter(|w| w.fall_time_s.is_some());
        let of = if falling.count() == 1 {
            &mut alone
        } else {
            &mut crews
        };
        of.add(&case, &answer, &falls);
    }
    println!("alone: {alone:?}\ncrews: {crews:?}");
    assert!(
        alone.draws > 300 && crews.draws > 800,
        "{alone:?} {crews:?}"
    );
    assert!(alone.worst_ratio() <= DRAWS_ALONE_BEYOND_RATIO, "{alone:?}");
    assert!(crews.worst_ratio() <= DRAWS_CREW_BEYOND_RATIO, "{crews:?}");
    let sides = crews.sides_footroom.max(crews.sides_tension) as f64;
    let most = DRAWS_CREW_BEYOND_SIDES_RATIO * crews.draws as f64;
    assert!(sides <= most, "{crews:?}");
    assert_eq!((alone.sides_footroom, alone.sides_tension), (0, 0));
    let worse = |of: [usize; 4]| {
        let worse: usize = of.iter().sum();
        format!("{worse} of {}", alone.draws + crews.draws)
    };
    // Each draw is counted once for footroom and once for tension.
    let answer = worse([alone.footroom, alone.tension, crews.footroom, crews.tension]);
    figures::hold(Figure::DrawsAnswer, &answer);
    let sides = worse([0, 0, crews.sides_footroom, crews.sides_tension]);
    figures::hold(Figure::DrawsSides, &sides);
}

/// The demonstration: the answer lies beyond every draw, and the draws do not lie all in one place.
#[test]
fn the_answer_of_the_demonstration_lies_beyond_its_draws() {
    let case = demo();
    let answer = assess(&case, Options::default()).expect("no fault");
    let draws = draws(&case, 1);
    let falls = draws.falls(0..DRAWS);
    let told = draws.told(&falls);
    let found = beyond(&case, &answer, &falls);
    println!(
        "{told:#?}\n{found:?}\n{} {}",
        answer.footroom.value, answer.tension_max.value
    );
    assert_eq!((found.footroom, found.tension, told.unknown), (0, 0, 0));
    let spread = told.footroom_m.expect("known");
    assert!(spread.greatest - spread.least > 0.1, "{spread:?}");
    assert!(spread.least < spread.low && spread.low < spread.middle);
    assert!(spread.middle < spread.high && spread.high < spread.greatest);
    let bits = falls.iter().map(|f| f.footroom_m.to_bits());
    assert!(bits.collect::<HashSet<u64>>().len() > 900);
}
