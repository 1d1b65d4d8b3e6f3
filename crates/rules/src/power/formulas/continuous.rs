//! What conductors and breakers are sized for, of loads that last and loads that do not.
//!
//! I_size = f · I_c + I_n
//!
//! - I_size  least ampacity and rating                           [A]
//! - I_c     load that lasts three hours or more                 [A]
//! - I_n     load that does not                                  [A]
//! - f       factor of the electrical code: 1.25                 [–]
//!
//! Source:      NFPA 70, 210.19, 210.20, 215.2, 215.3; the factor stands in assets/codes/nfpa-70.toml.
//! Valid for:   breakers that are not listed for their full rating without end.
//! Agreement:   T08-22 and T08-32 in tests/published/electrical.toml.
//! Not covered: breakers listed for 100 %.

/// What is sized for, A.
#[must_use]
pub fn sized_for(continuous: f64, other: f64, factor: f64) -> f64 {
    factor * continuous + other
}

/// The load that may last on a rating, A or VA.
#[must_use]
pub fn may_last(rating: f64, factor: f64) -> f64 {
    rating / factor
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_may_last_fills_the_rating() {
        assert_eq!(sized_for(may_last(20.0, 1.25), 0.0, 1.25), 20.0);
        assert_eq!(sized_for(8.0, 5.0, 1.25), 15.0);
    }
}
