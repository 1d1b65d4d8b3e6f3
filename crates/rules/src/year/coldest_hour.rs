//! **Y04 `coldest-hour`** – how cold does the air inside get in the coldest hour of the year?
//!
//! T_in = min T_in(t) ≥ T_keep
//!
//! - T_in    lowest inside air of the year, of each room                                [°C]
//! - T_keep  highest of the brief's wish and the lowest inlet temperatures allowed      [°C]
//! - T_out   outdoor air in that hour                                                   [°C]
//! - t_cold  hours of the year with inside air below T_keep                             [h]
//!
//! Source:      the run over the year (`course`); limits from the catalogue.
//! Valid for:   as Y01. What stands in the plinth has outdoor air and is judged by itself; Y05 starts from a cabinet that
//!              is off.
//! Agreement:   the run is compared with computed years in tests/tests; the check itself only compares.
//! Not covered: years colder than the one loaded, cold corners, leaks through idle fans.
//!
//! Scale: 10 K above the limit to the limit; tight within 3 K, as H07 has it in the plinth. Common practice, no source.

use units::{Celsius, Kind};

use super::given::judged;
use super::rests_on;
use super::words::{device_name, hours, joined, of, room_name, room_subject};
use crate::course::{Course, DeviceYear};
use crate::finding::worst_first;
use crate::heat::cooling::site_in_range;
use crate::heat::heat_sources::{Room, room};
use crate::sources::{CATALOGUE, STEPPED_BALANCE, WEATHER};
use crate::{Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

/// Kelvins above the limit at which it is tight, and the length of its scale. Common practice, no source.
const RESERVE: f64 = 3.0;
const SCALE: f64 = 10.0;

/// The check.
pub static CHECK: Check = Check {
    code: "Y04",
    name: "coldest-hour",
    topic: Topic::Year,
    question: "How cold does the air inside get in the coldest hour of the year?",
    formula: "min T_in(t) ≥ T_keep",
    symbols: &[
        Symbol { symbol: "T_in", meaning: "inside air", kind: Kind::Temperature },
        Symbol { symbol: "T_keep", meaning: "air to be kept inside", kind: Kind::Temperature },
        Symbol { symbol: "T_out", meaning: "outdoor air in that hour", kind: Kind::Temperature },
        Symbol { symbol: "t_cold", meaning: "hours with inside air below T_keep", kind: Kind::Time },
    ],
    sources: rests_on::YEAR,
    valid: "as Y01; what stands in the plinth has outdoor air and is judged by itself",
    leaves_out: "years colder than the one loaded, cold corners, leaks through idle fans, devices switched off (Y05)",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| {
        let rooms: Option<Vec<_>> = (0..course.rooms.len()).map(|room| of_room(check, case, course, room)).collect();
        Some(worst_first(rooms?.into_iter().chain(in_plinth(check, case, course)).collect()))
    })
}

/// What stands in the plinth has outdoor air, which no heater warms.
fn in_plinth(check: &Check, case: &Case, course: &Course) -> Vec<Finding> {
    let devices = course.room_years.iter().flat_map(|room| &room.devices);
    let judge = |year: &DeviceYear| {
        let device = case.device(year.id)?;
        let limit = device.spec.inlet_min.filter(|_| room(case, device) == Some(Room::Plinth))?;
        let air = Celsius(year.lowest);
        let mut working = vec![Step::input("T_keep", "lowest inlet air of the device", limit).from_source(&CATALOGUE)];
        if let Some(below) = year.hours_below {
            working.push(Step::input("t_cold", "hours of the year below T_keep", hours(below)));
        }
        working.push(Step::computed("T_in", "lowest outdoor air of the year", "min T_out(t)", Phrase::new(), air));
        let finding = on_scale(check, Subject::Device(year.id), air, limit).about(case.name(device));
        Some(finding.working(working).help("It may stand in the body instead"))
    };
    devices.filter_map(judge).collect()
}

/// Holds an air against the least it may have.
fn on_scale(check: &Check, subject: Subject, air: Celsius, keep: Celsius) -> Finding {
    // used = 1 − (T_in − T_keep) / 10 K
    let used = (1.0 - (air.0 - keep.0) / SCALE).max(0.0);
    Finding::on_scale(check, subject, air, keep, air - keep, used, 1.0 - RESERVE / SCALE)
}

/// Judges one room; `None` when the hour is not in the year.
fn of_room(check: &Check, case: &Case, course: &Course, room: usize) -> Option<Finding> {
    let (own, year) = (&course.rooms[room], &course.room_years[room]);
    let hour = year.lowest_at as usize;
    let outside = Celsius(course.year.outside.at(hour)?);
    let (air, keep) = (Celsius(year.lowest), Celsius(own.cold_limit));
    let when = climate::when(hour);
    let (subject, name, who) = match own.cold_device {
        Some(id) => (Subject::Device(id), device_name(case, id), of("lowest inlet air of ", device_name(case, id))),
        None => (room_subject(course, room), room_name(course, room), Phrase::from("kept by the brief")),
    };
    if let Err(gap) = site_in_range(case, outside) {
        return Some(gap.finding(check, subject));
    }
    let finding = on_scale(check, subject, air, keep);
    let mut keep_step = Step::input("T_keep", who, keep);
    if own.cold_device.is_some() {
        keep_step = keep_step.from_source(&CATALOGUE);
    }
    let working = vec![
        Step::input("T_out", format!("outdoor air, {when}, in {}", course.weather), outside).from_source(&WEATHER),
        keep_step,
        Step::input("t_cold", "hours of the year below T_keep", hours(year.hours_below)),
        Step::computed("T_in", "lowest inside air of the year", "min T_in(t)", Phrase::new(), air)
            .from_source(&STEPPED_BALANCE),
    ];
    let more = Phrase::from("A heater, or one that starts earlier, has to hold ").value(keep);
    Some(finding.about(joined(name, when.into())).working(working).help(more))
}

#[cfg(test)]
mod tests {
    use catalogue::{Device, Mount};
    use units::System;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::{device, step};
    use crate::year::testing::Trial;

    fn at(air: f64) -> Trial {
        Trial::with_course(|course| course.room_years[0].lowest = air)
    }

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome) -> Finding {
        trial.lead(&CHECK, outcome)
    }

    #[test]
    fn the_limit_and_its_reserve_have_two_sides() {
        check(&at(3.1), Outcome::Holds);
        check(&at(2.9), Outcome::Tight);
        check(&at(0.0), Outcome::Tight);
        let mut cold = at(-2.5);
        cold.course.room_years[0].hours_below = 12.0;
        let finding = check(&cold, Outcome::Fails);
        assert_eq!(finding.margin.unwrap().number, -2.5);
        assert_eq!((step(&finding, "t_cold"), step(&finding, "T_keep")), (12.0, 0.0));
        assert_eq!(finding.help.len(), 1);
    }

    #[test]
    fn says_who_asks_for_it_and_when_it_is() {
        let mut trial = at(-1.0);
        let finding = check(&trial, Outcome::Fails);
        assert_eq!(finding.about.shown(System::Metric), "Router, A 5; 1 January, 3 to 4 h");
        trial.course.rooms[0].cold_device = None;
        let finding = check(&trial, Outcome::Fails);
        assert_eq!(finding.subject, Subject::Cabinet);
        assert_eq!(finding.about.shown(System::Metric), "1 January, 3 to 4 h");
    }

    #[test]
    fn an_hour_that_no_year_has_is_another_run() {
        let mut trial = Trial::new();
        trial.course.room_years[0].lowest_at = 8760;
        check(&trial, Outcome::NeedsData);
    }

    #[test]
    fn a_battery_in_the_plinth_has_to_bear_the_outdoor_air() {
        let with_battery = |lowest: f64| {
            let mut trial = Trial::new();
            let at = trial.desk.plinth();
            let battery = Device { inlet_min: Some(Celsius(-20.0)), mount: Mount::Floor, ..device(1) };
            let id = trial.desk.add(battery, at);
            let year = DeviceYear { id, highest: 40.0, lowest, hours_above: None, hours_below: Some(2.0) };
            trial.course.room_years[0].devices.push(year);
            (trial, id)
        };
        check(&with_battery(-16.0).0, Outcome::Holds);
        check(&with_battery(-18.0).0, Outcome::Tight);
        let (trial, id) = with_battery(-25.0);
        let finding = check(&trial, Outcome::Fails);
        assert_eq!((finding.subject, finding.margin.unwrap().number), (Subject::Device(id), -5.0));
        assert_eq!(step(&finding, "t_cold"), 2.0);
    }

    #[test]
    fn says_so_outside_its_range() {
        let mut trial = Trial::new();
        trial.course.year.outside.0[3] = -61.0;
        check(&trial, Outcome::OutOfRange);
        check(&at(f64::NEG_INFINITY), Outcome::OutOfRange);
    }
}
