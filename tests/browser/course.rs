//! Day and year, reckoned beside the page: they come by themselves, follow every change, and take a weather file.

use crate::harness::{Case, Page, cases};
use anyhow::{Result, ensure};
use fantoccini::Locator;
use fantoccini::key::Key;
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![
        Hosted: brings_a_year_and_another_after_each_change, keeps_only_the_latest_of_many_changes,
            takes_a_weather_file_keeps_it_and_gives_it_up, takes_a_weather_file_that_is_dropped,
            tells_the_lines_of_a_broken_weather_file, refuses_another_kind_of_file, uses_a_catalogue_of_ones_own,
            stops_when_it_is_told_to_and_asks_again, says_so_where_no_worker_can_start, says_so_when_the_worker_is_refused;
        Offline: brings_a_year_and_another_after_each_change, takes_a_weather_file_that_is_dropped
    ]
}

/// What the page tells of a file.
const TOLD: &str = "document.querySelector('.message[role=alert]')?.innerText";
/// What is said of the course while there is none.
const NEWS: &str = "document.querySelector('.answers__news')?.innerText";
/// The climate in use, in the open menu.
const CLIMATE: &str = "[...document.querySelectorAll('dialog[open] .sheetlet__head')]
    .find((head) => head.textContent === 'Climate of day and year').nextElementSibling.textContent";
/// How long a year may take on a busy machine.
const PATIENCE: Duration = Duration::from_secs(20);

/// The badge of the year once it is of the project as it is.
async fn year(page: &Page) -> Result<String> {
    let start = Instant::now();
    loop {
        if let Ok(badge) = page.badge("Year").await
            && !badge.contains("working…")
        {
            return Ok(badge);
        }
        ensure!(start.elapsed() < PATIENCE, "no year came; the page says {:?}", page.value(NEWS).await?);
    }
}

/// The badge of the year once it reads otherwise than it did.
async fn another_year(page: &Page, before: &str) -> Result<String> {
    let start = Instant::now();
    loop {
        let now = year(page).await?;
        if now != before {
            return Ok(now);
        }
        ensure!(start.elapsed() < PATIENCE, "the year still reads {before:?}");
    }
}

/// A year of weather in one place, the same day after day: a script that makes it, as the text of a file. The warmest hour
/// of each day has this temperature.
fn weather(hottest: f64) -> String {
    let head = "LOCATION,Quiet Valley,-,XYZ,invented,999999,40.0,-75.0,-5.0,100.0\nDESIGN CONDITIONS,0\n\
        TYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,invented\n\
        COMMENTS 2,\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31";
    let mut text = head.to_owned();
    for (month, days) in [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31].into_iter().enumerate() {
        for day in 1..=days {
            for hour in 1..=24 {
                let dry_bulb = hottest - f64::from((hour - 14_i32).abs()) * 0.5;
                text += &format!(
                    "\n2019,{},{day},{hour},60,?9?9,{dry_bulb:.1},3.0,50,99000,9999,9999,300,0,0,0,0,0,0,0,180,2.5,0,0,\
                     0,0,0,0,0,0,0,0,0,0,0",
                    month + 1
                );
            }
        }
    }
    text
}

/// A file of this content, in a folder that goes with the tests.
fn file(name: &str, text: &str) -> Result<PathBuf> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    fs::create_dir_all(folder)?;
    let path = folder.join(name);
    fs::write(&path, text)?;
    Ok(path)
}

/// What the menu says of the climate in use.
async fn in_use(page: &Page, words: &[&str]) -> Result<()> {
    page.click("button", "Project").await?;
    page.says(CLIMATE, words).await?;
    close_menu(page).await
}

/// Chooses a file behind a button of the project's menu.
async fn give(page: &Page, button: &str, path: &Path) -> Result<()> {
    page.click("button", "Project").await?;
    page.find("button", button).await?;
    let input = page.client.find(Locator::Css(&format!("input[type=file][aria-label='{button}']"))).await?;
    Ok(input.send_keys(&path.to_string_lossy()).await?)
}

/// Drops a file on the sheet.
async fn drop_file(page: &Page, name: &str, text: &str) -> Result<()> {
    let (name, text) = (json!(name), json!(text));
    page.value(&format!(
        "(() => {{
            const carried = new DataTransfer();
            carried.items.add(new File([{text}], {name}));
            const to = document.querySelector('main');
            for (const what of ['dragover', 'drop']) {{
                const event = new DragEvent(what, {{ dataTransfer: carried, bubbles: true, cancelable: true }});
                if (to.dispatchEvent(event)) throw new Error(what + ' would open the file in place of the page');
            }}
        }})()"
    ))
    .await
    .map(drop)
}

async fn close_menu(page: &Page) -> Result<()> {
    page.press(&[], Key::Escape).await?;
    page.closed().await
}

async fn reload(page: &Page) -> Result<()> {
    page.client.refresh().await?;
    page.ready().await
}

async fn brings_a_year_and_another_after_each_change(page: Page) -> Result<()> {
    page.ready().await?;
    let first = year(&page).await?;
    page.fill("Hottest outdoor air", "50 °C").await?;
    let hotter = another_year(&page, &first).await?;
    page.click("button", "Undo").await?;
    assert_eq!(another_year(&page, &hotter).await?, first);
    // The year that has just come is in the working too.
    page.badge_row("Year").await?.0.click().await?;
    page.says("document.querySelector('.bench').innerText", &["Y0"]).await?;
    assert_eq!(page.complaints().await?, [""; 0]);
    Ok(())
}

async fn keeps_only_the_latest_of_many_changes(page: Page) -> Result<()> {
    page.ready().await?;
    let first = year(&page).await?;
    page.fill("Hottest outdoor air", "50 °C").await?;
    let hotter = another_year(&page, &first).await?;
    // Each of these drops the run before it.
    for _ in 0..6 {
        page.click("button", "Undo").await?;
        page.click("button", "Redo").await?;
    }
    assert_eq!(another_year(&page, &first).await?, hotter);
    page.value("new Promise((done) => setTimeout(done, 1500))").await?;
    assert_eq!(year(&page).await?, hotter, "an old answer came late");
    Ok(())
}

async fn takes_a_weather_file_keeps_it_and_gives_it_up(page: Page) -> Result<()> {
    page.ready().await?;
    let own = year(&page).await?;
    give(&page, "Use a weather file", &file("valley.epw", &weather(54.0))?).await?;
    page.says(TOLD, &["weather of “Quiet Valley", "stays on this machine"]).await?;
    page.closed().await?;
    page.click("button", "Put away").await?;
    in_use(&page, &["Quiet Valley", "valley.epw"]).await?;
    page.click("button", "Share").await?;
    page.says("document.querySelector('dialog[open]').innerText", &["“valley.epw” stays here"]).await?;
    close_menu(&page).await?;
    let valley = another_year(&page, &own).await?;
    reload(&page).await?;
    assert_eq!(year(&page).await?, valley);

    page.click("button", "Project").await?;
    page.click("button", "Use the brief’s own").await?;
    page.says(CLIMATE, &["The brief’s own"]).await?;
    close_menu(&page).await?;
    assert_eq!(another_year(&page, &valley).await?, own);
    reload(&page).await?;
    assert_eq!(year(&page).await?, own);
    Ok(())
}

async fn takes_a_weather_file_that_is_dropped(page: Page) -> Result<()> {
    page.ready().await?;
    let own = year(&page).await?;
    drop_file(&page, "valley.EPW", &weather(54.0)).await?;
    page.says(TOLD, &["weather of “Quiet Valley"]).await?;
    another_year(&page, &own).await.map(drop)
}

async fn tells_the_lines_of_a_broken_weather_file(page: Page) -> Result<()> {
    page.ready().await?;
    let own = year(&page).await?;
    let whole = weather(54.0);
    // A year from which the end is missing, a row that is no row, and no weather at all.
    let cut: Vec<&str> = whole.lines().take(5000).collect();
    let odd = whole.replacen("2019,1,1,3,60,?9?9,48.5", "2019,1,1,3,60,?9?9,much", 1);
    assert_ne!(odd, whole);
    for (name, text, expected) in [
        ("cut.epw", cut.join("\n"), "of 8760"),
        ("odd.epw", odd, "line 11"),
        ("empty.epw", String::new(), "found"),
        ("other.epw", "this is no weather\n".repeat(20), "no line LOCATION"),
    ] {
        give(&page, "Use a weather file", &file(name, &text)?).await?;
        page.says(TOLD, &[name, "was not opened", expected, "allowed", "still here, untouched"]).await?;
        page.click("button", "Put away").await?;
        in_use(&page, &["The brief’s own"]).await?;
        assert_eq!(year(&page).await?, own, "{name}");
    }
    page.shows("localStorage.getItem('baywright.climate')", Value::Null).await
}

async fn refuses_another_kind_of_file(page: Page) -> Result<()> {
    page.ready().await?;
    drop_file(&page, "holiday.jpg", "no weather").await?;
    page.says(TOLD, &["“holiday.jpg” was not opened", "*.epw"]).await.map(drop)
}

async fn uses_a_catalogue_of_ones_own(page: Page) -> Result<()> {
    page.ready().await?;
    let shipped = year(&page).await?;
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/catalogue");
    let mut files: Vec<_> =
        fs::read_dir(folder)?.collect::<Result<Vec<_>, _>>()?.iter().map(fs::DirEntry::path).collect();
    files.sort();
    let texts = files.iter().map(fs::read_to_string).collect::<Result<Vec<_>, _>>()?;
    // Devices that draw next to nothing.
    let frugal = |line: &str| match line.split_once(" = ") {
        Some((what @ ("power" | "power_max"), _)) => format!("{what} = 1"),
        _ => line.to_owned(),
    };
    let text: Vec<String> = texts.join("\n").lines().map(frugal).collect();
    give(&page, "Use another catalogue", &file("frugal.toml", &text.join("\n"))?).await?;
    page.says(TOLD, &["is in use"]).await?;
    close_menu(&page).await?;
    page.click("button", "Put away").await?;
    let cooler = another_year(&page, &shipped).await?;
    reload(&page).await?;
    assert_eq!(year(&page).await?, cooler);
    Ok(())
}

async fn stops_when_it_is_told_to_and_asks_again(page: Page) -> Result<()> {
    page.ready().await?;
    let whole = year(&page).await?;
    // A worker that hears nothing until it is let, as a year is over before anyone could stop it.
    let deaf = "window.letHear = []; window.Worker = class extends Worker {
        postMessage(...what) {
            if (window.letHear) window.letHear.push(() => super.postMessage(...what)); else super.postMessage(...what);
        } }";
    page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": deaf })).await?;
    // Not `reload`, which waits for the year.
    page.client.refresh().await?;
    page.says(NEWS, &["Year: working", "Stop"]).await?;
    page.click("button", "Stop").await?;
    page.says(NEWS, &["Stopped.", "Ask again"]).await?;
    page.value("(() => { const held = letHear; letHear = null; for (const tell of held) tell(); })()").await?;
    // The answer to what was stopped is nobody's any more.
    page.value("new Promise((done) => setTimeout(done, 1500))").await?;
    page.says(NEWS, &["Stopped."]).await?;
    ensure!(page.badge("Year").await.is_err(), "a year came though it was stopped");
    page.click("button", "Ask again").await?;
    assert_eq!(year(&page).await?, whole);
    Ok(())
}

async fn says_so_where_no_worker_can_start(page: Page) -> Result<()> {
    page.ready().await?;
    let forbid = "window.Worker = class { constructor() { throw new Error('not here'); } }";
    page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": forbid })).await?;
    reload(&page).await?;
    page.says(NEWS, &["could not start in this browser", "everything else works", "not here"]).await?;
    // Everything else does work.
    let before = page.badge("Heat").await?;
    page.fill("Hottest outdoor air", "20 °C").await?;
    page.badge_after("Heat", &before).await?;
    drop_file(&page, "valley.epw", &weather(54.0)).await?;
    page.says(TOLD, &["“valley.epw” was not opened", "not running"]).await.map(drop)
}

async fn says_so_when_the_worker_is_refused(page: Page) -> Result<()> {
    page.ready().await?;
    // Another worker than the page's own, which its policy does not let start.
    let other = "{ const start = Worker; window.Worker = class extends start {
        constructor() { super(URL.createObjectURL(new Blob(['postMessage(1)']))); } } }";
    page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": other })).await?;
    reload(&page).await?;
    page.says(NEWS, &["could not start in this browser"]).await?;
    page.badge("Heat").await?;
    let complaints = page.complaints().await?.join("\n");
    assert!(complaints.contains("worker-src"), "{complaints}");
    Ok(())
}
