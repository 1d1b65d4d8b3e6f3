//! Heat between surfaces and air: natural and wind convection, air gaps, long-wave radiation, exchangers.
//!
//! Each correlation stands in its own file with its source and range, as a Nusselt number of dimensionless groups, so that
//! it can be held against a book by itself. [`Gas`] gives the properties that turn it into W/(m²·K). What a year needs
//! thousands of times is tabulated once ([`NaturalTable`], [`WindTable`], [`AirTable`]); their errors stand beside them.

mod exchanger;
mod forced;
mod gap;
mod gas;
mod natural;
mod radiation;
mod sky;
mod tables;

pub use exchanger::{Arrangement, effectiveness};
pub use forced::{laminar_plate, mixed_plate, plate_film, turbulent_plate};
pub use gap::{gap_film, horizontal_gap, vertical_gap};
pub use gas::Gas;
pub use natural::{horizontal_film, horizontal_helped, horizontal_hindered, rayleigh, vertical_film, vertical_plate};
pub use radiation::{STEFAN_BOLTZMANN, between_sheets, exchange, linear};
pub use sky::{SkySplit, clear_sky_emissivity, dew_point, sky_radiation, sky_split};
pub use tables::{AirTable, Correction, NaturalTable, WindTable, blended};
