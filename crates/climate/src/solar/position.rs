//! Where the sun stands, to the full accuracy of a published algorithm.
//!
//! The position without air is that of the crate `solar-positioning`; refraction is added here:
//!
//! r = p / 1010 · 283 / (273 + T) · 1.02 / (60 · tan(e + 10.3 / (e + 5.11)))
//!
//! - r  by so much the sun seems higher           [°]
//! - e  elevation without air                     [°]
//! - p  pressure                                  [mbar]
//! - T  temperature                               [°C]
//!
//! Source:      I. Reda and A. Andreas, Solar position algorithm for solar radiation applications, NREL/TP-560-34302, 2003
//!              (revised 2008).
//! Valid for:   years −2000 to 6000; refraction from −0.833° (the upper rim on the horizon) upwards.
//! Agreement:   its worked example to the printed digits (tests/published/sun.toml); tests/reference/solar_position.csv
//!              within 0.0001°.
//! Not covered: the bending of rays on a given day near the horizon, which may differ by 0.1° and more.

use solar_positioning::time::JulianDate;
use solar_positioning::{Location, SolarPositions};

use crate::{Site, standard_air};

/// Terrestrial time less universal time, s: the value of 2024 to 2026, rounded (from memory, to be confirmed). A second
/// more or less moves the sun by 0.000 02°, so that one figure serves all years of a cabinet.
pub const DELTA_T: f64 = 69.2;

/// Refraction begins with the upper rim of the sun on the horizon: half its disc and the usual bending, degrees.
pub(crate) const RIM: f64 = -(0.266_67 + 0.5667);

/// The air that bends the rays.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Refraction {
    /// Pressure, Pa.
    pub pressure: f64,
    /// Temperature, °C.
    pub temperature: f64,
}

impl Refraction {
    /// Air of the standard pressure of a site, at a temperate 12 °C. Outside the standard atmosphere the nearest height
    /// in it is taken.
    #[must_use]
    pub fn usual(site: &Site) -> Self {
        let height = units::Metres(site.elevation.0.clamp(crate::LOWEST.0, crate::HIGHEST.0));
        let pressure = standard_air(height).map_or(101_325.0, |air| air.pressure);
        Self { pressure, temperature: 12.0 }
    }

    /// p / 1010 · 283 / (273 + T) · 1.02 / 60, with p in mbar: what of the formula stays the same for the same air.
    pub(crate) fn strength(self) -> f64 {
        self.pressure / 100.0 / 1010.0 * (283.0 / (273.0 + self.temperature)) * 1.02 / 60.0
    }
}

/// By how much the sun seems higher than it is, degrees, at an elevation in degrees.
pub(crate) fn bending(strength: f64, elevation: f64) -> f64 {
    if elevation < RIM {
        return 0.0;
    }
    // r = p / 1010 · 283 / (273 + T) · 1.02 / (60 · tan(e + 10.3 / (e + 5.11)))
    strength / libm::tan((elevation + 10.3 / (elevation + 5.11)).to_radians())
}

/// Where the sun stands at one moment, seen from a site.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunPosition {
    /// Angle from straight up, without air, degrees.
    pub zenith: f64,
    /// Angle from straight up as it is seen through the air, degrees.
    pub apparent_zenith: f64,
    /// Degrees clockwise from north.
    pub azimuth: f64,
}

impl SunPosition {
    /// Unit vector towards the sun as it is seen: east, north, up.
    #[must_use]
    pub fn direction(&self) -> [f64; 3] {
        let (sin_zenith, up) = libm::sincos(self.apparent_zenith.to_radians());
        let (east, north) = libm::sincos(self.azimuth.to_radians());
        [sin_zenith * east, sin_zenith * north, up]
    }
}

/// Days since noon of 1 January 4713 BC, universal time; hours may run over the day's ends. `None` for a date that is none.
#[must_use]
pub fn julian_day(year: i32, month: u32, day: u32, hours: f64) -> Option<f64> {
    let midnight = JulianDate::from_utc(year, month, day, 0, 0, 0.0, 0.0).ok()?.julian_date();
    hours.is_finite().then(|| midnight + hours / 24.0)
}

/// Where the sun stands at a moment ([`julian_day`], universal time); `delta_t` in seconds, usually [`DELTA_T`].
/// `None` for a place or a time that is none.
#[must_use]
pub fn sun_position(site: &Site, julian_day: f64, delta_t: f64, air: Refraction) -> Option<SunPosition> {
    let time = JulianDate::new(julian_day, delta_t).ok()?;
    let place = Location { latitude: site.latitude, longitude: site.longitude };
    let found = SolarPositions::new().at_from_julian(time, place, site.elevation.0, None).ok()?;
    let zenith = found.zenith_angle();
    let apparent_zenith = zenith - bending(air.strength(), 90.0 - zenith);
    apparent_zenith.is_finite().then_some(SunPosition { zenith, apparent_zenith, azimuth: found.azimuth() })
}

#[cfg(test)]
mod tests {
    use units::Metres;

    use super::*;

    fn site(latitude: f64) -> Site {
        Site { latitude, longitude: 0.0, elevation: Metres(0.0), utc_offset: 0.0, albedo: 0.2, horizon: vec![] }
    }

    fn at(latitude: f64, month: u32, hours: f64) -> Option<SunPosition> {
        let place = site(latitude);
        sun_position(&place, julian_day(2025, month, 21, hours)?, DELTA_T, Refraction::usual(&place))
    }

    #[test]
    fn the_noon_sun_is_south_of_the_north_and_north_of_the_south() {
        let (north, south) = (at(50.0, 6, 12.0).unwrap(), at(-50.0, 6, 12.0).unwrap());
        assert!((north.azimuth - 180.0).abs() < 2.0 && (north.zenith - 26.6).abs() < 0.1, "{north:?}");
        assert!(south.azimuth < 2.0 || south.azimuth > 358.0, "{south:?}");
        let [east, to_north, up] = north.direction();
        assert!(east.abs() < 0.02 && to_north < -0.4 && up > 0.89);
    }

    #[test]
    fn air_lifts_the_sun_only_near_and_above_the_horizon() {
        let strength = Refraction { pressure: 101_000.0, temperature: 10.0 }.strength();
        assert_eq!(bending(strength, -0.9), 0.0);
        // Half a degree at the horizon, one minute of arc at 45°: common practice, no source.
        assert!((bending(strength, 0.0) - 0.48).abs() < 0.01);
        assert!((bending(strength, 45.0) * 60.0 - 1.0).abs() < 0.05);
        assert!(bending(strength, 90.0).abs() < 1e-3);
    }

    #[test]
    fn says_so_for_a_place_or_a_time_that_is_none() {
        assert_eq!(at(90.5, 6, 12.0), None);
        assert_eq!(at(50.0, 6, f64::NAN), None);
        assert_eq!(julian_day(2025, 2, 29, 0.0), None);
        assert!(julian_day(2024, 2, 29, 0.0).is_some());
        let place = site(50.0);
        assert_eq!(sun_position(&place, 1e9, DELTA_T, Refraction::usual(&place)), None);
        let cold = Refraction { pressure: 101_000.0, temperature: -273.0 };
        assert_eq!(sun_position(&place, julian_day(2025, 6, 21, 12.0).unwrap(), DELTA_T, cold), None);
    }
}
