//! What was built is kept: over a reload, in a link, in a file. What cannot be opened is told in full and changes nothing.

use crate::harness::{Case, Page, cases};
use anyhow::{Context, Result};
use fantoccini::Locator;
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![
        Hosted: comes_back_after_a_reload, opens_a_link_in_another_browser, tells_of_a_damaged_link_and_keeps_what_was_there,
            tells_of_what_it_kept_and_cannot_read, runs_nothing_that_stands_in_a_name,
            says_once_that_a_full_store_keeps_nothing, works_where_the_store_is_forbidden,
            opens_the_file_it_saved, tells_place_and_range_of_a_broken_file, refuses_ten_thousand_devices,
            uses_another_catalogue_and_the_shipped_one_again, undoes_everything_and_redoes_it;
        Offline: comes_back_after_a_reload
    ]
}

/// What the page tells of trouble.
const TOLD: &str = "document.querySelector('.message[role=alert]')?.innerText";

/// Longer than the page waits before it keeps an edit.
const KEPT: &str = "new Promise((done) => setTimeout(done, 600))";

async fn reload(page: &Page) -> Result<()> {
    page.client.refresh().await?;
    page.ready().await
}

/// Everything that is the user's: the link that carries the project.
async fn build_something(page: &Page) -> Result<String> {
    page.ready().await?;
    page.begin_new().await?;
    page.ask_for("3x 2U server 450 W 19 kg").await?;
    page.fill("Site", "Test hill").await?;
    page.link().await
}

async fn comes_back_after_a_reload(page: Page) -> Result<()> {
    let built = build_something(&page).await?;
    page.click("button", "Units: metric. Change").await?;
    page.value(KEPT).await?;
    reload(&page).await?;
    assert_eq!(page.link().await?, built);
    page.find("button", "Units: US. Change").await?;
    assert_eq!(page.devices().await?.len(), 3);
    // What was asked last is kept too when the page is left at once.
    page.ask_for("1U switch 60 W 5 kg").await?;
    reload(&page).await?;
    assert_eq!(page.devices().await?.len(), 4);
    Ok(())
}

async fn opens_a_link_in_another_browser(page: Page) -> Result<()> {
    let link = build_something(&page).await?;
    let badges = page.badges().await?;
    assert!(link.contains("#p1."), "{link}");
    // The store of another browser is empty.
    page.value("window.addEventListener('pagehide', (event) => event.stopImmediatePropagation(), true)").await?;
    page.value(KEPT).await?;
    page.value("localStorage.clear()").await?;
    page.open("about:blank").await?;
    page.open(&link).await?;
    page.ready().await?;
    assert_eq!(page.link().await?, link);
    assert_eq!(page.badges().await?, badges);
    page.button("Site: Test hill. Change").await.map(drop)
}

async fn tells_of_a_damaged_link_and_keeps_what_was_there(page: Page) -> Result<()> {
    let link = build_something(&page).await?;
    page.value(KEPT).await?;
    let half = &link[..link.len() / 2];
    for damaged in [
        half.to_owned(),
        format!("{half}%%%"),
        link.split_once('.').map(|_| link.replace("#p1.", "#p1.AAAA")).unwrap_or_default(),
    ] {
        page.open("about:blank").await?;
        page.open(&damaged).await?;
        page.ready().await?;
        page.says(TOLD, &["The project in the link was not opened", "found", "allowed", "still here"]).await?;
        page.click("button", "Put away").await?;
        page.shows("document.querySelector('.message')", Value::Null).await?;
        assert_eq!(page.link().await?, link, "{damaged}");
    }
    Ok(())
}

/// A sample as it is written to a file, changed.
fn project(change: impl FnOnce(&mut Value)) -> Result<String> {
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/samples/hot-desert-fibre-hub.json");
    let mut file = serde_json::from_str(&fs::read_to_string(sample)?)?;
    change(&mut file);
    Ok(file.to_string())
}

/// Puts a text where the page keeps the project, past the page's own writing, and opens the page again.
async fn found_in_store(page: &Page, text: &str) -> Result<()> {
    page.ready().await?;
    page.value(&format!("localStorage.setItem('baywright.project', {})", json!(text))).await?;
    reload(page).await
}

async fn tells_of_what_it_kept_and_cannot_read(page: Page) -> Result<()> {
    let whole = project(|_| ())?;
    let cases = [
        (whole[..whole.len() / 2].to_owned(), "cut short"),
        (project(|file| file["version"] = json!(99))?, "newer Baywright"),
        (project(|file| file["project"]["build"]["depth"] = json!(-5))?, "Depth"),
        (project(|file| file["project"]["brief"]["hottest"] = Value::Null)?, "hottest"),
        ("[".repeat(100_000), "found"),
        (String::new(), "found"),
    ];
    for (text, expected) in cases {
        found_in_store(&page, &text).await?;
        let told = page.says(TOLD, &["The project kept on this machine was not opened", "found", "allowed"]).await?;
        assert!(told.to_lowercase().contains(&expected.to_lowercase()), "{expected}: {told}");
        // Nothing is written over before something is changed.
        page.value(KEPT).await?;
        page.shows("localStorage.getItem('baywright.project')", text).await?;
        assert!(!page.devices().await?.is_empty(), "a sample stands there instead");
    }
    Ok(())
}

async fn runs_nothing_that_stands_in_a_name(page: Page) -> Result<()> {
    const MARKUP: &str = "<img src=x onerror=\"window.ran = true\"><b>bold</b>";
    let hostile = project(|file| {
        file["project"]["name"] = json!(MARKUP);
        file["project"]["brief"]["site"] = json!(MARKUP);
        let mut own = json!({});
        own["part"] = json!("<script>window.ran=true</script>");
        file["project"]["build"]["devices"][0]["what"] = own;
    })?;
    found_in_store(&page, &hostile).await?;
    page.complaints().await?;
    page.shows("document.querySelector('h1').textContent", format!("Baywright: {MARKUP}")).await?;
    page.button(&format!("Site: {MARKUP}. Change")).await?;
    page.click("button", "Add a device").await?;
    page.enter("Name", MARKUP).await?;
    page.click("button", "Add it").await?;
    page.says("document.querySelector('.devices__fitted').textContent", &[MARKUP, "<script>"]).await?;
    page.value(KEPT).await?;
    page.shows("document.querySelectorAll('main img, dialog img, main b > img, main script').length", 0).await?;
    page.shows("window.ran === undefined", true).await?;
    // Not merely refused by the policy: never asked for.
    assert_eq!(page.complaints().await?, [""; 0]);
    Ok(())
}

async fn says_once_that_a_full_store_keeps_nothing(page: Page) -> Result<()> {
    page.ready().await?;
    page.value("Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }").await?;
    page.begin_new().await?;
    page.says(TOLD, &["Not kept on this machine", "full or forbidden", "Save the project to a file"]).await?;
    page.click("button", "Put away").await?;
    page.ask_for("2x 1U switch 60 W 5 kg").await?;
    page.value(KEPT).await?;
    page.shows("document.querySelector('.message')", Value::Null).await?;
    assert_eq!(page.devices().await?.len(), 2);
    assert!(page.link().await?.contains("#p1."));
    Ok(())
}

async fn works_where_the_store_is_forbidden(page: Page) -> Result<()> {
    page.ready().await?;
    let forbid =
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } })";
    page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": forbid })).await?;
    reload(&page).await?;
    page.begin_new().await?;
    page.ask_for("2x 1U switch 60 W 5 kg").await?;
    page.says(TOLD, &["Not kept on this machine"]).await?;
    assert_eq!(page.devices().await?.len(), 2);
    assert_eq!(page.complaints().await?, [""; 0]);
    Ok(())
}

/// A file of this content, in a folder that goes with the tests.
fn file(name: &str, text: &str) -> Result<PathBuf> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let path = folder.join(name);
    fs::write(&path, text)?;
    Ok(path)
}

/// Gives a file to the button of this name, in the menu of the project.
async fn give(page: &Page, button: &str, path: &Path) -> Result<()> {
    page.click("button", "Project").await?;
    page.find("button", button).await?;
    let input = page.client.find(Locator::Css(&format!("input[type=file][aria-label='{button}']"))).await?;
    Ok(input.send_keys(path.to_str().context("no path")?).await?)
}

async fn opens_the_file_it_saved(page: Page) -> Result<()> {
    let built = build_something(&page).await?;
    // The text that the page offers as a file, and the name it gives it.
    page.value(
        "void (URL.createObjectURL = ((make) => (blob) => { window.saved = blob.text(); return make.call(URL, blob); })(URL.createObjectURL),
         HTMLAnchorElement.prototype.click = function () { window.savedAs = this.download; })",
    )
    .await?;
    page.click("button", "Project").await?;
    page.click("button", "Save to a file").await?;
    page.shows("window.savedAs", "new-cabinet.baywright.json").await?;
    let saved = page.value("window.saved").await?;
    let path = file("saved.baywright.json", saved.as_str().context("nothing was saved")?)?;
    page.press(&[], fantoccini::key::Key::Escape).await?;

    page.begin_with("Cold mountain relay").await?;
    give(&page, "Open a file", &path).await?;
    page.closed().await?;
    assert_eq!(page.devices().await?.len(), 3);
    assert_eq!(page.link().await?, built);
    page.click("button", "Undo").await?;
    page.until("document.querySelectorAll('.elev__device').length > 5").await
}

async fn tells_place_and_range_of_a_broken_file(page: Page) -> Result<()> {
    let built = build_something(&page).await?;
    let cases = [
        ("not-a-project.json", "this is no project".to_owned(), vec!["line 1"]),
        (
            "too-deep.json",
            project(|file| file["project"]["build"]["depth"] = json!(90_000))?,
            vec!["build.depth", "90000 mm", "between 100 and 5000 mm"],
        ),
        (
            "unknown-word.json",
            project(|file| file["project"]["brief"]["sun"] = json!("moon"))?,
            vec!["sun", "moon", "full"],
        ),
        ("nowhere.json", project(|file| file["project"]["build"]["bays"] = json!([]))?, vec!["ays"]),
        ("huge.json", " ".repeat(5_500_000), vec!["5 MB"]),
    ];
    for (name, text, expected) in cases {
        give(&page, "Open a file", &file(name, &text)?).await?;
        let told = page.says(TOLD, &[name, "was not opened", "found", "allowed", "still here, untouched"]).await?;
        let plain = told.replace([' ', '\u{202f}', '\u{2009}'], "");
        assert!(expected.iter().all(|word| plain.contains(&word.replace(' ', ""))), "{name}: {expected:?} in {told}");
        page.closed().await?;
        page.click("button", "Put away").await?;
        assert_eq!(page.link().await?, built, "{name}");
    }
    Ok(())
}

async fn refuses_ten_thousand_devices(page: Page) -> Result<()> {
    let built = build_something(&page).await?;
    let many = project(|file| {
        let one = file["project"]["build"]["devices"][0].clone();
        let numbered = (0..10_000).map(|id| {
            let mut device = one.clone();
            device["id"] = json!(id + 1);
            device
        });
        file["project"]["build"]["devices"] = numbered.collect();
    })?;
    give(&page, "Open a file", &file("many.json", &many)?).await?;
    page.says(TOLD, &["was not opened", "500"]).await?;
    page.click("button", "Put away").await?;
    assert_eq!(page.link().await?, built);
    Ok(())
}

/// The shipped catalogue in one file, under another name.
fn another_catalogue() -> Result<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/catalogue");
    let mut files: Vec<_> =
        fs::read_dir(folder)?.collect::<Result<Vec<_>, _>>()?.iter().map(fs::DirEntry::path).collect();
    files.sort();
    let texts = files.iter().map(fs::read_to_string).collect::<Result<Vec<_>, _>>()?;
    Ok(texts.join("\n").replace("name = \"Sample catalogue\"", "name = \"Another catalogue\""))
}

async fn uses_another_catalogue_and_the_shipped_one_again(page: Page) -> Result<()> {
    let built = build_something(&page).await?;
    let used = "document.querySelector('.block__catalogue dd').textContent";
    let own = another_catalogue()?;
    give(&page, "Use another catalogue", &file("another.toml", &own)?).await?;
    page.says(TOLD, &["Catalogue “Another catalogue” is in use"]).await?;
    page.press(&[], fantoccini::key::Key::Escape).await?;
    page.shows(used, "Another catalogue").await?;
    reload(&page).await?;
    page.shows(used, "Another catalogue").await?;
    // A broken one changes nothing, and is told with its place.
    let broken = own.replacen("thickness = ", "thickness = -", 1);
    assert_ne!(broken, own);
    give(&page, "Use another catalogue", &file("broken.toml", &broken)?).await?;
    page.says(TOLD, &["“broken.toml” was not opened", "thickness", "still here, untouched"]).await?;
    page.press(&[], fantoccini::key::Key::Escape).await?;
    page.shows(used, "Another catalogue").await?;

    page.click("button", "Project").await?;
    page.click("button", "Use the shipped one").await?;
    page.shows(used, "Sample catalogue").await?;
    reload(&page).await?;
    page.shows(used, "Sample catalogue").await?;
    assert_eq!(page.link().await?, built);
    Ok(())
}

async fn undoes_everything_and_redoes_it(page: Page) -> Result<()> {
    page.ready().await?;
    let first = page.link().await?;
    let built = build_something(&page).await?;
    for _ in 0..3 {
        page.click("button", "Undo").await?;
    }
    assert_eq!(page.link().await?, first);
    assert!(!page.find("button", "Undo").await?.is_enabled().await?);
    for _ in 0..3 {
        page.click("button", "Redo").await?;
    }
    assert_eq!(page.link().await?, built);
    assert!(!page.find("button", "Redo").await?.is_enabled().await?);
    Ok(())
}
