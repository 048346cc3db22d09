//! The energy ledger of a run, added up again.

use footroom_core::case::Case;
use footroom_core::constants::GRAVITY_M_PER_S2;
use footroom_core::solve::Outcome;

/// |gravity work − everything it went into| over the greatest gravity work of the run, that is the
/// weight of all who fell times their greatest drops.
///
/// Joules where nobody had fallen. The gravity work at the end is no measure: where the run ends high on a rebound it is near zero.
pub fn residual_ratio(case: &Case, outcome: &Outcome) -> f64 {
    let e = &outcome.history.energy;
    let taken_j = e.kinetic_j + e.elastic_j + e.absorbers_j + e.inline_absorber_j + e.damping_j;
    let greatest_j: f64 = case
        .workers
        .iter()
        .zip(&outcome.workers)
        .map(|(w, found)| w.mass_kg * GRAVITY_M_PER_S2 * found.drop_max_m)
        .sum();
    let off_j = (e.gravity_work_j - taken_j).abs();
    // Nobody had begun to fall when the run ended.
    if greatest_j == 0.0 {
        return off_j;
    }
    off_j / greatest_j
}
