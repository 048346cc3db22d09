//! Random cases: `typical` ones as they occur on a job, `ranged` ones from the ends and the inside
//! of every declared range.

use footroom_core::case::{
    Absorber, Below, Case, Gear, GearKind, InlineAbsorber, InlinePlace, Line, Motion, Posts, Site,
    Tolerances, Worker,
};
use footroom_core::constants::{SAG_RATIO_MAX, SPANS_MAX, WORKERS_MAX};
use footroom_core::curve::{POINTS_MAX, Points};
use footroom_core::field::{self, FIELDS};
use footroom_core::rope::{CATALOGUE, Construction, Rope};
use proptest::prelude::*;

use crate::inputs;

/// A line as met on a job: 1 to 4 spans of 4 to 20 m, without in-line absorber.
pub fn typical_line() -> impl Strategy<Value = Line> {
    let stiffness = || prop::option::of(5.0e4..5.0e6);
    (
        prop::collection::vec(4.0..20.0, 1..=4),
        1.5e3..8.0e3,
        2.0e6..1.0e7,
        0.2..0.7,
        stiffness(),
        stiffness(),
    )
        .prop_map(|(spans_m, pretension_n, ea_n, mass, left, right)| Line {
            spans_m,
            pretension_n,
            rope: Rope {
                construction: Construction::Own,
                axial_stiffness_n: ea_n,
                mass_per_length_kg_per_m: mass,
                breaking_force_n: None,
                ..CATALOGUE[2].rope
            },
            left_end_stiffness_n_per_m: left,
            right_end_stiffness_n_per_m: right,
            ..Line::default()
        })
}

/// A worker as met on a job, his place as a part of the line's length, falling at 0.
pub fn typical_worker() -> impl Strategy<Value = (f64, Worker)> {
    (
        0.02..0.98,
        60.0..140.0,
        1.2..2.0,
        2.5e3..6.0e3,
        0.8..1.75,
        4.0e4..1.5e5,
    )
        .prop_map(|(part, mass_kg, length_m, force_n, extension_m, k)| {
            let worker = Worker {
                mass_kg,
                gear: Gear {
                    length_m,
                    stiffness_n_per_m: k,
                    absorber: Some(Absorber {
                        average_force_n: force_n,
                        maximum_force_n: None,
                        max_extension_m: extension_m,
                        locked_stiffness_n_per_m: k,
                        ..Absorber::default()
                    }),
                    ..Gear::default()
                },
                ..Worker::default()
            };
            (part, worker)
        })
}

/// A case as met on a job: a [`typical_line`], 1 to `workers_max` workers who fall at one instant.
pub fn typical(workers_max: usize) -> impl Strategy<Value = Case> {
    (
        typical_line(),
        prop::collection::vec(typical_worker(), 1..=workers_max),
    )
        .prop_map(|(line, crew)| {
            let length_m = line.length_m();
            let workers = crew
                .into_iter()
                .map(|(part, worker)| Worker {
                    position_m: part * length_m,
                    ..worker
                })
                .collect();
            Case {
                line,
                workers,
                site: Site {
                    beam_top_m: 20.0,
                    ..Site::default()
                },
                motion: Motion {
                    duration_s: 2.5,
                    ..Motion::default()
                },
                ..Case::default()
            }
        })
}

/// A crew of two to six on a [`typical_line`], every other one falling at one instant, the others
/// within 1.5 s; every other one without tolerances, the others with some on every input.
pub fn crew() -> impl Strategy<Value = Case> {
    (
        typical_line(),
        prop::collection::vec((typical_worker(), 0.0..1.5), 2..=WORKERS_MAX),
        any::<[bool; 2]>(),
    )
        .prop_map(|(line, crew, [together, exact])| {
            let length_m = line.length_m();
            let workers = crew
                .into_iter()
                .map(|((part, worker), time_s)| Worker {
                    position_m: part * length_m,
                    fall_time_s: Some(if together { 0.0 } else { time_s }),
                    ..worker
                })
                .collect();
            let ratio = |part| if exact { 0.0 } else { part };
            Case {
                line,
                workers,
                site: Site {
                    beam_top_m: 40.0,
                    ..Site::default()
                },
                tolerances: Tolerances {
                    mass_ratio: ratio(0.05),
                    absorber_force_ratio: ratio(0.15),
                    pretension_ratio: ratio(0.1),
                    axial_stiffness_ratio: ratio(0.1),
                    end_stiffness_ratio: ratio(0.25),
                    inline_force_ratio: ratio(0.1),
                },
                ..Case::default()
            }
        })
}

/// Differences within a crew that no site controls: instants up to 30 ms later, masses off by 1 %.
pub fn differences() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((0.0..0.03, 0.99..1.01), WORKERS_MAX)
}

/// The case with such differences.
pub fn differing(case: &Case, differences: &[(f64, f64)]) -> Case {
    let mut case = case.clone();
    for (worker, (late_s, mass_part)) in case.workers.iter_mut().zip(differences) {
        worker.fall_time_s = worker.fall_time_s.map(|s| s + late_s);
        worker.mass_kg *= mass_part;
    }
    case
}

/// A [`typical`] case with everything else that a case can have: delays, people who stay standing,
/// self-retracting lifelines, no absorber, an in-line absorber, things below.
pub fn varied() -> impl Strategy<Value = Case> {
    let person = (
        prop::option::weighted(0.8, 0.0..1.5),
        any::<bool>(),
        prop::option::weighted(0.8, Just(())),
        prop::option::weighted(0.2, 0.0..3.0),
    );
    let below = (0.0..60.0, 0.5..8.0, 0.0..15.0).prop_map(|(from_m, long_m, height_m)| Below {
        from_m,
        to_m: from_m + long_m,
        height_m,
        ..Below::default()
    });
    (
        typical(4),
        prop::collection::vec(person, 4),
        prop::option::of((8.0e3..2.0e4, 0.2..1.5, place())),
        prop::collection::vec(below, 0..4),
    )
        .prop_map(|(mut case, people, inline, below)| {
            for (worker, (fall, retracting, absorber, free_fall)) in
                case.workers.iter_mut().zip(people)
            {
                worker.fall_time_s = fall;
                worker.gear.free_fall_m = free_fall;
                if retracting {
                    worker.gear.kind = GearKind::SelfRetracting;
                }
                if absorber.is_none() {
                    worker.gear.absorber = None;
                }
            }
            // A case needs somebody who falls.
            case.workers[0].fall_time_s.get_or_insert(0.0);
            case.line.inline_absorber =
                inline.map(|(yield_force_n, max_extension_m, place)| InlineAbsorber {
                    yield_force_n,
                    max_extension_m,
                    place,
                });
            case.site.below = below;
            case
        })
}

/// Ends with an in-line absorber.
fn place() -> impl Strategy<Value = InlinePlace> {
    prop::sample::select(vec![
        InlinePlace::Left,
        InlinePlace::Right,
        InlinePlace::Both,
    ])
}

/// A value for the field: an end of its range, or between the ends, evenly by order of magnitude.
fn in_range(min: f64, max: f64) -> impl Strategy<Value = f64> {
    let inside = (0.0..1.0).prop_map(move |part: f64| {
        if min > 0.0 {
            (min * (max / min).powf(part)).clamp(min, max)
        } else {
            min + (max - min) * part
        }
    });
    prop_oneof![1 => Just(min), 1 => Just(max), 4 => inside]
}

/// A case with every numeric input drawn from its whole declared range, 1 to 12 spans, 1 to 6
/// workers. Not every combination is valid: what does not go together is a fault.
pub fn ranged() -> impl Strategy<Value = Case> {
    let names: Vec<&'static str> = FIELDS
        .iter()
        .map(|f| f.name)
        .filter(|name| !name.starts_with("point_loads"))
        .collect();
    let one: Vec<_> = FIELDS
        .iter()
        .filter(|f| !f.name.starts_with("point_loads"))
        .map(|f| in_range(f.min, f.max).boxed())
        .collect();
    let spans = FIELDS
        .iter()
        .find(|f| f.name == "line.spans_m")
        .expect("spans have a range");
    (
        one,
        prop::collection::vec(in_range(spans.min, spans.max), 1..=SPANS_MAX),
        prop::collection::vec((0.0..=1.0, prop::option::of(0.0..5.0)), 1..=WORKERS_MAX),
        any::<[bool; 6]>(),
        place(),
        prop::bool::weighted(0.8),
        0..4,
        prop::collection::vec((0.0..=1.0, 0.0..=1.0), 2..=POINTS_MAX),
    )
        .prop_map(
            move |(values, spans_m, crew, has, place, tidy, shape, points)| {
                let mut case = Case {
                    workers: vec![Worker::default()],
                    site: Site {
                        below: vec![Below::default()],
                        ..Site::default()
                    },
                    ..Case::default()
                };
                for (name, value) in names.iter().zip(&values) {
                    assert!(inputs::set(&mut case, name, *value), "{name}");
                }
                case.line.spans_m = spans_m;
                let length_m = case.line.length_m();
                let model = case.workers[0];
                case.workers = crew
                    .iter()
                    .map(|&(part, fall_time_s)| Worker {
                        position_m: part * length_m,
                        fall_time_s,
                        ..model
                    })
                    .collect();
                case.workers[0].fall_time_s = model.fall_time_s;
                if let Some(inline) = &mut case.line.inline_absorber {
                    inline.place = place;
                }
                if has[0] {
                    case.line.inline_absorber = None;
                }
                if has[1] {
                    case.line.left_end_stiffness_n_per_m = None;
                    case.line.right_end_stiffness_n_per_m = None;
                    case.posts = Posts::default();
                }
                for worker in &mut case.workers {
                    if has[2] {
                        worker.gear.free_fall_m = None;
                    }
                    if has[3] {
                        worker.gear.absorber = None;
                    }
                    if has[4] {
                        worker.gear.kind = GearKind::SelfRetracting;
                    }
                    if let Some(absorber) = &mut worker.gear.absorber {
                        // A peak was drawn for all.
                        if shape != 1 {
                            absorber.peak = None;
                        }
                        if shape == 2 {
                            put_curve(absorber, &points, tidy);
                        }
                    }
                }
                if has[5] {
                    case.site.below.clear();
                }
                if tidy {
                    reconcile(&mut case);
                }
                case
            },
        )
}

/// A curve through points drawn as parts of what it may have: forces with steps up and down of any
/// steepness, extensions in order where they shall be.
fn put_curve(absorber: &mut Absorber, points: &[(f64, f64)], tidy: bool) {
    let [extension, force] = field::CURVE else {
        panic!("a curve has two numbers a point");
    };
    let forces_n = points
        .iter()
        .map(|p| force.min + p.1 * (force.max - force.min));
    absorber.curve_force_n = Points::of(&forces_n.collect::<Vec<_>>());
    let mut parts: Vec<f64> = points.iter().map(|p| p.0).collect();
    if tidy {
        parts.sort_by(f64::total_cmp);
        parts[0] = 0.0;
    }
    let mut extensions_m: Vec<f64> = parts.iter().map(|part| part * extension.max).collect();
    if tidy && let Some(last) = extensions_m.last_mut() {
        *last = last.max(0.05);
    }
    absorber.curve_extension_m = Points::of(&extensions_m);
}

/// Brings the inputs that depend on each other into order, so that most drawn cases are valid.
fn reconcile(case: &mut Case) {
    for below in &mut case.site.below {
        below.to_m = below.to_m.max(below.from_m);
        below.height_m = below.height_m.min(case.site.beam_top_m);
    }
    let line = &mut case.line;
    let longest_m = line.spans_m.iter().copied().fold(0.0, f64::max);
    let taut_n = line.weight_n_per_m() * longest_m / (8.0 * SAG_RATIO_MAX);
    line.pretension_n = line.pretension_n.max(1.001 * taut_n);
    if let Some(breaking_n) = &mut line.rope.breaking_force_n {
        *breaking_n = breaking_n.max(line.pretension_n);
    }
    if let Some(inline) = &mut line.inline_absorber {
        inline.yield_force_n = inline.yield_force_n.max(line.pretension_n);
    }
    let line = case.line.clone();
    for worker in &mut case.workers {
        if let Some(absorber) = &mut worker.gear.absorber
            && let Some(maximum_n) = &mut absorber.maximum_force_n
        {
            *maximum_n = maximum_n.max(absorber.average_force_n);
        }
        if let Some(absorber) = &mut worker.gear.absorber
            && let Some(peak) = &mut absorber.peak
        {
            let (average_n, most_m) = (absorber.average_force_n, absorber.max_extension_m);
            peak.force_n = peak.force_n.max(average_n);
            let over_m = average_n * most_m / (peak.force_n - 0.5 * average_n);
            peak.over_m = peak.over_m.min(0.999 * over_m.min(most_m));
        }
        worker.gear.length_m = worker.gear.length_m.max(worker.line_above_dring_m(&line));
    }
}
