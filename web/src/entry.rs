//! The entry line: what the customer says, typed as it is said, becomes devices.

use leptos::prelude::*;
use project::{DeviceWhat, Edit, Entry, first_free_place, read_entry};
use rules::Phrase;

use crate::editor::{Editor, use_editor};
use crate::view_state::use_view;

/// The entry line.
#[component]
pub fn EntryLine() -> impl IntoView {
    let editor = use_editor();
    let units = use_view().units;
    let typed = RwSignal::new(String::new());
    let entry = Memo::new(move |_| {
        let text = typed.get();
        (!text.trim().is_empty()).then(|| read_entry(&text, &editor.catalogue()))
    });
    let read = move || match entry.get() {
        None => "A device or several, as said: 2x 1U switch 60 W 5 kg, or server 2U 450 W 19 kg.".to_owned(),
        Some(Err(error)) => error.help,
        Some(Ok(entry)) => told(editor, &entry).shown(units.get()),
    };
    let ready = move || matches!(entry.get(), Some(Ok(_)));
    let place = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if let Some(Ok(entry)) = entry.get_untracked() {
            add(editor, &entry);
            typed.set(String::new());
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
                    on:input=move |event| typed.set(event_target_value(&event))
                />
            </div>
            <p id="read" class="entry__read" aria-live="polite">{read}</p>
            <button type="submit" class="press" disabled=move || !ready()>
                {move || match entry.get() {
                    Some(Ok(entry)) if entry.count > 1 => format!("Place {}", entry.count),
                    _ => "Place".to_owned(),
                }}
            </button>
        </form>
    }
}

/// Places the devices one after the other, as one undo step.
fn add(editor: Editor, entry: &Entry) {
    editor.begin();
    for _ in 0..entry.count {
        let edit = next_edit(editor, &entry.what);
        if !edit.is_some_and(|edit| editor.apply(&edit)) {
            break;
        }
    }
    editor.end();
}

fn next_edit(editor: Editor, what: &DeviceWhat) -> Option<Edit> {
    let project = editor.project_now();
    let catalogue = editor.catalogue_now();
    let spec = match what {
        DeviceWhat::Own(device) => device,
        DeviceWhat::Part(part) => catalogue.devices.get(part)?,
    };
    let at = first_free_place(&project.build, spec, &catalogue);
    Some(Edit::AddDevice { what: what.clone(), at })
}

/// What placing would do, in words: how the topics would stand with the first of them in place.
fn told(editor: Editor, entry: &Entry) -> Phrase {
    let name = match &entry.what {
        DeviceWhat::Own(device) => device.name.clone(),
        DeviceWhat::Part(part) => editor.catalogue().devices.get(part).map_or_else(|| part.to_string(), |device| device.name.clone()),
    };
    let mut phrase = Phrase::from(format!("{} × {name}. ", entry.count));
    let would = next_edit(editor, &entry.what).and_then(|edit| editor.tried(&edit));
    if let Some(derived) = would {
        phrase = phrase.text("With one of it: ");
        for (index, badge) in derived.report.badges.iter().enumerate() {
            phrase = phrase.text(if index == 0 { "" } else { ", " }).text(badge.topic.name()).text(" ");
            phrase.0.extend(badge.said.0.iter().cloned());
        }
        phrase = phrase.text(".");
    }
    phrase
}
