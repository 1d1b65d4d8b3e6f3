//! The light on the five faces of a cabinet in every hour of a year.
//!
//! Puts `year.rs`, `extraterrestrial.rs` and `transposition.rs` together; all formulas stand there. Nothing is kept
//! between hours, so that a caller takes from each what it needs.

use super::extraterrestrial::extraterrestrial;
use super::face::{Face, faces};
use super::light::{SkyLight, positive};
use super::position::Refraction;
use super::transposition::{FaceLight, Plane, Sky, SkyModel};
use super::year::{HourSun, YearClock, sun_year};
use crate::Site;

/// Sun and light in one hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HourLight {
    /// Where the sun stands.
    pub sun: HourSun,
    /// On top, front, right, rear and left, in the order of [`faces`].
    pub faces: [FaceLight; 5],
}

/// The light on the five faces in every hour, from the hours of a weather year. A row without weather ends the year.
/// `None` for a place or a time that is none, or a bearing that is not finite.
pub fn light_year<'a, W: IntoIterator<Item = SkyLight>>(
    site: &'a Site,
    clock: &YearClock,
    bearing: f64,
    model: SkyModel,
    weather: W,
) -> Option<impl Iterator<Item = HourLight> + use<'a, W>> {
    if !bearing.is_finite() {
        return None;
    }
    let planes = faces(bearing).map(|face| Plane::at(site, face));
    let level = site.sky_share(Face { tilt: 0.0, azimuth: 0.0 });
    let outside: Vec<f64> = (1..=366).map(extraterrestrial).collect();
    let suns = sun_year(site, clock, Refraction::usual(site))?;
    Some(suns.zip(weather).enumerate().map(move |(row, (sun, light))| {
        let e0 = outside[row / 24 % outside.len()];
        let faces = hour_light(site, &planes, level, &sun, light, e0, model);
        HourLight { sun, faces }
    }))
}

fn hour_light(
    site: &Site,
    planes: &[Plane; 5],
    level: f64,
    sun: &HourSun,
    light: SkyLight,
    e0: f64,
    model: SkyModel,
) -> [FaceLight; 5] {
    if !(light.global > 0.0 || light.direct_normal > 0.0 || light.diffuse > 0.0) {
        return [FaceLight::default(); 5];
    }
    let cos_zenith = sun.direction[2];
    let mut sky = Sky::of(light, cos_zenith, sun.apparent_zenith, e0, model);
    let mut on_ground = positive(light.global);
    if !site.horizon.is_empty() {
        on_ground -= positive(light.diffuse) * (1.0 - level);
        if 90.0 - sun.apparent_zenith <= site.horizon_at(sun.azimuth()) {
            on_ground -= sky.beam * positive(cos_zenith);
            sky = sky.without_sun();
        }
        on_ground = positive(on_ground);
    }
    planes.map(|plane| sky.on(&plane, sun.direction, on_ground))
}
