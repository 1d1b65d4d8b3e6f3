//! What is known of a part electrically, beyond what it draws and what it runs on.

use serde::{Deserialize, Serialize};
use units::{Amperes, Volts};

/// What a device is in the network of power. A device of which nothing is said draws its power through one input, for
/// hours on end.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Electrical {
    /// What it does for others.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub role: Option<Role>,
    /// Real over apparent power, 0…1; absent: as [`Self::power_factor_or_usual`] says.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub power_factor: Option<f64>,
    /// Whether it has two inputs, A and B, either of which carries all of it.
    #[serde(skip_serializing_if = "is_not")]
    pub two_inputs: bool,
    /// Whether it draws its power for less than three hours at a time.
    #[serde(skip_serializing_if = "is_not")]
    pub momentary: bool,
    /// Modules that share the rating of a converter; absent: it is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub modules: Option<u32>,
    /// Energy that an uninterruptible supply holds in itself when new, Wh.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub holds: Option<f64>,
    /// The cells of a battery.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cells: Option<Cells>,
}

const fn is_not(yes: &bool) -> bool {
    !*yes
}

/// Common practice, no source: electronics with a corrected input.
const USUAL_POWER_FACTOR: f64 = 0.95;

impl Electrical {
    /// Real over apparent power; 0.95 when nobody has said (common practice, no source).
    #[must_use]
    pub fn power_factor_or_usual(&self) -> f64 {
        self.power_factor.unwrap_or(USUAL_POWER_FACTOR)
    }

    /// Whether nothing is said, which files need not say either.
    #[must_use]
    pub fn is_silent(&self) -> bool {
        *self == Self::default()
    }
}

/// What a device does for others in the network of power.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Role {
    /// Switches off all that comes from the service, by hand.
    Disconnect {
        /// Rated current.
        amperes: Amperes,
        /// Fault current it withstands.
        interrupts: Amperes,
    },
    /// Leads surges to earth.
    SurgeProtector {
        /// Breaker it is fed by.
        amperes: Amperes,
        /// Fault current it withstands.
        interrupts: Amperes,
    },
    /// Holds the breakers of the branches.
    LoadCentre {
        /// Places for breakers of one pole.
        positions: u32,
        /// Rated current of its bus.
        amperes: Amperes,
        /// Fault current its breakers interrupt.
        interrupts: Amperes,
    },
    /// An outlet for tools and visitors.
    Outlet {
        /// Rated current.
        amperes: Amperes,
        /// Whether it opens on a fault to ground.
        guarded: bool,
    },
    /// A strip of outlets that feeds devices.
    OutletStrip {
        /// Rated current.
        amperes: Amperes,
        /// Its outlets.
        outlets: u32,
    },
    /// Takes the cord of a generator.
    GeneratorInlet {
        /// Rated current.
        amperes: Amperes,
        /// Published configuration of its contacts: "L14-30".
        configuration: String,
    },
    /// Lets one of two sources through, and never both.
    Interlock {
        /// Rated current.
        amperes: Amperes,
    },
    /// Joins conductors.
    JunctionBox,
    /// Holds the breakers or fuses of the direct-current branches.
    Distribution {
        /// Branches.
        ways: u32,
        /// Rated current of its bus.
        amperes: Amperes,
    },
    /// Takes the strings off before they are drained.
    LowVoltageDisconnect {
        /// Rated current.
        amperes: Amperes,
        /// Opens below this voltage.
        opens: Volts,
    },
    /// Joins the grounding conductors.
    GroundBar {
        /// Places on it.
        places: u32,
    },
    /// Joins the alarm wires.
    AlarmBlock {
        /// Terminals.
        terminals: u32,
    },
    /// Tells of something by a contact: "door open".
    AlarmPoint {
        /// What it tells.
        tells: String,
    },
}

impl Role {
    /// Its rated current, where it has one.
    #[must_use]
    pub const fn amperes(&self) -> Option<Amperes> {
        match self {
            Self::Disconnect { amperes, .. }
            | Self::SurgeProtector { amperes, .. }
            | Self::LoadCentre { amperes, .. }
            | Self::Outlet { amperes, .. }
            | Self::OutletStrip { amperes, .. }
            | Self::GeneratorInlet { amperes, .. }
            | Self::Interlock { amperes }
            | Self::Distribution { amperes, .. }
            | Self::LowVoltageDisconnect { amperes, .. } => Some(*amperes),
            Self::JunctionBox | Self::GroundBar { .. } | Self::AlarmBlock { .. } | Self::AlarmPoint { .. } => None,
        }
    }

    /// Fault current it withstands or interrupts, where that is said.
    #[must_use]
    pub const fn interrupts(&self) -> Option<Amperes> {
        match self {
            Self::Disconnect { interrupts, .. }
            | Self::SurgeProtector { interrupts, .. }
            | Self::LoadCentre { interrupts, .. } => Some(*interrupts),
            _ => None,
        }
    }

    /// Its positions, ways, outlets, places or terminals, where it has any.
    #[must_use]
    pub const fn positions(&self) -> Option<u32> {
        match self {
            Self::LoadCentre { positions: count, .. }
            | Self::OutletStrip { outlets: count, .. }
            | Self::Distribution { ways: count, .. }
            | Self::GroundBar { places: count }
            | Self::AlarmBlock { terminals: count } => Some(*count),
            _ => None,
        }
    }
}

/// The cells of a string or of a block of one, in series.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cells {
    /// How many in series.
    pub count: u32,
    /// Rated capacity at 25 °C, Ah.
    pub amp_hours: f64,
    /// Hours over which the rated capacity is drawn.
    pub rate_hours: f64,
    /// Most current it is charged with, as a share of the rated capacity per hour; absent: as usual for its chemistry.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charge_limit: Option<f64>,
    /// Resistance of all its cells together, milliohms; absent: as usual for its chemistry.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub resistance: Option<f64>,
}
