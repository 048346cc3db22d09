//! The numbers of a state and of a part, each named once, on the grid that keeps their sums exact.

use core::ops::Range;

use super::Cause;
use crate::assess::assessed;
use crate::case::Case;
use crate::maths::floor;
use crate::outcome::Outcome;
use crate::solve::Options;

/// Every length of a [`Why`](super::Why) is a whole multiple of this, m: 2⁻³⁶, about 15 picometres.
pub const LENGTH_GRID_M: f64 = 1.0 / 68_719_476_736.0;

/// Every force of a [`Why`](super::Why) is a whole multiple of this, N: 2⁻¹⁶, about 15 micronewtons.
pub const FORCE_GRID_N: f64 = 1.0 / 65_536.0;

/// Numbers beyond this many grid steps, 2⁴⁹ (8,192 m, 8.6 GN), are no lengths and forces of a line:
/// they, and what is no number, are taken as this, so that sums of them stay exact.
const STEPS_MAX: f64 = 562_949_953_421_312.0;

/// Declares [`State`] and [`Part`], whose numbers are the same.
macro_rules! figures {
    ($($(#[$documentation:meta])* $name:ident,)*) => {
        /// The followed worker's stack and the forces, in one case.
        #[derive(Clone, Copy, Debug, PartialEq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize))]
        pub struct State {
            /// The worker followed, counted from 0 in this case.
            pub worker: usize,
            $($(#[$documentation])* pub $name: f64,)*
        }

        /// What one cause changed: `to` less `from`, in the same fields as [`State`].
        #[derive(Clone, Copy, Debug, PartialEq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize))]
        pub struct Part {
            /// The cause.
            pub cause: Cause,
            $($(#[$documentation])* pub $name: f64,)*
        }

        const NAMES: &[&str] = &[$(stringify!($name)),*];

        impl State {
            fn with(worker: usize, numbers: Numbers) -> Self {
                let [$($name),*] = summed(numbers);
                Self { worker, $($name),* }
            }

            fn numbers(&self) -> Numbers {
                [$(self.$name),*]
            }
        }

        impl Part {
            pub(super) fn of(cause: Cause, numbers: &Numbers) -> Self {
                let [$($name),*] = summed(*numbers);
                Self { cause, $($name),* }
            }

            #[cfg(test)]
            pub(super) fn numbers(&self) -> Numbers {
                [$(self.$name),*]
            }
        }
    };
}

figures! {
    /// Deflection of the line at the connector, m.
    line_deflection_m,
    /// Gear, taut but unstretched, m.
    lanyard_m,
    /// Stretch of webbing and absorber, m.
    absorber_extension_m,
    /// Added for the uncertainty of the calculation, m.
    allowance_m,
    /// Harness stretch, m.
    harness_stretch_m,
    /// D-ring to soles, m.
    dring_to_sole_m,
    /// Margin, m.
    margin_m,
    /// Required depth: the sum of the above, m.
    required_m,
    /// Available depth, m.
    available_m,
    /// Footroom: available less required, m.
    footroom_m,
    /// Greatest arrest force by either method, N.
    arrest_force_n,
    /// Greatest line tension by either method, N.
    tension_n,
    /// Greatest horizontal pull on an end, N.
    end_pull_n,
    /// Extension of the in-line absorber (time history), m.
    inline_extension_m,
    /// Free fall, m.
    free_fall_m,
}

/// How many they are.
pub(super) const NUMBERS: usize = NAMES.len();
/// Where the allowance stands among them.
pub(super) const ALLOWANCE: usize = 3;
/// Where the required depth stands, the sum of all before it.
const REQUIRED: usize = 7;
/// Where the available depth stands.
const AVAILABLE: usize = 8;
/// Where the footroom stands, the difference of the two.
const FOOTROOM: usize = 9;
/// Where the forces stand.
const FORCES: Range<usize> = 10..13;

/// In the order of [`State`].
pub(super) type Numbers = [f64; NUMBERS];

/// The same with those that follow from others.
fn summed(mut n: Numbers) -> Numbers {
    n[REQUIRED] = n[..REQUIRED].iter().sum();
    n[FOOTROOM] = n[AVAILABLE] - n[REQUIRED];
    n
}

pub(super) fn grid(i: usize) -> f64 {
    if FORCES.contains(&i) {
        FORCE_GRID_N
    } else {
        LENGTH_GRID_M
    }
}

/// The nearest whole multiple of a grid step, which is a power of two.
pub(super) fn on_grid(value: f64, step: f64) -> f64 {
    let steps = value / step;
    if steps.is_nan() {
        return STEPS_MAX * step;
    }
    floor(steps.clamp(-STEPS_MAX, STEPS_MAX) + 0.5) * step
}

impl State {
    pub(super) fn of(outcome: &Outcome, worker: usize) -> Self {
        let w = &outcome.workers[worker];
        let ends = [outcome.supports.first(), outcome.supports.last()];
        let mut n: Numbers = [
            w.stack.line_deflection_m,
            w.stack.lanyard_m,
            w.stack.absorber_extension_m,
            w.stack.allowance_m,
            w.stack.harness_stretch_m,
            w.stack.dring_to_sole_m,
            w.stack.margin_m,
            w.stack.required_m,
            w.stack.available_m,
            w.stack.footroom_m,
            w.arrest_force_max_n
                .max(outcome.balance.arrest_force_n[worker]),
            (outcome.history.tension_max_n).max(outcome.balance.tension_max_n),
            ends.iter()
                .flatten()
                .fold(0.0, |most, end| end.horizontal_max_n.max(most)),
            outcome.history.inline_extension_m,
            w.free_fall_m,
        ];
        for (i, value) in n.iter_mut().enumerate() {
            *value = on_grid(*value, grid(i));
        }
        Self::with(worker, n)
    }

    /// The same with the footroom of the whole answer to the case: what that is below this run's
    /// stands in the allowance.
    pub(super) fn answered(mut self, case: &Case) -> Self {
        let Ok(ready) = case.ready() else {
            return self;
        };
        let answer_m = assessed(ready, Options::default()).footroom.value;
        let below_m = on_grid(self.footroom_m - answer_m, LENGTH_GRID_M);
        self.allowance_m += below_m;
        self.required_m += below_m;
        self.footroom_m -= below_m;
        self
    }

    pub(super) fn less(&self, other: &Self) -> Numbers {
        let (a, b) = (self.numbers(), other.numbers());
        core::array::from_fn(|i| a[i] - b[i])
    }
}
