//! Printed equations that several Weight checks share.

pub mod bearing;
pub mod eye_bolt;
pub mod sling;
pub mod tipping;

/// Standard acceleration of gravity, m/s².
pub const GRAVITY: f64 = 9.806_65;
