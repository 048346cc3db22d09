//! The types of what [`crate::solve::solve`] finds.

use alloc::vec::Vec;

use crate::scope::Outside;

/// The whole answer to a case. All values SI, all finite.
#[derive(Clone, Debug, Default, PartialEq)]
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
    /// What of the case and this answer lies outside the region in which the model was checked;
    /// empty: nothing.
    pub outside_checked: Vec<Outside>,
    /// The line at rest.
    pub rest: Rest,
    /// Each worker, in the order of the case.
    pub workers: Vec<WorkerOutcome>,
    /// The energy balance method.
    pub balance: Balance,
    /// The time history method.
    pub history: History,
    /// Greatest forces of the line on its supports, left to right, both ends included.
    pub supports: Vec<SupportPeak>,
    /// Everything that hangs on the line after the arrest, at rest.
    pub hanging: Hanging,
    /// Time traces, when asked for.
    pub traces: Option<Traces>,
}

/// The two methods.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Method {
    /// All stop at one instant; gravity work equals elastic and plastic work.
    EnergyBalance,
    /// The motion computed step by step.
    #[default]
    TimeHistory,
}

/// A reason why a number may not be relied on; which of them take it away says
/// [`Doubt::takes_away`].
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
        /// Greatest slope that the model is taken to describe.
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
    /// The energy ledger of the time history does not close to 0.1 %.
    LedgerOpen {
        /// Its residual, as a part of the work of gravity.
        residual_ratio: f64,
    },
    /// The motion had not reached its lowest point when the simulated time ended.
    NotFinished {
        /// The worker, counted from 0.
        worker: usize,
    },
    /// A worker's self-retracting lifeline is clipped below his D-ring: he falls freely until the
    /// D-ring has come down to the line, and only then does it lock. The free fall is then more than
    /// such gear is tested for, unless its maker says otherwise.
    ///
    /// Source: ANSI/ASSP Z359.14, from memory: class 1 for an anchorage at or above the D-ring and
    /// 0.6 m (2 ft) of free fall, class 2 also for one up to 1.5 m (5 ft) below it.
    RetractingBelowDring {
        /// The worker, counted from 0.
        worker: usize,
        /// How far the D-ring is above the line, m.
        dring_above_m: f64,
        /// His free fall, m.
        free_fall_m: f64,
    },
    /// The free fall that was given for a worker ends before his D-ring has come down to the line,
    /// where no gear is taut: it was taken as ending there.
    FreeFallRaised {
        /// The worker, counted from 0.
        worker: usize,
        /// Free fall given, m.
        given_m: f64,
        /// Free fall calculated with, m: how far the D-ring is above the line.
        free_fall_m: f64,
    },
    /// A worker swings to a point deeper than his stack counts.
    SwingsBelowStack {
        /// The worker, counted from 0.
        worker: usize,
        /// By how much, m, see [`Swing::below_stack_m`].
        below_stack_m: f64,
    },
}

/// The line at rest.
#[derive(Clone, Debug, Default, PartialEq)]
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
#[derive(Clone, Copy, Debug, Default, PartialEq)]
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
    /// Greatest stretch of his gear, webbing and absorber together, at any instant, m (time history).
    /// That need not be the instant of his lowest point: while the line comes up again under him, or
    /// another falls, the gear may be longer.
    pub stretch_max_m: f64,
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
    /// Greatest depth of his connector below the level of the supports, as the height of the line
    /// above the beam there, m (time history); for one who stays standing: how far down the line
    /// he is clipped to is pulled.
    pub line_height_min_m: f64,
    /// How far from his connector his lanyard lets him stand, level, m: √(L² − v²) with L its length
    /// and v the way from the line down to his D-ring (geometry, no source); `None`: he is on a
    /// self-retracting lifeline.
    pub standing_reach_m: Option<f64>,
    /// What standing away from his connector brings; `None`: he stands right below it.
    pub swing: Option<Swing>,
    /// The stack at his lowest instant, from the method that asks for more.
    pub stack: Stack,
    /// The method that asks for more.
    pub method: Method,
    /// The stack by the energy balance method.
    pub balance_stack: Stack,
    /// The stack by the time history.
    pub history_stack: Stack,
}

impl WorkerOutcome {
    /// Deceleration distance, m: the greatest stretch of his gear by either method, at whatever
    /// instant. Free fall and the movement of the lifeline are not in it (29 CFR 1926.500(b),
    /// definition).
    pub fn deceleration_m(&self) -> f64 {
        self.stretch_max_m
            .max(self.history_stack.absorber_extension_m)
            .max(self.balance_stack.absorber_extension_m)
    }
}

/// Swing fall of a worker who goes over away from his connector: geometry of his gear, no source,
/// see `swing.rs`. No length of it stands in the stack, and no force follows from it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Swing {
    /// Horizontal distance from the connector to where he goes over, m: √(along² + edge²).
    pub offset_m: f64,
    /// That is farther than [`WorkerOutcome::standing_reach_m`]: his lanyard does not let him stand
    /// there.
    pub beyond_reach: bool,
    /// Length of his gear from connector to D-ring when taut, with its stretch at his lowest
    /// instant, m.
    pub taut_length_m: f64,
    /// Height through which he swings down to below the connector, m: r − √(r² − offset²) with r
    /// the taut length, as if nothing stood in the way.
    pub drop_m: f64,
    /// By how much the lowest point of the swing lies deeper than the stack counts, m: what a
    /// self-retracting lifeline has paid out to the side, or a lanyard whose free fall is given.
    /// 0 for a lanyard whose free fall follows from the geometry: its stack is that of the lowest
    /// point.
    pub below_stack_m: f64,
    /// The gear bears on the edge of the beam: taut it is longer than the way to the edge.
    pub edge_contact: bool,
    /// How far the gear then slides along the edge as he swings, m; 0 where it does not bear on it.
    pub edge_slide_m: f64,
    /// The line itself comes down to the beam top, and bears on it between connector and edge.
    pub line_on_edge: bool,
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
    /// What is added to line deflection and extension because a calculated fall is not a measured
    /// one ([`crate::case::Allowance::clearance_ratio`]).
    pub allowance_m: f64,
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
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Balance {
    /// Horizontal tension under the arrest forces, N.
    pub tension_horizontal_n: f64,
    /// Greatest tension along the line, N.
    pub tension_max_n: f64,
    /// Extension of the in-line absorber, m; of both together where there are two.
    pub inline_extension_m: f64,
    /// Arrest force of each worker, N: the greatest on his way to the stop, which is that at the stop
    /// unless an absorber's curve falls; 0 for one who stands.
    pub arrest_force_n: Vec<f64>,
    /// Plastic extension of each worker's absorber, m.
    pub absorber_extension_m: Vec<f64>,
    /// Stretch of each worker's gear at the stop, webbing and absorber together, m; 0 for one who
    /// stands.
    pub stretch_m: Vec<f64>,
    /// Deflection of the line at each connector, m.
    pub deflection_m: Vec<f64>,
}

/// Result of the time history, maxima over the simulated time; all 0 when no step within reason
/// resolved the motion (the doubts say so).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct History {
    /// Greatest horizontal tension, N.
    pub tension_horizontal_max_n: f64,
    /// Greatest tension anywhere along the line, N.
    pub tension_max_n: f64,
    /// Instant of the greatest tension, s.
    pub time_tension_max_s: f64,
    /// Greatest extension of the in-line absorber, m; of both together where there are two.
    pub inline_extension_m: f64,
    /// The same of the one at the left end and of the one at the right end, m; 0 where there is none.
    pub inline_end_extension_m: [f64; 2],
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

/// Greatest forces of the line on one support over the time history, each at its own instant.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct SupportPeak {
    /// Downward, N: on an intermediate post the kick of the line sagged on both sides.
    pub vertical_max_n: f64,
    /// Along the line, N: at an end the whole, at an intermediate post the difference between
    /// the two sides.
    pub horizontal_max_n: f64,
    /// Tension at an end, N; 0 at an intermediate post.
    pub tension_max_n: f64,
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
    /// Work taken by the in-line absorber, or by both.
    pub inline_absorber_j: f64,
    /// Work taken by the line's damping.
    pub damping_j: f64,
    /// |gravity − all the others| over the greatest work of gravity on the workers in the run.
    pub residual_ratio: f64,
}

/// The line with everybody who fell hanging at rest.
#[derive(Clone, Debug, Default, PartialEq)]
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
    /// Extension of the in-line absorber, one a frame, m; of both together where there are two.
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
