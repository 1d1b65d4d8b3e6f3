//! A year by cycles against the same year solved exactly.

use proptest::prelude::*;

use super::sample_year::{Invented, light, plant};
use super::{Duty, Plant, Run, Runner, Surroundings, Temperatures, Watch};

fn runner(plant: &Plant, gathers: bool) -> Runner {
    let mut runner = Runner::new(plant.clone(), &vec![Temperatures::even(20.0); plant.rooms.len()]).unwrap();
    if gathers {
        runner.gather_cycles();
    }
    runner
}

fn run(plant: &Plant, weather: &Invented, gathers: bool) -> Run {
    let mut runner = runner(plant, gathers);
    runner.advance(weather, weather.steps()).unwrap();
    runner.into_run()
}

fn highest(run: &Run, room: usize) -> f64 {
    run.rooms[room].highest.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}

fn lowest(run: &Run, room: usize) -> f64 {
    run.rooms[room].lowest.iter().copied().fold(f64::INFINITY, f64::min)
}

/// What two runs come to, within 1 % where units cycle and within so many K.
fn check(name: &str, found: &Run, expected: &Run, kelvin: f64) {
    for (number, (unit, exact)) in found.units.iter().zip(&expected.units).enumerate() {
        let both = [
            ("starts", f64::from(unit.starts), f64::from(exact.starts)),
            ("seconds", unit.seconds, exact.seconds),
            ("heat", unit.heat, exact.heat),
            ("electricity", unit.electricity, exact.electricity),
        ];
        for (what, found, expected) in both {
            println!("{name}, unit {number}: {what} {found} and {expected}");
            assert!(
                (found - expected).abs() <= 0.01 * expected,
                "{name}, {what} of unit {number}: {found}, {expected}"
            );
        }
        // A cycle more or less falls into an hour.
        assert!(unit.most_starts.abs_diff(exact.most_starts) <= 1, "{name}: {} starts", unit.most_starts);
        assert_eq!(unit.refused, exact.refused, "{name}");
        assert!(unit.duty.iter().all(|duty| (0.0..=1.0 + 1e-9).contains(duty)), "{name}");
    }
    for room in 0..found.rooms.len() {
        let mean = |run: &Run| run.rooms[room].mean.iter().sum::<f64>() / run.rooms[room].mean.len() as f64;
        let all = [
            ("mean", mean(found), mean(expected)),
            ("highest", highest(found, room), highest(expected, room)),
            ("lowest", lowest(found, room), lowest(expected, room)),
        ];
        for (what, found, expected) in all {
            println!("{name}, room {room}: {what} {found} and {expected}");
            assert!((found - expected).abs() < kelvin, "{name}, {what} of room {room}: {found} and {expected}");
        }
    }
    assert!(found.residual().abs() < 1e-9, "{name}: {}", found.residual());
}

fn plants() -> Vec<(&'static str, Plant)> {
    let mut heavy = plant();
    for room in &mut heavy.rooms {
        room.air_capacity = 80e3;
    }
    let mut one = light();
    one.rooms.truncate(1);
    one.units.truncate(2);
    let mut without_wait = light();
    for unit in &mut without_wait.units {
        if let Duty::Cools { least_off, .. } = &mut unit.duty {
            *least_off = 0.0;
        }
    }
    let mut open = light();
    open.divider = 6.0;
    vec![
        ("two rooms", plant()),
        ("heavy air", heavy),
        ("light masses", light()),
        ("one room", one),
        ("no wait", without_wait),
        ("a thin divider", open),
    ]
}

#[test]
fn a_year_by_cycles_comes_to_what_the_exact_year_comes_to() {
    let weather = Invented::hours(8760);
    for (name, plant) in plants() {
        // The exact highest air of a year is that of the worst moment of both rooms' cycles.
        let kelvin = if name == "a thin divider" { 0.2 } else { 0.05 };
        check(name, &run(&plant, &weather, true), &run(&plant, &weather, false), kelvin);
    }
}

#[test]
fn half_the_step_moves_peaks_and_sums_of_cycles_little() {
    let whole = Invented::hours(8760);
    let mut half = Invented::hours(8760);
    half.parts = 2;
    for (name, plant) in plants() {
        let (found, finer) = (run(&plant, &whole, true), run(&plant, &half, true));
        for (unit, finer) in found.units.iter().zip(&finer.units) {
            let off = (unit.heat - finer.heat).abs().max((unit.seconds - finer.seconds).abs());
            assert!(off <= 0.01 * finer.heat.max(finer.seconds), "{name}: {} and {}", unit.heat, finer.heat);
        }
        for room in 0..plant.rooms.len() {
            let (a, b) = (highest(&found, room), highest(&finer, room));
            println!("{name}, room {room}: {a} and {b}");
            assert!((a - b).abs() < 0.05, "{name}, room {room}: {a} and {b}");
        }
    }
}

#[test]
fn fast_cycles_are_hardly_more_work_than_none() {
    let weather = Invented::hours(8760);
    let (by_cycles, exact) = (run(&light(), &weather, true), run(&light(), &weather, false));
    println!("{} and {} stretches", by_cycles.stretches, exact.stretches);
    assert!(3 * by_cycles.stretches < exact.stretches, "{} of {}", by_cycles.stretches, exact.stretches);
}

#[test]
fn rooms_with_next_to_nothing_between_them_are_solved_exactly() {
    let mut plant = light();
    plant.divider = 40.0;
    let weather = Invented::hours(240);
    assert_eq!(run(&plant, &weather, true), run(&plant, &weather, false));
}

#[test]
fn pieces_of_a_year_by_cycles_are_the_year() {
    let weather = Invented::hours(2400);
    let whole = run(&light(), &weather, true);
    let mut pieces = runner(&light(), true);
    for piece in 1..=24 {
        pieces.advance(&weather, 100 * piece).unwrap();
    }
    assert_eq!(pieces.run(), &whole);
}

#[test]
fn a_watched_limit_is_met_when_it_is_met_exactly() {
    let weather = Invented::hours(4000);
    let met = |gathers: bool| {
        let mut runner = runner(&light(), gathers);
        runner.watch(Watch::rises_to(36.0, 0));
        runner.until_met(&weather).unwrap().unwrap().met_at
    };
    assert_eq!(met(true), met(false));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn heat_closes_and_no_unit_runs_longer_than_there_is_time(
        heats in [0.0..1500.0, 0.0..1500.0],
        air in 4e3..100e3,
        mass in 10e3..500e3,
        divider in 0.0..100.0,
        exchange in 0.0..150.0,
    ) {
        let mut plant = light();
        for (room, heat) in plant.rooms.iter_mut().zip(heats) {
            (room.heat_to_air, room.air_capacity, room.mass_capacity, room.exchange) = (heat, air, mass, exchange);
        }
        plant.divider = divider;
        let run = run(&plant, &Invented::hours(4800), true);
        prop_assert!(run.residual().abs() < 1e-9, "{}", run.residual());
        for unit in &run.units {
            prop_assert!(unit.duty.iter().all(|duty| (0.0..=1.0 + 1e-9).contains(duty)));
        }
        for room in &run.rooms {
            for step in 0..room.end.len() {
                let (low, high) = (room.lowest[step], room.highest[step]);
                prop_assert!(low <= room.end[step] && room.end[step] <= high);
                prop_assert!(low - 1e-9 <= room.mean[step] && room.mean[step] <= high + 1e-9);
            }
        }
    }
}
