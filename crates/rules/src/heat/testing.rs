//! A small project to test Heat and Weight checks on: round figures that a hand calculation can follow.

use catalogue::{
    AirDirection, Catalogue, ClimateUnit, Device, DeviceKind, Door, Family, Mount, Paint, PartId, Plinth, PlinthUse,
    Range, Shield, ShieldCover, Size, Skin, Supply, Trade, UnitMap, UnitPlace, UnitSort,
};
use project::{
    Bay, BayRole, Brief, Build, Closure, DeviceWhat, End, Faces, FittedDevice, FittedPlinth, FittedShield, FittedUnit,
    HingeSide, ItemId, Place, Project, RailWidth, UnitAt,
};
use units::{Celsius, CubicMetresPerHour, Kelvins, Kilograms, Millimetres, Watts};

use crate::{Case, Check, Finding};

/// A project with its catalogue, to change and judge.
#[derive(Clone)]
pub(crate) struct Desk {
    pub(crate) project: Project,
    pub(crate) catalogue: Catalogue,
}

/// A rack device of so many units, without power, mass 10 kg.
pub(crate) fn device(units: u32) -> Device {
    Device {
        name: "Box".to_owned(),
        kind: DeviceKind::Network,
        mount: Mount::Rack(units),
        width: Millimetres(440.0),
        height: Millimetres(0.0),
        depth: Millimetres(300.0),
        rack: 19,
        four_post: false,
        mass: Some(Kilograms(10.0)),
        power: Watts(0.0),
        power_max: None,
        supply: Supply::None,
        heat_share: 1.0,
        converts: None,
        chemistry: None,
        electrical: catalogue::Electrical::default(),
        inlet_min: None,
        inlet_max: None,
        air: AirDirection::Still,
        airflow: CubicMetresPerHour(0.0),
        face_allowance: Millimetres(0.0),
        back_allowance: Millimetres(0.0),
        fibre_ports: 0,
        splices: 0,
        copper_ports: 0,
        cables: None,
        sound_power: None,
        trade: Trade::default(),
    }
}

/// A place on the front rails.
pub(crate) fn rack(bay: usize, unit: u32) -> Place {
    Place::Rack { bay, rails: End::Front, unit, facing: End::Front, forward: Millimetres(0.0) }
}

/// A unit without a map, on a door, at 48 V.
fn unit(sort: UnitSort, place: UnitPlace, map: UnitMap, set_point: f64) -> ClimateUnit {
    ClimateUnit {
        name: "Unit".to_owned(),
        sort,
        supply: Supply::V48Dc,
        places: vec![place],
        size: Size { width: Millimetres(300.0), depth: Millimetres(200.0), height: Millimetres(400.0) },
        inner_depth: 50.0,
        cut_out_width: 250.0,
        cut_out_height: 350.0,
        mass: Kilograms(20.0),
        map,
        rated: vec![],
        altitude_loss_per_metre: 0.0001,
        airflow: CubicMetresPerHour(300.0),
        starting: None,
        power_factor: None,
        set_point: Celsius(set_point),
        hysteresis: Kelvins(5.0),
        least_off: None,
        input_inside: None,
        soiled_share: 1.0,
        sound_power: None,
        keeps: "4".to_owned(),
        refrigerant: None,
        trade: Trade::default(),
    }
}

/// A device of so many watts that takes air up to a limit, °C.
pub(crate) fn warm(watts: f64, limit: f64) -> Device {
    Device { power: Watts(watts), inlet_max: Some(Celsius(limit)), ..device(1) }
}

/// A desk in the shade with one such device.
pub(crate) fn in_shade(watts: f64, limit: f64) -> Desk {
    let mut desk = Desk::new();
    desk.project.brief.sun = project::Sun::Shade;
    desk.add(warm(watts, limit), rack(0, 10));
    desk
}

impl Desk {
    /// One bay, 20 U, 3 mm aluminium, no insulation, grey paint, no base, no shield, no devices, 40 °C and −20 °C outside.
    pub(crate) fn new() -> Self {
        let mut catalogue = Catalogue::default();
        let any = Range { from: 0.0, to: 10_000.0 };
        let family = Family {
            name: "Test".to_owned(),
            bays: 1,
            heights: vec![20],
            height_range: any,
            depth: any,
            bay_width: any,
            rail_setback: any,
            rail_step: Millimetres(10.0),
            clear_above: Millimetres(50.0),
            clear_below: Millimetres(50.0),
            door_frame: Millimetres(40.0),
            divider_thickness: Millimetres(2.0),
            fittings_per_unit: Kilograms(1.0),
            rail_load: Kilograms(300.0),
            trade: Trade::default(),
        };
        catalogue.families.insert("test".into(), family);
        let skin = Skin {
            name: "Sheet".to_owned(),
            material: "aluminium".to_owned(),
            thickness: Millimetres(3.0),
            density: 2700.0,
            conductivity: 150.0,
            trade: Trade::default(),
        };
        catalogue.skins.insert("sheet".into(), skin);
        let paint = Paint { name: "Grey".to_owned(), absorptance: 0.5, emissivity: 0.9, colour: "#888888".to_owned() };
        catalogue.paints.insert("grey".into(), paint);
        let door = Door {
            name: "Door".to_owned(),
            latch_points: 3,
            leaf_depth: Millimetres(40.0),
            inner_depth: Millimetres(20.0),
            stop_angle: 110.0,
            fittings: Kilograms(5.0),
            carries: Kilograms(60.0),
            trade: Trade::default(),
        };
        catalogue.doors.insert("door".into(), door);
        let build = Build {
            family: "test".into(),
            bays: vec![bay()],
            divider: false,
            units: 20,
            depth: Millimetres(800.0),
            skin: "sheet".into(),
            insulation: Faces::default(),
            paint: "grey".into(),
            plinth: None,
            shield: None,
            door: "door".into(),
            lifting_eyes: None,
            eyes_removed: false,
            pallet: None,
            climate: vec![],
            devices: vec![],
            feeds: vec![],
            next_id: 1,
        };
        let brief = Brief { hottest: Celsius(40.0), coldest: Celsius(-20.0), ..Brief::default() };
        Self { project: Project { name: "Test".to_owned(), brief, build }, catalogue }
    }

    /// The same with a second bay and a divider.
    pub(crate) fn two_bays() -> Self {
        let mut desk = Self::new();
        desk.project.build.bays.push(bay());
        desk.project.build.divider = true;
        desk
    }

    fn next(&mut self) -> ItemId {
        let id = ItemId(self.project.build.next_id);
        self.project.build.next_id += 1;
        id
    }

    /// Adds a device.
    pub(crate) fn add(&mut self, device: Device, at: Place) -> ItemId {
        let id = self.next();
        self.project.build.devices.push(FittedDevice { id, what: DeviceWhat::Own(Box::new(device)), at });
        id
    }

    /// Sets it on a battery plinth of 400 mm, and gives a place on the plinth's floor.
    pub(crate) fn plinth(&mut self) -> Place {
        let plinth = Plinth {
            name: "Plinth".to_owned(),
            used_for: PlinthUse::Battery,
            height: Range { from: 0.0, to: 1000.0 },
            usual_height: Millimetres(400.0),
            thickness: Millimetres(3.0),
            density: 2700.0,
            anchor_inset: Millimetres(50.0),
            anchor_hole: Millimetres(14.0),
            trade: Trade::default(),
        };
        self.catalogue.plinths.insert("plinth".into(), plinth);
        self.project.build.plinth = Some(FittedPlinth { part: "plinth".into(), height: Millimetres(400.0) });
        Place::Floor { bay: 0, plinth: true, across: Millimetres(50.0), along: Millimetres(50.0) }
    }

    fn fit(&mut self, name: &str, part: ClimateUnit, at: UnitAt) -> ItemId {
        let part_id = PartId::from(name);
        self.catalogue.units.insert(part_id.clone(), part);
        let id = self.next();
        self.project.build.climate.push(FittedUnit { id, part: part_id, at, height: None });
        id
    }

    /// Fits an exchanger to a front door: so many W/K, map 20…60 °C inside, −20…50 °C outside, no input, set to 30 °C.
    pub(crate) fn exchanger(&mut self, conductance: f64, bay: usize) -> ItemId {
        let inside: Vec<f64> = (0..=40).map(|step| 20.0 + f64::from(step)).collect();
        let outside: Vec<f64> = (0..=70).map(|step| -20.0 + f64::from(step)).collect();
        let row = |t: f64| outside.iter().map(|to| conductance * (t - to).max(0.0)).collect();
        let capacity: Vec<Vec<f64>> = inside.iter().map(|t| row(*t)).collect();
        let input = vec![vec![0.0; outside.len()]; inside.len()];
        let map = UnitMap { inside, outside, capacity, input };
        let mut part = unit(UnitSort::Exchanger, UnitPlace::Door, map, 30.0);
        part.name = "Exchanger".to_owned();
        self.fit("exchanger", part, UnitAt::Door { bay, end: End::Front })
    }

    /// Fits an air conditioner of one capacity to a front door: map 20…50 °C inside, 20…50 °C outside, set to 35 °C.
    pub(crate) fn conditioner(&mut self, capacity: f64, bay: usize) -> ItemId {
        let map = flat_map([20.0, 50.0], [20.0, 50.0], capacity, 200.0);
        let mut part = unit(UnitSort::AirConditioner, UnitPlace::Door, map, 35.0);
        part.name = "Conditioner".to_owned();
        part.supply = Supply::V230Ac;
        self.fit("conditioner", part, UnitAt::Door { bay, end: End::Front })
    }

    /// Puts a heater inside a bay: map −40…40 °C inside, −60…60 °C outside, set to 10 °C.
    pub(crate) fn heater(&mut self, capacity: f64, bay: usize) -> ItemId {
        let map = flat_map([-40.0, 40.0], [-60.0, 60.0], capacity, capacity);
        let mut part = unit(UnitSort::Heater, UnitPlace::Inside, map, 10.0);
        part.name = "Heater".to_owned();
        part.supply = Supply::V120Ac;
        self.fit("heater", part, UnitAt::Inside { bay })
    }

    /// Fits a shield of any gap, mm, with 50 mm of overhang.
    pub(crate) fn shield(&mut self, covers: ShieldCover, gap: f64) {
        let any = Range { from: 0.0, to: 1000.0 };
        let part = Shield {
            name: "Shield".to_owned(),
            covers,
            gap: any,
            overhang: any,
            thickness: Millimetres(2.0),
            density: 2700.0,
            trade: Trade::default(),
        };
        self.catalogue.shields.insert("shield".into(), part);
        let fitted = FittedShield { part: "shield".into(), gap: Millimetres(gap), overhang: Millimetres(50.0) };
        self.project.build.shield = Some(fitted);
    }

    /// Derives the case and looks at it.
    pub(crate) fn with<T>(&self, look: impl FnOnce(&Case) -> T) -> T {
        look(&Case::new(&self.project, &self.catalogue))
    }

    /// Runs a check.
    pub(crate) fn run(&self, check: &Check) -> Vec<Finding> {
        self.with(|case| (check.run)(check, case))
    }
}

fn flat_map(inside: [f64; 2], outside: [f64; 2], capacity: f64, input: f64) -> UnitMap {
    UnitMap {
        inside: inside.to_vec(),
        outside: outside.to_vec(),
        capacity: vec![vec![capacity; 2]; 2],
        input: vec![vec![input; 2]; 2],
    }
}

fn bay() -> Bay {
    Bay {
        role: BayRole::Mixed,
        width: Millimetres(600.0),
        rails: RailWidth::Nineteen,
        front_setback: Millimetres(100.0),
        rear_setback: Millimetres(100.0),
        front: Closure::Door(HingeSide::Left),
        rear: Closure::Door(HingeSide::Right),
        manager_left: None,
        manager_right: None,
        gland_plates: vec![],
    }
}

/// The value of a step of the working.
#[track_caller]
pub(crate) fn step(finding: &Finding, symbol: &str) -> f64 {
    let found = finding.working.iter().find(|step| step.symbol == symbol);
    found.unwrap_or_else(|| panic!("no step {symbol} in {:?}", finding.working)).value.number
}
