//! The built page in a real browser, driven through WebDriver. `cargo xtask test` builds and serves the page, then runs
//! this; `cargo xtask bench` runs it to measure.
//!
//! A test is an async function that takes a [`Page`] and fails by an error or an assertion. Put it into the file of its
//! topic and name it in that file's `cases`. Each test has a browser session, and so a browser store, of its own.

mod accessibility;
mod arriving;
mod brief;
mod building;
mod charts;
mod course;
mod drawing;
mod elevations;
mod harness;
mod itself;
mod keeping;
mod measure;
mod opening;
mod sheet;
mod units_of_measure;
mod wiring;

use harness::{Case, Driver, Setting, Start};
use libtest_mimic::{Arguments, Trial};
use std::process::ExitCode;
use std::sync::Arc;

/// The tests of every topic.
fn cases() -> Vec<Case> {
    [
        itself::cases(),
        opening::cases(),
        arriving::cases(),
        building::cases(),
        elevations::cases(),
        brief::cases(),
        units_of_measure::cases(),
        keeping::cases(),
        course::cases(),
        charts::cases(),
        wiring::cases(),
        drawing::cases(),
        accessibility::cases(),
    ]
    .concat()
}

fn main() -> ExitCode {
    let mut arguments = Arguments::from_args();
    let Some(setting) = Setting::from_environment() else {
        println!("browser: no page to test; run by `cargo xtask test`, which builds and serves one");
        return ExitCode::SUCCESS;
    };
    match start(setting) {
        Ok(start) => {
            if let Some(to) = start.setting.measure_to.clone() {
                return ended(start.runtime.block_on(measure::measure(&start, &to)));
            }
            // One browser at a time: drawing without a graphics card keeps all cores busy.
            arguments.test_threads.get_or_insert(1);
            let start = Arc::new(start);
            let trials = cases().into_iter().map(|case| trial(case, Arc::clone(&start))).collect();
            let conclusion = libtest_mimic::run(&arguments, trials);
            if conclusion.num_passed + conclusion.num_failed == 0 && !arguments.list {
                return ended(Err(anyhow::anyhow!("no test has that in its name")));
            }
            conclusion.exit_code()
        }
        Err(error) => ended(Err(error)),
    }
}

fn start(setting: Setting) -> anyhow::Result<Start> {
    let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build()?;
    Ok(Start { driver: Driver::start(&setting)?, runtime, setting })
}

fn ended(result: anyhow::Result<()>) -> ExitCode {
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("browser: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn trial(case: Case, start: Arc<Start>) -> Trial {
    Trial::test(case.name.clone(), move || start.run(&case).map_err(|error| format!("{error:#}").into()))
}
