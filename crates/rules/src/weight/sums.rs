//! Sums of masses, or what is missing for them.

use geometry::{MassSum, Model, Of, Vec3};
use units::{Kilograms, Kind, Millimetres, System, Value};

use super::formulas::sling::Point;
use crate::sources::CATALOGUE;
use crate::{Case, Check, Finding, Phrase, PlacedDevice, Step, Subject};

/// Names that a sentence lists before it counts the rest.
const NAMES: usize = 3;

/// The caution beside every result on lifting and standing.
pub const CAUTION: &str = "Preliminary. A qualified person has to verify lifting and standing before it is done; \
                           local rules prevail.";

/// A sum of masses with nothing missing.
///
/// # Errors
/// The finding that says what is missing.
pub fn whole<'c>(
    check: &Check,
    case: &'c Case,
    sum: impl FnOnce(&Model) -> MassSum,
) -> Result<(&'c Model, MassSum), Box<Finding>> {
    let lacks = || Box::new(Finding::needs_data(check, Subject::Cabinet, case.missing_parts()));
    let model = case.model.as_ref().ok_or_else(lacks)?;
    if !case.unknown_parts.is_empty() {
        return Err(lacks());
    }
    let sum = sum(model);
    if sum.unknown.is_empty() {
        return Ok((model, sum));
    }
    Err(Box::new(unsaid(check, case, &sum.unknown)))
}

/// The finding that asks for the mass of devices.
#[must_use]
pub fn unsaid(check: &Check, case: &Case, unknown: &[Of]) -> Finding {
    let mut names = Vec::new();
    let mut subject = Subject::Cabinet;
    let mut seen = Vec::new();
    for of in unknown {
        if seen.contains(of) {
            continue;
        }
        seen.push(*of);
        if let Of::Device(id) = of
            && let Some(device) = case.device(*id)
        {
            if names.is_empty() {
                subject = Subject::Device(*id);
            }
            names.push(case.name(device).shown(System::Metric));
        }
    }
    let more = names.len().saturating_sub(NAMES);
    names.truncate(NAMES);
    if more > 0 {
        names.push(format!("{more} more"));
    }
    let what = if names.is_empty() { "mass of a part".to_owned() } else { format!("mass of {}", names.join("; ")) };
    Finding::needs_data(check, subject, what)
}

/// Words, then the heaviest of some devices with its mass; empty when none of them weighs anything.
#[must_use]
pub fn heaviest<'c>(
    case: &Case,
    words: impl Into<Phrase>,
    devices: impl Iterator<Item = &'c PlacedDevice<'c>>,
) -> Phrase {
    let weighed = devices.filter_map(|device| Some((device, device.spec.mass?.0)));
    let most = weighed.reduce(|most, one| if one.1 > most.1 { one } else { most });
    let Some((device, kg)) = most.filter(|(_, kg)| *kg > 0.0) else { return Phrase::new() };
    words.into().then(case.name(device)).text(", ").value(kilograms(kg))
}

/// The finding with help, when there is any to give.
#[must_use]
pub fn helped(finding: Finding, help: Phrase) -> Finding {
    if help.is_empty() { finding } else { finding.help(help) }
}

/// A mass as a value.
#[must_use]
pub fn kilograms(number: f64) -> Value {
    Kilograms(number).into()
}

/// A length as a value.
#[must_use]
pub fn millimetres(number: f64) -> Value {
    Millimetres(number).into()
}

/// A force in newtons as a value.
#[must_use]
pub const fn newtons(number: f64) -> Value {
    Value::new(number / 1000.0, Kind::Force)
}

/// The step that gives a mass.
#[must_use]
pub fn mass_step(case: &Case, meaning: &str, kg: f64) -> Step {
    let unplaced = case.devices.iter().filter(|device| device.space.is_none()).count();
    let mut meaning = Phrase::from(meaning);
    if unplaced > 0 {
        meaning = meaning.text(format!("; {unplaced} not placed do not count"));
    }
    Step::input("m", meaning, kilograms(kg)).from_source(&CATALOGUE)
}

/// A point as three numbers.
#[must_use]
pub const fn point(at: Vec3) -> Point {
    [at.x, at.y, at.z]
}

/// The four eyes, when four are fitted.
#[must_use]
pub fn four_eyes(model: &Model) -> Option<[Point; 4]> {
    let eyes: Vec<Point> = model.eye_positions().iter().map(|at| point(*at)).collect();
    eyes.try_into().ok()
}
