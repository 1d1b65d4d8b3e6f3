//! The devices that are not on rails, as a list.

use leptos::prelude::*;
use project::{ItemId, Place};

use crate::editor::use_editor;
use crate::lean::{Memo, RwSignal, view};
use crate::view_state::use_view;

/// How many of one sort are named before the rest is only counted.
const NAMED: usize = 12;

/// Where a device that is not on rails may be.
const SORTS: [&str; 6] = ["Not placed", "On the wall", "On a door", "On a shelf", "On the floor", "In the plinth"];

/// The sort of a place; none on rails.
const fn sort(at: Place) -> Option<usize> {
    match at {
        Place::Rack { .. } => None,
        Place::Unplaced => Some(0),
        Place::Wall { .. } => Some(1),
        Place::Door { .. } => Some(2),
        Place::Shelf { .. } => Some(3),
        Place::Floor { plinth: false, .. } => Some(4),
        Place::Floor { plinth: true, .. } => Some(5),
    }
}

/// The list.
#[component]
pub(super) fn Loose(
    /// The part that the worst failing finding is about.
    limiting: RwSignal<Option<geometry::Of>>,
) -> impl IntoView {
    let editor = use_editor();
    let sorted = Memo::new(move |_| {
        let (project, catalogue) = (editor.project(), editor.catalogue());
        let mut sorted: [Vec<(ItemId, String)>; SORTS.len()] = std::array::from_fn(|_| Vec::new());
        for device in &project.build.devices {
            if let Some(sort) = sort(device.at) {
                let name = device
                    .resolve(&catalogue)
                    .map_or_else(|| "not in the catalogue".to_owned(), |spec| spec.name.clone());
                sorted[sort].push((device.id, name));
            }
        }
        sorted
    });
    let rows = move || {
        sorted
            .get()
            .into_iter()
            .zip(SORTS)
            .filter(|(devices, _)| !devices.is_empty())
            .map(|(devices, sort)| view! { <Row sort devices limiting /> })
            .collect_view()
    };
    view! { <dl class="elev__loose">{move || rows()}</dl> }
}

/// One sort of place.
#[component]
fn Row(sort: &'static str, devices: Vec<(ItemId, String)>, limiting: RwSignal<Option<geometry::Of>>) -> impl IntoView {
    let selected = use_view().selected;
    let rest = devices.len().saturating_sub(NAMED);
    let buttons = devices
        .into_iter()
        .take(NAMED)
        .enumerate()
        .map(|(index, (id, name))| {
            let of = geometry::Of::Device(id);
            view! {
                {(index > 0).then_some(", ")}
                <button
                    type="button"
                    class="blank"
                    class:elev__chosen=move || selected.get() == Some(of)
                    class:elev__limits=move || limiting.get() == Some(of)
                    aria-pressed=move || (selected.get() == Some(of)).to_string()
                    on:click=move |_| selected.set(Some(of))
                >
                    {name}
                    {move || (limiting.get() == Some(of)).then(|| view! { <span class="sr">", sets the limit"</span> })}
                </button>
            }
        })
        .collect_view();
    view! {
        <div class="elev__sort">
            <dt>{sort}</dt>
            <dd>{buttons}{(rest > 0).then(|| format!(" and {rest} more"))}</dd>
        </div>
    }
}
