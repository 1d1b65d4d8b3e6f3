//! `DEVELOPERS.md` stays true: it names every crate, and every path on it exists.

use std::fs;

use tests::path;

/// What stands between single backticks.
fn quoted(page: &str) -> Vec<&str> {
    page.lines().filter(|line| !line.contains("```")).flat_map(|line| line.split('`').skip(1).step_by(2)).collect()
}

fn page() -> String {
    fs::read_to_string(path("DEVELOPERS.md")).unwrap_or_else(|error| panic!("DEVELOPERS.md: {error}"))
}

/// A path from the top of the repository, as the page writes it, is there.
fn check(named: &str) {
    assert!(path(named).exists(), "DEVELOPERS.md names {named}, which is not there");
}

#[test]
fn every_crate_is_named() {
    let page = page();
    let mut crates: Vec<String> = fs::read_dir(path("crates"))
        .unwrap()
        .map(|entry| format!("crates/{}", entry.unwrap().file_name().to_string_lossy()))
        .collect();
    crates.extend(["web", "tests", "tests/empty-page"].map(String::from));
    assert!(crates.len() > 3);
    for name in crates {
        assert!(page.contains(&format!("| `{name}` |")), "{name} is not on the code map of DEVELOPERS.md");
    }
}

#[test]
fn every_path_exists() {
    let page = page();
    let tops = ["crates/", "web/", "tests/", "assets/"];
    let paths: Vec<_> = quoted(&page)
        .into_iter()
        .filter(|word| tops.iter().any(|top| word.starts_with(top)) && !word.contains('<'))
        .collect();
    assert!(paths.len() > 20, "{paths:?}");
    for named in paths {
        check(named);
    }
}
