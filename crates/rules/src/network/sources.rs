//! What a source gives, and whether that is what something runs on.

use catalogue::Supply;
use project::SiteSupply;

use super::Electricity;

const fn alternating(volts: f64, poles: u32) -> Electricity {
    Electricity::Alternating { volts, poles }
}

/// Nominal voltage of a telecommunication plant, V.
pub const PLANT: Electricity = Electricity::Direct { volts: 48.0 };
/// Nominal voltage of a 24 V plant, V.
pub const SMALL_PLANT: Electricity = Electricity::Direct { volts: 24.0 };

/// What a site gives for something that runs on this. A load for 230 or 240 V is not run on 208 V.
pub fn site_gives(site: SiteSupply, supply: Supply) -> Option<Electricity> {
    let (to_neutral, between) = match site {
        SiteSupply::SplitPhase120240 => (Some(alternating(120.0, 1)), Some(alternating(240.0, 2))),
        SiteSupply::Single120 | SiteSupply::ThreePhase208 => (Some(alternating(120.0, 1)), None),
        SiteSupply::Single230 | SiteSupply::ThreePhase400 => (None, Some(alternating(230.0, 1))),
        SiteSupply::Remote48Dc => return (supply == Supply::V48Dc).then_some(PLANT),
        SiteSupply::Remote24Dc => return (supply == Supply::V24Dc).then_some(SMALL_PLANT),
    };
    match supply {
        Supply::V120Ac => to_neutral,
        Supply::V230Ac => between,
        Supply::WideAc => to_neutral.or(between),
        Supply::None | Supply::V48Dc | Supply::V24Dc => None,
    }
}

/// What a site's main conductors carry.
pub fn service(site: SiteSupply) -> Electricity {
    match site {
        SiteSupply::SplitPhase120240 => alternating(240.0, 2),
        SiteSupply::Single120 => alternating(120.0, 1),
        SiteSupply::ThreePhase208 => alternating(208.0, 3),
        SiteSupply::Single230 => alternating(230.0, 1),
        SiteSupply::ThreePhase400 => alternating(400.0, 3),
        SiteSupply::Remote48Dc => PLANT,
        SiteSupply::Remote24Dc => SMALL_PLANT,
    }
}

/// What a converter gives for something that runs on this. An uninterruptible supply or inverter feeds one phase; of 240 V
/// from a split-phase site both its conductors are live, so the breaker opens two.
pub fn converter_gives(to: Supply, supply: Supply, site: SiteSupply) -> Option<Electricity> {
    let gives = match to {
        Supply::V120Ac => alternating(120.0, 1),
        Supply::V230Ac if site == SiteSupply::SplitPhase120240 => alternating(240.0, 2),
        Supply::V230Ac | Supply::WideAc => alternating(230.0, 1),
        Supply::V48Dc => PLANT,
        Supply::V24Dc => SMALL_PLANT,
        Supply::None => return None,
    };
    (to == supply || (supply == Supply::WideAc && to.is_ac())).then_some(gives)
}
