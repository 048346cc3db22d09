//! The standard library for the browser's machine, built from the distribution's sources.
//!
//! Debian's compiler comes with its sources but, in most releases, without the wasm target. Building
//! the library once into a sysroot of the project takes about a minute; after that every build is an
//! ordinary one of the stable compiler. The folder's name carries a hash of the compiler's version
//! and of the flags, because cargo does not notice a standard library that was built anew.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

use crate::machine::{self, note};
use crate::paths::{self, WASM_TARGET};
use crate::toolchain::{field, system_cargo, verbose_version};

/// Bitcode in the library: without it a build with fat link-time optimisation fails.
const FLAGS: &str = "-Cembed-bitcode=yes";

/// `test` is in the list so that `cargo test` works for the target.
const CRATES: &str = "-Zbuild-std=std,panic_abort,test";

const SEED_MANIFEST: &str = r#"[package]
name = "seed"
version = "0.0.0"
edition = "2024"

[lib]
path = "seed.rs"

[workspace]

[profile.release]
panic = "abort"
opt-level = 3
"#;

/// True when the library for this compiler has been built.
pub fn exists(rustc: &str) -> bool {
    Path::new(rustc).is_file() && folder(rustc).is_dir()
}

/// The sysroot for `rustc`, built now when it is missing.
///
/// # Errors
/// When the library cannot be compiled or its files not be written.
pub fn get(rustc: &str, sources: &Path) -> Result<PathBuf> {
    let folder = folder(rustc);
    if !folder.is_dir() {
        note(&format!(
            "building the Rust standard library for wasm once (about a minute); \
             later builds reuse {}",
            paths::shown(&folder)
        ));
        build(sources, &folder)?;
    }
    Ok(folder)
}

fn folder(rustc: &str) -> PathBuf {
    let version = verbose_version(rustc);
    let key = crate::refs::hash(format!("{version}\n{FLAGS}\n{CRATES}").as_bytes());
    let name = format!("{}-{}", field(&version, "release"), &key[..8]);
    paths::target().join("wasm-sysroot").join(name)
}

fn build(sources: &Path, folder: &Path) -> Result<()> {
    // The finished folder appears by renaming, so that an interrupted build is never taken for a
    // good one, and two builds at a time do not meet.
    let name = folder.file_name().unwrap_or_default().to_string_lossy();
    let work = folder.with_file_name(format!("{name}.building-{}", std::process::id()));
    paths::remove_folder(&work)?;
    let seed = work.join("seed");
    paths::make_folder(&seed)?;
    std::fs::write(seed.join("Cargo.toml"), SEED_MANIFEST)?;
    std::fs::write(seed.join("seed.rs"), "#![no_std]\n")?;

    let vendor = sources.join("library/vendor");
    let compiled = seed.join("target");
    let mut command = system_cargo();
    command
        .current_dir(&seed)
        .env("RUSTC_BOOTSTRAP", "1")
        .env("CARGO_ENCODED_RUSTFLAGS", FLAGS)
        .args(["build", "--release", "--target", WASM_TARGET, CRATES])
        .arg("--target-dir")
        .arg(&compiled);
    if vendor.is_dir() {
        // The library's own dependencies come with the sources; no registry is asked.
        command
            .args(["--offline", "--config"])
            .arg("source.crates-io.replace-with=\"std-vendor\"")
            .arg("--config")
            .arg(format!(
                "source.std-vendor.directory=\"{}\"",
                vendor.display()
            ));
    }
    machine::run(&mut command).context("the standard library for wasm cannot be built")?;

    let library = work.join("root/lib/rustlib").join(WASM_TARGET).join("lib");
    paths::make_folder(&library)?;
    let built = compiled.join(WASM_TARGET).join("release/deps");
    for entry in std::fs::read_dir(&built)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.ends_with(".rlib") && !name.starts_with("libseed") {
            std::fs::copy(entry.path(), library.join(name))?;
        }
    }
    if let Err(error) = std::fs::rename(work.join("root"), folder) {
        // Another build may have been faster.
        if !folder.is_dir() {
            return Err(error).with_context(|| format!("cannot make {}", folder.display()));
        }
    }
    paths::remove_folder(&work)
}
