//! Devices: adding, moving, changing, taking out.

use catalogue::{Catalogue, Device};

use super::{Refusal, first_refused, known, take_id};
use crate::ranges::{MOST_DEVICES, device_faults, place_faults};
use crate::{Build, DeviceWhat, FittedDevice, ItemId, Place};

pub(super) fn add(build: &mut Build, what: &DeviceWhat, at: Place, catalogue: &Catalogue) -> Result<(), Refusal> {
    if build.devices.len() >= MOST_DEVICES {
        let found = format!("one more than {MOST_DEVICES}");
        return Err(Refusal::new("Devices", found, format!("at most {MOST_DEVICES}"), ""));
    }
    match what {
        DeviceWhat::Part(part) => {
            known("Device", part, &catalogue.devices, "")?;
        }
        DeviceWhat::Own(own) => first_refused(device_faults(own, "", None))?,
    }
    first_refused(place_faults(build, &at, None, ""))?;
    let id = take_id(build)?;
    build.devices.push(FittedDevice { id, what: what.clone(), at });
    Ok(())
}

/// Moves a device. What stands on it goes along; it stays a shelf, held by rails or not placed, while something does.
pub(super) fn put(build: &mut Build, id: ItemId, to: Place) -> Result<(), Refusal> {
    let index = index_of(build, id)?;
    first_refused(place_faults(build, &to, Some(id), ""))
        .map_err(|refusal| Refusal { kept: "its place".into(), ..refusal })?;
    let carries = carried(build, id);
    if carries > 0 && !matches!(to, Place::Rack { .. } | Place::Unplaced) {
        let allowed = format!("on rails while it carries devices: {carries}");
        return Err(Refusal::new("Place", "away from the rails", allowed, "its place"));
    }
    build.devices[index].at = to;
    Ok(())
}

pub(super) fn change(build: &mut Build, id: ItemId, to: &Device, catalogue: &Catalogue) -> Result<(), Refusal> {
    let index = index_of(build, id)?;
    let device = &mut build.devices[index];
    let before = device.resolve(catalogue);
    if before == Some(to) {
        return Ok(());
    }
    first_refused(device_faults(to, "", before))?;
    device.what = DeviceWhat::Own(Box::new(to.clone()));
    Ok(())
}

/// Takes a device out; what stood on it becomes unplaced.
pub(super) fn remove(build: &mut Build, id: ItemId) -> Result<(), Refusal> {
    let index = index_of(build, id)?;
    build.devices.remove(index);
    super::feeds::forget(build, id);
    for device in &mut build.devices {
        if matches!(device.at, Place::Shelf { shelf, .. } if shelf == id) {
            device.at = Place::Unplaced;
        }
    }
    Ok(())
}

fn carried(build: &Build, id: ItemId) -> usize {
    build.devices.iter().filter(|device| matches!(device.at, Place::Shelf { shelf, .. } if shelf == id)).count()
}

fn index_of(build: &Build, id: ItemId) -> Result<usize, Refusal> {
    build
        .devices
        .iter()
        .position(|device| device.id == id)
        .ok_or_else(|| Refusal::new("Device", format!("number {}", id.0), "one that is in the build", ""))
}
