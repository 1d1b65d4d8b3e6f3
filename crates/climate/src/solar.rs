//! Where the sun is, and what arrives of it on each face.

mod air_mass;
mod clear_sky;
mod decomposition;
mod extraterrestrial;
mod face;
mod light;
mod light_year;
mod position;
mod rise_set;
mod transposition;
mod year;

#[cfg(test)]
mod laws;

pub use air_mass::{absolute_air_mass, relative_air_mass};
pub use clear_sky::ClearSky;
pub use decomposition::erbs;
pub use extraterrestrial::{SOLAR_CONSTANT, extraterrestrial};
pub use face::{Face, faces};
pub use light::SkyLight;
pub use light_year::{HourLight, light_year};
pub use position::{DELTA_T, Refraction, SunPosition, julian_day, sun_position};
pub use rise_set::{SunDay, sun_day};
pub use transposition::{FaceLight, SkyModel, face_light};
pub use year::{HourSun, LONGEST_YEAR, YearClock, sun_year};
