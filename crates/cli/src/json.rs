//! The report as JSON, for scripts: every finding with its working, and what each check is.

use std::collections::BTreeMap;

use catalogue::{About, Catalogue, PartId};
use project::Project;
use rules::{Badge, Finding, Outcome, Source, Symbol, Topic};
use serde::Serialize;

use crate::Answered;

/// What the JSON calls itself, and the version of its shape.
const FORMAT: (&str, u64) = ("baywright-report", 1);

/// What every JSON begins with. Numbers stand in the base unit of their kind, whatever the units of the screen.
#[derive(Serialize)]
pub(crate) struct Head<'a> {
    format: &'static str,
    version: u64,
    project: &'a str,
    catalogue: &'a About,
    all_hold: bool,
    worst: Option<Outcome>,
}

impl<'a> Head<'a> {
    /// Of a project, the catalogue it was judged with, and what was found.
    pub(crate) fn new(
        (format, version): (&'static str, u64),
        project: &'a Project,
        catalogue: &'a Catalogue,
        all_hold: bool,
        findings: impl Iterator<Item = &'a Finding>,
    ) -> Self {
        let worst = findings.map(|finding| finding.outcome).max();
        Self { format, version, project: &project.name, catalogue: &catalogue.about, all_hold, worst }
    }
}

/// The JSON as text with a line end at its end. Plain data with text keys only, which always can be written.
pub(crate) fn written(json: serde_json::Result<String>) -> String {
    let mut text = json.unwrap_or_default();
    text.push('\n');
    text
}

#[derive(Serialize)]
struct Envelope<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    unknown_parts: &'a [PartId],
    /// The edition of each document the results rest on.
    editions: BTreeMap<&'static str, &'static str>,
    checks: Vec<CheckFacts>,
    badges: &'a [Badge],
    findings: &'a [Finding],
}

/// A check, without what runs it.
#[derive(Serialize)]
struct CheckFacts {
    code: &'static str,
    name: &'static str,
    topic: Topic,
    question: &'static str,
    formula: &'static str,
    symbols: &'static [Symbol],
    sources: &'static [&'static Source],
    valid: &'static str,
    leaves_out: &'static str,
    caution: Option<&'static str>,
}

impl Answered<'_> {
    /// The report as JSON, indented, with a line end at its end.
    #[must_use]
    pub fn json(&self) -> String {
        // Checks over time are asked only when a run over time is there.
        let asked = |check: &&rules::Check| self.report.findings.iter().any(|finding| finding.code == check.code);
        let checks: Vec<_> = rules::all_checks()
            .filter(asked)
            .map(|check| CheckFacts {
                code: check.code,
                name: check.name,
                topic: check.topic,
                question: check.question,
                formula: check.formula,
                symbols: check.symbols,
                sources: check.sources,
                valid: check.valid,
                leaves_out: check.leaves_out,
                caution: check.caution,
            })
            .collect();
        let editions = checks
            .iter()
            .flat_map(|check| check.sources)
            .filter(|source| !source.edition.is_empty())
            .map(|source| (source.document, source.edition))
            .collect();
        let envelope = Envelope {
            head: Head::new(FORMAT, self.project, self.catalogue, self.all_hold(), self.report.findings.iter()),
            unknown_parts: &self.unknown_parts,
            editions,
            checks,
            badges: &self.report.badges,
            findings: &self.report.findings,
        };
        written(serde_json::to_string_pretty(&envelope))
    }
}
