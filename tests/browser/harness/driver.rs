//! The program that drives the browser: started with the tests, and ended with them whatever happens.

use super::{Page, Setting};
use anyhow::{Context, Result, bail};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Map, Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// A running driver.
pub(crate) struct Driver {
    child: Child,
    port: u16,
    /// What every session asks for, from web/webdriver.json.
    capabilities: Map<String, Value>,
}

impl Driver {
    /// Starts the driver on a free port.
    pub(crate) fn start(setting: &Setting) -> Result<Self> {
        let text = std::fs::read_to_string(&setting.webdriver).context("the browser's settings cannot be read")?;
        let Value::Object(mut capabilities) = serde_json::from_str(&text)? else {
            bail!("{} is not an object", setting.webdriver.display())
        };
        // Everything the console says, and every request the browser makes.
        capabilities.insert("goog:loggingPrefs".into(), json!({ "browser": "ALL", "performance": "ALL" }));
        let mut child = Command::new(&setting.driver)
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .with_context(|| format!("cannot start {}", setting.driver.display()))?;
        let port = port(&mut child);
        let mut driver = Self { child, port: 0, capabilities };
        driver.port = port?;
        Ok(driver)
    }

    /// A new session, which has not opened anything yet.
    pub(crate) async fn page(&self, setting: &Setting) -> Result<Page> {
        let address = format!("http://127.0.0.1:{}", self.port);
        let mut builder = fantoccini::ClientBuilder::new(HttpConnector::new());
        let client = builder.capabilities(self.capabilities.clone()).connect(&address).await?;
        Page::new(client, setting.pictures.clone()).await
    }

    /// Asks the driver to end, and with it all its browsers.
    fn ask_to_end(&self) -> Result<()> {
        let mut line = TcpStream::connect(("127.0.0.1", self.port))?;
        line.set_read_timeout(Some(Duration::from_secs(10)))?;
        line.write_all(b"GET /shutdown HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n")?;
        line.read_to_end(&mut Vec::new())?;
        Ok(())
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // Killing the driver at once would leave its browsers behind.
        let asked = self.ask_to_end();
        for _ in 0..50 {
            if asked.is_err() || matches!(self.child.try_wait(), Ok(Some(_))) {
                break;
            }
            std::thread::sleep(Duration::from_millis(100));
        }
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// The port that the driver says it took.
fn port(child: &mut Child) -> Result<u16> {
    let mut lines = BufReader::new(child.stdout.take().context("the driver has no output")?).lines();
    while let Some(Ok(line)) = lines.next() {
        if let Some((_, port)) = line.split_once("started successfully on port ") {
            return Ok(port.trim_end_matches('.').parse()?);
        }
    }
    bail!("the browser's driver ended before it was ready")
}
