//! **H07 `coldest-inside-air`** – do the heaters keep the air inside warm enough at the coldest hour?
//!
//! Q_need = U·A · (T_keep − T_cold) − P_min;  Σ map(T_keep, T_cold) ≥ Q_need;  in the plinth T_cold ≥ T_min
//!
//! - Q_need  heat the heaters have to give                                     [W]
//! - U·A     conductance of the outer faces, winter film                       [W/K]
//! - T_keep  highest of the brief's wish and the devices' inlet limits below   [°C]
//! - T_cold  outdoor air at the coldest hour                                   [°C]
//! - P_min   heat of the devices in ordinary use, losses of conversion         [W]
//! - T_min   lowest inlet air of a device in the plinth, which has outdoor air [°C]
//!
//! Source:      heat balance; heater maps from the catalogue; winter film of building practice, from memory.
//! Valid for:   steady state, no sun, fans and exchangers off, outdoor air −60…60 °C, sites up to 3 000 m.
//! Agreement:   tests/published/heat.toml, T07-08, exact.
//! Not covered: start from cold, leaks through idle fans, heat that passes between bays, moisture.
//!
//! Where the devices keep themselves warm, the figure is what is lost at T_keep, held against what they give off.
//!
//! The safe side: faces against a wall and a floor on the ground lose as if they stood free. A heater counts only when its
//! thermostat starts it at T_keep or above. The reserve of a tenth is common practice, no source.

use catalogue::UnitSort;
use units::{Celsius, Kelvins, Kind, Value};

use super::cooling::{served, site_in_range};
use super::formulas::unit_map::Curve;
use super::heat_sources::{Draw, Room, device_heats, room};
use super::walls::{Hour, Wall, compartment_name, compartments, conductance, walls};
use crate::finding::worst_first;
use crate::sources::{CATALOGUE, FILMS, HEAT_BALANCE};
use crate::{Asked, Case, Check, Finding, Outcome, Phrase, PlacedDevice, Step, Subject, Symbol, Topic};

/// Share of the capacity above which it is tight. Common practice, no source.
const RESERVE: f64 = 0.9;

/// Kelvins above the limit at which a device in the plinth is tight, and the length of its scale. Common practice, no source.
const PLINTH_RESERVE: f64 = 3.0;
const PLINTH_SCALE: f64 = 10.0;

/// The check.
pub static CHECK: Check = Check {
    code: "H07",
    name: "coldest-inside-air",
    topic: Topic::Heat,
    question: "Do the heaters keep the air inside warm enough at the coldest hour?",
    formula: "Σ map(T_keep, T_cold) ≥ U·A · (T_keep − T_cold) − P_min;  in the plinth T_cold ≥ T_min",
    symbols: &[
        Symbol { symbol: "Q_need", meaning: "heat the heaters have to give", kind: Kind::Power },
        Symbol { symbol: "U·A", meaning: "conductance of the outer faces, winter film", kind: Kind::Conductance },
        Symbol { symbol: "T_keep", meaning: "air to be kept inside", kind: Kind::Temperature },
        Symbol { symbol: "T_cold", meaning: "outdoor air, coldest hour", kind: Kind::Temperature },
        Symbol { symbol: "P_min", meaning: "heat of the devices in ordinary use", kind: Kind::Power },
        Symbol { symbol: "T_min", meaning: "lowest inlet air of a device in the plinth", kind: Kind::Temperature },
    ],
    sources: &[&HEAT_BALANCE, &FILMS, &CATALOGUE],
    valid: "steady state, no sun, fans and exchangers off, outdoor air −60 to 60 °C, up to 3 000 m",
    leaves_out: "start from cold, leaks through idle fans, heat that passes between bays, moisture",
    caution: None,
    asked: Some(Asked::Coldest),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    let outside = case.project.brief.coldest;
    let walls = match site_in_range(case, outside).and_then(|()| walls(case)) {
        Ok(walls) => walls,
        Err(gap) => return vec![gap.finding(check, Subject::Cabinet)],
    };
    let build = &case.project.build;
    if case.units.len() < build.climate.len() || case.devices.len() < build.devices.len() {
        return vec![Finding::needs_data(check, Subject::Cabinet, case.missing_parts())];
    }
    let mut findings: Vec<Finding> = (0..compartments(case)).map(|index| judge(check, case, &walls, index)).collect();
    findings.extend(in_plinth(check, case));
    worst_first(findings)
}

/// What stands in the plinth has outdoor air at the coldest hour, which no heater warms.
fn in_plinth(check: &Check, case: &Case) -> Vec<Finding> {
    let outside = case.project.brief.coldest;
    let judge = |device| {
        let limit = device_limit(case, device)?;
        // used = 1 − (T_cold − T_min) / 10 K
        let used = (1.0 - (outside.0 - limit.0) / PLINTH_SCALE).max(0.0);
        let reserve = 1.0 - PLINTH_RESERVE / PLINTH_SCALE;
        let subject = Subject::Device(device.fitted.id);
        let finding = Finding::on_scale(check, subject, outside, limit, outside - limit, used, reserve);
        let working = vec![
            Step::input("T_cold", "outdoor air, coldest hour", outside),
            Step::input("T_min", "lowest inlet air of the device", limit).from_source(&CATALOGUE),
        ];
        let finding = finding.about(case.name(device)).because("the plinth's room is taken at outdoor temperature");
        Some(finding.working(working).help("It may stand in the body instead"))
    };
    case.devices.iter().filter_map(judge).collect()
}

/// The lowest inlet air of a device, when it stands in the plinth.
fn device_limit(case: &Case, device: &PlacedDevice<'_>) -> Option<Celsius> {
    device.spec.inlet_min.filter(|_| room(case, device) == Some(Room::Plinth))
}

/// The air to be kept in a compartment, and who asks for it.
fn to_keep(case: &Case, index: usize) -> (Celsius, Phrase) {
    let mut keep = (case.project.brief.keep_above, Phrase::from("kept by the brief"));
    for device in &case.devices {
        if let (Some(limit), Some(Room::Compartment(at))) = (device.spec.inlet_min, room(case, device))
            && at == index
            && limit > keep.0
        {
            keep = (limit, Phrase::from("lowest inlet air of ").then(case.name(device)));
        }
    }
    keep
}

fn judge(check: &Check, case: &Case, walls: &[Wall], index: usize) -> Finding {
    let subject = if compartments(case) == 1 { Subject::Cabinet } else { Subject::Bay(index) };
    let about = compartment_name(case, index);
    let outside = case.project.brief.coldest;
    let (keep, who) = to_keep(case, index);
    let own = walls.iter().filter(|wall| wall.compartment == index);
    let ua: f64 = own.map(|wall| wall.conductance(Hour::Coldest, false)).sum();
    let heats = device_heats(case, Draw::Ordinary, &[]);
    let own = heats.iter().filter(|heat| heat.room == Room::Compartment(index));
    let p_min = 0.0 + own.map(|heat| heat.own + heat.losses).sum::<f64>();
    // Q_need = U·A · (T_keep − T_cold) − P_min
    let need = ua * (keep.0 - outside.0) - p_min;

    let watts = |number: f64| Value::new(number, Kind::Power);
    let mut working = vec![
        Step::input("T_cold", "outdoor air, coldest hour", outside),
        Step::input("T_keep", who, keep),
        Step::input("P_min", "heat of the devices in ordinary use", watts(p_min)).from_source(&CATALOGUE),
        Step::input("U·A", climate::OUTSIDE_WINTER.about, conductance(ua)).from_source(&FILMS),
        Step::computed(
            "Q_need",
            "heat the heaters have to give",
            "U·A · (T_keep − T_cold) − P_min",
            Phrase::new()
                .number(conductance(ua))
                .text(" × ")
                .number(Kelvins(keep.0 - outside.0))
                .text(" − ")
                .number(watts(p_min)),
            watts(need),
        )
        .from_source(&HEAT_BALANCE),
    ];
    if !need.is_finite() {
        return Finding::out_of_range(check, subject, "figures beyond any cabinet").about(about);
    }

    let mut capacity = 0.0;
    let mut idle = false;
    for (fitted, spec) in case.units.iter().filter(|(_, spec)| spec.sort == UnitSort::Heater) {
        if served(case, fitted.at) != index {
            continue;
        }
        let name = Phrase::from(spec.name.as_str());
        if spec.set_point < keep {
            idle = true;
            let meaning = name.text(": starts only below ").value(spec.set_point);
            working.push(Step::input("Q_heater", meaning, watts(0.0)).from_source(&CATALOGUE));
            continue;
        }
        let of_map = Curve::of(&spec.map, &spec.map.capacity, outside.0).and_then(|curve| curve.at(keep.0));
        let Some(of_map) = of_map else {
            let why = name.text(" has no map at ").value(keep).text(" inside and ").value(outside).text(" outside");
            return Finding::out_of_range(check, subject, why).about(about).working(working);
        };
        capacity += of_map;
        working.push(Step::input("Q_heater", name, watts(of_map)).from_source(&CATALOGUE));
    }

    if need <= 0.0 {
        // The devices keep themselves warm: what is lost at T_keep against what they give off.
        let lost = (need + p_min).max(0.0);
        let finding = Finding::at_most(check, subject, watts(lost), watts(p_min), RESERVE);
        return finding.about(about).because("the devices keep themselves warm").working(working);
    }
    let mut finding = Finding::at_least(check, subject, watts(capacity), watts(need), RESERVE);
    if finding.outcome == Outcome::Fails {
        let more = Phrase::from("Heaters of ").value(watts(need - capacity)).text(" more would do");
        finding = finding.help(more);
        if idle {
            let thermostat = Phrase::from("A heater has to start at ").value(keep).text(" or above to count");
            finding = finding.help(thermostat);
        }
    }
    finding.about(about).working(working)
}

#[cfg(test)]
mod tests {
    use catalogue::Device;
    use project::Place;
    use units::{Metres, System, Watts};

    use super::*;
    use crate::heat::testing::{Desk, device, rack, step};

    /// Conductance of the desk's faces in winter, floor with a still film.
    fn winter_conductance() -> f64 {
        let (w, d, h) = (0.606, 0.8, 0.995);
        let sheet = 1.0 / 8.0 + 0.003 / 150.0;
        (2.0 * w * h + 2.0 * d * h + w * d) / (sheet + 1.0 / 34.0) + w * d / (sheet + 1.0 / 8.0)
    }

    fn desk(watts: f64, heater: f64) -> Desk {
        let mut desk = Desk::new();
        desk.add(Device { power: Watts(watts), power_max: Some(Watts(9000.0)), ..device(1) }, rack(0, 1));
        if heater > 0.0 {
            desk.heater(heater, 0);
        }
        desk
    }

    #[track_caller]
    fn check(desk: &Desk, outcome: Outcome) -> Finding {
        let finding = desk.run(&CHECK).remove(0);
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        finding
    }

    #[test]
    fn the_hand_calculation_comes_out_on_both_sides() {
        let need = 20.0 * winter_conductance() - 150.0;
        let finding = check(&desk(150.0, need + 0.01), Outcome::Tight);
        assert!((step(&finding, "Q_need") - need).abs() < 1e-9);
        check(&desk(150.0, need / 0.89), Outcome::Holds);
        let finding = check(&desk(150.0, need - 1.0), Outcome::Fails);
        assert!((finding.margin.unwrap().number + 1.0).abs() < 1e-9);
        assert_eq!(finding.help.len(), 1);
    }

    #[test]
    fn own_heat_may_be_enough() {
        let enough = 20.0 * winter_conductance() + 1.0;
        let finding = check(&desk(enough, 0.0), Outcome::Tight);
        assert!((finding.margin.unwrap().number - 1.0).abs() < 1e-9);
        check(&desk(enough / 0.89, 0.0), Outcome::Holds);
        check(&desk(enough - 2.0, 0.0), Outcome::Fails);
    }

    #[test]
    fn the_device_that_asks_for_most_is_named() {
        let mut desk = desk(0.0, 5000.0);
        let fussy = Device { name: "Server".to_owned(), inlet_min: Some(Celsius(5.0)), ..device(1) };
        desk.add(Device { inlet_min: Some(Celsius(20.0)), ..fussy.clone() }, Place::Unplaced);
        desk.add(fussy, rack(0, 4));
        let finding = check(&desk, Outcome::Holds);
        assert_eq!(step(&finding, "T_keep"), 5.0);
        let who = finding.working[1].meaning.shown(System::Metric);
        assert!(who.contains("Server, A 4"), "{who}");
    }

    #[test]
    fn a_heater_that_starts_too_low_does_not_count() {
        let mut desk = desk(0.0, 9000.0);
        desk.project.brief.keep_above = Celsius(10.0);
        check(&desk, Outcome::Holds);
        desk.project.brief.keep_above = Celsius(10.5);
        let finding = check(&desk, Outcome::Fails);
        assert_eq!(finding.help.len(), 2);
    }

    #[test]
    fn a_battery_in_the_plinth_has_to_bear_the_coldest_hour() {
        let with_battery = |limit: f64| {
            let mut desk = desk(9000.0, 0.0);
            let at = desk.plinth();
            let battery = Device { inlet_min: Some(Celsius(limit)), mount: catalogue::Mount::Floor, ..device(1) };
            desk.add(battery, at);
            desk
        };
        // −20 °C outside; 9 kW keep the body warm in any case.
        check(&with_battery(-30.0), Outcome::Holds);
        check(&with_battery(-22.0), Outcome::Tight);
        let finding = check(&with_battery(-15.0), Outcome::Fails);
        assert_eq!(finding.said().shown(System::Metric).replace('\u{a0}', " "), "fails by 5 K");
        assert_eq!((step(&finding, "T_cold"), step(&finding, "T_min")), (-20.0, -15.0));
    }

    #[test]
    fn says_so_outside_its_range() {
        let mut cold = desk(0.0, 500.0);
        cold.project.brief.coldest = Celsius(-60.1);
        check(&cold, Outcome::OutOfRange);
        let mut high = desk(0.0, 500.0);
        high.project.brief.elevation = Metres(3001.0);
        check(&high, Outcome::OutOfRange);
        let mut small_map = desk(0.0, 500.0);
        small_map.catalogue.units.values_mut().for_each(|unit| unit.map.outside = vec![-10.0, 60.0]);
        check(&small_map, Outcome::OutOfRange);
    }

    #[test]
    fn more_insulation_never_raises_the_loss() {
        let mut desk = desk(0.0, 500.0);
        let foam = catalogue::Insulation {
            name: "Foam".to_owned(),
            density: 30.0,
            conductivity: 0.026,
            thickness: catalogue::Range { from: 0.0, to: 100.0 },
            trade: catalogue::Trade::default(),
        };
        desk.catalogue.insulations.insert("foam".into(), foam);
        let loss = |desk: &Desk| step(&desk.run(&CHECK)[0], "U·A");
        let mut last = loss(&desk);
        for face in project::Face::ALL {
            *desk.project.build.insulation.get_mut(face) =
                Some(project::Insulated { part: "foam".into(), thickness: units::Millimetres(25.0) });
            let found = loss(&desk);
            assert!(found < last, "{face:?}");
            last = found;
        }
    }
}
