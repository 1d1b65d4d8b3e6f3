//! What the browser noticed: complaints in its console, and requests.

use super::Page;
use super::page::Ask;
use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};

impl Page {
    /// Warnings and errors in the console since last asked: exceptions, refused requests, broken policy.
    pub(crate) async fn complaints(&self) -> Result<Vec<String>> {
        let entries = self.log("browser").await?;
        let bad = entries.iter().filter(|entry| matches!(entry["level"].as_str(), Some("SEVERE" | "WARNING")));
        Ok(bad.filter_map(|entry| entry["message"].as_str()).map(str::to_owned).collect())
    }

    /// Nothing the program met made it panic, whatever else a test is about.
    pub(super) async fn has_not_panicked(&self) -> Result<()> {
        let complaints = self.complaints().await?;
        let panicked: Vec<_> = complaints.iter().filter(|complaint| complaint.contains("panicked at")).collect();
        ensure!(panicked.is_empty(), "the page panicked: {panicked:?}");
        Ok(())
    }

    /// Addresses of all requests since last asked, from the browser's own network log. Addresses that carry their own
    /// data are no requests.
    pub(crate) async fn requests(&self) -> Result<Vec<String>> {
        let mut requests = Vec::new();
        for entry in self.log("performance").await? {
            let text = entry["message"].as_str().context("an entry of the network log has no message")?;
            let event: Value = serde_json::from_str(text)?;
            let name = event["message"]["method"].as_str().unwrap_or_default();
            let address =
                event["message"]["params"]["request"]["url"].as_str().or(event["message"]["params"]["url"].as_str());
            let (true, Some(address)) =
                (matches!(name, "Network.requestWillBeSent" | "Network.webSocketCreated"), address)
            else {
                continue;
            };
            if !address.starts_with("data:") && !address.starts_with("blob:") {
                requests.push(address.to_owned());
            }
        }
        Ok(requests)
    }

    async fn log(&self, kind: &str) -> Result<Vec<Value>> {
        let log = self.client.issue_cmd(Ask::post("se/log".into(), json!({ "type": kind }))).await?;
        Ok(log.as_array().cloned().unwrap_or_default())
    }
}
