//! Batteries and their plants against published values (`published/backup.toml`).

use catalogue::Chemistry;
use rules::backup::bus_window::WINDOW;
use rules::backup::formulas::worksheet::{Period, corrected, sections, uncorrected};
use rules::backup::formulas::{hydrogen, modules, peukert, recharge, runtime, string, temperature};
use rules::power::code::fire_thresholds;
use tests::published::{number, rows};
use toml::Table;

fn published(kind: &str) -> Vec<Table> {
    rows(include_str!("../published/backup.toml"), kind)
}

fn numbers(row: &Table, field: &str) -> Vec<f64> {
    let all = row[field].as_array().unwrap_or_else(|| panic!("{field} of {row:?}"));
    all.iter().map(|one| one.as_float().expect("a number")).collect()
}

/// A failure names the row and its source.
#[track_caller]
fn check(row: &Table, found: Option<f64>, expected: f64, within: f64) {
    let (id, source) = (&row["id"], &row["source"]);
    let near = found.is_some_and(|found| (found - expected).abs() <= within);
    assert!(near, "{id}: {found:?} instead of {expected} ± {within} ({source})");
}

/// Rounding of exact values.
const EXACT: f64 = 1e-9;

#[test]
fn strings_have_the_published_voltages() {
    for row in published("string") {
        for (of_cell, volts) in numbers(&row, "cell_volts").into_iter().zip(numbers(&row, "volts")) {
            check(&row, Some(string::volts(number(&row, "cells"), of_cell)), volts, EXACT);
        }
    }
    for row in published("float") {
        let cells = number(&row, "cells");
        let at_25 = number(&row, "volts_at_25") / cells;
        let found = string::float_volts(cells, at_25, number(&row, "per_kelvin"), number(&row, "celsius"));
        check(&row, Some(found), number(&row, "volts"), number(&row, "within"));
    }
}

#[test]
fn modules_are_counted_as_published() {
    for row in published("modules") {
        let of = |field: &str| number(&row, field);
        let found = modules::needed(of("load"), of("recharge"), of("module"), true);
        assert_eq!(found.map(i64::from), row["modules"].as_integer(), "{}", row["id"]);
    }
}

#[test]
fn a_discharge_lasts_as_published() {
    for row in published("peukert") {
        let of = |field: &str| number(&row, field);
        let found = peukert::hours(of("amp_hours"), of("rate_hours"), of("amperes"), of("exponent"));
        check(&row, found, of("hours"), of("within") * of("hours"));
    }
    for row in published("lithium") {
        let of = |field: &str| number(&row, field);
        let found = runtime::hours(of("energy"), 1.0, of("used"), of("power"));
        check(&row, found, of("hours"), of("within") * of("hours"));
    }
}

#[test]
fn cells_are_sized_as_published() {
    for row in published("sizing") {
        let of = |field: &str| number(&row, field);
        let periods = [Period { amperes: of("amperes"), hours: of("hours") }];
        let rate = |hours: f64| peukert::capacity_rate(hours, of("hours"), 1.15);
        let bare = sections(&periods, rate).map(|sizes| uncorrected(&sizes, 0.0));
        let factor = temperature::lead_factor(of("celsius")).expect("within the table");
        let found = bare.map(|bare| corrected(bare, factor, of("ageing"), of("margin")));
        check(&row, found, of("amp_hours"), of("within") * of("amp_hours"));
    }
}

#[test]
fn a_whole_worksheet_comes_out_step_by_step() {
    for row in published("worksheet") {
        let of = |field: &str| number(&row, field);
        let rates: Vec<(f64, f64)> = numbers(&row, "rate_minutes").into_iter().zip(numbers(&row, "rate")).collect();
        let rate = |hours: f64| {
            let minutes = hours * 60.0;
            rates.iter().find(|(at, _)| (at - minutes).abs() < 1e-6).map(|(_, rate)| *rate)
        };
        let periods: Vec<Period> = numbers(&row, "amperes")
            .into_iter()
            .zip(numbers(&row, "minutes"))
            .map(|(amperes, minutes)| Period { amperes, hours: minutes / 60.0 })
            .collect();
        // The example applies its one temperature factor to every section, so that it may be applied to all at once.
        let sizes = sections(&periods, rate).expect("a rate for each time");
        let expected = numbers(&row, "sections");
        assert_eq!(sizes.len(), expected.len(), "{}", row["id"]);
        for (size, expected) in sizes.iter().zip(expected) {
            check(&row, Some(size * of("temperature")), expected, of("within"));
        }
        let bare = uncorrected(&sizes, 0.0);
        check(&row, Some(bare * of("temperature")), of("uncorrected"), of("within"));
        let found = corrected(bare, of("temperature"), of("ageing"), of("margin"));
        check(&row, Some(found), of("amp_hours"), of("within"));
    }
}

#[test]
fn cold_takes_what_is_published() {
    for row in published("factor") {
        for (fahrenheit, factor) in numbers(&row, "fahrenheit").into_iter().zip(numbers(&row, "factor")) {
            check(&row, temperature::lead_factor((fahrenheit - 32.0) / 1.8), factor, EXACT);
        }
    }
    for row in published("range") {
        let (from, to) = temperature::range(Chemistry::Lead);
        assert_eq!(vec![from, to], numbers(&row, "celsius"), "{}", row["id"]);
        check(&row, temperature::lead_factor(number(&row, "reference")), 1.0, EXACT);
        // Just within and just outside.
        assert!(temperature::lead_factor(from).is_some() && temperature::lead_factor(to).is_some());
        assert_eq!((temperature::lead_factor(from - 0.01), temperature::lead_factor(to + 0.01)), (None, None));
    }
}

#[test]
fn charging_takes_the_published_current() {
    for row in published("recharge") {
        let of = |field: &str| number(&row, field);
        let found = recharge::amperes(of("factor"), of("amp_hours") * of("taken"), of("hours"));
        check(&row, found, of("amperes"), of("within") * of("amperes"));
    }
}

#[test]
fn hydrogen_asks_for_the_published_air() {
    let of_lead = hydrogen::gas(Chemistry::Lead).expect("lead gives gas");
    for row in published("gas") {
        let vented = hydrogen::VENTED_LEAD;
        assert_eq!(vec![vented.float, vented.boost], numbers(&row, "vented"), "{}", row["id"]);
        assert_eq!(vec![of_lead.float, of_lead.boost], numbers(&row, "regulated"), "{}", row["id"]);
    }
    for row in published("hydrogen") {
        let of = |field: &str| number(&row, field);
        let gas = if row["charge"].as_str() == Some("float") { of_lead.float } else { of_lead.boost };
        let flow = hydrogen::flow(of("cells"), gas, of("strings") * of("amp_hours"));
        check(&row, Some(flow), of("flow"), EXACT);
        // Printed to three figures.
        check(&row, Some(hydrogen::opening(flow)), of("opening"), 0.05);
        let twice = hydrogen::flow(of("cells"), gas, 2.0 * of("strings") * of("amp_hours"));
        check(&row, Some(twice), 2.0 * of("flow"), EXACT);
    }
}

#[test]
fn fire_codes_ask_for_more_from_the_published_energy_on() {
    let chemistry = |row: &Table| match row["chemistry"].as_str() {
        Some("lithium") => Chemistry::Lithium,
        Some("lead") => Chemistry::Lead,
        other => panic!("{other:?}"),
    };
    for row in published("threshold") {
        check(
            &row,
            Some(fire_thresholds(chemistry(&row)).first().map_or(0.0, |lowest| lowest.value / 1000.0)),
            number(&row, "energy"),
            0.0,
        );
    }
    for row in published("energy") {
        let of = |field: &str| number(&row, field);
        let held = runtime::energy(of("cells"), of("cell_volts"), of("strings") * of("amp_hours"));
        check(&row, Some(held / 1000.0), of("energy"), EXACT);
        assert_eq!(
            row["above"].as_bool(),
            Some(fire_thresholds(Chemistry::Lead).iter().any(|one| held > one.value)),
            "{}",
            row["id"]
        );
    }
}

#[test]
fn equipment_works_within_the_published_window() {
    for row in published("window") {
        assert_eq!(vec![WINDOW.0, WINDOW.1], numbers(&row, "volts"), "{}", row["id"]);
    }
}
