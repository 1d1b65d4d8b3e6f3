//! Properties of dry air that convection needs.
//!
//! ρ = p / (R · T)
//! μ = 1.4814·10⁻⁶ · T^1.5 / (T + 115.2)
//! k = 2.3115·10⁻³ · T^1.5 / (T + 155.1)
//! ν = μ / ρ,  a = k / (ρ · c_p),  Pr = ν / a,  β = 1 / T
//!
//! - T    temperature            [K]
//! - p    pressure               [Pa]
//! - ρ    density                [kg/m³]
//! - μ    dynamic viscosity      [Pa·s]
//! - k    thermal conductivity   [W/(m·K)]
//! - c_p  specific heat, 1006    [J/(kg·K)]
//! - ν    kinematic viscosity    [m²/s]
//! - a    thermal diffusivity    [m²/s]
//! - β    thermal expansion      [1/K]
//!
//! Source:      Sutherland's form, its figures fitted to the reference below.
//! Valid for:   −40 to 80 °C, 50 to 110 kPa; read on to −80 and 100 °C.
//! Agreement:   tests/reference/air_properties.csv: all within 0.3 %.
//! Not covered: moisture.

use units::Celsius;

use crate::air::{GAS_CONSTANT, SPECIFIC_HEAT};

/// Air of one temperature and pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
    /// Temperature, K.
    pub kelvin: f64,
    /// Density, kg/m³.
    pub density: f64,
    /// Dynamic viscosity, Pa·s.
    pub viscosity: f64,
    /// Thermal conductivity, W/(m·K).
    pub conductivity: f64,
    /// Prandtl number.
    pub prandtl: f64,
}

impl Gas {
    /// Air at a temperature and a pressure (Pa); `None` without air.
    #[must_use]
    pub fn at(temperature: Celsius, pressure: f64) -> Option<Self> {
        let density = crate::density(pressure, temperature)?;
        let t = pressure / (GAS_CONSTANT * density);
        let power = t * t.sqrt();
        // μ = 1.4814·10⁻⁶ · T^1.5 / (T + 115.2)
        let viscosity = 1.481_4e-6 * power / (t + 115.2);
        // k = 2.3115·10⁻³ · T^1.5 / (T + 155.1)
        let conductivity = 2.311_5e-3 * power / (t + 155.1);
        Some(Self { kelvin: t, density, viscosity, conductivity, prandtl: SPECIFIC_HEAT * viscosity / conductivity })
    }

    /// Kinematic viscosity, m²/s.
    #[must_use]
    pub fn kinematic_viscosity(&self) -> f64 {
        self.viscosity / self.density
    }

    /// Thermal diffusivity, m²/s.
    #[must_use]
    pub fn diffusivity(&self) -> f64 {
        self.conductivity / (self.density * SPECIFIC_HEAT)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn air_at_twenty_degrees_is_as_in_any_table() {
        // ν = 15.1·10⁻⁶ m²/s, k = 0.0257 W/(m·K), Pr = 0.71
        let air = Gas::at(Celsius(20.0), 101_325.0).unwrap();
        assert!((air.kinematic_viscosity() - 15.1e-6).abs() < 0.1e-6, "{air:?}");
        assert!((air.conductivity - 0.0257).abs() < 2e-4 && (air.prandtl - 0.71).abs() < 0.01, "{air:?}");
        assert!((air.kelvin - 293.15).abs() < 1e-9);
    }

    #[test]
    fn says_so_without_air() {
        assert_eq!(Gas::at(Celsius(-273.15), 101_325.0), None);
        assert_eq!(Gas::at(Celsius(20.0), 0.0), None);
    }
}
