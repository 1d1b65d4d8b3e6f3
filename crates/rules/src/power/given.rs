//! What several checks of Power ask of a case.

use project::SiteSupply;

use crate::{Case, PlacedDevice};
use catalogue::Role;

/// The placed devices that do something for others, with what they do.
pub(super) fn roles<'c, 'a>(case: &'c Case<'a>) -> impl Iterator<Item = (&'c PlacedDevice<'a>, &'a Role)> {
    let placed = case.devices.iter().filter(|device| device.space.is_some());
    placed.filter_map(|device| Some((device, device.spec.electrical.role.as_ref()?)))
}

/// What the main conductors of a site are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Mains {
    /// Between each live conductor and the ground, V.
    pub(super) to_ground: f64,
    /// To the neutral and, where there are several phases, between two of them, V; none of direct current.
    pub(super) volts: &'static [f64],
    /// Live conductors and neutral.
    pub(super) poles: u32,
    /// In words.
    pub(super) name: &'static str,
}

/// The main conductors of a site.
pub(super) const fn mains(site: SiteSupply) -> Mains {
    let (to_ground, volts, poles, name): (f64, &'static [f64], u32, &'static str) = match site {
        SiteSupply::SplitPhase120240 => (120.0, &[120.0, 240.0], 3, "120/240 V, split phase"),
        SiteSupply::Single120 => (120.0, &[120.0], 2, "120 V, single phase"),
        SiteSupply::ThreePhase208 => (120.0, &[120.0, 208.0], 4, "208Y/120 V, three phase"),
        SiteSupply::Single230 => (230.0, &[230.0], 2, "230 V, single phase"),
        SiteSupply::ThreePhase400 => (230.0, &[230.0, 400.0], 4, "400Y/230 V, three phase"),
        SiteSupply::Remote48Dc => (48.0, &[], 2, "−48 V, direct current"),
        SiteSupply::Remote24Dc => (24.0, &[], 2, "+24 V, direct current"),
    };
    Mains { to_ground, volts, poles, name }
}
