//! Closed gaps of air between two sheets.
//!
//! upright:         Nu = 0.42 · Pr^0.012 · Ra^(1/4) · (H/d)^(−0.25) to Ra = 10⁷, 0.049 · Ra^(1/3) above; at least 1
//! warm sheet below: Nu = 1 + [1 − 1708/Ra]⁺ · (k₁ + 2 x^(1 − ln x)) + [(Ra/5803)^(1/3) − 1]⁺,  x = Ra^(1/3) / k₂
//!                   k₁ = 1.44 / (1 + 0.018/Pr + 0.00136/Pr²),  k₂ = 75 · exp(1.5 · Pr^(−½))
//! warm sheet above: Nu = 1
//! h = Nu · k / d
//!
//! - d  width of the gap            [m]
//! - H  its height                  [m]
//! - Ra with d as the length, and properties at the mean temperature
//! - [x]⁺ is x where it is above 0, else 0
//!
//! Source:      VDI Heat Atlas (upright), read in an open implementation; Hollands et al. 1976 (lying), read there too.
//! Valid for:   upright: Ra 10⁴ to 10⁹, below that air that conducts only (Nu = 1) is where it ends; lying: Ra to 10⁸.
//! Agreement:   tests/reference/air_gap.csv: within 10⁻⁶, upright before the floor of 1.
//! Not covered: gaps that are open; those take this film where no air flows through.

use units::Celsius;

use super::{Gas, rayleigh};

/// Nusselt number of an upright gap; `slender` is its height over its width.
#[must_use]
pub fn vertical_gap(rayleigh: f64, prandtl: f64, slender: f64) -> f64 {
    if rayleigh <= 1e7 {
        0.42 * libm::pow(prandtl, 0.012) * rayleigh.sqrt().sqrt() * libm::pow(slender, -0.25)
    } else {
        0.049 * libm::cbrt(rayleigh)
    }
}

/// Nusselt number of a lying gap with its warm sheet below.
#[must_use]
pub fn horizontal_gap(rayleigh: f64, prandtl: f64) -> f64 {
    let root = libm::cbrt(rayleigh);
    let k1 = 1.44 / (1.0 + 0.018 / prandtl + 0.001_36 / (prandtl * prandtl));
    let x = root / (75.0 * libm::exp(1.5 / prandtl.sqrt()));
    let turning =
        if rayleigh > 1708.0 { (1.0 - 1708.0 / rayleigh) * (k1 + 2.0 * libm::pow(x, 1.0 - libm::log(x))) } else { 0.0 };
    1.0 + turning + (libm::cbrt(rayleigh / 5803.0) - 1.0).max(0.0)
}

/// Film of a closed gap, from sheet to sheet, W/(m²·K): the inner sheet is warmer by `difference` kelvins. `height` is
/// that of an upright gap (m); `None` is a lying one, its inner sheet below.
#[must_use]
pub fn gap_film(mean: Celsius, pressure: f64, difference: f64, width: f64, height: Option<f64>) -> Option<f64> {
    let gas = Gas::at(mean, pressure)?;
    let ra = rayleigh(&gas, difference, width);
    let nusselt = match height {
        Some(height) => vertical_gap(ra, gas.prandtl, height / width).max(1.0),
        None if difference > 0.0 => horizontal_gap(ra, gas.prandtl),
        None => 1.0,
    };
    Some(nusselt * gas.conductivity / width)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn still_air_conducts() {
        assert_eq!(horizontal_gap(1708.0, 0.71), 1.0);
        let film = |difference, height| gap_film(Celsius(40.0), 101_325.0, difference, 0.025, height).unwrap();
        let conducted = Gas::at(Celsius(40.0), 101_325.0).unwrap().conductivity / 0.025;
        assert_eq!(film(-20.0, None), conducted);
        assert_eq!(film(0.5, Some(1.5)), conducted);
        assert!(film(20.0, None) > 2.0 * conducted && film(20.0, Some(1.5)) > 1.5 * conducted);
    }
}
