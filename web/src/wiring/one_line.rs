//! The one-line diagram. Pressing a symbol selects what it stands for; what is selected, here or elsewhere, shows its way to
//! the sources.

use leptos::{ev, html, prelude::*};
use units::{Kind, System, Value, show};
use wasm_bindgen::JsCast;

use super::layout::{Drawing, Placed, lay};
use super::symbols::{breaker, symbol};
use super::things::{Thing, all_things, flow_words, on_way};
use crate::bench::PanelOpened;
use crate::charts::space_of;
use crate::editor::use_editor;
use crate::elevations::fitted;
use crate::lean::{Memo, RwSignal, rows, view};
use crate::view_state::{ViewState, use_view};

/// Room for the figure at the right end of a row, px.
const FIGURE: f64 = 66.0;
/// Width of a letter that is not measured, px.
const LETTER: f64 = 7.2;

/// One row as it is drawn.
#[derive(Clone, PartialEq)]
struct Row {
    thing: Thing,
    placed: Placed,
    sources: String,
}

/// The diagram, and the same as a table below.
#[component]
pub(crate) fn OneLine() -> impl IntoView {
    let editor = use_editor();
    let ViewState { selected, units, .. } = use_view();
    let things = all_things(editor);
    let way = Memo::new(move |_| things.with(|things| on_way(things, selected.get())));
    let frame = NodeRef::<html::Div>::new();
    let space = space_of(frame);
    let width = Memo::new(move |_| space.get().width);
    let drawing = Memo::new(move |_| things.with(|things| lay(things, width.get())));
    // The one row that Tab comes to.
    let stop = RwSignal::new(0_usize);
    let stops = Memo::new(move |_| {
        let all = drawing.with(|drawing| drawing.placed.iter().map(|placed| placed.index).collect::<Vec<_>>());
        let wanted = stop.get();
        if all.contains(&wanted) { wanted } else { all.first().copied().unwrap_or_default() }
    });
    let go = move |from: usize, key: &str| -> bool {
        let to =
            things.with_untracked(|things| drawing.with_untracked(|drawing| neighbour(things, drawing, from, key)));
        if let Some(to) = to {
            stop.set(to);
            focus(to);
        }
        to.is_some()
    };
    let listed = move || things.with(|things| drawing.with(|drawing| rows_of(things, drawing)));
    let row = move |row: &Row| {
        let Row { thing, placed, sources } = row.clone();
        let index = placed.index;
        let of = thing.selects();
        let words = words(&thing, &sources, units);
        let named = words.clone();
        let on = move || way.with(|way| way.get(index).copied().unwrap_or_default());
        let press = move || {
            if of.is_some() {
                selected.set(of)
            }
        };
        let class = move || {
            format!(
                "w-row{}{}{}",
                if on() { " w-row--way" } else { "" },
                if of.is_some() && selected.get() == of { " w-row--chosen" } else { "" },
                if thing.trouble.is_some() { " w-row--fails" } else { "" },
            )
        };
        let inside = drawn(&thing, &placed, units);
        view! {
            <g
                id=row_id(index)
                class=class
                role="button"
                tabindex=move || if stops.get() == index { "0" } else { "-1" }
                aria-label=move || words()
                aria-pressed=move || (of.is_some() && selected.get() == of).to_string()
                aria-disabled=of.is_none().then_some("true")
                on:click=move |_| {
                    stop.set(index);
                    press();
                }
                on:keydown=move |event: ev::KeyboardEvent| {
                    if event.ctrl_key() || event.meta_key() || event.alt_key() {
                        return;
                    }
                    let key = event.key();
                    let taken = match key.as_str() {
                        "Enter" | " " => {
                            press();
                            true
                        }
                        "Escape" => {
                            selected.set(None);
                            true
                        }
                        key => go(index, key),
                    };
                    if taken {
                        event.prevent_default();
                        event.stop_propagation();
                    }
                }
            >
                <title>{move || named()}</title>
                {inside}
            </g>
        }
    };
    let row: Box<dyn Fn(&Row) -> AnyView + Send + Sync> = Box::new(row);
    let lines = move || {
        drawing.with(|drawing| {
            let links = drawing.links.iter().map(|link| view! { <path class="w-line" d=link.path.clone() /> });
            view! { {links.collect_view()} }
        })
    };
    let bars = move || {
        drawing.with(|drawing| {
            let bars = drawing.placed.iter().filter_map(|placed| Some((placed.x, placed.y, placed.bar?)));
            let bars = bars.map(|(x, y, end)| view! { <path class="w-bar" d=format!("M{x} {y}V{}", end + 4.0) /> });
            view! { {bars.collect_view()} }
        })
    };
    let marked = move || {
        drawing.with(|drawing| {
            way.with(|way| {
                let on = drawing.links.iter().filter(|link| way.get(link.to).copied().unwrap_or_default());
                on.map(|link| view! { <path class="w-way" d=link.path.clone() /> }).collect_view()
            })
        })
    };
    view! {
        {move || selected.get().is_none().then(|| view! {
            <p class="wiring__say wiring__say--soft">"Press anything to see its way to the source."</p>
        })}
        <div class="wiring" node_ref=frame>
            <svg
                class="wiring__svg"
                width=move || width.get()
                height=move || drawing.with(|drawing| drawing.height)
                role="group"
                aria-label="One-line diagram"
            >
                {move || lines()}
                {move || bars()}
                {move || marked()}
                {rows(listed, row)}
            </svg>
        </div>
        <details class="numbers">
            <summary>"The same as a table"</summary>
            {move || things.with(|things| table(things, units.get()))}
        </details>
    }
}

/// What is selected, how it is fed, and where more is said of it; nothing while nothing is.
#[component]
pub(crate) fn Chosen() -> impl IntoView {
    let things = all_things(use_editor());
    let ViewState { selected, units, .. } = use_view();
    let opened = expect_context::<PanelOpened>();
    move || {
        let of = selected.get();
        let said = things.with(|things| {
            let chosen = things.iter().filter(|thing| of.is_some() && thing.selects() == of);
            let said = chosen.map(|thing| words(thing, &sources(things, thing), units)());
            said.collect::<Vec<_>>().join("; ")
        });
        let said = if said.is_empty() { "What is selected has no part in this".to_owned() } else { said };
        of.is_some().then(|| {
            view! {
                <p class="wiring__say">
                    {said} ". "
                    <button type="button" class="blank" on:click=move |_| opened.open()>"Open its panel"</button> " "
                    <button type="button" class="blank" on:click=move |_| selected.set(None)>"Put away"</button>
                </p>
            }
        })
    }
}

/// What feeds a thing, in words.
fn sources(things: &[Thing], thing: &Thing) -> String {
    let names: Vec<_> = thing.from.iter().filter_map(|from| Some(things.get(*from)?.full.as_str())).collect();
    names.join(" and ")
}

fn rows_of(things: &[Thing], drawing: &Drawing) -> Vec<(String, Row)> {
    let rows = drawing.placed.iter().filter_map(|placed| {
        let thing = things.get(placed.index)?.clone();
        let row = Row { sources: sources(things, &thing), placed: placed.clone(), thing };
        Some((format!("{:?}{:?}{}", row.thing, row.placed, row.sources), row))
    });
    rows.collect()
}

/// A thing in words: what it is, how much it takes or what is wrong with it, and what feeds it.
fn words(thing: &Thing, sources: &str, units: RwSignal<System>) -> impl Fn() -> String + Clone + use<> {
    let (thing, sources) = (thing.clone(), sources.to_owned());
    move || {
        let mut words = thing.name.clone();
        if let Some(figure) = figure_words(&thing, units.get()) {
            words += &format!(" {figure}");
        }
        match (thing.flows, sources.is_empty()) {
            (Some(flows), false) => words += &format!(", {} from {sources}", flow_words(flows)),
            (None, false) => words += &format!(", from {sources}"),
            (_, true) => {}
        }
        words
    }
}

/// What stands at the right end of a row.
fn figure_words(thing: &Thing, units: System) -> Option<String> {
    thing.trouble.map(str::to_owned).or_else(|| power_words(thing, units))
}

/// What it takes, where it takes anything.
fn power_words(thing: &Thing, units: System) -> Option<String> {
    (thing.power > 0.5).then(|| show(Value::new(thing.power, Kind::Power), units).to_string())
}

/// Symbol, name and figure of a row.
fn drawn(thing: &Thing, placed: &Placed, units: RwSignal<System>) -> AnyView {
    let Placed { x, y, name: at, end: right, breaker: guarded, upright, .. } = *placed;
    let place = |x: f64| format!("translate({x} {y})");
    let guard = guarded.map(|x| view! { <g transform=place(x)>{breaker()}</g> });
    let (name, trouble) = (thing.name.clone(), thing.trouble);
    let text = {
        let thing = thing.clone();
        move || {
            let figure = figure_words(&thing, units.get());
            let taken = trouble.map_or(FIGURE, |words| words.len() as f64 * LETTER);
            let room = right - at - figure.as_ref().map_or(0.0, |_| taken);
            view! {
                <rect class="w-hit" x=x - 12.0 y=y - 12.0 width=(right + 14.0 - x).max(24.0) height="24" />
                <text class="w-name" x=at y=y + 4.8>{fitted(&name, room)}</text>
                " "
                {figure.map(|words| view! { <text class="w-figure" x=right y=y + 4.8 text-anchor="end">{words}</text> })}
            }
        }
    };
    view! {
        {text}
        {guard}
        <g transform=place(x)>
            {symbol(thing, upright)}
            {trouble.map(|_| view! { <rect class="w-trouble" x="-11" y="-11" width="22" height="22" /> })}
        </g>
    }
}

/// Where a key leads: up and down the rows, left to what feeds it, right to the first that it feeds.
fn neighbour(things: &[Thing], drawing: &Drawing, from: usize, key: &str) -> Option<usize> {
    let row = drawing.placed.iter().position(|placed| placed.index == from)?;
    let at = |row: usize| drawing.placed.get(row).map(|placed| placed.index);
    match key {
        "ArrowUp" => at(row.checked_sub(1)?),
        "ArrowDown" => at(row + 1),
        "Home" => at(0),
        "End" => at(drawing.placed.len().checked_sub(1)?),
        "ArrowLeft" => things.get(from)?.from.first().copied(),
        "ArrowRight" => {
            let fed = |placed: &&Placed| things.get(placed.index).is_some_and(|thing| thing.from.contains(&from));
            drawing.placed.iter().find(fed).map(|placed| placed.index)
        }
        _ => None,
    }
}

fn row_id(index: usize) -> String {
    format!("one-line-{index}")
}

fn focus(index: usize) {
    let row = document().get_element_by_id(&row_id(index));
    if let Some(row) = row.and_then(|row| row.dyn_into::<web_sys::SvgElement>().ok()) {
        // Focus can only be refused by an element that is gone.
        let _ = row.focus();
    }
}

/// The same as a table.
fn table(things: &[Thing], units: System) -> AnyView {
    let rows = things.iter().map(|thing| {
        let from = thing.trouble.map_or_else(|| sources(things, thing), str::to_owned);
        view! {
            <tr>
                <th scope="row">{thing.full.clone()}</th>
                <td>{from}</td>
                <td>{thing.flows.map(flow_words)}</td>
                <td>{power_words(thing, units)}</td>
            </tr>
        }
    });
    view! {
        <table class="numbers__table wiring__table">
            <thead><tr><th scope="col">"what"</th><th scope="col">"fed from"</th><th scope="col">"with"</th><th scope="col">"takes at most"</th></tr></thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}
