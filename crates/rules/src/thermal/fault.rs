//! Why a run was not begun, or ended early.

use std::fmt;

/// Why a run was not begun, or ended early.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A parameter of the plant makes no sense.
    Parameter {
        /// Where: "room 2", "unit 1".
        place: String,
        /// Which parameter.
        what: &'static str,
        /// What it is.
        value: f64,
        /// What is allowed, in words.
        allowed: &'static str,
    },
    /// The surroundings gave something that makes no sense.
    Surroundings {
        /// Step, counted from 0.
        step: usize,
        /// What: "outdoor air", "air conductance of room 1".
        what: String,
        /// What it is.
        value: f64,
        /// What is allowed, in words.
        allowed: &'static str,
    },
    /// The inside air left the range in which the model means anything.
    Runaway {
        /// Step, counted from 0.
        step: usize,
        /// Room, counted from 0.
        room: usize,
        /// The air there, °C; not a number when it grew beyond all numbers.
        air: f64,
    },
    /// Units switch so often within one step that following them makes no sense.
    Restless {
        /// Step, counted from 0.
        step: usize,
        /// Events followed before giving up.
        events: u32,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Parameter { place, what, value, allowed } => {
                write!(out, "{what} of {place} is {value}, allowed is {allowed}")
            }
            Self::Surroundings { step, what, value, allowed } => {
                write!(out, "{what} is {value} in step {step}, allowed is {allowed}")
            }
            Self::Runaway { step, room, air } => write!(
                out,
                "the air of room {} reaches {air:.0} °C in step {step}, beyond −90 to 200 °C: heat has no way out or in",
                room + 1
            ),
            Self::Restless { step, events } => {
                write!(
                    out,
                    "more than {events} switchings in step {step}: give the units a wider band or a least off time"
                )
            }
        }
    }
}

impl std::error::Error for Fault {}
