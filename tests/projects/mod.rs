//! Whole cabinets: the shipped samples, and some at the edges. All are invented.

use std::fmt::Write as _;

use catalogue::Catalogue;
use project::{Project, from_json, samples};
use rules::course::{Course, PreparedClimate, Problem};
use rules::{Case, report_on};
use sha2::{Digest, Sha256};

/// Projects at the edges: name and file.
const EDGES: [(&str, &str); 6] = [
    ("nothing-in-it", include_str!("nothing-in-it.json")),
    ("nobody-has-weighed-it", include_str!("nobody-has-weighed-it.json")),
    ("forty-eight-units-overfull", include_str!("forty-eight-units-overfull.json")),
    ("made-with-another-catalogue", include_str!("made-with-another-catalogue.json")),
    ("unknown-devices", include_str!("unknown-devices.json")),
    ("beyond-the-methods", include_str!("beyond-the-methods.json")),
];

/// The digests of all reports as they were last agreed to: natively and in wasm they must be these.
pub const DIGESTS: &str = include_str!("digests.txt");

/// Every whole project by its name in the file system: the samples, then the edges.
///
/// # Panics
/// When a file cannot be read as a project; it says which and why.
#[must_use]
pub fn projects() -> Vec<(String, Project)> {
    let samples = samples().into_iter().map(|sample| (file_name(sample.name), sample.project));
    let edges = EDGES.into_iter().map(|(name, text)| match from_json(text) {
        Ok(project) => (name.to_owned(), project),
        Err(problems) => panic!("{name}: {problems:#?}"),
    });
    samples.chain(edges).collect()
}

/// `Hot desert fibre hub` → `hot-desert-fibre-hub`.
fn file_name(name: &str) -> String {
    name.to_lowercase().replace(' ', "-")
}

/// One line for each check of each project: a digest of all it finds, working included.
///
/// Equal lines mean equal bits: a number is written with as many digits as tell it from every other.
#[must_use]
pub fn digests(catalogue: &Catalogue) -> String {
    let mut text = String::new();
    for (name, project) in projects() {
        let case = Case::new(&project, catalogue);
        let course = course(&case);
        let case = case.with_course(course.as_ref().ok());
        let report = report_on(&case).wired(&case).over_time(&case);
        for check in rules::all_checks() {
            let findings: Vec<_> = report.findings.iter().filter(|finding| finding.code == check.code).collect();
            if findings.is_empty() {
                // A check over time, which is not asked without a run over time.
                continue;
            }
            let _ = writeln!(text, "{name} {} {}", check.code, digest(&findings));
        }
        let _ = writeln!(text, "{name} course {}", digest(&course));
    }
    text
}

/// Day and year in the brief's own climate, or why there are none.
fn course(case: &Case) -> Result<Course, Problem> {
    let climate = PreparedClimate::of(&case.project.brief, None)?;
    rules::course::run(case, &climate)
}

/// The first 16 figures of a digest of every field. Unlike JSON, `Debug` also tells not-a-number from infinity.
fn digest(what: &impl std::fmt::Debug) -> String {
    let all = Sha256::digest(format!("{what:?}"));
    all.iter().take(8).fold(String::new(), |text, byte| format!("{text}{byte:02x}"))
}
