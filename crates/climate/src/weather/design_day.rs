//! A design day from the brief's own temperatures: the hottest hour with the range of the day below it, or the coldest with
//! the range above it.
//!
//! T(k) = T_max − f(k) · R
//!
//! - T(k)   outdoor air in row k                    [°C]
//! - T_max  hottest hour of the day                 [°C]
//! - f(k)   share of the daily range, 0 to 1        [–]
//! - R      daily range                             [K]
//!
//! Source:      ASHRAE Fundamentals (2009 on), fractions of the daily temperature range, from memory, to be confirmed.
//! Valid for:   ranges of 0 to [`WIDEST_RANGE`] K.
//! Agreement:   extremes and range to the last bit but one (tests below).
//! Not covered: wet bulb; a change of weather within the day.

use super::humidity;
use crate::{Hour, SkyLight};

/// The widest daily range that is taken, K.
pub const WIDEST_RANGE: f64 = 40.0;

/// Shares of the daily range below the hottest hour, for hours 1 to 24.
pub(super) const FRACTIONS: [f64; 24] = [
    0.88, 0.92, 0.95, 0.98, 1.00, 0.98, 0.91, 0.74, 0.55, 0.38, 0.23, 0.13, 0.05, 0.00, 0.00, 0.06, 0.14, 0.24, 0.39,
    0.50, 0.59, 0.68, 0.75, 0.82,
];
/// Where they come from, in words.
pub(super) const FRACTIONS_ARE: &str = "ASHRAE fractions of the daily range, from memory, to be confirmed";

/// What a design day is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DesignDay {
    /// Hottest hour, °C.
    pub hottest: f64,
    /// Hottest less coldest hour, K.
    pub range: f64,
    /// Wind all day, m/s.
    pub wind: f64,
    /// Pressure all day, Pa.
    pub pressure: f64,
}

impl DesignDay {
    /// The day whose hottest hour is given, °C, with its range, K. Still air of sea level, until they are set.
    #[must_use]
    pub const fn hot(hottest: f64, range: f64) -> Self {
        Self { hottest, range, wind: 0.0, pressure: 101_325.0 }
    }

    /// The day whose coldest hour is given, °C, with its range, K. Still air of sea level, until they are set.
    #[must_use]
    pub const fn cold(coldest: f64, range: f64) -> Self {
        Self::hot(coldest + range, range)
    }

    /// The day in rows, with the sun (usually a clear sky, or none) of each row. `None` where a number is not finite, or the
    /// range outside 0 to [`WIDEST_RANGE`].
    #[must_use]
    pub fn hours(&self, sun: &[SkyLight; 24]) -> Option<[Hour; 24]> {
        let finite = [self.hottest, self.wind, self.pressure].iter().all(|number| number.is_finite());
        if !finite || !(0.0..=WIDEST_RANGE).contains(&self.range) {
            return None;
        }
        // T(k) = T_max − f(k) · R
        let air = FRACTIONS.map(|fraction| self.hottest - fraction * self.range);
        let humidity = humidity::of_day(&air);
        Some(std::array::from_fn(|row| Hour {
            dry_bulb: air[row],
            global: sun[row].global,
            direct_normal: sun[row].direct_normal,
            diffuse: sun[row].diffuse,
            wind: self.wind,
            relative_humidity: humidity[row],
            pressure: self.pressure,
            horizontal_infrared: None,
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(day: DesignDay, expected: (f64, f64)) {
        let air = day.hours(&[SkyLight::default(); 24]).unwrap().map(|hour| hour.dry_bulb);
        let found = air.iter().fold((f64::MAX, f64::MIN), |(low, high), air| (low.min(*air), high.max(*air)));
        assert!((found.0 - expected.0).abs() < 1e-12 && (found.1 - expected.1).abs() < 1e-12, "{found:?}");
    }

    #[test]
    fn a_day_reaches_both_ends_of_its_range() {
        check(DesignDay::hot(46.0, 14.0), (32.0, 46.0));
        check(DesignDay::cold(-30.0, 8.0), (-30.0, -22.0));
        check(DesignDay::hot(20.0, 0.0), (20.0, 20.0));
    }

    #[test]
    fn the_day_is_hottest_in_the_afternoon_and_has_the_sun_it_was_given() {
        let mut sun = [SkyLight::default(); 24];
        sun[12] = SkyLight { global: 1000.0, direct_normal: 900.0, diffuse: 110.0 };
        let day = DesignDay { wind: 2.0, ..DesignDay::hot(46.0, 14.0) }.hours(&sun).unwrap();
        assert_eq!((day[14].dry_bulb, day[12].light(), day[3].wind), (46.0, sun[12], 2.0));
    }

    #[test]
    fn says_so_outside_its_range() {
        let sun = [SkyLight::default(); 24];
        for day in [
            DesignDay::hot(46.0, -0.1),
            DesignDay::hot(46.0, 40.1),
            DesignDay::hot(f64::NAN, 10.0),
            DesignDay { wind: f64::INFINITY, ..DesignDay::hot(46.0, 10.0) },
        ] {
            assert_eq!(day.hours(&sun), None, "{day:?}");
        }
        assert!(DesignDay::hot(46.0, WIDEST_RANGE).hours(&sun).is_some());
    }
}
