//! The ranges of the build, and whether it is whole: every number unique, every place one that exists.

use std::collections::BTreeSet;

use catalogue::PartId;
use units::Kind;

use super::{
    Fault, Limit, MOST_BAYS, MOST_DEVICES, MOST_FEEDS, MOST_GLAND_PLATES, MOST_ITEM_ID, MOST_UNITS, PROJECT, Ranges,
    TextLimit, brief_faults, device_faults, feeds::all_feed_faults,
};
use crate::{Bay, Build, Closure, DeviceWhat, End, Face, Insulated, ItemId, Place, Project, UnitAt, Words};

const fn limit<T>(
    place: &'static str,
    what: &'static str,
    kind: Kind,
    least: f64,
    most: f64,
    read: fn(&T) -> Option<f64>,
) -> Limit<T> {
    Limit { place, what, kind, least, most, read }
}

const fn part<T>(place: &'static str, what: &'static str, read: fn(&T) -> Option<&str>) -> TextLimit<T> {
    TextLimit { place, what, least: 1, most: 80, read }
}

pub(crate) const BUILD: Ranges<Build> = Ranges {
    numbers: &[
        limit("units", "Height", Kind::RackUnits, 1.0, 99.0, |build| Some(build.units.into())),
        limit("depth", "Depth", Kind::Length, 100.0, 5000.0, |build| Some(build.depth.0)),
        limit("plinth.height", "Plinth height", Kind::Length, 1.0, 3000.0, |build| {
            build.plinth.as_ref().map(|plinth| plinth.height.0)
        }),
        limit("shield.gap", "Gap behind the shield", Kind::Length, 0.0, 1000.0, |build| {
            build.shield.as_ref().map(|shield| shield.gap.0)
        }),
        limit("shield.overhang", "Overhang of the shield", Kind::Length, 0.0, 2000.0, |build| {
            build.shield.as_ref().map(|shield| shield.overhang.0)
        }),
        limit("next_id", "Number of the next device", Kind::Count, 0.0, MOST_ITEM_ID as f64 + 1.0, |build| {
            Some(build.next_id.into())
        }),
    ],
    texts: &[
        part("family", "Cabinet family", |build| Some(build.family.as_str())),
        part("skin", "Sheet", |build| Some(build.skin.as_str())),
        part("paint", "Paint", |build| Some(build.paint.as_str())),
        part("door", "Door", |build| Some(build.door.as_str())),
        part("plinth.part", "Plinth", |build| build.plinth.as_ref().map(|plinth| plinth.part.as_str())),
        part("shield.part", "Shield", |build| build.shield.as_ref().map(|shield| shield.part.as_str())),
        part("lifting_eyes", "Lifting eyes", |build| build.lifting_eyes.as_ref().map(PartId::as_str)),
        part("pallet", "Pallet", |build| build.pallet.as_ref().map(PartId::as_str)),
    ],
};

pub(crate) const INSULATED: Ranges<Insulated> = Ranges {
    numbers: &[limit("thickness", "Insulation thickness", Kind::Length, 0.1, 500.0, |laid| Some(laid.thickness.0))],
    texts: &[part("part", "Insulation", |laid| Some(laid.part.as_str()))],
};

pub(crate) const BAY: Ranges<Bay> = Ranges {
    numbers: &[
        limit("width", "Bay width", Kind::Length, 100.0, 3000.0, |bay| Some(bay.width.0)),
        limit("front_setback", "Front rail set-back", Kind::Length, 0.0, 3000.0, |bay| Some(bay.front_setback.0)),
        limit("rear_setback", "Rear rail set-back", Kind::Length, 0.0, 3000.0, |bay| Some(bay.rear_setback.0)),
    ],
    texts: &[
        part("manager_left", "Cable management, left", |bay| bay.manager_left.as_ref().map(PartId::as_str)),
        part("manager_right", "Cable management, right", |bay| bay.manager_right.as_ref().map(PartId::as_str)),
    ],
};

pub(crate) const PLACE: Ranges<Place> = Ranges {
    numbers: &[
        limit("rack.unit", "Unit", Kind::RackUnits, 1.0, 99.0, |place| match place {
            Place::Rack { unit, .. } => Some((*unit).into()),
            _ => None,
        }),
        limit("rack.forward", "Distance before the rails", Kind::Length, -2000.0, 2000.0, |place| match place {
            Place::Rack { forward, .. } => Some(forward.0),
            _ => None,
        }),
        limit("across", "Distance from the left", Kind::Length, -10_000.0, 10_000.0, |place| match place {
            Place::Shelf { across, .. } | Place::Door { across, .. } | Place::Floor { across, .. } => Some(across.0),
            _ => None,
        }),
        limit("along", "Distance from the front", Kind::Length, -10_000.0, 10_000.0, |place| match place {
            Place::Wall { along, .. } | Place::Floor { along, .. } => Some(along.0),
            _ => None,
        }),
        limit("up", "Distance from the floor", Kind::Length, -10_000.0, 10_000.0, |place| match place {
            Place::Wall { up, .. } | Place::Door { up, .. } => Some(up.0),
            _ => None,
        }),
    ],
    texts: &[],
};

/// The height of a climate unit above the floor.
pub(crate) const UNIT_HEIGHT: Ranges<crate::FittedUnit> = Ranges {
    numbers: &[limit("height", "Distance from the floor", Kind::Length, -10_000.0, 10_000.0, |unit| {
        unit.height.map(|height| height.0)
    })],
    texts: &[part("part", "Climate unit", |unit| Some(unit.part.as_str()))],
};

/// Everything of a project that is out of range or not whole.
pub(crate) fn project_faults(project: &Project) -> Vec<Fault> {
    let mut faults = PROJECT.faults(project, "", None);
    faults.extend(brief_faults(&project.brief, "brief", None));
    faults.extend(build_faults(&project.build));
    faults
}

/// Everything of a build that is out of range or not whole. A list that is too long is not looked into.
pub(crate) fn build_faults(build: &Build) -> Vec<Fault> {
    let mut faults = BUILD.faults(build, "build", None);
    for face in Face::ALL {
        if let Some(laid) = build.insulation.get(face) {
            faults.extend(INSULATED.faults(laid, &format!("build.insulation.{}", face_name(face)), None));
        }
    }
    let bays = build.bays.len();
    if (1..=MOST_BAYS).contains(&bays) {
        for (index, bay) in build.bays.iter().enumerate() {
            faults.extend(bay_faults(bay, &format!("build.bays[{index}]")));
        }
    } else {
        faults.push(Fault::new("build.bays", "Bays", count(bays, "bays"), format!("1 to {MOST_BAYS}")));
    }
    let mut numbers = BTreeSet::new();
    if too_many(build.climate.len(), MOST_UNITS, "build.climate", "climate units", &mut faults) {
        return faults;
    }
    for (index, unit) in build.climate.iter().enumerate() {
        let at = format!("build.climate[{index}]");
        faults.extend(UNIT_HEIGHT.faults(unit, &at, None));
        faults.extend(unit_place_fault(build, &unit.at, &at));
        faults.extend(number_fault(unit.id, &mut numbers, &at));
    }
    if too_many(build.devices.len(), MOST_DEVICES, "build.devices", "devices", &mut faults) {
        return faults;
    }
    for (index, device) in build.devices.iter().enumerate() {
        let at = format!("build.devices[{index}]");
        match &device.what {
            DeviceWhat::Part(part) => faults.extend(part_fault(part, &format!("{at}.what.part"))),
            DeviceWhat::Own(own) => faults.extend(device_faults(own, &format!("{at}.what.own"), None)),
        }
        faults.extend(place_faults(build, &device.at, Some(device.id), &format!("{at}.at")));
        faults.extend(number_fault(device.id, &mut numbers, &at));
    }
    if !too_many(build.feeds.len(), MOST_FEEDS, "build.feeds", "chosen feeds", &mut faults) {
        faults.extend(all_feed_faults(build));
    }
    faults
}

fn bay_faults(bay: &Bay, at: &str) -> Vec<Fault> {
    let mut faults = BAY.faults(bay, at, None);
    if too_many(bay.gland_plates.len(), MOST_GLAND_PLATES, &format!("{at}.gland_plates"), "gland plates", &mut faults) {
        return faults;
    }
    for (index, plate) in bay.gland_plates.iter().enumerate() {
        faults.extend(part_fault(&plate.part, &format!("{at}.gland_plates[{index}].part")));
        if plate.used > 1000 {
            let place = format!("{at}.gland_plates[{index}].used");
            faults.push(Fault::new(place, "Knock-outs used", plate.used.to_string(), "0 to 1000"));
        }
    }
    faults
}

/// Whether a place is one that exists in the build. That it is a good one is for the checks to say.
pub(crate) fn place_faults(build: &Build, place: &Place, device: Option<ItemId>, at: &str) -> Vec<Fault> {
    let mut faults = PLACE.faults(place, at, None);
    if let Some(bay) = place.bay() {
        faults.extend(bay_fault(build, bay, at));
    }
    match place {
        Place::Door { bay, end, .. } => faults.extend(door_fault(build, *bay, *end, at)),
        Place::Floor { plinth: true, .. } if build.plinth.is_none() => {
            faults.push(Fault::new(at, "Place", "the floor of the plinth", "a build with a plinth"));
        }
        Place::Shelf { shelf, .. } => {
            let holds = build.device(*shelf).is_some_and(|shelf| {
                Some(shelf.id) != device && matches!(shelf.at, Place::Rack { .. } | Place::Unplaced)
            });
            if !holds {
                faults.push(Fault::new(at, "Place", format!("shelf {}", shelf.0), "another device, held by rails"));
            }
        }
        _ => {}
    }
    faults
}

/// Whether a climate unit's place is one that exists in the build.
pub(crate) fn unit_place_fault(build: &Build, place: &UnitAt, at: &str) -> Option<Fault> {
    match *place {
        UnitAt::Door { bay, end } => bay_fault(build, bay, at).or_else(|| door_fault(build, bay, end, at)),
        UnitAt::Roof { bay } | UnitAt::Inside { bay } => bay_fault(build, bay, at),
        UnitAt::Side { .. } => None,
    }
}

fn bay_fault(build: &Build, bay: usize, at: &str) -> Option<Fault> {
    let allowed = match build.bays.len() {
        0 | 1 => "bay 1 only".to_owned(),
        bays => format!("bays 1 to {bays}"),
    };
    (bay >= build.bays.len()).then(|| Fault::new(at, "Bay", format!("bay {}", bay.saturating_add(1)), allowed))
}

fn door_fault(build: &Build, bay: usize, end: End, at: &str) -> Option<Fault> {
    let bay_there = build.bays.get(bay)?;
    let (closure, word) = match end {
        End::Front => (bay_there.front, "front"),
        End::Rear => (bay_there.rear, "rear"),
    };
    (closure == Closure::Panel)
        .then(|| Fault::new(at, "Place", format!("the {word} of bay {}, a fixed panel", bay + 1), "a door"))
}

fn part_fault(part: &PartId, at: &str) -> Option<Fault> {
    let length = part.as_str().chars().count();
    (length == 0 || length > 80)
        .then(|| Fault::new(at, "Part number", format!("{length} characters"), "1 to 80 characters"))
}

fn number_fault(id: ItemId, numbers: &mut BTreeSet<ItemId>, at: &str) -> Option<Fault> {
    let place = format!("{at}.id");
    if id.0 > MOST_ITEM_ID {
        Some(Fault::new(place, "Number", id.0.to_string(), format!("0 to {MOST_ITEM_ID}")))
    } else if numbers.insert(id) {
        None
    } else {
        Some(Fault::new(place, "Number", format!("{} for the second time", id.0), "each number once"))
    }
}

fn too_many(found: usize, most: usize, at: &str, what: &str, faults: &mut Vec<Fault>) -> bool {
    if found > most {
        faults.push(Fault::new(at, &crate::words::sentence(what), count(found, what), format!("at most {most}")));
    }
    found > most
}

fn count(found: usize, what: &str) -> Words {
    format!("{found} {what}").into()
}

const fn face_name(face: Face) -> &'static str {
    match face {
        Face::Front => "front",
        Face::Rear => "rear",
        Face::Left => "left",
        Face::Right => "right",
        Face::Top => "top",
        Face::Bottom => "bottom",
    }
}
