//! Time history against the independent dynamic references.
//!
//! A quantity passes when it lies in the interval between the undamped and the damped value of the
//! line with mass, widened by the case's own tolerance or absolute floor. At least 90 % pass so;
//! what does not is named below with its physical reason. Both the run with the stated damping
//! (which is compared) and the one without are printed.

use std::process::ExitCode;
use std::sync::Arc;

use footroom_core::solve::{Options, Outcome, solve};
use libtest_mimic::{Arguments, Failed, Trial};
use support::closeness::Interval;
use support::energy;
use support::figures::{self, Figure};
use support::reference::{self, DynamicCase, DynamicValue, HangingValues, STATED_DAMPING_S};
use support::report::{Compared, print_worst_per_group};
use support::solved::solved;
use support::tolerance::{
    DYNAMIC_OUTSIDE_ANY_MODEL_MAX, DYNAMIC_PASS_RATIO, ENERGY_RESIDUAL_MAX,
    HANGING_MOVEMENT_ATOL_M, REFINEMENT_EXTENSION_ATOL_M, REFINEMENT_RTOL, RIGID_DROP_ATOL_M,
    RIGID_RTOL,
};

/// A quantity that lies outside its interval, and why. One that passes may not stand here.
struct Outside {
    id: &'static str,
    quantity: &'static str,
    reason: &'static str,
}

/// Named exceptions: none at present.
const OUTSIDE: &[Outside] = &[];

fn main() -> ExitCode {
    let arguments = Arguments::from_args();
    let cases: Vec<Run> = reference::dynamics().into_iter().map(Run::of).collect();
    let moving: Vec<Compared> = cases.iter().flat_map(Run::motion).collect();
    let hanging: Vec<Compared> = cases.iter().flat_map(Run::hanging).collect();
    if !arguments.list {
        print_worst_per_group("time history, worst deviation per group", &moving);
        print_worst_per_group("hanging state, worst deviation per group", &hanging);
        println!("\nquantities outside their interval");
        for c in moving.iter().chain(&hanging).filter(|c| !c.passes()) {
            let why = OUTSIDE
                .iter()
                .find(|o| o.id == c.id && o.quantity == c.quantity)
                .map_or("not named", |o| o.reason);
            println!("  {}: {why}", c.line());
        }
        print_inline(&cases);
    }
    let mut trials = Vec::new();
    for c in moving.iter().chain(&hanging).cloned() {
        trials.push(Trial::test(format!("{} {}", c.id, c.quantity), move || {
            passes_or_is_named(&c)
        }));
    }
    let (m, h) = (moving.clone(), hanging.clone());
    trials.push(Trial::test("nine tenths pass", move || {
        enough_pass(&m)?;
        enough_pass(&h)
    }));
    let m = moving.clone();
    trials.push(Trial::test(
        "all but a handful lie with any model",
        move || few_outside_any_model(&m),
    ));
    let all: Vec<Compared> = moving.iter().chain(&hanging).cloned().collect();
    let inline_ids: Vec<String> = cases
        .iter()
        .filter(|run| run.reference.inputs.inline_absorber.is_some())
        .map(|run| run.reference.id.clone())
        .collect();
    let falls = cases.len();
    trials.push(Trial::test("the README shows it", move || {
        readme(falls, &all, &inline_ids);
        Ok(())
    }));
    let known: Vec<(String, String)> = moving
        .iter()
        .chain(&hanging)
        .map(|c| (c.id.clone(), c.quantity.clone()))
        .collect();
    trials.push(Trial::test("every named exception exists", move || {
        for o in OUTSIDE {
            if !known
                .iter()
                .any(|(id, quantity)| id == o.id && quantity == o.quantity)
            {
                return Err(format!("no quantity {} {}", o.id, o.quantity).into());
            }
        }
        Ok(())
    }));
    for run in cases {
        let run = Arc::new(run);
        let r = Arc::clone(&run);
        trials.push(Trial::test(
            format!("{} energy residual", run.reference.id),
            move || energy_residual(&r),
        ));
        if run.reference.inputs.rigid_anchorage {
            let r = Arc::clone(&run);
            trials.push(Trial::test(
                format!("{} closed form", run.reference.id),
                move || rigid_closed_form(&r),
            ));
        }
    }
    for case in reference::dynamics() {
        trials.push(Trial::test(format!("{} refinement", case.id), move || {
            refinement(&case)
        }));
    }
    libtest_mimic::run(&arguments, trials).exit_code()
}

/// Twice the nodes and half the step change no reported number by more than the design allows.
fn refinement(reference: &DynamicCase) -> Result<(), Failed> {
    let case = reference.case(STATED_DAMPING_S);
    let at = |refine: i64| {
        let options = Options {
            refine,
            ..Options::default()
        };
        solve(&case, options).unwrap_or_else(|faults| panic!("{}: {faults:?}", case.title))
    };
    let (standard, fine) = (at(1), at(2));
    let mut rows = vec![
        (
            "tension_horizontal_max_n".to_string(),
            standard.history.tension_horizontal_max_n,
            fine.history.tension_horizontal_max_n,
            0.0,
        ),
        (
            "tension_max_n".into(),
            standard.history.tension_max_n,
            fine.history.tension_max_n,
            0.0,
        ),
        (
            "inline_extension_m".into(),
            standard.history.inline_extension_m,
            fine.history.inline_extension_m,
            REFINEMENT_EXTENSION_ATOL_M,
        ),
        (
            "footroom_m".into(),
            standard.footroom_m,
            fine.footroom_m,
            0.0,
        ),
    ];
    for (i, (s, f)) in standard.workers.iter().zip(&fine.workers).enumerate() {
        for (name, s, f, atol) in [
            (
                "arrest_force_max_n",
                s.arrest_force_max_n,
                f.arrest_force_max_n,
                0.0,
            ),
            (
                "absorber_extension_m",
                s.absorber_extension_m,
                f.absorber_extension_m,
                REFINEMENT_EXTENSION_ATOL_M,
            ),
            (
                "drop_first_lowest_m",
                s.drop_first_lowest_m,
                f.drop_first_lowest_m,
                0.0,
            ),
            ("drop_max_m", s.drop_max_m, f.drop_max_m, 0.0),
            (
                "line_deflection_max_m",
                s.line_deflection_max_m,
                f.line_deflection_max_m,
                0.0,
            ),
            ("required_m", s.stack.required_m, f.stack.required_m, 0.0),
        ] {
            rows.push((format!("worker[{i}].{name}"), s, f, atol));
        }
    }
    let outside: Vec<String> = rows
        .iter()
        .filter(|(_, s, f, atol)| {
            !Interval::between(*f, *f)
                .widened(REFINEMENT_RTOL, *atol)
                .holds(*s)
        })
        .map(|(name, s, f, _)| {
            format!(
                "{name}: {s} standard, {f} refined, {:+.2} %",
                100.0 * (s - f) / f.abs()
            )
        })
        .collect();
    if outside.is_empty() {
        Ok(())
    } else {
        Err(outside.join("\n").into())
    }
}

/// A reference case with core's two answers.
struct Run {
    reference: DynamicCase,
    damped: Outcome,
    undamped: Outcome,
}

impl Run {
    fn of(reference: DynamicCase) -> Self {
        Self {
            damped: solved(&reference.case(STATED_DAMPING_S)),
            undamped: solved(&reference.case(0.0)),
            reference,
        }
    }

    fn compared(&self, quantity: String, value: f64, undamped: f64, of: &DynamicValue) -> Compared {
        let (a, b) = of.ends();
        Compared {
            id: self.reference.id.clone(),
            group: self.reference.phenomenon.clone(),
            quantity,
            value,
            value_undamped: Some(undamped),
            reference: Interval::between(a, b),
            allowed: of.interval(),
            allowed_any_model: of.interval_any_model(),
        }
    }

    fn motion(&self) -> Vec<Compared> {
        let mut out = Vec::new();
        for (i, r) in self.reference.reference.workers.iter().enumerate() {
            let (d, u) = (&self.damped.workers[i], &self.undamped.workers[i]);
            let mut add = |name: &str, value: f64, undamped: f64, of: Option<&DynamicValue>| {
                if let Some(of) = of {
                    out.push(self.compared(format!("worker[{i}].{name}"), value, undamped, of));
                }
            };
            add(
                "arrest_force_max_n",
                d.arrest_force_max_n,
                u.arrest_force_max_n,
                Some(&r.peak_lanyard_force_n),
            );
            add(
                "absorber_extension_m",
                d.absorber_extension_m,
                u.absorber_extension_m,
                r.absorber_extension_m.as_ref(),
            );
            add(
                "drop_first_lowest_m",
                d.drop_first_lowest_m,
                u.drop_first_lowest_m,
                Some(&r.drop_first_deepest_m),
            );
            add(
                "time_first_lowest_s",
                d.time_first_lowest_s,
                u.time_first_lowest_s,
                Some(&r.time_first_deepest_s),
            );
            add(
                "drop_max_m",
                d.drop_max_m,
                u.drop_max_m,
                r.drop_max_m.as_ref(),
            );
            add(
                "line_deflection_max_m",
                d.line_deflection_max_m,
                u.line_deflection_max_m,
                r.line_deflection_max_m.as_ref(),
            );
        }
        if let Some(r) = &self.reference.reference.line {
            let (d, u) = (&self.damped.history, &self.undamped.history);
            out.push(self.compared(
                "line.tension_horizontal_max_n".into(),
                d.tension_horizontal_max_n,
                u.tension_horizontal_max_n,
                &r.peak_line_tension_horizontal_n,
            ));
            out.push(self.compared(
                "line.tension_max_n".into(),
                d.tension_max_n,
                u.tension_max_n,
                &r.peak_line_tension_max_n,
            ));
            if let Some(of) = &r.inline_extension_m {
                out.push(self.compared(
                    "line.inline_extension_m".into(),
                    d.inline_extension_m,
                    u.inline_extension_m,
                    of,
                ));
            }
        }
        out
    }

    /// The hanging state. The reference interval spans the two routes with line mass; it hangs on
    /// the extensions that the absorbers were left with, so their tolerances count for the drops.
    fn hanging(&self) -> Vec<Compared> {
        let Some(r) = &self.reference.reference.hanging else {
            return Vec::new();
        };
        let (d, u) = (&self.damped.hanging, &self.undamped.hanging);
        let settled = &r.from_line_with_mass_opensees;
        let exact = &r.from_line_with_mass_catenary_at_the_same_extensions;
        let rtol = r.tolerance_relative_tension;
        let atol_m = r.tolerance_absolute_deflection_m;
        let mut out = Vec::new();
        let mut add =
            |quantity: String, value: f64, undamped: f64, of: Interval, rtol: f64, atol: f64| {
                out.push(Compared {
                    id: self.reference.id.clone(),
                    group: self.reference.phenomenon.clone(),
                    quantity,
                    value,
                    value_undamped: Some(undamped),
                    reference: of,
                    allowed: of.widened(rtol, atol),
                    allowed_any_model: of.widened(rtol, atol),
                });
            };
        let both = |pick: fn(&HangingValues) -> f64| Interval::between(pick(settled), pick(exact));
        add(
            "hanging.tension_horizontal_n".into(),
            d.tension_horizontal_n,
            u.tension_horizontal_n,
            both(|h| h.tension_horizontal_n),
            rtol,
            0.0,
        );
        add(
            "hanging.tension_max_n".into(),
            d.tension_max_n,
            u.tension_max_n,
            both(|h| h.tension_max_n),
            rtol,
            0.0,
        );
        for (name, value, undamped, of) in [
            (
                "left",
                d.tension_left_end_n,
                u.tension_left_end_n,
                exact.tension_left_end_n,
            ),
            (
                "right",
                d.tension_right_end_n,
                u.tension_right_end_n,
                exact.tension_right_end_n,
            ),
        ] {
            if let Some(v) = of {
                add(
                    format!("hanging.tension_{name}_end_n"),
                    value,
                    undamped,
                    Interval::between(v, v),
                    rtol,
                    0.0,
                );
            }
        }
        if let Some(v) = exact.end_movement_m {
            add(
                "hanging.left_end_movement_m".into(),
                d.left_end_movement_m,
                u.left_end_movement_m,
                Interval::between(v, v),
                rtol,
                HANGING_MOVEMENT_ATOL_M,
            );
        }
        for i in 0..d.deflection_m.len() {
            add(
                format!("hanging.deflection_m[{i}]"),
                d.deflection_m[i],
                u.deflection_m[i],
                Interval::between(settled.deflection_m[i], exact.deflection_m[i]),
                0.0,
                atol_m,
            );
            add(
                format!("hanging.force_n[{i}]"),
                d.force_n[i],
                u.force_n[i],
                Interval::between(settled.lanyard_force_n[i], exact.lanyard_force_n[i]),
                rtol,
                0.0,
            );
            let extension = self.reference.reference.workers[i].absorber_extension_m;
            let slack_m = extension.map_or(0.0, |v| v.interval().high - v.ends().0.max(v.ends().1));
            let spread_m = extension.map_or(0.0, |v| (v.ends().0 - v.ends().1).abs());
            add(
                format!("hanging.drop_m[{i}]"),
                d.drop_m[i],
                u.drop_m[i],
                Interval::between(settled.drop_of_mass_m[i], exact.drop_of_mass_m[i]),
                0.0,
                atol_m + slack_m + spread_m,
            );
        }
        out
    }
}

fn passes_or_is_named(c: &Compared) -> Result<(), Failed> {
    let named = OUTSIDE
        .iter()
        .find(|o| o.id == c.id && o.quantity == c.quantity);
    match (c.passes(), named) {
        (true, None) | (false, Some(_)) => Ok(()),
        (false, None) => Err(format!("outside, and not named: {}", c.line()).into()),
        (true, Some(o)) => Err(format!(
            "passes, and still named as an exception ({}): {}",
            o.reason,
            c.line()
        )
        .into()),
    }
}

fn enough_pass(all: &[Compared]) -> Result<(), Failed> {
    let good = all.iter().filter(|c| c.passes()).count();
    if good as f64 >= DYNAMIC_PASS_RATIO * all.len() as f64 {
        Ok(())
    } else {
        Err(format!("{good} of {} pass", all.len()).into())
    }
}

/// Holds the README's figures of these falls.
fn readme(falls: usize, all: &[Compared], inline_ids: &[String]) {
    let inside = all.iter().filter(|c| c.passes()).count();
    let inline = all
        .iter()
        .filter(|c| c.quantity.starts_with("line.tension") && inline_ids.contains(&c.id))
        .map(|c| c.deviation().abs())
        .fold(0.0, f64::max);
    figures::hold(Figure::ArrestFalls, &falls.to_string());
    let part = inside as f64 / all.len() as f64;
    figures::hold(Figure::ArrestInside, &figures::at_least_percent(part));
    figures::hold(Figure::ArrestInline, &figures::at_most_percent(inline));
}

fn few_outside_any_model(all: &[Compared]) -> Result<(), Failed> {
    let outside: Vec<String> = all
        .iter()
        .filter(|c| !c.lies_with_any_model())
        .map(Compared::line)
        .collect();
    if outside.len() <= DYNAMIC_OUTSIDE_ANY_MODEL_MAX {
        Ok(())
    } else {
        Err(outside.join("\n").into())
    }
}

fn energy_residual(run: &Run) -> Result<(), Failed> {
    for (damping_s, outcome) in [(STATED_DAMPING_S, &run.damped), (0.0, &run.undamped)] {
        let residual = energy::residual_ratio(&run.reference.case(damping_s), outcome);
        // Also false for NaN.
        if !(0.0..=ENERGY_RESIDUAL_MAX).contains(&residual) {
            return Err(format!("{residual}: {:?}", outcome.history.energy).into());
        }
    }
    Ok(())
}

/// The absorber law by energy, from the instant the lanyard is taut: m g (h + d) = work taken at
/// stretch d, with the elastic part, the plateau F over at most e, then the lock slope from F.
fn rigid_closed_form(run: &Run) -> Result<(), Failed> {
    let worker = &run.reference.inputs.workers[0];
    let weight_n = worker.mass_kg * footroom_core::constants::GRAVITY_M_PER_S2;
    let h_m = worker.free_fall_m;
    let k = worker.lanyard_stiffness_n_per_m;
    // Slope k from zero: k d²/2 = W (h + d).
    let elastic_m =
        |k: f64| (weight_n + (weight_n * weight_n + 2.0 * k * weight_n * h_m).sqrt()) / k;
    let (stretch_m, force_n, extension_m) = match worker.plateau_n {
        None => (elastic_m(k), k * elastic_m(k), 0.0),
        Some(plateau_n) if k * elastic_m(k) <= plateau_n => (elastic_m(k), k * elastic_m(k), 0.0),
        Some(plateau_n) => {
            let yield_m = plateau_n / k;
            // F d − F²/(2k) = W (h + d).
            let stretch_m = (weight_n * h_m + 0.5 * plateau_n * yield_m) / (plateau_n - weight_n);
            let most_m = worker.plateau_max_extension_m.expect("plateau extension");
            if plateau_n > weight_n && stretch_m - yield_m <= most_m {
                (stretch_m, plateau_n, stretch_m - yield_m)
            } else {
                // What is left goes into the lock: F x + k x²/2 = left + W x.
                let k_lock = worker.locked_stiffness_n_per_m.expect("lock stiffness");
                let at_m = yield_m + most_m;
                let left_j = weight_n * (h_m + at_m) - plateau_n * (at_m - 0.5 * yield_m);
                let net_n = plateau_n - weight_n;
                let x_m = (-net_n + (net_n * net_n + 2.0 * k_lock * left_j).sqrt()) / k_lock;
                (at_m + x_m, plateau_n + k_lock * x_m, most_m)
            }
        }
    };
    for (name, outcome) in [("damped", &run.damped), ("undamped", &run.undamped)] {
        let found = &outcome.workers[0];
        for (what, value, expected, atol) in [
            (
                "arrest_force_max_n",
                found.arrest_force_max_n,
                force_n,
                RIGID_RTOL * force_n,
            ),
            (
                "drop_first_lowest_m",
                found.drop_first_lowest_m,
                h_m + stretch_m,
                RIGID_DROP_ATOL_M,
            ),
            (
                "absorber_extension_m",
                found.absorber_extension_m,
                extension_m,
                RIGID_DROP_ATOL_M,
            ),
        ] {
            if (value - expected).abs() > atol {
                return Err(format!(
                    "{name} {what}: {value} against {expected}, allowed {atol:.1e}"
                )
                .into());
            }
        }
        if found.line_deflection_max_m != 0.0 {
            return Err(format!("a support deflects: {}", found.line_deflection_max_m).into());
        }
    }
    Ok(())
}

fn print_inline(cases: &[Run]) {
    println!("\nin-line absorber: greatest tension, N");
    for run in cases {
        if run.reference.inputs.inline_absorber.is_none() {
            continue;
        }
        let r = run.reference.reference.line.as_ref().expect("line values");
        let (undamped_n, damped_n) = r.peak_line_tension_max_n.ends();
        let history = &run.damped.history;
        println!(
            "  {}: {:.0}; reference damped {damped_n:.0}, undamped {undamped_n:.0}",
            run.reference.id, history.tension_max_n
        );
    }
}
