//! Figures are read and typed in US and metric units alike, and no number drifts by being looked at.

use crate::harness::{Case, Page, cases};
use anyhow::Result;
use fantoccini::key::Key;

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![Hosted: changes_every_figure_and_back_without_drift, reads_a_length_however_it_is_said, asks_in_the_units_one_reads]
}

/// Everything that stands on the sheet, but for what has units in its own name: the sources and ranges of a check, and
/// what the entry line takes.
const SHEET: &str = "(() => {
    const sheet = document.querySelector('main').cloneNode(true);
    sheet.querySelectorAll('.work__notes, .work__caution, .entry, title').forEach((it) => it.remove());
    const names = [...sheet.querySelectorAll('[aria-label]')].map((it) => it.ariaLabel);
    return [sheet.textContent, ...names].join('\\n');
})()";

/// A figure in metric units, as one is written on the sheet: with a no-break space between.
const METRIC: &str = r"/\d\u{a0}(mm|kg|°C|K|kPa|m³\/h|l)(?![\w/])/u";

async fn changes_every_figure_and_back_without_drift(page: Page) -> Result<()> {
    page.year_is_there().await?;
    let (metric, link) = (page.text(SHEET).await?, page.link().await?);
    page.until(&format!("{METRIC}.test({SHEET})")).await?;
    page.click("button", "Units: metric. Change").await?;
    page.find("button", "Units: US. Change").await?;
    let left = page.value(&format!("{SHEET}.match(new RegExp({METRIC}.source, 'gu'))")).await?;
    assert!(left.is_null(), "still metric: {left}");
    let us = page.text(SHEET).await?;
    for unit in [" in", " ft", " lb", " °F"] {
        assert!(us.contains(unit), "nothing in{unit}");
    }
    assert_eq!(page.link().await?, link, "looking at it changed the project");
    for _ in 0..5 {
        page.click("button", "Units: US. Change").await?;
        page.click("button", "Units: metric. Change").await?;
    }
    assert_eq!(page.text(SHEET).await?, us);
    page.click("button", "Units: US. Change").await?;
    page.find("button", "Units: metric. Change").await?;
    assert_eq!(page.text(SHEET).await?, metric);
    assert_eq!(page.link().await?, link);
    Ok(())
}

async fn reads_a_length_however_it_is_said(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_new().await?;
    // NIST SP 811, B.8: a foot is 304.8 mm, an inch 25.4 mm, both exactly.
    for (said, metric) in [
        ("32 1/2\"", "826 mm"),
        ("2 ft 8 in", "813 mm"),
        ("2'8\"", "813 mm"),
        ("0.8 m", "800 mm"),
        ("900", "900 mm"),
        ("91.4 cm", "914 mm"),
    ] {
        page.fill("Depth over the skin", said).await?;
        page.closed().await?;
        page.find("button", &format!("Depth over the skin: {}. Change", metric.replace(' ', "\u{a0}"))).await?;
    }
    Ok(())
}

async fn asks_in_the_units_one_reads(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_new().await?;
    page.click("button", "Units: metric. Change").await?;
    // A number alone is in the unit that stands beside it.
    page.fill("Depth over the skin", "32.5").await?;
    page.closed().await?;
    page.button("Depth over the skin: 32.5 in. Change").await?;
    page.fill("Greatest equipped mass", "1 t").await?;
    page.closed().await?;
    // NIST SP 811, B.8: a pound is 0.453 592 37 kg exactly, so a tonne is 2 204.62 lb.
    page.button("Greatest equipped mass: 2,205 lb. Change").await?;
    // What was typed is what comes back, to the digit.
    page.press_button("Depth over the skin: …").await?;
    page.shows("document.activeElement.value", "32.5").await?;
    page.press(&[], Key::Escape).await?;
    page.closed().await?;
    // Refused in the same units.
    page.fill("Depth over the skin", "9000").await?;
    page.says("document.querySelector('dialog[open] .field__help').textContent", &["9000 in", " in. Kept 32.5 in"])
        .await
        .map(drop)
}
