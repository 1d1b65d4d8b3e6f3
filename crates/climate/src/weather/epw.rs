//! Reads a weather file in the EPW form.
//!
//! Its header is followed: place and time zone (LOCATION), records in an hour and first day (DATA PERIODS), leap day and
//! daylight saving (HOLIDAYS/DAYLIGHT SAVINGS). What had to be corrected or assumed is noted; what cannot be mended is
//! refused, all of it at once, with line numbers.
//!
//! Fields are split at commas and nothing else: the form knows no quoting in its rows, and an odd quotation mark in a
//! comment must not swallow the file, as it would with a reader of quoted CSV.
//!
//! Source:      EPW data dictionary (auxiliary programs documentation of the weather format); columns, codes for missing
//!              values and the meaning of an hour (hour 1 is 0 to 1 h, local standard time) are taken from there.
//! Valid for:   a whole year, 1 to 60 records in an hour.
//! Agreement:   tests/tests/weather_file.rs, every value of a year as it was written.
//! Not covered: part years, several years in one file, snow and rain, the albedo column.

mod fields;
mod fill;
mod header;
mod rows;
mod text;
mod told;

use units::Metres;

use crate::{HOURS, Hour, Note, WeatherProblem, WeatherYear, standard_air, when};
use fields::{Field, IRRADIANCE};
use fill::{Columns, Gaps};
pub use text::MOST_EPW_BYTES;
use told::Told;

/// Longest gap, hours, that is bridged in irradiance and by missing rows.
const SHORT_GAP: usize = 3;
/// Longest gap, hours, that is bridged in what changes more slowly.
const SLOW_GAP: usize = 6;
/// Most hours of a year for which irradiance is bridged.
const MOST_BRIDGED: usize = 175;
/// Humidity where a file has none.
const ASSUMED_HUMIDITY: f64 = 0.5;

/// Reads an EPW file, in whatever usual text encoding it is.
///
/// # Errors
/// Everything that keeps the file from being a year of weather.
pub fn read_epw(bytes: &[u8]) -> Result<WeatherYear, Vec<WeatherProblem>> {
    let mut told = Told::default();
    let year = read(bytes, &mut told);
    let (problems, notes) = told.into_parts();
    match year {
        Some(year) if problems.is_empty() => Ok(WeatherYear { notes, ..year }),
        _ => Err(problems),
    }
}

/// The year, with its notes still in `told`; `None` after a problem that hides the rest.
fn read(bytes: &[u8], told: &mut Told) -> Option<WeatherYear> {
    let text = text::decode(bytes, told)?;
    let mut lines = text.lines().enumerate().map(|(index, line)| (index + 1, line)).peekable();
    let header = header::read(&mut lines, told);
    let per_hour = header.per_hour;
    let table = rows::read(lines, &header, told)?;
    let mut columns = Columns::new(table, per_hour);
    columns.tell_missing_rows(told);
    if told.has_problems() {
        return None;
    }
    mend(&mut columns, header.site.as_ref().map_or(Metres(0.0), |site| site.elevation), told);
    if told.has_problems() {
        return None;
    }
    let hours = (0..HOURS).map(|row| columns.hour(row).kept()).collect();
    let mut year = WeatherYear { name: header.name, site: header.site?, hours, sun_at: columns.sun_at, notes: vec![] };
    if let Some(note) = crate::weather::sun_timing(&year).and_then(|timing| timing.note(year.sun_at)) {
        told.note(note);
    }
    year.name.shrink_to_fit();
    Some(year)
}

/// Bridges gaps, puts in what may be assumed, and says so.
fn mend(columns: &mut Columns, elevation: Metres, told: &mut Told) {
    for field in IRRADIANCE {
        let gaps = columns.bridge(field, SHORT_GAP);
        let bridged = gaps.bridged.len() / columns.per_hour;
        if bridged > MOST_BRIDGED {
            let found = format!("{bridged} h without a value");
            told.problem(WeatherProblem::new(field.name, found, format!("at most {MOST_BRIDGED} h in a year")));
        }
        tell_bridged(field, &gaps, columns, told);
        refuse_left(field, &gaps, SHORT_GAP, columns, told);
    }
    for field in [Field::DRY_BULB, Field::WIND] {
        let gaps = columns.bridge(field, SLOW_GAP);
        tell_bridged(field, &gaps, columns, told);
        refuse_left(field, &gaps, SLOW_GAP, columns, told);
    }

    let from_dew_point = columns.humidity_from_dew_point();
    note_count(told, "relative humidity", from_dew_point, columns, "taken from dry bulb and dew point");
    let gaps = columns.bridge(Field::HUMIDITY, SLOW_GAP);
    tell_bridged(Field::HUMIDITY, &gaps, columns, told);
    let assumed = columns.put(Field::HUMIDITY, &gaps.left, 100.0 * ASSUMED_HUMIDITY);
    note_count(told, "relative humidity", assumed, columns, "taken as 50 %, as the file has none");

    let gaps = columns.bridge(Field::PRESSURE, SLOW_GAP);
    tell_bridged(Field::PRESSURE, &gaps, columns, told);
    if let Some(air) = standard_air(elevation) {
        let assumed = columns.put(Field::PRESSURE, &gaps.left, air.pressure);
        note_count(told, "pressure", assumed, columns, "taken from the standard atmosphere at the site's elevation");
    }
    let without = columns.missing(Field::INFRARED);
    note_count(told, "horizontal infrared", without, columns, "not in the file: left to a formula for the sky");
}

fn note_count(told: &mut Told, place: &str, records: usize, columns: &Columns, text: &str) {
    if records > 0 {
        let hours = records.div_ceil(columns.per_hour);
        told.note(Note { place: place.to_owned(), text: format!("{text} ({hours} h)"), count: records });
    }
}

fn tell_bridged(field: Field, gaps: &Gaps, columns: &Columns, told: &mut Told) {
    // Rows that are missing altogether have been told already.
    let lines: Vec<usize> = gaps.bridged.iter().filter_map(|record| columns.line(*record)).collect();
    if !lines.is_empty() {
        let place = format!("{}, {}", told::lines_in_words(&lines), field.name);
        told.note(Note { place, text: "no value: read between its neighbours".to_owned(), count: lines.len() });
    }
}

fn refuse_left(field: Field, gaps: &Gaps, limit: usize, columns: &Columns, told: &mut Told) {
    if gaps.left.is_empty() {
        return;
    }
    let lines: Vec<usize> = gaps.left.iter().filter_map(|record| columns.line(*record)).collect();
    let place = match gaps.left.first() {
        Some(record) if lines.is_empty() => format!("{}, {}", when(record / columns.per_hour), field.name),
        _ => format!("{}, {}", told::lines_in_words(&lines), field.name),
    };
    let found = format!("no value in {} records", gaps.left.len());
    told.problem(WeatherProblem::new(place, found, format!("gaps of at most {limit} h")));
}

impl Columns {
    /// The mean over the records of an hour.
    fn hour(&self, row: usize) -> Hour {
        let mean = |field: Field| {
            let records = self.records(field, row);
            records.iter().sum::<f64>() / records.len() as f64
        };
        // A station's amplifier reads a little below zero at night.
        let light = |field: Field| libm::fmax(mean(field), 0.0);
        let infrared = mean(Field::INFRARED);
        Hour {
            dry_bulb: mean(Field::DRY_BULB),
            global: light(Field::GLOBAL),
            direct_normal: light(Field::DIRECT_NORMAL),
            diffuse: light(Field::DIFFUSE),
            wind: mean(Field::WIND),
            relative_humidity: libm::fmin(mean(Field::HUMIDITY) / 100.0, 1.0),
            pressure: mean(Field::PRESSURE),
            horizontal_infrared: (!infrared.is_nan()).then_some(infrared),
        }
    }
}

#[cfg(test)]
#[path = "epw/tests.rs"]
mod tests;
