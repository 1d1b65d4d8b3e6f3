//! Climate units: what they move at which temperatures, what they need, where they sit.

use serde::{Deserialize, Serialize};
use units::{Amperes, Celsius, CubicMetresPerHour, Decibels, Kelvins, Kilograms, Watts};

use super::{Size, Supply, Trade};

/// The sort of climate unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum UnitSort {
    /// A filter fan with its outlet filter: blows outdoor air through.
    FilterFan,
    /// An air-to-air exchanger: two closed air paths.
    Exchanger,
    /// An air conditioner.
    AirConditioner,
    /// A heater inside.
    Heater,
}

/// Where a unit may be fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum UnitPlace {
    /// On the leaf of a front or rear door.
    Door,
    /// On a side wall.
    Side,
    /// On the roof.
    Roof,
    /// Inside, on a wall or the floor.
    Inside,
}

/// How much heat a unit moves, over the temperature inside and outside. Bilinear between the points, refused beyond them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UnitMap {
    /// Inside temperatures of the rows, °C, rising.
    pub inside: Vec<f64>,
    /// Outside temperatures of the columns, °C, rising.
    pub outside: Vec<f64>,
    /// Heat moved out (of a heater: in), W, at sea level: one row for each inside temperature.
    pub capacity: Vec<Vec<f64>>,
    /// Electrical input, W, in the same arrangement.
    pub input: Vec<Vec<f64>>,
}

/// A rated point as a maker prints it beside the map.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RatedPoint {
    /// Inside temperature.
    pub inside: Celsius,
    /// Outside temperature.
    pub outside: Celsius,
    /// Capacity there.
    pub capacity: Watts,
}

/// A climate unit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClimateUnit {
    /// Name in plain words.
    pub name: String,
    /// Sort.
    pub sort: UnitSort,
    /// What it runs on.
    pub supply: Supply,
    /// Where it may be fitted.
    pub places: Vec<UnitPlace>,
    /// Outer size; `depth` is how far it stands out of the surface it is fitted to, both sides together.
    pub size: Size,
    /// How far it stands into the cabinet, of `size.depth`, mm.
    pub inner_depth: f64,
    /// Width of the hole it needs, mm; 0 for none.
    pub cut_out_width: f64,
    /// Height of the hole it needs, mm.
    pub cut_out_height: f64,
    /// Mass.
    pub mass: Kilograms,
    /// Capacity and input over the temperatures.
    pub map: UnitMap,
    /// Rated points, shown beside the map.
    #[serde(default)]
    pub rated: Vec<RatedPoint>,
    /// Share of the capacity that is left per metre of height above the sea: 1 − loss × metres. Fans: their air mass counts instead.
    #[serde(default)]
    pub altitude_loss_per_metre: f64,
    /// Air it moves inside.
    pub airflow: CubicMetresPerHour,
    /// Current that it draws while its compressor or fan starts; absent: nobody has said.
    #[serde(default)]
    pub starting: Option<Amperes>,
    /// Real over apparent power, 0…1; absent: as [`Self::power_factor_or_usual`] says.
    #[serde(default)]
    pub power_factor: Option<f64>,
    /// Thermostat: it starts to work above (a heater: below) this inside temperature.
    pub set_point: Celsius,
    /// Thermostat: it stops so far below (a heater: above) its set point.
    #[serde(default = "usual_hysteresis")]
    pub hysteresis: Kelvins,
    /// How long it stays off at least before it starts again, s; none: as [`Self::seconds_off`] says.
    pub least_off: Option<f64>,
    /// Whether what it draws becomes heat inside, besides what its map says; none: as [`Self::input_heats_inside`] says.
    pub input_inside: Option<bool>,
    /// Share of its air flow, and so of its capacity, that a filter fan keeps with a soiled filter. The map is with a clean one.
    #[serde(default = "whole")]
    pub soiled_share: f64,
    /// Sound power level.
    pub sound_power: Option<Decibels>,
    /// The weather rating the cabinet keeps with it, as its maker says: "3R", "4", "IP55".
    pub keeps: String,
    /// Refrigerant, for an air conditioner.
    pub refrigerant: Option<String>,
    /// Price, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

/// Common practice, no source: a thermostat of a cabinet switches within about 5 K.
const fn usual_hysteresis() -> Kelvins {
    Kelvins(5.0)
}

const fn whole() -> f64 {
    1.0
}

/// Common practice, no source: a compressor waits some three minutes until the pressures on its two sides are even.
const COMPRESSOR_REST: f64 = 180.0;

/// Common practice, no source: compressors and their fans.
const COMPRESSOR_POWER_FACTOR: f64 = 0.9;

impl ClimateUnit {
    /// Real over apparent power. Unless said otherwise a heater takes all of what it draws, motors nine tenths of it.
    #[must_use]
    pub fn power_factor_or_usual(&self) -> f64 {
        let usual = if self.sort == UnitSort::Heater { 1.0 } else { COMPRESSOR_POWER_FACTOR };
        self.power_factor.unwrap_or(usual)
    }

    /// How long it stays off at least before it starts again, s. Unless said otherwise only a compressor has to wait.
    #[must_use]
    pub fn seconds_off(&self) -> f64 {
        let usual = if self.sort == UnitSort::AirConditioner { COMPRESSOR_REST } else { 0.0 };
        self.least_off.unwrap_or(usual)
    }

    /// Whether what it draws becomes heat inside, besides what its map says. Unless said otherwise the fans of filter fans
    /// and exchangers blow inside, what an air conditioner draws leaves with its warm side, and what a heater draws is
    /// what its map says already.
    #[must_use]
    pub fn input_heats_inside(&self) -> bool {
        self.input_inside.unwrap_or(matches!(self.sort, UnitSort::FilterFan | UnitSort::Exchanger))
    }
}
