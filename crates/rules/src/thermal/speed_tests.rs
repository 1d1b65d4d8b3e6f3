//! How long a year takes: printed, not asserted, as machines differ.

use std::time::Instant;

use super::sample_year::{Invented, plant};
use super::{Runner, Surroundings, Temperatures};

#[test]
#[ignore = "measures; run it in release with --ignored --nocapture"]
fn a_year_of_two_rooms_in_milliseconds() {
    let weather = Invented::hours(8760);
    let mut best = f64::INFINITY;
    for _ in 0..20 {
        let mut runner = Runner::new(plant(), &[Temperatures::even(20.0); 2]).unwrap();
        let began = Instant::now();
        runner.advance(&weather, weather.steps()).unwrap();
        best = best.min(began.elapsed().as_secs_f64() * 1e3);
        let run = runner.run();
        println!(
            "{best:.2} ms, {} stretches, starts {:?}, hours {:?}, residual {:e}",
            run.stretches,
            run.units.iter().map(|unit| unit.starts).collect::<Vec<_>>(),
            run.units.iter().map(|unit| (unit.seconds / 3600.0).round()).collect::<Vec<_>>(),
            run.residual(),
        );
    }
    let began = Instant::now();
    let mut sum = 0.0;
    for step in 0..weather.steps() {
        for room in 0..2 {
            sum += weather.boundary(step, room, 30.0).air_source;
        }
    }
    println!("of it the surroundings {:.2} ms ({sum:.0})", began.elapsed().as_secs_f64() * 1e3);
}
