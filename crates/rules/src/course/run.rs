//! A course from beginning to end, in pieces as long as the caller likes.
//!
//! The hot day has the most that devices may draw, and the draw of all cooling units on what converts power for them, as
//! the design hour has; the year and the cold day have the ordinary draw (the year with the cooling units' draw, the cold
//! day without). A design day is settled when a day more changes no temperature by [`SETTLED`], or when all days to come
//! will move its mean by less than [`SETTLED_MEAN`]; the year begins after one run through its first days, so that no start
//! is guessed.
//!
//! Order: hot day, cold day, door, cooling, supply, start from cold, year.

use super::days::{DAY_STEP_SECONDS, DAY_STEPS};
use super::duty::{Runs, cooling_draws, goes_on, units};
use super::envelope::{Envelope, Outdoors};
use super::gathered::{Covers, batteries, peaks, room_years, span, unit_years};
use super::grid_lost::grid_lost;
use super::interior::{Load, rooms as inside};
use super::limits::{Limits, limits, rooms};
use super::prepared::PreparedClimate;
use super::transients::{MINUTES, WATCHED, door_exchange, hottest_step, none, start_from_cold, until_hot};
use super::{BatteryYear, Course, GridLost, Peak, Problem, Room, Span, Transient, Unit};
use crate::Case;
use crate::heat::gap::Gap;
use crate::heat::heat_sources::Draw;
use crate::heat::hottest::WARMEST;
use crate::heat::walls::divider_conductance;
use crate::thermal::{Plant, RoomRun, Run, Runner as Engine, Temperatures};

/// Change of temperature from one day to the next at which a design day is settled, K.
const SETTLED: f64 = 0.001;
/// Change of a mean over the day, from one day to the next and in all days to come, at which it is, K.
const SETTLED_MEAN: f64 = 0.05;
/// The same after so many days, where switching never comes to rest: K.
const MANY_DAYS: usize = 20;
const SETTLED_AT_LAST: f64 = 0.5;
/// Most days until it is: a ton behind foam takes a hundred.
const MOST_DAYS: usize = 200;
/// Days at the start of the year that are run through once before it begins.
const RUN_IN_DAYS: usize = 5;
/// Outdoor air the method covers, °C.
const OUTDOOR_AIR: std::ops::RangeInclusive<f64> = -60.0..=60.0;
/// Share of the progress that is done when the year begins.
const BEFORE_YEAR: f64 = 0.1;

/// Runs a whole course.
///
/// # Errors
/// What is missing or out of range.
pub fn run(case: &Case, climate: &PreparedClimate) -> Result<Course, Problem> {
    let mut runner = Runner::new(case, climate)?;
    while runner.advance(usize::MAX)? < 1.0 {}
    runner.finish(case)
}

/// A course under way.
#[derive(Clone, Debug)]
pub struct Runner<'c> {
    climate: &'c PreparedClimate,
    notes: Vec<String>,
    rooms: Vec<Room>,
    limits: Vec<Limits>,
    units: Vec<Unit>,
    covers: Vec<Covers>,
    hot_day: Span,
    cold_day: Span,
    door_open: Transient,
    cooling_lost: Transient,
    grid_lost: GridLost,
    cold_start: Transient,
    plant: Plant,
    outdoors: Outdoors<'c>,
    year: Engine,
    /// At the end of each month done: electricity that each unit has used since the year began, J.
    month_ends: Vec<Vec<f64>>,
}

impl<'c> Runner<'c> {
    /// Reckons the design days and what follows from them, and makes the year ready.
    ///
    /// # Errors
    /// What is missing or out of range.
    pub fn new(case: &Case, climate: &'c PreparedClimate) -> Result<Self, Problem> {
        if case.devices.len() < case.project.build.devices.len() {
            return Err(Gap::NeedsData(case.missing_parts()).into());
        }
        if !climate.suits(&case.project.brief) {
            return Err(Problem::new("climate", "prepared for another brief", "that of the project"));
        }
        if let Some(row) = climate.year.iter().position(|moment| !OUTDOOR_AIR.contains(&moment.outside)) {
            let found = format!("{} °C", climate.year[row].outside);
            return Err(Problem::new(format!("outdoor air, {}", climate::when(row)), found, "−60 to 60 °C"));
        }
        let (running, mut notes) = units(case)?;
        notes.extend(climate.notes.iter().cloned());
        let envelope = Envelope::of(case, climate)?;
        let limits = limits(case);
        let rooms = rooms(case, &limits);
        let draws = cooling_draws(&running);
        let plant = |load: Load, draws: &[crate::heat::heat_sources::UnitDraw]| Plant {
            rooms: inside(case, load, draws, climate.pressure),
            divider: divider_conductance(case),
            units: running.iter().map(|runs| runs.unit.clone()).collect(),
        };

        let hot = plant(Load::On(Draw::Most), &draws);
        let hot_outdoors = Outdoors::once(&envelope, &climate.hot_day, DAY_STEP_SECONDS);
        let hot_run = settled(&hot, &hot_outdoors, "the hot day")?;
        let cold = plant(Load::On(Draw::Ordinary), &[]);
        let cold_outdoors = Outdoors::once(&envelope, &climate.cold_day, DAY_STEP_SECONDS);
        let cold_run = settled(&cold, &cold_outdoors, "the cold day")?;

        let transients = Transients { case, running: &running, rooms: &rooms, limits: &limits };
        let (door_open, cooling_lost, grid_lost) =
            transients.of_hot_day(&hot, &hot_outdoors, &hot_run, climate.pressure)?;
        let cold_start = start_from_cold(plant(Load::Off, &[]), cold_outdoors, &rooms)?;

        let plant = plant(Load::On(Draw::Ordinary), &draws);
        let outdoors = Outdoors::once(&envelope, &climate.year, 3600.0);
        let start = vec![Temperatures::even(climate.year.first().map_or(0.0, |moment| moment.outside)); rooms.len()];
        let mut year = Engine::new(plant.clone(), &start)?;
        year.gather_cycles();
        year.advance(&outdoors, 24 * RUN_IN_DAYS)?;
        year.begin_again();
        Ok(Self {
            climate,
            notes,
            rooms,
            limits,
            units: running.iter().map(unit).collect(),
            covers: running.iter().map(|runs| Covers::of(runs)).collect(),
            hot_day: span(&climate.hot_day, &hot_run, DAY_STEP_SECONDS / 3600.0),
            cold_day: span(&climate.cold_day, &cold_run, DAY_STEP_SECONDS / 3600.0),
            door_open,
            cooling_lost,
            grid_lost,
            cold_start,
            plant,
            outdoors,
            year,
            month_ends: Vec::new(),
        })
    }

    /// The settled hot day, which is there before the year is begun.
    #[must_use]
    pub fn hot_day(&self) -> &Span {
        &self.hot_day
    }

    /// Runs on through so many hours of the year; how much of the course is done, 0 to 1. At 1 it may be finished.
    ///
    /// # Errors
    /// Why it cannot go on.
    pub fn advance(&mut self, hours: usize) -> Result<f64, Problem> {
        let until = self.year.step().saturating_add(hours).min(self.climate.year.len());
        while self.year.step() < until {
            let month_end = climate::MONTHS.get(self.month_ends.len()).map_or(until, |month| month.hours().end);
            self.year.advance(&self.outdoors, until.min(month_end))?;
            if self.year.step() == month_end {
                self.month_ends.push(self.year.run().units.iter().map(|unit| unit.electricity).collect());
            }
        }
        let done = self.year.step() as f64 / self.climate.year.len().max(1) as f64;
        Ok(if done >= 1.0 { 1.0 } else { BEFORE_YEAR + (1.0 - BEFORE_YEAR) * done })
    }

    /// The course, of the same case.
    ///
    /// # Errors
    /// When the year is not done yet.
    pub fn finish(self, case: &Case) -> Result<Course, Problem> {
        let hours = self.climate.year.len();
        if self.year.step() < hours {
            return Err(Problem::new("year", format!("{} hours done", self.year.step()), format!("{hours} hours")));
        }
        let run = self.year.into_run();
        bearable(&run)?;
        let moments = &self.climate.year;
        let room_years = room_years(&self.rooms, &self.limits, moments, &run);
        let peaks: Vec<Peak> = peaks(&self.plant, &self.outdoors, &room_years, &run);
        let batteries: Vec<BatteryYear> = batteries(case, moments, &run);
        Ok(Course {
            weather: self.climate.weather.clone(),
            notes: self.notes,
            rooms: self.rooms,
            units: self.units,
            hot_day: self.hot_day,
            cold_day: self.cold_day,
            year: span(moments, &run, 1.0),
            room_years,
            unit_years: unit_years(&self.plant, &self.covers, moments, &run, &self.month_ends),
            peaks,
            residual: run.residual(),
            batteries,
            door_open: self.door_open,
            cooling_lost: self.cooling_lost,
            grid_lost: self.grid_lost,
            cold_start: self.cold_start,
        })
    }
}

fn unit(runs: &Runs<'_>) -> Unit {
    Unit {
        id: runs.fitted.id,
        name: runs.spec.name.clone(),
        room: runs.unit.room,
        heats: runs.spec.sort == catalogue::UnitSort::Heater,
    }
}

/// Says so where the inside air gets warmer than the films hold for.
fn bearable(run: &Run) -> Result<(), Problem> {
    let highest = run.rooms.iter().flat_map(|room| &room.highest).copied().fold(f64::NEG_INFINITY, f64::max);
    if highest > WARMEST { Err(Problem::inside_air(highest)) } else { Ok(()) }
}

/// A design day that repeats itself.
fn settled(plant: &Plant, outdoors: &Outdoors<'_>, what: &str) -> Result<Run, Problem> {
    use crate::thermal::Surroundings;
    let mean = (0..DAY_STEPS).map(|step| outdoors.outside(step)).sum::<f64>() / DAY_STEPS as f64;
    let mut day = Engine::new(plant.clone(), &vec![Temperatures::even(mean); plant.rooms.len()])?;
    let mut means = vec![f64::INFINITY; plant.rooms.len()];
    let (mut days, mut before) = (0, f64::INFINITY);
    loop {
        day.begin_again();
        let start = day.temperatures();
        day.advance(outdoors, DAY_STEPS)?;
        let end = day.temperatures();
        let moved = |(a, b): (&Temperatures, &Temperatures)| (a.air - b.air).abs().max((a.mass - b.mass).abs());
        let most = start.iter().zip(&end).map(moved).fold(0.0, f64::max);
        let mean = |room: &RoomRun| room.mean.iter().sum::<f64>() / DAY_STEPS as f64;
        let fresh: Vec<f64> = day.run().rooms.iter().map(mean).collect();
        let drift = means.iter().zip(&fresh).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        days += 1;
        let switches = !plant.units.is_empty();
        let allowed = if switches && days >= MANY_DAYS { SETTLED_AT_LAST } else { SETTLED_MEAN };
        // What is still to come when each day moves it by the same share of the day before: d · q / (1 − q), q = d / d_before
        let left = drift * drift / (before - drift);
        if most < SETTLED || (drift < allowed && (0.0..allowed).contains(&left)) {
            let day = day.into_run();
            return bearable(&day).map(|()| day);
        }
        if days == MOST_DAYS {
            return Err(Problem::new(what, format!("not settled in {days} days"), "a cabinet that loses heat"));
        }
        (means, before) = (fresh, drift);
    }
}

/// What the transients of the hot day start from.
struct Transients<'t, 'a> {
    case: &'t Case<'a>,
    running: &'t [Runs<'a>],
    rooms: &'t [Room],
    limits: &'t [Limits],
}

impl Transients<'_, '_> {
    /// The door opened, the cooling lost and the supply lost.
    fn of_hot_day(
        &self,
        plant: &Plant,
        outdoors: &Outdoors<'_>,
        day: &Run,
        pressure: f64,
    ) -> Result<(Transient, Transient, GridLost), Problem> {
        let at = hottest_step(self.rooms, day, outdoors);
        let of = |room: &RoomRun| Temperatures { air: room.highest[at], mass: room.mass_end[at] };
        let start: Vec<Temperatures> = day.rooms.iter().map(of).collect();
        let next = (at + 1) % DAY_STEPS;
        let until = |keeps: &dyn Fn(&Runs<'_>) -> bool, outdoors: Outdoors<'_>| {
            let kept = self.running.iter().filter(|runs| keeps(runs)).map(|runs| runs.unit.clone()).collect();
            let plant = Plant { units: kept, ..plant.clone() };
            until_hot(plant, &start, outdoors, next, self.rooms, self.limits)
        };

        let mut first: Option<Transient> = None;
        for room in 0..self.rooms.len() {
            let Some(exchange) = door_exchange(self.case, room, pressure) else { continue };
            let open = outdoors.clone().opened(room, exchange);
            let found = until(&|runs| runs.unit.room != room, open)?;
            let sooner = |kept: &Transient| {
                let time = |transient: &Transient| transient.minutes.unwrap_or(f64::INFINITY);
                time(&found) < time(kept)
            };
            if first.as_ref().is_none_or(sooner) {
                first = Some(found);
            }
        }
        let door_open = first.unwrap_or_else(|| none("there is no door"));
        let cooling_lost = until(&|runs| goes_on(self.case, runs.fitted), outdoors.clone())?;
        let units: Vec<_> = self.running.iter().map(|runs| (runs.fitted.id, runs.unit.clone())).collect();
        let lost = grid_lost(
            self.case,
            &units,
            &start,
            &outdoors.clone().from(next, WATCHED, MINUTES),
            self.rooms,
            self.limits,
            pressure,
        )?;
        Ok((door_open, cooling_lost, lost))
    }
}
