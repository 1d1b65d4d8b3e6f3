//! The climate units as the balance over time sees them: what they move, when they run, what they draw.
//!
//! Filter fans and exchangers move K · (T_i − T_o), and nothing where it is warmer outside. Where their map says so within
//! [`LINEAR_WITHIN`], K is taken from it, also beyond the map, since reading a map between its points bends the line at zero;
//! otherwise, and for air conditioners and heaters, the map itself is read. With outdoor air beyond it the unit stands still.
//! With inside air beyond its warm end it goes on as at the end: an air conditioner moves more from warmer air, so that this
//! is the safe side; standing still would make an oven of a cabinet that a real unit brings back. The hours of all three
//! are counted.
//!
//! Share left:     altitude and soiled filters as at the hottest hour (`heat/cooling.rs`), at all hours.
//! Stages:         of several units of one sort in a room, each starts and stops [`STAGE`] later than the one before it in the
//!                 build, so that they do not all start at once.
//! Order of duty:  in one room fans and exchangers start at least [`BEFORE`] below the lowest start of an air conditioner, so
//!                 that free cooling comes first; heaters stop at least [`BEFORE`] below the lowest stop of what cools, so
//!                 that the two never fight.
//! Rest:           compressors as the catalogue says; everything else rests at least [`FEELER`], since the feeler of a plain
//!                 thermostat follows the air only in minutes.
//! Own input:      inside the room where the catalogue says so (of fans and exchangers, unless told otherwise).

use std::collections::BTreeSet;

use catalogue::{ClimateUnit, UnitMap, UnitSort};
use project::{Fed, FittedUnit};

use super::Problem;
use crate::heat::cooling::{served, share_left, site_in_range};
use crate::heat::gap::Gap;
use crate::heat::heat_sources::UnitDraw;
use crate::thermal::{Duty, Input, Mover, Unit};
use crate::{Case, Phrase};

/// How far a map may be off a straight line through equal temperatures, as a share.
const LINEAR_WITHIN: f64 = 0.01;
/// Kelvins between the thermostats of one unit and the next in the order of duty. Common practice, no source.
const BEFORE: f64 = 2.0;
/// Kelvins between the stages of several units of one sort. Common practice, no source.
const STAGE: f64 = 1.0;
/// Narrowest band of a thermostat, K.
const LEAST_BAND: f64 = 0.5;

/// Least time between a stop and the next start of what has no compressor, s. Common practice, no source.
const FEELER: f64 = 300.0;
/// Inside air to which the warm end of a map is carried on, °C: as far as the balance goes.
const WARMEST: f64 = 200.0;

/// A unit of the build that runs.
#[derive(Clone, Debug)]
pub struct Runs<'a> {
    /// As fitted.
    pub fitted: &'a FittedUnit,
    /// Its data.
    pub spec: &'a ClimateUnit,
    /// As the balance sees it.
    pub unit: Unit,
}

/// The units of a case, in the order of the build, and what was changed of their thermostats, in words.
///
/// # Errors
/// When the site is out of range, a part is unknown, or altitude leaves nothing of a unit.
pub fn units<'a>(case: &Case<'a>) -> Result<(Vec<Runs<'a>>, Vec<String>), Problem> {
    let brief = &case.project.brief;
    for outside in [brief.hottest, brief.coldest] {
        site_in_range(case, outside)?;
    }
    if case.units.len() < case.project.build.climate.len() {
        return Err(Gap::NeedsData(case.missing_parts()).into());
    }
    let mut running = Vec::new();
    for (fitted, spec) in &case.units {
        let left = share_left(spec, brief.elevation, brief.hottest).ok_or_else(|| {
            let why = Phrase::from(spec.name.as_str()).text(" has nothing left at ").value(brief.elevation);
            Problem::from(Gap::OutOfRange(why))
        })?;
        running.push(Runs { fitted, spec, unit: unit(spec, served(case, fitted.at), left) });
    }
    put_in_stages(&mut running);
    let notes = put_in_order(&mut running);
    Ok((running, notes))
}

/// What cools draws at most, as loads on what converts power.
#[must_use]
pub fn cooling_draws(running: &[Runs<'_>]) -> Vec<UnitDraw> {
    let cools = running.iter().filter(|runs| runs.spec.sort != UnitSort::Heater);
    cools.map(|runs| UnitDraw { of: runs.fitted.id, power: greatest_input(runs.spec) }).collect()
}

fn greatest_input(spec: &ClimateUnit) -> f64 {
    spec.map.input.iter().flatten().copied().fold(0.0, f64::max)
}

/// The thermostat of a unit: the one place where the catalogue's fields are read.
fn thermostat(spec: &ClimateUnit) -> Duty {
    let on = spec.set_point.0;
    let band = spec.hysteresis.0.max(LEAST_BAND);
    let least_off = spec.seconds_off();
    match spec.sort {
        UnitSort::Heater => Duty::Heats { on, off: on + band, least_off: least_off.max(FEELER) },
        UnitSort::AirConditioner => Duty::Cools { on, off: on - band, least_off },
        UnitSort::FilterFan | UnitSort::Exchanger => {
            Duty::Cools { on, off: on - band, least_off: least_off.max(FEELER) }
        }
    }
}

fn unit(spec: &ClimateUnit, room: usize, left: f64) -> Unit {
    let linear = matches!(spec.sort, UnitSort::FilterFan | UnitSort::Exchanger);
    let (mover, input) = match linear.then(|| conductance(spec)).flatten() {
        Some(k) => (Mover::Linear(k * left), Input::Constant(greatest_input(spec))),
        None => (Mover::Map { map: carried_on(&spec.map), share: left }, Input::OfMap),
    };
    Unit { room, duty: thermostat(spec), mover, input, input_inside: spec.input_heats_inside() }
}

/// A map whose warmest row goes on.
fn carried_on(map: &UnitMap) -> UnitMap {
    let mut map = map.clone();
    if map.inside.last().is_some_and(|last| *last < WARMEST) {
        map.inside.push(WARMEST);
        for rows in [&mut map.capacity, &mut map.input] {
            rows.extend(rows.last().cloned());
        }
    }
    map
}

/// K of a unit whose map is K · max(0, T_i − T_o) within [`LINEAR_WITHIN`], W/K.
#[must_use]
pub fn conductance(spec: &ClimateUnit) -> Option<f64> {
    let map = &spec.map;
    let mut points = Vec::new();
    for (inside, row) in map.inside.iter().zip(&map.capacity) {
        for (outside, capacity) in map.outside.iter().zip(row) {
            points.push((inside - outside, *capacity));
        }
    }
    let warmer: Vec<_> = points.iter().filter(|(difference, _)| *difference > 0.0).collect();
    let (difference, most) = warmer.iter().max_by(|a, b| a.0.total_cmp(&b.0))?;
    let k = most / difference;
    let follows = |&(difference, capacity): &(f64, f64)| {
        let expected = k * difference.max(0.0);
        (capacity - expected).abs() <= LINEAR_WITHIN * expected
    };
    (k > 0.0 && points.iter().all(follows)).then_some(k)
}

/// Moves the thermostat of each unit beyond those of the units of its sort before it.
fn put_in_stages(running: &mut [Runs<'_>]) {
    for at in 0..running.len() {
        let (before, rest) = running.split_at_mut(at);
        let Some(runs) = rest.first_mut() else { return };
        let alike = |other: &&Runs<'_>| other.unit.room == runs.unit.room && other.spec.sort == runs.spec.sort;
        let later = STAGE * before.iter().filter(alike).count() as f64;
        match &mut runs.unit.duty {
            Duty::Cools { on, off, .. } => (*on, *off) = (*on + later, *off + later),
            Duty::Heats { on, off, .. } => (*on, *off) = (*on - later, *off - later),
        }
    }
}

/// Keeps the order of duty in each room; what was changed, in words.
fn put_in_order(running: &mut [Runs<'_>]) -> Vec<String> {
    let mut notes = Vec::new();
    let rooms: BTreeSet<usize> = running.iter().map(|runs| runs.unit.room).collect();
    for room in rooms {
        let of = |running: &[Runs<'_>], sort: &dyn Fn(UnitSort) -> bool| {
            let own = running.iter().filter(|runs| runs.unit.room == room && sort(runs.spec.sort));
            own.filter_map(|runs| match runs.unit.duty {
                Duty::Cools { on, off, .. } => Some((on, off)),
                Duty::Heats { .. } => None,
            })
            .fold((f64::INFINITY, f64::INFINITY), |low, (on, off)| (low.0.min(on), low.1.min(off)))
        };
        let (conditioner_on, _) = of(running, &|sort| sort == UnitSort::AirConditioner);
        for runs in running.iter_mut().filter(|runs| runs.unit.room == room) {
            if let Duty::Cools { on, off, .. } = &mut runs.unit.duty
                && runs.spec.sort != UnitSort::AirConditioner
                && *on > conditioner_on - BEFORE
            {
                let by = *on - (conditioner_on - BEFORE);
                (*on, *off) = (*on - by, *off - by);
                notes.push(format!("{} is taken to start at {on:.0} °C, before the air conditioner", runs.spec.name));
            }
        }
        let (_, cooling_off) = of(running, &|sort| sort != UnitSort::Heater);
        for runs in running.iter_mut().filter(|runs| runs.unit.room == room) {
            if let Duty::Heats { on, off, .. } = &mut runs.unit.duty
                && *off > cooling_off - BEFORE
            {
                let by = *off - (cooling_off - BEFORE);
                (*on, *off) = (*on - by, *off - by);
                notes.push(format!("{} is taken to stop at {off:.0} °C, so that nothing cools then", runs.spec.name));
            }
        }
    }
    notes.dedup();
    notes
}

/// Whether a unit goes on when the site's supply fails: what feeds it hangs on a battery, holds energy itself, or comes from
/// afar.
#[must_use]
pub fn goes_on(case: &Case, fitted: &FittedUnit) -> bool {
    let node = case.network.node_of(Fed::Unit(fitted.id));
    node.is_none_or(|node| case.network.outlasts(case, node))
}
