//! The brief is a sentence whose blanks are filled in the units one speaks; a promise not kept is told where it was asked.

use crate::harness::{Case, Page, cases};
use anyhow::{Context, Result};
use fantoccini::key::Key;

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![Hosted:
        takes_a_temperature_in_fahrenheit, refuses_what_is_out_of_range_and_keeps_the_old, says_what_it_cannot_read,
        hatches_a_mass_limit_that_is_not_kept, judges_shade_before_it_is_chosen, asks_also_what_the_sentence_leaves_out,
        asks_where_on_earth_and_in_which_months
    ]
}

/// What stands below the field that is open.
const HELP: &str = "document.querySelector('dialog[open] .field__help').textContent";

async fn takes_a_temperature_in_fahrenheit(page: Page) -> Result<()> {
    page.ready().await?;
    page.press_button("Hottest outdoor air: …").await?;
    page.shows("document.activeElement.ariaLabel", "Hottest outdoor air").await?;
    page.press(&[Key::Control], 'a').await?;
    page.write("95F").await?;
    // NIST SP 811, B.8: t/°C = (t/°F − 32)/1.8; 95 °F are 35 °C exactly. Told while it is still being typed.
    page.says(HELP, &["reads as 35 °C"]).await?;
    page.press(&[], Key::Enter).await?;
    page.closed().await?;
    assert_eq!(page.focused().await?, "Hottest outdoor air: 35 °C. Change");
    Ok(())
}

async fn refuses_what_is_out_of_range_and_keeps_the_old(page: Page) -> Result<()> {
    page.ready().await?;
    let before = page.link().await?;
    page.fill("Hottest outdoor air", "900 C").await?;
    let told = page.says(HELP, &["Not taken", "900 °C", "Between", "Kept"]).await?;
    assert_eq!(page.find("textbox", "Hottest outdoor air").await?.attr("aria-invalid").await?.as_deref(), Some("true"));
    let old = page.text("document.activeElement.value").await?;
    assert!(told.contains(&format!("Kept {old} °C")), "{told} beside {old}");
    page.press(&[], Key::Escape).await?;
    page.closed().await?;
    for absurd in ["-5 kg", "0", "1e99", "NaN"] {
        page.fill("Greatest equipped mass", absurd).await?;
        page.shows("document.activeElement.ariaInvalid", "true").await.with_context(|| absurd.to_owned())?;
        assert_ne!(page.text(HELP).await?, "", "{absurd} is refused with a word");
        page.press(&[], Key::Escape).await?;
        page.press(&[], Key::Escape).await?;
        page.closed().await?;
    }
    assert_eq!(page.link().await?, before);
    Ok(())
}

async fn says_what_it_cannot_read(page: Page) -> Result<()> {
    page.ready().await?;
    page.fill("Hottest outdoor air", "rather warm").await?;
    page.says(HELP, &["rather warm"]).await?;
    page.shows("document.activeElement.ariaInvalid", "true").await?;
    // What was typed is still there to be mended.
    page.shows("document.activeElement.value", "rather warm").await
}

async fn hatches_a_mass_limit_that_is_not_kept(page: Page) -> Result<()> {
    page.ready().await?;
    let phrase =
        "document.querySelector('.asked button[aria-label^=\"Greatest equipped mass\"]').parentElement.className";
    let before = page.badge("Weight").await?;
    assert!(!before.starts_with("fails") && !page.text(phrase).await?.contains("o-fails"), "{before}");
    page.fill("Greatest equipped mass", "120 lb").await?;
    page.shows(phrase, "owed o-fails").await?;
    let badge = page.badge_after("Weight", &before).await?;
    assert!(badge.starts_with("fails Weight fails"), "{badge}");
    // Said once, for those who do not see it.
    page.says("document.querySelector('[role=status]').textContent", &["Weight fails"]).await?;
    page.says("document.querySelector('.block__verdict').textContent", &["Weight fails"]).await?;
    // Without a limit there is nothing to be kept.
    page.fill("Greatest equipped mass", "\u{e003}").await?;
    page.shows(phrase, "kept").await?;
    page.button("Greatest equipped mass: any mass. Change").await.map(drop)
}

async fn judges_shade_before_it_is_chosen(page: Page) -> Result<()> {
    page.ready().await?;
    page.begin_with("Hot desert fibre hub").await?;
    let before = page.badge("Heat").await?;
    page.press_button("Sun: full sun. Change").await?;
    let list = page.find("list", "Sun").await?.text().await?;
    assert!(list.contains("full sun") && list.contains("fitted") && list.contains("shade"), "{list}");
    let promised = page.text("[...document.querySelectorAll('dialog[open] .option')].find((it) => it.textContent.includes('shade')).querySelector('.said').textContent").await?;
    page.choose("shade").await?;
    page.closed().await?;
    assert_eq!(page.focused().await?, "Sun: shade. Change");
    let badges = page.badges().await?;
    assert_ne!(badges[2], before, "shade changes the heat");
    assert!(
        promised == "everything holds" || badges.iter().any(|badge| badge.contains(&promised)),
        "{promised}: {badges:?}"
    );
    Ok(())
}

async fn asks_also_what_the_sentence_leaves_out(page: Page) -> Result<()> {
    page.ready().await?;
    page.click("button", "Everything asked").await?;
    // Cleared: not asked.
    page.enter("Pad or soil may carry", "\u{e003}").await?;
    page.enter("Bearing of the front", "270").await?;
    page.enter("Least tip angle", "200°").await?;
    page.says("[...document.querySelectorAll('dialog[open] label')].find((it) => it.textContent.startsWith('Least tip angle')).textContent", &["Not taken", "200"]).await?;
    page.press(&[], Key::Escape).await?;
    page.press_button("Bearing of the front: west. Change").await?;
    // The word chosen is the one that is fitted.
    page.says("document.querySelector('dialog[open] [aria-pressed=true]').textContent", &["west", "fitted"])
        .await
        .map(drop)
}

async fn asks_where_on_earth_and_in_which_months(page: Page) -> Result<()> {
    page.ready().await?;
    page.click("button", "Everything asked").await?;
    let shown = |label: &str| format!("document.querySelector('dialog[open] [aria-label=\"{label}\"]').value");
    page.enter("Latitude and longitude", "33° 24' N, 115° 12' W").await?;
    page.shows(&shown("Latitude and longitude"), "33.4°\u{a0}N, 115.2°\u{a0}W").await?;
    page.enter("Latitude and longitude", "north of here").await?;
    page.says("document.querySelector('dialog[open]').textContent", &["Not understood: try 33.4 N"]).await?;
    page.enter("Time zone", "+5:30").await?;
    page.enter("Horizon", "8; 4 0 12,5").await?;
    page.shows(&shown("Time zone"), "UTC+5:30").await?;
    page.shows(&shown("Horizon"), "8 4 0 12.5").await?;
    page.enter("Wind, March", "18 km/h").await?;
    page.shows(&shown("Wind, March"), "5").await?;
    page.enter("Wind, March", "99").await?;
    page.says("document.querySelector('dialog[open]').textContent", &["Wind, March: Not taken: 99 m/s"]).await?;
    page.shows(&shown("Wind, March"), "5").await?;
    page.click("button", "Clear the months").await?;
    page.says("document.querySelector('dialog[open]').textContent", &["the year is guessed"]).await?;
    page.shows(&shown("Latitude and longitude"), "33.4°\u{a0}N, 115.2°\u{a0}W").await.map(drop)
}
