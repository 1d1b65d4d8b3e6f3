//! What is inside: rooms, the divider between them, and units with their thermostats.

use catalogue::UnitMap;

/// One or two rooms and what conditions them.
#[derive(Clone, Debug, PartialEq)]
pub struct Plant {
    /// One or two.
    pub rooms: Vec<Room>,
    /// Conductance between the air of the two rooms, W/K; 0 for none.
    pub divider: f64,
    /// The units. Order of duty lies in their on and off temperatures.
    pub units: Vec<Unit>,
}

/// A room: its air with all that follows it at once, and its mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Heat capacity of the air node, J/K.
    pub air_capacity: f64,
    /// Heat capacity of the mass node, J/K.
    pub mass_capacity: f64,
    /// Exchange between air and mass, W/K.
    pub exchange: f64,
    /// Heat given off into the air, W.
    pub heat_to_air: f64,
    /// Heat given off into the mass, W.
    pub heat_to_mass: f64,
}

/// A climate unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Unit {
    /// The room it serves, counted from 0.
    pub room: usize,
    /// When it runs.
    pub duty: Duty,
    /// How much heat it moves while it runs: out of the room, or into it when its duty is to heat.
    pub mover: Mover,
    /// Electricity it takes while it runs.
    pub input: Input,
    /// Whether that electricity ends as heat in the room's air, beside the heat moved.
    pub input_inside: bool,
}

/// When a unit runs. Thermostats feel the room's air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Duty {
    /// From `on` down to `off`.
    Cools {
        /// Starts when the air rises to this, °C.
        on: f64,
        /// Stops when it falls to this, °C.
        off: f64,
        /// Shortest time between a stop and the next start, s.
        least_off: f64,
    },
    /// From `on` up to `off`.
    Heats {
        /// Starts when the air falls to this, °C.
        on: f64,
        /// Stops when it rises to this, °C.
        off: f64,
        /// Shortest time between a stop and the next start, s.
        least_off: f64,
    },
}

/// How much heat a running unit moves.
#[derive(Clone, Debug, PartialEq)]
pub enum Mover {
    /// So many W for each K the inside is warmer than the outside; nothing when it is not.
    Linear(f64),
    /// Read from a map, bilinear; beyond the map the unit stands still.
    Map {
        /// Capacity and input over inside and outside temperature.
        map: UnitMap,
        /// Share of the capacity that is left, of altitude or filter.
        share: f64,
    },
}

/// Electricity a running unit takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Input {
    /// So many W.
    Constant(f64),
    /// Read from the mover's map.
    OfMap,
}
