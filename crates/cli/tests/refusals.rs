//! What is said of input that cannot be taken: what, where, how much is allowed, what would help, and all at once.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking, in its helpers too")]

use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

use project::{samples, to_json};
use serde_json::Value;

/// Exit code, standard output and standard error.
fn run(words: &[&str]) -> (i32, String, String) {
    let Output { status, stdout, stderr } =
        Command::new(env!("CARGO_BIN_EXE_baywright")).args(words).stdin(Stdio::null()).output().unwrap();
    let (out, err) = (String::from_utf8(stdout).unwrap(), String::from_utf8(stderr).unwrap());
    assert!(!err.contains("panicked"), "{words:?}: {err}");
    (status.code().unwrap(), out, err)
}

/// Refused: code 2, each of these on standard error, and nothing on standard output; with `--json` the same problems as
/// JSON there.
#[track_caller]
fn check(words: &[&str], said: &[&str]) {
    let (code, out, err) = run(words);
    assert_eq!((code, out.as_str()), (2, ""), "{words:?}: {err}");
    for said in said {
        assert!(err.contains(said), "{words:?} does not say {said:?}: {err}");
    }
    let (code, out, err_beside) = run(&[words, &["--json"]].concat());
    assert_eq!(code, 2, "{words:?} --json");
    assert!(!err_beside.is_empty());
    let told: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((&told["format"], &told["all_hold"]), (&"baywright-problems".into(), &false.into()));
    let refused = told["refused"].as_array().unwrap();
    for problem in refused.iter().flat_map(|refused| refused["problems"].as_array().unwrap()) {
        assert!(err_beside.contains(problem.as_str().unwrap()), "{problem} is not in {err_beside}");
    }
    for said in said {
        assert!(out.contains(&said.replace('"', "\\\"")), "{words:?} --json does not say {said:?}: {out}");
    }
}

/// A file of this content in the folder of the tests.
fn file(name: &str, content: impl AsRef<[u8]>) -> String {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, content).unwrap();
    path.to_str().unwrap().to_owned()
}

fn sample(name: &str) -> String {
    file(name, to_json(&samples()[0].project))
}

/// The first lines of a weather file.
const HEADER: &str =
    "LOCATION,Quiet Valley,-,XYZ,invented,999999,40.0,-75.0,-5.0,100.0\nDATA PERIODS,1,1,Data,Sunday,1/1,12/31\n";

#[test]
fn a_file_of_the_other_kind_is_told_apart_and_where_it_belongs() {
    let (project, weather) = (sample("kind.json"), file("kind.epw", HEADER));
    check(&["check", &weather], &["kind.epw: found a weather file", "a project file", "behind --climate"]);
    check(&["year", &project, "--climate", &project], &["found JSON", "a weather file, *.epw", "stands alone"]);
    let marked = file("marked.epw", format!("\u{feff}{HEADER}"));
    check(&["day", &marked], &["found a weather file"]);
}

#[test]
fn everything_that_is_wrong_is_said_at_once_whichever_file_it_is_in() {
    let weather = file("bad.epw", HEADER.replace("40.0", "99.0") + "2019,1,1,1,60\n");
    check(
        &["year", "/no/such.json", "--climate", &weather, "--with-catalogue", "/no/such.toml"],
        &[
            "/no/such.json: found no such file",
            "latitude: found 99°",
            "line 3, columns",
            "/no/such.toml: found no such",
        ],
    );
    check(
        &["check", "/no/such.json", "--with-catalogue", "/no/a.toml", "--with-catalogue", "/no/b.toml"],
        &["the catalogue", "/no/a.toml: found", "/no/b.toml: found", "/no/such.json: found"],
    );
    check(
        &["check", "--units", "feet", "--jsn"],
        &["found “feet”; allowed: metric, us", "“--jsn”; allowed: --json, --units", "check needs a FILE"],
    );
}

#[test]
fn what_is_no_file_is_told_in_plain_words() {
    let folder = env!("CARGO_TARGET_TMPDIR");
    check(&["check", folder], &["found a folder; allowed: a project file"]);
    check(&["check", ""], &["“”: found no such file"]);
    check(&["year", &sample("plain.json"), "--climate", folder], &["found a folder; allowed: a weather file, *.epw"]);
    let empty = file("empty", " \n");
    check(&["check", &empty], &["the end of the file", "this one is cut short"]);
    check(&["year", &sample("plain.json"), "--climate", &empty], &["found nothing in it; allowed: a weather file"]);
    let binary = file("binary", [0, 159, 146, 150, 0, 1, 2]);
    check(&["check", &binary], &["no text, after 1 bytes"]);
    check(&["year", &sample("plain.json"), "--climate", &binary], &["bytes that are no text"]);
}

#[test]
fn a_file_too_long_is_refused_with_how_long_it_may_be() {
    let long = file("long.json", "1".repeat(20_000_001));
    check(&["check", &long], &["found more than 20000000 bytes; allowed: a project file, *.json of at most 20000000"]);
    std::fs::remove_file(&long).unwrap();
    // A year of one-minute records is longer than any project, and is read: it is refused for what is in it alone.
    let minutes = file("minutes.epw", HEADER.to_owned() + &"2019,1,1,1,60\n".repeat(2_000_000));
    check(&["day", &sample("minutes.json"), "--climate", &minutes], &["columns: found 5"]);
    std::fs::remove_file(&minutes).unwrap();
}

#[test]
fn a_command_line_that_is_not_understood_ends_with_how_it_is_used() {
    let (code, out, err) = run(&["year", "--clmate", "b.epw"]);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.starts_with("baywright: the command line: not taken"), "{err}");
    assert!(err.contains("“--clmate”") && err.contains("--climate"), "{err}");
    assert!(err.contains("\nbaywright year FILE") && err.trim_end().ends_with("baywright --help tells what they do."));
    assert!(err.lines().count() < 20, "the problem scrolls away: {err}");
    check(&["--verison"], &["“--verison”", "--version"]);
    check(&["samples", "all"], &["“all” too; allowed: nothing more"]);
    check(&["sample"], &["sample needs the NAME of one"]);
}

#[test]
fn output_that_cannot_be_written_is_an_error_and_not_a_panic() {
    let Ok(full) = std::fs::File::options().write(true).open("/dev/full") else { return };
    for words in [&["samples"][..], &["check", &sample("full.json"), "--json"], &["check", "/no/such.json", "--json"]] {
        let Output { status, stderr, .. } = Command::new(env!("CARGO_BIN_EXE_baywright"))
            .args(words)
            .stdin(Stdio::null())
            .stdout(full.try_clone().unwrap())
            .output()
            .unwrap();
        let err = String::from_utf8(stderr).unwrap();
        assert_eq!(status.code(), Some(2), "{words:?}: {err}");
        assert!(err.contains("standard output: not written to its end") && !err.contains("panicked"), "{err}");
    }
}

#[test]
fn no_terminal_gets_no_colour_and_no_progress() {
    for words in [["check", &sample("quiet.json")], ["year", &sample("quiet.json")]] {
        let (_, out, err) = run(&words);
        assert!(!out.contains(['\u{1b}', '\r']) && err.is_empty(), "{words:?}: {err}");
    }
}
