//! One day out of a course.

use climate::DAYS;
use rules::course::{Course, Series, Span};

use super::calendar::DAY;

/// Minutes of a day.
pub(super) const MINUTES: usize = 1440;

/// A day that can be looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Day {
    /// The brief's hottest day.
    #[default]
    Hottest,
    /// The brief's coldest day.
    Coldest,
    /// A day of the year, counted from 0.
    OfYear(usize),
}

/// The steps of one day.
#[derive(Clone, Copy)]
pub(super) struct Stretch<'a> {
    span: &'a Span,
    first: usize,
    /// How many steps the day has.
    pub(super) steps: usize,
}

fn at(series: &Series, step: usize) -> f64 {
    series.at(step).unwrap_or(f64::NAN)
}

impl<'a> Stretch<'a> {
    /// A day of a course; of a year's end where that day is beyond it.
    pub(super) fn of(course: &'a Course, day: Day) -> Self {
        match day {
            Day::Hottest => Self { span: &course.hot_day, first: 0, steps: course.hot_day.outside.len() },
            Day::Coldest => Self { span: &course.cold_day, first: 0, steps: course.cold_day.outside.len() },
            Day::OfYear(day) => Self { span: &course.year, first: day.min(DAYS - 1) * DAY, steps: DAY },
        }
    }

    /// Minutes of one step.
    pub(super) fn minutes(&self) -> usize {
        MINUTES / self.steps.max(1)
    }

    /// The step that a minute of the day falls into.
    pub(super) fn step_at(&self, minute: usize) -> usize {
        (minute / self.minutes().max(1)).min(self.steps.saturating_sub(1))
    }

    /// The middle of a step, h.
    pub(super) fn middle(&self, step: usize) -> f64 {
        (step as f64 + 0.5) * self.minutes() as f64 / 60.0
    }

    /// Outdoor air, °C.
    pub(super) fn outside(&self, step: usize) -> f64 {
        at(&self.span.outside, self.first + step)
    }

    /// Inside air of a room, °C.
    pub(super) fn air(&self, room: usize, step: usize) -> f64 {
        self.span.air.get(room).map_or(f64::NAN, |series| at(series, self.first + step))
    }

    /// Sun on level ground, W/m².
    pub(super) fn sun(&self, step: usize) -> f64 {
        at(&self.span.sun, self.first + step)
    }

    /// Height and bearing of the sun, degrees.
    pub(super) fn sun_at(&self, step: usize) -> (f64, f64) {
        (at(&self.span.sun_height, self.first + step), at(&self.span.sun_bearing, self.first + step))
    }

    /// Sun on each face, W/m²: front, rear, left, right, roof.
    pub(super) fn faces(&self, step: usize) -> [f64; 5] {
        std::array::from_fn(|face| self.span.faces.get(face).map_or(0.0, |series| at(series, self.first + step)))
    }

    /// Share of a step that a unit ran.
    pub(super) fn duty(&self, unit: usize, step: usize) -> f64 {
        self.span.duty.get(unit).map_or(0.0, |series| at(series, self.first + step))
    }

    /// The step with the greatest figure.
    pub(super) fn hottest(&self, rooms: usize) -> usize {
        let warmth = |step: usize| (0..rooms).map(|room| self.air(room, step)).fold(f64::MIN, f64::max);
        (0..self.steps).max_by(|one, other| warmth(*one).total_cmp(&warmth(*other))).unwrap_or(0)
    }

    /// The step with the least figure.
    pub(super) fn coldest(&self, rooms: usize) -> usize {
        let warmth = |step: usize| (0..rooms).map(|room| self.air(room, step)).fold(f64::MAX, f64::min);
        (0..self.steps).min_by(|one, other| warmth(*one).total_cmp(&warmth(*other))).unwrap_or(0)
    }
}
