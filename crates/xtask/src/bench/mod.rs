//! Measures the page against its budgets, in a real browser, and says what it did not measure.
//!
//! # What the page offers for this
//!
//! *Always:* once the first badges have been painted, the page sets the mark `baywright:visible`
//! (`performance.mark`, from the second animation frame after the badges entered the document). What it asks for after
//! that mark is not needed for the first look, and counts on a line of its own.
//!
//! *Only when its address ends in `#measure`:* it opens its largest sample (a double bay with 60 devices or more),
//! leaves the user's stored project alone, and sets `window.baywrightMeasure` to an object with these functions. Each
//! may return a promise. Times are in milliseconds, from `performance.now()`.
//!
//! Edits are timed once the page has set the mark `baywright:warm`: what an edit runs has then been run often enough for the
//! browser to have compiled it well (`web/src/warm.rs`).
//!
//! - `report_ms(n)` applies `n` edits of the kind a user makes (a depth one inch up, then down; a device one unit up,
//!   then down) through the editor, and returns `n` times, each from just before the edit until the whole report on the
//!   edited project is there. No painting is waited for.
//! - `paint_ms(n)` does the same, each edit at the start of an animation frame, and returns `n` times, each from just
//!   before the edit until that frame has been painted: a message posted in the frame has arrived, which browsers
//!   deliver after style, layout and paint. Badges and elevations are up to date by then; the model follows with the next
//!   frame or, where it is drawn slowly, when edits rest (`web/src/model_view/pace.rs`). The GPU's own time is not in it.
//! - `draw()` returns `{ calls, triangles }` of the model's last drawn frame.
//! - `frames()` returns how many frames of the model have been drawn since load.
//! - `year_ms(n)` lets the worker run a sample with two compartments through its year `n` times, and returns `{ rooms,
//!   preparing, days, running }`: compartments, and `n` times each of preparing the climate, of the design days and of the
//!   year, by the worker's clock. The largest sample, filled up, is far too hot to have a year.
//! - `course_ms(n)` opens the same sample, applies `n` edits as `report_ms` does, and returns `n` times, each from just
//!   before the edit until the report with the new year is there.
//! - `project()` returns that sample as its file, to be run natively too.
//! - `devices()` returns how many devices the open project has.
//!
//! A function that is missing, or fewer than 300 edits or 60 devices, make their rows read "not measured". The browser side is `tests/browser/measure.rs`, which
//! writes what it found as JSON.

mod size;
mod table;
mod year;

use crate::serve::Serving;
use crate::{page, paths, shell, tools};
use anyhow::{Context, Result};
use serde_json::Value;
use table::{Limit, Row, Table};

/// Edits and devices without which a time is not worth printing.
const EDITS: usize = 300;
const DEVICES: f64 = 60.0;

/// Measures, prints the table; false when a budget is missed.
pub(crate) fn chore() -> Result<bool> {
    let browser = tools::browser()?;
    let tools = tools::for_the_page()?;
    shell::timed("build the page", || page::build(&tools))?;
    let empty = paths::target().join("empty-page");
    shell::timed("build the empty page", || page::build_empty(&tools, &empty))?;
    let found = shell::timed("measure", || in_the_browser(&browser, &empty))?;
    let file = std::fs::metadata(paths::offline())?.len() as f64 / 1e6;
    let native = shell::timed("measure natively", || year::native(&found))?;
    let compared = shell::timed("measure the engine, and scipy where it is", year::against_scipy)?;
    let worker = size::worker(&paths::hosted())? as f64 / 1000.0;
    let mut rows = rows(&found, file)?;
    rows.extend(year::rows(&found, &native));
    rows.extend(year::compared(compared));
    rows.push(
        Row::new("worker, brotli", Some(worker), "kB", Limit::None)
            .note("loaded when the first badges have been painted".into()),
    );
    let table = Table { rows };
    println!("\n{table}");
    Ok(table.rows.iter().all(|row| row.holds() != Some(false)))
}

fn in_the_browser(browser: &tools::Browser, empty: &std::path::Path) -> Result<Value> {
    let (serving, serving_empty) = (Serving::start(paths::hosted(), 0)?, Serving::start(empty.to_owned(), 0)?);
    let result = paths::target().join("measured.json");
    shell::run(
        shell::cargo()
            .args(["test", "--quiet", "--package", "tests", "--test", "browser"])
            .env("BAYWRIGHT_PAGE", serving.address())
            .env("BAYWRIGHT_EMPTY_PAGE", serving_empty.address())
            .env("BAYWRIGHT_MEASURE_TO", &result)
            .env("BAYWRIGHT_WEBDRIVER", paths::webdriver_settings())
            .env("CHROMEDRIVER", &browser.driver),
    )?;
    let text = std::fs::read_to_string(&result).with_context(|| format!("{}", result.display()))?;
    serde_json::from_str(&text).with_context(|| format!("{}", result.display()))
}

/// The rows of the table, from what the browser found and the size of the one-file page in megabytes.
fn rows(found: &Value, file: f64) -> Result<Vec<Row>> {
    let list =
        |name: &str| -> Vec<f64> { found[name].as_array().into_iter().flatten().filter_map(Value::as_f64).collect() };
    let number = |name: &str| found[name].as_f64();
    // The worker has a line of its own.
    let loaded = |name: &str| -> Result<(Option<f64>, String)> {
        let files: Vec<_> = found[name]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(Value::as_str)
            .filter(|name| !name.contains("/worker-"))
            .collect();
        let packed = match files.is_empty() {
            true => None,
            false => Some(size::packed(&paths::hosted(), &files)? as f64 / 1000.0),
        };
        Ok((packed, format!("{} files", files.len())))
    };
    let ((first_load, first_files), (later_load, later_files)) = (loaded("loaded")?, loaded("loaded_later")?);
    let (report, paint) = (list("report_ms"), list("paint_ms"));
    let (visible, empty) = (table::at(&list("visible_ms"), 0.5), table::at(&list("empty_visible_ms"), 0.5));
    let ratio = visible.zip(empty).map(|(page, empty)| page / empty);
    let visible_note = visible.zip(empty).map(|(page, empty)| format!("medians {page:.0} ms and {empty:.0} ms"));
    // The budgets are for a full cabinet, and a share of few edits says nothing.
    let devices = number("devices").unwrap_or(0.0);
    let enough = |times: &[f64]| times.len() >= EDITS && devices >= DEVICES;
    let share = |times: &[f64], share| enough(times).then(|| table::at(times, share)).flatten();
    let edits = |times: &[f64]| match times {
        [] => String::new(),
        times => format!("{} edits, {devices:.0} devices", times.len()),
    };
    Ok(vec![
        Row::new("first load, brotli", first_load, "kB", Limit::AtMost(450.0)).note(first_files),
        Row::new("loaded after it, brotli", later_load, "kB", Limit::None).note(later_files),
        Row::new("first badges visible ÷ empty page", ratio, "", Limit::AtMost(1.5))
            .note(visible_note.unwrap_or_default()),
        Row::new("one-file page", Some(file), "MB", Limit::AtMost(3.0)),
        Row::new("edit → report in wasm, p50", share(&report, 0.5), "ms", Limit::None),
        Row::new("edit → report in wasm, p99", share(&report, 0.99), "ms", Limit::AtMost(4.0)).note(edits(&report)),
        Row::new("edit → painted, p50", share(&paint, 0.5), "ms", Limit::None),
        Row::new("edit → painted, p99", share(&paint, 0.99), "ms", Limit::AtMost(16.7)).note(edits(&paint)),
        Row::new("draw calls", number("calls"), "", Limit::AtMost(60.0)),
        Row::new("triangles", number("triangles"), "", Limit::AtMost(30_000.0)),
        Row::new("frames drawn in 3 s of nothing", number("idle_frames"), "", Limit::AtMost(0.0)),
    ])
}

#[cfg(test)]
mod tests {
    use super::rows;
    use serde_json::json;

    #[test]
    fn too_few_edits_or_devices_are_not_measured() {
        let p99 = |times: usize, devices: f64| {
            let found = json!({ "report_ms": vec![3.0; times], "devices": devices });
            rows(&found, 0.2).unwrap().iter().find(|row| row.what().ends_with("wasm, p99")).map(super::Row::holds)
        };
        assert_eq!([p99(300, 60.0), p99(299, 60.0), p99(300, 59.0)], [Some(Some(true)), Some(None), Some(None)]);
    }
}
