use catalogue::Device;
use project::Sun;
use units::{Metres, Watts};

use super::*;
use crate::heat::testing::{Desk, device, in_shade, rack, step, warm};

#[track_caller]
fn check(desk: &Desk, outcome: Outcome, air: f64) -> Finding {
    let findings = desk.run(&CHECK);
    let lead = &findings[0];
    assert_eq!(lead.outcome, outcome, "{lead:?}");
    let given = lead.given.map_or(f64::NAN, |given| given.number);
    assert!((given - air).abs() < 1e-6 || (given.is_nan() && air.is_nan()), "{given} against {air}");
    lead.clone()
}

/// Conductance of the desk's faces in the shade, on the ground: Σ A / (1/8 + 0.003/150 + 1/17).
fn free_conductance() -> f64 {
    // Body: 600 + 6 wide, 800 deep, 20 · 44.45 + 100 + 6 high.
    let (w, d, h) = (0.606, 0.8, 0.995);
    (2.0 * w * h + 2.0 * d * h + w * d) / (1.0 / 8.0 + 0.003 / 150.0 + 1.0 / 17.0)
}

#[test]
fn walls_alone_follow_the_hand_calculation() {
    let air = 40.0 + 200.0 / free_conductance();
    let lead = check(&in_shade(200.0, 60.0), Outcome::Holds, air);
    assert!((step(&lead, "U·A") - free_conductance()).abs() < 1e-9);
    assert!((lead.used.unwrap() - (air - 40.0) / 20.0).abs() < 1e-9);
    assert!(lead.help.is_empty());
}

#[test]
fn it_is_tight_within_three_kelvins_and_fails_at_the_limit() {
    let air = 40.0 + 200.0 / free_conductance();
    check(&in_shade(200.0, air + 3.01), Outcome::Holds, air);
    check(&in_shade(200.0, air + 2.99), Outcome::Tight, air);
    check(&in_shade(200.0, air + 0.01), Outcome::Tight, air);
    let lead = check(&in_shade(200.0, air - 0.01), Outcome::Fails, air);
    assert!(!lead.help.is_empty());
}

#[test]
fn an_exchanger_cools_and_the_working_adds_up() {
    let mut desk = in_shade(900.0, 60.0);
    desk.exchanger(80.0, 0);
    desk.catalogue.units.values_mut().for_each(|unit| unit.altitude_loss_per_metre = 1e-4);
    let air = 40.0 + 900.0 / (free_conductance() + 80.0);
    let lead = check(&desk, Outcome::Holds, air);
    assert!((step(&lead, "Q_unit") - 80.0 * (air - 40.0)).abs() < 1e-6);
    assert!((step(&lead, "Q_units") - step(&lead, "Q_unit")).abs() < 1e-6);
    // At 1000 m the maker's loss leaves 0.9 of it.
    desk.project.brief.elevation = Metres(1000.0);
    check(&desk, Outcome::Holds, 40.0 + 900.0 / (free_conductance() + 72.0));
}

#[test]
fn a_conditioner_holds_its_set_point_below_outdoor_air() {
    let mut desk = in_shade(600.0, 45.0);
    desk.conditioner(1500.0, 0);
    let lead = check(&desk, Outcome::Holds, 35.0);
    let needed = 600.0 + 5.0 * free_conductance();
    assert!((step(&lead, "Q_units") - needed).abs() < 1e-6);
    assert_eq!(step(&lead, "Q_unit"), 1500.0);
    // A limit below outdoor air holds too, on its own scale: 1 − (39 − 35) / 10.
    let mut lower = desk.clone();
    lower.add(warm(0.0, 39.0), rack(0, 1));
    assert!((check(&lower, Outcome::Holds, 35.0).used.unwrap() - 0.6).abs() < 1e-9);
}

#[test]
fn a_limit_below_outdoor_air_fails_without_a_conditioner() {
    let air = 40.0 + 100.0 / free_conductance();
    let lead = check(&in_shade(100.0, 38.0), Outcome::Fails, air);
    assert!(lead.used.unwrap() > 1.0);
}

#[test]
fn beyond_the_map_it_fails_when_that_is_sure_and_gives_no_number() {
    let build = |limit| {
        let mut desk = in_shade(6000.0, limit);
        desk.exchanger(10.0, 0);
        desk
    };
    assert!(check(&build(55.0), Outcome::Fails, f64::NAN).said().shown(System::Metric).contains("above 60"));
    check(&build(60.0), Outcome::Fails, f64::NAN);
    check(&build(61.0), Outcome::OutOfRange, f64::NAN);
}

#[test]
fn says_so_outside_its_range() {
    let mut hot = in_shade(100.0, 75.0);
    hot.project.brief.hottest = Celsius(55.0);
    check(&hot, Outcome::Holds, 55.0 + 100.0 / free_conductance());
    hot.exchanger(80.0, 0);
    let said = check(&hot, Outcome::OutOfRange, f64::NAN).said().shown(System::Metric);
    assert!(said.contains("Exchanger has no map at 55"), "{said}");
    let mut high = in_shade(100.0, 60.0);
    high.project.brief.elevation = Metres(3000.0);
    check(&high, Outcome::Holds, 40.0 + 100.0 / free_conductance());
    high.project.brief.elevation = Metres(3001.0);
    check(&high, Outcome::OutOfRange, f64::NAN);
    let mut absurd = in_shade(f64::NAN, 60.0);
    check(&absurd, Outcome::OutOfRange, f64::NAN);
    absurd.project.brief.hottest = Celsius(f64::NAN);
    check(&absurd, Outcome::OutOfRange, f64::NAN);
}

#[test]
fn names_the_devices_that_set_no_limit() {
    let mut desk = in_shade(100.0, 60.0);
    desk.add(Device { name: "Recorder".to_owned(), power: Watts(50.0), ..device(1) }, rack(0, 2));
    let findings = desk.run(&CHECK);
    assert_eq!(findings.len(), 2);
    assert_eq!(findings[1].outcome, Outcome::NeedsData);
    assert!(findings[1].said().shown(System::Metric).contains("Recorder, A 2"));
}

#[test]
fn tells_the_figure_when_no_device_sets_a_limit() {
    let mut desk = Desk::new();
    desk.project.brief.sun = Sun::Shade;
    check(&desk, Outcome::Holds, 40.0);
}

#[test]
fn the_device_with_the_lowest_limit_leads_and_others_that_fail_follow() {
    let mut desk = in_shade(1000.0, 50.0);
    let low = desk.add(warm(0.0, 45.0), rack(0, 1));
    desk.add(warm(0.0, 300.0), rack(0, 2));
    let findings = desk.run(&CHECK);
    assert_eq!(findings[0].subject, Subject::Device(low));
    assert_eq!(findings.len(), 2);
}

#[test]
fn the_device_with_the_lowest_limit_leads_beyond_the_map_too() {
    let mut desk = in_shade(6000.0, 55.0);
    desk.exchanger(10.0, 0);
    let low = desk.add(warm(0.0, 41.0), rack(0, 1));
    let lead = check(&desk, Outcome::Fails, f64::NAN);
    assert_eq!(lead.subject, Subject::Device(low));
    // 6000 W at 41 °C, of which walls and exchanger take one kelvin's worth.
    let lacking = 6000.0 - free_conductance() - 10.0;
    let more = Phrase::new().value(Value::new(lacking, Kind::Power)).shown(System::Metric);
    assert!(lead.help[0].shown(System::Metric).starts_with(&more), "{:?}", lead.help);
}

#[test]
fn the_reserve_is_three_kelvins_however_near_the_limit_is_to_outdoor_air() {
    check(&in_shade(0.0, 42.0), Outcome::Tight, 40.0);
    check(&in_shade(0.0, 43.5), Outcome::Holds, 40.0);
    let mut cooled = in_shade(100.0, 37.0);
    cooled.conditioner(9000.0, 0);
    check(&cooled, Outcome::Tight, 35.0);
}

#[test]
fn a_shield_is_offered_only_where_it_cools() {
    let mut desk = in_shade(0.0, 41.0);
    desk.project.brief.sun = Sun::Full;
    let offers = |desk: &Desk| {
        let help = &desk.run(&CHECK)[0].help;
        help.iter().any(|one| one.shown(System::Metric).contains("shield"))
    };
    assert!(offers(&desk));
    // 60 K above outdoor air the walls lose more to the wind than the sun brings in.
    desk.add(warm(1000.0, 41.0), rack(0, 1));
    assert!(!offers(&desk));
}

#[test]
fn the_plinth_has_outdoor_air() {
    let mut desk = in_shade(100.0, 70.0);
    let at = desk.plinth();
    let battery = desk.add(Device { mount: catalogue::Mount::Floor, ..warm(0.0, 35.0) }, at);
    let lead = check(&desk, Outcome::Fails, 40.0);
    assert_eq!(lead.subject, Subject::Device(battery));
    assert_eq!((step(&lead, "T_in"), step(&lead, "T_max")), (40.0, 35.0));
}

#[test]
fn mirrored_bays_give_mirrored_air() {
    let build = |bay| {
        let mut desk = Desk::two_bays();
        desk.add(warm(500.0, 70.0), rack(bay, 3));
        desk.add(warm(100.0, 60.0), rack(1 - bay, 3));
        desk.exchanger(20.0, bay);
        desk
    };
    let (left, right) = (build(0).run(&CHECK), build(1).run(&CHECK));
    let air = |findings: &[Finding]| findings[0].given.unwrap().number;
    assert!((air(&left) - air(&right)).abs() < 1e-6, "{} {}", air(&left), air(&right));
}

#[test]
fn more_heat_or_warmer_air_outside_never_cools() {
    let mut last = f64::NEG_INFINITY;
    for watts in (0..30).map(|step| 50.0 * f64::from(step)) {
        let mut desk = in_shade(watts, 300.0);
        desk.conditioner(400.0, 0);
        let Some(given) = desk.run(&CHECK)[0].given else { break };
        assert!(given.number >= last - 1e-8);
        last = given.number;
    }
    assert!(last > 35.0, "the set point was never left: {last}");
    let mut last = f64::NEG_INFINITY;
    for outside in 20..50 {
        let mut desk = in_shade(500.0, 300.0);
        desk.project.brief.hottest = Celsius(f64::from(outside));
        desk.exchanger(60.0, 0);
        let given = desk.run(&CHECK)[0].given.unwrap().number;
        assert!(given >= last - 1e-8, "{given} after {last}");
        last = given;
    }
}

#[test]
fn gives_no_number_above_what_the_films_cover() {
    // Ten kilowatts in a bare cabinet: hundreds of kelvins by the formula, which no film bears out.
    let desk = in_shade(10_000.0, 55.0);
    let finding = check(&desk, Outcome::Fails, f64::NAN);
    assert!(finding.said().shown(System::Metric).contains("above 100"), "{finding:?}");
    assert!(finding.given.is_none() && finding.margin.is_none());
}
