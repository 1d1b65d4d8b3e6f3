//! Cabinets for the tests of Power: an entry and loads in round figures.

use catalogue::{Conversion, Device, DeviceKind, Electrical, Role, Supply};
use project::Place;
use units::{Amperes, Watts};

use crate::heat::testing::{Desk, device, rack};

pub(super) fn with_role(name: &str, role: Role) -> Device {
    Device {
        name: name.to_owned(),
        kind: DeviceKind::Power,
        electrical: Electrical { role: Some(role), ..Electrical::default() },
        ..device(1)
    }
}

pub(super) fn panel(positions: u32, amperes: f64) -> Device {
    let role = Role::LoadCentre { positions, amperes: Amperes(amperes), interrupts: Amperes(10_000.0) };
    with_role("Load centre", role)
}

pub(super) fn disconnect(amperes: f64) -> Device {
    with_role("Disconnect", Role::Disconnect { amperes: Amperes(amperes), interrupts: Amperes(22_000.0) })
}

pub(super) fn inlet(amperes: f64) -> Device {
    let role = Role::GeneratorInlet { amperes: Amperes(amperes), configuration: "L14-30".into() };
    with_role("Inlet", role)
}

/// A load centre whose breakers interrupt so many A.
pub(super) fn interrupting(interrupts: f64) -> Device {
    let (amperes, interrupts) = (Amperes(100.0), Amperes(interrupts));
    with_role("Load centre", Role::LoadCentre { positions: 12, amperes, interrupts })
}

/// An inlet with other contacts.
pub(super) fn inlet_of(amperes: f64, configuration: &str) -> Device {
    let configuration = configuration.to_owned();
    with_role("Inlet", Role::GeneratorInlet { amperes: Amperes(amperes), configuration })
}

pub(super) fn interlock() -> Device {
    with_role("Interlock", Role::Interlock { amperes: Amperes(100.0) })
}

pub(super) fn strip(amperes: f64) -> Device {
    let role = Role::OutletStrip { amperes: Amperes(amperes), outlets: 8 };
    Device { supply: Supply::WideAc, ..with_role("Strip", role) }
}

pub(super) fn outlet() -> Device {
    with_role("Outlet", Role::Outlet { amperes: Amperes(20.0), guarded: true })
}

pub(super) fn distribution(ways: u32, amperes: f64) -> Device {
    with_role("Distribution", Role::Distribution { ways, amperes: Amperes(amperes) })
}

pub(super) fn rectifier(watts: f64) -> Device {
    let converts = Some(Conversion { to: Supply::V48Dc, rating: Watts(watts), efficiency: 0.96 });
    let supply = Supply::V230Ac;
    Device { name: "Rectifier".to_owned(), kind: DeviceKind::Power, supply, converts, ..device(1) }
}

pub(super) fn load(watts: f64, supply: Supply) -> Device {
    Device { power: Watts(watts), supply, ..device(1) }
}

/// A desk of these devices, each in a unit of its own from the bottom.
pub(super) fn desk(devices: Vec<Device>) -> Desk {
    let mut desk = Desk::new();
    desk.project.build.units = 60;
    if let Some(family) = desk.catalogue.families.get_mut(&"test".into()) {
        family.heights = vec![60];
    }
    for (at, device) in devices.into_iter().enumerate() {
        desk.add(device, rack(0, at as u32 + 1));
    }
    desk
}

/// A desk whose one device is in no place.
pub(super) fn unplaced_desk(device: Device) -> Desk {
    let mut desk = Desk::new();
    desk.add(device, Place::Unplaced);
    desk
}

#[track_caller]
pub(super) fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6 * expected.abs().max(1.0), "{found} against {expected}");
}
