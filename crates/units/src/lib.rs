//! Quantities, and how they are read and written.
//!
//! **Invariant:** knows nothing of cabinets. Numbers are kept in one base unit each and converted only at the edges:
//! by [`show`] on the way out and [`read`] on the way in. Both take every unit from one table (`table.rs`).

mod amount;
mod coordinate;
mod kind;
#[cfg(test)]
mod laws;
mod quantity;
mod read;
mod show;
mod table;
mod unit;

pub use coordinate::{Coordinate, read_place, read_time_zone, show_time_zone};
pub use kind::{Kind, System, Value};
pub use quantity::{
    Amperes, Celsius, CubicMetresPerHour, Decibels, Degrees, Hours, Kelvins, Kilograms, Kilopascals, Metres,
    Millimetres, Quantity, Volts, Watts,
};
pub use read::{ReadError, read};
pub use show::{Shown, number_in, number_of, show, show_exactly, unit_name};
