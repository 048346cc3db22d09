//! Versions of crates as `Cargo.lock` has them.

use anyhow::{Context, Result, bail};

use crate::paths;

/// Checks, before anything is compiled, that the library and the generators of its bindings are of
/// one version: the generated code is a private matter of each version.
///
/// # Errors
/// Naming both versions and the way to bring them together.
pub fn check_bindgen_versions() -> Result<()> {
    let path = paths::root().join("Cargo.lock");
    let lock = std::fs::read_to_string(&path)
        .with_context(|| format!("cannot read {}", path.display()))?;
    compare(&lock)
}

/// Checks that every package is ours or comes from the one public registry.
///
/// # Errors
/// Naming the first source that is another one.
pub fn check_sources() -> Result<()> {
    let path = paths::root().join("Cargo.lock");
    let lock = std::fs::read_to_string(&path)
        .with_context(|| format!("cannot read {}", path.display()))?;
    match foreign_source(&lock) {
        Some(source) => {
            bail!("Cargo.lock has a package from {source}, which is no registry of ours")
        }
        None => Ok(()),
    }
}

/// The first source that is not crates.io's.
fn foreign_source(lock: &str) -> Option<&str> {
    let sources = lock
        .lines()
        .filter_map(|line| line.strip_prefix("source = "));
    let mut foreign = sources
        .map(|source| source.trim_matches('"'))
        .filter(|source| *source != REGISTRY);
    foreign.next()
}

/// As cargo writes crates.io into its lock file.
const REGISTRY: &str = "registry+https://github.com/rust-lang/crates.io-index";

fn compare(lock: &str) -> Result<()> {
    let library = versions(lock, "wasm-bindgen");
    let [library] = library.as_slice() else {
        bail!(
            "Cargo.lock has {} versions of wasm-bindgen, not one",
            library.len()
        );
    };
    for tool in ["wasm-bindgen-cli-support", "wasm-bindgen-cli"] {
        for version in versions(lock, tool) {
            if version != *library {
                bail!(
                    "web uses wasm-bindgen {library}, the build tool {tool} {version}\n  \
                     to fix     set the same version in Cargo.toml and web/xtask/Cargo.toml, \
                     then cargo update -p wasm-bindgen"
                );
            }
        }
    }
    Ok(())
}

/// Every version of the package `name`.
fn versions<'a>(lock: &'a str, name: &str) -> Vec<&'a str> {
    let wanted = format!("name = \"{name}\"");
    let mut lines = lock.lines();
    let mut found = Vec::new();
    while let Some(line) = lines.next() {
        if line == wanted
            && let Some(version) = lines
                .next()
                .and_then(|line| line.strip_prefix("version = \""))
                .and_then(|rest| rest.strip_suffix('"'))
        {
            found.push(version);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::{REGISTRY, compare, foreign_source};

    fn lock(library: &str, tool: &str) -> String {
        format!(
            "[[package]]\nname = \"wasm-bindgen\"\nversion = \"{library}\"\n\n\
             [[package]]\nname = \"wasm-bindgen-cli-support\"\nversion = \"{tool}\"\n"
        )
    }

    #[test]
    fn another_source_is_named() {
        let ours = format!("[[package]]\nname = \"a\"\nsource = \"{REGISTRY}\"\n");
        assert_eq!(foreign_source(&ours), None);
        let other = format!("{ours}source = \"git+https://example.org/b#1\"\n");
        assert_eq!(foreign_source(&other), Some("git+https://example.org/b#1"));
    }

    #[test]
    fn one_version_is_accepted_and_two_are_named() {
        assert!(compare(&lock("0.2.130", "0.2.130")).is_ok());
        let message = compare(&lock("0.2.131", "0.2.130"))
            .unwrap_err()
            .to_string();
        assert!(message.contains("0.2.131") && message.contains("0.2.130"));
    }
}
