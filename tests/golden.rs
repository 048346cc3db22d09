//! Links and files that were given away, frozen as they were written: they open for ever.
//!
//! `reference/golden/N` holds what the page wrote with version N of the model: links and files of
//! typical cases with their answers, a talk, layouts, a site book. No file there is ever changed.
//! Each is opened here by the page's own code and read by a general JSON library beside it: every
//! value has the bits it had, and the answer is the one that it was given away with or, with another
//! version of the model, the page says that the model has changed.
//!
//! A new version of the model has to be frozen once, by
//! `FOOTROOM_RECORD=1 cargo test -p footroom-tests --test golden`, which never writes over a file.

#[path = "support/corpus.rs"]
#[allow(dead_code, reason = "only its cases are frozen here")]
mod corpus;

#[path = "support/finished.rs"]
mod finished;

use std::fs;
use std::path::{Path, PathBuf};

use finished::finish;
use footroom_core::case::{
    Absorber, Below, BelowKind, Case, EndPost, Gear, GearKind, InlineAbsorber, Tieback, Worker,
};
use footroom_core::check::{OwnLimit, OwnQuantity};
use footroom_core::constants::{FOOT_M, MODEL_VERSION, POUND_FORCE_N};
use footroom_core::demo::demo;
use footroom_core::rope::CATALOGUE;
use footroom_web::page::Page;
use footroom_web::page::compare::layouts_link::{self, Layout, Set};
use footroom_web::page::compare::shelf::Shelf;
use footroom_web::page::compare::solved::Solved;
use footroom_web::page::explain::talk::Talk;
use footroom_web::page::explain::talk::plan::Plan;
use footroom_web::page::explain::talk::script::Step;
use footroom_web::page::record::book::{Book, Compared, LogEntry};
use footroom_web::page::record::file::{self, Opened};
use footroom_web::say::faults::Voice;
use footroom_web::say::format::{self, Lang, Rounding, Units};
use footroom_web::wire::case_json;
use footroom_web::wire::link;
use serde_json::{Value, json};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("reference/golden")
}

/// The frozen versions of the model.
fn versions() -> Vec<u32> {
    let entries = fs::read_dir(folder()).expect("the frozen files");
    let names = entries.map(|entry| entry.expect("an entry").file_name());
    let mut versions: Vec<u32> = names
        .map(|name| name.to_string_lossy().parse().expect("a version"))
        .collect();
    versions.sort_unstable();
    versions
}

/// The names of the files of a version with this ending, without it.
fn names(version: u32, ending: &str) -> Vec<String> {
    let entries = fs::read_dir(folder().join(version.to_string())).expect("the version");
    let mut names: Vec<String> = entries
        .filter_map(|entry| {
            let name = entry.expect("an entry").file_name();
            let name = name.to_string_lossy();
            name.strip_suffix(ending).map(str::to_owned)
        })
        .collect();
    names.sort();
    names
}

fn read(version: u32, name: &str) -> String {
    let path = folder().join(version.to_string()).join(name);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{name}: {error}"))
}

fn parsed(text: &str, name: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// That all of `frozen` stands in `now`, numbers to the last bit. What has come since may stand
/// there beside it.
fn holds(frozen: &Value, now: &Value, place: &str) {
    match (frozen, now) {
        (Value::Object(a), Value::Object(b)) => {
            for (name, value) in a {
                let place = format!("{place}.{name}");
                let there = b.get(name).unwrap_or_else(|| panic!("{place} is gone"));
                holds(value, there, &place);
            }
        }
        (Value::Array(a), Value::Array(b)) => {
            assert_eq!(a.len(), b.len(), "{place}");
            for (i, (a, b)) in a.iter().zip(b).enumerate() {
                holds(a, b, &format!("{place}[{i}]"));
            }
        }
        (Value::Number(a), Value::Number(b)) => {
            let bits = |n: &serde_json::Number| n.as_f64().map(f64::to_bits);
            assert_eq!(bits(a), bits(b), "{place}: {a} has become {b}");
        }
        _ => assert_eq!(frozen, now, "{place}"),
    }
}

fn value_of(case: &Case) -> Value {
    parsed(&case_json::to_text(case).expect("finite"), "a case")
}

const VOICES: [(Lang, Units); 2] = [(Lang::En, Units::Us), (Lang::Es, Units::Metric)];

#[test]
fn links_open_with_the_case_and_the_answer_that_they_had() {
    for version in versions() {
        let names = names(version, ".link");
        assert!(names.len() >= 16, "version {version}");
        for name in names {
            let text = read(version, &format!("{name}.link"));
            let frozen = parsed(&read(version, &format!("{name}.json")), &name);
            let shared = link::decode(&text).unwrap_or_else(|fault| panic!("{name}: {fault:?}"));
            holds(&frozen["case"], &value_of(&shared.case), &name);
            assert_eq!(frozen["model"], shared.model, "{name}");
            assert_eq!(shared.model, version, "{name}");
            assert_eq!(frozen["fingerprint"], shared.fingerprint, "{name}");
            for (key, value) in [
                ("footroom_m", shared.footroom_m),
                ("required_m", shared.required_m),
            ] {
                holds(&frozen[key], &json!(value), &format!("{name}.{key}"));
            }
            // Once in each language and units, as it takes an answer each.
            for (lang, units) in VOICES {
                let mut desk = Page::new(lang, units);
                desk.open_link(&text)
                    .unwrap_or_else(|fault| panic!("{name}: {fault}"));
                finish(&mut desk);
                let note = desk.view().shared.expect("it is compared");
                let now = desk.assessment().expect("solved").footroom.value;
                if version == MODEL_VERSION {
                    assert!(note.same, "{name}: {}", note.message);
                    assert_eq!(now.to_bits(), shared.footroom_m.to_bits(), "{name}");
                } else if !note.same {
                    let length = |m| format::length_rounded(units, m, Rounding::Down);
                    let texts = Voice { lang, units }.texts();
                    let said = (texts.say.shared_changed)(&length(shared.footroom_m), &length(now));
                    assert_eq!(note.message, said, "{name}");
                }
            }
        }
    }
}

#[test]
fn case_files_open_as_their_links() {
    for version in versions() {
        for name in names(version, ".link") {
            let text = read(version, &format!("{name}.json"));
            let link = link::decode(&read(version, &format!("{name}.link"))).expect("a link");
            let opened = file::read(text.as_bytes());
            assert_eq!(opened, Ok(Opened::Case(Box::new(link))), "{name}");
        }
    }
}

#[test]
fn a_talk_opens_with_its_plan() {
    for version in versions() {
        let text = read(version, "talk.link");
        let frozen = parsed(&read(version, "talk.plan.json"), "talk");
        let mut talk = Talk::default();
        talk.open_link(&text).expect("a plan");
        let entries = talk.plan().entries();
        let steps: Vec<Value> = (entries.iter())
            .map(|e| json!({"step": e.step.key(), "on": e.on, "say": e.say}))
            .collect();
        // A step that has come since is not shown in an old talk.
        let steps = Value::Array(steps);
        let count = frozen.as_array().expect("a list").len();
        let (then, since) = steps.as_array().expect("a list").split_at(count);
        holds(&frozen, &Value::Array(then.to_vec()), "talk");
        assert!(since.iter().all(|step| step["on"] == false), "{since:?}");
    }
}

#[test]
fn layouts_open_with_the_cases_and_footrooms_that_they_had() {
    for version in versions() {
        let text = read(version, "layouts.txt");
        let frozen = parsed(&read(version, "layouts.values.json"), "layouts");
        let set = layouts_link::decode(&text).expect("a set");
        assert_eq!(set.model, version);
        let now: Vec<Value> = (set.layouts.iter())
            .map(|l| json!({"name": l.name, "footroom_m": l.footroom_m, "case": value_of(&l.case)}))
            .collect();
        holds(&frozen, &Value::Array(now), "layouts");
        let mut shelf = Shelf::open(&text).expect("a set");
        let mut same = true;
        for (i, layout) in set.layouts.iter().enumerate() {
            let numbers = Solved::of(&layout.case).expect("no faults").numbers();
            assert!(shelf.take_in(i, &numbers));
            let answer = footroom_core::assess::assess(&layout.case, Default::default());
            let footroom_m = answer.expect("no faults").footroom.value;
            same &= footroom_m.to_bits() == layout.footroom_m.to_bits();
        }
        assert!(same || version != MODEL_VERSION);
        for (lang, units) in VOICES {
            let voice = Voice { lang, units };
            let note = shelf.view(voice, &set.layouts[0].case).note;
            let said = voice.decide().compare_changed;
            assert_eq!(note, if same { "" } else { said });
        }
    }
}

#[test]
fn site_books_open_with_every_inspection_and_day() {
    for version in versions() {
        let text = read(version, "site.json");
        let Ok(Opened::Site(book)) = file::read(text.as_bytes()) else {
            panic!("no site book");
        };
        let now = parsed(&book.text(), "site");
        holds(&parsed(&text, "site"), &now, "site");
        assert_eq!((book.inspections.len(), book.log.len()), (2, 4));
    }
}

#[test]
fn the_present_model_is_frozen() {
    if std::env::var_os("FOOTROOM_RECORD").is_some() {
        record();
    }
    assert!(
        versions().contains(&MODEL_VERSION),
        "model {MODEL_VERSION} has no frozen links: see tests/golden.rs"
    );
}

// ---- what is frozen -----------------------------------------------------------------------------

/// Typical cases, by the names of their files.
fn cases() -> Vec<(&'static str, Case)> {
    let mut cases = vec![("demo", demo())];
    // Lines of one to three spans, with and without in-line absorber, all ropes, lanyards and
    // self-retracting lifelines, with and without absorber, together and one after another.
    for (name, number) in [
        ("corpus-3", 3),
        ("corpus-17", 17),
        ("corpus-42", 42),
        ("corpus-101", 101),
        ("corpus-200", 200),
        ("corpus-256", 256),
        ("corpus-300", 300),
        ("corpus-411", 411),
        ("corpus-500", 500),
    ] {
        cases.push((name, corpus::case(number)));
    }
    let mut one = demo();
    one.title = "One worker, one span".to_owned();
    one.line.spans_m = vec![12.0];
    one.workers = vec![Worker {
        position_m: 6.0,
        ..Worker::default()
    }];
    one.site.below.clear();
    cases.push(("one", one));

    let mut feet = demo();
    feet.title = "Pier 7, north girder: 3/8 in rope".to_owned();
    feet.line.spans_m = vec![30.0 * FOOT_M, 27.5 * FOOT_M, 15.25 * FOOT_M];
    feet.line.pretension_n = 1_000.0 * POUND_FORCE_N;
    feet.line.height_above_beam_m = 3.5 * FOOT_M;
    for (i, worker) in feet.workers.iter_mut().enumerate() {
        worker.position_m = (12.0 + 16.0 * i as f64) * FOOT_M;
        worker.gear.length_m = 6.0 * FOOT_M;
    }
    cases.push(("feet", feet));

    let mut six = demo();
    six.title = "Losa 3, eje «B»: seis personas, \"todo\" <anotado> & más".to_owned();
    six.line.spans_m = vec![7.5, 9.25, 11.0, 6.125];
    six.line.rope = CATALOGUE[4].rope;
    six.line.rope.breaking_force_n = Some(61.5e3);
    six.line.inline_absorber = Some(InlineAbsorber::default());
    six.workers = (0..6)
        .map(|i| Worker {
            position_m: 2.0 + 5.2 * f64::from(i),
            mass_kg: 71.3 + 7.9 * f64::from(i),
            fall_time_s: (i != 3).then_some(0.17 * f64::from(i)),
            edge_distance_m: 0.3,
            ..Worker::default()
        })
        .collect();
    six.site.below = [
        BelowKind::Vehicle,
        BelowKind::Structure,
        BelowKind::Access,
        BelowKind::Stack,
        BelowKind::Other,
    ]
    .into_iter()
    .enumerate()
    .map(|(i, kind)| Below {
        kind,
        from_m: 5.0 * i as f64,
        to_m: 5.0 * i as f64 + 3.3,
        height_m: 0.4 + 0.3 * i as f64,
    })
    .collect();
    six.posts.left = Some(EndPost {
        tieback: Some(Tieback::default()),
        ..EndPost::default()
    });
    six.strengths.end_anchorage_n = Some(31.0e3);
    six.strengths.post_moment_n_m = Some(24.5e3);
    six.strengths.post_compression_n = Some(80.0e3);
    six.strengths.tieback_n = Some(40.0e3);
    six.strengths.tieback_anchorage_n = Some(38.0e3);
    six.strengths.intermediate_post_n = Some(6.2e3);
    six.tolerances.mass_ratio = 0.05;
    six.tolerances.absorber_force_ratio = 0.1;
    six.allowance.clearance_ratio = 0.05;
    six.allowance.tension_ratio = 0.1;
    six.temperature.installed_k = 293.15;
    six.temperature.today_k = 268.4;
    six.sets.european = true;
    six.own_limits = vec![OwnLimit {
        label: "=site limit, +10 %".to_owned(),
        quantity: OwnQuantity::ArrestForce,
        limit: 4_000.0,
        reference: "Site plan, section 4.2".to_owned(),
    }];
    cases.push(("six", six));

    let mut retracting = demo();
    retracting.title = "Self-retracting, paid out to the side".to_owned();
    for worker in &mut retracting.workers {
        worker.gear = Gear {
            kind: GearKind::SelfRetracting,
            ..Gear::default()
        };
        worker.offset_along_m = 0.4;
    }
    cases.push(("retracting", retracting));

    let mut own = demo();
    own.title = "Absorber of the maker's sheet".to_owned();
    own.workers[1].gear.absorber = Some(Absorber {
        average_force_n: 3_210.0,
        maximum_force_n: Some(5_900.0),
        max_extension_m: 1.1,
        ..Absorber::default()
    });
    own.workers[2].gear.absorber = None;
    own.workers[0].gear.free_fall_m = Some(1.234_567_890_123);
    own.workers[0].harness_stretch_m = 0.1 + 0.2;
    cases.push(("own", own));

    let mut short = demo();
    short.title = "No room".to_owned();
    short.site.beam_top_m = 5.0;
    cases.push(("short", short));
    cases
}

fn entry(date: &str, tension_n: Option<f64>, compared: Compared) -> LogEntry {
    LogEntry {
        job: demo().title,
        date: date.to_owned(),
        name: "R. \"Q\" Núñez".to_owned(),
        temperature_k: Some(283.71),
        weight_n: Some(444.822_161_526_05),
        movement_m: Some(0.052),
        swings: Some(10),
        time_s: Some(4.37),
        tension_n,
        expected_n: Some(4_400.0),
        compared,
        note: "wind from the north; -5 °C".to_owned(),
    }
}

fn book() -> Book {
    let job = demo().title;
    let mut book = Book::default();
    book.sign(&job, "2026-03-04", "N. N.");
    book.look(&job, "rope_rust", "fail", "rust at post 2")
        .expect("a point");
    book.look(&job, "rope_wires", "pass", "").expect("a point");
    book.look(&job, "edge", "", "to be looked at")
        .expect("a point");
    book.look("Pier 7", "rope_wires", "not_applicable", "")
        .expect("a point");
    for entry in [
        entry("2026-03-04", Some(4_312.7), Compared::Within),
        entry("2026-03-05", Some(3_100.0), Compared::Below),
        entry("2026-03-06", Some(6_100.25), Compared::Above),
        entry("2026-03-07", None, Compared::NotTold),
    ] {
        assert!(book.enter(entry));
    }
    book
}

/// The page with a case on it and its whole answer.
fn page(case: &Case, lang: Lang, units: Units) -> Page {
    let mut page = Page::empty(lang, units);
    page.load(case.clone()).expect("a case");
    finish(&mut page);
    page
}

/// Freezes what the present page writes; a file that is there already is left as it is.
fn record() {
    let folder = folder().join(MODEL_VERSION.to_string());
    fs::create_dir_all(&folder).expect("the folder");
    let write = |name: &str, text: &str| {
        let path = folder.join(name);
        if !path.exists() {
            fs::write(path, text).expect(name);
        }
    };
    for (name, case) in cases() {
        assert_eq!(case.faults(), Vec::new(), "{name}");
        let page = page(&case, Lang::En, Units::Metric);
        let shared = page.shared().expect("an answer");
        write(
            &format!("{name}.link"),
            &link::encode(&shared).expect("finite"),
        );
        write(&format!("{name}.json"), &file::case_text(&shared));
    }
    let mut page = page(&demo(), Lang::En, Units::Metric);
    {
        let plan: &mut Plan = page.talk().0.plan_mut();
        plan.say(
            Step::One,
            "One goes over the edge: watch the truck. ¿Quién <ayuda>?",
        );
        plan.set_on(Step::UsedUp, false);
        assert!(plan.shift(Step::All, true, |_| true));
    }
    let entries: Vec<Value> = (page.talk().0.plan().entries().iter())
        .map(|e| json!({"step": e.step.key(), "on": e.on, "say": e.say}))
        .collect();
    let shared = page.shared().expect("an answer");
    write("talk.json", &file::case_text(&shared));
    write("talk.link", &page.link().expect("an answer"));
    write("talk.plan.json", &Value::Array(entries).to_string());
    let all = cases();
    let layouts: Vec<Layout> = ["demo", "one", "feet", "six"]
        .into_iter()
        .map(|name| {
            let (_, case) = all.iter().find(|(n, _)| *n == name).expect("a case");
            let answer = footroom_core::assess::assess(case, Default::default());
            Layout {
                name: format!("{name}, as planned"),
                footroom_m: answer.expect("no faults").footroom.value,
                case: case.clone(),
            }
        })
        .collect();
    let values: Vec<Value> = (layouts.iter())
        .map(|l| json!({"name": l.name, "footroom_m": l.footroom_m, "case": value_of(&l.case)}))
        .collect();
    write("layouts.values.json", &Value::Array(values).to_string());
    let set = Set {
        model: MODEL_VERSION,
        layouts,
    };
    write("layouts.txt", &layouts_link::encode(&set).expect("finite"));
    write("site.json", &book().text());
}
