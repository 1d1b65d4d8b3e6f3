//! How many modules carry a load.
//!
//! N = ⌈(P_load + P_recharge) / P_module⌉ + r
//!
//! - N           modules                                   [–]
//! - P_load      load                                      [W]
//! - P_recharge  what charges the batteries                [W]
//! - P_module    rating of one module                      [W]
//! - r           1 where one may fail, else 0              [–]
//!
//! Source:      the ceiling rule; practice of plants.
//! Valid for:   modules of one rating that share evenly.
//! Agreement:   tests/published/backup.toml, T09-03, exact.
//! Not covered: derating of modules in heat.

/// Rounding of a sum may not ask for a module more.
const SLACK: f64 = 1e-9;

/// Modules; none without a rating, or where it takes more than could be counted.
#[must_use]
pub fn needed(load: f64, recharge: f64, module: f64, redundant: bool) -> Option<u32> {
    let whole = libm::ceil((load + recharge) / module - SLACK);
    (module > 0.0 && (0.0..1e6).contains(&whole)).then(|| whole as u32 + u32::from(redundant))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_module_is_enough_and_a_watt_more_is_not() {
        assert_eq!(needed(4000.0, 0.0, 2000.0, false), Some(2));
        assert_eq!(needed(4001.0, 0.0, 2000.0, false), Some(3));
        assert_eq!(needed(4001.0, 0.0, 2000.0, true), Some(4));
        assert_eq!((needed(1.0, 0.0, 0.0, true), needed(f64::NAN, 0.0, 1.0, true)), (None, None));
    }
}
