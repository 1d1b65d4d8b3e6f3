//! Weather hour by hour: read from a file, kept, made up from design temperatures, or printed by a standard.

mod hour;

pub use hour::{DAYS, HOURS, Hour, MONTH_DAYS, Note, WeatherProblem, WeatherYear, month_of_day, when};
