//! How long stored energy lasts.
//!
//! E = n · V · C;  t = E · a · u / P
//!
//! - E  energy when new at 25 °C                            [Wh]
//! - n  cells in series                                     [–]
//! - V  nominal voltage of a cell                           [V]
//! - C  rated capacity                                      [Ah]
//! - a  share that cold and age leave                       [–]
//! - u  share of that which is used, 0.8 to 0.9 of lithium  [–]
//! - P  power                                               [W]
//!
//! Source:      arithmetic; the shares from memory, to be confirmed.
//! Valid for:   currents up to the rated capacity per hour.
//! Agreement:   tests/published/backup.toml, T09-11 and T09-17.
//! Not covered: how the share falls with the current.

/// Energy of a string or of several, Wh.
#[must_use]
pub fn energy(cells: f64, volts: f64, amp_hours: f64) -> f64 {
    cells * volts * amp_hours
}

/// Time, h; none without a power.
#[must_use]
pub fn hours(energy: f64, left: f64, used: f64, power: f64) -> Option<f64> {
    (power > 0.0 && power.is_finite()).then(|| energy * left * used / power)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_and_used_counts() {
        assert_eq!(hours(energy(15.0, 3.2, 100.0), 0.5, 0.5, 1200.0), Some(1.0));
        assert_eq!(hours(4800.0, 1.0, 0.9, 0.0), None);
    }
}
