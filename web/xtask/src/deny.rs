//! The dependencies: licences, sources, duplicates, yanked and reported versions, by cargo-deny and
//! the rules in `.cargo/deny.toml`.

use std::path::PathBuf;
use std::process::Command;

use anyhow::{Result, bail};

use crate::machine::{self, find_program, note};
use crate::{lockfile, paths};

/// What holds without the network, and what asks for it: the list of reported versions, the index
/// that says what was yanked.
const HERE: [&str; 3] = ["bans", "licenses", "sources"];
const BY_NETWORK: &str = "advisories";

/// Checks the dependencies, as far as can be.
///
/// # Errors
/// When something of them is against the rules.
pub fn run() -> Result<()> {
    // What needs no tool: everything comes from the one registry, or is ours.
    lockfile::check_sources()?;
    let Some(program) = program() else {
        note(
            "skipped: licences, duplicates, yanked and reported versions of the dependencies: \
             cargo-deny is missing; cargo install --locked cargo-deny gets it",
        );
        return Ok(());
    };
    check(&program, &HERE, false)?;
    if machine::offline() {
        note("skipped: yanked and reported versions: nothing may be fetched (XTASK_OFFLINE)");
        return Ok(());
    }
    match fetched(&program) {
        true => check(&program, &[BY_NETWORK], true),
        false => {
            note("skipped: yanked and reported versions: their list cannot be had");
            Ok(())
        }
    }
}

fn program() -> Option<PathBuf> {
    find_program(&["cargo-deny"])
}

/// Fetches the list of reported versions; false where it cannot be had.
fn fetched(program: &PathBuf) -> bool {
    let mut fetch = Command::new(program);
    fetch.current_dir(paths::root()).args(["fetch", "db"]);
    machine::run(&mut fetch).is_ok()
}

fn check(program: &PathBuf, what: &[&str], fetched: bool) -> Result<()> {
    let mut deny = Command::new(program);
    deny.current_dir(paths::root())
        .args(["--workspace", "--all-features", "--locked"]);
    if !fetched {
        deny.arg("--offline");
    }
    deny.arg("check").args(what);
    note(&format!("check: dependencies: {}", what.join(", ")));
    if machine::run(&mut deny).is_err() {
        bail!(
            "the dependencies break a rule of .cargo/deny.toml: {}",
            machine::described(&deny)
        );
    }
    Ok(())
}
