//! The discharge of a plant at the temperatures that a chart shows: hot, as rated, and cold; all at the end of its life.

use units::Celsius;

use super::discharge::{Discharge, discharge};
use super::plant::Plant;
use super::temperatures::{RATED, cold, hot};
use crate::Case;

/// When a curve is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum When {
    /// At the hottest hour.
    Hot,
    /// At the temperature at which capacities are rated.
    Rated,
    /// On the coldest day.
    Cold,
}

/// A discharge at one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// When.
    pub when: When,
    /// Temperature of the cells.
    pub cells: Celsius,
    /// The discharge.
    pub discharge: Discharge,
}

/// The curves of a case, hot, rated and cold; those that are out of range, or cannot be reckoned, are left out.
#[must_use]
pub fn curves(case: &Case) -> Vec<Curve> {
    let Ok(plant) = Plant::of(case) else { return Vec::new() };
    let cold = || cold(case).ok().map(|cold| cold.cells);
    let of = |(when, cells): (When, Option<Celsius>)| {
        let cells = cells?;
        Some(Curve { when, cells, discharge: discharge(&plant, cells)? })
    };
    [(When::Hot, hot(case)), (When::Rated, Some(RATED)), (When::Cold, cold())].into_iter().filter_map(of).collect()
}

#[cfg(test)]
mod tests {
    use units::Kelvins;

    use super::super::testing::{direct, lead, plant};
    use super::*;
    use crate::heat::testing::Desk;

    #[test]
    fn cold_lasts_shortest_and_what_is_out_of_range_is_left_out() {
        let mut desk = plant(vec![], vec![direct(300.0)]);
        let place = desk.plinth();
        desk.add(lead(24, 100.0), place);
        desk.project.brief.daily_range = Kelvins(0.0);
        desk.project.brief.coldest = Celsius(0.0);
        let all = desk.with(curves);
        let when: Vec<When> = all.iter().map(|curve| curve.when).collect();
        assert_eq!(when, [When::Hot, When::Rated, When::Cold]);
        let hours: Vec<f64> = all.iter().map(|curve| curve.discharge.hours()).collect();
        assert!(hours[0] == hours[1] && hours[2] < hours[1], "{hours:?}");
        desk.project.brief.coldest = Celsius(-10.0);
        assert_eq!(desk.with(curves).len(), 2);
        assert!(Desk::new().with(curves).is_empty());
    }
}
