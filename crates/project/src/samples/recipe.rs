//! How the samples are made: edits upon an empty project, as a user would make them.

use units::{Amperes, Celsius, Degrees, Hours, Kelvins, Kilograms, Kilopascals, Metres, Millimetres};

use super::climates;
use crate::testing::{part, rack, with};
use crate::*;

/// File name and project of every sample.
pub(super) fn all() -> Vec<(&'static str, Project)> {
    vec![
        ("hot-desert-fibre-hub.json", desert()),
        ("coastal-two-bay-edge-site.json", coast()),
        ("cold-mountain-relay.json", mountain()),
    ]
}

#[test]
#[ignore = "writes assets/samples"]
fn writes_the_samples() {
    for (file, project) in all() {
        let path = format!("{}/../../assets/samples/{file}", env!("CARGO_MANIFEST_DIR"));
        std::fs::write(path, to_json(&project)).unwrap();
    }
}

const fn mm(length: f64) -> Millimetres {
    Millimetres(length)
}

const fn left(along: f64, up: f64) -> Place {
    Place::Wall { side: Side::Left, along: mm(along), up: mm(up) }
}

const fn right(along: f64, up: f64) -> Place {
    Place::Wall { side: Side::Right, along: mm(along), up: mm(up) }
}

/// Devices in front of a bay: part and lowest unit.
fn front(bay: usize, devices: &[(&str, u32)]) -> Vec<Edit> {
    devices.iter().map(|&(id, unit)| at(id, rack(bay, End::Front, unit))).collect()
}

fn at(id: &str, place: Place) -> Edit {
    Edit::AddDevice { what: part(id), at: place }
}

fn door_unit(id: &str, bay: usize, end: End) -> Edit {
    Edit::AddUnit { part: id.into(), at: UnitAt::Door { bay, end } }
}

fn plates(plates: &[(&str, u32)]) -> Vec<FittedGlandPlate> {
    plates.iter().map(|&(id, used)| FittedGlandPlate { part: id.into(), used }).collect()
}

fn begin(name: &str, brief: Brief, family: &str, units: u32, depth: f64) -> Project {
    let catalogue = catalogue::sample();
    with(
        new_project(&catalogue),
        &catalogue,
        &[
            Edit::Rename(name.into()),
            Edit::SetBrief(Box::new(brief)),
            Edit::SetFamily(family.into()),
            Edit::SetUnits(units),
            Edit::SetDepth(mm(depth)),
            Edit::SetSkin("skin-aluminium-3-2".into()),
            Edit::SetPaint("paint-white-weathered".into()),
        ],
    )
}

fn bay(project: &Project, index: usize, change: impl FnOnce(&mut Bay)) -> Edit {
    let mut to = project.build.bays[index].clone();
    change(&mut to);
    Edit::SetBay { bay: index, to: Box::new(to) }
}

fn finish(project: Project, edits: impl IntoIterator<Item = Edit>) -> Project {
    with(project, &catalogue::sample(), &edits.into_iter().collect::<Vec<_>>())
}

/// Backup for so many hours, and batteries charged again in so many.
fn backed(autonomy: f64, recharge: f64) -> PowerAsked {
    PowerAsked { autonomy: Some(Hours(autonomy)), recharge: Hours(recharge), ..PowerAsked::default() }
}

/// Yuma lies at about 43 m; its design temperatures, months and tariff here are round figures of ours, for a sample.
fn desert() -> Project {
    let brief = Brief {
        site: "Yuma, Arizona".into(),
        elevation: Metres(43.0),
        latitude: Degrees(32.7),
        longitude: Degrees(-114.6),
        utc_offset: -7.0,
        albedo: 0.3,
        bearing: Degrees(180.0),
        hottest: Celsius(49.0),
        coldest: Celsius(-4.0),
        daily_range: Kelvins(16.0),
        months: climates::desert(),
        keep_above: Celsius(0.0),
        supply: SiteSupply::SplitPhase120240,
        power: PowerAsked { fault_current: Some(Amperes(8000.0)), generator: true, growth: 0.2, ..backed(2.0, 24.0) },
        tariff: Some(0.14),
        currency: "USD".into(),
        spare_units: 2,
        fibre_ports: 240,
        splices: 288,
        spare_knock_outs: 4,
        mass_limit: Some(Kilograms(650.0)),
        one_person_lift: Kilograms(25.0),
        bearing_limit: Some(Kilopascals(100.0)),
        transport_mass: Some(Kilograms(900.0)),
        transport_height: Some(mm(2400.0)),
        hook_height: mm(1200.0),
        ..Brief::default()
    };
    let project = begin("Saltbush Fibre, hub 7", brief, "cabinet-single", 36, 914.0);
    let mut edits = vec![
        bay(&project, 0, |bay| {
            bay.width = mm(700.0);
            bay.front_setback = mm(210.0);
            bay.rear_setback = mm(100.0);
            bay.manager_left = Some("spools-slack-100".into());
            bay.manager_right = Some("spools-slack-100".into());
            bay.gland_plates = plates(&[("gland-large-12", 7), ("gland-conduit-3", 2)]);
        }),
        Edit::SetPlinth(Some(FittedPlinth { part: "plinth-riser-100".into(), height: mm(100.0) })),
        Edit::SetShield(Some(FittedShield { part: "shield-full-25".into(), gap: mm(25.0), overhang: mm(60.0) })),
        Edit::SetInsulation {
            face: Some(Face::Top),
            insulation: Some(Insulated { part: "insulation-polyiso-foam".into(), thickness: mm(25.0) }),
        },
        Edit::SetDoor("door-latched-3".into()),
        Edit::SetLiftingEyes(Some("eye-shoulder-16".into())),
        Edit::SetPallet(Some("pallet-timber-1219-1016".into())),
        door_unit("exchanger-door-140", 0, End::Front),
        door_unit("exchanger-door-140", 0, End::Rear),
    ];
    edits.extend(front(
        0,
        &[
            ("shelf-splice-288", 33),
            ("panel-fibre-144", 29),
            ("panel-fibre-96", 26),
            ("splitter-fibre-32", 24),
            ("splitter-fibre-32", 23),
            ("line-terminal-64", 17),
            ("switch-access-48", 15),
            ("router-edge-1", 14),
            ("controller-site-1", 13),
            ("battery-lithium-50", 9),
            ("battery-lithium-50", 7),
            ("distribution-breaker-24", 5),
            ("disconnect-low-2", 4),
            ("rectifier-shelf-6", 2),
            ("bar-ground-1", 1),
        ],
    ));
    edits.extend([
        at("disconnect-service-100", right(520.0, 1100.0)),
        at("centre-load-12", left(500.0, 700.0)),
        at("protector-surge-1", left(520.0, 460.0)),
        at("transfer-interlock-100", right(520.0, 740.0)),
        at("inlet-generator-30", right(560.0, 500.0)),
        at("outlet-guarded-2", left(660.0, 460.0)),
        at("block-alarm-16", left(520.0, 1120.0)),
    ]);
    finish(project, edits)
}

/// Galveston lies at the sea; its design temperatures, months and tariff here are round figures of ours, for a sample.
fn coast() -> Project {
    let brief = Brief {
        site: "Galveston, Texas".into(),
        elevation: Metres(3.0),
        latitude: Degrees(29.3),
        longitude: Degrees(-94.8),
        utc_offset: -6.0,
        albedo: 0.2,
        bearing: Degrees(135.0),
        hottest: Celsius(40.0),
        coldest: Celsius(-5.0),
        daily_range: Kelvins(8.0),
        months: climates::coast(),
        keep_above: Celsius(5.0),
        supply: SiteSupply::SplitPhase120240,
        power: PowerAsked { fault_current: Some(Amperes(9000.0)), generator: true, growth: 0.05, ..backed(0.5, 36.0) },
        tariff: Some(0.12),
        currency: "USD".into(),
        spare_units: 10,
        fibre_ports: 64,
        splices: 0,
        spare_knock_outs: 6,
        mass_limit: Some(Kilograms(1200.0)),
        one_person_lift: Kilograms(25.0),
        bearing_limit: Some(Kilopascals(75.0)),
        transport_mass: Some(Kilograms(1500.0)),
        transport_height: Some(mm(2400.0)),
        hook_height: mm(1600.0),
        ..Brief::default()
    };
    let project = begin("Sandbar Mobile, edge site 12", brief, "cabinet-double", 24, 1067.0);
    let rails = |bay: &mut Bay| {
        bay.width = mm(760.0);
        bay.front_setback = mm(210.0);
        bay.rear_setback = mm(130.0);
        bay.manager_left = Some("fingers-upright-100".into());
        bay.manager_right = Some("fingers-upright-100".into());
    };
    let mut edits = vec![
        bay(&project, 0, |bay| {
            rails(bay);
            bay.role = BayRole::Active;
            bay.gland_plates = plates(&[("gland-medium-8", 3)]);
        }),
        bay(&project, 1, |bay| {
            rails(bay);
            bay.gland_plates = plates(&[("gland-large-12", 8), ("gland-conduit-3", 2)]);
        }),
        Edit::SetPlinth(Some(FittedPlinth { part: "plinth-battery-400".into(), height: mm(400.0) })),
        Edit::SetShield(Some(FittedShield { part: "shield-sides-25".into(), gap: mm(25.0), overhang: mm(75.0) })),
        Edit::SetInsulation {
            face: None,
            insulation: Some(Insulated { part: "insulation-elastomer-foam".into(), thickness: mm(19.0) }),
        },
        Edit::SetDoor("door-heavy-3".into()),
        Edit::SetLiftingEyes(Some("eye-swivel-16".into())),
        Edit::SetPallet(Some("pallet-skid-1700-1400".into())),
        door_unit("conditioner-door-2000", 0, End::Front),
        door_unit("conditioner-door-2000", 1, End::Front),
        Edit::AddUnit { part: "heater-inside-800-230".into(), at: UnitAt::Inside { bay: 1 } },
    ];
    edits.extend(front(
        0,
        &[("panel-fibre-48", 23), ("switch-core-1", 21), ("server-edge-1", 18), ("server-edge-2", 16)],
    ));
    edits.push(at("strip-outlet-8", rack(0, End::Rear, 12)));
    edits.extend(front(
        1,
        &[
            ("base-band-2", 21),
            ("base-band-2", 19),
            ("controller-site-1", 17),
            ("distribution-breaker-24", 9),
            ("disconnect-low-2", 8),
            ("inverter-rack-2500", 6),
            ("rectifier-shelf-12", 2),
            ("bar-ground-1", 1),
        ],
    ));
    let battery = |bay| Place::Floor { bay, plinth: true, across: mm(160.0), along: mm(320.0) };
    edits.extend([
        at("centre-load-16", right(560.0, 560.0)),
        at("disconnect-service-100", left(600.0, 300.0)),
        at("inlet-generator-50", left(400.0, 300.0)),
        at("transfer-interlock-100", left(600.0, 740.0)),
        at("protector-surge-1", right(600.0, 340.0)),
        at("outlet-guarded-2", right(760.0, 340.0)),
        at("block-alarm-16", left(400.0, 740.0)),
        at("battery-floor-100", battery(0)),
        at("battery-floor-100", battery(1)),
    ]);
    finish(project, edits)
}

/// Gunnison lies near 2 350 m and is known for its cold; the figures here, its horizon and tariff too, are round ones of
/// ours for a ridge above it, for a sample.
fn mountain() -> Project {
    let brief = Brief {
        site: "Ridge above Gunnison, Colorado".into(),
        elevation: Metres(2400.0),
        latitude: Degrees(38.5),
        longitude: Degrees(-106.9),
        utc_offset: -7.0,
        albedo: 0.35,
        horizon: [7.0, 5.0, 3.0, 4.0, 3.0, 2.0, 6.0, 9.0].map(Degrees).to_vec(),
        bearing: Degrees(200.0),
        hottest: Celsius(30.0),
        coldest: Celsius(-35.0),
        daily_range: Kelvins(16.0),
        months: climates::mountain(),
        keep_above: Celsius(-15.0),
        supply: SiteSupply::Single120,
        power: PowerAsked { fault_current: Some(Amperes(4000.0)), generator: false, ..backed(3.0, 36.0) },
        tariff: Some(0.13),
        currency: "USD".into(),
        spare_units: 4,
        fibre_ports: 24,
        splices: 48,
        spare_knock_outs: 3,
        mass_limit: Some(Kilograms(400.0)),
        one_person_lift: Kilograms(25.0),
        bearing_limit: Some(Kilopascals(150.0)),
        transport_mass: Some(Kilograms(500.0)),
        transport_height: Some(mm(1600.0)),
        hook_height: mm(1200.0),
        ..Brief::default()
    };
    let project = begin("Larkspur Relay, ridge 3", brief, "cabinet-single", 20, 914.0);
    let mut edits = vec![
        bay(&project, 0, |bay| {
            bay.width = mm(760.0);
            bay.front_setback = mm(180.0);
            bay.rear_setback = mm(100.0);
            bay.manager_left = Some("rings-upright-100".into());
            bay.manager_right = Some("rings-upright-100".into());
            bay.gland_plates = plates(&[("gland-medium-8", 4), ("gland-conduit-3", 1)]);
        }),
        Edit::SetPlinth(Some(FittedPlinth { part: "plinth-riser-100".into(), height: mm(150.0) })),
        Edit::SetShield(None),
        Edit::SetInsulation {
            face: None,
            insulation: Some(Insulated { part: "insulation-polyiso-foam".into(), thickness: mm(25.0) }),
        },
        Edit::SetPaint("paint-grey-light".into()),
        Edit::SetDoor("door-latched-3".into()),
        Edit::SetLiftingEyes(Some("eye-shoulder-16".into())),
        Edit::SetPallet(Some("pallet-timber-1219-1016".into())),
        door_unit("exchanger-door-40", 0, End::Front),
        Edit::AddUnit { part: "heater-inside-400-120".into(), at: UnitAt::Inside { bay: 0 } },
    ];
    edits.extend(front(
        0,
        &[
            ("panel-fibre-24", 20),
            ("tray-cable-1", 19),
            ("router-edge-1", 18),
            ("switch-access-24", 17),
            ("base-band-1", 16),
            ("radio-split-1", 15),
            ("radio-split-1", 14),
            ("controller-site-1", 13),
            ("distribution-fuse-10", 9),
            ("disconnect-low-2", 8),
            ("rectifier-shelf-2", 7),
            ("battery-lithium-50", 5),
            ("battery-lithium-50", 3),
            ("bar-ground-1", 1),
        ],
    ));
    edits.extend([
        at("disconnect-service-100", right(340.0, 60.0)),
        at("centre-load-12", left(590.0, 420.0)),
        at("outlet-guarded-2", left(600.0, 240.0)),
        at("protector-surge-1", left(700.0, 220.0)),
        at("block-alarm-16", right(340.0, 500.0)),
        at("switch-door-1", Place::Door { bay: 0, end: End::Front, across: mm(120.0), up: mm(820.0) }),
        at("closure-wall-48", right(525.0, 480.0)),
        at("lamp-door-1", Place::Door { bay: 0, end: End::Rear, across: mm(150.0), up: mm(900.0) }),
    ]);
    finish(project, edits)
}
