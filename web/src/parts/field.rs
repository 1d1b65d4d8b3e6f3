//! Fields: a written line, not a box. A quantity is typed freely; what was read stands below it.

use std::sync::atomic::{AtomicUsize, Ordering};

use leptos::{ev, html, prelude::*};
use units::{Kind, System, Value, read, show, show_exactly};

use crate::lean::{RwSignal, effect, view};
use crate::view_state::use_view;

/// What a quantity field hands over: a number in the kind's base unit, or nothing when it was cleared.
pub type Typed = Option<f64>;

/// A name for the help below one field, so that it describes the field without becoming part of its name.
fn help_id() -> String {
    static NEXT: AtomicUsize = AtomicUsize::new(0);
    format!("help-{}", NEXT.fetch_add(1, Ordering::Relaxed))
}

/// A field for a quantity. It is taken on Enter or when left; what cannot be read or is refused says so and keeps the old value.
#[component]
pub fn QuantityField(
    /// Its label.
    #[prop(into)]
    label: String,
    /// Kind of quantity.
    kind: Kind,
    /// The value, in the kind's base unit; `None` when nobody has said.
    #[prop(into)]
    value: Signal<Option<f64>>,
    /// Takes a new value (`None`: cleared) and answers why it does not.
    #[prop(into)]
    on_commit: Callback<Typed, Result<(), String>>,
    /// Whether it may be left empty.
    #[prop(default = false)]
    may_be_empty: bool,
    /// Help below, while nothing is wrong.
    #[prop(into, default = String::new())]
    help: String,
    /// Whether it takes the focus when it appears.
    #[prop(default = false)]
    focus: bool,
    /// Called when a value was taken by Enter.
    #[prop(into, optional)]
    on_done: Option<Callback<()>>,
) -> impl IntoView {
    let view_state = use_view();
    let units = view_state.units;
    let typed = RwSignal::new(None::<String>);
    let wrong = RwSignal::new(None::<String>);
    let input = input_that_takes(focus);
    let exact = move |number: f64, units: System| show_exactly(Value::new(number, kind), units);
    let text = move || {
        typed.get().unwrap_or_else(|| value.get().map_or_else(String::new, |number| exact(number, units.get()).number))
    };
    let commit = move || -> bool {
        // A field that is taken down with its dialog is left too, after its signals are gone.
        let Some(text) = typed.try_get_untracked().flatten() else { return true };
        if text.trim().is_empty() {
            if may_be_empty {
                let taken = on_commit.run(None);
                return settle(taken, typed, wrong);
            }
            typed.set(None);
            return true;
        }
        match read(&text, kind, units.get_untracked()) {
            Ok(number) => settle(on_commit.run(Some(number)), typed, wrong),
            Err(error) => {
                wrong.set(Some(error.to_string()));
                false
            }
        }
    };
    let on_key = move |event| key_in_field(&event, typed, wrong, commit, on_done);
    let below = move || {
        if let Some(wrong) = wrong.get() {
            return wrong;
        }
        if let Some(text) = typed.get() {
            return match read(&text, kind, units.get()) {
                Ok(number) => format!("reads as {}", exact(number, units.get())),
                Err(_) if text.trim().is_empty() => help.clone(),
                Err(error) => error.to_string(),
            };
        }
        match value.get() {
            Some(number) if help.is_empty() => other_unit(Value::new(number, kind), units.get()),
            _ => help.clone(),
        }
    };
    let named = label.clone();
    let below_id = help_id();
    let described = below_id.clone();
    view! {
        <label
            class="field"
            class:field--kept=move || wrong.get().is_some()
            class:field--blank=move || value.get().is_none() && typed.get().is_none()
        >
            <span class="field__label">{label}</span>
            <span class="field__line">
                <input
                    node_ref=input
                    class="field__value"
                    type="text"
                    aria-label=named
                    aria-describedby=described
                    autocomplete="off"
                    spellcheck="false"
                    prop:value=move || text()
                    aria-invalid=move || wrong.get().is_some().to_string()
                    on:input=move |event| {
                        wrong.set(None);
                        typed.set(Some(event_target_value(&event)));
                    }
                    on:blur=move |_| {
                        commit();
                    }
                    on:keydown=on_key
                />
                <span class="field__unit">{move || units::unit_name(kind, units.get())}</span>
            </span>
            <span id=below_id class="field__help" aria-live="polite">{move || below()}</span>
        </label>
    }
}

/// A field for a quantity, as the table of what comes later holds it.
pub(crate) fn quantity_field(props: QuantityFieldProps) -> AnyView {
    QuantityField(props).into_any()
}

/// A field for words, as the table of what comes later holds it.
pub(crate) fn text_field(props: TextFieldProps) -> AnyView {
    TextField(props).into_any()
}

/// A field for words.
#[component]
pub fn TextField(
    /// Its label.
    #[prop(into)]
    label: String,
    /// The text.
    #[prop(into)]
    value: Signal<String>,
    /// Takes a new text and answers why it does not.
    #[prop(into)]
    on_commit: Callback<String, Result<(), String>>,
    /// Help below, while nothing is wrong.
    #[prop(into, default = String::new())]
    help: String,
    /// Whether it takes the focus when it appears.
    #[prop(default = false)]
    focus: bool,
    /// Called when a text was taken by Enter.
    #[prop(into, optional)]
    on_done: Option<Callback<()>>,
) -> impl IntoView {
    let typed = RwSignal::new(None::<String>);
    let wrong = RwSignal::new(None::<String>);
    let input = input_that_takes(focus);
    // A field that is taken down with its dialog is left too, after its signals are gone.
    let commit =
        move || typed.try_get_untracked().flatten().is_none_or(|text| settle(on_commit.run(text), typed, wrong));
    let on_key = move |event| key_in_field(&event, typed, wrong, commit, on_done);
    let named = label.clone();
    let below_id = help_id();
    let described = below_id.clone();
    view! {
        <label class="field" class:field--kept=move || wrong.get().is_some()>
            <span class="field__label">{label}</span>
            <span class="field__line">
                <input
                    node_ref=input
                    class="field__value"
                    type="text"
                    aria-label=named
                    aria-describedby=described
                    autocomplete="off"
                    prop:value=move || typed.get().unwrap_or_else(|| value.get())
                    on:input=move |event| {
                        wrong.set(None);
                        typed.set(Some(event_target_value(&event)));
                    }
                    on:blur=move |_| {
                        commit();
                    }
                    on:keydown=on_key
                />
            </span>
            <span id=below_id class="field__help" aria-live="polite">{move || wrong.get().unwrap_or_else(|| help.clone())}</span>
        </label>
    }
}

/// A field for a whole number, with steps.
#[component]
pub fn CountField(
    /// Its label.
    #[prop(into)]
    label: String,
    /// Unit behind it.
    #[prop(into, default = String::new())]
    unit: String,
    /// The number.
    #[prop(into)]
    value: Signal<u32>,
    /// Takes a new number and answers why it does not.
    #[prop(into)]
    on_commit: Callback<u32, Result<(), String>>,
    /// Whether it takes the focus when it appears.
    #[prop(default = false)]
    focus: bool,
) -> impl IntoView {
    let wrong = RwSignal::new(None::<String>);
    let input = input_that_takes(focus);
    let take = move |number: u32| match on_commit.run(number) {
        Ok(()) => wrong.set(None),
        Err(why) => wrong.set(Some(why)),
    };
    let fewer = label.clone();
    let more = label.clone();
    let named = label.clone();
    let help = help_id();
    let described = help.clone();
    view! {
        <div class="field" class:field--kept=move || wrong.get().is_some()>
            <span class="field__label" aria-hidden="true">{label}</span>
            <span class="field__line field__line--steps">
                <button
                    type="button"
                    class="step__btn"
                    aria-label=format!("{fewer}, one less")
                    on:click=move |_| take(value.get_untracked().saturating_sub(1))
                >
                    "−"
                </button>
                <input
                    node_ref=input
                    class="field__value"
                    type="text"
                    inputmode="numeric"
                    autocomplete="off"
                    aria-label=named
                    aria-describedby=described
                    prop:value=move || value.get().to_string()
                    on:change=move |event| {
                        let text = event_target_value(&event);
                        let digits = text.trim().trim_end_matches(['U', 'u']).trim();
                        match digits.parse::<u32>() {
                            Ok(number) => take(number),
                            Err(_) => wrong.set(Some(format!("“{text}” is not a whole number"))),
                        }
                    }
                />
                <span class="field__unit">{unit}</span>
                <button
                    type="button"
                    class="step__btn"
                    aria-label=format!("{more}, one more")
                    on:click=move |_| take(value.get_untracked().saturating_add(1))
                >
                    "+"
                </button>
            </span>
            <span id=help class="field__help" aria-live="polite">{move || wrong.get()}</span>
        </div>
    }
}

fn settle(taken: Result<(), String>, typed: RwSignal<Option<String>>, wrong: RwSignal<Option<String>>) -> bool {
    let refused = taken.err();
    let good = refused.is_none();
    typed.set(None);
    wrong.set(refused);
    good
}

/// Enter takes what was typed, Escape gives it up.
fn key_in_field(
    event: &ev::KeyboardEvent,
    typed: RwSignal<Option<String>>,
    wrong: RwSignal<Option<String>>,
    commit: impl FnOnce() -> bool,
    on_done: Option<Callback<()>>,
) {
    match event.key().as_str() {
        "Enter" => {
            event.prevent_default();
            if commit()
                && let Some(done) = on_done
            {
                done.run(());
            }
        }
        "Escape" if typed.get_untracked().is_some() => {
            event.prevent_default();
            typed.set(None);
            wrong.set(None);
        }
        _ => {}
    }
}

/// The input of a field, which takes the focus when it appears, if it shall.
fn input_that_takes(focus: bool) -> NodeRef<html::Input> {
    let input = NodeRef::<html::Input>::new();
    if focus {
        effect(move |_| {
            if let Some(input) = input.get() {
                // Focus can only be refused by an element that is gone.
                let _ = input.focus();
                input.select();
            }
        });
    }
    input
}

/// The value in the other system, as a help below the field; nothing where both read alike.
fn other_unit(value: Value, units: System) -> String {
    let other = match units {
        System::Metric => System::Us,
        System::Us => System::Metric,
    };
    if units::unit_name(value.kind, units) == units::unit_name(value.kind, other) {
        return String::new();
    }
    show(value, other).to_string()
}
