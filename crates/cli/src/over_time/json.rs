//! Day and year as JSON, for scripts: the checks over time, and the course with its series as plain lists of numbers.

use project::Brief;
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
        energy: Energy<'a>,
        residual: f64,
    },
}

/// What all units use, and what it costs where the brief has a tariff.
#[derive(Serialize)]
struct Energy<'a> {
    /// Price of a kWh.
    tariff: Option<f64>,
    currency: &'a str,
    months: Vec<Used>,
    year: Used,
}

/// Electricity of a stretch of time, kWh, and what it costs.
#[derive(Serialize)]
struct Used {
    electricity: f64,
    cost: Option<f64>,
}

impl<'a> Energy<'a> {
    fn of(brief: &'a Brief, course: &Course) -> Self {
        let used = |electricity| Used { electricity, cost: brief.cost(electricity) };
        Self {
            tariff: brief.tariff,
            currency: &brief.currency,
            months: course.electricity_by_month().into_iter().map(used).collect(),
            year: used(course.electricity()),
        }
    }
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
            course: self.course.ok().map(|course| facts(&self.project.brief, course, stretch)),
        };
        // Not indented: a year would be a line for each number.
        written(serde_json::to_string(&envelope))
    }
}

fn facts<'a>(brief: &'a Brief, course: &'a Course, stretch: Stretch) -> CourseFacts<'a> {
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
            energy: Energy::of(brief, course),
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
