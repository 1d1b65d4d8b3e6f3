//! A climate unit that is selected: which part, where, and what it moves at which temperatures.

use catalogue::{UnitPlace, UnitSort};
use geometry::Of;
use leptos::prelude::*;
use project::{Edit, Fed, FittedUnit, ItemId, UnitAt};
use rules::Subject;
use units::{Kind, Millimetres};

use super::Panel;
use super::findings::Findings;
use super::unit_map::{Facts, Map};
use crate::build_list::{Part, places_for, unit_place_words};
use crate::editor::use_editor;
use crate::lean::{Memo, effect, view};
use crate::parts::{ChoiceBlank, QuantityField, Typed};
use crate::view_state::use_view;
use crate::wiring::FeedFields;

const fn sort_words(sort: UnitSort) -> &'static str {
    match sort {
        UnitSort::FilterFan => "filter fan",
        UnitSort::Exchanger => "exchanger",
        UnitSort::AirConditioner => "air conditioner",
        UnitSort::Heater => "heater",
    }
}

const fn place_sort(at: UnitAt) -> UnitPlace {
    match at {
        UnitAt::Door { .. } => UnitPlace::Door,
        UnitAt::Side { .. } => UnitPlace::Side,
        UnitAt::Roof { .. } => UnitPlace::Roof,
        UnitAt::Inside { .. } => UnitPlace::Inside,
    }
}

/// The edit that makes a fitted unit another.
fn changed(unit: &FittedUnit, change: impl FnOnce(&mut FittedUnit)) -> Edit {
    let mut to = unit.clone();
    change(&mut to);
    Edit::ChangeUnit { unit: to.id, part: to.part, at: to.at, height: to.height }
}

/// The panel of a climate unit.
#[component]
pub(super) fn UnitPanel(
    /// Which.
    id: ItemId,
) -> impl IntoView {
    let editor = use_editor();
    let view_state = use_view();
    let fitted = editor.part(move |project| project.build.unit(id).cloned());
    let part = Memo::new(move |_| fitted.with(|fitted| editor.catalogue().units.get(&fitted.as_ref()?.part).cloned()));
    // What was removed or undone is no longer there to be shown.
    effect(move |_| {
        if fitted.with(Option::is_none) && view_state.selected.get_untracked() == Some(Of::Unit(id)) {
            view_state.selected.set(None);
        }
    });
    let name = Signal::derive(move || {
        part.with(|part| part.as_ref().map(|part| part.name.clone()))
            .or_else(|| fitted.with(|fitted| fitted.as_ref().map(|fitted| fitted.part.to_string())))
            .unwrap_or_default()
    });
    let place = Signal::derive(move || {
        fitted.with(|fitted| fitted.as_ref().map(|fitted| unit_place_words(fitted.at)).unwrap_or_default())
    });
    let what = Signal::derive(move || {
        let sort = part.with(|part| part.as_ref().map_or("", |part| sort_words(part.sort)));
        format!("{sort}, {}", place.get())
    });
    let parts = Callback::new(move |()| {
        let Some(unit) = fitted.get_untracked() else { return Vec::new() };
        editor
            .catalogue_now()
            .units
            .iter()
            .filter(|(_, part)| part.places.contains(&place_sort(unit.at)))
            .map(|(number, part)| {
                (part.name.clone(), changed(&unit, |unit| unit.part = number.clone()), *number == unit.part)
            })
            .collect()
    });
    let places = Callback::new(move |()| {
        let (Some(unit), Some(part)) = (fitted.get_untracked(), part.get_untracked()) else { return Vec::new() };
        places_for(&part.places, &editor.project_now().build)
            .into_iter()
            .map(|at| (unit_place_words(at), changed(&unit, |unit| unit.at = at), at == unit.at))
            .collect()
    });
    let height = Signal::derive(move || fitted.with(|fitted| fitted.as_ref()?.height.map(|height| height.0)));
    let take_height = move |number: Typed| {
        let Some(unit) = fitted.get_untracked() else { return Ok(()) };
        editor.try_apply(&changed(&unit, |unit| unit.height = number.map(Millimetres)))
    };
    view! {
        <Panel name what>
            <Findings subject=Subject::Unit(id) />
            <dl class="parts">
                <Part name="Unit"><ChoiceBlank label="Unit" text=name options=parts /></Part>
                <Part name="Place"><ChoiceBlank label="Place" text=place options=places /></Part>
            </dl>
            <FeedFields inputs=vec![Fed::Unit(id)] />
            <div class="form__grid">
                <QuantityField
                    label="Lower edge above the floor"
                    kind=Kind::Length
                    may_be_empty=true
                    help="Left open: in the middle of the free height."
                    value=height
                    on_commit=take_height
                />
            </div>
            {move || part.get().map(|part| view! { <Map part=part.clone() /> <Facts part /> })}
            <p class="form__acts">
                <button type="button" class="press press--quiet" on:click=move |_| {
                    editor.apply(&Edit::RemoveUnit(id));
                }>"Remove"</button>
            </p>
        </Panel>
    }
}
