//! The server for development and for the tests: files of one folder, on this machine only.

use std::io::{Read, Write};
use std::net::{Ipv4Addr, Shutdown, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::JoinHandle;
use std::time::Duration;

use anyhow::{Context, Result};

use crate::machine::note;
use crate::refs::extension;
use crate::{dist, paths, wasm};

/// What the page may load and run. Any host of the page should send the same.
pub const CONTENT_SECURITY_POLICY: &str = "default-src 'self'; \
    script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; \
    connect-src 'self'; worker-src 'self'; object-src 'none'; base-uri 'none'; \
    frame-ancestors 'none'";

/// The port taken when none is asked for and it is free.
const USUAL_PORT: u16 = 8017;

/// Longest wait for a request to come and for its answer to be taken.
const REQUEST_LIMIT: Duration = Duration::from_secs(30);

/// Longest head of a request, in bytes.
const HEAD_LIMIT: u64 = 16 * 1024;

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
                for stream in listener.incoming().flatten() {
                    if ending.load(Ordering::Acquire) {
                        return;
                    }
                    let folder = folder.clone();
                    // A browser that hangs up before the end is no matter.
                    std::thread::spawn(move || drop(respond(stream, &folder)));
                }
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
    let (status, mime, content) = if !matches!(method, "GET" | "HEAD") {
        (
            "405 Method Not Allowed",
            TEXT,
            b"only GET and HEAD\n".to_vec(),
        )
    } else if let Some(file) = file_for(url, folder) {
        match std::fs::read(&file) {
            Ok(content) => ("200 OK", mime_type(&file.to_string_lossy()), content),
            Err(_) => not_found(),
        }
    } else {
        not_found()
    };
    let mut answer = format!(
        "HTTP/1.1 {status}\r\n\
         Content-Type: {mime}\r\n\
         Content-Length: {}\r\n\
         Content-Security-Policy: {CONTENT_SECURITY_POLICY}\r\n\
         X-Content-Type-Options: nosniff\r\n\
         Cache-Control: no-store\r\n\
         Connection: close\r\n\r\n",
        content.len()
    )
    .into_bytes();
    if method != "HEAD" {
        answer.extend_from_slice(&content);
    }
    stream.write_all(&answer)?;
    stream.shutdown(Shutdown::Write)?;
    // Reads what is left, or closing could take the answer away from the other side.
    std::io::copy(&mut stream.take(HEAD_LIMIT), &mut std::io::sink())?;
    Ok(())
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
            for header in [
                format!("Content-Type: {mime}"),
                format!("Content-Security-Policy: {CONTENT_SECURITY_POLICY}"),
                "X-Content-Type-Options: nosniff".to_owned(),
                "Cache-Control: no-store".to_owned(),
            ] {
                assert!(answer.contains(&header), "{header} is not in {answer}");
            }
            assert!(!answer.contains("secret\n"));
        }
        drop(running);
        std::fs::remove_dir_all(folder).unwrap();
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
