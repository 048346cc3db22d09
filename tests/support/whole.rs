//! Everything that is told about a fixed set of cases, to the last digit, as one number a piece: the
//! outcome with its traces, the answer with its checks, set-up figures, causes, searches and
//! suggestions. Included by `tests/whole.rs`.

use std::fmt::Debug;

use footroom_core::anywhere::{Looking, answer_mark};
use footroom_core::assess::assess;
use footroom_core::case::{
    Absorber, BelowKind, Case, CrewMoves, EndPost, GearKind, InlinePlace, Tieback,
};
use footroom_core::check::Tally;
use footroom_core::constants::POUND_FORCE_N;
use footroom_core::corner::Corner;
use footroom_core::curve::Points;
use footroom_core::draws::{Draws, beyond};
use footroom_core::envelope::envelope;
use footroom_core::fit::ask::{QUESTIONS, ask};
use footroom_core::fit::layout::{Places, at_worst_place, with_posts, with_span, with_users};
use footroom_core::fit::map::{Map, MapSpec, Rows};
use footroom_core::fit::suggest::suggest;
use footroom_core::fit::{Effort, Limits, find, row};
use footroom_core::found::{Depth, Measured, as_found};
use footroom_core::group::{Search, What, delay_max_s, spacing_m};
use footroom_core::limits::{OwnLimit, OwnQuantity};
use footroom_core::line::{PointLoad, hang};
use footroom_core::points::Peak;
use footroom_core::setup::{
    Plan, SwingReading, WeightReading, set_up, tension_at_temperature, tension_from_deflection,
    tension_from_swings,
};
use footroom_core::solve::{Options, solve};
use footroom_core::why::{Asked, Follow, users, why};

use crate::corpus;

/// The kinds of pieces, with how many there are of each.
pub const PIECES: [(&str, u64); 11] = [
    ("solved", 96),
    ("assessed", 24),
    ("hung", 48),
    ("set up", 32),
    ("as found", 12),
    ("why", 6),
    ("group", 4),
    ("draws", 2),
    ("anywhere", 2),
    ("fit", 4),
    ("suggest", 2),
];

/// All of a piece in one number.
pub fn piece(kind: &str, number: u64) -> u64 {
    match kind {
        "solved" => {
            let refine = if number % 16 == 15 { 2 } else { 1 };
            let options = Options {
                traces: number.is_multiple_of(2),
                refine,
            };
            sum(&solve(&rich(number), options))
        }
        "assessed" => assessed(&rich(number)),
        "hung" => hung(number),
        "set up" => sum(&made_up(number)),
        "as found" => found(number),
        "why" => causes(number),
        "group" => group(number),
        "draws" => drawn(number),
        "anywhere" => {
            let mut case = short(number);
            case.crew_moves = [CrewMoves::KeepingDistances, CrewMoves::Freely][number as usize % 2];
            let looking = Looking::new(&case).map(|l| l.finish());
            sum(&looking.map(|a| (a.mark(), a.footroom_m(), a.weakest(), format!("{a:?}"))))
        }
        "fit" => fit(number),
        "suggest" => {
            let mut case = short(2 * number);
            case.site.below[0].height_m += 3.0;
            sum(&suggest(
                &case,
                [Limits::KeepMet, Limits::All][number as usize % 2],
            ))
        }
        _ => panic!("no such piece: {kind}"),
    }
}

/// What is printed of it, by the hash FNV-1a (Fowler, Noll, Vo) of 64 bits.
fn sum(told: &impl Debug) -> u64 {
    format!("{told:?}")
        .bytes()
        .fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
        })
}

/// A case of the corpus with all that the corpus leaves out, by turns.
pub fn rich(number: u64) -> Case {
    let mut case = corpus::case(number);
    let turn = |every: u64| (number / every) as usize;
    let part = (number % 7) as f64 / 7.0;
    for (i, worker) in case.workers.iter_mut().enumerate() {
        worker.harness_stretch_m = 0.1 * part;
        worker.offset_along_m = 0.4 * part;
        worker.edge_distance_m = 0.3 * part;
        worker.dring_height_m = 1.3 + 0.2 * part;
        if i > 0 && number % 5 == 1 {
            worker.fall_time_s = None;
        }
        if number % 6 == 2 {
            worker.gear.free_fall_m = Some(0.4 + part);
        }
        let Some(absorber) = &mut worker.gear.absorber else {
            continue;
        };
        match (number as usize + i) % 4 {
            1 => {
                absorber.peak = Some(Peak {
                    force_n: 1.4 * absorber.average_force_n,
                    ..Peak::default()
                });
            }
            2 => {
                absorber.curve_extension_m = Points::of(&[0.0, 0.3, 0.3, 0.9, 1.4]);
                absorber.curve_force_n = Points::of(&[2.0e3, 4.5e3, 3.2e3, 3.8e3, 4.4e3]);
            }
            3 => {
                *absorber = Absorber {
                    maximum_force_n: Some(1.2 * absorber.average_force_n),
                    ..*absorber
                };
            }
            _ => {}
        }
    }
    if let Some(inline) = &mut case.line.inline_absorber {
        inline.place = [InlinePlace::Left, InlinePlace::Right, InlinePlace::Both][turn(1) % 3];
    }
    if number % 4 == 1 {
        case.posts.left = Some(EndPost {
            tieback: Some(Tieback::default()),
            ..EndPost::default()
        });
        case.line.left_end_stiffness_n_per_m = None;
    }
    let length_m = case.line.length_m();
    let mut second = case.site.below[0];
    second.kind = [BelowKind::Vehicle, BelowKind::Stack][turn(2) % 2];
    second.from_m = 0.3 * length_m;
    second.to_m = 0.6 * length_m;
    second.height_m = 2.0 * part;
    case.site.below.push(second);
    case.site.beam_top_m += 3.0 * part;
    case.temperature.today_k = case.temperature.installed_k - 20.0 + 40.0 * part;
    if number % 3 == 1 {
        case.motion.damping_s = 1.0e-4 * part;
    }
    if number % 2 == 1 {
        case.strengths.end_anchorage_n = Some(22.0e3);
        case.strengths.post_moment_n_m = Some(30.0e3);
        case.strengths.post_compression_n = Some(60.0e3);
        case.strengths.tieback_n = Some(40.0e3);
        case.strengths.tieback_anchorage_n = Some(30.0e3);
        case.strengths.intermediate_post_n = Some(12.0e3);
        case.strengths.intermediate_post_along_n = Some(6.0e3);
        case.strengths.lanyard_n = Some(22.0e3);
        case.strengths.self_retracting_n = Some(13.0e3);
        case.own_limits.push(OwnLimit {
            label: "Own".to_string(),
            quantity: OwnQuantity::ArrestForce,
            limit: 5.0e3,
            reference: "invented".to_string(),
        });
    }
    case
}

/// One of these with two workers at the most and a short history: for what solves it many times.
fn short(number: u64) -> Case {
    let mut case = rich(number);
    case.workers.truncate(2);
    case.workers[0].fall_time_s = Some(0.0);
    case.motion.duration_s = 0.9;
    case.line.inline_absorber = None;
    case
}

fn assessed(case: &Case) -> u64 {
    let options = Options::default();
    let Ok(answer) = assess(case, options) else {
        return 0;
    };
    let checks = answer.checks(case);
    let standing = answer.standing(case);
    sum(&(
        (&answer, answer.answer(), answer.decisive_doubt()),
        (&checks, Tally::of(&checks), answer_mark(&standing, None)),
        (
            &standing,
            standing.room_mark(),
            standing.strength_mark(),
            standing.mark(),
        ),
        envelope(case).is_ok(),
    ))
}

fn hung(number: u64) -> u64 {
    let case = rich(number);
    let length_m = case.line.length_m();
    let loads: Vec<PointLoad> = (0..number % 4)
        .map(|i| PointLoad {
            position_m: length_m * (0.13 + 0.29 * i as f64),
            force_n: 400.0 + 2_300.0 * i as f64,
        })
        .collect();
    sum(&hang(&case.line, &loads))
}

fn made_up(number: u64) -> impl Debug {
    let case = rich(number);
    let line = case.line.clone();
    let plan = Plan {
        span: (number.is_multiple_of(3)).then_some(0),
        fittings_m: 0.1 * (number % 3) as f64,
        weight_n: 60.0 + 20.0 * number as f64,
        swings: 3 + number as u32,
        ..Plan::default()
    };
    let weight = WeightReading {
        weight_n: 50.0 * POUND_FORCE_N,
        movement_m: 0.05 + 0.01 * number as f64,
        span: 0,
        reading_error_m: 0.004,
    };
    let swings = SwingReading {
        time_s: 1.0 + 0.2 * number as f64,
        span: 0,
        swings: 9,
        timing_error_s: 0.3,
    };
    (
        set_up(&case, &plan),
        tension_from_deflection(&line, &weight),
        tension_from_swings(&line, &swings),
        tension_at_temperature(&line, 288.15, 268.15 + number as f64),
    )
}

fn found(number: u64) -> u64 {
    let case = rich(number);
    let measured = Measured {
        tension_n: (number.is_multiple_of(2)).then_some(0.8 * case.line.pretension_n),
        tension_error_ratio: (number.is_multiple_of(3)).then_some(0.07),
        temperature_k: (number % 3 == 1).then_some(281.0),
        height_above_beam_m: Some(1.1),
        depth: (number % 4 == 2).then_some(Depth {
            worker: 0,
            depth_m: 4.0,
        }),
    };
    sum(&as_found(&case, &measured))
}

fn causes(number: u64) -> u64 {
    let from = short(number);
    let mut to = short(number);
    to.line.pretension_n *= 1.3;
    to.workers[0].mass_kg += 20.0;
    to.workers[0].gear.length_m += 0.2;
    to.site.below[0].height_m += 0.4;
    to.line.spans_m[0] += 1.0;
    if number.is_multiple_of(2) {
        to.workers[0].gear.kind = GearKind::SelfRetracting;
    }
    let asked = Asked {
        follow: [Follow::Governing, Follow::Same, Follow::One { worker: 0 }][number as usize % 3],
        corner: Corner::Nominal,
    };
    sum(&(why(&from, &to, asked), users(&to, Corner::Nominal)))
}

fn group(number: u64) -> u64 {
    let case = short(number + 1);
    let what = if number.is_multiple_of(2) {
        What::Timing
    } else {
        What::Places { spacing_m: 1.5 }
    };
    sum(&(
        Search::new(&case, what).map(Search::finish),
        delay_max_s(&case),
        spacing_m(&case, 3.0),
    ))
}

fn drawn(number: u64) -> u64 {
    let case = short(number);
    let answer = assess(&case, Options::default());
    let draws = Draws::new(&case, 7);
    sum(&draws.map(|draws| {
        let falls = draws.falls(0..24);
        let beyond = answer.map(|answer| beyond(&case, &answer, &falls));
        (draws.told(&falls), beyond, falls)
    }))
}

fn fit(number: u64) -> u64 {
    let mut case = short(number);
    case.workers.truncate(1);
    case.site.below.clear();
    let map = Map::new(
        &case,
        MapSpec {
            users_max: 2,
            rows: [
                Rows::Posts { least: 0, most: 2 },
                Rows::Spans {
                    least_m: 5.0,
                    most_m: 9.0,
                    count: 3,
                },
            ][number as usize % 2],
            places: [Places::Worst, Places::Kept][number as usize / 2 % 2],
            effort: Effort::Corners,
        },
    )
    .map(|mut map| {
        while map.step() {}
        map
    });
    let question = QUESTIONS[(number + 3) as usize % QUESTIONS.len()];
    sum(&(
        map,
        ask(&case, question, Places::Kept, Limits::KeepMet),
        (find(&case, Effort::Full), row(&case)),
        (with_posts(&case, 2), with_span(&case, 6.0)),
        (with_users(&case, 3), at_worst_place(&case)),
    ))
}
