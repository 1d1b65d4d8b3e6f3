//! Courses over day and year of the shipped samples: plausible, closed in energy, and near the steady design hour.
//!
//! `cargo test -p tests --test course -- --nocapture` prints each as a page of text.

use std::fmt::Write as _;
use std::io::Read as _;

use catalogue::{Catalogue, sample};
use flate2::read::GzDecoder;
use project::{Place, Project, samples};
use rules::course::{Course, PreparedClimate, Series, Span, run};
use rules::{Case, report};

fn course(project: &Project, catalogue: &Catalogue) -> Course {
    let climate = PreparedClimate::of(&project.brief, None).expect("a climate");
    run(&Case::new(project, catalogue), &climate).expect("a course")
}

/// Inside air of the design hour, °C: the figure of H04.
/// Inside air of the design hour. What stands in the plinth is as warm as outdoors by either method, and is left out.
fn design_hour(project: &Project, catalogue: &Catalogue) -> f64 {
    let mut project = project.clone();
    project.build.devices.retain(|device| !matches!(device.at, Place::Floor { plinth: true, .. }));
    let findings = report(&project, catalogue).findings;
    let air = findings.iter().find(|finding| finding.code == "H04").and_then(|finding| finding.given);
    air.expect("an inside air").number
}

fn highest(series: &Series) -> f64 {
    series.range().expect("a day has steps").1
}

#[test]
fn the_samples_have_plausible_courses() {
    let catalogue = sample();
    for sample in samples() {
        let (project, name) = (&sample.project, &sample.name);
        let found = course(project, &catalogue);
        println!("{}", told(project, &catalogue, &found));
        assert!(found.residual.abs() < 1e-6, "{name}: residual {}", found.residual);
        for peak in &found.peaks {
            assert!(peak.devices > 0.0 && peak.sun >= 0.0, "{name}: {peak:?}");
        }
        // The settled hot day against the steady design hour: the same draw, outdoor air and units. The design hour puts
        // 753 W/m² on three faces at once in a wind of 3.4 m/s; the day has its own sun, 1 m/s, and masses that lag behind.
        let (hour, day) = (design_hour(project, &catalogue), highest(&found.hot_day.highest[0]));
        assert!((hour - day).abs() < 3.0, "{name}: design hour {hour:.1}, hot day {day:.1}");
        let outside = found.hot_day.outside.range().expect("a day has steps");
        let near = |found: f64, expected: f64| (found - expected).abs() < 0.5;
        assert!(near(outside.1, project.brief.hottest.0), "{name}: {outside:?}");
        assert!(near(outside.1 - outside.0, project.brief.daily_range.0), "{name}: {outside:?}");
        for (room, year) in found.rooms.iter().zip(&found.room_years) {
            assert!(year.lowest < year.mean && year.mean < year.highest, "{name}: {year:?}");
            assert!(year.highest < 70.0 && year.lowest > room.cold_limit, "{name}: {year:?}");
        }
        for unit in &found.unit_years {
            assert!(unit.hours <= 8760.0 && unit.most_starts <= 20, "{name}: {unit:?}");
        }
    }
}

#[test]
fn each_hour_of_sun_is_in_daylight() {
    let catalogue = sample();
    let samples = samples();
    let found = course(&samples[0].project, &catalogue);
    let Span { sun, sun_height, faces, .. } = &found.year;
    let mut lit = 0;
    for hour in 0..8760 {
        let (light, height) = (sun.at(hour).expect("8760 hours"), sun_height.at(hour).expect("8760 hours"));
        let on_faces: f64 = faces.iter().filter_map(|face| face.at(hour)).sum();
        assert!(light >= 0.0 && on_faces >= 0.0);
        // A clear sky still shines a little with the sun just below the horizon.
        assert!(height > -1.0 || light == 0.0, "hour {hour}: {light} W/m² at {height}°");
        lit += usize::from(light > 0.0);
    }
    assert!((4000..4800).contains(&lit), "{lit} hours of light");
}

/// A course in a page of text.
fn told(project: &Project, catalogue: &Catalogue, course: &Course) -> String {
    let mut text = String::new();
    let _ = writeln!(text, "== {} · {}", project.name, course.weather);
    for note in &course.notes {
        let _ = writeln!(text, "   note: {note}");
    }
    let _ = writeln!(text, "   design hour {:.1} °C", design_hour(project, catalogue));
    for (name, day) in [("hot day", &course.hot_day), ("cold day", &course.cold_day)] {
        let _ = writeln!(text, "   {name}: hour, outdoors, sun, its height; each face; air and highest; duty");
        for hour in (0..24).step_by(3) {
            let step = hour * 6 + 3;
            let at = |series: &Series| series.at(step).unwrap_or(f64::NAN);
            let row = |all: &[Series]| all.iter().map(|one| format!(" {:5.1}", at(one))).collect::<String>();
            let _ =
                write!(text, "   {hour:2} {:6.1} {:5.0} {:5.1} |", at(&day.outside), at(&day.sun), at(&day.sun_height));
            let _ = writeln!(
                text,
                "{} |{}{} |{}",
                row(&day.faces),
                row(&day.air),
                row(&day.highest),
                day.duty.iter().map(|duty| format!(" {:.2}", at(duty))).collect::<String>()
            );
        }
    }
    for (room, year) in course.rooms.iter().zip(&course.room_years) {
        let limits = (room.cold_limit, room.hot_limit);
        let _ = writeln!(
            text,
            "   room {:?}: {:.1} to {:.1} °C, mean {:.1}; limits {limits:?}: above {:?} h, below {:.1} h",
            room.name, year.lowest, year.highest, year.mean, year.hours_above, year.hours_below
        );
    }
    for (unit, year) in course.units.iter().zip(&course.unit_years) {
        let _ = writeln!(text, "   {}: {year:?}", unit.name);
    }
    let _ = writeln!(text, "   {:?}\n   {:?}", course.peaks, course.batteries);
    let transients = [
        ("door open", &course.door_open),
        ("cooling lost", &course.cooling_lost),
        ("supply lost", &course.grid_lost.heat),
        ("start from cold", &course.cold_start),
    ];
    for (name, transient) in transients {
        let air: Vec<_> = transient.air.iter().map(|air| [0, 30, 120, 480].map(|minute| air.at(minute))).collect();
        let _ = writeln!(text, "   {name}: {:?} min {:?} {air:?}", transient.minutes, transient.device);
    }
    let lost = &course.grid_lost;
    let ends = (lost.volts.range(), lost.load.range(), lost.volts.len());
    let _ =
        writeln!(text, "   strings: {:?} min, taken off {}, {ends:?} {}", lost.minutes, lost.taken_off, lost.because);
    let _ = writeln!(text, "   residual {:e}", course.residual);
    text
}

#[test]
fn a_weather_file_makes_a_course_and_says_what_was_made_of_it() {
    let catalogue = sample();
    let samples = samples();
    let project = &samples[0].project;
    let mut bytes = Vec::new();
    let packed = &include_bytes!("../reference/weather/desert_tmy.epw.gz")[..];
    GzDecoder::new(packed).read_to_end(&mut bytes).expect("the file unpacks");
    let weather = climate::read_epw(&bytes).expect("a weather file");
    let climate = PreparedClimate::of(&project.brief, Some(&weather)).expect("a climate");
    let found = run(&Case::new(project, &catalogue), &climate).expect("a course");
    println!("{}", told(project, &catalogue, &found));
    assert_eq!(found.weather, weather.name);
    let outside = found.year.outside.range().expect("a year has hours");
    let file = weather.air_statistics().expect("a year of air");
    assert!((outside.1 - file.max).abs() < 0.01 && (outside.0 - file.min).abs() < 0.01, "{outside:?}");
    assert!(found.residual.abs() < 1e-6 && found.room_years[0].highest > outside.1);
    // Each face's light of the year is that of the light year, beam and all.
    let peak = highest(&found.year.faces[4]);
    assert!((900.0..1200.0).contains(&peak), "{peak}");
}
