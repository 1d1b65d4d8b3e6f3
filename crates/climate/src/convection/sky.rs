//! Long-wave radiation of the sky, and the share of it that a face sees.
//!
//! L = ε_sky · σ · T⁴
//! ε_sky = 0.711 + 0.56 · (T_d/100) + 0.73 · (T_d/100)²
//! T_d = 243.12 · γ / (17.62 − γ),  γ = ln φ + 17.62 · t / (243.12 + t)
//! F_sky = ½ (1 + cos s) · √(½ (1 + cos s)),  F_air = ½ (1 + cos s) − F_sky,  F_ground = ½ (1 − cos s)
//!
//! - L      radiation of a clear sky on level ground   [W/m²]
//! - T, t   outdoor air                                [K, °C]
//! - T_d    dew point                                  [°C]
//! - φ      relative humidity                          [–]
//! - s      tilt of the face from lying                [°]
//! - F_…    share of its view that is as cold as the sky, as warm as the air, and ground
//!
//! Source:      clear sky: Berdahl & Martin 1984, the monthly mean form without the terms of hour and pressure; view shares:
//!              Walton 1983, by which the low sky is as warm as the air. Both from memory, to be confirmed. Dew point: Magnus,
//!              constants of the WMO.
//! Valid for:   dew points −40 to 30 °C; taken at the nearer end beyond.
//! Agreement:   tests/published/films.toml, T07-09, within 0.1 K; the emissivity is between 0.6 and 1 (test below).
//! Not covered: clouds, which radiate more. A clear sky lets a cabinet cool most: at night that is the safe side for the
//!              cold, by day it takes a kelvin or two from the peak of a bare roof.

use super::STEFAN_BOLTZMANN;
use super::radiation::fourth;

/// Dew points between which the emissivity is read, °C.
const DEW_POINTS: (f64, f64) = (-40.0, 30.0);

/// Dew point of air (°C) of some relative humidity (0 to 1), °C. Very dry air is taken to hold a thousandth.
#[must_use]
pub fn dew_point(air: f64, relative_humidity: f64) -> f64 {
    // γ = ln φ + 17.62 · t / (243.12 + t)
    let gamma = libm::log(relative_humidity.clamp(1e-3, 1.0)) + 17.62 * air / (243.12 + air);
    // T_d = 243.12 · γ / (17.62 − γ)
    243.12 * gamma / (17.62 - gamma)
}

/// Emissivity of a clear sky over air of some dew point, °C.
#[must_use]
pub fn clear_sky_emissivity(dew_point: f64) -> f64 {
    let t = dew_point.clamp(DEW_POINTS.0, DEW_POINTS.1) / 100.0;
    // ε_sky = 0.711 + 0.56 · (T_d/100) + 0.73 · (T_d/100)²
    0.711 + 0.56 * t + 0.73 * t * t
}

/// Radiation of a clear sky on level ground, W/m².
#[must_use]
pub fn sky_radiation(air: f64, relative_humidity: f64) -> f64 {
    clear_sky_emissivity(dew_point(air, relative_humidity)) * STEFAN_BOLTZMANN * fourth(air)
}

/// What a face sees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SkySplit {
    /// Share that is as cold as the sky.
    pub sky: f64,
    /// Share that is as warm as the air: the low sky.
    pub air: f64,
    /// Share that is ground.
    pub ground: f64,
}

/// What a face of some tilt sees: 0° lies and looks up, 90° stands, 180° looks down.
#[must_use]
pub fn sky_split(tilt: f64) -> SkySplit {
    // F = ½ (1 + cos s)
    let up = (1.0 + libm::cos(tilt.to_radians())) / 2.0;
    let sky = up * up.sqrt();
    SkySplit { sky, air: up - sky, ground: 1.0 - up }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clear_sky_is_colder_than_the_air() {
        for air in [-30.0, 0.0, 20.0, 45.0] {
            for humidity in [0.0, 0.05, 0.5, 1.0] {
                let emissivity = clear_sky_emissivity(dew_point(air, humidity));
                assert!((0.59..1.0).contains(&emissivity), "{air} {humidity} {emissivity}");
            }
        }
        assert!(sky_radiation(20.0, 0.8) > sky_radiation(20.0, 0.2));
    }

    #[test]
    fn a_face_sees_one_world() {
        for tilt in [0.0, 30.0, 90.0, 180.0] {
            let split = sky_split(tilt);
            assert!((split.sky + split.air + split.ground - 1.0).abs() < 1e-12);
        }
        assert_eq!(sky_split(0.0).sky, 1.0);
        assert!((sky_split(90.0).sky - 0.353_553_390_593).abs() < 1e-9);
    }
}
