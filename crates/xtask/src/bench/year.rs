//! A year, hour by hour: in the page's worker, and natively the same project by the same code.
//!
//! The year is its 8760 hours with what acts on the cabinet in each, and the course made of it. The design days and the runs
//! from a moment on, which a new answer needs as well, are told apart, and so is the climate, prepared once for each site,
//! front and weather.

use super::table::{Limit, Row, at};
use crate::{paths, shell};
use anyhow::{Context, Result};
use serde_json::Value;

/// Runs without which a time is not worth printing, and how many are made natively.
const RUNS: usize = 100;
const NATIVE_RUNS: &str = "100";
/// Compartments the budget is stated for.
const ROOMS: f64 = 2.0;

/// Runs the project that the page measured natively: `{ rooms, preparing, days, running }`.
pub(super) fn native(found: &Value) -> Result<Value> {
    let Some(project) = found["project"].as_str() else { return Ok(Value::Null) };
    let file = paths::target().join("measured-project.json");
    std::fs::write(&file, project).with_context(|| format!("{}", file.display()))?;
    let printed = shell::read(
        shell::cargo()
            .args(["run", "--quiet", "--release", "--package", "worker", "--example", "native_year", "--"])
            .arg(&file)
            .arg(NATIVE_RUNS),
    )?;
    serde_json::from_str(&printed).context("native_year printed no JSON")
}

/// Seconds that the engine alone takes for a year of two rooms in which units switch, and that an independent script takes
/// for the same year; of the script only where Python with scipy is at hand.
pub(super) fn against_scipy() -> Result<(Option<f64>, Option<f64>)> {
    let printed = shell::read(
        shell::cargo()
            .args(["test", "--quiet", "--release", "--package", "tests", "--test", "two_rooms_year", "--"])
            .args(["--ignored", "--nocapture", "measures_the_engine"]),
    )?;
    let measured = printed.lines().filter_map(|line| serde_json::from_str(line.strip_prefix("measured ")?).ok());
    let engine = switching(measured);
    // The same word as the test that compares the two.
    let python = std::env::var("BAYWRIGHT_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    if shell::read(shell::program(&python).args(["-c", "import scipy, numpy"])).is_err() {
        return Ok((engine, None));
    }
    let reference = paths::root().join("tests/reference");
    let printed = shell::read(
        shell::program(&python)
            .arg(reference.join("year.py"))
            .arg(reference.join("two_rooms_year.json"))
            .arg(reference.join("weather/desert_tmy_year_simulation.csv.gz")),
    )?;
    let cases: Vec<Value> = serde_json::from_str(&printed).context("year.py printed no JSON")?;
    Ok((engine, switching(cases.into_iter())))
}

/// Seconds of the case in which units switch.
fn switching(mut cases: impl Iterator<Item = Value>) -> Option<f64> {
    cases.find(|case| case["name"] != "nothing switches")?["seconds"].as_f64()
}

/// The rows of the comparison.
pub(super) fn compared((engine, script): (Option<f64>, Option<f64>)) -> Vec<Row> {
    let times = engine.zip(script);
    let note = match times {
        Some((engine, script)) => {
            format!("scipy takes {script:.1} s, the engine {:.2} ms, for the same year", 1e3 * engine)
        }
        None => "needs python3 with numpy and scipy (or BAYWRIGHT_PYTHON)".into(),
    };
    vec![
        Row::new("the engine alone natively", engine.map(|engine| 1e3 * engine), "ms", Limit::None)
            .note("the year of tests/reference/year.py".into()),
        Row::new("scipy ÷ engine, the same year", times.map(|(engine, script)| script / engine), "", Limit::None)
            .note(note),
    ]
}

/// The rows of the table.
pub(super) fn rows(found: &Value, native: &Value) -> Vec<Row> {
    let list = |of: &Value| -> Vec<f64> { of.as_array().into_iter().flatten().filter_map(Value::as_f64).collect() };
    let wasm = &found["year"];
    // The budget is for two compartments and many runs; of anything else nothing is said.
    let times = |of: &Value, what: &str| {
        let times = list(&of[what]);
        if of["rooms"].as_f64() == Some(ROOMS) && times.len() >= RUNS { times } else { Vec::new() }
    };
    let note = |times: &[f64]| match times {
        [] => String::new(),
        times => format!("{} runs, hysteresis, two compartments", times.len()),
    };
    let (in_wasm, natively) = (times(wasm, "running"), times(native, "running"));
    let (preparing, preparing_natively) = (times(wasm, "preparing"), times(native, "preparing"));
    let (days, days_natively) = (times(wasm, "days"), times(native, "days"));
    let on_page = list(&found["course_ms"]);
    let on_page = if on_page.len() >= RUNS { on_page } else { Vec::new() };
    vec![
        Row::new("a year natively, p50", at(&natively, 0.5), "ms", Limit::AtMost(8.0)).note(note(&natively)),
        Row::new("a year natively, p99", at(&natively, 0.99), "ms", Limit::None),
        Row::new("a year in the worker, p50", at(&in_wasm, 0.5), "ms", Limit::AtMost(16.0)).note(note(&in_wasm)),
        Row::new("a year in the worker, p99", at(&in_wasm, 0.99), "ms", Limit::None),
        Row::new("design days and door open natively, p50", at(&days_natively, 0.5), "ms", Limit::None),
        Row::new("design days and door open in the worker, p50", at(&days, 0.5), "ms", Limit::None),
        Row::new("its climate natively, p50", at(&preparing_natively, 0.5), "ms", Limit::None)
            .note("sun and light, once for each site, front and weather".into()),
        Row::new("its climate in the worker, p50", at(&preparing, 0.5), "ms", Limit::None),
        Row::new("edit → new year on the page, p50", at(&on_page, 0.5), "ms", Limit::None),
        Row::new("edit → new year on the page, p99", at(&on_page, 0.99), "ms", Limit::AtMost(1000.0))
            .note(if on_page.is_empty() { String::new() } else { format!("{} edits", on_page.len()) }),
    ]
}

#[cfg(test)]
mod tests {
    use super::rows;
    use serde_json::json;

    #[test]
    fn one_compartment_or_few_runs_are_not_measured() {
        let holds = |rooms: u32, times: usize| {
            let native = json!({ "rooms": rooms, "running": vec![9.0; times], "preparing": vec![1.0; times] });
            rows(&json!({}), &native)[0].holds()
        };
        assert_eq!([holds(2, 100), holds(1, 100), holds(2, 99)], [Some(false), None, None]);
    }
}
