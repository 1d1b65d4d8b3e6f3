//! The months at the site: a table that is filled, changed and cleared.

use climate::MONTHS;
use leptos::prelude::*;
use project::{Month, MonthlyMeans};
use units::{Celsius, Kelvins, Kind, Value, read, show_exactly, unit_name};
use wasm_bindgen::JsCast;

use super::set_brief;
use crate::editor::use_editor;
use crate::lean::{RwSignal, view};
use crate::view_state::use_view;

/// A figure of a month: what it is, its kind, and how it is read and set.
type Column = (&'static str, Kind, fn(&Month) -> f64, fn(&mut Month, f64));

const COLUMNS: [Column; 4] = [
    ("Mean air", Kind::Temperature, |m| m.air.0, |m, n| m.air = Celsius(n)),
    ("Daily range", Kind::TemperatureDifference, |m| m.daily_range.0, |m, n| m.daily_range = Kelvins(n)),
    ("Share of a clear sky’s sun", Kind::Ratio, |m| m.clearness, |m, n| m.clearness = n),
    ("Wind", Kind::Speed, |m| m.wind, |m, n| m.wind = n),
];

/// The twelve months.
#[component]
pub(super) fn Months() -> impl IntoView {
    let editor = use_editor();
    let units = use_view().units;
    let said = editor.part(|project| project.brief.months.is_some());
    let wrong = RwSignal::new(String::new());
    let set = move |months: Option<MonthlyMeans>| {
        wrong.set(set_brief(editor, |brief| brief.months = months.map(Box::new)).err().unwrap_or_default());
    };
    let fill = move |_| set(Some(MonthlyMeans::guessed(&editor.project_now().brief)));
    let table = move || {
        let head = COLUMNS.map(|(name, kind, ..)| {
            let unit = move || match unit_name(kind, units.get()) {
                "" => String::new(),
                unit => format!(", {unit}"),
            };
            view! { <th scope="col">{name}{unit}</th> }
        });
        let rows = (0..12)
            .map(|month| {
                let cells = COLUMNS.map(|column| view! { <td><Figure month column wrong /></td> });
                view! { <tr><th scope="row">{MONTHS[month].name}</th>{cells.into_iter().collect_view()}</tr> }
            })
            .collect_view();
        view! {
            <div class="chosen__map" role="group" tabindex="0" aria-label="Months at the site">
                <table class="map">
                    <thead><tr><td></td>{head.into_iter().collect_view()}</tr></thead>
                    <tbody>{rows}</tbody>
                </table>
            </div>
            <p class="field__help" aria-live="polite">{move || wrong.get()}</p>
            <p class="form__acts">
                <button type="button" class="press press--quiet" on:click=move |_| set(None)>"Clear the months"</button>
            </p>
        }
    };
    let none = move || {
        view! {
            <p class="form__say">
                "Nobody has said what the months are like here. Until then the year is guessed from the latitude and the hottest and coldest outdoor air."
            </p>
            <p class="form__acts">
                <button type="button" class="press press--quiet" on:click=fill>"Say each month"</button>
            </p>
        }
    };
    move || if said.get() { table() } else { none() }
}

/// One figure of one month.
#[component]
fn Figure(month: usize, column: Column, wrong: RwSignal<String>) -> impl IntoView {
    let (name, kind, get, set) = column;
    let editor = use_editor();
    let units = use_view().units;
    let value = editor.part(move |project| project.brief.months.as_ref().map(|months| get(&months.0[month])));
    let text = move || {
        value.get().map_or_else(String::new, |number| show_exactly(Value::new(number, kind), units.get()).number)
    };
    let take = move |typed: String| -> Result<(), String> {
        let number = read(&typed, kind, units.get_untracked()).map_err(|error| error.to_string())?;
        set_brief(editor, |brief| {
            if let Some(months) = &mut brief.months {
                set(&mut months.0[month], number);
            }
        })
    };
    let on_change = move |event: leptos::ev::Event| {
        match take(event_target_value(&event)) {
            Ok(()) => wrong.set(String::new()),
            Err(why) => wrong.set(format!("{name}, {}: {why}", MONTHS[month].name)),
        }
        // What was refused, or typed in another way than it is shown, is not left standing.
        if let Some(input) = event.target().and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok()) {
            input.set_value(&text());
        }
    };
    view! {
        <input
            class="map__figure"
            type="text"
            aria-label=format!("{name}, {}", MONTHS[month].name)
            autocomplete="off"
            spellcheck="false"
            prop:value=text
            on:change=on_change
        />
    }
}
