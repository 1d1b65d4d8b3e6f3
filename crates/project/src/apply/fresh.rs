//! An empty project to begin with.

use catalogue::{Catalogue, PartId, Parts, PlinthUse, Skin};
use units::Millimetres;

use super::family::{into, setback_into, whole_into};
use crate::{
    Bay, BayRole, Brief, Build, Closure, Faces, FittedGlandPlate, FittedPlinth, HingeSide, Project, RailWidth,
};

/// A sensible empty start: one bay of 24 U for 19-inch devices, 914 mm deep, in aluminium of 3.2 mm, as far as the
/// catalogue has that. Parts are chosen by what they are, so that any catalogue gives a start.
#[must_use]
pub fn new_project(catalogue: &Catalogue) -> Project {
    let family =
        catalogue.families.iter().find(|(_, family)| family.bays == 1).or_else(|| catalogue.families.iter().next());
    let setback =
        |wished: f64| family.map_or(Millimetres(wished), |(_, family)| setback_into(Millimetres(wished), family));
    let gland_plates =
        catalogue.gland_plates.keys().next().map(|part| FittedGlandPlate { part: part.clone(), used: 0 });
    let bay = Bay {
        role: BayRole::Mixed,
        width: family.map_or(Millimetres(686.0), |(_, family)| into(Millimetres(686.0), &family.bay_width)),
        rails: RailWidth::Nineteen,
        front_setback: setback(127.0),
        rear_setback: setback(127.0),
        front: Closure::Door(HingeSide::Left),
        rear: Closure::Door(HingeSide::Right),
        manager_left: None,
        manager_right: None,
        gland_plates: gland_plates.into_iter().collect(),
    };
    let bays = family.map_or(1, |(_, family)| usize::from(family.bays).clamp(1, 2));
    let build = Build {
        family: family.map_or_else(unknown, |(id, _)| id.clone()),
        bays: vec![bay; bays],
        divider: false,
        units: family.map_or(24, |(_, family)| whole_into(24, &family.height_range)),
        depth: family.map_or(Millimetres(914.0), |(_, family)| into(Millimetres(914.0), &family.depth)),
        skin: skin(&catalogue.skins),
        insulation: Faces::default(),
        paint: best(&catalogue.paints, |paint| paint.absorptance),
        plinth: riser(catalogue),
        shield: None,
        door: first(&catalogue.doors),
        lifting_eyes: catalogue.lifting_eyes.keys().next().cloned(),
        eyes_removed: false,
        pallet: lightest_pallet(catalogue),
        climate: Vec::new(),
        devices: Vec::new(),
        feeds: Vec::new(),
        next_id: 1,
    };
    Project { name: "New cabinet".to_owned(), brief: Brief::default(), build }
}

/// What stands where a catalogue has no part: no part number, and so unknown to every catalogue.
fn unknown() -> PartId {
    PartId::from("none")
}

fn first<P>(parts: &Parts<P>) -> PartId {
    parts.keys().next().cloned().unwrap_or_else(unknown)
}

/// The part with the lowest figure.
fn best<P>(parts: &Parts<P>, figure: fn(&P) -> f64) -> PartId {
    parts.iter().min_by(|a, b| figure(a.1).total_cmp(&figure(b.1))).map_or_else(unknown, |(id, _)| id.clone())
}

/// Aluminium of 3.2 mm, or what comes nearest.
fn skin(skins: &Parts<Skin>) -> PartId {
    best(skins, |skin| {
        let other_metal = if skin.material.to_ascii_lowercase().starts_with("alumin") { 0.0 } else { 1e6 };
        other_metal + (skin.thickness.0 - 3.2).abs()
    })
}

fn lightest_pallet(catalogue: &Catalogue) -> Option<PartId> {
    catalogue.pallets.iter().min_by(|a, b| a.1.mass.0.total_cmp(&b.1.mass.0)).map(|(id, _)| id.clone())
}

/// A low base: it keeps the body off the wet pad.
fn riser(catalogue: &Catalogue) -> Option<FittedPlinth> {
    let (id, plinth) = catalogue.plinths.iter().find(|(_, plinth)| plinth.used_for == PlinthUse::Riser)?;
    Some(FittedPlinth { part: id.clone(), height: into(plinth.usual_height, &plinth.height) })
}
