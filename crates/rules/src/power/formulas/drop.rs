//! Voltage lost along a run of conductors, and the power lost with it.
//!
//! ΔV = m · I · R · λ,  P = m' · I² · R
//!
//! - ΔV  voltage lost                                           [V]
//! - P   power lost in all conductors together                  [W]
//! - I   current in each conductor                              [A]
//! - R   resistance of one conductor over the run, one way      [Ω]
//! - λ   power factor of the load; 1 of direct current          [–]
//! - m   2 for two conductors, √3 for three                     [–]
//! - m'  2 for two conductors, 3 for three                      [–]
//!
//! Source:      Ohm's law; NFPA 70, Chapter 9, Tables 8 and 9 and their notes, for λ.
//! Valid for:   runs whose reactance is small beside their resistance: conductors below about 1/0 AWG.
//! Agreement:   tests/reference/voltage_drop.csv to nine figures; published rows in tests/published/electrical.toml.
//! Not covered: reactance, skin effect, unequal phases, current in the neutral.

use super::Wires;

/// Voltage lost, V.
#[must_use]
pub fn voltage_drop(amperes: f64, ohms_one_way: f64, power_factor: f64, wires: Wires) -> f64 {
    let along = match wires {
        Wires::Two => 2.0,
        Wires::Three => Wires::Three.factor(),
    };
    along * amperes * ohms_one_way * power_factor
}

/// Power lost in all conductors, W.
#[must_use]
pub fn loss(amperes: f64, ohms_one_way: f64, wires: Wires) -> f64 {
    let conductors = match wires {
        Wires::Two => 2.0,
        Wires::Three => 3.0,
    };
    conductors * amperes * amperes * ohms_one_way
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_lost_follows_from_current_and_resistance() {
        assert_eq!(voltage_drop(10.0, 0.1, 1.0, Wires::Two), 2.0);
        assert_eq!(voltage_drop(10.0, 0.1, 0.5, Wires::Two), 1.0);
        assert!((voltage_drop(10.0, 0.1, 1.0, Wires::Three) - 1.732_050_8).abs() < 1e-6);
        assert_eq!(loss(10.0, 0.1, Wires::Two), 20.0);
        assert!((loss(10.0, 0.1, Wires::Three) - 30.0).abs() < 1e-12);
    }
}
