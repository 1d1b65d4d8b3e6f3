use catalogue::{Device, DeviceKind, Electrical, Supply};
use units::{Celsius, System, Watts};

use super::super::testing::{converter, direct, disconnect, lead, lithium, plant};
use super::*;
use crate::heat::testing::{Desk, device, rack, step};

/// A plant in a warm place, so that nothing is lost to cold.
fn warm(batteries: Vec<Device>, loads: Vec<Device>, asked: Option<f64>) -> Desk {
    let mut desk = plant(batteries, loads);
    desk.project.brief.coldest = Celsius(30.0);
    desk.project.brief.power.autonomy = asked.map(Hours);
    desk
}

#[track_caller]
fn check(desk: &Desk, outcome: Outcome) -> Finding {
    let found = desk.run(&CHECK).remove(0);
    assert_eq!(found.outcome, outcome, "{found:?}");
    found
}

#[track_caller]
fn says(desk: &Desk, outcome: Outcome, said: &str) {
    let found = check(desk, outcome);
    assert_eq!((found.because.shown(System::Metric).as_str(), found.given), (said, None));
}

#[test]
fn lead_lasts_about_as_peukert_says() {
    // 80 Ah at end of life, 10 h rate; 900 W at some 48 V are about 18.6 A: 10 · (80 / 186)^1.15 = 3.8 h.
    let found = check(&warm(vec![lead(24, 100.0)], vec![direct(900.0)], Some(3.0)), Outcome::Holds);
    let hours = step(&found, "t");
    assert!((3.6..4.0).contains(&hours), "{hours}");
    assert!((step(&found, "C") - 80.0).abs() < 1e-9);
    check(&warm(vec![lead(24, 100.0)], vec![direct(900.0)], Some(hours)), Outcome::Tight);
    check(&warm(vec![lead(24, 100.0)], vec![direct(900.0)], Some(hours + 0.01)), Outcome::Fails);
}

#[test]
fn lithium_lasts_what_its_energy_gives() {
    // 100 Ah · 0.8 · 0.9 = 72 Ah at some 49 V and 480 W: 7.3 h.
    let found = check(&warm(vec![lithium(15, 100.0)], vec![direct(480.0)], None), Outcome::Holds);
    assert!((7.2..7.5).contains(&step(&found, "t")), "{found:?}");
}

#[test]
fn a_disconnect_that_opens_early_takes_hours_away() {
    let hours = |opens| {
        let desk = warm(vec![lead(24, 100.0), disconnect(opens)], vec![direct(900.0)], None);
        step(&check(&desk, Outcome::Holds), "t")
    };
    assert_eq!(hours(42.0), hours(43.2));
    assert!(hours(44.5) < hours(43.2) && hours(44.5) > 0.5 * hours(43.2));
}

#[test]
fn an_inverter_and_growth_draw_more() {
    let inverter = || converter(Supply::V48Dc, Supply::V120Ac, 1000.0, 0.9);
    let load = || Device { kind: DeviceKind::Compute, power: Watts(450.0), supply: Supply::V120Ac, ..device(1) };
    let mut desk = warm(vec![lead(24, 100.0)], vec![inverter(), load()], None);
    assert!((step(&check(&desk, Outcome::Holds), "P") - 500.0).abs() < 1e-9);
    desk.project.brief.power.growth = 0.2;
    assert!((step(&check(&desk, Outcome::Holds), "P") - 600.0).abs() < 1e-9);
}

#[test]
fn a_device_whose_other_input_is_dead_draws_all_of_it_here() {
    // One input on the plant by way of an inverter, the other on the load centre.
    let two = Electrical { two_inputs: true, ..Electrical::default() };
    let load = Device { power: Watts(300.0), supply: Supply::V120Ac, electrical: two, ..device(1) };
    let inverter = converter(Supply::V48Dc, Supply::V120Ac, 1000.0, 1.0);
    let mut desk = warm(vec![lead(24, 100.0)], vec![inverter], None);
    let id = desk.add(load, rack(0, 10));
    let from = project::ItemId(3);
    desk.project.build.feeds =
        vec![project::ChosenFeed { load: project::Fed::Second(id), from: Some(from), position: None }];
    assert!((step(&check(&desk, Outcome::Holds), "P") - 300.0).abs() < 1e-9);
}

#[test]
fn nothing_is_asked_that_does_not_matter() {
    says(&Desk::new(), Outcome::Holds, "nobody asks for backup, and no battery is fitted");
    let silent = Device { chemistry: None, ..lead(24, 100.0) };
    says(&warm(vec![silent.clone()], vec![direct(10.0)], None), Outcome::Holds, "nobody asks for backup");
    check(&warm(vec![silent], vec![direct(10.0)], Some(1.0)), Outcome::NeedsData);
    says(&warm(vec![lead(24, 100.0)], vec![], Some(1.0)), Outcome::Holds, "nothing draws from the batteries");
}

#[test]
fn no_battery_lasts_no_time() {
    let mut desk = warm(vec![], vec![direct(10.0)], Some(1.0));
    let found = check(&desk, Outcome::Fails);
    assert_eq!(found.given.map(|given| given.number), Some(0.0));
    desk.project.brief.supply = SiteSupply::Remote48Dc;
    says(&desk, Outcome::Holds, "the plant elsewhere carries it");
}

#[test]
fn out_of_range_gives_no_figure() {
    let mut cold = warm(vec![lead(24, 100.0)], vec![direct(1.0)], Some(1.0));
    cold.project.brief.daily_range = units::Kelvins(0.0);
    cold.project.brief.coldest = Celsius(-20.0);
    let found = check(&cold, Outcome::OutOfRange);
    assert_eq!(found.given, None);
    let why = "it lasts less than a quarter of an hour, below which Peukert's law gives no figure";
    says(&warm(vec![lead(24, 10.0)], vec![direct(3000.0)], Some(0.1)), Outcome::OutOfRange, why);
    says(&warm(vec![lead(24, 10.0)], vec![direct(3000.0)], Some(1.0)), Outcome::Fails, why);
    check(&warm(vec![lithium(15, 10.0)], vec![direct(3000.0)], Some(0.5)), Outcome::OutOfRange);
}

#[test]
fn what_computes_and_stops_is_told() {
    let mut desk = warm(vec![lead(24, 100.0)], vec![direct(100.0)], Some(1.0));
    let server = Device { kind: DeviceKind::Compute, power: Watts(50.0), supply: Supply::V120Ac, ..device(1) };
    let id = desk.add(server, rack(0, 12));
    let found = desk.run(&CHECK);
    assert_eq!((found[0].outcome, found.len()), (Outcome::Holds, 2));
    assert_eq!((found[1].outcome, found[1].subject), (Outcome::Fails, Subject::Device(id)));
    desk.project.brief.power.autonomy = None;
    assert_eq!(desk.run(&CHECK).len(), 1);
}
