//! The one list of checks. Codes are never reused; a withdrawn check keeps its line here with the reason.

use crate::{Check, fit, heat, weight};

/// Every check, in the order they are shown: by topic, the one whose figure leads the badge first.
pub static ALL: &[&Check] = &[];

/// The check with this code.
#[must_use]
pub fn check_by_code(code: &str) -> Option<&'static Check> {
    ALL.iter().copied().find(|check| check.code == code)
}
