//! Carrying out an edit, or refusing it with the reason.
//!
//! What does not fit is taken all the same: the checks say so. Refused is only what could not be made at all (outside
//! the catalogue's ranges), or names something that is not there.

mod bays;
mod cabinet;
mod devices;
mod family;
mod feeds;
mod fresh;
mod units;

pub use fresh::new_project;

use ::units::{Kind, System};
use catalogue::{Catalogue, PartId, Range};

use crate::ranges::{Fault, MOST_ITEM_ID, brief_faults, build_faults, project_faults, quoted, wrapped};
use crate::words::sentence;
use crate::{Build, Edit, ItemId, Project, Words};

/// Why an edit was not taken: what, the value, what is allowed, and what was kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal {
    /// The field or thing, in plain words.
    pub what: String,
    /// What was asked for.
    pub found: Words,
    /// What is allowed.
    pub allowed: Words,
    /// What was kept; empty where nothing was there before.
    pub kept: Words,
}

impl Refusal {
    pub(crate) fn new(what: &str, found: impl Into<Words>, allowed: impl Into<Words>, kept: impl Into<Words>) -> Self {
        Self { what: what.to_owned(), found: found.into(), allowed: allowed.into(), kept: kept.into() }
    }

    /// As it stands beside its field: "Not taken: 90 000 mm. Between 300 and 1 500 mm. Kept 914 mm."
    #[must_use]
    pub fn show(&self, system: System) -> String {
        self.told("Not taken", system)
    }

    fn told(&self, opening: &str, system: System) -> String {
        let mut told = format!("{opening}: {}. {}.", self.found.show(system), sentence(&self.allowed.show(system)));
        if !self.kept.is_empty() {
            told.push_str(&format!(" Kept {}.", self.kept.show(system)));
        }
        told
    }
}

/// With its field named, in metric units, for where the field is not in sight.
impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.told(&format!("{} not taken", self.what), System::Metric))
    }
}

impl From<Fault> for Refusal {
    fn from(fault: Fault) -> Self {
        Self { what: fault.what, found: fault.found, allowed: fault.allowed, kept: fault.kept }
    }
}

/// Carries out one edit. On a refusal the project is untouched; an edit that changes nothing leaves it equal.
///
/// # Errors
/// When a value lies outside what the catalogue allows, or names something that is not there.
pub fn apply(project: &mut Project, edit: &Edit, catalogue: &Catalogue) -> Result<(), Refusal> {
    let build = &mut project.build;
    match edit {
        Edit::Replace(other) => replace(project, other),
        Edit::Rename(name) => rename(project, name),
        Edit::SetBrief(brief) => set_brief(project, brief),
        Edit::SetFamily(family) => family::set_family(build, family, catalogue),
        Edit::SetUnits(units) => cabinet::set_units(build, *units, catalogue),
        Edit::SetDepth(depth) => cabinet::set_depth(build, *depth, catalogue),
        Edit::SetSkin(skin) => set_part("Sheet", &mut build.skin, skin, &catalogue.skins, |part| &part.name),
        Edit::SetPaint(paint) => set_part("Paint", &mut build.paint, paint, &catalogue.paints, |part| &part.name),
        Edit::SetDoor(door) => set_part("Door", &mut build.door, door, &catalogue.doors, |part| &part.name),
        Edit::SetInsulation { face, insulation } => {
            cabinet::set_insulation(build, *face, insulation.as_ref(), catalogue)
        }
        Edit::SetPlinth(plinth) => cabinet::set_plinth(build, plinth.as_ref(), catalogue),
        Edit::SetShield(shield) => cabinet::set_shield(build, shield.as_ref(), catalogue),
        Edit::SetLiftingEyes(eyes) => cabinet::set_lifting_eyes(build, eyes.as_ref(), catalogue),
        Edit::SetEyesRemoved(removed) => {
            build.eyes_removed = *removed;
            Ok(())
        }
        Edit::SetPallet(pallet) => cabinet::set_pallet(build, pallet.as_ref(), catalogue),
        Edit::SetDivider(divider) => cabinet::set_divider(build, *divider),
        Edit::SetBay { bay, to } => bays::set_bay(build, *bay, to, catalogue),
        Edit::AddUnit { part, at } => units::add(build, part, *at, catalogue),
        Edit::ChangeUnit { unit, part, at, height } => units::change(build, *unit, part, *at, *height, catalogue),
        Edit::RemoveUnit(unit) => units::remove(build, *unit),
        Edit::AddDevice { what, at } => devices::add(build, what, *at, catalogue),
        Edit::MoveDevice { device, to } => devices::put(build, *device, *to),
        Edit::ChangeDevice { device, to } => devices::change(build, *device, to, catalogue),
        Edit::ChooseFeed(chosen) => feeds::choose(build, chosen),
        Edit::FreeFeed(load) => {
            build.feeds.retain(|feed| feed.load != *load);
            Ok(())
        }
        Edit::RemoveDevice(device) => devices::remove(build, *device),
        Edit::SetBuild(other) => set_build(build, other),
    }
}

fn replace(project: &mut Project, other: &Project) -> Result<(), Refusal> {
    first_refused(project_faults(other))?;
    *project = other.clone();
    let least = lowest_next_id(&project.build);
    project.build.next_id = project.build.next_id.max(least);
    Ok(())
}

fn rename(project: &mut Project, name: &str) -> Result<(), Refusal> {
    let renamed = Project { name: name.to_owned(), ..project.clone() };
    first_refused(crate::ranges::PROJECT.faults(&renamed, "", Some(project)))?;
    project.name = renamed.name;
    Ok(())
}

fn set_brief(project: &mut Project, brief: &crate::Brief) -> Result<(), Refusal> {
    let mut brief = brief.clone();
    brief.bearing.0 = wrapped(brief.bearing.0);
    first_refused(brief_faults(&brief, "brief", Some(&project.brief)))?;
    project.brief = brief;
    Ok(())
}

fn set_build(build: &mut Build, other: &Build) -> Result<(), Refusal> {
    first_refused(build_faults(other))?;
    let least = build.next_id.max(lowest_next_id(other));
    *build = other.clone();
    build.next_id = build.next_id.max(least);
    Ok(())
}

/// The lowest number the next device or unit may get.
pub(crate) fn lowest_next_id(build: &Build) -> u32 {
    let devices = build.devices.iter().map(|device| device.id.0);
    devices.chain(build.climate.iter().map(|unit| unit.id.0)).map(|id| id.saturating_add(1)).max().unwrap_or(0)
}

/// Takes the next number; numbers are never given twice.
fn take_id(build: &mut Build) -> Result<ItemId, Refusal> {
    if build.next_id > MOST_ITEM_ID {
        return Err(Refusal::new("Number", build.next_id.to_string(), format!("at most {MOST_ITEM_ID}"), ""));
    }
    let id = ItemId(build.next_id);
    build.next_id += 1;
    Ok(id)
}

fn first_refused(faults: Vec<Fault>) -> Result<(), Refusal> {
    faults.into_iter().next().map_or(Ok(()), |fault| Err(fault.into()))
}

/// The part of the catalogue with this number.
fn known<'a, P>(
    what: &str,
    id: &PartId,
    parts: &'a catalogue::Parts<P>,
    kept: impl Into<Words>,
) -> Result<&'a P, Refusal> {
    parts.get(id).ok_or_else(|| {
        let allowed = if parts.len() > 8 || parts.is_empty() {
            format!("one of the {} in the catalogue", parts.len())
        } else {
            let numbers: Vec<&str> = parts.keys().map(PartId::as_str).collect();
            format!("in the catalogue are {}", numbers.join(", "))
        };
        Refusal::new(what, quoted(&id.0.chars().take(80).collect::<String>()), allowed, kept)
    })
}

/// Puts a part in the place of another, if the catalogue has it.
fn set_part<P>(
    what: &str,
    place: &mut PartId,
    id: &PartId,
    parts: &catalogue::Parts<P>,
    name: fn(&P) -> &String,
) -> Result<(), Refusal> {
    if place == id {
        return Ok(());
    }
    let kept = parts.get(place).map_or_else(|| place.0.clone(), |part| name(part).clone());
    known(what, id, parts, kept)?;
    *place = id.clone();
    Ok(())
}

/// Refuses a number outside a range of the catalogue.
fn within(what: &str, kind: Kind, number: f64, range: &Range, kept: Option<f64>) -> Result<(), Refusal> {
    if range.contains(number) {
        return Ok(());
    }
    let kept = kept.map(|kept| Words::number(kept, kind)).unwrap_or_default();
    Err(Refusal::new(what, Words::number(number, kind), Words::between(range.from, range.to, kind), kept))
}

#[cfg(test)]
mod tests;
