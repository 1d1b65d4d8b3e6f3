//! Why a course cannot be reckoned.

use units::System;

use crate::heat::gap::Gap;
use crate::heat::hottest::WARMEST;
use crate::thermal::Fault;

/// Why a course cannot be reckoned: where, what was found, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Where, such as `elevation` or `unit 1`.
    pub place: String,
    /// What was found there.
    pub found: String,
    /// What is allowed there; empty when that goes without saying.
    pub allowed: String,
}

impl Problem {
    /// A problem.
    #[must_use]
    pub fn new(place: impl Into<String>, found: impl Into<String>, allowed: impl Into<String>) -> Self {
        Self { place: place.into(), found: found.into(), allowed: allowed.into() }
    }

    /// Inside air (°C) at which the films no longer hold.
    #[must_use]
    pub fn inside_air(air: f64) -> Self {
        let allowed = format!("up to {WARMEST:.0} °C, beyond which films no longer hold: heat has too little way out");
        Self::new("inside air", format!("{air:.0} °C"), allowed)
    }
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.place, self.found)?;
        if self.allowed.is_empty() { Ok(()) } else { write!(f, "; allowed: {}", self.allowed) }
    }
}

impl std::error::Error for Problem {}

impl From<Gap> for Problem {
    fn from(gap: Gap) -> Self {
        match gap {
            Gap::NeedsData(what) => Self::new("not known", what.shown(System::Metric), ""),
            Gap::OutOfRange(why) => Self::new("out of range", why.shown(System::Metric), ""),
        }
    }
}

impl From<Fault> for Problem {
    fn from(fault: Fault) -> Self {
        match fault {
            Fault::Runaway { air, .. } if air.is_finite() => Self::inside_air(air),
            fault => Self::new("the balance over time", fault.to_string(), ""),
        }
    }
}

impl From<climate::WeatherProblem> for Problem {
    fn from(problem: climate::WeatherProblem) -> Self {
        Self::new(problem.place, problem.found, problem.allowed)
    }
}

impl From<climate::SiteProblem> for Problem {
    fn from(problem: climate::SiteProblem) -> Self {
        Self::new(problem.place, problem.found, problem.allowed)
    }
}
