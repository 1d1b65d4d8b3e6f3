//! A static server on this machine alone: no more than the page needs. One thread and one answer a connection: a browser
//! that opens several at once, or one that it then says nothing on, never keeps another waiting.

use crate::{page, paths};
use anyhow::{Context, Result};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::time::Duration;

/// A request that is longer than this, or takes longer to arrive, is none of a browser's.
const LONGEST: u64 = 64 * 1024;
const PATIENCE: Duration = Duration::from_secs(30);

/// Builds, then serves until stopped.
pub(crate) fn chore(port: u16) -> Result<()> {
    // First, so that a port in use is told before the minutes of building.
    let serving = Serving::start(paths::hosted(), port)?;
    page::chore()?;
    let file = paths::offline();
    println!("\nBaywright is at   {}\nas one file it is {}\nStop with Ctrl+C.", serving.address(), file.display());
    serving.until_stopped();
    Ok(())
}

/// A folder being served, until the program ends.
pub(crate) struct Serving {
    address: SocketAddr,
    listening: std::thread::JoinHandle<()>,
}

impl Serving {
    /// Serves a folder on 127.0.0.1; port 0 takes any free one.
    pub(crate) fn start(folder: PathBuf, port: u16) -> Result<Self> {
        let listener = TcpListener::bind(("127.0.0.1", port))
            .with_context(|| format!("port {port} of 127.0.0.1; to take another one: cargo xtask serve --port N"))?;
        let address = listener.local_addr()?;
        let listening = std::thread::spawn(move || {
            for connection in listener.incoming().flatten() {
                let folder = folder.clone();
                // The browser may go away at any time, which is its own affair.
                std::thread::spawn(move || _ = answer(connection, &folder));
            }
        });
        Ok(Self { address, listening })
    }

    /// Where the page is.
    pub(crate) fn address(&self) -> String {
        format!("http://{}/", self.address)
    }

    fn until_stopped(self) {
        let _ = self.listening.join();
    }
}

/// Reads one request and answers it.
fn answer(mut connection: TcpStream, folder: &Path) -> std::io::Result<()> {
    connection.set_read_timeout(Some(PATIENCE))?;
    let mut lines = BufReader::new((&connection).take(LONGEST)).lines();
    let Some(first) = lines.next().transpose()? else { return Ok(()) };
    // The headers change nothing here, but have to be taken before the answer is given.
    for line in lines {
        if line?.is_empty() {
            break;
        }
    }
    let mut words = first.split(' ');
    let (method, address) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
    let found = file(address, folder).filter(|_| matches!(method, "GET" | "HEAD"));
    let (status, kind, keep, body) = match &found {
        Some((name, bytes)) if hashed(name) => {
            ("200 OK", media_type(name), "max-age=31536000, immutable", bytes.as_slice())
        }
        Some((name, bytes)) => ("200 OK", media_type(name), "no-cache", bytes.as_slice()),
        None => ("404 Not Found", media_type(".txt"), "no-cache", b"not here\n".as_slice()),
    };
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: {keep}\r\n\
         X-Content-Type-Options: nosniff\r\nConnection: close\r\n\r\n",
        body.len()
    );
    connection.write_all(head.as_bytes())?;
    if method != "HEAD" {
        connection.write_all(body)?;
    }
    connection.flush()
}

/// The file that an address stands for, never one outside the folder.
fn file(address: &str, folder: &Path) -> Option<(String, Vec<u8>)> {
    let name = address.split(['?', '#']).next()?.trim_start_matches('/');
    let name = if name.is_empty() { "index.html" } else { name };
    let inside = Path::new(name).components().all(|part| matches!(part, Component::Normal(_)));
    let bytes = inside.then(|| std::fs::read(folder.join(name)).ok())??;
    Some((name.to_owned(), bytes))
}

/// Whether a name carries the hash of its content, so that a browser may keep the file for ever.
fn hashed(name: &str) -> bool {
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    let hash = stem.rsplit_once('-').map_or("", |(_, hash)| hash);
    hash.len() == page::HASH && hash.bytes().all(|byte| byte.is_ascii_hexdigit())
}

/// The media type that goes with a file name.
pub(crate) fn media_type(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("woff2") => "font/woff2",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("json") => "application/json",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::{Serving, file, hashed};
    use std::io::{Read, Write};
    use std::net::TcpStream;
    use std::path::{Path, PathBuf};

    fn sources() -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
    }

    #[test]
    fn serves_the_folder_and_nothing_outside_it() {
        let folder = sources();
        assert!(file("/serve.rs?x=1", &folder).is_some_and(|(name, bytes)| name == "serve.rs" && !bytes.is_empty()));
        for address in ["/../Cargo.toml", "//etc/passwd", "/./../Cargo.toml", "/", "/none"] {
            assert!(file(address, &folder).is_none(), "{address}");
        }
    }

    #[test]
    fn answers_while_other_connections_say_nothing() {
        let serving = Serving::start(sources(), 0).unwrap();
        let silent: Vec<_> = (0..20).map(|_| TcpStream::connect(serving.address).unwrap()).collect();
        let ask = |request: &str| {
            let mut connection = TcpStream::connect(serving.address).unwrap();
            connection.write_all(request.as_bytes()).unwrap();
            let mut said = String::new();
            connection.read_to_string(&mut said).unwrap();
            said
        };
        let said = ask("GET /serve.rs HTTP/1.1\r\nHost: here\r\n\r\n");
        assert!(said.starts_with("HTTP/1.1 200 OK\r\n") && said.ends_with(include_str!("serve.rs")), "{said}");
        assert!(ask("HEAD /serve.rs HTTP/1.1\r\n\r\n").ends_with("\r\n\r\n"));
        assert!(ask("POST /serve.rs HTTP/1.1\r\n\r\n").starts_with("HTTP/1.1 404"));
        drop(silent);
    }

    #[test]
    fn only_names_with_a_hash_are_kept() {
        assert!(hashed("fonts/face-0123456789abcdef.woff2"));
        assert!(!hashed("index.html") && !hashed("fonts/face-normal.woff2") && !hashed("fonts/OFL.txt"));
    }
}
