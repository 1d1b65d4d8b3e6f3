//! What is kept on this machine: the project, the view, a catalogue of one's own. A full or forbidden store is told once;
//! nothing is lost by it, since the project can still be saved to a file.

use std::time::Duration;

use catalogue::{Catalogue, Problem};
use leptos::prelude::*;
use project::{FileProblem, Project, from_json, to_json};
use units::System;

use crate::editor::Editor;
use crate::later::Later;
use crate::lean::{RwSignal, effect};
use crate::project_menu::Told;
use crate::view_state::{Sheet, ViewState};

const PROJECT: &str = "baywright.project";
const CATALOGUE: &str = "baywright.catalogue";
const CLIMATE: &str = "baywright.climate";
const UNITS: &str = "baywright.units";
const SHEET: &str = "baywright.sheet";

/// How long after the last edit the project is kept.
const QUIET: Duration = Duration::from_millis(250);

/// The browser's store; `None` where it is forbidden.
fn store() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten()
}

fn kept(name: &str) -> Option<String> {
    store()?.get_item(name).ok().flatten()
}

/// Keeps a text; answers whether it was kept.
fn keep_text(name: &str, text: &str) -> bool {
    store().is_some_and(|store| store.set_item(name, text).is_ok())
}

/// The project kept here, if any.
pub(crate) fn kept_project() -> Option<Result<Project, Vec<FileProblem>>> {
    kept(PROJECT).map(|text| from_json(&text))
}

/// The catalogue of one's own kept here, if any.
pub(crate) fn kept_catalogue(later: &Later) -> Option<Result<Catalogue, Vec<Problem>>> {
    kept(CATALOGUE).map(|text| (later.load)("kept catalogue", &text))
}

/// Whether a catalogue of one's own is kept here.
pub(crate) fn has_catalogue() -> bool {
    kept(CATALOGUE).is_some()
}

/// The text of the catalogue of one's own kept here, if any.
pub(crate) fn own_catalogue() -> Option<String> {
    kept(CATALOGUE)
}

/// The weather file kept here, if any. One that cannot be read is from another version, and is none.
pub(crate) fn kept_climate() -> Option<worker::Climate> {
    serde_json::from_str(&kept(CLIMATE)?).ok()
}

/// Keeps a weather file; answers whether it was kept.
pub(crate) fn keep_climate(climate: &worker::Climate) -> bool {
    serde_json::to_string(climate).is_ok_and(|text| keep_text(CLIMATE, &text))
}

/// Goes back to the brief's own climate.
pub(crate) fn forget_climate() {
    forget(CLIMATE);
}

/// Keeps a catalogue of one's own; answers whether it was kept.
pub(crate) fn keep_catalogue(text: &str) -> bool {
    keep_text(CATALOGUE, text)
}

/// Goes back to the shipped catalogue.
pub(crate) fn forget_catalogue() {
    forget(CATALOGUE);
}

fn forget(name: &str) {
    if let Some(store) = store() {
        // What cannot be removed was never kept.
        let _ = store.remove_item(name);
    }
}

/// Keeps the project after each edit, and the choice of units and sheet; tells once when the store does not take it.
pub(crate) fn keep(editor: Editor, view_state: ViewState, trouble: RwSignal<Option<Told>>) {
    let told = StoredValue::new(false);
    let waiting = StoredValue::new(None::<TimeoutHandle>);
    let write = move || {
        let project = untrack(|| editor.project());
        if !keep_text(PROJECT, &to_json(&project)) && !told.get_value() {
            told.set_value(true);
            trouble.set(Some(Told::unkept()));
        }
    };
    effect(move |before: Option<()>| {
        let _ = editor.project();
        // The first run is the project that was just opened.
        if before.is_some() {
            if let Some(timer) = waiting.get_value() {
                timer.clear();
            }
            waiting.set_value(set_timeout_with_handle(write, QUIET).ok());
        }
    });
    // Leaving the page does not wait for quiet.
    let leaving = window_event_listener(leptos::ev::pagehide, move |_| {
        if waiting.get_value().is_some() {
            write();
        }
    });
    on_cleanup(move || leaving.remove());
    effect(move |before: Option<()>| {
        let units = match view_state.units.get() {
            System::Metric => "metric",
            System::Us => "us",
        };
        let sheet = match view_state.sheet.get() {
            Sheet::System => "system",
            Sheet::Day => "day",
            Sheet::Night => "night",
        };
        if before.is_some() {
            keep_text(UNITS, units);
            keep_text(SHEET, sheet);
        }
    });
}

/// Recalls the choice of units and sheet.
pub(crate) fn recall_view(view_state: ViewState) {
    if kept(UNITS).as_deref() == Some("us") {
        view_state.units.set(System::Us);
    }
    match kept(SHEET).as_deref() {
        Some("day") => view_state.sheet.set(Sheet::Day),
        Some("night") => view_state.sheet.set(Sheet::Night),
        _ => {}
    }
}
