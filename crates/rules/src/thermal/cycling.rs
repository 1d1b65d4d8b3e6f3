//! A room whose thermostats switch again and again within a step: one cycle is solved, the others are like it.
//!
//! A cycle goes from a stop of a unit to the next that finds air and units alike. It takes p and moves the mass by d. What is
//! left of the step, R, is R/p such cycles in time and air, while the mass goes on toward where cycles leave it:
//!
//! ΔT_m = d · q/(1 − q) · (1 − e^(−rR)),  q = e^(−rp),  r = (G + H_m)/C_m
//! ∫T_m = [(S_m + P_m)·R + G·∫T_a − C_m·ΔT_m] / (G + H_m)
//! 0 = (S_a + P_a)·R − (H_a + G)·∫T_a + G·∫T_m + R/p · [units that run all along + (1 + ε)·those that cycle]
//!
//! - r   how fast the mass follows air that keeps its mean                    [1/s]
//! - ε   how much more than in the solved cycle the units run, so that heat closes
//!
//! Then the step ends as its last cycle does, with the stop of the unit, and the next begins there.
//!
//! Source:      averaging of a fast motion over a slow one, text-book.
//! Valid for:   |ε| below [`MOST_MORE`]; else another cycle is solved, by which the mass comes nearer to where it goes.
//!              The highest air of a room whose unit waits lacks the swing of the other room through the divider: 0.1 K.
//! Agreement:   heat, hours and starts of a year within 1 % of the exact run (`cycling_tests.rs`, tests/tests/two_rooms_year.rs).

use super::acting::{Acting, Done, Given, Sum};
use super::drive::Phase;
use super::fading::faded;
use super::plant::Duty;

/// How much more or less the units may run in the multiplied cycles than in the solved one.
const MOST_MORE: f64 = 0.02;
/// How near a stop and the next are in air, K, and in time left to wait, s, when a cycle counts as closed.
const ALIKE: f64 = 1e-6;
/// Below this exponent a mass that fades counts as moving straight.
const STRAIGHT: f64 = 1e-6;

/// The cycle of one room.
#[derive(Clone, Debug, Default)]
pub struct Cycle {
    /// Whether the last step ended with a stop, in multiplied cycles.
    pub rests: bool,
    marked: bool,
    mark: Mark,
}

/// What a cycle began with.
#[derive(Clone, Debug, Default)]
struct Mark {
    air: f64,
    mass: f64,
    passed: f64,
    integral: f64,
    done: Vec<Done>,
    phases: Vec<Phase>,
}

/// A room at a stop of one of its units.
pub struct AtStop<'a> {
    pub acting: &'a mut Acting,
    pub room: usize,
    pub given: &'a Given,
    /// Air and mass, °C.
    pub air: f64,
    pub mass: &'a mut f64,
    /// Seconds of the step that have passed, and that are left.
    pub passed: f64,
    pub left: f64,
    pub sum: &'a mut Sum,
}

impl Cycle {
    /// Begins a step.
    pub fn begin(&mut self, here: &AtStop<'_>) {
        self.marked = false;
        if std::mem::take(&mut self.rests) {
            self.mark(here);
        }
    }

    /// A unit has stopped: the rest of the step is done by cycles like the one that ends here, if one does; says so.
    pub fn stops(&mut self, here: &mut AtStop<'_>) -> bool {
        if self.marked && self.closes(here) && self.multiply(here).is_some() {
            self.rests = true;
        } else {
            self.mark(here);
        }
        self.rests
    }

    fn mark(&mut self, here: &AtStop<'_>) {
        let mark = &mut self.mark;
        (mark.air, mark.mass, mark.passed, mark.integral) = (here.air, *here.mass, here.passed, here.sum.air);
        mark.done.clear();
        mark.phases.clear();
        for number in &here.acting.of_room[here.room] {
            mark.done.push(here.acting.done[*number]);
            mark.phases.push(here.acting.drives[*number].seen_from(here.acting.now));
        }
        self.marked = true;
    }

    fn closes(&self, here: &AtStop<'_>) -> bool {
        let mut units = here.acting.of_room[here.room].iter().zip(&self.mark.phases);
        let alike = |(number, phase): (&usize, &Phase)| {
            here.acting.drives[*number].seen_from(here.acting.now).is_like(*phase, ALIKE)
        };
        (here.air - self.mark.air).abs() < ALIKE && units.all(alike)
    }

    fn multiply(&self, here: &mut AtStop<'_>) -> Option<()> {
        let (mark, given, left) = (&self.mark, here.given, here.left);
        let room = &here.acting.plant.rooms[here.room];
        let period = here.passed - mark.passed;
        let times = left / period;
        let loss = given.mass_loss + room.exchange;
        let rate = loss / room.mass_capacity;
        let moved = *here.mass - mark.mass;
        let more = if rate * left < STRAIGHT {
            moved * times
        } else {
            let share = faded(rate * period);
            moved * share / (1.0 - share) * (1.0 - faded(rate * left))
        };
        let air = times * (here.sum.air - mark.integral);
        let mass = (given.mass * left + room.exchange * air - room.mass_capacity * more) / loss;
        // Into the air, apart from the units.
        let mut into = given.air * left - (given.air_loss + room.exchange) * air + room.exchange * mass;
        let mut by_cycling = 0.0;
        let units = &here.acting.of_room[here.room];
        let since = |index: usize, number: usize| {
            let (done, before) = (&here.acting.done[number], &mark.done[index]);
            Done {
                seconds: done.seconds - before.seconds,
                moving: done.moving - before.moving,
                heat: done.heat - before.heat,
                electricity: done.electricity - before.electricity,
                starts: done.starts - before.starts,
            }
        };
        for (index, number) in units.iter().enumerate() {
            let (unit, done) = (&here.acting.plant.units[*number], since(index, *number));
            let heat = if let Duty::Heats { .. } = unit.duty { done.heat } else { -done.heat };
            let heat = times * (heat + if unit.input_inside { done.electricity } else { 0.0 });
            *(if done.starts > 0 { &mut by_cycling } else { &mut into }) += heat;
        }
        let longer = -into / by_cycling;
        let fits = |(index, number): (usize, &usize)| {
            let done = since(index, *number);
            done.starts == 0 || times * longer * done.seconds <= left
        };
        if !((longer - 1.0).abs() < MOST_MORE && mass.is_finite() && units.iter().enumerate().all(fits)) {
            return None;
        }
        for index in 0..here.acting.of_room[here.room].len() {
            let number = here.acting.of_room[here.room][index];
            let (done, before) = (&mut here.acting.done[number], &mark.done[index]);
            let starts = done.starts - before.starts;
            let times_run = if starts > 0 { times * longer } else { times };
            done.seconds += times_run * (done.seconds - before.seconds);
            done.moving += times_run * (done.moving - before.moving);
            done.heat += times_run * (done.heat - before.heat);
            done.electricity += times_run * (done.electricity - before.electricity);
            here.acting.drives[number].earlier_by(-left);
            if starts > 0 {
                here.acting.count_parts(number, here.room, times * f64::from(starts));
            }
        }
        *here.mass += more;
        here.sum.air += air;
        here.sum.mass += mass;
        Some(())
    }
}
