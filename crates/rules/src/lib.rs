//! Every check an engineer asks of a cabinet, and the report that answers them all.
//!
//! **Invariant:** [`report`] always answers, with *needs data* or *out of range* where it must; it sees no browser, clock,
//! file or random number, and the same input gives the same bits natively and in wasm. A check cannot fail to run.
//!
//! To find a check, search its code, such as `H04`: it stands in the one file that holds it, in [`AT_ONCE`], [`WIRED`] or
//! [`OVER_TIME`],
//! and nowhere else.

// In the form at the head of each check a unit stands in square brackets, which is not a link.
#![allow(rustdoc::broken_intra_doc_links)]

pub mod backup;
mod case;
mod check;
pub mod course;
mod finding;
pub mod fit;
pub mod heat;
pub mod network;
mod phrase;
pub mod power;
mod registry;
mod report;
pub mod sources;
pub mod thermal;
pub mod weight;
pub mod year;

pub use case::{Case, PlacedDevice, bay_letter, count};
pub use check::{Asked, Check, Symbol, Topic};
pub use finding::{Finding, Outcome, Step, Subject};
pub use phrase::{Phrase, Piece};
pub use registry::{AT_ONCE, OVER_TIME, WIRED, all_checks, check_by_code};
pub use report::{Badge, Report, report, report_on};
pub use sources::{Source, Standing};
