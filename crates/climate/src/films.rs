//! Films of air on a surface: how much heat passes between a surface and the air before it, radiation included.
//!
//! Source:      building practice (ASHRAE Fundamentals), figures recalled, to be confirmed in the document.
//! Valid for:   painted surfaces; the wind speed named with each figure.
//! Not covered: bare metal of low emissivity, thinner air at altitude.

/// A film.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Film {
    /// Coefficient, W/(m²·K).
    pub coefficient: f64,
    /// What it stands for.
    pub about: &'static str,
}

/// Inside a cabinet.
pub const INSIDE: Film = Film { coefficient: 8.0, about: "inside film, still air" };

/// Outside, but sheltered from wind: behind a shield, under the floor.
pub const STILL: Film = Film { coefficient: 8.0, about: "outside film, still air" };

/// Outside in summer, wind 3.4 m/s.
pub const OUTSIDE_SUMMER: Film = Film { coefficient: 17.0, about: "outside film, summer, wind 3.4 m/s" };

/// Outside in winter, wind 6.7 m/s.
pub const OUTSIDE_WINTER: Film = Film { coefficient: 34.0, about: "outside film, winter, wind 6.7 m/s" };
