//! The wire list, the alarm terminals and the places of the ground bars, as the shop wants them.

use geometry::Of;
use leptos::prelude::*;
use project::{Fed, ItemId};
use rules::Case;
use rules::power::circuits::{alarms, ground_places, wire_list};
use units::{Kind, System, Value, show};

use crate::editor::use_editor;
use crate::lean::{Memo, rows, view};
use crate::view_state::{ViewState, use_view};

/// A line of the wire list.
#[derive(Clone, Debug, PartialEq)]
struct Wire {
    label: String,
    from: String,
    to: String,
    size: &'static str,
    colour: &'static str,
    length: Option<f64>,
    lug: &'static str,
    of: Option<Of>,
    leads: String,
}

fn wires(case: &Case) -> Vec<Wire> {
    let all = case.circuits();
    let listed = wire_list(case, all).into_iter().map(|wire| {
        let node = all.circuits.get(wire.circuit).and_then(|circuit| case.network.nodes.get(circuit.node));
        let of = node.and_then(|node| node.of).map(|input| match input {
            Fed::Device(id) | Fed::Second(id) => Of::Device(id),
            Fed::Unit(id) => Of::Unit(id),
        });
        let leads = match of {
            Some(Of::Device(id)) => case.device(id).map_or_else(String::new, |device| device.spec.name.clone()),
            Some(Of::Unit(id)) => {
                let unit = case.units.iter().find(|(fitted, _)| fitted.id == id);
                unit.map_or_else(String::new, |(_, spec)| spec.name.clone())
            }
            _ => String::new(),
        };
        Wire {
            label: wire.label,
            from: wire.from,
            to: wire.to,
            size: wire.size.map_or("none bears it", |size| size.name()),
            colour: wire.colour,
            length: wire.length,
            lug: wire.lug,
            of,
            leads,
        }
    });
    listed.collect()
}

/// The wire list. What is selected is marked in it.
#[component]
pub(crate) fn Wires() -> impl IntoView {
    let editor = use_editor();
    let ViewState { selected, units, .. } = use_view();
    let all = Memo::new(move |_| wires(&Case::new(&editor.project(), &editor.catalogue())));
    let listed = move || all.get().into_iter().enumerate().map(|(at, wire)| (format!("{at}{wire:?}"), wire)).collect();
    let row = move |wire: &Wire| {
        let Wire { label, from, to, size, colour, length, lug, of, leads } = wire.clone();
        let length = move || length.map(|length| show(Value::new(length, Kind::Elevation), units.get()).to_string());
        view! {
            <tr class:wire--chosen=move || of.is_some() && selected.get() == of>
                <th scope="row">{label}</th>
                <td>{from}</td>
                <td>{to}" "<span class="wire__leads">{leads}</span></td>
                <td>{size}</td>
                <td>{colour}</td>
                <td>{lug}</td>
                <td>{move || length().unwrap_or_else(|| "not known".to_owned())}</td>
            </tr>
        }
    };
    view! {
        <p class="wiring__say wiring__say--soft">
            {move || all.with(|all| format!("{} conductors. Lengths run along the ring; colours as the site’s supply has them.", all.len()))}
        </p>
        <div class="numbers">
            <table class="numbers__table wiring__table">
                <caption class="sr">"Wire list"</caption>
                <thead>
                    <tr>
                        <th scope="col">"label"</th><th scope="col">"from"</th><th scope="col">"to"</th>
                        <th scope="col">"size"</th><th scope="col">"colour"</th><th scope="col">"ends"</th>
                        <th scope="col">"length"</th>
                    </tr>
                </thead>
                <tbody>{rows(listed, row)}</tbody>
            </table>
        </div>
    }
}

/// A line of the terminals: number, what it tells or bonds, what it comes from.
type Line = (String, String, String);

fn terminals(case: &Case) -> (Vec<Line>, Vec<Line>) {
    let system = System::Metric;
    let name = |id: Option<ItemId>| {
        let device = id.and_then(|id| case.device(id));
        device.map_or_else(|| "no place is left".to_owned(), |device| case.name(device).shown(system))
    };
    let alarms = alarms(case).into_iter().map(|alarm| {
        let pair = format!("{} and {}", alarm.terminal, alarm.terminal + 1);
        (pair, format!("{}: {}", alarm.from.shown(system), alarm.tells.shown(system)), name(alarm.block))
    });
    let grounds = ground_places(case)
        .into_iter()
        .map(|ground| (ground.place.to_string(), ground.bonds.shown(system), name(ground.bar)));
    (alarms.collect(), grounds.collect())
}

/// Alarm terminals and ground bars.
#[component]
pub(crate) fn Terminals() -> impl IntoView {
    let editor = use_editor();
    let both = Memo::new(move |_| terminals(&Case::new(&editor.project(), &editor.catalogue())));
    let table = |head: &'static str, columns: [&'static str; 3], lines: Vec<Line>| {
        let rows = lines
            .into_iter()
            .map(|(at, what, on)| view! { <tr><th scope="row">{at}</th><td>{what}</td><td>{on}</td></tr> });
        let heads = columns.map(|column| view! { <th scope="col">{column}</th> });
        view! {
            <h4 class="board__head"><b>{head}</b></h4>
            <table class="numbers__table wiring__table">
                <caption class="sr">{head}</caption>
                <thead><tr>{heads}</tr></thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        }
    };
    move || {
        let (alarms, grounds) = both.get();
        view! {
            {table("Alarm terminals", ["terminals", "alarm", "block"], alarms)}
            {table("Ground bars", ["place", "bonds", "bar"], grounds)}
        }
    }
}
