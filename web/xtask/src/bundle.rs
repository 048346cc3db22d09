//! What the first view loads, in few files: on a slow network each request costs as much as 100 kB.
//!
//! The styles that the page links one after another become one. The scripts that its first script
//! imports from its own folder become one as well, each a function that gives what the script exports;
//! under their own names stand scripts that pass that on, for those that are fetched later. Of a form
//! that is not known here nothing is made: the build ends.

use std::collections::BTreeMap;

use anyhow::{Context, Result, bail};

use crate::refs::{self, Files};

const PAGE: &str = "index.html";
const FOLDER: &str = "first/";
const MAIN: &str = "main.js";
/// Made here.
const SHARED: &str = "shared.js";
const SHEET: &str = "first.css";

/// The files of a page, with those of the first view put together. A page without the first script is
/// left as it is.
///
/// # Errors
/// When a script imports or exports in a way that is not known here.
pub fn bundled(files: Files) -> Result<Files> {
    if !files.contains_key(&path_of(MAIN)) || !files.contains_key(PAGE) {
        return Ok(files);
    }
    scripts(styles(files)?)
}

fn path_of(name: &str) -> String {
    format!("{FOLDER}{name}")
}

fn text<'a>(files: &'a Files, path: &str) -> Result<&'a str> {
    let content = files
        .get(path)
        .with_context(|| format!("there is no {path}"))?;
    std::str::from_utf8(content).with_context(|| format!("{path} is not text"))
}

/// Keeps `path` only where another file names it.
fn drop_unless_named(files: &mut Files, path: &str) {
    let named = |other: &String| {
        other != path
            && refs::references(other, files)
                .iter()
                .any(|r| r.target == path)
    };
    if !files.keys().any(named) {
        files.remove(path);
    }
}

/// Puts one line in place of those of `lines` that `taken` takes, at the first of them.
fn in_place(page: &str, taken: impl Fn(&str) -> bool, line: &str) -> String {
    let mut made = String::new();
    let mut done = false;
    for old in page.lines() {
        if taken(old.trim()) {
            if !done {
                made.push_str(line);
                made.push('\n');
            }
            done = true;
        } else {
            made.push_str(old);
            made.push('\n');
        }
    }
    made
}

fn styles(mut files: Files) -> Result<Files> {
    let page = text(&files, PAGE)?.to_owned();
    let linked = |line: &str| {
        let rest = line.strip_prefix("<link rel=\"stylesheet\" href=\"")?;
        Some(rest.strip_suffix("\">")?.to_owned())
            .filter(|path| path.starts_with(FOLDER) && !path.contains('"'))
    };
    let paths: Vec<String> = page
        .lines()
        .filter_map(|line| linked(line.trim()))
        .collect();
    let mut sheet = String::new();
    for path in &paths {
        let style = text(&files, path)?;
        if style.contains("@import") || style.contains("@charset") {
            bail!("{path} cannot be put together with others");
        }
        sheet.push_str(style);
    }
    let line = format!("<link rel=\"stylesheet\" href=\"{FOLDER}{SHEET}\">");
    let page = in_place(&page, |old| linked(old).is_some(), &line);
    files.insert(PAGE.to_owned(), page.into_bytes());
    files.insert(path_of(SHEET), sheet.into_bytes());
    for path in &paths {
        drop_unless_named(&mut files, path);
    }
    Ok(files)
}

/// A script taken apart.
#[derive(Default)]
struct Script {
    /// Names taken from each script beside it, as they stand between the braces.
    takes: Vec<(String, String)>,
    exports: Vec<String>,
    /// Imports from elsewhere, as they are.
    others: Vec<String>,
    body: String,
}

impl Script {
    fn read(path: &str, source: &str) -> Result<Self> {
        let mut script = Script::default();
        for line in source.lines() {
            if line.starts_with("import ") {
                let (names, from) = import(line)
                    .with_context(|| format!("an import of another form in {path}: {line}"))?;
                match from.strip_prefix("./") {
                    Some(beside) if !beside.contains('/') => {
                        script.takes.push((beside.to_owned(), names.to_owned()));
                    }
                    _ => script.others.push(line.to_owned()),
                }
                continue;
            }
            let line = match line.strip_prefix("export ") {
                Some(declared) => {
                    let name = exported(declared)
                        .with_context(|| format!("an export of another form in {path}: {line}"))?;
                    script.exports.push(name.to_owned());
                    declared
                }
                None => line,
            };
            script.body.push_str(line);
            script.body.push('\n');
        }
        Ok(script)
    }

    /// What is taken, from what the scripts give.
    fn taken(&self) -> String {
        let line = |(from, names): &(String, String)| {
            format!(
                "const {{{}}} = {};\n",
                names.replace(" as ", ": "),
                gives(from)
            )
        };
        self.takes.iter().map(line).collect()
    }
}

/// Names and source of `import { names } from "source";`.
fn import(line: &str) -> Option<(&str, &str)> {
    let rest = line.strip_prefix("import {")?;
    let (names, rest) = rest.split_once("} from \"")?;
    Some((names, rest.strip_suffix("\";")?))
}

/// The name that a declaration declares.
fn exported(declared: &str) -> Option<&str> {
    let kinds = ["const ", "function ", "async function ", "class "];
    let rest = kinds.iter().find_map(|kind| declared.strip_prefix(kind))?;
    let end = rest.find(|c: char| !(c.is_ascii_alphanumeric() || c == '_' || c == '$'))?;
    Some(&rest[..end]).filter(|name| !name.is_empty())
}

/// The name of what a script gives.
fn gives(name: &str) -> String {
    format!("${}", name.trim_end_matches(".js").replace('-', "_"))
}

/// Adds a script after those that it takes from.
fn add(
    name: &str,
    files: &Files,
    open: &mut Vec<String>,
    order: &mut Vec<String>,
    scripts: &mut BTreeMap<String, Script>,
) -> Result<()> {
    if open.iter().any(|other| other == name) {
        bail!(
            "scripts of the first view import each other: {}",
            open.join(", ")
        );
    }
    if scripts.contains_key(name) {
        return Ok(());
    }
    let path = path_of(name);
    let script = Script::read(&path, text(files, &path)?)?;
    if name != MAIN && !script.others.is_empty() {
        bail!(
            "{path} imports from another folder: {}",
            script.others.join(" ")
        );
    }
    open.push(name.to_owned());
    for (beside, _) in &script.takes {
        add(beside, files, open, order, scripts)?;
    }
    open.pop();
    scripts.insert(name.to_owned(), script);
    order.push(name.to_owned());
    Ok(())
}

fn scripts(mut files: Files) -> Result<Files> {
    let (mut order, mut scripts) = (Vec::new(), BTreeMap::new());
    add(MAIN, &files, &mut Vec::new(), &mut order, &mut scripts)?;
    order.retain(|name| name != MAIN);

    let mut shared = String::new();
    for name in &order {
        let script = &scripts[name];
        shared.push_str(&format!(
            "export const {} = (() => {{\n{}{}return {{ {} }};\n}})();\n",
            gives(name),
            script.taken(),
            script.body,
            script.exports.join(", ")
        ));
        let passed_on = format!(
            "import {{ {0} }} from \"./{SHARED}\";\nexport const {{ {1} }} = {0};\n",
            gives(name),
            script.exports.join(", ")
        );
        files.insert(path_of(name), passed_on.into_bytes());
    }
    let main = &scripts[MAIN];
    let mut taken: Vec<String> = main.takes.iter().map(|(from, _)| gives(from)).collect();
    taken.sort();
    taken.dedup();
    let main = format!(
        "import {{ {} }} from \"./{SHARED}\";\n{}{}{}",
        taken.join(", "),
        main.others
            .iter()
            .map(|line| format!("{line}\n"))
            .collect::<String>(),
        main.taken(),
        main.body
    );
    files.insert(path_of(SHARED), shared.into_bytes());
    files.insert(path_of(MAIN), main.into_bytes());

    let preload = |path: &str| format!("<link rel=\"modulepreload\" href=\"{path}\">");
    let ours: Vec<String> = order.iter().map(|name| preload(&path_of(name))).collect();
    let taken = |line: &str| ours.iter().any(|one| one == line);
    let page = in_place(text(&files, PAGE)?, taken, &preload(&path_of(SHARED)));
    files.insert(PAGE.to_owned(), page.into_bytes());
    for name in &order {
        drop_unless_named(&mut files, &path_of(name));
    }
    Ok(files)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{lean, paths, size};

    fn page(scripts: &[(&str, &str)]) -> Files {
        let html = "<link rel=\"stylesheet\" href=\"first/a.css\">\n\
            <link rel=\"stylesheet\" href=\"first/b.css\">\n\
            <link rel=\"stylesheet\" href=\"first/print.css\" media=\"print\">\n\
            <link rel=\"modulepreload\" href=\"first/a.js\">\n\
            <link rel=\"modulepreload\" href=\"first/b.js\">\n\
            <link rel=\"modulepreload\" href=\"page/c.js\">\n\
            <script type=\"module\" src=\"first/main.js\"></script>\n";
        let fixed = [
            ("index.html", html),
            ("first/a.css", "a {\ncolor: red;\n}\n"),
            ("first/b.css", "b {\nbackground: url(b.svg);\n}\n"),
            ("first/b.svg", "<svg/>"),
            ("first/print.css", "p {\n}\n"),
            (
                "first/main.js",
                "import { a, b as c } from \"./a.js\";\nimport { B } from \"./b.js\";\n\
                 import { d } from \"../page/c.js\";\nnew B(a, c, d);\nimport(\"../page/e.js\");\n",
            ),
            (
                "first/a.js",
                "export const a = 1;\nexport function b() {}\nconst only = 2;\n",
            ),
            (
                "first/b.js",
                "import { a as one } from \"./a.js\";\nconst only = one;\nexport class B {}\n",
            ),
            ("page/c.js", "export const d = 3;\n"),
            ("page/e.js", "import { b } from \"../first/a.js\";\nb();\n"),
        ];
        let all = fixed.iter().chain(scripts);
        all.map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec()))
            .collect()
    }

    #[test]
    fn the_first_view_has_one_style_and_one_script_beside_its_first() {
        let made = bundled(page(&[])).unwrap();
        let read = |path: &str| text(&made, path).unwrap();
        assert_eq!(
            read("index.html"),
            "<link rel=\"stylesheet\" href=\"first/first.css\">\n\
             <link rel=\"stylesheet\" href=\"first/print.css\" media=\"print\">\n\
             <link rel=\"modulepreload\" href=\"first/shared.js\">\n\
             <link rel=\"modulepreload\" href=\"page/c.js\">\n\
             <script type=\"module\" src=\"first/main.js\"></script>\n"
        );
        assert_eq!(
            read("first/first.css"),
            "a {\ncolor: red;\n}\nb {\nbackground: url(b.svg);\n}\n"
        );
        assert_eq!(
            read("first/shared.js"),
            "export const $a = (() => {\nconst a = 1;\nfunction b() {}\nconst only = 2;\n\
             return { a, b };\n})();\n\
             export const $b = (() => {\nconst { a: one } = $a;\nconst only = one;\nclass B {}\n\
             return { B };\n})();\n"
        );
        assert_eq!(
            read("first/main.js"),
            "import { $a, $b } from \"./shared.js\";\nimport { d } from \"../page/c.js\";\n\
             const { a, b: c } = $a;\nconst { B } = $b;\nnew B(a, c, d);\nimport(\"../page/e.js\");\n"
        );
        // For who comes later; what nobody names is gone.
        assert_eq!(
            read("first/a.js"),
            "import { $a } from \"./shared.js\";\nexport const { a, b } = $a;\n"
        );
        for gone in ["first/b.js", "first/a.css", "first/b.css"] {
            assert!(!made.contains_key(gone), "{gone}");
        }
        assert_eq!(bundled(Files::new()).unwrap(), Files::new());
    }

    #[test]
    fn what_is_not_known_ends_the_build() {
        for (source, why) in [
            ("import * as b from \"./b.js\";\n", "import of another form"),
            ("export let a = 1;\n", "export of another form"),
            ("export { a };\n", "export of another form"),
            ("import { B } from \"./b.js\";\n", "import each other"),
            ("import { d } from \"../page/c.js\";\n", "another folder"),
        ] {
            let error = bundled(page(&[("first/a.js", source)])).unwrap_err();
            assert!(format!("{error:#}").contains(why), "{error:#}");
        }
        let error = bundled(page(&[("first/a.css", "@import \"x.css\";\n")])).unwrap_err();
        assert!(error.to_string().contains("a.css"), "{error:#}");
    }

    /// The page itself: what was linked, preloaded and imported is all in the few files.
    #[test]
    fn the_page_itself_is_put_together() {
        let mut files = size::read(&paths::www()).unwrap();
        files.retain(|path, _| !path.ends_with(".gz") && !path.ends_with(".d.ts"));
        let files = lean::all(&files).unwrap();
        let made = bundled(files.clone()).unwrap();
        let first = |files: &Files| {
            let later = |path: &str| !path.starts_with("pkg/") && path != "sw.js";
            refs::reachable(PAGE, files, &later).len()
        };
        assert!(
            first(&files) > 20 && first(&made) <= 14,
            "{} {}",
            first(&files),
            first(&made)
        );
        let bytes = |files: &Files, end: &str| -> usize {
            let of = files.iter().filter(|(path, _)| path.ends_with(end));
            of.map(|(_, content)| content.len()).sum()
        };
        assert_eq!(bytes(&made, ".css"), bytes(&files, ".css"));
        let whole = [path_of(MAIN), path_of(SHARED), path_of("watch.js")];
        for path in made.keys().filter(|path| path.ends_with(".js")) {
            if path.starts_with(FOLDER) && !whole.contains(path) {
                assert_eq!(text(&made, path).unwrap().lines().count(), 2, "{path}");
            }
        }
    }
}
