//! Headline limits of European standards.

use alloc::vec::Vec;

use super::{Check, CheckSet, Demands, Source, Subject, for_information, limit};
use crate::case::{Case, GearKind};
use crate::quantity::Quantity;

/// Most arrest force in the test of a self-retracting lifeline, N: 100 kg dropped 0.6 m.
///
/// # Source
/// EN 360:2002, from memory; a published summary gives the same.
pub const EN_RETRACTABLE_FORCE_MAX_N: f64 = 6_000.0;

/// Most arrest distance in the test of a self-retracting lifeline, m, the fall before it locks included.
///
/// # Source
/// EN 360:2002, from memory; a published summary gives the same.
pub const EN_RETRACTABLE_DISTANCE_MAX_M: f64 = 2.0;

/// Most arrest force in the test of an energy absorber, N: 100 kg dropped through twice the
/// lanyard's length.
///
/// # Source
/// EN 355:2002 (limits).
pub const EN_ARREST_FORCE_MAX_N: f64 = 6_000.0;

/// Most extension in the test of an energy absorber, m.
///
/// # Source
/// EN 355:2002 (limits).
pub const EN_EXTENSION_MAX_M: f64 = 1.75;

/// Users for whom the anchor devices of EN 795:2012 are made. More than one is the subject of
/// CEN/TS 16415:2013.
///
/// # Source
/// EN 795:2012, scope, from memory.
pub const EN_USERS_MAX: u8 = 1;

const CLAUSE_EN_ABSORBER: &str = "EN 355:2002";

const CLAUSE_EN_RETRACTABLE: &str = "EN 360:2002";

const CLAUSE_EN_USERS: &str = "EN 795:2012, scope; CEN/TS 16415:2013";

/// Limits that a product meets in its own test, set beside what this fall asks.
pub(super) fn european(all: &mut Vec<Check>, case: &Case, demands: &Demands) {
    for w in &demands.workers {
        let kind = case.workers.get(w.worker).map(|worker| worker.gear.kind);
        let retracting = kind == Some(GearKind::SelfRetracting);
        let (force, length, source) = if retracting {
            (
                ("eu.retractable_arrest_force", EN_RETRACTABLE_FORCE_MAX_N),
                (
                    "eu.retractable_arrest_distance",
                    w.free_fall_m + w.deceleration_distance_m,
                    EN_RETRACTABLE_DISTANCE_MAX_M,
                ),
                CLAUSE_EN_RETRACTABLE,
            )
        } else {
            (
                ("eu.arrest_force", EN_ARREST_FORCE_MAX_N),
                (
                    "eu.absorber_extension",
                    w.deceleration_distance_m,
                    EN_EXTENSION_MAX_M,
                ),
                CLAUSE_EN_ABSORBER,
            )
        };
        for (key, quantity, demand, most) in [
            (force.0, Quantity::Force, w.arrest_force_n, force.1),
            (length.0, Quantity::Length, length.1, length.2),
        ] {
            all.push(limit(
                key,
                CheckSet::European,
                Subject::Worker { worker: w.worker },
                quantity,
                demand,
                most,
                Source::Clause {
                    clause: source,
                    from_memory: retracting,
                },
            ));
        }
    }
    all.push(for_information(limit(
        "eu.users",
        CheckSet::European,
        Subject::System,
        Quantity::Ratio,
        case.workers.len() as f64,
        f64::from(EN_USERS_MAX),
        Source::Clause {
            clause: CLAUSE_EN_USERS,
            from_memory: true,
        },
    )));
}
