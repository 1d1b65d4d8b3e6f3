//! What is said of a year in a few numbers.
//!
//! A quantile lies on a straight line between the two values next to it: with n values in order, v₀ to vₙ₋₁, the one that a
//! share q lies below is at the place q · (n − 1).
//!
//! Source:      the usual linear quantile; 0.4 % and 99.6 % are the shares of North American design practice.
//! Valid for:   any finite values.
//! Agreement:   tests/reference/weather_statistics.json to 1e-9.
//! Not covered: definitions by rank, which differ from it by up to one place.

use crate::{HOURS, MONTHS, WeatherYear};

/// Share of the hours that are hotter than the hot design value.
const HOT_SHARE: f64 = 0.004;

/// A year's outdoor air in a few numbers, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirStatistics {
    /// Hottest hour.
    pub max: f64,
    /// Coldest hour.
    pub min: f64,
    /// Mean of the year.
    pub mean: f64,
    /// Mean of each month.
    pub monthly: [f64; 12],
    /// Exceeded in 0.4 % of the hours.
    pub hot: f64,
    /// Exceeded in 99.6 % of the hours.
    pub cold: f64,
}

impl WeatherYear {
    /// The dry bulb of every hour, °C.
    #[must_use]
    pub fn dry_bulbs(&self) -> Vec<f64> {
        self.hours.iter().map(|hour| hour.dry_bulb).collect()
    }

    /// The outdoor air of the year in a few numbers; `None` for a year without hours.
    #[must_use]
    pub fn air_statistics(&self) -> Option<AirStatistics> {
        let air = self.dry_bulbs();
        Some(AirStatistics {
            max: quantile(&air, 1.0)?,
            min: quantile(&air, 0.0)?,
            mean: mean(&air)?,
            monthly: monthly_means(&air)?,
            hot: quantile(&air, 1.0 - HOT_SHARE)?,
            cold: quantile(&air, HOT_SHARE)?,
        })
    }
}

fn mean(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

/// The mean of each month of hourly values; `None` when they are not a year.
#[must_use]
pub fn monthly_means(hourly: &[f64]) -> Option<[f64; 12]> {
    let mut means = [0.0; 12];
    for (place, month) in means.iter_mut().zip(MONTHS) {
        *place = mean(hourly.get(month.hours())?)?;
    }
    (hourly.len() == HOURS).then_some(means)
}

/// The value that a share (0 to 1) of all lies below; `None` without values, for another share, or for not-a-number.
#[must_use]
pub fn quantile(values: &[f64], share: f64) -> Option<f64> {
    if !(0.0..=1.0).contains(&share) || values.is_empty() || values.iter().any(|value| value.is_nan()) {
        return None;
    }
    let mut sorted = values.to_vec();
    sorted.sort_unstable_by(f64::total_cmp);
    let place = share * (sorted.len() - 1) as f64;
    let below = place.floor();
    let (low, part) = (*sorted.get(below as usize)?, place - below);
    let high = sorted.get(below as usize + 1).copied().unwrap_or(low);
    Some(low + (high - low) * part)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(share: f64, expected: Option<f64>) {
        assert_eq!(quantile(&[4.0, 1.0, 3.0, 2.0], share), expected, "{share}");
    }

    #[test]
    fn a_quantile_lies_between_its_neighbours() {
        check(0.0, Some(1.0));
        check(0.5, Some(2.5));
        check(1.0, Some(4.0));
        check(0.25, Some(1.75));
    }

    #[test]
    fn says_so_outside_its_range() {
        for share in [-0.1, 1.1, f64::NAN] {
            check(share, None);
        }
        assert_eq!(quantile(&[], 0.5), None);
        assert_eq!(quantile(&[1.0, f64::NAN], 0.5), None);
        assert_eq!(monthly_means(&[1.0; 8759]), None);
        assert_eq!(monthly_means(&[1.0; 8784]), None);
    }
}
