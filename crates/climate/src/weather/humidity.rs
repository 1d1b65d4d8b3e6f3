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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn air_at_its_dew_point_is_full() {
        assert_eq!(relative(12.0, 12.0), 1.0);
        assert_eq!(relative(12.0, 13.0), 1.0);
    }

    #[test]
    fn saturation_is_as_in_every_table_of_steam() {
        // 2339 Pa at 20 °C and 7384 Pa at 40 °C, as printed in tables of steam (from memory).
        assert!((saturation(20.0) - 2339.0).abs() < 8.0);
        assert!((saturation(40.0) - 7384.0).abs() < 25.0);
    }
}
