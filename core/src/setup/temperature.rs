//! How the tension moves with temperature.

use alloc::vec::Vec;

use super::{Plan, frequency_hz, hung, longest_m, sag_m, span_m, with_pretension};
use crate::case::{Case, Line};
use crate::constants::SAG_RATIO_MAX;
use crate::fault::{Fault, FieldRef};
use crate::field;
use crate::line::{AtRest, unstretched_sagging_m};
use crate::maths::sqrt;
use crate::roots;

/// Thermal expansion of steel, 1/K.
///
/// # Source
/// About 12e-6 /K: any materials handbook.
pub const THERMAL_EXPANSION_PER_K: f64 = 12.0e-6;

/// The line at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct TemperatureRow {
    /// Temperature of the rope, K.
    pub temperature_k: f64,
    /// Horizontal tension at rest, N.
    pub tension_n: f64,
    /// Outside the tolerance of the pretension.
    pub beyond_tolerance: bool,
    /// So slack that it no longer counts as a taut line ([`SAG_RATIO_MAX`]).
    pub slack: bool,
    /// The in-line absorber has yielded.
    pub absorber_yields: bool,
    /// Sag at rest of the span of the tension checks, m.
    pub sag_m: f64,
    /// Movement to be read under the weight, m; `None` where the line is slack, pulled beyond what
    /// is taken as a pretension, or its in-line absorber would yield.
    pub movement_m: Option<f64>,
    /// Time to be read for the swings, s.
    pub time_s: f64,
}

/// Horizontal tension at rest after a change of temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct TensionAtTemperature {
    /// Horizontal tension, N.
    pub tension_n: f64,
    /// The in-line absorber has yielded, by this much, m, both together where there are two; 0: it
    /// has not.
    pub inline_extension_m: f64,
}

/// Horizontal tension at rest of a line installed at one temperature and now at another: the line
/// law with the unstretched rope longer by the thermal expansion, ends moving by (H − T0)/k.
///
/// # Errors
/// The faults of the line; a temperature outside its range, named `temperature.…`.
///
/// # Accuracy
/// As the parabola of the line at rest; a line that ends slack ([`SAG_RATIO_MAX`]) only roughly.
///
/// # Source
/// Expansion: [`THERMAL_EXPANSION_PER_K`].
///
/// # Examples
/// ```
/// use footroom_core::{case::Line, setup::tension_at_temperature};
/// let line = Line::default();
/// let cold = tension_at_temperature(&line, 293.15, 273.15).unwrap();
/// assert!(cold.tension_n > line.pretension_n);
/// assert!(tension_at_temperature(&line, 293.15, f64::NAN).is_err());
/// ```
pub fn tension_at_temperature(
    line: &Line,
    installed_k: f64,
    now_k: f64,
) -> Result<TensionAtTemperature, Vec<Fault>> {
    let mut faults = line.line_faults();
    for (name, value) in [
        ("temperature.installed_k", installed_k),
        ("temperature.today_k", now_k),
    ] {
        let field = FieldRef::new(name);
        let (min, max) = field::find(name).map_or((0.0, f64::MAX), |f| (f.min, f.max));
        if !value.is_finite() {
            faults.push(Fault::NotFinite { field });
        } else if !(min..=max).contains(&value) {
            faults.push(Fault::OutOfRange {
                field,
                value,
                min,
                max,
            });
        }
    }
    if faults.is_empty() {
        Ok(after_warming(line, now_k - installed_k))
    } else {
        Err(faults)
    }
}

/// The line law at rest after warming by `warming_k`.
pub(super) fn after_warming(line: &Line, warming_k: f64) -> TensionAtTemperature {
    let rope_m = AtRest::of(line).unstretched_m * (1.0 + THERMAL_EXPANSION_PER_K * warming_k);
    let last = line.spans_m.len().saturating_sub(1);
    // Rope needed at tension H less the rope there is; falls as H rises.
    let excess_m = |h: f64| {
        let movement = |k: Option<f64>| k.map_or(0.0, |k| (h - line.pretension_n) / k);
        let mut needed = -rope_m;
        for (i, &span) in line.spans_m.iter().enumerate() {
            let mut length = span;
            if i == 0 {
                length -= movement(line.left_end_stiffness_n_per_m);
            }
            if i == last {
                length -= movement(line.right_end_stiffness_n_per_m);
            }
            needed += unstretched_sagging_m(line, length, h);
        }
        needed
    };
    let tension_given_n = |extension_m: f64| {
        // The extended absorber is a straight piece in line with the rope.
        let f = |h: f64| excess_m(h) - extension_m / (1.0 + h / line.rope.axial_stiffness_n);
        let (mut low, mut high) = (line.pretension_n, line.pretension_n);
        while f(high) > 0.0 && high < 1.0e9 {
            high *= 1.5;
        }
        while f(low) < 0.0 && low > 1.0e-2 {
            low /= 1.5;
        }
        roots::bracketed(f, low, high, 1e-9 * high).x
    };
    let mut at = TensionAtTemperature {
        tension_n: tension_given_n(0.0),
        inline_extension_m: 0.0,
    };
    let Some(inline) = line.inline_absorber else {
        return at;
    };
    // Of two the one yields first whose end has the greater tension, beside the longer span.
    let left_first = span_m(line, 0) > span_m(line, last);
    let ends = if left_first { [0, 1] } else { [1, 0] };
    for end in ends.into_iter().filter(|end| inline.place.is_at(*end)) {
        // Horizontal tension at which the tension at that end is the yield force.
        let beside_m = span_m(line, if end == 0 { 0 } else { last });
        let v = 0.5 * line.weight_n_per_m() * beside_m;
        let yield_h = sqrt((inline.yield_force_n * inline.yield_force_n - v * v).max(0.0));
        if at.tension_n <= yield_h {
            break;
        }
        let given_m = at.inline_extension_m;
        let stretch = 1.0 + yield_h / line.rope.axial_stiffness_n;
        let extension = excess_m(yield_h) * stretch - given_m;
        if extension <= inline.max_extension_m {
            return TensionAtTemperature {
                tension_n: yield_h,
                inline_extension_m: given_m + extension,
            };
        }
        let given_m = given_m + inline.max_extension_m;
        at = TensionAtTemperature {
            tension_n: tension_given_n(given_m),
            inline_extension_m: given_m,
        };
    }
    at
}

pub(super) fn temperature_row(
    line: &Line,
    case: &Case,
    plan: &Plan,
    span: usize,
    now_k: f64,
) -> TemperatureRow {
    let at = after_warming(line, now_k - case.temperature.installed_k);
    let now = with_pretension(line, at.tension_n);
    let tension = at.tension_n;
    let taut = now.weight_n_per_m() * longest_m(line) / (8.0 * SAG_RATIO_MAX);
    let off = (tension / line.pretension_n - 1.0).abs();
    TemperatureRow {
        temperature_k: now_k,
        tension_n: tension,
        beyond_tolerance: off > case.tolerances.pretension_ratio,
        slack: tension < taut,
        absorber_yields: at.inline_extension_m > 0.0,
        sag_m: sag_m(&now, span_m(line, span)),
        movement_m: hung(&now, span, plan.weight_n)
            .ok()
            .filter(|h| !h.yields)
            .map(|h| h.movement_m),
        time_s: f64::from(plan.swings) / frequency_hz(line, span, tension),
    }
}
