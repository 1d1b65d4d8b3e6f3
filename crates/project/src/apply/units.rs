//! Climate units: fitting, changing, taking out.

use catalogue::{Catalogue, ClimateUnit, PartId, UnitPlace};
use units::Millimetres;

use super::{Refusal, first_refused, known, take_id};
use crate::ranges::{MOST_UNITS, UNIT_HEIGHT, unit_place_fault};
use crate::{Build, FittedUnit, ItemId, UnitAt};

pub(super) fn add(build: &mut Build, part: &PartId, at: UnitAt, catalogue: &Catalogue) -> Result<(), Refusal> {
    if build.climate.len() >= MOST_UNITS {
        let found = format!("one more than {MOST_UNITS}");
        return Err(Refusal::new("Climate units", found, format!("at most {MOST_UNITS}"), ""));
    }
    let spec = known("Climate unit", part, &catalogue.units, "")?;
    placed(build, spec, at)?;
    let id = take_id(build)?;
    build.climate.push(FittedUnit { id, part: part.clone(), at, height: None });
    Ok(())
}

pub(super) fn change(
    build: &mut Build,
    id: ItemId,
    part: &PartId,
    at: UnitAt,
    height: Option<Millimetres>,
    catalogue: &Catalogue,
) -> Result<(), Refusal> {
    let index = index_of(build, id)?;
    let before = &build.climate[index];
    let after = FittedUnit { id, part: part.clone(), at, height };
    if *before == after {
        return Ok(());
    }
    let kept = catalogue.units.get(&before.part).map_or(before.part.as_str(), |spec| spec.name.as_str());
    let spec = known("Climate unit", part, &catalogue.units, kept)?;
    placed(build, spec, at)?;
    first_refused(UNIT_HEIGHT.faults(&after, "", Some(before)))?;
    build.climate[index] = after;
    Ok(())
}

pub(super) fn remove(build: &mut Build, id: ItemId) -> Result<(), Refusal> {
    let index = index_of(build, id)?;
    build.climate.remove(index);
    super::feeds::forget(build, id);
    Ok(())
}

fn index_of(build: &Build, id: ItemId) -> Result<usize, Refusal> {
    build
        .climate
        .iter()
        .position(|unit| unit.id == id)
        .ok_or_else(|| Refusal::new("Climate unit", format!("number {}", id.0), "one that is fitted", ""))
}

fn placed(build: &Build, spec: &ClimateUnit, at: UnitAt) -> Result<(), Refusal> {
    let place = match at {
        UnitAt::Door { .. } => UnitPlace::Door,
        UnitAt::Side { .. } => UnitPlace::Side,
        UnitAt::Roof { .. } => UnitPlace::Roof,
        UnitAt::Inside { .. } => UnitPlace::Inside,
    };
    if !spec.places.contains(&place) {
        let places: Vec<&str> = spec.places.iter().map(|&place| in_words(place)).collect();
        let allowed = format!("{} goes {}", spec.name, places.join(" or "));
        return Err(Refusal::new("Place", in_words(place), allowed, ""));
    }
    first_refused(unit_place_fault(build, &at, "").into_iter().collect())
}

const fn in_words(place: UnitPlace) -> &'static str {
    match place {
        UnitPlace::Door => "on a door",
        UnitPlace::Side => "on a side wall",
        UnitPlace::Roof => "on the roof",
        UnitPlace::Inside => "inside",
    }
}
