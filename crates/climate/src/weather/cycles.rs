//! Daily cycles that standards print: the data are in `assets/climates/daily-cycles.toml`.
//!
//! A printed value is that of its hour on the clock, and between two it is read along a straight line. The printed sun is
//! even about half past twelve: a value stands for the hour that ends with it, so that half an hour is added to the sun's time.
//!
//! Source:      named in the data file, with its standing.
//! Valid for:   the printed hours; no date and no latitude belong to a cycle.
//! Agreement:   every value is the printed one; sums and means in tests/tests/weather_cycles.rs.
//! Not covered: how the sun splits into beam and sky; induced (storage) cycles. Humidity is that of the day's assumed dew point.

use std::sync::OnceLock;

use serde::Deserialize;

use super::humidity;

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

/// The cycle of a short name.
#[must_use]
pub fn daily_cycle(id: &str) -> Option<&'static DailyCycle> {
    daily_cycles().iter().find(|cycle| cycle.id == id)
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

    /// Relative humidity at a time of day in hours, 0 to 1: that of the day's assumed dew point, as none is printed.
    #[must_use]
    pub fn humidity_at(&self, hour: f64) -> f64 {
        between(&humidity::of_day(&self.air), hour)
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
        daily_cycle(id).unwrap()
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
    fn the_air_is_dampest_where_it_is_coldest() {
        let a1 = cycle("A1");
        // The dew point is at most 20 °C, the coldest hour 32 °C.
        assert!(a1.humidity_at(6.0) > 0.4 && a1.humidity_at(6.0) < 0.6 && a1.humidity_at(16.0) < 0.25);
        assert_eq!(cycle("C3").humidity_at(3.5), 1.0);
    }

    #[test]
    fn the_day_closes_on_itself() {
        let a1 = cycle("A1");
        assert_eq!((a1.air_at(24.0), a1.air_at(0.0), a1.air_at(0.5)), (37.0, 37.0, 36.0));
        assert_eq!((a1.sun_at(12.5), cycle("C1").sun_at(12.0)), (Some(1120.0), None));
        assert_eq!(a1.air_at(-1.0), 38.0);
    }
}
