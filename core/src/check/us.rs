//! The limits of 29 CFR 1926 Subpart M.

use alloc::vec::Vec;

use super::{
    Check, CheckSet, Demands, Kind, Reason, Source, Subject, Verdict, clause, for_information,
    judge, larger, limit, smaller, strength, worst_of,
};
use crate::absorber::Pull;
use crate::case::{Case, Gear, GearKind, Worker};
use crate::constants::{FOOT_M, GRAVITY_M_PER_S2, POUND_FORCE_N, POUND_KG, WORKERS_MAX};
use crate::quantity::Quantity;

/// Most arrest force on a worker in a body harness, N: 1,800 lbf, or the 8 kN that the text gives
/// beside it, whichever is less.
///
/// # Source
/// 29 CFR 1926.502(d)(16)(ii).
pub const US_ARREST_FORCE_MAX_N: f64 = smaller(1_800.0 * POUND_FORCE_N, 8_000.0);

/// Most free fall, m: 6 ft, or the 1.8 m that the text gives beside it, whichever is less.
///
/// # Source
/// 29 CFR 1926.502(d)(16)(iii).
pub const US_FREE_FALL_MAX_M: f64 = smaller(6.0 * FOOT_M, 1.8);

/// Most deceleration distance, m: 3.5 ft, or the 1.07 m that the text gives beside it, whichever
/// is less. It excludes free fall and lifeline elongation (29 CFR 1926.500(b), definition).
///
/// # Source
/// 29 CFR 1926.502(d)(16)(iv).
pub const US_DECELERATION_DISTANCE_MAX_M: f64 = smaller(3.5 * FOOT_M, 1.07);

/// Least ratio of strength to load of the complete system.
///
/// # Source
/// 29 CFR 1926.502(d)(8).
pub const US_SYSTEM_RATIO_MIN: f64 = 2.0;

/// Strength of an anchorage for each worker attached, N, where it is not part of a complete
/// system with a factor of at least two: 5,000 lbf, or the 22.2 kN that the text gives beside it,
/// whichever is more.
///
/// # Source
/// 29 CFR 1926.502(d)(15).
pub const US_ANCHORAGE_PER_WORKER_N: f64 = larger(5_000.0 * POUND_FORCE_N, 22_200.0);

/// Least breaking strength of a lanyard, N: 5,000 lbf, or the 22.2 kN that the text gives beside it,
/// whichever is more. Lanyards that tear or deform keep it fully extended.
///
/// # Source
/// 29 CFR 1926.502(d)(9) and (d)(13).
pub const US_LANYARD_STRENGTH_N: f64 = larger(5_000.0 * POUND_FORCE_N, 22_200.0);

/// Least tensile load that a self-retracting lifeline bears fully extended, N, where it limits free
/// fall to [`US_SELF_RETRACTING_FREE_FALL_MAX_M`]: 3,000 lbf, or 13.3 kN, whichever is more. Where it
/// does not, [`US_LANYARD_STRENGTH_N`].
///
/// # Source
/// 29 CFR 1926.502(d)(12) and (d)(13), the kilonewtons from memory.
pub const US_SELF_RETRACTING_STRENGTH_N: f64 = larger(3_000.0 * POUND_FORCE_N, 13_300.0);

/// Free fall up to which a self-retracting lifeline counts as limiting it, m: 2 ft, or 0.61 m,
/// whichever is less.
///
/// # Source
/// 29 CFR 1926.502(d)(12), the metres from memory.
pub const US_SELF_RETRACTING_FREE_FALL_MAX_M: f64 = smaller(2.0 * FOOT_M, 0.61);

/// Free fall whose impact energy, twice, a system withstands, m, unless it allows less: 6 ft, or
/// 1.8 m, whichever is more.
///
/// # Source
/// 29 CFR 1926.502(d)(16)(v).
pub const US_IMPACT_FREE_FALL_M: f64 = larger(6.0 * FOOT_M, 1.8);

/// Times the impact energy that a system withstands.
///
/// # Source
/// 29 CFR 1926.502(d)(16)(v).
pub const US_IMPACT_ENERGIES: f64 = 2.0;

/// Mass of a worker with tools, kg, below which the criteria of the regulation's tests hold as they
/// are: 310 lb, or the 140 kg beside it, whichever is less. From there on the employer must modify them.
///
/// # Source
/// 29 CFR 1926.502(d)(16), note, from memory; 29 CFR 1910.140(d)(1) says the same.
pub const US_USER_MASS_KG: f64 = smaller(310.0 * POUND_KG, 140.0);

const CLAUSE_ARREST: &str = "29 CFR 1926.502(d)(16)(ii)";

const CLAUSE_FALL: &str = "29 CFR 1926.502(d)(16)(iii)";

const CLAUSE_DECELERATION: &str =
    "29 CFR 1926.502(d)(16)(iv); 29 CFR 1926.500(b), deceleration distance";

const CLAUSE_SYSTEM: &str = "29 CFR 1926.502(d)(8)";

const CLAUSE_ANCHORAGE: &str = "29 CFR 1926.502(d)(15)";

const CLAUSE_LANYARD: &str = "29 CFR 1926.502(d)(9), (d)(13)";

const CLAUSE_SELF_RETRACTING: &str = "29 CFR 1926.502(d)(12)";

const CLAUSE_NOT_LIMITING: &str = "29 CFR 1926.502(d)(13)";

const CLAUSE_IMPACT: &str = "29 CFR 1926.502(d)(16)(v)";

const CLAUSE_USER_MASS: &str = "29 CFR 1926.502(d)(16), note";

pub(super) fn us(all: &mut Vec<Check>, case: &Case, demands: &Demands, parts: &[Check]) {
    for w in &demands.workers {
        let subject = Subject::Worker { worker: w.worker };
        let mut push = |key, quantity, demand, most, source| {
            all.push(limit(
                key,
                CheckSet::Us,
                subject,
                quantity,
                demand,
                most,
                clause(source),
            ));
        };
        push(
            "us.arrest_force",
            Quantity::Force,
            w.arrest_force_n,
            US_ARREST_FORCE_MAX_N,
            CLAUSE_ARREST,
        );
        push(
            "us.free_fall",
            Quantity::Length,
            w.free_fall_m,
            US_FREE_FALL_MAX_M,
            CLAUSE_FALL,
        );
        push(
            "us.deceleration_distance",
            Quantity::Length,
            w.deceleration_distance_m,
            US_DECELERATION_DISTANCE_MAX_M,
            CLAUSE_DECELERATION,
        );
        // No contact: depth of the soles, without the margin. To touch is to make contact.
        let soles_m = w.required_depth_m - w.margin_m;
        push(
            "us.no_contact",
            Quantity::Length,
            soles_m,
            w.available_depth_m,
            CLAUSE_FALL,
        );
        if let Some(check) = all.last_mut()
            && (w.contact || soles_m >= w.available_depth_m)
        {
            check.verdict = Verdict::DoesNotMeet;
            check.reason = None;
        }
    }
    all.push(system_factor(parts));
    let attached = case.workers.len().min(WORKERS_MAX) as f64;
    all.push(for_information(judge(Check {
        required_ratio: 1.0,
        source: clause(CLAUSE_ANCHORAGE),
        ..strength(
            "us.anchorage_alternative",
            Subject::System,
            Quantity::Force,
            US_ANCHORAGE_PER_WORKER_N * attached,
            case.strengths.end_anchorage_n,
            1.0,
            "strengths.end_anchorage_n",
        )
        .of(CheckSet::Us)
    })));
    personal_gear(all, case, demands);
}

/// Rated strength of lanyards and self-retracting lifelines, and the weight for which they are tested.
/// Everyone attached counts, not only who falls.
fn personal_gear(all: &mut Vec<Check>, case: &Case, demands: &Demands) {
    let by = &case.tolerances;
    let mass_kg = |worker: &Worker| worker.mass_kg * (1.0 + by.mass_ratio);
    let workers = || case.workers.iter().enumerate();
    let fall_m = |i: usize, worker: &Worker| {
        let of_fall = demands.workers.iter().find(|w| w.worker == i);
        let geometry_m = worker.free_fall_m(&case.line);
        of_fall.map_or(geometry_m, |w| larger(geometry_m, w.free_fall_m))
    };
    for (kind, rated, field) in [
        (
            GearKind::Lanyard,
            case.strengths.lanyard_n,
            "strengths.lanyard_n",
        ),
        (
            GearKind::SelfRetracting,
            case.strengths.self_retracting_n,
            "strengths.self_retracting_n",
        ),
    ] {
        let users = || workers().filter(move |(_, w)| w.gear.kind == kind);
        if users().next().is_none() {
            continue;
        }
        let (key, least_n, source) = match kind {
            GearKind::Lanyard => ("us.lanyard_strength", US_LANYARD_STRENGTH_N, CLAUSE_LANYARD),
            GearKind::SelfRetracting
                if users().all(|(i, w)| fall_m(i, w) <= US_SELF_RETRACTING_FREE_FALL_MAX_M) =>
            {
                (
                    "us.self_retracting_strength",
                    US_SELF_RETRACTING_STRENGTH_N,
                    CLAUSE_SELF_RETRACTING,
                )
            }
            GearKind::SelfRetracting => (
                "us.self_retracting_strength",
                US_LANYARD_STRENGTH_N,
                CLAUSE_NOT_LIMITING,
            ),
        };
        let mut push = |key, subject, demand, source| {
            all.push(judge(Check {
                source: clause(source),
                ..strength(key, subject, Quantity::Force, demand, rated, 1.0, field)
                    .of(CheckSet::Us)
            }));
        };
        push(key, Subject::System, least_n, source);
        let (force_n, subject) = worst_of(users().map(|(i, w)| {
            let fall_m = smaller(fall_m(i, w), US_IMPACT_FREE_FALL_M);
            (
                impact_force_n(&w.gear, mass_kg(w), fall_m, by.absorber_force_ratio),
                Subject::Worker { worker: i },
            )
        }));
        push(
            "us.twice_impact_energy",
            subject,
            force_n.unwrap_or(f64::NAN),
            CLAUSE_IMPACT,
        );
    }
    let (heaviest_kg, subject) =
        worst_of(workers().map(|(i, w)| (mass_kg(w), Subject::Worker { worker: i })));
    let mut check = limit(
        "us.user_mass",
        CheckSet::Us,
        subject,
        Quantity::Mass,
        heaviest_kg.unwrap_or(f64::NAN),
        US_USER_MASS_KG,
        Source::Clause {
            clause: CLAUSE_USER_MASS,
            from_memory: true,
        },
    );
    if check.demand.is_some_and(|kg| kg >= US_USER_MASS_KG) {
        check.verdict = Verdict::NotEvaluated;
        check.reason = Some(Reason::CriteriaToModify);
    }
    all.push(check);
}

/// Force in the gear, N, when it alone takes twice the impact energy of a free fall, m g h each, and
/// the work of the weight while it stretches: at an anchorage that does not move, as in the
/// regulation's test, with an absorber that is too weak by its tolerance.
///
/// Not less than its maximum force where the absorber deploys.
fn impact_force_n(gear: &Gear, mass_kg: f64, fall_m: f64, weaker_ratio: f64) -> f64 {
    let mut weak = *gear;
    if let Some(absorber) = &mut weak.absorber {
        *absorber = absorber.scaled(1.0 - weaker_ratio);
    }
    let weight_n = mass_kg * GRAVITY_M_PER_S2;
    let pull = Pull::new(&weak);
    let force_n = pull.force_taking_n(US_IMPACT_ENERGIES * weight_n * fall_m, weight_n);
    match gear.absorber {
        Some(absorber) if force_n >= pull.deploys_n() => larger(force_n, absorber.maximum_n()),
        _ => force_n,
    }
}

/// The factor of the whole system: that of its weakest part.
pub(super) fn system_factor(parts: &[Check]) -> Check {
    let counted = parts
        .iter()
        .filter(|c| c.reason != Some(Reason::Information));
    let missing = counted
        .clone()
        .filter(|c| c.verdict == Verdict::NotEvaluated)
        .count();
    let weakest = counted
        .filter_map(|c| c.ratio.map(|ratio| (ratio, c)))
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, c)| c);
    let mut check = judge(Check {
        key: "us.system_factor",
        label: None,
        set: CheckSet::Us,
        subject: weakest.map_or(Subject::System, |c| c.subject),
        quantity: weakest.map_or(Quantity::Force, |c| c.quantity),
        kind: Kind::RatioAtLeast,
        demand: weakest.and_then(|c| c.demand),
        capacity: weakest.and_then(|c| c.capacity),
        ratio: None,
        required_ratio: US_SYSTEM_RATIO_MIN,
        source: clause(CLAUSE_SYSTEM),
        verdict: Verdict::NotEvaluated,
        reason: Some(Reason::DemandNotKnown),
        governing: weakest.map(|c| c.key),
    });
    if check.verdict != Verdict::DoesNotMeet && missing > 0 {
        check.verdict = Verdict::NotEvaluated;
        check.reason = Some(Reason::PartsNotEvaluated { count: missing });
    }
    check
}
