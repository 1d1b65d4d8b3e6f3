//! Air as a gas.

use units::Celsius;

/// Gas constant of dry air, J/(kg·K). Source: US Standard Atmosphere 1976.
pub const GAS_CONSTANT: f64 = 287.053;

/// Specific heat of air at constant pressure, J/(kg·K), between −40 and 60 °C within 0.2 %.
pub const SPECIFIC_HEAT: f64 = 1006.0;

/// Density of the air in which fans are rated: 20 °C at sea level, kg/m³. Follows from [`density`].
pub const RATED_AIR_DENSITY: f64 = 1.204;

/// Absolute zero, °C.
const ABSOLUTE_ZERO: f64 = -273.15;

/// Density of air of the given pressure (Pa) and temperature, kg/m³: ρ = p / (R · T). `None` at or below absolute zero.
#[must_use]
pub fn density(pressure: f64, temperature: Celsius) -> Option<f64> {
    let kelvin = temperature.0 - ABSOLUTE_ZERO;
    (kelvin > 0.0 && pressure > 0.0).then(|| pressure / (GAS_CONSTANT * kelvin))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rated_air_is_air_at_twenty_degrees_and_sea_level() {
        let rho = density(101_325.0, Celsius(20.0)).unwrap();
        assert!((rho - RATED_AIR_DENSITY).abs() < 5e-4, "{rho}");
    }

    #[test]
    fn says_so_without_air() {
        assert_eq!(density(101_325.0, Celsius(-273.15)), None);
        assert_eq!(density(0.0, Celsius(20.0)), None);
        assert_eq!(density(f64::NAN, Celsius(20.0)), None);
    }
}
