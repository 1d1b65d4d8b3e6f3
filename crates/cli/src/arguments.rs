//! What was asked for on the command line.

use std::ffi::OsString;

use baywright::Stretch;
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

baywright day FILE [--climate X.epw] [--json] [--units metric|us] [--with-catalogue PATH]...
baywright year FILE [--climate X.epw] [--json] [--units metric|us] [--with-catalogue PATH]...
    Runs a project through its hottest and coldest day, or through a year of 8760 hours, and
    answers the checks over time. Progress is told on standard error when that is a terminal.
    --climate          with the weather of this EPW file; without it the brief's own climate
    --json             the same as one JSON object: the checks' findings; rooms and units; with day
                       hot_day, cold_day and the four runs from a moment on (door_open,
                       cooling_lost, grid_lost, cold_start); with year the year, room_years,
                       unit_years, peaks, batteries and energy (electricity [kWh] and its cost by
                       month and in the year). A stretch of time has its step in h and lists of numbers, one
                       a step: outside, and for each room air and highest [°C]; sun, and for each of
                       front, rear, left, right, roof faces [W/m²]; sun_height, sun_bearing [°]; for
                       each unit duty [0 to 1]. The year begins on 1 January, 0 h, local standard
                       time

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
    Check(On),
    /// Run a project through days or the year.
    OverTime { stretch: Stretch, climate: Option<OsString>, on: On },
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

/// A project to be judged, and how it is told.
#[derive(Debug, PartialEq)]
pub(crate) struct On {
    /// The project file.
    pub(crate) file: OsString,
    /// As JSON, or as text.
    pub(crate) json: bool,
    /// Units of the text.
    pub(crate) system: System,
    /// Files and folders of the catalogue; none for the shipped one.
    pub(crate) catalogue: Vec<String>,
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
        Some("day") => over_time(asked, Stretch::Day),
        Some("year") => over_time(asked, Stretch::Year),
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
    if !asked.contains("--catalogue") {
        return on(asked, "check").map(Command::Check);
    }
    let json = asked.contains("--json");
    let units: Option<String> = asked.opt_value_from_str("--units").map_err(|error| error.to_string())?;
    let with: Vec<String> = asked.values_from_str("--with-catalogue").map_err(|error| error.to_string())?;
    let files = free(asked)?;
    if json || units.is_some() || !with.is_empty() {
        return Err("with --catalogue only catalogue files are checked: leave the other options away".to_owned());
    }
    if files.is_empty() {
        Err("--catalogue needs at least one file or folder".to_owned())
    } else {
        Ok(Command::Catalogue(files))
    }
}

fn over_time(mut asked: Arguments, stretch: Stretch) -> Result<Command, String> {
    let own = |text: &std::ffi::OsStr| Ok::<_, std::convert::Infallible>(text.to_owned());
    let climate = asked.opt_value_from_os_str("--climate", own).map_err(|error| error.to_string())?;
    let command = match stretch {
        Stretch::Day => "day",
        Stretch::Year => "year",
    };
    on(asked, command).map(|on| Command::OverTime { stretch, climate, on })
}

/// The project of a command, and how it is told.
fn on(mut asked: Arguments, command: &str) -> Result<On, String> {
    let json = asked.contains("--json");
    let units: Option<String> = asked.opt_value_from_str("--units").map_err(|error| error.to_string())?;
    let catalogue = asked.values_from_str("--with-catalogue").map_err(|error| error.to_string())?;
    let system = match units.as_deref() {
        None | Some("metric") => System::Metric,
        Some("us") => System::Us,
        Some(other) => return Err(format!("--units: found “{other}”; allowed: metric, us")),
    };
    let mut files = free(asked)?.into_iter();
    match (files.next(), files.next()) {
        (Some(file), None) => Ok(On { file, json, system, catalogue }),
        (None, _) => Err(format!("{command} needs a FILE, or - for standard input")),
        (Some(_), Some(more)) => Err(format!("{command} takes one FILE; “{}” is one too many", more.to_string_lossy())),
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
        let expected = Command::Check(On {
            file: "a.json".into(),
            json: true,
            system: System::Us,
            catalogue: vec!["b.toml".to_owned(), "c".to_owned()],
        });
        let behind = "check a.json --json --units us --with-catalogue b.toml --with-catalogue c";
        let before = "check --with-catalogue b.toml --with-catalogue=c --units=us --json a.json";
        assert_eq!(read_words(behind).as_ref(), Ok(&expected));
        assert_eq!(read_words(before), Ok(expected));
    }

    #[test]
    fn a_dash_is_standard_input() {
        let Ok(Command::Check(on)) = read_words("check -") else { panic!("not taken") };
        assert_eq!(on.file, "-");
    }

    #[test]
    fn day_and_year_take_a_climate() {
        let on = On { file: "a.json".into(), json: false, system: System::Metric, catalogue: Vec::new() };
        let expected = Command::OverTime { stretch: Stretch::Year, climate: Some("b.epw".into()), on };
        assert_eq!(read_words("year a.json --climate b.epw"), Ok(expected));
        let Ok(Command::OverTime { stretch, climate, .. }) = read_words("day -") else { panic!("not taken") };
        assert_eq!((stretch, climate), (Stretch::Day, None));
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
        check("year", "year needs a FILE");
        check("day a.json b.json", "b.json");
        check("year a.json --climate", "climate");
        check("check a.json --climate b.epw", "--climate");
        check("sample", "NAME");
        check("samples all", "all");
    }
}
