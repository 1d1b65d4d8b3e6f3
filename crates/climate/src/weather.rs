//! Weather hour by hour: read from a file, kept, made up from design temperatures, or printed by a standard.

mod calendar;
mod compact;
mod cycles;
mod design_day;
mod epw;
mod hour;
mod humidity;
mod monthly;
mod statistics;
mod sun_timing;
mod synthetic;

pub use calendar::{CalendarMonth, DAYS, HOURS, MONTHS, date, month_of_day, when};
pub use compact::CompactYear;
pub use cycles::{DailyCycle, daily_cycle, daily_cycles};
pub use design_day::{DesignDay, WIDEST_RANGE};
pub use epw::{MOST_EPW_BYTES, read_epw};
pub use hour::{Hour, Note, WeatherProblem, WeatherYear};
pub use monthly::MonthlyMeans;
pub use statistics::{AirStatistics, monthly_means, quantile};
pub use sun_timing::{SunTiming, sun_timing};
pub use synthetic::{Extremes, synthetic_year};
