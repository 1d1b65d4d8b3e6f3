//! Set-up: the wasm target and the tools of a build, taken from PATH or else fetched once into the user's cache folder.

mod axe;
mod browser;
mod optimiser;

pub(crate) use axe::axe;
pub(crate) use browser::{Browser, browser};
pub(crate) use optimiser::optimiser;

use crate::{paths, shell};
use anyhow::{Context, Result, bail};
use std::path::PathBuf;

/// The last Trunk that the pinned compiler can build.
const TRUNK: &str = "0.21.14";

/// Everything a web build needs.
pub(crate) struct Tools {
    /// Where `trunk` is.
    pub(crate) trunk: PathBuf,
    /// Where `wasm-bindgen` and its test runner are.
    pub(crate) bindgen: PathBuf,
    /// `wasm-opt`; None when there is no way to get one here.
    pub(crate) optimiser: Option<PathBuf>,
}

/// Finds or fetches everything a web build needs.
pub(crate) fn for_the_page() -> Result<Tools> {
    wasm_target()?;
    Ok(Tools { trunk: tool("trunk", TRUNK, "trunk")?, bindgen: bindgen()?, optimiser: optimiser()? })
}

/// Finds or fetches `wasm-bindgen` in exactly the version that the code is built with; its two halves must match.
pub(crate) fn bindgen() -> Result<PathBuf> {
    tool("wasm-bindgen", &locked("wasm-bindgen")?, "wasm-bindgen-cli")
}

/// Installs an npm package into a folder of its own.
fn npm_install(home: &std::path::Path, package: &str) -> Result<()> {
    std::fs::create_dir_all(home)?;
    shell::run(shell::program("npm").args(["install", "--no-audit", "--no-fund", "--prefix"]).arg(home).arg(package))
}

/// Adds the wasm target to the compiler. Asked for by name, since rustup may have been told not to do so by itself.
pub(crate) fn wasm_target() -> Result<()> {
    const TARGET: &str = "wasm32-unknown-unknown";
    let sysroot = shell::read(shell::program("rustc").args(["--print", "sysroot"]))?;
    if PathBuf::from(sysroot.trim()).join("lib/rustlib").join(TARGET).is_dir() {
        return Ok(());
    }
    if shell::on_path("rustup").is_none() {
        bail!("the compiler has no {TARGET} target, and there is no rustup to add it: install rustup, or the target");
    }
    shell::timed("add the wasm target", || shell::run(shell::program("rustup").args(["target", "add", TARGET])))
}

/// The version of a package in Cargo.lock.
fn locked(package: &str) -> Result<String> {
    let lock = std::fs::read_to_string(paths::root().join("Cargo.lock")).context("Cargo.lock cannot be read")?;
    version_in(&lock, package).with_context(|| format!("Cargo.lock has no package {package}"))
}

fn version_in(lock: &str, package: &str) -> Option<String> {
    let (_, after) = lock.split_once(&format!("name = \"{package}\"\nversion = \""))?;
    after.split_once('"').map(|(version, _)| version.to_owned())
}

/// The folder that has this tool in this version: on PATH, in the cache, or in the cache after installing it there.
fn tool(name: &str, version: &str, package: &str) -> Result<PathBuf> {
    if let Some(folder) = shell::on_path(name).and_then(|path| path.parent().map(PathBuf::from))
        && is_version(&folder.join(name), version)
    {
        return Ok(folder);
    }
    let home = paths::tool_cache()?.join(format!("{name}-{version}"));
    let folder = home.join("bin");
    if is_version(&folder.join(name), version) {
        return Ok(folder);
    }
    println!("{name} {version} is not on PATH: building it once into {} (some minutes)", home.display());
    shell::timed(&format!("install {name} {version}"), || {
        let exact = format!("={version}");
        shell::run(
            shell::cargo()
                .args(["install", "--locked", "--quiet", "--version", &exact, package, "--root"])
                .arg(&home)
                // Its own folder, dropped by cargo afterwards: the project's would keep hundreds of megabytes.
                .env_remove("CARGO_TARGET_DIR"),
        )
    })?;
    if !is_version(&folder.join(name), version) {
        bail!("{name} {version} was installed into {} but does not run", home.display());
    }
    Ok(folder)
}

fn is_version(path: &std::path::Path, version: &str) -> bool {
    shell::read(shell::program(path).arg("--version")).is_ok_and(|said| said.split_whitespace().nth(1) == Some(version))
}

#[cfg(test)]
mod tests {
    use super::version_in;

    #[test]
    fn reads_the_version_of_the_package_itself_and_not_of_its_neighbours() {
        let lock =
            "name = \"wasm-bindgen-macro\"\nversion = \"0.1.0\"\n\nname = \"wasm-bindgen\"\nversion = \"0.2.129\"\n";
        assert_eq!(version_in(lock, "wasm-bindgen").as_deref(), Some("0.2.129"));
        assert_eq!(version_in(lock, "bindgen"), None);
    }
}
