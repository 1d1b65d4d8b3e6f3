//! Reading a climate unit's map: straight lines between its points, nothing beyond them.
//!
//! Source:      the unit's maker; bilinear interpolation is geometry.
//! Valid for:   between the first and last temperature of the map, ends included.

use catalogue::UnitMap;

/// A quantity of the map over the inside temperature, at one outside temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    inside: Vec<f64>,
    values: Vec<f64>,
}

/// Where a value lies between two neighbours of a rising list: index of the lower one and the share of the way.
fn between(list: &[f64], at: f64) -> Option<(usize, f64)> {
    let (first, last) = (list.first()?, list.last()?);
    if !(*first..=*last).contains(&at) {
        return None;
    }
    let upper = list.partition_point(|point| *point <= at).clamp(1, list.len().saturating_sub(1).max(1));
    let Some(high) = list.get(upper) else { return Some((0, 0.0)) };
    let low = list[upper - 1];
    Some((upper - 1, (at - low) / (high - low)))
}

/// The value that share of the way between an entry and the next.
fn blend(list: &[f64], (low, share): (usize, f64)) -> Option<f64> {
    let lower = *list.get(low)?;
    let upper = *list.get(low + 1).unwrap_or(&lower);
    Some(lower + (upper - lower) * share)
}

impl Curve {
    /// Rows of a map at an outside temperature (°C); `None` outside the map or where the map is not whole.
    #[must_use]
    pub fn of(map: &UnitMap, rows: &[Vec<f64>], outside: f64) -> Option<Self> {
        let place = between(&map.outside, outside)?;
        let values: Vec<f64> = rows.iter().map(|row| blend(row, place)).collect::<Option<_>>()?;
        let whole = values.len() == map.inside.len() && !values.is_empty();
        whole.then(|| Self { inside: map.inside.clone(), values })
    }

    /// The value at an inside temperature, °C; `None` outside the map.
    #[must_use]
    pub fn at(&self, inside: f64) -> Option<f64> {
        blend(&self.values, between(&self.inside, inside)?)
    }

    /// Lowest inside temperature of the map, °C.
    #[must_use]
    pub fn lowest_inside(&self) -> f64 {
        self.inside[0]
    }

    /// Highest inside temperature of the map, °C.
    #[must_use]
    pub fn highest_inside(&self) -> f64 {
        self.inside[self.inside.len() - 1]
    }

    /// The greatest value of the curve.
    #[must_use]
    pub fn greatest(&self) -> f64 {
        self.values.iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn map() -> UnitMap {
        UnitMap {
            inside: vec![30.0, 40.0],
            outside: vec![20.0, 50.0],
            capacity: vec![vec![100.0, 40.0], vec![200.0, 110.0]],
            input: vec![vec![10.0, 10.0], vec![12.0, 14.0]],
        }
    }

    fn check(inside: f64, outside: f64, expected: Option<f64>) {
        let map = map();
        let value = Curve::of(&map, &map.capacity, outside).and_then(|curve| curve.at(inside));
        assert_eq!(value, expected, "{inside} inside, {outside} outside");
    }

    #[test]
    fn its_points_come_back() {
        check(30.0, 20.0, Some(100.0));
        check(30.0, 50.0, Some(40.0));
        check(40.0, 20.0, Some(200.0));
        check(40.0, 50.0, Some(110.0));
    }

    #[test]
    fn lines_run_straight_between_them() {
        check(30.0, 35.0, Some(70.0));
        check(35.0, 20.0, Some(150.0));
        check(35.0, 35.0, Some(112.5));
    }

    #[test]
    fn says_so_beyond_the_map() {
        for (inside, outside) in [(29.9, 30.0), (40.1, 30.0), (35.0, 19.9), (35.0, 50.1), (f64::NAN, 30.0)] {
            check(inside, outside, None);
        }
    }

    #[test]
    fn one_point_is_a_map_of_that_point_only() {
        let map =
            UnitMap { inside: vec![35.0], outside: vec![35.0], capacity: vec![vec![500.0]], input: vec![vec![9.0]] };
        let curve = Curve::of(&map, &map.capacity, 35.0).unwrap();
        assert_eq!((curve.at(35.0), curve.at(36.0)), (Some(500.0), None));
    }

    #[test]
    fn a_map_with_a_row_missing_is_refused() {
        let mut map = map();
        map.capacity.pop();
        assert_eq!(Curve::of(&map, &map.capacity, 30.0), None);
        map.capacity.push(Vec::new());
        assert_eq!(Curve::of(&map, &map.capacity, 30.0), None);
    }
}
