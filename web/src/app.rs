//! The sheet: what lies where, and what opens over it.

use leptos::prelude::*;

use crate::answered::Answered;
use crate::asked::AskedSentence;
use crate::built::Built;
use crate::course::Climates;
use crate::editor::Editor;
use crate::elevations::Elevations;
use crate::later::Arrival;
use crate::lean::{RwSignal, effect, view};
use crate::parts::{Anchor, Sheetlet, Stamp};
use crate::project_menu::{Acts, Trouble};
use crate::start::{self, Began};
use crate::title_block::TitleBlock;
use crate::view_state::{Sheet, ViewState};

/// The page. What it is to begin with may need the rest of the program; then that comes first.
#[component]
pub fn App() -> impl IntoView {
    let arrival = Arrival::new();
    provide_context(arrival);
    if start::waits() {
        arrival.show(move |later| view! { <Page arrival began=start::begin(Some(later)) /> })
    } else {
        view! { <Page arrival began=start::begin(None) /> }
    }
}

/// The sheet and what opens over it.
#[component]
fn Page(arrival: Arrival, began: Began) -> impl IntoView {
    let view_state = ViewState::new();
    crate::store::recall_view(view_state);
    let editor = Editor::new(began.project, began.catalogue, view_state.units, arrival);
    provide_context(editor);
    provide_context(view_state);
    let trouble = RwSignal::new(began.trouble);
    provide_context(Trouble(trouble));
    provide_context(Climates::new(trouble));
    crate::keys::listen(editor);
    effect(move |_| {
        if let Some(later) = arrival.here() {
            untrack(|| (later.attend)(editor, view_state, trouble));
            editor.catch_up();
        }
    });
    arrival.ask_when_painted();
    paint_sheet(view_state.sheet);

    let devices_open = RwSignal::new(None::<Anchor>);
    let asked_open = RwSignal::new(None::<Anchor>);
    let build_open = RwSignal::new(None::<Anchor>);
    let name = editor.part(|project| project.name.clone());
    view! {
        <main class="sheet">
            <h1 class="sr">{move || format!("Baywright: {}", name.get())}</h1>
            <AskedSentence
                on_devices=move |()| devices_open.set(Some(Anchor::default()))
                on_more=move |()| asked_open.set(Some(Anchor::default()))
            />
            <Acts />
            <Elevations on_devices=move |()| devices_open.set(Some(Anchor::default())) />
            <Built on_all=move |()| build_open.set(Some(Anchor::default())) />
            <Answered />
            <div class="under">
                {arrival.show_when_here(|later| (later.under)())}
            </div>
            <TitleBlock />
        </main>
        <Sheetlet open=devices_open label="Devices" large=true>{arrival.show(|later| (later.devices)())}</Sheetlet>
        <Sheetlet open=asked_open label="Everything asked" large=true>{arrival.show(|later| (later.asked)())}</Sheetlet>
        <Sheetlet open=build_open label="The whole build" large=true>{arrival.show(|later| (later.build)())}</Sheetlet>
        {move || editor.refusal().map(|words| view! {
            <div class="message message--refused" role="alert">
                <Stamp outcome=rules::Outcome::Fails size=24 />
                <p>{words}</p>
                <button type="button" class="blank" on:click=move |_| editor.put_refusal_away()>"Put away"</button>
            </div>
        })}
        {move || arrival.here().map(|later| (later.live)())}
    }
}

/// Sets the sheet's colours on the document; the system's own when nothing is chosen.
fn paint_sheet(sheet: RwSignal<Sheet>) {
    effect(move |_| {
        let Some(root) = document().document_element() else { return };
        // Setting or removing an attribute of this name cannot fail.
        let _ = match sheet.get() {
            Sheet::System => root.remove_attribute("data-sheet"),
            Sheet::Day => root.set_attribute("data-sheet", "day"),
            Sheet::Night => root.set_attribute("data-sheet", "night"),
        };
    });
}
