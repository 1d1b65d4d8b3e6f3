//! Voltage of cells in series.
//!
//! V = n · v;  v_float(T) = v_float + c · (T − 25 °C)
//!
//! - V        of the string                               [V]
//! - n        cells in series                             [–]
//! - v        of a cell                                   [V]
//! - c        compensation, about −3 mV/K of lead         [V/K]
//! - T        temperature of the cells                    [°C]
//!
//! Source:      arithmetic; compensation is practice of plants, from memory, to be confirmed.
//! Valid for:   −20 to 50 °C, where chargers usually stop to compensate.
//! Agreement:   tests/published/backup.toml, T09-01 exact, T09-02 within 0.05 V.
//! Not covered: cells that drift apart.

/// Between these a charger compensates, °C. From memory, to be confirmed.
const COMPENSATED: (f64, f64) = (-20.0, 50.0);

/// Voltage of so many cells, V.
#[must_use]
pub fn volts(cells: f64, of_cell: f64) -> f64 {
    cells * of_cell
}

/// Float voltage of so many cells at a temperature, V; `at_25` and `per_kelvin` are those of a cell.
#[must_use]
pub fn float_volts(cells: f64, at_25: f64, per_kelvin: f64, celsius: f64) -> f64 {
    cells * (at_25 + per_kelvin * (celsius.clamp(COMPENSATED.0, COMPENSATED.1) - 25.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cold_raises_the_float_voltage_as_far_as_chargers_go() {
        assert!((float_volts(24.0, 2.25, -0.003, 25.0) - 54.0).abs() < 1e-9);
        assert!((float_volts(24.0, 2.25, -0.003, 0.0) - 55.8).abs() < 1e-9);
        assert_eq!(float_volts(24.0, 2.25, -0.003, -40.0), float_volts(24.0, 2.25, -0.003, -20.0));
    }
}
