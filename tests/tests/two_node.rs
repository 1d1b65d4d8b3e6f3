//! The engine against 19 cases of a scientific library (`reference/thermal_two_node_*`, made with matrix exponentials and
//! root finding, checked there with `scipy.integrate.solve_ivp`; scipy 1.17.1).
//!
//! The reference's outdoor air follows a cosine and its sun a half sine; here both are constant over each minute, at their
//! exact mean.

mod two_node_model;

use std::f64::consts::PI;

use rules::thermal::{Run, Runner};
use serde_json::Value;
use two_node_model::{Parameters, Steps, UNITS};

const MINUTE: f64 = 60.0;

fn cases() -> Vec<Value> {
    let all: Vec<Value> = serde_json::from_str(include_str!("../reference/thermal_two_node_cases.json")).expect("JSON");
    assert_eq!(all.len(), 19);
    all
}

fn name(case: &Value) -> &str {
    case["name"].as_str().expect("a name")
}

/// The reference's rows of a case: hour, air and mass.
fn hours(case: &Value) -> Vec<[f64; 3]> {
    let rows = include_str!("../reference/thermal_two_node_hourly.csv").lines().skip(1);
    let rows = rows.map(|line| line.split(',').collect::<Vec<_>>()).filter(|cells| cells[0] == name(case));
    let rows: Vec<[f64; 3]> = rows.map(|cells| [1, 4, 5].map(|cell| cells[cell].parse().expect("a number"))).collect();
    assert!(rows.len() > 10, "{}", name(case));
    rows
}

/// Mean of a·sin(ω(t − t₀)) from one moment to another.
fn mean_sine(rate: f64, zero: f64, from: f64, to: f64) -> f64 {
    (libm::cos(rate * (from - zero)) - libm::cos(rate * (to - zero))) / (rate * (to - from))
}

/// What acts on a case, in equal steps.
fn steps(parameters: &Parameters, seconds: f64) -> Steps {
    let number = |name| parameters.number(name);
    let count = (number("hours") * 3600.0 / seconds).round() as usize;
    let (mut outdoors, mut boundaries) = (Vec::new(), Vec::new());
    for step in 0..count {
        let from = step as f64 * seconds;
        let to = from + seconds;
        let peak = number("To_peak_h") * 3600.0;
        let day = 2.0 * PI / 86_400.0;
        // cos(ω(t − peak)) = sin(ω(t − peak + a quarter of a day))
        let swing = number("To_amp") * mean_sine(day, peak - 21_600.0, from, to);
        let outside = number("To_mean") + swing + number("To_slope_k_per_h") * (from + to) / 7200.0;
        let hour = ((from + to) / 7200.0) % 24.0;
        let (on, off) = (number("S_on_h"), number("S_off_h"));
        let sun = match parameters.0["solar"].as_str() {
            Some("none") => 0.0,
            _ if hour < on || hour > off => 0.0,
            Some("square") => number("S0"),
            _ => {
                let sunrise = (from / 86_400.0).floor() * 86_400.0 + on * 3600.0;
                number("S0") * mean_sine(PI / ((off - on) * 3600.0), sunrise, from, to)
            }
        };
        let pulsing = (number("pulse_on_h")..number("pulse_off_h")).contains(&((from + to) / 7200.0));
        let pulse = if pulsing { number("pulse_w") } else { 0.0 };
        outdoors.push(outside);
        boundaries.push(parameters.boundary(outside, sun, pulse));
    }
    Steps { seconds, outside: outdoors, boundaries: vec![boundaries] }
}

fn run(case: &Value, seconds: f64) -> Run {
    let parameters = Parameters(&case["parameters"]);
    let mut runner = Runner::new(parameters.plant(), &parameters.start()).expect("a plant");
    let steps = steps(&parameters, seconds);
    runner.advance(&steps, steps.outside.len()).expect("a run");
    runner.into_run()
}

/// Hours until a thermostat first switches after the start; all of them when none does.
fn first_switch(case: &Value) -> f64 {
    let moments = case["summary"]["first_switch_h"].as_object().expect("moments");
    moments.values().filter_map(Value::as_f64).fold(f64::INFINITY, f64::min)
}

fn check(case: &Value, what: &str, found: f64, expected: f64, within: f64) {
    println!("{} {what}: {found} against {expected}", name(case));
    assert!((found - expected).abs() <= within, "{} {what}: {found} instead of {expected} ± {within}", name(case));
}

#[test]
fn every_hour_before_the_first_switching_is_as_computed() {
    let mut compared = 0;
    for case in cases() {
        let room = &run(&case, MINUTE).rooms[0];
        let switches = first_switch(&case);
        let (mut air_off, mut mass_off) = (0.0_f64, 0.0_f64);
        for [hour, air, mass] in hours(&case).into_iter().skip(1).filter(|row| row[0] <= switches) {
            let step = (hour * 3600.0 / MINUTE).round() as usize - 1;
            air_off = air_off.max((room.end[step] - air).abs());
            mass_off = mass_off.max((room.mass_end[step] - mass).abs());
            compared += 1;
        }
        check(&case, "worst air", air_off, 0.0, 0.005);
        check(&case, "worst mass", mass_off, 0.0, 0.001);
    }
    assert!(compared > 400, "only {compared} hours compared");
}

#[test]
fn heat_time_and_starts_of_each_unit_are_as_computed() {
    for case in cases() {
        let run = run(&case, MINUTE);
        let summary = &case["summary"];
        let names = Parameters(&case["parameters"]).unit_names();
        for name in UNITS {
            let expected = |what: &str| summary[what][name].as_f64().expect("a number");
            let unit = names.iter().position(|unit| *unit == name).map(|place| &run.units[place]);
            let heat = unit.map_or(0.0, |unit| unit.heat / 3600.0);
            check(&case, &format!("heat of {name}, Wh"), heat, expected("energy_wh"), 1e-3 * expected("energy_wh"));
            let hours = unit.map_or(0.0, |unit| unit.moving_seconds / 3600.0);
            check(&case, &format!("hours of {name}"), hours, expected("on_hours"), 1e-3 * expected("on_hours"));
            // Exact: the reference, too, counts a unit that is on at the start.
            let starts = unit.map_or(0.0, |unit| f64::from(unit.starts));
            check(&case, &format!("starts of {name}"), starts, expected("starts"), 0.0);
        }
        assert!(run.residual().abs() < 1e-9, "{}: {}", name(&case), run.residual());
    }
}

#[test]
fn the_last_day_ranges_as_computed() {
    for case in cases() {
        let room = &run(&case, MINUTE).rooms[0];
        if room.end.len() <= 1440 {
            // The start is in the last day then, and the reference first looks after 20 s.
            continue;
        }
        let day = room.end.len() - 1440;
        let highest = room.highest[day..].iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let lowest = room.lowest[day..].iter().copied().fold(f64::INFINITY, f64::min);
        let expected = |what: &str| case["summary"][what].as_f64().expect("a number");
        check(&case, "highest of the last day", highest, expected("Ta_max_last24h"), 0.005);
        check(&case, "lowest of the last day", lowest, expected("Ta_min_last24h"), 0.005);
    }
}

#[test]
fn half_the_step_moves_the_peak_by_less_than_a_twentieth_of_a_kelvin() {
    let highest = |run: Run| run.rooms[0].highest.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    for case in cases() {
        let (whole, half) = (highest(run(&case, 300.0)), highest(run(&case, 150.0)));
        check(&case, "peak in steps of 5 and of 2½ minutes", half, whole, 0.05);
    }
}
