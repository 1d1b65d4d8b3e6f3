//! The program as a script sees it: exit codes, output, bad input. Nothing it is given may make it panic.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking, in its helpers too")]

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use project::{Brief, Project, new_project, samples, to_json};
use serde_json::Value;
use units::{Celsius, Kilograms, Kilopascals, Millimetres};

fn program(words: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_baywright"));
    command.args(words).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// Exit code, standard output and standard error.
fn run(words: &[&str], input: &[u8]) -> (i32, String, String) {
    let mut child = program(words).spawn().unwrap();
    let mut to = child.stdin.take().unwrap();
    // A command that does not read its input closes it early.
    let _ = to.write_all(input);
    drop(to);
    let Output { status, stdout, stderr } = child.wait_with_output().unwrap();
    let (out, err) = (String::from_utf8(stdout).unwrap(), String::from_utf8(stderr).unwrap());
    assert!(!err.contains("panicked"), "{words:?}: {err}");
    (status.code().unwrap(), out, err)
}

/// Bad input: code 2, nothing on standard output, and each of these on standard error.
fn check(words: &[&str], input: impl AsRef<[u8]>, said: &[&str]) {
    let (code, out, err) = run(words, input.as_ref());
    assert_eq!((code, out.as_str()), (2, ""), "{words:?}: {err}");
    for said in said {
        assert!(err.contains(said), "{words:?} does not say {said:?}: {err}");
    }
}

fn new() -> Project {
    new_project(&catalogue::sample())
}

/// An empty cabinet of which little is asked, and all of it is said.
fn modest() -> Project {
    let mut project = new();
    project.name = "Modest".to_owned();
    project.brief = Brief {
        hottest: Celsius(30.0),
        coldest: Celsius(10.0),
        keep_above: Celsius(0.0),
        mass_limit: Some(Kilograms(2000.0)),
        bearing_limit: Some(Kilopascals(500.0)),
        transport_mass: Some(Kilograms(2000.0)),
        transport_height: Some(Millimetres(3000.0)),
        hook_height: Millimetres(3000.0),
        ..Brief::default()
    };
    project
}

/// A new project as its file, with one text replaced by another.
fn changed(from: &str, to: &str) -> String {
    let text = to_json(&new());
    assert!(text.contains(from), "{from} is not in {text}");
    text.replacen(from, to, 1)
}

fn assets() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets")
}

#[test]
fn samples_are_listed_and_each_can_be_written_and_checked() {
    let (code, list, _) = run(&["samples"], b"");
    assert_eq!(code, 0);
    let words: Vec<&str> = list.lines().filter(|line| !line.starts_with(' ')).collect();
    assert_eq!(words.len(), samples().len(), "{list}");
    assert!(!words.is_empty(), "no samples");
    for (word, sample) in words.into_iter().zip(samples()) {
        let (code, file, _) = run(&["sample", word], b"");
        assert_eq!(code, 0);
        assert_eq!(project::from_json(&file).as_ref(), Ok(&sample.project), "{word}");
        let (code, report, err) = run(&["check", "-"], file.as_bytes());
        assert!(code == 0 || code == 1, "{word}: {err}");
        assert!(report.starts_with(&sample.project.name), "{report}");
    }
    check(&["sample", "no-such"], "", &["no-such", "allowed: "]);
}

#[test]
fn the_exit_code_follows_the_report() {
    let mut codes = Vec::new();
    let mut projects: Vec<Project> = samples().into_iter().map(|sample| sample.project).collect();
    projects.push(new());
    projects.push(modest());
    let mut crowded = projects[0].clone();
    // The same device twice in one place.
    let double = crowded.build.devices[0].clone();
    crowded.build.devices.push(project::FittedDevice { id: project::ItemId(crowded.build.next_id), ..double });
    projects.push(crowded);
    for project in &projects {
        let (code, out, _) = run(&["check", "--json", "-"], to_json(project).as_bytes());
        let report: Value = serde_json::from_str(&out).unwrap();
        let kept = report["findings"].as_array().unwrap().iter().all(|finding| {
            let outcome = finding["outcome"].as_str().unwrap();
            ["holds", "tight"].contains(&outcome)
        });
        assert_eq!(code, i32::from(!kept), "{}", project.name);
        assert_eq!(report["all_hold"], kept);
        codes.push(code);
    }
    assert_eq!(codes.last(), Some(&1), "two devices in one place hold");
    assert!(codes.contains(&0), "not even a modest project keeps every promise");
}

#[test]
fn json_has_all_that_the_text_has() {
    let project = &samples()[0].project;
    let (_, out, _) = run(&["check", "-", "--json"], to_json(project).as_bytes());
    let (_, text, _) = run(&["check", "-"], to_json(project).as_bytes());
    let report: Value = serde_json::from_str(&out).unwrap();
    assert_eq!(report["format"], "baywright-report");
    assert_eq!(report["project"], project.name.as_str());
    assert_eq!(report["catalogue"]["name"], catalogue::sample().about.name.as_str());
    assert!(!report["editions"].as_object().unwrap().is_empty());
    let checks = report["checks"].as_array().unwrap();
    // Without a run over time the checks over time are not asked.
    assert_eq!(checks.len(), rules::AT_ONCE.len() + rules::WIRED.len());
    let mut steps = 0;
    for finding in report["findings"].as_array().unwrap() {
        let code = finding["code"].as_str().unwrap();
        assert!(checks.iter().any(|check| check["code"] == code), "{code}");
        assert!(text.lines().any(|line| line.starts_with(code)), "{code} is not in {text}");
        steps += finding["working"].as_array().unwrap().len();
    }
    assert!(steps > 0, "no working");
}

#[test]
fn units_are_those_asked_for() {
    let file = to_json(&samples()[0].project);
    let (_, metric, _) = run(&["check", "-"], file.as_bytes());
    let (_, us, _) = run(&["check", "-", "--units", "us"], file.as_bytes());
    assert!(metric.contains("\u{a0}kg") && !metric.contains("\u{a0}lb"), "{metric}");
    assert!(us.contains("\u{a0}lb") && !us.contains("\u{a0}kg"), "{us}");
}

#[test]
fn text_stays_within_its_columns() {
    for sample in samples() {
        let (_, text, _) = run(&["check", "-"], to_json(&sample.project).as_bytes());
        for line in text.lines() {
            assert!(line.chars().count() <= 100, "{line}");
            assert_eq!(line, line.trim_end());
        }
    }
}

#[test]
fn a_reader_that_leaves_early_is_no_failure() {
    for words in [&["check", "-", "--json"][..], &["check", "-"], &["samples"], &["--help"]] {
        let mut child = program(words).spawn().unwrap();
        drop(child.stdout.take());
        let mut to = child.stdin.take().unwrap();
        let _ = to.write_all(to_json(&samples()[0].project).as_bytes());
        drop(to);
        let Output { status, stderr, .. } = child.wait_with_output().unwrap();
        assert_eq!(String::from_utf8_lossy(&stderr), "", "{words:?}");
        assert!(matches!(status.code(), Some(0 | 1)), "{words:?}: {status}");
    }
}

#[test]
fn help_names_every_command_and_code() {
    let (code, help, _) = run(&["--help"], b"");
    assert_eq!(code, 0);
    for word in [
        "check FILE",
        "day FILE",
        "year FILE",
        "--climate",
        "--json",
        "--units",
        "--with-catalogue",
        "--catalogue",
        "samples",
        "sample NAME",
        "  2  ",
    ] {
        assert!(help.contains(word), "{word}");
    }
    assert_eq!(run(&["check", "--help"], b"").1, help);
    check(&["chek"], "", &["chek", "baywright check FILE"]);
}

#[test]
fn a_damaged_project_file_is_refused_with_the_place() {
    let whole = to_json(&new());
    check(&["check", "-"], "", &["line 1", "cut short"]);
    check(&["check", "-"], &whole[..whole.len() / 2], &["cut short"]);
    check(&["check", "-"], "[1, 2]", &["format", "baywright-project"]);
    check(&["check", "-"], "[".repeat(100_000), &["line 1"]);
    check(&["check", "-"], b"{\"format\": \"\xff\"}", &["UTF-8", "after 12 bytes"]);
    check(&["check", "-"], vec![b' '; 21_000_000], &["at most"]);
    check(&["check", "-"], "{\"format\": \"other\"}", &["“other”", "baywright-project"]);
    check(&["check", "/no/such/file.json"], "", &["/no/such/file.json"]);
    check(&["check", env!("CARGO_MANIFEST_DIR")], "", &["a project file"]);
}

#[test]
fn a_newer_project_file_is_told_apart_from_a_damaged_one() {
    check(&["check", "-"], changed("\"version\": 2", "\"version\": 3"), &["newer", "version", "1 to 2"]);
    check(&["check", "-"], changed("\"version\": 2", "\"version\": -1"), &["version", "1 to 2"]);
    check(&["check", "-"], changed("\"units\": 24", "\"unit_count\": 24"), &["build", "unit_count"]);
}

#[test]
fn absurd_numbers_are_refused_all_at_once() {
    check(&["check", "-"], changed("914", "NaN"), &["line "]);
    check(&["check", "-"], changed("914.0", "1e999"), &["build.depth", "out of range"]);
    let absurd = changed("914.0", "-914.0").replace("\"units\": 24", "\"units\": 0").replace("46.0", "9000.0");
    check(&["check", "-"], absurd, &["3 problems", "build.depth", "build.units", "brief.hottest", "allowed: between"]);
}

#[test]
fn ten_thousand_devices_are_refused_with_the_most_allowed() {
    let mut project = new();
    let device = project::FittedDevice {
        id: project::ItemId(1),
        what: project::DeviceWhat::Part("no-such-part".into()),
        at: project::Place::Unplaced,
    };
    project.build.devices =
        (1..=10_000).map(|id| project::FittedDevice { id: project::ItemId(id), ..device.clone() }).collect();
    check(&["check", "-"], to_json(&project), &["build.devices", &project::MOST_DEVICES.to_string()]);
}

#[test]
fn a_hostile_name_neither_steers_the_terminal_nor_breaks_the_json() {
    let name = "<b onclick=\"x\">&amp; ${x} '; DROP";
    let mut project = new();
    project.name = name.to_owned();
    let (_, text, _) = run(&["check", "-"], to_json(&project).as_bytes());
    assert!(text.starts_with(name), "{text}");
    let (_, json, _) = run(&["check", "-", "--json"], to_json(&project).as_bytes());
    assert_eq!(serde_json::from_str::<Value>(&json).unwrap()["project"], name);
    let (_, out, err) = run(&["check", "-"], changed("New cabinet", "\\u001b[2Jred\\u0007").as_bytes());
    assert!(!(out + &err).contains(['\u{1b}', '\u{7}']));
}

#[test]
fn parts_of_another_catalogue_are_named_and_left_open() {
    let file = changed("\"paint\": \"", "\"paint\": \"no-such-");
    let (code, text, _) = run(&["check", "-"], file.as_bytes());
    assert_eq!(code, 1);
    assert!(text.contains("no-such-"), "{text}");
}

#[test]
fn the_shipped_catalogue_is_sound_as_files_and_as_a_folder() {
    let folder = assets().join("catalogue");
    let (code, out, err) = run(&["check", "--catalogue", folder.to_str().unwrap()], b"");
    assert_eq!(code, 0, "{err}");
    let devices = catalogue::sample().devices.len();
    assert!(out.contains(&format!("{devices} devices")), "{out}");
    // The same report whether the catalogue is built in or read.
    let file = to_json(&samples()[0].project);
    let built_in = run(&["check", "-"], file.as_bytes());
    assert_eq!(run(&["check", "-", "--with-catalogue", folder.to_str().unwrap()], file.as_bytes()), built_in);
}

#[test]
fn a_bad_catalogue_is_refused_with_every_place() {
    let folder = std::env::temp_dir().join(format!("baywright-catalogue-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("bad.toml");
    let name = path.to_str().unwrap();
    let write = |text: &str| std::fs::write(&path, text).unwrap();
    write("[skin.thin]\nname = \"Thin\"\nthickness = -3\n[colour.red]\n");
    check(&["check", "--catalogue", name], "", &["bad.toml, skin.thin", "colour", "thickness"]);
    check(&["check", "-", "--with-catalogue", name], to_json(&new()), &["bad.toml, skin.thin"]);
    write("[skin.a\n = = \u{1b}[31m");
    check(&["check", "--catalogue", name], "", &["bad.toml, line 1"]);
    std::fs::write(&path, [0xff, 0xfe, 0x00]).unwrap();
    check(&["check", "--catalogue", name], "", &["UTF-8"]);
    std::fs::remove_file(&path).unwrap();
    check(&["check", "--catalogue", folder.to_str().unwrap()], "", &["0 *.toml files"]);
    check(&["check", "--catalogue", name], "", &["bad.toml"]);
    std::fs::remove_dir_all(&folder).unwrap();
}
