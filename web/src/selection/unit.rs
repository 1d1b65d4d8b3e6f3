//! A climate unit that is selected: which part, where, and what it moves at which temperatures.

use catalogue::{ClimateUnit, UnitMap, UnitPlace, UnitSort};
use geometry::Of;
use leptos::prelude::*;
use project::{Edit, FittedUnit, ItemId, UnitAt};
use rules::Subject;
use units::{Celsius, Kind, Millimetres, Watts, show};

use super::Panel;
use super::findings::Findings;
use crate::build_list::{Part, places_for, unit_place_words};
use crate::editor::use_editor;
use crate::lean::{Memo, effect, view};
use crate::parts::{ChoiceBlank, QuantityField, Typed};
use crate::view_state::use_view;

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
            {move || part.get().map(|part| view! { <Map part /> })}
            <p class="form__acts">
                <button type="button" class="press press--quiet" on:click=move |_| {
                    editor.apply(&Edit::RemoveUnit(id));
                }>"Remove"</button>
            </p>
        </Panel>
    }
}

/// How a unit runs, as it follows "Switches within 5 K".
fn running_words(part: &ClimateUnit) -> String {
    let mut words = String::new();
    let seconds = part.seconds_off();
    if seconds > 0.0 {
        words.push_str(&format!(", stays off at least {seconds}\u{a0}s"));
    }
    if part.sort != UnitSort::Heater {
        words.push_str(if part.input_heats_inside() {
            "; its input heats inside"
        } else {
            "; its input stays outside"
        });
    }
    words
}

/// What a unit moves: its map, and the points its maker rates it at.
#[component]
fn Map(part: ClimateUnit) -> impl IntoView {
    let units = use_view().units;
    let running = running_words(&part);
    let hysteresis = part.hysteresis;
    let soiled = (part.soiled_share < 1.0).then_some(part.soiled_share);
    let ClimateUnit { sort, map, rated, keeps, airflow, .. } = part;
    let verb = if sort == UnitSort::Heater { "Heat given" } else { "Heat moved out" };
    let shown = move |value: units::Value| show(value, units.get()).to_string();
    let UnitMap { inside, outside, capacity, .. } = map;
    let head = outside
        .into_iter()
        .map(|degrees| view! { <th scope="col">{move || shown(Celsius(degrees).into())}</th> })
        .collect_view();
    let rows = inside
        .into_iter()
        .zip(capacity)
        .map(|(degrees, row)| {
            let cells =
                row.into_iter().map(|watts| view! { <td>{move || shown(Watts(watts).into())}</td> }).collect_view();
            view! { <tr><th scope="row">{move || shown(Celsius(degrees).into())}</th>{cells}</tr> }
        })
        .collect_view();
    let rated = rated
        .into_iter()
        .map(|point| {
            view! {
                <li>
                    {move || {
                        let (capacity, inside, outside) = (shown(point.capacity.into()), shown(point.inside.into()), shown(point.outside.into()));
                        format!("Rated {capacity} at {inside} inside, {outside} outside")
                    }}
                </li>
            }
        })
        .collect_view();
    view! {
        <div class="chosen__map" role="group" tabindex="0" aria-label="Capacity">
            <table class="map">
                <caption>{verb}" at sea level; rows: air inside, columns: air outside"</caption>
                <thead><tr><td></td>{head}</tr></thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
        <ul class="chosen__facts">
            {rated}
            <li>{move || format!("Moves {} of inside air", shown(airflow.into()))}</li>
            {soiled.map(|share| {
                let left = move || shown(units::Value::new(share, Kind::Share));
                view! { <li>{move || format!("Keeps {} of it with a soiled filter", left())}</li> }
            })}
            <li>{move || format!("Switches within {}{running}", shown(hysteresis.into()))}</li>
            <li>{format!("Keeps weather rating {keeps}")}</li>
        </ul>
    }
}
