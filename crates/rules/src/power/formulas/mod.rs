//! The printed equations of Power.

pub mod continuous;
pub mod current;
pub mod drop;
pub mod resistance;

/// How many conductors carry the current of a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wires {
    /// Two: direct current, or alternating current of one phase, whether to neutral or between phases.
    Two,
    /// Three: alternating current of three phases, balanced.
    Three,
}

impl Wires {
    /// Voltage between the conductors over that along one of them: k.
    const fn factor(self) -> f64 {
        match self {
            Self::Two => 1.0,
            // √3, to the last figure of a double.
            Self::Three => 1.732_050_807_568_877_2,
        }
    }
}
