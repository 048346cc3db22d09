//! Core against published values, numbered as in the project's list of them. Marks: "from memory"
//! means that the value was not re-read in its source; "common practice" that it has no source.

use footroom_core::case::{Absorber, Case, Gear, Line, Motion, Site, Worker};
use footroom_core::constants::{AVERAGE_OVER_MAXIMUM_FORCE, GRAVITY_M_PER_S2};
use footroom_core::line::{PointLoad, hang};
use footroom_core::rope::{CATALOGUE, Construction, Rope};
use footroom_core::solve::{Options, Outcome, solve};
use support::closeness::{assert_close, assert_near};
use support::tolerance::{CLEARANCE_ATOL_M, CLOSED_FORM_RTOL, RIGID_RTOL, THREE_DIGITS_RTOL};

const FOOT_M: f64 = 0.3048;
const POUND_FORCE_N: f64 = 4.448_221_615_260_5;

fn solved(case: &Case) -> Outcome {
    solve(case, Options::default()).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// One worker at a support, which does not move, with gear whose webbing is as stiff as allowed.
fn at_a_support(mass_kg: f64, free_fall_m: f64, absorber: Option<Absorber>) -> Case {
    Case {
        workers: vec![Worker {
            position_m: 0.0,
            mass_kg,
            gear: Gear {
                stiffness_n_per_m: 1.0e6,
                absorber,
                free_fall_m: Some(free_fall_m),
                ..Gear::default()
            },
            ..Worker::default()
        }],
        site: Site {
            beam_top_m: 50.0,
            ..Site::default()
        },
        motion: Motion {
            duration_s: 3.0,
            ..Motion::default()
        },
        ..Case::default()
    }
}

fn absorber(force_n: f64, max_extension_m: f64) -> Option<Absorber> {
    Some(Absorber {
        average_force_n: force_n,
        maximum_force_n: Some(force_n),
        max_extension_m,
        locked_stiffness_n_per_m: 1.0e6,
    })
}

/// Published 1: A horizontal lifeline amplifies the load of an attached lanyard about 2:1 at a sag angle of
/// 15°, about 6:1 at 5°: tension over transverse load, 1/(2 sin a) = 1.93 and 5.74.
/// Source: 29 CFR 1926 Subpart M, Appendix C (non-mandatory guidelines).
#[test]
fn published_1_amplification_at_a_sag_angle() {
    for (angle_deg, printed, axial_stiffness_n) in [(15.0_f64, 1.93, 1.0e7), (5.0, 5.74, 1.0e8)] {
        let line = Line {
            spans_m: vec![10.0],
            pretension_n: 50.0,
            rope: Rope {
                construction: Construction::Own,
                axial_stiffness_n,
                mass_per_length_kg_per_m: 0.02,
                breaking_force_n: None,
                ..Rope::default()
            },
            ..Line::default()
        };
        let at = |force_n: f64| {
            hang(
                &line,
                &[PointLoad {
                    position_m: 5.0,
                    force_n,
                }],
            )
            .expect("a valid line")
        };
        // The load at which the line sags by the angle.
        let sag_m = 5.0 * angle_deg.to_radians().tan();
        let (mut low_n, mut high_n) = (100.0, 1.0e6);
        assert!(at(low_n).deflection_m[0] < sag_m && at(high_n).deflection_m[0] > sag_m);
        for _ in 0..100 {
            let force_n = 0.5 * (low_n + high_n);
            if at(force_n).deflection_m[0] < sag_m {
                low_n = force_n;
            } else {
                high_n = force_n;
            }
        }
        let ratio = at(low_n).tension_max_n / low_n;
        let closed_form = 0.5 / angle_deg.to_radians().sin();
        // The rope's weight carries half of itself to each end, as much as that part of the load.
        let weight_rtol = line.weight_n_per_m() * 10.0 / low_n;
        assert_close(
            "tension over load",
            ratio,
            closed_form,
            CLOSED_FORM_RTOL + weight_rtol,
        );
        assert_close("as printed", ratio, printed, THREE_DIGITS_RTOL);
    }
}

/// Published 7: Total fall clearance = free fall, deceleration distance, D-ring shift, back D-ring height
/// and safety factor, added: 6, 3.5, 1, 5 and 3 ft make 18.5 ft below an anchorage level with the D-ring.
/// Source: OSHA Technical Manual, Section V, Chapter 4 (formula, first four terms); the 3 ft margin
/// and the sum are widely repeated common practice, no source.
#[test]
fn published_7_total_fall_clearance() {
    let (free_fall_m, deceleration_m) = (6.0 * FOOT_M, 3.5 * FOOT_M);
    let (weight_n, k) = (100.0 * GRAVITY_M_PER_S2, 1.0e6);
    // The force that stops him in just that distance: F d − F²/(2k) = W (h + d).
    let discriminant =
        deceleration_m * deceleration_m - 2.0 * weight_n * (free_fall_m + deceleration_m) / k;
    let force_n = k * (deceleration_m - discriminant.sqrt());
    let mut case = at_a_support(100.0, free_fall_m, absorber(force_n, 2.0));
    case.line.height_above_beam_m = 5.0 * FOOT_M;
    case.site.margin_m = 3.0 * FOOT_M;
    let worker = &mut case.workers[0];
    worker.dring_height_m = 5.0 * FOOT_M;
    worker.harness_stretch_m = FOOT_M;
    worker.gear.length_m = free_fall_m;
    // The free fall then follows from the geometry.
    worker.gear.free_fall_m = None;
    let outcome = solved(&case);
    let found = &outcome.workers[0];
    assert_near("free fall", found.free_fall_m, 6.0 * FOOT_M, 1.0e-12);
    for (method, stack) in [
        ("history", &found.history_stack),
        ("balance", &found.balance_stack),
    ] {
        assert_near(method, stack.required_m, 18.5 * FOOT_M, CLEARANCE_ATOL_M);
        assert_eq!(stack.line_deflection_m, 0.0, "{method}");
    }
}

/// Published 8: 100 kg dropped through twice a 2 m lanyard: at 6 kN, the most allowed, an absorber
/// that just stops the mass at constant force pays out 0.781 m; it takes an average of at least 3.22 kN to
/// stop within 1.75 m, the most allowed.
/// Source: EN 355:2002 (limits); the rest is algebra on them.
#[test]
fn published_8_energy_absorber_test() {
    let at_limit = solved(&at_a_support(100.0, 4.0, absorber(6_000.0, 1.75)));
    let found = &at_limit.workers[0];
    assert_close("force", found.arrest_force_max_n, 6_000.0, RIGID_RTOL);
    assert_close(
        "extension",
        found.absorber_extension_m,
        0.781,
        THREE_DIGITS_RTOL,
    );
    assert_close(
        "extension by energy",
        at_limit.balance.absorber_extension_m[0],
        0.781,
        THREE_DIGITS_RTOL,
    );
    assert!(!found.absorber_used_up);

    let enough = solved(&at_a_support(100.0, 4.0, absorber(3_240.0, 1.75)));
    assert!(!enough.workers[0].absorber_used_up, "3.24 kN stops it");
    let too_little = solved(&at_a_support(100.0, 4.0, absorber(3_200.0, 1.75)));
    assert!(too_little.workers[0].absorber_used_up, "3.20 kN does not");
    assert!(too_little.workers[0].arrest_force_max_n > 3_200.0);
}

/// Published 9: Average deployment force about 87.5 % of the maximum arrest force (20 drop tests, 10 models).
/// Source: Carrión, Saez, Pomares, González, Int. J. Environ. Res. Public Health 17 (2020) 7647.
#[test]
fn published_9_average_over_maximum_force() {
    assert_eq!(AVERAGE_OVER_MAXIMUM_FORCE, 0.875);
    let absorber = Absorber {
        average_force_n: 3_500.0,
        maximum_force_n: None,
        ..Absorber::default()
    };
    assert_close("maximum", absorber.maximum_n(), 4_000.0, 1.0e-12);
}

/// Published 11: Falling mass on a linear spring: F = W (1 + √(1 + 2 h k/W)).
/// Source: any strength-of-materials handbook (e.g. Roark's Formulas for Stress and Strain,
/// dynamic loading).
#[test]
fn published_11_falling_mass_on_a_spring() {
    for (mass_kg, free_fall_m, k) in [
        (100.0, 0.6, 1.0e5),
        (60.0, 0.05, 2.0e4),
        (140.0, 2.0, 3.0e5),
        (80.0, 0.0, 5.0e4),
    ] {
        let mut case = at_a_support(mass_kg, free_fall_m, None);
        case.workers[0].gear.stiffness_n_per_m = k;
        let weight_n = mass_kg * GRAVITY_M_PER_S2;
        let expected_n = weight_n * (1.0 + (1.0 + 2.0 * free_fall_m * k / weight_n).sqrt());
        let outcome = solved(&case);
        assert_close(
            "history",
            outcome.workers[0].arrest_force_max_n,
            expected_n,
            RIGID_RTOL,
        );
        assert_close(
            "balance",
            outcome.balance.arrest_force_n[0],
            expected_n,
            CLOSED_FORM_RTOL,
        );
    }
}

/// Published 12: Taut string: midspan sag w L²/(8H), extra length w² L³/(24 H²); a point load at midspan
/// deflects P L/(4H).
/// Source: H. M. Irvine, Cable Structures, MIT Press 1981.
#[test]
fn published_12_taut_string() {
    let (span_m, h_n, ea_n) = (20.0, 29_000.0, 1.0e8);
    let mut case = at_a_support(100.0, 1.0, absorber(4_000.0, 1.75));
    case.line = Line {
        spans_m: vec![span_m],
        pretension_n: h_n,
        rope: Rope {
            construction: Construction::Own,
            axial_stiffness_n: ea_n,
            mass_per_length_kg_per_m: 6.0,
            breaking_force_n: None,
            ..Rope::default()
        },
        ..Line::default()
    };
    let w = case.line.weight_n_per_m();
    let rest = solved(&case).rest;
    assert_close(
        "sag",
        rest.sag_m[0],
        w * span_m * span_m / (8.0 * h_n),
        CLOSED_FORM_RTOL,
    );
    // Extra length = unstretched rope + its stretch − chord, stretch H/EA (L + twice the extra).
    let extra_m = w * w * span_m.powi(3) / (24.0 * h_n * h_n);
    let stretch_m = h_n / ea_n * (span_m + 2.0 * extra_m);
    // Second order in the strain 2.9e-4: where the stretch is counted on the stretched rope the
    // unstretched one comes out shorter by up to strain² L, which is taken into the allowance.
    let second_order_m = (h_n / ea_n).powi(2) * span_m;
    assert_near(
        "extra length",
        rest.unstretched_length_m + stretch_m - span_m,
        extra_m,
        CLOSED_FORM_RTOL * extra_m + second_order_m,
    );
    for force_n in [100.0, 5_000.0] {
        let found = hang(
            &case.line,
            &[PointLoad {
                position_m: span_m / 2.0,
                force_n,
            }],
        )
        .expect("a valid line");
        let own_sag_m = w * span_m * span_m / (8.0 * found.tension_horizontal_n);
        // The weight goes with the unstretched rope: its part of the deflection differs by strain.
        assert_near(
            "deflection under the load",
            found.deflection_m[0] - own_sag_m,
            force_n * span_m / (4.0 * found.tension_horizontal_n),
            CLOSED_FORM_RTOL * found.deflection_m[0],
        );
    }
}

/// Published 13: 6x19 fibre core, improved plow steel: 3/8 in 12,200 lbf (54.3 kN), 0.36 kg/m; 1/2 in
/// 21,400 lbf (95.2 kN), 0.63 kg/m; 5/8 in 33,400 lbf, 0.98 kg/m.
/// Source: engineering handbook table (6x19 IPS FC), as found in public engineering tables.
#[test]
fn published_13_fibre_core_rope() {
    for (diameter_in, breaking_lbf, mass_kg_per_m) in [
        (0.375, 12_200.0, 0.36),
        (0.5, 21_400.0, 0.63),
        (0.625, 33_400.0, 0.98),
    ] {
        let rope = catalogue(Construction::FibreCore6x19, diameter_in);
        assert_close(
            "breaking force",
            rope.breaking_force_n.expect("a breaking force"),
            breaking_lbf * POUND_FORCE_N,
            1.0e-9,
        );
        assert_eq!(rope.mass_per_length_kg_per_m, mass_kg_per_m);
    }
    let small = catalogue(Construction::FibreCore6x19, 0.375);
    assert_close(
        "3/8 in",
        small.breaking_force_n.expect("a breaking force"),
        54_300.0,
        THREE_DIGITS_RTOL,
    );
    let middle = catalogue(Construction::FibreCore6x19, 0.5);
    assert_close(
        "1/2 in",
        middle.breaking_force_n.expect("a breaking force"),
        95_200.0,
        THREE_DIGITS_RTOL,
    );
}

/// Published 14: 7x19 galvanised aircraft-type cable, minimum breaking force: 1/4 in 7,000 lbf, 5/16 in
/// 9,800 lbf, 3/8 in 14,400 lbf; stainless 3/8 in 12,000 lbf; mass of 3/8 in 24.3 lb per 100 ft.
/// Source: MIL-DTL-83420 / RR-W-410 class tables, from memory.
#[test]
fn published_14_strand() {
    for (construction, diameter_in, breaking_lbf) in [
        (Construction::Galvanised7x19, 0.25, 7_000.0),
        (Construction::Galvanised7x19, 0.3125, 9_800.0),
        (Construction::Galvanised7x19, 0.375, 14_400.0),
        (Construction::Stainless7x19, 0.375, 12_000.0),
    ] {
        assert_close(
            "breaking force",
            catalogue(construction, diameter_in)
                .breaking_force_n
                .expect("a breaking force"),
            breaking_lbf * POUND_FORCE_N,
            1.0e-9,
        );
    }
    // 24.3 lb per 100 ft = 0.3616 kg/m.
    assert_close(
        "mass per length",
        catalogue(Construction::Galvanised7x19, 0.375).mass_per_length_kg_per_m,
        24.3 * 0.453_592_37 / (100.0 * FOOT_M),
        1.0e-9,
    );
}

/// Published 15: Elastic stretch of 7x19 stainless cable in per cent = load\[lbf\] × 1.62e-5 / diameter\[in\]²;
/// example: 1/8 in, 500 lbf: 0.518 %. Hence EA = diameter² × 6.17e6 lbf/in².
/// Source: Wiley Engineer's Desk Reference, as quoted in public cable tables.
#[test]
fn published_15_elastic_stretch_of_strand() {
    // The printed example keeps the formula honest.
    assert_close(
        "printed example",
        500.0 * 1.62e-5 / (0.125 * 0.125),
        0.518,
        THREE_DIGITS_RTOL,
    );
    for row in CATALOGUE.iter().filter(|row| {
        matches!(
            row.rope.construction,
            Construction::Galvanised7x19 | Construction::Stainless7x19
        )
    }) {
        let diameter_in = row.rope.diameter_m / 0.0254;
        let load_lbf = 500.0;
        let stretch_percent = load_lbf * 1.62e-5 / (diameter_in * diameter_in);
        let core_percent = 100.0 * load_lbf * POUND_FORCE_N / row.rope.axial_stiffness_n;
        assert_close(row.id, core_percent, stretch_percent, 1.0e-9);
        assert_close(
            row.id,
            row.rope.axial_stiffness_n,
            diameter_in * diameter_in * 6.17e6 * POUND_FORCE_N,
            THREE_DIGITS_RTOL,
        );
    }
}

fn catalogue(construction: Construction, diameter_in: f64) -> Rope {
    CATALOGUE
        .iter()
        .map(|row| row.rope)
        .find(|rope| {
            rope.construction == construction
                && (rope.diameter_m / 0.0254 - diameter_in).abs() < 1.0e-9
        })
        .unwrap_or_else(|| panic!("the catalogue lacks {construction:?} {diameter_in} in"))
}
