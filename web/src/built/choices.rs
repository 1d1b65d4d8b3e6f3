//! The options of the build's main parts, each as the edit that takes it.

use catalogue::{Catalogue, ShieldCover};
use leptos::prelude::*;
use project::{Edit, FittedPlinth, FittedShield, ItemId, Project};
use units::Millimetres;

use crate::build_list::places_for;
use crate::editor::Editor;

/// One option: name, edit, whether it is the present one.
type Named = (String, Edit, bool);

/// Options made when a list opens.
type Options = Callback<(), Vec<Named>>;

fn options(editor: Editor, make: fn(&Project, &Catalogue) -> Vec<Named>) -> Options {
    Callback::new(move |()| make(&editor.project_now(), &editor.catalogue_now()))
}

/// Families.
pub(crate) fn family_options(editor: Editor) -> Options {
    options(editor, |project, catalogue| {
        catalogue
            .families
            .iter()
            .map(|(id, part)| (part.name.clone(), Edit::SetFamily(id.clone()), project.build.family == *id))
            .collect()
    })
}

/// Sheet.
pub(crate) fn skin_options(editor: Editor) -> Options {
    options(editor, |project, catalogue| {
        catalogue
            .skins
            .iter()
            .map(|(id, part)| (part.name.clone(), Edit::SetSkin(id.clone()), project.build.skin == *id))
            .collect()
    })
}

/// Paints.
pub(crate) fn paint_options(editor: Editor) -> Options {
    options(editor, |project, catalogue| {
        catalogue
            .paints
            .iter()
            .map(|(id, part)| (part.name.clone(), Edit::SetPaint(id.clone()), project.build.paint == *id))
            .collect()
    })
}

/// Doors.
pub(crate) fn door_options(editor: Editor) -> Options {
    options(editor, |project, catalogue| {
        catalogue
            .doors
            .iter()
            .map(|(id, part)| (part.name.clone(), Edit::SetDoor(id.clone()), project.build.door == *id))
            .collect()
    })
}

/// Plinths, none included.
pub(crate) fn plinth_options(editor: Editor) -> Options {
    options(editor, |project, catalogue| {
        let now = project.build.plinth.as_ref();
        let none = ("none".to_owned(), Edit::SetPlinth(None), now.is_none());
        let parts = catalogue.plinths.iter().map(|(id, part)| {
            let fitted = now.is_some_and(|plinth| plinth.part == *id);
            let plinth = FittedPlinth { part: id.clone(), height: part.usual_height };
            (part.name.clone(), Edit::SetPlinth(Some(plinth)), fitted)
        });
        std::iter::once(none).chain(parts).collect()
    })
}

/// Shields, none included. Gap and overhang stay as they are where the new shield allows them.
pub(crate) fn shield_options(editor: Editor) -> Options {
    options(editor, |project, catalogue| {
        let now = project.build.shield.as_ref();
        let none = ("none".to_owned(), Edit::SetShield(None), now.is_none());
        let parts = catalogue.shields.iter().map(|(id, part)| {
            let fitted = now.is_some_and(|shield| shield.part == *id);
            let within = |value: Option<f64>, range: &catalogue::Range| {
                Millimetres(value.unwrap_or(f64::midpoint(range.from, range.to)).clamp(range.from, range.to))
            };
            let shield = FittedShield {
                part: id.clone(),
                gap: within(now.map(|shield| shield.gap.0), &part.gap),
                overhang: within(now.map(|shield| shield.overhang.0), &part.overhang),
            };
            (part.name.clone(), Edit::SetShield(Some(shield)), fitted)
        });
        std::iter::once(none).chain(parts).collect()
    })
}

/// Lifting eyes, none included.
pub(crate) fn eye_options(editor: Editor) -> Options {
    options(editor, |project, catalogue| {
        let now = &project.build.lifting_eyes;
        let none = ("none".to_owned(), Edit::SetLiftingEyes(None), now.is_none());
        let parts = catalogue
            .lifting_eyes
            .iter()
            .map(|(id, part)| (part.name.clone(), Edit::SetLiftingEyes(Some(id.clone())), now.as_ref() == Some(id)));
        std::iter::once(none).chain(parts).collect()
    })
}

/// Pallets, none included.
pub(crate) fn pallet_options(editor: Editor) -> Options {
    options(editor, |project, catalogue| {
        let now = &project.build.pallet;
        let none = ("none".to_owned(), Edit::SetPallet(None), now.is_none());
        let parts = catalogue
            .pallets
            .iter()
            .map(|(id, part)| (part.name.clone(), Edit::SetPallet(Some(id.clone())), now.as_ref() == Some(id)));
        std::iter::once(none).chain(parts).collect()
    })
}

/// The units that may sit where this one does, and taking it out.
pub(crate) fn unit_options(editor: Editor, id: ItemId) -> Options {
    Callback::new(move |()| {
        let project = editor.project_now();
        let Some(unit) = project.build.unit(id) else { return Vec::new() };
        let catalogue = editor.catalogue_now();
        let fitting =
            catalogue.units.iter().filter(|(_, part)| places_for(&part.places, &project.build).contains(&unit.at));
        let mut options: Vec<_> = fitting
            .map(|(part, spec)| {
                let edit = Edit::ChangeUnit { unit: id, part: part.clone(), at: unit.at, height: unit.height };
                (spec.name.clone(), edit, *part == unit.part)
            })
            .collect();
        options.push(("none: take it out".to_owned(), Edit::RemoveUnit(id), false));
        options
    })
}

/// A shield's cover in words.
pub(crate) const fn cover_words(cover: ShieldCover) -> &'static str {
    match cover {
        ShieldCover::Roof => "roof",
        ShieldCover::RoofAndSides => "roof, sides",
        ShieldCover::Full => "all round",
    }
}
