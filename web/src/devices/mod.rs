//! The devices: what is in the build, what the catalogue offers, and what the customer brings.

mod own;
mod table;

use catalogue::{DeviceKind, Mount, PartId};
use leptos::prelude::*;
use project::{DeviceWhat, Edit, FittedDevice, ItemId, Place, first_free_place};
use rules::bay_letter;
use units::{Kind, System, Value, show};

use crate::editor::{Editor, use_editor};
use crate::lean::{Memo, RwSignal, lower, ordered, view};
use crate::view_state::use_view;
use own::OwnDevice;
use table::PastedTable;

/// The kinds of device, in the order they are listed.
pub(crate) const KINDS: [(DeviceKind, &str, &str); 6] = [
    (DeviceKind::Network, "network", "net"),
    (DeviceKind::Fibre, "fibre", "fibre"),
    (DeviceKind::Compute, "compute", "comp"),
    (DeviceKind::Power, "power", "power"),
    (DeviceKind::Battery, "battery", "batt"),
    (DeviceKind::Cable, "cable", "tray"),
];

/// A kind in words.
pub(crate) fn kind_words(kind: DeviceKind) -> &'static str {
    KINDS.iter().find(|(each, ..)| *each == kind).map_or("", |(_, words, _)| words)
}

/// The class that gives a kind its wash.
pub(crate) fn kind_class(kind: DeviceKind) -> &'static str {
    KINDS.iter().find(|(each, ..)| *each == kind).map_or("", |(.., class)| class)
}

/// Where a device is, in a word or two.
pub(crate) fn place_words(place: Place) -> String {
    match place {
        Place::Rack { bay, rails: project::End::Front, unit, .. } => format!("{} {unit}", bay_letter(bay)),
        Place::Rack { bay, rails: project::End::Rear, unit, .. } => format!("{} rear {unit}", bay_letter(bay)),
        Place::Shelf { .. } => "on a shelf".to_owned(),
        Place::Wall { side: project::Side::Left, .. } => "left wall".to_owned(),
        Place::Wall { side: project::Side::Right, .. } => "right wall".to_owned(),
        Place::Door { bay, .. } => format!("door {}", bay_letter(bay)),
        Place::Floor { plinth: true, .. } => "in the plinth".to_owned(),
        Place::Floor { bay, .. } => format!("floor {}", bay_letter(bay)),
        Place::Unplaced => "not placed".to_owned(),
    }
}

/// Puts devices where they first fit, one after the other, as one undo step.
pub(crate) fn place_all(editor: Editor, devices: impl IntoIterator<Item = DeviceWhat>) -> Result<(), String> {
    editor.begin();
    let mut taken = Ok(());
    for what in devices {
        let project = editor.project_now();
        let catalogue = editor.catalogue_now();
        let spec = match &what {
            DeviceWhat::Own(device) => Some(device.as_ref()),
            DeviceWhat::Part(part) => catalogue.devices.get(part),
        };
        let at = spec.map_or(Place::Unplaced, |spec| first_free_place(&project.build, spec, &catalogue));
        taken = editor.try_apply(&Edit::AddDevice { what, at });
        if taken.is_err() {
            break;
        }
    }
    editor.end();
    taken
}

/// The list of devices.
#[component]
pub fn DeviceList() -> impl IntoView {
    let editor = use_editor();
    let fitted = editor.part(|project| project.build.devices.clone());
    let rows = move || fitted.get().into_iter().map(|device| view! { <DeviceRow device /> }).collect_view();
    view! {
        <div class="form devices">
            <section class="devices__fitted" aria-label="In the build">
                <h2 class="head">{move || match fitted.read().len() {
                    0 => "Nothing in the build yet".to_owned(),
                    1 => "1 device in the build".to_owned(),
                    many => format!("{many} devices in the build"),
                }}</h2>
                <ul>{move || rows()}</ul>
            </section>
            <section class="devices__offered" aria-label="To add">
                <h2 class="head">"From the catalogue"</h2>
                <Offered />
                <h2 class="head">"The customer’s own"</h2>
                <OwnDevice />
                <PastedTable />
            </section>
        </div>
    }
}

/// One device of the build.
#[component]
fn DeviceRow(device: FittedDevice) -> impl IntoView {
    let editor = use_editor();
    let view_state = use_view();
    let FittedDevice { id, what, at } = device;
    let spec = match &what {
        DeviceWhat::Own(own) => Some((**own).clone()),
        DeviceWhat::Part(part) => editor.catalogue().devices.get(part).cloned(),
    };
    let name = spec.as_ref().map_or_else(|| what_name(&what), |spec| spec.name.clone());
    let label = format!("Remove {name}, {}", place_words(at));
    let class = spec.as_ref().map_or("", |spec| kind_class(spec.kind));
    let figures = spec.map(|spec| view! { <Figures spec /> });
    view! {
        <li class="device">
            <span class=format!("device__kind device__kind--{class}")></span>
            <button type="button" class="blank device__name" on:click=move |_| view_state.selected.set(Some(geometry::Of::Device(id)))>{name}</button>
            {figures}
            <span class="device__at">{place_words(at)}</span>
            <button type="button" class="press press--quiet" aria-label=label on:click=move |_| remove(editor, id)>"Remove"</button>
        </li>
    }
}

fn remove(editor: Editor, id: ItemId) {
    editor.apply(&Edit::RemoveDevice(id));
}

fn what_name(what: &DeviceWhat) -> String {
    match what {
        DeviceWhat::Own(device) => device.name.clone(),
        DeviceWhat::Part(part) => part.to_string(),
    }
}

/// Height, power and mass of a device.
#[component]
fn Figures(spec: catalogue::Device) -> impl IntoView {
    let units = use_view().units;
    let (power, mass) = (spec.worst_power(), spec.mass);
    view! {
        <span class="device__units">{size_words(&spec)}</span>
        <span class="device__power">{move || show(power.into(), units.get()).to_string()}</span>
        <span class="device__mass">{move || mass_words(mass, units.get())}</span>
    }
}

fn size_words(spec: &catalogue::Device) -> String {
    match spec.mount {
        Mount::Rack(units) => format!("{units}\u{a0}U"),
        Mount::Shelf => "shelf".to_owned(),
        Mount::Wall => "wall".to_owned(),
        Mount::Door => "door".to_owned(),
        Mount::Floor => "floor".to_owned(),
    }
}

fn mass_words(mass: Option<units::Kilograms>, units: System) -> String {
    mass.map_or_else(|| "mass?".to_owned(), |mass| show(Value::new(mass.0, Kind::Mass), units).to_string())
}

/// What the catalogue offers, narrowed by what is typed.
#[component]
fn Offered() -> impl IntoView {
    let editor = use_editor();
    let wanted = RwSignal::new(String::new());
    let offered = Memo::new(move |_| {
        let wanted = lower(&wanted.get());
        let catalogue = editor.catalogue();
        let matches = |id: &PartId, device: &catalogue::Device| {
            wanted.split_whitespace().all(|word| {
                lower(&device.name).contains(word)
                    || id.as_str().contains(word)
                    || kind_words(device.kind).contains(word)
            })
        };
        let found: Vec<_> = catalogue
            .devices
            .iter()
            .filter(|(id, device)| matches(id, device))
            .map(|(id, device)| (id.clone(), device.clone()))
            .collect();
        ordered(found, |(_, one), (_, other)| one.kind.cmp(&other.kind))
    });
    let wrong = RwSignal::new(None::<String>);
    let rows = move || {
        offered
            .get()
            .into_iter()
            .map(|(id, spec)| {
                let class = kind_class(spec.kind);
                let label = format!("Add {}", spec.name);
                let name = spec.name.clone();
                view! {
                    <li class="device">
                        <span class=format!("device__kind device__kind--{class}")></span>
                        <span class="device__name">{name}</span>
                        <Figures spec />
                        <button type="button" class="press press--quiet" aria-label=label on:click=move |_| {
                            wrong.set(place_all(editor, [DeviceWhat::Part(id.clone())]).err());
                        }>"Add"</button>
                    </li>
                }
            })
            .collect_view()
    };
    view! {
        <label class="field">
            <span class="field__label">"Narrow by name or kind"</span>
            <span class="field__line">
                <input class="field__value" type="search" autocomplete="off" prop:value=move || wanted.get() on:input=move |event| wanted.set(event_target_value(&event)) />
            </span>
        </label>
        <ul class="devices__list" tabindex="0" aria-label="Devices of the catalogue">{move || rows()}</ul>
        <span role="alert">{move || wrong.get()}</span>
    }
}
