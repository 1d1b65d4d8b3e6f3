//! What a file says before anybody knows what it means, and how it becomes a part or a project.
//!
//! Catalogues are TOML and projects are JSON; both are turned into [`Plain`] first and read from there. There is one reader
//! for both, so each type is compiled for one reader only (the page is 240 kB smaller for it), and a mistake is told the same
//! way: where, what was found, what is expected.

mod misfit;
mod reader;

pub use misfit::{Misfit, Why, one_of};
pub use reader::from_plain;

/// A value of a file, without its meaning.
#[derive(Clone, Debug, PartialEq)]
pub enum Plain {
    /// No value.
    Nothing,
    /// True or false.
    Truth(bool),
    /// A number written without a point.
    Whole(i64),
    /// Any other number.
    Number(f64),
    /// Text.
    Text(String),
    /// Something no part or project holds, in words: "a date".
    Other(&'static str),
    /// A list.
    List(Vec<Plain>),
    /// Values by name. No name stands twice.
    Table(Vec<(String, Plain)>),
}

impl From<serde_json::Value> for Plain {
    fn from(value: serde_json::Value) -> Self {
        use serde_json::Value;
        match value {
            Value::Null => Self::Nothing,
            Value::Bool(yes) => Self::Truth(yes),
            Value::Number(number) => match (number.as_i64(), number.as_f64()) {
                (Some(whole), _) => Self::Whole(whole),
                (None, Some(number)) => Self::Number(number),
                (None, None) => Self::Other("number out of range"),
            },
            Value::String(text) => Self::Text(text),
            Value::Array(list) => Self::List(list.into_iter().map(Self::from).collect()),
            Value::Object(fields) => {
                Self::Table(fields.into_iter().map(|(name, value)| (name, Self::from(value))).collect())
            }
        }
    }
}

impl Plain {
    /// Its sort in one word, as problems say it.
    pub(crate) fn sort(&self) -> &'static str {
        match self {
            Self::Nothing => "nothing",
            Self::Truth(_) => "boolean",
            Self::Whole(_) => "integer",
            Self::Number(_) => "float",
            Self::Text(_) => "string",
            Self::Other(what) => what,
            Self::List(_) => "array",
            Self::Table(_) => "table",
        }
    }
}
