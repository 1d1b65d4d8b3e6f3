//! Twelve monthly means, from which a year is made where there is no weather file.

use crate::{MONTHS, WeatherProblem};

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

impl MonthlyMeans {
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
            for (value, month) in values.iter().zip(MONTHS) {
                if !(from..=to).contains(value) {
                    let (found, allowed) = (format!("{value} {unit}"), format!("{from} to {to} {unit}"));
                    problems.push(WeatherProblem::new(format!("{name}, {}", month.name), found.trim(), allowed.trim()));
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
    fn says_so_outside_its_range() {
        let mut means = MonthlyMeans {
            dry_bulb: [-90.0; 12],
            daily_range: [crate::WIDEST_RANGE; 12],
            clearness: [1.0; 12],
            wind: [0.0; 12],
        };
        assert_eq!(means.check(), []);
        (means.clearness[2], means.wind[11]) = (1.2, f64::NAN);
        let said: Vec<String> = means.check().iter().map(ToString::to_string).collect();
        assert_eq!(
            said,
            ["clearness, March: found 1.2; allowed: 0 to 1", "wind, December: found NaN m/s; allowed: 0 to 50 m/s",]
        );
    }
}
