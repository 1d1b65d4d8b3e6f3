//! Daily cycles against printed values (`published/cycles.toml`).

use climate::{DailyCycle, daily_cycle};
use tests::published::rows;
use toml::Table;

fn published(kind: &str) -> Vec<(Table, &'static DailyCycle)> {
    let with_cycle = rows(include_str!("../published/cycles.toml"), kind).into_iter().map(|row| {
        let cycle = row["cycle"].as_str().and_then(daily_cycle).unwrap_or_else(|| panic!("{} has no cycle", row["id"]));
        (row, cycle)
    });
    with_cycle.collect()
}

/// The value is the printed one of this field, where it is printed.
fn check(row: &Table, field: &str, found: f64, within: f64) {
    if let Some(printed) = row.get(field) {
        let printed = printed.as_float().expect("a number with a point");
        assert!((found - printed).abs() <= within, "{} {field}: {found} instead of {printed}", row["id"]);
    }
}

#[test]
fn printed_hours_are_as_printed() {
    for (row, cycle) in published("printed") {
        let hour = row["hour"].as_integer().expect("an hour");
        check(&row, "air", cycle.air_at(hour as f64), 0.0);
        check(&row, "sun", cycle.sun_at(hour as f64).expect("a printed sun"), 0.0);
    }
}

#[test]
fn lowest_highest_and_sums_are_as_published() {
    for (row, cycle) in published("range") {
        let (lowest, highest) =
            cycle.air.iter().fold((f64::MAX, f64::MIN), |(low, high), air| (low.min(*air), high.max(*air)));
        check(&row, "lowest", lowest, 0.0);
        check(&row, "highest", highest, 0.0);
        check(&row, "mean", cycle.air.iter().sum::<f64>() / 24.0, 0.1);
        let sun_of_day: f64 = cycle.sun.into_iter().flatten().sum();
        check(&row, "sun_of_day", sun_of_day, 0.01 * 9270.0);
    }
}

#[test]
fn between_printed_hours_it_is_read_along_a_straight_line() {
    for (row, cycle) in published("between") {
        check(&row, "air", cycle.air_at(row["hour"].as_float().expect("an hour")), 0.0);
    }
}
