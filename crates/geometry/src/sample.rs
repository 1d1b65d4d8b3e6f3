//! Builds for tests, from whatever the shipped catalogue has of each sort: no part is named here.

use catalogue::{Catalogue, Mount, PlinthUse, ShieldCover, UnitPlace};
use project::{
    Bay, BayRole, Build, Closure, DeviceWhat, End, Faces, FittedDevice, FittedGlandPlate, FittedPlinth, FittedShield,
    FittedUnit, HingeSide, Insulated, ItemId, Place, RailWidth, UnitAt,
};
use units::Millimetres;

/// The first part of which something is true.
fn first<T>(parts: &catalogue::Parts<T>, is: impl Fn(&T) -> bool) -> catalogue::PartId {
    parts.iter().find(|(_, part)| is(part)).map(|(id, _)| id.clone()).expect("the catalogue has such a part")
}

fn bay(catalogue: &Catalogue) -> Bay {
    Bay {
        role: BayRole::Mixed,
        width: Millimetres(740.0),
        rails: RailWidth::Nineteen,
        front_setback: Millimetres(120.0),
        rear_setback: Millimetres(100.0),
        front: Closure::Door(HingeSide::Left),
        rear: Closure::Door(HingeSide::Right),
        manager_left: Some(first(&catalogue.managers, |part| part.width.0 <= 101.0 && part.depth.0 <= 100.0)),
        manager_right: Some(first(&catalogue.managers, |part| part.width.0 <= 101.0 && part.depth.0 <= 100.0)),
        gland_plates: vec![
            FittedGlandPlate { part: first(&catalogue.gland_plates, |_| true), used: 2 },
            FittedGlandPlate { part: first(&catalogue.gland_plates, |_| true), used: 0 },
        ],
    }
}

/// A cabinet of one or two bays with everything but devices and climate units.
pub(crate) fn build(bays: usize, catalogue: &Catalogue) -> Build {
    let laid = || Some(Insulated { part: first(&catalogue.insulations, |_| true), thickness: Millimetres(20.0) });
    Build {
        family: first(&catalogue.families, |family| usize::from(family.bays) == bays),
        bays: vec![bay(catalogue); bays],
        divider: bays > 1,
        units: 30,
        depth: Millimetres(900.0),
        skin: first(&catalogue.skins, |_| true),
        insulation: Faces { front: laid(), rear: laid(), left: laid(), right: laid(), top: laid(), bottom: laid() },
        paint: first(&catalogue.paints, |_| true),
        plinth: Some(FittedPlinth {
            part: first(&catalogue.plinths, |part| part.used_for == PlinthUse::Battery),
            height: Millimetres(406.0),
        }),
        shield: Some(FittedShield {
            part: first(&catalogue.shields, |part| part.covers == ShieldCover::Full),
            gap: Millimetres(25.0),
            overhang: Millimetres(60.0),
        }),
        door: first(&catalogue.doors, |_| true),
        lifting_eyes: Some(first(&catalogue.lifting_eyes, |_| true)),
        eyes_removed: false,
        pallet: Some(first(&catalogue.pallets, |_| true)),
        climate: Vec::new(),
        devices: Vec::new(),
        feeds: Vec::new(),
        next_id: 1000,
    }
}

/// The same with a climate unit on each front door, and `devices` rack devices of one unit, one per unit from the bottom,
/// first on the front rails of each bay, then on the rear rails.
pub(crate) fn filled(bays: usize, devices: usize, catalogue: &Catalogue) -> Build {
    let mut build = build(bays, catalogue);
    let part = first(&catalogue.units, |unit| unit.places.contains(&UnitPlace::Door) && unit.size.width.0 < 600.0);
    for bay in 0..bays {
        let at = UnitAt::Door { bay, end: End::Front };
        build.climate.push(FittedUnit { id: ItemId(bay as u32), part: part.clone(), at, height: None });
    }
    let kinds: Vec<_> = catalogue
        .devices
        .iter()
        .filter(|(_, device)| {
            device.mount == Mount::Rack(1) && device.rack == 19 && device.width.0 <= 450.0 && device.depth.0 <= 310.0
        })
        .map(|(id, _)| id.clone())
        .collect();
    for index in 0..devices {
        let units = build.units as usize;
        let (unit, column) = (index % units + 1, index / units);
        let rails = if column < bays { End::Front } else { End::Rear };
        build.devices.push(FittedDevice {
            id: ItemId(100 + index as u32),
            what: DeviceWhat::Part(kinds[index % kinds.len()].clone()),
            at: Place::Rack { bay: column % bays, rails, unit: unit as u32, facing: rails, forward: Millimetres(0.0) },
        });
    }
    build
}

/// A device of the user's own, of a size (width, height, depth), made for its place.
pub(crate) fn own_device((width, height, depth): (f64, f64, f64), at: &Place) -> catalogue::Device {
    let units = (height / catalogue::RACK_UNIT).ceil().clamp(1.0, 40.0) as u32;
    catalogue::Device {
        name: "own".into(),
        kind: catalogue::DeviceKind::Network,
        mount: if matches!(at, Place::Rack { .. }) { Mount::Rack(units) } else { Mount::Wall },
        width: Millimetres(width),
        height: Millimetres(height),
        depth: Millimetres(depth),
        rack: 19,
        four_post: false,
        mass: Some(units::Kilograms(5.0)),
        power: units::Watts(0.0),
        power_max: None,
        supply: catalogue::Supply::None,
        heat_share: 1.0,
        converts: None,
        chemistry: None,
        electrical: catalogue::Electrical::default(),
        inlet_min: None,
        inlet_max: None,
        air: catalogue::AirDirection::Still,
        airflow: units::CubicMetresPerHour(0.0),
        face_allowance: Millimetres(0.0),
        back_allowance: Millimetres(0.0),
        fibre_ports: 0,
        splices: 0,
        copper_ports: 0,
        cables: None,
        sound_power: None,
        trade: catalogue::Trade::default(),
    }
}
