//! **Y05 `cold-start`** – how long after a cold soak is it warm enough inside to switch the devices on?
//!
//! t = min t where T_in(t) ≥ T_keep in every room
//!
//! - t       time from the start until every room is warm enough                          [h]
//! - T_0     air inside at the start: the brief's coldest hour                            [°C]
//! - T_keep  highest of the brief's wish and the lowest inlet temperatures allowed        [°C]
//!
//! Source:      the run from cold (`course`): devices off, heaters on, outdoor air of the coldest hour.
//! Valid for:   mixed air in each room, outdoor air −60…60 °C, sites up to 3 000 m.
//! Agreement:   the run is compared with computed cases in tests/tests; the check itself only compares.
//! Not covered: devices that are colder inside than the air around them, supply of the heaters, moisture that condenses.
//!
//! Nobody asks for a time: it tells, and fails only where it never gets warm enough.

use units::{Celsius, Kind};

use super::given::{another_build, given};
use super::words::{hours, joined, room_name, room_subject, told};
use crate::course::Course;
use crate::sources::{CATALOGUE, STEPPED_BALANCE};
use crate::{Asked, Case, Check, Finding, Phrase, Step, Subject, Symbol, Topic};

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
    sources: &[&STEPPED_BALANCE, &CATALOGUE],
    valid: "devices off, outdoor air of the coldest hour all along, −60 to 60 °C, up to 3 000 m",
    leaves_out: "devices that are colder inside than the air around them, supply of the heaters, moisture that condenses",
    caution: None,
    asked: Some(Asked::Coldest),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    match given(case) {
        Ok(course) => vec![judge(check, course)],
        Err(gap) => vec![gap.finding(check, Subject::Cabinet)],
    }
}

fn judge(check: &Check, course: &Course) -> Finding {
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
    working.push(Step::input("T_keep", joined("air to be kept".into(), room_name(course, run.room)), keep));
    let Some(minutes) = run.minutes else {
        // One figure a minute from the start on.
        let reckoned = hours((air.len() - 1) as f64 / 60.0);
        let why = Phrase::from("not warm enough within ").value(reckoned);
        let help = Phrase::from("More heating until the air has ").value(keep);
        return Finding::fails(check, subject, why)
            .about(room_name(course, run.room))
            .working(told(working))
            .help(help);
    };
    let time = hours(minutes / 60.0);
    let meaning = "until every room is warm enough";
    let step = Step::computed("t", meaning, "min t [T_in(t) ≥ T_keep]", Phrase::new(), time);
    working.push(step.from_source(&STEPPED_BALANCE));
    Finding::tells(check, subject, time).about(room_name(course, run.room)).working(told(working))
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
        let [finding] = trial.run(&CHECK).try_into().unwrap();
        assert_eq!(finding.outcome, outcome, "{finding:?}");
        finding
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
    fn fails_where_it_never_gets_warm_enough() {
        let mut trial = Trial::new();
        trial.course.cold_start.minutes = None;
        let finding = check(&trial, Outcome::Fails);
        let said = finding.said().shown(System::Metric).replace('\u{a0}', " ");
        assert_eq!(said, "fails: not warm enough within 2 h");
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
