//! The table of all numeric inputs: name, quantity, range and where the default comes from.
//!
//! Validation and the page read the same table, so that neither can state another range.

/// What kind of quantity a field holds; decides its display unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Quantity {
    /// Length, m.
    Length,
    /// Rope diameter, m.
    Diameter,
    /// Force, N.
    Force,
    /// Axial stiffness EA, N.
    AxialStiffness,
    /// Spring stiffness, N/m.
    Stiffness,
    /// Mass, kg.
    Mass,
    /// Mass per length, kg/m.
    MassPerLength,
    /// Time, s.
    Time,
    /// Bending stiffness E I, N·m².
    BendingStiffness,
    /// Bending moment, N·m.
    Moment,
    /// Absolute temperature, K.
    Temperature,
    /// Number without unit: a ratio, a part of one.
    Ratio,
}

/// Where a default value comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Basis {
    /// Measured on the site: no default can stand for it.
    Site,
    /// Common practice of the trade, no source.
    CommonPractice,
    /// The rope catalogue, see [`crate::rope`].
    Catalogue,
    /// A published standard or paper.
    Published {
        /// Which, as cited; the value was re-read there or comes from memory as its documentation says.
        source: &'static str,
    },
    /// A choice of this program's: what is published says that something belongs there, not how much.
    Chosen {
        /// What is published, as cited.
        source: &'static str,
    },
    /// The maker's instructions: the default is only an invented example.
    Maker,
    /// A setting of the calculation.
    Method,
}

/// One numeric input: its name, quantity, range and the origin of its default.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Field {
    /// Path as in the serialised case, lists without an index.
    pub name: &'static str,
    /// Quantity, which fixes the SI unit.
    pub quantity: Quantity,
    /// Least allowed value, SI.
    pub min: f64,
    /// Greatest allowed value, SI.
    pub max: f64,
    /// Where the default comes from.
    pub basis: Basis,
}

/// A row of a table of inputs.
pub(crate) const fn field(
    name: &'static str,
    quantity: Quantity,
    min: f64,
    max: f64,
    basis: Basis,
) -> Field {
    Field {
        name,
        quantity,
        min,
        max,
        basis,
    }
}

const fn published(source: &'static str) -> Basis {
    Basis::Published { source }
}

const MANUAL: Basis = published("OSHA Technical Manual, Section V, Chapter 4");
const AVERAGE_AND_MAXIMUM: Basis =
    published("Carrión et al., Int. J. Environ. Res. Public Health 17 (2020) 7647");
const ABSORBER_FORCE: Basis = published("Goh, J. Constr. Eng. Manage. 141(1), 2015, abstract");
const FACTOR_OF_TWO: Basis = published("29 CFR 1926.502(d)(8)");
const FALL_DISTANCE: Basis = Basis::Chosen {
    source: "Carrión et al., Int. J. Environ. Res. Public Health 18 (2021) 5823, abstract",
};
const LINE_LOAD: Basis = Basis::Chosen {
    source: "Galy and Lan, Int. J. Occup. Saf. Ergon. (2017), abstract",
};

/// Every numeric input of a [`crate::case::Case`], and of point loads beside it.
pub const FIELDS: &[Field] = &[
    field("line.spans_m", Quantity::Length, 1.0, 60.0, Basis::Site),
    field(
        "line.height_above_beam_m",
        Quantity::Length,
        0.0,
        4.0,
        Basis::CommonPractice,
    ),
    field(
        "line.pretension_n",
        Quantity::Force,
        50.0,
        40_000.0,
        Basis::CommonPractice,
    ),
    field(
        "line.rope.diameter_m",
        Quantity::Diameter,
        0.004,
        0.04,
        Basis::Catalogue,
    ),
    field(
        "line.rope.axial_stiffness_n",
        Quantity::AxialStiffness,
        1.0e5,
        1.0e8,
        Basis::Catalogue,
    ),
    field(
        "line.rope.mass_per_length_kg_per_m",
        Quantity::MassPerLength,
        0.02,
        6.0,
        Basis::Catalogue,
    ),
    field(
        "line.rope.breaking_force_n",
        Quantity::Force,
        1.0e3,
        2.0e6,
        Basis::Catalogue,
    ),
    field(
        "line.inline_absorber.yield_force_n",
        Quantity::Force,
        500.0,
        100_000.0,
        Basis::Maker,
    ),
    field(
        "line.inline_absorber.max_extension_m",
        Quantity::Length,
        0.01,
        5.0,
        Basis::Maker,
    ),
    field(
        "line.left_end_stiffness_n_per_m",
        Quantity::Stiffness,
        1.0e4,
        1.0e9,
        Basis::Site,
    ),
    field(
        "line.right_end_stiffness_n_per_m",
        Quantity::Stiffness,
        1.0e4,
        1.0e9,
        Basis::Site,
    ),
    field(
        "workers.position_m",
        Quantity::Length,
        0.0,
        720.0,
        Basis::Site,
    ),
    field(
        "workers.mass_kg",
        Quantity::Mass,
        30.0,
        250.0,
        Basis::CommonPractice,
    ),
    field("workers.dring_height_m", Quantity::Length, 0.5, 2.2, MANUAL),
    field(
        "workers.harness_stretch_m",
        Quantity::Length,
        0.0,
        1.0,
        MANUAL,
    ),
    field("workers.fall_time_s", Quantity::Time, 0.0, 5.0, Basis::Site),
    field(
        "workers.gear.length_m",
        Quantity::Length,
        0.2,
        6.0,
        Basis::CommonPractice,
    ),
    field(
        "workers.gear.lock_distance_m",
        Quantity::Length,
        0.0,
        2.0,
        Basis::Maker,
    ),
    field(
        "workers.gear.stiffness_n_per_m",
        Quantity::Stiffness,
        5.0e3,
        1.0e6,
        Basis::CommonPractice,
    ),
    field(
        "workers.gear.absorber.average_force_n",
        Quantity::Force,
        1_000.0,
        12_000.0,
        Basis::Maker,
    ),
    field(
        "workers.gear.absorber.maximum_force_n",
        Quantity::Force,
        1_000.0,
        16_000.0,
        AVERAGE_AND_MAXIMUM,
    ),
    field(
        "workers.gear.absorber.max_extension_m",
        Quantity::Length,
        0.05,
        3.0,
        Basis::Maker,
    ),
    field(
        "workers.gear.absorber.locked_stiffness_n_per_m",
        Quantity::Stiffness,
        5.0e3,
        1.0e6,
        Basis::CommonPractice,
    ),
    field(
        "workers.gear.free_fall_m",
        Quantity::Length,
        0.0,
        8.0,
        Basis::Site,
    ),
    field("site.beam_top_m", Quantity::Length, 0.5, 300.0, Basis::Site),
    field("site.beam_depth_m", Quantity::Length, 0.1, 5.0, Basis::Site),
    field(
        "site.margin_m",
        Quantity::Length,
        0.0,
        5.0,
        Basis::CommonPractice,
    ),
    field(
        "site.reach_m",
        Quantity::Length,
        0.0,
        10.0,
        Basis::CommonPractice,
    ),
    field(
        "site.below.from_m",
        Quantity::Length,
        -50.0,
        770.0,
        Basis::Site,
    ),
    field(
        "site.below.to_m",
        Quantity::Length,
        -50.0,
        770.0,
        Basis::Site,
    ),
    field(
        "site.below.height_m",
        Quantity::Length,
        0.0,
        300.0,
        Basis::Site,
    ),
    field(
        "point_loads.position_m",
        Quantity::Length,
        0.0,
        720.0,
        Basis::Site,
    ),
    field(
        "point_loads.force_n",
        Quantity::Force,
        0.0,
        1.0e6,
        Basis::Site,
    ),
    field(
        "workers.offset_along_m",
        Quantity::Length,
        -3.0,
        3.0,
        Basis::Site,
    ),
    field(
        "workers.edge_distance_m",
        Quantity::Length,
        0.0,
        3.0,
        Basis::Site,
    ),
    field(
        "posts.left.bending_stiffness_n_m2",
        Quantity::BendingStiffness,
        10000.0,
        100000000.0,
        Basis::Maker,
    ),
    field(
        "posts.left.tieback.set_back_m",
        Quantity::Length,
        0.2,
        6.0,
        Basis::CommonPractice,
    ),
    field(
        "posts.left.tieback.axial_stiffness_n",
        Quantity::AxialStiffness,
        50000.0,
        100000000.0,
        Basis::Maker,
    ),
    field(
        "posts.right.bending_stiffness_n_m2",
        Quantity::BendingStiffness,
        10000.0,
        100000000.0,
        Basis::Maker,
    ),
    field(
        "posts.right.tieback.set_back_m",
        Quantity::Length,
        0.2,
        6.0,
        Basis::CommonPractice,
    ),
    field(
        "posts.right.tieback.axial_stiffness_n",
        Quantity::AxialStiffness,
        50000.0,
        100000000.0,
        Basis::Maker,
    ),
    field(
        "strengths.termination_efficiency_ratio",
        Quantity::Ratio,
        0.3,
        1.0,
        Basis::CommonPractice,
    ),
    field(
        "strengths.end_anchorage_n",
        Quantity::Force,
        1000.0,
        2000000.0,
        Basis::Maker,
    ),
    field(
        "strengths.post_moment_n_m",
        Quantity::Moment,
        100.0,
        1000000.0,
        Basis::Maker,
    ),
    field(
        "strengths.post_compression_n",
        Quantity::Force,
        1000.0,
        2000000.0,
        Basis::Maker,
    ),
    field(
        "strengths.tieback_n",
        Quantity::Force,
        1000.0,
        2000000.0,
        Basis::Maker,
    ),
    field(
        "strengths.tieback_anchorage_n",
        Quantity::Force,
        1000.0,
        2000000.0,
        Basis::Maker,
    ),
    field(
        "strengths.intermediate_post_n",
        Quantity::Force,
        100.0,
        2000000.0,
        Basis::Maker,
    ),
    field(
        "strengths.intermediate_post_along_n",
        Quantity::Force,
        100.0,
        2000000.0,
        Basis::Maker,
    ),
    field(
        "strengths.lanyard_n",
        Quantity::Force,
        1000.0,
        200000.0,
        Basis::Maker,
    ),
    field(
        "strengths.self_retracting_n",
        Quantity::Force,
        1000.0,
        200000.0,
        Basis::Maker,
    ),
    field(
        "strengths.required_ratio",
        Quantity::Ratio,
        1.0,
        10.0,
        FACTOR_OF_TWO,
    ),
    field(
        "tolerances.mass_ratio",
        Quantity::Ratio,
        0.0,
        0.5,
        Basis::CommonPractice,
    ),
    field(
        "tolerances.absorber_force_ratio",
        Quantity::Ratio,
        0.0,
        0.5,
        ABSORBER_FORCE,
    ),
    field(
        "tolerances.pretension_ratio",
        Quantity::Ratio,
        0.0,
        0.5,
        Basis::CommonPractice,
    ),
    field(
        "tolerances.axial_stiffness_ratio",
        Quantity::Ratio,
        0.0,
        0.5,
        Basis::CommonPractice,
    ),
    field(
        "tolerances.end_stiffness_ratio",
        Quantity::Ratio,
        0.0,
        0.8,
        Basis::CommonPractice,
    ),
    field(
        "tolerances.inline_force_ratio",
        Quantity::Ratio,
        0.0,
        0.5,
        Basis::Maker,
    ),
    field(
        "allowance.clearance_ratio",
        Quantity::Ratio,
        0.0,
        1.0,
        FALL_DISTANCE,
    ),
    field(
        "allowance.tension_ratio",
        Quantity::Ratio,
        0.0,
        1.0,
        LINE_LOAD,
    ),
    field(
        "temperature.installed_k",
        Quantity::Temperature,
        223.15,
        333.15,
        Basis::Site,
    ),
    field(
        "temperature.today_k",
        Quantity::Temperature,
        223.15,
        333.15,
        Basis::Site,
    ),
    field(
        "motion.damping_s",
        Quantity::Time,
        0.0,
        1.0e-3,
        Basis::Method,
    ),
    field(
        "motion.duration_s",
        Quantity::Time,
        0.5,
        10.0,
        Basis::Method,
    ),
];

/// The entry of [`FIELDS`] with this name.
pub fn find(name: &str) -> Option<&'static Field> {
    FIELDS.iter().find(|f| f.name == name)
}
