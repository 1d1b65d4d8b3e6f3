//! The project's chores, one module each. `cargo xtask` alone lists them.

mod bench;
mod check;
mod page;
mod paths;
mod serve;
mod shell;
mod steps;
mod test;
mod tools;

use std::process::ExitCode;

const USAGE: &str = "\
cargo xtask serve [--port N]  build, then serve the page on 127.0.0.1 until stopped
cargo xtask build             build dist/hosted/ and the one-file dist/baywright.html
cargo xtask check             format, lints, documentation, native tests: the fast part of `test`
cargo xtask test [WORD]       everything in `check`, then the tests in a real browser; WORD keeps to browser tests whose name has it
cargo xtask bench             measure the page against its budgets";

/// Where `serve` listens unless told otherwise.
const USUAL_PORT: u16 = 7419;

fn main() -> ExitCode {
    match run() {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("\nerror: {error:#}");
            ExitCode::FAILURE
        }
    }
}

/// Runs the chore that was asked for; false when it ran and found something wrong.
fn run() -> anyhow::Result<bool> {
    let mut asked = pico_args::Arguments::from_env();
    let chore = asked.subcommand()?;
    let port = asked.opt_value_from_str("--port")?;
    let word: Option<String> = asked.opt_free_from_str()?;
    let rest = asked.finish();
    anyhow::ensure!(rest.is_empty(), "not understood: {rest:?}\n{USAGE}");
    anyhow::ensure!(port.is_none() || chore.as_deref() == Some("serve"), "only `serve` takes a port\n{USAGE}");
    anyhow::ensure!(word.is_none() || chore.as_deref() == Some("test"), "only `test` takes a word\n{USAGE}");
    match chore.as_deref() {
        Some("serve") => serve::chore(port.unwrap_or(USUAL_PORT)).map(|()| true),
        Some("build") => page::chore().map(|()| true),
        Some("check") => check::chore(),
        Some("test") => test::chore(word.as_deref()),
        Some("bench") => bench::chore(),
        Some(other) => anyhow::bail!("there is no chore {other:?}\n{USAGE}"),
        None => {
            println!("{USAGE}");
            Ok(true)
        }
    }
}
