//! The list of the inputs: every field of a [`Case`] in its order, numbers with their row of
//! [`FIELDS`], one line each.
//!
//! It is told to a [`Visitor`], so that whatever is done with every input is written once: ranges
//! ([`Case::faults`]), a number by its name ([`read`], [`write()`]), the case as JSON (in the crate of
//! the page). Each block takes its structure apart in full: a field that is added to a structure does
//! not compile until it stands here.
//!
//! What is marked `#[cold]` runs some times a change of the case, no history waits for it: small rather
//! than quick.

use alloc::string::String;
use alloc::vec::Vec;
use core::ops::RangeInclusive;

use crate::case::{
    Absorber, Allowance, BELOW_KINDS, Below, CREW_MOVES, Case, CrewMoves, EndPost, GEAR_KINDS,
    Gear, INLINE_PLACES, InlineAbsorber, InlinePlace, Line, Motion, Posts, Site, Strengths,
    TEXT_MAX, Temperature, Tieback, Tolerances, Worker,
};
use crate::constants::{BELOW_MAX, SPANS_MAX, WORKERS_MAX};
use crate::limits::{OWN_LIMITS_MAX, OWN_QUANTITIES, OwnLimit, REFERENCE_MAX, Sets};
use crate::points::{POINTS_MAX, Peak, Points};
use crate::quantity::row;
use crate::rope::{CONSTRUCTIONS, Rope};

pub use crate::quantity::{Basis, Field, Quantity};

/// What is told of every input in turn, in the order of the case.
///
/// Names are paths as in the serialised case, lists without an index, such as
/// `workers.gear.absorber`; that of a number is in its [`Field`].
pub trait Visitor {
    /// A number.
    fn number(&mut self, field: &Field, value: &mut f64);
    /// A number that may be missing.
    fn optional(&mut self, field: &Field, value: &mut Option<f64>);
    /// A list of numbers, of the allowed counts. Where none are allowed, a text says nothing of none.
    fn numbers(&mut self, field: &Field, counts: RangeInclusive<usize>, values: &mut Vec<f64>);
    /// Something that is or is not so.
    fn flag(&mut self, name: &'static str, value: &mut bool);
    /// A text of at most so many characters.
    fn text(&mut self, name: &'static str, longest: usize, value: &mut String);
    /// One of a few, by its place among their keys. `unsaid`: the one that a text leaves out.
    fn choice(
        &mut self,
        name: &'static str,
        keys: &[&'static str],
        unsaid: Option<usize>,
        place: &mut usize,
    );
    /// A structure that is always there: `body` tells what is in it to the visitor that it is given.
    fn object(&mut self, name: &'static str, body: &mut dyn FnMut(&mut dyn Visitor));
    /// A structure that may be missing. `there` is read again afterwards; one that was missing and
    /// is there then has what the body was told, the rest by default.
    fn perhaps(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Visitor),
    );
    /// The same, of which a text says nothing where it is missing.
    fn seldom(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Visitor),
    ) {
        self.perhaps(name, there, body);
    }
    /// A list of `count` structures, of the allowed counts. `body` is told the place; one beyond the
    /// end makes the list longer.
    fn list(
        &mut self,
        name: &'static str,
        counts: RangeInclusive<usize>,
        count: usize,
        body: &mut dyn FnMut(usize, &mut dyn Visitor),
    );
    /// The names of the structure at hand that have no default, told before them.
    fn required(&mut self, _names: &[&'static str]) {}
}

/// Tells a visitor every input of a case.
pub fn visit(case: &mut Case, visitor: &mut dyn Visitor) {
    case::visit(case, visitor);
}

/// Tells a visitor every input of a line alone.
pub(crate) fn visit_line(line: &mut Line, visitor: &mut dyn Visitor) {
    line::visit(line, visitor);
}

/// A structure: its module, the path before its fields, its type, its fields in their order. Numbers
/// (`number`, `optional`, `numbers`) have quantity, least and greatest value in SI, and where the
/// default comes from; `object`, `perhaps` and `list` name the module of what they hold.
macro_rules! structure {
    ($at:ident $path:literal $type:ident { $($name:ident: $kind:ident $what:tt,)* }) => {
        mod $at {
            use super::*;

            const PARTS: &[&[Field]] = &[$(rows!($path $name $kind $what)),*];
            pub(super) const ROWS: [Field; count(PARTS)] = join(PARTS);

            #[cold]
            pub(super) fn visit(value: &mut $type, visitor: &mut dyn Visitor) {
                let $type { $($name),* } = value;
                $(tell!(visitor $path $name $kind $what);)*
            }
        }
    };
}

/// The rows of a field.
macro_rules! rows {
    ($path:literal $name:ident numbers(
        $quantity:ident, $min:literal, $max:literal, $basis:ident, $counts:expr
    )) => {
        rows!($path $name number($quantity, $min, $max, $basis))
    };
    ($path:literal $name:ident optional $what:tt) => {
        rows!($path $name number $what)
    };
    ($path:literal $name:ident number(
        $quantity:ident, $min:literal, $max:literal, $basis:ident
    )) => {
        &[row(
            concat!($path, stringify!($name)),
            Quantity::$quantity,
            $min,
            $max,
            Basis::$basis,
        )]
    };
    ($path:literal $name:ident list($at:ident, $counts:expr)) => {
        &super::$at::ROWS
    };
    ($path:literal $name:ident object($at:ident)) => {
        &super::$at::ROWS
    };
    ($path:literal $name:ident perhaps($at:ident)) => {
        &super::$at::ROWS
    };
    ($path:literal $name:ident unless_missing($at:ident)) => {
        &super::$at::ROWS
    };
    ($path:literal $name:ident $kind:ident $what:tt) => {
        &[]
    };
}

/// Tells a field.
macro_rules! tell {
    ($to:ident $path:literal $name:ident numbers(
        $quantity:ident, $min:literal, $max:literal, $basis:ident, $counts:expr
    )) => {
        $to.numbers(listed!($path $name), $counts, $name)
    };
    ($to:ident $path:literal $name:ident number $what:tt) => {
        $to.number(listed!($path $name), $name)
    };
    ($to:ident $path:literal $name:ident optional $what:tt) => {
        $to.optional(listed!($path $name), $name)
    };
    ($to:ident $path:literal $name:ident flag()) => {
        $to.flag(concat!($path, stringify!($name)), $name)
    };
    ($to:ident $path:literal $name:ident text($longest:expr)) => {
        $to.text(concat!($path, stringify!($name)), $longest, $name)
    };
    ($to:ident $path:literal $name:ident choice($choices:ident)) => {
        choice($to, concat!($path, stringify!($name)), &$choices, None, $name)
    };
    ($to:ident $path:literal $name:ident seldom($choices:ident, $unsaid:expr)) => {
        choice($to, concat!($path, stringify!($name)), &$choices, Some($unsaid), $name)
    };
    ($to:ident $path:literal $name:ident object($at:ident)) => {
        $to.object(concat!($path, stringify!($name)), &mut |to| {
            super::$at::visit($name, to)
        })
    };
    ($to:ident $path:literal $name:ident perhaps($at:ident)) => {
        perhaps($to, concat!($path, stringify!($name)), $name, super::$at::visit, false)
    };
    ($to:ident $path:literal $name:ident unless_missing($at:ident)) => {
        perhaps($to, concat!($path, stringify!($name)), $name, super::$at::visit, true)
    };
    ($to:ident $path:literal $name:ident points($row:ident)) => {
        points($to, &$row, $name)
    };
    ($to:ident $path:literal $name:ident list($at:ident, $counts:expr)) => {
        list(
            $to,
            concat!($path, stringify!($name)),
            $counts,
            $name,
            super::$at::visit,
        )
    };
}

/// The row of a number in [`FIELDS`], found when this is compiled.
macro_rules! listed {
    ($path:literal $name:ident) => {
        const { place(concat!($path, stringify!($name))) }
    };
}

#[rustfmt::skip]
structure!(case "" Case {
    title:         text(TEXT_MAX),
    invented:      flag(),
    line:          object(line),
    workers:       list(worker, 1..=WORKERS_MAX),
    site:          object(site),
    posts:         object(posts),
    strengths:     object(strengths),
    tolerances:    object(tolerances),
    allowance:     object(allowance),
    temperature:   object(temperature),
    sets:          object(sets),
    own_limits:    list(own_limit, 0..=OWN_LIMITS_MAX),
    motion:        object(motion),
    crew_moves:    seldom(CREW_MOVES, CrewMoves::KeepingDistances),
});

#[rustfmt::skip]
structure!(line "line." Line {
    spans_m:                      numbers (Length, 1.0, 60.0, Site, 1..=SPANS_MAX),
    height_above_beam_m:          number  (Length, 0.0, 4.0, CommonPractice),
    pretension_n:                 number  (Force, 50.0, 40.0e3, CommonPractice),
    rope:                         object  (rope),
    inline_absorber:              perhaps (inline_absorber),
    left_end_stiffness_n_per_m:   optional(Stiffness, 1.0e4, 1.0e9, Site),
    right_end_stiffness_n_per_m:  optional(Stiffness, 1.0e4, 1.0e9, Site),
});

#[rustfmt::skip]
structure!(rope "line.rope." Rope {
    construction:              choice  (CONSTRUCTIONS),
    diameter_m:                number  (Diameter, 0.004, 0.04, Catalogue),
    axial_stiffness_n:         number  (AxialStiffness, 1.0e5, 1.0e8, Catalogue),
    mass_per_length_kg_per_m:  number  (MassPerLength, 0.02, 6.0, Catalogue),
    breaking_force_n:          optional(Force, 1.0e3, 2.0e6, Catalogue),
});

#[rustfmt::skip]
structure!(inline_absorber "line.inline_absorber." InlineAbsorber {
    yield_force_n:    number(Force, 500.0, 100.0e3, Maker),
    max_extension_m:  number(Length, 0.01, 5.0, Maker),
    place:            seldom(INLINE_PLACES, InlinePlace::Right),
});

#[rustfmt::skip]
structure!(worker "workers." Worker {
    position_m:         number  (Length, 0.0, 720.0, Site),
    offset_along_m:     number  (Length, -3.0, 3.0, Site),
    edge_distance_m:    number  (Length, 0.0, 3.0, Site),
    mass_kg:            number  (Mass, 30.0, 250.0, CommonPractice),
    dring_height_m:     number  (Length, 0.5, 2.2, MANUAL),
    harness_stretch_m:  number  (Length, 0.0, 1.0, MANUAL),
    fall_time_s:        optional(Time, 0.0, 5.0, Site),
    gear:               object  (gear),
});

#[rustfmt::skip]
structure!(gear "workers.gear." Gear {
    kind:               choice  (GEAR_KINDS),
    length_m:           number  (Length, 0.2, 6.0, CommonPractice),
    lock_distance_m:    number  (Length, 0.0, 2.0, Maker),
    stiffness_n_per_m:  number  (Stiffness, 5.0e3, 1.0e6, CommonPractice),
    absorber:           perhaps (absorber),
    free_fall_m:        optional(Length, 0.0, 8.0, Site),
});

#[rustfmt::skip]
structure!(absorber "workers.gear.absorber." Absorber {
    average_force_n:           number  (Force, 1.0e3, 12.0e3, Maker),
    maximum_force_n:           optional(Force, 1.0e3, 16.0e3, AVERAGE_AND_MAXIMUM),
    max_extension_m:           number  (Length, 0.05, 3.0, Maker),
    locked_stiffness_n_per_m:  number  (Stiffness, 5.0e3, 1.0e6, CommonPractice),
    peak:                      unless_missing(peak),
    curve_extension_m:         points  (CURVE_EXTENSION),
    curve_force_n:             points  (CURVE_FORCE),
});

#[rustfmt::skip]
structure!(peak "workers.gear.absorber.peak." Peak {
    force_n:  number(Force, 1.0e3, 16.0e3, Maker),
    over_m:   number(Length, 0.01, 3.0, Maker),
});

/// What every point of a curve may have. The numbers of a list within a list have no name of their own.
const CURVE_EXTENSION: Field = row(
    "workers.gear.absorber.curve_extension_m",
    Quantity::Length,
    0.0,
    3.0,
    Basis::Maker,
);
const CURVE_FORCE: Field = row(
    "workers.gear.absorber.curve_force_n",
    Quantity::Force,
    100.0,
    30.0e3,
    Basis::Maker,
);

/// Every row of a list within a list, which [`FIELDS`] does not have.
pub const CURVE: &[Field] = &[CURVE_EXTENSION, CURVE_FORCE];

#[rustfmt::skip]
structure!(site "site." Site {
    beam_top_m:    number(Length, 0.5, 300.0, Site),
    beam_depth_m:  number(Length, 0.1, 5.0, Site),
    below:         list  (below, 0..=BELOW_MAX),
    margin_m:      number(Length, 0.0, 5.0, CommonPractice),
    reach_m:       number(Length, 0.0, 10.0, CommonPractice),
});

#[rustfmt::skip]
structure!(below "site.below." Below {
    kind:      choice(BELOW_KINDS),
    from_m:    number(Length, -50.0, 770.0, Site),
    to_m:      number(Length, -50.0, 770.0, Site),
    height_m:  number(Length, 0.0, 300.0, Site),
});

#[rustfmt::skip]
structure!(posts "posts." Posts {
    left:   perhaps(left_post),
    right:  perhaps(right_post),
});

/// An end post and its tieback.
macro_rules! end_post {
    ($post:ident $post_path:literal $tieback:ident $tieback_path:literal) => {
        structure!($post $post_path EndPost {
            bending_stiffness_n_m2:  number (BendingStiffness, 10.0e3, 100.0e6, Maker),
            tieback:                 perhaps($tieback),
        });
        structure!($tieback $tieback_path Tieback {
            set_back_m:         number(Length, 0.2, 6.0, CommonPractice),
            axial_stiffness_n:  number(AxialStiffness, 50.0e3, 100.0e6, Maker),
        });
    };
}

end_post!(left_post "posts.left." left_tieback "posts.left.tieback.");
end_post!(right_post "posts.right." right_tieback "posts.right.tieback.");

#[rustfmt::skip]
structure!(strengths "strengths." Strengths {
    termination_efficiency_ratio:  number  (Ratio, 0.3, 1.0, CommonPractice),
    end_anchorage_n:               optional(Force, 1.0e3, 2.0e6, Maker),
    post_moment_n_m:               optional(Moment, 100.0, 1.0e6, Maker),
    post_compression_n:            optional(Force, 1.0e3, 2.0e6, Maker),
    tieback_n:                     optional(Force, 1.0e3, 2.0e6, Maker),
    tieback_anchorage_n:           optional(Force, 1.0e3, 2.0e6, Maker),
    intermediate_post_n:           optional(Force, 100.0, 2.0e6, Maker),
    intermediate_post_along_n:     optional(Force, 100.0, 2.0e6, Maker),
    lanyard_n:                     optional(Force, 1.0e3, 200.0e3, Maker),
    self_retracting_n:             optional(Force, 1.0e3, 200.0e3, Maker),
    required_ratio:                number  (Ratio, 1.0, 10.0, FACTOR_OF_TWO),
});

#[rustfmt::skip]
structure!(tolerances "tolerances." Tolerances {
    mass_ratio:             number(Ratio, 0.0, 0.5, CommonPractice),
    absorber_force_ratio:   number(Ratio, 0.0, 0.5, ABSORBER_FORCE),
    pretension_ratio:       number(Ratio, 0.0, 0.5, CommonPractice),
    axial_stiffness_ratio:  number(Ratio, 0.0, 0.5, CommonPractice),
    end_stiffness_ratio:    number(Ratio, 0.0, 0.8, CommonPractice),
    inline_force_ratio:     number(Ratio, 0.0, 0.5, Maker),
});

#[rustfmt::skip]
structure!(allowance "allowance." Allowance {
    clearance_ratio:  number(Ratio, 0.0, 1.0, FALL_DISTANCE),
    tension_ratio:    number(Ratio, 0.0, 1.0, LINE_LOAD),
});

#[rustfmt::skip]
structure!(temperature "temperature." Temperature {
    installed_k:  number(Temperature, 223.15, 333.15, Site),
    today_k:      number(Temperature, 223.15, 333.15, Site),
});

#[rustfmt::skip]
structure!(sets "sets." Sets {
    us:        flag(),
    european:  flag(),
});

/// Limits of the user's own: range and quantity of the number are those of what it bounds.
mod own_limit {
    use super::*;

    pub(super) const ROWS: [Field; 0] = [];

    #[cold]
    pub(super) fn visit(own: &mut OwnLimit, visitor: &mut dyn Visitor) {
        const NAMES: [&str; 4] = [
            "own_limits.label",
            "own_limits.quantity",
            "own_limits.limit",
            "own_limits.reference",
        ];
        let [label_name, quantity_name, limit_name, reference_name] = NAMES;
        let OwnLimit {
            label,
            quantity,
            limit,
            reference,
        } = own;
        visitor.required(&NAMES);
        visitor.text(label_name, TEXT_MAX, label);
        choice(visitor, quantity_name, &OWN_QUANTITIES, None, quantity);
        let range = row(
            limit_name,
            quantity.quantity(),
            0.0,
            quantity.limit_max(),
            Basis::Site,
        );
        visitor.number(&range, limit);
        visitor.text(reference_name, REFERENCE_MAX, reference);
    }
}

#[rustfmt::skip]
structure!(motion "motion." Motion {
    damping_s:   number(Time, 0.0, 1.0e-3, Method),
    duration_s:  number(Time, 0.5, 10.0, Method),
});

/// A hung load, which stands beside a case.
pub(crate) const LOADS: [Field; 2] = [
    row(
        "point_loads.position_m",
        Quantity::Length,
        0.0,
        720.0,
        Basis::Site,
    ),
    row(
        "point_loads.force_n",
        Quantity::Force,
        0.0,
        1.0e6,
        Basis::Site,
    ),
];

impl Basis {
    const fn published(source: &'static str) -> Self {
        Self::Published { source }
    }

    const fn chosen(source: &'static str) -> Self {
        Self::Chosen { source }
    }

    const MANUAL: Self = Self::published("OSHA Technical Manual, Section V, Chapter 4");
    const AVERAGE_AND_MAXIMUM: Self =
        Self::published("Carrión et al., Int. J. Environ. Res. Public Health 17 (2020) 7647");
    const ABSORBER_FORCE: Self =
        Self::published("Goh, J. Constr. Eng. Manage. 141(1), 2015, abstract");
    const FACTOR_OF_TWO: Self = Self::published("29 CFR 1926.502(d)(8)");
    const FALL_DISTANCE: Self = Self::chosen(
        "Carrión et al., Int. J. Environ. Res. Public Health 18 (2021) 5823, abstract",
    );
    const LINE_LOAD: Self =
        Self::chosen("Galy and Lan, Int. J. Occup. Saf. Ergon. (2017), abstract");
}

const ALL: &[&[Field]] = &[&case::ROWS, &LOADS];
static TABLE: [Field; count(ALL)] = join(ALL);

/// Every numeric input of a case in its order, and of point loads beside it.
pub const FIELDS: &[Field] = &TABLE;

/// The entry of [`FIELDS`] or [`CURVE`] with this name.
pub fn find(name: &str) -> Option<&'static Field> {
    FIELDS.iter().chain(CURVE).find(|f| f.name == name)
}

const fn count(parts: &[&[Field]]) -> usize {
    let (mut rows, mut part) = (0, 0);
    while part < parts.len() {
        rows += parts[part].len();
        part += 1;
    }
    rows
}

const fn join<const N: usize>(parts: &[&[Field]]) -> [Field; N] {
    let mut all = [row("", Quantity::Ratio, 0.0, 0.0, Basis::Site); N];
    let (mut at, mut part) = (0, 0);
    while part < parts.len() {
        let mut i = 0;
        while i < parts[part].len() {
            all[at] = parts[part][i];
            at += 1;
            i += 1;
        }
        part += 1;
    }
    all
}

/// The entry of [`FIELDS`] with this name. Called while this is compiled only: a name that is not
/// there does not compile.
const fn place(name: &str) -> &'static Field {
    let wanted = name.as_bytes();
    let mut row = 0;
    while row < FIELDS.len() {
        let found = FIELDS[row].name.as_bytes();
        let mut same = 0;
        while same < wanted.len() && same < found.len() && wanted[same] == found[same] {
            same += 1;
        }
        if same == wanted.len() && same == found.len() {
            return &FIELDS[row];
        }
        row += 1;
    }
    panic!("no such row");
}

#[cold]
fn choice<T: Copy + PartialEq, const N: usize>(
    visitor: &mut dyn Visitor,
    name: &'static str,
    choices: &[(&'static str, T); N],
    unsaid: Option<T>,
    value: &mut T,
) {
    let keys = choices.map(|(key, _)| key);
    let at = |wanted: T| choices.iter().position(|(_, v)| *v == wanted);
    let mut place = at(*value).unwrap_or(0);
    visitor.choice(name, &keys, unsaid.and_then(at), &mut place);
    if let Some((_, chosen)) = choices.get(place) {
        *value = *chosen;
    }
}

#[cold]
fn perhaps<T: Copy + Default>(
    visitor: &mut dyn Visitor,
    name: &'static str,
    value: &mut Option<T>,
    body: fn(&mut T, &mut dyn Visitor),
    seldom: bool,
) {
    let mut there = value.is_some();
    let mut inner = value.unwrap_or_default();
    let mut told = |visitor: &mut dyn Visitor| body(&mut inner, visitor);
    if seldom {
        visitor.seldom(name, &mut there, &mut told);
    } else {
        visitor.perhaps(name, &mut there, &mut told);
    }
    *value = there.then_some(inner);
}

#[cold]
fn points(visitor: &mut dyn Visitor, field: &Field, points: &mut Points) {
    let mut values = points.as_slice().to_vec();
    visitor.numbers(field, 0..=POINTS_MAX, &mut values);
    *points = Points::of(&values);
}

#[cold]
fn list<T: Default>(
    visitor: &mut dyn Visitor,
    name: &'static str,
    counts: RangeInclusive<usize>,
    values: &mut Vec<T>,
    body: fn(&mut T, &mut dyn Visitor),
) {
    visitor.list(name, counts, values.len(), &mut |i, visitor| {
        if values.len() <= i {
            values.push(T::default());
        }
        if let Some(value) = values.get_mut(i) {
            body(value, visitor);
        }
    });
}

/// A number of a case, as it stands there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number {
    /// It may be missing.
    pub optional: bool,
    /// The value.
    pub value: Option<f64>,
}

/// The number called `name`, of entry `index` where it is in a list; `None`: there is none, for
/// instance that of an absorber which is not there.
pub fn read(case: &mut Case, name: &str, index: usize) -> Option<Number> {
    reach(case, name, index, None)
}

/// Puts a number at its place, see [`read`]; false: there is none, or it may not be missing.
pub fn write(case: &mut Case, name: &str, index: usize, value: Option<f64>) -> bool {
    reach(case, name, index, Some(value)).is_some_and(|now| now.optional || value.is_some())
}

#[cold]
fn reach(case: &mut Case, name: &str, index: usize, put: Option<Option<f64>>) -> Option<Number> {
    let mut reach = Reach {
        name,
        index,
        put,
        listed: false,
        found: None,
    };
    visit(case, &mut reach);
    reach.found
}

/// Goes to one number.
struct Reach<'a> {
    name: &'a str,
    index: usize,
    put: Option<Option<f64>>,
    /// Within an entry of a list: the index is used up.
    listed: bool,
    found: Option<Number>,
}

impl Reach<'_> {
    /// On the way to the number.
    fn leads(&self, name: &str) -> bool {
        self.name.starts_with(name)
    }
}

impl Visitor for Reach<'_> {
    fn number(&mut self, field: &Field, value: &mut f64) {
        if field.name == self.name {
            if let Some(Some(put)) = self.put {
                *value = put;
            }
            self.found = Some(Number {
                optional: false,
                value: Some(*value),
            });
        }
    }

    fn optional(&mut self, field: &Field, value: &mut Option<f64>) {
        if field.name == self.name {
            if let Some(put) = self.put {
                *value = put;
            }
            self.found = Some(Number {
                optional: true,
                value: *value,
            });
        }
    }

    fn numbers(&mut self, field: &Field, _counts: RangeInclusive<usize>, values: &mut Vec<f64>) {
        if self.listed {
            return;
        }
        if let Some(value) = values.get_mut(self.index) {
            self.number(field, value);
        }
    }

    fn flag(&mut self, _name: &'static str, _value: &mut bool) {}

    fn text(&mut self, _name: &'static str, _longest: usize, _value: &mut String) {}

    fn choice(
        &mut self,
        _name: &'static str,
        _keys: &[&'static str],
        _unsaid: Option<usize>,
        _place: &mut usize,
    ) {
    }

    fn object(&mut self, name: &'static str, body: &mut dyn FnMut(&mut dyn Visitor)) {
        if self.leads(name) {
            body(self);
        }
    }

    fn perhaps(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Visitor),
    ) {
        if *there {
            self.object(name, body);
        }
    }

    fn list(
        &mut self,
        name: &'static str,
        _counts: RangeInclusive<usize>,
        count: usize,
        body: &mut dyn FnMut(usize, &mut dyn Visitor),
    ) {
        if self.index < count && self.leads(name) {
            self.listed = true;
            body(self.index, self);
            self.listed = false;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::demo;

    #[test]
    fn every_number_is_read_and_written_by_its_name() {
        for (i, field) in FIELDS.iter().enumerate() {
            assert!(FIELDS[..i].iter().all(|other| other.name != field.name));
            if LOADS.contains(field) {
                continue;
            }
            let mut case = demo();
            case.line.inline_absorber = Some(InlineAbsorber::default());
            let absorber = case.workers[0].gear.absorber.as_mut();
            absorber.unwrap().peak = Some(Peak::default());
            assert!(write(&mut case, field.name, 0, Some(field.max)));
            let found = read(&mut case, field.name, 0).unwrap();
            assert_eq!(found.value, Some(field.max), "{}", field.name);
            assert_eq!(write(&mut case, field.name, 0, None), found.optional);
            let value = read(&mut case, field.name, 0).unwrap().value;
            assert_eq!(value.is_none(), found.optional, "{}", field.name);
        }
    }

    #[test]
    fn what_is_not_there_is_not_reached() {
        let mut case = demo();
        case.line.inline_absorber = None;
        for (name, index) in [
            ("line.inline_absorber.yield_force_n", 0),
            ("workers.mass_kg", case.workers.len()),
            ("line.spans_m", case.line.spans_m.len()),
            ("own_limits.limit", 0),
            ("workers.gear.absorber.peak.force_n", 0),
            ("workers.gear.absorber.curve_force_n", 0),
            ("workers", 0),
            ("line", 0),
            ("", 0),
        ] {
            let before = case.clone();
            assert_eq!(read(&mut case, name, index), None, "{name}");
            assert!(!write(&mut case, name, index, Some(1.0)), "{name}");
            assert_eq!(case, before);
        }
    }

    /// Each entry of a list has its own number; a list within one has none of these names.
    #[test]
    fn a_number_of_a_list_is_that_of_its_entry() {
        let mut case = demo();
        let curve = case.workers[0].gear.absorber.as_mut().unwrap();
        curve.curve_extension_m = Points::of(&[0.0, 0.5, 1.0]);
        curve.curve_force_n = Points::of(&[3.0e3, 4.0e3, 5.0e3]);
        for row in CURVE {
            assert_eq!(read(&mut case, row.name, 0), None);
            assert!(!write(&mut case, row.name, 0, Some(1.0)));
        }
        assert!(write(&mut case, "line.spans_m", 1, Some(7.0)));
        assert_eq!(case.line.spans_m, [9.0, 7.0]);
        assert!(write(&mut case, "workers.mass_kg", 1, Some(77.0)));
        let masses: Vec<f64> = case.workers.iter().map(|w| w.mass_kg).collect();
        assert_eq!(masses, [90.0, 77.0, 90.0]);
        // What is written beside a curve leaves it as it is.
        let curve = case.workers[0].gear.absorber.unwrap();
        assert_eq!(curve.curve_extension_m.as_slice(), [0.0, 0.5, 1.0]);
        assert_eq!(curve.curve_force_n.as_slice(), [3.0e3, 4.0e3, 5.0e3]);
    }

    /// A visitor that adds entries to lists and puts what may be missing there has them kept.
    #[test]
    fn what_a_visitor_puts_there_is_kept() {
        struct Adds;
        impl Visitor for Adds {
            fn number(&mut self, field: &Field, value: &mut f64) {
                *value = field.max;
            }
            fn optional(&mut self, field: &Field, value: &mut Option<f64>) {
                *value = Some(field.max);
            }
            fn numbers(&mut self, field: &Field, _: RangeInclusive<usize>, values: &mut Vec<f64>) {
                *values = alloc::vec![field.max; 2];
            }
            fn flag(&mut self, _: &'static str, value: &mut bool) {
                *value = true;
            }
            fn text(&mut self, name: &'static str, _: usize, value: &mut String) {
                *value = name.into();
            }
            fn choice(
                &mut self,
                _: &'static str,
                keys: &[&'static str],
                _: Option<usize>,
                place: &mut usize,
            ) {
                *place = keys.len() - 1;
            }
            fn object(&mut self, _: &'static str, body: &mut dyn FnMut(&mut dyn Visitor)) {
                body(self);
            }
            fn perhaps(
                &mut self,
                _: &'static str,
                there: &mut bool,
                body: &mut dyn FnMut(&mut dyn Visitor),
            ) {
                *there = true;
                body(self);
            }
            fn list(
                &mut self,
                _: &'static str,
                _: RangeInclusive<usize>,
                _: usize,
                body: &mut dyn FnMut(usize, &mut dyn Visitor),
            ) {
                for i in 0..3 {
                    body(i, self);
                }
            }
        }
        let mut case = Case::default();
        visit(&mut case, &mut Adds);
        assert_eq!(case.workers.len(), 3);
        assert_eq!(case.site.below.len(), 3);
        assert_eq!(case.own_limits.len(), 3);
        assert!(case.line.inline_absorber.is_some() && case.sets.european);
        assert_eq!(case.crew_moves, CREW_MOVES[CREW_MOVES.len() - 1].1);
        for own in &case.own_limits {
            assert_eq!(own.quantity, OWN_QUANTITIES[OWN_QUANTITIES.len() - 1].1);
            assert_eq!(own.label, "own_limits.label");
            assert_eq!(own.reference, "own_limits.reference");
        }
        for worker in &case.workers {
            assert_eq!(worker.mass_kg, 250.0);
            let absorber = worker.gear.absorber.unwrap();
            assert!(absorber.peak.is_some());
            assert_eq!(absorber.curve_extension_m.as_slice().len(), 2);
            assert_eq!(absorber.curve_force_n.as_slice().len(), 2);
        }
    }
}
