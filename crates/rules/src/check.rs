//! What a check is, before it is run.

use serde::Serialize;
use units::Kind;

use crate::{Case, Finding, Source};

/// A topic: the checks that one badge sums up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Topic {
    /// Does everything fit?
    Fit,
    /// What does it weigh, and can it be lifted?
    Weight,
    /// Does it stay cool and warm?
    Heat,
    /// Is everything fed, protected and wired?
    Power,
    /// How long does it carry on without supply?
    Backup,
    /// What happens over the hours of a day and a year? Answered only when a run over them is there.
    Year,
}

impl Topic {
    /// All topics, in the order of their badges.
    pub const ALL: [Self; 6] = [Self::Fit, Self::Weight, Self::Heat, Self::Power, Self::Backup, Self::Year];

    /// Its name on the badge.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fit => "Fit",
            Self::Weight => "Weight",
            Self::Heat => "Heat",
            Self::Power => "Power",
            Self::Backup => "Backup",
            Self::Year => "Year",
        }
    }
}

/// The promise in the brief that a check answers; a promise not kept is marked there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Asked {
    /// The devices.
    Devices,
    /// Spare units.
    SpareUnits,
    /// Fibre ports.
    FibrePorts,
    /// Splices.
    Splices,
    /// Spare knock-outs.
    KnockOuts,
    /// Mass limit.
    MassLimit,
    /// Transport limits.
    Transport,
    /// Lifting.
    Lifting,
    /// Bearing pressure.
    Bearing,
    /// Hottest hour.
    Hottest,
    /// Coldest hour.
    Coldest,
    /// Supply.
    Supply,
    /// Generator.
    Generator,
    /// Autonomy.
    Autonomy,
}

/// A symbol of a formula.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Symbol {
    /// As in the formula: `T_in`, `Q_sun`.
    pub symbol: &'static str,
    /// In words.
    pub meaning: &'static str,
    /// The kind of quantity, which gives its unit.
    pub kind: Kind,
}

/// A check: one question an engineer asks. Each stands in one file.
pub struct Check {
    /// Its code, never reused: a letter for the topic and two figures.
    pub code: &'static str,
    /// Its name in kebab case.
    pub name: &'static str,
    /// Topic.
    pub topic: Topic,
    /// The question it answers.
    pub question: &'static str,
    /// Formula in Unicode.
    pub formula: &'static str,
    /// Symbols of the formula.
    pub symbols: &'static [Symbol],
    /// Where the formula and its fixed values come from.
    pub sources: &'static [&'static Source],
    /// Range in which it is valid.
    pub valid: &'static str,
    /// What it leaves out.
    pub leaves_out: &'static str,
    /// A caution that stands beside its result.
    pub caution: Option<&'static str>,
    /// The promise in the brief it answers.
    pub asked: Option<Asked>,
    /// Answers the question: at least one finding, about the worst subject; one more for each other subject that does not hold.
    pub run: fn(&Check, &Case) -> Vec<Finding>,
}
