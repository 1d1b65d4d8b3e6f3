//! A run that goes on when asked, in pieces as long as the caller likes.

use super::core::Core;
use super::curve::Band;
use super::stretch::{air, mass};
use super::{Fault, MEANINGFUL_AIR, Plant, Run, Surroundings};

/// Air and mass of a room, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Temperatures {
    /// Air.
    pub air: f64,
    /// Mass.
    pub mass: f64,
}

impl Temperatures {
    /// Air and mass at one temperature, °C.
    #[must_use]
    pub const fn even(both: f64) -> Self {
        Self { air: both, mass: both }
    }
}

/// A limit that a room's air rises to, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Watch {
    /// Room, counted from 0.
    pub room: usize,
    /// The limit, °C.
    pub limit: f64,
    /// When it was first met, s from the start of the run; to begin with `None`.
    pub met_at: Option<f64>,
}

impl Watch {
    /// For air that rises to a limit, °C.
    #[must_use]
    pub const fn rises_to(limit: f64, room: usize) -> Self {
        Self { room, limit, met_at: None }
    }

    /// Notes the moment when the limit is met, else narrows the band to it.
    pub(super) fn look(&mut self, inside: f64, now: f64, band: &mut Band) {
        const MET: f64 = 1e-9;
        if inside >= self.limit - MET {
            self.met_at = Some(now);
        } else {
            band.high = band.high.min(self.limit);
        }
    }
}

/// A run under way.
#[derive(Clone, Debug)]
pub struct Runner(Kind);

/// One room has two nodes, two have four; the work is written once for both.
#[derive(Clone, Debug)]
enum Kind {
    One(Box<Core<2>>),
    Two(Box<Core<4>>),
}

/// The same for both kinds.
macro_rules! either {
    ($runner:expr, $core:ident => $what:expr) => {
        match $runner {
            Kind::One($core) => $what,
            Kind::Two($core) => $what,
        }
    };
}

impl Runner {
    /// A run that starts with these temperatures, one for each room.
    ///
    /// # Errors
    /// What makes no sense in the plant or the start.
    pub fn new(plant: Plant, start: &[Temperatures]) -> Result<Self, Fault> {
        plant.check()?;
        let refused =
            |place: &str, what, value, allowed| Fault::Parameter { place: place.to_owned(), what, value, allowed };
        if start.len() != plant.rooms.len() {
            return Err(refused("the start", "number of rooms", start.len() as f64, "as many as the plant has"));
        }
        for temperature in start.iter().flat_map(|room| [room.air, room.mass]) {
            if !MEANINGFUL_AIR.contains(&temperature) {
                return Err(refused("the start", "temperature", temperature, "−90 to 200 °C"));
            }
        }
        Ok(Self(match start {
            [one] => Kind::One(Box::new(Core::new(plant, [one.mass, one.air]))),
            [one, two, ..] => Kind::Two(Box::new(Core::new(plant, [one.mass, one.air, two.air, two.mass]))),
            [] => return Err(refused("the start", "number of rooms", 0.0, "1 or 2")),
        }))
    }

    /// From here on, a room whose thermostats switch more than once in a step is solved by one of its cycles, the others
    /// being like it (`cycling.rs`): a year in which units start ten times an hour then takes hardly longer than another.
    /// While a watched limit is not yet met all is solved exactly, and so are two rooms with next to nothing between them.
    pub fn gather_cycles(&mut self) {
        either!(&mut self.0, core => core.gather_cycles());
    }

    /// Starts counting anew from here: step 0, empty columns; rooms and thermostats go on as they are.
    pub fn begin_again(&mut self) {
        either!(&mut self.0, core => core.begin_again());
    }

    /// Watches a limit from here on.
    pub fn watch(&mut self, watch: Watch) {
        either!(&mut self.0, core => core.acting.watches.push(watch));
    }

    /// The watched limits, in the order they were given.
    #[must_use]
    pub fn watches(&self) -> &[Watch] {
        either!(&self.0, core => &core.acting.watches)
    }

    /// Runs on until so many steps are done from the start, or the surroundings end.
    ///
    /// # Errors
    /// Why it cannot go on; what is done so far stays.
    pub fn advance<S: Surroundings + ?Sized>(&mut self, surroundings: &S, until: usize) -> Result<(), Fault> {
        either!(&mut self.0, core => core.advance(surroundings, until))
    }

    /// Runs on step by step until a watched limit is met; the first one met, when one is. The step it is met in is done to
    /// its end.
    ///
    /// # Errors
    /// Why it cannot go on; what is done so far stays.
    pub fn until_met<S: Surroundings + ?Sized>(&mut self, surroundings: &S) -> Result<Option<Watch>, Fault> {
        let waiting = |runner: &Self| runner.watches().iter().filter(|watch| watch.met_at.is_none()).count();
        let before = waiting(self);
        while waiting(self) == before && self.step() < surroundings.steps() {
            self.advance(surroundings, self.step() + 1)?;
        }
        let met = |watch: &Watch| watch.met_at.unwrap_or(f64::INFINITY);
        let first = self.watches().iter().min_by(|a, b| met(a).total_cmp(&met(b)));
        Ok(first.copied().filter(|watch| watch.met_at.is_some()))
    }

    /// Steps done.
    #[must_use]
    pub fn step(&self) -> usize {
        either!(&self.0, core => core.step)
    }

    /// The temperatures now, one for each room.
    #[must_use]
    pub fn temperatures(&self) -> Vec<Temperatures> {
        let of = |nodes: &[f64]| {
            (0..nodes.len() / 2).map(|room| Temperatures { air: nodes[air(room)], mass: nodes[mass(room)] }).collect()
        };
        either!(&self.0, core => of(core.temperature()))
    }

    /// What has come of it so far.
    #[must_use]
    pub fn run(&self) -> &Run {
        either!(&self.0, core => &core.acting.run)
    }

    /// What has come of it.
    #[must_use]
    pub fn into_run(self) -> Run {
        either!(self.0, core => core.acting.run)
    }
}
