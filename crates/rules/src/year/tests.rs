//! What holds for all checks over time together.

use proptest::prelude::*;

use super::testing::Trial;
use crate::course::Course;
use crate::{Case, OVER_TIME, Outcome, Report, Topic, report};

fn of_year(report: &Report) -> Vec<(&'static str, Outcome)> {
    let checks: Vec<_> = OVER_TIME.iter().map(|check| check.code).collect();
    report
        .findings
        .iter()
        .filter(|finding| checks.contains(&finding.code))
        .map(|finding| (finding.code, finding.outcome))
        .collect()
}

/// Every check over time says that it needs a new run.
#[track_caller]
fn check(change: impl FnOnce(&mut Trial)) {
    let mut trial = Trial::new();
    change(&mut trial);
    for (code, outcome) in of_year(&trial.report()) {
        assert_eq!(outcome, Outcome::NeedsData, "{code}");
    }
}

#[test]
fn each_answers_and_the_first_gives_the_badge_its_figure() {
    let report = Trial::new().report();
    let found = of_year(&report);
    for check in OVER_TIME.iter() {
        assert!(found.iter().any(|(code, _)| *code == check.code), "{} is silent", check.code);
    }
    assert!(found.iter().all(|(_, outcome)| *outcome == Outcome::Holds), "{found:?}");
    let badge = report.badges.iter().find(|badge| badge.topic == Topic::Year).unwrap();
    assert_eq!((badge.outcome, badge.figure), (Outcome::Holds, Some(units::Celsius(48.0).into())));
}

#[test]
fn the_report_as_json_carries_the_badge() {
    let report = serde_json::to_value(Trial::new().report()).unwrap();
    let badges = report["badges"].as_array().unwrap();
    assert_eq!(badges.last().unwrap()["topic"], "year");
    assert_eq!(badges.last().unwrap()["figure"]["number"], 48.0);
}

#[test]
fn none_is_asked_without_a_course() {
    let trial = Trial::new();
    let report = report(&trial.desk.project, &trial.desk.catalogue);
    assert_eq!(of_year(&report), []);
    assert!(report.badges.iter().all(|badge| badge.topic != Topic::Year));
}

#[test]
fn each_needs_data_when_it_is_run_without_one() {
    let trial = Trial::new();
    let case = Case::new(&trial.desk.project, &trial.desk.catalogue);
    for check in OVER_TIME.iter() {
        let findings = (check.run)(check, &case);
        assert!(findings.iter().all(|finding| finding.outcome == Outcome::NeedsData), "{}", check.code);
    }
}

#[test]
fn a_course_of_another_build_needs_data() {
    check(|trial| trial.desk.project.build.devices.clear());
    check(|trial| trial.desk.project.build.climate.clear());
    check(|trial| {
        trial.course.rooms.clear();
    });
    check(|trial| trial.course = Trial::two_rooms().course);
    check(|trial| trial.course.peaks.clear());
    check(|trial| trial.course.unit_years.clear());
    check(|trial| trial.course.units[0].room = 7);
    check(|trial| trial.course.door_open.room = 1);
}

#[test]
fn a_course_cut_to_pieces_never_panics() {
    let changes: [fn(&mut Course); 8] = [
        |course| course.hot_day.highest.clear(),
        |course| course.hot_day.outside.0.clear(),
        |course| course.year.sun.0.truncate(5),
        |course| course.year.outside.0.truncate(5),
        |course| course.room_years[0].devices.clear(),
        |course| course.room_years[0].highest_at = u32::MAX,
        |course| course.peaks[0].hour = u32::MAX,
        |course| course.cold_start.air.clear(),
    ];
    for change in changes {
        let mut trial = Trial::new();
        change(&mut trial.course);
        assert!(!of_year(&trial.report()).is_empty());
    }
}

#[test]
fn the_worst_of_the_year_is_said_on_its_badge() {
    let mut trial = Trial::new();
    trial.course.residual = 0.1;
    let badges = trial.report().badges;
    let badge = badges.iter().find(|badge| badge.topic == Topic::Year).unwrap();
    assert_eq!((badge.outcome, badge.figure), (Outcome::Fails, Some(units::Celsius(48.0).into())));
    assert_eq!(badge.said.shown(units::System::Metric), "fails: closed balance");
}

/// Every figure of a course that is handed over, to be set to something absurd.
fn figures(course: &mut Course) -> Vec<&mut f64> {
    let Course {
        rooms, room_years, unit_years, peaks, batteries, door_open, cooling_lost, grid_lost, cold_start, ..
    } = course;
    let mut all = vec![&mut course.residual, &mut course.hot_day.step];
    for room in rooms {
        all.push(&mut room.cold_limit);
        all.extend(&mut room.hot_limit);
    }
    for year in room_years {
        all.extend([&mut year.highest, &mut year.lowest, &mut year.mean, &mut year.hours_below]);
        all.extend(&mut year.hours_above);
        for device in &mut year.devices {
            all.extend([&mut device.highest, &mut device.lowest]);
            all.extend([&mut device.hours_above, &mut device.hours_below].into_iter().flatten());
        }
    }
    for year in unit_years {
        all.extend([&mut year.hours, &mut year.heat, &mut year.electricity]);
    }
    for peak in peaks {
        all.extend([&mut peak.devices, &mut peak.sun, &mut peak.envelope, &mut peak.divider]);
        all.extend([&mut peak.units, &mut peak.stored]);
    }
    for one in batteries {
        all.extend([&mut one.mean, &mut one.highest, &mut one.lowest, &mut one.ageing, &mut one.hours_below_freezing]);
    }
    all.extend(&mut grid_lost.minutes);
    for run in [door_open, cooling_lost, &mut grid_lost.heat, cold_start] {
        all.extend(&mut run.minutes);
    }
    all
}

/// What a figure should never be, beside some that it may.
fn absurd() -> impl Strategy<Value = f64> {
    let never = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e308, -1e308, 1e-300, 0.0, -1.0];
    prop_oneof![proptest::sample::select(never.to_vec()), -150.0..150.0]
}

proptest! {
    #[test]
    fn absurd_figures_never_panic_and_never_come_out_as_numbers(
        changes in proptest::collection::vec((any::<proptest::sample::Index>(), absurd()), 1..4),
        row in absurd(),
        chemistry in 0_usize..4,
    ) {
        use catalogue::Chemistry::{Lead, Lithium, Nickel};
        let mut trial = Trial::new();
        let battery = trial.battery;
        trial.change(battery, |device| device.chemistry = [Some(Lead), Some(Lithium), Some(Nickel), None][chemistry]);
        for (place, figure) in changes {
            let mut all = figures(&mut trial.course);
            **place.get_mut(&mut all) = figure;
        }
        let course = &mut trial.course;
        course.hot_day.highest[0].0.fill(row as f32);
        course.hot_day.outside.0.fill(row as f32);
        course.year.sun.0.fill(row as f32);
        course.year.outside.0[super::testing::HOTTEST as usize] = row as f32;
        course.door_open.air[0].0.fill(row as f32);
        for finding in trial.report().findings.iter().filter(|finding| finding.code.starts_with('Y')) {
            let figures = [finding.given, finding.allowed, finding.margin].into_iter().flatten();
            for value in figures.chain(finding.working.iter().map(|step| step.value)) {
                prop_assert!(value.number.is_finite(), "{finding:?}");
            }
            if finding.outcome == Outcome::OutOfRange {
                prop_assert!(finding.given.is_none() && !finding.because.is_empty(), "{finding:?}");
            }
        }
    }
}
