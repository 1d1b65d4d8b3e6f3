//! The project file, and the same packed into a link.

use crate::Project;

/// What is wrong with a project file: where, what was found, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileProblem {
    /// Place in the file, such as `build.bays[1].width`.
    pub place: String,
    /// What was found there.
    pub found: String,
    /// What is allowed there.
    pub allowed: String,
}

impl std::fmt::Display for FileProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: found {}; allowed: {}", self.place, self.found, self.allowed)
    }
}

/// The project as the text of its file.
#[must_use]
pub fn to_json(project: &Project) -> String {
    serde_json::to_string_pretty(project).unwrap_or_default()
}

/// Reads a project file.
///
/// # Errors
/// Every place that cannot be read or lies outside its range.
pub fn from_json(text: &str) -> Result<Project, Vec<FileProblem>> {
    serde_json::from_str(text).map_err(|error| {
        vec![FileProblem { place: String::new(), found: error.to_string(), allowed: String::new() }]
    })
}

/// The project packed into the fragment of a link.
#[must_use]
pub fn to_link(project: &Project) -> String {
    to_json(project)
}

/// Reads the fragment of a link.
///
/// # Errors
/// As [`from_json`], and when the packing is damaged.
pub fn from_link(fragment: &str) -> Result<Project, Vec<FileProblem>> {
    from_json(fragment)
}
