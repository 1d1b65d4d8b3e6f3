//! The report: every finding, and a badge for each topic.

use catalogue::Catalogue;
use project::Project;
use serde::Serialize;
use units::Value;

use crate::registry::COMPANIONS;
use crate::{AT_ONCE, Case, Finding, OVER_TIME, Outcome, Phrase, Topic, WIRED};

/// The summary of one topic's checks.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Badge {
    /// Topic.
    pub topic: Topic,
    /// The worst outcome of its checks.
    pub outcome: Outcome,
    /// The leading figure: that of the topic's first check; absent when it has none.
    pub figure: Option<Value>,
    /// The worst finding in one phrase.
    pub said: Phrase,
    /// Demanded ÷ allowed of the worst finding, where it has one.
    pub used: Option<f64>,
    /// Where *tight* begins on that scale.
    pub reserve: Option<f64>,
    /// Index of the worst finding in [`Report::findings`].
    pub finding: usize,
}

/// Every answer to every question.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Report {
    /// Findings, in the order of the registry.
    pub findings: Vec<Finding>,
    /// Badges, in the order of the topics.
    pub badges: Vec<Badge>,
}

/// Runs every check that needs no course. It always answers.
#[must_use]
pub fn report(project: &Project, catalogue: &Catalogue) -> Report {
    let case = Case::new(project, catalogue);
    report_on(&case).wired(&case)
}

/// Runs the checks of Fit, Weight and Heat on a case that is already derived. [`Report::wired`] adds those of supply and
/// backup.
#[must_use]
pub fn report_on(case: &Case) -> Report {
    let findings: Vec<_> = AT_ONCE.iter().flat_map(|check| (check.run)(check, case)).collect();
    let badges = Topic::ALL.into_iter().filter_map(|topic| badge(topic, &findings)).collect();
    Report { findings, badges }
}

impl Report {
    /// The same report with the checks of supply and backup answered as well.
    #[must_use]
    pub fn wired(mut self, case: &Case) -> Self {
        self.findings.extend(WIRED.iter().flat_map(|check| (check.run)(check, case)));
        self.badges.extend([Topic::Power, Topic::Backup].into_iter().filter_map(|topic| badge(topic, &self.findings)));
        self
    }

    /// The same report with the checks over time answered as well; unchanged while the case has no course.
    #[must_use]
    pub fn over_time(mut self, case: &Case) -> Self {
        if case.course.is_some() {
            self.findings.extend(OVER_TIME.iter().flat_map(|check| (check.run)(check, case)));
            self.badges.extend(badge(Topic::Year, &self.findings));
        }
        self
    }
}

fn badge(topic: Topic, findings: &[Finding]) -> Option<Badge> {
    let of_topic = |finding: &Finding| finding.topic == topic && !COMPANIONS.contains(&finding.code);
    let mut own = findings.iter().enumerate().filter(|(_, finding)| of_topic(finding));
    let lead = own.next()?;
    let (index, worst) = own.fold(lead, |worst, next| if worse(next.1, worst.1, lead.1.code) { next } else { worst });
    Some(Badge {
        topic,
        outcome: worst.outcome,
        figure: lead.1.given,
        said: if worst.code == lead.1.code { worst.said() } else { said_of_another(worst) },
        used: worst.used,
        reserve: worst.reserve,
        finding: index,
    })
}

/// What a badge says when another check than its leading one is the worst: "fails: depth to doors".
fn said_of_another(worst: &Finding) -> Phrase {
    let name = worst.name.replace('-', " ");
    Phrase::from(worst.outcome.word()).text(": ").text(name)
}

/// Whether a badge speaks of `one` rather than of `other`: the worse outcome, then the nearer to its limit. The leading
/// check keeps its word among equals, and while everything holds.
fn worse(one: &Finding, other: &Finding, lead: &str) -> bool {
    one.outcome > other.outcome || (one.outcome == other.outcome && other.code != lead && one.used > other.used)
}
