//! Wind along a plate.
//!
//! Re = v · L / ν
//! Nu_lam  = 0.664 · Re^½ · Pr^⅓
//! Nu_turb = 0.037 · Re^0.8 · Pr / [1 + 2.443 · Re^(−0.1) · (Pr^⅔ − 1)]
//! Nu = √(Nu_lam² + Nu_turb²)
//! h = Nu · k / L
//!
//! - v  speed of the air                    [m/s]
//! - L  length of the plate along the wind  [m]
//! - h  mean film                           [W/(m²·K)]
//!
//! Source:      VDI Heat Atlas, plate in parallel flow: laminar, turbulent from the leading edge (Petukhov; Schlichting's
//!              friction), and their combination; read in an open implementation. Properties at the temperature of the air.
//! Valid for:   Re to 10⁷.
//! Agreement:   tests/reference/forced_convection_plate.csv: Nusselt numbers to 10⁻⁶, films with our own air within 0.5 %.
//! Not covered: wind that strikes a face squarely or from behind; the combination takes the air to be disturbed, as it is
//!              outdoors, so that it lies well above the film of a smooth plate in a wind tunnel.

use units::Celsius;

use super::Gas;

/// Nusselt number of a laminar film.
#[must_use]
pub fn laminar_plate(reynolds: f64, prandtl: f64) -> f64 {
    0.664 * reynolds.sqrt() * libm::cbrt(prandtl)
}

/// Nusselt number of a film that is turbulent from the leading edge.
#[must_use]
pub fn turbulent_plate(reynolds: f64, prandtl: f64) -> f64 {
    if reynolds <= 0.0 {
        return 0.0;
    }
    let root = libm::cbrt(prandtl);
    0.037 * libm::pow(reynolds, 0.8) * prandtl / (1.0 + 2.443 * libm::pow(reynolds, -0.1) * (root * root - 1.0))
}

/// Nusselt number of a plate in disturbed air.
#[must_use]
pub fn mixed_plate(reynolds: f64, prandtl: f64) -> f64 {
    let (laminar, turbulent) = (laminar_plate(reynolds, prandtl), turbulent_plate(reynolds, prandtl));
    (laminar * laminar + turbulent * turbulent).sqrt()
}

/// Mean film of wind (m/s) along a plate of some length (m), W/(m²·K); `None` without air.
#[must_use]
pub fn plate_film(air: Celsius, pressure: f64, wind: f64, length: f64) -> Option<f64> {
    let gas = Gas::at(air, pressure)?;
    let reynolds = wind.max(0.0) * length / gas.kinematic_viscosity();
    Some(mixed_plate(reynolds, gas.prandtl) * gas.conductivity / length)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn calm_air_makes_no_film_of_its_own() {
        assert_eq!(plate_film(Celsius(20.0), 101_325.0, 0.0, 1.0), Some(0.0));
        assert_eq!(plate_film(Celsius(20.0), 0.0, 1.0, 1.0), None);
    }

    #[test]
    fn a_laminar_film_comes_out_by_hand() {
        // 0.664 · √10 000 · 0.7^⅓ = 0.664 · 100 · 0.887904 = 58.957
        assert!((laminar_plate(1e4, 0.7) - 58.957).abs() < 1e-3);
    }
}
