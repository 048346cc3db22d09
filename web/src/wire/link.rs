//! The link: a whole case with the answer it gave, in the fragment of an address.
//!
//! `v1.` and then, in URL-safe base64 without padding, a zlib stream (RFC 1950, with its
//! checksum) of the JSON of [`Shared`]. Numbers are written so that they are read back to the
//! last bit. Reading is strict: a link is taken whole or refused with the reason and the place.
//!
//! Behind the case a link may carry what is no matter of the answer, behind a point: a part with a
//! prefix and a checksum of its own, which [`part`] finds for [`crate::page::explain::talk::plan`], and
//! after it small choices, which [`halves`] splits off for [`crate::wire::notes`].

use footroom_core::case::Case;
use miniz_oxide::deflate::compress_to_vec_zlib;

use crate::wire::base64_url;
use crate::wire::case_json::{self, Entries, expected, number};
use crate::wire::inflate::{self, inflate};
use crate::wire::json::{self, JsonFault, Kind, Writer};

/// What every link of the present format begins with.
const PREFIX: &str = "v1.";

/// Most bytes of JSON that a link may hold. The greatest case that passes the check, with all own
/// limits in the longest letters, needs less than a fifth of it.
pub const CONTENT_MAX: usize = 256 * 1024;

/// Most characters of a link: base64 of a stream that deflate could not make any smaller.
pub const LINK_MAX: usize = CONTENT_MAX / 3 * 4 + 1024;

/// Effort of the deflate coder, 0 to 10.
const EFFORT: u8 = 9;

/// What a link carries.
#[derive(Clone, Debug, PartialEq)]
pub struct Shared {
    /// Version of the model that gave the answer.
    pub model: u32,
    /// Fingerprint of the answer, sixteen hexadecimal digits.
    pub fingerprint: String,
    /// Footroom, m.
    pub footroom_m: f64,
    /// Required depth below the line, m.
    pub required_m: f64,
    /// The case.
    pub case: Case,
}

/// Why a link was refused. Places count characters of the link, or bytes of its content, from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinkFault {
    /// It does not begin like a link of this page.
    Foreign,
    /// It is of another format.
    Version {
        /// Its number.
        version: String,
    },
    /// A character that cannot be in a link.
    Character {
        /// Its place in the link.
        at: usize,
    },
    /// It ends too early.
    Truncated,
    /// The compressed stream is damaged.
    Damaged {
        /// Byte of the compressed stream near which it is.
        at: usize,
    },
    /// The checksum does not fit.
    Checksum,
    /// Something follows after the end.
    Trailing,
    /// It holds more than [`CONTENT_MAX`] bytes.
    TooLong,
    /// The content is no JSON, or not that of a case.
    Content(JsonFault),
}

/// Writes a link, without the `#`.
///
/// # Errors
/// `None` when a number of the case is not finite, which no checked case has.
pub fn encode(shared: &Shared) -> Option<String> {
    let json = to_json(shared);
    // What cannot be read back must not be given away: JSON has no infinity.
    let read = json::read(json.as_bytes()).ok()?;
    from_json(&read).ok()?;
    Some(pack(PREFIX, &json))
}

/// Writes what a fragment of the page carries: `prefix`, and the packed text of its content.
pub(crate) fn pack(prefix: &str, json: &str) -> String {
    format!("{prefix}{}", pack_body(json))
}

fn to_json(shared: &Shared) -> String {
    let mut writer = Writer::default();
    writer.open('{');
    write_entries(shared, &mut writer);
    writer.close('}');
    writer.finish()
}

/// Writes the entries of the object that links and files share.
pub(crate) fn write_entries(shared: &Shared, writer: &mut Writer) {
    writer.name("model");
    writer.word(&shared.model.to_string());
    writer.name("fingerprint");
    writer.text(&shared.fingerprint);
    writer.name("footroom_m");
    writer.number(shared.footroom_m);
    writer.name("required_m");
    writer.number(shared.required_m);
    writer.name("case");
    case_json::write(&shared.case, writer);
}

fn from_json(json: &json::Json) -> Result<Shared, JsonFault> {
    read_entries(Entries::of(json)?)
}

/// Reads what [`write_entries`] wrote; nothing else may stand there that was not taken before.
pub(crate) fn read_entries(mut entries: Entries<'_>) -> Result<Shared, JsonFault> {
    let mut take = |name: &'static str| entries.need(name);
    let model = take("model")?;
    let version = number(model)?;
    if version.fract() != 0.0 || !(0.0..=f64::from(u32::MAX)).contains(&version) {
        return Err(expected(model));
    }
    let fingerprint = take("fingerprint")?;
    let Kind::Text(fingerprint) = &fingerprint.kind else {
        return Err(expected(fingerprint));
    };
    let version = version as u32;
    let shared = Shared {
        model: version,
        fingerprint: fingerprint.clone(),
        footroom_m: number(take("footroom_m")?)?,
        required_m: number(take("required_m")?)?,
        case: case_json::read(take("case")?, version)?,
    };
    entries.finish()?;
    Ok(shared)
}

/// Reads a link, with or without its `#`, white space around it ignored.
///
/// # Errors
/// The first reason for which it cannot be taken. The faults of the case itself are for
/// [`Case::faults`].
pub fn decode(link: &str) -> Result<Shared, LinkFault> {
    // What follows after a point, and the notes, are for others.
    let link = halves(link).0;
    let end = behind(link).map_or(link.len(), |(begins, _)| begins - 1);
    let content = unpack(PREFIX, link.get(..end).unwrap_or(link))?;
    json::read(&content)
        .and_then(|json| from_json(&json))
        .map_err(LinkFault::Content)
}

/// Reads back what [`pack`] wrote, with or without its `#`, white space around it ignored.
///
/// # Errors
/// The first reason for which it cannot be unpacked.
pub(crate) fn unpack(prefix: &str, link: &str) -> Result<Vec<u8>, LinkFault> {
    let outer = link.len() - link.trim_start().len();
    let text = link.trim();
    let (text, outer) = match text.strip_prefix('#') {
        Some(rest) => (rest, outer + 1),
        None => (text, outer),
    };
    let body = text
        .strip_prefix(prefix)
        .ok_or_else(|| foreign(prefix, text))?;
    unpack_body(body, outer + prefix.len())
}

/// The part after the case of a link, from the place of its first character, counted from 0;
/// `None`: there is none.
pub fn part(link: &str) -> Option<(usize, &str)> {
    behind(halves(link).0).filter(|(_, part)| !part.is_empty())
}

/// What a link carries, and the small choices at its end, each behind an `&` but the first; empty: there
/// are none.
pub fn halves(link: &str) -> (&str, &str) {
    link.split_once('&').unwrap_or((link, ""))
}

/// All that stands after the case of a link, from its place, counted from 0; `None`: nothing does.
fn behind(link: &str) -> Option<(usize, &str)> {
    // As bytes: a search for a text costs the first module 2 kB.
    let mut places = link.as_bytes().windows(PREFIX.len());
    let begins = places.position(|bytes| bytes == PREFIX.as_bytes())? + PREFIX.len();
    let point = begins + link.get(begins..)?.find('.')?;
    Some((point + 1, link.get(point + 1..)?.trim_end()))
}

/// JSON as a packed text.
pub fn pack_body(json: &str) -> String {
    base64_url::encode(&compress_to_vec_zlib(json.as_bytes(), EFFORT))
}

/// The content of a packed text that begins at a place of the link, counted from 0.
///
/// # Errors
/// The first reason for which it cannot be read.
pub fn unpack_body(body: &str, begins: usize) -> Result<Vec<u8>, LinkFault> {
    if body.len() > LINK_MAX {
        return Err(LinkFault::TooLong);
    }
    let packed = base64_url::decode(body).map_err(|fault| match fault {
        base64_url::Fault::Character(at) => LinkFault::Character {
            at: begins + at + 1,
        },
        base64_url::Fault::Length => LinkFault::Truncated,
    })?;
    inflate(&packed, CONTENT_MAX).map_err(|fault| match fault {
        inflate::Fault::Truncated => LinkFault::Truncated,
        inflate::Fault::Damaged(at) => LinkFault::Damaged { at },
        inflate::Fault::Checksum => LinkFault::Checksum,
        inflate::Fault::Trailing => LinkFault::Trailing,
        inflate::Fault::TooLong => LinkFault::TooLong,
    })
}

/// A link of another format begins with the letter of the prefix, digits and a point.
fn foreign(prefix: &str, text: &str) -> LinkFault {
    let letter = prefix.trim_end_matches(|c: char| !c.is_ascii_alphabetic());
    let version = text.strip_prefix(letter).and_then(|rest| {
        let (digits, _) = rest.split_once('.')?;
        let number = (1..=6).contains(&digits.len()) && digits.bytes().all(|b| b.is_ascii_digit());
        number.then(|| digits.to_owned())
    });
    match version {
        Some(version) => LinkFault::Version { version },
        None if text.is_empty() || prefix.starts_with(text) => LinkFault::Truncated,
        None => LinkFault::Foreign,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wire::json::Reason;
    use base64::Engine;
    use base64::engine::general_purpose::URL_SAFE_NO_PAD;
    use footroom_core::case::{
        Absorber, Allowance, Below, BelowKind, EndPost, Gear, GearKind, INLINE_PLACES,
        InlineAbsorber, Line, Motion, Posts, Site, Strengths, TEXT_MAX, Temperature, Tieback,
        Tolerances, Worker,
    };
    use footroom_core::check::OWN_QUANTITIES;
    use footroom_core::check::{OWN_LIMITS_MAX, OwnLimit, REFERENCE_MAX, Sets};
    use footroom_core::constants::{BELOW_MAX, SPANS_MAX, WORKERS_MAX};
    use footroom_core::curve::{POINTS_MAX, Peak, Points};
    use footroom_core::demo::demo;
    use footroom_core::rope::{Construction, Rope};
    use proptest::prelude::*;
    use proptest::{collection, option, sample};

    fn shared(case: Case) -> Shared {
        Shared {
            model: 1,
            fingerprint: "0123456789abcdef".into(),
            footroom_m: 0.417_3,
            required_m: 5.782_7,
            case,
        }
    }

    fn packed(json: &[u8]) -> String {
        format!(
            "{PREFIX}{}",
            URL_SAFE_NO_PAD.encode(compress_to_vec_zlib(json, 1))
        )
    }

    #[test]
    fn the_demo_goes_there_and_back() {
        let sent = shared(demo());
        let link = encode(&sent).expect("finite");
        assert!(link.len() < 1200, "{} characters", link.len());
        assert_eq!(decode(&link), Ok(sent.clone()));
        assert_eq!(decode(&format!(" #{link}\n")), Ok(sent));
    }

    #[test]
    fn every_cut_and_every_changed_character_is_noticed() {
        let sent = shared(demo());
        let link = encode(&sent).expect("finite");
        for end in 0..link.len() {
            assert!(decode(&link[..end]).is_err(), "cut at {end}");
        }
        for at in 0..link.len() {
            for other in ["A", "_", "!", "\u{e9}"] {
                if !link[at..].starts_with(other) {
                    let damaged = format!("{}{other}{}", &link[..at], &link[at + 1..]);
                    // The few bits between the stream and its checksum mean nothing.
                    let read = decode(&damaged);
                    let same = read.as_ref() == Ok(&sent);
                    assert!(read.is_err() || same, "{other} at {at}");
                }
            }
        }
    }

    /// Choices behind the case change nothing of it, whatever they are.
    #[test]
    fn notes_leave_case_and_part_as_they_are() {
        let sent = shared(demo());
        let link = encode(&sent).expect("finite");
        for (behind, has_part, noted) in [
            ("", None, ""),
            (".&draws=7", None, "draws=7"),
            (".t1.ab", Some("t1.ab"), ""),
            (".t1.ab&draws=7&units=us", Some("t1.ab"), "draws=7&units=us"),
            (".&", None, ""),
            (".", None, ""),
            // The room that an address has, where there is no other note.
            ("&room=site", None, "room=site"),
            ("&ro", None, "ro"),
        ] {
            let link = format!("#{link}{behind}");
            assert_eq!(decode(&link).as_ref(), Ok(&sent), "{behind}");
            assert_eq!(part(&link).map(|(_, text)| text), has_part, "{behind}");
            assert_eq!(halves(&link).1, noted, "{behind}");
        }
    }

    #[test]
    fn refusals_name_their_reason() {
        let link = encode(&shared(demo())).expect("finite");
        assert_eq!(decode(""), Err(LinkFault::Truncated));
        assert_eq!(decode("v1"), Err(LinkFault::Truncated));
        assert_eq!(decode("hello"), Err(LinkFault::Foreign));
        let version = LinkFault::Version {
            version: "2".into(),
        };
        assert_eq!(decode("v2.abc"), Err(version));
        assert_eq!(decode("v1.ab*d"), Err(LinkFault::Character { at: 6 }));
        assert_eq!(decode(" #v1.ab*d"), Err(LinkFault::Character { at: 8 }));
        let mut bytes = URL_SAFE_NO_PAD.decode(&link[3..]).expect("base64");
        let again = |bytes: &[u8]| decode(&format!("v1.{}", URL_SAFE_NO_PAD.encode(bytes)));
        assert_eq!(again(&bytes[..bytes.len() - 6]), Err(LinkFault::Truncated));
        bytes.push(0);
        assert_eq!(again(&bytes), Err(LinkFault::Trailing));
        bytes.pop();
        let last = bytes.len() - 1;
        bytes[last] ^= 1;
        assert_eq!(again(&bytes), Err(LinkFault::Checksum));
        bytes[0] = 0;
        assert!(matches!(again(&bytes), Err(LinkFault::Damaged { .. })));
    }

    #[test]
    fn content_is_read_strictly() {
        let good = to_json(&shared(demo()));
        let fault = |json: &str| match decode(&packed(json.as_bytes())) {
            Err(LinkFault::Content(fault)) => (fault.at, fault.reason),
            other => panic!("{other:?}"),
        };
        let once = |from: &str, to: &str| {
            assert!(good.contains(from), "{from}");
            good.replacen(from, to, 1)
        };
        let (at, reason) = fault(&once("\"title\"", "\"titel\""));
        assert_eq!(reason, Reason::Unknown("titel".into()));
        assert!(good[..at].ends_with("\"title\":\""), "{at}");
        let twice = fault(&once("\"model\":1", "\"model\":1,\"model\":1"));
        assert_eq!(twice.1, Reason::Twice("model".into()));
        let missing = fault(&once("\"model\":1,", ""));
        assert_eq!(missing, (1, Reason::Missing("model")));
        let trailing = fault(&format!("{good} {{}}"));
        assert_eq!(trailing, (good.len() + 2, Reason::Trailing));
        assert_eq!(fault(&once("\"model\":1", "\"model\":-1")).1, Reason::Kind);
        assert_eq!(fault(&once("\"model\":1", "\"model\":1.5")).1, Reason::Kind);
        assert_eq!(
            fault(&once("\"model\":1", "\"model\":NaN")).1,
            Reason::Character
        );
        assert_eq!(fault(&once("1.5", "1e999")).1, Reason::Number);
        assert_eq!(fault(&"[".repeat(100_000)).1, Reason::Depth);
        assert_eq!(fault(""), (1, Reason::End));
        assert!(decode(&packed(&[0xff, 0xfe])).is_err());
    }

    /// Old links open for ever: this one was made when the format began.
    #[test]
    fn the_first_link_still_opens() {
        let first = include_str!("../../tests/first_link.txt").trim();
        let read = decode(first).expect("the first link");
        assert_eq!(read.case.title, "Wharf shed, beam B4");
        assert_eq!(read.case.workers.len(), 3);
        assert_eq!(read.case.line.spans_m, [9.0, 9.0]);
        assert!(read.case.faults().is_empty());
    }

    /// What a link leaves out means what it meant: the first one has no tolerances, no strengths, no
    /// posts, and its case is to the last bit what the page of model 5 made of it.
    #[test]
    fn the_first_link_means_what_it_meant() {
        let first = include_str!("../../tests/first_link.txt").trim();
        let read = decode(first).expect("the first link");
        let worker = |position_m| Worker {
            position_m,
            ..Worker::default()
        };
        let stiffness = Some(1.0e6);
        let expected = Case {
            title: "Wharf shed, beam B4".to_owned(),
            invented: true,
            line: Line {
                spans_m: vec![9.0, 9.0],
                left_end_stiffness_n_per_m: stiffness,
                right_end_stiffness_n_per_m: stiffness,
                ..Line::default()
            },
            workers: [11.5, 13.0, 14.5].map(worker).to_vec(),
            site: Site {
                below: vec![Below {
                    kind: BelowKind::Vehicle,
                    from_m: 10.0,
                    to_m: 16.0,
                    height_m: 2.9,
                }],
                ..Site::default()
            },
            tolerances: Tolerances {
                mass_ratio: 0.0,
                absorber_force_ratio: 0.0,
                pretension_ratio: 0.1,
                axial_stiffness_ratio: 0.1,
                end_stiffness_ratio: 0.25,
                inline_force_ratio: 0.1,
            },
            allowance: Allowance {
                clearance_ratio: 0.0,
                tension_ratio: 0.0,
            },
            motion: Motion {
                duration_s: 3.0,
                ..Motion::default()
            },
            ..Case::default()
        };
        assert_eq!(read.case, expected);
        // Kept on in a link of today, it still means that.
        let again = encode(&read).expect("finite");
        assert_eq!(decode(&again), Ok(read));
    }

    /// The same text under two versions of the model: the defaults of the time.
    #[test]
    fn what_is_left_out_has_the_default_of_its_model() {
        let link = |model: u32| {
            let json = format!(
                r#"{{"model":{model},"fingerprint":"0","footroom_m":0,"required_m":0,"case":{{"workers":[{{}}]}}}}"#
            );
            decode(&packed(json.as_bytes())).expect("readable").case
        };
        for model in [0, 1, 5] {
            assert_eq!(link(model).tolerances.absorber_force_ratio, 0.0);
            assert_eq!(link(model).tolerances.mass_ratio, 0.0);
            assert_eq!(link(model).allowance.clearance_ratio, 0.0);
            assert_eq!(link(model).allowance.tension_ratio, 0.0);
        }
        for model in [6, 7] {
            assert_eq!(link(model).tolerances, Tolerances::default());
            assert_eq!(link(model).allowance, Allowance::default());
            assert!(link(model).tolerances.absorber_force_ratio >= 0.15);
        }
    }

    #[test]
    fn hostile_sizes_are_bounded() {
        // A thousandfold bomb, and a link that is long itself.
        assert_eq!(
            decode(&packed(&vec![b' '; 8_000_000])),
            Err(LinkFault::TooLong)
        );
        assert_eq!(
            decode(&format!("v1.{}", "A".repeat(LINK_MAX + 4))),
            Err(LinkFault::TooLong)
        );
        // As many spans as fit: read, and then refused by the check of the case.
        let mut case = demo();
        case.line.spans_m = vec![1.0; 50_000];
        let link = encode(&shared(case)).expect("finite");
        let read = decode(&link).expect("small enough");
        assert!(!read.case.faults().is_empty());
    }

    #[test]
    fn the_greatest_case_fits_well_within_a_link() {
        let mut case = demo();
        case.title = "\u{1d54f}".repeat(TEXT_MAX);
        case.line.spans_m = vec![12.345_678_901_234_5; SPANS_MAX];
        if let Some(absorber) = &mut case.workers[0].gear.absorber {
            let extensions_m: Vec<f64> = (0..POINTS_MAX).map(|i| i as f64 / 13.0).collect();
            absorber.peak = Some(Peak::default());
            absorber.curve_extension_m = Points::of(&extensions_m);
            absorber.curve_force_n = Points::of(&[12.345_678_901_234_5e3; POINTS_MAX]);
        }
        case.workers.resize(WORKERS_MAX, case.workers[0]);
        case.site.below.resize(BELOW_MAX, case.site.below[0]);
        case.own_limits = vec![
            OwnLimit {
                label: "\u{1d54f}".repeat(TEXT_MAX),
                quantity: OWN_QUANTITIES[2].1,
                limit: 12.345_678_901_234_5,
                reference: "\u{1d54f}".repeat(REFERENCE_MAX),
            };
            OWN_LIMITS_MAX
        ];
        assert!(case.faults().is_empty());
        let json = to_json(&shared(case.clone()));
        assert!(json.len() < CONTENT_MAX / 5, "{} bytes", json.len());
        let link = encode(&shared(case.clone())).expect("finite");
        assert_eq!(decode(&link).map(|s| s.case), Ok(case));
    }

    /// A case without a curve is told as before there were any, so that older pages open it too.
    #[test]
    fn a_case_without_a_curve_says_nothing_of_one() {
        let json = to_json(&shared(demo()));
        assert!(!json.contains("curve") && !json.contains("peak"));
        let mut case = demo();
        if let Some(absorber) = &mut case.workers[1].gear.absorber {
            absorber.curve_extension_m = Points::of(&[0.0, 0.2, 1.1]);
            absorber.curve_force_n = Points::of(&[3e3, 5e3, 4e3]);
        }
        let sent = shared(case);
        assert!(to_json(&sent).contains("\"curve_force_n\":[3000"));
        let link = encode(&sent).expect("finite");
        assert_eq!(decode(&link), Ok(sent));
    }

    #[test]
    fn infinities_are_not_written() {
        let mut case = demo();
        case.line.pretension_n = f64::INFINITY;
        assert_eq!(encode(&shared(case)), None);
        let mut sent = shared(demo());
        sent.footroom_m = f64::NAN;
        assert_eq!(encode(&sent), None);
    }

    /// Every finite number, with the odd ones often.
    fn number() -> impl Strategy<Value = f64> {
        prop_oneof![
            2 => any::<u64>().prop_map(f64::from_bits).prop_filter("finite", |v| v.is_finite()),
            1 => sample::select(vec![
                0.0, -0.0, f64::MIN_POSITIVE, 5.0e-324, -5.0e-324, f64::MAX, f64::MIN,
                1.0 / 3.0, 0.1, f64::EPSILON, 9_007_199_254_740_993.0, 1.8, 4_400.0,
            ]),
        ]
    }

    #[test]
    fn every_place_of_an_absorber_goes_there_and_back() {
        for (key, place) in INLINE_PLACES {
            let mut case = demo();
            case.line.inline_absorber = Some(InlineAbsorber {
                place,
                ..InlineAbsorber::default()
            });
            let sent = shared(case);
            let link = encode(&sent).expect("finite");
            assert_eq!(decode(&link), Ok(sent), "{key}");
        }
    }

    prop_compose! {
        fn line()(
            spans_m in collection::vec(number(), 0..14),
            n in prop::array::uniform6(number()),
            construction in sample::select(vec![
                Construction::Galvanised7x19, Construction::Stainless7x19,
                Construction::FibreCore6x19, Construction::Own,
            ]),
            breaking_force_n in option::of(number()),
            inline in option::of((number(), number(), sample::select(INLINE_PLACES.to_vec()))),
            ends in prop::array::uniform2(option::of(number())),
        ) -> Line {
            Line {
                spans_m,
                height_above_beam_m: n[0],
                pretension_n: n[1],
                rope: Rope {
                    construction,
                    diameter_m: n[2],
                    axial_stiffness_n: n[3],
                    mass_per_length_kg_per_m: n[4],
                    breaking_force_n,
                },
                inline_absorber: inline.map(|(yield_force_n, max_extension_m, (_, place))| {
                    InlineAbsorber { yield_force_n, max_extension_m, place }
                }),
                left_end_stiffness_n_per_m: ends[0],
                right_end_stiffness_n_per_m: ends[1],
            }
        }
    }

    prop_compose! {
        fn worker()(
            n in prop::array::uniform9(number()),
            fall_time_s in option::of(number()),
            free_fall_m in option::of(number()),
            retracting: bool,
            absorber in option::of((prop::array::uniform3(number()), option::of(number()))),
            peak in option::of((number(), number())),
            curve in prop::array::uniform2(collection::vec(number(), 0..14)),
        ) -> Worker {
            Worker {
                position_m: n[0],
                offset_along_m: n[7],
                edge_distance_m: n[8],
                mass_kg: n[1],
                dring_height_m: n[2],
                harness_stretch_m: n[3],
                fall_time_s,
                gear: Gear {
                    kind: if retracting { GearKind::SelfRetracting } else { GearKind::Lanyard },
                    length_m: n[4],
                    lock_distance_m: n[5],
                    stiffness_n_per_m: n[6],
                    absorber: absorber.map(|(n, maximum_force_n)| Absorber {
                        average_force_n: n[0],
                        maximum_force_n,
                        max_extension_m: n[1],
                        locked_stiffness_n_per_m: n[2],
                        peak: peak.map(|(force_n, over_m)| Peak { force_n, over_m }),
                        curve_extension_m: Points::of(&curve[0]),
                        curve_force_n: Points::of(&curve[1]),
                    }),
                    free_fall_m,
                },
            }
        }
    }

    prop_compose! {
        fn post()(
            bending_stiffness_n_m2 in number(),
            tieback in option::of((number(), number())),
        ) -> EndPost {
            EndPost {
                bending_stiffness_n_m2,
                tieback: tieback.map(|(set_back_m, axial_stiffness_n)| Tieback {
                    set_back_m,
                    axial_stiffness_n,
                }),
            }
        }
    }

    prop_compose! {
        fn own_limit()(
            label in "\\PC{0,20}",
            quantity in sample::select(OWN_QUANTITIES.map(|(_, q)| q).to_vec()),
            limit in number(),
            reference in "\\PC{0,30}",
        ) -> OwnLimit {
            OwnLimit { label, quantity, limit, reference }
        }
    }

    prop_compose! {
        /// All that stands beside line, crew and site.
        fn rest()(
            posts in prop::array::uniform2(option::of(post())),
            known in collection::vec(option::of(number()), 9),
            n in prop::array::uniform12(number()),
            sets in prop::array::uniform2(any::<bool>()),
            own_limits in collection::vec(own_limit(), 0..4),
        ) -> Case {
            Case {
                posts: Posts { left: posts[0], right: posts[1] },
                strengths: Strengths {
                    termination_efficiency_ratio: n[0],
                    end_anchorage_n: known[0],
                    post_moment_n_m: known[1],
                    post_compression_n: known[2],
                    tieback_n: known[3],
                    tieback_anchorage_n: known[4],
                    intermediate_post_n: known[5],
                    intermediate_post_along_n: known[6],
                    lanyard_n: known[7],
                    self_retracting_n: known[8],
                    required_ratio: n[1],
                },
                tolerances: Tolerances {
                    mass_ratio: n[2],
                    absorber_force_ratio: n[3],
                    pretension_ratio: n[4],
                    axial_stiffness_ratio: n[5],
                    end_stiffness_ratio: n[6],
                    inline_force_ratio: n[7],
                },
                allowance: Allowance { clearance_ratio: n[8], tension_ratio: n[9] },
                temperature: Temperature { installed_k: n[10], today_k: n[11] },
                sets: Sets { us: sets[0], european: sets[1] },
                own_limits,
                ..Case::default()
            }
        }
    }

    prop_compose! {
        fn case()(
            rest in rest(),
            title in "\\PC{0,40}",
            invented: bool,
            line in line(),
            workers in collection::vec(worker(), 0..8),
            below in collection::vec((prop::array::uniform3(number()), 0usize..5), 0..14),
            n in prop::array::uniform6(number()),
        ) -> Case {
            let kinds = [
                BelowKind::Vehicle, BelowKind::Structure, BelowKind::Access, BelowKind::Stack,
                BelowKind::Other,
            ];
            Case {
                title,
                invented,
                line,
                workers,
                site: Site {
                    beam_top_m: n[0],
                    beam_depth_m: n[1],
                    below: below.into_iter().map(|(n, kind)| Below {
                        kind: kinds[kind], from_m: n[0], to_m: n[1], height_m: n[2],
                    }).collect(),
                    margin_m: n[2],
                    reach_m: n[3],
                },
                motion: Motion { damping_s: n[4], duration_s: n[5] },
                ..rest
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn every_representable_case_goes_there_and_back(
            case in case(), model: u32, fingerprint in "[0-9a-f]{16}", n in prop::array::uniform2(number())
        ) {
            let sent = Shared { model, fingerprint, footroom_m: n[0], required_m: n[1], case };
            let link = encode(&sent).expect("finite");
            let read = decode(&link).expect("own link");
            // Equality takes -0 for 0; the text of the bits does not.
            prop_assert_eq!(format!("{read:?}"), format!("{sent:?}"));
            prop_assert_eq!(read, sent);
        }

        #[test]
        fn noise_never_panics(text in "\\PC{0,60}", bytes in collection::vec(any::<u8>(), 0..200)) {
            let _ = decode(&text);
            let _ = decode(&format!("v1.{text}"));
            let _ = decode(&format!("v1.{}", URL_SAFE_NO_PAD.encode(&bytes)));
            let _ = decode(&packed(&bytes));
        }

        #[test]
        fn flipped_bits_are_noticed(at in 0usize..10_000, bit in 0u8..8) {
            let link = encode(&shared(demo())).expect("finite");
            let mut bytes = URL_SAFE_NO_PAD.decode(&link[3..]).expect("base64");
            let at = at % bytes.len();
            bytes[at] ^= 1 << bit;
            // The header's hint of the effort means nothing to the reader.
            let damaged = decode(&format!("v1.{}", URL_SAFE_NO_PAD.encode(&bytes)));
            prop_assert!(damaged.is_err() || damaged == Ok(shared(demo())));
        }
    }
}
