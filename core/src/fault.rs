//! What is wrong with a case, typed: field, value, allowed range.

use core::fmt;
use core::ops::RangeInclusive;

/// A field of a case, by its name in [`crate::field::FIELDS`] and, in lists, its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct FieldRef {
    /// Path as in the serialised case, lists without an index, such as `workers.mass_kg`.
    pub name: &'static str,
    /// Place in the list, counted from 0; `None` outside lists.
    pub index: Option<usize>,
}

impl FieldRef {
    /// A field outside any list.
    pub const fn new(name: &'static str) -> Self {
        Self { name, index: None }
    }

    /// A field of the list element `index`, counted from 0.
    pub const fn at(name: &'static str, index: usize) -> Self {
        Self {
            name,
            index: Some(index),
        }
    }
}

impl fmt::Display for FieldRef {
    /// Writes `workers[1].mass_kg`, `line.spans_m[0]`, `line.pretension_n`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.index {
            None => f.write_str(self.name),
            Some(i) => {
                let list_end = if self.name.starts_with("line.spans_m") {
                    self.name.len()
                } else if self.name.starts_with("site.below") {
                    "site.below".len()
                } else {
                    self.name.find('.').unwrap_or(self.name.len())
                };
                let (list, rest) = self.name.split_at_checked(list_end).unwrap_or_default();
                write!(f, "{list}[{i}]{rest}")
            }
        }
    }
}

/// One fault of a case. Values are SI, in the unit that the field's name ends with.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", tag = "fault"))]
#[non_exhaustive]
pub enum Fault {
    /// The value is not a number, or infinite.
    NotFinite {
        /// Which field.
        field: FieldRef,
    },
    /// The value lies outside the declared range.
    OutOfRange {
        /// Which field.
        field: FieldRef,
        /// Value found.
        value: f64,
        /// Least allowed value.
        min: f64,
        /// Greatest allowed value.
        max: f64,
    },
    /// A list has too few or too many entries, or a text too many characters.
    Count {
        /// Which list or text.
        field: FieldRef,
        /// Number found.
        count: usize,
        /// Least allowed number.
        min: usize,
        /// Greatest allowed number.
        max: usize,
    },
    /// The lanyard is shorter than the way from the line to the D-ring of a standing worker.
    LanyardTooShort {
        /// The lanyard's length field.
        field: FieldRef,
        /// Length found, m.
        value: f64,
        /// Least length that lets the worker stand, m.
        min: f64,
    },
    /// A span sags at rest by more than [`crate::constants::SAG_RATIO_MAX`] of its length.
    SlackAtRest {
        /// The pretension field.
        field: FieldRef,
        /// Pretension found, N.
        value: f64,
        /// Least pretension at which every span counts as taut, N.
        min: f64,
    },
    /// A thing below ends before it begins.
    Reversed {
        /// The field of the end.
        field: FieldRef,
        /// End found, m.
        value: f64,
        /// Its beginning, m.
        min: f64,
    },
    /// The beam top lies below the top of a thing that is said to be below it.
    AboveBeam {
        /// The height field of the thing.
        field: FieldRef,
        /// Height found, m.
        value: f64,
        /// Greatest height: that of the beam top, m.
        max: f64,
    },
    /// The line is pulled more tightly at rest than its rope or its in-line absorber bears.
    PretensionTooHigh {
        /// The pretension field.
        field: FieldRef,
        /// Pretension found, N.
        value: f64,
        /// Greatest pretension, N.
        max: f64,
    },
    /// The greatest force of an absorber is less than its average.
    ForceOrder {
        /// The field of the greatest force.
        field: FieldRef,
        /// Force found, N.
        value: f64,
        /// Its average force, N.
        min: f64,
    },
}

impl Fault {
    /// The fault of a list or text of `count` entries where so many are allowed; `None`: there is none.
    #[cold]
    pub(crate) fn of_count(
        field: FieldRef,
        count: usize,
        counts: RangeInclusive<usize>,
    ) -> Option<Self> {
        (!counts.contains(&count)).then(|| Self::Count {
            field,
            count,
            min: *counts.start(),
            max: *counts.end(),
        })
    }

    /// The fault of a place beyond the end of the line; `None`: it is not.
    #[cold]
    pub(crate) fn beyond_line(
        name: &'static str,
        index: usize,
        place_m: f64,
        length_m: f64,
    ) -> Option<Self> {
        (place_m > length_m).then(|| Self::OutOfRange {
            field: FieldRef::at(name, index),
            value: place_m,
            min: 0.0,
            max: length_m,
        })
    }

    /// The field that must be changed.
    pub fn field(&self) -> FieldRef {
        match *self {
            Fault::NotFinite { field }
            | Fault::OutOfRange { field, .. }
            | Fault::Count { field, .. }
            | Fault::LanyardTooShort { field, .. }
            | Fault::SlackAtRest { field, .. }
            | Fault::Reversed { field, .. }
            | Fault::AboveBeam { field, .. }
            | Fault::PretensionTooHigh { field, .. }
            | Fault::ForceOrder { field, .. } => field,
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Fault::NotFinite { field } => write!(f, "{field}: not a usable number"),
            Fault::OutOfRange {
                field,
                value,
                min,
                max,
            } => write!(f, "{field}: {value} is outside {min} to {max}"),
            Fault::Count {
                field,
                count,
                min,
                max,
            } => write!(f, "{field}: {count} entries, allowed {min} to {max}"),
            Fault::LanyardTooShort { field, value, min } => write!(
                f,
                "{field}: {value} is too short for the worker to stand up: at least {min}"
            ),
            Fault::SlackAtRest { field, value, min } => {
                write!(
                    f,
                    "{field}: {value} leaves the line slack with nobody on it: at least {min}"
                )
            }
            Fault::Reversed { field, value, min } => {
                write!(f, "{field}: ends at {value}, before it begins at {min}")
            }
            Fault::AboveBeam { field, value, max } => {
                write!(
                    f,
                    "{field}: {value} is higher than the beam top: at most {max}"
                )
            }
            Fault::PretensionTooHigh { field, value, max } => {
                write!(
                    f,
                    "{field}: {value} is more than the line can hold at rest: at most {max}"
                )
            }
            Fault::ForceOrder { field, value, min } => {
                write!(
                    f,
                    "{field}: {value} is less than the average force of {min}"
                )
            }
        }
    }
}

impl core::error::Error for Fault {}
