//! The numeric engine: temperatures of one or two rooms over a day or a year, knowing nothing of cabinets.
//!
//! Each room has an air node and a mass node; within a step of the surroundings everything given is constant:
//!
//! C_a dT_a/dt = S_a − H_a·T_a + G (T_m − T_a) + K (T_a' − T_a) + P_a − Σ Q_unit(T_a, T_out)
//! C_m dT_m/dt = S_m − H_m·T_m + G (T_a − T_m) + P_m
//!
//! - S, H  source [W] and conductance [W/K] of the boundary: [`Boundary`], asked for once a step and room
//! - G     exchange between air and mass           [W/K]
//! - K     conductance of the divider              [W/K]
//! - P     heat given off into air and mass        [W]
//!
//! Source:      the equations are those of design §5; their solution by the modes of a symmetric matrix is text-book algebra.
//! Valid for:   inside air from −90 to 200 °C; beyond that the run ends with [`Fault::Runaway`].
//! Agreement:   tests/tests/two_node.rs and tests/tests/weather_year.rs.
//!
//! A year may be asked for by cycles ([`Runner::gather_cycles`]): then alike cycles within a step are solved once.
//! Otherwise nothing is stepped in time by approximation. Between two events the system is linear and solved exactly; an event is a
//! thermostat that switches, a unit that reaches an edge of its map or a kink of its curve, the end of a least off time,
//! a watched limit, or the end of a step. Events are found by root finding, so neither heat nor time drifts.

// Sums over nodes and modes are written with their indices, as in the formulas above them.
#![allow(clippy::needless_range_loop)]

mod acting;
mod check;
mod core;
mod curve;
mod cycling;
mod drive;
mod exact;
mod fading;
mod fault;
mod modes;
mod plant;
mod run;
mod runner;
mod search;
mod stretch;
mod surroundings;

use std::ops::RangeInclusive;

pub use fault::Fault;
pub use plant::{Duty, Input, Mover, Plant, Room, Unit};
pub use run::{RoomRun, Run, UnitRun};
pub use runner::{Runner, Temperatures, Watch};
pub use surroundings::{Boundary, Surroundings};

/// Air temperatures at which the model means anything, °C.
const MEANINGFUL_AIR: RangeInclusive<f64> = -90.0..=200.0;

#[cfg(test)]
mod cycling_tests;
#[cfg(test)]
mod sample_year;
#[cfg(test)]
mod tests;
