//! `cargo xtask build`: from the crates to `www/pkg`.

use anyhow::Result;

use crate::machine::{self, note};
use crate::paths::{self, WASM_TARGET};
use crate::{bindings, lockfile, size, toolchain};

/// Compiles `footroom-web`, makes the bindings, prints the sizes and holds them to the budget.
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

/// As [`build`], without sizes.
pub fn compile(dev: bool) -> Result<()> {
    lockfile::check_bindgen_versions()?;
    let toolchain = toolchain::find()?;
    let profile = if dev { "wasm-dev" } else { "wasm" };
    let mut cargo = toolchain.cargo("build");
    cargo.args(["--package", "footroom-web", "--lib", "--profile", profile]);
    machine::run(&mut cargo)?;
    let module = paths::wasm_target()
        .join(WASM_TARGET)
        .join(profile)
        .join("footroom_web.wasm");
    let exports = bindings::generate(&module, &paths::www().join("pkg"), dev)?;
    note(&format!(
        "www/pkg: bindings made, the module is valid and exports {} functions",
        exports.len()
    ));
    Ok(())
}
