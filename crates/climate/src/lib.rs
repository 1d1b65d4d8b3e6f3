//! Air and sun at a site.
//!
//! **Invariant:** knows nothing of cabinets. No browser, clock, file or random number; the same input gives the same bits
//! natively and in wasm. A figure that an edition or a practice may change stands here once, with its source.

mod air;
mod atmosphere;
pub mod convection;
mod films;
mod site;
mod solar;
mod sun;
mod weather;

pub use air::{GAS_CONSTANT, RATED_AIR_DENSITY, SPECIFIC_HEAT, density};
pub use atmosphere::{HIGHEST, LOWEST, SEA_LEVEL_DENSITY, StandardAir, standard_air};
pub use films::{Film, INSIDE, OUTSIDE_SUMMER, OUTSIDE_WINTER, STILL};
pub use site::{MOST_SECTORS, Site, SiteProblem};
pub use solar::{
    ClearSky, DELTA_T, Face, FaceLight, HourLight, HourSun, LONGEST_YEAR, Refraction, SOLAR_CONSTANT, SkyLight,
    SkyModel, SunDay, SunPosition, YearClock, absolute_air_mass, erbs, extraterrestrial, face_light, faces, julian_day,
    light_year, relative_air_mass, sun_day, sun_position, sun_year,
};
pub use sun::{FLAT_SUN, FlatSun};
pub use weather::{
    AirStatistics, CalendarMonth, CompactYear, DAYS, DailyCycle, DesignDay, Extremes, HOURS, Hour, MONTHS,
    MOST_EPW_BYTES, MonthlyMeans, Note, SunTiming, WIDEST_RANGE, WeatherProblem, WeatherYear, daily_cycle,
    daily_cycles, date, month_of_day, monthly_means, quantile, read_epw, sun_timing, synthetic_year, when,
};
