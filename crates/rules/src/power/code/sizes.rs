//! Sizes of conductors, and the columns of the tables.

use serde::Deserialize;

/// A size of conductor: its number of the American wire gauge, or its area in thousands of circular mils. Ordered by area.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Size {
    /// 18 AWG.
    #[serde(rename = "18")]
    Awg18,
    /// 16 AWG.
    #[serde(rename = "16")]
    Awg16,
    /// 14 AWG.
    #[serde(rename = "14")]
    Awg14,
    /// 12 AWG.
    #[serde(rename = "12")]
    Awg12,
    /// 10 AWG.
    #[serde(rename = "10")]
    Awg10,
    /// 8 AWG.
    #[serde(rename = "8")]
    Awg8,
    /// 6 AWG.
    #[serde(rename = "6")]
    Awg6,
    /// 4 AWG.
    #[serde(rename = "4")]
    Awg4,
    /// 3 AWG.
    #[serde(rename = "3")]
    Awg3,
    /// 2 AWG.
    #[serde(rename = "2")]
    Awg2,
    /// 1 AWG.
    #[serde(rename = "1")]
    Awg1,
    /// 1/0 AWG.
    #[serde(rename = "1/0")]
    Awg1Zero,
    /// 2/0 AWG.
    #[serde(rename = "2/0")]
    Awg2Zeros,
    /// 3/0 AWG.
    #[serde(rename = "3/0")]
    Awg3Zeros,
    /// 4/0 AWG.
    #[serde(rename = "4/0")]
    Awg4Zeros,
    /// 250 kcmil.
    #[serde(rename = "250")]
    Kcmil250,
    /// 300 kcmil.
    #[serde(rename = "300")]
    Kcmil300,
    /// 350 kcmil.
    #[serde(rename = "350")]
    Kcmil350,
    /// 400 kcmil.
    #[serde(rename = "400")]
    Kcmil400,
    /// 500 kcmil.
    #[serde(rename = "500")]
    Kcmil500,
}

/// How a size is counted.
enum Counted {
    /// Gauge number: 0 for 1/0, −1 for 2/0.
    Gauge(f64),
    /// Thousands of circular mils.
    Mils(f64),
}

impl Size {
    /// All sizes, the smallest first.
    pub const ALL: [Self; 20] = [
        Self::Awg18,
        Self::Awg16,
        Self::Awg14,
        Self::Awg12,
        Self::Awg10,
        Self::Awg8,
        Self::Awg6,
        Self::Awg4,
        Self::Awg3,
        Self::Awg2,
        Self::Awg1,
        Self::Awg1Zero,
        Self::Awg2Zeros,
        Self::Awg3Zeros,
        Self::Awg4Zeros,
        Self::Kcmil250,
        Self::Kcmil300,
        Self::Kcmil350,
        Self::Kcmil400,
        Self::Kcmil500,
    ];

    const fn row(self) -> (&'static str, Counted) {
        use Counted::{Gauge, Mils};
        match self {
            Self::Awg18 => ("18 AWG", Gauge(18.0)),
            Self::Awg16 => ("16 AWG", Gauge(16.0)),
            Self::Awg14 => ("14 AWG", Gauge(14.0)),
            Self::Awg12 => ("12 AWG", Gauge(12.0)),
            Self::Awg10 => ("10 AWG", Gauge(10.0)),
            Self::Awg8 => ("8 AWG", Gauge(8.0)),
            Self::Awg6 => ("6 AWG", Gauge(6.0)),
            Self::Awg4 => ("4 AWG", Gauge(4.0)),
            Self::Awg3 => ("3 AWG", Gauge(3.0)),
            Self::Awg2 => ("2 AWG", Gauge(2.0)),
            Self::Awg1 => ("1 AWG", Gauge(1.0)),
            Self::Awg1Zero => ("1/0 AWG", Gauge(0.0)),
            Self::Awg2Zeros => ("2/0 AWG", Gauge(-1.0)),
            Self::Awg3Zeros => ("3/0 AWG", Gauge(-2.0)),
            Self::Awg4Zeros => ("4/0 AWG", Gauge(-3.0)),
            Self::Kcmil250 => ("250 kcmil", Mils(250.0)),
            Self::Kcmil300 => ("300 kcmil", Mils(300.0)),
            Self::Kcmil350 => ("350 kcmil", Mils(350.0)),
            Self::Kcmil400 => ("400 kcmil", Mils(400.0)),
            Self::Kcmil500 => ("500 kcmil", Mils(500.0)),
        }
    }

    /// As the trade writes it: "10 AWG", "250 kcmil".
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.row().0
    }

    /// The size with this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|size| size.name() == name)
    }

    /// Area of the metal as one solid wire, mm²; the gauge follows from its definition (ASTM B258):
    /// d = 0.127 mm · 92^((36 − n)/39),  A = π/4 · d²
    #[must_use]
    pub fn area(self) -> f64 {
        let diameter = match self.row().1 {
            Counted::Gauge(number) => 0.127 * libm::pow(92.0, (36.0 - number) / 39.0),
            // A circular mil is the area of a circle of 0.001 in.
            Counted::Mils(thousands) => 0.0254 * libm::sqrt(thousands * 1000.0),
        };
        core::f64::consts::FRAC_PI_4 * diameter * diameter
    }
}

/// A column of the tables: what temperature the insulation or the terminals bear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    /// 60 °C.
    C60,
    /// 75 °C.
    C75,
    /// 90 °C.
    C90,
}

impl Column {
    /// All columns, the coolest first.
    pub const ALL: [Self; 3] = [Self::C60, Self::C75, Self::C90];

    /// °C.
    #[must_use]
    pub const fn celsius(self) -> f64 {
        match self {
            Self::C60 => 60.0,
            Self::C75 => 75.0,
            Self::C90 => 90.0,
        }
    }

    /// The hottest column that terminals of this many °C allow.
    #[must_use]
    pub fn for_terminals(celsius: f64) -> Option<Self> {
        Self::ALL.into_iter().rev().find(|column| column.celsius() <= celsius)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_ordered_by_their_area() {
        assert!(Size::ALL.is_sorted_by(|one, other| one < other && one.area() < other.area()));
        assert_eq!(Size::ALL.map(|size| Size::named(size.name())), Size::ALL.map(Some));
        assert_eq!(Size::named("5 AWG"), None);
    }

    #[test]
    fn terminals_allow_the_columns_up_to_theirs() {
        let columns = [59.9, 60.0, 74.9, 75.0, 90.0].map(Column::for_terminals);
        assert_eq!(columns, [None, Some(Column::C60), Some(Column::C60), Some(Column::C75), Some(Column::C90)]);
    }
}
