//! The rows: what stands in them, and which record of the year each is.

use std::collections::BTreeSet;

use super::fields::{FIELDS, Field, LEAST_COLUMNS, LEAST_INFRARED, MOST_COLUMNS};
use super::header::Header;
use super::told::{Told, lines_in_words, quoted};
use crate::{HOURS, MONTHS, Note, WeatherProblem};

/// The records of a year, in their order.
pub(super) struct Table {
    /// For each record the line it stands in; 0 where there is none.
    pub lines: Vec<u32>,
    /// For each field its records; not-a-number where there is none.
    pub values: [Vec<f64>; FIELDS],
    /// Where in its row the sun stands.
    pub sun_at: f64,
    /// Rows that were refused, which are not missing from the file.
    pub refused: usize,
}

/// A row as it stands in the file.
struct Row {
    line: usize,
    /// Hours from the start of the year; none on 29 February.
    hour_of_year: Option<usize>,
    /// Before it is known whether hours count from 0 or 1.
    hour: usize,
    minute: usize,
    values: [f64; FIELDS],
}

/// Reads all rows; `None` when there is none, or nothing can be made of them.
pub(super) fn read<'a>(
    lines: impl Iterator<Item = (usize, &'a str)>,
    header: &Header,
    told: &mut Told,
) -> Option<Table> {
    let mut reading = Reading::default();
    let mut rows = Vec::with_capacity(HOURS * header.per_hour + 24);
    let mut refused = 0;
    for (number, line) in lines {
        // The mark of an old end of file and blank lines are no rows.
        let line = line.trim_matches(|letter: char| letter.is_whitespace() || letter == '\u{1a}');
        if !line.is_empty() {
            match reading.row(number, line, told) {
                Some(row) => rows.push(row),
                None => refused += 1,
            }
        }
    }
    if rows.is_empty() {
        if !told.has_problems() {
            told.problem(WeatherProblem::new("rows", "none", "one row for each record of a year"));
        }
        return None;
    }
    reading.tell_years(told);
    reading.tell_cut(told);
    let from_zero = hours_from_zero(&rows, told);
    let places = Places::find(&mut rows, header, from_zero, told);
    Some(Table { refused, ..places.into_table(rows, told) })
}

/// What is remembered from row to row.
#[derive(Default)]
struct Reading {
    columns: Option<usize>,
    years: BTreeSet<i32>,
    /// Lines with more than 100 % of humidity, with light below zero, with a sky that is too cold.
    wet: Vec<usize>,
    below_zero: Vec<usize>,
    cold_sky: Vec<usize>,
}

impl Reading {
    fn row(&mut self, line: usize, text: &str, told: &mut Told) -> Option<Row> {
        let mut cells = [""; MOST_COLUMNS];
        let mut count = 0;
        for cell in text.split(',') {
            if let Some(place) = cells.get_mut(count) {
                *place = cell.trim();
            }
            count += 1;
        }
        let expected = *self.columns.get_or_insert(count);
        if count != expected || !(LEAST_COLUMNS..=MOST_COLUMNS).contains(&count) {
            let allowed = || format!("{LEAST_COLUMNS} to {MOST_COLUMNS}, and as many as in the first row");
            told.in_line(line, "columns", || count.to_string(), allowed);
            return None;
        }
        let (hour_of_year, hour, minute) = self.time(line, &cells, told)?;
        let mut values = [f64::NAN; FIELDS];
        for (field, value) in Field::ALL.into_iter().zip(&mut values) {
            *value = self.value(line, field, cells[field.column], told);
        }
        Some(Row { line, hour_of_year, hour, minute, values })
    }

    /// First hour of the day in the year (none on 29 February), hour and minute as written.
    fn time(&mut self, line: usize, cells: &[&str], told: &mut Told) -> Option<(Option<usize>, usize, usize)> {
        let mut whole = |column: usize, what, from: i32, to: i32| {
            let read = whole_number(cells[column]).filter(|number| (from..=to).contains(number));
            if read.is_none() {
                told.in_line(line, what, || quoted(cells[column]), || format!("a whole number, {from} to {to}"));
            }
            read
        };
        let year = whole(0, "year", 0, 9999);
        let month = whole(1, "month", 1, 12);
        let day = whole(2, "day", 1, 31);
        let hour = whole(3, "hour", 0, 24);
        let minute = whole(4, "minute", 0, 60);
        self.years.extend(year);
        let (month, day, hour, minute) = (month? as usize, day? as usize, hour? as usize, minute? as usize);
        let leap_day = month == 2 && day == 29;
        if !leap_day && day > MONTHS[month - 1].days {
            told.in_line(line, "date", || format!("day {day} of month {month}"), || "a day of that month".to_owned());
            return None;
        }
        Some(((!leap_day).then_some((MONTHS[month - 1].first + day - 1) * 24), hour, minute))
    }

    /// A value, or not-a-number where the file has none.
    fn value(&mut self, line: usize, field: Field, cell: &str, told: &mut Told) -> f64 {
        if cell.is_empty() {
            return f64::NAN;
        }
        let unit = field.unit;
        let allowed = || format!("{} to {} {unit}, or {} for none", field.from, field.to, field.missing[0]);
        let Some(value) = cell.parse::<f64>().ok().filter(|value| value.is_finite()) else {
            told.in_line(line, field.name, || quoted(cell), allowed);
            return f64::NAN;
        };
        if (field.from..=field.to).contains(&value) {
            let list = match field {
                Field::HUMIDITY if value > 100.0 => &mut self.wet,
                Field::GLOBAL | Field::DIRECT_NORMAL | Field::DIFFUSE if value < 0.0 => &mut self.below_zero,
                Field::INFRARED if value < LEAST_INFRARED => {
                    self.cold_sky.push(line);
                    return f64::NAN;
                }
                _ => return value,
            };
            list.push(line);
            return value;
        }
        if !field.missing.contains(&value) {
            told.in_line(line, field.name, || format!("{value} {unit}"), allowed);
        }
        f64::NAN
    }

    fn tell_years(&self, told: &mut Told) {
        if let (Some(first), Some(last)) = (self.years.first(), self.years.last())
            && first != last
        {
            let text =
                format!("{} years from {first} to {last}: joined to one, as in a typical year", self.years.len());
            told.note(Note { place: "rows".to_owned(), text, count: self.years.len() });
        }
    }

    fn tell_cut(&self, told: &mut Told) {
        let cuts = [
            (&self.wet, "relative humidity", "more than 100 %: cut to 100 %"),
            (&self.below_zero, "irradiance", "a little below zero: taken as 0"),
            (&self.cold_sky, "horizontal infrared", "colder than any sky: left to a formula"),
        ];
        for (lines, what, text) in cuts {
            if !lines.is_empty() {
                let place = format!("{}, {what}", lines_in_words(lines));
                told.note(Note { place, text: text.to_owned(), count: lines.len() });
            }
        }
    }
}

/// A whole number, also written `1.0`.
fn whole_number(cell: &str) -> Option<i32> {
    let as_fraction = || cell.parse::<f64>().ok().filter(|value| value.fract() == 0.0 && value.abs() < 1e6);
    cell.parse().ok().or_else(|| as_fraction().map(|value| value as i32))
}

/// Whether the hours of a day are 0 to 23 and not 1 to 24 as they should be.
fn hours_from_zero(rows: &[Row], told: &mut Told) -> bool {
    let line_of = |hour| rows.iter().find(|row| row.hour == hour).map(|row| row.line);
    let from_zero = line_of(0);
    if let (Some(zero), Some(last)) = (from_zero, line_of(24)) {
        let place = format!("lines {zero} and {last}");
        told.problem(WeatherProblem::new(place, "hours 0 and 24", "hours 1 to 24, or else 0 to 23"));
    } else if from_zero.is_some() {
        let text = "hours count from 0: hour 0 is taken as 0 to 1 h".to_owned();
        told.note(Note { place: "rows".to_owned(), text, count: rows.len() });
    }
    from_zero.is_some()
}

/// Which row is which record.
struct Places {
    /// For each row its record; none when it is dropped.
    records: Vec<Option<usize>>,
    per_hour: usize,
    sun_at: f64,
}

impl Places {
    fn find(rows: &mut [Row], header: &Header, from_zero: bool, told: &mut Told) -> Self {
        let per_hour = header.per_hour;
        let minutes_from_zero = rows.iter().any(|row| row.minute == 0);
        let records: Vec<Option<usize>> = rows
            .iter()
            .map(|row| {
                let hour = if from_zero { row.hour } else { row.hour.saturating_sub(1) }.min(23);
                let part = match per_hour {
                    1 => 0,
                    _ if minutes_from_zero => row.minute * per_hour / 60,
                    _ => (row.minute * per_hour).div_ceil(60).saturating_sub(1),
                };
                Some((row.hour_of_year? + hour) * per_hour + part.min(per_hour - 1))
            })
            .collect();
        tell_leap_days(rows, header, told);
        tell_order(rows, &records, told);
        tell_start(rows, &records, header, told);
        Self { records, per_hour, sun_at: sun_at(rows, per_hour, told) }
    }

    fn into_table(self, rows: Vec<Row>, told: &mut Told) -> Table {
        let records = HOURS * self.per_hour;
        let mut lines = vec![0_u32; records];
        let mut values: [Vec<f64>; FIELDS] = std::array::from_fn(|_| vec![f64::NAN; records]);
        for (row, record) in rows.into_iter().zip(self.records) {
            let Some(record) = record else { continue };
            let before = lines[record];
            if before != 0 {
                let found = || format!("the time of line {before} again");
                told.in_line(row.line, "time", found, || {
                    "each time once, as many in an hour as DATA PERIODS says".into()
                });
                continue;
            }
            lines[record] = u32::try_from(row.line).unwrap_or(u32::MAX);
            for (column, value) in values.iter_mut().zip(row.values) {
                column[record] = value;
            }
        }
        Table { lines, values, sun_at: self.sun_at, refused: 0 }
    }
}

fn tell_leap_days(rows: &[Row], header: &Header, told: &mut Told) {
    let lines: Vec<usize> = rows.iter().filter(|row| row.hour_of_year.is_none()).map(|row| row.line).collect();
    if lines.is_empty() {
        return;
    }
    let said = if header.leap { "" } else { ", though the header says there is none" };
    let text = format!("29 February is left out{said}: the year has 365 days");
    told.note(Note { place: lines_in_words(&lines), text, count: lines.len() });
}

fn tell_order(rows: &[Row], records: &[Option<usize>], told: &mut Told) {
    let placed: Vec<(usize, usize)> =
        rows.iter().zip(records).filter_map(|(row, record)| Some((row.line, (*record)?))).collect();
    let back: Vec<usize> = placed.windows(2).filter(|pair| pair[1].1 < pair[0].1).map(|pair| pair[1].0).collect();
    let (Some(first), Some(last)) = (placed.first(), placed.last()) else { return };
    if back.len() == 1 && last.1 < first.1 {
        let text = "the file does not begin in January: put in the order of the year".to_owned();
        told.note(Note { place: format!("line {}", first.0), text, count: 1 });
    } else if !back.is_empty() {
        let text = "rows in the wrong order: sorted by date and hour".to_owned();
        told.note(Note { place: lines_in_words(&back), text, count: back.len() });
    }
}

fn tell_start(rows: &[Row], records: &[Option<usize>], header: &Header, told: &mut Told) {
    let (Some(row), Some(Some(record)), Some((month, day))) = (rows.first(), records.first(), header.start) else {
        return;
    };
    let said = MONTHS.get(month - 1).map_or(0, |month| month.first) + day - 1;
    let found = record / header.per_hour / 24;
    if said != found {
        let text =
            format!("the rows do not begin on day {day} of month {month}, as DATA PERIODS says: the rows are followed");
        told.note(Note { place: format!("line {}", row.line), text, count: 1 });
    }
}

/// Where the sun stands in a row: mid-hour, unless the minute column has one value within the hour.
fn sun_at(rows: &[Row], per_hour: usize, told: &mut Told) -> f64 {
    const MID_HOUR: f64 = 0.5;
    let first = rows.first().map_or(0, |row| row.minute);
    if per_hour > 1 || first == 0 || first == 60 || rows.iter().any(|row| row.minute != first) {
        return MID_HOUR;
    }
    let text = format!("minute {first}: values are taken to be those at {first} min past the hour, with the sun there");
    told.note(Note { place: "rows".to_owned(), text, count: rows.len() });
    first as f64 / 60.0
}
