//! The rooms of a case, and the limits of the air in them.
//!
//! Inlet air of a device is the air of its room: rooms are mixed, and nothing is added for air that comes back to its own
//! inlet. In the plinth it is outdoor air.

use project::ItemId;

use super::Room;
use crate::heat::heat_sources::{Room as Place, room};
use crate::heat::walls::{compartment_name, compartments};
use crate::{Case, PlacedDevice};

/// Limits of one device that stands in a room, or in the plinth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Its number.
    pub id: ItemId,
    /// The room, counted from 0; none is the plinth.
    pub room: Option<usize>,
    /// The most its inlet air may have, °C.
    pub most: Option<f64>,
    /// The least, °C.
    pub least: Option<f64>,
}

/// The devices that are placed and have a limit.
#[must_use]
pub fn limits(case: &Case) -> Vec<Limits> {
    let of = |device: &PlacedDevice<'_>| {
        let room = match room(case, device)? {
            Place::Compartment(index) => Some(index),
            Place::Plinth => None,
        };
        let (most, least) = (device.spec.inlet_max.map(|t| t.0), device.spec.inlet_min.map(|t| t.0));
        let limited = most.is_some() || least.is_some();
        limited.then_some(Limits { id: device.fitted.id, room, most, least })
    };
    case.devices.iter().filter_map(of).collect()
}

/// The rooms with the limits that count in them.
#[must_use]
pub fn rooms(case: &Case, limits: &[Limits]) -> Vec<Room> {
    (0..compartments(case))
        .map(|index| {
            let mut room = Room {
                name: compartment_name(case, index).shown(units::System::Metric),
                hot_limit: None,
                hot_device: None,
                cold_limit: case.project.brief.keep_above.0,
                cold_device: None,
            };
            for device in limits.iter().filter(|device| device.room == Some(index)) {
                if let Some(most) = device.most
                    && room.hot_limit.is_none_or(|limit| most < limit)
                {
                    (room.hot_limit, room.hot_device) = (Some(most), Some(device.id));
                }
                if let Some(least) = device.least
                    && least > room.cold_limit
                {
                    (room.cold_limit, room.cold_device) = (least, Some(device.id));
                }
            }
            room
        })
        .collect()
}
