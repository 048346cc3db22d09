//! A case as JSON, both ways, by one description of its shape.
//!
//! The text is the one that the core's own serde writes, field by field (a test compares them):
//! names as in [`footroom_core::field::FIELDS`], SI units. A field that is missing has the default
//! of the model that wrote the text, so that old ones mean what they meant; a name that is not known
//! is a fault, so that nothing is passed over in silence.

use footroom_core::case::{
    Absorber, Allowance, Below, BelowKind, Case, EndPost, Gear, GearKind, InlineAbsorber, Line,
    Motion, Posts, Site, Strengths, Temperature, Tieback, Tolerances, Worker,
};
use footroom_core::check::{OwnLimit, OwnQuantity, Sets};
use footroom_core::constants::MODEL_VERSION;
use footroom_core::rope::{Construction, Rope};

use crate::input::{BELOW_KINDS, GEAR_KINDS, OWN_QUANTITIES};
use crate::json::{self, Json, JsonFault, Kind, Reason, Writer};
use crate::steps;

const CONSTRUCTIONS: [(&str, Construction); 4] = [
    ("galvanised7x19", Construction::Galvanised7x19),
    ("stainless7x19", Construction::Stainless7x19),
    ("fibre_core6x19", Construction::FibreCore6x19),
    ("own", Construction::Own),
];

/// Writes a case.
pub fn write(case: &Case, writer: &mut Writer) {
    let mut case = case.clone();
    write_object(writer, &mut |shape| of_case(&mut case, shape));
}

/// Reads a case; `model`: version of the model of whoever wrote it, whose defaults hold for what it
/// leaves out.
///
/// # Errors
/// The first value that does not fit, and its place.
pub fn read(json: &Json, model: u32) -> Result<Case, JsonFault> {
    let mut case = Case::of_model(model);
    read_object(json, &mut |shape| of_case(&mut case, shape))?;
    Ok(case)
}

/// The text of a case; `None` when a number of it is not finite, which no checked case has and JSON
/// cannot say.
pub fn to_text(case: &Case) -> Option<String> {
    let mut writer = Writer::default();
    write(case, &mut writer);
    let text = writer.finish();
    from_text(&text).ok()?;
    Some(text)
}

/// The case of a text of this page.
///
/// # Errors
/// What is no JSON, or not that of a case, and its place.
pub fn from_text(text: &str) -> Result<Case, JsonFault> {
    read(&json::read(text.as_bytes())?, MODEL_VERSION)
}

/// What is done with each field in turn: written, or read.
trait Shape {
    /// When reading: that the field has no default, so that it must be there.
    fn required(&mut self, name: &'static str);
    fn number(&mut self, name: &'static str, value: &mut f64);
    fn optional(&mut self, name: &'static str, value: &mut Option<f64>);
    fn numbers(&mut self, name: &'static str, values: &mut Vec<f64>);
    fn flag(&mut self, name: &'static str, value: &mut bool);
    fn text(&mut self, name: &'static str, value: &mut String);
    /// The place of the value among the keys.
    fn key(&mut self, name: &'static str, keys: &[&'static str], place: &mut usize);
    fn object(&mut self, name: &'static str, body: &mut dyn FnMut(&mut dyn Shape));
    /// `null` or an object; `there` is set when reading.
    fn perhaps(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Shape),
    );
    /// A list of objects; the body is told the place, and `count` is set when reading, before it.
    fn list(
        &mut self,
        name: &'static str,
        count: usize,
        body: &mut dyn FnMut(usize, &mut dyn Shape),
    );
}

/// A choice by its key.
fn choice<T: Copy + PartialEq, const N: usize>(
    shape: &mut dyn Shape,
    name: &'static str,
    choices: &[(&'static str, T); N],
    value: &mut T,
) {
    let keys = choices.map(|(key, _)| key);
    let mut place = choices.iter().position(|(_, v)| v == value).unwrap_or(0);
    shape.key(name, &keys, &mut place);
    if let Some((_, chosen)) = choices.get(place) {
        *value = *chosen;
    }
}

/// An option whose value is an object.
fn perhaps<T: Copy + Default>(
    shape: &mut dyn Shape,
    name: &'static str,
    value: &mut Option<T>,
    body: fn(&mut T, &mut dyn Shape),
) {
    let mut there = value.is_some();
    let mut inner = value.unwrap_or_default();
    shape.perhaps(name, &mut there, &mut |shape| body(&mut inner, shape));
    *value = there.then_some(inner);
}

/// A list of objects.
fn list<T>(
    shape: &mut dyn Shape,
    name: &'static str,
    values: &mut Vec<T>,
    new: fn() -> T,
    body: fn(&mut T, &mut dyn Shape),
) {
    shape.list(name, values.len(), &mut |i, shape| {
        while values.len() <= i {
            values.push(new());
        }
        body(&mut values[i], shape);
    });
}

// One function a structure; each takes its structure apart in full, so that a field added to the
// core does not compile until it stands here.

fn of_case(case: &mut Case, shape: &mut dyn Shape) {
    let Case {
        title,
        invented,
        line,
        workers,
        site,
        posts,
        strengths,
        tolerances,
        allowance,
        temperature,
        sets,
        own_limits,
        motion,
    } = case;
    shape.text("title", title);
    shape.flag("invented", invented);
    shape.object("line", &mut |shape| of_line(line, shape));
    list(shape, "workers", workers, Worker::default, of_worker);
    shape.object("site", &mut |shape| of_site(site, shape));
    shape.object("posts", &mut |shape| of_posts(posts, shape));
    shape.object("strengths", &mut |shape| of_strengths(strengths, shape));
    shape.object("tolerances", &mut |shape| of_tolerances(tolerances, shape));
    shape.object("allowance", &mut |shape| of_allowance(allowance, shape));
    shape.object("temperature", &mut |shape| {
        of_temperature(temperature, shape)
    });
    shape.object("sets", &mut |shape| of_sets(sets, shape));
    list(shape, "own_limits", own_limits, new_own_limit, of_own_limit);
    shape.object("motion", &mut |shape| of_motion(motion, shape));
}

fn of_line(line: &mut Line, shape: &mut dyn Shape) {
    let Line {
        spans_m,
        height_above_beam_m,
        pretension_n,
        rope,
        inline_absorber,
        left_end_stiffness_n_per_m,
        right_end_stiffness_n_per_m,
    } = line;
    shape.numbers("spans_m", spans_m);
    shape.number("height_above_beam_m", height_above_beam_m);
    shape.number("pretension_n", pretension_n);
    shape.object("rope", &mut |shape| of_rope(rope, shape));
    perhaps(
        shape,
        "inline_absorber",
        inline_absorber,
        of_inline_absorber,
    );
    shape.optional("left_end_stiffness_n_per_m", left_end_stiffness_n_per_m);
    shape.optional("right_end_stiffness_n_per_m", right_end_stiffness_n_per_m);
}

fn of_rope(rope: &mut Rope, shape: &mut dyn Shape) {
    let Rope {
        construction,
        diameter_m,
        axial_stiffness_n,
        mass_per_length_kg_per_m,
        breaking_force_n,
    } = rope;
    choice(shape, "construction", &CONSTRUCTIONS, construction);
    shape.number("diameter_m", diameter_m);
    shape.number("axial_stiffness_n", axial_stiffness_n);
    shape.number("mass_per_length_kg_per_m", mass_per_length_kg_per_m);
    shape.optional("breaking_force_n", breaking_force_n);
}

fn of_inline_absorber(absorber: &mut InlineAbsorber, shape: &mut dyn Shape) {
    let InlineAbsorber {
        yield_force_n,
        max_extension_m,
        place: _,
    } = absorber;
    shape.number("yield_force_n", yield_force_n);
    shape.number("max_extension_m", max_extension_m);
}

fn of_worker(worker: &mut Worker, shape: &mut dyn Shape) {
    let Worker {
        position_m,
        offset_along_m,
        edge_distance_m,
        mass_kg,
        dring_height_m,
        harness_stretch_m,
        fall_time_s,
        gear,
    } = worker;
    shape.number("position_m", position_m);
    shape.number("offset_along_m", offset_along_m);
    shape.number("edge_distance_m", edge_distance_m);
    shape.number("mass_kg", mass_kg);
    shape.number("dring_height_m", dring_height_m);
    shape.number("harness_stretch_m", harness_stretch_m);
    shape.optional("fall_time_s", fall_time_s);
    shape.object("gear", &mut |shape| of_gear(gear, shape));
}

fn of_gear(gear: &mut Gear, shape: &mut dyn Shape) {
    let Gear {
        kind,
        length_m,
        lock_distance_m,
        stiffness_n_per_m,
        absorber,
        free_fall_m,
    } = gear;
    choice::<GearKind, 2>(shape, "kind", &GEAR_KINDS, kind);
    shape.number("length_m", length_m);
    shape.number("lock_distance_m", lock_distance_m);
    shape.number("stiffness_n_per_m", stiffness_n_per_m);
    perhaps(shape, "absorber", absorber, of_absorber);
    shape.optional("free_fall_m", free_fall_m);
}

fn of_absorber(absorber: &mut Absorber, shape: &mut dyn Shape) {
    let Absorber {
        average_force_n,
        maximum_force_n,
        max_extension_m,
        locked_stiffness_n_per_m,
    } = absorber;
    shape.number("average_force_n", average_force_n);
    shape.optional("maximum_force_n", maximum_force_n);
    shape.number("max_extension_m", max_extension_m);
    shape.number("locked_stiffness_n_per_m", locked_stiffness_n_per_m);
}

fn of_site(site: &mut Site, shape: &mut dyn Shape) {
    let Site {
        beam_top_m,
        beam_depth_m,
        below,
        margin_m,
        reach_m,
    } = site;
    shape.number("beam_top_m", beam_top_m);
    shape.number("beam_depth_m", beam_depth_m);
    list(shape, "below", below, Below::default, of_below);
    shape.number("margin_m", margin_m);
    shape.number("reach_m", reach_m);
}

fn of_below(below: &mut Below, shape: &mut dyn Shape) {
    let Below {
        kind,
        from_m,
        to_m,
        height_m,
    } = below;
    choice::<BelowKind, 5>(shape, "kind", &BELOW_KINDS, kind);
    shape.number("from_m", from_m);
    shape.number("to_m", to_m);
    shape.number("height_m", height_m);
}

fn of_posts(posts: &mut Posts, shape: &mut dyn Shape) {
    let Posts { left, right } = posts;
    perhaps(shape, "left", left, of_end_post);
    perhaps(shape, "right", right, of_end_post);
}

fn of_end_post(post: &mut EndPost, shape: &mut dyn Shape) {
    let EndPost {
        bending_stiffness_n_m2,
        tieback,
    } = post;
    shape.number("bending_stiffness_n_m2", bending_stiffness_n_m2);
    perhaps(shape, "tieback", tieback, of_tieback);
}

fn of_tieback(tieback: &mut Tieback, shape: &mut dyn Shape) {
    let Tieback {
        set_back_m,
        axial_stiffness_n,
    } = tieback;
    shape.number("set_back_m", set_back_m);
    shape.number("axial_stiffness_n", axial_stiffness_n);
}

fn of_strengths(strengths: &mut Strengths, shape: &mut dyn Shape) {
    let Strengths {
        termination_efficiency_ratio,
        end_anchorage_n,
        post_moment_n_m,
        post_compression_n,
        tieback_n,
        tieback_anchorage_n,
        intermediate_post_n,
        intermediate_post_along_n,
        lanyard_n,
        self_retracting_n,
        required_ratio,
    } = strengths;
    shape.number("termination_efficiency_ratio", termination_efficiency_ratio);
    shape.optional("end_anchorage_n", end_anchorage_n);
    shape.optional("post_moment_n_m", post_moment_n_m);
    shape.optional("post_compression_n", post_compression_n);
    shape.optional("tieback_n", tieback_n);
    shape.optional("tieback_anchorage_n", tieback_anchorage_n);
    shape.optional("intermediate_post_n", intermediate_post_n);
    shape.optional("intermediate_post_along_n", intermediate_post_along_n);
    shape.optional("lanyard_n", lanyard_n);
    shape.optional("self_retracting_n", self_retracting_n);
    shape.number("required_ratio", required_ratio);
}

fn of_tolerances(tolerances: &mut Tolerances, shape: &mut dyn Shape) {
    let Tolerances {
        mass_ratio,
        absorber_force_ratio,
        pretension_ratio,
        axial_stiffness_ratio,
        end_stiffness_ratio,
        inline_force_ratio,
    } = tolerances;
    shape.number("mass_ratio", mass_ratio);
    shape.number("absorber_force_ratio", absorber_force_ratio);
    shape.number("pretension_ratio", pretension_ratio);
    shape.number("axial_stiffness_ratio", axial_stiffness_ratio);
    shape.number("end_stiffness_ratio", end_stiffness_ratio);
    shape.number("inline_force_ratio", inline_force_ratio);
}

fn of_allowance(allowance: &mut Allowance, shape: &mut dyn Shape) {
    let Allowance {
        clearance_ratio,
        tension_ratio,
    } = allowance;
    shape.number("clearance_ratio", clearance_ratio);
    shape.number("tension_ratio", tension_ratio);
}

fn of_temperature(temperature: &mut Temperature, shape: &mut dyn Shape) {
    let Temperature {
        installed_k,
        today_k,
    } = temperature;
    shape.number("installed_k", installed_k);
    shape.number("today_k", today_k);
}

fn of_sets(sets: &mut Sets, shape: &mut dyn Shape) {
    let Sets { us, european } = sets;
    shape.flag("us", us);
    shape.flag("european", european);
}

/// Before it is read; each of its fields must be there.
fn new_own_limit() -> OwnLimit {
    OwnLimit {
        label: String::new(),
        quantity: OwnQuantity::ArrestForce,
        limit: 0.0,
        reference: String::new(),
    }
}

fn of_own_limit(own: &mut OwnLimit, shape: &mut dyn Shape) {
    let OwnLimit {
        label,
        quantity,
        limit,
        reference,
    } = own;
    for name in ["label", "quantity", "limit", "reference"] {
        shape.required(name);
    }
    shape.text("label", label);
    choice(shape, "quantity", &OWN_QUANTITIES, quantity);
    shape.number("limit", limit);
    shape.text("reference", reference);
}

fn of_motion(motion: &mut Motion, shape: &mut dyn Shape) {
    let Motion {
        damping_s,
        duration_s,
    } = motion;
    shape.number("damping_s", damping_s);
    shape.number("duration_s", duration_s);
}

fn write_object(writer: &mut Writer, body: &mut dyn FnMut(&mut dyn Shape)) {
    writer.open('{');
    body(writer);
    writer.close('}');
}

impl Shape for Writer {
    fn required(&mut self, _name: &'static str) {}

    fn number(&mut self, name: &'static str, value: &mut f64) {
        self.name(name);
        Writer::number(self, *value);
    }

    fn optional(&mut self, name: &'static str, value: &mut Option<f64>) {
        self.name(name);
        match value {
            Some(value) => Writer::number(self, *value),
            None => self.word("null"),
        }
    }

    fn numbers(&mut self, name: &'static str, values: &mut Vec<f64>) {
        self.name(name);
        self.open('[');
        for &mut value in values {
            Writer::number(self, value);
        }
        self.close(']');
    }

    fn flag(&mut self, name: &'static str, value: &mut bool) {
        self.name(name);
        self.word(if *value { "true" } else { "false" });
    }

    fn text(&mut self, name: &'static str, value: &mut String) {
        self.name(name);
        Writer::text(self, value);
    }

    fn key(&mut self, name: &'static str, keys: &[&'static str], place: &mut usize) {
        self.name(name);
        Writer::text(self, keys.get(*place).copied().unwrap_or_default());
    }

    fn object(&mut self, name: &'static str, body: &mut dyn FnMut(&mut dyn Shape)) {
        self.name(name);
        write_object(self, body);
    }

    fn perhaps(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Shape),
    ) {
        self.name(name);
        if *there {
            write_object(self, body);
        } else {
            self.word("null");
        }
    }

    fn list(
        &mut self,
        name: &'static str,
        count: usize,
        body: &mut dyn FnMut(usize, &mut dyn Shape),
    ) {
        self.name(name);
        self.open('[');
        for i in 0..count {
            write_object(self, &mut |shape| body(i, shape));
        }
        self.close(']');
    }
}

/// Reads the entries of an object as they are asked for.
pub struct Entries<'a> {
    at: usize,
    entries: &'a [(String, Json)],
    used: Vec<bool>,
    fault: Option<JsonFault>,
}

impl<'a> Entries<'a> {
    /// The entries of an object.
    ///
    /// # Errors
    /// It is none.
    pub fn of(json: &'a Json) -> Result<Self, JsonFault> {
        match &json.kind {
            Kind::Object(entries) => Ok(Self {
                at: json.at,
                entries,
                used: vec![false; entries.len()],
                fault: None,
            }),
            _ => Err(expected(json)),
        }
    }

    /// The value called `name`.
    pub fn take(&mut self, name: &str) -> Option<&'a Json> {
        steps::count(self.entries.len());
        let i = self.entries.iter().position(|(other, _)| other == name)?;
        self.used[i] = true;
        Some(&self.entries[i].1)
    }

    /// The value called `name`.
    ///
    /// # Errors
    /// There is none.
    pub fn need(&mut self, name: &'static str) -> Result<&'a Json, JsonFault> {
        self.take(name).ok_or(JsonFault {
            at: self.at,
            reason: Reason::Missing(name),
        })
    }

    /// Ends the reading.
    ///
    /// # Errors
    /// The first fault, or a name that nobody asked for.
    pub fn finish(self) -> Result<(), JsonFault> {
        if let Some(fault) = self.fault {
            return Err(fault);
        }
        let unused = self.used.iter().position(|used| !used);
        match unused.and_then(|i| self.entries.get(i)) {
            Some((name, json)) => Err(JsonFault {
                at: json.at,
                reason: Reason::Unknown(name.clone()),
            }),
            None => Ok(()),
        }
    }

    /// Hands a value on, when it is there and nothing was wrong before; remembers what is wrong.
    fn with(&mut self, name: &str, read: impl FnOnce(&'a Json) -> Result<(), JsonFault>) {
        if let Some(json) = self.take(name)
            && self.fault.is_none()
        {
            self.fault = read(json).err();
        }
    }
}

/// A value of another kind than expected.
pub fn expected(json: &Json) -> JsonFault {
    JsonFault {
        at: json.at,
        reason: Reason::Kind,
    }
}

/// A whole number from nought, such as the version of a model.
///
/// # Errors
/// When it is none, its place.
pub fn whole(json: &Json) -> Result<u32, JsonFault> {
    let value = number(json)?;
    if value.fract() != 0.0 || !(0.0..=f64::from(u32::MAX)).contains(&value) {
        return Err(expected(json));
    }
    Ok(value as u32)
}

/// A number.
///
/// # Errors
/// It is none.
pub fn number(json: &Json) -> Result<f64, JsonFault> {
    match json.kind {
        Kind::Number(value) => Ok(value),
        _ => Err(expected(json)),
    }
}

/// The entries of a list.
///
/// # Errors
/// It is none.
pub fn items(json: &Json) -> Result<&[Json], JsonFault> {
    match &json.kind {
        Kind::List(items) => Ok(items),
        _ => Err(expected(json)),
    }
}

fn read_object(json: &Json, body: &mut dyn FnMut(&mut dyn Shape)) -> Result<(), JsonFault> {
    let mut entries = Entries::of(json)?;
    body(&mut entries);
    entries.finish()
}

impl Shape for Entries<'_> {
    fn required(&mut self, name: &'static str) {
        steps::count(self.entries.len());
        let there = self.entries.iter().any(|(other, _)| other == name);
        if !there && self.fault.is_none() {
            self.fault = Some(JsonFault {
                at: self.at,
                reason: Reason::Missing(name),
            });
        }
    }

    fn number(&mut self, name: &'static str, value: &mut f64) {
        self.with(name, |json| number(json).map(|read| *value = read));
    }

    fn optional(&mut self, name: &'static str, value: &mut Option<f64>) {
        self.with(name, |json| {
            *value = match json.kind {
                Kind::Null => None,
                _ => Some(number(json)?),
            };
            Ok(())
        });
    }

    fn numbers(&mut self, name: &'static str, values: &mut Vec<f64>) {
        self.with(name, |json| {
            values.clear();
            for item in items(json)? {
                values.push(number(item)?);
            }
            Ok(())
        });
    }

    fn flag(&mut self, name: &'static str, value: &mut bool) {
        self.with(name, |json| match json.kind {
            Kind::Flag(read) => {
                *value = read;
                Ok(())
            }
            _ => Err(expected(json)),
        });
    }

    fn text(&mut self, name: &'static str, value: &mut String) {
        self.with(name, |json| match &json.kind {
            Kind::Text(read) => {
                value.clone_from(read);
                Ok(())
            }
            _ => Err(expected(json)),
        });
    }

    fn key(&mut self, name: &'static str, keys: &[&'static str], place: &mut usize) {
        self.with(name, |json| {
            let found = match &json.kind {
                Kind::Text(read) => keys.iter().position(|key| key == read),
                _ => None,
            };
            *place = found.ok_or_else(|| expected(json))?;
            Ok(())
        });
    }

    fn object(&mut self, name: &'static str, body: &mut dyn FnMut(&mut dyn Shape)) {
        self.with(name, |json| read_object(json, body));
    }

    fn perhaps(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Shape),
    ) {
        self.with(name, |json| {
            *there = json.kind != Kind::Null;
            if *there {
                read_object(json, body)?;
            }
            Ok(())
        });
    }

    fn list(
        &mut self,
        name: &'static str,
        _count: usize,
        body: &mut dyn FnMut(usize, &mut dyn Shape),
    ) {
        self.with(name, |json| {
            for (i, item) in items(json)?.iter().enumerate() {
                read_object(item, &mut |shape| body(i, shape))?;
            }
            Ok(())
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::json;
    use footroom_core::demo::demo;

    fn text(case: &Case) -> String {
        let mut writer = Writer::default();
        write(case, &mut writer);
        writer.finish()
    }

    fn from(text: &str) -> Result<Case, JsonFault> {
        read(&json::read(text.as_bytes())?, MODEL_VERSION)
    }

    fn full() -> Case {
        let mut case = demo();
        case.line.inline_absorber = Some(InlineAbsorber::default());
        case.line.rope.construction = Construction::FibreCore6x19;
        case.workers[0].gear.kind = GearKind::SelfRetracting;
        case.workers[1].gear.absorber = None;
        case.workers[2].fall_time_s = None;
        case.posts.left = Some(EndPost::default());
        case.posts.right = Some(EndPost {
            tieback: None,
            ..EndPost::default()
        });
        case.strengths.end_anchorage_n = Some(22_000.0);
        case.strengths.intermediate_post_n = Some(9_000.0);
        case.strengths.intermediate_post_along_n = Some(8_000.0);
        case.strengths.lanyard_n = Some(22_500.0);
        case.strengths.self_retracting_n = Some(13_500.0);
        case.tolerances.mass_ratio = 0.05;
        case.temperature.today_k = 263.15;
        case.sets.european = true;
        case.own_limits = OWN_QUANTITIES
            .iter()
            .map(|&(key, quantity)| OwnLimit {
                label: key.to_owned(),
                quantity,
                limit: 3.5,
                reference: "data sheet".to_owned(),
            })
            .collect();
        case.site.below = BELOW_KINDS
            .iter()
            .map(|&(_, kind)| Below {
                kind,
                ..Below::default()
            })
            .collect();
        case
    }

    #[test]
    fn the_text_is_the_cores_own() {
        for case in [Case::default(), demo(), full()] {
            let theirs: serde_json::Value = serde_json::to_value(&case).expect("plain");
            let ours: serde_json::Value = serde_json::from_str(&text(&case)).expect("json");
            assert_eq!(ours, theirs);
            let core: Case = serde_json::from_str(&text(&case)).expect("the core reads it");
            assert_eq!(core, case);
            let core = serde_json::to_string(&case).expect("plain");
            assert_eq!(from(&core), Ok(case));
        }
        for (key, construction) in CONSTRUCTIONS {
            let theirs = serde_json::to_string(&construction).expect("plain");
            assert_eq!(theirs, format!("\"{key}\""));
        }
    }

    #[test]
    fn what_is_missing_has_its_default() {
        assert_eq!(from("{}"), Ok(Case::default()));
        assert_eq!(
            read(&json::read(b"{}").expect("JSON"), 5),
            Ok(Case::of_model(5))
        );
        let case = from(r#"{"workers":[{}],"line":{"inline_absorber":{}}}"#).expect("readable");
        assert_eq!(case.workers, [Worker::default()]);
        assert_eq!(case.line.inline_absorber, Some(InlineAbsorber::default()));
        assert_eq!(case.line.spans_m, Line::default().spans_m);
    }

    #[test]
    fn what_does_not_fit_is_refused_with_its_place() {
        let refused = |text: &str| from(text).map_err(|f| (f.at, f.reason));
        let kind = |at| Err((at, Reason::Kind));
        assert_eq!(refused("[]"), kind(1));
        assert_eq!(refused(r#"{"title":5}"#), kind(10));
        assert_eq!(refused(r#"{"invented":1}"#), kind(13));
        assert_eq!(refused(r#"{"line":{"pretension_n":"much"}}"#), kind(25));
        assert_eq!(refused(r#"{"line":{"pretension_n":null}}"#), kind(25));
        assert_eq!(refused(r#"{"line":{"spans_m":[1,"2"]}}"#), kind(23));
        assert_eq!(refused(r#"{"workers":{}}"#), kind(12));
        assert_eq!(
            refused(r#"{"workers":[{"gear":{"kind":"rope"}}]}"#),
            kind(29)
        );
        let own = r#"{"own_limits":[{"label":"a","quantity":"free_fall","reference":"b"}]}"#;
        assert_eq!(refused(own), Err((16, Reason::Missing("limit"))));
        let unknown = Reason::Unknown("brand".into());
        assert_eq!(refused(r#"{"workers":[{"brand":1}]}"#), Err((22, unknown)));
    }
}
