//! A page in a browser session: opening it, asking it, finding what a person would find.

use anyhow::{Context, Result, bail, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use fantoccini::Client;
use fantoccini::elements::{Element, ElementRef};
use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
use serde_json::{Value, json};
use std::path::PathBuf;
use std::time::{Duration, Instant};
use url::{ParseError, Url};

/// How long a page may take to get where a test waits for it.
const PATIENCE: Duration = Duration::from_secs(15);
/// How often to look again.
const AGAIN: Duration = Duration::from_millis(50);

/// Whether the worker is at nothing.
const SETTLED: &str = "!/working/.test(document.querySelector('.answers__news')?.textContent ?? '') \
    && document.querySelector('.answer--old') === null";

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

    /// Waits until the badges have been painted, and the page has everything it will ever fetch, its worker among it.
    pub(crate) async fn ready(&self) -> Result<()> {
        self.until("performance.getEntriesByName('baywright:visible').length").await?;
        // The entry line is of what is loaded after the first look.
        self.until("document.getElementById('line')").await?;
        self.until("performance.getEntriesByName('baywright:worker').length").await?;
        // The first year is there, or it is said why not.
        self.until(SETTLED).await?;
        // In one file every face is there already, and one that nothing uses stays unloaded.
        let faces = "location.protocol === 'file:' || [...document.fonts].every((face) => face.status === 'loaded')";
        self.until(faces).await
    }

    /// The one element with this role and accessible name, as the browser itself computes it for a screen reader; waits
    /// for it to come.
    pub(crate) async fn find(&self, role: &str, name: &str) -> Result<Element> {
        self.find_that(role, &format!("{name:?}"), |its| its == name).await
    }

    /// The one element with this role whose accessible name is a certain one; waits for it to come.
    pub(crate) async fn find_that(&self, role: &str, words: &str, is: impl Fn(&str) -> bool) -> Result<Element> {
        let start = Instant::now();
        loop {
            let listed = self.listed(role).await?;
            let mut found: Vec<_> = listed.iter().filter(|(_, name)| is(name)).collect();
            match (found.pop(), found.is_empty()) {
                (Some((node, _)), true) => match self.element(node).await {
                    Ok(element) => return Ok(element),
                    // It left the page meanwhile.
                    Err(_) if start.elapsed() < PATIENCE => {}
                    Err(error) => return Err(error),
                },
                (Some(_), false) => bail!("{} elements are a {role} named {words}", found.len() + 1),
                (None, _) if start.elapsed() > PATIENCE => {
                    let others: Vec<_> = listed.iter().map(|(_, name)| name).collect();
                    bail!("no {role} is named {words}; there are {others:?}")
                }
                (None, _) => {}
            }
            tokio::time::sleep(AGAIN).await;
        }
    }

    /// All elements with this role that a screen reader comes to, with their accessible names, in document order.
    pub(crate) async fn named(&self, role: &str) -> Result<Vec<(Element, String)>> {
        let mut named = Vec::new();
        for (node, name) in self.listed(role).await? {
            // An element that left the page meanwhile is not one of them.
            let Ok(element) = self.element(&node).await else { continue };
            named.push((element, name));
        }
        Ok(named)
    }

    /// The browser's own numbers of the elements with this role, with their accessible names.
    async fn listed(&self, role: &str) -> Result<Vec<(Value, String)>> {
        // The browser has its own word for this one.
        let role = if role == "img" { "image" } else { role };
        let document = self.devtools("DOM.getDocument", json!({ "depth": 0 })).await?;
        let ask = json!({ "backendNodeId": document["root"]["backendNodeId"], "role": role });
        let answer = self.devtools("Accessibility.queryAXTree", ask).await?;
        let nodes = answer["nodes"].as_array().context("the browser lists no elements")?;
        let seen = nodes.iter().filter(|node| node["ignored"] != true && node["backendDOMNodeId"].is_number());
        let name = |node: &Value| node["name"]["value"].as_str().unwrap_or_default().trim().to_owned();
        Ok(seen.map(|node| (node["backendDOMNodeId"].clone(), name(node))).collect())
    }

    /// The element with this number: handed from the developer tools to WebDriver through the page.
    async fn element(&self, node: &Value) -> Result<Element> {
        let object = self.devtools("DOM.resolveNode", json!({ "backendNodeId": node })).await?;
        let put = json!({
            "objectId": object["object"]["objectId"],
            "functionDeclaration": "function () { window.foundByTheTest = this; }"
        });
        self.devtools("Runtime.callFunctionOn", put).await?;
        let found = self.client.execute("return window.foundByTheTest", vec![]).await?;
        Ok(Element::from_element_id(self.client.clone(), element_id(&found)?))
    }

    /// The accessible name of an element, as the browser itself computes it for a screen reader.
    pub(crate) async fn label(&self, element: &Element) -> Result<String> {
        let ask = Ask::get(format!("element/{}/computedlabel", &*element.element_id()));
        Ok(self.client.issue_cmd(ask).await?.as_str().unwrap_or_default().to_owned())
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

/// The element that a script gave back.
fn element_id(given: &Value) -> Result<ElementRef> {
    /// WebDriver, 12: the key under which every element travels.
    const KEY: &str = "element-6066-11e4-a52e-4f735466cecf";
    Ok(ElementRef::from(given[KEY].as_str().context("no element came back")?.to_owned()))
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
