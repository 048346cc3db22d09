//! Statics against independent references (single span and multi-span) and against closed forms.
//!
//! The worst deviation of every group is printed at each run.

use std::process::ExitCode;

use footroom_core::case::Line;
use footroom_core::line::{PointLoad, Static, hang};
use footroom_core::rope::{Construction, Rope};
use libtest_mimic::{Arguments, Failed, Trial};
use support::closeness::{Interval, close, relative};
use support::figures::{self, Figure};
use support::reference::{self, MultispanCase, StaticCase};
use support::report::{Compared, print_worst_per_group};
use support::tolerance::{
    CLOSED_FORM_RTOL, END_MOVEMENT_RTOL, MULTISPAN_MOVEMENT_RTOL, STATICS_RTOL,
};

fn main() -> ExitCode {
    let arguments = Arguments::from_args();
    let mut all = Vec::new();
    for case in reference::statics() {
        all.extend(single_span(&case));
    }
    for case in reference::multispan() {
        all.extend(multispan(&case));
    }
    if !arguments.list {
        print_worst_per_group("statics, worst deviation per group", &all);
    }
    let worst = |sag: bool| {
        let of = all.iter().filter(|c| (c.quantity == "sag_m") == sag);
        of.filter(|c| !c.quantity.ends_with("movement_m"))
            .fold(0.0_f64, |most, c| most.max(c.deviation().abs()))
    };
    let (loaded, sag) = (worst(false), worst(true));
    let mut trials: Vec<Trial> = all
        .into_iter()
        .map(|c| {
            Trial::test(format!("{} {}", c.id, c.quantity), move || {
                if c.passes() {
                    Ok(())
                } else {
                    Err(c.line().into())
                }
            })
        })
        .collect();
    trials.push(closed("weightless_midspan_load", midspan_load_closed_form));
    trials.push(closed("sag_and_extra_length", sag_and_extra_length));
    trials.push(closed("end_movement_follows_tension", end_movement));
    trials.push(closed("loads_in_any_order", order_of_loads));
    trials.push(closed("no_load_is_the_rest_state", no_load));
    trials.push(Trial::test("the README says how close", move || {
        figures::hold(Figure::StaticsLoaded, &figures::at_most_percent(loaded));
        figures::hold(Figure::StaticsSag, &figures::at_most_percent(sag));
        Ok(())
    }));
    libtest_mimic::run(&arguments, trials).exit_code()
}

fn closed(name: &str, check: fn() -> Result<(), Failed>) -> Trial {
    Trial::test(format!("closed form {name}"), check)
}

fn solved(line: &Line, loads: &[PointLoad], id: &str) -> Static {
    hang(line, loads).unwrap_or_else(|faults| panic!("{id}: {faults:?}"))
}

/// Accepted where both the case's own interval and the overall 0.5 % accept.
fn compared(
    id: &str,
    group: &str,
    quantity: String,
    value: f64,
    reference: f64,
    own: Interval,
) -> Compared {
    let overall = Interval::between(reference, reference).widened(STATICS_RTOL, 0.0);
    Compared {
        id: id.into(),
        group: group.into(),
        quantity,
        value,
        value_undamped: None,
        reference: Interval::between(reference, reference),
        allowed: Interval {
            low: own.low.max(overall.low),
            high: own.high.min(overall.high),
        },
        allowed_any_model: overall,
    }
}

fn single_span(case: &StaticCase) -> Vec<Compared> {
    let line = case.line();
    let found = solved(&line, &case.loads(), &case.id);
    let r = &case.reference;
    let group = if case.loads().is_empty() {
        "S, self weight"
    } else if line.left_end_stiffness_n_per_m.is_some() {
        "S, end springs"
    } else {
        "S, fixed ends"
    };
    let mut out = Vec::new();
    let mut add = |quantity: String, value: f64, of: &reference::StaticValue| {
        out.push(compared(
            &case.id,
            group,
            quantity,
            value,
            of.value,
            of.interval(),
        ));
    };
    add(
        "tension_horizontal_n".into(),
        found.tension_horizontal_n,
        &r.tension_horizontal_n,
    );
    if let Some(v) = &r.tension_left_end_n {
        add("tension_left_end_n".into(), found.tension_left_end_n, v);
    }
    if let Some(v) = &r.tension_right_end_n {
        add("tension_right_end_n".into(), found.tension_right_end_n, v);
    }
    if let Some(v) = &r.tension_max_n {
        add("tension_max_n".into(), found.tension_max_n, v);
    }
    if let Some(v) = &r.sag_m {
        let sag_m = line.rest_deflection_m(line.length_m() / 2.0);
        add("sag_m".into(), sag_m, v);
    }
    for (i, v) in r.deflection_m.iter().enumerate() {
        add(format!("deflection_m[{i}]"), found.deflection_m[i], v);
    }
    if let Some(v) = &r.end_movement_m {
        add("left_end_movement_m".into(), found.left_end_movement_m, v);
        add("right_end_movement_m".into(), found.right_end_movement_m, v);
    }
    out
}

fn multispan(case: &MultispanCase) -> Vec<Compared> {
    let line = case.line();
    let found = solved(&line, &case.loads(), &case.id);
    let r = &case.reference;
    let group = if line.left_end_stiffness_n_per_m.is_some() {
        "M, end springs"
    } else {
        "M, fixed ends"
    };
    let mut out = Vec::new();
    let mut add = |quantity: String, value: f64, reference: f64, rtol: f64| {
        let own = Interval::between(reference, reference).widened(rtol, 0.0);
        out.push(compared(&case.id, group, quantity, value, reference, own));
    };
    let rtol = r.tension_n.tolerance_relative_any_model;
    add(
        "tension_left_end_n".into(),
        found.tension_left_end_n,
        r.tension_n.value_left_end_exact,
        rtol,
    );
    add(
        "tension_right_end_n".into(),
        found.tension_right_end_n,
        r.tension_n.value_right_end_exact,
        rtol,
    );
    for (i, v) in r.deflection_m.iter().enumerate() {
        add(
            format!("deflection_m[{i}]"),
            found.deflection_m[i],
            v.value(),
            v.tolerance_relative_any_model,
        );
    }
    if let Some(v) = &r.end_movement_m {
        add(
            "left_end_movement_m".into(),
            found.left_end_movement_m,
            v.value(),
            MULTISPAN_MOVEMENT_RTOL,
        );
        add(
            "right_end_movement_m".into(),
            found.right_end_movement_m,
            v.value(),
            MULTISPAN_MOVEMENT_RTOL,
        );
    }
    out
}

/// One span with a light rope: its self weight is below 1e-4 of the load.
fn light_line(span_m: f64, axial_stiffness_n: f64, pretension_n: f64) -> Line {
    Line {
        spans_m: vec![span_m],
        pretension_n,
        rope: Rope {
            construction: Construction::Own,
            axial_stiffness_n,
            mass_per_length_kg_per_m: 0.02,
            breaking_force_n: None,
            ..Rope::default()
        },
        ..Line::default()
    }
}

fn within(what: &str, value: f64, expected: f64, rtol: f64) -> Result<(), Failed> {
    if close(value, expected, rtol) {
        Ok(())
    } else {
        Err(format!(
            "{what}: {value} against {expected}, {:.2e} relative, allowed {rtol:.1e}",
            relative(value, expected)
        )
        .into())
    }
}

/// Straight weightless halves: the unstretched rope 2 s0 of a pretensioned span L carries P at
/// midspan at deflection z with T = P/(2 sin a), tan a = 2z/L, T = EA (√(1 + tan² a) L/(2 s0) − 1).
/// Solved here by bisection on z.
fn midspan_load_closed_form() -> Result<(), Failed> {
    for (span_m, ea_n, pretension_n, load_n) in [
        (6.0, 3.5e6, 3000.0, 12_000.0),
        (4.0, 1.0e6, 500.0, 4_000.0),
        (10.0, 6.5e6, 9000.0, 20_000.0),
    ] {
        let unstretched_m = span_m / (1.0 + pretension_n / ea_n);
        let tension_n = |z_m: f64| {
            let chord_m = (span_m * span_m + 4.0 * z_m * z_m).sqrt();
            (ea_n * (chord_m / unstretched_m - 1.0), 2.0 * z_m / chord_m)
        };
        let (mut low_m, mut high_m) = (0.0, span_m);
        for _ in 0..200 {
            let z_m = 0.5 * (low_m + high_m);
            let (t_n, sine) = tension_n(z_m);
            if 2.0 * t_n * sine < load_n {
                low_m = z_m;
            } else {
                high_m = z_m;
            }
        }
        let line = light_line(span_m, ea_n, pretension_n);
        let found = solved(
            &line,
            &[PointLoad {
                position_m: span_m / 2.0,
                force_n: load_n,
            }],
            "midspan",
        );
        // The rope's own weight, at most 1e-4 of the load, acts like half of it at midspan.
        let weight_rtol = line.weight_n_per_m() * span_m / load_n;
        let rtol = CLOSED_FORM_RTOL + weight_rtol;
        within("deflection_m", found.deflection_m[0], low_m, rtol)?;
        within(
            "tension_max_n",
            found.tension_max_n,
            tension_n(low_m).0,
            rtol,
        )?;
    }
    Ok(())
}

/// Published 12 (H. M. Irvine, Cable Structures, MIT Press 1981): sag w L²/(8H), extra length
/// w² L³/(24 H²), and P L/(4H) under a load at midspan, on which the sag adds.
fn sag_and_extra_length() -> Result<(), Failed> {
    let span_m = 20.0;
    let line = Line {
        spans_m: vec![span_m],
        pretension_n: 29_000.0,
        rope: Rope {
            construction: Construction::Own,
            axial_stiffness_n: 1.0e8,
            mass_per_length_kg_per_m: 6.0,
            breaking_force_n: None,
            ..Rope::default()
        },
        ..Line::default()
    };
    let (w, h_n) = (line.weight_n_per_m(), line.pretension_n);
    let sag_m = w * span_m * span_m / (8.0 * h_n);
    within(
        "sag_m",
        line.rest_deflection_m(span_m / 2.0),
        sag_m,
        CLOSED_FORM_RTOL,
    )?;
    for load_n in [100.0, 2_000.0, 20_000.0] {
        let found = solved(
            &line,
            &[PointLoad {
                position_m: span_m / 2.0,
                force_n: load_n,
            }],
            "irvine",
        );
        let h_n = found.tension_horizontal_n;
        let expected_m = load_n * span_m / (4.0 * h_n) + w * span_m * span_m / (8.0 * h_n);
        // Mass goes with the unstretched rope, the formula with the chord: both differ by less
        // than the strain, here 1e-3, in the part that the weight has.
        let rtol = CLOSED_FORM_RTOL + 1.0e-3 * (w * span_m * span_m / (8.0 * h_n)) / expected_m;
        within("deflection_m", found.deflection_m[0], expected_m, rtol)?;
    }
    Ok(())
}

/// The end moves inward by (H − T0)/k, and not at all without a spring.
fn end_movement() -> Result<(), Failed> {
    let k = 2.5e5;
    let line = Line {
        left_end_stiffness_n_per_m: Some(k),
        right_end_stiffness_n_per_m: None,
        ..light_line(9.0, 3.5e6, 4000.0)
    };
    let found = solved(
        &line,
        &[PointLoad {
            position_m: 3.0,
            force_n: 5000.0,
        }],
        "end movement",
    );
    within(
        "left_end_movement_m",
        found.left_end_movement_m,
        (found.tension_horizontal_n - line.pretension_n) / k,
        END_MOVEMENT_RTOL,
    )?;
    if found.right_end_movement_m != 0.0 {
        return Err(format!("fixed end moves by {}", found.right_end_movement_m).into());
    }
    Ok(())
}

/// The answers come in the order of the loads, and the order changes nothing else.
fn order_of_loads() -> Result<(), Failed> {
    let line = Line {
        spans_m: vec![8.0, 12.0],
        ..Line::default()
    };
    let loads = [
        PointLoad {
            position_m: 15.0,
            force_n: 2000.0,
        },
        PointLoad {
            position_m: 3.0,
            force_n: 1000.0,
        },
    ];
    let one = solved(&line, &loads, "order");
    let other = solved(&line, &[loads[1], loads[0]], "order");
    let mut reversed = other.clone();
    reversed.deflection_m.reverse();
    if one != reversed {
        return Err(format!("{one:?} against {other:?}").into());
    }
    Ok(())
}

/// Without loads the line hangs as installed.
fn no_load() -> Result<(), Failed> {
    let line = Line {
        spans_m: vec![8.0, 12.0, 5.0],
        left_end_stiffness_n_per_m: Some(1.0e6),
        ..Line::default()
    };
    let found = solved(&line, &[], "no load");
    within(
        "tension_horizontal_n",
        found.tension_horizontal_n,
        line.pretension_n,
        CLOSED_FORM_RTOL,
    )?;
    if !found.deflection_m.is_empty() {
        return Err("a deflection without a load".into());
    }
    Ok(())
}
