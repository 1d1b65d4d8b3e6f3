//! Heat over the day and the year, as it is drawn and said: the year under the ground line, the day on the bench, the sun
//! of a chosen time in the model.

use crate::harness::{Case, Page, cases};
use anyhow::{Context, Result, ensure};
use fantoccini::Locator;
use fantoccini::key::Key;
use serde_json::{Value, json};
use std::time::{Duration, Instant};

/// The tests of this file.
pub(crate) fn cases() -> Vec<Case> {
    cases![
        Hosted: the_year_is_named_and_chosen_from, the_day_says_what_its_table_says, the_charts_follow_the_units,
            an_hour_of_the_year_opens_its_day, a_chosen_time_lights_the_model, questions_are_one_word_away,
            a_unit_shows_its_map, a_lost_supply_is_followed_to_the_end_of_the_strings;
        Offline: the_year_is_named_and_chosen_from
    ]
}

/// How long a year may take on a busy machine.
const PATIENCE: Duration = Duration::from_secs(40);
/// What the slider with this name says of the place it stands at.
const SAYS: fn(&str) -> String =
    |name| format!("document.querySelector('[role=slider][aria-label=\"{name}\"]')?.getAttribute('aria-valuetext')");
/// The chart beside the working, in words.
const SIDE: &str = "document.querySelector('.bench__side').textContent";

impl Page {
    /// Waits until the year is there and of the project as it is.
    pub(crate) async fn year_is_there(&self) -> Result<()> {
        self.ready().await?;
        let start = Instant::now();
        let fresh = "document.querySelector('.year') && !document.querySelector('.year--none, .year--old')";
        while self.value(&format!("Boolean({fresh})")).await? != Value::Bool(true) {
            let said = self.text("document.querySelector('.year')?.innerText").await?;
            ensure!(start.elapsed() < PATIENCE, "no year came; the page says {said:?}");
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
        Ok(())
    }

    /// Puts the questions of the opened topic beside its working.
    pub(crate) async fn questions(&self) -> Result<()> {
        let press = "[...document.querySelectorAll('.side__words button')].find((it) => it.textContent === 'Questions').click()";
        self.value(press).await?;
        self.until("document.querySelector('.bench__side .finding')").await
    }

    /// Selects an air conditioner in the model.
    pub(crate) async fn select_a_unit(&self) -> Result<()> {
        // The leader of its call-out ends on it.
        let dot = "(() => {
            const note = [...document.querySelectorAll('.notes .note')].find((it) => it.textContent.includes('air conditioner'));
            const from = parseFloat(note.style.top);
            const start = (it) => parseFloat(it.getAttribute('d').split(' ')[1]);
            const lead = [...document.querySelectorAll('.leads .lead')].filter((it) => start(it) > from)
                .sort((one, other) => start(one) - start(other))[0];
            const { left, top } = lead.ownerSVGElement.getBoundingClientRect(), dot = lead.nextElementSibling;
            return [left + Number(dot.getAttribute('cx')), top + Number(dot.getAttribute('cy'))];
        })()";
        self.until("document.querySelector('.leads .lead-dot')").await?;
        let press = format!(
            "(() => {{ const [clientX, clientY] = {dot}; for (const [kind, buttons] of [['pointerdown', 1], ['pointerup', 0]])
                document.querySelector('.model-view__canvas').dispatchEvent(new PointerEvent(kind,
                    {{ bubbles: true, pointerId: 1, isPrimary: true, button: 0, buttons, clientX, clientY }})); }})()"
        );
        self.value(&press).await?;
        self.until("document.querySelector('.chosen .unit-map svg')").await
    }

    /// Opens the bench, where it is closed to one line.
    async fn raise_the_bench(&self) -> Result<()> {
        self.click("button", "Open the working").await
    }
}

/// Gives a slider the focus.
async fn focus(page: &Page, slider: &str) -> Result<()> {
    page.value(&format!("document.querySelector('[role=slider][aria-label=\"{slider}\"]').focus()")).await.map(drop)
}

/// The words of a slider, when they are no longer what they were.
async fn after(page: &Page, slider: &str, before: &str) -> Result<String> {
    let says = SAYS(slider);
    page.until(&format!("{says} !== {}", json!(before.replace(' ', "\u{a0}")))).await?;
    let start = Instant::now();
    loop {
        let now = page.text(&says).await?;
        if now != before {
            return Ok(now);
        }
        ensure!(start.elapsed() < PATIENCE, "{slider} still says {before:?}");
        tokio::time::sleep(Duration::from_millis(40)).await;
    }
}

async fn the_year_is_named_and_chosen_from(page: Page) -> Result<()> {
    page.year_is_there().await?;
    page.find("slider", "Hour of the year").await?;
    let drawn = "[...document.querySelectorAll('.year__svg .y-wash')].map((it) => it.getAttribute('d')).join('')";
    // Every day has one piece at least.
    page.until(&format!("{drawn}.split('M').length > 365")).await?;
    // What it shows is a word of its own, which opens a list.
    page.press_button("Shown through the year: inside…").await?;
    page.click("button", "outside").await?;
    page.closed().await?;
    page.find("button", "Shown through the year: outside. Change").await?;
    page.says("document.querySelector('.year__say').innerText", &["from ", " to ", "°C"]).await?;
    // And it says what weather it is of.
    page.click("button", "weather of the year").await?;
    page.until("document.querySelector('dialog[open] p + p').textContent.length > 10").await?;
    page.press(&[], Key::Escape).await?;
    page.closed().await?;
    assert_eq!(page.complaints().await?, [""; 0]);
    Ok(())
}

async fn the_day_says_what_its_table_says(page: Page) -> Result<()> {
    page.year_is_there().await?;
    page.raise_the_bench().await?;
    focus(&page, "Time of the day").await?;
    page.press(&[], Key::Home).await?;
    let says = SAYS("Time of the day");
    let midnight = page.says(&says, &["0:00: outside "]).await?;
    for _ in 0..9 {
        page.press(&[], Key::PageUp).await?;
    }
    let nine = page.says(&says, &["9:00: outside ", ", sun "]).await?;
    assert_ne!(midnight, nine);
    // The row of that hour in the table has each figure of the words, in its own order.
    page.client.find(Locator::Css(".bench__side summary")).await?.click().await?;
    let row =
        "[...document.querySelectorAll('.numbers[open] tbody tr')].find((row) => row.cells[0].textContent === '9:00')";
    page.until(&format!("{row}?.cells.length > 3")).await?;
    let cells = page.value(&format!("[...{row}.cells].map((cell) => cell.textContent)")).await?;
    let heads =
        page.value("[...document.querySelectorAll('.numbers[open] thead th')].map((head) => head.textContent)").await?;
    let (cells, heads) = (cells.as_array().context("no row")?, heads.as_array().context("no heads")?);
    assert_eq!(cells.len(), heads.len());
    for (cell, head) in cells.iter().zip(heads).skip(1) {
        let (cell, head) = (cell.as_str().unwrap_or_default(), head.as_str().unwrap_or_default());
        let (name, unit) = head.rsplit_once(", ").context("a head without a unit")?;
        let expected = format!("{name} {cell} {unit}").replace(['\u{a0}', '\u{202f}'], " ");
        assert!(nine.contains(&expected), "{expected:?} is not in {nine:?}");
    }
    // Its end, and back to the hour that decides.
    page.press(&[], Key::Escape).await?;
    focus(&page, "Time of the day").await?;
    page.press(&[], Key::End).await?;
    page.says(&says, &["23:50: outside "]).await.map(drop)
}

async fn the_charts_follow_the_units(page: Page) -> Result<()> {
    page.year_is_there().await?;
    page.raise_the_bench().await?;
    // Noon, so that there is sun: the hottest moment of the day may be at night.
    focus(&page, "Time of the day").await?;
    page.press(&[], Key::Home).await?;
    for _ in 0..12 {
        page.press(&[], Key::PageUp).await?;
    }
    let metric = page.says(&SAYS("Time of the day"), &["12:00"]).await?;
    assert!(metric.contains(" °C") && !metric.contains("°F"), "{metric}");
    page.value(
        "[...document.querySelectorAll('button')].find((it) => it.ariaLabel === 'Units: metric. Change').click()",
    )
    .await?;
    let us = after(&page, "Time of the day", &metric).await?;
    assert!(us.contains(" °F") && us.contains(" W/ft²") && !us.contains("°C"), "{us}");
    for word in ["Cold day", "Hours", "Without cooling"] {
        page.click("button", word).await?;
        page.until(&format!("{SIDE}.includes('°F')")).await?;
        page.until(&format!("!{SIDE}.includes('°C')")).await?;
    }
    page.says("document.querySelector('.year').textContent", &["°F"]).await.map(drop)
}

async fn a_lost_supply_is_followed_to_the_end_of_the_strings(page: Page) -> Result<()> {
    page.year_is_there().await?;
    page.raise_the_bench().await?;
    page.click("button", "Without cooling").await?;
    page.says(SIDE, &["Supply lost, strings carry on", "Bus meanwhile", "strings ", " W shed"]).await?;
    // Without batteries nothing is followed, and that is said.
    page.begin_new().await?;
    page.year_is_there().await?;
    page.says(SIDE, &["Bus meanwhile", "no battery is fitted"]).await.map(drop)
}

async fn an_hour_of_the_year_opens_its_day(page: Page) -> Result<()> {
    page.year_is_there().await?;
    page.raise_the_bench().await?;
    page.click("button", "Questions").await?;
    focus(&page, "Hour of the year").await?;
    page.press(&[], Key::Home).await?;
    let says = SAYS("Hour of the year");
    page.says(&says, &["1 January, "]).await?;
    page.press(&[], Key::PageUp).await?;
    page.press(&[], Key::Right).await?;
    let there = page.says(&says, &["2 February, "]).await?;
    // The day picked there is the day on the bench, at the same hour.
    let words = there.strip_prefix("2 February, ").context("no date")?.to_owned();
    page.click("button", "2 February").await?;
    page.says(&SAYS("Time of the day"), &[words.as_str()]).await?;
    page.find("button", "2 February").await?;
    // By the pointer too: the middle of the year at noon.
    let at = "(() => { const map = document.querySelector('.year__hit'); const area = map.getBoundingClientRect();
        map.dispatchEvent(new MouseEvent('click', { bubbles: true,
            clientX: area.left + area.width * 182.5 / 365, clientY: area.top + area.height * 11.5 / 24 })); })()";
    page.value(at).await?;
    page.says(&says, &["2 July, 12–13 h: "]).await?;
    page.find("button", "2 July").await.map(drop)
}

/// Frames drawn so far, once none is drawn any more.
async fn frames_at_rest(page: &Page) -> Result<f64> {
    let frames = async || page.value("baywrightMeasure.frames()").await?.as_f64().context("frames() is no number");
    let mut before = frames().await?;
    for _ in 0..60 {
        tokio::time::sleep(Duration::from_millis(700)).await;
        let now = frames().await?;
        if now == before {
            return Ok(now);
        }
        before = now;
    }
    anyhow::bail!("the model does not come to rest")
}

async fn a_chosen_time_lights_the_model(page: Page) -> Result<()> {
    let address = page.text("location.href").await?;
    page.open("about:blank").await?;
    page.open(&format!("{address}#measure")).await?;
    page.ready().await?;
    page.begin_with("Coastal two-bay edge site").await?;
    page.year_is_there().await?;
    page.raise_the_bench().await?;
    let compass = "document.querySelector('.compass')?.ariaLabel";
    let usual = page.says(compass, &["North is to the "]).await?;
    assert!(!usual.contains("sun"), "{usual}");
    let still = frames_at_rest(&page).await?;
    focus(&page, "Time of the day").await?;
    page.press(&[], Key::Home).await?;
    page.says(compass, &["the sun is down"]).await?;
    for _ in 0..12 {
        page.press(&[], Key::PageUp).await?;
    }
    page.says(compass, &["; the sun stands ", "° high to the "]).await?;
    let lit = frames_at_rest(&page).await?;
    assert!(lit > still, "the light of the hour is drawn");
    tokio::time::sleep(Duration::from_secs(2)).await;
    assert_eq!(frames_at_rest(&page).await?, lit, "and then nothing more");
    page.click("button", "Usual light").await?;
    page.shows(&format!("{compass}.replaceAll('\u{a0}', ' ')"), usual).await?;
    assert!(frames_at_rest(&page).await? > lit, "the usual light is drawn again");
    page.until("![...document.querySelectorAll('button')].some((it) => it.textContent === 'Usual light')").await
}

async fn questions_are_one_word_away(page: Page) -> Result<()> {
    page.year_is_there().await?;
    page.raise_the_bench().await?;
    page.find("slider", "Time of the day").await?;
    page.click("button", "Questions").await?;
    page.says(SIDE, &["Heat: every question"]).await?;
    page.until("document.querySelectorAll('.bench__side .finding').length > 3").await?;
    page.click("button", "Hours").await?;
    page.find("slider", "Temperature").await?;
    // A month of the table has the hours of that month only.
    page.value("[...document.querySelectorAll('.bench__side summary')].find((it) => it.textContent === 'Month by month').click()")
        .await?;
    page.shows("document.querySelectorAll('.numbers[open] tbody tr').length", 13).await
}

async fn a_unit_shows_its_map(page: Page) -> Result<()> {
    page.year_is_there().await?;
    page.select_a_unit().await?;
    let panel = "document.querySelector('.chosen').textContent";
    page.says(panel, &["Heat moved out at sea level", "rated", "Starts at ", "stops at ", "Moves "]).await?;
    page.click("button", "Close the working").await?;
    page.click("button", "Units: metric. Change").await?;
    page.until(&format!("!{panel}.includes('°C') && {panel}.includes('°F')")).await
}
