//! Units at work: their thermostats, and how much heat they move at the air there is.

use super::curve::Band;
use super::plant::{Duty, Input, Mover, Unit};

/// How far past a kink of its curve the air goes before a unit changes to the next piece, K: the curve is continuous, so
/// nothing changes by it, and air that rests on a kink does not switch for ever.
pub const KINK: f64 = 1e-9;
/// How close a thermostat counts as met, K.
const MET: f64 = 1e-9;
/// A wait below this is over, s.
const NO_WAIT: f64 = 1e-6;
/// How far the air comes back inside a map before a unit that stood still at its edge runs again, K.
const BACK_INSIDE: f64 = 0.5;

/// Heat or electricity of a running unit over the air: at 0 °C [W] and for each K [W/K].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Line {
    /// W at 0 °C.
    pub level: f64,
    /// W/K.
    pub slope: f64,
}

impl Line {
    /// Adds another line.
    pub fn add(&mut self, other: &Self) {
        self.level += other.level;
        self.slope += other.slope;
    }

    /// Its integral over a stretch, of which ∫T is given.
    pub fn over(&self, seconds: f64, integral: f64) -> f64 {
        self.level * seconds + self.slope * integral
    }
}

/// What a thermostat has just done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Switched {
    /// Nothing.
    Not,
    /// Started its unit.
    On,
    /// Stopped it.
    Off,
}

/// Where a thermostat stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Phase {
    /// Off, and free to start.
    Off,
    /// Off until this moment at least, s from the start of the run.
    Waiting(f64),
    /// Called for before that moment, or expected to be; it is looked at again then.
    Wanted(f64),
    /// On.
    On,
}

impl Phase {
    /// Whether it is the same, with so many seconds more or less to wait.
    pub fn is_like(self, other: Self, seconds: f64) -> bool {
        match (self, other) {
            (Self::Waiting(a), Self::Waiting(b)) | (Self::Wanted(a), Self::Wanted(b)) => (a - b).abs() < seconds,
            _ => self == other,
        }
    }
}

/// Where the air is, seen from a map.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Place {
    Inside,
    Above,
    Below,
}

/// A unit's place in its map at the outdoor air of the step: the column below it and the share of the way to the next.
type Column = Option<(usize, f64)>;

/// A unit at work.
#[derive(Clone, Copy, Debug)]
pub struct Drive {
    phase: Phase,
    /// Whether it was called for before its wait was over, the last time it waited.
    called_early: bool,
    place: Place,
    column: Column,
    outside: f64,
    /// Called for, and standing still outside its map.
    pub refused: bool,
    /// Whether it runs.
    pub runs: bool,
    /// Whether it moves heat.
    pub moves: bool,
    /// Heat moved, out of the room or into it.
    pub heat: Line,
    /// Electricity.
    pub input: Line,
}

impl Drive {
    /// A unit before its first step.
    pub fn new() -> Self {
        Self {
            phase: Phase::Off,
            called_early: false,
            place: Place::Inside,
            column: None,
            outside: 0.0,
            refused: false,
            runs: false,
            moves: false,
            heat: Line::default(),
            input: Line::default(),
        }
    }

    /// Takes the outdoor air of a step.
    pub fn outside_is(&mut self, unit: &Unit, outside: f64) {
        self.outside = outside;
        if let Mover::Map { map, .. } = &unit.mover {
            self.column = cell(&map.outside, outside);
        }
    }

    /// Switches as the thermostat says at this air and moment; what came of it.
    pub fn switch(&mut self, unit: &Unit, air: f64, now: f64) -> Switched {
        let (called, satisfied, least_off) = match unit.duty {
            Duty::Cools { on, off, least_off } => (air >= on - MET, air <= off + MET, least_off),
            Duty::Heats { on, off, least_off } => (air <= on + MET, air >= off - MET, least_off),
        };
        match self.phase {
            Phase::On if satisfied => {
                let until = now + least_off;
                // Who is going to be called for early is not looked at until the wait is over: one event less.
                self.phase = match (least_off > 0.0, self.called_early) {
                    (true, true) => Phase::Wanted(until),
                    (true, false) => Phase::Waiting(until),
                    (false, _) => Phase::Off,
                };
                return Switched::Off;
            }
            Phase::Waiting(until) if called && now < until - NO_WAIT => {
                (self.phase, self.called_early) = (Phase::Wanted(until), true);
            }
            Phase::Wanted(until) if now < until - NO_WAIT => {}
            Phase::Waiting(_) | Phase::Wanted(_) | Phase::Off if called => {
                self.phase = Phase::On;
                return Switched::On;
            }
            Phase::Wanted(_) => (self.phase, self.called_early) = (Phase::Off, false),
            Phase::Waiting(_) | Phase::Off | Phase::On => {}
        }
        Switched::Not
    }

    /// Heat into the air of its room.
    pub fn heat_in(&self, unit: &Unit) -> Line {
        let mut line = Line::default();
        if self.runs {
            let sign = if let Duty::Heats { .. } = unit.duty { 1.0 } else { -1.0 };
            line.add(&Line { level: sign * self.heat.level, slope: sign * self.heat.slope });
            if unit.input_inside {
                line.add(&self.input);
            }
        }
        line
    }

    /// When it may start, while it is called for or expected to be and may not; s from the start of the run.
    pub fn wakes(&self) -> f64 {
        if let Phase::Wanted(until) = self.phase { until } else { f64::INFINITY }
    }

    /// Where its thermostat stands, moments counted from here.
    pub fn seen_from(&self, now: f64) -> Phase {
        match self.phase {
            // A wait that is over is none.
            Phase::Waiting(until) if until <= now => Phase::Off,
            Phase::Waiting(until) => Phase::Waiting(until - now),
            Phase::Wanted(until) => Phase::Wanted(until - now),
            phase => phase,
        }
    }

    /// Begins the run anew with the units as they are: moments count from the new start.
    pub fn earlier_by(&mut self, seconds: f64) {
        if let Phase::Waiting(until) | Phase::Wanted(until) = &mut self.phase {
            *until -= seconds;
        }
    }

    /// Finds what it moves at this air, and narrows the band to where that stays so.
    pub fn work(&mut self, unit: &Unit, air: f64, band: &mut Band) {
        (self.runs, self.moves) = (false, false);
        if self.phase == Phase::On {
            self.run(unit, air, band);
        } else {
            self.place = Place::Inside;
        }
        match (unit.duty, self.phase) {
            (Duty::Cools { off, .. }, Phase::On) => band.low = band.low.max(off),
            (Duty::Cools { on, .. }, Phase::Off | Phase::Waiting(_)) => band.high = band.high.min(on),
            (Duty::Heats { off, .. }, Phase::On) => band.high = band.high.min(off),
            (Duty::Heats { on, .. }, Phase::Off | Phase::Waiting(_)) => band.low = band.low.max(on),
            (_, Phase::Wanted(_)) => {}
        }
    }

    fn run(&mut self, unit: &Unit, air: f64, band: &mut Band) {
        if let Input::Constant(watts) = unit.input {
            self.input = Line { level: watts, slope: 0.0 };
        }
        (self.runs, self.moves) = (true, true);
        match &unit.mover {
            Mover::Linear(conductance) => {
                self.moves = air > self.outside;
                if self.moves {
                    self.heat = Line { level: -conductance * self.outside, slope: *conductance };
                    band.low = band.low.max(self.outside - KINK);
                } else {
                    self.heat = Line::default();
                    band.high = band.high.min(self.outside + KINK);
                }
            }
            Mover::Map { map, share } => {
                let seen = self.column.and_then(|column| Some((self.see(&map.inside, air, band)?, column)));
                if let Some((row, column)) = seen {
                    let heat = line(&map.inside, &map.capacity, row, column);
                    self.heat = Line { level: heat.level * share, slope: heat.slope * share };
                    if unit.input == Input::OfMap {
                        self.input = line(&map.inside, &map.input, row, column);
                    }
                } else {
                    (self.runs, self.moves) = (false, false);
                    self.refused = true;
                }
            }
        }
    }

    /// The row of the map the air lies in; `None` when it lies beyond, or came back less than it must.
    fn see(&mut self, inside: &[f64], air: f64, band: &mut Band) -> Option<usize> {
        let (bottom, top) = (*inside.first()?, *inside.last()?);
        let back = BACK_INSIDE.min((top - bottom) / 4.0);
        self.place = match self.place {
            Place::Above if air > top - back => Place::Above,
            Place::Below if air < bottom + back => Place::Below,
            _ if air > top => Place::Above,
            _ if air < bottom => Place::Below,
            _ => Place::Inside,
        };
        match self.place {
            Place::Above => band.low = band.low.max(top - back - KINK),
            Place::Below => band.high = band.high.min(bottom + back + KINK),
            Place::Inside => {
                let (row, _) = cell(inside, air)?;
                band.low = band.low.max(inside[row] - KINK);
                band.high = band.high.min(*inside.get(row + 1)? + KINK);
                return Some(row);
            }
        }
        None
    }
}

/// Where a value lies in a rising list: the entry below it and the share of the way to the next.
fn cell(list: &[f64], at: f64) -> Column {
    let (first, last) = (list.first()?, list.last()?);
    if !(*first..=*last).contains(&at) {
        return None;
    }
    let above = list.iter().position(|entry| *entry > at).unwrap_or(list.len()).min(list.len() - 1);
    let Some(row) = above.checked_sub(1) else { return Some((0, 0.0)) };
    Some((row, (at - list[row]) / (list[above] - list[row])))
}

/// The straight line between two rows of a table over inside and outside temperature.
fn line(inside: &[f64], rows: &[Vec<f64>], row: usize, (column, share): (usize, f64)) -> Line {
    let at = |row: usize| {
        let entries = &rows[row];
        let lower = entries[column];
        entries.get(column + 1).map_or(lower, |upper| lower + (upper - lower) * share)
    };
    let (lower, upper) = (at(row), at(row + 1));
    let slope = (upper - lower) / (inside[row + 1] - inside[row]);
    Line { level: lower - slope * inside[row], slope }
}
