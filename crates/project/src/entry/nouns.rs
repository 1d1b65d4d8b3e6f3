//! What things are called, and what that says about them.

use catalogue::{Chemistry, DeviceKind, Supply};

/// What the name of a device says about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Converter {
    /// Alternating current to −48 V.
    Rectifier,
    /// Alternating current to the same.
    Ups,
    /// −48 V to alternating current.
    Inverter,
}

/// The kinds by their nouns. Earlier rows win: a rectifier shelf is a rectifier, a fibre switch a switch.
const NOUNS: &[(DeviceKind, &[&str])] = &[
    (
        DeviceKind::Power,
        &[
            "rectifier",
            "ups",
            "inverter",
            "distribution",
            "breaker",
            "fuse",
            "outlet",
            "inlet",
            "disconnect",
            "interlock",
            "surge",
            "centre",
            "center",
            "pdu",
        ],
    ),
    (DeviceKind::Battery, &["battery", "batteries", "string", "accumulator"]),
    (DeviceKind::Compute, &["server", "recorder", "storage", "computer"]),
    (
        DeviceKind::Network,
        &[
            "switch",
            "router",
            "terminal",
            "base-band",
            "baseband",
            "radio",
            "gateway",
            "firewall",
            "clock",
            "modem",
            "multiplexer",
            "controller",
            "amplifier",
            "transport",
        ],
    ),
    (DeviceKind::Fibre, &["fibre", "fiber", "panel", "patch", "splice", "splitter", "closure"]),
    (DeviceKind::Power, &["converter"]),
    (DeviceKind::Cable, &["tray", "shelf", "blank", "brush", "drawer", "manager", "finger"]),
];

/// What cells are made of, by the words for it.
const CELLS: &[(Chemistry, &[&str])] = &[
    (Chemistry::Lead, &["lead", "lead-acid", "vrla", "agm"]),
    (Chemistry::Lithium, &["lithium", "lifepo4", "lfp"]),
    (Chemistry::Nickel, &["nickel", "nickel-cadmium", "nicd", "ni-cd"]),
];

/// What the cells of a battery are made of, if its name says so. No wrong letter is forgiven: safety hangs on it.
pub(super) fn chemistry_of(name: &str) -> Option<Chemistry> {
    let says = |(_, terms): &&(Chemistry, &[&str])| words(name).any(|word| terms.contains(&word.as_str()));
    CELLS.iter().find(says).map(|&(chemistry, _)| chemistry)
}

/// The kind a name says, if it says one. One wrong letter in a word of five or more is forgiven.
pub(super) fn kind_of(name: &str) -> Option<DeviceKind> {
    let words: Vec<String> = words(name).collect();
    let find = |forgiving: bool| {
        NOUNS
            .iter()
            .find(|(_, nouns)| nouns.iter().any(|noun| words.iter().any(|word| means(word, noun, forgiving))))
            .map(|&(kind, _)| kind)
    };
    find(false).or_else(|| find(true))
}

/// Whether a name says that the device converts power.
pub(super) fn converter(name: &str) -> Option<Converter> {
    let says = |noun: &str| words(name).any(|word| means(&word, noun, true));
    if says("rectifier") {
        Some(Converter::Rectifier)
    } else if says("ups") {
        Some(Converter::Ups)
    } else if says("inverter") {
        Some(Converter::Inverter)
    } else {
        None
    }
}

/// The words of a name, in small letters, singular where the plural is regular.
pub(super) fn words(name: &str) -> impl Iterator<Item = String> {
    name.split(|letter: char| letter.is_whitespace() || matches!(letter, ',' | ';' | '/' | '(' | ')'))
        .filter(|word| !word.is_empty())
        .map(str::to_ascii_lowercase)
}

/// Whether a typed word means a noun: itself, its plural, or with one letter wrong.
pub(super) fn means(word: &str, noun: &str, forgiving: bool) -> bool {
    let plural = || word.strip_suffix("es").or_else(|| word.strip_suffix('s'));
    word == noun
        || word.strip_suffix('s') == Some(noun)
        || plural() == Some(noun)
        || (forgiving && noun.chars().count() >= 5 && strsim::osa_distance(word, noun) <= 1)
}

/// "2 switches", "1 switch", "2 × Storage 4".
pub(super) fn counted(count: u32, name: &str) -> String {
    if count == 1 {
        return format!("1 {name}");
    }
    let last = name.rsplit(' ').next().unwrap_or(name);
    let regular = last.len() > 2 && last.bytes().all(|letter| letter.is_ascii_lowercase()) && !last.ends_with('s');
    if !regular {
        return format!("{count} × {name}");
    }
    if let Some(stem) = name.strip_suffix('y').filter(|stem| !stem.ends_with(['a', 'e', 'o', 'u'])) {
        return format!("{count} {stem}ies");
    }
    let ending = if last.ends_with("ch") || last.ends_with("sh") || last.ends_with('x') { "es" } else { "s" };
    format!("{count} {name}{ending}")
}

/// The supply that a voltage names: nominal values of the trade and their usual spellings.
pub(super) fn supply(volts: f64, direct: Option<bool>) -> Option<Supply> {
    match (volts.abs() as u32, direct) {
        (48 | 54, Some(true) | None) => Some(Supply::V48Dc),
        (24, Some(true) | None) => Some(Supply::V24Dc),
        (100..=127, Some(false) | None) => Some(Supply::V120Ac),
        (200..=240, Some(false) | None) => Some(Supply::V230Ac),
        _ => None,
    }
}
