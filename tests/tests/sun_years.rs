//! Whole weather years on the five faces of a cabinet against a scientific library (pvlib 0.16.1).
//!
//! The hours are from `reference/weather`: NREL TMY3 (a work of the U.S. Government), and NSRDB PSM v3 (U.S. DOE/NREL).

mod sun_table;

use climate::{LONGEST_YEAR, Site, SkyLight, SkyModel, YearClock, light_year};
use serde_json::Value;
use sun_table::rows;
use units::Metres;

const MODELS: [(SkyModel, &str, &str); 3] = [
    (SkyModel::Isotropic, "isotropic", "iso"),
    (SkyModel::HayDavies, "haydavies", "hd"),
    (SkyModel::Perez, "perez", "perez"),
];
/// Asked for is 0.1 % of a sum.
const SUMS: f64 = 1e-4;
/// The library's faces in our order: top, front, right, rear, left. It turns clockwise seen from above, and a cabinet's
/// left is clockwise of its front.
const FACES: [&str; 5] = ["top", "front", "front+270", "back", "front+90"];

struct WeatherFile {
    name: &'static str,
    hours: &'static str,
    sample: &'static str,
}

const FILES: [WeatherFile; 2] = [
    WeatherFile {
        name: "greensboro_tmy3",
        hours: include_str!("../reference/weather/greensboro_tmy3_hourly.csv"),
        sample: include_str!("../reference/weather/greensboro_tmy3_faces_sample.csv"),
    },
    WeatherFile {
        name: "desert_tmy",
        hours: include_str!("../reference/weather/desert_tmy_hourly.csv"),
        sample: include_str!("../reference/weather/desert_tmy_faces_sample.csv"),
    },
];

impl WeatherFile {
    fn light(&self) -> Vec<SkyLight> {
        let light: Vec<SkyLight> = rows(self.hours)
            .iter()
            .map(|row| SkyLight {
                global: row.number("ghi"),
                direct_normal: row.number("dni"),
                diffuse: row.number("dhi"),
            })
            .collect();
        assert_eq!(light.len(), 8760);
        light
    }

    fn statistics(&self) -> Value {
        let all: Value =
            serde_json::from_str(include_str!("../reference/weather_statistics.json")).expect("the file is JSON");
        let found = all.as_array().into_iter().flatten().find(|entry| entry["name"] == self.name);
        found.expect("an entry of the file").clone()
    }

    fn site(&self) -> Site {
        let all = self.statistics();
        let number = |field: &str| all[field].as_f64().expect("a number");
        Site {
            latitude: number("latitude"),
            longitude: number("longitude"),
            elevation: Metres(number("elevation_m")),
            utc_offset: number("sun_timezone_h"),
            albedo: number("albedo"),
            horizon: vec![],
        }
    }
}

/// Agrees within a share of the expected value, or within an absolute amount where that is more.
fn check(what: &str, found: f64, expected: f64, share: f64, least: f64) {
    assert!((found - expected).abs() <= (share * expected).max(least), "{what}: {found} instead of {expected}");
}

/// The whole light on the five faces in every hour, W/m².
fn year_of_faces(file: &WeatherFile, light: &[SkyLight], bearing: f64, model: SkyModel) -> Vec<[f64; 5]> {
    let (site, clock) = (file.site(), YearClock::typical(light.len()));
    let year = light_year(&site, &clock, bearing, model, light.iter().copied()).expect("a real site");
    year.map(|hour| hour.faces.map(|face| face.total())).collect()
}

#[test]
fn the_year_on_each_face_adds_up_as_in_the_library() {
    let mut compared = 0;
    for file in &FILES {
        let (light, statistics) = (file.light(), file.statistics());
        for sums in statistics["face_sums"].as_array().expect("sums") {
            if sums["rule"] != "beam_off_below_horizon" {
                continue;
            }
            let bearing = sums["front_azimuth_deg"].as_f64().expect("a bearing");
            let (model, ..) = MODELS[MODELS.iter().position(|model| sums["model"] == model.1).expect("a known model")];
            let year = year_of_faces(file, &light, bearing, model);
            assert_eq!(year.len(), 8760);
            for (face, name) in FACES.iter().enumerate() {
                let what = format!("{} {} {bearing}° {name}", file.name, sums["model"]);
                let sum = |from: usize, to: usize| year[from..to].iter().map(|row| row[face]).sum::<f64>() / 1000.0;
                let expected = |period: &str| sums[period][name].as_f64().expect("a sum");
                check(&what, sum(0, 8760), expected("annual_kwh_m2"), SUMS, 0.0);
                check(&what, sum(151 * 24, 181 * 24), expected("june_kwh_m2"), SUMS, 0.0);
                check(&what, sum(334 * 24, 365 * 24), expected("december_kwh_m2"), SUMS, 0.0);
                let peak = year.iter().map(|row| row[face]).fold(0.0, f64::max);
                check(&what, peak, expected("peak_w_m2"), 5e-3, 1.0);
                compared += 1;
            }
        }
    }
    assert_eq!(compared, 2 * 2 * 3 * 5);
}

#[test]
fn every_hour_of_sample_days_agrees() {
    // Four summer days of each file, with the front to the south and the beam off below the horizon.
    for file in &FILES {
        let (site, light) = (file.site(), file.light());
        let clock = YearClock::typical(light.len());
        for (model, _, short) in MODELS {
            let year: Vec<_> =
                light_year(&site, &clock, 180.0, model, light.iter().copied()).expect("a site").collect();
            for row in rows(file.sample) {
                let hour = &year[row.text("row").parse::<usize>().expect("a row")];
                // 0.01° is asked for; it is better by far.
                check("zenith", hour.sun.apparent_zenith, row.number("apparent_zenith_deg"), 0.0, 1e-3);
                let turned = (hour.sun.azimuth() - row.number("azimuth_deg") + 180.0).rem_euclid(360.0) - 180.0;
                check("azimuth", turned, 0.0, 0.0, 1e-3);
                for (face, name) in hour.faces.iter().zip(FACES) {
                    let expected = row.number(&format!("{short}_{name}"));
                    check(&format!("{row}: {name}"), face.total(), expected, 1e-3, 0.05);
                }
            }
        }
    }
}

#[test]
fn the_beam_that_the_data_give_the_night_is_left_out() {
    let file = &FILES[0];
    let (site, light) = (file.site(), file.light());
    let clock = YearClock::typical(light.len());
    let year = light_year(&site, &clock, 180.0, SkyModel::HayDavies, light.iter().copied()).expect("a real site");
    let rows = year
        .zip(&light)
        .filter(|(hour, light)| hour.sun.apparent_zenith >= 90.0 && light.direct_normal > 0.0)
        .inspect(|(hour, _)| assert!(hour.faces.iter().all(|face| face.beam == 0.0)))
        .count();
    assert_eq!(Some(rows as u64), file.statistics()["rows_sun_below_horizon_with_dni"].as_u64());
}

#[test]
fn a_leap_year_of_hours_is_reckoned_to_its_end() {
    let file = &FILES[1];
    let mut light = file.light();
    // 29 February as the day before it was.
    let again = light[58 * 24..59 * 24].to_vec();
    light.splice(59 * 24..59 * 24, again);
    let clock = YearClock::typical(light.len());
    assert_eq!((clock.year, clock.hours), (2020, LONGEST_YEAR));
    let year = year_of_faces(file, &light, 180.0, SkyModel::Perez);
    assert_eq!(year.len(), LONGEST_YEAR);
    let noon = year[LONGEST_YEAR - 12];
    assert!(noon.iter().all(|face| face.is_finite()) && noon[1] > 100.0, "{noon:?}");
}
