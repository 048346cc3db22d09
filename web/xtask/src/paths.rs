//! Where things are in the project.

use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use anyhow::{Context, Result};

/// The triple of the browser's machine.
pub const WASM_TARGET: &str = "wasm32-unknown-unknown";

/// The project's folder: the first one up from this crate's, or from the current one, that holds it.
///
/// Cargo names the crate's folder when it runs the tool, which stays right when a target folder is
/// carried from one clone to another; a path fixed at compile time would not.
pub fn root() -> &'static Path {
    static ROOT: LazyLock<PathBuf> = LazyLock::new(|| {
        let start = std::env::var_os("CARGO_MANIFEST_DIR")
            .map(PathBuf::from)
            .or_else(|| std::env::current_dir().ok())
            .unwrap_or_default();
        start
            .ancestors()
            .find(|folder| folder.join("web/xtask/Cargo.toml").is_file())
            .unwrap_or(&start)
            .to_owned()
    });
    &ROOT
}

/// Folder of all that is made: tools, the wasm standard library, the site.
pub fn target() -> PathBuf {
    root().join("target")
}

/// Folder that cargo compiles into, as the environment may have moved it.
pub fn cargo_target() -> PathBuf {
    match std::env::var_os("CARGO_TARGET_DIR") {
        Some(folder) => root().join(folder),
        None => target(),
    }
}

/// Folder of the wasm builds. Their compiler may be another one than the native builds', and two
/// compilers in one folder rebuild each other's work.
pub fn wasm_target() -> PathBuf {
    cargo_target().join("wasm")
}

/// The page as it is written, with the generated `pkg` in it.
pub fn www() -> PathBuf {
    root().join("www")
}

/// The finished site.
pub fn site() -> PathBuf {
    target().join("site")
}

/// Tools fetched for the tests.
pub fn tools() -> PathBuf {
    target().join("tools")
}

/// Pictures of the page.
pub fn shots() -> PathBuf {
    target().join("shots")
}

/// `path` as seen from the project's folder, for messages.
pub fn shown(path: &Path) -> String {
    path.strip_prefix(root())
        .unwrap_or(path)
        .display()
        .to_string()
}

/// Makes `folder` and all above it.
pub fn make_folder(folder: &Path) -> Result<()> {
    std::fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))
}

/// Removes `folder` with all that is in it; nothing happens when there is none.
pub fn remove_folder(folder: &Path) -> Result<()> {
    match std::fs::remove_dir_all(folder) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => {
            Err(error).with_context(|| format!("cannot remove {}", folder.display()))
        }
        _ => Ok(()),
    }
}

/// Every file under `folder`, as paths relative to it with `/` between the parts, in order of name.
/// Names that begin with a dot are left out.
pub fn files_under(folder: &Path) -> Result<Vec<String>> {
    fn walk(folder: &Path, prefix: &str, found: &mut Vec<String>) -> Result<()> {
        let entries = std::fs::read_dir(folder)
            .with_context(|| format!("cannot read {}", folder.display()))?;
        for entry in entries {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            if name.starts_with('.') {
                continue;
            }
            let path = format!("{prefix}{name}");
            // Follows links, as the servers do.
            if entry.path().is_dir() {
                walk(&entry.path(), &format!("{path}/"), found)?;
            } else {
                found.push(path);
            }
        }
        Ok(())
    }
    let mut found = Vec::new();
    walk(folder, "", &mut found)?;
    found.sort();
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Texts that lead somebody through the project.
    const GUIDES: [&str; 6] = [
        "README.md",
        "DEVELOPERS.md",
        "web/COSTS.md",
        "core/DESIGN.md",
        "web/DESIGN.md",
        "web/HOSTING.md",
    ];

    /// Whatever file a guide names, by its path or the end of it, is there.
    #[test]
    fn the_guides_name_files_that_are_there() {
        let mut files: Vec<String> = GUIDES.map(str::to_owned).to_vec();
        for folder in ["core", "web", "www", "tests"] {
            let found = files_under(&root().join(folder)).expect(folder);
            files.extend(found.into_iter().map(|file| format!("{folder}/{file}")));
        }
        let here = |name: &str| {
            files
                .iter()
                .any(|file| file == name || file.ends_with(&format!("/{name}")))
        };
        for guide in GUIDES {
            let text = std::fs::read_to_string(root().join(guide)).expect(guide);
            let words = text.split(|c: char| !(c.is_ascii_alphanumeric() || "_./-".contains(c)));
            let named = words.map(|word| word.trim_end_matches('.')).filter(|word| {
                [".rs", ".md", ".js", ".html"].iter().any(|e| word.ends_with(e))
                    // A name with a hash of the content is an example of one.
                    && !word.contains("-0123456789.")
                    && !word.starts_with(['.', '/'])
            });
            for name in named {
                assert!(here(name), "{guide} names {name}");
            }
        }
    }
}
