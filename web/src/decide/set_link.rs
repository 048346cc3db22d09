//! A set of layouts as text: what the browser keeps, and what travels in one link.
//!
//! `c1.` and then packed as the link of one case ([`crate::link`]): the JSON of the set. Reading is
//! as strict: a set is taken whole or refused with the reason and the place.

use footroom_core::case::Case;

use crate::case_json::{self, Entries, expected, number};
use crate::json::{self, Json, JsonFault, Kind, Writer};
use crate::link::{self, LinkFault};

/// What every set of the present format begins with.
const PREFIX: &str = "c1.";

/// Most layouts of a set.
pub const LAYOUTS_MAX: usize = 4;

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
    let text = writer.finish();
    let read = json::read(text.as_bytes()).ok()?;
    from_json(&read).ok()?;
    Some(link::pack(PREFIX, &text))
}

/// Reads a set, with or without its `#`.
///
/// # Errors
/// The first reason for which it cannot be taken.
pub fn decode(text: &str) -> Result<Set, SetFault> {
    let content = link::unpack(PREFIX, text).map_err(SetFault::Link)?;
    let set = json::read(&content)
        .and_then(|json| from_json(&json))
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

fn from_json(json: &Json) -> Result<Set, JsonFault> {
    let mut entries = Entries::of(json)?;
    let model_at = entries.need("model")?;
    let model = number(model_at)?;
    if model.fract() != 0.0 || !(0.0..=f64::from(u32::MAX)).contains(&model) {
        return Err(expected(model_at));
    }
    let list = entries.need("layouts")?;
    let Kind::List(items) = &list.kind else {
        return Err(expected(list));
    };
    let layouts = items.iter().map(layout).collect::<Result<_, _>>()?;
    entries.finish()?;
    Ok(Set {
        model: model as u32,
        layouts,
    })
}

fn layout(json: &Json) -> Result<Layout, JsonFault> {
    let mut entries = Entries::of(json)?;
    let name = entries.need("name")?;
    let Kind::Text(text) = &name.kind else {
        return Err(expected(name));
    };
    let layout = Layout {
        name: text.clone(),
        footroom_m: number(entries.need("footroom_m")?)?,
        case: case_json::read(entries.need("case")?)?,
    };
    entries.finish()?;
    Ok(layout)
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use footroom_core::case::{Below, BelowKind, InlineAbsorber};
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

    /// The longest realistic set: four unlike crews of six over six things, odd numbers everywhere.
    #[test]
    fn the_longest_realistic_set_stays_within_what_addresses_hold() {
        let mut set = four();
        for (k, layout) in set.layouts.iter_mut().enumerate() {
            let case = &mut layout.case;
            case.title = format!(
                "Warehouse extension, north side, beam line {k}, pour {}",
                7 * k
            );
            case.line.spans_m = (0..5)
                .map(|i| 3.7 + 0.013 * f64::from(i) + 0.11 * k as f64)
                .collect();
            case.workers = (0..6)
                .map(|i| {
                    let mut worker = demo().workers[0];
                    worker.position_m = 1.13 + 2.71 * f64::from(i) + 0.07 * k as f64;
                    worker.mass_kg = 71.3 + 7.9 * f64::from(i) + k as f64;
                    worker.gear.length_m = 1.31 + 0.07 * f64::from(i);
                    worker
                })
                .collect();
            case.site.below = (0..6)
                .map(|i| Below {
                    kind: BelowKind::Stack,
                    from_m: 2.93 * f64::from(i),
                    to_m: 2.93 * f64::from(i) + 1.87,
                    height_m: 0.83 + 0.21 * f64::from(i) + 0.01 * k as f64,
                })
                .collect();
            assert!(case.faults().is_empty(), "{:?}", case.faults());
        }
        let text = encode(&set).expect("finite");
        println!("the longest realistic set: {} characters", text.len());
        assert!(text.len() < 6_000, "{} characters", text.len());
        assert_eq!(decode(&text), Ok(set));
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
            version: "2".into(),
        };
        assert_eq!(fault("c2.abc"), SetFault::Link(version));
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
            let read = decode(&link::pack(PREFIX, json));
            assert!(
                matches!(read, Err(SetFault::Link(LinkFault::Content(_)))),
                "{json}: {read:?}"
            );
        }
    }
}
