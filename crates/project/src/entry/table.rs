//! A pasted table becomes many entries.

use catalogue::Catalogue;
use units::{Celsius, CubicMetresPerHour, Kilograms, Kind, Millimetres, System, Watts};

use super::figures::Figures;
use super::{Entry, described, read_entry};
use crate::ranges::MOST_DEVICES;

/// Longest table that is read, bytes.
const MOST_BYTES: usize = 1_000_000;
/// A line of headings, to learn from.
const EXAMPLE: &str = "a line of headings such as name, count, U, W, kg, depth mm";

/// What is wrong with a row of a pasted table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowProblem {
    /// Its line in the text, counted from 1.
    pub line: u64,
    /// Its column as headed, empty for the whole row.
    pub column: String,
    /// What was found there.
    pub found: String,
    /// What is allowed there, or would help.
    pub allowed: String,
}

impl std::fmt::Display for RowProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "line {}", self.line)?;
        if !self.column.is_empty() {
            write!(f, ", {}", self.column)?;
        }
        write!(f, ": found {}; {}", self.found, self.allowed)
    }
}

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Holds {
    Name,
    Count,
    Units,
    Width,
    Depth,
    Height,
    Mass,
    Power,
    PowerMax,
    InletMax,
    InletMin,
    AirFlow,
    Ports,
    Splices,
    Supply,
}

/// Headings by their first words, in small letters. The unit may follow: "Depth (mm)", "mass kg".
const HEADINGS: &[(Holds, &[&str])] = &[
    (Holds::PowerMax, &["max power", "maximum power", "power max", "peak power", "peak"]),
    (
        Holds::InletMax,
        &["max temperature", "max temp", "temperature max", "temp max", "inlet max", "max inlet", "limit"],
    ),
    (Holds::InletMin, &["min temperature", "min temp", "temperature min", "temp min", "inlet min", "min inlet"]),
    (Holds::AirFlow, &["airflow", "air flow", "air"]),
    (Holds::Ports, &["ports", "port"]),
    (Holds::Splices, &["splices"]),
    (Holds::Supply, &["supply", "voltage", "v"]),
    (Holds::Count, &["count", "qty", "quantity", "number of", "pieces", "pcs", "#", "no"]),
    (Holds::Name, &["name", "device", "equipment", "description", "item", "part", "what", "type"]),
    (Holds::Units, &["u", "ru", "units", "rack units", "height u", "height (u", "height in u"]),
    (Holds::Width, &["width", "wide"]),
    (Holds::Depth, &["depth", "deep"]),
    (Holds::Height, &["height", "high"]),
    (Holds::Mass, &["mass", "weight", "kg", "lb", "lbs"]),
    (Holds::Power, &["power", "w", "watt", "watts", "kw", "load", "consumption"]),
];

struct Column {
    heading: String,
    holds: Holds,
    /// Unit of bare numbers; empty for the base unit.
    unit: String,
}

/// Reads a table with a row of headings, its columns parted by tabs, semicolons or commas. Good rows become entries, bad
/// ones are told with their line.
#[must_use]
pub fn read_table(text: &str, catalogue: &Catalogue) -> (Vec<Entry>, Vec<RowProblem>) {
    let mut entries = Vec::new();
    let mut problems = Vec::new();
    let problem = |line, column: &str, found: &str, allowed: &str| RowProblem {
        line,
        column: column.to_owned(),
        found: found.chars().filter(|letter| !letter.is_control()).take(60).collect(),
        allowed: allowed.to_owned(),
    };
    if text.len() > MOST_BYTES {
        let found = format!("{} bytes", text.len());
        return (entries, vec![problem(1, "", &found, &format!("at most {MOST_BYTES} bytes"))]);
    }
    let text = text.trim_start_matches('\u{feff}');
    let mut rows = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter(text))
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes())
        .into_records();
    let Some(Ok(head)) = rows.next() else {
        return (entries, vec![problem(1, "", "nothing", EXAMPLE)]);
    };
    let columns: Vec<Option<Column>> = head.iter().map(column).collect();
    if !columns.iter().flatten().any(|column| column.holds == Holds::Name) {
        let found: Vec<&str> = head.iter().take(6).collect();
        return (entries, vec![problem(1, "", &found.join(", "), EXAMPLE)]);
    }
    let mut total = 0;
    for row in rows {
        let row = match row {
            Ok(row) => row,
            Err(error) => {
                let line = error.position().map_or(0, csv::Position::line);
                problems.push(problem(line, "", "a row that is no table", "rows like the first"));
                continue;
            }
        };
        if row.iter().all(str::is_empty) {
            continue;
        }
        let line = row.position().map_or(0, |position| line_of(text, position));
        match entry(&row, &columns, catalogue) {
            Ok(entry) if total + entry.count as usize <= MOST_DEVICES => {
                total += entry.count as usize;
                entries.push(entry);
            }
            Ok(entry) => {
                let found = format!("{} more devices", entry.count);
                problems.push(problem(line, "", &found, &format!("at most {MOST_DEVICES} devices in all")));
            }
            Err((column, found, allowed)) => problems.push(problem(line, &column, &found, &allowed)),
        }
    }
    (entries, problems)
}

/// The line on which a row begins: its position is that of the empty lines before it, if there are any.
fn line_of(text: &str, position: &csv::Position) -> u64 {
    let from = usize::try_from(position.byte()).unwrap_or(usize::MAX);
    let before =
        text.as_bytes().get(from..).unwrap_or_default().iter().take_while(|byte| matches!(byte, b'\r' | b'\n'));
    position.line() + before.filter(|&&byte| byte == b'\n').count() as u64
}

/// The mark between columns: the one that stands most often in the first line.
fn delimiter(text: &str) -> u8 {
    let head = text.lines().next().unwrap_or_default();
    let count = |mark: u8| head.bytes().filter(|&byte| byte == mark).count();
    // The last of equals wins: a tab is never part of a text.
    [b',', b';', b'\t'].into_iter().max_by_key(|&mark| count(mark)).unwrap_or(b'\t')
}

fn column(heading: &str) -> Option<Column> {
    let plain = heading.to_ascii_lowercase();
    let (holds, found) = HEADINGS.iter().find_map(|(holds, names)| {
        let name = names.iter().find(|name| {
            plain.strip_prefix(**name).is_some_and(|rest| !rest.starts_with(|letter: char| letter.is_alphanumeric()))
        })?;
        Some((*holds, *name))
    })?;
    let rest = plain[found.len()..].trim_matches(|letter: char| !letter.is_alphanumeric() && letter != '°');
    let unit = match found {
        "kg" | "lb" | "lbs" | "w" | "kw" => found,
        _ => rest,
    };
    // "Height U" and "height (U)" count units.
    let holds = if holds == Holds::Height && matches!(unit, "u" | "ru") { Holds::Units } else { holds };
    Some(Column { heading: heading.to_owned(), holds, unit: unit.to_owned() })
}

type Fault = (String, String, String);

fn entry(row: &csv::StringRecord, columns: &[Option<Column>], catalogue: &Catalogue) -> Result<Entry, Fault> {
    let mut figures = Figures::default();
    let mut name = "";
    let mut count = 1;
    for (cell, column) in row.iter().zip(columns) {
        let Some(column) = column else { continue };
        if cell.is_empty() || matches!(cell, "-" | "–" | "n/a") {
            continue;
        }
        match column.holds {
            // The first that is no number: an item number is no name.
            Holds::Name if name.is_empty() && cell.parse::<f64>().is_err() => name = cell,
            Holds::Name => {}
            Holds::Count => count = whole(cell, column, 1)?,
            Holds::Units => figures.units = Some(whole(cell.trim_end_matches(['u', 'U']).trim_end(), column, 1)?),
            Holds::Ports => figures.ports = Some(whole(cell, column, 0)?),
            Holds::Splices => figures.splices = Some(whole(cell, column, 0)?),
            Holds::Width => figures.width = Some(Millimetres(number(cell, column, Kind::Length)?)),
            Holds::Depth => figures.depth = Some(Millimetres(number(cell, column, Kind::Length)?)),
            Holds::Height => figures.height = Some(Millimetres(number(cell, column, Kind::Length)?)),
            Holds::Mass => figures.mass = Some(Kilograms(number(cell, column, Kind::Mass)?)),
            Holds::Power => figures.power = Some(Watts(number(cell, column, Kind::Power)?)),
            Holds::PowerMax => figures.power_max = Some(Watts(number(cell, column, Kind::Power)?)),
            Holds::InletMax => figures.inlet_max = Some(Celsius(number(cell, column, Kind::Temperature)?)),
            Holds::InletMin => figures.inlet_min = Some(Celsius(number(cell, column, Kind::Temperature)?)),
            Holds::AirFlow => figures.airflow = Some(CubicMetresPerHour(number(cell, column, Kind::AirFlow)?)),
            Holds::Supply => figures.supply = supply(cell, column)?,
        }
    }
    if name.is_empty() {
        return Err((String::new(), "a row without a name".into(), "name every device".into()));
    }
    let help = |error: super::EntryError| (String::new(), format!("“{name}”"), error.help);
    if count as usize > MOST_DEVICES {
        return Err((String::new(), format!("{count} devices"), format!("at most {MOST_DEVICES}")));
    }
    if figures.says_nothing() {
        let entry = read_entry(name, catalogue).map_err(help)?;
        return Ok(Entry { count: count.saturating_mul(entry.count).min(MOST_DEVICES as u32 + 1), ..entry });
    }
    described(count, name, &figures, catalogue).map_err(help)
}

fn fault(cell: &str, column: &Column, allowed: &str) -> Fault {
    (column.heading.clone(), format!("“{cell}”"), allowed.to_owned())
}

fn whole(cell: &str, column: &Column, least: u32) -> Result<u32, Fault> {
    let number = cell.strip_suffix(".0").unwrap_or(cell).parse::<u32>().ok();
    number
        .filter(|number| (least..=100_000).contains(number))
        .ok_or_else(|| fault(cell, column, &format!("a whole number from {least}")))
}

fn number(cell: &str, column: &Column, kind: Kind) -> Result<f64, Fault> {
    let bare = cell.ends_with(|letter: char| letter.is_ascii_digit());
    let typed = if bare { format!("{cell} {}", column.unit) } else { cell.to_owned() };
    units::read(&typed, kind, System::Metric).map_err(|error| fault(cell, column, &error.help))
}

fn supply(cell: &str, column: &Column) -> Result<Option<catalogue::Supply>, Fault> {
    let plain = cell.to_ascii_lowercase();
    if plain == "none" {
        return Ok(None);
    }
    let volts: String =
        plain.chars().skip_while(|letter| !letter.is_ascii_digit()).take_while(char::is_ascii_digit).collect();
    let direct = if plain.contains("dc") {
        Some(true)
    } else if plain.contains("ac") {
        Some(false)
    } else {
        None
    };
    volts
        .parse::<f64>()
        .ok()
        .and_then(|volts| super::nouns::supply(volts, direct))
        .map(Some)
        .ok_or_else(|| fault(cell, column, "48 V DC, 24 V DC, 120 V AC or 230 V AC"))
}
