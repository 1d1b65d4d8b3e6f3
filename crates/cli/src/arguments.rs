//! What was asked for on the command line.

use std::convert::Infallible;
use std::ffi::{OsStr, OsString};
use std::ops::RangeInclusive;

use baywright::Stretch;
use pico_args::Arguments;
use units::System;

/// An option, the commands it goes with, and whether a value follows it.
struct Known {
    name: &'static str,
    commands: &'static str,
    has_value: bool,
}

const OPTIONS: [Known; 5] = [
    Known { name: "--json", commands: "check, schedule, day, year", has_value: false },
    Known { name: "--units", commands: "check, schedule, day, year", has_value: true },
    Known { name: "--with-catalogue", commands: "check, schedule, day, year", has_value: true },
    Known { name: "--climate", commands: "day, year", has_value: true },
    Known { name: "--catalogue", commands: "check", has_value: false },
];

/// One command.
#[derive(Debug, PartialEq)]
pub(crate) enum Command {
    /// Answer every check on a project.
    Check(On),
    /// Write schedules and wire list of a project.
    Schedule(On),
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
    pub(crate) catalogue: Vec<OsString>,
}

/// Reads the command line.
///
/// # Errors
/// Everything that was not understood, each with what is allowed in its place.
pub(crate) fn read(words: Vec<OsString>) -> Result<Command, Vec<String>> {
    let mut asked = Arguments::from_vec(words.into_iter().flat_map(parted).collect());
    if asked.contains(["-h", "--help"]) {
        return Ok(Command::Help);
    }
    if asked.contains(["-V", "--version"]) {
        return Ok(Command::Version);
    }
    let command = asked.subcommand().map_err(|error| vec![error.to_string()])?;
    let words = Words { asked, faults: Vec::new() };
    match command.as_deref() {
        Some("check") => words.check(),
        Some("schedule") => words.on("schedule").map(Command::Schedule),
        Some("day") => words.over_time(Stretch::Day),
        Some("year") => words.over_time(Stretch::Year),
        Some("samples") => words.rest("samples", 0..=0, "").map(|_| Command::Samples),
        Some("sample") => {
            let name = words.rest("sample", 1..=1, "the NAME of one, as samples lists them")?;
            Ok(Command::Sample(first(name).to_string_lossy().into_owned()))
        }
        Some("help") => Ok(Command::Help),
        None => words.rest("baywright", 0..=0, "").map(|_| Command::Help),
        Some(other) => {
            Err(vec![format!("the command: found “{other}”; allowed: check, schedule, day, year, samples, sample")])
        }
    }
}

/// A known option and its value out of `--option=value`; any other word as it is.
fn parted(word: OsString) -> Vec<OsString> {
    let parts = word.to_str().and_then(|text| text.split_once('='));
    match parts.filter(|(name, _)| OPTIONS.iter().any(|option| option.has_value && option.name == *name)) {
        Some((name, value)) => vec![name.into(), value.into()],
        None => vec![word],
    }
}

/// What is left of the command line, and what was not understood of it so far.
struct Words {
    asked: Arguments,
    faults: Vec<String>,
}

impl Words {
    /// Whether an option without a value stands there.
    fn flag(&mut self, option: &'static str) -> bool {
        let found = self.asked.contains(option);
        if found && self.asked.contains(option) {
            self.faults.push(format!("{option}: found twice; allowed: once"));
        }
        found
    }

    /// The values of an option that may stand several times.
    fn values(&mut self, option: &'static str, what: &str) -> Vec<OsString> {
        let mut values = Vec::new();
        loop {
            match self.asked.opt_value_from_os_str(option, |value| Ok::<_, Infallible>(value.to_owned())) {
                Ok(Some(value)) if !value.as_encoded_bytes().starts_with(b"--") => values.push(value),
                Ok(None) => return values,
                Ok(Some(_)) | Err(_) => {
                    self.faults.push(format!("{option}: found nothing; allowed: {what}"));
                    // Without a value it stands last, and is not taken away with its error.
                    self.asked.contains(option);
                }
            }
        }
    }

    /// The value of an option that may stand once.
    fn value(&mut self, option: &'static str, what: &str) -> Option<OsString> {
        let mut values = self.values(option, what);
        if values.len() > 1 {
            self.faults.push(format!("{option}: found {} times; allowed: once", values.len()));
        }
        values.pop()
    }

    /// The words that are no options, as many as there may be; else everything that was not understood.
    fn rest(mut self, command: &str, wanted: RangeInclusive<usize>, what: &str) -> Result<Vec<OsString>, Vec<String>> {
        let mut words = Vec::new();
        let mut left = self.asked.finish().into_iter();
        while let Some(word) = left.next() {
            let shown = word.to_string_lossy();
            if word.len() < 2 || !shown.starts_with('-') {
                words.push(word);
                continue;
            }
            let name = shown.split('=').next().unwrap_or_default();
            let known = OPTIONS.iter().find(|option| option.name == name);
            self.faults.push(match known {
                Some(known) => format!("{command}: found {name}; allowed: {name} with {}", known.commands),
                None => format!("{command}: found the option “{shown}”; allowed: {}", options_of(command)),
            });
            if known.is_some_and(|known| known.has_value) {
                left.next();
            }
        }
        if words.len() < *wanted.start() {
            self.faults.push(format!("{command} needs {what}"));
        }
        for word in words.iter().skip(*wanted.end()) {
            let allowed = if *wanted.end() == 0 { "nothing more" } else { what };
            self.faults.push(format!("{command}: found “{}” too; allowed: {allowed}", word.to_string_lossy()));
        }
        if self.faults.is_empty() { Ok(words) } else { Err(self.faults) }
    }

    fn check(mut self) -> Result<Command, Vec<String>> {
        if !self.flag("--catalogue") {
            return self.on("check").map(Command::Check);
        }
        for option in ["--json", "--units", "--with-catalogue"] {
            let there = if option == "--json" { self.flag(option) } else { !self.values(option, "a value").is_empty() };
            if there {
                self.faults.push(format!("check --catalogue: found {option}; allowed: only catalogue files beside it"));
            }
        }
        let files = self.rest("check --catalogue", 1..=usize::MAX, "at least one file or folder")?;
        Ok(Command::Catalogue(files))
    }

    fn over_time(mut self, stretch: Stretch) -> Result<Command, Vec<String>> {
        let climate = self.value("--climate", "a weather file, *.epw");
        let command = match stretch {
            Stretch::Day => "day",
            Stretch::Year => "year",
        };
        self.on(command).map(|on| Command::OverTime { stretch, climate, on })
    }

    /// The project of a command, and how it is told.
    fn on(mut self, command: &str) -> Result<On, Vec<String>> {
        let json = self.flag("--json");
        let catalogue = self.values("--with-catalogue", "a catalogue file, or a folder of them");
        let units = self.value("--units", "metric, us");
        let system = match units.as_deref().map(OsStr::to_string_lossy).as_deref() {
            None | Some("metric") => System::Metric,
            Some("us") => System::Us,
            Some(other) => {
                self.faults.push(format!("--units: found “{other}”; allowed: metric, us"));
                System::Metric
            }
        };
        let files = self.rest(command, 1..=1, "a FILE, or - for standard input")?;
        Ok(On { file: first(files), json, system, catalogue })
    }
}

fn first(words: Vec<OsString>) -> OsString {
    words.into_iter().next().unwrap_or_default()
}

/// The options of a command, in words.
fn options_of(command: &str) -> String {
    let here = |option: &&Known| option.commands.split(", ").any(|known| known == command);
    let names: Vec<&str> = OPTIONS.iter().filter(here).map(|option| option.name).collect();
    if names.is_empty() { "no option but --help and --version".to_owned() } else { names.join(", ") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read_words(words: &str) -> Result<Command, String> {
        read(words.split_whitespace().map(OsString::from).collect()).map_err(|faults| faults.join("\n"))
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
            catalogue: vec!["b.toml".into(), "c".into()],
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
        assert_eq!(read_words("year a.json --climate b.epw").as_ref(), Ok(&expected));
        assert_eq!(read_words("year --climate=b.epw a.json"), Ok(expected));
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
        check("schedule", "schedule needs a FILE");
        check("day a.json b.json", "b.json");
        check("year a.json --climate", "climate");
        check("check a.json --climate b.epw", "--climate");
        check("sample", "NAME");
        check("samples all", "all");
        check("--verison", "“--verison”; allowed: no option but --help and --version");
        check("check a.json --json --json", "--json: found twice");
        check("check a.json --units us --units=metric", "--units: found 2 times");
        check("year a.json --climate --json", "--climate: found nothing; allowed: a weather file");
        check("check a.json --climate b.epw", "--climate with day, year");
        check("check a.json --jsn", "allowed: --json, --units, --with-catalogue, --catalogue");
    }

    #[test]
    fn everything_that_is_not_understood_is_said_at_once() {
        let Err(said) = read_words("year --units feet a.json b.json --jsn --catalogue --with-catalogue") else {
            panic!("taken")
        };
        assert_eq!(
            said.lines().collect::<Vec<_>>(),
            [
                "--with-catalogue: found nothing; allowed: a catalogue file, or a folder of them",
                "--units: found “feet”; allowed: metric, us",
                "year: found the option “--jsn”; allowed: --json, --units, --with-catalogue, --climate",
                "year: found --catalogue; allowed: --catalogue with check",
                "year: found “b.json” too; allowed: a FILE, or - for standard input",
            ]
        );
        // The value of an option that does not belong here is not told as one file too many.
        assert_eq!(read_words("check a.json --climate b.epw").map_err(|said| said.lines().count()), Err(1));
    }
}
