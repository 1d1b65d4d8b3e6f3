//! A course over day and year with the checks that judge it, as text and as JSON.

mod json;
mod monthly;
mod table;
mod text;

use catalogue::Catalogue;
use project::Project;
use rules::course::Course;
use rules::{Case, Outcome, Report, Topic, report_on};

/// Which of the two stretches of time is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// The hottest and the coldest day, hour by hour.
    Day,
    /// The year, month by month; in JSON hour by hour.
    Year,
}

/// A project with its course, and what the checks over time say of it.
pub struct OverTime<'a> {
    /// What was judged.
    pub project: &'a Project,
    /// What it was judged with.
    pub catalogue: &'a Catalogue,
    /// What a run left behind, or why there is nothing.
    pub course: Result<&'a Course, &'a str>,
    /// Every answer.
    pub report: Report,
}

impl<'a> OverTime<'a> {
    /// Runs every check on a project and its course.
    #[must_use]
    pub fn new(project: &'a Project, catalogue: &'a Catalogue, course: &'a Result<Course, String>) -> Self {
        let course = course.as_ref().map_err(String::as_str);
        let case = Case::new(project, catalogue).with_course(course.ok());
        let report = report_on(&case).wired(&case).over_time(&case);
        Self { project, catalogue, course, report }
    }

    /// Whether every promise over time is kept: nothing fails and nothing is open. *Tight* counts as kept.
    #[must_use]
    pub fn all_hold(&self) -> bool {
        let kept = |outcome| matches!(outcome, Outcome::Holds | Outcome::Tight);
        self.course.is_ok() && self.findings().all(|finding| kept(finding.outcome))
    }

    /// What the checks over time found.
    fn findings(&self) -> impl Iterator<Item = &rules::Finding> {
        self.report.findings.iter().filter(|finding| finding.topic == Topic::Year)
    }
}
