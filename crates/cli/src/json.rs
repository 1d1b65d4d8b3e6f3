//! The report as JSON, for scripts: every finding with its working, and what each check is.

use std::collections::BTreeMap;

use catalogue::{About, PartId};
use rules::{Badge, Finding, Outcome, Source, Symbol, Topic};
use serde::Serialize;

use crate::Answered;

/// What the JSON calls itself, and the version of its shape.
const FORMAT: &str = "baywright-report";
const VERSION: u64 = 1;

/// Numbers stand in the base unit of their kind, whatever the units of the screen.
#[derive(Serialize)]
struct Envelope<'a> {
    format: &'static str,
    version: u64,
    project: &'a str,
    catalogue: &'a About,
    all_hold: bool,
    worst: Option<Outcome>,
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
            format: FORMAT,
            version: VERSION,
            project: &self.project.name,
            catalogue: &self.catalogue.about,
            all_hold: self.all_hold(),
            worst: self.report.findings.iter().map(|finding| finding.outcome).max(),
            unknown_parts: &self.unknown_parts,
            editions,
            checks,
            badges: &self.report.badges,
            findings: &self.report.findings,
        };
        // Plain data with text keys only, which always can be written.
        let mut text = serde_json::to_string_pretty(&envelope).unwrap_or_default();
        text.push('\n');
        text
    }
}
