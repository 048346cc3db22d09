//! `cargo xtask shot`: a picture of the page as a browser shows it.

use anyhow::{Context, Result, bail};

use crate::browsers::{self, Driver, Engine};
use crate::machine;
use crate::serve::Running;
use crate::{Args, paths, test, wasm};

/// What `cargo xtask shot` was asked for.
pub struct Options {
    engine: Engine,
    dev: bool,
    build: bool,
    /// The options that the picture program reads itself.
    passed_on: Vec<String>,
}

impl Options {
    /// Takes the options out of the words of the command.
    ///
    /// # Errors
    /// When a value is missing or a size is none.
    pub fn take(args: &mut Args) -> Result<Self> {
        let engine = if args.flag("--firefox") {
            Engine::Firefox
        } else {
            Engine::Chromium
        };
        let mut options = Options {
            engine,
            dev: args.flag("--dev"),
            build: !args.flag("--no-build"),
            passed_on: Vec::new(),
        };
        for name in ["--dark", "--forced", "--full", "--print"] {
            if args.flag(name) {
                options.passed_on.push(name.to_owned());
            }
        }
        for name in ["--size", "--scale", "--at", "--out", "--choose", "--click"] {
            while let Some(value) = args.value(name)? {
                if name == "--size" && !is_size(&value) {
                    bail!(
                        "--size needs WIDTHxHEIGHT in CSS pixels, such as 1440x900, not {value:?}"
                    );
                }
                options.passed_on.extend([name.to_owned(), value]);
            }
        }
        Ok(options)
    }
}

fn is_size(text: &str) -> bool {
    text.split_once('x').is_some_and(|(width, height)| {
        [width, height]
            .iter()
            .all(|side| side.parse::<u32>().is_ok_and(|side| side > 0))
    })
}

/// Builds, opens the page and writes the picture; its path is the output.
///
/// # Errors
/// When the build, the browser or the page fails; the page's own errors are printed.
pub fn run(options: &Options) -> Result<()> {
    if options.build {
        wasm::compile(options.dev)?;
    }
    let browser = browsers::get(options.engine)?;
    let server = Running::start(&paths::www(), 0)?;
    let drivers = Driver::start_all(&browser)?;
    let mut cargo = test::page_cargo("run", &browser, &server, &drivers)?;
    cargo
        .args(["--quiet", "--bin", "page-shot", "--"])
        .args(&options.passed_on);
    let name = machine::described(&cargo);
    let status = cargo
        .stdin(std::process::Stdio::null())
        .status()
        .with_context(|| format!("cannot start {name}"))?;
    if !status.success() {
        bail!("no picture, or the page has errors");
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::is_size;

    #[test]
    fn sizes_are_two_whole_numbers() {
        assert!(is_size("1440x900"));
        for text in ["1440", "x900", "0x900", "1440x9.5", "ax b"] {
            assert!(!is_size(text), "{text}");
        }
    }
}
