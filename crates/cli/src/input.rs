//! Reading what was named: project files, catalogue files and folders of them, weather files.

use std::ffi::OsStr;
use std::fs::File;
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

use baywright::Refused;
use catalogue::Catalogue;
use climate::WeatherYear;
use project::Project;

/// No more is read of a project or catalogue file, bytes: longer than any, and short enough for an endless input.
const MOST_BYTES: u64 = 20_000_000;
/// No more is read of a weather file, bytes: what its reader takes.
const MOST_WEATHER_BYTES: u64 = climate::MOST_EPW_BYTES as u64;
/// At most so many files in one folder of a catalogue.
const MOST_FILES: usize = 200;

/// What is expected of a file.
#[derive(Clone, Copy)]
struct Wanted {
    /// What it is.
    what: &'static str,
    most_bytes: u64,
}

const PROJECT: Wanted = Wanted { what: "a project file, *.json", most_bytes: MOST_BYTES };
const CATALOGUE: Wanted = Wanted { what: "a catalogue file, *.toml", most_bytes: MOST_BYTES };
const WEATHER: Wanted = Wanted { what: "a weather file, *.epw", most_bytes: MOST_WEATHER_BYTES };

fn one(what: &str, found: &str, allowed: &str) -> Refused {
    Refused { what: what.to_owned(), problems: vec![format!("{what}: found {found}; allowed: {allowed}")] }
}

/// Reads a project file; `-` is standard input.
pub(crate) fn project(file: &OsStr) -> Result<Project, Refused> {
    let (what, text) = if file == "-" {
        let what = "standard input".to_owned();
        let text = text(io::stdin(), &what, PROJECT)?;
        (what, text)
    } else {
        (shown(Path::new(file)), file_text(Path::new(file), PROJECT)?)
    };
    if begins_with(text.as_bytes(), "LOCATION") {
        let allowed = format!("{}; a weather file stands behind --climate, with day and year", PROJECT.what);
        return Err(one(&what, "a weather file", &allowed));
    }
    project::from_json(&text)
        .map_err(|problems| Refused { what, problems: problems.iter().map(ToString::to_string).collect() })
}

/// Reads a weather file.
pub(crate) fn weather(file: &OsStr) -> Result<WeatherYear, Refused> {
    let path = Path::new(file);
    let what = shown(path);
    let bytes = bytes(opened(path, WEATHER)?, &what, WEATHER)?;
    if bytes.trim_ascii().is_empty() {
        return Err(one(&what, "nothing in it", WEATHER.what));
    }
    if begins_with(&bytes, "{") {
        let allowed = format!("{}; a project file stands alone, without --climate", WEATHER.what);
        return Err(one(&what, "JSON, as a project file is", &allowed));
    }
    climate::read_epw(&bytes)
        .map_err(|problems| Refused { what, problems: problems.iter().map(ToString::to_string).collect() })
}

/// Whether a text begins so, behind a byte order mark and white space.
fn begins_with(bytes: &[u8], word: &str) -> bool {
    bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes).trim_ascii_start().starts_with(word.as_bytes())
}

/// Loads the catalogue in these files and folders.
pub(crate) fn catalogue(paths: &[impl AsRef<Path>]) -> Result<Catalogue, Refused> {
    let mut files = Vec::new();
    let mut problems = Vec::new();
    for path in paths {
        let path = path.as_ref();
        let found = if path.is_dir() { toml_files(path) } else { Ok(vec![path.to_owned()]) };
        for file in found.unwrap_or_else(|refused| {
            problems.extend(refused.problems);
            Vec::new()
        }) {
            match file_text(&file, CATALOGUE) {
                Ok(text) => files.push((shown(&file), text)),
                Err(refused) => problems.extend(refused.problems),
            }
        }
    }
    let what = "the catalogue".to_owned();
    if !problems.is_empty() {
        return Err(Refused { what, problems });
    }
    let files: Vec<_> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    catalogue::load(&files)
        .map_err(|problems| Refused { what, problems: problems.iter().map(ToString::to_string).collect() })
}

/// The catalogue files of a folder, by name.
fn toml_files(folder: &Path) -> Result<Vec<PathBuf>, Refused> {
    let entries = folder
        .read_dir()
        .map_err(|error| one(&shown(folder), &in_words(&error), "a folder with *.toml files that may be read"))?;
    let mut files: Vec<_> =
        entries.flatten().map(|entry| entry.path()).filter(|path| path.extension() == Some("toml".as_ref())).collect();
    files.sort();
    if files.is_empty() || files.len() > MOST_FILES {
        let found = format!("{} *.toml files", files.len());
        return Err(one(&shown(folder), &found, &format!("1 to {MOST_FILES}")));
    }
    Ok(files)
}

fn file_text(path: &Path, wanted: Wanted) -> Result<String, Refused> {
    text(opened(path, wanted)?, &shown(path), wanted)
}

fn opened(path: &Path, wanted: Wanted) -> Result<File, Refused> {
    File::open(path).map_err(|error| one(&shown(path), &in_words(&error), wanted.what))
}

fn text(from: impl Read, what: &str, wanted: Wanted) -> Result<String, Refused> {
    String::from_utf8(bytes(from, what, wanted)?).map_err(|error| {
        let found = format!("a byte that is no text, after {} bytes", error.utf8_error().valid_up_to());
        one(what, &found, &format!("{}, which is text in UTF-8", wanted.what))
    })
}

fn bytes(from: impl Read, what: &str, wanted: Wanted) -> Result<Vec<u8>, Refused> {
    let mut bytes = Vec::new();
    let most = wanted.most_bytes;
    from.take(most + 1).read_to_end(&mut bytes).map_err(|error| one(what, &in_words(&error), wanted.what))?;
    if bytes.len() as u64 > most {
        let (found, allowed) = (format!("more than {most} bytes"), format!("{} of at most {most} bytes", wanted.what));
        return Err(one(what, &found, &allowed));
    }
    Ok(bytes)
}

/// What an error of the file system found.
fn in_words(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "no such file".to_owned(),
        ErrorKind::IsADirectory => "a folder".to_owned(),
        ErrorKind::NotADirectory => "a file where a folder should be".to_owned(),
        ErrorKind::PermissionDenied => "a file that you may not read".to_owned(),
        _ => error.to_string(),
    }
}

fn shown(path: &Path) -> String {
    if path.as_os_str().is_empty() { "“”".to_owned() } else { path.display().to_string() }
}
