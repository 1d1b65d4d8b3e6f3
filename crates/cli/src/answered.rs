//! A project with its report.

use catalogue::{Catalogue, PartId};
use project::Project;
use rules::{Case, Outcome, Report, report_on};

/// A project, the catalogue it is judged with, and every answer.
pub struct Answered<'a> {
    /// What was judged.
    pub project: &'a Project,
    /// What it was judged with.
    pub catalogue: &'a Catalogue,
    /// Parts of the project that the catalogue does not know.
    pub unknown_parts: Vec<PartId>,
    /// Every answer.
    pub report: Report,
}

impl<'a> Answered<'a> {
    /// Runs every check.
    #[must_use]
    pub fn new(project: &'a Project, catalogue: &'a Catalogue) -> Self {
        let case = Case::new(project, catalogue);
        let report = report_on(&case).wired(&case);
        Self { project, catalogue, unknown_parts: case.unknown_parts, report }
    }

    /// Whether every promise is kept: nothing fails and nothing is open. *Tight* is inside its limit and counts as kept.
    #[must_use]
    pub fn all_hold(&self) -> bool {
        let kept = |outcome| matches!(outcome, Outcome::Holds | Outcome::Tight);
        self.unknown_parts.is_empty() && self.report.findings.iter().all(|finding| kept(finding.outcome))
    }
}
