//! Columns of a year with their gaps, and how gaps are bridged.

use super::SHORT_GAP;
use super::fields::{FIELDS, Field};
use super::rows::Table;
use super::told::Told;
use crate::weather::humidity;
use crate::{Note, WeatherProblem, when};

/// Most hours of a year for which rows may be missing.
const MOST_MISSING: usize = 24;
/// So many gaps are named; the others are counted.
const MOST_NAMED: usize = 5;

/// The records of a year, column by column.
pub(super) struct Columns {
    values: [Vec<f64>; FIELDS],
    lines: Vec<u32>,
    refused: usize,
    /// Records in an hour.
    pub per_hour: usize,
    /// Where in its row the sun stands.
    pub sun_at: f64,
}

/// What became of the gaps of a column: records.
#[derive(Default)]
pub(super) struct Gaps {
    /// Read between their neighbours.
    pub bridged: Vec<usize>,
    /// Left without a value.
    pub left: Vec<usize>,
}

impl Columns {
    pub(super) fn new(table: Table, per_hour: usize) -> Self {
        Self { values: table.values, lines: table.lines, refused: table.refused, per_hour, sun_at: table.sun_at }
    }

    /// The line of a record; none when its row is missing.
    pub(super) fn line(&self, record: usize) -> Option<usize> {
        self.lines.get(record).filter(|line| **line != 0).map(|line| *line as usize)
    }

    /// The records of one hour.
    pub(super) fn records(&self, field: Field, row: usize) -> &[f64] {
        let from = row * self.per_hour;
        self.values[field.index].get(from..from + self.per_hour).unwrap_or_default()
    }

    /// Records without a value.
    pub(super) fn missing(&self, field: Field) -> usize {
        self.values[field.index].iter().filter(|value| value.is_nan()).count()
    }

    /// Puts one value into these records, and says into how many.
    pub(super) fn put(&mut self, field: Field, records: &[usize], value: f64) -> usize {
        for record in records {
            self.values[field.index][*record] = value;
        }
        records.len()
    }

    /// Fills humidity from dry bulb and dew point where it is missing, and says in how many records.
    pub(super) fn humidity_from_dew_point(&mut self) -> usize {
        let mut filled = 0;
        for record in 0..self.lines.len() {
            let (dry_bulb, dew_point) =
                (self.values[Field::DRY_BULB.index][record], self.values[Field::DEW_POINT.index][record]);
            let place = &mut self.values[Field::HUMIDITY.index][record];
            if place.is_nan() && !dry_bulb.is_nan() && !dew_point.is_nan() {
                *place = 100.0 * humidity::relative(dry_bulb, dew_point);
                filled += 1;
            }
        }
        filled
    }

    /// Says which rows are missing; refuses too many of them.
    pub(super) fn tell_missing_rows(&self, told: &mut Told) {
        let runs = runs(&self.lines, |line| *line == 0);
        let records: usize = runs.iter().map(|(_, length)| length).sum();
        // A row that was refused has been told of.
        if records <= self.refused {
            return;
        }
        let mut named: Vec<String> = runs.iter().take(MOST_NAMED).map(|run| self.run_in_words(*run)).collect();
        if runs.len() > MOST_NAMED {
            named.push(format!("{} more gaps", runs.len() - MOST_NAMED));
        }
        let named = named.join("; ");
        let longest = runs.iter().map(|(_, length)| *length).max().unwrap_or(0);
        if records > MOST_MISSING * self.per_hour || longest > SHORT_GAP * self.per_hour {
            let found = format!("{records} of {} missing: {named}", self.lines.len());
            let allowed = format!("at most {SHORT_GAP} h in one place and {MOST_MISSING} h in the year missing");
            told.problem(WeatherProblem::new("rows", found, allowed));
        } else {
            let text = format!("missing: read between their neighbours ({named})");
            told.note(Note { place: "rows".to_owned(), text, count: records });
        }
    }

    fn run_in_words(&self, (start, length): (usize, usize)) -> String {
        let last = (start + length - 1) % self.lines.len();
        let (first, last) = (start / self.per_hour, last / self.per_hour);
        if first == last { when(first) } else { format!("{} to {}", when(first), when(last)) }
    }

    /// Reads gaps of at most so many hours between their neighbours, across the turn of the year too.
    pub(super) fn bridge(&mut self, field: Field, most_hours: usize) -> Gaps {
        let column = &mut self.values[field.index];
        let records = column.len();
        let mut gaps = Gaps::default();
        for (start, length) in runs(column, |value| value.is_nan()) {
            let inside = (start..start + length).map(|record| record % records);
            if length > most_hours * self.per_hour {
                gaps.left.extend(inside);
                continue;
            }
            let before = column[(start + records - 1) % records];
            let after = column[(start + length) % records];
            for (step, record) in inside.enumerate() {
                column[record] = before + (after - before) * ((step + 1) as f64 / (length + 1) as f64);
                gaps.bridged.push(record);
            }
        }
        gaps
    }
}

/// Start and length of each run in a circle of records; all of them are one run that begins at 0.
fn runs<T>(records: &[T], is_in: impl Fn(&T) -> bool) -> Vec<(usize, usize)> {
    let count = records.len();
    // Begun behind a record that is in no run, no run is cut in two.
    let Some(outside) = records.iter().position(|record| !is_in(record)) else { return vec![(0, count)] };
    let mut runs: Vec<(usize, usize)> = Vec::new();
    let mut inside = false;
    for step in 0..count {
        let record = (outside + step) % count;
        let now = is_in(&records[record]);
        match runs.last_mut() {
            Some(run) if now && inside => run.1 += 1,
            _ if now => runs.push((record, 1)),
            _ => {}
        }
        inside = now;
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::HOURS;

    #[test]
    fn runs_go_round_the_turn_of_the_year() {
        let is_one = |value: &i32| *value == 1;
        assert_eq!(runs(&[1, 0, 1, 1, 0, 1], is_one), [(2, 2), (5, 2)]);
        assert_eq!(runs(&[1, 1, 1], is_one), [(0, 3)]);
        assert_eq!(runs(&[0, 0], is_one), []);
    }

    #[test]
    fn a_gap_is_read_between_its_neighbours_and_a_long_one_is_left() {
        let mut column = vec![4.0; HOURS];
        column[0] = f64::NAN;
        column[HOURS - 1] = f64::NAN;
        column[1] = 7.0;
        column[100..104].fill(f64::NAN);
        let mut values: [Vec<f64>; FIELDS] = Default::default();
        values[Field::WIND.index] = column;
        let mut columns = Columns { values, lines: vec![1; HOURS], refused: 0, per_hour: 1, sun_at: 0.5 };
        let gaps = columns.bridge(Field::WIND, 3);
        assert_eq!(gaps.bridged, [HOURS - 1, 0]);
        assert_eq!(gaps.left, [100, 101, 102, 103]);
        assert_eq!(
            (columns.records(Field::WIND, HOURS - 1), columns.records(Field::WIND, 0)),
            (&[5.0][..], &[6.0][..])
        );
    }
}
