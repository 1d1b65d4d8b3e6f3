//! Heat that the devices give off, with the losses of what converts power for them.
//!
//! P = Σ power · heat share + Σ load · (1/η − 1) + Σ heat of charging
//!
//! What a converter carries follows from the network of power (`network/flow.rs`): a load that is fed from elsewhere moves
//! its losses there. Loads are devices and, at the hottest hour, climate units. At that hour batteries are on charge as well,
//! as after a failure of the supply.

use project::{ItemId, Place, Side};

use super::walls::compartments;
use crate::network::{Flow, NodeKind, recharge_power};
use crate::{Case, PlacedDevice};

/// Which draw to reckon with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Draw {
    /// The most, for the hottest hour.
    Most,
    /// In ordinary use, for the coldest hour.
    Ordinary,
}

/// Where something gives off its heat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Room {
    /// In a compartment of the body.
    Compartment(usize),
    /// In the plinth, a room of its own at outdoor temperature.
    Plinth,
}

/// Heat of one device.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DeviceHeat {
    /// Its number.
    pub id: ItemId,
    /// Where.
    pub room: Room,
    /// Own heat: power by heat share, and of a battery that of charging, W.
    pub own: f64,
    /// Load it converts power for, W.
    pub load: f64,
    /// Losses of that conversion, W.
    pub losses: f64,
}

/// A load beside the devices: what a climate unit draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnitDraw {
    /// Which.
    pub of: ItemId,
    /// What it draws, W.
    pub power: f64,
}

/// The room a device is in; `None` when it is not placed.
#[must_use]
pub fn room(case: &Case, device: &PlacedDevice<'_>) -> Option<Room> {
    device.space?;
    let last = compartments(case) - 1;
    let place = match device.fitted.at {
        Place::Shelf { shelf, .. } => case.project.build.device(shelf)?.at,
        place => place,
    };
    match place {
        Place::Rack { bay, .. } | Place::Door { bay, .. } | Place::Floor { bay, plinth: false, .. } => {
            Some(Room::Compartment(bay.min(last)))
        }
        Place::Floor { plinth: true, .. } => Some(Room::Plinth),
        Place::Wall { side: Side::Left, .. } => Some(Room::Compartment(0)),
        Place::Wall { side: Side::Right, .. } => Some(Room::Compartment(last)),
        Place::Shelf { .. } | Place::Unplaced => None,
    }
}

/// Heat of every placed device.
#[must_use]
pub fn device_heats(case: &Case, draw: Draw, units: &[UnitDraw]) -> Vec<DeviceHeat> {
    let charging = draw == Draw::Most;
    let flow = Flow::of(case, draw, units, charging);
    let charged = charging && case.network.of_kind(NodeKind::Bus).any(|(_, bus)| !bus.feeds.is_empty());
    let heat = |device: &PlacedDevice<'_>| {
        let room = room(case, device)?;
        let power = match draw {
            Draw::Most => device.spec.worst_power().0,
            Draw::Ordinary => device.spec.power.0,
        };
        let of_charging = if charged { recharge_power(case, device).1 } else { 0.0 };
        let own = power * device.spec.heat_share + of_charging;
        let id = device.fitted.id;
        let node = device.spec.converts.and_then(|_| case.network.node_of(project::Fed::Device(id)));
        let of_node = |column: &[f64]| node.map_or(0.0, |node| column[node]);
        Some(DeviceHeat { id, room, own, load: of_node(&flow.given), losses: of_node(&flow.lost) })
    };
    case.devices.iter().filter_map(heat).collect()
}

#[cfg(test)]
mod tests {
    use catalogue::{Conversion, Device, Supply};
    use units::{Celsius, Watts};

    use super::*;
    use crate::heat::testing::{Desk, device, rack};

    fn powered(watts: f64, supply: Supply) -> Device {
        Device { power: Watts(watts), supply, ..device(1) }
    }

    fn converter(from: Supply, to: Supply, rating: f64, efficiency: f64) -> Device {
        let converts = Some(Conversion { to, rating: Watts(rating), efficiency });
        Device { supply: from, converts, ..device(1) }
    }

    fn check(devices: &[Device], expected: &[(f64, f64)]) {
        let mut desk = Desk::new();
        for (at, device) in devices.iter().enumerate() {
            desk.add(device.clone(), rack(0, at as u32 + 1));
        }
        desk.with(|case| {
            let heats = device_heats(case, Draw::Most, &[]);
            let found: Vec<_> = heats.iter().map(|heat| (heat.own, heat.losses)).collect();
            assert_eq!(found.len(), expected.len());
            for (found, expected) in found.iter().zip(expected) {
                let near = (found.0 - expected.0).abs() < 1e-9 && (found.1 - expected.1).abs() < 1e-9;
                assert!(near, "{found:?} against {expected:?}");
            }
        });
    }

    #[test]
    fn part_of_the_power_may_leave_by_the_antenna() {
        let radio = Device { heat_share: 0.35, power_max: Some(Watts(800.0)), ..powered(500.0, Supply::V48Dc) };
        check(&[radio], &[(280.0, 0.0)]);
    }

    #[test]
    fn a_rectifier_loses_what_its_load_makes_it_lose() {
        // 960 W · (1/0.96 − 1) = 40 W
        let rectifier = converter(Supply::V230Ac, Supply::V48Dc, 4000.0, 0.96);
        check(&[powered(960.0, Supply::V48Dc), rectifier], &[(960.0, 0.0), (0.0, 40.0)]);
    }

    #[test]
    fn two_rectifiers_share_by_rating() {
        let big = converter(Supply::V230Ac, Supply::V48Dc, 3000.0, 0.5);
        let small = converter(Supply::V230Ac, Supply::V48Dc, 1000.0, 0.5);
        check(&[powered(400.0, Supply::V48Dc), big, small], &[(400.0, 0.0), (0.0, 300.0), (0.0, 100.0)]);
    }

    #[test]
    fn an_inverter_loads_the_rectifier_with_its_losses() {
        // Inverter: 900 W · (1/0.9 − 1) = 100 W; rectifier: 1000 W · (1/0.8 − 1) = 250 W.
        let inverter = converter(Supply::V48Dc, Supply::V120Ac, 1000.0, 0.9);
        let rectifier = converter(Supply::V230Ac, Supply::V48Dc, 4000.0, 0.8);
        check(&[powered(900.0, Supply::V120Ac), inverter, rectifier], &[(900.0, 0.0), (0.0, 100.0), (0.0, 250.0)]);
    }

    #[test]
    fn a_converter_carries_at_most_its_rating() {
        let ups = converter(Supply::V120Ac, Supply::V120Ac, 500.0, 0.5);
        check(&[powered(900.0, Supply::V120Ac), ups], &[(900.0, 0.0), (0.0, 500.0)]);
    }

    #[test]
    fn a_device_in_no_place_gives_no_heat() {
        let mut desk = Desk::new();
        desk.add(Device { inlet_max: Some(Celsius(40.0)), ..powered(100.0, Supply::V48Dc) }, Place::Unplaced);
        desk.with(|case| assert!(device_heats(case, Draw::Most, &[]).is_empty()));
    }
}
