//! Whole years against a scientific library: `reference/weather_year_simulation.json` and the hourly air beside it, made
//! with matrix exponentials and root finding (scipy 1.17.1) from two weather files.

mod two_node_model;

use std::io::Read;

use flate2::read::GzDecoder;
use rules::thermal::{Run, Runner};
use serde_json::Value;
use two_node_model::{Parameters, Steps};

/// The hourly columns of a weather file, unpacked.
fn hourly(weather: &str) -> String {
    let packed: &[u8] = match weather {
        "desert_tmy" => include_bytes!("../reference/weather/desert_tmy_year_simulation.csv.gz"),
        "greensboro_tmy3" => include_bytes!("../reference/weather/greensboro_tmy3_year_simulation.csv.gz"),
        other => panic!("no columns of {other}"),
    };
    let mut text = String::new();
    GzDecoder::new(packed).read_to_string(&mut text).expect("text");
    text
}

/// One column by its name.
fn column(text: &str, named: impl Fn(&str) -> bool) -> Vec<f64> {
    let mut lines = text.lines();
    let place = lines.next().expect("names").split(',').position(named).expect("the column");
    let column: Vec<f64> =
        lines.map(|line| line.split(',').nth(place).expect("a cell").parse().expect("a number")).collect();
    assert_eq!(column.len(), 8760);
    column
}

fn simulations() -> Vec<Value> {
    let text = include_str!("../reference/weather_year_simulation.json");
    let all: Vec<Value> = serde_json::from_str(text).expect("JSON");
    assert_eq!(all.len(), 4);
    all
}

/// The year of a case as the engine runs it, and the air at the end of each hour as the reference has it.
fn year(case: &Value) -> (Run, Vec<f64>) {
    let parameters = Parameters(&case["parameters"]);
    let text = hourly(case["weather"].as_str().expect("a name"));
    let outside = column(&text, |name| name == "To_c");
    // Cases of one file share the one column of sun.
    let sun = column(&text, |name| name.starts_with("S_w:"));
    let boundaries = outside.iter().zip(&sun).map(|(outside, sun)| parameters.boundary(*outside, *sun, 0.0)).collect();
    let steps = Steps { seconds: 3600.0, outside, boundaries: vec![boundaries] };
    let mut runner = Runner::new(parameters.plant(), &parameters.start()).expect("a plant");
    runner.advance(&steps, 8760).expect("a year");
    let air = format!("Ta_c:{}", case["case"].as_str().expect("a name"));
    (runner.into_run(), column(&text, |name| name == air))
}

fn check(case: &Value, what: &str, found: f64, expected: f64, within: f64) {
    let name = (&case["weather"], &case["case"]);
    println!("{name:?} {what}: {found} against {expected}");
    assert!((found - expected).abs() <= within, "{name:?} {what}: {found} instead of {expected} ± {within}");
}

/// The columns have six figures: 5e-4 K at 50 °C, half of the last place.
const LAST_PLACE: f64 = 6e-4;

#[test]
fn every_hour_of_a_year_without_switching_is_as_computed() {
    for case in simulations() {
        if case["case"] == "ac" {
            continue;
        }
        let (run, expected) = year(&case);
        assert_eq!(run.rooms[0].end.len(), expected.len());
        let worst = run.rooms[0].end.iter().zip(&expected).fold(0.0, |worst: f64, (a, b)| worst.max((a - b).abs()));
        check(&case, "air at the end of the worst hour", worst, 0.0, LAST_PLACE);
        assert!(run.residual().abs() < 1e-9, "{}", run.residual());
    }
}

#[test]
fn the_sums_of_a_year_are_as_computed() {
    for case in simulations() {
        let (run, _) = year(&case);
        let result = &case["result"];
        let number = |value: &Value| value.as_f64().expect("a number");
        let room = &run.rooms[0];
        let highest = room.highest.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let lowest = room.lowest.iter().copied().fold(f64::INFINITY, f64::min);
        check(&case, "peak", highest, number(&result["Ta_peak"]), 1e-5);
        if case["case"] != "ac" {
            // In that case the reference first looks after 30 s, and the year begins with its lowest air.
            check(&case, "low", lowest, number(&result["Ta_low"]), 1e-5);
        }
        let mean = room.end.iter().sum::<f64>() / 8760.0;
        check(&case, "mean at the end of the hours", mean, number(&result["Ta_end_of_hour"]["mean"]), 1e-2);
        for (unit, name) in run.units.iter().zip(Parameters(&case["parameters"]).unit_names()) {
            let heat = number(&result["heat_moved_kwh"][name]);
            check(&case, &format!("heat moved by {name}, kWh"), unit.heat / 3.6e6, heat, 1e-6 * heat);
            let hours = number(&result["on_hours"][name]);
            check(&case, &format!("hours of {name}"), unit.moving_seconds / 3600.0, hours, 1e-6 * hours);
            let starts = number(&result["starts"][name]);
            check(&case, &format!("starts of {name}"), f64::from(unit.starts), starts, 1.0);
        }
    }
}

#[test]
fn pieces_of_a_year_are_the_year() {
    let case = &simulations()[3];
    let parameters = Parameters(&case["parameters"]);
    let text = hourly("desert_tmy");
    let outside = column(&text, |name| name == "To_c");
    let boundaries = outside.iter().map(|outside| parameters.boundary(*outside, 0.0, 0.0)).collect();
    let steps = Steps { seconds: 3600.0, outside, boundaries: vec![boundaries] };
    let whole = || Runner::new(parameters.plant(), &parameters.start()).expect("a plant");
    let (mut at_once, mut in_pieces) = (whole(), whole());
    at_once.advance(&steps, 8760).expect("a year");
    for month in 1..=12 {
        in_pieces.advance(&steps, 730 * month).expect("a month");
    }
    assert_eq!(at_once.run(), in_pieces.run());
}
