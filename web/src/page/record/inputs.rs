//! The inputs of a case as tables: each with its value, its unit, and where it comes from.

use footroom_core::case::Case;
use footroom_core::field::{self, Basis};

use crate::first::answer::DASH;
use crate::page::plan::fields;
use crate::page::plan::view::{Field, FieldKind};
use crate::page::record::paper::Block;
use crate::say::faults::Voice;
use crate::say::format;
use crate::say::texts::record::Texts;

/// An input with its value, its unit, and where it comes from.
struct Input {
    path: String,
    group: String,
    label: String,
    value: String,
    origin: String,
}

fn listed(voice: Voice, case: &Case) -> Vec<Input> {
    let r = voice.record();
    let all = fields::fields(voice, case, &[], &[]);
    // What only sets others is no input of its own.
    let kept = all.into_iter().filter(|f| {
        !f.path.starts_with("workers.all.") && !f.path.ends_with(".middle_m") && f.path != "title"
    });
    kept.map(|f| Input {
        value: value_text(&f),
        origin: origin_text(r, &f),
        path: f.path,
        group: f.group_label,
        label: f.label,
    })
    .collect()
}

/// The value as it is read on paper: with its unit, choices by their names.
fn value_text(field: &Field) -> String {
    if let Some(choices) = &field.choices {
        let chosen = choices.iter().find(|c| c.value == field.value);
        return chosen.map_or(DASH.to_owned(), |c| c.label.clone());
    }
    match (field.value.as_str(), field.unit) {
        ("", _) => DASH.to_owned(),
        // Feet and inches are in the value itself.
        (value, "" | "ft-in") => value.to_owned(),
        (value, unit) => format!("{} {unit}", format::grouped(value)),
    }
}

/// Whether it is the default, and by whose word the default stands.
fn origin_text(r: &Texts, listed: &Field) -> String {
    if listed.kind != FieldKind::Number {
        return r.origin_entered.to_owned();
    }
    let name: String = strip_places(&listed.path);
    let Some(field) = field::find(&name) else {
        return r.origin_entered.to_owned();
    };
    let by = match field.basis {
        Basis::Site => return r.origin_site.to_owned(),
        Basis::CommonPractice => r.origin_practice,
        Basis::Catalogue => r.origin_catalogue,
        Basis::Published { .. } => r.origin_published,
        Basis::Chosen { .. } => r.origin_chosen,
        Basis::Maker => r.origin_maker,
        Basis::Method => r.origin_method,
    };
    let shown = value_text(listed);
    if shown == DASH {
        r.origin_not_given.to_owned()
    } else if shown.replace(',', "") == listed.default_value.replace(',', "") {
        // Only the default groups its thousands.
        (r.say.origin_default)(by)
    } else {
        r.origin_entered.to_owned()
    }
}

/// A path without the places of its lists: `workers[2].mass_kg` is `workers.mass_kg`; both end
/// posts have one description.
fn strip_places(path: &str) -> String {
    let mut name = String::new();
    let mut inside = false;
    for c in path.chars() {
        match c {
            '[' => inside = true,
            ']' => inside = false,
            _ if inside => {}
            _ => name.push(c),
        }
    }
    name
}

/// What stands in a path behind the place in its list: `mass_kg` of `workers[2].mass_kg`.
fn name_in_list(path: &str) -> &str {
    let (_, rest) = path.split_once(']').unwrap_or_default();
    rest.strip_prefix('.').unwrap_or_default()
}

/// Columns of a list of things that are alike: for each input of one of them its value in all.
fn matrix(r: &Texts, inputs: &[&Input], list: &str) -> Option<Block> {
    let own: Vec<&&Input> = inputs.iter().filter(|i| i.path.starts_with(list)).collect();
    let mut names: Vec<&str> = Vec::new();
    let mut groups: Vec<&str> = Vec::new();
    for input in &own {
        let rest = name_in_list(&input.path);
        if !names.contains(&rest) {
            names.push(rest);
        }
        if !groups.contains(&input.group.as_str()) {
            groups.push(&input.group);
        }
    }
    let rows = names.iter().map(|name| {
        let of = |group: &str| {
            own.iter()
                .find(|i| i.group == group && name_in_list(&i.path) == *name)
        };
        let first = groups.iter().find_map(|group| of(group));
        let mut row = vec![first.map_or(String::new(), |i| i.label.clone())];
        row.extend(
            groups
                .iter()
                .map(|group| of(group).map_or(DASH.to_owned(), |i| i.value.clone())),
        );
        // One word for all where it is the same for all.
        let mut origins: Vec<&str> = groups
            .iter()
            .filter_map(|g| of(g))
            .map(|i| i.origin.as_str())
            .collect();
        origins.dedup();
        row.push(origins.join("; "));
        row
    });
    let mut head = vec![r.col_input];
    head.extend(&groups);
    head.push(r.col_origin);
    (!groups.is_empty()).then(|| Block::table("", &head, rows.collect()).styled("columns"))
}

/// All inputs: those of the line and site under the names of their groups, in two tables side by
/// side; those of workers and things below in columns.
pub fn blocks(voice: Voice, case: &Case) -> Vec<Block> {
    const LISTS: [&str; 3] = ["workers[", "site.below[", "own_limits["];
    let r = voice.record();
    let all = listed(voice, case);
    let (lists, single): (Vec<&Input>, Vec<&Input>) = all
        .iter()
        .partition(|input| LISTS.iter().any(|list| input.path.starts_with(list)));
    let mut sides = [Vec::new(), Vec::new()];
    let mut group = "";
    let half = single.len().div_ceil(2);
    let mut side = 0;
    for (i, input) in single.iter().enumerate() {
        if input.group != group {
            group = &input.group;
            side = usize::from(i >= half);
            sides[side].push(vec![group.to_owned()]);
        }
        sides[side].push(vec![
            input.label.clone(),
            input.value.clone(),
            input.origin.clone(),
        ]);
    }
    let head = [r.col_input, r.col_value, r.col_origin];
    let note = vec![r.inputs_note.to_owned()];
    let mut blocks = vec![Block::text(voice.texts().inputs_heading, note)];
    for (rows, style) in sides.into_iter().zip(["left", "right"]) {
        blocks.push(Block::table("", &head, rows).styled(style));
    }
    for list in LISTS {
        blocks.extend(matrix(r, &lists, list));
    }
    blocks
}
