//! Heat: does it stay cool at the hottest hour and warm at the coldest?
//!
//! Steady state. The checks start from `walls.rs` (faces and films), `exposure.rs` (sun), `heat_sources.rs` (devices) and
//! `cooling.rs` (units); `hottest.rs` solves the balance once for those that need it.

pub mod altitude;
pub mod coldest_inside_air;
pub(crate) mod cooling;
pub mod cooling_margin;
pub mod device_heat;
pub mod effective_surface;
mod exposure;
pub mod formulas;
pub(crate) mod gap;
pub(crate) mod heat_sources;
pub(crate) mod hottest;
pub mod hottest_inside_air;
mod hottest_steps;
pub mod sun_gain;
#[cfg(test)]
pub(crate) mod testing;
pub mod unit_places;
pub mod wall_loss;
pub(crate) mod walls;

pub use heat_sources::{Draw, UnitDraw};
