//! The climate units of the build.

use catalogue::UnitPlace;
use leptos::prelude::*;
use project::{Build, Edit, End, Side, UnitAt};
use rules::bay_letter;

use crate::editor::use_editor;
use crate::lean::view;
use crate::parts::ChoiceBlank;

/// Where a unit sits, in words.
pub(crate) fn unit_place_words(at: UnitAt) -> String {
    match at {
        UnitAt::Door { bay, end: End::Front } => format!("front door {}", bay_letter(bay)),
        UnitAt::Door { bay, end: End::Rear } => format!("rear door {}", bay_letter(bay)),
        UnitAt::Side { side: Side::Left } => "left wall".to_owned(),
        UnitAt::Side { side: Side::Right } => "right wall".to_owned(),
        UnitAt::Roof { bay } => format!("roof over bay {}", bay_letter(bay)),
        UnitAt::Inside { bay } => format!("inside bay {}", bay_letter(bay)),
    }
}

/// The places of a build where a unit of this sort may sit.
pub(crate) fn places_for(places: &[UnitPlace], build: &Build) -> Vec<UnitAt> {
    let bays = 0..build.bays.len();
    let mut all = Vec::new();
    for place in places {
        match place {
            UnitPlace::Door => {
                for bay in bays.clone() {
                    for (end, closure) in [(End::Front, build.bays[bay].front), (End::Rear, build.bays[bay].rear)] {
                        if matches!(closure, project::Closure::Door(_)) {
                            all.push(UnitAt::Door { bay, end });
                        }
                    }
                }
            }
            UnitPlace::Side => all.extend([Side::Left, Side::Right].map(|side| UnitAt::Side { side })),
            UnitPlace::Roof => all.extend(bays.clone().map(|bay| UnitAt::Roof { bay })),
            UnitPlace::Inside => all.extend(bays.clone().map(|bay| UnitAt::Inside { bay })),
        }
    }
    all
}

/// The units, and one more.
#[component]
pub(super) fn ClimateRows() -> impl IntoView {
    let editor = use_editor();
    let units = editor.part(|project| project.build.climate.clone());
    let more = Callback::new(move |()| {
        let build = &editor.project_now().build;
        let taken: Vec<UnitAt> = build.climate.iter().map(|unit| unit.at).collect();
        editor
            .catalogue_now()
            .units
            .iter()
            .filter_map(|(id, part)| {
                let places = places_for(&part.places, build);
                let at = *places.iter().find(|at| !taken.contains(at)).or(places.first())?;
                let name = format!("{}, {}", part.name, unit_place_words(at));
                Some((name, Edit::AddUnit { part: id.clone(), at }, false))
            })
            .collect()
    });
    let rows = move || {
        units
            .get()
            .into_iter()
            .map(|unit| {
                let name = editor.catalogue().units.get(&unit.part).map_or_else(|| unit.part.to_string(), |part| part.name.clone());
                let id = unit.id;
                let at = unit.at;
                let places = Callback::new(move |()| {
                    let project = editor.project_now();
                    let catalogue = editor.catalogue_now();
                    let Some(unit) = project.build.unit(id) else { return Vec::new() };
                    let Some(part) = catalogue.units.get(&unit.part) else { return Vec::new() };
                    places_for(&part.places, &project.build)
                        .into_iter()
                        .map(|to| {
                            let edit = Edit::ChangeUnit { unit: id, part: unit.part.clone(), at: to, height: unit.height };
                            (unit_place_words(to), edit, unit.at == to)
                        })
                        .collect()
                });
                view! {
                    <div class="parts__row">
                        <dt>{name.clone()}</dt>
                        <dd>
                            <ChoiceBlank label=format!("Place of {name}") text=Signal::derive(move || unit_place_words(at)) options=places />" "
                            <button type="button" class="blank" aria-label=format!("Take out {name}") on:click=move |_| { editor.apply(&Edit::RemoveUnit(id)); }>"take out"</button>
                        </dd>
                    </div>
                }
            })
            .collect_view()
    };
    view! {
        <h3 class="panel__head">"Climate units"</h3>
        <dl class="parts">
            {move || rows()}
            <div class="parts__row"><dt>"One more"</dt><dd><ChoiceBlank label="One more climate unit" text=Signal::derive(|| "choose a unit".to_owned()) options=more /></dd></div>
        </dl>
    }
}
