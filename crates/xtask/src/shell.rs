//! Running other programs, and telling what ran and how long it took.

use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// A program to be run at the top of the workspace.
pub(crate) fn program(name: impl AsRef<std::ffi::OsStr>) -> Command {
    let mut command = Command::new(name);
    command.current_dir(crate::paths::root());
    command
}

/// The cargo that runs this.
pub(crate) fn cargo() -> Command {
    program(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

/// The command line, for a person.
pub(crate) fn line(command: &Command) -> String {
    let name = Path::new(command.get_program()).file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let words = command.get_args().map(|word| word.to_string_lossy().into_owned());
    std::iter::once(name).chain(words).collect::<Vec<_>>().join(" ")
}

/// Runs a command to its end, its output going straight to the terminal.
pub(crate) fn run(command: &mut Command) -> Result<()> {
    let shown = line(command);
    let status = command.stdin(Stdio::null()).status().with_context(|| format!("cannot start `{shown}`"))?;
    if !status.success() {
        bail!("`{shown}` ended with {status}");
    }
    Ok(())
}

/// Runs a command and returns what it printed.
pub(crate) fn read(command: &mut Command) -> Result<String> {
    let shown = line(command);
    let output = command.stdin(Stdio::null()).output().with_context(|| format!("cannot start `{shown}`"))?;
    if !output.status.success() {
        bail!("`{shown}` ended with {}: {}", output.status, String::from_utf8_lossy(&output.stderr).trim());
    }
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}

/// The first program of this name on PATH.
pub(crate) fn on_path(name: &str) -> Option<PathBuf> {
    let name = format!("{name}{}", std::env::consts::EXE_SUFFIX);
    std::env::split_paths(&std::env::var_os("PATH")?).map(|folder| folder.join(&name)).find(|path| path.is_file())
}

/// PATH with these folders before all others.
pub(crate) fn path_with(folders: &[PathBuf]) -> Result<std::ffi::OsString> {
    let usual = std::env::var_os("PATH").unwrap_or_default();
    let all = folders.iter().cloned().chain(std::env::split_paths(&usual));
    std::env::join_paths(all).context("PATH cannot be extended")
}

/// Announces a piece of work, does it, and says how long it took.
pub(crate) fn timed<T>(what: &str, work: impl FnOnce() -> Result<T>) -> Result<T> {
    println!("== {what}");
    let start = Instant::now();
    let done = work().with_context(|| what.to_owned())?;
    println!("   {what}: {}", seconds(start.elapsed()));
    Ok(done)
}

/// A duration, for a person.
pub(crate) fn seconds(duration: Duration) -> String {
    match duration.as_secs() {
        0..60 => format!("{:.1} s", duration.as_secs_f64()),
        long => format!("{} min {:02} s", long / 60, long % 60),
    }
}
