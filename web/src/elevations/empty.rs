//! What stands in the strips before anything is asked. It comes with the second program, as the samples that it offers do.

use leptos::prelude::*;
use project::Edit;

use crate::editor::use_editor;
use crate::lean::view;

/// What stands in the strips before anything is asked.
#[component]
pub(crate) fn Empty() -> impl IntoView {
    let editor = use_editor();
    let samples = project::samples()
        .into_iter()
        .map(|sample| {
            let replace = Edit::Replace(Box::new(sample.project));
            view! {
                <button type="button" class="blank" title=sample.about on:click=move |_| { editor.apply(&replace); }>{sample.name}</button>
            }
        })
        .collect_view();
    view! {
        <div class="elev__empty">
            <p><b>"Nothing is asked yet."</b></p>
            <p>"Write what the customer said, for instance " <code>"2x 1U switch 60 W 5 kg"</code> ", or begin with a finished one:"</p>
            <p class="elev__samples">{samples}</p>
        </div>
    }
}
