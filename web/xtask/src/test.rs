//! `cargo xtask test`: all tests, in layers; native, the bindings in a browser, the page.

use std::fmt;
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::time::Instant;

use anyhow::{Context, Result, bail};

use crate::browsers::{self, Browser, Driver, Engine};
use crate::machine::{self, described, find_program, note};
use crate::serve::Running;
use crate::toolchain::{self, active_cargo};
use crate::{Args, dist, lockfile, paths, size, wasm};

/// The accessibility checker, one file from npm.
const AXE_VERSION: &str = "4.14.1";

/// Time that the bindings' tests may take in one browser, s: the corpus is some seconds of
/// calculation, and a busy machine takes several times as long.
const BINDINGS_TIMEOUT_S: &str = "240";

/// What `cargo xtask test` was asked for.
pub struct Options {
    native: bool,
    wasm: bool,
    page: bool,
    engines: Vec<Engine>,
    /// Test the page as written, built quickly, instead of the finished site.
    dev: bool,
    /// Only page tests whose name holds this.
    name: Option<String>,
}

impl Options {
    /// Everything.
    pub fn all() -> Self {
        Options {
            native: true,
            wasm: true,
            page: true,
            engines: vec![Engine::Chromium, Engine::Firefox, Engine::WebKit],
            dev: false,
            name: None,
        }
    }

    /// Takes the options out of the words of the command; none means everything.
    pub fn take(args: &mut Args) -> Self {
        let mut options = Options {
            native: args.flag("--native"),
            wasm: args.flag("--wasm"),
            page: args.flag("--page"),
            engines: Vec::new(),
            dev: args.flag("--dev"),
            name: args.plain(),
        };
        if args.flag("--chromium") {
            options.engines.push(Engine::Chromium);
        }
        if args.flag("--firefox") {
            options.engines.push(Engine::Firefox);
        }
        if args.flag("--webkit") {
            options.engines.push(Engine::WebKit);
        }
        if options.dev || options.name.is_some() {
            options.page = true;
        }
        if !(options.native || options.wasm || options.page) {
            let in_browsers = !options.engines.is_empty();
            options.native = !in_browsers;
            options.wasm = true;
            options.page = true;
        }
        if options.engines.is_empty() {
            options.engines = Options::all().engines;
        }
        options
    }
}

/// How many tests of a layer ended how.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Counts {
    passed: u64,
    failed: u64,
    ignored: u64,
}

/// What came of a layer.
enum Outcome {
    Passed(Counts),
    /// What is no test, such as a budget, holds.
    Holds,
    Failed(String),
    /// Not run, and why. Never counted as passed.
    Skipped(String),
}

/// Layers that have ended.
struct Report {
    layers: Vec<(String, Outcome, f64)>,
}

/// Runs the layers asked for, all to their end, and sums up.
///
/// # Errors
/// When a layer failed.
pub fn run(options: &Options) -> Result<()> {
    let mut report = Report { layers: Vec::new() };
    if options.native {
        report.layer("native", || Ok(native()));
        report.layer("the same bits in release", || Ok(release()));
    }
    if options.wasm {
        for &engine in &options.engines {
            let name = format!("bindings in {}", engine.name());
            report.layer(&name, || with_browser(engine, bindings));
        }
    }
    if options.page {
        // A page over its budget is still worth testing, so the budget is a layer of its own.
        let folder = page_folder(options.dev).map(|(folder, sizes)| {
            if let Some(sizes) = sizes {
                report.layer("sizes", || {
                    sizes.check()?;
                    Ok(Outcome::Holds)
                });
            }
            folder
        });
        for &engine in &options.engines {
            let name = format!("page in {}", engine.name());
            match &folder {
                Err(error) => {
                    let reason = format!("{error:#}");
                    report.layer(&name, || Ok(Outcome::Failed(reason)));
                }
                Ok(folder) => {
                    let mut skipped = Vec::new();
                    report.layer(&name, || {
                        with_browser(engine, |browser| {
                            page(browser, folder, options, &mut skipped)
                        })
                    });
                    for (tests, reason) in skipped {
                        report.layer(&format!("{name}: {tests}"), || Ok(Outcome::Skipped(reason)));
                    }
                }
            }
        }
    }
    println!("\n{report}");
    let failed = report.failed();
    if failed.is_empty() {
        return Ok(());
    }
    bail!("failed: {}", failed.join(", "))
}

impl Report {
    fn layer(&mut self, name: &str, run: impl FnOnce() -> Result<Outcome>) {
        note(&format!("tests: {name}"));
        let start = Instant::now();
        let outcome = run().unwrap_or_else(|error| Outcome::Failed(format!("{error:#}")));
        if let Outcome::Failed(reason) | Outcome::Skipped(reason) = &outcome {
            note(&format!("{name}: {reason}"));
        }
        let seconds = start.elapsed().as_secs_f64();
        self.layers.push((name.to_owned(), outcome, seconds));
    }

    fn failed(&self) -> Vec<&str> {
        self.layers
            .iter()
            .filter(|(_, outcome, _)| matches!(outcome, Outcome::Failed(_)))
            .map(|(name, _, _)| name.as_str())
            .collect()
    }
}

impl fmt::Display for Report {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (mut passed, mut skipped) = (0, 0);
        for (name, outcome, seconds) in &self.layers {
            write!(out, "{name:<44} ")?;
            match outcome {
                Outcome::Passed(counts) => {
                    passed += counts.passed;
                    write!(out, "passed   {:>5} tests", counts.passed)?;
                    if counts.ignored > 0 {
                        write!(out, ", {} ignored", counts.ignored)?;
                    }
                    writeln!(out, " in {seconds:.0} s")?;
                }
                Outcome::Holds => writeln!(out, "holds")?,
                Outcome::Failed(reason) => writeln!(out, "FAILED   {reason}")?,
                Outcome::Skipped(reason) => {
                    skipped += 1;
                    writeln!(out, "skipped  {reason}")?;
                }
            }
        }
        write!(
            out,
            "tests: {passed} in the layers that passed; {} of {} layers failed, {skipped} skipped",
            self.failed().len(),
            self.layers.len() - skipped
        )
    }
}

/// Runs a layer with a browser. That there is no Chromium is a failure, as every change is to be
/// tested in it; that there is no other is reported.
fn with_browser(
    engine: Engine,
    layer: impl FnOnce(&Browser) -> Result<Outcome>,
) -> Result<Outcome> {
    match browsers::get(engine) {
        Ok(browser) => layer(&browser),
        Err(error) if engine != Engine::Chromium => Ok(Outcome::Skipped(format!("{error:#}"))),
        Err(error) => Err(error),
    }
}

/// Everything that needs no browser, this tool's own tests included.
fn native() -> Outcome {
    let mut cargo = Command::new(active_cargo());
    cargo
        .current_dir(paths::root())
        .args(["test", "--workspace", "--no-fail-fast"])
        .args(machine::locked());
    run_tests(&mut cargo)
}

/// The corpus of answers once more, as an optimising build computes it.
fn release() -> Outcome {
    let mut cargo = Command::new(active_cargo());
    cargo
        .current_dir(paths::root())
        .args(["test", "--release", "--package", "footroom-core"])
        .args(["--test", "determinism"])
        .args(machine::locked());
    run_tests(&mut cargo)
}

/// The tests of the bindings, in a browser without window.
fn bindings(browser: &Browser) -> Result<Outcome> {
    lockfile::check_bindgen_versions()?;
    let runner = build_runner()?;
    let toolchain = toolchain::find()?;
    let capabilities = paths::target().join("webdriver.json");
    std::fs::write(&capabilities, capabilities_json(browser))?;
    let mut cargo = toolchain.cargo("test");
    cargo
        .args(["--package", "footroom-web", "--test", "api"])
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", runner)
        .env("WASM_BINDGEN_TEST_WEBDRIVER_JSON", capabilities)
        .env("WASM_BINDGEN_TEST_ONLY_WEB", "1")
        .env("WASM_BINDGEN_TEST_TIMEOUT", BINDINGS_TIMEOUT_S)
        .env_remove("CHROMEDRIVER")
        .env_remove("GECKODRIVER")
        .env_remove("SAFARIDRIVER");
    match browser.engine {
        Engine::Chromium => cargo.env("CHROMEDRIVER", &browser.driver),
        Engine::Firefox => cargo.env("GECKODRIVER", &browser.driver),
        // The runner has this name for a driver that is asked for no more than the standard has.
        Engine::WebKit => cargo.env("SAFARIDRIVER", &browser.driver),
    };
    if let Some(display) = &browser.display {
        cargo.env("DISPLAY", display.name());
        cargo.env_remove("WAYLAND_DISPLAY");
    }
    Ok(run_tests(&mut cargo))
}

/// Builds the runner that `cargo test` hands each wasm file to.
fn build_runner() -> Result<PathBuf> {
    note("compiling the runner of the browser tests (the first time one to two minutes)");
    let mut cargo = Command::new(active_cargo());
    cargo
        .current_dir(paths::root())
        .args(["build", "--package", "xtask", "--features", "runner"])
        .args(["--bin", "wasm-test-runner"])
        .args(machine::locked());
    machine::run(&mut cargo)?;
    let name = format!("wasm-test-runner{}", std::env::consts::EXE_SUFFIX);
    Ok(paths::cargo_target().join("debug").join(name))
}

/// How the runner is to start the browser.
fn capabilities_json(browser: &Browser) -> String {
    let program = browser.program.display().to_string();
    match browser.engine {
        Engine::Chromium => {
            let mut args = vec!["--headless=new", "--disable-dev-shm-usage"];
            // As root, and only then, Chromium does not start with its sandbox.
            if machine::is_root() {
                args.push("--no-sandbox");
            }
            format!("{{\"goog:chromeOptions\":{{\"binary\":{program:?},\"args\":{args:?}}}}}")
        }
        Engine::Firefox => format!(
            "{{\"moz:firefoxOptions\":{{\"binary\":{program:?},\"args\":[\"-headless\"]}}}}"
        ),
        Engine::WebKit => "{}".to_owned(),
    }
}

/// Builds what the page tests look at and names its folder, with the sizes of the finished site.
fn page_folder(dev: bool) -> Result<(PathBuf, Option<size::Table>)> {
    if dev {
        wasm::compile(true)?;
        return Ok((paths::www(), None));
    }
    let sizes = dist::write()?;
    Ok((paths::site(), Some(sizes)))
}

/// The page tests in one browser.
fn page(
    browser: &Browser,
    folder: &std::path::Path,
    options: &Options,
    skipped: &mut Vec<(String, String)>,
) -> Result<Outcome> {
    let server = Running::start(folder, 0)?;
    let drivers = Driver::start_all(browser)?;
    let mut cargo = page_cargo("test", browser, &server, &drivers)?;
    cargo
        .args(["--test", "page"])
        .arg("--no-fail-fast")
        .args(machine::locked())
        .arg("--")
        .arg("--ignored");
    if browser.engine == Engine::WebKit {
        in_webkit(&mut cargo, options, skipped);
        return Ok(run_tests(&mut cargo));
    }
    // The checker reads the document, which is the same in both.
    let read_before = browser.engine == Engine::Firefox && options.engines.len() > 1;
    let checker = if read_before {
        Err(anyhow::anyhow!("the same document was read in Chromium"))
    } else {
        axe()
    };
    match checker {
        Ok(file) => {
            cargo.env("FOOTROOM_AXE", file);
        }
        Err(error) => {
            cargo.args(["--skip", "axe"]);
            skipped.push(("accessibility (axe)".to_owned(), format!("{error:#}")));
        }
    }
    if browser.engine == Engine::Firefox {
        cargo.args(["--skip", "chromium_only"]);
        if is_in_a_name("chromium_only")? {
            skipped.push((
                "tests named chromium_only".to_owned(),
                "need the developer protocol of Chromium, where they ran".to_owned(),
            ));
        }
    }
    // What these show comes from the calculation, the same in both; what differs between engines
    // (drawing, printing, storage, keys) is in the others.
    if read_before && options.name.is_none() {
        for part in [
            "decide::",
            "direct::",
            "doors::",
            "faults::",
            "offline::",
            "record::",
            "refused::",
            "requests::",
            "spread::",
        ] {
            cargo.args(["--skip", part]);
        }
        skipped.push((
            "page tests of decide, direct, doors, faults, offline, record, refused, requests and spread"
                .to_owned(),
            "ran in Chromium; `cargo xtask test --page --firefox` runs them here".to_owned(),
        ));
    }
    if options.dev {
        cargo.args(["--skip", "site_only"]);
        skipped.push((
            "tests named site_only".to_owned(),
            "need the finished site; run without --dev".to_owned(),
        ));
    }
    match &options.name {
        Some(name) => {
            cargo.arg(name).env("FOOTROOM_PICTURES", "1");
        }
        // Times say something only when nothing else runs, so they are taken when asked for; so are
        // pictures for the eye, and a search that takes a minute and is tested without the page.
        None => {
            cargo.args(["--skip", "time_of", "--skip", "at_length"]);
            // What these show is in the others at length.
            cargo.args(["--skip", "webkit::"]);
        }
    }
    Ok(run_tests(&mut cargo))
}

/// The page tests that run in WebKit when none is named: those that ask its driver for no more than the
/// standard has, and show what its engine could do otherwise.
const IN_WEBKIT: [&str; 5] = [
    "webkit::",
    "start::the_page_gets_ready",
    "start::errors_of_every_kind_are_seen",
    "journey::the_example_plays_changes_and_travels_in_a_link",
    "journey::a_wrong_value_and_a_damaged_link_lose_nothing",
];

/// Chooses the page tests for WebKit.
fn in_webkit(cargo: &mut Command, options: &Options, skipped: &mut Vec<(String, String)>) {
    cargo.args(["--skip", "axe", "--skip", "chromium_only"]);
    if options.dev {
        cargo.args(["--skip", "site_only"]);
    }
    match &options.name {
        Some(name) => {
            cargo.arg(name);
        }
        None => {
            cargo.args(IN_WEBKIT);
            skipped.push((
                "all other page tests".to_owned(),
                "run in Chromium; `cargo xtask test --webkit NAME` runs one here".to_owned(),
            ));
        }
    }
}

/// True when `part` is in the name of a page test.
fn is_in_a_name(part: &str) -> Result<bool> {
    let folder = paths::root().join("tests/page");
    for file in paths::files_under(&folder)? {
        let source = std::fs::read_to_string(folder.join(file))?;
        let mut lines = source.lines().map(str::trim_start);
        if lines.any(|line| line.starts_with("fn ") && line.contains(part)) {
            return Ok(true);
        }
    }
    Ok(false)
}

/// A cargo call that runs a program of the page rig, with the environment that the rig reads.
pub fn page_cargo(
    subcommand: &str,
    browser: &Browser,
    server: &Running,
    drivers: &[Driver],
) -> Result<Command> {
    paths::make_folder(&paths::shots())?;
    let serve = if server.folder().ends_with("site") {
        "serve --no-build --port 0 --site"
    } else {
        "serve --no-build --port 0"
    };
    let addresses: Vec<String> = drivers.iter().map(|driver| driver.address()).collect();
    let mut cargo = Command::new(active_cargo());
    cargo
        .current_dir(paths::root())
        .arg(subcommand)
        .args(["--package", "footroom-tests", "--features", "page"])
        .env("FOOTROOM_URL", server.address())
        .env("FOOTROOM_DRIVERS", addresses.join(" "))
        .env("FOOTROOM_BROWSER", browser.engine.key())
        .env("FOOTROOM_BROWSER_PROGRAM", &browser.program)
        .env("FOOTROOM_SERVE", serve)
        .env("FOOTROOM_SHOTS", paths::shots())
        .env("FOOTROOM_XTASK", std::env::current_exe()?)
        .env(
            "FOOTROOM_NO_SANDBOX",
            if machine::is_root() { "1" } else { "" },
        );
    Ok(cargo)
}

/// The script of the accessibility checker, fetched from npm once.
///
/// # Errors
/// One sentence saying why it cannot be had.
fn axe() -> Result<PathBuf> {
    let folder = paths::tools().join(format!("axe-core-{AXE_VERSION}"));
    let script = folder.join("package/axe.min.js");
    if script.is_file() {
        return Ok(script);
    }
    if machine::offline() {
        bail!("axe-core is missing and nothing may be fetched (XTASK_OFFLINE)");
    }
    if find_program(&["npm"]).is_none() {
        machine::install_packages(&["npm"], "npm, which fetches axe-core")?;
    }
    note("fetching axe-core, the accessibility checker, from npm once");
    paths::make_folder(&folder)?;
    let mut npm = Command::new("npm");
    npm.current_dir(&folder)
        .args(["pack", "--silent", &format!("axe-core@{AXE_VERSION}")]);
    machine::run(&mut npm).context("axe-core cannot be had from npm")?;
    let mut tar = Command::new("tar");
    tar.current_dir(&folder)
        .args(["-xzf", &format!("axe-core-{AXE_VERSION}.tgz")])
        .args(["package/axe.min.js", "package/LICENSE"]);
    machine::run(&mut tar)?;
    if !script.is_file() {
        bail!("axe-core from npm has no axe.min.js");
    }
    Ok(script)
}

/// Runs a `cargo test`, passing on what it says, and counts the tests from its closing lines. That
/// no test ran is a failure.
fn run_tests(cargo: &mut Command) -> Outcome {
    let started = cargo.stdin(Stdio::null()).stdout(Stdio::piped()).spawn();
    let mut child = match started {
        Ok(child) => child,
        Err(error) => return Outcome::Failed(format!("cannot start cargo: {error}")),
    };
    let mut counts = Counts::default();
    if let Some(stdout) = child.stdout.take() {
        for line in BufReader::new(stdout).lines().map_while(|line| line.ok()) {
            println!("{line}");
            counts.add(&line);
        }
    }
    match child.wait() {
        Ok(status) if status.success() && counts.passed > 0 => Outcome::Passed(counts),
        Ok(status) if status.success() => Outcome::Failed("no test ran".to_owned()),
        Ok(_) if counts.failed > 0 => Outcome::Failed(format!(
            "{} of {} tests",
            counts.failed,
            counts.failed + counts.passed
        )),
        Ok(status) => Outcome::Failed(format!("{} ended with {status}", described(cargo))),
        Err(error) => Outcome::Failed(error.to_string()),
    }
}

impl Counts {
    /// Adds what a closing line says, `test result: ok. 3 passed; 0 failed; 1 ignored; ...`.
    fn add(&mut self, line: &str) {
        let Some((_, rest)) = line
            .trim()
            .strip_prefix("test result: ")
            .and_then(|rest| rest.split_once(". "))
        else {
            return;
        };
        for part in rest.split("; ") {
            match part.split_once(' ') {
                Some((number, "passed")) => self.passed += number.parse().unwrap_or(0),
                Some((number, "failed")) => self.failed += number.parse().unwrap_or(0),
                Some((number, "ignored")) => self.ignored += number.parse().unwrap_or(0),
                _ => {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn closing_lines_are_added_up() {
        let mut counts = Counts::default();
        counts.add("running 3 tests");
        counts.add("test result: ok. 3 passed; 0 failed; 1 ignored; 0 measured; 0 filtered out");
        counts.add("    test result: FAILED. 2 passed; 4 failed; 0 ignored; 0 filtered out");
        let expected = Counts {
            passed: 5,
            failed: 4,
            ignored: 1,
        };
        assert_eq!(counts, expected);
    }

    #[test]
    fn options_choose_layers_and_browsers() {
        let take = |words: &[&str]| {
            let mut args = Args {
                words: words.iter().map(|&word| word.to_owned()).collect(),
            };
            let options = Options::take(&mut args);
            assert!(args.done().is_ok());
            (
                options.native,
                options.wasm,
                options.page,
                options.engines.len(),
            )
        };
        assert_eq!(take(&[]), (true, true, true, 3));
        assert_eq!(take(&["--native"]), (true, false, false, 3));
        assert_eq!(take(&["--firefox"]), (false, true, true, 1));
        assert_eq!(take(&["--webkit", "--page"]), (false, false, true, 1));
        assert_eq!(
            take(&["--page", "--chromium", "ready"]),
            (false, false, true, 1)
        );
        assert_eq!(take(&["--dev"]), (false, false, true, 3));
    }

    #[test]
    fn a_run_without_any_test_is_no_success() {
        let outcome = run_tests(Command::new("true").arg("x"));
        assert!(matches!(outcome, Outcome::Failed(reason) if reason == "no test ran"));
    }
}
