//! The references' units as the catalogue would have them.

use catalogue::UnitMap;
use rules::thermal::{Duty, Mover};

/// A thermostat that is never satisfied.
pub const ALWAYS: Duty = Duty::Cools { on: -80.0, off: -90.0, least_off: 0.0 };

/// The map of a unit that moves so many W at an outdoor air (°C), whatever the inside air, and a share of it more for each K
/// above that.
pub fn moving(heat: f64, share_per_kelvin: f64, reference: f64) -> Mover {
    let outside = vec![-60.0, 60.0];
    let row: Vec<f64> = outside.iter().map(|air| heat * (1.0 + share_per_kelvin * (air - reference))).collect();
    let map = UnitMap { inside: vec![-90.0, 200.0], input: vec![vec![0.0; 2]; 2], capacity: vec![row; 2], outside };
    Mover::Map { map, share: 1.0 }
}
