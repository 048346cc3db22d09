//! Finding a Rust compiler that builds for the browser.
//!
//! In this order: the active toolchain when it has the target; rustup, which may add it; the
//! distribution's compiler when it has the target; the distribution's compiler with its sources,
//! from which the standard library is built once; the same after installing Debian's packages.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use anyhow::{Result, bail};

use crate::machine::{self, answer, find_program, note};
use crate::paths::{self, WASM_TARGET};
use crate::sysroot;

/// The distribution's compiler and build driver.
const SYSTEM_RUSTC: &str = "/usr/bin/rustc";
const SYSTEM_CARGO: &str = "/usr/bin/cargo";

/// What a Debian machine needs to compile to WebAssembly.
const DEBIAN_PACKAGES: [&str; 4] = ["rustc-web", "cargo-web", "rust-web-src", "lld-22"];

/// Linkers in order of preference; only 22 is tested.
const LINKERS: [&str; 5] = [
    "wasm-ld-22",
    "wasm-ld-21",
    "wasm-ld-20",
    "wasm-ld-19",
    "wasm-ld",
];

/// Longest time given to rustup for the download of the target.
const RUSTUP_LIMIT: Duration = Duration::from_secs(60);

/// A compiler that can build for [`WASM_TARGET`].
pub enum Toolchain {
    /// The one `cargo xtask` runs with; linker and standard library are its own.
    Active,
    /// The distribution's.
    System {
        /// Standard library built by [`sysroot`]; none when the distribution packages it.
        sysroot: Option<PathBuf>,
        /// Linker for wasm.
        linker: PathBuf,
    },
}

impl Toolchain {
    /// A cargo call (`build`, `test`, `check`) of this toolchain, for the browser's machine.
    pub fn cargo(&self, subcommand: &str) -> Command {
        let mut flags = neutral_paths();
        // The mechanics works in rows of four; half as long again without.
        flags.push("-Ctarget-feature=+simd128".to_owned());
        let mut command = match self {
            Toolchain::Active => Command::new(active_cargo()),
            Toolchain::System { sysroot, linker } => {
                let mut command = system_cargo();
                command.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", linker);
                if let Some(sysroot) = sysroot {
                    flags.extend(["--sysroot".to_owned(), sysroot.display().to_string()]);
                }
                command
            }
        };
        // RUSTFLAGS of the caller would hide flags given per target, and with them the standard
        // library. This variable wins over all; theirs are added.
        if let Ok(theirs) = std::env::var("RUSTFLAGS") {
            flags.extend(theirs.split_whitespace().map(str::to_owned));
        }
        command
            .arg(subcommand)
            .env("CARGO_ENCODED_RUSTFLAGS", flags.join("\x1f"))
            .current_dir(paths::root())
            .args(["--target", WASM_TARGET, "--target-dir"])
            .arg(paths::wasm_target())
            .args(machine::locked());
        command
    }
}

/// Flags that keep the builder's own folders out of the messages in a module.
fn neutral_paths() -> Vec<String> {
    let home = std::env::var_os("CARGO_HOME")
        .map(PathBuf::from)
        .or_else(|| std::env::home_dir().map(|home| home.join(".cargo")));
    let sources = home.and_then(|home| std::fs::read_dir(home.join("registry/src")).ok());
    let folders = sources.into_iter().flatten().filter_map(|entry| entry.ok());
    folders
        .map(|folder| format!("--remap-path-prefix={}=crates", folder.path().display()))
        .collect()
}

/// The cargo that runs this tool.
pub fn active_cargo() -> PathBuf {
    std::env::var_os("CARGO").map_or_else(|| PathBuf::from("cargo"), PathBuf::from)
}

/// The distribution's cargo with its own compiler, and nothing of another toolchain left in its
/// environment.
pub fn system_cargo() -> Command {
    let mut command = Command::new(SYSTEM_CARGO);
    command
        .env("RUSTC", SYSTEM_RUSTC)
        .env("RUSTDOC", "/usr/bin/rustdoc");
    for name in [
        "RUSTFLAGS",
        "RUSTUP_TOOLCHAIN",
        "LD_LIBRARY_PATH",
        "CARGO",
        "RUSTC_WRAPPER",
    ] {
        command.env_remove(name);
    }
    command
}

/// Finds a toolchain, installing what is missing where that is allowed, and says which was taken.
///
/// # Errors
/// With all that was looked at and the one command that helps.
pub fn find() -> Result<Toolchain> {
    let mut looked_at = Vec::new();
    let system_only = std::env::var_os("XTASK_TOOLCHAIN").is_some_and(|value| value == "system");

    if !system_only {
        if has_target("rustc") {
            note(&format!(
                "compiler: {} (active toolchain)",
                release("rustc")
            ));
            return Ok(Toolchain::Active);
        }
        looked_at.push(format!(
            "{} (active toolchain): target not installed",
            release("rustc")
        ));
        // A standard library built earlier shows that rustup could not help here.
        if !sysroot::exists(SYSTEM_RUSTC) {
            match add_by_rustup() {
                Ok(()) => {
                    note(&format!(
                        "compiler: {} (target added by rustup)",
                        release("rustc")
                    ));
                    return Ok(Toolchain::Active);
                }
                Err(reason) => looked_at.push(reason),
            }
        }
    }

    match system() {
        Ok(found) => return Ok(found),
        Err(error) => looked_at.push(error.to_string()),
    }
    if machine::is_debian() {
        match machine::install_packages(&DEBIAN_PACKAGES, "the compiler for WebAssembly") {
            Ok(()) => return system(),
            Err(error) => looked_at.push(error.to_string()),
        }
    }
    bail!(
        "no Rust compiler here can build for {WASM_TARGET}\n  looked at  {}\n  \
         to fix     with internet:  rustup target add {WASM_TARGET}\n             \
         on Debian:      apt-get install {}",
        looked_at.join("\n             "),
        DEBIAN_PACKAGES.join(" ")
    )
}

/// The distribution's compiler, ready to build for the browser.
fn system() -> Result<Toolchain> {
    if !Path::new(SYSTEM_RUSTC).is_file() || !Path::new(SYSTEM_CARGO).is_file() {
        bail!("{SYSTEM_RUSTC} with {SYSTEM_CARGO}: not found");
    }
    let sysroot = if has_target(SYSTEM_RUSTC) {
        None
    } else {
        let sources = sources()?;
        Some(sysroot::get(SYSTEM_RUSTC, &sources)?)
    };
    let linker = linker()?;
    note(&format!(
        "compiler: {} (distribution), linker {}",
        release(SYSTEM_RUSTC),
        linker.file_name().unwrap_or_default().to_string_lossy()
    ));
    Ok(Toolchain::System { sysroot, linker })
}

/// Folder of the standard library's sources that belong to the distribution's compiler. The sources
/// of one release cannot be built by another.
fn sources() -> Result<PathBuf> {
    let root = answer(Command::new(SYSTEM_RUSTC).args(["--print", "sysroot"])).unwrap_or_default();
    let folder = Path::new(&root).join("lib/rustlib/src/rust");
    if !folder.join("library/std/Cargo.toml").is_file() {
        bail!("{SYSTEM_RUSTC}: target not installed, and no sources of the standard library");
    }
    let theirs = std::fs::read_to_string(folder.join("src/version")).unwrap_or_default();
    let version = verbose_version(SYSTEM_RUSTC);
    let ours = field(&version, "release");
    if theirs.trim() != ours {
        bail!(
            "{SYSTEM_RUSTC}: the sources in {} are of Rust {}, the compiler is {ours}; \
             apt-get install --only-upgrade rustc-web cargo-web rust-web-src",
            folder.display(),
            theirs.trim()
        );
    }
    Ok(folder)
}

fn linker() -> Result<PathBuf> {
    if let Some(found) = find_program(&LINKERS) {
        return Ok(found);
    }
    let of_rustup = answer(Command::new("rustc").args(["--print", "target-libdir"]))
        .and_then(|folder| Some(Path::new(&folder).parent()?.join("bin/rust-lld")))
        .filter(|file| file.is_file());
    if let Some(found) = of_rustup {
        return Ok(found);
    }
    bail!(
        "no linker for wasm: looked for {}, rust-lld; to fix: apt-get install lld-22",
        LINKERS.join(", ")
    )
}

/// True when `rustc` has the standard library of [`WASM_TARGET`]. The compiler names its folder even
/// when the target is not installed, so the library itself is looked for.
fn has_target(rustc: &str) -> bool {
    has_target_named(rustc, WASM_TARGET, "libstd-")
}

/// True when `rustc` has `library` (the begin of its file name) of `target`.
pub fn has_target_named(rustc: &str, target: &str, library: &str) -> bool {
    let Some(folder) =
        answer(Command::new(rustc).args(["--print", "target-libdir", "--target", target]))
    else {
        return false;
    };
    std::fs::read_dir(folder).is_ok_and(|entries| {
        entries.flatten().any(|entry| {
            let name = entry.file_name().to_string_lossy().into_owned();
            name.starts_with(library) && name.ends_with(".rlib")
        })
    })
}

fn add_by_rustup() -> std::result::Result<(), String> {
    add_target_by_rustup(WASM_TARGET)?;
    if has_target("rustc") {
        Ok(())
    } else {
        Err("rustup target add: done, but the compiler on the path does not have it".to_owned())
    }
}

/// Lets rustup add `target` to the active toolchain.
///
/// # Errors
/// The reason why it could not.
pub fn add_target_by_rustup(target: &str) -> std::result::Result<(), String> {
    if machine::offline() {
        return Err("rustup target add: not tried (XTASK_OFFLINE)".to_owned());
    }
    let Some(rustup) = find_program(&["rustup"]) else {
        return Err("rustup: not found".to_owned());
    };
    note(&format!("asking rustup for the target {target}"));
    let started = Command::new(rustup)
        .args(["target", "add", target])
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    let mut child = started.map_err(|error| format!("rustup target add: {error}"))?;
    if !machine::wait_at_most(&mut child, RUSTUP_LIMIT) {
        machine::end_process(&mut child);
        return Err(format!(
            "rustup target add: no answer within {} s",
            RUSTUP_LIMIT.as_secs()
        ));
    }
    match child.wait() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("rustup target add: failed ({status}; no network?)")),
        Err(error) => Err(format!("rustup target add: {error}")),
    }
}

/// The whole text of `rustc -vV`.
pub fn verbose_version(rustc: &str) -> String {
    answer(Command::new(rustc).arg("-vV")).unwrap_or_default()
}

/// One value of `rustc -vV`.
pub fn field<'a>(verbose: &'a str, name: &str) -> &'a str {
    verbose
        .lines()
        .find_map(|line| line.strip_prefix(name)?.strip_prefix(": "))
        .unwrap_or_default()
}

fn release(rustc: &str) -> String {
    match field(&verbose_version(rustc), "release") {
        "" => format!("{rustc} (no answer)"),
        release => format!("rustc {release}"),
    }
}

#[cfg(test)]
mod tests {
    use super::field;

    #[test]
    fn fields_of_the_compilers_answer() {
        let verbose = "rustc 1.96.0 (x)\nbinary: rustc\nrelease: 1.96.0\nLLVM version: 22.1.8";
        assert_eq!(field(verbose, "release"), "1.96.0");
        assert_eq!(field(verbose, "LLVM version"), "22.1.8");
        assert_eq!(field(verbose, "host"), "");
    }
}
