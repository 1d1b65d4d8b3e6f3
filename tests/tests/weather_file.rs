//! A whole weather file, and the statistics of two years, against what a scientific library makes of them.
//!
//! `reference/weather/desert_tmy.epw.gz`: NSRDB PSM v3 (U.S. DOE/NREL) as EPW; `*_hourly.csv`: the values that are in it, and
//! NREL TMY3 (a work of the U.S. Government); `reference/weather_statistics.json`: numpy 2.4.6, pvlib 0.16.1.

use std::io::Read as _;

use climate::{HOURS, Hour, Site, WeatherYear, monthly_means, quantile, read_epw, sun_timing};
use serde_json::Value;

const DESERT: &str = include_str!("../reference/weather/desert_tmy_hourly.csv");
const TEMPERATE: &str = include_str!("../reference/weather/greensboro_tmy3_hourly.csv");

/// The text of the reference file.
fn file() -> String {
    let packed = include_bytes!("../reference/weather/desert_tmy.epw.gz");
    let mut text = String::new();
    flate2::read::GzDecoder::new(&packed[..]).read_to_string(&mut text).expect("the file is packed text");
    text
}

fn desert() -> WeatherYear {
    read_epw(file().as_bytes()).expect("the file is good")
}

/// Columns ghi, dni, dhi, temp, dew, pressure, wind of an hourly file.
fn hourly(text: &str) -> Vec<[f64; 7]> {
    let row = |line: &str| {
        let cells: Vec<f64> = line.split(',').skip(1).map(|cell| cell.parse().expect("a number")).collect();
        cells.try_into().expect("seven columns")
    };
    text.lines().skip(1).map(row).collect()
}

fn statistics(name: &str) -> Value {
    let all: Value = serde_json::from_str(include_str!("../reference/weather_statistics.json")).expect("JSON");
    all.as_array().into_iter().flatten().find(|entry| entry["name"] == name).expect("an entry of the file").clone()
}

fn check(what: &str, found: f64, expected: &Value, within: f64) {
    let expected = expected.as_f64().unwrap_or_else(|| panic!("{what} is no number"));
    assert!((found - expected).abs() <= within, "{what}: {found} instead of {expected}");
}

#[test]
fn every_value_of_a_file_is_read_as_it_was_written() {
    let year = desert();
    let rows = hourly(DESERT);
    assert_eq!((year.hours.len(), rows.len(), year.sun_at), (HOURS, HOURS, 0.5));
    for (number, (hour, [ghi, dni, dhi, temperature, _, pressure, wind])) in year.hours.iter().zip(rows).enumerate() {
        let expected = Hour {
            dry_bulb: temperature,
            global: ghi,
            direct_normal: dni,
            diffuse: dhi,
            wind,
            relative_humidity: hour.relative_humidity,
            pressure,
            horizontal_infrared: None,
        };
        assert_eq!(*hour, expected, "row {number}");
    }
    let Site { latitude, longitude, elevation, utc_offset, .. } = year.site;
    assert_eq!((latitude, longitude, elevation.0, utc_offset), (34.85, -116.78, 561.0, -8.0));
    assert_eq!(year.name, "desert_tmy, USA (NSRDB PSM v3)");
    let said: Vec<String> = year.notes.iter().map(ToString::to_string).collect();
    assert_eq!(said, ["horizontal infrared: not in the file: left to a formula for the sky (8760 h)"]);
}

#[test]
fn the_statistics_of_two_years_are_those_of_the_library() {
    for (name, text) in [("desert_tmy", DESERT), ("greensboro_tmy3", TEMPERATE)] {
        let air: Vec<f64> = hourly(text).iter().map(|row| row[3]).collect();
        let reference = statistics(name);
        let expected = &reference["dry_bulb_c"];
        for (share, key) in [
            (1.0, "max"),
            (0.996, "q_0p4_linear"),
            (0.99, "q_1p0_linear"),
            (0.98, "q_2p0_linear"),
            (0.01, "q_99p0_linear"),
            (0.004, "q_99p6_linear"),
            (0.0, "min"),
        ] {
            check(key, quantile(&air, share).expect("a year"), &expected[key], 1e-9);
        }
        let months = monthly_means(&air).expect("a year");
        for (found, month) in months.iter().zip(reference["monthly_mean_dry_bulb_c"].as_array().expect("twelve")) {
            check("month", *found, month, 1e-8);
        }
        let (above, below) =
            (|limit: f64| air.iter().map(move |air| air - limit), |limit: f64| air.iter().map(move |air| limit - air));
        for limit in [30.0, 35.0, 40.0] {
            let hours = above(limit).filter(|kelvins| *kelvins > 0.0).count();
            check("hours above", hours as f64, &expected[&format!("hours_above_{limit}")], 0.0);
        }
        for (limit, name) in [(0.0, "hours_below_0"), (-10.0, "hours_below_minus_10")] {
            let hours = below(limit).filter(|kelvins| *kelvins > 0.0).count();
            check("hours below", hours as f64, &expected[name], 0.0);
        }
        for limit in [25.0, 35.0] {
            let sum = above(limit).map(|kelvins| kelvins.max(0.0)).sum();
            check("degree hours above", sum, &expected[&format!("degree_hours_above_{limit}")], 1e-6);
        }
        check(
            "degree hours below",
            below(5.0).map(|kelvins| kelvins.max(0.0)).sum(),
            &expected["degree_hours_below_5"],
            1e-6,
        );
    }
}

#[test]
fn a_file_has_the_statistics_of_its_values() {
    let found = desert().air_statistics().expect("a year");
    let expected = &statistics("desert_tmy")["dry_bulb_c"];
    check("max", found.max, &expected["max"], 0.0);
    check("min", found.min, &expected["min"], 0.0);
    check("mean", found.mean, &expected["mean"], 1e-8);
    check("hot", found.hot, &expected["q_0p4_linear"], 1e-9);
    check("cold", found.cold, &expected["q_99p6_linear"], 1e-9);
}

#[test]
fn sun_and_irradiance_agree_as_the_library_finds() {
    let timing = sun_timing(&desert()).expect("enough sun");
    check("closure", timing.closure, &statistics("desert_tmy")["closure_rms_w_m2"], 0.02);
    assert!(!timing.is_doubtful());
    assert_eq!(timing.best_sun_at, 0.5);
}

#[test]
fn a_file_that_runs_in_another_time_than_it_says_is_found_out() {
    // As the European file in the reference: rows in one time, header in another zone. The sun of the rows is so many hours
    // later in the time of the header.
    for later in [-4.0, -1.0, 1.0, 5.0, 8.0] {
        let moved = file().replacen(",-8.0,561.0", &format!(",{},561.0", later - 8.0), 1);
        let year = read_epw(moved.as_bytes()).expect("the file is good");
        let timing = sun_timing(&year).expect("enough sun");
        assert!(timing.is_doubtful() && timing.closure > 30.0, "{timing:?}");
        assert!((timing.best_sun_at - 0.5 - later).abs() <= 0.02, "{timing:?}");
        let closure = statistics("desert_tmy")["closure_rms_w_m2"].clone();
        check("closure at best", timing.best_closure, &closure, 0.05);
        let said = year.notes.last().expect("a note").to_string();
        assert!(said.contains(&format!("the times of the file seem to be off by {later:.2} h")), "{said}");
        // With the sun moved there is nothing more to say.
        let mended = WeatherYear { sun_at: timing.best_sun_at, ..year };
        assert!(!sun_timing(&mended).expect("enough sun").is_doubtful());
    }
}

#[test]
fn humidity_from_dew_points_is_that_of_the_library() {
    // PsychroLib 2.5.0 wrote the humidity of the file in whole percents, over ice below freezing.
    let dry: String = file()
        .lines()
        .map(|line| {
            let mut cells: Vec<&str> = line.split(',').collect();
            if cells.len() == 35 {
                cells[8] = "999";
            }
            cells.join(",") + "\n"
        })
        .collect();
    let (found, expected) = (read_epw(dry.as_bytes()).expect("the file is good"), desert());
    let mut compared = 0;
    for ((hour, reference), row) in found.hours.iter().zip(&expected.hours).zip(hourly(DESERT)) {
        // Over ice saturation is lower than over water: compared where there is none.
        if row[4] > 0.0 {
            let apart = (hour.relative_humidity - reference.relative_humidity).abs();
            assert!(apart <= 0.007, "{hour:?} {reference:?}");
            compared += 1;
        }
    }
    assert!(compared > 3000, "only {compared} compared");
}
