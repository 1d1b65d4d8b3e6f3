//! Voltage of a cell while it is discharged.
//!
//! lead, nickel: v = (v_0 − I · R) · (1 − g) + v_end · g,  g = 0.6 · s + 0.4 · s⁶
//! lithium:      v = v(s) − I · R, v(s) by rows
//!
//! - v      of a cell under load                                       [V]
//! - v_0    at the start, without current                              [V]
//! - v_end  at the end of the capacity                                 [V]
//! - s      share of the capacity that is taken                        [–]
//! - I      current                                                    [A]
//! - R      resistance                                                 [Ω]
//!
//! Source:      shapes of makers' discharge curves at moderate currents, from memory, to be confirmed.
//! Valid for:   s from 0 to 1.
//! Agreement:   none outside; the ends are exact.
//! Not covered: the dip in the first minutes of a lead cell.

use catalogue::Chemistry;

/// s and V of a cell of lithium iron phosphate without current, from memory, to be confirmed.
const LITHIUM: [(f64, f64); 7] =
    [(0.0, 3.38), (0.05, 3.32), (0.3, 3.29), (0.6, 3.26), (0.85, 3.20), (0.95, 3.05), (1.0, 2.80)];

/// Parts of the voltage of a string under load: V = a − b · I.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Without current, V.
    pub a: f64,
    /// What each ampere takes from it, Ω.
    pub b: f64,
}

impl Line {
    /// Voltage at a constant power, V: V = a − b · P / V. None when it cannot give so much.
    #[must_use]
    pub fn at_power(self, watts: f64) -> Option<f64> {
        let under = self.a * self.a - 4.0 * self.b * watts;
        (under >= 0.0).then(|| (self.a + under.sqrt()) / 2.0)
    }
}

/// The line of a string: cells in series, the share taken, and its resistance, Ω.
#[must_use]
pub fn line(chemistry: Chemistry, cells: f64, start: f64, end: f64, taken: f64, resistance: f64) -> Line {
    let s = taken.clamp(0.0, 1.0);
    match chemistry {
        Chemistry::Lithium => Line { a: cells * by_rows(s), b: resistance },
        Chemistry::Lead | Chemistry::Nickel => {
            let square = s * s;
            // g = 0.6 · s + 0.4 · s⁶
            let g = 0.6 * s + 0.4 * square * square * square;
            Line { a: cells * (start * (1.0 - g) + end * g), b: resistance * (1.0 - g) }
        }
    }
}

fn by_rows(s: f64) -> f64 {
    let mut before = LITHIUM[0];
    for row in LITHIUM {
        if s <= row.0 {
            let span = row.0 - before.0;
            return if span > 0.0 { before.1 + (row.1 - before.1) * (s - before.0) / span } else { row.1 };
        }
        before = row;
    }
    before.1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lead_begins_below_its_rest_and_ends_at_its_end() {
        let at = |taken| line(Chemistry::Lead, 24.0, 2.12, 1.8, taken, 0.02);
        assert!((at(0.0).a - 50.88).abs() < 1e-9 && (at(0.0).b - 0.02).abs() < 1e-12);
        assert!((at(1.0).a - 43.2).abs() < 1e-9 && at(1.0).b.abs() < 1e-12);
        // 1000 W: V = 50.88 − 0.02 · 1000 / V gives 50.484.
        let volts = at(0.0).at_power(1000.0).unwrap();
        assert!((volts - (50.88 - 0.02 * 1000.0 / volts)).abs() < 1e-9 && (volts - 50.484).abs() < 1e-3);
    }

    #[test]
    fn voltage_never_rises_as_more_is_taken() {
        for chemistry in [Chemistry::Lead, Chemistry::Lithium, Chemistry::Nickel] {
            let volts = |step: u32| line(chemistry, 24.0, 2.12, 1.8, f64::from(step) / 100.0, 0.0).a;
            assert!((1..=100).all(|step| volts(step) <= volts(step - 1)), "{chemistry:?}");
        }
    }

    #[test]
    fn more_than_it_can_give_has_no_voltage() {
        assert_eq!(Line { a: 48.0, b: 0.1 }.at_power(6000.0), None);
    }
}
