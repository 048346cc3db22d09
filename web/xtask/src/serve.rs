//! The server for development and for the tests: files of one folder, on this machine only.

use std::io::{Read, Write};
use std::net::{Ipv4Addr, Shutdown, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::Duration;

use anyhow::{Context, Result};

use crate::headers::{HEADERS, cache_rule};
use crate::machine::note;
use crate::refs::extension;
use crate::{dist, paths, size, wasm};

/// The port taken when none is asked for and it is free.
const USUAL_PORT: u16 = 8017;

/// Longest wait for a request to come and for its answer to be taken.
const REQUEST_LIMIT: Duration = Duration::from_secs(30);

/// Longest head of a request, in bytes.
const HEAD_LIMIT: u64 = 16 * 1024;

/// Most connections at a time, each with its thread and at most two descriptors: a process may
/// usually have a thousand. Browsers keep some dozens.
const CONNECTIONS_MAX: usize = 200;

/// Wait after a connection that could not be taken, as when the process has no descriptor left: the
/// next try would fail as well, as fast as the processor goes.
const PAUSE: Duration = Duration::from_millis(50);

/// What `cargo xtask serve` was asked for.
pub struct Options {
    /// Quick build.
    pub dev: bool,
    /// The finished site instead of the page as written.
    pub site: bool,
    /// False to serve what is there.
    pub build: bool,
    /// 0 takes any free one.
    pub port: Option<u16>,
}

/// Builds, then serves until the process is ended. The address is the first line of standard output.
///
/// # Errors
/// When the build fails or the port is taken.
pub fn run(options: &Options) -> Result<()> {
    let folder = if options.site {
        if options.build {
            dist::run()?;
        }
        paths::site()
    } else {
        if options.build {
            wasm::build(options.dev)?;
        }
        paths::www()
    };
    let running = match options.port {
        Some(port) => Running::start(&folder, port)?,
        None => Running::start(&folder, USUAL_PORT).or_else(|_| Running::start(&folder, 0))?,
    };
    println!("{}", running.address());
    note(&format!(
        "serving {}; Ctrl-C ends it",
        paths::shown(&folder)
    ));
    running.wait();
    Ok(())
}

/// A server at work; it ends when this value is dropped.
///
/// One thread and one request a connection. A browser opens several connections at a time and keeps
/// them; a server with a fixed number of workers can leave a request waiting behind one that is kept.
pub struct Running {
    folder: PathBuf,
    port: u16,
    ending: Arc<AtomicBool>,
    accepting: Option<JoinHandle<()>>,
}

impl Running {
    /// Serves `folder` on 127.0.0.1; port 0 takes any free one.
    ///
    /// # Errors
    /// When there is no such folder or the port is taken.
    pub fn start(folder: &Path, port: u16) -> Result<Self> {
        let folder = folder
            .canonicalize()
            .with_context(|| format!("there is no {} to serve", paths::shown(folder)))?;
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))
            .with_context(|| format!("cannot serve on port {port}"))?;
        let port = listener.local_addr()?.port();
        let ending = Arc::new(AtomicBool::new(false));
        let accepting = std::thread::spawn({
            let (folder, ending) = (folder.clone(), Arc::clone(&ending));
            move || {
                let places = Arc::new(Places::default());
                take_all(listener.incoming(), &std::thread::sleep, |stream| {
                    if ending.load(Ordering::Acquire) {
                        return false;
                    }
                    let place = Place::take(&places);
                    let folder = folder.clone();
                    std::thread::spawn(move || {
                        // A browser that hangs up before the end is no matter.
                        drop(respond(stream, &folder));
                        drop(place);
                    });
                    true
                });
            }
        });
        Ok(Running {
            folder,
            port,
            ending,
            accepting: Some(accepting),
        })
    }

    /// The address of the page, with the slash at its end.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/", self.port)
    }

    /// The folder that is served.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Serves until the process is ended.
    fn wait(mut self) {
        if let Some(accepting) = self.accepting.take() {
            // It ends by a panic only, which has been reported.
            let _ = accepting.join();
        }
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.ending.store(true, Ordering::Release);
        if let Some(accepting) = self.accepting.take() {
            // A last connection wakes the thread, which then sees that it is to end.
            if TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).is_ok() {
                let _ = accepting.join();
            }
        }
    }
}

/// Takes connections until `serve` gives false, and waits after each that could not be taken.
fn take_all<S>(
    incoming: impl Iterator<Item = std::io::Result<S>>,
    wait: &dyn Fn(Duration),
    mut serve: impl FnMut(S) -> bool,
) {
    for stream in incoming {
        let Ok(stream) = stream else {
            wait(PAUSE);
            continue;
        };
        if !serve(stream) {
            return;
        }
    }
}

/// How many connections there are.
#[derive(Default)]
struct Places {
    taken: Mutex<usize>,
    given_back: Condvar,
}

/// The place of a connection among [`CONNECTIONS_MAX`]; given back when it is dropped.
struct Place(Arc<Places>);

impl Place {
    /// Waits for a place.
    fn take(places: &Arc<Places>) -> Self {
        let taken = places.taken.lock().unwrap_or_else(PoisonError::into_inner);
        let mut taken = places
            .given_back
            .wait_while(taken, |taken| *taken >= CONNECTIONS_MAX)
            .unwrap_or_else(PoisonError::into_inner);
        *taken += 1;
        Place(Arc::clone(places))
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        *self.0.taken.lock().unwrap_or_else(PoisonError::into_inner) -= 1;
        self.0.given_back.notify_one();
    }
}

/// Answers the one request of a connection.
fn respond(mut stream: TcpStream, folder: &Path) -> std::io::Result<()> {
    stream.set_read_timeout(Some(REQUEST_LIMIT))?;
    stream.set_write_timeout(Some(REQUEST_LIMIT))?;
    let Some(head) = read_head(&mut stream)? else {
        return Ok(());
    };
    let mut words = head.lines().next().unwrap_or_default().split(' ');
    let (method, url) = (
        words.next().unwrap_or_default(),
        words.next().unwrap_or_default(),
    );
    let not_found = || ("404 Not Found", TEXT, b"not found\n".to_vec());
    let packed_too = accepts_gzip(&head);
    let mut packed = false;
    let (status, mime, content) = if !matches!(method, "GET" | "HEAD") {
        (
            "405 Method Not Allowed",
            TEXT,
            b"only GET and HEAD\n".to_vec(),
        )
    } else if let Some(file) = file_for(url, folder) {
        let mime = mime_type(&file.to_string_lossy());
        if let Some(content) = packed_too.then(|| compressed(&file)).flatten() {
            packed = true;
            ("200 OK", mime, content)
        } else {
            match std::fs::read(&file) {
                Ok(content) => ("200 OK", mime, content),
                Err(_) => not_found(),
            }
        }
    } else {
        not_found()
    };
    let mut head = format!(
        "HTTP/1.1 {status}\r\n\
         Content-Type: {mime}\r\n\
         Content-Length: {}\r\n\
         Cache-Control: {}\r\n",
        content.len(),
        cache_rule(url.split(['?', '#']).next().unwrap_or_default()),
    );
    for (name, value) in HEADERS {
        head.push_str(&format!("{name}: {value}\r\n"));
    }
    if packed {
        head.push_str("Content-Encoding: gzip\r\n");
    }
    head.push_str("Vary: Accept-Encoding\r\nConnection: close\r\n\r\n");
    let mut answer = head.into_bytes();
    if method != "HEAD" {
        answer.extend_from_slice(&content);
    }
    stream.write_all(&answer)?;
    stream.shutdown(Shutdown::Write)?;
    // Reads what is left, or closing could take the answer away from the other side.
    std::io::copy(&mut stream.take(HEAD_LIMIT), &mut std::io::sink())?;
    Ok(())
}

/// Whether a request's head takes gzip.
fn accepts_gzip(head: &str) -> bool {
    head.lines()
        .filter_map(|line| line.split_once(':'))
        .filter(|(name, _)| name.eq_ignore_ascii_case("accept-encoding"))
        .flat_map(|(_, value)| value.split(','))
        .map(|coding| coding.trim().to_ascii_lowercase().replace(' ', ""))
        .any(|coding| coding == "gzip" || (coding.starts_with("gzip;") && coding != "gzip;q=0"))
}

/// Largest file that is compressed when it is asked for, bytes: larger ones are while they are built.
const PACKED_MAX: u64 = 200_000;

/// A file as the build has compressed it, if that is no older; a small one compressed now. Nothing for
/// kinds that do not compress, and where it cannot be read.
fn compressed(file: &Path) -> Option<Vec<u8>> {
    let name = file.to_string_lossy();
    if !dist::compresses(&name) {
        return None;
    }
    let beside = PathBuf::from(format!("{name}.gz"));
    let written = |path: &Path| path.metadata().and_then(|m| m.modified()).ok();
    if written(&beside).is_some_and(|made| Some(made) >= written(file)) {
        return std::fs::read(beside).ok();
    }
    if file.metadata().ok()?.len() > PACKED_MAX {
        return None;
    }
    size::gz(&std::fs::read(file).ok()?).ok()
}

/// The request up to its empty line; nothing when the connection ends before, or it is too long or
/// not text.
fn read_head(stream: &mut TcpStream) -> std::io::Result<Option<String>> {
    let mut head = Vec::new();
    let mut part = [0; 4096];
    while !head.windows(4).any(|end| end == b"\r\n\r\n") {
        let count = stream.read(&mut part)?;
        if count == 0 || head.len() as u64 > HEAD_LIMIT {
            return Ok(None);
        }
        head.extend_from_slice(&part[..count]);
    }
    Ok(String::from_utf8(head).ok())
}

/// The file that an address means, when it is in `folder`. Nothing for a path with `..`, a hidden
/// name, an escape other than of plain text, or a link that leads out.
fn file_for(url: &str, folder: &Path) -> Option<PathBuf> {
    let path = url.split(['?', '#']).next()?.strip_prefix('/')?;
    let path = unescaped(path)?;
    if path.contains(['\\', '\0', ':']) {
        return None;
    }
    let mut file = folder.to_owned();
    for part in path.split('/').filter(|part| !part.is_empty()) {
        if part.starts_with('.') {
            return None;
        }
        file.push(part);
    }
    if path.is_empty() || path.ends_with('/') {
        file.push("index.html");
    }
    let file = file.canonicalize().ok()?;
    (file.starts_with(folder) && file.is_file()).then_some(file)
}

/// `path` with its `%xx` replaced; nothing when one is broken or the text is not UTF-8.
fn unescaped(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.as_bytes();
    while let [first, after @ ..] = rest {
        if *first == b'%' {
            let digits = std::str::from_utf8(after.get(..2)?).ok()?;
            bytes.push(u8::from_str_radix(digits, 16).ok()?);
            rest = &after[2..];
        } else {
            bytes.push(*first);
            rest = after;
        }
    }
    String::from_utf8(bytes).ok()
}

const TEXT: &str = "text/plain; charset=utf-8";

fn mime_type(path: &str) -> &'static str {
    match extension(path) {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "wasm" => "application/wasm",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "csv" => "text/csv; charset=utf-8",
        "txt" | "md" | "ts" => TEXT,
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folder(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("footroom-{name}-{}", std::process::id()));
        std::fs::create_dir_all(folder.join("page/pkg")).unwrap();
        std::fs::write(folder.join("secret.txt"), "secret").unwrap();
        std::fs::write(folder.join("page/index.html"), "<p>page").unwrap();
        std::fs::write(folder.join("page/.hidden"), "secret").unwrap();
        std::fs::write(folder.join("page/pkg/a b.wasm"), "\0asm").unwrap();
        folder
    }

    #[test]
    fn nothing_outside_the_folder_is_found() {
        let folder = folder("paths");
        let page = folder.join("page").canonicalize().unwrap();
        assert_eq!(file_for("/?a#b", &page), Some(page.join("index.html")));
        assert_eq!(
            file_for("/pkg/a%20b.wasm", &page),
            Some(page.join("pkg/a b.wasm"))
        );
        for url in [
            "/../secret.txt",
            "/%2e%2e/secret.txt",
            "/pkg/../../secret.txt",
            "/..%2fsecret.txt",
            "/.hidden",
            "/pkg",
            "/%",
            "/%zz",
            "//etc/passwd",
            "secret.txt",
        ] {
            assert_eq!(file_for(url, &page), None, "{url}");
        }
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn the_headers_go_with_every_answer() {
        let folder = folder("headers");
        let running = Running::start(&folder.join("page"), 0).unwrap();
        for (path, status, mime) in [
            ("/", "200", "text/html; charset=utf-8"),
            ("/pkg/a%20b.wasm", "200", "application/wasm"),
            ("/../secret.txt", "404", "text/plain; charset=utf-8"),
        ] {
            let mut stream = TcpStream::connect(("127.0.0.1", running.port)).unwrap();
            write!(
                stream,
                "GET {path} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n"
            )
            .unwrap();
            let mut answer = String::new();
            stream.read_to_string(&mut answer).unwrap();
            assert!(
                answer.starts_with(&format!("HTTP/1.1 {status}")),
                "{answer}"
            );
            let mut headers = vec![
                format!("Content-Type: {mime}"),
                format!("Cache-Control: {}", cache_rule(path)),
            ];
            headers.extend(HEADERS.map(|(name, value)| format!("{name}: {value}")));
            for header in headers {
                let line = format!("\r\n{header}\r\n");
                assert!(answer.contains(&line), "{header} is not in {answer}");
            }
            assert!(!answer.contains("secret\n"));
        }
        drop(running);
        std::fs::remove_dir_all(folder).unwrap();
    }

    /// As a host would: compressed for who takes it, the same bytes for both.
    #[test]
    fn what_is_served_is_compressed_for_who_takes_it() {
        let folder = folder("packed");
        let page = folder.join("page");
        let large = "a line of the page\n".repeat(20_000);
        std::fs::write(page.join("large.js"), &large).unwrap();
        let running = Running::start(&page, 0).unwrap();
        let ask = |path: &str, accepts: &str| {
            let mut stream = TcpStream::connect(("127.0.0.1", running.port)).unwrap();
            write!(stream, "GET {path} HTTP/1.1\r\nHost: x\r\n{accepts}\r\n").unwrap();
            let mut answer = Vec::new();
            stream.read_to_end(&mut answer).unwrap();
            let end = answer.windows(4).position(|w| w == b"\r\n\r\n").unwrap() + 4;
            let head = String::from_utf8(answer[..end].to_vec()).unwrap();
            let body = answer.split_off(end);
            assert!(head.contains(&format!("\r\nContent-Length: {}\r\n", body.len())));
            (head.contains("\r\nContent-Encoding: gzip\r\n"), body)
        };
        let unpacked = |body: &[u8]| {
            let mut text = String::new();
            flate2::read::GzDecoder::new(body)
                .read_to_string(&mut text)
                .unwrap();
            text
        };
        let takes = "Accept-Encoding: br, gzip;q=0.8\r\n";
        let (packed, body) = ask("/", takes);
        assert!(packed && unpacked(&body) == "<p>page");
        for refused in [
            "",
            "Accept-Encoding: br\r\n",
            "Accept-Encoding: gzip;q=0\r\n",
        ] {
            assert_eq!(ask("/", refused), (false, b"<p>page".to_vec()), "{refused}");
        }
        // A large one only as the build has left it, and not once the file is newer.
        assert_eq!(ask("/large.js", takes), (false, large.clone().into_bytes()));
        let beside = page.join("large.js.gz");
        std::fs::write(&beside, size::gz(large.as_bytes()).unwrap()).unwrap();
        let (packed, body) = ask("/large.js", takes);
        assert!(packed && unpacked(&body) == large && body.len() < large.len() / 10);
        let made = beside.metadata().unwrap().modified().unwrap();
        let file = std::fs::File::options()
            .write(true)
            .open(page.join("large.js"))
            .unwrap();
        file.set_modified(made + Duration::from_secs(1)).unwrap();
        assert!(!ask("/large.js", takes).0);
        drop(running);
        std::fs::remove_dir_all(folder).unwrap();
    }

    /// A process without descriptors gets the same error again at once: each is waited after.
    #[test]
    fn a_connection_that_cannot_be_taken_is_waited_after() {
        let waited = std::cell::Cell::new(Duration::ZERO);
        let no_descriptor = || Err(std::io::Error::from_raw_os_error(24));
        let mut incoming: Vec<std::io::Result<u32>> = (0..1000).map(|_| no_descriptor()).collect();
        incoming.insert(500, Ok(1));
        incoming.push(Ok(2));
        incoming.push(Ok(3));
        let mut served = Vec::new();
        take_all(
            incoming.into_iter(),
            &|pause| waited.set(waited.get() + pause),
            |stream| {
                served.push(stream);
                stream != 2
            },
        );
        assert_eq!(served, [1, 2]);
        assert_eq!(waited.get(), 1000 * PAUSE);
    }

    /// However many connections come, there are no more threads and descriptors than that.
    #[test]
    fn connections_have_a_greatest_number() {
        let places = Arc::new(Places::default());
        let mut held: Vec<Place> = (0..CONNECTIONS_MAX).map(|_| Place::take(&places)).collect();
        let waiting = std::thread::spawn({
            let places = Arc::clone(&places);
            move || drop(Place::take(&places))
        });
        assert_eq!(*places.taken.lock().unwrap(), CONNECTIONS_MAX);
        assert!(!waiting.is_finished());
        held.pop();
        waiting.join().unwrap();
        drop(held);
        assert_eq!(*places.taken.lock().unwrap(), 0);
    }

    #[test]
    fn connections_that_say_nothing_keep_no_request_waiting() {
        let folder = folder("waiting");
        let running = Running::start(&folder.join("page"), 0).unwrap();
        let connect = || TcpStream::connect(("127.0.0.1", running.port)).unwrap();
        let silent: Vec<TcpStream> = (0..20).map(|_| connect()).collect();
        let mut asking: Vec<TcpStream> = (0..20).map(|_| connect()).collect();
        for stream in &mut asking {
            stream.set_read_timeout(Some(REQUEST_LIMIT / 3)).unwrap();
            stream.write_all(b"HEAD / HTTP/1.1\r\n\r\n").unwrap();
        }
        for mut stream in asking {
            let mut answer = String::new();
            stream.read_to_string(&mut answer).unwrap();
            assert!(answer.contains("Content-Length: 7\r\n"), "{answer}");
            assert!(answer.ends_with("\r\n\r\n"), "{answer}");
        }
        drop(silent);
        drop(running);
        std::fs::remove_dir_all(folder).unwrap();
    }
}
