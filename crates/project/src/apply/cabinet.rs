//! The cabinet as a whole: height, depth, insulation, base, shield, lifting.

use catalogue::{Catalogue, PartId};
use units::{Kind, Millimetres};

use super::{Refusal, first_refused, known, within};
use crate::ranges::{BUILD, INSULATED};
use crate::{Build, Face, FittedPlinth, FittedShield, Insulated, Place, Words};

/// The heights the family is made in; devices stay where they are.
pub(super) fn set_units(build: &mut Build, units: u32, catalogue: &Catalogue) -> Result<(), Refusal> {
    if units == build.units {
        return Ok(());
    }
    if let Some(family) = catalogue.families.get(&build.family) {
        within("Height", Kind::RackUnits, units.into(), &family.height_range, Some(build.units.into()))?;
    }
    take(build, |build| build.units = units)
}

pub(super) fn set_depth(build: &mut Build, depth: Millimetres, catalogue: &Catalogue) -> Result<(), Refusal> {
    if depth == build.depth {
        return Ok(());
    }
    if let Some(family) = catalogue.families.get(&build.family) {
        within("Depth", Kind::Length, depth.0, &family.depth, Some(build.depth.0))?;
    }
    take(build, |build| build.depth = depth)
}

pub(super) fn set_insulation(
    build: &mut Build,
    face: Option<Face>,
    laid: Option<&Insulated>,
    catalogue: &Catalogue,
) -> Result<(), Refusal> {
    let faces: &[Face] = face.as_ref().map_or(&Face::ALL, std::slice::from_ref);
    if faces.iter().all(|&face| build.insulation.get(face).as_ref() == laid) {
        return Ok(());
    }
    if let Some(laid) = laid {
        let before = faces.first().and_then(|&face| build.insulation.get(face).as_ref());
        let kept = before.map_or_else(|| Words::from("none"), |before| part_words(&before.part, None));
        let part = known("Insulation", &laid.part, &catalogue.insulations, kept)?;
        let kept = before.map(|before| before.thickness.0);
        within("Insulation thickness", Kind::Length, laid.thickness.0, &part.thickness, kept)?;
        first_refused(INSULATED.faults(laid, "", before))?;
    }
    for &face in faces {
        *build.insulation.get_mut(face) = laid.cloned();
    }
    Ok(())
}

/// Another base. Without one, devices on its floor become unplaced.
pub(super) fn set_plinth(
    build: &mut Build,
    plinth: Option<&FittedPlinth>,
    catalogue: &Catalogue,
) -> Result<(), Refusal> {
    if plinth == build.plinth.as_ref() {
        return Ok(());
    }
    if let Some(plinth) = plinth {
        let before = build.plinth.as_ref();
        let name = before.and_then(|before| Some(catalogue.plinths.get(&before.part)?.name.as_str()));
        let kept = before.map_or_else(|| Words::from("none"), |before| part_words(&before.part, name));
        let part = known("Plinth", &plinth.part, &catalogue.plinths, kept)?;
        let kept = before.map(|before| before.height.0);
        within("Plinth height", Kind::Length, plinth.height.0, &part.height, kept)?;
    }
    take(build, |build| build.plinth = plinth.cloned())?;
    if build.plinth.is_none() {
        for device in &mut build.devices {
            if matches!(device.at, Place::Floor { plinth: true, .. }) {
                device.at = Place::Unplaced;
            }
        }
    }
    Ok(())
}

pub(super) fn set_shield(
    build: &mut Build,
    shield: Option<&FittedShield>,
    catalogue: &Catalogue,
) -> Result<(), Refusal> {
    if shield == build.shield.as_ref() {
        return Ok(());
    }
    if let Some(shield) = shield {
        let before = build.shield.as_ref();
        let name = before.and_then(|before| Some(catalogue.shields.get(&before.part)?.name.as_str()));
        let kept = before.map_or_else(|| Words::from("none"), |before| part_words(&before.part, name));
        let part = known("Shield", &shield.part, &catalogue.shields, kept)?;
        let kept = |read: fn(&FittedShield) -> Millimetres| before.map(|before| read(before).0);
        within("Gap behind the shield", Kind::Length, shield.gap.0, &part.gap, kept(|shield| shield.gap))?;
        within(
            "Overhang of the shield",
            Kind::Length,
            shield.overhang.0,
            &part.overhang,
            kept(|shield| shield.overhang),
        )?;
    }
    take(build, |build| build.shield = shield.cloned())
}

pub(super) fn set_lifting_eyes(build: &mut Build, eyes: Option<&PartId>, catalogue: &Catalogue) -> Result<(), Refusal> {
    if eyes != build.lifting_eyes.as_ref()
        && let Some(eyes) = eyes
    {
        known("Lifting eyes", eyes, &catalogue.lifting_eyes, kept_part(build.lifting_eyes.as_ref()))?;
    }
    build.lifting_eyes = eyes.cloned();
    Ok(())
}

pub(super) fn set_pallet(build: &mut Build, pallet: Option<&PartId>, catalogue: &Catalogue) -> Result<(), Refusal> {
    if pallet != build.pallet.as_ref()
        && let Some(pallet) = pallet
    {
        known("Pallet", pallet, &catalogue.pallets, kept_part(build.pallet.as_ref()))?;
    }
    build.pallet = pallet.cloned();
    Ok(())
}

pub(super) fn set_divider(build: &mut Build, divider: bool) -> Result<(), Refusal> {
    if divider && !build.divider && build.bays.len() < 2 {
        return Err(Refusal::new("Divider", "a divider in one bay", "only between two bays", "none"));
    }
    build.divider = divider;
    Ok(())
}

pub(super) fn kept_part(part: Option<&PartId>) -> Words {
    part.map_or_else(|| "none".into(), |part| part_words(part, None))
}

fn part_words(part: &PartId, name: Option<&str>) -> Words {
    name.unwrap_or(part.as_str()).into()
}

/// Changes the build unless the change would leave what any project may hold.
fn take(build: &mut Build, change: impl FnOnce(&mut Build)) -> Result<(), Refusal> {
    // Without its lists a build is small to copy; they do not matter to these ranges.
    let (devices, climate) = (std::mem::take(&mut build.devices), std::mem::take(&mut build.climate));
    let mut changed = build.clone();
    change(&mut changed);
    let allowed = first_refused(BUILD.faults(&changed, "", Some(build)));
    if allowed.is_ok() {
        *build = changed;
    }
    build.devices = devices;
    build.climate = climate;
    allowed
}
