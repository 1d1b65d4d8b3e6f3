//! Devices: what a customer puts into the cabinet. The same schema serves the catalogue and the user's own entries.

use serde::{Deserialize, Serialize};
use units::{Celsius, CubicMetresPerHour, Kilograms, Millimetres, Watts};

use super::{Electrical, Trade};

/// The kind of a device, which decides its wash and its drawn face.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DeviceKind {
    /// Switches, routers, line terminals, base-band units, timing.
    #[default]
    Network,
    /// Panels, splice shelves: no power.
    Fibre,
    /// Servers, recorders.
    Compute,
    /// Rectifiers, distribution, UPS, inverters, load centres, outlets.
    Power,
    /// Battery strings.
    Battery,
    /// Cable trays, blank panels, shelves.
    Cable,
}

/// What the cells of a battery are made of, which decides how warmth ages them and whether frost stops their charging.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Chemistry {
    /// Valve-regulated lead-acid.
    Lead,
    /// Lithium iron phosphate.
    Lithium,
    /// Nickel-cadmium.
    Nickel,
}

/// What something runs on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Supply {
    /// Needs no power.
    #[default]
    None,
    /// 120 V alternating current.
    #[serde(rename = "120vac")]
    V120Ac,
    /// 230 or 240 V alternating current.
    #[serde(rename = "230vac")]
    V230Ac,
    /// −48 V direct current.
    #[serde(rename = "48vdc")]
    V48Dc,
    /// +24 V direct current.
    #[serde(rename = "24vdc")]
    V24Dc,
    /// Any alternating current from 100 to 240 V.
    #[serde(rename = "wide-ac")]
    WideAc,
}

impl Supply {
    /// Whether it is alternating current.
    #[must_use]
    pub fn is_ac(self) -> bool {
        matches!(self, Self::V120Ac | Self::V230Ac | Self::WideAc)
    }
}

/// One rack unit, mm: 1.750 in exactly. Source: EIA/ECA-310-E, IEC 60297-3-100.
pub const RACK_UNIT: f64 = 44.45;

/// How a device is held.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mount {
    /// Between rails, this many units high.
    Rack(u32),
    /// Standing on a shelf.
    Shelf,
    /// On a wall.
    Wall,
    /// On a door.
    Door,
    /// On the floor of a bay or of the plinth.
    Floor,
}

/// Which way a device moves air through itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum AirDirection {
    /// None of its own.
    #[default]
    Still,
    /// In at the face, out at the back.
    FrontToBack,
    /// In at the back, out at the face.
    BackToFront,
    /// Side to side.
    SideToSide,
}

/// Conversion of power by a rectifier, inverter or UPS: its losses become heat.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Conversion {
    /// What comes out.
    pub to: Supply,
    /// The most it delivers.
    pub rating: Watts,
    /// Share of the input that comes out, 0…1.
    pub efficiency: f64,
}

/// Cables that leave a device.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cables {
    /// How many.
    pub count: u32,
    /// Outer diameter of one, mm.
    pub diameter: Millimetres,
    /// Smallest bend each takes at rest, mm.
    pub bend_radius: Millimetres,
}

/// A device, from the catalogue or the user's own.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Device {
    /// Name in plain words.
    pub name: String,
    /// Kind.
    pub kind: DeviceKind,
    /// How it is held.
    pub mount: Mount,
    /// Width of the body, mm (a 19-inch device: between the rails).
    pub width: Millimetres,
    /// Height of the body, mm; of a rack device it follows from the units and this is ignored.
    #[serde(default)]
    pub height: Millimetres,
    /// Depth of the body behind its mounting plane.
    pub depth: Millimetres,
    /// Panel width it is made for, in inches: 19 or 23; ignored unless rack-mounted.
    #[serde(default = "nineteen")]
    pub rack: u8,
    /// Whether its ears can also take it by the rear rails as well: a full-depth device that needs four posts.
    #[serde(default)]
    pub four_post: bool,
    /// Mass; absent when nobody has said.
    pub mass: Option<Kilograms>,
    /// Power drawn in ordinary use.
    #[serde(default)]
    pub power: Watts,
    /// Most power drawn; absent: as in ordinary use.
    pub power_max: Option<Watts>,
    /// What it runs on.
    #[serde(default)]
    pub supply: Supply,
    /// Share of the power that becomes heat inside; the rest leaves by cable or antenna.
    #[serde(default = "one")]
    pub heat_share: f64,
    /// Conversion of power for others, with losses.
    pub converts: Option<Conversion>,
    /// What the cells of a battery are made of; absent of any other device, or when nobody has said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub chemistry: Option<Chemistry>,
    /// What is known of it electrically beyond this.
    #[serde(default, skip_serializing_if = "Electrical::is_silent")]
    pub electrical: Electrical,
    /// Lowest air temperature at its inlet.
    pub inlet_min: Option<Celsius>,
    /// Highest air temperature at its inlet.
    pub inlet_max: Option<Celsius>,
    /// Way of its own air.
    #[serde(default)]
    pub air: AirDirection,
    /// Volume of its own air.
    #[serde(default)]
    pub airflow: CubicMetresPerHour,
    /// Room for connectors and the cable's bend before its face, mm.
    #[serde(default)]
    pub face_allowance: Millimetres,
    /// Room for connectors and the cable's bend behind it, mm.
    #[serde(default)]
    pub back_allowance: Millimetres,
    /// Fibre ports it offers.
    #[serde(default)]
    pub fibre_ports: u32,
    /// Splices it takes.
    #[serde(default)]
    pub splices: u32,
    /// Copper ports it offers.
    #[serde(default)]
    pub copper_ports: u32,
    /// Cables that leave it.
    pub cables: Option<Cables>,
    /// Sound power level, dBA.
    pub sound_power: Option<units::Decibels>,
    /// Price, origin, lead time.
    #[serde(default)]
    pub trade: Trade,
}

const fn nineteen() -> u8 {
    19
}

const fn one() -> f64 {
    1.0
}

impl Device {
    /// Units it takes in the rack, if it is rack-mounted.
    #[must_use]
    pub fn units(&self) -> Option<u32> {
        match self.mount {
            Mount::Rack(units) => Some(units),
            _ => None,
        }
    }

    /// Power to reckon with on the worst day, in W.
    #[must_use]
    pub fn worst_power(&self) -> Watts {
        self.power_max.unwrap_or(self.power)
    }
}
