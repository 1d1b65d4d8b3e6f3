//! Blanks: the words and numbers of the sheet that may be changed, in pencil. Each opens its editor in place.

use leptos::{ev, prelude::*};
use project::Edit;
use units::Kind;

use crate::editor::use_editor;
use crate::lean::{RwSignal, view};
use crate::parts::{Anchor, Choices, QuantityField, Sheetlet, TextField, anchor_of, judge};

/// A blank that holds a quantity.
#[component]
pub fn QuantityBlank(
    /// What it is, for its label.
    #[prop(into)]
    label: String,
    /// The words that stand on the sheet.
    #[prop(into)]
    text: Signal<String>,
    /// Kind of quantity.
    kind: Kind,
    /// The value.
    #[prop(into)]
    value: Signal<Option<f64>>,
    /// Takes a new value and answers why it does not.
    #[prop(into)]
    on_commit: Callback<Option<f64>, Result<(), String>>,
    /// Whether it may be left empty.
    #[prop(default = false)]
    may_be_empty: bool,
    /// Help below the field.
    #[prop(into, default = String::new())]
    help: String,
) -> impl IntoView {
    let open = RwSignal::new(None::<Anchor>);
    let field_label = label.clone();
    view! {
        <Pencilled label=label.clone() text open />
        <Sheetlet open label=label.clone()>
            <QuantityField
                label=field_label.clone()
                kind
                value
                on_commit
                may_be_empty
                help=help.clone()
                focus=true
                on_done=move |()| open.set(None)
            />
        </Sheetlet>
    }
}

/// A blank that holds words.
#[component]
pub fn TextBlank(
    /// What it is, for its label.
    #[prop(into)]
    label: String,
    /// The words that stand on the sheet.
    #[prop(into)]
    text: Signal<String>,
    /// The words as they are edited.
    #[prop(into)]
    value: Signal<String>,
    /// Takes new words and answers why it does not.
    #[prop(into)]
    on_commit: Callback<String, Result<(), String>>,
) -> impl IntoView {
    let open = RwSignal::new(None::<Anchor>);
    let field_label = label.clone();
    view! {
        <Pencilled label=label.clone() text open />
        <Sheetlet open label=label.clone()>
            <TextField label=field_label.clone() value on_commit focus=true on_done=move |()| open.set(None) />
        </Sheetlet>
    }
}

/// A blank that holds one of several options.
#[component]
pub fn ChoiceBlank(
    /// What it is, for its label.
    #[prop(into)]
    label: String,
    /// The words that stand on the sheet.
    #[prop(into)]
    text: Signal<String>,
    /// The options when it opens: name, edit, whether it is the present one.
    #[prop(into)]
    options: Callback<(), Vec<(String, Edit, bool)>>,
) -> impl IntoView {
    let editor = use_editor();
    let open = RwSignal::new(None::<Anchor>);
    let list_label = label.clone();
    view! {
        <Pencilled label=label.clone() text open />
        <Sheetlet open label=label.clone()>
            <p class="sheetlet__head">{list_label.clone()}</p>
            <Choices
                label=list_label.clone()
                options=judge(editor, options.run(()))
                on_choose=move |edit: Edit| {
                    if editor.apply(&edit) {
                        open.set(None);
                    }
                }
            />
        </Sheetlet>
    }
}

/// The words in pencil, which open the editor.
#[component]
fn Pencilled(label: String, text: Signal<String>, open: RwSignal<Option<Anchor>>) -> impl IntoView {
    view! {
        <button
            type="button"
            class="blank"
            aria-haspopup="dialog"
            aria-label=move || format!("{label}: {}. Change", text.get())
            on:click=move |event: ev::MouseEvent| open.set(Some(anchor_of(&event)))
        >
            {move || text.get()}
        </button>
    }
}
