//! Courses of a small cabinet: what is alike comes out alike, and more of one thing never does the contrary.

use catalogue::{AirDirection, Device, DeviceKind, Insulation, Mount, Range, ShieldCover, Trade};
use climate::WeatherYear;
use project::{Face, Installation, Insulated, Sun};
use proptest::prelude::*;
use units::{Celsius, CubicMetresPerHour, Degrees, Kelvins, Kilograms, Metres, Millimetres, Watts};

use super::days::{DAY_STEP_SECONDS, DAY_STEPS};
use super::envelope::{Envelope, Outdoors};
use super::prepared::site;
use super::*;
use crate::heat::testing::{Desk, device, rack};

mod missing;
mod weather;

fn climate(desk: &Desk) -> PreparedClimate {
    PreparedClimate::of(&desk.project.brief, None).unwrap()
}

fn course(desk: &Desk) -> Course {
    let climate = climate(desk);
    desk.with(|case| run(case, &climate)).unwrap()
}

/// Highest air of each room in the settled hot day, °C.
fn peak(desk: &Desk) -> f64 {
    let climate = climate(desk);
    let runner = desk.with(|case| Runner::new(case, &climate)).unwrap();
    runner.hot_day().highest.iter().filter_map(|room| room.range()).map(|(_, high)| high).fold(f64::MIN, f64::max)
}

fn warm(watts: f64) -> Device {
    Device { power: Watts(watts), inlet_max: Some(Celsius(55.0)), inlet_min: Some(Celsius(0.0)), ..device(1) }
}

fn desk(watts: f64) -> Desk {
    let mut desk = Desk::new();
    desk.add(warm(watts), rack(0, 10));
    desk
}

fn insulate(desk: &mut Desk, thickness: f64) {
    let foam = Insulation {
        name: "Foam".to_owned(),
        density: 30.0,
        conductivity: 0.026,
        thickness: Range { from: 0.0, to: 100.0 },
        trade: Trade::default(),
    };
    desk.catalogue.insulations.insert("foam".into(), foam);
    for face in Face::ALL {
        *desk.project.build.insulation.get_mut(face) =
            Some(Insulated { part: "foam".into(), thickness: Millimetres(thickness) });
    }
}

fn absorptance(desk: &mut Desk, absorptance: f64) {
    for paint in desk.catalogue.paints.values_mut() {
        paint.absorptance = absorptance;
    }
}

/// Sun that comes in over the hot day with the inside 15 K warmer than outdoors, J.
fn sun_gain(desk: &Desk, climate: &PreparedClimate) -> f64 {
    let envelope = desk.with(|case| Envelope::of(case, climate)).unwrap();
    let outdoors = Outdoors::once(&envelope, &climate.hot_day, DAY_STEP_SECONDS);
    let of = |step: usize| outdoors.through(step, 0, climate.hot_day[step].outside + 15.0).sun;
    (0..DAY_STEPS).map(|step| of(step) * DAY_STEP_SECONDS).sum()
}

#[test]
fn a_year_is_closed_in_energy_and_its_peak_adds_up() {
    let mut desk = desk(300.0);
    desk.exchanger(30.0, 0);
    desk.heater(400.0, 0);
    let found = course(&desk);
    assert!(found.residual.abs() < 1e-6, "{}", found.residual);
    let Peak { hour, devices, sun, envelope, divider, units, .. } = found.peaks[0];
    // What is left for the envelope is what passes through it at that hour's mean air, reckoned by itself. The run took films
    // for the air it expected.
    let climate = climate(&desk);
    let outdoors = desk.with(|case| Envelope::of(case, &climate)).unwrap();
    let outdoors = Outdoors::once(&outdoors, &climate.year, 3600.0);
    let air = found.year.air[0].at(hour as usize).unwrap();
    let through = outdoors.through(hour as usize, 0, air);
    let lost = through.conductance * (air - climate.year[hour as usize].outside);
    assert!((envelope - (through.gain - through.sun - lost)).abs() < 1.0, "{envelope} {through:?} {lost}");
    assert!((sun - through.sun).abs() < 0.5, "{sun} {through:?}");
    assert!(devices == 300.0 && sun > 0.0 && units < 0.0 && divider == 0.0, "{:?}", found.peaks);
    assert_eq!((found.year.air[0].len(), found.year.duty.len()), (8760, 2));
    assert!(found.room_years[0].hours_above.is_some());
    assert_eq!(found.room_years[0].devices.len(), 1);
    assert_eq!(found.rooms[0].hot_device, Some(found.room_years[0].devices[0].id));
}

#[test]
fn the_electricity_of_the_months_adds_up_to_that_of_the_year() {
    let mut desk = desk(300.0);
    desk.conditioner(1000.0, 0);
    desk.heater(400.0, 0);
    let found = course(&desk);
    for (unit, year) in found.units.iter().zip(&found.unit_years) {
        let months = year.electricity_by_month;
        assert!(year.electricity > 1.0, "{} never ran", unit.name);
        assert!(months.iter().all(|month| *month >= 0.0), "{}: {months:?}", unit.name);
        let sum: f64 = months.iter().sum();
        assert!((sum / year.electricity - 1.0).abs() < 1e-12, "{}: {sum} {}", unit.name, year.electricity);
    }
    assert!((found.electricity_by_month().iter().sum::<f64>() / found.electricity() - 1.0).abs() < 1e-12);
    // A heater draws its 0.4 kW whenever it runs, so its months follow from the hours it ran in each.
    for (month, used) in ::climate::MONTHS.into_iter().zip(found.unit_years[1].electricity_by_month) {
        let ran: f64 = month.hours().filter_map(|hour| found.year.duty[1].at(hour)).sum();
        assert!((used - 0.4 * ran).abs() < 1e-3, "{}: {used} kWh in {ran} h", month.name);
    }
    let cooled = found.unit_years[0].electricity_by_month;
    assert!(cooled[6] > cooled[0], "July cools less than January: {cooled:?}");
}

#[test]
fn a_year_of_guessed_months_has_the_design_temperatures_and_those_months() {
    for (latitude, hottest, coldest, range) in [
        (40.0, 46.0, -20.0, 14.0),
        (-34.0, 43.3, 1.0, 11.0),
        (64.0, 30.0, -51.0, 8.0),
        (2.0, 35.0, 12.0, 8.0),
        (25.0, 55.0, 0.0, 20.0),
        (50.0, 20.0, -20.0, 0.0),
    ] {
        let mut desk = desk(100.0);
        let brief = &mut desk.project.brief;
        (brief.latitude, brief.daily_range) = (Degrees(latitude), Kelvins(range));
        (brief.hottest, brief.coldest) = (Celsius(hottest), Celsius(coldest));
        let outside: Vec<f64> = climate(&desk).year.iter().map(|moment| moment.outside).collect();
        let (low, high) = outside.iter().fold((f64::MAX, f64::MIN), |(low, high), air| (low.min(*air), high.max(*air)));
        assert!((low - coldest).abs() < 0.006 && (high - hottest).abs() < 0.006, "{latitude}: {low} to {high}");
        let guessed = project::MonthlyMeans::guessed(&desk.project.brief).0;
        for (found, month) in ::climate::monthly_means(&outside).unwrap().iter().zip(guessed) {
            assert!((found - month.air.0).abs() < 0.051, "{latitude}: {found} instead of {:?}", month.air);
        }
    }
}

#[test]
fn pieces_make_the_same_course_as_the_whole() {
    let desk = desk(300.0);
    let climate = climate(&desk);
    desk.with(|case| {
        let mut runner = Runner::new(case, &climate).unwrap();
        let mut last = 0.0;
        loop {
            let done = runner.advance(777).unwrap();
            assert!(done > last && done <= 1.0);
            last = done;
            if done >= 1.0 {
                break;
            }
        }
        assert_eq!(runner.finish(case).unwrap(), run(case, &climate).unwrap());
        let unfinished = Runner::new(case, &climate).unwrap().finish(case).unwrap_err();
        assert_eq!(unfinished.to_string(), "year: 0 hours done; allowed: 8760 hours");
    });
}

#[test]
fn two_equal_bays_are_equally_warm() {
    let mut desk = Desk::two_bays();
    desk.project.brief.installation = Installation::MiddleOfRow;
    desk.add(warm(200.0), rack(0, 10));
    desk.add(warm(200.0), rack(1, 10));
    let found = course(&desk);
    assert_eq!(found.rooms.len(), 2);
    for step in (0..8760).step_by(97) {
        let [a, b] = [0, 1].map(|room| found.year.air[room].at(step).unwrap());
        assert!((a - b).abs() < 1e-4, "{step}: {a} {b}");
    }
    assert!(found.peaks[0].divider.abs() < 1e-6);
}

#[test]
fn a_cabinet_turned_round_sees_the_sun_on_its_other_faces() {
    let mut south = desk(0.0);
    south.project.brief.bearing = Degrees(180.0);
    let mut north = desk(0.0);
    north.project.brief.bearing = Degrees(0.0);
    let (south, north) = (climate(&south), climate(&north));
    for (a, b) in south.year.iter().zip(&north.year).chain(south.hot_day.iter().zip(&north.hot_day)) {
        for (face, other) in [(0, 1), (1, 0), (2, 3), (3, 2), (4, 4)] {
            assert!((a.on_face(face) - b.on_face(other)).abs() < 1e-9);
        }
    }
}

#[test]
fn the_other_half_of_the_earth_mirrors_the_faces() {
    let at = |latitude: f64, bearing: f64| {
        let mut desk = desk(0.0);
        desk.project.brief.latitude = Degrees(latitude);
        desk.project.brief.longitude = Degrees(0.0);
        desk.project.brief.utc_offset = 0.0;
        desk.project.brief.bearing = Degrees(bearing);
        climate(&desk)
    };
    // Facing the noon sun in either: east is on the right in the north, on the left in the south.
    let (north, south) = (at(35.0, 180.0), at(-35.0, 0.0));
    for (face, other) in [(0, 0), (1, 1), (2, 3), (3, 2), (4, 4)] {
        let sum =
            |climate: &PreparedClimate, face| climate.hot_day.iter().map(|moment| moment.on_face(face)).sum::<f64>();
        let (a, b) = (sum(&north, face), sum(&south, other));
        // In January the sun is 3 % nearer, 7 % brighter than in July.
        assert!((a / b - 0.93).abs() < 0.05, "{face}: {a} {b}");
    }
}

#[test]
fn a_shield_helps_and_none_is_a_gap_of_nothing() {
    let mut bare = desk(200.0);
    absorptance(&mut bare, 0.9);
    let mut shielded = bare.clone();
    shielded.shield(ShieldCover::Full, 40.0);
    let mut closed = bare.clone();
    closed.shield(ShieldCover::Full, 0.0);
    let (bare, shielded, closed) = (peak(&bare), peak(&shielded), peak(&closed));
    assert!(shielded < bare - 2.0, "{bare} {shielded}");
    // The roof still reaches out by 50 mm.
    assert!((closed - bare).abs() < 0.5, "{bare} {closed}");
}

#[test]
fn in_the_shade_there_is_no_beam() {
    let mut sunny = desk(200.0);
    let climate = climate(&sunny);
    let sun = sun_gain(&sunny, &climate);
    sunny.project.brief.sun = Sun::Shade;
    let shade = sun_gain(&sunny, &climate);
    assert!(shade > 0.0 && shade < 0.5 * sun, "{shade} {sun}");
}

#[test]
fn hours_beyond_a_map_are_counted_of_units_by_a_law_and_by_a_map_too() {
    // Maps: 20 to 60 °C inside and −20 to 50 °C outside, by a law; 20 to 50 °C inside and outside, read point by point.
    let beyond = |desk: &Desk| course(desk).unit_years[0].hours_beyond_map;
    let mut mild = desk(600.0);
    mild.project.brief.coldest = Celsius(-15.0);
    mild.exchanger(30.0, 0);
    assert_eq!(beyond(&mild), 0);
    let mut hot = desk(600.0);
    hot.project.brief.coldest = Celsius(-15.0);
    hot.exchanger(5.0, 0);
    let found = course(&hot);
    let warmer = found.year.highest[0].0.iter().filter(|air| **air > 60.0).count();
    assert!(warmer > 0);
    assert_eq!(found.unit_years[0].hours_beyond_map as usize, warmer);
    let mut weak = desk(900.0);
    weak.project.brief.coldest = Celsius(21.0);
    weak.conditioner(10.0, 0);
    assert!(beyond(&weak) > 0);
}

#[test]
fn the_hot_day_of_a_heavy_cabinet_is_settled_too() {
    // 2 t of batteries behind 60 mm of foam: a day takes a fifth of the way.
    let mut heavy = desk(60.0);
    insulate(&mut heavy, 60.0);
    let batteries = Device { kind: DeviceKind::Battery, mass: Some(Kilograms(2000.0)), ..device(8) };
    heavy.add(batteries, rack(0, 20));
    let climate = climate(&heavy);
    heavy.with(|case| {
        let envelope = Envelope::of(case, &climate).unwrap();
        let load = super::interior::Load::On(crate::heat::heat_sources::Draw::Most);
        let rooms = super::interior::rooms(case, load, &[], climate.pressure);
        let outdoors = Outdoors::once(&envelope, &climate.hot_day, DAY_STEP_SECONDS).from(0, 200 * DAY_STEPS, 1);
        let plant = crate::thermal::Plant { rooms, divider: 0.0, units: vec![] };
        let mut engine = crate::thermal::Runner::new(plant, &[crate::thermal::Temperatures::even(40.0)]).unwrap();
        engine.advance(&outdoors, usize::MAX).unwrap();
        let last = engine.run().rooms[0].mean.last().copied().unwrap();
        let settled = Runner::new(case, &climate).unwrap().hot_day().air[0].at(DAY_STEPS - 1).unwrap();
        assert!((settled - last).abs() < 0.06, "{settled} and after 200 days {last}");
    });
}

#[test]
fn nothing_sets_a_limit_nothing_is_reckoned() {
    let mut desk = Desk::new();
    desk.add(Device { power: Watts(100.0), ..device(1) }, rack(0, 3));
    let found = course(&desk);
    assert_eq!((found.door_open.because.as_str(), found.door_open.minutes), ("no limit is set", None));
    assert_eq!(found.room_years[0].hours_above, None);
}

#[test]
fn an_empty_cabinet_has_a_course_too() {
    let found = course(&Desk::new());
    assert!(found.residual.abs() < 1e-6 && found.units.is_empty());
}

#[track_caller]
fn refused(desk: &Desk, weather: Option<&WeatherYear>, says: &str) {
    let said = PreparedClimate::of(&desk.project.brief, weather)
        .and_then(|climate| desk.with(|case| run(case, &climate)))
        .map_or_else(|problem| problem.to_string(), |_| "a course".to_owned());
    assert!(said.contains(says), "{said}");
}

#[test]
fn says_so_outside_its_range() {
    let mut high = desk(10.0);
    high.project.brief.elevation = Metres(3500.0);
    refused(&high, None, "sites above");
    let mut nowhere = desk(10.0);
    nowhere.project.brief.latitude = Degrees(90.5);
    refused(&nowhere, None, "latitude: 90.5°; allowed: -90° to 90°");
    let mut bearing = desk(10.0);
    bearing.project.brief.bearing = Degrees(f64::NAN);
    refused(&bearing, None, "bearing");
    let mut unknown = desk(10.0);
    unknown.catalogue.paints.clear();
    refused(&unknown, None, "not in this catalogue");
    let mut thin = desk(10.0);
    thin.project.brief.elevation = Metres(2900.0);
    thin.conditioner(1000.0, 0);
    for unit in thin.catalogue.units.values_mut() {
        unit.altitude_loss_per_metre = 1.0 / 2800.0;
    }
    refused(&thin, None, "has nothing left at");
    refused(&desk(5000.0), None, "inside air: 205 °C; allowed: up to 100 °C");
    refused(&desk(1200.0), None, "allowed: up to 100 °C");
    let polar = |latitude: f64| {
        let mut desk = desk(100.0);
        desk.project.brief.latitude = Degrees(latitude);
        desk
    };
    for latitude in [90.0, -90.0, 0.0] {
        refused(&polar(latitude), None, "a course");
    }
}

#[test]
fn weather_beyond_the_method_is_refused_with_its_hour() {
    let desk = desk(10.0);
    let mut weather = WeatherYear {
        name: "Made up".to_owned(),
        site: site(&desk.project.brief),
        hours: vec![
            climate::Hour { dry_bulb: 20.0, relative_humidity: 0.5, pressure: 1e5, ..climate::Hour::default() };
            8760
        ],
        sun_at: 0.5,
        notes: vec![],
    };
    refused(&desk, Some(&weather), "a course");
    weather.hours[30].dry_bulb = 61.0;
    refused(&desk, Some(&weather), "outdoor air, 2 January, 6 to 7 h: 61 °C; allowed: −60 to 60 °C");
    weather.hours.pop();
    refused(&desk, Some(&weather), "weather: 8759 hours");
}

#[test]
fn a_course_of_another_brief_is_refused() {
    let (one, mut other) = (desk(10.0), desk(10.0));
    let climate = climate(&one);
    other.project.brief.hottest = Celsius(41.0);
    let said = other.with(|case| run(case, &climate)).unwrap_err();
    assert_eq!(said.place, "climate");
    other.project.brief = one.project.brief.clone();
    other.project.brief.keep_above = Celsius(7.0);
    assert!(climate.suits(&other.project.brief));
}

#[test]
fn the_law_of_the_shipped_fans_and_exchangers_is_that_of_their_maps() {
    let catalogue = catalogue::sample();
    let mut found = 0;
    for unit in catalogue.units.values() {
        let linear = super::duty::conductance(unit);
        let airs = matches!(unit.sort, catalogue::UnitSort::FilterFan | catalogue::UnitSort::Exchanger);
        assert_eq!(linear.is_some(), airs, "{}", unit.name);
        let Some(k) = linear else { continue };
        found += 1;
        for rated in &unit.rated {
            let law = k * (rated.inside.0 - rated.outside.0);
            assert!((law / rated.capacity.0 - 1.0).abs() < 0.01, "{}: {law}", unit.name);
        }
    }
    assert!(found >= 10);
}

#[test]
fn free_cooling_comes_first_and_nothing_cools_while_it_heats() {
    let mut desk = desk(100.0);
    desk.conditioner(1000.0, 0);
    desk.exchanger(50.0, 0);
    desk.heater(300.0, 0);
    for unit in desk.catalogue.units.values_mut() {
        unit.set_point = if unit.sort == catalogue::UnitSort::Heater { Celsius(26.0) } else { Celsius(35.0) };
    }
    let (running, notes) = desk
        .with(|case| {
            super::duty::units(case)
                .map(|(running, notes)| (running.iter().map(|runs| runs.unit.duty).collect::<Vec<_>>(), notes))
        })
        .unwrap();
    let of = |duty| match duty {
        crate::thermal::Duty::Cools { on, off, .. } | crate::thermal::Duty::Heats { on, off, .. } => (on, off),
    };
    assert_eq!(running.iter().map(|duty| of(*duty)).collect::<Vec<_>>(), [(35.0, 30.0), (33.0, 28.0), (21.0, 26.0)]);
    assert_eq!(notes.len(), 2);
}

#[test]
fn halving_the_step_moves_no_peak() {
    let mut desk = desk(250.0);
    absorptance(&mut desk, 0.8);
    let climate = climate(&desk);
    let envelope = desk.with(|case| Envelope::of(case, &climate)).unwrap();
    let plant = crate::thermal::Plant {
        rooms: desk.with(|case| {
            let load = super::interior::Load::On(crate::heat::heat_sources::Draw::Ordinary);
            super::interior::rooms(case, load, &[], climate.pressure)
        }),
        divider: 0.0,
        units: vec![],
    };
    let highest = |moments: &[Moment], seconds: f64, steps: usize, each: usize| {
        let outdoors = Outdoors::once(&envelope, moments, seconds).from(0, steps * each, each);
        let start = [crate::thermal::Temperatures::even(moments[0].outside + 15.0)];
        let mut engine = crate::thermal::Runner::new(plant.clone(), &start).unwrap();
        engine.advance(&outdoors, usize::MAX).unwrap();
        engine.run().rooms[0].highest.iter().copied().fold(f64::MIN, f64::max)
    };
    for (moments, seconds, steps) in
        [(&climate.hot_day, DAY_STEP_SECONDS, 3 * DAY_STEPS), (&climate.year, 3600.0, climate.year.len())]
    {
        let (whole, half) = (highest(moments, seconds, steps, 1), highest(moments, seconds, steps, 2));
        assert!((whole - half).abs() < 0.05, "{seconds} s: {whole} {half}");
    }
}

#[test]
fn at_the_end_of_a_row_the_sunnier_side_stays_free() {
    let mut desk = desk(10.0);
    for (bearing, covered) in [(270.0, Face::Right), (90.0, Face::Left)] {
        // Facing west in the northern half, the right side looks south; seen from there the left one north.
        desk.project.brief.bearing = Degrees(bearing);
        let found = super::envelope::covered(Installation::EndOfRow, &climate(&desk));
        assert_eq!(found.len(), 1);
        assert_ne!(found[0], covered, "bearing {bearing}");
    }
    let both = super::envelope::covered(Installation::MiddleOfRowAgainstWall, &climate(&desk));
    assert_eq!(both, [Face::Left, Face::Right, Face::Rear]);
}

#[test]
fn a_covered_face_gets_neither_sun_nor_sky() {
    let mut free = desk(10.0);
    free.project.brief.installation = Installation::FreeStanding;
    let climate = climate(&free);
    let sun = sun_gain(&free, &climate);
    let mut walled = free.clone();
    walled.project.brief.installation = Installation::MiddleOfRowAgainstWall;
    assert!(sun_gain(&walled, &climate) < 0.8 * sun);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn more_insulation_never_raises_the_sun_gain(thickness in 5.0..60.0f64, more in 1.0..40.0f64) {
        let mut thin = desk(100.0);
        insulate(&mut thin, thickness);
        let mut thick = thin.clone();
        insulate(&mut thick, thickness + more);
        let climate = climate(&thin);
        prop_assert!(sun_gain(&thick, &climate) <= sun_gain(&thin, &climate));
    }

    #[test]
    fn brighter_paint_never_raises_the_peak(dark in 0.3..1.0f64, share in 0.2..1.0f64, covered in any::<bool>()) {
        let mut one = desk(150.0);
        if covered {
            one.shield(ShieldCover::Full, 25.0);
        }
        absorptance(&mut one, dark);
        let mut other = one.clone();
        absorptance(&mut other, dark * share);
        prop_assert!(peak(&other) <= peak(&one) + 0.01);
    }

    #[test]
    fn more_device_heat_never_lowers_the_peak(watts in 0.0..500.0f64, more in 0.0..300.0f64) {
        prop_assert!(peak(&desk(watts + more)) >= peak(&desk(watts)) - 0.01);
    }
}
