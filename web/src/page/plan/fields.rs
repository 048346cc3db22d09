//! The inputs as the page lists them: order, groups, texts, ranges, choices and faults.

use footroom_core::case::{
    Absorber, BELOW_KINDS, Below, Case, CrewMoves, EndPost, GEAR_KINDS, GearKind, INLINE_PLACES,
    InlineAbsorber, Posts, TEXT_MAX, Worker,
};
use footroom_core::check::{OWN_LIMITS_MAX, OWN_QUANTITIES, REFERENCE_MAX};
use footroom_core::curve::{Peak, SHAPES, Shape};
use footroom_core::fault::{Fault, FieldRef};
use footroom_core::field::{self, Basis, CURVE};
use footroom_core::rope::CATALOGUE;

use crate::page::plan::view::{Choice, Field, FieldKind, Problem};
use crate::say::curve;
use crate::say::faults::{self, Voice};
use crate::say::format;
use crate::say::input::{self, InputFault};
use crate::say::names::{below_name, inline_place_name, own_quantity_name, rope_name, shape_name};
use crate::say::texts::form::EXPLAINED;

/// A text as typed at a path, kept while it is faulty.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// Where it was typed.
    pub path: String,
    /// As it was typed.
    pub text: String,
    /// Why it was not taken; `None`: it was, and the case's own check refuses the value.
    pub fault: Option<InputFault>,
}

/// The inputs of a case, with its faults; explained where [`EXPLAINED`].
pub fn fields(voice: Voice, case: &Case, drafts: &[Draft], faults: &[Fault]) -> Vec<Field> {
    let mut list = List {
        voice,
        case: case.clone(),
        reference: reference(),
        faults: faults.to_vec(),
        drafts,
        fields: Vec::new(),
        group: String::new(),
        group_label: String::new(),
    };
    list.all();
    list.fields
}

/// The first fault of a case: the name of its field, and what is wrong; `None`: there is none.
pub fn first_fault(voice: Voice, case: &Case, all: &[Fault]) -> Option<(String, String)> {
    let fault = all.first()?;
    let listed = fields(voice, case, &[], all);
    let first = listed.iter().find(|f| f.fault.is_some());
    let label = first.map_or_else(|| fault.field().to_string(), |f| f.label.clone());
    Some((label, faults::case_fault(voice, case, fault)))
}

/// The faults of the fields, each once: one that an input for all workers shows is not repeated
/// for each of them.
pub fn problems(voice: Voice, fields: &[Field]) -> Vec<Problem> {
    let say = &voice.texts().say;
    let mut problems: Vec<Problem> = Vec::new();
    let mut shown_for_all: Vec<(&str, &str)> = Vec::new();
    for field in fields {
        let Some(fault) = &field.fault else { continue };
        if let Some(rest) = field.path.strip_prefix("workers.all.") {
            shown_for_all.push((rest, fault));
        } else if let Some((list, rest)) = field.path.split_once(']')
            && list.starts_with("workers[")
            && rest
                .strip_prefix('.')
                .is_some_and(|rest| shown_for_all.contains(&(rest, fault)))
        {
            continue;
        }
        let one_of_many = field.path.contains('[');
        let label = if one_of_many {
            (say.of_worker)(&field.label, &field.group_label)
        } else {
            field.label.clone()
        };
        problems.push(Problem {
            path: field.path.clone(),
            message: (voice.form().say.problem)(&label, fault),
        });
    }
    problems
}

/// A case in which every list and option has its default.
fn reference() -> Case {
    let mut case = Case {
        workers: vec![Worker::default()],
        ..Case::default()
    };
    case.site.below = vec![Below::default()];
    case.line.inline_absorber = Some(InlineAbsorber::default());
    if let Some(absorber) = &mut case.workers[0].gear.absorber {
        absorber.peak = Some(Peak::default());
    }
    case.posts = Posts {
        left: Some(EndPost::default()),
        right: Some(EndPost::default()),
    };
    case
}

/// Path of the field of the page that a fault of a case belongs to.
fn fault_path(fault: &Fault) -> String {
    match fault.field() {
        FieldRef {
            name: "line.spans_m",
            ..
        } => "line.spans_m".to_owned(),
        FieldRef {
            name: "workers.fall_time_s",
            index: None,
        } => "workers[0].falls".to_owned(),
        FieldRef {
            name: name @ ("workers" | "site.below" | "own_limits"),
            index: None,
        } => format!("{name}.count"),
        FieldRef {
            name,
            index: Some(i),
        } if CURVE.iter().any(|row| row.name == name) => {
            format!("workers[{i}].gear.absorber.curve")
        }
        other => other.to_string(),
    }
}

/// The name of the field that a fault belongs to: both numbers of a curve are typed in one.
fn fault_name(fault: &Fault) -> &'static str {
    let name = fault.field().name;
    let of_curve = CURVE.iter().any(|row| row.name == name);
    if of_curve { CURVE_PATH } else { name }
}

/// The name of a curve as it is typed.
const CURVE_PATH: &str = "workers.gear.absorber.curve";

struct List<'a> {
    voice: Voice,
    case: Case,
    reference: Case,
    faults: Vec<Fault>,
    drafts: &'a [Draft],
    fields: Vec<Field>,
    group: String,
    group_label: String,
}

impl List<'_> {
    fn all(&mut self) {
        let form = self.voice.form();
        self.group("job", form.group_job);
        let title = self.case.title.clone();
        self.text(
            "title",
            (form.title_label, form.title_hint),
            title,
            TEXT_MAX,
        );
        self.line();
        self.crew();
        self.group("site", form.group_site);
        self.number("site.beam_top_m", true, "");
        self.number("site.margin_m", true, "");
        self.number("site.reach_m", false, "");
        self.number("site.beam_depth_m", false, "");
        self.count(
            "site.below.count",
            self.case.site.below.len(),
            footroom_core::constants::BELOW_MAX,
            0,
            (form.below_count_label, form.below_count_hint),
            false,
        );
        for i in 0..self.case.site.below.len() {
            self.below(i);
        }
        for i in 0..self.case.workers.len() {
            self.worker(i);
        }
        self.posts();
        for (key, label) in [
            ("strengths", form.group_strengths),
            ("tolerances", form.group_tolerances),
            ("allowance", form.group_allowance),
            ("temperature", form.group_temperature),
            ("motion", form.group_motion),
        ] {
            self.group(key, label);
            for field in field::FIELDS {
                if field
                    .name
                    .split_once('.')
                    .is_some_and(|(list, _)| list == key)
                {
                    // Only strengths may be missing.
                    let number = field::read(&mut self.case, field.name, 0);
                    let empty_hint = match number {
                        Some(number) if number.optional => form.empty_not_evaluated,
                        _ => "",
                    };
                    self.number(field.name, false, empty_hint);
                }
            }
        }
        self.limits();
    }

    /// End posts, each with its tieback.
    fn posts(&mut self) {
        let form = self.voice.form();
        self.group("posts", form.group_posts);
        let posts = self.case.posts;
        for (side, post, post_texts, tieback_texts) in [
            (
                "left",
                posts.left,
                (form.left_post_label, form.left_post_hint),
                (form.left_tieback_label, form.left_tieback_hint),
            ),
            (
                "right",
                posts.right,
                (form.right_post_label, form.right_post_hint),
                (form.right_tieback_label, form.right_tieback_hint),
            ),
        ] {
            let path = |rest: &str| format!("posts.{side}{rest}");
            self.switch(&path(""), post_texts, post.is_some());
            let Some(post) = post else { continue };
            self.number(&path(".bending_stiffness_n_m2"), false, "");
            self.switch(&path(".tieback"), tieback_texts, post.tieback.is_some());
            if post.tieback.is_some() {
                self.number(&path(".tieback.set_back_m"), false, "");
                self.number(&path(".tieback.axial_stiffness_n"), false, "");
            }
        }
    }

    /// What the checks compare with: the sets of limits, and the user's own.
    fn limits(&mut self) {
        let form = self.voice.form();
        self.group("sets", form.group_sets);
        let sets = self.case.sets;
        self.switch("sets.us", (form.set_us_label, form.set_us_hint), sets.us);
        self.switch(
            "sets.european",
            (form.set_european_label, form.set_european_hint),
            sets.european,
        );
        self.count(
            "own_limits.count",
            self.case.own_limits.len(),
            OWN_LIMITS_MAX,
            0,
            (form.own_count_label, form.own_count_hint),
            false,
        );
        for i in 0..self.case.own_limits.len() {
            self.own_limit(i);
        }
    }

    fn own_limit(&mut self, i: usize) {
        let form = self.voice.form();
        let own = self.case.own_limits[i].clone();
        self.group(
            &format!("own{}", i + 1),
            &(self.voice.form().say.own_label)(i + 1),
        );
        let path = |rest: &str| format!("own_limits[{i}].{rest}");
        self.text(
            &path("label"),
            (form.own_label_label, form.own_label_hint),
            own.label,
            TEXT_MAX,
        );
        let quantities: Vec<Choice> = OWN_QUANTITIES
            .iter()
            .map(|&(value, quantity)| Choice {
                value,
                label: own_quantity_name(self.voice, quantity).to_owned(),
            })
            .collect();
        let key = OWN_QUANTITIES.iter().find(|(_, q)| *q == own.quantity);
        self.choice(
            &path("quantity"),
            (form.own_quantity_label, form.own_quantity_hint),
            key.map_or("", |(key, _)| key),
            quantities,
            false,
        );
        let units = self.voice.units;
        let quantity = own.quantity.quantity();
        let value = format::field_text(quantity, units, own.limit);
        self.push(
            &path("limit"),
            FieldKind::Number,
            (form.own_limit_label, form.own_limit_hint),
            value,
            None,
            false,
        );
        if let Some(listed) = self.fields.last_mut() {
            listed.unit = format::unit(quantity, units);
            if EXPLAINED {
                let (min, max) =
                    format::range_texts(quantity, units, 0.0, own.quantity.limit_max());
                listed.range = (self.voice.form().say.range)(&min, &max);
            }
        }
        self.text(
            &path("reference"),
            (form.own_reference_label, form.own_reference_hint),
            own.reference,
            REFERENCE_MAX,
        );
    }

    fn text(&mut self, path: &str, texts: (&str, &str), value: String, max: usize) {
        self.push(path, FieldKind::Text, texts, value, None, false);
        if let Some(listed) = self.fields.last_mut().filter(|_| EXPLAINED) {
            listed.range = (self.voice.form().say.characters)(max);
        }
    }

    fn group(&mut self, key: &str, label: &str) {
        self.group = key.to_owned();
        self.group_label = label.to_owned();
    }

    fn line(&mut self) {
        let form = self.voice.form();
        self.group("line", form.group_line);
        self.spans();
        self.number("line.height_above_beam_m", true, "");
        self.number("line.pretension_n", true, "");
        let mut ropes: Vec<Choice> = CATALOGUE
            .iter()
            .map(|row| Choice {
                value: row.id,
                label: rope_name(self.voice, &row.rope),
            })
            .collect();
        ropes.push(Choice {
            value: "own",
            label: form.rope_own.to_owned(),
        });
        let rope = input::rope_key(&self.case);
        self.choice(
            "line.rope",
            (form.rope_label, form.rope_hint),
            rope,
            ropes,
            true,
        );
        for name in [
            "line.rope.diameter_m",
            "line.rope.axial_stiffness_n",
            "line.rope.mass_per_length_kg_per_m",
        ] {
            self.number(name, false, "");
        }
        self.number(
            "line.rope.breaking_force_n",
            false,
            form.empty_not_evaluated,
        );
        // A described post gives its end's stiffness.
        let posts = self.case.posts;
        for (post, name) in [
            (posts.left, "line.left_end_stiffness_n_per_m"),
            (posts.right, "line.right_end_stiffness_n_per_m"),
        ] {
            self.number_if(post.is_none(), name, form.empty_rigid);
        }
        let absorber = self.case.line.inline_absorber;
        self.switch(
            "line.inline_absorber",
            (form.inline_label, form.inline_hint),
            absorber.is_some(),
        );
        if let Some(absorber) = absorber {
            let places = INLINE_PLACES.iter().map(|&(value, place)| Choice {
                value,
                label: inline_place_name(self.voice, place).to_owned(),
            });
            let key = INLINE_PLACES.iter().find(|p| p.1 == absorber.place);
            self.choice(
                "line.inline_absorber.place",
                (form.inline_place_label, form.inline_place_hint),
                key.map_or("", |(key, _)| key),
                places.collect(),
                false,
            );
            self.number("line.inline_absorber.yield_force_n", false, "");
            self.number("line.inline_absorber.max_extension_m", false, "");
        }
    }

    /// What matters of all workers alike.
    fn crew(&mut self) {
        let form = self.voice.form();
        self.group("crew", form.group_crew);
        self.count(
            "workers.count",
            self.case.workers.len(),
            footroom_core::constants::WORKERS_MAX,
            1,
            (form.count_label, form.count_hint),
            true,
        );
        if self.case.workers.len() > 1 || self.case.crew_moves == CrewMoves::Freely {
            self.switch(
                "crew_moves",
                (form.crew_moves_label, form.crew_moves_hint),
                self.case.crew_moves == CrewMoves::Freely,
            );
        }
        self.number("workers.all.mass_kg", true, "");
        let first = self.case.workers.first().map(|w| w.gear.kind);
        let alike = self.case.workers.iter().all(|w| Some(w.gear.kind) == first);
        let any = |kind| self.case.workers.iter().any(|w| w.gear.kind == kind);
        let (lanyards, retracting) = (any(GearKind::Lanyard), any(GearKind::SelfRetracting));
        let absorbers = self.case.workers.iter().any(|w| w.gear.absorber.is_some());
        let kind = match first.filter(|_| alike) {
            Some(kind) => gear_key(kind),
            None => "",
        };
        self.choice(
            "workers.all.gear.kind",
            (form.gear_label, form.gear_hint),
            kind,
            self.gear_choices(),
            false,
        );
        if lanyards {
            self.number("workers.all.gear.length_m", true, "");
        }
        if retracting {
            self.number("workers.all.gear.lock_distance_m", !lanyards, "");
        }
        if absorbers {
            self.absorbers();
        }
    }

    /// What matters of all absorbers alike.
    fn absorbers(&mut self) {
        let form = self.voice.form();
        let all = self.case.workers.iter().filter_map(|w| w.gear.absorber);
        let all: Vec<Absorber> = all.collect();
        let any_average = all.iter().any(|a| a.shape() != Shape::Curve);
        if any_average {
            self.number("workers.all.gear.absorber.average_force_n", true, "");
        }
        let first = all.first().filter(|first| {
            let alike = |a: &Absorber| a.shape() == first.shape();
            all.iter().all(alike)
        });
        let for_all = self.voice.form().say.for_all;
        self.choice(
            "workers.all.gear.absorber.shape",
            (&for_all(form.shape_label), form.shape_hint),
            first.map_or("", |a| shape_key(a.shape())),
            self.shape_choices(),
            false,
        );
        if !any_average {
            let units = self.voice.units;
            let texts: Vec<String> = all.iter().map(|a| curve::shown(a, units)).collect();
            let alike = texts.windows(2).all(|pair| pair[0] == pair[1]);
            let value = texts.into_iter().next().filter(|_| alike);
            self.curve(
                "workers.all.gear.absorber.curve",
                value,
                &for_all(form.curve_label),
            );
        }
    }

    /// The points of a curve; `None`: not the same for all.
    fn curve(&mut self, path: &str, value: Option<String>, label: &str) {
        let form = self.voice.form();
        let mixed = value.is_none();
        let hint = match EXPLAINED {
            true => format!(
                "{} {}.",
                form.curve_hint,
                faults::curve_example(self.voice.units)
            ),
            false => String::new(),
        };
        self.push(
            path,
            FieldKind::Text,
            (label, &hint),
            value.unwrap_or_default(),
            (!mixed).then_some(CURVE_PATH),
            !path.contains('['),
        );
        if !EXPLAINED {
            return;
        }
        let units = self.voice.units;
        let ranges: Vec<String> = (CURVE.iter())
            .map(|row| {
                let (min, max) = format::range_texts(row.quantity, units, row.min, row.max);
                (form.say.range)(&min, &max)
            })
            .collect();
        if let Some(listed) = self.fields.last_mut() {
            listed.range = ranges.join("; ");
            listed.basis = basis_text(self.voice, Basis::Maker);
            if mixed {
                listed.hint.push(' ');
                listed.hint.push_str(form.mixed);
            }
        }
    }

    fn shape_choices(&self) -> Vec<Choice> {
        let choices = SHAPES.iter().map(|&(value, shape)| Choice {
            value,
            label: shape_name(self.voice, shape).to_owned(),
        });
        choices.collect()
    }

    fn worker(&mut self, i: usize) {
        let t = self.voice.texts();
        let form = self.voice.form();
        let label = (t.say.worker_label)(i + 1);
        self.group(&format!("worker{}", i + 1), &label);
        let worker = self.case.workers[i];
        let path = |rest: &str| format!("workers[{i}].{rest}");
        self.number(&path("position_m"), false, "");
        self.number(&path("offset_along_m"), false, "");
        self.number(&path("edge_distance_m"), false, "");
        let falls = if worker.fall_time_s.is_some() {
            "on"
        } else {
            "off"
        };
        let falls_or_not = vec![
            Choice {
                value: "on",
                label: form.falls_yes.to_owned(),
            },
            Choice {
                value: "off",
                label: form.falls_no.to_owned(),
            },
        ];
        self.choice(
            &path("falls"),
            (form.falls_label, form.falls_hint),
            falls,
            falls_or_not,
            false,
        );
        if worker.fall_time_s.is_some() {
            self.number(&path("fall_time_s"), false, form.empty_stands);
        }
        self.number(&path("mass_kg"), false, "");
        self.number(&path("dring_height_m"), false, "");
        self.number(&path("harness_stretch_m"), false, "");
        self.choice(
            &path("gear.kind"),
            (form.gear_label, form.gear_hint),
            gear_key(worker.gear.kind),
            self.gear_choices(),
            false,
        );
        let lanyard = worker.gear.kind == GearKind::Lanyard;
        self.number_if(lanyard, &path("gear.length_m"), "");
        self.number_if(!lanyard, &path("gear.lock_distance_m"), "");
        self.number(&path("gear.free_fall_m"), false, form.empty_from_geometry);
        self.number(&path("gear.stiffness_n_per_m"), false, "");
        let absorber = worker.gear.absorber;
        self.switch(
            &path("gear.absorber"),
            (form.absorber_label, form.absorber_hint),
            absorber.is_some(),
        );
        if let Some(absorber) = absorber {
            let shape = absorber.shape();
            self.choice(
                &path("gear.absorber.shape"),
                (form.shape_label, form.shape_hint),
                shape_key(shape),
                self.shape_choices(),
                false,
            );
            let (peak, curve) = (shape == Shape::Peak, shape == Shape::Curve);
            if curve {
                let text = curve::shown(&absorber, self.voice.units);
                self.curve(&path("gear.absorber.curve"), Some(text), form.curve_label);
            }
            self.number_if(!curve, &path("gear.absorber.average_force_n"), "");
            self.number_if(peak, &path("gear.absorber.peak.force_n"), "");
            self.number_if(peak, &path("gear.absorber.peak.over_m"), "");
            let empty_hint = if shape == Shape::Average {
                form.empty_from_average
            } else {
                form.empty_from_shape
            };
            self.number(&path("gear.absorber.maximum_force_n"), false, empty_hint);
            self.number_if(!curve, &path("gear.absorber.max_extension_m"), "");
            self.number(&path("gear.absorber.locked_stiffness_n_per_m"), false, "");
        }
    }

    fn below(&mut self, i: usize) {
        let form = self.voice.form();
        let below = self.case.site.below[i];
        let kinds: Vec<Choice> = BELOW_KINDS
            .iter()
            .map(|&(value, kind)| Choice {
                value,
                label: below_name(self.voice, kind).to_owned(),
            })
            .collect();
        let label = (self.voice.form().say.below_label)(i + 1, below_name(self.voice, below.kind));
        self.group(&format!("below{}", i + 1), &label);
        let key = BELOW_KINDS.iter().find(|(_, kind)| *kind == below.kind);
        self.choice(
            &format!("site.below[{i}].kind"),
            (form.kind_label, form.kind_hint),
            key.map_or("", |(key, _)| key),
            kinds,
            false,
        );
        // The first thing is one of the dozen inputs that matter first.
        self.number(&format!("site.below[{i}].height_m"), i == 0, "");
        self.number(&format!("site.below[{i}].from_m"), false, "");
        self.number(&format!("site.below[{i}].to_m"), false, "");
        // Follows from the two, and moves both.
        let middle_m = 0.5 * (below.from_m + below.to_m);
        self.push(
            &format!("site.below[{i}].middle_m"),
            FieldKind::Number,
            (form.middle_label, form.middle_hint),
            format::field_text(field::Quantity::Length, self.voice.units, middle_m),
            None,
            false,
        );
        self.describe_number("site.below.from_m", "");
    }

    fn gear_choices(&self) -> Vec<Choice> {
        let form = self.voice.form();
        let labels = [form.gear_lanyard, form.gear_self_retracting];
        let keys = GEAR_KINDS.iter().map(|(key, _)| *key);
        keys.zip(labels)
            .map(|(value, label)| Choice {
                value,
                label: label.to_owned(),
            })
            .collect()
    }

    fn spans(&mut self) {
        let texts: Vec<String> = self
            .case
            .line
            .spans_m
            .iter()
            .map(|&v| format::field_text(field::Quantity::Length, self.voice.units, v))
            .collect();
        let name = "line.spans_m";
        let Some(text) = self.voice.form().fields.find(name) else {
            return;
        };
        self.push(
            name,
            FieldKind::Number,
            (text.label, text.hint),
            texts.join(" + "),
            None,
            true,
        );
        self.describe_number(name, "");
    }

    /// A number that is listed only when it is used, or has a fault.
    fn number_if(&mut self, used: bool, path: &str, empty_hint: &str) {
        if used || self.faults.iter().any(|fault| fault_path(fault) == path) {
            self.number(path, false, empty_hint);
        }
    }

    fn number(&mut self, path: &str, primary: bool, empty_hint: &str) {
        let Some(input::Path { name, place }) = input::Path::read(path) else {
            return;
        };
        let (Some(field), Some(text)) = (field::find(&name), self.voice.form().fields.find(&name))
        else {
            return;
        };
        let units = self.voice.units;
        let show = |value: Option<f64>| {
            value.map_or(String::new(), |v| {
                format::field_text(field.quantity, units, v)
            })
        };
        let (value, label, mixed) = match place {
            input::Place::All => {
                let count = self.case.workers.len();
                let values: Vec<f64> = (0..count)
                    .filter_map(|i| field::read(&mut self.case, &name, i)?.value)
                    .collect();
                let alike = values.windows(2).all(|pair| pair[0] == pair[1]);
                (
                    show(values.first().copied().filter(|_| alike)),
                    (self.voice.form().say.for_all)(text.label),
                    !alike,
                )
            }
            input::Place::None | input::Place::At(_) => {
                let index = match place {
                    input::Place::At(i) => i,
                    _ => 0,
                };
                let Some(value) = field::read(&mut self.case, &name, index).map(|n| n.value) else {
                    return;
                };
                (show(value), text.label.to_owned(), false)
            }
        };
        let faulty = if mixed { None } else { Some(name.as_str()) };
        self.push(
            path,
            FieldKind::Number,
            (&label, text.hint),
            value,
            faulty,
            primary,
        );
        let empty_hint = if mixed {
            self.voice.form().mixed
        } else {
            empty_hint
        };
        self.describe_number(&name, empty_hint);
    }

    /// Adds unit, range, default and its origin to the field last listed.
    fn describe_number(&mut self, name: &str, empty_hint: &str) {
        let units = self.voice.units;
        let default = match EXPLAINED {
            true => field::read(&mut self.reference, name, 0).and_then(|n| n.value),
            false => None,
        };
        let (Some(field), Some(listed)) = (field::find(name), self.fields.last_mut()) else {
            return;
        };
        listed.unit = format::unit(field.quantity, units);
        if !EXPLAINED {
            return;
        }
        let (min, max) = format::range_texts(field.quantity, units, field.min, field.max);
        listed.range = (self.voice.form().say.range)(&min, &max);
        listed.basis = basis_text(self.voice, field.basis);
        if field.basis != Basis::Site {
            listed.default_value = default.map_or(String::new(), |v| {
                format::field_text_with_unit(field.quantity, units, v)
            });
        }
        if !empty_hint.is_empty() {
            listed.hint.push(' ');
            listed.hint.push_str(empty_hint);
        }
    }

    fn count(
        &mut self,
        path: &str,
        count: usize,
        max: usize,
        min: usize,
        texts: (&str, &str),
        primary: bool,
    ) {
        self.push(
            path,
            FieldKind::Number,
            texts,
            count.to_string(),
            None,
            primary,
        );
        if let Some(listed) = self.fields.last_mut().filter(|_| EXPLAINED) {
            listed.range = (self.voice.form().say.range)(&min.to_string(), &max.to_string());
        }
    }

    fn switch(&mut self, path: &str, texts: (&str, &str), on: bool) {
        let form = self.voice.form();
        let choices = vec![
            Choice {
                value: "on",
                label: form.choice_on.to_owned(),
            },
            Choice {
                value: "off",
                label: form.choice_off.to_owned(),
            },
        ];
        self.choice(path, texts, if on { "on" } else { "off" }, choices, false);
    }

    fn choice(
        &mut self,
        path: &str,
        texts: (&str, &str),
        value: &str,
        choices: Vec<Choice>,
        primary: bool,
    ) {
        self.push(
            path,
            FieldKind::Choice,
            texts,
            value.to_owned(),
            None,
            primary,
        );
        if let Some(listed) = self.fields.last_mut() {
            listed.choices = Some(choices);
        }
    }

    /// Lists a field. `shared_name`: for an input for all workers, the name whose fault it shows.
    fn push(
        &mut self,
        path: &str,
        kind: FieldKind,
        (label, hint): (&str, &str),
        value: String,
        shared_name: Option<&str>,
        primary: bool,
    ) {
        let draft = self.drafts.iter().find(|d| d.path == path);
        let for_all = path.starts_with("workers.all.");
        let refused = self.faults.iter().find(|fault| {
            if for_all {
                fault.field().index.is_some() && Some(fault_name(fault)) == shared_name
            } else {
                fault_path(fault) == path
            }
        });
        let fault = match (draft.and_then(|d| d.fault.as_ref()), refused) {
            (Some(fault), _) => faults::input_fault(self.voice, fault),
            (None, Some(fault)) => Some(faults::case_fault(self.voice, &self.case, fault)),
            (None, None) => None,
        };
        let value = match draft {
            Some(draft) if fault.is_some() => draft.text.clone(),
            _ => value,
        };
        self.fields.push(Field {
            path: path.to_owned(),
            kind,
            group: self.group.clone(),
            group_label: self.group_label.clone(),
            label: label.to_owned(),
            unit: "",
            value,
            hint: hint.to_owned(),
            range: String::new(),
            default_value: String::new(),
            basis: String::new(),
            fault,
            choices: None,
            primary,
        });
    }
}

fn shape_key(shape: Shape) -> &'static str {
    let found = SHAPES.iter().find(|(_, s)| *s == shape);
    found.map_or("", |(key, _)| key)
}

fn gear_key(kind: GearKind) -> &'static str {
    let found = GEAR_KINDS.iter().find(|(_, k)| *k == kind);
    found.map_or("", |(key, _)| key)
}

fn basis_text(voice: Voice, basis: Basis) -> String {
    let form = voice.form();
    match basis {
        Basis::Site => form.basis_site.to_owned(),
        Basis::CommonPractice => form.basis_common_practice.to_owned(),
        Basis::Catalogue => form.basis_catalogue.to_owned(),
        Basis::Published { source } => format!("{}: {source}", form.basis_published),
        Basis::Chosen { source } => format!("{}: {source}", form.basis_chosen),
        Basis::Maker => form.basis_maker.to_owned(),
        Basis::Method => form.basis_method.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn listed(voice: Voice, case: &Case, drafts: &[Draft]) -> Vec<Field> {
        fields(voice, case, drafts, &case.faults())
    }
    use crate::say::format::{Lang, Units};
    use footroom_core::curve::Points;
    use footroom_core::demo::demo;
    use footroom_core::field::FIELDS;

    const VOICE: Voice = Voice {
        lang: Lang::En,
        units: Units::Metric,
    };

    fn find<'a>(fields: &'a [Field], path: &str) -> &'a Field {
        fields.iter().find(|f| f.path == path).expect(path)
    }

    /// A default that a source gives, or speaks for, names it where the field is.
    #[test]
    fn a_published_default_names_its_source() {
        for (lang, published) in [(Lang::En, "published"), (Lang::Es, "publicado")] {
            let voice = Voice {
                lang,
                units: Units::Metric,
            };
            let listed = listed(voice, &demo(), &[]);
            let basis = |path: &str| find(&listed, path).basis.clone();
            let absorber = find(&listed, "tolerances.absorber_force_ratio");
            assert!(absorber.basis.contains(published), "{}", absorber.basis);
            assert!(
                absorber
                    .basis
                    .contains("Goh, J. Constr. Eng. Manage. 141(1), 2015")
            );
            assert_eq!(absorber.default_value, "0.15");
            assert!(basis("strengths.required_ratio").contains("29 CFR 1926.502(d)(8)"));
            assert!(basis("allowance.clearance_ratio").contains("5823"));
            assert!(basis("allowance.tension_ratio").contains("Galy and Lan"));
            for field in FIELDS {
                if let Basis::Published { source } | Basis::Chosen { source } = field.basis {
                    assert!(source.chars().any(|c| c.is_ascii_digit()), "{}", field.name);
                }
            }
        }
    }

    #[test]
    fn every_input_is_listed_once_with_texts_and_range() {
        let mut case = demo();
        case.line.inline_absorber = Some(InlineAbsorber::default());
        case.workers[0].gear.kind = GearKind::SelfRetracting;
        for (path, text) in [
            ("own_limits.count", "1"),
            ("workers[1].gear.absorber.shape", "peak"),
            ("workers[2].gear.absorber.shape", "curve"),
        ] {
            input::apply(&mut case, path, text, Units::Metric).expect(path);
        }
        let mut bare = case.clone();
        bare.posts = Posts::default();
        for lang in [Lang::En, Lang::Es] {
            for units in [Units::Metric, Units::Us] {
                let voice = Voice { lang, units };
                let without_posts = listed(voice, &bare, &[]);
                let fields = listed(voice, &case, &[]);
                for (i, field) in fields.iter().enumerate() {
                    assert!(
                        fields[..i].iter().all(|f| f.path != field.path),
                        "{}",
                        field.path
                    );
                    assert!(!field.label.is_empty() && !field.hint.is_empty());
                    assert_eq!(field.fault, None, "{}", field.path);
                    let chosen = field.kind == FieldKind::Choice;
                    assert_eq!(field.range.is_empty(), chosen, "{}", field.path);
                    if let Some(choices) = &field.choices {
                        let mixed = ["workers.all.gear.kind", "workers.all.gear.absorber.shape"]
                            .contains(&field.path.as_str());
                        assert!(mixed || choices.iter().any(|c| c.value == field.value));
                    }
                }
                for known in FIELDS.iter().filter(|f| !f.name.starts_with("point_loads")) {
                    let listed = fields
                        .iter()
                        .chain(&without_posts)
                        .filter_map(|f| input::Path::read(&f.path))
                        .any(|path| path.name == known.name);
                    assert!(listed, "{}", known.name);
                }
            }
        }
    }

    #[test]
    fn a_dozen_matter_first() {
        let primary = listed(VOICE, &demo(), &[])
            .iter()
            .filter(|f| f.primary)
            .count();
        assert!((10..=12).contains(&primary), "{primary}");
    }

    #[test]
    fn every_listed_value_can_be_set_again() {
        for units in [Units::Metric, Units::Us] {
            let mut case = demo();
            case.line.inline_absorber = Some(InlineAbsorber::default());
            let before = case.clone();
            for field in listed(
                Voice {
                    lang: Lang::Es,
                    units,
                },
                &case.clone(),
                &[],
            ) {
                if !(field.value.is_empty() && field.path.starts_with("workers.all.")) {
                    input::apply(&mut case, &field.path, &field.value, units).expect(&field.path);
                }
            }
            assert_eq!(case, before);
        }
    }

    /// What is asked for follows the way in which the force is told; a curve typed for all is every
    /// worker's, and comes back as it is shown.
    #[test]
    fn the_form_asks_for_what_tells_the_force_of_an_absorber() {
        for voice in Voice::ALL {
            let mut case = demo();
            let there = |case: &Case| -> Vec<String> {
                let all = listed(voice, case, &[]);
                let own = all.into_iter().map(|f| f.path);
                own.filter_map(|path| {
                    path.strip_prefix("workers[1].gear.absorber.")
                        .map(str::to_owned)
                })
                .collect()
            };
            let average = there(&case);
            assert!(average.contains(&"average_force_n".to_owned()));
            assert!(
                !average
                    .iter()
                    .any(|p| p.starts_with("peak") || p == "curve")
            );
            let mut put = |path: &str, text: &str| {
                input::apply(&mut case, path, text, voice.units).expect(path);
                case.clone()
            };
            let peak = there(&put("workers.all.gear.absorber.shape", "peak"));
            for name in [
                "average_force_n",
                "peak.force_n",
                "peak.over_m",
                "max_extension_m",
            ] {
                assert!(peak.contains(&name.to_owned()), "{name}");
            }
            let curve = there(&put("workers.all.gear.absorber.shape", "curve"));
            for name in [
                "average_force_n",
                "peak.force_n",
                "peak.over_m",
                "max_extension_m",
            ] {
                assert!(!curve.contains(&name.to_owned()), "{name}");
            }
            let text = "0 m: 3 kN; 0.2 m: 4.5 kN; 1.1 m: 4 kN";
            let case = put("workers.all.gear.absorber.curve", text);
            let all = listed(voice, &case, &[]);
            let shared = find(&all, "workers.all.gear.absorber.curve");
            for i in 0..case.workers.len() {
                let own = find(&all, &format!("workers[{i}].gear.absorber.curve"));
                assert_eq!(own.value, shared.value);
                assert!(own.range.contains(';'));
                // What the hint gives as an example can be typed.
                let example = faults::curve_example(voice.units);
                assert!(own.hint.contains(example));
                let mut other = case.clone();
                input::apply(&mut other, &own.path, example, voice.units).expect(example);
                assert!(other.faults().is_empty() && other != demo());
            }
            if voice.units == Units::Metric {
                assert_eq!(
                    shared.value,
                    "0.00 m: 3.0 kN; 0.20 m: 4.5 kN; 1.10 m: 4.0 kN"
                );
            }
            let mut again = case.clone();
            input::apply(&mut again, &shared.path, &shared.value, voice.units).expect("shown");
            assert_eq!(again, case);
        }
    }

    /// What a curve asks for is said at the field in which it is typed, alone and for all.
    #[test]
    fn a_fault_of_a_curve_stands_at_its_field() {
        let mut case = demo();
        for worker in &mut case.workers {
            let absorber = worker.gear.absorber.as_mut().expect("there");
            absorber.curve_extension_m = Points::of(&[0.0, 0.5]);
            absorber.curve_force_n = Points::of(&[3e3, 50.0]);
        }
        for voice in Voice::ALL {
            let all = listed(voice, &case, &[]);
            for path in [
                "workers.all.gear.absorber.curve",
                "workers[2].gear.absorber.curve",
            ] {
                let fault = find(&all, path).fault.clone().expect(path);
                let unit = format::unit(field::Quantity::Force, voice.units);
                assert!(fault.contains(unit), "{fault}");
            }
            assert_eq!(problems(voice, &all).len(), 1);
        }
    }

    /// Who stands alone has no distance to keep; of more the form asks, and what is chosen is on the record.
    #[test]
    fn the_form_asks_how_a_crew_moves() {
        let there = |voice, case: &Case| {
            let all = listed(voice, case, &[]);
            all.into_iter().find(|f| f.path == "crew_moves")
        };
        for voice in Voice::ALL {
            let mut case = demo();
            for (said, moves) in [
                ("off", CrewMoves::KeepingDistances),
                ("on", CrewMoves::Freely),
                ("off", CrewMoves::KeepingDistances),
            ] {
                input::apply(&mut case, "crew_moves", said, voice.units).expect(said);
                assert_eq!(case.crew_moves, moves);
                assert_eq!(there(voice, &case).expect("a crew").value, said);
            }
            assert!(input::apply(&mut case, "crew_moves", "perhaps", voice.units).is_err());
            let label = voice.form().crew_moves_label;
            let told = format!("{:?}", crate::page::record::inputs::blocks(voice, &case));
            assert!(told.contains(label));
            case.workers.truncate(1);
            assert_eq!(there(voice, &case), None);
            case.crew_moves = CrewMoves::Freely;
            assert!(there(voice, &case).is_some(), "it can be taken back");
        }
    }

    /// The place is asked for only of an absorber that is there, and the form sets it.
    #[test]
    fn the_form_asks_for_the_place_of_an_absorber_in_the_line() {
        let path = "line.inline_absorber.place";
        for voice in Voice::ALL {
            let mut case = demo();
            let there = |case: &Case| {
                let all = listed(voice, case, &[]);
                all.into_iter().find(|f| f.path == path)
            };
            assert_eq!(there(&case), None);
            input::apply(&mut case, "line.inline_absorber", "on", voice.units).expect("on");
            let field = there(&case).expect("the place");
            assert_eq!(
                (field.kind, field.value.as_str()),
                (FieldKind::Choice, "right")
            );
            let choices = field.choices.expect("choices");
            let values: Vec<&str> = choices.iter().map(|c| c.value).collect();
            assert_eq!(values, ["left", "right", "both"]);
            assert!(choices.iter().all(|c| !c.label.is_empty()));
            for choice in &choices {
                input::apply(&mut case, path, choice.value, voice.units).expect(choice.value);
                assert_eq!(there(&case).expect("the place").value, choice.value);
                let told = crate::page::record::inputs::blocks(voice, &case);
                let told = format!("{told:?}");
                assert!(told.contains(&choice.label), "{}", choice.label);
            }
        }
    }

    #[test]
    fn what_a_described_post_replaces_is_not_asked_for() {
        let mut case = demo();
        let asked = |case: &Case| {
            listed(VOICE, case, &[])
                .iter()
                .filter(|f| f.path.ends_with("_end_stiffness_n_per_m"))
                .count()
        };
        assert_eq!(asked(&case), 0);
        case.posts.left = None;
        assert_eq!(asked(&case), 1);
        case.posts.right = None;
        assert_eq!(asked(&case), 2);
    }

    #[test]
    fn a_post_that_gives_way_too_much_is_named() {
        let mut case = demo();
        case.line.height_above_beam_m = 3.0;
        case.posts.left = Some(EndPost {
            bending_stiffness_n_m2: 2.0e4,
            tieback: None,
        });
        for worker in &mut case.workers {
            worker.gear.length_m = 3.0;
        }
        assert_eq!(case.faults().len(), 1);
        let fields = listed(VOICE, &case, &[]);
        let fault = find(&fields, "posts.left.bending_stiffness_n_m2")
            .fault
            .clone();
        // 3 E I/h³ of 10 kN/m at 3 m: 90 kN·m².
        assert!(fault.expect("fault").contains("90 kN·m²"));
    }

    #[test]
    fn faults_of_own_limits_are_told_in_their_unit() {
        let mut case = demo();
        input::apply(&mut case, "own_limits.count", "1", Units::Metric).expect("count");
        for (key, wrong, expected) in [
            ("post_moment", "3000 kN·m", "3000.0 kN·m"),
            ("free_fall", "400", "400.00 m"),
        ] {
            input::apply(&mut case, "own_limits[0].quantity", key, Units::Metric).expect(key);
            input::apply(&mut case, "own_limits[0].limit", wrong, Units::Metric).expect(key);
            let fields = listed(VOICE, &case, &[]);
            let fault = find(&fields, "own_limits[0].limit")
                .fault
                .clone()
                .expect(key);
            assert!(fault.contains(expected), "{fault}");
        }
        case.own_limits[0].reference = "x".repeat(REFERENCE_MAX + 1);
        let fields = listed(VOICE, &case, &[]);
        let fault = find(&fields, "own_limits[0].reference").fault.clone();
        assert!(
            fault
                .expect("fault")
                .contains("201 characters; at most 200")
        );
    }

    #[test]
    fn a_fault_shows_at_its_field_with_what_was_typed() {
        let mut case = demo();
        let path = "workers[1].mass_kg";
        input::apply(&mut case, path, "500", Units::Metric).expect(path);
        let drafts = [Draft {
            path: path.to_owned(),
            text: "500".to_owned(),
            fault: None,
        }];
        let fields = listed(VOICE, &case, &drafts);
        let field = find(&fields, path);
        assert_eq!(field.value, "500");
        let fault = field.fault.as_deref().expect("fault");
        assert!(
            fault.contains("500 kg") && fault.contains("30 kg to 250 kg"),
            "{fault}"
        );
        // The masses differ now, so the field for all shows neither value nor fault.
        assert_eq!(find(&fields, "workers.all.mass_kg").value, "");
        assert_eq!(find(&fields, "workers.all.mass_kg").fault, None);
        let problems = problems(VOICE, &fields);
        assert_eq!(problems.len(), 1);
        assert!(
            problems[0].message.contains("Worker 2"),
            "{}",
            problems[0].message
        );
    }

    #[test]
    fn a_fault_of_all_is_told_once() {
        let mut case = demo();
        input::apply(&mut case, "workers.all.mass_kg", "500", Units::Metric).expect("mass");
        let fields = listed(VOICE, &case, &[]);
        let problems = problems(VOICE, &fields);
        assert_eq!(problems.len(), 1, "{problems:?}");
        assert_eq!(problems[0].path, "workers.all.mass_kg");
        assert!(find(&fields, "workers[2].mass_kg").fault.is_some());
    }

    #[test]
    fn every_fault_of_a_case_has_a_field() {
        type Change = fn(&mut Case);
        let changes: &[Change] = &[
            |c| c.title = "x".repeat(81),
            |c| c.line.spans_m = vec![],
            |c| c.line.spans_m = vec![1.0; 13],
            |c| c.line.spans_m[1] = 0.2,
            |c| c.line.pretension_n = 60.0,
            |c| c.line.pretension_n = f64::NAN,
            |c| c.line.rope.breaking_force_n = Some(4_000.0),
            |c| c.workers.clear(),
            |c| c.workers.resize(7, Worker::default()),
            |c| c.workers.iter_mut().for_each(|w| w.fall_time_s = None),
            |c| c.workers[2].position_m = 19.0,
            |c| {
                c.workers[0].gear.length_m = 9.0;
                c.workers[0].gear.kind = GearKind::SelfRetracting;
            },
            |c| c.line.height_above_beam_m = 4.0,
            |c| {
                if let Some(a) = &mut c.workers[1].gear.absorber {
                    a.maximum_force_n = Some(2_000.0);
                }
            },
            |c| {
                if let Some(a) = &mut c.workers[1].gear.absorber {
                    a.curve_extension_m = Points::of(&[0.0, 0.5, 0.4]);
                    a.curve_force_n = Points::of(&[3e3; 3]);
                }
            },
            |c| {
                if let Some(a) = &mut c.workers[1].gear.absorber {
                    a.curve_extension_m = Points::of(&[0.0, 0.5]);
                    a.curve_force_n = Points::of(&[3e3, 50.0]);
                }
            },
            |c| {
                if let Some(a) = &mut c.workers[0].gear.absorber {
                    a.peak = Some(Peak {
                        force_n: 2e3,
                        ..Peak::default()
                    });
                }
            },
            |c| c.site.below[0].to_m = 5.0,
            |c| c.site.below[0].height_m = 9.0,
            |c| c.site.below = vec![Below::default(); 13],
            |c| c.motion.duration_s = 99.0,
        ];
        for (i, change) in changes.iter().enumerate() {
            let mut case = demo();
            change(&mut case);
            let faults = case.faults();
            assert!(!faults.is_empty(), "{i}");
            for lang in [Lang::En, Lang::Es] {
                let fields = listed(
                    Voice {
                        lang,
                        units: Units::Us,
                    },
                    &case,
                    &[],
                );
                for fault in &faults {
                    let path = fault_path(fault);
                    // Without workers there is no field of one.
                    if let Some(field) = fields.iter().find(|f| f.path == path) {
                        assert!(field.fault.is_some(), "{i} {path}");
                    } else {
                        panic!("{i} {path}");
                    }
                }
                assert!(
                    !problems(
                        Voice {
                            lang,
                            units: Units::Us
                        },
                        &fields
                    )
                    .is_empty()
                );
            }
        }
    }
}
