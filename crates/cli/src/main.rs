//! `baywright`: the answers of the page from a terminal, with their working.
//!
//! Exit codes: 0 every promise is kept, 1 something fails or is open, 2 bad input.

mod arguments;
mod input;
mod running;
mod usage;

use std::ffi::{OsStr, OsString};
use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;

use arguments::{Command, On};
use baywright::{Answered, OverTime, Refused, Schedule, Stretch, plain, problems_json};
use catalogue::Catalogue;
use climate::WeatherYear;
use project::{Project, Sample, samples};
use usage::{USAGE, synopsis};

/// Every promise is kept.
const KEPT: u8 = 0;
/// Something fails or is open.
const NOT_KEPT: u8 = 1;
/// Bad input, a command that was not understood, or an output that cannot be written.
const BAD_INPUT: u8 = 2;

/// Columns of text that goes into a file or another program.
const USUAL_COLUMNS: usize = 100;
/// Longer lines are hard to read, however wide the terminal.
const MOST_COLUMNS: usize = 120;

fn main() -> ExitCode {
    let words: Vec<OsString> = std::env::args_os().skip(1).collect();
    let json = words.iter().any(|word| word == "--json");
    let (done, help) = match arguments::read(words) {
        Ok(command) => (run(command), String::new()),
        Err(problems) => {
            let help = format!("\n{}\nbaywright --help tells what they do.\n", synopsis());
            (Err(vec![Refused { what: "the command line".to_owned(), problems }]), help)
        }
    };
    ExitCode::from(done.unwrap_or_else(|refused| {
        let told: Vec<String> = refused.iter().map(Refused::text).collect();
        tell(&format!("{}\n{help}", told.join("\nbaywright: ")));
        if json { put(&problems_json(&refused), BAD_INPUT) } else { BAD_INPUT }
    }))
}

/// The exit code, or all that could not be taken.
fn run(command: Command) -> Result<u8, Vec<Refused>> {
    match command {
        Command::Check(on) => check(&on),
        Command::Schedule(on) => schedule(&on),
        Command::OverTime { stretch, climate, on } => over_time(stretch, climate.as_deref(), &on),
        Command::Catalogue(paths) => {
            input::catalogue(&paths).map(|catalogue| put(&counted(&catalogue), KEPT)).map_err(|refused| vec![refused])
        }
        Command::Samples => Ok(put(&list(), KEPT)),
        Command::Sample(name) => sample(&name).map_err(|refused| vec![refused]),
        Command::Help => Ok(put(&format!("{USAGE}\n"), KEPT)),
        Command::Version => Ok(put(concat!("baywright ", env!("CARGO_PKG_VERSION"), "\n"), KEPT)),
    }
}

fn check(on: &On) -> Result<u8, Vec<Refused>> {
    let (catalogue, project, _) = read(on, None)?;
    let answered = Answered::new(&project, &catalogue);
    let text = if on.json { answered.json() } else { answered.printed(on.system, columns()) };
    Ok(put(&text, if answered.all_hold() { KEPT } else { NOT_KEPT }))
}

fn schedule(on: &On) -> Result<u8, Vec<Refused>> {
    let (catalogue, project, _) = read(on, None)?;
    let schedule = Schedule::new(&project, &catalogue);
    let text = if on.json { schedule.json() } else { schedule.printed(on.system, columns()) };
    Ok(put(&text, if schedule.is_complete() { KEPT } else { NOT_KEPT }))
}

fn over_time(stretch: Stretch, climate: Option<&OsStr>, on: &On) -> Result<u8, Vec<Refused>> {
    let (catalogue, project, weather) = read(on, climate)?;
    let course = running::course(&project, &catalogue, weather.as_ref());
    let told = OverTime::new(&project, &catalogue, &course);
    let text = if on.json { told.json(stretch) } else { told.printed(stretch, on.system, columns()) };
    Ok(put(&text, if told.all_hold() { KEPT } else { NOT_KEPT }))
}

/// Everything that a command names, or all that could not be taken of it.
fn read(on: &On, climate: Option<&OsStr>) -> Result<(Catalogue, Project, Option<WeatherYear>), Vec<Refused>> {
    match (on_catalogue(on), input::project(&on.file), climate.map(input::weather).transpose()) {
        (Ok(catalogue), Ok(project), Ok(weather)) => Ok((catalogue, project, weather)),
        (catalogue, project, weather) => {
            Err([catalogue.err(), project.err(), weather.err()].into_iter().flatten().collect())
        }
    }
}

/// The catalogue to judge with.
fn on_catalogue(on: &On) -> Result<Catalogue, Refused> {
    if on.catalogue.is_empty() { Ok(catalogue::sample()) } else { input::catalogue(&on.catalogue) }
}

/// What a sound catalogue holds, one line for each kind of part.
fn counted(catalogue: &Catalogue) -> String {
    let counts = [
        ("families", catalogue.families.len()),
        ("skins", catalogue.skins.len()),
        ("insulations", catalogue.insulations.len()),
        ("paints", catalogue.paints.len()),
        ("plinths", catalogue.plinths.len()),
        ("shields", catalogue.shields.len()),
        ("doors", catalogue.doors.len()),
        ("lifting eyes", catalogue.lifting_eyes.len()),
        ("cable managers", catalogue.managers.len()),
        ("gland plates", catalogue.gland_plates.len()),
        ("pallets", catalogue.pallets.len()),
        ("climate units", catalogue.units.len()),
        ("devices", catalogue.devices.len()),
    ];
    let about = &catalogue.about;
    let mut text = format!("{}: no problem found\n", plain(&about.name));
    for (kind, count) in counts {
        text += &format!("{count:>6} {kind}\n");
    }
    text
}

/// The word a sample is asked for by: `hot-desert-fibre-hub`.
fn word(sample: &Sample) -> String {
    let letters = sample.name.to_lowercase();
    let words: Vec<_> =
        letters.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    words.join("-")
}

fn list() -> String {
    samples().iter().map(|sample| format!("{}\n    {}: {}\n", word(sample), sample.name, sample.about)).collect()
}

fn sample(name: &str) -> Result<u8, Refused> {
    let samples = samples();
    match samples.iter().find(|sample| word(sample) == name || sample.name.eq_ignore_ascii_case(name)) {
        Some(sample) => Ok(put(&project::to_json(&sample.project), KEPT)),
        None => {
            let known: Vec<_> = samples.iter().map(word).collect();
            let problems = vec![format!("NAME: found “{name}”; allowed: {}", known.join(", "))];
            Err(Refused { what: "sample".to_owned(), problems })
        }
    }
}

/// Columns of the terminal the text goes to.
fn columns() -> usize {
    if io::stdout().is_terminal() { textwrap::termwidth().min(MOST_COLUMNS) } else { USUAL_COLUMNS }
}

/// Writes to standard output; the exit code is `code` unless that fails. A reader that has read enough is no failure.
fn put(text: &str, code: u8) -> u8 {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Ok(()) => code,
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => code,
        Err(error) => {
            tell(&format!("standard output: not written to its end, {error}\n"));
            BAD_INPUT
        }
    }
}

/// Writes to standard error. Nobody can be told when that fails.
fn tell(text: &str) {
    let _ = io::stderr().write_all(format!("baywright: {}", plain(text)).as_bytes());
}
