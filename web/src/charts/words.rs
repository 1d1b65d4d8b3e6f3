//! What a moment says, for the eye and for the ear.

use rules::course::Course;
use units::{Kind, System, Value, show};

use super::calendar::{date, time};
use super::stretch::{Day, Stretch};

/// A temperature in words.
pub(super) fn temperature(celsius: f64, units: System) -> String {
    show(Value::new(celsius, Kind::Temperature), units).to_string()
}

/// "inside", or "inside bay A" where there are two rooms.
pub(super) fn inside(course: &Course, room: usize) -> String {
    match course.rooms.get(room) {
        Some(room) if !room.name.is_empty() => format!("inside {}", room.name),
        _ => "inside".to_owned(),
    }
}

/// The day in words.
pub(crate) fn day(day: Day) -> String {
    match day {
        Day::Hottest => "Hot day".to_owned(),
        Day::Coldest => "Cold day".to_owned(),
        Day::OfYear(day) => date(day),
    }
}

/// The time of a step in words: a moment of a short step, from and to of an hour.
pub(super) fn clock(stretch: &Stretch, step: usize) -> String {
    let minutes = stretch.minutes();
    if minutes < 60 { time(step * minutes) } else { format!("{step}\u{2013}{}\u{a0}h", step + 1) }
}

/// All that a step holds, in one line: "15:30: outside 46 °C, inside 57 °C, limit 55 °C, sun 310 W/m², exchanger 80 %".
pub(super) fn moment(course: &Course, stretch: &Stretch, step: usize, units: System) -> String {
    let mut said = format!("{}: outside {}", clock(stretch, step), temperature(stretch.outside(step), units));
    for (room, about) in course.rooms.iter().enumerate() {
        said += &format!(", {} {}", inside(course, room), temperature(stretch.air(room, step), units));
        if let Some(limit) = about.hot_limit {
            said += &format!(", limit {}", temperature(limit, units));
        }
    }
    let sun = stretch.sun(step);
    said += &if sun > 0.5 {
        format!(", sun {}", show(Value::new(sun, Kind::HeatFlux), units))
    } else {
        ", no sun".to_owned()
    };
    for (unit, about) in course.units.iter().enumerate() {
        let share = show(Value::new(stretch.duty(unit, step), Kind::Share), units);
        said += &format!(", {} {share}", about.name);
    }
    said
}
