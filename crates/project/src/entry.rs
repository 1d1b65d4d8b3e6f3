//! The entry line: one typed line becomes devices.

use catalogue::Catalogue;

use crate::DeviceWhat;

/// What a typed line means.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// How many.
    pub count: u32,
    /// Of what.
    pub what: DeviceWhat,
}

/// Why a typed line is not understood yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EntryError {
    /// In plain words, with what would help.
    pub help: String,
}

/// Reads a line such as `2x 1U switch 60 W 5 kg` or `switch-access-48`.
///
/// # Errors
/// When the line says too little or something unknown.
pub fn read_entry(_line: &str, _catalogue: &Catalogue) -> Result<Entry, EntryError> {
    Err(EntryError { help: String::new() })
}
