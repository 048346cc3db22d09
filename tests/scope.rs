//! The region that core calls checked is that of the reference cases: derived anew from their files.

use footroom_core::case::{Case, GearKind, Line, Worker};
use footroom_core::scope::Checked;
use footroom_core::solve::{Options, solve};
use support::closeness::Interval;
use support::reference::{self, STATED_DAMPING_S};

/// Range of a quantity over the reference cases; the greatest is infinite for what does not move.
struct Range(Option<Interval>);

impl Range {
    fn of(values: impl IntoIterator<Item = f64>) -> Self {
        Self(
            values
                .into_iter()
                .map(|v| Interval::between(v, v))
                .reduce(|a, b| Interval::between(a.low.min(b.low), a.high.max(b.high))),
        )
    }
}

/// Every line of the references but those of the rigid anchorages, which take no part.
fn lines() -> Vec<Line> {
    let mut lines: Vec<Line> = reference::statics().iter().map(|c| c.line()).collect();
    lines.extend(reference::multispan().iter().map(|c| c.line()));
    lines.extend(
        reference::dynamics()
            .iter()
            .filter(|c| !c.inputs.rigid_anchorage)
            .map(|c| c.case(STATED_DAMPING_S).line),
    );
    lines.extend(
        reference::multispan_dynamics()
            .into_iter()
            .map(|c| c.case.line),
    );
    lines
}

fn falls() -> Vec<Case> {
    reference::dynamics()
        .iter()
        .map(|c| c.case(STATED_DAMPING_S))
        .chain(reference::multispan_dynamics().into_iter().map(|c| c.case))
        .collect()
}

/// Every deflection of the references as (deflection, span, distance to the nearer support), m; of
/// the falls the greater of undamped and damped.
fn deflections() -> Vec<(f64, f64, f64)> {
    let mut found = Vec::new();
    let mut add = |line: &Line, position_m: f64, deflection_m: f64| {
        let (span, x) = line.locate(position_m);
        let span_m = line.spans_m[span];
        found.push((deflection_m, span_m, x.min(span_m - x)));
    };
    for case in reference::statics() {
        let line = case.line();
        for (load, value) in case.loads().iter().zip(&case.reference.deflection_m) {
            add(&line, load.position_m, value.value);
        }
    }
    for case in reference::multispan() {
        let line = case.line();
        for (load, value) in case.loads().iter().zip(&case.reference.deflection_m) {
            add(&line, load.position_m, value.value());
        }
    }
    for case in reference::dynamics() {
        let line = case.case(STATED_DAMPING_S).line;
        let crew = case.case(STATED_DAMPING_S).workers;
        for (worker, values) in crew.iter().zip(&case.reference.workers) {
            if let Some(value) = values.line_deflection_max_m {
                let (undamped, damped) = value.ends();
                add(&line, worker.position_m, undamped.max(damped));
            }
        }
    }
    for fall in reference::multispan_dynamics() {
        let deflections = fall.reference.line_deflection_max_m.iter().flatten();
        for (worker, deflection_m) in fall.case.workers.iter().zip(deflections) {
            add(&fall.case.line, worker.position_m, *deflection_m);
        }
    }
    found
}

/// The range of a quantity over the reference cases.
fn range(quantity: Checked) -> Range {
    let lines = lines();
    let falls = falls();
    let workers: Vec<_> = falls.iter().flat_map(|c| c.workers.clone()).collect();
    let absorbers: Vec<_> = workers.iter().filter_map(|w| w.gear.absorber).collect();
    let inline: Vec<_> = lines.iter().filter_map(|l| l.inline_absorber).collect();
    match quantity {
        Checked::SpanCount => Range::of(lines.iter().map(|l| l.spans_m.len() as f64)),
        Checked::Span => Range::of(lines.iter().flat_map(|l| l.spans_m.clone())),
        Checked::Pretension => Range::of(lines.iter().map(|l| l.pretension_n)),
        Checked::AxialStiffness => Range::of(lines.iter().map(|l| l.rope.axial_stiffness_n)),
        Checked::MassPerLength => Range::of(lines.iter().map(|l| l.rope.mass_per_length_kg_per_m)),
        Checked::EndStiffness => Range::of(lines.iter().flat_map(|l| {
            [l.left_end_stiffness_n_per_m, l.right_end_stiffness_n_per_m]
                .map(|k| k.unwrap_or(f64::INFINITY))
        })),
        Checked::InlineForce => Range::of(inline.iter().map(|a| a.yield_force_n)),
        Checked::InlineExtension => Range::of(inline.iter().map(|a| a.max_extension_m)),
        // Every fall has an undamped and a damped value.
        Checked::Damping => Range::of([0.0, STATED_DAMPING_S]),
        Checked::Users => Range::of(falls.iter().map(|c| c.workers.len() as f64)),
        Checked::Delay => Range::of(falls.iter().map(|c| {
            let times = Range::of(c.workers.iter().filter_map(|w| w.fall_time_s));
            times.0.map_or(0.0, |t| t.high - t.low)
        })),
        Checked::Mass => Range::of(workers.iter().map(|w| w.mass_kg)),
        Checked::FreeFall => Range::of(
            falls
                .iter()
                .flat_map(|c| c.workers.iter().map(|w| w.free_fall_m(&c.line))),
        ),
        Checked::GearStiffness => Range::of(workers.iter().map(|w| w.gear.stiffness_n_per_m)),
        Checked::AbsorberForce => Range::of(absorbers.iter().map(|a| a.average_force_n)),
        Checked::AbsorberExtension => Range::of(absorbers.iter().map(|a| a.max_extension_m)),
        Checked::LockedStiffness => Range::of(absorbers.iter().map(|a| a.locked_stiffness_n_per_m)),
        Checked::SelfRetracting => Range::of(falls.iter().map(|c| {
            let on_one = |w: &&Worker| w.gear.kind == GearKind::SelfRetracting;
            c.workers.iter().filter(on_one).count() as f64
        })),
        Checked::Offset => Range::of(
            workers
                .iter()
                .map(|w| w.offset_along_m.hypot(w.edge_distance_m)),
        ),
        // From 0: the less the line is pulled down, the nearer it is to the rest that was checked.
        Checked::DeflectionRatio => Range::of(
            deflections()
                .iter()
                .map(|(z, span, _)| z / span)
                .chain([0.0]),
        ),
        Checked::Slope => Range::of(deflections().iter().map(|(z, _, x)| z / x).chain([0.0])),
        other => panic!("no range of {other:?} is derived here"),
    }
}

#[test]
fn bounds_are_those_of_the_reference_cases() {
    for &quantity in Checked::ALL {
        // Of the mesh, see `properties.rs`.
        if quantity == Checked::Nearness {
            assert_eq!(quantity.range(), (1.0, None));
            continue;
        }
        let Range(Some(found)) = range(quantity) else {
            panic!("{quantity:?}: no reference case has it");
        };
        let (least, greatest) = quantity.range();
        match quantity {
            // Stated to three decimals, rounded down.
            Checked::DeflectionRatio | Checked::Slope | Checked::FreeFall => {
                let most = greatest.expect("a bound above");
                assert!(
                    most <= found.high && found.high < most + 1.0e-3,
                    "{quantity:?}: {most} against {}",
                    found.high
                );
                assert_eq!(least, found.low);
            }
            _ => assert_eq!(
                (least, greatest.unwrap_or(f64::INFINITY)),
                (found.low, found.high),
                "{quantity:?}"
            ),
        }
    }
}

#[test]
fn both_with_and_without_absorbers_was_checked() {
    let lines = lines();
    assert!(lines.iter().any(|l| l.inline_absorber.is_none()));
    let workers: Vec<_> = falls().iter().flat_map(|c| c.workers.clone()).collect();
    assert!(workers.iter().any(|w| w.gear.absorber.is_none()));
}

#[test]
fn every_fall_of_the_references_lies_inside() {
    for fall in reference::dynamics() {
        for damping_s in [0.0, STATED_DAMPING_S] {
            let case = fall.case(damping_s);
            let outcome = solve(&case, Options::default()).expect("a valid case");
            assert_eq!(outcome.outside_checked, Vec::new(), "{}", fall.id);
        }
    }
}
