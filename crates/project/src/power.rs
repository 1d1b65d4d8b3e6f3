//! What is asked of the supply, and what the user decided about feeds himself.

use serde::{Deserialize, Serialize};
use units::{Amperes, Celsius, Hours, Metres};

use crate::ItemId;

/// Edition of the electrical code (NFPA 70) whose tables are used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum CodeEdition {
    /// 2017.
    #[serde(rename = "2017")]
    E2017,
    /// 2020.
    #[serde(rename = "2020")]
    E2020,
    /// 2023.
    #[default]
    #[serde(rename = "2023")]
    E2023,
}

/// Metal of the conductors.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Conductor {
    /// Copper.
    #[default]
    Copper,
    /// Aluminium.
    Aluminium,
}

/// What is asked of supply and backup. Files need not say what is as usual.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct PowerAsked {
    /// Fault current available where the service enters; none: the utility has not said.
    pub fault_current: Option<Amperes>,
    /// Edition of the electrical code.
    pub code: CodeEdition,
    /// Metal of the conductors of the supply; inside the cabinet they are copper.
    pub conductor: Conductor,
    /// Temperature that terminals of breakers and devices bear: 60 or 75 °C.
    pub terminals: Celsius,
    /// From the source to the cabinet, one way.
    pub service_run: Metres,
    /// Whether a generator can be plugged in.
    pub generator: bool,
    /// How long it carries on without supply; none: nobody asked.
    pub autonomy: Option<Hours>,
    /// Within how long the batteries are charged again.
    pub recharge: Hours,
    /// Share of load to be added later, 0 or more.
    pub growth: f64,
    /// Whether one converter module may fail.
    pub redundant: bool,
}

/// Terminals of 75 °C, ten metres, batteries charged within a day, and a module to spare: common practice, no source.
impl Default for PowerAsked {
    fn default() -> Self {
        Self {
            fault_current: None,
            code: CodeEdition::default(),
            conductor: Conductor::default(),
            terminals: Celsius(75.0),
            service_run: Metres(10.0),
            generator: false,
            autonomy: None,
            recharge: Hours(24.0),
            growth: 0.0,
            redundant: true,
        }
    }
}

/// An input that is fed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fed {
    /// The input of a device, or the first of two.
    Device(ItemId),
    /// The second input of a device.
    Second(ItemId),
    /// A climate unit.
    Unit(ItemId),
}

impl Fed {
    /// The device or unit that is fed.
    #[must_use]
    pub const fn item(self) -> ItemId {
        match self {
            Self::Device(id) | Self::Second(id) | Self::Unit(id) => id,
        }
    }
}

/// A feed that the user has chosen; all others are found by themselves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChosenFeed {
    /// What is fed.
    pub load: Fed,
    /// The device it is fed from; none: from where it would be by itself.
    pub from: Option<ItemId>,
    /// The position there, counted from 1; none: the first that is free.
    pub position: Option<u32>,
}
