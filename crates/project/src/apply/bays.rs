//! One bay: its width, rails, doors, cable management and gland plates.

use catalogue::{Catalogue, Family};
use units::Kind;

use super::{Refusal, first_refused, known, within};
use crate::ranges::{BAY, MOST_GLAND_PLATES};
use crate::{Bay, Build, Closure, End, FittedGlandPlate, Place, UnitAt, Words};

/// How far from a step of the rails a set-back may be, mm: the noise of a conversion, not a distance.
const STEP_NOISE: f64 = 1e-6;

pub(super) fn set_bay(build: &mut Build, index: usize, to: &Bay, catalogue: &Catalogue) -> Result<(), Refusal> {
    let Some(before) = build.bays.get(index) else {
        let allowed = format!("bays 1 to {}", build.bays.len());
        return Err(Refusal::new("Bay", format!("bay {}", index.saturating_add(1)), allowed, ""));
    };
    first_refused(BAY.faults(to, "", Some(before)))?;
    if let Some(family) = catalogue.families.get(&build.family) {
        sizes(before, to, family)?;
    }
    for (what, manager, kept) in [
        ("Cable management, left", &to.manager_left, &before.manager_left),
        ("Cable management, right", &to.manager_right, &before.manager_right),
    ] {
        if manager != kept
            && let Some(manager) = manager
        {
            known(what, manager, &catalogue.managers, super::cabinet::kept_part(kept.as_ref()))?;
        }
    }
    if to.gland_plates != before.gland_plates {
        gland_plates(&before.gland_plates, &to.gland_plates, catalogue)?;
    }
    for (end, was, becomes) in [(End::Front, before.front, to.front), (End::Rear, before.rear, to.rear)] {
        if was != Closure::Panel && becomes == Closure::Panel {
            door_carries_nothing(build, index, end)?;
        }
    }
    build.bays[index] = to.clone();
    Ok(())
}

fn sizes(before: &Bay, to: &Bay, family: &Family) -> Result<(), Refusal> {
    if to.width != before.width {
        within("Bay width", Kind::Length, to.width.0, &family.bay_width, Some(before.width.0))?;
    }
    for (what, setback, kept) in [
        ("Front rail set-back", to.front_setback.0, before.front_setback.0),
        ("Rear rail set-back", to.rear_setback.0, before.rear_setback.0),
    ] {
        if setback == kept {
            continue;
        }
        within(what, Kind::Length, setback, &family.rail_setback, Some(kept))?;
        let lower = step_below(setback, family);
        if setback - lower > STEP_NOISE && lower + family.rail_step.0 - setback > STEP_NOISE {
            let upper = lower + family.rail_step.0;
            let nearest = if upper <= family.rail_setback.to {
                Words(vec![
                    crate::Piece::Text("the nearest are ".into()),
                    crate::Piece::Pair(length(lower), length(upper)),
                ])
            } else {
                Words::from("the nearest is ").and(length(lower))
            };
            let allowed = Words::from("in steps of ").and(length(family.rail_step.0)).and("; ").and(nearest);
            return Err(Refusal::new(what, length(setback), allowed, length(kept)));
        }
    }
    Ok(())
}

const fn length(number: f64) -> units::Value {
    units::Value::new(number, Kind::Length)
}

/// The highest step of the rails that is not above a set-back.
pub(super) fn step_below(setback: f64, family: &Family) -> f64 {
    let (from, step) = (family.rail_setback.from, family.rail_step.0);
    if step > 0.0 { from + ((setback - from + STEP_NOISE) / step).floor() * step } else { setback }
}

fn gland_plates(
    before: &[FittedGlandPlate],
    plates: &[FittedGlandPlate],
    catalogue: &Catalogue,
) -> Result<(), Refusal> {
    let kept = format!("{} gland plates", before.len());
    if plates.len() > MOST_GLAND_PLATES {
        let found = format!("{} gland plates", plates.len());
        return Err(Refusal::new("Gland plates", found, format!("at most {MOST_GLAND_PLATES}"), kept));
    }
    for plate in plates {
        let part = known("Gland plate", &plate.part, &catalogue.gland_plates, kept.as_str())?;
        // The file takes no more either, whatever a catalogue says.
        let most = part.knock_outs.min(1000);
        if plate.used > most {
            let allowed = format!("{} has {most}", part.name);
            return Err(Refusal::new("Knock-outs used", plate.used.to_string(), allowed, kept));
        }
    }
    Ok(())
}

/// A door that carries something is not closed by a panel: nothing the user has placed is lost on the way.
fn door_carries_nothing(build: &Build, index: usize, end: End) -> Result<(), Refusal> {
    let units = build.climate.iter().filter(|unit| unit.at == UnitAt::Door { bay: index, end }).count();
    let on_door = |place: &Place| matches!(place, Place::Door { bay, end: at, .. } if *bay == index && *at == end);
    let devices = build.devices.iter().filter(|device| on_door(&device.at)).count();
    if units + devices == 0 {
        return Ok(());
    }
    let word = if end == End::Front { "Front" } else { "Rear" };
    let carried = match (units, devices) {
        (units, 0) => format!("climate units: {units}"),
        (0, devices) => format!("devices: {devices}"),
        (units, devices) => format!("climate units: {units}, devices: {devices}"),
    };
    let allowed = format!("only once the door carries nothing ({carried})");
    Err(Refusal::new(&format!("{word} of bay {}", index + 1), "a fixed panel", allowed, "the door"))
}
