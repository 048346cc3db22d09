//! The files of the core form no circle: whoever reads one finds what it needs below it, never above.
//! Common practice, no source.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

type Rooms = BTreeMap<String, BTreeSet<String>>;

/// The text without its tests, comments and what only its documentation names.
fn code(text: &str) -> String {
    let text = text
        .split("#[cfg(test)]\nmod tests")
        .next()
        .unwrap_or_default();
    let mut lines = text.lines().map(str::trim_start);
    let mut code = String::new();
    while let Some(line) = lines.next() {
        if line.starts_with("#[cfg(doc)]") {
            lines.find(|line| line.ends_with(';'));
        } else if !line.starts_with("//") {
            code.push_str(line);
            code.push('\n');
        }
    }
    code
}

/// The rooms that a text names: the first part of every path from the crate's root.
fn named(text: &str) -> BTreeSet<String> {
    let code = code(text);
    let paths = code.split("crate::").skip(1).map(|rest| {
        let end = rest.find(|c: char| !(c.is_alphanumeric() || c == '_'));
        let name = &rest[..end.unwrap_or(rest.len())];
        assert!(
            !name.is_empty(),
            "a path from the root in braces: {rest:.60}"
        );
        name.to_owned()
    });
    paths.collect()
}

/// Every file directly in a source folder with its own folder, if it has one, and what they name.
fn rooms(folder: &Path) -> Rooms {
    let mut rooms = Rooms::new();
    let mut read = |folder: &Path, room: Option<&str>| {
        for entry in std::fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            let name = path.file_stem().and_then(|n| n.to_str()).expect("a name");
            if path.extension().is_some_and(|e| e == "rs") && !name.ends_with("tests") {
                let text = std::fs::read_to_string(&path).expect("a text");
                let room = room.unwrap_or(name).to_owned();
                rooms.entry(room).or_default().extend(named(&text));
            }
        }
    };
    read(folder, None);
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            let name = path.file_name().and_then(|n| n.to_str());
            read(&path, Some(name.expect("a name")));
        }
    }
    rooms.remove("lib");
    rooms
}

/// What is left when rooms that name no other one are taken away for as long as there are any.
fn circles(mut rooms: Rooms) -> Rooms {
    loop {
        let all: BTreeSet<String> = rooms.keys().cloned().collect();
        for (room, named) in &mut rooms {
            named.retain(|other| other != room && all.contains(other));
        }
        rooms.retain(|_, named| !named.is_empty());
        if rooms.len() == all.len() {
            return rooms;
        }
    }
}

#[test]
fn the_files_of_the_core_form_no_circle() {
    let core = Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/src");
    let rooms = rooms(&core);
    assert!(rooms.len() > 30, "{}", rooms.len());
    assert!(rooms["solve"].contains("arrest") && rooms["arrest"].contains("outcome"));
    let left = circles(rooms);
    assert!(left.is_empty(), "in a circle, or above one: {left:#?}");
}

#[test]
fn a_circle_is_found() {
    let texts = [
        ("a", "use crate::b::B;"),
        ("b", "fn f() { crate::c::g() }"),
        ("c", "// crate::a\n#[cfg(doc)]\nuse crate::a::A;\n"),
    ];
    let mut rooms: Rooms = texts
        .map(|(name, text)| (name.to_owned(), named(text)))
        .into();
    assert!(circles(rooms.clone()).is_empty());
    rooms.insert("c".to_owned(), named("use crate::a::{A, D};"));
    assert_eq!(circles(rooms).len(), 3);
}
