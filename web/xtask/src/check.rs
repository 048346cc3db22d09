//! `cargo xtask lint` and `cargo xtask check`: what has to hold before a change goes in.

use std::process::Command;

use anyhow::{Result, bail};

use crate::machine::{self, note};
use crate::toolchain::{self, active_cargo};
use crate::{deny, paths, test};

/// A machine without operating system, for which only a crate without the standard library builds.
const BARE_TARGET: &str = "x86_64-unknown-none";

/// [`lint`], then all tests.
///
/// # Errors
/// When anything does not hold.
pub fn run() -> Result<()> {
    lint()?;
    test::run(&test::Options::all())
}

/// Format, lints, documentation, the bare target and the dependencies.
///
/// # Errors
/// At the first that does not hold, with the command that shows it again.
pub fn lint() -> Result<()> {
    step(
        "format",
        cargo(&["fmt", "--all", "--check"]),
        "cargo fmt --all writes it",
    )?;

    let mut clippy = cargo(&["clippy", "--workspace", "--all-targets", "--all-features"]);
    clippy
        .args(machine::locked())
        .args(["--", "--deny", "warnings"]);
    step("lints", clippy, "see the warnings above")?;

    // With all features as the lints, so that nothing is read twice.
    let mut doc = cargo(&["doc", "--workspace", "--no-deps", "--all-features"]);
    doc.args(machine::locked())
        .env("RUSTDOCFLAGS", "--deny warnings");
    step("documentation", doc, "see the warnings above")?;

    bare_target()?;
    deny::run()
}

/// Proves that the core asks for nothing of an operating system.
fn bare_target() -> Result<()> {
    let available = || toolchain::has_target_named("rustc", BARE_TARGET, "libcore-");
    if !available()
        && let Err(reason) = toolchain::add_target_by_rustup(BARE_TARGET)
    {
        note(&format!("skipped: core on {BARE_TARGET}: {reason}"));
        return Ok(());
    }
    if !available() {
        note(&format!(
            "skipped: core on {BARE_TARGET}: the compiler on the path does not have it"
        ));
        return Ok(());
    }
    for features in [&[][..], &["--features", "serde"]] {
        let mut check = cargo(&["check", "--package", "footroom-core"]);
        check
            .args(["--target", BARE_TARGET])
            .args(features)
            .args(machine::locked());
        step(
            "core without a system",
            check,
            "core uses the standard library",
        )?;
    }
    Ok(())
}

fn cargo(args: &[&str]) -> Command {
    let mut command = Command::new(active_cargo());
    command.current_dir(paths::root()).args(args);
    command
}

fn step(name: &str, mut command: Command, help: &str) -> Result<()> {
    note(&format!("check: {name}"));
    // A missing part of the toolchain (cargo fmt, cargo clippy) is told apart by cargo's own words.
    if machine::run(&mut command).is_err() {
        bail!(
            "{name} does not hold: {}; {help}",
            machine::described(&command)
        );
    }
    Ok(())
}
