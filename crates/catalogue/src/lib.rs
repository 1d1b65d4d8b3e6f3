//! What can be bought: the schema of a catalogue, and its loading and checking.
//!
//! **Invariant:** a catalogue is data. Nothing here knows which parts exist; a maker replaces `assets/catalogue/*.toml`
//! by files of its own. A loaded [`Catalogue`] has passed every check of [`load`], so the crates above need not look again.

mod check;
mod decode;
mod load;
mod map;
mod part;
mod parts;
mod plain;
mod ranges;
mod sample;
mod text;

pub use load::{Problem, load};
pub use part::*;
pub use parts::{Parts, PartsIter};
pub use plain::{Misfit, Plain, Why, from_plain, one_of};
pub use sample::sample;

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
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Catalogue {
    /// Who made it and what it is, shown with every result.
    pub about: About,
    /// Cabinet families.
    #[serde(rename = "family")]
    pub families: Parts<Family>,
    /// Sheet for the body, doors and plinth.
    #[serde(rename = "skin")]
    pub skins: Parts<Skin>,
    /// Insulation materials.
    #[serde(rename = "insulation")]
    pub insulations: Parts<Insulation>,
    /// Paints of the outside.
    #[serde(rename = "paint")]
    pub paints: Parts<Paint>,
    /// Plinths and risers.
    #[serde(rename = "plinth")]
    pub plinths: Parts<Plinth>,
    /// Solar shields.
    #[serde(rename = "shield")]
    pub shields: Parts<Shield>,
    /// Doors.
    #[serde(rename = "door")]
    pub doors: Parts<Door>,
    /// Lifting eyes.
    #[serde(rename = "lifting-eye")]
    pub lifting_eyes: Parts<LiftingEye>,
    /// Cable management.
    #[serde(rename = "manager")]
    pub managers: Parts<Manager>,
    /// Gland plates.
    #[serde(rename = "gland-plate")]
    pub gland_plates: Parts<GlandPlate>,
    /// Pallets for shipping.
    #[serde(rename = "pallet")]
    pub pallets: Parts<Pallet>,
    /// Fans, exchangers, air conditioners and heaters.
    #[serde(rename = "unit")]
    pub units: Parts<ClimateUnit>,
    /// Sample devices.
    #[serde(rename = "device")]
    pub devices: Parts<Device>,
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
