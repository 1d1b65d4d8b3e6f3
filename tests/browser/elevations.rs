//! Devices are placed, moved and removed in the elevations, by pointer and by key, one undo step each.

use crate::harness::{Case, Page, cases};
use anyhow::{Context, Result};
use fantoccini::elements::Element;
use fantoccini::key::Key;

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![Hosted:
        a_drag_is_one_undo_step, escape_gives_a_drag_up, a_drag_off_the_rails_leaves_the_device_unplaced,
        keys_put_it_on_the_rear_rails_and_never_out_of_the_cabinet, two_devices_on_one_unit_do_not_fit,
        a_click_selects_and_a_field_moves, a_key_in_a_field_moves_no_device
    ]
}

/// Two devices at the top of an empty cabinet; the upper one.
async fn two_devices(page: &Page) -> Result<Element> {
    page.ready().await?;
    page.begin_new().await?;
    page.ask_for("2x 1U switch 60 W 5 kg 120 V").await?;
    page.has_devices(&["switch, A 24, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    page.button("switch, A 24…").await
}

/// Height of a rack unit on the screen, CSS pixels: from one device to the next.
async fn unit(page: &Page) -> Result<f64> {
    let tops = "[...document.querySelectorAll('.elev__device rect')].map((it) => it.getBoundingClientRect().top)";
    let tops: Vec<f64> = serde_json::from_value(page.value(tops).await?)?;
    Ok(tops[1] - tops[0])
}

async fn a_drag_is_one_undo_step(page: Page) -> Result<()> {
    let device = two_devices(&page).await?;
    let unit = unit(&page).await?;
    page.drag(device, 3.0, 9.0 * unit).await?;
    page.has_devices(&["switch, A 15, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    page.click("button", "Undo").await?;
    page.has_devices(&["switch, A 24, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    page.click("button", "Redo").await?;
    page.has_devices(&["switch, A 15, 1 U, network", "switch, A 23, 1 U, network"]).await
}

async fn escape_gives_a_drag_up(page: Page) -> Result<()> {
    let device = two_devices(&page).await?;
    let before = (page.link().await?, page.badges().await?);
    page.hold(device, 0.0, 9.0 * unit(&page).await?).await?;
    page.has_devices(&["switch, A 15, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    page.press(&[], Key::Escape).await?;
    page.has_devices(&["switch, A 24, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    page.let_go().await?;
    assert_eq!((page.link().await?, page.badges().await?), before);
    // The step before the drag is the placing.
    page.click("button", "Undo").await?;
    page.has_devices(&[]).await
}

async fn a_drag_off_the_rails_leaves_the_device_unplaced(page: Page) -> Result<()> {
    let device = two_devices(&page).await?;
    let fit = page.badge("Fit").await?;
    let down = "document.querySelector('.elev__svg').getBoundingClientRect().bottom - 4";
    let at = "document.querySelector('.elev__device').getBoundingClientRect().top";
    let far = page.value(&format!("{down} - {at}")).await?.as_f64().context("no distance")?;
    page.drag(device, 0.0, far).await?;
    page.has_devices(&["switch, A 23, 1 U, network"]).await?;
    page.says("document.querySelector('.elev__loose').textContent", &["Not placed", "switch"]).await?;
    let unplaced = page.badge_after("Fit", &fit).await?;
    assert!(!unplaced.starts_with("holds"), "a device without a place is no cabinet that fits: {unplaced}");
    Ok(())
}

async fn keys_put_it_on_the_rear_rails_and_never_out_of_the_cabinet(page: Page) -> Result<()> {
    let device = two_devices(&page).await?;
    page.value("document.querySelector('.elev__device').focus()").await?;
    drop(device);
    page.press(&[], 'r').await?;
    page.has_devices(&["switch, A rear 24, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    page.press(&[], Key::Up).await?;
    page.press(&[], Key::Left).await?;
    page.press(&[], Key::Right).await?;
    page.has_devices(&["switch, A rear 24, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    page.press(&[], 'f').await?;
    for _ in 0..30 {
        page.press(&[], Key::Down).await?;
    }
    page.has_devices(&["switch, A 1, 1 U, network", "switch, A 23, 1 U, network"]).await
}

async fn two_devices_on_one_unit_do_not_fit(page: Page) -> Result<()> {
    let device = two_devices(&page).await?;
    let fit = page.badge("Fit").await?;
    page.drag(device, 0.0, unit(&page).await?).await?;
    page.has_devices(&["switch, A 23, 1 U, network", "switch, A 23, 1 U, network, sets the limit"]).await?;
    let badge = page.badge_after("Fit", &fit).await?;
    assert!(badge.starts_with("fails Fit fails"), "{badge}");
    page.says("document.querySelector('.block__word').textContent", &["Fit", "fail"]).await.map(drop)
}

async fn a_click_selects_and_a_field_moves(page: Page) -> Result<()> {
    two_devices(&page).await?.click().await?;
    page.find("region", "Selected: switch").await?;
    page.enter("Lowest unit", "7").await?;
    page.has_devices(&["switch, A 7, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    page.click("button", "Lowest unit, one more").await?;
    page.has_devices(&["switch, A 8, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    // Refused: the range is told, and it stays where it is.
    page.enter("Lowest unit", "700").await?;
    page.says("document.querySelector('.chosen__place').textContent", &["Not taken: 700 U", "Between 1 and"]).await?;
    page.has_devices(&["switch, A 8, 1 U, network", "switch, A 23, 1 U, network"]).await?;
    page.click("button", "Remove").await?;
    page.has_devices(&["switch, A 23, 1 U, network"]).await
}

async fn a_key_in_a_field_moves_no_device(page: Page) -> Result<()> {
    two_devices(&page).await?.click().await?;
    page.find("textbox", "Name").await?.click().await?;
    for key in [Key::Down, Key::Delete, Key::Home] {
        page.press(&[], key).await?;
    }
    page.write("rf").await?;
    page.press(&[], Key::Enter).await?;
    let devices = page.devices().await?;
    assert!(devices[0].ends_with(", A 24, 1 U, network") && devices.len() == 2, "{devices:?}");
    Ok(())
}
