//! Wire rope: the properties the mechanics needs, and a catalogue of generic constructions.

use crate::constants::{FOOT_M, INCH_M, POUND_FORCE_N, POUND_KG};

/// Generic construction of a wire rope.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Construction {
    /// 7x19 galvanised carbon steel strand.
    Galvanised7x19,
    /// 7x19 stainless steel strand.
    Stainless7x19,
    /// 6x19, fibre core, improved plow steel.
    FibreCore6x19,
    /// Values of the user's own, from the maker's data sheet.
    Own,
}

/// Key of each construction.
pub const CONSTRUCTIONS: [(&str, Construction); 4] = [
    ("galvanised7x19", Construction::Galvanised7x19),
    ("stainless7x19", Construction::Stainless7x19),
    ("fibre_core6x19", Construction::FibreCore6x19),
    ("own", Construction::Own),
];

/// A rope as the mechanics sees it. The values are carried with the case; the construction
/// only says where they came from.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Rope {
    /// Construction that the values were taken from.
    pub construction: Construction,
    /// Nominal diameter, m.
    pub diameter_m: f64,
    /// Axial stiffness EA, N: tension per unit of relative extension.
    pub axial_stiffness_n: f64,
    /// Mass per unstretched length, kg/m.
    pub mass_per_length_kg_per_m: f64,
    /// Minimum breaking force, N; `None`: not known, strength is not evaluated.
    pub breaking_force_n: Option<f64>,
}

impl Default for Rope {
    /// 9.5 mm (3/8 in) 7x19 galvanised.
    fn default() -> Self {
        CATALOGUE[2].rope
    }
}

/// One row of the catalogue.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct CatalogueRow {
    /// Stable name of the row.
    pub id: &'static str,
    /// The values.
    pub rope: Rope,
    /// Where the breaking force and the mass come from.
    pub source: &'static str,
}

/// EA of 7x19 strand, N, from the diameter in inches: d² × 6.17e6 lbf.
///
/// Source: elastic stretch of 7x19 stainless cable in per cent = load\[lbf\] × 1.62e-5 / d²
/// (Wiley Engineer's Desk Reference, as quoted in public cable tables). The same stretch is taken
/// for galvanised strand of the same construction.
const fn axial_stiffness_7x19_n(diameter_in: f64) -> f64 {
    diameter_in * diameter_in / 1.62e-7 * POUND_FORCE_N
}

/// EA of 6x19 fibre core rope, N: 0.40 d² of metal area at an effective modulus of 83 GPa.
///
/// Source: common practice for used-in (pre-stretched) 6x19 fibre core rope, from memory.
const fn axial_stiffness_6x19_n(diameter_in: f64) -> f64 {
    let d = diameter_in * INCH_M;
    0.40 * d * d * 83.0e9
}

const fn strand(
    construction: Construction,
    diameter_in: f64,
    breaking_lbf: f64,
    mass_lb_per_100_ft: f64,
) -> Rope {
    Rope {
        construction,
        diameter_m: diameter_in * INCH_M,
        axial_stiffness_n: axial_stiffness_7x19_n(diameter_in),
        mass_per_length_kg_per_m: mass_lb_per_100_ft * POUND_KG / (100.0 * FOOT_M),
        breaking_force_n: Some(breaking_lbf * POUND_FORCE_N),
    }
}

const fn fibre_core(diameter_in: f64, breaking_lbf: f64, mass_kg_per_m: f64) -> Rope {
    Rope {
        construction: Construction::FibreCore6x19,
        diameter_m: diameter_in * INCH_M,
        axial_stiffness_n: axial_stiffness_6x19_n(diameter_in),
        mass_per_length_kg_per_m: mass_kg_per_m,
        breaking_force_n: Some(breaking_lbf * POUND_FORCE_N),
    }
}

const STRAND_SOURCE: &str = "MIL-DTL-83420 / RR-W-410 class tables, from memory; stretch: Wiley Engineer's Desk Reference, as quoted in public cable tables";
const FIBRE_CORE_SOURCE: &str = "engineering handbook table, 6x19 improved plow steel, fibre core; stiffness: common practice, from memory";

/// Generic constructions to start from; the maker's data sheet goes before any of them.
///
/// Breaking forces and masses: published values 13 and 14 of the reference list (tests name them).
pub const CATALOGUE: &[CatalogueRow] = &[
    CatalogueRow {
        id: "galvanised_7x19_6",
        rope: strand(Construction::Galvanised7x19, 0.25, 7_000.0, 11.0),
        source: STRAND_SOURCE,
    },
    CatalogueRow {
        id: "galvanised_7x19_8",
        rope: strand(Construction::Galvanised7x19, 0.3125, 9_800.0, 17.3),
        source: STRAND_SOURCE,
    },
    CatalogueRow {
        id: "galvanised_7x19_10",
        rope: strand(Construction::Galvanised7x19, 0.375, 14_400.0, 24.3),
        source: STRAND_SOURCE,
    },
    CatalogueRow {
        id: "stainless_7x19_10",
        rope: strand(Construction::Stainless7x19, 0.375, 12_000.0, 24.3),
        source: STRAND_SOURCE,
    },
    CatalogueRow {
        id: "fibre_core_6x19_10",
        rope: fibre_core(0.375, 12_200.0, 0.36),
        source: FIBRE_CORE_SOURCE,
    },
    CatalogueRow {
        id: "fibre_core_6x19_13",
        rope: fibre_core(0.5, 21_400.0, 0.63),
        source: FIBRE_CORE_SOURCE,
    },
    CatalogueRow {
        id: "fibre_core_6x19_16",
        rope: fibre_core(0.625, 33_400.0, 0.98),
        source: FIBRE_CORE_SOURCE,
    },
];
