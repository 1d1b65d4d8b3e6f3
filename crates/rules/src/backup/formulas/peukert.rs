//! How long a cell lasts at a current, by Peukert.
//!
//! t = H · (C / (I · H))^k;  K_t = C / I = H · (t / H)^(1/k)
//!
//! - t    time until the end voltage                       [h]
//! - H    hours over which the rated capacity is drawn     [h]
//! - C    rated capacity                                   [Ah]
//! - I    current                                          [A]
//! - k    exponent, 1.1 to 1.25 for valve-regulated lead   [–]
//! - K_t  rated Ah for each ampere that is drawn for t     [h]
//!
//! Source:      Peukert 1897, as widely published; exponents from memory, to be confirmed.
//! Valid for:   lead and nickel, from [`SHORTEST`] on; not for lithium.
//! Agreement:   tests/published/backup.toml, T09-04 and T09-05, within 0.5 %.
//! Not covered: temperature, age, a rest in between.

/// Shortest time it is used for, h.
pub const SHORTEST: f64 = 0.25;

/// Time at a current, h; none below [`SHORTEST`], and without a current, a capacity or a time that are positive numbers.
#[must_use]
pub fn hours(amp_hours: f64, rate_hours: f64, amperes: f64, exponent: f64) -> Option<f64> {
    let positive = [amp_hours, rate_hours, amperes, exponent].iter().all(|number| number.is_finite() && *number > 0.0);
    if !positive {
        return None;
    }
    // t = H · (C / (I · H))^k
    let hours = rate_hours * libm::pow(amp_hours / (amperes * rate_hours), exponent);
    (hours.is_finite() && hours >= SHORTEST).then_some(hours)
}

/// The same, but nothing is credited for a current below the rated one: t = C / I there.
#[must_use]
pub fn hours_on_safe_side(amp_hours: f64, rate_hours: f64, amperes: f64, exponent: f64) -> Option<f64> {
    let by_rate = hours(amp_hours, rate_hours, amperes, exponent)?;
    Some(by_rate.min(amp_hours / amperes))
}

/// Rated Ah for each ampere drawn so long, h; none below [`SHORTEST`]. Beyond the rated time nothing is credited.
#[must_use]
pub fn capacity_rate(hours: f64, rate_hours: f64, exponent: f64) -> Option<f64> {
    if !(hours.is_finite() && hours >= SHORTEST && rate_hours > 0.0 && exponent >= 1.0) {
        return None;
    }
    // K_t = H · (t / H)^(1/k)
    let by_rate = rate_hours * libm::pow(hours / rate_hours, 1.0 / exponent);
    Some(by_rate.max(hours))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_the_rated_current_it_lasts_the_rated_time() {
        assert!((hours(100.0, 10.0, 10.0, 1.15).unwrap() - 10.0).abs() < 1e-12);
        assert!((capacity_rate(10.0, 10.0, 1.15).unwrap() - 10.0).abs() < 1e-12);
    }

    #[test]
    fn capacity_for_a_time_lasts_that_time() {
        for time in [0.25, 1.0, 4.0, 9.9] {
            let needed = 30.0 * capacity_rate(time, 10.0, 1.2).unwrap();
            assert!((hours(needed, 10.0, 30.0, 1.2).unwrap() - time).abs() < 1e-9, "{time}");
        }
    }

    #[test]
    fn says_nothing_below_a_quarter_of_an_hour_or_for_what_is_no_number() {
        // 0.25 = 10 · (C / (I · 10))^1.15 at C / I = 10 · 0.025^(1/1.15)
        let ratio = 10.0 * libm::pow(0.025, 1.0 / 1.15);
        assert!(hours(ratio * 1.001, 10.0, 1.0, 1.15).is_some());
        assert_eq!(hours(ratio * 0.999, 10.0, 1.0, 1.15), None);
        assert!(capacity_rate(0.25, 10.0, 1.15).is_some());
        assert_eq!(capacity_rate(0.249, 10.0, 1.15), None);
        for amperes in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(hours(100.0, 10.0, amperes, 1.15), None);
        }
    }

    #[test]
    fn a_small_current_earns_nothing() {
        assert!(hours(100.0, 10.0, 5.0, 1.15).unwrap() > 20.0);
        assert_eq!(hours_on_safe_side(100.0, 10.0, 5.0, 1.15), Some(20.0));
        assert_eq!(capacity_rate(20.0, 10.0, 1.15), Some(20.0));
    }
}
