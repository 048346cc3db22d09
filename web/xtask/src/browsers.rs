//! Browsers and their drivers: finding, fetching, starting and ending them.

use std::fs::File;
use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc;
use std::time::{Duration, Instant};

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
    /// WebKitGTK, in the small browser that comes with it.
    WebKit,
}

/// A browser and its driver on this machine.
pub struct Browser {
    /// Its engine.
    pub engine: Engine,
    /// The browser's program.
    pub program: PathBuf,
    /// The driver's program.
    pub driver: PathBuf,
    /// Where its windows go, if it has to have some.
    pub display: Option<Display>,
}

impl Engine {
    /// The name in messages.
    pub fn name(self) -> &'static str {
        match self {
            Engine::Chromium => "Chromium",
            Engine::Firefox => "Firefox",
            Engine::WebKit => "WebKit",
        }
    }

    /// The name in the environment of the page tests and in names of files.
    pub fn key(self) -> &'static str {
        match self {
            Engine::Chromium => "chromium",
            Engine::Firefox => "firefox",
            Engine::WebKit => "webkit",
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
        Engine::WebKit => {
            let find = || display_server().and(Some((minibrowser()?, webkitdriver()?)));
            match find() {
                Some(found) => found,
                None => {
                    machine::install_packages(
                        &["webkit2gtk-driver", "xvfb"],
                        "WebKit with its driver, and a display for it",
                    )?;
                    find().context("WebKit, its driver or a display is missing after installing")?
                }
            }
        }
    };
    let display = match engine {
        Engine::WebKit => Some(Display::start()?),
        Engine::Chromium | Engine::Firefox => None,
    };
    Ok(Browser {
        engine,
        program,
        driver,
        display,
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

fn webkitdriver() -> Option<PathBuf> {
    find_program(&["WebKitWebDriver"])
}

/// The browser of WebKitGTK, which stands beside the programs that it runs, in no folder of the path.
fn minibrowser() -> Option<PathBuf> {
    let folders = |under: &str| {
        let found = std::fs::read_dir(under).into_iter().flatten().flatten();
        let mut found: Vec<_> = found.map(|entry| entry.path()).collect();
        found.sort();
        found
    };
    let mut beside = folders("/usr/libexec");
    for folder in folders("/usr/lib") {
        beside.extend(folders(&folder.to_string_lossy()));
        beside.push(folder);
    }
    let of_gtk = |folder: &PathBuf| {
        let name = folder.file_name().unwrap_or_default().to_string_lossy();
        name.starts_with("webkit2gtk-") || name.starts_with("webkitgtk-")
    };
    let browsers = beside.into_iter().filter(of_gtk);
    // The newest.
    browsers
        .rev()
        .map(|folder| folder.join("MiniBrowser"))
        .find(|file| file.is_file())
}

fn display_server() -> Option<PathBuf> {
    find_program(&["Xvfb"])
}

/// A display that nobody sees, for a browser that has no mode without window; it ends when this value
/// is dropped.
pub struct Display {
    child: Child,
    name: String,
}

impl Display {
    fn start() -> Result<Self> {
        let program = display_server().context("Xvfb is missing")?;
        let mut child = Command::new(program)
            // It says on its standard output which number was free.
            .args(["-displayfd", "1", "-nolisten", "tcp"])
            // Wider and higher than every window of the tests, three device pixels to one of theirs.
            .args(["-screen", "0", "2048x2816x24"])
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .context("cannot start Xvfb")?;
        let mut number = String::new();
        if let Some(stdout) = child.stdout.take() {
            BufReader::new(stdout).read_line(&mut number)?;
        }
        let name = format!(":{}", number.trim());
        let display = Display { child, name };
        if display.name == ":" {
            bail!("Xvfb gives no display");
        }
        Ok(display)
    }

    /// What programs call it.
    pub fn name(&self) -> &str {
        &self.name
    }
}

impl Drop for Display {
    fn drop(&mut self) {
        machine::end_process(&mut self.child);
    }
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
    /// Starts what tests with `browser` talk to: one driver for Chromium, and for the others, whose
    /// drivers keep one session at a time, one for each processor.
    ///
    /// # Errors
    /// When one cannot be started or does not listen in time.
    pub fn start_all(browser: &Browser) -> Result<Vec<Self>> {
        let count = match browser.engine {
            Engine::Chromium => 1,
            Engine::Firefox | Engine::WebKit => {
                std::thread::available_parallelism().map_or(1, |n| n.get())
            }
        };
        (1..=count).map(|n| Driver::start(browser, n)).collect()
    }

    /// Starts a driver on a free port. What it says goes to `target/<engine>-driver-<number>.log`.
    fn start(browser: &Browser, number: usize) -> Result<Self> {
        let log = paths::target().join(format!("{}-driver-{number}.log", browser.engine.key()));
        paths::make_folder(&paths::target())?;
        let mut command = Command::new(&browser.driver);
        let mut port = 0;
        match browser.engine {
            Engine::Chromium => command.arg("--port=0"),
            // The browser's own port too, or two runs at a time would meet on its usual one.
            Engine::Firefox => command.args(["--port", "0", "--websocket-port", "0"]),
            // This one takes no free port by itself, and does not say that it listens.
            Engine::WebKit => {
                port = free_port()?;
                command.arg(format!("--port={port}"))
            }
        };
        if let Some(display) = &browser.display {
            command.env("DISPLAY", display.name());
            // Another display of the same person's would be taken first.
            command.env_remove("WAYLAND_DISPLAY");
        }
        let mut child = command
            .stdin(Stdio::null())
            .stdout(match browser.engine {
                Engine::WebKit => Stdio::null(),
                Engine::Chromium | Engine::Firefox => Stdio::piped(),
            })
            .stderr(File::create(&log)?)
            .spawn()
            .with_context(|| format!("cannot start {}", browser.driver.display()))?;
        if browser.engine == Engine::WebKit {
            let mut driver = Driver { child, port };
            if driver.listens() {
                return Ok(driver);
            }
            bail!(
                "the driver of WebKit does not listen; see {}",
                paths::shown(&log)
            );
        }
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

    /// Waits for a driver that does not say when it listens; false when it ends or takes too long.
    fn listens(&mut self) -> bool {
        let start = Instant::now();
        while start.elapsed() < START_LIMIT && matches!(self.child.try_wait(), Ok(None)) {
            if TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).is_ok() {
                return true;
            }
            std::thread::sleep(Duration::from_millis(20));
        }
        false
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

/// A port that nobody listens on at present.
fn free_port() -> Result<u16> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
    Ok(listener.local_addr()?.port())
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
