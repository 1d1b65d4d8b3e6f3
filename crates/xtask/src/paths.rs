//! Where things are.

use std::path::{Path, PathBuf};

/// The top of the workspace.
pub(crate) fn root() -> PathBuf {
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).parent();
    crates.and_then(Path::parent).unwrap_or(Path::new(".")).to_path_buf()
}

/// Cargo's folder for what it makes.
pub(crate) fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), |folder| root().join(folder))
}

/// The page as static files, to be put on any web server.
pub(crate) fn hosted() -> PathBuf {
    root().join("dist/hosted")
}

/// The page as one file.
pub(crate) fn offline() -> PathBuf {
    root().join("dist/baywright.html")
}

/// What the browser is started with: read by the test runner of wasm-bindgen and by our own browser tests.
pub(crate) fn webdriver_settings() -> PathBuf {
    root().join("web/webdriver.json")
}

/// The user's folder for tools that were fetched once.
pub(crate) fn tool_cache() -> anyhow::Result<PathBuf> {
    let cache = std::env::var_os("XDG_CACHE_HOME").map(PathBuf::from).filter(|folder| folder.is_absolute());
    let home = || std::env::var_os("HOME").or_else(|| std::env::var_os("USERPROFILE"));
    let Some(cache) = cache.or_else(|| home().map(|home| PathBuf::from(home).join(".cache"))) else {
        anyhow::bail!("no folder for fetched tools: set HOME or XDG_CACHE_HOME")
    };
    Ok(cache.join("baywright/tools"))
}
