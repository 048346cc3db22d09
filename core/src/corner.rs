//! Tolerance corners: the case with its inputs off by their tolerances, all to the side that asks
//! for more clearance, or all to the side that asks for more strength.
//!
//! Soft corner, for clearance: heavier workers, weaker absorbers, less pretension, softer rope and
//! ends, in-line absorber yielding earlier. Stiff corner, for strength: heavier workers, absorbers
//! at their maximum force, more pretension, stiffer rope and ends, in-line absorber yielding later, and
//! a line without internal friction, which takes nothing out of the waves that make its peaks.
//! tests/corners.rs measures by how much any other combination can exceed them.

use crate::case::Case;
use crate::ready::Ready;

/// Which values of the inputs a number was computed with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Corner {
    /// As given.
    Nominal,
    /// Off to the soft side.
    Soft,
    /// Off to the stiff side.
    Stiff,
    /// Weak absorbers and heavy workers on a stiff line.
    Mixed,
}

/// Which way each toleranced input is off.
///
/// `true`: to its high side. Used to build the two corners, and by tests to try all others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sides {
    /// Mass of every worker.
    pub mass: bool,
    /// Personal absorbers: `true` takes the maximum force, or a curve as strong as it may be, `false`
    /// average or curve less the tolerance.
    pub absorber_force: bool,
    /// Pretension.
    pub pretension: bool,
    /// Axial stiffness of the rope.
    pub axial_stiffness: bool,
    /// Stiffness of the ends.
    pub end_stiffness: bool,
    /// Yield force of the in-line absorber.
    pub inline_force: bool,
    /// Damping of the line: `true` takes it as given, `false` takes none.
    pub damping: bool,
}

impl Sides {
    /// The soft corner.
    pub const SOFT: Self = Self {
        mass: true,
        absorber_force: false,
        pretension: false,
        axial_stiffness: false,
        end_stiffness: false,
        inline_force: false,
        damping: true,
    };
    /// The stiff corner.
    pub const STIFF: Self = Self {
        mass: true,
        absorber_force: true,
        pretension: true,
        axial_stiffness: true,
        end_stiffness: true,
        inline_force: true,
        damping: false,
    };
    /// Weak absorbers on a stiff line: the worst for tension where an absorber is used up, and
    /// for clearance at times where there is an in-line absorber.
    pub const MIXED: Self = Self {
        absorber_force: false,
        inline_force: false,
        ..Self::STIFF
    };
}

/// The case with every toleranced input moved to the given side: the ends by what their posts come
/// to, the pretension from today's.
///
/// Pretension above what the in-line absorber bears at rest is held at its yield force.
pub fn moved(ready: &Ready, sides: Sides) -> Ready {
    ready.with(|case| move_inputs(case, sides))
}

fn move_inputs(case: &mut Case, sides: Sides) {
    let by = case.tolerances;
    let factor = |high: bool, part: f64| if high { 1.0 + part } else { 1.0 - part };
    for worker in &mut case.workers {
        worker.mass_kg *= factor(sides.mass, by.mass_ratio);
        if let Some(absorber) = &mut worker.gear.absorber {
            *absorber = if sides.absorber_force {
                absorber.strongest(by.absorber_force_ratio)
            } else {
                absorber.scaled(1.0 - by.absorber_force_ratio)
            };
        }
    }
    if !sides.damping {
        case.motion.damping_s = 0.0;
    }
    let line = &mut case.line;
    line.rope.axial_stiffness_n *= factor(sides.axial_stiffness, by.axial_stiffness_ratio);
    let ends = factor(sides.end_stiffness, by.end_stiffness_ratio);
    for k in [
        &mut line.left_end_stiffness_n_per_m,
        &mut line.right_end_stiffness_n_per_m,
    ] {
        *k = k.map(|k| k * ends);
    }
    line.pretension_n *= factor(sides.pretension, by.pretension_ratio);
    if let Some(inline) = &mut line.inline_absorber {
        inline.yield_force_n *= factor(sides.inline_force, by.inline_force_ratio);
        line.pretension_n = line.pretension_n.min(inline.yield_force_n);
    }
}
