//! Where a device would go.

use catalogue::{Catalogue, Device};

use crate::{Build, Place};

/// For each bay, the units its devices take on the given rails: (device index, first unit, units).
#[must_use]
pub fn rack_positions(_build: &Build, _catalogue: &Catalogue) -> Vec<Vec<(usize, u32, u32)>> {
    Vec::new()
}

/// The first place where a device fits by its height in units, from the top down; `Unplaced` when there is none.
#[must_use]
pub fn first_free_place(_build: &Build, _device: &Device, _catalogue: &Catalogue) -> Place {
    Place::Unplaced
}
