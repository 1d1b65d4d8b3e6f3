//! Resistance of a conductor by its temperature.
//!
//! R = ρ20 · [1 + α20 · (t − 20)] / A,  R2 = R75 · [1 + α75 · (t − 75)]
//!
//! - R    resistance over a length                               [Ω/km]
//! - ρ20  resistivity at 20 °C: copper 17.241                    [Ω·mm²/km]
//! - α20  its rise by temperature: copper 0.00393                [1/K]
//! - A    area of the metal                                      [mm²]
//! - R75  resistance as the electrical code prints it            [Ω/km]
//! - α75  its rise by temperature: copper 0.00323, aluminium 0.00330 (from memory)   [1/K]
//! - t    temperature of the conductor                           [°C]
//!
//! Source:      copper wire tables (NBS Handbook 100); NFPA 70, Chapter 9, Table 8, note 2.
//! Valid for:   direct current and solid wire; −40…90 °C.
//! Agreement:   tests/reference/wire_resistance_awg.csv and wire_resistance_mm2.csv to nine figures; T08-21.
//! Not covered: skin effect, the lay of strands (about 2 % more).

use project::Conductor;

/// ρ20 of annealed copper, Ω·mm²/km.
const RESISTIVITY: f64 = 17.241;
/// α20 of annealed copper, 1/K.
const RISE: f64 = 0.003_93;

/// Resistance of a solid copper wire of so many mm², Ω/km.
#[must_use]
pub fn copper_wire(area: f64, celsius: f64) -> f64 {
    // R = ρ20 · [1 + α20 · (t − 20)] / A
    RESISTIVITY * (1.0 + RISE * (celsius - 20.0)) / area
}

/// Resistance at a temperature of what resists so much at 75 °C; in its unit.
#[must_use]
pub fn from_75(at_75: f64, metal: Conductor, celsius: f64) -> f64 {
    let rise = match metal {
        Conductor::Copper => 0.003_23,
        Conductor::Aluminium => 0.003_30,
    };
    // R2 = R75 · [1 + α75 · (t − 75)]
    at_75 * (1.0 + rise * (celsius - 75.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ways_give_the_same_rise_of_copper() {
        let at_75 = copper_wire(5.261, 75.0);
        for celsius in [-40.0, 20.0, 60.0, 90.0] {
            let found = from_75(at_75, Conductor::Copper, celsius);
            assert!((found / copper_wire(5.261, celsius) - 1.0).abs() < 1e-3, "{celsius}");
        }
        assert_eq!(from_75(1.0, Conductor::Aluminium, 75.0), 1.0);
    }
}
