//! Long-wave radiation.
//!
//! q = ε · σ · (T⁴ − T_s⁴)
//! h_r = 4 · ε · σ · T_m³, where T_m lies between the two
//! between two sheets: ε_12 = 1 / (1/ε₁ + 1/ε₂ − 1)
//!
//! - T, T_s  surface and what surrounds it   [K]
//! - ε       emissivity                      [–]
//! - σ       Stefan–Boltzmann constant       [W/(m²·K⁴)]
//!
//! Source:      Stefan–Boltzmann; first principles.
//! Valid for:   grey surfaces; the surroundings large, or the sheets large against their distance.
//! Agreement:   tests/reference/radiation_exchange.csv to 2·10⁻⁶.

/// Stefan–Boltzmann constant, W/(m²·K⁴). Exact to the figures given (SI).
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// Absolute zero, °C.
const ABSOLUTE_ZERO: f64 = -273.15;

/// Fourth power of the absolute temperature of a temperature in °C, K⁴.
pub(super) fn fourth(celsius: f64) -> f64 {
    let kelvin = celsius - ABSOLUTE_ZERO;
    let square = kelvin * kelvin;
    square * square
}

/// Heat radiated by a surface (°C) to large surroundings (°C), W/m².
#[must_use]
pub fn exchange(emissivity: f64, surface: f64, surroundings: f64) -> f64 {
    emissivity * STEFAN_BOLTZMANN * (fourth(surface) - fourth(surroundings))
}

/// 4 σ T³ at a temperature in °C: radiation of a black surface per kelvin, W/(m²·K).
#[must_use]
pub fn linear(mean: f64) -> f64 {
    let kelvin = mean - ABSOLUTE_ZERO;
    4.0 * STEFAN_BOLTZMANN * kelvin * kelvin * kelvin
}

/// Emissivity that stands for two sheets that look at each other.
#[must_use]
pub fn between_sheets(one: f64, other: f64) -> f64 {
    1.0 / (1.0 / one + 1.0 / other - 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_linear_form_touches_the_true_one() {
        let step = 1e-3;
        assert!((exchange(1.0, 40.0 + step, 40.0) / step - linear(40.0)).abs() < 1e-4);
    }

    #[test]
    fn a_shiny_sheet_before_a_black_one_is_a_shiny_one() {
        assert!((between_sheets(1.0, 0.1) - 0.1).abs() < 1e-12);
        assert!((between_sheets(0.9, 0.9) - 0.9 / 1.1).abs() < 1e-12);
    }
}
