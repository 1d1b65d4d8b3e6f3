//! How much of the light on level ground comes straight from the sun.
//!
//! k  = G / (E₀ · max(cos z, 0.065)), between 0 and 1
//! d  = 1 − 0.09 k                                                    k ≤ 0.22
//! d  = 0.9511 − 0.1604 k + 4.388 k² − 16.638 k³ + 12.336 k⁴           0.22 < k ≤ 0.8
//! d  = 0.165                                                         0.8 < k
//! D  = d · G,  B = (G − D) / cos z
//!
//! - G   global on level ground   [W/m²]
//! - E₀  outside the air          [W/m²]
//! - k   clearness
//! - d   diffuse share
//! - D   diffuse on level ground  [W/m²]
//! - B   direct normal            [W/m²]
//! - z   zenith angle             [°]
//!
//! Source:      D. G. Erbs, S. A. Klein and J. A. Duffie, Solar Energy 28 (4), 1982.
//! Valid for:   hours; z up to 87°. With a lower sun all light is called diffuse.
//! Agreement:   tests/reference/decomposition_erbs.csv to all printed digits.
//! Not covered: single hours stray widely from the mean that the formula gives.

use super::light::{SkyLight, larger, positive, smaller};

/// With a lower sun than this the direct light is not told apart, degrees from the zenith.
const GREATEST_ZENITH: f64 = 87.0;
/// The clearness is reckoned with no smaller cosine than this.
const LEAST_COSINE: f64 = 0.065;

/// Splits the light on level ground into direct and diffuse. Zenith in degrees, the others in W/m².
#[must_use]
pub fn erbs(global: f64, zenith: f64, extraterrestrial: f64) -> SkyLight {
    let global = positive(global);
    let cos_zenith = libm::cos(zenith.to_radians());
    // k = G / (E₀ · max(cos z, 0.065))
    let k = smaller(positive(global / (extraterrestrial * larger(cos_zenith, LEAST_COSINE))), 1.0);
    let d = if k <= 0.22 {
        1.0 - 0.09 * k
    } else if k <= 0.8 {
        // Horner's form of the fourth-degree line above.
        0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
    } else {
        0.165
    };
    let diffuse = d * global;
    if zenith <= GREATEST_ZENITH {
        SkyLight { global, direct_normal: (global - diffuse) / cos_zenith, diffuse }
    } else {
        SkyLight { global, direct_normal: 0.0, diffuse: global }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_split_adds_up_again() {
        for global in [0.0, 50.0, 400.0, 900.0, 1200.0] {
            let light = erbs(global, 40.0, 1366.0);
            let sum = light.direct_normal * libm::cos(40.0_f64.to_radians()) + light.diffuse;
            assert!((sum - global).abs() < 1e-9, "{light:?}");
        }
    }

    #[test]
    fn a_low_sun_is_all_diffuse() {
        assert!(erbs(30.0, 87.0, 1366.0).direct_normal > 0.0);
        for zenith in [87.01, 95.0, 180.0, f64::NAN] {
            assert_eq!(erbs(30.0, zenith, 1366.0), SkyLight { global: 30.0, direct_normal: 0.0, diffuse: 30.0 });
        }
    }

    #[test]
    fn bad_numbers_are_no_light() {
        for global in [-5.0, f64::NAN] {
            assert_eq!(erbs(global, 40.0, 1366.0), SkyLight::default());
        }
    }
}
