//! Daily cycles that standards print: the data are in `assets/climates/daily-cycles.toml`.
//!
//! A printed value is that of its hour on the clock, and between two it is read along a straight line. For a day of rows, row
//! k takes the value printed for hour k + 1, so that the printed extremes are kept; that is at most half an hour early. Put so,
//! the printed sun is even about noon.
//!
//! Source:      named in the data file, with its standing.
//! Valid for:   the printed hours; no date and no latitude belong to a cycle.
//! Agreement:   every value is the printed one; sums and means in tests/tests/weather_cycles.rs.
//! Not covered: humidity; how the sun splits into beam and sky, which the caller says; induced (storage) cycles.

use std::sync::OnceLock;

use serde::Deserialize;

use super::humidity;
use crate::{Hour, SkyLight};

/// A daily cycle of a standard.
#[derive(Clone, Debug, PartialEq)]
pub struct DailyCycle {
    /// Its short name in the document, such as `A1`.
    pub id: String,
    /// Its name there.
    pub name: String,
    /// Document and edition.
    pub edition: String,
    /// How far the figures have been confirmed.
    pub standing: String,
    /// Outdoor air at hours 1 to 24 of local solar time, °C.
    pub air: [f64; 24],
    /// Sun on level ground at the same hours, W/m²; none where none is printed.
    pub sun: Option<[f64; 24]>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    edition: String,
    standing: String,
    cycle: Vec<Printed>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Printed {
    id: String,
    name: String,
    standing: Option<String>,
    air: [f64; 24],
    sun: Option<[f64; 24]>,
}

/// All cycles, read once. The file is checked by the tests; should it not load all the same, there are none.
#[must_use]
pub fn daily_cycles() -> &'static [DailyCycle] {
    static ALL: OnceLock<Vec<DailyCycle>> = OnceLock::new();
    ALL.get_or_init(|| load(include_str!("../../../../assets/climates/daily-cycles.toml")).unwrap_or_default())
}

fn load(text: &str) -> Result<Vec<DailyCycle>, toml::de::Error> {
    let File { edition, standing, cycle } = toml::from_str(text)?;
    let cycles = cycle.into_iter().map(|printed| DailyCycle {
        id: printed.id,
        name: printed.name,
        edition: edition.clone(),
        standing: printed.standing.unwrap_or_else(|| standing.clone()),
        air: printed.air,
        sun: printed.sun,
    });
    Ok(cycles.collect())
}

impl DailyCycle {
    /// Outdoor air at a time of day in hours, read between the printed hours, °C.
    #[must_use]
    pub fn air_at(&self, hour: f64) -> f64 {
        between(&self.air, hour)
    }

    /// Sun on level ground at a time of day in hours, read between the printed hours, W/m²; none where none is printed.
    #[must_use]
    pub fn sun_at(&self, hour: f64) -> Option<f64> {
        self.sun.as_ref().map(|sun| between(sun, hour))
    }

    /// The day in rows. `split` says how the printed sun of a row (its number, and W/m² on level ground) comes as beam and
    /// sky. Wind (m/s) and pressure (Pa) are not printed and hold all day; humidity is that of the day's assumed dew point.
    #[must_use]
    pub fn hours(&self, wind: f64, pressure: f64, mut split: impl FnMut(usize, f64) -> SkyLight) -> [Hour; 24] {
        let humidity = humidity::of_day(&self.air);
        std::array::from_fn(|row| {
            let global = self.sun.map_or(0.0, |sun| sun[row]);
            let light = if global > 0.0 { split(row, global) } else { SkyLight::default() };
            Hour {
                dry_bulb: self.air[row],
                global,
                direct_normal: light.direct_normal,
                diffuse: light.diffuse,
                wind,
                relative_humidity: humidity[row],
                pressure,
                horizontal_infrared: None,
            }
        })
    }
}

/// Reads between values of hours 1 to 24; hour 0 is hour 24 of the same day.
fn between(values: &[f64; 24], hour: f64) -> f64 {
    let hour = if hour.is_finite() { hour.rem_euclid(24.0) } else { 0.0 };
    let below = libm::floor(hour);
    let printed = |hour: usize| values[(hour + 23) % 24];
    let (before, after) = (printed(below as usize), printed(below as usize + 1));
    before + (after - before) * (hour - below)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cycle(id: &str) -> &'static DailyCycle {
        daily_cycles().iter().find(|cycle| cycle.id == id).unwrap()
    }

    #[test]
    fn the_file_is_good_and_names_its_source() {
        let ids: Vec<&str> = daily_cycles().iter().map(|cycle| cycle.id.as_str()).collect();
        assert_eq!(ids, ["A1", "A2", "C1", "C2", "C3"]);
        assert!(load("edition = 1").is_err());
        assert!(cycle("A1").edition.contains("MIL-HDBK-310") && cycle("A1").standing.contains("to be confirmed"));
        assert!(cycle("C3").standing.contains("from memory"));
    }

    #[test]
    fn rows_keep_the_printed_extremes() {
        let rows = cycle("A1").hours(0.0, 101_325.0, |row, global| {
            assert!((5..19).contains(&row));
            SkyLight { global, direct_normal: 900.0, diffuse: 120.0 }
        });
        assert_eq!((rows[15].dry_bulb, rows[15].global, rows[15].direct_normal), (49.0, 730.0, 900.0));
        assert_eq!((rows[5].dry_bulb, rows[0].diffuse, rows[0].direct_normal), (32.0, 0.0, 0.0));
        let no_sun = cycle("C2").hours(3.0, 101_325.0, |_, global| panic!("no sun is printed: {global}"));
        assert!(no_sun.iter().all(|hour| hour.global == 0.0 && hour.wind == 3.0));
    }

    #[test]
    fn the_day_closes_on_itself() {
        let a1 = cycle("A1");
        assert_eq!((a1.air_at(24.0), a1.air_at(0.0), a1.air_at(0.5)), (37.0, 37.0, 36.0));
        assert_eq!((a1.sun_at(12.5), cycle("C1").sun_at(12.0)), (Some(1120.0), None));
        assert_eq!(a1.air_at(-1.0), 38.0);
    }
}
