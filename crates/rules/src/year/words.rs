//! How the checks over time name things and write figures.

use geometry::Of;
use project::ItemId;
use units::{Kind, Value};

use crate::course::Course;
use crate::fit::names::part_name;
use crate::{Case, Phrase, Step, Subject, count};

/// Notes on the weather that a working tells before it counts the rest.
const NOTES: usize = 3;

/// Hours as a value.
pub(super) const fn hours(number: f64) -> Value {
    Value::new(number, Kind::Time)
}

/// Minutes as a value.
pub(super) const fn minutes(number: f64) -> Value {
    Value::new(number, Kind::Minutes)
}

/// Watts as a value.
pub(super) const fn watts(number: f64) -> Value {
    Value::new(number, Kind::Power)
}

/// Kilowatt-hours as a value.
pub(super) const fn energy(number: f64) -> Value {
    Value::new(number, Kind::Energy)
}

/// A room as the subject of a finding.
pub(super) fn room_subject(course: &Course, room: usize) -> Subject {
    if course.rooms.len() == 1 { Subject::Cabinet } else { Subject::Bay(room) }
}

/// What a room is called; nothing when it is the whole cabinet.
pub(super) fn room_name(course: &Course, room: usize) -> Phrase {
    match course.rooms.get(room) {
        Some(room) if !room.name.is_empty() => room.name.as_str().into(),
        _ => Phrase::new(),
    }
}

/// Name and place of a device, where the catalogue knows it.
pub(super) fn device_name(case: &Case, id: ItemId) -> Phrase {
    case.device(id).map_or_else(|| "a device that this catalogue does not know".into(), |device| case.name(device))
}

/// Name and place of a unit.
pub(super) fn unit_name(case: &Case, id: ItemId) -> Phrase {
    part_name(case, Of::Unit(id))
}

/// One phrase behind the other, parted by a semicolon where both are there.
pub(super) fn joined(first: Phrase, then: Phrase) -> Phrase {
    let parted = !first.is_empty() && !then.is_empty();
    (if parted { first.text("; ") } else { first }).then(then)
}

/// Words followed by a phrase.
pub(super) fn of(words: &str, phrase: Phrase) -> Phrase {
    Phrase::from(words).then(phrase)
}

/// The steps that have a number: a row of a course may hold what is none.
pub(super) fn told(mut working: Vec<Step>) -> Vec<Step> {
    working.retain(|step| step.value.number.is_finite());
    working
}

/// What was corrected or assumed in the weather that the run went by; none when nothing was.
pub(super) fn weather_steps(course: &Course) -> Vec<Step> {
    if course.notes.is_empty() {
        return Vec::new();
    }
    let mut notes: Vec<_> = course.notes.iter().take(NOTES).cloned().collect();
    if course.notes.len() > NOTES {
        notes.push(format!("{} more", course.notes.len() - NOTES));
    }
    let meaning = format!("corrected or assumed in the weather: {}", notes.join("; "));
    vec![Step::input("n_notes", meaning, count(course.notes.len()))]
}
