//! Current that a load draws, and power that a current carries.
//!
//! I = P / (η · λ · k · V),  S = k · V · I,  P = S · λ
//!
//! - I  current in each conductor                                          [A]
//! - P  power the load gives on, or takes where nothing is lost            [W]
//! - S  apparent power                                                     [VA]
//! - η  efficiency of the load                                             [–]
//! - λ  power factor; 1 of direct current                                  [–]
//! - V  voltage: of two conductors between them, of three between any two  [V]
//! - k  1 for two conductors, √3 for three                                 [–]
//!
//! Source:      definitions of real and apparent power.
//! Valid for:   sine-shaped currents, three phases in balance.
//! Agreement:   tests/reference/supply_current.csv to nine figures; published rows in tests/published/electrical.toml.
//! Not covered: harmonics, starting currents, voltages that differ from the nominal.

use super::Wires;

/// Apparent power of a load, VA; none when power factor or efficiency is no share above 0.
#[must_use]
pub fn apparent_power(power: f64, power_factor: f64, efficiency: f64) -> Option<f64> {
    let share = |of: f64| of > 0.0 && of <= 1.0;
    // S = P / (η · λ)
    (share(power_factor) && share(efficiency)).then(|| power / (power_factor * efficiency))
}

/// Current of an apparent power, A; none without a voltage.
#[must_use]
pub fn current(apparent: f64, volts: f64, wires: Wires) -> Option<f64> {
    // I = S / (k · V)
    (volts > 0.0).then(|| apparent / (wires.factor() * volts))
}

/// Apparent power that a current carries, VA.
#[must_use]
pub fn carried(amperes: f64, volts: f64, wires: Wires) -> f64 {
    // S = k · V · I
    wires.factor() * volts * amperes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_current_carries_draws_that_current() {
        for wires in [Wires::Two, Wires::Three] {
            let found = current(carried(7.5, 208.0, wires), 208.0, wires).unwrap();
            assert!((found - 7.5).abs() < 1e-12, "{found}");
        }
    }

    #[test]
    fn says_nothing_of_what_cannot_be() {
        assert_eq!(apparent_power(900.0, 0.9, 1.0), Some(1000.0));
        for (power_factor, efficiency) in [(0.0, 1.0), (1.1, 1.0), (1.0, 0.0), (f64::NAN, 1.0)] {
            assert_eq!(apparent_power(900.0, power_factor, efficiency), None);
        }
        assert_eq!(current(900.0, 0.0, Wires::Two), None);
    }
}
