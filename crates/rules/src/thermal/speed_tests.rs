//! How long a year takes: printed, not asserted, as machines differ.

use std::time::Instant;

use super::sample_year::{Invented, light, plant};
use super::{Plant, Runner, Surroundings, Temperatures};

/// Milliseconds this thread has had a processor, where the system tells; else those that passed.
fn milliseconds(began: Instant) -> f64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let spent = told.and_then(|text| text.split(' ').next()?.parse::<f64>().ok());
    spent.map_or_else(|| began.elapsed().as_secs_f64() * 1e3, |nanoseconds| nanoseconds / 1e6)
}

fn measure(name: &str, plant: &Plant) {
    for gathers in [false, true] {
        measure_one(name, plant, gathers);
    }
}

fn measure_one(name: &str, plant: &Plant, gathers: bool) {
    let began = Instant::now();
    let weather = Invented::hours(8760);
    let mut best = f64::INFINITY;
    let mut told = String::new();
    for _ in 0..20 {
        let mut runner = Runner::new(plant.clone(), &vec![Temperatures::even(20.0); plant.rooms.len()]).unwrap();
        if gathers {
            runner.gather_cycles();
        }
        let before = milliseconds(began);
        runner.advance(&weather, weather.steps()).unwrap();
        best = best.min(milliseconds(began) - before);
        let run = runner.run();
        let starts: u32 = run.units.iter().map(|unit| unit.starts).sum();
        told = format!("{} stretches, {starts} starts, residual {:e}", run.stretches, run.residual());
    }
    let how = if gathers { "by cycles" } else { "exactly" };
    println!("{name}, {how}: {best:.2} ms, {told}");
}

#[test]
#[ignore = "measures; run it in release with --ignored --nocapture"]
fn a_year_in_milliseconds() {
    let busy = plant();
    measure("two rooms, much switching", &busy);
    let mut calm = plant();
    for room in &mut calm.rooms {
        room.air_capacity = 80e3;
    }
    measure("two rooms, heavier air nodes", &calm);
    measure("two rooms, light masses", &light());
    calm.units.clear();
    measure("two rooms, no units", &calm);
    let mut one = plant();
    one.rooms.truncate(1);
    one.units.truncate(3);
    measure("one room", &one);
    let weather = Invented::hours(8760);
    let began = Instant::now();
    let before = milliseconds(began);
    let steps = (0..weather.steps()).flat_map(|step| [(step, 0), (step, 1)]);
    let sum: f64 = steps.map(|(step, room)| weather.boundary(step, room, 30.0).air_source).sum();
    let took = milliseconds(began) - before;
    println!("the surroundings of two rooms alone: {took:.2} ms ({sum:.0})");
}
