//! Plants to test the checks of Backup on.

use catalogue::{Cells, Chemistry, Conversion, Device, DeviceKind, Electrical, Role, Supply};
use units::{Volts, Watts};

use crate::heat::testing::{Desk, device, rack};

pub(super) fn battery(chemistry: Chemistry, cells: u32, amp_hours: f64) -> Device {
    let cells = Cells { count: cells, amp_hours, rate_hours: 10.0, charge_limit: None, resistance: None };
    Device {
        kind: DeviceKind::Battery,
        chemistry: Some(chemistry),
        electrical: Electrical { cells: Some(cells), ..Electrical::default() },
        ..device(1)
    }
}

pub(super) fn lead(cells: u32, amp_hours: f64) -> Device {
    battery(Chemistry::Lead, cells, amp_hours)
}

pub(super) fn lithium(cells: u32, amp_hours: f64) -> Device {
    battery(Chemistry::Lithium, cells, amp_hours)
}

/// A load on −48 V.
pub(super) fn direct(watts: f64) -> Device {
    Device { power: Watts(watts), supply: Supply::V48Dc, ..device(1) }
}

pub(super) fn converter(from: Supply, to: Supply, rating: f64, efficiency: f64) -> Device {
    let converts = Some(Conversion { to, rating: Watts(rating), efficiency });
    Device { kind: DeviceKind::Power, supply: from, converts, ..device(1) }
}

/// Rectifiers of one module, without a draw of their own.
pub(super) fn rectifier(rating: f64) -> Device {
    converter(Supply::WideAc, Supply::V48Dc, rating, 0.95)
}

pub(super) fn disconnect(opens: f64) -> Device {
    let role = Role::LowVoltageDisconnect { amperes: units::Amperes(200.0), opens: Volts(opens) };
    Device {
        kind: DeviceKind::Power,
        electrical: Electrical { role: Some(role), ..Electrical::default() },
        ..device(1)
    }
}

/// Rectifiers of 10 kW, batteries and loads, all on one bus.
pub(super) fn plant(batteries: Vec<Device>, loads: Vec<Device>) -> Desk {
    let mut desk = Desk::new();
    desk.add(rectifier(10_000.0), rack(0, 1));
    for (at, device) in batteries.into_iter().chain(loads).enumerate() {
        desk.add(device, rack(0, at as u32 + 2));
    }
    desk
}
