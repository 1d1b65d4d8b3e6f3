//! Supply and backup on the page: badges, what is asked, the one-line diagram, and loads that are fed from elsewhere.

use crate::harness::{Case, Page, cases};
use anyhow::{Context, Result};
use fantoccini::key::Key;
use serde_json::Value;

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![
        Hosted: power_and_backup_are_answered_beside_the_others, another_supply_is_told_where_it_was_asked,
            what_is_asked_of_supply_is_kept, a_load_shows_its_way_to_the_source, keys_follow_the_wires,
            a_load_is_fed_from_elsewhere_and_back, a_feed_that_does_not_suit_is_told, the_table_says_what_is_drawn,
            the_discharge_is_read_by_keys_as_in_its_table, without_batteries_nothing_is_bridged,
            a_breaker_is_moved_by_arrows_and_put_back, a_breaker_is_dragged_to_another_position,
            a_breaker_on_the_wrong_board_is_told, every_wire_has_its_length_and_every_alarm_its_terminals;
        Offline: a_load_shows_its_way_to_the_source
    ]
}

/// What stands in the rows of the diagram that are on the way, with plain spaces.
const WAY: &str = "[...document.querySelectorAll('.w-row--way')].map((it) => it.getAttribute('aria-label')).join('; ')";
/// The side of the bench in words.
const SIDE: &str = "document.querySelector('.bench__side').innerText";

impl Page {
    /// Opens a topic by its badge, and the bench where it is closed to one line.
    pub(crate) async fn open_topic(&self, topic: &str) -> Result<()> {
        self.badge_row(topic).await?.0.click().await?;
        let closed = "[...document.querySelectorAll('button')].find((it) => it.textContent === 'Open the working')";
        self.value(&format!("{closed}?.click()")).await.map(drop)
    }

    /// Presses the one row of the diagram whose name begins so.
    async fn press_row(&self, begins: &str) -> Result<()> {
        let is = |name: &str| name.replace('\u{a0}', " ").starts_with(begins) && name.contains(" from ");
        Ok(self.find_that("button", &format!("{begins:?}, in the diagram"), is).await?.click().await?)
    }
}

async fn power_and_backup_are_answered_beside_the_others(page: Page) -> Result<()> {
    page.ready().await?;
    for topic in ["Power", "Backup"] {
        page.badge(topic).await?;
        page.open_topic(topic).await?;
        page.find("region", &format!("{topic}, opened")).await?;
        let working = "document.querySelector('.bench .work').innerText";
        page.says(working, &["Preliminary.", "licensed electrician"]).await?;
        page.click("button", "Close the working").await?;
    }
    // Six badges stand under one another, each whole.
    let cut = "[...document.querySelectorAll('.answer')].filter((it) => {
        const { top, bottom } = it.getBoundingClientRect(), block = document.querySelector('.block').getBoundingClientRect();
        return bottom - top < 44 || bottom > block.top + 1;
    }).length";
    page.shows(cut, 0).await?;
    page.shows("document.querySelectorAll('.answer').length > 4", true).await
}

async fn another_supply_is_told_where_it_was_asked(page: Page) -> Result<()> {
    page.ready().await?;
    let phrase = "document.querySelector('.asked button[aria-label^=\"Supply: \"]').parentElement.className";
    let before = page.badge("Power").await?;
    assert!(!page.text(phrase).await?.contains("o-fails"), "{before}");
    page.press_button("Supply: …").await?;
    page.choose("−48 V from elsewhere").await?;
    page.closed().await?;
    let after = page.badge_after("Power", &before).await?;
    assert!(after.starts_with("fails Power fails"), "{after}");
    page.shows(phrase, "owed o-fails").await?;
    page.open_topic("Power").await?;
    page.until("document.querySelector('.w-row--fails .w-trouble')").await?;
    page.says(SIDE, &["nothing feeds it"]).await?;
    page.click("button", "Undo").await?;
    page.shows(phrase, "kept").await?;
    page.shows("document.querySelectorAll('.w-row--fails').length", 0).await
}

async fn what_is_asked_of_supply_is_kept(page: Page) -> Result<()> {
    page.ready().await?;
    page.fill("Autonomy", "6h").await?;
    page.closed().await?;
    page.button("Autonomy: 6 h. Change").await?;
    page.press_button("Generator: …").await?;
    page.choose("a generator").await?;
    page.closed().await?;
    page.button("Generator: a generator. Change").await?;
    page.click("button", "Everything asked").await?;
    page.enter("Fault current at the service", "10 kA").await?;
    page.enter("Run of the service", "164 ft").await?;
    page.enter("Load to be added", "25").await?;
    page.enter("Recharged within", "500").await?;
    page.says("document.querySelector('dialog[open]').textContent", &["Not taken: 500 h"]).await?;
    let shown = |label: &str| format!("document.querySelector('dialog[open] [aria-label=\"{label}\"]').value");
    page.shows(&shown("Autonomy"), "6").await?;
    page.shows(&shown("Fault current at the service"), "10000").await?;
    // 164 ft are 49.9872 m (NIST SP 811, B.8: 1 ft = 0.3048 m exactly).
    page.shows(&shown("Run of the service"), "49.9872").await?;
    page.shows(&shown("Load to be added"), "25").await
}

async fn a_load_shows_its_way_to_the_source(page: Page) -> Result<()> {
    page.ready().await?;
    page.open_topic("Power").await?;
    page.find("group", "One-line diagram").await?;
    page.shows("document.querySelectorAll('.w-row--way').length", 0).await?;
    page.press_row("Edge server 1U ").await?;
    let way = page
        .says(WAY, &["120/240 V split phase", "Load centre", "Rectifiers", "bus", "Inverter", "Outlet strip"])
        .await?;
    assert!(!way.contains("Conditioner"), "what is not on the way is not marked: {way}");
    // Selected there is selected everywhere.
    page.until("document.querySelector('.elev__device--selected')").await?;
    page.says("document.querySelector('.elev__device--selected').ariaLabel", &["Edge server 1U"]).await?;
    // And what is selected elsewhere shows its way here.
    page.value("document.querySelector('.elev__device[aria-label^=\"Base-band\"]').dispatchEvent(new MouseEvent('click', { bubbles: true }))").await?;
    let way = page.says(WAY, &["Base-band", "DC breakers"]).await?;
    assert!(!way.contains("Inverter"), "{way}");
    page.click("button", "Open its panel").await?;
    page.find_that("region", "the panel of the radio", |name| name.starts_with("Selected: Base-band")).await?;
    // It has two inputs, each with a way.
    page.shows("document.querySelectorAll('.chosen button').length > 2", true).await
}

async fn keys_follow_the_wires(page: Page) -> Result<()> {
    page.ready().await?;
    page.open_topic("Power").await?;
    page.find("group", "One-line diagram").await?;
    page.value("document.querySelector('.w-row[tabindex=\"0\"]').focus()").await?;
    assert!(page.focused().await?.starts_with("120/240 V split phase"), "{}", page.focused().await?);
    page.press(&[], Key::End).await?;
    let last = page.focused().await?;
    page.press(&[], Key::Enter).await?;
    page.shows("document.activeElement.ariaPressed", "true").await?;
    // From source to source it ends at the service.
    let mut met = vec![last];
    while !met.iter().any(|name| name.starts_with("120/240 V")) && met.len() < 12 {
        page.press(&[], Key::Left).await?;
        met.push(page.focused().await?);
    }
    assert!(met.len() > 4 && met.len() < 12, "{met:?}");
    // One row is in the way of Tab, not thirty.
    page.shows("document.querySelectorAll('.w-row[tabindex=\"0\"]').length", 1).await?;
    page.press(&[], Key::Escape).await?;
    page.shows("document.querySelectorAll('.w-row--way').length", 0).await
}

/// What a row of the diagram says, by the beginning of its name.
fn row(begins: &str) -> String {
    format!("document.querySelector('.w-row[aria-label^=\"{begins}\"]').getAttribute('aria-label')")
}

/// Feeds what is selected from something else, by the field of its panel.
async fn feed(page: &Page, from: &str) -> Result<()> {
    page.press_button("Fed from: …").await?;
    page.choose(from).await?;
    page.closed().await
}

async fn a_load_is_fed_from_elsewhere_and_back(page: Page) -> Result<()> {
    page.ready().await?;
    page.open_topic("Power").await?;
    let server = row("Edge server 1U ");
    let before = page.says(&server, &["from Outlet strip"]).await?;
    page.press_row("Edge server 1U ").await?;
    page.click("button", "Open its panel").await?;
    feed(&page, "Load centre 16, wall").await?;
    page.says(SIDE, &["Load centre 16, wall, 120 V"]).await?;
    page.click("button", "Show its way").await?;
    page.says(&server, &["from Load centre"]).await?;
    let way = page.text(WAY).await?;
    assert!(!way.contains("Inverter"), "{way}");
    // One step back.
    page.click("button", "Undo").await?;
    page.shows(&format!("{server}.replaceAll('\u{a0}', ' ')"), before).await
}

async fn a_feed_that_does_not_suit_is_told(page: Page) -> Result<()> {
    page.ready().await?;
    page.open_topic("Power").await?;
    let before = page.badge("Power").await?;
    page.press_row("Edge server 1U ").await?;
    page.click("button", "Open its panel").await?;
    page.press_button("Fed from: …").await?;
    // Judged before it is chosen.
    page.says("[...document.querySelectorAll('dialog[open] .option')].find((it) => it.textContent.includes('DC breakers')).innerText", &["Power fails"]).await?;
    page.choose("DC breakers 24, B 9").await?;
    page.closed().await?;
    let badge = page.badge_after("Power", &before).await?;
    assert!(badge.starts_with("fails Power fails"), "{badge}");
    page.says(SIDE, &["what was chosen does not suit it"]).await?;
    page.click("button", "Show its way").await?;
    page.until("document.querySelectorAll('.w-row--fails .w-trouble').length === 1").await?;
    feed_by_itself(&page).await?;
    page.badge_after("Power", &badge).await.map(drop)
}

/// Lets what is selected be fed by itself again.
async fn feed_by_itself(page: &Page) -> Result<()> {
    page.click("button", "Open its panel").await?;
    feed(page, "whatever is nearest").await
}

async fn the_table_says_what_is_drawn(page: Page) -> Result<()> {
    page.ready().await?;
    page.open_topic("Power").await?;
    page.value("document.querySelector('.bench__side summary').click()").await?;
    let rows =
        page.value("[...document.querySelectorAll('.wiring__table tbody th')].map((it) => it.textContent)").await?;
    let drawn = page.value("document.querySelectorAll('.w-row').length").await?;
    let rows = rows.as_array().context("no table")?;
    assert_eq!(Some(rows.len() as u64), drawn.as_u64(), "{rows:?}");
    assert!(rows.iter().filter_map(Value::as_str).any(|name| name.starts_with("Inverter")), "{rows:?}");
    Ok(())
}

/// What the discharge says at the place it stands at.
const DISCHARGE: &str = "document.querySelector('[role=slider][aria-label=\"Hours since the supply failed\"]').getAttribute('aria-valuetext')";

async fn the_discharge_is_read_by_keys_as_in_its_table(page: Page) -> Result<()> {
    page.ready().await?;
    page.open_topic("Backup").await?;
    page.find("slider", "Hours since the supply failed").await?;
    page.value("document.querySelector('.discharge').focus()").await?;
    page.press(&[], Key::Home).await?;
    let start = page.says(DISCHARGE, &["After 0 h: ", "rated 25 °C", "cold ", " V at ", " A"]).await?;
    page.press(&[], Key::End).await?;
    let end = page.says(DISCHARGE, &["cold ", " ended after "]).await?;
    assert_ne!(start, end);
    // Its table begins and ends alike.
    page.value("document.querySelector('.bench__side summary').click()").await?;
    let row = |at: &str| format!("[...document.querySelectorAll('.numbers[open] tbody tr')].at({at}).innerText");
    let first = page.says(&row("0"), &["0 h"]).await?;
    let volts = first.split_whitespace().last().context("an empty row")?.to_owned();
    assert!(start.contains(&format!("{volts} V")), "{volts} of the table is not in {start:?}");
    page.says(&row("-2"), &["ended"]).await?;
    page.says(&row("-1"), &["ends", " h at ", " V"]).await.map(drop)
}

async fn without_batteries_nothing_is_bridged(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_new().await?;
    page.open_topic("Backup").await?;
    page.says(SIDE, &["No battery is placed"]).await?;
    assert_eq!(page.complaints().await?, [""; 0]);
    Ok(())
}

/// The breaker of something in the schedules.
fn breaker(of: &str) -> String {
    format!("document.querySelector('.slot__breaker[aria-label*=\"{of}\"]')")
}

/// Opens the schedules.
async fn breakers(page: &Page) -> Result<()> {
    page.ready().await?;
    page.open_topic("Power").await?;
    page.click("button", "Breakers").await?;
    page.until("document.querySelectorAll('.board').length === 2").await
}

/// The position of the guarded outlet.
const OUTLET: &str =
    "document.querySelector('.slot__breaker[aria-label*=\"Guarded outlet\"] .slot__place').textContent";

async fn a_breaker_is_moved_by_arrows_and_put_back(page: Page) -> Result<()> {
    breakers(&page).await?;
    let before: u32 = page.text(OUTLET).await?.parse()?;
    page.value(&format!("{}.focus()", breaker("Guarded outlet"))).await?;
    page.press(&[], Key::Down).await?;
    page.shows(OUTLET, (before + 2).to_string()).await?;
    // It keeps the focus, so that it can be moved on.
    page.shows(&format!("document.activeElement === {}", breaker("Guarded outlet")), true).await?;
    page.press(&[], Key::Down).await?;
    page.shows(OUTLET, (before + 4).to_string()).await?;
    page.press(&[Key::Control], 'z').await?;
    page.shows(OUTLET, (before + 2).to_string()).await?;
    page.click("button", "Undo").await?;
    page.shows(OUTLET, before.to_string()).await?;
    page.shows("document.querySelectorAll('.slot--odd').length", 0).await
}

/// How far it is from a breaker to a free position, px.
async fn to_free(page: &Page, of: &str, board: usize, position: u32) -> Result<(f64, f64)> {
    let there = format!(
        "[...[...document.querySelectorAll('.board')][{board}].querySelectorAll('.slot--free')]
            .find((it) => it.querySelector('.slot__place').textContent === '{position}').getBoundingClientRect()"
    );
    let here = format!("{}.getBoundingClientRect()", breaker(of));
    let middle = |it: &str, from: &str, size: &str| format!("({it}).{from} + ({it}).{size} / 2");
    let way = |from: &str, size: &str| format!("{} - ({})", middle(&there, from, size), middle(&here, from, size));
    let far = page.value(&format!("[{}, {}]", way("left", "width"), way("top", "height"))).await?;
    let of = |at: usize| far[at].as_f64().context("no such place");
    Ok((of(0)?, of(1)?))
}

async fn a_breaker_is_dragged_to_another_position(page: Page) -> Result<()> {
    breakers(&page).await?;
    let before = page.text(OUTLET).await?;
    let (x, y) = to_free(&page, "Guarded outlet", 0, 16).await?;
    let outlet = page
        .find_that("button", "the guarded outlet", |name| name.contains("Guarded outlet") && name.ends_with("VA"))
        .await?;
    page.drag(outlet, x, y).await?;
    page.shows(OUTLET, "16").await?;
    page.shows("document.querySelectorAll('.slot--over').length", 0).await?;
    page.click("button", "Undo").await?;
    page.shows(OUTLET, before).await
}

async fn a_breaker_on_the_wrong_board_is_told(page: Page) -> Result<()> {
    breakers(&page).await?;
    let badge = page.badge("Power").await?;
    page.value("document.querySelectorAll('.board')[1].scrollIntoView({ block: 'end' })").await?;
    let (x, y) = to_free(&page, "Site controller", 0, 15).await?;
    let controller = page
        .find_that("button", "the controller's breaker", |name| {
            name.contains("Site controller") && name.contains(" AWG")
        })
        .await?;
    page.drag(controller, x, y).await?;
    let after = page.badge_after("Power", &badge).await?;
    assert!(after.starts_with("fails Power fails"), "{after}");
    page.click("button", "Undo").await?;
    page.badge_after("Power", &after).await.map(drop)
}

async fn every_wire_has_its_length_and_every_alarm_its_terminals(page: Page) -> Result<()> {
    page.ready().await?;
    page.open_topic("Power").await?;
    page.click("button", "Wire list").await?;
    page.find("table", "Wire list").await?;
    let lines = "[...document.querySelectorAll('.bench__side tbody tr')].map((row) => [...row.cells].map((cell) => cell.innerText))";
    let wires = page.value(lines).await?;
    let wires = wires.as_array().context("no wires")?;
    assert!(wires.len() > 30, "{} wires", wires.len());
    for wire in wires {
        let length = wire[6].as_str().unwrap_or_default();
        assert!(length.ends_with("\u{a0}m") && !length.starts_with('0') || length.starts_with("0."), "{wire}");
    }
    page.click("button", "Terminals").await?;
    page.find("table", "Ground bars").await?;
    page.find("table", "Alarm terminals").await?;
    page.says(SIDE, &["1 and 2", "rectifier failed", "Electrode conductor"]).await.map(drop)
}
