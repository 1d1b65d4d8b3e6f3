//! Sentences with figures in them, which are put into units only when they are shown.

use serde::Serialize;
use units::{System, Value, show};

/// A piece of a phrase.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Piece {
    /// Words.
    Text(String),
    /// A figure with its unit.
    Value(Value),
    /// A figure without its unit, as inside a formula.
    Number(Value),
}

/// Words and figures.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(transparent)]
pub struct Phrase(pub Vec<Piece>);

impl Phrase {
    /// An empty phrase.
    #[must_use]
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// Adds words.
    #[must_use]
    pub fn text(mut self, text: impl Into<String>) -> Self {
        self.0.push(Piece::Text(text.into()));
        self
    }

    /// Adds a figure with its unit.
    #[must_use]
    pub fn value(mut self, value: impl Into<Value>) -> Self {
        self.0.push(Piece::Value(value.into()));
        self
    }

    /// Adds a figure without its unit.
    #[must_use]
    pub fn number(mut self, value: impl Into<Value>) -> Self {
        self.0.push(Piece::Number(value.into()));
        self
    }

    /// Adds all of another phrase.
    #[must_use]
    pub fn then(mut self, more: Self) -> Self {
        self.0.extend(more.0);
        self
    }

    /// Whether nothing is in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The phrase in the given system of units.
    #[must_use]
    pub fn shown(&self, system: System) -> String {
        let mut text = String::new();
        for piece in &self.0 {
            match piece {
                Piece::Text(words) => text.push_str(words),
                Piece::Value(value) => text.push_str(&show(*value, system).to_string()),
                Piece::Number(value) => text.push_str(&show(*value, system).number),
            }
        }
        text
    }
}

impl From<&str> for Phrase {
    fn from(text: &str) -> Self {
        Self::new().text(text)
    }
}

impl From<String> for Phrase {
    fn from(text: String) -> Self {
        Self::new().text(text)
    }
}
