//! Surroundings that were worked out beforehand.

use rules::thermal::{Boundary, Surroundings};

/// Outdoor air of each step, and for each room its boundary in each step.
pub struct Steps {
    pub seconds: f64,
    pub outside: Vec<f64>,
    pub boundaries: Vec<Vec<Boundary>>,
}

impl Surroundings for Steps {
    fn steps(&self) -> usize {
        self.outside.len()
    }

    fn step_seconds(&self) -> f64 {
        self.seconds
    }

    fn outside(&self, step: usize) -> f64 {
        self.outside[step]
    }

    fn boundary(&self, step: usize, room: usize, _inside_air: f64) -> Boundary {
        self.boundaries[room][step]
    }
}
