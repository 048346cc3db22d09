//! Limits that a case is held against: the sets that are applied, and those of the user's own.
//!
//! [`crate::check`] holds it against them.

use alloc::string::String;

#[cfg(doc)]
use crate::case::TEXT_MAX;
use crate::quantity::Quantity;

/// Most limits of the user's own.
pub const OWN_LIMITS_MAX: usize = 24;

/// Most characters of the reference text of an own limit.
pub const REFERENCE_MAX: usize = 200;

/// Which built-in sets of limits are applied. Site and parts always are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Sets {
    /// 29 CFR 1926 Subpart M.
    pub us: bool,
    /// EN 355, EN 360 and EN 795.
    pub european: bool,
}

impl Default for Sets {
    /// The limits of 29 CFR 1926 Subpart M only.
    fn default() -> Self {
        Self {
            us: true,
            european: false,
        }
    }
}

/// What a limit of the user's own bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum OwnQuantity {
    /// Arrest force on a worker, at most, N.
    ArrestForce,
    /// Free fall, at most, m.
    FreeFall,
    /// Deceleration distance, at most, m.
    DecelerationDistance,
    /// Depth needed below line level, margin included, at most, m.
    RequiredDepth,
    /// Room left under the soles once the margin is kept, at least, m.
    Footroom,
    /// Tension anywhere in the line, at most, N.
    LineTension,
    /// Tension at an end of the line, at most, N.
    EndTension,
    /// Tension of a tieback that takes the whole pull, at most, N.
    TiebackTension,
    /// Compression of an end post, at most, N.
    PostCompression,
    /// Moment at the foot of an end post, at most, N·m.
    PostMoment,
    /// Downward load on the head of an intermediate post, at most, N.
    IntermediatePostLoad,
}

/// Key of each of them.
pub const OWN_QUANTITIES: [(&str, OwnQuantity); 11] = [
    ("arrest_force", OwnQuantity::ArrestForce),
    ("free_fall", OwnQuantity::FreeFall),
    ("deceleration_distance", OwnQuantity::DecelerationDistance),
    ("required_depth", OwnQuantity::RequiredDepth),
    ("footroom", OwnQuantity::Footroom),
    ("line_tension", OwnQuantity::LineTension),
    ("end_tension", OwnQuantity::EndTension),
    ("tieback_tension", OwnQuantity::TiebackTension),
    ("post_compression", OwnQuantity::PostCompression),
    ("post_moment", OwnQuantity::PostMoment),
    ("intermediate_post_load", OwnQuantity::IntermediatePostLoad),
];

impl OwnQuantity {
    /// Kind of quantity, which fixes unit and display.
    pub const fn quantity(self) -> Quantity {
        match self {
            OwnQuantity::FreeFall
            | OwnQuantity::DecelerationDistance
            | OwnQuantity::RequiredDepth
            | OwnQuantity::Footroom => Quantity::Length,
            OwnQuantity::PostMoment => Quantity::Moment,
            OwnQuantity::ArrestForce
            | OwnQuantity::LineTension
            | OwnQuantity::EndTension
            | OwnQuantity::TiebackTension
            | OwnQuantity::PostCompression
            | OwnQuantity::IntermediatePostLoad => Quantity::Force,
        }
    }

    /// Greatest limit that is taken, SI.
    pub const fn limit_max(self) -> f64 {
        match self.quantity() {
            Quantity::Length => 300.0,
            _ => 2.0e6,
        }
    }
}

/// A limit of the user's own: a local code's, an owner's, a maker's.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct OwnLimit {
    /// Name, at most [`TEXT_MAX`] characters.
    pub label: String,
    /// What it bounds.
    pub quantity: OwnQuantity,
    /// The limit, SI in the unit of the quantity, 0 to [`OwnQuantity::limit_max`].
    pub limit: f64,
    /// Where it stands, at most [`REFERENCE_MAX`] characters.
    pub reference: String,
}

impl Default for OwnLimit {
    /// To be filled in: 0 on the arrest force, which no fall meets, so that none is met before it
    /// was typed. No default for a text, in which every field must stand.
    fn default() -> Self {
        Self {
            label: String::new(),
            quantity: OwnQuantity::ArrestForce,
            limit: 0.0,
            reference: String::new(),
        }
    }
}
