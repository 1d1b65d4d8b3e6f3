//! How long a year takes: printed, not asserted, as machines differ.

use std::time::Instant;

use super::sample_year::{Invented, plant};
use super::{Runner, Surroundings, Temperatures};

/// Milliseconds this thread has had a processor, where the system tells; else those that passed.
fn milliseconds(began: Instant) -> f64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let spent = told.and_then(|text| text.split(' ').next()?.parse::<f64>().ok());
    spent.map_or_else(|| began.elapsed().as_secs_f64() * 1e3, |nanoseconds| nanoseconds / 1e6)
}

#[test]
#[ignore = "measures; run it in release with --ignored --nocapture"]
fn a_year_of_two_rooms_in_milliseconds() {
    let began = Instant::now();
    let weather = Invented::hours(8760);
    let mut best = f64::INFINITY;
    for round in 0..20 {
        let mut runner = Runner::new(plant(), &[Temperatures::even(20.0); 2]).unwrap();
        let before = milliseconds(began);
        runner.advance(&weather, weather.steps()).unwrap();
        best = best.min(milliseconds(began) - before);
        let run = runner.run();
        if round == 0 {
            println!("{} stretches, residual {:e}", run.stretches, run.residual());
            for unit in &run.units {
                println!("{} starts, {:.0} h", unit.starts, unit.seconds / 3600.0);
            }
        }
    }
    let before = milliseconds(began);
    let steps = (0..weather.steps()).flat_map(|step| [(step, 0), (step, 1)]);
    let sum: f64 = steps.map(|(step, room)| weather.boundary(step, room, 30.0).air_source).sum();
    let surroundings = milliseconds(began) - before;
    println!("best of 20: {best:.2} ms, of it the surroundings {surroundings:.2} ms ({sum:.0})");
}
