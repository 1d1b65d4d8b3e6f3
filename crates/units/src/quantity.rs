//! One type for each quantity the project stores or computes with.
//!
//! Each is a plain `f64` in the unit its name says. They are our own rather than `uom`'s because `uom` keeps lengths in
//! metres: 813 mm would be stored as 0.813 m and come back as 812.999… or 813.000…1, while a drawing is made of whole
//! millimetres and an engineer's file should show them.

use serde::{Deserialize, Serialize};

use crate::Kind;

/// What every quantity can do: name its kind, and be taken apart and put together.
pub trait Quantity: Copy {
    /// The kind of quantity, which decides the units it is shown and read in.
    const KIND: Kind;
    /// The number, in the kind's base unit.
    fn number(self) -> f64;
    /// The quantity with this number, in the kind's base unit.
    fn from_number(number: f64) -> Self;
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident = $kind:ident;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub f64);

        impl Quantity for $name {
            const KIND: Kind = Kind::$kind;
            fn number(self) -> f64 {
                self.0
            }
            fn from_number(number: f64) -> Self {
                Self(number)
            }
        }
    )*};
}

macro_rules! additive {
    ($($name:ident)*) => {$(
        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
                Self(all.map(|one| one.0).sum())
            }
        }
    )*};
}

quantities! {
    /// A length on a drawing, in millimetres.
    Millimetres = Length;
    /// A height above the sea, in metres.
    Metres = Elevation;
    /// A mass, in kilograms.
    Kilograms = Mass;
    /// A power or a heat flow, in watts.
    Watts = Power;
    /// A temperature, in degrees Celsius. The difference of two is [`Kelvins`].
    Celsius = Temperature;
    /// A temperature difference, in kelvins.
    Kelvins = TemperatureDifference;
    /// An air flow, in cubic metres per hour.
    CubicMetresPerHour = AirFlow;
    /// An angle, in degrees.
    Degrees = Angle;
    /// A pressure, in kilopascals.
    Kilopascals = Pressure;
    /// A sound level, in decibels, A-weighted.
    Decibels = SoundLevel;
    /// A current, in amperes.
    Amperes = Current;
    /// A voltage, in volts.
    Volts = Voltage;
    /// A time, in hours.
    Hours = Time;
}

additive! { Millimetres Metres Kilograms Watts Kelvins CubicMetresPerHour Degrees Kilopascals Amperes Volts Hours }

impl std::ops::Sub for Celsius {
    type Output = Kelvins;
    fn sub(self, other: Self) -> Kelvins {
        Kelvins(self.0 - other.0)
    }
}

impl std::ops::Add<Kelvins> for Celsius {
    type Output = Self;
    fn add(self, by: Kelvins) -> Self {
        Self(self.0 + by.0)
    }
}
