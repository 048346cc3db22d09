//! The rooms of `src`: what the first view needs names nothing of the rest, by the sources.
#![cfg(not(target_arch = "wasm32"))]

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

/// Every source below a folder.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
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
        let files = sources(&src().join(room));
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
        for file in sources(&root) {
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
