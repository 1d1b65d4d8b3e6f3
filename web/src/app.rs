//! The sheet: what lies where, and what opens over it.

use leptos::prelude::*;

use crate::answered::Answered;
use crate::asked::{AskedSentence, EverythingAsked};
use crate::bench::{Bench, Side};
use crate::build_list::BuildList;
use crate::built::Built;
use crate::charts::{self, Earth};
use crate::devices::DeviceList;
use crate::editor::Editor;
use crate::elevations::Elevations;
use crate::entry::EntryLine;
use crate::lean::{RwSignal, effect, view};
use crate::live::LiveRegion;
use crate::parts::{Anchor, Sheetlet, Stamp};
use crate::project_menu::{Acts, Trouble};
use crate::selection::Selection;
use crate::start;
use crate::title_block::TitleBlock;
use crate::view_state::{Sheet, ViewState};

/// The page.
#[component]
pub fn App() -> impl IntoView {
    let began = start::begin();
    let view_state = ViewState::new();
    let editor = Editor::new(began.project, began.catalogue, view_state.units);
    provide_context(editor);
    provide_context(view_state);
    let trouble = RwSignal::new(began.trouble);
    provide_context(Trouble(trouble));
    if !crate::measure::is_asked() {
        crate::store::keep(editor, view_state, trouble);
    }
    crate::keys::listen(editor);
    crate::measure::offer(editor);
    paint_sheet(view_state.sheet);

    let devices_open = RwSignal::new(None::<Anchor>);
    let asked_open = RwSignal::new(None::<Anchor>);
    let build_open = RwSignal::new(None::<Anchor>);
    let name = editor.part(|project| project.name.clone());
    let selected = view_state.selected;
    let (course, instead) = (charts::course_drawn(), charts::instead());
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
                <Earth course=course instead />
                <Bench>{move || if selected.get().is_some() { view! { <Selection /> } } else { view! { <Side /> } }}</Bench>
                <EntryLine />
            </div>
            <TitleBlock />
        </main>
        <Sheetlet open=devices_open label="Devices" large=true><DeviceList /></Sheetlet>
        <Sheetlet open=asked_open label="Everything asked" large=true><EverythingAsked /></Sheetlet>
        <Sheetlet open=build_open label="The whole build" large=true><BuildList /></Sheetlet>
        {move || editor.refusal().map(|words| view! {
            <div class="message message--refused" role="alert">
                <Stamp outcome=rules::Outcome::Fails size=24 />
                <p>{words}</p>
                <button type="button" class="blank" on:click=move |_| editor.put_refusal_away()>"Put away"</button>
            </div>
        })}
        <LiveRegion />
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
