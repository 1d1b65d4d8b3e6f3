//! Where a device would go.
//!
//! A proposal, not a judgement: whether doors, cables and air have room is for the checks, which know the geometry.

mod flat;

use catalogue::{Catalogue, Device, DeviceKind, Mount, RACK_UNIT};
use units::Millimetres;

use crate::{Bay, BayRole, Build, End, FittedDevice, ItemId, Place, RailWidth};

/// For each bay, the units its devices take on the front or rear rails: (device index, first unit, units).
#[must_use]
pub fn rack_positions(build: &Build, catalogue: &Catalogue) -> Vec<Vec<(usize, u32, u32)>> {
    let mut positions = vec![Vec::new(); build.bays.len()];
    for (index, device) in build.devices.iter().enumerate() {
        let Place::Rack { bay, unit, .. } = device.at else { continue };
        let Some(of_bay) = positions.get_mut(bay) else { continue };
        of_bay.push((index, unit, units_of_placed(device, catalogue)));
    }
    positions
}

/// Whole units that a device needs between rails.
#[must_use]
pub fn units_needed(device: &Device) -> u32 {
    match device.mount {
        Mount::Rack(units) => units.max(1),
        _ => units_for(device.height),
    }
}

/// Whole units that a height needs.
pub(crate) fn units_for(height: Millimetres) -> u32 {
    (height.0 / RACK_UNIT).ceil().clamp(1.0, 99.0) as u32
}

/// Units a placed device takes; one when the catalogue does not know it.
fn units_of_placed(device: &FittedDevice, catalogue: &Catalogue) -> u32 {
    device.resolve(catalogue).map_or(1, units_needed)
}

/// Up or down the rails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Towards the roof.
    Up,
    /// Towards the floor.
    Down,
}

/// The unit one step from `from`, for moving a device by key. It steps over nothing, so that every place can be reached
/// and the check says what is wrong with it; it stops where the rails end.
#[must_use]
pub fn next_unit(build: &Build, device: &Device, from: u32, way: Way) -> u32 {
    let highest = (build.units + 1).saturating_sub(units_needed(device)).max(1);
    match way {
        Way::Up => from.saturating_add(1),
        Way::Down => from.saturating_sub(1),
    }
    .clamp(1, highest)
}

/// Whether the units from `unit` up are free for a device on these rails, and nothing on the rails of the other end
/// reaches into it.
#[must_use]
pub fn is_free(
    build: &Build,
    device: &Device,
    except: Option<ItemId>,
    (bay, rails, unit): (usize, End, u32),
    catalogue: &Catalogue,
) -> bool {
    let Some(of_bay) = build.bays.get(bay) else { return false };
    let above = unit.saturating_add(units_needed(device));
    if unit < 1 || above > build.units + 1 {
        return false;
    }
    let between_rails = between_rails(build, of_bay, catalogue);
    build.devices.iter().filter(|other| Some(other.id) != except).all(|other| {
        let Place::Rack { bay: its_bay, rails: its_rails, unit: its_unit, forward, .. } = other.at else { return true };
        let apart = its_bay != bay || its_unit >= above || its_unit + units_of_placed(other, catalogue) <= unit;
        let depth = other.resolve(catalogue).map_or(0.0, |spec| spec.depth.0);
        let meet = its_rails == rails || device.depth.0 + depth - forward.0 > between_rails;
        apart || !meet
    })
}

/// From the front to the rear rails, mm.
fn between_rails(build: &Build, bay: &Bay, catalogue: &Catalogue) -> f64 {
    inside_depth(build, catalogue) - bay.front_setback.0 - bay.rear_setback.0
}

fn inside_depth(build: &Build, catalogue: &Catalogue) -> f64 {
    build.depth.0 - 2.0 * catalogue.skins.get(&build.skin).map_or(0.0, |skin| skin.thickness.0)
}

fn inside_height(build: &Build, catalogue: &Catalogue) -> f64 {
    let clear = catalogue.families.get(&build.family).map_or(0.0, |family| family.clear_above.0 + family.clear_below.0);
    f64::from(build.units) * RACK_UNIT + clear
}

/// The first place where a device goes by its size and its bay's role; `Unplaced` when there is none.
///
/// On rails: in front, from the top down for network, fibre and cable parts, from the bottom up for what is heavy. On walls,
/// doors, floors and shelves: the next free spot; batteries go into a battery plinth where there is one.
#[must_use]
pub fn first_free_place(build: &Build, device: &Device, catalogue: &Catalogue) -> Place {
    let found = match device.mount {
        Mount::Rack(_) => on_rails(build, device, catalogue),
        Mount::Shelf => flat::on_a_shelf(build, device, catalogue),
        Mount::Wall => flat::on_a_wall(build, device, catalogue),
        Mount::Door => flat::on_a_door(build, device, catalogue),
        Mount::Floor => flat::on_a_floor(build, device, catalogue),
    };
    found.unwrap_or(Place::Unplaced)
}

fn on_rails(build: &Build, device: &Device, catalogue: &Catalogue) -> Option<Place> {
    let highest = (build.units + 1).checked_sub(units_needed(device))?;
    let top_down = matches!(device.kind, DeviceKind::Network | DeviceKind::Fibre | DeviceKind::Cable);
    bays_for(build, device, true).into_iter().find_map(|bay| {
        let free = |unit: &u32| is_free(build, device, None, (bay, End::Front, *unit), catalogue);
        let unit = if top_down { (1..=highest).rev().find(free) } else { (1..=highest).find(free) }?;
        Some(Place::Rack { bay, rails: End::Front, unit, facing: End::Front, forward: Millimetres(0.0) })
    })
}

/// The bays that take a device, the best first; of equally good ones the left one.
fn bays_for(build: &Build, device: &Device, on_rails: bool) -> Vec<usize> {
    let rank = |bay: &Bay| {
        let adapter = if on_rails { adapter_rank(bay.rails, device.rack)? } else { 0 };
        Some(2 * role_rank(bay.role, device.kind)? + adapter)
    };
    let mut ranked: Vec<(u8, usize)> = Vec::new();
    for (index, bay) in build.bays.iter().enumerate() {
        let Some(rank) = rank(bay) else { continue };
        let at = ranked.partition_point(|(other, _)| *other <= rank);
        ranked.insert(at, (rank, index));
    }
    ranked.into_iter().map(|(_, index)| index).collect()
}

/// 0 where the panel fits as it is, 1 with an adapter from 19 to 23 inch, none where it is too wide.
const fn adapter_rank(rails: RailWidth, panel: u8) -> Option<u8> {
    match (rails, panel) {
        (RailWidth::Nineteen, 23..) => None,
        (RailWidth::TwentyThree, ..23) => Some(1),
        _ => Some(0),
    }
}

/// How well a device suits a bay's role: 0 best; none where it does not belong.
const fn role_rank(role: BayRole, kind: DeviceKind) -> Option<u8> {
    match (role, kind) {
        (BayRole::Battery, DeviceKind::Battery)
        | (BayRole::Passive, DeviceKind::Fibre | DeviceKind::Cable)
        | (BayRole::Active, DeviceKind::Network | DeviceKind::Compute | DeviceKind::Power) => Some(0),
        (BayRole::Mixed, _) => Some(1),
        (BayRole::Active, _) => Some(2),
        (BayRole::Battery | BayRole::Passive, _) => None,
    }
}

#[cfg(test)]
mod tests;
