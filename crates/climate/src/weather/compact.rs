//! A weather year in few characters, to be kept by a browser or handed to a worker.
//!
//! Columns of whole numbers on the grid of [`Hour::kept`]. A year that was read or made here lies on that grid, so that it
//! comes back with the same bits; any other loses at most half a step: 0.005 °C, 0.05 W/m², 0.005 m/s, 0.05 % of humidity, 5 Pa.

use serde::{Deserialize, Serialize};
use units::Metres;

use crate::{HOURS, Hour, Note, Site, WeatherProblem, WeatherYear};

/// The form of this version; a kept year of another is read anew from its file.
const VERSION: u32 = 1;

/// A weather year as whole numbers; serialised by whoever keeps it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompactYear {
    version: u32,
    name: String,
    latitude: f64,
    longitude: f64,
    elevation: f64,
    utc_offset: f64,
    albedo: f64,
    horizon: Vec<f64>,
    sun_at: f64,
    notes: Vec<(String, String, usize)>,
    /// 0.01 °C.
    dry_bulb: Vec<i32>,
    /// 0.1 W/m².
    global: Vec<i32>,
    /// 0.1 W/m².
    direct_normal: Vec<i32>,
    /// 0.1 W/m².
    diffuse: Vec<i32>,
    /// 0.01 m/s.
    wind: Vec<i32>,
    /// 0.1 %.
    relative_humidity: Vec<i32>,
    /// 10 Pa.
    pressure: Vec<i32>,
    /// 0.1 W/m²; −1 for none. Empty where no hour has it.
    horizontal_infrared: Vec<i32>,
}

/// No value in the column of the sky.
const NONE: i32 = -1;

/// Steps in one unit, and what is allowed, in steps.
struct Grid {
    name: &'static str,
    steps: f64,
    from: i32,
    to: i32,
}

const DRY_BULB: Grid = Grid { name: "dry_bulb", steps: 100.0, from: -10_000, to: 10_000 };
const LIGHT: Grid = Grid { name: "irradiance", steps: 10.0, from: 0, to: 20_000 };
const WIND: Grid = Grid { name: "wind", steps: 100.0, from: 0, to: 10_000 };
const HUMIDITY: Grid = Grid { name: "relative_humidity", steps: 1000.0, from: 0, to: 1000 };
const PRESSURE: Grid = Grid { name: "pressure", steps: 0.1, from: 0, to: 15_000 };
const SKY: Grid = Grid { name: "horizontal_infrared", steps: 10.0, from: NONE, to: 20_000 };

impl Grid {
    /// The nearest step. What is no number becomes one that [`Grid::check`] refuses, as it would be a silent zero.
    fn step(&self, value: f64) -> i32 {
        if value.is_nan() { i32::MIN } else { libm::round(value * self.steps) as i32 }
    }

    fn value(&self, step: i32) -> f64 {
        // 10 Pa: a product is exact where a division by 0.1 is not.
        if self.steps < 1.0 { f64::from(step) * libm::round(1.0 / self.steps) } else { f64::from(step) / self.steps }
    }

    /// Says so when a column is not a year of values in their range.
    fn check(&self, column: &[i32], problems: &mut Vec<WeatherProblem>) {
        if column.len() != HOURS {
            let found = format!("{} values", column.len());
            problems.push(WeatherProblem::new(self.name, found, format!("{HOURS} values")));
        } else if let Some(row) = column.iter().position(|step| !(self.from..=self.to).contains(step)) {
            let allowed = format!("{} to {}", self.from, self.to);
            problems.push(WeatherProblem::new(format!("{}[{row}]", self.name), column[row].to_string(), allowed));
        }
    }
}

impl From<&WeatherYear> for CompactYear {
    fn from(year: &WeatherYear) -> Self {
        let column =
            |grid: &Grid, value: fn(&Hour) -> f64| year.hours.iter().map(|hour| grid.step(value(hour))).collect();
        let sky = |hour: &Hour| hour.horizontal_infrared.map_or(NONE, |value| SKY.step(libm::fmax(value, 0.0)));
        let has_sky = year.hours.iter().any(|hour| hour.horizontal_infrared.is_some());
        Self {
            version: VERSION,
            name: year.name.clone(),
            latitude: year.site.latitude,
            longitude: year.site.longitude,
            elevation: year.site.elevation.0,
            utc_offset: year.site.utc_offset,
            albedo: year.site.albedo,
            horizon: year.site.horizon.clone(),
            sun_at: year.sun_at,
            notes: year.notes.iter().map(|note| (note.place.clone(), note.text.clone(), note.count)).collect(),
            dry_bulb: column(&DRY_BULB, |hour| hour.dry_bulb),
            global: column(&LIGHT, |hour| hour.global),
            direct_normal: column(&LIGHT, |hour| hour.direct_normal),
            diffuse: column(&LIGHT, |hour| hour.diffuse),
            wind: column(&WIND, |hour| hour.wind),
            relative_humidity: column(&HUMIDITY, |hour| hour.relative_humidity),
            pressure: column(&PRESSURE, |hour| hour.pressure),
            horizontal_infrared: if has_sky { year.hours.iter().map(sky).collect() } else { Vec::new() },
        }
    }
}

impl TryFrom<CompactYear> for WeatherYear {
    type Error = Vec<WeatherProblem>;

    /// The year again. What was kept is checked: a store may hold anything.
    fn try_from(kept: CompactYear) -> Result<Self, Self::Error> {
        let mut problems = Vec::new();
        if kept.version != VERSION {
            problems.push(WeatherProblem::new("version", kept.version.to_string(), VERSION.to_string()));
        }
        let site = Site {
            latitude: kept.latitude,
            longitude: kept.longitude,
            elevation: Metres(kept.elevation),
            utc_offset: kept.utc_offset,
            albedo: kept.albedo,
            horizon: kept.horizon,
        };
        problems.extend(site.check().into_iter().map(|told| WeatherProblem::new(told.place, told.found, told.allowed)));
        if !(-24.0..=24.0).contains(&kept.sun_at) {
            problems.push(WeatherProblem::new("sun_at", kept.sun_at.to_string(), "-24 to 24 h"));
        }
        for (grid, column) in [
            (&DRY_BULB, &kept.dry_bulb),
            (&LIGHT, &kept.global),
            (&LIGHT, &kept.direct_normal),
            (&LIGHT, &kept.diffuse),
            (&WIND, &kept.wind),
            (&HUMIDITY, &kept.relative_humidity),
            (&PRESSURE, &kept.pressure),
        ] {
            grid.check(column, &mut problems);
        }
        if !kept.horizontal_infrared.is_empty() {
            SKY.check(&kept.horizontal_infrared, &mut problems);
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let hours = (0..HOURS)
            .map(|row| Hour {
                dry_bulb: DRY_BULB.value(kept.dry_bulb[row]),
                global: LIGHT.value(kept.global[row]),
                direct_normal: LIGHT.value(kept.direct_normal[row]),
                diffuse: LIGHT.value(kept.diffuse[row]),
                wind: WIND.value(kept.wind[row]),
                relative_humidity: HUMIDITY.value(kept.relative_humidity[row]),
                pressure: PRESSURE.value(kept.pressure[row]),
                horizontal_infrared: kept
                    .horizontal_infrared
                    .get(row)
                    .filter(|step| **step != NONE)
                    .map(|step| SKY.value(*step)),
            })
            .collect();
        let notes = kept.notes.into_iter().map(|(place, text, count)| Note { place, text, count }).collect();
        Ok(Self { name: kept.name, site, hours, sun_at: kept.sun_at, notes })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn year(hours: Vec<Hour>) -> WeatherYear {
        WeatherYear {
            name: "invented".to_owned(),
            site: Site {
                latitude: -33.123_456,
                longitude: 151.1,
                elevation: Metres(12.5),
                utc_offset: 9.5,
                albedo: 0.2,
                horizon: vec![1.0, 2.5],
            },
            hours,
            sun_at: 0.176_1,
            notes: vec![Note { place: "line 3".to_owned(), text: "sorted".to_owned(), count: 2 }],
        }
    }

    /// Through the text and back.
    fn kept(year: &WeatherYear) -> Result<WeatherYear, Vec<WeatherProblem>> {
        let text = serde_json::to_string(&CompactYear::from(year)).unwrap();
        let read: CompactYear = serde_json::from_str(&text).unwrap();
        read.try_into()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4))]

        #[test]
        fn a_year_comes_back_with_the_same_bits(seeds in prop::collection::vec(
            (-90.0..60.0_f64, 0.0..1600.0_f64, 0.0..75.0_f64, 0.0..1.0_f64, 31_000.0..120_000.0_f64, prop::option::of(50.0..900.0_f64)),
            1..40,
        )) {
            let hours = (0..HOURS).map(|row| {
                let (dry_bulb, global, wind, relative_humidity, pressure, horizontal_infrared) = seeds[row % seeds.len()];
                let (direct_normal, diffuse) = (global / 3.0, global / 7.0);
                Hour { dry_bulb, global, direct_normal, diffuse, wind, relative_humidity, pressure, horizontal_infrared }.kept()
            });
            let before = year(hours.collect());
            prop_assert_eq!(kept(&before), Ok(before));
        }
    }

    #[test]
    fn a_year_off_the_grid_loses_at_most_half_a_step() {
        let off = Hour { dry_bulb: 12.344_9, global: 700.049, wind: 3.333_3, pressure: 98_764.0, ..Hour::default() };
        let back = kept(&year(vec![off; HOURS])).unwrap().hours[17];
        assert_eq!(back, off.kept());
        assert!((back.dry_bulb - off.dry_bulb).abs() <= 0.005 && (back.global - off.global).abs() <= 0.05);
        assert!((back.wind - off.wind).abs() <= 0.005 && (back.pressure - off.pressure).abs() <= 5.0);
    }

    #[test]
    fn what_was_kept_wrongly_is_refused_with_reasons() {
        let good = CompactYear::from(&year(vec![Hour::default(); HOURS]));
        let mut wind = good.wind.clone();
        wind[3] = -1;
        let bad = CompactYear { version: 2, latitude: 91.0, sun_at: 30.0, dry_bulb: vec![1; 24], wind, ..good };
        let said: Vec<String> = WeatherYear::try_from(bad).unwrap_err().iter().map(ToString::to_string).collect();
        assert_eq!(
            said,
            [
                "version: found 2; allowed: 1",
                "latitude: found 91°; allowed: -90° to 90°",
                "sun_at: found 30; allowed: -24 to 24 h",
                "dry_bulb: found 24 values; allowed: 8760 values",
                "wind[3]: found -1; allowed: 0 to 10000",
            ]
        );
    }

    #[test]
    fn numbers_that_are_none_do_not_come_back_as_others() {
        let odd = Hour { dry_bulb: f64::NAN, global: f64::INFINITY, wind: -3.0, ..Hour::default() };
        let problems = kept(&year(vec![odd; HOURS])).unwrap_err();
        let places: Vec<&str> = problems.iter().map(|problem| problem.place.as_str()).collect();
        assert_eq!(places, ["dry_bulb[0]", "irradiance[0]", "wind[0]"]);
    }
}
