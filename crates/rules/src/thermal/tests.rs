//! The engine against what must hold whatever the plant: heat closes, equal rooms stay equal, more never does less.

use proptest::prelude::*;

use super::sample_year::{Invented, plant, steady_map};
use super::{Boundary, Duty, Fault, Input, Mover, Plant, Room, Run, Runner, Surroundings, Temperatures, Unit, Watch};

/// The same hour again and again.
struct Steady {
    hours: usize,
    seconds: f64,
    outside: f64,
    boundary: Boundary,
}

impl Steady {
    fn of(hours: usize, outside: f64, conductance: f64) -> Self {
        let boundary =
            Boundary { air_source: conductance * outside, air_conductance: conductance, ..Boundary::default() };
        Self { hours, seconds: 3600.0, outside, boundary }
    }
}

impl Surroundings for Steady {
    fn steps(&self) -> usize {
        self.hours
    }

    fn step_seconds(&self) -> f64 {
        self.seconds
    }

    fn outside(&self, _step: usize) -> f64 {
        self.outside
    }

    fn boundary(&self, _step: usize, _room: usize, _inside_air: f64) -> Boundary {
        self.boundary
    }
}

fn room(heat: f64) -> Room {
    Room { air_capacity: 30e3, mass_capacity: 300e3, exchange: 50.0, heat_to_air: heat, heat_to_mass: 0.0 }
}

fn conditioner(room: usize, heat: f64) -> Unit {
    Unit {
        room,
        duty: Duty::Cools { on: 35.0, off: 30.0, least_off: 180.0 },
        mover: Mover::Map { map: steady_map(heat, -0.01, 35.0), share: 1.0 },
        input: Input::Constant(0.4 * heat),
        input_inside: false,
    }
}

fn one_room(heat: f64, units: Vec<Unit>) -> Plant {
    Plant { rooms: vec![room(heat)], divider: 0.0, units }
}

/// Runs a plant to the end of the surroundings.
fn check<S: Surroundings>(plant: Plant, start: f64, surroundings: &S) -> Result<Run, Fault> {
    let rooms = plant.rooms.len();
    let mut runner = Runner::new(plant, &vec![Temperatures::even(start); rooms])?;
    runner.advance(surroundings, surroundings.steps())?;
    Ok(runner.into_run())
}

fn highest(run: &Run, room: usize) -> f64 {
    run.rooms[room].highest.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}

#[test]
fn comes_to_rest_where_heat_in_is_heat_out() {
    // 300 W over 12 W/K: 25 K above outdoor air.
    let run = check(one_room(300.0, Vec::new()), 20.0, &Steady::of(500, 10.0, 12.0)).unwrap();
    assert!((run.rooms[0].end[499] - 35.0).abs() < 1e-9, "{}", run.rooms[0].end[499]);
    assert!(run.residual().abs() < 1e-12);
}

#[test]
fn the_length_of_a_step_changes_nothing_while_the_surroundings_stand_still() {
    let hours = 24 * 200;
    let mut whole = Invented::hours(hours);
    whole.films = false;
    let mut parts = Invented::hours(hours);
    (parts.films, parts.parts) = (false, 6);
    let (whole, parts) = (check(plant(), 20.0, &whole).unwrap(), check(plant(), 20.0, &parts).unwrap());
    for hour in 0..hours {
        for room in 0..2 {
            let (a, b) = (whole.rooms[room].end[hour], parts.rooms[room].end[6 * hour + 5]);
            assert!((a - b).abs() < 1e-5, "room {room}, end of hour {hour}: {a} and {b}");
            let sixths = parts.rooms[room].highest[6 * hour..][..6].iter().copied().fold(f64::NEG_INFINITY, f64::max);
            let highest = whole.rooms[room].highest[hour];
            assert!((highest - sixths).abs() < 1e-5, "room {room}, highest of hour {hour}: {highest} and {sixths}");
        }
    }
    for (whole, parts) in whole.units.iter().zip(&parts.units) {
        assert_eq!(whole.starts, parts.starts);
        assert!((whole.heat - parts.heat).abs() <= 1e-6 * whole.heat, "{} and {}", whole.heat, parts.heat);
    }
}

#[test]
fn half_the_step_moves_the_peak_by_less_than_a_twentieth_of_a_kelvin() {
    let hours = 24 * 365;
    let whole = Invented::hours(hours);
    let mut half = Invented::hours(hours);
    half.parts = 2;
    // Without conditioners the peak is not what a thermostat allows.
    let mut plant = plant();
    plant.units.truncate(1);
    let (whole, half) = (check(plant.clone(), 20.0, &whole).unwrap(), check(plant, 20.0, &half).unwrap());
    for room in 0..2 {
        let (a, b) = (highest(&whole, room), highest(&half, room));
        println!("room {room}: {a} and {b}");
        assert!((a - b).abs() < 0.05, "room {room}: {a} and {b}");
    }
}

#[test]
fn heat_closes_over_a_year() {
    let run = check(plant(), 20.0, &Invented::hours(8760)).unwrap();
    assert!(run.residual().abs() < 1e-10, "{}", run.residual());
    let across = run.rooms[0].divider + run.rooms[1].divider;
    assert!(across.abs() < 1e-9 * run.rooms[0].divider.abs(), "{across}");
    assert!(run.units.iter().all(|unit| unit.refused == 0));
    assert!(run.units[1].starts > 100 && run.units[3].starts > 100);
}

#[test]
fn a_unit_waits_its_least_off_time() {
    let mut unit = conditioner(0, 3000.0);
    let steady = Steady::of(24, 40.0, 10.0);
    let starts = |unit: &Unit| check(one_room(600.0, vec![unit.clone()]), 34.0, &steady).unwrap().units[0].starts;
    let quick = starts(&unit);
    unit.duty = Duty::Cools { on: 35.0, off: 30.0, least_off: 1800.0 };
    let slow = starts(&unit);
    assert!(slow <= 48 && slow < quick, "{slow} and {quick}");
    let run = check(one_room(600.0, vec![unit]), 34.0, &steady).unwrap();
    assert!(run.units[0].most_starts <= 2, "{}", run.units[0].most_starts);
    assert!(highest(&run, 0) > 35.1, "the air rises on while the unit waits: {}", highest(&run, 0));
}

#[test]
fn outside_its_map_a_unit_stands_still_and_it_is_counted() {
    // The map of the conditioner ends at 55 °C outside.
    let mut plant = plant();
    plant.units.truncate(2);
    let run = check(plant.clone(), 40.0, &Steady::of(5, 56.0, 10.0)).unwrap();
    assert_eq!((run.units[1].refused, run.units[1].seconds), (5, 0.0));
    // And at 50 °C inside: what is hotter at the start stays uncooled.
    let run = check(plant, 52.0, &Steady::of(3, 54.0, 10.0)).unwrap();
    assert_eq!((run.units[1].refused, run.units[1].seconds), (3, 0.0));
}

#[test]
fn the_lower_edge_of_a_map_does_not_make_a_unit_switch_for_ever() {
    let mut plant = plant();
    plant.units.truncate(2);
    // Kept running below 20 °C, where its map ends.
    plant.units[1].duty = Duty::Cools { on: 21.0, off: 10.0, least_off: 0.0 };
    let run = check(plant, 25.0, &Steady::of(24, 15.0, 10.0)).unwrap();
    assert!(run.units[1].refused > 0);
    let lowest = run.rooms[0].lowest.iter().copied().fold(f64::INFINITY, f64::min);
    assert!((19.9..=20.1).contains(&lowest), "{lowest}");
}

#[test]
fn nothing_that_takes_heat_out_runs_away_and_says_so() {
    let sealed = Steady::of(8760, 20.0, 0.0);
    let refused = check(one_room(100.0, Vec::new()), 20.0, &sealed).unwrap_err();
    assert!(matches!(refused, Fault::Runaway { room: 0, air, .. } if air > 200.0), "{refused:?}");
    assert!(refused.to_string().contains("beyond −90 to 200 °C"), "{refused}");
    // Without heat it stays as it is.
    let run = check(one_room(0.0, Vec::new()), 20.0, &sealed).unwrap();
    assert_eq!((run.rooms[0].end[8759], run.residual()), (20.0, 0.0));
}

#[test]
fn no_exchange_with_the_mass_leaves_it_alone() {
    let mut plant = one_room(100.0, Vec::new());
    plant.rooms[0].exchange = 0.0;
    let run = check(plant, 20.0, &Steady::of(48, 10.0, 10.0)).unwrap();
    assert_eq!(run.rooms[0].mass_end[47], 20.0);
    assert!((run.rooms[0].end[47] - 20.0).abs() < 1e-9);
}

#[test]
fn what_makes_no_sense_is_refused_with_what_is_allowed() {
    let steady = Steady::of(1, 20.0, 10.0);
    let says = |plant: Plant, expected: &str| {
        let said = check(plant, 20.0, &steady).unwrap_err().to_string();
        assert!(said.contains(expected), "{said}");
    };
    let with = |change: &dyn Fn(&mut Plant)| {
        let mut plant = one_room(100.0, vec![conditioner(0, 500.0)]);
        change(&mut plant);
        plant
    };
    says(with(&|plant| plant.rooms[0].air_capacity = 0.0), "heat capacity of the air of room 1 is 0, allowed is");
    says(with(&|plant| plant.rooms[0].exchange = f64::NAN), "exchange between air and mass of room 1 is NaN");
    says(with(&|plant| plant.rooms[0].heat_to_air = f64::INFINITY), "heat into the air of room 1 is inf");
    says(with(&|plant| plant.rooms.clear()), "number of rooms of the plant is 0, allowed is 1 or 2");
    says(with(&|plant| plant.divider = -1.0), "conductance of the divider of the plant is -1");
    says(with(&|plant| plant.units[0].room = 1), "room of unit 1 is 1");
    says(
        with(&|plant| (plant.units[0].mover, plant.units[0].input) = (Mover::Linear(1.0), Input::OfMap)),
        "input of unit 1",
    );
    says(
        with(&|plant| plant.units[0].duty = Duty::Cools { on: 30.0, off: 35.0, least_off: 0.0 }),
        "off temperature of unit 1 is 35, allowed is at least 0.1 K below the on temperature",
    );
    let mut bad = Steady::of(1, 20.0, 10.0);
    bad.boundary.air_conductance = -1.0;
    let said = check(one_room(1.0, Vec::new()), 20.0, &bad).unwrap_err().to_string();
    assert!(said.contains("conductance of the air of room 1 is -1 in step 0, allowed is 0 or more"), "{said}");
    let said = check(one_room(1.0, Vec::new()), 20.0, &Steady::of(1, f64::NAN, 10.0)).unwrap_err().to_string();
    assert!(said.contains("outdoor air is NaN"), "{said}");
}

#[test]
fn a_plant_that_switches_without_end_is_given_up() {
    let mut plant = one_room(5e3, vec![conditioner(0, 2e4)]);
    plant.rooms[0].air_capacity = 1.0;
    plant.units[0].duty = Duty::Cools { on: 30.1, off: 30.0, least_off: 0.0 };
    let refused = check(plant, 30.0, &Steady::of(1, 20.0, 1.0)).unwrap_err();
    assert!(matches!(refused, Fault::Restless { .. }), "{refused:?}");
}

#[test]
fn a_watched_limit_is_met_to_the_second() {
    // Without mass and loss: 100 W into 30 kJ/K, 10 K in 3000 s.
    let mut plant = one_room(100.0, Vec::new());
    plant.rooms[0].exchange = 0.0;
    let minutes = Steady { seconds: 60.0, ..Steady::of(600, 20.0, 0.0) };
    let mut runner = Runner::new(plant, &[Temperatures::even(20.0)]).unwrap();
    runner.watch(Watch::rises_to(30.0, 0));
    runner.watch(Watch::rises_to(300.0, 0));
    let met = runner.until_met(&minutes).unwrap().unwrap();
    assert!((met.met_at.unwrap() - 3000.0).abs() < 1e-6, "{met:?}");
    assert_eq!((met.limit, runner.step()), (30.0, 50));
    // What holds already is met at once.
    let mut runner = Runner::new(one_room(0.0, Vec::new()), &[Temperatures::even(20.0)]).unwrap();
    runner.watch(Watch::rises_to(15.0, 0));
    assert_eq!(runner.until_met(&minutes).unwrap().unwrap().met_at, Some(0.0));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn equal_rooms_stay_equal(heat in 0.0..800.0, divider in 0.0..60.0, capacity in 200.0..2000.0, outside in -30.0..45.0) {
        // Thermostats may part equal rooms by and by, as a pencil on its tip falls: hence a few hours only.
        let units = vec![conditioner(0, capacity), conditioner(1, capacity)];
        let exchangers = [0, 1].map(|room| Unit { duty: Duty::Cools { on: -80.0, off: -90.0, least_off: 0.0 }, mover: Mover::Linear(30.0), ..conditioner(room, 0.0) });
        for (hours, units) in [(4, units), (96, exchangers.to_vec())] {
            let plant = Plant { rooms: vec![room(heat); 2], divider, units };
            let run = check(plant, 25.0, &Steady::of(hours, outside, 8.0)).unwrap();
            for (a, b) in run.rooms[0].end.iter().zip(&run.rooms[1].end) {
                prop_assert!((a - b).abs() < 1e-6, "{} and {}", a, b);
            }
            prop_assert!(run.rooms[0].divider.abs() < 1e-2, "{} J", run.rooms[0].divider);
        }
    }

    #[test]
    fn heat_closes_and_no_unit_runs_below_its_off_temperature(
        heats in [0.0..1500.0, 0.0..1500.0],
        air in 2e3..200e3,
        divider in 0.0..100.0,
        exchange in 0.0..150.0,
        capacity in 0.0..3000.0,
        season in 0_usize..8000,
    ) {
        let mut plant = plant();
        for (room, heat) in plant.rooms.iter_mut().zip(heats) {
            (room.heat_to_air, room.air_capacity, room.exchange) = (heat, air, exchange);
        }
        plant.divider = divider;
        plant.units[3] = conditioner(1, capacity);
        let weather = Invented::hours(season + 120);
        let late = From { first: season, of: weather };
        let run = match check(plant, 20.0, &late) {
            Ok(run) => run,
            // Too much heat for what takes it out is a finding, not a failure.
            Err(Fault::Runaway { .. }) => return Ok(()),
            Err(other) => return Err(TestCaseError::fail(other.to_string())),
        };
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
        // While one ran at the lowest air of a step, that air was not below where it stops.
        for (unit, off) in [(1, 30.0), (3, 30.0)] {
            let room = usize::from(unit == 3);
            for (duty, low) in run.units[unit].duty.iter().zip(&run.rooms[room].lowest) {
                prop_assert!(*duty < 1.0 - 1e-9 || *low > off - 1e-6, "{} at {}", duty, low);
            }
        }
    }

    #[test]
    fn more_device_heat_never_lowers_the_highest_air(heat in 0.0..900.0, more in 0.0..300.0, divider in 0.0..40.0) {
        let plant = |heat| Plant { rooms: vec![room(heat), room(200.0)], divider, units: Vec::new() };
        let weather = Invented::hours(240);
        let (less, more) = (check(plant(heat), 10.0, &weather).unwrap(), check(plant(heat + more), 10.0, &weather).unwrap());
        for room in 0..2 {
            prop_assert!(highest(&more, room) >= highest(&less, room) - 1e-9);
        }
    }

    #[test]
    fn more_cooling_never_raises_the_highest_air(capacity in 0.0..600.0, more in 0.0..600.0, outside in 20.0..45.0) {
        // Under steady surroundings the highest air is that of the start, of the thermostat, or of a unit too small.
        let steady = Steady::of(96, outside, 8.0);
        let run = |capacity| check(one_room(500.0, vec![conditioner(0, capacity)]), 30.0, &steady).unwrap();
        let (less, more) = (run(capacity), run(capacity + more));
        // Least off time lets the air rise on for a while after a stop: 180 s at 500 W and 8 W/K of 30 kJ/K.
        let waited = 180.0 * (500.0 + 8.0 * (outside - 30.0)) / 30e3;
        prop_assert!(highest(&more, 0) <= highest(&less, 0).max(30.0 + waited) + 1e-6);
    }
}

/// Weather from an hour on.
struct From {
    first: usize,
    of: Invented,
}

impl Surroundings for From {
    fn steps(&self) -> usize {
        self.of.steps() - self.first
    }

    fn step_seconds(&self) -> f64 {
        self.of.step_seconds()
    }

    fn outside(&self, step: usize) -> f64 {
        self.of.outside(step + self.first)
    }

    fn boundary(&self, step: usize, room: usize, inside_air: f64) -> Boundary {
        self.of.boundary(step + self.first, room, inside_air)
    }
}
