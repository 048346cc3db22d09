//! `cargo xtask build`: from the crates to `www/pkg`.

use std::path::Path;

use anyhow::Result;

use crate::machine::{self, note};
use crate::paths::{self, WASM_TARGET};
use crate::{bindings, lockfile, size, toolchain};

/// Compiles the modules of `footroom-web`, makes the bindings, prints the sizes and holds them to the budget.
///
/// With `dev` it compiles quickly, keeps names, and no budget applies.
///
/// # Errors
/// When a tool is missing, something does not compile, or a budget is passed.
pub fn build(dev: bool) -> Result<()> {
    compile(dev)?;
    let table = size::table(&paths::www())?;
    eprint!("{table}");
    if dev { Ok(()) } else { table.check() }
}

/// The modules of the page by name, the feature of `footroom-web` that each is built with, see that
/// crate, and what the profile does otherwise for it: the first is fetched before anything is seen
/// and solves one case, so that its mechanics is small rather than quick; the whole answers what is
/// typed, and stands between; the workers' is quick.
const MODULES: [(&str, &str, &[&str]); 3] = [
    (
        "footroom",
        "",
        &["profile.wasm.package.footroom-core.opt-level='z'"],
    ),
    (
        "office",
        "office",
        &["profile.wasm.package.footroom-core.opt-level='s'"],
    ),
    ("planner", "planner", &[]),
];

/// As [`build`], without sizes.
pub fn compile(dev: bool) -> Result<()> {
    lockfile::check_bindgen_versions()?;
    let toolchain = toolchain::find()?;
    let profile = if dev { "wasm-dev" } else { "wasm" };
    let folder = paths::wasm_target().join(WASM_TARGET).join(profile);
    let mut modules = Vec::new();
    for (name, feature, otherwise) in MODULES {
        let mut cargo = toolchain.cargo("build");
        cargo.args(["--package", "footroom-web", "--lib", "--profile", profile]);
        cargo.args(["--no-default-features", "--features", feature]);
        for setting in otherwise {
            cargo.args(["--config", setting]);
        }
        machine::run(&mut cargo)?;
        // The next module has the same file name.
        let kept = folder.join(format!("{name}.wasm"));
        std::fs::copy(folder.join("footroom_web.wasm"), &kept)?;
        modules.push((name, kept));
    }
    let modules: Vec<(&str, &Path)> = modules.iter().map(|(n, p)| (*n, p.as_path())).collect();
    // Names make the small download larger, but traces readable.
    let names = dev || std::env::var_os("FOOTROOM_NAMES").is_some();
    let counts = bindings::generate(&modules, &paths::www().join("pkg"), names)?;
    if !dev {
        compress_made()?;
    }
    for ((name, _), count) in modules.iter().zip(counts) {
        note(&format!(
            "www/pkg/{name}: bindings made, the module is valid and exports {count} functions"
        ));
    }
    Ok(())
}

/// Puts the modules' `.gz` beside them, for the server: they are too large to compress when asked for.
fn compress_made() -> Result<()> {
    let folder = paths::www().join("pkg");
    for path in paths::files_under(&folder)? {
        if matches!(crate::refs::extension(&path), "wasm" | "js") {
            let content = std::fs::read(folder.join(&path))?;
            std::fs::write(folder.join(format!("{path}.gz")), size::gz(&content)?)?;
        }
    }
    Ok(())
}
