//! The page's files without a browser: valid markup, every name that refers to something, a label for
//! every control, nothing that the page's policy would block.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use scraper::{ElementRef, Html, Selector};

/// What the build puts into `www/pkg`; it need not be there for these checks.
const MADE: [&str; 6] = [
    "pkg/footroom.js",
    "pkg/footroom_bg.wasm",
    "pkg/office.js",
    "pkg/office_bg.wasm",
    "pkg/planner.js",
    "pkg/planner_bg.wasm",
];

fn www() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../www")
}

fn read(path: &str) -> String {
    std::fs::read_to_string(www().join(path)).unwrap_or_else(|error| panic!("www/{path}: {error}"))
}

fn page() -> Html {
    Html::parse_document(&read("index.html"))
}

fn all<'a>(page: &'a Html, selector: &str) -> Vec<ElementRef<'a>> {
    let selector = Selector::parse(selector).expect("a selector");
    page.select(&selector).collect()
}

/// An element as its opening tag, for messages.
fn shown(element: ElementRef) -> String {
    let html = element.html();
    html.split_inclusive('>')
        .next()
        .unwrap_or_default()
        .to_owned()
}

/// Asserts that a list of complaints is empty.
fn none(what: &str, complaints: &[String]) {
    assert!(
        complaints.is_empty(),
        "{what}:\n  {}",
        complaints.join("\n  ")
    );
}

/// Visible text of an element and of the alternatives of pictures in it.
fn text(element: ElementRef) -> String {
    element.text().collect::<String>().trim().to_owned()
}

fn ids(page: &Html) -> BTreeMap<String, usize> {
    let mut ids = BTreeMap::new();
    for element in all(page, "[id]") {
        let id = element.attr("id").unwrap_or_default().to_owned();
        *ids.entry(id).or_default() += 1;
    }
    ids
}

#[test]
fn the_markup_has_no_parse_error() {
    let page = page();
    let errors: Vec<String> = page.errors.iter().map(|error| error.to_string()).collect();
    none("parse errors in index.html", &errors);
}

#[test]
fn the_document_says_what_it_is() {
    let page = page();
    let one = |selector| assert_eq!(all(&page, selector).len(), 1, "{selector} once");
    for selector in [
        "html[lang]",
        "head > title",
        "head > meta[charset]",
        "head > meta[name=viewport]",
        "head > link[rel=icon]",
        "body[data-state=loading]",
        "main",
        "h1",
        "noscript",
    ] {
        one(selector);
    }
    let mut last = 0;
    for heading in all(&page, "h1, h2, h3, h4, h5, h6") {
        let level: u32 = heading.value().name()[1..].parse().expect("a level");
        assert!(level <= last + 1, "{} follows a h{last}", shown(heading));
        last = level;
    }
}

#[test]
fn ids_are_unique_and_every_reference_to_one_leads_somewhere() {
    let page = page();
    let ids = ids(&page);
    let twice: Vec<String> = ids
        .iter()
        .filter(|&(id, &count)| count > 1 || id.is_empty() || id.contains(' '))
        .map(|(id, count)| format!("{id:?} {count} times"))
        .collect();
    none("ids that are not one name once", &twice);

    let mut lost = Vec::new();
    for attribute in [
        "for",
        "form",
        "list",
        "headers",
        "popovertarget",
        "commandfor",
        "aria-activedescendant",
        "aria-controls",
        "aria-describedby",
        "aria-details",
        "aria-errormessage",
        "aria-labelledby",
        "aria-owns",
    ] {
        for element in all(&page, &format!("[{attribute}]")) {
            let names = element.attr(attribute).unwrap_or_default();
            let lost_here = names.split_whitespace().filter(|id| !ids.contains_key(*id));
            lost.extend(lost_here.map(|id| format!("{id} in {}", shown(element))));
            if names.trim().is_empty() {
                lost.push(format!("nothing in {}", shown(element)));
            }
        }
    }
    for link in all(&page, "a[href^='#']") {
        let id = &link.attr("href").unwrap_or_default()[1..];
        if !ids.contains_key(id) {
            lost.push(format!("{id} in {}", shown(link)));
        }
    }
    none("references to ids that are not there", &lost);
}

#[test]
fn every_control_has_a_label_and_every_picture_an_alternative() {
    let page = page();
    let labelled: BTreeSet<&str> = all(&page, "label[for]")
        .into_iter()
        .filter(|label| !text(*label).is_empty())
        .filter_map(|label| label.attr("for"))
        .collect();
    let named = |element: ElementRef| {
        element
            .attr("aria-label")
            .is_some_and(|label| !label.trim().is_empty())
            || element.attr("aria-labelledby").is_some()
    };
    let mut bare = Vec::new();
    for control in all(&page, "input, select, textarea, output, meter, progress") {
        let kind = control.attr("type").unwrap_or("text");
        if matches!(kind, "hidden" | "submit" | "button" | "reset" | "image") {
            continue;
        }
        let inside_a_label = control
            .ancestors()
            .filter_map(ElementRef::wrap)
            .any(|around| around.value().name() == "label");
        let by_id = control.attr("id").is_some_and(|id| labelled.contains(id));
        // An output may speak for itself in the flow of a sentence.
        let speaks = control.value().name() == "output";
        if !(inside_a_label || by_id || named(control) || speaks) {
            bare.push(shown(control));
        }
    }
    for button in all(&page, "button, summary, a[href], legend, th, caption") {
        let pictures = Selector::parse("img[alt]:not([alt='']), svg[aria-label], svg title")
            .expect("a selector");
        if text(button).is_empty() && !named(button) && button.select(&pictures).next().is_none() {
            bare.push(shown(button));
        }
    }
    for picture in all(&page, "img:not([alt])") {
        bare.push(shown(picture));
    }
    for canvas in all(&page, "canvas") {
        let told =
            named(canvas) || !text(canvas).is_empty() || canvas.attr("aria-hidden") == Some("true");
        if !told {
            bare.push(shown(canvas));
        }
    }
    none("without a name that can be read out", &bare);
}

#[test]
fn nothing_is_inline_that_the_policy_blocks() {
    let page = page();
    let mut blocked: Vec<String> = all(&page, "script:not([src]), style, [style], base")
        .into_iter()
        .map(shown)
        .collect();
    for element in all(&page, "*") {
        let handlers = element.value().attrs().filter(|(name, value)| {
            name.starts_with("on") || value.trim_start().starts_with("javascript:")
        });
        blocked.extend(handlers.map(|(name, _)| format!("{name} in {}", shown(element))));
    }
    none("blocked by the policy", &blocked);
}

#[test]
fn every_file_that_the_page_names_is_there_and_none_is_elsewhere() {
    let page = page();
    let mut lost = Vec::new();
    for attribute in ["href", "src", "poster", "data", "action"] {
        for element in all(&page, &format!("[{attribute}]")) {
            let address = element.attr(attribute).unwrap_or_default();
            check_address("", address, &shown(element), &mut lost);
        }
    }
    none("files that index.html names", &lost);
}

#[test]
fn every_file_that_scripts_and_styles_name_is_there() {
    let mut lost = Vec::new();
    for folder in ["js", "css", ""] {
        let Ok(entries) = std::fs::read_dir(www().join(folder)) else {
            continue;
        };
        for entry in entries {
            let name = entry.expect("an entry").file_name();
            let name = name.to_string_lossy();
            let path = if folder.is_empty() {
                name.to_string()
            } else {
                format!("{folder}/{name}")
            };
            if !(name.ends_with(".js") || name.ends_with(".css")) {
                continue;
            }
            for address in named_in(&read(&path), name.ends_with(".css")) {
                check_address(folder, &address, &path, &mut lost);
            }
        }
    }
    none("files that scripts and styles name", &lost);
}

/// Addresses in the imports of a script, or in `url(...)` and `@import` of a style sheet.
fn named_in(source: &str, style: bool) -> Vec<String> {
    let marks: &[&str] = if style {
        &["url(", "@import "]
    } else {
        &["from ", "import(", "import ", "new Worker(", "new URL("]
    };
    let mut found = Vec::new();
    for mark in marks {
        for (at, _) in source.match_indices(mark) {
            let rest = &source[at + mark.len()..];
            let (quote, rest) = match rest.chars().next() {
                Some(quote @ ('"' | '\'')) => (quote, &rest[1..]),
                _ if *mark == "url(" => (')', rest),
                _ => continue,
            };
            let address = rest.split(quote).next().unwrap_or_default();
            // A path or nothing: what stands in prose after such a word has spaces.
            if !address.contains(char::is_whitespace) {
                found.push(address.to_owned());
            }
        }
    }
    found
}

/// Adds a complaint when `address`, written in a file of `folder`, is no file of the page.
fn check_address(folder: &str, address: &str, place: &str, lost: &mut Vec<String>) {
    if address.starts_with('#') || address.starts_with("data:") || address.starts_with("blob:") {
        return;
    }
    let path = address.split(['?', '#']).next().unwrap_or_default();
    if path.is_empty() || path == "./" {
        return;
    }
    if path.contains(':') || path.starts_with('/') {
        lost.push(format!("{address} in {place} is not relative to the page"));
        return;
    }
    let mut parts: Vec<&str> = folder.split('/').filter(|part| !part.is_empty()).collect();
    for part in path.split('/') {
        match part {
            "." => {}
            ".." => {
                parts.pop();
            }
            name => parts.push(name),
        }
    }
    let path = parts.join("/");
    if !MADE.contains(&path.as_str()) && !www().join(&path).is_file() {
        lost.push(format!("{address} in {place} is not there"));
    }
}

#[test]
fn the_first_view_is_fetched_at_once() {
    let page = page();
    for selector in [
        "link[rel=modulepreload][href='pkg/footroom.js']",
        "link[rel=preload][as=fetch][type='application/wasm'][crossorigin][href='pkg/footroom_bg.wasm']",
    ] {
        assert_eq!(all(&page, selector).len(), 1, "no preload: {selector}");
    }
}

#[test]
fn the_manifest_names_files_that_are_there() {
    let page = page();
    let links = all(&page, "link[rel=manifest]");
    assert_eq!(links.len(), 1, "one manifest");
    let path = links[0].attr("href").unwrap_or_default();
    let manifest: serde_json::Value = serde_json::from_str(&read(path)).expect("a manifest");
    for field in ["name", "short_name", "start_url", "display"] {
        assert!(manifest[field].is_string(), "the manifest has no {field}");
    }
    let icons = manifest["icons"].as_array().expect("a list of icons");
    assert!(!icons.is_empty(), "the manifest has no icon");
    // A picture for devices that take no drawing, and one that may be cut to any shape.
    for (kind, purpose) in [("image/png", "any"), ("image/png", "maskable")] {
        assert!(
            icons
                .iter()
                .any(|icon| icon["type"] == kind && icon["purpose"] == purpose),
            "no {purpose} icon of {kind}"
        );
    }
    let mut lost = Vec::new();
    for icon in icons {
        check_address(
            "",
            icon["src"].as_str().unwrap_or_default(),
            path,
            &mut lost,
        );
    }
    none("icons", &lost);
}

#[test]
fn the_service_worker_can_be_stamped() {
    let worker = read("sw.js");
    for line in ["const VERSION = \"dev\";", "const FILES = [];"] {
        let count = worker.lines().filter(|text| text.trim() == line).count();
        assert_eq!(count, 1, "sw.js needs the line  {line}  once");
    }
}

#[test]
fn no_text_promises_what_no_calculation_can() {
    let page = page();
    // A space between the elements, or the last word of one runs into the first of the next.
    let words = page.root_element().text().collect::<Vec<_>>().join(" ");
    let words = words.to_lowercase();
    let found: Vec<&str> = words
        .split(|letter: char| !letter.is_alphabetic())
        .filter(|word| matches!(*word, "safe" | "safely"))
        .collect();
    assert!(found.is_empty(), "{found:?} in index.html");
}
