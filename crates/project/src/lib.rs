//! A project: what is asked for (the brief) and what is proposed (the build), the edits that change it, and its file.
//!
//! **Invariant:** plain, comparable data. Only [`apply`] changes a project; nothing derived is stored; nothing here knows
//! a screen, a clock or a file system. A project is always whole, even where a check will find it unsuitable.

mod apply;
mod brief;
mod build;
mod edit;
mod entry;
mod file;
mod history;
mod place;
mod power;
mod ranges;
mod samples;
#[cfg(test)]
mod testing;
mod words;

pub use apply::{Refusal, apply, new_project};
pub use brief::*;
pub use build::*;
pub use edit::Edit;
pub use entry::{Entry, EntryError, RowProblem, read_entry, read_table};
pub use file::{FileProblem, from_json, from_link, to_json, to_link};
pub use history::History;
pub use place::{Way, first_free_place, is_free, next_unit, rack_positions, units_needed};
pub use power::{ChosenFeed, CodeEdition, Conductor, Fed, PowerAsked};
pub use ranges::{MOST_DEVICES, MOST_DIRECTIONS, MOST_UNITS};
pub use samples::{Sample, first_sample, samples};
pub use words::{Piece, Words};

use serde::{Deserialize, Serialize};

/// One project: what is saved, shared and undone.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Project {
    /// Its name, as on the title block.
    pub name: String,
    /// What is asked for.
    pub brief: Brief,
    /// What is proposed.
    pub build: Build,
}
