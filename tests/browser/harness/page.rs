//! A page in a browser session: opening it, asking it, finding what a person would find.

use anyhow::{Context, Result, bail, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use fantoccini::elements::Element;
use fantoccini::wd::WebDriverCompatibleCommand;
use fantoccini::{Client, Locator};
use http::Method;
use serde_json::{Value, json};
use std::path::PathBuf;
use std::time::{Duration, Instant};
use url::{ParseError, Url};

/// How long a page may take to get where a test waits for it.
const PATIENCE: Duration = Duration::from_secs(15);
/// How often to look again.
const AGAIN: Duration = Duration::from_millis(50);

/// One browser session and the page in it.
#[derive(Clone)]
pub(crate) struct Page {
    /// The session.
    pub(crate) client: Client,
    pictures: PathBuf,
}

impl Page {
    /// A session with the smallest screen that everything has to work on.
    pub(super) async fn new(client: Client, pictures: PathBuf) -> Result<Self> {
        let page = Self { client, pictures };
        page.screen(1280, 720).await?;
        let (script, load) = (Duration::from_secs(300), PATIENCE * 2);
        let timeouts = fantoccini::wd::TimeoutConfiguration::new(Some(script), Some(load), None);
        page.client.update_timeouts(timeouts).await?;
        Ok(page)
    }

    /// Opens an address and waits for its load to end.
    pub(crate) async fn open(&self, address: &str) -> Result<()> {
        Ok(self.client.goto(address).await?)
    }

    /// Ends the session.
    pub(crate) async fn close(self) -> Result<()> {
        Ok(self.client.close().await?)
    }

    /// Makes the page this large, in CSS pixels.
    pub(crate) async fn screen(&self, width: u32, height: u32) -> Result<()> {
        let size = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false });
        self.devtools("Emulation.setDeviceMetricsOverride", size).await.map(drop)
    }

    /// The value of a JavaScript expression; promises are waited for.
    pub(crate) async fn value(&self, expression: &str) -> Result<Value> {
        let script = format!(
            "const done = arguments[0];\
             (async () => ({expression}))().then((value) => done({{ value }}), (error) => done({{ error: String(error) }}));"
        );
        let answer = self.client.execute_async(&script, vec![]).await?;
        match answer.get("error") {
            Some(error) => bail!("{expression}: {error}"),
            None => Ok(answer["value"].clone()),
        }
    }

    /// Waits until a JavaScript expression is true.
    pub(crate) async fn until(&self, expression: &str) -> Result<()> {
        let start = Instant::now();
        while self.value(&format!("Boolean({expression})")).await? != Value::Bool(true) {
            ensure!(start.elapsed() < PATIENCE, "waited {} s for {expression}", PATIENCE.as_secs());
            tokio::time::sleep(AGAIN).await;
        }
        Ok(())
    }

    /// Waits until the badges have been painted, and the page has everything it will ever fetch.
    pub(crate) async fn ready(&self) -> Result<()> {
        self.until("performance.getEntriesByName('baywright:visible').length").await?;
        // In one file every face is there already, and one that nothing uses stays unloaded.
        let faces = "location.protocol === 'file:' || [...document.fonts].every((face) => face.status === 'loaded')";
        self.until(faces).await
    }

    /// The one element with this role and accessible name, as the browser itself computes it for a screen reader; waits
    /// for it to come.
    pub(crate) async fn find(&self, role: &str, name: &str) -> Result<Element> {
        let start = Instant::now();
        loop {
            let names = self.named(role).await?;
            let mut found: Vec<_> = names.iter().filter(|(_, its)| its == name).collect();
            match (found.pop(), found.is_empty()) {
                (Some((element, _)), true) => return Ok(element.clone()),
                (Some(_), false) => bail!("{} elements are a {role} named {name:?}", found.len() + 1),
                (None, _) if start.elapsed() > PATIENCE => {
                    let others: Vec<_> = names.iter().map(|(_, name)| name).collect();
                    bail!("no {role} is named {name:?}; there are {others:?}")
                }
                (None, _) => tokio::time::sleep(AGAIN).await,
            }
        }
    }

    /// All visible elements with this role, with their accessible names, in document order.
    pub(crate) async fn named(&self, role: &str) -> Result<Vec<(Element, String)>> {
        let mut named = Vec::new();
        for element in self.client.find_all(Locator::Css(&selector(role))).await? {
            // An element that left the page meanwhile is not one of them.
            let Ok(true) = element.is_displayed().await else { continue };
            let label = Ask::get(format!("element/{}/computedlabel", &*element.element_id()));
            let Ok(label) = self.client.issue_cmd(label).await else { continue };
            named.push((element, label.as_str().unwrap_or_default().to_owned()));
        }
        Ok(named)
    }

    /// Takes a picture of the page as it is; where it was put.
    pub(crate) async fn picture(&self, name: &str) -> Result<PathBuf> {
        let shot = self.devtools("Page.captureScreenshot", json!({ "format": "png" })).await?;
        let bytes = STANDARD.decode(shot["data"].as_str().context("the browser took no picture")?)?;
        std::fs::create_dir_all(&self.pictures)?;
        let path = self.pictures.join(format!("{name}.png"));
        std::fs::write(&path, bytes)?;
        Ok(path)
    }

    /// A command of the browser's own developer tools.
    pub(crate) async fn devtools(&self, command: &str, parameters: Value) -> Result<Value> {
        let body = json!({ "cmd": command, "params": parameters });
        Ok(self.client.issue_cmd(Ask::post("goog/cdp/execute".into(), body)).await?)
    }
}

/// CSS for elements that have a role by themselves or by attribute.
fn selector(role: &str) -> String {
    let by_itself = match role {
        "button" => "button, summary, input[type=button], input[type=submit]",
        "checkbox" => "input[type=checkbox]",
        "combobox" => "select",
        "heading" => "h1, h2, h3, h4, h5, h6",
        "img" => "img",
        "link" => "a[href]",
        "listitem" => "li",
        "option" => "option",
        "radio" => "input[type=radio]",
        "region" => "section",
        "row" => "tr",
        "slider" => "input[type=range]",
        "spinbutton" => "input[type=number]",
        "table" => "table",
        "textbox" => "input:not([type]), input[type=text], textarea",
        landmark @ ("main" | "dialog") => landmark,
        _ => return format!("[role={role}]"),
    };
    let by_itself = by_itself.split(", ").map(|element| format!("{element}:not([role])"));
    by_itself.chain([format!("[role={role}]")]).collect::<Vec<_>>().join(", ")
}

/// A WebDriver command that fantoccini has no function for; its path within the session.
#[derive(Debug)]
pub(super) struct Ask {
    path: String,
    body: Option<Value>,
}

impl Ask {
    pub(super) fn get(path: String) -> Self {
        Self { path, body: None }
    }

    pub(super) fn post(path: String, body: Value) -> Self {
        Self { path, body: Some(body) }
    }
}

impl WebDriverCompatibleCommand for Ask {
    fn endpoint(&self, base: &Url, session: Option<&str>) -> Result<Url, ParseError> {
        base.join(&format!("session/{}/{}", session.unwrap_or_default(), self.path))
    }

    fn method_and_body(&self, _: &Url) -> (Method, Option<String>) {
        match &self.body {
            Some(body) => (Method::POST, Some(body.to_string())),
            None => (Method::GET, None),
        }
    }
}
