//! The loop over steps: how each is solved, and what is written down.
//!
//! Two rooms are solved together. In steps in which one of them cycles each is solved for itself, with the air of the other
//! carried on along its last two means: so carried on, nearly all that one gave too little in a step is given in the next,
//! and what is left at last is given in the next step solved together.

use super::acting::{Acting, Given, Sum};
use super::cycling::Cycle;
use super::exact::{self, Step};
use super::plant::Plant;
use super::stretch::{Nodes, air, mass};
use super::{Boundary, Fault, Surroundings};

/// Starts within a step from which on a room counts as cycling.
const FEWEST_STARTS: u32 = 2;

/// Conductance of the divider up to which two rooms may be solved each for itself, as a share of the exchange between air and
/// mass of either. Beyond it the cycles of one room set the pace of the other's.
const THICK_DIVIDER: f64 = 0.1;

/// A run under way, of one room (two nodes) or of two (four).
#[derive(Clone, Debug)]
pub struct Core<const N: usize> {
    pub acting: Acting,
    nodes: Nodes<N>,
    /// The nodes of each of two rooms, for steps in which one is solved without the other.
    alone: Vec<Nodes<2>>,
    start: [f64; N],
    /// Mean air of the last step and of the one before it, °C.
    means: [[f64; 2]; 2],
    /// Whether rooms that cycle are solved as such, and which cycled in the last step.
    gathers_cycles: bool,
    cycled: [bool; 2],
    /// Heat that the other room gave and this one did not take in steps in which they were solved apart, J.
    owed: [f64; 2],
    cycles: [Cycle; 2],
    pub step: usize,
}

impl<const N: usize> Core<N> {
    const ROOMS: usize = N / 2;

    /// A plant that has passed its check, its nodes at these temperatures.
    pub fn new(plant: Plant, start: [f64; N]) -> Self {
        let (mut capacity, mut link) = ([0.0; N], [0.0; N]);
        let mut alone = Vec::new();
        for (number, room) in plant.rooms.iter().enumerate() {
            capacity[air(number)] = room.air_capacity;
            capacity[mass(number)] = room.mass_capacity;
            link[air(number).min(mass(number))] = room.exchange;
            if N > 2 {
                alone.push(Nodes::new([room.mass_capacity, room.air_capacity], [room.exchange, 0.0], [0.0; 2]));
            }
        }
        if N > 2 {
            link[air(0)] = plant.divider;
        }
        let mut means = [[0.0; 2]; 2];
        for (room, means) in means.iter_mut().enumerate().take(Self::ROOMS) {
            *means = [start[air(room)]; 2];
        }
        Self {
            nodes: Nodes::new(capacity, link, start),
            alone,
            start,
            acting: Acting::new(plant),
            means,
            gathers_cycles: false,
            cycled: [false; 2],
            owed: [0.0; 2],
            cycles: Default::default(),
            step: 0,
        }
    }

    /// From here on cycles are gathered, where that is right.
    pub fn gather_cycles(&mut self) {
        let plant = &self.acting.plant;
        self.gathers_cycles = N == 2 || plant.rooms.iter().all(|room| plant.divider <= THICK_DIVIDER * room.exchange);
    }

    /// Temperatures of the nodes, °C.
    pub const fn temperature(&self) -> &[f64; N] {
        &self.nodes.temperature
    }

    /// Starts counting anew from here: step 0, empty columns, units as they are.
    pub fn begin_again(&mut self) {
        self.acting.begin_again();
        self.step = 0;
        self.start = self.nodes.temperature;
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
        self.acting.run.reserve(more);
        for _ in 0..more {
            self.step(surroundings, seconds)?;
        }
        for (number, room) in self.acting.run.rooms.iter_mut().enumerate() {
            let gained = |node: usize| self.nodes.temperature[node] - self.start[node];
            let capacities = &self.acting.plant.rooms[number];
            room.stored =
                capacities.air_capacity * gained(air(number)) + capacities.mass_capacity * gained(mass(number));
        }
        Ok(())
    }

    fn step<S: Surroundings + ?Sized>(&mut self, surroundings: &S, seconds: f64) -> Result<(), Fault> {
        let outside = surroundings.outside(self.step);
        demand(outside.is_finite(), self.step, || "outdoor air".to_owned(), outside, "a number")?;
        let expected = self.means.map(|[last, before]| 2.0 * last - before);
        let mut given = [Given::default(); 2];
        let mut sums = [Sum::from(0.0); 2];
        for room in 0..Self::ROOMS {
            let boundary = surroundings.boundary(self.step, room, expected[room]);
            check_boundary(&boundary, self.step, room)?;
            let heat = &self.acting.plant.rooms[room];
            given[room] = Given {
                boundary,
                air: boundary.air_source + heat.heat_to_air,
                air_loss: boundary.air_conductance,
                mass: boundary.mass_source + heat.heat_to_mass,
                mass_loss: boundary.mass_conductance,
            };
            sums[room] = Sum::from(self.nodes.temperature[air(room)]);
        }
        for (unit, drive) in self.acting.plant.units.iter().zip(&mut self.acting.drives) {
            drive.outside_is(unit, outside);
        }
        let step = Step { number: self.step, begin: self.acting.now, seconds };
        // Rooms solved apart have settled what they owe each other when the surroundings end.
        let cycles = self.gathers_cycles
            && self.cycled != [false; 2]
            && self.step + 1 < surroundings.steps()
            && self.acting.watches.iter().all(|watch| watch.met_at.is_some());
        let apart = cycles && N > 2;
        let cycle = self.cycles.first_mut().filter(|_| cycles);
        if apart {
            self.solve_apart(&given, &step, &expected, &mut sums)?;
        } else {
            for room in 0..Self::ROOMS {
                given[room].air += self.owed[room] / seconds;
            }
            exact::run(&mut self.acting, &mut self.nodes, 0, &given, &step, &mut sums, cycle)?;
        }
        self.acting.now = step.begin + seconds;
        for room in 0..Self::ROOMS {
            self.cycled[room] = self.cycles[room].rests || self.acting.step_starts[room] >= FEWEST_STARTS;
        }
        self.close(&sums, &given, seconds, apart.then_some(&expected));
        Ok(())
    }

    /// Solves a step in which a room cycles, each room for itself.
    fn solve_apart(
        &mut self,
        given: &[Given; 2],
        step: &Step,
        expected: &[f64; 2],
        sums: &mut [Sum; 2],
    ) -> Result<(), Fault> {
        let mut given = *given;
        let divider = self.acting.plant.divider;
        for (room, nodes) in self.alone.iter_mut().enumerate() {
            given[room].air += divider * expected[1 - room];
            given[room].air_loss += divider;
            nodes.temperature = [self.nodes.temperature[mass(room)], self.nodes.temperature[air(room)]];
            exact::run(&mut self.acting, nodes, room, &given, step, sums, Some(&mut self.cycles[room]))?;
            [self.nodes.temperature[mass(room)], self.nodes.temperature[air(room)]] = nodes.temperature;
        }
        Ok(())
    }

    /// Writes a step down; `apart` is the air that each room was expected to have, where they were solved apart.
    fn close(&mut self, sums: &[Sum; 2], given: &[Given; 2], seconds: f64, apart: Option<&[f64; 2]>) {
        for (number, room) in self.acting.run.rooms.iter_mut().enumerate() {
            let sum = &sums[number];
            let mean = sum.air / seconds;
            room.mean.push(mean);
            room.end.push(self.nodes.temperature[air(number)]);
            room.mass_end.push(self.nodes.temperature[mass(number)]);
            room.lowest.push(sum.seen.low);
            room.highest.push(sum.seen.high);
            let (heat, boundary) = (&self.acting.plant.rooms[number], &given[number].boundary);
            room.given_off += (heat.heat_to_air + heat.heat_to_mass) * seconds;
            room.boundary += (boundary.air_source + boundary.mass_source) * seconds
                - boundary.air_conductance * sum.air
                - boundary.mass_conductance * sum.mass;
            if N > 2 {
                let divider = self.acting.plant.divider;
                let other = sums[1 - number].air;
                if let Some(expected) = apart {
                    let taken = expected[1 - number] * seconds;
                    room.divider += divider * (taken - sum.air);
                    self.owed[number] += divider * (other - taken);
                } else {
                    room.divider += divider * (other - sum.air) + std::mem::take(&mut self.owed[number]);
                }
            }
            self.means[number] = [mean, self.means[number][0]];
        }
        self.acting.close(seconds);
        self.step += 1;
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
