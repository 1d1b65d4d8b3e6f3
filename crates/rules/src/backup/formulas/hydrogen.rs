//! Air that thins the hydrogen of charging batteries.
//!
//! Q = 0.05 · n · I_gas · C · 10⁻³;  A = 28 · Q
//!
//! - Q      air flow                                              [m³/h]
//! - 0.05   24 · 0.42·10⁻³ · 5: thinning to 4 %, gas of an Ah, safety    [m³/Ah]
//! - n      cells                                                 [–]
//! - I_gas  current that makes gas, for each Ah of capacity       [mA/Ah]
//! - C      rated capacity                                        [Ah]
//! - A      free area of the inlet, and of the outlet as much     [cm²]
//!
//! Source:      IEC 62485-2 (EN 50272-2 before), read in two public pages; the currents of nickel from memory.
//! Valid for:   natural air flow of 0.1 m/s through openings on opposite sides.
//! Agreement:   tests/published/backup.toml, T09-12 to T09-14, exact.
//! Not covered: some tables of the United States give 0.5 mA for each 100 Ah of valve-regulated cells on float; here it is
//!              1 mA/Ah, with the safety factor of 5.

use catalogue::Chemistry;

/// What cells give off, for each Ah of capacity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
    /// On float, mA/Ah.
    pub float: f64,
    /// On boost, mA/Ah.
    pub boost: f64,
}

/// Of vented lead cells, which the catalogue does not hold.
pub const VENTED_LEAD: Gas = Gas { float: 5.0, boost: 20.0 };

/// What cells of a chemistry give off; none where they are sealed. Lead is valve-regulated, nickel is vented.
#[must_use]
pub const fn gas(chemistry: Chemistry) -> Option<Gas> {
    match chemistry {
        Chemistry::Lead => Some(Gas { float: 1.0, boost: 8.0 }),
        Chemistry::Nickel => Some(Gas { float: 5.0, boost: 50.0 }),
        Chemistry::Lithium => None,
    }
}

/// Air flow, m³/h.
#[must_use]
pub fn flow(cells: f64, gas: f64, amp_hours: f64) -> f64 {
    0.05 * cells * gas * amp_hours * 1e-3
}

/// Free area of the inlet, and of the outlet as much, cm².
#[must_use]
pub fn opening(flow: f64) -> f64 {
    28.0 * flow
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lithium_gives_none() {
        assert_eq!(gas(Chemistry::Lithium), None);
        assert!((opening(flow(24.0, 1.0, 100.0)) - 3.36).abs() < 1e-12);
    }
}
