//! `assets/checks.md`, the page of checks, is what the registry says. Renewed with `BAYWRIGHT_BLESS=1`.

use std::fmt::Write as _;

use rules::{Check, Source, Standing, Topic, all_checks};
use tests::kept;
use units::{System, unit_name};

const HEAD: &str = "\
# The checks

Every question Baywright asks of a cabinet, with its formula, its sources and its limits. Generated from
`crates/rules/src/registry.rs`: not edited by hand. Results are preliminary and for a qualified person to verify.

A check *holds*, is *tight* (inside its limit by less than its reserve), *fails*, *needs data* that nobody has given,
or is *out of range* where its method does not cover the case; then it gives no figure.
";

/// A text inside a table cell.
fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('\n', " ")
}

fn standing(source: &Source) -> &'static str {
    match source.standing {
        Standing::Read => "read",
        Standing::FromMemory => "from memory, to be confirmed",
        Standing::CommonPractice => "common practice",
        Standing::FirstPrinciples => "first principles",
    }
}

fn page() -> String {
    let mut page = HEAD.to_owned();
    for topic in Topic::ALL {
        let checks: Vec<_> = all_checks().filter(|check| check.topic == topic).collect();
        let _ = write!(page, "\n## {}\n\n| code | question |\n|---|---|\n", topic.name());
        for check in &checks {
            let _ = writeln!(page, "| {} | {} |", check.code, cell(check.question));
        }
        for check in checks {
            section(&mut page, check);
        }
    }
    page
}

fn section(page: &mut String, check: &Check) {
    let _ = writeln!(page, "\n### {} {}\n\n{}\n\n    {}", check.code, check.name, check.question, check.formula);
    if !check.symbols.is_empty() {
        let _ = write!(page, "\n| symbol | meaning | unit |\n|---|---|---|\n");
        for symbol in check.symbols {
            let unit = unit_name(symbol.kind, System::Metric);
            let _ = writeln!(page, "| {} | {} | {unit} |", cell(symbol.symbol), cell(symbol.meaning));
        }
    }
    let _ = write!(page, "\n| source | edition | place | standing |\n|---|---|---|---|\n");
    for source in check.sources {
        let (document, edition, place) = (cell(source.document), cell(source.edition), cell(source.place));
        let _ = writeln!(page, "| {document} | {edition} | {place} | {} |", standing(source));
    }
    let _ = write!(page, "\n- Valid for: {}\n- Leaves out: {}\n", check.valid, check.leaves_out);
    if let Some(caution) = check.caution {
        let _ = writeln!(page, "- Caution: {caution}");
    }
}

/// Every check has this text.
fn check(what: &str, text: fn(&Check) -> &str) {
    for check in all_checks() {
        assert!(!text(check).trim().is_empty(), "{} has no {what}", check.code);
    }
}

#[test]
fn the_page_of_checks_is_up_to_date() {
    assert!(all_checks().next().is_some(), "no checks");
    if let Err(stale) = kept("assets/checks.md", &page()) {
        panic!("{stale}");
    }
}

#[test]
fn every_check_says_what_it_rests_on() {
    check("question", |check| check.question);
    check("formula", |check| check.formula);
    check("valid range", |check| check.valid);
    check("list of what it leaves out", |check| check.leaves_out);
    check("source", |check| check.sources.first().map_or("", |source| source.document));
}

#[test]
fn codes_and_names_are_given_once_and_follow_their_topic() {
    let all: Vec<_> = all_checks().collect();
    for (at, check) in all.iter().enumerate() {
        let letter = check.topic.name().chars().next();
        assert_eq!(check.code.chars().next(), letter, "{}", check.code);
        assert_eq!(check.code.len(), 3, "{}", check.code);
        for other in &all[..at] {
            assert!(check.code != other.code && check.name != other.name, "{} and {}", check.code, other.code);
        }
    }
}

#[test]
fn what_is_lifted_or_carries_a_load_has_a_caution() {
    let words = ["lift", "sling", "leg", "eye", "gravity", "tip", "bearing", "load"];
    let risky: Vec<_> = all_checks().filter(|check| words.iter().any(|word| check.name.contains(word))).collect();
    assert!(risky.len() >= words.len(), "{} checks", risky.len());
    for check in risky {
        assert!(check.caution.is_some_and(|caution| !caution.is_empty()), "{} has no caution", check.code);
    }
}
