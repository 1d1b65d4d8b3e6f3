//! How the checks of Backup write figures, and what they say when there is nothing to judge.

use units::{Kind, Value};

use super::plant::NoPlant;
use crate::{Check, Finding, Phrase, Subject};

pub(super) const fn hours(number: f64) -> Value {
    Value::new(number, Kind::Time)
}

pub(super) const fn watts(number: f64) -> Value {
    Value::new(number, Kind::Power)
}

pub(super) const fn volts(number: f64) -> Value {
    Value::new(number, Kind::Voltage)
}

pub(super) const fn amperes(number: f64) -> Value {
    Value::new(number, Kind::Current)
}

pub(super) const fn charge(amp_hours: f64) -> Value {
    Value::new(amp_hours, Kind::Charge)
}

/// Wh as a value.
pub(super) const fn energy(watt_hours: f64) -> Value {
    Value::new(watt_hours / 1000.0, Kind::Energy)
}

pub(super) const fn ratio(number: f64) -> Value {
    Value::new(number, Kind::Ratio)
}

pub(super) const fn share(number: f64) -> Value {
    Value::new(number, Kind::Share)
}

/// What a check says that judges the plant, when there is none.
pub(super) fn no_plant(check: &Check, why: NoPlant) -> Finding {
    match why {
        NoPlant::NoBattery => Finding::holds(check, Subject::Supply, "no battery is fitted"),
        NoPlant::Unsaid(what) => Finding::needs_data(check, Subject::Supply, what),
        NoPlant::NotWhole => Finding::out_of_range(check, Subject::Supply, NOT_WHOLE),
    }
}

pub(super) const NOT_WHOLE: &str = "the batteries make no plant of whole, alike strings; B10 says why";

/// "24 × 2.0 V": a product of two figures.
pub(super) fn times(first: Value, second: Value) -> Phrase {
    Phrase::new().number(first).text(" × ").number(second)
}
