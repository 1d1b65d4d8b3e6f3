//! The shipped catalogue: invented, and says so.

use std::sync::OnceLock;

use crate::{Catalogue, Plain, from_plain};

/// The shipped catalogue as `build.rs` has put it into one text.
const SHIPPED: &str = include_str!(concat!(env!("OUT_DIR"), "/shipped.json"));

/// The shipped catalogue, read once. The tests read the same from its files with every check; should it not be readable
/// all the same, an empty one stands in.
#[must_use]
pub fn sample() -> Catalogue {
    static SAMPLE: OnceLock<Catalogue> = OnceLock::new();
    SAMPLE
        .get_or_init(|| {
            let shipped = serde_json::from_str::<serde_json::Value>(SHIPPED).map(Plain::from);
            shipped.ok().and_then(|shipped| from_plain(&shipped).ok()).unwrap_or_default()
        })
        .clone()
}

#[cfg(test)]
/// The shipped files: name and text.
pub(crate) const FILES: [(&str, &str); 11] = [
    ("cabinet.toml", include_str!("../../../assets/catalogue/cabinet.toml")),
    ("materials.toml", include_str!("../../../assets/catalogue/materials.toml")),
    ("cabling.toml", include_str!("../../../assets/catalogue/cabling.toml")),
    ("fans-and-exchangers.toml", include_str!("../../../assets/catalogue/fans-and-exchangers.toml")),
    ("conditioners-and-heaters.toml", include_str!("../../../assets/catalogue/conditioners-and-heaters.toml")),
    ("devices-network.toml", include_str!("../../../assets/catalogue/devices-network.toml")),
    ("devices-fibre.toml", include_str!("../../../assets/catalogue/devices-fibre.toml")),
    ("devices-compute.toml", include_str!("../../../assets/catalogue/devices-compute.toml")),
    ("devices-power.toml", include_str!("../../../assets/catalogue/devices-power.toml")),
    ("devices-battery.toml", include_str!("../../../assets/catalogue/devices-battery.toml")),
    ("devices-fittings.toml", include_str!("../../../assets/catalogue/devices-fittings.toml")),
];

#[cfg(test)]
#[path = "sample_tests.rs"]
mod tests;
