//! How much air the rays go through.
//!
//! m = 1 / (cos z + 0.505 72 · (96.079 95 − z)^−1.6364)
//! m' = m · p / 101 325
//!
//! - m   relative air mass: 1 with the sun overhead
//! - m'  absolute air mass
//! - z   apparent zenith angle   [°]
//! - p   pressure                [Pa]
//!
//! Source:      F. Kasten and A. T. Young, Revised optical air mass tables, Applied Optics 28 (22), 1989.
//! Valid for:   a sun above the horizon, z up to 90°.
//! Agreement:   tests/reference/clearsky.csv to all printed digits.
//! Not covered: a sun below the horizon.

/// Pressure the absolute air mass is measured in, Pa.
const SEA_LEVEL_PRESSURE: f64 = 101_325.0;

/// Relative air mass for an apparent zenith angle in degrees; `None` with the sun below the horizon.
#[must_use]
pub fn relative_air_mass(apparent_zenith: f64) -> Option<f64> {
    (0.0..=90.0)
        .contains(&apparent_zenith)
        .then(|| air_mass_of(apparent_zenith, libm::cos(apparent_zenith.to_radians())))
}

/// The same where the cosine is at hand and the sun is known to be up.
pub(crate) fn air_mass_of(apparent_zenith: f64, cos_zenith: f64) -> f64 {
    // m = 1 / (cos z + 0.505 72 · (96.079 95 − z)^−1.6364)
    1.0 / (cos_zenith + 0.505_72 * libm::pow(96.079_95 - apparent_zenith, -1.6364))
}

/// Absolute air mass at a pressure in Pa.
#[must_use]
pub fn absolute_air_mass(relative: f64, pressure: f64) -> f64 {
    relative * pressure / SEA_LEVEL_PRESSURE
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn is_one_overhead_and_thirty_eight_at_the_horizon() {
        assert!((relative_air_mass(0.0).unwrap() - 1.0).abs() < 1e-3);
        // The printed value of the paper's table at the horizon is 38 (from memory, to be confirmed).
        assert!((relative_air_mass(90.0).unwrap() - 38.0).abs() < 0.2);
    }

    #[test]
    fn says_so_outside_its_range() {
        for zenith in [-0.1, 90.1, f64::NAN] {
            assert_eq!(relative_air_mass(zenith), None, "{zenith}");
        }
    }
}
