//! A host of the page that does what hosts do: keeps copies at several addresses, lets browsers keep
//! files, puts up a newer version and takes the old files away, lacks a file, breaks off half-way.

use std::io::{Read, Write};
use std::net::{Ipv4Addr, Shutdown, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// Longest wait for a request or an answer.
const LIMIT: Duration = Duration::from_secs(30);

/// What the host does at present.
#[derive(Clone, Debug, Default)]
pub struct Manner {
    /// Browsers may keep every file, the page itself too, for an hour.
    pub keeps: bool,
    /// A newer version stands there: its scripts, styles and modules have other names, and those of
    /// the first version are gone.
    pub newer: bool,
    /// The newer version's page has not come through yet: the old one is served for it.
    pub stale_page: bool,
    /// Files whose path holds one of these are not there.
    pub missing: Vec<&'static str>,
    /// Answers with a path that holds this break off in the middle.
    pub cut: Option<&'static str>,
}

struct Shared {
    /// Where the page is served in its ordinary manner.
    upstream: String,
    manner: Mutex<Manner>,
    ending: AtomicBool,
    /// What was asked for, in order.
    asked: Mutex<Vec<String>>,
}

/// The host at work; it ends when this value is dropped.
pub struct Host {
    shared: Arc<Shared>,
    port: u16,
}

fn locked<T>(kept: &Mutex<T>) -> MutexGuard<'_, T> {
    kept.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Host {
    /// Starts one on a free port.
    pub fn start(manner: Manner) -> Self {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).expect("a free port");
        let port = listener.local_addr().expect("an address").port();
        let shared = Arc::new(Shared {
            upstream: std::env::var("FOOTROOM_URL").expect("run by  cargo xtask test --page"),
            manner: Mutex::new(manner),
            ending: AtomicBool::new(false),
            asked: Mutex::new(Vec::new()),
        });
        std::thread::spawn({
            let shared = Arc::clone(&shared);
            move || {
                for stream in listener.incoming().flatten() {
                    if shared.ending.load(Ordering::Acquire) {
                        return;
                    }
                    let shared = Arc::clone(&shared);
                    // A browser that hangs up before the end is no matter.
                    std::thread::spawn(move || drop(respond(stream, &shared)));
                }
            }
        });
        Host { shared, port }
    }

    /// Address of a copy of the page, with the slash at its end; `copy` is a folder or empty.
    pub fn address(&self, copy: &str) -> String {
        let folder = if copy.is_empty() {
            String::new()
        } else {
            format!("{copy}/")
        };
        format!("http://127.0.0.1:{}/{folder}", self.port)
    }

    /// Changes what it does.
    pub fn change(&self, change: impl FnOnce(&mut Manner)) {
        change(&mut locked(&self.shared.manner));
    }

    /// What was asked for since the last call.
    pub fn asked(&self) -> Vec<String> {
        std::mem::take(&mut locked(&self.shared.asked))
    }
}

impl Drop for Host {
    fn drop(&mut self) {
        self.shared.ending.store(true, Ordering::Release);
        drop(TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)));
    }
}

/// The copies that a host may have, by their folders.
pub const COPIES: [&str; 2] = ["one", "two"];

fn respond(mut stream: TcpStream, shared: &Shared) -> std::io::Result<()> {
    stream.set_read_timeout(Some(LIMIT))?;
    let mut head = Vec::new();
    let mut part = [0; 4096];
    while !head.windows(4).any(|end| end == b"\r\n\r\n") {
        let count = stream.read(&mut part)?;
        if count == 0 {
            return Ok(());
        }
        head.extend_from_slice(&part[..count]);
    }
    let head = String::from_utf8_lossy(&head).into_owned();
    let path = head.split(' ').nth(1).unwrap_or("/").to_owned();
    locked(&shared.asked).push(path.clone());
    let manner = locked(&shared.manner).clone();
    let inside = COPIES
        .iter()
        .find_map(|copy| path.strip_prefix(&format!("/{copy}/")))
        .unwrap_or_else(|| path.trim_start_matches('/'));
    let (mut status, mut mime, mut body) = answer(&shared.upstream, inside, &manner)?;
    if manner.missing.iter().any(|part| inside.contains(part)) {
        (status, mime, body) = (404, "text/plain".to_owned(), b"not found".to_vec());
    }
    let keep = if manner.keeps {
        "max-age=3600"
    } else {
        "no-store"
    };
    let head = format!(
        "HTTP/1.1 {status} x\r\nContent-Type: {mime}\r\nContent-Length: {}\r\n\
         Cache-Control: {keep}\r\nConnection: close\r\n\r\n",
        body.len()
    );
    stream.write_all(head.as_bytes())?;
    if manner.cut.is_some_and(|part| inside.contains(part)) {
        body.truncate(body.len() / 2);
    }
    stream.write_all(&body)?;
    stream.shutdown(Shutdown::Write)?;
    // Reads what is left, or closing could take the answer away from the other side.
    std::io::copy(&mut stream.take(1 << 16), &mut std::io::sink())?;
    Ok(())
}

/// Status, kind and content of a file in the present manner.
fn answer(upstream: &str, path: &str, manner: &Manner) -> std::io::Result<(u16, String, Vec<u8>)> {
    let old_page = manner.stale_page && path.split(['?', '#']).next() == Some("");
    if !manner.newer || old_page {
        return get(upstream, path);
    }
    // A name of the first version so becomes one that is not there.
    let path = renamed(path, Turn::Back);
    let (status, mime, body) = get(upstream, &path)?;
    if !(mime.starts_with("text/") || mime.contains("json")) {
        return Ok((status, mime, body));
    }
    let text = String::from_utf8_lossy(&body);
    let mut text = renamed(&text, Turn::On);
    if path == "sw.js" {
        text = text.replacen("const VERSION = \"", "const VERSION = \"2", 1);
    }
    text = text.replacen("<body data-state", "<body data-version=\"2\" data-state", 1);
    Ok((status, mime, text.into_bytes()))
}

#[derive(Clone, Copy, PartialEq)]
enum Turn {
    On,
    Back,
}

/// Digits of the hash in a file's name.
const DIGITS: usize = 10;

/// The text with the names of one version in place of the other's: the first digit of each hash is
/// the next one (or, back, the one before).
fn renamed(text: &str, turn: Turn) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('-') {
        out.push_str(&rest[..=at]);
        rest = &rest[at + 1..];
        let hash = rest.get(..DIGITS).unwrap_or_default();
        let ends = [".js", ".css", ".wasm"].iter().any(|end| {
            rest.get(DIGITS..)
                .is_some_and(|after| after.starts_with(end))
        });
        if !ends || !hash.bytes().all(|b| b.is_ascii_hexdigit()) {
            continue;
        }
        let first = hash.chars().next().and_then(|c| c.to_digit(16));
        let by = match turn {
            Turn::On => 1,
            Turn::Back => 15,
        };
        out.extend(first.and_then(|digit| char::from_digit((digit + by) % 16, 16)));
        rest = &rest[1..];
    }
    out.push_str(rest);
    out
}

/// A file as it is served in the ordinary manner.
fn get(upstream: &str, path: &str) -> std::io::Result<(u16, String, Vec<u8>)> {
    let server = upstream.trim_start_matches("http://").trim_end_matches('/');
    let mut stream = TcpStream::connect(server)?;
    stream.set_read_timeout(Some(LIMIT))?;
    write!(
        stream,
        "GET /{path} HTTP/1.1\r\nHost: {server}\r\nConnection: close\r\n\r\n"
    )?;
    let mut all = Vec::new();
    stream.read_to_end(&mut all)?;
    let end = all
        .windows(4)
        .position(|end| end == b"\r\n\r\n")
        .ok_or(std::io::ErrorKind::UnexpectedEof)?;
    let head = String::from_utf8_lossy(&all[..end]).into_owned();
    let status = head.split(' ').nth(1).and_then(|word| word.parse().ok());
    let mime = head
        .lines()
        .find_map(|line| line.strip_prefix("Content-Type: "))
        .unwrap_or("application/octet-stream");
    Ok((
        status.unwrap_or(500),
        mime.to_owned(),
        all[end + 4..].to_vec(),
    ))
}
