//! What every user of the sheet does and reads: words written, a new project begun, badges and devices looked at.

use crate::harness::Page;
use anyhow::{Context, Result, bail, ensure};
use fantoccini::Locator;
use fantoccini::elements::Element;
use fantoccini::key::Key;
use serde_json::{Value, json};
use std::time::{Duration, Instant};

/// How long the sheet may take to show what was asked of it.
const PATIENCE: Duration = Duration::from_secs(6);

/// Names of the devices in the elevations, in the order of the project.
const DEVICES: &str = "[...document.querySelectorAll('.elev__svg [role=button]')].map((it) => it.ariaLabel)";

impl Page {
    /// Waits until an expression has this value, and says what it had instead.
    pub(crate) async fn shows(&self, expression: &str, expected: impl Into<Value>) -> Result<()> {
        let (start, expected) = (Instant::now(), expected.into());
        loop {
            let found = self.value(expression).await?;
            if found == expected {
                return Ok(());
            }
            ensure!(start.elapsed() < PATIENCE, "{expression} is {found}, not {expected}");
            tokio::time::sleep(Duration::from_millis(40)).await;
        }
    }

    /// Waits until an expression's text has all these words in it; what the text is.
    pub(crate) async fn says(&self, expression: &str, words: &[&str]) -> Result<String> {
        let start = Instant::now();
        loop {
            let found = self.text(expression).await?;
            if words.iter().all(|word| found.contains(word)) {
                return Ok(found);
            }
            ensure!(start.elapsed() < PATIENCE, "{expression} is {found:?}, without one of {words:?}");
            tokio::time::sleep(Duration::from_millis(40)).await;
        }
    }

    /// The text that an expression gives, with plain spaces; nothing where it gives none.
    pub(crate) async fn text(&self, expression: &str) -> Result<String> {
        Ok(self.value(expression).await?.as_str().unwrap_or_default().replace(['\u{a0}', '\u{202f}'], " "))
    }

    /// Writes into what has the focus.
    pub(crate) async fn write(&self, text: &str) -> Result<()> {
        for character in text.chars() {
            self.press(&[], character).await?;
        }
        Ok(())
    }

    /// Writes a line as a customer says it, and places it.
    pub(crate) async fn ask_for(&self, line: &str) -> Result<()> {
        self.enter("Add", line).await?;
        self.shows("document.getElementById('line').value", "").await
    }

    /// Presses Tab until what has the focus has this name; its whole name where only the beginning was given, with “…”.
    pub(crate) async fn tab_to(&self, name: &str) -> Result<String> {
        let mut met = Vec::new();
        for _ in 0..250 {
            self.press(&[], Key::Tab).await?;
            let focused = self.focused().await?;
            if is(name, &focused) {
                return Ok(focused);
            }
            met.push(focused);
        }
        bail!("Tab does not come to {name:?}, only to {met:?}")
    }

    /// The accessible name of what has the focus, with plain spaces.
    pub(crate) async fn focused(&self) -> Result<String> {
        self.name_of(&self.client.active_element().await?).await
    }

    /// The one button of this name, or whose name begins so, with “…”.
    pub(crate) async fn button(&self, name: &str) -> Result<Element> {
        self.find_that("button", &format!("{name:?}"), |its| is(name, &its.replace('\u{a0}', " "))).await
    }

    /// Presses the one button of this name, or whose name begins so, with “…”.
    pub(crate) async fn press_button(&self, name: &str) -> Result<()> {
        Ok(self.button(name).await?.click().await?)
    }

    /// Opens the editor of a blank, writes into it, and leaves it with Enter.
    pub(crate) async fn fill(&self, blank: &str, text: &str) -> Result<()> {
        self.press_button(&format!("{blank}: …")).await?;
        self.opened().await?;
        self.write(text).await?;
        self.press(&[], Key::Enter).await
    }

    /// Chooses an option of the list that is open.
    pub(crate) async fn choose(&self, option: &str) -> Result<()> {
        let is = |name: &str| name.replace('\u{a0}', " ").contains(&format!(" {option} "));
        Ok(self.find_that("button", &format!("{option:?}, an option"), is).await?.click().await?)
    }

    /// Waits until a field has opened with its text selected, so that what is typed replaces it.
    pub(crate) async fn opened(&self) -> Result<()> {
        let field = "document.activeElement";
        self.until(&format!("{field}.tagName === 'INPUT' && {field}.closest('dialog')")).await?;
        self.shows(
            &format!("[{field}.selectionStart, {field}.selectionEnd === {field}.value.length]"),
            json!([0, true]),
        )
        .await
    }

    /// Begins an empty project.
    pub(crate) async fn begin_new(&self) -> Result<()> {
        self.click("button", "Project").await?;
        self.click("button", "New").await?;
        self.shows(&format!("{DEVICES}.length"), 0).await
    }

    /// Begins with a finished project.
    pub(crate) async fn begin_with(&self, sample: &str) -> Result<()> {
        self.click("button", "Project").await?;
        self.press_button(&format!("{sample}…")).await?;
        self.closed().await
    }

    /// Waits until no dialog is open.
    pub(crate) async fn closed(&self) -> Result<()> {
        self.until("!document.querySelector('dialog[open]')").await
    }

    /// A badge as a screen reader reads it: outcome, topic, what is said, figure.
    pub(crate) async fn badge(&self, topic: &str) -> Result<String> {
        Ok(self.badge_row(topic).await?.1)
    }

    /// A badge, and as a screen reader reads it.
    pub(crate) async fn badge_row(&self, topic: &str) -> Result<(Element, String)> {
        for element in self.client.find_all(Locator::Css("section[aria-labelledby=h-answered] .answer")).await? {
            let name = self.name_of(&element).await?;
            if name.contains(&format!(" {topic} ")) {
                return Ok((element, name));
            }
        }
        bail!("there is no badge of {topic}")
    }

    /// All three badges.
    pub(crate) async fn badges(&self) -> Result<[String; 3]> {
        Ok([self.badge("Fit").await?, self.badge("Weight").await?, self.badge("Heat").await?])
    }

    /// Waits until a badge reads otherwise than it did; what it reads.
    pub(crate) async fn badge_after(&self, topic: &str, before: &str) -> Result<String> {
        let start = Instant::now();
        loop {
            let now = self.badge(topic).await?;
            if now != before {
                return Ok(now);
            }
            ensure!(start.elapsed() < PATIENCE, "{topic} still reads {before:?}");
        }
    }

    /// The devices in the elevations, as they are named there, in the order of the project.
    pub(crate) async fn devices(&self) -> Result<Vec<String>> {
        let names = self.value(DEVICES).await?;
        let names = names.as_array().context("the elevations name no devices")?;
        Ok(names.iter().filter_map(Value::as_str).map(|name| name.replace('\u{a0}', " ")).collect())
    }

    /// Waits until these are the devices in the elevations.
    pub(crate) async fn has_devices(&self, expected: &[&str]) -> Result<()> {
        let plain = format!("{DEVICES}.map((name) => name.replaceAll('\u{a0}', ' '))");
        self.shows(&plain, json!(expected)).await
    }

    /// The link that carries the project: everything that was typed, to the last bit.
    pub(crate) async fn link(&self) -> Result<String> {
        self.click("button", "Share").await?;
        let link = self.find("textbox", "Link").await?.prop("value").await?.context("the link is empty")?;
        self.press(&[], Key::Escape).await?;
        self.closed().await?;
        Ok(link)
    }

    async fn name_of(&self, element: &Element) -> Result<String> {
        Ok(self.label(element).await?.replace('\u{a0}', " "))
    }
}

/// Whether a name is the one that is meant: the whole of it, or its beginning before “…”.
fn is(meant: &str, name: &str) -> bool {
    meant.strip_suffix('…').map_or(meant == name, |beginning| name.starts_with(beginning))
}
