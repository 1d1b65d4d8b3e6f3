//! The standard atmosphere below 11 km.
//!
//! h = z · r / (r + z)
//! T = 288.15 − 0.0065 · h
//! p = 101 325 · (T / 288.15)^5.25588
//! ρ = p / (R · T)
//!
//! - z  height above the sea, geometric   [m]
//! - h  the same, geopotential            [m]
//! - r  nominal radius of the earth       [m]
//! - T  temperature                       [K]
//! - p  pressure                          [Pa]
//! - ρ  density                           [kg/m³]
//!
//! Source:      US Standard Atmosphere 1976 / ISO 2533.
//! Valid for:   −430 m to 11 000 m.
//! Agreement:   tests/reference/atmosphere_1976.csv within 0.02 % (the exponent is rounded there and here differently).
//! Not covered: weather; a hot day's density comes from [`crate::density`].

use units::Metres;

use crate::air::GAS_CONSTANT;

/// Lowest height of the method: the shore of the lowest lake.
pub const LOWEST: Metres = Metres(-430.0);
/// Greatest height of the method: the top of the lowest layer.
pub const HIGHEST: Metres = Metres(11_000.0);
/// Density of standard air at sea level, kg/m³.
pub const SEA_LEVEL_DENSITY: f64 = 1.225;

/// Nominal radius of the earth in the standard, m.
const EARTH_RADIUS: f64 = 6_356_766.0;
/// Temperature at sea level, K.
const SEA_LEVEL_TEMPERATURE: f64 = 288.15;
/// Fall of temperature with geopotential height, K/m.
const LAPSE: f64 = 0.0065;
/// Pressure at sea level, Pa.
const SEA_LEVEL_PRESSURE: f64 = 101_325.0;
/// g₀ / (R · lapse), rounded as printed.
const EXPONENT: f64 = 5.255_88;

/// Standard air at a height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandardAir {
    /// Temperature, K.
    pub temperature: f64,
    /// Pressure, Pa.
    pub pressure: f64,
    /// Density, kg/m³.
    pub density: f64,
    /// Density over that at sea level.
    pub density_ratio: f64,
}

/// Standard air at a height above the sea; `None` outside the range of the method.
#[must_use]
pub fn standard_air(elevation: Metres) -> Option<StandardAir> {
    let z = elevation.0;
    if !(LOWEST.0..=HIGHEST.0).contains(&z) {
        return None;
    }
    // h = z · r / (r + z)
    let h = z * EARTH_RADIUS / (EARTH_RADIUS + z);
    // T = 288.15 − 0.0065 · h
    let t = SEA_LEVEL_TEMPERATURE - LAPSE * h;
    // p = 101 325 · (T / 288.15)^5.25588
    let p = SEA_LEVEL_PRESSURE * libm::pow(t / SEA_LEVEL_TEMPERATURE, EXPONENT);
    // ρ = p / (R · T)
    let rho = p / (GAS_CONSTANT * t);
    Some(StandardAir { temperature: t, pressure: p, density: rho, density_ratio: rho / SEA_LEVEL_DENSITY })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sea_level_is_the_reference() {
        let air = standard_air(Metres(0.0)).unwrap();
        assert_eq!((air.temperature, air.pressure), (288.15, 101_325.0));
        assert!((air.density_ratio - 1.0).abs() < 1e-4);
    }

    #[test]
    fn says_so_outside_its_range() {
        for z in [-430.1, 11_000.1, f64::NAN, f64::INFINITY] {
            assert_eq!(standard_air(Metres(z)), None, "{z}");
        }
        assert!(standard_air(LOWEST).is_some() && standard_air(HIGHEST).is_some());
    }

    #[test]
    fn air_grows_thinner_with_height() {
        let mut last = f64::INFINITY;
        for step in 0..=114 {
            let density = standard_air(Metres(-400.0 + 100.0 * f64::from(step))).unwrap().density;
            assert!(density < last);
            last = density;
        }
    }
}
