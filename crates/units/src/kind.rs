//! The kinds of quantity that are shown, and the two systems of units they are shown in.

use serde::{Deserialize, Serialize};

/// The system of units that figures are shown in and that a bare number is read in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum System {
    /// Millimetres, kilograms, degrees Celsius.
    #[default]
    Metric,
    /// Inches, pounds, degrees Fahrenheit.
    Us,
}

impl System {
    /// Both systems.
    pub const ALL: [Self; 2] = [Self::Metric, Self::Us];

    /// The other one, for a switch between the two.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Metric => Self::Us,
            Self::Us => Self::Metric,
        }
    }
}

/// A kind of quantity. The base unit, in which numbers are kept and computed with, stands behind each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// A length on a drawing: mm.
    Length,
    /// A height above the sea or a distance on a site: m.
    Elevation,
    /// kg.
    Mass,
    /// Power or heat flow: W.
    Power,
    /// A heat flow that the US trade gives in Btu/h: W.
    HeatFlow,
    /// °C.
    Temperature,
    /// K.
    TemperatureDifference,
    /// m³/h.
    AirFlow,
    /// Plane angle: degrees.
    Angle,
    /// kPa.
    Pressure,
    /// Atmospheric pressure: Pa.
    AirPressure,
    /// Sound level: dBA.
    SoundLevel,
    /// m².
    Area,
    /// A small area such as a cut-out: cm².
    SmallArea,
    /// kN.
    Force,
    /// W/(m²·K).
    HeatTransfer,
    /// W/K.
    Conductance,
    /// W/(m·K).
    Conductivity,
    /// W/m².
    HeatFlux,
    /// kg/m³.
    Density,
    /// J/(kg·K).
    SpecificHeat,
    /// kg/m².
    MassPerArea,
    /// Rack units: U.
    RackUnits,
    /// A count of things, without a unit.
    Count,
    /// A pure number.
    Ratio,
    /// A share, kept as 0…1 and shown in %.
    Share,
    /// m/s.
    Speed,
    /// The thermal resistance of a layer, what the US trade calls its R-value: m²·K/W.
    ThermalResistance,
    /// A time, or how far a clock is ahead: h.
    Time,
    /// A short time: min.
    Minutes,
    /// kWh.
    Energy,
    /// A sum of money, whose currency stands in the words beside it.
    Money,
    /// A very small share, kept as 0…1 and shown in millionths.
    Millionths,
    /// A.
    Current,
    /// V.
    Voltage,
    /// Apparent power: VA.
    ApparentPower,
    /// Charge of a battery: Ah.
    Charge,
    /// Resistance of a conductor over its length: Ω/km, in the US Ω/kft.
    ResistancePerLength,
}

impl Kind {
    /// Every kind, in the order of declaration.
    pub const ALL: [Self; 38] = [
        Self::Length,
        Self::Elevation,
        Self::Mass,
        Self::Power,
        Self::HeatFlow,
        Self::Temperature,
        Self::TemperatureDifference,
        Self::AirFlow,
        Self::Angle,
        Self::Pressure,
        Self::AirPressure,
        Self::SoundLevel,
        Self::Area,
        Self::SmallArea,
        Self::Force,
        Self::HeatTransfer,
        Self::Conductance,
        Self::Conductivity,
        Self::HeatFlux,
        Self::Density,
        Self::SpecificHeat,
        Self::MassPerArea,
        Self::RackUnits,
        Self::Count,
        Self::Ratio,
        Self::Share,
        Self::Speed,
        Self::ThermalResistance,
        Self::Time,
        Self::Minutes,
        Self::Energy,
        Self::Money,
        Self::Millionths,
        Self::Current,
        Self::Voltage,
        Self::ApparentPower,
        Self::Charge,
        Self::ResistancePerLength,
    ];
}

/// A number with its kind, in the kind's base unit: what findings and workings are made of.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Value {
    /// The number, in the base unit of `kind`.
    pub number: f64,
    /// What it is a number of.
    pub kind: Kind,
}

impl Value {
    /// A value of the given kind.
    #[must_use]
    pub const fn new(number: f64, kind: Kind) -> Self {
        Self { number, kind }
    }
}

impl<Q: crate::Quantity> From<Q> for Value {
    fn from(quantity: Q) -> Self {
        Self::new(quantity.number(), Q::KIND)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_kinds_are_listed_in_order() {
        assert_eq!(Kind::ALL.len(), Kind::ResistancePerLength as usize + 1);
        assert!(Kind::ALL.iter().enumerate().all(|(place, &kind)| kind as usize == place));
    }
}
