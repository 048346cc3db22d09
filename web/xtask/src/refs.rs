//! References between the files of the page: who names whom, and names that carry a hash.

use std::collections::{BTreeMap, BTreeSet};

/// A file of the page by its path relative to the page's folder.
pub type Files = BTreeMap<String, Vec<u8>>;

/// A place in a file that names another file of the page.
#[derive(Debug, PartialEq)]
pub struct Reference {
    /// Where the last part of the path stands, in bytes of the text.
    pub name: std::ops::Range<usize>,
    /// The file named, relative to the page's folder.
    pub target: String,
    /// True for `import("...")`: loaded when it is wanted, not with the page.
    pub lazy: bool,
}

/// 64-bit FNV-1a of `bytes` as 16 hexadecimal digits. It names files by content and guards against
/// nothing but chance.
pub fn hash(bytes: &[u8]) -> String {
    let mut state: u64 = 0xcbf2_9ce4_8422_2325;
    for &byte in bytes {
        state = (state ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
    }
    format!("{state:016x}")
}

/// True for the kinds of file that name others.
fn has_references(path: &str) -> bool {
    matches!(extension(path), "html" | "js" | "css")
}

/// What comes after the last dot of the file's name.
pub fn extension(path: &str) -> &str {
    let name = path.rsplit('/').next().unwrap_or(path);
    name.rsplit_once('.').map_or("", |(_, extension)| extension)
}

/// Every reference in the file `path` to one of `files`.
///
/// A reference is a path between two equal quotes, or in `url(...)`, that leads to a file that is
/// there: from the folder of the file that names it, or, for what a script asks of the page, from
/// the page's folder. Text that is no path can therefore not be taken for one.
pub fn references(path: &str, files: &Files) -> Vec<Reference> {
    let Some(text) = files.get(path).filter(|_| has_references(path)) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for start in 1..text.len() {
        let closing = match text[start - 1] {
            quote @ (b'"' | b'\'' | b'`') => quote,
            b'(' if text[..start - 1].ends_with(b"url") => b')',
            _ => continue,
        };
        let rest = &text[start..];
        let length = rest.iter().take_while(|&&byte| is_path_byte(byte)).count();
        if length == 0 || rest.get(length) != Some(&closing) {
            continue;
        }
        let Ok(written) = std::str::from_utf8(&rest[..length]) else {
            continue;
        };
        let bare = written.split(['?', '#']).next().unwrap_or_default();
        let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
        let target = [folder, ""]
            .into_iter()
            .filter_map(|folder| resolve(folder, bare))
            .find(|target| files.contains_key(target));
        if let Some(target) = target {
            let name = bare.rfind('/').map_or(0, |slash| slash + 1);
            found.push(Reference {
                name: start + name..start + bare.len(),
                target,
                lazy: text[..start - 1].trim_ascii_end().ends_with(b"import("),
            });
        }
    }
    found
}

fn is_path_byte(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || b"._-/?#=".contains(&byte)
}

/// `written` as a path from the page's folder, when it stands in `folder`; nothing when it leads out
/// of it or is no file's name.
fn resolve(folder: &str, written: &str) -> Option<String> {
    if written.is_empty() || written.starts_with('/') {
        return None;
    }
    let mut parts: Vec<&str> = folder.split('/').filter(|part| !part.is_empty()).collect();
    for part in written.split('/') {
        match part {
            "." => {}
            ".." => {
                parts.pop()?;
            }
            "" => return None,
            name => parts.push(name),
        }
    }
    Some(parts.join("/"))
}

/// All files that `start` needs, itself included, through references that are not lazy and for which
/// `follow` is true.
pub fn reachable(start: &str, files: &Files, follow: &dyn Fn(&str) -> bool) -> BTreeSet<String> {
    let mut seen = BTreeSet::new();
    let mut open = vec![start.to_owned()];
    while let Some(path) = open.pop() {
        if seen.contains(&path) {
            continue;
        }
        for reference in references(&path, files) {
            if !reference.lazy && follow(&reference.target) {
                open.push(reference.target);
            }
        }
        seen.insert(path);
    }
    seen
}

/// New names for the files that change with the program: script, style and wasm, all but the service
/// worker, whose address must stay. `footroom.js` becomes `footroom-0123456789.js`.
///
/// A file's hash covers all that it refers to, so a change anywhere gives new names up to the page,
/// and files that refer to each other in a circle have one all the same.
pub fn hashed_names(files: &Files) -> BTreeMap<String, String> {
    let mut names = BTreeMap::new();
    for path in files.keys() {
        if !matches!(extension(path), "js" | "css" | "wasm") || path == "sw.js" {
            continue;
        }
        // Lazy references are rewritten as well, so the hash covers them too.
        let mut content = Vec::new();
        let mut seen = BTreeSet::new();
        let mut open = vec![path.clone()];
        while let Some(next) = open.pop() {
            if seen.insert(next.clone()) {
                open.extend(
                    references(&next, files)
                        .into_iter()
                        .map(|found| found.target),
                );
            }
        }
        for path in &seen {
            content.extend_from_slice(path.as_bytes());
            content.push(0);
            content.extend_from_slice(&files[path]);
            content.push(0);
        }
        let digits = &hash(&content)[..10];
        let (stem, extension) = path.rsplit_once('.').unwrap_or((path, ""));
        names.insert(path.clone(), format!("{stem}-{digits}.{extension}"));
    }
    names
}

/// The content of `path` with every reference to a renamed file changed.
pub fn rewritten(path: &str, files: &Files, names: &BTreeMap<String, String>) -> Vec<u8> {
    let text = &files[path];
    let mut result = Vec::with_capacity(text.len());
    let mut done = 0;
    for reference in references(path, files) {
        let Some(new) = names.get(&reference.target) else {
            continue;
        };
        let name = new.rsplit('/').next().unwrap_or(new);
        result.extend_from_slice(&text[done..reference.name.start]);
        result.extend_from_slice(name.as_bytes());
        done = reference.name.end;
    }
    result.extend_from_slice(&text[done..]);
    result
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page() -> Files {
        [
            (
                "index.html",
                r#"<p>it's "main.js"?</p><link href="css/a.css"><script src="./js/main.js">"#,
            ),
            (
                "css/a.css",
                "@import 'b.css'; x { background: url(../i.svg) }",
            ),
            ("css/b.css", ""),
            ("i.svg", ""),
            (
                "js/main.js",
                "// don't\nimport { f } from \"./form.js\";\nimport(\"./late.js\");\n\
                 import init from '../pkg/footroom.js';",
            ),
            (
                "js/form.js",
                "import { m } from './main.js'; const a = \"css/a.css\";",
            ),
            ("js/late.js", ""),
            (
                "pkg/footroom.js",
                "new URL('footroom_bg.wasm', import.meta.url)",
            ),
            ("pkg/footroom_bg.wasm", "\0asm"),
            ("sw.js", ""),
        ]
        .into_iter()
        .map(|(path, text)| (path.to_owned(), text.as_bytes().to_vec()))
        .collect()
    }

    #[test]
    fn the_first_view_needs_what_the_page_reaches_and_not_what_comes_later() {
        let reached = reachable("index.html", &page(), &|_| true);
        let expected = [
            "css/a.css",
            "css/b.css",
            "i.svg",
            "index.html",
            "js/form.js",
            "js/main.js",
            "pkg/footroom.js",
            "pkg/footroom_bg.wasm",
        ];
        assert_eq!(reached.into_iter().collect::<Vec<_>>(), expected);
    }

    #[test]
    fn only_the_references_change() {
        let files = page();
        let names = hashed_names(&files);
        let html = String::from_utf8(rewritten("index.html", &files, &names)).unwrap();
        assert!(html.starts_with("<p>it's \"main.js\"?</p><link href=\"css/a-"));
        assert!(!html.contains("\"./js/main.js\""));
        let glue = String::from_utf8(rewritten("pkg/footroom.js", &files, &names)).unwrap();
        let wasm = names["pkg/footroom_bg.wasm"].strip_prefix("pkg/").unwrap();
        assert_eq!(glue, format!("new URL('{wasm}', import.meta.url)"));
        assert!(!names.contains_key("sw.js") && !names.contains_key("i.svg"));
    }

    #[test]
    fn a_change_below_gives_new_names_above_and_nowhere_else() {
        let before = hashed_names(&page());
        let mut files = page();
        files.insert("pkg/footroom_bg.wasm".to_owned(), b"\0asm1".to_vec());
        let after = hashed_names(&files);
        for path in [
            "pkg/footroom_bg.wasm",
            "pkg/footroom.js",
            "js/main.js",
            "js/form.js",
        ] {
            assert_ne!(before[path], after[path], "{path}");
        }
        for path in ["css/a.css", "css/b.css", "js/late.js"] {
            assert_eq!(before[path], after[path], "{path}");
        }
    }

    #[test]
    fn paths_that_lead_out_are_no_references() {
        assert_eq!(resolve("js", "../pkg/a.js").as_deref(), Some("pkg/a.js"));
        assert_eq!(resolve("", "../a.js"), None);
        assert_eq!(resolve("js", "/a.js"), None);
        assert_eq!(resolve("js", "a//b.js"), None);
    }

    #[test]
    fn the_hash_is_fnv_1a() {
        // Values published with the algorithm.
        assert_eq!(hash(b""), "cbf29ce484222325");
        assert_eq!(hash(b"foobar"), "85944171f73967e8");
    }
}
