//! For tests of Fit checks.

use units::System;

use crate::Phrase;

/// The words of a phrase, with plain spaces.
pub(super) fn words(phrase: &Phrase) -> String {
    phrase.shown(System::Metric).replace('\u{a0}', " ")
}
