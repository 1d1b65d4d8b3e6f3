//! One hour of weather, and a year of them.
//!
//! Row k is the hour [k, k + 1) of local standard time in a year of 365 days.

use crate::{Site, SkyLight};

/// Weather during one hour.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Hour {
    /// Temperature of the outdoor air, °C.
    pub dry_bulb: f64,
    /// Irradiance on level ground, W/m².
    pub global: f64,
    /// Irradiance of the beam on a face turned to the sun, W/m².
    pub direct_normal: f64,
    /// Irradiance of the sky on level ground, W/m².
    pub diffuse: f64,
    /// Speed of the wind, m/s.
    pub wind: f64,
    /// Relative humidity, 0 to 1.
    pub relative_humidity: f64,
    /// Pressure of the air, Pa.
    pub pressure: f64,
    /// Long-wave radiation of the sky on level ground, W/m², where somebody has measured it.
    pub horizontal_infrared: Option<f64>,
}

/// Something that was corrected or assumed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// Where, such as `lines 12 and 15` or `wind`.
    pub place: String,
    /// What was done.
    pub text: String,
    /// In how many places.
    pub count: usize,
}

impl std::fmt::Display for Note {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.place, self.text)
    }
}

/// Why a weather year cannot be had: where, what was found, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WeatherProblem {
    /// Where, such as `line 12, dry bulb`.
    pub place: String,
    /// What was found there.
    pub found: String,
    /// What is allowed there.
    pub allowed: String,
}

impl WeatherProblem {
    pub(crate) fn new(place: impl Into<String>, found: impl Into<String>, allowed: impl Into<String>) -> Self {
        Self { place: place.into(), found: found.into(), allowed: allowed.into() }
    }
}

impl std::fmt::Display for WeatherProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: found {}; allowed: {}", self.place, self.found, self.allowed)
    }
}

/// A year of weather at a site.
#[derive(Clone, Debug, PartialEq)]
pub struct WeatherYear {
    /// What it is, in words.
    pub name: String,
    /// Where it was measured, or is taken to be.
    pub site: Site,
    /// [`crate::HOURS`] rows, each on the grid of [`Hour::kept`].
    pub hours: Vec<Hour>,
    /// Where in its row the sun stands: 0.5 is mid-hour.
    pub sun_at: f64,
    /// What was corrected or assumed.
    pub notes: Vec<Note>,
}

impl Hour {
    /// Its sun and sky.
    #[must_use]
    pub fn light(&self) -> SkyLight {
        SkyLight { global: self.global, direct_normal: self.direct_normal, diffuse: self.diffuse }
    }

    /// The same hour on the grid that is kept, sent and reckoned with: 0.01 °C, 0.1 W/m², 0.01 m/s, 0.1 % of humidity, 10 Pa.
    ///
    /// Every reader of weather rounds to it, so that a year taken out of the store has the bits it was put in with. The
    /// loss is at most half a step, far below what a station measures.
    #[must_use]
    pub fn kept(self) -> Self {
        Self {
            dry_bulb: rounded(self.dry_bulb, 100.0),
            global: rounded(self.global, 10.0),
            direct_normal: rounded(self.direct_normal, 10.0),
            diffuse: rounded(self.diffuse, 10.0),
            wind: rounded(self.wind, 100.0),
            relative_humidity: rounded(self.relative_humidity, 1000.0),
            pressure: libm::round(self.pressure / 10.0) * 10.0,
            horizontal_infrared: self.horizontal_infrared.map(|value| rounded(value, 10.0)),
        }
    }
}

/// Rounded to the next of so many steps in one.
fn rounded(value: f64, steps: f64) -> f64 {
    // Adding nothing turns −0 into 0.
    libm::round(value * steps) / steps + 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_twice_changes_nothing_more() {
        let hour = Hour {
            dry_bulb: -11.114_999,
            global: 812.349,
            direct_normal: 0.049,
            diffuse: -0.01,
            wind: 3.456_789,
            relative_humidity: 0.123_49,
            pressure: 95_123.0,
            horizontal_infrared: Some(311.06),
        };
        let kept = hour.kept();
        assert_eq!(kept, kept.kept());
        let expected = Hour {
            dry_bulb: -11.11,
            global: 812.3,
            direct_normal: 0.0,
            diffuse: 0.0,
            wind: 3.46,
            relative_humidity: 0.123,
            pressure: 95_120.0,
            horizontal_infrared: Some(311.1),
        };
        assert_eq!(kept, expected);
        assert!(kept.diffuse.is_sign_positive());
    }
}
