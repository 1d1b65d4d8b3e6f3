//! One bay of the build: role, width, rails, doors, cable management, gland plates.

use catalogue::PartId;
use leptos::prelude::*;
use project::{Bay, BayRole, Closure, Edit, FittedGlandPlate, HingeSide, RailWidth};
use rules::bay_letter;
use units::{Kind, Millimetres};

use super::Part;
use crate::editor::{Editor, use_editor};
use crate::lean::view;
use crate::parts::{ChoiceBlank, QuantityField, Typed};

const ROLES: [(BayRole, &str); 4] = [
    (BayRole::Active, "active"),
    (BayRole::Passive, "passive"),
    (BayRole::Mixed, "mixed"),
    (BayRole::Battery, "batteries"),
];
pub(crate) const RAILS: [(RailWidth, &str); 2] =
    [(RailWidth::Nineteen, "19 inch"), (RailWidth::TwentyThree, "23 inch")];
pub(crate) const CLOSURES: [(Closure, &str); 3] = [
    (Closure::Door(HingeSide::Left), "door, hinged left"),
    (Closure::Door(HingeSide::Right), "door, hinged right"),
    (Closure::Panel, "fixed panel"),
];

/// A bay with one thing changed.
fn with(bay: &Bay, change: impl FnOnce(&mut Bay)) -> Box<Bay> {
    let mut to = bay.clone();
    change(&mut to);
    Box::new(to)
}

pub(crate) fn set_bay(editor: Editor, bay: usize, change: impl FnOnce(&mut Bay)) -> Result<(), String> {
    let Some(now) = editor.project_now().build.bays.get(bay).cloned() else { return Ok(()) };
    editor.try_apply(&Edit::SetBay { bay, to: with(&now, change) })
}

/// Changes a bay at a press; a refusal is told for the whole sheet, since no field stands beside it.
fn press(editor: Editor, bay: usize, change: impl FnOnce(&mut Bay)) {
    if let Some(now) = editor.project_now().build.bays.get(bay).cloned() {
        editor.apply(&Edit::SetBay { bay, to: with(&now, change) });
    }
}

/// Options that change one thing of a bay.
pub(crate) fn bay_options<T: PartialEq + Clone + Send + Sync + 'static>(
    editor: Editor,
    bay: usize,
    all: impl Fn(&catalogue::Catalogue) -> Vec<(String, T)> + Send + Sync + 'static,
    get: fn(&Bay) -> T,
    set: fn(&mut Bay, T),
) -> Callback<(), Vec<(String, Edit, bool)>> {
    Callback::new(move |()| {
        let Some(now) = editor.project_now().build.bays.get(bay).cloned() else { return Vec::new() };
        all(&editor.catalogue_now())
            .into_iter()
            .map(|(name, value)| {
                let fitted = get(&now) == value;
                (name, Edit::SetBay { bay, to: with(&now, |bay| set(bay, value)) }, fitted)
            })
            .collect()
    })
}

pub(crate) fn named<T: Clone>(all: &[(T, &str)]) -> Vec<(String, T)> {
    all.iter().map(|(value, name)| ((*name).to_owned(), value.clone())).collect()
}

pub(crate) fn managers(catalogue: &catalogue::Catalogue) -> Vec<(String, Option<PartId>)> {
    let parts = catalogue.managers.iter().map(|(id, part)| (part.name.clone(), Some(id.clone())));
    std::iter::once(("none".to_owned(), None)).chain(parts).collect()
}

/// The rows of one bay.
#[component]
pub(super) fn BayRows(
    /// Which, counted from 0.
    bay: usize,
) -> impl IntoView {
    let editor = use_editor();
    let said = move |words: fn(&Bay, &catalogue::Catalogue) -> String| {
        Signal::derive(move || {
            editor.project().build.bays.get(bay).map_or_else(String::new, |bay| words(bay, &editor.catalogue()))
        })
    };
    let number = move |get: fn(&Bay) -> f64| editor.part(move |project| project.build.bays.get(bay).map(get));
    view! {
        <h3 class="panel__head">{format!("Bay {}", bay_letter(bay))}</h3>
        <dl class="parts">
            <Part name="Role"><ChoiceBlank label="Role" options=bay_options(editor, bay, |_| named(&ROLES), |bay| bay.role, |bay, to| bay.role = to)
                text=said(|bay, _| name_in(&ROLES, &bay.role)) /></Part>
            <Part name="Rails"><ChoiceBlank label="Rails" options=bay_options(editor, bay, |_| named(&RAILS), |bay| bay.rails, |bay, to| bay.rails = to)
                text=said(|bay, _| name_in(&RAILS, &bay.rails)) /></Part>
            <Part name="Front"><ChoiceBlank label="Front" options=bay_options(editor, bay, |_| named(&CLOSURES), |bay| bay.front, |bay, to| bay.front = to)
                text=said(|bay, _| name_in(&CLOSURES, &bay.front)) /></Part>
            <Part name="Rear"><ChoiceBlank label="Rear" options=bay_options(editor, bay, |_| named(&CLOSURES), |bay| bay.rear, |bay, to| bay.rear = to)
                text=said(|bay, _| name_in(&CLOSURES, &bay.rear)) /></Part>
            <Part name="Cables, left"><ChoiceBlank label="Cable management, left" options=bay_options(editor, bay, managers, |bay| bay.manager_left.clone(), |bay, to| bay.manager_left = to)
                text=said(|bay, catalogue| manager_name(&bay.manager_left, catalogue)) /></Part>
            <Part name="Cables, right"><ChoiceBlank label="Cable management, right" options=bay_options(editor, bay, managers, |bay| bay.manager_right.clone(), |bay, to| bay.manager_right = to)
                text=said(|bay, catalogue| manager_name(&bay.manager_right, catalogue)) /></Part>
            <GlandPlates bay />
        </dl>
        <div class="form__grid">
            <QuantityField label="Inner width" kind=Kind::Length value=number(|bay| bay.width.0)
                on_commit=move |number: Typed| set_bay(editor, bay, |bay| bay.width = Millimetres(number.unwrap_or_default())) />
            <QuantityField label="Front rails set back" kind=Kind::Length value=number(|bay| bay.front_setback.0)
                on_commit=move |number: Typed| set_bay(editor, bay, |bay| bay.front_setback = Millimetres(number.unwrap_or_default())) />
            <QuantityField label="Rear rails set back" kind=Kind::Length value=number(|bay| bay.rear_setback.0)
                on_commit=move |number: Typed| set_bay(editor, bay, |bay| bay.rear_setback = Millimetres(number.unwrap_or_default())) />
        </div>
    }
}

pub(crate) fn name_in<T: PartialEq>(all: &[(T, &str)], value: &T) -> String {
    all.iter().find(|(each, _)| each == value).map_or_else(String::new, |(_, name)| (*name).to_owned())
}

pub(crate) fn manager_name(part: &Option<PartId>, catalogue: &catalogue::Catalogue) -> String {
    part.as_ref().map_or_else(
        || "none".to_owned(),
        |id| catalogue.managers.get(id).map_or_else(|| id.to_string(), |part| part.name.clone()),
    )
}

/// The gland plates of a bay: each with its knock-outs in use, and one more.
#[component]
fn GlandPlates(bay: usize) -> impl IntoView {
    let editor = use_editor();
    let plates =
        editor.part(move |project| project.build.bays.get(bay).map(|bay| bay.gland_plates.clone()).unwrap_or_default());
    let more = Callback::new(move |()| {
        let Some(now) = editor.project_now().build.bays.get(bay).cloned() else { return Vec::new() };
        editor
            .catalogue_now()
            .gland_plates
            .iter()
            .map(|(id, part)| {
                let plate = FittedGlandPlate { part: id.clone(), used: 0 };
                (part.name.clone(), Edit::SetBay { bay, to: with(&now, |bay| bay.gland_plates.push(plate)) }, false)
            })
            .collect()
    });
    let rows = move || {
        plates
            .get()
            .into_iter()
            .enumerate()
            .map(|(index, plate)| {
                let catalogue = editor.catalogue();
                let part = catalogue.gland_plates.get(&plate.part);
                let name = part.map_or_else(|| plate.part.to_string(), |part| part.name.clone());
                let used = plate.used;
                view! {
                    <span class="parts__item">
                        {format!("{name}, {used} of {} used ", part.map_or(0, |part| part.knock_outs))}
                        <button type="button" class="blank" aria-label=format!("{name}: use one knock-out less") on:click=move |_| press(editor, bay, |bay| bay.gland_plates[index].used = used.saturating_sub(1))>"less"</button>" "
                        <button type="button" class="blank" aria-label=format!("{name}: use one knock-out more") on:click=move |_| press(editor, bay, |bay| bay.gland_plates[index].used = used + 1)>"more"</button>" "
                        <button type="button" class="blank" aria-label=format!("Take out {name}") on:click=move |_| press(editor, bay, |bay| { bay.gland_plates.remove(index); })>"take out"</button>
                    </span>
                }
            })
            .collect_view()
    };
    view! {
        <div class="parts__row">
            <dt>"Gland plates"</dt>
            <dd>{move || rows()} <ChoiceBlank label="One more gland plate" text=Signal::derive(|| "one more".to_owned()) options=more /></dd>
        </div>
    }
}
