//! Whole cabinets with their reports, as `baywright check` prints them: `projects/*.report.txt`.
//!
//! A change of any result shows here as a difference of text. When it is meant, run with `BAYWRIGHT_BLESS=1`.

use baywright::Answered;
use project::{from_json, from_link, to_json, to_link};
use rules::{Outcome, Topic};
use tests::kept;
use tests::projects::projects;
use units::System;

/// Columns of the kept reports.
const COLUMNS: usize = 110;

/// The report is the one that is kept.
fn check(name: &str, text: &str) -> Result<(), String> {
    kept(&format!("tests/projects/{name}.report.txt"), text)
}

#[test]
fn reports_are_those_that_were_agreed_to() {
    let catalogue = catalogue::sample();
    let changed: Vec<String> = projects()
        .iter()
        .filter_map(|(name, project)| {
            check(name, &Answered::new(project, &catalogue).printed(System::Metric, COLUMNS)).err()
        })
        .collect();
    assert!(changed.is_empty(), "{}", changed.join("\n"));
}

#[test]
fn every_project_survives_its_file_and_its_link() {
    let all = projects();
    assert!(all.len() > project::samples().len());
    for (name, project) in all {
        assert_eq!(from_json(&to_json(&project)).as_ref(), Ok(&project), "{name}");
        assert_eq!(from_link(&to_link(&project)).as_ref(), Ok(&project), "{name}");
    }
}

#[test]
fn every_check_answers_every_project() {
    let catalogue = catalogue::sample();
    assert!(!rules::AT_ONCE.is_empty());
    for (name, project) in projects() {
        let report = rules::report(&project, &catalogue);
        // Those over time are asked only when a run over time is there.
        for check in rules::AT_ONCE.iter().chain(rules::WIRED) {
            assert!(
                report.findings.iter().any(|finding| finding.code == check.code),
                "{name}: {} is silent",
                check.code
            );
        }
        let topics: Vec<_> = report.badges.iter().map(|badge| badge.topic).collect();
        assert_eq!(topics, [Topic::Fit, Topic::Weight, Topic::Heat, Topic::Power, Topic::Backup], "{name}");
    }
}

#[test]
fn no_figure_is_without_a_number() {
    let catalogue = catalogue::sample();
    for (name, project) in projects() {
        for finding in rules::report(&project, &catalogue).findings {
            let figures = [finding.given, finding.allowed, finding.margin].into_iter().flatten();
            for value in figures.chain(finding.working.iter().map(|step| step.value)) {
                assert!(value.number.is_finite(), "{name}: {} gives {value:?}", finding.code);
            }
        }
    }
}

#[test]
fn what_is_left_open_says_why_and_outside_its_range_gives_no_figure() {
    let catalogue = catalogue::sample();
    let mut seen = 0;
    for (name, project) in projects() {
        for finding in rules::report(&project, &catalogue).findings {
            if matches!(finding.outcome, Outcome::NeedsData | Outcome::OutOfRange) {
                seen += 1;
                assert!(!finding.because.is_empty(), "{name}: {} does not say what it needs", finding.code);
            }
            if finding.outcome == Outcome::OutOfRange {
                assert_eq!((finding.given, finding.margin), (None, None), "{name}: {}", finding.code);
            }
        }
    }
    assert!(seen > 0, "no project leaves anything open");
}

#[test]
fn the_edges_end_as_they_are_made_to() {
    use Outcome::{Fails, NeedsData, OutOfRange};
    use rules::Topic::{Fit, Heat, Weight};
    let catalogue = catalogue::sample();
    let all = projects();
    for (wanted, topic, outcome) in [
        ("forty-eight-units-overfull", Fit, Fails),
        ("forty-eight-units-overfull", Heat, Fails),
        ("nobody-has-weighed-it", Weight, NeedsData),
        ("made-with-another-catalogue", Fit, NeedsData),
        ("made-with-another-catalogue", Weight, NeedsData),
        ("made-with-another-catalogue", Heat, NeedsData),
        ("beyond-the-methods", Fit, Fails),
        ("beyond-the-methods", Weight, Fails),
        ("beyond-the-methods", Heat, OutOfRange),
    ] {
        let Some((_, project)) = all.iter().find(|(name, _)| name == wanted) else { panic!("{wanted} is not there") };
        let badges = rules::report(project, &catalogue).badges;
        let found = badges.iter().find(|badge| badge.topic == topic).map(|badge| badge.outcome);
        assert_eq!(found, Some(outcome), "{wanted}: {}", topic.name());
    }
}
