//! Free spots on walls, doors, floors and shelves: rectangles side by side on a flat face.

use catalogue::{Catalogue, Device, DeviceKind, Mount, PlinthUse, RACK_UNIT};
use units::Millimetres;

use super::{bays_for, inside_depth, inside_height};
use crate::{Build, Closure, DeviceWhat, End, FittedDevice, Place, Side, UnitAt};

/// Left between two neighbours and to the edges, mm: a hand's finger, common practice, no source.
const GAP: f64 = 20.0;
/// The lowest spot on walls and doors, mm above the floor: clear of cables that come in from below.
const LOWEST: f64 = 300.0;
/// Room behind the front rails that stays free on walls, mm: the ears of the devices reach there.
const BEHIND_RAILS: f64 = 40.0;

/// A rectangle on a face, mm.
#[derive(Clone, Copy)]
struct Spot {
    x: f64,
    y: f64,
    width: f64,
    height: f64,
}

impl Spot {
    fn meets(&self, other: &Self) -> bool {
        self.x < other.x + other.width
            && other.x < self.x + self.width
            && self.y < other.y + other.height
            && other.y < self.y + self.height
    }
}

/// The first free spot in `area`, from its lower left: beside or above what is there.
fn first_free(area: Spot, width: f64, height: f64, taken: &[Spot]) -> Option<(f64, f64)> {
    let mut across = vec![area.x];
    let mut up = vec![area.y];
    for spot in taken {
        across.push(spot.x + spot.width + GAP);
        up.push(spot.y + spot.height + GAP);
    }
    across.sort_unstable_by(f64::total_cmp);
    up.sort_unstable_by(f64::total_cmp);
    let fits = |x: f64, y: f64| {
        let spot = Spot { x, y, width, height };
        x >= area.x
            && y >= area.y
            && x + width <= area.x + area.width
            && y + height <= area.y + area.height
            && !taken.iter().any(|other| other.meets(&spot))
    };
    up.iter().find_map(|&y| across.iter().find(|&&x| fits(x, y)).map(|&x| (x, y)))
}

/// What of the placed devices lies on a face: `on` gives a device's corner there, or nothing.
fn taken(
    build: &Build,
    catalogue: &Catalogue,
    size: fn(&Device) -> (f64, f64),
    on: impl Fn(&FittedDevice) -> Option<(f64, f64)>,
) -> Vec<Spot> {
    let spot = |device: &FittedDevice| {
        let (x, y) = on(device)?;
        let (width, height) = size(device.resolve(catalogue)?);
        Some(Spot { x, y, width, height })
    };
    build.devices.iter().filter_map(spot).collect()
}

fn upright(device: &Device) -> (f64, f64) {
    let height = match device.mount {
        Mount::Rack(units) => f64::from(units) * RACK_UNIT,
        _ => device.height.0,
    };
    (device.width.0, height)
}

fn standing(device: &Device) -> (f64, f64) {
    (device.width.0, device.depth.0)
}

pub(super) fn on_a_wall(build: &Build, device: &Device, catalogue: &Catalogue) -> Option<Place> {
    let (width, height) = upright(device);
    [(Side::Left, build.bays.first()), (Side::Right, build.bays.last())].into_iter().find_map(|(side, bay)| {
        let bay = bay?;
        let from = bay.front_setback.0 + BEHIND_RAILS;
        let area = Spot {
            x: from,
            y: LOWEST,
            width: inside_depth(build, catalogue) - from - GAP,
            height: inside_height(build, catalogue) - LOWEST - GAP,
        };
        let there = taken(build, catalogue, upright, |other| match other.at {
            Place::Wall { side: its_side, along, up } if its_side == side => Some((along.0, up.0)),
            _ => None,
        });
        let (along, up) = first_free(area, width, height, &there)?;
        Some(Place::Wall { side, along: Millimetres(along), up: Millimetres(up) })
    })
}

/// Rear doors first: the front ones are opened more and carry the climate units more often.
pub(super) fn on_a_door(build: &Build, device: &Device, catalogue: &Catalogue) -> Option<Place> {
    let (width, height) = upright(device);
    let frame = catalogue.families.get(&build.family).map_or(0.0, |family| family.door_frame.0);
    let inside = inside_height(build, catalogue);
    let doors = [End::Rear, End::Front].into_iter().flat_map(|end| (0..build.bays.len()).map(move |bay| (bay, end)));
    doors.filter(|&(bay, end)| has_door(build, bay, end)).find_map(|(bay, end)| {
        let opening = build.bays.get(bay)?.width.0 - 2.0 * frame;
        let area = Spot { x: GAP, y: LOWEST, width: opening - 2.0 * GAP, height: inside - LOWEST - frame - GAP };
        let mut there = taken(build, catalogue, upright, |other| match other.at {
            Place::Door { bay: its_bay, end: its_end, across, up } if its_bay == bay && its_end == end => {
                Some((across.0, up.0))
            }
            _ => None,
        });
        for unit in build.climate.iter().filter(|unit| unit.at == UnitAt::Door { bay, end }) {
            let Some(part) = catalogue.units.get(&unit.part) else { continue };
            let (width, height) = (part.size.width.0, part.size.height.0);
            let y = unit.height.map_or((inside - height) / 2.0, |up| up.0);
            there.push(Spot { x: (opening - width) / 2.0, y, width, height });
        }
        let (across, up) = first_free(area, width, height, &there)?;
        Some(Place::Door { bay, end, across: Millimetres(across), up: Millimetres(up) })
    })
}

fn has_door(build: &Build, bay: usize, end: End) -> bool {
    build.bays.get(bay).is_some_and(|bay| {
        let closure = if end == End::Front { bay.front } else { bay.rear };
        closure != Closure::Panel
    })
}

pub(super) fn on_a_floor(build: &Build, device: &Device, catalogue: &Catalogue) -> Option<Place> {
    let battery_plinth = build
        .plinth
        .as_ref()
        .and_then(|plinth| catalogue.plinths.get(&plinth.part))
        .is_some_and(|plinth| plinth.used_for == PlinthUse::Battery);
    let into_plinth = device.kind == DeviceKind::Battery && battery_plinth;
    // A plinth belongs to no role: its floor is the same under every bay.
    let bays = if into_plinth { (0..build.bays.len()).collect() } else { bays_for(build, device, false) };
    bays.into_iter().find_map(|bay| {
        let area = Spot {
            x: GAP,
            y: 2.0 * GAP,
            width: build.bays.get(bay)?.width.0 - 2.0 * GAP,
            height: inside_depth(build, catalogue) - 4.0 * GAP,
        };
        let there = taken(build, catalogue, standing, |other| match other.at {
            Place::Floor { bay: its_bay, plinth, across, along } if its_bay == bay && plinth == into_plinth => {
                Some((across.0, along.0))
            }
            _ => None,
        });
        let (across, along) = first_free(area, device.width.0, device.depth.0, &there)?;
        Some(Place::Floor { bay, plinth: into_plinth, across: Millimetres(across), along: Millimetres(along) })
    })
}

pub(super) fn on_a_shelf(build: &Build, device: &Device, catalogue: &Catalogue) -> Option<Place> {
    build.devices.iter().filter(|shelf| is_shelf(shelf, build, catalogue)).find_map(|shelf| {
        let board = shelf.resolve(catalogue)?;
        let area = Spot { x: 0.0, y: 0.0, width: board.width.0, height: board.depth.0.max(device.depth.0) };
        let there = taken(build, catalogue, standing, |other| match other.at {
            Place::Shelf { shelf: its_shelf, across } if its_shelf == shelf.id => Some((across.0, 0.0)),
            _ => None,
        });
        // Only one row: what stands behind another is out of reach.
        let (across, _) =
            first_free(area, device.width.0, device.depth.0, &there).filter(|&(_, behind)| behind == 0.0)?;
        Some(Place::Shelf { shelf: shelf.id, across: Millimetres(across) })
    })
}

/// A rack part that other devices stand on. The schema has no word for it, so its name or number must say shelf, unless
/// something stands on it already.
fn is_shelf(device: &FittedDevice, build: &Build, catalogue: &Catalogue) -> bool {
    let Some(spec) = device.resolve(catalogue) else { return false };
    let number = match &device.what {
        DeviceWhat::Part(part) => part.as_str(),
        DeviceWhat::Own(_) => "",
    };
    let called = number.contains("shelf") || spec.name.to_ascii_lowercase().contains("shelf");
    let used = build.devices.iter().any(|other| matches!(other.at, Place::Shelf { shelf, .. } if shelf == device.id));
    matches!(device.at, Place::Rack { .. }) && spec.kind == DeviceKind::Cable && (called || used)
}
