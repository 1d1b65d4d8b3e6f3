//! The cables of a bay and the cable management it has.

use catalogue::{Cables, DeviceKind, Manager};
use geometry::Model;
use project::Place;

use crate::{Case, PlacedDevice};

/// The cables that leave a placed device, where there are any.
pub(crate) fn cables(device: &PlacedDevice<'_>) -> Option<Cables> {
    device.spec.cables.filter(|cables| cables.count > 0)
}

/// Whether the cables of a device run in the cable management beside the rails: those for signals, of devices on rails and
/// shelves. Power and earth are led apart from them: common practice, no source.
pub(crate) fn is_managed(device: &PlacedDevice<'_>) -> bool {
    let beside_rails = matches!(device.fitted.at, Place::Rack { .. } | Place::Shelf { .. });
    beside_rails && matches!(device.spec.kind, DeviceKind::Network | DeviceKind::Fibre | DeviceKind::Compute)
}

/// The devices of a bay whose cables run in its cable management.
pub(crate) fn managed<'a>(
    case: &'a Case,
    model: &'a Model,
    bay: usize,
) -> impl Iterator<Item = (&'a PlacedDevice<'a>, Cables)> {
    case.devices.iter().filter(|device| is_managed(device)).filter_map(move |device| {
        let placed = model.device(device.fitted.id)?;
        Some((device, cables(device)?)).filter(|_| placed.bay == bay)
    })
}

/// The cable management of a bay that the catalogue knows, left then right.
pub(crate) fn managers<'a>(case: &'a Case, bay: usize) -> impl Iterator<Item = &'a Manager> {
    let fitted = case.project.build.bays.get(bay);
    let parts = fitted.into_iter().flat_map(|bay| [&bay.manager_left, &bay.manager_right]);
    parts.flatten().filter_map(|part| case.catalogue.managers.get(part))
}
