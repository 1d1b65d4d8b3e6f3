//! Input that could not be taken, for people and for scripts.

use serde::Serialize;

use crate::json::written;

/// Input that could not be taken.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Refused {
    /// What: a file, or the command line.
    pub what: String,
    /// Why, each with its place, what was found, and what is allowed.
    pub problems: Vec<String>,
}

impl Refused {
    /// In lines, without a line end at their end.
    #[must_use]
    pub fn text(&self) -> String {
        let count = match self.problems.len() {
            1 => "1 problem".to_owned(),
            many => format!("{many} problems"),
        };
        format!("{}: not taken, {count}\n  {}", self.what, self.problems.join("\n  "))
    }
}

#[derive(Serialize)]
struct Envelope<'a> {
    format: &'static str,
    version: u64,
    all_hold: bool,
    refused: &'a [Refused],
}

/// All of it as JSON, with a line end at its end: what a script is told instead of a report.
#[must_use]
pub fn problems_json(refused: &[Refused]) -> String {
    let envelope = Envelope { format: "baywright-problems", version: 1, all_hold: false, refused };
    written(serde_json::to_string_pretty(&envelope))
}
