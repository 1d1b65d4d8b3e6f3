//! **Y01 `hottest-hour`** – how warm does the air inside get in the hottest hour of the year?
//!
//! T_in = max T_in(t) ≤ T_max
//!
//! - T_in   highest inside air of the year, of each room          [°C]
//! - T_max  lowest of the highest inlet temperatures allowed      [°C]
//! - T_out  outdoor air in that hour                              [°C]
//! - E_g    sun on level ground in that hour                      [W/m²]
//! - t_hot  hours of the year with inside air above T_max         [h]
//!
//! Source:      the run over the year (`course`); limits from the catalogue.
//! Valid for:   devices in ordinary use all year, mixed air in each room, outdoor air −60…60 °C, sites up to 3 000 m,
//!              inside air up to 100 °C.
//! Agreement:   the run is compared with computed years in tests/tests; the check itself only compares.
//! Not covered: layers of warmer air; years hotter than the one loaded; hours in which a unit is called for beyond its
//!              map (Y06 counts them); devices in the plinth, which has outdoor air (Y03).
//!
//! Scale and reserve of 3 K are those of H04.

use units::{Celsius, Kind, Value};

use super::hot_limit::{Moment, judge, judged_by_room, limit_step};
use super::rests_on;
use super::words::{hours, told, weather_steps};
use crate::course::Course;
use crate::sources::{STEPPED_BALANCE, WEATHER};
use crate::{Case, Check, Finding, Phrase, Step, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "Y01",
    name: "hottest-hour",
    topic: Topic::Year,
    question: "How warm does the air inside get in the hottest hour of the year?",
    formula: "max T_in(t) ≤ T_max",
    symbols: &[
        Symbol { symbol: "T_in", meaning: "inside air", kind: Kind::Temperature },
        Symbol {
            symbol: "T_max",
            meaning: "lowest of the highest inlet temperatures allowed",
            kind: Kind::Temperature,
        },
        Symbol { symbol: "T_out", meaning: "outdoor air in that hour", kind: Kind::Temperature },
        Symbol { symbol: "E_g", meaning: "sun on level ground in that hour", kind: Kind::HeatFlux },
        Symbol { symbol: "t_hot", meaning: "hours with inside air above T_max", kind: Kind::Time },
    ],
    sources: rests_on::YEAR,
    valid: "devices in ordinary use all year, mixed air in each room, outdoor air −60 to 60 °C, up to 3 000 m, inside air up to 100 °C",
    leaves_out: "layers of warmer air, years hotter than the one loaded, hours in which a unit is called for \
        beyond its map (Y06 counts them), devices in the plinth (Y03)",
    caution: None,
    asked: None,
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged_by_room(check, case, of_room)
}

/// Judges one room; `None` when the hour is not in the year.
fn of_room(check: &Check, case: &Case, course: &Course, room: usize) -> Option<Finding> {
    let year = &course.room_years[room];
    let hour = year.highest_at as usize;
    let (outside, sun) = (course.year.outside.at(hour)?, course.year.sun.at(hour)?);
    let moment = Moment { air: year.highest, outside, when: climate::when(hour) };
    let finding = judge(check, case, course, room, &moment);

    let weather = format!("outdoor air, {}, in {}", moment.when, course.weather);
    let mut working = vec![
        Step::input("T_out", weather, Celsius(outside)).from_source(&WEATHER),
        Step::input("E_g", "sun on level ground then", Value::new(sun, Kind::HeatFlux)).from_source(&WEATHER),
    ];
    working.extend(limit_step(case, &course.rooms[room]));
    if let Some(above) = year.hours_above {
        working.push(Step::input("t_hot", "hours of the year above T_max", hours(above)));
    }
    working.extend(weather_steps(course));
    if finding.given.is_some() {
        let air = Celsius(year.highest);
        let step = Step::computed("T_in", "highest inside air of the year", "max T_in(t)", Phrase::new(), air);
        working.push(step.from_source(&STEPPED_BALANCE));
    }
    Some(finding.working(told(working)))
}

#[cfg(test)]
mod tests {
    use units::System;

    use super::*;
    use crate::heat::testing::step;
    use crate::year::testing::{HOTTEST, Trial};
    use crate::{Outcome, Subject};

    fn at(air: f64) -> Trial {
        Trial::with_course(|course| course.room_years[0].highest = air)
    }

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome) -> Finding {
        trial.lead(&CHECK, outcome)
    }

    #[test]
    fn the_limit_and_its_reserve_have_two_sides() {
        // 55 °C allowed, tight from 52 °C on.
        check(&at(51.9), Outcome::Holds);
        check(&at(52.1), Outcome::Tight);
        check(&at(55.0), Outcome::Tight);
        let finding = check(&at(56.5), Outcome::Fails);
        assert!((finding.margin.unwrap().number + 1.5).abs() < 1e-9);
        assert_eq!(finding.given.unwrap(), Celsius(56.5).into());
    }

    #[test]
    fn names_device_hour_and_outdoor_air() {
        let trial = at(56.0);
        let finding = check(&trial, Outcome::Fails);
        assert_eq!(finding.subject, Subject::Device(trial.router));
        assert_eq!(finding.about.shown(System::Metric), "Router, A 5; 21 July, 15 to 16 h");
        assert_eq!((step(&finding, "T_out"), step(&finding, "T_max"), step(&finding, "E_g")), (40.0, 55.0, 800.0));
        let meaning = finding.working[0].meaning.shown(System::Metric);
        assert!(meaning.contains("21 July, 15 to 16 h") && meaning.contains("Test year"), "{meaning}");
    }

    #[test]
    fn the_worse_of_two_rooms_leads() {
        let mut trial = Trial::two_rooms();
        trial.course.rooms[1].hot_limit = Some(40.0);
        let findings = trial.run(&CHECK);
        assert_eq!((findings[0].outcome, findings.len()), (Outcome::Fails, 1));
        trial.course.room_years[0].highest = 60.0;
        assert_eq!(trial.run(&CHECK).len(), 2);
    }

    #[test]
    fn without_a_limit_it_only_tells_and_asks_the_silent_devices() {
        let mut trial = Trial::new();
        (trial.course.rooms[0].hot_limit, trial.course.rooms[0].hot_device) = (None, None);
        let finding = check(&trial, Outcome::Holds);
        assert!(finding.because.shown(System::Metric).contains("no device sets a limit"));
        let router = trial.router;
        trial.change(router, |device| device.inlet_max = None);
        let finding = check(&trial, Outcome::NeedsData);
        assert!(finding.because.shown(System::Metric).contains("Router"));
        assert_eq!(finding.given.unwrap(), Celsius(48.0).into());
    }

    #[test]
    fn what_was_corrected_in_the_weather_stands_in_the_working() {
        let mut trial = Trial::new();
        trial.course.notes = ["one", "two", "three", "four", "five"].map(str::to_owned).to_vec();
        let finding = check(&trial, Outcome::Holds);
        assert_eq!(step(&finding, "n_notes"), 5.0);
        let words = finding.working.iter().find(|step| step.symbol == "n_notes").unwrap().meaning.shown(System::Metric);
        assert!(words.ends_with("one; two; three; 2 more"), "{words}");
    }

    #[test]
    fn says_so_outside_its_range() {
        assert_eq!(check(&at(101.0), Outcome::Fails).given, None);
        let mut no_limit = at(101.0);
        no_limit.course.rooms[0].hot_limit = None;
        assert_eq!(check(&no_limit, Outcome::OutOfRange).given, None);
        let mut hot = Trial::new();
        hot.course.year.outside.0[HOTTEST as usize] = 60.5;
        check(&hot, Outcome::OutOfRange);
        let mut high = Trial::new();
        high.desk.project.brief.elevation = units::Metres(3001.0);
        check(&high, Outcome::OutOfRange);
        check(&at(f64::NAN), Outcome::OutOfRange);
    }
}
