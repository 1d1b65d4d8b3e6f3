//! A step solved exactly, from event to event, but for cycles that are alike.

use super::acting::{Acting, Given, Prepared, Sum};
use super::curve::Band;
use super::cycling::{AtStop, Cycle};
use super::stretch::{Nodes, air, mass};
use super::{Fault, MEANINGFUL_AIR};

/// Events followed within one step before a run gives up.
pub const MOST_EVENTS: u32 = 20_000;
/// A stretch below this is no time, s.
pub const NO_TIME: f64 = 1e-9;

/// A step of the surroundings.
#[derive(Clone, Copy, Debug)]
pub struct Step {
    pub number: usize,
    /// Its start, s from the start of the run.
    pub begin: f64,
    /// Its length, s.
    pub seconds: f64,
}

/// The units of a room at the air of its node, and what acts on its nodes until something happens.
fn prepare<const N: usize>(
    acting: &mut Acting,
    nodes: &mut Nodes<N>,
    room: usize,
    at: usize,
    given: &Given,
) -> Prepared {
    let prepared = acting.prepare(room, nodes.temperature[air(at)]);
    nodes.source[air(at)] = given.air + prepared.units.level;
    nodes.loss[air(at)] = given.air_loss - prepared.units.slope;
    nodes.source[mass(at)] = given.mass;
    nodes.loss[mass(at)] = given.mass_loss;
    prepared
}

/// Runs rooms, from the first of these nodes on, through a step. Of a room alone alike cycles are multiplied where a cycle is
/// given.
pub fn run<const N: usize>(
    acting: &mut Acting,
    nodes: &mut Nodes<N>,
    first: usize,
    given: &[Given; 2],
    step: &Step,
    sums: &mut [Sum; 2],
    mut cycle: Option<&mut Cycle>,
) -> Result<(), Fault> {
    let rooms = N / 2;
    let mut bands = [Band::OPEN; 2];
    let mut seen = [Band::OPEN; 2];
    let Step { begin, seconds, .. } = *step;
    let end = begin + seconds;
    acting.now = begin;
    for at in 0..rooms {
        seen[at] = sums[first + at].seen;
        bands[at] = prepare(acting, nodes, first + at, at, &given[first + at]).band;
    }
    if let Some(cycle) = &mut cycle {
        cycle.begin(&at_stop(acting, nodes, first, given, 0.0, seconds, sums));
    }
    let mut passed = 0.0;
    let mut events = 0;
    'step: while passed < seconds - NO_TIME {
        let wakes = (0..rooms).map(|at| acting.wakes(first + at)).fold(end, f64::min);
        let most = (wakes - begin).min(seconds) - passed;
        let stretch = nodes.go(most.max(0.0), &bands, &mut seen);
        passed += stretch.seconds;
        acting.now = begin + passed;
        acting.run.stretches += 1;
        for at in 0..rooms {
            let sum = &mut sums[first + at];
            sum.air += stretch.integral[air(at)];
            sum.mass += stretch.integral[mass(at)];
            acting.note(first + at, stretch.seconds, stretch.integral[air(at)]);
            let inside = nodes.temperature[air(at)];
            if !MEANINGFUL_AIR.contains(&inside) {
                return Err(Fault::Runaway { step: step.number, room: first + at, air: inside });
            }
        }
        events += 1;
        if events > MOST_EVENTS {
            return Err(Fault::Restless { step: step.number, events: MOST_EVENTS });
        }
        let woken = stretch.event.is_none() && wakes < end;
        for at in 0..rooms {
            // Equal rooms switch at one moment, though only one of them is found to.
            let there = bands[at].is_left(nodes.temperature[air(at)]);
            if woken || there || stretch.event.is_some_and(|(left, _)| left == at) {
                let prepared = prepare(acting, nodes, first + at, at, &given[first + at]);
                bands[at] = prepared.band;
                if prepared.stopped
                    && let Some(cycle) = &mut cycle
                    && cycle.stops(&mut at_stop(acting, nodes, first, given, passed, seconds, sums))
                {
                    break 'step;
                }
            }
        }
    }
    for at in 0..rooms {
        sums[first + at].seen = seen[at];
    }
    Ok(())
}

/// The room of these nodes at a stop of one of its units.
fn at_stop<'a, const N: usize>(
    acting: &'a mut Acting,
    nodes: &'a mut Nodes<N>,
    room: usize,
    given: &'a [Given; 2],
    passed: f64,
    seconds: f64,
    sums: &'a mut [Sum; 2],
) -> AtStop<'a> {
    AtStop {
        acting,
        room,
        given: &given[room],
        air: nodes.temperature[air(0)],
        mass: &mut nodes.temperature[mass(0)],
        passed,
        left: seconds - passed,
        sum: &mut sums[room],
    }
}
