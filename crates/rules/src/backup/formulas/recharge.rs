//! Charging again.
//!
//! I = k · Q / t;  t = k · Q / I
//!
//! - I  current into the batteries                             [A]
//! - k  charge to give back for each Ah taken, above 1         [–]
//! - Q  charge taken                                           [Ah]
//! - t  time                                                   [h]
//!
//! Source:      practice of plants, from memory, to be confirmed; k as in `network::flow`.
//! Valid for:   a current that the charger holds; the last part of a charge of lead takes longer.
//! Agreement:   tests/published/backup.toml, T09-10, within 1 %.
//! Not covered: the tail of the charge, charging in frost.

/// Current that gives a charge back in a time, A; none without a time.
#[must_use]
pub fn amperes(factor: f64, taken: f64, hours: f64) -> Option<f64> {
    (hours > 0.0).then(|| factor * taken / hours)
}

/// Time that a current takes to give a charge back, h; none without a current.
#[must_use]
pub fn hours(factor: f64, taken: f64, amperes: f64) -> Option<f64> {
    (amperes > 0.0).then(|| factor * taken / amperes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn time_and_current_answer_one_another() {
        let current = amperes(1.15, 100.0, 10.0).unwrap();
        assert!((hours(1.15, 100.0, current).unwrap() - 10.0).abs() < 1e-12);
        assert_eq!((amperes(1.15, 100.0, 0.0), hours(1.15, 100.0, 0.0)), (None, None));
    }
}
