//! The light of a cloudless sky, by either of two named models.
//!
//! **Haurwitz**: G = 1098 · cos z · exp(−0.059 / cos z), split by [`erbs`].
//!
//! **Ineichen and Perez**:
//!
//! f₁ = exp(−h / 8000),  f₂ = exp(−h / 1250)
//! G  = (5.09e−5 h + 0.868) · E₀ · cos z · exp(−(3.92e−5 h + 0.0387) · m' · (f₁ + f₂ (T − 1)))
//! B₁ = E₀ · (0.664 + 0.163 / f₁) · exp(−0.09 m' (T − 1))
//! B₂ = G · (1 − (0.1 − 0.2 exp(−T)) / (0.1 + 0.882 / f₁)) / cos z
//! B  = min(B₁, B₂),  D = G − B cos z
//!
//! - G   global on level ground   [W/m²]
//! - B   direct normal            [W/m²]
//! - D   diffuse on level ground  [W/m²]
//! - E₀  outside the air          [W/m²]
//! - z   apparent zenith angle    [°]
//! - h   height above the sea     [m]
//! - m'  absolute air mass
//! - T   Linke turbidity at air mass 2: about 2 in clean cold air, 3 in the country, 4 to 6 in towns and damp heat
//!   (common practice, no source)
//!
//! Source:      B. Haurwitz, J. Meteorology 2, 1945; P. Ineichen and R. Perez, Solar Energy 73 (3), 2002, in the form of
//!              its later open implementations, without the factor exp(0.01 m'^1.8).
//! Valid for:   a sun above the horizon; T from 1 to 10.
//! Agreement:   tests/reference/clearsky.csv to all printed digits; handbook rows T06-14 to T06-16 within 0.3 %.
//! Not covered: clouds, snow on the ground round about, the hour's own dust.

use units::Metres;

use super::air_mass::{absolute_air_mass, air_mass_of};
use super::decomposition::erbs;
use super::light::{SkyLight, positive, smaller};

/// How the light of a cloudless sky is reckoned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ClearSky {
    /// From the height of the sun alone.
    Haurwitz,
    /// With height above the sea and the haze of the air.
    Ineichen {
        /// Linke turbidity at air mass 2, from 1 to 10.
        linke_turbidity: f64,
    },
}

impl ClearSky {
    /// The light at an apparent zenith angle (degrees), with what arrives outside the air (W/m²), at a height and a
    /// pressure (Pa). No light with the sun below the horizon; `None` for a haze outside the range of the model.
    #[must_use]
    pub fn light(
        self,
        apparent_zenith: f64,
        extraterrestrial: f64,
        elevation: Metres,
        pressure: f64,
    ) -> Option<SkyLight> {
        if let Self::Ineichen { linke_turbidity } = self
            && !(1.0..=10.0).contains(&linke_turbidity)
        {
            return None;
        }
        let cos_zenith = libm::cos(apparent_zenith.to_radians());
        // The test of the angle as well: the cosine of 90° is not quite zero.
        if !(apparent_zenith < 90.0 && cos_zenith > 0.0) {
            return Some(SkyLight::default());
        }
        Some(match self {
            Self::Haurwitz => {
                // G = 1098 · cos z · exp(−0.059 / cos z)
                let global = 1098.0 * cos_zenith * libm::exp(-0.059 / cos_zenith);
                erbs(global, apparent_zenith, extraterrestrial)
            }
            Self::Ineichen { linke_turbidity } => {
                let air_mass = absolute_air_mass(air_mass_of(apparent_zenith, cos_zenith), pressure);
                ineichen(cos_zenith, extraterrestrial, elevation.0, air_mass, linke_turbidity)
            }
        })
    }
}

fn ineichen(cos_zenith: f64, e0: f64, h: f64, m: f64, t: f64) -> SkyLight {
    let (f1, f2) = (libm::exp(-h / 8000.0), libm::exp(-h / 1250.0));
    // G = (5.09e−5 h + 0.868) · E₀ · cos z · exp(−(3.92e−5 h + 0.0387) · m' · (f₁ + f₂ (T − 1)))
    let haze = libm::exp(-(3.92e-5 * h + 0.0387) * m * (f1 + f2 * (t - 1.0)));
    let global = (5.09e-5 * h + 0.868) * e0 * cos_zenith * haze;
    // B₁ = E₀ · (0.664 + 0.163 / f₁) · exp(−0.09 m' (T − 1))
    let b1 = e0 * (0.664 + 0.163 / f1) * libm::exp(-0.09 * m * (t - 1.0));
    // B₂ = G · (1 − (0.1 − 0.2 exp(−T)) / (0.1 + 0.882 / f₁)) / cos z
    let b2 = global * positive((1.0 - (0.1 - 0.2 * libm::exp(-t)) / (0.1 + 0.882 / f1)) / cos_zenith);
    let direct_normal = smaller(b1, b2);
    SkyLight { global, direct_normal, diffuse: positive(global - direct_normal * cos_zenith) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const MODELS: [ClearSky; 2] = [ClearSky::Haurwitz, ClearSky::Ineichen { linke_turbidity: 3.0 }];

    fn light(model: ClearSky, zenith: f64) -> SkyLight {
        model.light(zenith, 1366.0, Metres(300.0), 97_000.0).unwrap()
    }

    #[test]
    fn there_is_no_light_below_the_horizon() {
        for model in MODELS {
            for zenith in [90.0, 90.1, 180.0, f64::NAN] {
                assert_eq!(light(model, zenith), SkyLight::default(), "{zenith}");
            }
        }
    }

    #[test]
    fn direct_and_diffuse_make_up_the_whole() {
        for model in MODELS {
            for step in 0..900 {
                let zenith = f64::from(step) / 10.0;
                let found = light(model, zenith);
                let sum = found.direct_normal * libm::cos(zenith.to_radians()) + found.diffuse;
                assert!((sum - found.global).abs() < 1e-9, "{model:?} {zenith} {found:?}");
                assert!(found.direct_normal >= 0.0 && found.direct_normal < 1366.0, "{model:?} {zenith} {found:?}");
            }
        }
    }

    #[test]
    fn the_two_models_are_near_each_other_at_midday() {
        let [haurwitz, ineichen] = MODELS.map(|model| light(model, 30.0).global);
        assert!((haurwitz - ineichen).abs() < 0.06 * haurwitz, "{haurwitz} {ineichen}");
    }

    #[test]
    fn says_so_outside_its_range() {
        for linke_turbidity in [0.99, 10.01, f64::NAN] {
            let model = ClearSky::Ineichen { linke_turbidity };
            assert_eq!(model.light(30.0, 1366.0, Metres(0.0), 101_325.0), None);
        }
    }

    #[test]
    fn haze_dims_the_sun() {
        let direct = |linke_turbidity| light(ClearSky::Ineichen { linke_turbidity }, 40.0).direct_normal;
        assert!(direct(2.0) > direct(4.0) && direct(4.0) > direct(8.0));
    }
}
