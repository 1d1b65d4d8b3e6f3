//! From sources to what a browser loads: Trunk compiles and binds, then `wasm-opt` shrinks, then two forms of the same
//! page are put together: static files for a web server, and one file for a stick.

mod hosted;
mod offline;
mod parts;
mod policy;
mod split;
mod thin;
mod worker;

use crate::tools::Tools;
use crate::{paths, shell, tools};
use anyhow::{Context, Result};
use parts::Parts;
use std::path::Path;

/// Cargo's profile for what a browser loads.
const PROFILE: &str = "web";

/// Letters of the hash in a file's name.
pub(crate) const HASH: usize = 16;

/// Fetches what is missing, then builds both forms of the page.
pub(crate) fn chore() -> Result<()> {
    let tools = tools::for_the_page()?;
    shell::timed("build the page", || build(&tools))
}

/// Builds both forms of the page, and says where they are.
pub(crate) fn build(tools: &Tools) -> Result<()> {
    let mut parts = parts(tools, "web/index.html", "page", Some("web"))?;
    let worker = worker::build(tools, &paths::target().join("worker"))?;
    let mut sizes: Vec<_> = parts.others.iter().map(|(name, wasm)| (name.clone(), wasm.len())).collect();
    sizes.push(("worker".to_owned(), worker.wasm.len()));
    parts.worker = Some(worker);
    hosted::write(&parts, &paths::hosted())?;
    let file = offline::assemble(&parts)?;
    std::fs::write(paths::offline(), &file).with_context(|| format!("{}", paths::offline().display()))?;
    let others = sizes.iter().map(|(name, bytes)| format!(", {name} {}", size(*bytes))).collect::<String>();
    println!("   wasm {}{others}, one file {}", size(parts.wasm.len()), size(file.len()));
    println!("   static files: {}\n   one file:     {}", paths::hosted().display(), paths::offline().display());
    Ok(())
}

/// Builds the empty page that the first load is compared with, into this folder.
pub(crate) fn build_empty(tools: &Tools, folder: &Path) -> Result<()> {
    hosted::write(&parts(tools, "tests/empty-page/index.html", "empty-page", None)?, folder)
}

/// Lets Trunk build one page, splits the program of this name if it is made to be split, then shrinks what was made.
fn parts(tools: &Tools, page: &str, name: &str, program: Option<&str>) -> Result<Parts> {
    // Trunk is told to stay offline so that it never downloads a tool, and then so does its cargo: crates come first.
    let folder = paths::target().join("trunk").join(name);
    std::fs::create_dir_all(&folder)?;
    // Two builds at a time would write into one another's folders; the second one waits.
    let lock = std::fs::File::create(paths::target().join("xtask.lock"))?;
    lock.lock()?;
    shell::run(shell::cargo().args(["fetch", "--quiet", "--target", "wasm32-unknown-unknown"]))?;
    let path = shell::path_with(&[tools.trunk.clone(), tools.bindgen.clone()])?;
    shell::run(
        shell::program(tools.trunk.join("trunk"))
            .args(["--config", "Trunk.toml", "--offline", "--skip-version-check", "--log", "warn"])
            .args(["build", "--release", "--cargo-profile", PROFILE, "--dist"])
            .arg(&folder)
            .args(program.map(|_| ["--features", "split"]).into_iter().flatten())
            .arg(page)
            .env("PATH", path)
            // Trunk takes this variable's usual "1" for a mistake.
            .env_remove("NO_COLOR")
            // The compiler has said what is wrong; where in Trunk that was noticed helps nobody.
            .env("RUST_BACKTRACE", "0"),
    )?;
    let mut parts = parts::read(&folder)?;
    if let Some(program) = program {
        split::split(tools, &folder, program, &mut parts)?;
    }
    parts.style = thin::styles(&parts.style);
    parts.glue = thin::glue(&parts.glue);
    if let Some(optimiser) = &tools.optimiser {
        for wasm in std::iter::once(&mut parts.wasm).chain(parts.others.values_mut()) {
            *wasm = shrink(optimiser, "-Oz", wasm, &folder)?;
        }
    }
    Ok(parts)
}

/// The same wasm, smaller. Exactly the features that the compiler and wasm-bindgen use are named: with all features
/// `wasm-opt` writes a module that browsers refuse. The level says whether small or fast comes first.
fn shrink(optimiser: &Path, level: &str, wasm: &[u8], folder: &Path) -> Result<Vec<u8>> {
    let (from, to) = (folder.with_extension("wasm"), folder.with_extension("small.wasm"));
    std::fs::write(&from, wasm)?;
    shell::run(
        shell::program(optimiser)
            .arg(level)
            // Code of one crate side by side packs better.
            .arg("--reorder-functions-by-name")
            .args(["--enable-bulk-memory", "--enable-nontrapping-float-to-int", "--enable-sign-ext"])
            .args(["--enable-mutable-globals", "--enable-reference-types", "--enable-multivalue"])
            .args(["--strip-debug", "--strip-producers"])
            .arg(&from)
            .arg("-o")
            .arg(&to),
    )?;
    std::fs::read(&to).with_context(|| format!("{}", to.display()))
}

/// A number of bytes, for a person.
pub(crate) fn size(bytes: usize) -> String {
    format!("{:.1} kB", bytes as f64 / 1000.0)
}
