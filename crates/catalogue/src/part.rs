//! The parts of a catalogue, as they stand in its files.

mod body;
mod climate_unit;
mod device;
mod electrical;

pub use body::*;
pub use climate_unit::*;
pub use device::*;
pub use electrical::*;

use serde::{Deserialize, Serialize};
use units::Millimetres;

/// The whole numbers or lengths a parametric part may take: from, to, and the step between.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Range {
    /// Least value.
    pub from: f64,
    /// Greatest value.
    pub to: f64,
}

impl Range {
    /// Whether the value lies in the range, ends included.
    #[must_use]
    pub fn contains(&self, value: f64) -> bool {
        value >= self.from && value <= self.to
    }
}

/// Outer size of a part.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Size {
    /// Left to right.
    pub width: Millimetres,
    /// Front to rear; of a door-borne unit: outwards.
    pub depth: Millimetres,
    /// Bottom to top.
    pub height: Millimetres,
}

/// Where a part is made, as far as the maker says.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Trade {
    /// Price each, in the catalogue's currency; for sheet and insulation per square metre.
    pub price: Option<f64>,
    /// Country of origin, an ISO 3166 two-letter code.
    pub origin: Option<String>,
    /// Lead time in weeks.
    pub lead_weeks: Option<f64>,
}
