//! Parts of a bay that are selected: a door, its rails, cable management, a gland plate.

use geometry::Of;
use leptos::prelude::*;
use project::{Bay, End, Side, UnitAt};
use units::{Kind, Millimetres};

use super::part::name_of;
use crate::build_list::{CLOSURES, Part, RAILS, bay_options, manager_name, managers, name_in, named, set_bay};
use crate::built::door_options;
use crate::editor::{Editor, use_editor};
use crate::lean::view;
use crate::parts::{ChoiceBlank, CountField, QuantityField, Typed};
use crate::view_state::use_view;

/// Something of a bay, in words.
fn said(editor: Editor, bay: usize, words: fn(&Bay, &catalogue::Catalogue) -> String) -> Signal<String> {
    Signal::derive(move || {
        editor.project().build.bays.get(bay).map_or_else(String::new, |bay| words(bay, &editor.catalogue()))
    })
}

/// The fields of a door.
#[component]
pub(super) fn DoorFields(
    /// Bay, counted from 0.
    bay: usize,
    /// Front or rear.
    end: End,
) -> impl IntoView {
    let editor = use_editor();
    let selected = use_view().selected;
    let door = name_of(editor, |build, catalogue| catalogue.doors.get(&build.door).map(|part| part.name.clone()));
    let all = |_: &catalogue::Catalogue| named(&CLOSURES);
    let (closure, closures) = match end {
        End::Front => (
            said(editor, bay, |bay, _| name_in(&CLOSURES, &bay.front)),
            bay_options(editor, bay, all, |bay| bay.front, |bay, to| bay.front = to),
        ),
        End::Rear => (
            said(editor, bay, |bay, _| name_in(&CLOSURES, &bay.rear)),
            bay_options(editor, bay, all, |bay| bay.rear, |bay, to| bay.rear = to),
        ),
    };
    let carried = editor.part(move |project| {
        let on = |at: UnitAt| at == UnitAt::Door { bay, end };
        project.build.climate.iter().filter(|unit| on(unit.at)).cloned().collect::<Vec<_>>()
    });
    let units = move || {
        carried
            .get()
            .into_iter()
            .map(|unit| {
                let name = editor.catalogue().units.get(&unit.part).map_or_else(|| unit.part.to_string(), |part| part.name.clone());
                view! {
                    <button type="button" class="blank parts__item" on:click=move |_| selected.set(Some(Of::Unit(unit.id)))>{name}</button>
                }
            })
            .collect_view()
    };
    view! {
        <dl class="parts">
            <Part name="Closed by"><ChoiceBlank label="Closed by" text=closure options=closures /></Part>
            <Part name="Doors"><ChoiceBlank label="Every door" text=door options=door_options(editor) /></Part>
            <Part name="Carries">{move || units()}{move || carried.with(Vec::is_empty).then_some("no climate unit")}</Part>
        </dl>
    }
}

/// The fields of a bay's rails.
#[component]
pub(super) fn RailFields(
    /// Bay, counted from 0.
    bay: usize,
) -> impl IntoView {
    let editor = use_editor();
    let length = move |get: fn(&Bay) -> Millimetres| {
        editor.part(move |project| project.build.bays.get(bay).map(|bay| get(bay).0))
    };
    let set = move |change: fn(&mut Bay, Millimetres)| {
        move |number: Typed| {
            number.map_or(Ok(()), |number| set_bay(editor, bay, |bay| change(bay, Millimetres(number))))
        }
    };
    let rails = said(editor, bay, |bay, _| name_in(&RAILS, &bay.rails));
    let widths = bay_options(editor, bay, |_| named(&RAILS), |bay| bay.rails, |bay, to| bay.rails = to);
    view! {
        <dl class="parts"><Part name="Made for"><ChoiceBlank label="Rails made for panels of" text=rails options=widths /></Part></dl>
        <div class="form__grid">
            <QuantityField
                label="Front rails set back"
                kind=Kind::Length
                value=length(|bay| bay.front_setback)
                on_commit=set(|bay, to| bay.front_setback = to)
            />
            <QuantityField
                label="Rear rails set back"
                kind=Kind::Length
                value=length(|bay| bay.rear_setback)
                on_commit=set(|bay, to| bay.rear_setback = to)
            />
            <QuantityField label="Inner width" kind=Kind::Length value=length(|bay| bay.width) on_commit=set(|bay, to| bay.width = to) />
        </div>
    }
}

/// The choice of a cable manager.
#[component]
pub(super) fn ManagerFields(
    /// Bay, counted from 0.
    bay: usize,
    /// Left or right.
    side: Side,
) -> impl IntoView {
    let editor = use_editor();
    let (text, options) = match side {
        Side::Left => (
            said(editor, bay, |bay, catalogue| manager_name(&bay.manager_left, catalogue)),
            bay_options(editor, bay, managers, |bay| bay.manager_left.clone(), |bay, to| bay.manager_left = to),
        ),
        Side::Right => (
            said(editor, bay, |bay, catalogue| manager_name(&bay.manager_right, catalogue)),
            bay_options(editor, bay, managers, |bay| bay.manager_right.clone(), |bay, to| bay.manager_right = to),
        ),
    };
    view! { <dl class="parts"><Part name="Management"><ChoiceBlank label="Cable management" text options /></Part></dl> }
}

/// The fields of a gland plate.
#[component]
pub(super) fn GlandPlateFields(
    /// Bay, counted from 0.
    bay: usize,
    /// Which plate, counted from 0.
    plate: usize,
) -> impl IntoView {
    let editor = use_editor();
    let selected = use_view().selected;
    let fitted =
        editor.part(move |project| project.build.bays.get(bay).and_then(|bay| bay.gland_plates.get(plate)).cloned());
    let about = move || {
        fitted.with(|fitted| {
            let fitted = fitted.as_ref()?;
            let catalogue = editor.catalogue();
            let part = catalogue.gland_plates.get(&fitted.part)?;
            Some(format!("{}, {} knock-outs", part.name, part.knock_outs))
        })
    };
    let used = Signal::derive(move || fitted.with(|fitted| fitted.as_ref().map_or(0, |fitted| fitted.used)));
    let take = move |number: u32| {
        set_bay(editor, bay, |bay| {
            if let Some(plate) = bay.gland_plates.get_mut(plate) {
                plate.used = number;
            }
        })
    };
    let remove = move |_| {
        let taken = set_bay(editor, bay, |bay| {
            if plate < bay.gland_plates.len() {
                bay.gland_plates.remove(plate);
            }
        });
        // The number now means another plate, or none.
        if taken.is_ok() {
            selected.set(None);
        }
    };
    view! {
        <p>{move || about()}</p>
        <div class="form__grid"><CountField label="Knock-outs used" value=used on_commit=take /></div>
        <p class="form__acts"><button type="button" class="press press--quiet" on:click=remove>"Remove"</button></p>
    }
}
