//! The rooms of `src` and of `www`: what the first view needs names nothing of the rest, and no script
//! needs one that needs it, by the sources.
#![cfg(not(target_arch = "wasm32"))]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Each room with those that it may name beside itself.
const ROOMS: [(&str, &[&str]); 3] = [
    // The keys of kinds and quantities stand with what is typed.
    ("wire", &["say"]),
    ("say", &["wire"]),
    ("first", &["say", "wire"]),
];
/// All rooms, so that a new one is not passed over.
const ALL: [&str; 5] = ["boundary", "first", "page", "say", "wire"];

fn src() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// Every source below a folder, by the ending of its name.
fn sources(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            found.extend(sources(&path, ending));
        } else if path.extension().is_some_and(|found| found == ending) {
            found.push(path);
        }
    }
    found
}

/// The rooms that a source names in its code: `crate::ROOM`.
fn named(source: &str) -> Vec<&'static str> {
    let code: Vec<&str> = source
        .lines()
        .map(|line| line.split("//").next().unwrap_or(line))
        .collect();
    let code = code.join(" ");
    assert!(
        !code.contains("crate::{"),
        "one path a line, so that a room is seen"
    );
    let names = |room: &&&str| {
        let path = format!("crate::{room}");
        code.match_indices(&path).any(|(at, _)| {
            let next = code[at + path.len()..].chars().next();
            !next.is_some_and(|c| c.is_alphanumeric() || c == '_')
        })
    };
    ALL.iter().filter(names).copied().collect()
}

#[test]
fn no_room_names_what_stands_above_it() {
    for (room, below) in ROOMS {
        let files = sources(&src().join(room), "rs");
        assert!(files.len() > 5, "{room}: {}", files.len());
        for file in files {
            let text = fs::read_to_string(&file).expect("a source");
            for other in named(&text) {
                assert!(
                    other == room || below.contains(&other),
                    "{} names {other}",
                    file.display()
                );
            }
        }
    }
}

/// A path that goes up out of its room would not be seen above.
#[test]
fn no_path_climbs_out_of_its_room() {
    for (room, _) in ROOMS {
        let root = src().join(room);
        for file in sources(&root, "rs") {
            let text = fs::read_to_string(&file).expect("a source");
            let inside = file
                .strip_prefix(&root)
                .expect("inside")
                .components()
                .count();
            let climbs = "super::".repeat(inside + 2);
            assert!(!text.contains(&climbs), "{}", file.display());
        }
    }
}

#[test]
fn every_folder_is_a_room() {
    let mut folders: Vec<String> = fs::read_dir(src())
        .expect("src")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.is_dir())
        .map(|path| {
            path.file_name()
                .expect("a name")
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    folders.sort();
    assert_eq!(folders, ALL);
}

#[test]
fn a_name_is_seen_in_code_only() {
    assert_eq!(named("use crate::page::Page; // crate::say\n"), ["page"]);
    assert_eq!(
        named("let x = crate::pages::of(crate::first::view);"),
        ["first"]
    );
}

fn www() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../www")
}

/// The code of a script, without its comments: types are named there.
fn code(script: &str) -> String {
    let mut inside = false;
    let mut code = String::new();
    for line in script.lines() {
        let text = line.trim_start();
        inside |= text.starts_with("/**");
        if !inside && !text.starts_with("//") {
            code.push_str(line);
            code.push('\n');
        }
        if inside && text.contains("*/") {
            inside = false;
        }
    }
    code
}

/// The scripts of the page that each one needs, now or later, by their paths in `www`.
fn needs() -> BTreeMap<String, Vec<String>> {
    let path = |file: &Path| file.strip_prefix(www()).expect("inside").to_owned();
    let scripts = ["first", "page"].map(|room| sources(&www().join(room), "js"));
    let mut needs = BTreeMap::new();
    for file in scripts.concat() {
        let text = code(&fs::read_to_string(&file).expect("a script"));
        let mut found = Vec::new();
        for quoted in text.split('"').skip(1).step_by(2) {
            if !((quoted.starts_with("./") || quoted.starts_with("../")) && quoted.ends_with(".js"))
            {
                continue;
            }
            let mut to = path(file.parent().expect("a folder"));
            for part in quoted.split('/') {
                match part {
                    "." => {}
                    ".." => assert!(to.pop(), "{quoted}"),
                    part => to.push(part),
                }
            }
            if !to.starts_with("pkg") {
                assert!(www().join(&to).exists(), "{}: {quoted}", file.display());
                found.push(to.to_string_lossy().into_owned());
            }
        }
        needs.insert(path(&file).to_string_lossy().into_owned(), found);
    }
    needs
}

/// A circle among them; `None`: there is none.
fn circle(needs: &BTreeMap<String, Vec<String>>) -> Option<Vec<String>> {
    fn go(
        needs: &BTreeMap<String, Vec<String>>,
        way: &mut Vec<String>,
        done: &mut Vec<String>,
        at: &str,
    ) -> bool {
        if done.iter().any(|path| path == at) {
            return false;
        }
        let again = way.iter().any(|path| path == at);
        way.push(at.to_owned());
        if again || needs[at].iter().any(|to| go(needs, way, done, to)) {
            return true;
        }
        way.pop();
        done.push(at.to_owned());
        false
    }
    let mut done = Vec::new();
    needs.keys().find_map(|from| {
        let mut way = Vec::new();
        go(needs, &mut way, &mut done, from).then_some(way)
    })
}

#[test]
fn no_script_needs_one_that_needs_it() {
    let needs = needs();
    assert!(needs.len() > 25 && needs.values().flatten().count() > 60);
    assert_eq!(circle(&needs), None);
    let pair = [("a", "b"), ("b", "c"), ("c", "b")];
    let round = pair.map(|(from, to)| (from.to_owned(), vec![to.to_owned()]));
    assert_eq!(
        circle(&round.into()).expect("there is one").join(" "),
        "a b c b"
    );
}

/// What the first view needs comes before the rest is there. It fetches that from one place.
#[test]
fn a_script_of_the_first_view_fetches_the_rest_from_main_only() {
    for (script, needs) in needs() {
        let outside = needs.iter().any(|to| to.starts_with("page/"));
        let first = script.starts_with("first/");
        assert!(!first || script == "first/main.js" || !outside, "{script}");
    }
}

/// One way to an element by its id, one to the browser's storage. What watches the start needs no
/// other script.
#[test]
fn one_script_reaches_for_elements_and_one_for_storage() {
    let ways = [
        (
            "getElementById(",
            vec!["first/elements.js", "first/watch.js"],
        ),
        ("localStorage", vec!["first/kept.js"]),
        ("sessionStorage", vec!["first/kept.js"]),
    ];
    for (word, expected) in ways {
        let holds = |path: &&String| {
            let text = fs::read_to_string(www().join(path)).expect("a script");
            code(&text).contains(word)
        };
        let needs = needs();
        let found: Vec<&String> = needs.keys().filter(holds).collect();
        assert_eq!(found, expected, "{word}");
    }
}
