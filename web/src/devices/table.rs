//! A pasted table of devices.

use leptos::prelude::*;
use project::read_table;

use super::place_all;
use crate::editor::use_editor;
use crate::lean::{Memo, RwSignal, view};

/// A field to paste a table into.
#[component]
pub(super) fn PastedTable() -> impl IntoView {
    let editor = use_editor();
    let text = RwSignal::new(String::new());
    let wrong = RwSignal::new(None::<String>);
    let read = Memo::new(move |_| read_table(&text.get(), &editor.catalogue()));
    let said = move || {
        if text.read().trim().is_empty() {
            return String::new();
        }
        let (entries, problems) = read.get();
        let devices: u32 = entries.iter().map(|entry| entry.count).sum();
        let mut said = format!("{devices} devices read.");
        for problem in problems.iter().take(4) {
            said.push_str(&format!(" {problem}"));
        }
        if problems.len() > 4 {
            said.push_str(&format!(" And {} rows more.", problems.len() - 4));
        }
        said
    };
    let place = move |_| {
        let (entries, _) = read.get_untracked();
        let all = entries.into_iter().flat_map(|entry| std::iter::repeat_n(entry.what, entry.count as usize));
        match place_all(editor, all) {
            Ok(()) => {
                wrong.set(None);
                text.set(String::new());
            }
            Err(why) => wrong.set(Some(why)),
        }
    };
    view! {
        <label class="field paste">
            <span class="field__label">"Or paste a table with a head row: name, U, W, kg, depth"</span>
            <textarea class="paste__text" rows="4" spellcheck="false" prop:value=move || text.get() on:input=move |event| text.set(event_target_value(&event))></textarea>
            <span class="field__help" aria-live="polite">{move || said()}</span>
        </label>
        <p class="form__acts">
            <button type="button" class="press press--quiet" disabled=move || read.read().0.is_empty() on:click=place>"Add the table"</button>
            <span role="alert">{move || wrong.get()}</span>
        </p>
    }
}
