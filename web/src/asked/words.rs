//! The words the brief's choices are said in.

use project::{CodeEdition, ColdDay, Conductor, HotDay, Installation, SiteSupply, Sun};

/// Eight bearings, degrees clockwise from north.
pub(super) const BEARINGS: &[(&str, f64)] = &[
    ("north", 0.0),
    ("north-east", 45.0),
    ("east", 90.0),
    ("south-east", 135.0),
    ("south", 180.0),
    ("south-west", 225.0),
    ("west", 270.0),
    ("north-west", 315.0),
];

/// How it may stand.
pub(super) const INSTALLATIONS: &[(&str, Installation)] = &[
    ("free-standing", Installation::FreeStanding),
    ("with its rear to a wall", Installation::AgainstWall),
    ("at the end of a row", Installation::EndOfRow),
    ("at the end of a row with its rear to a wall", Installation::EndOfRowAgainstWall),
    ("in the middle of a row", Installation::MiddleOfRow),
    ("in the middle of a row with its rear to a wall", Installation::MiddleOfRowAgainstWall),
];

/// Sun at the design hour.
pub(super) const SUNS: &[(&str, Sun)] = &[("full sun", Sun::Full), ("shade", Sun::Shade)];

/// The hottest day that is run through.
pub(super) const HOT_DAYS: &[(&str, HotDay)] = &[
    ("from the design temperature", HotDay::Design),
    ("hot-dry daily cycle, MIL-HDBK-310 A1", HotDay::HotDry),
    ("basic hot daily cycle, MIL-HDBK-310 A2", HotDay::BasicHot),
];

/// The coldest day that is run through.
pub(super) const COLD_DAYS: &[(&str, ColdDay)] = &[
    ("from the design temperature", ColdDay::Design),
    ("basic cold daily cycle, MIL-HDBK-310 C1", ColdDay::BasicCold),
    ("cold daily cycle, MIL-HDBK-310 C2", ColdDay::Cold),
    ("severe cold day, MIL-HDBK-310 C3", ColdDay::SevereCold),
];

/// Supplies.
pub(super) const SUPPLIES: &[(&str, SiteSupply)] = &[
    ("120/240 V split phase", SiteSupply::SplitPhase120240),
    ("120 V", SiteSupply::Single120),
    ("208Y/120 V", SiteSupply::ThreePhase208),
    ("230 V", SiteSupply::Single230),
    ("400Y/230 V", SiteSupply::ThreePhase400),
    ("−48 V from elsewhere", SiteSupply::Remote48Dc),
    ("+24 V from elsewhere", SiteSupply::Remote24Dc),
];

/// Whether a generator can be plugged in.
pub(super) const GENERATORS: &[(&str, bool)] = &[("no generator", false), ("a generator", true)];

/// Editions of the electrical code.
pub(super) const CODES: &[(&str, CodeEdition)] = &[
    ("NFPA 70, 2017", CodeEdition::E2017),
    ("NFPA 70, 2020", CodeEdition::E2020),
    ("NFPA 70, 2023", CodeEdition::E2023),
];

/// Metals of the supply's conductors.
pub(super) const CONDUCTORS: &[(&str, Conductor)] =
    &[("copper", Conductor::Copper), ("aluminium", Conductor::Aluminium)];

/// Whether a converter module may fail.
pub(super) const SPARES: &[(&str, bool)] = &[("every module is needed", false), ("one module may fail", true)];

pub(super) fn said<T: PartialEq>(all: &[(&'static str, T)], value: &T) -> &'static str {
    all.iter().find(|(_, each)| each == value).map_or("", |(name, _)| name)
}

/// The nearest of the eight bearings, or the figure where it is none of them.
pub(super) fn bearing_words(bearing: f64) -> String {
    BEARINGS
        .iter()
        .find(|(_, each)| (each - bearing).abs() < 0.5)
        .map_or_else(|| format!("{bearing:.0}°"), |(name, _)| (*name).to_owned())
}

/// An installation in words.
pub(super) fn installation_words(installation: Installation) -> &'static str {
    said(INSTALLATIONS, &installation)
}

/// The sun in words.
pub(super) fn sun_words(sun: Sun) -> &'static str {
    said(SUNS, &sun)
}

/// A supply in words.
pub(crate) fn supply_words(supply: SiteSupply) -> &'static str {
    said(SUPPLIES, &supply)
}
