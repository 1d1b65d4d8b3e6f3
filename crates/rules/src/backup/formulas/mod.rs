//! Printed equations that several Backup checks share.

pub mod cell_curve;
pub mod hydrogen;
pub mod modules;
pub mod peukert;
pub mod recharge;
pub mod runtime;
pub mod string;
pub mod temperature;
pub mod worksheet;
