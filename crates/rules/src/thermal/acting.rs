//! What acts inside the rooms: units with their thermostats, watched limits, and what all of it comes to.

use super::curve::Band;
use super::drive::{Drive, Line, Switched};
use super::plant::{Duty, Plant};
use super::run::{Run, UnitRun};
use super::{Boundary, Watch};

const HOUR: f64 = 3600.0;

/// The inside of a plant under way.
#[derive(Clone, Debug)]
pub struct Acting {
    pub plant: Plant,
    pub drives: Vec<Drive>,
    pub watches: Vec<Watch>,
    pub run: Run,
    /// Seconds from the start of the run.
    pub now: f64,
    /// What each unit did in this step.
    pub done: Vec<Done>,
    /// Starts of the units of each room in this step.
    pub step_starts: [u32; 2],
    /// The units of each room.
    pub of_room: [Vec<usize>; 2],
    /// Starts of each unit in the present hour, and that hour.
    hour: u32,
    hour_starts: Vec<u32>,
    /// What of a start each unit has made beyond whole ones, where cycles were multiplied.
    part_starts: Vec<f64>,
}

/// What a unit did in a step before it is written down: s, J.
#[derive(Clone, Copy, Debug, Default)]
pub struct Done {
    pub seconds: f64,
    pub moving: f64,
    pub heat: f64,
    pub electricity: f64,
    pub starts: u32,
}

/// What acts on a room's nodes through a step, apart from its units: W at 0 °C and W/K.
#[derive(Clone, Copy, Debug, Default)]
pub struct Given {
    pub boundary: Boundary,
    /// Into the air, and out of it for each K.
    pub air: f64,
    pub air_loss: f64,
    /// Into the mass, and out of it for each K.
    pub mass: f64,
    pub mass_loss: f64,
}

/// What acts on a room's air until something happens.
#[derive(Clone, Copy, Debug)]
pub struct Prepared {
    /// The units.
    pub units: Line,
    /// The air in which nothing happens.
    pub band: Band,
    /// Whether a unit has just stopped.
    pub stopped: bool,
}

/// What adds up over a step in one room: K·s, °C.
#[derive(Clone, Copy, Debug)]
pub struct Sum {
    pub air: f64,
    pub mass: f64,
    pub seen: Band,
}

impl Sum {
    /// Nothing yet, at this air.
    pub const fn from(inside: f64) -> Self {
        Self { air: 0.0, mass: 0.0, seen: Band { low: inside, high: inside } }
    }
}

impl Acting {
    /// Before the first step.
    pub fn new(plant: Plant) -> Self {
        let units = plant.units.len();
        let run = Run {
            rooms: vec![Default::default(); plant.rooms.len()],
            units: vec![UnitRun::default(); units],
            ..Run::default()
        };
        let of_room = [0, 1].map(|room| (0..units).filter(|unit| plant.units[*unit].room == room).collect());
        Self {
            plant,
            drives: vec![Drive::new(); units],
            watches: Vec::new(),
            run,
            now: 0.0,
            done: vec![Done::default(); units],
            step_starts: [0; 2],
            of_room,
            hour: 0,
            hour_starts: vec![0; units],
            part_starts: vec![0.0; units],
        }
    }

    /// Starts counting anew from here: empty columns, units as they are.
    pub fn begin_again(&mut self) {
        for drive in &mut self.drives {
            drive.earlier_by(self.now);
        }
        self.hour_starts.fill(0);
        self.part_starts.fill(0.0);
        (self.now, self.hour) = (0.0, 0);
        for room in &mut self.run.rooms {
            *room = Default::default();
        }
        for unit in &mut self.run.units {
            *unit = UnitRun::default();
        }
        self.run.seconds = 0.0;
    }

    /// Switches a room's units, and finds what they do at this air until something happens.
    pub fn prepare(&mut self, room: usize, inside: f64) -> Prepared {
        let mut prepared = Prepared { units: Line::default(), band: Band::OPEN, stopped: false };
        for index in 0..self.of_room[room].len() {
            let number = self.of_room[room][index];
            let unit = &self.plant.units[number];
            let drive = &mut self.drives[number];
            match drive.switch(unit, inside, self.now) {
                Switched::Not => {}
                Switched::Off => prepared.stopped = true,
                Switched::On => self.count(number, room, 1),
            }
            let drive = &mut self.drives[number];
            let unit = &self.plant.units[number];
            drive.work(unit, inside, &mut prepared.band);
            prepared.units.add(&drive.heat_in(unit));
        }
        for watch in self.watches.iter_mut().filter(|watch| watch.room == room && watch.met_at.is_none()) {
            watch.look(inside, self.now, &mut prepared.band);
        }
        prepared
    }

    /// Counts starts of a unit.
    fn count(&mut self, number: usize, room: usize, starts: u32) {
        self.hour_starts[number] += starts;
        self.step_starts[room] += starts;
        self.done[number].starts += starts;
        let record = &mut self.run.units[number];
        record.starts += starts;
        record.most_starts = record.most_starts.max(self.hour_starts[number]);
    }

    /// Counts parts of starts of a unit.
    pub fn count_parts(&mut self, number: usize, room: usize, starts: f64) {
        let part = self.part_starts[number] + starts;
        let whole = part.floor();
        self.part_starts[number] = part - whole;
        self.count(number, room, whole as u32);
    }

    /// When the next unit of a room wakes, s from the start of the run.
    pub fn wakes(&self, room: usize) -> f64 {
        self.of_room[room].iter().map(|unit| self.drives[*unit].wakes()).fold(f64::INFINITY, f64::min)
    }

    /// Adds a stretch to what the units of a room come to; ∫T of its air is given.
    pub fn note(&mut self, room: usize, seconds: f64, integral: f64) {
        for number in &self.of_room[room] {
            let (drive, done) = (&self.drives[*number], &mut self.done[*number]);
            if drive.runs {
                done.seconds += seconds;
                done.moving += if drive.moves { seconds } else { 0.0 };
                done.heat += drive.heat.over(seconds, integral);
                done.electricity += drive.input.over(seconds, integral);
            }
        }
    }

    /// Writes a step of the units down.
    pub fn close(&mut self, seconds: f64) {
        for (number, unit) in self.plant.units.iter().enumerate() {
            let done = std::mem::take(&mut self.done[number]);
            let record = &mut self.run.units[number];
            record.duty.push(done.seconds / seconds);
            record.heat_flow.push(done.heat / seconds);
            record.seconds += done.seconds;
            record.moving_seconds += done.moving;
            record.heat += done.heat;
            record.electricity += done.electricity;
            record.refused += u32::from(std::mem::take(&mut self.drives[number].refused));
            let into_air = if let Duty::Heats { .. } = unit.duty { done.heat } else { -done.heat };
            self.run.rooms[unit.room].units += into_air + if unit.input_inside { done.electricity } else { 0.0 };
        }
        self.step_starts = [0; 2];
        self.run.seconds += seconds;
        let hour = (self.now / HOUR) as u32;
        if hour != self.hour {
            self.hour = hour;
            self.hour_starts.fill(0);
        }
    }
}
