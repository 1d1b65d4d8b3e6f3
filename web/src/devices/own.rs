//! A device of the customer's own, written down.

use catalogue::{AirDirection, Chemistry, Device, DeviceKind, Mount, Supply, Trade};
use leptos::prelude::*;
use project::DeviceWhat;
use units::{Celsius, CubicMetresPerHour, Kilograms, Kind, Millimetres, Watts};

use super::{KINDS, place_all};
use crate::editor::use_editor;
use crate::lean::{Memo, RwSignal, view};
use crate::parts::{CountField, QuantityField, TextField, Typed};

/// A device nobody has written anything about yet. Its mass is left open on purpose.
fn blank_device() -> Device {
    Device {
        name: "Device".to_owned(),
        kind: catalogue::DeviceKind::Network,
        mount: Mount::Rack(1),
        width: Millimetres(440.0),
        height: Millimetres(43.66),
        depth: Millimetres(300.0),
        rack: 19,
        four_post: false,
        mass: None,
        power: Watts(0.0),
        power_max: None,
        supply: Supply::WideAc,
        heat_share: 1.0,
        converts: None,
        chemistry: None,
        electrical: catalogue::Electrical::default(),
        inlet_min: None,
        inlet_max: Some(Celsius(55.0)),
        air: AirDirection::FrontToBack,
        airflow: CubicMetresPerHour(0.0),
        face_allowance: Millimetres(80.0),
        back_allowance: Millimetres(80.0),
        fibre_ports: 0,
        splices: 0,
        copper_ports: 0,
        cables: None,
        sound_power: None,
        trade: Trade::default(),
    }
}

/// What the cells of a battery may be made of.
const CELLS: [(Chemistry, &str); 3] =
    [(Chemistry::Lead, "lead"), (Chemistry::Lithium, "lithium iron phosphate"), (Chemistry::Nickel, "nickel")];

/// What the cells of a battery are made of: asked only of a battery.
fn cells_view(device: RwSignal<Device>) -> AnyView {
    let cells = CELLS.map(|(chemistry, words)| {
        view! {
            <button type="button" class="word" aria-pressed=move || (device.read().chemistry == Some(chemistry)).to_string() on:click=move |_| device.update(|device| device.chemistry = Some(chemistry))>
                {words}
            </button>
        }
    });
    view! { <p class="own__kinds" role="group" aria-label="Cells">{cells.into_iter().collect_view()}</p> }
}

/// A form for one device.
#[component]
pub(super) fn OwnDevice() -> impl IntoView {
    let editor = use_editor();
    let device = RwSignal::new(blank_device());
    let wrong = RwSignal::new(None::<String>);
    let number = move |get: fn(&Device) -> Option<f64>| Signal::derive(move || get(&device.read()));
    let set = move |change: fn(&mut Device, Option<f64>)| {
        move |number: Typed| {
            device.update(|device| change(device, number));
            Ok(())
        }
    };
    // By itself, so that a button that was pressed keeps the focus.
    let is_battery = Memo::new(move |_| device.read().kind == DeviceKind::Battery);
    let kinds = KINDS
        .into_iter()
        .map(|(kind, words, _)| {
            view! {
                <button type="button" class="word" aria-pressed=move || (device.read().kind == kind).to_string() on:click=move |_| device.update(|device| {
                    device.kind = kind;
                    if kind != DeviceKind::Battery {
                        device.chemistry = None;
                    }
                })>
                    {words}
                </button>
            }
        })
        .collect_view();
    let add = move |_| match place_all(editor, [DeviceWhat::Own(Box::new(device.get_untracked()))]) {
        Ok(()) => wrong.set(None),
        Err(why) => wrong.set(Some(why)),
    };
    view! {
        <div class="own">
            <div class="form__grid">
                <TextField label="Name" value=Signal::derive(move || device.read().name.clone()) on_commit=move |name: String| {
                    device.update(|device| device.name = name);
                    Ok(())
                } />
                <CountField label="Rack units" unit="U" value=Signal::derive(move || device.read().units().unwrap_or(1)) on_commit=move |units: u32| {
                    if !(1..=48).contains(&units) {
                        return Err("From 1 to 48 U".to_owned());
                    }
                    device.update(|device| device.mount = Mount::Rack(units));
                    Ok(())
                } />
                <QuantityField label="Depth" kind=Kind::Length value=number(|device| Some(device.depth.0)) on_commit=set(|device, number| device.depth = Millimetres(number.unwrap_or_default())) />
                <QuantityField label="Mass" kind=Kind::Mass may_be_empty=true help="Weight waits for it." value=number(|device| device.mass.map(|mass| mass.0)) on_commit=set(|device, number| device.mass = number.map(Kilograms)) />
                <QuantityField label="Most power" kind=Kind::Power value=number(|device| Some(device.worst_power().0)) on_commit=set(|device, number| {
                    device.power = Watts(number.unwrap_or_default());
                    device.power_max = None;
                }) />
                <QuantityField label="Warmest inlet air" kind=Kind::Temperature may_be_empty=true value=number(|device| device.inlet_max.map(|limit| limit.0)) on_commit=set(|device, number| device.inlet_max = number.map(Celsius)) />
            </div>
            <p class="own__kinds" role="group" aria-label="Kind">{kinds}</p>
            {move || is_battery.get().then(|| cells_view(device))}
            <p class="form__acts">
                <button type="button" class="press" on:click=add>"Add it"</button>
                <span role="alert">{move || wrong.get()}</span>
            </p>
        </div>
    }
}
