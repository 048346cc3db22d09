//! What the fall asks, which the checks hold against limits and strengths.

use alloc::vec::Vec;

use crate::support::PostKick;

/// What the fall asks of one worker, the worse of methods and tolerance corners in each number.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct WorkerDemand {
    /// The worker, counted from 0 in the case.
    pub worker: usize,
    /// Greatest arrest force, N.
    pub arrest_force_n: f64,
    /// Free fall before the gear is taut, m.
    pub free_fall_m: f64,
    /// Deceleration distance, m: greatest extension of absorber and webbing at any instant, without
    /// free fall and without the movement of the lifeline.
    pub deceleration_distance_m: f64,
    /// Depth needed below line level, m, margin included: the whole stack.
    pub required_depth_m: f64,
    /// Margin within it, m.
    pub margin_m: f64,
    /// Depth measured from line level down to the highest thing within reach, m.
    pub available_depth_m: f64,
    /// The worker came down on what is below in a computed motion.
    pub contact: bool,
}

/// What the fall asks of one end of the line: peaks, each at its own instant, with the allowance
/// on tension and what an in-line absorber adds.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct EndDemand {
    /// Tension, N.
    pub tension_n: f64,
    /// Its horizontal component, N.
    pub horizontal_n: f64,
    /// Its vertical component, N, downward on the post head.
    pub vertical_n: f64,
}

/// What the fall asks of everything: plain numbers, filled by the solver from the stiff corner
/// (forces) and the soft corner (lengths). A number that is not finite reads as not known.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Demands {
    /// Everyone who falls.
    pub workers: Vec<WorkerDemand>,
    /// Greatest tension anywhere along the line, N.
    pub tension_max_n: f64,
    /// Left end.
    pub left_end: EndDemand,
    /// Right end.
    pub right_end: EndDemand,
    /// Greatest kick on every intermediate post, left to right.
    pub intermediate_posts: Vec<PostKick>,
}
