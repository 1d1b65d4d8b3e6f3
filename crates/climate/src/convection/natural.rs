//! Natural convection: air that moves because a surface warms or cools it.
//!
//! Ra = g · β · |ΔT| · L³ / (ν · a)
//! upright:              Nu = {0.825 + 0.387 · Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}²
//! lying, air helped:    Nu = 0.54 · Ra^(1/4) to Ra = 10⁷, 0.15 · Ra^(1/3) above
//! lying, air hindered:  Nu = 0.27 · Ra^(1/4) to Ra = 10¹⁰, 0.15 · Ra^(1/3) above
//! h = Nu · k / L
//!
//! - L   height of an upright plate; of a lying one its area over its perimeter   [m]
//! - ΔT  surface less air                                                         [K]
//! - h   film                                                                     [W/(m²·K)]
//!
//! Air is *helped* by a warm plate that looks up and by a cold one that looks down.
//!
//! Source:      Churchill & Chu 1975 (upright); McAdams, Heat Transmission, 3rd ed. (lying); properties at the mean of
//!              surface and air, β = 1/T.
//! Valid for:   upright: all Ra to 10¹²; lying: Ra 10⁴ to 10¹¹. Below that the lying film is small, and read on.
//! Agreement:   tests/reference/natural_convection_*.csv: Nusselt numbers to 10⁻⁶, films with our own air within 0.5 %;
//!              tests/published/films.toml, T05-06…11.
//! Not covered: plates that lean, plates close to each other.

use units::Celsius;

use super::Gas;

/// Gravity, m/s².
const GRAVITY: f64 = 9.806_65;

/// Rayleigh number of a surface that differs from the air by some kelvins.
#[must_use]
pub fn rayleigh(air: &Gas, difference: f64, length: f64) -> f64 {
    // Ra = g · β · |ΔT| · L³ / (ν · a)
    GRAVITY / air.kelvin * difference.abs() * length * length * length / (air.kinematic_viscosity() * air.diffusivity())
}

/// Nusselt number of an upright plate.
#[must_use]
pub fn vertical_plate(rayleigh: f64, prandtl: f64) -> f64 {
    let of_prandtl = libm::pow(1.0 + libm::pow(0.492 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
    let root = 0.825 + 0.387 * libm::pow(rayleigh, 1.0 / 6.0) / of_prandtl;
    root * root
}

/// Nusselt number of a lying plate whose air is helped: warm looking up, cold looking down.
#[must_use]
pub fn horizontal_helped(rayleigh: f64) -> f64 {
    if rayleigh <= 1e7 { 0.54 * rayleigh.sqrt().sqrt() } else { 0.15 * libm::cbrt(rayleigh) }
}

/// Nusselt number of a lying plate whose air is hindered: warm looking down, cold looking up.
#[must_use]
pub fn horizontal_hindered(rayleigh: f64) -> f64 {
    if rayleigh <= 1e10 { 0.27 * rayleigh.sqrt().sqrt() } else { 0.15 * libm::cbrt(rayleigh) }
}

/// Air at the mean of surface and air; `None` without air.
fn film_air(air: Celsius, difference: f64, pressure: f64) -> Option<Gas> {
    Gas::at(Celsius(air.0 + difference / 2.0), pressure)
}

/// Film on an upright plate of some height (m), surface less air in kelvins, W/(m²·K); `None` without air.
#[must_use]
pub fn vertical_film(air: Celsius, pressure: f64, difference: f64, height: f64) -> Option<f64> {
    let gas = film_air(air, difference, pressure)?;
    Some(vertical_plate(rayleigh(&gas, difference, height), gas.prandtl) * gas.conductivity / height)
}

/// Film on a lying plate, W/(m²·K): length is area over perimeter (m), surface less air in kelvins; `None` without air.
#[must_use]
pub fn horizontal_film(air: Celsius, pressure: f64, difference: f64, length: f64, looks_up: bool) -> Option<f64> {
    let gas = film_air(air, difference, pressure)?;
    let ra = rayleigh(&gas, difference, length);
    let helped = (difference > 0.0) == looks_up;
    let nu = if helped { horizontal_helped(ra) } else { horizontal_hindered(ra) };
    Some(nu * gas.conductivity / length)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_sides_of_each_range_are_read_from_their_own_formula() {
        let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-9 * expected, "{found}");
        near(horizontal_helped(1e4), 5.4);
        near(horizontal_helped(8e9), 300.0);
        near(horizontal_hindered(1e8), 27.0);
        near(horizontal_hindered(8e12), 3000.0);
    }

    #[test]
    fn a_warm_roof_loses_more_than_a_cold_one_takes_up() {
        let film = |difference| horizontal_film(Celsius(20.0), 101_325.0, difference, 0.2, true).unwrap();
        assert!(film(10.0) > 1.5 * film(-10.0));
    }

    #[test]
    fn thin_air_makes_a_weaker_film() {
        let film = |pressure| vertical_film(Celsius(20.0), pressure, 10.0, 1.0).unwrap();
        assert!(film(70_000.0) < film(101_325.0));
        assert_eq!(vertical_film(Celsius(20.0), 0.0, 10.0, 1.0), None);
    }
}
