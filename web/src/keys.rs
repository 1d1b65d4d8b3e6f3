//! Keys that hold for the whole sheet: undo and redo.

use leptos::{ev, prelude::*};
use wasm_bindgen::JsCast;

use crate::editor::Editor;

/// Listens for undo and redo, except while something is being written.
pub(crate) fn listen(editor: Editor) {
    let listener = window_event_listener(ev::keydown, move |event| {
        if !(event.ctrl_key() || event.meta_key()) || is_writing(&event) {
            return;
        }
        match (event.key().to_ascii_lowercase().as_str(), event.shift_key()) {
            ("z", false) => editor.undo(),
            ("z", true) | ("y", _) => editor.redo(),
            _ => return,
        }
        event.prevent_default();
    });
    on_cleanup(move || listener.remove());
}

/// Whether the event comes from a field, whose own undo must keep working.
fn is_writing(event: &web_sys::Event) -> bool {
    event
        .target()
        .and_then(|target| target.dyn_into::<web_sys::Element>().ok())
        .is_some_and(|element| matches!(element.tag_name().as_str(), "INPUT" | "TEXTAREA" | "SELECT"))
}
