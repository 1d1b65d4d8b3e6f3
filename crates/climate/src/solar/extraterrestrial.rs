//! What arrives from the sun outside the air.
//!
//! E₀ = S · (1.000 11 + 0.034 221 cos b + 0.001 28 sin b + 0.000 719 cos 2b + 0.000 077 sin 2b),  b = 2π (n − 1) / 365
//!
//! - E₀  on a plane square to the rays   [W/m²]
//! - S   solar constant                  [W/m²]
//! - n   day of the year, 1 to 366
//!
//! Source:      J. W. Spencer, Fourier series representation of the position of the sun, Search 2 (5), 1971.
//! Valid for:   any day; within 0.2 % of the distance of a full ephemeris.
//! Agreement:   tests/reference/clearsky.csv to all printed digits.
//! Not covered: the sun's own change of about 0.1 %.

use std::f64::consts::TAU;

/// The solar constant, W/m²: as in the library the reference values come from. A later figure is 1361.
pub const SOLAR_CONSTANT: f64 = 1366.1;

/// What arrives outside the air on a plane square to the rays, W/m². Days run from 1 on 1 January.
#[must_use]
pub fn extraterrestrial(day_of_year: u32) -> f64 {
    // b = 2π (n − 1) / 365
    let b = TAU * (f64::from(day_of_year) - 1.0) / 365.0;
    let (sin, cos) = libm::sincos(b);
    let (sin2, cos2) = libm::sincos(2.0 * b);
    SOLAR_CONSTANT * (1.000_11 + 0.034_221 * cos + 0.001_28 * sin + 0.000_719 * cos2 + 0.000_077 * sin2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_arrives_in_january_than_in_july() {
        let (january, july) = (extraterrestrial(3), extraterrestrial(185));
        assert!((january / SOLAR_CONSTANT - 1.035).abs() < 1e-3, "{january}");
        assert!((july / SOLAR_CONSTANT - 0.967).abs() < 1e-3, "{july}");
    }

    #[test]
    fn the_year_closes() {
        assert!((extraterrestrial(1) - extraterrestrial(366)).abs() < 1e-9);
    }
}
