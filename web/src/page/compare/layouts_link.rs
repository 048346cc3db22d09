//! A set of layouts as text: what the browser keeps, and what travels in one link.
//!
//! `c3.` and then packed as the link of one case ([`crate::wire::link`]): the differences of the set's JSON
//! to a reference, see [`layouts_diff`]. Reading is as strict: a set is taken whole or refused with the
//! reason and the place.
//!
//! A reference never changes, or old links would say something else; it holds names and order of
//! all fields and what is common in them. A field that the core gets later needs a reference of its
//! own with a prefix of its own, and what the old one lacks has its default as everywhere. The
//! first format, `c1.`, was the JSON itself; `c2.` lacks the strengths of gear and that of intermediate
//! posts along the line; `c3.` lacks the place of an in-line absorber, `c4.` the peak and the curve of a
//! personal one, `c5.` how a crew moves. A set is written in the oldest of `c3.` to `c6.` that can tell it,
//! so that pages from before open it too.

use footroom_core::case::{CREW_MOVES, Case, CrewMoves, INLINE_PLACES, InlinePlace};

use crate::page::compare::layouts_diff;
use crate::wire::case_json::{self, Entries, expected, number, whole};
use crate::wire::json::{self, Json, JsonFault, Kind, Reason, Writer};
use crate::wire::link::{self, LinkFault};

/// What every set of the present format begins with. It is told by its differences to the reference of
/// the fifth, with how the crew moves besides.
const PRESENT: (&str, &str) = ("c6.", FIFTH.1);

/// The same of the fifth to third format, which the present one replaces only where it is needed.
const FIFTH: (&str, &str) = ("c5.", include_str!("set_reference_5.json"));
const FOURTH: (&str, &str) = ("c4.", include_str!("set_reference_4.json"));
const THIRD: (&str, &str) = ("c3.", include_str!("set_reference_3.json"));

/// The same of the second format.
const SECOND: (&str, &str) = ("c2.", include_str!("set_reference.json"));

/// What a set of the first format begins with.
const FIRST_PREFIX: &str = "c1.";

/// Most layouts of a set.
pub const LAYOUTS_MAX: usize = 4;

/// From this many characters on an address may be cut off on its way, in messages and by what opens
/// them. Common practice, no source.
pub const ADDRESS_MAX: usize = 2_000;

/// Most characters of a name.
pub const NAME_MAX: usize = 40;

/// A named case with the footroom that it had.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Its name, at most [`NAME_MAX`] characters.
    pub name: String,
    /// Least footroom of all runs when the set was written, m.
    pub footroom_m: f64,
    /// The case, without faults.
    pub case: Case,
}

/// A set of layouts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Set {
    /// Version of the model that gave the footrooms.
    pub model: u32,
    /// The layouts, at most [`LAYOUTS_MAX`].
    pub layouts: Vec<Layout>,
}

/// Why a set was refused.
#[derive(Clone, Debug, PartialEq)]
pub enum SetFault {
    /// It cannot be read.
    Link(LinkFault),
    /// A case of it has a fault; its place counts from 0.
    Case {
        /// Which layout.
        layout: usize,
    },
    /// It holds more layouts than [`LAYOUTS_MAX`], or a name is too long.
    TooMany,
}

/// Writes a set, without `#`. `None` when a number is not finite, which no checked case has.
pub fn encode(set: &Set) -> Option<String> {
    let mut writer = Writer::default();
    writer.open('{');
    writer.name("model");
    writer.word(&set.model.to_string());
    writer.name("layouts");
    writer.open('[');
    for layout in &set.layouts {
        writer.open('{');
        writer.name("name");
        writer.text(&layout.name);
        writer.name("footroom_m");
        writer.number(layout.footroom_m);
        writer.name("case");
        case_json::write(&layout.case, &mut writer);
        writer.close('}');
    }
    writer.close(']');
    writer.close('}');
    let mut read = json::read(writer.finish().as_bytes()).ok()?;
    from_json(&read).ok()?;
    let elsewhere = |layout: &Layout| {
        let absorber = layout.case.line.inline_absorber;
        absorber.is_some_and(|a| a.place != InlinePlace::default())
    };
    let shaped = |layout: &Layout| {
        let mut absorbers = layout.case.workers.iter().filter_map(|w| w.gear.absorber);
        absorbers.any(|a| {
            let points = [a.curve_extension_m, a.curve_force_n];
            a.peak.is_some() || points.iter().any(|p| !p.is_empty())
        })
    };
    let free = |layout: &Layout| layout.case.crew_moves != CrewMoves::default();
    let any = |what: &dyn Fn(&Layout) -> bool| set.layouts.iter().any(what);
    let format = if any(&free) {
        say_places(&mut read);
        say_shapes(&mut read);
        say_moves(&mut read);
        PRESENT
    } else if any(&shaped) {
        say_places(&mut read);
        say_shapes(&mut read);
        FIFTH
    } else if any(&elsewhere) {
        say_places(&mut read);
        FOURTH
    } else {
        THIRD
    };
    let differences = layouts_diff::write(&read, &reference(format)?)?;
    Some(link::pack(format.0, &differences))
}

/// Adds to every case of a set how its crew moves where a text leaves it out.
fn say_moves(set: &mut Json) {
    let usual = CREW_MOVES.iter().find(|m| m.1 == CrewMoves::default());
    for case in list(set, "layouts")
        .iter_mut()
        .filter_map(|l| value(l, "case"))
    {
        if let Some((key, _)) = usual {
            say(case, "crew_moves", Kind::Text((*key).to_owned()));
        }
    }
}

/// Adds the place that a text leaves out to every in-line absorber of a set: differences are told of
/// trees that have every leaf.
fn say_places(set: &mut Json) {
    let usual = INLINE_PLACES.iter().find(|p| p.1 == InlinePlace::default());
    for case in list(set, "layouts")
        .iter_mut()
        .filter_map(|l| value(l, "case"))
    {
        let absorber = value(case, "line").and_then(|line| value(line, "inline_absorber"));
        if let (Some(absorber), Some((key, _))) = (absorber, usual) {
            say(absorber, "place", Kind::Text((*key).to_owned()));
        }
    }
}

/// Adds to every personal absorber of a set the peak and the curve that a text leaves out.
fn say_shapes(set: &mut Json) {
    for case in list(set, "layouts")
        .iter_mut()
        .filter_map(|l| value(l, "case"))
    {
        for worker in list(case, "workers") {
            if let Some(absorber) = value(worker, "gear").and_then(|gear| value(gear, "absorber")) {
                say(absorber, "peak", Kind::Null);
                say(absorber, "curve_extension_m", Kind::List(Vec::new()));
                say(absorber, "curve_force_n", Kind::List(Vec::new()));
            }
        }
    }
}

/// Adds an entry to an object that does not have it.
fn say(object: &mut Json, name: &str, kind: Kind) {
    if let Json {
        at,
        kind: Kind::Object(entries),
    } = object
        && !entries.iter().any(|(other, _)| other == name)
    {
        entries.push((name.to_owned(), Json { at: *at, kind }));
    }
}

/// The items of the list called `name` of an object.
fn list<'a>(object: &'a mut Json, name: &str) -> &'a mut [Json] {
    match value(object, name).map(|list| &mut list.kind) {
        Some(Kind::List(items)) => items,
        _ => &mut [],
    }
}

/// The value called `name` of an object.
fn value<'a>(object: &'a mut Json, name: &str) -> Option<&'a mut Json> {
    let Kind::Object(entries) = &mut object.kind else {
        return None;
    };
    let found = entries.iter_mut().find(|(other, _)| other == name);
    found.map(|(_, value)| value)
}

/// The reference of a format as a tree.
fn reference(format: (&str, &str)) -> Option<Json> {
    let mut tree = tree(format.1)?;
    if format.0 == PRESENT.0 {
        say_moves(&mut tree);
    }
    Some(tree)
}

fn tree(reference: &str) -> Option<Json> {
    json::read(reference.trim().as_bytes()).ok()
}

/// Reads a set, with or without its `#`; the notes behind it are for others.
///
/// # Errors
/// The first reason for which it cannot be taken.
pub fn decode(text: &str) -> Result<Set, SetFault> {
    let text = link::halves(text).0;
    let first = text.trim().trim_start_matches('#');
    let set = if first.starts_with(FIRST_PREFIX) {
        let content = link::unpack(FIRST_PREFIX, text).map_err(SetFault::Link)?;
        json::read(&content)
    } else {
        let old = [SECOND, THIRD, FOURTH, FIFTH];
        let format = (old.into_iter())
            .find(|(prefix, _)| first.starts_with(prefix))
            .unwrap_or(PRESENT);
        let content = link::unpack(format.0, text).map_err(SetFault::Link)?;
        differences(&content, format)
    };
    let set = (set.and_then(|json| from_json(&json)))
        .map_err(|fault| SetFault::Link(LinkFault::Content(fault)))?;
    let long = |layout: &Layout| layout.name.chars().count() > NAME_MAX;
    if set.layouts.len() > LAYOUTS_MAX || set.layouts.iter().any(long) {
        return Err(SetFault::TooMany);
    }
    let faulty = |layout: &Layout| !layout.case.faults().is_empty();
    match set.layouts.iter().position(faulty) {
        Some(layout) => Err(SetFault::Case { layout }),
        None => Ok(set),
    }
}

/// Whether a text is the beginning of a set, cut before its point.
pub fn is_beginning(text: &str) -> bool {
    let digits = text.trim().trim_start_matches('#').strip_prefix('c');
    digits.is_some_and(|rest| rest.bytes().all(|b| b.is_ascii_digit()))
}

fn differences(content: &[u8], format: (&str, &str)) -> Result<Json, JsonFault> {
    let fault = |at| JsonFault {
        at,
        reason: Reason::Character,
    };
    let text = core::str::from_utf8(content).map_err(|e| fault(e.valid_up_to() + 1))?;
    layouts_diff::read(text, &reference(format).ok_or_else(|| fault(1))?)
}

fn from_json(json: &Json) -> Result<Set, JsonFault> {
    let mut entries = Entries::of(json)?;
    let model = whole(entries.need("model")?)?;
    let list = entries.need("layouts")?;
    let Kind::List(items) = &list.kind else {
        return Err(expected(list));
    };
    let layouts = (items.iter())
        .map(|item| layout(item, model))
        .collect::<Result<_, _>>()?;
    entries.finish()?;
    Ok(Set { model, layouts })
}

fn layout(json: &Json, model: u32) -> Result<Layout, JsonFault> {
    let mut entries = Entries::of(json)?;
    let name = entries.need("name")?;
    let Kind::Text(text) = &name.kind else {
        return Err(expected(name));
    };
    let layout = Layout {
        name: text.clone(),
        footroom_m: number(entries.need("footroom_m")?)?,
        case: case_json::read(entries.need("case")?, model)?,
    };
    entries.finish()?;
    Ok(layout)
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::say::format::Units;
    use footroom_core::case::{
        Absorber, Allowance, Below, BelowKind, InlineAbsorber, Site, Strengths, Tolerances,
    };
    use footroom_core::check::OWN_QUANTITIES;
    use footroom_core::check::OwnLimit;
    use footroom_core::constants::{FOOT_M, INCH_M, POUND_FORCE_N};
    use footroom_core::curve::{Peak, Points, Shape};
    use footroom_core::demo::demo;
    use footroom_core::rope::CATALOGUE;

    /// Four different layouts of the demonstration.
    pub(crate) fn four() -> Set {
        let named = |name: &str, case: Case| Layout {
            name: name.to_owned(),
            footroom_m: 0.041_734_218_651_2 + case.line.pretension_n * 1.0e-5,
            case,
        };
        let mut open = demo();
        open.line.spans_m = vec![18.0];
        let mut two = demo();
        two.line.spans_m = vec![6.0; 3];
        two.line.pretension_n = 3.6e3;
        two.workers.truncate(2);
        let mut thick = demo();
        thick.line.rope = CATALOGUE[5].rope;
        thick.line.inline_absorber = Some(InlineAbsorber::default());
        thick.workers[1].mass_kg = 118.5;
        Set {
            model: 1,
            layouts: vec![
                named("as planned", demo()),
                named("no post", open),
                named("two posts, two users", two),
                named("thick rope, absorber in the line", thick),
            ],
        }
    }

    #[test]
    fn four_layouts_go_there_and_back_in_less_than_2000_characters() {
        let set = four();
        let text = encode(&set).expect("finite");
        println!(
            "four layouts of the demonstration: {} characters",
            text.len()
        );
        assert!(text.len() < 2_000, "{} characters", text.len());
        assert_eq!(decode(&text), Ok(set.clone()));
        assert_eq!(decode(&format!(" #{text}\n")), Ok(set));
        let empty = Set::default();
        assert_eq!(decode(&encode(&empty).expect("finite")), Ok(empty));
    }

    /// Six over six things in five spans, odd numbers everywhere. `k`: which layout.
    fn crowded(case: &mut Case, k: f64) {
        case.title = format!(
            "Warehouse extension, north side, beam line {k}, pour {}",
            7.0 * k
        );
        case.line.spans_m = (0..5)
            .map(|i| 3.7 + 0.013 * f64::from(i) + 0.11 * k)
            .collect();
        case.workers = (0..6)
            .map(|i| {
                let mut worker = demo().workers[0];
                worker.position_m = 1.13 + 2.71 * f64::from(i) + 0.07 * k;
                worker.mass_kg = 71.3 + 7.9 * f64::from(i) + k;
                worker.gear.length_m = 1.31 + 0.07 * f64::from(i);
                worker
            })
            .collect();
        case.site.below = (0..6)
            .map(|i| Below {
                kind: BelowKind::Stack,
                from_m: 2.93 * f64::from(i),
                to_m: 2.93 * f64::from(i) + 1.87,
                height_m: 0.83 + 0.21 * f64::from(i) + 0.01 * k,
            })
            .collect();
    }

    /// Four unlike crews of six over six unlike things.
    #[test]
    fn four_unlike_crews_stay_within_what_addresses_hold() {
        let mut set = four();
        for (k, layout) in set.layouts.iter_mut().enumerate() {
            crowded(&mut layout.case, k as f64);
            assert!(layout.case.faults().is_empty());
        }
        let text = encode(&set).expect("finite");
        println!("four unlike crews: {} characters", text.len());
        assert!(text.len() < ADDRESS_MAX, "{} characters", text.len());
        assert_eq!(decode(&text), Ok(set));
    }

    /// The longest realistic set: everything is entered, six unlike workers with unlike gear, names as
    /// long as they may be; the four differ in what is weighed in such a job: spans, pretension, rope,
    /// absorber, height, posts, tiebacks, and where everybody stands.
    #[test]
    fn the_longest_realistic_set_stays_within_what_addresses_hold() {
        for units in [Units::Metric, Units::Us] {
            // As typed: metres with three digits, or halves of an inch.
            let m = |metres: f64| match units {
                Units::Metric => (metres * 1.0e3).round() / 1.0e3,
                Units::Us => {
                    let feet = (metres / FOOT_M).floor();
                    feet * FOOT_M + ((metres - feet * FOOT_M) / INCH_M * 2.0).round() / 2.0 * INCH_M
                }
            };
            let n = |newtons: f64| match units {
                Units::Metric => newtons.round(),
                Units::Us => (newtons / POUND_FORCE_N).round() * POUND_FORCE_N,
            };
            let layouts = (0..4).map(|k| {
                let mut case = full(&m, &n);
                let k_m = f64::from(k);
                case.line.spans_m = (0..=k + 1)
                    .map(|i| m(22.0 / f64::from(k + 2) + 0.11 * f64::from(i)))
                    .collect();
                case.line.pretension_n = n(4_400.0 + 731.0 * k_m);
                case.line.height_above_beam_m = m(1.31 + 0.12 * k_m);
                case.line.rope = CATALOGUE[k as usize].rope;
                case.line.inline_absorber = (k % 2 == 1).then(|| InlineAbsorber {
                    yield_force_n: n(9_300.0 + 410.0 * k_m),
                    max_extension_m: m(0.91),
                    ..InlineAbsorber::default()
                });
                for (i, worker) in case.workers.iter_mut().enumerate() {
                    worker.position_m = m(1.73 + 3.31 * i as f64 + 0.37 * k_m);
                }
                for post in [&mut case.posts.left, &mut case.posts.right] {
                    let post = post.as_mut().expect("there");
                    post.tieback.as_mut().expect("there").set_back_m = m(1.42 + 0.2 * k_m);
                }
                case.strengths.end_anchorage_n = Some(n(31_000.0 + 900.0 * k_m));
                assert!(case.faults().is_empty(), "{:?}", case.faults());
                Layout {
                    name: format!("Layout {k}: posts nearer together, rope")
                        .chars()
                        .chain(" as it is in the yard".chars())
                        .take(NAME_MAX)
                        .collect(),
                    footroom_m: 0.041_734_218_651_2 + 0.123_456_789_012_3 * k_m,
                    case,
                }
            });
            let set = Set {
                model: 7,
                layouts: layouts.collect(),
            };
            let text = encode(&set).expect("finite");
            println!("the longest realistic set: {} characters", text.len());
            assert!(text.len() < ADDRESS_MAX, "{} characters", text.len());
            assert_eq!(decode(&text), Ok(set));
        }
    }

    /// Everything is entered and nothing is as it comes.
    fn full(m: &impl Fn(f64) -> f64, n: &impl Fn(f64) -> f64) -> Case {
        let mut case = demo();
        case.invented = false;
        case.title =
            "Warehouse extension, north side, beam line 4 between axes C and K, third pour"
                .to_owned();
        let kinds = [BelowKind::Stack, BelowKind::Structure, BelowKind::Vehicle];
        case.workers = (0..6)
            .map(|i| {
                let i_m = f64::from(i);
                let mut worker = demo().workers[0];
                worker.offset_along_m = m(0.11 * i_m);
                worker.edge_distance_m = m(0.31 + 0.04 * i_m);
                worker.mass_kg = 71.3 + 7.9 * i_m;
                worker.dring_height_m = m(1.33 + 0.04 * i_m);
                worker.harness_stretch_m = m(0.24 + 0.02 * i_m);
                worker.fall_time_s = (i != 4).then_some(0.3 * i_m);
                worker.gear.length_m = m(1.31 + 0.07 * i_m);
                worker.gear.lock_distance_m = m(0.62 + 0.03 * i_m);
                worker.gear.stiffness_n_per_m = 71_000.0 + 1_300.0 * i_m;
                worker.gear.absorber = Some(Absorber {
                    average_force_n: n(3_700.0 + 130.0 * i_m),
                    maximum_force_n: Some(n(5_100.0 + 90.0 * i_m)),
                    max_extension_m: m(0.97 + 0.05 * i_m),
                    locked_stiffness_n_per_m: 91_000.0,
                    ..Absorber::default()
                });
                worker
            })
            .collect();
        case.site = Site {
            beam_top_m: m(17.43),
            beam_depth_m: m(1.12),
            below: (0..6)
                .map(|i| Below {
                    kind: kinds[i as usize % 3],
                    from_m: m(2.93 * f64::from(i)),
                    to_m: m(2.93 * f64::from(i) + 1.87),
                    height_m: m(0.83 + 0.21 * f64::from(i)),
                })
                .collect(),
            margin_m: m(0.92),
            reach_m: m(1.21),
        };
        for post in [&mut case.posts.left, &mut case.posts.right] {
            post.as_mut().expect("there").bending_stiffness_n_m2 = 512_000.0;
        }
        case.strengths = Strengths {
            termination_efficiency_ratio: 0.9,
            end_anchorage_n: None,
            post_moment_n_m: Some(11_300.0),
            post_compression_n: Some(n(61_000.0)),
            tieback_n: Some(n(42_000.0)),
            tieback_anchorage_n: Some(n(39_000.0)),
            intermediate_post_n: Some(n(17_000.0)),
            intermediate_post_along_n: Some(n(12_000.0)),
            lanyard_n: Some(n(22_400.0)),
            self_retracting_n: Some(n(13_600.0)),
            required_ratio: 2.2,
        };
        case.tolerances = Tolerances {
            mass_ratio: 0.06,
            absorber_force_ratio: 0.08,
            pretension_ratio: 0.12,
            axial_stiffness_ratio: 0.15,
            end_stiffness_ratio: 0.3,
            inline_force_ratio: 0.07,
        };
        case.allowance = Allowance {
            clearance_ratio: 0.05,
            tension_ratio: 0.1,
        };
        case.temperature.today_k = 281.15;
        case.sets.european = true;
        case.own_limits = [
            ("Arrest force, site rule", OWN_QUANTITIES[0].1, n(5_800.0)),
            ("Arrest force, client", OWN_QUANTITIES[0].1, n(4_000.0)),
        ]
        .map(|(label, quantity, limit)| OwnLimit {
            label: label.to_owned(),
            quantity,
            limit,
            reference: "Site safety plan, section 4.2".to_owned(),
        })
        .to_vec();
        case.motion.damping_s = 2.0e-4;
        case.motion.duration_s = 8.0;
        case
    }

    fn fnv(text: &str) -> u64 {
        let mut hash = footroom_core::hash::Hash::default();
        text.bytes().for_each(|byte| hash.byte(byte));
        hash.value()
    }

    /// The reference is one layout of the present shape. Who adds a field to the core needs another
    /// reference with another prefix; these stay, or old links would say something else.
    #[test]
    fn the_reference_has_every_field_and_never_changes() {
        let read = from_json(&reference(PRESENT).expect("JSON")).expect("a set");
        assert_eq!(read.layouts.len(), 1);
        // Every text leaves the right end out, the third format with them.
        let again = case_json::to_text(&read.layouts[0].case).expect("finite");
        let unsaid = |text: &str| text.replace(r#","place":"right""#, "");
        assert!(unsaid(PRESENT.1).contains(&again), "{again}");
        let shape = r#","peak":{"force_n":5000.0,"over_m":0.15},"curve_extension_m":[0.0],"curve_force_n":[4000.0]"#;
        assert_eq!(PRESENT.1.replace(shape, ""), FOURTH.1);
        assert_eq!(unsaid(FOURTH.1), THIRD.1);
        assert_eq!(fnv(PRESENT.1.trim()), 5_449_600_062_615_411_103);
        assert_eq!(fnv(FOURTH.1.trim()), 12_329_382_894_138_638_502);
        assert_eq!(fnv(THIRD.1.trim()), 16_824_625_048_896_059_493);
        assert_eq!(fnv(SECOND.1.trim()), 13_538_318_889_930_195_915);
    }

    /// How the crew of every layout moves comes back; a set where all keep their distances is in the
    /// format that needs no word of it.
    #[test]
    fn how_a_crew_moves_goes_there_and_back() {
        for k in 0..16_usize {
            let mut set = if k % 3 == 0 { shaped() } else { four() };
            let count = set.layouts.len();
            for (i, layout) in set.layouts.iter_mut().enumerate() {
                if k >> i & 1 == 1 {
                    layout.case.crew_moves = CrewMoves::Freely;
                }
            }
            let free = k & ((1 << count) - 1) != 0;
            let text = encode(&set).expect("finite");
            assert_eq!(text.starts_with("c6."), free, "{text}");
            assert_eq!(decode(&text), Ok(set));
        }
    }

    /// Links open for ever: this one was made in the sixth format, when a crew could first move freely.
    #[test]
    fn the_sixth_set_still_opens() {
        let text = include_str!("../../../tests/sixth_set.txt").trim();
        assert!(text.starts_with(PRESENT.0));
        let read = decode(text).expect("the sixth set");
        let moves: Vec<CrewMoves> = read.layouts.iter().map(|l| l.case.crew_moves).collect();
        assert_eq!(moves, [CrewMoves::Freely, CrewMoves::KeepingDistances]);
        assert_eq!(read.layouts[1].case.workers[1].gear.absorber, None);
        // Kept on in a link of today, it is the same to the letter.
        assert_eq!(encode(&read).as_deref(), Some(text));
    }

    fn places_of(set: &Set) -> Vec<Option<InlinePlace>> {
        let absorbers = set.layouts.iter().map(|l| l.case.line.inline_absorber);
        absorbers.map(|a| a.map(|a| a.place)).collect()
    }

    /// Every place of every layout comes back; a set that needs no place is still in the third format.
    #[test]
    fn every_place_of_an_absorber_goes_there_and_back() {
        let places =
            [None, Some(0), Some(1), Some(2)].map(|i| i.map(|i: usize| INLINE_PLACES[i].1));
        for k in 0..places.len().pow(4) {
            let mut set = four();
            for (i, layout) in set.layouts.iter_mut().enumerate() {
                let place = places[k / places.len().pow(i as u32) % places.len()];
                layout.case.line.inline_absorber = place.map(|place| InlineAbsorber {
                    place,
                    ..InlineAbsorber::default()
                });
            }
            let plain = |place: &Option<InlinePlace>| place.is_none_or(|p| p == InlinePlace::Right);
            let third = places_of(&set).iter().all(plain);
            let text = encode(&set).expect("finite");
            assert_eq!(text.starts_with("c3."), third, "{text}");
            assert_eq!(text.starts_with("c4."), !third, "{text}");
            assert_eq!(decode(&text), Ok(set));
        }
    }

    /// Peaks and curves come back, beside average ones and gear without an absorber; a set without any is
    /// in the format that needs none.
    #[test]
    fn peaks_and_curves_go_there_and_back() {
        let usual = Absorber::default();
        let shapes = [
            None,
            Some(usual),
            Some(Absorber {
                peak: Some(Peak::default()),
                ..usual
            }),
            Some(Absorber {
                curve_extension_m: Points::of(&[0.0, 0.1, 1.2]),
                curve_force_n: Points::of(&[2_500.0, 4_100.0, 3_900.0]),
                ..usual
            }),
        ];
        for k in 0..shapes.len().pow(3) {
            let mut set = four();
            for (i, worker) in set.layouts[1].case.workers.iter_mut().enumerate() {
                worker.gear.absorber = shapes[k / shapes.len().pow(i as u32) % shapes.len()];
            }
            let workers = &set.layouts[1].case.workers;
            let shaped = workers.iter().filter_map(|w| w.gear.absorber);
            let shaped = shaped.filter(|a| a.shape() != Shape::Average).count() > 0;
            let text = encode(&set).expect("finite");
            assert_eq!(text.starts_with("c5."), shaped, "{text}");
            assert_eq!(text.starts_with("c3."), !shaped, "{text}");
            assert_eq!(decode(&text), Ok(set));
        }
    }

    /// Two layouts: a peak, and a curve beside gear with an average and gear without an absorber.
    fn shaped() -> Set {
        let mut set = four();
        set.model = 7;
        set.layouts.truncate(2);
        for worker in &mut set.layouts[0].case.workers {
            let absorber = worker.gear.absorber.as_mut().expect("there");
            absorber.peak = Some(Peak {
                force_n: 5_600.0,
                over_m: 0.12,
            });
        }
        let workers = &mut set.layouts[1].case.workers;
        let absorber = workers[0].gear.absorber.as_mut().expect("there");
        absorber.curve_extension_m = Points::of(&[0.0, 0.05, 0.3, 1.1]);
        absorber.curve_force_n = Points::of(&[2_300.0, 5_100.0, 3_700.0, 3_900.0]);
        workers[1].gear.absorber = None;
        set
    }

    /// Links open for ever: this one was made in the fifth format, when curves first travelled.
    #[test]
    fn the_fifth_set_still_opens() {
        let text = include_str!("../../../tests/fifth_set.txt").trim();
        assert!(text.starts_with(FIFTH.0));
        let read = decode(text).expect("the fifth set");
        let (told, expected) = (
            &read.layouts[1].case.workers,
            &shaped().layouts[1].case.workers,
        );
        // The demonstration itself may change.
        assert_eq!(told[0].gear, expected[0].gear);
        assert_eq!(told[1].gear.absorber, None);
        let peaks = read.layouts[0]
            .case
            .workers
            .iter()
            .map(|w| w.gear.absorber.and_then(|a| a.peak));
        assert!(peaks.eq([Some(Peak {
            force_n: 5_600.0,
            over_m: 0.12
        }); 3]));
        // Kept on in a link of today, it is the same to the letter.
        assert_eq!(encode(&read).as_deref(), Some(text));
    }

    /// Old links open for ever: this one was made in the third format, before absorbers had a place.
    #[test]
    fn the_third_set_still_opens() {
        let text = include_str!("../../../tests/third_set.txt").trim();
        assert!(text.starts_with(THIRD.0));
        let read = decode(text).expect("the third set");
        assert_eq!(read, four());
        let right = Some(InlinePlace::Right);
        assert_eq!(places_of(&read), [None, None, None, right]);
        // Kept on in a link of today, it is the same to the letter.
        assert_eq!(encode(&read).as_deref(), Some(text));
    }

    /// A place that is none is refused.
    #[test]
    fn a_place_that_is_none_is_refused() {
        let mut set = four();
        set.layouts.truncate(1);
        set.layouts[0].case.line.inline_absorber = Some(InlineAbsorber {
            place: InlinePlace::Both,
            ..InlineAbsorber::default()
        });
        let content = link::unpack(FOURTH.0, &encode(&set).expect("finite")).expect("packed");
        let text = String::from_utf8(content).expect("a text");
        assert!(text.contains("\"both\""), "{text}");
        let other = text.replace("\"both\"", "\"middle\"");
        let read = decode(&link::pack(FOURTH.0, &other));
        assert!(
            matches!(read, Err(SetFault::Link(LinkFault::Content(_)))),
            "{read:?}"
        );
    }

    /// Old links open for ever: this one was made in the second format, of the same set.
    #[test]
    fn the_second_set_still_opens() {
        let [first, second] = [
            include_str!("../../../tests/first_set.txt").trim(),
            include_str!("../../../tests/second_set.txt").trim(),
        ];
        assert!(second.starts_with(SECOND.0));
        let read = decode(second).expect("the second set");
        assert_eq!(read, decode(first).expect("the first set"));
        assert_eq!(read.layouts[0].case.strengths.lanyard_n, None);
        // Kept on in a link of today, it still means that.
        let again = encode(&read).expect("finite");
        assert!(again.starts_with(THIRD.0));
        assert_eq!(decode(&again), Ok(read));
    }

    /// Old links open for ever: this one was made when layouts first travelled.
    #[test]
    fn the_first_set_still_opens() {
        let read =
            decode(include_str!("../../../tests/first_set.txt").trim()).expect("the first set");
        assert_eq!(read.layouts.len(), 4);
        assert_eq!(read.layouts[3].name, "thick rope, absorber in the line");
        // The case of each is what the core reads in the text, of which nothing is left out.
        let text = include_str!("../../../tests/first_set.txt").trim();
        let content = link::unpack(FIRST_PREFIX, text).expect("the first set");
        let json: serde_json::Value = serde_json::from_slice(&content).expect("JSON");
        for (i, layout) in read.layouts.iter().enumerate() {
            let told = &json["layouts"][i];
            let case = serde_json::from_value(told["case"].clone()).expect("a case");
            assert_eq!(layout.case, case);
            assert_eq!(Some(layout.footroom_m), told["footroom_m"].as_f64());
            assert_eq!(layout.case.tolerances.absorber_force_ratio, 0.0);
        }
    }

    /// A set of an older model means by what it leaves out what it meant then.
    #[test]
    fn what_is_left_out_has_the_default_of_its_model() {
        for (model, ratio) in [(5, 0.0), (6, 0.15)] {
            let json = format!(
                r#"{{"model":{model},"layouts":[{{"name":"a","footroom_m":0,"case":{{"workers":[{{}}]}}}}]}}"#
            );
            let read = decode(&link::pack(FIRST_PREFIX, &json)).expect("readable");
            let tolerances = read.layouts[0].case.tolerances;
            assert_eq!(tolerances.absorber_force_ratio, ratio);
        }
    }

    #[test]
    fn every_cut_is_noticed_and_refusals_name_their_reason() {
        let text = encode(&four()).expect("finite");
        for end in 0..text.len() {
            assert!(decode(&text[..end]).is_err(), "cut at {end}");
        }
        let fault = |text: &str| decode(text).expect_err(text);
        assert_eq!(fault("hello"), SetFault::Link(LinkFault::Foreign));
        assert_eq!(fault(""), SetFault::Link(LinkFault::Truncated));
        let version = LinkFault::Version {
            version: "7".into(),
        };
        assert_eq!(fault("c7.abc"), SetFault::Link(version));
        assert_eq!(fault("v1.abc"), SetFault::Link(LinkFault::Foreign));
        let mut many = four();
        many.layouts.push(many.layouts[0].clone());
        assert_eq!(fault(&encode(&many).expect("finite")), SetFault::TooMany);
        let mut named = four();
        named.layouts[2].name = "x".repeat(NAME_MAX + 1);
        assert_eq!(fault(&encode(&named).expect("finite")), SetFault::TooMany);
        let mut faulty = four();
        faulty.layouts[1].case.workers.clear();
        let faulty = encode(&faulty).expect("finite");
        assert_eq!(fault(&faulty), SetFault::Case { layout: 1 });
        let mut infinite = four();
        infinite.layouts[0].footroom_m = f64::NAN;
        assert_eq!(encode(&infinite), None);
    }

    #[test]
    fn differences_are_read_strictly() {
        // Past the end, no letter, no number, a text without an end, too many layouts.
        for text in ["zzzzzzzz5", "1", "A", "A^", "CB\"x", "BA99999", "B9C1.2.3"] {
            for (prefix, _) in [SECOND, THIRD, FOURTH, PRESENT] {
                let read = decode(&link::pack(prefix, text));
                assert!(
                    matches!(
                        read,
                        Err(SetFault::Link(LinkFault::Content(_)) | SetFault::TooMany)
                    ),
                    "{prefix}{text}: {read:?}"
                );
            }
        }
        let strange = base64_packed(&[0xff, 0xfe]);
        assert!(matches!(
            decode(&strange),
            Err(SetFault::Link(LinkFault::Content(_)))
        ));
    }

    fn base64_packed(content: &[u8]) -> String {
        let packed = miniz_oxide::deflate::compress_to_vec_zlib(content, 1);
        format!("{}{}", PRESENT.0, crate::wire::base64_url::encode(&packed))
    }

    #[test]
    fn content_is_read_strictly() {
        for json in [
            "{}",
            "[]",
            "{\"model\":1}",
            "{\"model\":1.5,\"layouts\":[]}",
            "{\"model\":1,\"layouts\":{}}",
            "{\"model\":1,\"layouts\":[{}]}",
            "{\"model\":1,\"layouts\":[],\"more\":1}",
            "{\"model\":1,\"layouts\":[{\"name\":1,\"footroom_m\":1,\"case\":{}}]}",
        ] {
            let read = decode(&link::pack(FIRST_PREFIX, json));
            assert!(
                matches!(read, Err(SetFault::Link(LinkFault::Content(_)))),
                "{json}: {read:?}"
            );
        }
    }
}
