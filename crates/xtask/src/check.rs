//! What can be told without a browser: format, lints, documentation, native tests.

use crate::steps::Steps;
use crate::{shell, tools};
use anyhow::{Result, bail};
use std::process::Command;

/// The packages that only a browser can run. All others are built and tested natively.
const BROWSER_ONLY: [&str; 2] = ["web", "empty-page"];

/// Runs the checks; false when one failed.
pub(crate) fn chore() -> Result<bool> {
    let mut steps = Steps::default();
    take(&mut steps)?;
    Ok(steps.summary())
}

/// Takes the steps of this chore.
pub(crate) fn take(steps: &mut Steps) -> Result<()> {
    tools::wasm_target()?;
    components()?;
    steps.step("format", || shell::run(shell::cargo().args(["fmt", "--all", "--check"])));
    steps.step("lints, native", || {
        let mut clippy = shell::cargo();
        clippy.args(["clippy", "--quiet", "--all-targets"]);
        shell::run(native(&mut clippy).args(["--", "-D", "warnings"]))
    });
    steps.step("lints, wasm32", || {
        let mut clippy = shell::cargo();
        clippy.args(["clippy", "--quiet", "--all-targets", "--target", "wasm32-unknown-unknown"]);
        shell::run(only_in_a_browser(&mut clippy).args(["--", "-D", "warnings"]))
    });
    steps.step("documentation", || {
        let mut doc = shell::cargo();
        doc.args(["doc", "--quiet", "--no-deps"]).env("RUSTDOCFLAGS", "-D warnings");
        shell::run(native(&mut doc))?;
        let mut doc = shell::cargo();
        doc.args(["doc", "--quiet", "--no-deps", "--target", "wasm32-unknown-unknown"])
            .env("RUSTDOCFLAGS", "-D warnings");
        shell::run(only_in_a_browser(&mut doc))
    });
    steps.step("native tests", || {
        let mut test = shell::cargo();
        test.args(["test", "--quiet", "--no-fail-fast"]);
        shell::run(native(&mut test))
    });
    Ok(())
}

fn native(command: &mut Command) -> &mut Command {
    command.arg("--workspace");
    BROWSER_ONLY.iter().fold(command, |command, package| command.args(["--exclude", package]))
}

fn only_in_a_browser(command: &mut Command) -> &mut Command {
    BROWSER_ONLY.iter().fold(command, |command, package| command.args(["--package", package]))
}

/// The formatter and the linter belong to the toolchain, but a minimal one comes without them.
fn components() -> Result<()> {
    let there = |name: &str| shell::read(shell::cargo().args([name, "--version"])).is_ok();
    if there("fmt") && there("clippy") {
        return Ok(());
    }
    if shell::on_path("rustup").is_none() {
        bail!("rustfmt or clippy is missing, and there is no rustup to add it");
    }
    shell::run(shell::program("rustup").args(["component", "add", "rustfmt", "clippy"]))
}
