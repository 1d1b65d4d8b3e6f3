//! `baywright schedule` as a script and a reader see it.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking, in its helpers too")]

use std::io::Write;
use std::process::{Command, Output, Stdio};

use project::{ChosenFeed, Fed, Project, new_project, samples, to_json};
use serde_json::Value;

/// Exit code, standard output and standard error.
fn run(words: &[&str], project: &Project) -> (i32, String, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_baywright"));
    command.arg("schedule").args(words).arg("-").stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    child.stdin.take().unwrap().write_all(to_json(project).as_bytes()).unwrap();
    let Output { status, stdout, stderr } = child.wait_with_output().unwrap();
    (status.code().unwrap(), String::from_utf8(stdout).unwrap(), String::from_utf8(stderr).unwrap())
}

fn json(project: &Project) -> (i32, Value) {
    let (code, out, err) = run(&["--json"], project);
    assert!(err.is_empty(), "{err}");
    (code, serde_json::from_str(&out).unwrap())
}

/// Under each head of a table every row has something that begins at the same column.
#[track_caller]
fn check(text: &str, heads: &[&str]) {
    let lines: Vec<&str> = text.lines().collect();
    let at = lines.iter().position(|line| heads.iter().all(|head| line.contains(head)));
    let at = at.unwrap_or_else(|| panic!("no table of {heads:?} in {text}"));
    let row: Vec<char> = lines[at + 1].chars().collect();
    for head in heads {
        let byte = lines[at].find(head).unwrap();
        let column = lines[at][..byte].chars().count();
        assert_eq!(row[column - 1], ' ', "{head}: {}", lines[at + 1]);
        assert_ne!(row[column], ' ', "{head}: {}", lines[at + 1]);
    }
}

#[test]
fn every_sample_has_a_complete_schedule_in_columns() {
    for sample in samples() {
        let (code, text, err) = run(&[], &sample.project);
        assert_eq!((code, err.as_str()), (0, ""), "{}: {text}", sample.name);
        assert!(text.starts_with(&sample.project.name) && text.contains("authority"), "{text}");
        check(&text, &["no.", "load", "poles", "breaker", "wire", "length", "VA", "lost"]);
        check(&text, &["circuit", "to", "poles", "breaker", "wire", "length", "load", "lost", "for"]);
        check(&text, &["from", "to", "size", "colour", "length", "label", "ends"]);
        check(&text, &["terminals", "tells", "from"]);
        check(&text, &["bar", "place", "bonds"]);
    }
}

#[test]
fn us_units_are_feet() {
    let (_, text, _) = run(&["--units", "us"], &samples()[0].project);
    assert!(text.contains("\u{a0}ft") && !text.contains("\u{a0}m "), "{text}");
}

#[test]
fn json_has_what_the_text_has_and_adds_up() {
    for sample in samples() {
        let (code, told) = json(&sample.project);
        assert_eq!((code, &told["complete"], &told["format"]), (0, &Value::Bool(true), &"baywright-schedule".into()));
        let circuits = told["circuits"].as_array().unwrap();
        let load = |mark: &Value| {
            let circuit = circuits.iter().find(|circuit| &circuit["mark"] == mark).unwrap();
            circuit["load"]["continuous"].as_f64().unwrap() + circuit["load"]["other"].as_f64().unwrap()
        };
        for panel in told["panels"].as_array().unwrap() {
            let sum: f64 = panel["circuits"].as_array().unwrap().iter().map(load).sum();
            assert!((sum - panel["load"].as_f64().unwrap()).abs() < 1e-6, "{panel}");
        }
        let wires = told["wires"].as_array().unwrap();
        assert!(!wires.is_empty());
        for wire in wires {
            assert!(wire["size"].is_string() && wire["length"].as_f64().unwrap() > 0.0, "{wire}");
            assert!(circuits.iter().any(|circuit| circuit["mark"] == wire["circuit"]), "{wire}");
        }
        assert!(!told["alarms"].as_array().unwrap().is_empty() && !told["grounds"].as_array().unwrap().is_empty());
    }
}

#[test]
fn what_is_not_complete_is_told_by_the_exit_code() {
    let empty = new_project(&catalogue::sample());
    let (code, told) = json(&empty);
    assert_eq!((code, told["panels"].as_array().unwrap().len()), (0, 0));
    let mut project = samples()[0].project.clone();
    let load = project.build.climate.first().map(|unit| Fed::Unit(unit.id)).unwrap();
    project.build.feeds = vec![ChosenFeed { load, from: None, position: Some(99) }];
    let (code, told) = json(&project);
    assert_eq!((code, &told["complete"]), (1, &Value::Bool(false)));
}
