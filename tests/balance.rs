//! The energy balance against the references of a line without inertia: with one worker and no
//! in-line absorber such a line is at rest when he is, so that the balance is exact there.

use footroom_core::solve::{Options, solve};
use support::closeness::{assert_close, relative};
use support::figures::{self, Figure};
use support::reference::{self, STATED_DAMPING_S};
use support::tolerance::{BALANCE_EXTENSION_ATOL_M, BALANCE_RTOL};

#[test]
fn one_worker_stops_where_a_line_without_inertia_stops_him() {
    let (mut compared, mut worst) = (0, 0.0_f64);
    for reference in reference::dynamics() {
        let inputs = &reference.inputs;
        if inputs.rigid_anchorage || inputs.inline_absorber.is_some() || inputs.workers.len() > 1 {
            continue;
        }
        let case = reference.case(STATED_DAMPING_S);
        let outcome = solve(&case, Options::default()).expect("a valid case");
        let balance = &outcome.balance;
        let expected = &reference.reference.workers[0];
        let line = reference.reference.line.as_ref().expect("line values");
        let of = |value: &reference::DynamicValue| value.value_line_without_inertia;
        let id = &reference.id;
        for (what, found, value) in [
            (
                "horizontal tension",
                balance.tension_horizontal_n,
                of(&line.peak_line_tension_horizontal_n),
            ),
            (
                "greatest tension",
                balance.tension_max_n,
                of(&line.peak_line_tension_max_n),
            ),
            (
                "arrest force",
                balance.arrest_force_n[0],
                of(&expected.peak_lanyard_force_n),
            ),
            (
                "deflection",
                balance.deflection_m[0],
                expected.line_deflection_max_m.as_ref().and_then(of),
            ),
            (
                "drop",
                outcome.workers[0].free_fall_m + balance.deflection_m[0]
                    - case.line.rest_deflection_m(case.workers[0].position_m)
                    + outcome.workers[0].balance_stack.absorber_extension_m,
                of(&expected.drop_first_deepest_m),
            ),
        ] {
            let value = value.unwrap_or_else(|| panic!("{id}: no {what}"));
            assert_close(&format!("{id} {what}"), found, value, BALANCE_RTOL);
            worst = worst.max(relative(found, value));
        }
        if let Some(value) = expected.absorber_extension_m.as_ref().and_then(of) {
            let found = balance.absorber_extension_m[0];
            assert!(
                (found - value).abs() <= BALANCE_EXTENSION_ATOL_M,
                "{id} extension: {found} against {value}"
            );
        }
        compared += 1;
    }
    assert!(compared >= 7, "{compared} cases");
    figures::hold(Figure::Balance, &figures::at_most_percent(worst));
}
