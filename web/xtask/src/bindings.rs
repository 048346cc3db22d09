//! The JavaScript side of the module, made by wasm-bindgen's generator as a library.

use std::path::Path;

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;
use wasmparser::{ExternalKind, Parser, Payload, Validator};

use crate::{order, paths};

/// Writes `NAME.js` and `NAME_bg.wasm` for each named module into `folder`, replacing what is there,
/// and returns how many functions each exports. With `names` the functions keep theirs and their order,
/// so that traces can be read; without, they stand as compresses best.
///
/// # Errors
/// When the generator refuses a module, or its result is no valid one: that a tool ends without
/// complaint proves nothing about what it wrote.
pub fn generate(modules: &[(&str, &Path)], folder: &Path, names: bool) -> Result<Vec<usize>> {
    let fresh = paths::cargo_target().join(format!("pkg-{}", std::process::id()));
    paths::remove_folder(&fresh)?;
    let mut counts = Vec::new();
    for (name, module) in modules {
        Bindgen::new()
            .input_path(module)
            .web(true)?
            .typescript(true)
            .keep_debug(false)
            .remove_name_section(!names)
            .remove_producers_section(!names)
            // The glue finds the module beside itself, as that of the command line does.
            .omit_default_module_path(false)
            .out_name(name)
            .generate(&fresh)
            .context("wasm-bindgen cannot make the bindings")?;
        let file = fresh.join(format!("{name}_bg.wasm"));
        let mut wasm = std::fs::read(&file)?;
        if !names {
            wasm = order::ordered(&wasm)?;
            std::fs::write(&file, &wasm)?;
        }
        let exports = exported_functions(&wasm)?;
        if exports.is_empty() {
            bail!("the module {name} exports no function");
        }
        counts.push(exports.len());
    }

    paths::make_folder(folder)?;
    let made = paths::files_under(&fresh)?;
    for old in paths::files_under(folder)? {
        if !made.contains(&old) {
            std::fs::remove_file(folder.join(old))?;
        }
    }
    for file in made {
        let place = folder.join(&file);
        if let Some(parent) = place.parent() {
            paths::make_folder(parent)?;
        }
        std::fs::copy(fresh.join(&file), place)?;
    }
    paths::remove_folder(&fresh)?;
    Ok(counts)
}

/// Validates the module and lists the functions it exports, in order of name, without those that the
/// generator adds for its own use.
fn exported_functions(wasm: &[u8]) -> Result<Vec<String>> {
    Validator::new()
        .validate_all(wasm)
        .context("the module made is not valid WebAssembly")?;
    let mut found = Vec::new();
    for payload in Parser::new(0).parse_all(wasm) {
        if let Payload::ExportSection(section) = payload? {
            for export in section {
                let export = export?;
                if export.kind == ExternalKind::Func && !export.name.starts_with("__wbindgen") {
                    found.push(export.name.to_owned());
                }
            }
        }
    }
    found.sort();
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::exported_functions;

    /// `(module (func (export "f")))`.
    const MODULE: &[u8] = &[
        0, b'a', b's', b'm', 1, 0, 0, 0, 1, 4, 1, 0x60, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, b'f', 0, 0,
        10, 4, 1, 2, 0, 0x0b,
    ];

    #[test]
    fn a_module_is_read_and_a_damaged_one_refused() {
        assert_eq!(exported_functions(MODULE).unwrap(), ["f"]);
        let mut damaged = MODULE.to_vec();
        // The export names a function that is not there.
        damaged[24] = 9;
        assert!(exported_functions(&damaged).is_err());
        assert!(exported_functions(&MODULE[..20]).is_err());
    }
}
