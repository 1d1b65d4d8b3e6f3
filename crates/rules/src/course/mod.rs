//! What happens inside over a day and over a year: plain data, as a run leaves it.
//!
//! A run is long work, so it is done apart from the report (in the page: by the worker) and handed to it afterwards:
//! a [`crate::Case`] with a course answers the checks over time as well.
//!
//! `prepared.rs` and `days.rs` turn weather and design days into moments; `envelope.rs` (with `skin.rs`, `vented_gap.rs`,
//! `overhang.rs`) says what passes through the outer faces at each; `interior.rs` and `duty.rs` say what is inside; `run.rs`
//! hands all to [`crate::thermal`], and `gathered.rs`, `transients.rs` and `grid_lost.rs` make a course of what comes back.

mod days;
mod duty;
mod envelope;
mod gathered;
mod grid_lost;
mod interior;
mod limits;
mod moment;
mod overhang;
mod prepared;
mod problem;
mod run;
mod series;
mod skin;
#[cfg(test)]
mod tests;
mod transients;
mod vented_gap;

use project::ItemId;
use serde::{Deserialize, Serialize};

pub use moment::Moment;
pub use prepared::PreparedClimate;
pub use problem::Problem;
pub use run::{Runner, run};
pub use series::Series;

/// Everything that a run over time gives for one project in one climate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Course {
    /// The weather of the year, in words.
    pub weather: String,
    /// What was corrected in that weather or assumed, one sentence each.
    pub notes: Vec<String>,
    /// The compartments, left to right.
    pub rooms: Vec<Room>,
    /// The climate units that run, in the order of the build.
    pub units: Vec<Unit>,
    /// The brief's hottest day, settled: the day repeats itself.
    pub hot_day: Span,
    /// The brief's coldest day, settled.
    pub cold_day: Span,
    /// The year, hour by hour, 8760 of them, in local standard time.
    pub year: Span,
    /// What each room went through in the year, in the order of `rooms`.
    pub room_years: Vec<RoomYear>,
    /// What each unit did in the year, in the order of `units`.
    pub unit_years: Vec<UnitYear>,
    /// Where the heat of the hottest hour of the year came from, in the order of `rooms`.
    pub peaks: Vec<Peak>,
    /// Heat that came in less heat that went out less heat stored over the year, as a share of what came in.
    pub residual: f64,
    /// Temperature of each battery over the year.
    pub batteries: Vec<BatteryYear>,
    /// A door opened at the hottest hour of the hot day, with the units stopped.
    pub door_open: Transient,
    /// Cooling lost at the hottest hour of the hot day: units that no battery feeds stop, devices run on.
    pub cooling_lost: Transient,
    /// The supply lost at the same hour: what hangs on no battery stops, until the strings give no more.
    pub grid_lost: GridLost,
    /// From everything at the coldest hour's outdoor air to the first moment every room is warm enough, with devices off.
    pub cold_start: Transient,
}

impl Course {
    /// Electricity that all units use in the year, kWh.
    #[must_use]
    pub fn electricity(&self) -> f64 {
        self.unit_years.iter().fold(0.0, |sum, year| sum + year.electricity)
    }

    /// The same month by month, January first.
    #[must_use]
    pub fn electricity_by_month(&self) -> [f64; 12] {
        std::array::from_fn(|month| {
            self.unit_years.iter().fold(0.0, |sum, year| sum + year.electricity_by_month[month])
        })
    }
}

/// A compartment.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Room {
    /// What it is called; empty when it is the whole cabinet.
    pub name: String,
    /// The lowest of the highest inlet temperatures its devices allow, °C.
    pub hot_limit: Option<f64>,
    /// The device that sets it.
    pub hot_device: Option<ItemId>,
    /// The highest of the lowest inlet temperatures its devices allow, or what the brief keeps, °C.
    pub cold_limit: f64,
    /// The device that sets it; absent when the brief does.
    pub cold_device: Option<ItemId>,
}

/// A climate unit that runs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Unit {
    /// Its number.
    pub id: ItemId,
    /// Its name.
    pub name: String,
    /// The room it serves, counted from 0.
    pub room: usize,
    /// Whether it heats.
    pub heats: bool,
}

/// A stretch of time in equal steps.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Span {
    /// Length of a step, h.
    pub step: f64,
    /// Outdoor air at the middle of each step, °C.
    pub outside: Series,
    /// Sun on level ground, W/m².
    pub sun: Series,
    /// Height of the sun over the horizon, refraction included, degrees; negative at night.
    pub sun_height: Series,
    /// Bearing of the sun, degrees clockwise from north.
    pub sun_bearing: Series,
    /// Sun on each face, W/m²: front, rear, left, right, roof.
    pub faces: Vec<Series>,
    /// Mean inside air of each step, °C: one series for each room.
    pub air: Vec<Series>,
    /// Highest inside air within each step, °C: one series for each room.
    pub highest: Vec<Series>,
    /// Share of each step a unit ran, 0…1: one series for each unit.
    pub duty: Vec<Series>,
}

/// What a room went through in the year.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RoomYear {
    /// Highest inside air, °C.
    pub highest: f64,
    /// The hour of the year it came in, counted from 0.
    pub highest_at: u32,
    /// Lowest inside air, °C.
    pub lowest: f64,
    /// The hour of the year it came in.
    pub lowest_at: u32,
    /// Mean inside air, °C.
    pub mean: f64,
    /// Hours above `hot_limit`; absent without a limit.
    pub hours_above: Option<f64>,
    /// Hours below `cold_limit`.
    pub hours_below: f64,
    /// For each device with a limit of its own: hours its inlet was above and below.
    pub devices: Vec<DeviceYear>,
}

/// What a device went through in the year.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DeviceYear {
    /// Its number.
    pub id: ItemId,
    /// Highest inlet temperature, °C.
    pub highest: f64,
    /// Lowest inlet temperature, °C.
    pub lowest: f64,
    /// Hours above its highest inlet temperature; absent when nobody has set one.
    pub hours_above: Option<f64>,
    /// Hours below its lowest inlet temperature; absent when nobody has set one.
    pub hours_below: Option<f64>,
}

/// What a unit did in the year.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct UnitYear {
    /// Times it started.
    pub starts: u32,
    /// Most starts in one hour.
    pub most_starts: u32,
    /// Hours it ran.
    pub hours: f64,
    /// Heat it moved out, or in when it heats, kWh.
    pub heat: f64,
    /// Electricity it used, kWh.
    pub electricity: f64,
    /// The same month by month, January first.
    pub electricity_by_month: [f64; 12],
    /// Hours in which it was called for outside its map: with outdoor air beyond it, it stood still; with inside air beyond
    /// its warm end it went on as at the end; a fan or exchanger went on by its law.
    pub hours_beyond_map: u32,
}

/// Where the heat of the hottest hour came from, W: positive into the room.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Peak {
    /// Hour of the year, counted from 0.
    pub hour: u32,
    /// From the devices.
    pub devices: f64,
    /// From the sun on the skin.
    pub sun: f64,
    /// Through the envelope, sun apart.
    pub envelope: f64,
    /// From the room next door.
    pub divider: f64,
    /// From the units: negative when they cool.
    pub units: f64,
    /// Out of what is stored in devices and air.
    pub stored: f64,
}

/// The temperature of one battery over the year.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BatteryYear {
    /// Its device.
    pub id: ItemId,
    /// Mean, °C.
    pub mean: f64,
    /// Highest, °C.
    pub highest: f64,
    /// Lowest, °C.
    pub lowest: f64,
    /// Mean of 2^((T − 25)/10) over the year: how much faster than at 25 °C it ages.
    pub ageing: f64,
    /// Hours below 0 °C.
    pub hours_below_freezing: f64,
}

/// A run from one moment on until a limit is met.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Transient {
    /// Minutes from the start until the first limit is met; absent when none is within `span`.
    pub minutes: Option<f64>,
    /// The room it is met in.
    pub room: usize,
    /// The device whose limit it is.
    pub device: Option<ItemId>,
    /// Inside air of each room, °C, in steps of one minute from the start: what was reckoned.
    pub air: Vec<Series>,
    /// Why there is none, when there is none to reckon: "no limit is set".
    pub because: String,
}

/// What happens from the moment on in which the supply fails: inside air, strings and bus together.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GridLost {
    /// Inside air, and the first limit that it meets, before or after the strings give no more.
    pub heat: Transient,
    /// Minutes until the strings give no more and all that hangs on them stops; absent when they last as long as is watched,
    /// or are not followed.
    pub minutes: Option<f64>,
    /// Whether they are taken off by the voltage of the bus, rather than used up.
    pub taken_off: bool,
    /// Voltage of the bus, V, in steps of one minute from the start for as long as the strings give.
    pub volts: Series,
    /// Power that the strings give, W, in the same steps.
    pub load: Series,
    /// Why the strings are not followed, when they are not: "no battery is fitted".
    pub because: String,
}
