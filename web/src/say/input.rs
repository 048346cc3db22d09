//! Writes what was typed at a path into a case.
//!
//! A path is the field's name in [`footroom_core::field::FIELDS`] with the place in its list:
//! `line.pretension_n`, `workers[1].mass_kg`, `site.below[0].height_m`. `workers.all.` in place of
//! `workers[1].` means every worker. Beside the numbers there are `title`, `line.rope`,
//! `line.inline_absorber` and its `.place`, `workers.count`, `workers[0].falls`, `workers[0].gear.kind`,
//! `workers[0].gear.absorber` with its `.shape` and `.curve`, `site.below.count`, `site.below[0].kind`, `posts.left`,
//! `posts.left.tieback` (and right), `sets.us`, `sets.european`, `own_limits.count`,
//! `own_limits[0].label`, `.quantity`, `.limit`, `.reference`, and `own_limits[0].kept`, which
//! takes that limit away when it is set to `off`.

use footroom_core::case::{
    Absorber, BELOW_KINDS, Below, BelowKind, Case, CrewMoves, EndPost, GEAR_KINDS, INLINE_PLACES,
    InlineAbsorber, Line, Tieback, Worker,
};
use footroom_core::check::{OWN_LIMITS_MAX, OWN_QUANTITIES, OwnLimit};
use footroom_core::constants::{BELOW_MAX, SPANS_MAX, WORKERS_MAX};
use footroom_core::curve::{Peak, SHAPES, Shape};
use footroom_core::field::{self, Quantity};
use footroom_core::fit::layout::with_users;
use footroom_core::rope::{CATALOGUE, Construction};

use crate::say::curve;
use crate::say::format::{self, Units};
use crate::say::typed::{self, ParseFault};

/// Which entries of a list a path means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The path is outside lists, or means the list itself.
    None,
    /// The entry of this number, counted from 0.
    At(usize),
    /// Every entry.
    All,
}

/// A path taken apart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Path {
    /// Name without the place: `workers.mass_kg`.
    pub name: String,
    /// The place.
    pub place: Place,
}

impl Path {
    /// Takes a path apart; `None` when its brackets are not those of a path.
    pub fn read(path: &str) -> Option<Self> {
        if let Some(rest) = path.strip_prefix("workers.all.") {
            return Some(Self {
                name: format!("workers.{rest}"),
                place: Place::All,
            });
        }
        let Some((list, rest)) = path.split_once('[') else {
            return Some(Self {
                name: path.to_owned(),
                place: Place::None,
            });
        };
        let (index, rest) = rest.split_once(']')?;
        Some(Self {
            name: format!("{list}{rest}"),
            place: Place::At(index.parse().ok()?),
        })
    }
}

/// Why a typed text was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum InputFault {
    /// There is no such field: a mistake of the page, not of the visitor.
    NoSuchField,
    /// The text cannot be read.
    Parse(Quantity, ParseFault),
    /// The text is none of the choices.
    Choice,
    /// The number of entries is outside its range.
    Count {
        /// Number typed.
        count: usize,
        /// Least number.
        min: usize,
        /// Greatest number.
        max: usize,
    },
    /// No whole number was typed where entries are counted.
    NotWhole,
    /// The text is no curve from this character on, counted from 1.
    Curve {
        /// Which character.
        at: usize,
    },
}

/// Quantity of the number called `name`, of entry `index` where it is in a list: that of an own
/// limit depends on what it bounds. `None`: there is no such number.
pub fn quantity(case: &Case, name: &str, index: usize) -> Option<Quantity> {
    if name == "own_limits.limit" {
        return Some(case.own_limits.get(index)?.quantity.quantity());
    }
    Some(field::find(name)?.quantity)
}

/// Key of the choice of rope: a catalogue row whose values the rope has, or `own`.
pub fn rope_key(case: &Case) -> &'static str {
    CATALOGUE
        .iter()
        .find(|row| row.rope == case.line.rope)
        .map_or("own", |row| row.id)
}

/// Writes a typed text into the case. Values out of range are written too: the case's own check
/// names them.
///
/// A text that equals what the field shows leaves the stored value as it is, to the last bit.
///
/// # Errors
/// The case is unchanged then: no such field, a text that cannot be read, none of the choices, or
/// a count outside its range.
pub fn apply(case: &mut Case, path: &str, text: &str, units: Units) -> Result<(), InputFault> {
    let Path { name, place } = Path::read(path).ok_or(InputFault::NoSuchField)?;
    let text = text.trim();
    match name.as_str() {
        "title" => {
            let title = one_line(text);
            // Under another name it is no longer the invented example.
            case.invented &= title == case.title;
            case.title = title;
        }
        "line.rope" => set_rope(case, text)?,
        "line.inline_absorber" => {
            let old = case.line.inline_absorber;
            case.line.inline_absorber =
                switch(text)?.then(|| old.unwrap_or_else(|| inline_absorber_for(&case.line)));
        }
        "line.inline_absorber.place" => {
            let chosen = chosen(&INLINE_PLACES, text)?;
            let absorber = case.line.inline_absorber.as_mut();
            absorber.ok_or(InputFault::NoSuchField)?.place = chosen;
        }
        "line.spans_m" if place == Place::None => {
            case.line.spans_m = spans(&case.line.spans_m, text, units)?;
        }
        "crew_moves" => {
            case.crew_moves = if switch(text)? {
                CrewMoves::Freely
            } else {
                CrewMoves::KeepingDistances
            };
        }
        "workers.count" => set_worker_count(case, whole(text, 1, WORKERS_MAX)?),
        "site.below.count" => set_below_count(case, whole(text, 0, BELOW_MAX)?),
        "site.below.kind" => {
            let kind = chosen(&BELOW_KINDS, text)?;
            let Place::At(i) = place else {
                return Err(InputFault::NoSuchField);
            };
            let below = case.site.below.get_mut(i);
            below.ok_or(InputFault::NoSuchField)?.kind = kind;
        }
        "site.below.middle_m" => {
            let Place::At(i) = place else {
                return Err(InputFault::NoSuchField);
            };
            let below = case.site.below.get_mut(i);
            move_below(below.ok_or(InputFault::NoSuchField)?, text, units)?;
        }
        "posts.left" if place == Place::None => set_post(&mut case.posts.left, switch(text)?),
        "posts.right" if place == Place::None => set_post(&mut case.posts.right, switch(text)?),
        "posts.left.tieback" => set_tieback(&mut case.posts.left, switch(text)?)?,
        "posts.right.tieback" => set_tieback(&mut case.posts.right, switch(text)?)?,
        "sets.us" => case.sets.us = switch(text)?,
        "sets.european" => case.sets.european = switch(text)?,
        "own_limits.count" => set_own_count(case, whole(text, 0, OWN_LIMITS_MAX)?),
        "own_limits.kept" => {
            let Place::At(i) = place else {
                return Err(InputFault::NoSuchField);
            };
            if i >= case.own_limits.len() {
                return Err(InputFault::NoSuchField);
            }
            if !switch(text)? {
                case.own_limits.remove(i);
            }
        }
        "own_limits.quantity" => {
            let quantity = chosen(&OWN_QUANTITIES, text)?;
            let own = own_limit(case, place)?;
            // The old number would mean something else in another unit.
            if own.quantity.quantity() != quantity.quantity() {
                own.limit = 0.0;
            }
            own.quantity = quantity;
        }
        "own_limits.label" => own_limit(case, place)?.label = one_line(text),
        "own_limits.reference" => own_limit(case, place)?.reference = one_line(text),
        "workers.falls" => {
            let falls = switch(text)?;
            for worker in workers(case, place)? {
                worker.fall_time_s = falls.then(|| worker.fall_time_s.unwrap_or(0.0));
            }
        }
        "workers.gear.kind" => {
            let kind = chosen(&GEAR_KINDS, text)?;
            for worker in workers(case, place)? {
                worker.gear.kind = kind;
            }
        }
        "workers.gear.absorber" => {
            let there = switch(text)?;
            for worker in workers(case, place)? {
                let old = worker.gear.absorber;
                worker.gear.absorber = there.then(|| old.unwrap_or_else(Absorber::default));
            }
        }
        "workers.gear.absorber.shape" => {
            let shape = chosen(&SHAPES, text)?;
            for absorber in absorbers(case, place)? {
                set_shape(absorber, shape);
            }
        }
        "workers.gear.absorber.curve" => {
            for absorber in absorbers(case, place)? {
                curve::put(absorber, text, units)?;
            }
        }
        _ => set_number(case, &name, place, text, units)?,
    }
    Ok(())
}

/// The absorbers of those who have one.
fn absorbers(case: &mut Case, place: Place) -> Result<Vec<&mut Absorber>, InputFault> {
    let workers = workers(case, place)?.iter_mut();
    let there: Vec<_> = workers.filter_map(|w| w.gear.absorber.as_mut()).collect();
    if there.is_empty() {
        return Err(InputFault::NoSuchField);
    }
    Ok(there)
}

/// Tells an absorber's force in another way: a peak begins at the maximum known, a curve as what it takes
/// the place of.
fn set_shape(absorber: &mut Absorber, shape: Shape) {
    /// A maximum that follows from an average is taken to the next one of these, N.
    const STEP_N: f64 = 100.0;
    if shape == absorber.shape() {
        return;
    }
    let corners = absorber.corners();
    let force_n = (absorber.maximum_n() / STEP_N).ceil() * STEP_N;
    absorber.peak = None;
    (absorber.curve_extension_m, absorber.curve_force_n) = Default::default();
    match shape {
        Shape::Average => {}
        Shape::Peak => {
            absorber.peak = Some(Peak {
                force_n: force_n.max(absorber.average_force_n),
                ..Peak::default()
            });
        }
        Shape::Curve => (absorber.curve_extension_m, absorber.curve_force_n) = corners,
    }
}

/// Moves a thing below along the beam, by where its middle is to be; its width stays.
fn move_below(below: &mut Below, text: &str, units: Units) -> Result<(), InputFault> {
    /// Parts of a metre to which its edges are kept, so that moving to and fro adds no noise.
    const PARTS: f64 = 1.0e6;
    let middle_m = 0.5 * (below.from_m + below.to_m);
    if format::field_text(Quantity::Length, units, middle_m) == text {
        return Ok(());
    }
    let parsed = typed::parse(Quantity::Length, units, text);
    let to_m = parsed.map_err(|fault| InputFault::Parse(Quantity::Length, fault))?;
    for edge in [&mut below.from_m, &mut below.to_m] {
        *edge = ((*edge + to_m - middle_m) * PARTS).round() / PARTS;
    }
    Ok(())
}

/// A text without line breaks and other control characters.
fn one_line(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect()
}

fn set_post(post: &mut Option<EndPost>, there: bool) {
    *post = there.then(|| post.unwrap_or_default());
}

fn set_tieback(post: &mut Option<EndPost>, there: bool) -> Result<(), InputFault> {
    let post = post.as_mut().ok_or(InputFault::NoSuchField)?;
    post.tieback = there.then(|| post.tieback.unwrap_or_else(Tieback::default));
    Ok(())
}

fn own_limit(case: &mut Case, place: Place) -> Result<&mut OwnLimit, InputFault> {
    let Place::At(i) = place else {
        return Err(InputFault::NoSuchField);
    };
    case.own_limits.get_mut(i).ok_or(InputFault::NoSuchField)
}

/// Adds own limits, or takes the last ones away.
fn set_own_count(case: &mut Case, count: usize) {
    case.own_limits.resize_with(count, OwnLimit::default);
}

fn workers(case: &mut Case, place: Place) -> Result<&mut [Worker], InputFault> {
    match place {
        Place::All => Ok(&mut case.workers),
        Place::At(i) => case.workers.get_mut(i..=i).ok_or(InputFault::NoSuchField),
        Place::None => Err(InputFault::NoSuchField),
    }
}

fn set_number(
    case: &mut Case,
    name: &str,
    place: Place,
    text: &str,
    units: Units,
) -> Result<(), InputFault> {
    let first = match place {
        Place::At(i) => i,
        _ => 0,
    };
    let quantity = quantity(case, name, first).ok_or(InputFault::NoSuchField)?;
    let indices = match place {
        Place::None => 0..1,
        Place::At(i) => i..i.checked_add(1).ok_or(InputFault::NoSuchField)?,
        Place::All => 0..case.workers.len(),
    };
    let in_list = name.starts_with("workers.")
        || name.starts_with("site.below.")
        || name.starts_with("own_limits.")
        || name == "line.spans_m";
    if in_list == (place == Place::None) || (place == Place::All && !name.starts_with("workers.")) {
        return Err(InputFault::NoSuchField);
    }
    let parsed = typed::parse(quantity, units, text);
    let mut written = false;
    for i in indices {
        let Some(number) = field::read(case, name, i) else {
            continue;
        };
        if number.optional && text.is_empty() {
            written = field::write(case, name, i, None);
            continue;
        }
        let shown = number.value.map(|v| format::field_text(quantity, units, v));
        if shown.as_deref() != Some(text) {
            let value = parsed
                .clone()
                .map_err(|fault| InputFault::Parse(quantity, fault))?;
            field::write(case, name, i, Some(value));
            if name.starts_with("line.rope.") {
                case.line.rope.construction = Construction::Own;
            }
        }
        written = true;
    }
    if written {
        Ok(())
    } else {
        Err(InputFault::NoSuchField)
    }
}

fn set_rope(case: &mut Case, key: &str) -> Result<(), InputFault> {
    if key == "own" {
        case.line.rope.construction = Construction::Own;
        return Ok(());
    }
    let row = CATALOGUE.iter().find(|row| row.id == key);
    case.line.rope = row.ok_or(InputFault::Choice)?.rope;
    Ok(())
}

/// The default in-line absorber, made to hold the line at rest.
fn inline_absorber_for(line: &Line) -> InlineAbsorber {
    let usual = InlineAbsorber::default();
    InlineAbsorber {
        yield_force_n: usual.yield_force_n.max(2.0 * line.pretension_n),
        ..usual
    }
}

fn switch(text: &str) -> Result<bool, InputFault> {
    match text {
        "on" => Ok(true),
        "off" => Ok(false),
        _ => Err(InputFault::Choice),
    }
}

fn chosen<T: Copy>(choices: &[(&str, T)], key: &str) -> Result<T, InputFault> {
    let found = choices.iter().find(|(name, _)| *name == key);
    found.map(|(_, value)| *value).ok_or(InputFault::Choice)
}

/// A whole number in a range, both ends allowed.
pub(crate) fn whole(text: &str, min: usize, max: usize) -> Result<usize, InputFault> {
    let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    if !digits {
        return Err(InputFault::NotWhole);
    }
    // More digits than fit are a number above every range.
    let count = text.parse::<usize>().unwrap_or(usize::MAX);
    if (min..=max).contains(&count) {
        Ok(count)
    } else {
        Err(InputFault::Count { count, min, max })
    }
}

/// Reads spans: `9 + 9`, `9; 9`, `9, 9` (comma and space) or `2 x 9`.
///
/// A span whose text is what the field shows for the old one at its place keeps its stored value.
/// The parts of a text between commas that a space follows: a comma before a digit is one of the
/// number.
pub(super) fn at_commas(text: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let mut from = 0;
    for (at, _) in text.match_indices(',') {
        if text.as_bytes().get(at + 1) == Some(&b' ') {
            parts.extend(text.get(from..at));
            from = at + 2;
        }
    }
    parts.extend(text.get(from..));
    parts
}

fn spans(old: &[f64], text: &str, units: Units) -> Result<Vec<f64>, InputFault> {
    let unreadable = |fault| InputFault::Parse(Quantity::Length, fault);
    if text.is_empty() {
        return Err(unreadable(ParseFault::Empty));
    }
    let pieces: Vec<&str> = if text.contains(['+', ';']) {
        text.split(['+', ';']).collect()
    } else {
        at_commas(text)
    };
    let mut spans = Vec::new();
    for piece in pieces {
        let begin = piece.as_ptr() as usize - text.as_ptr() as usize;
        let before = text.get(..begin).map_or(0, |t| t.chars().count());
        let (count, one) = repeated(piece);
        let shift = piece.chars().count() - one.chars().count();
        let kept = old
            .get(spans.len())
            .filter(|&&v| format::field_text(Quantity::Length, units, v) == one.trim());
        let value = match kept {
            Some(&value) => value,
            None => typed::parse(Quantity::Length, units, one).map_err(|fault| {
                unreadable(match fault {
                    ParseFault::Unreadable { at } => ParseFault::Unreadable {
                        at: at + before + shift,
                    },
                    ParseFault::Empty => ParseFault::Unreadable { at: before + 1 },
                    other => other,
                })
            })?,
        };
        // One more than allowed is enough for the check to name it.
        for _ in 0..count.min(SPANS_MAX + 1) {
            spans.push(value);
        }
        if spans.len() > SPANS_MAX {
            break;
        }
    }
    Ok(spans)
}

/// `2 x 9` is twice 9; anything else is itself, once.
fn repeated(piece: &str) -> (usize, &str) {
    let Some((count, one)) = piece.split_once(['x', 'X', '×', '*']) else {
        return (1, piece);
    };
    match count.trim().parse::<usize>() {
        Ok(count) if count > 0 => (count, one),
        _ => (1, piece),
    }
}

/// Adds workers as [`with_users`] does everywhere, or takes the last ones away; who is there stays as
/// they are.
fn set_worker_count(case: &mut Case, count: usize) {
    case.workers.truncate(count);
    if case.workers.is_empty() {
        case.workers.push(Worker {
            position_m: 0.5 * case.line.length_m(),
            ..Worker::default()
        });
    }
    let there = case.workers.len();
    let grown = with_users(case, count).workers;
    case.workers.extend(grown.into_iter().skip(there));
}

/// Adds things to the right of the last one, or takes the last ones away.
fn set_below_count(case: &mut Case, count: usize) {
    case.site.below.truncate(count);
    while case.site.below.len() < count {
        let from_m = match case.site.below.last() {
            Some(last) => last.to_m + 1.0,
            None => (0.5 * case.line.length_m() - 1.0).max(0.0).round(),
        };
        case.site.below.push(Below {
            kind: BelowKind::Other,
            from_m,
            to_m: from_m + 2.0,
            height_m: 1.0_f64.min(case.site.beam_top_m),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use footroom_core::case::GearKind;
    use footroom_core::case::InlinePlace;
    use footroom_core::demo::demo;
    use proptest::prelude::*;

    const M: Units = Units::Metric;
    const U: Units = Units::Us;

    fn set(path: &str, text: &str) -> Case {
        let mut case = demo();
        apply(&mut case, path, text, M).expect(path);
        case
    }

    fn refused(path: &str, text: &str) -> InputFault {
        let mut case = demo();
        let fault = apply(&mut case, path, text, M).expect_err(path);
        assert_eq!(case, demo(), "{path}");
        fault
    }

    #[test]
    fn writes_numbers_where_they_belong() {
        assert_eq!(set("line.pretension_n", "5 kN").line.pretension_n, 5000.0);
        assert_eq!(set("workers[1].mass_kg", "110").workers[1].mass_kg, 110.0);
        assert_eq!(set("workers[1].mass_kg", "110").workers[0].mass_kg, 90.0);
        let all = set("workers.all.gear.length_m", "1.2");
        assert!(all.workers.iter().all(|w| w.gear.length_m == 1.2));
        assert_eq!(
            set("site.below[0].height_m", "2,5").site.below[0].height_m,
            2.5
        );
        assert_eq!(set("line.spans_m[1]", "8").line.spans_m, [9.0, 8.0]);
    }

    #[test]
    fn every_numeric_field_of_a_case_has_its_place() {
        let mut case = demo();
        case.line.inline_absorber = Some(InlineAbsorber::default());
        if let Some(absorber) = &mut case.workers[0].gear.absorber {
            absorber.peak = Some(Peak::default());
        }
        for field in field::FIELDS {
            if !field.name.starts_with("point_loads") {
                let found = field::read(&mut case, field.name, 0);
                assert!(found.is_some(), "{}", field.name);
            }
        }
    }

    #[test]
    fn empty_means_unknown_only_where_that_is_allowed() {
        let rigid = set("line.left_end_stiffness_n_per_m", "");
        assert_eq!(rigid.line.left_end_stiffness_n_per_m, None);
        let unknown = set("line.rope.breaking_force_n", " ");
        assert_eq!(unknown.line.rope.breaking_force_n, None);
        assert_eq!(
            refused("line.pretension_n", ""),
            InputFault::Parse(Quantity::Force, ParseFault::Empty)
        );
    }

    #[test]
    fn choices_and_switches() {
        assert_eq!(
            set("workers.all.gear.kind", "self_retracting").workers[2]
                .gear
                .kind,
            GearKind::SelfRetracting
        );
        assert_eq!(set("workers[0].falls", "off").workers[0].fall_time_s, None);
        assert_eq!(set("workers[0].falls", "on"), demo());
        assert!(
            set("line.inline_absorber", "on")
                .line
                .inline_absorber
                .is_some()
        );
        assert_eq!(
            set("workers[0].gear.absorber", "off").workers[0]
                .gear
                .absorber,
            None
        );
        assert_eq!(
            set("site.below[0].kind", "stack").site.below[0].kind,
            BelowKind::Stack
        );
        let rope = set("line.rope", "stainless_7x19_10");
        assert_eq!(rope_key(&rope), "stainless_7x19_10");
        assert_eq!(rope_key(&set("line.rope.axial_stiffness_n", "3000")), "own");
        assert_eq!(refused("line.rope", "hemp"), InputFault::Choice);
        assert_eq!(refused("workers[0].falls", "maybe"), InputFault::Choice);
    }

    #[test]
    fn an_in_line_absorber_is_put_at_either_end_or_both() {
        let path = "line.inline_absorber.place";
        assert_eq!(refused(path, "left"), InputFault::NoSuchField);
        let mut case = set("line.inline_absorber", "on");
        let place = |case: &Case| case.line.inline_absorber.map(|a| a.place);
        assert_eq!(place(&case), Some(InlinePlace::Right));
        let values = case.line.inline_absorber;
        for (key, expected) in INLINE_PLACES {
            apply(&mut case, path, key, M).expect(key);
            assert_eq!(place(&case), Some(expected));
            assert!(case.faults().is_empty(), "{key}");
        }
        let middle = apply(&mut case, path, "middle", M);
        assert_eq!(middle, Err(InputFault::Choice));
        assert_eq!(place(&case), Some(InlinePlace::Both));
        apply(&mut case, path, "right", M).expect("right");
        assert_eq!(case.line.inline_absorber, values);
    }

    #[test]
    fn the_force_of_an_absorber_is_told_in_three_ways() {
        let shape = "workers.all.gear.absorber.shape";
        let curve = "workers[1].gear.absorber.curve";
        let mut case = demo();
        let mut put = |path: &str, text: &str| {
            apply(&mut case, path, text, M).expect(path);
            assert!(
                case.faults().is_empty(),
                "{path} {text}: {:?}",
                case.faults()
            );
            case.clone()
        };
        let of = |case: &Case| case.workers[1].gear.absorber.expect("there");
        let peak = put(shape, "peak");
        assert!(
            peak.workers
                .iter()
                .all(|w| w.gear.absorber.expect("there").peak.is_some())
        );
        assert_eq!(
            of(&put("workers[1].gear.absorber.peak.over_m", "0.3"))
                .peak
                .map(|p| p.over_m),
            Some(0.3)
        );
        // A curve begins as what it takes the place of.
        let corners = of(&put(shape, "peak")).corners();
        assert_eq!(of(&put(shape, "curve")).corners(), corners);
        let typed = of(&put(curve, "0: 3; 0.2: 5; 1.2: 4"));
        assert_eq!(typed.curve_force_n.as_slice(), [3e3, 5e3, 4e3]);
        assert_eq!(put(shape, "average"), demo());
        // From the average: the same numbers.
        let average = of(&demo());
        let level = of(&put(shape, "curve"));
        assert_eq!(level.curve_force_n.as_slice(), [average.average_force_n; 2]);
        assert_eq!(refused(shape, "other"), InputFault::Choice);
        assert_eq!(refused(curve, "0: 3; x"), InputFault::Curve { at: 8 });
        let mut without = demo();
        without
            .workers
            .iter_mut()
            .for_each(|w| w.gear.absorber = None);
        let none = apply(&mut without, shape, "curve", M);
        assert_eq!(none, Err(InputFault::NoSuchField));
    }

    #[test]
    fn posts_and_tiebacks_come_and_go() {
        let bare = set("posts.left", "off");
        assert_eq!(
            (bare.posts.left, bare.posts.right),
            (None, demo().posts.right)
        );
        assert_eq!(refused("posts.left", "perhaps"), InputFault::Choice);
        let untied = set("posts.right.tieback", "off");
        assert_eq!(untied.posts.right.and_then(|p| p.tieback), None);
        let mut again = bare.clone();
        let fault = apply(&mut again, "posts.left.tieback", "on", M).expect_err("no post");
        assert_eq!(fault, InputFault::NoSuchField);
        apply(&mut again, "posts.left", "on", M).expect("post");
        assert_eq!(again.posts.left, Some(EndPost::default()));
        let stiff = set("posts.left.bending_stiffness_n_m2", "600 kN·m²");
        assert_eq!(
            stiff.posts.left.map(|p| p.bending_stiffness_n_m2),
            Some(6.0e5)
        );
    }

    #[test]
    fn own_limits_are_added_filled_and_removed() {
        let mut case = demo();
        let mut put = |path: &str, text: &str, units| {
            apply(&mut case, path, text, units).expect(path);
            case.clone()
        };
        put("own_limits.count", "2", M);
        put("own_limits[0].label", " Owner's\tlimit ", M);
        put("own_limits[0].limit", "6 kN", M);
        put("own_limits[1].quantity", "free_fall", M);
        let case = put("own_limits[1].limit", "5 ft", U);
        assert_eq!(case.own_limits[0].label, "Owner's limit");
        assert_eq!(case.own_limits[0].limit, 6_000.0);
        assert_eq!(case.own_limits[1].limit, 1.524);
        assert!(case.faults().is_empty());
        // Force and length: the old number is no length.
        let other = put("own_limits[0].quantity", "required_depth", M);
        assert_eq!(other.own_limits[0].limit, 0.0);
        let one = put("own_limits[0].kept", "off", M);
        assert_eq!(one.own_limits, case.own_limits[1..]);
        assert_eq!(
            refused("own_limits[0].kept", "off"),
            InputFault::NoSuchField
        );
        assert_eq!(refused("own_limits[0].limit", "1"), InputFault::NoSuchField);
        assert!(set("sets.european", "on").sets.european);
    }

    #[test]
    fn every_own_quantity_has_its_key_once() {
        for (i, (key, quantity)) in OWN_QUANTITIES.iter().enumerate() {
            let json = serde_json::to_string(quantity).expect("plain");
            assert_eq!(json, format!("\"{key}\""));
            assert!(OWN_QUANTITIES[..i].iter().all(|(_, q)| q != quantity));
        }
    }

    #[test]
    fn another_title_is_no_longer_the_invented_example() {
        let titled = set("title", " Pier 3,\tbeam C ");
        assert_eq!(
            (titled.title.as_str(), titled.invented),
            ("Pier 3, beam C", false)
        );
        assert!(set("title", &demo().title).invented);
    }

    #[test]
    fn spans_in_many_notations() {
        for text in [
            "6 + 6+6",
            "6; 6; 6",
            "6, 6, 6",
            "3 x 6",
            "2×6 + 6",
            "6 m + 600 cm + 6",
        ] {
            assert_eq!(set("line.spans_m", text).line.spans_m, [6.0; 3], "{text}");
        }
        assert_eq!(set("line.spans_m", "9,5").line.spans_m, [9.5]);
        assert_eq!(
            refused("line.spans_m", "6 + six"),
            InputFault::Parse(Quantity::Length, ParseFault::Unreadable { at: 5 })
        );
        assert_eq!(
            refused("line.spans_m", "6 +"),
            InputFault::Parse(Quantity::Length, ParseFault::Unreadable { at: 4 })
        );
        assert_eq!(set("line.spans_m", "99999999 x 2").line.spans_m.len(), 13);
    }

    #[test]
    fn counts_add_beside_the_last_and_drop_the_last() {
        let four = set("workers.count", "4");
        assert_eq!(four.workers.len(), 4);
        // As the charts, the talk and the searches add them.
        for n in 1..=WORKERS_MAX {
            let typed = set("workers.count", &n.to_string());
            assert_eq!(typed.workers, with_users(&demo(), n).workers);
            assert!(typed.faults().is_empty());
        }
        assert_eq!(set("workers.count", "1").workers, demo().workers[..1]);
        assert_eq!(
            refused("workers.count", "7"),
            InputFault::Count {
                count: 7,
                min: 1,
                max: 6
            }
        );
        assert_eq!(refused("workers.count", "two"), InputFault::NotWhole);
        assert!(set("site.below.count", "12").faults().is_empty());
        assert!(set("site.below.count", "0").site.below.is_empty());
    }

    #[test]
    fn unknown_paths_are_refused() {
        for path in [
            "",
            "line",
            "workers",
            "workers.mass_kg",
            "workers[9].mass_kg",
            "workers[x].mass_kg",
            "workers[0",
            "line.inline_absorber.yield_force_n",
            "line.all.pretension_n",
            "line[0].pretension_n",
            "site.below.all.height_m",
            "workers.all.nothing",
            "workers[18446744073709551615].mass_kg",
            "point_loads[0].force_n",
        ] {
            assert_eq!(refused(path, "1"), InputFault::NoSuchField, "{path}");
        }
    }

    #[test]
    fn shown_text_typed_again_moves_nothing() {
        // 12.4 m is no whole part of an inch, 4.4 kN no whole pound.
        let mut case = demo();
        case.line.spans_m = vec![9.000_3, 8.999_7];
        let before = case.clone();
        for units in [M, U] {
            let joined: Vec<String> = case
                .line
                .spans_m
                .iter()
                .map(|&v| format::field_text(Quantity::Length, units, v))
                .collect();
            apply(&mut case, "line.spans_m", &joined.join(" + "), units).expect("spans");
            for field in field::FIELDS {
                let path = if let Some(rest) = field.name.strip_prefix("workers.") {
                    format!("workers.all.{rest}")
                } else if let Some(rest) = field.name.strip_prefix("site.below.") {
                    format!("site.below[0].{rest}")
                } else {
                    field.name.to_owned()
                };
                let Some(value) = field::read(&mut case, field.name, 0).and_then(|n| n.value)
                else {
                    continue;
                };
                if field.name == "line.spans_m" || field.name == "workers.position_m" {
                    continue;
                }
                let shown = format::field_text(field.quantity, units, value);
                apply(&mut case, &path, &shown, units).expect(&path);
            }
            assert_eq!(case, before);
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn nothing_typed_anywhere_panics(path in "\\PC{0,40}", text in "\\PC{0,30}") {
            let mut case = demo();
            let _ = apply(&mut case, &path, &text, U);
            for path in ["line.spans_m", "workers.count", "site.below[0].from_m", "title"] {
                if apply(&mut case, path, &text, M).is_ok() {
                    let _ = case.faults();
                }
            }
        }
    }
}
