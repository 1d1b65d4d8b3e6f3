//! The whole build as a list: every part that can be chosen, also those that no call-out names.

mod bay;
mod climate;

use leptos::prelude::*;
use project::{Edit, Face, FittedPlinth, FittedShield, Insulated};
use units::{Kind, Millimetres};

use crate::built::{
    door_options, eye_options, family_options, paint_options, pallet_options, plinth_options, shield_options,
    skin_options,
};
use crate::editor::use_editor;
use crate::lean::view;
use crate::parts::{ChoiceBlank, QuantityField, Typed};
use bay::BayRows;
pub(crate) use bay::{CLOSURES, RAILS, bay_options, manager_name, managers, name_in, named, set_bay};
use climate::ClimateRows;
pub(crate) use climate::{places_for, unit_place_words};

/// The faces that can be insulated, in words.
pub(crate) const FACES: [(Face, &str); 6] = [
    (Face::Front, "front"),
    (Face::Rear, "rear"),
    (Face::Left, "left"),
    (Face::Right, "right"),
    (Face::Top, "roof"),
    (Face::Bottom, "floor"),
];

/// The whole build.
#[component]
pub fn BuildList() -> impl IntoView {
    let editor = use_editor();
    let name_of = move |name: fn(&project::Build, &catalogue::Catalogue) -> Option<String>| {
        Signal::derive(move || name(&editor.project().build, &editor.catalogue()).unwrap_or_else(|| "none".to_owned()))
    };
    let bays = editor.part(|project| project.build.bays.len());
    let divider = editor.part(|project| project.build.divider);
    let removed = editor.part(|project| project.build.eyes_removed);
    view! {
        <div class="form">
            <h2 class="head">"The whole build"</h2>
            <dl class="parts">
                <Part name="Family"><ChoiceBlank label="Family" options=family_options(editor) text=name_of(|build, catalogue| catalogue.families.get(&build.family).map(|part| part.name.clone())) /></Part>
                <Part name="Skin"><ChoiceBlank label="Skin" options=skin_options(editor) text=name_of(|build, catalogue| catalogue.skins.get(&build.skin).map(|part| part.name.clone())) /></Part>
                <Part name="Paint"><ChoiceBlank label="Paint" options=paint_options(editor) text=name_of(|build, catalogue| catalogue.paints.get(&build.paint).map(|part| part.name.clone())) /></Part>
                <Part name="Doors"><ChoiceBlank label="Doors" options=door_options(editor) text=name_of(|build, catalogue| catalogue.doors.get(&build.door).map(|part| part.name.clone())) /></Part>
                <Part name="Plinth"><ChoiceBlank label="Plinth" options=plinth_options(editor) text=name_of(|build, catalogue| build.plinth.as_ref().and_then(|plinth| catalogue.plinths.get(&plinth.part)).map(|part| part.name.clone())) /></Part>
                <Part name="Shield"><ChoiceBlank label="Solar shield" options=shield_options(editor) text=name_of(|build, catalogue| build.shield.as_ref().and_then(|shield| catalogue.shields.get(&shield.part)).map(|part| part.name.clone())) /></Part>
                <Part name="Lifting eyes"><ChoiceBlank label="Lifting eyes" options=eye_options(editor) text=name_of(|build, catalogue| build.lifting_eyes.as_ref().and_then(|id| catalogue.lifting_eyes.get(id)).map(|part| part.name.clone())) /></Part>
                <Part name="Pallet"><ChoiceBlank label="Pallet" options=pallet_options(editor) text=name_of(|build, catalogue| build.pallet.as_ref().and_then(|id| catalogue.pallets.get(id)).map(|part| part.name.clone())) /></Part>
            </dl>
            <div class="form__grid">
                <QuantityField label="Plinth height" kind=Kind::Length
                    value=editor.part(|project| project.build.plinth.as_ref().map(|plinth| plinth.height.0))
                    on_commit=move |number: Typed| match editor.project_now().build.plinth.clone() {
                        Some(plinth) => editor.try_apply(&Edit::SetPlinth(Some(FittedPlinth { height: Millimetres(number.unwrap_or_default()), ..plinth }))),
                        None => Err("There is no plinth: choose one first".to_owned()),
                    } />
                <QuantityField label="Gap under the shield" kind=Kind::Length
                    value=editor.part(|project| project.build.shield.as_ref().map(|shield| shield.gap.0))
                    on_commit=move |number: Typed| match editor.project_now().build.shield.clone() {
                        Some(shield) => editor.try_apply(&Edit::SetShield(Some(FittedShield { gap: Millimetres(number.unwrap_or_default()), ..shield }))),
                        None => Err("There is no shield: choose one first".to_owned()),
                    } />
                <QuantityField label="Shield past the door seal" kind=Kind::Length
                    value=editor.part(|project| project.build.shield.as_ref().map(|shield| shield.overhang.0))
                    on_commit=move |number: Typed| match editor.project_now().build.shield.clone() {
                        Some(shield) => editor.try_apply(&Edit::SetShield(Some(FittedShield { overhang: Millimetres(number.unwrap_or_default()), ..shield }))),
                        None => Err("There is no shield: choose one first".to_owned()),
                    } />
            </div>
            <p class="form__acts form__acts--wrap">
                <button type="button" class="word" aria-pressed=move || removed.get().to_string() on:click=move |_| { editor.apply(&Edit::SetEyesRemoved(!removed.get_untracked())); }>"Eyes come off after setting down"</button>
                {move || (bays.get() > 1).then(|| view! {
                    <button type="button" class="word" aria-pressed=move || divider.get().to_string() on:click=move |_| { editor.apply(&Edit::SetDivider(!divider.get_untracked())); }>"Divider between the bays"</button>
                })}
            </p>
            <h3 class="panel__head">"Insulation"</h3>
            <dl class="parts">{FACES.map(|(face, name)| view! { <InsulationRow face name /> })}</dl>
            {move || (0..bays.get()).map(|bay| view! { <BayRows bay /> }).collect_view()}
            <ClimateRows />
        </div>
    }
}

/// One part: its name, and what is chosen.
#[component]
pub(crate) fn Part(name: &'static str, children: Children) -> impl IntoView {
    view! { <div class="parts__row"><dt>{name}</dt><dd>{children()}</dd></div> }
}

/// The usual thicknesses that are offered in a list, mm; any other is typed on the face itself.
const THICKNESSES: [f64; 4] = [12.0, 25.0, 40.0, 50.0];

/// Insulation of one face.
#[component]
pub(crate) fn InsulationRow(face: Face, name: &'static str) -> impl IntoView {
    let editor = use_editor();
    let units = crate::view_state::use_view().units;
    let text = Signal::derive(move || {
        let project = editor.project();
        let Some(insulated) = project.build.insulation.get(face) else { return "none".to_owned() };
        let part = editor
            .catalogue()
            .insulations
            .get(&insulated.part)
            .map_or_else(|| insulated.part.to_string(), |part| part.name.clone());
        format!("{part}, {}", units::show(insulated.thickness.into(), units.get()))
    });
    let options = Callback::new(move |()| {
        let project = editor.project_now();
        let now = project.build.insulation.get(face).clone();
        let mut options =
            vec![("none".to_owned(), Edit::SetInsulation { face: Some(face), insulation: None }, now.is_none())];
        for (id, part) in &editor.catalogue_now().insulations {
            for thickness in THICKNESSES.into_iter().filter(|thickness| part.thickness.contains(*thickness)) {
                let insulated = Insulated { part: id.clone(), thickness: Millimetres(thickness) };
                let label =
                    format!("{}, {}", part.name, units::show(Millimetres(thickness).into(), units.get_untracked()));
                let fitted = now.as_ref() == Some(&insulated);
                options.push((label, Edit::SetInsulation { face: Some(face), insulation: Some(insulated) }, fitted));
            }
        }
        options
    });
    view! { <div class="parts__row"><dt>{name}</dt><dd><ChoiceBlank label=format!("Insulation, {name}") text options /></dd></div> }
}
