//! Readers of the reference files in `tests/reference`, and the cases that they describe.

use footroom_core::case::{
    Absorber, Case, Gear, GearKind, InlineAbsorber, Line, Motion, Site, Worker,
};
use footroom_core::line::PointLoad;
use footroom_core::rope::{Construction, Rope};
use serde::Deserialize;

use crate::closeness::Interval;

/// Damping that the reference calls "the stated damping", s.
pub const STATED_DAMPING_S: f64 = 1.0e-4;

/// Rope diameter and breaking force are not part of the reference: they do not enter the motion.
const DIAMETER_M: f64 = 0.0095;

#[derive(Deserialize)]
struct File<C> {
    cases: Vec<C>,
}

fn read<C: for<'a> Deserialize<'a>>(name: &str, text: &str) -> Vec<C> {
    let file: File<C> =
        serde_json::from_str(text).unwrap_or_else(|e| panic!("tests/reference/{name}: {e}"));
    assert!(!file.cases.is_empty(), "tests/reference/{name}: no cases");
    file.cases
}

/// The single-span static cases.
pub fn statics() -> Vec<StaticCase> {
    read("statics.json", include_str!("../reference/statics.json"))
}

/// The multi-span static cases.
pub fn multispan() -> Vec<MultispanCase> {
    read(
        "multispan.json",
        include_str!("../reference/multispan.json"),
    )
}

/// The dynamic cases.
pub fn dynamics() -> Vec<DynamicCase> {
    read("dynamics.json", include_str!("../reference/dynamics.json"))
}

/// The falls on several spans, in the batch door's own case format.
///
/// Self-retracting gear falls freely through its locking distance there, whatever the geometry; core
/// adds how far the D-ring stands above the line.
pub fn multispan_dynamics() -> Vec<MultispanFall> {
    let mut falls: Vec<MultispanFall> = read(
        "multispan_dynamics.json",
        include_str!("../reference/multispan_dynamics.json"),
    );
    for gear in falls
        .iter_mut()
        .flat_map(|f| f.case.workers.iter_mut().map(|w| &mut w.gear))
    {
        if gear.kind == GearKind::SelfRetracting {
            gear.free_fall_m.get_or_insert(gear.lock_distance_m);
        }
    }
    falls
}

/// A fall on several spans.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MultispanFall {
    /// Number, such as N003.
    pub id: String,
    /// What it is.
    pub title: String,
    /// The case, as the batch door reads it.
    pub case: Case,
    /// What an independent lumped cable gives for it.
    pub reference: MultispanFallReference,
}

/// Values of a [`MultispanFall`].
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MultispanFallReference {
    /// Deepest depth of stack below the line of every worker, m.
    pub required_m: Vec<f64>,
    /// Drop of every worker to the first lowest point, m.
    pub drop_first_lowest_m: Vec<f64>,
    /// Greatest deflection of the line at every connector, m; not given for all cases.
    pub line_deflection_max_m: Option<Vec<f64>>,
    /// Greatest arrest force of every worker, N.
    pub arrest_force_max_n: Vec<f64>,
    /// Raw peak of the tension anywhere along the rope, N; it rings.
    pub tension_max_n: f64,
    /// Greatest mean of it over 2 ms, N.
    pub tension_max_2ms_n: f64,
    /// Greatest horizontal pull on the left and the right end, N.
    pub end_horizontal_max_n: [f64; 2],
    /// Greatest downward force on each intermediate post, N, left to right.
    pub post_vertical_max_n: Vec<f64>,
    /// Extension of the in-line absorber, m.
    pub inline_extension_m: f64,
}

fn rope(axial_stiffness_n: f64, mass_per_length_kg_per_m: f64) -> Rope {
    Rope {
        construction: Construction::Own,
        diameter_m: DIAMETER_M,
        axial_stiffness_n,
        mass_per_length_kg_per_m,
        breaking_force_n: None,
    }
}

/// A single-span static case.
#[derive(Deserialize)]
pub struct StaticCase {
    /// Number, such as S04.
    pub id: String,
    /// What it is.
    pub title: String,
    /// The line and its loads.
    pub inputs: StaticInputs,
    /// What to compare with.
    pub reference: StaticReference,
}

/// Inputs of a [`StaticCase`].
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StaticInputs {
    span_m: f64,
    #[serde(rename = "axial_stiffness_N")]
    axial_stiffness_n: f64,
    mass_per_length_kg_per_m: f64,
    #[serde(rename = "pretension_N")]
    pretension_n: f64,
    #[serde(rename = "end_spring_N_per_m")]
    end_spring_n_per_m: Option<f64>,
    gravity_m_per_s2: f64,
    load_position_m: Vec<f64>,
    #[serde(rename = "load_N")]
    load_n: Vec<f64>,
}

/// Values of a [`StaticCase`]; absent where the case does not have them.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StaticReference {
    /// Horizontal tension, N.
    #[serde(rename = "tension_horizontal_N")]
    pub tension_horizontal_n: StaticValue,
    /// Tension at the left end, N.
    #[serde(rename = "tension_left_end_N")]
    pub tension_left_end_n: Option<StaticValue>,
    /// Tension at the right end, N.
    #[serde(rename = "tension_right_end_N")]
    pub tension_right_end_n: Option<StaticValue>,
    /// Greatest tension, N.
    #[serde(rename = "tension_max_N")]
    pub tension_max_n: Option<StaticValue>,
    /// Sag of the unloaded line, m.
    pub sag_m: Option<StaticValue>,
    /// Deflection at each load, m.
    #[serde(default)]
    pub deflection_m: Vec<StaticValue>,
    /// Inward movement of an end, m.
    pub end_movement_m: Option<StaticValue>,
}

/// One value of a static case with its tolerance (with weight, as core has it).
#[derive(Deserialize)]
pub struct StaticValue {
    /// The value.
    pub value: f64,
    /// Relative tolerance of its case.
    pub tolerance_relative: Option<f64>,
    /// Absolute tolerance of its case, m.
    pub tolerance_absolute_m: Option<f64>,
}

impl StaticValue {
    /// The accepted interval.
    pub fn interval(&self) -> Interval {
        assert!(
            self.tolerance_relative.is_some() || self.tolerance_absolute_m.is_some(),
            "a reference value without tolerance"
        );
        Interval::between(self.value, self.value).widened(
            self.tolerance_relative.unwrap_or(0.0),
            self.tolerance_absolute_m.unwrap_or(0.0),
        )
    }
}

impl StaticCase {
    /// The line of the case.
    pub fn line(&self) -> Line {
        let i = &self.inputs;
        assert_gravity(i.gravity_m_per_s2);
        Line {
            spans_m: vec![i.span_m],
            pretension_n: i.pretension_n,
            rope: rope(i.axial_stiffness_n, i.mass_per_length_kg_per_m),
            inline_absorber: None,
            left_end_stiffness_n_per_m: i.end_spring_n_per_m,
            right_end_stiffness_n_per_m: i.end_spring_n_per_m,
            ..Line::default()
        }
    }

    /// The loads of the case.
    pub fn loads(&self) -> Vec<PointLoad> {
        loads(0.0, &self.inputs.load_position_m, &self.inputs.load_n)
    }
}

fn loads(start_m: f64, position_m: &[f64], force_n: &[f64]) -> Vec<PointLoad> {
    assert_eq!(position_m.len(), force_n.len());
    position_m
        .iter()
        .zip(force_n)
        .map(|(x, &force_n)| PointLoad {
            position_m: start_m + x,
            force_n,
        })
        .collect()
}

fn assert_gravity(gravity_m_per_s2: f64) {
    assert_eq!(
        gravity_m_per_s2,
        footroom_core::constants::GRAVITY_M_PER_S2,
        "the reference was computed with another gravity"
    );
}

/// A multi-span static case.
#[derive(Deserialize)]
pub struct MultispanCase {
    /// Number, such as M03.
    pub id: String,
    /// What it is.
    pub title: String,
    /// The line and its loads.
    pub inputs: MultispanInputs,
    /// What to compare with.
    pub reference: MultispanReference,
}

/// Inputs of a [`MultispanCase`].
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MultispanInputs {
    spans_m: Vec<f64>,
    loaded_span_index: usize,
    load_position_in_span_m: Vec<f64>,
    #[serde(rename = "load_N")]
    load_n: Vec<f64>,
    #[serde(rename = "axial_stiffness_N")]
    axial_stiffness_n: f64,
    mass_per_length_kg_per_m: f64,
    #[serde(rename = "pretension_N")]
    pretension_n: f64,
    #[serde(rename = "end_spring_N_per_m")]
    end_spring_n_per_m: Option<f64>,
    gravity_m_per_s2: f64,
}

/// Values of a [`MultispanCase`].
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MultispanReference {
    /// Tension, N.
    #[serde(rename = "tension_N")]
    pub tension_n: MultispanTension,
    /// Deflection at each load, m.
    pub deflection_m: Vec<MultispanValue>,
    /// Inward movement of an end, m.
    pub end_movement_m: Option<MultispanValue>,
}

/// Tension of a multi-span case, N.
#[derive(Deserialize)]
pub struct MultispanTension {
    /// At the left end, with weight, connector fixed to the rope.
    pub value_left_end_exact: f64,
    /// At the right end, with weight, connector fixed to the rope.
    pub value_right_end_exact: f64,
    /// Relative tolerance around either.
    pub tolerance_relative_any_model: f64,
}

/// A length of a multi-span case, m.
#[derive(Deserialize)]
pub struct MultispanValue {
    /// Weightless line, one tension along it.
    pub value_uniform_tension_model: f64,
    /// With weight, connector fixed to the rope; not given for end movements.
    pub value_exact_with_weight: Option<f64>,
    /// Relative tolerance around the exact value.
    pub tolerance_relative_any_model: f64,
}

impl MultispanValue {
    /// The exact value with weight, or the weightless one where there is no other.
    pub fn value(&self) -> f64 {
        self.value_exact_with_weight
            .unwrap_or(self.value_uniform_tension_model)
    }
}

impl MultispanCase {
    /// The line of the case.
    pub fn line(&self) -> Line {
        let i = &self.inputs;
        assert_gravity(i.gravity_m_per_s2);
        Line {
            spans_m: i.spans_m.clone(),
            pretension_n: i.pretension_n,
            rope: rope(i.axial_stiffness_n, i.mass_per_length_kg_per_m),
            inline_absorber: None,
            left_end_stiffness_n_per_m: i.end_spring_n_per_m,
            right_end_stiffness_n_per_m: i.end_spring_n_per_m,
            ..Line::default()
        }
    }

    /// The loads of the case.
    pub fn loads(&self) -> Vec<PointLoad> {
        let i = &self.inputs;
        let start_m: f64 = i.spans_m[..i.loaded_span_index].iter().sum();
        loads(start_m, &i.load_position_in_span_m, &i.load_n)
    }
}

/// A dynamic case.
#[derive(Deserialize)]
pub struct DynamicCase {
    /// Number, such as D09.
    pub id: String,
    /// What it is.
    pub title: String,
    /// Group of the case.
    pub phenomenon: String,
    /// The line and the crew.
    pub inputs: DynamicInputs,
    /// What to compare with.
    pub reference: DynamicReference,
}

/// Inputs of a [`DynamicCase`]. A rigid anchorage has no line.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DynamicInputs {
    simulated_time_s: f64,
    gravity_m_per_s2: f64,
    /// The worker hangs from an anchorage that does not move.
    pub rigid_anchorage: bool,
    span_m: Option<f64>,
    #[serde(rename = "axial_stiffness_N")]
    axial_stiffness_n: Option<f64>,
    mass_per_length_kg_per_m: Option<f64>,
    #[serde(rename = "pretension_N")]
    pretension_n: Option<f64>,
    #[serde(rename = "end_spring_N_per_m")]
    end_spring_n_per_m: Option<f64>,
    /// In-line absorber, at the right end.
    pub inline_absorber: Option<DynamicInline>,
    /// The crew.
    pub workers: Vec<DynamicWorker>,
}

/// In-line absorber of a dynamic case.
#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DynamicInline {
    #[serde(rename = "yield_N")]
    yield_n: f64,
    max_extension_m: f64,
}

/// A worker of a dynamic case.
#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DynamicWorker {
    position_m: f64,
    /// Mass, kg.
    pub mass_kg: f64,
    /// Free fall, m.
    pub free_fall_m: f64,
    start_time_s: f64,
    /// Elastic stiffness of lanyard and webbing, N/m.
    #[serde(rename = "lanyard_stiffness_N_per_m")]
    pub lanyard_stiffness_n_per_m: f64,
    /// Deployment force of the absorber, N; `None`: there is no absorber.
    #[serde(rename = "plateau_N")]
    pub plateau_n: Option<f64>,
    /// Greatest extension of the absorber, m.
    pub plateau_max_extension_m: Option<f64>,
    /// Stiffness once it is used up, N/m, on the total stretch.
    #[serde(rename = "locked_stiffness_N_per_m")]
    pub locked_stiffness_n_per_m: Option<f64>,
}

/// Values of a [`DynamicCase`].
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DynamicReference {
    /// Per worker.
    pub workers: Vec<DynamicWorkerReference>,
    /// Of the line; a rigid anchorage has none.
    pub line: Option<DynamicLineReference>,
    /// Everything at rest after the arrest; a rigid anchorage has none.
    pub hanging: Option<HangingReference>,
}

/// Values of one worker.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DynamicWorkerReference {
    /// Greatest arrest force, N.
    #[serde(rename = "peak_lanyard_force_N")]
    pub peak_lanyard_force_n: DynamicValue,
    /// Irreversible extension of the absorber, m.
    pub absorber_extension_m: Option<DynamicValue>,
    /// Drop to the first lowest point, m.
    pub drop_first_deepest_m: DynamicValue,
    /// Its instant, s.
    pub time_first_deepest_s: DynamicValue,
    /// Greatest drop, m.
    pub drop_max_m: Option<DynamicValue>,
    /// Greatest deflection of the line at the connector, m.
    pub line_deflection_max_m: Option<DynamicValue>,
}

/// Values of the line.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DynamicLineReference {
    /// Greatest horizontal tension, N.
    #[serde(rename = "peak_line_tension_horizontal_N")]
    pub peak_line_tension_horizontal_n: DynamicValue,
    /// Greatest tension anywhere, N.
    #[serde(rename = "peak_line_tension_max_N")]
    pub peak_line_tension_max_n: DynamicValue,
    /// Extension of the in-line absorber, m.
    pub inline_extension_m: Option<DynamicValue>,
}

/// One value of a dynamic case: either of a line with mass, undamped and damped, or in closed form.
#[derive(Clone, Copy, Deserialize)]
pub struct DynamicValue {
    /// Closed form (rigid anchorage).
    pub value: Option<f64>,
    /// Tolerance of the closed form.
    pub tolerance_relative: Option<f64>,
    /// Line with mass, undamped.
    pub value_line_with_mass: Option<f64>,
    /// Line with mass, stated damping.
    pub value_line_with_mass_damped: Option<f64>,
    /// Line without inertia.
    pub value_line_without_inertia: Option<f64>,
    /// Tolerance for a model with distributed line mass.
    pub tolerance_relative_line_with_mass: Option<f64>,
    /// Tolerance around `value_line_with_mass` for whatever model.
    pub tolerance_relative_any_model: Option<f64>,
    /// Accepted difference of extensions, m.
    pub tolerance_absolute_floor_m: Option<f64>,
}

impl DynamicValue {
    /// Undamped and damped value of the line with mass; the closed form twice for a rigid anchorage.
    pub fn ends(&self) -> (f64, f64) {
        match (
            self.value,
            self.value_line_with_mass,
            self.value_line_with_mass_damped,
        ) {
            (Some(v), _, _) => (v, v),
            (None, Some(undamped), Some(damped)) => (undamped, damped),
            _ => panic!("a dynamic reference value without value"),
        }
    }

    fn floor_m(&self) -> f64 {
        self.tolerance_absolute_floor_m.unwrap_or(0.0)
    }

    /// Where a quantity passes: between undamped and damped, widened by the case's tolerance or
    /// its absolute floor.
    pub fn interval(&self) -> Interval {
        let rtol = self
            .tolerance_relative
            .or(self.tolerance_relative_line_with_mass)
            .expect("a tolerance");
        let (a, b) = self.ends();
        Interval::between(a, b).widened(rtol, self.floor_m())
    }

    /// Where a quantity of whatever model lies.
    pub fn interval_any_model(&self) -> Interval {
        let rtol = self
            .tolerance_relative
            .or(self.tolerance_relative_any_model)
            .expect("a tolerance");
        let (a, _) = self.ends();
        Interval::between(a, a).widened(rtol, self.floor_m())
    }
}

/// The hanging state by three routes.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HangingReference {
    /// Absorbers as the line without inertia left them.
    pub from_line_without_inertia: HangingValues,
    /// The damped line with mass, settled.
    pub from_line_with_mass_opensees: HangingValues,
    /// Exact catenary at the absorbers' extensions of the line with mass.
    pub from_line_with_mass_catenary_at_the_same_extensions: HangingValues,
    /// Relative tolerance of tensions.
    pub tolerance_relative_tension: f64,
    /// Absolute tolerance of deflections, m.
    pub tolerance_absolute_deflection_m: f64,
}

/// A hanging state; end tensions and movement only where the route gives them.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HangingValues {
    /// Horizontal tension, N.
    #[serde(rename = "tension_horizontal_N")]
    pub tension_horizontal_n: f64,
    /// Tension at the left end, N.
    #[serde(rename = "tension_left_end_N")]
    pub tension_left_end_n: Option<f64>,
    /// Tension at the right end, N.
    #[serde(rename = "tension_right_end_N")]
    pub tension_right_end_n: Option<f64>,
    /// Greatest tension, N.
    #[serde(rename = "tension_max_N")]
    pub tension_max_n: f64,
    /// Deflection at each worker, m.
    pub deflection_m: Vec<f64>,
    /// Inward movement of each end, m.
    pub end_movement_m: Option<f64>,
    /// Drop of each worker, m.
    pub drop_of_mass_m: Vec<f64>,
    /// Force in each lanyard, N.
    #[serde(rename = "lanyard_force_N")]
    pub lanyard_force_n: Vec<f64>,
}

impl DynamicWorker {
    fn worker(&self) -> Worker {
        let absorber = self.plateau_n.map(|average_force_n| Absorber {
            average_force_n,
            // The plateau of the reference is constant.
            maximum_force_n: Some(average_force_n),
            max_extension_m: self.plateau_max_extension_m.expect("plateau extension"),
            locked_stiffness_n_per_m: self.locked_stiffness_n_per_m.expect("lock stiffness"),
            ..Absorber::default()
        });
        Worker {
            position_m: self.position_m,
            mass_kg: self.mass_kg,
            fall_time_s: Some(self.start_time_s),
            gear: Gear {
                stiffness_n_per_m: self.lanyard_stiffness_n_per_m,
                absorber,
                free_fall_m: Some(self.free_fall_m),
                ..Gear::default()
            },
            ..Worker::default()
        }
    }
}

impl DynamicCase {
    /// The case for core, high enough above the ground that nobody strikes anything.
    ///
    /// At a rigid anchorage the worker stands at a support (`position_m` is 0 there): the line
    /// takes no part.
    pub fn case(&self, damping_s: f64) -> Case {
        let i = &self.inputs;
        assert_gravity(i.gravity_m_per_s2);
        let line = if i.rigid_anchorage {
            Line::default()
        } else {
            Line {
                spans_m: vec![i.span_m.expect("span")],
                pretension_n: i.pretension_n.expect("pretension"),
                rope: rope(
                    i.axial_stiffness_n.expect("axial stiffness"),
                    i.mass_per_length_kg_per_m.expect("mass per length"),
                ),
                inline_absorber: i.inline_absorber.map(|a| InlineAbsorber {
                    yield_force_n: a.yield_n,
                    max_extension_m: a.max_extension_m,
                    ..InlineAbsorber::default()
                }),
                left_end_stiffness_n_per_m: i.end_spring_n_per_m,
                right_end_stiffness_n_per_m: i.end_spring_n_per_m,
                ..Line::default()
            }
        };
        Case {
            title: format!("{} {}", self.id, self.title)
                .chars()
                .take(80)
                .collect(),
            invented: false,
            line,
            workers: i.workers.iter().map(DynamicWorker::worker).collect(),
            site: Site {
                beam_top_m: 100.0,
                ..Site::default()
            },
            motion: Motion {
                damping_s,
                duration_s: i.simulated_time_s,
            },
            ..Case::default()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_read_and_cases_are_valid() {
        for case in statics() {
            assert!(case.line().line_faults().is_empty(), "{}", case.id);
            assert_eq!(case.loads().len(), case.reference.deflection_m.len());
        }
        for case in multispan() {
            assert!(case.line().line_faults().is_empty(), "{}", case.id);
            assert_eq!(case.loads().len(), case.reference.deflection_m.len());
        }
        for case in dynamics() {
            for damping_s in [0.0, STATED_DAMPING_S] {
                let faults = case.case(damping_s).faults();
                assert!(faults.is_empty(), "{}: {faults:?}", case.id);
            }
            assert_eq!(case.inputs.workers.len(), case.reference.workers.len());
        }
    }
}
