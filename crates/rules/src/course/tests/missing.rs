//! What happens when something is missing: a door stands open, cooling or supply is lost, or it begins in the cold.

use super::*;

#[test]
fn a_door_open_stops_the_units_of_its_room() {
    let mut desk = Desk::new();
    let server = Device {
        mass: Some(Kilograms(150.0)),
        mount: Mount::Rack(10),
        air: AirDirection::FrontToBack,
        airflow: CubicMetresPerHour(600.0),
        ..warm(900.0)
    };
    desk.add(server, rack(0, 3));
    desk.project.brief.sun = Sun::Shade;
    desk.project.brief.hottest = Celsius(50.0);
    desk.conditioner(1500.0, 0);
    let found = course(&desk);
    // Inside it is kept at 35 °C; with the door open it comes near outdoor air of 50 °C and more.
    let air = &found.door_open.air[0];
    assert!(air.at(0).unwrap() < 40.0 && air.at(30).unwrap() > 49.0, "{:?}", air.0);
    // On the site's own supply the conditioner is lost with it.
    assert!(found.cooling_lost.minutes.is_some_and(|minutes| minutes > 1.0 && minutes < 200.0), "{found:?}");
    assert!(found.cooling_lost.device.is_some());
}

#[test]
fn a_door_opens_when_it_is_hottest_outdoors_of_the_hours_a_thermostat_makes_alike() {
    let desk = desk(100.0);
    let climate = climate(&desk);
    let envelope = desk.with(|case| Envelope::of(case, &climate)).unwrap();
    let outdoors = Outdoors::once(&envelope, &climate.hot_day, DAY_STEP_SECONDS);
    let (limits, mut rooms) = desk.with(|case| (crate::course::limits::limits(case), vec![]));
    rooms.extend(desk.with(|case| crate::course::limits::rooms(case, &limits)));
    // A room without a limit is none that could be met.
    rooms.push(Room { hot_limit: None, ..rooms[0].clone() });
    let air = |highest: Vec<f64>| crate::thermal::RoomRun { highest, ..Default::default() };
    let mut day = crate::thermal::Run { rooms: vec![air(vec![34.8; DAY_STEPS]); 2], ..Default::default() };
    (day.rooms[0].highest[20], day.rooms[1].highest[30]) = (35.0, 60.0);
    let hottest = (0..DAY_STEPS).max_by(|a, b| {
        let air = |step: &usize| climate.hot_day[*step].outside;
        air(a).total_cmp(&air(b))
    });
    assert_eq!(Some(crate::course::transients::hottest_step(&rooms, &day, &outdoors)), hottest);
    day.rooms[0].highest[20] = 40.0;
    assert_eq!(crate::course::transients::hottest_step(&rooms, &day, &outdoors), 20);
}

#[test]
fn what_a_battery_feeds_goes_on_when_the_supply_is_lost() {
    let battery = || Device { kind: DeviceKind::Battery, ..device(2) };
    let mut desk = desk(600.0);
    desk.exchanger(60.0, 0);
    let lost = |desk: &Desk| desk.with(|case| crate::course::duty::goes_on(case, case.units[0].0));
    assert!(!lost(&desk));
    desk.add(battery(), rack(0, 1));
    assert!(lost(&desk));
    let mut conditioned = self::desk(600.0);
    conditioned.conditioner(1000.0, 0);
    conditioned.add(battery(), rack(0, 1));
    assert!(!lost(&conditioned));
}

#[test]
fn a_start_from_cold_needs_heat() {
    let mut cold = desk(200.0);
    cold.project.brief.coldest = Celsius(-30.0);
    cold.project.brief.daily_range = units::Kelvins(5.0);
    let without = course(&cold);
    assert_eq!(without.cold_start.minutes, None);
    cold.heater(1500.0, 0);
    let with = course(&cold);
    assert!(with.cold_start.minutes.is_some_and(|minutes| minutes < 600.0), "{:?}", with.cold_start.minutes);
    assert!(with.room_years[0].lowest > without.room_years[0].lowest);
}

/// Rectifiers, one string of lead, and a load on −48 V that takes air up to a limit, in the shade.
fn on_strings(watts: f64, limit: f64) -> Desk {
    use catalogue::{Cells, Chemistry, Conversion, Electrical, Supply};
    let mut desk = Desk::new();
    desk.project.brief.sun = Sun::Shade;
    desk.project.brief.hottest = Celsius(30.0);
    let converts = Some(Conversion { to: Supply::V48Dc, rating: units::Watts(4000.0), efficiency: 0.95 });
    desk.add(Device { supply: Supply::WideAc, converts, ..device(1) }, rack(0, 1));
    let cells = Cells { count: 24, amp_hours: 100.0, rate_hours: 10.0, charge_limit: None, resistance: None };
    let string = Device {
        kind: DeviceKind::Battery,
        chemistry: Some(Chemistry::Lead),
        mass: Some(Kilograms(140.0)),
        electrical: Electrical { cells: Some(cells), ..Electrical::default() },
        ..device(5)
    };
    desk.add(string, rack(0, 2));
    let load = Device {
        power: units::Watts(watts),
        supply: Supply::V48Dc,
        inlet_max: Some(Celsius(limit)),
        air: AirDirection::FrontToBack,
        airflow: CubicMetresPerHour(200.0),
        ..device(2)
    };
    desk.add(load, rack(0, 10));
    desk
}

#[test]
fn without_supply_the_strings_run_down_as_a_discharge_does_and_then_the_load_is_shed() {
    let mut desk = on_strings(400.0, 90.0);
    desk.project.brief.hottest = Celsius(20.0);
    let found = course(&desk).grid_lost;
    let alone = desk.with(|case| {
        let plant = crate::backup::plant::Plant::of(case).unwrap();
        crate::backup::discharge::discharge(&plant, Celsius(25.0)).unwrap().hours() * 60.0
    });
    let minutes = found.minutes.unwrap();
    assert!((minutes - alone).abs() < 0.01 * alone, "{minutes} instead of {alone}");
    assert!(!found.taken_off && found.because.is_empty() && found.heat.minutes.is_none());
    assert_eq!(found.volts.len(), minutes as usize + 1);
    let (least, most) = found.volts.range().unwrap();
    assert!((43.2..44.5).contains(&least) && (49.0..51.0).contains(&most), "{least} to {most}");
    assert_eq!(found.load.range(), Some((400.0, 400.0)));
    // Twelve hours, and with the load gone the inside comes near outdoor air.
    let air = &found.heat.air[0];
    let ended = air.at(minutes as usize).unwrap();
    assert!(air.len() == 721 && air.at(720).unwrap() < ended - 5.0, "{:?}", air.0);
}

#[test]
fn without_supply_the_air_may_end_it_first() {
    let mut desk = on_strings(400.0, 42.0);
    desk.conditioner(1500.0, 0);
    let found = course(&desk).grid_lost;
    assert!(
        found.heat.minutes.is_some_and(|hot| found.minutes.is_some_and(|end| hot < end)),
        "{:?}",
        found.heat.minutes
    );
}

#[test]
fn without_batteries_all_of_it_stops_at_once() {
    let mut desk = on_strings(400.0, 90.0);
    desk.project.build.devices.remove(1);
    let found = course(&desk).grid_lost;
    assert_eq!((found.because.as_str(), found.minutes, found.volts.len()), ("no battery is fitted", None, 0));
    let air = &found.heat.air[0];
    assert!(air.at(300).unwrap() < air.at(0).unwrap() - 3.0, "{:?}", air.0);
}
