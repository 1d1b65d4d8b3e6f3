//! Reading a unit's map between its points.

use units::{Celsius, Watts};

use crate::UnitMap;

impl UnitMap {
    /// Heat moved at these temperatures, bilinear between the points; `None` beyond them.
    #[must_use]
    pub fn capacity_at(&self, inside: Celsius, outside: Celsius) -> Option<Watts> {
        self.between(&self.capacity, inside, outside)
    }

    /// Electrical input at these temperatures, bilinear between the points; `None` beyond them.
    #[must_use]
    pub fn input_at(&self, inside: Celsius, outside: Celsius) -> Option<Watts> {
        self.between(&self.input, inside, outside)
    }

    fn between(&self, table: &[Vec<f64>], inside: Celsius, outside: Celsius) -> Option<Watts> {
        let (row, down) = cell(&self.inside, inside.0)?;
        let (column, across) = cell(&self.outside, outside.0)?;
        let along = |row: &Vec<f64>| Some(row.get(column)? * (1.0 - across) + row.get(column + 1)? * across);
        Some(Watts(along(table.get(row)?)? * (1.0 - down) + along(table.get(row + 1)?)? * down))
    }
}

/// The pair of neighbours that holds a value: the lower one's number, and the share of the way to the upper one.
fn cell(points: &[f64], value: f64) -> Option<(usize, f64)> {
    points.windows(2).enumerate().find_map(|(number, pair)| match pair {
        [low, high] if *low <= value && value <= *high && low < high => Some((number, (value - low) / (high - low))),
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rises by 10 W per kelvin inside, falls by 2 W per kelvin outside.
    fn plane() -> UnitMap {
        let (inside, outside) = (vec![20.0, 30.0, 50.0], vec![-10.0, 0.0, 40.0]);
        let capacity: Vec<Vec<f64>> = inside
            .iter()
            .map(|row| outside.iter().map(|column| 1000.0 + 10.0 * row - 2.0 * column).collect())
            .collect();
        UnitMap { inside, outside, input: capacity.clone(), capacity }
    }

    fn check(inside: f64, outside: f64, expected: Option<f64>) {
        let found = plane().capacity_at(Celsius(inside), Celsius(outside)).map(|watts| watts.0);
        let agrees = match (found, expected) {
            (Some(found), Some(expected)) => (found - expected).abs() < 1e-9,
            (found, expected) => found == expected,
        };
        assert!(agrees, "inside {inside}, outside {outside}: {found:?} instead of {expected:?}");
    }

    #[test]
    fn gives_the_points_and_what_lies_between() {
        check(20.0, -10.0, Some(1220.0));
        check(50.0, 40.0, Some(1420.0));
        check(30.0, 0.0, Some(1300.0));
        check(42.0, 13.0, Some(1394.0));
    }

    #[test]
    fn gives_no_number_beyond_its_points() {
        check(19.9, 0.0, None);
        check(50.1, 0.0, None);
        check(30.0, 40.1, None);
        check(f64::NAN, 0.0, None);
        check(30.0, f64::INFINITY, None);
    }

    #[test]
    fn gives_no_number_when_rows_are_missing() {
        let mut map = plane();
        map.capacity.truncate(1);
        map.input = vec![vec![]; 3];
        assert_eq!(map.capacity_at(Celsius(30.0), Celsius(0.0)), None);
        assert_eq!(map.input_at(Celsius(30.0), Celsius(0.0)), None);
    }
}
