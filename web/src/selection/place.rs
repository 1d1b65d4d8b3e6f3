//! Where a device is: the fields of its place, and the other places it could go to.

use catalogue::{Catalogue, Device, DeviceKind, Mount};
use geometry::panel_height;
use leptos::prelude::*;
use project::{Build, Edit, End, ItemId, Place, Side, first_free_place, units_needed};
use rules::bay_letter;
use units::{Kind, Millimetres};

use super::device::Chosen;
use super::place_parts::{Axis, end, facing, length_of, set_bay, set_end, set_facing, set_side, side};
use crate::build_list::Part;
use crate::devices::place_words;
use crate::lean::{Memo, view};
use crate::parts::{ChoiceBlank, CountField, QuantityField, Typed};

/// How far in front and from the left something first stands in a plinth that is not made for batteries, mm.
const IN_PLINTH: (Millimetres, Millimetres) = (Millimetres(40.0), Millimetres(20.0));

/// The sorts of place.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sort {
    Rack,
    Shelf,
    Wall,
    Door,
    Floor,
    Plinth,
    Unplaced,
}

const SORTS: [(Sort, &str); 7] = [
    (Sort::Rack, "on the rails"),
    (Sort::Shelf, "on a shelf"),
    (Sort::Wall, "on a wall"),
    (Sort::Door, "on a door"),
    (Sort::Floor, "on the floor"),
    (Sort::Plinth, "in the plinth"),
    (Sort::Unplaced, "not placed"),
];

const fn sort_of(at: &Place) -> Sort {
    match at {
        Place::Rack { .. } => Sort::Rack,
        Place::Shelf { .. } => Sort::Shelf,
        Place::Wall { .. } => Sort::Wall,
        Place::Door { .. } => Sort::Door,
        Place::Floor { plinth: false, .. } => Sort::Floor,
        Place::Floor { plinth: true, .. } => Sort::Plinth,
        Place::Unplaced => Sort::Unplaced,
    }
}

/// The first free place of a sort, or none.
fn first_of(sort: Sort, build: &Build, id: ItemId, device: &Device, catalogue: &Catalogue) -> Option<Place> {
    if sort == Sort::Unplaced {
        return Some(Place::Unplaced);
    }
    // Its own place counts as free.
    let mut without = build.clone();
    without.devices.retain(|other| other.id != id);
    let mut asked = device.clone();
    if let Mount::Rack(units) = device.mount {
        asked.height = Millimetres(panel_height(units));
    }
    asked.mount = match sort {
        Sort::Rack => Mount::Rack(units_needed(device)),
        Sort::Shelf => Mount::Shelf,
        Sort::Wall => Mount::Wall,
        Sort::Door => Mount::Door,
        Sort::Floor | Sort::Plinth | Sort::Unplaced => Mount::Floor,
    };
    // Batteries go to the plinth by themselves, other devices do not.
    match sort {
        Sort::Plinth => asked.kind = DeviceKind::Battery,
        Sort::Floor if asked.kind == DeviceKind::Battery => asked.kind = DeviceKind::Power,
        _ => {}
    }
    let found = first_free_place(&without, &asked, catalogue);
    if sort == Sort::Plinth && sort_of(&found) != Sort::Plinth {
        let (along, across) = IN_PLINTH;
        return build.plinth.is_some().then_some(Place::Floor { bay: 0, plinth: true, across, along });
    }
    Some(found).filter(|found| sort_of(found) == sort)
}

/// The place of a device, and where else it could go.
#[component]
pub(super) fn PlaceFields(
    /// The device.
    chosen: Chosen,
) -> impl IntoView {
    let at = Memo::new(move |_| chosen.fitted.with(|fitted| fitted.as_ref().map(|fitted| fitted.at)));
    let sort = Memo::new(move |_| at.get().map(|at| sort_of(&at)));
    let options = Callback::new(move |()| {
        let editor = chosen.editor;
        let (project, catalogue) = (editor.project_now(), editor.catalogue_now());
        let (Some(now), Some(device)) = (at.get_untracked(), chosen.now()) else { return Vec::new() };
        SORTS
            .iter()
            .filter_map(|(sort, name)| {
                if sort_of(&now) == *sort {
                    return Some(((*name).to_owned(), Edit::MoveDevice { device: chosen.id, to: now }, true));
                }
                let to = first_of(*sort, &project.build, chosen.id, &device, &catalogue)?;
                let words =
                    if *sort == Sort::Rack { format!("{name}, {}", place_words(to)) } else { (*name).to_owned() };
                Some((words, Edit::MoveDevice { device: chosen.id, to }, false))
            })
            .collect()
    });
    let text = Signal::derive(move || {
        let name = sort.get().and_then(|sort| SORTS.iter().find(|(each, _)| *each == sort));
        name.map_or_else(String::new, |(_, name)| (*name).to_owned())
    });
    let place = Where { chosen, at };
    let fields = move || {
        sort.get().map(|sort| match sort {
            Sort::Rack => view! { <OnRails place /> }.into_any(),
            Sort::Shelf => place.length("From the shelf’s left edge", Axis::Across).into_any(),
            Sort::Wall => view! {
                {place.choice("Wall", &SIDES, side, set_side)}
                {place.length("From the front", Axis::Along)}
                {place.length("Above the floor", Axis::Up)}
            }
            .into_any(),
            Sort::Door => view! {
                {place.bay()}
                {place.choice("Door", &ENDS, end, set_end)}
                {place.length("From the left of the opening", Axis::Across)}
                {place.length("Above the floor", Axis::Up)}
            }
            .into_any(),
            Sort::Floor | Sort::Plinth => view! {
                {place.bay()}
                {place.length("From the left wall", Axis::Across)}
                {place.length("From the front", Axis::Along)}
            }
            .into_any(),
            Sort::Unplaced => ().into_any(),
        })
    };
    view! {
        <dl class="parts"><Part name="Place"><ChoiceBlank label="Move to" text options /></Part></dl>
        <div class="form__grid chosen__place">{move || fields()}</div>
    }
}

const ENDS: [(End, &str); 2] = [(End::Front, "front"), (End::Rear, "rear")];
const SIDES: [(Side, &str); 2] = [(Side::Left, "left"), (Side::Right, "right")];

/// A place that is edited.
#[derive(Clone, Copy)]
struct Where {
    chosen: Chosen,
    at: Memo<Option<Place>>,
}

impl Where {
    fn moved(self, change: impl FnOnce(&mut Place)) -> Option<Edit> {
        let mut to = self.at.get_untracked()?;
        change(&mut to);
        Some(Edit::MoveDevice { device: self.chosen.id, to })
    }

    fn change(self, change: impl FnOnce(&mut Place)) -> Result<(), String> {
        self.moved(change).map_or(Ok(()), |edit| self.chosen.editor.try_apply(&edit))
    }

    /// A field for one length.
    fn length(self, label: &'static str, axis: Axis) -> impl IntoView {
        let value = Signal::derive(move || {
            let mut at = self.at.get()?;
            length_of(&mut at, axis).map(|length| length.0)
        });
        let take = move |number: Typed| {
            self.change(|at| {
                if let (Some(length), Some(number)) = (length_of(at, axis), number) {
                    *length = Millimetres(number);
                }
            })
        };
        view! { <QuantityField label kind=Kind::Length value on_commit=take /> }
    }

    /// A choice of a few words.
    fn choice<T: PartialEq + Copy + Send + Sync + 'static>(
        self,
        label: &'static str,
        all: &'static [(T, &'static str)],
        get: fn(&Place) -> Option<T>,
        set: fn(&mut Place, T),
    ) -> impl IntoView {
        let words = all
            .iter()
            .map(|(value, name)| {
                let value = *value;
                view! {
                    <button
                        type="button"
                        class="word"
                        aria-pressed=move || (self.at.get().as_ref().and_then(get) == Some(value)).to_string()
                        on:click=move |_| {
                            // A refusal is told where all refusals are.
                            let _ = self.change(|at| set(at, value));
                        }
                    >
                        {*name}
                    </button>
                }
            })
            .collect_view();
        view! { <div class="field" role="group" aria-label=label><span class="field__label">{label}</span><span class="chosen__words">{words}</span></div> }
    }

    /// The choice of a bay, where there are several.
    fn bay(self) -> impl IntoView {
        let bays = self.chosen.editor.part(|project| project.build.bays.len());
        let words = move || {
            (0..bays.get())
                .map(|bay| {
                    view! {
                        <button
                            type="button"
                            class="word"
                            aria-pressed=move || (self.at.get().and_then(|at| at.bay()) == Some(bay)).to_string()
                            on:click=move |_| {
                                // A refusal is told where all refusals are.
                                let _ = self.change(|at| set_bay(at, bay));
                            }
                        >
                            {bay_letter(bay).to_string()}
                        </button>
                    }
                })
                .collect_view()
        };
        view! { <div class="field" role="group" aria-label="Bay"><span class="field__label">"Bay"</span><span class="chosen__words">{move || words()}</span></div> }
    }
}

/// The fields of a place on rails.
#[component]
fn OnRails(place: Where) -> impl IntoView {
    let unit = Signal::derive(move || match place.at.get() {
        Some(Place::Rack { unit, .. }) => unit,
        _ => 1,
    });
    let take = move |number: u32| {
        place.change(|at| {
            if let Place::Rack { unit, .. } = at {
                *unit = number;
            }
        })
    };
    view! {
        {place.bay()}
        {place.choice("Rails", &ENDS, end, set_end)}
        {place.choice("Face looks to the", &ENDS, facing, set_facing)}
        <CountField label="Lowest unit" unit="U" value=unit on_commit=take />
        {place.length("Before the rails", Axis::Forward)}
    }
}
