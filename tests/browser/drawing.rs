//! The drawing of the cabinet: flat where there is no WebGL, back after its context was lost, still while nothing happens.

use crate::harness::{Case, Page, cases};
use anyhow::{Context, Result, bail};
use fantoccini::Locator;
use serde_json::{Value, json};
use std::time::Duration;

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![
        Hosted: draws_flat_without_webgl, comes_back_after_its_context_was_lost, draws_nothing_while_nothing_happens,
            turns_by_word_and_by_key, opens_doors_and_takes_the_shield_off, a_click_selects_a_part;
        Offline: draws_flat_without_webgl
    ]
}

/// The picture of the model as it is on the screen now.
async fn now(page: &Page) -> Result<Vec<u8>> {
    Ok(page.client.find(Locator::Css(".model-view__canvas")).await?.screenshot().await?)
}

/// The picture of the model once it has stood still for a while.
async fn picture(page: &Page) -> Result<Vec<u8>> {
    let (mut before, mut still) = (Vec::new(), 0);
    for _ in 0..120 {
        let now = now(page).await?;
        still = if now == before { still + 1 } else { 0 };
        if still == 3 {
            return Ok(now);
        }
        before = now;
        tokio::time::sleep(Duration::from_millis(150)).await;
    }
    bail!("the model does not come to rest")
}

/// Waits until the model looks so again.
async fn looks_again(page: &Page, before: &[u8]) -> Result<()> {
    for _ in 0..60 {
        if now(page).await? == before {
            return Ok(());
        }
        tokio::time::sleep(Duration::from_millis(150)).await;
    }
    bail!("the model does not look again as it did")
}

/// Waits until the model looks otherwise.
async fn looks_otherwise(page: &Page, before: &[u8]) -> Result<()> {
    for _ in 0..60 {
        if now(page).await? != before {
            return Ok(());
        }
        tokio::time::sleep(Duration::from_millis(150)).await;
    }
    bail!("the model looks as it did")
}

async fn draws_flat_without_webgl(page: Page) -> Result<()> {
    let without = "HTMLCanvasElement.prototype.getContext = ((get) => function (kind, ...more) {
        return kind.startsWith('webgl') ? null : get.call(this, kind, ...more);
    })(HTMLCanvasElement.prototype.getContext)";
    page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": without })).await?;
    page.client.refresh().await?;
    page.ready().await?;
    page.find("img", "The cabinet from the front and the right, drawn flat").await?;
    page.shows("document.querySelector('canvas')", Value::Null).await?;
    page.says("document.querySelector('.flat__say').textContent", &["WebGL 2 is off"]).await?;
    page.click("button", "Rear").await?;
    page.find("img", "The cabinet from the rear and the left, drawn flat").await?;
    // Everything else works as ever.
    page.begin_new().await?;
    page.ask_for("2x 1U switch 60 W 5 kg").await?;
    assert_eq!(page.devices().await?.len(), 2);
    assert!(page.badge("Weight").await?.contains(" kg"));
    assert_eq!(page.complaints().await?, [""; 0]);
    Ok(())
}

async fn comes_back_after_its_context_was_lost(page: Page) -> Result<()> {
    page.ready().await?;
    let before = picture(&page).await?;
    let lose = "void (window.context = document.querySelector('canvas').getContext('webgl2').getExtension('WEBGL_lose_context')).loseContext()";
    page.value(lose).await?;
    page.until("document.querySelector('canvas').getContext('webgl2').isContextLost()").await?;
    // What a browser shows in its place is its own affair, and need not stand still.
    looks_otherwise(&page, &before).await?;
    // Nothing else is lost with it.
    let badges = page.badges().await?;
    page.click("button", "Doors").await?;
    page.click("button", "Doors").await?;
    page.value("void window.context.restoreContext()").await?;
    page.until("!document.querySelector('canvas').getContext('webgl2').isContextLost()").await?;
    looks_again(&page, &before).await?;
    assert_eq!(page.badges().await?, badges);
    Ok(())
}

/// Frames drawn so far.
async fn frames(page: &Page) -> Result<f64> {
    page.value("baywrightMeasure.frames()").await?.as_f64().context("frames() is no number")
}

async fn draws_nothing_while_nothing_happens(page: Page) -> Result<()> {
    let address = page.text("location.href").await?;
    page.open("about:blank").await?;
    page.open(&format!("{address}#measure")).await?;
    page.ready().await?;
    picture(&page).await?;
    let before = frames(&page).await?;
    assert!(before > 0.0);
    tokio::time::sleep(Duration::from_secs(2)).await;
    assert_eq!(frames(&page).await?, before);
    page.click("button", "Rear").await?;
    page.until(&format!("baywrightMeasure.frames() > {before}")).await?;
    picture(&page).await?;
    let turned = frames(&page).await?;
    tokio::time::sleep(Duration::from_secs(2)).await;
    assert_eq!(frames(&page).await?, turned, "it comes to rest again");
    Ok(())
}

async fn turns_by_word_and_by_key(page: Page) -> Result<()> {
    page.ready().await?;
    let corner = picture(&page).await?;
    let mut seen = vec![corner.clone()];
    for view in ["Front", "Rear", "Side", "Above"] {
        page.click("button", view).await?;
        seen.push(picture(&page).await?);
    }
    seen.sort();
    seen.dedup();
    assert_eq!(seen.len(), 5, "five views that differ");
    page.click("button", "Corner").await?;
    let canvas = page.client.find(Locator::Css(".model-view__canvas")).await?;
    let name = page.label(&canvas).await?;
    assert!(name.starts_with("The cabinet from the front right: two bays of"), "{name}");
    page.value("document.querySelector('.model-view__canvas').focus()").await?;
    // From the first key on the focus is drawn.
    page.press(&[], fantoccini::key::Key::Home).await?;
    let corner = picture(&page).await?;
    for key in [fantoccini::key::Key::Left, fantoccini::key::Key::Up] {
        page.press(&[], key).await?;
    }
    assert!(picture(&page).await? != corner, "keys turn it");
    page.press(&[], fantoccini::key::Key::Home).await?;
    looks_again(&page, &corner).await
}

async fn opens_doors_and_takes_the_shield_off(page: Page) -> Result<()> {
    page.ready().await?;
    let before = picture(&page).await?;
    for (word, pressed) in
        [("Doors", "true"), ("Shield", "true"), ("Ghost", "false"), ("Wires", "false"), ("Sizes", "true")]
    {
        let button = page.find("button", word).await?;
        assert_eq!(button.attr("aria-pressed").await?.as_deref(), Some(pressed), "{word}");
        button.clone().click().await?;
        let other = if pressed == "true" { "false" } else { "true" };
        assert_eq!(button.attr("aria-pressed").await?.as_deref(), Some(other), "{word}");
        assert!(picture(&page).await? != before, "{word} changes the drawing");
        button.click().await?;
        page.value("document.activeElement.blur()").await?;
    }
    looks_again(&page, &before).await
}

async fn a_click_selects_a_part(page: Page) -> Result<()> {
    page.ready().await?;
    picture(&page).await?;
    page.client.find(Locator::Css(".model-view__canvas")).await?.click().await?;
    page.until("document.querySelector('.chosen')").await?;
    page.says("document.querySelector('.chosen').ariaLabel", &["Selected: "]).await?;
    page.until("document.querySelector('.model-view__ring--selected')").await
}
