//! From one moment on until a device meets its highest inlet temperature: what Y11 and Y12 tell.

use units::Celsius;

use super::given::another_build;
use super::hot_limit::allowed_step;
use super::words::{device_name, hours, minutes, room_name, room_subject, told};
use crate::course::{Course, Transient};
use crate::heat::hottest_inside_air::unsaid;
use crate::sources::STEPPED_BALANCE;
use crate::{Case, Check, Finding, Phrase, Step, Subject};

/// Tells how long it takes, from a start in words: "the door opens".
pub(super) fn tell(check: &Check, case: &Case, course: &Course, run: &Transient, start: &str) -> Finding {
    let subject = run.device.map_or_else(|| room_subject(course, run.room), Subject::Device);
    if !run.because.is_empty() {
        let because = run.because.as_str();
        let asks = unsaid(check, case).filter(|_| course.rooms.iter().all(|room| room.hot_limit.is_none()));
        return asks.unwrap_or_else(|| Finding::holds(check, subject, because));
    }
    let Some(air) = run.air.get(run.room).filter(|air| !air.is_empty()) else {
        return another_build().finding(check, subject);
    };
    let mut working = Vec::new();
    if let Some(first) = air.at(0) {
        let meaning = Phrase::from("inside air when ").text(start);
        working.push(Step::input("T_0", meaning, Celsius(first)).from_source(&STEPPED_BALANCE));
    }
    // One figure a minute from the start on.
    let reckoned = hours((air.len() - 1) as f64 / 60.0);
    working.push(Step::input("t_end", "how long it is followed", reckoned));
    let Some(time) = run.minutes else {
        let why = Phrase::from("no limit is met within ").value(reckoned);
        return Finding::holds(check, subject, why).about(room_name(course, run.room)).working(told(working));
    };
    let about = match run.device {
        Some(id) => {
            if let Some(limit) = case.device(id).and_then(|device| device.spec.inlet_max) {
                working.push(allowed_step(case, id, limit));
            }
            device_name(case, id)
        }
        None => room_name(course, run.room),
    };
    let meaning = Phrase::from("from when ").text(start).text(" until the first limit is met");
    let step = Step::computed("t", meaning, "min t [T_inlet(t) ≥ T_max]", Phrase::new(), minutes(time));
    working.push(step.from_source(&STEPPED_BALANCE));
    let finding = Finding::tells(check, subject, minutes(time)).about(about).working(told(working));
    if time > 0.0 { finding } else { finding.because(format!("the limit is met before {start}")) }
}
