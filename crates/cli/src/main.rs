//! `baywright`: the answers of the page from a terminal, with their working.
//!
//! Exit codes: 0 every promise is kept, 1 something fails or is open, 2 bad input.

mod arguments;
mod input;
mod running;

use std::ffi::OsStr;
use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;

use arguments::{Command, On, USAGE};
use baywright::{Answered, OverTime, Stretch, plain};
use catalogue::Catalogue;
use input::BadInput;
use project::{Sample, samples};

/// Every promise is kept.
const KEPT: u8 = 0;
/// Something fails or is open.
const NOT_KEPT: u8 = 1;
/// Bad input, or a command that was not understood.
const BAD_INPUT: u8 = 2;

/// Columns of text that goes into a file or another program.
const USUAL_COLUMNS: usize = 100;
/// Longer lines are hard to read, however wide the terminal.
const MOST_COLUMNS: usize = 120;

fn main() -> ExitCode {
    let code = match arguments::read(pico_args::Arguments::from_env()) {
        Ok(command) => run(command),
        Err(error) => {
            tell(&format!("{error}\n\n{USAGE}\n"));
            BAD_INPUT
        }
    };
    ExitCode::from(code)
}

fn run(command: Command) -> u8 {
    let done = match command {
        Command::Check(on) => check(&on),
        Command::OverTime { stretch, climate, on } => over_time(stretch, climate.as_deref(), &on),
        Command::Catalogue(paths) => input::catalogue(&paths).map(|catalogue| put(&counted(&catalogue), KEPT)),
        Command::Samples => Ok(put(&list(), KEPT)),
        Command::Sample(name) => sample(&name),
        Command::Help => Ok(put(&format!("{USAGE}\n"), KEPT)),
        Command::Version => Ok(put(concat!("baywright ", env!("CARGO_PKG_VERSION"), "\n"), KEPT)),
    };
    done.unwrap_or_else(|BadInput { what, problems }| {
        let count = match problems.len() {
            1 => "1 problem".to_owned(),
            many => format!("{many} problems"),
        };
        tell(&format!("{what}: not taken, {count}\n  {}\n", problems.join("\n  ")));
        BAD_INPUT
    })
}

fn check(on: &On) -> Result<u8, BadInput> {
    let (catalogue, project) = (on_catalogue(on)?, input::project(&on.file)?);
    let answered = Answered::new(&project, &catalogue);
    let text = if on.json { answered.json() } else { answered.printed(on.system, columns()) };
    Ok(put(&text, if answered.all_hold() { KEPT } else { NOT_KEPT }))
}

fn over_time(stretch: Stretch, climate: Option<&OsStr>, on: &On) -> Result<u8, BadInput> {
    let (catalogue, project) = (on_catalogue(on)?, input::project(&on.file)?);
    let weather = climate.map(input::weather).transpose()?;
    let course = running::course(&project, &catalogue, weather.as_ref());
    let told = OverTime::new(&project, &catalogue, &course);
    let text = if on.json { told.json(stretch) } else { told.printed(stretch, on.system, columns()) };
    Ok(put(&text, if told.all_hold() { KEPT } else { NOT_KEPT }))
}

/// The catalogue to judge with.
fn on_catalogue(on: &On) -> Result<Catalogue, BadInput> {
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

fn sample(name: &str) -> Result<u8, BadInput> {
    let samples = samples();
    match samples.iter().find(|sample| word(sample) == name || sample.name.eq_ignore_ascii_case(name)) {
        Some(sample) => Ok(put(&project::to_json(&sample.project), KEPT)),
        None => {
            let known: Vec<_> = samples.iter().map(word).collect();
            let problems = vec![format!("NAME: found “{name}”; allowed: {}", known.join(", "))];
            Err(BadInput { what: "sample".to_owned(), problems })
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
            tell(&format!("standard output: {error}\n"));
            BAD_INPUT
        }
    }
}

/// Writes to standard error. Nobody can be told when that fails.
fn tell(text: &str) {
    let _ = io::stderr().write_all(format!("baywright: {}", plain(text)).as_bytes());
}
