//! Why a Heat check gives no number.

use crate::{Check, Finding, Phrase, Subject};

/// Why a Heat check gives no number.
#[derive(Clone, Debug, PartialEq)]
pub enum Gap {
    /// Something nobody has said is missing.
    NeedsData(Phrase),
    /// The method does not cover it.
    OutOfRange(Phrase),
}

impl Gap {
    /// The finding that says so.
    #[must_use]
    pub fn finding(self, check: &Check, subject: Subject) -> Finding {
        match self {
            Self::NeedsData(what) => Finding::needs_data(check, subject, what),
            Self::OutOfRange(why) => Finding::out_of_range(check, subject, why),
        }
    }
}
