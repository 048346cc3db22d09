//! Standing away from the connector: how far the gear lets a worker stand, how far down he swings,
//! and whether the gear bears on the edge of the beam.
//!
//! Plane geometry of a taut length about the connector, no source. The motion, the forces and the
//! stack are those of a fall straight below the connector: nothing here is part of them, and what
//! an edge or a swing does to gear and people is not computed.

use crate::case::{GearKind, Line, Worker};
use crate::maths::sqrt;
use crate::outcome::{Stack, Swing};

fn hypotenuse(a: f64, b: f64) -> f64 {
    sqrt(a * a + b * b)
}

/// The other side of a right-angled triangle; 0 where there is none.
fn other_side(hypotenuse: f64, side: f64) -> f64 {
    sqrt((hypotenuse * hypotenuse - side * side).max(0.0))
}

/// How far from his connector a worker can stand upright, level, m: √(L² − v²), with L the length
/// of his lanyard and v the way from the line at rest down to his D-ring; 0 where the lanyard is
/// shorter than that way. `None`: a self-retracting lifeline pays out as far as he goes.
///
/// Geometry, no source.
pub(crate) fn standing_reach_m(worker: &Worker, line: &Line) -> Option<f64> {
    match worker.gear.kind {
        GearKind::Lanyard => Some(other_side(
            worker.gear.length_m,
            worker.line_above_dring_m(line),
        )),
        GearKind::SelfRetracting => None,
    }
}

/// What standing away from the connector brings to a worker who falls with this stack; `None`: he
/// stands right below it, or stays standing.
///
/// Geometry, no source. With o = √(along² + edge²) the offset, v the way from the line down to the
/// D-ring, f the free fall and h the connector's height above the beam top at the lowest point:
///
/// - Taut length r: stretch plus the unstretched length, which for a self-retracting lifeline is
///   what it has paid out, √(v² + o²) + f with v not below 0 and f from where the D-ring is at the
///   line's level or below it, and for a lanyard is its length, but with a given free
///   fall no more than √((v + f)² + o²), where the fall makes it taut.
/// - Height swung through: r − √(r² − o²), all of r where o is more.
/// - The gear bears on the edge once it is longer than the way there, √(h² + edge²). Unfolded over
///   the edge it is straight, so that it slides along the edge by along·√(h² + edge²)/√(r² − along²).
pub(crate) fn swing(worker: &Worker, line: &Line, stack: &Stack) -> Option<Swing> {
    let (along, across) = (worker.offset_along_m, worker.edge_distance_m);
    let offset_m = hypotenuse(along, across);
    if offset_m == 0.0 || worker.fall_time_s.is_none() {
        return None;
    }
    let below_stack_m = below_stack_m(worker, line, offset_m);
    let taut_m = stack.lanyard_m + below_stack_m + stack.absorber_extension_m;
    let connector_m = line.height_above_beam_m - stack.line_deflection_m;
    let to_edge_m = hypotenuse(connector_m.max(0.0), across);
    let edge_contact = across > 0.0 && taut_m > to_edge_m;
    // Where the offset is more than the taut length he is pulled along all of the edge.
    let part = if taut_m > along.abs() {
        (to_edge_m / other_side(taut_m, along)).min(1.0)
    } else {
        1.0
    };
    Some(Swing {
        offset_m,
        beyond_reach: standing_reach_m(worker, line).is_some_and(|reach| offset_m > reach),
        taut_length_m: taut_m,
        drop_m: taut_m - other_side(taut_m, offset_m),
        below_stack_m,
        edge_contact,
        edge_slide_m: if edge_contact {
            along.abs() * part
        } else {
            0.0
        },
        line_on_edge: across > 0.0 && connector_m <= 0.0,
    })
}

/// By how much the unstretched gear is longer than the stack's, which is that of a fall straight
/// below the connector, m.
fn below_stack_m(worker: &Worker, line: &Line, offset_m: f64) -> f64 {
    let straight_m = worker.taut_m(line);
    match worker.gear.kind {
        // A D-ring above the line comes down to it first: then the way to the side is paid out.
        GearKind::SelfRetracting => {
            let way_m = worker.line_above_dring_m(line).max(0.0);
            hypotenuse(way_m, offset_m) - way_m
        }
        // Exactly: the sum above may miss the length by a rounding.
        GearKind::Lanyard if worker.gear.free_fall_m.is_none() => 0.0,
        GearKind::Lanyard => {
            worker
                .gear
                .length_m
                .min(hypotenuse(straight_m, offset_m))
                .max(straight_m)
                - straight_m
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{Case, Gear};
    use crate::solve::{Doubt, Options, Outcome, solve};

    const CLOSE_M: f64 = 1.0e-9;

    fn case(along_m: f64, across_m: f64, kind: GearKind) -> Case {
        Case {
            workers: alloc::vec![Worker {
                offset_along_m: along_m,
                edge_distance_m: across_m,
                gear: Gear {
                    kind,
                    ..Gear::default()
                },
                ..Worker::default()
            }],
            ..Case::default()
        }
    }

    fn solved(case: &Case) -> Outcome {
        solve(case, Options::default()).expect("a case without faults")
    }

    fn swing_of(case: &Case) -> Swing {
        solved(case).workers[0].swing.expect("a swing")
    }

    fn close(a: f64, b: f64) -> bool {
        (a - b).abs() <= CLOSE_M
    }

    #[test]
    fn right_below_the_connector_there_is_no_swing() {
        for kind in [GearKind::Lanyard, GearKind::SelfRetracting] {
            assert_eq!(solved(&case(0.0, 0.0, kind)).workers[0].swing, None);
        }
        let mut case = case(1.0, 0.5, GearKind::Lanyard);
        case.workers.push(Worker::default());
        case.workers[0].fall_time_s = None;
        assert_eq!(solved(&case).workers[0].swing, None);
    }

    #[test]
    fn a_small_offset_makes_a_small_swing() {
        for kind in [GearKind::Lanyard, GearKind::SelfRetracting] {
            for (along, across) in [(1.0e-3, 0.0), (-1.0e-3, 0.0), (0.0, 1.0e-3)] {
                let swing = swing_of(&case(along, across, kind));
                // o²/(2 r), and what the lifeline pays out, at most o.
                assert!(swing.drop_m > 0.0 && swing.drop_m < 1.0e-6, "{swing:?}");
                assert!(swing.below_stack_m <= 1.0e-3 && swing.edge_slide_m <= 1.0e-3);
                assert!(!swing.beyond_reach && !swing.line_on_edge);
            }
        }
    }

    /// The height of a swing against the way of the pendulum's bob, added up arc by arc.
    #[test]
    fn the_drop_is_that_of_a_pendulum() {
        for (along, across) in [(0.4, 0.0), (-1.2, 0.3), (0.9, 1.5), (0.0, 0.7)] {
            let swing = swing_of(&case(along, across, GearKind::Lanyard));
            let r = swing.taut_length_m;
            // From the bottom up, in steps of the arc, until the bob is the offset to one side.
            let arc_m = 1.0e-6 * r;
            let (mut x, mut height) = (0.0_f64, 0.0_f64);
            while x < swing.offset_m {
                let angle_sine = x / r;
                let cosine = sqrt(1.0 - angle_sine * angle_sine);
                x += arc_m * cosine;
                height += arc_m * angle_sine;
            }
            assert!((height - swing.drop_m).abs() < 1.0e-5, "{swing:?} {height}");
        }
    }

    /// Gear over an edge against the shortest way over it, searched among all places on the edge.
    #[test]
    fn the_gear_over_the_edge_is_the_shortest_way() {
        for (along, across) in [(0.8, 0.4), (-1.3, 1.1), (0.2, 2.0)] {
            let case = case(along, across, GearKind::Lanyard);
            let worker = &solved(&case).workers[0];
            let swing = worker.swing.expect("a swing");
            assert!(swing.edge_contact, "{swing:?}");
            let connector = case.line.height_above_beam_m - worker.stack.line_deflection_m;
            // Shortest way from the connector over the edge to the D-ring hanging `below` it, beside
            // by `along`: its length and where it crosses the edge, m beside the connector.
            let shortest = |below: f64| {
                let mut best = (f64::INFINITY, 0.0);
                for i in 0..=20_000 {
                    let p = along * f64::from(i) / 20_000.0;
                    let up = sqrt(p * p + across * across + connector * connector);
                    let way = up + hypotenuse(along - p, below);
                    if way < best.0 {
                        best = (way, p);
                    }
                }
                best
            };
            let (mut low, mut high) = (0.0, swing.taut_length_m);
            for _ in 0..60 {
                let below = 0.5 * (low + high);
                if shortest(below).0 < swing.taut_length_m {
                    low = below;
                } else {
                    high = below;
                }
            }
            let crossing = shortest(low).1;
            assert!(
                (crossing.abs() - swing.edge_slide_m).abs() < 2.0e-4,
                "{crossing} {swing:?}"
            );
            // Over the edge he hangs higher at the end than the stack has him.
            let end = swing.taut_length_m - hypotenuse(connector, across);
            assert!(end <= worker.stack.required_m);
        }
    }

    #[test]
    fn at_the_end_of_his_reach_a_worker_falls_nothing_before_the_gear_is_taut() {
        let mut case = case(0.0, 0.0, GearKind::Lanyard);
        case.line.height_above_beam_m = 2.0;
        let worker = case.workers[0];
        let reach = standing_reach_m(&worker, &case.line).expect("a lanyard");
        let way = worker.line_above_dring_m(&case.line);
        assert!(way > 0.3 && close(hypotenuse(reach, way), worker.gear.length_m));
        assert_eq!(solved(&case).workers[0].standing_reach_m, Some(reach));
        case.workers[0].offset_along_m = reach - 0.01;
        assert!(!swing_of(&case).beyond_reach);
        case.workers[0].offset_along_m = reach + 0.01;
        assert!(swing_of(&case).beyond_reach);
        case.workers[0].gear.kind = GearKind::SelfRetracting;
        assert!(!swing_of(&case).beyond_reach);
        assert_eq!(solved(&case).workers[0].standing_reach_m, None);
        // A lanyard that does not reach down to him at all, his free fall being given.
        let mut short = case.workers[0];
        short.gear.kind = GearKind::Lanyard;
        short.gear.length_m = 0.2;
        assert_eq!(standing_reach_m(&short, &case.line), Some(0.0));
    }

    /// A retracting lifeline has paid out the way to the side, which the stack does not count: that
    /// takes the number away. A lanyard does not grow.
    #[test]
    fn a_retracting_lifeline_swings_below_the_stack() {
        let mut aside = case(0.9, 0.0, GearKind::SelfRetracting);
        aside.line.height_above_beam_m = 2.0;
        let way = aside.workers[0].line_above_dring_m(&aside.line);
        let outcome = solved(&aside);
        let swing = outcome.workers[0].swing.expect("a swing");
        assert!(close(swing.below_stack_m, hypotenuse(way, 0.9) - way));
        let stack = outcome.workers[0].stack;
        assert!(close(
            swing.taut_length_m,
            hypotenuse(way, 0.9)
                + aside.workers[0].gear.lock_distance_m
                + stack.absorber_extension_m
        ));
        let told = |outcome: &Outcome| {
            outcome.doubts.iter().any(|d| {
                matches!(d, Doubt::SwingsBelowStack { worker: 0, below_stack_m }
                    if *below_stack_m > 0.0)
            })
        };
        assert!(told(&outcome));
        aside.workers[0].gear.kind = GearKind::Lanyard;
        aside.workers[0].gear.length_m = 1.8;
        let lanyard = solved(&aside);
        assert_eq!(
            lanyard.workers[0].swing.expect("a swing").below_stack_m,
            0.0
        );
        assert!(!told(&lanyard));
        // With a free fall that was measured where he stands the lanyard is taut sooner than its
        // length says, but not at more than its length.
        aside.workers[0].gear.free_fall_m = Some(0.5);
        let straight = way + 0.5;
        let given = solved(&aside).workers[0].swing.expect("a swing");
        assert!(close(
            given.below_stack_m,
            hypotenuse(straight, 0.9) - straight
        ));
        aside.workers[0].offset_along_m = 3.0;
        let far = solved(&aside).workers[0].swing.expect("a swing");
        assert!(close(far.below_stack_m, 1.8 - straight));
    }

    #[test]
    fn gear_that_does_not_reach_the_edge_does_not_bear_on_it() {
        let mut high = case(0.0, 3.0, GearKind::Lanyard);
        high.line.height_above_beam_m = 3.0;
        let swing = swing_of(&high);
        let near = swing_of(&case(0.0, 0.3, GearKind::Lanyard));
        assert!(near.edge_contact && near.edge_slide_m == 0.0);
        assert!(!swing.edge_contact && swing.beyond_reach, "{swing:?}");
        // At the edge itself nothing is in the way.
        assert!(!swing_of(&case(0.5, 0.0, GearKind::Lanyard)).edge_contact);
    }

    /// Left and right of the connector are alike.
    #[test]
    fn a_swing_to_the_left_is_one_to_the_right() {
        for kind in [GearKind::Lanyard, GearKind::SelfRetracting] {
            for along_m in [0.4, 1.2] {
                let right = swing_of(&case(along_m, 0.3, kind));
                assert_eq!(swing_of(&case(-along_m, 0.3, kind)), right);
                assert!(right.edge_contact && right.edge_slide_m > 0.0);
            }
        }
    }

    #[test]
    fn a_line_pulled_down_to_the_beam_lies_on_its_edge() {
        let mut low = case(0.0, 0.5, GearKind::Lanyard);
        low.line.height_above_beam_m = 0.3;
        assert!(swing_of(&low).line_on_edge);
        low.line.height_above_beam_m = 3.0;
        assert!(!swing_of(&low).line_on_edge);
        low.line.height_above_beam_m = 0.3;
        low.workers[0].edge_distance_m = 0.0;
        low.workers[0].offset_along_m = 0.5;
        assert!(!swing_of(&low).line_on_edge);
    }
}
