//! Figures of the chemistries, for each cell.
//!
//! As of 2025, from memory, to be confirmed with the maker of the cells that are bought ([`crate::sources::CELLS`]). Float and
//! end of lead are the handbook practice of −48 V plants: 2.25 to 2.27 V, compensated by about −3 mV/K, and 1.75 to 1.80 V.
//! What charges a cell stands with the network ([`crate::network::charge_volts`]).

use catalogue::Chemistry;

/// Figures of one chemistry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// Its name in plain words.
    pub name: &'static str,
    /// Cells in series that make a string of a −48 V plant; the first is usual.
    pub string: &'static [u32],
    /// Nominal voltage, V.
    pub nominal: f64,
    /// Voltage at the start of a discharge without current, V.
    pub start: f64,
    /// Voltage at the end of the rated capacity, V.
    pub end: f64,
    /// Highest voltage on charge at 25 °C, V: boost of lead and nickel.
    pub boost: f64,
    /// Compensation of the float voltage, V/K.
    pub compensation: f64,
    /// Peukert's exponent; none where his law does not hold.
    pub exponent: Option<f64>,
    /// Share of the capacity that is used.
    pub used: f64,
    /// Most current on charge, as a share of the rated capacity per hour, unless the maker says.
    pub charge_limit: f64,
    /// Resistance of a cell times its rated capacity, Ω·Ah, unless the maker says.
    pub resistance: f64,
}

/// Share of the rated capacity at which a battery is replaced: the ageing factor of 1.25 the other way round.
pub const END_OF_LIFE: f64 = 0.8;

/// Strings of a plant of 24 V, for which there is no bus here, would be half as long.
const LEAD: Figures = Figures {
    name: "lead",
    string: &[24],
    nominal: 2.0,
    start: 2.12,
    end: 1.80,
    boost: 2.35,
    compensation: -0.003,
    exponent: Some(1.15),
    used: 1.0,
    charge_limit: 0.2,
    resistance: 0.06,
};

/// Used is the top of the 80 to 90 % that are usual, since age is counted apart.
const LITHIUM: Figures = Figures {
    name: "lithium iron phosphate",
    string: &[15, 16],
    nominal: 3.2,
    start: 3.38,
    end: 2.8,
    boost: 3.5,
    compensation: 0.0,
    exponent: None,
    used: 0.9,
    charge_limit: 0.5,
    resistance: 0.12,
};

const NICKEL: Figures = Figures {
    name: "nickel-cadmium",
    string: &[38],
    nominal: 1.2,
    start: 1.32,
    end: 1.10,
    boost: 1.48,
    compensation: -0.003,
    exponent: Some(1.1),
    used: 1.0,
    charge_limit: 0.2,
    resistance: 0.10,
};

/// Figures of a chemistry.
#[must_use]
pub const fn figures(chemistry: Chemistry) -> &'static Figures {
    match chemistry {
        Chemistry::Lead => &LEAD,
        Chemistry::Lithium => &LITHIUM,
        Chemistry::Nickel => &NICKEL,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_string_of_each_is_a_plant_of_48_volts() {
        for chemistry in [Chemistry::Lead, Chemistry::Lithium, Chemistry::Nickel] {
            let of = figures(chemistry);
            for &cells in of.string {
                let volts = |of_cell: f64| f64::from(cells) * of_cell;
                assert!((45.0..=51.5).contains(&volts(of.nominal)), "{}", of.name);
                assert!(volts(of.boost) <= 57.0 && volts(of.end) >= 40.5, "{}", of.name);
                assert!(of.end < of.nominal && of.nominal < of.start && of.start < of.boost, "{}", of.name);
            }
        }
    }
}
