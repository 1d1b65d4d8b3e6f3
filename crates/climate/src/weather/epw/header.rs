//! The header: where the file is from and how its rows follow each other.

use std::iter::Peekable;

use units::Metres;

use super::told::{Told, quoted};
use crate::{Note, Site, WeatherProblem};

/// Records in an hour that divide it evenly.
const PER_HOUR: [usize; 12] = [1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60];
/// Ground without snow, from memory of common practice; the form has a column for it that few files fill.
const ALBEDO: f64 = 0.2;
/// A zone's time differs from the sun's by hardly more than this, hours.
const MOST_ZONE_ERROR: f64 = 3.5;
/// A header has eight lines; more than this is none.
const MOST_LINES: usize = 200;

/// What the header says.
pub(super) struct Header {
    /// The place in words.
    pub name: String,
    /// The site; none after a problem with it.
    pub site: Option<Site>,
    /// Records in an hour.
    pub per_hour: usize,
    /// Month and day of the first row, where it is readable.
    pub start: Option<(usize, usize)>,
    /// Whether the file says that it has a 29 February.
    pub leap: bool,
}

/// Reads up to the line DATA PERIODS, or to the first row.
pub(super) fn read<'a>(lines: &mut Peekable<impl Iterator<Item = (usize, &'a str)>>, told: &mut Told) -> Header {
    let mut header = Header { name: String::new(), site: None, per_hour: 1, start: None, leap: false };
    let (mut located, mut periods) = (false, false);
    for _ in 0..MOST_LINES {
        let Some((number, line)) = lines.next_if(|(_, line)| !is_row(line)) else { break };
        let cells: Vec<&str> = line.split(',').map(|cell| cell.trim().trim_matches('"').trim()).collect();
        let Some((keyword, rest)) = cells.split_first() else { continue };
        match keyword.to_ascii_uppercase().as_str() {
            "LOCATION" => {
                located = true;
                location(number, rest, &mut header, told);
            }
            "HOLIDAYS/DAYLIGHT SAVINGS" | "HOLIDAYS/DAYLIGHT SAVING" => calendar(number, rest, &mut header, told),
            "DATA PERIODS" => {
                periods = true;
                data_periods(number, rest, &mut header, told);
                break;
            }
            other if other.starts_with("COMMENTS") => comment(number, line, told),
            other if other.starts_with("LOCATION;") => {
                located = true;
                let place = format!("line {number}");
                told.problem(WeatherProblem::new(place, "fields split by semicolons", "fields split by commas"));
            }
            _ => {}
        }
    }
    if !located {
        let allowed = "a line LOCATION,city,state,country,source,number,latitude,longitude,time zone,elevation";
        told.problem(WeatherProblem::new("header", "no line LOCATION", allowed));
    }
    if !periods {
        let allowed = "a line DATA PERIODS,1,records in an hour,name,weekday,first day,last day";
        told.problem(WeatherProblem::new("header", "no line DATA PERIODS", allowed));
    }
    header
}

/// Rows begin with a year, lines of the header with a word.
fn is_row(line: &str) -> bool {
    line.trim_start().bytes().next().is_some_and(|byte| byte.is_ascii_digit())
}

fn location(number: usize, cells: &[&str], header: &mut Header, told: &mut Told) {
    let place = |what: &str| format!("line {number}, LOCATION, {what}");
    let used = cells.iter().rposition(|cell| !cell.is_empty()).map_or(0, |last| last + 1);
    // Counted from the end: a city may have a comma in its name.
    let Some(first) = used.checked_sub(4) else {
        let allowed = "latitude, longitude, time zone and elevation at its end";
        told.problem(WeatherProblem::new(format!("line {number}, LOCATION"), format!("{used} fields"), allowed));
        return;
    };
    let mut numbers = [0.0; 4];
    let mut readable = true;
    let names = ["latitude", "longitude", "time zone", "elevation"];
    for ((cell, name), value) in cells[first..used].iter().zip(names).zip(&mut numbers) {
        match cell.parse::<f64>() {
            Ok(read) if read.is_finite() => *value = read,
            _ => {
                readable = false;
                told.problem(WeatherProblem::new(place(name), quoted(cell), "a number"));
            }
        }
    }
    let [latitude, longitude, utc_offset, elevation] = numbers;
    let site = Site { latitude, longitude, elevation: Metres(elevation), utc_offset, albedo: ALBEDO, horizon: vec![] };
    let problems = site.check();
    for problem in &problems {
        told.problem(WeatherProblem::new(place(&problem.place), &problem.found, &problem.allowed));
    }
    header.name = name(&cells[..first]);
    if !readable || !problems.is_empty() {
        return;
    }
    // A sign forgotten in longitude or time zone puts the sun on the wrong side of noon.
    let apart = (utc_offset - longitude / 15.0 + 12.0).rem_euclid(24.0) - 12.0;
    if apart.abs() > MOST_ZONE_ERROR {
        let text = format!("longitude {longitude}° and time zone {utc_offset} h are {:.1} h apart", apart.abs());
        told.note(Note { place: format!("line {number}, LOCATION"), text, count: 1 });
    }
    header.site = Some(site);
}

/// City, region and country, then the source in brackets.
fn name(cells: &[&str]) -> String {
    const LONGEST: usize = 120;
    let said = |cell: &str| !cell.is_empty() && cell != "-" && !cell.eq_ignore_ascii_case("unknown");
    let (place, source) = match cells {
        // The last two are source and station number.
        [place @ .., source, _] if place.len() >= 2 => (place, Some(*source)),
        all => (all, None),
    };
    let mut name = place.iter().copied().filter(|cell| said(cell)).collect::<Vec<_>>().join(", ");
    match source.filter(|source| said(source)) {
        Some(source) if name.is_empty() => name.push_str(source),
        Some(source) => name.push_str(&format!(" ({source})")),
        None => {}
    }
    let name: String = name.chars().filter(|letter| !letter.is_control()).take(LONGEST).collect();
    if name.trim().is_empty() { "Weather file".to_owned() } else { name.trim().to_owned() }
}

fn calendar(number: usize, cells: &[&str], header: &mut Header, told: &mut Told) {
    header.leap = cells.first().is_some_and(|cell| cell.eq_ignore_ascii_case("yes"));
    let (from, to) = (cells.get(1).copied().unwrap_or("0"), cells.get(2).copied().unwrap_or("0"));
    if !from.is_empty() && from != "0" {
        let text = format!(
            "daylight saving from {} to {} is not applied: rows are in standard time",
            quoted(from),
            quoted(to)
        );
        told.note(Note { place: format!("line {number}"), text, count: 1 });
    }
}

/// Some files say in a comment that their irradiance is not that of the hour.
fn comment(number: usize, line: &str, told: &mut Told) {
    const MARK: &str = "irradiance time offset";
    let lower = line.to_ascii_lowercase();
    let Some(offset) = lower.split(MARK).nth(1).and_then(|rest| rest.split(':').nth(1)) else { return };
    if let Some(hours) = offset.trim().trim_matches('"').parse::<f64>().ok().filter(|hours| hours.is_finite()) {
        let text =
            format!("says that irradiance is that at {hours} h from the time of its row: not followed, but checked");
        told.note(Note { place: format!("line {number}"), text, count: 1 });
    }
}

fn data_periods(number: usize, cells: &[&str], header: &mut Header, told: &mut Told) {
    let place = format!("line {number}, DATA PERIODS");
    let whole = |cell: Option<&&str>| cell.and_then(|cell| cell.parse::<usize>().ok());
    match whole(cells.get(1)) {
        Some(per_hour) if PER_HOUR.contains(&per_hour) => header.per_hour = per_hour,
        _ => {
            let found = cells.get(1).map_or_else(|| "nothing".to_owned(), |cell| quoted(cell));
            let allowed = "1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30 or 60 records in an hour";
            told.problem(WeatherProblem::new(&*place, found, allowed));
        }
    }
    if whole(cells.first()).is_some_and(|periods| periods > 1) {
        let text = format!("{} periods: taken together as one year", cells[0]);
        told.note(Note { place: place.clone(), text, count: 1 });
    }
    header.start = cells.get(4).and_then(|cell| month_and_day(cell));
    if header.per_hour > 1 {
        let text = format!("{} records in an hour: the mean is taken", header.per_hour);
        told.note(Note { place, text, count: crate::HOURS });
    }
}

/// `7/ 1` or `7/1/2004`.
fn month_and_day(text: &str) -> Option<(usize, usize)> {
    let mut parts = text.split('/').map(|part| part.trim().parse().ok());
    let (month, day) = (parts.next()??, parts.next()??);
    ((1..=12).contains(&month) && (1..=31).contains(&day)).then_some((month, day))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_first_day_is_read_in_both_spellings() {
        assert_eq!(month_and_day(" 1/ 1"), Some((1, 1)));
        assert_eq!(month_and_day("7/15/2004"), Some((7, 15)));
        for bad in ["", "1", "13/1", "Sunday", "1/-1"] {
            assert_eq!(month_and_day(bad), None, "{bad}");
        }
    }

    #[test]
    fn a_name_leaves_out_what_is_not_there() {
        assert_eq!(name(&["Dry Valley", "-", "XYZ", "typical year", "999"]), "Dry Valley, XYZ (typical year)");
        assert_eq!(name(&["Valley", "Upper", "X", "XYZ", "source", "1"]), "Valley, Upper, X, XYZ (source)");
        assert_eq!(name(&["unknown", "-", "", "source", ""]), "source");
        assert_eq!(name(&["unknown", "-", "", "", ""]), "Weather file");
    }
}
