//! What can be bought: the schema of a catalogue, and its loading and checking.
//!
//! **Invariant:** a catalogue is data. Nothing here knows which parts exist; a maker replaces `assets/catalogue/*.toml`
//! by files of its own. A loaded [`Catalogue`] has passed every check of [`load`], so the crates above need not look again.

mod check;
mod decode;
mod load;
mod map;
mod part;
mod plain;
mod ranges;
mod sample;
mod text;

pub use load::{Problem, load};
pub use part::*;
pub use plain::{Misfit, Plain, Why, from_plain, one_of};
pub use sample::sample;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// The name a part is ordered by: lower-case words and figures joined by hyphens, such as `exchanger-door-140`.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PartId(pub String);

impl PartId {
    /// The part number as written.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl From<&str> for PartId {
    fn from(text: &str) -> Self {
        Self(text.to_owned())
    }
}

impl std::fmt::Display for PartId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// Everything that can be bought, by part number.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Catalogue {
    /// Who made it and what it is, shown with every result.
    pub about: About,
    /// Cabinet families.
    pub families: BTreeMap<PartId, Family>,
    /// Sheet for the body, doors and plinth.
    pub skins: BTreeMap<PartId, Skin>,
    /// Insulation materials.
    pub insulations: BTreeMap<PartId, Insulation>,
    /// Paints of the outside.
    pub paints: BTreeMap<PartId, Paint>,
    /// Plinths and risers.
    pub plinths: BTreeMap<PartId, Plinth>,
    /// Solar shields.
    pub shields: BTreeMap<PartId, Shield>,
    /// Doors.
    pub doors: BTreeMap<PartId, Door>,
    /// Lifting eyes.
    pub lifting_eyes: BTreeMap<PartId, LiftingEye>,
    /// Cable management.
    pub managers: BTreeMap<PartId, Manager>,
    /// Gland plates.
    pub gland_plates: BTreeMap<PartId, GlandPlate>,
    /// Pallets for shipping.
    pub pallets: BTreeMap<PartId, Pallet>,
    /// Fans, exchangers, air conditioners and heaters.
    pub units: BTreeMap<PartId, ClimateUnit>,
    /// Sample devices.
    pub devices: BTreeMap<PartId, Device>,
}

/// Who made a catalogue and what it is.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct About {
    /// Name of the catalogue.
    pub name: String,
    /// One sentence: for the shipped one, that it is invented.
    pub note: String,
    /// Currency of its prices, an ISO 4217 code.
    pub currency: String,
    /// Whether the prices are samples.
    pub sample_prices: bool,
}
