//! A cabinet is built from what a customer says, with the keyboard alone or by choosing among judged options.

use crate::harness::{Case, Page, cases};
use anyhow::{Context, Result};
use fantoccini::key::Key;

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![
        Hosted: builds_with_the_keyboard_alone, places_nothing_it_cannot_read, waits_for_a_mass_that_nobody_said,
            tells_what_a_paint_leads_to_before_it_is_taken, keeps_what_a_climate_unit_promised,
            takes_a_pasted_table, takes_a_device_written_down, begins_with_a_finished_project,
            opens_every_working_with_a_source;
        Offline: builds_with_the_keyboard_alone
    ]
}

async fn builds_with_the_keyboard_alone(page: Page) -> Result<()> {
    page.ready().await?;
    page.tab_to("Project").await?;
    page.press(&[], Key::Enter).await?;
    page.shows("document.activeElement.textContent", "New").await?;
    page.press(&[], Key::Enter).await?;
    page.has_devices(&[]).await?;
    let empty = page.badges().await?;

    page.tab_to("Add").await?;
    page.write("2x 1U switch 60 W 5 kg 120 V").await?;
    page.press(&[], Key::Enter).await?;
    let placed = ["switch, A 24, 1 U, network", "switch, A 23, 1 U, network"];
    page.has_devices(&placed).await?;
    for (topic, before) in ["Fit", "Weight", "Heat"].iter().zip(&empty) {
        page.badge_after(topic, before).await?;
    }

    let before = page.tab_to("Depth over the skin: …").await?;
    page.press(&[], Key::Enter).await?;
    page.opened().await?;
    page.write("36 in").await?;
    page.press(&[], Key::Enter).await?;
    // NIST SP 811, B.8: an inch is 25.4 mm exactly. The focus comes back to the blank with the dialog gone.
    page.shows("document.querySelector('dialog[open]') === null", true).await?;
    assert_eq!(page.focused().await?, "Depth over the skin: 914 mm. Change");
    page.press(&[Key::Control], 'z').await?;
    assert_eq!(page.focused().await?, before);
    page.press(&[Key::Control, Key::Shift], 'z').await?;
    assert_eq!(page.focused().await?, "Depth over the skin: 914 mm. Change");

    page.tab_to(placed[1]).await?;
    page.press(&[], Key::Down).await?;
    page.press(&[], Key::Down).await?;
    page.has_devices(&[placed[0], "switch, A 21, 1 U, network"]).await?;
    page.press(&[], Key::Delete).await?;
    page.has_devices(&placed[..1]).await?;
    // What is left has the focus, so that the next key is not lost.
    assert_eq!(page.focused().await?, placed[0]);
    page.press(&[Key::Control], 'z').await?;
    page.press(&[Key::Control], 'z').await?;
    page.press(&[Key::Control], 'z').await?;
    page.has_devices(&placed).await?;
    page.press(&[Key::Control], 'y').await?;
    page.has_devices(&[placed[0], "switch, A 22, 1 U, network"]).await
}

async fn places_nothing_it_cannot_read(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_new().await?;
    page.enter("Add", "9999x 1U switch 60 W").await?;
    page.says("document.getElementById('read').textContent", &["How many", "9999"]).await?;
    page.has_devices(&[]).await?;
    assert!(!page.find("button", "Place").await?.is_enabled().await?);
    page.enter("Add", "").await?;
    page.has_devices(&[]).await
}

async fn waits_for_a_mass_that_nobody_said(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_new().await?;
    page.ask_for("1U switch 60 W").await?;
    let badge = page.badge("Weight").await?;
    assert!(badge.starts_with("needs data Weight needs data"), "{badge}");
    page.press_button("switch, A 24…").await?;
    page.enter("Mass", "5 kg").await?;
    let badge = page.badge_after("Weight", &badge).await?;
    assert!(badge.contains(" kg"), "{badge}");
    Ok(())
}

/// The options of the list that is open: name, what is said to follow.
const OPTIONS: &str = "[...document.querySelectorAll('dialog[open] .option')].map((option) =>
    [option.querySelector('.option__name').textContent, option.querySelector('.said').textContent])";

/// The options of the list that is open, with plain spaces.
async fn options(page: &Page) -> Result<Vec<(String, String)>> {
    page.until("document.querySelector('dialog[open] .option')").await?;
    let options: Vec<(String, String)> = serde_json::from_value(page.value(OPTIONS).await?)?;
    Ok(options.into_iter().map(|(name, said)| (name, said.replace('\u{a0}', " "))).collect())
}

async fn tells_what_a_paint_leads_to_before_it_is_taken(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_with("Hot desert fibre hub").await?;
    page.press_button("Paint: …").await?;
    let options = options(&page).await?;
    let said = |paint: &str| options.iter().find(|(name, _)| name == paint).map(|(_, said)| said.clone());
    let (white, black) = (said("White, fresh").context("no white")?, said("Black").context("no black")?);
    assert_ne!(white, black, "black takes up more sun than white");
    page.choose("Black").await?;
    let badges = page.badges().await?;
    assert!(badges.iter().any(|badge| badge.contains(&black)), "{badges:?} instead of {black}");
    Ok(())
}

async fn keeps_what_a_climate_unit_promised(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_new().await?;
    page.ask_for("4x 1U switch 60 W 5 kg 120 V").await?;
    let without = page.badge("Heat").await?;
    page.click("button", "all parts").await?;
    page.press_button("One more climate unit: …").await?;
    let options = options(&page).await?;
    let (name, promised) =
        options.iter().find(|(name, _)| name.starts_with("Heater 800")).context("there is no heater")?;
    page.choose(name).await?;
    page.press(&[], Key::Escape).await?;
    let with = page.badge_after("Heat", &without).await?;
    assert!(with.contains(promised.as_str()), "{with} instead of {promised}");
    assert!(without.starts_with("fails Heat fails: coldest"), "{without}");
    page.click("button", "all parts").await?;
    page.press_button("Take out Heater …").await?;
    page.press(&[], Key::Escape).await?;
    assert_eq!(page.badge_after("Heat", &with).await?, without);
    Ok(())
}

async fn takes_a_pasted_table(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_new().await?;
    page.click("button", "Add a device").await?;
    let table = page.find("textbox", "Or paste a table with a head row: name, U, W, kg, depth").await?;
    table
        .send_keys(
            "name, U, W, kg, depth, V\nEdge router, 2, 180, 9, 400 mm, 120\nLamp tester, 1, forty, 3, 300 mm, 120",
        )
        .await?;
    let read =
        page.says("document.querySelector('.paste .field__help').textContent", &["1 devices read.", "forty"]).await?;
    assert!(read.contains('3'), "the row is named: {read}");
    page.click("button", "Add the table").await?;
    page.has_devices(&["Edge router, A 23, 2 U, network"]).await
}

async fn takes_a_device_written_down(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_new().await?;
    page.click("button", "Add a device").await?;
    page.enter("Name", "Signal box").await?;
    page.enter("Rack units", "4").await?;
    page.enter("Most power", "0.12 kW").await?;
    page.enter("Mass", "20 lb").await?;
    page.click("button", "Add it").await?;
    page.has_devices(&["Signal box, A 21, 4 U, network, sets the limit"]).await?;
    // NIST SP 811, B.8: 20 lb are 20 × 0.453 592 37 kg.
    page.says("document.querySelector('.devices__fitted').textContent", &["120 W", "9.1 kg"]).await.map(drop)
}

async fn begins_with_a_finished_project(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_new().await?;
    let heading = "document.querySelector('h1').textContent";
    let samples = ["Hot desert fibre hub", "Coastal two-bay edge site", "Cold mountain relay"];
    let mut names = Vec::new();
    for sample in samples {
        page.begin_with(sample).await?;
        names.push(page.text(heading).await?);
        assert!(page.devices().await?.len() > 5, "{sample}");
    }
    assert!(names[0] != names[1] && names[1] != names[2], "{names:?}");
    // A project that was replaced comes back.
    page.click("button", "Undo").await?;
    page.shows(heading, names[1].clone()).await
}

async fn opens_every_working_with_a_source(page: Page) -> Result<()> {
    page.ready().await?;
    let mut seen = std::collections::BTreeSet::new();
    for topic in ["Fit", "Weight", "Heat"] {
        page.badge_row(topic).await?.0.click().await?;
        page.shows("document.querySelector('.bench').ariaLabel", format!("{topic}, opened")).await?;
        page.questions().await?;
        let count = page.value("document.querySelectorAll('.bench__side .finding').length").await?.as_u64();
        for index in 0..count.context("no questions")? {
            page.value(&format!("document.querySelectorAll('.bench__side .finding')[{index}].click()")).await?;
            let code = format!("document.querySelectorAll('.bench__side .finding__code')[{index}].textContent");
            let code = page.text(&code).await?;
            page.shows("document.querySelector('.working .work__code').textContent", code.clone()).await?;
            let sources = page
                .text("[...document.querySelectorAll('.work__notes dt')].find((it) => it.textContent === 'Source').nextSibling.textContent")
                .await?;
            assert!(sources.len() > 8, "{code}: {sources:?}");
            seen.insert(code);
        }
    }
    assert_eq!(seen.len(), 33, "every check has its question: {seen:?}");
    Ok(())
}
