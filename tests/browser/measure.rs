//! Measures the page for `cargo xtask bench`, which says what it asks of the page and what the figures mean. Writes JSON;
//! what the page does not offer is left out.

use crate::harness::{Page, Start};
use anyhow::{Context, Result};
use serde_json::{Map, Value, json};
use std::path::Path;
use std::time::Duration;

/// Loads of each of the two pages, in turn.
const LOADS: usize = 9;
/// Edits measured.
const EDITS: usize = 400;
/// Years measured.
const YEARS: usize = 100;
/// Where an expression waits for the mark that something is visible.
const VISIBLE: &str = "new Promise((done) => {
    const look = (turns) => {
        const [mark] = performance.getEntriesByName('baywright:visible');
        if (mark || turns === 0) done(mark ? mark.startTime : null); else setTimeout(look, 50, turns - 1);
    };
    look(200);
})";

/// Addresses that were asked for only after that mark.
const AFTER: &str = "(() => {
    const [mark] = performance.getEntriesByName('baywright:visible');
    const entries = performance.getEntriesByType('resource');
    return entries.filter((entry) => mark && entry.startTime >= mark.startTime).map((entry) => entry.name);
})()";

/// Measures everything the page offers.
pub(crate) async fn measure(start: &Start, to: &Path) -> Result<()> {
    let page = start.driver.page(&start.setting).await?;
    let measured = in_session(&page, start).await;
    page.close().await?;
    std::fs::write(to, serde_json::to_string_pretty(&measured?)?)?;
    Ok(())
}

async fn in_session(page: &Page, start: &Start) -> Result<Value> {
    let mut found = Map::new();
    first_loads(page, start, &mut found).await?;

    // From another document, since going from an address to the same one with a fragment loads nothing.
    page.open("about:blank").await?;
    page.open(&format!("{}#measure", start.setting.page)).await?;
    let offered = format!("{VISIBLE}.then(() => Object.keys(window.baywrightMeasure ?? {{}}))");
    let offered = page.value(&offered).await?;
    let offers = |name: &str| offered.as_array().is_some_and(|names| names.iter().any(|offered| offered == name));
    if offers("devices") {
        // A page that has just come up still compiles: nobody edits within its first seconds.
        page.until("performance.getEntriesByName('baywright:warm').length").await?;
        found.insert("devices".into(), page.value("baywrightMeasure.devices()").await?);
    }
    for times in ["report_ms", "paint_ms"] {
        if offers(times) {
            // The first edits are the browser's warm-up.
            page.value(&format!("baywrightMeasure.{times}(20)")).await?;
            found.insert(times.into(), page.value(&format!("baywrightMeasure.{times}({EDITS})")).await?);
        }
    }
    page.until("performance.getEntriesByName('baywright:worker').length").await?;
    if offers("project") {
        found.insert("project".into(), page.value("baywrightMeasure.project()").await?);
    }
    if offers("year_ms") {
        page.value("baywrightMeasure.year_ms(5)").await?;
        found.insert("year".into(), page.value(&format!("baywrightMeasure.year_ms({YEARS})")).await?);
    }
    if offers("draw") {
        let drawn = page.value("baywrightMeasure.draw()").await?;
        for figure in ["calls", "triangles"] {
            found.insert(figure.into(), drawn[figure].clone());
        }
    }
    if offers("frames") {
        // What the last edit set off comes to rest first.
        tokio::time::sleep(Duration::from_secs(1)).await;
        let before = page.value("baywrightMeasure.frames()").await?.as_f64().context("frames() is no number")?;
        tokio::time::sleep(Duration::from_secs(3)).await;
        let after = page.value("baywrightMeasure.frames()").await?.as_f64().context("frames() is no number")?;
        found.insert("idle_frames".into(), json!(after - before));
    }
    // Last, as it opens another project.
    if offers("course_ms") {
        page.value("baywrightMeasure.course_ms(5)").await?;
        found.insert("course_ms".into(), page.value(&format!("baywrightMeasure.course_ms({YEARS})")).await?);
    }
    Ok(found.into())
}

/// Loads both pages in turn, without the browser's store of earlier loads.
async fn first_loads(page: &Page, start: &Start, found: &mut Map<String, Value>) -> Result<()> {
    let empty = start.setting.empty_page.as_ref().context("BAYWRIGHT_EMPTY_PAGE is not set")?;
    page.devtools("Network.setCacheDisabled", json!({ "cacheDisabled": true })).await?;
    let (mut visible, mut empty_visible) = (Vec::new(), Vec::new());
    for load in 0..LOADS {
        page.open(empty).await?;
        empty_visible.push(page.value(VISIBLE).await?);
        page.requests().await?;
        page.open(&start.setting.page).await?;
        visible.push(page.value(VISIBLE).await?);
        if load == 0 {
            // Everything the page will ever fetch, told apart by whether it was asked for once the badges and the model
            // had been painted. What cannot be told apart counts as needed for that.
            page.ready().await?;
            let after = page.value(AFTER).await?;
            let after: Vec<_> = after.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
            let (later, first): (Vec<_>, Vec<_>) =
                page.requests().await?.into_iter().partition(|address| after.contains(&address.as_str()));
            found.insert("loaded".into(), json!(first));
            found.insert("loaded_later".into(), json!(later));
        }
        if visible.last() == Some(&Value::Null) {
            return Ok(());
        }
    }
    found.insert("visible_ms".into(), visible.into());
    found.insert("empty_visible_ms".into(), empty_visible.into());
    Ok(())
}
