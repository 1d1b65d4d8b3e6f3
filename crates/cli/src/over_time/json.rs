//! Day and year as JSON, for scripts: the checks over time, and the course with its series as plain lists of numbers.

use rules::course::{BatteryYear, Course, GridLost, Peak, Room, RoomYear, Span, Transient, Unit, UnitYear};
use rules::{Badge, Finding, Topic};
use serde::Serialize;

use super::{OverTime, Stretch};
use crate::json::{Head, written};

/// What the JSON calls itself, and the version of its shape.
const FORMAT: (&str, u64) = ("baywright-course", 1);

#[derive(Serialize)]
struct Envelope<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    badge: Option<&'a Badge>,
    findings: Vec<&'a Finding>,
    /// Why there is no course; absent when there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    because: Option<&'a str>,
    #[serde(flatten)]
    course: Option<CourseFacts<'a>>,
}

#[derive(Serialize)]
struct CourseFacts<'a> {
    weather: &'a str,
    notes: &'a [String],
    rooms: &'a [Room],
    units: &'a [Unit],
    #[serde(flatten)]
    stretch: Told<'a>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Told<'a> {
    Day {
        hot_day: &'a Span,
        cold_day: &'a Span,
        door_open: &'a Transient,
        cooling_lost: &'a Transient,
        grid_lost: &'a GridLost,
        cold_start: &'a Transient,
    },
    Year {
        year: &'a Span,
        room_years: &'a [RoomYear],
        unit_years: &'a [UnitYear],
        peaks: &'a [Peak],
        batteries: &'a [BatteryYear],
        residual: f64,
    },
}

impl OverTime<'_> {
    /// Days or year as JSON, with a line end at its end.
    #[must_use]
    pub fn json(&self, stretch: Stretch) -> String {
        let envelope = Envelope {
            head: Head::new(FORMAT, self.project, self.catalogue, self.all_hold(), self.findings()),
            badge: self.report.badges.iter().find(|badge| badge.topic == Topic::Year),
            findings: self.findings().collect(),
            because: self.course.err(),
            course: self.course.ok().map(|course| facts(course, stretch)),
        };
        // Not indented: a year would be a line for each number.
        written(serde_json::to_string(&envelope))
    }
}

fn facts(course: &Course, stretch: Stretch) -> CourseFacts<'_> {
    let told = match stretch {
        Stretch::Day => Told::Day {
            hot_day: &course.hot_day,
            cold_day: &course.cold_day,
            door_open: &course.door_open,
            cooling_lost: &course.cooling_lost,
            grid_lost: &course.grid_lost,
            cold_start: &course.cold_start,
        },
        Stretch::Year => Told::Year {
            year: &course.year,
            room_years: &course.room_years,
            unit_years: &course.unit_years,
            peaks: &course.peaks,
            batteries: &course.batteries,
            residual: course.residual,
        },
    };
    CourseFacts {
        weather: &course.weather,
        notes: &course.notes,
        rooms: &course.rooms,
        units: &course.units,
        stretch: told,
    }
}
