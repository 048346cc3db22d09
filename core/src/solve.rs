//! The answer: `solve(case)` gives the [`Outcome`], and the order in which everything happens.

use alloc::vec::Vec;

use crate::case::Case;
use crate::fault::Fault;

/// What the caller wants beside the numbers.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Options {
    /// Record the time traces that the animation and the charts need.
    pub traces: bool,
}

/// The whole answer to a case. All values SI, all finite.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Outcome {
    /// [`crate::constants::MODEL_VERSION`] that gave it.
    pub model_version: u32,
    /// Hash of every reported number, bit by bit; equal answers have equal fingerprints.
    pub fingerprint: u64,
    /// Room left under the governing worker's soles once the margin is kept, m; negative: short.
    pub footroom_m: f64,
    /// Worker with the least footroom, counted from 0.
    pub governing_worker: usize,
    /// Method that asks for more clearance under him.
    pub governing_method: Method,
    /// Reasons why the number may not be relied on; empty: none was found.
    pub doubts: Vec<Doubt>,
    /// The line at rest.
    pub rest: Rest,
    /// Each worker, in the order of the case.
    pub workers: Vec<WorkerOutcome>,
    /// The energy balance method.
    pub balance: Balance,
    /// The time history method.
    pub history: History,
    /// Everything that hangs on the line after the arrest, at rest.
    pub hanging: Hanging,
    /// Time traces, when asked for.
    pub traces: Option<Traces>,
}

/// The two methods.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Method {
    /// All stop at one instant; gravity work equals elastic and plastic work.
    EnergyBalance,
    /// The motion computed step by step.
    TimeHistory,
}

/// A reason why a number may not be relied on.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "doubt"))]
#[non_exhaustive]
pub enum Doubt {
    /// The line tension exceeds the rope's breaking force.
    BeyondBreaking {
        /// Greatest line tension, N.
        tension_n: f64,
        /// Breaking force of the rope, N.
        breaking_force_n: f64,
    },
    /// The line grows so steep that vertical motion no longer describes the fall.
    TooSteep {
        /// Greatest slope of the line, vertical over horizontal.
        slope: f64,
        /// Greatest slope that the model was checked at.
        slope_max: f64,
    },
    /// The personal absorber of a worker was used up and went stiff.
    AbsorberUsedUp {
        /// The worker, counted from 0.
        worker: usize,
        /// Arrest force reached, N.
        arrest_force_n: f64,
    },
    /// The in-line absorber was used up and went stiff.
    InlineAbsorberUsedUp {
        /// Greatest line tension, N.
        tension_n: f64,
    },
    /// A worker comes down on what is below before he is stopped.
    Strikes {
        /// The worker, counted from 0.
        worker: usize,
        /// When his soles reach it, s.
        time_s: f64,
        /// How fast, m/s.
        speed_m_per_s: f64,
    },
    /// The motion had not reached its lowest point when the simulated time ended.
    NotFinished {
        /// The worker, counted from 0.
        worker: usize,
    },
}

/// The line at rest.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Rest {
    /// Greatest sag of each span, m.
    pub sag_m: Vec<f64>,
    /// Horizontal tension, N.
    pub tension_horizontal_n: f64,
    /// Tension at the end of the longest span, N.
    pub tension_max_n: f64,
    /// Unstretched length of rope between the end posts, m.
    pub unstretched_length_m: f64,
}

/// One worker's fall.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct WorkerOutcome {
    /// Did he fall, or did he stay standing?
    pub fell: bool,
    /// Free fall before his gear was taut, m.
    pub free_fall_m: f64,
    /// Greatest arrest force, N (time history).
    pub arrest_force_max_n: f64,
    /// Extension of his absorber at the end, m (time history).
    pub absorber_extension_m: f64,
    /// Whether his absorber was used up (time history).
    pub absorber_used_up: bool,
    /// Drop of his mass from standing to the first lowest point, m (time history).
    pub drop_first_lowest_m: f64,
    /// Instant of that point, s.
    pub time_first_lowest_s: f64,
    /// Greatest drop of his mass from standing, m (time history).
    pub drop_max_m: f64,
    /// Instant of the greatest drop, s.
    pub time_lowest_s: f64,
    /// Greatest deflection of the line at his connector below the supports, m (time history).
    pub line_deflection_max_m: f64,
    /// The stack at his lowest instant, from the method that asks for more.
    pub stack: Stack,
    /// The method that asks for more.
    pub method: Method,
    /// The stack by the energy balance method.
    pub balance_stack: Stack,
    /// The stack by the time history.
    pub history_stack: Stack,
}

/// The lengths from line level down to the margin, m; they add up to `required_m` in this order,
/// to the last bit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Stack {
    /// Deflection of the line at the connector, below the level of its supports.
    pub line_deflection_m: f64,
    /// Connecting gear, taut but unstretched.
    pub lanyard_m: f64,
    /// Elastic stretch of the webbing and extension of the absorber.
    pub absorber_extension_m: f64,
    /// Allowance for harness stretch and D-ring shift.
    pub harness_stretch_m: f64,
    /// From the D-ring down to the soles.
    pub dring_to_sole_m: f64,
    /// Margin to be kept free.
    pub margin_m: f64,
    /// Required depth below line level: the sum of the above.
    pub required_m: f64,
    /// Depth measured from line level down to the highest thing within reach.
    pub available_m: f64,
    /// Available less required.
    pub footroom_m: f64,
}

/// Result of the energy balance method.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Balance {
    /// Horizontal tension at the lowest point, N.
    pub tension_horizontal_n: f64,
    /// Greatest tension along the line, N.
    pub tension_max_n: f64,
    /// Extension of the in-line absorber, m.
    pub inline_extension_m: f64,
    /// Arrest force of each worker, N; 0 for one who stands.
    pub arrest_force_n: Vec<f64>,
    /// Plastic extension of each worker's absorber, m.
    pub absorber_extension_m: Vec<f64>,
    /// Deflection of the line at each connector, m.
    pub deflection_m: Vec<f64>,
}

/// Result of the time history, maxima over the simulated time.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct History {
    /// Greatest horizontal tension, N.
    pub tension_horizontal_max_n: f64,
    /// Greatest tension anywhere along the line, N.
    pub tension_max_n: f64,
    /// Instant of the greatest tension, s.
    pub time_tension_max_s: f64,
    /// Greatest extension of the in-line absorber, m.
    pub inline_extension_m: f64,
    /// Added to the greatest tension for strength while an in-line absorber yields, N: the
    /// line's own inertia along its length holds the rest of it back.
    pub axial_inertia_bound_n: f64,
    /// Greatest inward movement of the left end, m.
    pub left_end_movement_max_m: f64,
    /// Greatest inward movement of the right end, m.
    pub right_end_movement_max_m: f64,
    /// The energy ledger at the end of the run.
    pub energy: Energy,
    /// Steps taken.
    pub steps: u32,
    /// Length of one step, s.
    pub step_s: f64,
    /// Nodes that move.
    pub nodes: u32,
}

/// Energy ledger of a run, J.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Energy {
    /// Work of gravity on workers and line.
    pub gravity_work_j: f64,
    /// Kinetic energy left.
    pub kinetic_j: f64,
    /// Elastic energy stored beyond that at rest: line, end supports, webbing.
    pub elastic_j: f64,
    /// Work taken by the personal absorbers.
    pub absorbers_j: f64,
    /// Work taken by the in-line absorber.
    pub inline_absorber_j: f64,
    /// Work taken by the line's damping.
    pub damping_j: f64,
    /// |gravity − all the others| over the gravity work.
    pub residual_ratio: f64,
}

/// The line with everybody who fell hanging at rest.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Hanging {
    /// Horizontal tension, N.
    pub tension_horizontal_n: f64,
    /// Tension at the left end, N.
    pub tension_left_end_n: f64,
    /// Tension at the right end, N.
    pub tension_right_end_n: f64,
    /// Greatest tension, N.
    pub tension_max_n: f64,
    /// Inward movement of the left end, m.
    pub left_end_movement_m: f64,
    /// Inward movement of the right end, m.
    pub right_end_movement_m: f64,
    /// Deflection of the line at each worker's connector, m.
    pub deflection_m: Vec<f64>,
    /// Drop of each worker from standing, m; 0 for one who stands.
    pub drop_m: Vec<f64>,
    /// Height of each worker's soles above what is below, m.
    pub soles_above_m: Vec<f64>,
    /// Force in each worker's gear, N.
    pub force_n: Vec<f64>,
}

/// Samples of the motion at equal intervals, from t = 0. Rows are frames, columns as named;
/// `values[frame * columns + column]`.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Traces {
    /// Interval between frames, s.
    pub interval_s: f64,
    /// Number of frames.
    pub frames: usize,
    /// Number of workers.
    pub workers: usize,
    /// Place of every node of the line, supports and ends included, m, left to right, at rest.
    pub node_x_m: Vec<f64>,
    /// Horizontal tension of the most loaded span, one a frame, N.
    pub tension_horizontal_n: Vec<f64>,
    /// Greatest tension along the line, one a frame, N.
    pub tension_max_n: Vec<f64>,
    /// Extension of the in-line absorber, one a frame, m.
    pub inline_extension_m: Vec<f64>,
    /// Deflection of every node below the supports, m; row = frame, column = node.
    pub node_deflection_m: Vec<f64>,
    /// Drop of every worker from standing, m; row = frame, column = worker.
    pub drop_m: Vec<f64>,
    /// Speed of every worker, downward, m/s; row = frame, column = worker.
    pub speed_m_per_s: Vec<f64>,
    /// Force in every worker's gear, N; row = frame, column = worker.
    pub force_n: Vec<f64>,
    /// Deflection of the line at every connector, m; row = frame, column = worker.
    pub connector_deflection_m: Vec<f64>,
    /// Stretch of webbing and absorber together, m (0 while slack); row = frame, column = worker.
    pub gear_stretch_m: Vec<f64>,
    /// Irreversible extension of every absorber, m; row = frame, column = worker.
    pub absorber_extension_m: Vec<f64>,
}

/// Solves a case.
///
/// # Errors
/// Every fault of the case, when there is one.
pub fn solve(case: &Case, options: Options) -> Result<Outcome, Vec<Fault>> {
    let faults = case.faults();
    if !faults.is_empty() {
        return Err(faults);
    }
    let _ = options;
    Err(faults)
}
