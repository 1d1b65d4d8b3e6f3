//! The loop over steps and stretches.

use super::curve::Band;
use super::drive::{Drive, Line};
use super::plant::{Duty, Plant};
use super::run::{Run, UnitRun};
use super::stretch::{Nodes, Stretch, air, mass};
use super::{Boundary, Fault, MEANINGFUL_AIR, Surroundings, Watch};

/// Events followed within one step before a run gives up.
const MOST_EVENTS: u32 = 20_000;
/// A stretch below this is no time, s.
const NO_TIME: f64 = 1e-9;
const HOUR: f64 = 3600.0;

/// A run under way, of one room (two nodes) or of two (four).
#[derive(Clone, Debug)]
pub struct Core<const N: usize> {
    plant: Plant,
    nodes: Nodes<N>,
    start: [f64; N],
    drives: Vec<Drive>,
    bands: [Band; 2],
    /// Mean air of the last step and of the one before it, °C.
    means: [[f64; 2]; 2],
    now: f64,
    /// Starts of each unit in the present hour, and that hour.
    hour: u32,
    hour_starts: Vec<u32>,
    done: Vec<Done>,
    pub step: usize,
    pub watches: Vec<Watch>,
    pub run: Run,
}

/// What adds up over a step.
#[derive(Clone, Copy, Debug)]
struct Sum<const N: usize> {
    seconds: f64,
    integral: [f64; N],
    seen: [Band; 2],
}

/// What a unit did in a step before it is written down: s, J.
#[derive(Clone, Copy, Debug, Default)]
struct Done {
    seconds: f64,
    moving: f64,
    heat: f64,
    electricity: f64,
}

impl<const N: usize> Core<N> {
    const ROOMS: usize = N / 2;

    /// A plant that has passed its check, its nodes at these temperatures.
    pub fn new(plant: Plant, start: [f64; N]) -> Self {
        let (mut capacity, mut link) = ([0.0; N], [0.0; N]);
        for (number, room) in plant.rooms.iter().enumerate() {
            capacity[air(number)] = room.air_capacity;
            capacity[mass(number)] = room.mass_capacity;
            link[air(number).min(mass(number))] = room.exchange;
        }
        if N > 2 {
            link[air(0)] = plant.divider;
        }
        let mut means = [[0.0; 2]; 2];
        for (room, means) in means.iter_mut().enumerate().take(Self::ROOMS) {
            *means = [start[air(room)]; 2];
        }
        let units = plant.units.len();
        let run = Run {
            rooms: vec![Default::default(); Self::ROOMS],
            units: vec![UnitRun::default(); units],
            ..Run::default()
        };
        Self {
            nodes: Nodes::new(capacity, link, start),
            start,
            drives: vec![Drive::new(); units],
            plant,
            bands: [Band::OPEN; 2],
            means,
            now: 0.0,
            hour: 0,
            hour_starts: vec![0; units],
            done: vec![Done::default(); units],
            step: 0,
            watches: Vec::new(),
            run,
        }
    }

    /// Temperatures of the nodes, °C.
    pub const fn temperature(&self) -> &[f64; N] {
        &self.nodes.temperature
    }

    /// Moves the nodes, as between two rounds of settling.
    pub fn put(&mut self, temperature: [f64; N]) {
        self.nodes.temperature = temperature;
    }

    /// Starts counting anew from here: step 0, empty columns, units as they are.
    pub fn begin_again(&mut self) {
        for drive in &mut self.drives {
            drive.earlier_by(self.now);
        }
        self.hour_starts.fill(0);
        (self.now, self.step, self.hour) = (0.0, 0, 0);
        self.start = self.nodes.temperature;
        for room in &mut self.run.rooms {
            *room = Default::default();
        }
        for unit in &mut self.run.units {
            *unit = UnitRun::default();
        }
        self.run.seconds = 0.0;
    }

    /// Runs up to a step.
    pub fn advance<S: Surroundings + ?Sized>(&mut self, surroundings: &S, until: usize) -> Result<(), Fault> {
        let seconds = surroundings.step_seconds();
        let until = until.min(surroundings.steps());
        let fits = seconds.is_finite() && seconds > 0.0;
        if !fits && self.step < until {
            let what = "length of a step, s,".to_owned();
            return Err(Fault::Surroundings { step: self.step, what, value: seconds, allowed: "a number above 0" });
        }
        let more = until.saturating_sub(self.step);
        self.run.reserve(more);
        for _ in 0..more {
            self.step(surroundings, seconds)?;
        }
        for (number, room) in self.run.rooms.iter_mut().enumerate() {
            let gained = |node: usize| self.nodes.temperature[node] - self.start[node];
            let capacities = &self.plant.rooms[number];
            room.stored =
                capacities.air_capacity * gained(air(number)) + capacities.mass_capacity * gained(mass(number));
        }
        Ok(())
    }

    fn step<S: Surroundings + ?Sized>(&mut self, surroundings: &S, seconds: f64) -> Result<(), Fault> {
        let outside = surroundings.outside(self.step);
        demand(outside.is_finite(), self.step, || "outdoor air".to_owned(), outside, "a number")?;
        let mut boundaries = [Boundary::default(); 2];
        for room in 0..Self::ROOMS {
            let [last, before] = self.means[room];
            boundaries[room] = surroundings.boundary(self.step, room, 2.0 * last - before);
            check_boundary(&boundaries[room], self.step, room)?;
        }
        for (unit, drive) in self.plant.units.iter().zip(&mut self.drives) {
            drive.outside_is(unit, outside);
        }
        let mut sum = Sum { seconds: 0.0, integral: [0.0; N], seen: [Band::OPEN; 2] };
        for room in 0..Self::ROOMS {
            let inside = self.nodes.temperature[air(room)];
            sum.seen[room] = Band { low: inside, high: inside };
        }
        let end = self.now + seconds;
        let begin = self.now;
        let mut events = 0;
        for room in 0..Self::ROOMS {
            self.prepare(room, &boundaries[room]);
        }
        while sum.seconds < seconds - NO_TIME {
            let wakes = self.drives.iter().map(Drive::wakes).fold(end, f64::min);
            let most = (wakes - begin).min(seconds) - sum.seconds;
            let stretch = self.nodes.go(most.max(0.0), &self.bands[..Self::ROOMS], &mut sum.seen[..Self::ROOMS]);
            self.note(&stretch, &mut sum);
            self.now = begin + sum.seconds;
            for room in 0..Self::ROOMS {
                let air = self.nodes.temperature[air(room)];
                if !MEANINGFUL_AIR.contains(&air) {
                    return Err(Fault::Runaway { step: self.step, room, air });
                }
            }
            events += 1;
            if events > MOST_EVENTS {
                return Err(Fault::Restless { step: self.step, events: MOST_EVENTS });
            }
            let woken = stretch.event.is_none() && wakes < end;
            for room in 0..Self::ROOMS {
                // Equal rooms switch at one moment, though only one of them is found to.
                let there = self.bands[room].is_left(self.nodes.temperature[air(room)]);
                if woken || there || stretch.event.is_some_and(|(left, _)| left == room) {
                    self.prepare(room, &boundaries[room]);
                }
            }
        }
        self.now = end;
        self.close(&sum, &boundaries, seconds);
        Ok(())
    }

    /// Switches a room's units and finds what acts on its nodes until something happens.
    fn prepare(&mut self, room: usize, boundary: &Boundary) {
        let (a, m) = (air(room), mass(room));
        let inside = self.nodes.temperature[a];
        let mut band = Band::OPEN;
        let mut units = Line::default();
        for (number, unit) in self.plant.units.iter().enumerate().filter(|(_, unit)| unit.room == room) {
            let drive = &mut self.drives[number];
            if drive.switch(unit, inside, self.now) {
                self.hour_starts[number] += 1;
                let record = &mut self.run.units[number];
                record.starts += 1;
                record.most_starts = record.most_starts.max(self.hour_starts[number]);
            }
            drive.work(unit, inside, &mut band);
            units.add(&drive.heat_in(unit));
        }
        for watch in self.watches.iter_mut().filter(|watch| watch.room == room && watch.met_at.is_none()) {
            watch.look(inside, self.now, &mut band);
        }
        let heat = &self.plant.rooms[room];
        self.nodes.source[a] = boundary.air_source + heat.heat_to_air + units.level;
        self.nodes.loss[a] = boundary.air_conductance - units.slope;
        self.nodes.source[m] = boundary.mass_source + heat.heat_to_mass;
        self.nodes.loss[m] = boundary.mass_conductance;
        self.bands[room] = band;
    }

    /// Adds a stretch to what the step and its units come to.
    fn note(&mut self, stretch: &Stretch<N>, sum: &mut Sum<N>) {
        sum.seconds += stretch.seconds;
        for node in 0..N {
            sum.integral[node] += stretch.integral[node];
        }
        for ((unit, drive), done) in self.plant.units.iter().zip(&self.drives).zip(&mut self.done) {
            if drive.runs {
                let integral = stretch.integral[air(unit.room)];
                done.seconds += stretch.seconds;
                done.moving += if drive.moves { stretch.seconds } else { 0.0 };
                done.heat += drive.heat.over(stretch.seconds, integral);
                done.electricity += drive.input.over(stretch.seconds, integral);
            }
        }
        self.run.stretches += 1;
    }

    /// Writes a step down.
    fn close(&mut self, sum: &Sum<N>, boundaries: &[Boundary; 2], seconds: f64) {
        for (number, room) in self.run.rooms.iter_mut().enumerate() {
            let (a, m) = (air(number), mass(number));
            let mean = sum.integral[a] / seconds;
            room.mean.push(mean);
            room.end.push(self.nodes.temperature[a]);
            room.mass_end.push(self.nodes.temperature[m]);
            room.lowest.push(sum.seen[number].low);
            room.highest.push(sum.seen[number].high);
            let (heat, boundary) = (&self.plant.rooms[number], &boundaries[number]);
            room.given_off += (heat.heat_to_air + heat.heat_to_mass) * seconds;
            room.boundary += (boundary.air_source + boundary.mass_source) * seconds
                - boundary.air_conductance * sum.integral[a]
                - boundary.mass_conductance * sum.integral[m];
            if N > 2 {
                room.divider += self.plant.divider * (sum.integral[air(1 - number)] - sum.integral[a]);
            }
            self.means[number] = [mean, self.means[number][0]];
        }
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
        self.run.seconds += seconds;
        self.step += 1;
        let hour = (self.now / HOUR) as u32;
        if hour != self.hour {
            self.hour = hour;
            self.hour_starts.fill(0);
        }
    }
}

fn demand(
    fits: bool,
    step: usize,
    what: impl FnOnce() -> String,
    value: f64,
    allowed: &'static str,
) -> Result<(), Fault> {
    if fits { Ok(()) } else { Err(Fault::Surroundings { step, what: what(), value, allowed }) }
}

fn check_boundary(boundary: &Boundary, step: usize, room: usize) -> Result<(), Fault> {
    let Boundary { air_source, air_conductance, mass_source, mass_conductance } = *boundary;
    for (source, what) in [(air_source, "heat into the air"), (mass_source, "heat into the mass")] {
        demand(source.is_finite(), step, || format!("{what} of room {}", room + 1), source, "a number")?;
    }
    for (conductance, what) in
        [(air_conductance, "conductance of the air"), (mass_conductance, "conductance of the mass")]
    {
        let fits = conductance.is_finite() && conductance >= 0.0;
        demand(fits, step, || format!("{what} of room {}", room + 1), conductance, "0 or more")?;
    }
    Ok(())
}
