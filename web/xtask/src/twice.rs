//! `cargo xtask twice`: two builds of the same source have the same bytes, so that anybody can tell
//! whether what a host serves is made of it.

use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::machine::note;
use crate::refs::{self, Files};
use crate::{machine, paths, size};

/// Builds the finished site here and, from nothing, in another target folder, and compares.
///
/// # Errors
/// When a build fails or a file differs.
pub fn run() -> Result<()> {
    let first = built(None)?;
    let other = paths::target().join("twice");
    paths::remove_folder(&other)?;
    let second = built(Some(&other))?;
    let differing = differing(&first, &second);
    if !differing.is_empty() {
        bail!(
            "two builds of one source differ in: {}",
            differing.join(", ")
        );
    }
    note(&format!(
        "two builds, the same bytes: {} files, {}",
        first.len(),
        refs::hash(&first.values().flatten().copied().collect::<Vec<u8>>())
    ));
    paths::remove_folder(&other)
}

/// The finished site, built in this target folder.
fn built(target: Option<&std::path::Path>) -> Result<Files> {
    let program = std::env::current_exe().context("this program has no path")?;
    let mut dist = Command::new(program);
    dist.arg("dist").current_dir(paths::root());
    if let Some(target) = target {
        dist.env("CARGO_TARGET_DIR", target);
    }
    machine::run(&mut dist)?;
    size::read(&paths::site())
}

/// Names of files that are in one only, or not the same in both.
fn differing(a: &Files, b: &Files) -> Vec<String> {
    let names: std::collections::BTreeSet<&String> = a.keys().chain(b.keys()).collect();
    let differ = names
        .into_iter()
        .filter(|name| a.get(*name) != b.get(*name));
    differ.cloned().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_differs_or_is_missing_is_named() {
        let files = |list: &[(&str, &str)]| -> Files {
            let pairs = list.iter();
            pairs
                .map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec()))
                .collect()
        };
        let a = files(&[("a", "1"), ("b", "2"), ("c", "3")]);
        let b = files(&[("a", "1"), ("b", "x"), ("d", "3")]);
        assert_eq!(differing(&a, &b), ["b", "c", "d"]);
        assert!(differing(&a, &a).is_empty());
    }
}
