//! `cargo xtask fuzz`: the fuzz targets for longer than a test may take, see `tests/fuzz/main.rs`.

use std::process::Command;

use anyhow::Result;

use crate::toolchain::active_cargo;
use crate::{Args, machine, paths};

/// Runs of a target when no number is given.
const USUAL_RUNS: u64 = 100_000;

/// What `cargo xtask fuzz` was asked for.
pub struct Options {
    runs: u64,
    seed: u64,
    from: u64,
    target: Option<String>,
}

impl Options {
    /// Takes the options out of the words of the command.
    ///
    /// # Errors
    /// When a number is missing or none.
    pub fn take(args: &mut Args) -> Result<Self> {
        Ok(Options {
            runs: args.number("--runs")?.unwrap_or(USUAL_RUNS),
            seed: args.number("--seed")?.unwrap_or(1),
            from: args.number("--from")?.unwrap_or(0),
            target: args.plain(),
        })
    }
}

/// Runs the targets.
///
/// # Errors
/// When a run fails; the target has then named it and kept its input.
pub fn run(options: &Options) -> Result<()> {
    let mut cargo = Command::new(active_cargo());
    cargo
        .current_dir(paths::root())
        .args(["test", "--release", "--package", "footroom-tests"])
        .args(["--test", "fuzz"])
        .args(machine::locked())
        .arg("--")
        .args(&options.target)
        .env("FOOTROOM_FUZZ_RUNS", options.runs.to_string())
        .env("FOOTROOM_FUZZ_SEED", options.seed.to_string())
        .env("FOOTROOM_FUZZ_FROM", options.from.to_string());
    machine::run(&mut cargo)
}
