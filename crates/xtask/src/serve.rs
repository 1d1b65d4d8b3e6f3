//! A static server on this machine alone: no more than the page needs.

use crate::{page, paths, tools};
use anyhow::{Result, anyhow};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use tiny_http::{Header, Method, Request, Response, Server};

/// Requests answered at the same time.
const HANDS: usize = 4;

/// Builds, then serves until stopped.
pub(crate) fn chore(port: u16) -> Result<()> {
    page::build(&tools::for_the_page()?)?;
    let server = Serving::start(paths::hosted(), port)?;
    println!(
        "\nBaywright is at   {}\nas one file it is {}\nStop with Ctrl+C.",
        server.address(),
        paths::offline().display()
    );
    server.forever();
    Ok(())
}

/// A folder being served.
pub(crate) struct Serving {
    server: Arc<Server>,
    hands: Vec<std::thread::JoinHandle<()>>,
}

impl Serving {
    /// Serves a folder on 127.0.0.1; port 0 takes any free one.
    pub(crate) fn start(folder: PathBuf, port: u16) -> Result<Self> {
        let server = Server::http(("127.0.0.1", port))
            .map_err(|error| anyhow!("port {port} of 127.0.0.1: {error}. Another one: cargo xtask serve --port N"))?;
        let server = Arc::new(server);
        let hands = (0..HANDS).map(|_| {
            let (server, folder) = (Arc::clone(&server), folder.clone());
            std::thread::spawn(move || server.incoming_requests().for_each(|request| answer(request, &folder)))
        });
        Ok(Self { hands: hands.collect(), server })
    }

    /// Where the page is.
    pub(crate) fn address(&self) -> String {
        format!("http://{}/", self.server.server_addr())
    }

    fn forever(self) {
        for hand in self.hands {
            let _ = hand.join();
        }
    }
}

fn answer(request: Request, folder: &Path) {
    let response = match file(request.url(), folder).filter(|_| matches!(request.method(), Method::Get | Method::Head))
    {
        Some((name, bytes)) => {
            let keep = if name == "index.html" { "no-cache" } else { "public, max-age=31536000, immutable" };
            let headers =
                [("Content-Type", media_type(&name)), ("Cache-Control", keep), ("X-Content-Type-Options", "nosniff")];
            headers
                .iter()
                .filter_map(|(name, value)| Header::from_bytes(*name, *value).ok())
                .fold(Response::from_data(bytes), Response::with_header)
        }
        None => Response::from_data("not here").with_status_code(404),
    };
    // The browser may have gone away meanwhile, which is its own affair.
    let _ = request.respond(response);
}

/// The file that an address stands for, never one outside the folder.
fn file(address: &str, folder: &Path) -> Option<(String, Vec<u8>)> {
    let name = address.split(['?', '#']).next()?.trim_start_matches('/');
    let name = if name.is_empty() { "index.html" } else { name };
    let inside = Path::new(name).components().all(|part| matches!(part, Component::Normal(_)));
    let bytes = inside.then(|| std::fs::read(folder.join(name)).ok())??;
    Some((name.to_owned(), bytes))
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
    use super::file;
    use std::path::Path;

    #[test]
    fn serves_the_folder_and_nothing_outside_it() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        assert!(file("/serve.rs?x=1", &folder).is_some_and(|(name, bytes)| name == "serve.rs" && !bytes.is_empty()));
        for address in ["/../Cargo.toml", "//etc/passwd", "/./../Cargo.toml", "/", "/none"] {
            assert!(file(address, &folder).is_none(), "{address}");
        }
    }
}
