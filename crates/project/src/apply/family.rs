//! Another cabinet family.

use catalogue::{Catalogue, Family, PartId, Range};
use units::Millimetres;

use super::{Refusal, bays::step_below, known};
use crate::ranges::MOST_BAYS;
use crate::{Bay, BayRole, Build, Closure, FittedGlandPlate, HingeSide, Place, UnitAt};

/// Takes the family and brings everything into its ranges: values outside move to the nearest end, bays are added or
/// removed, devices of a removed bay become unplaced, and its climate units go with it.
pub(super) fn set_family(build: &mut Build, id: &PartId, catalogue: &Catalogue) -> Result<(), Refusal> {
    if &build.family == id {
        return Ok(());
    }
    let kept = catalogue.families.get(&build.family).map_or(build.family.as_str(), |family| family.name.as_str());
    let family = known("Cabinet family", id, &catalogue.families, kept)?;
    build.family = id.clone();
    build.units = whole_into(build.units, &family.height_range);
    build.depth = into(build.depth, &family.depth);
    set_bay_count(build, usize::from(family.bays).clamp(1, MOST_BAYS));
    for bay in &mut build.bays {
        bay.width = into(bay.width, &family.bay_width);
        bay.front_setback = setback_into(bay.front_setback, family);
        bay.rear_setback = setback_into(bay.rear_setback, family);
    }
    Ok(())
}

fn set_bay_count(build: &mut Build, count: usize) {
    build.bays.truncate(count);
    while build.bays.len() < count
        && let Some(first) = build.bays.first()
    {
        build.bays.push(neighbour(first));
    }
    if count < 2 {
        build.divider = false;
    }
    let gone = |bay: usize| bay >= count;
    for device in &mut build.devices {
        if device.at.bay().is_some_and(gone) {
            device.at = Place::Unplaced;
        }
    }
    build.climate.retain(|unit| match unit.at {
        UnitAt::Door { bay, .. } | UnitAt::Roof { bay } | UnitAt::Inside { bay } => !gone(bay),
        UnitAt::Side { .. } => true,
    });
}

/// A bay like the first, with nothing used yet and its doors hinged on the other side, so that both leaves open outwards.
fn neighbour(first: &Bay) -> Bay {
    let mirrored = |closure| match closure {
        Closure::Door(HingeSide::Left) => Closure::Door(HingeSide::Right),
        Closure::Door(HingeSide::Right) => Closure::Door(HingeSide::Left),
        Closure::Panel => Closure::Panel,
    };
    Bay {
        role: BayRole::default(),
        front: mirrored(first.front),
        rear: mirrored(first.rear),
        gland_plates: first
            .gland_plates
            .iter()
            .map(|plate| FittedGlandPlate { part: plate.part.clone(), used: 0 })
            .collect(),
        ..first.clone()
    }
}

/// The nearest value in a range. Not `clamp`: a range read from a file may be upside down.
pub(super) fn into(value: Millimetres, range: &Range) -> Millimetres {
    Millimetres(value.0.min(range.to).max(range.from))
}

pub(super) fn whole_into(units: u32, range: &Range) -> u32 {
    f64::from(units).min(range.to.floor()).max(range.from.ceil()).clamp(1.0, 99.0) as u32
}

pub(super) fn setback_into(setback: Millimetres, family: &Family) -> Millimetres {
    Millimetres(step_below(into(setback, &family.rail_setback).0, family))
}
