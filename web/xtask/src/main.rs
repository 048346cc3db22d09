//! Build tool of Footroom: `cargo xtask <command>`.
//!
//! Every version it works with is in `Cargo.lock`; what it needs of the machine (a compiler for
//! WebAssembly, a browser) it looks for, fetches where it may, and names where it may not.

mod bindings;
mod browsers;
mod bundle;
mod check;
mod deny;
mod dist;
mod fuzz;
mod headers;
mod lean;
mod lockfile;
mod machine;
mod order;
mod paths;
mod refs;
mod serve;
mod shot;
mod size;
mod sysroot;
mod test;
mod toolchain;
mod twice;
mod wasm;

use anyhow::{Result, bail};

const USAGE: &str = "\
usage: cargo xtask <command>

  build [--dev]              compile to WebAssembly and fill www/pkg
  serve [--dev] [--port N] [--site] [--no-build]
                             build, then show the page on 127.0.0.1; the address is the first
                             line of the output. --site shows the finished site instead
  dist                       the finished site in target/site, for any static host
  test [--native] [--wasm] [--page] [--chromium] [--firefox] [--webkit] [--dev] [NAME]
                             all tests, or the named layers, browsers or page tests only
  fuzz [--runs N] [--seed S] [--from I] [TARGET]
                             decoders, batch door and assessment under damaged texts and random
                             cases, N runs of each target (100000), optimised
  lint                       format, lints, documentation, core on a bare target, dependencies
  twice                      builds the modules twice, in two folders, and compares their bytes
  check                      all that has to hold before a change goes in: lint, then test
  shot [--size WxH] [--scale S] [--dark] [--forced] [--at FRAGMENT] [--choose SELECTOR=VALUE]...
       [--click SELECTOR]... [--full] [--print] [--firefox] [--dev] [--no-build] [--out NAME]
                             a picture of the page in target/shots/NAME.png, --print a PDF there

environment:
  XTASK_OFFLINE=1            fetch nothing
  XTASK_TOOLCHAIN=system     use the distribution's Rust compiler for WebAssembly
";

fn main() -> std::process::ExitCode {
    match run() {
        Ok(()) => std::process::ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("error: {error:#}");
            std::process::ExitCode::FAILURE
        }
    }
}

fn run() -> Result<()> {
    let mut words = std::env::args().skip(1);
    let Some(command) = words.next() else {
        eprint!("{USAGE}");
        bail!("no command given");
    };
    let mut args = Args {
        words: words.collect(),
    };
    match command.as_str() {
        "build" => {
            let dev = args.flag("--dev");
            args.done()?;
            wasm::build(dev)
        }
        "serve" => {
            let options = serve::Options {
                dev: args.flag("--dev"),
                site: args.flag("--site"),
                build: !args.flag("--no-build"),
                port: args.number("--port")?,
            };
            args.done()?;
            serve::run(&options)
        }
        "dist" => {
            args.done()?;
            dist::run()
        }
        "test" => {
            let options = test::Options::take(&mut args);
            args.done()?;
            test::run(&options)
        }
        "fuzz" => {
            let options = fuzz::Options::take(&mut args)?;
            args.done()?;
            fuzz::run(&options)
        }
        "twice" => {
            args.done()?;
            twice::run()
        }
        "lint" => {
            args.done()?;
            check::lint()
        }
        "check" => {
            args.done()?;
            check::run()
        }
        "shot" => {
            let options = shot::Options::take(&mut args)?;
            args.done()?;
            shot::run(&options)
        }
        "help" | "--help" | "-h" => {
            print!("{USAGE}");
            Ok(())
        }
        other => {
            eprint!("{USAGE}");
            bail!("there is no command {other:?}");
        }
    }
}

/// The words after the command, taken out one option at a time.
struct Args {
    words: Vec<String>,
}

impl Args {
    /// Takes `name` out; true when it was there.
    fn flag(&mut self, name: &str) -> bool {
        let before = self.words.len();
        self.words.retain(|word| word != name);
        self.words.len() != before
    }

    /// Takes `name VALUE` or `name=VALUE` out.
    ///
    /// # Errors
    /// When `name` is the last word, so that its value is missing.
    fn value(&mut self, name: &str) -> Result<Option<String>> {
        let assigned = format!("{name}=");
        let Some(at) = self
            .words
            .iter()
            .position(|word| word == name || word.starts_with(&assigned))
        else {
            return Ok(None);
        };
        let word = self.words.remove(at);
        if let Some(value) = word.strip_prefix(&assigned) {
            return Ok(Some(value.to_owned()));
        }
        if at == self.words.len() {
            bail!("{name} needs a value");
        }
        Ok(Some(self.words.remove(at)))
    }

    /// As [`Args::value`], read as a number.
    fn number<T: std::str::FromStr>(&mut self, name: &str) -> Result<Option<T>> {
        let Some(text) = self.value(name)? else {
            return Ok(None);
        };
        match text.parse() {
            Ok(number) => Ok(Some(number)),
            Err(_) => bail!("{name} needs a number in its range, not {text:?}"),
        }
    }

    /// Takes the first word that is not an option.
    fn plain(&mut self) -> Option<String> {
        let at = self.words.iter().position(|word| !word.starts_with('-'))?;
        Some(self.words.remove(at))
    }

    /// # Errors
    /// When a word is left that no option has taken.
    fn done(&self) -> Result<()> {
        match self.words.first() {
            None => Ok(()),
            Some(word) => bail!("{word:?} is not an option of this command"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Args;

    fn args(words: &[&str]) -> Args {
        Args {
            words: words.iter().map(|&word| word.to_owned()).collect(),
        }
    }

    #[test]
    fn options_are_taken_out_and_the_rest_refused() {
        let mut given = args(&["--dev", "--port", "80", "x", "--odd"]);
        assert!(given.flag("--dev"));
        assert!(!given.flag("--dev"));
        assert_eq!(given.number::<u16>("--port").unwrap(), Some(80));
        assert_eq!(given.plain().as_deref(), Some("x"));
        assert!(given.done().is_err());
    }

    #[test]
    fn a_value_that_is_missing_or_no_number_is_refused() {
        assert!(args(&["--port"]).value("--port").is_err());
        assert!(args(&["--port=70000"]).number::<u16>("--port").is_err());
        assert_eq!(
            args(&["--port=7"]).number::<u16>("--port").unwrap(),
            Some(7)
        );
    }
}
