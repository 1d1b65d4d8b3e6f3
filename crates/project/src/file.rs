//! The project file, and the same packed into a link.
//!
//! The file is JSON in an envelope with a name and a version, so that another program's file and a newer one's are told
//! apart from a damaged one. It is read in three steps: is it JSON, has it the shape of a project, does each value lie
//! in its range. The first two stop at their first problem, the third names all.

mod link;
mod older;

pub use link::{from_link, to_link};

use catalogue::{Misfit, Plain, Why, from_plain, one_of};
use serde::Serialize;
use serde_json::Value;

use crate::apply::lowest_next_id;
use crate::ranges::project_faults;
use crate::{Project, Words};

/// What a project file calls itself.
const FORMAT: &str = "baywright-project";
/// The version that is written, and the newest that is read.
const VERSION: u64 = 2;
/// Longest file that is read, bytes: a build with every device it may hold stays far below.
const MOST_BYTES: usize = 5_000_000;
/// So many problems are told; more help nobody.
const MOST_PROBLEMS: usize = 50;

/// What is wrong with a project file: where, what was found, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileProblem {
    /// Place in the file, such as `build.bays[1].width`.
    pub place: String,
    /// What was found there.
    pub found: String,
    /// What is allowed there.
    pub allowed: String,
}

impl FileProblem {
    fn new(place: impl Into<String>, found: impl Into<String>, allowed: impl Into<String>) -> Self {
        Self { place: place.into(), found: found.into(), allowed: allowed.into() }
    }
}

impl std::fmt::Display for FileProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: found {}; allowed: {}", self.place, self.found, self.allowed)
    }
}

#[derive(Serialize)]
struct Envelope<'a> {
    format: &'static str,
    version: u64,
    project: &'a Project,
}

impl<'a> Envelope<'a> {
    const fn of(project: &'a Project) -> Self {
        Self { format: FORMAT, version: VERSION, project }
    }
}

/// The project as the text of its file.
#[must_use]
pub fn to_json(project: &Project) -> String {
    // A project is plain data with text keys only, which always can be written.
    let mut text = serde_json::to_string_pretty(&Envelope::of(project)).unwrap_or_default();
    text.push('\n');
    text
}

/// Reads a project file.
///
/// # Errors
/// Every place that cannot be read or lies outside its range.
pub fn from_json(text: &str) -> Result<Project, Vec<FileProblem>> {
    let mut project = shaped(text).map_err(|problem| vec![problem])?;
    let faults = project_faults(&project);
    if !faults.is_empty() {
        let more = faults.len().saturating_sub(MOST_PROBLEMS);
        let mut problems: Vec<FileProblem> = faults
            .into_iter()
            .take(MOST_PROBLEMS)
            .map(|fault| FileProblem::new(fault.place, or_nothing(&fault.found), fault.allowed.to_string()))
            .collect();
        if more > 0 {
            problems.push(FileProblem::new("the rest of the file", format!("{more} more problems"), "none"));
        }
        return Err(problems);
    }
    // Derived: a number below one that is taken would be given twice.
    project.build.next_id = project.build.next_id.max(lowest_next_id(&project.build));
    Ok(project)
}

/// The project in a text, if the text has the shape of one.
fn shaped(text: &str) -> Result<Project, FileProblem> {
    if text.len() > MOST_BYTES {
        let found = format!("{} bytes", text.len());
        return Err(FileProblem::new("the file", found, format!("at most {MOST_BYTES} bytes")));
    }
    let text = text.trim_start_matches('\u{feff}');
    let value: Value = serde_json::from_str(text).map_err(|error| not_json(&error))?;
    let format = value.get("format").and_then(Value::as_str);
    if format != Some(FORMAT) {
        let found = match format {
            Some(format) => format!("“{}”", short(format)),
            None => "none".to_owned(),
        };
        return Err(FileProblem::new("format", found, format!("“{FORMAT}”")));
    }
    let version = match value.get("version").map(|version| (version.as_u64(), version)) {
        Some((Some(version @ 1..=VERSION), _)) => version,
        Some((Some(newer), _)) if newer > VERSION => {
            let found = format!("version {newer} was written by a newer Baywright; this one reads up to {VERSION}");
            return Err(FileProblem::new("version", found, format!("1 to {VERSION}")));
        }
        Some((_, other)) => {
            return Err(FileProblem::new("version", short(&other.to_string()), format!("1 to {VERSION}")));
        }
        None => return Err(FileProblem::new("version", "none", format!("1 to {VERSION}"))),
    };
    let Value::Object(mut fields) = value else {
        return Err(FileProblem::new("the file", "no object", "a Baywright project file"));
    };
    if let Some(unknown) = fields.keys().find(|key| !matches!(key.as_str(), "format" | "version" | "project")) {
        return Err(FileProblem::new(short(unknown), "a field of unknown name", "format, version, project"));
    }
    let Some(mut project) = fields.remove("project") else {
        return Err(FileProblem::new("project", "none", "a project"));
    };
    if version < 2 {
        older::say_what_version_one_left_open(&mut project);
    }
    from_plain(&Plain::from(project)).map_err(|misfit| misshapen(&misfit))
}

/// Says in plain words why a text is not JSON.
fn not_json(error: &serde_json::Error) -> FileProblem {
    let place = format!("line {}, column {}", error.line(), error.column());
    if error.is_eof() {
        return FileProblem::new(place, "the end of the file", "a whole Baywright project file: this one is cut short");
    }
    let told = error.to_string();
    let found = told.split(" at line ").next().unwrap_or(&told).to_owned();
    FileProblem::new(place, short(&found), "JSON, as a Baywright project file is written")
}

/// Says in plain words why JSON is not a project.
fn misshapen(misfit: &Misfit) -> FileProblem {
    let place = if misfit.place.is_empty() { "project" } else { misfit.place.as_str() };
    let (found, allowed) = match &misfit.why {
        Why::Missing => ("nothing".to_owned(), "a value".to_owned()),
        Why::UnknownField(names) => {
            let name = place.rsplit('.').next().unwrap_or_default();
            (format!("a field of unknown name, `{}`", short(name)), one_of(names))
        }
        Why::UnknownWord(word, words) => (format!("`{}`", short(word)), one_of(words)),
        Why::WrongSort(found, expected) => (short(found), expected_in_words(expected)),
        Why::Other(told) => (short(told), "what this place holds".to_owned()),
    };
    FileProblem::new(place, found, allowed)
}

fn expected_in_words(expected: &str) -> String {
    match expected {
        "f64" => "a number",
        "u32" | "usize" => "a whole number from 0",
        "u8" => "a whole number from 0 to 255",
        expected => expected,
    }
    .to_owned()
}

fn or_nothing(found: &Words) -> String {
    if found.is_empty() { "nothing".to_owned() } else { found.to_string() }
}

/// Not more of a strange text than one can read, and none of its control characters.
fn short(text: &str) -> String {
    let mut short: String = text.chars().filter(|letter| !letter.is_control()).take(80).collect();
    if text.chars().count() > 80 {
        short.push('…');
    }
    short
}

/// The text of the file without its white space, for a link.
fn compact(project: &Project) -> Vec<u8> {
    // From the same text, so that writing is compiled once. White space in JSON stands between values or within texts.
    let mut text = to_json(project).into_bytes();
    let (mut within, mut escaped) = (false, false);
    text.retain(|byte| {
        match byte {
            b'"' if !escaped => within = !within,
            b' ' | b'\n' if !within => return false,
            _ => {}
        }
        escaped = *byte == b'\\' && !escaped;
        true
    });
    text
}

#[cfg(test)]
mod tests;
