//! The page opens, says nothing bad, and keeps to itself, served and from one file.

use crate::harness::{Case, Page, cases};
use anyhow::Result;
use fantoccini::key::Key;

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![
        Hosted: opens_without_complaint, asks_only_its_own_server_and_nobody_after_load, forbids_what_it_does_not_need;
        Offline: opens_without_complaint, makes_no_request_at_all, forbids_what_it_does_not_need
    ]
}

async fn opens_without_complaint(page: Page) -> Result<()> {
    page.ready().await?;
    assert_eq!(page.value("document.title.split(' ').includes('Baywright')").await?, true);
    assert_eq!(page.complaints().await?, [""; 0]);
    Ok(())
}

async fn asks_only_its_own_server_and_nobody_after_load(page: Page) -> Result<()> {
    page.ready().await?;
    let own = page.value("location.origin + '/'").await?;
    let own = own.as_str().unwrap_or_default();
    let requests = page.requests().await?;
    assert!(requests.iter().any(|address| address.ends_with(".wasm")), "{requests:?}");
    assert!(requests.iter().all(|address| address.starts_with(own)), "{requests:?}");

    touch(&page).await?;
    assert_eq!(page.requests().await?, [""; 0]);
    Ok(())
}

async fn makes_no_request_at_all(page: Page) -> Result<()> {
    page.ready().await?;
    touch(&page).await?;
    let own = page.value("location.href").await?;
    assert_eq!(page.requests().await?, [own.as_str().unwrap_or_default()]);
    Ok(())
}

async fn forbids_what_it_does_not_need(page: Page) -> Result<()> {
    page.ready().await?;
    page.complaints().await?;
    let foreign = page.value("fetch('https://example.invalid/').then(() => 'went', () => 'refused')").await?;
    assert_eq!(foreign, "refused");
    page.value("document.body.insertAdjacentHTML('beforeend', '<img src=x onerror=\"window.ran = true\">')").await?;
    page.value("new Promise((done) => setTimeout(done, 300))").await?;
    assert_eq!(page.value("window.ran === undefined").await?, true);
    // Refused by the policy, and not merely because there is nothing at that address.
    let complaints = page.complaints().await?.join("\n");
    assert!(complaints.contains("connect-src") && complaints.contains("script-src"), "{complaints}");
    Ok(())
}

/// Goes through the first controls with the keyboard, and waits a while.
async fn touch(page: &Page) -> Result<()> {
    for _ in 0..8 {
        page.press(&[], Key::Tab).await?;
    }
    page.value("new Promise((done) => setTimeout(done, 2000))").await.map(drop)
}
