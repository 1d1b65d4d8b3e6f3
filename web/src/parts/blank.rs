//! Blanks: the words and numbers of the sheet that may be changed, in pencil. Each opens its editor in place.

use leptos::{ev, prelude::*};
use units::Kind;

use crate::later::use_arrival;
use crate::lean::{RwSignal, view};
use crate::parts::{Anchor, Choosing, Options, QuantityFieldProps, Sheetlet, TextFieldProps, anchor_of};

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
    let arrival = use_arrival();
    let open = RwSignal::new(None::<Anchor>);
    let field_label = label.clone();
    view! {
        <Pencilled label=label.clone() text open />
        <Sheetlet open label=label.clone()>
            {
                let (label, help) = (field_label.clone(), help.clone());
                arrival.show(move |later| (later.quantity)(QuantityFieldProps {
                    label: label.clone(), kind, value, on_commit, may_be_empty, help: help.clone(), focus: true,
                    on_done: Some(Callback::new(move |()| open.set(None))),
                }))
            }
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
    let arrival = use_arrival();
    let open = RwSignal::new(None::<Anchor>);
    let field_label = label.clone();
    view! {
        <Pencilled label=label.clone() text open />
        <Sheetlet open label=label.clone()>
            {
                let label = field_label.clone();
                arrival.show(move |later| (later.text)(TextFieldProps {
                    label: label.clone(), value,
                    help: String::new(), on_commit, focus: true, on_done: Some(Callback::new(move |()| open.set(None))),
                }))
            }
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
    options: Options,
) -> impl IntoView {
    let arrival = use_arrival();
    let open = RwSignal::new(None::<Anchor>);
    let list_label = label.clone();
    view! {
        <Pencilled label=label.clone() text open />
        <Sheetlet open label=label.clone()>
            {
                let label = list_label.clone();
                arrival.show(move |later| (later.choice)(Choosing { label: label.clone(), options, open }))
            }
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
