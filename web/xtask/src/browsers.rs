//! Browsers and their drivers: finding, fetching, starting and ending them.

use std::fs::File;
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc;
use std::time::Duration;

use anyhow::{Context, Result, bail};

use crate::machine::{self, find_program, note};
use crate::paths;
use crate::toolchain::active_cargo;

/// The driver of Firefox as it is on crates.io; no Debian package has it.
const GECKODRIVER: &str = "geckodriver@0.37.1";

/// Longest time a driver may take to listen.
const START_LIMIT: Duration = Duration::from_secs(30);

/// A browser engine that the page is tested in.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Engine {
    /// Chromium, or Chrome where that is what there is.
    Chromium,
    /// Firefox.
    Firefox,
}

/// A browser and its driver on this machine.
pub struct Browser {
    /// Its engine.
    pub engine: Engine,
    /// The browser's program.
    pub program: PathBuf,
    /// The driver's program.
    pub driver: PathBuf,
}

impl Engine {
    /// The name in messages.
    pub fn name(self) -> &'static str {
        match self {
            Engine::Chromium => "Chromium",
            Engine::Firefox => "Firefox",
        }
    }

    /// The name in the environment of the page tests and in names of files.
    pub fn key(self) -> &'static str {
        match self {
            Engine::Chromium => "chromium",
            Engine::Firefox => "firefox",
        }
    }
}

/// Finds the browser and its driver, fetching what is missing where that is allowed.
///
/// # Errors
/// One sentence saying what cannot be had.
pub fn get(engine: Engine) -> Result<Browser> {
    let (program, driver) = match engine {
        Engine::Chromium => {
            let find = || Some((chromium()?, chromedriver()?));
            match find() {
                Some(found) => found,
                None => {
                    machine::install_packages(
                        &["chromium", "chromium-driver"],
                        "Chromium with its driver",
                    )?;
                    find().context("Chromium or its driver is not on the path after installing")?
                }
            }
        }
        Engine::Firefox => {
            let program = match firefox() {
                Some(found) => found,
                None => {
                    machine::install_packages(&["firefox-esr"], "Firefox")?;
                    firefox().context("Firefox is not on the path after installing")?
                }
            };
            let driver = match geckodriver() {
                Some(found) => found,
                None => install_geckodriver()?,
            };
            (program, driver)
        }
    };
    Ok(Browser {
        engine,
        program,
        driver,
    })
}

fn chromium() -> Option<PathBuf> {
    find_program(&["chromium", "chromium-browser", "google-chrome", "chrome"])
}

fn chromedriver() -> Option<PathBuf> {
    std::env::var_os("CHROMEDRIVER")
        .map(PathBuf::from)
        .or_else(|| find_program(&["chromedriver"]))
}

fn firefox() -> Option<PathBuf> {
    find_program(&["firefox-esr", "firefox"])
}

fn geckodriver() -> Option<PathBuf> {
    std::env::var_os("GECKODRIVER")
        .map(PathBuf::from)
        .or_else(|| find_program(&["geckodriver"]))
        .or_else(|| {
            [cargo_home(), paths::tools()]
                .into_iter()
                .map(|folder| folder.join("bin/geckodriver"))
                .find(|file| file.is_file())
        })
}

fn cargo_home() -> PathBuf {
    std::env::var_os("CARGO_HOME")
        .map(PathBuf::from)
        .or_else(|| Some(PathBuf::from(std::env::var_os("HOME")?).join(".cargo")))
        .unwrap_or_else(paths::tools)
}

/// Compiles the driver once: into the cargo home where a machine does the check, so that the next
/// clone finds it, and into the project for a person, whose cargo home is left as it is.
fn install_geckodriver() -> Result<PathBuf> {
    if machine::offline() {
        bail!("geckodriver is missing and nothing may be fetched (XTASK_OFFLINE)");
    }
    let root = if std::env::var_os("CI").is_some() {
        cargo_home()
    } else {
        paths::tools()
    };
    note("compiling geckodriver once, the driver of Firefox (two to four minutes)");
    let mut cargo = Command::new(active_cargo());
    // Without optimisation it compiles in half the time and drives as fast.
    cargo
        .args(["install", "--locked", "--debug", GECKODRIVER, "--root"])
        .arg(&root)
        .env_remove("RUSTFLAGS")
        .env_remove("CARGO_TARGET_DIR");
    machine::run(&mut cargo).context("geckodriver cannot be had from crates.io")?;
    geckodriver().context("geckodriver is missing after installing it")
}

/// A driver at work; it ends, with the browsers it has started, when this value is dropped.
pub struct Driver {
    child: Child,
    port: u16,
}

impl Driver {
    /// Starts what tests with `browser` talk to: one driver for Chromium, and for Firefox, whose
    /// driver keeps one session at a time, one for each processor.
    ///
    /// # Errors
    /// When one cannot be started or does not listen in time.
    pub fn start_all(browser: &Browser) -> Result<Vec<Self>> {
        let count = match browser.engine {
            Engine::Chromium => 1,
            Engine::Firefox => std::thread::available_parallelism().map_or(1, |n| n.get()),
        };
        (1..=count).map(|n| Driver::start(browser, n)).collect()
    }

    /// Starts a driver on a free port. What it says goes to `target/<engine>-driver-<number>.log`.
    fn start(browser: &Browser, number: usize) -> Result<Self> {
        let log = paths::target().join(format!("{}-driver-{number}.log", browser.engine.key()));
        paths::make_folder(&paths::target())?;
        let mut command = Command::new(&browser.driver);
        match browser.engine {
            Engine::Chromium => command.arg("--port=0"),
            // The browser's own port too, or two runs at a time would meet on its usual one.
            Engine::Firefox => command.args(["--port", "0", "--websocket-port", "0"]),
        };
        let mut child = command
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(File::create(&log)?)
            .spawn()
            .with_context(|| format!("cannot start {}", browser.driver.display()))?;
        let stdout = child.stdout.take();
        let (send, receive) = mpsc::channel();
        // Reads to the end: a driver whose output nobody takes stands still.
        std::thread::spawn(move || {
            let Some(stdout) = stdout else { return };
            for line in BufReader::new(stdout).lines() {
                let Ok(line) = line else { return };
                if let Some(port) = listening_port(&line) {
                    // Nobody listens any more after the first one.
                    let _ = send.send(port);
                }
            }
        });
        let Ok(port) = receive.recv_timeout(START_LIMIT) else {
            machine::end_process(&mut child);
            bail!(
                "the driver of {} does not listen; see {}",
                browser.engine.name(),
                paths::shown(&log)
            );
        };
        Ok(Driver { child, port })
    }

    /// Where the driver listens.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        machine::end_process(&mut self.child);
    }
}

/// The port in a driver's message that it listens.
fn listening_port(line: &str) -> Option<u16> {
    let rest = line
        .split_once("started successfully on port ")
        .or_else(|| line.split_once("Listening on 127.0.0.1:"))?
        .1;
    rest.trim_end_matches('.').trim().parse().ok()
}

#[cfg(test)]
mod tests {
    use super::listening_port;

    #[test]
    fn ports_in_the_drivers_messages() {
        let chromium = "ChromeDriver was started successfully on port 37113.";
        let firefox = "1795600000000\tgeckodriver\tINFO\tListening on 127.0.0.1:40911";
        assert_eq!(listening_port(chromium), Some(37113));
        assert_eq!(listening_port(firefox), Some(40911));
        assert_eq!(listening_port("Only local connections are allowed."), None);
    }
}
