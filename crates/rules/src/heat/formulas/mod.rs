//! Printed equations that several Heat checks share.

pub mod balance;
pub mod effective_surface;
pub mod resistance;
pub mod shield;
pub mod unit_map;
