//! The sheet is for everybody: checked by axe-core against WCAG 2.2 AA, by day and by night, and at the sizes of screens.

use crate::harness::{Case, Page, cases};
use anyhow::{Context, Result};
use fantoccini::key::Key;
use serde_json::Value;

/// The tests of this file. Without axe-core, which xtask fetches by npm, its rules are not asked.
pub(crate) fn cases() -> Vec<Case> {
    let by_axe = cases![Hosted: breaks_no_rule_by_day, breaks_no_rule_by_night];
    let by_hand = cases![Hosted:
        fits_the_width_of_a_telephone, fits_the_smallest_desk, keeps_the_focus_inside_a_dialog, says_what_changed_once
    ];
    if std::env::var_os("BAYWRIGHT_AXE").is_some() {
        return [by_axe, by_hand].concat();
    }
    println!("axe-core is not here (BAYWRIGHT_AXE is not set): the accessibility rules are not asked");
    by_hand
}

/// What axe-core finds wrong on the page as it is.
async fn wrong(page: &Page) -> Result<Vec<String>> {
    let path = std::env::var_os("BAYWRIGHT_AXE").context("BAYWRIGHT_AXE is not set")?;
    let source = std::fs::read_to_string(path).context("axe-core cannot be read")?;
    page.client.execute(&format!("if (!window.axe) {{ {source} }}"), vec![]).await?;
    // What moves is not judged while it moves. A name that is cut on the drawing where there is no room for the whole of
    // it cannot stand in the accessible name as it is cut.
    let run = "Promise.all(document.getAnimations().map((it) => it.finished.catch(() => 0)))
        .then(() => axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }))
        .then(({ violations, passes }) => ({
            asked: passes.length,
            wrong: violations.flatMap(({ id, nodes }) => nodes
                .filter(({ html }) => !(id === 'label-content-name-mismatch' && /elev__device|w-row/.test(html)))
                .map(({ target, any, all, none }) =>
                `${id}: ${target.join(' ')}: ${[...any, ...all, ...none].map(({ message }) => message).join('; ')}`)),
        }))";
    let found = page.value(run).await?;
    assert!(found["asked"].as_u64().is_some_and(|asked| asked > 10), "axe-core looked at nothing");
    let lines = found["wrong"].as_array().context("axe-core gave no answer")?;
    Ok(lines.iter().filter_map(Value::as_str).map(str::to_owned).collect())
}

/// Everything that is looked at in one sheet: as it opens, each dialog, a device and a part selected, a message.
async fn breaks_no_rule(page: &Page) -> Result<()> {
    let mut all = Vec::new();
    let mut look = async |what: &str| -> Result<()> {
        all.extend(wrong(page).await?.into_iter().map(|line| format!("{what}: {line}")));
        Ok(())
    };
    page.year_is_there().await?;
    look("sheet").await?;
    page.press_button("Open the working").await?;
    for side in ["Questions", "Hot day", "Cold day", "Hours", "Without cooling"] {
        page.press_button(side).await?;
        // The same in numbers is there to be read too.
        page.value("document.querySelectorAll('.bench__side summary').forEach((it) => it.click())").await?;
        look(side).await?;
    }
    page.select_a_unit().await?;
    page.value("document.querySelectorAll('.chosen summary').forEach((it) => it.click())").await?;
    look("a unit selected").await?;
    page.press_button("Put away").await?;
    page.press_button("Close the working").await?;
    for button in [
        "22…",
        "Everything asked",
        "all parts",
        "Project",
        "Share",
        "Hottest outdoor air: …",
        "Sun: …",
        "Paint: …",
        "Shown through the year: …",
        "weather of the year",
    ] {
        page.press_button(button).await?;
        page.until("document.querySelector('dialog[open]')").await?;
        look(button).await?;
        page.press(&[], Key::Escape).await?;
        page.closed().await?;
    }
    page.press_button("Core switch 32…").await?;
    page.until("document.querySelector('.chosen')").await?;
    look("a device selected").await?;
    page.press_button("Close the working").await?;
    page.open_topic("Power").await?;
    page.until("document.querySelector('.wiring__svg .w-row--chosen')").await?;
    for side in ["One-line", "Breakers", "Wire list", "Terminals", "Discharge"] {
        page.press_button(side).await?;
        page.value("document.querySelectorAll('.bench__side summary').forEach((it) => it.click())").await?;
        look(side).await?;
    }
    page.press_button("Close the working").await?;
    page.fill("Greatest equipped mass", "100 kg").await?;
    page.closed().await?;
    look("a promise not kept").await?;
    page.begin_new().await?;
    look("nothing asked").await?;
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
    Ok(())
}

async fn breaks_no_rule_by_day(page: Page) -> Result<()> {
    page.ready().await?;
    page.click("button", "Sheet: as the system. Change").await?;
    page.shows("document.documentElement.dataset.sheet", "day").await?;
    breaks_no_rule(&page).await
}

async fn breaks_no_rule_by_night(page: Page) -> Result<()> {
    page.ready().await?;
    page.click("button", "Sheet: as the system. Change").await?;
    page.click("button", "Sheet: day. Change").await?;
    page.shows("document.documentElement.dataset.sheet", "night").await?;
    breaks_no_rule(&page).await
}

/// How far the page reaches past the right edge, and what does.
const OVER: &str = "(() => {
    const root = document.documentElement;
    if (root.scrollWidth <= innerWidth) return '';
    const over = [...document.querySelectorAll('main *')].filter((it) => it.getBoundingClientRect().right > innerWidth + 0.5);
    return root.scrollWidth + ' px: ' + over.slice(0, 5).map((it) => it.tagName + '.' + it.className).join(', ');
})()";

async fn fits_the_width_of_a_telephone(page: Page) -> Result<()> {
    page.screen(390, 844).await?;
    page.client.refresh().await?;
    page.ready().await?;
    page.shows(OVER, "").await?;
    let parts = page.button("all parts").await?;
    // The entry line lies over the foot of the screen; one scrolls what lies under it up.
    page.value("[...document.querySelectorAll('.note button')].at(-1).scrollIntoView({ block: 'center' })").await?;
    parts.click().await?;
    page.shows(OVER, "").await?;
    page.until("document.querySelector('dialog[open]').getBoundingClientRect().right <= innerWidth").await?;
    page.press(&[], Key::Escape).await?;
    page.closed().await?;
    page.value("document.querySelector('.elev__device').scrollIntoView({ block: 'center' })").await?;
    page.press_button("Core switch 32…").await?;
    page.until("document.querySelector('.chosen')").await?;
    page.shows(OVER, "").await
}

async fn fits_the_smallest_desk(page: Page) -> Result<()> {
    page.ready().await?;
    page.shows(OVER, "").await?;
    // One sheet: what decides is seen without scrolling.
    page.shows("[document.documentElement.scrollHeight > innerHeight, scrollY]", serde_json::json!([false, 0])).await?;
    for seen in [".asked__text", ".elev__svg", ".model-view__canvas", ".answered", ".block__verdict", "#line"] {
        let place = format!("document.querySelector('{seen}').getBoundingClientRect()");
        page.until(&format!("{place}.height > 10 && {place}.bottom <= innerHeight && {place}.right <= innerWidth"))
            .await?;
    }
    Ok(())
}

async fn keeps_the_focus_inside_a_dialog(page: Page) -> Result<()> {
    page.ready().await?;
    page.press_button("Sun: …").await?;
    page.until("document.querySelector('dialog[open]')").await?;
    for _ in 0..12 {
        page.press(&[], Key::Tab).await?;
        // Between the last and the first thing the browser's own bar has its turn, and then the document's body has it.
        page.until("document.activeElement === document.body || document.querySelector('dialog[open]').contains(document.activeElement)").await?;
    }
    page.press(&[], Key::Escape).await?;
    page.closed().await?;
    assert!(page.focused().await?.starts_with("Sun: "), "{}", page.focused().await?);
    Ok(())
}

async fn says_what_changed_once(page: Page) -> Result<()> {
    page.year_is_there().await?;
    let said = "document.querySelector('[role=status]').textContent";
    page.shows(said, "").await?;
    page.fill("Greatest equipped mass", "100 kg").await?;
    let words = page.says(said, &["Weight fails"]).await?;
    assert!(!words.contains("Heat"), "what did not change is not said: {words}");
    Ok(())
}
