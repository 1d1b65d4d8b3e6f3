//! Reading what was named: project files, catalogue files and folders of them.

use std::ffi::OsStr;
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use catalogue::Catalogue;
use climate::WeatherYear;
use project::Project;

/// No more is read of one file, bytes: longer than any project, catalogue or weather, and short enough for an endless input.
const MOST_BYTES: u64 = 20_000_000;
/// At most so many files in one folder of a catalogue.
const MOST_FILES: usize = 200;

/// What was wrong with the input: one line for each problem.
pub(crate) struct BadInput {
    /// What could not be taken.
    pub(crate) what: String,
    /// Each with its place, what was found, and what is allowed.
    pub(crate) problems: Vec<String>,
}

impl BadInput {
    fn one(what: String, found: &str, allowed: &str) -> Self {
        Self { problems: vec![format!("{what}: found {found}; allowed: {allowed}")], what }
    }
}

/// Reads a project file; `-` is standard input.
pub(crate) fn project(file: &OsStr) -> Result<Project, BadInput> {
    let (what, text) = if file == "-" {
        let what = "standard input".to_owned();
        let text = text(io::stdin(), &what, "a project file")?;
        (what, text)
    } else {
        (shown(Path::new(file)), file_text(Path::new(file), "a project file")?)
    };
    project::from_json(&text)
        .map_err(|problems| BadInput { what, problems: problems.iter().map(ToString::to_string).collect() })
}

/// Reads a weather file.
pub(crate) fn weather(file: &OsStr) -> Result<WeatherYear, BadInput> {
    let path = Path::new(file);
    let what = shown(path);
    let allowed = "a weather file, *.epw";
    let opened = File::open(path).map_err(|error| BadInput::one(what.clone(), &error.to_string(), allowed))?;
    let bytes = bytes(opened, &what, allowed)?;
    climate::read_epw(&bytes)
        .map_err(|problems| BadInput { what, problems: problems.iter().map(ToString::to_string).collect() })
}

/// Loads the catalogue in these files and folders.
pub(crate) fn catalogue(paths: &[impl AsRef<Path>]) -> Result<Catalogue, BadInput> {
    let mut files = Vec::new();
    for path in paths {
        let path = path.as_ref();
        if path.is_dir() {
            for file in toml_files(path)? {
                files.push((shown(&file), file_text(&file, "a catalogue file")?));
            }
        } else {
            files.push((shown(path), file_text(path, "a catalogue file")?));
        }
    }
    let files: Vec<_> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    catalogue::load(&files).map_err(|problems| BadInput {
        what: "the catalogue".to_owned(),
        problems: problems.iter().map(ToString::to_string).collect(),
    })
}

/// The catalogue files of a folder, by name.
fn toml_files(folder: &Path) -> Result<Vec<PathBuf>, BadInput> {
    let allowed = "a folder with *.toml files";
    let entries = folder.read_dir().map_err(|error| BadInput::one(shown(folder), &error.to_string(), allowed))?;
    let mut files: Vec<_> =
        entries.flatten().map(|entry| entry.path()).filter(|path| path.extension() == Some("toml".as_ref())).collect();
    files.sort();
    if files.is_empty() || files.len() > MOST_FILES {
        let found = format!("{} *.toml files", files.len());
        return Err(BadInput::one(shown(folder), &found, &format!("1 to {MOST_FILES}")));
    }
    Ok(files)
}

fn file_text(path: &Path, allowed: &str) -> Result<String, BadInput> {
    let what = shown(path);
    let file = File::open(path).map_err(|error| BadInput::one(what.clone(), &error.to_string(), allowed))?;
    text(file, &what, allowed)
}

fn text(from: impl Read, what: &str, allowed: &str) -> Result<String, BadInput> {
    String::from_utf8(bytes(from, what, allowed)?).map_err(|error| {
        let found = format!("a byte that is no text, after {} bytes", error.utf8_error().valid_up_to());
        BadInput::one(what.to_owned(), &found, "text in UTF-8")
    })
}

fn bytes(from: impl Read, what: &str, allowed: &str) -> Result<Vec<u8>, BadInput> {
    let mut bytes = Vec::new();
    let bad = |found: &str, allowed: &str| BadInput::one(what.to_owned(), found, allowed);
    from.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(|error| bad(&error.to_string(), allowed))?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(bad("more bytes than that", &format!("at most {MOST_BYTES} bytes")));
    }
    Ok(bytes)
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}
