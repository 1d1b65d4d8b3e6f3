//! Twelve monthly means, from which a year is made where there is no weather file.

use std::f64::consts::PI;

use super::hour::MONTH_NAMES;
use crate::WeatherProblem;

/// The mean weather of each month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthlyMeans {
    /// Outdoor air, °C.
    pub dry_bulb: [f64; 12],
    /// Hottest less coldest hour of a mean day, K.
    pub daily_range: [f64; 12],
    /// Share of the sun of a clear sky that arrives on level ground, 0 to 1.
    pub clearness: [f64; 12],
    /// Wind, m/s.
    pub wind: [f64; 12],
}

/// Daily range that is assumed, K, and the share of the span between the extremes that it may be at most.
const DAILY_RANGE: f64 = 10.0;
const MOST_DAILY_RANGE: f64 = 0.3;
/// Cold spells go further than hot ones: by this share of the span the mean lies above the middle.
const ABOVE_MIDDLE: f64 = 0.05;
/// Share of the span, less the daily range, that the season takes: on the equator, and from [`TEMPERATE`] degrees on.
const SEASON_TROPICS: f64 = 0.3;
const SEASON_TEMPERATE: f64 = 0.5;
const TEMPERATE: f64 = 30.0;
/// Clearness and wind that are assumed.
const CLEARNESS: f64 = 0.7;
const WIND: f64 = 3.0;
/// The warmest month of the northern half of the earth is July, that of the southern January.
const JULY: f64 = 6.0;

impl MonthlyMeans {
    /// What is likely where only latitude, hottest and coldest hour are known: an assumption, to be replaced by the means of
    /// the place.
    ///
    /// With S = hottest − coldest: daily range R = 10 K, at most 0.3 S; mean of the year 0.05 S above the middle of the two;
    /// the months follow a cosine with an amplitude of (S − R) / 2 times 0.3 on the equator, rising to 0.5 at 30° and beyond,
    /// warmest in July, in January in the southern half. Clearness 0.7, wind 3 m/s. Common practice, no source.
    ///
    /// `None` where the hottest is not above the coldest, or a number is not finite.
    #[must_use]
    pub fn likely(latitude: f64, hottest: f64, coldest: f64) -> Option<Self> {
        let span = hottest - coldest;
        if !(latitude.is_finite() && span.is_finite() && span > 0.0) {
            return None;
        }
        let range = libm::fmin(DAILY_RANGE, MOST_DAILY_RANGE * span);
        let towards_temperate = libm::fmin(latitude.abs() / TEMPERATE, 1.0);
        let season = SEASON_TROPICS + (SEASON_TEMPERATE - SEASON_TROPICS) * towards_temperate;
        let amplitude = season * (span - range) / 2.0;
        let mean = (hottest + coldest) / 2.0 + ABOVE_MIDDLE * span;
        let warmest = if latitude < 0.0 { 0.0 } else { JULY };
        Some(Self {
            dry_bulb: std::array::from_fn(|month| {
                mean + amplitude * libm::cos((month as f64 - warmest) / 12.0 * 2.0 * PI)
            }),
            daily_range: [range; 12],
            clearness: [CLEARNESS; 12],
            wind: [WIND; 12],
        })
    }

    /// Every number outside its range, by month.
    #[must_use]
    pub fn check(&self) -> Vec<WeatherProblem> {
        let columns = [
            ("mean air", "°C", &self.dry_bulb, -90.0, 60.0),
            ("daily range", "K", &self.daily_range, 0.0, crate::WIDEST_RANGE),
            ("clearness", "", &self.clearness, 0.0, 1.0),
            ("wind", "m/s", &self.wind, 0.0, 50.0),
        ];
        let mut problems = Vec::new();
        for (name, unit, values, from, to) in columns {
            for (value, month) in values.iter().zip(MONTH_NAMES) {
                if !(from..=to).contains(value) {
                    let (found, allowed) = (format!("{value} {unit}"), format!("{from} to {to} {unit}"));
                    problems.push(WeatherProblem::new(format!("{name}, {month}"), found.trim(), allowed.trim()));
                }
            }
        }
        problems
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_likely_months_are_reckoned_as_stated() {
        // S = 60, R = 10, amplitude 0.5 · 25 = 12.5, mean 10 + 3 = 13.
        let north = MonthlyMeans::likely(45.0, 40.0, -20.0).unwrap();
        assert!((north.dry_bulb[6] - 25.5).abs() < 1e-12 && (north.dry_bulb[0] - 0.5).abs() < 1e-12, "{north:?}");
        assert_eq!(north.daily_range[3], 10.0);
        let south = MonthlyMeans::likely(-45.0, 40.0, -20.0).unwrap();
        assert!((south.dry_bulb[0] - 25.5).abs() < 1e-12);
        // S = 10, R = 3, amplitude 0.3 · 3.5 = 1.05.
        let tropics = MonthlyMeans::likely(0.0, 34.0, 24.0).unwrap();
        assert!((tropics.dry_bulb[6] - 30.55).abs() < 1e-12 && tropics.daily_range[0] == 3.0);
    }

    #[test]
    fn says_so_outside_its_range() {
        assert_eq!(MonthlyMeans::likely(45.0, 10.0, 10.0), None);
        assert_eq!(MonthlyMeans::likely(f64::NAN, 10.0, 0.0), None);
        let mut means = MonthlyMeans::likely(45.0, 40.0, -20.0).unwrap();
        assert_eq!(means.check(), []);
        (means.clearness[2], means.wind[11]) = (1.2, f64::NAN);
        let said: Vec<String> = means.check().iter().map(ToString::to_string).collect();
        assert_eq!(
            said,
            ["clearness, March: found 1.2; allowed: 0 to 1", "wind, December: found NaN m/s; allowed: 0 to 50 m/s",]
        );
    }
}
