//! `cargo xtask dist`: the finished site, ready for any host of static files.
//!
//! Script, style and wasm get names that carry a hash of their content, and every reference to them
//! is rewritten, preload links included, so that a host may let browsers keep them for ever. Comments
//! and indentation stay behind ([`lean`]), and what the first view loads is put together ([`bundle`]).
//!
//! The service worker `www/sw.js` keeps its name. It must hold these two lines, as written here; in
//! the page as written they make a worker that stores nothing:
//!
//! ```js
//! const VERSION = "dev";
//! const FILES = [];
//! ```
//!
//! The finished site has in their place a version, which is a hash of all the site's files, and the
//! list of all that is needed without network, as addresses relative to the worker; `"./"` stands
//! for the page itself:
//!
//! ```js
//! const VERSION = "85944171f73967e8";
//! const FILES = ["./", "css/page-0123456789.css", "pkg/footroom_bg-0123456789.wasm"];
//! ```

use anyhow::{Context, Result, bail};

use crate::machine::note;
use crate::refs::{self, Files, extension};
use crate::{bundle, lean, paths, size, wasm};

/// The two lines of the service worker that are rewritten.
const VERSION_LINE: &str = "const VERSION = \"dev\";";
const FILES_LINE: &str = "const FILES = [];";

/// Builds and writes the site to `target/site`.
///
/// # Errors
/// When the build fails, the page or a line of the service worker is missing, or a budget is passed.
pub fn run() -> Result<()> {
    write()?.check()
}

/// As [`run`], but the budget is left to the caller.
///
/// # Errors
/// When the build fails, or the page or a line of the service worker is missing.
pub fn write() -> Result<size::Table> {
    wasm::compile(false)?;
    let written = size::read(&paths::www())?;
    let site = finished(&written)?;

    let folder = paths::site();
    paths::remove_folder(&folder)?;
    for (path, content) in &site {
        let file = folder.join(path);
        if let Some(parent) = file.parent() {
            paths::make_folder(parent)?;
        }
        std::fs::write(&file, content)
            .with_context(|| format!("cannot write {}", paths::shown(&file)))?;
        if compresses(path) {
            std::fs::write(folder.join(format!("{path}.gz")), size::gz(content)?)?;
        }
    }
    note(&format!(
        "{}: {} files, and their .gz beside them",
        paths::shown(&folder),
        site.len()
    ));
    let table = size::table(&folder)?;
    eprint!("{table}");
    Ok(table)
}

/// The files of the site, made of those of the page as written.
fn finished(written: &Files) -> Result<Files> {
    let files: Files = written
        .iter()
        .filter(|(path, _)| belongs(path))
        .map(|(path, content)| (path.clone(), content.clone()))
        .collect();
    let files = bundle::bundled(lean::all(&files)?)?;
    if !files.contains_key("index.html") {
        bail!("there is no www/index.html");
    }
    let names = refs::hashed_names(&files);
    let mut site: Files = files
        .keys()
        .map(|path| {
            let name = names.get(path).unwrap_or(path);
            (name.clone(), refs::rewritten(path, &files, &names))
        })
        .collect();
    if let Some(worker) = site.remove("sw.js") {
        let worker = String::from_utf8(worker).context("www/sw.js is not text")?;
        let stamped = stamp(&worker, &site)?;
        site.insert("sw.js".to_owned(), stamped.into_bytes());
    }
    Ok(site)
}

/// False for what is there for people who write the page, not for its visitors.
fn belongs(path: &str) -> bool {
    !path.ends_with(".d.ts") && !matches!(extension(path), "md" | "map" | "orig" | "gz")
}

/// True for kinds of file that are not compressed already.
pub fn compresses(path: &str) -> bool {
    !matches!(extension(path), "png" | "woff2" | "ico" | "webp")
}

/// The service worker with version and list of files.
fn stamp(worker: &str, site: &Files) -> Result<String> {
    for line in [VERSION_LINE, FILES_LINE] {
        let count = worker.lines().filter(|text| text.trim() == line).count();
        if count != 1 {
            bail!("www/sw.js needs the line  {line}  once, it has it {count} times");
        }
    }
    let mut content = worker.as_bytes().to_vec();
    for (path, bytes) in site {
        content.extend_from_slice(path.as_bytes());
        content.push(0);
        content.extend_from_slice(bytes);
        content.push(0);
    }
    let list: Vec<String> = site
        .keys()
        .map(|path| match path.as_str() {
            "index.html" => "\"./\"".to_owned(),
            path => format!("{path:?}"),
        })
        .collect();
    let version = format!("const VERSION = \"{}\";", refs::hash(&content));
    let files = format!("const FILES = [{}];", list.join(", "));
    Ok(worker
        .replacen(VERSION_LINE, &version, 1)
        .replacen(FILES_LINE, &files, 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(extra: &str) -> Files {
        [
            (
                "index.html",
                "<link rel=\"modulepreload\" href=\"pkg/footroom.js\">\
                 <link rel=\"preload\" href=\"pkg/footroom_bg.wasm\">",
            ),
            (
                "pkg/footroom.js",
                "new URL('footroom_bg.wasm', import.meta.url)",
            ),
            ("pkg/footroom_bg.wasm", extra),
            ("pkg/footroom.d.ts", "export {}"),
            (
                "sw.js",
                "const VERSION = \"dev\";\nconst FILES = [];\nself.a = FILES;\n",
            ),
        ]
        .into_iter()
        .map(|(path, text)| (path.to_owned(), text.as_bytes().to_vec()))
        .collect()
    }

    fn text(site: &Files, path: &str) -> String {
        String::from_utf8(site[path].clone()).unwrap()
    }

    #[test]
    fn every_file_the_site_names_is_in_it() {
        let site = finished(&page("a")).unwrap();
        assert_eq!(site.len(), 4);
        let html = text(&site, "index.html");
        for path in site.keys().filter(|path| path.starts_with("pkg/")) {
            assert!(path.contains('-') && html.contains(path.as_str()), "{path}");
        }
        let worker = text(&site, "sw.js");
        let list = worker.lines().nth(1).unwrap();
        for path in site.keys() {
            let listed = list.contains(&format!("{path:?}"));
            assert_eq!(listed, path.starts_with("pkg/"), "{path}: {list}");
        }
        assert!(list.starts_with("const FILES = [\"./\", "));
    }

    #[test]
    fn a_change_of_any_file_is_a_new_version() {
        let version = |extra| {
            let site = finished(&page(extra)).unwrap();
            text(&site, "sw.js").lines().next().unwrap().to_owned()
        };
        assert_eq!(version("a"), version("a"));
        assert_ne!(version("a"), version("b"));
    }

    #[test]
    fn a_worker_without_the_lines_and_a_page_without_its_html_are_refused() {
        let mut files = page("a");
        files.insert("sw.js".to_owned(), b"const VERSION = 'dev';".to_vec());
        assert!(
            finished(&files)
                .unwrap_err()
                .to_string()
                .contains("VERSION")
        );
        files.remove("index.html");
        assert!(
            finished(&files)
                .unwrap_err()
                .to_string()
                .contains("index.html")
        );
    }
}
