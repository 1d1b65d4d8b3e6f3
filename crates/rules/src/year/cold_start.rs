//! **Y05 `cold-start`** – how long after a cold soak is it warm enough inside to switch the devices on?
//!
//! t = min t where T_in(t) ≥ T_keep in every room
//!
//! - t       time from the start until every room is warm enough                          [h]
//! - T_0     air inside at the start: the brief's coldest hour                            [°C]
//! - T_keep  highest of the brief's wish and the lowest inlet temperatures allowed        [°C]
//!
//! Source:      the run from cold (`course`): devices off, heaters on, the brief's coldest day from its coldest hour on.
//! Valid for:   mixed air in each room, outdoor air −60…60 °C, sites up to 3 000 m.
//! Agreement:   the run is compared with computed cases in tests/tests; the check itself only compares.
//! Not covered: devices that are colder inside than the air around them, supply of the heaters, moisture that condenses.
//!
//! Nobody asks for a time: it tells, and fails where it never gets warm enough for a device. Where only the brief's wish is
//! never met, it tells when it is warm enough for the devices.

use units::{Celsius, Kind};

use super::given::{another_build, judged};
use super::rests_on;
use super::words::{hours, joined, of, room_name, room_subject, told};
use crate::course::Course;
use crate::heat::heat_sources::{Room, room};
use crate::sources::STEPPED_BALANCE;
use crate::{Asked, Case, Check, Finding, Phrase, PlacedDevice, Step, Subject, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "Y05",
    name: "cold-start",
    topic: Topic::Year,
    question: "How long after a cold soak is it warm enough inside to switch the devices on?",
    formula: "t = min t [T_in(t) ≥ T_keep in every room]",
    symbols: &[
        Symbol { symbol: "t", meaning: "time until every room is warm enough", kind: Kind::Time },
        Symbol { symbol: "T_0", meaning: "air inside at the start", kind: Kind::Temperature },
        Symbol { symbol: "T_keep", meaning: "air to be kept inside", kind: Kind::Temperature },
    ],
    sources: rests_on::DAY,
    valid: "devices off, the brief's coldest day from its coldest hour on, outdoor air −60 to 60 °C, up to 3 000 m",
    leaves_out: "devices that are colder inside than the air around them, supply of the heaters, moisture that condenses",
    caution: None,
    asked: Some(Asked::Coldest),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged(check, case, |course| Some(vec![judge(check, case, course)]))
}

fn judge(check: &Check, case: &Case, course: &Course) -> Finding {
    let run = &course.cold_start;
    let subject = room_subject(course, run.room);
    if !run.because.is_empty() {
        return Finding::needs_data(check, subject, run.because.as_str());
    }
    let Some(air) = run.air.get(run.room).filter(|air| !air.is_empty()) else {
        return another_build().finding(check, subject);
    };
    let keep = Celsius(course.rooms[run.room].cold_limit);
    let mut working = Vec::new();
    if let Some(start) = air.at(0) {
        working.push(Step::input("T_0", "air inside at the start", Celsius(start)));
    }
    working.push(Step::input("T_keep", joined("air to be kept inside".into(), room_name(course, run.room)), keep));
    let Some(minutes) = run.minutes else { return wish_not_met(check, case, course, keep).working(told(working)) };
    let time = hours(minutes / 60.0);
    let meaning = "until every room is warm enough";
    let step = Step::computed("t", meaning, "min t [T_in(t) ≥ T_keep]", Phrase::new(), time);
    working.push(step.from_source(&STEPPED_BALANCE));
    Finding::tells(check, subject, time).about(room_name(course, run.room)).working(told(working))
}

/// Not every room gets as warm as it is to be kept: whether it is enough for the devices all the same.
fn wish_not_met(check: &Check, case: &Case, course: &Course, keep: Celsius) -> Finding {
    let run = &course.cold_start;
    // One figure a minute from the start on.
    let reckoned = run.air.iter().map(|air| air.len().saturating_sub(1)).max().unwrap_or_default();
    let within = |limit: Celsius| {
        let why = Phrase::new().value(limit).text(" is not met within ");
        why.value(hours(reckoned as f64 / 60.0))
    };
    let mut slowest = None;
    for (index, air) in run.air.iter().enumerate() {
        let Some((device, limit)) = asks_most(case, index) else { continue };
        let met = (0..air.len()).find(|minute| air.at(*minute).is_some_and(|air| air >= limit.0));
        let Some(minute) = met else {
            let help = Phrase::from("More heating until the air has ").value(limit);
            let finding = Finding::fails(check, Subject::Device(device.fitted.id), within(limit));
            return finding.about(case.name(device)).help(help);
        };
        slowest = slowest.max(Some(minute));
    }
    let subject = room_subject(course, run.room);
    match slowest {
        Some(minute) => Finding::tells(check, subject, hours(minute as f64 / 60.0))
            .because(of("warm enough for every device; the brief's ", within(keep))),
        None => Finding::holds(check, subject, of("no device asks for warmth; the brief's ", within(keep))),
    }
}

/// The device of a room that asks for the warmest air, and how warm that is.
fn asks_most<'c, 'a>(case: &'c Case<'a>, index: usize) -> Option<(&'c PlacedDevice<'a>, Celsius)> {
    let mut most: Option<(&PlacedDevice, Celsius)> = None;
    for device in &case.devices {
        if let Some(limit) = device.spec.inlet_min
            && room(case, device) == Some(Room::Compartment(index))
            && most.is_none_or(|(_, most)| limit > most)
        {
            most = Some((device, limit));
        }
    }
    most
}

#[cfg(test)]
mod tests {
    use units::System;

    use super::*;
    use crate::Outcome;
    use crate::heat::testing::step;
    use crate::year::testing::Trial;

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome) -> Finding {
        trial.only(&CHECK, outcome)
    }

    #[test]
    fn tells_the_time() {
        let mut trial = Trial::new();
        trial.course.cold_start.air[0].0[0] = -20.0;
        let finding = check(&trial, Outcome::Holds);
        assert_eq!(finding.given, Some(hours(1.5)));
        assert_eq!((step(&finding, "T_0"), step(&finding, "T_keep")), (-20.0, 0.0));
    }

    #[test]
    fn fails_where_it_never_gets_warm_enough_for_a_device() {
        let mut trial = Trial::new();
        trial.course.cold_start.minutes = None;
        // The router asks for 0 °C.
        trial.course.cold_start.air[0].0.fill(-0.5);
        let finding = check(&trial, Outcome::Fails);
        let said = finding.said().shown(System::Metric).replace('\u{a0}', " ");
        assert_eq!(said, "fails: 0 °C is not met within 2 h");
        assert_eq!((finding.subject, finding.help.len()), (Subject::Device(trial.router), 1));
    }

    #[test]
    fn a_wish_of_the_brief_alone_does_not_keep_the_devices_off() {
        let mut trial = Trial::new();
        trial.course.cold_start.minutes = None;
        trial.course.rooms[0].cold_limit = 10.0;
        trial.course.rooms[0].cold_device = None;
        for (minute, air) in trial.course.cold_start.air[0].0.iter_mut().enumerate() {
            *air = minute as f32 / 20.0 - 1.5;
        }
        let finding = check(&trial, Outcome::Holds);
        // −1.5 °C and 0.05 K a minute: 0 °C after 30 minutes.
        assert_eq!(finding.given, Some(hours(0.5)));
        assert!(finding.because.shown(System::Metric).contains("warm enough for every device"));
        let (router, battery) = (trial.router, trial.battery);
        trial.change(router, |device| device.inlet_min = None);
        trial.change(battery, |device| device.inlet_min = None);
        let finding = check(&trial, Outcome::Holds);
        assert!(finding.given.is_none() && finding.because.shown(System::Metric).contains("no device asks"));
    }

    #[test]
    fn says_why_nothing_was_reckoned() {
        let mut trial = Trial::new();
        trial.course.cold_start.because = "no heater is fitted".to_owned();
        check(&trial, Outcome::NeedsData);
        trial.course.cold_start.because.clear();
        trial.course.cold_start.air.clear();
        check(&trial, Outcome::NeedsData);
    }

    #[test]
    fn says_so_outside_its_range() {
        let mut trial = Trial::new();
        trial.course.cold_start.minutes = Some(f64::INFINITY);
        check(&trial, Outcome::OutOfRange);
    }
}
