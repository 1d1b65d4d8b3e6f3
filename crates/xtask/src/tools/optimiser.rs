//! `wasm-opt`, which makes the wasm a good deal smaller. The page builds without it, only larger.

use super::browser::is_debian_root;
use crate::{paths, shell};
use anyhow::Result;
use std::path::PathBuf;

/// The npm package's version; it carries no platform binary.
const BINARYEN: &str = "132.0.0";

/// Finds or fetches `wasm-opt`; None, said aloud, when it is not to be had here.
pub(crate) fn optimiser() -> Result<Option<PathBuf>> {
    if let Some(path) = shell::on_path("wasm-opt") {
        return Ok(Some(path));
    }
    let home = paths::tool_cache()?.join(format!("binaryen-{BINARYEN}"));
    let path = home.join("node_modules/.bin/wasm-opt");
    if runs(&path) {
        return Ok(Some(path));
    }
    if shell::on_path("npm").is_some() {
        let asked = shell::timed(&format!("fetch wasm-opt (npm binaryen {BINARYEN}) into {}", home.display()), || {
            super::npm_install(&home, &format!("binaryen@{BINARYEN}"))
        });
        match asked {
            Ok(()) if runs(&path) => return Ok(Some(path)),
            Ok(()) => println!("   wasm-opt was fetched but does not run"),
            Err(error) => println!("   {error:#}"),
        }
    }
    if is_debian_root() {
        match super::browser::apt_install(&["binaryen"]) {
            Ok(()) => return Ok(shell::on_path("wasm-opt")),
            Err(error) => println!("   {error:#}"),
        }
    }
    println!("wasm-opt is missing (npm or Debian package `binaryen`): the page will work, but load slower");
    Ok(None)
}

fn runs(path: &std::path::Path) -> bool {
    path.is_file() && shell::read(shell::program(path).arg("--version")).is_ok()
}
