//! What is selected: everything that can be said and changed about one part, beside its findings.

mod bay_part;
mod device;
mod figures;
mod findings;
mod part;
mod place;
mod place_parts;
mod unit;
mod unit_map;

use geometry::Of;
use leptos::prelude::*;

use crate::lean::{Memo, view};
use crate::view_state::use_view;
use device::DevicePanel;
use part::part_panel;
use unit::UnitPanel;

/// The panel for what is selected.
#[component]
pub fn Selection() -> impl IntoView {
    let selected = use_view().selected;
    let of = Memo::new(move |_| selected.get());
    move || {
        of.get().map(|of| match of {
            Of::Device(id) => view! { <DevicePanel id /> }.into_any(),
            Of::Unit(id) => view! { <UnitPanel id /> }.into_any(),
            other => part_panel(other),
        })
    }
}

/// The frame every panel is set in: its name, what it is, and a way to put it away.
#[component]
fn Panel(
    /// Its name.
    #[prop(into)]
    name: Signal<String>,
    /// What it is, in a few words.
    #[prop(into, default = Signal::derive(String::new))]
    what: Signal<String>,
    /// What is in it.
    children: Children,
) -> impl IntoView {
    let selected = use_view().selected;
    view! {
        <section class="chosen" aria-label=move || format!("Selected: {}", name.get())>
            <header class="chosen__head">
                <h3 class="panel__head">{move || name.get()}<span class="panel__sub">{move || what.get()}</span></h3>
                <button type="button" class="press press--quiet" on:click=move |_| selected.set(None)>"Put away"</button>
            </header>
            {children()}
        </section>
    }
}
