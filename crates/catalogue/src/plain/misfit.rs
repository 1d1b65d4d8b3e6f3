//! Why a plain value does not become what it should.

use serde::de::{Error, Expected, Unexpected};

/// Why a plain value is not what it should be, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misfit {
    /// Where, such as `build.bays[1].width`; empty for the whole.
    pub place: String,
    /// Why.
    pub why: Why,
}

/// Why a plain value is not what it should be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// The place must have a value and has none.
    Missing,
    /// No field has the name the place ends with. The names there are.
    UnknownField(&'static [&'static str]),
    /// Not one of the words that are allowed here. What was found, and those words.
    UnknownWord(String, &'static [&'static str]),
    /// Another sort of value. What was found, and what is expected.
    WrongSort(String, String),
    /// Anything else, in words.
    Other(String),
}

/// Names as one reads them: `` one of `a`, `b`, `c` ``.
#[must_use]
pub fn one_of(names: &[&str]) -> String {
    match names {
        [] => "nothing".to_owned(),
        [only] => format!("`{only}`"),
        [one, other] => format!("`{one}` or `{other}`"),
        many => format!("one of `{}`", many.join("`, `")),
    }
}

/// A misfit on its way out, gathering its place. Boxed: results are small where all is well.
#[derive(Debug)]
pub(super) struct Raised(Box<Misfit>);

impl Raised {
    fn new(why: Why) -> Self {
        Self(Box::new(Misfit { place: String::new(), why }))
    }

    /// The same, told from outside a named field, or a list's `[number]`.
    pub(super) fn inside(mut self, name: &str) -> Self {
        let place = &mut self.0.place;
        if !place.is_empty() && !place.starts_with('[') {
            place.insert(0, '.');
        }
        place.insert_str(0, name);
        self
    }

    pub(super) fn into_misfit(self) -> Misfit {
        *self.0
    }
}

impl std::fmt::Display for Raised {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:?}", self.0)
    }
}

impl std::error::Error for Raised {}

impl Error for Raised {
    fn custom<T: std::fmt::Display>(told: T) -> Self {
        Self::new(Why::Other(told.to_string()))
    }

    fn invalid_type(found: Unexpected<'_>, expected: &dyn Expected) -> Self {
        Self::new(Why::WrongSort(found.to_string(), expected.to_string()))
    }

    fn invalid_value(found: Unexpected<'_>, expected: &dyn Expected) -> Self {
        Self::invalid_type(found, expected)
    }

    fn unknown_variant(found: &str, words: &'static [&'static str]) -> Self {
        Self::new(Why::UnknownWord(found.to_owned(), words))
    }

    fn unknown_field(_: &str, names: &'static [&'static str]) -> Self {
        Self::new(Why::UnknownField(names))
    }

    fn missing_field(name: &'static str) -> Self {
        Self::new(Why::Missing).inside(name)
    }
}
