//! Humidity from a dew point.
//!
//! e = 610.94 · exp(17.625 · T / (T + 243.04))
//! φ = e(T_d) / e(T)
//!
//! - T, T_d  dry bulb and dew point   [°C]
//! - e       pressure of saturation   [Pa]
//! - φ       relative humidity        [–]
//!
//! Source:      Alduchov & Eskridge, Improved Magnus form approximation of saturation vapor pressure (1996), from memory.
//! Valid for:   −40 to 50 °C, over water also below freezing, as weather services report it.
//! Agreement:   tests/tests/weather_file.rs, a year within 0.7 points of humidity for dew points above freezing.
//! Not covered: ice; the pressure of the air.

/// Pressure of saturated vapour over water, Pa.
fn saturation(celsius: f64) -> f64 {
    610.94 * libm::exp(17.625 * celsius / (celsius + 243.04))
}

/// Relative humidity (0 to 1) of air at a temperature and with a dew point, both in °C.
pub(super) fn relative(dry_bulb: f64, dew_point: f64) -> f64 {
    libm::fmin(saturation(dew_point) / saturation(dry_bulb), 1.0)
}

/// The moistest dew point that is assumed, °C.
const HIGHEST_DEW_POINT: f64 = 20.0;

/// Relative humidity (0 to 1) through a day of which only the air's temperature (°C) is known.
///
/// The dew point is taken to be the day's lowest temperature, but at most 20 °C: common practice, no source. Damp air makes the
/// sky warmer, which on a hot day is the safe side.
pub(super) fn of_day(dry_bulbs: &[f64; 24]) -> [f64; 24] {
    let lowest = dry_bulbs.iter().copied().fold(HIGHEST_DEW_POINT, libm::fmin);
    dry_bulbs.map(|dry_bulb| relative(dry_bulb, lowest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn air_at_its_dew_point_is_full() {
        assert_eq!(relative(12.0, 12.0), 1.0);
        assert_eq!(relative(12.0, 13.0), 1.0);
    }

    #[test]
    fn a_day_is_full_at_its_coldest_and_never_damper_than_assumed() {
        let cool: [f64; 24] = std::array::from_fn(|hour| hour as f64);
        assert_eq!(of_day(&cool)[0], 1.0);
        assert!(of_day(&cool)[23] < 0.3);
        assert!((of_day(&[49.0; 24])[5] - relative(49.0, 20.0)).abs() < 1e-12);
    }

    #[test]
    fn saturation_is_as_in_every_table_of_steam() {
        // 2339 Pa at 20 °C and 7384 Pa at 40 °C, as printed in tables of steam (from memory).
        assert!((saturation(20.0) - 2339.0).abs() < 8.0);
        assert!((saturation(40.0) - 7384.0).abs() < 25.0);
    }
}
