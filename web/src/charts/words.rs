//! What a moment says, for the eye and for the ear.

use climate::date;
use rules::course::Course;
use units::{Kind, System, Value, show};

use super::calendar::time;
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

/// "bay A", or "inside" where there is one room, as a curve's name.
pub(super) fn room_name(course: &Course, room: usize) -> String {
    let name = course.rooms.get(room).map_or("", |room| room.name.as_str());
    if name.is_empty() { "inside".to_owned() } else { name.to_owned() }
}

/// The longest label of a unit beside its row, characters.
pub(super) const LABEL: usize = 18;

/// What each unit is called where there is little room: the words of its name before the first figure; where two would be
/// called the same, its name before the first comma; where that is the same too, a number comes after it.
pub(super) fn unit_labels(course: &Course) -> Vec<String> {
    let names: Vec<&str> = course.units.iter().map(|unit| unit.name.as_str()).collect();
    labels(&names)
}

fn labels(names: &[&str]) -> Vec<String> {
    let words = |name: &str| {
        let words = name.split([' ', ',']).take_while(|word| !word.starts_with(|first: char| first.is_ascii_digit()));
        words.collect::<Vec<_>>().join(" ")
    };
    let sized = |name: &str| name.split(',').next().unwrap_or(name).to_owned();
    let plain: Vec<String> = names.iter().map(|name| words(name)).collect();
    let sized: Vec<String> = names.iter().map(|name| sized(name)).collect();
    let alone = |all: &[String], index: usize| all.iter().filter(|each| **each == all[index]).count() == 1;
    (0..names.len())
        .map(|index| {
            if !plain[index].is_empty() && alone(&plain, index) {
                cut(&plain[index], LABEL)
            } else if alone(&sized, index) {
                cut(&sized[index], LABEL)
            } else {
                let before = sized[..index].iter().filter(|each| **each == sized[index]).count();
                format!("{} {}", cut(&plain[index], LABEL - 3), before + 1)
            }
        })
        .collect()
}

/// The words as far as there is room.
fn cut(words: &str, to: usize) -> String {
    if words.chars().count() <= to {
        return words.to_owned();
    }
    let kept: String = words.chars().take(to - 1).collect();
    format!("{}\u{2026}", kept.trim_end())
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

/// "sun 310 W/m²", or "no sun".
pub(super) fn sun(flux: f64, units: System) -> String {
    if flux > 0.5 { format!("sun {}", show(Value::new(flux, Kind::HeatFlux), units)) } else { "no sun".to_owned() }
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
    said += &format!(", {}", sun(stretch.sun(step), units));
    for (unit, about) in course.units.iter().enumerate() {
        let share = show(Value::new(stretch.duty(unit, step), Kind::Share), units);
        said += &format!(", {} {share}", about.name);
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(names: &[&str], expected: &[&str]) {
        assert_eq!(labels(names), expected);
    }

    #[test]
    fn a_unit_is_called_by_what_tells_it_from_the_others() {
        check(&["Conditioner 2000 W, 230 V", "Heater 250 W"], &["Conditioner", "Heater"]);
        check(&["Filter fan 250, 48 V"], &["Filter fan"]);
        check(
            &["Conditioner 2000 W, 230 V", "Conditioner 1500 W, 230 V"],
            &["Conditioner 2000 W", "Conditioner 1500 W"],
        );
        check(&["Exchanger 80, 48 V", "Exchanger 80, 48 V"], &["Exchanger 1", "Exchanger 2"]);
    }

    #[test]
    fn a_long_name_is_cut() {
        check(&["Exchanger with a very long name"], &["Exchanger with a\u{2026}"]);
    }
}
