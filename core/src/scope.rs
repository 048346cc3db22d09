//! Where the model was checked: the region of the independent reference cases, and what of a case
//! and its answer lies outside it.
//!
//! A number from outside is not wrong for that; nothing independent stands beside it. The region is
//! a box, one range a quantity: not every combination inside it was checked either. Its bounds are
//! those of the cases in `tests/reference` (static, several spans, falls), except for one of the mesh
//! ([`Checked::Nearness`]); `tests/scope.rs` derives them anew and compares. Measured drop tests are none of them.

use alloc::vec::Vec;

use crate::case::{Case, GearKind, Worker};
use crate::maths::sqrt;
use crate::mesh::segments_for;
use crate::points::Points;

/// A quantity whose range was checked. Case quantities in the unit of their field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Checked {
    /// Number of spans.
    SpanCount,
    /// Length of a span, m.
    Span,
    /// Pretension at today's temperature, N.
    Pretension,
    /// Axial stiffness EA of the rope, N.
    AxialStiffness,
    /// Mass per length of the rope, kg/m.
    MassPerLength,
    /// Horizontal stiffness of an end, post and tieback included, N/m; one that does not move was
    /// checked.
    EndStiffness,
    /// Yield force of an in-line absorber, N; a line without one was checked.
    InlineForce,
    /// Greatest extension of an in-line absorber, m.
    InlineExtension,
    /// Damping of the line, s.
    Damping,
    /// Number of workers who fall.
    Users,
    /// Time between the first fall and the last, s.
    Delay,
    /// Mass of a worker who falls, kg.
    Mass,
    /// Free fall, m.
    FreeFall,
    /// Stiffness of webbing and harness, N/m.
    GearStiffness,
    /// Average force of a personal absorber, N; gear without one was checked.
    AbsorberForce,
    /// Greatest extension of a personal absorber, m.
    AbsorberExtension,
    /// Stiffness of a personal absorber once it is used up, N/m.
    LockedStiffness,
    /// Number of falling workers on self-retracting lifelines.
    SelfRetracting,
    /// Horizontal distance of a falling worker from his connector, m.
    Offset,
    /// Greatest deflection of the line at a connector over the length of its span.
    DeflectionRatio,
    /// Greatest deflection of the line at a connector over its distance to the nearer support.
    Slope,
    /// Distance from a falling worker's connector to the next such connector in the span, in
    /// segments that the time history cuts the span into. Nearer than one, two people hand energy
    /// to each other in ways that the mesh resolves less well: the time history may come out 0.07 m
    /// short in depth. This bound is of the mesh, found by refining it, not of a reference case.
    Nearness,
}

/// What is nearer to each other is at one place, m.
const ONE_PLACE_M: f64 = 1.0e-3;

/// How far beyond a bound a value may lie and still round to it.
const ROUNDING_RATIO: f64 = 0.01;

impl Checked {
    /// All of them, in the order in which they are said.
    pub const ALL: &'static [Self] = &[
        Self::SpanCount,
        Self::Span,
        Self::Pretension,
        Self::AxialStiffness,
        Self::MassPerLength,
        Self::EndStiffness,
        Self::InlineForce,
        Self::InlineExtension,
        Self::Damping,
        Self::Users,
        Self::Delay,
        Self::Mass,
        Self::FreeFall,
        Self::GearStiffness,
        Self::AbsorberForce,
        Self::AbsorberExtension,
        Self::LockedStiffness,
        Self::SelfRetracting,
        Self::Offset,
        Self::DeflectionRatio,
        Self::Slope,
        Self::Nearness,
    ];

    /// Least and greatest checked value; no greatest: there is no bound above.
    pub const fn range(self) -> (f64, Option<f64>) {
        let (least, greatest) = match self {
            Self::SpanCount => (1.0, 6.0),
            Self::Span => (6.0, 40.0),
            Self::Pretension => (300.0, 20_000.0),
            Self::AxialStiffness => (9.0e5, 1.1e7),
            Self::MassPerLength => (0.07, 1.0),
            Self::EndStiffness => return (5.0e4, None),
            Self::InlineForce => (8_000.0, 14_000.0),
            Self::InlineExtension => (0.2, 1.2),
            Self::Damping => (0.0, 1.0e-4),
            Self::Users => (1.0, 6.0),
            Self::Delay => (0.0, 1.0),
            Self::Mass => (40.0, 220.0),
            Self::FreeFall => (0.5, 2.012),
            Self::GearStiffness => (6.0e4, 1.0e5),
            Self::AbsorberForce => (2_700.0, 6_000.0),
            Self::AbsorberExtension => (0.3, 1.75),
            Self::LockedStiffness => (6.0e4, 1.0e5),
            Self::SelfRetracting => (0.0, 1.0),
            Self::Offset => (0.0, 0.0),
            Self::DeflectionRatio => (0.0, 0.129),
            Self::Slope => (0.0, 0.456),
            Self::Nearness => return (1.0, None),
        };
        (least, Some(greatest))
    }

    /// The input whose name, unit and label it has; `None`: it is none of the inputs.
    pub const fn field(self) -> Option<&'static str> {
        Some(match self {
            Self::Span => "line.spans_m",
            Self::Pretension => "line.pretension_n",
            Self::AxialStiffness => "line.rope.axial_stiffness_n",
            Self::MassPerLength => "line.rope.mass_per_length_kg_per_m",
            Self::InlineForce => "line.inline_absorber.yield_force_n",
            Self::InlineExtension => "line.inline_absorber.max_extension_m",
            Self::Damping => "motion.damping_s",
            Self::Mass => "workers.mass_kg",
            Self::FreeFall => "workers.gear.free_fall_m",
            Self::GearStiffness => "workers.gear.stiffness_n_per_m",
            Self::AbsorberForce => "workers.gear.absorber.average_force_n",
            Self::AbsorberExtension => "workers.gear.absorber.max_extension_m",
            Self::LockedStiffness => "workers.gear.absorber.locked_stiffness_n_per_m",
            Self::SpanCount
            | Self::EndStiffness
            | Self::Users
            | Self::Delay
            | Self::SelfRetracting
            | Self::Offset
            | Self::DeflectionRatio
            | Self::Slope
            | Self::Nearness => return None,
        })
    }
}

/// A quantity outside what was checked.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Outside {
    /// Which.
    pub quantity: Checked,
    /// Its value, where several lie outside the farthest.
    pub value: f64,
    /// The span, end (0 left, 1 right) or worker that has it, counted from 0; 0 for the whole line.
    pub index: usize,
    /// Least value that was checked.
    pub least: f64,
    /// Greatest value that was checked; `None`: there is no bound above.
    pub greatest: Option<f64>,
}

/// What of a case as [`crate::ready::Ready`] holds it and its answer lies outside the checked region, each quantity once;
/// empty: all is inside.
///
/// `deflections_m`: greatest deflection of the line at every worker's connector.
pub(crate) fn outside(case: &Case, deflections_m: &[f64]) -> Vec<Outside> {
    let mut found: Vec<Outside> = Vec::new();
    for &quantity in Checked::ALL {
        let (least, greatest) = quantity.range();
        let mut farthest = 0.0;
        let mut worst = None;
        each(case, deflections_m, quantity, &mut |index, value| {
            let beyond = beyond(value, least, greatest);
            if beyond > farthest {
                farthest = beyond;
                worst = Some(Outside {
                    quantity,
                    value,
                    index,
                    least,
                    greatest,
                });
            }
        });
        found.extend(worst);
    }
    found
}

/// How far a value lies beyond its bound, as a part of it (where that is 0, itself); 0 inside.
fn beyond(value: f64, least: f64, greatest: Option<f64>) -> f64 {
    let part = |by: f64, of: f64| if of > 0.0 { by / of } else { by };
    let below = part(least - value, least);
    let above = greatest.map_or(0.0, |most| part(value - most, most));
    let most = below.max(above);
    if most > ROUNDING_RATIO { most } else { 0.0 }
}

/// Hands every value of a quantity in the case to `see`, with its place in its list.
fn each(case: &Case, deflections_m: &[f64], quantity: Checked, see: &mut dyn FnMut(usize, f64)) {
    let line = &case.line;
    let falling = || {
        case.workers
            .iter()
            .zip(deflections_m)
            .enumerate()
            .filter(|(_, (w, _))| w.fall_time_s.is_some())
    };
    let of_each = |see: &mut dyn FnMut(usize, f64), of: fn(&Worker) -> Option<f64>| {
        for (i, (worker, _)) in falling() {
            if let Some(value) = of(worker) {
                see(i, value);
            }
        }
    };
    match quantity {
        Checked::SpanCount => see(0, line.spans_m.len() as f64),
        Checked::Span => {
            for (i, &span_m) in line.spans_m.iter().enumerate() {
                see(i, span_m);
            }
        }
        Checked::Pretension => see(0, line.pretension_n),
        Checked::AxialStiffness => see(0, line.rope.axial_stiffness_n),
        Checked::MassPerLength => see(0, line.rope.mass_per_length_kg_per_m),
        Checked::EndStiffness => {
            let ends = [
                line.left_end_stiffness_n_per_m,
                line.right_end_stiffness_n_per_m,
            ];
            for (i, stiffness) in ends.into_iter().enumerate() {
                if let Some(n_per_m) = stiffness {
                    see(i, n_per_m);
                }
            }
        }
        Checked::InlineForce => {
            if let Some(inline) = line.inline_absorber {
                see(0, inline.yield_force_n);
            }
        }
        Checked::InlineExtension => {
            if let Some(inline) = line.inline_absorber {
                see(0, inline.max_extension_m);
            }
        }
        Checked::Damping => see(0, case.motion.damping_s),
        Checked::Users => see(0, falling().count() as f64),
        Checked::Delay => {
            let times = || case.workers.iter().filter_map(|w| w.fall_time_s);
            let first = times().fold(f64::INFINITY, f64::min);
            for (i, (worker, _)) in falling() {
                see(i, worker.fall_time_s.map_or(0.0, |t| t - first));
            }
        }
        Checked::Mass => of_each(see, |w| Some(w.mass_kg)),
        Checked::FreeFall => {
            for (i, (worker, _)) in falling() {
                see(i, worker.free_fall_m(line));
            }
        }
        Checked::GearStiffness => of_each(see, |w| Some(w.gear.stiffness_n_per_m)),
        Checked::AbsorberForce => {
            for (i, (worker, _)) in falling() {
                // Forces that an average stands for, and none beside it, were checked.
                let corners = worker.gear.absorber.map(|a| a.corners().1);
                for &force_n in corners.iter().flat_map(Points::as_slice) {
                    see(i, force_n);
                }
            }
        }
        Checked::AbsorberExtension => {
            of_each(see, |w| w.gear.absorber.map(|a| a.extension_most_m()));
        }
        Checked::LockedStiffness => {
            of_each(see, |w| w.gear.absorber.map(|a| a.locked_stiffness_n_per_m));
        }
        Checked::SelfRetracting => {
            let on_one = |w: &Worker| w.gear.kind == GearKind::SelfRetracting;
            let first = falling()
                .find(|(_, (w, _))| on_one(w))
                .map_or(0, |(i, _)| i);
            see(
                first,
                falling().filter(|(_, (w, _))| on_one(w)).count() as f64,
            );
        }
        Checked::Offset => of_each(see, |w| {
            let (along, across) = (w.offset_along_m, w.edge_distance_m);
            Some(sqrt(along * along + across * across))
        }),
        Checked::Nearness => {
            for (i, (worker, _)) in falling() {
                let (span, x_m) = line.locate(worker.position_m);
                let span_m = line.spans_m.get(span).copied().unwrap_or(0.0);
                // Connectors at one place share a node.
                let nearest_m = falling()
                    .map(|(_, (w, _))| line.locate(w.position_m))
                    .filter(|other| other.0 == span)
                    .map(|other| (other.1 - x_m).abs())
                    .filter(|&m| m > ONE_PLACE_M)
                    .fold(f64::INFINITY, f64::min);
                if nearest_m < f64::INFINITY {
                    see(i, nearest_m * segments_for(line, span_m) as f64 / span_m);
                }
            }
        }
        Checked::DeflectionRatio | Checked::Slope => {
            for (i, (worker, deflection_m)) in falling() {
                let (span, x_m) = line.locate(worker.position_m);
                let span_m = line.spans_m.get(span).copied().unwrap_or(0.0);
                let over_m = if quantity == Checked::Slope {
                    x_m.min(span_m - x_m)
                } else {
                    span_m
                };
                // At a support the line does not deflect.
                if over_m > 0.0 {
                    see(i, deflection_m / over_m);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{EndPost, Posts};
    use crate::demo::demo;
    use crate::solve::{Options, solve};

    fn of(case: &Case) -> Vec<Outside> {
        solve(case, Options::default())
            .expect("a case without faults")
            .outside_checked
    }

    #[test]
    fn the_demonstration_lies_inside() {
        assert_eq!(of(&demo()), Vec::new());
    }

    #[test]
    fn what_lies_outside_is_named_with_its_value_and_range() {
        let mut case = demo();
        case.line.spans_m = alloc::vec![4.0, 14.0];
        case.workers[0].mass_kg = 38.0;
        case.workers[1].mass_kg = 245.0;
        case.workers[1].gear.kind = GearKind::SelfRetracting;
        case.workers[2].gear.kind = GearKind::SelfRetracting;
        case.workers[2].offset_along_m = 0.5;
        // One who stays standing was never pulled: his own mass does not enter.
        case.workers.push(Worker {
            mass_kg: 250.0,
            fall_time_s: None,
            position_m: 1.0,
            ..Worker::default()
        });
        let found = of(&case);
        let named: Vec<(Checked, usize, f64)> = found
            .iter()
            .map(|o| (o.quantity, o.index, o.value))
            .collect();
        for expected in [
            (Checked::Span, 0, 4.0),
            // 25 kg above the greatest mass is farther than 2 kg below the least.
            (Checked::Mass, 1, 245.0),
            (Checked::SelfRetracting, 1, 2.0),
            (Checked::Offset, 2, 0.5),
        ] {
            assert!(named.contains(&expected), "{expected:?} in {named:?}");
        }
        let mass = found.iter().find(|o| o.quantity == Checked::Mass);
        assert!(mass.is_some_and(|o| (o.least, o.greatest) == (40.0, Some(220.0))));
        assert!(named.iter().all(|(q, _, _)| *q != Checked::Users));
    }

    #[test]
    fn a_connector_within_a_segment_of_another_is_named() {
        let nearness = |position_m: f64| {
            let mut case = demo();
            case.workers[0].position_m = position_m;
            let found = of(&case);
            found
                .iter()
                .find(|o| o.quantity == Checked::Nearness)
                .map(|o| (o.index, o.value))
        };
        // Spans of 9 m in 20 segments of 0.45 m; the next worker stands at 13 m.
        let near = |found: Option<(usize, f64)>, segments: f64| {
            found.is_some_and(|(_, value)| (value - segments).abs() < 1e-9)
        };
        assert!(near(nearness(12.7), 2.0 / 3.0));
        assert!(near(nearness(13.3), 2.0 / 3.0));
        // Beside a support and at one place the mesh is fine enough.
        assert_eq!((nearness(9.3), nearness(8.7)), (None, None));
        assert_eq!((nearness(9.0), nearness(13.0)), (None, None));
    }

    #[test]
    fn posts_count_as_the_stiffness_they_give() {
        let mut case = demo();
        let post = EndPost {
            bending_stiffness_n_m2: 5.0e4,
            tieback: None,
        };
        case.posts = Posts {
            left: None,
            right: Some(post),
        };
        let found = of(&case);
        let end = found.iter().find(|o| o.quantity == Checked::EndStiffness);
        // 3 E I/h³ of a post 1.5 m high.
        assert!(
            end.is_some_and(|o| o.index == 1
                && (o.value - 3.0 * 5.0e4 / 3.375).abs() < 1.0
                && o.greatest.is_none()),
            "{found:?}"
        );
    }

    #[test]
    fn a_bound_is_inside_and_one_per_cent_rounds_to_it() {
        for &quantity in Checked::ALL {
            let (least, greatest) = quantity.range();
            assert_eq!(beyond(least, least, greatest), 0.0);
            assert_eq!(beyond(0.991 * least, least, greatest), 0.0);
            assert!(least == 0.0 || beyond(0.98 * least, least, greatest) > 0.0);
            if let Some(most) = greatest {
                assert_eq!(beyond(most, least, greatest), 0.0);
                assert!(beyond(1.02 * most + 0.02, least, greatest) > 0.0);
            }
        }
    }

    #[test]
    fn fields_are_those_of_the_table() {
        for quantity in Checked::ALL {
            if let Some(name) = quantity.field() {
                let field = crate::field::find(name).expect("a field of the table");
                let (least, greatest) = quantity.range();
                assert!(field.min <= least && greatest.is_some_and(|most| most <= field.max));
            }
        }
    }
}
