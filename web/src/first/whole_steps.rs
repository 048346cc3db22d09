//! The stack in whole shown steps, so that what the reader sees adds up as it is seen.
//!
//! With everything counted in steps of 0.01 m or 1/2 in:
//!
//! * the required depth is rounded up and the footroom down, so that neither flatters;
//! * the available depth is shown as their sum. That is the measured depth itself whenever it was
//!   measured to whole steps; otherwise it is one of the two steps beside it;
//! * the parts are rounded down, and what is then missing from the shown required depth goes, one
//!   step each, to those with the largest remainders. Parts given to whole steps stay as given,
//!   and a part of no length, which is not shown, takes no step;
//! * the margin, which the reader gives and is told of in every sentence, is always rounded up:
//!   it does not change with what else is asked for.

use footroom_core::solve::Stack;

use crate::order::sort;
use crate::say::format::{self, Rounding, Units};

/// Number of parts that add up to the required depth.
pub const PARTS: usize = 8;

/// Place of the line deflection among the parts.
pub const LINE: usize = 0;
/// Place of the absorber extension among the parts.
pub const ABSORBER: usize = 2;
/// Place of the model allowance among the parts.
pub const ALLOWANCE: usize = 3;
/// Place of what the tolerances add among the parts.
pub const TOLERANCE: usize = 6;
/// Place of the margin among the parts.
pub const MARGIN: usize = 7;

/// The parts of a stack in their order from the line down, m; `tolerance_m`: what the tolerances
/// add. Without them they are summed to the core's required depth to the last bit.
pub fn lengths_m(stack: &Stack, tolerance_m: f64) -> [f64; PARTS] {
    [
        stack.line_deflection_m,
        stack.lanyard_m,
        stack.absorber_extension_m,
        stack.allowance_m,
        stack.harness_stretch_m,
        stack.dring_to_sole_m,
        tolerance_m,
        stack.margin_m,
    ]
}

/// A stack in whole steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShownStack {
    units: Units,
    /// Line deflection, lanyard, absorber, model allowance, harness stretch, D-ring to sole, what
    /// the tolerances add, margin: steps.
    pub parts: [i64; PARTS],
    /// Sum of the parts: steps.
    pub required: i64,
    /// Required depth and footroom together: steps.
    pub available: i64,
    /// Footroom, negative when short: steps.
    pub footroom: i64,
}

impl ShownStack {
    /// Rounds a stack.
    pub fn of(units: Units, stack: &Stack) -> Self {
        Self::with(units, stack, 0.0)
    }

    /// Rounds a stack to which the tolerances add a length, m.
    pub fn with(units: Units, stack: &Stack, tolerance_m: f64) -> Self {
        let lengths = lengths_m(stack, tolerance_m);
        let steps = |metres, rounding| format::length_steps(units, metres, rounding);
        let required = steps(stack.required_m + tolerance_m, Rounding::Up);
        let footroom = steps(stack.footroom_m - tolerance_m, Rounding::Down);
        let mut parts = lengths.map(|m| steps(m, Rounding::Down));
        parts[MARGIN] = steps(lengths[MARGIN], Rounding::Up);
        let rest_m: [f64; PARTS] = core::array::from_fn(|i| {
            lengths[i] - format::length_of_step_m(units) * parts[i] as f64
        });
        let mut order: Vec<usize> = (0..MARGIN).filter(|&i| lengths[i] != 0.0).collect();
        if order.is_empty() {
            order.push(LINE);
        }
        sort(&mut order, |&a, &b| rest_m[a] > rest_m[b]);
        let missing = required - parts.iter().sum::<i64>();
        // Up to a step a part by the rounding; rounding noise alone may make it one too few.
        if missing < 0 {
            if let Some(&last) = order.last() {
                parts[last] += missing;
            }
        } else {
            let each = missing / order.len() as i64;
            let left = missing % order.len() as i64;
            for (place, &i) in order.iter().enumerate() {
                parts[i] += each + i64::from((place as i64) < left);
            }
        }
        Self {
            units,
            parts,
            required,
            available: required + footroom,
            footroom,
        }
    }

    /// A count of steps with its unit.
    pub fn text(&self, steps: i64) -> String {
        format::length_of_steps(self.units, steps)
    }

    /// Size of the footroom with its unit, without sign.
    pub fn footroom_text(&self) -> String {
        self.text(self.footroom.abs())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn stack(lengths: [f64; PARTS], available_m: f64) -> Stack {
        let [
            line,
            lanyard,
            absorber,
            allowance,
            harness,
            dring,
            _,
            margin,
        ] = lengths;
        let required_m = line + lanyard + absorber + allowance + harness + dring + margin;
        Stack {
            line_deflection_m: line,
            lanyard_m: lanyard,
            absorber_extension_m: absorber,
            allowance_m: allowance,
            harness_stretch_m: harness,
            dring_to_sole_m: dring,
            margin_m: margin,
            required_m,
            available_m,
            footroom_m: available_m - required_m,
        }
    }

    #[test]
    fn given_lengths_stay_and_computed_ones_take_the_rounding() {
        let shown = ShownStack::of(
            Units::Metric,
            &stack([0.9612, 1.8, 0.5751, 0.0, 0.3, 1.5, 0.0, 1.0], 6.2),
        );
        assert_eq!(shown.parts, [96, 180, 58, 0, 30, 150, 0, 100]);
        assert_eq!(
            (shown.required, shown.available, shown.footroom),
            (614, 620, 6)
        );
        assert_eq!(shown.footroom_text(), "0.06 m");
    }

    /// A margin of 3 ft is told as one length in metres, whatever else is asked for.
    #[test]
    fn the_margin_does_not_change_with_what_else_is_asked_for() {
        for i in 0..200 {
            let line = 0.9 + 0.0013 * f64::from(i);
            let parts = [line, 1.8288, 0.5751, 0.0, 0.3048, 1.524, 0.0, 0.9144];
            let tolerance_m = 0.0007 * f64::from(i % 60);
            let shown = ShownStack::with(Units::Metric, &stack(parts, 6.2), tolerance_m);
            assert_eq!(shown.parts[MARGIN], 92, "{line}");
            assert_eq!(shown.parts.iter().sum::<i64>(), shown.required);
        }
    }

    #[test]
    fn a_hair_short_is_shown_short() {
        let shown = ShownStack::of(
            Units::Metric,
            &stack([1.0, 1.0, 1.0, 0.0, 1.0, 1.0, 0.0, 1.0], 5.999),
        );
        assert_eq!((shown.required, shown.footroom), (600, -1));
    }

    #[test]
    fn the_tolerances_are_a_part_like_any_other() {
        let given = stack([0.9612, 1.8, 0.5751, 0.0, 0.3, 1.5, 0.0, 1.0], 6.2);
        let shown = ShownStack::with(Units::Metric, &given, 0.0449);
        // 6.1363 m and 0.0449 m are asked for: 6.19 m with 0.01 m left.
        assert_eq!((shown.required, shown.footroom), (619, 1));
        assert_eq!(shown.parts[TOLERANCE], 5);
        assert_eq!(shown.parts.iter().sum::<i64>(), shown.required);
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn adds_up_and_never_flatters(
            lengths in prop::array::uniform8(0.0..4.0f64), available in 0.0..30.0f64, us: bool,
            hidden in prop::array::uniform2(any::<bool>()),
        ) {
            let (units, step) = if us { (Units::Us, 0.0127) } else { (Units::Metric, 0.01) };
            let mut lengths = lengths;
            for (i, hide) in [ALLOWANCE, TOLERANCE].into_iter().zip(hidden) {
                if hide {
                    lengths[i] = 0.0;
                }
            }
            let mut stack = stack(lengths, available);
            let shown = ShownStack::with(units, &stack, lengths[TOLERANCE]);
            stack.required_m += lengths[TOLERANCE];
            stack.footroom_m -= lengths[TOLERANCE];
            prop_assert_eq!(shown.parts.iter().sum::<i64>(), shown.required);
            prop_assert_eq!(shown.available - shown.required, shown.footroom);
            prop_assert!(shown.required as f64 * step >= stack.required_m - 1.0e-6);
            prop_assert!(shown.footroom as f64 * step <= stack.footroom_m + 1.0e-6);
            prop_assert!(stack.footroom_m - (shown.footroom as f64) * step < step + 1.0e-6);
            prop_assert!((shown.available as f64 * step - available).abs() < step + 1.0e-6);
            for (part, length) in shown.parts.iter().zip(lengths) {
                prop_assert!(length != 0.0 || *part == 0);
                prop_assert!((*part as f64 * step - length).abs() <= step + 1.0e-6);
            }
        }

        #[test]
        fn whole_steps_are_shown_as_given(
            counts in prop::array::uniform8(0u16..400), available in 0u16..3000
        ) {
            let tolerance_m = f64::from(counts[TOLERANCE]) / 100.0;
            let stack = stack(counts.map(|c| f64::from(c) / 100.0), f64::from(available) / 100.0);
            let shown = ShownStack::with(Units::Metric, &stack, tolerance_m);
            prop_assert_eq!(shown.parts, counts.map(i64::from));
            prop_assert_eq!(shown.available, i64::from(available));
        }
    }
}
