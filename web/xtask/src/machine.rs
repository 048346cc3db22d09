//! What the machine offers: programs on the path, Debian's packages, other processes.

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail};

/// Says on standard error what goes on. Standard output belongs to results.
pub fn note(text: &str) {
    eprintln!("note: {text}");
}

/// The first of `names` that is a file in a folder of the search path.
pub fn find_program(names: &[&str]) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    names.iter().find_map(|name| {
        std::env::split_paths(&path)
            .map(|folder| folder.join(name))
            .find(|file| file.is_file())
    })
}

/// True when nothing may be fetched.
pub fn offline() -> bool {
    std::env::var_os("XTASK_OFFLINE").is_some_and(|value| !value.is_empty() && value != "0")
}

/// `--locked` for cargo where a change of `Cargo.lock` is a mistake: in a check by machine. A person
/// who has just added a dependency gets it written.
pub fn locked() -> Option<&'static str> {
    std::env::var_os("CI").map(|_| "--locked")
}

/// True when the user may install packages and run browsers only without their sandbox.
pub fn is_root() -> bool {
    // The number of the user that owns the process's own folder; there is no way in `std` to ask.
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        std::fs::metadata("/proc/self").is_ok_and(|about| about.uid() == 0)
    }
    #[cfg(not(unix))]
    {
        false
    }
}

/// True on Debian and what derives from it.
pub fn is_debian() -> bool {
    Path::new("/etc/debian_version").is_file() && find_program(&["apt-get"]).is_some()
}

/// Installs Debian packages, where the tool may.
///
/// # Errors
/// One sentence saying what was wanted and the command that gets it.
pub fn install_packages(packages: &[&str], purpose: &str) -> Result<()> {
    let list = packages.join(" ");
    if !is_debian() {
        bail!(
            "{purpose} is missing; the Debian packages are {list}, other systems name them alike"
        );
    }
    let by_hand = format!("apt-get install --no-install-recommends {list}");
    if offline() {
        bail!("{purpose} is missing and nothing may be fetched (XTASK_OFFLINE); later: {by_hand}");
    }
    if !is_root() {
        bail!("{purpose} is missing; as root: {by_hand}");
    }
    note(&format!("installing {list} for {purpose}"));
    let install = || {
        let mut command = apt_get();
        command.args(["install", "-y", "--no-install-recommends"]);
        command.args(packages);
        run(&mut command)
    };
    // The package lists of a fresh machine are missing or old.
    if install().is_err() {
        run(apt_get().arg("update")).context("cannot read Debian's package lists")?;
        install().with_context(|| format!("{purpose} cannot be installed; tried: {by_hand}"))?;
    }
    Ok(())
}

fn apt_get() -> Command {
    let mut command = Command::new("apt-get");
    command
        .args(["-q", "-o", "Dpkg::Use-Pty=0"])
        .env("DEBIAN_FRONTEND", "noninteractive");
    command
}

/// Runs a command to its end with its output on standard error.
///
/// # Errors
/// When it cannot be started or ends with another status than 0.
pub fn run(command: &mut Command) -> Result<()> {
    command.stdin(Stdio::null()).stdout(std::io::stderr());
    let name = command.get_program().to_string_lossy().into_owned();
    let status = command
        .status()
        .with_context(|| format!("cannot start {name}"))?;
    if !status.success() {
        bail!("{} ended with {status}", described(command));
    }
    Ok(())
}

/// Standard output of a command, without the line's end; nothing when it fails.
pub fn answer(command: &mut Command) -> Option<String> {
    let output = command
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .output()
        .ok()?;
    if !output.status.success() {
        return None;
    }
    Some(
        String::from_utf8_lossy(&output.stdout)
            .trim_end()
            .to_owned(),
    )
}

/// The command as one would type it, with the program's folder left out.
pub fn described(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let mut words = vec![
        program
            .file_name()
            .unwrap_or(command.get_program())
            .to_string_lossy()
            .into_owned(),
    ];
    words.extend(
        command
            .get_args()
            .map(|arg| arg.to_string_lossy().into_owned()),
    );
    words.join(" ")
}

/// Waits for a process to end, at most `limit`; true when it ended by itself.
pub fn wait_at_most(child: &mut Child, limit: Duration) -> bool {
    let start = Instant::now();
    while start.elapsed() < limit {
        if !matches!(child.try_wait(), Ok(None)) {
            return true;
        }
        std::thread::sleep(Duration::from_millis(20));
    }
    false
}

/// Ends a process: asks by its number first, so that it can end what it has started itself, and
/// forces it after five seconds.
pub fn end_process(child: &mut Child) {
    #[cfg(unix)]
    {
        let asked = Command::new("sh")
            .args(["-c", &format!("kill -TERM {}", child.id())])
            .stdin(Stdio::null())
            .stderr(Stdio::null())
            .status();
        if asked.is_ok() && wait_at_most(child, Duration::from_secs(5)) {
            return;
        }
    }
    // Fails only when the process has ended, which is what is wanted.
    let _ = child.kill();
    let _ = child.wait();
}
