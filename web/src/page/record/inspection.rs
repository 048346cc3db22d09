//! What is looked at before the line is used: points in our own words, part by part.
//!
//! The words are in [`crate::say::texts::record`], in the order of [`POINTS`]. A point without a clause
//! is common practice of the trade.

use footroom_core::case::{Case, GearKind, InlinePlace};

use crate::say::faults::Voice;
use crate::say::names::inline_place_name;
use crate::say::texts::record as words;

/// Where a point comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Common practice, no source.
    CommonPractice,
    /// A clause that the checks compare with too.
    Clause(&'static str),
    /// A clause that was not re-read.
    FromMemory(&'static str),
}

/// A part of the line, by its place in the texts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The rope.
    Rope,
    /// Terminations and tensioner.
    Terminations,
    /// End posts.
    EndPosts,
    /// Intermediate posts.
    IntermediatePosts,
    /// Tiebacks, straps and what they are fixed to.
    Tiebacks,
    /// The absorber in the line.
    InlineAbsorber,
    /// Connectors.
    Connectors,
    /// Lanyards and self-retracting lifelines.
    Lanyards,
    /// Harnesses.
    Harness,
    /// The edge, and what is below.
    Below,
    /// Tag, log and plan.
    Records,
}

/// A point to look at.
#[derive(Clone, Copy, Debug)]
pub struct Point {
    /// Its name in files.
    pub key: &'static str,
    /// The part that it belongs to.
    pub part: Part,
    /// Where it comes from.
    pub origin: Origin,
    /// Whether it concerns a case.
    applies: fn(&Case) -> bool,
}

const fn point(key: &'static str, part: Part, origin: Origin) -> Point {
    Point {
        key,
        part,
        origin,
        applies: |_| true,
    }
}

const fn only(point: Point, applies: fn(&Case) -> bool) -> Point {
    Point { applies, ..point }
}

fn has_intermediate(case: &Case) -> bool {
    case.line.spans_m.len() > 1
}

fn has_inline(case: &Case) -> bool {
    case.line.inline_absorber.is_some()
}

fn has_absorbers(case: &Case) -> bool {
    case.workers.iter().any(|w| w.gear.absorber.is_some())
}

fn has_lanyards(case: &Case) -> bool {
    case.workers
        .iter()
        .any(|w| w.gear.kind == GearKind::Lanyard)
}

fn has_retracting(case: &Case) -> bool {
    let retracts = |kind| kind == GearKind::SelfRetracting;
    case.workers.iter().any(|w| retracts(w.gear.kind))
}

/// Anchorages.
const ANCHORAGE: Origin = Origin::Clause("29 CFR 1926.502(d)(15)");
/// No contact with what is below.
const CONTACT: Origin = Origin::Clause("29 CFR 1926.502(d)(16)(iii)");
/// The line under the supervision of a qualified person.
const SYSTEM: Origin = Origin::Clause("29 CFR 1926.502(d)(8)");
/// Prompt rescue.
const RESCUE: Origin = Origin::Clause("29 CFR 1926.502(d)(20)");
/// Lifelines are kept from being cut.
const CUT: Origin = Origin::FromMemory("29 CFR 1926.502(d)(11)");
/// Out of use after a fall.
const AFTER_A_FALL: Origin = Origin::FromMemory("29 CFR 1926.502(d)(19)");
/// Inspected before each use.
const BEFORE_USE: Origin = Origin::FromMemory("29 CFR 1926.502(d)(21)");
const PRACTICE: Origin = Origin::CommonPractice;

/// Every point, part by part.
pub const POINTS: [Point; words::POINTS] = [
    point("rope_wires", Part::Rope, BEFORE_USE),
    point("rope_rust", Part::Rope, BEFORE_USE),
    point("rope_sag", Part::Rope, PRACTICE),
    point("rope_contact", Part::Rope, CUT),
    point("end_grips", Part::Terminations, PRACTICE),
    point("end_thimble", Part::Terminations, PRACTICE),
    point("end_tensioner", Part::Terminations, PRACTICE),
    point("post_foot", Part::EndPosts, ANCHORAGE),
    point("post_straight", Part::EndPosts, PRACTICE),
    only(
        point("middle_guide", Part::IntermediatePosts, PRACTICE),
        has_intermediate,
    ),
    only(
        point("middle_foot", Part::IntermediatePosts, PRACTICE),
        has_intermediate,
    ),
    point("tie_place", Part::Tiebacks, PRACTICE),
    point("tie_straps", Part::Tiebacks, BEFORE_USE),
    point("tie_anchorage", Part::Tiebacks, ANCHORAGE),
    only(
        point("inline_unused", Part::InlineAbsorber, PRACTICE),
        has_inline,
    ),
    only(
        point("inline_free", Part::InlineAbsorber, PRACTICE),
        has_inline,
    ),
    point("connector_gate", Part::Connectors, BEFORE_USE),
    point("connector_match", Part::Connectors, PRACTICE),
    only(
        point("lanyard_pack", Part::Lanyards, BEFORE_USE),
        has_absorbers,
    ),
    only(
        point("lanyard_web", Part::Lanyards, BEFORE_USE),
        has_lanyards,
    ),
    only(
        point("lanyard_length", Part::Lanyards, CONTACT),
        has_lanyards,
    ),
    only(
        point("retracting_lock", Part::Lanyards, PRACTICE),
        has_retracting,
    ),
    point("harness_web", Part::Harness, BEFORE_USE),
    point("harness_fit", Part::Harness, PRACTICE),
    point("after_a_fall", Part::Harness, AFTER_A_FALL),
    point("edge", Part::Below, CUT),
    point("below_same", Part::Below, CONTACT),
    point("below_clear", Part::Below, PRACTICE),
    point("tag", Part::Records, PRACTICE),
    point("users", Part::Records, SYSTEM),
    point("tension_read", Part::Records, PRACTICE),
    point("maker", Part::Records, PRACTICE),
    point("rescue", Part::Records, RESCUE),
];

/// Places in [`POINTS`] of those that concern a case.
pub fn of(case: &Case) -> Vec<usize> {
    let all = POINTS.iter().enumerate();
    all.filter(|(_, p)| (p.applies)(case))
        .map(|(i, _)| i)
        .collect()
}

/// Name of a part, of an in-line absorber with its end where that is not the usual one.
pub fn part_name(voice: Voice, case: &Case, part: Part) -> String {
    let name = voice.record().parts[part as usize];
    let absorber = case
        .line
        .inline_absorber
        .filter(|_| part == Part::InlineAbsorber);
    match absorber.map(|a| a.place) {
        Some(place) if place != InlinePlace::default() => {
            format!("{name} {}", inline_place_name(voice, place))
        }
        _ => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use footroom_core::case::InlineAbsorber;
    use footroom_core::demo::demo;

    fn keys(case: &Case) -> Vec<&'static str> {
        of(case).into_iter().map(|i| POINTS[i].key).collect()
    }

    #[test]
    fn keys_are_unique_and_parts_stand_together() {
        for (i, point) in POINTS.iter().enumerate() {
            assert!(
                POINTS[..i].iter().all(|other| other.key != point.key),
                "{}",
                point.key
            );
        }
        let places: Vec<usize> = POINTS.iter().map(|p| p.part as usize).collect();
        assert!(places.windows(2).all(|pair| pair[0] <= pair[1]));
        let last = places.last().copied();
        assert_eq!(last, Some(words::PARTS - 1));
    }

    #[test]
    fn the_inspection_says_where_the_absorber_in_the_line_is() {
        let names = |place| {
            let mut case = demo();
            case.line.inline_absorber = Some(InlineAbsorber {
                place,
                ..InlineAbsorber::default()
            });
            Voice::ALL.map(|voice| part_name(voice, &case, Part::InlineAbsorber))
        };
        assert_eq!(names(InlinePlace::Right)[0], "in-line absorber");
        assert_eq!(
            names(InlinePlace::Left)[0],
            "in-line absorber at the left end"
        );
        let both = names(InlinePlace::Both);
        assert!(both.iter().any(|n| n == "in-line absorber at both ends"));
        let spanish = "amortiguador de la línea en ambos extremos";
        assert!(both.iter().any(|n| n == spanish));
        let mut case = demo();
        case.line.inline_absorber = Some(InlineAbsorber {
            place: InlinePlace::Both,
            ..InlineAbsorber::default()
        });
        assert_eq!(part_name(Voice::ALL[0], &case, Part::Rope), "rope");
    }

    #[test]
    fn a_case_is_asked_only_for_what_it_has() {
        let mut case = demo();
        assert!(keys(&case).contains(&"middle_guide"));
        assert!(!keys(&case).contains(&"inline_unused"));
        assert!(!keys(&case).contains(&"retracting_lock"));
        case.line.spans_m = vec![12.0];
        case.line.inline_absorber = Some(InlineAbsorber::default());
        for worker in &mut case.workers {
            worker.gear.kind = GearKind::SelfRetracting;
        }
        let found = keys(&case);
        assert!(!found.contains(&"middle_guide") && !found.contains(&"lanyard_web"));
        assert!(found.contains(&"inline_free") && found.contains(&"retracting_lock"));
    }
}
