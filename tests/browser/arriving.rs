//! The page is usable from its first look on: what is asked before the rest of the program has arrived waits for it, and a
//! rest that did not arrive is told and asked for again.

use crate::harness::{Case, Page, cases};
use anyhow::Result;
use fantoccini::Locator;
use fantoccini::key::Key;
use serde_json::json;

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![
        Hosted: keeps_what_is_asked_before_the_rest_has_arrived, tells_of_a_rest_that_did_not_arrive_and_gets_it_when_asked
    ]
}

/// Whether the rest is here: the entry line is part of it.
const HERE: &str = "document.getElementById('line') !== null";

/// Opens the page again; its rest, asked for by an address that ends in `.wasm` and begins with `later`, is got by what
/// this expression makes of `get`.
async fn open_with_rest(page: &Page, got: &str) -> Result<()> {
    page.ready().await?;
    let source = format!(
        "const get = window.fetch;
         window.fetch = (what, ...more) => {{
             const rest = /\\/later-[0-9a-f]+\\.wasm$/.test(String(what));
             return rest ? ({got})(() => get(what, ...more)) : get(what, ...more);
         }};"
    );
    page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source })).await?;
    page.client.refresh().await?;
    page.until("performance.getEntriesByName('baywright:visible').length").await
}

async fn keeps_what_is_asked_before_the_rest_has_arrived(page: Page) -> Result<()> {
    open_with_rest(&page, "(get) => new Promise((done) => { window.release = () => done(get()); })").await?;
    page.until("window.release").await?;
    // The model is drawn: a leader knows where on the screen its part is.
    page.until("document.querySelector('.model-view canvas') && document.querySelector('.leads .lead')").await?;
    let devices = page.devices().await?.len();
    assert!(devices > 2 && page.badges().await?.iter().all(|words| !words.is_empty()));
    page.client.find(Locator::Css(".elev__device")).await?.click().await?;
    page.press(&[], Key::Delete).await?;
    page.click("button", "Add a device").await?;
    page.says("document.querySelector('dialog[open]').textContent", &["still on its way"]).await?;
    page.shows(HERE, false).await?;
    assert_eq!(page.devices().await?.len(), devices);

    page.value("window.release()").await?;
    page.find("textbox", "Mass").await?;
    page.shows(HERE, true).await?;
    // The focus is on the content, which was not there when the dialog was opened.
    page.shows("document.activeElement.closest('.devices') !== null", true).await?;
    page.press(&[], Key::Escape).await?;
    assert_eq!(page.devices().await?.len(), devices - 1);
    page.click("button", "Undo").await?;
    page.until(&format!("document.querySelectorAll('.elev__device').length === {devices}")).await?;
    assert_eq!(page.complaints().await?, [""; 0]);
    Ok(())
}

async fn tells_of_a_rest_that_did_not_arrive_and_gets_it_when_asked(page: Page) -> Result<()> {
    let cut = "(get) => sessionStorage.back ? get() : Promise.reject(new TypeError('cut'))";
    open_with_rest(&page, cut).await?;
    page.says("document.querySelector('main [role=alert]')?.textContent", &["did not arrive", "still right"]).await?;
    assert!(page.badges().await?.iter().all(|words| !words.is_empty()) && !page.devices().await?.is_empty());
    // Asked for again, and still cut off.
    page.click("button", "Try again").await?;
    page.says("document.querySelector('main [role=alert]')?.textContent", &["did not arrive"]).await?;

    page.value("void (sessionStorage.back = 'yes')").await?;
    page.click("button", "Project").await?;
    page.find("button", "Save to a file").await?;
    page.shows(HERE, true).await?;
    page.shows("document.querySelector('[role=alert].coming')", serde_json::Value::Null).await
}
