//! What acts on the rooms from outside, step by step.

/// What acts on one room through its boundary in one step: heat into the air is `air_source − air_conductance·T_air`, and
/// heat into the mass `mass_source − mass_conductance·T_mass`. Outdoor air, sun and sky stand in the sources.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Boundary {
    /// W into the air if it were at 0 °C.
    pub air_source: f64,
    /// W/K out of the air.
    pub air_conductance: f64,
    /// W into the mass if it were at 0 °C.
    pub mass_source: f64,
    /// W/K out of the mass.
    pub mass_conductance: f64,
}

/// The surroundings over time, constant in each of equal steps.
pub trait Surroundings {
    /// How many steps there are.
    fn steps(&self) -> usize;
    /// Length of a step, s.
    fn step_seconds(&self) -> f64;
    /// Outdoor air as the climate units see it, °C.
    fn outside(&self, step: usize) -> f64;
    /// What acts on a room in a step. `inside_air` (°C) is the mean of the step before carried on along its trend: what
    /// films that depend on the inside air may be reckoned with.
    fn boundary(&self, step: usize, room: usize, inside_air: f64) -> Boundary;
}
