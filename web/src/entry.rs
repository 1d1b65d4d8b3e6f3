//! The entry line: what the customer says, typed as it is said, becomes devices.

use leptos::prelude::*;
use project::{DeviceWhat, Edit, Entry, Place, first_free_place, read_entry};
use units::System;

use crate::devices::{place_all, place_words};
use crate::editor::{Editor, use_editor};
use crate::lean::{Memo, RwSignal, view};
use crate::view_state::use_view;

/// The entry line.
#[component]
pub fn EntryLine() -> impl IntoView {
    let editor = use_editor();
    let units = use_view().units;
    let typed = RwSignal::new(String::new());
    let wrong = RwSignal::new(None::<String>);
    let entry = Memo::new(move |_| {
        let text = typed.get();
        (!text.trim().is_empty()).then(|| read_entry(&text, &editor.catalogue()))
    });
    let read = move || match entry.get() {
        _ if wrong.read().is_some() => wrong.get().unwrap_or_default(),
        None => "A device or several, as said: 2x 1U switch 60 W 5 kg, or server 2U 450 W 19 kg.".to_owned(),
        Some(Err(error)) => error.help,
        Some(Ok(entry)) => told(editor, &entry, units.get()),
    };
    let ready = move || matches!(entry.get(), Some(Ok(_)));
    let place = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if let Some(Ok(entry)) = entry.get_untracked() {
            let all = std::iter::repeat_n(entry.what, entry.count as usize);
            match place_all(editor, all) {
                Ok(()) => typed.set(String::new()),
                Err(why) => wrong.set(Some(why)),
            }
        }
    };
    view! {
        <form class="entry" aria-label="Add devices" on:submit=place>
            <label class="entry__label" for="line">"Add"</label>
            <div class="entry__field">
                <input
                    id="line"
                    class="entry__input"
                    spellcheck="false"
                    autocomplete="off"
                    placeholder="2x 1U switch 60 W 5 kg"
                    aria-describedby="read"
                    prop:value=move || typed.get()
                    on:input=move |event| {
                        wrong.set(None);
                        typed.set(event_target_value(&event));
                    }
                />
            </div>
            <p id="read" class="entry__read" aria-live="polite">{move || read()}</p>
            <button type="submit" class="press" disabled=move || !ready()>
                {move || match entry.get() {
                    Some(Ok(entry)) if entry.count > 1 => format!("Place {}", entry.count),
                    _ => "Place".to_owned(),
                }}
            </button>
        </form>
    }
}

/// What was read, what was taken as usual, and how the topics would stand with the first of them in place.
fn told(editor: Editor, entry: &Entry, units: System) -> String {
    let catalogue = editor.catalogue();
    let mut said = format!("{}.", entry.summary(&catalogue).show(units));
    for assumed in &entry.assumed {
        said.push_str(&format!(" {}.", assumed.show(units)));
    }
    let (Some(edit), at) = next_edit(editor, &entry.what) else { return said };
    said.push_str(&format!(" To {}.", place_words(at)));
    if let Some(derived) = editor.tried(&edit) {
        let changed =
            derived.report.badges.iter().zip(&editor.report().badges).filter(|(next, now)| next.said != now.said).fold(
                String::new(),
                |mut words, (badge, _)| {
                    words.push_str(&format!(" {} {}.", badge.topic.name(), badge.said.shown(units)));
                    words
                },
            );
        said.push_str(&changed);
    }
    said
}

/// The edit that places one such device where it first fits, and that place.
fn next_edit(editor: Editor, what: &DeviceWhat) -> (Option<Edit>, Place) {
    let project = editor.project_now();
    let catalogue = editor.catalogue_now();
    let spec = match what {
        DeviceWhat::Own(device) => Some(device.as_ref()),
        DeviceWhat::Part(part) => catalogue.devices.get(part),
    };
    let Some(spec) = spec else { return (None, Place::Unplaced) };
    let at = first_free_place(&project.build, spec, &catalogue);
    (Some(Edit::AddDevice { what: what.clone(), at }), at)
}
