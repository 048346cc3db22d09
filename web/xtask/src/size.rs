//! Sizes of the page as a visitor downloads it, and their limits.

use std::fmt;
use std::io::Write;
use std::path::Path;

use anyhow::{Context, Result, bail};
use flate2::Compression;
use flate2::write::GzEncoder;

use crate::refs::{self, Files, extension};
use crate::{bundle, lean, paths};

/// Largest sizes after gzip, in bytes (kB = 1000 bytes): the module that the first view waits for,
/// the one that is fetched after it, the one of the workers, their glue, what is written by hand, and all that the
/// first view loads. See `web/COSTS.md`.
const DESK_LIMIT: usize = 170_000;
const OFFICE_LIMIT: usize = 449_000;
const PLANNER_LIMIT: usize = 257_000;
const GLUE_LIMIT: usize = 17_000;
const OWN_LIMIT: usize = 97_000;
const FIRST_VIEW_LIMIT: usize = 215_000;

/// One line of the table.
struct Row {
    name: &'static str,
    files: usize,
    bytes: usize,
    gz_bytes: usize,
    limit_gz_bytes: usize,
}

/// Sizes of the parts of a page.
pub struct Table {
    rows: Vec<Row>,
}

/// `bytes` compressed as the best a usual web server does: gzip, level 9.
pub fn gz(bytes: &[u8]) -> Result<Vec<u8>> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes)?;
    Ok(encoder.finish()?)
}

/// Reads every file of the page in `folder`.
pub fn read(folder: &Path) -> Result<Files> {
    let mut files = Files::new();
    for path in paths::files_under(folder)? {
        let content = std::fs::read(folder.join(&path))
            .with_context(|| format!("cannot read {path} in {}", paths::shown(folder)))?;
        files.insert(path, content);
    }
    Ok(files)
}

/// The sizes of the page in `folder`, as the finished site has them.
pub fn table(folder: &Path) -> Result<Table> {
    measure(&bundle::bundled(lean::all(&read(folder)?)?)?)
}

fn measure(files: &Files) -> Result<Table> {
    let first_view = refs::reachable("index.html", files, &|path| {
        // Asked for by the browser after the page, or only when it is installed.
        // Or fetched while the first answer is made.
        let later = path.starts_with("pkg/office") || path.starts_with("pkg/planner");
        path != "sw.js" && !later && !path.starts_with("icons/") && extension(path) != "webmanifest"
    });
    let made = |path: &str| path.starts_with("pkg/");
    let rows = [
        row("desk wasm", DESK_LIMIT, files, &|path| {
            extension(path) == "wasm" && path.contains("footroom")
        })?,
        row("office wasm", OFFICE_LIMIT, files, &|path| {
            extension(path) == "wasm" && path.contains("office")
        })?,
        row("planner wasm", PLANNER_LIMIT, files, &|path| {
            extension(path) == "wasm" && path.contains("planner")
        })?,
        row("glue scripts", GLUE_LIMIT, files, &|path| {
            made(path) && extension(path) == "js"
        })?,
        row("own HTML, CSS, JS", OWN_LIMIT, files, &|path| {
            !made(path) && matches!(extension(path), "html" | "css" | "js")
        })?,
        row("first view", FIRST_VIEW_LIMIT, files, &|path| {
            first_view.contains(path)
        })?,
    ];
    Ok(Table { rows: rows.into() })
}

fn row(
    name: &'static str,
    limit_gz_bytes: usize,
    files: &Files,
    wanted: &dyn Fn(&str) -> bool,
) -> Result<Row> {
    let mut row = Row {
        name,
        files: 0,
        bytes: 0,
        gz_bytes: 0,
        limit_gz_bytes,
    };
    for (_, content) in files.iter().filter(|(path, _)| wanted(path)) {
        row.files += 1;
        row.bytes += content.len();
        row.gz_bytes += gz(content)?.len();
    }
    Ok(row)
}

impl Table {
    /// # Errors
    /// When a part is larger than its limit.
    pub fn check(&self) -> Result<()> {
        let over: Vec<String> = self
            .rows
            .iter()
            .filter(|row| row.gz_bytes > row.limit_gz_bytes)
            .map(|row| {
                format!(
                    "{} is {:.1} kB after gzip, the limit is {:.0} kB",
                    row.name,
                    kilobytes(row.gz_bytes),
                    kilobytes(row.limit_gz_bytes)
                )
            })
            .collect();
        if over.is_empty() {
            return Ok(());
        }
        bail!("over the limit: {}", over.join("; "))
    }
}

impl fmt::Display for Table {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(
            out,
            "{:<20}{:>6}{:>10}{:>10}{:>10}",
            "part", "files", "kB", "gz kB", "limit"
        )?;
        for row in &self.rows {
            writeln!(
                out,
                "{:<20}{:>6}{:>10.1}{:>10.1}{:>10.0}",
                row.name,
                row.files,
                kilobytes(row.bytes),
                kilobytes(row.gz_bytes),
                kilobytes(row.limit_gz_bytes)
            )?;
        }
        Ok(())
    }
}

fn kilobytes(bytes: usize) -> f64 {
    bytes as f64 / 1000.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_over_its_limit_is_named() {
        // Bytes that do not compress, from a linear congruential generator.
        let mut state = 1_u32;
        let noise: Vec<u8> = std::iter::repeat_with(|| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            state.to_be_bytes()[0]
        })
        .take(GLUE_LIMIT + 100)
        .collect();
        let mut files = Files::new();
        files.insert("index.html".to_owned(), b"<p>".to_vec());
        assert!(measure(&files).unwrap().check().is_ok());
        files.insert("pkg/footroom.js".to_owned(), noise);
        let message = measure(&files).unwrap().check().unwrap_err().to_string();
        assert!(message.contains("glue script"), "{message}");
        assert!(!message.contains("wasm"), "{message}");
    }
}
