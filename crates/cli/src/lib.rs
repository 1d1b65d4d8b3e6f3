//! The report as text and as JSON, for `baywright` in a terminal and for the tests that keep whole reports.
//!
//! **Invariant:** computes nothing about cabinets. What a terminal, a script and the page are told comes from one
//! [`rules::Report`]; here it is only laid out. Files are read in the program alone, never in this library.

mod answered;
mod json;
mod over_time;
mod plain;
mod printed;
mod refused;
mod schedule;

pub use answered::Answered;
pub use over_time::{OverTime, Stretch};
pub use plain::plain;
pub use refused::{Refused, problems_json};
pub use schedule::Schedule;
