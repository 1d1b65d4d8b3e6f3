//! A weather file dropped on the page.

use leptos::ev;
use leptos::prelude::*;

use super::climate::Climates;

/// Listens for files that are dropped, for as long as the page lives.
pub(super) fn listen(climates: Climates) {
    // A browser that is not told otherwise leaves the page and opens the file.
    let over = window_event_listener(ev::dragover, |event| {
        if has_files(&event) {
            event.prevent_default();
        }
    });
    let drop = window_event_listener(ev::drop, move |event| {
        if !has_files(&event) {
            return;
        }
        event.prevent_default();
        let files = event.data_transfer().and_then(|carried| carried.files());
        let Some(file) = files.and_then(|files| files.get(0)) else { return };
        let name = file.name();
        if name.to_ascii_lowercase().ends_with(".epw") {
            climates.open(file);
        } else {
            climates.refuse(&name, vec!["found another kind of file; allowed here: a weather file, *.epw".to_owned()]);
        }
    });
    on_cleanup(move || {
        over.remove();
        drop.remove();
    });
}

/// Whether files are carried, and not a text or a picture of the page itself.
fn has_files(event: &web_sys::DragEvent) -> bool {
    event.data_transfer().is_some_and(|carried| carried.types().includes(&"Files".into(), 0))
}
