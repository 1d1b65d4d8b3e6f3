//! Three finished projects of our own invention, to begin from.

use crate::Project;

/// A finished project to begin from.
#[derive(Clone, Debug)]
pub struct Sample {
    /// Its name.
    pub name: &'static str,
    /// One sentence about it.
    pub about: &'static str,
    /// The project.
    pub project: Project,
}

/// The samples.
#[must_use]
pub fn samples() -> Vec<Sample> {
    Vec::new()
}
