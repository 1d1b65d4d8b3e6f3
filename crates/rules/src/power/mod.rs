//! Is everything fed, protected and wired?
//!
//! All checks start from the network of power (`network`), which follows from the build.

pub mod all_fed;
pub mod code;
pub mod cord_configuration;
pub mod fault_rating;
pub mod formulas;
mod given;
pub mod interlock;
pub mod outlet_protection;
pub mod working_space;
