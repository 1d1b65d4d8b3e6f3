//! From sun and sky to the light on a face.
//!
//! beam   = B · max(cos θ, 0)
//! ground = G · ρ · (1 − cos β) / 2
//! sky    = i · (1 + cos β) / 2 + c · max(cos θ, 0) + b · sin β, never less than zero
//!
//! | model      | i even sky  | c round the sun                | b band at the horizon |
//! |---|---|---|---|
//! | isotropic  | D           | 0                              | 0       |
//! | Hay–Davies | D · (1 − A) | D · A / max(cos z, 0.017 45)   | 0       |
//! | Perez      | D · (1 − F₁)| D · F₁ / max(cos z, cos 85°)   | D · F₂  |
//!
//! - B, G, D  direct normal, global and diffuse on level ground   [W/m²]
//! - θ        angle between the face's normal and the sun as it is seen
//! - β        tilt of the face;  z apparent zenith angle;  ρ albedo
//! - A        B / E₀, at most 1;  E₀ outside the air   [W/m²]
//! - F₁, F₂   brightness of the sky round the sun and at the horizon, by Perez from clearness ε and brightness Δ:
//!   ε = ((D + B) / D + 1.041 z³) / (1 + 1.041 z³) with z in radians,  Δ = D · m / E₀,  m relative air mass
//!
//! What would go wrong with a low sun, and what is done about it:
//!
//! - From an apparent zenith angle of 90° on the beam is off, whatever the data say: the middle of such an hour lies in
//!   the night. What arrives from the sky then is isotropic, and with Perez, whose air mass ends there, nothing.
//! - Divided by the cosine of a low sun a little light in the sky would become a spike on a wall. The cosine has a least
//!   value, and B + c is held to E₀: sun and the sky round it never bring more than arrives outside the air.
//! - No light in the sky gives none on a face; Perez would divide nothing by nothing.
//! - Less than nothing and numbers that are none count as no light.
//!
//! Behind a raised horizon (see [`crate::Site`]) the beam and the sky round the sun are off, the even sky and its band
//! are lessened by [`crate::Site::sky_share`], and what the ground sends back is lessened by what no longer reaches it.
//!
//! Source:      B. Y. H. Liu and R. C. Jordan, 1963; J. E. Hay and J. A. Davies, 1980; R. Perez et al., Solar Energy 44 (5),
//!              1990, with its set for all sites.
//! Valid for:   any face and any sun; E₀ > 0.
//! Agreement:   tests/reference/poa_faces.csv to all printed digits; yearly sums of two weather files within 0.01 %
//!              (tests/reference/weather_statistics.json, beam off below the horizon).
//! Not covered: neighbours other than through the horizon; light the cabinet's own plinth or pad sends back.

use std::f64::consts::PI;

use super::air_mass::air_mass_of;
use super::face::Face;
use super::light::{SkyLight, larger, positive, smaller};
use crate::Site;

/// How the light of the sky is shared out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SkyModel {
    /// Every piece of sky is as bright as any other: on walls in the sun less than there is.
    Isotropic,
    /// Part of it comes from round the sun.
    HayDavies,
    /// Part of it comes from round the sun, part from the horizon, by the clearness of the hour.
    #[default]
    Perez,
}

/// Light on a face, W/m².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FaceLight {
    /// Straight from the sun.
    pub beam: f64,
    /// From the sky.
    pub sky: f64,
    /// From the ground.
    pub ground: f64,
}

impl FaceLight {
    /// All of it.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.beam + self.sky + self.ground
    }
}

/// Light on a face under a flat horizon: towards the sun as it is seen (east, north, up), the light of the moment, what
/// arrives outside the air (W/m²), and the share of it that the ground sends back.
#[must_use]
pub fn face_light(
    face: Face,
    sun: [f64; 3],
    light: SkyLight,
    extraterrestrial: f64,
    albedo: f64,
    model: SkyModel,
) -> FaceLight {
    let plane = Plane::flat(face, albedo);
    let apparent_zenith = libm::acos(sun[2].clamp(-1.0, 1.0)).to_degrees();
    let sky = Sky::of(light, sun[2], apparent_zenith, extraterrestrial, model);
    sky.on(&plane, sun, positive(light.global))
}

/// What of a face stays the same all year.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Plane {
    normal: [f64; 3],
    /// (1 + cos β) / 2
    sky_view: f64,
    /// ρ (1 − cos β) / 2
    ground_view: f64,
    /// sin β
    band_view: f64,
    /// Share of the sky that the horizon leaves.
    sky_share: f64,
}

impl Plane {
    fn flat(face: Face, albedo: f64) -> Self {
        let (sin_tilt, cos_tilt) = libm::sincos(face.tilt.to_radians());
        Self {
            normal: face.normal(),
            sky_view: (1.0 + cos_tilt) / 2.0,
            ground_view: albedo * (1.0 - cos_tilt) / 2.0,
            band_view: sin_tilt,
            sky_share: 1.0,
        }
    }

    pub(crate) fn at(site: &Site, face: Face) -> Self {
        Self { sky_share: site.sky_share(face), ..Self::flat(face, site.albedo) }
    }
}

/// The light of one moment, ready to be put on any face.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sky {
    /// Straight from the sun, square to its rays, W/m².
    pub(crate) beam: f64,
    /// i, c and b of the table, W/m².
    even: f64,
    round_the_sun: f64,
    band: f64,
}

impl Sky {
    pub(crate) fn of(light: SkyLight, cos_zenith: f64, apparent_zenith: f64, e0: f64, model: SkyModel) -> Self {
        let up = apparent_zenith < 90.0;
        let beam = if up { positive(light.direct_normal) } else { 0.0 };
        let diffuse = positive(light.diffuse);
        let (even, round_the_sun, band) = match model {
            _ if diffuse == 0.0 => (0.0, 0.0, 0.0),
            SkyModel::Isotropic => (diffuse, 0.0, 0.0),
            SkyModel::HayDavies => {
                let a = smaller(beam / e0, 1.0);
                (diffuse * (1.0 - a), diffuse * a / larger(cos_zenith, 0.017_45), 0.0)
            }
            SkyModel::Perez if up => {
                let (f1, f2) = perez(diffuse, beam, cos_zenith, apparent_zenith, e0);
                (diffuse * (1.0 - f1), diffuse * f1 / larger(cos_zenith, COS_85), diffuse * f2)
            }
            SkyModel::Perez => (0.0, 0.0, 0.0),
        };
        // B + c ≤ E₀
        let round_the_sun = smaller(round_the_sun, positive(e0 - beam));
        Self { beam, even, round_the_sun, band }
    }

    /// The same with the sun behind a raised horizon.
    pub(crate) fn without_sun(self) -> Self {
        Self { beam: 0.0, round_the_sun: 0.0, ..self }
    }

    /// Light on a face, with the light on the ground round about.
    pub(crate) fn on(&self, plane: &Plane, sun: [f64; 3], on_ground: f64) -> FaceLight {
        let [x, y, z] = plane.normal;
        let facing = positive(x * sun[0] + y * sun[1] + z * sun[2]);
        let sky = (self.even * plane.sky_view + self.band * plane.band_view) * plane.sky_share;
        FaceLight {
            beam: self.beam * facing,
            sky: positive(sky + self.round_the_sun * facing),
            ground: on_ground * plane.ground_view,
        }
    }
}

/// cos 85°, the least cosine of the zenith angle by Perez.
const COS_85: f64 = 0.087_155_742_747_658_17;

/// Upper ends of the first seven classes of clearness.
const CLEARNESS: [f64; 7] = [1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2];

/// f₁₁, f₁₂, f₁₃, f₂₁, f₂₂, f₂₃ of each class: Perez et al. 1990, table 6, all sites.
const FACTORS: [[f64; 6]; 8] = [
    [-0.008, 0.588, -0.062, -0.060, 0.072, -0.022],
    [0.130, 0.683, -0.151, -0.019, 0.066, -0.029],
    [0.330, 0.487, -0.221, 0.055, -0.064, -0.026],
    [0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
    [0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
    [1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
    [1.060, -1.600, -0.359, 0.264, -1.127, 0.131],
    [0.678, -0.327, -0.250, 0.156, -1.377, 0.251],
];

/// F₁ and F₂ with light in the sky and the sun up.
fn perez(diffuse: f64, beam: f64, cos_zenith: f64, apparent_zenith: f64, e0: f64) -> (f64, f64) {
    let z = apparent_zenith * (PI / 180.0);
    // ε = ((D + B) / D + 1.041 z³) / (1 + 1.041 z³)
    let k = 1.041 * z * z * z;
    let clearness = ((diffuse + beam) / diffuse + k) / (1.0 + k);
    // Δ = D · m / E₀
    let delta = diffuse * air_mass_of(apparent_zenith, cos_zenith) / e0;
    let class = CLEARNESS.iter().filter(|&&end| clearness >= end).count();
    let [f11, f12, f13, f21, f22, f23] = FACTORS[class];
    (positive(f11 + f12 * delta + f13 * z), f21 + f22 * delta + f23 * z)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::faces;

    const MODELS: [SkyModel; 3] = [SkyModel::Isotropic, SkyModel::HayDavies, SkyModel::Perez];
    const SUNNY: SkyLight = SkyLight { global: 665.685, direct_normal: 800.0, diffuse: 100.0 };

    fn sun(zenith: f64, azimuth: f64) -> [f64; 3] {
        let (sin_zenith, up) = libm::sincos(f64::to_radians(zenith));
        let (east, north) = libm::sincos(f64::to_radians(azimuth));
        [sin_zenith * east, sin_zenith * north, up]
    }

    fn check(found: f64, expected: f64) {
        assert!((found - expected).abs() <= 1e-3, "{found} instead of {expected}");
    }

    #[test]
    fn a_south_wall_gets_what_is_reckoned_by_hand() {
        // cos 45° · 800, 100 / 2, 665.685 · 0.2 / 2
        let wall = Face { tilt: 90.0, azimuth: 180.0 };
        let found = face_light(wall, sun(45.0, 180.0), SUNNY, 1366.0, 0.2, SkyModel::Isotropic);
        check(found.beam, 565.685);
        check(found.sky, 50.0);
        check(found.ground, 66.5685);
        check(found.total(), 682.2539);
        // Hay–Davies: A = 800 / 1366; sky = 100 · (A · 1 + (1 − A) / 2)
        let hay = face_light(wall, sun(45.0, 180.0), SUNNY, 1366.0, 0.2, SkyModel::HayDavies);
        check(hay.sky, 100.0 * (800.0 / 1366.0 + (1.0 - 800.0 / 1366.0) / 2.0));
    }

    #[test]
    fn the_beam_is_off_below_the_horizon() {
        let wall = Face { tilt: 90.0, azimuth: 90.0 };
        for model in MODELS {
            let on = face_light(wall, sun(89.99, 90.0), SUNNY, 1366.0, 0.2, model);
            assert!(on.beam > 799.0, "{on:?}");
            for zenith in [90.001, 100.0, 180.0] {
                let off = face_light(wall, sun(zenith, 90.0), SUNNY, 1366.0, 0.2, model);
                assert_eq!(off.beam, 0.0);
                let expected = if model == SkyModel::Perez { 0.0 } else { 50.0 };
                check(off.sky, expected);
            }
        }
    }

    #[test]
    fn a_low_sun_makes_no_spike() {
        let hazy = SkyLight { global: 330.0, direct_normal: 900.0, diffuse: 300.0 };
        for face in faces(0.0) {
            for model in MODELS {
                for zenith in [85.0, 88.0, 89.0, 89.9, 89.999] {
                    let found = face_light(face, sun(zenith, 90.0), hazy, 1366.0, 0.0, model);
                    // Sun with what is round it, and at most the whole even sky and its band.
                    assert!(found.total() <= 1366.0 + 300.0, "{model:?} {zenith} {found:?}");
                }
            }
        }
    }

    #[test]
    fn no_light_in_the_sky_gives_none_on_a_face() {
        let bare = SkyLight { global: 800.0, direct_normal: 800.0, diffuse: 0.0 };
        for face in faces(30.0) {
            for model in MODELS {
                let found = face_light(face, sun(30.0, 100.0), bare, 1366.0, 0.2, model);
                assert_eq!(found.sky, 0.0, "{model:?}");
                assert!(found.beam.is_finite() && found.ground.is_finite());
            }
        }
    }

    #[test]
    fn less_than_nothing_and_missing_numbers_are_no_light() {
        for bad in [-9.0, f64::NAN] {
            let light = SkyLight { global: bad, direct_normal: bad, diffuse: bad };
            for model in MODELS {
                let found = face_light(Face { tilt: 90.0, azimuth: 0.0 }, sun(45.0, 0.0), light, 1366.0, 0.2, model);
                assert_eq!(found, FaceLight::default(), "{model:?}");
            }
        }
    }
}
