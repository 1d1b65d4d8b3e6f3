//! From one moment on until a limit is met: a door opened, cooling lost, a start from cold. In steps of a minute.
//!
//! Open door:  V̇ = C_d/3 · A · √(g · H · ΔT / T),  K = ρ · c_p · V̇
//!
//! - V̇     air that changes places through the doorway, warm above and cold below   [m³/s]
//! - C_d   0.6
//! - A, H  area and height of the open leaf                                          [m², m]
//! - ΔT    taken as [`DOOR_DIFFERENCE`], since the engine wants a constant           [K]
//!
//! *A door opened*: at the hottest hour of the settled hot day, with the air at the highest it has then, a door of the room
//! is opened and stands open; its switch stops that room's units. Devices run on, the day goes on. What comes in is outdoor
//! air, so that a cabinet warmer than outdoors may well be cooled by it; sun on what is inside is not reckoned.
//!
//! *Cooling lost*: the same hour, all shut; only units go on that run on direct current with a battery placed or a supply
//! from afar. Devices run on.
//!
//! *Start from cold*: air and masses are as cold as the coldest hour, devices are off, heaters run; until every room is as
//! warm as its cold limit asks.
//!
//! Source:      flow through a doorway: Brown & Solvason 1962, as in building simulation, from memory, to be confirmed.
//! Valid for:   the first [`HOURS_WATCHED`] hours after a door or the cooling, [`HOURS_OF_START`] of a start; the curves end
//!              where the air passes [`WARMEST`].

use project::ItemId;

use super::days::{DAY_STEP_SECONDS, DAY_STEPS};
use super::envelope::Outdoors;
use super::limits::Limits;
use super::{Problem, Room, Series, Transient};
use crate::Case;
use crate::heat::hottest::WARMEST;
use crate::thermal::{Fault, Plant, Run, Runner, Surroundings, Temperatures, Watch};

/// How long a door open or a lost cooling is watched, h.
const HOURS_WATCHED: usize = 12;
/// The same in minutes.
pub(super) const WATCHED: usize = HOURS_WATCHED * 60;
/// How long a start from cold is watched, h.
const HOURS_OF_START: usize = 24;
/// Coefficient of discharge of a doorway.
const DISCHARGE: f64 = 0.6;
/// Difference of the air inside and outside that drives the exchange, K. Stated; common practice, no source.
const DOOR_DIFFERENCE: f64 = 5.0;
/// What still counts as equally near to a limit, K.
const AS_NEAR: f64 = 0.5;
/// Gravity, m/s².
const GRAVITY: f64 = 9.806_65;
/// Minutes in a step of a design day.
pub(super) const MINUTES: usize = (DAY_STEP_SECONDS / 60.0) as usize;

/// The step of a settled day in which some room comes nearest to its hot limit, or furthest above it. A thermostat takes the
/// air to the same top at all hours: of steps that come as near within [`AS_NEAR`] it is the one with the hottest outdoor air.
#[must_use]
pub fn hottest_step(rooms: &[Room], day: &Run, outdoors: &Outdoors<'_>) -> usize {
    let limited = || rooms.iter().zip(&day.rooms).filter_map(|(room, column)| Some((room.hot_limit?, &column.highest)));
    let over = |step: usize| limited().map(|(limit, air)| air[step] - limit).fold(f64::NEG_INFINITY, f64::max);
    let most = (0..DAY_STEPS).map(over).fold(f64::NEG_INFINITY, f64::max);
    let near = (0..DAY_STEPS).filter(|step| over(*step) >= most - AS_NEAR);
    near.max_by(|a, b| outdoors.outside(*a).total_cmp(&outdoors.outside(*b))).unwrap_or(0)
}

/// Exchange of air through an open door of a room, W/K; none without a door.
#[must_use]
pub fn door_exchange(case: &Case, room: usize, pressure: f64) -> Option<f64> {
    let layout = case.layout()?;
    let count = crate::heat::walls::compartments(case);
    let mut widest: Option<f64> = None;
    for bay in 0..layout.bays.len() {
        if bay.min(count - 1) != room {
            continue;
        }
        for end in [project::End::Front, project::End::Rear] {
            let Some(leaf) = layout.leaf(bay, end) else { continue };
            let size = leaf.size();
            let (width, height) = (size.x / 1000.0, size.z / 1000.0);
            // V̇ = C_d/3 · A · √(g · H · ΔT / T)
            let flow = DISCHARGE / 3.0 * width * height * (GRAVITY * height * DOOR_DIFFERENCE / 293.15).sqrt();
            let density = climate::density(pressure, units::Celsius(20.0))?;
            let exchange = density * climate::SPECIFIC_HEAT * flow;
            if widest.is_none_or(|widest| exchange > widest) {
                widest = Some(exchange);
            }
        }
    }
    widest
}

/// A run from some state on until the first hot limit is met.
///
/// # Errors
/// Why it cannot go on.
pub fn until_hot(
    plant: Plant,
    start: &[Temperatures],
    outdoors: Outdoors<'_>,
    from: usize,
    rooms: &[Room],
    limits: &[Limits],
) -> Result<Transient, Problem> {
    if rooms.iter().all(|room| room.hot_limit.is_none()) {
        return Ok(none("no limit is set"));
    }
    let outdoors = outdoors.from(from, HOURS_WATCHED * 60, MINUTES);
    let watches: Vec<Watch> =
        (rooms.iter().enumerate()).filter_map(|(index, room)| Some(Watch::rises_to(room.hot_limit?, index))).collect();
    let mut runner = Runner::new(plant, start)?;
    for watch in watches {
        runner.watch(watch);
    }
    let met = runner.until_met(&outdoors)?;
    // So that the curve runs to the end of what is watched, or as far as the balance goes.
    match runner.advance(&outdoors, outdoors.steps()) {
        Ok(()) | Err(Fault::Runaway { .. }) => {}
        Err(fault) => return Err(fault.into()),
    }
    let room = met.map_or(0, |met| met.room);
    let device = met.and_then(|met| first_device(limits, met.room, met.limit));
    Ok(Transient {
        minutes: met.and_then(|met| met.met_at).map(|seconds| seconds / 60.0),
        room,
        device,
        air: curves(start, &runner),
        because: String::new(),
    })
}

/// The device of a room that sets a limit.
pub(super) fn first_device(limits: &[Limits], room: usize, limit: f64) -> Option<ItemId> {
    limits.iter().find(|device| device.room == Some(room) && device.most == Some(limit)).map(|device| device.id)
}

/// A start from cold, until every room is warm enough.
///
/// # Errors
/// Why it cannot go on.
pub fn start_from_cold(plant: Plant, outdoors: Outdoors<'_>, rooms: &[Room]) -> Result<Transient, Problem> {
    let coldest = (0..DAY_STEPS).min_by(|a, b| outdoors.outside(*a).total_cmp(&outdoors.outside(*b))).unwrap_or(0);
    let start = vec![Temperatures::even(outdoors.outside(coldest)); rooms.len()];
    let outdoors = outdoors.from(coldest, HOURS_OF_START * 60, MINUTES);
    let mut runner = Runner::new(plant, &start)?;
    for (index, room) in rooms.iter().enumerate() {
        runner.watch(Watch::rises_to(room.cold_limit, index));
    }
    runner.advance(&outdoors, outdoors.steps())?;
    // The last room to get warm decides.
    let late = |watch: &Watch| watch.met_at.unwrap_or(f64::INFINITY);
    let last = runner.watches().iter().copied().max_by(|a, b| late(a).total_cmp(&late(b)));
    let room = last.map_or(0, |last| last.room);
    Ok(Transient {
        minutes: last.and_then(|last| last.met_at).map(|seconds| seconds / 60.0),
        room,
        device: rooms.get(room).and_then(|room| room.cold_device),
        air: curves(&start, &runner),
        because: String::new(),
    })
}

/// Nothing to reckon.
#[must_use]
pub fn none(because: &str) -> Transient {
    Transient { minutes: None, room: 0, device: None, air: Vec::new(), because: because.to_owned() }
}

/// The air of each room minute by minute, as far as all of it means anything.
fn curves(start: &[Temperatures], runner: &Runner) -> Vec<Series> {
    curves_of(start, std::slice::from_ref(runner.run()))
}

/// The same of runs that follow one another.
pub(super) fn curves_of(start: &[Temperatures], parts: &[Run]) -> Vec<Series> {
    let ends: Vec<Vec<f64>> = (0..start.len())
        .map(|room| parts.iter().filter_map(|run| run.rooms.get(room)).flat_map(|room| &room.end).copied().collect())
        .collect();
    let means = |minute: &usize| ends.iter().all(|end| end[*minute] <= WARMEST);
    let steps = ends.iter().map(Vec::len).min().unwrap_or(0);
    let minutes = (0..steps).take_while(means).count();
    let of = |(end, start): (&Vec<f64>, &Temperatures)| {
        std::iter::once(start.air).chain(end.iter().take(minutes).copied()).collect()
    };
    ends.iter().zip(start).map(of).collect()
}
