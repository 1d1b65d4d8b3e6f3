//! **Y02 `hot-day`** – how warm does the air inside get on the brief's hottest day, hour by hour and with the real sun?
//!
//! T_in = max T_in(t) ≤ T_max, on a day that repeats itself
//!
//! - T_in   highest inside air of the settled day, of each room   [°C]
//! - T_max  lowest of the highest inlet temperatures allowed      [°C]
//! - T_out  outdoor air at that moment                            [°C]
//!
//! Source:      the run over the brief's hottest day (`course`); limits from the catalogue.
//! Valid for:   devices at their most, a day that repeats itself, mixed air in each room, outdoor air −60…60 °C, sites up
//!              to 3 000 m, inside air up to 100 °C.
//! Agreement:   the run is compared with computed days in tests/tests; the check itself only compares.
//! Not covered: layers of warmer air. Companion of H04, which takes the hottest hour as if it lasted for ever, the flat sun
//!              figure on the worst faces and summer films: this one has the sun of the date on each face, what devices and
//!              skin store, and thermostats that switch. Either may come out warmer.

use units::{Celsius, Kind};

use super::hot_limit::{Moment, judge, judged_by_room, limit_step};
use super::rests_on;
use super::words::told;
use crate::course::Course;
use crate::sources::STEPPED_BALANCE;
use crate::{Asked, Case, Check, Finding, Phrase, Step, Symbol, Topic};

/// The check.
pub static CHECK: Check = Check {
    code: "Y02",
    name: "hot-day",
    topic: Topic::Year,
    question: "How warm does the air inside get on the brief's hottest day, with the real sun?",
    formula: "max T_in(t) ≤ T_max",
    symbols: &[
        Symbol { symbol: "T_in", meaning: "inside air", kind: Kind::Temperature },
        Symbol {
            symbol: "T_max",
            meaning: "lowest of the highest inlet temperatures allowed",
            kind: Kind::Temperature,
        },
        Symbol { symbol: "T_out", meaning: "outdoor air at that moment", kind: Kind::Temperature },
    ],
    sources: rests_on::DAY,
    valid: "devices at their most, a day that repeats itself, mixed air in each room, outdoor air −60 to 60 °C, up to 3 000 m, inside air up to 100 °C",
    leaves_out: "layers of warmer air; H04 takes the hottest hour as if it lasted, with a flat sun figure on the worst \
        faces, this the sun of the date, stored heat and thermostats: either may come out warmer",
    caution: None,
    asked: Some(Asked::Hottest),
    run,
};

fn run(check: &Check, case: &Case) -> Vec<Finding> {
    judged_by_room(check, case, of_room)
}

/// Judges one room; `None` when the day has no such room or no steps.
fn of_room(check: &Check, case: &Case, course: &Course, room: usize) -> Option<Finding> {
    let day = &course.hot_day;
    let series = day.highest.get(room)?;
    let (_, highest) = series.range()?;
    let step = (0..series.len()).find(|step| series.at(*step) == Some(highest))?;
    let outside = day.outside.at(step)?;
    let moment = Moment { air: highest, outside, when: time_of_day(step as f64 * day.step) };
    let finding = judge(check, case, course, room, &moment);

    let mut working = vec![Step::input("T_out", format!("outdoor air, {}", moment.when), Celsius(outside))];
    working.extend(limit_step(case, &course.rooms[room]));
    if finding.given.is_some() {
        let meaning = "highest inside air of the settled day";
        let step = Step::computed("T_in", meaning, "max T_in(t)", Phrase::new(), Celsius(highest));
        working.push(step.from_source(&STEPPED_BALANCE));
    }
    Some(finding.working(told(working)))
}

/// Hours since midnight as a clock shows them: "at 15:45".
fn time_of_day(hours: f64) -> String {
    let minutes = libm::floor(hours * 60.0 + 0.5).max(0.0) as u32;
    format!("at {}:{:02}", minutes / 60 % 24, minutes % 60)
}

#[cfg(test)]
mod tests {
    use units::System;

    use super::*;
    use crate::Outcome;
    use crate::course::Series;
    use crate::heat::testing::step;
    use crate::year::testing::Trial;

    fn at(air: f32) -> Trial {
        Trial::with_course(|course| course.hot_day.highest[0].0[63] = air)
    }

    #[track_caller]
    fn check(trial: &Trial, outcome: Outcome) -> Finding {
        trial.lead(&CHECK, outcome)
    }

    #[test]
    fn the_limit_and_its_reserve_have_two_sides() {
        check(&at(51.5), Outcome::Holds);
        check(&at(52.5), Outcome::Tight);
        let finding = check(&at(55.5), Outcome::Fails);
        assert!((finding.margin.unwrap().number + 0.5).abs() < 1e-9);
        assert_eq!(step(&finding, "T_out"), 40.0);
    }

    #[test]
    fn names_device_and_time_of_day() {
        let finding = check(&at(56.0), Outcome::Fails);
        // Step 63 of 15 minutes each.
        assert_eq!(finding.about.shown(System::Metric), "Router, A 5; at 15:45");
    }

    #[test]
    fn a_day_without_steps_is_another_run() {
        let mut trial = Trial::new();
        trial.course.hot_day.highest[0] = Series::default();
        check(&trial, Outcome::NeedsData);
        trial.course.hot_day.highest.clear();
        check(&trial, Outcome::NeedsData);
    }

    #[test]
    fn says_so_outside_its_range() {
        assert_eq!(check(&at(120.0), Outcome::Fails).given, None);
        let mut no_limit = at(120.0);
        no_limit.course.rooms[0].hot_limit = None;
        assert_eq!(check(&no_limit, Outcome::OutOfRange).given, None);
    }
}
