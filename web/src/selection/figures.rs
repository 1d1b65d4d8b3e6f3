//! The figures of a device, each a field.

use catalogue::{AirDirection, Device, Mount, Supply};
use leptos::prelude::*;
use units::{Celsius, CubicMetresPerHour, Kilograms, Kind, Millimetres, Watts};

use super::device::Chosen;
use crate::build_list::Part;
use crate::lean::{Memo, view};
use crate::parts::{ChoiceBlank, CountField, QuantityField, Typed};

const SUPPLIES: [(Supply, &str); 6] = [
    (Supply::None, "needs no power"),
    (Supply::V120Ac, "120 V AC"),
    (Supply::V230Ac, "230 V AC"),
    (Supply::WideAc, "100 to 240 V AC"),
    (Supply::V48Dc, "−48 V DC"),
    (Supply::V24Dc, "24 V DC"),
];
const AIRS: [(AirDirection, &str); 4] = [
    (AirDirection::Still, "none of its own"),
    (AirDirection::FrontToBack, "in at the face, out at the back"),
    (AirDirection::BackToFront, "in at the back, out at the face"),
    (AirDirection::SideToSide, "side to side"),
];

/// One figure: its label, its kind, whether it may be left open, and how it is read and written.
struct Figure {
    label: &'static str,
    kind: Kind,
    open: bool,
    get: fn(&Device) -> Option<f64>,
    set: fn(&mut Device, Typed),
}

const fn figure(
    label: &'static str,
    kind: Kind,
    get: fn(&Device) -> Option<f64>,
    set: fn(&mut Device, Typed),
) -> Figure {
    Figure { label, kind, open: false, get, set }
}

const fn open(label: &'static str, kind: Kind, get: fn(&Device) -> Option<f64>, set: fn(&mut Device, Typed)) -> Figure {
    Figure { label, kind, open: true, get, set }
}

const FIGURES: [Figure; 12] = [
    open("Mass", Kind::Mass, |device| device.mass.map(|mass| mass.0), |device, to| device.mass = to.map(Kilograms)),
    figure(
        "Power in ordinary use",
        Kind::Power,
        |device| Some(device.power.0),
        |device, to| {
            device.power = Watts(to.unwrap_or_default());
        },
    ),
    open(
        "Most power",
        Kind::Power,
        |device| device.power_max.map(|power| power.0),
        |device, to| {
            device.power_max = to.map(Watts);
        },
    ),
    figure(
        "Share that becomes heat",
        Kind::Share,
        |device| Some(device.heat_share),
        |device, to| {
            device.heat_share = to.unwrap_or_default();
        },
    ),
    open(
        "Warmest inlet air",
        Kind::Temperature,
        |device| device.inlet_max.map(|limit| limit.0),
        |device, to| {
            device.inlet_max = to.map(Celsius);
        },
    ),
    open(
        "Coldest inlet air",
        Kind::Temperature,
        |device| device.inlet_min.map(|limit| limit.0),
        |device, to| {
            device.inlet_min = to.map(Celsius);
        },
    ),
    figure(
        "Air flow",
        Kind::AirFlow,
        |device| Some(device.airflow.0),
        |device, to| {
            device.airflow = CubicMetresPerHour(to.unwrap_or_default());
        },
    ),
    figure(
        "Depth",
        Kind::Length,
        |device| Some(device.depth.0),
        |device, to| {
            device.depth = Millimetres(to.unwrap_or_default());
        },
    ),
    figure(
        "Width",
        Kind::Length,
        |device| Some(device.width.0),
        |device, to| {
            device.width = Millimetres(to.unwrap_or_default());
        },
    ),
    figure(
        "Height",
        Kind::Length,
        |device| Some(device.height.0),
        |device, to| {
            device.height = Millimetres(to.unwrap_or_default());
        },
    ),
    figure(
        "Room before the face",
        Kind::Length,
        |device| Some(device.face_allowance.0),
        |device, to| {
            device.face_allowance = Millimetres(to.unwrap_or_default());
        },
    ),
    figure(
        "Room behind",
        Kind::Length,
        |device| Some(device.back_allowance.0),
        |device, to| {
            device.back_allowance = Millimetres(to.unwrap_or_default());
        },
    ),
];

/// The counts of a device: label, read, write.
type Count = (&'static str, fn(&Device) -> u32, fn(&mut Device, u32));

const COUNTS: [Count; 3] = [
    ("Fibre ports", |device| device.fibre_ports, |device, to| device.fibre_ports = to),
    ("Splices", |device| device.splices, |device, to| device.splices = to),
    ("Copper ports", |device| device.copper_ports, |device, to| device.copper_ports = to),
];

/// The figures of a device.
#[component]
pub(super) fn Figures(
    /// The device.
    chosen: Chosen,
) -> impl IntoView {
    let racked = Memo::new(move |_| chosen.spec.with(|spec| spec.as_ref().is_some_and(|spec| spec.units().is_some())));
    let units = move || {
        racked.get().then(|| {
            let value =
                Signal::derive(move || chosen.spec.with(|spec| spec.as_ref().and_then(Device::units)).unwrap_or(1));
            let take = move |units: u32| chosen.change(|device| device.mount = Mount::Rack(units));
            view! { <CountField label="Rack units" unit="U" value on_commit=take /> }
        })
    };
    let fields = move || {
        let racked = racked.get();
        FIGURES
            .iter()
            // The height of a rack device follows from its units.
            .filter(move |figure| !(racked && figure.label == "Height"))
            .map(|figure| {
                let get = figure.get;
                let set = figure.set;
                let value = Signal::derive(move || chosen.spec.with(|spec| spec.as_ref().and_then(get)));
                view! {
                    <QuantityField
                        label=figure.label
                        kind=figure.kind
                        may_be_empty=figure.open
                        value
                        on_commit=move |number: Typed| chosen.change(|device| set(device, number))
                    />
                }
            })
            .collect_view()
    };
    let counts = COUNTS
        .map(|(label, get, set)| {
            let value = Signal::derive(move || chosen.spec.with(|spec| spec.as_ref().map_or(0, get)));
            view! { <CountField label value on_commit=move |number: u32| chosen.change(|device| set(device, number)) /> }
        })
        .collect_view();
    view! {
        <div class="form__grid">{move || units()}{move || fields()}{counts}</div>
        <dl class="parts">
            <Part name="Runs on">
                <ChoiceBlank
                    label="Runs on"
                    text=chosen.words(&SUPPLIES, |device| device.supply)
                    options=chosen.options(&SUPPLIES, |device| device.supply, |device, supply| device.supply = supply)
                />
            </Part>
            <Part name="Its own air">
                <ChoiceBlank
                    label="Its own air"
                    text=chosen.words(&AIRS, |device| device.air)
                    options=chosen.options(&AIRS, |device| device.air, |device, air| device.air = air)
                />
            </Part>
        </dl>
    }
}
