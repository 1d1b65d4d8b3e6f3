//! A year of two rooms against `reference/year.py`, which knows nothing of the engine (scipy 1.17.1): its kept results
//! always, and where Python with scipy is at hand, its first hours run anew.

#[path = "two_node_model/steps.rs"]
mod steps;
#[path = "two_node_model/units.rs"]
mod units;

use std::io::Read;
use std::process::Command;

use flate2::read::GzDecoder;
use rules::thermal::{Boundary, Duty, Input, Mover, Plant, Room, Run, Runner, Temperatures, Unit};
use serde_json::Value;
use steps::Steps;
use units::{ALWAYS, moving};

const KEPT: &str = "tests/reference/two_rooms_year.json";
/// Hours for which two exact solutions of the year with switching agree hour by hour.
const TOGETHER: usize = 730;
const WEATHER: &str = "tests/reference/weather/desert_tmy_year_simulation.csv.gz";

fn kept() -> Vec<Value> {
    let text = std::fs::read_to_string(tests::path(KEPT)).expect("the kept results");
    let all: Value = serde_json::from_str(&text).expect("JSON");
    let cases = all["cases"].as_array().expect("cases").clone();
    assert_eq!(cases.len(), 2);
    cases
}

fn number(value: &Value, name: &str) -> f64 {
    value[name].as_f64().unwrap_or_else(|| panic!("{name} in {value}"))
}

fn unit(spec: &Value) -> Unit {
    let number = |name| number(spec, name);
    let room = spec["room"].as_u64().expect("a room") as usize;
    let (duty, mover) = match spec["kind"].as_str() {
        Some("exchanger") => (ALWAYS, Mover::Linear(number("conductance"))),
        Some("conditioner") => (
            Duty::Cools { on: number("on"), off: number("off"), least_off: number("least_off") },
            moving(number("heat"), number("share_per_kelvin"), number("reference")),
        ),
        _ => (
            Duty::Heats { on: number("on"), off: number("off"), least_off: number("least_off") },
            moving(number("heat"), 0.0, 0.0),
        ),
    };
    Unit { room, duty, mover, input: Input::Constant(0.0), input_inside: false }
}

/// Outdoor air and sun of each hour.
fn weather() -> Vec<[f64; 2]> {
    let packed = std::fs::File::open(tests::path(WEATHER)).expect("the weather");
    let mut text = String::new();
    GzDecoder::new(packed).read_to_string(&mut text).expect("text");
    let cells = |line: &str| {
        let mut cells = line.split(',').skip(1).map(|cell| cell.parse().expect("a number"));
        [cells.next().expect("outdoor air"), cells.next().expect("sun")]
    };
    text.lines().skip(1).map(cells).collect()
}

/// So many hours of a case as the engine runs them.
fn run(case: &Value, hours: usize) -> Run {
    let (mut runner, steps) = begun(case);
    runner.advance(&steps, hours).expect("a year");
    runner.into_run()
}

/// A case before its first hour, and what surrounds it.
fn begun(case: &Value) -> (Runner, Steps) {
    let parameters = &case["parameters"];
    let share = number(parameters, "sun_to_air");
    let rooms: Vec<&Value> = parameters["rooms"].as_array().expect("rooms").iter().collect();
    let weather = weather();
    let boundaries = rooms.iter().map(|room| {
        let (skin, sun) = (number(room, "skin"), number(room, "sun"));
        let boundary = |[outside, full]: &[f64; 2]| Boundary {
            air_source: skin * outside + share * sun * full,
            air_conductance: skin,
            mass_source: (1.0 - share) * sun * full,
            mass_conductance: 0.0,
        };
        weather.iter().map(boundary).collect()
    });
    let steps = Steps {
        seconds: 3600.0,
        outside: weather.iter().map(|hour| hour[0]).collect(),
        boundaries: boundaries.collect(),
    };
    let room = |room: &&Value| Room {
        air_capacity: number(room, "air_capacity"),
        mass_capacity: number(room, "mass_capacity"),
        exchange: number(room, "exchange"),
        heat_to_air: number(room, "heat"),
        heat_to_mass: 0.0,
    };
    let plant = Plant {
        rooms: rooms.iter().map(room).collect(),
        divider: number(parameters, "divider"),
        units: parameters["units"].as_array().expect("units").iter().map(unit).collect(),
    };
    (Runner::new(plant, &[Temperatures::even(-1.0); 2]).expect("a plant"), steps)
}

fn check(case: &Value, what: &str, found: f64, expected: f64, within: f64) {
    println!("{}: {what}: {found} against {expected}", case["name"]);
    assert!((found - expected).abs() <= within, "{}: {what}: {found} instead of {expected} ± {within}", case["name"]);
}

fn compare(case: &Value, run: &Run, results: &Value) {
    let switches = case["name"] != "nothing switches";
    let hours = results["air_at_end_of_hour"].as_object().expect("hours");
    assert!(hours.len() > 1);
    for (room, course) in run.rooms.iter().enumerate() {
        let expected = |what: &str| results[what][room].as_f64().expect("a number");
        // A limit that is only just reached, or only just not, parts two courses for good, however exact: after that their
        // cycles no longer fall together, and sums and means are what can be compared.
        let together = if switches { TOGETHER } else { usize::MAX };
        let within = if switches { 0.02 } else { 1e-6 };
        let mut worst: f64 = 0.0;
        let hours = hours.iter().map(|(hour, airs)| (hour.parse::<usize>().expect("an hour"), airs));
        for (hour, airs) in hours.filter(|(hour, _)| *hour < together) {
            worst = worst.max((course.end[hour] - airs[room].as_f64().expect("a number")).abs());
        }
        check(case, "air at the end of the worst hour compared", worst, 0.0, 1e-6);
        let mean = course.end.iter().sum::<f64>() / course.end.len() as f64;
        check(case, "mean at the end of the hours", mean, expected("mean_at_end_of_hour"), within);
        let highest = course.highest.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        // The reference looks every minute: it may miss a top between.
        check(case, "highest air", highest, expected("highest"), 0.005);
        let lowest = course.lowest.iter().copied().fold(f64::INFINITY, f64::min);
        check(case, "lowest air", lowest, expected("lowest"), 0.005);
    }
    assert_eq!(run.units.len(), results["units"].as_array().expect("units").len());
    for (unit, expected) in run.units.iter().zip(results["units"].as_array().expect("units")) {
        let number = |name| number(expected, name);
        check(case, "starts", f64::from(unit.starts), number("starts"), 1e-3 * number("starts"));
        check(case, "hours", unit.seconds / 3600.0, number("hours"), 1e-4 * number("hours") + 1e-6);
        check(case, "heat, kWh", unit.heat / 3.6e6, number("heat_kwh"), 1e-4 * number("heat_kwh") + 1e-6);
    }
    assert!(run.residual().abs() < 1e-10, "{}", run.residual());
}

#[test]
fn a_year_of_two_rooms_is_as_scipy_has_it() {
    for case in kept() {
        compare(&case, &run(&case, 8760), &case["results"]);
    }
}

#[test]
fn the_same_year_by_cycles_comes_to_the_same_within_one_percent() {
    for case in kept() {
        let (mut runner, steps) = begun(&case);
        runner.gather_cycles();
        runner.advance(&steps, 8760).expect("a year");
        let (run, results) = (runner.run(), &case["results"]);
        for (unit, expected) in run.units.iter().zip(results["units"].as_array().expect("units")) {
            let number = |name| number(expected, name);
            check(&case, "starts", f64::from(unit.starts), number("starts"), 0.01 * number("starts"));
            check(&case, "hours", unit.seconds / 3600.0, number("hours"), 0.01 * number("hours"));
            check(&case, "heat, kWh", unit.heat / 3.6e6, number("heat_kwh"), 0.01 * number("heat_kwh"));
        }
        for (room, course) in run.rooms.iter().enumerate() {
            let expected = |what: &str| results[what][room].as_f64().expect("a number");
            let highest = course.highest.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            check(&case, "highest air", highest, expected("highest"), 0.05);
            let lowest = course.lowest.iter().copied().fold(f64::INFINITY, f64::min);
            check(&case, "lowest air", lowest, expected("lowest"), 0.05);
        }
        assert!(run.residual().abs() < 1e-10, "{}", run.residual());
    }
}

#[test]
fn scipy_still_says_so_where_it_is_at_hand() {
    const HOURS: usize = 160;
    let python = std::env::var("BAYWRIGHT_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let has_scipy = Command::new(&python).args(["-c", "import scipy, numpy"]).output();
    if !has_scipy.is_ok_and(|output| output.status.success()) {
        println!("skipped: {python} with numpy and scipy is not at hand; the kept results are compared all the same");
        return;
    }
    let mut script = Command::new(&python);
    script.args([tests::path("tests/reference/year.py"), tests::path(KEPT), tests::path(WEATHER)]);
    let output = script.args(["--hours", &HOURS.to_string()]).output().expect("the script runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let fresh: Vec<Value> = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(fresh.len(), kept().len());
    for (case, fresh) in kept().iter().zip(&fresh) {
        println!("{}: scipy took {} s for {HOURS} hours", case["name"], fresh["seconds"]);
        compare(case, &run(case, HOURS), &fresh["results"]);
    }
}

/// How long the engine takes for each case, as the script tells it of itself: JSON, in seconds.
#[test]
#[ignore = "measures; run by `cargo xtask bench`"]
fn measures_the_engine() {
    const TIMES: usize = 51;
    for case in kept() {
        let (begun, steps) = begun(&case);
        let mut seconds: Vec<f64> = (0..TIMES)
            .map(|_| {
                let mut runner = begun.clone();
                runner.gather_cycles();
                let began = std::time::Instant::now();
                runner.advance(&steps, 8760).expect("a year");
                began.elapsed().as_secs_f64()
            })
            .collect();
        seconds.sort_by(f64::total_cmp);
        println!("measured {{\"name\": {}, \"seconds\": {}}}", case["name"], seconds[TIMES / 2]);
    }
}
