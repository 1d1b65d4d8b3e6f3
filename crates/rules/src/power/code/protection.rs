//! Breakers: standard ratings, small conductors, loads that last, outlets, fault current.

use project::Conductor;

use super::file::of_metal;
use super::{Code, Entry, Size, Table};

/// A figure that arithmetic has left a hair above a rating still has that rating, A.
const HAIR: f64 = 1e-9;

impl Code {
    /// The least standard rating of at least so many amperes.
    #[must_use]
    pub fn standard_rating(&'static self, amperes: f64) -> Option<Entry<f64>> {
        let rows = self.tables.ratings.rows.iter();
        let mut ratings = rows.flat_map(|row| row.amperes.iter().map(|rating| (*rating, row.read)));
        let (rating, read) = ratings.find(|(rating, _)| *rating + HAIR >= amperes)?;
        self.entry(Table::Ratings, read, rating)
    }

    /// The largest breaker of a small conductor, A; none where the rule does not speak of the size.
    #[must_use]
    pub fn small_conductor_limit(&'static self, size: Size, metal: Conductor) -> Option<Entry<f64>> {
        let table = &self.tables.small_conductors;
        let row = of_metal(metal, &table.copper, &table.aluminium).iter().find(|row| row.size == size)?;
        self.entry(Table::SmallConductors, row.read, row.amperes)
    }

    /// How many times a load counts that lasts for three hours or more.
    #[must_use]
    pub fn continuous_factor(&'static self) -> Option<Entry<f64>> {
        let table = &self.tables.continuous;
        (table.factor >= 1.0).then_some(())?;
        self.entry(Table::Continuous, table.read, table.factor)
    }

    /// Whether an outlet outdoors must open on a fault to ground: V to ground, A.
    #[must_use]
    pub fn outdoor_outlet_guarded(&'static self, volts_to_ground: f64, amperes: f64) -> Option<Entry<bool>> {
        let table = &self.tables.guarded_outlets;
        let guarded = volts_to_ground <= table.volts && amperes <= table.amperes;
        self.entry(Table::GuardedOutlets, table.read, guarded)
    }
}

#[cfg(test)]
mod tests {
    use project::CodeEdition;

    use super::*;

    fn code() -> &'static Code {
        Code::of(CodeEdition::E2020)
    }

    #[track_caller]
    fn check<T: PartialEq + std::fmt::Debug>(found: Option<Entry<T>>, expected: Option<T>) {
        assert_eq!(found.map(|entry| entry.value), expected);
    }

    #[test]
    fn the_next_standard_rating_is_taken() {
        for (amperes, rating) in [(0.0, 15.0), (15.0, 15.0), (15.1, 20.0), (50.1, 60.0), (90.1, 100.0), (400.1, 450.0)]
        {
            check(code().standard_rating(amperes), Some(rating));
        }
        check(code().standard_rating(16.0 * 1.25), Some(20.0));
        check(code().standard_rating(1200.0), Some(1200.0));
        check(code().standard_rating(1200.1), None);
        check(code().standard_rating(f64::NAN), None);
    }

    #[test]
    fn small_conductors_have_small_breakers() {
        check(code().small_conductor_limit(Size::Awg14, Conductor::Copper), Some(15.0));
        check(code().small_conductor_limit(Size::Awg10, Conductor::Copper), Some(30.0));
        check(code().small_conductor_limit(Size::Awg8, Conductor::Copper), None);
        check(code().small_conductor_limit(Size::Awg12, Conductor::Aluminium), Some(15.0));
        check(code().small_conductor_limit(Size::Awg14, Conductor::Aluminium), None);
    }

    #[test]
    fn outlets_outdoors_are_guarded_up_to_the_edges_of_the_rule() {
        check(code().outdoor_outlet_guarded(120.0, 50.0), Some(true));
        check(code().outdoor_outlet_guarded(120.0, 50.1), Some(false));
        check(code().outdoor_outlet_guarded(150.0, 20.0), Some(true));
        check(code().outdoor_outlet_guarded(150.1, 20.0), Some(false));
    }
}
