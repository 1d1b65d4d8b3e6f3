//! For tests: a start, and edits at random, sensible and absurd.

use catalogue::{Catalogue, Mount, PartId};
use proptest::prelude::*;
use units::{Celsius, Degrees, Kilograms, Millimetres, Watts};

use crate::*;

pub(crate) fn start() -> (Project, Catalogue) {
    let catalogue = catalogue::sample();
    (new_project(&catalogue), catalogue)
}

/// Edits that must all be taken.
pub(crate) fn with(mut project: Project, catalogue: &Catalogue, edits: &[Edit]) -> Project {
    for edit in edits {
        if let Err(refusal) = apply(&mut project, edit, catalogue) {
            panic!("{refusal}");
        }
    }
    project
}

pub(crate) fn rack(bay: usize, rails: End, unit: u32) -> Place {
    Place::Rack { bay, rails, unit, facing: rails, forward: Millimetres(0.0) }
}

pub(crate) fn part(id: &str) -> DeviceWhat {
    DeviceWhat::Part(id.into())
}

/// The numbers from which one random edit is made.
pub(crate) type Seed = (u8, u32, u32, f64);

pub(crate) fn seeds() -> impl Strategy<Value = Vec<Seed>> {
    let number = prop_oneof![
        6 => -10.0..1500.0,
        2 => -1e6..1e6,
        1 => any::<f64>(),
        1 => Just(f64::NAN),
    ];
    proptest::collection::vec((0_u8..27, 0_u32..2000, 0_u32..100, number), 0..40)
}

fn pick<P>(parts: &catalogue::Parts<P>, at: u32) -> PartId {
    let at = at as usize % (parts.len() + 1);
    parts.keys().nth(at).cloned().unwrap_or_else(|| PartId::from("unknown-part"))
}

fn item(project: &Project, at: u32) -> ItemId {
    let build = &project.build;
    let ids: Vec<ItemId> =
        build.devices.iter().map(|device| device.id).chain(build.climate.iter().map(|unit| unit.id)).collect();
    ids.get(at as usize % (ids.len() + 1)).copied().unwrap_or(ItemId(at))
}

fn place(project: &Project, (_, a, b, x): Seed) -> Place {
    let (bay, end) = (b as usize % 3, if a % 2 == 0 { End::Front } else { End::Rear });
    let (far, side) = (Millimetres(x), if b % 2 == 0 { Side::Left } else { Side::Right });
    match a % 7 {
        0 | 1 => Place::Rack { bay, rails: end, unit: b, facing: end, forward: far },
        2 => Place::Shelf { shelf: item(project, b), across: far },
        3 => Place::Wall { side, along: far, up: Millimetres(f64::from(a)) },
        4 => Place::Door { bay, end, across: far, up: Millimetres(f64::from(a)) },
        5 => Place::Floor { bay, plinth: b % 2 == 0, across: far, along: Millimetres(f64::from(a)) },
        _ => Place::Unplaced,
    }
}

fn unit_place(a: u32, b: u32) -> UnitAt {
    let bay = b as usize % 3;
    match a % 4 {
        0 => UnitAt::Door { bay, end: if b.is_multiple_of(2) { End::Front } else { End::Rear } },
        1 => UnitAt::Side { side: Side::Left },
        2 => UnitAt::Roof { bay },
        _ => UnitAt::Inside { bay },
    }
}

fn own(a: u32, b: u32, x: f64, catalogue: &Catalogue) -> catalogue::Device {
    let mut device = catalogue.devices.values().nth(a as usize % catalogue.devices.len()).unwrap().clone();
    device.name = ["<b>switch</b>", "", "a\nb", "länger"][a as usize % 4].repeat(1 + b as usize % 20);
    device.mount = if b.is_multiple_of(2) { Mount::Rack(b) } else { Mount::Wall };
    device.power = Watts(x);
    device.mass = (!a.is_multiple_of(3)).then_some(Kilograms(x));
    device
}

/// A random edit of this project.
fn fed(a: u32, item: ItemId) -> Fed {
    match a % 3 {
        0 => Fed::Device(item),
        1 => Fed::Second(item),
        _ => Fed::Unit(item),
    }
}

pub(crate) fn edit(project: &Project, catalogue: &Catalogue, seed: Seed) -> Edit {
    let (kind, a, b, x) = seed;
    let long = Millimetres(x);
    match kind {
        0 => Edit::Rename("<b>x".repeat(a as usize % 30)),
        1 => {
            let mut brief = project.brief.clone();
            match a % 11 {
                0 => brief.bearing = Degrees(x),
                1 => brief.hottest = Celsius(x),
                2 => brief.coldest = Celsius(x),
                3 => brief.mass_limit = Some(Kilograms(x)),
                4 => brief.latitude = Degrees(x),
                5 => brief.horizon = vec![Degrees(x); b as usize % 40],
                6 => {
                    let month = Month { air: Celsius(x), wind: f64::from(b), ..Month::default() };
                    brief.months = (b % 3 > 0).then(|| Box::new(MonthlyMeans([month; 12])));
                }
                7 => brief.currency = ["EUR", "eur", "€\u{7}", ""][b as usize % 4].into(),
                8 => brief.power.growth = x,
                9 => brief.power.autonomy = Some(units::Hours(x)),
                _ => brief.spare_units = b,
            }
            Edit::SetBrief(Box::new(brief))
        }
        2 => Edit::SetFamily(pick(&catalogue.families, a)),
        3 => Edit::SetUnits(b),
        4 => Edit::SetDepth(long),
        5 => Edit::SetSkin(pick(&catalogue.skins, a)),
        6 => Edit::SetPaint(pick(&catalogue.paints, a)),
        7 => Edit::SetInsulation {
            face: (a % 3 > 0).then(|| Face::ALL[b as usize % 6]),
            insulation: (b % 3 > 0).then(|| Insulated { part: pick(&catalogue.insulations, a), thickness: long }),
        },
        8 => Edit::SetPlinth((b % 4 > 0).then(|| FittedPlinth { part: pick(&catalogue.plinths, a), height: long })),
        9 => Edit::SetShield((b % 3 > 0).then(|| FittedShield {
            part: pick(&catalogue.shields, a),
            gap: long,
            overhang: Millimetres(f64::from(b)),
        })),
        10 => Edit::SetDoor(pick(&catalogue.doors, a)),
        11 => Edit::SetLiftingEyes((b % 3 > 0).then(|| pick(&catalogue.lifting_eyes, a))),
        12 => Edit::SetEyesRemoved(b % 2 == 0),
        13 => Edit::SetPallet((b % 3 > 0).then(|| pick(&catalogue.pallets, a))),
        14 => Edit::SetDivider(b % 2 == 0),
        15 => {
            let bay = b as usize % 3;
            let Some(before) = project.build.bays.get(bay) else {
                return Edit::SetBay { bay, to: Box::new(project.build.bays[0].clone()) };
            };
            let mut to = before.clone();
            match a % 5 {
                0 => to.width = long,
                1 => to.front_setback = Millimetres(f64::from(b) * 10.0),
                2 => to.front = Closure::Panel,
                3 => to.manager_left = Some(pick(&catalogue.managers, a)),
                _ => to.gland_plates.push(FittedGlandPlate { part: pick(&catalogue.gland_plates, a), used: b / 10 }),
            }
            Edit::SetBay { bay, to: Box::new(to) }
        }
        16 => Edit::AddUnit { part: pick(&catalogue.units, a), at: unit_place(a, b) },
        17 => Edit::ChangeUnit {
            unit: item(project, b),
            part: pick(&catalogue.units, a),
            at: unit_place(a, b),
            height: (a % 2 == 0).then_some(long),
        },
        18 => Edit::RemoveUnit(item(project, b)),
        19 | 20 => Edit::AddDevice { what: DeviceWhat::Part(pick(&catalogue.devices, a)), at: place(project, seed) },
        21 => Edit::AddDevice { what: DeviceWhat::Own(Box::new(own(a, b, x, catalogue))), at: place(project, seed) },
        22 => Edit::MoveDevice { device: item(project, b), to: place(project, seed) },
        23 => Edit::ChangeDevice { device: item(project, b), to: Box::new(own(a, b, x, catalogue)) },
        24 => Edit::RemoveDevice(item(project, b)),
        25 => Edit::ChooseFeed(ChosenFeed {
            load: fed(a, item(project, b)),
            from: (a % 4 > 0).then(|| item(project, a)),
            position: (b % 3 > 0).then_some(b),
        }),
        _ => Edit::FreeFeed(fed(a, item(project, b))),
    }
}
