//! What is known of a numeric input beside its value: quantity, range, where its default comes from.

use crate::fault::{Fault, FieldRef};

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
pub(crate) const fn row(
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

impl Field {
    /// What is wrong with a value of this field, of the list element `index` where it is in a list;
    /// `None`: it is a number inside the range.
    pub(crate) fn fault(&self, index: Option<usize>, value: f64) -> Option<Fault> {
        let field = FieldRef {
            name: self.name,
            index,
        };
        let Self { min, max, .. } = *self;
        if !value.is_finite() {
            Some(Fault::NotFinite { field })
        } else if (min..=max).contains(&value) {
            None
        } else {
            Some(Fault::OutOfRange {
                field,
                value,
                min,
                max,
            })
        }
    }
}
