//! Where a cabinet stands, and what hides the sky from it.
//!
//! The horizon is a ring of elevation angles in equal sectors, clockwise from north, read between them along a straight
//! line. Below it the direct beam is off. Of the sky a face sees the share above it, of an equally bright sky:
//!
//! F = ∫ cos θ dΩ above the horizon / ∫ cos θ dΩ above a flat one
//!
//! - θ  angle between the normal of the face and a piece of sky
//! - Ω  solid angle of that piece
//!
//! Source:      the view factor of a plane to a diffuse source, first principles.
//! Valid for:   the ranges of [`Site::check`].
//! Agreement:   an even horizon of h leaves cos² h of the sky to a level plane and 1 − (2 h + sin 2h) / π to a wall,
//!              within 0.2 % (tests below); the ring is summed in steps of 3°.
//! Not covered: light that comes back from what hides the sky; that is left out. A sun disc half behind the horizon.

use std::f64::consts::PI;

use units::Metres;

use crate::{Face, LOWEST};

/// At most so many sectors make a horizon: one for each degree.
pub const MOST_SECTORS: usize = 360;
/// The ring of sky is summed in so many slices.
const SLICES: u32 = 120;

/// Mean radius of the earth, km (IUGG).
const EARTH_RADIUS: f64 = 6371.0;

/// A place on earth as the sun sees it.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// Degrees, north positive.
    pub latitude: f64,
    /// Degrees, east positive.
    pub longitude: f64,
    /// Height above the sea.
    pub elevation: Metres,
    /// Local standard time less universal time, hours.
    pub utc_offset: f64,
    /// Share of the light on the ground that it sends back.
    pub albedo: f64,
    /// Elevation of the horizon in degrees, in equal sectors clockwise from north; none is a flat one.
    pub horizon: Vec<f64>,
}

/// Something about a site that is outside its range: where, what was found, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SiteProblem {
    /// Which number, such as `latitude` or `horizon[3]`.
    pub place: String,
    /// What was found there.
    pub found: String,
    /// What is allowed there.
    pub allowed: String,
}

impl std::fmt::Display for SiteProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: found {}; allowed: {}", self.place, self.found, self.allowed)
    }
}

impl Site {
    /// Everything that is outside its range; nothing when all may be reckoned with.
    #[must_use]
    pub fn check(&self) -> Vec<SiteProblem> {
        let numbers = [
            ("latitude", self.latitude, -90.0, 90.0, "°"),
            ("longitude", self.longitude, -180.0, 180.0, "°"),
            ("elevation", self.elevation.0, LOWEST.0, 5000.0, " m"),
            ("utc_offset", self.utc_offset, -12.0, 14.0, " h"),
            ("albedo", self.albedo, 0.0, 1.0, ""),
        ];
        let mut problems: Vec<SiteProblem> = numbers
            .into_iter()
            .filter_map(|(place, found, least, most, unit)| outside(place.into(), found, least, most, unit))
            .collect();
        if self.horizon.len() > MOST_SECTORS {
            problems.push(SiteProblem {
                place: "horizon".into(),
                found: format!("{} sectors", self.horizon.len()),
                allowed: format!("at most {MOST_SECTORS} sectors"),
            });
        }
        let sectors = self.horizon.iter().take(MOST_SECTORS).enumerate();
        problems
            .extend(sectors.filter_map(|(index, &angle)| outside(format!("horizon[{index}]"), angle, 0.0, 89.0, "°")));
        problems
    }

    /// How far it is to another place along the ground of a round earth, km.
    #[must_use]
    pub fn distance(&self, other: &Self) -> f64 {
        let (here, there) = (self.latitude.to_radians(), other.latitude.to_radians());
        let half = |angle: f64| {
            let sine = libm::sin(angle / 2.0);
            sine * sine
        };
        let east = (other.longitude - self.longitude).to_radians();
        let chord = half(there - here) + libm::cos(here) * libm::cos(there) * half(east);
        2.0 * EARTH_RADIUS * libm::asin(libm::sqrt(chord.clamp(0.0, 1.0)))
    }

    /// Elevation of the horizon in this direction (degrees clockwise from north), degrees.
    #[must_use]
    pub fn horizon_at(&self, azimuth: f64) -> f64 {
        let sectors = self.horizon.len();
        if sectors == 0 || !azimuth.is_finite() {
            return 0.0;
        }
        let along = azimuth.rem_euclid(360.0) / 360.0 * sectors as f64;
        let (index, part) = (along as usize % sectors, along.fract());
        self.horizon[index] * (1.0 - part) + self.horizon[(index + 1) % sectors] * part
    }

    /// Share of an equally bright sky that the horizon leaves to a face, 0 to 1; 1 with a flat horizon.
    #[must_use]
    pub fn sky_share(&self, face: Face) -> f64 {
        if self.horizon.is_empty() {
            return 1.0;
        }
        let (mut above, mut all) = (0.0, 0.0);
        for slice in 0..SLICES {
            let azimuth = 360.0 * (f64::from(slice) + 0.5) / f64::from(SLICES);
            above += slice_light(face, azimuth, self.horizon_at(azimuth));
            all += slice_light(face, azimuth, 0.0);
        }
        if all > 0.0 { above / all } else { 0.0 }
    }
}

/// Light from an upright slice of an equally bright sky above an elevation, on a face: ∫ cos θ dΩ for one radian of ring.
fn slice_light(face: Face, azimuth: f64, lowest: f64) -> f64 {
    let tilt = face.tilt.to_radians();
    // cos θ = a · sin γ + b · cos γ at the elevation γ
    let a = libm::cos(tilt);
    let b = libm::sin(tilt) * libm::cos((azimuth - face.azimuth).to_radians());
    // The face sees γ from where cos θ > 0: tan γ > −b / a.
    let start = libm::fmax(lowest.to_radians(), libm::atan2(-b, a).clamp(0.0, PI / 2.0));
    // ∫ (a sin γ + b cos γ) cos γ dγ from γ₀ to π/2 = a/2 · cos² γ₀ + b · (π/4 − γ₀/2 − sin 2γ₀ / 4)
    let cosine = libm::cos(start);
    let light = a / 2.0 * cosine * cosine + b * (PI / 4.0 - start / 2.0 - libm::sin(2.0 * start) / 4.0);
    libm::fmax(light, 0.0)
}

fn outside(place: String, found: f64, least: f64, most: f64, unit: &str) -> Option<SiteProblem> {
    let inside = found >= least && found <= most;
    (!inside).then(|| SiteProblem {
        place,
        found: format!("{found}{unit}"),
        allowed: format!("{least}{unit} to {most}{unit}"),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site(horizon: &[f64]) -> Site {
        Site {
            latitude: 45.0,
            longitude: 8.0,
            elevation: Metres(250.0),
            utc_offset: 1.0,
            albedo: 0.2,
            horizon: horizon.to_vec(),
        }
    }

    fn check(found: f64, expected: f64, within: f64) {
        assert!((found - expected).abs() <= within, "{found} instead of {expected}");
    }

    #[test]
    fn the_distance_is_along_the_ground_and_the_shorter_way_round() {
        let at = |latitude: f64, longitude: f64| Site { latitude, longitude, ..site(&[]) };
        // A degree of the equator is 2 π · 6371 km / 360; from pole to pole it is half the way round.
        check(at(0.0, 0.0).distance(&at(0.0, 1.0)), 111.195, 0.001);
        check(at(90.0, 0.0).distance(&at(-90.0, 77.0)), 20_015.087, 0.001);
        check(at(60.0, 10.0).distance(&at(60.0, 11.0)), 55.597, 0.01);
        check(at(-16.8, 179.99).distance(&at(-16.8, -179.99)), 2.129, 0.001);
        check(at(12.0, 34.0).distance(&at(12.0, 34.0)), 0.0, 0.0);
    }

    #[test]
    fn names_every_number_outside_its_range() {
        assert_eq!(site(&[0.0, 89.0]).check(), []);
        let wrong = Site {
            latitude: 90.5,
            longitude: f64::NAN,
            elevation: Metres(-431.0),
            utc_offset: 15.0,
            albedo: 1.5,
            horizon: vec![3.0, -1.0],
        };
        let said: Vec<String> = wrong.check().iter().map(ToString::to_string).collect();
        assert_eq!(
            said,
            [
                "latitude: found 90.5°; allowed: -90° to 90°",
                "longitude: found NaN°; allowed: -180° to 180°",
                "elevation: found -431 m; allowed: -430 m to 5000 m",
                "utc_offset: found 15 h; allowed: -12 h to 14 h",
                "albedo: found 1.5; allowed: 0 to 1",
                "horizon[1]: found -1°; allowed: 0° to 89°",
            ]
        );
    }

    #[test]
    fn too_many_sectors_are_one_problem() {
        let problems = site(&[1.0; MOST_SECTORS + 1]).check();
        assert_eq!(problems.len(), 1);
        assert_eq!(problems[0].to_string(), "horizon: found 361 sectors; allowed: at most 360 sectors");
    }

    #[test]
    fn the_horizon_is_read_between_its_sectors_and_round_the_circle() {
        let four = site(&[0.0, 10.0, 20.0, 30.0]);
        for (azimuth, expected) in [(0.0, 0.0), (45.0, 5.0), (180.0, 20.0), (315.0, 15.0), (360.0, 0.0), (-45.0, 15.0)]
        {
            check(four.horizon_at(azimuth), expected, 1e-12);
        }
        check(site(&[]).horizon_at(123.0), 0.0, 0.0);
        check(site(&[7.0]).horizon_at(123.0), 7.0, 1e-12);
        check(four.horizon_at(f64::NAN), 0.0, 0.0);
    }

    #[test]
    fn an_even_horizon_leaves_the_share_reckoned_by_hand() {
        for degrees in [0.0_f64, 5.0, 20.0, 45.0, 80.0] {
            let h = degrees.to_radians();
            let place = site(&[degrees; 8]);
            let wall = 1.0 - (2.0 * h + libm::sin(2.0 * h)) / PI;
            check(place.sky_share(Face { tilt: 0.0, azimuth: 0.0 }), libm::cos(h) * libm::cos(h), 2e-3);
            check(place.sky_share(Face { tilt: 90.0, azimuth: 77.0 }), wall, 2e-3);
        }
    }

    #[test]
    fn a_hill_takes_most_from_the_wall_that_faces_it() {
        let north = site(&[60.0, 0.0, 0.0, 0.0]);
        let share = |azimuth| north.sky_share(Face { tilt: 90.0, azimuth });
        assert!(share(0.0) < share(90.0) && share(90.0) < share(180.0));
        check(share(90.0), share(270.0), 1e-9);
        check(site(&[]).sky_share(Face { tilt: 90.0, azimuth: 0.0 }), 1.0, 0.0);
    }
}
