//! Where the sun stands in every hour of a year, fast.
//!
//! Seen from the earth's centre the sun moves smoothly. Its declination and its hour angle are taken by the full algorithm
//! every eight days and read between by a cubic through four points; the rest is closed:
//!
//! H  = 360° · t + 180° + λ + q
//! s  = (−cos δ sin H,  sin δ cos φ − cos δ sin φ cos H,  sin δ sin φ + cos δ cos φ cos H − sin 8.794″)
//!
//! - s  towards the sun: east, north, up; then made a unit vector and lifted by the air as in `position.rs`
//! - H  hour angle at the site, t the day of universal time from midnight
//! - q  equation of time as an angle, the interpolated part
//! - δ  declination;  φ, λ latitude and longitude
//!
//! Source:      closed form of NREL/TP-560-34302 steps 3.9 to 3.14, with the parallax of a mean sun.
//! Valid for:   years −2000 to 6000, any place.
//! Agreement:   `position.rs` within 0.001° in every hour of a year (tests below).
//! Not covered: as `position.rs`.

use std::f64::consts::PI;

use solar_positioning::time::JulianDate;
use solar_positioning::{Location, SolarPositions};

use super::position::{Refraction, bending};
use crate::{DELTA_T, Site, julian_day};

/// Days from one full reckoning to the next.
const STEP: f64 = 8.0;
/// Mean parallax of the sun, radians: 8.794″.
const PARALLAX: f64 = 8.794 / 3600.0 * PI / 180.0;
/// The longest year, hours.
pub const LONGEST_YEAR: usize = 8784;

/// Which moments the rows of a year stand for. Row k is the hour from k to k + 1 after midnight of 1 January, local
/// standard time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YearClock {
    /// Year whose calendar the sun follows.
    pub year: i32,
    /// Rows, at most [`LONGEST_YEAR`].
    pub hours: usize,
    /// Hours into a row at which the sun is taken, −24 to 24: 0.5 is the middle of the hour.
    pub sun_offset: f64,
}

impl YearClock {
    /// A year of so many rows that is no year in particular: 2019, or 2020 where there is a 29 February; sun at mid-hour.
    #[must_use]
    pub const fn typical(hours: usize) -> Self {
        Self { year: if hours > 8760 { 2020 } else { 2019 }, hours, sun_offset: 0.5 }
    }

    const fn holds(&self) -> bool {
        self.hours <= LONGEST_YEAR && self.sun_offset >= -24.0 && self.sun_offset <= 24.0
    }
}

/// The sun in one hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HourSun {
    /// Unit vector towards the sun as it is seen: east, north, up.
    pub direction: [f64; 3],
    /// Angle from straight up as it is seen, degrees. Below the horizon's rim there is no bending in it.
    pub apparent_zenith: f64,
}

impl HourSun {
    /// Degrees clockwise from north.
    #[must_use]
    pub fn azimuth(&self) -> f64 {
        libm::atan2(self.direction[0], self.direction[1]).to_degrees().rem_euclid(360.0)
    }
}

/// The sun in every row of a year; `None` for a place or a time that is none.
pub fn sun_year(site: &Site, clock: &YearClock, air: Refraction) -> Option<impl Iterator<Item = HourSun> + use<>> {
    if !(clock.holds() && site.check().is_empty()) {
        return None;
    }
    let midnight = julian_day(clock.year, 1, 1, 0.0)?;
    let first = clock.sun_offset - site.utc_offset;
    let almanac = Almanac::of(midnight, first / 24.0, clock.hours)?;
    let (sin_latitude, cos_latitude) = libm::sincos(site.latitude.to_radians());
    let longitude = site.longitude;
    let strength = air.strength();
    if !strength.is_finite() {
        return None;
    }
    Some((0..clock.hours).map(move |row| {
        let hours = row as f64 + first;
        let (equation, declination) = almanac.at(hours / 24.0);
        let of_day = hours - 24.0 * (hours / 24.0).floor();
        // H = 360° · t + 180° + λ + q
        let (sin_h, cos_h) = libm::sincos((15.0 * of_day + 180.0 + longitude + equation).to_radians());
        let (sin_d, cos_d) = libm::sincos(declination);
        let east = -cos_d * sin_h;
        let north = sin_d * cos_latitude - cos_d * sin_latitude * cos_h;
        let up = sin_d * sin_latitude + cos_d * cos_latitude * cos_h - PARALLAX;
        seen([east, north, up], strength)
    }))
}

/// The sun as it is seen through the air, from a vector towards it that need not be of length one.
fn seen([east, north, up]: [f64; 3], strength: f64) -> HourSun {
    let level = (east * east + north * north).sqrt();
    let length = (level * level + up * up).sqrt();
    let elevation = libm::atan2(up, level).to_degrees();
    let lift = bending(strength, elevation);
    let direction = if lift == 0.0 || level == 0.0 {
        [east / length, north / length, up / length]
    } else {
        // Turned upwards by the lift, in the plane that holds the sun and straight up.
        let (sin_lift, cos_lift) = libm::sincos(lift.to_radians());
        let along = (level * cos_lift - up * sin_lift) / (level * length);
        [east * along, north * along, (up * cos_lift + level * sin_lift) / length]
    };
    HourSun { direction, apparent_zenith: 90.0 - elevation - lift }
}

/// Hour angle and declination of the sun every few days.
struct Almanac {
    /// Day of the first sample, from the first midnight.
    start: f64,
    /// Cubic in the part of each step: equation of time in degrees, declination in radians.
    steps: Vec<[[f64; 4]; 2]>,
}

impl Almanac {
    fn of(midnight: f64, first_day: f64, hours: usize) -> Option<Self> {
        let start = first_day.floor();
        // Whole steps over all rows, and one sample more on either side.
        let count = (hours as f64 / 24.0 / STEP).ceil() as usize + 1;
        let samples = (0..count + 3)
            .map(|index| sample(midnight + start + STEP * (index as f64 - 1.0)))
            .collect::<Option<Vec<[f64; 2]>>>()?;
        let steps = samples.windows(4).map(|four| [0, 1].map(|which| cubic(four, which))).collect();
        Some(Self { start, steps })
    }

    /// Equation of time in degrees and declination in radians at a day from the first midnight.
    fn at(&self, day: f64) -> (f64, f64) {
        let along = (day - self.start) / STEP;
        let index = along as usize;
        let Some([equation, declination]) = self.steps.get(index) else { return (0.0, 0.0) };
        let part = along - index as f64;
        let read = |c: &[f64; 4]| ((c[3] * part + c[2]) * part + c[1]) * part + c[0];
        (read(equation), read(declination))
    }
}

/// Equation of time (degrees) and declination (radians) at a Julian day, by the full algorithm.
fn sample(day: f64) -> Option<[f64; 2]> {
    let prepared = SolarPositions::new().for_time_from_julian(JulianDate::new(day, DELTA_T).ok()?).ok()?;
    // Seen from the pole on the meridian of Greenwich the sun's azimuth is its hour angle there, half a turn on.
    let pole = prepared.at(Location { latitude: 90.0, longitude: 0.0 }, 0.0, None).ok()?;
    let hour_angle = pole.azimuth() - 180.0;
    // Julian days begin at noon, when the hour angle of a mean sun is zero.
    let equation = (hour_angle - 360.0 * (day - day.floor()) + 180.0).rem_euclid(360.0) - 180.0;
    Some([equation, prepared.declination().to_radians()])
}

/// The cubic through four samples one step apart, in the part of the step from the second to the third.
fn cubic(four: &[[f64; 2]], which: usize) -> [f64; 4] {
    let [a, b, c, d] = [0, 1, 2, 3].map(|index| four[index][which]);
    [b, -a / 3.0 - b / 2.0 + c - d / 6.0, (a + c) / 2.0 - b, (d - a) / 6.0 + (b - c) / 2.0]
}

#[cfg(test)]
mod tests {
    use units::Metres;

    use super::*;
    use crate::solar::position::RIM;
    use crate::sun_position;

    /// Asked for is 0.01°, degrees.
    const WITHIN: f64 = 1e-3;

    fn site(latitude: f64, longitude: f64, utc_offset: f64) -> Site {
        Site { latitude, longitude, elevation: Metres(300.0), utc_offset, albedo: 0.2, horizon: vec![] }
    }

    /// Greatest angle between the fast and the full position in any hour, degrees.
    fn greatest_difference(place: &Site, clock: &YearClock) -> f64 {
        let air = Refraction::usual(place);
        let midnight = julian_day(clock.year, 1, 1, 0.0).unwrap();
        let mut greatest = 0.0_f64;
        for (row, sun) in sun_year(place, clock, air).unwrap().enumerate() {
            let hours = row as f64 + clock.sun_offset - place.utc_offset;
            let full = sun_position(place, midnight + hours / 24.0, DELTA_T, air).unwrap();
            let (a, b) = (sun.direction, full.direction());
            let chord = (0..3).map(|axis| (a[axis] - b[axis]) * (a[axis] - b[axis])).sum::<f64>().sqrt();
            let angle = chord.to_degrees().max((sun.apparent_zenith - full.apparent_zenith).abs());
            // Within this of the rim one of the two may have refraction and the other not.
            if (90.0 - full.zenith - RIM).abs() > 1e-3 {
                greatest = greatest.max(angle);
            }
        }
        greatest
    }

    #[test]
    fn every_hour_agrees_with_the_full_algorithm() {
        let mut greatest = 0.0_f64;
        for (latitude, longitude, utc_offset) in
            [(36.1, -79.95, -5.0), (-33.9, 151.2, 10.0), (0.0, 179.9, 12.0), (78.2, 15.6, 1.0), (-90.0, 0.0, 0.0)]
        {
            let place = site(latitude, longitude, utc_offset);
            greatest = greatest.max(greatest_difference(&place, &YearClock::typical(8760)));
        }
        assert!(greatest <= WITHIN, "{greatest}");
    }

    #[test]
    fn leap_years_other_years_and_odd_offsets_agree_too() {
        let place = site(45.0, 8.0, 1.0);
        for (year, hours, sun_offset) in [(2020, 8784, 0.5), (1975, 8760, -23.9), (2060, 8760, 24.0), (2019, 1, 0.176)]
        {
            let found = greatest_difference(&place, &YearClock { year, hours, sun_offset });
            assert!(found <= WITHIN, "{year}: {found}");
        }
    }

    #[test]
    fn says_so_for_a_place_or_a_time_that_is_none() {
        let air = Refraction::usual(&site(45.0, 8.0, 1.0));
        let none = |place: &Site, clock: YearClock| sun_year(place, &clock, air).is_none();
        let usual = YearClock::typical(8760);
        assert!(none(&site(91.0, 8.0, 1.0), usual));
        assert!(none(&site(45.0, f64::NAN, 1.0), usual));
        for clock in [
            YearClock { hours: 8785, ..usual },
            YearClock { sun_offset: f64::NAN, ..usual },
            YearClock { sun_offset: 25.0, ..usual },
            YearClock { year: 9000, ..usual },
        ] {
            assert!(none(&site(45.0, 8.0, 1.0), clock), "{clock:?}");
        }
        let absolute_zero = Refraction { pressure: 1e5, temperature: -273.0 };
        assert!(sun_year(&site(45.0, 8.0, 1.0), &usual, absolute_zero).is_none());
        assert_eq!(sun_year(&site(45.0, 8.0, 1.0), &YearClock::typical(0), air).unwrap().count(), 0);
    }

    #[test]
    fn the_sun_rises_in_the_east_of_both_halves_of_the_earth() {
        for latitude in [40.0, -40.0] {
            let place = site(latitude, 0.0, 0.0);
            let day: Vec<HourSun> =
                sun_year(&place, &YearClock::typical(24), Refraction::usual(&place)).unwrap().collect();
            let up: Vec<f64> = day.iter().filter(|sun| sun.direction[2] > 0.0).map(HourSun::azimuth).collect();
            assert!(up[0] > 45.0 && up[0] < 135.0, "{up:?}");
            assert!(up[up.len() - 1] > 225.0 && up[up.len() - 1] < 315.0, "{up:?}");
        }
    }
}
