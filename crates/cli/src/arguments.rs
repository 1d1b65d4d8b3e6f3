//! What was asked for on the command line.

use std::ffi::OsString;

use pico_args::Arguments;
use units::System;

/// Shown by `--help`, and after a command that was not understood.
pub(crate) const USAGE: &str = "\
baywright check FILE [--json] [--units metric|us] [--with-catalogue PATH]...
    Answers every check on a project file, with its working. FILE may be - for standard input.
    --json             the same report as JSON; its numbers are in the base unit of their kind
    --units            units of the text: metric (usual) or us
    --with-catalogue   judge with this catalogue file, or folder of *.toml files, instead of the
                       shipped one; may stand several times, and all files together are the catalogue

baywright check --catalogue PATH...
    Checks catalogue files, or folders of *.toml files, taken together as one catalogue.

baywright samples
    Lists the sample projects.

baywright sample NAME
    Writes a sample project to standard output, as a project file.

Exit code
    0   every promise is kept: nothing fails and nothing is open (tight is kept)
    1   something fails, needs data or is out of range; the report says what
    2   bad input or a command not understood; all problems are told on standard error";

/// One command.
#[derive(Debug, PartialEq)]
pub(crate) enum Command {
    /// Answer every check on a project.
    Check { file: OsString, json: bool, system: System, catalogue: Vec<String> },
    /// Check a catalogue.
    Catalogue(Vec<OsString>),
    /// List the samples.
    Samples,
    /// Write a sample.
    Sample(String),
    /// Show the usage.
    Help,
    /// Show the version.
    Version,
}

/// Reads the command line.
///
/// # Errors
/// In one phrase, what was not understood.
pub(crate) fn read(mut asked: Arguments) -> Result<Command, String> {
    if asked.contains(["-h", "--help"]) {
        return Ok(Command::Help);
    }
    if asked.contains(["-V", "--version"]) {
        return Ok(Command::Version);
    }
    match asked.subcommand().map_err(|error| error.to_string())?.as_deref() {
        Some("check") => check(asked),
        Some("samples") => nothing_left(asked).map(|()| Command::Samples),
        Some("sample") => {
            let name = asked.free_from_str().map_err(|_| "sample needs the NAME of one".to_owned())?;
            nothing_left(asked).map(|()| Command::Sample(name))
        }
        Some("help") | None => Ok(Command::Help),
        Some(other) => Err(format!("there is no command “{other}”")),
    }
}

fn check(mut asked: Arguments) -> Result<Command, String> {
    let json = asked.contains("--json");
    let units: Option<String> = asked.opt_value_from_str("--units").map_err(|error| error.to_string())?;
    let with: Vec<String> = asked.values_from_str("--with-catalogue").map_err(|error| error.to_string())?;
    let of_catalogue = asked.contains("--catalogue");
    let files = free(asked)?;
    if of_catalogue {
        if json || units.is_some() || !with.is_empty() {
            return Err("with --catalogue only catalogue files are checked: leave the other options away".to_owned());
        }
        return if files.is_empty() {
            Err("--catalogue needs at least one file or folder".to_owned())
        } else {
            Ok(Command::Catalogue(files))
        };
    }
    let system = match units.as_deref() {
        None | Some("metric") => System::Metric,
        Some("us") => System::Us,
        Some(other) => return Err(format!("--units: found “{other}”; allowed: metric, us")),
    };
    let mut files = files.into_iter();
    match (files.next(), files.next()) {
        (Some(file), None) => Ok(Command::Check { file, json, system, catalogue: with }),
        (None, _) => Err("check needs a FILE, or - for standard input".to_owned()),
        (Some(_), Some(more)) => Err(format!("check takes one FILE; “{}” is one too many", more.to_string_lossy())),
    }
}

/// What is left, if no option is among it.
fn free(asked: Arguments) -> Result<Vec<OsString>, String> {
    let left = asked.finish();
    match left.iter().find(|word| word.as_encoded_bytes().starts_with(b"-") && word.len() > 1) {
        Some(option) => Err(format!("there is no option “{}”", option.to_string_lossy())),
        None => Ok(left),
    }
}

fn nothing_left(asked: Arguments) -> Result<(), String> {
    match free(asked)?.first() {
        Some(word) => Err(format!("“{}” is too many", word.to_string_lossy())),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read_words(words: &str) -> Result<Command, String> {
        read(Arguments::from_vec(words.split_whitespace().map(OsString::from).collect()))
    }

    /// A line that is not understood, and what is said about it.
    fn check(words: &str, said: &str) {
        match read_words(words) {
            Err(error) => assert!(error.contains(said), "{words}: {error}"),
            Ok(command) => panic!("{words} was taken as {command:?}"),
        }
    }

    #[test]
    fn options_stand_before_or_behind_the_file() {
        let expected = Command::Check {
            file: "a.json".into(),
            json: true,
            system: System::Us,
            catalogue: vec!["b.toml".to_owned(), "c".to_owned()],
        };
        let behind = "check a.json --json --units us --with-catalogue b.toml --with-catalogue c";
        let before = "check --with-catalogue b.toml --with-catalogue=c --units=us --json a.json";
        assert_eq!(read_words(behind).as_ref(), Ok(&expected));
        assert_eq!(read_words(before), Ok(expected));
    }

    #[test]
    fn a_dash_is_standard_input() {
        let Ok(Command::Check { file, .. }) = read_words("check -") else { panic!("not taken") };
        assert_eq!(file, "-");
    }

    #[test]
    fn many_catalogue_files_are_one_catalogue() {
        let expected = Command::Catalogue(vec!["a.toml".into(), "b.toml".into()]);
        assert_eq!(read_words("check --catalogue a.toml b.toml"), Ok(expected));
    }

    #[test]
    fn says_what_is_not_understood() {
        check("chek a.json", "chek");
        check("check", "FILE");
        check("check a.json b.json", "b.json");
        check("check a.json --jsn", "--jsn");
        check("check a.json --units", "units");
        check("check a.json --units feet", "metric, us");
        check("check --catalogue", "at least one");
        check("check --catalogue a.toml --json", "only catalogue files");
        check("sample", "NAME");
        check("samples all", "all");
    }
}
