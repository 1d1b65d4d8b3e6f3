//! A small course to test the checks over time on: one room, round figures, all of it inside its limits.

use project::ItemId;
use units::Celsius;

use catalogue::{Chemistry, Device, DeviceKind};

use crate::course::{
    BatteryYear, Course, DeviceYear, GridLost, Peak, Room, RoomYear, Series, Span, Transient, Unit, UnitYear,
};
use crate::heat::testing::{Desk, device, rack};
use crate::{Case, Check, Finding, Outcome, Report, report_on};

/// A project with a run over time, to change and judge.
#[derive(Clone)]
pub(crate) struct Trial {
    pub(crate) desk: Desk,
    pub(crate) course: Course,
    /// A router of 400 W that takes air of 0…55 °C.
    pub(crate) router: ItemId,
    /// An iron phosphate battery that takes air of −20…55 °C.
    pub(crate) battery: ItemId,
    /// An air conditioner.
    pub(crate) conditioner: ItemId,
    /// A heater.
    pub(crate) heater: ItemId,
}

/// The hour of the year in which the room is hottest: 21 July, 15 to 16 h.
pub(crate) const HOTTEST: u32 = (181 + 20) * 24 + 15;

fn even(number: f64, length: usize) -> Series {
    std::iter::repeat_n(number, length).collect()
}

fn span(step: f64, steps: usize, rooms: usize, units: usize) -> Span {
    Span {
        step,
        outside: even(40.0, steps),
        sun: even(800.0, steps),
        sun_height: even(45.0, steps),
        sun_bearing: even(180.0, steps),
        faces: vec![even(200.0, steps); 5],
        air: vec![even(45.0, steps); rooms],
        highest: vec![even(45.0, steps); rooms],
        duty: vec![even(0.5, steps); units],
    }
}

fn run(minutes: Option<f64>, device: Option<ItemId>) -> Transient {
    Transient { minutes, room: 0, device, air: vec![even(45.0, 121)], because: String::new() }
}

impl Trial {
    /// One bay with a router, a battery, an air conditioner and a heater.
    pub(crate) fn new() -> Self {
        let mut desk = Desk::new();
        let router = Device {
            name: "Router".to_owned(),
            power: units::Watts(400.0),
            inlet_min: Some(Celsius(0.0)),
            inlet_max: Some(Celsius(55.0)),
            ..device(1)
        };
        let router = desk.add(router, rack(0, 5));
        let battery = Device {
            name: "Battery".to_owned(),
            kind: DeviceKind::Battery,
            chemistry: Some(Chemistry::Lithium),
            inlet_min: Some(Celsius(-20.0)),
            inlet_max: Some(Celsius(55.0)),
            ..device(2)
        };
        let battery = desk.add(battery, rack(0, 1));
        let conditioner = desk.conditioner(1000.0, 0);
        let heater = desk.heater(500.0, 0);
        let of_device =
            |id| DeviceYear { id, highest: 48.0, lowest: 6.0, hours_above: Some(0.0), hours_below: Some(0.0) };
        let unit = |id, name: &str, heats| Unit { id, name: name.to_owned(), room: 0, heats };
        let room = Room {
            name: String::new(),
            hot_limit: Some(55.0),
            hot_device: Some(router),
            cold_limit: 0.0,
            cold_device: Some(router),
        };
        let room_year = RoomYear {
            highest: 48.0,
            highest_at: HOTTEST,
            lowest: 6.0,
            lowest_at: 3,
            mean: 27.0,
            hours_above: Some(0.0),
            hours_below: 0.0,
            devices: vec![of_device(router), of_device(battery)],
        };
        let unit_year = UnitYear {
            starts: 2000,
            most_starts: 4,
            hours: 1000.0,
            heat: 900.0,
            electricity: 300.0,
            electricity_by_month: [25.0; 12],
            hours_beyond_map: 0,
        };
        let by_month = std::array::from_fn(|month| if (3..9).contains(&month) { 0.0 } else { 200.0 / 6.0 });
        let heating = UnitYear { electricity: 200.0, electricity_by_month: by_month, ..unit_year.clone() };
        let peak = Peak {
            hour: HOTTEST,
            devices: 400.0,
            sun: 250.0,
            envelope: -150.0,
            divider: 0.0,
            units: -480.0,
            stored: -20.0,
        };
        let of_battery = BatteryYear {
            id: battery,
            mean: 26.0,
            highest: 44.0,
            lowest: 6.0,
            ageing: 1.25,
            hours_below_freezing: 0.0,
        };
        let course = Course {
            weather: "Test year".to_owned(),
            notes: vec![],
            rooms: vec![room],
            units: vec![unit(conditioner, "Conditioner", false), unit(heater, "Heater", true)],
            hot_day: span(0.25, 96, 1, 2),
            cold_day: span(0.25, 96, 1, 2),
            year: span(1.0, 8760, 1, 2),
            room_years: vec![room_year],
            unit_years: vec![unit_year, heating],
            peaks: vec![peak],
            residual: 1e-9,
            batteries: vec![of_battery],
            door_open: run(Some(12.0), Some(router)),
            cooling_lost: run(Some(20.0), Some(router)),
            grid_lost: GridLost {
                heat: run(Some(300.0), Some(router)),
                minutes: Some(150.0),
                taken_off: false,
                volts: even(48.0, 151),
                load: even(400.0, 151),
                because: String::new(),
            },
            cold_start: run(Some(90.0), None),
        };
        Self { desk, course, router, battery, conditioner, heater }
    }

    /// The same with another course.
    pub(crate) fn with_course(change: impl FnOnce(&mut Course)) -> Self {
        let mut trial = Self::new();
        change(&mut trial.course);
        trial
    }

    /// Two bays with a divider, each with a room of the same course; the router stands in the left one.
    pub(crate) fn two_rooms() -> Self {
        let mut trial = Self::new();
        let two = Desk::two_bays().project.build;
        trial.desk.project.build.bays = two.bays;
        trial.desk.project.build.divider = true;
        let course = &mut trial.course;
        course.rooms[0].name = "bay A".to_owned();
        let other = Room { name: "bay B".to_owned(), hot_limit: None, hot_device: None, ..course.rooms[0].clone() };
        course.rooms.push(other);
        let year = RoomYear { hours_above: None, devices: vec![], ..course.room_years[0].clone() };
        course.room_years.push(year);
        course.peaks.push(course.peaks[0].clone());
        for span in [&mut course.hot_day, &mut course.cold_day, &mut course.year] {
            span.air.push(span.air[0].clone());
            span.highest.push(span.highest[0].clone());
        }
        trial
    }

    /// Changes a device of the project.
    pub(crate) fn change(&mut self, id: ItemId, change: impl FnOnce(&mut Device)) {
        let fitted = self.desk.project.build.devices.iter_mut().find(|device| device.id == id).unwrap();
        let project::DeviceWhat::Own(own) = &mut fitted.what else { panic!("not the desk's own") };
        change(own);
    }

    fn with<T>(&self, look: impl FnOnce(&Case) -> T) -> T {
        look(&Case::new(&self.desk.project, &self.desk.catalogue).with_course(Some(&self.course)))
    }

    /// Runs a check.
    pub(crate) fn run(&self, check: &Check) -> Vec<Finding> {
        self.with(|case| (check.run)(check, case))
    }

    /// Runs a check that finds one thing only, which comes out as said, and gives it.
    #[track_caller]
    pub(crate) fn only(&self, check: &Check, outcome: Outcome) -> Finding {
        let [finding] = self.run(check).try_into().unwrap();
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        finding
    }

    /// Runs a check whose first finding comes out as said, and gives that one.
    #[track_caller]
    pub(crate) fn lead(&self, check: &Check, outcome: Outcome) -> Finding {
        let finding = self.run(check).remove(0);
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        finding
    }

    /// Runs every check.
    pub(crate) fn report(&self) -> Report {
        self.with(|case| report_on(case).wired(case).over_time(case))
    }
}
